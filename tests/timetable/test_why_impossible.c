/* What is said where there is no plan: the operation that no moment allows, then the rules that contradict
 * one another. */
#include "check.h"
#include "work_list.h"

#include "base/arena.h"
#include "timetable/hours.h"
#include "timetable/why.h"

enum { RULES = 8 };

/* What contradicts itself, as the solver tells it: numbers of rules, and -1 for what is none of them. */
static struct timetable asked(struct work_list *list, const struct rule *rules, const int *core, size_t count,
                              struct problem problem)
{
    struct timetable timetable = {.status = TIMETABLE_IMPOSSIBLE};
    struct rule own[RULES];
    int numbers[RULES];
    for (size_t i = 0; i < count; i++) {
        own[i] = rules[i];
        numbers[i] = core[i];
    }
    problem.arena = list->arena;
    problem.operations = &list->operations;
    problem.rules = own;
    struct net_result result = {.rules = numbers, .rule_count = count};
    why_impossible(&problem, &result, &timetable);
    return timetable;
}

static const struct problem NOTHING = {.never = -1};

struct rule_row {
    struct row row;
    enum rule_kind rule;
    enum reason_kind want;
};

static const struct rule_row rules[] = {
    {ROW("people"), RULE_PEOPLE, REASON_PEOPLE}, {ROW("spray places"), RULE_SPRAY, REASON_SPRAY},
    {ROW("the rack"), RULE_RACK, REASON_RACK},   {ROW("turns at a piece"), RULE_PIECE, REASON_TURNS},
    {ROW("dust"), RULE_DUST, REASON_DUST},
};

static void rules_are_told(void **state)
{
    const struct rule_row *r = *state;
    struct work_list list;
    work_begin(&list);
    work_add(&list, DO_SAND, 1, 3600);
    struct timetable timetable = asked(&list, &(struct rule){r->rule, 0}, (const int[]){0}, 1, NOTHING);
    check_int(&r->row, (intmax_t)timetable.why_count, 1);
    check_int(&r->row, timetable.why[0].kind, r->want);
    check_true(&r->row, !timetable.why[0].first && !timetable.why[0].link, "it is of no operation");
    work_end(&list);
}

/* Of two rules the second link, from the sanding to the coat; what is no rule is passed over. */
static void a_link_is_told_with_its_ends(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    int first = work_add(&list, DO_SAND, 1, 3600), sand = work_add(&list, DO_SAND, 1, 3600),
        coat = work_add(&list, DO_APPLY, 1, 3600);
    work_link(&list, first, sand, 0);
    const struct link *link = work_link(&list, sand, coat, 30);
    const struct rule both[] = {{RULE_PEOPLE, 0}, {RULE_LINK, 1}};
    struct timetable timetable = asked(&list, both, (const int[]){-1, 1}, 2, NOTHING);
    check_int(HERE, (intmax_t)timetable.why_count, 1);
    check_int(HERE, timetable.why[0].kind, REASON_LINK);
    check_true(HERE, timetable.why[0].link == link, "the link");
    check_true(HERE, timetable.why[0].first == &list.items[sand], "from the sanding");
    check_true(HERE, timetable.why[0].last == &list.items[coat], "to the coat");
    work_end(&list);
}

static void nothing_is_known(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    struct timetable timetable = asked(&list, NULL, NULL, 0, NOTHING);
    check_int(HERE, (intmax_t)timetable.why_count, 1);
    check_int(HERE, timetable.why[0].kind, REASON_CONTRADICTS);
    timetable = (struct timetable){.status = TIMETABLE_UNKNOWN};
    struct problem problem = {.arena = list.arena, .never = -1};
    why_impossible(&problem, &(struct net_result){0}, &timetable);
    check_int(HERE, (intmax_t)timetable.why_count, 1);
    check_int(HERE, timetable.why[0].kind, REASON_EFFORT);
    work_end(&list);
}

/* The longest stretch is of so many slots of five minutes; a unit of an hour. */
struct never_row {
    struct row row;
    enum doing doing;
    int32_t longest;
    enum reason_kind want;
};

static const struct never_row nevers[] = {
    {ROW("the shop never opens"), DO_SAND, 0, REASON_CLOSED},
    {ROW("nor for a coat"), DO_APPLY, 0, REASON_CLOSED},
    {ROW("sanding longer than any stretch"), DO_SAND, 11, REASON_LONG},
    {ROW("a coat longer than any stretch"), DO_APPLY, 11, REASON_LONG},
    {ROW("a coat that a stretch just holds"), DO_APPLY, 12, REASON_AIR},
    {ROW("sanding needs no air"), DO_SAND, 12, REASON_LONG},
};

static void never_is_told_first(void **state)
{
    const struct never_row *r = *state;
    struct work_list list;
    work_begin(&list);
    work_add(&list, DO_TASK, 1, 60);
    int item = work_add(&list, r->doing, 2, 3600);
    const struct hours hours = {.longest = r->longest};
    struct timetable timetable = asked(&list, &(struct rule){RULE_PEOPLE, 0}, (const int[]){0}, 1,
                                       (struct problem){.never = item, .hours = &hours});
    check_int(&r->row, (intmax_t)timetable.why_count, 2);
    check_int(&r->row, timetable.why[0].kind, r->want);
    check_true(&r->row, timetable.why[0].first == &list.items[item], "of the operation");
    check_int(&r->row, timetable.why[1].kind, REASON_PEOPLE);
    work_end(&list);
}

static void the_first_operation_is_one_too(void **state)
{
    (void)state;
    struct work_list list;
    work_begin(&list);
    work_add(&list, DO_SAND, 1, 3600);
    const struct hours hours = {.longest = 0};
    struct timetable timetable = asked(&list, NULL, NULL, 0, (struct problem){.never = 0, .hours = &hours});
    check_int(HERE, (intmax_t)timetable.why_count, 1);
    check_int(HERE, timetable.why[0].kind, REASON_CLOSED);
    work_end(&list);
}

/* A rack of 2 m2: a piece of just that lies on it, a little more does not; what is only sanded takes
 * nothing. */
static void a_piece_is_larger_than_the_rack(void **state)
{
    (void)state;
    for (int larger = 0; larger <= 1; larger++) {
        struct work_list list;
        work_begin(&list);
        list.panel.job.shop.rack_m2 = 2;
        list.pieces[0].rack_m2 = 9;
        work_add(&list, DO_SAND, 1, 3600);
        work_row(&list);
        list.pieces[1].rack_m2 = larger ? 2.5 : 2;
        int coat = work_add(&list, DO_APPLY, 1, 3600);
        list.panel.parts[0].piece = 1;
        list.panel.job.part_count = 1;
        struct timetable timetable = asked(&list, &(struct rule){RULE_RACK, 0}, (const int[]){0}, 1, NOTHING);
        check_int(HERE, timetable.why[0].kind, larger ? REASON_RACK_SMALL : REASON_RACK);
        check_true(HERE, timetable.why[0].first == (larger ? &list.items[coat] : NULL), "the coat");
        check_double(HERE, timetable.why[0].rack_m2, larger ? 2.5 : 0, 1e-12);
        work_end(&list);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(rules, rules_are_told), CHECK_TEST(a_link_is_told_with_its_ends),
                     CHECK_TEST(nothing_is_known), CHECK_ROWS(nevers, never_is_told_first),
                     CHECK_TEST(the_first_operation_is_one_too), CHECK_TEST(a_piece_is_larger_than_the_rack));
}
