#include "check.h"
#include "mesh_make.h"

#include "base/arena.h"
#include "base/err.h"
#include "source/part_list.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

struct wrong_row {
    struct row row;
    const char *name, *text, *want; /* `want` without the folder */
};

#define FACET "facet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 3 0 0\nvertex 0 4 0\nendloop\nendfacet\n"

static const struct wrong_row wrongs[] = {
    {ROW("neither stl nor obj"), "leg.ply", "ply\n",
     "leg.ply: expected a mesh whose name ends in .stl or .obj"},
    {ROW("no ending"), "leg", "", "leg: expected a mesh whose name ends in .stl or .obj"},
    {ROW("stl, empty"), "leg.stl", "",
     "leg.stl: expected an STL file: the word solid, or a header of 84 bytes, found the end at byte 0"},
    {ROW("stl, something else"), "leg.stl", "hello",
     "leg.stl: expected an STL file: the word solid, or a header of 84 bytes, found the end at byte 5"},
    {ROW("stl, ends in the solid"), "leg.stl", "solid\n" FACET,
     "leg.stl:9:1: expected facet or endsolid, found the end of the file at byte 92"},
    {ROW("stl, ends in a facet"), "leg.stl", "solid\nfacet normal 0 0 1\nouter loop\nvertex 0 0",
     "leg.stl:4:11: expected a number, found the end of the file at byte 46"},
    {ROW("stl, ends in its first line"), "leg.stl", "solid",
     "leg.stl:1:6: expected facet or endsolid, found the end of the file at byte 5"},
    {ROW("stl, four corners"), "leg.stl",
     "solid\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 1 1 0\nvertex 0 1 0\n",
     "leg.stl:7:1: expected endloop, found \"vertex\""},
    {ROW("stl, a comma"), "leg.stl", "solid\nfacet normal 0 0 1\nouter loop\nvertex 0,5 0 0\n",
     "leg.stl:4:8: expected a number, found \"0,5\""},
    {ROW("stl, text after it"), "leg.stl", "solid\nendsolid\nhello\n",
     "leg.stl:3:1: expected solid, found \"hello\""},
    {ROW("stl, bytes that are no text"), "leg.stl", "solid\n\xFF\xFE\x01",
     "leg.stl:2:1: expected facet or endsolid, found \"???\""},
    {ROW("stl, a mark and blanks before it"), "leg.stl", "\xEF\xBB\xBF \r\n solid\nendsolid\nhello\n",
     "leg.stl:4:1: expected solid, found \"hello\""},
    {ROW("obj, text behind an index"), "leg.obj", "v 0 0 0\nf 1 1x 1\n",
     "leg.obj:2:5: expected a corner that stands above: 1 to 1, or -1 back, found \"1x\""},
    {ROW("obj, a texture alone"), "leg.obj", "v 0 0 0\nf 1 /1 1\n",
     "leg.obj:2:5: expected a corner that stands above: 1 to 1, or -1 back, found \"/1\""},
    {ROW("obj, a face by its old name"), "leg.obj", "v 0 0 0\nfo 1 1\n",
     "leg.obj:2:7: expected a face of at least three corners, found 2"},
    {ROW("obj, no such corner"), "leg.obj", "v 0 0 0\nv 1 0 0\nf 1 2 3\n",
     "leg.obj:3:7: expected a corner that stands above: 1 to 2, or -1 back, found \"3\""},
    {ROW("obj, too far back"), "leg.obj", "v 0 0 0\nf -2 1 1\n",
     "leg.obj:2:3: expected a corner that stands above: 1 to 1, or -1 back, found \"-2\""},
    {ROW("obj, corner 0"), "leg.obj", "v 0 0 0\nf 1 0 1\n",
     "leg.obj:2:5: expected a corner that stands above: 1 to 1, or -1 back, found \"0\""},
    {ROW("obj, huge index"), "leg.obj", "v 0 0 0\nf 1 99999999999999999999999999 1\n",
     "leg.obj:2:5: expected a corner that stands above: 1 to 1, or -1 back, found "
     "\"99999999999999999999999999\""},
    {ROW("obj, no corner yet"), "leg.obj", "f 1 2 3\n",
     "leg.obj:1:3: expected a corner that stands above, found \"1\""},
    {ROW("obj, face of two"), "leg.obj", "v 0 0 0\nf 1 1\n",
     "leg.obj:2:6: expected a face of at least three corners, found 2"},
    {ROW("obj, two numbers"), "leg.obj", "v 0 0\n",
     "leg.obj:1:6: expected a number, found the end of the line"},
    {ROW("obj, ends in a corner"), "leg.obj", "v 0 0",
     "leg.obj:1:6: expected a number, found the end of the file at byte 5"},
    {ROW("obj, a word"), "leg.obj", "v 0 0 zero\n", "leg.obj:1:7: expected a number, found \"zero\""},
    {ROW("obj, unknown statement"), "leg.obj", "hello\n",
     "leg.obj:1:1: expected a statement of an OBJ file, such as v or f, found \"hello\""},
    {ROW("obj, free-form surface"), "leg.obj", "\nsurf 0 1 0 1 1 2 3 4\n",
     "leg.obj:2:1: expected polygons, found a free-form surface (surf)"},
    {ROW("a word too long to be shown"), "leg.obj", "v 0 0 0123456789012345678901234567890123456789x\n",
     "leg.obj:1:7: expected a number, found \"0123456789012345678901234567890123456789\"..."},
};

/* The first message, without the folder. */
static const char *first(struct arena *arena, const struct err_list *errors, const char *path)
{
    char line[ERR_LINE_SIZE];
    size_t folder = (size_t)(strrchr(path, '/') + 1 - path);
    assert_int_equal(errors->count, 1);
    err_format(&errors->items[0], line, sizeof line);
    return arena_text(arena, line + (strncmp(line, path, folder) == 0 ? folder : 0));
}

static void wrong_is_told(void **state)
{
    const struct wrong_row *r = *state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct mesh_report report;
    const char *path = make_file(arena, r->name, r->text, strlen(r->text));
    check_true(&r->row, !make_measured(arena, path, &report, &errors), "refused");
    check_text(&r->row, first(arena, &errors, path), r->want);
    check_int(&r->row, errors.items[0].code, ERR_INPUT);
    arena_free(arena);
}

/* A word without an end is no number. */
static void endless_word(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct mesh_report report;
    char text[400] = "v 0 ";
    memset(text + 4, '7', sizeof text - 4);
    const char *path = make_file(arena, "leg.obj", text, sizeof text);
    check_true(HERE, !make_measured(arena, path, &report, &errors), "refused");
    check_text(HERE, first(arena, &errors, path),
               "leg.obj:1:5: expected a word of at most 255 bytes, found a longer one");
    arena_free(arena);
}

/* Whole files, in which each word in turn is another one, or one without an end: it is told where it stands. */
static const struct whole_row {
    struct row row;
    const char *name, *text;
    size_t words;
} wholes[] = {
    {ROW("stl"), "leg.stl", FACET "endsolid", 22},
    {ROW("obj"), "leg.obj", "v 0 0 0\nv 3 0 0\nv 0 4 0\nf 1/1 2/2/2 3//3\nfo -1 -2 -3", 20},
};

static void check_word(const struct whole_row *r, size_t from, size_t to, bool endless)
{
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct mesh_report report;
    char word[301] = "x", place[40];
    const char *head = strcmp(r->name, "leg.stl") == 0 ? "solid a leg\n" : "";
    if (endless)
        memset(word, 'x', 300);
    const char *text = arena_textf(arena, "%s%.*s%s%s\n", head, (int)from, r->text, word, r->text + to);
    const char *path = make_file(arena, r->name, text, strlen(text));
    int line = head[0] ? 2 : 1, column = 1;
    for (size_t i = 0; i < from; i++) {
        column = r->text[i] == '\n' ? 1 : column + 1;
        line += r->text[i] == '\n';
    }
    check_true(&r->row, !make_measured(arena, path, &report, &errors), text);
    (void)snprintf(place, sizeof place, "%s:%d:%d: expected ", r->name, line, column);
    const char *told = first(arena, &errors, path);
    check_text(&r->row, arena_text_n(arena, told, strlen(place)), place);
    check_true(&r->row, strstr(told, endless ? "a longer one" : "found \"x\"") != NULL, told);
    arena_free(arena);
}

static void each_word_is_told(void **state)
{
    const struct whole_row *r = *state;
    size_t words = 0;
    for (size_t from = 0, to; r->text[from]; from = to + strspn(r->text + to, " \n")) {
        to = from + strcspn(r->text + from, " \n");
        check_word(r, from, to, false);
        check_word(r, from, to, true);
        words++;
    }
    check_int(&r->row, (intmax_t)words, (intmax_t)r->words);
}

/* A binary file of 12 triangles is 684 bytes long, and no other length will do. */
static void binary_length(void **state)
{
    (void)state;
    static const size_t lengths[] = {84, 85, 583, 600, 634, 683, 685, 734};
    for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++) {
        struct arena *arena = arena_make(0);
        struct err_list errors = {0};
        struct mesh_report report;
        char bytes[800] = "solid";
        bytes[80] = 12;
        const char *path = make_file(arena, "leg.stl", bytes, lengths[i]);
        check_true(HERE, !make_measured(arena, path, &report, &errors), "refused");
        check_text(HERE, first(arena, &errors, path),
                   arena_textf(
                       arena,
                       "leg.stl: expected 12 triangles of 50 bytes after a header of 84, as the header says: "
                       "684 bytes, found the end at byte %zu",
                       lengths[i]));
        arena_free(arena);
    }
}

/* A count that asks for 200 GB neither takes memory nor time. */
static void lying_count(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct mesh_report report;
    char bytes[134] = {0};
    memset(bytes + 80, 0xFF, 4);
    const char *path = make_file(arena, "leg.stl", bytes, sizeof bytes);
    check_true(HERE, !make_measured(arena, path, &report, &errors), "refused");
    check_text(HERE, first(arena, &errors, path),
               "leg.stl: expected 4294967295 triangles of 50 bytes after a header of 84, as the header says: "
               "214748364834 bytes, found the end at byte 134");
    arena_free(arena);
}

static void no_file(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    const char *missing = make_path(arena, "missing.stl"), *folder = make_path(arena, "folder.stl");
    const char *pipe = make_path(arena, "pipe.stl");
    const char *paths[] = {missing, folder, pipe};
    static const char *const wants[] = {"missing.stl: expected a readable file, found no such file",
                                        "folder.stl: expected a readable file, found a directory",
                                        "pipe.stl: expected a readable file, found a pipe or a device"};
    mkdir(folder, 0700);
    mkfifo(pipe, 0600);
    for (int i = 0; i < 3; i++) {
        struct err_list errors = {0};
        struct mesh_report report;
        check_true(HERE, !make_measured(arena, paths[i], &report, &errors), "refused");
        check_text(HERE, first(arena, &errors, paths[i]), wants[i]);
        check_int(HERE, errors.items[0].code, ERR_FILE);
    }
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(wrongs, wrong_is_told), CHECK_TEST(endless_word),
                     CHECK_ROWS(wholes, each_word_is_told), CHECK_TEST(binary_length),
                     CHECK_TEST(lying_count), CHECK_TEST(no_file));
}
