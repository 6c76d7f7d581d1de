#include "publish/dav.h"

#include "base/arena.h"

#include <expat.h>
#include <string.h>

/* Between namespace and name of an element; cannot stand in either. */
#define BETWEEN "\n"
#define DAV "DAV:" BETWEEN
#define CALDAV "urn:ietf:params:xml:ns:caldav" BETWEEN

enum { DEEPEST = 32, LONGEST = 1 << 30 };

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
    bool in_response, in_propstat;
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
        walk->list->items[walk->list->count++] = (struct dav_entry){"", "", "", "", "", 0, false};
        walk->in_response = true;
        walk->in_propstat = false;
    }
    if (is(name, DAV "propstat"))
        walk->in_propstat = true;
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

/* "HTTP/1.1 507 Insufficient Storage" -> 507; 0: no such line. */
static int status_of(const char *line)
{
    const char *at = strchr(line, ' ');
    int status = 0, digits = 0;
    for (; at && digits < 3 && at[1 + digits] >= '0' && at[1 + digits] <= '9'; digits++)
        status = 10 * status + (at[1 + digits] - '0');
    return digits == 3 ? status : 0;
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
    } else if (is(name, CALDAV "calendar-data")) {
        entry->data = text_of(walk);
    } else if (is(name, DAV "propstat")) {
        walk->in_propstat = false;
    } else if (is(name, DAV "status") && !walk->in_propstat) {
        entry->status = status_of(text_of(walk));
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

bool multistatus_read(struct arena *arena, const char *text, size_t length, struct dav_list *list,
                      struct err *err)
{
    size_t most = count_of(text, length, "response") + 1;
    *list = (struct dav_list){ARENA_ARRAY(arena, most, struct dav_entry), 0};
    /* A terminator for each text. */
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
