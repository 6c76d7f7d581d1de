/* First plans by insertion, one attempt at a time: what is begun anew, what goes first and which choices are given up. */
#include "check.h"

#include "base/arena.h"
#include "solver/improve/insertion.h"
#include "solver/network.h"

enum { HORIZON = 40, MUCH = 1 << 24 };

/* A network with one machine, held from slot 0 on by an operation that begins then; release its arena behind. */
struct inserting {
    struct arena *arena;
    struct network net;
    struct model model;
    struct insertion insertion;
    int held;
};

static int add(struct inserting *in, int32_t duration, int32_t latest)
{
    return net_add_operation(&in->net, (struct net_operation){duration, NET_NONE, 0, latest, NET_ALWAYS});
}

static void on_machine(struct inserting *in, int operation)
{
    int32_t duration = in->net.operations[operation].duration;
    net_add_use(&in->net, (struct net_use){operation, 0, 1, net_after(duration), 0, 0});
}

static void begin(struct inserting *in, int32_t held)
{
    in->arena = arena_make(0);
    network_init(&in->net, in->arena, HORIZON);
    net_add_resource(&in->net, (struct net_resource){1, NET_NONE});
    if (held == 0)
        return;
    in->held = add(in, held, 0);
    on_machine(in, in->held);
}

static void follow(struct inserting *in, int from, int to, int32_t least, int32_t most,
                   struct net_guard guard)
{
    if (least >= 0)
        net_add_lag(&in->net, (struct net_lag){from, to, false, net_after(least), guard, NET_NONE});
    if (most >= 0)
        net_add_lag(&in->net, (struct net_lag){from, to, true, net_after(most), guard, NET_NONE});
}

/* The last operation is ready a slot behind its start. */
static void all_added(struct inserting *in, int last)
{
    net_add_goal(&in->net, (struct net_goal){last, net_after(1), 0});
    model_init(&in->model, &in->net, in->arena, MODEL_MAXIMUM);
    edges_index(&in->model.edges);
    check_true(HERE, insertion_init(&in->insertion, &in->model, in->arena), "nothing is refuted");
}

/* B follows A at once, or two slots later at the most, on a machine that is held until slot 10: A, begun at once, is begun anew as late
 * as it must be, in slot 7, and no later. */
static void what_is_too_soon_begins_later(void **state)
{
    (void)state;
    struct inserting in;
    begin(&in, 10);
    int a = add(&in, 1, HORIZON), b = add(&in, 1, HORIZON);
    on_machine(&in, b);
    follow(&in, a, b, 1, 3, NET_ALWAYS);
    all_added(&in, b);
    check_true(HERE, insertion_run(&in.insertion, 1, MUCH), "begun anew once");
    check_int(HERE, in.insertion.schedule.start[in.held], 0);
    check_int(HERE, in.insertion.schedule.start[a], 7);
    check_int(HERE, in.insertion.schedule.start[b], 10);
    arena_free(in.arena);
}

/* B follows A, and D follows C; C begins with B or later, and E with D or later, but three slots behind A at the most: in slot 2, or from
 * slot 10 on. The machine for A is held in slot 0: begun in slot 1, A would have D begin in slot 3, and so E not before 10. It is begun
 * anew in slot 7, as soon as E may begin in 10. */
static void what_is_followed_too_late_begins_later(void **state)
{
    (void)state;
    struct inserting in;
    int32_t next[HORIZON + 1], previous[HORIZON + 1];
    for (int32_t t = 0; t <= HORIZON; t++) {
        next[t] = t <= 2 ? 2 : t < 10 ? 10 : t;
        previous[t] = t < 2 ? -1 : t < 10 ? 2 : t;
    }
    begin(&in, 1);
    int a = add(&in, 1, HORIZON), b = add(&in, 1, HORIZON), c = add(&in, 1, HORIZON),
        d = add(&in, 1, HORIZON), e = add(&in, 1, HORIZON);
    in.net.operations[e].calendar = net_add_calendar(&in.net, (struct net_calendar){next, previous});
    on_machine(&in, a);
    follow(&in, a, b, 1, -1, NET_ALWAYS);
    follow(&in, b, c, 0, -1, NET_ALWAYS);
    follow(&in, c, d, 1, -1, NET_ALWAYS);
    follow(&in, d, e, 0, -1, NET_ALWAYS);
    follow(&in, a, e, -1, 3, NET_ALWAYS);
    all_added(&in, e);
    check_true(HERE, insertion_run(&in.insertion, 1, MUCH), "begun anew once");
    check_int(HERE, in.insertion.schedule.start[a], 7);
    check_int(HERE, in.insertion.schedule.start[b], 8);
    check_int(HERE, in.insertion.schedule.start[c], 8);
    check_int(HERE, in.insertion.schedule.start[d], 9);
    check_int(HERE, in.insertion.schedule.start[e], 10);
    arena_free(in.arena);
}

/* B must begin at once, and would wait for A if one chose so: nobody does, and B has the machine before A. */
static void a_wait_that_is_not_chosen_keeps_nobody(void **state)
{
    (void)state;
    struct inserting in;
    begin(&in, 0);
    int a = add(&in, 1, HORIZON), b = add(&in, 1, 0);
    struct net_guard chosen = {net_add_flag(&in.net), 1};
    on_machine(&in, a);
    on_machine(&in, b);
    follow(&in, a, b, 0, -1, chosen);
    all_added(&in, b);
    check_true(HERE, insertion_run(&in.insertion, 0, MUCH), "nothing is begun anew");
    check_int(HERE, in.insertion.schedule.start[a], 1);
    check_int(HERE, in.insertion.schedule.start[b], 0);
    arena_free(in.arena);
}

/* A begins at once, and B three slots later at the most, unless one chooses otherwise, on a machine that is held until slot 10. Nothing can
 * begin later for that: the attempt ends, and the next one chooses otherwise. */
static void what_cannot_be_kept_is_given_up(void **state)
{
    (void)state;
    struct inserting in;
    begin(&in, 10);
    int a = add(&in, 1, 0), b = add(&in, 1, HORIZON), flag = net_add_flag(&in.net);
    on_machine(&in, b);
    follow(&in, a, b, 1, 3, (struct net_guard){flag, 0});
    all_added(&in, b);
    check_true(HERE, !insertion_run(&in.insertion, 5, MUCH), "the first attempt keeps it");
    check_true(HERE, insertion_run(&in.insertion, 5, MUCH), "the second does not");
    check_int(HERE, in.insertion.flag[flag], 1);
    check_int(HERE, in.insertion.schedule.start[b], 10);
    arena_free(in.arena);
}

int main(void)
{
    return CHECK_ALL(
        CHECK_TEST(what_is_too_soon_begins_later), CHECK_TEST(what_is_followed_too_late_begins_later),
        CHECK_TEST(a_wait_that_is_not_chosen_keeps_nobody), CHECK_TEST(what_cannot_be_kept_is_given_up));
}
