#include "source/field.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/money.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { KEYS_MOST = 64, EACH_MOST = 32 };

static bool parse_area(const char *text, double *area_m2, struct err *fault)
{
    return area_parse(text, LENGTH_NONE, area_m2, fault);
}

const struct quantity field_area = {parse_area, area_write}, field_share = {share_parse, share_write},
                      field_mass = {mass_parse, mass_write}, field_density = {density_parse, density_write},
                      field_rate = {rate_parse, rate_write}, field_volume = {volume_parse, volume_write},
                      field_temperature = {temperature_parse, temperature_write},
                      field_minutes = {span_parse_fraction, span_write};

static bool keeps(struct json_at at, enum limit_name name, double value)
{
    const struct limit *limit = &limits[name];
    return name == LIMIT_NONE || (value >= limit->least && value <= limit->most) ||
           json_refuse(at, limit->expected);
}

bool read_whole(struct json_at at, enum limit_name name, int *value)
{
    const struct limit *limit = &limits[name];
    int read;
    if (limit->expected)
        return json_level(at, (int)limit->most, &read) && keeps(at, name, read) && (*value = read, true);
    return limit->least > 0 ? json_count(at, (int)limit->most, value)
                            : json_level(at, (int)limit->most, value);
}

bool read_quantity(struct json_at at, const struct quantity *quantity, enum limit_name limit, double *value)
{
    double read;
    return json_quantity(at, quantity->parse, &read) && keeps(at, limit, read) && (*value = read, true);
}

bool read_span(struct json_at at, enum limit_name limit, int32_t *value)
{
    int32_t read;
    return json_span(at, &read) && keeps(at, limit, read) && (*value = read, true);
}

bool read_price(struct json_at at, const char *expected, int digits, int64_t *cents)
{
    struct err fault;
    const char *text;
    return json_text(at, expected, &text) &&
           (money_parse(text, digits, cents, &fault) || json_refuse(at, fault.expected));
}

bool read_pair(struct json_at at, const char *expected, const struct quantity *quantity,
               enum limit_name limit, double pair[2])
{
    struct json_at both[2];
    if (!json_pair(at, expected, both))
        return false;
    bool first = read_quantity(both[0], quantity, limit, &pair[0]);
    return read_quantity(both[1], quantity, limit, &pair[1]) && first;
}

bool filled_list(struct json_at at, const char *expected)
{
    return (json_is_list(at) && json_size(at) > 0) || json_refuse(at, expected);
}

static bool read_number(struct json_at at, enum limit_name limit, double *value)
{
    double read;
    return json_number(at, &read) && keeps(at, limit, read) && (*value = read, true);
}

bool read_each(struct json_at at, const struct field *field, double *values)
{
    const char *names[EACH_MOST];
    double all;
    for (size_t i = 0; i < field->word_count; i++)
        names[i] = field->name((int)i);
    if (field->at_once && !json_is_object(at)) {
        if (!read_quantity(at, field->quantity, field->limit, &all))
            return false;
        for (size_t i = 0; i < field->at_once; i++)
            values[i] = all;
        return true;
    }
    if (!json_object(at, field->expected, names, field->word_count))
        return false;
    if (json_size(at) == 0)
        json_refuse(at, "at least one tool or work");
    for (size_t i = 0; i < field->word_count; i++)
        if (json_has(at, names[i]))
            read_quantity(json_member(at, names[i]), field->quantity, field->limit, &values[i]);
    return true;
}

static void read_field(const struct field *field, struct json_at at, void *record, const void *context)
{
    void *member = (char *)record + field->offset;
    int choice;
    if (field->read) {
        field->read((struct field_in){at, record, context});
        return;
    }
    switch (field->kind) {
    case FIELD_OWN:
        break;
    case FIELD_TEXT:
        json_text(at, field->expected, member);
        break;
    case FIELD_WHOLE:
        read_whole(at, field->limit, member);
        break;
    case FIELD_NUMBER:
        read_number(at, field->limit, member);
        break;
    case FIELD_QUANTITY:
        read_quantity(at, field->quantity, field->limit, member);
        break;
    case FIELD_SPAN:
        read_span(at, field->limit, member);
        break;
    case FIELD_WORD:
        json_choice(at, field->words, field->word_count, member);
        break;
    case FIELD_EITHER:
        if (json_choice(at, field->words, 2, &choice))
            *(bool *)member = choice == 1;
        break;
    case FIELD_TRUE:
        *(bool *)member = json_is_true(at) || json_refuse(at, "true, or no such key");
        break;
    case FIELD_EACH:
        read_each(at, field, member);
        break;
    }
}

bool fields_read(struct json_at at, const struct fields *fields, void *record, const void *context)
{
    const char *keys[KEYS_MOST];
    struct json_at members[KEYS_MOST];
    assert(fields->count <= KEYS_MOST);
    for (size_t i = 0; i < fields->count; i++)
        keys[i] = fields->items[i].key;
    if (!json_members(at, fields->what, keys, fields->count, members))
        return false;
    for (size_t i = 0; i < fields->count; i++)
        if (members[i].node || fields->items[i].needed)
            read_field(&fields->items[i], members[i], record, context);
    return true;
}

/* NULL: the value stands for nothing said, which may lie behind the last word. */
static const char *word_of(const struct field *field, int value)
{
    return (size_t)value < field->word_count ? field->words[value] : NULL;
}

struct text_short field_words(const struct field *field, const void *record)
{
    const void *member = (const char *)record + field->offset;
    struct text_short words = {""};
    if (field->kind == FIELD_WHOLE)
        snprintf(words.text, sizeof words.text, "%d", *(const int *)member);
    else if (field->kind == FIELD_QUANTITY)
        words = *(const double *)member < 0 ? (struct text_short){"no limit"}
                                            : field->quantity->write(*(const double *)member);
    else if (field->kind == FIELD_SPAN)
        words = span_format(*(const int32_t *)member);
    else if (field->kind == FIELD_WORD && word_of(field, *(const int *)member))
        snprintf(words.text, sizeof words.text, "%s", word_of(field, *(const int *)member));
    else if (field->kind == FIELD_EITHER)
        snprintf(words.text, sizeof words.text, "%s", field->words[*(const bool *)member]);
    return words;
}

/* Numbers that differ by a rounding in another unit say the same. */
static bool same_number(double a, double b)
{
    return fabs(a - b) < 1e-9;
}

static void write_each(const struct field *field, struct field_out out)
{
    const double *values = (const double *)((const char *)out.record + field->offset);
    const double *base = out.base ? (const double *)((const char *)out.base + field->offset) : NULL;
    json_open_row(out.to, out.key, '{');
    for (size_t i = 0; i < field->word_count; i++)
        if (!base || !same_number(values[i], base[i]))
            json_put_text(out.to, field->name((int)i), field->quantity->write(values[i]).text);
    json_close(out.to);
}

static void write_field(const struct field *field, struct field_out out)
{
    const void *member = (const char *)out.record + field->offset;
    if (field->write)
        field->write(out);
    else if (field->kind == FIELD_EACH)
        write_each(field, out);
    else if (field->kind == FIELD_WHOLE)
        json_put_whole(out.to, out.key, *(const int *)member);
    else if (field->kind == FIELD_NUMBER)
        json_put_number(out.to, out.key, *(const double *)member);
    else if (field->kind == FIELD_TRUE && *(const bool *)member)
        json_put_flag(out.to, out.key, true);
    else if (field->kind == FIELD_TEXT && *(const char *const *)member)
        json_put_text(out.to, out.key, *(const char *const *)member);
    else if (field->kind == FIELD_SPAN)
        json_put_text(out.to, out.key, span_write(*(const int32_t *)member).text);
    else if (field->kind == FIELD_QUANTITY && *(const double *)member < 0)
        return;
    else if (*field_words(field, out.record).text)
        json_put_text(out.to, out.key, field_words(field, out.record).text);
}

void fields_write(struct json_write *to, const struct fields *fields, const void *record, const void *base)
{
    for (size_t i = 0; i < fields->count; i++)
        if (!base || !field_same(&fields->items[i], record, base))
            write_field(&fields->items[i], (struct field_out){to, fields->items[i].key, record, base});
}

static bool same_numbers(const double *a, const double *b, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!same_number(a[i], b[i]))
            return false;
    return true;
}

static bool same_text(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

bool field_same(const struct field *field, const void *a, const void *b)
{
    const void *left = (const char *)a + field->offset, *right = (const char *)b + field->offset;
    if (field->same)
        return field->same(a, b);
    switch (field->kind) {
    case FIELD_OWN:
        return true;
    case FIELD_TEXT:
        return same_text(*(const char *const *)left, *(const char *const *)right);
    case FIELD_WHOLE:
    case FIELD_WORD:
        return *(const int *)left == *(const int *)right;
    case FIELD_NUMBER:
    case FIELD_QUANTITY:
        return same_numbers(left, right, 1);
    case FIELD_EACH:
        return same_numbers(left, right, field->word_count);
    case FIELD_SPAN:
        return *(const int32_t *)left == *(const int32_t *)right;
    case FIELD_EITHER:
    case FIELD_TRUE:
        break;
    }
    return *(const bool *)left == *(const bool *)right;
}
