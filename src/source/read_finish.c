#include "source/read_finish.h"

#include "base/arena.h"
#include "base/text.h"
#include "finish/caution.h"
#include "format/path.h"
#include "source/read_finish_parts.h"
#include "source/read_words.h"

#include <string.h>

enum { SHORT_MOST = 16, COATS_MOST = 20, COATS_A_DAY_MOST = 12, RESISTANCE_BEST = 3 };

static const char *const keys[] = {
    "format",  "finish",          "name",        "short",    "family",   "dries-by",    "components", "kits",
    "mix-by",  "ratio-tolerance", "induction",   "pot-life", "coverage", "solids",      "by",         "coats",
    "flip",    "times",           "later-times", "wipe-off", "polish",   "late-recoat", "between",    "air",
    "resists", "cautions",        "solvent",     "voc",      "sources",
};

/* What a finish is decides what may go over what; stains and paints are colour. */
static const char *const families[] = {
    "oil", "hardwax-oil", "oil-varnish", "shellac", "lacquer", "catalysed", "waterborne", "epoxy",
    "wax", "mineral-oil", "soap",        "lye",     "paint",   "primer",    "stain",      "filler",
};

bool family_colours(const char *family)
{
    return strcmp(family, "stain") == 0 || strcmp(family, "paint") == 0;
}

static bool small_id(const char *text)
{
    size_t length = strspn(text, "abcdefghijklmnopqrstuvwxyz0123456789-");
    return text[length] == '\0' && text[0] != '-' && text[length - 1] != '-' && !strstr(text, "--");
}

static void read_names(struct json_at file, struct finish *finish)
{
    const char *drying[DRYING_COUNT];
    int family = 0, dries_by = 0;
    struct json_at id = json_member(file, "finish");
    if (json_text(id, "the finish's id", &finish->id) && !small_id(finish->id))
        json_refuse(id, "an id of small letters, digits and hyphens");
    json_text(json_member(file, "name"), "the finish's name", &finish->name);
    finish->short_name = finish->name;
    if (json_has(file, "short")) {
        struct json_at name = json_member(file, "short");
        if (json_text(name, "a short name for tables", &finish->short_name) &&
            text_width(finish->short_name) > SHORT_MOST)
            json_refuse(name, "a name of at most 16 characters");
    }
    json_choice(json_member(file, "family"), families, sizeof families / sizeof families[0], &family);
    finish->family = families[family];
    finish->colours = family_colours(finish->family);
    for (int i = 0; i < DRYING_COUNT; i++)
        drying[i] = finish_drying_name((enum finish_drying)i);
    json_choice(json_member(file, "dries-by"), drying, DRYING_COUNT, &dries_by);
    finish->dries_by = (enum finish_drying)dries_by;
}

static void read_tools(struct json_at list, struct finish *finish)
{
    bool first = true;
    if (!json_is_list(list) || json_size(list) == 0) {
        json_refuse(list, "a list of tools such as [\"brush\"]");
        return;
    }
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        enum tool tool;
        if (!read_tool(item, &tool))
            continue;
        if (finish->by[tool])
            json_refuse(item, "each tool once");
        finish->by[tool] = true;
        finish->usual_tool = first ? tool : finish->usual_tool;
        first = false;
    }
}

static void read_coats(struct json_at at, struct finish *finish)
{
    static const char *const coat_keys[] = {"usual", "most", "a-day"};
    if (!json_object(at, "the coats", coat_keys, 3))
        return;
    json_count(json_member(at, "usual"), COATS_MOST, &finish->coats_usual);
    json_count(json_member(at, "most"), COATS_MOST, &finish->coats_most);
    if (json_has(at, "a-day"))
        json_count(json_member(at, "a-day"), COATS_A_DAY_MOST, &finish->coats_a_day);
}

static void read_resistances(struct json_at at, struct finish *finish)
{
    const char *names[RESISTANCE_COUNT];
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        names[i] = resistance_name((enum resistance)i);
    if (!json_object(at, "what it resists", names, RESISTANCE_COUNT))
        return;
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        json_level(json_member(at, names[i]), RESISTANCE_BEST, &finish->resists[i]);
}

static void read_cautions(struct json_at list, struct finish *finish)
{
    struct arena *arena = list.doc->reading->arena;
    size_t count;
    const struct caution *known = caution_table(&count);
    const char **words = ARENA_ARRAY(arena, count, const char *);
    bool *seen = ARENA_ARRAY(arena, count, bool);
    for (size_t i = 0; i < count; i++)
        words[i] = known[i].word;
    if (!json_list(list, "a list of cautions"))
        return;
    const char **kept = ARENA_ARRAY(arena, json_size(list), const char *);
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        int i;
        if (!json_choice(item, words, count, &i))
            continue;
        if (seen[i])
            json_refuse(item, "each caution once");
        seen[i] = true;
        kept[finish->caution_count++] = words[i];
    }
    finish->cautions = kept;
}

static void read_sources(struct json_at at, struct finish *finish)
{
    struct arena *arena = at.doc->reading->arena;
    if (!json_is_object(at)) {
        json_refuse(at, "the sources as an object in braces");
        return;
    }
    struct finish_source *sources = ARENA_ARRAY(arena, json_size(at), struct finish_source);
    for (struct json_at item = json_first(at); item.node; item = json_next(item)) {
        struct finish_source *source = &sources[finish->source_count];
        source->group = arena_text(arena, json_name(item));
        finish->source_count += json_text(item, "where these figures come from", &source->text);
    }
    finish->sources = sources;
}

static void read_rest(struct json_at file, struct finish *finish)
{
    static const char *const flips[] = {"now", "handle"};
    int flip = 1;
    read_tools(json_member(file, "by"), finish);
    read_coats(json_member(file, "coats"), finish);
    if (json_has(file, "flip"))
        json_choice(json_member(file, "flip"), flips, 2, &flip);
    finish->flip_now = flip == 0;
    read_resistances(json_member(file, "resists"), finish);
    read_cautions(json_member(file, "cautions"), finish);
    if (json_has(file, "solvent"))
        json_text(json_member(file, "solvent"), "the name of its solvent", &finish->solvent);
    read_sources(json_member(file, "sources"), finish);
}

static void read_file(struct json_at file, struct finish_source_file from, struct finish *finish)
{
    static const char *const formats[] = {"coatwright-finish/1"};
    int unused;
    if (!json_object(file, "a finish", keys, sizeof keys / sizeof keys[0]))
        return;
    json_choice(json_member(file, "format"), formats, 1, &unused);
    read_names(file, finish);
    finish_read_components(file, from.currency_digits, finish);
    finish_read_amounts(file, finish);
    finish_read_times(file, finish);
    read_rest(file, finish);
}

const struct finish *finish_read(const struct reading *reading, struct finish_source_file from,
                                 const char **id)
{
    struct finish *finish = ARENA_NEW(reading->arena, struct finish);
    const char *last = path_last(from.path);
    size_t before = reading_mistakes(reading);
    struct json_at root;
    *id = finish->id = arena_text_n(reading->arena, last, strlen(last) - (path_ends(last, ".json") ? 5 : 0));
    finish->name = finish->short_name = "";
    finish->file = from.path;
    finish->shipped = from.shipped;
    if (json_load(reading, from.path, &root)) {
        read_file(root, from, finish);
        *id = finish->id;
    }
    if (reading_mistakes(reading) == before) {
        finish_check(finish, reading->errors);
        texts_locate(reading->texts, reading->errors);
    }
    return reading_mistakes(reading) == before ? finish : NULL;
}
