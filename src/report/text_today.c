#include "report/text.h"

#include "base/arena.h"
#include "base/moment.h"
#include "report/log.h"
#include "report/sentences.h"
#include "report/text_parts.h"

#include <stdlib.h>
#include <string.h>

enum { NEXT_WIDTH = 40 }; /* cells of the pieces of a batch to come */

/* What is being printed, and where. */
struct day_page {
    struct screen *screen;
    struct arena *arena;
    const struct day_card *card;
};

static const struct zone *zone_of(const struct day_page *page)
{
    return page->card->plans[0]->job->zone;
}

static const char *person_of(const struct day_page *page, int person)
{
    return person_name(page->arena, &page->card->plans[0]->job->shop, person);
}

/* The time alone on the day of the card. */
static const char *when(const struct day_page *page, int64_t minute)
{
    bool today = zone_day(zone_of(page), minute, NULL) == page->card->day;
    enum moment_style style = today ? MOMENT_TIME : MOMENT_DAY_TIME;
    return arena_text(page->arena, moment_format(zone_of(page), minute, style).text);
}

static const char *hours_of(const struct day_page *page, const struct timetable_batch *batch)
{
    return arena_textf(page->arena, "%s to %s", when(page, batch->start_min), when(page, batch->end_min));
}

/* Of the first job that has a share in it. */
static const char *work_of(const struct day_page *page, const struct day_batch *batch)
{
    return batch_words(page->arena, batch->shares[0].plan->timetable, batch->shares[0].batch);
}

static const char *title_of(const struct day_page *page, const struct day_batch *batch)
{
    const struct operation *first = day_batch_main(batch)->first;
    return arena_textf(page->arena, "%s  %s%s%s", hours_of(page, day_batch_main(batch)), work_of(page, batch),
                       first->doing == DO_APPLY ? ", by " : "",
                       first->doing == DO_APPLY ? tool_name(first->of.step->by) : "");
}

/* Steps of one share that are told as one, by their start. */
struct day_run {
    const struct day_share *share;
    struct batch_run run;
    int64_t start_min, minutes;
};

static struct day_run run_of(const struct day_share *share, const struct batch_run *run)
{
    const struct timetable_step *steps = share->plan->timetable->steps;
    struct day_run told = {share, *run, steps[share->batch->steps[run->first]].start_min, 0};
    for (size_t i = run->first; i < run->first + run->count * run->stride; i++)
        told.minutes += steps[share->batch->steps[i]].end_min - steps[share->batch->steps[i]].start_min;
    return told;
}

static int by_start(const void *a, const void *b)
{
    const struct day_run *left = a, *right = b;
    return left->start_min < right->start_min ? -1 : left->start_min > right->start_min;
}

static void add_run(const struct day_page *page, struct table *table, const struct day_run *told)
{
    struct arena *arena = page->arena;
    const struct timetable *timetable = told->share->plan->timetable;
    const struct timetable_batch *batch = told->share->batch;
    const char *words = batch_run_words(arena, timetable, batch, &told->run);
    const char *pieces = batch_run_pieces(arena, timetable, batch, &told->run);
    const char *job = page->card->plan_count > 1 ? told->share->plan->job->name : "";
    const char *what = arena_textf(arena, "%s%s%s", words, *words && *pieces ? " " : "", pieces);
    const char *cells[] = {
        when(page, told->start_min),
        arena_textf(arena, "%s%s%s%s", what, *what && *job ? " (" : "", job, *what && *job ? ")" : ""),
        batch_run_amount(arena, timetable, batch, &told->run, page->screen->units),
        arena_text(arena, span_format(told->minutes).text)};
    table_row(table, cells);
}

/* Every piece at its hour, whichever job it is of. A task alone has said it in the title. */
static void add_steps(const struct day_page *page, struct table *table, const struct day_batch *batch)
{
    struct day_run *runs = ARENA_ARRAY(page->arena, batch->step_count, struct day_run);
    size_t count = 0;
    for (size_t i = 0; i < batch->share_count; i++) {
        const struct day_share *share = &batch->shares[i];
        struct batch_runs own = batch_runs_make(page->arena, share->plan->timetable, share->batch);
        for (size_t k = 0; k < own.count; k++)
            runs[count++] = run_of(share, &own.items[k]);
    }
    qsort(runs, count, sizeof *runs, by_start);
    for (size_t i = 0; i < count && day_batch_main(batch)->first->doing != DO_TASK; i++)
        add_run(page, table, &runs[i]);
}

/* A batch may begin before the last of its pieces can be worked on: then it is said of which. */
static const char *need_words(const struct day_page *page, const struct day_batch *batch,
                              const struct day_need *need)
{
    const struct operation *earlier = need->earlier;
    const struct link *link = need->link;
    const char *of = step_words(page->arena, earlier), *piece = step_piece(page->arena, earlier);
    bool done = link->kind == LINK_END && link->span_min == 0;
    bool stood = link->kind == LINK_END && !done && !link->settles;
    const char *what = done ? "done" : stood ? "wait over" : link_words(link, earlier, need->step->operation);
    const char *until = when(page, need->until_min);
    if (need->until_min > day_batch_main(batch)->work_from_min)
        return arena_textf(page->arena, "%s: %s %s, the last, only from %s on", of, piece, what, until);
    return arena_textf(page->arena, "%s since %s: %s%s%s", what, until, of, *piece ? ", " : "", piece);
}

/* That work was done on an earlier day, or before a film that had to dry since, goes without saying. */
static bool is_worth_saying(const struct day_page *page, const struct day_need *need)
{
    if (need->link->kind != LINK_END)
        return true;
    for (size_t i = 0; i < need->step->after_count; i++)
        if (need->step->after[i].link->kind == LINK_STATE && need->step->after[i].min_until > need->until_min)
            return false;
    const struct operations *operations = need->plan->operations;
    for (size_t i = 0; i < operations->wait_count; i++)
        if (&operations->items[operations->waits[i].to] == need->step->operation &&
            operations->waits[i].link.kind == LINK_STATE && operations->waits[i].until_min > need->until_min)
            return false;
    return zone_day(zone_of(page), need->until_min, NULL) == page->card->day;
}

static void add_needs(const struct day_page *page, struct table *table, const struct day_batch *batch)
{
    for (size_t i = 0; i < batch->need_count; i++)
        if (is_worth_saying(page, &batch->needs[i]))
            table_note(table, need_words(page, batch, &batch->needs[i]));
}

/* "set-up until 08:25, clean-up from 09:40". */
static void add_set_up(const struct day_page *page, struct table *table, const struct timetable_batch *batch)
{
    struct buf text;
    buf_init(&text, page->arena);
    if (batch->work_from_min > batch->start_min)
        buf_addf(&text, "set-up until %s", when(page, batch->work_from_min));
    if (batch->clean_up_min > 0)
        buf_addf(&text, "%sclean-up from %s", text.length ? ", " : "", when(page, batch->work_until_min));
    if (text.length)
        table_note(table, text.text);
}

static const char *mix_words(const struct day_page *page, const struct mix_card *card)
{
    struct buf text;
    buf_init(&text, page->arena);
    for (size_t i = 0; i < card->mix->pour_count; i++) {
        const struct pour *pour = pour_at(card->mix, i);
        buf_addf(&text, "%s%s %s", i ? " + " : "", pour_grams(page->arena, pour->weigh_g),
                 pour_name(card->finish, pour));
    }
    buf_addf(&text, " (%s)", screen_volume(page->screen, card->volume_l));
    if (card->apply_by_min != INT64_MAX)
        buf_addf(&text, ", apply by %s, pot life ends %s", when(page, card->apply_by_min),
                 when(page, card->pot_life_ends_min));
    return arena_textf(page->arena, "mix %d of %d at %s: %s", card->number, card->of,
                       when(page, card->mixed_at_min), text.text);
}

static void add_mixes(const struct day_page *page, struct table *table, const struct day_batch *batch)
{
    for (size_t i = 0; i < batch->share_count; i++) {
        const struct mix_card *card = NULL;
        while ((card = batch_card(batch->shares[i].plan, batch->shares[i].batch, card)))
            table_note(table, mix_words(page, card));
    }
}

/* Sections, pauses, what ends by itself, and what stays in the tool. */
static void add_notes(const struct day_page *page, struct table *table, const struct day_share *share)
{
    const struct timetable *timetable = share->plan->timetable;
    table_note(table, batch_left_in_tool(page->arena, timetable, share->batch, page->screen->units));
    table_note(table, batch_note(page->arena, timetable, share->batch, page->screen->units));
    table_note(table, batch_window_words(page->arena, timetable, share->batch));
    table_drying(table, timetable, share->batch);
}

/* In a few words; below the batches are the sentences. Of several jobs the first says what all share. */
static void add_care(const struct day_page *page, struct table *table, const struct day_batch *batch)
{
    struct plan_caution *first = ARENA_ARRAY(page->arena, batch->caution_count, struct plan_caution);
    size_t count = 0;
    for (size_t i = 0; i < batch->caution_count; i++)
        if (batch->cautions[i].plan == batch->shares[0].plan)
            first[count++] = batch->cautions[i].caution;
    table_note(table, batch_care(page->arena, first, count));
}

static void add_batch(const struct day_page *page, struct table *table, const struct day_batch *batch,
                      int person)
{
    const struct timetable_batch *first = day_batch_main(batch);
    table_group(table, title_of(page, batch));
    if (first->person != person)
        table_note(table, arena_textf(page->arena, "to help %s", person_of(page, first->person)));
    else {
        if (first->helper > 0)
            table_note(table, arena_textf(page->arena, "together with %s", person_of(page, first->helper)));
        add_needs(page, table, batch);
        add_set_up(page, table, first);
        add_mixes(page, table, batch);
    }
    add_steps(page, table, batch);
    for (size_t i = 0; i < batch->share_count && first->person == person; i++)
        add_notes(page, table, &batch->shares[i]);
    if (first->person == person)
        add_care(page, table, batch);
}

void table_day_init(struct table *table, struct arena *arena)
{
    static const struct column columns[] = {{NULL, ALIGN_LEFT, false},
                                            {NULL, ALIGN_LEFT, true},
                                            {NULL, ALIGN_RIGHT, false},
                                            {NULL, ALIGN_RIGHT, false}};
    table_init(table, arena, columns, sizeof columns / sizeof columns[0]);
}

void table_day_batch(struct table *table, struct screen *screen, const struct day_card *card,
                     const struct day_batch *batch, int person)
{
    struct day_page page = {screen, screen->out->arena, card};
    add_batch(&page, table, batch, person);
}

/* The batches in which the person has a hand; nothing where there are none. */
static void print_person(const struct day_page *page, int person)
{
    struct table table;
    table_day_init(&table, page->arena);
    for (size_t i = 0; i < page->card->count; i++) {
        const struct day_batch *batch = &page->card->batches[i];
        if (day_batch_main(batch)->person == person || day_batch_main(batch)->helper == person)
            add_batch(page, &table, batch, person);
    }
    if (table.row_count && page->card->person == 0 && page->card->plans[0]->job->shop.people > 1)
        screen_heading(page->screen, person_of(page, person));
    table_print(&table, page->screen, 2);
}

/* The hours of all batches for which a sentence is said. */
static const char *care_hours(const struct day_page *page, const char *sentence)
{
    struct buf hours;
    buf_init(&hours, page->arena);
    for (size_t i = 0; i < page->card->count; i++) {
        const struct day_batch *batch = &page->card->batches[i];
        bool said = false;
        for (size_t k = 0; k < batch->caution_count && !said; k++)
            said = strcmp(sentence, plan_caution_words(page->arena, &batch->cautions[k].caution,
                                                       page->screen->units)) == 0;
        const char *one = said ? hours_of(page, day_batch_main(batch)) : "";
        if (said && !strstr(hours.text, one))
            buf_addf(&hours, "%s%s", hours.length ? ", " : "", one);
    }
    return hours.text;
}

static bool is_among(const char *const *said, size_t count, const char *sentence)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(said[i], sentence) == 0)
            return true;
    return false;
}

/* Every sentence once, behind its hours. */
static void print_care(const struct day_page *page)
{
    size_t room = 0, count = 0;
    for (size_t i = 0; i < page->card->count; i++)
        room += page->card->batches[i].caution_count;
    const char **said = ARENA_ARRAY(page->arena, room, const char *);
    if (room)
        screen_heading(page->screen, "Take care");
    for (size_t i = 0; i < page->card->count; i++)
        for (size_t k = 0; k < page->card->batches[i].caution_count; k++) {
            const char *sentence = plan_caution_words(
                page->arena, &page->card->batches[i].cautions[k].caution, page->screen->units);
            if (is_among(said, count, sentence))
                continue;
            said[count++] = sentence;
            screen_paragraph(page->screen, 2, 2,
                             arena_textf(page->arena, "%s: %s", care_hours(page, sentence), sentence));
        }
    if (room)
        screen_paragraph(page->screen, 2, 2, caution_rider());
}

static void print_next(const struct day_page *page)
{
    const struct day_card *card = page->card;
    bool named = card->plans[0]->job->shop.people > 1;
    if (card->next_count)
        screen_heading(page->screen, "Next");
    for (size_t i = 0; i < card->next_count; i++) {
        const struct timetable_batch *first = day_batch_main(&card->next[i]);
        const struct day_share *share = &card->next[i].shares[0];
        const char *pieces = batch_pieces(page->arena, share->plan->timetable, share->batch, NEXT_WIDTH);
        screen_paragraph(page->screen, 2, 2,
                         arena_textf(page->arena, "%s  %s%s%s%s%s", when(page, first->start_min),
                                     work_of(page, &card->next[i]), *pieces ? ": " : "", pieces,
                                     named ? ", " : "", named ? person_of(page, first->person) : ""));
    }
}

static void print_title(const struct day_page *page)
{
    struct buf text;
    struct date date = date_of(page->card->day);
    buf_init(&text, page->arena);
    buf_addf(&text, "%s %d %s %d", weekday_name(weekday_of(page->card->day)), date.day,
             month_name(date.month), date.year);
    if (page->card->person)
        buf_addf(&text, ", %s", person_of(page, page->card->person));
    for (size_t i = 0; i < page->card->plan_count; i++)
        buf_addf(&text, "%s%s", i ? ", " : ": ", page->card->plans[i]->job->name);
    screen_heading(page->screen, text.text);
}

/* What must be known of a job that is late, or has no plan. */
static void print_trouble(const struct day_page *page)
{
    for (size_t i = 0; i < page->card->plan_count; i++) {
        const struct timetable *timetable = page->card->plans[i]->timetable;
        if (timetable->status != TIMETABLE_PLANNED || timetable->late_min > 0)
            show_verdict(page->screen, timetable);
    }
}

/* What was done on that day already. */
static void print_done(const struct day_page *page)
{
    for (size_t i = 0; i < page->card->plan_count; i++) {
        size_t count;
        const struct timetable *timetable = page->card->plans[i]->timetable;
        const struct done_batch *batches = done_batches(page->arena, timetable, &count);
        for (size_t k = 0; k < count; k++)
            if (zone_day(zone_of(page), batches[k].from_min, NULL) == page->card->day)
                screen_paragraph(page->screen, 2, 2,
                                 arena_textf(page->arena, "done %s to %s: %s%s%s",
                                             when(page, batches[k].from_min), when(page, batches[k].to_min),
                                             step_words(page->arena, &batches[k].first->operation),
                                             *batches[k].pieces ? ": " : "", batches[k].pieces));
    }
}

void show_day(struct screen *screen, const struct day_card *card)
{
    struct day_page page = {screen, screen->out->arena, card};
    print_title(&page);
    print_trouble(&page);
    print_done(&page);
    if (card->count == 0)
        screen_paragraph(screen, 2, 0, card->next_count ? "no work" : "no work, and none is left");
    for (int person = 1; person <= card->plans[0]->job->shop.people; person++)
        if (card->person == 0 || card->person == person)
            print_person(&page, person);
    print_care(&page);
    print_next(&page);
}
