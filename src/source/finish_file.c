#include "source/finish_table.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/text.h"
#include "finish/caution.h"
#include "format/path.h"
#include "source/finish_parts.h"

#include <string.h>

enum { SHORT_MOST = 16 };

static const double um_per_m = 1e6, g_per_kg = 1000;
static const double m2_um_per_l = 1000; /* 1 l at 1 um covers 1000 m2 */

/* What a finish is decides what may go over what; stains and paints are colour. */
static const char *const families[] = {
    "oil",        "hardwax-oil", "oil-varnish", "shellac",     "lacquer", "catalysed",
    "waterborne", "epoxy",       "wax",         "mineral-oil", "soap",    "lye",
    "paint",      "primer",      "stain",       "filler",      "bleach",
};

static const char *const formats[] = {"coatwright-finish/1"}, *const mixes[] = {"volume", "mass"},
                         *const flips[] = {"handle", "now"}, *const late[] = {"scuff", "refuse"};

static struct arena *arena_of(struct field_in in)
{
    return in.at.doc->reading->arena;
}

static void read_format(struct field_in in)
{
    int unused;
    json_choice(in.at, formats, 1, &unused);
}

static bool small_id(const char *text)
{
    size_t length = strspn(text, "abcdefghijklmnopqrstuvwxyz0123456789-");
    return text[length] == '\0' && text[0] != '-' && text[length - 1] != '-' && !strstr(text, "--");
}

static void read_id(struct field_in in)
{
    struct finish *finish = in.record;
    if (json_text(in.at, "the finish's id", &finish->id) && !small_id(finish->id))
        json_refuse(in.at, "an id of small letters, digits and hyphens");
}

static void read_short(struct field_in in)
{
    struct finish *finish = in.record;
    if (json_text(in.at, "a short name for tables", &finish->short_name) &&
        text_width(finish->short_name) > SHORT_MOST)
        json_refuse(in.at, "a name of at most 16 characters");
}

static void read_family(struct field_in in)
{
    struct finish *finish = in.record;
    int family = 0;
    json_choice(in.at, families, sizeof families / sizeof families[0], &family);
    finish->family = families[family];
    finish->colours = strcmp(finish->family, "stain") == 0 || strcmp(finish->family, "paint") == 0;
}

static void read_tools(struct field_in in)
{
    struct finish *finish = in.record;
    bool first = true;
    int tool;
    if (!filled_list(in.at, "a list of tools such as [\"brush\"]"))
        return;
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item)) {
        if (!json_choice(item, tool_names, TOOL_COUNT, &tool))
            continue;
        if (finish->by[tool])
            json_refuse(item, "each tool once");
        finish->by[tool] = true;
        finish->usual_tool = first ? (enum tool)tool : finish->usual_tool;
        first = false;
    }
}

static void read_first(struct field_in in)
{
    finish_read_coverage(in.at, in.record, &((struct finish *)in.record)->first_m2_per_l);
}

static void read_later(struct field_in in)
{
    finish_read_coverage(in.at, in.record, &((struct finish *)in.record)->later_m2_per_l);
}

static void read_wet_film(struct field_in in)
{
    struct finish *finish = in.record;
    double film_m;
    if (!json_quantity(in.at, thickness_parse, &film_m))
        return;
    if (film_m <= 0) {
        json_refuse(in.at, "a thickness above 0");
        return;
    }
    if (film_m > limits[LIMIT_FILM].most) {
        json_refuse(in.at, limits[LIMIT_FILM].expected);
        return;
    }
    finish->wet_film_um = film_m * um_per_m;
    finish->first_m2_per_l = finish->later_m2_per_l = m2_um_per_l / finish->wet_film_um;
}

static void read_dry_film(struct field_in in)
{
    double film_m;
    if (json_quantity(in.at, thickness_parse, &film_m))
        ((struct finish *)in.record)->dry_film_most_um = film_m * um_per_m;
}

#define TOLERANCE                                                                                            \
    {                                                                                                        \
        "tolerance", FIELD_QUANTITY, AT(finish, tolerance), .needed = true, .quantity = &field_share         \
    }

static const struct field rolled_items[] = {
    {"first", FIELD_OWN, .needed = true, .read = read_first},
    {"later", FIELD_OWN, .needed = true, .read = read_later},
    TOLERANCE,
};
static const struct fields rolled = FIELDS("the coverage", rolled_items);
static const struct field poured_items[] = {{"wet-film", FIELD_OWN, .read = read_wet_film}, TOLERANCE};
static const struct fields poured = FIELDS("a coverage by wet film", poured_items);

static void read_how_far(struct field_in in)
{
    fields_read(in.at, json_has(in.at, "wet-film") ? &poured : &rolled, in.record, NULL);
}

static const struct field coats_items[] = {
    {"usual", FIELD_WHOLE, AT(finish, coats_usual), .needed = true, .limit = LIMIT_COATS},
    {"most", FIELD_WHOLE, AT(finish, coats_most), .needed = true, .limit = LIMIT_COATS},
    {"a-day", FIELD_WHOLE, AT(finish, coats_a_day), .limit = LIMIT_COATS_A_DAY},
};
static const struct fields coats = FIELDS("the coats", coats_items);

static void read_coats(struct field_in in)
{
    fields_read(in.at, &coats, in.record, NULL);
}

static bool read_range(struct json_at at, struct span_range *range)
{
    struct json_at pair[2];
    return json_pair(at, "two time spans: from, until", pair) &&
           read_span(pair[0], LIMIT_DRYING, &range->least_min) &&
           read_span(pair[1], LIMIT_DRYING, &range->most_min);
}

enum { NOT_SAID = -1 };

/* What an object of states says itself; the others stay as they are. At first all are needed but those that follow from
 * another one. */
static void read_states(struct json_at object, struct finish_times *times, bool first)
{
    for (int i = 0; i < STATE_COUNT; i++) {
        struct json_at at = json_member(object, finish_state_names[i]);
        struct span_range window;
        bool may_lack = !first || i == STATE_SAND || i == STATE_WRAP;
        if (!at.node && may_lack)
            continue;
        if (i != STATE_RECOAT)
            read_span(at, LIMIT_DRYING, &times->after_min[i]);
        else if (read_range(at, &window)) {
            times->after_min[i] = window.least_min;
            times->recoat_last_min = window.most_min;
        }
    }
}

/* Ready to sand when it may be recoated, to wrap when it may be used: where nothing else is said. */
static void fill_states(struct finish_times *times)
{
    if (times->after_min[STATE_SAND] == NOT_SAID)
        times->after_min[STATE_SAND] = times->after_min[STATE_RECOAT];
    if (times->after_min[STATE_WRAP] == NOT_SAID)
        times->after_min[STATE_WRAP] = times->after_min[STATE_LIGHT_USE];
}

static void read_times(struct field_in in)
{
    struct finish *finish = in.record;
    struct err fault;
    const char *text, *keys[STATE_COUNT + 1];
    for (int i = 0; i < STATE_COUNT; i++) {
        keys[i] = finish_state_names[i];
        finish->first.after_min[i] = NOT_SAID;
    }
    keys[STATE_COUNT] = "at";
    if (!json_object(in.at, "the times", keys, STATE_COUNT + 1))
        return;
    read_states(in.at, &finish->first, true);
    if (json_text(json_member(in.at, "at"), "the reference air, such as \"23 C 50 %\"", &text) &&
        !climate_parse(text, &finish->at_c, &finish->at_humidity, &fault))
        json_refuse(json_member(in.at, "at"), fault.expected);
}

/* From the second coat on: what is not said is as at first. */
static void read_later_times(struct field_in in)
{
    struct finish *finish = in.record;
    finish->later = finish->first;
    if (json_is_object(in.at) && json_size(in.at) == 0)
        json_refuse(in.at, "at least one time");
    if (in.at.node && json_object(in.at, "the later times", finish_state_names, STATE_COUNT))
        read_states(in.at, &finish->later, false);
    fill_states(&finish->first);
    fill_states(&finish->later);
}

/* Of a film that has been built up: what it does not say is as after the second coat. */
static void read_late_times(struct field_in in)
{
    struct finish *finish = in.record;
    const char *keys[STATE_COUNT + 1];
    for (int i = 0; i < STATE_COUNT; i++)
        keys[i] = finish_state_names[i];
    keys[STATE_COUNT] = "after-coat";
    finish->late = finish->later;
    if (!json_object(in.at, "the late times", keys, STATE_COUNT + 1))
        return;
    read_whole(json_member(in.at, "after-coat"), LIMIT_COATS, &finish->late_after);
    read_states(in.at, &finish->late, false);
}

static void read_wipe_off(struct field_in in)
{
    struct finish *finish = in.record;
    finish->has_wipe_off = read_range(in.at, &finish->wipe_off);
}

static void read_polish(struct field_in in)
{
    struct finish *finish = in.record;
    finish->has_polish = read_range(in.at, &finish->polish);
}

static const struct field between_items[] = {
    {"sand", FIELD_WHOLE, AT(finish, between_grit), .limit = LIMIT_GRIT},
    {"scuff", FIELD_WHOLE, AT(finish, between_grit), .limit = LIMIT_GRIT},
};
static const struct fields between = FIELDS("the step between coats", between_items);

static void read_between(struct field_in in)
{
    ((struct finish *)in.record)->between_scuff = json_has(in.at, "scuff");
    if (json_is_object(in.at) && json_size(in.at) != 1)
        json_refuse(in.at, "either \"sand\" or \"scuff\", with a grit");
    else
        fields_read(in.at, &between, in.record, NULL);
}

static void read_temperatures(struct field_in in)
{
    struct finish_air *air = &((struct finish *)in.record)->air;
    double pair[2];
    if (!read_pair(in.at, "the lowest and the highest temperature", &field_temperature, LIMIT_NONE, pair))
        return;
    air->lowest_c = pair[0];
    air->highest_c = pair[1];
}

static void read_humidities(struct field_in in)
{
    struct finish_air *air = &((struct finish *)in.record)->air;
    double pair[2];
    if (!read_pair(in.at, "the lowest and the highest humidity", &field_share, LIMIT_NONE, pair))
        return;
    air->driest = pair[0];
    air->dampest = pair[1];
}

static const struct field air_items[] = {
    {"temperature", FIELD_OWN, .needed = true, .read = read_temperatures},
    {"humidity", FIELD_OWN, .needed = true, .read = read_humidities},
};
static const struct fields air = FIELDS("the air", air_items);

static void read_air(struct field_in in)
{
    fields_read(in.at, &air, in.record, NULL);
}

static void read_resistances(struct field_in in)
{
    struct finish *finish = in.record;
    if (!json_object(in.at, "what it resists", resistance_names, RESISTANCE_COUNT))
        return;
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        read_whole(json_member(in.at, resistance_names[i]), LIMIT_MARK, &finish->resists[i]);
}

static void read_cautions(struct field_in in)
{
    struct finish *finish = in.record;
    bool seen[CAUTION_COUNT] = {false};
    if (!json_list(in.at, "a list of cautions"))
        return;
    const char **kept = ARENA_ARRAY(arena_of(in), json_size(in.at), const char *);
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item)) {
        int i;
        if (!json_choice(item, caution_names, CAUTION_COUNT, &i))
            continue;
        if (seen[i])
            json_refuse(item, "each caution once");
        seen[i] = true;
        kept[finish->caution_count++] = caution_names[i];
    }
    finish->cautions = kept;
}

static void read_voc(struct field_in in)
{
    double voc_kg_per_l;
    if (json_quantity(in.at, density_parse, &voc_kg_per_l))
        ((struct finish *)in.record)->voc_g_per_l = voc_kg_per_l * g_per_kg;
}

static void read_sources(struct field_in in)
{
    struct finish *finish = in.record;
    if (!json_is_object(in.at)) {
        json_refuse(in.at, "the sources as an object in braces");
        return;
    }
    struct finish_source *sources = ARENA_ARRAY(arena_of(in), json_size(in.at), struct finish_source);
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item)) {
        struct finish_source *source = &sources[finish->source_count];
        source->group = arena_text(arena_of(in), json_name(item));
        if (!json_text(item, "where these figures come from", &source->text))
            continue;
        finish->source_count++;
        finish->learned |= strcmp(source->group, "coverage") == 0 && finish_figures_are_learned(source->text);
    }
    finish->sources = sources;
}

/* Needed where there are several components. */
static void read_mix_by(struct field_in in)
{
    struct finish *finish = in.record;
    int way = 0;
    if (in.at.node || finish->component_count > 1)
        json_choice(in.at, mixes, 2, &way);
    finish->mix_by_mass = way == 1;
}

static void read_ratio_tolerance(struct field_in in)
{
    struct finish *finish = in.record;
    if (in.at.node || finish->component_count > 1)
        json_quantity(in.at, share_parse, &finish->ratio_tolerance);
}

/* The components stand before what is reckoned by their density. */
static const struct field items[] = {
    {"format", FIELD_OWN, .needed = true, .read = read_format},
    {"finish", FIELD_OWN, .needed = true, .read = read_id},
    {"name", FIELD_TEXT, AT(finish, name), .needed = true, .expected = "the finish's name"},
    {"short", FIELD_OWN, .read = read_short},
    {"family", FIELD_OWN, .needed = true, .read = read_family},
    {"dries-by", FIELD_WORD, AT(finish, dries_by), .needed = true, WORDS(finish_drying_names)},
    {"components", FIELD_OWN, .needed = true, .read = finish_read_components},
    {"kits", FIELD_OWN, .read = finish_read_kits},
    {"mix-by", FIELD_OWN, .needed = true, .read = read_mix_by},
    {"ratio-tolerance", FIELD_OWN, .needed = true, .read = read_ratio_tolerance},
    {"induction", FIELD_SPAN, AT(finish, induction_min), .limit = LIMIT_DRYING},
    {"pot-life", FIELD_SPAN, AT(finish, pot_life_min), .limit = LIMIT_DRYING},
    {"pot-mass", FIELD_QUANTITY, AT(finish, pot_mass_g), .quantity = &field_mass},
    {"coverage", FIELD_OWN, .needed = true, .read = read_how_far},
    {"by-tool", FIELD_OWN, .read = finish_read_by_tool},
    {"thin-most", FIELD_QUANTITY, AT(finish, thin_most), .quantity = &field_share},
    {"dry-film-most", FIELD_OWN, .read = read_dry_film},
    {"solids", FIELD_QUANTITY, AT(finish, solids), .quantity = &field_share},
    {"by", FIELD_OWN, .needed = true, .read = read_tools},
    {"coats", FIELD_OWN, .needed = true, .read = read_coats},
    {"flip", FIELD_EITHER, AT(finish, flip_now), WORDS(flips)},
    {"times", FIELD_OWN, .needed = true, .read = read_times},
    {"later-times", FIELD_OWN, .needed = true, .read = read_later_times},
    {"late-times", FIELD_OWN, .read = read_late_times},
    {"wipe-off", FIELD_OWN, .read = read_wipe_off},
    {"wipe-off-from", FIELD_WHOLE, AT(finish, wipe_off_from), .limit = LIMIT_COATS},
    {"polish", FIELD_OWN, .read = read_polish},
    {"late-recoat", FIELD_EITHER, AT(finish, refuses_late_recoat), .needed = true, WORDS(late)},
    {"between", FIELD_OWN, .read = read_between},
    {"air", FIELD_OWN, .needed = true, .read = read_air},
    {"resists", FIELD_OWN, .needed = true, .read = read_resistances},
    {"cautions", FIELD_OWN, .needed = true, .read = read_cautions},
    {"food", FIELD_WORD, AT(finish, food), WORDS(contact_names)},
    {"child", FIELD_WORD, AT(finish, child), WORDS(contact_names)},
    {"solvent", FIELD_TEXT, AT(finish, solvent), .expected = "the name of its solvent"},
    {"voc", FIELD_OWN, .read = read_voc},
    {"sources", FIELD_OWN, .needed = true, .read = read_sources},
};
static const struct fields fields = FIELDS("a finish", items);

const struct finish *finish_read(const struct reading *reading, struct finish_source_file from,
                                 const char **id)
{
    struct finish *finish = ARENA_NEW(reading->arena, struct finish);
    const char *last = path_last(from.path);
    size_t before = reading_mistakes(reading);
    struct json_at root;
    *id = arena_text_n(reading->arena, last, strlen(last) - (path_ends(last, ".json") ? 5 : 0));
    *finish = (struct finish){.id = *id,
                              .name = "",
                              .family = families[0],
                              .file = from.path,
                              .shipped = from.shipped,
                              .pot_life_min = SPAN_NEVER,
                              .wipe_off_from = 1,
                              .food = CONTACT_ASK,
                              .child = CONTACT_ASK,
                              .thin_most = -1,
                              .voc_g_per_l = -1};
    if (json_load(reading, from.rule, from.path, &root)) {
        fields_read(root, &fields, finish, &from.currency_digits);
        finish->short_name = finish->short_name ? finish->short_name : finish->name;
        *id = finish->id;
    }
    if (reading_mistakes(reading) == before) {
        finish_check(finish, reading->errors);
        texts_locate(reading->texts, reading->errors);
    }
    return reading_mistakes(reading) == before ? finish : NULL;
}
