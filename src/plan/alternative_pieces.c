/* Pieces in more lots or in another position. */
#include "plan/alternative.h"

#include "amount/pass.h"
#include "base/arena.h"

#include <string.h>

enum { PIECES_TRIED = 2 };

/* A piece as the plan has it. */
struct candidate {
    size_t piece;
    int lots;
};

/* Those that fix the ready moment, in the order of the critical path; where there is no plan all that have work. */
static size_t candidates(const struct alternatives *all, struct candidate *to)
{
    const struct timetable *timetable = all->timetable;
    bool planned = timetable->status == TIMETABLE_PLANNED;
    size_t count = 0, seen = planned ? timetable->chain_count : all->operations->count;
    for (size_t i = 0; i < seen; i++) {
        const struct operation *operation =
            planned ? timetable->steps[timetable->chain[i]].operation : &all->operations->items[i];
        bool listed = operation->piece < 0;
        for (size_t k = 0; k < count && !listed; k++)
            listed = to[k].piece == (size_t)operation->piece;
        if (!listed)
            to[count++] = (struct candidate){(size_t)operation->piece, operation->lots};
    }
    return count;
}

static struct piece *copy_pieces(struct alternatives *all, struct job *job)
{
    struct piece *pieces = ARENA_ARRAY(all->arena, job->piece_count, struct piece);
    memcpy(pieces, job->pieces, job->piece_count * sizeof *pieces);
    job->pieces = pieces;
    return pieces;
}

static void add_lot(struct alternatives *all, struct candidate of)
{
    struct job job = *all->job;
    struct piece *piece = &copy_pieces(all, &job)[of.piece];
    piece->lots = of.lots + 1;
    alternatives_add_job(
        all, (struct change){.kind = ALTERNATIVE_LOTS, .piece = piece->name, .lots = piece->lots}, &job);
}

static void add_lots(struct alternatives *all, const struct candidate *of, size_t count)
{
    for (size_t i = 0, added = 0; i < count && added < PIECES_TRIED; i++)
        if (piece_parts(all->job, of[i].piece) > (size_t)of[i].lots) {
            add_lot(all, of[i]);
            added++;
        }
}

/* Whether another position changes anything: two sides take turns where a piece lies flat, and what does not hang is on the
 * rack. Nobody hangs what two people carry. */
static bool may_be(const struct alternatives *all, size_t index, enum position position)
{
    const struct piece *piece = &all->job->pieces[index];
    bool two_sides = piece_has_two_sides(all->job, all->operations->surfaces, index);
    bool rack = all->job->shop.rack_m2 >= 0 && piece->rack_m2 < 0;
    if (position == POSITION_HUNG)
        return piece->laid != LAID_HUNG && (two_sides || rack) && piece->lift < 2;
    if (position == POSITION_STANDING)
        return piece->laid == LAID_FLAT && (two_sides || rack);
    return two_sides && piece->flip != FLIP_NOW;
}

static void put(struct piece *piece, enum position position)
{
    if (position == POSITION_ON_POINTS) {
        piece->flip = FLIP_NOW;
        return;
    }
    piece->laid = position == POSITION_HUNG ? LAID_HUNG : LAID_STANDING;
    piece->laid_given = true;
    piece->flip = FLIP_BY_FINISH;
}

static void add_laid(struct alternatives *all, size_t index, enum position position)
{
    struct job job = *all->job;
    struct piece *piece = &copy_pieces(all, &job)[index];
    put(piece, position);
    alternatives_add_job(
        all, (struct change){.kind = ALTERNATIVE_LAID, .piece = piece->name, .position = position}, &job);
}

static void add_all_laid(struct alternatives *all, enum position position)
{
    struct job job = *all->job;
    struct piece *pieces = copy_pieces(all, &job);
    size_t changed = 0;
    for (size_t i = 0; i < job.piece_count; i++)
        if (may_be(all, i, position)) {
            put(&pieces[i], position);
            changed++;
        }
    if (changed > 1)
        alternatives_add_job(all, (struct change){.kind = ALTERNATIVE_LAID, .position = position}, &job);
}

void alternatives_add_pieces(struct alternatives *all)
{
    struct candidate *of = ARENA_ARRAY(all->arena, all->job->piece_count, struct candidate);
    size_t count = candidates(all, of);
    add_lots(all, of, count);
    for (int position = 0; position < POSITION_COUNT; position++)
        for (size_t i = 0, added = 0; i < count && added < PIECES_TRIED; i++)
            if (may_be(all, of[i].piece, (enum position)position)) {
                add_laid(all, of[i].piece, (enum position)position);
                added++;
            }
    for (int position = 0; position < POSITION_COUNT; position++)
        add_all_laid(all, (enum position)position);
}
