/* Part lists of common pieces by their outer sizes: what is taken off for rails, shelves and doors, and which sizes are none. */
#include "check.h"

#include "base/arena.h"
#include "base/buf.h"
#include "source/job_file.h"

#include <string.h>

struct list_row {
    struct row row;
    const char *kind, *sizes, *want; /* behind the heading, lines ended by one character */
};

/* Rails reach from leg to leg, 110 mm in on either side; a leg ends below the top. Shelves are 40 mm shorter than the case, and 20 mm
 * less deep; two doors share the width with 6 mm between and beside them. A chair's rails lie between legs of 40 mm. */
static const struct list_row lists[] = {
    {ROW("table"), "table", "1800 x 900 x 750",
     "top,top,1,board,oak,1800,900,,25\n"
     "leg,legs,4,board,oak,725,60,,60\n"
     "long rail,frame,2,board,oak,1580,90,,22\n"
     "short rail,frame,2,board,oak,680,90,,22\n"},
    {ROW("cabinet"), "cabinet", "1000 x 400 x 1800",
     "side,case,2,board,oak,1800,400,,19\n"
     "top and bottom,case,2,board,oak,962,400,,19\n"
     "back,back,1,board,oak,1800,1000,,6\n"
     "shelf,shelves,2,board,oak,960,380,,19\n"
     "door,doors,2,board,oak,1796,497,,20\n"},
    {ROW("doors"), "doors", "500 x 22 x 700", "door,doors,2,board,oak,700,500,,22\n"},
    {ROW("shelf"), "shelf", "900 x 250 x 25", "shelf,shelf,3,board,oak,900,250,,25\n"},
    {ROW("chair"), "chair", "450 x 420 x 850",
     "seat,seat,1,board,oak,450,420,,20\n"
     "front leg,frame,2,board,oak,430,38,,38\n"
     "back leg,frame,2,board,oak,850,45,,38\n"
     "cross rail,frame,2,board,oak,370,60,,22\n"
     "side rail,frame,2,board,oak,340,60,,22\n"
     "back rail,frame,2,board,oak,370,80,,20\n"},
    {ROW("box"), "box", "300 x 200 x 120",
     "box,box,1,box,oak,300,200,120,12\n"
     "lid,lid,1,board,oak,300,200,,12\n"},
    {ROW("units, and other signs between"), "shelf", "1.2 m X 25 cm*1 in",
     "shelf,shelf,3,board,oak,1200,250,,25.4\n"},
    {ROW("a millimetre is left"), "shelf", "1 x 1 x 1", "shelf,shelf,3,board,oak,1,1,,1\n"},
    {ROW("a tenth is left"), "chair", "80.1 x 80.1 x 80.1",
     "seat,seat,1,board,oak,80.1,80.1,,20\n"
     "front leg,frame,2,board,oak,430,38,,38\n"
     "back leg,frame,2,board,oak,80.1,45,,38\n"
     "cross rail,frame,2,board,oak,0.1,60,,22\n"
     "side rail,frame,2,board,oak,0.1,60,,22\n"
     "back rail,frame,2,board,oak,0.1,80,,20\n"},
};

static const char *written(struct arena *arena, const char *kind, const char *sizes, const char **refused)
{
    struct buf out;
    buf_init(&out, arena);
    *refused = new_parts_write(&out, kind, sizes, "oak");
    size_t to = 0;
    for (size_t i = 0; i < out.length; i++)
        if (out.text[i] != '\r')
            out.text[to++] = out.text[i];
    return *refused ? "" : arena_textf(arena, "%.*s", (int)to, out.text);
}

static void a_list_of(void **state)
{
    const struct list_row *r = *state;
    struct arena *arena = arena_make(0);
    const char *refused, *text = written(arena, r->kind, r->sizes, &refused);
    check_true(&r->row, refused == NULL, refused ? refused : "");
    check_text(&r->row, text,
               arena_textf(arena, "part,piece,qty,shape,wood,length,width,height,thickness\n%s", r->want));
    arena_free(arena);
}

struct refused_row {
    struct row row;
    const char *kind, *sizes, *want; /* what the answer begins with */
};

static const struct refused_row refusals[] = {
    {ROW("another kind"), "stool", "450 x 420 x 850", "one of \"table\""},
    {ROW("two sizes"), "table", "1800 x 900", "three outer sizes"},
    {ROW("four sizes"), "table", "1800 x 900 x 750 x 20", "three outer sizes"},
    {ROW("no number"), "table", "1800 x wide x 750", "three outer sizes"},
    {ROW("nothing"), "table", "", "three outer sizes"},
    {ROW("none of it"), "table", "1800 x 0 x 750", "three outer sizes"},
    {ROW("less than none"), "table", "1800 x -900 x 750", "three outer sizes"},
    {ROW("a shelf of nothing"), "cabinet", "40 x 400 x 1800", "larger sizes"},
    {ROW("a rail of less"), "table", "200 x 200 x 750", "larger sizes"},
};

static void sizes_are_refused(void **state)
{
    const struct refused_row *r = *state;
    struct arena *arena = arena_make(0);
    const char *refused;
    (void)written(arena, r->kind, r->sizes, &refused);
    check_true(&r->row, refused != NULL, "refused");
    check_true(&r->row, strncmp(refused, r->want, strlen(r->want)) == 0, refused);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(lists, a_list_of), CHECK_ROWS(refusals, sizes_are_refused));
}
