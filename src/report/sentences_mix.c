/* What is wrong with a mix, and what else is used up. */
#include "report/sentences.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/measure.h"
#include "base/number.h"

#include <math.h>
#include <string.h>

/* "Two-part oil, coat 2 on top"; the name alone of a mix without a job. */
static const char *whose(struct arena *arena, const struct mix_warning *warning)
{
    if (warning->coat == 0)
        return warning->finish->name;
    return arena_textf(arena, "%s, coat %d%s%s", warning->finish->name, warning->coat,
                       warning->piece ? " on " : "", warning->piece ? warning->piece : "");
}

static const char *split_words(struct arena *arena, const struct mix_warning *warning, enum unit_system units)
{
    double minutes = warning->minutes < 1e9 ? warning->minutes : 1e9;
    return arena_textf(arena,
                       "%s: %s in one pot has a pot life of %s and takes %s to apply by %s: so %d mixes, one "
                       "after the other",
                       warning->finish->name, volume_format(warning->volume_l, units).text,
                       span_format((int64_t)warning->pot_life_min).text,
                       span_format((int64_t)ceil(minutes)).text, tool_name(warning->tool), warning->count);
}

static const char *cup_words(struct arena *arena, const struct mix_warning *warning, enum unit_system units)
{
    return arena_textf(arena,
                       "%s: %s in one cup heats itself and has a pot life of %s, spread at once in a shallow "
                       "tray no deeper than %s one of about %s (common practice, from memory); %s",
                       warning->finish->name, mass_format(warning->mass_g, units).text,
                       span_format((int64_t)warning->minutes).text, units == UNITS_US ? "3/8 in" : "10 mm",
                       span_format((int64_t)warning->pot_life_min).text, caution_rider());
}

const char *mix_warning_words(struct arena *arena, const struct mix_warning *warning, enum unit_system units)
{
    const char *of = whose(arena, warning);
    switch (warning->kind) {
    case MIX_WARNING_DEAD:
        return arena_textf(arena, "%s: at %s its pot life ends before %s", of,
                           temperature_format(warning->temperature_c, units).text,
                           warning->working_min > 0 ? "the gun is clean" : "its induction ends");
    case MIX_WARNING_PART:
        return arena_textf(arena,
                           "%s: one part takes %s min, longer than a mix can be applied (%s min at %s)", of,
                           number_round(warning->minutes, 0).text, number_round(warning->working_min, 0).text,
                           temperature_format(warning->temperature_c, units).text);
    case MIX_WARNING_SCALE:
        return arena_textf(arena, "%s: a scale in steps of %s g cannot keep the ratio", of,
                           number_significant(warning->scale_g, 6).text);
    case MIX_WARNING_CUP:
        return cup_words(arena, warning, units);
    case MIX_WARNING_LITTLE:
        return arena_textf(arena, "%s: %s of %s is too little to be weighed in the ratio in steps of %s g",
                           of, mass_format(warning->mass_g, units).text,
                           warning->finish->components[warning->component].name,
                           number_significant(warning->scale_g, 6).text);
    case MIX_WARNING_SPLIT:
        break;
    }
    return split_words(arena, warning, units);
}

const char *pack_words(struct arena *arena, const char *label)
{
    struct buf text;
    buf_init(&text, arena);
    for (const char *at = label; *at; at++) {
        bool litres = *at == 'l' && at >= label + 2 && at[-1] == ' ' && at[-2] >= '0' && at[-2] <= '9' &&
                      !(at[1] >= 'a' && at[1] <= 'z');
        buf_add_char(&text, litres ? 'L' : *at);
    }
    return text.text;
}

bool sundry_is_liquid(const struct sundry *sundry)
{
    return strcmp(sundry->rule->unit, "ml") == 0;
}

const char *sundry_name(struct arena *arena, const struct sundry *sundry)
{
    if (sundry->grit > 0)
        return arena_textf(arena, "%s, grit %d", sundry->rule->name, sundry->grit);
    return sundry->detail ? arena_textf(arena, "%s, %s", sundry->rule->name, sundry->detail)
                          : sundry->rule->name;
}

const char *sundry_amount(struct arena *arena, const struct sundry *sundry, enum unit_system units)
{
    if (sundry_is_liquid(sundry))
        return arena_text(arena, volume_format(sundry->amount / 1000, units).text);
    if (strcmp(sundry->rule->unit, "pcs") == 0)
        return arena_textf(arena, "%d x", sundry->whole);
    return arena_textf(arena, "%d %s", sundry->whole, sundry->rule->unit);
}
