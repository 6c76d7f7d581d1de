/* Which route answers which request. */
#include "page/exchange.h"

#include "base/arena.h"

#include <stdlib.h>
#include <string.h>

/* The server goes on from here. */
static void route_events(struct exchange *x)
{
    x->answer->events = true;
    x->answer->type = "text/event-stream";
}

struct route {
    const char *method, *path; /* a star is any one segment */
    void (*answer)(struct exchange *x);
};

static const struct route routes[] = {
    {"GET", "", route_asset},
    {"GET", "assets/*", route_asset},
    {"GET", "favicon.ico", route_icon},
    {"GET", "api/folder", route_folder},
    {"GET", "api/job/*", route_job},
    {"POST", "api/try/*", route_try},
    {"POST", "api/drawing/*", route_drawing},
    {"POST", "api/save/*", route_save},
    {"GET", "api/versions/*", route_versions},
    {"GET", "api/version/*", route_version},
    {"POST", "api/new", route_new},
    {"POST", "api/sheet", route_sheet},
    {"GET", "api/plan/*", route_plan},
    {"GET", "api/today/*", route_today},
    {"GET", "api/log/*", route_log},
    {"GET", "api/advice/*", route_advice},
    {"POST", "api/apply/*", route_apply},
    {"POST", "api/record/*", route_record},
    {"POST", "api/mix", route_mix},
    {"GET", "api/finishes", route_finishes},
    {"GET", "api/woods", route_woods},
    {"GET", "files/*/*", route_file},
    {"GET", "calendar/*", route_calendar},
    {"GET", "calendar.ics", route_all_calendars},
    {"GET", "events", route_events},
};

static bool fits(const struct exchange *x, const char *path)
{
    size_t i = 0;
    while (*path && i < x->segment_count) {
        size_t length = strcspn(path, "/");
        bool any = length == 1 && path[0] == '*';
        if (!any && (strlen(x->segments[i]) != length || memcmp(x->segments[i], path, length) != 0))
            return false;
        path += length + (path[length] == '/');
        i++;
    }
    return !*path && i == x->segment_count;
}

/* Whether the method is that of the route; what is got may be asked for its head alone. */
static bool asks(const struct exchange *x, const struct route *route)
{
    const char *method = x->request->method;
    return strcmp(strcmp(method, "HEAD") == 0 ? "GET" : method, route->method) == 0;
}

static void take_route(struct exchange *x)
{
    bool known = false;
    for (size_t i = 0; i < sizeof routes / sizeof routes[0]; i++) {
        if (!fits(x, routes[i].path))
            continue;
        known = true;
        if (asks(x, &routes[i])) {
            if (exchange_read_body(x))
                routes[i].answer(x);
            return;
        }
    }
    exchange_refuse(x, known ? 405 : 404,
                    known ? "this cannot be asked in that way" : "there is no such page");
}

/* With the token in its address the page is opened once; then the browser keeps it, and the address forgets it. */
static bool take_token(struct exchange *x)
{
    if (!x->settings->token || x->segment_count > 0 || !exchange_query(x, "token"))
        return false;
    x->answer->status = 303;
    x->answer->location = "/";
    x->answer->cookie =
        arena_textf(x->arena, "coatwright=%s; Path=/; HttpOnly; SameSite=Strict", x->settings->token);
    exchange_text(x, "text/plain; charset=utf-8", "");
    return true;
}

static void answer_it(void *call)
{
    struct exchange *x = call;
    if (!exchange_read_target(x)) {
        exchange_refuse(x, 400, "this address is not well-formed");
        return;
    }
    if (exchange_allowed(x) && !take_token(x))
        take_route(x);
}

void page_answer(struct page *page, struct arena *arena, const struct page_request *request,
                 struct page_answer *answer)
{
    struct exchange x = {
        .page = page, .settings = page_settings(page), .arena = arena, .request = request, .answer = answer};
    *answer = (struct page_answer){.status = 200};
    bool done = arena_try(arena, answer_it, &x);
    plan_give_back(&x);
    if (done)
        return;
    static const char none[] = "{\"error\": \"there is no memory left for this\"}";
    *answer = (struct page_answer){
        .status = 503, .type = "application/json", .body = none, .length = sizeof none - 1};
}
