/* The least work where all of it together must be shared out among people and hours, worked by hand. Work begins at 08:00. Sanding is
 * set up for 10 min, a coat for 20 and cleaned up for 10, rubbing set up for 20. */
#include "check.h"
#include "work_list.h"

#include "base/arena.h"
#include "timetable/bounds.h"

#include <string.h>

enum { COATED = 30, RUBBED = 20, SANDED = 10, CLOSES = 1020 };

struct morning_row {
    struct row row;
    int sanding, sand_clean_up; /* minutes */
    int rubbings;      /* of half an hour in all: one, or one and another that is there from 09:20 on */
    int32_t rubbed_by; /* minute of the day */
    unsigned helps;    /* what a second person does; 0: there is none */
    int more;          /* minutes of set-ups beside one of each kind and its clean-up */
};

/* A is coated for half an hour and must be through by 10:40, B is sanded before it is coated for 15 min. If one batch coats both, it is
 * set up from 09:50 on at the latest. The sanding is over by then, and so is the rubbing, which must be over before that batch is:
 * 110 min for both. Where that is too little A is coated first, by itself, and there is time for the sanding later. */
static const struct morning_row mornings[] = {
    /* 10 + 50, 20 + 30 */
    {ROW("just enough"), 50, 0, 1, 600, 0, 0},
    {ROW("a minute too much"), 51, 0, 1, 600, 0, COATED},
    {ROW("rubbed behind the coats, by 11:55"), 51, 0, 1, 715, 0, 0},
    {ROW("one helps who can sand"), 100, 0, 1, 600, 1u << WORK_SAND, 0},
    {ROW("one helps who can only polish"), 51, 0, 1, 600, 1u << WORK_POLISH, COATED},
    /* 10 + 50 + 10, 20 + 30 */
    {ROW("the tool is clean before the coats are set up"), 50, 10, 1, 600, 0, COATED},
    {ROW("and there is time to clean it"), 40, 10, 1, 600, 0, 0},
    /* 10 + 35, 2 x 20 + 30 */
    {ROW("each batch is set up"), 35, 0, 2, 600, 0, RUBBED + COATED},
    {ROW("and there is time for two"), 30, 0, 2, 600, 0, RUBBED},
};

static void what_must_be_done_first_takes_the_time(void **state)
{
    const struct morning_row *r = *state;
    struct work_list list;
    struct person crew[2];
    int32_t by = CLOSES;
    work_begin(&list);
    work_set_up(&list, WORK_SAND, SANDED, r->sand_clean_up);
    work_set_up(&list, TOOL_CLOTH, 20, 10);
    work_set_up(&list, WORK_RUB, RUBBED, 0);
    struct shop *shop = &list.panel.job.shop;
    if (r->helps) {
        for (int p = 0; p < 2; p++) {
            crew[p] = (struct person){.name = "P", .does = p > 0 ? r->helps : SKILLS_ALL};
            memcpy(crew[p].hours, shop->hours, sizeof shop->hours);
        }
        shop->people = 2;
        shop->crew = crew;
    }
    work_line(&list, work_add(&list, DO_APPLY, 1, 1800), CLOSES - 640);
    work_row(&list);
    int sanded = work_add(&list, DO_SAND, 1, r->sanding * 60), coated = work_add(&list, DO_APPLY, 1, 900);
    work_link(&list, sanded, coated, 0);
    work_line(&list, coated, 0);
    for (int n = 0; n < r->rubbings; n++) {
        work_row(&list);
        int rubbed = work_add(&list, DO_RUB, 1, 1800 / r->rubbings);
        work_line(&list, rubbed, CLOSES - (r->rubbings > 1 && n == 0 ? 530 : r->rubbed_by));
        if (n > 0)
            list.pieces[list.rows - 1].ready_min = march(1, 9, 20);
    }
    int64_t units = 30 + 15 + r->sanding + 30, once = SANDED + r->sand_clean_up + COATED + RUBBED;
    check_int(&r->row, bounds_work(work_site(&list, 14), &by), (units + once + r->more) * 60);
    work_end(&list);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(mornings, what_must_be_done_first_takes_the_time));
}
