/* The texts of a new job: what is said of its pieces, where anything is. */
#include "check.h"
#include "sample.h"

#include "base/arena.h"
#include "base/buf.h"
#include "source/job_file.h"

#include <string.h>

struct pieces_row {
    struct row row;
    const char *flat[2], *inner[2]; /* names, NULL: none */
    bool inside;                    /* the inside has a finish of its own */
    const char *want;               /* the pieces in the text, without its blanks */
};

static const struct pieces_row pieces[] = {
    {ROW("nothing to say"), {NULL}, {NULL}, true, "[]"},
    {ROW("one lies flat"), {"top"}, {NULL}, true, "[{\"piece\":\"top\",\"laid\":\"flat\"}]"},
    {ROW("one is inside"), {NULL}, {"tray"}, true, "[{\"piece\":\"tray\",\"all\":\"inside\"}]"},
    {ROW("both of one piece"),
     {"shelf"},
     {"shelf"},
     true,
     "[{\"piece\":\"shelf\",\"laid\":\"flat\",\"all\":\"inside\"}]"},
    {ROW("each of another"),
     {"top", "door"},
     {"tray", "door"},
     true,
     "[{\"piece\":\"top\",\"laid\":\"flat\"},{\"piece\":\"door\",\"laid\":\"flat\",\"all\":\"inside\"},"
     "{\"piece\":\"tray\",\"all\":\"inside\"}]"},
    {ROW("one finish for all"),
     {"door"},
     {"door", "tray"},
     false,
     "[{\"piece\":\"door\",\"laid\":\"flat\"}]"},
};

static size_t names_in(const char *const names[2])
{
    return (size_t)(names[0] != NULL) + (size_t)(names[1] != NULL);
}

/* The list under `"pieces"` without blanks. */
static const char *pieces_of(struct arena *arena, const char *text)
{
    struct buf plain;
    const char *at = strstr(text, "\"pieces\":");
    assert_non_null(at);
    buf_init(&plain, arena);
    for (at = strchr(at, '['); *at && *at != ']'; at++)
        if (*at != ' ' && *at != '\n')
            buf_add_char(&plain, *at);
    buf_add(&plain, "]");
    return plain.text;
}

static void pieces_are_written(void **state)
{
    const struct pieces_row *r = *state;
    struct arena *arena = arena_make(0);
    struct finish finish = sample_varnish();
    struct buf out;
    struct new_job new = {.name = "Hall",
                          .list = "hall.csv",
                          .units = "mm",
                          .zone = "UTC",
                          .start = "2027-03-01",
                          .deliver = "2027-04-09",
                          .shop_file = "hall-shop.json",
                          .prices_file = "hall-prices.csv",
                          .outside = &finish,
                          .inside = r->inside ? &finish : NULL,
                          .flat = r->flat,
                          .inner = r->inner,
                          .flat_count = names_in(r->flat),
                          .inner_count = names_in(r->inner)};
    buf_init(&out, arena);
    new_job_write(&out, arena, &new);
    check_text(&r->row, pieces_of(arena, out.text), r->want);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(pieces, pieces_are_written));
}
