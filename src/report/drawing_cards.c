#include "report/drawing_parts.h"

#include "base/arena.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

static const double units_per_m = 96 / 0.0254, least_seen = 44;

/* A part with the surfaces that it has. */
struct measured {
    const struct part *part;
    struct card_region regions[REGION_COUNT];
};

static bool same_sizes(const struct part *a, const struct part *b)
{
    for (enum dimension i = 0; i < DIM_COUNT; i++)
        if (a->size_m[i] != b->size_m[i])
            return false;
    return true;
}

static bool same_points(const struct part *a, const struct part *b)
{
    for (size_t i = 0; i < a->point_count && a->point_count == b->point_count; i++)
        if (a->points[i].x != b->points[i].x || a->points[i].y != b->points[i].y)
            return false;
    return a->point_count == b->point_count;
}

static bool same_regions(const struct card *card, const struct measured *m)
{
    for (enum region r = 0; r < REGION_COUNT; r++) {
        const struct card_region *a = &card->regions[r], *b = &m->regions[r];
        double each = a->area_m2 / card->qty, other = b->area_m2 / m->part->qty;
        if (a->there != b->there || a->schedule != b->schedule || fabs(each - other) > 1e-9 * (each + other))
            return false;
    }
    return true;
}

static bool alike(const struct card *card, const struct measured *m)
{
    const struct part *a = card->part, *b = m->part;
    return a->shape == b->shape && a->wood == b->wood && a->corners == b->corners && a->open == b->open &&
           same_sizes(a, b) && same_points(a, b) && a->groove_count == b->groove_count &&
           a->covered_count == b->covered_count && !a->mesh_file == !b->mesh_file &&
           (!a->mesh_file || strcmp(a->mesh_file, b->mesh_file) == 0) &&
           (strcmp(a->name, b->name) == 0 || text_common_words(a->name, b->name) > 0) &&
           same_regions(card, m);
}

/* "base door 1 to 7" where nothing lies between; else the first and how many more. */
static const char *pieces_words(struct arena *arena, const struct job *job, const struct card *card,
                                size_t last, size_t pieces)
{
    const char *first = job->pieces[card->part->piece].name, *end = job->pieces[last].name;
    size_t common = text_common_words(first, end);
    if (pieces == 1)
        return first;
    return common && last - card->part->piece + 1 == pieces
               ? arena_textf(arena, "%s to %s", first, end + common)
               : arena_textf(arena, "%s and %zu more", first, pieces - 1);
}

/* Cards with what is only needed while they are filled. */
struct filling {
    struct cards cards;
    size_t last_piece[CARDS_MOST], pieces[CARDS_MOST];
};

static void add(struct filling *f, size_t at, const struct measured *m)
{
    struct card *card = &f->cards.items[at];
    card->parts++;
    card->qty += m->part->qty;
    f->pieces[at] += card->parts == 1 || f->last_piece[at] != m->part->piece;
    f->last_piece[at] = m->part->piece;
    for (enum region r = 0; r < REGION_COUNT; r++) {
        card->regions[r].there |= m->regions[r].there;
        card->regions[r].schedule = m->regions[r].schedule;
        card->regions[r].area_m2 += m->regions[r].area_m2;
    }
}

static void add_part(struct filling *f, const struct measured *m)
{
    for (size_t i = 0; i < f->cards.count; i++)
        if (alike(&f->cards.items[i], m)) {
            add(f, i, m);
            return;
        }
    if (f->cards.count == CARDS_MOST) {
        f->cards.left_out++;
        return;
    }
    f->cards.items[f->cards.count].part = m->part;
    add(f, f->cards.count++, m);
}

/* A round ratio at which so many units a metre are not exceeded. */
static double round_ratio(double unit_per_m)
{
    static const double steps[] = {1, 2, 2.5, 4, 5, 8, 10};
    double ratio = units_per_m / unit_per_m;
    if (ratio <= 1)
        return 1;
    double power = pow(10, floor(log10(ratio)));
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++)
        if (steps[i] * power >= ratio * (1 - 1e-9))
            return steps[i] * power;
    return 10 * power;
}

static double fitting(const struct card *card, double width, double height)
{
    return fmin(width / card->sketch.width_m, height / card->sketch.height_m);
}

static void set_scales(struct cards *cards, double width, double height)
{
    for (size_t i = 0; i < cards->count; i++) {
        struct card *card = &cards->items[i];
        double own = fitting(card, width, height), shared = own;
        for (size_t k = 0; k < cards->count; k++)
            if (cards->items[k].part->piece == card->part->piece && !cards->items[k].sketch.stands_for)
                shared = fmin(shared, fitting(&cards->items[k], width, height));
        bool seen = shared * fmax(card->sketch.width_m, card->sketch.height_m) >= least_seen;
        card->ratio = round_ratio(seen && !card->sketch.stands_for ? shared : own);
        card->unit_per_m = units_per_m / card->ratio;
    }
}

struct cards cards_make(struct arena *arena, const struct job *job, const struct surfaces *surfaces,
                        double width, double height)
{
    struct filling *f = ARENA_NEW(arena, struct filling);
    f->cards.items = ARENA_ARRAY(arena, CARDS_MOST, struct card);
    for (size_t i = 0, next = 0; i < job->part_count; i++) {
        struct measured m = {.part = &job->parts[i]};
        for (; next < surfaces->count && surfaces->items[next].part == i; next++) {
            const struct surface *surface = &surfaces->items[next];
            if (!surface->patch)
                m.regions[surface->region] = (struct card_region){true, surface->schedule, surface->area_m2};
        }
        add_part(f, &m);
    }
    for (size_t i = 0; i < f->cards.count; i++) {
        struct card *card = &f->cards.items[i];
        card->piece = pieces_words(arena, job, card, f->last_piece[i], f->pieces[i]);
        card->sketch = sketch_make(arena, job, card->part);
    }
    set_scales(&f->cards, width, height);
    return f->cards;
}
