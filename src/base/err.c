#include "base/err.h"

#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Cuts before a character that does not fit whole, so that a message never ends in half a letter. */
static void keep(char *to, size_t size, const char *from)
{
    size_t length = from ? strlen(from) : 0;
    if (length < size) {
        memcpy(to, from ? from : "", length);
        to[length] = '\0';
        return;
    }
    size_t end = size - 4;
    while (end > 0 && ((unsigned char)from[end] & 0xC0) == 0x80)
        end--;
    memcpy(to, from, end);
    memcpy(to + end, "...", 4);
}

void err_fill(struct err *err, enum err_code code, const char *expected, const char *found)
{
    if (!err)
        return;
    err->code = code;
    err->line = err->column = 0;
    err->file[0] = err->pointer[0] = '\0';
    keep(err->expected, sizeof err->expected, expected);
    keep(err->found, sizeof err->found, found);
}

void err_expect(struct err *err, const char *format, ...)
{
    char expected[2 * ERR_EXPECTED_SIZE];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(expected, sizeof expected, format, arguments);
    va_end(arguments);
    err_fill(err, ERR_INPUT, expected, NULL);
}

struct err *err_add(struct err_list *list, enum err_code code, const char *file, const char *pointer,
                    const char *expected, const char *found)
{
    if (list->count == ERR_MOST) {
        list->dropped++;
        return NULL;
    }
    struct err *err = &list->items[list->count++];
    err_fill(err, code, expected, found);
    keep(err->file, sizeof err->file, file);
    keep(err->pointer, sizeof err->pointer, pointer);
    return err;
}

struct err *err_addf(struct err_list *list, enum err_code code, const char *file, const char *pointer,
                     const char *expected, const char *found_format, ...)
{
    char found[2 * ERR_FOUND_SIZE];
    va_list arguments;
    va_start(arguments, found_format);
    vsnprintf(found, sizeof found, found_format, arguments);
    va_end(arguments);
    return err_add(list, code, file, pointer, expected, found);
}

/* Appends at *used as far as there is room. */
static void put(char *line, size_t size, size_t *used, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

static void put(char *line, size_t size, size_t *used, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    int n = vsnprintf(line + *used, size - *used, format, arguments);
    va_end(arguments);
    if (n > 0)
        *used = *used + (size_t)n < size ? *used + (size_t)n : size - 1;
}

/* In a list that is no JSON the row is said as its line is, counted from 1: "row 4, thickness" of /3/thickness. */
static bool put_row(const struct err *err, char *line, size_t size, size_t *used)
{
    size_t length = strlen(err->file), digits = strspn(err->pointer + 1, "0123456789");
    const char *column = err->pointer + 1 + digits;
    bool json = length < 5 || strcmp(err->file + length - 5, ".json") == 0;
    if (json || digits == 0 || digits > 9 || (*column && *column != '/'))
        return false;
    unsigned long row = 1;
    for (size_t i = 1, n = 0; i <= digits; i++, n = row - 1)
        row = n * 10 + (unsigned long)(err->pointer[i] - '0') + 1;
    put(line, size, used, "row %lu%s%s: ", row, *column ? ", " : "", *column ? column + 1 : "");
    return true;
}

/* Names come from files and folders of others. */
static size_t escape(char *line, size_t size)
{
    char raw[ERR_LINE_SIZE];
    keep(raw, sizeof raw, line);
    return text_shown(raw, line, size);
}

static bool has_control(const char *line)
{
    while (*line)
        if (!text_next_shown(&line))
            return true;
    return false;
}

size_t err_format(const struct err *err, char *line, size_t size)
{
    size_t used = 0;
    line[0] = '\0';
    if (err->file[0])
        put(line, size, &used, "%s:", err->file);
    if (err->line > 0)
        put(line, size, &used, "%d:%d:", err->line, err->column);
    if (used)
        put(line, size, &used, " ");
    if (err->pointer[0] && !put_row(err, line, size, &used))
        put(line, size, &used, "%s: ", err->pointer);
    if (err->code == ERR_WARNING)
        put(line, size, &used, "warning: %s", err->found);
    else if (err->expected[0] && err->found[0])
        put(line, size, &used, "expected %s, found %s", err->expected, err->found);
    else if (err->expected[0])
        put(line, size, &used, "expected %s", err->expected);
    else
        put(line, size, &used, "%s", err->found);
    return has_control(line) ? escape(line, size) : used;
}
