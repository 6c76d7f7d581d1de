/* The JSON of a request. The library that reads it drops the end of a string for which it finds no memory, and goes on; such a text
 * must not be saved. So what was read is written once more, and must hold as many bytes in its strings as what was sent. */
#include "page/exchange.h"

#include <stdlib.h>
#include <string.h>

/* The unit of UTF-16 behind the backslash at a place; -1: none is there. */
static long unit_at(const char *text, size_t length, size_t at)
{
    char digits[5] = "", *end;
    if (at + 6 > length || text[at] != '\\' || text[at + 1] != 'u')
        return -1;
    memcpy(digits, text + at + 2, 4);
    long unit = strtol(digits, &end, 16);
    return *end ? -1 : unit;
}

/* Bytes of what an escape stands for; *at moves behind it. */
static size_t escaped(const char *text, size_t length, size_t *at)
{
    long unit = unit_at(text, length, *at);
    if (unit < 0) {
        *at += 2;
        return 1;
    }
    bool pair = unit >= 0xD800 && unit < 0xDC00 && unit_at(text, length, *at + 6) >= 0xDC00;
    *at += pair ? 12 : 6;
    return pair ? 4 : unit < 0x80 ? 1 : unit < 0x800 ? 2 : 3;
}

/* Bytes of all strings of a JSON text, names and values, as they read. */
static size_t bytes_in_strings(const char *text, size_t length)
{
    size_t bytes = 0;
    bool inside = false;
    for (size_t at = 0; at < length;) {
        if (text[at] == '"')
            inside = !inside;
        else if (inside && text[at] == '\\') {
            bytes += escaped(text, length, &at);
            continue;
        } else
            bytes += inside;
        at++;
    }
    return bytes;
}

static bool is_whole(struct exchange *x, const char *text, size_t length)
{
    const char *again = json_written(x->arena, x->body);
    return again && bytes_in_strings(again, strlen(again)) == bytes_in_strings(text, length);
}

bool exchange_read_body(struct exchange *x)
{
    const char *text = x->request->body ? x->request->body : "";
    json_error_t error;
    if (strcmp(x->request->method, "POST") != 0)
        return true;
    x->body = exchange_keep(x, json_loadb(text, x->request->length, JSON_REJECT_DUPLICATES, &error));
    if (x->body ? !is_whole(x, text, x->request->length)
                : json_error_code(&error) == json_error_out_of_memory)
        arena_run_out(x->arena);
    if (json_is_object(x->body))
        return true;
    exchange_refuse(x, 400, "what is sent must be one JSON object");
    return false;
}
