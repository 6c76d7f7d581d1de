/* A JSON text as typed values, each mistake reported at its place.
 *
 * Every getter gives true when it has set *value; otherwise *value is untouched and a mistake has been added. A member
 * that is not there is a mistake as well (`/start: expected a moment such as ..., found nothing`), so that a needed one is
 * read by the getter alone and an optional one behind json_has:
 *     json_quantity(json_member(finish, "density"), density_parse, &density);
 *     if (json_has(finish, "solids"))
 *         json_quantity(json_member(finish, "solids"), share_parse, &solids);
 */
#ifndef FORMAT_JSON_H
#define FORMAT_JSON_H

#include "base/err.h"
#include "base/text.h"
#include "format/json_tree.h"
#include "format/place.h"

#include <stdint.h>

/* A text that json_parse has taken in; lives as long as its arena. */
struct json_doc {
    const struct reading *reading;
    struct file_text file;
};

/* A value, or the lack of one. Passed by value. */
struct json_at {
    const struct json_doc *doc;
    const struct json_value *node;   /* NULL: not there */
    const struct json_value *parent; /* of a member that is not there */
    const char *key;                 /* its name */
};

/* The whole text as a value. False: it is not well-formed, and every reason has been added. */
bool json_parse(const struct reading *reading, const struct file_text *file, struct json_at *root);

/* The same of a file, which is loaded first, as reading_load does; a file that cannot be is reported as well. */
bool json_load(const struct reading *reading, const struct path_rule *rule, const char *path,
               struct json_at *root);

bool json_has(struct json_at object, const char *key);
struct json_at json_member(struct json_at object, const char *key);

/* The items of a list, or the members of an object, in the order of the file:
 * for (struct json_at item = json_first(list); item.node; item = json_next(item)) ... */
struct json_at json_first(struct json_at container);
struct json_at json_next(struct json_at item);
const char *json_name(struct json_at member);
size_t json_size(struct json_at container);

bool json_is_object(struct json_at at);
bool json_is_list(struct json_at at);
bool json_is_text(struct json_at at);
bool json_is_true(struct json_at at);

/* Whether it is an object with none but these keys; every other key is added, with a did-you-mean. `what` names the
 * thing: "the shop", "a step". */
bool json_object(struct json_at at, const char *what, const char *const *keys, size_t count);
/* The same, and the member of each key. */
bool json_members(struct json_at at, const char *what, const char *const *keys, size_t count,
                  struct json_at *members);
/* Whether it is a list; `expected` says what of: `a list of pieces`. */
bool json_list(struct json_at at, const char *expected);

/* A list of exactly two; `expected` says what of. */
bool json_pair(struct json_at at, const char *expected, struct json_at pair[2]);

/* Text of at least one character, none of them a control character, in the arena, blanks around it taken off. */
bool json_text(struct json_at at, const char *expected, const char **value);
/* A number of JSON, 0 or more. */
bool json_number(struct json_at at, double *value);
/* A whole number from 1 to `most`. */
bool json_count(struct json_at at, int most, int *value);
/* A whole number from 0 to `most`. */
bool json_level(struct json_at at, int most, int *value);
/* Text with a unit, by one of the readers of base/measure.h. */
bool json_quantity(struct json_at at, bool (*parse)(const char *, double *, struct err *), double *value);
/* A time span in whole minutes. */
bool json_span(struct json_at at, int32_t *value);
/* A cell of a table: text, or a number as text (in *number). False, telling nothing, for other values. */
bool json_cell(struct json_at at, const char **text, struct text_short *number);
/* One word of a few: its index. */
bool json_choice(struct json_at at, const char *const *words, size_t count, int *value);

/* What stands there, as messages say it: "3/4 foo", 12.50, a list, nothing. */
const char *json_found(struct json_at at);
/* Adds a mistake about a value, found being what stands there; false. */
bool json_refuse(struct json_at at, const char *expected);
/* The same with words for what was found. */
bool json_refuse_found(struct json_at at, const char *expected, const char *found);
/* A name that is not one of `names`: expected `a schedule of this job`, found `"oli" (did you mean "oil"?)`. */
bool json_refuse_name(struct json_at at, const char *expected, const char *const *names, size_t count);
/* The same about the name of a member. */
bool json_refuse_key(struct json_at member, const char *expected, const char *const *names, size_t count);
/* The name of a file that cannot be had: found `"parts.csv" (no such file)`, as ERR_FILE. */
bool json_refuse_file(struct json_at at, const struct err *fault);
/* Adds a warning at a value. */
void json_warn(struct json_at at, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Its JSON pointer, in the arena. */
const char *json_pointer(struct json_at at);

#endif
