#include "report/chart_label.h"

#include "base/arena.h"
#include "base/text.h"

enum { LABEL_MOST = 26, LABEL_LEAST = 8 };

const char *chart_label_cut(struct arena *arena, const char *text, size_t width)
{
    const char *end = text, *next = text;
    if (text_width(text) <= width)
        return text;
    while (*next) {
        text_next(&next);
        if (text_width(arena_text_n(arena, text, (size_t)(next - text))) + 2 > width)
            break;
        end = next;
    }
    return arena_textf(arena, "%.*s..", (int)(end - text), text);
}

/* Bytes that both begin with, up to and with the last blank among them. */
static size_t common_words(const char *a, const char *b)
{
    size_t blank = 0;
    for (size_t i = 0; a[i] && a[i] == b[i]; i++)
        if (a[i] == ' ')
            blank = i + 1;
    return blank;
}

static const char *run_text(struct arena *arena, const char *first, const char *last)
{
    size_t common = common_words(first, last);
    return common ? arena_textf(arena, "%s..%s", first, last + common) : NULL;
}

static size_t wider(size_t width, const char *label)
{
    size_t own = label ? text_width(label) : 0;
    own = own < LABEL_MOST ? own : LABEL_MOST;
    return own > width ? own : width;
}

struct chart_labels chart_labels_make(struct arena *arena, const struct lanes *lanes)
{
    struct chart_labels labels = {ARENA_ARRAY(arena, lanes->count, const char *), LABEL_LEAST};
    for (size_t i = 0; i < lanes->count; i++) {
        const struct lane *lane = &lanes->items[i];
        const char *label =
            lane->alone ? lane->name : arena_textf(arena, "%s, %s", lane->name, lane->schedule);
        labels.items[i] = chart_label_cut(arena, label, LABEL_MOST);
        labels.width = wider(labels.width, labels.items[i]);
        if (i > 0)
            labels.width = wider(labels.width, run_text(arena, labels.items[i - 1], labels.items[i]));
    }
    return labels;
}

const char *chart_label_run(struct arena *arena, const struct chart_labels *labels, size_t first, size_t last)
{
    if (first == last)
        return labels->items[first];
    const char *label = run_text(arena, labels->items[first], labels->items[last]);
    return label && text_width(label) <= labels->width ? label : NULL;
}
