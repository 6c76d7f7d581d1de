/* What one start must keep beside its waits: the hour by which a film is dry, who is at a lot, who is
 * free, who helps, where one sprays. */
#include "floor.h"

enum { NOBODY = SITE_NONE };

struct again_row {
    struct row row;
    int item;
    int32_t start, end, later, again;
};

enum { NOON = 720, AFTER = 780, IDLE = 10 };

/* The first item begins as long after the batch as ever. One behind it does while it ends before noon, and may be
 * moved by pauses, of 20 minutes in all, where it does not; 10 minutes may be left before one. */
static const struct again_row agains[] = {
    {ROW("on five minutes of the clock"), 0, 500, 600, 31, FLOOR_START + 35},
    {ROW("on them already"), 0, 500, 600, 30, FLOOR_START + 30},
    {ROW("at least the next five minutes"), 0, 500, 600, 0, FLOOR_START + 5},
    {ROW("until noon it is moved as the batch"), 1, 500, NOON - 31, 31, FLOOR_START + 35},
    {ROW("not before noon comes between"), 1, 500, NOON - 20, 31, FLOOR_START + 25},
    {ROW("noon may move it by the pauses and no more"), 1, 500, NOON, 31, FLOOR_START + 15},
    {ROW("pauses may move it as far"), 1, 500, NOON + 1, 31, FLOOR_START + 15},
    {ROW("pauses may move it further"), 1, 500, NOON + 1, 19, FLOOR_START + 5},
    {ROW("never"), 0, 500, 600, SITE_NEVER, SITE_NEVER},
    {ROW("never, whatever the pauses"), 1, 500, NOON + 1, SITE_NEVER, SITE_NEVER},
    {ROW("so late that it is never"), 0, 500, 600, SITE_NEVER / 2, SITE_NEVER},
    {ROW("behind noon but for what is left before it"), 1, AFTER, 800, 31, FLOOR_START + 25},
    {ROW("behind noon until the day ends"), 1, AFTER, 1000, 60, FLOOR_START + 40},
};

static void is_tried_again(void **state)
{
    const struct again_row *r = *state;
    struct floor f;
    floor_init(&f);
    floor_work(&f, r->item, r->start, r->end);
    f.placing.idle = IDLE;
    struct cause_of_start cause = {HINDERED_BY_AIR, r->item, SITE_NONE, SITE_NONE, 7};
    check_true(&r->row, !placing_refuse_item(&f.placing, r->item, cause, r->later), "it is refused");
    check_refused(&r->row, &f, HINDERED_BY_AIR, SITE_NONE, 7, r->again);
}

struct dry_by_row {
    struct row row;
    int32_t dry_by, start, handle;
    bool good;
    int32_t by, again;
};

static const struct dry_by_row dry_bys[] = {
    {ROW("dry at the hour"), 1080, 500, 1080, true, 0, 0},
    {ROW("dry a minute late: not before the next day"), 1080, 500, 1081, false, 1080, FLOOR_START + 940},
    {ROW("no hour is asked for"), 0, 500, 2000, true, 0, 0},
    {ROW("on the second day by the hour of that day"), 1080, 1940, 2520, true, 0, 0},
    {ROW("from the first minute of the day on"), 1, 500, 510, false, 1, FLOOR_START + 940},
};

static void is_dry_by(void **state)
{
    const struct dry_by_row *r = *state;
    struct floor f;
    floor_init(&f);
    f.operations[0].dry_by_min = r->dry_by;
    floor_work(&f, 0, r->start, r->start + 20);
    floor_film(&f, 0, r->handle, r->start + 30);
    check_int(&r->row, rule_dry_by(&f.placing, 0), r->good);
    if (!r->good)
        check_refused(&r->row, &f, HINDERED_BY_DRY_BY, SITE_NONE, r->by, r->again);
}

/* What lays no film has none to dry. */
static void sanding_need_not_dry(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.operations[0].dry_by_min = 1080;
    floor_work(&f, 0, 500, 520);
    f.handle[0] = 2000;
    check_true(HERE, rule_dry_by(&f.placing, 0), "no film");
}

struct lot_row {
    struct row row;
    int lots[FLOOR_ITEMS];
    int32_t start, end; /* of item 2, which is placed; item 1 is tried from 500 to 560 */
    bool good;
    int32_t until, again;
};

static const struct lot_row lots[] = {
    {ROW("another lot"), {0, 1, 2, 3}, 500, 560, true, 0, 0},
    {ROW("the lot at the same time"), {0, 1, 1, 3}, 490, 530, false, 530, FLOOR_START + 30},
    {ROW("done as this begins"), {0, 1, 1, 3}, 460, 500, true, 0, 0},
    {ROW("begun as this ends"), {0, 1, 1, 3}, 560, 600, true, 0, 0},
    {ROW("a minute together at the end"), {0, 1, 1, 3}, 559, 600, false, 600, FLOOR_START + 100},
    {ROW("a minute together at the beginning"), {1, 1, 1, 1}, 460, 501, false, 501, FLOOR_START + 5},
};

static void is_alone_at_a_lot(void **state)
{
    const struct lot_row *r = *state;
    struct floor f;
    floor_init(&f);
    for (int i = 0; i < FLOOR_ITEMS; i++)
        f.rows[i].lot = r->lots[i];
    site_find_lots(&f.site);
    floor_work(&f, 1, 500, 560);
    floor_place(&f, 2, r->start, r->end);
    check_int(&r->row, rule_lot(&f.placing, 1), r->good);
    if (!r->good)
        check_refused(&r->row, &f, HINDERED_BY_LOT, 0, r->until, r->again);
    f.operations[2].chain = f.operations[1].chain;
    check_true(&r->row, rule_lot(&f.placing, 1), "what follows one another is told by links");
}

/* Of items 0 to 3 the first and the last are of the lot: all of it is looked at, before and behind. */
static void all_of_the_lot(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    for (int i = 0; i < FLOOR_ITEMS; i++)
        f.rows[i].lot = 0;
    site_find_lots(&f.site);
    floor_work(&f, 0, 500, 560);
    floor_place(&f, 3, 500, 560);
    check_true(HERE, !rule_lot(&f.placing, 0), "the last of the lot");
    floor_init(&f);
    for (int i = 0; i < FLOOR_ITEMS; i++)
        f.rows[i].lot = 0;
    site_find_lots(&f.site);
    floor_work(&f, 3, 500, 560);
    floor_place(&f, 0, 500, 560);
    check_true(HERE, !rule_lot(&f.placing, 3), "the first of the lot");
}

/* Dust harms the films of its lot, whatever room it has: sanding from 500 waits for a film that is dust-
 * free at 540; a coat from 500, dust-free at 590, ends before sanding at 570 but is not yet dust-free. */
static void dust_on_the_lot(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.rows[1].lot = f.rows[2].lot;
    site_find_lots(&f.site);
    f.operations[1].dusty = true;
    floor_work(&f, 1, 500, 560);
    floor_place(&f, 2, 480, 490);
    floor_film(&f, 2, 545, 540);
    check_true(HERE, !rule_lot(&f.placing, 1), "the film is wet");
    check_refused(HERE, &f, HINDERED_BY_DUST, 0, 540, FLOOR_START + 40);
    f.clear[2] = 500;
    check_true(HERE, rule_lot(&f.placing, 1), "it is dust-free as sanding begins");
    f.clear[2] = 485;
    f.end[2] = 501;
    check_true(HERE, !rule_lot(&f.placing, 1), "it is still laid");
    f.operations[1].dusty = false;
    f.operations[2].dusty = true;
    f.rows[2].film = NULL;
    floor_work(&f, 2, 570, 580);
    floor_film(&f, 1, 700, 590);
    check_true(HERE, !rule_lot(&f.placing, 1), "it is sanded too soon");
    check_refused(HERE, &f, HINDERED_BY_DUST, 0, 580, FLOOR_START + 80);
    f.clear[1] = 570;
    check_true(HERE, rule_lot(&f.placing, 1), "it is sanded when it is dust-free");
    f.operations[2].dusty = false;
    floor_work(&f, 2, 480, 490);
    floor_film(&f, 2, 900, 800);
    check_true(HERE, rule_lot(&f.placing, 1), "two films do not harm each other");
    f.clear[1] = 700;
    floor_work(&f, 2, 560, 580);
    check_true(HERE, rule_lot(&f.placing, 1), "nor does what is laid while the first is wet");
}

/* The batch takes person 0 from 480 to 600, or 30 minutes at the least. */
struct person_row {
    struct row row;
    int32_t from[FLOOR_OTHERS], to[FLOOR_OTHERS];
    int persons[FLOOR_OTHERS], helpers[FLOOR_OTHERS], helper;
    int other; /* SITE_NONE: it may be so */
    int32_t again;
};

static const struct person_row persons[] = {
    {ROW("nobody does anything else"), {0}, {0}, {1, 2}, {NOBODY, NOBODY}, NOBODY, SITE_NONE, 0},
    {ROW("busy until then, and from its end on"),
     {450, 600},
     {480, 660},
     {0, 0},
     {NOBODY, NOBODY},
     NOBODY,
     SITE_NONE,
     0},
    {ROW("busy at the beginning"), {450, 700}, {505, 710}, {0, 2}, {NOBODY, NOBODY}, NOBODY, 0, 505},
    {ROW("busy at the end"), {595, 700}, {660, 710}, {0, 2}, {NOBODY, NOBODY}, NOBODY, 0, 660},
    {ROW("busy helping"), {450, 700}, {505, 710}, {1, 2}, {0, NOBODY}, NOBODY, 0, 505},
    {ROW("who helps is busy"), {450, 700}, {505, 710}, {1, 2}, {NOBODY, NOBODY}, 1, 0, 505},
    {ROW("who helps helps elsewhere"), {450, 700}, {505, 710}, {2, 2}, {1, NOBODY}, 1, 0, 505},
    {ROW("others help others"), {450, 700}, {505, 710}, {1, 1}, {2, 2}, NOBODY, SITE_NONE, 0},
    {ROW("the gap between two is too short"),
     {450, 534},
     {505, 660},
     {0, 0},
     {NOBODY, NOBODY},
     NOBODY,
     1,
     660},
    {ROW("the gap between two is enough"), {450, 535}, {505, 660}, {0, 0}, {NOBODY, NOBODY}, NOBODY, 0, 505},
    {ROW("the gap is noon"), {450, 780}, {720, 800}, {0, 0}, {NOBODY, NOBODY}, NOBODY, 1, 800},
};

static void person_is_free(void **state)
{
    const struct person_row *r = *state;
    struct floor f;
    floor_init(&f);
    f.placing.batch.helper = r->helper;
    for (int k = 0; k < FLOOR_OTHERS; k++) {
        floor_place(&f, 2 + k, r->from[k], r->to[k]);
        f.placed[k].batch.person = r->persons[k];
        f.placed[k].batch.helper = r->helpers[k];
    }
    check_int(&r->row, rule_person(&f.placing), r->other == SITE_NONE);
    if (r->other != SITE_NONE)
        check_refused(&r->row, &f, HINDERED_BY_PERSON, r->other, r->again, r->again);
}

struct helper_row {
    struct row row;
    struct duty duties[2];
    int32_t start, end;
    bool good;
    int32_t until, again;
};

static const struct helper_row helpers[] = {
    {ROW("there all the time"), {{480, 600, 0}, {0}}, 480, 600, true, 0, 0},
    {ROW("comes later"), {{540, 1020, 0}, {0}}, 480, 600, false, 540, 540},
    {ROW("leaves before"), {{480, 599, 0}, {0}}, 480, 600, false, 480, 485},
    {ROW("does not come any more"), {{300, 400, 0}, {0}}, 480, 600, false, SITE_NEVER, SITE_NEVER},
    {ROW("there again after noon"), {{480, 720, 0}, {780, 1020, 0}}, 700, 800, true, 0, 0},
    {ROW("there at noon too"), {{480, 1020, 0}, {0}}, 700, 800, true, 0, 0},
    {ROW("back from noon too late"), {{480, 720, 0}, {785, 1020, 0}}, 700, 800, false, 0, 705},
    {ROW("off for noon too soon"), {{480, 715, 0}, {780, 1020, 0}}, 700, 800, false, 480, 705},
};

static void helper_is_there(void **state)
{
    const struct helper_row *r = *state;
    struct floor f;
    floor_init(&f);
    f.workers[1] = (struct worker){.duties = r->duties, .duty_count = r->duties[1].to > 0 ? 2 : 1};
    f.placing.batch.helper = 1;
    f.tried.laid = (struct laying){.start = r->start, .end = r->end};
    check_int(&r->row, rule_person(&f.placing), r->good);
    if (!r->good)
        check_refused(&r->row, &f, HINDERED_BY_HOURS, SITE_NONE, r->until, r->again);
}

/* Spraying from 480 to 600. */
struct spray_row {
    struct row row;
    int places;
    bool sprays, others_spray;
    int32_t from[FLOOR_OTHERS], to[FLOOR_OTHERS];
    int other; /* NOBODY: it may be so */
    int32_t until;
};

static const struct spray_row sprays[] = {
    {ROW("nobody sprays"), 1, true, false, {450, 450}, {520, 540}, NOBODY, 0},
    {ROW("it is brushed"), 1, false, true, {450, 450}, {520, 540}, NOBODY, 0},
    {ROW("one place, free as it begins"), 1, true, true, {450, 600}, {480, 700}, NOBODY, 0},
    {ROW("one place, taken"), 1, true, true, {450, 600}, {481, 700}, 0, 481},
    {ROW("one place, taken at the end"), 1, true, true, {450, 599}, {480, 700}, 1, 700},
    {ROW("two places, one taken"), 2, true, true, {450, 600}, {520, 700}, NOBODY, 0},
    {ROW("two places: the first that is free"), 2, true, true, {450, 450}, {540, 520}, 1, 520},
    {ROW("three places"), 3, true, true, {450, 450}, {540, 520}, NOBODY, 0},
};

static void place_is_free(void **state)
{
    const struct spray_row *r = *state;
    struct floor f;
    floor_init(&f);
    f.shop.spray_places = r->places;
    f.kinds[0].sprays = r->sprays;
    f.kinds[1].sprays = r->others_spray;
    for (int k = 0; k < FLOOR_OTHERS; k++)
        floor_place(&f, 2 + k, r->from[k], r->to[k]);
    check_int(&r->row, rule_spray(&f.placing), r->other == NOBODY);
    if (r->other != NOBODY)
        check_refused(&r->row, &f, HINDERED_BY_SPRAY, r->other, r->until,
                      r->until > FLOOR_START + 5 ? r->until : FLOOR_START + 5);
}

/* A shop without a place never has one. */
static void no_place_to_spray(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.shop.spray_places = 0;
    f.kinds[0].sprays = true;
    check_true(HERE, !rule_spray(&f.placing), "there is none");
    check_refused(HERE, &f, HINDERED_BY_SPRAY, SITE_NONE, SITE_NEVER, SITE_NEVER);
}

enum { CROWD = 16 };

/* Eight batches that are placed are looked at for one unit of effort, and eight items of one that comes near in time. */
struct counted_row {
    struct row row;
    bool (*rule)(struct placing *placing);
    bool near; /* the first of the others has eight items, laid between the two that raise dust */
    int64_t want;
};

static const struct counted_row counted[] = {
    {ROW("who is busy"), rule_person, false, 2},
    {ROW("who sprays"), rule_spray, false, 2},
    {ROW("what is wet"), rule_dust, false, 2},
    {ROW("what is wet, by its items for each of the two"), rule_dust, true, 4},
    {ROW("what lies on the rack, the two of the batch too"), rule_rack, false, 4},
};

static void looking_is_counted(void **state)
{
    const struct counted_row *r = *state;
    static const int eight[8] = {2, 2, 2, 2, 2, 2, 2, 2};
    struct placed others[CROWD];
    struct floor f;
    floor_init(&f);
    for (int i = 0; i < 2; i++) {
        floor_work(&f, i, 480 + 110 * i, 490 + 110 * i);
        f.operations[i].dusty = true;
        f.handle[i] = 600;
        f.rows[i].rack = 1;
    }
    floor_place(&f, 2, 530, 540);
    floor_film(&f, 2, 580, 580);
    f.placed[0].batch.count = 0;
    for (size_t k = 0; k < CROWD; k++)
        others[k] = f.placed[0];
    if (r->near) {
        others[0].batch.items = eight;
        others[0].batch.count = 8;
        others[0].wet = (struct spell){530, 580};
    }
    f.draft.placed = others;
    f.draft.count = CROWD;
    f.kinds[0].sprays = true;
    check_true(&r->row, r->rule(&f.placing), "nothing hinders it");
    check_int(&r->row, f.draft.effort, r->want);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(agains, is_tried_again), CHECK_ROWS(dry_bys, is_dry_by),
                     CHECK_TEST(sanding_need_not_dry), CHECK_ROWS(lots, is_alone_at_a_lot),
                     CHECK_TEST(all_of_the_lot), CHECK_TEST(dust_on_the_lot),
                     CHECK_ROWS(persons, person_is_free), CHECK_ROWS(helpers, helper_is_there),
                     CHECK_ROWS(sprays, place_is_free), CHECK_TEST(no_place_to_spray),
                     CHECK_ROWS(counted, looking_is_counted));
}
