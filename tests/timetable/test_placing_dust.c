/* What one start must keep for the sake of films: no dust on those that are wet, which settles in 30
 * minutes, and air that suits them. */
#include "floor.h"
#include "panel_site.h"

#include "base/arena.h"
#include "timetable/draft.h"

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
    {ROW("sanded a minute before"), true, {539, 550}, {550, 560}, 480, 500, 540, false, 540, FLOOR_START + 5},
    {ROW("the second before it"), true, {300, 530}, {310, 560}, 480, 500, 540, false, 540, FLOOR_START + 10},
    {ROW("settled before the coat"), true, {480, 490}, {490, 500}, 530, 540, 600, true, 0, 0},
    {ROW("not quite settled"), true, {480, 490}, {490, 501}, 530, 540, 600, false, 600, FLOOR_START + 110},
    {ROW("a coat between two that are sanded"), true, {480, 700}, {500, 720}, 530, 540, 700, true, 0, 0},
    {ROW("coated when the dust has settled"), false, {530, 540}, {540, 550}, 480, 500, 0, true, 0, 0},
    {ROW("coated a minute before"), false, {529, 540}, {540, 550}, 480, 500, 0, false, 530, FLOOR_START + 5},
    {ROW("dust-free as sanding begins"), false, {480, 490}, {490, 500}, 580, 590, 0, true, 0, 0},
    {ROW("wet as sanding begins"), false, {480, 490}, {490, 500}, 569, 590, 0, false, 620, FLOOR_START + 130},
};

static void dust_spares_films(void **state)
{
    const struct dust_row *r = *state;
    struct floor f;
    floor_init(&f);
    floor_place(&f, 2, r->start, r->end);
    floor_work(&f, 3, 0, 2000); /* of no batch */
    for (int i = 0; i < 2; i++) {
        floor_work(&f, i, r->from[i], r->to[i]);
        f.operations[i].dusty = r->sands;
        if (!r->sands)
            floor_film(&f, i, 900, r->to[i] + 70 + 10 * i);
    }
    f.operations[2].dusty = !r->sands;
    if (r->sands) {
        floor_film(&f, 2, 900, r->clear);
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

/* Sanded from 500 to 520 and 560 to 600: dust from 500 to 630. Coated then, dust-free at 640 and 690: wet
 * from 500 to 690. */
static void spells_are_measured(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    floor_work(&f, 0, 500, 520);
    floor_work(&f, 1, 560, 600);
    check_true(HERE, rule_dust(&f.placing), "nothing is dusty or wet");
    check_true(HERE, f.tried.dust.to == 0 && f.tried.wet.to == 0, "there is neither");
    f.operations[0].dusty = f.operations[1].dusty = true;
    check_true(HERE, rule_dust(&f.placing), "nothing else is there");
    check_int(HERE, f.tried.dust.from, 500);
    check_int(HERE, f.tried.dust.to, 630);
    check_int(HERE, f.tried.wet.to, 0);
    f.operations[0].dusty = f.operations[1].dusty = false;
    floor_film(&f, 0, 900, 690);
    floor_film(&f, 1, 900, 640);
    check_true(HERE, rule_dust(&f.placing), "nothing else is there");
    check_int(HERE, f.tried.wet.from, 500);
    check_int(HERE, f.tried.wet.to, 690);
    check_int(HERE, f.tried.dust.to, 0);
}

/* A film laid before is dust-free at 560. The batch begins at 480 and sands from 500: later by 60, less 20
 * of pauses. */
static void films_from_before(void **state)
{
    (void)state;
    struct floor f;
    floor_init(&f);
    f.site.lying_count = 1;
    f.lying.clear = 560;
    floor_work(&f, 0, 500, 520);
    floor_work(&f, 1, 520, 540);
    f.operations[0].dusty = f.operations[1].dusty = true;
    check_true(HERE, !rule_dust(&f.placing), "it is wet");
    check_refused(HERE, &f, HINDERED_BY_DUST, SITE_NONE, 560, FLOOR_START + 40);
    f.lying.clear = 500;
    check_true(HERE, rule_dust(&f.placing), "it is dust-free");
    f.lying.clear = 560;
    f.operations[0].dusty = f.operations[1].dusty = false;
    floor_film(&f, 0, 900, 590);
    floor_film(&f, 1, 900, 600);
    check_true(HERE, rule_dust(&f.placing), "two films do not harm each other");
}

/* Sanded from 500 to 540. The first film is dust-free then, the second not: it counts only where it is one of those that lie there. */
static void every_film_from_before(void **state)
{
    (void)state;
    struct lying films[] = {{.clear = 500}, {.clear = 560}};
    struct floor f;
    floor_init(&f);
    f.site.lying = films;
    for (int i = 0; i < 2; i++) {
        floor_work(&f, i, 500 + 20 * i, 520 + 20 * i);
        f.operations[i].dusty = true;
    }
    f.site.lying_count = 2;
    check_true(HERE, !rule_dust(&f.placing), "the second is wet");
    check_refused(HERE, &f, HINDERED_BY_DUST, SITE_NONE, 560, FLOOR_START + 40);
    f.site.lying_count = 1;
    check_true(HERE, rule_dust(&f.placing), "the first is dust-free");
}

enum { HEATED_FROM = 9 * 60, HEATED_TO = 16 * 60 };

/* Dry to handle after 3 h and dust-free after 1 h. The air suits from 09:00 to 16:00: 12 C before and
 * behind that, 15 C at least. */
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

/* What hardens by water or reaction is hindered by the cold until it is dry to handle, what dries by
 * oxygen or by evaporation only while it is laid. */
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
    return CHECK_ALL(CHECK_ROWS(dusts, dust_spares_films), CHECK_TEST(spells_are_measured),
                     CHECK_TEST(films_from_before), CHECK_TEST(every_film_from_before),
                     CHECK_ROWS(airs, air_suits), CHECK_TEST(sanding_in_the_cold));
}
