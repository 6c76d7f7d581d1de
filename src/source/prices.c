/* `prices`: a list of what the shop pays, for packs and kits of finishes and for sundries. What it says goes over the prices
 * of the finish files; a size that those lack is one more pack on offer. */
#include "source/job_draft.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "base/money.h"
#include "base/number.h"
#include "source/rows.h"

#include <math.h>
#include <string.h>

enum { COLUMN_FINISH, COLUMN_COMPONENT, COLUMN_SIZE, COLUMN_PRICE, COLUMN_COUNT };

static const double ml_per_l = 1000, g_per_kg = 1000, same_l = 1e-6;

struct price_row {
    struct job_draft *draft;
    struct rows rows;
    int64_t cents;
};

static struct arena *arena_of(const struct price_row *in)
{
    return in->draft->reading->arena;
}

static bool read_cents(struct price_row *in)
{
    struct err fault;
    const char *text = rows_cell(&in->rows, COLUMN_PRICE);
    if (text && money_parse(text, in->draft->job->currency_digits, &in->cents, &fault))
        return true;
    return rows_refuse(&in->rows, COLUMN_PRICE, text ? fault.expected : "a price such as \"14.50\"");
}

/* The size of a pack in litres of its component. */
static bool read_litres(struct price_row *in, double density_kg_per_l, double *litres)
{
    struct err fault;
    struct amount amount;
    const char *text = rows_cell(&in->rows, COLUMN_SIZE);
    if (!amount_parse(text ? text : "", &amount, &fault))
        return rows_refuse(&in->rows, COLUMN_SIZE, fault.expected);
    *litres = amount.by_mass ? amount.value / g_per_kg / density_kg_per_l : amount.value;
    return *litres > 0 || rows_refuse(&in->rows, COLUMN_SIZE, "a size above 0");
}

/* A pack of that size with that price: the one that there is, or one more. */
static void price_pack(struct price_row *in, struct component *component, double litres)
{
    struct pack *packs = ARENA_ARRAY(arena_of(in), component->pack_count + 1, struct pack);
    size_t i = 0, count = component->pack_count;
    if (count > 0)
        memcpy(packs, component->packs, count * sizeof *packs);
    while (i < count && fabs(packs[i].size_l - litres) > same_l)
        i++;
    if (i == count)
        packs[component->pack_count++] = (struct pack){
            .size_l = litres, .label = arena_text(arena_of(in), rows_cell(&in->rows, COLUMN_SIZE))};
    packs[i].price_cents = in->cents;
    component->packs = packs;
}

static double kit_litres(const struct finish *finish, const struct kit *kit)
{
    double litres = 0;
    for (size_t i = 0; i < finish->component_count; i++)
        litres += kit->contents_l[i];
    return litres;
}

/* The kit of a size, or the only one where no size is said. */
static bool price_kit(struct price_row *in, struct finish *finish)
{
    struct amount amount = {0};
    const char *size = rows_cell(&in->rows, COLUMN_SIZE);
    struct kit *kits = ARENA_ARRAY(arena_of(in), finish->kit_count, struct kit);
    bool read = size && amount_parse(size, &amount, NULL) && !amount.by_mass;
    for (size_t i = 0; i < finish->kit_count; i++)
        kits[i] = finish->kits[i];
    for (size_t i = 0; i < finish->kit_count; i++) {
        if (!(read && fabs(kit_litres(finish, &kits[i]) - amount.value) < same_l) &&
            (size || finish->kit_count > 1))
            continue;
        kits[i].price_cents = in->cents;
        finish->kits = kits;
        return true;
    }
    if (finish->kit_count > 0)
        return rows_refuse(&in->rows, COLUMN_SIZE,
                           "the litres of a kit of this finish, or a component beside it");
    return rows_refuse(&in->rows, COLUMN_COMPONENT, "a component of this finish: it has several, and no kit");
}

/* The component that a row names; a finish of one need not. components->count: none, which is reported. */
static size_t component_of(struct price_row *in, const struct finish *finish)
{
    const char *name = rows_cell(&in->rows, COLUMN_COMPONENT), *names[RATIO_MOST];
    size_t i = 0;
    for (; i < finish->component_count; i++) {
        names[i] = finish->components[i].name;
        if (!name || strcmp(name, names[i]) == 0)
            return i;
    }
    rows_refuse_name(&in->rows, COLUMN_COMPONENT, "a component of this finish", names, i);
    return i;
}

/* The finish with that price takes the place of the one that was read. */
static void price_finish(struct price_row *in, size_t place)
{
    struct finish_table *table = in->draft->finishes;
    struct finish *finish = ARENA_NEW(arena_of(in), struct finish);
    double litres = 0;
    *finish = *table->items[place];
    if (!rows_cell(&in->rows, COLUMN_COMPONENT) && finish->component_count > 1) {
        if (price_kit(in, finish))
            table->items[place] = finish;
        return;
    }
    size_t i = component_of(in, finish);
    if (i == finish->component_count || !read_litres(in, finish->components[i].density_kg_per_l, &litres))
        return;
    struct component *components = ARENA_ARRAY(arena_of(in), finish->component_count, struct component);
    memcpy(components, finish->components, finish->component_count * sizeof *components);
    price_pack(in, &components[i], litres);
    finish->components = components;
    table->items[place] = finish;
}

/* How many of its units a sundry's size is: "50 pcs", "1 l" of what is counted in ml; one where nothing is said. */
static bool sundry_units(const char *size, const char *unit, double *units)
{
    struct amount amount;
    struct text_short number = {""};
    size_t digits = size ? strspn(size, "0123456789.") : 0;
    *units = 1;
    if (!size)
        return true;
    if (amount_parse(size, &amount, NULL)) {
        *units = strcmp(unit, "ml") == 0 && !amount.by_mass ? amount.value * ml_per_l : 0;
        return *units > 0;
    }
    if (digits >= sizeof number.text)
        return false;
    memcpy(number.text, size, digits);
    const char *behind = size + digits + strspn(size + digits, " ");
    return number_parse(number.text, units, NULL) && *units > 0 &&
           (*behind == '\0' || strcmp(behind, unit) == 0);
}

static void price_sundry(struct price_row *in, struct sundry_rule *rule)
{
    double units;
    if (sundry_units(rows_cell(&in->rows, COLUMN_SIZE), rule->unit, &units))
        rule->cents_each = (double)in->cents / units;
    else
        rows_refuse(
            &in->rows, COLUMN_SIZE,
            arena_textf(arena_of(in), "so many of it, such as \"10 %s\", or nothing for one", rule->unit));
}

static void refuse_name(struct price_row *in)
{
    const struct finish_table *table = in->draft->finishes;
    const struct sundry_rules *sundries = &in->draft->job->sundries;
    static const char expected[] = "a finish of the table, or a sundry of its rules";
    if (!rows_cell(&in->rows, COLUMN_FINISH)) {
        rows_refuse(&in->rows, COLUMN_FINISH, expected);
        return;
    }
    const char **names = ARENA_ARRAY(arena_of(in), table->count + sundries->count, const char *);
    for (size_t i = 0; i < table->count; i++)
        names[i] = table->items[i]->id;
    for (size_t i = 0; i < sundries->count; i++)
        names[table->count + i] = sundries->items[i].name;
    rows_refuse_name(&in->rows, COLUMN_FINISH, expected, names, table->count + sundries->count);
}

static void read_row(struct price_row *in, struct sundry_rule *sundries)
{
    const struct finish_table *table = in->draft->finishes;
    const char *name = rows_cell(&in->rows, COLUMN_FINISH);
    if (!read_cents(in))
        return;
    for (size_t i = 0; name && i < table->count; i++)
        if (strcmp(table->items[i]->id, name) == 0) {
            price_finish(in, i);
            return;
        }
    for (size_t i = 0; name && i < in->draft->job->sundries.count; i++)
        if (strcmp(sundries[i].name, name) == 0) {
            price_sundry(in, &sundries[i]);
            return;
        }
    if (!name || !finish_table_failed(table, name))
        refuse_name(in);
}

static void read_list(struct job_draft *draft, struct json_at at, struct path_rule rule)
{
    static const char *const names[] = {"finish", "component", "size", "price"};
    static const struct rows_columns columns = {
        .names = names, .count = COLUMN_COUNT, .what = "a price list", .row = "a price"};
    struct sundry_rules *rules = &draft->job->sundries;
    struct price_row in = {.draft = draft};
    struct file_text file;
    if (!at.node || !named_load(at, rule, &file) ||
        !rows_open_csv(&in.rows, draft->reading, &file, &columns, draft->job->strict))
        return;
    struct sundry_rule *sundries = ARENA_ARRAY(draft->reading->arena, rules->count, struct sundry_rule);
    for (size_t i = 0; i < rules->count; i++)
        sundries[i] = rules->items[i];
    while (rows_next(&in.rows))
        read_row(&in, sundries);
    rules->items = sundries;
}

void job_read_prices(struct field_in in)
{
    struct job_draft *draft = (struct job_draft *)in.context;
    read_list(draft, draft->shop_prices, draft->busy_rule);
    read_list(draft, in.at, draft->rule);
}
