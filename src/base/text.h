/* UTF-8 text: checking, walking, measuring; comparing words; names for ids. No locale anywhere: letters are
 * folded and compared in ASCII only. */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct arena;

/* Short text by value, for `printf("%s", length_format(m, UNITS_US).text)`. */
struct text_short {
    char text[64];
};

/* Whether the bytes are UTF-8 as RFC 3629 has it: no overlong form, no surrogate, nothing above U+10FFFF.
 * A NUL is valid here. If not, *bad_at is the offset of the first byte of the broken sequence. */
bool text_valid(const char *bytes, size_t length, size_t *bad_at);

/* The code point at *at, which moves past it. At the end: 0, and *at stays. A byte that is not UTF-8 counts as
 * one U+FFFD. */
uint32_t text_next(const char **at);

/* Whether a code point must not reach a screen as it is: control characters (C0, DEL, C1), those that end a line (U+2028,
 * U+2029), and those that turn the direction of what follows (Unicode 15, PropList, Bidi_Control). */
bool text_is_control(uint32_t c);
/* Moves *at past one character and says whether it may reach a screen as it is: neither such a one nor a broken byte. */
bool text_next_shown(const char **at);
/* The text with "\u001b" for such characters, "\x9b" for such bytes, cut where `size` bytes, NUL and all, end. How long it is. */
size_t text_shown(const char *text, char *to, size_t size);

/* Code points in the first `bytes` bytes, broken bytes counted as one each: columns count these. */
size_t text_characters(const char *text, size_t bytes);

/* Cells on a terminal: combining marks and joiners 0, East Asian wide characters and pictographs 2, others 1. */
size_t text_width(const char *text);

/* Where the text begins and how long it is without ASCII blanks, line ends and U+00A0 around it. */
const char *text_trim(const char *text, size_t *length);
/* Behind the blanks and tabs at `at`. */
const char *blanks_skip(const char *at);
char *text_trimmed(struct arena *arena, const char *text);

/* Equal but for the case of ASCII letters. */
bool text_same(const char *a, const char *b);
bool text_same_n(const char *a, size_t a_length, const char *b);
/* Whether a word is anywhere in the text, the case of ASCII letters aside. */
bool text_holds(const char *text, const char *word);

/* Order of two `const char *` by their bytes, for qsort and bsearch. */
int text_order(const void *a, const void *b);
/* ASCII letters in lower case; everything else as it is. */
char text_lower(char c);

/* FNV-1a, 64 bits: of a text alone from TEXT_HASH on, of several from the hash of those before. */
#define TEXT_HASH 0xCBF29CE484222325u
uint64_t text_hash(uint64_t hash, const char *text);

/* Did you mean: the candidate with the least distance (insertion, deletion, substitution or swap of neighbours,
 * case ignored: optimal string alignment, Damerau 1964), the first of equals. NULL where none is near: the limit
 * is 1 for words up to 4 bytes, 2 up to 8, 3 beyond. */
const char *text_nearest(const char *word, const char *const *candidates, size_t count);

/* "Fit  hinges!" -> "fit-hinges": ASCII letters in lower case, digits and everything beyond ASCII kept, runs of the
 * rest one hyphen, none at either end. Text without anything to keep gives "". Different texts may give one slug. */
char *text_slug(struct arena *arena, const char *text);

/* Bytes with which both begin, up to and with the last blank among them: 10 of "base door 1" and "base door 12". */
size_t text_common_words(const char *a, const char *b);

/* Whether a word is one of a list with | between: "oak|ash". */
bool text_listed(const char *words, const char *word);

#endif
