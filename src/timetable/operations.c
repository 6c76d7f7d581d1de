#include "timetable/operations.h"

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
