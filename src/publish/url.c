#include "publish/http.h"

#include "base/arena.h"

#include <curl/curl.h>
#include <string.h>
#include <strings.h>

/* Without memory no answer is given: half an address is another one. */
static bool url_done(struct arena *arena, CURLUcode code)
{
    if (code == CURLUE_OUT_OF_MEMORY)
        arena_run_out(arena);
    return code == CURLUE_OK;
}

static const char *part_of(struct arena *arena, CURLU *url, CURLUPart part)
{
    char *text = NULL;
    if (!url_done(arena, curl_url_get(url, part, &text, CURLU_DEFAULT_PORT)))
        return "";
    const char *kept = arena_text(arena, text);
    curl_free(text);
    return kept;
}

static bool same_part(CURLU *a, CURLU *b, CURLUPart part)
{
    char *first = NULL, *second = NULL;
    bool same = curl_url_get(a, part, &first, CURLU_DEFAULT_PORT) == CURLUE_OK &&
                curl_url_get(b, part, &second, CURLU_DEFAULT_PORT) == CURLUE_OK &&
                strcasecmp(first, second) == 0;
    curl_free(first);
    curl_free(second);
    return same;
}

bool url_same_server(const char *url, const char *other)
{
    CURLU *a = curl_url(), *b = curl_url();
    bool same = a && b && curl_url_set(a, CURLUPART_URL, url, 0) == CURLUE_OK &&
                curl_url_set(b, CURLUPART_URL, other, 0) == CURLUE_OK && same_part(a, b, CURLUPART_SCHEME) &&
                same_part(a, b, CURLUPART_HOST) && same_part(a, b, CURLUPART_PORT);
    curl_url_cleanup(a);
    curl_url_cleanup(b);
    return same;
}

static void url_free(void *object)
{
    curl_url_cleanup(object);
}

const char *url_resolve(struct arena *arena, const char *base, const char *reference)
{
    CURLU *url = curl_url();
    const char *text = "";
    if (!url)
        arena_run_out(arena);
    arena_own(arena, url, url_free);
    if (url_done(arena, curl_url_set(url, CURLUPART_URL, base, 0)) &&
        url_done(arena, curl_url_set(url, CURLUPART_URL, reference, CURLU_PATH_AS_IS)))
        text = part_of(arena, url, CURLUPART_URL);
    arena_disown(arena, url);
    curl_url_cleanup(url);
    return text;
}

bool url_may_carry_password(struct arena *arena, const char *address)
{
    static const char *const here[] = {"localhost", "127.0.0.1", "[::1]"};
    CURLU *url = curl_url();
    bool good = false;
    if (!url)
        arena_run_out(arena);
    arena_own(arena, url, url_free);
    if (url_done(arena, curl_url_set(url, CURLUPART_URL, address, 0))) {
        const char *host = part_of(arena, url, CURLUPART_HOST);
        good = strcmp(part_of(arena, url, CURLUPART_SCHEME), "https") == 0;
        for (size_t i = 0; i < sizeof here / sizeof here[0]; i++)
            good |= strcasecmp(host, here[i]) == 0;
    }
    arena_disown(arena, url);
    curl_url_cleanup(url);
    return good;
}
