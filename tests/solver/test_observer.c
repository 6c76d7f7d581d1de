/* A search that somebody looks on and ends: at any of its questions it stops soon and gives the best plan so far. */
#include "check.h"
#include "net_jobs.h"
#include "net_verify.h"

#include "base/arena.h"
#include "base/observer.h"

/* Ends the work at the n-th question; 0: never. */
struct looking {
    int asked, end_at;
    bool ended_before;
};

static bool look(void *with, const struct observer *observer)
{
    struct looking *looking = with;
    looking->ended_before |= observer->ended;
    looking->asked++;
    return looking->asked != looking->end_at;
}

static struct net_result solve(struct arena *arena, struct network *net, struct looking *looking,
                               int64_t effort)
{
    struct observer *observer = ARENA_NEW(arena, struct observer);
    struct net_result result;
    *observer = (struct observer){.look = look, .with = looking};
    net_jobs_make(net, arena, 80, 3);
    net->observer = observer;
    net_solve(net, (struct net_options){effort}, &result);
    return result;
}

enum { EFFORT = 60000000 };

/* Whoever only looks on changes nothing. */
static void looking_on_changes_no_plan(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct network net, alone;
    struct net_result unseen;
    struct looking looking = {0};
    net_jobs_make(&alone, arena, 80, 3);
    net_solve(&alone, (struct net_options){EFFORT}, &unseen);
    struct net_result seen = solve(arena, &net, &looking, EFFORT);
    check_true(HERE, looking.asked > 40, "asked often");
    check_int(HERE, seen.value, unseen.value);
    check_int(HERE, seen.effort, unseen.effort);
    check_true(HERE, !seen.ended, "not ended");
    for (size_t i = 0; i < net.operation_count; i++)
        check_int(HERE, seen.start[i], unseen.start[i]);
    arena_free(arena);
}

static void ended_at_any_question_it_gives_the_best_so_far(void **state)
{
    (void)state;
    int64_t effort_before = 0;
    int32_t value_before = INT32_MAX;
    for (int end_at = 1; end_at <= 16; end_at *= 4) {
        struct arena *arena = arena_make(0);
        struct network net;
        struct looking looking = {.end_at = end_at};
        struct net_result result = solve(arena, &net, &looking, EFFORT);
        check_int(HERE, looking.asked, end_at);
        check_true(HERE, !looking.ended_before, "not asked again");
        check_true(HERE, result.ended && !result.proven, "said as such");
        net_verify(HERE, &net, &result);
        check_true(HERE, result.value <= value_before, "later is never worse");
        check_true(HERE, result.effort >= effort_before && result.effort < EFFORT, "stopped on the way");
        value_before = result.value;
        effort_before = result.effort;
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(looking_on_changes_no_plan),
                     CHECK_TEST(ended_at_any_question_it_gives_the_best_so_far));
}
