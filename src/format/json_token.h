/* The words of a JSON text: strings and numbers, held strictly to RFC 8259. */
#ifndef FORMAT_JSON_TOKEN_H
#define FORMAT_JSON_TOKEN_H

#include <stdbool.h>
#include <stddef.h>

enum { JSON_FOUND_SIZE = 64 };

struct json_fault {
    const char *expected; /* static text */
    char found[JSON_FOUND_SIZE];
    size_t at;
};

struct json_cursor {
    const char *text;
    size_t length, at;
};

/* The byte at the cursor, '\0' at the end (which is not allowed inside a text). */
char json_peek(const struct json_cursor *cursor);
void json_skip_blank(struct json_cursor *cursor);

/* Past the string that opens, the number that begins, at the cursor. */
bool json_token_string(struct json_cursor *cursor, struct json_fault *fault);
bool json_token_number(struct json_cursor *cursor, struct json_fault *fault);

/* Past `word` if it stands there as a whole word. */
bool json_token_word(struct json_cursor *cursor, const char *word);

/* Says what stands at offset `at` and returns false. */
bool json_fault_say(const struct json_cursor *cursor, struct json_fault *fault, size_t at,
                    const char *expected);

#endif
