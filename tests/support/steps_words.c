#include "steps_words.h"

#include "base/arena.h"
#include "base/buf.h"

static const char *link_told(struct arena *arena, const struct operations *operations,
                             const struct link *link)
{
    const char *from = operations->items[link->from].id;
    switch (link->kind) {
    case LINK_END:
        return arena_textf(arena, "%s%d min after %s", link->settles ? "settled " : "", link->span_min, from);
    case LINK_STATE:
        return arena_textf(arena, "%s of %s", finish_state_name(link->state), from);
    case LINK_WINDOW:
        return arena_textf(arena, "in the window of %s%s%s", from, link->unless >= 0 ? " unless " : "",
                           link->unless >= 0 ? operations->items[link->unless].id : "");
    case LINK_POLISH:
        return arena_textf(arena, "within %d min of %s", link->span_min, from);
    case LINK_DAY:
        return arena_textf(arena, "a day after %s", from);
    }
    return "";
}

static const char *told(struct arena *arena, const struct operations *operations)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < operations->count; i++) {
        const char *before = ": ";
        buf_addf(&text, "%s", operations->items[i].id);
        for (size_t k = 0; k < operations->link_count; k++) {
            const struct link *link = &operations->links[k];
            bool plain = link->kind == LINK_END && link->span_min == 0 && link->from + 1 == link->to;
            if (link->to != (int)i || plain)
                continue;
            buf_addf(&text, "%s%s", before, link_told(arena, operations, link));
            before = ", ";
        }
        buf_addf(&text, "\n");
    }
    for (size_t i = 0; i < operations->line_count; i++) {
        const struct finish_line *line = &operations->lines[i];
        const char *of = operations->items[line->operation].id;
        if (line->is_state)
            buf_addf(&text, "ready: %s of %s\n", finish_state_name(line->state), of);
        else
            buf_addf(&text, "ready: %d min after %s\n", line->span_min, of);
    }
    return text.text;
}

void check_steps(const struct row *row, struct panel *panel, const char *want)
{
    struct arena *arena = arena_make(0);
    check_text(row, told(arena, panel_operations(arena, panel)), want);
    arena_free(arena);
}
