#include "source/read_fit.h"

#include "base/arena.h"
#include "finish/caution.h"
#include "source/rule_file.h"
#include "job/job.h"

#include <string.h>

enum { MARK_MOST = 3, GRIT_MOST = 10000, WORDS_MOST = 64 };

/* Rules in the making, and the names that their words may be. */
struct fit_reader {
    const struct reading *reading;
    struct fit_rule *rules;
    size_t count, capacity;
    const char **finishes; /* ids, families, what they dry by, "wood"; NULL: not looked up */
    size_t finish_count;
};

static const char *const keys[] = {
    "rule",       "over",  "under", "wood",    "place",         "use",     "between",          "without",
    "grit-above", "until", "top",   "because", "resists-below", "caution", "delivered-before", "remedy",
    "source",     "off",
};

/* A list of words, each one of `known` (NULL: any text). */
static struct fit_words read_words(struct json_at list, const char *expected, const char *const *known,
                                   size_t count)
{
    struct fit_words words = {NULL, 0};
    if (!list.node || !json_list(list, "a list of words"))
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

static void read_where(struct json_at at, struct fit_rule *rule)
{
    const char *regions[REGION_COUNT], *uses[WORDS_MOST];
    size_t use_count = 0, wood_count;
    const char *const *woods = wood_word_table(&wood_count);
    for (int i = 0; i < REGION_COUNT; i++)
        regions[i] = region_name((enum region)i);
    while (use_name(1u << use_count)) {
        uses[use_count] = use_name(1u << use_count);
        use_count++;
    }
    rule->wood = read_words(json_member(at, "wood"), "a trait or grain of wood", woods, wood_count);
    rule->place = read_words(json_member(at, "place"), "a region", regions, REGION_COUNT);
    rule->use = read_words(json_member(at, "use"), "a use", uses, use_count);
}

static bool read_state(struct json_at at, enum finish_state *state)
{
    const char *states[STATE_COUNT];
    int choice = 0;
    for (int i = 0; i < STATE_COUNT; i++)
        states[i] = finish_state_name((enum finish_state)i);
    if (!at.node || !json_choice(at, states, STATE_COUNT, &choice))
        return false;
    *state = (enum finish_state)choice;
    return true;
}

/* {"water": 2}: one mark. */
static void read_mark(struct json_at at, struct fit_rule *rule)
{
    const char *marks[RESISTANCE_COUNT];
    rule->resists = -1;
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        marks[i] = resistance_name((enum resistance)i);
    if (!at.node || !json_object(at, "a mark", marks, RESISTANCE_COUNT))
        return;
    if (json_size(at) != 1) {
        json_refuse(at, "one mark such as {\"water\": 2}");
        return;
    }
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        if (json_has(at, marks[i]) && json_count(json_member(at, marks[i]), MARK_MOST, &rule->least))
            rule->resists = i;
}

static void read_caution(struct json_at at, struct fit_rule *rule)
{
    if (at.node && json_text(at, "a caution", &rule->caution) && !caution_find(rule->caution))
        json_refuse(at, "a caution of the finish table");
}

static void read_rule(const struct fit_reader *reader, struct json_at at, struct fit_rule *rule)
{
    static const char finishes[] = "a finish, a family, or what it dries by";
    read_where(at, rule);
    rule->over = read_words(json_member(at, "over"), finishes, reader->finishes, reader->finish_count);
    rule->under = read_words(json_member(at, "under"), finishes, reader->finishes, reader->finish_count);
    rule->between = read_words(json_member(at, "between"), "words of a step", NULL, 0);
    rule->without = read_words(json_member(at, "without"), "words of a step", NULL, 0);
    if (json_has(at, "grit-above"))
        json_count(json_member(at, "grit-above"), GRIT_MOST, &rule->grit_above);
    rule->has_until = read_state(json_member(at, "until"), &rule->until);
    rule->has_before = read_state(json_member(at, "delivered-before"), &rule->before);
    read_mark(json_member(at, "resists-below"), rule);
    read_caution(json_member(at, "caution"), rule);
    rule->top = json_has(at, "top") && json_is_true(json_member(at, "top"));
    if (json_has(at, "top") && !rule->top)
        json_refuse(json_member(at, "top"), "true, or no such key");
    json_text(json_member(at, "because"), "the reason", &rule->because);
    json_text(json_member(at, "remedy"), "what helps", &rule->remedy);
    json_text(json_member(at, "source"), "where the rule comes from", &rule->source);
}

/* The place of a rule: that of the one whose name it has, else a new one. */
static struct fit_rule *place_of(struct fit_reader *reader, const char *name)
{
    for (size_t i = 0; i < reader->count; i++)
        if (strcmp(reader->rules[i].name, name) == 0)
            return &reader->rules[i];
    reader->rules = arena_grow(reader->reading->arena, reader->rules, reader->count, &reader->capacity,
                               sizeof *reader->rules);
    return &reader->rules[reader->count++];
}

/* `{"rule": "grain-not-raised", "off": true}`: a rule of an earlier file is not asked any more. */
static void drop_rule(struct fit_reader *reader, struct json_at at, const char *name)
{
    const char **known = ARENA_ARRAY(reader->reading->arena, reader->count, const char *);
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

static void read_rules(struct fit_reader *reader, struct json_at list)
{
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        struct fit_rule rule = {.resists = -1};
        if (!json_object(item, "a rule", keys, sizeof keys / sizeof keys[0]) ||
            !json_text(json_member(item, "rule"), "the rule's name", &rule.name))
            continue;
        if (json_has(item, "off")) {
            drop_rule(reader, item, rule.name);
            continue;
        }
        read_rule(reader, item, &rule);
        *place_of(reader, rule.name) = rule;
    }
}

static void add_name(struct fit_reader *reader, const char *name)
{
    for (size_t i = 0; i < reader->finish_count; i++)
        if (strcmp(reader->finishes[i], name) == 0)
            return;
    reader->finishes[reader->finish_count++] = name;
}

static void name_finishes(struct fit_reader *reader, const struct finish_table *table)
{
    size_t most = 2 * table->count + table->failed_count + DRYING_COUNT + 1;
    reader->finishes = ARENA_ARRAY(reader->reading->arena, most, const char *);
    add_name(reader, "wood");
    for (int i = 0; i < DRYING_COUNT; i++)
        add_name(reader, finish_drying_name((enum finish_drying)i));
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
    static const struct rule_file file = {"fit.json", "coatwright-rules/1", "rules"};
    struct fit_reader reader = {.reading = reading};
    struct json_at list;
    if (table)
        name_finishes(&reader, table);
    for (int own = 0; own < 2; own++)
        if (rule_file_open(reading, folders, own == 1, file, &list))
            read_rules(&reader, list);
    texts_locate(reading->texts, reading->errors);
    return (struct fit_rules){reader.rules, reader.count};
}
