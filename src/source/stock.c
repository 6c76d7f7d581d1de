#include "source/job_draft.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "base/day.h"
#include "source/rows.h"

#include <string.h>

enum { COLUMN_FINISH, COLUMN_COMPONENT, COLUMN_AMOUNT, COLUMN_OPENED, COLUMN_BEST_BEFORE, COLUMN_COUNT };

static const double g_per_kg = 1000;

struct stock_reading {
    struct job_draft *draft;
    struct rows rows;
    struct stock *stock;
};

static bool read_finish(struct stock_reading *in)
{
    const struct finish_table *table = in->draft->finishes;
    const char *id = rows_cell(&in->rows, COLUMN_FINISH);
    if (!id)
        return rows_refuse(&in->rows, COLUMN_FINISH, "a finish of the table");
    in->stock->finish = finish_table_find(table, id);
    if (!in->stock->finish && !finish_table_failed(table, id))
        rows_refuse_name(&in->rows, COLUMN_FINISH, "a finish of the table",
                         finish_table_ids(in->draft->reading->arena, table), table->count);
    return in->stock->finish != NULL;
}

/* A finish of one component need not name it. */
static bool read_component(struct stock_reading *in)
{
    const struct finish *finish = in->stock->finish;
    const char *name = rows_cell(&in->rows, COLUMN_COMPONENT);
    const char *names[RATIO_MOST];
    if (!name && finish->component_count == 1)
        return true;
    for (size_t i = 0; i < finish->component_count; i++) {
        names[i] = finish->components[i].name;
        if (name && strcmp(name, names[i]) == 0) {
            in->stock->component = i;
            return true;
        }
    }
    if (!name)
        return rows_refuse(&in->rows, COLUMN_COMPONENT, "a component of this finish");
    return rows_refuse_name(&in->rows, COLUMN_COMPONENT, "a component of this finish", names,
                            finish->component_count);
}

static void read_amount(struct stock_reading *in)
{
    struct err fault;
    struct amount amount;
    const char *text = rows_cell(&in->rows, COLUMN_AMOUNT);
    if (!amount_parse(text ? text : "", &amount, &fault)) {
        rows_refuse(&in->rows, COLUMN_AMOUNT, fault.expected);
        return;
    }
    double density = in->stock->finish->components[in->stock->component].density_kg_per_l;
    in->stock->amount_l = amount.by_mass ? amount.value / g_per_kg / density : amount.value;
}

static void read_day(struct stock_reading *in, size_t column, int64_t *day)
{
    struct err fault;
    struct date date;
    const char *text = rows_cell(&in->rows, column);
    if (!text)
        return;
    if (date_parse(text, &date, &fault))
        *day = date_days(date);
    else
        rows_refuse(&in->rows, column, fault.expected);
}

/* Whether it has been open longer than it keeps when the job begins. */
static bool is_open_too_long(const struct stock *stock, int64_t start_day)
{
    if (!stock->finish || stock->opened_day == INT64_MIN)
        return false;
    int32_t life = stock->finish->components[stock->component].opened_life_min;
    return life != SPAN_NEVER && (start_day - stock->opened_day) * DAY_MINUTES > life;
}

/* The list may have been kept up while the work goes on, so that a can was opened after the job began. */
static void check_dates(struct stock_reading *in)
{
    const struct job *job = in->draft->job;
    int64_t start_day = zone_day(job->zone, job->start_min, NULL);
    if (in->stock->opened_day > zone_day(job->zone, job->deliver_min, NULL))
        rows_refuse(&in->rows, COLUMN_OPENED, "a day on which the can was opened, not after the delivery");
    else if (is_open_too_long(in->stock, start_day))
        rows_warn(&in->rows, COLUMN_OPENED, "open too long before the job begins: it is not counted");
    if (in->stock->best_before_day < start_day)
        rows_warn(&in->rows, COLUMN_BEST_BEFORE, "past its date before the job begins: it is not counted");
}

static void read_row(struct stock_reading *in)
{
    in->stock->row = in->rows.row;
    in->stock->opened_day = INT64_MIN;
    in->stock->best_before_day = INT64_MAX;
    if (read_finish(in) && read_component(in))
        read_amount(in);
    read_day(in, COLUMN_OPENED, &in->stock->opened_day);
    read_day(in, COLUMN_BEST_BEFORE, &in->stock->best_before_day);
    check_dates(in);
}

void job_read_stock(struct field_in from)
{
    static const char *const names[] = {"finish", "component", "amount", "opened", "best-before"};
    static const struct rows_columns columns = {
        .names = names, .count = COLUMN_COUNT, .what = "a stock list", .row = "a row of stock"};
    struct job_draft *draft = (struct job_draft *)from.context;
    struct stock_reading in = {.draft = draft};
    struct stock *stock = NULL;
    struct file_text file;
    size_t capacity = 0;
    if (!named_load(from.at, draft->rule, &file) ||
        !rows_open_csv(&in.rows, draft->reading, &file, &columns, draft->job->strict))
        return;
    while (rows_next(&in.rows)) {
        stock = arena_grow(draft->reading->arena, stock, draft->job->stock_count, &capacity, sizeof *stock);
        in.stock = &stock[draft->job->stock_count++];
        memset(in.stock, 0, sizeof *in.stock);
        read_row(&in);
    }
    draft->job->stock = stock;
}
