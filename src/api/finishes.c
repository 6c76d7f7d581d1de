/* The finish table without a job. */
#include "api/session.h"

#include "format/words.h"

#include <string.h>

enum { MEANT_MOST = 6 };

struct finish_table *session_table(struct coatwright *session, const char *own)
{
    struct finish_folders folders = {.shipped = session_finishes(session), .own = own, .currency_digits = 2};
    folders.rule.trusted = session->options.trust_paths;
    size_t before = session->errors.count;
    if (!session->reading.texts)
        session->reading.texts = texts_make(session->arena);
    struct finish_table *table = finish_table_load(&session->reading, &folders);
    return session->errors.count > before ? NULL : table;
}

/* A family or a part of an id leads to the finishes that may be meant; a slip of the pen to the nearest one. */
static const char *found_finish(struct arena *arena, const struct finish_table *table, const char *id)
{
    struct buf meant;
    size_t count = 0;
    buf_init(&meant, arena);
    for (size_t i = 0; i < table->count; i++) {
        const struct finish *finish = table->items[i];
        bool like = *id && (strstr(finish->id, id) || strcmp(finish->family, id) == 0);
        if (like && ++count <= MEANT_MOST)
            buf_addf(&meant, "%s%s", meant.length ? ", " : "", finish->id);
    }
    if (count == 0)
        return words_found(arena, id, finish_table_ids(arena, table), table->count);
    return arena_textf(arena, "%s (one of %s%s?)", words_quote(arena, id), meant.text,
                       count > MEANT_MOST ? ", ..." : "");
}

const struct finish *session_finish(struct coatwright *session, const struct finish_table *table,
                                    const char *id)
{
    const struct finish *finish = finish_table_find(table, id);
    if (!finish)
        err_add(&session->errors, ERR_USAGE, NULL, NULL,
                "a finish of the table (coatwright finishes lists them)",
                found_finish(session->arena, table, id));
    return finish;
}

struct finishes_call {
    const char *id, *own;
};

/* For each what the shop's own folder put in the place of the shipped one; NULL when an error was added. */
static const struct finish **replaced(struct coatwright *session, const struct finish *const *finishes,
                                      size_t count, const char *own)
{
    const struct finish **replaces = ARENA_ARRAY(session->arena, count, const struct finish *);
    const struct finish_table *shipped = own ? session_table(session, NULL) : NULL;
    for (size_t i = 0; i < count && shipped; i++)
        if (!finishes[i]->shipped)
            replaces[i] = finish_table_find(shipped, finishes[i]->id);
    return own && !shipped ? NULL : replaces;
}

static bool show_finishes(struct coatwright *session, void *argument)
{
    const struct finishes_call *call = argument;
    const struct finish_table *table = session_table(session, call->own);
    if (!table)
        return false;
    const struct finish **finishes = table->items;
    size_t count = table->count;
    if (call->id) {
        finishes = ARENA_NEW(session->arena, const struct finish *);
        finishes[0] = session_finish(session, table, call->id);
        count = 1;
        if (!finishes[0])
            return false;
    }
    session->replaces = replaced(session, finishes, count, call->own);
    if (!session->replaces)
        return false;
    session->finishes = finishes;
    session->finish_count = count;
    session->one_finish = call->id != NULL;
    return true;
}

bool coatwright_finishes(struct coatwright *session, const char *finish, const char *own)
{
    struct finishes_call call = {finish, own};
    return session_guard(session, show_finishes, &call);
}
