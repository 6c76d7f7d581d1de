/* Rules of what fits from files: the shop's own ahead of the shipped ones, mistakes at their place. */
#include "check.h"
#include "reader.h"

#include "source/finish_table.h"
#include "job/job.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* Writes rules/fit.json below the test's folder, which is then the shop's own. */
static struct finish_folders own_rules(struct reader *reader, const char *text)
{
    const char *folder = arena_textf(reader->arena, "%s/own", check_folder());
    mkdir(folder, 0700);
    mkdir(arena_textf(reader->arena, "%s/rules", folder), 0700);
    reader_path(reader, "own/rules/fit.json", text);
    return (struct finish_folders){.shipped = "finishes", .own = folder};
}

static const struct fit_rule *rule_named(struct fit_rules rules, const char *name)
{
    for (size_t i = 0; i < rules.count; i++)
        if (strcmp(rules.items[i].name, name) == 0)
            return &rules.items[i];
    return NULL;
}

/* Every finish and family that a shipped rule names is in the shipped table. */
static void shipped_rules_are_sound(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct finish_folders folders = {.shipped = "finishes"};
    struct finish_table *table = finish_table_load(&reader->reading, &folders);
    struct fit_rules rules = fit_rules_load(&reader->reading, &folders, table);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_true(HERE, rules.count >= 30, "thirty rules");
    for (size_t i = 0; i < rules.count; i++)
        check_true(HERE, rules.items[i].because && rules.items[i].remedy && rules.items[i].source,
                   "reason, remedy and source");
    reader_free(reader);
}

static void own_rules_go_ahead(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct finish_folders folders = {.shipped = "finishes"};
    size_t shipped = fit_rules_load(&reader->reading, &folders, NULL).count;
    folders = own_rules(reader, "{\"format\": \"coatwright-rules/1\", \"rules\": [\n"
                                " {\"rule\": \"oily-wood\", \"over\": [\"oil\"], \"wood\": [\"oily\"],\n"
                                "  \"because\": \"ours\", \"remedy\": \"ask\", \"source\": \"invented\"},\n"
                                " {\"rule\": \"our-own\", \"top\": true, \"resists-below\": {\"heat\": 3},\n"
                                "  \"until\": \"sand\", \"grit-above\": 240, \"caution\": \"lye\",\n"
                                "  \"because\": \"b\", \"remedy\": \"r\", \"source\": \"s\"}]}\n");
    struct fit_rules rules = fit_rules_load(&reader->reading, &folders, NULL);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_int(HERE, (intmax_t)rules.count, (intmax_t)shipped + 1);
    check_text(HERE, rule_named(rules, "oily-wood")->because, "ours");
    const struct fit_rule *own = rule_named(rules, "our-own");
    check_true(HERE, own->top && own->has_until && own->until == STATE_SAND, "top, until");
    check_int(HERE, own->resists, RESISTS_HEAT);
    check_int(HERE, own->least, 3);
    check_int(HERE, own->grit_above, 240);
    check_text(HERE, own->caution, "lye");
    reader_free(reader);
}

static void a_rule_is_off(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct finish_folders folders = {.shipped = "finishes"};
    size_t shipped = fit_rules_load(&reader->reading, &folders, NULL).count;
    folders =
        own_rules(reader, "{\"format\": \"coatwright-rules/1\", \"rules\": [{\"rule\": \"grain-not-raised\", "
                          "\"off\": true}]}\n");
    struct fit_rules rules = fit_rules_load(&reader->reading, &folders, NULL);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_int(HERE, (intmax_t)rules.count, (intmax_t)shipped - 1);
    check_true(HERE, !rule_named(rules, "grain-not-raised") && rule_named(rules, "oily-wood"),
               "that one alone");
    folders =
        own_rules(reader, "{\"format\": \"coatwright-rules/1\", \"rules\": [{\"rule\": \"grain-not-razed\", "
                          "\"off\": true}]}\n");
    (void)fit_rules_load(&reader->reading, &folders, NULL);
    check_true(HERE,
               strstr(reader_lines(reader, &reader->errors),
                      "/rules/0/rule: expected a rule of the table, found \"grain-not-razed\" (did you mean "
                      "\"grain-not-raised\"?)") != NULL,
               "no such rule");
    reader_free(reader);
}

static void no_file_no_rules(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct finish_folders folders = {.own = check_folder()};
    check_int(HERE, (intmax_t)fit_rules_load(&reader->reading, &folders, NULL).count, 0);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    reader_free(reader);
}

struct wrong_row {
    struct row row;
    const char *member, *at, *want;
};

static const struct wrong_row wrong[] = {
    {ROW("unknown key"), "\"ovre\": [\"oil\"]", "\"ovre\"",
     "/rules/0/ovre: expected a key of a rule, found \"ovre\" (did you mean \"over\"?)"},
    {ROW("unknown finish"), "\"over\": [\"hardwax-oyl\"]", "\"hardwax-oyl\"",
     "/rules/0/over/0: expected a finish, a family, or what it dries by, found \"hardwax-oyl\" (did you mean "
     "\"hardwax-oil\"?)"},
    {ROW("unknown trait"), "\"wood\": [\"greasy\"]", "\"greasy\"",
     "/rules/0/wood/0: expected a trait or grain of wood, found \"greasy\""},
    {ROW("unknown state"), "\"until\": \"dry\"", "\"dry\"",
     "/rules/0/until: expected one of \"dust-free\", \"handle\", \"recoat\", \"sand\", \"wrap\", "
     "\"light-use\", \"cured\", found \"dry\""},
    {ROW("two marks"), "\"resists-below\": {\"water\": 2, \"heat\": 2}", "{\"water\"",
     "/rules/0/resists-below: expected one mark such as {\"water\": 2}, found an object"},
    {ROW("unknown caution"), "\"caution\": \"dragons\"", "\"dragons\"",
     "/rules/0/caution: expected a caution of the finish table, found \"dragons\""},
    {ROW("half off"), "\"off\": true", "{\"rule\"",
     "/rules/0: expected nothing but its name of a rule that is off, found an object"},
    {ROW("top that is no truth"), "\"top\": false", "false",
     "/rules/0/top: expected true, or no such key, found false"},
};

static void mistake_is(void **state)
{
    const struct wrong_row *r = *state;
    struct reader *reader = reader_make();
    const char *text = arena_textf(reader->arena,
                                   "{\"format\": \"coatwright-rules/1\", \"rules\": [{\"rule\": \"r\", %s,\n"
                                   "\"because\": \"b\", \"remedy\": \"r\", \"source\": \"s\"}]}\n",
                                   r->member);
    struct finish_folders folders = own_rules(reader, text), table_only = {.shipped = "finishes"};
    struct finish_table *table = finish_table_load(&reader->reading, &table_only);
    fit_rules_load(&reader->reading, &folders, table);
    check_int(&r->row, (intmax_t)reader->errors.count, 1);
    reader_check_only(reader, &r->row, text, r->at, r->want);
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(shipped_rules_are_sound), CHECK_TEST(own_rules_go_ahead),
                     CHECK_TEST(a_rule_is_off), CHECK_TEST(no_file_no_rules), CHECK_ROWS(wrong, mistake_is));
}
