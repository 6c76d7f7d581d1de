#include "check.h"

#include "base/arena.h"
#include "base/buf.h"

#include <setjmp.h>
#include <string.h>

static void adds_in_order(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct buf buf;
    buf_init(&buf, arena);
    check_text(HERE, buf.text, "");
    buf_add(&buf, "oak");
    buf_add_char(&buf, ',');
    buf_add_n(&buf, "ash tree", 3);
    buf_add_repeat(&buf, '.', 3);
    buf_add_repeat(&buf, '.', 0);
    buf_addf(&buf, "%d%s", 7, "");
    check_text(HERE, buf.text, "oak,ash...7");
    check_int(HERE, (intmax_t)buf.length, 11);
    arena_free(arena);
}

/* Every length around the growth of the storage, by each way of adding. */
static void grows_at_every_length(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    for (size_t first = 0; first < 140; first++)
        for (size_t then = 0; then < 140; then += 23) {
            struct buf buf;
            buf_init(&buf, arena);
            buf_add_repeat(&buf, 'a', first);
            buf_addf(&buf, "%*s", (int)then, "");
            buf_add_n(&buf, "z", 1);
            check_int(HERE, (intmax_t)buf.length, (intmax_t)(first + then + 1));
            check_int(HERE, (intmax_t)strlen(buf.text), (intmax_t)buf.length);
            check_int(HERE, (intmax_t)strspn(buf.text, "a"), (intmax_t)first);
            check_int(HERE, buf.text[buf.length - 1], 'z');
            check_true(HERE, buf.length < buf.capacity, "room for the end");
        }
    arena_free(arena);
}

static void holds_a_nul(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct buf buf;
    buf_init(&buf, arena);
    buf_add_n(&buf, "a\0b", 3);
    check_int(HERE, (intmax_t)buf.length, 3);
    check_int(HERE, memcmp(buf.text, "a\0b", 4), 0);
    arena_free(arena);
}

static void ceiling_escapes(void **state)
{
    (void)state;
    struct arena *arena = arena_make(4096);
    struct buf buf;
    jmp_buf escape;
    volatile int added = 0;
    if (setjmp(escape) == 0) {
        arena_guard(arena, &escape);
        buf_init(&buf, arena);
        for (; added < 100000; added++)
            buf_addf(&buf, "line %d\n", 5);
    }
    check_true(HERE, added > 100 && added < 600, "ran out in between");
    check_true(HERE, arena_used(arena) <= 4096, "within the ceiling");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(adds_in_order), CHECK_TEST(grows_at_every_length), CHECK_TEST(holds_a_nul),
                     CHECK_TEST(ceiling_escapes));
}
