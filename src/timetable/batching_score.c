/* How good a plan is for an aim. */
#include "timetable/batching.h"

static void insert_late(struct score *score, int32_t late)
{
    for (int i = 0; i < LATES_MOST; i++)
        if (late > score->lates[i]) {
            int32_t less = score->lates[i];
            score->lates[i] = late;
            late = less;
        }
}

static void add_readiness(const struct variant *variant, struct score *score)
{
    const struct site *site = variant->draft->site;
    bool spare = true;
    for (int j = 0; j < site->job_count; j++) {
        const struct site_job *job = &site->jobs[j];
        int32_t ready = draft_ready(variant->draft, j), late = ready > job->due ? ready - job->due : 0;
        spare = spare && ready <= job->aim;
        score->late = late > score->late ? late : score->late;
        score->late_sum += late;
        insert_late(score, late);
        score->ready = ready > score->ready ? ready : score->ready;
        score->ready_sum += ready;
    }
    score->late = spare ? -1 : score->late;
}

struct score score_of(const struct variant *variant)
{
    struct score score = {.whole = variant->whole};
    const struct draft *draft = variant->draft;
    if (!variant->whole)
        return score;
    for (size_t i = 0; i < draft->count; i++) {
        const struct placed *placed = &draft->placed[i];
        int hands = placed->batch.helper == SITE_NONE ? 1 : 2;
        score.work += (int64_t)placed->laid.hands_on_s * hands;
        score.starts += placed->laid.start;
    }
    score.batches = draft->count;
    add_readiness(variant, &score);
    return score;
}

static int order_of(int64_t a, int64_t b)
{
    return a < b ? -1 : a > b;
}

static int order_of_lates(const struct score *a, const struct score *b)
{
    for (int i = 0; i < LATES_MOST; i++)
        if (a->lates[i] != b->lates[i])
            return order_of(a->lates[i], b->lates[i]);
    return order_of(a->late_sum, b->late_sum);
}

int score_compare(const struct score *a, const struct score *b, enum timetable_aim aim)
{
    const int64_t least_work[] = {order_of(a->late, b->late), order_of_lates(a, b),
                                  order_of(a->work, b->work), order_of(a->ready, b->ready),
                                  order_of(a->ready_sum, b->ready_sum)};
    const int64_t soonest[] = {order_of(a->ready, b->ready), order_of(a->ready_sum, b->ready_sum),
                               order_of(a->late, b->late), order_of_lates(a, b), order_of(a->work, b->work)};
    if (a->whole != b->whole)
        return a->whole ? -1 : 1;
    const int64_t *keys = aim == AIM_SOONEST ? soonest : least_work;
    for (size_t i = 0; i < sizeof soonest / sizeof soonest[0]; i++)
        if (keys[i])
            return (int)keys[i];
    int batches = order_of((int64_t)a->batches, (int64_t)b->batches);
    return batches ? batches : order_of(a->starts, b->starts);
}
