/* A coat on a track: laying, the scuff before it where its window was missed, polishing, turning over. */
#include "timetable/emit.h"

#include "base/arena.h"
#include "base/err.h"

#include <math.h>

enum {
    FLIP_MIN = 5,
    LATE_SCUFF_GRIT = 320, /* where the finish names no grit between coats: common practice, from memory */
};

/* A wait longer than the window, which the schedule itself asks for, says that it does not matter; so does sanding, where
 * a scuff would have opened it. */
static bool window_binds(const struct builder *builder, const struct track *track)
{
    if (track->last_apply < 0 || track->outlasted)
        return false;
    const struct operation *under = &builder->out->items[track->last_apply];
    if (operation_window_min(under) == SPAN_NEVER)
        return false;
    return under->of.step->finish->refuses_late_recoat || !track->abraded;
}

static int emit_late_scuff(struct builder *builder, struct chain *chain, struct track *track)
{
    const struct finish *under = builder->out->items[track->last_apply].of.step->finish;
    struct operation operation = emit_blank(builder, chain, track, track->schedule);
    operation.doing = DO_SCUFF;
    operation.grit = under->between_grit ? under->between_grit : LATE_SCUFF_GRIT;
    operation.minutes = work_minutes(&operation.pass, WORK_SCUFF);
    operation.dusty = true;
    operation.late_scuff = true;
    return emit_on_piece(builder, chain, track, operation, STATE_SAND);
}

static void emit_window(struct builder *builder, const struct track *track, int scuff, int coat)
{
    emit_link(builder,
              (struct link){.from = track->last_apply, .to = coat, .kind = LINK_WINDOW, .unless = scuff});
}

static void limit_day(struct builder *builder, const struct track *track, const struct operation *coat,
                      int index)
{
    int a_day = coat->of.step->finish->coats_a_day;
    if (a_day <= 0 || a_day >= COATS_REMEMBERED || coat->of.of_finish <= a_day)
        return;
    emit_link(builder, (struct link){.from = track->recent[(coat->coat - a_day) % COATS_REMEMBERED],
                                     .to = index,
                                     .kind = LINK_DAY,
                                     .unless = -1});
}

static void emit_polish(struct builder *builder, struct chain *chain, struct track *track, int coat)
{
    const struct operation *applied = &builder->out->items[coat];
    const struct span_range *polish = &applied->of.step->finish->polish;
    struct operation operation = emit_blank(builder, chain, track, track->schedule);
    operation.doing = DO_POLISH;
    operation.of = applied->of;
    operation.minutes = work_minutes(&operation.pass, WORK_POLISH);
    chain->hold_min = polish->least_min;
    int index = emit_on_piece(builder, chain, NULL, operation, STATE_COUNT);
    emit_link(
        builder,
        (struct link){
            .from = coat, .to = index, .kind = LINK_POLISH, .span_min = polish->most_min, .unless = -1});
}

static void lots_impossible(struct builder *builder, const struct operation *coat)
{
    err_addf(builder->errors, ERR_INPUT, builder->job->file, "/schedules",
             "rates at which a section can be wiped off in its time",
             "%s: not even a small section of %s is wiped off in its time at this shop's rates", coat->id,
             coat->of.step->finish->name);
}

void emit_coat(struct builder *builder, struct chain *chain, struct track *track, const struct step *step)
{
    bool again =
        track->last_apply >= 0 && builder->out->items[track->last_apply].of.step->finish == step->finish;
    bool binds = window_binds(builder, track);
    bool scuffs = binds && !builder->out->items[track->last_apply].of.step->finish->refuses_late_recoat;
    int scuff = scuffs ? emit_late_scuff(builder, chain, track) : -1;
    struct operation coat = emit_blank(builder, chain, track, track->schedule);
    coat.doing = DO_APPLY;
    coat.coat = track->laid + 1;
    coat.of = (struct coat){step, coat.coat, again ? track->of_finish + 1 : 1};
    coat.detail =
        coat_minutes(&coat.pass, &coat.of, fmin(builder->limits.warmest_c, step->finish->air.highest_c));
    coat.minutes = coat.detail.total;
    coat.last_coat = coat.coat == track->coats;
    int index = emit_on_piece(builder, chain, track, coat, STATE_RECOAT);
    if (coat.detail.sections.count && !coat.detail.sections.possible)
        lots_impossible(builder, &builder->out->items[index]);
    if (binds)
        emit_window(builder, track, scuff, index);
    limit_day(builder, track, &coat, index);
    track->laid = coat.coat;
    track->of_finish = coat.of.of_finish;
    track->last_apply = index;
    track->recent[coat.coat % COATS_REMEMBERED] = index;
    track->abraded = track->outlasted = false;
    if (step->finish->has_polish)
        emit_polish(builder, chain, track, index);
}

void emit_flip(struct builder *builder, struct chain *chain, struct track *track)
{
    struct operation operation = emit_blank(builder, chain, track, track->schedule);
    operation.doing = DO_FLIP;
    operation.minutes = FLIP_MIN;
    int index = emit_on_piece(builder, chain, NULL, operation, STATE_COUNT);
    for (size_t i = 0; i < chain->track_count; i++) {
        const struct track *lies = &chain->tracks[i];
        if (lies->side != track->side || lies->last_apply < 0)
            continue;
        if (!builder->out->items[lies->last_apply].of.step->finish->flip_now)
            emit_state_link(builder, lies->last_apply, index, STATE_HANDLE);
    }
}
