#include "io/table_buy.h"

#include "base/arena.h"
#include "base/moment.h"
#include "base/money.h"

int64_t finish_first_min(const struct timetable *timetable, const struct finish *finish)
{
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct operation *operation = timetable->steps[i].operation;
        if (operation->doing == DO_APPLY && operation->of.step->finish == finish)
            return timetable->steps[i].start_min;
    }
    return INT64_MAX;
}

static const char *volume_text(const struct screen *screen, double volume_l)
{
    return arena_text(screen->out->arena, volume_format(volume_l, screen->units).text);
}

static const char *price_text(const struct screen *screen, const struct job *job, int64_t cents)
{
    return cents < 0 ? "" : arena_text(screen->out->arena, money_format(cents, job->currency_digits).text);
}

static const char *by_text(const struct screen *screen, const struct plan *plan, const struct finish *finish)
{
    int64_t first = finish_first_min(plan->timetable, finish);
    if (first == INT64_MAX)
        return "";
    return arena_text(screen->out->arena, moment_format(plan->job->zone, first, MOMENT_DAY).text);
}

static int64_t times(int64_t cents, int count)
{
    return cents < 0 ? -1 : cents * count;
}

/* "2 x 375 ml" and its price for each kind of pack; component names are said once. */
static void add_packs(struct table *table, const struct screen *screen, const struct plan *plan,
                      const struct purchase *purchase, size_t component)
{
    struct arena *arena = screen->out->arena;
    const struct purchase_component *bought = &purchase->components[component];
    const struct finish *finish = purchase->need.finish;
    const char *name = finish->component_count > 1 || finish->kit_count
                           ? arena_textf(arena, "%s: %s", finish->name, finish->components[component].name)
                           : finish->name;
    for (size_t i = 0; i < bought->pack_count; i++) {
        const struct purchase_pack *pack = &bought->packs[i];
        const char *cells[] = {i ? "" : name, arena_textf(arena, "%d x %s", pack->count, pack->pack->label),
                               price_text(screen, plan->job, times(pack->pack->price_cents, pack->count)),
                               i ? "" : volume_text(screen, bought->left_l > 0 ? bought->left_l : 0),
                               i ? "" : by_text(screen, plan, finish)};
        table_row(table, cells);
    }
    if (bought->pack_count == 0 && purchase->kit_count == 0)
        table_row(table, (const char *[]){name, bought->left_l < 0 ? "any size" : "nothing: enough is there",
                                          "", volume_text(screen, bought->left_l > 0 ? bought->left_l : 0),
                                          by_text(screen, plan, finish)});
}

static void add_kits(struct table *table, const struct screen *screen, const struct plan *plan,
                     const struct purchase *purchase)
{
    struct arena *arena = screen->out->arena;
    for (size_t i = 0; i < purchase->kit_count; i++) {
        const struct purchase_kit *kit = &purchase->kits[i];
        const char *cells[] = {purchase->need.finish->name,
                               arena_textf(arena, "%d x %s", kit->count, kit->kit->label),
                               price_text(screen, plan->job, times(kit->kit->price_cents, kit->count)), "",
                               by_text(screen, plan, purchase->need.finish)};
        table_row(table, cells);
    }
}

void table_buy_short(struct screen *screen, const struct plan *plan)
{
    struct arena *arena = screen->out->arena;
    const struct column columns[] = {
        {"finish", ALIGN_LEFT, true},
        {"buy", ALIGN_LEFT, true},
        {arena_textf(arena, "price %s", plan->job->currency), ALIGN_RIGHT, false},
        {"left over", ALIGN_RIGHT, false},
        {"first used", ALIGN_LEFT, false}};
    const struct purchases *purchases = plan->purchases;
    struct table table;
    table_init(&table, arena, columns, 5);
    for (size_t i = 0; i < purchases->count; i++) {
        const struct purchase *purchase = &purchases->items[i];
        add_kits(&table, screen, plan, purchase);
        for (size_t k = 0; k < purchase->need.finish->component_count; k++)
            add_packs(&table, screen, plan, purchase, k);
    }
    if (purchases->count && purchases->cost_cents >= 0)
        table_row(&table, (const char *[]){"together", "",
                                           price_text(screen, plan->job, purchases->cost_cents), "", ""});
    table_print(&table, screen, 2);
}

/* What the packs are chosen for: the need with its range, by component, and what is on the shelf. */
static void print_needs(struct screen *screen, const struct plan *plan)
{
    static const struct column columns[] = {
        {"finish", ALIGN_LEFT, true},      {"need", ALIGN_RIGHT, false},
        {"from", ALIGN_RIGHT, false},      {"to", ALIGN_RIGHT, false},
        {"by weight", ALIGN_RIGHT, false}, {"on the shelf", ALIGN_RIGHT, false}};
    struct arena *arena = screen->out->arena;
    struct table table;
    table_init(&table, arena, columns, 6);
    for (size_t i = 0; i < plan->purchases->count; i++) {
        const struct purchase *purchase = &plan->purchases->items[i];
        const struct finish *finish = purchase->need.finish;
        for (size_t k = 0; k < finish->component_count; k++) {
            const struct purchase_component *component = &purchase->components[k];
            double share = finish_volume_share(finish, k);
            const char *name = finish->component_count > 1
                                   ? arena_textf(arena, "%s: %s", finish->name, finish->components[k].name)
                                   : finish->name;
            const char *cells[] = {name,
                                   volume_text(screen, component->need_l),
                                   volume_text(screen, purchase->need.low_l * share),
                                   volume_text(screen, purchase->need.high_l * share),
                                   arena_text(arena, mass_format(component->need_g, screen->units).text),
                                   volume_text(screen, component->on_hand_l)};
            table_row(&table, cells);
        }
    }
    table_print(&table, screen, 2);
}

void table_buy_risks(struct screen *screen, const struct plan *plan)
{
    struct arena *arena = screen->out->arena;
    for (size_t i = 0; i < plan->purchases->count; i++) {
        const struct purchase *purchase = &plan->purchases->items[i];
        if (purchase->high_short)
            screen_paragraph(
                screen, 2, 2,
                arena_textf(arena, "%s: what is bought runs short where the wood drinks most (%s)",
                            purchase->need.finish->name, volume_text(screen, purchase->need.high_l)));
        if (purchase->reserve > plan->job->reserve)
            screen_paragraph(screen, 2, 2,
                             arena_textf(arena,
                                         "%s: a colour, so %s in reserve; mix all of it together as one lot",
                                         purchase->need.finish->name, share_format(purchase->reserve).text));
        if (purchase->cost_cents < 0)
            screen_paragraph(screen, 2, 2,
                             arena_textf(arena, "%s: a price is missing", purchase->need.finish->name));
    }
}

void table_buy(struct screen *screen, const struct plan *plan)
{
    struct arena *arena = screen->out->arena;
    screen_heading(screen, arena_textf(arena, "To buy for %s", plan->job->name));
    if (plan->purchases->count == 0)
        screen_paragraph(screen, 2, 0, "Nothing: no finish is used.");
    table_buy_short(screen, plan);
    if (plan->purchases->count == 0)
        return;
    screen_heading(screen, "What it is for");
    print_needs(screen, plan);
    screen_heading(screen, "Worth knowing");
    screen_paragraph(
        screen, 2, 2,
        arena_textf(arena, "bought is the need with %s in reserve; left over is what the need itself leaves",
                    share_format(plan->job->reserve).text));
    table_buy_risks(screen, plan);
}
