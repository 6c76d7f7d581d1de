#include "format/json_write.h"

#include "base/moment.h"
#include "base/money.h"
#include "base/number.h"
#include "base/text.h"

#include <assert.h>
#include <inttypes.h>
#include <math.h>
#include <stdio.h>

void json_write_init(struct json_write *w, struct buf *out)
{
    *w = (struct json_write){.out = out};
}

static void line_break(struct json_write *w)
{
    buf_add_char(w->out, '\n');
    buf_add_repeat(w->out, ' ', 2 * (size_t)w->depth);
}

/* RFC 8259, section 7; and beyond it everything that a terminal would act on. */
static void quoted(struct buf *out, const char *text)
{
    buf_add_char(out, '"');
    while (*text) {
        const char *from = text;
        uint32_t c = text_next(&text);
        if (c == '"' || c == '\\')
            buf_addf(out, "\\%c", (char)c);
        else if (c == '\n' || c == '\t')
            buf_add(out, c == '\n' ? "\\n" : "\\t");
        else if (text_is_control(c))
            buf_addf(out, "\\u%04x", (unsigned)c);
        else
            buf_add_n(out, from, (size_t)(text - from));
    }
    buf_add_char(out, '"');
}

/* What stands before a value: the comma after the one before, its line, its key. */
static void lead_in(struct json_write *w, const char *key)
{
    if (w->depth) {
        bool *filled = &w->filled[w->depth - 1];
        assert((w->closing[w->depth - 1] == '}') == (key != NULL));
        if (*filled)
            buf_add(w->out, w->row ? ", " : ",");
        if (!w->row)
            line_break(w);
        *filled = true;
    }
    if (key) {
        quoted(w->out, key);
        buf_add(w->out, ": ");
    }
}

void json_open(struct json_write *w, const char *key, char bracket)
{
    assert(w->depth < JSON_WRITE_DEEPEST && (bracket == '{' || bracket == '['));
    lead_in(w, key);
    buf_add_char(w->out, bracket);
    w->closing[w->depth] = bracket == '{' ? '}' : ']';
    w->filled[w->depth++] = false;
    if (w->row)
        w->row++;
}

void json_open_row(struct json_write *w, const char *key, char bracket)
{
    json_open(w, key, bracket);
    if (!w->row)
        w->row = 1;
}

void json_close(struct json_write *w)
{
    assert(w->depth > 0);
    w->depth--;
    if (w->row)
        w->row--;
    else if (w->filled[w->depth])
        line_break(w);
    buf_add_char(w->out, w->closing[w->depth]);
    if (w->depth == 0)
        buf_add_char(w->out, '\n');
}

void json_put_text(struct json_write *w, const char *key, const char *text)
{
    lead_in(w, key);
    if (text)
        quoted(w->out, text);
    else
        buf_add(w->out, "null");
}

void json_put_number(struct json_write *w, const char *key, double number)
{
    lead_in(w, key);
    buf_add(w->out, isfinite(number) ? number_quiet(number).text : "null");
}

void json_put_whole(struct json_write *w, const char *key, int64_t number)
{
    lead_in(w, key);
    buf_addf(w->out, "%" PRId64, number);
}

void json_put_flag(struct json_write *w, const char *key, bool flag)
{
    lead_in(w, key);
    buf_add(w->out, flag ? "true" : "false");
}

void json_put_null(struct json_write *w, const char *key)
{
    json_put_text(w, key, NULL);
}

void json_put_moment(struct json_write *w, const char *key, const struct zone *zone, int64_t minute)
{
    if (minute == INT64_MIN || minute == INT64_MAX)
        json_put_null(w, key);
    else
        json_put_text(w, key, moment_format(zone, minute, MOMENT_RFC3339).text);
}

void json_put_money(struct json_write *w, const char *key, int64_t cents, int digits)
{
    if (cents < 0)
        json_put_null(w, key);
    else
        json_put_text(w, key, money_format(cents, digits).text);
}
