#include "finish/fit.h"

#include "base/text.h"

#include <string.h>

static bool has_word(struct fit_words words, const char *word)
{
    for (size_t i = 0; i < words.count; i++)
        if (text_same(words.items[i], word))
            return true;
    return false;
}

static bool any_word(struct fit_words wanted, struct fit_words there)
{
    for (size_t i = 0; i < there.count; i++)
        if (has_word(wanted, there.items[i]))
            return true;
    return false;
}

static bool is_of(struct fit_words words, const struct finish *finish)
{
    return has_word(words, finish->id) || has_word(words, finish->family) ||
           has_word(words, finish_drying_name(finish->dries_by));
}

static bool is_under(struct fit_words words, const struct finish *under)
{
    return under ? is_of(words, under) : has_word(words, "wood");
}

/* Whether a text holds a word, whatever the case of its letters. */
static bool holds(const char *text, const char *word)
{
    size_t length = strlen(word);
    for (; strlen(text) >= length; text++)
        if (text_same_n(text, length, word))
            return true;
    return false;
}

static bool any_held(struct fit_words wanted, struct fit_words texts)
{
    for (size_t i = 0; i < texts.count; i++)
        for (size_t k = 0; k < wanted.count; k++)
            if (holds(texts.items[i], wanted.items[k]))
                return true;
    return false;
}

static bool finishes_agree(const struct fit_rule *rule, const struct fit_case *of)
{
    return (rule->over.count == 0 || is_of(rule->over, of->over)) &&
           (rule->under.count == 0 || is_under(rule->under, of->under));
}

static bool steps_agree(const struct fit_rule *rule, const struct fit_case *of)
{
    return (rule->between.count == 0 || any_held(rule->between, of->between)) &&
           !any_held(rule->without, of->between) && (rule->grit_above == 0 || of->grit > rule->grit_above);
}

static bool times_agree(const struct fit_rule *rule, const struct fit_case *of)
{
    if (rule->has_until && (!of->under || of->waited_min >= of->under->later.after_min[rule->until]))
        return false;
    const int32_t *after_min = of->over->later.after_min;
    return !rule->has_before || after_min[of->deliver] < after_min[rule->before];
}

static bool has_caution(const struct finish *finish, const char *word)
{
    return has_word((struct fit_words){finish->cautions, finish->caution_count}, word);
}

static bool marks_agree(const struct fit_rule *rule, const struct fit_case *of)
{
    return (!rule->top || of->top) && (rule->resists < 0 || of->over->resists[rule->resists] < rule->least) &&
           (!rule->caution || has_caution(of->over, rule->caution));
}

static bool part_agrees(const struct fit_rule *rule, const struct fit_case *of)
{
    return (rule->wood.count == 0 || any_word(rule->wood, of->wood)) &&
           (rule->place.count == 0 || any_word(rule->place, of->place)) &&
           (rule->use.count == 0 || any_word(rule->use, of->use));
}

bool fit_rule_needs_part(const struct fit_rule *rule)
{
    return rule->wood.count + rule->place.count + rule->use.count > 0;
}

bool fit_may_speak(const struct fit_rule *rule, const struct fit_case *of)
{
    return finishes_agree(rule, of) && steps_agree(rule, of) && times_agree(rule, of) &&
           marks_agree(rule, of);
}

bool fit_speaks(const struct fit_rule *rule, const struct fit_case *of)
{
    return fit_may_speak(rule, of) && part_agrees(rule, of);
}
