#include "format/json_token.h"

#include "base/text.h"
#include "format/json_text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FOUND_CHARACTERS = 30, NUMBER_LONGEST = 400 };

char json_peek(const struct json_cursor *cursor)
{
    return cursor->at < cursor->length ? cursor->text[cursor->at] : '\0';
}

void json_skip_blank(struct json_cursor *cursor)
{
    for (; cursor->at < cursor->length; cursor->at++) {
        char c = cursor->text[cursor->at];
        if (c != ' ' && c != '\t' && c != '\n' && c != '\r')
            return;
    }
}

static bool digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool word_character(char c)
{
    return digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c && strchr("_.+-", c));
}

/* Bytes of what a reader takes for one word at `at`: a whole string on its line, a bare word, or one character. */
static size_t found_length(const struct json_cursor *cursor, size_t at)
{
    const char *text = cursor->text + at, *next = text;
    size_t left = cursor->length - at, n = 1;
    if (text[0] == '"') {
        while (n < left && n < FOUND_CHARACTERS && text[n] != '"' && (unsigned char)text[n] >= 0x20)
            n++;
        return n < left && text[n] == '"' ? n + 1 : 1;
    }
    if (text[0] == '\\' && left > 6 && text[1] == 'u')
        return 6;
    if (!word_character(text[0])) {
        next += text[0] == '\\';
        (void)text_next(&next);
        return (size_t)(next - text);
    }
    while (n < left && n < FOUND_CHARACTERS && word_character(text[n]))
        n++;
    return n;
}

bool json_fault_say(const struct json_cursor *cursor, struct json_fault *fault, size_t at,
                    const char *expected)
{
    fault->expected = expected;
    fault->at = at;
    if (at >= cursor->length) {
        snprintf(fault->found, sizeof fault->found, "the end of the file");
        return false;
    }
    unsigned char c = (unsigned char)cursor->text[at];
    int length = (int)found_length(cursor, at);
    bool bare = c == '"' ? length > 1 : word_character((char)c) || c == '\\';
    if (c == '\n' || c == '\r')
        snprintf(fault->found, sizeof fault->found, "the end of the line");
    else if (c < 0x20 || c == 0x7F)
        snprintf(fault->found, sizeof fault->found, "a control character (0x%02x)", (unsigned)c);
    else
        snprintf(fault->found, sizeof fault->found, bare ? "%.*s" : "\"%.*s\"", length, cursor->text + at);
    return false;
}

static bool surrogate_pair(const struct json_cursor *cursor, int32_t high)
{
    const char *end = cursor->text + cursor->length;
    const char *low = cursor->text + cursor->at;
    if (high >= 0xDC00 || end - low < 6 || low[0] != '\\' || low[1] != 'u')
        return false;
    int32_t unit = json_hex(low + 2, end);
    return unit >= 0xDC00 && unit < 0xE000;
}

/* Past the escape at the cursor. */
static bool token_escape(struct json_cursor *cursor, struct json_fault *fault)
{
    size_t at = cursor->at++;
    char c = json_peek(cursor);
    if (c != 'u') {
        if (!c || !strchr("\"\\/bfnrt", c))
            return json_fault_say(cursor, fault, at, "an escape such as \\\" \\\\ \\n or \\u00e9");
        cursor->at++;
        return true;
    }
    int32_t unit = json_hex(cursor->text + cursor->at + 1, cursor->text + cursor->length);
    if (unit < 0)
        return json_fault_say(cursor, fault, at, "four hexadecimal digits after \\u");
    if (unit == 0)
        return json_fault_say(cursor, fault, at, "text without the character \\u0000");
    cursor->at += 5;
    if (unit >= 0xD800 && unit < 0xE000) {
        if (!surrogate_pair(cursor, unit))
            return json_fault_say(cursor, fault, at, "a pair of surrogates such as \\ud83d\\ude00");
        cursor->at += 6;
    }
    return true;
}

bool json_token_string(struct json_cursor *cursor, struct json_fault *fault)
{
    size_t open = cursor->at++;
    for (;;) {
        char c = json_peek(cursor);
        if (cursor->at >= cursor->length)
            return json_fault_say(cursor, fault, open, "a closing quote for this text");
        if (c == '"')
            break;
        if ((unsigned char)c < 0x20) {
            bool line = c == '\n' || c == '\r';
            return json_fault_say(cursor, fault, cursor->at,
                                  line ? "a closing quote" : "text without a raw control character");
        }
        if (c != '\\')
            cursor->at++;
        else if (!token_escape(cursor, fault))
            return false;
    }
    cursor->at++;
    return true;
}

static bool token_digits(struct json_cursor *cursor, struct json_fault *fault, size_t begin,
                         const char *expected)
{
    if (!digit(json_peek(cursor)))
        return json_fault_say(cursor, fault, begin, expected);
    while (digit(json_peek(cursor)))
        cursor->at++;
    return true;
}

/* A number ends where no word goes on, and is one that a double can hold. */
static bool number_holds(const struct json_cursor *cursor, struct json_fault *fault, size_t begin)
{
    char copy[NUMBER_LONGEST + 1];
    size_t length = cursor->at - begin;
    if (word_character(json_peek(cursor)))
        return json_fault_say(cursor, fault, begin, "a number, or text in double quotes");
    if (length > NUMBER_LONGEST)
        return json_fault_say(cursor, fault, begin, "a shorter number");
    memcpy(copy, cursor->text + begin, length);
    copy[length] = '\0';
    if (!isfinite(strtod(copy, NULL)))
        return json_fault_say(cursor, fault, begin, "a number that is not beyond all measure");
    return true;
}

bool json_token_number(struct json_cursor *cursor, struct json_fault *fault)
{
    size_t begin = cursor->at;
    cursor->at += json_peek(cursor) == '-';
    bool zero = json_peek(cursor) == '0';
    size_t first = cursor->at;
    if (!token_digits(cursor, fault, begin, "a number"))
        return false;
    if (zero && cursor->at > first + 1)
        return json_fault_say(cursor, fault, begin, "a number without leading zeros");
    if (json_peek(cursor) == '.') {
        cursor->at++;
        if (!token_digits(cursor, fault, begin, "a digit after the decimal point"))
            return false;
    }
    if (json_peek(cursor) == 'e' || json_peek(cursor) == 'E') {
        cursor->at++;
        cursor->at += json_peek(cursor) == '-' || json_peek(cursor) == '+';
        if (!token_digits(cursor, fault, begin, "a digit in the exponent"))
            return false;
    }
    return number_holds(cursor, fault, begin);
}

bool json_token_word(struct json_cursor *cursor, const char *word)
{
    size_t length = strlen(word);
    if (cursor->length - cursor->at < length || memcmp(cursor->text + cursor->at, word, length) != 0)
        return false;
    if (cursor->at + length < cursor->length && word_character(cursor->text[cursor->at + length]))
        return false;
    cursor->at += length;
    return true;
}
