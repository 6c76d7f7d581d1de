/* The finish table without a job. */
#include "api/session.h"

#include "io/words.h"

struct finish_table *session_table(struct coatwright *session, const char *own)
{
    struct finish_folders folders = {.shipped = session_finishes(session), .own = own, .currency_digits = 2};
    size_t before = session->errors.count;
    if (!session->reading.texts)
        session->reading.texts = texts_make(session->arena);
    struct finish_table *table = finish_table_load(&session->reading, &folders);
    return session->errors.count > before ? NULL : table;
}

const struct finish *session_finish(struct coatwright *session, const struct finish_table *table,
                                    const char *id)
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
    const struct finish_table *table = session_table(session, NULL);
    if (!table)
        return false;
    session->finishes = table->items;
    session->finish_count = table->count;
    session->one_finish = id != NULL;
    if (!id)
        return true;
    const struct finish **one = ARENA_NEW(session->arena, const struct finish *);
    *one = session_finish(session, table, id);
    session->finishes = one;
    session->finish_count = 1;
    return *one != NULL;
}

bool coatwright_finishes(struct coatwright *session, const char *finish)
{
    struct text_call call = {finish};
    return session_guard(session, show_finishes, &call);
}
