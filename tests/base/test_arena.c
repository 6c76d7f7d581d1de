#include "check.h"

#include "base/arena.h"

#include <setjmp.h>
#include <stdalign.h>
#include <string.h>
#ifdef __SANITIZE_ADDRESS__
#include <sanitizer/asan_interface.h>
#define IS_BARRED(at) (__asan_address_is_poisoned(at) != 0)
#else
#define IS_BARRED(at) ((void)(at), true) /* only the address sanitizer can know */
#endif

static void zeroed_aligned_and_apart(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    unsigned char *before = NULL;
    for (size_t size = 1; size < 300; size++) {
        unsigned char *at = arena_alloc(arena, size, 1);
        check_int(HERE, (intmax_t)((uintptr_t)at % alignof(max_align_t)), 0);
        for (size_t i = 0; i < size; i++)
            check_int(HERE, at[i], 0);
        check_true(HERE, IS_BARRED(at + size), "the byte after it");
        memset(at, 0xAA, size);
        check_true(HERE, !before || before[0] == 0xAA, "the one before is whole");
        before = at;
    }
    const char *nothing = arena_alloc(arena, 0, 8);
    check_true(HERE, nothing != NULL, "nothing has an address too");
    check_true(HERE, IS_BARRED(nothing), "at which nothing may be touched");
    arena_free(arena);
    arena_free(NULL);
}

static void larger_than_a_block(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    char *small = arena_text(arena, "small");
    char *large = arena_alloc(arena, 1000000, 1);
    memset(large, 1, 1000000);
    check_text(HERE, small, "small");
    check_text(HERE, arena_textf(arena, "%s and %d", small, 7), "small and 7");
    const char *part = arena_text_n(arena, "small", 3);
    check_text(HERE, part, "sma");
    check_true(HERE, IS_BARRED(part + 4), "the byte after its end");
    check_true(HERE, arena_used(arena) >= 1000000, "counted");
    arena_free(arena);
}

static void arrays_grow(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    int *items = NULL;
    size_t count = 0, capacity = 0;
    for (int i = 0; i < 1000; i++) {
        items = arena_grow(arena, items, count, &capacity, sizeof *items);
        items[count++] = i;
    }
    for (int i = 0; i < 1000; i++)
        check_int(HERE, items[i], i);
    check_true(HERE, capacity >= 1000, "room");
    arena_free(arena);
}

/* Tries to take `size` bytes; whether the escape was taken. */
static bool escapes(struct arena *arena, size_t count, size_t size)
{
    jmp_buf escape;
    if (setjmp(escape))
        return true;
    arena_guard(arena, &escape);
    memset(arena_alloc(arena, count, size), 1, count * size);
    return false;
}

static void ceiling_holds(void **state)
{
    (void)state;
    struct arena *arena = arena_make(10000);
    check_true(HERE, !escapes(arena, 1, 4000), "fits");
    check_true(HERE, !escapes(arena, 1, 4000), "fits too");
    check_true(HERE, escapes(arena, 1, 4000), "too much");
    check_true(HERE, !escapes(arena, 1, 1000), "a small one still fits");
    check_true(HERE, arena_used(arena) <= 10000, "never above");
    check_true(HERE, escapes(arena, SIZE_MAX / 4, 8), "a product that wraps around");
    check_true(HERE, escapes(arena, 1, SIZE_MAX - 4), "a size that wraps around");
    arena_free(arena);
}

/* Whether the work succeeds under a ceiling; never more is used. */
static bool works_under(size_t ceiling)
{
    struct arena *arena = arena_make(ceiling);
    jmp_buf escape;
    volatile bool done = false;
    if (setjmp(escape) == 0) {
        arena_guard(arena, &escape);
        for (int i = 0; i < 10; i++)
            arena_textf(arena, "line %d of some length, to be kept", i);
        done = true;
    }
    check_true(HERE, arena_used(arena) <= ceiling, "within the ceiling");
    arena_free(arena);
    return done;
}

static void ceiling_walked(void **state)
{
    (void)state;
    size_t ceiling = 1;
    while (ceiling < 4000 && !works_under(ceiling))
        ceiling += 7;
    check_true(HERE, ceiling < 4000, "some ceiling suffices");
    check_true(HERE, ceiling > (size_t)10 * 33, "but not any");
}

struct log {
    char order[8];
    size_t count;
};

struct thing {
    struct log *log;
    char name;
};

static void release(void *object)
{
    const struct thing *thing = object;
    thing->log->order[thing->log->count++] = thing->name;
}

static void owned_is_released_newest_first(void **state)
{
    (void)state;
    struct log log = {"", 0};
    struct thing a = {&log, 'a'}, b = {&log, 'b'}, c = {&log, 'c'};
    struct arena *arena = arena_make(0);
    arena_own(arena, &a, release);
    arena_own(arena, &b, release);
    arena_own(arena, &c, release);
    arena_disown(arena, &b);
    check_int(HERE, (intmax_t)log.count, 0);
    arena_free(arena);
    check_text(HERE, log.order, "ca");
}

static void owned_is_released_when_its_note_does_not_fit(void **state)
{
    (void)state;
    struct log log = {"", 0};
    struct thing a = {&log, 'a'};
    struct arena *arena = arena_make(8);
    jmp_buf escape;
    volatile bool escaped = true;
    if (setjmp(escape) == 0) {
        arena_guard(arena, &escape);
        arena_own(arena, &a, release);
        escaped = false;
    }
    check_true(HERE, escaped, "escaped");
    check_text(HERE, log.order, "a");
    arena_free(arena);
    check_int(HERE, (intmax_t)log.count, 1);
}

static void an_arena_within_escapes_and_ends_with_its_owner(void **state)
{
    (void)state;
    struct log log = {"", 0};
    struct thing a = {&log, 'a'}, b = {&log, 'b'};
    struct arena *owner = arena_make(0);
    jmp_buf escape;
    volatile bool escaped = true;
    if (setjmp(escape) == 0) {
        arena_guard(owner, &escape);
        struct arena *first = arena_make_within(owner, 0);
        arena_own(first, &a, release);
        arena_free_within(owner, first);
        check_text(HERE, log.order, "a");
        struct arena *second = arena_make_within(owner, 1000);
        arena_own(second, &b, release);
        arena_alloc(second, 1, 2000);
        escaped = false;
    }
    check_true(HERE, escaped, "through the guard of the owner");
    arena_free(owner);
    check_text(HERE, log.order, "ab");
}

static void no_room_for_an_arena_within(void **state)
{
    (void)state;
    struct arena *owner = arena_make(8);
    jmp_buf escape;
    volatile bool escaped = true;
    if (setjmp(escape) == 0) {
        arena_guard(owner, &escape);
        arena_make_within(owner, 0);
        escaped = false;
    }
    check_true(HERE, escaped, "escaped");
    arena_free(owner);
}

static void an_arena_within_is_charged_to_its_owners(void **state)
{
    (void)state;
    struct arena *owner = arena_make(400000);
    arena_text(owner, "kept");
    size_t before = arena_used(owner);
    struct arena *middle = arena_make_within(owner, 0), *inner = arena_make_within(middle, 300000);
    arena_alloc(inner, 1, 100000);
    check_true(HERE, arena_used(owner) >= before + 100000, "the outermost counts it");
    check_true(HERE, arena_used(middle) >= 100000 && arena_used(middle) < arena_used(owner),
               "the middle too");
    check_true(HERE, escapes(owner, 1, 300000), "the owner has less left");
    arena_free_within(middle, inner);
    arena_free_within(owner, middle);
    check_int(HERE, (intmax_t)arena_used(owner), (intmax_t)before);
    check_true(HERE, !escapes(owner, 1, 300000), "given back");
    arena_free(owner);
}

/* No arena within another takes more than the outermost may hold, whatever it may hold itself. */
static void the_ceiling_of_an_owner_holds_within(void **state)
{
    (void)state;
    struct arena *owner = arena_make(50000);
    jmp_buf escape;
    volatile size_t taken = 0;
    if (setjmp(escape) == 0) {
        arena_guard(owner, &escape);
        struct arena *inner = arena_make_within(arena_make_within(owner, 0), 1 << 20);
        for (;; taken += 1000)
            arena_alloc(inner, 1, 1000);
    }
    check_true(HERE, taken >= 40000 && taken < 50000, "about all that the owner has");
    check_true(HERE, arena_used(owner) <= 50000, "never above");
    arena_free(owner);
}

struct trial {
    struct arena *owner;
    struct thing *lent;
    size_t ceiling, bytes;
    const char *best;
};

static void try_work(void *call)
{
    struct trial *trial = call;
    struct arena *scratch = arena_make_within(trial->owner, trial->ceiling);
    trial->best = arena_text(trial->owner, "a first result");
    arena_own(trial->owner, trial->lent, release);
    arena_make_within(trial->owner, 0);
    arena_alloc(scratch, 1, trial->bytes);
    arena_free_within(trial->owner, scratch);
    trial->best = arena_text(trial->owner, "a better one");
}

static void a_trial_that_runs_out_keeps_what_it_had(void **state)
{
    (void)state;
    struct log log = {"", 0};
    struct thing a = {&log, 'a'}, b = {&log, 'b'};
    struct arena *owner = arena_make(400000);
    arena_alloc(owner, 1, 1000);
    struct trial trial = {.owner = owner, .lent = &a, .bytes = 500000};
    size_t before = arena_used(owner);
    check_true(HERE, !arena_try(owner, try_work, &trial), "the owner's ceiling");
    check_text(HERE, trial.best, "a first result");
    check_text(HERE, log.order, "a");
    check_int(HERE, (intmax_t)arena_used(owner), (intmax_t)before);
    trial.bytes = 2000;
    trial.ceiling = 1000;
    check_true(HERE, !arena_try(owner, try_work, &trial), "its own ceiling");
    trial.lent = &b;
    trial.ceiling = 100000;
    check_true(HERE, arena_try(owner, try_work, &trial), "enough of both");
    check_text(HERE, trial.best, "a better one");
    check_text(HERE, log.order, "aa");
    check_true(HERE, escapes(owner, 1, 500000), "the guard of before is set again, or a new one may be");
    arena_free(owner);
    check_text(HERE, log.order, "aab");
}

int main(void)
{
    return CHECK_ALL(
        CHECK_TEST(an_arena_within_is_charged_to_its_owners),
        CHECK_TEST(the_ceiling_of_an_owner_holds_within), CHECK_TEST(a_trial_that_runs_out_keeps_what_it_had),
        CHECK_TEST(zeroed_aligned_and_apart), CHECK_TEST(larger_than_a_block), CHECK_TEST(arrays_grow),
        CHECK_TEST(ceiling_holds), CHECK_TEST(ceiling_walked), CHECK_TEST(owned_is_released_newest_first),
        CHECK_TEST(an_arena_within_escapes_and_ends_with_its_owner), CHECK_TEST(no_room_for_an_arena_within),
        CHECK_TEST(owned_is_released_when_its_note_does_not_fit));
}
