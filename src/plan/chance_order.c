/* The plan's order of work as waits: whoever takes over hands, a place or room on the rack waits for whoever had it.
 *
 * What a resource holds is passed on in batches: a step takes what became free first in the plan. Any draw that keeps
 * these waits keeps the capacity (resource flow: Artigues, Michelon, Reusser, EJOR 149, 2003). */
#include "plan/chance_model.h"

#include "base/arena.h"

struct batch {
    int item; /* NET_NONE: free from the beginning */
    int32_t amount, free_at;
};

struct batches {
    struct batch *items;
    size_t count;
};

/* What item must wait for to take over from another. */
static struct hold takeover(struct chance_model *model, int from, enum rule_kind kind)
{
    struct hold hold = {.from = from};
    if (kind == RULE_RACK) {
        hold.film = chance_state(model, model->items[from].operation, STATE_HANDLE);
        hold.state = STATE_HANDLE;
    }
    return hold;
}

/* The batch that is free by then and was free first; NULL: none. */
static struct batch *first_free(const struct batches *batches, int32_t by)
{
    struct batch *best = NULL;
    for (size_t i = 0; i < batches->count; i++) {
        struct batch *batch = &batches->items[i];
        if (batch->amount > 0 && batch->free_at <= by && (!best || batch->free_at < best->free_at))
            best = batch;
    }
    return best;
}

static void pass_on(struct chance_model *model, struct batches *batches, const struct net_use *use, int item)
{
    const struct network *net = &model->problem->net;
    enum rule_kind kind = model->problem->rules[net->resources[use->resource].rule].kind;
    int32_t wanted = use->amount, start = model->items[item].planned;
    struct batch *batch;
    while (wanted > 0 && (batch = first_free(batches, start))) {
        int32_t taken = batch->amount < wanted ? batch->amount : wanted;
        batch->amount -= taken;
        wanted -= taken;
        if (batch->item != NET_NONE)
            chance_add_hold(model, item, takeover(model, batch->item, kind));
    }
    batches->items[batches->count++] = (struct batch){item, use->amount, net_map_at(net, use->until, start)};
}

/* In the order of the plan's starts. */
static void pass_resource(struct chance_model *model, int resource, const int *item_of)
{
    const struct network *net = &model->problem->net;
    const struct net_use **uses = ARENA_ARRAY(model->arena, model->planned, const struct net_use *);
    struct batches batches = {ARENA_ARRAY(model->arena, model->planned + 1, struct batch), 1};
    batches.items[0] = (struct batch){NET_NONE, net->resources[resource].capacity, 0};
    for (size_t i = 0; i < net->use_count; i++) {
        int item = item_of[net->uses[i].operation];
        if (net->uses[i].resource == resource && item != NET_NONE)
            uses[item] = &net->uses[i];
    }
    for (size_t i = 0; i < model->planned; i++)
        if (uses[i])
            pass_on(model, &batches, uses[i], (int)i);
}

/* The plan names the people: each takes their steps in turn. */
static void pass_people(struct chance_model *model)
{
    const struct timetable *timetable = model->timetable;
    int *last = ARENA_ARRAY(model->arena, (size_t)timetable->job->shop.people + 1, int);
    for (int i = 0; i <= timetable->job->shop.people; i++)
        last[i] = NET_NONE;
    for (size_t i = 0; i < model->planned; i++) {
        int person = timetable->steps[i].person;
        if (last[person] != NET_NONE)
            chance_add_hold(model, (int)i, (struct hold){.from = last[person]});
        last[person] = (int)i;
    }
}

void chance_add_order(struct chance_model *model)
{
    const struct network *net = &model->problem->net;
    const struct operations *operations = model->timetable->operations;
    int *item_of = ARENA_ARRAY(model->arena, operations->count, int);
    for (size_t i = 0; i < operations->count; i++)
        item_of[i] = NET_NONE;
    for (size_t i = 0; i < model->planned; i++)
        item_of[model->items[i].operation - operations->items] = (int)i;
    pass_people(model);
    for (size_t r = 0; r < net->resource_count; r++)
        if (model->problem->rules[net->resources[r].rule].kind != RULE_PEOPLE)
            pass_resource(model, (int)r, item_of);
}
