#include "source/mesh_source.h"

#include "base/text.h"

#include <string.h>

static bool is_blank(int c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\v' || c == '\f';
}

/* At least a word and what follows it are in the window, or all that is left. */
static void look_ahead(struct mesh_source *source)
{
    if (source->end - source->at < MESH_WORD_MOST + 2 && !source->ended)
        mesh_fill(source);
}

static void begin_line(struct mesh_source *source)
{
    source->line++;
    source->line_start = mesh_offset(source);
}

/* A backslash, and the line end after it: passes both. */
static bool joins_lines(struct mesh_source *source)
{
    const unsigned char *w = source->window + source->at;
    size_t left = source->end - source->at;
    size_t end = left > 1 && w[1] == '\n' ? 2 : left > 2 && w[1] == '\r' && w[2] == '\n' ? 3 : 0;
    if (!source->obj || w[0] != '\\' || end == 0)
        return false;
    source->at += end;
    begin_line(source);
    return true;
}

static void skip_blanks(struct mesh_source *source)
{
    for (;;) {
        look_ahead(source);
        if (source->at == source->end)
            return;
        if (is_blank(source->window[source->at]))
            source->at++;
        else if (!joins_lines(source))
            return;
    }
}

bool mesh_word(struct mesh_source *source, struct mesh_word *word)
{
    skip_blanks(source);
    const unsigned char *from = source->window + source->at;
    size_t left = source->end - source->at, length = 0;
    if (source->obj && left > 0 && from[0] == '#')
        left = 0;
    while (length < left && !is_blank(from[length]) && from[length] != '\n')
        length++;
    if (source->obj && length > 1 && length < left && from[length - 1] == '\\')
        length--;
    source->word_start = mesh_offset(source);
    if (length > MESH_WORD_MOST)
        return mesh_refuse_text(source, "a word of at most 255 bytes", "a longer one");
    *word = (struct mesh_word){(const char *)from, length};
    source->at += length;
    return true;
}

bool mesh_next_line(struct mesh_source *source)
{
    for (;;) {
        const unsigned char *from = source->window + source->at;
        const unsigned char *end = memchr(from, '\n', source->end - source->at);
        source->at = end ? (size_t)(end + 1 - source->window) : source->end;
        if (end)
            break;
        if (!mesh_fill(source)) {
            source->word_start = mesh_offset(source);
            return false;
        }
    }
    begin_line(source);
    return true;
}

bool mesh_word_is(struct mesh_word word, const char *keyword)
{
    size_t i = 0;
    while (i < word.length && keyword[i] && text_lower(word.text[i]) == keyword[i])
        i++;
    return i == word.length && keyword[i] == '\0';
}
