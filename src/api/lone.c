/* What needs no job: the finish table, and a mix. */
#include "api/session.h"

#include "base/measure.h"
#include "io/words.h"

#include <math.h>

static struct finish_table *load_table(struct coatwright *session)
{
    struct finish_folders folders = {.shipped = session_finishes(session), .currency_digits = 2};
    size_t before = session->errors.count;
    if (!session->reading.texts)
        session->reading.texts = texts_make(session->arena);
    struct finish_table *table = finish_table_load(&session->reading, &folders);
    return session->errors.count > before ? NULL : table;
}

static const struct finish *find(struct coatwright *session, const struct finish_table *table, const char *id)
{
    const struct finish *finish = finish_table_find(table, id);
    if (!finish)
        err_add(&session->errors, ERR_USAGE, NULL, NULL,
                "a finish of the table (coatwright finishes lists them)",
                words_found(session->arena, id, finish_table_ids(session->arena, table), table->count));
    return finish;
}

static bool show_finishes(struct coatwright *session, void *call)
{
    const char *id = ((const struct text_call *)call)->text;
    const struct finish_table *table = load_table(session);
    if (!table)
        return false;
    session->finishes = table->items;
    session->finish_count = table->count;
    session->one_finish = id != NULL;
    if (!id)
        return true;
    const struct finish **one = ARENA_NEW(session->arena, const struct finish *);
    *one = find(session, table, id);
    session->finishes = one;
    session->finish_count = 1;
    return *one != NULL;
}

bool coatwright_finishes(struct coatwright *session, const char *finish)
{
    struct text_call call = {finish};
    return session_guard(session, show_finishes, &call);
}

struct mix_call {
    const char *finish, *amount, *at;
    bool sound;
};

static bool read_amounts(struct coatwright *session, const struct mix_call *call, struct mix_want *want)
{
    struct fault fault;
    if (!volume_parse(call->amount, &want->volume_l, &fault))
        return session_misused(session, fault.expected, call->amount);
    if (want->volume_l <= 0)
        return session_misused(session, "a volume above 0", call->amount);
    if (call->at && !temperature_parse(call->at, &want->temperature_c, &fault))
        return session_misused(session, fault.expected, call->at);
    return true;
}

static void warn_of_mix(struct coatwright *session, const struct mix_want *want)
{
    struct lone_mix *lone = &session->lone;
    struct arena *arena = session->arena;
    if (!lone->mix->within)
        lone->warnings[lone->warning_count++] = arena_textf(
            arena, "%s: a scale in steps of %g g cannot keep the ratio", lone->finish->name, want->scale_g);
    if (lone->mix->working_min <= 0)
        lone->warnings[lone->warning_count++] =
            arena_textf(arena, "%s: at %.0f C the pot is dead before its induction ends", lone->finish->name,
                        want->temperature_c);
}

static bool mix_alone(struct coatwright *session, void *argument)
{
    struct mix_call *call = argument;
    struct shop shop;
    const struct finish_table *table = load_table(session);
    const struct finish *finish = table ? find(session, table, call->finish) : NULL;
    if (!finish)
        return false;
    shop_default(&shop);
    struct mix_want want = {.scale_g = shop.scale_g, .temperature_c = finish->at_c};
    if (!read_amounts(session, call, &want))
        return false;
    session->lone =
        (struct lone_mix){finish, mix_make(session->arena, finish, want), want.temperature_c, {NULL}, 0};
    warn_of_mix(session, &want);
    call->sound = session->lone.warning_count == 0;
    return true;
}

bool coatwright_mix(struct coatwright *session, const char *finish, const char *amount, const char *at,
                    bool *sound)
{
    struct mix_call call = {finish, amount, at, false};
    bool done = session_guard(session, mix_alone, &call);
    *sound = call.sound;
    return done;
}
