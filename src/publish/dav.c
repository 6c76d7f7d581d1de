#include "publish/dav.h"

#include "base/arena.h"
#include "base/buf.h"

#include <expat.h>
#include <string.h>

/* Between namespace and name of an element; cannot stand in either. */
#define BETWEEN "\n"
#define DAV "DAV:" BETWEEN
#define CALDAV "urn:ietf:params:xml:ns:caldav" BETWEEN

enum { DEEPEST = 32, LONGEST = 1 << 30 };

/* The body of a PROPFIND that asks for all that an entry holds. */
static const char question[] =
    "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n"
    "<propfind xmlns=\"DAV:\" xmlns:c=\"urn:ietf:params:xml:ns:caldav\"><prop><resourcetype/><getetag/>"
    "<current-user-principal/><c:calendar-home-set/></prop></propfind>\n";

/* Room for all that can be said is taken before expat runs, for the arena may escape and expat must not be left so: texts
 * together are no longer than the document, and each entry has its own element in it. */
struct walk {
    XML_Parser parser;
    struct dav_list *list;
    size_t most;
    char *pool;
    size_t used, began; /* bytes of the pool; where the text of the innermost element begins */
    const char *inside; /* the property whose href is being read */
    int depth;
    bool in_response;
};

static bool is(const char *name, const char *wanted)
{
    return strcmp(name, wanted) == 0;
}

static void XMLCALL element_begins(void *user, const char *name, const char **attributes)
{
    struct walk *walk = user;
    (void)attributes;
    if (++walk->depth > DEEPEST)
        XML_StopParser(walk->parser, XML_FALSE);
    if (is(name, DAV "response") && walk->list->count < walk->most) {
        walk->list->items[walk->list->count++] = (struct dav_entry){"", "", "", "", false};
        walk->in_response = true;
    }
    if (is(name, DAV "current-user-principal"))
        walk->inside = "principal";
    if (is(name, CALDAV "calendar-home-set"))
        walk->inside = "home";
    if (is(name, CALDAV "calendar") && walk->in_response)
        walk->list->items[walk->list->count - 1].calendar = true;
    walk->began = walk->used;
}

static void XMLCALL text_comes(void *user, const char *text, int length)
{
    struct walk *walk = user;
    memcpy(walk->pool + walk->used, text, (size_t)length);
    walk->used += (size_t)length;
}

/* The text of the element that ends, blanks around it taken off. */
static const char *text_of(struct walk *walk)
{
    char *text = walk->pool + walk->began;
    size_t length = walk->used - walk->began;
    while (length > 0 && strchr(" \t\r\n", text[length - 1]))
        length--;
    while (length > 0 && strchr(" \t\r\n", *text)) {
        text++;
        length--;
    }
    text[length] = '\0';
    walk->used = (size_t)(text - walk->pool) + length + 1;
    return text;
}

static void XMLCALL element_ends(void *user, const char *name)
{
    struct walk *walk = user;
    walk->depth--;
    if (!walk->in_response)
        return;
    struct dav_entry *entry = &walk->list->items[walk->list->count - 1];
    if (is(name, DAV "href")) {
        const char **to = !walk->inside              ? &entry->href
                          : is(walk->inside, "home") ? &entry->home
                                                     : &entry->principal;
        *to = text_of(walk);
    } else if (is(name, DAV "getetag")) {
        entry->etag = text_of(walk);
    } else if (is(name, DAV "current-user-principal") || is(name, CALDAV "calendar-home-set")) {
        walk->inside = NULL;
    } else if (is(name, DAV "response")) {
        walk->in_response = false;
    }
}

static void XMLCALL refuse_entities(void *user, const char *name, const char *system, const char *public_id,
                                    int has_subset)
{
    struct walk *walk = user;
    (void)name;
    (void)system;
    (void)public_id;
    (void)has_subset;
    XML_StopParser(walk->parser, XML_FALSE);
}

static size_t count_of(const char *text, size_t length, const char *word)
{
    size_t count = 0, size = strlen(word);
    for (size_t i = 0; i + size <= length; i++)
        count += memcmp(text + i, word, size) == 0;
    return count;
}

static void parser_free(void *object)
{
    XML_ParserFree(object);
}

static bool parse(struct arena *arena, const char *text, size_t length, struct dav_list *list,
                  struct err *err)
{
    size_t most = count_of(text, length, "response") + 1;
    *list = (struct dav_list){ARENA_ARRAY(arena, most, struct dav_entry), 0};
    /* A terminator for each text, of which an entry has four. */
    struct walk walk = {
        .list = list, .most = most, .pool = arena_alloc(arena, length + 4 * most + DEEPEST, 1)};
    walk.parser = XML_ParserCreateNS("UTF-8", *BETWEEN);
    if (!walk.parser)
        return err_say_found(err, "memory for an answer", "none left");
    arena_own(arena, walk.parser, parser_free);
    XML_SetUserData(walk.parser, &walk);
    XML_SetElementHandler(walk.parser, element_begins, element_ends);
    XML_SetCharacterDataHandler(walk.parser, text_comes);
    XML_SetStartDoctypeDeclHandler(walk.parser, refuse_entities);
    bool good = length < LONGEST && XML_Parse(walk.parser, text, (int)length, XML_TRUE) == XML_STATUS_OK;
    arena_disown(arena, walk.parser);
    XML_ParserFree(walk.parser);
    return good || err_say_found(err, "an answer of a calendar server (RFC 4918)", "XML that cannot be read");
}

enum { HOPS = 3, STATUS_MULTI = 207, NAMED_MOST = 8 };

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

static bool ask(const struct server *server, const char *url, const char *depth, struct http_answer *answer,
                struct err *err)
{
    struct http_request request = {.method = "PROPFIND",
                                   .url = url,
                                   .type = "application/xml; charset=utf-8",
                                   .body = question,
                                   .depth = depth};
    return http_exchange(server->arena, &server->access, &request, answer, err);
}

/* One resource. *there is false where the server knows no such place; a redirect on the same server is followed. */
static bool look(const struct server *server, const char **url, struct dav_entry *entry, bool *there,
                 struct err *err)
{
    struct http_answer answer = {0};
    struct dav_list list = {0};
    *there = false;
    for (int hop = 0; hop <= HOPS; hop++) {
        if (!ask(server, *url, "0", &answer, err))
            return false;
        if (answer.status < 300 || answer.status >= 400 || !answer.location)
            break;
        const char *next = http_resolve(server->arena, *url, answer.location);
        if (!http_same_server(*url, next))
            return err_say_found(err, "a calendar on the server that was named", next);
        *url = next;
    }
    if (answer.status == 404 || answer.status == 405)
        return true;
    if (answer.status != STATUS_MULTI)
        return server_refused(server->arena, "a calendar at this address", &answer, err);
    if (!parse(server->arena, answer.body, answer.length, &list, err))
        return false;
    *there = list.count > 0;
    if (*there)
        *entry = list.items[0];
    return true;
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
    if (!http_exchange(server->arena, &server->access, &request, &answer, err))
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
    if (!ask(server, collection, "1", &answer, err))
        return false;
    if (answer.status != STATUS_MULTI)
        return server_refused(server->arena, "a list of what the calendar holds", &answer, err);
    return parse(server->arena, answer.body, answer.length, list, err);
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
        found = http_resolve(server->arena, home, list.items[i].href);
        if (!http_same_server(home, found))
            continue;
        if (count++ < NAMED_MOST)
            buf_addf(&names, "%s%s", count == 1 ? "" : ", ", found);
    }
    if (count == 1)
        return with_slash(server->arena, found);
    if (count == 0 && make)
        return make_at(server, arena_textf(server->arena, "%s%s", with_slash(server->arena, home), own_name),
                       err);
    err_fill(err, ERR_FILE, "the address of one calendar, or --make for a new one",
             count ? names.text : "no calendar");
    return NULL;
}

/* Leads from any resource to the user's home. */
static const char *home_of(const struct server *server, const char *url, struct dav_entry entry,
                           struct err *err)
{
    bool there = true;
    if (!entry.home[0] && entry.principal[0]) {
        url = http_resolve(server->arena, url, entry.principal);
        if (!look(server, &url, &entry, &there, err))
            return NULL;
    }
    if (!there || !entry.home[0]) {
        err_fill(err, ERR_FILE, "the address of a calendar", "neither a calendar nor a way to one");
        return NULL;
    }
    return http_resolve(server->arena, url, entry.home);
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
    bool whole_server =
        strcmp(http_resolve(server->arena, asked, "/"), with_slash(server->arena, asked)) == 0;
    if (!there && make && !whole_server)
        return make_at(server, asked, err);
    if (!there || (!entry.home[0] && !entry.principal[0])) {
        url = http_resolve(server->arena, asked, well_known);
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
    if (home && !http_same_server(asked, home)) {
        err_fill(err, ERR_FILE, "a calendar on the server that was named", home);
        return NULL;
    }
    return home ? in_home(server, home, make, err) : NULL;
}
