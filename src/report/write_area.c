#include "report/write_area.h"

static const char *schedule_name(const struct job *job, int schedule)
{
    return schedule < 0 ? NULL : job->schedules[schedule].name;
}

static void write_surface(struct json_write *w, const struct job *job, const struct surface *surface)
{
    const struct part *part = &job->parts[surface->part];
    json_open_row(w, NULL, '{');
    json_put_text(w, "piece", job->pieces[part->piece].name);
    json_put_text(w, "part", part->name);
    json_put_whole(w, "qty", part->qty);
    json_put_text(w, "region", region_name(surface->region));
    json_put_text(w, "schedule", schedule_name(job, surface->schedule));
    json_put_text(w, "wood", part->wood ? part->wood->name : NULL);
    json_put_number(w, "area_m2", surface->area_m2);
    json_close(w);
}

void write_area(struct json_write *w, const char *key, const struct job *job, const struct surfaces *surfaces)
{
    json_open(w, key, '{');
    json_put_text(w, "job", job->name);
    json_open(w, "surfaces", '[');
    for (size_t i = 0; i < surfaces->count; i++)
        write_surface(w, job, &surfaces->items[i]);
    json_close(w);
    json_open(w, "by_schedule", '[');
    for (size_t i = 0; i < job->schedule_count; i++) {
        json_open_row(w, NULL, '{');
        json_put_text(w, "schedule", job->schedules[i].name);
        json_put_number(w, "area_m2", surfaces->by_schedule_m2[i]);
        json_close(w);
    }
    json_close(w);
    json_put_number(w, "bare_m2", surfaces->bare_m2);
    json_put_number(w, "finished_m2", surfaces->finished_m2);
    json_close(w);
}
