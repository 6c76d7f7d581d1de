/* Every group of figures says where it comes from. */
#include "finish/finish_check.h"

#include <stdio.h>
#include <string.h>

static bool has_source(const struct finish *f, const char *group)
{
    for (size_t i = 0; i < f->source_count; i++)
        if (strcmp(f->sources[i].group, group) == 0)
            return f->sources[i].text[0] != '\0';
    return false;
}

static bool has_packs(const struct finish *f)
{
    size_t packs = f->kit_count;
    for (size_t i = 0; i < f->component_count; i++)
        packs += f->components[i].pack_count;
    return packs > 0;
}

static bool has_lives(const struct finish *f)
{
    for (size_t i = 0; i < f->component_count; i++)
        if (f->components[i].shelf_life_min != SPAN_NEVER || f->components[i].opened_life_min != SPAN_NEVER)
            return true;
    return false;
}

void finish_check_sources(struct checker *c)
{
    const struct finish *f = c->finish;
    const struct {
        const char *group;
        bool needed;
    } groups[] = {
        {"components", true},
        {"mix", f->component_count > 1},
        {"induction", f->induction_min > 0},
        {"pot-life", f->pot_life_min != SPAN_NEVER},
        {"coverage", true},
        {"solids", f->solids > 0},
        {"coats", true},
        {"times", true},
        {"later-times", memcmp(&f->first, &f->later, sizeof f->first) != 0},
        {"wipe-off", f->has_wipe_off},
        {"polish", f->has_polish},
        {"late-recoat", true},
        {"between", f->between_grit > 0},
        {"air", true},
        {"resists", true},
        {"voc", f->voc_g_per_l >= 0},
        {"shelf-life", has_lives(f)},
        {"packs", has_packs(f)},
    };
    char expected[160];
    for (size_t i = 0; i < sizeof groups / sizeof groups[0]; i++) {
        if (!groups[i].needed || has_source(f, groups[i].group))
            continue;
        snprintf(expected, sizeof expected, "a source for `%s`", groups[i].group);
        finish_tell(c, expected, "none", "/sources");
    }
}
