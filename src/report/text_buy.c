#include "report/text.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/day.h"
#include "base/moment.h"
#include "base/money.h"
#include "report/text_parts.h"
#include "report/sentences.h"

static void add_component(struct buf *text, const struct purchase *purchase, size_t i)
{
    const struct purchase_component *component = &purchase->components[i];
    const struct finish *finish = purchase->need.finish;
    for (size_t k = 0; k < component->pack_count; k++)
        buf_addf(text, "%s%d x %s%s%s", text->length ? " + " : "", component->packs[k].count,
                 pack_words(text->arena, component->packs[k].pack->label),
                 finish->component_count > 1 ? " " : "",
                 finish->component_count > 1 ? finish->components[i].name : "");
}

static const char *packs_words(struct arena *arena, const struct purchase *purchase)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < purchase->kit_count; i++)
        buf_addf(&text, "%s%d x %s", i ? " + " : "", purchase->kits[i].count,
                 pack_words(arena, purchase->kits[i].kit->label));
    for (size_t i = 0; i < purchase->need.finish->component_count; i++)
        add_component(&text, purchase, i);
    return text.length ? text.text : "no pack";
}

static const char *money_words(struct arena *arena, const struct job *job, int64_t cents)
{
    return arena_textf(arena, "%s%s%s", money_format(cents, job->currency_digits).text,
                       job->currency ? " " : "", job->currency ? job->currency : "");
}

static const char *high_words(struct arena *arena, const struct job *job, const struct purchase *purchase,
                              enum unit_system units)
{
    const struct need *need = &purchase->need;
    if (!purchase->high_short)
        return NULL;
    const char *words = arena_textf(arena, "%s: too little is bought if the wood absorbs much (%s)",
                                    need->finish->name, volume_format(need->high_l, units).text);
    struct purchase_hint hint = purchase_hint(arena, job, purchase);
    if (hint.high_adds_cents < 0)
        return words;
    struct purchase ample = purchase_make(arena, job, need, need->high_l / need->likely_l - 1);
    return arena_textf(arena, "%s; %s is enough, for %s more", words, packs_words(arena, &ample),
                       money_words(arena, job, hint.high_adds_cents));
}

static const char *reserve_words(struct arena *arena, const struct job *job, const struct purchase *purchase)
{
    const struct finish *finish = purchase->need.finish;
    struct purchase_hint hint = purchase_hint(arena, job, purchase);
    if (hint.smaller_reserve < purchase->reserve / 2 || hint.saves_cents <= 0 || finish->colours)
        return NULL;
    struct purchase lean = purchase_make(arena, job, &purchase->need, hint.smaller_reserve);
    return arena_textf(arena, "%s: with %s in reserve instead of %s, %s is enough, for %s less", finish->name,
                       share_format(hint.smaller_reserve).text, share_format(purchase->reserve).text,
                       packs_words(arena, &lean), money_words(arena, job, hint.saves_cents));
}

static const char *shelf_words(struct arena *arena, const struct job *job, const struct purchase *purchase,
                               size_t component, enum unit_system units)
{
    const struct need *need = &purchase->need;
    const struct finish *finish = need->finish;
    double first_l = shelf_good_l(job, finish, component, zone_day(job->zone, job->start_min, NULL));
    double lost_l = first_l - purchase->components[component].on_hand_l;
    if (lost_l < 1e-9)
        return NULL;
    bool several = finish->component_count > 1;
    return arena_textf(arena, "%s: %s%s%s in stock is out of date by the last coat, on %s, and not counted",
                       finish->name, volume_format(lost_l, units).text, several ? " of " : "",
                       several ? finish->components[component].name : "",
                       date_format(date_of(need->last_coat_day)).text);
}

int64_t finish_first_min(const struct timetable *timetable, const struct finish *finish)
{
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct operation *operation = timetable->steps[i].operation;
        if (operation->doing == DO_APPLY && operation->of.step->finish == finish)
            return timetable->steps[i].start_min;
    }
    return INT64_MAX;
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

static bool prices_known(const struct purchases *purchases)
{
    for (size_t i = 0; i < purchases->count; i++) {
        const struct purchase *purchase = &purchases->items[i];
        if (purchase->cost_cents > 0)
            return true;
        for (size_t k = 0; k < purchase->need.finish->component_count; k++)
            for (size_t n = 0; n < purchase->components[k].pack_count; n++)
                if (purchase->components[k].packs[n].pack->price_cents >= 0)
                    return true;
    }
    return false;
}

/* The shopping as a table being filled; without any price it has no column for them. */
struct list {
    struct screen *screen;
    const struct plan *plan;
    struct table table;
    bool priced;
};

static void add_line(struct list *list, const char *name, const char *buy, const char *price,
                     const char *left, const char *by)
{
    const char *with[] = {name, buy, price, left, by}, *without[] = {name, buy, left, by};
    table_row(&list->table, list->priced ? with : without);
}

static const char *component_name(struct arena *arena, const struct finish *finish, size_t component)
{
    if (finish->component_count == 1)
        return finish->name;
    return arena_textf(arena, "%s: %s", finish->name, finish->components[component].name);
}

/* "2 x 375 ml" and its price for each kind of pack; component names are said once. */
static void add_packs(struct list *list, const struct purchase *purchase, size_t component)
{
    const struct screen *screen = list->screen;
    struct arena *arena = screen->out->arena;
    const struct purchase_component *bought = &purchase->components[component];
    const struct finish *finish = purchase->need.finish;
    const char *name = component_name(arena, finish, component);
    const char *left = screen_volume(screen, bought->left_l), *by = by_text(screen, list->plan, finish);
    for (size_t i = 0; i < bought->pack_count; i++) {
        const struct purchase_pack *pack = &bought->packs[i];
        const char *price = price_text(screen, list->plan->job, times(pack->pack->price_cents, pack->count));
        add_line(list, i ? "" : name,
                 arena_textf(arena, "%d x %s", pack->count, pack_words(arena, pack->pack->label)), price,
                 i ? "" : left, i ? "" : by);
    }
    if (bought->short_l > 0)
        add_line(list, name, arena_textf(arena, "%s, any pack", screen_volume(screen, bought->short_l)), "",
                 left, by);
    else if (bought->pack_count == 0 && purchase->kit_count == 0)
        add_line(list, name, "enough in stock", "", left, by);
}

/* Of each component, in their order. */
static const char *kit_left_text(const struct screen *screen, const struct purchase *purchase)
{
    struct buf text;
    buf_init(&text, screen->out->arena);
    for (size_t i = 0; i < purchase->need.finish->component_count; i++)
        buf_addf(&text, "%s%s", i ? ", " : "", screen_volume(screen, purchase->components[i].left_l));
    return text.text;
}

static void add_kits(struct list *list, const struct purchase *purchase)
{
    struct arena *arena = list->screen->out->arena;
    for (size_t i = 0; i < purchase->kit_count; i++) {
        const struct purchase_kit *kit = &purchase->kits[i];
        add_line(list, purchase->need.finish->name,
                 arena_textf(arena, "%d x %s", kit->count, pack_words(arena, kit->kit->label)),
                 price_text(list->screen, list->plan->job, times(kit->kit->price_cents, kit->count)),
                 i ? "" : kit_left_text(list->screen, purchase),
                 by_text(list->screen, list->plan, purchase->need.finish));
    }
}

void show_buy_short(struct screen *screen, const struct plan *plan)
{
    struct arena *arena = screen->out->arena;
    const struct purchases *purchases = plan->purchases;
    struct list list = {.screen = screen, .plan = plan, .priced = prices_known(purchases)};
    const char *price = arena_textf(arena, "price %s", plan->job->currency);
    const struct column with[] = {{"finish", ALIGN_LEFT, true},
                                  {"buy", ALIGN_LEFT, true},
                                  {price, ALIGN_RIGHT, false},
                                  {"left over", ALIGN_RIGHT, false},
                                  {"needed by", ALIGN_LEFT, false}};
    const struct column without[] = {with[0], with[1], with[3], with[4]};
    table_init(&list.table, arena, list.priced ? with : without, list.priced ? 5 : 4);
    for (size_t i = 0; i < purchases->count; i++) {
        add_kits(&list, &purchases->items[i]);
        for (size_t k = 0; k < purchases->items[i].need.finish->component_count; k++)
            add_packs(&list, &purchases->items[i], k);
    }
    if (purchases->count && purchases->cost_cents > 0)
        add_line(&list, "total", "", price_text(screen, plan->job, purchases->cost_cents), "", "");
    table_print(&list.table, screen, 2);
}

/* What the packs are chosen for: the need with its range, by component, and what is on the shelf. */
static void print_needs(struct screen *screen, const struct plan *plan)
{
    static const struct column columns[] = {
        {"finish", ALIGN_LEFT, true}, {"need", ALIGN_RIGHT, false},      {"from", ALIGN_RIGHT, false},
        {"to", ALIGN_RIGHT, false},   {"by weight", ALIGN_RIGHT, false}, {"in stock", ALIGN_RIGHT, false}};
    struct arena *arena = screen->out->arena;
    struct table table;
    table_init(&table, arena, columns, 6);
    for (size_t i = 0; i < plan->purchases->count; i++) {
        const struct purchase *purchase = &plan->purchases->items[i];
        const struct finish *finish = purchase->need.finish;
        for (size_t k = 0; k < finish->component_count; k++) {
            const struct purchase_component *component = &purchase->components[k];
            double share = finish_volume_share(finish, k);
            const char *cells[] = {component_name(arena, finish, k),
                                   screen_volume(screen, component->need_l),
                                   screen_volume(screen, purchase->need.low_l * share),
                                   screen_volume(screen, purchase->need.high_l * share),
                                   arena_text(arena, mass_format(component->need_g, UNITS_METRIC).text),
                                   screen_volume(screen, component->on_hand_l)};
            table_row(&table, cells);
        }
    }
    table_print(&table, screen, 2);
}

static void print_lost(struct screen *screen, const struct plan *plan, const struct purchase *purchase)
{
    for (size_t k = 0; k < purchase->need.finish->component_count; k++) {
        const char *words = shelf_words(screen->out->arena, plan->job, purchase, k, screen->units);
        if (words)
            screen_paragraph(screen, 2, 2, words);
    }
}

void show_buy_risks(struct screen *screen, const struct plan *plan)
{
    struct arena *arena = screen->out->arena;
    if (plan->purchases->count && !prices_known(plan->purchases))
        screen_paragraph(
            screen, 2, 2,
            "no price is known: give a price list (\"prices\"), or prices in the shop's own finish files");
    for (size_t i = 0; i < plan->purchases->count; i++) {
        const struct purchase *purchase = &plan->purchases->items[i];
        print_lost(screen, plan, purchase);
        const char *high = high_words(arena, plan->job, purchase, screen->units);
        if (high)
            screen_paragraph(screen, 2, 2, high);
        if (purchase->reserve > plan->job->reserve)
            screen_paragraph(
                screen, 2, 2,
                arena_textf(arena,
                            "%s: a colour, so %s in reserve; mix all of it together before the first coat",
                            purchase->need.finish->name, share_format(purchase->reserve).text));
        if (purchase->cost_cents < 0 && prices_known(plan->purchases))
            screen_paragraph(screen, 2, 2,
                             arena_textf(arena, "%s: a price is missing", purchase->need.finish->name));
    }
}

static void print_steps(struct screen *screen, const struct plan *plan)
{
    for (size_t i = 0; i < plan->purchases->count; i++) {
        const char *words = reserve_words(screen->out->arena, plan->job, &plan->purchases->items[i]);
        if (words)
            screen_paragraph(screen, 2, 2, words);
    }
}

void show_buy(struct screen *screen, const struct plan *plan)
{
    struct arena *arena = screen->out->arena;
    screen_heading(screen, arena_textf(arena, "To buy for %s", plan->job->name));
    if (plan->purchases->count == 0)
        screen_paragraph(screen, 2, 0, "Nothing: no finish is used.");
    show_buy_short(screen, plan);
    show_sundries(screen, plan->sundries);
    if (plan->purchases->count == 0)
        return;
    screen_heading(screen, "Needed");
    print_needs(screen, plan);
    screen_heading(screen, "Notes");
    screen_paragraph(
        screen, 2, 2,
        arena_textf(
            arena,
            "bought: what is needed and %s in reserve; left over: of that, if no more than needed is used",
            share_format(plan->job->reserve).text));
    show_buy_risks(screen, plan);
    print_steps(screen, plan);
}

void show_sundries(struct screen *screen, const struct sundries *sundries)
{
    static const struct column columns[] = {{NULL, ALIGN_RIGHT, false}, {NULL, ALIGN_LEFT, true}};
    struct arena *arena = screen->out->arena;
    struct table table;
    if (sundries->count == 0)
        return;
    screen_heading(screen, "Also needed, estimated");
    table_init(&table, arena, columns, 2);
    for (size_t i = 0; i < sundries->count; i++) {
        const char *cells[] = {sundry_amount(arena, &sundries->items[i], screen->units),
                               sundry_name(arena, &sundries->items[i])};
        table_row(&table, cells);
    }
    table_print(&table, screen, 2);
}
