#include "format/words.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"

#include <string.h>

enum { QUOTED_MOST = 80 };

const char *words_quote(struct arena *arena, const char *text)
{
    struct buf buf;
    buf_init(&buf, arena);
    buf_add_char(&buf, '"');
    for (size_t n = 0; *text; n++) {
        const char *from = text;
        if (n == QUOTED_MOST) {
            buf_add(&buf, "...");
            break;
        }
        char one[8] = "", shown[16];
        (void)text_next(&text);
        memcpy(one, from, (size_t)(text - from));
        (void)text_shown(one, shown, sizeof shown);
        buf_add(&buf, shown);
    }
    buf_add_char(&buf, '"');
    return buf.text;
}

const char *words_found(struct arena *arena, const char *word, const char *const *known, size_t count)
{
    const char *near = text_nearest(word, known, count);
    const char *quoted = words_quote(arena, word);
    return near ? arena_textf(arena, "%s (did you mean %s?)", quoted, words_quote(arena, near)) : quoted;
}

const char *words_one_of(struct arena *arena, const char *const *known, size_t count)
{
    struct buf buf;
    buf_init(&buf, arena);
    if (count > 1)
        buf_add(&buf, "one of ");
    for (size_t i = 0; i < count; i++)
        buf_addf(&buf, "%s\"%s\"", i ? ", " : "", known[i]);
    return buf.text;
}

/* Bytes of a sequence such as ESC [ 1 ; 31 m; 0: it is none. */
static size_t colour_length(const char *at)
{
    size_t length = at[0] == '\x1b' && at[1] == '[' ? 2 : 0;
    if (length)
        length += strspn(at + 2, "0123456789;");
    return length && at[length] == 'm' ? length + 1 : 0;
}

void words_shown(struct buf *text, bool colours)
{
    const char *at = text->text;
    size_t kept = 0;
    while (*at) {
        const char *from = at;
        size_t colour = colours ? colour_length(at) : 0;
        bool shown = text_next_shown(&at);
        if (colour)
            at = from + colour;
        else if (!shown && *from != '\n') {
            text->text[kept++] = '?';
            continue;
        }
        memmove(text->text + kept, from, (size_t)(at - from));
        kept += (size_t)(at - from);
    }
    text->text[kept] = '\0';
    text->length = kept;
}
