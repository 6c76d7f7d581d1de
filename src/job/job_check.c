#include "job/job_check.h"

#include "base/moment.h"
#include "base/number.h"

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

void job_check(struct arena *arena, const struct job *job, struct err_list *errors, struct err_list *warnings)
{
    check_moments(job, errors);
    check_finished(job, errors);
    for (size_t i = 0; i < job->schedule_count; i++)
        check_schedule(job, &job->schedules[i], errors, warnings);
    job_check_circles(arena, job, errors);
    check_ready(job, warnings);
    job_check_parts(arena, job, warnings);
    job_check_fit(arena, job, warnings);
}
