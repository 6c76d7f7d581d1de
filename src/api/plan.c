/* Planning a job, or several that share a shop, and drawing what may become of a plan. */
#include "api/session.h"

#include "source/shop_file.h"

#include <string.h>

/* What was worked out of an older plan goes with it. */
static void forget_plan(struct coatwright *session)
{
    session->plan = NULL;
    session->first_plan = NULL;
    session->walk = NULL;
    session->chance = NULL;
    session->together = NULL;
    session->together_texts = NULL;
    session->together_count = 0;
}

static void take_plan(struct coatwright *session, const struct plan *plan)
{
    session->plan = plan;
    session->surfaces = plan->surfaces;
}

/* An older caller's struct ends sooner. */
static void fill_outcome(const struct plan *plan, bool ended, struct coatwright_outcome *outcome)
{
    const struct timetable *timetable = plan->timetable;
    struct coatwright_outcome all = {.size = outcome->size};
    all.planned = timetable->status == TIMETABLE_PLANNED;
    all.in_time = all.planned && timetable->late_min == 0;
    all.mixes_sound = !plan->mixes->impossible;
    all.ended = ended || timetable->ended;
    all.ready_min = timetable->ready_min;
    memcpy(outcome, &all, all.size < sizeof all ? all.size : sizeof all);
}

static struct plan_options plan_options(struct coatwright *session)
{
    struct observer *observer = session->options.progress ? &session->observer : NULL;
    session->observer.ended = false;
    observer_part(observer, OBSERVE_PLAN, 0, 0);
    enum timetable_aim aim = session->options.latest    ? AIM_LATEST
                             : session->options.soonest ? AIM_SOONEST
                                                        : AIM_LEAST_WORK;
    return (struct plan_options){
        .timetable = {session->options.effort, aim, observer},
        .now_min = session->now_min,
        .advice = session->options.advice,
    };
}

/* What each job was to be before anything of it was recorded. */
static void plan_first(struct coatwright *const *sessions, size_t count)
{
    struct coatwright *first = sessions[0];
    const struct job **jobs = ARENA_ARRAY(first->arena, count, const struct job *);
    for (size_t i = 0; i < count; i++)
        jobs[i] = sessions[i]->job;
    struct plan **plans =
        first->options.as_planned ? plan_without_logs(first->arena, jobs, count, plan_options(first)) : NULL;
    for (size_t i = 0; plans && i < count; i++)
        sessions[i]->first_plan = plans[i];
}

static bool make_plan(struct coatwright *session, void *call)
{
    struct coatwright_outcome *outcome = call;
    if (!session_has_job(session))
        return false;
    forget_plan(session);
    const struct plan *plan =
        plan_make(session->arena, session->job, plan_options(session), &session->errors);
    if (!plan)
        return session_located(session);
    take_plan(session, plan);
    if (outcome)
        fill_outcome(plan, session->observer.ended, outcome);
    plan_first(&session, 1);
    return true;
}

/* NULL, or begun with its size. */
static bool sized(struct coatwright *session, const struct coatwright_outcome *outcome)
{
    if (session && outcome && outcome->size < sizeof outcome->size)
        err_add(&session->errors, ERR_USAGE, NULL, NULL, "an outcome begun with COATWRIGHT_OUTCOME_INIT",
                "one without its size");
    return session && (!outcome || outcome->size >= sizeof outcome->size);
}

bool coatwright_plan(struct coatwright *session, struct coatwright_outcome *outcome)
{
    return sized(session, outcome) && session_guard(session, make_plan, outcome);
}

struct together {
    struct coatwright *const *sessions;
    size_t count;
    struct coatwright_outcome *outcomes;
};

/* The outcomes of an older caller lie closer together. */
static struct coatwright_outcome *outcome_at(const struct together *together, size_t i)
{
    if (!together->outcomes)
        return NULL;
    return (struct coatwright_outcome *)(void *)((char *)together->outcomes + i * together->outcomes->size);
}

static void give_plans(const struct together *together, struct plan *const *plans)
{
    bool ended = together->sessions[0]->observer.ended;
    size_t size = together->outcomes ? together->outcomes->size : 0;
    for (size_t i = 0; i < together->count; i++) {
        struct coatwright_outcome *outcome = outcome_at(together, i);
        take_plan(together->sessions[i], plans[i]);
        if (!outcome)
            continue;
        outcome->size = size;
        fill_outcome(plans[i], ended, outcome);
    }
}

/* What hands did until now by one log, they did instead of the other jobs' work: nothing of these is planned before it. */
static void share_now(struct arena *arena, const struct job **jobs, size_t count)
{
    int64_t now_min = INT64_MIN;
    for (size_t i = 0; i < count; i++)
        now_min = jobs[i]->now_min > now_min ? jobs[i]->now_min : now_min;
    for (size_t i = 0; i < count; i++) {
        if (jobs[i]->now_min == now_min)
            continue;
        struct job *from_now = ARENA_NEW(arena, struct job);
        *from_now = *jobs[i];
        from_now->now_min = now_min;
        jobs[i] = from_now;
    }
}

/* Everything is made in the first session's memory. */
static bool make_plans(struct coatwright *first, void *call)
{
    const struct together *together = call;
    const struct job **jobs = ARENA_ARRAY(first->arena, together->count, const struct job *);
    struct err_list **errors = ARENA_ARRAY(first->arena, together->count, struct err_list *);
    const struct texts **texts = ARENA_ARRAY(first->arena, together->count, const struct texts *);
    for (size_t i = 0; i < together->count; i++) {
        struct coatwright *session = together->sessions[i];
        if (!session_has_job(session))
            return false;
        forget_plan(session);
        texts[i] = session->reading.texts;
        jobs[i] = session->job;
        errors[i] = &session->errors;
    }
    share_now(first->arena, jobs, together->count);
    struct plan **plans = NULL;
    if (shops_agree(jobs, together->count, errors))
        plans = plan_several(first->arena, jobs, together->count, plan_options(first), errors);
    for (size_t i = 0; i < together->count && !plans; i++)
        session_located(together->sessions[i]);
    if (!plans)
        return false;
    first->together = (const struct plan *const *)plans;
    first->together_texts = texts;
    first->together_count = together->count;
    give_plans(together, plans);
    plan_first(together->sessions, together->count);
    return true;
}

/* Each session once: otherwise its plans would lie in two places. */
static bool are_different(struct coatwright *const *sessions, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!session_given(sessions[0], sessions[i], "a session for each job"))
            return false;
        for (size_t k = 0; k < i; k++)
            if (sessions[k] == sessions[i]) {
                err_add(&sessions[i]->errors, ERR_USAGE, NULL, NULL, "each session once", "one given twice");
                return false;
            }
    }
    return true;
}

bool coatwright_plan_together(struct coatwright *const *sessions, size_t count,
                              struct coatwright_outcome *outcomes)
{
    struct together together = {sessions, count, outcomes};
    return sessions && count > 0 && sized(sessions[0], outcomes) && are_different(sessions, count) &&
           session_guard(sessions[0], make_plans, &together);
}

enum { THREADS_MOST = 64 };

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
    int shared = threads < 1 ? 1 : threads > THREADS_MOST ? THREADS_MOST : threads;
    return session_guard(session, draw_chance, &shared);
}
