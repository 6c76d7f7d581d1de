/* What the page is made of: files that the build puts into the program (assets.sh). */
#include "page/exchange.h"

#include "base/sha256.h"

#include <string.h>

struct page_asset {
    const char *name, *bytes;
    size_t length;
};

/* The table that assets.sh makes; behind the last the name is NULL. */
extern const struct page_asset page_assets[];

static const struct page_asset *asset_find(const char *name)
{
    for (const struct page_asset *asset = page_assets; asset->name; asset++)
        if (strcmp(asset->name, name) == 0)
            return asset;
    return NULL;
}

static const char *asset_type(const struct page_asset *asset)
{
    static const struct {
        const char *ending, *type;
    } types[] = {{".html", "text/html; charset=utf-8"},
                 {".css", "text/css; charset=utf-8"},
                 {".js", "text/javascript; charset=utf-8"},
                 {".svg", "image/svg+xml"}};
    const char *dot = strrchr(asset->name, '.');
    for (size_t i = 0; dot && i < sizeof types / sizeof types[0]; i++)
        if (strcmp(dot, types[i].ending) == 0)
            return types[i].type;
    return "application/octet-stream";
}

static void answer_asset(struct exchange *x, const struct page_asset *asset)
{
    enum { TAG_DIGITS = 32 };
    char tag[TAG_DIGITS + 1];
    if (!asset) {
        exchange_refuse(x, 404, "there is no such page");
        return;
    }
    struct sha256 hash = sha256_of(asset->bytes, asset->length);
    sha256_hex(&hash, TAG_DIGITS, tag);
    x->answer->type = asset_type(asset);
    x->answer->body = asset->bytes;
    x->answer->length = asset->length;
    x->answer->tag = arena_textf(x->arena, "\"%s\"", tag);
    if (x->request->known && strcmp(x->request->known, x->answer->tag) == 0) {
        x->answer->status = 304;
        x->answer->length = 0;
    }
}

void route_asset(struct exchange *x)
{
    answer_asset(x, asset_find(x->segment_count ? x->segments[1] : "page.html"));
}

/* Browsers ask for it by this name whatever the page says. */
void route_icon(struct exchange *x)
{
    answer_asset(x, asset_find("icon.svg"));
}
