/* What logs teach: the estimate worked by hand, from draws of a known shop, and against absurd entries. */
#include "check.h"

#include "base/arena.h"
#include "plan/learned.h"

#include <math.h>

struct estimate_row {
    struct row row;
    double ratios[5];
    size_t count;
    double tolerance, want_factor, want_tolerance;
    size_t want_bounded;
};

/* Three coats, tolerance 20 %: logarithms 0.09531, 0.18232, 0.26236, their sum 0.54000, mean 0.18000, squares about it
 * 0.01396. Mean of the estimate 0.54000 / 4 = 0.13500, factor 1.1445. s2 = (4 x 0.005 + 0.01396 + 3/4 x 0.03240) / 7 =
 * 0.008323; tolerance 2 x sqrt(0.008323 x 5/4) = 0.2040.
 * One coat as planned: s2 = 4 x 0.005 / 5 = 0.004; 2 x sqrt(0.004 x 3/2) = 0.1549.
 * One of ten times counts as twice: exp(ln 2 / 2) = 1.4142; s2 = (0.02 + 0.48045 / 2) / 5 = 0.052045; 2 x sqrt(x 3/2) = 0.5588. */
static const struct estimate_row estimates[] = {
    {ROW("none: the table's"), {0}, 0, 0.2, 1, 0.2, 0},
    {ROW("none, another tolerance"), {0}, 0, 0.15, 1, 0.15, 0},
    {ROW("three coats"), {1.1, 1.2, 1.3}, 3, 0.2, 1.1445, 0.2040, 0},
    {ROW("one as planned"), {1}, 1, 0.2, 1, 0.1549, 0},
    {ROW("one of ten times"), {10}, 1, 0.2, 1.4142, 0.5588, 1},
    {ROW("twice is not beyond the bound"), {2}, 1, 0.2, 1.4142, 0.5588, 0},
    {ROW("one of a tenth"), {0.1}, 1, 0.2, 0.7071, 0.5588, 1},
    /* s2 = (0.02 + 4 x 0.48045) / 8 = 0.2427; 2 x sqrt(0.2427 x 6/5) = 1.08: more than a finish may have. */
    {ROW("no two agree"), {10, 0.1, 10, 0.1}, 4, 0.2, 1, 0.95, 4},
    {ROW("one that is next to nothing"), {1e-9}, 1, 0.2, 0.7071, 0.5588, 1},
};

static void estimate_is(void **state)
{
    const struct estimate_row *r = *state;
    struct estimate got = estimate_make(r->ratios, r->count, r->tolerance);
    check_double(&r->row, got.factor, r->want_factor, 5e-5);
    check_double(&r->row, got.tolerance, r->want_tolerance, 5e-5);
    check_int(&r->row, (intmax_t)got.bounded, (intmax_t)r->want_bounded);
    check_int(&r->row, (intmax_t)got.count, (intmax_t)r->count);
}

/* Uniform in (0, 1), from a seed; splitmix64. */
static double draw(uint64_t *seed)
{
    uint64_t z = (*seed += 0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
    z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
    return ((double)((z ^ (z >> 31)) >> 11) + 0.5) * 0x1p-53;
}

static double draw_normal(uint64_t *seed)
{
    double radius = sqrt(-2 * log(draw(seed)));
    return radius * cos(6.283185307179586 * draw(seed));
}

struct shop_row {
    struct row row;
    double log_factor, deviation; /* of the shop, and of its coats about it */
};

static const struct shop_row shops[] = {
    {ROW("as the table"), 0, 0.08},
    {ROW("takes more"), 0.14, 0.06},
    {ROW("takes less, and at random"), -0.1, 0.1},
};

/* m = n a / (n + 1) misses the truth t by t / (n + 1) on average, and its own deviation is d sqrt(n) / (n + 1): the square of its
 * error is (t^2 + n d^2) / (n + 1)^2. The spread of a coat goes to d. */
static void error_falls(void **state)
{
    enum { DRAWS = 4000, MOST = 64 };
    const struct shop_row *r = *state;
    uint64_t seed = 20270301;
    double before = INFINITY;
    for (size_t n = 1; n <= MOST; n *= 2) {
        double squares = 0, tolerance = 0;
        for (int i = 0; i < DRAWS; i++) {
            double ratios[MOST];
            for (size_t k = 0; k < n; k++)
                ratios[k] = exp(r->log_factor + r->deviation * draw_normal(&seed));
            struct estimate estimate = estimate_make(ratios, n, 0.2);
            squares += pow(log(estimate.factor) - r->log_factor, 2) / DRAWS;
            tolerance += estimate.tolerance / DRAWS;
        }
        double weight = (double)n + 1;
        double want = (pow(r->log_factor, 2) + (double)n * pow(r->deviation, 2)) / (weight * weight);
        check_double(&r->row, sqrt(squares / want), 1, 0.05);
        check_true(&r->row, n == 1 || squares < before, "less error with twice the coats");
        if (n == MOST)
            check_double(&r->row, tolerance / (2 * r->deviation), 1, 0.12);
        before = squares;
    }
}

/* One entry of ten times, or of a tenth, in the place of any other moves the factor by 4^(1/(n+1)) at most, and by
 * 2^(1/(n+1)) where it should have been as planned. */
static void absurd_is_bounded(void **state)
{
    static const struct row row = ROW("one absurd entry");
    uint64_t seed = 7;
    (void)state;
    for (size_t n = 1; n <= 40; n++) {
        double ratios[40], most = 0;
        for (int i = 0; i < 50; i++) {
            for (size_t k = 0; k < n; k++)
                ratios[k] = exp(0.4 * draw_normal(&seed));
            size_t which = (size_t)(draw(&seed) * (double)n);
            double right = log(estimate_make(ratios, n, 0.2).factor), was = ratios[which];
            for (int tenth = 0; tenth < 2; tenth++) {
                ratios[which] = tenth ? was / 10 : was * 10;
                most = fmax(most, fabs(log(estimate_make(ratios, n, 0.2).factor) - right));
            }
        }
        check_true(&row, most <= log(4) / (double)(n + 1) + 1e-12, "within 4^(1/(n+1))");
        check_true(&row, most > log(2) / (double)(n + 1), "the bound is not an idle one");
        for (size_t k = 0; k < n; k++)
            ratios[k] = 1;
        ratios[0] = 10;
        check_double(&row, log(estimate_make(ratios, n, 0.2).factor), log(2) / (double)(n + 1), 1e-12);
    }
}

struct loss_row {
    struct row row;
    double laid[6], used[6];
    size_t count;
    double want_l;
    size_t want_seen;
};

/* Used = 1.2 x laid + 0.030 l; the table's loss is 0.010 l with the weight of one batch: (0.010 + 4 x 0.030) / 5 = 0.026 and
 * (0.010 + 5 x 0.030) / 6 = 0.02667. */
static const struct loss_row losses[] = {
    {ROW("three batches are too few"), {0.1, 0.2, 0.4}, {0.15, 0.27, 0.51}, 3, 0.010, 0},
    {ROW("four of nearly one size"), {0.1, 0.11, 0.12, 0.13}, {0.15, 0.162, 0.174, 0.186}, 4, 0.010, 0},
    {ROW("four"), {0.1, 0.2, 0.3, 0.4}, {0.15, 0.27, 0.39, 0.51}, 4, 0.026, 4},
    {ROW("exactly three times as much"), {1, 1.5, 2, 3}, {1.23, 1.83, 2.43, 3.63}, 4, 0.026, 4},
    {ROW("one of five is ten times"),
     {0.1, 0.2, 0.3, 0.4, 0.5},
     {0.15, 0.27, 3.9, 0.51, 0.63},
     5,
     0.0266667,
     5},
    {ROW("never below nothing"), {0.1, 0.2, 0.3, 0.4}, {0.05, 0.25, 0.45, 0.65}, 4, 0.002, 4},
};

static void loss_is(void **state)
{
    const struct loss_row *r = *state;
    struct arena *arena = arena_make(0);
    struct learned_batch batches[6];
    size_t seen;
    for (size_t i = 0; i < r->count; i++)
        batches[i] = (struct learned_batch){.used_l = r->used[i], .laid_l = r->laid[i], .share = 1};
    check_double(&r->row, learned_loss(arena, batches, r->count, 0.010, &seen), r->want_l, 1e-6);
    check_int(&r->row, (intmax_t)seen, (intmax_t)r->want_seen);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(estimates, estimate_is), CHECK_ROWS(shops, error_falls),
                     CHECK_TEST(absurd_is_bounded), CHECK_ROWS(losses, loss_is));
}
