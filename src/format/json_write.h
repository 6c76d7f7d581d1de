/* JSON as text, written front to back.
 *
 *     json_open(&w, NULL, '{');
 *     json_put_text(&w, "job", job->name);
 *     json_open(&w, "surfaces", '[');
 *     for (...) { json_open_row(&w, NULL); ...; json_close(&w); }
 *     json_close(&w);
 *     json_close(&w);
 *
 * Every function takes the member's key first: NULL inside a list and for the whole document. Texts must be UTF-8. */
#ifndef FORMAT_JSON_WRITE_H
#define FORMAT_JSON_WRITE_H

#include "base/buf.h"
#include "base/moment.h"

#include <stdbool.h>
#include <stdint.h>

enum { JSON_WRITE_DEEPEST = 16 };

struct json_write {
    struct buf *out;
    int depth;
    int row;                          /* brackets open since the one that began a row; 0: not in a row */
    char closing[JSON_WRITE_DEEPEST]; /* of each bracket that is open */
    bool filled[JSON_WRITE_DEEPEST];  /* it has a member already */
};

void json_write_init(struct json_write *w, struct buf *out);

/* Opens '{' or '[', one member a line. */
void json_open(struct json_write *w, const char *key, char bracket);
/* The same with everything inside on one line. */
void json_open_row(struct json_write *w, const char *key, char bracket);
/* Closes the innermost bracket; behind the outermost it ends the line. */
void json_close(struct json_write *w);

/* NULL becomes null. */
void json_put_text(struct json_write *w, const char *key, const char *text);
/* 15 significant digits without trailing zeros, no exponent; infinity and NaN become null. */
void json_put_number(struct json_write *w, const char *key, double number);
void json_put_whole(struct json_write *w, const char *key, int64_t number);
void json_put_flag(struct json_write *w, const char *key, bool flag);
void json_put_null(struct json_write *w, const char *key);
/* RFC 3339 with the zone's offset; INT64_MIN and INT64_MAX become null. */
void json_put_moment(struct json_write *w, const char *key, const struct zone *zone, int64_t minute);
/* Money as text with the currency's digits; -1 becomes null. */
void json_put_money(struct json_write *w, const char *key, int64_t cents, int digits);

#endif
