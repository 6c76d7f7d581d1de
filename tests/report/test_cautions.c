/* Sentences of cautions, with their sources. */
#include "check.h"

#include "base/arena.h"
#include "finish/caution.h"
#include "report/sentences.h"

#include <string.h>

/* The rules of the regulations stand in the sources. */
static void cautions_have_sources(void **state)
{
    (void)state;
    for (size_t i = 0; i < CAUTION_COUNT; i++) {
        const struct caution *caution = caution_find(caution_names[i]);
        check_true(HERE, caution && strcmp(caution->name, caution_names[i]) == 0, caution_names[i]);
        check_true(HERE, caution->text[0] && caution->source[0], "says what and whence");
        check_true(HERE, !strstr(caution->text, "respirator") && !strstr(caution->text, "mask"),
                   "what is breathed through is said once, apart");
        check_true(HERE, caution->text[strlen(caution->text) - 1] != '.', "no full stop: a rider follows");
    }
    check_true(HERE, strstr(caution_find("oily-rags")->source, "1910.106(h)(8)(iii)") != NULL, "rags");
    check_true(HERE, strstr(caution_find("spray-mist")->source, "1910.107(b)(5)") != NULL, "booth");
    check_true(HERE, strstr(caution_find("isocyanate")->source, "13 June 1996") != NULL, "isocyanates");
    check_true(HERE, strstr(caution_find("oily-rags")->text, "at once") != NULL, "rags do not wait");
    check_true(HERE, strstr(caution_find("isocyanate")->text, "2020/1149") != NULL, "training");
    check_true(HERE, strstr(caution_find("seed-oil")->source, "D12-88") != NULL, "tung is a seed");
    check_true(HERE, caution_find("dragons") == NULL, "no dragons");
    check_text(HERE, caution_rider(), "the data sheet and local rules decide");
}

/* Sprayed isocyanate needs supplied air, and then a respirator is not mentioned, not even for the dust of sanding; brushed
 * it needs neither. */
static void sprayed_isocyanate_needs_supplied_air(void **state)
{
    (void)state;
    static const char *const isocyanate[] = {"isocyanate", "vapour"};
    struct finish finish = {.name = "Two-part", .cautions = isocyanate, .caution_count = 2};
    const struct finish *finishes = &finish;
    struct arena *arena = arena_make(0);
    struct plan_caution caution = {.kind = PLAN_CAUTION_BREATHING,
                                   .breathing = finish_breathing(&finish, true),
                                   .finishes = &finishes,
                                   .finish_count = 1};
    check_int(HERE, finish_breathing(&finish, false), BREATHING_FREE);
    check_int(HERE, caution.breathing, BREATHING_SUPPLIED);
    const char *words = plan_caution_words(arena, &caution, UNITS_METRIC);
    check_true(HERE, strstr(words, "Two-part") == words && strstr(words, "supplied air"), words);
    check_true(HERE, !strstr(words, "respirator") && !strstr(words, "mask"), words);
    caution = (struct plan_caution){.kind = PLAN_CAUTION_DUST, .supplied_air = true};
    check_true(HERE, !strstr(plan_caution_words(arena, &caution, UNITS_METRIC), "respirator"),
               "none for dust");
    caution.supplied_air = false;
    check_true(HERE, strstr(plan_caution_words(arena, &caution, UNITS_METRIC), "dust respirator") != NULL,
               "else one for dust");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(cautions_have_sources), CHECK_TEST(sprayed_isocyanate_needs_supplied_air));
}
