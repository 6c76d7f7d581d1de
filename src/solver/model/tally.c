#include "solver/model/tally.h"

static bool conclude(struct trail *trail, struct literal literal, const struct literal *why, size_t count)
{
    if (trail_holds(trail, literal))
        return true;
    return trail_set(trail, literal, (struct reason){REASON_LIST, trail_keep(trail, why, count)});
}

bool tally_run(const struct model *model, struct trail *trail, struct literal *why)
{
    size_t set = 0;
    for (int f = 0; f < model->net->flag_count; f++)
        if (trail_low(trail, model->first_flag + f) == 1)
            why[set++] = at_least(model->first_flag + f, 1);
    trail->work += 1 + model->net->flag_count / 8;
    if (!conclude(trail, at_least(model->tally, (int32_t)set), why, set))
        return false;
    if ((int32_t)set < trail_high(trail, model->tally))
        return true;
    why[set++] = at_most(model->tally, trail_high(trail, model->tally));
    for (int f = 0; f < model->net->flag_count; f++)
        if (trail_low(trail, model->first_flag + f) == 0 &&
            !conclude(trail, at_most(model->first_flag + f, 0), why, set))
            return false;
    return true;
}
