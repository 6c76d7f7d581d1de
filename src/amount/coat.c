#include "amount/coat.h"

#include "amount/mix.h"
#include "base/arena.h"
#include "finish/drying.h"
#include "surface/sum.h"

#include <math.h>

/* A coat that is thinned by hand on bare wood covers by the litre of what is in the pot. */
static bool covers_by_mixture(const struct coat *coat)
{
    return coat->number == 1 && !tool_sprays(coat->step->by);
}

/* Litres that a surface takes of what the coverage counts. */
static struct litre_term term_of(const struct pass *pass, const struct surface *surface,
                                 const struct coat *coat)
{
    const struct job *job = pass->job;
    const struct part *part = &job->parts[surface->part];
    const struct finish *finish = coat->step->finish;
    enum form form = surface_form(part, surface->region);
    struct litre_term term = {
        .surface = surface,
        .absorb = surface_absorb(part, surface->region, finish, coat->number),
        .coverage_m2_per_l = finish_coverage_by(finish, coat->number == 1, coat->step->by),
        .transfer = surface_transfer(&job->shop, coat->step->by, form),
    };
    term.litres = pass_surface_m2(pass, surface) * term.absorb / (term.coverage_m2_per_l * term.transfer);
    return term;
}

double coat_part_litres(const struct pass *pass, const struct surface *surface, const struct coat *coat)
{
    return term_of(pass, surface, coat).litres / pass_row_parts(pass, surface);
}

size_t coat_terms(struct arena *arena, const struct pass *pass, const struct coat *coat,
                  struct litre_term **terms)
{
    size_t count = 0, capacity = 0, i = 0;
    *terms = NULL;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i)) {
        *terms = arena_grow(arena, *terms, count, &capacity, sizeof **terms);
        (*terms)[count++] = term_of(pass, s, coat);
    }
    return count;
}

double coat_loss_l(const struct shop *shop, const struct finish *finish, enum tool by)
{
    return finish->tool_learned[by].has_loss ? finish->tool_learned[by].loss_l : shop->loss_l[by];
}

struct litres coat_litres(const struct pass *pass, const struct coat *coat, double loss_share)
{
    const struct step *step = coat->step;
    struct sum taken = {0};
    size_t i = 0;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i))
        sum_add(&taken, term_of(pass, s, coat).litres);
    sum_add(&taken, loss_share * coat_loss_l(&pass->job->shop, step->finish, step->by));
    double likely = sum_value(&taken) / (covers_by_mixture(coat) ? 1 + step->thin : 1);
    double tolerance = step->finish->tolerance;
    return (struct litres){likely * (1 - tolerance), likely, likely * (1 + tolerance), likely * step->thin};
}

double coat_wet_film_um(const struct coat *coat)
{
    const struct finish *finish = coat->step->finish;
    if (finish->has_wipe_off)
        return 0;
    double um = 1000 / finish_coverage_by(finish, coat->number == 1, coat->step->by);
    return covers_by_mixture(coat) ? um : um * (1 + coat->step->thin);
}

double coat_dry_film_um(const struct pass *pass, const struct coat *coat)
{
    (void)pass;
    return coat_wet_film_um(coat) * coat->step->finish->solids / (1 + coat->step->thin);
}

enum { SECTIONS_MOST = 100000 };

/* At least one, rounded up, a rounding error forgiven. */
static double count_up(double sections)
{
    return fmax(ceil(sections - 1e-9), 1);
}

/* Where a section is laid in `least` minutes or more, the two conditions are laying <= most and wiping <= most. Where it is
 * laid sooner, the person waits, and least + (wiping - laying)/n <= most asks for more sections. */
static double sections_needed(double laying, double wiping, double least, double most)
{
    double n = count_up(fmax(laying, wiping) / most);
    if (laying / n >= least || wiping <= laying)
        return n;
    return most > least ? fmax(n, count_up((wiping - laying) / (most - least))) : INFINITY;
}

struct sections sections_make(double laying, double wiping, double least, double most)
{
    double n = most >= least ? sections_needed(laying, wiping, least, most) : INFINITY;
    struct sections sections = {.least_min = least, .most_min = most, .possible = n <= SECTIONS_MOST};
    sections.count = sections.possible ? (int)n : 1;
    sections.minutes = sections.count * fmax(laying / sections.count, least) + wiping;
    return sections;
}

static const double mixing_min = 5; /* common practice, from memory */
static const double longest_min = 1e9;

/* Up to the next five minutes; a second is forgiven. Work of centuries, from a lost decimal point, stays a number. */
static int32_t round_up(double minutes)
{
    return 5 * (int32_t)ceil((fmin(minutes, longest_min) - 1 / 60.0) / 5);
}

bool coat_is_wiped(const struct coat *coat)
{
    const struct finish *finish = coat->step->finish;
    return finish->has_wipe_off && coat->of_finish >= finish->wipe_off_from;
}

struct sections coat_sections_of(const struct coat *coat, double laying, double wiping, double temperature_c)
{
    const struct finish *finish = coat->step->finish;
    double haste = finish_haste(finish, temperature_c);
    return sections_make(laying, wiping, finish->wipe_off.least_min / haste,
                         finish->wipe_off.most_min / haste);
}

struct sections coat_sections(const struct pass *pass, const struct coat *coat, double temperature_c)
{
    if (!coat_is_wiped(coat))
        return (struct sections){.possible = true};
    double laying = pass_minutes(pass, (int)coat->step->by), wiping = pass_minutes(pass, WORK_WIPE);
    struct sections sections = coat_sections_of(coat, laying, wiping, temperature_c);
    sections.area_m2 = pass_area_m2(pass) / sections.count;
    return sections;
}

/* Laying minutes of one part of `qty`, from those of them all. */
static double part_minutes(const struct coat *coat, double laying, double wiping, double temperature_c)
{
    return coat_is_wiped(coat) ? coat_sections_of(coat, laying, wiping, temperature_c).minutes : laying;
}

static double longest_part(const struct pass *pass, const struct coat *coat, double temperature_c)
{
    double longest = 0, laying = 0, wiping = 0;
    size_t i = 0, last = SIZE_MAX;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i)) {
        if (s->part != last)
            laying = wiping = 0;
        last = s->part;
        laying += surface_minutes(pass->job, s, (int)coat->step->by);
        wiping += surface_minutes(pass->job, s, WORK_WIPE);
        longest = fmax(longest, part_minutes(coat, laying, wiping, temperature_c));
    }
    return longest;
}

static double clean_up(const struct pass *pass, const struct coat *coat)
{
    const struct shop *shop = &pass->job->shop;
    bool two_part = coat->step->finish->component_count > 1;
    return (two_part ? shop->two_part_clean_up_min : shop->clean_up_min)[coat->step->by];
}

double coat_working_min(const struct pass *pass, const struct coat *coat, double temperature_c, double mass_g)
{
    const struct finish *finish = coat->step->finish;
    double minutes = finish_working_min(finish, temperature_c, mass_g);
    if (finish->component_count < 2 || !tool_sprays(coat->step->by))
        return minutes;
    double alive = finish_pot_life_min(finish, temperature_c, mass_g) - finish->induction_min;
    return fmax(fmin(minutes, alive - clean_up(pass, coat)), 0);
}

/* More mixes are smaller, live no shorter and are laid sooner; below the pot mass only the last still counts. */
int coat_mix_count(const struct pass *pass, const struct coat *coat, double temperature_c, double mass_g,
                   double laying_min)
{
    double pot_mass_g = coat->step->finish->pot_mass_g;
    int low = mix_count(laying_min, coat_working_min(pass, coat, temperature_c, 0));
    if (low == 0 || pot_mass_g <= 0)
        return low;
    int high = (int)fmin(fmax(ceil(mass_g / pot_mass_g), low), INT32_MAX / 2);
    while (low < high) {
        int middle = low + (high - low) / 2;
        double working = coat_working_min(pass, coat, temperature_c, mass_g / middle);
        if (mix_count(laying_min / middle, working) == 1)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

static bool is_mixed(const struct coat *coat)
{
    return coat->step->finish->component_count > 1 || coat->step->thin > 0;
}

/* `mass_g` is that of all of it. */
static void count_mixes(struct coat_minutes *m, const struct pass *pass, const struct coat *coat,
                        double temperature_c, double mass_g)
{
    m->working = coat_working_min(pass, coat, temperature_c, 0);
    if (!is_mixed(coat))
        return;
    m->mixes = coat_mix_count(pass, coat, temperature_c, mass_g, m->laying);
    m->pot_dead = m->mixes == 0;
    if (m->pot_dead)
        m->mixes = 1;
    m->working = coat_working_min(pass, coat, temperature_c, mass_g / m->mixes);
    m->mixing = mixing_min * m->mixes;
    m->induction = fmax(coat->step->finish->induction_min - m->set_up, 0);
}

struct coat_minutes coat_minutes(const struct pass *pass, const struct coat *coat, double temperature_c)
{
    const struct shop *shop = &pass->job->shop;
    enum tool by = coat->step->by;
    struct coat_minutes m = {
        .set_up = shop->set_up_min[by],
        .handling = shop->handling_min[by] * pass_parts(pass),
        .clean_up = clean_up(pass, coat),
        .sections = coat_sections(pass, coat, temperature_c),
    };
    m.laying = m.sections.count > 0 ? m.sections.minutes : pass_minutes(pass, (int)by);
    m.longest_part = longest_part(pass, coat, temperature_c);
    struct litres litres = coat_litres(pass, coat, 1);
    count_mixes(&m, pass, coat, temperature_c,
                mix_mass_of(coat->step->finish, litres.likely + litres.thinner, coat->step->thin));
    m.total = round_up(m.set_up + m.induction + m.mixing + m.handling + m.laying + m.clean_up);
    return m;
}

int32_t work_minutes(const struct pass *pass, int work)
{
    const struct shop *shop = &pass->job->shop;
    return round_up(shop->set_up_min[work] + shop->handling_min[work] * pass_parts(pass) +
                    pass_minutes(pass, work));
}
