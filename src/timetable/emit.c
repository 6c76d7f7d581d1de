#include "timetable/emit.h"

#include "base/arena.h"
#include "base/err.h"
#include "base/measure.h"
#include "base/text.h"
#include "timetable/facts.h"
#include "timetable/hours.h"

#include <string.h>

int emit_operation(struct builder *builder, struct operation operation)
{
    struct operations *out = builder->out;
    out->items = arena_grow(builder->arena, out->items, out->count, &out->room, sizeof *out->items);
    out->items[out->count] = operation;
    return (int)out->count++;
}

void emit_link(struct builder *builder, struct link link)
{
    struct operations *out = builder->out;
    out->links = arena_grow(builder->arena, out->links, out->link_count, &out->link_room, sizeof *out->links);
    out->links[out->link_count++] = link;
}

void emit_line(struct builder *builder, struct finish_line line)
{
    struct operations *out = builder->out;
    out->lines = arena_grow(builder->arena, out->lines, out->line_count, &out->line_room, sizeof *out->lines);
    out->lines[out->line_count++] = line;
}

void emit_state_link(struct builder *builder, int from, int to, enum finish_state state)
{
    emit_link(builder,
              (struct link){.from = from, .to = to, .kind = LINK_STATE, .state = state, .unless = -1});
}

/* Into how many equal parts a task must be cut to fit the working stretches; any other unit that is longer is an error. */
static int parts_of(struct builder *builder, const struct operation *operation)
{
    int32_t longest = builder->limits.longest_min / SLOT_MIN * SLOT_MIN,
            unit = (operation->units.longest_s + 59) / 60;
    if (unit <= longest || longest == 0)
        return 1;
    if (operation->doing == DO_TASK)
        return (operation->minutes + longest - 1) / longest;
    err_addf(builder->errors, ERR_INPUT, builder->job->file, "/pieces", "work that fits the shop's hours",
             "%s: one part takes %s in one go and the longest stretch of work is %s: lengthen a stretch, or "
             "enter the part as several",
             operation->id, span_format(unit).text, span_format(builder->limits.longest_min).text);
    return 1;
}

void emit_split(struct builder *builder, struct operation *operation)
{
    operation->minutes = operation->units.seconds / 60;
    operation->parts = parts_of(builder, operation);
    int each_min = (operation->minutes + operation->parts - 1) / operation->parts;
    if (operation->parts > 1)
        operation->units = units_of_span(builder->arena, each_min, 0, 1);
    operation->minutes = operation->units.seconds / 60;
}

static const char *side_mark(const struct chain *chain, enum side side)
{
    if (!chain->two_sided || side == SIDE_ALL)
        return "";
    return side == SIDE_BACK ? "b" : "f";
}

/* Ids carry no date and no running number, but for a repeat of the very same words. */
static const char *unused_id(struct builder *builder, const struct chain *chain, const char *id)
{
    int repeats = 1;
    size_t length = strlen(id);
    for (size_t i = chain->first_emitted; i < builder->out->count; i++) {
        const char *other = builder->out->items[i].id;
        if (strncmp(other, id, length) == 0 && (other[length] == '\0' || other[length] == '#'))
            repeats++;
    }
    for (size_t i = 0; i < builder->skipped_count; i++)
        repeats += strcmp(builder->skipped[i], id) == 0;
    return repeats == 1 ? id : arena_textf(builder->arena, "%s#%d", id, repeats);
}

static const char *step_id(struct builder *builder, const struct chain *chain,
                           const struct operation *operation)
{
    const struct job *job = builder->job;
    const char *what = doing_name(operation->doing);
    if (operation->doing == DO_SAND || operation->doing == DO_SCUFF)
        what = arena_textf(builder->arena, "%s-%d", what, operation->grit);
    else if (operation->doing == DO_TASK)
        what = text_slug(builder->arena, operation->words);
    if (operation->again > 0)
        what = operation->again > 1 ? arena_textf(builder->arena, "%s-again-%d", what, operation->again)
                                    : arena_textf(builder->arena, "%s-again", what);
    const char *piece = text_slug(builder->arena, job->pieces[chain->piece].name);
    if (chain->lots > 1)
        piece = arena_textf(builder->arena, "%s.%d", piece, chain->lot);
    const char *id = arena_textf(builder->arena, "%s/%s/%d%s/%s", piece,
                                 text_slug(builder->arena, job->schedules[operation->schedule].name),
                                 operation->coat, side_mark(chain, operation->side), what);
    return unused_id(builder, chain, id);
}

static void link_end(struct builder *builder, int from, int to, int32_t hold_min)
{
    emit_link(builder,
              (struct link){.from = from, .to = to, .kind = LINK_END, .span_min = hold_min, .unless = -1});
}

/* A coat after dust was raised on the piece waits until it has settled, where both happen in one room. */
static void link_settled(struct builder *builder, int dusty, int coat)
{
    const struct shop *shop = &builder->job->shop;
    if (dusty < 0 || shop->dust_separate || shop->settle_min == 0)
        return;
    emit_link(builder, (struct link){.from = dusty,
                                     .to = coat,
                                     .kind = LINK_END,
                                     .span_min = shop->settle_min,
                                     .unless = -1,
                                     .settles = true});
}

static bool works_on(const struct track *track, const struct track *here, size_t schedule)
{
    return here ? track == here : track->schedule == schedule;
}

/* The film under the work, and what the schedule asked to wait for. STATE_COUNT: nothing. */
static void link_films(struct builder *builder, const struct chain *chain, const struct track *here,
                       int operation, enum finish_state under)
{
    const struct operation *to = &builder->out->items[operation];
    bool dusty = to->dusty;
    size_t schedule = (size_t)to->schedule;
    for (size_t i = 0; i < chain->track_count; i++) {
        const struct track *track = &chain->tracks[i];
        if (track->last_apply < 0)
            continue;
        if (works_on(track, here, schedule)) {
            if (under != STATE_COUNT)
                emit_state_link(builder, track->last_apply, operation, under);
            if (chain->hold_state >= 0)
                emit_state_link(builder, track->last_apply, operation, (enum finish_state)chain->hold_state);
        } else if (dusty && under != STATE_COUNT) {
            emit_state_link(builder, track->last_apply, operation, STATE_DUST_FREE);
        }
    }
}

/* Order on the piece. A late scuff may be left out, so what follows it also follows what came before. */
static void follow(struct builder *builder, struct chain *chain, int operation)
{
    if (chain->previous >= 0)
        link_end(builder, chain->previous, operation, chain->hold_min);
    if (chain->optional >= 0)
        link_end(builder, chain->optional, operation, 0);
    if (builder->out->items[operation].doing == DO_APPLY) {
        link_settled(builder, chain->dusty, operation);
        link_settled(builder, chain->optional, operation);
    }
    if (chain->first < 0)
        chain->first = operation;
    if (builder->out->items[operation].late_scuff) {
        chain->optional = operation;
        return;
    }
    if (builder->out->items[operation].dusty)
        chain->dusty = operation;
    chain->optional = -1;
    chain->previous = operation;
    chain->hold_min = 0;
    chain->hold_state = -1;
}

struct operation emit_blank(const struct builder *builder, const struct chain *chain,
                            const struct track *track, size_t schedule)
{
    enum side side = track ? track->side : SIDE_ALL, covers = track ? track->covers : SIDE_ALL;
    return (struct operation){
        .job = builder->job,
        .piece = (int)chain->piece,
        .schedule = (int)schedule,
        .task = -1,
        .chain = (int)chain->first_emitted,
        .lot = chain->lot,
        .lots = chain->lots,
        .work = -1,
        .release_min = INT64_MIN,
        .latest_min = INT64_MAX,
        .latest_unless = -1,
        .people = 1,
        .side = side,
        .part = 1,
        .parts = 1,
        .coat = track ? track->laid : 0,
        .coats = track ? track->coats : 0,
        .pass = {builder->job, builder->out->surfaces, chain->piece, schedule, covers, chain->run,
                 track && track->patch},
    };
}

const struct log_entry *emit_asked(const struct builder *builder, const struct operation *operation,
                                   enum log_kind kind, size_t *at)
{
    while (*at < builder->asked_count) {
        size_t i = (*at)++;
        if (builder->asked[i]->kind != kind || !log_names(builder->asked[i], operation))
            continue;
        builder->heard[i] = true;
        return builder->asked[i];
    }
    return NULL;
}

static bool leaves_out(struct builder *builder, const struct operation *operation)
{
    size_t at = 0;
    if (!emit_asked(builder, operation, LOG_SKIP, &at))
        return false;
    builder->skipped = arena_grow(builder->arena, builder->skipped, builder->skipped_count,
                                  &builder->skipped_room, sizeof *builder->skipped);
    builder->skipped[builder->skipped_count++] = operation->id;
    return true;
}

int emit_on_piece(struct builder *builder, struct chain *chain, const struct track *track,
                  struct operation operation, enum finish_state under)
{
    operation.id = step_id(builder, chain, &operation);
    if (leaves_out(builder, &operation))
        return -1;
    emit_split(builder, &operation);
    int index = -1;
    for (operation.part = 1; operation.part <= operation.parts; operation.part++) {
        operation.id = step_id(builder, chain, &operation);
        index = emit_operation(builder, operation);
        if (operation.part == 1)
            link_films(builder, chain, track, index, under);
        follow(builder, chain, index);
    }
    return index;
}

/* Whose rate and set-up a step has, an enum work; -1: it takes what its schedule says. */
static int step_work(const struct step *step)
{
    switch (step->kind) {
    case STEP_SAND:
        return WORK_SAND;
    case STEP_SCUFF:
        return WORK_SCUFF;
    case STEP_POLISH:
        return WORK_POLISH;
    case STEP_RUB:
        return WORK_RUB;
    case STEP_RAISE:
        return WORK_RAISE;
    default:
        return -1;
    }
}

/* What a step takes for the whole piece is shared among its lots by the parts that it is done on. */
static struct units step_units(const struct builder *builder, const struct pass *pass,
                               const struct step *step)
{
    int work = step_work(step);
    if (work >= 0)
        return units_of_work(builder->arena, pass, work);
    struct pass whole = *pass;
    whole.lot = (struct part_run){0};
    int parts = pass_parts(pass), all = pass_parts(&whole);
    double once = (double)step->takes_min * parts / all;
    return units_of_span(builder->arena, once, step->takes_each_min, parts);
}

static enum doing step_doing(enum step_kind kind)
{
    static const enum doing doing[STEP_KIND_COUNT] = {
        [STEP_SAND] = DO_SAND,  [STEP_SCUFF] = DO_SCUFF,   [STEP_RAISE] = DO_RAISE, [STEP_MASK] = DO_MASK,
        [STEP_COAT] = DO_APPLY, [STEP_POLISH] = DO_POLISH, [STEP_RUB] = DO_RUB,     [STEP_TASK] = DO_TASK,
    };
    return doing[kind];
}

static bool step_abrades(enum step_kind kind)
{
    return kind == STEP_SAND || kind == STEP_SCUFF || kind == STEP_RUB;
}

/* A wait that is longer than the recoat window of the track's film at reference air leaves no window to keep. */
static bool outlasts_window(const struct builder *builder, const struct track *track, const struct step *step)
{
    const struct operation *film = &builder->out->items[track->last_apply];
    int32_t waited = step->wait_min >= 0 ? step->wait_min : operation_state_min(film, step->wait_state);
    return waited > operation_window_min(film);
}

static void hold(const struct builder *builder, struct chain *chain, struct track *track,
                 const struct step *step)
{
    if (step->wait_min >= 0)
        chain->hold_min += step->wait_min;
    else
        chain->hold_state = (int)step->wait_state;
    for (size_t i = 0; i < chain->track_count; i++) {
        struct track *held = &chain->tracks[i];
        if ((!track || track == held) && held->last_apply >= 0 && outlasts_window(builder, held, step))
            held->outlasted = true;
    }
}

/* The coats that lie under a step on every track of a schedule: the most of them. */
static void count_coats(const struct chain *chain, size_t schedule, struct operation *operation)
{
    for (size_t i = 0; i < chain->track_count; i++)
        if (chain->tracks[i].schedule == schedule && chain->tracks[i].laid >= operation->coat) {
            operation->coat = chain->tracks[i].laid;
            operation->coats = chain->tracks[i].coats;
        }
}

void emit_step(struct builder *builder, struct chain *chain, struct track *track, size_t schedule,
               const struct step *step)
{
    if (step->kind == STEP_WAIT) {
        hold(builder, chain, track, step);
        return;
    }
    struct operation operation = emit_blank(builder, chain, track, schedule);
    if (!track)
        count_coats(chain, schedule, &operation);
    operation.doing = step_doing(step->kind);
    operation.units = step_units(builder, &operation.pass, step);
    operation.work = step_work(step);
    operation.grit = step->grit;
    operation.words = step->words;
    operation.dusty = step->kind == STEP_SAND || step->kind == STEP_SCUFF;
    bool on_dry_film = step_abrades(step->kind) || step->kind == STEP_POLISH;
    if (emit_on_piece(builder, chain, track, operation, on_dry_film ? STATE_SAND : STATE_HANDLE) < 0)
        return;
    if (step->kind == STEP_RAISE)
        chain->hold_min = step->dry_min;
    for (size_t i = 0; i < chain->track_count; i++)
        if (step_abrades(step->kind) && works_on(&chain->tracks[i], track, schedule))
            chain->tracks[i].abraded = true;
}
