#include "report/log.h"

#include "base/arena.h"
#include "report/sentences.h"

#include <string.h>

static const char *number_text(struct arena *arena, int64_t number)
{
    return arena_textf(arena, "%lld", (long long)number);
}

/* "done, 75 ml, 4 parts", "again: ran", "12 °C 80 % RH". */
static const char *entry_words(struct screen *screen, const struct log_entry *entry)
{
    struct arena *arena = screen->out->arena;
    struct buf words;
    buf_init(&words, arena);
    switch (entry->kind) {
    case LOG_DONE:
        buf_add(&words, "done");
        if (entry->parts > 0)
            buf_addf(&words, ", %d %s from the %d. on", entry->parts, entry->parts == 1 ? "part" : "parts",
                     entry->first);
        if (entry->used_l >= 0)
            buf_addf(&words, ", %s", screen_volume(screen, entry->used_l));
        if (entry->person)
            buf_addf(&words, ", %s", entry->person);
        break;
    case LOG_AGAIN:
        buf_addf(&words, "again%s%s", entry->because ? ": " : "", entry->because ? entry->because : "");
        if (entry->grit > 0)
            buf_addf(&words, ", sand %d first", entry->grit);
        break;
    case LOG_SKIP:
        buf_add(&words, "left out");
        break;
    case LOG_AIR:
        buf_addf(&words, "%s %s", temperature_format(entry->air.temperature_c, screen->units).text,
                 humidity_words(arena, entry->air.humidity));
        break;
    case LOG_UNDO:
    case LOG_KIND_COUNT:
        buf_addf(&words, "takes entry %lld back", (long long)entry->undone);
        break;
    }
    if (entry->note)
        buf_addf(&words, " (%s)", entry->note);
    return words.text;
}

static int64_t entry_moment(const struct log_entry *entry)
{
    return entry->kind == LOG_DONE  ? entry->done_min
           : entry->kind == LOG_AIR ? entry->began_min
                                    : entry->written_min;
}

void show_log(struct screen *screen, const struct job *job)
{
    static const struct column columns[] = {
        {"", ALIGN_RIGHT, false},
        {"when", ALIGN_LEFT, false},
        {"what", ALIGN_LEFT, true},
        {"", ALIGN_LEFT, true},
    };
    struct arena *arena = screen->out->arena;
    const bool *holding = log_holding(arena, &job->log);
    struct table table;
    table_init(&table, arena, columns, 4);
    for (size_t i = 0; i < job->log.count; i++) {
        const struct log_entry *entry = &job->log.entries[i];
        int64_t at = entry_moment(entry);
        const char *words = entry_words(screen, entry);
        bool taken = !holding[i] && entry->kind != LOG_UNDO;
        table_row(&table, (const char *[]){number_text(arena, entry->number),
                                           at == INT64_MIN ? "" : moment_words(arena, job, at),
                                           entry->kind == LOG_AIR ? "air" : entry->step,
                                           taken ? arena_textf(arena, "%s; taken back", words) : words});
    }
    if (job->log.count == 0)
        screen_line(screen, TINT_NONE, "Nothing was recorded yet: coatwright done JOB STEP");
    table_print(&table, screen, 0);
}

static void put_moment(struct json_write *w, const char *key, const struct job *job, int64_t minute)
{
    json_put_moment(w, key, job->zone, minute);
}

static void write_entry(struct json_write *w, const struct job *job, const struct log_entry *entry,
                        bool holds)
{
    static const char *const kinds[LOG_KIND_COUNT] = {[LOG_DONE] = "done",
                                                      [LOG_AGAIN] = "again",
                                                      [LOG_SKIP] = "skip",
                                                      [LOG_AIR] = "air",
                                                      [LOG_UNDO] = "undo"};
    json_open_row(w, NULL, '{');
    json_put_whole(w, "entry", entry->number);
    json_put_text(w, "what", kinds[entry->kind]);
    json_put_flag(w, "holds", holds);
    put_moment(w, "written", job, entry->written_min);
    if (entry->step)
        json_put_text(w, "step", entry->step);
    if (entry->kind == LOG_DONE || entry->kind == LOG_AIR)
        put_moment(w, "began", job, entry->began_min);
    if (entry->kind == LOG_DONE)
        put_moment(w, "done", job, entry->done_min);
    if (entry->used_l >= 0)
        json_put_number(w, "used_l", entry->used_l);
    if (entry->parts > 0) {
        json_put_whole(w, "first", entry->first);
        json_put_whole(w, "parts", entry->parts);
    }
    if (entry->person)
        json_put_text(w, "person", entry->person);
    if (entry->note)
        json_put_text(w, "note", entry->note);
    if (entry->because)
        json_put_text(w, "because", entry->because);
    if (entry->grit > 0)
        json_put_whole(w, "sand", entry->grit);
    if (entry->kind == LOG_UNDO)
        json_put_whole(w, "undo", entry->undone);
    if (entry->kind == LOG_AIR) {
        json_put_number(w, "temperature_c", entry->air.temperature_c);
        json_put_number(w, "humidity", entry->air.humidity);
    }
    json_close(w);
}

void write_log(struct json_write *w, const struct job *job)
{
    const bool *holding = log_holding(w->out->arena, &job->log);
    json_open(w, NULL, '{');
    json_put_text(w, "job", job->name);
    json_open(w, "log", '[');
    for (size_t i = 0; i < job->log.count; i++)
        write_entry(w, job, &job->log.entries[i], holding[i]);
    json_close(w);
    json_close(w);
}

const char *fact_broke(struct arena *arena, const struct operations *operations, const struct fact *fact,
                       int number)
{
    const struct job *job = operations->job;
    const struct fact_break *broke = number < fact->break_count ? &fact->breaks[number] : NULL;
    const char *id = fact->operation.id;
    if (!broke)
        return NULL;
    switch (broke->kind) {
    case BROKE_WAIT:
        return arena_textf(
            arena,
            "%s was begun before the film beneath it was %s (%s): give it a day more, and test how hard "
            "it is before the next step",
            id, state_words(broke->state), moment_words(arena, job, broke->at_min));
    case BROKE_WINDOW:
        return arena_textf(
            arena,
            "%s was begun after its window had ended (%s): whether it holds is doubtful; test it "
            "where it does not show",
            id, moment_words(arena, job, broke->at_min));
    case BROKE_ORDER:
        return arena_textf(arena, "%s was begun before %s was done", id, broke->before);
    case BROKE_AIR:
        return arena_textf(
            arena,
            "%s was applied in air outside the limits of its finish (%s): test how hard it is before "
            "the next step",
            id, temperature_format(broke->air.temperature_c, units_of(job)).text);
    }
    return NULL;
}

static int64_t last_done(const struct operations *operations, size_t *done, size_t *passed)
{
    int64_t last = INT64_MIN;
    *done = *passed = 0;
    for (size_t i = 0; i < operations->fact_count; i++) {
        const struct fact *fact = &operations->facts[i];
        *done += fact->entry != NULL;
        *passed += fact->entry == NULL && !fact->operation.late_scuff;
        if (fact->entry && fact->done_min > last)
            last = fact->done_min;
    }
    return last;
}

static const char *stray_words(struct arena *arena, const struct operations *operations,
                               const struct log_entry *entry)
{
    const struct job *job = operations->job;
    if (entry->done_min > job->now_min)
        return arena_textf(arena, "entry %lld of the log is of a moment that has not come: %s",
                           (long long)entry->number, moment_words(arena, job, entry->done_min));
    if (entry->kind == LOG_SKIP && strncmp(entry->step, "task/", strlen("task/")) == 0)
        return arena_textf(arena,
                           "entry %lld of the log would leave out %s: a task is taken out of the job file",
                           (long long)entry->number, entry->step);
    return arena_textf(arena, "entry %lld of the log names %s, which is no step of the job any more",
                       (long long)entry->number, entry->step);
}

void show_done(struct screen *screen, const struct timetable *timetable)
{
    const struct operations *operations = timetable->operations;
    struct arena *arena = screen->out->arena;
    size_t done, passed;
    int64_t last = last_done(operations, &done, &passed);
    if (done > 0)
        screen_line(screen, TINT_NONE,
                    arena_textf(arena, "Done: %zu %s until %s; what follows is left to be done", done,
                                done == 1 ? "step" : "steps", moment_words(arena, operations->job, last)));
    for (size_t i = 0; i < operations->stray_count; i++)
        screen_paragraph(screen, 2, 2, stray_words(arena, operations, operations->strays[i]));
    for (size_t i = 0; i < operations->fact_count; i++) {
        const struct fact *fact = &operations->facts[i];
        const char *broke;
        if (!fact->entry && !fact->operation.late_scuff)
            screen_paragraph(screen, 2, 2,
                             arena_textf(arena, "%s was not recorded, what follows it was: it is passed over",
                                         fact->operation.id));
        for (int k = 0; (broke = fact_broke(arena, operations, fact, k)); k++)
            screen_paragraph(screen, 2, 2, broke);
    }
}

static void write_fact(struct json_write *w, const struct operations *operations, const struct fact *fact)
{
    const char *broke;
    json_open_row(w, NULL, '{');
    json_put_text(w, "id", fact->operation.id);
    put_moment(w, "began", operations->job, fact->began_min);
    put_moment(w, "done", operations->job, fact->done_min);
    json_put_whole(w, "entry", fact->entry->number);
    if (fact->entry->used_l >= 0)
        json_put_number(w, "used_l", fact->entry->used_l);
    if (fact->entry->person)
        json_put_text(w, "person", fact->entry->person);
    json_open_row(w, "broke", '[');
    for (int k = 0; (broke = fact_broke(w->out->arena, operations, fact, k)); k++)
        json_put_text(w, NULL, broke);
    json_close(w);
    json_close(w);
}

void write_done(struct json_write *w, const struct timetable *timetable)
{
    const struct operations *operations = timetable->operations;
    json_open(w, "done", '[');
    for (size_t i = 0; i < operations->fact_count; i++)
        if (operations->facts[i].entry)
            write_fact(w, operations, &operations->facts[i]);
    json_close(w);
    json_open_row(w, "passed_over", '[');
    for (size_t i = 0; i < operations->fact_count; i++)
        if (!operations->facts[i].entry && !operations->facts[i].operation.late_scuff)
            json_put_text(w, NULL, operations->facts[i].operation.id);
    json_close(w);
    json_open(w, "strays", '[');
    for (size_t i = 0; i < operations->stray_count; i++) {
        json_open_row(w, NULL, '{');
        json_put_whole(w, "entry", operations->strays[i]->number);
        json_put_text(w, "why", stray_words(w->out->arena, operations, operations->strays[i]));
        json_close(w);
    }
    json_close(w);
}

static bool is_coated_again(const struct operations *operations, int piece)
{
    for (size_t i = 0; i < operations->count; i++)
        if (operations->items[i].doing == DO_APPLY && operations->items[i].piece == piece)
            return true;
    return false;
}

static int64_t wrapped_from(const struct timetable *timetable, int piece)
{
    for (size_t i = 0; i < timetable->state_count; i++)
        if (timetable->states[i].state == STATE_WRAP && (int)timetable->states[i].piece == piece)
            return timetable->states[i].at_min;
    return INT64_MAX;
}

static void join(struct arena *arena, const struct timetable *timetable, const struct fact *fact,
                 struct done_batch *batch)
{
    const struct operation *operation = &fact->operation;
    const char *piece = step_piece(arena, operation);
    if (!strstr(batch->pieces, piece))
        batch->pieces = arena_textf(arena, "%s%s%s", batch->pieces, *batch->pieces ? ", " : "", piece);
    batch->from_min = fact->began_min < batch->from_min ? fact->began_min : batch->from_min;
    batch->to_min = fact->done_min > batch->to_min ? fact->done_min : batch->to_min;
    if (operation->doing != DO_APPLY)
        return;
    bool again = is_coated_again(timetable->operations, operation->piece);
    int64_t wrap = again ? INT64_MAX : wrapped_from(timetable, operation->piece);
    if (operation->last_coat && wrap != INT64_MAX && (batch->wrap_min == INT64_MAX || wrap > batch->wrap_min))
        batch->wrap_min = wrap;
    if (again && fact->window_min < batch->window_min)
        batch->window_min = fact->window_min;
}

struct done_batch *done_batches(struct arena *arena, const struct timetable *timetable, size_t *count)
{
    const struct operations *operations = timetable->operations;
    struct done_batch *batches = ARENA_ARRAY(arena, operations->fact_count + 1, struct done_batch);
    *count = 0;
    for (size_t i = 0; i < operations->fact_count; i++) {
        const struct fact *fact = &operations->facts[i];
        if (!fact->entry)
            continue;
        const char *id = fact->entry->batch ? fact->entry->batch : fact->operation.id;
        size_t at = 0;
        while (at < *count && strcmp(batches[at].id, id) != 0)
            at++;
        if (at == *count)
            batches[(*count)++] = (struct done_batch){.id = id,
                                                      .first = fact,
                                                      .pieces = "",
                                                      .from_min = INT64_MAX,
                                                      .to_min = INT64_MIN,
                                                      .wrap_min = INT64_MAX,
                                                      .window_min = INT64_MAX};
        join(arena, timetable, fact, &batches[at]);
    }
    return batches;
}
