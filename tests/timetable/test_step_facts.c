/* What is known of a step: its coats, what it is done as, who turns a part, its minutes and its mixes. */
#include "check.h"
#include "panel_site.h"

#include "base/arena.h"
#include "base/err.h"

static const struct operation *the(const struct operations *operations, const char *id)
{
    return &operations->items[panel_item(operations, id)];
}

/* Three coats on the back, one on the face: what is rubbed at last lies on three of three. A coat is the
 * last of its side. */
static void coats_are_counted(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_SAND);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 3;
    panel_add_step(&panel, 0, STEP_RUB)->words = "wax";
    panel_two_sides(&panel, 0);
    panel.pieces[0].dry_by_min = 1080;
    const struct operations *operations = panel_operations(arena, &panel);
    const struct operation *sand = the(operations, "a/oil/0/sand-180"), *rub = the(operations, "a/oil/3/rub");
    const struct operation *second = the(operations, "a/oil/2b/apply"),
                           *last = the(operations, "a/oil/3f/apply");
    check_true(HERE, sand->coat == 0 && sand->coats == 3 && rub->coat == 3 && rub->coats == 3,
               "around the coats");
    check_true(HERE, second->coat == 2 && second->coats == 3 && second->of.number == 2, "of a coat");
    check_true(HERE, second->of.of_finish == 2 && last->of.of_finish == 3, "of one finish in a row");
    check_true(HERE, !second->last_coat && last->last_coat, "the last of its side");
    check_true(HERE, last->dry_by_min == 1080 && sand->dry_by_min == 0, "by which hour it is dry");
    check_true(HERE, sand->dusty && !rub->dusty && !last->dusty, "what raises dust");
    check_true(HERE, sand->work == WORK_SAND && rub->work == WORK_RUB && last->work == TOOL_CLOTH,
               "whose set-up");
    arena_free(arena);
}

struct kind_row {
    struct row row;
    enum step_kind kind;
    int work;
    enum doing doing;
    bool dusty;
};

static const struct kind_row kinds[] = {
    {ROW("sand"), STEP_SAND, WORK_SAND, DO_SAND, true},
    {ROW("scuff"), STEP_SCUFF, WORK_SCUFF, DO_SCUFF, true},
    {ROW("raise"), STEP_RAISE, WORK_RAISE, DO_RAISE, false},
    {ROW("mask"), STEP_MASK, -1, DO_MASK, false},
    {ROW("polish"), STEP_POLISH, WORK_POLISH, DO_POLISH, false},
    {ROW("rub"), STEP_RUB, WORK_RUB, DO_RUB, false},
    {ROW("task"), STEP_TASK, -1, DO_TASK, false},
};

static void is_done_as(void **state)
{
    const struct kind_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    struct step *step = panel_add_step(&panel, 0, r->kind);
    step->words = "work";
    step->takes_min = 60;
    const struct operation *operation = &panel_operations(arena, &panel)->items[0];
    check_int(&r->row, operation->work, r->work);
    check_int(&r->row, operation->doing, r->doing);
    check_int(&r->row, operation->dusty, r->dusty);
    check_int(&r->row, operation->minutes, 60);
    arena_free(arena);
}

/* Nine coats: of seven a day the eighth waits for a day after the first, the ninth after the second; eight
 * a day are no limit. */
static void many_coats_a_day(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 9;
    for (int a_day = 7; a_day <= 8; a_day++) {
        panel.finish.coats_a_day = a_day;
        const struct operations *operations = panel_operations(arena, &panel);
        int days = 0;
        for (size_t i = 0; i < operations->link_count; i++) {
            const struct link *link = &operations->links[i];
            days += link->kind == LINK_DAY;
            check_true(HERE, link->kind != LINK_DAY || link->to == link->from + 7, "seven later");
        }
        check_int(HERE, days, a_day == 7 ? 2 : 0);
    }
    arena_free(arena);
}

/* A coat of ten hours on one part fits no day of nine, be they days that come in three weeks only. */
static void too_long_for_any_day(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_set_hours(&panel, 0, 10);
    check_true(HERE, timetable_operations(arena, &panel.job, &panel.surfaces, &errors) == NULL, "refused");
    check_int(HERE, (intmax_t)errors.count, 1);
    struct day_range closed = {march(1, 0, 0) / DAY_MINUTES, march(22, 0, 0) / DAY_MINUTES};
    panel.job.shop.closed = &closed;
    panel.job.shop.closed_count = 1;
    check_true(HERE, timetable_operations(arena, &panel.job, &panel.surfaces, &errors) == NULL,
               "refused again");
    check_text(HERE, errors.items[0].found,
               "a/oil/1/apply: one part takes 10 h in one go and the longest stretch of work is 9 h: "
               "lengthen a stretch, or "
               "enter the part as several");
    arena_free(arena);
}

/* The last of two or three coats is left out: the one beneath is then the last. */
static void the_last_coat_that_is_left(void **state)
{
    (void)state;
    for (int coats = 2; coats <= 3; coats++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        panel_init(&panel);
        panel_add_step(&panel, 0, STEP_COAT)->coats = coats;
        struct log_entry entries[] = {
            {.number = 1, .kind = LOG_SKIP, .step = arena_textf(arena, "a/oil/%d/apply", coats)}};
        panel.job.log = (struct log){.file = "log", .entries = entries, .count = 1, .last = 1};
        panel.job.now_min = march(1, 8, 0);
        const struct operations *operations = panel_operations(arena, &panel);
        check_int(HERE, (intmax_t)operations->count, coats - 1);
        for (int i = 0; i < coats - 1; i++)
            check_int(HERE, operations->items[i].last_coat, i == coats - 2);
        arena_free(arena);
    }
}

/* Another finish between: its coats are counted anew. */
static void coats_of_one_finish_in_a_row(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    struct finish other = panel.finish;
    other.id = "other";
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_add_step(&panel, 0, STEP_COAT)->finish = &other;
    panel_add_step(&panel, 0, STEP_COAT);
    const struct operations *operations = panel_operations(arena, &panel);
    static const int want[] = {1, 2, 1, 1};
    for (int i = 0; i < 4; i++) {
        check_int(HERE, operations->items[i].of.of_finish, want[i]);
        check_int(HERE, operations->items[i].of.number, i + 1);
    }
    arena_free(arena);
}

/* A part is turned in a minute: four of a piece, two of a lot. */
static void every_part_is_turned(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_two_sides(&panel, 0);
    panel.parts[0].qty = 4;
    check_int(HERE, the(panel_operations(arena, &panel), "a/oil/1b/flip")->minutes, 4);
    panel.pieces[0].lots = 2;
    check_int(HERE, the(panel_operations(arena, &panel), "a.2/oil/1b/flip")->minutes, 2);
    arena_free(arena);
}

struct turn_row {
    struct row row;
    int lift;
    double thickness_m;
    int people;
};

/* Of 1 m by 500 mm; wood that is not named weighs 700 kg/m3, so that 25 kg are a board of 71.4 mm. */
static const struct turn_row turns[] = {
    {ROW("a light part"), 0, 0.071, 1},
    {ROW("a heavy part"), 0, 0.072, 2},
    {ROW("a light part that two turn"), 2, 0.02, 2},
    {ROW("a heavy part that one turns"), 1, 0.072, 1},
    {ROW("more than two are not told apart"), 3, 0.02, 2},
};

static void is_turned_by(void **state)
{
    const struct turn_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT);
    panel_two_sides(&panel, 0);
    panel.parts[0].size_m[DIM_THICKNESS] = r->thickness_m;
    panel.pieces[0].lift = r->lift;
    const struct operations *operations = panel_operations(arena, &panel);
    check_int(&r->row, the(operations, "a/oil/1b/flip")->people, r->people);
    check_int(&r->row, the(operations, "a/oil/1b/apply")->people, 1);
    arena_free(arena);
}

/* Masking takes 40 min for the piece and 3 for each part: of four parts in one lot 52, in two lots 20 and
 * 6 each. */
static void lots_share_what_a_step_takes(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    struct step *mask = panel_add_step(&panel, 0, STEP_MASK);
    mask->takes_min = 40;
    mask->takes_each_min = 3;
    panel_add_step(&panel, 0, STEP_COAT);
    panel.parts[0].qty = 4;
    check_int(HERE, the(panel_operations(arena, &panel), "a/oil/0/mask")->minutes, 52);
    panel.pieces[0].lots = 2;
    check_int(HERE, the(panel_operations(arena, &panel), "a.1/oil/0/mask")->minutes, 26);
    check_int(HERE, the(panel_operations(arena, &panel), "a.2/oil/0/mask")->minutes, 26);
    arena_free(arena);
}

/* 541 min in two parts: 271 min each. */
static void parts_of_a_task_are_alike(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    struct step *task = panel_add_step(&panel, 0, STEP_TASK);
    task->words = "glue";
    task->takes_min = 541;
    const struct operations *operations = panel_operations(arena, &panel);
    check_int(HERE, (intmax_t)operations->count, 2);
    for (int i = 0; i < 2; i++) {
        check_int(HERE, operations->items[i].minutes, 271);
        check_int(HERE, operations->items[i].part, i + 1);
        check_int(HERE, operations->items[i].parts, 2);
    }
    arena_free(arena);
}

/* A finish of two parts, a coat of 1 m2 in an hour, 0.1 l of 0.9 kg/l; pot life 100 min, of which 90 % are
 * worked. */
static void mixed(struct panel *panel, struct component *components)
{
    panel_init(panel);
    components[0] = components[1] = panel->component;
    panel->finish.components = components;
    panel->finish.component_count = 2;
    panel->finish.pot_life_min = 100;
    panel_add_step(panel, 0, STEP_COAT);
}

/* The mass does not matter: 90 and 100 minutes. Of what heats itself, up to 45 g in a cup, all of the 90 g
 * live half as long, and are worked for 45 min; less lives longer, so that the largest mix is one of x
 * min, 1.5 g a minute: x = 0.9 x 100 x 45 / 1.5 x, which is x = sqrt 2700 = 51.96, and lives for 57.74. */
static void the_largest_mix(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct component components[2];
    mixed(&panel, components);
    const struct operation *coat = the(panel_operations(arena, &panel), "a/oil/1/apply");
    check_double(HERE, coat->working_min, 90, 1e-9);
    check_double(HERE, coat->pot_life_min, 100, 1e-9);
    panel.finish.pot_mass_g = 45;
    coat = the(panel_operations(arena, &panel), "a/oil/1/apply");
    check_double(HERE, coat->working_min, 51.9615242, 1e-6);
    check_double(HERE, coat->pot_life_min, 57.7350269, 1e-6);
    panel.finish.pot_mass_g = 1; /* x = sqrt 60 */
    coat = the(panel_operations(arena, &panel), "a/oil/1/apply");
    check_double(HERE, coat->working_min, 7.7459667, 1e-6);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(coats_are_counted), CHECK_ROWS(kinds, is_done_as),
                     CHECK_TEST(many_coats_a_day), CHECK_TEST(too_long_for_any_day),
                     CHECK_TEST(the_last_coat_that_is_left), CHECK_TEST(coats_of_one_finish_in_a_row),
                     CHECK_TEST(every_part_is_turned), CHECK_ROWS(turns, is_turned_by),
                     CHECK_TEST(lots_share_what_a_step_takes), CHECK_TEST(parts_of_a_task_are_alike),
                     CHECK_TEST(the_largest_mix));
}
