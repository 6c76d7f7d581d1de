/* A plan as structs that a caller can walk: made once, when the first of them is asked for. */
#include "api/session.h"
#include "coatwright_walk.h"

#include "report/sentences.h"

struct walk {
    struct coatwright_verdict verdict;
    struct coatwright_step *steps;
    struct coatwright_batch *batches;
    struct coatwright_state *states;
    struct coatwright_need *needs;
    struct coatwright_pack *packs;
    struct coatwright_card *cards;
    struct coatwright_caution *cautions;
    size_t step_count, batch_count, state_count, need_count, pack_count, card_count, caution_count;
    size_t pack_room;
};

static const char *text(const char *text)
{
    return text ? text : "";
}

static const char *side_of(const struct operation *operation)
{
    return operation->side == SIDE_BACK ? "back" : operation->side == SIDE_FACE ? "face" : "";
}

static bool lays(const struct operation *operation)
{
    return operation->of.step && (operation->doing == DO_APPLY || operation->doing == DO_POLISH);
}

static bool is_critical(const struct timetable *timetable, size_t step)
{
    size_t i = 0;
    while (i < timetable->chain_count && timetable->chain[i] != step)
        i++;
    return i < timetable->chain_count;
}

static struct coatwright_step step_of(struct arena *arena, const struct plan *plan, size_t i)
{
    const struct timetable_step *step = &plan->timetable->steps[i];
    const struct operation *operation = step->operation;
    bool task = operation->piece < 0;
    struct coatwright_step told = {
        .id = operation->id,
        .piece = task ? "" : plan->job->pieces[operation->piece].name,
        .schedule = task ? "" : plan->job->schedules[operation->schedule].name,
        .side = task ? "" : side_of(operation),
        .action = doing_name(operation->doing),
        .finish = lays(operation) ? operation->of.step->finish->id : "",
        .batch = plan->timetable->batches[step->batch].id,
        .note = text(step_note(arena, plan->timetable, i, units_of(plan->job))),
        .coat = task ? 0 : operation->coat,
        .coats = task ? 0 : operation->coats,
        .person = step->person,
        .start_min = step->start_min,
        .end_min = step->end_min,
        .slack_min = step->float_min,
        .critical = is_critical(plan->timetable, i),
        .lot = operation->lot,
        .lots = operation->lots,
    };
    if (operation->doing == DO_APPLY)
        told.volume_l = plan_litres(plan->timetable, (size_t)(operation - plan->operations->items)).likely;
    return told;
}

static const struct coatwright_batch_mix *mixes_of(struct arena *arena, const struct timetable_batch *batch)
{
    struct coatwright_batch_mix *mixes = ARENA_ARRAY(arena, batch->mix_count, struct coatwright_batch_mix);
    for (size_t i = 0; i < batch->mix_count; i++)
        mixes[i] = (struct coatwright_batch_mix){batch->mixes[i].at_min, (batch->mixes[i].seconds + 59) / 60};
    return mixes;
}

/* The steps are those of the walk: they are told already. */
static struct coatwright_batch batch_of(struct arena *arena, const struct plan *plan,
                                        const struct coatwright_step *steps,
                                        const struct timetable_batch *batch)
{
    const struct timetable *timetable = plan->timetable;
    const char **ids = ARENA_ARRAY(arena, batch->step_count, const char *);
    double volume_l = 0;
    for (size_t i = 0; i < batch->step_count; i++) {
        ids[i] = steps[batch->steps[i]].id;
        volume_l += steps[batch->steps[i]].volume_l;
    }
    bool coat = batch->first->doing == DO_APPLY;
    return (struct coatwright_batch){
        .id = batch->id,
        .action = doing_name(batch->first->doing),
        .finish = lays(batch->first) ? batch->first->of.step->finish->id : "",
        .tool = coat ? tool_names[batch->first->of.step->by] : "",
        .words = batch_words(arena, timetable, batch),
        .person = person_name(arena, &plan->job->shop, batch->person),
        .helper = batch->helper > 0 ? person_name(arena, &plan->job->shop, batch->helper) : "",
        .note = text(batch_note(arena, timetable, batch, units_of(plan->job))),
        .start_min = batch->start_min,
        .end_min = batch->end_min,
        .work_from_min = batch->work_from_min,
        .work_until_min = batch->work_until_min,
        .slack_min = batch->float_min,
        .hands_on_min = batch->hands_on_min,
        .volume_l = volume_l,
        .steps = ids,
        .step_count = batch->step_count,
        .mixes = mixes_of(arena, batch),
        .mix_count = batch->mix_count,
    };
}

static void add_batches(struct arena *arena, struct walk *walk, const struct plan *plan)
{
    const struct timetable *timetable = plan->timetable;
    walk->batch_count = timetable->batch_count;
    walk->batches = ARENA_ARRAY(arena, walk->batch_count, struct coatwright_batch);
    for (size_t i = 0; i < walk->batch_count; i++)
        walk->batches[i] = batch_of(arena, plan, walk->steps, &timetable->batches[i]);
}

static void add_timetable(struct arena *arena, struct walk *walk, const struct plan *plan)
{
    const struct timetable *timetable = plan->timetable;
    walk->step_count = timetable->step_count;
    walk->steps = ARENA_ARRAY(arena, walk->step_count, struct coatwright_step);
    for (size_t i = 0; i < walk->step_count; i++)
        walk->steps[i] = step_of(arena, plan, i);
    walk->state_count = timetable->state_count;
    walk->states = ARENA_ARRAY(arena, walk->state_count, struct coatwright_state);
    for (size_t i = 0; i < walk->state_count; i++) {
        const struct piece_state *state = &timetable->states[i];
        walk->states[i] = (struct coatwright_state){plan->job->pieces[state->piece].name,
                                                    finish_state_name(state->state), state->at_min};
    }
}

static void add_pack(struct arena *arena, struct walk *walk, struct coatwright_pack pack)
{
    walk->packs = arena_grow(arena, walk->packs, walk->pack_count, &walk->pack_room, sizeof *walk->packs);
    walk->packs[walk->pack_count++] = pack;
}

static void add_kits(struct arena *arena, struct walk *walk, const struct purchase *purchase)
{
    const struct finish *finish = purchase->need.finish;
    for (size_t k = 0; k < purchase->kit_count; k++) {
        const struct purchase_kit *bought = &purchase->kits[k];
        double size_l = 0;
        for (size_t i = 0; i < finish->component_count; i++)
            size_l += bought->kit->contents_l[i];
        add_pack(arena, walk,
                 (struct coatwright_pack){finish->id, "", size_l, bought->count, bought->kit->price_cents});
    }
}

static void add_purchase(struct arena *arena, struct walk *walk, const struct purchase *purchase)
{
    const struct finish *finish = purchase->need.finish;
    add_kits(arena, walk, purchase);
    for (size_t i = 0; i < finish->component_count; i++) {
        const struct purchase_component *component = &purchase->components[i];
        const char *name = finish->components[i].name;
        walk->needs[walk->need_count++] = (struct coatwright_need){finish->id,           name,
                                                                   component->need_l,    component->need_g,
                                                                   component->on_hand_l, component->left_l,
                                                                   component->short_l};
        for (size_t k = 0; k < component->pack_count; k++) {
            const struct purchase_pack *bought = &component->packs[k];
            add_pack(arena, walk,
                     (struct coatwright_pack){finish->id, name, bought->pack->size_l, bought->count,
                                              bought->pack->price_cents});
        }
    }
}

static void add_purchases(struct arena *arena, struct walk *walk, const struct purchases *purchases)
{
    size_t needs = 0;
    for (size_t i = 0; i < purchases->count; i++)
        needs += purchases->items[i].need.finish->component_count;
    walk->needs = ARENA_ARRAY(arena, needs, struct coatwright_need);
    for (size_t i = 0; i < purchases->count; i++)
        add_purchase(arena, walk, &purchases->items[i]);
}

static const struct coatwright_pour *pours_of(struct arena *arena, const struct mix_card *card)
{
    const struct mix *mix = card->mix;
    struct coatwright_pour *pours = ARENA_ARRAY(arena, mix->pour_count, struct coatwright_pour);
    for (size_t i = 0; i < mix->pour_count; i++) {
        const struct pour *pour = &mix->pours[i];
        bool thinner = pour->component == SIZE_MAX;
        pours[i] =
            (struct coatwright_pour){thinner ? "thinner" : card->finish->components[pour->component].name,
                                     pour->volume_l, pour->mass_g, pour->weigh_g};
    }
    return pours;
}

static void add_cards(struct arena *arena, struct walk *walk, const struct mix_cards *mixes)
{
    walk->card_count = mixes->count;
    walk->cards = ARENA_ARRAY(arena, mixes->count, struct coatwright_card);
    for (size_t i = 0; i < mixes->count; i++) {
        const struct mix_card *card = &mixes->items[i];
        walk->cards[i] = (struct coatwright_card){
            .step = card->step_id,
            .finish = card->finish->id,
            .number = card->number,
            .of = card->of,
            .volume_l = card->volume_l,
            .made_l = card->mix->made_l,
            .mixed_min = card->mixed_at_min,
            .apply_by_min = card->apply_by_min,
            .pours = pours_of(arena, card),
            .pour_count = card->mix->pour_count,
        };
    }
}

static const char *caution_id(const struct plan_caution *caution)
{
    static const char *const ids[] = {
        [PLAN_CAUTION_BREATHING] = "breathing",
        [PLAN_CAUTION_VAPOUR] = "vapour",
        [PLAN_CAUTION_VOC] = "voc",
        [PLAN_CAUTION_DUST] = "dust",
        [PLAN_CAUTION_SELF_HEATING] = "self-heating",
        [PLAN_CAUTION_ONE_BOOTH] = "one-booth",
        [PLAN_CAUTION_STRIPPING] = "stripping",
    };
    return caution->kind == PLAN_CAUTION_FINISH ? caution->name : ids[caution->kind];
}

static void add_cautions(struct arena *arena, struct walk *walk, const struct plan *plan)
{
    static const char *const ids[] = {
        [MIX_WARNING_DEAD] = "mix-dead",     [MIX_WARNING_PART] = "mix-part",
        [MIX_WARNING_SCALE] = "mix-scale",   [MIX_WARNING_CUP] = "mix-cup",
        [MIX_WARNING_LITTLE] = "mix-little", [MIX_WARNING_SPLIT] = "mix-split",
    };
    size_t warnings = plan->mixes->warning_count;
    walk->caution_count = warnings + plan->caution_count;
    walk->cautions = ARENA_ARRAY(arena, walk->caution_count, struct coatwright_caution);
    for (size_t i = 0; i < warnings; i++) {
        const struct mix_warning *warning = &plan->mixes->warnings[i];
        walk->cautions[i] = (struct coatwright_caution){
            ids[warning->kind], mix_warning_words(arena, warning, units_of(plan->job))};
    }
    for (size_t i = 0; i < plan->caution_count; i++)
        walk->cautions[warnings + i] =
            (struct coatwright_caution){caution_id(&plan->cautions[i]),
                                        plan_caution_words(arena, &plan->cautions[i], units_of(plan->job))};
}

static const char *why_none(const struct coatwright *session, const struct timetable *timetable)
{
    struct buf why;
    buf_init(&why, session->arena);
    for (size_t i = 0; i < timetable->why_count; i++)
        buf_addf(&why, "%s%s", i ? "; " : "",
                 reason_words(session->arena, timetable, &timetable->why[i], session_units(session)));
    return why.text;
}

static void add_verdict(const struct coatwright *session, struct walk *walk,
                        const struct timetable *timetable)
{
    struct arena *arena = session->arena;
    bool planned = timetable->status == TIMETABLE_PLANNED;
    walk->verdict = (struct coatwright_verdict){
        .ready = planned ? ready_words(arena, timetable->job, timetable->ready_min) : "",
        .deliver = deliver_words(arena, timetable),
        .to_spare = planned ? to_spare_words(arena, timetable) : "",
        .why = planned ? "" : why_none(session, timetable),
        .hands_on_min = planned ? (int)timetable->hands_on_min : -1,
        .us = session_units(session) == UNITS_US,
    };
}

static bool make_walk(struct coatwright *session, void *call)
{
    const struct plan *plan = session->plan;
    struct walk *walk = ARENA_NEW(session->arena, struct walk);
    (void)call;
    add_verdict(session, walk, plan->timetable);
    add_timetable(session->arena, walk, plan);
    add_batches(session->arena, walk, plan);
    add_purchases(session->arena, walk, plan->purchases);
    add_cards(session->arena, walk, plan->mixes);
    add_cautions(session->arena, walk, plan);
    session->walk = walk;
    return true;
}

/* Without a plan, and where memory ends, there is nothing to walk. */
static const struct walk *walk_of(struct coatwright *session)
{
    static const struct walk nothing = {0};
    if (session && session->plan && !session->walk)
        session_guard(session, make_walk, NULL);
    return session && session->walk ? session->walk : &nothing;
}

const struct coatwright_verdict *coatwright_verdict(struct coatwright *session)
{
    const struct walk *walk = walk_of(session);
    return session && session->walk ? &walk->verdict : NULL;
}

#define WALK(thing, things)                                                                                  \
    size_t coatwright_##thing##_count(struct coatwright *session)                                            \
    {                                                                                                        \
        return walk_of(session)->thing##_count;                                                              \
    }                                                                                                        \
                                                                                                             \
    const struct coatwright_##thing *coatwright_##thing(struct coatwright *session, size_t index)            \
    {                                                                                                        \
        const struct walk *walk = walk_of(session);                                                          \
        return index < walk->thing##_count ? &walk->things[index] : NULL;                                    \
    }

WALK(step, steps)
WALK(batch, batches)
WALK(state, states)
WALK(need, needs)
WALK(pack, packs)
WALK(card, cards)
WALK(caution, cautions)
