/* Whether work fits the stretches of the shop. A batch pauses between two units, and neither behind its set-up nor before its
 * clean-up: so its first unit lies in one stretch with the set-up and the first mix, its last with the clean-up. */
#include "base/err.h"
#include "base/measure.h"
#include "timetable/lay.h"
#include "timetable/work.h"

/* Units of one kind in a job, whatever batches they are put in: parts may be turned over within a batch of coats. */
struct alike {
    size_t count;
    int32_t shortest_s;
};

static struct alike alike_to(const struct operations *operations, const struct operation *operation)
{
    struct alike alike = {0, INT32_MAX};
    for (size_t i = 0; i < operations->count; i++) {
        const struct operation *other = &operations->items[i];
        const struct units *units = &other->units;
        bool turns = operation->doing == DO_APPLY && other->doing == DO_FLIP;
        if (!turns && !operation_same_kind(other, operation))
            continue;
        for (size_t k = 0; k < units->count; k++) {
            int32_t own_s = units->ends_s[k] - (k > 0 ? units->ends_s[k - 1] : 0);
            alike.shortest_s = own_s < alike.shortest_s ? own_s : alike.shortest_s;
        }
        alike.count += units->count;
    }
    return alike;
}

/* Whether a batch of it may pause at all. */
static bool may_pause(const struct operation *operation, struct shop_limits limits)
{
    if (operation->doing != DO_APPLY)
        return limits.break_min < INT32_MAX;
    return operation->job->shop.rest_min[operation->work] >= limits.off_min;
}

static int32_t larger(int32_t a, int32_t b)
{
    return a > b ? a : b;
}

/* Minutes that must lie in one stretch, however its batches are made: some unit comes first and some last, and where there are two,
 * the longest is one of these. */
static int32_t at_once(const struct operations *operations, const struct operation *operation,
                       struct shop_limits limits)
{
    const struct shop *shop = &operation->job->shop;
    bool two_part = operation->doing == DO_APPLY && operation->of.step->finish->component_count > 1;
    int32_t longest = (operation->units.longest_s + MINUTE_S - 1) / MINUTE_S;
    int32_t set_up = units_set_up_min(shop, operation->work);
    int32_t clean_up = units_clean_up_min(shop, operation->work, two_part);
    set_up += operation_is_mixed(operation) ? MIXING_MIN + operation->of.step->finish->induction_min : 0;
    int32_t whole = set_up + longest + clean_up;
    if (whole <= limits.longest_min || !may_pause(operation, limits))
        return whole;
    struct alike alike = alike_to(operations, operation);
    if (alike.count == 1)
        return whole;
    int32_t less = set_up < clean_up ? set_up : clean_up;
    int32_t shortest = (alike.shortest_s + MINUTE_S - 1) / MINUTE_S + larger(set_up, clean_up);
    return larger(shortest, alike.count == 2 ? longest + less : longest);
}

bool operations_fit(const struct operations *operations, struct shop_limits limits, struct err_list *errors)
{
    size_t before = errors->count;
    for (size_t i = 0; i < operations->count && limits.longest_min > 0; i++) {
        const struct operation *operation = &operations->items[i];
        if (operation->work < 0 || operation->late_scuff || operation->units.seconds == 0)
            continue;
        int32_t minutes = at_once(operations, operation, limits);
        if (minutes <= limits.longest_min)
            continue;
        err_addf(errors, ERR_INPUT, operations->job->file, "/pieces", "work that fits the shop's hours",
                 "%s: one part takes %s in one go with its set-up or clean-up, and the longest stretch of "
                 "work is %s: lengthen a stretch, or enter the part as several",
                 operation->id, span_format(minutes).text, span_format(limits.longest_min).text);
    }
    return errors->count == before;
}
