#include "format/words.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"

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
        uint32_t c = text_next(&text);
        if (c < 0x20 || (c >= 0x7F && c < 0xA0))
            buf_addf(&buf, "\\u%04x", (unsigned)c);
        else
            buf_add_n(&buf, from, (size_t)(text - from));
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
