/* What the search keeps: reasons of any length in the trail, one behind the other, in room of its own; learned clauses and
 * their atoms. */
#include "check.h"

#include "base/arena.h"
#include "solver/engine/clause.h"

#include <string.h>

enum { VARIABLES = 200, LONGEST = 4, BYTES = 16 };

/* Reasons of 0 to 4 literals, and behind each what somebody else keeps in the same memory: both stay as they are. */
static void reasons_stay_apart(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct trail trail;
    unsigned char *others[VARIABLES], want[BYTES];
    memset(want, 0xA5, sizeof want);
    trail_init(&trail, arena, VARIABLES);
    for (int v = 0; v < VARIABLES; v++)
        trail_domain(&trail, v, 0, 1000);
    for (int v = 0; v < VARIABLES; v++) {
        struct literal reason[LONGEST];
        for (int k = 0; k < LONGEST; k++)
            reason[k] = at_least(v, 10 * v + k);
        check_true(HERE, trail_infer(&trail, at_least(v, 1), reason, (size_t)(v * v) % (LONGEST + 1)), "set");
        others[v] = memcpy(arena_alloc(arena, 1, BYTES), want, BYTES);
    }
    for (int v = 0; v < VARIABLES; v++) {
        check_true(HERE, memcmp(others[v], want, BYTES) == 0, "what is not the trail's stays");
        const struct trail_entry *entry = &trail.entries[trail_find(&trail, at_least(v, 1))];
        const struct literal *list = &trail.lists[entry->reason.index];
        check_int(HERE, entry->reason.kind, REASON_LIST);
        check_int(HERE, list[0].bound, v * v % (LONGEST + 1));
        for (int k = 0; k < list[0].bound; k++)
            check_int(HERE, list[1 + k].value, 10 * v + k);
    }
    arena_free(arena);
}

/* The second atom has been of use twice and the first once: it comes first. After very many conflicts neither counts any more: the older
 * one does. */
static void of_equal_atoms_the_older_one(void **state)
{
    static const struct {
        int conflicts, first;
    } rows[] = {{1, 1}, {500, 0}};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *arena = arena_make(0);
        struct trail trail;
        struct atoms atoms;
        struct literal next;
        trail_init(&trail, arena, 2);
        atoms_init(&atoms, arena, 2);
        for (int v = 0; v < 2; v++) {
            trail_domain(&trail, v, 0, 10);
            for (int times = 0; times <= v; times++)
                atoms_bump(&atoms, at_least(v, 5));
        }
        for (int n = 0; n < rows[i].conflicts; n++)
            atoms_decay(&atoms);
        for (int n = 0; n < 2; n++) {
            check_true(HERE, atoms_next(&atoms, &trail, &next), "both are open");
            check_int(HERE, next.bound / 2, n == 0 ? rows[i].first : 1 - rows[i].first);
        }
        check_true(HERE, !atoms_next(&atoms, &trail, &next), "there are no others");
        arena_free(arena);
    }
}

/* No atom has been of use, so that all are dropped: there are two again, those of the clause that stays. */
static void atoms_of_what_stays(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct trail trail;
    struct atoms atoms;
    struct clauses clauses;
    struct literal either[] = {at_least(1, 5), at_most(2, 4)};
    trail_init(&trail, arena, 3);
    for (int v = 0; v < 3; v++)
        trail_domain(&trail, v, 0, 10);
    atoms_init(&atoms, arena, 3);
    clauses_init(&clauses, &atoms, arena);
    clauses_add(&clauses, either, 2, 2);
    check_int(HERE, (intmax_t)atoms.count, 2);
    clauses_reduce(&clauses, &trail);
    check_int(HERE, (intmax_t)clauses.count, 1);
    check_int(HERE, (intmax_t)atoms.count, 2);
    arena_free(arena);
}

/* Of three atoms the first and the last took part in a conflict: these stay, as 0 and 1, and whoever asks for their numbers may take
 * room for something else before. */
static void numbers_stay_as_they_are(void **state)
{
    static const int want[] = {0, -1, 1};
    (void)state;
    struct arena *arena = arena_make(0);
    struct trail trail;
    struct atoms atoms;
    trail_init(&trail, arena, 3);
    atoms_init(&atoms, arena, 3);
    for (int v = 0; v < 3; v++) {
        trail_domain(&trail, v, 0, 10);
        (void)atoms_of(&atoms, at_least(v, 5));
    }
    atoms_bump(&atoms, at_least(0, 5));
    atoms_bump(&atoms, at_least(2, 5));
    atoms_reduce(&atoms, &trail);
    (void)arena_alloc(arena, 3, BYTES);
    check_int(HERE, (intmax_t)atoms.count, 2);
    for (int i = 0; i < 3; i++)
        check_int(HERE, atoms.renumbered[i], want[i]);
    arena_free(arena);
}

/* Clauses of three levels are used 2, 1 and 0 times in conflicts: the more active half stays, the first two, and the next time the first.
 * The clause of two levels stays for good, though nobody used it. */
static void the_less_active_half_goes(void **state)
{
    static const struct {
        int32_t lbd;
        int uses;
    } rows[] = {{3, 2}, {3, 1}, {2, 0}, {3, 0}};
    static const int want[2][3] = {{0, 1, 2}, {0, 2}};
    (void)state;
    struct arena *arena = arena_make(0);
    struct trail trail;
    struct atoms atoms;
    struct clauses clauses;
    int32_t learned[4];
    trail_init(&trail, arena, 5);
    for (int v = 0; v < 5; v++)
        trail_domain(&trail, v, 0, 10);
    atoms_init(&atoms, arena, 5);
    clauses_init(&clauses, &atoms, arena);
    for (int n = 0; n < 4; n++) {
        struct literal either[] = {at_least(n, 5), at_most(n + 1, 4)};
        learned[n] = clauses_add(&clauses, either, 2, rows[n].lbd);
    }
    for (int n = 0; n < 4; n++)
        for (int use = 0; use < rows[n].uses; use++)
            clauses_bump(&clauses, learned[n]);
    for (int time = 0; time < 2; time++) {
        clauses_reduce(&clauses, &trail);
        check_int(HERE, (intmax_t)clauses.count, 3 - time);
        for (size_t i = 0; i < clauses.count; i++)
            check_int(HERE, clauses.pool[clauses.items[i].at].bound, at_least(want[time][i], 5).bound);
    }
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(reasons_stay_apart), CHECK_TEST(of_equal_atoms_the_older_one),
                     CHECK_TEST(atoms_of_what_stays), CHECK_TEST(numbers_stay_as_they_are),
                     CHECK_TEST(the_less_active_half_goes));
}
