/* How long the hand is on a coat. */
#include "amount/coat.h"

#include "amount/mix.h"
#include "finish/drying.h"

#include <math.h>

static const double mixing_min = 5; /* contract, section 8 */
static const double longest_min = 1e9;

/* Up to the next five minutes; a second is forgiven. Work of centuries, from a lost decimal point, stays a number. */
static int32_t round_up(double minutes)
{
    return 5 * (int32_t)ceil((fmin(minutes, longest_min) - 1 / 60.0) / 5);
}

/* Minutes from wetting to the latest wiping: shorter when warm, never longer. */
static double latest_wipe(const struct finish *finish, double temperature_c)
{
    return finish->wipe_off.most_min * exp2(fmin((finish->at_c - temperature_c) / 10, 0));
}

static struct lots lots_of(const struct coat *coat, double laying, double wiping, double temperature_c)
{
    const struct finish *finish = coat->step->finish;
    return lots_make(laying, wiping, finish->wipe_off.least_min, latest_wipe(finish, temperature_c));
}

struct lots coat_lots(const struct pass *pass, const struct coat *coat, double temperature_c)
{
    if (!coat->step->finish->has_wipe_off)
        return (struct lots){.possible = true};
    double laying = pass_minutes(pass, (int)coat->step->by), wiping = pass_minutes(pass, WORK_WIPE);
    struct lots lots = lots_of(coat, laying, wiping, temperature_c);
    lots.area_m2 = pass_area_m2(pass) / lots.count;
    return lots;
}

/* Laying minutes of one part of `qty`, from those of them all. */
static double part_minutes(const struct coat *coat, double laying, double wiping, double temperature_c)
{
    return coat->step->finish->has_wipe_off ? lots_of(coat, laying, wiping, temperature_c).minutes : laying;
}

static double longest_part(const struct pass *pass, const struct coat *coat, double temperature_c)
{
    double longest = 0, laying = 0, wiping = 0;
    size_t i = 0, last = SIZE_MAX;
    for (const struct surface *s = pass_next(pass, &i); s; s = pass_next(pass, &i)) {
        if (s->part != last)
            laying = wiping = 0;
        last = s->part;
        int qty = pass->job->parts[s->part].qty;
        laying += surface_minutes(pass->job, s, (int)coat->step->by) / qty;
        wiping += surface_minutes(pass->job, s, WORK_WIPE) / qty;
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

double coat_working_min(const struct pass *pass, const struct coat *coat, double temperature_c)
{
    const struct finish *finish = coat->step->finish;
    double minutes = finish_working_min(finish, temperature_c);
    if (finish->component_count < 2 || !tool_sprays(coat->step->by))
        return minutes;
    double alive = finish_pot_life_min(finish, temperature_c) - finish->induction_min;
    return fmax(fmin(minutes, alive - clean_up(pass, coat)), 0);
}

static bool is_mixed(const struct coat *coat)
{
    return coat->step->finish->component_count > 1 || coat->step->thin > 0;
}

static void count_mixes(struct coat_minutes *m, const struct coat *coat)
{
    if (!is_mixed(coat))
        return;
    m->mixes = mix_count(m->laying, m->working);
    m->pot_dead = m->mixes == 0;
    if (m->pot_dead)
        m->mixes = 1;
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
        .lots = coat_lots(pass, coat, temperature_c),
    };
    m.laying = m.lots.count > 0 ? m.lots.minutes : pass_minutes(pass, (int)by);
    m.working = coat_working_min(pass, coat, temperature_c);
    m.longest_part = longest_part(pass, coat, temperature_c);
    count_mixes(&m, coat);
    m.total = round_up(m.set_up + m.induction + m.mixing + m.handling + m.laying + m.clean_up);
    return m;
}

int32_t work_minutes(const struct pass *pass, int work)
{
    const struct shop *shop = &pass->job->shop;
    return round_up(shop->set_up_min[work] + shop->handling_min[work] * pass_parts(pass) +
                    pass_minutes(pass, work));
}
