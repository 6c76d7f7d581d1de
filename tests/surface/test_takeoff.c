#include "check.h"

#include "base/arena.h"
#include "base/err.h"
#include "base/measure.h"
#include "surface/takeoff.h"

#include <math.h>
#include <stdio.h>

#define FT 0.3048
#define FT2 (FT * FT)

enum { OIL, PAINT, SCHEDULES };
enum { PIECES = 3 };

static const struct schedule schedules[SCHEDULES] = {{.name = "oil"}, {.name = "paint"}};

#define ALL(s) .schedule = {(s), (s), (s), (s), (s), (s)}
#define LWT(l, w, t) [DIM_LENGTH] = (l), [DIM_WIDTH] = (w), [DIM_THICKNESS] = (t)

static const struct piece pieces[PIECES];

static struct surfaces *take(struct arena *arena, const struct part *parts, size_t count,
                             struct err_list *errors)
{
    struct job job = {.file = "job.json",
                      .parts_file = "parts.csv",
                      .pieces = pieces,
                      .piece_count = PIECES,
                      .schedules = schedules,
                      .schedule_count = SCHEDULES,
                      .parts = parts,
                      .part_count = count};
    return surfaces_make(arena, &job, errors);
}

/* 60 cm2 on the faces of two rows of 1.0 and 0.5 m2: 40 and 20, each behind its face; the wood is counted once. */
static void patch_is_spread_over_its_region(void **state)
{
    (void)state;
    static const struct part parts[] = {
        {.name = "a", .shape = SHAPE_BOARD, .qty = 2, .size_m = {LWT(1.0, 0.5, 0.02)}, ALL(PAINT)},
        {.name = "b", .shape = SHAPE_BOARD, .qty = 1, .size_m = {LWT(1.0, 0.5, 0.02)}, .row = 1, ALL(PAINT)},
    };
    struct patch patch = {.schedule = OIL, .area_m2 = 0.006, .region = REGION_FACE};
    const struct piece patched = {.name = "piece", .patch = &patch};
    struct job job = {.file = "job.json",
                      .pieces = &patched,
                      .piece_count = 1,
                      .schedules = schedules,
                      .schedule_count = SCHEDULES,
                      .parts = parts,
                      .part_count = 2};
    struct err_list errors = {0};
    struct arena *arena = arena_make(0);
    const struct surfaces *surfaces = surfaces_make(arena, &job, &errors);
    double spread[2] = {0};
    for (size_t i = 0, k = 0; i < surfaces->count; i++)
        if (surfaces->items[i].patch) {
            check_int(HERE, surfaces->items[i].region, REGION_FACE);
            check_int(HERE, surfaces->items[i - 1].part, surfaces->items[i].part);
            spread[k++] = surfaces->items[i].area_m2;
        }
    check_double(HERE, spread[0], 0.004, 1e-12);
    check_double(HERE, spread[1], 0.002, 1e-12);
    check_double(HERE, surfaces->by_schedule_m2[OIL], 0.006, 1e-12);
    check_double(HERE, surfaces->finished_m2, surfaces->by_schedule_m2[PAINT], 1e-12);
    patch.part = "b";
    check_double(HERE, surfaces_make(arena, &job, &errors)->by_schedule_m2[OIL], 0.006, 1e-12);
    patch.area_m2 = 0.51;
    assert_null(surfaces_make(arena, &job, &errors));
    check_text(HERE, errors.items[0].pointer, "/pieces/0/patch/area");
    arena_free(arena);
}

/* Every schedule of a table top, its back bare, and legs painted. */
static void regions_go_to_their_schedules(void **state)
{
    (void)state;
    static const struct part parts[] = {
        {.shape = SHAPE_BOARD,
         .qty = 1,
         .size_m = {LWT(1.4, 0.7, 0.025)},
         .schedule = {OIL, SCHEDULE_BARE, OIL, PAINT, OIL, OIL}},
        {.shape = SHAPE_BOARD, .qty = 4, .size_m = {LWT(0.7, 0.06, 0.06)}, .row = 1, ALL(PAINT)},
    };
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    const struct surfaces *s = take(arena, parts, 2, &errors);
    assert_non_null(s);
    check_int(HERE, (intmax_t)s->count, 8);
    check_int(HERE, s->items[1].region, REGION_BACK);
    check_int(HERE, s->items[1].schedule, SCHEDULE_BARE);
    check_int(HERE, (intmax_t)s->items[4].part, 1);
    check_double(HERE, s->items[4].area_m2, 0.168, 1e-15);
    check_double(HERE, s->by_schedule_m2[OIL], 0.98 + 0.07, 1e-15);
    check_double(HERE, s->by_schedule_m2[PAINT], 0.035 + 4 * (4 * 0.042 + 2 * 0.0036), 1e-15);
    check_double(HERE, s->bare_m2, 0.98, 1e-15);
    check_double(HERE, s->finished_m2, 0.98 + 0.07 + 0.035 + 4 * (4 * 0.042 + 2 * 0.0036), 1e-15);
    arena_free(arena);
}

/* Covered area is neither finished nor bare; a region that is all covered is not listed. */
static void covered_is_taken_off(void **state)
{
    (void)state;
    static const struct covered covered[] = {
        {REGION_BACK, 1, 0.3, 0.12}, {REGION_FACE, 2, 0.04, 0.6}, {REGION_ENDS, 2, 0.5, 0.02}};
    static const struct part part = {.shape = SHAPE_BOARD,
                                     .qty = 3,
                                     .size_m = {LWT(1, 0.5, 0.02)},
                                     .covered = covered,
                                     .covered_count = 3,
                                     ALL(OIL)};
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    const struct surfaces *s = take(arena, &part, 1, &errors);
    assert_non_null(s);
    check_int(HERE, (intmax_t)s->count, 3);
    check_double(HERE, s->items[0].area_m2, 3 * (0.5 - 0.048), 1e-15);
    check_double(HERE, s->items[1].area_m2, 3 * (0.5 - 0.036), 1e-15);
    check_double(HERE, s->finished_m2, 3 * (1.04 - 0.084), 1e-15);
    check_double(HERE, s->bare_m2, 0, 0);
    arena_free(arena);
}

static void too_much_covered_is_told(void **state)
{
    (void)state;
    static const struct covered covered[] = {{REGION_ENDS, 3, 0.5, 0.02}};
    static const struct part part = {.shape = SHAPE_BOARD,
                                     .qty = 1,
                                     .size_m = {LWT(1, 0.5, 0.02)},
                                     .covered = covered,
                                     .covered_count = 1,
                                     .row = 4};
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    char line[ERR_LINE_SIZE], want[ERR_LINE_SIZE];
    assert_null(take(arena, &part, 1, &errors));
    err_format(&errors.items[0], line, sizeof line);
    snprintf(want, sizeof want, "parts.csv: row 5, covered: expected at most the ends of %s, found %s",
             area_format(0.02, UNITS_METRIC).text, area_format(0.03, UNITS_METRIC).text);
    check_text(HERE, line, want);
    arena_free(arena);
}

/* Parts in the job file are pointed at below /parts; every mistake is told. */
static void mistakes_in_the_job_are_pointed_at(void **state)
{
    (void)state;
    static const struct part parts[] = {{.shape = SHAPE_BOARD, .qty = 1, .size_m = {LWT(1, 0.5, 0)}},
                                        {.shape = SHAPE_AREA, .qty = 1, .row = 1}};
    struct job job = {.file = "job.json", .parts = parts, .part_count = 2};
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    char line[ERR_LINE_SIZE];
    assert_null(surfaces_make(arena, &job, &errors));
    check_int(HERE, (intmax_t)errors.count, 2);
    err_format(&errors.items[0], line, sizeof line);
    check_text(HERE, line, "job.json: /parts/0/thickness: expected a length above 0, found none");
    err_format(&errors.items[1], line, sizeof line);
    check_text(HERE, line, "job.json: /parts/1/area: expected an area above 0, found none");
    arena_free(arena);
}

/* A house of 20 x 50 ft, walls of 18 ft, two gables of 10 ft: 140 x 18 + 500 = 2,520 + 500 = 3,020 ft2
 * (Chicago Tribune, 29 September 2000). */
static void house_is_3020_square_feet(void **state)
{
    (void)state;
    static const struct part parts[] = {
        {.shape = SHAPE_BOARD,
         .qty = 2,
         .size_m = {LWT(50 * FT, 18 * FT, FT / 12)},
         .schedule = {PAINT, SCHEDULE_BARE, SCHEDULE_BARE, SCHEDULE_BARE, -1, -1}},
        {.shape = SHAPE_BOARD,
         .qty = 2,
         .size_m = {LWT(20 * FT, 18 * FT, FT / 12)},
         .schedule = {PAINT, SCHEDULE_BARE, SCHEDULE_BARE, SCHEDULE_BARE, -1, -1}},
        {.shape = SHAPE_AREA, .qty = 1, .area_m2 = 500 * FT2, .schedule = {PAINT}},
    };
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    const struct surfaces *s = take(arena, parts, 3, &errors);
    assert_non_null(s);
    check_double(HERE, s->finished_m2 / FT2, 3020, 1e-14);
    arena_free(arena);
}

/* A qty of n is n rows, to the last bit. */
static void qty_is_rows(void **state)
{
    (void)state;
    struct part one = {
        .shape = SHAPE_ROUND, .qty = 7, .size_m = {[DIM_DIAMETER] = 0.0381, [DIM_LENGTH] = 0.731}, ALL(OIL)};
    struct part rows[7];
    for (int i = 0; i < 7; i++) {
        rows[i] = one;
        rows[i].qty = 1;
    }
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    const struct surfaces *by_qty = take(arena, &one, 1, &errors), *by_rows = take(arena, rows, 7, &errors);
    assert_non_null(by_qty);
    assert_non_null(by_rows);
    check_double(HERE, by_qty->finished_m2, by_rows->finished_m2, 1e-16);
    arena_free(arena);
}

static struct part some_part(uint64_t *seed)
{
    struct part part = {.shape = SHAPE_BOARD, .qty = check_random_int(seed, 1, 40), ALL(OIL)};
    part.schedule[REGION_BACK] = PAINT;
    part.size_m[DIM_LENGTH] = 3 * check_random_unit(seed) + 0.001;
    part.size_m[DIM_WIDTH] = check_random_unit(seed) + 0.001;
    part.size_m[DIM_THICKNESS] = 0.05 * check_random_unit(seed) + 0.001;
    return part;
}

static void shuffle(struct part *parts, size_t count, uint64_t *seed)
{
    for (size_t i = count - 1; i > 0; i--) {
        size_t k = (size_t)check_random_int(seed, 0, (int)i);
        struct part swap = parts[i];
        parts[i] = parts[k];
        parts[k] = swap;
    }
}

/* 1,000 orders of 60 rows from square millimetres to 100 m2 give the same bits, and so the same digits. */
static void order_of_rows_does_not_matter(void **state)
{
    (void)state;
    enum { ROWS = 60, ORDERS = 1000 };
    uint64_t seed = 20261125;
    struct part parts[ROWS];
    double finished = 0, oil = 0;
    for (int i = 0; i < ROWS; i++)
        parts[i] = some_part(&seed);
    for (int order = 0; order < ORDERS; order++) {
        struct arena *arena = arena_make(0);
        struct err_list errors = {0};
        const struct surfaces *s = take(arena, parts, ROWS, &errors);
        assert_non_null(s);
        if (order == 0) {
            finished = s->finished_m2;
            oil = s->by_schedule_m2[OIL];
        }
        check_double(HERE, s->finished_m2, finished, 0);
        check_double(HERE, s->by_schedule_m2[OIL], oil, 0);
        arena_free(arena);
        shuffle(parts, ROWS, &seed);
    }
}

/* Cutting a board across adds exactly the two cut faces, which are ends. */
static void splitting_adds_the_cut_faces(void **state)
{
    (void)state;
    uint64_t seed = 7;
    for (int i = 0; i < 200; i++) {
        struct part whole = some_part(&seed), halves[2] = {whole, whole};
        double length = whole.size_m[DIM_LENGTH], cut = length * (0.1 + 0.8 * check_random_unit(&seed));
        halves[0].size_m[DIM_LENGTH] = cut;
        halves[1].size_m[DIM_LENGTH] = length - cut;
        struct arena *arena = arena_make(0);
        struct err_list errors = {0};
        double faces = 2 * whole.qty * whole.size_m[DIM_WIDTH] * whole.size_m[DIM_THICKNESS];
        double one = take(arena, &whole, 1, &errors)->finished_m2;
        check_double(HERE, take(arena, halves, 2, &errors)->finished_m2, one + faces, 1e-14);
        arena_free(arena);
    }
}

/* Parts of two pieces in turn, and one piece that has none. */
static void each_piece_is_walked_alone(void **state)
{
    (void)state;
    static const struct part parts[] = {
        {.shape = SHAPE_BOARD, .qty = 1, .size_m = {LWT(1, 0.5, 0.02)}, .piece = 1, ALL(OIL)},
        {.shape = SHAPE_BOARD, .qty = 1, .size_m = {LWT(1, 0.5, 0.02)}, .piece = 0, .row = 1, ALL(OIL)},
        {.shape = SHAPE_BOARD, .qty = 1, .size_m = {LWT(1, 0.5, 0.02)}, .piece = 1, .row = 2, ALL(PAINT)},
    };
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    const struct surfaces *s = take(arena, parts, 3, &errors);
    static const size_t walk[] = {0, 1, 2, 3, 8, 9, 10, 11};
    size_t step = 0;
    for (size_t i = surfaces_first(s, 1); i < s->count; i = surfaces_next(s, i))
        check_int(HERE, (intmax_t)i, (intmax_t)walk[step++]);
    check_int(HERE, (intmax_t)step, 8);
    for (size_t i = surfaces_first(s, 0); i < s->count; i = surfaces_next(s, i))
        check_int(HERE, (intmax_t)i, (intmax_t)(4 + step++ - 8));
    check_int(HERE, (intmax_t)step, 12);
    check_int(HERE, (intmax_t)surfaces_first(s, 2), (intmax_t)s->count);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(patch_is_spread_over_its_region), CHECK_TEST(regions_go_to_their_schedules),
                     CHECK_TEST(covered_is_taken_off), CHECK_TEST(too_much_covered_is_told),
                     CHECK_TEST(mistakes_in_the_job_are_pointed_at), CHECK_TEST(house_is_3020_square_feet),
                     CHECK_TEST(qty_is_rows), CHECK_TEST(order_of_rows_does_not_matter),
                     CHECK_TEST(splitting_adds_the_cut_faces), CHECK_TEST(each_piece_is_walked_alone));
}
