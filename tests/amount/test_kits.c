/* Kits and packs together, against plain enumeration. */
#include "check.h"
#include "sample_store.h"

#include "amount/packs.h"
#include "base/arena.h"

#include <string.h>

/* Plain enumeration of kits and packs of two components. */
struct plain {
    const struct sample_store *s;
    int kit_count, need[2];
    long best[3];
};

static bool is_less(const long *a, const long *b)
{
    for (int i = 0; i < 3; i++)
        if (a[i] != b[i])
            return a[i] < b[i];
    return false;
}

/* The packs of one component by plain enumeration, added to `worth`; false: it cannot be covered. */
static bool add_packs(const struct pack *packs, int count, int need, long *worth)
{
    long best[3] = {1000000000, 0, 0};
    int ml[3] = {0}, most[3] = {0};
    for (int i = 0; i < count; i++) {
        ml[i] = (int)(packs[i].size_l * 1000 + 0.5);
        most[i] = need > 0 ? (need + ml[i] - 1) / ml[i] : 0;
    }
    for (int a = 0; a <= most[0]; a++)
        for (int b = 0; b <= most[1]; b++)
            for (int c = 0; c <= most[2]; c++) {
                long held = (long)a * ml[0] + (long)b * ml[1] + (long)c * ml[2];
                long cents = 0;
                int n[3] = {a, b, c};
                for (int i = 0; i < count; i++)
                    cents += n[i] * (long)packs[i].price_cents;
                long now[3] = {cents, a + b + c, held};
                if (held >= need && is_less(now, best))
                    memcpy(best, now, sizeof best);
            }
    for (int i = 0; i < 3; i++)
        worth[i] += best[i];
    return best[0] < 1000000000;
}

static void enumerate(struct plain *p)
{
    for (int k = 0; k <= 12; k++)
        for (int m = 0; m <= (p->kit_count > 1 ? 12 : 0); m++) {
            long worth[3] = {0, k + m, 0};
            int left[2];
            for (int i = 0; i < 2; i++) {
                long kits_ml = k * (long)(p->s->contents[0][i] * 1000 + 0.5) +
                               m * (long)(p->s->contents[1][i] * 1000 + 0.5);
                left[i] = (int)(p->need[i] > kits_ml ? p->need[i] - kits_ml : 0);
                worth[2] += kits_ml;
            }
            worth[0] = k * (long)p->s->kits[0].price_cents + m * (long)p->s->kits[1].price_cents;
            bool covered = add_packs(p->s->oil, (int)p->s->components[0].pack_count, left[0], worth) &&
                           add_packs(p->s->hardener, (int)p->s->components[1].pack_count, left[1], worth);
            if (covered && is_less(worth, p->best))
                memcpy(p->best, worth, sizeof p->best);
        }
}

static void random_store(struct sample_store *s, uint64_t *seed)
{
    sample_store(s);
    for (int i = 0; i < 3; i++) {
        double litres = check_random_int(seed, 2, 12) * 0.125;
        int cents = check_random_int(seed, 5, 60) * 100;
        s->oil[i] = (struct pack){litres, cents, "o"};
    }
    for (int i = 0; i < 2; i++) {
        double litres = check_random_int(seed, 1, 6) * 0.1;
        int cents = check_random_int(seed, 5, 60) * 100;
        s->hardener[i] = (struct pack){litres, cents, "h"};
    }
    s->components[0].pack_count = (size_t)check_random_int(seed, 0, 3);
    s->components[1].pack_count = (size_t)check_random_int(seed, 0, 2);
    for (int k = 0; k < 2; k++) {
        s->contents[k][0] = check_random_int(seed, 1, 8) * 0.125;
        s->contents[k][1] = check_random_int(seed, 1, 5) * 0.1;
        s->kits[k] = (struct kit){s->contents[k], check_random_int(seed, 10, 90) * 100, "k"};
    }
    s->finish.kits = s->kits;
    s->finish.kit_count = (size_t)check_random_int(seed, 1, 2);
}

static void kits_agree_with_enumeration(void **state)
{
    (void)state;
    uint64_t seed = 2026;
    for (int trial = 0; trial < 300; trial++) {
        uint64_t was = seed;
        struct arena *arena = arena_make(0);
        struct sample_store s;
        random_store(&s, &seed);
        struct plain p = {&s, (int)s.finish.kit_count, {0}, {1000000000, 0, 0}};
        p.need[0] = check_random_int(&seed, 0, 1000);
        p.need[1] = check_random_int(&seed, 0, 900);
        enumerate(&p);
        int64_t need[2] = {p.need[0], p.need[1]};
        struct basket basket = basket_choose(arena, &s.finish, need);
        long got[3] = {0}, held[2] = {0};
        for (size_t k = 0; k < s.finish.kit_count; k++) {
            got[0] += basket.kits[k] * (long)s.kits[k].price_cents;
            got[1] += basket.kits[k];
            for (int i = 0; i < 2; i++)
                held[i] += basket.kits[k] * (long)(s.contents[k][i] * 1000 + 0.5);
        }
        for (int i = 0; i < 2; i++)
            for (size_t k = 0; k < s.components[i].pack_count; k++) {
                got[0] += basket.packs[i][k] * (long)s.components[i].packs[k].price_cents;
                got[1] += basket.packs[i][k];
                held[i] += basket.packs[i][k] * (long)(s.components[i].packs[k].size_l * 1000 + 0.5);
            }
        got[2] = held[0] + held[1];
        if (held[0] < p.need[0] || held[1] < p.need[1] || memcmp(got, p.best, sizeof got) != 0 ||
            !basket.exact)
            fail_msg("seed %ju: got %ld %ld %ld, want %ld %ld %ld", (uintmax_t)was, got[0], got[1], got[2],
                     p.best[0], p.best[1], p.best[2]);
        arena_free(arena);
    }
}

/* 1 l of oil and 125 ml of hardener: 55.00 + 15.00 in two packs, or 45.00 + 25.00 in a kit of 625 + 125 ml and 375 ml of oil. */
static void packs_before_kits_of_the_same_worth(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct sample_store s;
    sample_store(&s);
    s.contents[0][0] = 0.625;
    s.kits[0].price_cents = 4500;
    s.finish.kits = s.kits;
    s.finish.kit_count = 1;
    struct basket basket = basket_choose(arena, &s.finish, (int64_t[]){1000, 125});
    check_int(HERE, basket.kits[0], 0);
    check_int(HERE, basket.packs[0][1], 1);
    check_int(HERE, basket.packs[1][0], 1);
    s.kits[0].price_cents = 4499; /* a cent less */
    basket = basket_choose(arena, &s.finish, (int64_t[]){1000, 125});
    check_int(HERE, basket.kits[0], 1);
    check_int(HERE, basket.packs[0][0], 1);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(packs_before_kits_of_the_same_worth),
                     CHECK_TEST(kits_agree_with_enumeration));
}
