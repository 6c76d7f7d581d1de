/* Sundries counted by hand, from rules of the test's own; and the shipped rules read. */
#include "check.h"
#include "reader.h"
#include "sample.h"

#include "amount/sundry.h"
#include "source/finish_table.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static const struct sundry_rule rules[] = {
    {"disc", "pcs", 0.7, PER_WORKED_M2, EACH_GRIT, {[WORK_SAND] = true}, false, "test", 0},
    {"cloth",
     "pcs",
     0.5,
     PER_WIPED_M2,
     EACH_TOGETHER,
     {[TOOL_CLOTH] = true, [TOOL_BRUSH] = true},
     false,
     "test",
     0},
    {"brush", "pcs", 1, PER_FINISH, EACH_FINISH, {[TOOL_BRUSH] = true}, false, "test", 0},
    {"thinner",
     "ml",
     1000,
     PER_THINNER,
     EACH_SOLVENT,
     {[TOOL_BRUSH] = true, [TOOL_HVLP] = true},
     false,
     "test",
     0},
    {"cleaning", "ml", 100, PER_COAT, EACH_SOLVENT, {[TOOL_BRUSH] = true}, false, "test", 0},
    {"cup", "pcs", 1, PER_MIX, EACH_TOGETHER, {[TOOL_BRUSH] = true, [TOOL_HVLP] = true}, true, "test", 0},
    {"nothing", "pcs", 0, PER_COAT, EACH_TOGETHER, {[TOOL_BRUSH] = true}, false, "test", 0},
    {"mask", "pcs", 1, PER_COAT, EACH_TOGETHER, {[WORK_SAND] = true, [TOOL_HVLP] = true}, false, "test", 0},
    {"wash",
     "ml",
     10,
     PER_WORKED_M2,
     EACH_SOLVENT,
     {[WORK_SAND] = true, [TOOL_BRUSH] = true},
     false,
     "test",
     0},
};

struct line {
    const char *name, *detail;
    int grit;
    double amount;
    int whole;
};

/* Sanding 1 m2 at 240, and 2 + 1.5 m2 at 180 after it, which the list names first; varnish by brush twice, thinned with 0.1 l once; oil
 * wiped by cloth over 3 m2; a two-part finish sprayed in 2 and 1 mixes; a water-borne one by brush. Sanding lays no coat and needs no
 * solvent: a mask for each of two sprayed coats, 10 ml to wash after each of 2 x 3 m2 of varnish. */
static void counted_by_hand(void **state)
{
    (void)state;
    struct finish varnish = sample_varnish(), oil = sample_varnish(), two = sample_two_part(),
                  water = sample_varnish();
    oil.name = "Oil";
    water.solvent = "water";
    water.name = "Water-borne";
    const struct hand_use uses[] = {
        {.work = WORK_SAND, .grit = 240, .area_m2 = 1},
        {.work = WORK_SAND, .grit = 180, .area_m2 = 2},
        {.work = WORK_SAND, .grit = 180, .area_m2 = 1.5},
        {.work = TOOL_BRUSH, .finish = &varnish, .area_m2 = 3, .thinner_l = 0.1, .mixes = 1},
        {.work = TOOL_BRUSH, .finish = &varnish, .area_m2 = 3},
        {.work = TOOL_CLOTH, .finish = &oil, .area_m2 = 3, .wiped = true},
        {.work = TOOL_HVLP, .finish = &two, .area_m2 = 3, .mixes = 2},
        {.work = TOOL_HVLP, .finish = &two, .area_m2 = 3, .mixes = 1},
        {.work = TOOL_BRUSH, .finish = &water, .area_m2 = 1, .thinner_l = 0.05},
    };
    static const struct line want[] = {
        {"disc", NULL, 180, 2.45, 3},
        {"disc", NULL, 240, 0.7, 1},
        {"cloth", NULL, 0, 1.5, 2},
        {"brush", "Sample varnish", 0, 1, 1},
        {"brush", "Water-borne", 0, 1, 1},
        {"thinner", "mineral spirits", 0, 100, 100},
        {"cleaning", "mineral spirits", 0, 200, 200},
        {"cup", NULL, 0, 3, 3},
        {"mask", NULL, 0, 2, 2},
        {"wash", "mineral spirits", 0, 60, 60},
    };
    struct arena *arena = arena_make(0);
    struct sundries *got = sundries_make(arena, (struct sundry_rules){rules, sizeof rules / sizeof rules[0]},
                                         uses, sizeof uses / sizeof uses[0]);
    check_int(HERE, (intmax_t)got->count, sizeof want / sizeof want[0]);
    for (size_t i = 0; i < got->count; i++) {
        check_text(HERE, got->items[i].rule->name, want[i].name);
        check_text(HERE, got->items[i].detail ? got->items[i].detail : "-",
                   want[i].detail ? want[i].detail : "-");
        check_int(HERE, got->items[i].grit, want[i].grit);
        check_double(HERE, got->items[i].amount, want[i].amount, 1e-12);
        check_int(HERE, got->items[i].whole, want[i].whole);
    }
    arena_free(arena);
}

static void shipped_rules_are_sound(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct finish_folders folders = {.shipped = "finishes"};
    struct sundry_rules shipped = sundry_rules_load(&reader->reading, &folders);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_true(HERE, shipped.count >= 12, "abrasives, cloths, brushes, thinner, gloves, filters, cups");
    for (size_t i = 0; i < shipped.count; i++)
        check_true(HERE, shipped.items[i].amount > 0 && shipped.items[i].source[0], "an amount and a source");
    check_text(HERE, shipped.items[0].name, "abrasive disc 150 mm");
    check_true(HERE, shipped.items[0].by[WORK_SAND] && shipped.items[0].each == EACH_GRIT, "discs by grit");
    reader_free(reader);
}

/* Writes rules/sundries.json below the test's folder, which is then the shop's own. */
static struct finish_folders own_rules(struct reader *reader, const char *text)
{
    const char *folder = arena_textf(reader->arena, "%s/shop", check_folder());
    mkdir(folder, 0700);
    mkdir(arena_textf(reader->arena, "%s/rules", folder), 0700);
    reader_path(reader, "shop/rules/sundries.json", text);
    return (struct finish_folders){.shipped = "finishes", .own = folder};
}

static void the_shop_changes_a_line(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct finish_folders folders = own_rules(
        reader,
        "{\"format\": \"coatwright-sundries/1\", \"sundries\": [{\"sundry\": \"abrasive disc 150 mm\","
        " \"unit\": \"pcs\", \"amount\": 0, \"per\": \"m2\", \"by\": [\"sand\"], \"source\": \"ours\"}]}");
    struct sundry_rules got = sundry_rules_load(&reader->reading, &folders);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_double(HERE, got.items[0].amount, 0, 0);
    check_text(HERE, got.items[0].source, "ours");
    reader_free(reader);
}

static void mistakes_have_their_place(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *text =
        "{\"format\": \"coatwright-sundries/1\", \"sundries\": [{\"sundry\": \"disc\", \"unit\": \"pcs\",\n"
        " \"amount\": 1, \"per\": \"m2\", \"by\": [\"snad\"], \"source\": \"ours\"}]}\n";
    struct finish_folders folders = own_rules(reader, text);
    sundry_rules_load(&reader->reading, &folders);
    check_int(HERE, (intmax_t)reader->errors.count, 1);
    check_text(HERE, reader->errors.items[0].pointer, "/sundries/0/by/0");
    check_int(HERE, reader->errors.items[0].line, 2);
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(counted_by_hand), CHECK_TEST(shipped_rules_are_sound),
                     CHECK_TEST(the_shop_changes_a_line), CHECK_TEST(mistakes_have_their_place));
}
