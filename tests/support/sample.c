#include "sample.h"

static const struct component varnish[] = {
    {.name = "varnish",
     .parts = 1,
     .density_kg_per_l = 0.86,
     .shelf_life_min = 525600,
     .opened_life_min = 259200},
};

static const struct component two_part[] = {
    {.name = "base",
     .parts = 4,
     .density_kg_per_l = 1.20,
     .shelf_life_min = 525600,
     .opened_life_min = SPAN_NEVER},
    {.name = "hardener",
     .parts = 1,
     .density_kg_per_l = 0.95,
     .shelf_life_min = 525600,
     .opened_life_min = 129600},
};

static const struct finish_times varnish_times = {
    .after_min =
        {
            [STATE_DUST_FREE] = 120,
            [STATE_HANDLE] = 360,
            [STATE_RECOAT] = 360,
            [STATE_SAND] = 840,
            [STATE_WRAP] = 10080,
            [STATE_LIGHT_USE] = 4320,
            [STATE_CURED] = 30240,
        },
    .recoat_last_min = 4320,
};

struct finish sample_varnish(void)
{
    return (struct finish){
        .id = "sample-varnish",
        .name = "Sample varnish",
        .short_name = "Sample varnish",
        .family = "oil-varnish",
        .file = "sample-varnish.json",
        .dries_by = DRIES_BY_OXIDATION,
        .components = varnish,
        .component_count = 1,
        .pot_life_min = SPAN_NEVER,
        .wipe_off_from = 1,
        .thin_most = -1,
        .food = CONTACT_ASK,
        .child = CONTACT_ASK,
        .first_m2_per_l = 12,
        .later_m2_per_l = 16,
        .tolerance = 0.2,
        .solids = 0.3,
        .by = {[TOOL_CLOTH] = true, [TOOL_BRUSH] = true},
        .usual_tool = TOOL_CLOTH,
        .coats_usual = 3,
        .coats_most = 6,
        .coats_a_day = 2,
        .first = varnish_times,
        .later = varnish_times,
        .at_c = 23,
        .at_humidity = 0.5,
        .between_grit = 320,
        .air = {10, 30, 0, 0.8},
        .resists = {2, 2, 2, 2, 0},
        .voc_g_per_l = 450,
        .solvent = "mineral spirits",
    };
}

struct finish sample_two_part(void)
{
    struct finish finish = sample_varnish();
    finish.id = "sample-two-part";
    finish.name = "Sample two-part varnish";
    finish.short_name = "Sample two-part";
    finish.family = "catalysed";
    finish.file = "sample-two-part.json";
    finish.dries_by = DRIES_BY_REACTION;
    finish.components = two_part;
    finish.component_count = 2;
    finish.ratio_tolerance = 0.05;
    finish.pot_life_min = 240;
    finish.at_c = 21;
    finish.by[TOOL_CLOTH] = false;
    finish.by[TOOL_HVLP] = true;
    finish.usual_tool = TOOL_HVLP;
    return finish;
}

void sample_recipe(struct sample_recipe *r, size_t count, const double *parts, const double *densities)
{
    r->finish = sample_two_part();
    for (size_t i = 0; i < count; i++)
        r->components[i] = (struct component){.name = i == 0   ? "base"
                                                      : i == 1 ? "hardener"
                                                               : "filler",
                                              .parts = parts[i],
                                              .density_kg_per_l = densities[i]};
    r->finish.components = r->components;
    r->finish.component_count = count;
}
