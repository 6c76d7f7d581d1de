#include "sample_surfaces.h"

#include <string.h>

void sample_surfaces(struct sample_surfaces *s, struct finish finish)
{
    memset(s, 0, sizeof *s);
    s->finish = finish;
    s->step = (struct step){.kind = STEP_COAT, .finish = &s->finish, .coats = 1, .by = finish.usual_tool};
    s->schedule = (struct schedule){"all", &s->step, 1};
    s->piece = (struct piece){.name = "piece", .ready_min = INT64_MIN, .rack_m2 = -1};
    s->surfaces.items = s->items;
    s->job = (struct job){.name = "sample",
                          .file = "sample.json",
                          .schedules = &s->schedule,
                          .schedule_count = 1,
                          .pieces = &s->piece,
                          .piece_count = 1,
                          .parts = s->parts};
    shop_default(&s->job.shop);
    s->pass = (struct pass){.job = &s->job, .surfaces = &s->surfaces};
    s->coat = (struct coat){&s->step, 1, 1};
}

size_t sample_add_part(struct sample_surfaces *s, enum shape shape, const char *wood)
{
    struct part *part = &s->parts[s->job.part_count];
    *part = (struct part){.name = "part", .qty = 1, .shape = shape, .work = 1};
    part->size_m[DIM_LENGTH] = 1.2;
    part->size_m[DIM_WIDTH] = 0.3;
    part->size_m[DIM_THICKNESS] = 0.02;
    part->wood = wood ? wood_find(wood) : NULL;
    return s->job.part_count++;
}

void sample_add_surface(struct sample_surfaces *s, size_t part, enum region region, double area_m2)
{
    s->items[s->surfaces.count++] = (struct surface){.part = part, .region = region, .area_m2 = area_m2};
}
