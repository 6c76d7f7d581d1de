#include "report/text.h"

#include "base/arena.h"
#include "base/coverage.h"
#include "base/moment.h"
#include "base/money.h"
#include "base/number.h"
#include "report/sentences.h"

struct explaining {
    struct screen *screen;
    struct arena *arena;
    const struct plan *plan;
    const struct purchase *purchase;
};

static const char *film_text(const struct explaining *e, double um)
{
    return arena_text(e->arena, thickness_format(um / 1e6, e->screen->units).text);
}

static const char *surface_text(const struct explaining *e, const struct litre_term *term)
{
    const struct part *part = &e->plan->job->parts[term->surface->part];
    return arena_textf(e->arena, "%s, %s%s%s", part->name, region_name(term->surface->region),
                       part->wood ? ", " : "", part->wood ? part->wood->name : "");
}

static void add_term(const struct explaining *e, struct table *table, const struct litre_term *term)
{
    struct coverage coverage = {COVERAGE_M2_PER_L, term->coverage_m2_per_l};
    const char *cells[] = {surface_text(e, term),
                           arena_text(e->arena, area_format(term->surface->area_m2, e->screen->units).text),
                           arena_textf(e->arena, "x %s", number_round(term->absorb, 3).text),
                           arena_textf(e->arena, "/ %s", coverage_format(coverage, e->screen->units).text),
                           arena_textf(e->arena, "/ %s", share_format(term->transfer).text),
                           screen_volume(e->screen, term->litres)};
    table_row(table, cells);
}

static void add_sum(struct table *table, const char *what, const char *volume)
{
    const char *cells[] = {what, "", "", "", "", volume};
    table_row(table, cells);
}

/* "thinned by 50 %: what the wood takes is the mixture, 66 ml of finish and 33 ml of thinner". */
static void note_thinning(const struct explaining *e, struct table *table, const struct operation *operation,
                          struct litres litres)
{
    const struct step *step = operation->of.step;
    if (step->thin <= 0)
        return;
    const char *by = operation->of.number == 1 && !tool_sprays(step->by)
                         ? "by hand on bare wood, so the total is of the mixture"
                         : "the total is of unthinned finish";
    table_note(table, arena_textf(e->arena, "thinned by %s, %s: %s of finish and %s of thinner",
                                  share_format(step->thin).text, by, screen_volume(e->screen, litres.likely),
                                  screen_volume(e->screen, litres.thinner)));
}

static void note_film(const struct explaining *e, struct table *table, const struct operation *operation)
{
    double wet = coat_wet_film_um(&operation->of), dry = coat_dry_film_um(&operation->pass, &operation->of);
    if (wet <= 0 || finish_is_oil(e->purchase->need.finish))
        return;
    table_note(table, dry > 0
                          ? arena_textf(e->arena, "film thickness where nothing is absorbed: %s wet, %s dry",
                                        film_text(e, wet), film_text(e, dry))
                          : arena_textf(e->arena, "film thickness where nothing is absorbed: %s wet",
                                        film_text(e, wet)));
}

/* One coat in one go: its surfaces, what stays in the tool, the sum. */
static void add_coat(const struct explaining *e, struct table *table, size_t apply)
{
    const struct operation *operation = &e->plan->operations->items[apply];
    struct litres all = plan_litres(e->plan->timetable, apply);
    enum tool by = operation->of.step->by;
    struct litre_term *terms;
    size_t count = coat_terms(e->arena, &operation->pass, &operation->of, &terms);
    double sum = 0;
    table_group(table, arena_textf(e->arena, "%s on %s, by %s", step_words(e->arena, operation),
                                   step_piece(e->arena, operation), tool_name(by)));
    for (size_t i = 0; i < count; i++) {
        add_term(e, table, &terms[i]);
        sum += terms[i].litres;
    }
    double loss = e->plan->timetable->loss_share[apply] *
                  coat_loss_l(&e->plan->job->shop, operation->of.step->finish, by);
    bool loses = loss > 0;
    if (loses)
        add_sum(table, arena_textf(e->arena, "stays in the tool (%s)", tool_name(by)),
                screen_volume(e->screen, loss));
    if (loses || count > 1)
        add_sum(table, "total", screen_volume(e->screen, sum + loss));
    note_thinning(e, table, operation, all);
    note_film(e, table, operation);
}

static void print_coats(const struct explaining *e)
{
    static const struct column columns[] = {
        {"surface", ALIGN_LEFT, true},      {"area", ALIGN_RIGHT, false},
        {"absorption", ALIGN_RIGHT, false}, {"spread rate", ALIGN_RIGHT, false},
        {"transfer", ALIGN_RIGHT, false},   {"needs", ALIGN_RIGHT, false}};
    const struct operations *operations = e->plan->operations;
    struct table table;
    table_init(&table, e->arena, columns, 6);
    for (size_t i = 0; i < operations->count; i++)
        if (operations->items[i].doing == DO_APPLY &&
            operations->items[i].of.step->finish == e->purchase->need.finish)
            add_coat(e, &table, i);
    table_print(&table, e->screen, 2);
}

static void print_need(const struct explaining *e)
{
    const struct need *need = &e->purchase->need;
    screen_heading(e->screen, "Needed");
    screen_paragraph(
        e->screen, 2, 2,
        arena_textf(e->arena, "likely: all coats, %s", screen_volume(e->screen, need->likely_l)));
    screen_paragraph(e->screen, 2, 2,
                     arena_textf(e->arena, "low and high: %s less and more, %s and %s",
                                 share_format(need->finish->tolerance).text,
                                 screen_volume(e->screen, need->low_l),
                                 screen_volume(e->screen, need->high_l)));
    screen_paragraph(e->screen, 2, 2,
                     arena_textf(e->arena, "reserve: %s%s, so %s is needed; %s",
                                 share_format(e->purchase->reserve).text,
                                 e->purchase->reserve > e->plan->job->reserve ? ", as it is a colour" : "",
                                 screen_volume(e->screen, need->likely_l * (1 + e->purchase->reserve)),
                                 e->purchase->high_short ? "the high figure is not covered"
                                                         : "the high figure is covered"));
}

static const char *packs_text(const struct explaining *e, const struct purchase_component *component)
{
    struct buf text;
    int digits = e->plan->job->currency_digits;
    buf_init(&text, e->arena);
    for (size_t i = 0; i < component->pack_count; i++) {
        const struct purchase_pack *bought = &component->packs[i];
        buf_addf(&text, "%s%d x %s", i ? " + " : "", bought->count,
                 pack_words(e->arena, bought->pack->label));
        if (bought->pack->price_cents >= 0)
            buf_addf(&text, " at %s", money_format(bought->pack->price_cents, digits).text);
    }
    return text.length ? text.text : "no pack";
}

/* Need, reserve, shelf, packs and rest of one component, each with its numbers. */
static void print_component(const struct explaining *e, size_t i)
{
    const struct purchase_component *component = &e->purchase->components[i];
    const struct finish *finish = e->purchase->need.finish;
    double want = component->need_l * (1 + e->purchase->reserve), lacking = want - component->on_hand_l;
    if (finish->component_count > 1)
        screen_paragraph(e->screen, 2, 2,
                         arena_textf(e->arena, "%s: %s of %s is %s", finish->components[i].name,
                                     share_format(finish_volume_share(finish, i)).text,
                                     screen_volume(e->screen, e->purchase->need.likely_l),
                                     screen_volume(e->screen, component->need_l)));
    screen_paragraph(e->screen, finish->component_count > 1 ? 4 : 2, 2,
                     arena_textf(e->arena, "%s x %s = %s, less %s in stock that keeps until %s: %s to buy",
                                 screen_volume(e->screen, component->need_l),
                                 number_round(1 + e->purchase->reserve, 3).text,
                                 screen_volume(e->screen, want),
                                 screen_volume(e->screen, component->on_hand_l),
                                 date_format(date_of(e->purchase->need.last_coat_day)).text,
                                 screen_volume(e->screen, lacking > 0 ? lacking : 0)));
    const char *bought = component->short_l > 0 ? arena_textf(e->arena, "%s, any pack",
                                                              screen_volume(e->screen, component->short_l))
                                                : packs_text(e, component);
    screen_paragraph(e->screen, finish->component_count > 1 ? 4 : 2, 2,
                     arena_textf(e->arena, "%s%s; left over %s", bought,
                                 e->purchase->kit_count ? " beside the kits" : "",
                                 screen_volume(e->screen, component->left_l)));
}

static void print_packs(const struct explaining *e)
{
    const struct purchase *purchase = e->purchase;
    int digits = e->plan->job->currency_digits;
    screen_heading(e->screen, "What to buy");
    for (size_t i = 0; i < purchase->kit_count; i++)
        screen_paragraph(e->screen, 2, 2,
                         arena_textf(e->arena, "%d x %s", purchase->kits[i].count,
                                     pack_words(e->arena, purchase->kits[i].kit->label)));
    for (size_t i = 0; i < purchase->need.finish->component_count; i++)
        print_component(e, i);
    if (purchase->cost_cents >= 0 && e->plan->job->currency)
        screen_paragraph(e->screen, 2, 2,
                         arena_textf(e->arena, "cost %s %s", money_format(purchase->cost_cents, digits).text,
                                     e->plan->job->currency));
}

void show_explain(struct screen *screen, const struct plan *plan, const struct purchase *purchase)
{
    struct explaining e = {screen, screen->out->arena, plan, purchase};
    screen_heading(screen, arena_textf(e.arena, "%s for %s", purchase->need.finish->name, plan->job->name));
    screen_paragraph(
        screen, 2, 0,
        "area x absorption / (spread rate x transfer efficiency), and once a batch what stays in the tool, "
        "shared by its coats");
    print_coats(&e);
    print_need(&e);
    print_packs(&e);
}
