#include "source/heading.h"

#include "base/arena.h"
#include "base/text.h"

#include <stdio.h>
#include <string.h>

enum { CELL_MOST = 120, TOKENS_MOST = 4, THOUSAND = 3, DAYS_MOST = 31 };

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter(char c)
{
    return (text_lower(c) >= 'a' && text_lower(c) <= 'z') || (unsigned char)c == 0xC3;
}

/* A piece of a date, and what stands before the next one. */
struct token {
    const char *text;
    size_t length;
    char after;
    bool number;
};

/* Up to a blank before a time of day; the number of pieces, 0 where something else stands in it. */
static size_t cut(const char *text, struct token tokens[TOKENS_MOST])
{
    size_t count = 0;
    for (const char *at = text; *at; count++) {
        const char *from = at;
        if (count == TOKENS_MOST)
            return 0;
        bool number = is_digit(*at);
        while (*at && (number ? is_digit(*at) : is_letter(*at) || (unsigned char)*at >= 0x80))
            at++;
        if (at == from)
            return 0;
        if (*at == ':')
            return count;
        tokens[count] = (struct token){from, (size_t)(at - from), *at, number};
        at += *at && strchr("-/. ,", *at) ? 1 : 0;
        while (*at == ' ')
            at++;
        at += !number && *at == '-';
    }
    return count;
}

/* English, German and French, by their beginnings. */
static bool is_month(const struct token *token)
{
    static const char *const months[] = {
        "jan", "feb", "mar",        "apr",        "may",        "jun",        "jul",          "aug",
        "sep", "oct", "nov",        "dec",        "mrz",        "mai",        "okt",          "dez",
        "avr", "jui", "m\xC3\xA4r", "j\xC3\xA4n", "f\xC3\xA9v", "ao\xC3\xBB", "d\xC3\xA9\x63"};
    for (size_t i = 0; i < sizeof months / sizeof months[0] && !token->number; i++)
        if (token->length >= strlen(months[i]) && text_same_n(token->text, strlen(months[i]), months[i]))
            return true;
    return false;
}

static bool is_day(const struct token *token)
{
    int value = token->text[0] - '0';
    if (!token->number || token->length > 2)
        return false;
    if (token->length == 2)
        value = value * 10 + (token->text[1] - '0');
    return value >= 1 && value <= DAYS_MOST;
}

static bool is_year(const struct token *token)
{
    return token->number && (token->length == 4 || token->length == 2);
}

/* 7-Aug, Aug-07, 7. August 2026, 08/07/2026, 2026-08-07 00:00:00. */
static bool is_date(const char *text)
{
    struct token t[TOKENS_MOST] = {{0}};
    size_t count = cut(text, t);
    if (count == 2)
        return (is_day(&t[0]) && is_month(&t[1])) || (is_month(&t[0]) && is_year(&t[1]));
    if (count != 3)
        return false;
    if (is_day(&t[0]) && is_month(&t[1]) && is_year(&t[2]))
        return true;
    bool plain = t[0].after == t[1].after && strchr("-/.", t[0].after) && is_day(&t[1]);
    return plain && ((is_day(&t[0]) && is_year(&t[2])) || (t[0].number && t[0].length == 4 && is_day(&t[2])));
}

static bool refuse(struct cell_reading *in, const char *expected)
{
    snprintf(in->expected, sizeof in->expected, "%s", expected);
    return false;
}

/* Digits from here on. */
static size_t digits(const char *at)
{
    return strspn(at, "0123456789");
}

/* Past a blank that stands between thousands; NULL: none. */
static const char *past_blank(const char *at)
{
    static const char *const blanks[] = {" ", "\xC2\xA0", "\xE2\x80\xAF", "'", "\xE2\x80\x99"};
    for (size_t i = 0; i < sizeof blanks / sizeof blanks[0]; i++)
        if (strncmp(at, blanks[i], strlen(blanks[i])) == 0)
            return at + strlen(blanks[i]);
    return NULL;
}

/* `1 200,5` becomes `1200,5`; a blank before a fraction stays. */
static void join_thousands(char *text)
{
    size_t before = 0;
    while (*text) {
        const char *next = before >= 1 && before <= THOUSAND ? past_blank(text) : NULL;
        if (next && digits(next) == THOUSAND && next[THOUSAND] != '/') {
            memmove(text, next, strlen(next) + 1);
            text += THOUSAND;
            before = THOUSAND;
            continue;
        }
        before = is_digit(*text++) ? before + 1 : 0;
    }
}

/* The first comma or point between digits; NULL: none. */
static char *mark_in(char *text, char mark)
{
    for (char *at = strchr(text, mark); at; at = strchr(at + 1, mark))
        if (at > text && is_digit(at[-1]) && is_digit(at[1]))
            return at;
    return NULL;
}

/* Three digits behind a mark are thousands or thousandths, and nobody measures those. */
static bool doubtful(const struct cell_reading *in, const char *mark)
{
    bool fine = !in->is_length || !in->unit || !strchr("mc", in->unit[0]) || in->unit[1] != 'm';
    return !fine && digits(mark + 1) == THOUSAND;
}

static bool read_marks(struct cell_reading *in, char *text)
{
    char *comma = mark_in(text, ','), *point = mark_in(text, '.');
    static const char either[] =
        "a number without a mark between thousands, or with fewer than three digits behind it";
    if (comma && point && comma > point) {
        for (; point && point < comma; point = mark_in(text, '.')) {
            memmove(point, point + 1, strlen(point));
            comma--;
        }
    } else if ((comma && doubtful(in, comma)) || (!comma && point && !in->cells && doubtful(in, point))) {
        return refuse(in, either);
    }
    for (; comma; comma = mark_in(text, ',')) {
        *comma = '.';
        in->had_comma = true;
    }
    return true;
}

static bool is_bare(const char *text)
{
    for (const char *at = text; *at; at++)
        if (is_letter(*at) || *at == '"' || *at == '\'' || strncmp(at, "\xE2\x80\xB2", 3) == 0 ||
            strncmp(at, "\xE2\x80\xB3", 3) == 0)
            return false;
    return *text != '\0';
}

/* A count as a spreadsheet shows it: "4.00". */
static void cut_zeros(char *text)
{
    char *point = strchr(text, '.');
    if (point && point > text && point[1] == '0' && strspn(point + 1, "0") == strlen(point + 1))
        *point = '\0';
}

bool cell_tidy(struct cell_reading *in, const char **text)
{
    char tidy[CELL_MOST];
    if (strlen(*text) + 8 >= sizeof tidy)
        return true;
    if (is_date(*text))
        return refuse(
            in, "a number, not a date: a spreadsheet made it of 7/8 or the like; make the column text and "
                "write it again");
    snprintf(tidy, sizeof tidy, "%s", *text);
    if (in->decimal_commas) {
        join_thousands(tidy);
        if (!read_marks(in, tidy))
            return false;
    }
    if (!in->is_length)
        cut_zeros(tidy);
    if (strcmp(tidy, *text) != 0)
        *text = arena_text(in->arena, tidy);
    return true;
}

void cell_unit(const struct cell_reading *in, const char *unit, const char **text)
{
    if (unit && *text && is_bare(*text))
        *text = arena_textf(in->arena, "%s %s", *text, unit);
}

/* Past a cross between two factors; NULL: none stands here. */
static const char *past_cross(const char *at)
{
    if (strncmp(at, "\xC3\x97", 2) == 0)
        return at + 2;
    return *at == 'x' || *at == 'X' || *at == '*' ? at + 1 : NULL;
}

/* The unit behind the last factor; "" where there is none. */
static const char *unit_behind(const char *text)
{
    const char *at = text + strlen(text);
    while (at > text && is_letter(at[-1]))
        at--;
    return at;
}

bool cell_split(const struct cell_reading *in, const struct heading_cell *head, const char **cells)
{
    const char *from = cells[head->columns[0]], *found[FACTORS_MOST];
    size_t count = 0;
    for (const char *at = from;; at++) {
        const char *next = past_cross(at);
        if (*at && !next)
            continue;
        if (count == head->count)
            return false;
        found[count] = text_trimmed(in->arena, arena_text_n(in->arena, from, (size_t)(at - from)));
        if (!*found[count++])
            return false;
        if (!*at)
            break;
        from = next;
        at = next - 1;
    }
    if (count != head->count)
        return false;
    const char *unit = unit_behind(found[count - 1]);
    for (size_t i = 0; i < count; i++) {
        cell_unit(in, *unit ? unit : head->unit, &found[i]);
        cells[head->columns[i]] = found[i];
    }
    return true;
}
