#include "report/sheet.h"

#include "base/arena.h"
#include "base/moment.h"
#include "format/html.h"
#include "report/log.h"
#include "report/sentences.h"
#include "report/text.h"
#include "report/text_parts.h"

#include <stdlib.h>
#include <string.h>

enum { UNWRAPPED = 100000 }; /* cells: the browser wraps */

/* Black on white but for the drawings, whose hatching tells their colours apart; 9 points and more. A row, a batch, a card and a
 * drawing stay whole, a heading stays with what follows it. */
static const char style[] =
    "* { box-sizing: border-box; }\n"
    "body { margin: 0 auto; padding: 4mm; max-width: 202mm; font: 10pt/1.3 sans-serif; color: #000; "
    "background: #fff; }\n"
    "h1 { font-size: 18pt; margin: 0 0 1mm; }\n"
    "h2 { font-size: 14pt; margin: 5mm 0 2mm; border-bottom: 0.5mm solid #000; }\n"
    "h3 { font-size: 12pt; margin: 3mm 0 1mm; }\n"
    "h4 { font-size: 10.5pt; margin: 0; }\n"
    "h1, h2, h3, h4 { break-after: avoid; break-inside: avoid; overflow-wrap: anywhere; }\n"
    "p { margin: 0.4mm 0; orphans: 3; widows: 3; overflow-wrap: anywhere; }\n"
    "table { border-collapse: collapse; width: 100%; }\n"
    "tr, section.batch, section.mix, svg { break-inside: avoid; }\n"
    "td, th { padding: 0.3mm 3mm 0.3mm 0; text-align: left; vertical-align: top; overflow-wrap: anywhere; }\n"
    ".wide { width: 99%; }\n"
    "td:not(.wide), .amount { white-space: nowrap; }\n"
    ".right { text-align: right; }\n"
    ".verdict { white-space: pre-line; }\n"
    ".box { display: inline-block; width: 5mm; height: 5mm; border: 0.4mm solid #000; text-align: center; "
    "font: bold 12pt/4.4mm sans-serif; }\n"
    ".batch { position: relative; padding: 1mm 0 1.5mm 9mm; border-top: 0.2mm solid #777; }\n"
    ".batch > .box { position: absolute; left: 0; top: 1.2mm; }\n"
    ".batch .amount { float: right; clear: right; margin-left: 4mm; font-size: 10.5pt; }\n"
    ".tick { width: 9mm; }\n"
    ".buy tr { border-top: 0.2mm solid #777; }\n"
    ".mix { border: 0.6mm solid #000; padding: 3mm 5mm; margin: 0 0 5mm; }\n"
    ".mix h3 { font-size: 17pt; margin: 1mm 0 2mm; }\n"
    ".mix p { font-size: 12pt; }\n"
    ".mix .by { font-size: 24pt; line-height: 1.1; margin: 0; }\n"
    ".mix .by b { font-size: 46pt; }\n"
    ".mix .ends { font-size: 14pt; }\n"
    ".pours { margin: 1mm 0 2mm; }\n"
    ".pours th, .pours td { font-size: 22pt; padding: 0.5mm 3mm; border-top: 0.2mm solid #000; }\n"
    ".pours td { font-weight: bold; }\n"
    ".pours .total { font-size: 14pt; font-weight: normal; vertical-align: bottom; }\n"
    ".fill { table-layout: fixed; margin: 2mm 0 0; }\n"
    ".fill td { height: 14mm; border: 0.2mm solid #000; padding: 1mm 2mm; font-size: 10pt; }\n"
    ".parts svg { vertical-align: top; margin: 0 0 4mm; max-width: 100%; height: auto; }\n"
    ".patterns { position: absolute; }\n"
    ".timetable svg { display: block; width: 100%; height: auto; max-height: 192mm; }\n"
    ".cautions p:last-child { break-before: avoid; }\n"
    ".care { font-size: 12pt; }\n"
    ".dates { table-layout: fixed; }\n"
    ".dates td { white-space: normal; font-size: 10pt; }\n"
    ".dates th { width: 22%; font-size: 10.5pt; }\n"
    ".dates th:nth-child(n + 3) { width: 18%; }\n"
    ".dates th, .dates td { border-bottom: 0.2mm solid #777; padding: 1.5mm 3mm 1.5mm 0; }\n"
    "@media print {\n"
    "body { padding: 0; max-width: none; }\n"
    ".page { break-before: page; }\n"
    ".timetable { page: across; break-before: page; }\n"
    "}\n";

/* Letter is shorter and wider than A4. */
static const char *style_of(const struct sheet *sheet)
{
    const char *paper = sheet->want.paper == PAPER_LETTER ? "letter" : "A4";
    return arena_textf(sheet->arena,
                       "@page { size: %s; margin: 12mm; @bottom-right { content: counter(page) \" of \" "
                       "counter(pages); font: 9pt sans-serif; } }\n"
                       "@page across { size: %s landscape; margin: 8mm; }\n%s",
                       paper, paper, style);
}

void sheet_box(const struct sheet *sheet, bool ticked)
{
    html_element(sheet->out, "span",
                 ticked ? "class=\"box\" role=\"img\" aria-label=\"done\""
                        : "class=\"box\" role=\"img\" aria-label=\"to be done\"",
                 ticked ? "\xE2\x9C\x93" : "");
}

const char *sheet_day(const struct sheet *sheet, int64_t minute)
{
    const struct zone *zone = sheet->plans[0]->job->zone;
    return arena_textf(sheet->arena, "%s %d", moment_format(zone, minute, MOMENT_DAY).text,
                       zone_wall(zone, minute).year);
}

static int by_number(const void *a, const void *b)
{
    const int64_t *left = a, *right = b;
    return *left < *right ? -1 : *left > *right;
}

/* Every day on which a batch begins, or began; some of them several times. */
static size_t days_of(const struct sheet *sheet, int64_t **days)
{
    size_t room = 0, count = 0;
    for (size_t i = 0; i < sheet->count; i++)
        room += sheet->plans[i]->timetable->batch_count + sheet->plans[i]->timetable->operations->fact_count;
    *days = ARENA_ARRAY(sheet->arena, room + 1, int64_t);
    for (size_t i = 0; i < sheet->count; i++) {
        const struct timetable *timetable = sheet->plans[i]->timetable;
        const struct zone *zone = timetable->job->zone;
        size_t done;
        const struct done_batch *batches = done_batches(sheet->arena, timetable, &done);
        for (size_t k = 0; k < done; k++)
            (*days)[count++] = zone_day(zone, batches[k].from_min, NULL);
        for (size_t k = 0; k < timetable->batch_count; k++)
            (*days)[count++] = zone_day(zone, timetable->batches[k].start_min, NULL);
    }
    qsort(*days, count, sizeof **days, by_number);
    return count;
}

/* A person's sheet leaves out days on which that person is off, and nothing was done. */
static void fill_days(struct sheet *sheet)
{
    int64_t *days;
    size_t count = days_of(sheet, &days);
    if (sheet->want.day != INT64_MIN) {
        count = 1;
        days[0] = sheet->want.day;
    }
    sheet->days = ARENA_ARRAY(sheet->arena, count, const struct day_card *);
    for (size_t i = 0; i < count; i++) {
        if (i > 0 && days[i] == days[i - 1])
            continue;
        const struct day_card *card =
            day_card_make(sheet->arena, sheet->plans, sheet->count, days[i], sheet->want.person);
        if (card->count || !sheet->want.person || sheet->want.day != INT64_MIN)
            sheet->days[sheet->day_count++] = card;
    }
}

/* Ready when, and what was done, as on the terminal. */
static void add_verdicts(const struct sheet *sheet)
{
    for (size_t i = 0; i < sheet->count; i++) {
        struct screen screen = sheet->screen;
        struct buf text;
        buf_init(&text, sheet->arena);
        screen.out = &text;
        if (sheet->count > 1)
            html_element(sheet->out, "h3", "", sheet->plans[i]->job->name);
        show_verdict(&screen, sheet->plans[i]->timetable);
        show_done(&screen, sheet->plans[i]->timetable);
        html_element(sheet->out, "p", "class=\"verdict\"", text.text);
    }
}

static void add_head(const struct sheet *sheet, const char *title)
{
    const struct job *job = sheet->plans[0]->job;
    const char *person = sheet->want.person
                             ? arena_textf(sheet->arena, "; work of %s",
                                           person_name(sheet->arena, &job->shop, sheet->want.person))
                             : "";
    html_element(sheet->out, "h1", "", title);
    html_element(sheet->out, "p", "",
                 arena_textf(sheet->arena, "planned %s%s",
                             moment_format(job->zone, sheet->want.now_min, MOMENT_LONG).text, person));
    add_verdicts(sheet);
}

/* A sentence of several jobs once. */
static void add_caution(const struct sheet *sheet, struct buf *said, const struct plan_caution *caution)
{
    const char *words = plan_caution_words(sheet->arena, caution, sheet->want.units);
    if (strstr(said->text, words))
        return;
    if (!said->length) {
        html_open(sheet->out, "section", "class=\"cautions\"");
        html_element(sheet->out, "h2", "", "Take care");
        html_element(sheet->out, "p", "", arena_textf(sheet->arena, "In all of this %s.", caution_rider()));
    }
    buf_addf(said, "%s\n", words);
    html_element(sheet->out, "p", "", words);
}

/* All of a plan's, or those of the batches that are told. */
static void add_cautions(const struct sheet *sheet, bool whole)
{
    struct buf said;
    buf_init(&said, sheet->arena);
    for (size_t i = 0; whole && i < sheet->count; i++)
        for (size_t k = 0; k < sheet->plans[i]->caution_count; k++)
            add_caution(sheet, &said, &sheet->plans[i]->cautions[k]);
    for (size_t i = 0; !whole && i < sheet->day_count; i++)
        for (size_t k = 0; k < sheet->days[i]->count; k++)
            for (size_t n = 0; n < sheet->days[i]->batches[k].caution_count; n++)
                add_caution(sheet, &said, &sheet->days[i]->batches[k].cautions[n].caution);
    if (!said.length)
        return;
    html_close(sheet->out, "section");
}

static void add_parts(const struct sheet *sheet, const struct plan *plan)
{
    html_open(sheet->out, "section", "class=\"parts page\"");
    html_element(sheet->out, "h2", "", arena_textf(sheet->arena, "Parts of %s", plan->job->name));
    area_cards_svg(sheet->out, plan->job, plan->surfaces, sheet->want.units, sheet->want.paper);
    html_close(sheet->out, "section");
}

static void add_timetable(const struct sheet *sheet, const struct plan *plan)
{
    if (plan->timetable->batch_count == 0)
        return;
    html_open(sheet->out, "section", "class=\"timetable\"");
    timetable_bands_svg(sheet->out, plan->timetable);
    html_close(sheet->out, "section");
}

void write_sheet(struct buf *out, const struct plan *const *plans, size_t count, struct sheet_want want)
{
    struct sheet sheet = {.out = out,
                          .arena = out->arena,
                          .screen = {out, want.units, false, UNWRAPPED},
                          .plans = plans,
                          .count = count,
                          .want = want};
    bool whole = want.day == INT64_MIN && want.person == 0;
    struct buf title;
    buf_init(&title, out->arena);
    for (size_t i = 0; i < count; i++) {
        const char *customer = plans[i]->job->customer;
        buf_addf(&title, "%s%s%s%s", i ? "; " : "", plans[i]->job->name, customer ? ", for " : "",
                 customer ? customer : "");
    }
    fill_days(&sheet);
    html_begin(out, title.text, style_of(&sheet));
    drawing_patterns(out);
    add_head(&sheet, title.text);
    sheet_work(&sheet);
    for (size_t i = 0; whole && i < count; i++)
        sheet_shopping(&sheet, plans[i]);
    add_cautions(&sheet, whole);
    sheet_mixes(&sheet);
    for (size_t i = 0; whole && i < count; i++)
        add_parts(&sheet, plans[i]);
    for (size_t i = 0; whole && i < count; i++)
        add_timetable(&sheet, plans[i]);
    for (size_t i = 0; whole && i < count; i++)
        sheet_care(&sheet, plans[i]);
    html_end(out);
}
