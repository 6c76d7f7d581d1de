#include "report/table_finish.h"

#include "base/arena.h"
#include "report/cautions.h"
#include "report/finish_figures.h"
#include "report/table_finishes.h"

#include <string.h>

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
    table_print(&table, screen, 2);
}

void table_finish(struct screen *screen, const struct finish *finish, const struct finish *shipped)
{
    struct finish_figures figures;
    finish_figures(&figures, screen->out->arena, finish, screen->units);
    print_figures(screen, finish, &figures);
    if (shipped)
        print_overrides(screen, &figures, shipped);
    print_cautions(screen, finish);
    buf_add_char(screen->out, '\n');
    table_source_count(screen, &finish, 1);
    screen_paragraph(screen, 0, 0, "The data sheet of the can in hand goes before all of this.");
}
