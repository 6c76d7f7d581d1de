#include "timetable/site.h"

#include "base/arena.h"
#include "timetable/lot.h"

#include <math.h>
#include <string.h>

enum { RACK_UNITS_PER_M2 = 10000 };

int64_t site_moment(const struct site *site, int32_t minute)
{
    return site->crew->origin_min + minute;
}

int32_t site_minute(const struct site *site, int64_t moment)
{
    int64_t minute = moment - site->crew->origin_min;
    return moment == INT64_MAX || minute > SITE_NEVER ? SITE_NEVER : minute < 0 ? 0 : (int32_t)minute;
}

bool site_link_is_limit(const struct link *link)
{
    return link->kind == LINK_WINDOW || link->kind == LINK_POLISH;
}

static int32_t next_day(const struct site *site, int32_t minute)
{
    int64_t day = zone_day(site->zone, site_moment(site, minute), NULL);
    return site_minute(site, zone_moment_on(site->zone, day + 1, 0));
}

int32_t site_link(const struct site *site, const struct link *link, int32_t start, int32_t end)
{
    switch (link->kind) {
    case LINK_END:
    case LINK_POLISH:
        return end + link->span_min;
    case LINK_STATE:
        return site_state(site, link->from, end, link->state);
    case LINK_WINDOW:
        return site_window(site, link->from, end);
    case LINK_DAY:
        return next_day(site, start);
    }
    return end;
}

int32_t site_line(const struct site *site, const struct finish_line *line, int32_t end)
{
    return line->is_state ? site_state(site, line->operation, end, line->state) : end + line->span_min;
}

/* Working times of hot hours are cut to whole minutes. */
static int32_t minutes_down(double minutes)
{
    return minutes >= SITE_NEVER ? INT32_MAX : minutes <= 1 ? 1 : (int32_t)minutes;
}

static struct kind kind_of(const struct shop *shop, const struct operation *operation)
{
    struct kind kind = {.work = operation->work,
                        .needs = operation_needs(operation),
                        .rest = INT32_MAX,
                        .working = INT32_MAX,
                        .pot_life = INT32_MAX,
                        .dry = operation_is_dry(operation),
                        .mixed = operation_is_mixed(operation)};
    if (operation->doing == DO_TASK)
        kind.rest = 0;
    if (operation->doing == DO_APPLY) {
        const struct finish *finish = operation->of.step->finish;
        kind.two_part = finish->component_count > 1;
        kind.sprays = operation_sprays(operation);
        kind.rest = shop->rest_min[operation->work];
        kind.induction = kind.mixed ? finish->induction_min : 0;
        bool dead = operation->detail.pot_dead; /* told with the mix; planned as one that lives */
        kind.working = kind.mixed && !dead ? minutes_down(operation->working_min) : INT32_MAX;
        kind.pot_life = kind.two_part && !dead ? minutes_down(operation->pot_life_min) : INT32_MAX;
    }
    if (operation->work >= 0) {
        kind.set_up = units_set_up_min(shop, operation->work);
        kind.clean_up = units_clean_up_min(shop, operation->work, kind.two_part);
    }
    return kind;
}

int site_turned_for(const struct site *site, int flip)
{
    const struct operation *turn = site->rows[flip].operation;
    size_t next = (size_t)flip + 1;
    if (turn->doing != DO_FLIP || turn->people > 1)
        return SITE_NONE;
    while (next < site->count && site->rows[next].optional)
        next++;
    if (next == site->count || site->rows[next].job != site->rows[flip].job)
        return SITE_NONE;
    const struct operation *coat = site->rows[next].operation;
    return coat->chain == turn->chain && coat->doing == DO_APPLY ? (int)next : SITE_NONE;
}

bool site_may_be_at_once(const struct site *site, int kind, int other)
{
    const struct crew *crew = site->crew;
    for (int p = 0; p < crew->count; p++)
        for (int q = 0; q < crew->count; q++)
            if (p != q && worker_can(&crew->workers[p], site->kinds[kind].needs) &&
                worker_can(&crew->workers[q], site->kinds[other].needs))
                return true;
    return false;
}

/* What is sanded and scuffed with one grit is one kind, whatever it is set up for. */
static void join_kind(struct site *site, int index, const struct operation *operation)
{
    struct kind *kind = &site->kinds[index];
    struct kind other = kind_of(site->shop, operation);
    kind->unlike |= kind->set_up != other.set_up || kind->clean_up != other.clean_up;
    kind->set_up = kind->set_up < other.set_up ? kind->set_up : other.set_up;
    kind->clean_up = kind->clean_up < other.clean_up ? kind->clean_up : other.clean_up;
    kind->needs &= other.needs;
    kind->work = kind->work > other.work ? other.work : kind->work;
    kind->working = kind->working < other.working ? kind->working : other.working;
    kind->pot_life = kind->pot_life < other.pot_life ? kind->pot_life : other.pot_life;
}

static int find_kind(struct site *site, const int *first_of_kind, const struct operation *operation)
{
    for (size_t k = 0; k < site->kind_count; k++)
        if (operation_same_kind(site->rows[first_of_kind[k]].operation, operation)) {
            join_kind(site, (int)k, operation);
            return (int)k;
        }
    site->kinds[site->kind_count] = kind_of(site->shop, operation);
    return (int)site->kind_count++;
}

static int job_number(struct site *site, const struct job *job)
{
    int j = 0;
    while (j < site->job_count && site->jobs[j].job != job)
        j++;
    int64_t from = job->now_min > job->start_min ? job->now_min : job->start_min;
    if (j == site->job_count)
        site->jobs[site->job_count++] =
            (struct site_job){job, site_minute(site, job->deliver_min),
                              site_minute(site, job_aims_at_min(job)), 0, site_minute(site, from)};
    return j;
}

/* Operations of a lot follow one another. */
static int lot_number(struct site *site, size_t i)
{
    if (i > 0 && operation_same_lot(site->rows[i - 1].operation, site->rows[i].operation))
        return site->rows[i - 1].lot;
    return site->lot_count++;
}

static int32_t rack_of(const struct site *site, const struct operation *operation)
{
    if (site->rack < 0 || operation->doing != DO_APPLY)
        return 0;
    double m2 =
        lot_rack_m2(operation->job, operation->pass.surfaces, (size_t)operation->piece, operation->pass.lot);
    return (int32_t)ceil(m2 * RACK_UNITS_PER_M2 - 1e-6);
}

void site_find_lots(struct site *site)
{
    for (size_t i = 0; i < site->count; i++)
        site->rows[i].lot_from =
            i > 0 && site->rows[i - 1].lot == site->rows[i].lot ? site->rows[i - 1].lot_from : i;
    for (size_t i = site->count; i-- > 0;)
        site->rows[i].lot_to = i + 1 < site->count && site->rows[i + 1].lot == site->rows[i].lot
                                   ? site->rows[i + 1].lot_to
                                   : i + 1;
}

static void fill_rows(struct site *site)
{
    int *first_of_kind = ARENA_ARRAY(site->arena, site->count, int);
    for (size_t i = 0; i < site->count; i++) {
        const struct operation *operation = &site->operations->items[i];
        struct task_row *row = &site->rows[i];
        row->operation = operation;
        size_t before = site->kind_count;
        row->kind = find_kind(site, first_of_kind, operation);
        if (site->kind_count > before)
            first_of_kind[row->kind] = (int)i;
        if (operation->doing == DO_APPLY)
            site_fill_film(site, i);
        row->lot = lot_number(site, i);
        row->job = job_number(site, operation->job);
        row->release = site_minute(site, operation_release_min(operation));
        row->latest = site_minute(site, operation->latest_min);
        row->rack = rack_of(site, operation);
        row->line = SITE_NONE;
        struct kind own = kind_of(site->shop, operation);
        row->set_up = own.set_up;
        row->clean_up = own.clean_up;
    }
    site_find_lots(site);
}

/* The number of the lot that a film is on; a new one where nothing of the lot is left to be done. */
static int lot_of_fact(struct site *site, const struct operation *operation)
{
    for (size_t i = 0; i < site->count; i++)
        if (operation_same_lot(site->rows[i].operation, operation))
            return site->rows[i].lot;
    return site->lot_count++;
}

static void fill_facts(struct site *site)
{
    const struct operations *operations = site->operations;
    site->lying = ARENA_ARRAY(site->arena, operations->fact_count + 1, struct lying);
    for (size_t i = 0; i < operations->fact_count; i++) {
        const struct fact *fact = &operations->facts[i];
        struct site_job *job = &site->jobs[job_number(site, fact->operation.job)];
        int32_t ready = fact->ready_min == INT64_MIN ? 0 : site_minute(site, fact->ready_min);
        job->floor = ready > job->floor ? ready : job->floor;
        if (!fact->entry || fact->operation.doing != DO_APPLY ||
            fact->state_min[STATE_HANDLE] <= fact->operation.job->now_min)
            continue;
        site->lying[site->lying_count++] = (struct lying){
            lot_of_fact(site, &fact->operation), site_minute(site, fact->state_min[STATE_HANDLE]),
            site_minute(site, fact->state_min[STATE_DUST_FREE]), rack_of(site, &fact->operation)};
    }
}

static void fill_lines(struct site *site)
{
    const struct operations *operations = site->operations;
    site->next_line = ARENA_ARRAY(site->arena, operations->line_count, int);
    for (size_t i = operations->line_count; i > 0; i--) {
        struct task_row *row = &site->rows[operations->lines[i - 1].operation];
        site->next_line[i - 1] = row->line;
        row->line = (int)i - 1;
    }
}

static void fill_links(struct site *site)
{
    const struct operations *operations = site->operations;
    int *numbers = ARENA_ARRAY(site->arena, 2 * operations->link_count, int);
    for (size_t i = 0; i < operations->link_count; i++) {
        site->rows[operations->links[i].to].in_count++;
        site->rows[operations->links[i].from].out_count++;
    }
    int *next = numbers;
    for (size_t i = 0; i < site->count; i++) {
        struct task_row *row = &site->rows[i];
        row->in = next;
        row->out = next + row->in_count;
        next += row->in_count + row->out_count;
        row->in_count = row->out_count = 0;
    }
    for (size_t i = 0; i < operations->link_count; i++) {
        struct task_row *to = &site->rows[operations->links[i].to];
        struct task_row *from = &site->rows[operations->links[i].from];
        numbers[(to->in - numbers) + (ptrdiff_t)to->in_count++] = (int)i;
        numbers[(from->out - numbers) + (ptrdiff_t)from->out_count++] = (int)i;
    }
}

static int32_t link_guess(const struct site *site, const struct link *link)
{
    const struct operation *from = site->rows[link->from].operation;
    int64_t wait = from->minutes;
    if (link->kind == LINK_STATE)
        wait += operation_state_min(from, link->state);
    else if (link->kind == LINK_DAY)
        wait = DAY_MINUTES;
    else
        wait += link->span_min;
    return wait > SITE_NEVER / 8 ? SITE_NEVER / 8 : (int32_t)wait;
}

static int32_t line_guess(const struct site *site, const struct finish_line *line)
{
    const struct operation *operation = site->rows[line->operation].operation;
    int64_t wait = line->is_state ? operation_state_min(operation, line->state) : line->span_min;
    return wait > SITE_NEVER / 8 ? SITE_NEVER / 8 : (int32_t)wait + operation->minutes;
}

/* The longest way to the end, by times at reference air. Links mostly point forward: few rounds settle it. */
static void fill_tails(struct site *site)
{
    const struct operations *operations = site->operations;
    site->tail = ARENA_ARRAY(site->arena, site->count, int32_t);
    for (size_t i = 0; i < site->count; i++)
        site->tail[i] = site->rows[i].operation->minutes;
    for (size_t i = 0; i < operations->line_count; i++) {
        int32_t end = line_guess(site, &operations->lines[i]),
                *tail = &site->tail[operations->lines[i].operation];
        *tail = end > *tail ? end : *tail;
    }
    bool moved = true;
    for (int round = 0; round < 50 && moved; round++) {
        moved = false;
        for (size_t i = operations->link_count; i > 0; i--) {
            const struct link *link = &operations->links[i - 1];
            if (site_link_is_limit(link))
                continue;
            int32_t tail = site->tail[link->to] + link_guess(site, link);
            if (tail > site->tail[link->from]) {
                site->tail[link->from] = tail;
                moved = true;
            }
        }
    }
}

/* 0 where somebody works beyond midnight, a day where it is more. */
static int32_t night_of(const struct site *site)
{
    const struct crew *crew = site->crew;
    int32_t night = DAY_MINUTES;
    for (int p = 0; p < crew->count; p++)
        for (size_t i = 0; i < crew->workers[p].duty_count; i++) {
            const struct duty *duty = &crew->workers[p].duties[i];
            if (duty->to > next_day(site, duty->from))
                return 0;
            for (int q = 0; q < crew->count; q++) {
                const struct worker *other = &crew->workers[q];
                size_t next = crew_duty_at(other, duty->to);
                while (next < other->duty_count && other->duties[next].day <= duty->day)
                    next++;
                if (next < other->duty_count && other->duties[next].from - duty->to < night)
                    night = other->duties[next].from - duty->to;
            }
        }
    return night < 0 ? 0 : night;
}

/* Whether a batch of the kind may pause from one day to another. */
static bool lies_overnight(const struct site *site, const struct kind *kind)
{
    return kind->rest != INT32_MAX && kind->rest >= site->night;
}

int32_t site_link_least(const struct site *site, const struct link *link)
{
    switch (link->kind) {
    case LINK_END:
        return link->span_min;
    case LINK_STATE:
        return site_fastest(site, link->from, link->state);
    case LINK_DAY:
        return lies_overnight(site, &site->kinds[site->rows[link->from].kind]) ? 0 : site->night;
    default:
        return 0;
    }
}

struct site *site_make(struct arena *arena, const struct operations *operations, int64_t origin_min,
                       int32_t horizon)
{
    struct site *site = ARENA_NEW(arena, struct site);
    const struct shop *shop = &operations->job->shop;
    *site = (struct site){.arena = arena,
                          .operations = operations,
                          .shop = shop,
                          .zone = operations->job->zone,
                          .count = operations->count};
    site->crew = crew_make(arena, shop, site->zone, origin_min, horizon);
    site->rows = ARENA_ARRAY(arena, site->count, struct task_row);
    site->kinds = ARENA_ARRAY(arena, site->count, struct kind);
    site->films = ARENA_ARRAY(arena, site->count, struct film);
    site->jobs = ARENA_ARRAY(arena, site->count + operations->fact_count + 1, struct site_job);
    site->rack = shop->rack_m2 < 0 ? -1 : (int32_t)floor(shop->rack_m2 * RACK_UNITS_PER_M2 + 1e-6);
    site->settle = shop->dust_separate ? 0 : shop->settle_min;
    fill_rows(site);
    fill_facts(site);
    fill_lines(site);
    fill_links(site);
    fill_tails(site);
    site->night = night_of(site);
    site_find_optional(site);
    return site;
}
