/* What was done against what the work before it asked, and what each coat is charged with of its batch:
 * worked by hand. The oil dries by reaction at its reference air unless a test says otherwise, now is
 * Wednesday 3 March 2027 12:00. */
#include "check.h"
#include "logged.h"

#include "timetable/facts.h"

enum { H = 60 };

/* Two rows of facts in which the second did not do what the first asks: the coat was done 09:00-10:00, is
 * there again at 13:00 and its window ends at 15:00. */
struct break_row {
    struct row row;
    struct link link;
    int began_h, began_min; /* of the second */
    bool scuffed;
    int want;   /* an enum broke, -1: none */
    int want_h; /* when it would have been right */
};

static const struct break_row breaks[] = {
    {ROW("after its end"), {.kind = LINK_END}, 10, 0, false, -1, 0},
    {ROW("before its end"), {.kind = LINK_END}, 9, 59, false, BROKE_ORDER, 0},
    {ROW("dry"), {.kind = LINK_STATE, .state = STATE_RECOAT}, 13, 0, false, -1, 0},
    {ROW("less than five minutes"), {.kind = LINK_STATE, .state = STATE_RECOAT}, 12, 56, false, -1, 0},
    {ROW("five minutes"), {.kind = LINK_STATE, .state = STATE_RECOAT}, 12, 55, false, BROKE_WAIT, 13},
    {ROW("in the window"), {.kind = LINK_WINDOW}, 15, 0, false, -1, 0},
    {ROW("behind the window"), {.kind = LINK_WINDOW}, 15, 1, false, BROKE_WINDOW, 15},
    {ROW("scuffed"), {.kind = LINK_WINDOW}, 15, 1, true, -1, 0},
    {ROW("polished in time"), {.kind = LINK_POLISH, .span_min = 120}, 12, 0, false, -1, 0},
    {ROW("polished late"), {.kind = LINK_POLISH, .span_min = 120}, 12, 1, false, BROKE_WINDOW, 12},
    {ROW("on the same day"), {.kind = LINK_DAY}, 11, 0, false, -1, 0},
};

static void break_is(void **state)
{
    const struct break_row *r = *state;
    struct logged *logged = logged_make();
    panel_set_window(&logged->work.panel, 180, 300);
    logged->work.items[logged_add(logged, "a/oil/1/scuff-320", 0, DO_SCUFF, 30)].chain = 7;
    logged_add(logged, "b/oil-b/1/apply", 1, DO_APPLY, 60);
    logged_add(logged, "a/oil/1/apply", 0, DO_APPLY, 60);
    logged_add(logged, "a/oil/2/apply", 0, DO_APPLY, 60);
    struct link *link = hand_link(&logged->work, 2, 3, r->link.kind, r->link.span_min);
    link->state = r->link.state;
    link->unless = 0;
    logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 10, 0));
    logged_done(logged, "a/oil/2/apply", march(1, r->began_h, r->began_min), march(1, 17, 0));
    if (r->scuffed)
        logged_done(logged, "a/oil/1/scuff-320", march(1, 14, 0), march(1, 14, 30));
    const struct operations *left = logged_settle(logged);
    const struct fact *fact = &left->facts[left->fact_count - 1];
    check_int(&r->row, (intmax_t)left->wait_count, 0); /* nothing is left that waits */
    check_int(&r->row, left->items[left->count - 1].latest_min, INT64_MAX);
    check_int(&r->row, fact->break_count, r->want >= 0);
    check_int(&r->row, left->facts[0].break_count, 0);
    if (r->want >= 0) {
        check_int(&r->row, fact->breaks[0].kind, r->want);
        check_int(&r->row, fact->breaks[0].at_min, r->want_h > 0 ? march(1, r->want_h, 0) : 0);
    }
    if (r->want == BROKE_WAIT)
        check_int(&r->row, fact->breaks[0].state, STATE_RECOAT);
    if (r->want == BROKE_ORDER)
        check_text(&r->row, fact->breaks[0].before, "a/oil/1/apply");
    logged_free(logged);
}

/* What was passed over broke nothing, and nothing broke it. */
static void what_was_passed_over_breaks_nothing(void **state)
{
    (void)state;
    struct logged *logged = logged_rows();
    hand_link(&logged->work, 0, 1, LINK_END, 0);
    hand_link(&logged->work, 1, 2, LINK_END, 0);
    hand_link(&logged->work, 2, 3, LINK_END, 0);
    logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 10, 0));
    logged_done(logged, "a/oil/2/apply", march(1, 8, 0), march(1, 9, 0));
    const struct operations *left = logged_settle(logged);
    for (size_t i = 0; i < left->fact_count; i++)
        check_int(HERE, left->facts[i].break_count, 0);
    logged_free(logged);
}

/* No more breaks than there is room for. */
static void breaks_at_the_most(void **state)
{
    (void)state;
    struct logged *logged = logged_rows();
    for (int i = 0; i < BREAKS_MOST + 2; i++)
        hand_link(&logged->work, 1, 3, LINK_END, 0);
    logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 10, 0));
    logged_done(logged, "a/oil/2/apply", march(1, 8, 0), march(1, 9, 0));
    check_int(HERE, logged_settle(logged)->facts[3].break_count, BREAKS_MOST);
    logged_free(logged);
}

/* The air when the coat was begun; the limits themselves suit: 5-35 C, 30-90 %. */
static const struct {
    struct row row;
    struct air air;
    bool want;
} airs[] = {
    {ROW("reference"), {23, 0.5}, false}, {ROW("lowest"), {5, 0.5}, false},
    {ROW("too cold"), {4.9, 0.5}, true},  {ROW("highest"), {35, 0.5}, false},
    {ROW("too hot"), {35.1, 0.5}, true},  {ROW("driest"), {23, 0.3}, false},
    {ROW("too dry"), {23, 0.29}, true},   {ROW("dampest"), {23, 0.9}, false},
    {ROW("too damp"), {23, 0.91}, true},
};

static void laid_in_bad_air(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof airs / sizeof airs[0]; i++) {
        struct logged *logged = logged_rows();
        const struct air_spell spells[] = {{0, {23, 0.5}}, {9 * H, airs[i].air}, {10 * H, {23, 0.5}}};
        logged->work.panel.finish.air.driest = 0.3;
        logged->work.panel.job.shop.air.daily = (struct air_day){.spells = spells, .spell_count = 3};
        logged_done(logged, "a/oil/0/sand-180", march(1, 9, 0), march(1, 9, 30));
        logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 10, 0));
        logged_done(logged, "b/oil-b/1/apply", march(1, 10, 0), march(1, 11, 0));
        const struct operations *left = logged_settle(logged);
        check_int(&airs[i].row, left->facts[0].break_count, 0); /* wood does not mind */
        check_int(&airs[i].row, left->facts[1].break_count, airs[i].want);
        check_int(&airs[i].row, left->facts[2].break_count, 0);
        if (airs[i].want) {
            check_int(&airs[i].row, left->facts[1].breaks[0].kind, BROKE_AIR);
            check_double(&airs[i].row, left->facts[1].breaks[0].air.temperature_c, airs[i].air.temperature_c,
                         0);
        }
        logged_free(logged);
    }
}

/* A of 1 m2 and B of 3 m2 were laid in one batch: a quarter and three quarters of what stays in the cloth. By
 * themselves each is charged with all of it; what was sanded, with none. */
static void a_batch_shares_what_stays_in_the_tool(void **state)
{
    (void)state;
    for (int together = 0; together < 2; together++) {
        struct logged *logged = logged_rows();
        panel_set_hours(&logged->work.panel, 1, 3);
        logged_done(logged, "a/oil/0/sand-180", march(1, 8, 0), march(1, 8, 30))->batch = "2027-03-01/1";
        logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 10, 0))->batch = "2027-03-01/1";
        logged_done(logged, "b/oil-b/1/apply", march(1, 10, 0), march(1, 11, 0))->batch =
            together ? "2027-03-01/1" : "2027-03-01/2";
        const struct operations *left = logged_settle(logged);
        check_double(HERE, left->facts[0].loss_share, 0, 0);
        check_double(HERE, left->facts[1].loss_share, together ? 0.25 : 1, 1e-12);
        check_double(HERE, left->facts[2].loss_share, together ? 0.75 : 1, 1e-12);
        logged_free(logged);
    }
}

/* The only coat that was laid, and the first of all facts: it has all of what stayed in the cloth. */
static void a_lone_coat_has_all_of_it(void **state)
{
    (void)state;
    struct logged *logged = logged_make();
    logged_add(logged, "a/oil/1/apply", 0, DO_APPLY, 60);
    logged_done(logged, "a/oil/1/apply", march(1, 9, 0), march(1, 10, 0));
    check_double(HERE, logged_settle(logged)->facts[0].loss_share, 1, 0);
    logged_free(logged);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(breaks, break_is), CHECK_TEST(what_was_passed_over_breaks_nothing),
                     CHECK_TEST(breaks_at_the_most), CHECK_TEST(laid_in_bad_air),
                     CHECK_TEST(a_batch_shares_what_stays_in_the_tool),
                     CHECK_TEST(a_lone_coat_has_all_of_it));
}
