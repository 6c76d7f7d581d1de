#include "plan/advice.h"

#include "base/arena.h"
#include "base/measure.h"

/* "1 d 4 h sooner, in time"; where nothing was possible before there is no sooner. */
static const char *gain_words(struct arena *arena, const struct advice *advice)
{
    const char *gain = "";
    if (advice->gain_min > 0)
        gain = arena_textf(arena, ", %s sooner%s", span_format(advice->gain_min).text,
                           advice->at_latest ? " or more" : "");
    if (advice->late_min == 0)
        return arena_textf(arena, "%s, in time", gain);
    return advice->gain_min > 0 ? gain : arena_textf(arena, ", %s late", span_format(advice->late_min).text);
}

const char *advice_effect(struct arena *arena, const struct advice *advice, const struct zone *zone,
                          enum moment_style style)
{
    return arena_textf(arena, "ready %s%s%s", moment_format(zone, advice->ready_min, style).text,
                       advice->at_latest ? " at the latest" : "", gain_words(arena, advice));
}

const char *advice_sentence(struct arena *arena, const struct advice *advice, const struct zone *zone)
{
    const char *sentence =
        arena_textf(arena, "%s: %s", advice->words, advice_effect(arena, advice, zone, MOMENT_PLAIN));
    for (size_t i = 0; i < advice->change_count; i++)
        sentence = arena_textf(arena, "%s; in %s: `%s`", sentence, advice->changes[i].file,
                               advice->changes[i].patch);
    return sentence;
}
