#include "report/write_buy.h"

static void write_pack(struct json_write *w, double size_l, int count, int64_t price_cents, int digits)
{
    json_open_row(w, NULL, '{');
    json_put_number(w, "size_ml", size_l * 1000);
    json_put_whole(w, "count", count);
    json_put_money(w, "price", price_cents, digits);
    json_close(w);
}

/* Where a kit's price stands: at the first component of which it holds anything. */
static size_t kit_priced_at(const struct kit *kit, size_t component_count)
{
    size_t i = 0;
    while (i < component_count && kit->contents_l[i] <= 0)
        i++;
    return i;
}

static void write_kits(struct json_write *w, const struct purchase *purchase, size_t component, int digits)
{
    for (size_t i = 0; i < purchase->kit_count; i++) {
        const struct purchase_kit *bought = &purchase->kits[i];
        double size_l = bought->kit->contents_l[component];
        int64_t price = bought->kit->price_cents;
        if (price >= 0 && component != kit_priced_at(bought->kit, purchase->need.finish->component_count))
            price = 0;
        if (size_l > 0)
            write_pack(w, size_l, bought->count, price, digits);
    }
}

static void write_component(struct json_write *w, const struct purchase *purchase, size_t i, int digits)
{
    const struct purchase_component *component = &purchase->components[i];
    json_open(w, NULL, '{');
    json_put_text(w, "component", purchase->need.finish->components[i].name);
    json_put_number(w, "need_ml", component->need_l * 1000);
    json_put_number(w, "need_g", component->need_g);
    json_put_number(w, "on_hand_ml", component->on_hand_l * 1000);
    json_open(w, "buy", '[');
    write_kits(w, purchase, i, digits);
    for (size_t k = 0; k < component->pack_count; k++) {
        const struct purchase_pack *bought = &component->packs[k];
        write_pack(w, bought->pack->size_l, bought->count, bought->pack->price_cents, digits);
    }
    json_close(w);
    json_put_number(w, "left_ml", component->left_l * 1000);
    json_close(w);
}

static void write_purchase(struct json_write *w, const struct purchase *purchase, int digits)
{
    json_open(w, NULL, '{');
    json_put_text(w, "finish", purchase->need.finish->id);
    json_open_row(w, "need_l", '{');
    json_put_number(w, "low", purchase->need.low_l);
    json_put_number(w, "likely", purchase->need.likely_l);
    json_put_number(w, "high", purchase->need.high_l);
    json_close(w);
    json_open(w, "components", '[');
    for (size_t i = 0; i < purchase->need.finish->component_count; i++)
        write_component(w, purchase, i, digits);
    json_close(w);
    json_put_money(w, "cost", purchase->cost_cents, digits);
    json_close(w);
}

void write_buy(struct json_write *w, const char *key, const struct job *job,
               const struct purchases *purchases)
{
    json_open(w, key, '{');
    json_put_text(w, "job", job->name);
    json_put_number(w, "reserve", job->reserve);
    json_open(w, "finishes", '[');
    for (size_t i = 0; i < purchases->count; i++)
        write_purchase(w, &purchases->items[i], job->currency_digits);
    json_close(w);
    json_put_money(w, "cost", purchases->cost_cents, job->currency_digits);
    json_close(w);
}
