/* Words of messages, and what of a text may reach a terminal. */
#include "check.h"

#include "base/arena.h"
#include "base/buf.h"
#include "format/words.h"

#define TEN "0123456789"
#define EIGHTY TEN TEN TEN TEN TEN TEN TEN TEN
#define OVERRIDE "\xE2\x80\xAE" /* U+202E turns a line around */

struct shown_row {
    struct row row;
    bool colours;
    const char *text, *want;
};

static const struct shown_row shown[] = {
    {ROW("plain"), false, "oak, T\xC3\xBCr\n", "oak, T\xC3\xBCr\n"},
    {ROW("a colour where none is asked for"), false, "\x1b[31mred\x1b[0m", "?[31mred?[0m"},
    {ROW("a colour"), true, "\x1b[1;31mred\x1b[0m", "\x1b[1;31mred\x1b[0m"},
    {ROW("a colour without a number"), true, "\x1b[mred", "\x1b[mred"},
    {ROW("another sequence"), true, "\x1b[2Jgone", "?[2Jgone"},
    {ROW("a sequence that does not end"), true, "\x1b[31", "?[31"},
    {ROW("an escape alone"), true, "\x1b", "?"},
    {ROW("a title"), true, "\x1b]0;x\a", "?]0;x?"},
    {ROW("a line turned around"), true, "a" OVERRIDE "b", "a?b"},
    {ROW("a tab and a carriage return"), false, "a\tb\rc", "a?b?c"},
};

static void is_shown(void **state)
{
    const struct shown_row *r = *state;
    struct arena *arena = arena_make(0);
    struct buf text;
    buf_init(&text, arena);
    buf_add(&text, r->text);
    words_shown(&text, r->colours);
    check_text(&r->row, text.text, r->want);
    arena_free(arena);
}

static void words_of_messages(void **state)
{
    (void)state;
    static const char *const known[] = {"oil", "wax"};
    struct arena *arena = arena_make(0);
    check_text(HERE, words_quote(arena, EIGHTY), "\"" EIGHTY "\"");
    check_text(HERE, words_quote(arena, EIGHTY "x"), "\"" EIGHTY "...\"");
    check_text(HERE, words_quote(arena, "a\x1b" OVERRIDE "b"), "\"a\\u001b\\u202eb\"");
    check_text(HERE, words_found(arena, "oli", known, 2), "\"oli\" (did you mean \"oil\"?)");
    check_text(HERE, words_found(arena, "varnish", known, 2), "\"varnish\"");
    check_text(HERE, words_one_of(arena, known, 2), "one of \"oil\", \"wax\"");
    check_text(HERE, words_one_of(arena, known, 1), "\"oil\"");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(shown, is_shown), CHECK_TEST(words_of_messages));
}
