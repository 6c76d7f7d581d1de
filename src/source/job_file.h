/* A job file with everything that it names -> struct job, which can write what was changed of it (struct job_writer). */
#ifndef SOURCE_JOB_FILE_H
#define SOURCE_JOB_FILE_H

#include "base/buf.h"
#include "format/place.h"
#include "job/job.h"

struct job_source {
    const char *path;                /* "-" for standard input */
    const char *finishes;            /* the folder of the shipped finishes; NULL: only the job's own */
    bool trust_paths;                /* what the job names may lie outside of its folder */
    const struct given_files *given; /* looked at before the file system; NULL: none */
    struct texts *texts; /* keeps what was read, so that later mistakes find their lines; NULL: not needed */
    bool fetching; /* calendars on a server are about to be fetched: they are named in the shop, not read */
};

/* NULL when mistakes were added; all have their line and column. The job has been checked (job_check), and its parts are
 * measured: job->surfaces. Memory is the arena's; the texts live in it as well.
 *
 * A date alone is an opening for `start` and `ready` and a closing for `deliver`. On a closed day that is the next open
 * day's opening, and the last closing before. */
struct job *job_read(struct arena *arena, const struct job_source *source, struct err_list *errors,
                     struct err_list *warnings);

/* Writes what differs under the keys of two versions of a job; names of pieces and parts are not looked at. Without a
 * difference there is nothing: NULL. */
extern const struct job_writer job_writer;

/* The files of a new job (new_job.c): what is known of it, with every key that such a job uses, so that the rest is a matter
 * of changing values. */
/* Files are named beside the job's. Texts may be NULL where nothing is said, but for the list, the zone and the moments. */
struct new_job {
    const char *name, *list, *units, *zone, *currency, *start, *deliver;
    const char *shop_file, *prices_file;
    const struct finish *outside, *inside;  /* inside NULL: as outside */
    const char *const *flat, *const *inner; /* pieces that lie flat; that get the inside's finish */
    size_t flat_count, inner_count;
};

/* The job: both finishes as schedules (sanded to 150 and 180 first), each position and each inner piece. */
void new_job_write(struct buf *out, struct arena *arena, const struct new_job *new);
/* A shop, every value written out. */
void new_shop_write(struct buf *out, const struct shop *shop);
/* A price list of the packs of the finishes, in which only the prices are missing. */
void new_prices_write(struct buf *out, const struct new_job *new);

/* A part list for one of table, cabinet, doors, shelf, chair and box, by its outer sizes "1800 x 900 x 750" (of doors width,
 * thickness and height; of shelves the board's own); in millimetres. NULL, or what should have stood there: of the kind where
 * that is none of them, else of the sizes. */
const char *new_parts_write(struct buf *out, const char *kind, const char *sizes, const char *wood);

#endif
