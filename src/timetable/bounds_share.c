/* Whether those who can do the work can be through with each operation by its last moment, if all of them could share it out and break
 * it off at will: whatever must be done by the soonest moment is done first (Horn, Naval Research Logistics Quarterly 21, 1974;
 * for one machine with heads and tails, Carlier, EJOR 11, 1982). */
#include "timetable/bounds_fit.h"

#include <stdlib.h>

enum { PEOPLE_SETS_MOST = 32 };

/* What can be done by then, the most urgent at the top of a heap. */
struct urgent {
    struct chore **items;
    size_t count;
};

static int rising(const void *a, const void *b)
{
    const struct chore *left = a, *right = b;
    return left->from < right->from ? -1 : left->from > right->from;
}

static void add_urgent(struct urgent *urgent, struct chore *chore)
{
    size_t at = urgent->count++;
    for (; at > 0 && urgent->items[(at - 1) / 2]->by > chore->by; at = (at - 1) / 2)
        urgent->items[at] = urgent->items[(at - 1) / 2];
    urgent->items[at] = chore;
}

static void take_most_urgent(struct urgent *urgent)
{
    struct chore *last = urgent->items[--urgent->count];
    size_t at = 0;
    for (size_t next; (next = 2 * at + 1) < urgent->count; at = next) {
        next += next + 1 < urgent->count && urgent->items[next + 1]->by < urgent->items[next]->by;
        if (urgent->items[next]->by >= last->by)
            break;
        urgent->items[at] = urgent->items[next];
    }
    urgent->items[at] = last;
}

/* How many of the people are there at a second, and until when nobody comes or goes; INT64_MAX: nobody does any more. */
static int64_t people_at(const struct crew *crew, unsigned people, size_t *duty, int64_t at, int64_t *until)
{
    int64_t there = 0;
    *until = INT64_MAX;
    for (int p = 0; p < crew->count; p++) {
        const struct worker *worker = &crew->workers[p];
        while (duty[p] < worker->duty_count && (int64_t)worker->duties[duty[p]].to * MINUTE_S <= at)
            duty[p]++;
        if (!(people >> p & 1) || duty[p] == worker->duty_count)
            continue;
        const struct duty *own = &worker->duties[duty[p]];
        bool is_there = (int64_t)own->from * MINUTE_S <= at;
        int64_t change = (int64_t)(is_there ? own->to : own->from) * MINUTE_S;
        there += is_there;
        *until = change < *until ? change : *until;
    }
    return there;
}

/* From a second until another, by so many people. False: something is not done in time. */
static bool work_on(struct urgent *urgent, int64_t people, int64_t at, int64_t until)
{
    int64_t room = (until - at) * people;
    while (people > 0 && urgent->count > 0 && urgent->items[0]->seconds <= room) {
        room -= urgent->items[0]->seconds;
        if (until - room / people > urgent->items[0]->by)
            return false;
        take_most_urgent(urgent);
    }
    if (urgent->count == 0)
        return true;
    urgent->items[0]->seconds -= room;
    return until < urgent->items[0]->by;
}

static bool are_done(const struct fitting *f, unsigned people, size_t count)
{
    size_t duty[PEOPLE_MOST] = {0}, begun = 0;
    struct urgent urgent = {f->urgent, 0};
    int64_t at = count > 0 ? f->chores[0].from : 0, until;
    while (begun < count || urgent.count > 0) {
        for (; begun < count && f->chores[begun].from <= at; begun++)
            add_urgent(&urgent, &f->chores[begun]);
        int64_t there = people_at(f->site->crew, people, duty, at, &until);
        if (begun < count && f->chores[begun].from < until)
            until = f->chores[begun].from;
        if (until == INT64_MAX)
            return urgent.items[0]->by == INT64_MAX;
        if (!work_on(&urgent, there, at, until))
            return false;
        at = until;
    }
    return true;
}

static unsigned who_can(const struct site *site, size_t kind)
{
    unsigned people = 0;
    for (int p = 0; p < site->crew->count; p++)
        people |= (unsigned)worker_can(&site->crew->workers[p], site->kinds[kind].needs) << p;
    return people;
}

static bool is_work(const struct fitting *f, int item)
{
    return !f->site->rows[item].optional && fitting_units(f, item) > 0;
}

static int64_t last_end(const struct fitting *f, int item)
{
    return f->last[item] >= SITE_NEVER ? INT64_MAX : (int64_t)f->last[item] * MINUTE_S;
}

static int64_t last_start(const struct fitting *f, int item)
{
    int64_t end = last_end(f, item);
    return end == INT64_MAX ? end : end - fitting_units(f, item);
}

static void lower(int64_t *value, int64_t to)
{
    *value = to < *value ? to : *value;
}

static void lift(int64_t *value, int64_t to)
{
    *value = to > *value ? to : *value;
}

/* When the tool must be clean for what waits for an item and is set up behind it. */
static int64_t clean_by(const struct fitting *f, int item)
{
    const struct site *site = f->site;
    const struct task_row *row = &site->rows[item];
    int64_t by = INT64_MAX;
    for (size_t k = 0; k < row->out_count; k++) {
        const struct link *link = &site->operations->links[row->out[k]];
        int64_t begins = is_work(f, link->to) ? last_start(f, link->to) : INT64_MAX;
        if (begins < INT64_MAX && !site_link_is_limit(link) && bounds_is_over_before(site, item, link->to))
            lower(&by,
                  begins - (int64_t)bounds_before_units(&site->kinds[site->rows[link->to].kind]) * MINUTE_S);
    }
    return by;
}

/* A batch of which some items are known. It is set up behind the moment before which nobody may for any of them, and before each
 * of them; its tool is cleaned behind each. */
struct frame {
    size_t items;
    int64_t from, by, over, clean_by;
};

static void frame_add(const struct fitting *f, int item, struct frame *frame)
{
    if (frame->items++ == 0)
        *frame = (struct frame){1, 0, INT64_MAX, 0, INT64_MAX};
    lift(&frame->from, (int64_t)f->set_up[item] * MINUTE_S);
    lower(&frame->by, last_start(f, item));
    lift(&frame->over, fitting_second(f->start[item]) + fitting_units(f, item));
    lower(&frame->clean_by, clean_by(f, item));
}

/* What the people have to do. */
struct duties {
    const struct fitting *f;
    size_t count;
};

static void add_chore(struct duties *duties, int64_t from, int64_t by, int64_t seconds)
{
    if (seconds > 0)
        duties->f->chores[duties->count++] = (struct chore){from, by, seconds};
}

static void add_frame(struct duties *duties, size_t kind, const struct frame *frame)
{
    const struct kind *own = &duties->f->site->kinds[kind];
    if (frame->items == 0)
        return;
    add_chore(duties, frame->from, frame->by, (int64_t)bounds_before_units(own) * MINUTE_S);
    if (frame->clean_by < INT64_MAX)
        add_chore(duties, frame->over, frame->clean_by, (int64_t)own->clean_up * MINUTE_S);
}

/* Where it is known which batch holds what. */
static void add_groups(struct duties *duties, size_t kind, int groups)
{
    const struct fitting *f = duties->f;
    for (int group = 0; group < groups; group++) {
        struct frame frame = {0};
        for (size_t i = 0; i < f->site->count; i++)
            if (f->site->rows[i].kind == (int)kind && f->c->group[i] == group && is_work(f, (int)i))
                frame_add(f, (int)i, &frame);
        add_frame(duties, kind, &frame);
    }
}

/* Each that leads a row has a batch of its own; two that share one have it together. */
static void add_leads(struct duties *duties, size_t kind, const struct two *two)
{
    const struct fitting *f = duties->f;
    struct frame both = {0};
    for (size_t i = 0; i < f->site->count; i++) {
        struct frame own = {0};
        bool shares = two && ((int)i == two->items[0] || (int)i == two->items[1]);
        if (f->site->rows[i].kind != (int)kind || !is_work(f, (int)i) || !(shares || f->c->leads[i]))
            continue;
        frame_add(f, (int)i, shares ? &both : &own);
        add_frame(duties, kind, &own);
    }
    add_frame(duties, kind, &both);
}

static bool is_within(unsigned people, unsigned others)
{
    return (people & ~others) == 0;
}

/* What only these people can do: the work, and what is known of its batches. */
static size_t gather(const struct fitting *f, unsigned people, const struct tally *tallies,
                     const struct few *few, const struct two *two)
{
    const struct site *site = f->site;
    struct duties duties = {f, 0};
    for (size_t k = 0; k < site->kind_count; k++) {
        int groups = few && few->is[k] ? kind_groups(f->c, &tallies[k]) : 0;
        if (!is_within(who_can(site, k), people))
            continue;
        if (groups > 0)
            add_groups(&duties, k, groups);
        else
            add_leads(&duties, k, two);
    }
    for (size_t i = 0; i < site->count; i++)
        if (is_work(f, (int)i) && is_within(who_can(site, (size_t)site->rows[i].kind), people))
            add_chore(&duties, fitting_second(f->start[i]), last_end(f, (int)i),
                      fitting_units(f, (int)i) * bounds_hands(site, i));
    qsort(f->chores, duties.count, sizeof *f->chores, rising);
    return duties.count;
}

bool share_fits(const struct fitting *f, const struct tally *tallies, const struct few *few,
                const struct two *two)
{
    const struct site *site = f->site;
    unsigned seen[PEOPLE_SETS_MOST];
    size_t sets = 0;
    for (size_t k = 0; k < site->kind_count && sets < PEOPLE_SETS_MOST; k++) {
        unsigned people = who_can(site, k);
        bool again = people == 0;
        for (size_t i = 0; i < sets; i++)
            again |= seen[i] == people;
        if (again)
            continue;
        seen[sets++] = people;
        if (!are_done(f, people, gather(f, people, tallies, few, two)))
            return false;
    }
    return true;
}
