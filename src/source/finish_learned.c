#include "source/finish_table.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "base/measure.h"
#include "format/json_write.h"

#include <math.h>
#include <string.h>

static const char learned_from[] = "learned from ";
static const double um_per_m = 1e6;

enum { FIGURES = 3 };

/* As many figures as a coverage is known to. */
static double rounded(double value)
{
    if (value <= 0)
        return 0;
    double unit = pow(10, floor(log10(value)) - (FIGURES - 1));
    return unit < 1 ? round(value / unit) / round(1 / unit) : round(value / unit) * unit;
}

static struct text_short coverage_text(double m2_per_l)
{
    return coverage_write((struct coverage){COVERAGE_M2_PER_L, rounded(m2_per_l)});
}

static void write_coverage(struct json_write *w, const struct finish *table,
                           const struct new_figures *figures)
{
    json_open_row(w, "coverage", '{');
    if (table->wet_film_um > 0) {
        double film_um = table->wet_film_um * table->first_m2_per_l / figures->first_m2_per_l;
        json_put_text(w, "wet-film", thickness_write(rounded(film_um / um_per_m)).text);
    } else {
        json_put_text(w, "first", coverage_text(figures->first_m2_per_l).text);
        json_put_text(w, "later", coverage_text(figures->later_m2_per_l).text);
    }
    json_put_text(w, "tolerance", share_write(rounded(figures->tolerance)).text);
    json_close(w);
}

static bool tells_of(const struct new_figures *figures, int tool)
{
    return figures->tool_m2_per_l[tool] > 0 || figures->tools[tool].minutes_factor > 0 ||
           figures->tools[tool].has_loss;
}

static void write_tool(struct json_write *w, const struct new_figures *figures, int tool)
{
    const struct tool_learned *learned = &figures->tools[tool];
    json_open_row(w, tool_names[tool], '{');
    if (figures->tool_m2_per_l[tool] > 0)
        json_put_text(w, "coverage", coverage_text(figures->tool_m2_per_l[tool]).text);
    if (learned->minutes_factor > 0) {
        json_open_row(w, "minutes", '{');
        json_put_number(w, "times", rounded(learned->minutes_factor));
        json_put_text(w, "tolerance", share_write(rounded(learned->minutes_tolerance)).text);
        json_close(w);
    }
    if (learned->has_loss)
        json_put_text(w, "loss", volume_write(rounded(learned->loss_l)).text);
    json_close(w);
}

static void write_tools(struct json_write *w, const struct new_figures *figures)
{
    json_open(w, "by-tool", '{');
    for (int i = 0; i < TOOL_COUNT; i++)
        if (tells_of(figures, i))
            write_tool(w, figures, i);
    json_close(w);
}

static const char *table_words(struct arena *arena, const struct finish *table, const char *group)
{
    for (size_t i = 0; i < table->source_count; i++)
        if (strcmp(table->sources[i].group, group) == 0)
            return arena_textf(arena, "; the table: %s", table->sources[i].text);
    return "";
}

void finish_figures_write(struct buf *out, const struct finish *table, const struct new_figures *figures)
{
    struct json_write w;
    bool tools = false;
    for (int i = 0; i < TOOL_COUNT; i++)
        tools |= tells_of(figures, i);
    json_write_init(&w, out);
    json_open(&w, NULL, '{');
    write_coverage(&w, table, figures);
    if (tools)
        write_tools(&w, figures);
    json_open(&w, "sources", '{');
    json_put_text(&w, "coverage",
                  arena_textf(out->arena, "%s%zu %s of this shop%s", learned_from, figures->coats,
                              figures->coats == 1 ? "coat" : "coats",
                              table_words(out->arena, table, "coverage")));
    if (tools)
        json_put_text(&w, "by-tool",
                      arena_textf(out->arena, "%sthe logs of this shop%s", learned_from,
                                  table_words(out->arena, table, "by-tool")));
    json_close(&w);
    json_close(&w);
}

bool finish_figures_are_learned(const char *source)
{
    return strncmp(source, learned_from, strlen(learned_from)) == 0;
}
