/* What is shared: hands, spray places, the rack, one lot in one pair of hands, and a room's dust. */
#include "timetable/problem.h"

#include "base/arena.h"
#include "timetable/lot.h"

#include <math.h>

static const double RACK_UNITS_PER_M2 = 10000.0; /* whole square centimetres */

static int add_resource(struct problem *problem, int32_t capacity, enum rule_kind kind, size_t index)
{
    return net_add_resource(&problem->net,
                            (struct net_resource){capacity, problem_add_rule(problem, kind, index)});
}

static void use_while_working(struct problem *problem, size_t operation, int resource)
{
    int32_t length = problem->operations->items[operation].minutes / SLOT_MIN;
    net_add_use(&problem->net, (struct net_use){(int)operation, resource, 1, net_after(length), 0, 0});
}

static void add_hands(struct problem *problem)
{
    const struct operations *operations = problem->operations;
    const struct shop *shop = &operations->job->shop;
    int people = add_resource(problem, shop->people, RULE_PEOPLE, 0);
    int places =
        shop->spray_places < shop->people ? add_resource(problem, shop->spray_places, RULE_SPRAY, 0) : -1;
    for (size_t i = 0; i < operations->count; i++) {
        use_while_working(problem, i, people);
        if (places >= 0 && operation_sprays(&operations->items[i]))
            use_while_working(problem, i, places);
    }
}

double problem_rack_m2(const struct operation *operation)
{
    return lot_rack_m2(operation->job, operation->pass.surfaces, (size_t)operation->piece,
                       operation->pass.lot);
}

/* A number above 0 for the lot: it lies on the rack once, however many of its films are wet. */
static int lot_number(const struct operations *operations, const struct operation *operation)
{
    int first = 0;
    while (!operation_same_lot(&operations->items[first], operation))
        first++;
    return first + 1;
}

/* From the start of a coat until its film may be handled its lot lies on the rack. */
static void add_rack(struct problem *problem)
{
    const struct operations *operations = problem->operations;
    const struct shop *shop = &operations->job->shop;
    if (shop->rack_m2 < 0)
        return;
    int32_t capacity = (int32_t)floor(shop->rack_m2 * RACK_UNITS_PER_M2 + 1e-6);
    int rack = add_resource(problem, capacity, RULE_RACK, 0);
    for (size_t i = 0; i < operations->count; i++) {
        const struct operation *operation = &operations->items[i];
        if (operation->doing != DO_APPLY)
            continue;
        double area_m2 = problem_rack_m2(operation);
        net_add_use(&problem->net,
                    (struct net_use){(int)i, rack, (int32_t)ceil(area_m2 * RACK_UNITS_PER_M2 - 1e-6),
                                     problem_state_map(problem, (int)i, STATE_HANDLE),
                                     lot_number(operations, operation), 0});
    }
}

/* Two people do not work on one lot at a time; the operations of one row follow each other anyway. */
static void add_lots(struct problem *problem)
{
    const struct operations *operations = problem->operations;
    if (operations->job->shop.people < 2)
        return;
    for (size_t from = 0, to; from < operations->count; from = to) {
        const struct operation *first = &operations->items[from];
        bool rows = false;
        for (to = from; to < operations->count && operation_same_lot(first, &operations->items[to]); to++)
            rows |= operations->items[to].chain != first->chain;
        if (first->piece < 0)
            to = from + 1;
        if (!rows || first->piece < 0)
            continue;
        int hands = add_resource(problem, 1, RULE_PIECE, (size_t)first->piece);
        for (size_t i = from; i < to; i++)
            use_while_working(problem, i, hands);
    }
}

static bool may_meet(const struct shop *shop, const struct operation *dusty, const struct operation *wet)
{
    if (wet->chain == dusty->chain)
        return false;
    return operation_same_lot(wet, dusty) || !shop->dust_separate;
}

/* No surface is wet before it is dust-free while dust is raised or, in a shared room, settles. */
static void add_dust(struct problem *problem)
{
    const struct operations *operations = problem->operations;
    const struct shop *shop = &operations->job->shop;
    int32_t settle = shop->dust_separate ? 0 : span_slots_up(shop->settle_min);
    int rule = problem_add_rule(problem, RULE_DUST, 0);
    for (size_t d = 0; d < operations->count; d++) {
        const struct operation *dusty = &operations->items[d];
        for (size_t w = 0; dusty->dusty && w < operations->count; w++) {
            const struct operation *wet = &operations->items[w];
            if (wet->doing != DO_APPLY || !may_meet(shop, dusty, wet))
                continue;
            net_add_disjunction(
                &problem->net,
                (struct net_disjunction){.a = (int)d,
                                         .b = (int)w,
                                         .until_a = net_after(dusty->minutes / SLOT_MIN + settle),
                                         .until_b = problem_state_map(problem, (int)w, STATE_DUST_FREE),
                                         .rule = rule});
        }
    }
}

void problem_add_capacities(struct problem *problem)
{
    add_hands(problem);
    add_rack(problem);
    add_lots(problem);
    add_dust(problem);
}
