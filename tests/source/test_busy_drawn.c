/* Drawn calendars of several events, zones, changes and periods keep the same times busy as another expansion says, made by
 * busy_drawn.py from dateutil and zoneinfo; and so do their times alone, as they are kept of a calendar on a server. */
#include "check.h"
#include "reader.h"

#include "base/buf.h"
#include "base/moment.h"
#include "format/ical_busy.h"
#include "format/ical_times.h"
#include "format/zone.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SEED = 12, CALENDARS = 400, LINE_SIZE = 1 << 16 };

static const char *busy_of(struct reader *reader, const char *text, struct busy_window window)
{
    struct file_text file = reader_file("drawn.ics", text);
    struct busy_list list = {.items = NULL};
    struct buf out;
    buf_init(&out, reader->arena);
    if (!busy_read(&reader->reading, &file, &window, &list))
        return reader_lines(reader, &reader->errors);
    busy_join(&list);
    for (size_t i = 0; i < list.count; i++)
        buf_addf(&out, "%s%" PRId64 " %" PRId64, i ? " " : "", list.items[i].from_min, list.items[i].to_min);
    return out.text;
}

static const char *times_of(struct reader *reader, const char *text)
{
    struct file_text file = reader_file("drawn.ics", text);
    struct buf out;
    buf_init(&out, reader->arena);
    ical_stamp_add(&(struct ical_stamp){1, 2, 3}, &out);
    return ical_times_add(&reader->reading, &file, &out) ? out.text : reader_lines(reader, &reader->errors);
}

/* The next calendar of the script; false: the end. */
static bool check_next(FILE *from, char *line, int number)
{
    struct reader *reader = reader_make();
    struct err err;
    struct busy_window window = {
        zone_load(reader->arena, "Europe/London", (struct zone_years){2025, 2029}, &err), 0, 0};
    size_t length = 0;
    if (!fgets(line, LINE_SIZE, from) ||
        sscanf(line, "window %" SCNd64 " %" SCNd64, &window.from_min, &window.to_min) != 2) {
        reader_free(reader);
        return false;
    }
    assert_non_null(fgets(line, LINE_SIZE, from));
    assert_int_equal(sscanf(line, "text %zu", &length), 1);
    char *text = arena_alloc(reader->arena, length + 1, 1);
    assert_int_equal(fread(text, 1, length, from), length);
    assert_non_null(fgets(line, LINE_SIZE, from));
    assert_non_null(fgets(line, LINE_SIZE, from));
    line[strcspn(line, "\n")] = '\0';
    const char *got = busy_of(reader, text, window), *want = line + strlen("busy ");
    if (strcmp(got, want) != 0)
        print_error("calendar %d:\n%s", number, text);
    check_text(HERE, got, want);
    check_text(HERE, busy_of(reader, times_of(reader, text), window), want);
    reader_free(reader);
    return true;
}

static void drawn_calendars(void **state)
{
    (void)state;
    static char line[LINE_SIZE];
    char command[128];
    int count = 0;
    snprintf(command, sizeof command, "/usr/bin/python3 tests/source/busy_drawn.py %d %d", SEED, CALENDARS);
    FILE *from = popen(command, "r"); /* NOLINT(cert-env33-c): a fixed command */
    assert_non_null(from);
    while (check_next(from, line, count))
        count++;
    assert_int_equal(pclose(from), 0);
    check_int(HERE, count, CALENDARS);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(drawn_calendars));
}
