/* The characters inside a JSON string, as they stand in the file. */
#ifndef FORMAT_JSON_TEXT_H
#define FORMAT_JSON_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct buf;

/* The body of a JSON string between its quotes. */
struct json_raw {
    const char *text;
    size_t length;
};

/* Four hexadecimal digits -> their value; -1 where they are not four. */
int32_t json_hex(const char *text, const char *end);

/* Takes the next character off the front of a well-formed body, an escape decoded; false at its end. */
bool json_raw_next(struct json_raw *raw, uint32_t *character);

/* Order of two bodies by their decoded characters: "a" and "\u0061" are equal. */
int json_raw_compare(struct json_raw a, struct json_raw b);

/* Whether a control character (C0, DEL, C1) is in it. */
bool json_raw_has_control(struct json_raw raw);

/* Whether the body says the same as a token of a JSON pointer (RFC 6901: ~1 is a slash, ~0 a tilde). */
bool json_raw_is_token(struct json_raw raw, const char *token, size_t length);

/* Appends "/" and a name as a token of a JSON pointer. */
void json_pointer_add(struct buf *pointer, const char *name);
void json_pointer_add_raw(struct buf *pointer, struct json_raw name);
void json_pointer_add_index(struct buf *pointer, size_t index);

#endif
