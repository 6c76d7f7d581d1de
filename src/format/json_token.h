/* The words of a JSON text: strings and numbers, held strictly to RFC 8259. */
#ifndef FORMAT_JSON_TOKEN_H
#define FORMAT_JSON_TOKEN_H

#include "base/err.h"

struct arena;

/* A text while it is read. Of a mistake `err` says what was expected and found, `wrong_at` where. */
struct json_cursor {
    struct arena *arena;
    const char *text;
    size_t length, at;
    struct err err;
    size_t wrong_at;
};

/* The byte at the cursor, '\0' at the end (which is not allowed inside a text). */
static inline char json_peek(const struct json_cursor *cursor)
{
    return cursor->at < cursor->length ? cursor->text[cursor->at] : '\0';
}

static inline void json_skip_blank(struct json_cursor *cursor)
{
    for (; cursor->at < cursor->length; cursor->at++) {
        char c = cursor->text[cursor->at];
        if (c != ' ' && c != '\t' && c != '\n' && c != '\r')
            return;
    }
}

/* Past the string that opens, the number that begins, at the cursor; the string with its escapes decoded, in the
 * arena; *plain: it is printable ASCII, written without escapes. */
bool json_token_string(struct json_cursor *cursor, const char **value, bool *plain);
bool json_token_number(struct json_cursor *cursor, double *value);

/* Past `word` if it stands there as a whole word. */
bool json_token_word(struct json_cursor *cursor, const char *word);

/* Says what stands at offset `at`, or `found`, and returns false. */
bool json_wrong(struct json_cursor *cursor, size_t at, const char *expected);
bool json_wrong_found(struct json_cursor *cursor, size_t at, const char *expected, const char *found);

/* Whether a character is in it that must not reach a screen (text_is_control). */
bool json_has_control(const char *text);

#endif
