/* Every order of a few operations by its number: which comes first, where one batch ends and the next begins, who does it. */
#include "timetable/order.h"

#include <string.h>

enum { ORDERS_MOST = 25000 };

int64_t order_every(const struct site *site)
{
    int64_t count = 1, place = 0;
    for (size_t i = 0; i < site->count; i++) {
        if (site->rows[i].optional)
            continue;
        place++;
        count *= place * site->crew->count * (place > 1 ? 2 : 1);
        if (count > ORDERS_MOST)
            return 0;
    }
    return count;
}

/* The next digit of a number in a system of mixed bases. */
static size_t digit(int64_t *number, int64_t base)
{
    size_t found = (size_t)(*number % base);
    *number /= base;
    return found;
}

/* What an item is done as: a turn as the coat that it is for. */
static int done_as(const struct site *site, int item)
{
    int coat = site_turned_for(site, item);
    return coat == SITE_NONE ? item : coat;
}

static bool goes_along(const struct site *site, int item, int other)
{
    const struct operation *own = site->rows[item].operation, *its = site->rows[other].operation;
    return own->doing != DO_TASK && own->people < 2 && its->people < 2 &&
           site->rows[done_as(site, item)].kind == site->rows[done_as(site, other)].kind;
}

/* Whether nothing stands before what it waits for. */
static bool keeps_links(const struct site *site, const struct order *order)
{
    for (size_t i = 0; i < order->item_count; i++)
        for (size_t k = i + 1; k < order->item_count; k++) {
            const struct task_row *row = &site->rows[order->items[i]];
            for (size_t n = 0; n < row->in_count; n++)
                if (site->operations->links[row->in[n]].from == order->items[k])
                    return false;
        }
    return true;
}

static void write_items(const struct site *site, int64_t *number, struct order *order)
{
    order->item_count = order->run_count = 0;
    for (size_t i = 0; i < site->count; i++) {
        if (site->rows[i].optional)
            continue;
        size_t at = order->item_count - digit(number, (int64_t)order->item_count + 1);
        order->item_count++;
        memmove(&order->items[at + 1], &order->items[at],
                (order->item_count - 1 - at) * sizeof *order->items);
        order->items[at] = (int)i;
    }
}

bool order_numbered(const struct site *site, int64_t number, struct order *order)
{
    write_items(site, &number, order);
    if (!keeps_links(site, order))
        return false;
    for (size_t i = 0; i < order->item_count; i++) {
        bool begins = i == 0 || digit(&number, 2) == 0;
        size_t person = digit(&number, site->crew->count);
        if (!begins && (person > 0 || !goes_along(site, order->items[i], order->items[i - 1])))
            return false;
        if (begins)
            order->runs[order->run_count++] = (struct run){
                .kind = site->rows[done_as(site, order->items[i])].kind, .person = (int)person, .from = i};
        order->runs[order->run_count - 1].count++;
    }
    return true;
}
