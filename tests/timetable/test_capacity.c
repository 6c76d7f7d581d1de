/* What work shares, as resources and pairs of a network: hands, spray places, the rack, a lot in one pair of
 * hands, dust. In slots of five minutes; the numbers are counted by hand. */
#include "check.h"
#include "hand_work.h"

#include "base/arena.h"
#include "timetable/problem.h"

enum { SLOTS = 2 * 288 };

static struct problem *problem_of(struct arena *arena, struct hand_work *work)
{
    const struct job *job = &work->panel.job;
    return problem_make(arena, &work->operations,
                        hours_make(arena, &job->shop, job->zone, march(1, 0, 0), SLOTS));
}

/* The resource of a rule; -1: there is none. */
static int resource_of(const struct problem *problem, enum rule_kind kind)
{
    for (size_t i = 0; i < problem->net.resource_count; i++)
        if (problem->rules[problem->net.resources[i].rule].kind == kind)
            return (int)i;
    return -1;
}

/* How an operation uses a resource; NULL: not at all. */
static const struct net_use *use_of(const struct problem *problem, int operation, int resource)
{
    for (size_t i = 0; i < problem->net.use_count; i++)
        if (problem->net.uses[i].operation == operation && problem->net.uses[i].resource == resource)
            return &problem->net.uses[i];
    return NULL;
}

static int uses_of(const struct problem *problem, int resource)
{
    int count = 0;
    for (size_t i = 0; i < problem->net.use_count; i++)
        count += problem->net.uses[i].resource == resource;
    return count;
}

/* 30 min of sanding take one of two people for six slots, 60 min of coating one for twelve. */
static void hands(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    work.panel.job.shop.people = 2;
    hand_add(&work, 0, DO_SAND, 30);
    hand_add(&work, 0, DO_APPLY, 60);
    const struct problem *problem = problem_of(arena, &work);
    int people = resource_of(problem, RULE_PEOPLE);
    check_int(HERE, problem->net.resources[people].capacity, 2);
    check_int(HERE, uses_of(problem, people), 2);
    check_int(HERE, use_of(problem, 0, people)->amount, 1);
    check_int(HERE, use_of(problem, 0, people)->until.offset, 6);
    check_int(HERE, use_of(problem, 1, people)->until.offset, 12);
    for (int i = 0; i < 2; i++)
        check_int(HERE, use_of(problem, i, people)->holder, 0); /* each work takes hands of its own */
    check_int(HERE, resource_of(problem, RULE_RACK), -1);
    arena_free(arena);
}

/* Only where there are fewer places than people do those who spray wait for one. */
static void spray_places(void **state)
{
    (void)state;
    for (int places = 1; places <= 2; places++) {
        struct arena *arena = arena_make(0);
        struct hand_work work;
        hand_work(&work);
        panel_add_piece(&work.panel);
        work.panel.steps[1][0].by = TOOL_HVLP;
        work.panel.job.shop.people = 2;
        work.panel.job.shop.spray_places = places;
        hand_add(&work, 0, DO_APPLY, 30);
        hand_add(&work, 1, DO_APPLY, 45);
        const struct problem *problem = problem_of(arena, &work);
        int spray = resource_of(problem, RULE_SPRAY);
        check_int(HERE, spray >= 0, places < 2);
        check_int(HERE, uses_of(problem, resource_of(problem, RULE_PEOPLE)), 2);
        if (spray >= 0) {
            check_int(HERE, problem->net.resources[spray].capacity, 1);
            check_int(HERE, uses_of(problem, spray), 1);
            check_int(HERE, use_of(problem, 1, spray)->until.offset, 9);
        }
        arena_free(arena);
    }
}

/* 2.50005 m2 hold 25 000 cm2; a piece of 0.30005 takes 3 001 of it from the start of a coat (60 min) until it
 * is dry to handle, 2 h behind its end: 12 + 24 slots. Two coats of a lot lie there once, those of another
 * lot beside them. */
static void the_rack(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_add_piece(&work.panel);
    panel_add_piece(&work.panel);
    panel_set_state(&work.panel, STATE_HANDLE, 120);
    work.panel.pieces[0].rack_m2 = 0.4;
    work.panel.pieces[1].rack_m2 = 0.30005;
    work.panel.job.shop.rack_m2 = 2.50005;
    static const int pieces[] = {0, 1, 1, 2};
    for (int i = 0; i < 4; i++)
        hand_add(&work, pieces[i], DO_APPLY, 60);
    hand_add(&work, 2, DO_SAND, 30);
    const struct problem *problem = problem_of(arena, &work);
    int rack = resource_of(problem, RULE_RACK), holder[4];
    check_int(HERE, problem->net.resources[rack].capacity, 25000);
    check_int(HERE, uses_of(problem, rack), 4);
    check_int(HERE, use_of(problem, 0, rack)->amount, 4000);
    check_int(HERE, use_of(problem, 1, rack)->amount, 3001);
    check_int(HERE, net_map_at(&problem->net, use_of(problem, 1, rack)->until, 96), 96 + 36);
    for (int i = 0; i < 4; i++) {
        holder[i] = use_of(problem, i, rack)->holder;
        check_true(HERE, holder[i] > 0, "it is held by its lot");
    }
    check_int(HERE, holder[2], holder[1]);
    check_true(HERE, holder[0] != holder[1] && holder[1] != holder[3] && holder[3] != holder[0],
               "lots are told apart");
    check_double(HERE, problem_rack_m2(&work.items[1]), 0.30005, 1e-12);
    /* Five millionths of a cm2 short of it: that is no rounding of a number any more. */
    work.panel.job.shop.rack_m2 = 2.5 - 5e-10;
    problem = problem_of(arena, &work);
    check_int(HERE, problem->net.resources[resource_of(problem, RULE_RACK)].capacity, 24999);
    work.panel.job.shop.rack_m2 = 0;
    problem = problem_of(arena, &work);
    rack = resource_of(problem, RULE_RACK);
    check_true(HERE, rack >= 0, "a rack without room is a limit");
    check_int(HERE, problem->net.resources[rack].capacity, 0);
    arena_free(arena);
}

/* Two rows on one lot are in one pair of hands where there are two; one row, a task, or one person alone
 * needs no such rule. */
static void a_lot_in_one_pair_of_hands(void **state)
{
    (void)state;
    for (int people = 1; people <= 2; people++) {
        struct arena *arena = arena_make(0);
        struct hand_work work;
        hand_work(&work);
        panel_add_piece(&work.panel);
        work.panel.job.shop.people = work.panel.job.shop.spray_places = people;
        hand_add(&work, 0, DO_SAND, 30);
        hand_add(&work, 0, DO_APPLY, 45)->chain = 7;
        hand_add(&work, -1, DO_TASK, 30);
        hand_add(&work, 1, DO_SAND, 30);
        hand_add(&work, 1, DO_APPLY, 60)->chain = 8;
        hand_add(&work, 1, DO_SAND, 30)->lot = 2;
        hand_add(&work, 1, DO_APPLY, 60)->lot = 2;
        hand_add(&work, -1, DO_TASK, 30);
        const struct problem *problem = problem_of(arena, &work);
        const struct network *net = &problem->net;
        check_int(HERE, (intmax_t)net->resource_count, people > 1 ? 3 : 1);
        for (int piece = 0; people > 1 && piece < 2; piece++) {
            const struct net_resource *resource = &net->resources[1 + piece];
            check_int(HERE, resource->capacity, 1);
            check_int(HERE, problem->rules[resource->rule].kind, RULE_PIECE);
            check_int(HERE, (intmax_t)problem->rules[resource->rule].index, piece);
            check_int(HERE, uses_of(problem, 1 + piece), 2);
            check_true(HERE, use_of(problem, 3 * piece, 1 + piece) != NULL, "its sanding");
            check_int(HERE, use_of(problem, 3 * piece + 1, 1 + piece)->until.offset, piece ? 12 : 9);
        }
        arena_free(arena);
    }
}

/* Sanding of 30 min on B may not meet a wet coat of A (60 min, dust-free after 2 h), nor dust that settles
 * for 12 min, in whole slots up. Where dust is raised apart only what is on the lot itself counts, and
 * nothing settles. */
static void dust(void **state)
{
    (void)state;
    for (int separate = 0; separate < 2; separate++) {
        struct arena *arena = arena_make(0);
        struct hand_work work;
        hand_work(&work);
        panel_add_piece(&work.panel);
        panel_set_state(&work.panel, STATE_DUST_FREE, 120);
        work.panel.job.shop.settle_min = 12;
        work.panel.job.shop.dust_separate = separate;
        hand_add(&work, 0, DO_SAND, 20);
        hand_add(&work, 0, DO_APPLY, 60);
        hand_add(&work, 1, DO_SAND, 30);
        hand_add(&work, 0, DO_POLISH, 30);
        hand_add(&work, 0, DO_SAND, 40)->chain = 7; /* another row of A's lot */
        const struct problem *problem = problem_of(arena, &work);
        const struct network *net = &problem->net;
        check_int(HERE, (intmax_t)net->disjunction_count, separate ? 1 : 2);
        const struct net_disjunction *own = &net->disjunctions[net->disjunction_count - 1];
        check_int(HERE, own->a, 4);
        check_int(HERE, own->b, 1);
        check_int(HERE, own->until_a.offset, 8 + (separate ? 0 : 3));
        check_int(HERE, net_map_at(net, own->until_b, 96), 96 + 12 + 24);
        check_int(HERE, problem->rules[own->rule].kind, RULE_DUST);
        if (!separate) {
            check_int(HERE, net->disjunctions[0].a, 2);
            check_int(HERE, net->disjunctions[0].b, 1);
            check_int(HERE, net->disjunctions[0].until_a.offset, 6 + 3);
        }
        arena_free(arena);
    }
}

/* Whichever is named first. */
static void dust_of_the_first_and_the_last(void **state)
{
    (void)state;
    for (int sand = 0; sand < 2; sand++) {
        struct arena *arena = arena_make(0);
        struct hand_work work;
        hand_work(&work);
        panel_add_piece(&work.panel);
        hand_add(&work, 0, sand == 0 ? DO_SAND : DO_APPLY, 30);
        hand_add(&work, 1, sand == 1 ? DO_SAND : DO_APPLY, 30);
        const struct problem *problem = problem_of(arena, &work);
        check_int(HERE, (intmax_t)problem->net.disjunction_count, 1);
        check_int(HERE, problem->net.disjunctions[0].a, sand);
        check_int(HERE, problem->net.disjunctions[0].b, 1 - sand);
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(hands), CHECK_TEST(spray_places), CHECK_TEST(the_rack),
                     CHECK_TEST(a_lot_in_one_pair_of_hands), CHECK_TEST(dust),
                     CHECK_TEST(dust_of_the_first_and_the_last));
}
