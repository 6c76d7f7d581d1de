/* Whatever a calendar holds, reading it ends: with busy times in order inside the window, or with mistakes that have
 * their place in the text; its times alone are the same busy times; and writing over it ends, with all that was there or
 * nothing. */
#include "base/arena.h"
#include "base/buf.h"
#include "format/ical_busy.h"
#include "format/ical_times.h"
#include "format/ical_write.h"
#include "format/place.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

enum { WINDOW_FROM = 30000000, WINDOW_TO = 31000000 };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check_times(const struct busy_list *list)
{
    for (size_t i = 0; i < list->count; i++) {
        assert(list->items[i].from_min < list->items[i].to_min);
        assert(list->items[i].to_min > WINDOW_FROM && list->items[i].from_min < WINDOW_TO);
        assert(i == 0 || list->items[i - 1].to_min < list->items[i].from_min);
    }
}

static void check_mistakes(const struct err_list *errors, const struct file_text *file)
{
    struct place last = place_at(file->text, file->length, file->length);
    assert(errors->count > 0);
    for (size_t i = 0; i < errors->count; i++) {
        const struct err *err = &errors->items[i];
        assert(err->expected[0] && err->found[0] && err->line >= 1 && err->line <= last.line);
    }
}

/* The calendar of one step, put into whatever stands there. */
static bool write_over(struct arena *arena, const struct file_text *file, struct buf *out,
                       struct err_list *errors)
{
    static const struct zone utc = {"UTC", 0, NULL};
    struct ical calendar;
    const char *prefix = ical_prefix(arena, "desk", "");
    buf_init(out, arena);
    ical_init(&calendar, arena, &utc, WINDOW_FROM);
    ical_own(&calendar, prefix);
    struct ical_item *item = ical_add(&calendar, ical_uid(arena, prefix, "top/1"), "step", "apply");
    item->from_min = WINDOW_TO;
    item->to_min = WINDOW_TO + 60;
    return ical_write(&calendar, file, out, errors);
}

/* A calendar that could be read is kept: what was written over it is a calendar, and written over once more it stays as it
 * is. */
static void check_written(struct arena *arena, const struct file_text *file)
{
    struct err_list errors = {0};
    struct buf once, twice;
    if (!write_over(arena, file, &once, &errors)) {
        check_mistakes(&errors, file);
        return;
    }
    struct file_text written = {.name = "written.ics", .text = once.text, .length = once.length};
    assert(write_over(arena, &written, &twice, &errors) && errors.count == 0);
    assert(strcmp(once.text, twice.text) == 0);
    assert(strstr(once.text, "UID:desk/top/1@coatwright\r\n"));
    for (const char *line = once.text; *line; line = strchr(line, '\n') + 1)
        assert(strcspn(line, "\r\n") <= 75);
}

/* What is kept of a calendar is read as the calendar was, and its stamp as it was written. */
static void check_kept(const struct reading *reading, const struct file_text *file,
                       const struct busy_window *window, const struct busy_list *list)
{
    struct ical_stamp stamp = {WINDOW_FROM - 5, WINDOW_FROM, WINDOW_TO}, read;
    struct busy_list again = {.items = NULL};
    struct buf text;
    buf_init(&text, reading->arena);
    ical_stamp_add(&stamp, &text);
    assert(ical_times_add(reading, file, &text));
    struct file_text kept = {.name = "kept.ics", .text = text.text, .length = text.length};
    assert(ical_stamp_read(reading->arena, &kept, &read));
    assert(memcmp(&stamp, &read, sizeof stamp) == 0);
    if (!busy_read(reading, &kept, window, &again))
        abort();
    busy_join(&again);
    assert(again.events == list->events && again.count == list->count);
    for (size_t i = 0; i < list->count; i++)
        assert(again.items[i].from_min == list->items[i].from_min &&
               again.items[i].to_min == list->items[i].to_min);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const struct zone utc = {"UTC", 0, NULL};
    static const struct busy_window window = {&utc, WINDOW_FROM, WINDOW_TO};
    struct arena *arena = arena_make(0);
    struct err_list errors = {0}, warnings = {0};
    struct busy_list list = {.items = NULL};
    assert(arena);
    struct reading reading = {arena, texts_make(arena), &errors, &warnings, NULL};
    struct file_text file = {
        .name = "fuzz.ics", .text = arena_text_n(arena, (const char *)data, size), .length = size};
    if (busy_read(&reading, &file, &window, &list)) {
        assert(errors.count == 0);
        busy_join(&list);
        check_times(&list);
        check_kept(&reading, &file, &window, &list);
    } else {
        check_mistakes(&errors, &file);
    }
    check_written(arena, &file);
    arena_free(arena);
    return 0;
}
