#include "api/session.h"

#include "base/measure.h"
#include "base/moment.h"
#include "finish/drying.h"
#include "source/job_file.h"
#include "source/shop_file.h"
#include "format/words.h"

/* Without `now` the job's own start. */
static bool set_now(struct coatwright *session)
{
    struct moment_text moment = {.date_only = false, .minute = session->job->start_min};
    struct err fault;
    const char *now = session->options.now;
    if (now && !moment_parse(now, session->job->zone, &moment, &fault))
        return session_misused(session, fault.expected, now);
    session->now_min =
        moment.date_only ? zone_moment_on(session->job->zone, date_days(moment.date), 0) : moment.minute;
    return true;
}

static bool begin_reading(struct coatwright *session)
{
    if (session->job || session->reading.texts) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "one job in a session", "a second one");
        return false;
    }
    session->reading.texts = texts_make(session->arena);
    return true;
}

static bool read_job(struct coatwright *session, void *call)
{
    const char *path = ((const struct text_call *)call)->text;
    if (!begin_reading(session))
        return false;
    struct job_source source = {arena_text(session->arena, path), session_finishes(session),
                                session->options.trust_paths, session->reading.texts};
    session->job = job_read(session->arena, &source, &session->errors, &session->warnings);
    if (!session->job)
        return false;
    return set_now(session);
}

bool coatwright_read(struct coatwright *session, const char *path)
{
    struct text_call call = {path};
    return session_guard(session, read_job, &call);
}

static bool has_job(struct coatwright *session)
{
    if (!session->job)
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "a job that was read", "none");
    return session->job != NULL;
}

/* Mistakes found by rooms that know no files get their places. */
static bool located(struct coatwright *session)
{
    texts_locate(session->reading.texts, &session->errors);
    return false;
}

static bool take_off(struct coatwright *session, void *call)
{
    (void)call;
    if (!has_job(session))
        return false;
    session->surfaces = surfaces_of(session->arena, session->job, &session->errors);
    return session->surfaces || located(session);
}

bool coatwright_take_off(struct coatwright *session)
{
    return session_guard(session, take_off, NULL);
}

static void fill_outcome(const struct plan *plan, struct coatwright_outcome *outcome)
{
    const struct timetable *timetable = plan->timetable;
    outcome->planned = timetable->status == TIMETABLE_PLANNED;
    outcome->in_time = outcome->planned && timetable->late_min == 0;
    outcome->mixes_sound = !plan->mixes->impossible;
    outcome->ready_min = timetable->ready_min;
}

static struct plan_options plan_options(const struct coatwright *session)
{
    return (struct plan_options){.timetable = {session->options.effort, session->options.late},
                                 .now_min = session->now_min,
                                 .advice = session->options.advice};
}

static bool make_plan(struct coatwright *session, void *call)
{
    struct plan_options options = plan_options(session);
    if (!has_job(session))
        return false;
    session->plan = plan_make(session->arena, session->job, options, &session->errors);
    if (!session->plan)
        return located(session);
    session->surfaces = session->plan->surfaces;
    fill_outcome(session->plan, call);
    return true;
}

bool coatwright_plan(struct coatwright *session, struct coatwright_outcome *outcome)
{
    return session_guard(session, make_plan, outcome);
}

struct together {
    struct coatwright *const *sessions;
    size_t count;
    struct coatwright_outcome *outcomes;
};

/* Everything is made in the first session's memory. */
static bool make_plans(struct coatwright *first, void *call)
{
    const struct together *together = call;
    const struct job **jobs = ARENA_ARRAY(first->arena, together->count, const struct job *);
    struct err_list **errors = ARENA_ARRAY(first->arena, together->count, struct err_list *);
    const struct texts **texts = ARENA_ARRAY(first->arena, together->count, const struct texts *);
    for (size_t i = 0; i < together->count; i++) {
        if (!has_job(together->sessions[i]))
            return false;
        texts[i] = together->sessions[i]->reading.texts;
        jobs[i] = together->sessions[i]->job;
        errors[i] = &together->sessions[i]->errors;
    }
    struct plan **plans = NULL;
    if (shops_agree(jobs, together->count, errors))
        plans = plan_several(first->arena, jobs, together->count, plan_options(first), errors);
    first->together = (const struct plan *const *)plans;
    first->together_texts = texts;
    first->together_count = plans ? together->count : 0;
    for (size_t i = 0; i < together->count; i++) {
        struct coatwright *session = together->sessions[i];
        session->plan = plans ? plans[i] : NULL;
        session->surfaces = plans ? plans[i]->surfaces : NULL;
        if (plans)
            fill_outcome(plans[i], &together->outcomes[i]);
        else
            located(session);
    }
    return plans != NULL;
}

bool coatwright_plan_together(struct coatwright *const *sessions, size_t count,
                              struct coatwright_outcome *outcomes)
{
    struct together together = {sessions, count, outcomes};
    return count > 0 && session_guard(sessions[0], make_plans, &together);
}

static bool draw_chance(struct coatwright *session, void *call)
{
    const struct plan *plan = session->plan;
    struct chance_options options = chance_defaults();
    if (!plan || plan->timetable->status != TIMETABLE_PLANNED) {
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "a timetable", "none");
        return false;
    }
    options.threads = *(const int *)call;
    session->chance = chance_make(session->arena, plan->timetable, options);
    return true;
}

bool coatwright_chance(struct coatwright *session, int threads)
{
    int shared = threads < 1 ? 1 : threads;
    return session_guard(session, draw_chance, &shared);
}
