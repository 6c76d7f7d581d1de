#include "page/page.h"

#include <stdatomic.h>
#include <stdlib.h>

struct page {
    struct page_settings settings;
    struct plans *plans;
    struct watched *watched;
    atomic_bool ends;
};

struct page *page_make(const struct page_settings *settings)
{
    struct page *page = calloc(1, sizeof *page);
    if (!page)
        return NULL;
    page->settings = *settings;
    page->plans = plans_make();
    page->watched = watched_make();
    if (page->plans && page->watched)
        return page;
    page_free(page);
    return NULL;
}

void page_free(struct page *page)
{
    if (!page)
        return;
    plans_free(page->plans);
    watched_free(page->watched);
    free(page);
}

struct watched *page_watched(const struct page *page)
{
    return page->watched;
}

struct plans *page_plans(const struct page *page)
{
    return page->plans;
}

const struct page_settings *page_settings(const struct page *page)
{
    return &page->settings;
}

void page_set_port(struct page *page, int port, bool any)
{
    page->settings.port = port;
    page->settings.any = any;
}

void page_end(struct page *page)
{
    atomic_store(&page->ends, true);
}

bool page_ends(const struct page *page)
{
    return atomic_load(&page->ends);
}
