#include "source/read_sundries.h"

#include "base/arena.h"
#include "source/rule_file.h"

#include <string.h>

struct sundry_reader {
    struct arena *arena;
    struct sundry_rule *rules;
    size_t count, capacity;
};

static const char *const keys[] = {"sundry", "unit", "amount", "per", "each", "by", "several-only", "source"};

static void read_by(struct json_at list, bool by[WORK_COUNT])
{
    const char *names[WORK_COUNT];
    int work = 0;
    for (int i = 0; i < WORK_COUNT; i++)
        names[i] = work_name(i);
    if (!json_list(list, "a list of tools and works"))
        return;
    if (json_size(list) == 0)
        json_refuse(list, "at least one tool or work");
    for (struct json_at item = json_first(list); item.node; item = json_next(item))
        if (json_choice(item, names, WORK_COUNT, &work))
            by[work] = true;
}

static void read_counting(struct json_at at, struct sundry_rule *rule)
{
    const char *pers[SUNDRY_PER_COUNT], *eaches[SUNDRY_EACH_COUNT];
    int per = 0, each = 0;
    for (int i = 0; i < SUNDRY_PER_COUNT; i++)
        pers[i] = sundry_per_name((enum sundry_per)i);
    for (int i = 0; i < SUNDRY_EACH_COUNT; i++)
        eaches[i] = sundry_each_name((enum sundry_each)i);
    json_choice(json_member(at, "per"), pers, SUNDRY_PER_COUNT, &per);
    if (json_has(at, "each"))
        json_choice(json_member(at, "each"), eaches, SUNDRY_EACH_COUNT, &each);
    rule->per = (enum sundry_per)per;
    rule->each = (enum sundry_each)each;
}

static void read_rule(struct json_at at, struct sundry_rule *rule)
{
    json_text(json_member(at, "unit"), "a unit such as \"pcs\"", &rule->unit);
    json_number(json_member(at, "amount"), &rule->amount);
    read_counting(at, rule);
    read_by(json_member(at, "by"), rule->by);
    rule->several_only = json_has(at, "several-only") && json_is_true(json_member(at, "several-only"));
    if (json_has(at, "several-only") && !rule->several_only)
        json_refuse(json_member(at, "several-only"), "true, or no such key");
    json_text(json_member(at, "source"), "where the figure comes from", &rule->source);
}

static struct sundry_rule *place_of(struct sundry_reader *reader, const char *name)
{
    for (size_t i = 0; i < reader->count; i++)
        if (strcmp(reader->rules[i].name, name) == 0)
            return &reader->rules[i];
    reader->rules =
        arena_grow(reader->arena, reader->rules, reader->count, &reader->capacity, sizeof *reader->rules);
    return &reader->rules[reader->count++];
}

static void read_all(struct sundry_reader *reader, struct json_at list)
{
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        struct sundry_rule rule = {.name = NULL};
        if (!json_object(item, "a sundry", keys, sizeof keys / sizeof keys[0]) ||
            !json_text(json_member(item, "sundry"), "what it is", &rule.name))
            continue;
        read_rule(item, &rule);
        *place_of(reader, rule.name) = rule;
    }
}

struct sundry_rules sundry_rules_load(const struct reading *reading, const struct finish_folders *folders)
{
    static const struct rule_file file = {"sundries.json", "coatwright-sundries/1", "sundries"};
    struct sundry_reader reader = {.arena = reading->arena};
    struct json_at list;
    for (int own = 0; own < 2; own++)
        if (rule_file_open(reading, folders, own == 1, file, &list))
            read_all(&reader, list);
    texts_locate(reading->texts, reading->errors);
    return (struct sundry_rules){reader.rules, reader.count};
}
