#include "format/json_text.h"

#include "base/buf.h"
#include "base/text.h"

#include <string.h>

int32_t json_hex(const char *text, const char *end)
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

static void skip(struct json_raw *raw, size_t bytes)
{
    raw->text += bytes;
    raw->length -= bytes;
}

bool json_raw_next(struct json_raw *raw, uint32_t *character)
{
    if (raw->length == 0)
        return false;
    const char *end = raw->text + raw->length;
    if (raw->text[0] != '\\') {
        const char *at = raw->text;
        *character = text_next(&at);
        skip(raw, at == raw->text ? 1 : (size_t)(at - raw->text));
        return true;
    }
    int32_t unit = raw->length >= 6 && raw->text[1] == 'u' ? json_hex(raw->text + 2, end) : -1;
    if (unit < 0) {
        *character = plain_escape(raw->length > 1 ? raw->text[1] : '\\');
        skip(raw, raw->length > 1 ? 2 : 1);
        return true;
    }
    skip(raw, 6);
    *character = (uint32_t)unit;
    int32_t low = unit >= 0xD800 && unit < 0xDC00 && raw->length >= 6 ? json_hex(raw->text + 2, end) : -1;
    if (low >= 0) {
        *character = 0x10000 + (((uint32_t)unit - 0xD800) << 10) + ((uint32_t)low - 0xDC00);
        skip(raw, 6);
    }
    return true;
}

int json_raw_compare(struct json_raw a, struct json_raw b)
{
    for (;;) {
        uint32_t x = 0, y = 0;
        bool more_a = json_raw_next(&a, &x), more_b = json_raw_next(&b, &y);
        if (!more_a || !more_b)
            return (int)more_a - (int)more_b;
        if (x != y)
            return x < y ? -1 : 1;
    }
}

bool json_raw_has_control(struct json_raw raw)
{
    uint32_t c;
    while (json_raw_next(&raw, &c))
        if (c < 0x20 || (c >= 0x7F && c < 0xA0))
            return true;
    return false;
}

bool json_raw_is_token(struct json_raw raw, const char *token, size_t length)
{
    const char *end = token + length;
    uint32_t got;
    while (json_raw_next(&raw, &got)) {
        if (token >= end)
            return false;
        uint32_t want = text_next(&token);
        if (want == '~' && token < end)
            want = *token++ == '1' ? '/' : '~';
        if (want != got)
            return false;
    }
    return token >= end;
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

static void add_token(struct buf *pointer, uint32_t c)
{
    if (c == '/' || c == '~')
        buf_add(pointer, c == '/' ? "~1" : "~0");
    else
        add_utf8(pointer, c);
}

void json_pointer_add(struct buf *pointer, const char *name)
{
    buf_add_char(pointer, '/');
    while (*name)
        add_token(pointer, text_next(&name));
}

void json_pointer_add_raw(struct buf *pointer, struct json_raw name)
{
    uint32_t c;
    buf_add_char(pointer, '/');
    while (json_raw_next(&name, &c))
        add_token(pointer, c);
}

void json_pointer_add_index(struct buf *pointer, size_t index)
{
    buf_addf(pointer, "/%zu", index);
}
