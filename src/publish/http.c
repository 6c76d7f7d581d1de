#include "publish/http.h"

#include "base/arena.h"

#include <curl/curl.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <time.h>

enum { CONNECT_SECONDS = 10, SLOWEST_BYTES = 20, HEADER_MOST = 1000, PAUSE_MS = 200 };

/* What comes in while libcurl runs: it must not call into the arena, which may escape. */
struct sink {
    char *bytes;
    size_t length, capacity;
    bool over, starved;
    char etag[HEADER_MOST], location[HEADER_MOST];
};

static void sink_free(void *object)
{
    struct sink *sink = object;
    free(sink->bytes);
    free(sink);
}

static size_t take_body(char *bytes, size_t size, size_t count, void *user)
{
    struct sink *sink = user;
    size_t length = size * count;
    sink->over = sink->over || length > HTTP_ANSWER_MOST - sink->length;
    if (sink->over)
        return 0;
    if (sink->length + length + 1 > sink->capacity) {
        size_t capacity = 2 * (sink->length + length + 1);
        char *grown = realloc(sink->bytes, capacity);
        sink->starved = !grown;
        if (!grown)
            return 0;
        sink->bytes = grown;
        sink->capacity = capacity;
    }
    memcpy(sink->bytes + sink->length, bytes, length);
    sink->length += length;
    sink->bytes[sink->length] = '\0';
    return length;
}

/* Keeps the value of a header line that has this name. */
static void keep_header(const char *line, size_t length, const char *name, char *kept)
{
    size_t skip = strlen(name);
    if (length <= skip || strncasecmp(line, name, skip) != 0)
        return;
    while (skip < length && line[skip] == ' ')
        skip++;
    while (length > skip && strchr("\r\n ", line[length - 1]))
        length--;
    if (length - skip < HEADER_MOST) {
        memcpy(kept, line + skip, length - skip);
        kept[length - skip] = '\0';
    }
}

static size_t take_header(char *bytes, size_t size, size_t count, void *user)
{
    struct sink *sink = user;
    size_t length = size * count;
    keep_header(bytes, length, "ETag:", sink->etag);
    keep_header(bytes, length, "Location:", sink->location);
    return length;
}

/* Adds a header where there is a value; false: no memory. */
static bool add_header(struct arena *arena, struct curl_slist **list, const char *name, const char *value)
{
    if (!value)
        return true;
    struct curl_slist *longer =
        curl_slist_append(*list, arena_textf(arena, "%s:%s%s", name, *value ? " " : "", value));
    *list = longer ? longer : *list;
    return longer != NULL;
}

static bool add_headers(struct arena *arena, struct curl_slist **list, const struct http_request *request)
{
    return add_header(arena, list, "Expect", "") && add_header(arena, list, "Content-Type", request->type) &&
           add_header(arena, list, "Depth", request->depth) &&
           add_header(arena, list, "If-Match", request->match) &&
           add_header(arena, list, "If-None-Match", request->no_match);
}

/* One that was not taken, for want of memory, would make it another request. */
#define SET(option, value) (good = good && curl_easy_setopt(curl, CURLOPT_##option, value) == CURLE_OK)

static bool set_limits(CURL *curl)
{
    bool good = true;
    SET(PROTOCOLS_STR, "http,https");
    SET(FOLLOWLOCATION, 0L);
    SET(NOSIGNAL, 1L);
    SET(PROXY, "");
    SET(CONNECTTIMEOUT, (long)CONNECT_SECONDS);
    SET(TIMEOUT, (long)HTTP_SECONDS);
    SET(LOW_SPEED_LIMIT, (long)SLOWEST_BYTES);
    SET(LOW_SPEED_TIME, (long)CONNECT_SECONDS);
    return good;
}

static bool set_up(CURL *curl, const struct http_access *access, const struct http_request *request,
                   struct curl_slist *headers, struct sink *sink)
{
    bool good = set_limits(curl);
    SET(URL, request->url);
    SET(CUSTOMREQUEST, request->method);
    SET(HTTPHEADER, headers);
    SET(USERAGENT, "coatwright");
    SET(WRITEFUNCTION, take_body);
    SET(WRITEDATA, sink);
    SET(HEADERFUNCTION, take_header);
    SET(HEADERDATA, sink);
    if (access->authorities)
        SET(CAINFO, access->authorities);
    if (request->body) {
        SET(POSTFIELDSIZE, (long)strlen(request->body));
        SET(POSTFIELDS, request->body);
    }
    if (access->user) {
        SET(HTTPAUTH, CURLAUTH_BASIC);
        SET(USERNAME, access->user);
        SET(PASSWORD, access->password ? access->password : "");
    }
    return good;
}

#undef SET

static void nap(int times)
{
    struct timespec pause = {0, (long)PAUSE_MS * 1000000L * times};
    (void)nanosleep(&pause, NULL);
}

static bool passing(CURLcode code, long status)
{
    return code == CURLE_COULDNT_CONNECT || code == CURLE_OPERATION_TIMEDOUT || code == CURLE_GOT_NOTHING ||
           code == CURLE_RECV_ERROR || code == CURLE_SEND_ERROR ||
           (code == CURLE_OK && (status == 429 || status == 500 || (status >= 502 && status <= 504)));
}

/* One try. False: *err says what happened. */
static bool attempt(CURL *curl, struct sink *sink, CURLcode *code, long *status, struct err *err)
{
    sink->length = 0;
    sink->over = sink->starved = false;
    sink->etag[0] = sink->location[0] = '\0';
    *status = 0;
    *code = curl_easy_perform(curl);
    if (*code == CURLE_OK) {
        curl_easy_getinfo(curl, CURLINFO_RESPONSE_CODE, status);
        return true;
    }
    const char *found = sink->over      ? "an answer that does not end"
                        : sink->starved ? "no memory for its answer"
                                        : curl_easy_strerror(*code);
    err_fill(err, ERR_FILE, "an answer of the calendar server", found);
    return false;
}

static void take_answer(struct arena *arena, const struct sink *sink, long status, struct http_answer *answer)
{
    *answer = (struct http_answer){
        .status = status,
        .body = arena_text_n(arena, sink->bytes ? sink->bytes : "", sink->length),
        .length = sink->length,
        .etag = sink->etag[0] ? arena_text(arena, sink->etag) : NULL,
        .location = sink->location[0] ? arena_text(arena, sink->location) : NULL,
    };
}

bool http_exchange(struct arena *arena, const struct http_access *access, const struct http_request *request,
                   struct http_answer *answer, struct err *err)
{
    if (access->user && !url_may_carry_password(arena, request->url))
        return err_say_found(err,
                             "an address that begins with https, for a password must not be read on the way",
                             request->url);
    struct curl_slist *headers = NULL;
    CURL *curl = curl_easy_init();
    struct sink *sink = calloc(1, sizeof *sink);
    bool good =
        curl && sink && add_headers(arena, &headers, request) && set_up(curl, access, request, headers, sink);
    if (!good)
        err_fill(err, ERR_MEMORY, "memory for a request", "none left");
    CURLcode code = CURLE_OK;
    long status = 0;
    if (good) {
        for (int i = 1; i <= HTTP_TRIES; i++) {
            good = attempt(curl, sink, &code, &status, err);
            if (!passing(code, status) || i == HTTP_TRIES)
                break;
            nap(i);
        }
    }
    curl_slist_free_all(headers);
    curl_easy_cleanup(curl);
    if (sink) {
        arena_own(arena, sink, sink_free);
        if (good)
            take_answer(arena, sink, status, answer);
        arena_disown(arena, sink);
        sink_free(sink);
    }
    return good;
}
