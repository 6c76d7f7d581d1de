/* Jobs planned together describe one shop: each key in which two descriptions differ is reported at its place in the later job,
 * with the file of the first; the same said in other words is the same. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "base/err.h"
#include "source/shop_file.h"

static const struct stretch short_day[] = {{8 * 60, 16 * 60}};
static const struct air_spell cold[] = {{0, {22, 0.5}}}, damp[] = {{0, {23, 0.51}}},
                              rounded[] = {{0, {23 + 5e-10, 0.5 + 5e-10}}}; /* as digits end */
static const struct air_day cold_day[] = {{20514, cold, 1}};
static const struct day_range shut[] = {{20514, 20516}}, shut_in_parts[] = {{20516, 20516}, {20514, 20515}};
static const struct busy away[] = {{29540000, 29540060}},
                         away_in_parts[] = {{29540030, 29540060}, {29540000, 29540040}};
static const struct person ann_away[] = {{.name = "Ann", .does = SKILLS_ALL, .busy = away, .busy_count = 1}};
static const struct person ann[] = {{.name = "Ann", .does = SKILLS_ALL}};
static const struct zone berlin = {"Europe/Berlin", 0, NULL};

static void more_people(struct panel *p)
{
    p->job.shop.people = 3;
}
static void shorter_hours(struct panel *p)
{
    p->job.shop.hours[2].stretches = short_day;
}
static void closed_days(struct panel *p)
{
    p->job.shop.closed = shut;
    p->job.shop.closed_count = 1;
}
static void busy_times(struct panel *p)
{
    p->job.shop.busy = away;
    p->job.shop.busy_count = 1;
}
static void colder_air(struct panel *p)
{
    p->job.shop.air.daily.spells = cold;
}
static void damper_air(struct panel *p)
{
    p->job.shop.air.daily.spells = damp;
}
static void colder_day(struct panel *p)
{
    p->job.shop.air.dated = cold_day;
    p->job.shop.air.dated_count = 1;
}
static void rack(struct panel *p)
{
    p->job.shop.rack_m2 = 4;
}
static void spray_places(struct panel *p)
{
    p->job.shop.spray_places = 2;
}
static void separate_room(struct panel *p)
{
    p->job.shop.dust_separate = true;
}
static void longer_settling(struct panel *p)
{
    p->job.shop.settle_min = 45;
}
static void slower_set_up(struct panel *p)
{
    p->job.shop.set_up_min[WORK_SAND] = 5;
}
static void slower_clean_up(struct panel *p)
{
    p->job.shop.two_part_clean_up_min[TOOL_CONVENTIONAL] += 5;
}
static void slower_handling(struct panel *p)
{
    p->job.shop.handling_min[WORK_RUB] = 2;
}
static void other_rate(struct panel *p)
{
    p->job.shop.rate_m2_per_h[WORK_WIPE] = 9;
}
static void other_zone(struct panel *p)
{
    p->job.zone = &berlin;
}
static void shop_in_the_job(struct panel *p)
{
    p->job.shop_file = NULL;
    more_people(p);
}

struct difference_row {
    struct row row;
    void (*spoil)(struct panel *panel);
    const char *want; /* file: pointer: expected, found */
};

#define SHARED ": jobs planned together share one shop, found "
#define OTHER "expected the same as in desk-shop.json" SHARED "something else"

static const struct difference_row differences[] = {
    {ROW("people"), more_people, "shelf-shop.json: /people: expected 1 as in desk-shop.json" SHARED "3"},
    {ROW("hours of a day"), shorter_hours, "shelf-shop.json: /hours: " OTHER},
    {ROW("closed days"), closed_days, "shelf-shop.json: /closed: " OTHER},
    {ROW("busy times"), busy_times, "shelf-shop.json: /busy: " OTHER},
    {ROW("temperature"), colder_air, "shelf-shop.json: /air: " OTHER},
    {ROW("humidity"), damper_air, "shelf-shop.json: /air: " OTHER},
    {ROW("air of a day"), colder_day, "shelf-shop.json: /air: " OTHER},
    {ROW("rack"), rack, "shelf-shop.json: /rack: expected no limit as in desk-shop.json" SHARED "4 m2"},
    {ROW("spray places"), spray_places,
     "shelf-shop.json: /spray-places: expected 1 as in desk-shop.json" SHARED "2"},
    {ROW("room"), separate_room,
     "shelf-shop.json: /dust-room: expected shared as in desk-shop.json" SHARED "separate"},
    {ROW("settling"), longer_settling,
     "shelf-shop.json: /settle: expected 0 min as in desk-shop.json" SHARED "45 min"},
    {ROW("set-up"), slower_set_up, "shelf-shop.json: /set-up: " OTHER},
    {ROW("clean-up"), slower_clean_up, "shelf-shop.json: /clean-up: " OTHER},
    {ROW("handling"), slower_handling, "shelf-shop.json: /handling: " OTHER},
    {ROW("rates"), other_rate, "shelf-shop.json: /rates: " OTHER},
    {ROW("zone"), other_zone, "shelf.json: /zone: expected UTC as in desk.json" SHARED "Europe/Berlin"},
    {ROW("a shop in the job itself"), shop_in_the_job,
     "shelf.json: /shop/people: expected 1 as in desk-shop.json" SHARED "3"},
};

/* A desk and a shelf of one shop, written twice. */
static void two_jobs(struct panel *desk, struct panel *shelf)
{
    panel_init(desk);
    panel_init(shelf);
    desk->job.file = "desk.json";
    desk->job.shop_file = "desk-shop.json";
    shelf->job.file = "shelf.json";
    shelf->job.shop_file = "shelf-shop.json";
}

static void check_difference(void **state)
{
    const struct difference_row *want = *state;
    struct panel desk, shelf;
    struct err_list of_desk = {0}, of_shelf = {0};
    struct err_list *errors[] = {&of_desk, &of_shelf};
    char line[ERR_LINE_SIZE];
    two_jobs(&desk, &shelf);
    want->spoil(&shelf);
    const struct job *jobs[] = {&desk.job, &shelf.job};
    check_true(&want->row, !shops_agree(jobs, 2, errors), "refused");
    check_int(&want->row, (intmax_t)of_desk.count, 0);
    check_int(&want->row, (intmax_t)of_shelf.count, 1);
    err_format(&of_shelf.items[0], line, sizeof line);
    check_text(&want->row, line, want->want);
}

static void the_same_in_other_words(void **state)
{
    (void)state;
    struct panel desk, shelf;
    struct err_list of_desk = {0}, of_shelf = {0};
    struct err_list *errors[] = {&of_desk, &of_shelf};
    two_jobs(&desk, &shelf);
    closed_days(&desk);
    busy_times(&desk);
    shelf.job.shop.closed = shut_in_parts;
    shelf.job.shop.busy = away_in_parts;
    shelf.job.shop.closed_count = shelf.job.shop.busy_count = 2;
    shelf.job.shop.air.daily.spells = rounded;
    shelf.job.shop.hours_assumed = shelf.job.shop.air.assumed = true;
    const struct job *jobs[] = {&desk.job, &shelf.job};
    check_true(HERE, shops_agree(jobs, 2, errors), "the same shop");
    check_int(HERE, (intmax_t)of_shelf.count, 0);
}

static bool they_agree(const struct panel *desk, const struct panel *shelf, struct err_list *of_shelf)
{
    struct err_list of_desk = {0};
    struct err_list *errors[] = {&of_desk, of_shelf};
    const struct job *jobs[] = {&desk->job, &shelf->job};
    *of_shelf = (struct err_list){0};
    return shops_agree(jobs, 2, errors);
}

/* Who is away by a calendar of their own in one description is away in the other: else they would be given work in that time. */
static void a_person_is_away_in_both(void **state)
{
    (void)state;
    struct panel desk, shelf;
    struct err_list of_shelf;
    char line[ERR_LINE_SIZE];
    two_jobs(&desk, &shelf);
    desk.job.shop.crew = ann;
    shelf.job.shop.crew = ann_away;
    check_true(HERE, !they_agree(&desk, &shelf, &of_shelf), "away in the second");
    err_format(&of_shelf.items[0], line, sizeof line);
    check_text(HERE, line, "shelf-shop.json: /people: " OTHER);
    check_true(HERE, !they_agree(&shelf, &desk, &of_shelf), "away in the first");
    desk.job.shop.busy_to_min = away->from_min; /* calendars of the desk were read no further */
    check_true(HERE, they_agree(&desk, &shelf, &of_shelf), "away when the other does not look");
    desk.job.shop.busy_to_min = away->to_min;
    desk.job.shop.crew = ann_away;
    check_true(HERE, they_agree(&desk, &shelf, &of_shelf), "away in both");
}

/* When the whole shop is busy is told of the shop, not of everybody in it. */
static void a_busy_shop_is_told_once(void **state)
{
    (void)state;
    struct panel desk, shelf;
    struct err_list of_shelf;
    two_jobs(&desk, &shelf);
    desk.job.shop.crew = ann;
    shelf.job.shop.crew = ann_away;
    busy_times(&shelf);
    check_true(HERE, !they_agree(&desk, &shelf, &of_shelf), "other busy times");
    check_int(HERE, (intmax_t)of_shelf.count, 1);
    check_text(HERE, of_shelf.items[0].pointer, "/busy");
}

/* The calendars of each job were read for its own time, a rule in them the further the later that ends; planned together they
 * keep from work at all of these times. */
static void calendars_read_for_other_times(void **state)
{
    (void)state;
    static const struct busy weekly[] = {{29540000, 29540060}, {29550080, 29550140}, {29560160, 29560220}};
    struct panel desk, shelf;
    struct err_list of_desk = {0}, of_shelf = {0};
    struct err_list *errors[] = {&of_desk, &of_shelf};
    const struct job *jobs[] = {&desk.job, &shelf.job};
    two_jobs(&desk, &shelf);
    desk.job.shop.busy = weekly;
    desk.job.shop.busy_count = 2;
    desk.job.shop.busy_from_min = 29530000;
    desk.job.shop.busy_to_min = 29556000;
    shelf.job.shop.busy = weekly + 1;
    shelf.job.shop.busy_count = 2;
    shelf.job.shop.busy_from_min = 29545000;
    shelf.job.shop.busy_to_min = 29570000;
    check_true(HERE, shops_agree(jobs, 2, errors), "the same shop");
    struct arena *arena = arena_make(0);
    shop_join_busy(arena, &desk.job.shop, &shelf.job.shop);
    check_int(HERE, (intmax_t)desk.job.shop.busy_count, 3);
    check_int(HERE, desk.job.shop.busy[2].from_min, weekly[2].from_min);
    check_int(HERE, desk.job.shop.busy_from_min, 29530000); /* from the first read to the last, of both */
    check_int(HERE, desk.job.shop.busy_to_min, 29570000);
    shelf.job.shop.busy_count = 1;
    shelf.job.shop.busy_from_min = 29530000;
    check_true(HERE, !shops_agree(jobs, 2, errors), "one that the other should know");
    arena_free(arena);
}

/* What changes mixes and prices only is each job's own. */
static void scale_losses_and_rate_may_differ(void **state)
{
    (void)state;
    struct panel desk, shelf;
    struct err_list of_desk = {0}, of_shelf = {0};
    struct err_list *errors[] = {&of_desk, &of_shelf};
    two_jobs(&desk, &shelf);
    shelf.job.shop.scale_g = 5;
    shelf.job.shop.loss_l[TOOL_CLOTH] = 0.5;
    shelf.job.shop.transfer[TOOL_CONVENTIONAL] = 0.4;
    shelf.job.shop.rate_cents_per_hour = 4500;
    const struct job *jobs[] = {&desk.job, &shelf.job};
    check_true(HERE, shops_agree(jobs, 2, errors), "the same as far as time goes");
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(differences, check_difference), CHECK_TEST(the_same_in_other_words),
                     CHECK_TEST(a_person_is_away_in_both), CHECK_TEST(a_busy_shop_is_told_once),
                     CHECK_TEST(calendars_read_for_other_times),
                     CHECK_TEST(scale_losses_and_rate_may_differ));
}
