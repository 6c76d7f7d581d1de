/* One batch laid on a person's day, worked by hand: on duty 08:00 to 12:00 and 13:00 to 17:00, on the next
 * day 08:00 to 11:00, in minutes since midnight. */
#include "check.h"

#include "timetable/lay.h"

enum {
    MOST = 4,
    NOON = 720,
    AFTERNOON = 780,
    EVENING = 1020,
    MORROW = 1920,
    LAST = 2100,
    ALL_DAY = INT32_MAX
};

/* The last is behind those that the worker has. */
static const struct duty DUTIES[] = {
    {480, NOON, 0}, {AFTERNOON, EVENING, 0}, {MORROW, LAST, 1}, {3360, 3900, 2}};
static const struct worker WORKER = {.duties = DUTIES, .duty_count = 3};

/* One item: so many units of so many minutes each. */
struct labour {
    double each_min;
    int units;
    enum doing doing;
};

/* A batch of one kind in the order of its items. */
struct bench {
    struct kind kind;
    struct worker worker;
    struct crew crew;
    struct operation operations[MOST];
    struct task_row rows[MOST];
    int32_t ends_s[MOST][MOST];
    int items[MOST];
    struct site site;
    struct batch batch;
};

static void bench_make(struct bench *bench, struct kind kind, const struct labour *work)
{
    *bench = (struct bench){.kind = kind, .worker = WORKER};
    bench->crew = (struct crew){.workers = &bench->worker, .count = 1};
    size_t count = 0;
    for (; count < MOST && work[count].units > 0; count++) {
        struct units *units = &bench->operations[count].units;
        for (int i = 0; i < work[count].units; i++)
            bench->ends_s[count][i] = (int32_t)(work[count].each_min * MINUTE_S) * (i + 1);
        *units = (struct units){.ends_s = bench->ends_s[count], .count = (size_t)work[count].units};
        units->seconds = units->ends_s[units->count - 1];
        bench->operations[count].doing = work[count].doing;
        bench->rows[count].operation = &bench->operations[count];
        bench->items[count] = (int)count;
    }
    bench->site = (struct site){
        .crew = &bench->crew, .kinds = &bench->kind, .kind_count = 1, .rows = bench->rows, .count = count};
    bench->batch = (struct batch){.helper = SITE_NONE, .items = bench->items, .count = count};
}

struct good_row {
    struct row row;
    struct kind kind;
    struct labour work[MOST + 1];
    int32_t start;
    int32_t starts[MOST], ends[MOST]; /* of its items */
    int32_t end, hands_on;
    struct laid_mix mixes[MOST];
};

#define DRY .rest = ALL_DAY, .working = INT32_MAX, .pot_life = INT32_MAX
#define WET .mixed = true
#define NOTHING                                                                                              \
    {                                                                                                        \
        0, 0, DO_SAND                                                                                        \
    }
#define COAT(minutes)                                                                                        \
    {                                                                                                        \
        minutes, 1, DO_APPLY                                                                                 \
    }
#define SAND(minutes)                                                                                        \
    {                                                                                                        \
        minutes, 1, DO_SAND                                                                                  \
    }

static const struct good_row good[] = {
    {ROW("set-up before, clean-up behind"),
     {DRY, .set_up = 10, .clean_up = 5},
     {SAND(30), SAND(20)},
     480,
     {490, 520},
     {520, 540},
     545,
     65,
     {{0}}},
    /* 480:00 to 481:30 and to 483:00 */
    {ROW("seconds go on, minutes are told rounded up"),
     {DRY},
     {SAND(1.5), SAND(1.5)},
     480,
     {480, 482},
     {482, 483},
     485,
     3,
     {{0}}},
    {ROW("it is over on five minutes of the clock"), {DRY}, {SAND(31)}, 480, {480}, {511}, 515, 31, {{0}}},
    {ROW("it ends as the stretch does"), {DRY}, {SAND(240)}, 480, {480}, {NOON}, NOON, 240, {{0}}},
    {ROW("what does not fit before noon is done behind it"),
     {DRY},
     {SAND(200), SAND(60)},
     480,
     {480, AFTERNOON},
     {680, 840},
     840,
     260,
     {{0}}},
    {ROW("an item pauses between two of its units"),
     {DRY},
     {{30, 2, DO_SAND}},
     690,
     {690},
     {810},
     810,
     60,
     {{0}}},
    {ROW("an item begins with its first unit behind noon"),
     {DRY},
     {SAND(30), {30, 2, DO_SAND}},
     680,
     {680, AFTERNOON},
     {710, 840},
     840,
     90,
     {{0}}},
    {ROW("a tool may lie 100 minutes, and does"),
     {.rest = 100, .working = INT32_MAX, .pot_life = INT32_MAX},
     {COAT(200), COAT(60)},
     480,
     {480, AFTERNOON},
     {680, 840},
     840,
     260,
     {{0}}},
    {ROW("a tool may lie over night"),
     {.rest = 940, .working = INT32_MAX, .pot_life = INT32_MAX},
     {COAT(200), COAT(60)},
     AFTERNOON,
     {AFTERNOON, MORROW},
     {980, 1980},
     1980,
     260,
     {{0}}},
    {ROW("clean-up ends as the stretch does"),
     {DRY, .clean_up = 5},
     {SAND(235)},
     480,
     {480},
     {715},
     NOON,
     240,
     {{0}}},
    {ROW("what takes no time"), {DRY}, {SAND(0), SAND(10)}, 480, {480, 480}, {480, 490}, 490, 10, {{0}}},
    {ROW("one mix, stirred behind the set-up"),
     {WET, .set_up = 10, .rest = 60, .working = INT32_MAX, .pot_life = INT32_MAX},
     {COAT(30), COAT(30)},
     480,
     {495, 525},
     {525, 555},
     555,
     75,
     {{490, 3600}}},
    {ROW("a mix that is used up to its end"),
     {WET, .rest = 60, .working = 60, .pot_life = 90},
     {COAT(30), COAT(30)},
     480,
     {485, 515},
     {515, 545},
     545,
     65,
     {{480, 3600}}},
    {ROW("a minute less, and it takes two"),
     {WET, .rest = 60, .working = 59, .pot_life = 90},
     {COAT(30), COAT(30)},
     480,
     {485, 520},
     {515, 550},
     550,
     70,
     {{480, 1800}, {515, 1800}}},
    /* 485 to 525, 530 to 570, 575 to 595 */
    {ROW("a unit longer than a mix has some inside"),
     {WET, .rest = 60, .working = 40, .pot_life = 90},
     {COAT(100)},
     480,
     {485},
     {595},
     595,
     115,
     {{480, 2400}, {525, 2400}, {570, 1200}}},
    {ROW("a unit as long as two mixes"),
     {WET, .rest = 60, .working = 40, .pot_life = 90},
     {COAT(80)},
     480,
     {485},
     {570},
     570,
     90,
     {{480, 2400}, {525, 2400}}},
    {ROW("a mix stands before it is used, the next while that is"),
     {WET, .rest = 60, .working = 40, .pot_life = 90, .induction = 15},
     {COAT(30), COAT(30)},
     480,
     {500, 535},
     {530, 565},
     565,
     85,
     {{480, 1800}, {515, 1800}}},
    /* 690 + 5 + 60 + 5 is behind noon: all of it then, and the first of the two mixes stands before it is
     * used */
    {ROW("behind a break a mix stands again"),
     {WET, .rest = 600, .working = 40, .pot_life = 600, .induction = 15},
     {COAT(30), COAT(60)},
     640,
     {660, 800},
     {690, 865},
     865,
     135,
     {{640, 1800}, {780, 2400}, {825, 1200}}},
    /* back at 780, the first mix lasts until 860: 780 to 786 of it, then the next, which stands from 785
     * to 800 */
    {ROW("a mix stands for what has not passed since the break"),
     {WET, .rest = 600, .working = 200, .pot_life = 600, .induction = 15},
     {COAT(55), COAT(6), COAT(80)},
     640,
     {660, AFTERNOON, 800},
     {715, 786, 880},
     880,
     175,
     {{640, 3660}, {780, 4800}}},
    {ROW("a turn takes nothing of the mix"),
     {WET, .rest = 60, .working = 61, .pot_life = 90},
     {COAT(30), {1, 1, DO_FLIP}, COAT(30)},
     480,
     {485, 515, 516},
     {515, 516, 546},
     550,
     66,
     {{480, 3600}}},
    {ROW("a mix lives until the end of the break"),
     {WET, .rest = 600, .working = INT32_MAX, .pot_life = 175},
     {COAT(30), COAT(100)},
     600,
     {605, AFTERNOON},
     {635, 880},
     880,
     135,
     {{600, 7800}}},
    {ROW("a gun is clean as the mix sets"),
     {WET, .sprays = true, .clean_up = 20, .rest = 0, .working = 90, .pot_life = 100},
     {COAT(80)},
     480,
     {485},
     {565},
     585,
     105,
     {{480, 4800}}},
    {ROW("a brush may be cleaned later"),
     {WET, .clean_up = 20, .rest = 0, .working = 90, .pot_life = 100},
     {COAT(85)},
     480,
     {485},
     {570},
     590,
     110,
     {{480, 5100}}},
    {ROW("a gun with what needs no mix"),
     {.sprays = true, .clean_up = 20, .rest = 0, .working = INT32_MAX, .pot_life = 100},
     {COAT(120)},
     480,
     {480},
     {600},
     620,
     140,
     {{0}}},
};

static void is_laid(void **state)
{
    const struct good_row *r = *state;
    struct bench bench;
    bench_make(&bench, r->kind, r->work);
    int32_t starts[MOST] = {0}, ends[MOST] = {0};
    struct laid_mix mixes[MOST] = {{0}};
    struct laying laid = {.mix = mixes, .mix_room = MOST};
    check_true(&r->row, lay_batch(&bench.site, &bench.batch, r->start, starts, ends, &laid),
               "it can be laid");
    int count = 0;
    for (; count < MOST && r->mixes[count].at > 0; count++) {
        check_int(&r->row, mixes[count].at, r->mixes[count].at);
        check_int(&r->row, mixes[count].seconds, r->mixes[count].seconds);
    }
    check_int(&r->row, laid.mixes, count);
    for (size_t i = 0; i < bench.batch.count; i++) {
        check_int(&r->row, starts[i], r->starts[i]);
        check_int(&r->row, ends[i], r->ends[i]);
    }
    check_int(&r->row, laid.start, r->start);
    check_int(&r->row, laid.work_from, r->starts[0]);
    check_int(&r->row, laid.work_until, r->ends[bench.batch.count - 1]);
    check_int(&r->row, laid.end, r->end);
    check_int(&r->row, laid.hands_on, r->hands_on);
}

struct bad_row {
    struct row row;
    struct kind kind;
    struct labour work[MOST + 1];
    int32_t start;
    size_t broke_at;
    int32_t again_from;
};

static const struct bad_row bad[] = {
    {ROW("nobody is there"), {DRY}, {SAND(10)}, NOON, 0, AFTERNOON},
    {ROW("no time for the set-up"), {DRY, .set_up = 30}, {SAND(10)}, 695, 0, AFTERNOON},
    {ROW("behind the last day"), {DRY}, {SAND(10)}, LAST, 0, SITE_NEVER},
    {ROW("not in what is left of the last day"), {DRY}, {SAND(100)}, 2050, 0, SITE_NEVER},
    {ROW("a unit is not begun before noon and done behind it"), {DRY}, {SAND(240)}, 485, 0, 490},
    {ROW("nobody sets up before a break"), {DRY, .set_up = 20}, {SAND(30)}, 690, 0, 695},
    {ROW("clean-up is not behind a break"), {DRY, .clean_up = 10}, {SAND(235)}, 480, 1, 485},
    {ROW("nothing dry lies over night"), {DRY}, {SAND(100), SAND(60)}, 900, 1, MORROW},
    {ROW("a tool may lie less than the break is long"),
     {.rest = 30, .working = INT32_MAX},
     {COAT(200), COAT(60)},
     480,
     1,
     AFTERNOON},
    {ROW("a tool may lie a minute too little"),
     {.rest = 99, .working = INT32_MAX},
     {COAT(200), COAT(60)},
     480,
     1,
     485},
    {ROW("a tool that may lie as long as the break"),
     {.rest = 60, .working = INT32_MAX},
     {COAT(200), COAT(60)},
     480,
     1,
     485},
    {ROW("a mix sets within the break"),
     {WET, .rest = 600, .working = INT32_MAX, .pot_life = 174},
     {COAT(30), COAT(100)},
     600,
     1,
     605},
    {ROW("a gun is not clean as the mix sets"),
     {WET, .sprays = true, .clean_up = 20, .rest = 0, .working = 90, .pot_life = 100},
     {COAT(81)},
     480,
     1,
     AFTERNOON},
};

static void is_not_laid(void **state)
{
    const struct bad_row *r = *state;
    struct bench bench;
    bench_make(&bench, r->kind, r->work);
    int32_t starts[MOST] = {0}, ends[MOST] = {0};
    struct laying laid = {0};
    check_true(&r->row, !lay_batch(&bench.site, &bench.batch, r->start, starts, ends, &laid),
               "it cannot be laid");
    check_int(&r->row, (intmax_t)laid.broke_at, (intmax_t)r->broke_at);
    check_int(&r->row, laid.again_from, r->again_from);
}

struct duty_row {
    struct row row;
    int32_t set_up, start, want;
};

static const struct duty_row duties[] = {
    {ROW("at work"), 0, 600, 600},
    {ROW("the last minute of a stretch"), 0, 719, 719},
    {ROW("at noon"), 0, NOON, AFTERNOON},
    {ROW("before the first"), 0, 0, 480},
    {ROW("a set-up that just fits"), 20, 700, 700},
    {ROW("one that does not"), 20, 701, AFTERNOON},
    {ROW("in the evening"), 20, 1010, MORROW},
    {ROW("too long for any"), 241, 480, SITE_NEVER},
    {ROW("never again"), 0, LAST, SITE_NEVER},
};

static void is_on_duty(void **state)
{
    const struct duty_row *r = *state;
    struct bench bench;
    bench_make(&bench, (struct kind){DRY, .set_up = r->set_up}, (struct labour[]){SAND(1), NOTHING});
    check_int(&r->row, lay_on_duty(&bench.site, &bench.batch, r->start), r->want);
}

struct least_row {
    struct row row;
    struct kind kind;
    double minutes;
    int32_t want;
    bool fits; /* some day of the person's */
};

static const struct least_row leasts[] = {
    {ROW("set-up, work, clean-up"), {DRY, .set_up = 10, .clean_up = 5}, 60.5, 75, true},
    {ROW("one mix that keeps"), {WET, DRY, .set_up = 10, .clean_up = 5}, 60.5, 80, true},
    {ROW("as many mixes as it takes"), {WET, .working = 30, .rest = ALL_DAY}, 60.5, 75, true},
    {ROW("mixes used up"), {WET, .working = 30, .rest = ALL_DAY}, 60, 70, true},
    {ROW("all of the longest day"), {DRY}, 480, 480, true},
    {ROW("more than a day has"), {DRY}, 481, 481, false},
    {ROW("a break longer than the tool may lie"), {.rest = 59, .working = INT32_MAX}, 241, 241, false},
    {ROW("one stretch is enough"), {.rest = 59, .working = INT32_MAX}, 240, 240, true},
    {ROW("a break as long as the tool may lie"), {.rest = 60, .working = INT32_MAX}, 480, 480, true},
    {ROW("a night as long as the tool may lie"), {.rest = 900, .working = INT32_MAX}, 660, 660, true},
    {ROW("a night longer than that"), {.rest = 899, .working = INT32_MAX}, 660, 660, false},
};

static void takes_least(void **state)
{
    const struct least_row *r = *state;
    struct bench bench;
    bench_make(&bench, r->kind, (struct labour[]){COAT(r->minutes), NOTHING});
    check_int(&r->row, lay_least(&bench.site, &bench.batch), r->want);
    check_int(&r->row, lay_may_fit(&bench.site, &bench.batch), r->fits);
}

/* Sanding asks for a set-up of 5 and a clean-up of 10, scuffing for 20 and 15: with one grit they are one
 * kind, and a batch takes the most of its items. */
static void the_most_of_what_is_unlike(void **state)
{
    (void)state;
    struct bench bench;
    bench_make(&bench, (struct kind){DRY, .set_up = 5, .clean_up = 10},
               (struct labour[]){SAND(1), SAND(1), SAND(1), NOTHING});
    bench.rows[0].set_up = bench.rows[2].set_up = 5;
    bench.rows[0].clean_up = bench.rows[2].clean_up = 10;
    bench.rows[1].set_up = 20;
    bench.rows[1].clean_up = 15;
    check_int(HERE, lay_set_up(&bench.site, &bench.batch), 5);
    check_int(HERE, lay_clean_up(&bench.site, &bench.batch), 10);
    bench.kind.unlike = true;
    check_int(HERE, lay_set_up(&bench.site, &bench.batch), 20);
    check_int(HERE, lay_clean_up(&bench.site, &bench.batch), 15);
    bench.batch.count = 1;
    check_int(HERE, lay_set_up(&bench.site, &bench.batch), 5);
    check_int(HERE, lay_clean_up(&bench.site, &bench.batch), 10);
}

/* Three mixes where there is room for two: all are counted, two are told. */
static void mixes_beyond_the_room_are_counted(void **state)
{
    (void)state;
    struct bench bench;
    bench_make(&bench, (struct kind){WET, .rest = 60, .working = 40, .pot_life = 90},
               (struct labour[]){COAT(100), NOTHING});
    int32_t starts[MOST], ends[MOST];
    struct laid_mix mixes[] = {{0}, {0}, {7, 7}};
    struct laying laid = {.mix = mixes, .mix_room = 2};
    check_true(HERE, lay_batch(&bench.site, &bench.batch, 480, starts, ends, &laid), "it can be laid");
    check_int(HERE, laid.mixes, 3);
    check_int(HERE, mixes[1].at, 525);
    check_int(HERE, mixes[1].seconds, 2400);
    check_true(HERE, mixes[2].at == 7 && mixes[2].seconds == 7, "nothing is written beyond the room");
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(good, is_laid), CHECK_ROWS(bad, is_not_laid), CHECK_ROWS(duties, is_on_duty),
                     CHECK_ROWS(leasts, takes_least), CHECK_TEST(the_most_of_what_is_unlike),
                     CHECK_TEST(mixes_beyond_the_room_are_counted));
}
