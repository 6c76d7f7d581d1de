#include "io/write_finishes.h"

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

static void put_span(struct json_write *w, const char *key, int32_t span_min)
{
    if (span_min == SPAN_NEVER)
        json_put_null(w, key);
    else
        json_put_whole(w, key, span_min);
}

static void write_components(struct json_write *w, const struct finish *finish)
{
    json_open(w, "components", '[');
    for (size_t i = 0; i < finish->component_count; i++) {
        json_open_row(w, NULL, '{');
        json_put_text(w, "component", finish->components[i].name);
        json_put_number(w, "parts", finish->components[i].parts);
        json_put_number(w, "density_kg_per_l", finish->components[i].density_kg_per_l);
        json_close(w);
    }
    json_close(w);
    json_put_text(w, "mix_by", finish->component_count < 2 ? NULL : finish->mix_by_mass ? "mass" : "volume");
    put_span(w, "pot_life_min", finish->pot_life_min);
}

static void write_times(struct json_write *w, const struct finish *finish)
{
    json_open_row(w, "times_min", '{');
    for (int i = 0; i < STATE_COUNT; i++)
        put_span(w, finish_state_name((enum finish_state)i), finish->first.after_min[i]);
    put_span(w, "recoat-last", finish->first.recoat_last_min);
    json_close(w);
    json_put_number(w, "at_c", finish->at_c);
    json_put_number(w, "at_humidity", finish->at_humidity);
}

static void write_finish(struct json_write *w, const struct finish *finish)
{
    json_open(w, NULL, '{');
    json_put_text(w, "finish", finish->id);
    json_put_text(w, "name", finish->name);
    json_put_text(w, "family", finish->family);
    json_put_text(w, "dries_by", finish_drying_name(finish->dries_by));
    json_put_flag(w, "shipped", finish->shipped);
    write_components(w, finish);
    json_open_row(w, "coverage_m2_per_l", '{');
    json_put_number(w, "first", finish_coverage(finish, true));
    json_put_number(w, "later", finish_coverage(finish, false));
    json_put_number(w, "spread", finish->spread);
    json_close(w);
    json_put_whole(w, "coats", finish->coats_usual);
    write_times(w, finish);
    json_open(w, "cautions", '[');
    for (size_t i = 0; i < finish->caution_count; i++)
        json_put_text(w, NULL, finish->cautions[i]);
    json_close(w);
    json_open(w, "sources", '{');
    for (size_t i = 0; i < finish->source_count; i++)
        json_put_text(w, finish->sources[i].group, finish->sources[i].text);
    json_close(w);
    json_close(w);
}

void write_finishes(struct json_write *w, const struct finish *const *finishes, size_t count)
{
    struct source_count counted = sources_count(finishes, count);
    json_open(w, NULL, '{');
    json_open(w, "finishes", '[');
    for (size_t i = 0; i < count; i++)
        write_finish(w, finishes[i]);
    json_close(w);
    json_open_row(w, "sources", '{');
    json_put_whole(w, "groups", (int64_t)counted.groups);
    json_put_whole(w, "published", (int64_t)counted.published);
    json_put_whole(w, "common_practice", (int64_t)counted.common_practice);
    json_put_whole(w, "from_memory", (int64_t)counted.from_memory);
    json_close(w);
    json_close(w);
}
