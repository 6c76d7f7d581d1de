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

static bool is_letter(char c)
{
    return c != ' ' && c != '-' && c != '_' && c != '.';
}

/* Whether a text goes on with a word, but for its case, spaces and hyphens. */
static bool goes_on(const char *text, const char *word)
{
    for (;; text++, word++) {
        while (*text && !is_letter(*text))
            text++;
        while (*word && !is_letter(*word))
            word++;
        if (*word == '\0')
            return true;
        if (text_lower(*text) != text_lower(*word))
            return false;
    }
}

/* Whether a text holds a word in any spelling: "steel wool", "Steel-wool", "steelwool". */
static bool holds(const char *text, const char *word)
{
    for (; *text; text++)
        if (goes_on(text, word))
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
           !any_held(rule->without, of->between) && (rule->grit_above == 0 || of->grit > rule->grit_above) &&
           (rule->grit_below == 0 || (of->coarsest > 0 && of->coarsest < rule->grit_below)) &&
           (rule->grit_jump <= 0 || of->grit_jump > rule->grit_jump);
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

/* What the finish's own figures allow. */
static bool excess_agrees(const struct fit_rule *rule, const struct fit_case *of)
{
    const struct finish *over = of->over;
    return (!rule->thinned_beyond || (over->thin_most >= 0 && of->thin > over->thin_most * (1 + 1e-9))) &&
           (!rule->film_beyond || (over->dry_film_most_um > 0 && of->film_um > over->dry_film_most_um));
}

static bool contact_agrees(struct fit_words words, enum contact contact)
{
    return words.count == 0 || has_word(words, contact_names[contact]);
}

static bool marks_agree(const struct fit_rule *rule, const struct fit_case *of)
{
    return (!rule->top || of->top) && (rule->resists < 0 || of->over->resists[rule->resists] < rule->least) &&
           (!rule->caution || has_caution(of->over, rule->caution)) && excess_agrees(rule, of) &&
           contact_agrees(rule->food, of->over->food) && contact_agrees(rule->child, of->over->child);
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
