/* The cautions of a plan: which finishes each is about, and what it is counted from. Panel A is oiled, B is lacquered. */
#include "check.h"
#include "panel.h"

#include "base/arena.h"
#include "base/buf.h"
#include "plan/plan.h"

#include <string.h>

enum { WORDS = 2 };

struct way {
    const char *cautions[WORDS]; /* of the finish's file */
    enum tool by;
    double thin;
};

struct world {
    struct arena *arena;
    struct panel panel;
    struct finish lacquer;
    const struct finish *finishes[2];
    struct plan plan;
};

static void lay(struct panel *panel, size_t piece, struct finish *finish, const struct way *way)
{
    struct step *step = panel_add_step(panel, piece, STEP_COAT);
    while (finish->caution_count < WORDS && way->cautions[finish->caution_count])
        finish->caution_count++;
    finish->cautions = way->cautions;
    finish->by[way->by] = true;
    step->finish = finish;
    step->by = way->by;
    step->thin = way->thin;
}

/* An oil and a lacquer whose solvent, where they are thinned, is white spirit. */
static struct world *world_make(const struct way *oil, const struct way *lacquer)
{
    struct arena *arena = arena_make(0);
    struct world *w = ARENA_NEW(arena, struct world);
    w->arena = arena;
    panel_init(&w->panel);
    w->panel.finish.solvent = "white spirit";
    w->lacquer = w->panel.finish;
    w->lacquer.id = "lacquer";
    w->lacquer.name = w->lacquer.short_name = "Lacquer";
    w->lacquer.family = "lacquer";
    lay(&w->panel, 0, &w->panel.finish, oil);
    if (lacquer)
        lay(&w->panel, panel_add_piece(&w->panel), &w->lacquer, lacquer);
    w->finishes[0] = &w->panel.finish;
    w->finishes[1] = &w->lacquer;
    w->panel.job.finishes = w->finishes;
    w->panel.job.finish_count = 2;
    return w;
}

static const struct plan *planned(struct world *w)
{
    struct timetable *timetable = panel_dated(w->arena, &w->panel);
    w->plan =
        (struct plan){.job = &w->panel.job, .operations = timetable->operations, .timetable = timetable};
    plan_add_cautions(w->arena, &w->plan, &timetable, 1);
    return &w->plan;
}

static const struct plan_caution *caution_of(const struct plan *plan, enum plan_caution_kind kind)
{
    for (size_t i = 0; i < plan->caution_count; i++)
        if (plan->cautions[i].kind == kind)
            return &plan->cautions[i];
    return NULL;
}

static void name_them(struct buf *out, const struct finish *const *finishes, size_t count)
{
    for (size_t i = 0; i < count; i++)
        buf_addf(out, " %s", finishes[i]->name);
}

/* "flammable Oil; vapour Oil Lacquer; heats itself, sprayed Oil": those that name finishes, VOC apart. */
static const char *told(struct arena *arena, const struct plan *plan)
{
    static const char *const breathing[BREATHING_COUNT] = {"free", "vapour", "mist", "supplied"};
    static const char *const kinds[] = {[PLAN_CAUTION_SELF_HEATING] = "heats itself",
                                        [PLAN_CAUTION_ONE_BOOTH] = "one booth",
                                        [PLAN_CAUTION_DUST] = "dust",
                                        [PLAN_CAUTION_STRIPPING] = "stripping"};
    struct buf out;
    buf_init(&out, arena);
    for (size_t i = 0; i < plan->caution_count; i++) {
        const struct plan_caution *caution = &plan->cautions[i];
        if (caution->kind == PLAN_CAUTION_VOC || caution->kind == PLAN_CAUTION_VAPOUR)
            continue;
        buf_addf(&out, "%s", out.length > 0 ? "; " : "");
        if (caution->kind == PLAN_CAUTION_FINISH)
            buf_addf(&out, "%s", caution->name);
        else if (caution->kind == PLAN_CAUTION_BREATHING)
            buf_addf(&out, "breathing %s", breathing[caution->breathing]);
        else
            buf_addf(&out, "%s", kinds[caution->kind]);
        buf_addf(&out, "%s%s", caution->sprayed ? ", sprayed" : "",
                 caution->supplied_air ? ", air supplied" : "");
        name_them(&out, caution->finishes, caution->finish_count);
        name_them(&out, caution->lacquers, caution->lacquer_count);
    }
    return out.text ? out.text : "";
}

struct caution_row {
    struct row row;
    struct way oil, lacquer;
    bool sanded; /* the wood of A, before its coat */
    const char *want;
};

static const struct caution_row cautions[] = {
    {ROW("nothing to say"), {{NULL}, TOOL_CLOTH, 0}, {{NULL}, TOOL_BRUSH, 0}, false, ""},
    {ROW("of one of them"),
     {{"vapour"}, TOOL_CLOTH, 0},
     {{NULL}, TOOL_BRUSH, 0},
     false,
     "vapour Oil; breathing vapour Oil"},
    {ROW("of both"), {{"skin"}, TOOL_CLOTH, 0}, {{"skin"}, TOOL_BRUSH, 0}, false, "skin Oil Lacquer"},
    {ROW("no mist from a brush"), {{"spray-mist"}, TOOL_BRUSH, 0}, {{NULL}, TOOL_BRUSH, 0}, false, ""},
    {ROW("mist of what is sprayed"),
     {{"spray-mist"}, TOOL_BRUSH, 0},
     {{"spray-mist"}, TOOL_HVLP, 0},
     false,
     "spray-mist, sprayed Lacquer; breathing mist Lacquer"},
    {ROW("thinned with what burns"),
     {{NULL}, TOOL_CLOTH, 0.1},
     {{NULL}, TOOL_BRUSH, 0},
     false,
     "flammable Oil"},
    {ROW("each is breathed apart"),
     {{"vapour"}, TOOL_CLOTH, 0},
     {{NULL}, TOOL_HVLP, 0},
     false,
     "vapour Oil; breathing mist Lacquer; breathing vapour Oil"},
    {ROW("isocyanate by brush"),
     {{NULL}, TOOL_CLOTH, 0},
     {{"isocyanate"}, TOOL_BRUSH, 0},
     false,
     "isocyanate Lacquer"},
    /* Beside supplied air no lesser kind is named: it would be taken for enough. */
    {ROW("isocyanate sprayed"),
     {{"vapour"}, TOOL_CLOTH, 0},
     {{"isocyanate"}, TOOL_HVLP, 0},
     true,
     "vapour Oil; isocyanate, sprayed Lacquer; breathing supplied Lacquer; dust, air supplied"},
    {ROW("dust of wood does not heat itself"),
     {{"oily-rags"}, TOOL_CLOTH, 0},
     {{NULL}, TOOL_BRUSH, 0},
     true,
     "oily-rags Oil; dust"},
    {ROW("overspray does"),
     {{"oily-rags"}, TOOL_HVLP, 0},
     {{NULL}, TOOL_BRUSH, 0},
     false,
     "oily-rags, sprayed Oil; breathing mist Oil; heats itself, sprayed Oil"},
    {ROW("beside lacquer that is sprayed"),
     {{"oily-rags"}, TOOL_HVLP, 0},
     {{NULL}, TOOL_HVLP, 0},
     false,
     "oily-rags, sprayed Oil; breathing mist Oil Lacquer; heats itself, sprayed Oil; "
     "one booth, sprayed Oil Lacquer"},
    {ROW("lacquer sprayed beside rags"),
     {{"oily-rags"}, TOOL_CLOTH, 0},
     {{NULL}, TOOL_HVLP, 0},
     false,
     "oily-rags Oil; breathing mist Lacquer"},
};

static void a_plan_warns_of(void **state)
{
    const struct caution_row *r = *state;
    struct world *w = world_make(&r->oil, &r->lacquer);
    if (r->sanded) {
        *panel_add_step(&w->panel, 0, STEP_COAT) = w->panel.steps[0][0];
        w->panel.steps[0][0] = (struct step){.kind = STEP_SAND, .grit = 180, .wait_min = -1};
    }
    check_text(&r->row, told(w->arena, planned(w)), r->want);
    const struct plan_caution *air = caution_of(&w->plan, PLAN_CAUTION_VAPOUR);
    check_true(&r->row, !air || air->coat_count > 0, "fresh air for coats that need it");
    arena_free(w->arena);
}

/* Dust of the film itself heats up: it is sanded between two coats. */
static void sanding_between_coats(void **state)
{
    (void)state;
    static const struct way oil = {{"oily-rags"}, TOOL_CLOTH, 0};
    struct world *w = world_make(&oil, NULL);
    panel_add_step(&w->panel, 0, STEP_SAND)->grit = 320;
    *panel_add_step(&w->panel, 0, STEP_COAT) = w->panel.steps[0][0];
    check_text(HERE, told(w->arena, planned(w)), "oily-rags Oil; dust; heats itself Oil");
    arena_free(w->arena);
}

struct frost_row {
    struct row row;
    double first_c, then_c; /* until 6 in the morning, and from then on */
    bool want;
};

static const struct frost_row frosts[] = {
    {ROW("never"), 5, 15, false},
    {ROW("exactly at it"), 0, 15, false},
    {ROW("at night"), -0.1, 15, true},
    {ROW("by day"), 5, -1, true},
};

/* Of a finish that frost spoils, where it freezes on a day of the plan. */
static void frost_is_told(void **state)
{
    const struct frost_row *r = *state;
    static const struct way oil = {{"frost"}, TOOL_CLOTH, 0};
    struct world *w = world_make(&oil, NULL);
    struct air_spell *spells = w->panel.spells;
    spells[0].air.temperature_c = r->first_c;
    spells[1] = (struct air_spell){6 * 60, {r->then_c, 0.5}};
    w->panel.job.shop.air.daily.spell_count = 2;
    w->panel.finish.air.lowest_c = -20;
    check_text(&r->row, told(w->arena, planned(w)), r->want ? "frost Oil" : "");
    arena_free(w->arena);
}

struct voc_row {
    struct row row;
    double oil_g_per_l, lacquer_g_per_l, thin;
    double want_g;
    size_t want_finishes;
};

/* A square metre takes 0.1 l, the tool keeps 5 ml (cloth) and 10 ml (brush). Thinned by hand the first coat covers by the mixture:
 * 105 ml, at a quarter of thinner 84 ml and 21 ml of white spirit, of 780 g/l. */
static const struct voc_row vocs[] = {
    {ROW("both"), 400, 100, 0, 0.105 * 400 + 0.11 * 100, 2},
    {ROW("one holds none"), 400, 0, 0, 0.105 * 400, 1},
    {ROW("less than a gram"), 4, 0, 0, 0.105 * 4, 1},
    {ROW("one is not known"), -1, 100, 0, 0.11 * 100, 2},
    {ROW("none at all"), 0, 0, 0, 0, 0},
    {ROW("the thinner counts"), 400, 0, 0.25, 0.084 * 400 + 0.021 * 780, 1},
    {ROW("the thinner alone"), 0, 0, 0.25, 0.021 * 780, 1},
};

static void voc_of_all_coats(void **state)
{
    const struct voc_row *r = *state;
    const struct way oil = {{NULL}, TOOL_CLOTH, r->thin}, lacquer = {{NULL}, TOOL_BRUSH, 0};
    struct world *w = world_make(&oil, &lacquer);
    w->panel.finish.voc_g_per_l = r->oil_g_per_l;
    w->lacquer.voc_g_per_l = r->lacquer_g_per_l;
    const struct plan_caution *caution = caution_of(planned(w), PLAN_CAUTION_VOC);
    check_true(&r->row, (caution != NULL) == (r->want_g > 0), "told where there is some");
    if (caution) {
        check_double(&r->row, caution->mass_g, r->want_g, 1e-9);
        check_int(&r->row, (intmax_t)caution->finish_count, (intmax_t)r->want_finishes);
        bool is_oil = r->oil_g_per_l != 0 || r->thin > 0;
        check_text(&r->row, caution->finishes[0]->name, is_oil ? "Oil" : "Lacquer");
        check_double(&r->row, caution->thin[0], r->thin, 0);
    }
    arena_free(w->arena);
}

/* Of coats thinned more and less the most counts; a finish that no coat lays is not named. */
static void the_most_that_is_thinned(void **state)
{
    (void)state;
    static const struct way oil = {{NULL}, TOOL_CLOTH, 0.1};
    struct world *w = world_make(&oil, NULL);
    w->panel.finish.voc_g_per_l = w->lacquer.voc_g_per_l = 400;
    struct step *step = panel_add_step(&w->panel, 0, STEP_COAT);
    *step = w->panel.steps[0][0];
    step->thin = 0.3;
    step = panel_add_step(&w->panel, 0, STEP_COAT);
    *step = w->panel.steps[0][0];
    step->thin = 0.2;
    const struct plan_caution *caution = caution_of(planned(w), PLAN_CAUTION_VOC);
    assert_non_null(caution);
    check_int(HERE, (intmax_t)caution->finish_count, 1);
    check_text(HERE, caution->finishes[0]->name, "Oil");
    check_double(HERE, caution->thin[0], 0.3, 0);
    arena_free(w->arena);
}

/* Of a job whose last coat was taken out of the work only the others count. */
static void a_coat_that_is_taken_out(void **state)
{
    (void)state;
    static const struct way oil = {{NULL}, TOOL_CLOTH, 0}, lacquer = {{NULL}, TOOL_BRUSH, 0.1};
    struct world *w = world_make(&oil, &lacquer);
    w->panel.finish.voc_g_per_l = w->lacquer.voc_g_per_l = 400;
    struct timetable *timetable = panel_dated(w->arena, &w->panel);
    struct operations fewer = *timetable->operations;
    fewer.count--;
    timetable->operations = &fewer;
    w->plan = (struct plan){.job = &w->panel.job, .operations = &fewer, .timetable = timetable};
    plan_add_cautions(w->arena, &w->plan, &timetable, 1);
    const struct plan_caution *caution = caution_of(&w->plan, PLAN_CAUTION_VOC);
    assert_non_null(caution);
    check_double(HERE, caution->mass_g, 0.105 * 400, 1e-9);
    check_int(HERE, (intmax_t)caution->finish_count, 1);
    check_text(HERE, told(w->arena, &w->plan), "");
    arena_free(w->arena);
}

/* A is oiled once: the air is for that coat. */
static void fresh_air_for_one_coat(void **state)
{
    (void)state;
    static const struct way oil = {{NULL}, TOOL_CLOTH, 0};
    struct world *w = world_make(&oil, NULL);
    w->panel.finish.voc_g_per_l = 400;
    const struct plan_caution *caution = caution_of(planned(w), PLAN_CAUTION_VAPOUR);
    assert_non_null(caution);
    check_int(HERE, (intmax_t)caution->finish_count, 1);
    assert_int_equal(caution->coat_count, 1);
    check_true(HERE, caution->coats[0] == &w->plan.operations->items[0], "that of A");
    arena_free(w->arena);
}

/* B is oiled in the same way, an hour after A, when that may be handled: the air is for one of the coats. */
static void fresh_air_for_coats_one_after_another(void **state)
{
    (void)state;
    static const struct way oil = {{NULL}, TOOL_CLOTH, 0};
    struct world *w = world_make(&oil, NULL);
    struct panel *panel = &w->panel;
    lay(panel, panel_add_piece(panel), &panel->finish, &oil);
    panel->after[0] = (struct after){false, 0, STATE_HANDLE};
    panel->pieces[1].after = &panel->after[0];
    panel->pieces[1].after_count = 1;
    panel_set_state(panel, STATE_HANDLE, 60);
    panel->finish.voc_g_per_l = 400;
    const struct plan_caution *caution = caution_of(planned(w), PLAN_CAUTION_VAPOUR);
    assert_non_null(caution);
    check_int(HERE, (intmax_t)w->plan.timetable->batch_count, 2);
    check_int(HERE, (intmax_t)caution->coat_count, 1);
    arena_free(w->arena);
}

/* A is oiled while B is lacquered by somebody else: what gives off nothing is not named with what does. */
static void fresh_air_for_what_gives_off_vapour(void **state)
{
    (void)state;
    static const struct way oil = {{NULL}, TOOL_CLOTH, 0}, lacquer = {{NULL}, TOOL_BRUSH, 0};
    struct world *w = world_make(&oil, &lacquer);
    w->panel.job.shop.people = 2;
    w->panel.finish.voc_g_per_l = 400;
    w->lacquer.voc_g_per_l = 0;
    const struct plan_caution *caution = caution_of(planned(w), PLAN_CAUTION_VAPOUR);
    assert_non_null(caution);
    check_int(HERE, w->plan.timetable->steps[0].start_min, w->plan.timetable->steps[1].start_min);
    assert_int_equal(caution->finish_count, 1);
    check_text(HERE, caution->finishes[0]->id, "oil");
    check_int(HERE, (intmax_t)caution->coat_count, 1);
    arena_free(w->arena);
}

/* Two jobs share the shop, and only the other one's oil gives off vapour: this one asks for no air. */
static void fresh_air_for_another_job(void **state)
{
    (void)state;
    static const struct way oil = {{NULL}, TOOL_CLOTH, 0};
    struct world *w = world_make(&oil, NULL), *other = world_make(&oil, NULL);
    w->panel.finish.voc_g_per_l = 0;
    other->panel.finish.voc_g_per_l = 400;
    assert_non_null(caution_of(planned(other), PLAN_CAUTION_VAPOUR));
    assert_null(caution_of(planned(w), PLAN_CAUTION_VAPOUR));
    struct timetable *shop[] = {panel_dated(w->arena, &w->panel), panel_dated(w->arena, &other->panel)};
    w->plan.timetable = shop[0];
    w->plan.operations = shop[0]->operations;
    plan_add_cautions(w->arena, &w->plan, shop, 2);
    check_true(HERE, !caution_of(&w->plan, PLAN_CAUTION_VAPOUR), "its own coats give off nothing");
    arena_free(other->arena);
    arena_free(w->arena);
}

struct strip_row {
    struct row row;
    const char *words;
    bool want;
};

static const struct strip_row strips[] = {
    {ROW("fits hinges"), "fit hinges", false},
    {ROW("strips"), "strip the frame", true},
    {ROW("takes off old paint"), "scrape off old paint", true},
    {ROW("no words"), NULL, false},
};

static void old_finish_is_taken_off(void **state)
{
    const struct strip_row *r = *state;
    const struct operation task = {.doing = DO_TASK, .words = r->words};
    check_int(&r->row, task_strips(&task), r->want);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(cautions, a_plan_warns_of), CHECK_TEST(sanding_between_coats),
                     CHECK_ROWS(frosts, frost_is_told), CHECK_ROWS(vocs, voc_of_all_coats),
                     CHECK_TEST(the_most_that_is_thinned), CHECK_TEST(a_coat_that_is_taken_out),
                     CHECK_TEST(fresh_air_for_one_coat), CHECK_TEST(fresh_air_for_coats_one_after_another),
                     CHECK_TEST(fresh_air_for_what_gives_off_vapour), CHECK_TEST(fresh_air_for_another_job),
                     CHECK_ROWS(strips, old_finish_is_taken_off));
}
