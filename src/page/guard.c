/* Who may ask, and from where: a page of somebody else's in the same browser must neither read nor write. */
#include "page/exchange.h"

#include "base/text.h"

#include <stdio.h>
#include <string.h>

enum { NAME_MOST = 300 };

/* Whether a host is "name:port"; without a port it is that of HTTP. */
static bool is_host(const char *host, const char *name, int port)
{
    char expected[NAME_MOST];
    bool bare = strchr(name, ':') && name[0] != '[';
    int length =
        snprintf(expected, sizeof expected, "%s%s%s:%d", bare ? "[" : "", name, bare ? "]" : "", port);
    if (length < 0 || (size_t)length >= sizeof expected)
        return false;
    if (text_same(host, expected))
        return true;
    *strrchr(expected, ':') = '\0';
    return port == 80 && text_same(host, expected);
}

/* Whether it is an address in digits, which no server of names can give to somebody else, with our port. */
static bool is_address(const char *host, int port)
{
    char end[16];
    size_t digits =
        host[0] == '[' ? strspn(host + 1, "0123456789abcdefABCDEF:.") + 1 : strspn(host, "0123456789.");
    digits += host[0] == '[' && host[digits] == ']';
    snprintf(end, sizeof end, ":%d", port);
    return digits > 0 && (strcmp(host + digits, end) == 0 || (port == 80 && !host[digits]));
}

static bool host_allowed(const struct page_settings *settings, const char *host)
{
    static const char *const here[] = {"127.0.0.1", "localhost", "::1"};
    if (!host)
        return false;
    for (size_t i = 0; i < sizeof here / sizeof here[0]; i++)
        if (is_host(host, here[i], settings->port))
            return true;
    return (settings->listen && is_host(host, settings->listen, settings->port)) ||
           (settings->any && is_address(host, settings->port));
}

/* Whether it is the page itself: "http://" and the host that was asked. */
static bool origin_allowed(const struct page_request *request)
{
    static const char scheme[] = "http://";
    const char *origin = request->origin;
    return !origin || (strncmp(origin, scheme, sizeof scheme - 1) == 0 &&
                       text_same(origin + sizeof scheme - 1, request->host));
}

/* In a time that does not tell how much of it was right. */
static bool same_secret(const char *given, size_t length, const char *secret)
{
    size_t expected = strlen(secret);
    unsigned differs = length != expected;
    for (size_t i = 0; i < length; i++)
        differs |= (unsigned char)given[i] ^ (unsigned char)secret[expected ? i % expected : 0];
    return differs == 0;
}

/* The cookie `coatwright=...` among others. */
static bool cookie_knows(const char *cookies, const char *token)
{
    static const char name[] = "coatwright=";
    for (const char *at = cookies; at && *at;) {
        at += strspn(at, "; ");
        size_t length = strcspn(at, ";");
        if (strncmp(at, name, sizeof name - 1) == 0 &&
            same_secret(at + sizeof name - 1, length - (sizeof name - 1), token))
            return true;
        at += length;
    }
    return false;
}

static bool knows_token(const struct exchange *x)
{
    static const char bearer[] = "Bearer ";
    const char *token = x->settings->token, *given = x->request->authorization;
    const char *asked = exchange_query(x, "token");
    if (!token)
        return true;
    if (given && strncmp(given, bearer, sizeof bearer - 1) == 0 &&
        same_secret(given + sizeof bearer - 1, strlen(given) - (sizeof bearer - 1), token))
        return true;
    return cookie_knows(x->request->cookie, token) || (asked && same_secret(asked, strlen(asked), token));
}

/* Whether a type is application/json, with or without parameters. */
static bool is_json(const char *type)
{
    static const char json[] = "application/json";
    size_t length = type ? strcspn(type, "; \t") : 0;
    return type && text_same_n(type, length, json);
}

bool exchange_allowed(struct exchange *x)
{
    const struct page_request *request = x->request;
    bool post = strcmp(request->method, "POST") == 0;
    if (!host_allowed(x->settings, request->host))
        exchange_refuse(x, 421,
                        "this page answers under the address that it printed when it began, and no other");
    else if (!knows_token(x))
        exchange_refuse(x, 401,
                        "this page asks for its token: open its address with ?token= and the text of the "
                        "token file behind it");
    else if (!post && strcmp(request->method, "GET") != 0 && strcmp(request->method, "HEAD") != 0)
        exchange_refuse(x, 405, "this page knows GET and POST only");
    else if (post && !origin_allowed(request))
        exchange_refuse(x, 403, "only the page itself may change something");
    else if (post && !is_json(request->content_type))
        exchange_refuse(x, 415, "what is sent must be application/json");
    else if (request->length > PAGE_BODY_MOST)
        exchange_refuse(x, 413, "what is sent is larger than 8 MB");
    else
        return true;
    return false;
}
