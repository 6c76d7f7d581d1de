/* The cheapest packs, by hand and against plain enumeration. */
#include "check.h"

#include "amount/packs.h"
#include "base/arena.h"

#include <stdio.h>

enum { PACKS_MOST = 4 };

struct choice_row {
    struct row row;
    double need_ml;
    struct {
        double ml;
        int cents;
    } packs[PACKS_MOST];
    int want[PACKS_MOST];
};

static const struct choice_row choices[] = {
    {ROW("nothing"), 0, {{500, 1450}, {1000, 2400}}, {0, 0}},
    {ROW("one small"), 480, {{500, 1450}, {1000, 2400}}, {1, 0}},
    {ROW("one large is cheaper than two small"), 600, {{500, 1450}, {1000, 2400}}, {0, 1}},
    {ROW("to the millilitre"), 1000, {{500, 1450}, {1000, 2400}}, {0, 1}},
    {ROW("a millilitre more"), 1001, {{500, 1450}, {1000, 2400}}, {1, 1}},
    /* the greedy way would take 1 l + 2 x 0.25 l at 34.00 */
    {ROW("not the greedy way"), 1500, {{250, 500}, {750, 1000}, {1000, 2400}}, {0, 2, 0}},
    {ROW("equal price: fewer packs"), 1000, {{500, 1000}, {1000, 2000}}, {0, 1}},
    {ROW("equal price and number: less left over"), 700, {{750, 1000}, {1000, 1000}}, {1, 0}},
    {ROW("without prices: least left over"), 1100, {{375, -1}, {1000, -1}}, {3, 0}},
    {ROW("without prices: then fewest packs"), 1000, {{250, -1}, {500, -1}, {1000, -1}}, {0, 0, 1}},
    {ROW("one price missing is as none"), 1100, {{375, 1}, {1000, -1}}, {3, 0}},
    {ROW("US cans hold no whole millilitres"), 1892, {{946.352946, 1800}, {3785.411784, 4500}}, {2, 0}},
    {ROW("their fractions are not counted on"), 1892.5, {{946.352946, 1800}, {3785.411784, 4500}}, {0, 1}},
};

static size_t packs_of(const struct choice_row *r, struct pack *packs)
{
    size_t count = 0;
    for (; count < PACKS_MOST && r->packs[count].ml > 0; count++)
        packs[count] = (struct pack){r->packs[count].ml / 1000, r->packs[count].cents, "can"};
    return count;
}

static void choice_is(void **state)
{
    const struct choice_row *r = *state;
    struct arena *arena = arena_make(0);
    struct pack packs[PACKS_MOST];
    int counts[PACKS_MOST] = {0};
    size_t count = packs_of(r, packs);
    packs_choose(arena, packs, count, r->need_ml / 1000, counts);
    arena_free(arena);
    for (size_t i = 0; i < count; i++)
        check_int(&r->row, counts[i], r->want[i]);
}

/* Plain enumeration: every number of every pack up to one that covers alone. Worth as the contract orders it. */
struct plain {
    int ml[PACKS_MOST], cents[PACKS_MOST];
    int count, need;
    bool priced;
    long best[3];
};

static void enumerate(struct plain *p, int i, long ml, long cents, long number)
{
    if (i == p->count) {
        long worth[3] = {p->priced ? cents : ml, number, p->priced ? ml : 0};
        bool less = worth[0] < p->best[0] ||
                    (worth[0] == p->best[0] &&
                     (worth[1] < p->best[1] || (worth[1] == p->best[1] && worth[2] < p->best[2])));
        for (int k = 0; ml >= p->need && less && k < 3; k++)
            p->best[k] = worth[k];
        return;
    }
    for (int n = 0; n <= (p->need + p->ml[i] - 1) / p->ml[i]; n++)
        enumerate(p, i + 1, ml + (long)n * p->ml[i], cents + (long)n * p->cents[i], number + n);
}

static void random_plain(struct plain *p, struct pack *packs, uint64_t *seed)
{
    p->count = check_random_int(seed, 1, PACKS_MOST);
    p->need = check_random_int(seed, 0, 900);
    p->priced = check_random_int(seed, 0, 3) > 0;
    for (int i = 0; i < p->count; i++) {
        p->ml[i] = check_random_int(seed, 0, 1) ? check_random_int(seed, 1, 8) * 125
                                                : check_random_int(seed, 40, 999);
        p->cents[i] = check_random_int(seed, 0, 20) * 100;
        packs[i] = (struct pack){p->ml[i] / 1000.0, p->priced ? p->cents[i] : -1, "can"};
    }
    p->best[0] = p->best[1] = p->best[2] = 1000000000;
}

static void agrees_with_enumeration(void **state)
{
    (void)state;
    uint64_t seed = 99;
    for (int trial = 0; trial < 1500; trial++) {
        uint64_t was = seed;
        struct arena *arena = arena_make(0);
        struct pack packs[PACKS_MOST];
        struct plain p;
        int counts[PACKS_MOST];
        random_plain(&p, packs, &seed);
        enumerate(&p, 0, 0, 0, 0);
        packs_choose(arena, packs, (size_t)p.count, p.need / 1000.0, counts);
        long ml = 0, cents = 0, number = 0;
        for (int i = 0; i < p.count; i++) {
            ml += (long)counts[i] * p.ml[i];
            cents += (long)counts[i] * p.cents[i];
            number += counts[i];
        }
        long got[3] = {p.priced ? cents : ml, number, p.priced ? ml : 0};
        if (ml < p.need || got[0] != p.best[0] || got[1] != p.best[1] || got[2] != p.best[2])
            fail_msg("seed %ju: got %ld %ld %ld, want %ld %ld %ld", (uintmax_t)was, got[0], got[1], got[2],
                     p.best[0], p.best[1], p.best[2]);
        arena_free(arena);
    }
}

/* More is never cheaper. */
static void worth_never_falls(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    static const struct pack packs[] = {{0.25, 700, "s"}, {0.75, 1500, "m"}, {2.5, 4100, "l"}};
    struct pack_table table = pack_table_make(arena, packs, 3, 20000, true);
    for (int ml = 1; ml <= 20000; ml++)
        check_true(HERE, worth_compare(pack_table_at(&table, ml - 1), pack_table_at(&table, ml)) <= 0,
                   "monotone");
    arena_free(arena);
}

static void no_packs_no_choice(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct pack_table table = pack_table_make(arena, NULL, 0, 500, true);
    check_int(HERE, worth_compare(pack_table_at(&table, 0), (struct worth){{0, 0, 0}}), 0);
    check_int(HERE, worth_compare(pack_table_at(&table, 1), WORTH_NONE), 0);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(choices, choice_is), CHECK_TEST(agrees_with_enumeration),
                     CHECK_TEST(worth_never_falls), CHECK_TEST(no_packs_no_choice));
}
