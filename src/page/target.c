/* The target of a request: cut first, decoded then, so that no encoding makes a slash or a dot more than a letter. */
#include "page/exchange.h"

#include "base/text.h"

#include <string.h>

static int digit_of(char c)
{
    char low = text_lower(c);
    return c >= '0' && c <= '9' ? c - '0' : low >= 'a' && low <= 'f' ? low - 'a' + 10 : -1;
}

/* A text with %XX, and in a query with + for a blank. NULL: it is not well-formed, or holds what is no text. */
static const char *decode(struct arena *arena, const char *text, size_t length, bool query)
{
    char *decoded = arena_alloc(arena, length + 1, 1);
    size_t used = 0, bad_at;
    for (size_t i = 0; i < length; i++) {
        int high = 0, low = 0;
        if (text[i] == '%') {
            high = i + 2 < length ? digit_of(text[i + 1]) : -1;
            low = i + 2 < length ? digit_of(text[i + 2]) : -1;
            if (high < 0 || low < 0)
                return NULL;
            decoded[used++] = (char)(high * 16 + low);
            i += 2;
        } else
            decoded[used++] = text[i] == '+' && query ? ' ' : text[i];
    }
    if (memchr(decoded, 0, used) || !text_valid(decoded, used, &bad_at))
        return NULL;
    decoded[used] = '\0';
    for (const char *at = decoded; *at;)
        if (text_is_control(text_next(&at)))
            return NULL;
    return decoded;
}

static bool read_query(struct exchange *x, const char *at)
{
    while (*at) {
        size_t length = strcspn(at, "&"), name = strcspn(at, "=&");
        struct query *query = &x->query[x->query_count];
        if (x->query_count == QUERY_MOST)
            return false;
        query->name = decode(x->arena, at, name, true);
        query->value = name < length ? decode(x->arena, at + name + 1, length - name - 1, true) : "";
        if (!query->name || !query->value)
            return false;
        x->query_count++;
        at += length + (at[length] == '&');
    }
    return true;
}

bool exchange_read_target(struct exchange *x)
{
    const char *at = x->request->target;
    size_t path = strcspn(at, "?#");
    const char *query = at[path] == '?' ? at + path + 1 : "";
    if (at[0] != '/' || at[path] == '#')
        return false;
    for (size_t i = 1; i < path || (i == path && path > 1);) {
        size_t length = strcspn(at + i, "/?#");
        if (x->segment_count == SEGMENTS_MOST)
            return false;
        const char *segment = decode(x->arena, at + i, length, false);
        if (!segment)
            return false;
        x->segments[x->segment_count++] = segment;
        i += length + 1;
    }
    return read_query(x, query);
}

const char *exchange_query(const struct exchange *x, const char *name)
{
    for (size_t i = 0; i < x->query_count; i++)
        if (strcmp(x->query[i].name, name) == 0)
            return x->query[i].value;
    return NULL;
}
