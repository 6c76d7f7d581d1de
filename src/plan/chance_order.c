/* The plan's order of work as waits: whoever takes over a person, a place or room on the rack waits for whoever had it.
 *
 * What a resource holds is passed on in shares: a step takes what became free first in the plan. Any draw that keeps
 * these waits keeps the capacity (resource flow: Artigues, Michelon, Reusser, EJOR 149, 2003). */
#include "plan/chance_model.h"

#include "base/arena.h"

#include <stdlib.h>

struct share {
    int item, step; /* item SITE_NONE: free from the beginning */
    int32_t amount, free_at;
};

struct shares {
    struct share *items;
    size_t count;
};

/* The share that is free by then and was free first; NULL: none. */
static struct share *first_free(const struct shares *shares, int32_t by)
{
    struct share *best = NULL;
    for (size_t i = 0; i < shares->count; i++) {
        struct share *share = &shares->items[i];
        if (share->amount > 0 && share->free_at <= by && (!best || share->free_at < best->free_at))
            best = share;
    }
    return best;
}

static struct hold takeover(int from, int from_step, int to_step)
{
    return (struct hold){.from = from,
                         .from_step = from_step,
                         .to_step = to_step,
                         .film = from_step != SITE_NONE,
                         .state = STATE_HANDLE};
}

/* Takes a share from whoever is free by its start; it is passed on when it is free itself. */
static void pass_on(struct chance_model *model, struct shares *shares, struct share taking, int32_t start)
{
    struct share *share;
    int32_t wanted = taking.amount;
    while (wanted > 0 && (share = first_free(shares, start))) {
        int32_t taken = share->amount < wanted ? share->amount : wanted;
        share->amount -= taken;
        wanted -= taken;
        if (share->item != SITE_NONE && share->item != taking.item)
            chance_add_hold(model, taking.item, takeover(share->item, share->step, taking.step));
    }
    shares->items[shares->count++] = taking;
}

static int32_t minute_of(const struct chance_model *model, int64_t moment)
{
    return site_minute(model->site, moment);
}

static void pass_spray(struct chance_model *model)
{
    const struct timetable *timetable = model->timetable;
    struct shares shares = {ARENA_ARRAY(model->arena, model->count + 1, struct share), 1};
    shares.items[0] = (struct share){SITE_NONE, SITE_NONE, model->site->shop->spray_places, 0};
    for (size_t i = 0; i < model->count; i++)
        if (model->site->kinds[model->items[i].batch.kind].sprays)
            pass_on(model, &shares,
                    (struct share){(int)i, SITE_NONE, 1, minute_of(model, timetable->batches[i].end_min)},
                    model->items[i].planned);
}

/* Coats in the order in which they come onto the rack; a lot that lies there already takes no more. */
static void pass_rack(struct chance_model *model)
{
    const struct timetable *timetable = model->timetable;
    struct shares shares = {ARENA_ARRAY(model->arena, timetable->step_count + 1, struct share), 1};
    int32_t *until = ARENA_ARRAY(model->arena, (size_t)model->site->lot_count, int32_t);
    shares.items[0] = (struct share){SITE_NONE, SITE_NONE, model->site->rack, 0};
    for (size_t i = 0; i < timetable->step_count && model->site->rack >= 0; i++) {
        int step = (int)(timetable->steps[i].operation - timetable->operations->items);
        const struct task_row *row = &model->site->rows[step];
        int32_t start = minute_of(model, timetable->steps[i].start_min);
        if (row->rack == 0 || until[row->lot] > start)
            continue;
        int32_t handle =
            site_state(model->site, step, minute_of(model, timetable->steps[i].end_min), STATE_HANDLE);
        until[row->lot] = handle;
        pass_on(model, &shares, (struct share){model->item_of[step], step, row->rack, handle}, start);
    }
}

/* The plan names the people: each takes their batches in turn. */
static void pass_people(struct chance_model *model)
{
    int last[PEOPLE_MOST];
    for (int i = 0; i < PEOPLE_MOST; i++)
        last[i] = SITE_NONE;
    for (size_t i = 0; i < model->count; i++) {
        const struct batch *batch = &model->items[i].batch;
        int hands[] = {batch->person, batch->helper};
        for (int k = 0; k < 2; k++) {
            if (hands[k] < 0)
                continue;
            if (last[hands[k]] != SITE_NONE)
                chance_add_hold(model, (int)i, takeover(last[hands[k]], SITE_NONE, SITE_NONE));
            last[hands[k]] = (int)i;
        }
    }
}

static bool raises(const struct chance_model *model, size_t item)
{
    return model->site->rows[model->items[item].batch.items[0]].operation->dusty;
}

static bool wets(const struct chance_model *model, size_t item)
{
    return model->site->rows[model->items[item].batch.items[model->items[item].batch.count - 1]].film != NULL;
}

/* Where one room serves, dust waits for films that were wet before it, and coats for the dust before them to settle. */
static void keep_apart(struct chance_model *model)
{
    for (size_t later = 0; later < model->count && !model->site->shop->dust_separate; later++)
        for (size_t i = 0; i < later; i++) {
            const struct batch *earlier = &model->items[i].batch;
            int last = earlier->items[earlier->count - 1];
            struct hold hold = {.from = (int)i,
                                .from_step = last,
                                .to_step = model->items[later].batch.items[0],
                                .state = STATE_DUST_FREE};
            hold.film = wets(model, i) && raises(model, later);
            hold.span = model->site->settle;
            if (hold.film || (raises(model, i) && wets(model, later)))
                chance_add_hold(model, (int)later, hold);
        }
}

/* Rows of one lot: one person at a time works on it. */
static void take_turns(struct chance_model *model)
{
    const struct timetable *timetable = model->timetable;
    int *last = ARENA_ARRAY(model->arena, (size_t)model->site->lot_count, int);
    for (int i = 0; i < model->site->lot_count; i++)
        last[i] = SITE_NONE;
    for (size_t i = 0; i < timetable->step_count; i++) {
        int step = (int)(timetable->steps[i].operation - timetable->operations->items);
        int lot = model->site->rows[step].lot, from = last[lot];
        last[lot] = step;
        if (from == SITE_NONE || model->item_of[from] == model->item_of[step] ||
            model->site->rows[from].operation->chain == model->site->rows[step].operation->chain)
            continue;
        chance_add_hold(model, model->item_of[step],
                        (struct hold){.from = model->item_of[from], .from_step = from, .to_step = step});
    }
}

void chance_add_order(struct chance_model *model)
{
    pass_people(model);
    pass_spray(model);
    pass_rack(model);
    keep_apart(model);
    take_turns(model);
}
