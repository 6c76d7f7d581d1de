#include "report/shopping.h"

#include "base/arena.h"
#include "base/buf.h"
#include "report/sentences.h"

/* Whether a step uses something of the shopping: a finish that is bought, or what is used up beside it. */
static bool uses_shopping(const struct plan *plan, const struct operation *operation)
{
    if (operation->doing == DO_FLIP || operation->doing == DO_TASK)
        return false;
    if (plan->sundries->count > 0)
        return true;
    for (size_t i = 0; operation->doing == DO_APPLY && i < plan->purchases->count; i++) {
        const struct purchase *purchase = &plan->purchases->items[i];
        bool buys = purchase->kit_count > 0;
        for (size_t c = 0; c < purchase->need.finish->component_count; c++)
            buys |= purchase->components[c].pack_count > 0;
        if (buys && purchase->need.finish == operation->of.step->finish)
            return true;
    }
    return false;
}

int64_t shopping_day_min(const struct plan *plan, const struct hours *hours)
{
    const struct timetable *timetable = plan->timetable;
    const struct zone *zone = plan->job->zone;
    int64_t first = timetable->start_min;
    for (size_t i = timetable->step_count; i-- > 0;)
        if (uses_shopping(plan, timetable->steps[i].operation))
            first = timetable->steps[i].start_min;
    int64_t midnight = zone_moment_on(zone, zone_day(zone, first, NULL), 0), last = midnight - 1;
    for (size_t i = 0; i < hours->count && hours_moment(hours, hours->stretches[i].from) < midnight; i++)
        last = hours_moment(hours, hours->stretches[i].from);
    return last;
}

static void add_sundries(struct arena *arena, const struct plan *plan, struct buf *list)
{
    const struct sundries *sundries = plan->sundries;
    if (sundries->count)
        buf_addf(list, "%sestimated:", list->length ? "\n" : "");
    for (size_t i = 0; i < sundries->count; i++)
        buf_addf(list, "\n%s %s", sundry_amount(arena, &sundries->items[i], units_of(plan->job)),
                 sundry_name(arena, &sundries->items[i]));
}

const char *shopping_lines(struct arena *arena, const struct plan *plan)
{
    const struct purchases *purchases = plan->purchases;
    struct buf list;
    buf_init(&list, arena);
    for (size_t i = 0; i < purchases->count; i++) {
        const struct purchase *purchase = &purchases->items[i];
        for (size_t k = 0; k < purchase->kit_count; k++)
            buf_addf(&list, "%s%d x %s %s", list.length ? "\n" : "", purchase->kits[k].count,
                     pack_words(arena, purchase->kits[k].kit->label), purchase->need.finish->name);
        for (size_t c = 0; c < purchase->need.finish->component_count; c++) {
            const struct purchase_component *component = &purchase->components[c];
            for (size_t k = 0; k < component->pack_count; k++)
                buf_addf(&list, "%s%d x %s %s, %s", list.length ? "\n" : "", component->packs[k].count,
                         pack_words(arena, component->packs[k].pack->label), purchase->need.finish->name,
                         purchase->need.finish->components[c].name);
        }
    }
    add_sundries(arena, plan, &list);
    return list.text;
}
