/* The rows of a drawn timetable: lanes that are worked on alike stand in one. */
#include "report/drawing_parts.h"

#include "base/arena.h"
#include "base/text.h"

#include <string.h>

/* The steps of every lane, in the order of time. */
struct lane_steps {
    size_t *items;
    size_t *first; /* per lane, and one behind the last */
};

struct rowing {
    struct arena *arena;
    const struct timetable *timetable;
    const struct hours *hours;
    struct lanes lanes;
    struct lane_steps steps;
    size_t *wait_of; /* per step; SIZE_MAX: none */
    bool *critical;  /* per step */
    struct picture_rows *rows;
};

static struct lane_steps sort_steps(struct arena *arena, const struct lanes *lanes, size_t count)
{
    struct lane_steps steps = {ARENA_ARRAY(arena, count, size_t),
                               ARENA_ARRAY(arena, lanes->count + 2, size_t)};
    for (size_t i = 0; i < count; i++)
        steps.first[lanes->of_step[i] + 2]++;
    for (size_t lane = 2; lane < lanes->count + 2; lane++)
        steps.first[lane] += steps.first[lane - 1];
    for (size_t i = 0; i < count; i++)
        steps.items[steps.first[lanes->of_step[i] + 1]++] = i;
    return steps;
}

static size_t steps_of(const struct rowing *r, size_t lane, const size_t **steps)
{
    *steps = r->steps.items + r->steps.first[lane];
    return r->steps.first[lane + 1] - r->steps.first[lane];
}

/* The stretch of work in which a moment lies, counted. */
static size_t stretch_of(const struct rowing *r, int64_t minute)
{
    size_t i = 0;
    while (i < r->hours->count && hours_moment(r->hours, r->hours->stretches[i].from) <= minute)
        i++;
    return i;
}

static bool same_step(const struct rowing *r, size_t a, size_t b)
{
    const struct timetable_step *left = &r->timetable->steps[a], *right = &r->timetable->steps[b];
    return step_mark(left->operation) == step_mark(right->operation) &&
           left->operation->side == right->operation->side &&
           stretch_of(r, left->start_min) == stretch_of(r, right->start_min) &&
           (r->wait_of[a] == SIZE_MAX) == (r->wait_of[b] == SIZE_MAX);
}

static bool alike(const struct rowing *r, size_t a, size_t b)
{
    const struct lane *left = &r->lanes.items[a], *right = &r->lanes.items[b];
    const size_t *of_a, *of_b;
    size_t count = steps_of(r, a, &of_a);
    if (!left->schedule || !right->schedule || strcmp(left->schedule, right->schedule) != 0 || !left->alone ||
        !right->alone || text_common_words(left->name, right->name) == 0 || steps_of(r, b, &of_b) != count)
        return false;
    for (size_t k = 0; k < count; k++)
        if (!same_step(r, of_a[k], of_b[k]))
            return false;
    return true;
}

static int64_t least(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

static int64_t most(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

/* The k-th step of the lanes of a row, and its film. */
static void add_bar(struct rowing *r, size_t row, size_t lane, size_t lanes, size_t k)
{
    const size_t *steps;
    steps_of(r, lane, &steps);
    struct picture_bar bar = {row, steps[k], INT64_MAX, INT64_MIN, false};
    struct picture_film film = {row, r->wait_of[steps[k]], INT64_MAX, INT64_MIN, INT64_MAX};
    for (size_t i = lane; i < lane + lanes; i++) {
        steps_of(r, i, &steps);
        const struct timetable_step *step = &r->timetable->steps[steps[k]];
        bar.from_min = least(bar.from_min, step->start_min);
        bar.to_min = most(bar.to_min, step->end_min);
        bar.critical |= r->critical[steps[k]];
        if (film.wait == SIZE_MAX)
            continue;
        const struct drying_wait *wait = &r->timetable->waits[r->wait_of[steps[k]]];
        film.from_min = least(film.from_min, wait->from_min);
        film.until_min = most(film.until_min, wait->until_min);
        film.window_min = least(film.window_min, wait->window_min);
    }
    r->rows->bars[r->rows->bar_count++] = bar;
    if (film.wait != SIZE_MAX)
        r->rows->films[r->rows->film_count++] = film;
}

static void add_row(struct rowing *r, size_t lane, size_t lanes)
{
    const struct lane *first = &r->lanes.items[lane], *last = &r->lanes.items[lane + lanes - 1];
    const size_t *steps;
    size_t row = r->rows->count++;
    const char *name = first->name;
    if (lanes > 1)
        name = arena_textf(r->arena, "%s to %s", first->name,
                           last->name + text_common_words(first->name, last->name));
    r->rows->items[row] = (struct picture_row){first, lanes, name, first->first};
    for (size_t k = 0; k < steps_of(r, lane, &steps); k++)
        add_bar(r, row, lane, lanes, k);
    for (size_t i = lane; i < lane + lanes; i++)
        for (size_t k = 0; k < steps_of(r, i, &steps); k++)
            r->rows->of_step[steps[k]] = row;
}

struct picture_rows picture_rows_make(struct arena *arena, const struct timetable *timetable,
                                      const struct shown_days *days)
{
    size_t count = timetable->step_count;
    struct picture_rows rows = {.bars = ARENA_ARRAY(arena, count, struct picture_bar),
                                .films = ARENA_ARRAY(arena, count, struct picture_film),
                                .of_step = ARENA_ARRAY(arena, count, size_t)};
    struct rowing r = {arena, timetable, days->hours, lanes_make(arena, timetable), .rows = &rows};
    rows.items = ARENA_ARRAY(arena, r.lanes.count, struct picture_row);
    r.steps = sort_steps(arena, &r.lanes, count);
    r.critical = ARENA_ARRAY(arena, count, bool);
    r.wait_of = ARENA_ARRAY(arena, count, size_t);
    for (size_t i = 0; i < count; i++)
        r.wait_of[i] = SIZE_MAX;
    for (size_t i = 0; i < timetable->wait_count; i++)
        r.wait_of[timetable->waits[i].step] = i;
    for (size_t i = 0; i < timetable->chain_count; i++)
        r.critical[timetable->chain[i]] = true;
    for (size_t lane = 0, lanes; lane < r.lanes.count; lane += lanes) {
        lanes = 1;
        while (lane + lanes < r.lanes.count && alike(&r, lane, lane + lanes))
            lanes++;
        add_row(&r, lane, lanes);
    }
    return rows;
}
