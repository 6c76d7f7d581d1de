/* A calendar as text, and the busy times that are read of it. */
#ifndef TESTS_BUSY_TIMES_H
#define TESTS_BUSY_TIMES_H

#include "check.h"
#include "reader.h"

#define CALENDAR(events) "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//y//EN\r\n" events "END:VCALENDAR\r\n"
#define EVENT(lines) "BEGIN:VEVENT\r\nUID:a\r\nDTSTAMP:20270101T000000Z\r\n" lines "END:VEVENT\r\n"

struct busy_row {
    struct row row;
    const char *text, *want;
};

int64_t utc_minute(const char *text);

/* Of London in March 2027, "03-02 09:00-03-02 10:00 ..."; or the mistakes, line by line. The clocks go forward on the 28th. */
const char *busy_times(struct reader *reader, const char *text);

#endif
