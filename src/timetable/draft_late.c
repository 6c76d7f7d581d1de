/* Every batch as late as its job's delivery, its work and what follows it allow. */
#include "timetable/draft.h"

#include "base/arena.h"

enum { ROUNDS = 6 };
static const int64_t shift_effort = 20000000; /* counted work; what is not shifted by then stays */

struct shifting {
    struct draft *draft;
    int32_t *by; /* per job: ready by */
};

static void set_limits(struct shifting *s)
{
    const struct site *site = s->draft->site;
    for (int j = 0; j < site->job_count; j++) {
        int32_t ready = draft_ready(s->draft, j);
        s->by[j] = ready <= site->jobs[j].aim   ? site->jobs[j].aim
                   : ready <= site->jobs[j].due ? site->jobs[j].due
                                                : ready;
    }
}

static bool in_time(const struct shifting *s)
{
    for (int j = 0; j < s->draft->site->job_count; j++)
        if (draft_ready(s->draft, j) > s->by[j])
            return false;
    return true;
}

static int32_t last_limit(const struct shifting *s)
{
    int32_t last = 0;
    for (int j = 0; j < s->draft->site->job_count; j++)
        last = s->by[j] > last ? s->by[j] : last;
    return last;
}

/* Where what follows begins, it could start no later. */
static int32_t last_start(const struct shifting *s, const struct placed *placed)
{
    const struct site *site = s->draft->site;
    int32_t last = last_limit(s) - (placed->laid.work_until - placed->laid.start);
    for (size_t i = 0; i < placed->batch.count; i++) {
        int item = placed->batch.items[i];
        const struct task_row *row = &site->rows[item];
        for (size_t k = 0; k < row->out_count; k++) {
            const struct link *link = &site->operations->links[row->out[k]];
            int32_t to = s->draft->start[link->to];
            if (site_link_is_limit(link) || to == SITE_NONE ||
                s->draft->batch_of[link->to] == s->draft->batch_of[item])
                continue;
            int32_t at = to - (placed->laid.work_from - placed->laid.start);
            last = at < last ? at : last;
        }
    }
    return last / GRID_MIN * GRID_MIN;
}

/* Takes the batch out and puts it in as late as it fits. */
static bool shift(struct shifting *s, size_t index)
{
    struct placed was = s->draft->placed[index], now;
    int32_t from = last_start(s, &was);
    int hands_on = was.laid.hands_on;
    draft_take_out(s->draft, index);
    for (int32_t start = from; start > was.laid.start && s->draft->effort < s->draft->effort_limit;
         start -= GRID_MIN) {
        if (!draft_fits(s->draft, was.batch, start, &now) || now.laid.hands_on > hands_on)
            continue;
        now.cause = was.cause;
        draft_add(s->draft, &now);
        if (in_time(s))
            return true;
        draft_take_out(s->draft, s->draft->count - 1);
    }
    draft_add(s->draft, &was);
    return false;
}

/* The batch that starts last of those not yet shifted in this round. */
static size_t next_last(const struct draft *draft, int32_t before, const int *done, size_t done_count)
{
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < draft->count; i++) {
        bool seen = false;
        for (size_t k = 0; k < done_count && !seen; k++)
            seen = done[k] == draft->placed[i].batch.items[0];
        if (!seen && draft->placed[i].laid.start <= before &&
            (best == SIZE_MAX || draft->placed[i].laid.start > draft->placed[best].laid.start))
            best = i;
    }
    return best;
}

void draft_shift_late(struct draft *draft)
{
    struct shifting s = {draft, ARENA_ARRAY(draft->site->arena, (size_t)draft->site->job_count, int32_t)};
    int *done = ARENA_ARRAY(draft->site->arena, draft->count, int);
    draft->effort_limit = draft->effort + shift_effort;
    set_limits(&s);
    bool moved = true;
    for (int round = 0; round < ROUNDS && moved; round++) {
        moved = false;
        for (size_t n = 0; n < draft->count; n++) {
            size_t index = next_last(draft, SITE_NEVER, done, n);
            done[n] = draft->placed[index].batch.items[0];
            moved |= shift(&s, index);
        }
    }
    draft->effort_limit = INT64_MAX;
}
