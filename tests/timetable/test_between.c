/* What must pass between work of one kind, by the longest way of waits and work: each way is added up by
 * hand. The air is the oil's reference air, where a film takes what its table says, less the minute that the
 * clock's second of tolerance may save. */
#include "check.h"
#include "hand_work.h"

#include "base/arena.h"
#include "timetable/between.h"

enum { D = 24 * 60 };

static struct site *site_of(struct arena *arena, struct hand_work *work)
{
    return site_make(arena, &work->operations, march(1, 0, 0), 7 * D);
}

/* Minutes between two operations; SITE_NONE: nothing is said. */
static int32_t wait_of(const struct betweens *betweens, int from, int to)
{
    for (size_t i = betweens->first[from]; i < betweens->first[from + 1]; i++)
        if (betweens->items[i].from == from && betweens->items[i].to == to)
            return betweens->items[i].wait;
    return SITE_NONE;
}

/* Sand 30, coat 60, sanded after 600, sand 30, coat 60, which may also follow the coat beneath after 500. */
static void sanded_and_coated_twice(struct hand_work *work)
{
    hand_work(work);
    panel_set_state(&work->panel, STATE_SAND, 600);
    panel_set_state(&work->panel, STATE_RECOAT, 500);
    panel_set_state(&work->panel, STATE_DUST_FREE, 60);
    hand_add(work, 0, DO_SAND, 30);
    hand_add(work, 0, DO_APPLY, 60);
    hand_add(work, 0, DO_SAND, 30);
    hand_add(work, 0, DO_APPLY, 60);
    hand_link(work, 0, 1, LINK_END, 20);
    hand_link(work, 1, 2, LINK_STATE, 0)->state = STATE_SAND;
    hand_link(work, 2, 3, LINK_END, 0);
    hand_link(work, 1, 3, LINK_STATE, 0)->state = STATE_RECOAT;
}

/* Two people: 20 + 60 + 599 from sanding to sanding, 599 + 30 from coat to coat, longer than 499. */
static void two_people_change_over(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    sanded_and_coated_twice(&work);
    work.panel.job.shop.people = 2;
    const struct betweens betweens = between_make(arena, site_of(arena, &work));
    check_int(HERE, (intmax_t)betweens.count, 2);
    check_int(HERE, wait_of(&betweens, 0, 2), 679);
    check_int(HERE, wait_of(&betweens, 1, 3), 629);
    check_int(HERE, (intmax_t)betweens.ordered, 4);
    check_int(HERE, (intmax_t)betweens.first[4], 2);
    for (int i = 0; i < 4; i++) {
        check_int(HERE, betweens.order[i], i);
        check_int(HERE, betweens.place[i], i);
    }
    arena_free(arena);
}

/* One person cannot sand within a batch of coats: no batch holds both coats, nor both sandings. */
static void one_person_leaves_the_batch(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    sanded_and_coated_twice(&work);
    const struct betweens betweens = between_make(arena, site_of(arena, &work));
    check_int(HERE, wait_of(&betweens, 0, 2), SITE_NEVER);
    check_int(HERE, wait_of(&betweens, 1, 3), SITE_NEVER);
    arena_free(arena);
}

/* What takes no time does not part them, nor does a coat between coats, nor turning the part over: 599 + 30 x
 * 0, 10 + 5. */
static void what_does_not_part_them(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    sanded_and_coated_twice(&work);
    work.items[2].units.seconds = 0;
    struct betweens betweens = between_make(arena, site_of(arena, &work));
    check_int(HERE, wait_of(&betweens, 1, 3), 599);

    hand_work(&work);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 0, DO_FLIP, 5);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_link(&work, 0, 1, LINK_END, 10);
    hand_link(&work, 1, 2, LINK_END, 0);
    hand_link(&work, 2, 3, LINK_END, 7);
    betweens = between_make(arena, site_of(arena, &work));
    check_int(HERE, wait_of(&betweens, 0, 2), 15);
    check_int(HERE, wait_of(&betweens, 2, 3), 7);
    check_int(HERE, wait_of(&betweens, 0, 3), 15 + 60 + 7);
    arena_free(arena);
}

/* Once parted they stay so, though a coat of their kind lies between. */
static void parted_for_good(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    sanded_and_coated_twice(&work);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_link(&work, 3, 4, LINK_END, 0);
    const struct betweens betweens = between_make(arena, site_of(arena, &work));
    check_int(HERE, wait_of(&betweens, 1, 4), SITE_NEVER);
    check_int(HERE, wait_of(&betweens, 3, 4), 0);
    arena_free(arena);
}

/* A coat that is dust-free after an hour, and dust behind it: an hour passes, unless dust is raised in
 * another room. */
static void dust_waits_for_the_film(void **state)
{
    (void)state;
    for (int separate = 0; separate < 2; separate++) {
        struct arena *arena = arena_make(0);
        struct hand_work work;
        hand_work(&work);
        panel_add_piece(&work.panel);
        work.panel.job.shop.dust_separate = separate;
        work.panel.job.shop.people = 2;
        panel_set_state(&work.panel, STATE_DUST_FREE, 60);
        hand_add(&work, 0, DO_APPLY, 60);
        hand_add(&work, 1, DO_SAND, 30);
        hand_add(&work, 1, DO_APPLY, 60);
        hand_link(&work, 0, 1, LINK_END, 5);
        hand_link(&work, 1, 2, LINK_END, 0);
        const struct betweens betweens = between_make(arena, site_of(arena, &work));
        check_int(HERE, wait_of(&betweens, 0, 2), separate ? 5 + 30 : 59 + 30);
        arena_free(arena);
    }
}

/* Limits are no waits, and a late scuff that a plan can do without is on no way. */
static void what_is_on_no_way(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    panel_set_window(&work.panel, 100, 5000);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 0, DO_SCUFF, 30)->late_scuff = true;
    hand_add(&work, 0, DO_APPLY, 60);
    hand_add(&work, 0, DO_APPLY, 60);
    hand_link(&work, 0, 1, LINK_END, 300);
    hand_link(&work, 1, 2, LINK_END, 300);
    hand_link(&work, 0, 2, LINK_STATE, 0)->state = STATE_RECOAT;
    hand_link(&work, 0, 2, LINK_WINDOW, 0)->unless = 1;
    hand_link(&work, 2, 3, LINK_POLISH, 400);
    const struct site *site = site_of(arena, &work);
    check_true(HERE, site->rows[1].optional, "the window can be kept");
    const struct betweens betweens = between_make(arena, site);
    check_int(HERE, wait_of(&betweens, 0, 2), 99);
    check_int(HERE, wait_of(&betweens, 2, 3), SITE_NONE);
    check_int(HERE, (intmax_t)betweens.count, 1);
    check_int(HERE, (intmax_t)betweens.ordered, 3);
    check_int(HERE, betweens.place[1], SITE_NONE);
    arena_free(arena);
}

/* 2 and 3 wait for each other, 4 for them: they are in no order. 1 comes before 0, which waits for it. */
static void circles_and_turned_links(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    for (int i = 0; i < 5; i++)
        hand_add(&work, 0, DO_SAND, 30);
    hand_link(&work, 1, 0, LINK_END, 12);
    hand_link(&work, 2, 3, LINK_END, 0);
    hand_link(&work, 3, 2, LINK_END, 0);
    hand_link(&work, 1, 2, LINK_END, 0);
    hand_link(&work, 3, 4, LINK_END, 0);
    const struct betweens betweens = between_make(arena, site_of(arena, &work));
    check_int(HERE, (intmax_t)betweens.ordered, 2);
    check_int(HERE, betweens.order[0], 1);
    check_int(HERE, betweens.order[1], 0);
    check_int(HERE, betweens.place[2], SITE_NONE);
    check_int(HERE, (intmax_t)betweens.count, 1);
    check_int(HERE, wait_of(&betweens, 1, 0), 12);
    arena_free(arena);
}

/* Two ways from 0 to 3, named from the last on: by 2 it is 30 + 8, by 1 only 30. */
static void the_longer_of_two_ways(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    for (int i = 0; i < 4; i++)
        hand_add(&work, 0, DO_SAND, 30);
    hand_link(&work, 2, 3, LINK_END, 0);
    hand_link(&work, 0, 2, LINK_END, 8);
    hand_link(&work, 1, 3, LINK_END, 0);
    hand_link(&work, 0, 1, LINK_END, 0);
    const struct betweens betweens = between_make(arena, site_of(arena, &work));
    check_int(HERE, wait_of(&betweens, 0, 3), 38);
    check_int(HERE, wait_of(&betweens, 0, 1), 0);
    check_int(HERE, wait_of(&betweens, 1, 3), 0);
    check_int(HERE, wait_of(&betweens, 1, 2), SITE_NONE);
    check_int(HERE, (intmax_t)betweens.count, 5);
    arena_free(arena);
}

/* 3 is named first among those that follow 0, and comes last: by 1 and 2 it is 30 + 30 + 4. */
static void a_short_cut(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct hand_work work;
    hand_work(&work);
    for (int i = 0; i < 4; i++)
        hand_add(&work, 0, DO_SAND, 30);
    hand_link(&work, 0, 3, LINK_END, 1);
    hand_link(&work, 0, 1, LINK_END, 0);
    hand_link(&work, 1, 2, LINK_END, 4);
    hand_link(&work, 2, 3, LINK_END, 0);
    const struct betweens betweens = between_make(arena, site_of(arena, &work));
    check_int(HERE, wait_of(&betweens, 0, 3), 64);
    check_int(HERE, wait_of(&betweens, 0, 2), 34);
    arena_free(arena);
}

/* 0 before 1 by 46 min, 1 before 2 by 45, 0 before 2 by 100: up to three quarters of an hour they may be done
 * together. */
static void ranks(void **state)
{
    (void)state;
    struct between items[] = {{0, 1, 46}, {0, 2, 100}, {1, 2, 45}};
    static const size_t first[] = {0, 2, 3, 3};
    static const int order[] = {0, 1, 2};
    const struct betweens betweens = {
        .items = items, .count = 3, .first = first, .order = order, .ordered = 3};
    int early[3] = {0}, late[3] = {0};
    between_ranks(&betweens, false, early);
    between_ranks(&betweens, true, late);
    static const int want_early[] = {0, 1, 1}, want_late[] = {1, 0, 0};
    for (int i = 0; i < 3; i++) {
        check_int(HERE, early[i], want_early[i]);
        check_int(HERE, late[i], want_late[i]);
    }
    items[2].wait = 46;
    int later[3] = {0};
    between_ranks(&betweens, true, later);
    check_int(HERE, later[0], 2);
    check_int(HERE, later[1], 1);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(two_people_change_over), CHECK_TEST(one_person_leaves_the_batch),
                     CHECK_TEST(what_does_not_part_them), CHECK_TEST(parted_for_good),
                     CHECK_TEST(dust_waits_for_the_film), CHECK_TEST(what_is_on_no_way),
                     CHECK_TEST(circles_and_turned_links), CHECK_TEST(the_longer_of_two_ways),
                     CHECK_TEST(a_short_cut), CHECK_TEST(ranks));
}
