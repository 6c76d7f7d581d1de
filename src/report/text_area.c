#include "report/text.h"

#include "base/arena.h"
#include "report/busy.h"
#include "report/sentences.h"

#include <inttypes.h>

static const char *area_text(const struct screen *screen, double area_m2)
{
    return arena_text(screen->out->arena, area_format(area_m2, screen->units).text);
}

/* What was read, in three numbers: a wrong decimal point, or a row too few, shows in them. */
static void show_sums(struct screen *screen, const struct job *job, const struct surfaces *surfaces)
{
    int64_t parts = 0;
    for (size_t i = 0; i < job->part_count; i++)
        parts += job->parts[i].qty;
    buf_addf(screen->out, "%zu row%s, %" PRId64 " part%s, %s\n", job->part_count,
             job->part_count == 1 ? "" : "s", parts, parts == 1 ? "" : "s",
             area_text(screen, surfaces->finished_m2));
}

void show_check(struct screen *screen, const struct job *job, const struct surfaces *surfaces,
                const struct err_list *warnings, int64_t now_min)
{
    struct buf *out = screen->out;
    const struct busy_report busy = {job->zone, job->shop.busy_files, job->shop.busy_file_count, now_min};
    const char *file = job->file[0] == '-' && !job->file[1] ? "standard input" : job->file;
    for (size_t i = 0; i < warnings->count; i++) {
        char line[ERR_LINE_SIZE];
        err_format(&warnings->items[i], line, sizeof line);
        buf_addf(out, "%s\n", line);
    }
    if (warnings->dropped)
        buf_addf(out, "and %zu more\n", warnings->dropped);
    show_busy(out, &busy);
    buf_addf(out, "%s: %zu piece%s, %zu schedule%s, %zu task%s: no mistakes", file, job->piece_count,
             job->piece_count == 1 ? "" : "s", job->schedule_count, job->schedule_count == 1 ? "" : "s",
             job->task_count, job->task_count == 1 ? "" : "s");
    if (warnings->count)
        buf_addf(out, ", %zu warning%s", warnings->count + warnings->dropped,
                 warnings->count + warnings->dropped == 1 ? "" : "s");
    buf_add_char(out, '\n');
    show_sums(screen, job, surfaces);
}

/* A piece is named once, a part once for all its regions. */
static void add_surface(struct table *table, const struct screen *screen, const struct job *job,
                        const struct surface *surface, const struct surface *before)
{
    struct arena *arena = screen->out->arena;
    const struct part *part = &job->parts[surface->part];
    bool same_part = before && before->part == surface->part;
    bool same_piece = before && job->parts[before->part].piece == part->piece;
    const char *cells[] = {
        same_piece ? "" : job->pieces[part->piece].name,
        same_part ? "" : part->name,
        same_part ? "" : arena_textf(arena, "%d", part->qty),
        same_part    ? ""
        : part->wood ? part->wood->name
                     : "",
        region_name(surface->region),
        surface->patch ? arena_textf(arena, "%s, a patch of it", schedule_words(job, surface->schedule))
                       : schedule_words(job, surface->schedule),
        area_text(screen, surface->area_m2),
    };
    table_row(table, cells);
}

static void print_surfaces(struct screen *screen, const struct job *job, const struct surfaces *surfaces)
{
    static const struct column columns[] = {
        {"piece", ALIGN_LEFT, true},  {"part", ALIGN_LEFT, true},    {"qty", ALIGN_RIGHT, false},
        {"wood", ALIGN_LEFT, true},   {"region", ALIGN_LEFT, false}, {"schedule", ALIGN_LEFT, true},
        {"area", ALIGN_RIGHT, false},
    };
    struct table table;
    table_init(&table, screen->out->arena, columns, 7);
    for (size_t i = 0; i < surfaces->count; i++)
        add_surface(&table, screen, job, &surfaces->items[i], i ? &surfaces->items[i - 1] : NULL);
    table_print(&table, screen, 2);
}

static void print_by_schedule(struct screen *screen, const struct job *job, const struct surfaces *surfaces)
{
    static const struct column columns[] = {{NULL, ALIGN_LEFT, true}, {NULL, ALIGN_RIGHT, false}};
    struct table table;
    table_init(&table, screen->out->arena, columns, 2);
    for (size_t i = 0; i < job->schedule_count; i++)
        table_row(&table,
                  (const char *[]){job->schedules[i].name, area_text(screen, surfaces->by_schedule_m2[i])});
    table_row(&table, (const char *[]){"total to finish", area_text(screen, surfaces->finished_m2)});
    table_row(&table, (const char *[]){"left bare", area_text(screen, surfaces->bare_m2)});
    table_print(&table, screen, 2);
}

void show_area_short(struct screen *screen, const struct job *job, const struct surfaces *surfaces)
{
    struct buf text;
    buf_init(&text, screen->out->arena);
    for (size_t i = 0; i < job->schedule_count; i++)
        buf_addf(&text, "%s %s, ", job->schedules[i].name, area_text(screen, surfaces->by_schedule_m2[i]));
    buf_addf(&text, "total %s", area_text(screen, surfaces->finished_m2));
    if (surfaces->bare_m2 > 0)
        buf_addf(&text, "; %s left bare", area_text(screen, surfaces->bare_m2));
    screen_paragraph(screen, 2, 2, text.text);
}

void show_area(struct screen *screen, const struct job *job, const struct surfaces *surfaces)
{
    screen_heading(screen, arena_textf(screen->out->arena, "Areas of %s", job->name));
    print_surfaces(screen, job, surfaces);
    screen_heading(screen, "Area by finishing schedule");
    print_by_schedule(screen, job, surfaces);
    show_sums(screen, job, surfaces);
}
