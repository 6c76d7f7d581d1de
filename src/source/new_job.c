#include "source/job_file.h"

#include "base/arena.h"
#include "format/csv.h"
#include "source/job_draft.h"
#include "source/shop_file.h"

#include <string.h>

enum { FIRST_GRIT = 150, LAST_GRIT = 180, STEPS = 3 };

static const char outside_name[] = "outside", inside_name[] = "inside";

static struct schedule schedule_of(struct arena *arena, const char *name, const struct finish *finish)
{
    struct step *steps = ARENA_ARRAY(arena, STEPS, struct step);
    steps[0] = (struct step){.kind = STEP_SAND, .grit = FIRST_GRIT};
    steps[1] = (struct step){.kind = STEP_SAND, .grit = LAST_GRIT};
    steps[2] = (struct step){.kind = STEP_COAT,
                             .finish = finish,
                             .coats = finish->coats_usual,
                             .by = finish->usual_tool,
                             .between = step_usual_between(arena, finish, finish->usual_tool)};
    return (struct schedule){name, steps, STEPS};
}

static void write_schedules(struct json_write *to, struct arena *arena, const struct new_job *new)
{
    struct schedule schedules[] = {schedule_of(arena, outside_name, new->outside),
                                   schedule_of(arena, inside_name, new->inside ? new->inside : new->outside)};
    struct job job = {.schedules = schedules, .schedule_count = new->inside ? 2 : 1};
    job_write_schedules((struct field_out){to, "schedules", &job, NULL});
    json_put_text(to, "all", outside_name);
    if (new->inside)
        json_put_text(to, "inside", inside_name);
}

static bool is_among(const char *name, const char *const *names, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(names[i], name) == 0)
            return true;
    return false;
}

static void write_piece(struct json_write *to, const struct new_job *new, const char *name)
{
    json_open_row(to, NULL, '{');
    json_put_text(to, "piece", name);
    if (is_among(name, new->flat, new->flat_count))
        json_put_text(to, "laid", laid_names[LAID_FLAT]);
    if (new->inside && is_among(name, new->inner, new->inner_count))
        json_put_text(to, "all", inside_name);
    json_close(to);
}

static void write_pieces(struct json_write *to, const struct new_job *new)
{
    json_open(to, "pieces", '[');
    for (size_t i = 0; i < new->flat_count; i++)
        write_piece(to, new, new->flat[i]);
    for (size_t i = 0; new->inside &&i < new->inner_count; i++)
        if (!is_among(new->inner[i], new->flat, new->flat_count))
            write_piece(to, new, new->inner[i]);
    json_close(to);
}

void new_job_write(struct buf *out, struct arena *arena, const struct new_job *new)
{
    struct json_write to;
    json_write_init(&to, out);
    json_open(&to, NULL, '{');
    json_put_text(&to, "format", "coatwright-job/1");
    json_put_text(&to, "job", new->name);
    json_put_text(&to, "units", new->units);
    json_put_text(&to, "zone", new->zone);
    if (new->currency)
        json_put_text(&to, "currency", new->currency);
    json_put_text(&to, "start", new->start);
    json_put_text(&to, "deliver", new->deliver);
    json_put_text(&to, "deliver-at", finish_state_names[STATE_WRAP]);
    json_put_text(&to, "reserve", "10 %");
    json_put_text(&to, "shop", new->shop_file);
    json_put_text(&to, "prices", new->prices_file);
    write_schedules(&to, arena, new);
    write_pieces(&to, new);
    json_put_text(&to, "parts", new->list);
    json_close(&to);
}

void new_shop_write(struct buf *out, const struct shop *shop)
{
    struct json_write to;
    json_write_init(&to, out);
    json_open(&to, NULL, '{');
    shop_write(&to, shop, NULL);
    json_close(&to);
}

static void write_packs(struct buf *out, const struct finish *finish)
{
    for (size_t i = 0; i < finish->component_count; i++) {
        const struct component *component = &finish->components[i];
        for (size_t k = 0; k < component->pack_count; k++) {
            buf_addf(out, "# %s,", finish->id);
            csv_put(out, finish->component_count > 1 ? component->name : "");
            buf_addf(out, ",%s,\r\n", component->packs[k].label);
        }
    }
}

void new_prices_write(struct buf *out, const struct new_job *new)
{
    buf_add(out, "finish,component,size,price\r\n");
    buf_add(out, "# Take the # away where you write a price behind the last comma; other sizes and sundries "
                 "may follow.\r\n");
    write_packs(out, new->outside);
    if (new->inside &&new->inside != new->outside)
        write_packs(out, new->inside);
}
