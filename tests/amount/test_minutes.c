/* Hands-on minutes of a coat and of sanding, worked by hand. */
#include "check.h"
#include "sample.h"
#include "sample_surfaces.h"

#include <math.h>

static void flat_board(struct sample_surfaces *s, struct finish finish, enum tool by, double area_m2)
{
    sample_surfaces(s, finish);
    sample_add_surface(s, sample_add_part(s, SHAPE_BOARD, "maple"), REGION_FACE, area_m2);
    s->step.by = by;
}

struct minutes_row {
    struct row row;
    bool two_part;
    enum tool by;
    double area_m2, thin, temperature_c;
    int want_mixes;
    double want_laying, want_sum;
    int want_total;
};

/* Pot life of the two-part finish 4 h at 21 C: 216 min of work. Set-up + mixing + handling + laying + clean-up. */
static const struct minutes_row coats[] = {
    {ROW("cloth: 5 + 1 + 10.8 + 5"), false, TOOL_CLOTH, 1.8, 0, 20, 0, 10.8, 21.8, 25},
    {ROW("brush: 10 + 1 + 60 + 10"), false, TOOL_BRUSH, 7, 0, 20, 0, 60, 81, 85},
    {ROW("thinned: one mix"), false, TOOL_BRUSH, 7, 0.1, 20, 1, 60, 86, 90},
    {ROW("two parts by brush: 10 + 5 + 1 + 60 + 10"), true, TOOL_BRUSH, 7, 0, 21, 1, 60, 86, 90},
    {ROW("two parts, 2 h of laying at 21 C: one mix"), true, TOOL_BRUSH, 14, 0, 21, 1, 120, 146, 150},
    {ROW("at 31 C the work is 108 min: two mixes"), true, TOOL_BRUSH, 14, 0, 31, 2, 120, 151, 155},
    {ROW("at 41 C 54 min: three"), true, TOOL_BRUSH, 14, 0, 41, 3, 120, 156, 160},
    {ROW("gun: 25 + 1.5 + 30 + 20"), false, TOOL_HVLP, 10, 0, 20, 0, 30, 76.5, 80},
    {ROW("two parts in a gun: 25 + 5 + 1.5 + 30 + 25"), true, TOOL_HVLP, 10, 0, 21, 1, 30, 86.5, 90},
    /* at 31 C alive 120 min, 25 of them to clean the gun: 95 to lay in, not 108 */
    {ROW("a gun is clean before the pot life ends"), true, TOOL_HVLP, 34, 0, 31, 2, 102, 163.5, 165},
};

static void minutes_are(void **state)
{
    const struct minutes_row *r = *state;
    struct sample_surfaces s;
    flat_board(&s, r->two_part ? sample_two_part() : sample_varnish(), r->by, r->area_m2);
    s.step.thin = r->thin;
    struct coat_minutes got = coat_minutes(&s.pass, &s.coat, r->temperature_c);
    check_int(&r->row, got.mixes, r->want_mixes);
    check_double(&r->row, got.laying, r->want_laying, 1e-12);
    check_double(&r->row, got.set_up + got.induction + got.mixing + got.handling + got.laying + got.clean_up,
                 r->want_sum, 1e-12);
    check_int(&r->row, got.total, r->want_total);
    check_double(&r->row, got.longest_part, r->want_laying, 1e-12);
    check_true(&r->row, !got.pot_dead && got.sections.count == 0, "alive, nothing wiped");
}

/* Of three boards with 1.5 m2 in all a lot has two, which are 1 m2, and the next lot one. */
static void a_lot_has_its_share_of_the_area(void **state)
{
    (void)state;
    struct sample_surfaces s;
    flat_board(&s, sample_varnish(), TOOL_BRUSH, 1.5);
    s.parts[0].qty = 3;
    check_double(HERE, pass_area_m2(&s.pass), 1.5, 0);
    s.pass.lot = (struct part_run){0, 2};
    check_int(HERE, pass_parts(&s.pass), 2);
    check_double(HERE, pass_area_m2(&s.pass), 1, 1e-12);
    s.pass.lot = (struct part_run){2, 3};
    check_int(HERE, pass_parts(&s.pass), 1);
    check_double(HERE, pass_area_m2(&s.pass), 0.5, 1e-12);
}

/* Twelve doors, 6 m2 of faces (18 min at 20 m2/h) and 1.2 m2 of edges (at half the rate: 7.2): 25 + 5 + 18 + 25.2 + 25 =
 * 98.2. One door lays 2.1 min. */
static void twelve_doors(void **state)
{
    (void)state;
    struct sample_surfaces s;
    sample_surfaces(&s, sample_two_part());
    size_t door = sample_add_part(&s, SHAPE_BOARD, "maple");
    s.parts[door].qty = 12;
    sample_add_surface(&s, door, REGION_FACE, 6);
    sample_add_surface(&s, door, REGION_EDGES, 1.2);
    struct coat_minutes got = coat_minutes(&s.pass, &s.coat, 21);
    check_double(HERE, got.handling, 18, 0);
    check_double(HERE, got.laying, 25.2, 1e-12);
    check_int(HERE, got.total, 100);
    check_double(HERE, got.longest_part, 2.1, 1e-12);
}

/* `work` is per part: the fiddly one takes twice as long, the other does not. */
static void work_is_per_part(void **state)
{
    (void)state;
    struct sample_surfaces s;
    flat_board(&s, sample_varnish(), TOOL_CLOTH, 1);
    size_t fiddly = sample_add_part(&s, SHAPE_TURNING, "maple");
    s.parts[fiddly].work = 2;
    sample_add_surface(&s, fiddly, REGION_FACE, 0.35);
    /* 1 m2 at 10 m2/h: 6 min; 0.35 m2 x 2 / (10 x 0.35): 12 min */
    check_double(HERE, coat_minutes(&s.pass, &s.coat, 20).laying, 18, 1e-12);
    /* sanding, 8 m2/h: 5 + 2 + 7.5 + 15 = 29.5 */
    check_int(HERE, work_minutes(&s.pass, WORK_SAND), 30);
    /* scuffing, 15 m2/h: 5 + 2 + 4 + 8 = 19 */
    check_int(HERE, work_minutes(&s.pass, WORK_SCUFF), 20);
    /* polishing, 6 m2/h: 5 + 2 + 10 + 20 = 37 */
    check_int(HERE, work_minutes(&s.pass, WORK_POLISH), 40);
}

/* Rounding up tolerates 1 s. */
static void a_second_is_forgiven(void **state)
{
    (void)state;
    struct sample_surfaces s;
    flat_board(&s, sample_varnish(), TOOL_CLOTH, 1.5); /* 5 + 1 + 9 + 5 = 20 */
    check_int(HERE, coat_minutes(&s.pass, &s.coat, 20).total, 20);
    s.job.shop.handling_min[TOOL_CLOTH] = 1 + 0.9 / 60;
    check_int(HERE, coat_minutes(&s.pass, &s.coat, 20).total, 20);
    s.job.shop.handling_min[TOOL_CLOTH] = 1 + 1.1 / 60;
    check_int(HERE, coat_minutes(&s.pass, &s.coat, 20).total, 25);
}

/* The person sets up meanwhile: 15 min of induction beside 10 of set-up add 5, beside 25 nothing. */
static void induction_beside_the_set_up(void **state)
{
    (void)state;
    struct sample_surfaces s;
    struct finish finish = sample_two_part();
    finish.induction_min = 15;
    flat_board(&s, finish, TOOL_BRUSH, 7);
    check_double(HERE, coat_minutes(&s.pass, &s.coat, 21).induction, 5, 0);
    check_int(HERE, coat_minutes(&s.pass, &s.coat, 21).total, 95); /* 10 + 5 + 5 + 1 + 60 + 10 = 91 */
    s.step.by = TOOL_HVLP;
    check_double(HERE, coat_minutes(&s.pass, &s.coat, 21).induction, 0, 0);
    s.finish.induction_min = 200;
    check_true(HERE, coat_minutes(&s.pass, &s.coat, 31).pot_dead, "dead before it may be laid");
    check_int(HERE, coat_minutes(&s.pass, &s.coat, 31).mixes, 1);
}

/* A shop that says how long cleaning takes is believed for every finish of that tool. */
static void clean_up_of_the_shop(void **state)
{
    (void)state;
    struct sample_surfaces s;
    flat_board(&s, sample_two_part(), TOOL_HVLP, 10);
    s.job.shop.two_part_clean_up_min[TOOL_HVLP] = 5;
    check_int(HERE, coat_minutes(&s.pass, &s.coat, 21).total, 70); /* 25 + 5 + 1.5 + 30 + 5 = 66.5 */
}

static struct finish wet_oil(void)
{
    struct finish finish = sample_varnish();
    finish.family = "hardwax-oil";
    finish.has_wipe_off = true;
    finish.wipe_off = (struct span_range){5, 15};
    finish.at_c = 20;
    return finish;
}

struct sections_row {
    struct row row;
    double area_m2, temperature_c;
    int want;
    double want_minutes;
};

/* Pad 12 m2/h, wiping 8 m2/h, 5 to 15 min: laid 5 min and wiped 7.5 a m2. */
static const struct sections_row sections[] = {
    {ROW("0.2 m2: laid in 1, waits until 5, wiped in 1.5"), 0.2, 20, 1, 6.5},
    {ROW("2 m2: laid in 10, wiped in 15"), 2, 20, 1, 25},
    {ROW("4 m2: wiping takes 30, so two sections of 10 + 15"), 4, 20, 2, 50},
    {ROW("4.1 m2: three"), 4.1, 20, 3, 4.1 * 12.5},
    {ROW("4 m2 at 10 C: both ends twice as late, laid in 20, wiped in 30"), 4, 10, 1, 50},
    {ROW("0.2 m2 at 10 C: waits until 10"), 0.2, 10, 1, 11.5},
    {ROW("4 m2 at 30 C: wiped within 7.5, four sections of 5 + 7.5"), 4, 30, 4, 50},
    {ROW("0.2 m2 at 30 C: waits until 2.5"), 0.2, 30, 1, 4},
};

static void sections_are(void **state)
{
    const struct sections_row *r = *state;
    struct sample_surfaces s;
    flat_board(&s, wet_oil(), TOOL_PAD, r->area_m2);
    struct sections got = coat_sections(&s.pass, &s.coat, r->temperature_c);
    check_true(&r->row, got.possible, "possible");
    check_int(&r->row, got.count, r->want);
    check_double(&r->row, got.minutes, r->want_minutes, 1e-12);
    check_double(&r->row, got.area_m2, r->area_m2 / r->want, 1e-12);
    check_double(&r->row, coat_minutes(&s.pass, &s.coat, r->temperature_c).laying, r->want_minutes, 1e-12);
}

/* At 30 C oils of 15 to 30 min at 20 C are wiped between 7.5 and 15: not refused, and printed so. */
static void a_hot_day(void **state)
{
    (void)state;
    struct sample_surfaces s;
    struct finish oil = wet_oil();
    oil.wipe_off = (struct span_range){15, 30};
    flat_board(&s, oil, TOOL_CLOTH, 2);
    struct sections got = coat_sections(&s.pass, &s.coat, 30);
    check_true(HERE, got.possible, "not refused");
    check_double(HERE, got.least_min, 7.5, 1e-12);
    check_double(HERE, got.most_min, 15, 1e-12);
}

/* Semitransparent exterior oil: surplus wiped off about an hour after the second coat, not after the first (USDA Wood
 * Handbook FPL-GTR-190, ch. 16, 2010). */
static void wiped_from_the_second_coat_on(void **state)
{
    (void)state;
    struct sample_surfaces s;
    struct finish oil = wet_oil();
    oil.wipe_off_from = 2;
    flat_board(&s, oil, TOOL_CLOTH, 1);
    check_int(HERE, coat_minutes(&s.pass, &s.coat, 20).sections.count, 0);
    s.coat.of_finish = s.coat.number = 2;
    check_int(HERE, coat_minutes(&s.pass, &s.coat, 20).sections.count, 1);
}

/* 2.26 kg of an epoxy whose pot life is that of 500 g, 40 min: in one cup it lives 8.8 min and takes 12 to lay. In two cups
 * 17.7 min each, 15.9 of them to work in, and 6 to lay. */
static void a_large_pot_is_split(void **state)
{
    (void)state;
    struct sample_surfaces s;
    struct finish epoxy = sample_two_part();
    epoxy.pot_life_min = 40;
    epoxy.induction_min = 0;
    epoxy.at_c = 20;
    epoxy.pot_mass_g = 500;
    flat_board(&s, epoxy, TOOL_BRUSH, 1);
    double mass_g = 2260;
    check_int(HERE, coat_mix_count(&s.pass, &s.coat, 20, mass_g, 12), 2);
    check_double(HERE, coat_working_min(&s.pass, &s.coat, 20, mass_g / 2), 0.9 * 40 * 500 / 1130, 1e-12);
    check_int(HERE, coat_mix_count(&s.pass, &s.coat, 20, 500, 30), 1);
    check_int(HERE, coat_mix_count(&s.pass, &s.coat, 20, 500, 37), 2);
    s.finish.induction_min = 41;
    check_int(HERE, coat_mix_count(&s.pass, &s.coat, 20, 100, 1), 0);
}

/* Ten spindles of 900 mm x 40 mm, standing: an hour with the brush, set-up and clean-up apart (common practice). */
static void ten_spindles_take_an_hour(void **state)
{
    (void)state;
    struct sample_surfaces s;
    sample_surfaces(&s, sample_varnish());
    s.step.by = TOOL_BRUSH;
    size_t spindle = sample_add_part(&s, SHAPE_ROUND, "oak");
    s.parts[spindle].size_m[DIM_LENGTH] = 0.9;
    s.parts[spindle].size_m[DIM_DIAMETER] = 0.04;
    s.parts[spindle].qty = 10;
    sample_add_surface(&s, spindle, REGION_FACE, 10 * 3.14159265 * 0.04 * 0.9);
    struct coat_minutes got = coat_minutes(&s.pass, &s.coat, 20);
    check_true(HERE, got.laying + got.handling > 55 && got.laying + got.handling < 65, "about an hour");
}

/* Wetting 2.5 m2 with a sponge takes ten minutes (common practice). */
static void raising_is_quick(void **state)
{
    (void)state;
    struct sample_surfaces s;
    flat_board(&s, sample_varnish(), TOOL_BRUSH, 2.5);
    check_int(HERE, work_minutes(&s.pass, WORK_RAISE), 10);
}

/* Laid in 1 min, wiped in 30, 10 to 15 min: 10 + (30 - 1)/n <= 15 from n = 6 on, each 10 + 5. */
static void waiting_for_the_earlier_time(void **state)
{
    (void)state;
    struct sections got = sections_make(1, 30, 10, 15);
    check_int(HERE, got.count, 6);
    check_double(HERE, got.minutes, 90, 1e-12);
    check_true(HERE, !sections_make(1, 30, 15, 15).possible, "a window without width");
    check_true(HERE, !sections_make(1, 1, 10, 7).possible, "too warm: the later time is before the earlier");
    check_int(HERE, sections_make(30, 1, 15, 15).count, 2);
}

/* The conditions of the method, tried for one n after the other. */
static void least_sections_by_trying(void **state)
{
    (void)state;
    uint64_t seed = 515;
    for (int trial = 0; trial < 2000; trial++) {
        uint64_t was = seed;
        double laying = 200 * check_random_unit(&seed), wiping = 200 * check_random_unit(&seed);
        double least = check_random_int(&seed, 0, 20), most = least + check_random_int(&seed, 1, 20);
        int n = 1;
        while (laying / n > most || fmax(laying / n, least) + wiping / n - laying / n > most)
            n++;
        struct sections got = sections_make(laying, wiping, least, most);
        double minutes = n * (fmax(laying / n, least) + wiping / n);
        if (!got.possible || got.count != n || fabs(got.minutes - minutes) > 1e-9)
            fail_msg("seed %ju: got %d sections, want %d", (uintmax_t)was, got.count, n);
    }
}

/* No mix is larger than its pot life allows, and none more than needed is made. */
static void mixes_fit_the_pot_life(void **state)
{
    (void)state;
    uint64_t seed = 817;
    for (int trial = 0; trial < 500; trial++) {
        uint64_t was = seed;
        struct sample_surfaces s;
        struct finish finish = sample_two_part();
        finish.pot_life_min = check_random_int(&seed, 40, 480);
        finish.induction_min = check_random_int(&seed, 0, 15);
        enum tool by = check_random_int(&seed, 0, 1) ? TOOL_HVLP : TOOL_BRUSH;
        flat_board(&s, finish, by, 0.1 + 60 * check_random_unit(&seed));
        double temperature_c = check_random_int(&seed, 10, 30);
        struct coat_minutes got = coat_minutes(&s.pass, &s.coat, temperature_c);
        double alive = 0.9 * (finish.pot_life_min * exp2((21 - temperature_c) / 10) - finish.induction_min);
        double each = got.laying / got.mixes;
        bool enough = got.pot_dead || each <= got.working * (1 + 1e-9);
        bool needed = got.mixes == 1 || got.laying / (got.mixes - 1) > got.working;
        if (!enough || !needed || got.working > alive * (1 + 1e-12) + 1e-12)
            fail_msg("seed %ju: %d mixes of %g min, %g to work in", (uintmax_t)was, got.mixes, each,
                     got.working);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(coats, minutes_are), CHECK_TEST(a_lot_has_its_share_of_the_area),
                     CHECK_TEST(twelve_doors), CHECK_TEST(work_is_per_part), CHECK_TEST(a_second_is_forgiven),
                     CHECK_TEST(induction_beside_the_set_up), CHECK_TEST(clean_up_of_the_shop),
                     CHECK_ROWS(sections, sections_are), CHECK_TEST(waiting_for_the_earlier_time),
                     CHECK_TEST(least_sections_by_trying), CHECK_TEST(mixes_fit_the_pot_life),
                     CHECK_TEST(a_hot_day), CHECK_TEST(wiped_from_the_second_coat_on),
                     CHECK_TEST(a_large_pot_is_split), CHECK_TEST(ten_spindles_take_an_hour),
                     CHECK_TEST(raising_is_quick));
}
