/* Texts of a job saved, and their earlier versions. */
#include "page/exchange.h"

#include "coatwright_folder.h"

#include <string.h>

/* A file of the folder as it stands now, with its version; NULL: it is not there, or its session has the error. */
static const char *text_now(const struct exchange *x, struct coatwright *session, const char *name,
                            size_t *length, char version[COATWRIGHT_TEXT_VERSION_SIZE])
{
    const char *text = coatwright_folder_text(session, x->settings->folder, name, length);
    if (text)
        coatwright_text_version(text, *length, version);
    return text;
}

/* {NAME: {"version"}} of the files as they stand now. */
json_t *versions_json(struct exchange *x, const char *const *names, size_t count)
{
    json_t *texts = json_object();
    struct coatwright *session = exchange_session(x, 0, false);
    for (size_t i = 0; i < count; i++) {
        char version[COATWRIGHT_TEXT_VERSION_SIZE];
        size_t length;
        if (text_now(x, session, names[i], &length, version))
            member_put(x, texts, names[i], json_pack("{s:s}", "version", version));
    }
    return texts;
}

/* The texts of the body; false: the answer says what is wrong with them. */
static bool read_texts(struct exchange *x, struct coatwright_text **texts, size_t *count)
{
    const char *name;
    json_t *object = json_object_get(x->body, "texts"), *item;
    *texts = ARENA_ARRAY(x->arena, json_object_size(object), struct coatwright_text);
    json_object_foreach(object, name, item)
    {
        json_t *text = json_object_get(item, "text");
        if (!json_is_string(text))
            break;
        (*texts)[(*count)++] = (struct coatwright_text){sizeof **texts, name, json_string_value(text),
                                                        json_string_length(text), text_of(item, "version")};
    }
    if (*count > 0 && *count == json_object_size(object))
        return true;
    exchange_refuse(x, 400, "texts: expected an object with {\"text\", \"version\"} for each name of a file");
    return false;
}

/* Somebody else was first: both texts, so that a person can choose. */
static void tell_conflict(struct exchange *x, const struct coatwright_text *texts, size_t count)
{
    struct coatwright *session = exchange_session(x, 0, false);
    json_t *theirs = json_object();
    for (size_t i = 0; i < count; i++) {
        char version[COATWRIGHT_TEXT_VERSION_SIZE] = "";
        size_t length = 0;
        const char *text = text_now(x, session, texts[i].name, &length, version);
        if (texts[i].version ? strcmp(version, texts[i].version) == 0 : !text)
            continue;
        member_put(x, theirs, texts[i].name,
                   json_pack("{s:o, s:s?}", "text", text ? json_stringn(text, length) : json_null(),
                             "version", text ? version : NULL));
    }
    /* A text that could not be read is not one that somebody has taken away. */
    if (coatwright_error_count(session) > 0) {
        json_decref(theirs);
        exchange_fail(x, session);
        return;
    }
    x->answer->status = 409;
    exchange_json(x, json_pack("{s:s, s:o}", "error",
                               "somebody has changed this meanwhile: choose which text is to stay", "texts",
                               theirs));
}

/* {NAME: {"version"}} of texts as they will stand once they are saved. */
static json_t *new_versions(struct exchange *x, const struct coatwright_text *texts, size_t count)
{
    json_t *versions = json_object();
    for (size_t i = 0; i < count; i++) {
        char version[COATWRIGHT_TEXT_VERSION_SIZE];
        coatwright_text_version(texts[i].text, texts[i].length, version);
        member_put(x, versions, texts[i].name, json_pack("{s:s}", "version", version));
    }
    return versions;
}

void route_save(struct exchange *x)
{
    struct coatwright *session = exchange_session(x, 0, false);
    struct coatwright_text *texts;
    size_t count = 0, conflict;
    if (!read_texts(x, &texts, &count))
        return;
    /* The answer is ready before the texts are saved: where memory ends on the way to it, nothing is. */
    exchange_json(x, json_pack("{s:o}", "texts", new_versions(x, texts, count)));
    if (x->answer->status != 200)
        return;
    if (coatwright_save_texts(session, x->settings->folder, texts, count, &conflict))
        return;
    if (conflict)
        tell_conflict(x, texts, count);
    else
        exchange_fail(x, session);
}

/* Looks up the versions of the file that the query names, in a session of its own; NULL: the answer says why not. */
static struct coatwright *find_versions(struct exchange *x)
{
    struct coatwright *session = exchange_session(x, 0, false);
    const char *of = exchange_query(x, "of");
    if (!of)
        exchange_refuse(x, 400, "of: expected the name of a file behind ?of=");
    else if (coatwright_list_versions(session, x->settings->folder, of))
        return session;
    else
        exchange_fail(x, session);
    return NULL;
}

void route_versions(struct exchange *x)
{
    struct coatwright *session = find_versions(x);
    json_t *list = json_array();
    if (!session) {
        json_decref(list);
        return;
    }
    for (size_t i = 0; i < coatwright_version_count(session); i++) {
        const struct coatwright_version_kept *kept = coatwright_version_kept(session, i);
        item_put(x, list,
                 json_pack("{s:s, s:s, s:I}", "version", kept->version, "when",
                           moment_text(x, kept->until_s / 60), "size", (json_int_t)kept->length));
    }
    exchange_json(x, list);
}

void route_version(struct exchange *x)
{
    const char *version = exchange_query(x, "version");
    struct coatwright *session = find_versions(x);
    size_t length;
    if (!session)
        return;
    const char *text = coatwright_version_text(session, version, &length);
    if (!text)
        exchange_refuse(x, 404, "there is no such version");
    else
        exchange_json(x, json_pack("{s:o}", "text", json_stringn(text, length)));
}
