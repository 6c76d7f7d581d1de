#include "check.h"
#include "base/buf.h"
#include "base/arena.h"
static void grows(void **state)
{
    (void)state;
    struct arena *a = arena_make(0);
    struct buf b;
    buf_init(&b, a);
    for (int i = 0; i < 1000; i++)
        buf_addf(&b, "%d ", i % 10);
    check_int(HERE, (intmax_t)b.length, 2000);
    arena_free(a);
}
int main(void)
{
    return CHECK_ALL(CHECK_TEST(grows));
}
