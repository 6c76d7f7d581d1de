#include "report/table_finishes.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "report/write_finishes.h"

static const char *coverage_text(struct arena *arena, const struct screen *screen, double m2_per_l)
{
    struct coverage coverage = {COVERAGE_M2_PER_L, m2_per_l};
    return arena_text(arena, coverage_format(coverage, screen->units).text);
}

static const char *span_text(struct arena *arena, int32_t span_min)
{
    return span_min == SPAN_NEVER ? "" : arena_text(arena, span_format(span_min).text);
}

void table_source_count(struct screen *screen, const struct finish *const *finishes, size_t count)
{
    struct source_count counted = sources_count(finishes, count);
    screen_paragraph(
        screen, 0, 0,
        arena_textf(screen->out->arena,
                    "Groups of figures: %zu. Of these %zu name a published source, %zu are common "
                    "practice and %zu from memory (one group may be several of these).",
                    counted.groups, counted.published, counted.common_practice, counted.from_memory));
}

void table_finishes(struct screen *screen, const struct finish *const *finishes, size_t count)
{
    static const struct column columns[] = {
        {"finish", ALIGN_LEFT, true},       {"dries by", ALIGN_LEFT, false}, {"coats", ALIGN_RIGHT, false},
        {"first coat", ALIGN_RIGHT, false}, {"recoat", ALIGN_RIGHT, false},  {"cured", ALIGN_RIGHT, false},
        {NULL, ALIGN_LEFT, false},
    };
    struct arena *arena = screen->out->arena;
    struct table table;
    table_init(&table, arena, columns, 7);
    for (size_t i = 0; i < count; i++) {
        const struct finish *finish = finishes[i];
        const char *cells[] = {finish->id,
                               finish_drying_name(finish->dries_by),
                               arena_textf(arena, "%d", finish->coats_usual),
                               coverage_text(arena, screen, finish_coverage(finish, true)),
                               span_text(arena, finish->first.after_min[STATE_RECOAT]),
                               span_text(arena, finish->first.after_min[STATE_CURED]),
                               finish->shipped ? "" : "own"};
        table_row(&table, cells);
    }
    table_print(&table, screen, 0);
    buf_add_char(screen->out, '\n');
    table_source_count(screen, finishes, count);
    screen_paragraph(screen, 0, 0, "One of them with its sources: coatwright finishes FINISH.");
}
