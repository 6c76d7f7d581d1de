#include "orders.h"

#include "base/buf.h"

const char *order_words(struct arena *arena, const struct order *order)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < order->run_count; i++)
        for (size_t k = 0; k < order->runs[i].count; k++)
            buf_addf(&text, "%s%d", k > 0 ? " " : i > 0 ? " | " : "", order->items[order->runs[i].from + k]);
    return text.text;
}

struct variant *ordered(const struct site *site, const int *items, const size_t *counts)
{
    struct variant *variant = variant_make(site->arena, site);
    struct order *order = &variant->order;
    for (size_t i = 0; counts[i] > 0; i++) {
        const int *first = &items[order->item_count];
        int coat = site_turned_for(site, *first);
        order->runs[order->run_count++] =
            (struct run){.kind = site->rows[coat == SITE_NONE ? *first : coat].kind,
                         .person = SITE_NONE,
                         .from = order->item_count,
                         .count = counts[i]};
        for (size_t k = 0; k < counts[i]; k++)
            order->items[order->item_count++] = first[k];
    }
    return variant;
}
