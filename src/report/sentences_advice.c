/* What would help: the change in words, what it brings, and the patches (RFC 7396) that make it. */
#include "report/sentences.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/measure.h"
#include "base/number.h"

static const char *heating_words(struct arena *arena, const struct change *change, enum unit_system units)
{
    if (change->heating == HEATING_MORE && units == UNITS_US)
        return arena_textf(arena, "%s °F warmer air", number_round(change->to_c * 9 / 5, 0).text);
    const char *degrees = arena_text(arena, temperature_format(change->to_c, units).text);
    return arena_textf(arena,
                       change->heating == HEATING_NIGHTS ? "nights as warm as the day (%s)"
                       : change->heating == HEATING_MORE ? "%s warmer air"
                                                         : "%s day and night",
                       degrees);
}

static const char *delivery_words(enum finish_state state)
{
    return state == STATE_LIGHT_USE ? "delivered as soon as it bears light use"
           : state == STATE_WRAP    ? "delivered as soon as it can be wrapped"
                                    : "delivered as soon as it can be handled";
}

/* ", which resists water and wear less"; "" where it does not resist anything less. */
static const char *less_words(struct arena *arena, unsigned less)
{
    const char *list = "";
    size_t left = 0;
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        left += less >> i & 1;
    if (left == 0)
        return "";
    for (int i = 0; i < RESISTANCE_COUNT; i++) {
        if (!(less >> i & 1))
            continue;
        left--;
        const char *name = i == RESISTS_OUTDOORS ? "weather" : resistance_name((enum resistance)i);
        list = arena_textf(arena, "%s%s%s", list, name, left > 1 ? ", " : left == 1 ? " and " : "");
    }
    return arena_textf(arena, ", which resists %s less", list);
}

static const char *position_words(struct arena *arena, const struct change *change)
{
    const char *what = change->piece                       ? arena_textf(arena, "\"%s\"", change->piece)
                       : change->position == POSITION_HUNG ? "every piece"
                                                           : "every flat piece";
    return arena_textf(arena,
                       change->position == POSITION_STANDING ? "%s standing"
                       : change->position == POSITION_HUNG   ? "%s hung"
                                                             : "%s turned wet, on points",
                       what);
}

static const char *change_words(struct arena *arena, const struct change *change, const struct zone *zone,
                                enum unit_system units)
{
    switch (change->kind) {
    case ALTERNATIVE_PEOPLE:
        return "one more person";
    case ALTERNATIVE_SPRAY:
        return "one more spray place";
    case ALTERNATIVE_DUST:
        return "a separate room for sanding";
    case ALTERNATIVE_RACK:
        return arena_textf(arena, "a rack of %s instead of %s", area_format(change->to_m2, units).text,
                           area_format(change->from_m2, units).text);
    case ALTERNATIVE_EVENING:
        return "an hour more every evening";
    case ALTERNATIVE_SATURDAY:
        return "Saturdays worked as Fridays are";
    case ALTERNATIVE_AIR:
        return heating_words(arena, change, units);
    case ALTERNATIVE_DELIVERY:
        return delivery_words(change->state);
    case ALTERNATIVE_COATS:
        return arena_textf(arena, "%d coat%s of %s instead of %d (schedule \"%s\")", change->coats,
                           change->coats == 1 ? "" : "s", change->finish->id, change->instead_of_coats,
                           change->schedule);
    case ALTERNATIVE_SOONEST:
        return "planned with --soonest";
    case ALTERNATIVE_START:
        return arena_textf(arena, "begun %s", moment_format(zone, change->start_min, MOMENT_PLAIN).text);
    case ALTERNATIVE_LOTS:
        return arena_textf(arena, "\"%s\" in %d lots", change->piece, change->lots);
    case ALTERNATIVE_LAID:
        return position_words(arena, change);
    case ALTERNATIVE_FINISH:
        break;
    }
    return arena_textf(arena, "%s instead of %s%s", change->finish->id, change->instead_of->id,
                       less_words(arena, change->less_resistant));
}

const char *advice_words(struct arena *arena, const struct advice *advice, enum unit_system units)
{
    struct buf text;
    buf_init(&text, arena);
    buf_add(&text, change_words(arena, &advice->change, advice->changed->zone, units));
    if (advice->of)
        buf_addf(&text, " (%s)", advice->of->name);
    for (size_t i = 0; i < advice->harm_count; i++)
        buf_addf(&text, ", which makes %s %s late", advice->harms[i].job->name,
                 span_format(advice->harms[i].late_min).text);
    return text.text;
}

/* ", 20 min more work"; "" where it is the same. */
static const char *work_words(struct arena *arena, const struct advice *advice)
{
    int64_t more = advice->more_work_min;
    if (more == 0)
        return "";
    return arena_textf(arena, ", %s %s work", hours_format(more > 0 ? more : -more).text,
                       more > 0 ? "more" : "less");
}

/* "1 d 4 h sooner, in time"; where nothing was possible before there is no sooner. */
static const char *gain_words(struct arena *arena, const struct advice *advice)
{
    const char *gain = "";
    if (advice->gain_min > 0)
        gain = arena_textf(arena, ", %s sooner%s", span_format(advice->gain_min).text,
                           advice->at_latest ? " or more" : "");
    if (advice->late_min == 0)
        return arena_textf(arena, "%s, in time", gain);
    return advice->gain_min > 0 ? gain : arena_textf(arena, ", %s late", span_format(advice->late_min).text);
}

const char *advice_effect(struct arena *arena, const struct advice *advice, const struct zone *zone,
                          enum moment_style style)
{
    const char *ready = style == MOMENT_DAY_TIME
                            ? ready_words(arena, advice->changed, advice->ready_min)
                            : arena_text(arena, moment_format(zone, advice->ready_min, style).text);
    return arena_textf(arena, "ready %s%s%s%s", ready, advice->at_latest ? " at the latest" : "",
                       gain_words(arena, advice), work_words(arena, advice));
}

const char *change_files(struct arena *arena, const struct advice_change *change)
{
    const char *files = change->files[0];
    for (size_t i = 1; i < change->file_count; i++)
        files = arena_textf(arena, "%s and %s", files, change->files[i]);
    return files;
}

const char *change_patch(struct arena *arena, const struct advice_change *change)
{
    const struct job_writer *writer = change->job->writer;
    return change->in_shop ? writer->shop_change(arena, change->job, change->changed)
                           : writer->job_change(arena, change->job, change->changed);
}

const char *advice_sentence(struct arena *arena, const struct advice *advice, const struct zone *zone,
                            enum unit_system units)
{
    struct buf text;
    buf_init(&text, arena);
    buf_addf(&text, "%s: %s", advice_words(arena, advice, units),
             advice_effect(arena, advice, zone, MOMENT_PLAIN));
    for (size_t i = 0; i < advice->change_count; i++)
        buf_addf(&text, "; in %s: `%s`", change_files(arena, &advice->changes[i]),
                 change_patch(arena, &advice->changes[i]));
    return text.text;
}
