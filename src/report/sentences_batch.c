/* A batch in words: what is done, on which pieces in the order of work, how much, and what is to be known meanwhile. */
#include "report/sentences.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { COATS_TOLD = 31, PAUSE_LEAST_MIN = 5 }; /* a shorter rest is the rounding of the batch's end */

static const struct operation *operation_at(const struct timetable *timetable,
                                            const struct timetable_batch *batch, size_t i)
{
    return timetable->steps[batch->steps[i]].operation;
}

/* Turning over for the coat that the batch is for. */
static bool is_turn(const struct timetable_batch *batch, const struct operation *operation)
{
    return operation->doing == DO_FLIP && batch->first->doing != DO_FLIP;
}

/* Bit n: coat n is laid. */
static uint32_t coats_of(const struct timetable *timetable, const struct timetable_batch *batch)
{
    uint32_t coats = 0;
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct operation *operation = operation_at(timetable, batch, i);
        int coat = operation->of.of_finish < COATS_TOLD ? operation->of.of_finish : COATS_TOLD;
        if (operation->doing == DO_APPLY)
            coats |= UINT32_C(1) << coat;
    }
    return coats;
}

static bool has_several(uint32_t bits)
{
    return (bits & (bits - 1)) != 0;
}

const char *batch_words(struct arena *arena, const struct timetable *timetable,
                        const struct timetable_batch *batch)
{
    uint32_t coats = coats_of(timetable, batch);
    struct buf text;
    if (batch->first->doing != DO_APPLY || !has_several(coats))
        return step_words(arena, batch->first);
    buf_init(&text, arena);
    for (int coat = 0; coat <= COATS_TOLD; coat++) {
        if (!(coats >> coat & 1))
            continue;
        bool last = coat == COATS_TOLD || coats >> coat == 1;
        buf_addf(&text, "%s%d", !text.length ? "coats " : last ? " and " : ", ", coat);
    }
    return arena_textf(arena, "%s, %s", text.text, batch->first->of.step->finish->short_name);
}

/* The number behind the words that both names begin with; -1: there is none. */
static long number_behind(const char *name, size_t common)
{
    char *end;
    if (name[common] < '0' || name[common] > '9')
        return -1;
    long number = strtol(name + common, &end, 10);
    return *end ? -1 : number;
}

bool names_count_on(const char *name, const char *next)
{
    size_t common = text_common_words(name, next);
    long number = common ? number_behind(name, common) : -1;
    return number >= 0 && number_behind(next, common) == number + 1;
}

static const char *name_of(const struct operation *operation)
{
    return operation->piece < 0 ? "" : operation->job->pieces[operation->piece].name;
}

static bool same_area(const struct operation *a, const struct operation *b)
{
    double one = pass_area_m2(&a->pass), other = pass_area_m2(&b->pass);
    return fabs(one - other) <= 1e-9 * (one + other);
}

static bool goes_on(const struct operation *a, const struct operation *b)
{
    return a->piece >= 0 && b->piece >= 0 && a->doing == b->doing && a->schedule == b->schedule &&
           a->side == b->side && a->lot == b->lot && a->lots == b->lots && a->minutes == b->minutes &&
           a->of.of_finish == b->of.of_finish && same_area(a, b) && names_count_on(name_of(a), name_of(b));
}

/* Steps that are one: a coat with the turning before it. */
static size_t stride_at(const struct timetable *timetable, const struct timetable_batch *batch, size_t i)
{
    const struct operation *operation = operation_at(timetable, batch, i);
    if (!is_turn(batch, operation) || i + 1 == batch->step_count)
        return 1;
    const struct operation *next = operation_at(timetable, batch, i + 1);
    return next->doing == DO_APPLY && next->piece == operation->piece && next->lot == operation->lot ? 2 : 1;
}

struct batch_runs batch_runs_make(struct arena *arena, const struct timetable *timetable,
                                  const struct timetable_batch *batch)
{
    struct batch_runs runs = {ARENA_ARRAY(arena, batch->step_count, struct batch_run), 0};
    for (size_t i = 0, stride; i < batch->step_count; i += stride) {
        struct batch_run *run = runs.count ? &runs.items[runs.count - 1] : NULL;
        stride = stride_at(timetable, batch, i);
        bool same =
            run && run->stride == stride &&
            goes_on(operation_at(timetable, batch, i - 1), operation_at(timetable, batch, i + stride - 1));
        if (same)
            run->count++;
        else
            runs.items[runs.count++] = (struct batch_run){i, 1, stride};
    }
    return runs;
}

/* The work of a run, and of its last piece. */
static const struct operation *work_of(const struct timetable *timetable, const struct timetable_batch *batch,
                                       const struct batch_run *run, size_t piece)
{
    return operation_at(timetable, batch, run->first + (piece + 1) * run->stride - 1);
}

/* Whether the batch works on another schedule of its piece, or on another side of it, as well. */
static bool has_other(const struct timetable *timetable, const struct timetable_batch *batch,
                      const struct operation *operation, bool side)
{
    for (size_t i = 0; operation->piece >= 0 && i < batch->step_count; i++) {
        const struct operation *other = operation_at(timetable, batch, i);
        if (other->piece != operation->piece || is_turn(batch, other))
            continue;
        if (side ? other->schedule == operation->schedule && other->side != operation->side
                 : other->schedule != operation->schedule)
            return true;
    }
    return false;
}

/* What follows the name: the schedule where the batch has several of the piece, the lot. */
static const char *details_of(struct arena *arena, const struct timetable *timetable,
                              const struct timetable_batch *batch, const struct operation *operation)
{
    const char *schedule = "";
    if (has_other(timetable, batch, operation, false))
        schedule = arena_textf(arena, " (%s)", operation->job->schedules[operation->schedule].name);
    return arena_textf(arena, "%s%s", schedule, lot_words(arena, operation));
}

const char *names_span(struct arena *arena, const char *first, const char *last)
{
    if (strcmp(first, last) == 0)
        return first;
    return arena_textf(arena, "%s %s %s", first, names_count_on(first, last) ? "and" : "to",
                       last + text_common_words(first, last));
}

const char *batch_run_pieces(struct arena *arena, const struct timetable *timetable,
                             const struct timetable_batch *batch, const struct batch_run *run)
{
    const struct operation *first = work_of(timetable, batch, run, 0);
    const struct operation *last = work_of(timetable, batch, run, run->count - 1);
    return arena_textf(arena, "%s%s%s", names_span(arena, name_of(first), name_of(last)),
                       details_of(arena, timetable, batch, first), side_words(first));
}

/* Each piece that is worked on, by its first step: a lot and a schedule of it once. */
struct listed {
    const struct operation **items;
    size_t count;
};

static bool lists(const struct listed *listed, const struct operation *operation)
{
    for (size_t i = 0; i < listed->count; i++) {
        const struct operation *other = listed->items[i];
        if (other->piece == operation->piece && other->schedule == operation->schedule &&
            other->lot == operation->lot)
            return true;
    }
    return false;
}

static struct listed list_pieces(struct arena *arena, const struct timetable *timetable,
                                 const struct timetable_batch *batch)
{
    struct listed listed = {ARENA_ARRAY(arena, batch->step_count, const struct operation *), 0};
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct operation *operation = operation_at(timetable, batch, i);
        if (operation->piece >= 0 && !is_turn(batch, operation) && !lists(&listed, operation))
            listed.items[listed.count++] = operation;
    }
    return listed;
}

/* Pieces from `from` on whose names count on, told alike. */
static size_t alike_from(struct arena *arena, const struct timetable *timetable,
                         const struct timetable_batch *batch, const struct listed *listed, size_t from)
{
    const char *details = details_of(arena, timetable, batch, listed->items[from]);
    size_t count = 1;
    for (; from + count < listed->count; count++) {
        const struct operation *before = listed->items[from + count - 1], *next = listed->items[from + count];
        if (!names_count_on(name_of(before), name_of(next)) || before->side != next->side ||
            strcmp(details, details_of(arena, timetable, batch, next)) != 0)
            break;
    }
    return count;
}

const char *batch_pieces(struct arena *arena, const struct timetable *timetable,
                         const struct timetable_batch *batch, size_t width)
{
    struct listed listed = list_pieces(arena, timetable, batch);
    const char *before = "";
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0, count; i < listed.count; i += count) {
        const struct operation *first = listed.items[i];
        count = alike_from(arena, timetable, batch, &listed, i);
        const char *name = names_span(arena, name_of(first), name_of(listed.items[i + count - 1]));
        size_t common = text.length ? text_common_words(before, name) : 0;
        const char *more = common && number_behind(name_of(first), common) >= 0 ? name + common : name;
        more = arena_textf(arena, "%s%s%s", more, details_of(arena, timetable, batch, first),
                           has_other(timetable, batch, first, true) ? "" : side_words(first));
        size_t left = listed.count - i - count;
        const char *rest = left ? arena_textf(arena, " and %zu more", left) : "";
        if (text.length && text_width(text.text) + 2 + text_width(more) + text_width(rest) > width) {
            buf_addf(&text, " and %zu more", left + count);
            break;
        }
        buf_addf(&text, "%s%s", text.length ? ", " : "", more);
        before = name;
    }
    return text.text;
}

size_t batch_piece_count(struct arena *arena, const struct timetable *timetable,
                         const struct timetable_batch *batch)
{
    bool *seen = ARENA_ARRAY(arena, timetable->job->piece_count, bool);
    size_t count = 0;
    for (size_t i = 0; i < batch->step_count; i++) {
        int piece = operation_at(timetable, batch, i)->piece;
        if (piece < 0 || seen[piece])
            continue;
        seen[piece] = true;
        count++;
    }
    return count;
}

static bool is_measured(const struct operation *operation)
{
    return operation->piece >= 0 && operation->doing != DO_FLIP && operation->doing != DO_MASK &&
           operation->doing != DO_TASK;
}

static const char *measure(struct arena *arena, bool coat, double amount, enum unit_system units)
{
    return arena_text(arena, coat ? volume_format(amount, units).text : area_format(amount, units).text);
}

const char *batch_amount(struct arena *arena, const struct timetable *timetable,
                         const struct timetable_batch *batch, enum unit_system units)
{
    bool coat = batch->first->doing == DO_APPLY;
    double amount = 0;
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct operation *operation = operation_at(timetable, batch, i);
        if (!is_measured(operation))
            continue;
        struct litres litres = {0};
        if (operation->doing == DO_APPLY)
            litres = plan_litres(timetable, (size_t)(operation - timetable->operations->items));
        amount += coat ? litres.likely + litres.thinner : pass_area_m2(&operation->pass);
    }
    return is_measured(batch->first) ? measure(arena, coat, amount, units) : "";
}

const char *batch_run_amount(struct arena *arena, const struct timetable *timetable,
                             const struct timetable_batch *batch, const struct batch_run *run,
                             enum unit_system units)
{
    const struct operation *first = work_of(timetable, batch, run, 0);
    bool coat = first->doing == DO_APPLY;
    if (!is_measured(first))
        return "";
    struct litres litres = {0};
    if (coat)
        litres = coat_litres(&first->pass, &first->of, false);
    double amount = coat ? litres.likely + litres.thinner : pass_area_m2(&first->pass);
    return arena_textf(arena, "%s%s", measure(arena, coat, amount, units), run->count > 1 ? " each" : "");
}

const char *batch_left_in_tool(struct arena *arena, const struct timetable *timetable,
                               const struct timetable_batch *batch, enum unit_system units)
{
    double left = 0;
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct operation *operation = operation_at(timetable, batch, i);
        if (operation->doing != DO_APPLY)
            continue;
        struct litres all = plan_litres(timetable, (size_t)(operation - timetable->operations->items));
        struct litres laid = coat_litres(&operation->pass, &operation->of, false);
        left += all.likely + all.thinner - laid.likely - laid.thinner;
    }
    if (left <= 0)
        return NULL;
    return arena_textf(arena, "%s stays in the %s", measure(arena, true, left, units),
                       operation_sprays(batch->first) ? "gun" : tool_name(batch->first->of.step->by));
}

const char *batch_run_words(struct arena *arena, const struct timetable *timetable,
                            const struct timetable_batch *batch, const struct batch_run *run)
{
    const struct operation *first = work_of(timetable, batch, run, 0);
    const char *turn = run->stride > 1 ? "flip, then" : "";
    if (first->doing != DO_APPLY)
        return first->doing == batch->first->doing ? "" : step_words(arena, first);
    if (!has_several(coats_of(timetable, batch)))
        return turn;
    return arena_textf(arena, "%s%scoat %d on", turn, *turn ? " " : "", first->of.of_finish);
}

const char *batch_run_line(struct arena *arena, const struct timetable *timetable,
                           const struct timetable_batch *batch, const struct batch_run *run,
                           enum unit_system units)
{
    const char *words = batch_run_words(arena, timetable, batch, run);
    const char *pieces = batch_run_pieces(arena, timetable, batch, run);
    const char *amount = batch_run_amount(arena, timetable, batch, run, units);
    int64_t start = timetable->steps[batch->steps[run->first]].start_min;
    return arena_textf(arena, "%s%s%s%s%s%s%s", moment_format(timetable->job->zone, start, MOMENT_TIME).text,
                       *words ? " " : "", words, *pieces ? " " : "", pieces, *amount ? ", " : "", amount);
}

int64_t batch_pause_min(const struct timetable_batch *batch)
{
    int64_t pause = batch->pause_min;
    return pause < PAUSE_LEAST_MIN ? 0 : pause / PAUSE_LEAST_MIN * PAUSE_LEAST_MIN;
}

static void add_part(struct buf *text, const char *part)
{
    if (part && *part)
        buf_addf(text, "%s%s", text->length ? "; " : "", part);
}

/* Each warning once: with the first piece that it is of and how many more, where not all of them. */
static void add_warnings(struct buf *text, struct arena *arena, const struct timetable *timetable,
                         const struct timetable_batch *batch)
{
    const char **warnings = ARENA_ARRAY(arena, batch->step_count, const char *);
    for (size_t i = 0; i < batch->step_count; i++)
        warnings[i] = step_warning(arena, timetable, batch->steps[i]);
    for (size_t i = 0; i < batch->step_count; i++) {
        struct batch_run alone = {i, 1, 1};
        size_t same = 0;
        for (size_t k = i; warnings[i] && k < batch->step_count; k++)
            same += warnings[k] && strcmp(warnings[k], warnings[i]) == 0;
        const char *piece = batch_run_pieces(arena, timetable, batch, &alone);
        const char *more = same > 1 ? arena_textf(arena, " and %zu more", same - 1) : "";
        if (warnings[i] && same == batch->step_count)
            add_part(text, warnings[i]);
        else if (warnings[i])
            add_part(text, arena_textf(arena, "%s%s: %s", piece, more, warnings[i]));
        for (size_t k = i + 1; warnings[i] && k < batch->step_count; k++)
            if (warnings[k] && strcmp(warnings[k], warnings[i]) == 0)
                warnings[k] = NULL;
    }
}

/* The sections of every piece that has several, and when they are wiped off. */
static void add_sections(struct buf *text, struct arena *arena, const struct timetable *timetable,
                         const struct timetable_batch *batch, enum unit_system units)
{
    const char *wipe = NULL;
    struct buf list;
    buf_init(&list, arena);
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct operation *operation = operation_at(timetable, batch, i);
        struct batch_run alone = {i, 1, 1};
        if (!wipe_words(arena, operation))
            continue;
        wipe = wipe_words(arena, operation);
        if (batch->step_count > 1 && operation->detail.sections.count > 1)
            buf_addf(&list, "%s%s in %s", list.length ? ", " : "",
                     batch_run_pieces(arena, timetable, batch, &alone),
                     sections_words(arena, operation, units));
        else if (batch->step_count == 1)
            buf_addf(&list, "%s", sections_words(arena, operation, units));
    }
    if (wipe)
        add_part(text,
                 arena_textf(arena, "%s%s%s", list.text, list.length ? ", each " : "each piece ", wipe));
}

const char *batch_note(struct arena *arena, const struct timetable *timetable,
                       const struct timetable_batch *batch, enum unit_system units)
{
    int64_t pause = batch_pause_min(batch);
    struct buf text;
    buf_init(&text, arena);
    if (pause)
        buf_addf(&text, "until %s, with a pause of %s",
                 moment_format(timetable->job->zone, batch->end_min, MOMENT_TIME).text,
                 span_format(pause).text);
    add_sections(&text, arena, timetable, batch, units);
    add_warnings(&text, arena, timetable, batch);
    return text.length ? text.text : NULL;
}

int64_t batch_must_begin(const struct timetable *timetable, const struct timetable_batch *batch, size_t *at)
{
    int64_t first = INT64_MAX;
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[batch->steps[i]];
        for (size_t k = 0; k < step->after_count; k++)
            if (step->after[k].max_until < first) {
                first = step->after[k].max_until;
                *at = i;
            }
    }
    return first != INT64_MAX && first - batch->start_min <= BATCH_WATCHED_MIN ? first : INT64_MAX;
}

const char *batch_window_words(struct arena *arena, const struct timetable *timetable,
                               const struct timetable_batch *batch)
{
    size_t at = 0;
    int64_t until = batch_must_begin(timetable, batch, &at);
    struct batch_run run = {at, 1, 1};
    if (until == INT64_MAX)
        return NULL;
    const char *piece = batch->step_count > 1 ? batch_run_pieces(arena, timetable, batch, &run) : "";
    return arena_textf(arena, "begin %s%sbefore %s", piece, *piece ? " " : "",
                       moment_words(arena, timetable->job, until));
}

const char *batch_person(struct arena *arena, const struct timetable *timetable,
                         const struct timetable_batch *batch)
{
    const struct shop *shop = &timetable->job->shop;
    const char *person = person_name(arena, shop, batch->person);
    return batch->helper > 0
               ? arena_textf(arena, "%s and %s", person, person_name(arena, shop, batch->helper))
               : person;
}

const struct mix_card *batch_card(const struct plan *plan, const struct timetable_batch *batch,
                                  const struct mix_card *after)
{
    for (size_t i = after ? (size_t)(after - plan->mixes->items) + 1 : 0; i < plan->mixes->count; i++)
        for (size_t k = 0; k < batch->step_count; k++)
            if (operation_at(plan->timetable, batch, k)->id == plan->mixes->items[i].step_id)
                return &plan->mixes->items[i];
    return NULL;
}

const char *card_words(struct arena *arena, const struct plan *plan, const struct mix_card *card,
                       enum unit_system units)
{
    const struct zone *zone = plan->job->zone;
    const char *volume = arena_text(arena, volume_format(card->volume_l, units).text);
    const char *at = arena_text(arena, moment_format(zone, card->mixed_at_min, MOMENT_TIME).text);
    const char *life = "";
    if (card->pot_life_ends_min != INT64_MAX)
        life = arena_textf(arena, ", apply by %s, pot life ends %s",
                           moment_format(zone, card->apply_by_min, MOMENT_TIME).text,
                           moment_format(zone, card->pot_life_ends_min, MOMENT_TIME).text);
    return arena_textf(arena, "mix %d of %d at %s: %s%s", card->number, card->of, at, volume, life);
}
