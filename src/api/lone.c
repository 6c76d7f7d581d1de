/* A mix without a job: what was asked, read word by word. */
#include "api/session.h"

#include "amount/shellac.h"
#include "base/coverage.h"
#include "base/measure.h"
#include "base/number.h"
#include "format/words.h"
#include "source/limit.h"

#include <math.h>
#include <string.h>

enum { CUT_MOST = 10 };

static const double LARGEST_POT_L = 1000;

struct mix_call {
    const struct coatwright_mix_want *asked;
    bool sound;
};

/* Reads a word where one was given; what it must not be is reported as `expected`. */
static bool read(struct coatwright *session, const char *text,
                 bool (*parse)(const char *, double *, struct err *), double *value)
{
    struct err fault;
    return !text || parse(text, value, &fault) || session_misused(session, fault.expected, text);
}

static bool refuse_word(struct coatwright *session, const char *expected, const char *word,
                        const char *const *known, size_t count)
{
    err_add(&session->errors, ERR_USAGE, NULL, NULL, expected,
            words_found(session->arena, word, known, count));
    return false;
}

static bool read_tool(struct coatwright *session, const char *word, struct lone_want *want)
{
    const char *known[TOOL_COUNT];
    size_t count = 0;
    for (int i = 0; i < TOOL_COUNT; i++)
        if (want->finish->by[i])
            known[count++] = tool_name((enum tool)i);
    want->tool = want->finish->usual_tool;
    if (!word || (tool_find(word, &want->tool) && want->finish->by[want->tool]))
        return true;
    return refuse_word(session, words_one_of(session->arena, known, count), word, known, count);
}

static bool read_wood(struct coatwright *session, const char *word, struct lone_want *want)
{
    size_t count;
    const struct wood *table = wood_table(&count);
    const char **known = ARENA_ARRAY(session->arena, count, const char *);
    for (size_t i = 0; i < count; i++)
        known[i] = table[i].name;
    want->wood = word ? wood_find(word) : NULL;
    return !word || want->wood || refuse_word(session, "a wood", word, known, count);
}

/* Below zero and above what anybody dissolves is a slip of the pen. */
static bool read_pounds(struct coatwright *session, const char *text, double *pounds)
{
    if (!read(session, text, number_parse, pounds))
        return false;
    bool sane = !text || (*pounds > 0 && *pounds <= CUT_MOST);
    return sane || session_misused(session, "the pounds of a cut, such as \"2\"", text);
}

/* A cut takes the place of the finish as it comes. */
static bool read_cut(struct coatwright *session, const struct coatwright_mix_want *asked,
                     struct lone_want *want)
{
    if (!read_pounds(session, asked->cut, &want->cut_lb) ||
        !read_pounds(session, asked->from, &want->from_lb))
        return false;
    if (!asked->cut)
        return !asked->from || session_misused(session, "the cut to make as well", asked->from);
    if (strcmp(want->finish->family, "shellac") != 0)
        return session_misused(session, "a shellac, which alone has a cut", asked->finish);
    if (asked->from && want->from_lb <= want->cut_lb)
        return session_misused(session, "a stronger cut to make it from", asked->from);
    want->finish = shellac_recipe(session->arena, want->finish, want->cut_lb, want->from_lb);
    return true;
}

/* "400 ml", "450 g" of the mix, or "1.4 m2" that it shall cover. */
static bool read_amount(struct coatwright *session, const char *text, struct lone_want *want)
{
    struct amount amount;
    if (area_parse(text, LENGTH_NONE, &want->amount, NULL))
        want->by = LONE_AREA;
    else if (!amount_parse(text, &amount, NULL))
        return session_misused(session, "a volume such as \"400 ml\", a mass, or an area such as \"1.4 m²\"",
                               text);
    else
        want->amount = amount.by_mass ? amount.value / 1000 / finish_density(want->finish) * (1 + want->thin)
                                      : amount.value;
    if (!(want->amount > 0))
        return session_misused(session, "an amount above 0", text);
    const struct limit *most = &limits[want->by == LONE_AREA ? LIMIT_SURFACE : LIMIT_MIX];
    return want->amount <= most->most || session_misused(session, most->expected, text);
}

/* The component whose name begins the text, the longest; what follows it is the amount. */
static const char *find_component(const struct finish *finish, const char *text, size_t *component)
{
    size_t longest = 0;
    *component = 0;
    for (size_t i = 0; i < finish->component_count; i++) {
        size_t length = strlen(finish->components[i].name);
        if (length < longest || strncmp(text, finish->components[i].name, length) != 0 || text[length] != ' ')
            continue;
        longest = length;
        *component = i;
    }
    if (longest > 0)
        return text + longest + 1;
    return finish->component_count == 1 ? text : NULL;
}

static bool read_have(struct coatwright *session, const char *text, struct lone_want *want)
{
    struct amount amount;
    const struct finish *finish = want->finish;
    const char *rest = find_component(finish, text, &want->component);
    if (!rest || !amount_parse(rest, &amount, NULL))
        return session_misused(session,
                               arena_textf(session->arena,
                                           "a component and how much there is of it, such as \"%s 180 g\"",
                                           finish->components[finish->component_count - 1].name),
                               text);
    double grams = amount.by_mass
                       ? amount.value
                       : amount.value * finish->components[want->component].density_kg_per_l * 1000;
    want->by = LONE_HAVE;
    want->amount = floor(grams / want->scale_g + 1e-9) * want->scale_g;
    return want->amount > 0 || session_misused(session, "at least one step of the scale", text);
}

static bool read_scale(struct coatwright *session, const char *text, struct lone_want *want)
{
    want->scale_g = want->shop->scale_g;
    if (!read(session, text, mass_parse, &want->scale_g))
        return false;
    return want->scale_g > 0 || session_misused(session, "a step above 0", text);
}

static bool read_want(struct coatwright *session, const struct coatwright_mix_want *asked,
                      struct lone_want *want)
{
    struct shop *shop = ARENA_NEW(session->arena, struct shop);
    shop_default(shop);
    want->shop = shop;
    want->temperature_c = want->finish->at_c;
    want->later = asked->later;
    if (!read_cut(session, asked, want) || !read_tool(session, asked->by, want) ||
        !read_wood(session, asked->wood, want) || !read_scale(session, asked->scale, want) ||
        !read(session, asked->at, temperature_parse, &want->temperature_c) ||
        !read(session, asked->thin, proportion_parse, &want->thin))
        return false;
    return asked->have ? read_have(session, asked->have, want) : read_amount(session, asked->amount, want);
}

static bool mix_alone(struct coatwright *session, void *argument)
{
    struct mix_call *call = argument;
    if (!call->asked->finish || (!call->asked->amount && !call->asked->have))
        return session_misused(session, "a finish and an amount", "");
    const struct finish_table *table = session_table(session, NULL);
    struct lone_want want = {.finish = table ? session_finish(session, table, call->asked->finish) : NULL};
    if (!want.finish || !read_want(session, call->asked, &want))
        return false;
    session->lone = lone_mix_make(session->arena, &want);
    if (!session->lone) {
        double each = lone_largest_l(&want, LARGEST_POT_L);
        return session_misused(session,
                               arena_textf(session->arena,
                                           "an amount that at most %d mixes of %s, the largest that one "
                                           "pot holds and that can be applied, make",
                                           LONE_MIXES_MOST, volume_format(each, UNITS_METRIC).text),
                               call->asked->amount ? call->asked->amount : call->asked->have);
    }
    call->sound = session->lone->sound;
    return true;
}

bool coatwright_mix(struct coatwright *session, const struct coatwright_mix_want *want, bool *sound)
{
    struct coatwright_mix_want asked = COATWRIGHT_MIX_WANT_INIT;
    struct mix_call call = {&asked, false};
    if (!session_given(session, want, "what to mix") ||
        !session_given(session, want->size < sizeof want->size ? NULL : want, "a mix begun with its size"))
        return false;
    memcpy(&asked, want, want->size < sizeof asked ? want->size : sizeof asked);
    bool done = session_guard(session, mix_alone, &call);
    if (sound)
        *sound = call.sound;
    return done;
}
