/* Part lists of common pieces by their outer sizes, for who has no list yet. Thicknesses and offsets are common practice, from
 * memory: a first list, to be changed. */
#include "source/job_file.h"

#include "base/arena.h"
#include "base/length.h"
#include "base/number.h"
#include "format/csv.h"
#include "format/words.h"
#include "job/part.h"

#include <string.h>

enum { ROWS_MOST = 8, SIZES = 3, KINDS = 6, SIZE_MOST = 100 };

/* A size in millimetres: so much of the length, the width and the height, and so much more. */
struct measure {
    double of[SIZES], more_mm;
};

#define L                                                                                                    \
    {                                                                                                        \
        {1, 0, 0}, 0                                                                                         \
    }
#define W                                                                                                    \
    {                                                                                                        \
        {0, 1, 0}, 0                                                                                         \
    }
#define H                                                                                                    \
    {                                                                                                        \
        {0, 0, 1}, 0                                                                                         \
    }
#define MM(mm)                                                                                               \
    {                                                                                                        \
        {0, 0, 0}, (mm)                                                                                      \
    }

struct kind_row {
    const char *part, *piece;
    int qty;
    enum shape shape;
    struct measure length, width, thickness, height; /* height of boxes only */
};

static const struct kind {
    const char *name;
    struct kind_row rows[ROWS_MOST];
} kinds[KINDS] = {
    {"table",
     {{"top", "top", 1, SHAPE_BOARD, L, W, MM(25), MM(0)},
      {"leg", "legs", 4, SHAPE_BOARD, {{0, 0, 1}, -25}, MM(60), MM(60), MM(0)},
      {"long rail", "frame", 2, SHAPE_BOARD, {{1, 0, 0}, -220}, MM(90), MM(22), MM(0)},
      {"short rail", "frame", 2, SHAPE_BOARD, {{0, 1, 0}, -220}, MM(90), MM(22), MM(0)}}},
    {"cabinet",
     {{"side", "case", 2, SHAPE_BOARD, H, W, MM(19), MM(0)},
      {"top and bottom", "case", 2, SHAPE_BOARD, {{1, 0, 0}, -38}, W, MM(19), MM(0)},
      {"back", "back", 1, SHAPE_BOARD, H, L, MM(6), MM(0)},
      {"shelf", "shelves", 2, SHAPE_BOARD, {{1, 0, 0}, -40}, {{0, 1, 0}, -20}, MM(19), MM(0)},
      {"door", "doors", 2, SHAPE_BOARD, {{0, 0, 1}, -4}, {{0.5, 0, 0}, -3}, MM(20), MM(0)}}},
    {"doors", {{"door", "doors", 2, SHAPE_BOARD, H, L, W, MM(0)}}},
    {"shelf", {{"shelf", "shelf", 3, SHAPE_BOARD, L, W, H, MM(0)}}},
    {"chair",
     {{"seat", "seat", 1, SHAPE_BOARD, L, W, MM(20), MM(0)},
      {"front leg", "frame", 2, SHAPE_BOARD, MM(430), MM(38), MM(38), MM(0)},
      {"back leg", "frame", 2, SHAPE_BOARD, H, MM(45), MM(38), MM(0)},
      {"cross rail", "frame", 2, SHAPE_BOARD, {{1, 0, 0}, -80}, MM(60), MM(22), MM(0)},
      {"side rail", "frame", 2, SHAPE_BOARD, {{0, 1, 0}, -80}, MM(60), MM(22), MM(0)},
      {"back rail", "frame", 2, SHAPE_BOARD, {{1, 0, 0}, -80}, MM(80), MM(20), MM(0)}}},
    {"box",
     {{"box", "box", 1, SHAPE_BOX, L, W, MM(12), H}, {"lid", "lid", 1, SHAPE_BOARD, L, W, MM(12), MM(0)}}},
};

static const struct kind *kind_of(const char *name)
{
    for (size_t i = 0; i < KINDS; i++)
        if (strcmp(kinds[i].name, name) == 0)
            return &kinds[i];
    return NULL;
}

/* `1800 x 900 x 750`, millimetres where no unit stands. */
static bool read_sizes(const char *text, double sizes_mm[SIZES])
{
    char word[SIZE_MOST];
    for (int i = 0; i < SIZES; i++) {
        size_t length = i + 1 < SIZES ? strcspn(text, "xX*") : strlen(text);
        double metres;
        if (length >= sizeof word || (i + 1 < SIZES && text[length] == '\0'))
            return false;
        memcpy(word, text, length);
        word[length] = '\0';
        if (!length_parse(word, LENGTH_MM, &metres, NULL) || metres <= 0)
            return false;
        sizes_mm[i] = metres * 1000;
        text += length + (text[length] != '\0');
    }
    return true;
}

static double measured(const struct measure *measure, const double sizes_mm[SIZES])
{
    double mm = measure->more_mm;
    for (int i = 0; i < SIZES; i++)
        mm += measure->of[i] * sizes_mm[i];
    return mm;
}

static bool write_row(struct buf *out, const struct kind_row *row, const char *wood,
                      const double sizes_mm[SIZES])
{
    const struct measure *measures[] = {&row->length, &row->width, &row->height, &row->thickness};
    buf_addf(out, "%s,%s,%d,%s,", row->part, row->piece, row->qty, shape_name(row->shape));
    csv_put(out, wood);
    for (size_t i = 0; i < sizeof measures / sizeof measures[0]; i++) {
        double mm = measured(measures[i], sizes_mm);
        bool none = row->shape == SHAPE_BOARD && measures[i] == &row->height;
        if (!none && mm <= 0)
            return false;
        buf_addf(out, ",%s", none ? "" : number_round(mm, 1).text);
    }
    buf_add(out, "\r\n");
    return true;
}

const char *new_parts_write(struct buf *out, const char *kind_name, const char *sizes, const char *wood)
{
    const char *names[KINDS];
    const struct kind *kind = kind_of(kind_name);
    double sizes_mm[SIZES];
    for (size_t i = 0; i < KINDS; i++)
        names[i] = kinds[i].name;
    if (!kind)
        return words_one_of(out->arena, names, KINDS);
    if (!read_sizes(sizes, sizes_mm))
        return "three outer sizes, length x width x height, such as \"1800 x 900 x 750\"";
    buf_add(out, "part,piece,qty,shape,wood,length,width,height,thickness\r\n");
    for (size_t i = 0; i < ROWS_MOST && kind->rows[i].part; i++)
        if (!write_row(out, &kind->rows[i], wood, sizes_mm))
            return "larger sizes: a part of it would have none";
    return NULL;
}
