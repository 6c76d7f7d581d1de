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
        check_true(HERE, caution->text[strlen(caution->text) - 1] != '.', "no full stop: a rider follows");
    }
    check_true(HERE, strstr(caution_find("oily-rags")->source, "1910.106(h)(8)(iii)") != NULL, "rags");
    check_true(HERE, strstr(caution_find("spray-mist")->source, "1910.107(b)(5)") != NULL, "booth");
    check_true(HERE, strstr(caution_find("isocyanate")->source, "13 June 1996") != NULL, "isocyanates");
    check_true(HERE, strstr(caution_find("food-cure")->source, "175.300(b)(3)") != NULL, "food");
    check_true(HERE, caution_find("dragons") == NULL, "no dragons");
    check_text(HERE, caution_rider(), "the data sheet and local rules decide");
}

/* Sprayed isocyanate needs supplied air, and then a respirator is not mentioned. */
static void sprayed_isocyanate_needs_supplied_air(void **state)
{
    (void)state;
    struct finish finish = {.name = "Two-part"};
    const struct finish *finishes = &finish;
    struct plan_caution caution = {
        .kind = PLAN_CAUTION_FINISH, .name = "isocyanate", .finishes = &finishes, .finish_count = 1};
    struct arena *arena = arena_make(0);
    check_true(HERE, strstr(plan_caution_words(arena, &caution, UNITS_METRIC), "spray it only") == NULL,
               "by brush");
    caution.sprayed = true;
    const char *words = plan_caution_words(arena, &caution, UNITS_METRIC);
    check_true(HERE, strstr(words, "Two-part: ") == words && strstr(words, "only with supplied air"), words);
    check_true(HERE, !strstr(words, "respirator") && !strstr(words, "mask"), words);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(cautions_have_sources), CHECK_TEST(sprayed_isocyanate_needs_supplied_air));
}
