/* The shipped rules of what fits, each compared with a schedule that breaks it and one that does not. */
#include "check.h"
#include "fit_rows.h"
#include "reader.h"
#include "sample.h"

#include "base/arena.h"
#include "source/finish_table.h"
#include "job/job.h"

#include <string.h>

static const char *const seed_oil = "seed-oil";

static struct finish finish_of(const struct kind *kind)
{
    struct finish finish = sample_varnish();
    finish.id = finish.name = kind->id;
    finish.family = kind->family;
    finish.dries_by = kind->by;
    bool soft = strcmp(kind->family, "shellac") == 0 || strcmp(kind->family, "wax") == 0;
    for (int i = 0; i < RESISTANCE_COUNT && soft; i++)
        finish.resists[i] = 1;
    if (kind->by == DRIES_BY_NOTHING)
        for (int i = 0; i < STATE_COUNT; i++)
            finish.first.after_min[i] = finish.later.after_min[i] = 60;
    bool coats = strcmp(kind->family, "stain") != 0 && strcmp(kind->family, "filler") != 0;
    bool caustic = kind == &lye || kind == &bleach;
    finish.food = kind == &mineral ? CONTACT_MADE : coats && !caustic ? CONTACT_ASK : CONTACT_NEVER;
    finish.child = caustic ? CONTACT_NEVER : CONTACT_ASK;
    finish.thin_most = -1;
    if (kind == &oil) {
        finish.cautions = &seed_oil;
        finish.caution_count = 1;
    }
    return finish;
}

/* One part of one piece with one schedule. */
struct world {
    struct finish under, over;
    struct step steps[BETWEEN_MOST + 2];
    struct schedule schedule;
    struct piece piece;
    struct part part;
    struct job job;
};

static void world_make(struct world *w, const struct fit_row *r)
{
    size_t n = 0;
    memset(w, 0, sizeof *w);
    w->over = finish_of(r->over);
    if (r->under) {
        w->under = finish_of(r->under);
        w->steps[n++] = (struct step){.kind = STEP_COAT, .finish = &w->under, .coats = 1};
    }
    for (int i = 0; i < r->steps; i++)
        w->steps[n++] = r->between[i];
    w->steps[n++] = (struct step){.kind = STEP_COAT, .finish = &w->over, .coats = 1};
    w->schedule = (struct schedule){"all", w->steps, n};
    w->piece = (struct piece){.name = "piece", .uses = r->uses};
    w->part =
        (struct part){.name = "panel", .qty = 1, .shape = SHAPE_BOARD, .work = 1, .wood = wood_find(r->wood)};
    for (int i = 0; i < REGION_COUNT; i++)
        w->part.schedule[i] = SCHEDULE_NONE;
    w->part.schedule[r->region] = 0;
    w->job = (struct job){.file = "job.json",
                          .deliver_at = STATE_WRAP,
                          .schedules = &w->schedule,
                          .schedule_count = 1,
                          .pieces = &w->piece,
                          .piece_count = 1,
                          .parts = &w->part,
                          .part_count = 1};
}

static struct fit_rules shipped(struct reader *reader)
{
    struct finish_folders folders = {.shipped = "finishes"};
    return fit_rules_load(&reader->reading, &folders, NULL);
}

/* Whether the rule of that name alone makes a warning. */
static bool speaks_alone(struct arena *arena, struct world *w, const struct fit_rule *rule)
{
    struct err_list warnings = {0};
    w->job.fit = (struct fit_rules){rule, 1};
    job_check_fit(arena, &w->job, &warnings);
    return warnings.count > 0;
}

/* The rule that has to speak does; where none has to, none of those about the two coats does. "use-food-cure" comes with
 * every film that is delivered early, and is told apart by its own rows. */
static void row_holds(void **state)
{
    const struct fit_row *r = *state;
    struct reader *reader = reader_make();
    struct world w;
    struct fit_rules rules = shipped(reader);
    bool spoke = false;
    world_make(&w, r);
    for (size_t i = 0; i < rules.count; i++) {
        bool speaks = speaks_alone(reader->arena, &w, &rules.items[i]);
        if (!r->rule)
            check_text(&r->row, speaks ? rules.items[i].name : "silence", "silence");
        if (r->rule && strcmp(rules.items[i].name, r->rule) == 0)
            spoke = speaks;
    }
    check_true(&r->row, r->rule == NULL || spoke, "the rule speaks");
    reader_free(reader);
}

static const struct fit_rule *rule_named(struct fit_rules rules, const char *name)
{
    for (size_t i = 0; i < rules.count; i++)
        if (strcmp(rules.items[i].name, name) == 0)
            return &rules.items[i];
    fail_msg("no rule %s", name);
    return NULL;
}

/* An acrylic primer that has had its day; that it bleeds at all on oak is another rule's. */
static void blocked_for_a_day(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const struct fit_rule *rule = rule_named(shipped(reader), "acrylic-primer-blocks-in-a-day");
    struct world w;
    world_make(&w, &(struct fit_row){.under = &blocker,
                                     .over = &acrylic,
                                     .between = {UNTIL(STATE_LIGHT_USE)},
                                     .steps = 1,
                                     .wood = "oak"});
    check_true(HERE, !speaks_alone(reader->arena, &w, rule), "after a day");
    reader_free(reader);
}

/* The patch is primed and its region painted: what stands behind the primer in the patch's own schedule is what it waits, what
 * is sanded before the paint is done before the patch. */
static void blocked_for_a_day_on_a_patch(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const struct fit_rule *rule = rule_named(shipped(reader), "acrylic-primer-blocks-in-a-day");
    struct world w;
    world_make(&w, &(struct fit_row){.over = &acrylic, .between = {SAND(120)}, .steps = 1, .wood = "oak"});
    w.under = finish_of(&blocker);
    struct step mending[] = {
        SAND(80), {.kind = STEP_COAT, .finish = &w.under, .coats = 1}, SAND(180), UNTIL(STATE_LIGHT_USE)};
    struct schedule schedules[] = {w.schedule, {"mending", mending, 3}};
    struct patch patch = {.schedule = 1, .name = "mending", .area_m2 = 0.01, .region = REGION_FACE};
    w.job.schedules = schedules;
    w.job.schedule_count = 2;
    w.piece.patch = &patch;
    w.part.schedule[REGION_FACE] = 0;
    check_true(HERE, speaks_alone(reader->arena, &w, rule), "sanded, but soft");
    schedules[1].step_count = 4;
    check_true(HERE, !speaks_alone(reader->arena, &w, rule), "after a day");
    schedules[1].step_count = 1;
    check_true(HERE, !speaks_alone(reader->arena, &w, rule), "a patch that is only sanded");
    schedules[1].step_count = 3;
    patch.part = "leg";
    check_true(HERE, !speaks_alone(reader->arena, &w, rule), "a patch on another part");
    patch.part = "panel";
    check_true(HERE, speaks_alone(reader->arena, &w, rule), "on this part, by its name");
    reader_free(reader);
}

/* Thinned by 15 % where the label allows 10, by 10, and where it says nothing. */
static void thinned_beyond_its_label(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const struct fit_rule *rule = rule_named(shipped(reader), "thinned-beyond-label");
    struct world w;
    world_make(&w, &(struct fit_row){.over = &water, .wood = "ash"});
    w.over.thin_most = 0.10;
    w.steps[0].thin = 0.15;
    check_true(HERE, speaks_alone(reader->arena, &w, rule), "beyond");
    w.steps[0].thin = 0.10;
    check_true(HERE, !speaks_alone(reader->arena, &w, rule), "within");
    w.over.thin_most = -1;
    w.steps[0].thin = 0.5;
    check_true(HERE, !speaks_alone(reader->arena, &w, rule), "nothing is said");
    reader_free(reader);
}

/* At most 125 um dry in all: 120 g/m2 of 1 kg/l at 42 % leave 50.4 um a coat; two coats bear, three do not. */
static void too_thick_to_bear(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const struct fit_rule *rule = rule_named(shipped(reader), "post-catalysed-too-thick");
    struct world w;
    world_make(&w, &(struct fit_row){.over = &catalysed, .wood = "ash"});
    w.over.wet_film_um = 120;
    w.over.solids = 0.42;
    w.over.dry_film_most_um = 125;
    w.steps[0].coats = 2;
    check_true(HERE, !speaks_alone(reader->arena, &w, rule), "100.8 um");
    w.steps[0].coats = 3;
    check_true(HERE, speaks_alone(reader->arena, &w, rule), "151.2 um");
    reader_free(reader);
}

/* A rule that no row breaks is a rule that nobody has seen work. */
static void every_rule_has_its_row(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct fit_rules rules = shipped(reader);
    check_true(HERE, rules.count >= 30, "the rules are there");
    for (size_t i = 0; i < rules.count; i++) {
        /* Those two have tests of their own: they ask for figures of the finish. */
        bool seen = strcmp(rules.items[i].name, "thinned-beyond-label") == 0 ||
                    strcmp(rules.items[i].name, "post-catalysed-too-thick") == 0;
        for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++)
            seen = seen || (rows[k].rule && strcmp(rows[k].rule, rules.items[i].name) == 0);
        check_text(HERE, seen ? "" : rules.items[i].name, "");
    }
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(rows, row_holds), CHECK_TEST(every_rule_has_its_row),
                     CHECK_TEST(blocked_for_a_day), CHECK_TEST(blocked_for_a_day_on_a_patch),
                     CHECK_TEST(thinned_beyond_its_label), CHECK_TEST(too_thick_to_bear));
}
