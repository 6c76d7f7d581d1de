/* What looks wrong about the parts of a job, told as warnings: one per kind and piece, not one per row. */
#include "job/job_check.h"

#include "base/arena.h"

#include <stdio.h>

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

void job_check_parts(struct arena *arena, const struct job *job, struct err_list *warnings)
{
    for (size_t i = 0; i < job->schedule_count; i++)
        check_used(job, i, warnings);
    check_woods(job, warnings);
    for (size_t i = 0; i < job->part_count; i++)
        check_cupping(job, &job->parts[i], warnings);
    check_laid(arena, job, warnings);
}
