#include "report/text.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "report/finish_figures.h"
#include "report/json.h"
#include "report/sentences.h"

#include <string.h>

static const char *coverage_text(struct arena *arena, const struct screen *screen, double m2_per_l)
{
    struct coverage coverage = {COVERAGE_M2_PER_L, m2_per_l};
    return arena_text(arena, coverage_format(coverage, screen->units).text);
}

static const char *span_text(struct arena *arena, int32_t span_min)
{
    return span_min == SPAN_NEVER ? "" : arena_text(arena, span_format(span_min).text);
}

void show_source_count(struct screen *screen, const struct finish *const *finishes, size_t count)
{
    struct source_count counted = sources_count(finishes, count);
    screen_paragraph(
        screen, 0, 0,
        arena_textf(screen->out->arena,
                    "Groups of figures: %zu. Of these %zu name a published source, %zu are common "
                    "practice and %zu from memory (one group may be several of these).",
                    counted.groups, counted.published, counted.common_practice, counted.from_memory));
}

void show_finishes(struct screen *screen, const struct finish *const *finishes, size_t count)
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
    show_source_count(screen, finishes, count);
    screen_paragraph(screen, 0, 0, "One of them with its sources: coatwright finishes FINISH.");
}

/* "oily, light" */
static const char *traits_text(struct arena *arena, const struct wood *wood)
{
    const char *words[WOOD_WORDS_MOST], *text = "";
    size_t count = wood_words(wood, words);
    for (size_t i = 1; i < count; i++)
        text = arena_textf(arena, "%s%s%s", text, i > 1 ? ", " : "", words[i]);
    return text;
}

static const char *other_names_text(struct arena *arena, const struct wood *wood)
{
    struct buf buf;
    const char *names = wood_other_names(wood->name);
    buf_init(&buf, arena);
    for (; names && *names; names++)
        if (*names == '|')
            buf_add(&buf, ", ");
        else
            buf_add_char(&buf, *names);
    return buf.text;
}

void show_woods(struct screen *screen)
{
    static const struct column columns[] = {
        {"wood", ALIGN_LEFT, false},
        {"grain", ALIGN_LEFT, false},
        {"traits", ALIGN_LEFT, true},
        {"also called", ALIGN_LEFT, true},
    };
    struct arena *arena = screen->out->arena;
    struct table table;
    size_t count;
    const struct wood *woods = wood_table(&count);
    table_init(&table, arena, columns, 4);
    for (size_t i = 0; i < count; i++) {
        const char *words[WOOD_WORDS_MOST];
        if (woods[i].traits & (WOOD_VENEER | WOOD_ROUGH))
            continue;
        wood_words(&woods[i], words);
        table_row(&table, (const char *[]){woods[i].name, words[0], traits_text(arena, &woods[i]),
                                           other_names_text(arena, &woods[i])});
    }
    table_print(&table, screen, 0);
    buf_add_char(screen->out, '\n');
    screen_paragraph(
        screen, 0, 0,
        "Each solid wood also as a veneer (oak veneer, oak veneered MDF, Eiche furniert) and rough-sawn "
        "(rough oak). How it was sawn, its grade and its thickness may stand beside it: rift white oak, 18 "
        "mm MR MDF. Common practice, from memory.");
}

static const char *source_of(const struct finish *finish, const char *group)
{
    for (size_t i = 0; i < finish->source_count; i++)
        if (strcmp(finish->sources[i].group, group) == 0)
            return finish->sources[i].text;
    return "";
}

/* The first figure, what kind of finish it is, stands above the table. */
static void print_figures(struct screen *screen, const struct finish *finish,
                          const struct finish_figures *figures)
{
    static const struct column columns[] = {
        {"figure", ALIGN_LEFT, false}, {"value", ALIGN_LEFT, true}, {"source", ALIGN_LEFT, true}};
    struct table table;
    screen_heading(screen, arena_textf(screen->out->arena, "%s (%s)", finish->name, finish->id));
    screen_paragraph(screen, 2, 0,
                     arena_textf(screen->out->arena, "%s; %s", figures->items[0].value,
                                 finish->shipped ? "from the table" : "the shop's own file"));
    buf_add_char(screen->out, '\n');
    table_init(&table, screen->out->arena, columns, 3);
    for (size_t i = 1; i < figures->count; i++) {
        const struct finish_figure *figure = &figures->items[i];
        table_row(&table, (const char *[]){figure->what, figure->value, source_of(finish, figure->group)});
    }
    table_print(&table, screen, 2);
}

static void print_overrides(struct screen *screen, const struct finish_figures *own,
                            const struct finish *shipped)
{
    static const struct column columns[] = {{"figure", ALIGN_LEFT, false},
                                            {"the table", ALIGN_LEFT, true},
                                            {"the shop's file", ALIGN_LEFT, true}};
    struct finish_difference differences[2 * FINISH_FIGURES_MOST];
    struct finish_figures table_says;
    struct table table;
    finish_figures(&table_says, screen->out->arena, shipped, screen->units);
    size_t count = finish_differences(&table_says, own, differences);
    screen_heading(screen, "Instead of the table's");
    if (count == 0)
        screen_paragraph(screen, 2, 0, "Nothing: the shop's file says the same.");
    table_init(&table, screen->out->arena, columns, 3);
    for (size_t i = 0; i < count; i++) {
        const struct finish_figure *a = differences[i].a, *b = differences[i].b;
        table_row(&table, (const char *[]){b ? b->what : a->what, a ? a->value : "-", b ? b->value : "-"});
    }
    table_print(&table, screen, 2);
}

/* One kind of protection for each way in which it is laid. */
static void add_breathing(struct table *table, const struct finish *finish, bool sprayed)
{
    bool laid = false;
    for (int i = 0; i < TOOL_COUNT; i++)
        laid = laid || (finish->by[i] && tool_sprays((enum tool)i) == sprayed);
    const char *words = breathing_words(finish_breathing(finish, sprayed));
    if (laid && words)
        table_row(table, (const char *[]){sprayed ? "breathe, sprayed" : "breathe", words,
                                          "common practice, from memory"});
}

/* What the words of `cautions` stand for, each with its source. */
static void print_cautions(struct screen *screen, const struct finish *finish)
{
    static const struct column columns[] = {
        {NULL, ALIGN_LEFT, false}, {NULL, ALIGN_LEFT, true}, {NULL, ALIGN_LEFT, true}};
    struct table table;
    if (finish->caution_count == 0)
        return;
    screen_heading(screen, arena_textf(screen->out->arena, "Take care: %s", caution_rider()));
    table_init(&table, screen->out->arena, columns, 3);
    for (size_t i = 0; i < finish->caution_count; i++) {
        const struct caution *caution = caution_find(finish->cautions[i]);
        table_row(&table, (const char *[]){caution->name, caution->text, caution->source});
    }
    add_breathing(&table, finish, false);
    add_breathing(&table, finish, true);
    table_print(&table, screen, 2);
}

void show_finish(struct screen *screen, const struct finish *finish, const struct finish *shipped)
{
    struct finish_figures figures;
    finish_figures(&figures, screen->out->arena, finish, screen->units);
    print_figures(screen, finish, &figures);
    if (shipped)
        print_overrides(screen, &figures, shipped);
    print_cautions(screen, finish);
    buf_add_char(screen->out, '\n');
    show_source_count(screen, &finish, 1);
    screen_paragraph(screen, 0, 0, "The data sheet of your can goes before all of this.");
}
