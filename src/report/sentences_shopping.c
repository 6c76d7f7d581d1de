#include "report/sentences.h"

#include "base/arena.h"
#include "base/buf.h"

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
