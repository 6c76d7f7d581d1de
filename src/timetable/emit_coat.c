/* A coat on a track: laying, the scuff before it where its window was missed, polishing, turning over. */
#include "timetable/emit.h"

#include "amount/mix.h"
#include "base/arena.h"
#include "base/err.h"
#include "finish/drying.h"
#include "surface/takeoff.h"

#include <math.h>

enum {
    HALVINGS = 40,
    FLIP_MIN = 1,          /* to turn a part over: common practice, from memory */
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

/* Of a patch alone where nothing else is finished yet. */
static int emit_late_scuff(struct builder *builder, struct chain *chain, const struct track *track)
{
    const struct track *film = track->under ? track->under : track;
    const struct finish *under = builder->out->items[film->last_apply].of.step->finish;
    struct operation operation = emit_blank(builder, chain, film, film->schedule);
    operation.doing = DO_SCUFF;
    operation.grit = under->between_grit ? under->between_grit : LATE_SCUFF_GRIT;
    operation.units = units_of_work(builder->arena, &operation.pass, WORK_SCUFF);
    operation.work = WORK_SCUFF;
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
    int a_day = coat->of.step->finish->coats_a_day, asked = builder->job->pieces[coat->piece].coats_a_day;
    bool by_piece = asked > 0 && (a_day <= 0 || asked < a_day);
    a_day = by_piece ? asked : a_day;
    if (a_day <= 0 || a_day >= COATS_REMEMBERED || (by_piece ? coat->coat : coat->of.of_finish) <= a_day)
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
    operation.units = units_of_work(builder->arena, &operation.pass, WORK_POLISH);
    operation.work = WORK_POLISH;
    chain->hold_min = polish->least_min;
    int index = emit_on_piece(builder, chain, NULL, operation, STATE_COUNT);
    if (index < 0)
        return;
    emit_link(
        builder,
        (struct link){
            .from = coat, .to = index, .kind = LINK_POLISH, .span_min = polish->most_min, .unless = -1});
}

static void sections_impossible(struct builder *builder, const struct operation *coat)
{
    err_addf(builder->errors, ERR_INPUT, builder->job->file, "/schedules",
             "rates at which a section can be wiped off in its time",
             "%s: not even a small section of %s is wiped off in its time at this shop's rates", coat->id,
             coat->of.step->finish->name);
}

/* The largest mix that can be laid while it lives: of what heats itself a larger one lives shorter. */
static void limit_mix(struct operation *coat, double temperature_c)
{
    const struct step *step = coat->of.step;
    struct litres litres = coat_litres(&coat->pass, &coat->of, 0);
    double mass_g = mix_mass_of(step->finish, litres.likely + litres.thinner, step->thin);
    double low = 0, high = coat_working_min(&coat->pass, &coat->of, temperature_c, 0);
    double each_g = coat->units.seconds > 0 ? mass_g / (coat->units.seconds / 60.0) : 0;
    coat->working_min = high;
    for (int i = 0; step->finish->pot_mass_g > 0 && i < HALVINGS; i++) {
        double middle = low + (high - low) / 2;
        if (coat_working_min(&coat->pass, &coat->of, temperature_c, each_g * middle) >= middle)
            low = middle;
        else
            high = middle;
        coat->working_min = low;
    }
    double laid_g = isinf(coat->working_min) ? mass_g : each_g * coat->working_min;
    coat->pot_life_min = finish_pot_life_min(step->finish, temperature_c, laid_g);
}

static void emit_sanding(struct builder *builder, struct chain *chain, struct track *track, int grit,
                         int again)
{
    struct operation operation = emit_blank(builder, chain, track, track->schedule);
    operation.doing = DO_SAND;
    operation.grit = grit;
    operation.units = units_of_work(builder->arena, &operation.pass, WORK_SAND);
    operation.work = WORK_SAND;
    operation.dusty = true;
    operation.again = again;
    (void)emit_on_piece(builder, chain, track, operation, STATE_SAND);
}

/* A coat that must be repeated is sanded, where the log asks for it, and laid once more. The last apply. */
static int emit_repeats(struct builder *builder, struct chain *chain, struct track *track, int index)
{
    const struct operation coat = builder->out->items[index];
    const struct log_entry *entry;
    size_t at = 0;
    for (int again = 1; (entry = emit_asked(builder, &coat, LOG_AGAIN, &at)); again++) {
        if (entry->grit > 0)
            emit_sanding(builder, chain, track, entry->grit, again);
        struct operation repeat = coat;
        repeat.again = again;
        int laid = emit_on_piece(builder, chain, track, repeat, entry->grit > 0 ? STATE_RECOAT : STATE_SAND);
        index = laid < 0 ? index : laid;
        track->last_apply = index;
        track->recent[coat.coat % COATS_REMEMBERED] = index;
    }
    return index;
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
    double warmest_c = fmin(builder->limits.warmest_c, step->finish->air.highest_c);
    coat.detail = coat_minutes(&coat.pass, &coat.of, warmest_c);
    coat.units = units_of_coat(builder->arena, &coat.pass, &coat.of, warmest_c);
    limit_mix(&coat, warmest_c);
    coat.work = (int)step->by;
    coat.dry_by_min = builder->job->pieces[coat.piece].dry_by_min;
    coat.last_coat = coat.coat == track->coats && !track->goes_on;
    int index = emit_on_piece(builder, chain, track, coat, STATE_RECOAT);
    track->laid = coat.coat;
    if (index < 0) {
        /* The film beneath a last coat that is left out is then the last. */
        if (coat.last_coat && track->last_apply >= 0)
            builder->out->items[track->last_apply].last_coat = true;
        return;
    }
    if (!coat.units.possible)
        sections_impossible(builder, &builder->out->items[index]);
    if (binds)
        emit_window(builder, track, scuff, index);
    limit_day(builder, track, &coat, index);
    track->of_finish = coat.of.of_finish;
    track->last_apply = index;
    track->recent[coat.coat % COATS_REMEMBERED] = index;
    track->abraded = track->outlasted = false;
    track->under = NULL;
    index = emit_repeats(builder, chain, track, index);
    if (step->finish->has_polish)
        emit_polish(builder, chain, track, index);
}

/* Parts are turned whole, also those of which a schedule covers one side only. */
static int lot_parts(const struct pass *pass)
{
    if (pass->lot.to > 0)
        return (int)(pass->lot.to - pass->lot.from);
    return (int)piece_parts(pass->job, pass->piece);
}

/* A part that one lifts alone, at the most. */
enum { HEAVY_KG = 25 };

static int people_to_turn(const struct builder *builder, const struct pass *pass)
{
    const struct job *job = builder->job;
    size_t to = pass->lot.to > 0 ? pass->lot.to : SIZE_MAX;
    if (job->pieces[pass->piece].lift > 0)
        return job->pieces[pass->piece].lift > 1 ? 2 : 1;
    for (size_t i = surfaces_first(pass->surfaces, pass->piece); i < pass->surfaces->count;
         i = surfaces_next(pass->surfaces, i)) {
        const struct surface *surface = &pass->surfaces->items[i];
        const struct part *part = &job->parts[surface->part];
        if (part->piece == pass->piece && surface->region == REGION_FACE && surface->first_part < to &&
            surface->first_part + (size_t)part->qty > pass->lot.from &&
            part_mass_kg(builder->arena, job, part, builder->errors) > HEAVY_KG)
            return 2;
    }
    return 1;
}

static bool turns_wet(const struct builder *builder, const struct operation *coat)
{
    enum flip flip = builder->job->pieces[coat->piece].flip;
    return flip == FLIP_NOW || (flip == FLIP_BY_FINISH && coat->of.step->finish->flip_now);
}

void emit_flip(struct builder *builder, struct chain *chain, struct track *track)
{
    struct operation operation = emit_blank(builder, chain, track, track->schedule);
    operation.doing = DO_FLIP;
    operation.units = units_of_span(builder->arena, 0, FLIP_MIN, lot_parts(&operation.pass));
    operation.people = people_to_turn(builder, &operation.pass);
    int index = emit_on_piece(builder, chain, NULL, operation, STATE_COUNT);
    for (size_t i = 0; i < chain->track_count; i++) {
        const struct track *lies = &chain->tracks[i];
        if (index < 0 || lies->side != track->side || lies->last_apply < 0)
            continue;
        if (!turns_wet(builder, &builder->out->items[lies->last_apply]))
            emit_state_link(builder, lies->last_apply, index, STATE_HANDLE);
    }
}
