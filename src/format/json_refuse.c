#include "format/json.h"

#include "base/arena.h"
#include "format/locate.h"
#include "format/words.h"

#include <cjson/cJSON.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static struct arena *arena_of(struct json_at at)
{
    return at.doc->reading->arena;
}

static size_t offset_of(struct json_at at, bool key)
{
    return locate_json(at.doc->file.text, at.doc->file.length, json_pointer(at), key);
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
    switch (at.node->type & 0xFF) {
    case cJSON_String:
        return words_quote(arena_of(at), at.node->valuestring);
    case cJSON_Number:
        return number_found(at);
    case cJSON_Object:
        return at.node->child ? "an object" : "an empty object";
    case cJSON_Array:
        return at.node->child ? "a list" : "an empty list";
    case cJSON_NULL:
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
           refuse_at(at, false, expected, words_found(arena_of(at), at.node->valuestring, names, count));
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
