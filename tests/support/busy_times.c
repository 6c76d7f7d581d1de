#include "busy_times.h"

#include "base/buf.h"
#include "base/moment.h"
#include "format/ical_busy.h"
#include "format/zone.h"

int64_t utc_minute(const char *text)
{
    static const struct zone utc = {"UTC", 0, NULL};
    struct moment_text moment;
    assert_true(moment_parse(text, &utc, &moment, NULL));
    return moment.minute;
}

const char *busy_times(struct reader *reader, const char *text)
{
    struct file_text file = reader_file("other.ics", text);
    struct busy_list list = {.items = NULL};
    struct buf out;
    struct err err;
    struct busy_window window = {
        zone_load(reader->arena, "Europe/London", (struct zone_years){2026, 2028}, &err),
        utc_minute("2027-03-01T00:00:00Z"), utc_minute("2027-04-05T00:00:00Z")};
    buf_init(&out, reader->arena);
    if (!busy_read(&reader->reading, &file, &window, &list))
        return reader_lines(reader, &reader->errors);
    busy_join(&list);
    for (size_t i = 0; i < list.count; i++)
        buf_addf(&out, "%s%s-%s", i ? " " : "",
                 moment_format(window.zone, list.items[i].from_min, MOMENT_PLAIN).text + 5,
                 moment_format(window.zone, list.items[i].to_min, MOMENT_PLAIN).text + 5);
    return out.text;
}
