/* How to read this file: a schedule is cut at its coats (struct leg: what goes before a coat, and the coat). A piece
 * laid flat with both sides scheduled is one chain, whose tracks (schedule and side) are laid in rounds: back, flip,
 * face. On any other piece every schedule is a chain of its own with one track. A patch is a track for as long as it is
 * treated, after the work on bare wood and before the first coat. */
#include "timetable/emit.h"

#include "base/arena.h"
#include "timetable/lot.h"

/* Steps [from, to) of a schedule before its coat number `number`; the step of that coat, NULL behind the last. */
struct leg {
    size_t from, to;
    const struct step *coat;
    bool between; /* a further coat of the same step: its between step goes before it */
};

static bool polishes_itself(const struct schedule *schedule, size_t i)
{
    return i > 0 && schedule->steps[i].kind == STEP_POLISH && schedule->steps[i - 1].kind == STEP_COAT &&
           schedule->steps[i - 1].finish->has_polish;
}

static struct leg leg_of(const struct schedule *schedule, int number)
{
    struct leg leg = {0, 0, NULL, false};
    int laid = 0;
    for (size_t i = 0; i < schedule->step_count; i++) {
        const struct step *step = &schedule->steps[i];
        if (step->kind != STEP_COAT)
            continue;
        if (number <= laid + step->coats) {
            leg.between = number > laid + 1;
            leg.to = leg.between ? leg.from : i;
            leg.coat = step;
            return leg;
        }
        laid += step->coats;
        leg.from = i + 1;
    }
    leg.to = schedule->step_count;
    return leg;
}

static int coats_of(const struct schedule *schedule)
{
    int coats = 0;
    for (size_t i = 0; i < schedule->step_count; i++)
        if (schedule->steps[i].kind == STEP_COAT)
            coats += schedule->steps[i].coats;
    return coats;
}

static void emit_leg_steps(struct builder *builder, struct chain *chain, struct track *track, size_t schedule,
                           struct leg leg)
{
    const struct schedule *steps = &builder->job->schedules[schedule];
    if (leg.between && leg.coat->between)
        emit_step(builder, chain, track, schedule, leg.coat->between);
    for (size_t i = leg.from; i < leg.to; i++)
        if (!polishes_itself(steps, i))
            emit_step(builder, chain, track, schedule, &steps->steps[i]);
}

/* What goes before the first coat, and what follows the last, is done all over the schedule's surface in one go. */
static void emit_whole(struct builder *builder, struct chain *chain, bool before)
{
    for (size_t i = 0; i < chain->track_count; i++) {
        const struct track *track = &chain->tracks[i];
        bool told = false;
        for (size_t k = 0; k < i; k++)
            told |= chain->tracks[k].schedule == track->schedule;
        const struct schedule *schedule = &builder->job->schedules[track->schedule];
        if (told || (!before && track->coats == 0))
            continue;
        emit_leg_steps(builder, chain, NULL, track->schedule,
                       leg_of(schedule, before ? 1 : track->coats + 1));
    }
}

/* The track with which the region of the patch goes on; NULL: the chain or the lot has no patch. */
static struct track *patched_track(const struct builder *builder, const struct chain *chain,
                                   struct pass *pass)
{
    const struct patch *patch = builder->job->pieces[chain->piece].patch;
    if (!patch)
        return NULL;
    *pass = (struct pass){
        builder->job, builder->out->surfaces, chain->piece, (size_t)patch->schedule, SIDE_ALL, chain->run,
        true};
    size_t first = 0;
    const struct surface *surface = pass_next(pass, &first);
    for (size_t i = 0; surface && i < chain->track_count; i++) {
        struct track *track = &chain->tracks[i];
        int schedule = builder->job->parts[surface->part].schedule[patch->region];
        bool here =
            track->covers == SIDE_ALL || (track->covers == SIDE_BACK) == (patch->region == REGION_BACK);
        if ((int)track->schedule == schedule && here)
            return track;
    }
    return NULL;
}

/* All steps of the patch's schedule, while it is one of the tracks; its region then lies under that track's first coat.
 * Returns the side that is up. */
static struct track *emit_patch(struct builder *builder, struct chain *chain)
{
    struct pass pass;
    struct track *on = patched_track(builder, chain, &pass);
    if (!on)
        return NULL;
    const struct schedule *schedule = &builder->job->schedules[pass.schedule];
    struct track *patch = &chain->tracks[chain->track_count++];
    *patch = (struct track){.schedule = pass.schedule,
                            .side = on->side,
                            .covers = SIDE_ALL,
                            .coats = coats_of(schedule),
                            .last_apply = -1,
                            .patch = true,
                            .goes_on = on->coats > 0};
    for (int coat = 1; coat <= patch->coats + 1; coat++) {
        struct leg leg = leg_of(schedule, coat);
        emit_leg_steps(builder, chain, patch, pass.schedule, leg);
        if (leg.coat)
            emit_coat(builder, chain, patch, leg.coat);
    }
    chain->track_count--;
    on->last_apply = patch->last_apply;
    on->abraded = patch->abraded;
    on->outlasted = patch->outlasted;
    on->under = patch->last_apply >= 0 ? patch : NULL;
    return on;
}

static void emit_turn(struct builder *builder, struct chain *chain, struct track **up, struct track *next)
{
    if (chain->two_sided && *up && (*up)->side != next->side)
        emit_flip(builder, chain, *up);
    *up = next;
}

/* Where one side gets fewer coats, the back has its own in the first rounds and the face in the last: so the part is turned over
 * no more than it must be, a back that is only sealed is sealed first, and the last coat is the face's. */
static bool is_of_round(const struct track *track, int round, int rounds)
{
    return track->side == SIDE_BACK ? round <= track->coats : round > rounds - track->coats;
}

static void emit_rounds(struct builder *builder, struct chain *chain, struct track *up)
{
    int rounds = 0;
    for (size_t i = 0; i < chain->track_count; i++)
        rounds = chain->tracks[i].coats > rounds ? chain->tracks[i].coats : rounds;
    for (int round = 1; round <= rounds; round++)
        for (size_t i = 0; i < chain->track_count; i++) {
            struct track *track = &chain->tracks[i];
            if (!is_of_round(track, round, rounds))
                continue;
            struct leg leg = leg_of(&builder->job->schedules[track->schedule], track->laid + 1);
            emit_turn(builder, chain, &up, track);
            if (track->laid > 0)
                emit_leg_steps(builder, chain, track, track->schedule, leg);
            emit_coat(builder, chain, track, leg.coat);
        }
}

/* What must be over: the last coats at the state of delivery, the last operation, a wait that the schedule ends in. */
static void emit_lines(struct builder *builder, const struct chain *chain)
{
    for (size_t i = 0; i < chain->track_count; i++) {
        int last = chain->tracks[i].last_apply;
        if (last < 0)
            continue;
        emit_line(builder, (struct finish_line){last, true, builder->job->deliver_at, 0});
        if (chain->hold_state >= 0)
            emit_line(builder, (struct finish_line){last, true, (enum finish_state)chain->hold_state, 0});
    }
    if (chain->previous >= 0)
        emit_line(builder, (struct finish_line){chain->previous, false, STATE_COUNT, chain->hold_min});
}

static void emit_chain(struct builder *builder, struct chain *chain)
{
    chain->first = chain->previous = chain->dusty = chain->optional = chain->hold_state = -1;
    emit_whole(builder, chain, true);
    emit_rounds(builder, chain, emit_patch(builder, chain));
    emit_whole(builder, chain, false);
    emit_lines(builder, chain);
}

/* Which regions of the lot a schedule is on, as bits 1 << region. */
static unsigned regions_with(const struct builder *builder, struct part_run run, size_t piece,
                             size_t schedule)
{
    struct pass pass = {builder->job, builder->out->surfaces, piece, schedule, SIDE_ALL, run, false};
    unsigned regions = 0;
    size_t i = 0;
    for (const struct surface *s = pass_next(&pass, &i); s; s = pass_next(&pass, &i))
        regions |= 1u << s->region;
    return regions;
}

/* Lot `number` of a piece. */
struct chain_lot {
    size_t piece;
    int number, of;
    struct part_run run;
};

/* Edges and ends go with the face; where their schedule is on no face, with its back. */
static void add_track(const struct builder *builder, struct chain *chain, size_t schedule, enum side side)
{
    bool faced = regions_with(builder, chain->run, chain->piece, schedule) & 1u << REGION_FACE;
    chain->tracks[chain->track_count++] =
        (struct track){.schedule = schedule,
                       .side = side,
                       .covers = faced ? side : SIDE_ALL,
                       .coats = coats_of(&builder->job->schedules[schedule]),
                       .last_apply = -1};
}

static struct chain chain_start(const struct builder *builder, struct chain_lot lot, bool two_sided)
{
    return (struct chain){
        .piece = lot.piece,
        .lot = lot.number,
        .lots = lot.of,
        .run = lot.run,
        .two_sided = two_sided,
        .first_emitted = builder->out->count,
        .tracks = ARENA_ARRAY(builder->arena, 2 * builder->job->schedule_count + 1, struct track)};
}

static void finish_chain(struct builder *builder, struct chain *chain, int *firsts, size_t *first_count)
{
    if (chain->track_count == 0)
        return;
    emit_chain(builder, chain);
    if (chain->first >= 0)
        firsts[(*first_count)++] = chain->first;
}

void chain_emit_lot(struct builder *builder, size_t piece, int number, int *firsts, size_t *first_count)
{
    const struct job *job = builder->job;
    struct chain_lot lot = {piece, number, builder->lots[piece], {0, 0}};
    if (lot.of > 1)
        lot.run = lot_run(builder->arena, job, builder->out->surfaces, piece, number, lot.of);
    const unsigned back = 1u << REGION_BACK, face = 1u << REGION_FACE;
    struct chain sides = chain_start(builder, lot, true);
    bool two_sided = piece_has_two_sides(job, builder->out->surfaces, piece);
    for (int side = SIDE_BACK; two_sided && side <= SIDE_FACE; side++)
        for (size_t schedule = 0; schedule < job->schedule_count; schedule++) {
            unsigned on = regions_with(builder, lot.run, piece, schedule);
            if (side == SIDE_BACK ? on & back : on & face)
                add_track(builder, &sides, schedule, (enum side)side);
        }
    finish_chain(builder, &sides, firsts, first_count);
    for (size_t schedule = 0; schedule < job->schedule_count; schedule++) {
        unsigned on = regions_with(builder, lot.run, piece, schedule);
        if (!on || (two_sided && on & (back | face)))
            continue;
        struct chain alone = chain_start(builder, lot, false);
        add_track(builder, &alone, schedule, SIDE_ALL);
        finish_chain(builder, &alone, firsts, first_count);
    }
}
