/* Into how many lots each piece is divided before its work is laid out. */
#include "timetable/lot.h"

#include "base/arena.h"
#include "base/err.h"
#include "timetable/facts.h"
#include "timetable/hours.h"
#include "timetable/lay.h"
#include "timetable/work.h"

#include <string.h>

enum { ROUNDS = 12, DAYS_SEEN = 21 };

static int parts_of(const struct job *job, size_t piece)
{
    size_t parts = piece_parts(job, piece);
    return parts < 1 ? 1 : parts > 100000 ? 100000 : (int)parts;
}

static bool rack_takes(struct arena *arena, const struct job *job, const struct surfaces *surfaces,
                       size_t piece, int lots)
{
    for (int number = 1; number <= lots; number++) {
        struct part_run run = {0, 0};
        if (lots > 1)
            run = lot_run(arena, job, surfaces, piece, number, lots);
        if (lot_rack_m2(job, surfaces, piece, run) > job->shop.rack_m2 + 1e-9)
            return false;
    }
    return true;
}

/* As few as the rack takes; where it takes no single part one lot, which is then found impossible. */
static int lots_for_rack(struct arena *arena, const struct job *job, const struct surfaces *surfaces,
                         size_t piece, int lots)
{
    int parts = parts_of(job, piece);
    for (int n = lots; n <= parts && job->shop.rack_m2 >= 0; n++)
        if (rack_takes(arena, job, surfaces, piece, n))
            return n;
    return lots;
}

static bool fits_a_day(const struct site *site, size_t item)
{
    int items[] = {(int)item};
    const struct kind *kind = &site->kinds[site->rows[item].kind];
    bool anybody = false;
    for (int person = 0; person < site->crew->count; person++) {
        struct batch batch = {
            .kind = site->rows[item].kind, .person = person, .helper = SITE_NONE, .items = items, .count = 1};
        if (!worker_can(&site->crew->workers[person], kind->needs))
            continue;
        anybody = true;
        if (lay_may_fit(site, &batch))
            return true;
    }
    return !anybody;
}

/* Where part of the parts was done ahead of the others they stay apart; else as the piece says. */
static int lots_fixed(struct arena *arena, const struct job *job, size_t piece)
{
    size_t *cuts, count = facts_cuts(arena, job, piece, piece_parts(job, piece), &cuts);
    return count > 0 ? (int)count + 1 : job->pieces[piece].lots;
}

/* One lot more for each piece of which something fits no day; false: everything fits, or nothing can be divided. */
static bool divide_long(struct arena *arena, const struct job *job, const struct site *site, int *lots)
{
    bool more = false;
    for (size_t i = 0; i < site->count; i++) {
        int piece = site->rows[i].operation->piece;
        if (piece < 0 || fits_a_day(site, i) || lots_fixed(arena, job, (size_t)piece) > 0)
            continue;
        if (site->rows[i].operation->lots == lots[piece] && lots[piece] < parts_of(job, (size_t)piece)) {
            lots[piece]++;
            more = true;
        }
    }
    return more;
}

int *lots_least(struct arena *arena, const struct job *job, const struct surfaces *surfaces,
                struct shop_limits limits)
{
    int *lots = ARENA_ARRAY(arena, job->piece_count, int);
    for (size_t i = 0; i < job->piece_count; i++) {
        int asked = lots_fixed(arena, job, i), parts = parts_of(job, i);
        lots[i] = asked > 0 ? (asked < parts ? asked : parts) : lots_for_rack(arena, job, surfaces, i, 1);
    }
    for (int round = 0; round < ROUNDS; round++) {
        struct err_list *errors = ARENA_NEW(arena, struct err_list);
        const struct operations *operations = operations_make(arena, job, surfaces, limits, lots, errors);
        if (!operations || operations->count == 0)
            break;
        const struct site *site =
            site_make(arena, operations, job->start_min / SLOT_MIN * SLOT_MIN, DAYS_SEEN * DAY_MINUTES);
        if (!divide_long(arena, job, site, lots))
            break;
    }
    return lots;
}

bool lots_raise(struct arena *arena, const struct job *job, const int *least, int most, int *lots)
{
    bool raised = false;
    for (size_t i = 0; i < job->piece_count; i++) {
        int parts = parts_of(job, i), wanted = most < parts ? most : parts;
        lots[i] = lots_fixed(arena, job, i) > 0 || wanted <= least[i] ? least[i] : wanted;
        raised |= lots[i] > least[i];
    }
    return raised;
}
