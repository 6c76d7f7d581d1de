/* Part lists as people have them: eight cut lists as they come out of spreadsheets and drawing programs, read without
 * touching them, every part of each; and what is told about what was read otherwise than it stands there. */
#include "check.h"
#include "job_text.h"
#include "reader.h"

#include "base/buf.h"
#include "base/number.h"
#include "base/text.h"
#include "format/file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A job with two schedules whose list stands elsewhere; what no row says gets oil. */
static const char any_job[] =
    "{\"format\": \"coatwright-job/1\", \"job\": \"Any\", \"units\": \"mm\", \"zone\": \"Europe/London\",\n"
    " \"start\": \"2027-03-01 08:00\", \"deliver\": \"2027-03-19 14:00\",\n"
    " \"schedules\": {\"oil\": [{\"sand\": 150}, {\"coat\": \"hardwax-oil\", \"coats\": 2}],\n"
    "               \"wax\": [{\"coat\": \"paste-wax\"}]},\n"
    " \"all\": \"oil\", \"parts\": \"LIST\"}\n";

static const char *list_path(struct reader *reader, const char *name)
{
    const char *home = getenv("JOB_TEXT_HOME");
    return arena_textf(reader->arena, "%s/tests/source/lists/%s", home ? home : ".", name);
}

static const struct job *read_list(struct reader *reader, const char *path, const char *find, const char *put)
{
    const char *text = reader_swap(reader, any_job, "LIST", path);
    (void)reader_path(reader, "job.json", find ? reader_swap(reader, text, find, put) : text);
    struct job_source source = {.path = "job.json",
                                .finishes = job_text_finishes(reader),
                                .trust_paths = true,
                                .texts = reader->reading.texts};
    return job_read(reader->arena, &source, &reader->errors, &reader->warnings);
}

/* `2 x Side: 1800 x 280 x 20 mm, white oak, oil; grain up` and its piece where that is another name. */
static void describe(struct buf *buf, const struct job *job, const struct part *part)
{
    const double *size = part->size_m;
    int schedule = part->schedule[REGION_FACE];
    buf_addf(buf, "%d x %s: %s mm x %s mm x %s mm, %s, %s", part->qty, part->name,
             number_round(size[DIM_LENGTH] * 1000, 3).text, number_round(size[DIM_WIDTH] * 1000, 3).text,
             number_round(size[DIM_THICKNESS] * 1000, 3).text, part->wood ? part->wood->name : "no wood",
             schedule >= 0 ? job->schedules[schedule].name : "bare");
    if (part->note)
        buf_addf(buf, "; %s", part->note);
    if (strcmp(job->pieces[part->piece].name, part->name) != 0)
        buf_addf(buf, " (%s)", job->pieces[part->piece].name);
    buf_add(buf, "\n");
}

struct list_row {
    struct row row;
    const char *file, *parts;
    const char *told; /* what was read otherwise than it stands there, in the order of the file */
};

static const struct list_row lists[] = {
    {ROW("English, with title rows and a total"), "bookcase.csv",
     "2 x Side: 1800 mm x 280 mm x 20 mm, white oak, oil; grain up\n"
     "5 x Shelf: 764 mm x 260 mm x 20 mm, white oak, oil\n"
     "1 x Back: 1780 mm x 780 mm x 6 mm, birch plywood, oil; rebated, 10 mm\n",
     "4: 2 rows above the heading left out\n"
     "4: read \"Description\" as part, \"Material\" as wood, \"Length (mm)\" as length in mm, \"Width (mm)\" "
     "as "
     "width in mm, \"Thickness (mm)\" as thickness in mm, \"Notes\" as note\n"
     "4: no column of a part list, left out: \"No.\"\n"
     "6: read \"rift white oak\" as white oak, \"Birch ply\" as birch plywood\n"
     "9: line 9 left out: a total\n"},
    {ROW("inches with fractions, sizes in another order"), "desk-inches.csv",
     "1 x Top: 1200.15 mm x 596.9 mm x 19.05 mm, walnut, oil\n"
     "4 x Leg: 717.55 mm x 38.1 mm x 38.1 mm, walnut, oil\n"
     "2 x Apron long: 1016 mm x 88.9 mm x 19.05 mm, walnut, oil\n"
     "1 x Drawer bottom: 508 mm x 400.05 mm x 6.35 mm, birch plywood, bare\n",
     "1: read \"Part Name\" as part, \"Count\" as qty, \"Species\" as wood, \"Finish\" as all\n"
     "4: read \"American Walnut\" as walnut, \"baltic birch\" as birch plywood\n"},
    {ROW("German, semicolons and decimal commas, Windows-1252"), "kuechenschrank.csv",
     "2 x Seite: 720 mm x 560.5 mm x 19 mm, birch plywood, oil\n"
     "1 x Boden: 1162.5 mm x 560.5 mm x 19 mm, birch plywood, oil\n"
     "2 x T\xC3\xBCr: 716 mm x 596 mm x 19 mm, oak veneer, oil; Griffbohrung\n"
     "1 x Sockelblende: 1200 mm x 100 mm x 16 mm, mdf, oil\n",
     "2: 1 row above the heading left out\n"
     "2: read \"Bezeichnung\" as part, \"Anzahl\" as qty, \"L\xC3\xA4nge\" as length, \"Breite\" as width, "
     "\"St\xC3\xA4rke\" as thickness, \"Material\" as wood, \"Bemerkung\" as note\n"
     "2: no column of a part list, left out: \"Pos.\"\n"
     "2: read as Windows-1252\n"
     "3: decimal commas are read as points, as in \"560,5\"\n"
     "3: read \"Birke Multiplex\" as birch plywood, \"Eiche furniert\" as oak veneer\n"
     "7: line 7 left out: a total; line 8 left out: a total\n"},
    {ROW("French, L and l, blanks between thousands"), "meuble.csv",
     "1 x Plateau: 1400 mm x 700 mm x 27 mm, oak, oil\n"
     "4 x Pied: 720 mm x 70 mm x 70 mm, oak, oil\n"
     "2 x Traverse longue: 1200 mm x 90 mm x 22.5 mm, oak, oil\n"
     "2 x Fond de tiroir: 450.5 mm x 380 mm x 8 mm, plywood, bare\n",
     "1: read \"D\xC3\xA9signation\" as part, \"Qt\xC3\xA9\" as qty, \"L\" as length, \"l\" as width, "
     "\"\xC3\x89p.\" as thickness, \"Essence\" as wood, \"Finition\" as all\n"
     "2: read \"ch\xC3\xAAne massif\" as oak, \"Ch\xC3\xAAne\" as oak, \"contreplaqu\xC3\xA9\" as plywood\n"
     "4: decimal commas are read as points, as in \"22,5\"\n"},
    {ROW("tabs, length x width x thickness in one column"), "carcass.tsv",
     "2 x Side panel: 720 mm x 560 mm x 18 mm, mdf, oil\n"
     "3 x Shelf: 764 mm x 540 mm x 18 mm, mdf, oil\n"
     "1 x Plinth: 800 mm x 100 mm x 18 mm, mdf, oil\n"
     "2 x Door: 716 mm x 396 mm x 19 mm, oak veneer, oil\n",
     "1: read \"Item\" as part, \"L x W x T\" as length x width x thickness, \"No. of\" as qty, \"Material\" "
     "as wood\n"
     "1: no column of a part list, left out: \"Edge banding\", \"Cost\"\n"
     "2: read \"MR MDF\" as mdf, \"Oak veneered MDF\" as oak veneer\n"
     "5: decimal commas are read as points, as in \"71,6 cm x 39,6 cm x 1,9 cm\"\n"},
    {ROW("UTF-16, pieces by cabinet, height for length"), "doors-unicode.txt",
     "2 x Door: 716 mm x 396 mm x 19 mm, oak, oil (Base 1)\n"
     "1 x Drawer front: 140 mm x 796 mm x 19 mm, oak, oil (Base 1)\n"
     "2 x Door: 896 mm x 296 mm x 19 mm, oak, oil (Wall 1)\n"
     "1 x Filler: 896 mm x 50 mm x 19 mm, oak, oil (Wall 1)\n",
     "1: read \"Cabinet\" as piece, \"Quantity\" as qty, \"Height\" as length, \"Thk\" as thickness\n"
     "1: read as UTF-16\n"},
    {ROW("a drawing program's width x height x depth, and groups"), "drawing.csv",
     "2 x Side: 720 mm x 560 mm x 18 mm, plywood, oil\n"
     "2 x Top rail: 100 mm x 764 mm x 18 mm, plywood, oil; front and back\n"
     "4 x Drawer side: 120 mm x 500 mm x 12 mm, poplar, oil\n",
     "1: read \"Name\" as part, \"Quantity\" as qty, \"Dimensions (W x H x D)\" as width x length x "
     "thickness, the least as thickness, \"Material\" as wood, \"Comment\" as note\n"
     "1: no column of a part list, left out: \"Area (m\xC2\xB2)\"\n"
     "2: line 2 left out: nothing but a name; line 5 left out: nothing but a name; line 7 left out: a "
     "total\n"},
    {ROW("two units in one list, comments between"), "cut-centimetres.csv",
     "1 x Platte: 1800 mm x 900 mm x 30 mm, ash, oil\n"
     "2 x Zarge lang: 1505 mm x 100 mm x 22 mm, ash, oil\n"
     "2 x Zarge kurz: 700 mm x 100 mm x 22 mm, ash, oil\n"
     "4 x Bein: 720 mm x 70 mm x 70 mm, ash, oil\n",
     "3: 2 rows above the heading left out\n"
     "3: read \"Teil\" as part, \"St\xC3\xBC"
     "ck\" as qty, \"L\xC3\xA4nge [cm]\" as length in cm, \"Breite [cm]\" as "
     "width in cm, \"Dicke [mm]\" as thickness in mm, \"Holzart\" as wood\n"
     "4: read \"Esche\" as ash\n"
     "5: decimal commas are read as points, as in \"150,5\"\n"},
};

/* The warnings of how the list was read, each with its line. */
static const char *told(struct reader *reader)
{
    struct buf buf;
    buf_init(&buf, reader->arena);
    for (size_t i = 0; i < reader->warnings.count; i++) {
        const struct err *err = &reader->warnings.items[i];
        if (err->pointer[0] == '\0')
            buf_addf(&buf, "%d: %s\n", err->line, err->found);
    }
    return buf.text;
}

static void list_is_read(void **state)
{
    const struct list_row *r = *state;
    struct reader *reader = reader_make();
    const struct job *job = read_list(reader, list_path(reader, r->file), NULL, NULL);
    struct buf parts;
    check_true(&r->row, job != NULL, reader_lines(reader, &reader->errors));
    buf_init(&parts, reader->arena);
    for (size_t i = 0; i < job->part_count; i++)
        describe(&parts, job, &job->parts[i]);
    check_text(&r->row, parts.text, r->parts);
    check_text(&r->row, told(reader), r->told);
    reader_free(reader);
}

/* A strict job takes nothing that is read otherwise than it stands there. */
static void strict_lists_are_refused(void **state)
{
    const struct list_row *r = *state;
    struct reader *reader = reader_make();
    check_true(&r->row,
               !read_list(reader, list_path(reader, r->file), "\"all\"", "\"strict\": true, \"all\""),
               "refused");
    for (size_t i = 0; i < reader->errors.count; i++)
        check_text(&r->row, reader->errors.items[i].expected,
                   "a list that is read as it stands, for the job is \"strict\"");
    reader_free(reader);
}

struct cell_row {
    struct row row;
    const char *list; /* its first row is the part at hand */
    const char *want; /* the part, or the mistake */
};

#define NAMES "part;qty;length;width;thickness;wood\n"
#define DATE                                                                                                 \
    "expected a number, not a date: a spreadsheet made it of 7/8 or the like; make the column text and "     \
    "write it again, "                                                                                       \
    "found "
#define DOUBTFUL                                                                                             \
    "expected a number without a mark between thousands, or with fewer than three digits behind it, found "

static const struct cell_row cells[] = {
    {ROW("a date that was a fraction"), NAMES "a;1;600;7-Aug;20;oak\n", "row 1, width: " DATE "\"7-Aug\""},
    {ROW("the first of a month"), NAMES "a;1;600;1-Aug;20;oak\n", "row 1, width: " DATE "\"1-Aug\""},
    {ROW("a German one"), NAMES "a;1;600;07. Aug;20;oak\n", "row 1, width: " DATE "\"07. Aug\""},
    {ROW("a French one"), NAMES "a;1;600;7-ao\xC3\xBBt;20;oak\n", "row 1, width: " DATE "\"7-ao\xC3\xBBt\""},
    {ROW("a whole date"), NAMES "a;1;600;07.08.2026;20;oak\n", "row 1, width: " DATE "\"07.08.2026\""},
    {ROW("a date with its time"), NAMES "a;1;600;2026-08-07 00:00:00;20;oak\n",
     "row 1, width: " DATE "\"2026-08-07 00:00:00\""},
    {ROW("a count that was one"), NAMES "a;4-Mar;600;300;20;oak\n", "row 1, qty: " DATE "\"4-Mar\""},
    {ROW("a fraction is none"), NAMES "a;1;23 7/8 in;7-3/8 in;3/4 in;oak\n",
     "1 x a: 606.425 mm x 187.325 mm x 19.05 mm, oak, oil"},
    {ROW("points between thousands"), NAMES "a;1;1.200,5;300;20;oak\n",
     "1 x a: 1200.5 mm x 300 mm x 20 mm, oak, oil"},
    {ROW("a thousand or one"), NAMES "a;1;1.200;300;20;oak\n", "row 1, length: " DOUBTFUL "\"1.200\""},
    {ROW("a thousand or one, with a comma"), NAMES "a;1;1,200;300;20;oak\n",
     "row 1, length: " DOUBTFUL "\"1,200\""},
    {ROW("metres have three decimals"),
     "part;length (m);width (m);thickness (mm);wood\na;1,200;0,300;20;oak\n",
     "1 x a: 1200 mm x 300 mm x 20 mm, oak, oil"},
    {ROW("blanks between thousands"),
     NAMES "a;1;1\xC2\xA0"
           "200;300;20;oak\n",
     "1 x a: 1200 mm x 300 mm x 20 mm, oak, oil"},
    {ROW("a count with decimals"), NAMES "a;4,00;600;300;20;oak\n",
     "4 x a: 600 mm x 300 mm x 20 mm, oak, oil"},
    {ROW("a unit of the heading, and one of the cell"),
     "part,length (in),width (in),thickness,wood\na,24,12 cm,20,oak\n",
     "1 x a: 609.6 mm x 120 mm x 20 mm, oak, oil"},
    {ROW("a count has no unit, whatever its heading says"),
     "part,qty (mm),length (mm),width (mm),thickness (mm),wood\na,4,600,300,20,oak\n",
     "4 x a: 600 mm x 300 mm x 20 mm, oak, oil"},
    {ROW("in words"), "part,length in mm,\"width, mm\",thickness mm,wood\na,600,300,20,oak\n",
     "1 x a: 600 mm x 300 mm x 20 mm, oak, oil"},
    {ROW("crosses, and a unit behind the last"), "part,dimensions,wood\na,600x300 x 2 cm,oak\n",
     "1 x a: 6000 mm x 3000 mm x 20 mm, oak, oil"},
    {ROW("crosses close behind"), "part,Lx Wx T,wood\na,600 x 300 x 20,oak\n",
     "1 x a: 600 mm x 300 mm x 20 mm, oak, oil"},
    {ROW("multiplication signs"), "part,L \xC3\x97 W\xC3\x97T,wood\na,600 x 300 x 20,oak\n",
     "1 x a: 600 mm x 300 mm x 20 mm, oak, oil"},
    {ROW("inch marks"), "part,L x W x T,wood\na,\"23 1/2\"\" x 11 3/4\"\" x 3/4\"\"\",oak\n",
     "1 x a: 596.9 mm x 298.45 mm x 19.05 mm, oak, oil"},
    {ROW("two of three"), "part,L x W x T,wood\na,600 x 300,oak\n",
     "row 1, length: expected 3 lengths with an x between, such as \"600 x 400 x 18\", found \"600 x 300\""},
    {ROW("lumber stays lumber"), "part,length,size,wood\na,600,1x4,pine\n",
     "1 x a: 600 mm x 88.9 mm x 19.05 mm, pine, oil"},
    {ROW("a disc of lumber"), "part,shape,diameter,size,wood\na,disc,300,1x4,pine\n",
     "1 x a: 0 mm x 0 mm x 19.05 mm, pine, oil"},
    {ROW("a hexagon of lumber"), "part,shape,corners,side,size,wood\na,polygon,6,50,1x4,pine\n",
     "1 x a: 0 mm x 0 mm x 19.05 mm, pine, oil"},
    {ROW("sizes under our name for lumber"), "part,size,wood\na,600 x 300 x 20,oak\n",
     "1 x a: 600 mm x 300 mm x 20 mm, oak, oil"},
    {ROW("a number column under #"), "#,part,length,width,thickness,wood\n1,a,600,300,20,oak\n",
     "1 x a: 600 mm x 300 mm x 20 mm, oak, oil"},
    {ROW("a part without a name"), NAMES ";1;600;300;20;oak\n",
     "row 1, part: expected the part's name, found nothing"},
    {ROW("a height for the width"), "part,length,height,thickness,wood\na,600,300,20,oak\n",
     "1 x a: 600 mm x 300 mm x 20 mm, oak, oil"},
    {ROW("a height that is neither width nor thickness"), "part,length,height,wood\na,600,300,oak\n",
     "row 1, width: expected a length above 0, found none\n"
     "list.csv:2:1: row 1, thickness: expected a length above 0, found none\n"
     "list.csv:2:7: row 1, height: expected no height: the shape board has none, found 300 mm"},
    {ROW("twice under one name"), "part,length,length,width,thickness\na,1,2,3,4\n",
     "expected each column once, found \"length\""},
    {ROW("of two names our own"), "Name,part,length,width,thickness,wood\nx,a,600,300,20,oak\n",
     "1 x a: 600 mm x 300 mm x 20 mm, oak, oil"},
};

/* Behind "file:line:column: ", without the row at which the message ends. */
static const char *behind_place(const char *line)
{
    const char *at = strstr(line, ": ");
    return at ? at + 2 : line;
}

static void cell_is_read(void **state)
{
    const struct cell_row *r = *state;
    struct reader *reader = reader_make();
    struct buf text;
    (void)reader_path(reader, "list.csv", r->list);
    const struct job *job = read_list(reader, "list.csv", NULL, NULL);
    buf_init(&text, reader->arena);
    if (job)
        describe(&text, job, &job->parts[0]);
    check_text(&r->row,
               job ? text_trimmed(reader->arena, text.text)
                   : behind_place(reader_lines(reader, &reader->errors)),
               r->want);
    reader_free(reader);
}

/* Mistakes that are found later have the place of their cell, whatever stands above the heading. */
static void later_mistakes_find_their_row(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    (void)reader_path(
        reader, "list.csv",
        "A title\n\nDescription;Qty;L x W x T\nGroup;;\na;1;600 x 300 x 20\nb;1;600 x 0 x 20\n");
    check_true(HERE, !read_list(reader, "list.csv", NULL, NULL), "refused");
    check_text(HERE, reader_lines(reader, &reader->errors),
               "list.csv:6:5: row 2, width: expected a length above 0, found none");
    reader_free(reader);
}

/* What a row says goes before what its piece says, that before the job; insides of boxes have a word of their own. */
static void schedules_from_the_job(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    (void)reader_path(
        reader, "list.csv",
        "part,piece,shape,wood,length,width,height,thickness,all,edges\n"
        "side,case,,oak,600,300,,20,,\nback,case,,oak,600,300,,6,oil,-\ntop,top,,oak,600,300,,20,,\n"
        "tray,tray,box,oak,300,200,80,9,,\n");
    const struct job *read = read_list(reader, "list.csv", "\"all\": \"oil\"",
                                       "\"inside\": \"wax\", \"all\": \"oil\", "
                                       "\"pieces\": [{\"piece\": \"case\", \"all\": \"wax\"}]");
    check_true(HERE, read != NULL, reader_lines(reader, &reader->errors));
    const struct part *side = &read->parts[0], *back = &read->parts[1], *top = &read->parts[2],
                      *tray = &read->parts[3];
    check_int(HERE, side->schedule[REGION_FACE], 1);
    check_int(HERE, back->schedule[REGION_FACE], 0);
    check_int(HERE, back->schedule[REGION_EDGES], SCHEDULE_BARE);
    check_int(HERE, top->schedule[REGION_FACE], 0);
    check_int(HERE, tray->schedule[REGION_OUTSIDE], 0);
    check_int(HERE, tray->schedule[REGION_INSIDE], 1);
    check_true(HERE, !read_list(reader, "list.csv", "\"all\": \"oil\"", "\"all\": \"oyl\""),
               "no such schedule");
    reader_free(reader);
}

/* A total may end in a colon, and blanks before it; it is no part. */
static void a_total_with_a_colon(void **state)
{
    (void)state;
    static const char *const totals[] = {"Total", "Total:", "total :", "TOTAL: "};
    for (size_t i = 0; i < sizeof totals / sizeof totals[0]; i++) {
        struct reader *reader = reader_make();
        (void)reader_path(
            reader, "list.csv",
            arena_textf(reader->arena, NAMES "a;1;600;300;20;oak\n%s;1;600;300;20;oak\n", totals[i]));
        const struct job *job = read_list(reader, "list.csv", NULL, NULL);
        check_true(HERE, job && job->part_count == 1, totals[i]);
        reader_free(reader);
    }
}

/* Nothing gets a finish: what is missing is named. */
static void no_finish(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    (void)reader_path(reader, "list.csv", "part,length,width,thickness,wood\na,600,300,20,oak\n");
    check_true(HERE, !read_list(reader, "list.csv", "\"all\": \"oil\", ", ""), "refused");
    check_text(HERE, reader_lines(reader, &reader->errors),
               "list.csv:1:1: expected a finish on at least one surface: a schedule (oil, wax) in a column "
               "all, face, "
               "back, edges, ends, inside or outside, or \"all\" in the job, found none");
    reader->errors.count = 0;
    check_true(HERE, !read_list(reader, "list.csv", ", {\"coat\": \"hardwax-oil\", \"coats\": 2}", ""),
               "refused");
    check_text(HERE, reader_lines(reader, &reader->errors),
               "job.json:3:23: /schedules/oil: expected at least one coat in the schedules that parts use, "
               "found none");
    reader_free(reader);
}

/* The lists with bytes exchanged, left out and written twice: whatever comes of it, reading ends, and every message has its
 * place. */
static void spoilt_lists(void **state)
{
    (void)state;
    static const char bytes[] = "\0\t\n\r \"#',.-/x*0195aL();|\x80\xC3\xE2\xFF";
    uint64_t seed = 14;
    for (int round = 0; round < 240; round++) {
        struct reader *reader = reader_make();
        const struct list_row *list = &lists[round % (int)(sizeof lists / sizeof lists[0])];
        struct file_text file;
        struct err fault;
        assert_true(file_load(reader->arena, list_path(reader, list->file), &file, &fault));
        char *text = arena_text_n(reader->arena, file.text, file.length);
        memcpy(text, file.text, file.length);
        size_t length = file.length;
        for (int n = check_random_int(&seed, 1, 6); n > 0 && length > 4; n--) {
            size_t at = (size_t)check_random_int(&seed, 0, (int)length - 1);
            if (check_random_int(&seed, 0, 2) == 0)
                memmove(text + at, text + at + 1, --length - at);
            else
                text[at] = bytes[check_random_int(&seed, 0, (int)sizeof bytes - 2)];
        }
        FILE *out = fopen("spoilt.csv", "wb");
        assert_non_null(out);
        assert_int_equal(fwrite(text, 1, length, out), length);
        fclose(out);
        (void)read_list(reader, "spoilt.csv", NULL, NULL);
        for (size_t i = 0; i < reader->errors.count; i++)
            if (reader->errors.items[i].line < 1 || !reader->errors.items[i].expected[0])
                fail_msg("round %d: %s", round, reader_lines(reader, &reader->errors));
        reader_free(reader);
    }
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_ROWS(lists, list_is_read), CHECK_ROWS(lists, strict_lists_are_refused),
                     CHECK_ROWS(cells, cell_is_read), CHECK_TEST(later_mistakes_find_their_row),
                     CHECK_TEST(a_total_with_a_colon), CHECK_TEST(no_finish),
                     CHECK_TEST(schedules_from_the_job), CHECK_TEST(spoilt_lists));
}
