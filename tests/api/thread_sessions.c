/* Two threads with sessions of their own, both reading and writing calendars of the same and of other zones from the first
 * moment on; each result is what one thread alone gets. Built with -fsanitize=thread by check_threads.sh. */
#include "check.h"

#include "coatwright.h"

#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TURNS = 4, TEXT_SIZE = 1024 };

static const char *const zones[TURNS] = {"Europe/London", "America/New_York", "Asia/Tokyo", "Europe/London"};

static const char parts[] = "part,piece,qty,shape,wood,length,width,thickness,all\n"
                            "board,shelf,4,board,oak,900,300,20,oil\n";

/* What a thread wrote, and where it may write. */
struct work {
    const char *folder;
    int number;
    char *texts[TURNS]; /* the calendar of each turn */
    bool good;
};

static void job_of(int turn, char *job)
{
    snprintf(
        job, TEXT_SIZE,
        "{\"format\": \"coatwright-job/1\", \"job\": \"Shelf\", \"units\": \"mm\", \"zone\": \"%s\",\n"
        " \"start\": \"2027-03-01 08:00\", \"deliver\": \"2027-04-19\", \"shop\": {\"busy\": "
        "[\"busy.ics\"]},\n"
        " \"schedules\": {\"oil\": [{\"coat\": \"danish-oil\", \"coats\": 2}]}, \"parts\": \"parts.csv\"}\n",
        zones[turn]);
}

static void busy_of(int turn, char *busy)
{
    snprintf(
        busy, TEXT_SIZE,
        "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Test//"
        "EN\r\nBEGIN:VEVENT\r\nUID:a\r\nDTSTAMP:20270101T000000Z\r\n"
        "DTSTART;TZID=%s:20270301T080000\r\nDTEND;TZID=%s:20270301T120000\r\nRRULE:FREQ=WEEKLY;COUNT=5\r\n"
        "END:VEVENT\r\nEND:VCALENDAR\r\n",
        zones[(turn + 1) % TURNS], zones[(turn + 1) % TURNS]);
}

/* Plans and writes a calendar twice over the same file, so that the older one is read. */
static bool turn_of(struct work *work, int turn)
{
    char job[TEXT_SIZE], busy[TEXT_SIZE], path[400];
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    options.now = "2027-01-04T08:00Z";
    options.effort = 200000;
    options.given_only = true;
    struct coatwright *session = coatwright_open(&options);
    job_of(turn, job);
    busy_of(turn, busy);
    snprintf(path, sizeof path, "%s/%d-%d.ics", work->folder, work->number, turn);
    bool good = coatwright_add_text(session, "parts.csv", parts, strlen(parts)) &&
                coatwright_add_text(session, "busy.ics", busy, strlen(busy)) &&
                coatwright_read_text(session, "job.json", job, strlen(job)) &&
                coatwright_plan(session, NULL) &&
                coatwright_save(session, COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR, path) &&
                coatwright_save(session, COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR, path) &&
                coatwright_chance(session, 2);
    const char *text = good ? coatwright_write(session, COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR) : NULL;
    work->texts[turn] = text ? strdup(text) : NULL;
    for (size_t i = 0; i < coatwright_error_count(session); i++) {
        char line[1200];
        coatwright_error_line(coatwright_error(session, i), line, sizeof line);
        print_error("%s\n", line);
    }
    coatwright_close(session);
    return work->texts[turn] != NULL;
}

static void *turns(void *argument)
{
    struct work *work = argument;
    work->good = true;
    for (int i = 0; i < TURNS; i++)
        work->good = turn_of(work, i) && work->good;
    return NULL;
}

static void two_threads(void **state)
{
    (void)state;
    const char *folder = check_folder();
    struct work work[3] = {
        {.folder = folder, .number = 1}, {.folder = folder, .number = 2}, {.folder = folder, .number = 3}};
    pthread_t threads[2];
    for (int i = 0; i < 2; i++)
        check_int(HERE, pthread_create(&threads[i], NULL, turns, &work[i]), 0);
    for (int i = 0; i < 2; i++)
        pthread_join(threads[i], NULL);
    turns(&work[2]);
    for (int i = 0; i < 3; i++)
        check_true(HERE, work[i].good, "planned and written");
    for (int turn = 0; turn < TURNS; turn++) {
        check_text(HERE, work[0].texts[turn], work[2].texts[turn]);
        check_text(HERE, work[1].texts[turn], work[2].texts[turn]);
        for (int i = 0; i < 3; i++)
            free(work[i].texts[turn]);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(two_threads));
}
