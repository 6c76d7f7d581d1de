#include "report/csv.h"

#include "base/arena.h"
#include "base/moment.h"
#include "base/money.h"
#include "base/number.h"
#include "format/csv.h"
#include "report/sentences.h"

#include <stdlib.h>

struct wanted {
    int64_t day;
    size_t order;
    const struct purchase *purchase;
};

static int64_t day_of(const struct plan *plan, const struct finish *finish)
{
    const struct timetable *timetable = plan->timetable;
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct operation *operation = timetable->steps[i].operation;
        if (operation->doing == DO_APPLY && operation->of.step->finish == finish)
            return zone_day(plan->job->zone, timetable->steps[i].start_min, NULL);
    }
    return zone_day(plan->job->zone, plan->job->start_min, NULL);
}

static int sooner_first(const void *a, const void *b)
{
    const struct wanted *left = a, *right = b;
    if (left->day != right->day)
        return left->day < right->day ? -1 : 1;
    return left->order < right->order ? -1 : left->order > right->order;
}

static void put(struct buf *out, const char *cell)
{
    csv_put_shown(out, cell);
    buf_add_char(out, ',');
}

static void put_price(struct buf *out, int64_t cents, int digits)
{
    put(out, cents < 0 ? "" : money_format(cents, digits).text);
}

static void put_row(struct buf *out, const struct plan *plan, const struct wanted *wanted,
                    const char *component, struct purchase_pack bought)
{
    const struct finish *finish = wanted->purchase->need.finish;
    int64_t cents = bought.pack->price_cents;
    int digits = plan->job->currency_digits;
    put(out, date_format(date_of(wanted->day)).text);
    put(out, finish->id);
    put(out, finish->name);
    put(out, component);
    put(out, bought.pack->label);
    buf_addf(out, "%d,", bought.count);
    put_price(out, cents, digits);
    put_price(out, cents < 0 ? -1 : cents * bought.count, digits);
    put(out, cents < 0 ? "" : plan->job->currency);
}

static void put_purchase(struct buf *out, const struct plan *plan, const struct wanted *wanted)
{
    const struct purchase *purchase = wanted->purchase;
    for (size_t i = 0; i < purchase->kit_count; i++) {
        const struct kit *kit = purchase->kits[i].kit;
        struct pack pack = {0, kit->price_cents, kit->label};
        put_row(out, plan, wanted, "kit", (struct purchase_pack){&pack, purchase->kits[i].count});
        buf_add(out, "\r\n");
    }
    for (size_t i = 0; i < purchase->need.finish->component_count; i++) {
        const struct purchase_component *component = &purchase->components[i];
        for (size_t k = 0; k < component->pack_count; k++) {
            put_row(out, plan, wanted, purchase->need.finish->components[i].name, component->packs[k]);
            if (k == 0)
                buf_add(out, number_round(component->left_l * 1000, 1).text);
            buf_add(out, "\r\n");
        }
    }
}

/* The first day of work: most of it is abrasives. */
static int64_t work_day(const struct plan *plan)
{
    const struct timetable *timetable = plan->timetable;
    return zone_day(plan->job->zone,
                    timetable->step_count ? timetable->steps[0].start_min : plan->job->start_min, NULL);
}

static void put_sundry(struct buf *out, const struct plan *plan, const struct sundry *sundry)
{
    bool liquid = sundry_is_liquid(sundry);
    put(out, date_format(date_of(work_day(plan))).text);
    put(out, "");
    put(out, sundry_name(out->arena, sundry));
    put(out, "sundry");
    put(out, liquid ? arena_textf(out->arena, "%d ml", sundry->whole) : sundry->rule->unit);
    buf_addf(out, "%d,,,,\r\n", liquid ? 1 : sundry->whole);
}

void csv_shopping(const struct plan *plan, struct buf *out)
{
    const struct purchases *purchases = plan->purchases;
    struct wanted *list = ARENA_ARRAY(out->arena, purchases->count, struct wanted);
    for (size_t i = 0; i < purchases->count; i++)
        list[i] = (struct wanted){day_of(plan, purchases->items[i].need.finish), i, &purchases->items[i]};
    qsort(list, purchases->count, sizeof *list, sooner_first);
    buf_add(out, "by,finish,name,component,pack,count,price,sum,currency,left_ml\r\n");
    for (size_t i = 0; i < purchases->count; i++)
        put_purchase(out, plan, &list[i]);
    for (size_t i = 0; i < plan->sundries->count; i++)
        put_sundry(out, plan, &plan->sundries->items[i]);
}
