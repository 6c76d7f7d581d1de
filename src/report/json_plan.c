#include "report/json.h"

#include "base/arena.h"
#include "report/sentences.h"

#include <math.h>

static void write_place(struct json_write *w, const struct err *err)
{
    json_put_text(w, "file", err->file);
    json_put_whole(w, "line", err->line);
    json_put_whole(w, "column", err->column);
    json_put_text(w, "pointer", err->pointer);
}

void write_errors(struct json_write *w, const struct err_list *errors)
{
    json_open(w, NULL, '{');
    json_open(w, "errors", '[');
    for (size_t i = 0; i < errors->count; i++) {
        json_open_row(w, NULL, '{');
        write_place(w, &errors->items[i]);
        json_put_text(w, "found", errors->items[i].found);
        json_put_text(w, "expected", errors->items[i].expected);
        json_close(w);
    }
    json_close(w);
    json_close(w);
}

void write_check(struct json_write *w, const struct err_list *warnings, const struct busy_report *busy)
{
    json_open(w, NULL, '{');
    json_open(w, "errors", '[');
    json_close(w);
    json_open(w, "warnings", '[');
    for (size_t i = 0; i < warnings->count; i++) {
        json_open_row(w, NULL, '{');
        write_place(w, &warnings->items[i]);
        json_put_text(w, "message", warnings->items[i].found);
        json_close(w);
    }
    json_close(w);
    write_busy(w, "calendars", busy);
    json_close(w);
}

static const char *schedule_name(const struct job *job, int schedule)
{
    return schedule < 0 ? NULL : job->schedules[schedule].name;
}

static void write_surface(struct json_write *w, const struct job *job, const struct surface *surface)
{
    const struct part *part = &job->parts[surface->part];
    json_open_row(w, NULL, '{');
    json_put_text(w, "piece", job->pieces[part->piece].name);
    json_put_text(w, "part", part->name);
    json_put_whole(w, "qty", part->qty);
    json_put_text(w, "region", region_name(surface->region));
    json_put_text(w, "schedule", schedule_name(job, surface->schedule));
    json_put_text(w, "wood", part->wood ? part->wood->name : NULL);
    json_put_number(w, "area_m2", surface->area_m2);
    if (surface->patch)
        json_put_flag(w, "patch", true);
    json_close(w);
}

void write_area(struct json_write *w, const char *key, const struct job *job, const struct surfaces *surfaces)
{
    json_open(w, key, '{');
    json_put_text(w, "job", job->name);
    json_open(w, "surfaces", '[');
    for (size_t i = 0; i < surfaces->count; i++)
        write_surface(w, job, &surfaces->items[i]);
    json_close(w);
    json_open(w, "by_schedule", '[');
    for (size_t i = 0; i < job->schedule_count; i++) {
        json_open_row(w, NULL, '{');
        json_put_text(w, "schedule", job->schedules[i].name);
        json_put_number(w, "area_m2", surfaces->by_schedule_m2[i]);
        json_close(w);
    }
    json_close(w);
    json_put_number(w, "bare_m2", surfaces->bare_m2);
    json_put_number(w, "finished_m2", surfaces->finished_m2);
    json_close(w);
}

static void write_pack(struct json_write *w, double size_l, int count, int64_t price_cents, int digits)
{
    json_open_row(w, NULL, '{');
    json_put_number(w, "size_ml", size_l * 1000);
    json_put_whole(w, "count", count);
    json_put_money(w, "price", price_cents, digits);
    json_close(w);
}

/* Where a kit's price stands: at the first component of which it holds anything. */
static size_t kit_priced_at(const struct kit *kit, size_t component_count)
{
    size_t i = 0;
    while (i < component_count && kit->contents_l[i] <= 0)
        i++;
    return i;
}

static void write_kits(struct json_write *w, const struct purchase *purchase, size_t component, int digits)
{
    for (size_t i = 0; i < purchase->kit_count; i++) {
        const struct purchase_kit *bought = &purchase->kits[i];
        double size_l = bought->kit->contents_l[component];
        int64_t price = bought->kit->price_cents;
        if (price >= 0 && component != kit_priced_at(bought->kit, purchase->need.finish->component_count))
            price = 0;
        if (size_l > 0)
            write_pack(w, size_l, bought->count, price, digits);
    }
}

static void write_component(struct json_write *w, const struct purchase *purchase, size_t i, int digits)
{
    const struct purchase_component *component = &purchase->components[i];
    json_open(w, NULL, '{');
    json_put_text(w, "component", purchase->need.finish->components[i].name);
    json_put_number(w, "need_ml", component->need_l * 1000);
    json_put_number(w, "need_g", component->need_g);
    json_put_number(w, "on_hand_ml", component->on_hand_l * 1000);
    json_open(w, "buy", '[');
    write_kits(w, purchase, i, digits);
    for (size_t k = 0; k < component->pack_count; k++) {
        const struct purchase_pack *bought = &component->packs[k];
        write_pack(w, bought->pack->size_l, bought->count, bought->pack->price_cents, digits);
    }
    json_close(w);
    json_put_number(w, "left_ml", component->left_l * 1000);
    json_close(w);
}

static void write_purchase(struct json_write *w, const struct purchase *purchase, int digits)
{
    json_open(w, NULL, '{');
    json_put_text(w, "finish", purchase->need.finish->id);
    json_open_row(w, "need_l", '{');
    json_put_number(w, "low", purchase->need.low_l);
    json_put_number(w, "likely", purchase->need.likely_l);
    json_put_number(w, "high", purchase->need.high_l);
    json_close(w);
    json_open(w, "components", '[');
    for (size_t i = 0; i < purchase->need.finish->component_count; i++)
        write_component(w, purchase, i, digits);
    json_close(w);
    json_put_money(w, "cost", purchase->cost_cents, digits);
    json_close(w);
}

void write_buy(struct json_write *w, const char *key, const struct job *job,
               const struct purchases *purchases)
{
    json_open(w, key, '{');
    json_put_text(w, "job", job->name);
    json_put_number(w, "reserve", job->reserve);
    json_open(w, "finishes", '[');
    for (size_t i = 0; i < purchases->count; i++)
        write_purchase(w, &purchases->items[i], job->currency_digits);
    json_close(w);
    json_put_money(w, "cost", purchases->cost_cents, job->currency_digits);
    json_close(w);
}

static void write_pours(struct json_write *w, const struct finish *finish, const struct mix *mix)
{
    json_open(w, "components", '[');
    for (size_t i = 0; i < mix->pour_count; i++) {
        const struct pour *pour = &mix->pours[i];
        bool thinner = pour->component == SIZE_MAX;
        json_open_row(w, NULL, '{');
        json_put_text(w, "component", thinner ? "thinner" : finish->components[pour->component].name);
        json_put_number(w, "ml", pour->volume_l * 1000);
        json_put_number(w, "g", pour->mass_g);
        json_put_number(w, "weigh_g", pour->weigh_g);
        json_close(w);
    }
    json_close(w);
    json_put_number(w, "ratio_error_pct", mix->ratio_error * 100);
    json_put_number(w, "pot_life_min", mix->pot_life_min);
}

void write_card(struct json_write *w, const struct job *job, const struct mix_card *card)
{
    json_open(w, NULL, '{');
    json_put_text(w, "finish", card->finish->id);
    json_put_whole(w, "coat", card->coat);
    json_open_row(w, "pieces", '[');
    for (size_t i = 0; i < card->serves_count; i++)
        if (mix_serves_new_piece(card, i))
            json_put_text(w, NULL, job->pieces[card->serves[i].coat->piece].name);
    json_close(w);
    json_open(w, "serves", '[');
    for (size_t i = 0; i < card->serves_count; i++) {
        const struct mix_serves *serves = &card->serves[i];
        json_open_row(w, NULL, '{');
        json_put_text(w, "step", serves->coat->id);
        json_put_whole(w, "from_part", serves->from_part);
        json_put_whole(w, "to_part", serves->to_part);
        json_put_whole(w, "parts", serves->parts);
        json_close(w);
    }
    json_close(w);
    json_put_number(w, "volume_ml", card->volume_l * 1000);
    write_pours(w, card->finish, card->mix);
    json_put_number(w, "apply_min", card->apply_min);
    json_put_moment(w, "mixed_at", job->zone, card->mixed_at_min);
    json_put_moment(w, "apply_by", job->zone, card->apply_by_min);
    json_put_moment(w, "pot_life_ends", job->zone, card->pot_life_ends_min);
    json_close(w);
}

static void write_warnings(struct json_write *w, const struct mix_warning *warnings, size_t count,
                           enum unit_system units)
{
    json_open(w, "warnings", '[');
    for (size_t i = 0; i < count; i++)
        json_put_text(w, NULL, mix_warning_words(w->out->arena, &warnings[i], units));
    json_close(w);
}

void write_mix(struct json_write *w, const char *key, const struct job *job, const struct mix_cards *cards)
{
    json_open(w, key, '{');
    json_open(w, "mixes", '[');
    for (size_t i = 0; i < cards->count; i++)
        write_card(w, job, &cards->items[i]);
    json_close(w);
    write_warnings(w, cards->warnings, cards->warning_count, units_of(job));
    json_close(w);
}

static void write_lone_mix(struct json_write *w, const struct lone_mix *lone)
{
    json_open(w, NULL, '{');
    json_put_text(w, "finish", lone->want.finish->id);
    json_put_null(w, "coat");
    json_open(w, "pieces", '[');
    json_close(w);
    json_open(w, "serves", '[');
    json_close(w);
    json_put_number(w, "volume_ml", lone->mix->volume_l * 1000);
    write_pours(w, lone->want.finish, lone->mix);
    json_put_number(w, "apply_min", lone->laying_min);
    json_put_null(w, "mixed_at");
    json_put_null(w, "apply_by");
    json_put_null(w, "pot_life_ends");
    json_close(w);
}

void write_lone(struct json_write *w, const struct lone_mix *lone)
{
    json_open(w, NULL, '{');
    json_open(w, "mixes", '[');
    for (int i = 0; i < lone->count; i++)
        write_lone_mix(w, lone);
    json_close(w);
    write_warnings(w, lone->warnings, lone->warning_count, UNITS_METRIC);
    json_close(w);
}

void write_plan(struct json_write *w, const struct plan *plan)
{
    json_open(w, NULL, '{');
    write_area(w, "area", plan->job, plan->surfaces);
    write_buy(w, "buy", plan->job, plan->purchases);
    write_mix(w, "mix", plan->job, plan->mixes);
    write_timetable(w, "timetable", plan, NULL);
    json_open(w, "cautions", '[');
    for (size_t i = 0; i < plan->caution_count; i++)
        json_put_text(w, NULL,
                      arena_textf(w->out->arena, "%s; %s",
                                  plan_caution_words(w->out->arena, &plan->cautions[i], units_of(plan->job)),
                                  caution_rider()));
    json_close(w);
    json_close(w);
}
