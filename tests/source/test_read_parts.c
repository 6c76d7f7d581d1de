#include "check.h"
#include "job_text.h"

#include "base/buf.h"
#include "base/text.h"
#include "source/part_list.h"
#include "surface/takeoff.h"

#include <string.h>

struct split_row {
    struct row row;
    const char *text;
    size_t count;
    double want_mm[3]; /* 0 first: refused */
};

static const struct split_row splits[] = {
    {ROW("bare"), "30 40 50", 3, {30, 40, 50}},
    {ROW("units"), "30 mm 4 cm 0.5 m", 3, {30, 40, 500}},
    {ROW("bare and not"), "30 4 cm 2\"", 3, {30, 40, 50.8}},
    {ROW("fractions"), "3 1/2 4 1/4 5", 3, {3.5, 4.25, 5}},
    {ROW("a fraction at the end"), "5 3 1/4", 2, {5, 3.25}},
    {ROW("fractions of nothing"), "1/2 1/4", 2, {0.5, 0.25}},
    {ROW("feet and inches"), "5' 2\" 3' 4 1/2\"", 2, {1574.8, 1028.7}},
    {ROW("many blanks"), "30   40", 2, {30, 40}},
    {ROW("too few"), "30 40", 3, {0}},
    {ROW("too many"), "30 40 50", 2, {0}},
    {ROW("a word"), "30 forty", 2, {0}},
    {ROW("nothing"), "", 2, {0}},
};

static void splits_into(void **state)
{
    const struct split_row *r = *state;
    double got[3] = {0};
    bool good = lengths_split(r->text, LENGTH_MM, r->count, got);
    check_true(&r->row, good == (r->want_mm[0] > 0), "read or refused");
    for (size_t i = 0; good && i < r->count; i++)
        check_double(&r->row, got[i], r->want_mm[i] / 1000, 1e-12);
}

static const char forms[] =
    "part;shape;length;width;thickness;height;diameter;hole;sides;points;corners;side;profile;open;area;"
    "region;grooves;"
    "covered;all;work;note;chamfer\n"
    "tile;triangle;;;4;;;;30 40 50;;;;;;;;;;oil;;;1\n"
    "star;polygon;;;4;;;;;\"0 0; 300 0; 150 8\"\"\";;;;;;;;;oil;;;\n"
    "hex;polygon;;;4;;;;;;6;2 in;;;;;;;oil;;;\n"
    "ring;disc;;;20;;300;100;;;;;;;;;;;oil;;;\n"
    "leg;turning;;;;;;;;;;;\"0 40; 300 25; 700 40\";;;;;;oil;2.5;;\n"
    "case;box;600;400;12;300;;;;;;;;front, Top;;;;;oil;;;\n"
    "more;area;;;;;;;;;;;;;1.2 m2;ends;;;oil;;\"glued\nup\";\n"
    "back;AREA;;;;;;;;;;;;;300 x 400;;;;oil;;;\n"
    "panel;board;600;400;18;;;;;;;;;;;;3 x 600 mm x 12 mm; ;oil;;;\n"
    "top;board;5' 2 3/8\";12\";3/4\";;;;;;;;;;;;;\"back 2 x 30 mm x 40 mm; face 5 x 6\";oil;;;\n";

static struct job *read_forms(struct reader *reader)
{
    const char *job = reader_swap(reader, job_text_job, "\"after\": [\"legs\"]", "\"after\": []");
    return job_text_read_parts(reader, job, forms);
}

static void check_outlines(const struct part *p)
{
    check_double(HERE, p[0].size_m[DIM_C], 0.05, 1e-15);
    check_double(HERE, p[0].size_m[DIM_CHAMFER], 0.001, 1e-15);
    check_int(HERE, (intmax_t)p[1].point_count, 3);
    check_double(HERE, p[1].points[2].x, 0.15, 1e-15);
    check_double(HERE, p[1].points[2].y, 0.2032, 1e-15); /* 8 in */
    check_int(HERE, p[2].corners, 6);
    check_double(HERE, p[2].size_m[DIM_SIDE], 0.0508, 1e-15);
    check_double(HERE, p[3].size_m[DIM_HOLE], 0.1, 1e-15);
    check_int(HERE, (intmax_t)p[4].point_count, 3);
    check_double(HERE, p[4].points[1].x, 0.3, 1e-15);
    check_double(HERE, p[4].points[1].y, 0.025, 1e-15);
    check_double(HERE, p[4].work, 2.5, 0);
}

static void check_others(const struct part *p)
{
    check_int(HERE, p[5].open, BOX_FRONT | BOX_TOP);
    check_double(HERE, p[6].area_m2, 1.2, 1e-15);
    check_int(HERE, p[6].area_region, REGION_ENDS);
    check_int(HERE, p[6].schedule[REGION_ENDS], 0);
    check_int(HERE, p[6].schedule[REGION_FACE], SCHEDULE_NONE);
    check_text(HERE, p[6].note, "glued up");
    check_double(HERE, p[7].area_m2, 0.12, 1e-12);
    check_int(HERE, p[7].area_region, REGION_FACE);
    check_int(HERE, (intmax_t)p[8].groove_count, 1);
    check_int(HERE, p[8].grooves[0].count, 3);
    check_double(HERE, p[8].grooves[0].length_m, 0.6, 1e-15);
    check_double(HERE, p[8].grooves[0].girth_m, 0.012, 1e-15);
    check_double(HERE, p[9].size_m[DIM_LENGTH], 62.375 * 0.0254, 1e-12);
    check_double(HERE, p[9].size_m[DIM_WIDTH], 0.3048, 1e-15);
    check_int(HERE, (intmax_t)p[9].covered_count, 2);
    check_int(HERE, p[9].covered[0].region, REGION_BACK);
    check_double(HERE, p[9].covered[0].count, 2, 0);
    check_double(HERE, p[9].covered[0].width_m, 0.03, 1e-15);
    check_double(HERE, p[9].covered[1].count, 1, 0);
    check_double(HERE, p[9].covered[1].length_m, 0.006, 1e-15);
}

static void reads_every_form(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct job *job = read_forms(reader);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_int(HERE, (intmax_t)job->part_count, 10);
    check_outlines(job->parts);
    check_others(job->parts);
    reader_free(reader);
}

struct mistake_row {
    struct row row;
    const char *find, *put, *at, *want;
};

static const struct mistake_row mistakes[] = {
    {ROW("a point of one number"), "150 8\"\"", "150", "\"0 0; 300 0; 150\"",
     "/1/points: expected corners such as \"0 0; 300 0; 150 200\", found \"0 0; 300 0; 150\""},
    {ROW("points of a disc"), "ring;disc;;;20;;300;100;;;", "ring;disc;;;20;;300;100;;0 0;",
     "0 0;;;;;;;;;oil", "/3/points: expected nothing: only a polygon has points, found \"0 0\""},
    {ROW("a side misspelt"), "front, Top", "front, tap", "front, tap",
     "/5/open: expected any of front, back, left, right, top, bottom, found \"front, tap\""},
    {ROW("a region misspelt"), "ends;;;oil", "edge;;;oil", "edge;",
     "/6/region: expected a region: face, back, edges, ends, inside or outside, found \"edge\""},
    {ROW("an area of a board"), "back;AREA", "back;board", "300 x 400",
     "/7/area: expected nothing: only the shape \"area\" has one, found \"300 x 400\""},
    {ROW("grooves without a count"), "3 x 600 mm x 12 mm", "3 x 600 mm x", "3 x 600 mm x;",
     "/8/grooves: expected grooves such as \"3 x 600 mm x 12 mm\": count, length, girth added, found \"3 x "
     "600 mm x\""},
    {ROW("covered without a region"), "face 5 x 6", "5 x 6", "\"back 2",
     "/9/covered: expected a region first: face, back, edges, ends, inside or outside, found \"back 2 x 30 "
     "mm x 40 mm; 5 "
     "x 6\""},
    {ROW("work of nothing"), "oil;2.5", "oil;0", "0;;\ncase",
     "/4/work: expected a factor above 0, found \"0\""},
};

static void mistake_is_told(void **state)
{
    const struct mistake_row *r = *state;
    struct reader *reader = reader_make();
    const char *job = reader_swap(reader, job_text_job, "\"after\": [\"legs\"]", "\"after\": []");
    const char *text = reader_swap(reader, forms, r->find, r->put);
    check_true(&r->row, !job_text_read_parts(reader, job, text), "no job");
    reader_check_only(reader, &r->row, text, r->at, r->want);
    reader_free(reader);
}

/* One triangle of 3, 4 and 5 cm: 6 cm2. */
static const char mesh[] =
    "solid one\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 3 0 0\nvertex 3 4 0\n"
    "endloop\nendfacet\nendsolid one\n";

static struct job *read_mesh(struct reader *reader, const char *rest)
{
    const char *job = reader_swap(reader, job_text_job, "\"after\": [\"legs\"]", "\"after\": []");
    reader_path(reader, "one.stl", mesh);
    return job_text_read_parts(
        reader, job,
        arena_textf(reader->arena, "part,piece,shape,length,file,file-units,all\ntop,top,%s,oil\n", rest));
}

static void reads_meshes(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct job *job = read_mesh(reader, "mesh,,one.stl,cm");
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_double(HERE, job->parts[0].mesh_area_m2, 0.0006, 1e-15);
    check_text(HERE, job->parts[0].mesh_file, "one.stl");
    check_true(HERE, !read_mesh(reader, "mesh,,,cm"), "no file");
    check_true(HERE, !read_mesh(reader, "mesh,,one.stl,"), "no units");
    check_true(HERE, !read_mesh(reader, "mesh,,../one.stl,cm"), "outside");
    check_true(HERE, !read_mesh(reader, "mesh,,two.stl,cm"), "not there");
    check_true(HERE, !read_mesh(reader, "round,300,one.stl,"), "no mesh");
    check_text(HERE, reader_lines(reader, &reader->errors),
               "parts.csv:2:15: row 1, file: expected the name of a mesh file, STL or OBJ, found nothing\n"
               "parts.csv:2:15: row 1, file: expected a path inside the folder of this file (or "
               "--trust-paths), found "
               "\"../one.stl\" (one that leaves it by \"..\")\n"
               "parts.csv:2:15: row 1, file: expected a readable file, found \"two.stl\" (no such file)\n"
               "parts.csv:2:19: row 1, file: expected nothing: only a mesh has one, found \"one.stl\"\n"
               "parts.csv:2:23: row 1, file-units: expected a unit of length: \"mm\", \"cm\", \"m\", \"in\" "
               "or \"ft\", "
               "found "
               "nothing");
    reader_free(reader);
}

/* The triangle, one of three corners in a line, and one with a corner that is no number. */
static const char torn_mesh[] =
    "solid torn\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 3 0 0\nvertex 3 4 0\n"
    "endloop\nendfacet\n"
    "facet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 1 0\nvertex 2 2 0\nendloop\nendfacet\n"
    "facet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex nan 0 0\nvertex 3 4 0\nendloop\nendfacet\n"
    "endsolid torn\n";

/* What of a mesh has no area does not stop the plan, and is told. */
static void triangles_that_count_for_nothing(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    reader_path(reader, "torn.stl", torn_mesh);
    struct job *job = read_mesh(reader, "mesh,,torn.stl,cm");
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_double(HERE, job->parts[0].mesh_area_m2, 0.0006, 1e-15);
    const char *told = reader_lines(reader, &reader->warnings);
    check_true(HERE,
               strstr(told, "parts.csv:2:15: row 1, file: warning: 2 of 3 triangles count for nothing: 1 "
                            "without area, 1 without numbers") != NULL,
               told);
    reader_free(reader);
}

/* Narrow boards but for the eleventh, which stands in line 12, behind the heading; the list has no column of backs. */
static void a_later_row_is_found(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct buf text;
    buf_init(&text, reader->arena);
    buf_add(&text, "part,piece,wood,length,width,thickness,face\nfoot,legs,oak,500,100,20,wax\n");
    for (int i = 2; i <= 10; i++)
        buf_addf(&text, "board%d,top,oak,500,100,20,oil\n", i);
    buf_add(&text, "slab,top,oak,500,300,20,oil\n");
    check_true(HERE, job_text_read_parts(reader, job_text_job, text.text) != NULL, "read");
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_text(HERE, reader_lines(reader, &reader->warnings),
               "parts.csv:12:1: row 11, back: warning: \"slab\" is wider than 200 mm and finished on its "
               "face only: it will cup; finish both, or write - for the back");
    reader_free(reader);
}

/* A wood that the table lacks does not stop the plan. */
static void unknown_wood(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct job *job = job_text_read(reader, PARTS, "board,oak", "board,oaak");
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_text(
        HERE, reader_lines(reader, &reader->warnings),
        "parts.csv:2:17: row 1, wood: warning: the wood \"oaak\" (did you mean \"oak\"?) is not known: a "
        "closed grain "
        "is assumed");
    check_text(HERE, job->parts[0].wood->name, "oaak");
    check_int(HERE, job->parts[0].wood->grain, GRAIN_CLOSED);
    reader_free(reader);
}

/* A region that the shape lacks may be told bare, but not scheduled. */
static void regions_of_other_shapes(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *job = reader_swap(reader, job_text_job, "\"after\": [\"legs\"]", "\"after\": []");
    check_true(HERE,
               job_text_read_parts(
                   reader, job, "part,piece,shape,diameter,length,face,back\ntop,top,round,40,700,oil,-\n") !=
                   NULL,
               "bare");
    check_true(HERE,
               !job_text_read_parts(
                   reader, job, "part,piece,shape,diameter,length,face,back\ntop,top,round,40,700,oil,wax\n"),
               "scheduled");
    check_text(HERE, reader_lines(reader, &reader->errors),
               "parts.csv:2:26: row 1, back: expected nothing: the shape round has no back, found \"wax\"");
    reader_free(reader);
}

/* A kitchen factory's list. Every row a piece of its own: names are found by hashing. */
static void hundred_thousand_parts(void **state)
{
    (void)state;
    enum { PARTS_MANY = 100000 };
    struct reader *reader = reader_make();
    struct buf text;
    buf_init(&text, reader->arena);
    buf_add(&text,
            "part,qty,wood,length,width,thickness,all\r\ntop,1,oak,1,1,1,oil\r\nlegs,1,oak,1,1,1,wax\r\n");
    for (int i = 2; i < PARTS_MANY; i++)
        buf_addf(&text, "door %d,2,birch plywood,716 mm,15 3/4\",19,oil\r\n", i);
    struct job *job = job_text_read_parts(reader, job_text_job, text.text);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_int(HERE, (intmax_t)job->part_count, PARTS_MANY);
    check_int(HERE, (intmax_t)job->piece_count, PARTS_MANY);
    check_text(HERE, job->pieces[77777].name, "door 77777");
    reader_free(reader);
}

/* Every cell wrong: what is not told costs no search. */
static void hundred_thousand_mistakes(void **state)
{
    (void)state;
    enum { PARTS_MANY = 100000 };
    struct reader *reader = reader_make();
    struct buf csv, json;
    buf_init(&csv, reader->arena);
    buf_init(&json, reader->arena);
    buf_add(&csv, "part,qty,shape,wood,length,all\n");
    for (int i = 0; i < PARTS_MANY; i++) {
        buf_addf(&csv, "door %d,x,bord,oaak,-1,oli\n", i);
        buf_addf(&json, "%s{\"part\": 1, \"qty\": 0.5, \"shap\": 2, \"all\": \"oli\", \"length\": -5}",
                 i ? ", " : "[");
    }
    buf_add_char(&json, ']');
    check_true(HERE, !job_text_read_parts(reader, job_text_job, csv.text), "no job");
    check_int(HERE, (intmax_t)(reader->errors.count + reader->errors.dropped) > PARTS_MANY, 1);
    reader->errors.count = reader->errors.dropped = 0;
    const char *job = reader_swap(reader, job_text_job, "\"parts.csv\"", json.text);
    check_true(HERE, !job_text_read_as(reader, job), "no job");
    check_int(HERE, (intmax_t)(reader->errors.count + reader->errors.dropped) > PARTS_MANY, 1);
    reader_free(reader);
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_ROWS(splits, splits_into), CHECK_TEST(reads_every_form),
                     CHECK_ROWS(mistakes, mistake_is_told), CHECK_TEST(reads_meshes),
                     CHECK_TEST(triangles_that_count_for_nothing), CHECK_TEST(a_later_row_is_found),
                     CHECK_TEST(unknown_wood), CHECK_TEST(regions_of_other_shapes),
                     CHECK_TEST(hundred_thousand_parts), CHECK_TEST(hundred_thousand_mistakes));
}
