#include "panel.h"

#include "base/err.h"
#include "base/moment.h"
#include "check.h"
#include "source/job_file.h"

#include <string.h>

int64_t march(int day, int hour, int minute)
{
    return (date_days((struct date){2027, 3, 1}) + day - 1) * DAY_MINUTES + hour * 60 + minute;
}

static const struct zone UTC = {"UTC", 0, NULL};

static void init_finish(struct panel *panel)
{
    struct finish *finish = &panel->finish;
    panel->component = (struct component){.name = "oil",
                                          .parts = 1,
                                          .density_kg_per_l = 0.9,
                                          .shelf_life_min = SPAN_NEVER,
                                          .opened_life_min = SPAN_NEVER};
    *finish = (struct finish){.id = "oil",
                              .name = "Oil",
                              .short_name = "Oil",
                              .family = "oil",
                              .dries_by = DRIES_BY_REACTION,
                              .components = &panel->component,
                              .component_count = 1,
                              .pot_life_min = SPAN_NEVER,
                              .first_m2_per_l = 10,
                              .later_m2_per_l = 10,
                              .at_c = 23,
                              .at_humidity = 0.5,
                              .air = {5, 35, 0, 0.9},
                              .voc_g_per_l = -1,
                              .coats_usual = 2,
                              .coats_most = 9};
    finish->by[TOOL_CLOTH] = true;
    for (int state = 0; state < STATE_COUNT; state++)
        finish->first.after_min[state] = 0;
    finish->first.recoat_last_min = SPAN_NEVER;
    finish->later = finish->first;
}

static void init_shop(struct panel *panel)
{
    struct shop *shop = &panel->job.shop;
    shop_default(shop);
    panel->stretches[0] = (struct stretch){8 * 60, 17 * 60};
    for (int day = 0; day < 7; day++)
        shop->hours[day] = (struct shop_day){panel->stretches, 1};
    panel->spells[0] = (struct air_spell){0, {23, 0.5}};
    shop->air = (struct air_year){.daily = {.spells = panel->spells, .spell_count = 1}};
    shop->settle_min = 0;
    for (int work = 0; work < WORK_COUNT; work++) {
        shop->rate_m2_per_h[work] = 1;
        shop->set_up_min[work] = shop->clean_up_min[work] = shop->handling_min[work] = 0;
    }
}

void panel_init(struct panel *panel)
{
    memset(panel, 0, sizeof *panel);
    init_finish(panel);
    panel->table[0] = &panel->finish;
    panel->job = (struct job){.name = "test",
                              .file = "test.json",
                              .writer = &job_writer,
                              .zone = &UTC,
                              .start_min = march(1, 8, 0),
                              .deliver_min = march(12, 17, 0),
                              .deliver_at = STATE_HANDLE,
                              .finishes = panel->table,
                              .finish_count = 1,
                              .schedules = panel->schedules,
                              .pieces = panel->pieces,
                              .parts = panel->parts};
    init_shop(panel);
    panel->surfaces.items = panel->surface_items;
    panel_add_piece(panel);
}

size_t panel_add_piece(struct panel *panel)
{
    static const char *const pieces[PANEL_PIECES] = {"A", "B", "C"};
    static const char *const schedules[PANEL_PIECES] = {"oil", "oil-b", "oil-c"};
    size_t i = panel->job.piece_count++;
    panel->pieces[i] =
        (struct piece){.name = pieces[i], .ready_min = INT64_MIN, .rack_m2 = -1, .entry = (int)i};
    panel->schedules[i] = (struct schedule){schedules[i], panel->steps[i], 0};
    panel->parts[i] = (struct part){.name = pieces[i], .row = i, .piece = i, .qty = 1, .work = 1};
    panel->parts[i].size_m[DIM_LENGTH] = 1;
    panel->parts[i].size_m[DIM_WIDTH] = 0.5;
    panel->parts[i].size_m[DIM_THICKNESS] = 0.02;
    for (int region = 0; region < REGION_COUNT; region++)
        panel->parts[i].schedule[region] = SCHEDULE_NONE;
    panel->parts[i].schedule[REGION_FACE] = (int)i;
    panel->surface_items[panel->surfaces.count++] =
        (struct surface){.part = i, .region = REGION_FACE, .schedule = (int)i, .area_m2 = 1.0};
    panel->job.schedule_count = panel->job.part_count = panel->job.piece_count;
    return i;
}

struct step *panel_add_step(struct panel *panel, size_t piece, enum step_kind kind)
{
    struct step *step = &panel->steps[piece][panel->schedules[piece].step_count++];
    *step = (struct step){.kind = kind, .grit = 180, .wait_min = -1};
    if (kind == STEP_COAT) {
        step->finish = &panel->finish;
        step->coats = 1;
        step->by = TOOL_CLOTH;
    }
    return step;
}

void panel_two_sides(struct panel *panel, size_t piece)
{
    panel->pieces[piece].laid = LAID_FLAT;
    panel->parts[piece].schedule[REGION_BACK] = (int)piece;
    size_t at = 0;
    while (panel->surface_items[at].part != piece)
        at++;
    memmove(&panel->surface_items[at + 1], &panel->surface_items[at],
            (panel->surfaces.count - at) * sizeof(struct surface));
    panel->surface_items[at + 1].region = REGION_BACK;
    panel->surfaces.count++;
}

void panel_set_hours(struct panel *panel, size_t piece, double hours)
{
    for (size_t i = 0; i < panel->surfaces.count; i++)
        if (panel->surface_items[i].part == piece)
            panel->surface_items[i].area_m2 = hours;
}

struct timetable *panel_dated(struct arena *arena, struct panel *panel)
{
    struct err_list errors = {0};
    const struct operations *operations = timetable_operations(arena, &panel->job, &panel->surfaces, &errors);
    check_int(HERE, (intmax_t)errors.count, 0);
    return timetable_make(arena, operations, (struct timetable_options){0});
}

void check_starts(const struct row *row, const struct timetable *timetable, const char *id, int64_t want)
{
    const struct timetable_step *step = timetable_find(timetable, id);
    check_true(row, step != NULL, id);
    check_text(row, moment_format(timetable->job->zone, step->start_min, MOMENT_PLAIN).text,
               moment_format(timetable->job->zone, want, MOMENT_PLAIN).text);
}

void check_ready(const struct row *row, const struct timetable *timetable, int64_t want)
{
    check_int(row, timetable->status, TIMETABLE_PLANNED);
    check_text(row, moment_format(timetable->job->zone, timetable->ready_min, MOMENT_PLAIN).text,
               moment_format(timetable->job->zone, want, MOMENT_PLAIN).text);
}

void panel_set_state(struct panel *panel, enum finish_state state, int32_t minutes)
{
    panel->finish.first.after_min[state] = panel->finish.later.after_min[state] = minutes;
}

void panel_set_window(struct panel *panel, int32_t least_min, int32_t most_min)
{
    panel_set_state(panel, STATE_RECOAT, least_min);
    panel_set_state(panel, STATE_SAND, least_min);
    panel->finish.first.recoat_last_min = panel->finish.later.recoat_last_min = most_min;
}

/* An enum work; -1: it needs no set-up. Coats are laid by cloth. */
static int work_of(enum doing doing)
{
    static const int works[DOING_COUNT] = {
        [DO_SAND] = WORK_SAND,   [DO_SCUFF] = WORK_SCUFF, [DO_RAISE] = WORK_RAISE,   [DO_MASK] = -1,
        [DO_APPLY] = TOOL_CLOTH, [DO_FLIP] = -1,          [DO_POLISH] = WORK_POLISH, [DO_RUB] = WORK_RUB,
        [DO_TASK] = -1,
    };
    return works[doing];
}

struct operation panel_operation(const struct panel *panel, int piece, enum doing doing)
{
    bool abrades = doing == DO_SAND || doing == DO_SCUFF;
    struct operation operation = {.job = &panel->job,
                                  .id = "",
                                  .doing = doing,
                                  .piece = piece,
                                  .task = piece < 0 ? 0 : -1,
                                  .chain = piece,
                                  .lot = 1,
                                  .lots = 1,
                                  .work = work_of(doing),
                                  .people = 1,
                                  .grit = abrades ? 180 : 0,
                                  .part = 1,
                                  .parts = 1,
                                  .release_min = INT64_MIN,
                                  .latest_min = INT64_MAX,
                                  .latest_unless = -1};
    if (piece >= 0)
        operation.pass =
            (struct pass){.job = &panel->job, .surfaces = &panel->surfaces, .piece = (size_t)piece};
    return operation;
}

struct link panel_link(int from, int to, int32_t span_min)
{
    return (struct link){.from = from, .to = to, .span_min = span_min, .unless = -1};
}
