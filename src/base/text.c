#include "base/text.h"

#include "base/arena.h"

#include <stdio.h>
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

/* Nearly all of what is read, and its own code point. */
static bool is_ascii(char c)
{
    return (unsigned char)c < 0x80;
}

/* How many of the bytes before the first that is not ASCII, eight at a time. */
static size_t ascii_length(const char *bytes, size_t length)
{
    static const uint64_t high_bits = UINT64_C(0x8080808080808080);
    size_t at = 0;
    for (uint64_t eight; length - at >= sizeof eight; at += sizeof eight) {
        memcpy(&eight, bytes + at, sizeof eight);
        if (eight & high_bits)
            break;
    }
    return at;
}

bool text_valid(const char *bytes, size_t length, size_t *bad_at)
{
    for (size_t at = ascii_length(bytes, length), step; at < length; at += step) {
        uint32_t point;
        step = is_ascii(bytes[at]) ? 1 : decode(bytes + at, length - at, &point);
        if (step == 0) {
            *bad_at = at;
            return false;
        }
    }
    return true;
}

uint32_t text_next(const char **at)
{
    if (is_ascii(**at))
        return **at == '\0' ? 0 : (uint32_t) * (*at)++;
    uint32_t point;
    size_t step = decode(*at, strnlen(*at, 4), &point);
    if (step == 0) {
        ++*at;
        return 0xFFFD;
    }
    *at += step;
    return point;
}

bool text_is_control(uint32_t c)
{
    return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x061C || c == 0x200E || c == 0x200F ||
           (c >= 0x2028 && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

bool text_next_shown(const char **at)
{
    const char *from = *at;
    uint32_t c = text_next(at);
    bool broken = c == 0xFFFD && *at == from + 1;
    return !broken && !text_is_control(c);
}

/* Of one character that may not be shown. */
static int escape(const char *from, char *to, size_t size)
{
    const char *at = from;
    uint32_t c = text_next(&at);
    bool broken = c == 0xFFFD && at == from + 1;
    return snprintf(to, size, broken ? "\\x%02x" : "\\u%04x",
                    broken ? (unsigned)(unsigned char)*from : (unsigned)c);
}

size_t text_shown(const char *text, char *to, size_t size)
{
    size_t used = 0;
    while (*text) {
        const char *from = text;
        char escaped[16];
        bool shown = text_next_shown(&text);
        int length = (int)(text - from);
        if (!shown)
            length = escape(from, escaped, sizeof escaped);
        if (used + (size_t)length >= size)
            break;
        memcpy(to + used, shown ? from : escaped, (size_t)length);
        used += (size_t)length;
    }
    to[used] = '\0';
    return used;
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

const char *blanks_skip(const char *at)
{
    while (*at == ' ' || *at == '\t')
        at++;
    return at;
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

bool text_holds(const char *text, const char *word)
{
    size_t length = strlen(word);
    for (; strlen(text) >= length; text++)
        if (text_same_n(text, length, word))
            return true;
    return false;
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

enum { WORD_MOST = 48 };

static int least(int a, int b)
{
    return a < b ? a : b;
}

/* Optimal string alignment, three rows of the usual table. */
static int distance(const char *a, size_t a_length, const char *b, size_t b_length)
{
    int rows[3][WORD_MOST + 1];
    int *before = rows[0], *last = rows[1], *row = rows[2];
    for (size_t k = 0; k <= b_length; k++)
        last[k] = (int)k;
    for (size_t i = 1; i <= a_length; i++) {
        row[0] = (int)i;
        for (size_t k = 1; k <= b_length; k++) {
            int differ = text_lower(a[i - 1]) != text_lower(b[k - 1]);
            row[k] = least(last[k - 1] + differ, least(last[k], row[k - 1]) + 1);
            if (i > 1 && k > 1 && differ && text_lower(a[i - 1]) == text_lower(b[k - 2]) &&
                text_lower(a[i - 2]) == text_lower(b[k - 1]))
                row[k] = least(row[k], before[k - 2] + 1);
        }
        int *oldest = before;
        before = last;
        last = row;
        row = oldest;
    }
    return last[b_length];
}

const char *text_nearest(const char *word, const char *const *candidates, size_t count)
{
    size_t length = strlen(word);
    if (length == 0 || length > WORD_MOST)
        return NULL;
    int limit = length <= 4 ? 1 : length <= 8 ? 2 : 3;
    const char *nearest = NULL;
    for (size_t i = 0; i < count; i++) {
        size_t other = strlen(candidates[i]);
        if (other > WORD_MOST)
            continue;
        int d = distance(word, length, candidates[i], other);
        /* A word of which nothing is left is not near anything. */
        if (d <= limit && d < (int)length) {
            nearest = candidates[i];
            limit = d - 1;
        }
    }
    return nearest;
}

/* Terminal cells. The ranges are those of Unicode 15 (EastAsianWidth.txt W and F; general categories Mn, Me, Cf)
 * drawn together to blocks: good enough to line up a table, from memory. */
struct range {
    uint32_t first, last;
};

static const struct range marks[] = {
    {0x0000, 0x001F}, {0x007F, 0x009F}, {0x00AD, 0x00AD},   {0x0300, 0x036F}, {0x0483, 0x0489},
    {0x0591, 0x05BD}, {0x0610, 0x061A}, {0x064B, 0x065F},   {0x0900, 0x0902}, {0x093C, 0x093C},
    {0x0E31, 0x0E31}, {0x0E34, 0x0E3A}, {0x0E47, 0x0E4E},   {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF},
    {0x200B, 0x200F}, {0x202A, 0x202E}, {0x2060, 0x2064},   {0x20D0, 0x20F0}, {0xFE00, 0xFE0F},
    {0xFE20, 0xFE2F}, {0xFEFF, 0xFEFF}, {0xE0100, 0xE01EF},
};

static const struct range wides[] = {
    {0x1100, 0x115F},   {0x231A, 0x231B},   {0x2329, 0x232A}, {0x2E80, 0x303E},   {0x3041, 0x33FF},
    {0x3400, 0x4DBF},   {0x4E00, 0x9FFF},   {0xA000, 0xA4CF}, {0xAC00, 0xD7A3},   {0xF900, 0xFAFF},
    {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},   {0xFFE0, 0xFFE6}, {0x1F300, 0x1F64F}, {0x1F680, 0x1F6FF},
    {0x1F900, 0x1F9FF}, {0x20000, 0x3FFFD},
};

static bool within(const struct range *ranges, size_t count, uint32_t point)
{
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (point > ranges[middle].last)
            low = middle + 1;
        else
            high = middle;
    }
    return low < count && point >= ranges[low].first;
}

size_t text_width(const char *text)
{
    size_t width = 0;
    for (uint32_t point; (point = text_next(&text)) != 0;) {
        if (point < 0x7F && point >= 0x20)
            width += 1;
        else if (within(wides, sizeof wides / sizeof wides[0], point))
            width += 2;
        else if (!within(marks, sizeof marks / sizeof marks[0], point))
            width += 1;
    }
    return width;
}

uint64_t text_hash(uint64_t hash, const char *text)
{
    for (; *text; text++)
        hash = (hash ^ (unsigned char)*text) * 0x100000001B3u;
    return hash;
}

size_t text_common_words(const char *a, const char *b)
{
    size_t blank = 0;
    for (size_t i = 0; a[i] && a[i] == b[i]; i++)
        if (a[i] == ' ')
            blank = i + 1;
    return blank;
}

bool text_listed(const char *words, const char *word)
{
    size_t length = strlen(word);
    for (const char *at = words; *at;) {
        size_t end = strcspn(at, "|");
        if (end == length && strncmp(at, word, length) == 0)
            return true;
        at += end + (at[end] == '|');
    }
    return false;
}
