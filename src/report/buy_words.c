#include "report/buy_words.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/day.h"
#include "base/money.h"

static void add_component(struct buf *text, const struct purchase *purchase, size_t i)
{
    const struct purchase_component *component = &purchase->components[i];
    const struct finish *finish = purchase->need.finish;
    for (size_t k = 0; k < component->pack_count; k++)
        buf_addf(text, "%s%d x %s%s%s", text->length ? " + " : "", component->packs[k].count,
                 component->packs[k].pack->label, finish->component_count > 1 ? " " : "",
                 finish->component_count > 1 ? finish->components[i].name : "");
}

const char *packs_words(struct arena *arena, const struct purchase *purchase)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < purchase->kit_count; i++)
        buf_addf(&text, "%s%d x %s", i ? " + " : "", purchase->kits[i].count, purchase->kits[i].kit->label);
    for (size_t i = 0; i < purchase->need.finish->component_count; i++)
        add_component(&text, purchase, i);
    return text.length ? text.text : "no pack";
}

static const char *money_words(struct arena *arena, const struct job *job, int64_t cents)
{
    return arena_textf(arena, "%s%s%s", money_format(cents, job->currency_digits).text,
                       job->currency ? " " : "", job->currency ? job->currency : "");
}

const char *high_words(struct arena *arena, const struct job *job, const struct purchase *purchase,
                       enum unit_system units)
{
    const struct need *need = &purchase->need;
    if (!purchase->high_short)
        return NULL;
    const char *words = arena_textf(arena, "%s: what is bought runs short where the wood drinks most (%s)",
                                    need->finish->name, volume_format(need->high_l, units).text);
    struct purchase_hint hint = purchase_hint(arena, job, purchase);
    if (hint.high_adds_cents < 0)
        return words;
    struct purchase ample = purchase_make(arena, job, need, need->high_l / need->likely_l - 1);
    return arena_textf(arena, "%s; %s would do for %s more", words, packs_words(arena, &ample),
                       money_words(arena, job, hint.high_adds_cents));
}

const char *reserve_words(struct arena *arena, const struct job *job, const struct purchase *purchase)
{
    const struct finish *finish = purchase->need.finish;
    struct purchase_hint hint = purchase_hint(arena, job, purchase);
    if (hint.smaller_reserve < purchase->reserve / 2 || hint.saves_cents <= 0 || finish->colours)
        return NULL;
    struct purchase lean = purchase_make(arena, job, &purchase->need, hint.smaller_reserve);
    return arena_textf(arena, "%s: with %s in reserve instead of %s, %s would do, for %s less", finish->name,
                       share_format(hint.smaller_reserve).text, share_format(purchase->reserve).text,
                       packs_words(arena, &lean), money_words(arena, job, hint.saves_cents));
}

const char *shelf_words(struct arena *arena, const struct job *job, const struct purchase *purchase,
                        size_t component, enum unit_system units)
{
    const struct need *need = &purchase->need;
    const struct finish *finish = need->finish;
    double first_l = shelf_good_l(job, finish, component, zone_day(job->zone, job->start_min, NULL));
    double lost_l = first_l - purchase->components[component].on_hand_l;
    if (lost_l < 1e-9)
        return NULL;
    bool several = finish->component_count > 1;
    return arena_textf(arena, "%s: %s%s%s on the shelf is past its date by the last coat, on %s: not counted",
                       finish->name, volume_format(lost_l, units).text, several ? " of " : "",
                       several ? finish->components[component].name : "",
                       date_format(date_of(need->last_coat_day)).text);
}
