#include "amount/units.h"

#include "base/arena.h"

#include <math.h>

static const double longest_min = 1e8, a_second = 1 / 60.0;
static const double longest_sum_s = 2e9, a_millisecond = 1e-3;

/* Units as they are added up. */
struct adding {
    struct arena *arena;
    int32_t *ends_s;
    size_t count, room;
    int32_t longest_s;
    double minutes;
    /* Of a coat. */
    double *litres;
    int32_t *parts;
    size_t litre_count, litre_room, part_room;
};

static int32_t whole_up(double minutes)
{
    return (int32_t)ceil(fmin(minutes, longest_min) - a_second);
}

static void add_unit(struct adding *to, double minutes)
{
    int32_t before_s = to->count > 0 ? to->ends_s[to->count - 1] : 0;
    to->minutes += minutes;
    int32_t end_s = (int32_t)ceil(fmin(to->minutes * 60, longest_sum_s) - a_millisecond);
    to->ends_s = arena_grow(to->arena, to->ends_s, to->count, &to->room, sizeof *to->ends_s);
    to->ends_s[to->count++] = end_s;
    to->longest_s = end_s - before_s > to->longest_s ? end_s - before_s : to->longest_s;
}

/* What the unit added last takes of a coat, and on how many parts. */
static void add_litres(struct adding *to, double litres, int parts)
{
    size_t at = to->litre_count++;
    to->litres = arena_grow(to->arena, to->litres, at, &to->litre_room, sizeof *to->litres);
    to->parts = arena_grow(to->arena, to->parts, at, &to->part_room, sizeof *to->parts);
    to->litres[at] = (at > 0 ? to->litres[at - 1] : 0) + litres;
    to->parts[at] = (at > 0 ? to->parts[at - 1] : 0) + parts;
}

static struct units finish_adding(const struct adding *to)
{
    double litres = to->litre_count > 0 ? to->litres[to->litre_count - 1] : 0;
    for (size_t i = 0; i < to->litre_count; i++)
        to->litres[i] = litres > 0 ? to->litres[i] / litres : (double)(i + 1) / (double)to->litre_count;
    return (struct units){.ends_s = to->ends_s,
                          .laid = to->litres,
                          .parts = to->parts,
                          .count = to->count,
                          .seconds = to->count > 0 ? to->ends_s[to->count - 1] : 0,
                          .longest_s = to->longest_s,
                          .possible = true};
}

/* The surfaces of one row that are in a pass, added up for one part. */
struct row {
    int parts;
    double laying, wiping; /* minutes */
    double litres;         /* of a coat */
};

/* The next row of a pass, *i behind it; false: no more. `coat` is NULL where none is laid. */
static bool next_row(const struct pass *pass, size_t *i, int work, const struct coat *coat, struct row *row)
{
    const struct surface *surface = pass_next(pass, i);
    if (!surface)
        return false;
    *row = (struct row){.parts = pass_row_parts(pass, surface)};
    for (size_t part = surface->part; surface && surface->part == part;) {
        size_t after = *i;
        row->laying += surface_minutes(pass->job, surface, work);
        row->wiping += surface_minutes(pass->job, surface, WORK_WIPE);
        row->litres += coat ? coat_part_litres(pass, surface, coat) : 0;
        surface = pass_next(pass, &after);
        if (surface && surface->part == part)
            *i = after;
    }
    return true;
}

static struct units units_plain(struct arena *arena, const struct pass *pass, int work,
                                const struct coat *coat)
{
    struct adding adding = {.arena = arena};
    struct row row;
    for (size_t i = 0; next_row(pass, &i, work, coat, &row);)
        for (int part = 0; part < row.parts; part++) {
            add_unit(&adding, pass->job->shop.handling_min[work] + row.laying);
            if (coat)
                add_litres(&adding, row.litres, 1);
        }
    return finish_adding(&adding);
}

struct units units_of_work(struct arena *arena, const struct pass *pass, int work)
{
    return units_plain(arena, pass, work, NULL);
}

/* Neighbouring parts that are laid and wiped off as one section. */
struct section {
    int parts;
    double laying, wiping, litres;
};

struct wiping {
    struct adding adding;
    const struct pass *pass;
    const struct coat *coat;
    double temperature_c, handling_min;
    struct section open;
    int sections;
    bool possible;
};

static struct sections sections_of(const struct wiping *wiping, double laying, double wipe)
{
    return coat_sections_of(wiping->coat, laying, wipe, wiping->temperature_c);
}

static void close_section(struct wiping *wiping)
{
    const struct section *open = &wiping->open;
    if (open->parts == 0)
        return;
    struct sections sections = sections_of(wiping, open->laying, open->wiping);
    wiping->possible = wiping->possible && sections.possible;
    wiping->sections += sections.count;
    add_unit(&wiping->adding, open->parts * wiping->handling_min + sections.minutes);
    add_litres(&wiping->adding, open->litres, open->parts);
    wiping->open = (struct section){0};
}

static bool fits_section(const struct wiping *wiping, const struct row *row)
{
    struct sections together =
        sections_of(wiping, wiping->open.laying + row->laying, wiping->open.wiping + row->wiping);
    return together.possible && together.count == 1;
}

static void wipe_part(struct wiping *wiping, const struct row *row)
{
    if (wiping->open.parts > 0 && !fits_section(wiping, row))
        close_section(wiping);
    wiping->open.parts++;
    wiping->open.laying += row->laying;
    wiping->open.wiping += row->wiping;
    wiping->open.litres += row->litres;
}

static struct units units_wiped(struct arena *arena, const struct pass *pass, const struct coat *coat,
                                double temperature_c)
{
    int tool = (int)coat->step->by;
    struct wiping wiping = {.adding = {.arena = arena},
                            .pass = pass,
                            .coat = coat,
                            .temperature_c = temperature_c,
                            .handling_min = pass->job->shop.handling_min[tool],
                            .possible = true};
    struct row row;
    for (size_t i = 0; next_row(pass, &i, tool, coat, &row);)
        for (int part = 0; part < row.parts; part++)
            wipe_part(&wiping, &row);
    close_section(&wiping);
    struct units units = finish_adding(&wiping.adding);
    units.sections = wiping.sections;
    units.possible = wiping.possible;
    return units;
}

struct units units_of_coat(struct arena *arena, const struct pass *pass, const struct coat *coat,
                           double temperature_c)
{
    if (coat_is_wiped(coat))
        return units_wiped(arena, pass, coat, temperature_c);
    return units_plain(arena, pass, (int)coat->step->by, coat);
}

struct units units_of_span(struct arena *arena, double once_min, int32_t each_min, int parts)
{
    struct adding adding = {.arena = arena};
    if (once_min > 0)
        add_unit(&adding, once_min);
    for (int part = 0; each_min > 0 && part < parts; part++)
        add_unit(&adding, each_min);
    return finish_adding(&adding);
}

int32_t units_set_up_min(const struct shop *shop, int work)
{
    return whole_up(shop->set_up_min[work]);
}

int32_t units_clean_up_min(const struct shop *shop, int work, bool two_part)
{
    bool tool = work < TOOL_COUNT;
    return whole_up(tool && two_part ? shop->two_part_clean_up_min[work] : shop->clean_up_min[work]);
}
