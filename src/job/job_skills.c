/* Whether somebody of the shop can do every step. */
#include "job/job.h"

#include <stdio.h>

static bool somebody_does(const struct shop *shop, unsigned works)
{
    for (int i = 0; shop->crew && i < shop->people; i++)
        if (shop->crew[i].does & works)
            return true;
    return !shop->crew;
}

/* One of these works is needed, the first by name; `to` is what for, "" where the work says it. */
static void need(const struct job *job, struct job_pointer place, unsigned works, int work, const char *to,
                 struct err_list *errors)
{
    char expected[160];
    if (somebody_does(&job->shop, works))
        return;
    snprintf(expected, sizeof expected, "somebody with \"%s\" in \"does\"%s%s", work_name(work),
             *to ? ", to apply " : "", to);
    err_add(errors, ERR_INPUT, job->file, place.text, expected, "nobody");
}

/* Who sands also scuffs; wetting, masking and tasks are for everyone. */
static void need_by_hand(const struct job *job, struct job_pointer place, const struct step *step,
                         struct err_list *errors)
{
    if (step->kind == STEP_SAND)
        need(job, place, 1u << WORK_SAND, WORK_SAND, "", errors);
    else if (step->kind == STEP_SCUFF)
        need(job, place, 1u << WORK_SCUFF | 1u << WORK_SAND, WORK_SCUFF, "", errors);
    else if (step->kind == STEP_RUB)
        need(job, place, 1u << WORK_RUB, WORK_RUB, "", errors);
    else if (step->kind == STEP_POLISH)
        need(job, place, 1u << WORK_POLISH, WORK_POLISH, "", errors);
}

static void check_coat(const struct job *job, const struct schedule *schedule, size_t k,
                       struct err_list *errors)
{
    const struct step *step = &schedule->steps[k];
    struct job_pointer coat = job_step_place(schedule, k, "coat");
    bool usual = step->by == step->finish->usual_tool;
    need(job, usual ? coat : job_step_place(schedule, k, "by"), 1u << step->by, (int)step->by,
         step->finish->id, errors);
    if (step->between && step->coats > 1)
        need_by_hand(job, job_step_place(schedule, k, "between"), step->between, errors);
    if (step->finish->has_polish)
        need(job, coat, 1u << WORK_POLISH, WORK_POLISH, "", errors);
}

void job_check_skills(const struct job *job, const struct schedule *schedule, struct err_list *errors)
{
    static const char *const keys[STEP_KIND_COUNT] = {
        [STEP_SAND] = "sand", [STEP_SCUFF] = "scuff", [STEP_RUB] = "rub", [STEP_POLISH] = "polish"};
    for (size_t k = 0; k < schedule->step_count; k++) {
        const struct step *step = &schedule->steps[k];
        if (step->kind == STEP_COAT)
            check_coat(job, schedule, k, errors);
        else
            need_by_hand(job, job_step_place(schedule, k, keys[step->kind]), step, errors);
    }
}
