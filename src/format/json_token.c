#include "format/json_token.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/exact.h"
#include "base/text.h"

#include <limits.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { FOUND_CHARACTERS = 30, FOUND_SIZE = 64, NUMBER_LONGEST = 400 };

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

bool json_wrong_found(struct json_cursor *cursor, size_t at, const char *expected, const char *found)
{
    cursor->wrong_at = at;
    return err_say_found(&cursor->err, expected, found);
}

bool json_wrong(struct json_cursor *cursor, size_t at, const char *expected)
{
    char found[FOUND_SIZE];
    if (at >= cursor->length)
        return json_wrong_found(cursor, at, expected, "the end of the file");
    unsigned char c = (unsigned char)cursor->text[at];
    int length = (int)found_length(cursor, at);
    bool bare = c == '"' ? length > 1 : word_character((char)c) || c == '\\';
    if (c == '\n' || c == '\r')
        snprintf(found, sizeof found, "the end of the line");
    else if (c < 0x20 || c == 0x7F)
        snprintf(found, sizeof found, "a control character (0x%02x)", (unsigned)c);
    else
        snprintf(found, sizeof found, bare ? "%.*s" : "\"%.*s\"", length, cursor->text + at);
    return json_wrong_found(cursor, at, expected, found);
}

bool json_has_control(const char *text)
{
    while (*text)
        if (*text >= ' ' && *text < '\x7F')
            text++;
        else if (text_is_control(text_next(&text)))
            return true;
    return false;
}

/* Four hexadecimal digits -> their value; -1 where they are not four. */
static int32_t hex(const char *text, const char *end)
{
    int32_t value = 0;
    if (end - text < 4)
        return -1;
    for (int i = 0; i < 4; i++) {
        char c = text[i];
        int digit = c >= '0' && c <= '9'   ? c - '0'
                    : c >= 'a' && c <= 'f' ? c - 'a' + 10
                    : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                           : -1;
        if (digit < 0)
            return -1;
        value = value * 16 + digit;
    }
    return value;
}

static uint32_t plain_escape(char c)
{
    static const char from[] = "bfnrt", to[] = "\b\f\n\r\t";
    const char *at = strchr(from, c);
    return (uint32_t)(unsigned char)(c && at ? to[at - from] : c);
}

static void add_utf8(struct buf *buf, uint32_t c)
{
    if (c < 0x80) {
        buf_add_char(buf, (char)c);
        return;
    }
    int more = c < 0x800 ? 1 : c < 0x10000 ? 2 : 3;
    static const unsigned char lead[] = {0, 0xC0, 0xE0, 0xF0};
    buf_add_char(buf, (char)(lead[more] | (c >> (6 * more))));
    for (int i = more - 1; i >= 0; i--)
        buf_add_char(buf, (char)(0x80 | ((c >> (6 * i)) & 0x3F)));
}

static bool surrogate_pair(const struct json_cursor *cursor, int32_t high)
{
    const char *end = cursor->text + cursor->length;
    const char *low = cursor->text + cursor->at;
    if (high >= 0xDC00 || end - low < 6 || low[0] != '\\' || low[1] != 'u')
        return false;
    int32_t unit = hex(low + 2, end);
    return unit >= 0xDC00 && unit < 0xE000;
}

/* Past the escape at the cursor. */
static bool token_escape(struct json_cursor *cursor)
{
    size_t at = cursor->at++;
    char c = json_peek(cursor);
    if (c != 'u') {
        if (!c || !strchr("\"\\/bfnrt", c))
            return json_wrong(cursor, at, "an escape such as \\\" \\\\ \\n or \\u00e9");
        cursor->at++;
        return true;
    }
    int32_t unit = hex(cursor->text + cursor->at + 1, cursor->text + cursor->length);
    if (unit < 0)
        return json_wrong(cursor, at, "four hexadecimal digits after \\u");
    if (unit == 0)
        return json_wrong(cursor, at, "text without the character \\u0000");
    cursor->at += 5;
    if (unit >= 0xD800 && unit < 0xE000) {
        if (!surrogate_pair(cursor, unit))
            return json_wrong(cursor, at, "a pair of surrogates such as \\ud83d\\ude00");
        cursor->at += 6;
    }
    return true;
}

/* The character of a well-formed escape; *at moves past it. */
static uint32_t unescape(const char **at, const char *end)
{
    const char *from = *at + 1;
    *at = from + 1;
    if (*from != 'u')
        return plain_escape(*from);
    int32_t unit = hex(from + 1, end);
    *at = from + 5;
    if (unit < 0xD800 || unit >= 0xDC00)
        return (uint32_t)unit;
    int32_t low = hex(from + 7, end);
    *at = from + 11;
    return 0x10000 + (((uint32_t)unit - 0xD800) << 10) + ((uint32_t)low - 0xDC00);
}

static const char *decoded(struct arena *arena, const char *body, const char *end)
{
    struct buf buf;
    buf_init(&buf, arena);
    while (body < end) {
        const char *escape = memchr(body, '\\', (size_t)(end - body));
        buf_add_n(&buf, body, (size_t)((escape ? escape : end) - body));
        body = escape ? escape : end;
        if (escape)
            add_utf8(&buf, unescape(&body, end));
    }
    return buf.text;
}

/* Whether eight bytes are printable ASCII and neither quote nor backslash; each byte's top bit gathers what speaks against
 * it. A borrow from the byte below can only make it no. */
static bool eight_plain(const char *text)
{
    const uint64_t ones = UINT64_MAX / UCHAR_MAX;
    uint64_t bytes;
    memcpy(&bytes, text, sizeof bytes);
    uint64_t control = bytes - ones * ' ', deleted = (bytes ^ ones * 0x7F) - ones;
    uint64_t quote = (bytes ^ ones * '"') - ones, escape = (bytes ^ ones * '\\') - ones;
    return ((bytes | control | deleted | quote | escape) & ones << (CHAR_BIT - 1)) == 0;
}

/* Past printable ASCII that stands in a string as it is. */
static void skip_plain(struct json_cursor *cursor)
{
    const char *at = cursor->text + cursor->at, *const end = cursor->text + cursor->length;
    while (end - at >= 8 && eight_plain(at))
        at += 8;
    while (at < end && *at >= ' ' && *at < '\x7F' && *at != '"' && *at != '\\')
        at++;
    cursor->at = (size_t)(at - cursor->text);
}

bool json_token_string(struct json_cursor *cursor, const char **value, bool *plain)
{
    size_t open = cursor->at++;
    bool escapes = false;
    *plain = true;
    for (;;) {
        skip_plain(cursor);
        char c = json_peek(cursor);
        if (cursor->at >= cursor->length)
            return json_wrong(cursor, open, "a closing quote for this text");
        if (c == '"')
            break;
        if ((unsigned char)c < 0x20) {
            bool line = c == '\n' || c == '\r';
            return json_wrong(cursor, cursor->at,
                              line ? "a closing quote" : "text without a raw control character");
        }
        *plain = false;
        escapes = escapes || c == '\\';
        if (c != '\\')
            cursor->at++;
        else if (!token_escape(cursor))
            return false;
    }
    const char *body = cursor->text + open + 1, *end = cursor->text + cursor->at++;
    *value =
        escapes ? decoded(cursor->arena, body, end) : arena_text_n(cursor->arena, body, (size_t)(end - body));
    return true;
}

static bool token_digits(struct json_cursor *cursor, size_t begin, const char *expected)
{
    if (!digit(json_peek(cursor)))
        return json_wrong(cursor, begin, expected);
    while (digit(json_peek(cursor)))
        cursor->at++;
    return true;
}

/* A number ends where no word goes on, and is one that a double can hold. */
static bool number_holds(struct json_cursor *cursor, size_t begin, double *value)
{
    const char *text = cursor->text + begin;
    size_t length = cursor->at - begin, sign = *text == '-';
    if (word_character(json_peek(cursor)))
        return json_wrong(cursor, begin, "a number, or text in double quotes");
    if (length > NUMBER_LONGEST)
        return json_wrong(cursor, begin, "a shorter number");
    (void)decimal_read(text + sign, length - sign, value);
    *value = sign ? -*value : *value;
    if (!isfinite(*value))
        return json_wrong(cursor, begin, "a number that is not beyond all measure");
    return true;
}

bool json_token_number(struct json_cursor *cursor, double *value)
{
    size_t begin = cursor->at;
    cursor->at += json_peek(cursor) == '-';
    bool zero = json_peek(cursor) == '0';
    size_t first = cursor->at;
    if (!token_digits(cursor, begin, "a number"))
        return false;
    if (zero && cursor->at > first + 1)
        return json_wrong(cursor, begin, "a number without leading zeros");
    if (json_peek(cursor) == '.') {
        cursor->at++;
        if (!token_digits(cursor, begin, "a digit after the decimal point"))
            return false;
    }
    if (json_peek(cursor) == 'e' || json_peek(cursor) == 'E') {
        cursor->at++;
        cursor->at += json_peek(cursor) == '-' || json_peek(cursor) == '+';
        if (!token_digits(cursor, begin, "a digit in the exponent"))
            return false;
    }
    return number_holds(cursor, begin, value);
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
