#include "base/text.h"

#include "base/arena.h"

#include <string.h>

/* The bytes of one sequence: how many follow a lead byte, and the least code point that needs that many. */
struct form {
    unsigned char mask, lead;
    int more;
    uint32_t least;
};

static const struct form forms[] = {
    {0x80, 0x00, 0, 0},
    {0xE0, 0xC0, 1, 0x80},
    {0xF0, 0xE0, 2, 0x800},
    {0xF8, 0xF0, 3, 0x10000},
};

static const struct form *form_of(unsigned char lead)
{
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++)
        if ((lead & forms[i].mask) == forms[i].lead)
            return &forms[i];
    return NULL;
}

/* Bytes of the sequence at `bytes`, 0 where it is broken or cut. */
static size_t decode(const char *bytes, size_t length, uint32_t *point)
{
    const unsigned char *at = (const unsigned char *)bytes;
    const struct form *form = form_of(at[0]);
    if (!form || length < (size_t)form->more + 1)
        return 0;
    uint32_t value = at[0] & (unsigned char)~form->mask;
    for (int i = 1; i <= form->more; i++) {
        if ((at[i] & 0xC0) != 0x80)
            return 0;
        value = value << 6 | (at[i] & 0x3F);
    }
    if (value < form->least || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF))
        return 0;
    *point = value;
    return (size_t)form->more + 1;
}

bool text_valid(const char *bytes, size_t length, size_t *bad_at)
{
    for (size_t at = 0, step; at < length; at += step) {
        uint32_t point;
        step = decode(bytes + at, length - at, &point);
        if (step == 0) {
            *bad_at = at;
            return false;
        }
    }
    return true;
}

uint32_t text_next(const char **at)
{
    if (**at == '\0')
        return 0;
    uint32_t point;
    size_t step = decode(*at, strnlen(*at, 4), &point);
    if (step == 0) {
        ++*at;
        return 0xFFFD;
    }
    *at += step;
    return point;
}

size_t text_characters(const char *text, size_t bytes)
{
    size_t count = 0;
    for (size_t at = 0; at < bytes; count++) {
        uint32_t point;
        size_t step = decode(text + at, bytes - at, &point);
        at += step ? step : 1;
    }
    return count;
}

static bool blank(char c)
{
    return c == ' ' || (c >= '\t' && c <= '\r');
}

static const char no_break_space[] = "\xC2\xA0";

const char *text_trim(const char *text, size_t *length)
{
    for (;;) {
        if (blank(*text))
            text++;
        else if (strncmp(text, no_break_space, 2) == 0)
            text += 2;
        else
            break;
    }
    size_t n = strlen(text);
    for (;;) {
        if (n > 0 && blank(text[n - 1]))
            n--;
        else if (n > 1 && memcmp(text + n - 2, no_break_space, 2) == 0)
            n -= 2;
        else
            break;
    }
    *length = n;
    return text;
}

char *text_trimmed(struct arena *arena, const char *text)
{
    size_t length;
    const char *from = text_trim(text, &length);
    return arena_text_n(arena, from, length);
}

bool text_same_n(const char *a, size_t a_length, const char *b)
{
    for (size_t i = 0; i < a_length; i++)
        if (b[i] == '\0' || text_lower(a[i]) != text_lower(b[i]))
            return false;
    return b[a_length] == '\0';
}

int text_order(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

char text_lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool text_same(const char *a, const char *b)
{
    return text_same_n(a, strlen(a), b);
}

static bool kept_in_slug(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || ((unsigned char)c & 0x80) != 0;
}

char *text_slug(struct arena *arena, const char *text)
{
    char *slug = arena_alloc(arena, strlen(text) + 1, 1);
    size_t n = 0;
    for (const char *at = text; *at; at++) {
        char c = text_lower(*at);
        if (kept_in_slug(c))
            slug[n++] = c;
        else if (n > 0 && slug[n - 1] != '-')
            slug[n++] = '-';
    }
    if (n > 0 && slug[n - 1] == '-')
        n--;
    slug[n] = '\0';
    return slug;
}
