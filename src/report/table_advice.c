#include "report/table_advice.h"

#include "base/arena.h"
#include "report/sentences.h"

void table_advice(struct screen *screen, const struct plan *plan, size_t most)
{
    struct arena *arena = screen->out->arena;
    if (plan->advice.count > 0)
        screen_heading(screen, "What would help");
    for (size_t i = 0; i < plan->advice.count && i < most; i++) {
        const struct advice *advice = &plan->advice.items[i];
        screen_paragraph(screen, 2, 4,
                         arena_textf(arena, "%s: %s", advice_words(arena, advice),
                                     advice_effect(arena, advice, plan->job->zone, MOMENT_DAY_TIME)));
        for (size_t k = 0; most == SIZE_MAX && k < advice->change_count; k++)
            buf_addf(screen->out, "    in %s: %s\n", change_files(arena, &advice->changes[k]),
                     change_patch(arena, &advice->changes[k]));
    }
}
