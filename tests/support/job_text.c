#include "job_text.h"

#include <limits.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

const char job_text_job[] =
    "{\"format\": \"coatwright-job/1\", \"job\": \"Desk\", \"units\": \"mm\", \"zone\": \"Europe/London\",\n"
    " \"start\": \"2027-03-01 08:00\", \"deliver\": \"2027-03-19 14:00\", \"reserve\": \"12.5 %\",\n"
    " \"shop\": {\"people\": 1, \"rack\": \"4 m2\"},\n"
    " \"schedules\": {\"oil\": [{\"sand\": 150}, {\"coat\": \"hardwax-oil\", \"coats\": 2}],\n"
    "               \"wax\": [{\"coat\": \"paste-wax\"}]},\n"
    " \"pieces\": [{\"piece\": \"top\", \"laid\": \"flat\", \"after\": [\"legs\"]}],\n"
    " \"tasks\": [{\"task\": \"fit hinges\", \"takes\": \"45 min\", \"after\": [\"top handle\"]}],\n"
    " \"parts\": \"parts.csv\"}\n";

const char job_text_parts[] = "part,piece,qty,shape,wood,length,width,thickness,diameter,sides,all,covered\n"
                              "top,top,1,board,oak,1200,600,25,,,oil,back 1100 x 500\n"
                              "leg,legs,4,round,oak,700,,,45,,wax,\n"
                              "# ten of them make a star\n"
                              "inlay,top,6,triangle,maple,,,4,,30 40 50,oil,\n";

const char *job_text_finishes(struct reader *reader)
{
    const char *home = getenv("JOB_TEXT_HOME");
    return arena_textf(reader->arena, "%s/finishes", home ? home : ".");
}

void job_text_begin(void)
{
    char home[PATH_MAX];
    const char *folder = check_folder();
    if (!getcwd(home, sizeof home) || setenv("JOB_TEXT_HOME", home, 1) != 0 || chdir(folder) != 0)
        return;
    (void)mkdir("folder", 0700);
    setenv("TEST_TMP", ".", 1);
}

static const char *write_file(struct reader *reader, const char *name, const char *text)
{
    (void)reader_path(reader, name, text);
    return name;
}

static struct job *read_job(struct reader *reader)
{
    struct job_source source = {
        .path = "job.json", .finishes = job_text_finishes(reader), .texts = reader->reading.texts};
    return job_read(reader->arena, &source, &reader->errors, &reader->warnings);
}

struct job *job_text_read(struct reader *reader, enum job_text where, const char *find, const char *put)
{
    return job_text_read_parts(
        reader, where == JOB ? reader_swap(reader, job_text_job, find, put) : job_text_job,
        where == PARTS ? reader_swap(reader, job_text_parts, find, put) : job_text_parts);
}

struct job *job_text_read_parts(struct reader *reader, const char *job, const char *parts)
{
    write_file(reader, "parts.csv", parts);
    write_file(reader, "job.json", job);
    return read_job(reader);
}

struct job *job_text_read_as(struct reader *reader, const char *job)
{
    return job_text_read_parts(reader, job, job_text_parts);
}
