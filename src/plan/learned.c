#include "plan/learned.h"

#include "base/arena.h"
#include "timetable/facts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double mean_weight = 1, variance_weight = 4, deviations = 2, most_ratio = 2,
                    most_tolerance = 0.95;
const double learned_minutes_tolerance = 0.3;

enum { LOSS_BATCHES = 4, LOSS_SIZES = 3 };

static double bounded_log(double ratio)
{
    return fmax(fmin(log(ratio), log(most_ratio)), -log(most_ratio));
}

struct estimate estimate_make(const double *ratios, size_t count, double tolerance)
{
    struct estimate estimate = {.count = count};
    double n = (double)count, mean = 0, squares = 0;
    for (size_t i = 0; i < count; i++) {
        mean += bounded_log(ratios[i]) / n;
        estimate.bounded += ratios[i] > most_ratio || ratios[i] < 1 / most_ratio;
    }
    for (size_t i = 0; i < count; i++)
        squares += pow(bounded_log(ratios[i]) - mean, 2);
    double prior = pow(tolerance / deviations, 2) / (1 + 1 / mean_weight);
    double variance =
        (variance_weight * prior + squares + mean_weight * n / (mean_weight + n) * mean * mean) /
        (variance_weight + n);
    estimate.factor = exp(n * mean / (mean_weight + n));
    estimate.tolerance = fmin(deviations * sqrt(variance * (1 + 1 / (mean_weight + n))), most_tolerance);
    return estimate;
}

static int by_value(const void *a, const void *b)
{
    double left = *(const double *)a, right = *(const double *)b;
    return (left > right) - (left < right);
}

static double median(double *values, size_t count)
{
    qsort(values, count, sizeof *values, by_value);
    return (values[(count - 1) / 2] + values[count / 2]) / 2;
}

double learned_loss(struct arena *arena, const struct learned_batch *batches, size_t count, double table_l,
                    size_t *seen)
{
    double least = INFINITY, most = 0;
    size_t slopes = 0;
    for (size_t i = 0; i < count; i++) {
        least = fmin(least, batches[i].laid_l);
        most = fmax(most, batches[i].laid_l);
    }
    *seen = 0;
    if (count < LOSS_BATCHES || most < LOSS_SIZES * least)
        return table_l;
    double *values = ARENA_ARRAY(arena, count * count, double);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < i; k++)
            if (batches[i].laid_l != batches[k].laid_l)
                values[slopes++] =
                    (batches[i].used_l - batches[k].used_l) / (batches[i].laid_l - batches[k].laid_l);
    double slope = median(values, slopes);
    for (size_t i = 0; i < count; i++)
        values[i] = (batches[i].used_l - slope * batches[i].laid_l) / batches[i].share;
    double loss = fmax(median(values, count), 0);
    *seen = count;
    return (mean_weight * table_l + (double)count * loss) / (mean_weight + (double)count);
}

/* What the ratios are of: the table's own figures, also where the job goes by those that were learned before. */
static const struct finish *reference_of(const struct finish *finish, const struct finish *const *table,
                                         size_t count)
{
    for (size_t i = 0; finish->learned && i < count; i++)
        if (strcmp(table[i]->id, finish->id) == 0)
            return table[i];
    return finish;
}

static int row_compare(const struct learned_row *row, const char *id, enum tool tool)
{
    int order = strcmp(row->finish->id, id);
    return order ? order : (int)row->tool - (int)tool;
}

static struct learned_row *row_of(struct arena *arena, struct learned *learned, const struct operation *coat,
                                  const struct finish *reference)
{
    size_t at = 0;
    enum tool tool = coat->of.step->by;
    while (at < learned->count && row_compare(&learned->rows[at], reference->id, tool) < 0)
        at++;
    if (at < learned->count && row_compare(&learned->rows[at], reference->id, tool) == 0)
        return &learned->rows[at];
    learned->rows = arena_grow(arena, learned->rows, learned->count, &learned->room, sizeof *learned->rows);
    memmove(learned->rows + at + 1, learned->rows + at, (learned->count++ - at) * sizeof *learned->rows);
    learned->rows[at] = (struct learned_row){
        .finish = reference, .tool = tool, .table_loss_l = coat_loss_l(&coat->job->shop, reference, tool)};
    return &learned->rows[at];
}

/* Litres of a coat at the table's coverage, with so much of the tool's loss. */
static double table_litres(const struct operation *coat, const struct finish *reference, double share)
{
    struct step step = *coat->of.step;
    struct coat of = coat->of;
    step.finish = reference;
    of.step = &step;
    return coat_litres(&coat->pass, &of, share).likely;
}

static bool is_measured(const struct fact *fact)
{
    return fact->entry && fact->operation.doing == DO_APPLY && fact->entry->used_l > 0;
}

/* The batch of a coat, where it is the first of it with a record. */
static bool take_batch(const struct operations *job, size_t first, const struct finish *reference,
                       struct learned_batch *batch)
{
    const struct fact *facts = job->facts;
    double all = 0;
    *batch = (struct learned_batch){0};
    for (size_t i = 0; i < job->fact_count; i++) {
        if (!facts_are_one_batch(&facts[first], &facts[i]))
            continue;
        double laid = table_litres(&facts[i].operation, reference, 0);
        all += laid;
        if (!is_measured(&facts[i]))
            continue;
        if (i < first)
            return false;
        batch->used_l += facts[i].entry->used_l;
        batch->laid_l += laid;
        batch->coats++;
    }
    batch->share = batch->laid_l / all;
    batch->loss_l = table_litres(&facts[first].operation, reference, batch->share) -
                    table_litres(&facts[first].operation, reference, 0);
    return batch->laid_l > 0;
}

static void take_minutes(struct arena *arena, const struct fact *fact, struct learned_row *row)
{
    double planned = fact->operation.units.seconds / 60.0, real = (double)fact_measured_min(arena, fact);
    if (planned <= 0 || real <= 0)
        return;
    row->minutes =
        arena_grow(arena, row->minutes, row->minutes_count, &row->minutes_room, sizeof *row->minutes);
    row->minutes[row->minutes_count++] = real / planned;
}

/* Litres that reached the wood, over what they should have been. A tool cannot keep more than was taken. */
static double batch_ratio(const struct learned_batch *batch)
{
    double real = batch->used_l - batch->loss_l;
    return fmax(real / batch->laid_l, 1e-9);
}

static void settle(struct arena *arena, struct learned_row *row)
{
    double *ratios = ARENA_ARRAY(arena, row->batch_count, double);
    for (size_t i = 0; i < row->batch_count; i++)
        ratios[i] = batch_ratio(&row->batches[i]);
    row->litres = estimate_make(ratios, row->batch_count, row->finish->tolerance);
    row->time = estimate_make(row->minutes, row->minutes_count, learned_minutes_tolerance);
    row->loss_l = learned_loss(arena, row->batches, row->batch_count, row->table_loss_l, &row->loss_batches);
}

struct learned *learned_make(struct arena *arena, const struct operations *const *jobs, size_t count,
                             const struct finish *const *table, size_t table_count)
{
    struct learned *learned = ARENA_NEW(arena, struct learned);
    for (size_t j = 0; j < count; j++) {
        learned->jobs++;
        learned->logs += jobs[j]->job->log.count > 0;
        for (size_t i = 0; i < jobs[j]->count; i++) {
            const struct operation *operation = &jobs[j]->items[i];
            if (operation->doing == DO_APPLY)
                (void)row_of(arena, learned, operation,
                             reference_of(operation->of.step->finish, table, table_count));
        }
        for (size_t i = 0; i < jobs[j]->fact_count; i++) {
            const struct fact *fact = &jobs[j]->facts[i];
            struct learned_batch batch;
            if (!fact->entry || fact->operation.doing != DO_APPLY)
                continue;
            const struct finish *reference =
                reference_of(fact->operation.of.step->finish, table, table_count);
            struct learned_row *row = row_of(arena, learned, &fact->operation, reference);
            take_minutes(arena, fact, row);
            if (!is_measured(fact) || !take_batch(jobs[j], i, reference, &batch))
                continue;
            row->batches =
                arena_grow(arena, row->batches, row->batch_count, &row->batch_room, sizeof *row->batches);
            row->batches[row->batch_count++] = batch;
            row->coats += batch.coats;
        }
    }
    for (size_t i = 0; i < learned->count; i++)
        settle(arena, &learned->rows[i]);
    return learned;
}

struct estimate learned_coverage(struct arena *arena, const struct learned *learned,
                                 const struct finish *finish, size_t *coats)
{
    size_t count = 0, room = 0;
    double *ratios = NULL;
    *coats = 0;
    for (size_t i = 0; i < learned->count; i++) {
        const struct learned_row *row = &learned->rows[i];
        if (strcmp(row->finish->id, finish->id) != 0 || finish->tool_m2_per_l[row->tool] > 0)
            continue;
        *coats += row->coats;
        for (size_t k = 0; k < row->batch_count; k++) {
            ratios = arena_grow(arena, ratios, count, &room, sizeof *ratios);
            ratios[count++] = batch_ratio(&row->batches[k]);
        }
    }
    return estimate_make(ratios, count, finish->tolerance);
}
