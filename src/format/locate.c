#include "format/locate.h"

#include "base/text.h"
#include "format/json_text.h"

#include <limits.h>
#include <string.h>

struct place place_of(const char *text, size_t length, size_t offset)
{
    size_t end = offset < length ? offset : length, at = 0, begin = 0;
    struct place place = {1, 1};
    if (length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0)
        begin = at = 3;
    for (; at < end; at++) {
        bool ends = text[at] == '\n' || (text[at] == '\r' && !(at + 1 < length && text[at + 1] == '\n'));
        if (!ends)
            continue;
        begin = at + 1;
        place.line += place.line < INT_MAX;
    }
    size_t before = begin < end ? text_characters(text + begin, end - begin) : 0;
    place.column += before < INT_MAX - 1 ? (int)before : INT_MAX - 1;
    return place;
}

struct walk {
    const char *text;
    size_t length, at;
};

static char look(const struct walk *walk)
{
    return walk->at < walk->length ? walk->text[walk->at] : '\0';
}

static void skip_blank(struct walk *walk)
{
    while (walk->at < walk->length && strchr(" \t\r\n", look(walk)) && look(walk))
        walk->at++;
}

static void skip_string(struct walk *walk)
{
    for (walk->at++; walk->at < walk->length && look(walk) != '"'; walk->at++)
        if (look(walk) == '\\')
            walk->at++;
    walk->at = walk->at < walk->length ? walk->at + 1 : walk->length;
}

static void skip_value(struct walk *walk)
{
    size_t depth = 0;
    do {
        char c = look(walk);
        if (c == '"') {
            skip_string(walk);
            continue;
        }
        depth += c == '{' || c == '[';
        if (depth > 0)
            depth -= c == '}' || c == ']';
        else if (c == ',' || c == '}' || c == ']')
            return;
        walk->at++;
    } while (walk->at < walk->length && (depth > 0 || !strchr(",}] \t\r\n", look(walk))));
}

/* Past the comma to the next item; false where there is none. */
static bool next_item(struct walk *walk)
{
    skip_value(walk);
    skip_blank(walk);
    if (look(walk) != ',')
        return false;
    walk->at++;
    skip_blank(walk);
    return true;
}

static bool enter_array(struct walk *walk, const char *token, size_t length)
{
    size_t wanted = 0;
    for (size_t i = 0; i < length; i++) {
        if (token[i] < '0' || token[i] > '9' || wanted > SIZE_MAX / 10 - 1)
            return false;
        wanted = wanted * 10 + (size_t)(token[i] - '0');
    }
    walk->at++;
    skip_blank(walk);
    for (; wanted > 0; wanted--)
        if (!next_item(walk))
            return false;
    return look(walk) != ']' && look(walk) != '\0';
}

/* To the value behind a name, whose own place is left in *name. */
static bool enter_object(struct walk *walk, const char *token, size_t length, size_t *name)
{
    walk->at++;
    skip_blank(walk);
    while (look(walk) == '"') {
        *name = walk->at;
        skip_string(walk);
        struct json_raw raw = {walk->text + *name + 1, walk->at > *name + 1 ? walk->at - *name - 2 : 0};
        skip_blank(walk);
        walk->at += look(walk) == ':';
        skip_blank(walk);
        if (json_raw_is_token(raw, token, length))
            return walk->at < walk->length;
        if (!next_item(walk))
            return false;
    }
    return false;
}

size_t locate_json(const char *text, size_t length, const char *pointer, bool key)
{
    struct walk walk = {text, length, 0};
    if (length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0)
        walk.at = 3;
    skip_blank(&walk);
    size_t value = walk.at, name = walk.at;
    while (*pointer == '/') {
        size_t token = strcspn(++pointer, "/");
        bool found = look(&walk) == '{'   ? enter_object(&walk, pointer, token, &name)
                     : look(&walk) == '[' ? enter_array(&walk, pointer, token)
                                          : false;
        if (!found)
            return value;
        if (text[value] == '[')
            name = walk.at;
        value = walk.at;
        pointer += token;
    }
    return key ? name : value;
}
