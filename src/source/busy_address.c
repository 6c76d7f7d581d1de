/* `busy`: calendars on a server, which are fetched into files so that planning asks nobody. */
#include "source/job_draft.h"

#include "base/arena.h"

#include <inttypes.h>
#include <string.h>

enum { ADDRESS_MOST = 1000, HOST_MOST = 60 };

static const char an_address[] = "an address such as \"https://calendar.example/ann/diary/\"";

static const char *const schemes[] = {"https://", "http://"};

/* Behind the scheme; NULL: it has none. */
static const char *after_scheme(const char *text)
{
    for (size_t i = 0; i < sizeof schemes / sizeof schemes[0]; i++) {
        size_t length = strlen(schemes[i]);
        if (strlen(text) >= length && text_same_n(text, length, schemes[i]))
            return text + length;
    }
    return NULL;
}

bool busy_is_address(struct json_at at)
{
    return json_is_text(at) && after_scheme(at.node->text);
}

/* "busy-calendar.example-6f6aabad.ics": the host, and the address as a number, for it may be a secret. */
static const char *name_of(struct arena *arena, const char *address, const char *host, size_t length)
{
    char *shown = arena_text_n(arena, host, length < HOST_MOST ? length : HOST_MOST);
    for (char *c = shown; *c; c++) {
        *c = text_lower(*c);
        bool plain = (*c >= 'a' && *c <= 'z') || (*c >= '0' && *c <= '9') || *c == '.';
        *c = (char)(plain ? *c : '-');
    }
    return arena_textf(arena, "busy-%s-%08" PRIx32 ".ics", shown, (uint32_t)text_hash(TEXT_HASH, address));
}

bool busy_path(struct json_at at, struct path_rule rule, const char **path)
{
    struct arena *arena = at.doc->reading->arena;
    const char *address = at.node->text, *host = after_scheme(address);
    size_t length = strcspn(host, "/?#");
    struct err fault;
    for (const char *c = address; *c; c++)
        if ((unsigned char)*c <= ' ' || (unsigned char)*c >= 0x7F)
            return json_refuse(at, an_address);
    if (length == 0 || strlen(address) > ADDRESS_MOST)
        return json_refuse(at, an_address);
    if (memchr(host, '@', length))
        return json_refuse(at, "an address without user and password: fetch-busy asks for them");
    return path_resolve(arena, rule, name_of(arena, address, host, length), path, &fault) ||
           json_refuse_found(at, fault.expected, fault.found);
}
