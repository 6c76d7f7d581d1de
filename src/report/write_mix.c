#include "report/write_mix.h"

#include "report/sentences.h"

#include <math.h>

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

static void write_card(struct json_write *w, const struct job *job, const struct mix_card *card)
{
    json_open(w, NULL, '{');
    json_put_text(w, "finish", card->finish->id);
    json_put_whole(w, "coat", card->coat);
    json_open_row(w, "pieces", '[');
    for (size_t i = 0; i < card->piece_count; i++)
        json_put_text(w, NULL, job->pieces[card->pieces[i]].name);
    json_close(w);
    json_put_number(w, "volume_ml", card->volume_l * 1000);
    write_pours(w, card->finish, card->mix);
    json_put_number(w, "apply_min", card->apply_min);
    json_put_moment(w, "mixed_at", job->zone, card->mixed_at_min);
    json_put_moment(w, "use_by", job->zone, card->use_by_min);
    json_close(w);
}

static void write_warnings(struct json_write *w, const struct mix_warning *warnings, size_t count)
{
    json_open(w, "warnings", '[');
    for (size_t i = 0; i < count; i++)
        json_put_text(w, NULL, mix_warning_words(w->out->arena, &warnings[i]));
    json_close(w);
}

void write_mix(struct json_write *w, const char *key, const struct job *job, const struct mix_cards *cards)
{
    json_open(w, key, '{');
    json_open(w, "mixes", '[');
    for (size_t i = 0; i < cards->count; i++)
        write_card(w, job, &cards->items[i]);
    json_close(w);
    write_warnings(w, cards->warnings, cards->warning_count);
    json_close(w);
}

static void write_lone_mix(struct json_write *w, const struct lone_mix *lone)
{
    json_open(w, NULL, '{');
    json_put_text(w, "finish", lone->want.finish->id);
    json_put_null(w, "coat");
    json_open(w, "pieces", '[');
    json_close(w);
    json_put_number(w, "volume_ml", lone->mix->volume_l * 1000);
    write_pours(w, lone->want.finish, lone->mix);
    json_put_number(w, "apply_min", lone->want.by == LONE_AREA ? lone->laying_min : INFINITY);
    json_put_null(w, "mixed_at");
    json_put_null(w, "use_by");
    json_close(w);
}

void write_lone(struct json_write *w, const struct lone_mix *lone)
{
    json_open(w, NULL, '{');
    json_open(w, "mixes", '[');
    for (int i = 0; i < lone->count; i++)
        write_lone_mix(w, lone);
    json_close(w);
    write_warnings(w, lone->warnings, lone->warning_count);
    json_close(w);
}
