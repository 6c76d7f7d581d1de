/* The rules of fit.h compared with a job: every coat with what lies under it, on every kind of part that it goes to. */
#include "job/job.h"

#include "base/arena.h"
#include "finish/fit.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Where a coat stands in its schedule. */
struct spot {
    const struct job *job;
    size_t schedule, step;
    struct fit_case of; /* wood, place and use are filled part by part */
    size_t piece;       /* where the coat goes over a patch: its piece alone */
    const struct patch *patch;
};

/* The coat step before k; -1: none. */
static int coat_before(const struct schedule *schedule, size_t k)
{
    int i = (int)k - 1;
    while (i >= 0 && schedule->steps[i].kind != STEP_COAT)
        i--;
    return i;
}

static bool is_wax(const struct finish *finish)
{
    return strcmp(finish->family, "wax") == 0;
}

/* The coat that meets the use: the last one, but for wax, which only goes over it. */
static bool is_top(const struct schedule *schedule, size_t k)
{
    if (is_wax(schedule->steps[k].finish) && coat_before(schedule, k) >= 0)
        return false;
    for (size_t i = k + 1; i < schedule->step_count; i++)
        if (schedule->steps[i].kind == STEP_COAT && !is_wax(schedule->steps[i].finish))
            return false;
    return true;
}

/* Reference minutes that a step makes the film under it wait. */
static int32_t waits(const struct step *step, const struct finish *under)
{
    if (!under)
        return 0;
    if (step->kind == STEP_WAIT)
        return step->wait_min >= 0 ? step->wait_min : under->later.after_min[step->wait_state];
    bool sands = step->kind == STEP_SAND || step->kind == STEP_SCUFF || step->kind == STEP_RUB;
    return under->later.after_min[sands ? STATE_SAND : STATE_RECOAT];
}

static void take_grit(struct fit_case *of, int grit)
{
    if (of->grit > 0)
        of->grit_jump = fmax(of->grit_jump, (double)grit / of->grit);
    of->coarsest = of->coarsest == 0 || grit < of->coarsest ? grit : of->coarsest;
    of->grit = grit;
}

/* Dry, of the coats of one finish that follow one another up to step k: laid to a wet film or by coverage, and not wiped
 * off; 0: solids are not known. */
static double film_um(const struct schedule *schedule, size_t k)
{
    const struct finish *finish = schedule->steps[k].finish;
    double um = 0;
    for (size_t i = 0; i <= k; i++) {
        const struct step *step = &schedule->steps[i];
        if (step->kind == STEP_COAT && step->finish != finish)
            um = 0;
        else if (step->kind == STEP_COAT)
            um += step->coats * 1000 / finish_coverage_by(finish, false, step->by) * finish->solids;
    }
    return finish->has_wipe_off ? 0 : um;
}

/* Takes in the steps from..to - 1, which stand between two coats. */
static void take_steps(struct arena *arena, struct fit_case *of, const struct step *steps, size_t count)
{
    const char **words = ARENA_ARRAY(arena, 2 * count, const char *);
    if (of->under)
        of->waited_min = of->under->later.after_min[STATE_RECOAT];
    for (size_t i = 0; i < count; i++) {
        words[of->between.count++] = step_kind_name(steps[i].kind);
        if (steps[i].words)
            words[of->between.count++] = steps[i].words;
        if (steps[i].kind == STEP_SAND)
            take_grit(of, steps[i].grit);
        int32_t waited = waits(&steps[i], of->under);
        of->waited_min = waited > of->waited_min ? waited : of->waited_min;
    }
    of->between.items = words;
}

static struct fit_words use_words(unsigned uses, const char *words[USE_COUNT])
{
    size_t count = 0;
    for (int i = 0; i < USE_COUNT; i++)
        if (uses & 1u << i)
            words[count++] = use_names[i];
    return (struct fit_words){words, count};
}

static bool speaks_at(const struct spot *spot, const struct fit_rule *rule, const struct part *part,
                      enum region region)
{
    const char *woods[WOOD_WORDS_MOST], *uses[USE_COUNT], *place = region_name(region);
    struct fit_case of = spot->of;
    of.wood = (struct fit_words){woods, wood_words(part_wood_at(part, region), woods)};
    of.use = use_words(spot->job->pieces[part->piece].uses, uses);
    of.place = (struct fit_words){&place, 1};
    return fit_speaks(rule, &of);
}

static bool on_patch(const struct spot *spot, const struct part *part, enum region region)
{
    return !spot->patch || (part->piece == spot->piece && region == spot->patch->region &&
                            (!spot->patch->part || strcmp(spot->patch->part, part->name) == 0));
}

static bool speaks_of(const struct spot *spot, const struct fit_rule *rule, const struct part *part)
{
    for (int r = 0; r < REGION_COUNT; r++)
        if (part->schedule[r] == (int)spot->schedule && on_patch(spot, part, (enum region)r) &&
            speaks_at(spot, rule, part, (enum region)r))
            return true;
    return false;
}

/* The first part that a rule hits, and how many more. */
static const struct part *hit_part(const struct spot *spot, const struct fit_rule *rule, size_t *more)
{
    const struct part *first = NULL;
    *more = 0;
    for (size_t i = 0; i < spot->job->part_count; i++) {
        if (!speaks_of(spot, rule, &spot->job->parts[i]))
            continue;
        if (first)
            ++*more;
        else
            first = &spot->job->parts[i];
    }
    return first;
}

static void say(const struct spot *spot, const struct fit_rule *rule, const char *where,
                struct err_list *warnings)
{
    const struct schedule *schedule = &spot->job->schedules[spot->schedule];
    const struct finish *under = rule->under.count > 0 ? spot->of.under : NULL;
    err_addf(warnings, ERR_WARNING, spot->job->file, job_step_place(schedule, spot->step, "coat").text, NULL,
             "%s%s%s%s: %s; %s", spot->of.over->name, under ? " over " : "", under ? under->name : "", where,
             rule->because, rule->remedy);
}

static void judge(const struct spot *spot, const struct fit_rule *rule, struct err_list *warnings)
{
    char where[120] = "", others[32] = "";
    size_t more;
    if (!fit_may_speak(rule, &spot->of))
        return;
    if (!fit_rule_needs_part(rule)) {
        say(spot, rule, where, warnings);
        return;
    }
    const struct part *part = hit_part(spot, rule, &more);
    if (!part)
        return;
    if (more > 0)
        snprintf(others, sizeof others, " and %zu more", more);
    snprintf(where, sizeof where, " on \"%.60s\"%s", part->name, others);
    say(spot, rule, where, warnings);
}

static void judge_all(const struct spot *spot, struct err_list *warnings)
{
    for (size_t i = 0; i < spot->job->fit.count; i++)
        judge(spot, &spot->job->fit.items[i], warnings);
}

static void check_coat(struct arena *arena, const struct job *job, size_t schedule, size_t k,
                       struct err_list *warnings)
{
    const struct schedule *s = &job->schedules[schedule];
    const struct step *step = &s->steps[k];
    int before = coat_before(s, k);
    struct spot spot = {.job = job,
                        .schedule = schedule,
                        .step = k,
                        .of = {.over = step->finish, .deliver = job->deliver_at}};
    spot.of.under = before >= 0 ? s->steps[before].finish : NULL;
    spot.of.top = is_top(s, k);
    spot.of.thin = step->thin;
    spot.of.film_um = film_um(s, k);
    take_steps(arena, &spot.of, s->steps + before + 1, k - (size_t)(before + 1));
    judge_all(&spot, warnings);
}

/* The second coat of a step goes over the first, with the step between: what only the film under it decides. */
static void check_between(struct arena *arena, const struct job *job, size_t schedule, size_t k,
                          struct err_list *warnings)
{
    const struct step *step = &job->schedules[schedule].steps[k];
    if (step->coats < 2 || !step->between)
        return;
    struct spot spot = {.job = job,
                        .schedule = schedule,
                        .step = k,
                        .of = {.over = step->finish, .under = step->finish, .deliver = STATE_CURED}};
    take_steps(arena, &spot.of, step->between, 1);
    for (size_t i = 0; i < job->fit.count; i++)
        if (job->fit.items[i].between.count > 0)
            judge(&spot, &job->fit.items[i], warnings);
}

/* The first coat of a region goes over the last of its patch. */
static void check_patch(struct arena *arena, const struct job *job, size_t piece, struct err_list *warnings)
{
    const struct patch *patch = job->pieces[piece].patch;
    struct spot spot = {.job = job, .piece = piece, .patch = patch};
    size_t p = 0, k = 0;
    while (p < job->part_count &&
           (job->parts[p].schedule[patch->region] < 0 || !on_patch(&spot, &job->parts[p], patch->region)))
        p++;
    if (p == job->part_count)
        return;
    spot.schedule = (size_t)job->parts[p].schedule[patch->region];
    const struct schedule *under = &job->schedules[patch->schedule], *over = &job->schedules[spot.schedule];
    int last = coat_before(under, under->step_count);
    while (k < over->step_count && over->steps[k].kind != STEP_COAT)
        k++;
    if (last < 0 || k == over->step_count)
        return;
    spot.step = k;
    spot.of = (struct fit_case){.over = over->steps[k].finish,
                                .under = under->steps[last].finish,
                                .top = is_top(over, k),
                                .deliver = job->deliver_at};
    take_steps(arena, &spot.of, under->steps + last + 1, under->step_count - (size_t)last - 1);
    for (size_t i = 0; i < job->fit.count; i++)
        if (job->fit.items[i].under.count > 0)
            judge(&spot, &job->fit.items[i], warnings);
}

void job_check_fit(struct arena *arena, const struct job *job, struct err_list *warnings)
{
    for (size_t s = 0; s < job->schedule_count; s++)
        for (size_t k = 0; k < job->schedules[s].step_count; k++)
            if (job->schedules[s].steps[k].kind == STEP_COAT) {
                check_coat(arena, job, s, k, warnings);
                check_between(arena, job, s, k, warnings);
            }
    for (size_t i = 0; i < job->piece_count; i++)
        if (job->pieces[i].patch)
            check_patch(arena, job, i, warnings);
}
