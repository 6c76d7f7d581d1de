#include "format/json.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/err.h"
#include "base/measure.h"
#include "base/number.h"
#include "base/text.h"
#include "format/json_tree.h"
#include "format/json_token.h"
#include "format/words.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { LISTED_MOST = 13 };

/* Beyond it a number has no short text without an exponent, and no part such a size. */
static const double cell_most = 1e15;

/* Whole numbers below it are written with all their digits: reading them again changes nothing. */
static const double short_most = 1e9;

static size_t locate(struct arena *arena, const void *root, const struct file_text *file, const char *pointer)
{
    (void)arena;
    (void)file;
    return json_tree_find(root, pointer)->at;
}

bool json_parse(const struct reading *reading, const struct file_text *file, struct json_at *root)
{
    const struct json_value *value = json_scan(reading->arena, file, reading->errors);
    if (!value)
        return false;
    struct json_doc *doc = ARENA_NEW(reading->arena, struct json_doc);
    *doc = (struct json_doc){reading, *file};
    texts_add(reading->texts, file, locate, value);
    *root = (struct json_at){doc, value, NULL, NULL};
    return true;
}

static bool is(struct json_at at, enum json_kind kind)
{
    return at.node && at.node->kind == kind;
}

bool json_is_object(struct json_at at)
{
    return is(at, JSON_OBJECT);
}

bool json_is_list(struct json_at at)
{
    return is(at, JSON_LIST);
}

bool json_is_text(struct json_at at)
{
    return is(at, JSON_TEXT);
}

bool json_is_true(struct json_at at)
{
    return is(at, JSON_TRUE);
}

/* Most keys differ in their first letter already. */
static bool same_key(const char *a, const char *b)
{
    return a[0] == b[0] && strcmp(a, b) == 0;
}

struct json_at json_member(struct json_at object, const char *key)
{
    const struct json_value *node = json_is_object(object) ? object.node->child : NULL;
    while (node && !same_key(node->name, key))
        node = node->next;
    return (struct json_at){object.doc, node, object.node, key};
}

bool json_load(const struct reading *reading, const struct path_rule *rule, const char *path,
               struct json_at *root)
{
    struct file_text text;
    struct err err;
    if (reading_load(reading, rule, path, &text, &err))
        return json_parse(reading, &text, root);
    err_add(reading->errors, ERR_FILE, path, "", err.expected, err.found);
    return false;
}

bool json_has(struct json_at object, const char *key)
{
    return json_member(object, key).node != NULL;
}

struct json_at json_first(struct json_at container)
{
    return (struct json_at){container.doc, json_child(container.node), container.node, NULL};
}

struct json_at json_next(struct json_at item)
{
    item.node = item.node->next;
    return item;
}

const char *json_name(struct json_at member)
{
    return member.node->name;
}

size_t json_size(struct json_at container)
{
    size_t size = 0;
    for (struct json_at item = json_first(container); item.node; item = json_next(item))
        size++;
    return size;
}

const char *json_pointer(struct json_at at)
{
    struct buf way;
    buf_init(&way, at.doc->reading->arena);
    if (at.node || at.parent)
        json_tree_pointer(&way, at.node ? at.node : at.parent);
    if (!at.node && at.key)
        json_pointer_add(&way, at.key);
    return way.text;
}

static struct arena *arena_of(struct json_at at)
{
    return at.doc->reading->arena;
}

/* Of what is not there, where it is missing. */
static size_t offset_of(struct json_at at, bool key)
{
    const struct json_value *there = at.node ? at.node : at.parent;
    return !there ? 0 : key ? there->name_at : there->at;
}

/* As it is written: 1.50 stays 1.50. */
static const char *number_found(struct json_at at)
{
    const char *text = at.doc->file.text + offset_of(at, false);
    return arena_text_n(arena_of(at), text, strcspn(text, ",]} \t\r\n"));
}

const char *json_found(struct json_at at)
{
    if (!at.node)
        return "nothing";
    switch (at.node->kind) {
    case JSON_TEXT:
        return words_quote(arena_of(at), at.node->text);
    case JSON_NUMBER:
        return number_found(at);
    case JSON_OBJECT:
        return at.node->child ? "an object" : "an empty object";
    case JSON_LIST:
        return at.node->child ? "a list" : "an empty list";
    case JSON_NULL:
        return "null";
    default:
        return json_is_true(at) ? "true" : "false";
    }
}

static bool full(struct json_at at)
{
    return list_full(at.doc->reading->errors);
}

static bool refuse_at(struct json_at at, bool key, const char *expected, const char *found)
{
    (void)text_wrong(at.doc->reading->errors, &at.doc->file, offset_of(at, key), json_pointer(at), expected,
                     found);
    return false;
}

bool json_refuse_found(struct json_at at, const char *expected, const char *found)
{
    return !full(at) && refuse_at(at, false, expected, found);
}

bool json_refuse(struct json_at at, const char *expected)
{
    return !full(at) && refuse_at(at, false, expected, json_found(at));
}

bool json_refuse_name(struct json_at at, const char *expected, const char *const *names, size_t count)
{
    if (!json_is_text(at))
        return json_refuse(at, expected);
    return !full(at) &&
           refuse_at(at, false, expected, words_found(arena_of(at), at.node->text, names, count));
}

bool json_refuse_key(struct json_at member, const char *expected, const char *const *names, size_t count)
{
    return !full(member) &&
           refuse_at(member, true, expected, words_found(arena_of(member), json_name(member), names, count));
}

bool json_refuse_file(struct json_at at, const struct err *fault)
{
    struct err_list *errors = at.doc->reading->errors;
    if (full(at))
        return false;
    const char *found = arena_textf(arena_of(at), "%s (%s)", json_found(at), fault->found);
    struct err *err =
        text_wrong(errors, &at.doc->file, offset_of(at, false), json_pointer(at), fault->expected, found);
    if (err)
        err->code = ERR_FILE;
    return false;
}

void json_warn(struct json_at at, const char *format, ...)
{
    struct err_list *warnings = at.doc->reading->warnings;
    char sentence[ERR_FOUND_SIZE];
    va_list arguments;
    if (list_full(warnings))
        return;
    va_start(arguments, format);
    vsnprintf(sentence, sizeof sentence, format, arguments);
    va_end(arguments);
    text_warn(warnings, &at.doc->file, offset_of(at, false), json_pointer(at), sentence);
}

/* Where no key is near, a short list of all says more than "a key of". */
static void refuse_key(struct json_at member, const char *what, const char *const *keys, size_t count)
{
    struct arena *arena = member.doc->reading->arena;
    if (member.doc->reading->errors->count == ERR_MOST) {
        json_refuse_key(member, what, keys, 0);
        return;
    }
    bool list = count <= LISTED_MOST && !text_nearest(json_name(member), keys, count);
    json_refuse_key(member, list ? words_one_of(arena, keys, count) : arena_textf(arena, "a key of %s", what),
                    keys, count);
}

static size_t key_index(struct json_at member, const char *const *keys, size_t count)
{
    const char *name = json_name(member);
    size_t i = 0;
    while (i < count && !same_key(name, keys[i]))
        i++;
    return i;
}

static bool refuse_form(struct json_at at, const char *what)
{
    return json_refuse(at, arena_textf(arena_of(at), "%s as an object in braces", what));
}

bool json_object(struct json_at at, const char *what, const char *const *keys, size_t count)
{
    if (!json_is_object(at))
        return refuse_form(at, what);
    for (struct json_at member = json_first(at); member.node; member = json_next(member))
        if (key_index(member, keys, count) == count)
            refuse_key(member, what, keys, count);
    return true;
}

bool json_members(struct json_at at, const char *what, const char *const *keys, size_t count,
                  struct json_at *members)
{
    if (!json_is_object(at))
        return refuse_form(at, what);
    for (size_t i = 0; i < count; i++)
        members[i] = (struct json_at){at.doc, NULL, at.node, keys[i]};
    for (struct json_at member = json_first(at); member.node; member = json_next(member)) {
        size_t i = key_index(member, keys, count);
        if (i == count)
            refuse_key(member, what, keys, count);
        else
            members[i].node = member.node;
    }
    return true;
}

bool json_list(struct json_at at, const char *expected)
{
    return json_is_list(at) || json_refuse(at, expected);
}

bool json_pair(struct json_at at, const char *expected, struct json_at pair[2])
{
    if (!json_is_list(at) || json_size(at) != 2)
        return json_refuse(at, expected);
    pair[0] = json_first(at);
    pair[1] = json_next(pair[0]);
    return true;
}

bool json_text(struct json_at at, const char *expected, const char **value)
{
    if (!json_is_text(at))
        return json_refuse(at, expected);
    if (!at.node->plain && json_has_control(at.node->text))
        return json_refuse(at, "text on one line, without control characters");
    size_t length;
    const char *trimmed = text_trim(at.node->text, &length);
    if (length == 0)
        return json_refuse(at, expected);
    bool whole_text = trimmed[length] == '\0';
    *value = whole_text ? trimmed : arena_text_n(at.doc->reading->arena, trimmed, length);
    return true;
}

bool json_number(struct json_at at, double *value)
{
    struct err fault;
    if (!is(at, JSON_NUMBER))
        return json_refuse(at, "a number without quotes, such as 3 or 0.5");
    if (at.node->number >= 0 && at.node->number < short_most && at.node->number == floor(at.node->number)) {
        *value = at.node->number;
        return true;
    }
    if (fabs(at.node->number) >= cell_most)
        return json_refuse(at, "a smaller number");
    return number_parse(number_format(at.node->number).text, value, &fault) ||
           json_refuse(at, fault.expected);
}

static bool whole(struct json_at at, int least, int most, int *value)
{
    double number = is(at, JSON_NUMBER) ? at.node->number : -1;
    if (number >= least && number <= most && number == floor(number)) {
        *value = (int)number;
        return true;
    }
    return json_refuse(at, arena_textf(at.doc->reading->arena, "a whole number from %d to %d", least, most));
}

bool json_count(struct json_at at, int most, int *value)
{
    return whole(at, 1, most, value);
}

bool json_level(struct json_at at, int most, int *value)
{
    return whole(at, 0, most, value);
}

/* What a parser is asked to read; a value of another kind is no text, which every parser refuses in its own words. */
static const char *text_of(struct json_at at)
{
    return json_is_text(at) ? at.node->text : "";
}

bool json_quantity(struct json_at at, bool (*parse)(const char *, double *, struct err *), double *value)
{
    struct err fault;
    return parse(text_of(at), value, &fault) || json_refuse(at, fault.expected);
}

bool json_span(struct json_at at, int32_t *value)
{
    struct err fault;
    int64_t minutes;
    if (!span_parse(text_of(at), &minutes, &fault))
        return json_refuse(at, fault.expected);
    *value = (int32_t)minutes;
    return true;
}

bool json_cell(struct json_at at, const char **text, struct text_short *number)
{
    if (is(at, JSON_NUMBER) && fabs(at.node->number) < cell_most) {
        *number = number_format(at.node->number);
        *text = number->text;
        return true;
    }
    *text = text_of(at);
    return json_is_text(at);
}

bool json_choice(struct json_at at, const char *const *words, size_t count, int *value)
{
    for (size_t i = 0; i < count && json_is_text(at); i++)
        if (strcmp(at.node->text, words[i]) == 0) {
            *value = (int)i;
            return true;
        }
    return json_refuse_name(at, words_one_of(at.doc->reading->arena, words, count), words, count);
}
