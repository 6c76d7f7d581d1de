#include "report/json.h"

#include "base/arena.h"
#include "report/log.h"
#include "report/sentences.h"

static const struct zone *zone_of(const struct day_card *card)
{
    return card->plans[0]->job->zone;
}

static void write_shares(struct json_write *w, const struct day_batch *batch)
{
    json_open_row(w, "of", '[');
    for (size_t i = 0; i < batch->share_count; i++) {
        json_open_row(w, NULL, '{');
        json_put_text(w, "job", batch->shares[i].plan->job->name);
        json_put_text(w, "id", batch->shares[i].batch->id);
        json_close(w);
    }
    json_close(w);
}

/* INT64_MAX: nothing ends by itself. */
static int64_t begin_before(const struct timetable_step *step)
{
    int64_t first = step->operation->latest_min;
    for (size_t i = 0; i < step->after_count; i++)
        first = step->after[i].max_until < first ? step->after[i].max_until : first;
    return first;
}

static void write_step(struct json_write *w, const struct day_step *at)
{
    const struct timetable *timetable = at->plan->timetable;
    const struct timetable_step *step = &timetable->steps[at->step];
    const struct operation *operation = step->operation;
    const struct job *job = at->plan->job;
    json_open_row(w, NULL, '{');
    json_put_text(w, "job", job->name);
    json_put_text(w, "id", operation->id);
    json_put_text(w, "words", step_words(w->out->arena, operation));
    json_put_text(w, "do", doing_name(operation->doing));
    json_put_text(w, "piece", operation->piece < 0 ? NULL : job->pieces[operation->piece].name);
    json_put_moment(w, "start", job->zone, step->start_min);
    json_put_moment(w, "end", job->zone, step->end_min);
    if (operation->piece < 0)
        json_put_null(w, "area_m2");
    else
        json_put_number(w, "area_m2", pass_area_m2(&operation->pass));
    if (operation->doing == DO_APPLY) {
        struct litres litres = plan_litres(timetable, (size_t)(operation - at->plan->operations->items));
        json_put_number(w, "volume_ml", (litres.likely + litres.thinner) * 1000);
    } else
        json_put_null(w, "volume_ml");
    json_put_moment(w, "begin_before", job->zone, begin_before(step));
    json_put_text(w, "note", step_note(w->out->arena, timetable, at->step, units_of(job)));
    json_close(w);
}

static void write_need(struct json_write *w, const struct day_need *need)
{
    json_open_row(w, NULL, '{');
    json_put_text(w, "what", link_words(need->link, need->earlier, need->step->operation));
    json_put_moment(w, "since", need->plan->job->zone, need->until_min);
    json_put_text(w, "job", need->plan->job->name);
    json_put_text(w, "id", need->earlier->id);
    json_close(w);
}

static void write_mixes(struct json_write *w, const struct day_batch *batch)
{
    json_open(w, "mixes", '[');
    for (size_t i = 0; i < batch->share_count; i++) {
        const struct day_share *share = &batch->shares[i];
        const struct mix_card *card = NULL;
        while ((card = batch_card(share->plan, share->batch, card)))
            write_card(w, share->plan->job, card);
    }
    json_close(w);
}

static void write_who(struct json_write *w, const struct day_card *card, const struct timetable_batch *batch)
{
    const struct shop *shop = &card->plans[0]->job->shop;
    json_put_text(w, "person", person_name(w->out->arena, shop, batch->person));
    if (batch->helper > 0)
        json_put_text(w, "helper", person_name(w->out->arena, shop, batch->helper));
}

static void write_what(struct json_write *w, const struct day_share *share)
{
    const struct operation *first = share->batch->first;
    bool coat = first->doing == DO_APPLY;
    json_put_text(w, "words", batch_words(w->out->arena, share->plan->timetable, share->batch));
    json_put_text(w, "do", doing_name(first->doing));
    json_put_text(w, "finish", coat ? first->of.step->finish->id : NULL);
    json_put_text(w, "tool", coat ? tool_names[first->of.step->by] : NULL);
}

static void write_cautions(struct json_write *w, const struct day_batch *batch)
{
    json_open(w, "cautions", '[');
    for (size_t i = 0; i < batch->caution_count; i++) {
        const struct day_caution *caution = &batch->cautions[i];
        const char *words =
            plan_caution_words(w->out->arena, &caution->caution, units_of(caution->plan->job));
        json_put_text(w, NULL, arena_textf(w->out->arena, "%s; %s", words, caution_rider()));
    }
    json_close(w);
}

static void write_batch(struct json_write *w, const struct day_card *card, const struct day_batch *batch)
{
    const struct timetable_batch *first = day_batch_main(batch);
    json_open(w, NULL, '{');
    write_who(w, card, first);
    write_what(w, &batch->shares[0]);
    json_put_moment(w, "start", zone_of(card), first->start_min);
    json_put_moment(w, "work_from", zone_of(card), first->work_from_min);
    json_put_moment(w, "work_until", zone_of(card), first->work_until_min);
    json_put_moment(w, "end", zone_of(card), first->end_min);
    write_shares(w, batch);
    json_open(w, "steps", '[');
    for (size_t i = 0; i < batch->step_count; i++)
        write_step(w, &batch->steps[i]);
    json_close(w);
    json_open(w, "before", '[');
    for (size_t i = 0; i < batch->need_count; i++)
        write_need(w, &batch->needs[i]);
    json_close(w);
    write_mixes(w, batch);
    write_cautions(w, batch);
    json_close(w);
}

static void write_done_today(struct json_write *w, const struct day_card *card)
{
    json_open(w, "done", '[');
    for (size_t i = 0; i < card->plan_count; i++) {
        size_t count;
        const struct done_batch *batches = done_batches(w->out->arena, card->plans[i]->timetable, &count);
        for (size_t k = 0; k < count; k++) {
            if (zone_day(zone_of(card), batches[k].from_min, NULL) != card->day)
                continue;
            json_open_row(w, NULL, '{');
            json_put_text(w, "job", card->plans[i]->job->name);
            json_put_text(w, "id", batches[k].id);
            json_put_moment(w, "began", zone_of(card), batches[k].from_min);
            json_put_moment(w, "done", zone_of(card), batches[k].to_min);
            json_close(w);
        }
    }
    json_close(w);
}

static void write_next(struct json_write *w, const struct day_card *card)
{
    json_open(w, "next", '[');
    for (size_t i = 0; i < card->next_count; i++) {
        json_open_row(w, NULL, '{');
        write_who(w, card, day_batch_main(&card->next[i]));
        write_what(w, &card->next[i].shares[0]);
        json_put_moment(w, "start", zone_of(card), day_batch_main(&card->next[i])->start_min);
        write_shares(w, &card->next[i]);
        json_close(w);
    }
    json_close(w);
}

void write_day(struct json_write *w, const struct day_card *card)
{
    struct arena *arena = w->out->arena;
    const struct shop *shop = &card->plans[0]->job->shop;
    json_open(w, NULL, '{');
    json_put_text(w, "day", date_format(date_of(card->day)).text);
    json_put_text(w, "zone", zone_of(card)->name);
    json_put_text(w, "person", card->person ? person_name(arena, shop, card->person) : NULL);
    json_open_row(w, "jobs", '[');
    for (size_t i = 0; i < card->plan_count; i++)
        json_put_text(w, NULL, card->plans[i]->job->name);
    json_close(w);
    json_open(w, "batches", '[');
    for (size_t i = 0; i < card->count; i++)
        write_batch(w, card, &card->batches[i]);
    json_close(w);
    write_done_today(w, card);
    write_next(w, card);
    json_close(w);
}
