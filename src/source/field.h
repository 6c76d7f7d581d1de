/* Field tables: the keys of one kind of object in the user's files, each with the member of the record that it fills. One
 * table reads an object, writes it back, tells whether two records say the same, and gives what changed between them:
 *
 *     static const struct field items[] = {
 *         {"people", FIELD_WHOLE, AT(shop, people), .limit = LIMIT_PEOPLE},
 *         {"rack", FIELD_QUANTITY, AT(shop, rack_m2), .quantity = &field_area, .limit = LIMIT_RACK},
 *         {"air", FIELD_OWN, .read = read_air, .write = write_air, .same = same_air},
 *     };
 *     static const struct fields fields = {"a shop", items, sizeof items / sizeof items[0]};
 *
 * Keys are read in the order of the table, so that what needs another key stands behind it. */
#ifndef SOURCE_FIELD_H
#define SOURCE_FIELD_H

#include "format/json.h"
#include "format/json_write.h"
#include "source/limit.h"

enum field_kind {
    FIELD_OWN,    /* by its own functions */
    FIELD_TEXT,   /* const char *, NULL where it is not given; `expected` says what it is, as of FIELD_EACH */
    FIELD_WHOLE,  /* int */
    FIELD_NUMBER, /* double */
    FIELD_QUANTITY, /* double, by `quantity` */
    FIELD_SPAN,     /* int32_t, whole minutes */
    FIELD_WORD,     /* an enum: the index of one of `words` */
    FIELD_EITHER,   /* bool: false is the first of two words, true the second */
    FIELD_TRUE,     /* bool: `true` or no such key */
    FIELD_EACH /* double[word_count], by `quantity`: an object keyed by `name`, or one value for the first `at_once` */
};

/* How a quantity is read and written. */
struct quantity {
    bool (*parse)(const char *text, double *value, struct err *fault);
    struct text_short (*write)(double value);
};

/* A value being read into its record; `context` is the reader's own. */
struct field_in {
    struct json_at at;
    void *record;
    const void *context;
};

/* A value being written; `base` is the record from which only what differs is written, or NULL: all of it. */
struct field_out {
    struct json_write *to;
    const char *key;
    const void *record, *base;
};

struct field {
    const char *key;
    enum field_kind kind;
    size_t offset; /* of the member in its record */
    bool needed;
    enum limit_name limit;
    const char *expected;
    const struct quantity *quantity;
    const char *const *words;
    size_t word_count, at_once;
    const char *(*name)(int index);
    /* Each, where it is given, goes before what the kind would do. A field that is needed and not there is read without a
     * value; one of its own without `same` is the same. */
    void (*read)(struct field_in in);
    void (*write)(struct field_out out);
    bool (*same)(const void *a, const void *b); /* of two records */
};

#define AT(record, member) .offset = offsetof(struct record, member)
#define WORDS(list) .words = (list), .word_count = sizeof(list) / sizeof((list)[0])

struct fields {
    const char *what; /* "a shop", as mistakes call the object */
    const struct field *items;
    size_t count;
};
#define FIELDS(what, items)                                                                                  \
    {                                                                                                        \
        (what), (items), sizeof(items) / sizeof((items)[0])                                                  \
    }

extern const struct quantity field_area, field_share, field_mass, field_density, field_rate, field_volume,
    field_temperature, field_minutes;

/* Reads every key into the record; keys that the table does not know are mistakes with a did-you-mean. False: it is no
 * object. */
bool fields_read(struct json_at at, const struct fields *fields, void *record, const void *context);

/* Writes the members of an object that is open: those in which the record differs from `base`, or all where that is NULL.
 * What is not given (a text that is NULL, a quantity below 0) is left out, and a field of its own without `write`. */
void fields_write(struct json_write *to, const struct fields *fields, const void *record, const void *base);

/* Whether two records say the same under one key. */
bool field_same(const struct field *field, const void *a, const void *b);
/* What a record says there; "" where it is more than one value. */
struct text_short field_words(const struct field *field, const void *record);

/* Reads one value that must keep a limit; false when it does not, or is none. */
bool read_whole(struct json_at at, enum limit_name limit, int *value);
bool read_quantity(struct json_at at, const struct quantity *quantity, enum limit_name limit, double *value);
bool read_span(struct json_at at, enum limit_name limit, int32_t *value);
/* A price as text. */
bool read_price(struct json_at at, const char *expected, int digits, int64_t *cents);
/* A list of exactly two of a kind: from, to. */
bool read_pair(struct json_at at, const char *expected, const struct quantity *quantity,
               enum limit_name limit, double pair[2]);
/* The values of FIELD_EACH: what an object names goes into `values`. */
bool read_each(struct json_at at, const struct field *field, double *values);

/* Whether it is a list with at least one item; `expected` says what of. */
bool filled_list(struct json_at at, const char *expected);

#endif
