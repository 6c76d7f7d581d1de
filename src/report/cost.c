/* What a job costs, as lines for a quote: for people, as JSON and as CSV. */
#include "report/text.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/money.h"
#include "format/csv.h"
#include "report/csv.h"
#include "report/json.h"

/* Labour and materials; -1: one of them is not known. */
static int64_t sum_of(const struct cost_line *line)
{
    return line->labour_cents < 0 || line->material_cents < 0 ? -1
                                                              : line->labour_cents + line->material_cents;
}

static const char *money_text(struct arena *arena, const struct job *job, int64_t cents)
{
    return cents < 0 ? "" : arena_text(arena, money_format(cents, job->currency_digits).text);
}

static const char *name_of(const struct job *job, const struct cost_line *line)
{
    return line->piece == SIZE_MAX ? "tasks" : job->pieces[line->piece].name;
}

static void add_line(struct table *table, const struct job *job, const char *name,
                     const struct cost_line *line)
{
    struct arena *arena = table->arena;
    const char *cells[] = {
        name, arena_text(arena, hours_format(line->minutes).text), money_text(arena, job, line->labour_cents),
        money_text(arena, job, line->material_cents), money_text(arena, job, sum_of(line))};
    table_row(table, cells);
}

/* "12.30 GBP more"; "": one of them is not known. */
static const char *beside_words(struct arena *arena, const struct job *job, int64_t became_cents,
                                int64_t planned_cents)
{
    if (became_cents < 0 || planned_cents < 0)
        return "";
    if (became_cents == planned_cents)
        return "as planned";
    bool more = became_cents > planned_cents;
    int64_t cents = more ? became_cents - planned_cents : planned_cents - became_cents;
    return arena_textf(arena, "%s%s%s %s than planned", money_text(arena, job, cents),
                       job->currency ? " " : "", job->currency ? job->currency : "", more ? "more" : "less");
}

/* What the log has made of the quote. */
static void print_beside(struct screen *screen, const struct quote *quote)
{
    struct arena *arena = screen->out->arena;
    const struct cost_line *became = &quote->costs->total, *planned = &quote->first_costs->total;
    const struct job *job = quote->plan->job;
    const char *labour = beside_words(arena, job, became->labour_cents, planned->labour_cents);
    const char *materials = beside_words(arena, job, became->material_cents, planned->material_cents);
    if (*labour)
        screen_paragraph(screen, 2, 2, arena_textf(arena, "labour: %s", labour));
    if (*materials)
        screen_paragraph(screen, 2, 2, arena_textf(arena, "materials: %s", materials));
    screen_paragraph(screen, 2, 2,
                     "as it became: what was recorded with the hours and litres that it took, the rest as "
                     "planned now; as planned: the same job without its log");
}

static void print_notes(struct screen *screen, const struct quote *quote)
{
    struct arena *arena = screen->out->arena;
    const struct costs *costs = quote->costs;
    const struct purchases *purchases = quote->purchases;
    const struct job *job = quote->plan->job;
    const char *currency = job->currency ? job->currency : "";
    screen_heading(screen, "Notes");
    if (quote->first_plan)
        print_beside(screen, quote);
    if (costs->surplus_cents >= 0 && purchases->cost_cents >= 0)
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena,
                                     "not in the lines: %s %s left in opened packs; everything to buy%s "
                                     "costs %s",
                                     money_text(arena, job, costs->surplus_cents), currency,
                                     quote->first_plan ? ", what was used too," : "",
                                     money_text(arena, job, purchases->cost_cents)));
    if (job->shop.rate_cents_per_hour >= 0)
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena, "labour at %s %s an hour, from the shop; drying is not charged",
                                     money_text(arena, job, job->shop.rate_cents_per_hour), currency));
    else
        screen_paragraph(screen, 2, 2, "no hourly rate is known: give \"rate-per-hour\" in the shop");
    if (costs->total.material_cents < 0)
        screen_paragraph(
            screen, 2, 2,
            "a price is missing: give it in a price list (\"prices\") or in the shop's own finish files");
    screen_paragraph(
        screen, 2, 2,
        costs->sundries_cents > 0
            ? "materials: the likely litres at the price of the packs bought, stock at the price of the "
              "cheapest "
              "pack; sundries (thinner, abrasives, cloths and the like) where the price list has a price"
            : "materials: the likely litres at the price of the packs bought, stock at the price of the "
              "cheapest "
              "pack; thinner, abrasives and cloths are not counted");
}

static void print_costs(struct screen *screen, const struct job *job, const struct costs *costs,
                        const char *which)
{
    static const struct column columns[] = {{"piece", ALIGN_LEFT, true},
                                            {"hands-on", ALIGN_RIGHT, false},
                                            {"labour", ALIGN_RIGHT, false},
                                            {"materials", ALIGN_RIGHT, false},
                                            {"sum", ALIGN_RIGHT, false}};
    struct arena *arena = screen->out->arena;
    struct table table;
    screen_heading(screen, arena_textf(arena, "Cost of %s%s%s%s", job->name, job->currency ? ", in " : "",
                                       job->currency ? job->currency : "", which));
    table_init(&table, arena, columns, 5);
    for (size_t i = 0; i < costs->count; i++)
        add_line(&table, job, name_of(job, &costs->lines[i]), &costs->lines[i]);
    if (costs->sundries_cents > 0)
        table_row(&table, (const char *[]){"sundries", "", "", money_text(arena, job, costs->sundries_cents),
                                           money_text(arena, job, costs->sundries_cents)});
    add_line(&table, job, "total", &costs->total);
    table_print(&table, screen, 2);
}

void show_cost(struct screen *screen, const struct quote *quote)
{
    const struct job *job = quote->plan->job;
    if (quote->first_plan)
        print_costs(screen, job, quote->first_costs, ", as planned");
    print_costs(screen, job, quote->costs, quote->first_plan ? ", as it became" : "");
    print_notes(screen, quote);
}

static void write_line(struct json_write *w, const struct job *job, const struct cost_line *line)
{
    json_put_whole(w, "minutes", line->minutes);
    json_put_money(w, "labour", line->labour_cents, job->currency_digits);
    json_put_money(w, "materials", line->material_cents, job->currency_digits);
    json_put_money(w, "sum", sum_of(line), job->currency_digits);
    json_close(w);
}

static void write_costs(struct json_write *w, const struct job *job, const struct costs *costs,
                        int64_t bought_cents)
{
    json_open(w, "lines", '[');
    for (size_t i = 0; i < costs->count; i++) {
        const struct cost_line *line = &costs->lines[i];
        json_open_row(w, NULL, '{');
        json_put_text(w, "piece", line->piece == SIZE_MAX ? NULL : name_of(job, line));
        write_line(w, job, line);
    }
    json_close(w);
    json_open_row(w, "total", '{');
    write_line(w, job, &costs->total);
    json_put_money(w, "sundries", costs->sundries_cents > 0 ? costs->sundries_cents : -1,
                   job->currency_digits);
    json_put_money(w, "bought", bought_cents, job->currency_digits);
    json_put_money(w, "surplus", costs->surplus_cents, job->currency_digits);
}

void write_cost(struct json_write *w, const struct quote *quote)
{
    const struct job *job = quote->plan->job;
    json_open(w, NULL, '{');
    json_put_text(w, "job", job->name);
    json_put_text(w, "currency", job->currency);
    json_put_money(w, "rate_per_hour", job->shop.rate_cents_per_hour, job->currency_digits);
    write_costs(w, job, quote->costs, quote->purchases->cost_cents);
    if (quote->first_plan) {
        json_open(w, "planned", '{');
        write_costs(w, job, quote->first_costs, quote->first_plan->purchases->cost_cents);
        json_close(w);
    } else
        json_put_null(w, "planned");
    json_close(w);
}

static void put(struct buf *out, const char *cell)
{
    csv_put_shown(out, cell);
    buf_add_char(out, ',');
}

/* A line as it became, and behind its currency as planned. Of what has no work the minutes are -1. */
struct beside {
    const char *kind, *piece;
    struct cost_line became, planned;
    int64_t became_cents, planned_cents; /* their sums */
};

static void put_figures(struct buf *out, const struct job *job, const struct cost_line *line, int64_t cents)
{
    if (line->minutes >= 0)
        buf_addf(out, "%lld", (long long)line->minutes);
    buf_add_char(out, ',');
    put(out, money_text(out->arena, job, line->labour_cents));
    put(out, money_text(out->arena, job, line->material_cents));
    csv_put_shown(out, money_text(out->arena, job, cents));
}

static void put_beside(struct buf *out, const struct quote *quote, const struct beside *row)
{
    const struct job *job = quote->plan->job;
    put(out, row->kind);
    put(out, row->piece);
    put_figures(out, job, &row->became, row->became_cents);
    buf_add_char(out, ',');
    csv_put(out, row->became_cents < 0 || !job->currency ? "" : job->currency);
    buf_add_char(out, ',');
    if (quote->first_plan)
        put_figures(out, job, &row->planned, row->planned_cents);
    else
        buf_add(out, ",,,");
    buf_add(out, "\r\n");
}

static struct cost_line line_of(const struct costs *costs, size_t piece)
{
    for (size_t i = 0; costs && i < costs->count; i++)
        if (costs->lines[i].piece == piece)
            return costs->lines[i];
    return (struct cost_line){.piece = piece};
}

static bool is_in(const struct costs *costs, size_t piece)
{
    struct cost_line line = line_of(costs, piece);
    return line.minutes > 0 || line.material_cents != 0;
}

static void put_line(struct buf *out, const struct quote *quote, size_t piece)
{
    struct cost_line became = line_of(quote->costs, piece), planned = line_of(quote->first_costs, piece);
    const struct job *job = quote->plan->job;
    bool task = piece == SIZE_MAX;
    put_beside(out, quote,
               &(struct beside){task ? "tasks" : "piece", task ? "" : job->pieces[piece].name, became,
                                planned, sum_of(&became), sum_of(&planned)});
}

/* What has no minutes and no labour. */
static void put_money(struct buf *out, const struct quote *quote, const char *kind, int64_t became_cents,
                      int64_t planned_cents)
{
    put_beside(
        out, quote,
        &(struct beside){
            kind, "", {0, -1, -1, became_cents}, {0, -1, -1, planned_cents}, became_cents, planned_cents});
}

void csv_cost(struct buf *out, const struct quote *quote)
{
    const struct costs *became = quote->costs, *planned = quote->first_costs;
    size_t pieces = quote->plan->job->piece_count;
    buf_add(out, "line,piece,minutes,labour,materials,sum,currency,planned_minutes,planned_labour,"
                 "planned_materials,planned_sum\r\n");
    for (size_t i = 0; i <= pieces; i++)
        if (is_in(became, i < pieces ? i : SIZE_MAX) || is_in(planned, i < pieces ? i : SIZE_MAX))
            put_line(out, quote, i < pieces ? i : SIZE_MAX);
    int64_t sundries = planned ? planned->sundries_cents : 0;
    if (became->sundries_cents > 0 || sundries > 0)
        put_money(out, quote, "sundries", became->sundries_cents, sundries);
    put_beside(out, quote,
               &(struct beside){"total", "", became->total, planned ? planned->total : became->total,
                                sum_of(&became->total), planned ? sum_of(&planned->total) : -1});
    put_money(out, quote, "surplus", became->surplus_cents, planned ? planned->surplus_cents : -1);
}
