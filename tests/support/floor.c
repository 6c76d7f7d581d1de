#include "floor.h"

static const struct duty DUTIES[] = {{480, 720, 0}, {780, 1020, 0}};

static const struct film FILM;
static const struct zone UTC = {"UTC", 0, NULL};

void floor_init(struct floor *f)
{
    *f = (struct floor){.shop = {.spray_places = 1}};
    for (int i = 0; i < FLOOR_PEOPLE; i++)
        f->workers[i] = (struct worker){.duties = DUTIES, .duty_count = 2};
    f->crew = (struct crew){.workers = f->workers, .count = FLOOR_PEOPLE};
    for (int i = 0; i < FLOOR_ITEMS; i++) {
        f->operations[i].chain = i;
        f->rows[i] = (struct task_row){.operation = &f->operations[i], .lot = i};
        f->items[i] = i;
        f->start[i] = f->batch_of[i] = SITE_NONE;
    }
    f->site = (struct site){.crew = &f->crew,
                            .shop = &f->shop,
                            .zone = &UTC,
                            .kinds = f->kinds,
                            .rows = f->rows,
                            .count = FLOOR_ITEMS,
                            .lot_count = FLOOR_ITEMS + 1,
                            .lying = &f->lying,
                            .rack = 10,
                            .settle = 30};
    site_find_lots(&f->site);
    f->scratch = (struct draft_scratch){.lies = f->lies, .lies_until = f->lies_until};
    f->draft = (struct draft){.site = &f->site,
                              .start = f->start,
                              .end = f->end,
                              .handle = f->handle,
                              .clear = f->clear,
                              .batch_of = f->batch_of,
                              .placed = f->placed,
                              .scratch = &f->scratch};
    f->tried.laid = (struct laying){.start = FLOOR_START, .end = 600};
    f->placing = (struct placing){.draft = &f->draft,
                                  .site = &f->site,
                                  .batch = {.helper = SITE_NONE, .items = f->items, .count = 2},
                                  .least = 30,
                                  .slack = FLOOR_PAUSES,
                                  .placed = &f->tried};
}

void floor_work(struct floor *f, int item, int32_t start, int32_t end)
{
    f->start[item] = start;
    f->end[item] = end;
}

void floor_place(struct floor *f, int item, int32_t start, int32_t end)
{
    size_t k = f->draft.count++;
    f->batch_of[item] = (int)k;
    floor_work(f, item, start, end);
    f->placed[k] = (struct placed){
        .batch = {.kind = 1, .person = 1 + (int)k, .helper = SITE_NONE, .items = &f->items[item], .count = 1},
        .laid = {.start = start, .end = end},
        .dust = {INT32_MAX, 0},
        .wet = {INT32_MAX, 0},
        .lies = {INT32_MAX, 0}};
}

void floor_film(struct floor *f, int item, int32_t handle, int32_t clear)
{
    f->rows[item].film = &FILM;
    f->handle[item] = handle;
    f->clear[item] = clear;
}

void check_refused(const struct row *row, const struct floor *f, enum hindrance kind, int other,
                   int32_t until, int32_t again)
{
    check_int(row, f->tried.cause.kind, kind);
    check_int(row, f->tried.cause.other, other);
    check_int(row, f->tried.cause.until, until);
    check_int(row, f->placing.again, again);
}
