/* The slack of a batch: it is put later, all that start behind it follow in their order and with their people, and it is
 * seen whether any job is ready later than it was. */
#include "timetable/why.h"

#include "base/arena.h"

static const int64_t slack_effort =
    20000000; /* counted work; of what is not known by then no slack is told */

struct slipping {
    const struct site *site;
    struct draft *draft, *trial;
    const struct placed **order; /* by start */
    int32_t *ready;              /* per job */
};

static bool starts_before(const struct placed *a, const struct placed *b)
{
    return a->laid.start != b->laid.start ? a->laid.start < b->laid.start : a->batch.person < b->batch.person;
}

/* No more batches than slack is known of. */
static void sort_by_start(const struct placed **order, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        const struct placed *placed = order[i];
        size_t at = i;
        for (; at > 0 && starts_before(placed, order[at - 1]); at--)
            order[at] = order[at - 1];
        order[at] = placed;
    }
}

static bool all_ready(const struct slipping *s)
{
    for (int j = 0; j < s->site->job_count; j++)
        if (draft_ready(s->trial, j) > s->ready[j])
            return false;
    return true;
}

/* Whether all that a batch waits for is among the first so many of the order. */
static bool is_open(const struct slipping *s, const struct batch *batch, size_t ordered)
{
    for (size_t i = 0; i < batch->count; i++) {
        const struct task_row *row = &s->site->rows[batch->items[i]];
        for (size_t k = 0; k < row->in_count; k++) {
            int from = s->site->operations->links[row->in[k]].from;
            int of = s->draft->start[from] == SITE_NONE ? SITE_NONE : s->draft->batch_of[from];
            bool before = of == SITE_NONE || of == s->draft->batch_of[batch->items[0]];
            for (size_t n = 0; n < ordered && !before; n++)
                before = s->order[n] == &s->draft->placed[of];
            if (!before)
                return false;
        }
    }
    return true;
}

/* By start, but behind all that is waited for: a batch may begin before another is through for which only its later items
 * wait. */
static void put_in_order(struct slipping *s)
{
    sort_by_start(s->order, s->draft->count);
    for (size_t at = 0; at < s->draft->count; at++) {
        size_t next = at;
        while (next < s->draft->count && !is_open(s, &s->order[next]->batch, at))
            next++;
        if (next == s->draft->count)
            return;
        const struct placed *placed = s->order[next];
        for (; next > at; next--)
            s->order[next] = s->order[next - 1];
        s->order[at] = placed;
    }
}

static bool has_slack(struct slipping *s, size_t at, int32_t by)
{
    draft_clear(s->trial);
    for (size_t i = 0; i < s->draft->count; i++) {
        const struct placed *placed = s->order[i];
        struct placed again;
        if (i < at) {
            draft_add(s->trial, placed);
            continue;
        }
        int32_t from = placed->laid.start + (i == at ? by : 0);
        if (!draft_place(s->trial, placed->batch, from, SITE_NEVER, &again))
            return false;
        draft_add(s->trial, &again);
    }
    return all_ready(s);
}

static int32_t slack_of(struct slipping *s, size_t at)
{
    int32_t last = 0;
    for (int j = 0; j < s->site->job_count; j++)
        last = s->ready[j] > last ? s->ready[j] : last;
    int32_t low = 0, high = (last - s->order[at]->laid.start) / GRID_MIN + 1;
    while (high - low > 1) {
        int32_t middle = low + (high - low) / 2;
        if (has_slack(s, at, middle * GRID_MIN))
            low = middle;
        else
            high = middle;
    }
    return s->trial->effort < s->trial->effort_limit ? low * GRID_MIN : -1;
}

void why_slack(struct draft *draft, int32_t *slack)
{
    struct arena *arena = draft->site->arena;
    struct slipping s = {.site = draft->site, .draft = draft, .trial = draft_make(arena, draft->site)};
    s.order = ARENA_ARRAY(arena, draft->count, const struct placed *);
    s.ready = ARENA_ARRAY(arena, (size_t)s.site->job_count, int32_t);
    draft_copy(s.trial, draft);
    for (size_t i = 0; i < draft->site->count; i++)
        s.trial->hold[i] = 0;
    for (size_t i = 0; i < draft->count; i++)
        s.order[i] = &draft->placed[i];
    s.trial->effort_limit = s.trial->effort + slack_effort;
    put_in_order(&s);
    for (int j = 0; j < s.site->job_count; j++)
        s.ready[j] = draft_ready(draft, j);
    for (size_t i = 0; i < draft->count; i++)
        slack[s.order[i] - draft->placed] = s.trial->effort < s.trial->effort_limit ? slack_of(&s, i) : -1;
}
