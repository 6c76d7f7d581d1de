/* The batches of the sheet, day by day. */
#include "report/sheet.h"

#include "base/arena.h"
#include "base/moment.h"
#include "base/text.h"
#include "format/html.h"
#include "report/log.h"
#include "report/sentences.h"
#include "report/text_parts.h"

#include <stdlib.h>
#include <string.h>

static const char *of_look(const struct sheet *sheet, const char *class, const char *key, const char *value,
                           const struct plan *plan)
{
    struct buf look;
    buf_init(&look, sheet->arena);
    html_attribute(&look, "class", class);
    html_attribute(&look, key, value);
    html_attribute(&look, "data-job", plan->job->name);
    return look.text;
}

/* How much in all: once for each job that has a share in the batch. */
static void add_amounts(const struct sheet *sheet, const struct day_batch *batch)
{
    for (size_t i = 0; i < batch->share_count; i++) {
        const struct day_share *share = &batch->shares[i];
        const struct timetable *timetable = share->plan->timetable;
        html_element(sheet->out, "b", of_look(sheet, "amount", "data-batch", share->batch->id, share->plan),
                     batch_amount(sheet->arena, timetable, share->batch, sheet->want.units));
    }
}

static void add_cells(const struct sheet *sheet, const struct table *table)
{
    bool any = false;
    for (size_t i = 0; i < table->row_count; i++) {
        if (table->rows[i].kind != ROW_CELLS)
            continue;
        if (!any)
            html_open(sheet->out, "table", "");
        any = true;
        html_open(sheet->out, "tr", "");
        for (size_t k = 0; k < table->column_count; k++)
            html_element(sheet->out, "td",
                         k > 1 ? "class=\"right\""
                         : k   ? "class=\"wide\""
                               : "",
                         table->rows[i].cells[k]);
        html_close(sheet->out, "tr");
    }
    if (any)
        html_close(sheet->out, "table");
}

/* What ends by itself: the moment to be there by. */
static bool is_window(const struct sheet *sheet, const struct day_batch *batch, const char *note)
{
    for (size_t i = 0; i < batch->share_count; i++) {
        const struct day_share *share = &batch->shares[i];
        const char *window = batch_window_words(sheet->arena, share->plan->timetable, share->batch);
        if (window && strcmp(window, note) == 0)
            return true;
    }
    return false;
}

/* One after the other, for a day is to be seen at a glance. */
static void add_notes(const struct sheet *sheet, const struct day_batch *batch, const struct table *table)
{
    size_t told = 0;
    html_open(sheet->out, "p", "");
    for (size_t i = 0; i < table->row_count; i++) {
        const char *note = table->rows[i].cells[0];
        if (table->rows[i].kind != ROW_NOTE)
            continue;
        buf_add(sheet->out, told++ ? "\xC2\xB7 " : "");
        html_element(sheet->out, is_window(sheet, batch, note) ? "strong" : "span", "", note);
    }
    html_close(sheet->out, "p");
}

/* The person's name stands only where a sheet is everyone's. */
static const char *who(const struct sheet *sheet, const struct day_batch *batch)
{
    const struct shop *shop = &sheet->plans[0]->job->shop;
    if (sheet->want.person || shop->people == 1)
        return "";
    return arena_textf(sheet->arena, ", %s", person_name(sheet->arena, shop, day_batch_main(batch)->person));
}

static void add_batch(const struct sheet *sheet, const struct day_card *card, const struct day_batch *batch)
{
    struct screen screen = sheet->screen;
    struct table table;
    int person = sheet->want.person ? sheet->want.person : day_batch_main(batch)->person;
    table_day_init(&table, sheet->arena);
    table_day_batch(&table, &screen, card, batch, person);
    html_open(sheet->out, "section", "class=\"batch\"");
    sheet_box(sheet, false);
    add_amounts(sheet, batch);
    for (size_t i = 0; i < table.row_count; i++)
        if (table.rows[i].kind == ROW_GROUP)
            html_element(sheet->out, "h4", "",
                         arena_textf(sheet->arena, "%s%s", table.rows[i].cells[0], who(sheet, batch)));
    add_cells(sheet, &table);
    add_notes(sheet, batch, &table);
    html_close(sheet->out, "section");
}

/* What the facts of a batch broke. */
static void add_broken(const struct sheet *sheet, const struct plan *plan, const struct done_batch *done)
{
    const struct operations *operations = plan->timetable->operations;
    for (size_t i = 0; i < operations->fact_count; i++) {
        const struct fact *fact = &operations->facts[i];
        const char *broke;
        if (!fact->entry)
            continue;
        const char *id = fact->entry->batch ? fact->entry->batch : fact->operation.id;
        for (int k = 0; strcmp(id, done->id) == 0 && (broke = fact_broke(sheet->arena, operations, fact, k));
             k++)
            html_element(sheet->out, "p", "", broke);
    }
}

static void add_done(const struct sheet *sheet, const struct plan *plan, const struct done_batch *done)
{
    const struct zone *zone = plan->job->zone;
    const char *from = arena_text(sheet->arena, moment_format(zone, done->from_min, MOMENT_TIME).text);
    bool same = zone_day(zone, done->from_min, NULL) == zone_day(zone, done->to_min, NULL);
    const char *to = arena_text(sheet->arena,
                                moment_format(zone, done->to_min, same ? MOMENT_TIME : MOMENT_DAY_TIME).text);
    html_open(sheet->out, "section", of_look(sheet, "batch done", "data-done", done->id, plan));
    sheet_box(sheet, true);
    html_element(sheet->out, "h4", "",
                 arena_textf(sheet->arena, "%s to %s %s%s%s", from, to,
                             step_words(sheet->arena, &done->first->operation), *done->pieces ? ": " : "",
                             done->pieces));
    add_broken(sheet, plan, done);
    html_close(sheet->out, "section");
}

/* Whoever did it; where nobody is named it may have been anybody. */
static bool is_of(const struct sheet *sheet, const struct plan *plan, const struct done_batch *done)
{
    const char *person = done->first->entry->person;
    if (!sheet->want.person || !person)
        return true;
    return text_same(person, person_name(sheet->arena, &plan->job->shop, sheet->want.person));
}

static int by_beginning(const void *a, const void *b)
{
    const struct done_batch *left = a, *right = b;
    return left->from_min < right->from_min ? -1 : left->from_min > right->from_min;
}

static size_t add_done_on(const struct sheet *sheet, int64_t day)
{
    size_t told = 0;
    for (size_t i = 0; i < sheet->count; i++) {
        const struct plan *plan = sheet->plans[i];
        size_t count;
        struct done_batch *done = done_batches(sheet->arena, plan->timetable, &count);
        qsort(done, count, sizeof *done, by_beginning);
        for (size_t k = 0; k < count; k++)
            if (zone_day(plan->job->zone, done[k].from_min, NULL) == day && is_of(sheet, plan, &done[k])) {
                add_done(sheet, plan, &done[k]);
                told++;
            }
    }
    return told;
}

void sheet_work(const struct sheet *sheet)
{
    html_open(sheet->out, "section", "class=\"work\"");
    html_element(sheet->out, "h2", "", "Work");
    for (size_t i = 0; i < sheet->day_count; i++) {
        const struct day_card *card = sheet->days[i];
        html_element(sheet->out, "h3", "",
                     sheet_day(sheet, zone_moment_on(sheet->plans[0]->job->zone, card->day, 0)));
        size_t told = add_done_on(sheet, card->day);
        for (size_t k = 0; k < card->count; k++)
            add_batch(sheet, card, &card->batches[k]);
        if (told + card->count == 0)
            html_element(sheet->out, "p", "", "no work");
    }
    if (sheet->day_count == 0)
        html_element(sheet->out, "p", "", "no work, and none is left");
    html_close(sheet->out, "section");
}
