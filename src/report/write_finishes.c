#include "report/write_finishes.h"

#include "report/write_finish.h"

#include <string.h>

static bool digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool names_year(const char *text)
{
    for (const char *p = text; *p; p++)
        if ((p == text || !digit(p[-1])) && digit(p[0]) && digit(p[1]) && digit(p[2]) && digit(p[3]) &&
            !digit(p[4]) &&
            (strncmp(p, "18", 2) == 0 || strncmp(p, "19", 2) == 0 || strncmp(p, "20", 2) == 0))
            return true;
    return false;
}

struct source_count sources_count(const struct finish *const *finishes, size_t count)
{
    struct source_count counted = {0, 0, 0, 0};
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < finishes[i]->source_count; k++) {
            const char *text = finishes[i]->sources[k].text;
            counted.groups++;
            counted.published += names_year(text);
            counted.common_practice += strstr(text, "common practice") != NULL;
            counted.from_memory += strstr(text, "from memory") != NULL;
        }
    return counted;
}

void write_finishes(struct json_write *w, const struct finish *const *finishes,
                    const struct finish *const *replaces, size_t count)
{
    struct source_count counted = sources_count(finishes, count);
    json_open(w, NULL, '{');
    json_open(w, "finishes", '[');
    for (size_t i = 0; i < count; i++)
        write_finish(w, finishes[i], replaces[i]);
    json_close(w);
    json_open_row(w, "sources", '{');
    json_put_whole(w, "groups", (int64_t)counted.groups);
    json_put_whole(w, "published", (int64_t)counted.published);
    json_put_whole(w, "common_practice", (int64_t)counted.common_practice);
    json_put_whole(w, "from_memory", (int64_t)counted.from_memory);
    json_close(w);
    json_close(w);
}
