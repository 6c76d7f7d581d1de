/* The care card that goes with the piece to the customer. */
#include "report/sheet.h"

#include "base/arena.h"
#include "base/moment.h"
#include "format/html.h"
#include "report/sentences.h"
#include "report/text_parts.h"

#include <string.h>

enum { TOPS_MOST = 16 };

/* What lies on top: the finishes of the last coats, of all pieces or of one. */
struct tops {
    const struct finish *items[TOPS_MOST];
    size_t count;
};

static void add_top(struct tops *tops, const struct operation *operation, size_t piece)
{
    if (operation->doing != DO_APPLY || !operation->last_coat ||
        (piece != SIZE_MAX && operation->piece != (int)piece))
        return;
    for (size_t i = 0; i < tops->count; i++)
        if (finish_same(tops->items[i], operation->of.step->finish))
            return;
    if (tops->count < TOPS_MOST)
        tops->items[tops->count++] = operation->of.step->finish;
}

static struct tops tops_of(const struct plan *plan, size_t piece)
{
    const struct operations *operations = plan->timetable->operations;
    struct tops tops = {.count = 0};
    for (size_t i = 0; i < operations->fact_count; i++)
        add_top(&tops, &operations->facts[i].operation, piece);
    for (size_t i = 0; i < operations->count; i++)
        add_top(&tops, &operations->items[i], piece);
    return tops;
}

static bool takes_water(const struct tops *tops)
{
    for (size_t i = 0; i < tops->count; i++)
        if (tops->items[i]->resists[RESISTS_WATER] == 0)
            return false;
    return true;
}

enum { CARE_CELLS = 5 };

/* The last names of its pieces count on. */
struct care_row {
    const char *cells[CARE_CELLS]; /* the first are the names before those */
    const char *first, *last;
};

static const char *day_of(const struct sheet *sheet, int64_t minute)
{
    return minute == INT64_MAX ? "never" : sheet_day(sheet, minute);
}

static struct care_row row_of(const struct sheet *sheet, const struct plan *plan, size_t piece)
{
    struct tops tops = tops_of(plan, piece);
    const struct timetable *timetable = plan->timetable;
    const char *cured = day_of(sheet, piece_reaches(timetable, piece, STATE_CURED));
    struct buf finishes;
    buf_init(&finishes, sheet->arena);
    for (size_t i = 0; i < tops.count; i++)
        buf_addf(&finishes, "%s%s", i ? ", " : "", tops.items[i]->name);
    const char *name = plan->job->pieces[piece].name;
    return (struct care_row){{"", finishes.text,
                              day_of(sheet, piece_reaches(timetable, piece, STATE_LIGHT_USE)),
                              takes_water(&tops) ? cured : "use none at all", cured},
                             name,
                             name};
}

static bool is_alike(const struct care_row *a, const struct care_row *b)
{
    for (size_t i = 1; i < CARE_CELLS; i++)
        if (strcmp(a->cells[i], b->cells[i]) != 0)
            return false;
    return true;
}

static const char *names_told(const struct sheet *sheet, const struct care_row *row)
{
    return arena_textf(sheet->arena, "%s%s%s", row->cells[0], *row->cells[0] ? ", " : "",
                       names_span(sheet->arena, row->first, row->last));
}

static void join(const struct sheet *sheet, struct care_row *row, const char *name)
{
    if (!names_count_on(row->last, name)) {
        row->cells[0] = names_told(sheet, row);
        row->first = name;
    }
    row->last = name;
}

/* Pieces that are alike in all of it are one row. */
static size_t rows_of(const struct sheet *sheet, const struct plan *plan, struct care_row *rows)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->job->piece_count; i++) {
        if (piece_reaches(plan->timetable, i, STATE_LIGHT_USE) == INT64_MIN)
            continue;
        struct care_row row = row_of(sheet, plan, i);
        size_t at = 0;
        while (at < count && !is_alike(&rows[at], &row))
            at++;
        if (at == count)
            rows[count++] = row;
        else
            join(sheet, &rows[at], row.first);
    }
    return count;
}

static void add_rows(const struct sheet *sheet, const struct plan *plan)
{
    static const char *const titles[CARE_CELLS] = {"piece", "finish", "handle with care until",
                                                   "no wet cloth until", "fully cured on"};
    struct care_row *rows = ARENA_ARRAY(sheet->arena, plan->job->piece_count + 1, struct care_row);
    size_t count = rows_of(sheet, plan, rows);
    html_open(sheet->out, "table", "class=\"dates\"");
    html_open(sheet->out, "thead", "");
    html_open(sheet->out, "tr", "");
    for (size_t k = 0; k < CARE_CELLS; k++)
        html_element(sheet->out, "th", "", titles[k]);
    html_close(sheet->out, "tr");
    html_close(sheet->out, "thead");
    html_open(sheet->out, "tbody", "");
    for (size_t i = 0; i < count; i++) {
        html_open(sheet->out, "tr", "");
        for (size_t k = 0; k < CARE_CELLS; k++)
            html_element(sheet->out, k ? "td" : "th", "", k ? rows[i].cells[k] : names_told(sheet, &rows[i]));
        html_close(sheet->out, "tr");
    }
    html_close(sheet->out, "tbody");
    html_close(sheet->out, "table");
}

/* By what the finish withstands once it is cured, 0 to 3: common practice. What has no marks worth a sentence has none. */
static const char *care_words(const struct sheet *sheet, const struct finish *finish)
{
    static const char *const water[] = {"dust it with a dry cloth, and keep water off it",
                                        "dust it with a dry cloth, and wipe up water at once",
                                        "clean it with a damp cloth and dry it, and wipe up water soon",
                                        "clean it with a damp cloth and dry it"};
    static const char *const alcohol[] = {"; keep wine, spirits and scent off it",
                                          "; wipe up wine and spirits at once",
                                          "; wipe up wine and spirits soon", ""};
    static const char *const heat[] = {"; put nothing warm on it", "; put cups and plates on mats",
                                       "; put hot pots on mats", "; put pots from the stove on mats"};
    static const char *const wear[] = {"; put felt below what stands on it",
                                       "; put felt below what stands on it", "", ""};
    const int *marks = finish->resists;
    return arena_textf(sheet->arena, "%s: %s%s%s%s.", finish->name, water[marks[RESISTS_WATER]],
                       alcohol[marks[RESISTS_ALCOHOL]], heat[marks[RESISTS_HEAT]], wear[marks[RESISTS_WEAR]]);
}

void sheet_care(const struct sheet *sheet, const struct plan *plan)
{
    const struct job *job = plan->job;
    struct tops tops = tops_of(plan, SIZE_MAX);
    if (tops.count == 0)
        return;
    html_open(sheet->out, "section", "class=\"care page\"");
    html_element(sheet->out, "h2", "",
                 arena_textf(sheet->arena, "Care of %s%s%s", job->name, job->customer ? ", for " : "",
                             job->customer ? job->customer : ""));
    add_rows(sheet, plan);
    html_element(sheet->out, "h3", "", "Once it is fully cured");
    for (size_t i = 0; i < tops.count; i++)
        html_element(sheet->out, "p", "", care_words(sheet, tops.items[i]));
    html_element(sheet->out, "p", "", "What the maker of a finish says of it comes first.");
    html_close(sheet->out, "section");
}
