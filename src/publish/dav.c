#include "publish/dav.h"

#include "base/arena.h"
#include "base/buf.h"

#include <string.h>

/* The body of a PROPFIND that asks for all that an entry holds. */
static const char question[] =
    "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
    "<propfind xmlns=\"DAV:\" xmlns:c=\"urn:ietf:params:xml:ns:caldav\"><prop><resourcetype/><getetag/>"
    "<current-user-principal/><c:calendar-home-set/></prop></propfind>\n";

enum { HOPS = 3, NAMED_MOST = 8 };

static const char well_known[] = "/.well-known/caldav";
static const char own_name[] = "coatwright/";

static const struct {
    long status;
    const char *words;
} refusals[] = {
    {401, "the user or the password is not accepted"},
    {403, "the user may not do that"},
    {404, "nothing is there"},
    {405, "it does not do that"},
    {409, "the folder above it is missing"},
    {413, "it is too large for the server"},
    {423, "it is locked"},
    {507, "the server is full"},
};

bool server_refused(struct arena *arena, const char *what, const struct http_answer *answer, struct err *err)
{
    const char *words = answer->status >= 300 && answer->status < 400
                            ? "it leads elsewhere, which is not followed"
                        : answer->status >= 500 ? "the server has failed"
                                                : "the server has refused";
    for (size_t i = 0; i < sizeof refusals / sizeof refusals[0]; i++)
        if (refusals[i].status == answer->status)
            words = refusals[i].words;
    return err_say_found(err, what, arena_textf(arena, "status %ld: %s", answer->status, words));
}

bool server_exchange(const struct server *server, const struct http_request *request,
                     struct http_answer *answer, struct err *err)
{
    if (!url_same_server(server->named, request->url))
        return err_say_found(err, "a calendar on the server that was named",
                             request->url[0] ? request->url : "what is no address");
    return http_exchange(server->arena, &server->access, request, answer, err);
}

bool server_follow(const struct server *server, const struct http_request *request, const char **url,
                   struct http_answer *answer, struct err *err)
{
    struct http_request asked = *request;
    for (int hop = 0; hop <= HOPS; hop++) {
        asked.url = *url;
        if (!server_exchange(server, &asked, answer, err))
            return false;
        if (answer->status < 300 || answer->status >= 400 || !answer->location)
            break;
        *url = url_resolve(server->arena, *url, answer->location);
    }
    return true;
}

static const struct http_request propfind = {
    .method = "PROPFIND", .type = "application/xml; charset=utf-8", .body = question, .depth = "0"};

bool server_look(const struct server *server, const char **url, struct dav_look *seen, struct err *err)
{
    struct http_answer answer = {0};
    struct dav_list list = {0};
    *seen = (struct dav_look){0, {"", "", "", "", "", 0, false}, false};
    if (!server_follow(server, &propfind, url, &answer, err))
        return false;
    seen->status = answer.status;
    if (answer.status != STATUS_MULTI)
        return true;
    if (!multistatus_read(server->arena, answer.body, answer.length, &list, err))
        return false;
    seen->there = list.count > 0;
    if (seen->there)
        seen->entry = list.items[0];
    return true;
}

/* One resource. *there is false where the server knows no such place. */
static bool look(const struct server *server, const char **url, struct dav_entry *entry, bool *there,
                 struct err *err)
{
    struct dav_look seen;
    if (!server_look(server, url, &seen, err))
        return false;
    *entry = seen.entry;
    *there = seen.there;
    return seen.status == STATUS_MULTI || seen.status == STATUS_MISSING || seen.status == STATUS_NOT_DONE ||
           server_refused(server->arena, "a calendar at this address",
                          &(struct http_answer){.status = seen.status}, err);
}

static const char *with_slash(struct arena *arena, const char *url)
{
    size_t length = strlen(url);
    return length > 0 && url[length - 1] == '/' ? url : arena_textf(arena, "%s/", url);
}

static const char *make_at(const struct server *server, const char *url, struct err *err)
{
    struct http_answer answer;
    struct http_request request = {.method = "MKCALENDAR", .url = with_slash(server->arena, url)};
    if (!server_exchange(server, &request, &answer, err))
        return NULL;
    if (answer.status == 201 || answer.status == 200)
        return request.url;
    (void)server_refused(server->arena, "a new calendar at this address", &answer, err);
    return NULL;
}

bool collection_list(const struct server *server, const char *collection, struct dav_list *list,
                     struct err *err)
{
    struct http_answer answer;
    struct http_request request = propfind;
    request.url = collection;
    request.depth = "1";
    if (!server_exchange(server, &request, &answer, err))
        return false;
    if (answer.status != STATUS_MULTI)
        return server_refused(server->arena, "a list of what the calendar holds", &answer, err);
    return multistatus_read(server->arena, answer.body, answer.length, list, err);
}

/* The one calendar of a home, or a new one. */
static const char *in_home(const struct server *server, const char *home, bool make, struct err *err)
{
    struct dav_list list = {0};
    struct buf names;
    const char *found = NULL;
    size_t count = 0;
    buf_init(&names, server->arena);
    if (!collection_list(server, home, &list, err))
        return NULL;
    for (size_t i = 0; i < list.count; i++) {
        if (!list.items[i].calendar || !list.items[i].href[0])
            continue;
        const char *at = url_resolve(server->arena, home, list.items[i].href);
        if (!url_same_server(server->named, at))
            continue;
        found = at;
        if (count++ < NAMED_MOST)
            buf_addf(&names, "%s%s", count == 1 ? "" : ", ", found);
    }
    if (count == 1)
        return with_slash(server->arena, found);
    if (count == 0 && make)
        return make_at(server, arena_textf(server->arena, "%s%s", with_slash(server->arena, home), own_name),
                       err);
    err_fill(err, ERR_FILE, count ? "the address of one calendar" : "a calendar (publish --make makes one)",
             count ? names.text : "none");
    return NULL;
}

/* Leads from any resource to the user's home. */
static const char *home_of(const struct server *server, const char *url, struct dav_entry entry,
                           struct err *err)
{
    bool there = true;
    if (!entry.home[0] && entry.principal[0]) {
        url = url_resolve(server->arena, url, entry.principal);
        if (!look(server, &url, &entry, &there, err))
            return NULL;
    }
    if (!there || !entry.home[0]) {
        err_fill(err, ERR_FILE, "the address of a calendar", "neither a calendar nor a way to one");
        return NULL;
    }
    return url_resolve(server->arena, url, entry.home);
}

const char *collection_find(const struct server *server, const char *url, bool make, struct err *err)
{
    struct dav_entry entry;
    bool there;
    const char *asked = url;
    if (!look(server, &url, &entry, &there, err))
        return NULL;
    if (there && entry.calendar)
        return with_slash(server->arena, url);
    bool whole_server = strcmp(url_resolve(server->arena, asked, "/"), with_slash(server->arena, asked)) == 0;
    if (!there && make && !whole_server)
        return make_at(server, asked, err);
    if (!there || (!entry.home[0] && !entry.principal[0])) {
        url = url_resolve(server->arena, asked, well_known);
        if (!look(server, &url, &entry, &there, err))
            return NULL;
        if (there && entry.calendar)
            return with_slash(server->arena, url);
    }
    if (!there) {
        err_fill(err, ERR_FILE, "the address of a calendar", "nothing is there");
        return NULL;
    }
    const char *home = home_of(server, url, entry, err);
    return home ? in_home(server, home, make, err) : NULL;
}
