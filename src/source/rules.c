#include "source/finish_table.h"

#include "base/arena.h"
#include "finish/caution.h"
#include "job/job.h"
#include "source/field.h"

#include <string.h>

/* Rules in the making, and the names that their words may be. */
struct rule_reader {
    const struct reading *reading;
    const struct finish_folders *folders;
    struct fit_rule *rules;
    struct sundry_rule *sundries;
    size_t count, capacity;
    const char **finishes; /* ids, families, what they dry by, "wood"; NULL: not looked up */
    size_t finish_count;
};

struct rule_file {
    const char *name;   /* "fit.json" */
    const char *format; /* what `format` must say */
    const char *list;   /* the key of the list */
    void (*read)(struct rule_reader *reader, struct json_at rule);
};

/* Every rule of the shipped file, then of the shop's own. */
static void read_files(struct rule_reader *reader, struct rule_file file)
{
    const char *keys[] = {"format", file.list};
    for (int own = 0; own < 2; own++) {
        const char *folder = own ? reader->folders->own : reader->folders->shipped;
        const char *path =
            folder ? arena_textf(reader->reading->arena, "%s/rules/%s", folder, file.name) : NULL;
        struct path_rule rule = {folder ? arena_textf(reader->reading->arena, "%s/rules", folder) : "",
                                 reader->folders->rule.trusted};
        struct json_at root;
        int format;
        if (!path || (own ? reading_missing(reader->reading, path) : file_missing(path)) ||
            !json_load(reader->reading, own ? &rule : NULL, path, &root) ||
            !json_object(root, "a file of rules", keys, 2))
            continue;
        json_choice(json_member(root, "format"), &file.format, 1, &format);
        struct json_at list = json_member(root, file.list);
        if (json_list(list, "a list of rules"))
            for (struct json_at item = json_first(list); item.node; item = json_next(item))
                file.read(reader, item);
    }
    texts_locate(reader->reading->texts, reader->reading->errors);
}

/* A list of words, each one of `known` (NULL: any text). */
static struct fit_words read_words(struct json_at list, const char *expected, const char *const *known,
                                   size_t count)
{
    struct fit_words words = {NULL, 0};
    if (!json_list(list, "a list of words"))
        return words;
    const char **items = ARENA_ARRAY(list.doc->reading->arena, json_size(list), const char *);
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        bool found = known == NULL;
        if (!json_text(item, expected, &items[words.count]))
            continue;
        for (size_t i = 0; i < count && !found; i++)
            found = strcmp(known[i], items[words.count]) == 0;
        if (found)
            words.count++;
        else
            json_refuse_name(item, expected, known, count);
    }
    words.items = items;
    return words;
}

static struct fit_words read_finishes(struct field_in in)
{
    const struct rule_reader *reader = in.context;
    return read_words(in.at, "a finish, a family, or what it dries by", reader->finishes,
                      reader->finish_count);
}

static void read_over(struct field_in in)
{
    ((struct fit_rule *)in.record)->over = read_finishes(in);
}

static void read_under(struct field_in in)
{
    ((struct fit_rule *)in.record)->under = read_finishes(in);
}

static void read_wood(struct field_in in)
{
    size_t count;
    const char *const *woods = wood_word_table(&count);
    ((struct fit_rule *)in.record)->wood = read_words(in.at, "a trait or grain of wood", woods, count);
}

static void read_place(struct field_in in)
{
    ((struct fit_rule *)in.record)->place = read_words(in.at, "a region", region_names, REGION_COUNT);
}

static void read_use(struct field_in in)
{
    ((struct fit_rule *)in.record)->use = read_words(in.at, "a use", use_names, USE_COUNT);
}

static void read_between(struct field_in in)
{
    ((struct fit_rule *)in.record)->between = read_words(in.at, "words of a step", NULL, 0);
}

static void read_without(struct field_in in)
{
    ((struct fit_rule *)in.record)->without = read_words(in.at, "words of a step", NULL, 0);
}

static bool read_state(struct json_at at, enum finish_state *state)
{
    int choice;
    if (!json_choice(at, finish_state_names, STATE_COUNT, &choice))
        return false;
    *state = (enum finish_state)choice;
    return true;
}

static void read_until(struct field_in in)
{
    struct fit_rule *rule = in.record;
    rule->has_until = read_state(in.at, &rule->until);
}

static void read_before(struct field_in in)
{
    struct fit_rule *rule = in.record;
    rule->has_before = read_state(in.at, &rule->before);
}

/* {"water": 2}: one mark. */
static void read_mark(struct field_in in)
{
    struct fit_rule *rule = in.record;
    if (!json_object(in.at, "a mark", resistance_names, RESISTANCE_COUNT))
        return;
    if (json_size(in.at) != 1) {
        json_refuse(in.at, "one mark such as {\"water\": 2}");
        return;
    }
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        if (json_has(in.at, resistance_names[i]) &&
            json_count(json_member(in.at, resistance_names[i]), (int)limits[LIMIT_MARK].most, &rule->least))
            rule->resists = i;
}

static void read_food(struct field_in in)
{
    ((struct fit_rule *)in.record)->food =
        read_words(in.at, "never, ask or made", contact_names, CONTACT_COUNT);
}

static void read_child(struct field_in in)
{
    ((struct fit_rule *)in.record)->child =
        read_words(in.at, "never, ask or made", contact_names, CONTACT_COUNT);
}

static void read_beyond(struct field_in in)
{
    static const char *const words[] = {"thinning", "film"};
    struct fit_rule *rule = in.record;
    int choice;
    if (!json_choice(in.at, words, 2, &choice))
        return;
    rule->thinned_beyond = choice == 0;
    rule->film_beyond = choice == 1;
}

static void read_caution(struct field_in in)
{
    struct fit_rule *rule = in.record;
    if (json_text(in.at, "a caution", &rule->caution) && !caution_known(rule->caution))
        json_refuse(in.at, "a caution of the finish table");
}

/* `{"rule": "grain-not-raised", "off": true}` takes a rule of an earlier file away; drop_rule sees to it. */
static void leave_off(struct field_in in)
{
    (void)in;
}

static const struct field fit_items[] = {
    {"rule", FIELD_TEXT, AT(fit_rule, name), .needed = true, .expected = "the rule's name"},
    {"over", FIELD_OWN, .read = read_over},
    {"under", FIELD_OWN, .read = read_under},
    {"wood", FIELD_OWN, .read = read_wood},
    {"place", FIELD_OWN, .read = read_place},
    {"use", FIELD_OWN, .read = read_use},
    {"between", FIELD_OWN, .read = read_between},
    {"without", FIELD_OWN, .read = read_without},
    {"grit-above", FIELD_WHOLE, AT(fit_rule, grit_above), .limit = LIMIT_GRIT},
    {"grit-below", FIELD_WHOLE, AT(fit_rule, grit_below), .limit = LIMIT_GRIT},
    {"grit-jump-above", FIELD_NUMBER, AT(fit_rule, grit_jump), .limit = LIMIT_RATIO},
    {"beyond", FIELD_OWN, .read = read_beyond},
    {"food", FIELD_OWN, .read = read_food},
    {"child", FIELD_OWN, .read = read_child},
    {"until", FIELD_OWN, .read = read_until},
    {"top", FIELD_TRUE, AT(fit_rule, top)},
    {"because", FIELD_TEXT, AT(fit_rule, because), .needed = true, .expected = "the reason"},
    {"resists-below", FIELD_OWN, .read = read_mark},
    {"caution", FIELD_OWN, .read = read_caution},
    {"delivered-before", FIELD_OWN, .read = read_before},
    {"remedy", FIELD_TEXT, AT(fit_rule, remedy), .needed = true, .expected = "what helps"},
    {"source", FIELD_TEXT, AT(fit_rule, source), .needed = true, .expected = "where the rule comes from"},
    {"off", FIELD_OWN, .read = leave_off},
};
static const struct fields fit_fields = FIELDS("a rule", fit_items);

static void drop_rule(struct rule_reader *reader, struct json_at at)
{
    const char **known = ARENA_ARRAY(reader->reading->arena, reader->count, const char *), *name;
    if (!json_text(json_member(at, "rule"), "the rule's name", &name))
        return;
    if (!json_is_true(json_member(at, "off"))) {
        json_refuse(json_member(at, "off"), "true, or no such key");
        return;
    }
    if (json_size(at) > 2) {
        json_refuse(at, "nothing but its name of a rule that is off");
        return;
    }
    for (size_t i = 0; i < reader->count; i++) {
        known[i] = reader->rules[i].name;
        if (strcmp(known[i], name) != 0)
            continue;
        memmove(&reader->rules[i], &reader->rules[i + 1], (reader->count - i - 1) * sizeof *reader->rules);
        reader->count--;
        return;
    }
    json_refuse_name(json_member(at, "rule"), "a rule of the table", known, reader->count);
}

static void read_fit(struct rule_reader *reader, struct json_at at)
{
    struct fit_rule rule = {.resists = -1};
    size_t i = 0;
    if (json_has(at, "off")) {
        drop_rule(reader, at);
        return;
    }
    if (!fields_read(at, &fit_fields, &rule, reader) || !rule.name)
        return;
    while (i < reader->count && strcmp(reader->rules[i].name, rule.name) != 0)
        i++;
    if (i == reader->count)
        reader->rules = arena_grow(reader->reading->arena, reader->rules, reader->count++, &reader->capacity,
                                   sizeof *reader->rules);
    reader->rules[i] = rule;
}

static void add_name(struct rule_reader *reader, const char *name)
{
    for (size_t i = 0; i < reader->finish_count; i++)
        if (strcmp(reader->finishes[i], name) == 0)
            return;
    reader->finishes[reader->finish_count++] = name;
}

static void name_finishes(struct rule_reader *reader, const struct finish_table *table)
{
    size_t most = 2 * table->count + table->failed_count + DRYING_COUNT + 1;
    reader->finishes = ARENA_ARRAY(reader->reading->arena, most, const char *);
    add_name(reader, "wood");
    for (int i = 0; i < DRYING_COUNT; i++)
        add_name(reader, finish_drying_names[i]);
    for (size_t i = 0; i < table->count; i++) {
        add_name(reader, table->items[i]->id);
        add_name(reader, table->items[i]->family);
    }
    for (size_t i = 0; i < table->failed_count; i++)
        add_name(reader, table->failed[i]);
}

struct fit_rules fit_rules_load(const struct reading *reading, const struct finish_folders *folders,
                                const struct finish_table *table)
{
    struct rule_reader reader = {.reading = reading, .folders = folders};
    if (table)
        name_finishes(&reader, table);
    read_files(&reader, (struct rule_file){"fit.json", "coatwright-rules/1", "rules", read_fit});
    return (struct fit_rules){reader.rules, reader.count};
}

static void read_by(struct field_in in)
{
    struct sundry_rule *rule = in.record;
    const char *names[WORK_COUNT];
    int work = 0;
    for (int i = 0; i < WORK_COUNT; i++)
        names[i] = work_name(i);
    if (!json_list(in.at, "a list of tools and works"))
        return;
    if (json_size(in.at) == 0)
        json_refuse(in.at, "at least one tool or work");
    for (struct json_at item = json_first(in.at); item.node; item = json_next(item))
        if (json_choice(item, names, WORK_COUNT, &work))
            rule->by[work] = true;
}

static const struct field sundry_items[] = {
    {"sundry", FIELD_TEXT, AT(sundry_rule, name), .needed = true, .expected = "what it is"},
    {"unit", FIELD_TEXT, AT(sundry_rule, unit), .needed = true, .expected = "a unit such as \"pcs\""},
    {"amount", FIELD_NUMBER, AT(sundry_rule, amount), .needed = true, .limit = LIMIT_NEED},
    {"per", FIELD_WORD, AT(sundry_rule, per), .needed = true, WORDS(sundry_per_names)},
    {"each", FIELD_WORD, AT(sundry_rule, each), WORDS(sundry_each_names)},
    {"by", FIELD_OWN, .needed = true, .read = read_by},
    {"several-only", FIELD_TRUE, AT(sundry_rule, several_only)},
    {"source", FIELD_TEXT, AT(sundry_rule, source), .needed = true,
     .expected = "where the figure comes from"},
};
static const struct fields sundry_fields = FIELDS("a sundry", sundry_items);

static void read_sundry(struct rule_reader *reader, struct json_at at)
{
    struct sundry_rule rule = {.name = NULL};
    size_t i = 0;
    if (!fields_read(at, &sundry_fields, &rule, reader) || !rule.name)
        return;
    while (i < reader->count && strcmp(reader->sundries[i].name, rule.name) != 0)
        i++;
    if (i == reader->count)
        reader->sundries = arena_grow(reader->reading->arena, reader->sundries, reader->count++,
                                      &reader->capacity, sizeof *reader->sundries);
    reader->sundries[i] = rule;
}

struct sundry_rules sundry_rules_load(const struct reading *reading, const struct finish_folders *folders)
{
    struct rule_reader reader = {.reading = reading, .folders = folders};
    read_files(&reader,
               (struct rule_file){"sundries.json", "coatwright-sundries/1", "sundries", read_sundry});
    return (struct sundry_rules){reader.sundries, reader.count};
}
