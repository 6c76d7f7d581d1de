/* Words for messages: what stood there, what might have been meant, which words there are. */
#ifndef FORMAT_WORDS_H
#define FORMAT_WORDS_H

#include <stdbool.h>
#include <stddef.h>

struct arena;
struct buf;

/* "3/4 foo" in double quotes, control characters and what turns a line around as \u001b, over-long text cut with "...". */
const char *words_quote(struct arena *arena, const char *text);

/* `"oli" (did you mean "oil"?)`, or the quoted word alone where nothing is near. */
const char *words_found(struct arena *arena, const char *word, const char *const *known, size_t count);

/* `one of "board", "triangle", "disc"`; one alone is just quoted; cut where messages are. */
const char *words_one_of(struct arena *arena, const char *const *known, size_t count);

/* Makes a text harmless for a terminal, whatever names it holds: what would act on one becomes a question mark, but for line
 * ends and, with `colours`, the sequences that set them. */
void words_shown(struct buf *text, bool colours);

#endif
