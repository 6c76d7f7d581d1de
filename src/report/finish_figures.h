/* The figures of a finish as people read them, one text for each group that has a source. */
#ifndef REPORT_FINISH_FIGURES_H
#define REPORT_FINISH_FIGURES_H

#include "base/measure.h"
#include "finish/finish.h"

struct arena;

enum { FINISH_FIGURES_MOST = 32 };

struct finish_figure {
    const char *group; /* as under `sources` of a finish file: "pot-life" */
    const char *what;  /* "pot life" */
    const char *value; /* "4 h at 20 C" */
};

struct finish_figures {
    struct finish_figure items[FINISH_FIGURES_MOST]; /* each group once */
    size_t count;
};

/* Prices have two decimals. */
void finish_figures(struct finish_figures *figures, struct arena *arena, const struct finish *finish,
                    enum unit_system units);

/* How long a can keeps: "1 y", "6 mo". */
struct text_short finish_life(int32_t span_min);

/* What is known of a finish on what is eaten from or mouthed, as a person reads it. */
const char *contact_words(enum contact contact);

/* A group in which two finishes differ; NULL on the side that lacks it. */
struct finish_difference {
    const struct finish_figure *a, *b;
};
size_t finish_differences(const struct finish_figures *a, const struct finish_figures *b,
                          struct finish_difference differences[2 * FINISH_FIGURES_MOST]);

#endif
