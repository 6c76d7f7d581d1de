/* Coatwright and calendars on a server (CalDAV, RFC 4791): the plan's own, kept there, and busy times, fetched from there. These are
 * the only functions that ask a server. No redirect to another server than the one that was named is followed, and a
 * password goes over https or within this machine alone. The rules of coatwright.h hold here, too. */
#ifndef COATWRIGHT_SERVER_H
#define COATWRIGHT_SERVER_H

#include "coatwright.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Where the plan's calendar is to stand; NULL wherever nothing was said. */
struct coatwright_publish_want {
    size_t size;          /* of this struct */
    const char *url;      /* a calendar, or a server or user that has one */
    const char *user;     /* NULL: no user and no password are sent */
    const char *password; /* or the file that holds it, which only its owner may read */
    const char *password_file;
    const char *authorities; /* file of trusted certificates; the system's */
    bool make;               /* a new calendar where there is none */
    bool dry_run;            /* only say what would be done */
};
#define COATWRIGHT_PUBLISH_WANT_INIT                                                                         \
    {                                                                                                        \
        sizeof(struct coatwright_publish_want), NULL, NULL, NULL, NULL, NULL, false, false                   \
    }

/* What was done to how many events and to-dos. */
struct coatwright_published {
    size_t size;            /* of this struct */
    const char *collection; /* the calendar's address; NULL: none was found */
    size_t added, changed, removed, same;
    size_t again; /* somebody else had deleted them: put there again */
    size_t left;  /* somebody else has changed them: left as they are */
};
#define COATWRIGHT_PUBLISHED_INIT                                                                            \
    {                                                                                                        \
        sizeof(struct coatwright_published), NULL, 0, 0, 0, 0, 0, 0                                          \
    }

/* Brings the calendar of a plan, or of jobs planned together, to a server: one resource for each event, nothing of anyone
 * else's touched, deletions last. What was published is kept beside the job, in JOB.published.json and JOB.published.ics,
 * also where only a part could be done: *done (may be NULL) counts it, and the next call goes on. Errors: usage (nothing planned), file
 * (the server, a file), input (a damaged JOB.published.json), memory. */
COATWRIGHT_API bool coatwright_publish(struct coatwright *session, const struct coatwright_publish_want *want,
                                       struct coatwright_published *done);

/* Who asks for busy times; NULL wherever nothing was said. */
struct coatwright_fetch_want {
    size_t size;      /* of this struct */
    const char *from; /* the one address to be asked; all that the job names */
    const char *user; /* NULL: no user and no password are sent; else all addresses asked are on one server */
    const char *password; /* or the file that holds it, which only its owner may read */
    const char *password_file;
    const char *authorities; /* file of trusted certificates; the system's */
};
#define COATWRIGHT_FETCH_WANT_INIT                                                                           \
    {                                                                                                        \
        sizeof(struct coatwright_fetch_want), NULL, NULL, NULL, NULL, NULL                                   \
    }

/* Fetches the calendars that a job names by their addresses ("busy": ["https://calendar.example/ann/"]) into a file for each,
 * beside the file that names it; reading the job takes those, and asks no server. Kept are the times alone, of the days for which a
 * plan of the job looks at them. In a session in which no job is read; `now` is the moment that the files tell. Each file whole or
 * not at all; where one calendar fails the others are fetched all the same. COATWRIGHT_BUSY tells what was fetched. Errors: usage
 * (no such address, a user for several servers), input (mistakes in the job, or in a calendar), file, memory. */
COATWRIGHT_API bool coatwright_fetch_busy(struct coatwright *session, const char *path,
                                          const struct coatwright_fetch_want *want);
/* How many files it has written. */
COATWRIGHT_API size_t coatwright_fetched_count(const struct coatwright *session);

#ifdef __cplusplus
}
#endif

#endif
