/* The patch that puts learned figures into a finish file, to three figures, and says whence they are. */
#include "check.h"

#include "base/arena.h"
#include "base/buf.h"
#include "source/finish_table.h"

struct figures_row {
    struct row row;
    double wet_film_um; /* of the table's; 0: it stands there by coverage */
    size_t coats;
    bool tools;
    const char *want;
};

/* The table's 10 m2/l, laid at 12.346 and later 15.004; of a film of 100 um at 10 m2/l 12.346 m2/l leave 81.0 um,
 * of 1 um as many hundredths. */
static const struct figures_row rows[] = {
    {ROW("of one coat"), 0, 1, false,
     "{\n  \"coverage\": {\"first\": \"12.3 m2/l\", \"later\": \"15 m2/l\", \"tolerance\": \"15.5 %\"},\n"
     "  \"sources\": {\n    \"coverage\": \"learned from 1 coat of this shop; the table: its label\"\n  "
     "}\n}\n"},
    {ROW("of two, by their film"), 100, 2, false,
     "{\n  \"coverage\": {\"wet-film\": \"81 um\", \"tolerance\": \"15.5 %\"},\n"
     "  \"sources\": {\n    \"coverage\": \"learned from 2 coats of this shop; the table: its label\"\n  "
     "}\n}\n"},
    {ROW("of two of a film as thin as a polish"), 1, 2, false,
     "{\n  \"coverage\": {\"wet-film\": \"0.81 um\", \"tolerance\": \"15.5 %\"},\n"
     "  \"sources\": {\n    \"coverage\": \"learned from 2 coats of this shop; the table: its label\"\n  "
     "}\n}\n"},
    {ROW("and of tools"), 0, 12, true,
     "{\n  \"coverage\": {\"first\": \"12.3 m2/l\", \"later\": \"15 m2/l\", \"tolerance\": \"15.5 %\"},\n"
     "  \"by-tool\": {\n"
     "    \"brush\": {\"coverage\": \"9.88 m2/l\", \"minutes\": {\"times\": 1.23, \"tolerance\": \"20 "
     "%\"}},\n"
     "    \"roller\": {\"loss\": \"31.2 ml\"}\n  },\n"
     "  \"sources\": {\n    \"coverage\": \"learned from 12 coats of this shop; the table: its label\",\n"
     "    \"by-tool\": \"learned from the logs of this shop\"\n  }\n}\n"},
};

static void is_written(void **state)
{
    const struct figures_row *r = *state;
    struct arena *arena = arena_make(0);
    struct finish_source label = {.group = "coverage", .text = "its label"};
    struct finish table = {.first_m2_per_l = 10,
                           .later_m2_per_l = 10,
                           .wet_film_um = r->wet_film_um,
                           .sources = &label,
                           .source_count = 1};
    struct new_figures figures = {
        .first_m2_per_l = 12.346, .later_m2_per_l = 15.004, .tolerance = 0.15493, .coats = r->coats};
    struct buf out;
    buf_init(&out, arena);
    if (r->tools) {
        figures.tool_m2_per_l[TOOL_BRUSH] = 9.8765;
        figures.tools[TOOL_BRUSH] = (struct tool_learned){.minutes_factor = 1.2346, .minutes_tolerance = 0.2};
        figures.tools[TOOL_ROLLER] = (struct tool_learned){.has_loss = true, .loss_l = 0.031234};
    }
    finish_figures_write(&out, &table, &figures);
    check_text(&r->row, out.text, r->want);
    check_true(&r->row,
               finish_figures_are_learned("learned from 1 coat of this shop") &&
                   !finish_figures_are_learned("its label"),
               "known again");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(rows, is_written));
}
