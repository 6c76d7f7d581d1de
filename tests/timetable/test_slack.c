/* How much later each batch may begin, those behind it following, before any job is ready later: worked by
 * hand. */
#include "check.h"
#include "work_list.h"

#include "base/arena.h"
#include "timetable/why.h"

enum { BATCHES = 4 };

/* Places a batch of these items as soon as it may be. */
static void place(struct draft *draft, int person, const int *items, size_t count)
{
    struct placed placed;
    struct batch batch = {.kind = draft->site->rows[items[0]].kind,
                          .person = person,
                          .helper = SITE_NONE,
                          .items = items,
                          .count = count};
    check_true(HERE, draft_place(draft, batch, 0, SITE_NEVER, &placed), "it can be placed");
    draft_add(draft, &placed);
}

static void check_slack(const struct row *row, struct draft *draft, const int32_t *want)
{
    int32_t slack[BATCHES];
    draft->effort_limit = INT64_MAX;
    why_slack(draft, slack);
    for (size_t i = 0; i < draft->count; i++)
        check_int(row, slack[i], want[i]);
}

static struct draft *new_draft(const struct site *site)
{
    struct draft *draft = draft_make(site->arena, site);
    draft->effort_limit = INT64_MAX;
    return draft;
}

/* Sanded 08:00-09:00, coated 11:00-12:00 behind a wait of 2 h; in it a task of another piece, 09:00-10:00,
 * which may as well be done until 11:00. */
static void what_lies_in_a_wait(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    const int sand = work_add(&list, DO_SAND, 1, 3600), coat = work_add(&list, DO_APPLY, 1, 3600);
    work_link(&list, sand, coat, 120);
    work_line(&list, coat, 0);
    work_row(&list);
    const int task = work_add(&list, DO_TASK, 1, 3600);
    work_line(&list, task, 0);
    struct draft *draft = new_draft(work_site(&list, 7));
    place(draft, 0, &sand, 1);
    place(draft, 0, &coat, 1);
    place(draft, 0, &task, 1);
    check_int(HERE, draft->start[task], work_at(0, 9, 0));
    check_slack(HERE, draft, (const int32_t[]){0, 0, 60});
    work_end(&list);
}

/* The same where the task is all of a job that is ready with it, which must not be ready later either. */
static void no_job_may_be_later(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    struct job second = list.panel.job;
    second.pieces = list.pieces;
    const int sand = work_add(&list, DO_SAND, 1, 3600), coat = work_add(&list, DO_APPLY, 1, 3600);
    work_link(&list, sand, coat, 120);
    work_line(&list, coat, 0);
    work_row(&list);
    const int task = work_add(&list, DO_TASK, 1, 3600);
    work_line(&list, task, 30);
    list.items[task].job = &second;
    struct draft *draft = new_draft(work_site(&list, 7));
    place(draft, 0, &sand, 1);
    place(draft, 0, &task, 1);
    place(draft, 0, &coat, 1);
    check_slack(HERE, draft, (const int32_t[]){0, 0, 0});
    work_end(&list);
}

/* All is through at noon but for a film that is ready at 15:00: what is behind its coat has three hours,
 * or until closing. */
static void until_the_last_film_is_ready(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    const int coat = work_add(&list, DO_APPLY, 1, 3600);
    work_line(&list, coat, 360);
    work_row(&list);
    const int first = work_add(&list, DO_SAND, 1, 3600), second = work_add(&list, DO_TASK, 1, 7200);
    work_link(&list, first, second, 0);
    work_line(&list, second, 0);
    struct draft *draft = new_draft(work_site(&list, 7));
    place(draft, 0, &coat, 1);
    place(draft, 0, &first, 1);
    place(draft, 0, &second, 1);
    check_slack(HERE, draft, (const int32_t[]){0, 180, 180});
    work_end(&list);
}

/* One sands two pieces from 08:00 to 10:00 in one batch; the second of them comes at 08:15 and is masked
 * by the other until 08:45: that need not be over before 09:00, though the batch that waits for it begins
 * sooner. */
static void a_batch_begins_before_what_it_waits_for(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    list.panel.job.shop.people = 2;
    const int first = work_add(&list, DO_SAND, 1, 3600);
    work_line(&list, first, 0);
    work_row(&list);
    list.pieces[1].ready_min = march(1, 8, 15);
    const int mask = work_add(&list, DO_MASK, 1, 1800), second = work_add(&list, DO_SAND, 1, 3600);
    work_link(&list, mask, second, 0);
    work_line(&list, second, 0);
    struct draft *draft = new_draft(work_site(&list, 7));
    place(draft, 1, &mask, 1);
    place(draft, 0, (const int[]){first, second}, 2);
    check_int(HERE, draft->start[first], work_at(0, 8, 0));
    check_int(HERE, draft->end[second], work_at(0, 10, 0));
    check_slack(HERE, draft, (const int32_t[]){15, 0});
    work_end(&list);
}

/* The same where a film is ready at 15:15 only: the masking may be put off until 13:45, and the sanding
 * follows it. */
static void what_waits_follows(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    list.panel.job.shop.people = 2;
    const int first = work_add(&list, DO_SAND, 1, 3600);
    work_line(&list, first, 0);
    work_row(&list);
    const int mask = work_add(&list, DO_MASK, 1, 1800), second = work_add(&list, DO_SAND, 1, 3600);
    work_link(&list, mask, second, 0);
    work_line(&list, second, 0);
    work_row(&list);
    const int coat = work_add(&list, DO_APPLY, 1, 900);
    work_line(&list, coat, 420);
    struct draft *draft = new_draft(work_site(&list, 7));
    place(draft, 1, &coat, 1);
    place(draft, 1, &mask, 1);
    place(draft, 0, (const int[]){first, second}, 2);
    check_int(HERE, draft->start[first], work_at(0, 8, 0));
    check_int(HERE, draft->start[mask], work_at(0, 8, 15));
    check_slack(HERE, draft, (const int32_t[]){0, 330, 315});
    work_end(&list);
}

/* A film is ready at 15:00. Sanded 09:00-10:00, coated 12:00-13:00 behind a wait; the task between,
 * 10:00-11:00, may as well be done from 14:00 on, when the coat is through. The sanding may begin at
 * 11:00, for the coat has to be done by 15:00. */
static void what_does_not_wait_goes_by(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    const int film = work_add(&list, DO_RUB, 1, 3600);
    work_line(&list, film, 360);
    work_row(&list);
    const int sand = work_add(&list, DO_SAND, 1, 3600), coat = work_add(&list, DO_APPLY, 1, 3600);
    work_link(&list, sand, coat, 120);
    work_line(&list, coat, 0);
    work_row(&list);
    const int task = work_add(&list, DO_TASK, 1, 3600);
    work_line(&list, task, 0);
    struct draft *draft = new_draft(work_site(&list, 7));
    place(draft, 0, &film, 1);
    place(draft, 0, &sand, 1);
    place(draft, 0, &coat, 1);
    place(draft, 0, &task, 1);
    check_slack(HERE, draft, (const int32_t[]){0, 120, 120, 240});
    work_end(&list);
}

/* The plan looks one day ahead: a coat that dries for three days lets the sanding begin at 16:00 and no
 * later. */
static void no_further_than_the_plan_looks(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    const int coat = work_add(&list, DO_APPLY, 1, 3600);
    work_line(&list, coat, 3 * 24 * 60);
    work_row(&list);
    const int sand = work_add(&list, DO_SAND, 1, 3600);
    work_line(&list, sand, 0);
    struct draft *draft = new_draft(work_site(&list, 1));
    place(draft, 0, &coat, 1);
    place(draft, 0, &sand, 1);
    check_slack(HERE, draft, (const int32_t[]){0, 420});
    work_end(&list);
}

/* Two people begin at once; the shorter of two coats has an hour, in whatever order they were placed. */
static void people_follow_their_own(void **state)
{
    (void)state;
    for (int other = 0; other < 2; other++) {
        struct work_list list;
        work_begin(&list);
        list.panel.job.shop.people = 2;
        const int longer = work_add(&list, DO_APPLY, 1, 7200), behind = work_add(&list, DO_SAND, 1, 3600);
        work_link(&list, longer, behind, 0);
        work_line(&list, behind, 0);
        work_row(&list);
        const int shorter = work_add(&list, DO_APPLY, 1, 3600);
        work_line(&list, shorter, 60);
        struct draft *draft = new_draft(work_site(&list, 7));
        place(draft, other, &longer, 1);
        place(draft, other, &behind, 1);
        place(draft, 1 - other, &shorter, 1);
        check_slack(HERE, draft, (const int32_t[]){0, 0, 60});
        work_end(&list);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(what_lies_in_a_wait), CHECK_TEST(no_job_may_be_later),
                     CHECK_TEST(until_the_last_film_is_ready),
                     CHECK_TEST(a_batch_begins_before_what_it_waits_for), CHECK_TEST(what_waits_follows),
                     CHECK_TEST(what_does_not_wait_goes_by), CHECK_TEST(no_further_than_the_plan_looks),
                     CHECK_TEST(people_follow_their_own));
}
