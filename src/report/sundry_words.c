#include "report/sundry_words.h"

#include "base/arena.h"

#include <string.h>

bool sundry_is_liquid(const struct sundry *sundry)
{
    return strcmp(sundry->rule->unit, "ml") == 0;
}

const char *sundry_name(struct arena *arena, const struct sundry *sundry)
{
    if (sundry->grit > 0)
        return arena_textf(arena, "%s, grit %d", sundry->rule->name, sundry->grit);
    return sundry->detail ? arena_textf(arena, "%s, %s", sundry->rule->name, sundry->detail)
                          : sundry->rule->name;
}

const char *sundry_amount(struct arena *arena, const struct sundry *sundry, enum unit_system units)
{
    if (sundry_is_liquid(sundry))
        return arena_text(arena, volume_format(sundry->amount / 1000, units).text);
    if (strcmp(sundry->rule->unit, "pcs") == 0)
        return arena_textf(arena, "%d x", sundry->whole);
    return arena_textf(arena, "%d %s", sundry->whole, sundry->rule->unit);
}

void table_sundries(struct screen *screen, const struct sundries *sundries)
{
    static const struct column columns[] = {{NULL, ALIGN_RIGHT, false}, {NULL, ALIGN_LEFT, true}};
    struct arena *arena = screen->out->arena;
    struct table table;
    if (sundries->count == 0)
        return;
    screen_heading(screen, "Also used up, by rules of thumb");
    table_init(&table, arena, columns, 2);
    for (size_t i = 0; i < sundries->count; i++) {
        const char *cells[] = {sundry_amount(arena, &sundries->items[i], screen->units),
                               sundry_name(arena, &sundries->items[i])};
        table_row(&table, cells);
    }
    table_print(&table, screen, 2);
}

/* "abrasive disc 150 mm (2 x 150; 3 x 180)": one rule; gives the first line of the next. */
static size_t add_rule(struct buf *text, const struct sundries *sundries, size_t i, enum unit_system units)
{
    const struct sundry *first = &sundries->items[i];
    const char *between = " (";
    if (first->grit == 0 && !first->detail) {
        buf_addf(text, "%s %s", sundry_amount(text->arena, first, units), first->rule->name);
        return i + 1;
    }
    buf_add(text, first->rule->name);
    for (; i < sundries->count && sundries->items[i].rule == first->rule; i++, between = "; ") {
        const struct sundry *one = &sundries->items[i];
        buf_addf(text, "%s%s ", between, sundry_amount(text->arena, one, units));
        if (one->grit > 0)
            buf_addf(text, "%d", one->grit);
        else
            buf_add(text, one->detail);
    }
    buf_add_char(text, ')');
    return i;
}

void table_sundries_short(struct screen *screen, const struct sundries *sundries)
{
    struct buf text;
    if (sundries->count == 0)
        return;
    buf_init(&text, screen->out->arena);
    buf_add(&text, "also, by rules of thumb: ");
    for (size_t i = 0; i < sundries->count;) {
        buf_add(&text, i ? "; " : "");
        i = add_rule(&text, sundries, i, screen->units);
    }
    screen_paragraph(screen, 2, 2, text.text);
}
