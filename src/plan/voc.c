#include "plan/voc.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/measure.h"
#include "base/number.h"
#include "finish/vapour.h"

/* The thinnest that a finish is laid here; -1: it is not laid. */
static double thinnest(const struct operations *operations, const struct finish *finish)
{
    double thin = -1;
    for (size_t i = 0; i < operations->count; i++) {
        const struct operation *operation = &operations->items[i];
        if (operation->doing == DO_APPLY && operation->of.step->finish == finish &&
            operation->of.step->thin > thin)
            thin = operation->of.step->thin;
    }
    return thin;
}

double voc_total_g(const struct operations *operations)
{
    double grams = 0;
    for (size_t i = 0; i < operations->count; i++) {
        if (operations->items[i].doing != DO_APPLY)
            continue;
        struct litres litres = plan_litres(operations, i);
        grams += finish_vapour(operations->items[i].of.step->finish, litres.likely, litres.thinner).voc_g;
    }
    return grams;
}

static void add_limit(struct buf *text, double voc, const char *whose, double limit, const char *kind)
{
    if (limit > 0)
        buf_addf(text, ", %s %s %s as %s", voc > limit ? "over" : "within", whose,
                 number_round(limit, 0).text, kind);
}

static void add_finish(struct buf *text, const struct finish *finish, double thin)
{
    struct voc_limit limit = finish_voc_limit(finish);
    double voc = finish_voc_thinned(finish, thin);
    const char *between = text->length ? "; " : "";
    if (voc < 0) {
        buf_addf(text, "%sof %s not known", between, finish->name);
        return;
    }
    buf_addf(text, "%s%s %s g/l%s", between, finish->name, number_round(voc, 0).text,
             thin > 0 ? " as thinned" : "");
    add_limit(text, voc, "the EU's", limit.eu_g_per_l, limit.eu_kind);
    add_limit(text, voc, "the US", limit.us_g_per_l, limit.us_kind);
}

const char *voc_words(struct arena *arena, const struct operations *operations)
{
    const struct job *job = operations->job;
    double grams = voc_total_g(operations);
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < job->finish_count; i++) {
        double thin = thinnest(operations, job->finishes[i]);
        if (thin >= 0 && finish_voc_thinned(job->finishes[i], thin) != 0)
            add_finish(&text, job->finishes[i], thin);
    }
    if (!text.length || grams <= 0)
        return NULL;
    return arena_textf(arena,
                       "VOC: all coats give off %s; %s (limits for paints and varnishes of buildings: EU "
                       "2004/42 annex II, phase II, and 40 CFR 59 subpart D, in g/l ready to use; a works "
                       "that coats furniture has others)",
                       mass_format(grams, UNITS_METRIC).text, text.text);
}
