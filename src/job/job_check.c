/* Mistakes and doubts of a whole job, which no single value shows. */
#include "job/job.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/moment.h"
#include "base/number.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

/* Litres of thinner per litre of finish beyond which a slip of the pen is meant. */
static const double thin_most = 10;

static void check_moments(const struct job *job, struct err_list *errors)
{
    char expected[160], found[160];
    int64_t day_min;
    if (job->deliver_min >= job->start_min)
        return;
    struct text_short moment = moment_format(job->zone, job->deliver_min, MOMENT_PLAIN);
    snprintf(found, sizeof found, "%s", moment.text);
    if (job_delivers_closed(job, &day_min))
        snprintf(found, sizeof found, "%s (closed; last open moment %s)",
                 moment_format(job->zone, day_min, MOMENT_DATE).text, moment.text);
    snprintf(expected, sizeof expected, "a moment not before the start, %s",
             moment_format(job->zone, job->start_min, MOMENT_PLAIN).text);
    err_add(errors, ERR_INPUT, job->file, "/deliver", expected, found);
}

static void check_ready(const struct job *job, struct err_list *warnings)
{
    for (size_t i = 0; i < job->piece_count; i++) {
        const struct piece *piece = &job->pieces[i];
        if (piece->entry < 0 || piece->ready_min <= job->deliver_min)
            continue;
        char pointer[64];
        snprintf(pointer, sizeof pointer, "/pieces/%d/ready", piece->entry);
        err_addf(warnings, ERR_WARNING, job->file, pointer, NULL,
                 "\"%s\" is not there to be finished before the delivery", piece->name);
    }
}

static void check_tool(const struct job *job, const struct schedule *schedule, size_t k,
                       struct err_list *errors)
{
    const struct step *step = &schedule->steps[k];
    char expected[240] = "one of ";
    size_t used = 7;
    if (step->finish->by[step->by])
        return;
    for (int i = 0, listed = 0; i < TOOL_COUNT && used < sizeof expected; i++)
        if (step->finish->by[i])
            used += (size_t)snprintf(expected + used, sizeof expected - used, "%s%s", listed++ ? ", " : "",
                                     tool_name((enum tool)i));
    err_add(errors, ERR_INPUT, job->file, job_step_place(schedule, k, "by").text, expected,
            tool_name(step->by));
}

static void check_thinning(const struct job *job, const struct schedule *schedule, size_t k,
                           struct err_list *errors, struct err_list *warnings)
{
    const struct step *step = &schedule->steps[k];
    struct job_pointer place = job_step_place(schedule, k, "thin");
    if (!(step->thin >= 0 && step->thin <= thin_most))
        err_addf(errors, ERR_INPUT, job->file, place.text, "at most 10 parts of thinner to 1 of finish",
                 "%s to 1", isfinite(step->thin) ? number_round(step->thin, 3).text : "too many");
    else if (step->thin > 0 && !step->finish->solvent)
        err_addf(warnings, ERR_WARNING, job->file, place.text, NULL,
                 "%s names no solvent to thin it with: ask its data sheet", step->finish->name);
}

/* Coats of a finish that a schedule lays, up to and with step k. */
static int coats_up_to(const struct schedule *schedule, size_t k)
{
    int coats = 0;
    for (size_t i = 0; i <= k; i++)
        if (schedule->steps[i].kind == STEP_COAT && schedule->steps[i].finish == schedule->steps[k].finish)
            coats += schedule->steps[i].coats;
    return coats;
}

static void check_coat(const struct job *job, const struct schedule *schedule, size_t k,
                       struct err_list *errors, struct err_list *warnings)
{
    const struct step *step = &schedule->steps[k];
    int coats = coats_up_to(schedule, k);
    check_tool(job, schedule, k, errors);
    check_thinning(job, schedule, k, errors, warnings);
    if (coats > step->finish->coats_most)
        err_addf(warnings, ERR_WARNING, job->file, job_step_place(schedule, k, "coats").text, NULL,
                 "%d coats of %s, which bears %d at most", coats, step->finish->name,
                 step->finish->coats_most);
}

static bool coat_before(const struct schedule *schedule, size_t k)
{
    for (size_t i = 0; i < k; i++)
        if (schedule->steps[i].kind == STEP_COAT)
            return true;
    return false;
}

static void check_schedule(const struct job *job, const struct schedule *schedule, struct err_list *errors,
                           struct err_list *warnings)
{
    for (size_t k = 0; k < schedule->step_count; k++) {
        const struct step *step = &schedule->steps[k];
        if (step->kind == STEP_COAT)
            check_coat(job, schedule, k, errors, warnings);
        if (step->kind == STEP_WAIT && step->wait_min < 0 && !coat_before(schedule, k))
            err_add(errors, ERR_INPUT, job->file, job_step_place(schedule, k, "wait").text,
                    "a coat before it, or a time span", finish_state_name(step->wait_state));
    }
}

/* "oil, wax" */
static void list_schedules(const struct job *job, char *text, size_t size)
{
    size_t used = 0;
    text[0] = '\0';
    for (size_t i = 0; i < job->schedule_count && used < size; i++)
        used += (size_t)snprintf(text + used, size - used, "%s%s", i ? ", " : "", job->schedules[i].name);
}

static bool has_coat(const struct schedule *schedule)
{
    for (size_t k = 0; k < schedule->step_count; k++)
        if (schedule->steps[k].kind == STEP_COAT)
            return true;
    return false;
}

/* Whether anything gets a finish, and a coat of it. */
static void check_finished(const struct job *job, struct err_list *errors)
{
    char names[80], expected[ERR_EXPECTED_SIZE];
    const struct schedule *used = NULL;
    const char *file = job->parts_file ? job->parts_file : job->file;
    for (size_t i = 0; i < job->part_count; i++)
        for (int r = 0; r < REGION_COUNT; r++) {
            int schedule = job->parts[i].schedule[r];
            if (schedule >= 0 && has_coat(&job->schedules[schedule]))
                return;
            used = schedule >= 0 && !used ? &job->schedules[schedule] : used;
        }
    if (used) {
        err_add(errors, ERR_INPUT, job->file, job_schedule_place(used).text,
                "at least one coat in the schedules that parts use", "none");
        return;
    }
    list_schedules(job, names, sizeof names);
    snprintf(expected, sizeof expected,
             "a finish on at least one surface: a schedule (%s) in a column all, face, back, edges, ends, "
             "inside or "
             "outside, or \"all\" in the job",
             names);
    err_add(errors, ERR_INPUT, file, job->parts_file ? "" : "/parts", expected, "none");
}

/* Circles in `after` and `before`: a walk in depth over pieces and tasks, that never goes the same way twice. */

/* Pieces come first, then tasks. Where an edge is written: in the list of a piece or a task. */
struct edge {
    size_t to;
    bool by_task;  /* written below /tasks, else below /pieces */
    bool before;   /* in a task's `before` */
    size_t writer; /* index of that piece or task */
    size_t entry;
};

struct walk {
    const struct job *job;
    struct err_list *errors;
    size_t count;
    char *seen;         /* 0 not yet, 1 on the way, 2 done */
    size_t *way;        /* nodes on the way */
    struct edge *taken; /* the edge by which way[i] was left */
    size_t depth;
};

static const char *node_name(const struct job *job, size_t node)
{
    return node < job->piece_count ? job->pieces[node].name : job->tasks[node - job->piece_count].name;
}

static size_t node_of(const struct job *job, const struct after *after)
{
    return after->is_task ? job->piece_count + after->index : after->index;
}

/* The n-th thing that a node waits for; false after the last. */
static bool edge_at(const struct job *job, size_t node, size_t n, struct edge *edge)
{
    bool is_task = node >= job->piece_count;
    size_t own = is_task ? node - job->piece_count : node;
    size_t count = is_task ? job->tasks[own].after_count : job->pieces[own].after_count;
    const struct after *after = is_task ? job->tasks[own].after : job->pieces[own].after;
    if (n < count) {
        *edge = (struct edge){node_of(job, &after[n]), is_task, false, own, n};
        return true;
    }
    n -= count;
    for (size_t t = 0; !is_task && t < job->task_count; t++)
        for (size_t k = 0; k < job->tasks[t].before_count; k++)
            if (job->tasks[t].before[k] == own && n-- == 0) {
                *edge = (struct edge){job->piece_count + t, true, true, t, k};
                return true;
            }
    return false;
}

/* The place in the file that a loop begins at: pieces in the order of the job's file, then tasks. */
static size_t rank(const struct job *job, size_t node)
{
    if (node >= job->piece_count)
        return job->piece_count + node;
    return job->pieces[node].entry >= 0 ? (size_t)job->pieces[node].entry
                                        : job->piece_count + job->task_count + node;
}

static void tell_circle(struct arena *arena, struct walk *w, size_t first)
{
    size_t length = w->depth - first, start = 0;
    assert(length > 0);
    for (size_t i = 1; i < length; i++)
        if (rank(w->job, w->way[first + i]) < rank(w->job, w->way[first + start]))
            start = i;
    struct buf loop;
    buf_init(&loop, arena);
    for (size_t i = 0; i <= length; i++)
        buf_addf(&loop, "%s%s", i > 0 ? " -> " : "", node_name(w->job, w->way[first + (start + i) % length]));
    const struct edge *edge = &w->taken[first + start];
    char pointer[80];
    if (edge->by_task)
        snprintf(pointer, sizeof pointer, "/tasks/%zu/%s/%zu", edge->writer,
                 edge->before ? "before" : "after", edge->entry);
    else
        snprintf(pointer, sizeof pointer, "/pieces/%d/after/%zu", w->job->pieces[edge->writer].entry,
                 edge->entry);
    err_add(w->errors, ERR_INPUT, w->job->file, pointer, "no circle in `after`", loop.text);
}

static size_t place_on_way(const struct walk *w, size_t node)
{
    size_t i = 0;
    while (w->way[i] != node)
        i++;
    return i;
}

/* Walks on from the last node of the way until the way is empty again; next[i] is the edge to try at depth i. */
static void walk_on(struct arena *arena, struct walk *w, size_t *next)
{
    while (w->depth > 0) {
        size_t top = w->depth - 1, node = w->way[top];
        if (!edge_at(w->job, node, next[top]++, &w->taken[top])) {
            w->seen[node] = 2;
            w->depth--;
            continue;
        }
        size_t to = w->taken[top].to;
        if (w->seen[to] == 1) {
            tell_circle(arena, w, place_on_way(w, to));
        } else if (w->seen[to] == 0) {
            w->seen[to] = 1;
            w->way[w->depth] = to;
            next[w->depth++] = 0;
        }
    }
}

static void check_circles(struct arena *arena, const struct job *job, struct err_list *errors)
{
    size_t count = job->piece_count + job->task_count;
    struct walk w = {job,
                     errors,
                     count,
                     ARENA_ARRAY(arena, count, char),
                     ARENA_ARRAY(arena, count, size_t),
                     ARENA_ARRAY(arena, count, struct edge),
                     0};
    size_t *next = ARENA_ARRAY(arena, count, size_t);
    for (size_t node = 0; node < count; node++) {
        if (w.seen[node] != 0)
            continue;
        w.seen[node] = 1;
        w.way[0] = node;
        next[0] = 0;
        w.depth = 1;
        walk_on(arena, &w, next);
    }
}

/* What looks wrong about the parts, reported as warnings: one per kind and piece, not one per row. */

static const double cupping_width_m = 0.2; /* common practice, from memory */

static bool is_scheduled(const struct part *part, enum region region)
{
    return part->schedule[region] >= 0;
}

static bool is_finished(const struct part *part)
{
    for (int i = 0; i < REGION_COUNT; i++)
        if (is_scheduled(part, (enum region)i))
            return true;
    return false;
}

static void check_woods(const struct job *job, struct err_list *warnings)
{
    const struct part *first = NULL;
    size_t more = 0;
    for (size_t i = 0; i < job->part_count; i++) {
        const struct part *part = &job->parts[i];
        if (part->wood || !is_finished(part))
            continue;
        if (first)
            more++;
        else
            first = part;
    }
    if (!first)
        return;
    struct job_pointer pointer;
    const char *file = job_part_place(job, first, "wood", &pointer);
    char others[48] = "";
    if (more > 0)
        snprintf(others, sizeof others, " and %zu more", more);
    err_addf(warnings, ERR_WARNING, file, pointer.text, NULL,
             "no wood is given for \"%s\"%s: a closed grain is assumed", first->name, others);
}

/* Finished on one face, the other neither finished nor left bare on purpose. */
static bool will_cup(const struct part *part)
{
    int face = part->schedule[REGION_FACE], back = part->schedule[REGION_BACK];
    bool one = (face >= 0 && back == SCHEDULE_NONE) || (back >= 0 && face == SCHEDULE_NONE);
    return part->shape == SHAPE_BOARD && one && part->size_m[DIM_WIDTH] > cupping_width_m;
}

static void check_cupping(const struct job *job, const struct part *part, struct err_list *warnings)
{
    struct job_pointer pointer;
    bool face = is_scheduled(part, REGION_FACE);
    if (!will_cup(part))
        return;
    const char *file = job_part_place(job, part, face ? "back" : "face", &pointer);
    err_addf(warnings, ERR_WARNING, file, pointer.text, NULL,
             "\"%s\" is wider than 200 mm and finished on its %s only: it will cup; finish both, or write - "
             "for the %s",
             part->name, face ? "face" : "back", face ? "back" : "face");
}

static void warn_laid(const struct job *job, const struct part *part, struct err_list *warnings)
{
    const struct piece *piece = &job->pieces[part->piece];
    struct job_pointer pointer;
    const char *file = job_part_place(job, part, "piece", &pointer);
    if (piece->entry >= 0) {
        file = job->file;
        snprintf(pointer.text, sizeof pointer.text, "/pieces/%d", piece->entry);
    }
    err_addf(
        warnings, ERR_WARNING, file, pointer.text, NULL,
        "\"%s\" has two large faces and is taken as standing, coated all round in one go; write \"laid\": "
        "\"flat\" if it lies",
        piece->name);
}

static void check_laid(struct arena *arena, const struct job *job, struct err_list *warnings)
{
    bool *told = ARENA_ARRAY(arena, job->piece_count, bool);
    for (size_t i = 0; i < job->part_count; i++) {
        const struct part *part = &job->parts[i];
        if (told[part->piece] || job->pieces[part->piece].laid_given || !part_has_large_faces(part))
            continue;
        told[part->piece] = true;
        warn_laid(job, part, warnings);
    }
}

static bool is_used(const struct job *job, size_t schedule)
{
    for (size_t i = 0; i < job->part_count; i++)
        for (int r = 0; r < REGION_COUNT; r++)
            if (job->parts[i].schedule[r] == (int)schedule)
                return true;
    for (size_t i = 0; i < job->piece_count; i++)
        if (job->pieces[i].patch && job->pieces[i].patch->schedule == (int)schedule)
            return true;
    return false;
}

static void check_used(const struct job *job, size_t i, struct err_list *warnings)
{
    if (is_used(job, i))
        return;
    struct job_pointer pointer = job_schedule_place(&job->schedules[i]);
    err_addf(warnings, ERR_WARNING, job->file, pointer.text, NULL, "no part uses the schedule \"%s\"",
             job->schedules[i].name);
}

static void check_parts(struct arena *arena, const struct job *job, struct err_list *warnings)
{
    for (size_t i = 0; i < job->schedule_count; i++)
        check_used(job, i, warnings);
    check_woods(job, warnings);
    for (size_t i = 0; i < job->part_count; i++)
        check_cupping(job, &job->parts[i], warnings);
    check_laid(arena, job, warnings);
}

void job_check(struct arena *arena, const struct job *job, struct err_list *errors, struct err_list *warnings)
{
    check_moments(job, errors);
    check_finished(job, errors);
    for (size_t i = 0; i < job->schedule_count; i++)
        check_schedule(job, &job->schedules[i], errors, warnings);
    for (size_t i = 0; i < job->schedule_count; i++)
        if (is_used(job, i))
            job_check_skills(job, &job->schedules[i], errors);
    check_circles(arena, job, errors);
    check_ready(job, warnings);
    check_parts(arena, job, warnings);
    job_check_fit(arena, job, warnings);
}
