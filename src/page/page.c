#include "page/page.h"

#include <stdatomic.h>
#include <stdlib.h>

struct page {
    struct page_settings settings;
    atomic_bool ends;
};

struct page *page_make(const struct page_settings *settings)
{
    struct page *page = calloc(1, sizeof *page);
    if (page)
        page->settings = *settings;
    return page;
}

void page_free(struct page *page)
{
    free(page);
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

void page_look(struct page *page, void (*tell)(void *with, const char *file), void *with)
{
    (void)page;
    (void)tell;
    (void)with;
}

void page_end(struct page *page)
{
    atomic_store(&page->ends, true);
}

bool page_ends(const struct page *page)
{
    return atomic_load(&page->ends);
}
