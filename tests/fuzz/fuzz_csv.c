/* Cells lie inside the text and in its order, with the separator, a line end or a quote around them; what is written
 * from them reads back the same; a fault has its place inside the text. */
#include "base/arena.h"
#include "base/buf.h"
#include "format/csv.h"
#include "format/place.h"

#include <assert.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check_cells(const struct csv *csv, size_t *last)
{
    for (size_t i = 0; i < csv->count; i++) {
        const struct csv_cell *cell = &csv->cells[i];
        assert(cell->at >= *last && cell->at <= csv->length);
        assert(cell->text >= csv->text + cell->at && cell->length <= csv->length);
        assert(cell->text + cell->length <= csv->text + csv->length);
        *last = cell->at + cell->length;
    }
}

/* Rows once more, as text with one mark between cells and one between rows. */
static void keep_row(const struct csv *csv, struct buf *kept, struct buf *written, struct buf *cell)
{
    for (size_t i = 0; i < csv->count; i++) {
        csv_text(&csv->cells[i], cell);
        buf_add_char(kept, i ? '\x1F' : '\x1E');
        buf_add(kept, cell->text);
        if (i)
            buf_add_char(written, csv->separator);
        csv_put(written, cell->text);
    }
    buf_add(written, "\r\n");
}

static void read_all(struct csv *csv, struct buf *kept, struct buf *written)
{
    struct buf cell;
    size_t last = 0;
    buf_init(&cell, csv->arena);
    while (csv_next(csv)) {
        check_cells(csv, &last);
        keep_row(csv, kept, written, &cell);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *arena = arena_make(0);
    assert(arena);
    char *text = arena_text_n(arena, (const char *)data, size);
    struct buf kept[2], written[2];
    struct csv csv, again;
    for (int i = 0; i < 2; i++) {
        buf_init(&kept[i], arena);
        buf_init(&written[i], arena);
    }
    /* A list with a NUL in it is refused before it comes here. */
    if (memchr(text, '\0', size)) {
        arena_free(arena);
        return 0;
    }
    csv_init(&csv, arena, text, size);
    read_all(&csv, &kept[0], &written[0]);
    if (csv.broken)
        assert(csv.broken_at < size && csv.err.found[0]);
    csv_init(&again, arena, written[0].text, written[0].length);
    again.separator = csv.separator; /* a guess from the first row, which may have been blank */
    read_all(&again, &kept[1], &written[1]);
    assert(!again.broken && again.rows == csv.rows);
    assert(strcmp(kept[0].text, kept[1].text) == 0 && strcmp(written[0].text, written[1].text) == 0);
    arena_free(arena);
    return 0;
}
