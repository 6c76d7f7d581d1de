#include "solver/engine/phase.h"

bool phase_first(const struct network *net, const struct net_apart *apart, const int32_t *start)
{
    return net_map_at(net, apart->until_a, start[apart->a]) <= start[apart->b];
}

void phase_fill(const struct model *model, const struct net_result *result, int32_t *value)
{
    const struct network *net = model->net;
    for (int i = 0; i < model->value; i++)
        value[i] = result->start[i];
    value[model->value] = result->bound;
    for (int f = 0; f < net->flag_count; f++)
        value[model->first_flag + f] = result->flag[f];
    for (int order = model->first_order; order < model->first_rule; order++)
        value[order] = !phase_first(net, &net->aparts[order - model->first_order], result->start);
    value[model->tally] = 0;
}
