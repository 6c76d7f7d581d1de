/* Folding of calendar lines (RFC 5545, section 3.1): at most 75 octets a line without its end, no character cut apart. */
#include "check.h"

#include "base/arena.h"
#include "base/buf.h"
#include "format/ical_text.h"

#define TEN "0123456789"
#define SEVENTY TEN TEN TEN TEN TEN TEN TEN
#define A_UMLAUT "\xC3\xA4"

struct fold_row {
    struct row row;
    const char *text, *want;
};

static const struct fold_row folds[] = {
    {ROW("short lines stay"), "BEGIN:VEVENT\r\nUID:a\r\n", "BEGIN:VEVENT\r\nUID:a\r\n"},
    {ROW("75 octets stay"), SEVENTY "12345\r\nA\r\n", SEVENTY "12345\r\nA\r\n"},
    {ROW("76 are folded"), SEVENTY "123456\r\nA\r\n", SEVENTY "12345\r\n 6\r\nA\r\n"},
    {ROW("a fold counts its blank"), SEVENTY "12345" SEVENTY "12345\r\n",
     SEVENTY "12345\r\n " SEVENTY "1234\r\n 5\r\n"},
    {ROW("a character stays whole"), SEVENTY "1234" A_UMLAUT "b\r\n", SEVENTY "1234\r\n " A_UMLAUT "b\r\n"},
    {ROW("folds are made anew"), "UID:\r\n abc\r\n", "UID:abc\r\n"},
    {ROW("a fold between CR and LF is healed"), "UID:\r\n abc\r\r\n \nDTSTAMP:1\r\n",
     "UID:abc\r\nDTSTAMP:1\r\n"},
    {ROW("a blank that begins the text behind a fold stays"), "A:b\r\n  c\r\n", "A:b c\r\n"},
};

static void folds_to(void **state)
{
    const struct fold_row *want = *state;
    struct arena *arena = arena_make(0);
    struct buf out;
    buf_init(&out, arena);
    ical_fold(want->text, &out);
    check_text(&want->row, out.text, want->want);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(folds, folds_to));
}
