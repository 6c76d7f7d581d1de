#include "net_jobs.h"

#include "base/arena.h"
#include "check.h"

enum { HOUR = 12, DAY = 24 * HOUR, WEEKS = 8, LONGEST = 48, PIECES_MOST = 100, STEPS_MOST = 16 };
enum { PEOPLE, RACK };

enum what { SAND, COAT, POLISH };

struct making {
    struct network *net;
    uint64_t seed;
    int calendar[LONGEST + 1]; /* by duration, NET_NONE: not yet made */
    int operation[PIECES_MOST][STEPS_MOST];
    enum what what[PIECES_MOST][STEPS_MOST];
    int steps[PIECES_MOST], pieces;
};

static int draw(struct making *m, int low, int high)
{
    return check_random_int(&m->seed, low, high);
}

static bool open_at(int32_t t)
{
    int32_t day = t / DAY % 7, slot = t % DAY;
    return day < 5 && ((slot >= 8 * HOUR && slot < 12 * HOUR) || (slot >= 13 * HOUR && slot < 17 * HOUR));
}

static int calendar_for(struct making *m, int32_t duration)
{
    if (m->calendar[duration] != NET_NONE)
        return m->calendar[duration];
    int32_t horizon = m->net->horizon, run = 0;
    int32_t *next = ARENA_ARRAY(m->net->arena, (size_t)horizon + 1, int32_t);
    int32_t *previous = ARENA_ARRAY(m->net->arena, (size_t)horizon + 1, int32_t);
    for (int32_t t = horizon; t >= 0; t--) {
        run = open_at(t) ? run + 1 : 0;
        next[t] = run >= duration ? t : t < horizon ? next[t + 1] : NET_NEVER;
    }
    for (int32_t t = 0; t <= horizon; t++)
        previous[t] = next[t] == t ? t : t > 0 ? previous[t - 1] : -1;
    return m->calendar[duration] = net_add_calendar(m->net, (struct net_calendar){next, previous});
}

static int add_step(struct making *m, enum what what, int32_t duration)
{
    int piece = m->pieces, calendar = calendar_for(m, duration);
    int operation =
        net_add_operation(m->net, (struct net_operation){duration, calendar, 0, m->net->horizon, NET_ALWAYS});
    net_add_use(m->net, (struct net_use){operation, PEOPLE, 1, net_after(duration), 0, 0});
    m->what[piece][m->steps[piece]] = what;
    m->operation[piece][m->steps[piece]++] = operation;
    return operation;
}

static void lag(struct making *m, int from, int to, int32_t low, int32_t high)
{
    int32_t end = m->net->operations[from].duration;
    net_add_lag(m->net, (struct net_lag){from, to, false, net_after(end + low), NET_ALWAYS, NET_NONE});
    if (high > 0)
        net_add_lag(m->net, (struct net_lag){from, to, true, net_after(end + high), NET_ALWAYS, NET_NONE});
}

/* Coats of one piece with their between-sanding; `room` operations are left. */
static void add_piece(struct making *m, int room)
{
    int coats = draw(m, 1, 4), last = add_step(m, SAND, draw(m, 4, 24));
    bool window = !draw(m, 0, 4), polish = !draw(m, 0, 3);
    int32_t wait = 0, dry = draw(m, 4, 24) * HOUR, area = draw(m, 4, 14);
    for (int k = 0; k < coats && room > 3; k++) {
        if (k > 0 && draw(m, 0, 1)) {
            int sand = add_step(m, SAND, draw(m, 2, 8));
            lag(m, last, sand, wait, 0);
            last = sand;
            wait = 0;
        }
        int before = last, coat = add_step(m, COAT, draw(m, 3, 12));
        bool opens = window && k > 0 && wait > 0;
        lag(m, before, coat, wait, opens ? wait + 30 * HOUR : 0);
        net_add_use(m->net, (struct net_use){coat, RACK, area,
                                             net_after(m->net->operations[coat].duration + dry / 2), 0, 0});
        last = coat;
        if (polish) {
            last = add_step(m, POLISH, draw(m, 2, 5));
            lag(m, coat, last, 2, 6);
        }
        wait = dry;
        room -= 3;
    }
    int32_t end = m->net->operations[last].duration;
    net_add_goal(m->net, (struct net_goal){last, net_after(end + draw(m, 1, 4) * DAY), 0});
    m->pieces++;
}

static void add_dust(struct making *m)
{
    for (int p = 0; p < m->pieces; p++)
        for (int q = 0; q < m->pieces; q++)
            for (int i = 0; p != q && i < m->steps[p]; i++)
                for (int k = 0; k < m->steps[q]; k++) {
                    int coat = m->operation[p][i], sand = m->operation[q][k];
                    if (m->what[p][i] != COAT || m->what[q][k] != SAND)
                        continue;
                    int32_t wet = m->net->operations[coat].duration + 2 * HOUR;
                    int32_t dust = m->net->operations[sand].duration + 6;
                    net_add_disjunction(m->net, (struct net_disjunction){coat, sand, net_after(wet),
                                                                         net_after(dust), NET_NONE});
                }
}

void net_jobs_make(struct network *net, struct arena *arena, int operations, uint64_t seed)
{
    struct making m = {.net = net, .seed = seed};
    network_init(net, arena, WEEKS * 7 * DAY);
    for (int d = 0; d <= LONGEST; d++)
        m.calendar[d] = NET_NONE;
    net_add_resource(net, (struct net_resource){draw(&m, 1, 4) == 1 ? 2 : 1, NET_NONE});
    net_add_resource(net, (struct net_resource){draw(&m, 20, 40), NET_NONE});
    while ((int)net->operation_count < operations && m.pieces < PIECES_MOST)
        add_piece(&m, operations - (int)net->operation_count);
    if (draw(&m, 0, 1))
        add_dust(&m);
}
