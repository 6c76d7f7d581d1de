#include "format/json.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/number.h"
#include "base/text.h"
#include "format/words.h"

#include <cjson/cJSON.h>
#include <math.h>
#include <string.h>

enum { LISTED_MOST = 12 };

/* Beyond it a number has no short text without an exponent, and no part such a size. */
static const double cell_most = 1e15;

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

bool json_object(struct json_at at, const char *what, const char *const *keys, size_t count)
{
    struct arena *arena = at.doc->reading->arena;
    if (!json_is_object(at))
        return json_refuse(at, arena_textf(arena, "%s as an object in braces", what));
    for (struct json_at member = json_first(at); member.node; member = json_next(member)) {
        const char *name = json_name(member);
        size_t i = 0;
        while (i < count && strcmp(name, keys[i]) != 0)
            i++;
        if (i == count)
            refuse_key(member, what, keys, count);
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

static bool has_control(const char *text)
{
    while (*text) {
        uint32_t c = text_next(&text);
        if (c < 0x20 || (c >= 0x7F && c < 0xA0))
            return true;
    }
    return false;
}

bool json_text(struct json_at at, const char *expected, const char **value)
{
    if (!json_is_text(at))
        return json_refuse(at, expected);
    if (has_control(at.node->valuestring))
        return json_refuse(at, "text on one line, without control characters");
    size_t length;
    const char *trimmed = text_trim(at.node->valuestring, &length);
    if (length == 0)
        return json_refuse(at, expected);
    *value = arena_text_n(at.doc->reading->arena, trimmed, length);
    return true;
}

bool json_number(struct json_at at, double *value)
{
    struct err fault;
    if (!cJSON_IsNumber(at.node))
        return json_refuse(at, "a number without quotes, such as 3 or 0.5");
    return number_parse(number_format(at.node->valuedouble).text, value, &fault) ||
           json_refuse(at, fault.expected);
}

static bool whole(struct json_at at, int least, int most, int *value)
{
    double number = cJSON_IsNumber(at.node) ? at.node->valuedouble : -1;
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
    return json_is_text(at) ? at.node->valuestring : "";
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
    if (minutes >= INT32_MAX)
        return json_refuse(at, "a shorter time span");
    *value = (int32_t)minutes;
    return true;
}

bool json_cell(struct json_at at, const char **text, struct text_short *number)
{
    bool is = cJSON_IsNumber(at.node);
    if (is && fabs(at.node->valuedouble) < cell_most) {
        *number = number_format(at.node->valuedouble);
        *text = number->text;
        return true;
    }
    *text = text_of(at);
    return json_is_text(at);
}

bool json_choice(struct json_at at, const char *const *words, size_t count, int *value)
{
    for (size_t i = 0; i < count && json_is_text(at); i++)
        if (strcmp(at.node->valuestring, words[i]) == 0) {
            *value = (int)i;
            return true;
        }
    return json_refuse_name(at, words_one_of(at.doc->reading->arena, words, count), words, count);
}
