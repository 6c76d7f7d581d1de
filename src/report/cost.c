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

static void print_notes(struct screen *screen, const struct job *job, const struct purchases *purchases,
                        const struct costs *costs)
{
    struct arena *arena = screen->out->arena;
    const char *currency = job->currency ? job->currency : "";
    if (costs->surplus_cents >= 0 && purchases->cost_cents >= 0)
        screen_paragraph(screen, 2, 2,
                         arena_textf(arena,
                                     "not in the lines: %s %s left in opened packs; everything to buy "
                                     "costs %s",
                                     money_text(arena, job, costs->surplus_cents), currency,
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

void show_cost(struct screen *screen, const struct job *job, const struct purchases *purchases,
               const struct costs *costs)
{
    static const struct column columns[] = {{"piece", ALIGN_LEFT, true},
                                            {"hands-on", ALIGN_RIGHT, false},
                                            {"labour", ALIGN_RIGHT, false},
                                            {"materials", ALIGN_RIGHT, false},
                                            {"sum", ALIGN_RIGHT, false}};
    struct arena *arena = screen->out->arena;
    struct table table;
    screen_heading(screen, arena_textf(arena, "Cost of %s%s%s", job->name, job->currency ? ", in " : "",
                                       job->currency ? job->currency : ""));
    table_init(&table, arena, columns, 5);
    for (size_t i = 0; i < costs->count; i++)
        add_line(&table, job, name_of(job, &costs->lines[i]), &costs->lines[i]);
    if (costs->sundries_cents > 0)
        table_row(&table, (const char *[]){"sundries", "", "", money_text(arena, job, costs->sundries_cents),
                                           money_text(arena, job, costs->sundries_cents)});
    add_line(&table, job, "total", &costs->total);
    table_print(&table, screen, 2);
    screen_heading(screen, "Notes");
    print_notes(screen, job, purchases, costs);
}

static void write_line(struct json_write *w, const struct job *job, const struct cost_line *line)
{
    json_put_whole(w, "minutes", line->minutes);
    json_put_money(w, "labour", line->labour_cents, job->currency_digits);
    json_put_money(w, "materials", line->material_cents, job->currency_digits);
    json_put_money(w, "sum", sum_of(line), job->currency_digits);
    json_close(w);
}

void write_cost(struct json_write *w, const struct job *job, const struct purchases *purchases,
                const struct costs *costs)
{
    json_open(w, NULL, '{');
    json_put_text(w, "job", job->name);
    json_put_text(w, "currency", job->currency);
    json_put_money(w, "rate_per_hour", job->shop.rate_cents_per_hour, job->currency_digits);
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
    json_put_money(w, "bought", purchases->cost_cents, job->currency_digits);
    json_put_money(w, "surplus", costs->surplus_cents, job->currency_digits);
    json_close(w);
}

static void put(struct buf *out, const char *cell)
{
    csv_put_shown(out, cell);
    buf_add_char(out, ',');
}

static void put_end(struct buf *out, const struct job *job, int64_t cents)
{
    put(out, money_text(out->arena, job, cents));
    csv_put(out, cents < 0 || !job->currency ? "" : job->currency);
    buf_add(out, "\r\n");
}

static void put_line(struct buf *out, const struct job *job, const char *kind, const struct cost_line *line)
{
    put(out, kind);
    put(out, line->piece == SIZE_MAX ? "" : name_of(job, line));
    buf_addf(out, "%lld,", (long long)line->minutes);
    put(out, money_text(out->arena, job, line->labour_cents));
    put(out, money_text(out->arena, job, line->material_cents));
    put_end(out, job, sum_of(line));
}

void csv_cost(struct buf *out, const struct job *job, const struct costs *costs)
{
    buf_add(out, "line,piece,minutes,labour,materials,sum,currency\r\n");
    for (size_t i = 0; i < costs->count; i++)
        put_line(out, job, costs->lines[i].piece == SIZE_MAX ? "tasks" : "piece", &costs->lines[i]);
    if (costs->sundries_cents > 0) {
        buf_add(out, "sundries,,,,");
        put(out, money_text(out->arena, job, costs->sundries_cents));
        put_end(out, job, costs->sundries_cents);
    }
    put_line(out, job, "total", &costs->total);
    buf_add(out, "surplus,,,,");
    put(out, money_text(out->arena, job, costs->surplus_cents));
    put_end(out, job, costs->surplus_cents);
}
