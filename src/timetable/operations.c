#include "timetable/operations.h"

#include "base/arena.h"
#include "base/text.h"
#include "surface/sum.h"

const char *doing_name(enum doing doing)
{
    static const char *const names[DOING_COUNT] = {
        [DO_SAND] = "sand",     [DO_SCUFF] = "scuff", [DO_RAISE] = "raise",
        [DO_MASK] = "mask",     [DO_APPLY] = "apply", [DO_FLIP] = "flip",
        [DO_POLISH] = "polish", [DO_RUB] = "rub",     [DO_TASK] = "task",
    };
    return names[doing];
}

int32_t operation_state_min(const struct operation *apply, enum finish_state state)
{
    return finish_times_of(apply->of.step->finish, apply->of.of_finish, apply->of.step->by)->after_min[state];
}

int32_t operation_window_min(const struct operation *apply)
{
    return finish_times_of(apply->of.step->finish, apply->of.of_finish, apply->of.step->by)->recoat_last_min;
}

static int64_t later_of(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

int64_t operation_release_min(const struct operation *operation)
{
    const struct job *job = operation->job;
    int64_t from = later_of(later_of(job->start_min, job->now_min), operation->release_min);
    return operation->piece >= 0 ? later_of(from, job->pieces[operation->piece].ready_min) : from;
}

static bool abrades(const struct operation *operation)
{
    return operation->doing == DO_SAND || operation->doing == DO_SCUFF;
}

bool operation_same_kind(const struct operation *a, const struct operation *b)
{
    if (abrades(a) && abrades(b))
        return a->grit == b->grit;
    if (a->doing != b->doing || a->doing == DO_TASK)
        return false;
    if (a->doing != DO_APPLY)
        return true;
    const struct step *left = a->of.step, *right = b->of.step;
    return finish_same(left->finish, right->finish) && left->thin == right->thin && left->by == right->by;
}

bool operation_same_lot(const struct operation *a, const struct operation *b)
{
    return a->job == b->job && a->piece >= 0 && a->piece == b->piece && a->lot == b->lot;
}

const char *operation_with(struct arena *arena, const struct operation *operation)
{
    if (operation->doing == DO_APPLY)
        return operation->of.step->finish->id;
    if (abrades(operation))
        return arena_textf(arena, "%d", operation->grit);
    if (operation->doing == DO_TASK)
        return text_slug(arena, operation->words);
    return doing_name(operation->doing);
}

bool operation_is_dry(const struct operation *operation)
{
    return operation->doing != DO_APPLY && operation->doing != DO_TASK;
}

bool operation_is_mixed(const struct operation *operation)
{
    return operation->doing == DO_APPLY &&
           (operation->of.step->finish->component_count > 1 || operation->of.step->thin > 0);
}

unsigned operation_needs(const struct operation *operation)
{
    switch (operation->doing) {
    case DO_APPLY:
        return 1u << operation->of.step->by;
    case DO_SAND:
        return 1u << WORK_SAND;
    case DO_SCUFF:
        return 1u << WORK_SCUFF | 1u << WORK_SAND;
    case DO_POLISH:
        return 1u << WORK_POLISH;
    case DO_RUB:
        return 1u << WORK_RUB;
    default:
        return 0;
    }
}

void operations_share_loss(const struct operation *const *coats, size_t count, double *shares)
{
    struct sum all = {0};
    for (size_t i = 0; i < count; i++) {
        shares[i] = coat_litres(&coats[i]->pass, &coats[i]->of, 0).likely;
        sum_add(&all, shares[i]);
    }
    double litres = sum_value(&all);
    for (size_t i = 0; i < count; i++)
        shares[i] = litres > 0 ? shares[i] / litres : 1.0 / (double)count;
}

bool operation_sprays(const struct operation *operation)
{
    return operation->doing == DO_APPLY && tool_sprays(operation->of.step->by);
}

bool operations_lay(const struct operations *operations, const struct finish *finish)
{
    for (size_t i = 0; i < operations->count; i++)
        if (operations->items[i].doing == DO_APPLY && operations->items[i].of.step->finish == finish)
            return true;
    return false;
}
