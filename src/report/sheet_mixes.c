/* What is weighed, as cards that are read from a metre, and what is bought. */
#include "report/sheet.h"

#include "base/arena.h"
#include "base/moment.h"
#include "format/html.h"
#include "report/sentences.h"
#include "report/text.h"
#include "report/text_parts.h"

#include <math.h>

/* The moment to work by first. What lives for more than the day says which day. */
static void add_apply_by(const struct sheet *sheet, const struct plan *plan, const struct mix_card *card)
{
    const struct zone *zone = plan->job->zone;
    if (card->apply_by_min == INT64_MAX)
        return;
    bool same = zone_day(zone, card->apply_by_min, NULL) == zone_day(zone, card->mixed_at_min, NULL);
    html_open(sheet->out, "p", "class=\"by\"");
    buf_add(sheet->out, "APPLY BY ");
    html_element(sheet->out, "b", "",
                 moment_format(zone, card->apply_by_min, same ? MOMENT_TIME : MOMENT_DAY_TIME).text);
    html_close(sheet->out, "p");
    html_element(sheet->out, "p", "class=\"ends\"",
                 arena_textf(sheet->arena, "pot life ends %s",
                             moment_words(sheet->arena, plan->job, card->pot_life_ends_min)));
}

/* A thinner of unknown density is measured. */
static void add_pours(const struct sheet *sheet, const struct mix_card *card)
{
    html_open(sheet->out, "table", "class=\"pours\"");
    for (size_t i = 0; i < card->mix->pour_count; i++) {
        const struct pour *pour = pour_at(card->mix, i);
        bool measured = pour->component == SIZE_MAX && pour->mass_g <= 0;
        html_open(sheet->out, "tr", "");
        html_element(sheet->out, "th", "", pour_name(card->finish, pour));
        html_element(sheet->out, "td", "class=\"right\"",
                     measured ? screen_volume(&sheet->screen, pour->volume_l)
                              : pour_grams(sheet->arena, pour->weigh_g));
        html_element(sheet->out, "td", "class=\"right total\"",
                     measured || i == 0
                         ? ""
                         : arena_textf(sheet->arena, "%s in all", pour_grams(sheet->arena, pour->total_g)));
        html_close(sheet->out, "tr");
    }
    html_close(sheet->out, "table");
}

static void add_lines(const struct sheet *sheet)
{
    static const char *const asked[] = {"weighed", "time mixed", "by whom"};
    html_open(sheet->out, "table", "class=\"fill\"");
    html_open(sheet->out, "tr", "");
    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++)
        html_element(sheet->out, "td", "", asked[i]);
    html_close(sheet->out, "tr");
    html_close(sheet->out, "table");
}

static void add_mix(const struct sheet *sheet, const struct plan *plan, const struct mix_card *card)
{
    struct arena *arena = sheet->arena;
    struct buf look;
    buf_init(&look, arena);
    html_attribute(&look, "class", "mix");
    html_attribute(&look, "data-mix", card->step_id);
    html_attribute(&look, "data-number", arena_textf(arena, "%d", card->number));
    html_attribute(&look, "data-job", plan->job->name);
    const char *share = card->of > 1 ? arena_textf(arena, ", mix %d of %d", card->number, card->of) : "";
    html_open(sheet->out, "section", look.text);
    add_apply_by(sheet, plan, card);
    html_element(sheet->out, "h3", "",
                 arena_textf(arena, "%s, coat %d%s: %s", card->finish->name, card->of_finish, share,
                             screen_volume(&sheet->screen, card->volume_l)));
    add_pours(sheet, card);
    html_element(sheet->out, "p", "",
                 arena_textf(arena, "mix %s, for %s%s%s", moment_words(arena, plan->job, card->mixed_at_min),
                             card_served(arena, card), sheet->count > 1 ? ", of " : "",
                             sheet->count > 1 ? plan->job->name : ""));
    if (isfinite(card->mix->pot_life_min))
        html_element(sheet->out, "p", "", mix_life(arena, card->finish, card->mix));
    add_lines(sheet);
    html_close(sheet->out, "section");
}

/* Whoever only helps to turn a piece does not mix. */
static void add_mixes_of(const struct sheet *sheet, const struct day_batch *batch)
{
    for (size_t i = 0; i < batch->share_count; i++) {
        const struct mix_card *card = NULL;
        if (sheet->want.person && day_batch_main(batch)->person != sheet->want.person)
            continue;
        while ((card = batch_card(batch->shares[i].plan, batch->shares[i].batch, card)))
            add_mix(sheet, batch->shares[i].plan, card);
    }
}

void sheet_mixes(const struct sheet *sheet)
{
    struct buf cards;
    struct sheet inner = *sheet;
    buf_init(&cards, sheet->arena);
    inner.out = &cards;
    for (size_t i = 0; i < sheet->day_count; i++)
        for (size_t k = 0; k < sheet->days[i]->count; k++)
            add_mixes_of(&inner, &sheet->days[i]->batches[k]);
    if (!cards.length)
        return;
    html_open(sheet->out, "section", "class=\"mixes page\"");
    html_element(sheet->out, "h2", "", "Mixes");
    buf_add_n(sheet->out, cards.text, cards.length);
    html_close(sheet->out, "section");
}

/* One line to tick; `by` NULL: no day is known. */
static void add_line(const struct sheet *sheet, const struct plan *plan, const char *id, const char *amount,
                     const char *name, int64_t by_min)
{
    struct buf look;
    buf_init(&look, sheet->arena);
    html_attribute(&look, "data-buy", id);
    html_open(sheet->out, "tr", look.text);
    html_open(sheet->out, "td", "class=\"tick\"");
    sheet_box(sheet, false);
    html_close(sheet->out, "td");
    html_element(sheet->out, "td", "class=\"right\"", amount);
    html_element(sheet->out, "td", "class=\"wide\"", name);
    html_element(sheet->out, "td", "",
                 by_min == INT64_MAX ? ""
                                     : arena_textf(sheet->arena, "by %s",
                                                   moment_format(plan->job->zone, by_min, MOMENT_DAY).text));
    html_close(sheet->out, "tr");
}

static const char *packs(const struct sheet *sheet, int count, const char *label)
{
    return arena_textf(sheet->arena, "%d x %s", count, pack_words(sheet->arena, label));
}

static void add_purchase(const struct sheet *sheet, const struct plan *plan, const struct purchase *purchase)
{
    const struct finish *finish = purchase->need.finish;
    int64_t by = finish_first_min(plan->timetable, finish);
    for (size_t i = 0; i < purchase->kit_count; i++)
        add_line(sheet, plan, finish->id, packs(sheet, purchase->kits[i].count, purchase->kits[i].kit->label),
                 finish->name, by);
    for (size_t i = 0; i < finish->component_count; i++) {
        const struct purchase_component *component = &purchase->components[i];
        const char *name = finish->component_count == 1 ? finish->name
                                                        : arena_textf(sheet->arena, "%s: %s", finish->name,
                                                                      finish->components[i].name);
        for (size_t k = 0; k < component->pack_count; k++)
            add_line(sheet, plan, finish->id,
                     packs(sheet, component->packs[k].count, component->packs[k].pack->label), name, by);
        if (component->short_l > 0)
            add_line(
                sheet, plan, finish->id,
                arena_textf(sheet->arena, "%s, any pack", screen_volume(&sheet->screen, component->short_l)),
                name, by);
    }
}

void sheet_shopping(const struct sheet *sheet, const struct plan *plan)
{
    const struct sundries *sundries = plan->sundries;
    struct buf lines;
    struct sheet inner = *sheet;
    buf_init(&lines, sheet->arena);
    inner.out = &lines;
    for (size_t i = 0; i < plan->purchases->count; i++)
        add_purchase(&inner, plan, &plan->purchases->items[i]);
    for (size_t i = 0; i < sundries->count; i++)
        add_line(&inner, plan, "sundry", sundry_amount(sheet->arena, &sundries->items[i], sheet->want.units),
                 arena_textf(sheet->arena, "%s (estimated)", sundry_name(sheet->arena, &sundries->items[i])),
                 INT64_MAX);
    if (!lines.length)
        return;
    html_open(sheet->out, "section", "class=\"buy\"");
    html_element(sheet->out, "h2", "", arena_textf(sheet->arena, "To buy for %s", plan->job->name));
    html_open(sheet->out, "table", "");
    buf_add_n(sheet->out, lines.text, lines.length);
    html_close(sheet->out, "table");
    html_close(sheet->out, "section");
}
