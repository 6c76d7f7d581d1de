/* What one start must keep beside its waits, rule by rule: the times of what is placed and of the batch that is tried are given,
 * in minutes since midnight; the day is 08:00 to 12:00 and 13:00 to 17:00. */
#include "check.h"
#include "panel_site.h"

#include "base/arena.h"
#include "timetable/draft.h"

enum { MOST = 4, PEOPLE = 3, NOBODY = SITE_NONE, OTHERS = 2, START = 480, PAUSES = 20 };

static const struct duty DUTIES[] = {{480, 720, 0}, {780, 1020, 0}};
static const struct zone UTC = {"UTC", 0, NULL};
static const struct film FILM;

/* Items 0 and 1 are the batch that is tried, 2 and 3 are placed, each in a batch of its own. All are of lots of their own. */
struct floor {
    struct worker workers[PEOPLE];
    struct crew crew;
    struct shop shop;
    struct kind kinds[2]; /* of the batch that is tried, of the others */
    struct operation operations[MOST];
    struct task_row rows[MOST];
    struct lying lying;
    struct site site;
    int32_t start[MOST], end[MOST], handle[MOST], clear[MOST], lies_until[MOST + 1];
    int batch_of[MOST], items[MOST];
    struct lies lies[MOST + 1];
    struct draft_scratch scratch;
    struct placed placed[OTHERS], tried;
    struct draft draft;
    struct placing placing;
};

static void floor_init(struct floor *f)
{
    *f = (struct floor){.shop = {.spray_places = 1}};
    for (int i = 0; i < PEOPLE; i++)
        f->workers[i] = (struct worker){.duties = DUTIES, .duty_count = 2};
    f->crew = (struct crew){.workers = f->workers, .count = PEOPLE};
    for (int i = 0; i < MOST; i++) {
        f->operations[i].chain = i;
        f->rows[i] = (struct task_row){.operation = &f->operations[i], .lot = i};
        f->items[i] = i;
        f->start[i] = f->batch_of[i] = SITE_NONE;
    }
    f->site = (struct site){.crew = &f->crew,
                            .shop = &f->shop,
                            .zone = &UTC,
                            .kinds = f->kinds,
                            .rows = f->rows,
                            .count = MOST,
                            .lot_count = MOST + 1,
                            .lying = &f->lying,
                            .rack = 10,
                            .settle = 30};
    f->scratch = (struct draft_scratch){.lies = f->lies, .lies_until = f->lies_until};
    f->draft = (struct draft){.site = &f->site,
                              .start = f->start,
                              .end = f->end,
                              .handle = f->handle,
                              .clear = f->clear,
                              .batch_of = f->batch_of,
                              .placed = f->placed,
                              .scratch = &f->scratch};
    f->tried.laid = (struct laying){.start = START, .end = 600};
    f->placing = (struct placing){.draft = &f->draft,
                                  .site = &f->site,
                                  .batch = {.helper = NOBODY, .items = f->items, .count = 2},
                                  .least = 30,
                                  .slack = PAUSES,
                                  .placed = &f->tried};
}

/* Work of the batch that is tried. */
static void at_work(struct floor *f, int item, int32_t start, int32_t end)
{
    f->start[item] = start;
    f->end[item] = end;
}

/* Another batch of one item, its person from 1 on. */
static void place(struct floor *f, int item, int32_t start, int32_t end)
{
    size_t k = f->draft.count++;
    f->batch_of[item] = (int)k;
    at_work(f, item, start, end);
    f->placed[k] = (struct placed){
        .batch = {.kind = 1, .person = 1 + (int)k, .helper = NOBODY, .items = &f->items[item], .count = 1},
        .laid = {.start = start, .end = end},
        .dust = {INT32_MAX, 0},
        .wet = {INT32_MAX, 0},
        .lies = {INT32_MAX, 0}};
}

static void film(struct floor *f, int item, int32_t handle, int32_t clear)
{
    f->rows[item].film = &FILM;
    f->handle[item] = handle;
    f->clear[item] = clear;
}

static void check_refused(const struct row *row, const struct floor *f, enum hindrance kind, int other,
                          int32_t until, int32_t again)
{
    check_int(row, f->tried.cause.kind, kind);
    check_int(row, f->tried.cause.other, other);
    check_int(row, f->tried.cause.until, until);
    check_int(row, f->placing.again, again);
}

struct again_row {
    struct row row;
    int item;
    int32_t later, again;
};

/* The first item begins as long after the batch as ever; one behind it may be moved by pauses, of 20 minutes in all. */
static const struct again_row agains[] = {
    {ROW("on five minutes of the clock"), 0, 31, START + 35},
    {ROW("on them already"), 0, 30, START + 30},
    {ROW("at least the next five minutes"), 0, 0, START + 5},
    {ROW("pauses may move it as far"), 1, 31, START + 15},
    {ROW("pauses may move it further"), 1, 19, START + 5},
    {ROW("never"), 0, SITE_NEVER, SITE_NEVER},
    {ROW("never, whatever the pauses"), 1, SITE_NEVER, SITE_NEVER},
    {ROW("so late that it is never"), 0, SITE_NEVER / 2, SITE_NEVER},
};

static void is_tried_again(void **state)
{
    const struct again_row *r = *state;
    struct floor f;
    floor_init(&f);
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
    {ROW("dry a minute late: not before the next day"), 1080, 500, 1081, false, 1080, START + 940},
    {ROW("no hour is asked for"), 0, 500, 2000, true, 0, 0},
    {ROW("on the second day by the hour of that day"), 1080, 1940, 2520, true, 0, 0},
    {ROW("from the first minute of the day on"), 1, 500, 510, false, 1, START + 940},
};

static void is_dry_by(void **state)
{
    const struct dry_by_row *r = *state;
    struct floor f;
    floor_init(&f);
    f.operations[0].dry_by_min = r->dry_by;
    at_work(&f, 0, r->start, r->start + 20);
    film(&f, 0, r->handle, r->start + 30);
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
    at_work(&f, 0, 500, 520);
    f.handle[0] = 2000;
    check_true(HERE, rule_dry_by(&f.placing, 0), "no film");
}

struct lot_row {
    struct row row;
    int lots[MOST];
    int32_t start, end; /* of item 2, which is placed; item 1 is tried from 500 to 560 */
    bool good;
    int32_t until, again;
};

static const struct lot_row lots[] = {
    {ROW("another lot"), {0, 1, 2, 3}, 500, 560, true, 0, 0},
    {ROW("the lot at the same time"), {0, 1, 1, 3}, 490, 530, false, 530, START + 10},
    {ROW("done as this begins"), {0, 1, 1, 3}, 460, 500, true, 0, 0},
    {ROW("begun as this ends"), {0, 1, 1, 3}, 560, 600, true, 0, 0},
    {ROW("a minute together at the end"), {0, 1, 1, 3}, 559, 600, false, 600, START + 80},
    {ROW("a minute together at the beginning"), {1, 1, 1, 1}, 460, 501, false, 501, START + 5},
};

static void is_alone_at_a_lot(void **state)
{
    const struct lot_row *r = *state;
    struct floor f;
    floor_init(&f);
    for (int i = 0; i < MOST; i++)
        f.rows[i].lot = r->lots[i];
    at_work(&f, 1, 500, 560);
    place(&f, 2, r->start, r->end);
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
    for (int i = 0; i < MOST; i++)
        f.rows[i].lot = 0;
    at_work(&f, 0, 500, 560);
    place(&f, 3, 500, 560);
    check_true(HERE, !rule_lot(&f.placing, 0), "the last of the lot");
    floor_init(&f);
    for (int i = 0; i < MOST; i++)
        f.rows[i].lot = 0;
    at_work(&f, 3, 500, 560);
    place(&f, 0, 500, 560);
    check_true(HERE, !rule_lot(&f.placing, 3), "the first of the lot");
}

/* Dust harms the films of its lot, whatever room it has: sanding from 500 waits for a film that is dust-free at 540; a coat from
 * 500, dust-free at 590, ends before sanding at 570 but is not yet dust-free. */
static void dust_on_the_lot(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.rows[1].lot = f.rows[2].lot;
    f.operations[1].dusty = true;
    at_work(&f, 1, 500, 560);
    place(&f, 2, 480, 490);
    film(&f, 2, 545, 540);
    check_true(HERE, !rule_lot(&f.placing, 1), "the film is wet");
    check_refused(HERE, &f, HINDERED_BY_DUST, 0, 540, START + 20);
    f.clear[2] = 500;
    check_true(HERE, rule_lot(&f.placing, 1), "it is dust-free as sanding begins");
    f.clear[2] = 485;
    f.end[2] = 501;
    check_true(HERE, !rule_lot(&f.placing, 1), "it is still laid");
    f.operations[1].dusty = false;
    f.operations[2].dusty = true;
    f.rows[2].film = NULL;
    at_work(&f, 2, 570, 580);
    film(&f, 1, 700, 590);
    check_true(HERE, !rule_lot(&f.placing, 1), "it is sanded too soon");
    check_refused(HERE, &f, HINDERED_BY_DUST, 0, 580, START + 60);
    f.clear[1] = 570;
    check_true(HERE, rule_lot(&f.placing, 1), "it is sanded when it is dust-free");
    f.operations[2].dusty = false;
    at_work(&f, 2, 480, 490);
    film(&f, 2, 900, 800);
    check_true(HERE, rule_lot(&f.placing, 1), "two films do not harm each other");
}

/* The batch takes person 0 from 480 to 600, or 30 minutes at the least. */

struct person_row {
    struct row row;
    int32_t from[OTHERS], to[OTHERS];
    int persons[OTHERS], helpers[OTHERS], helper;
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
    for (int k = 0; k < OTHERS; k++) {
        place(&f, 2 + k, r->from[k], r->to[k]);
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
    int32_t from[OTHERS], to[OTHERS];
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
    for (int k = 0; k < OTHERS; k++)
        place(&f, 2 + k, r->from[k], r->to[k]);
    check_int(&r->row, rule_spray(&f.placing), r->other == NOBODY);
    if (r->other != NOBODY)
        check_refused(&r->row, &f, HINDERED_BY_SPRAY, r->other, r->until,
                      r->until > START + 5 ? r->until : START + 5);
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

/* Dust takes 30 minutes to settle. */

struct dust_row {
    struct row row;
    bool sands; /* items 0 and 1 sand, item 2 is coated; or the other way round */
    int32_t from[2], to[2];
    int32_t start, end, clear; /* of item 2: its work, its film dust-free */
    bool good;
    int32_t until, again;
};

static const struct dust_row dusts[] = {
    {ROW("sanded when the film is dust-free"), true, {540, 550}, {550, 560}, 480, 500, 540, true, 0, 0},
    {ROW("sanded a minute before"), true, {539, 550}, {550, 560}, 480, 500, 540, false, 540, START + 5},
    {ROW("the second before it"), true, {300, 530}, {310, 560}, 480, 500, 540, false, 540, START + 5},
    {ROW("settled before the coat"), true, {480, 490}, {490, 500}, 530, 540, 600, true, 0, 0},
    {ROW("not quite settled"), true, {480, 490}, {490, 501}, 530, 540, 600, false, 600, START + 90},
    {ROW("a coat between two that are sanded"), true, {480, 700}, {500, 720}, 530, 540, 700, true, 0, 0},
    {ROW("coated when the dust has settled"), false, {530, 540}, {540, 550}, 480, 500, 0, true, 0, 0},
    {ROW("coated a minute before"), false, {529, 540}, {540, 550}, 480, 500, 0, false, 530, START + 5},
    {ROW("dust-free as sanding begins"), false, {480, 490}, {490, 500}, 580, 590, 0, true, 0, 0},
    {ROW("wet as sanding begins"), false, {480, 490}, {490, 500}, 569, 590, 0, false, 620, START + 110},
};

static void dust_spares_films(void **state)
{
    const struct dust_row *r = *state;
    struct floor f;
    floor_init(&f);
    place(&f, 2, r->start, r->end);
    at_work(&f, 3, 0, 2000); /* of no batch */
    for (int i = 0; i < 2; i++) {
        at_work(&f, i, r->from[i], r->to[i]);
        f.operations[i].dusty = r->sands;
        if (!r->sands)
            film(&f, i, 900, r->to[i] + 70 + 10 * i);
    }
    f.operations[2].dusty = !r->sands;
    if (r->sands) {
        film(&f, 2, 900, r->clear);
        f.placed[0].wet = (struct spell){r->start, r->clear};
    } else {
        f.placed[0].dust = (struct spell){r->start, r->end + 30};
    }
    check_int(&r->row, rule_dust(&f.placing), r->good);
    if (!r->good)
        check_refused(&r->row, &f, HINDERED_BY_DUST, 0, r->until, r->again);
    f.shop.dust_separate = true;
    check_true(&r->row, rule_dust(&f.placing), "dust has a room of its own");
}

/* Sanded from 500 to 520 and 560 to 600: dust from 500 to 630. Coated then, dust-free at 640 and 690: wet from 500 to 690. */
static void spells_are_measured(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    at_work(&f, 0, 500, 520);
    at_work(&f, 1, 560, 600);
    check_true(HERE, rule_dust(&f.placing), "nothing is dusty or wet");
    check_true(HERE, f.tried.dust.to == 0 && f.tried.wet.to == 0, "there is neither");
    f.operations[0].dusty = f.operations[1].dusty = true;
    check_true(HERE, rule_dust(&f.placing), "nothing else is there");
    check_int(HERE, f.tried.dust.from, 500);
    check_int(HERE, f.tried.dust.to, 630);
    check_int(HERE, f.tried.wet.to, 0);
    f.operations[0].dusty = f.operations[1].dusty = false;
    film(&f, 0, 900, 690);
    film(&f, 1, 900, 640);
    check_true(HERE, rule_dust(&f.placing), "nothing else is there");
    check_int(HERE, f.tried.wet.from, 500);
    check_int(HERE, f.tried.wet.to, 690);
    check_int(HERE, f.tried.dust.to, 0);
}

/* A film laid before is dust-free at 560. The batch begins at 480 and sands from 500: later by 60, less 20 of pauses. */
static void films_from_before(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.site.lying_count = 1;
    f.lying.clear = 560;
    at_work(&f, 0, 500, 520);
    at_work(&f, 1, 520, 540);
    f.operations[0].dusty = f.operations[1].dusty = true;
    check_true(HERE, !rule_dust(&f.placing), "it is wet");
    check_refused(HERE, &f, HINDERED_BY_DUST, SITE_NONE, 560, START + 40);
    f.lying.clear = 500;
    check_true(HERE, rule_dust(&f.placing), "it is dust-free");
    f.lying.clear = 560;
    f.operations[0].dusty = f.operations[1].dusty = false;
    film(&f, 0, 900, 590);
    film(&f, 1, 900, 600);
    check_true(HERE, rule_dust(&f.placing), "two films do not harm each other");
}

/* The rack has room for 10. */

struct rack_row {
    struct row row;
    int32_t
        room[MOST]; /* of each item on the rack; item 0 lies there from 500 to 900, item 1 from 520 to 800 */
    int lots[MOST];
    int32_t from, to; /* item 2 */
    bool good;
    int other;
    int32_t until, again;
};

static const struct rack_row racks[] = {
    {ROW("just full"), {6, 0, 4, 0}, {0, 1, 2, 3}, 400, 950, true, 0, 0, 0},
    {ROW("too full"), {6, 0, 5, 0}, {0, 1, 2, 3}, 400, 950, false, 0, 950, START + 450},
    {ROW("room as the other leaves"), {6, 0, 5, 0}, {0, 1, 2, 3}, 400, 500, true, 0, 0, 0},
    {ROW("a minute before"), {6, 0, 5, 0}, {0, 1, 2, 3}, 400, 501, false, 0, 501, START + 5},
    {ROW("it leaves as the other comes"), {6, 0, 5, 0}, {0, 1, 2, 3}, 900, 950, true, 0, 0, 0},
    /* later by 950 - 899, less 20 of pauses: 31 */
    {ROW("the other comes a minute before"), {6, 0, 5, 0}, {0, 1, 2, 3}, 899, 950, false, 0, 950, START + 35},
    {ROW("a lot lies there once"), {6, 0, 6, 0}, {0, 1, 0, 3}, 400, 950, true, 0, 0, 0},
    {ROW("two of a lot, one after the other"), {6, 6, 4, 0}, {0, 0, 2, 3}, 400, 950, true, 0, 0, 0},
    {ROW("the second is too much"), {4, 4, 5, 0}, {0, 1, 2, 3}, 400, 620, false, 0, 620, START + 80},
};

static void has_room_on_the_rack(void **state)
{
    const struct rack_row *r = *state;
    struct floor f;
    floor_init(&f);
    at_work(&f, 0, 500, 520);
    at_work(&f, 1, 520, 540);
    film(&f, 0, 900, 560);
    film(&f, 1, 800, 580);
    place(&f, 2, r->from, r->from + 20);
    film(&f, 2, r->to, r->from + 30);
    for (int i = 0; i < MOST; i++) {
        f.rows[i].rack = r->room[i];
        f.rows[i].lot = r->lots[i];
    }
    f.placed[0].lies = placing_lies(&f.draft, &f.placed[0].batch);
    check_int(&r->row, f.placed[0].lies.from, r->from);
    check_int(&r->row, f.placed[0].lies.to, r->to);
    check_int(&r->row, rule_rack(&f.placing), r->good);
    if (!r->good)
        check_refused(&r->row, &f, HINDERED_BY_RACK, r->other, r->until, r->again);
    f.site.rack = -1;
    check_true(&r->row, rule_rack(&f.placing), "a rack without end");
}

/* A piece laid before lies there with 6 until 560; item 0 takes 5 from 500, and must wait for 60; or both are one lot. */
static void what_lay_there_before(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.site.lying_count = 1;
    f.lying = (struct lying){.lot = MOST, .handle = 560, .rack = 6};
    f.placing.batch.count = 1;
    at_work(&f, 0, 500, 520);
    film(&f, 0, 900, 560);
    f.rows[0].rack = 5;
    check_true(HERE, !rule_rack(&f.placing), "there is no room");
    check_refused(HERE, &f, HINDERED_BY_RACK, SITE_NONE, 560, START + 60);
    f.lying.handle = 500;
    check_true(HERE, rule_rack(&f.placing), "it leaves as this comes");
    f.lying.handle = 560;
    f.lying.rack = 0;
    check_true(HERE, rule_rack(&f.placing), "it takes no room");
    f.lying.rack = 6;
    f.lying.lot = 0;
    check_true(HERE, rule_rack(&f.placing), "it is the same lot");
}

/* Two of the batch with 6 each: the second comes at 520, and the first leaves at 530. A pause of 20 minutes could be as long, so that
 * the next start may do; had it to be more than 20 no start does, and the batch breaks at the second. */
static void too_much_in_one_batch(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    at_work(&f, 0, 500, 520);
    at_work(&f, 1, 520, 540);
    film(&f, 0, 540, 525);
    film(&f, 1, 800, 580);
    f.rows[0].rack = f.rows[1].rack = 6;
    f.tried.laid.broke_at = 2;
    check_true(HERE, !rule_rack(&f.placing), "there is no room for both");
    check_refused(HERE, &f, HINDERED_BY_RACK, SITE_NONE, SITE_NEVER, START + 5);
    check_int(HERE, (intmax_t)f.tried.laid.broke_at, 1);
    f.handle[0] = 541;
    check_true(HERE, !rule_rack(&f.placing), "there is no room for both");
    check_refused(HERE, &f, HINDERED_BY_RACK, SITE_NONE, SITE_NEVER, SITE_NEVER);
    f.handle[0] = 520;
    check_true(HERE, rule_rack(&f.placing), "one leaves as the other comes");
}

/* Of three the first leaves as the third comes; it is the second that leaves 21 minutes later, which no pause is. */
static void who_has_left_is_not_waited_for(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.placing.batch.count = 3;
    const int32_t from[] = {500, 515, 520}, to[] = {520, 541, 900}, room[] = {4, 6, 6};
    for (int i = 0; i < 3; i++) {
        at_work(&f, i, from[i], from[i] + 5);
        film(&f, i, to[i], from[i] + 5);
        f.rows[i].rack = room[i];
    }
    check_true(HERE, !rule_rack(&f.placing), "there is no room for two");
    check_refused(HERE, &f, HINDERED_BY_RACK, SITE_NONE, SITE_NEVER, SITE_NEVER);
    check_int(HERE, (intmax_t)f.tried.laid.broke_at, 2);
}

/* What was placed first lies there longest, 5 from 400 on; of the batch 6 come at 500 and leave at 510, 1 comes at 520. */
static void for_a_short_time(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    at_work(&f, 0, 500, 505);
    film(&f, 0, 510, 505);
    at_work(&f, 1, 520, 525);
    film(&f, 1, 800, 525);
    place(&f, 2, 400, 420);
    film(&f, 2, 950, 430);
    f.rows[0].rack = 6;
    f.rows[1].rack = 1;
    f.rows[2].rack = 5;
    f.placed[0].lies = placing_lies(&f.draft, &f.placed[0].batch);
    check_true(HERE, !rule_rack(&f.placing), "there is no room for ten minutes");
    check_refused(HERE, &f, HINDERED_BY_RACK, 0, 950, START + 450);
}

/* What lies on no rack is not waited for: of one batch item 2 leaves at 950, item 3, which takes no room, at 600. */
static void who_takes_no_room(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.placing.batch.count = 1;
    at_work(&f, 0, 500, 520);
    film(&f, 0, 900, 560);
    place(&f, 2, 400, 420);
    film(&f, 2, 950, 430);
    at_work(&f, 3, 420, 440);
    film(&f, 3, 600, 450);
    f.batch_of[3] = 0;
    f.placed[0].batch.count = 2;
    f.rows[0].rack = f.rows[2].rack = 6;
    f.placed[0].lies = placing_lies(&f.draft, &f.placed[0].batch);
    check_int(HERE, f.placed[0].lies.to, 950);
    check_true(HERE, !rule_rack(&f.placing), "there is no room");
    check_refused(HERE, &f, HINDERED_BY_RACK, 0, 950, START + 450);
    f.rows[0].rack = 0;
    check_int(HERE, placing_lies(&f.draft, &f.placing.batch).to, 0);
    check_true(HERE, rule_rack(&f.placing), "it needs none");
}

enum { HEATED_FROM = 9 * 60, HEATED_TO = 16 * 60 };

/* Dry to handle after 3 h and dust-free after 1 h. The air suits from 09:00 to 16:00: 12 C before and behind that, 15 C at least. */
static struct site *heated(struct arena *arena, struct panel *panel, enum finish_drying dries_by)
{
    panel_init(panel);
    panel->spells[0] = (struct air_spell){HEATED_FROM, {23, 0.5}};
    panel->spells[1] = (struct air_spell){HEATED_TO, {12, 0.5}};
    panel->job.shop.air.daily.spell_count = 2;
    panel->finish.air.lowest_c = 15;
    panel->finish.dries_by = dries_by;
    panel_add_step(panel, 0, STEP_SAND);
    panel_add_step(panel, 0, STEP_COAT);
    panel_set_state(panel, STATE_HANDLE, 180);
    panel_set_state(panel, STATE_DUST_FREE, 60);
    return panel_site(arena, panel);
}

struct air_row {
    struct row row;
    enum finish_drying dries_by;
    int32_t start, end;
    bool good;
    int32_t until;
};

/* What hardens by water or reaction is hindered by the cold until it is dry to handle, what dries by oxygen or by evaporation only
 * while it is laid. */
static const struct air_row airs[] = {
    {ROW("laid and dry while it is warm"), DRIES_BY_REACTION, HEATED_FROM, 600, true, 0},
    {ROW("laid before it is warm"), DRIES_BY_REACTION, HEATED_FROM - 1, 600, false, HEATED_FROM},
    {ROW("dry as it grows cold"), DRIES_BY_REACTION, 760, 780, true, 0},
    {ROW("not dry as it grows cold"), DRIES_BY_REACTION, 760, 781, false, HEATED_FROM + DAY_MINUTES},
    {ROW("by water alike"), DRIES_BY_WATER, 760, 781, false, HEATED_FROM + DAY_MINUTES},
    {ROW("by oxygen it may grow cold"), DRIES_BY_OXIDATION, 760, 781, true, 0},
    {ROW("laid until it grows cold"), DRIES_BY_OXIDATION, 900, HEATED_TO, true, 0},
    {ROW("laid beyond that"), DRIES_BY_OXIDATION, 900, HEATED_TO + 1, false, HEATED_FROM + DAY_MINUTES},
    {ROW("no time at all, but as it is cold"), DRIES_BY_OXIDATION, HEATED_TO, HEATED_TO, false,
     HEATED_FROM + DAY_MINUTES},
};

static void air_suits(void **state)
{
    const struct air_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    const struct site *site = heated(arena, &panel, r->dries_by);
    struct draft *draft = draft_make(arena, site);
    int item = panel_item(site->operations, "a/oil/1/apply");
    struct placed tried = {.laid = {.start = r->start}};
    struct placing placing = {
        .draft = draft, .site = site, .batch = {.items = &item, .count = 1}, .placed = &tried};
    draft->start[item] = r->start;
    draft->end[item] = r->end;
    check_int(&r->row, rule_air(&placing, item), r->good);
    if (!r->good) {
        check_int(&r->row, tried.cause.kind, HINDERED_BY_AIR);
        check_int(&r->row, tried.cause.until, r->until);
        check_int(&r->row, placing.again, r->start + site_up(r->until - r->start));
    } else if (r->end <= 780) {
        check_int(&r->row, draft->handle[item], r->end + 180);
        check_int(&r->row, draft->clear[item], r->end + 60);
    }
    arena_free(arena);
}

/* Sanding asks for no air. */
static void sanding_in_the_cold(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    const struct site *site = heated(arena, &panel, DRIES_BY_REACTION);
    struct draft *draft = draft_make(arena, site);
    int item = panel_item(site->operations, "a/oil/0/sand-180");
    struct placed tried = {.laid = {.start = 480}};
    struct placing placing = {
        .draft = draft, .site = site, .batch = {.items = &item, .count = 1}, .placed = &tried};
    draft->start[item] = 480;
    draft->end[item] = 540;
    check_true(HERE, rule_air(&placing, item), "it is cold");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(
        CHECK_ROWS(agains, is_tried_again), CHECK_ROWS(dry_bys, is_dry_by), CHECK_TEST(sanding_need_not_dry),
        CHECK_ROWS(lots, is_alone_at_a_lot), CHECK_TEST(all_of_the_lot), CHECK_TEST(dust_on_the_lot),
        CHECK_ROWS(persons, person_is_free), CHECK_ROWS(helpers, helper_is_there),
        CHECK_ROWS(sprays, place_is_free), CHECK_TEST(no_place_to_spray),
        CHECK_ROWS(dusts, dust_spares_films), CHECK_TEST(spells_are_measured), CHECK_TEST(films_from_before),
        CHECK_ROWS(racks, has_room_on_the_rack), CHECK_TEST(what_lay_there_before),
        CHECK_TEST(too_much_in_one_batch), CHECK_TEST(who_has_left_is_not_waited_for),
        CHECK_TEST(for_a_short_time), CHECK_TEST(who_takes_no_room), CHECK_ROWS(airs, air_suits),
        CHECK_TEST(sanding_in_the_cold));
}
