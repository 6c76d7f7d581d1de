#include "amount/sundry.h"

#include "base/arena.h"

#include <math.h>
#include <string.h>

static bool is_cleaned_with_water(const struct finish *finish)
{
    return finish->solvent ? strcmp(finish->solvent, "water") == 0 : finish->dries_by == DRIES_BY_WATER;
}

/* Whether an operation counts for a rule at all. */
static bool counts(const struct sundry_rule *rule, const struct hand_use *use)
{
    bool coat_only = rule->per != PER_WORKED_M2 || rule->each == EACH_SOLVENT || rule->each == EACH_FINISH;
    if (!rule->by[use->work] || (coat_only && !use->finish))
        return false;
    if (rule->several_only && (!use->finish || use->finish->component_count < 2))
        return false;
    if (rule->per == PER_WIPED_M2 && !use->wiped)
        return false;
    return rule->each != EACH_SOLVENT || !is_cleaned_with_water(use->finish);
}

static double share_of(const struct sundry_rule *rule, const struct hand_use *use)
{
    switch (rule->per) {
    case PER_WORKED_M2:
    case PER_WIPED_M2:
        return use->area_m2;
    case PER_MIX:
        return use->mixes;
    case PER_THINNER:
        return use->thinner_l;
    default:
        return 1;
    }
}

static const char *detail_of(const struct sundry_rule *rule, const struct hand_use *use)
{
    if (rule->each == EACH_SOLVENT)
        return use->finish->solvent ? use->finish->solvent : "as its data sheet says";
    return rule->each == EACH_FINISH ? use->finish->name : NULL;
}

struct listing {
    struct arena *arena;
    struct sundries *list;
    size_t room;
};

static bool is_for(const struct sundry *sundry, const struct sundry_rule *rule, int grit, const char *detail)
{
    return sundry->rule == rule && sundry->grit == grit &&
           (detail == NULL ? sundry->detail == NULL : sundry->detail && strcmp(sundry->detail, detail) == 0);
}

/* The line of the list that an operation adds to. */
static struct sundry *line_of(struct listing *l, const struct sundry_rule *rule, const struct hand_use *use)
{
    int grit = rule->each == EACH_GRIT ? use->grit : 0;
    const char *detail = detail_of(rule, use);
    for (size_t i = 0; i < l->list->count; i++)
        if (is_for(&l->list->items[i], rule, grit, detail))
            return &l->list->items[i];
    l->list->items = arena_grow(l->arena, l->list->items, l->list->count, &l->room, sizeof *l->list->items);
    size_t at = l->list->count++;
    for (; grit > 0 && at > 0 && l->list->items[at - 1].rule == rule && l->list->items[at - 1].grit > grit;
         at--)
        l->list->items[at] = l->list->items[at - 1];
    struct sundry *line = &l->list->items[at];
    *line = (struct sundry){.rule = rule, .grit = grit, .detail = detail};
    return line;
}

/* Whether an earlier operation laid the same finish by a tool of the rule. */
static bool seen_before(const struct sundry_rule *rule, const struct hand_use *uses, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (uses[k].finish == uses[i].finish && counts(rule, &uses[k]))
            return true;
    return false;
}

struct sundries *sundries_make(struct arena *arena, struct sundry_rules rules, const struct hand_use *uses,
                               size_t use_count)
{
    struct listing l = {arena, ARENA_NEW(arena, struct sundries), 0};
    for (size_t r = 0; r < rules.count; r++) {
        const struct sundry_rule *rule = &rules.items[r];
        for (size_t i = 0; i < use_count; i++) {
            double share = counts(rule, &uses[i]) ? rule->amount * share_of(rule, &uses[i]) : 0;
            if (share > 0 && !(rule->per == PER_FINISH && seen_before(rule, uses, i)))
                line_of(&l, rule, &uses[i])->amount += share;
        }
    }
    for (size_t i = 0; i < l.list->count; i++)
        l.list->items[i].whole = (int)ceil(l.list->items[i].amount - 1e-9);
    return l.list;
}

int64_t sundries_cents(const struct sundries *sundries)
{
    double cents = 0;
    for (size_t i = 0; i < sundries->count; i++)
        cents += sundries->items[i].whole * sundries->items[i].rule->cents_each;
    return (int64_t)llround(cents);
}
