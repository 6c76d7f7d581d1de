/* What a search changes of an order: every neighbour that a change can make is made sometime, and no
 * other; whatever is changed, an order stays one. */
#include "check.h"
#include "orders.h"
#include "panel_site.h"

#include "base/arena.h"
#include "base/buf.h"
#include "timetable/batching.h"

#include <string.h>

enum { DRAWS = 4000, NEIGHBOURS_MOST = 60 };

/* "0 2 | 1 3": the items of each run; behind a run "by 1" for its person, "thrifty", "in step". */
static const char *told(struct arena *arena, const struct variant *variant)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < variant->order.run_count; i++) {
        const struct run *run = &variant->order.runs[i];
        for (size_t k = 0; k < run->count; k++)
            buf_addf(&text, "%s%d", k > 0 ? " " : i > 0 ? " | " : "", variant->order.items[run->from + k]);
        if (run->person != SITE_NONE)
            buf_addf(&text, " by %d", run->person);
        if (run->thrifty)
            buf_addf(&text, " thrifty");
        if (run->in_step)
            buf_addf(&text, " in step");
    }
    return text.text;
}

/* As many pieces, each of one step that takes an hour. */
static void alike(struct panel *panel, enum step_kind kind, size_t count)
{
    panel_init(panel);
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            panel_add_piece(panel);
        struct step *step = panel_add_step(panel, i, kind);
        step->words = "glue";
        step->takes_min = 60;
    }
}

/* How many of so many changes make this of an order. */
static int times_made(struct moving *moving, const struct variant *from, const char *want)
{
    int made = 0;
    for (int n = 0; n < DRAWS; n++) {
        variant_copy_order(moving->trial, from);
        moves_change(moving);
        made += strcmp(told(moving->site->arena, moving->trial), want) == 0;
    }
    return made;
}

/* The neighbours of an order are these, told apart by ";". */
static void check_neighbours(const struct row *row, struct moving moving, const struct variant *from,
                             const char *want)
{
    struct arena *arena = moving.site->arena;
    const char *found[NEIGHBOURS_MOST];
    size_t count = 0, wanted = 1;
    for (const char *c = want; *c; c++)
        wanted += *c == ';';
    moving.trial = variant_make(arena, moving.site);
    moving.random = 1;
    for (int n = 0; n < DRAWS; n++) {
        variant_copy_order(moving.trial, from);
        bool changed = moves_change(&moving);
        const char *now = told(arena, moving.trial);
        check_int(row, changed, strcmp(now, told(arena, from)) != 0);
        size_t i = 0;
        while (i < count && strcmp(found[i], now) != 0)
            i++;
        if (i < count || !changed)
            continue;
        const char *at = strstr(want, now);
        while (at && ((at > want && at[-1] != ';') || (at[strlen(now)] != ';' && at[strlen(now)] != '\0')))
            at = strstr(at + 1, now);
        check_true(row, at != NULL, now);
        found[count++] = now;
    }
    check_int(row, (intmax_t)count, (intmax_t)wanted);
}

/* Joined where the first or the last stands; divided, the rest where it is or later; one of two given to
 * the other batch; two exchanged in a batch; a batch put elsewhere. */
static void all_neighbours_of_two_batches(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    alike(&panel, STEP_SAND, 3);
    const struct site *site = panel_site(arena, &panel);
    check_neighbours(HERE, (struct moving){.site = site},
                     ordered(site, (int[]){0, 1, 2}, (size_t[]){2, 1, 0}),
                     "0 1 2;2 0 1;0 | 1 | 2;0 | 2 | 1;1 | 0 2;0 | 1 2;1 0 | 2;2 | 0 1");
    arena_free(arena);
}

/* Where batches may do their items as they become free, one of several does, or does not any more. */
static void all_neighbours_in_step(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    alike(&panel, STEP_SAND, 3);
    const struct site *site = panel_site(arena, &panel);
    struct variant *variant = ordered(site, (int[]){0, 1, 2}, (size_t[]){2, 1, 0});
    struct moving moving = {.site = site, .steps = true};
    check_neighbours(HERE, moving, variant,
                     "0 1 2;2 0 1;0 | 1 | 2;0 | 2 | 1;1 | 0 2;0 | 1 2;1 0 | 2;2 | 0 1;0 1 in step | 2");
    variant->order.runs[0].in_step = true;
    check_neighbours(
        HERE, moving, variant,
        "0 1 2 in step;0 1 2;2 0 1;0 in step | 1 in step | 2;0 in step | 2 | 1 in step;1 in step | 0 2;"
        "0 in step | 1 2;1 0 in step | 2;2 | 0 1 in step;0 1 | 2");
    arena_free(arena);
}

/* Of two people somebody is named for a batch, or nobody any more. */
static void all_neighbours_of_one_for_two(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    alike(&panel, STEP_SAND, 2);
    panel.job.shop.people = 2;
    const struct site *site = panel_site(arena, &panel);
    struct variant *variant = ordered(site, (int[]){0, 1}, (size_t[]){2, 0});
    check_neighbours(HERE, (struct moving){.site = site}, variant, "0 1 by 0;0 1 by 1;1 0;0 | 1");
    variant->order.runs[0].person = 1;
    check_neighbours(HERE, (struct moving){.site = site}, variant, "0 1 by 0;0 1;1 0 by 1;0 by 1 | 1 by 1");
    arena_free(arena);
}

/* Tasks are never one batch, nor is what is sanded with what is coated. */
static void what_is_never_joined(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    alike(&panel, STEP_TASK, 2);
    const struct site *site = panel_site(arena, &panel);
    check_neighbours(HERE, (struct moving){.site = site}, ordered(site, (int[]){0, 1}, (size_t[]){1, 1, 0}),
                     "1 | 0");
    alike(&panel, STEP_SAND, 2);
    panel.steps[1][0] = (struct step){.kind = STEP_SCUFF, .grit = 320, .wait_min = -1};
    site = panel_site(arena, &panel);
    check_neighbours(HERE, (struct moving){.site = site}, ordered(site, (int[]){0, 1}, (size_t[]){1, 1, 0}),
                     "1 | 0");
    arena_free(arena);
}

struct two_part {
    struct finish finish;
    struct component components[2];
};

/* What is laid on one piece sets within 100 minutes. */
static void mix_for(struct panel *panel, struct two_part *two_part, size_t piece)
{
    two_part->components[0] = two_part->components[1] = panel->component;
    two_part->finish = panel->finish;
    two_part->finish.components = two_part->components;
    two_part->finish.component_count = 2;
    two_part->finish.pot_life_min = 100;
    two_part->finish.id = "two-part";
    panel->steps[piece][0].finish = &two_part->finish;
}

/* Where there are mixes that do not keep a batch of them begins to save, or does not any more. A's is one,
 * B's keeps. */
static void all_neighbours_with_mixes(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct two_part two_part;
    alike(&panel, STEP_COAT, 2);
    mix_for(&panel, &two_part, 0);
    const struct site *site = panel_site(arena, &panel);
    struct variant *variant = ordered(site, (int[]){0, 1}, (size_t[]){1, 1, 0});
    check_true(HERE, moves_is_mixed(site, &variant->order.runs[0]), "it sets");
    check_true(HERE, !moves_is_mixed(site, &variant->order.runs[1]), "it keeps");
    check_neighbours(HERE, (struct moving){.site = site}, variant, "1 | 0");
    check_neighbours(HERE, (struct moving){.site = site, .mixes = true}, variant, "1 | 0;0 thrifty | 1");
    variant->order.runs[0].thrifty = true;
    check_neighbours(HERE, (struct moving){.site = site, .mixes = true}, variant, "1 | 0 thrifty;0 | 1");
    arena_free(arena);
}

/* One change in twelve is that of a batch that begins to save: of three that are drawn from, only B's is mixed, and it is found from each
 * of them. */
static void the_only_mixed_batch_is_found(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    struct two_part two_part;
    alike(&panel, STEP_COAT, 3);
    mix_for(&panel, &two_part, 1);
    const struct site *site = panel_site(arena, &panel);
    const struct variant *variant = ordered(site, (int[]){0, 1, 2}, (size_t[]){1, 1, 1, 0});
    struct moving moving = {.site = site, .random = 1, .trial = variant_make(arena, site), .mixes = true};
    int saving = times_made(&moving, variant, "0 | 1 thrifty | 2");
    check_true(HERE, saving > DRAWS / 14 && saving < DRAWS / 10, "about one of twelve");
    arena_free(arena);
}

/* A late scuff goes out of the order again, alone or out of a batch with what is sanded. Items 0 and 2 are
 * coats, 1 is the scuff, 3 is sanded with the same grit. */
static void late_scuffs_are_dropped(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    panel_init(&panel);
    panel_add_step(&panel, 0, STEP_COAT)->coats = 2;
    panel_set_window(&panel, 60, DAY_MINUTES);
    panel_add_piece(&panel);
    panel_add_step(&panel, 1, STEP_SAND)->grit = 320;
    const struct site *site = panel_site(arena, &panel);
    struct moving moving = {
        .site = site, .random = 1, .trial = variant_make(arena, site), .scuffs = SCUFF_IF_NEEDED};
    for (int together = 0; together < 2; together++) {
        struct variant *variant = together ? ordered(site, (int[]){0, 1, 3, 2}, (size_t[]){1, 2, 1, 0})
                                           : ordered(site, (int[]){0, 1, 3, 2}, (size_t[]){1, 1, 1, 1, 0});
        int dropped = 0;
        variant->draft->left_out[1] = false;
        for (int n = 0; n < DRAWS; n++) {
            variant_copy_order(moving.trial, variant);
            bool changed = moves_change(&moving);
            check_int(HERE, (intmax_t)moving.trial->order.item_count,
                      moving.trial->draft->left_out[1] ? 3 : 4);
            dropped += moving.trial->draft->left_out[1];
            if (!moving.trial->draft->left_out[1])
                continue;
            check_true(HERE, changed, "the order is another");
            check_text(HERE, told(arena, moving.trial), "0 | 3 | 2");
        }
        check_true(HERE, dropped > DRAWS / 24 && dropped < DRAWS / 6, "about one of twelve");
        variant_copy_order(moving.trial, variant);
        moves_leave_out(&moving, 1);
        check_true(HERE, moving.trial->draft->left_out[1], "the one that is meant");
        check_text(HERE, told(arena, moving.trial), "0 | 3 | 2");
        moves_leave_out(&moving, 1);
        check_text(HERE, told(arena, moving.trial), "0 | 3 | 2");
    }
    arena_free(arena);
}

/* One change in ten is that of an item that goes to another batch; half of the time the batch of two is drawn, and then the only other
 * is found. */
static void the_other_batch_is_found(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    alike(&panel, STEP_SAND, 3);
    const struct site *site = panel_site(arena, &panel);
    const struct variant *variant = ordered(site, (int[]){0, 1, 2}, (size_t[]){2, 1, 0});
    struct moving moving = {.site = site, .random = 1, .trial = variant_make(arena, site)};
    struct moving again = moving;
    int shifted = times_made(&moving, variant, "1 | 0 2") + times_made(&again, variant, "0 | 1 2");
    check_true(HERE, shifted > DRAWS / 28 && shifted < DRAWS / 14, "about one of twenty");
    arena_free(arena);
}

/* A has two coats, B and C one: both of A's go into the batch of C together, whatever lies between them, and only where that is
 * asked for: one change in eleven, half of the time from the batch of three, two thirds of it A's. */
static void a_piece_goes_whole(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    alike(&panel, STEP_COAT, 3);
    panel.steps[0][0].coats = 2;
    const struct site *site = panel_site(arena, &panel);
    const struct variant *variant = ordered(site, (int[]){0, 2, 1, 3}, (size_t[]){3, 1, 0});
    struct moving moving = {.site = site, .random = 1, .trial = variant_make(arena, site)};
    check_int(HERE, times_made(&moving, variant, "2 | 0 1 3"), 0);
    moving.pieces = true;
    int whole = times_made(&moving, variant, "2 | 0 1 3");
    check_true(HERE, whole > DRAWS / 45 && whole < DRAWS / 25, "about one of 33");
    arena_free(arena);
}

/* Where there are windows an order is read in the other way now and then. */
static void windows_are_kept_in_another_way(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    alike(&panel, STEP_SAND, 2);
    const struct site *site = panel_site(arena, &panel);
    for (int limits = 0; limits < 2; limits++) {
        struct moving moving = {.site = site,
                                .random = 1,
                                .trial = ordered(site, (int[]){0, 1}, (size_t[]){1, 1, 0}),
                                .limits = limits};
        int turned = 0;
        for (int n = 0; n < DRAWS; n++) {
            bool before = moving.trial->waits;
            moves_change(&moving);
            turned += before != moving.trial->waits;
        }
        check_true(HERE, limits ? turned > DRAWS / 16 && turned < DRAWS / 4 : turned == 0,
                   "about one of eight");
    }
    arena_free(arena);
}

struct join_row {
    struct row row;
    size_t a, b;
    bool early, sorted;
    const char *want; /* NULL: they are not joined */
};

/* A, B and C are sanded and coated, C's takes longest, then B's. */
static const struct join_row joins[] = {
    {ROW("where the first stands"), 0, 2, true, false, "0 4 | 3 | 1 5 | 2"},
    {ROW("where the last stands"), 0, 2, false, false, "3 | 4 0 | 1 5 | 2"},
    {ROW("named the other way round"), 2, 0, true, false, "0 4 | 3 | 1 5 | 2"},
    {ROW("sorted"), 0, 2, true, true, "4 0 | 3 | 1 5 | 2"},
    {ROW("the last of all, where it stands"), 2, 4, false, false, "0 | 3 | 1 5 | 2 4"},
    {ROW("two and one"), 1, 3, false, true, "0 | 4 | 5 3 1 | 2"},
    {ROW("of two kinds"), 0, 1, true, true, NULL},
    {ROW("one with itself"), 2, 2, true, true, NULL},
};

static void are_joined(void **state)
{
    const struct join_row *r = *state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    alike(&panel, STEP_SAND, 3);
    for (size_t i = 0; i < 3; i++) {
        panel_add_step(&panel, i, STEP_COAT);
        panel_set_hours(&panel, i, (double)i + 1);
    }
    const struct site *site = panel_site(arena, &panel);
    struct moving moving = {.site = site,
                            .trial = ordered(site, (int[]){0, 3, 4, 1, 5, 2}, (size_t[]){1, 1, 1, 2, 1, 0})};
    check_int(&r->row, moves_join(&moving, r->a, r->b, r->early, r->sorted), r->want != NULL);
    check_text(&r->row, told(arena, moving.trial), r->want ? r->want : "0 | 3 | 4 | 1 5 | 2");
    arena_free(arena);
}

/* A flat piece: back (0), turned (1), face (2); and a coat of B (3). Where back and face become one batch
 * the turn goes along, wherever it was; where the turn lies with another coat it stays there. */
static void turns_go_along(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct panel panel;
    alike(&panel, STEP_COAT, 2);
    panel_two_sides(&panel, 0);
    const struct site *site = panel_site(arena, &panel);
    check_int(HERE, site_turned_for(site, 1), 2);
    struct moving moving = {.site = site,
                            .trial = ordered(site, (int[]){0, 1, 2, 3}, (size_t[]){1, 1, 1, 1, 0})};
    check_true(HERE, moves_join(&moving, 0, 2, true, false), "back and face");
    check_text(HERE, told(arena, moving.trial), "0 1 2 | 3");
    check_true(HERE, moves_join(&moving, 0, 1, true, false), "and B");
    check_text(HERE, told(arena, moving.trial), "0 1 2 3");
    moving.trial = ordered(site, (int[]){0, 3, 1, 2}, (size_t[]){1, 1, 1, 1, 0});
    check_true(HERE, moves_join(&moving, 0, 3, false, false), "face and back");
    check_text(HERE, told(arena, moving.trial), "3 | 0 1 2");
    moving.trial = ordered(site, (int[]){0, 1, 2, 3}, (size_t[]){1, 1, 1, 1, 0});
    check_true(HERE, moves_join(&moving, 2, 3, true, false), "the face and B");
    check_text(HERE, told(arena, moving.trial), "0 | 1 | 2 3");
    arena_free(arena);
}

/* Whether it holds every item once that is not left out, in batches behind one another that are of one
 * kind and not empty. */
static void check_order(const struct row *row, const struct site *site, const struct variant *variant)
{
    const struct order *order = &variant->order;
    size_t at = 0, times[16] = {0};
    for (size_t i = 0; i < order->run_count; i++) {
        const struct run *run = &order->runs[i];
        bool of_kind = false;
        for (size_t k = 0; k < run->count; k++) {
            int item = order->items[run->from + k];
            times[item]++;
            of_kind |= site->rows[item].kind == run->kind;
            check_true(row,
                       site->rows[item].kind == run->kind || site->rows[item].operation->doing == DO_FLIP,
                       "one kind");
        }
        check_true(row, run->count > 0 && run->person >= SITE_NONE && run->person < site->crew->count,
                   "a batch");
        check_true(row,
                   of_kind || run->count == 1 ||
                       site->rows[order->items[run->from]].operation->doing == DO_FLIP,
                   "of its kind");
        at += run->count;
    }
    check_int(row, (intmax_t)at, (intmax_t)order->item_count);
    for (size_t i = 0; i < site->count; i++)
        check_int(row, (intmax_t)times[i], !variant->draft->left_out[i]);
}

/* Two flat pieces of two coats and a third that is sanded, two people; changed a thousand times in a row. */
static void an_order_stays_one(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 5; seed++) {
        struct arena *arena = arena_make(0);
        struct panel panel;
        alike(&panel, STEP_SAND, 3);
        for (size_t i = 0; i < 2; i++) {
            panel_add_step(&panel, i, STEP_COAT);
            panel_two_sides(&panel, i);
        }
        panel.job.shop.people = 2;
        const struct site *site = panel_site(arena, &panel);
        struct variant *trial = variant_make(arena, site);
        struct betweens betweens = between_make(arena, site);
        struct moving moving = {.site = site,
                                .trial = trial,
                                .random = seed,
                                .limits = true,
                                .mixes = true,
                                .scuffs = SCUFF_IF_NEEDED};
        order_first(site, &betweens, false, 1, &trial->order);
        for (int n = 0; n < 1000; n++) {
            moves_change_some(&moving);
            check_order(HERE, site, trial);
        }
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(all_neighbours_of_two_batches), CHECK_TEST(all_neighbours_in_step),
                     CHECK_TEST(all_neighbours_of_one_for_two), CHECK_TEST(what_is_never_joined),
                     CHECK_TEST(all_neighbours_with_mixes), CHECK_TEST(the_only_mixed_batch_is_found),
                     CHECK_TEST(late_scuffs_are_dropped), CHECK_TEST(the_other_batch_is_found),
                     CHECK_TEST(a_piece_goes_whole), CHECK_TEST(windows_are_kept_in_another_way),
                     CHECK_ROWS(joins, are_joined), CHECK_TEST(turns_go_along),
                     CHECK_TEST(an_order_stays_one));
}
