#include "base/buf.h"

#include "base/arena.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static void reserve(struct buf *buf, size_t more)
{
    if (buf->capacity - buf->length > more)
        return;
    size_t capacity = buf->capacity * 2;
    while (capacity - buf->length <= more)
        capacity *= 2;
    char *text = arena_alloc(buf->arena, capacity, 1);
    memcpy(text, buf->text, buf->length + 1);
    buf->text = text;
    buf->capacity = capacity;
}

void buf_init(struct buf *buf, struct arena *arena)
{
    buf->arena = arena;
    buf->capacity = 64;
    buf->length = 0;
    buf->text = arena_alloc(arena, buf->capacity, 1);
}

void buf_add_n(struct buf *buf, const char *bytes, size_t length)
{
    reserve(buf, length);
    memcpy(buf->text + buf->length, bytes, length);
    buf->length += length;
    buf->text[buf->length] = '\0';
}

void buf_add(struct buf *buf, const char *text)
{
    buf_add_n(buf, text, strlen(text));
}

void buf_add_char(struct buf *buf, char c)
{
    buf_add_n(buf, &c, 1);
}

void buf_add_repeat(struct buf *buf, char c, size_t times)
{
    reserve(buf, times);
    memset(buf->text + buf->length, c, times);
    buf->length += times;
    buf->text[buf->length] = '\0';
}

void buf_addf(struct buf *buf, const char *format, ...)
{
    va_list arguments, again;
    va_start(arguments, format);
    va_copy(again, arguments);
    int length = vsnprintf(buf->text + buf->length, buf->capacity - buf->length, format, arguments);
    va_end(arguments);
    assert(length >= 0);
    if ((size_t)length >= buf->capacity - buf->length) {
        buf->text[buf->length] = '\0';
        reserve(buf, (size_t)length);
        vsnprintf(buf->text + buf->length, buf->capacity - buf->length, format, again);
    }
    va_end(again);
    buf->length += (size_t)length;
}
