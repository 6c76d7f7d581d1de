/* The JSON of a request. */
#include "page/exchange.h"

#include <string.h>

bool exchange_read_body(struct exchange *x)
{
    const char *text = x->request->body ? x->request->body : "";
    if (strcmp(x->request->method, "POST") != 0)
        return true;
    x->body = exchange_keep(x, json_loadb(text, x->request->length, JSON_REJECT_DUPLICATES, NULL));
    if (json_is_object(x->body))
        return true;
    exchange_refuse(x, 400, "what is sent must be one JSON object");
    return false;
}
