#include "full_job.h"

#include "format/given.h"
#include "job_text.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#define NO_EVENTS "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//y//EN\r\nEND:VCALENDAR\r\n"

void full_job_begin(void)
{
    job_text_begin();
    (void)mkdir("own", 0700);
    struct reader *reader = reader_make();
    (void)reader_path(reader, "busy.ics", NO_EVENTS);
    (void)reader_path(reader, "ann.ics", NO_EVENTS);
    (void)reader_path(reader, "desk.log", "");
    (void)reader_path(reader, "stock.csv",
                      "finish,component,amount,opened,best-before\nown-oil,oil,500 ml,,\n");
    (void)reader_path(reader, "prices.csv", "finish,component,size,price\nown-oil,oil,1 l,26.00\n");
    (void)reader_path(reader, "figure.obj",
                      "v 0 0 0\nv 100 0 0\nv 0 100 0\nv 0 0 100\nf 1 3 2\nf 1 2 4\nf 2 3 4\nf 1 4 3\n");
    reader_free(reader);
}

static const char *text_of(struct reader *reader, const char *name)
{
    const char *home = getenv("JOB_TEXT_HOME");
    struct file_text file;
    struct err err;
    assert_true(file_load(reader->arena, arena_textf(reader->arena, "%s/tests/source/full/%s", home, name),
                          &file, &err));
    return file.text;
}

const char *full_job_text(struct reader *reader)
{
    return text_of(reader, "job.json");
}

const char *full_job_finish(struct reader *reader)
{
    return text_of(reader, "own-oil.json");
}

struct job *full_job_read(struct reader *reader, const char *job, const char *finish)
{
    struct given_files given = {0};
    struct job_source source = {.path = "job.json", .given = &given, .texts = reader->reading.texts};
    given_add(&given, reader->arena, "job.json", job, strlen(job));
    given_add(&given, reader->arena, "own/own-oil.json", finish, strlen(finish));
    return job_read(reader->arena, &source, &reader->errors, &reader->warnings);
}
