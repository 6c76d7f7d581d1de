#include "timetable/lay.h"

#include <string.h>

int32_t lay_set_up(const struct site *site, const struct batch *batch)
{
    int32_t most = site->kinds[batch->kind].set_up;
    for (size_t i = 0; i < batch->count && site->kinds[batch->kind].unlike; i++) {
        int32_t own = site->rows[batch->items[i]].set_up;
        most = own > most ? own : most;
    }
    return most;
}

int32_t lay_clean_up(const struct site *site, const struct batch *batch)
{
    int32_t most = site->kinds[batch->kind].clean_up;
    for (size_t i = 0; i < batch->count && site->kinds[batch->kind].unlike; i++) {
        int32_t own = site->rows[batch->items[i]].clean_up;
        most = own > most ? own : most;
    }
    return most;
}

/* Where the hand is; all in seconds. */
struct hand {
    const struct kind *kind;
    const struct worker *worker;
    size_t duty, first_duty;
    int64_t at, worked;
    int64_t mixed_at, ready_at; /* of the mix in use: it is stirred, it may be applied; SITE_NONE: none */
    bool between_units;         /* only there may it pause */
    struct laying *laid;
    int64_t effort;
};

static int64_t seconds_of(int32_t minutes)
{
    return (int64_t)minutes * MINUTE_S;
}

/* What is told of a moment. */
static int32_t told(int64_t second)
{
    return (int32_t)((second + MINUTE_S - 1) / MINUTE_S);
}

static const struct duty *duty_of(const struct hand *hand)
{
    return &hand->worker->duties[hand->duty];
}

/* Whether the tool may lie from now until the next stretch begins. */
static bool may_rest(const struct hand *hand, const struct duty *next)
{
    const struct kind *kind = hand->kind;
    int64_t from = seconds_of(next->from);
    if (kind->rest == INT32_MAX)
        return next->day == duty_of(hand)->day;
    if (from - hand->at > seconds_of(kind->rest))
        return false;
    return hand->mixed_at == SITE_NONE || kind->pot_life == INT32_MAX ||
           from <= hand->mixed_at + seconds_of(kind->pot_life);
}

/* The second at which so much uninterrupted work can begin, moving on to a later stretch where the pause is allowed;
 * SITE_NONE: it cannot. The hand is not moved. */
static int64_t room_for(const struct hand *hand, int64_t seconds, size_t *duty)
{
    const struct worker *worker = hand->worker;
    int64_t at = hand->at;
    for (*duty = hand->duty; *duty < worker->duty_count; (*duty)++) {
        const struct duty *next = &worker->duties[*duty];
        if (*duty > hand->duty) {
            if (!hand->between_units || !may_rest(hand, next))
                return SITE_NONE;
            at = seconds_of(next->from);
        }
        if (at + seconds <= seconds_of(next->to))
            return at;
    }
    return SITE_NONE;
}

static bool take(struct hand *hand, int64_t seconds)
{
    size_t duty;
    int64_t at = room_for(hand, seconds, &duty);
    ++hand->effort;
    if (at == SITE_NONE)
        return false;
    hand->duty = duty;
    hand->at = at + seconds;
    hand->worked += seconds;
    return true;
}

static void note_mix(struct hand *hand, int64_t at)
{
    struct laying *laid = hand->laid;
    if (laid->mix && laid->mixes < laid->mix_room)
        laid->mix[laid->mixes] = (struct laid_mix){told(at), 0};
    laid->mixes++;
}

static void serve(struct hand *hand, int64_t seconds)
{
    struct laying *laid = hand->laid;
    if (laid->mix && laid->mixes > 0 && laid->mixes <= laid->mix_room)
        laid->mix[laid->mixes - 1].seconds += (int32_t)seconds;
}

/* How long a mix stands before it is used, where nothing else is done. The next mix stands while the one before is applied, but it is
 * stirred when the person is there: behind a break it stands for what has not passed since. */
static int64_t stands(const struct hand *hand)
{
    int64_t induction = seconds_of(hand->kind->induction);
    int64_t since = hand->at - seconds_of(duty_of(hand)->from);
    if (hand->laid->mixes == 0)
        return induction;
    return hand->duty > hand->first_duty && since < induction ? induction - since : 0;
}

/* Notes a mix by when it may be used. */
static void stir(struct hand *hand, int64_t ready_at)
{
    hand->ready_at = ready_at;
    hand->mixed_at = ready_at - seconds_of(hand->kind->induction);
    note_mix(hand, hand->mixed_at - seconds_of(MIXING_MIN));
}

/* A mix and the unit behind it go together; a unit longer than a mix can be worked has further mixes inside. */
static bool mix_and_unit(struct hand *hand, int64_t seconds, int64_t *began)
{
    const struct kind *kind = hand->kind;
    int64_t mixing = seconds_of(MIXING_MIN), working = seconds_of(kind->working),
            before = mixing + stands(hand);
    int64_t more = kind->working == INT32_MAX || seconds == 0 ? 0 : (seconds - 1) / working;
    if (hand->at + before + seconds + more * mixing > seconds_of(duty_of(hand)->to))
        before = mixing + seconds_of(kind->induction);
    if (!take(hand, before + seconds + more * mixing))
        return false;
    hand->between_units = true;
    *began = hand->at - seconds - more * mixing;
    stir(hand, *began);
    int64_t left = seconds;
    for (int64_t i = 0; i < more; i++) {
        serve(hand, working);
        left -= working;
        stir(hand, *began + (i + 1) * (working + mixing));
    }
    serve(hand, left);
    return true;
}

/* Whether the mix in use can be worked until the unit is done, wherever the person's stretches put it. */
static bool mix_lasts(const struct hand *hand, int64_t seconds)
{
    const struct kind *kind = hand->kind;
    size_t duty;
    if (hand->mixed_at == SITE_NONE)
        return false;
    if (kind->working == INT32_MAX)
        return true;
    int64_t at = room_for(hand, seconds, &duty);
    return at != SITE_NONE && at + seconds <= hand->ready_at + seconds_of(kind->working);
}

/* Parts that are turned over between coats take nothing of the mix. */
static bool takes_mix(const struct hand *hand, const struct operation *operation)
{
    return hand->kind->mixed && operation->doing == DO_APPLY;
}

static bool lay_unit(struct hand *hand, const struct operation *operation, int64_t seconds, int64_t *began)
{
    if (takes_mix(hand, operation) && !mix_lasts(hand, seconds))
        return mix_and_unit(hand, seconds, began);
    if (!take(hand, seconds))
        return false;
    hand->between_units = true;
    *began = hand->at - seconds;
    if (takes_mix(hand, operation))
        serve(hand, seconds);
    return true;
}

/* All of an item in one go, where neither a break nor the end of a mix is near. */
static bool lay_whole(struct hand *hand, const struct operation *operation, int64_t *began)
{
    int64_t seconds = operation->units.seconds;
    if (hand->at + seconds > seconds_of(duty_of(hand)->to))
        return false;
    if (takes_mix(hand, operation) && (hand->mixed_at == SITE_NONE || !mix_lasts(hand, seconds)))
        return false;
    *began = hand->at;
    take(hand, seconds);
    hand->between_units = true;
    if (takes_mix(hand, operation))
        serve(hand, seconds);
    return true;
}

static bool lay_item(struct hand *hand, const struct operation *operation, int32_t *start, int32_t *end)
{
    const struct units *units = &operation->units;
    int64_t first = hand->at, began;
    bool done = units->count == 0 || lay_whole(hand, operation, &first);
    for (size_t i = 0; i < units->count && !done; i++) {
        if (!lay_unit(hand, operation, units->ends_s[i] - (i > 0 ? units->ends_s[i - 1] : 0), &began))
            return false;
        first = i == 0 ? began : first;
    }
    *start = told(first);
    *end = told(hand->at);
    return true;
}

static bool set_up(struct hand *hand, int32_t minutes)
{
    return minutes == 0 || take(hand, seconds_of(minutes));
}

/* A gun is clean before the pot life of its last mix ends. */
static bool clean_up(struct hand *hand, int32_t minutes)
{
    const struct kind *kind = hand->kind;
    hand->between_units = false;
    if (minutes == 0)
        return true;
    if (!take(hand, seconds_of(minutes)))
        return false;
    return !kind->sprays || kind->pot_life == INT32_MAX || hand->mixed_at == SITE_NONE ||
           hand->at <= hand->mixed_at + seconds_of(kind->pot_life);
}

/* After a break that is longer than anything may lie the next stretch is the first that can serve, else five minutes later
 * may: less time lies between the last unit and the break. */
static int32_t again_from(const struct hand *hand, int32_t start)
{
    const struct worker *worker = hand->worker;
    if (hand->duty + 1 >= worker->duty_count)
        return SITE_NEVER;
    const struct duty *now = duty_of(hand), *next = now + 1;
    bool breaks =
        hand->kind->rest == INT32_MAX ? next->day != now->day : next->from - now->to > hand->kind->rest;
    return breaks ? next->from : start + GRID_MIN;
}

int32_t lay_on_duty(const struct site *site, const struct batch *batch, int32_t start)
{
    const struct worker *worker = &site->crew->workers[batch->person];
    int32_t minutes = lay_set_up(site, batch);
    for (size_t i = crew_duty_at(worker, start); i < worker->duty_count; i++) {
        int32_t at = start > worker->duties[i].from ? start : worker->duties[i].from;
        if (at + (minutes > 0 ? minutes : 1) <= worker->duties[i].to)
            return at;
    }
    return SITE_NEVER;
}

/* Set-up, item after item, clean-up; what was laid before it breaks stays told. */
static bool lay_all(struct hand *hand, const struct site *site, const struct batch *batch, int32_t *starts,
                    int32_t *ends)
{
    struct laying *laid = hand->laid;
    bool good = set_up(hand, lay_set_up(site, batch));
    for (size_t i = 0; good && i < batch->count; i++) {
        laid->broke_at = i;
        int item = batch->items[i];
        good = lay_item(hand, site->rows[item].operation, &starts[item], &ends[item]);
    }
    if (!good)
        return false;
    laid->broke_at = batch->count;
    laid->work_from = starts[batch->items[0]];
    laid->work_until = told(hand->at);
    return clean_up(hand, lay_clean_up(site, batch));
}

bool lay_batch(const struct site *site, const struct batch *batch, int32_t start, int32_t *starts,
               int32_t *ends, struct laying *laid)
{
    const struct worker *worker = &site->crew->workers[batch->person];
    *laid = (struct laying){.start = start, .mix = laid->mix, .mix_room = laid->mix_room};
    laid->again_from = lay_on_duty(site, batch, start);
    if (laid->again_from != start)
        return false;
    size_t duty = crew_duty_at(worker, start);
    struct hand hand = {.kind = &site->kinds[batch->kind],
                        .worker = worker,
                        .duty = duty,
                        .first_duty = duty,
                        .at = seconds_of(start),
                        .mixed_at = SITE_NONE,
                        .ready_at = SITE_NONE,
                        .laid = laid};
    bool good = lay_all(&hand, site, batch, starts, ends);
    laid->effort = hand.effort;
    laid->end = site_up(told(hand.at));
    laid->hands_on = told(hand.worked);
    laid->hands_on_s = (int32_t)hand.worked;
    if (!good)
        laid->again_from = again_from(&hand, start);
    return good;
}

bool lay_may_go_on(const struct kind *kind, const struct duty *duty)
{
    return kind->rest == INT32_MAX ? duty[-1].day == duty->day : duty->from - duty[-1].to <= kind->rest;
}

int32_t lay_least(const struct site *site, const struct batch *batch)
{
    const struct kind *kind = &site->kinds[batch->kind];
    int64_t units = 0;
    for (size_t i = 0; i < batch->count; i++)
        units += site->rows[batch->items[i]].operation->units.seconds;
    int64_t working = seconds_of(kind->working);
    int64_t mixes = !kind->mixed ? 0 : kind->working == INT32_MAX ? 1 : (units + working - 1) / working;
    int64_t all = units / MINUTE_S + lay_set_up(site, batch) + lay_clean_up(site, batch) + mixes * MIXING_MIN;
    return all > SITE_NEVER ? SITE_NEVER : (int32_t)all;
}

bool lay_may_fit(const struct site *site, const struct batch *batch)
{
    const struct worker *worker = &site->crew->workers[batch->person];
    const struct kind *kind = &site->kinds[batch->kind];
    int32_t least = lay_least(site, batch), run = 0;
    for (size_t i = 0; i < worker->duty_count; i++) {
        const struct duty *duty = &worker->duties[i];
        run = (i > 0 && lay_may_go_on(kind, duty) ? run : 0) + duty->to - duty->from;
        if (run >= least)
            return true;
    }
    return false;
}
