/* What a finish can do to the hand, the lungs and the shop. */
#include "report/sentences.h"

#include "amount/mix.h"
#include "base/arena.h"
#include "base/buf.h"
#include "base/measure.h"
#include "base/number.h"
#include "finish/caution.h"
#include "plan/caution.h"

#include <string.h>

static const char memory[] = "common practice, from memory";

static const struct caution table[CAUTION_COUNT] = {
    {"oily-rags", "wet rags can catch fire",
     "rags wet with it heat up and can catch fire by themselves: spread them flat outdoors to dry, or keep "
     "them "
     "under water in a closed metal can that is emptied daily",
     "29 CFR 1910.106(h)(8)(iii): closed metal can, emptied daily; the rest common practice"},
    {"vapour", "harmful vapour",
     "its vapour is harmful: air the room while it is applied and while it dries, and wear a respirator with "
     "organic-vapour cartridge",
     "29 CFR 1910.94(c)(6)(ii) for the air; the rest common practice"},
    {"flammable", "flammable",
     "it burns: no flame, spark, heater or smoking near it, and keep the cans closed", memory},
    {"isocyanate", "isocyanates: gloves, never spray without supplied air",
     "its hardener contains isocyanates: a person who becomes sensitive to them stays so, and neither smell "
     "nor "
     "irritation warns in time; wear gloves, keep it off the skin, and never spray it without supplied air",
     "OSHA interpretation, 13 June 1996: sensitisation is permanent, poor warning properties; the rest "
     "common practice"},
    {"formaldehyde", "formaldehyde",
     "it gives off formaldehyde while it cures: air the room for days, and keep people out of it", memory},
    {"acid", "acid catalyst",
     "its catalyst is an acid: wear gloves and goggles, use no steel vessel, and rinse splashes at once",
     memory},
    {"lye", "caustic", "it is caustic: wear gloves and goggles, have water ready, and use no aluminium",
     memory},
    {"skin", "irritates the skin",
     "it irritates the skin or makes it sensitive: wear nitrile gloves, and wash with soap, never with "
     "solvent",
     memory},
    {"dust", "harmful sanding dust",
     "its sanding dust is harmful: extract it at the tool and wear a dust respirator", memory},
    {"spray-mist", "spray mist",
     "spraying fills the air with mist: spray in a booth with at least 100 ft/min (0.5 m/s) at its open "
     "face, and wear a respirator with particle filter and organic-vapour cartridge",
     "29 CFR 1910.107(b)(5): 100 ft/min; the rest common practice"},
    {"exotherm", "large mixes get hot",
     "a large mix in one cup heats itself and may smoke and crack: mix small amounts, pour them into a "
     "shallow "
     "tray, and put a hot cup outdoors on stone",
     memory},
    {"food-cure", "food only when fully cured", "food may touch it only when it is fully cured",
     "21 CFR 175.300(b)(3): films formed by listed drying oils and resins; the rest common practice"},
    {"nut-oil", "nut oil", "it is pressed from nuts: warn customers with allergies", memory},
    {"frost", "spoiled by frost", "frost spoils it: store and ship it warm", memory},
};

/* A respirator with a cartridge does not serve here: it is not mentioned. */
static const char sprayed_isocyanate[] =
    "its hardener contains isocyanates: a person who becomes sensitive to them stays so, and neither smell "
    "nor "
    "irritation warns in time; spray it only with supplied air, gloves and no bare skin, in a booth with at "
    "least "
    "100 ft/min (0.5 m/s) at its open face, and with nobody else in the room until it is aired";

const struct caution *caution_find(const char *name)
{
    for (size_t i = 0; i < CAUTION_COUNT; i++)
        if (strcmp(table[i].name, name) == 0)
            return &table[i];
    return NULL;
}

const char *caution_rider(void)
{
    return "the data sheet and local rules decide";
}

static const char *named_words(struct arena *arena, const struct plan_caution *caution)
{
    const char *names = caution->finishes[0]->name;
    for (size_t i = 1; i < caution->finish_count; i++)
        names = arena_textf(arena, "%s, %s", names, caution->finishes[i]->name);
    const char *text = caution_find(caution->name)->text;
    if (caution->sprayed && strcmp(caution->name, "isocyanate") == 0)
        text = sprayed_isocyanate;
    return arena_textf(arena, "%s: %s", names, text);
}

const char *plan_caution_brief(struct arena *arena, const struct plan_caution *caution)
{
    if (caution->kind == PLAN_CAUTION_DUST)
        return "wood dust (extract it)";
    if (caution->kind != PLAN_CAUTION_FINISH)
        return NULL;
    const char *names = caution->finishes[0]->short_name, *brief = caution_find(caution->name)->brief;
    for (size_t i = 1; i < caution->finish_count; i++)
        names = arena_textf(arena, "%s, %s", names, caution->finishes[i]->short_name);
    if (caution->sprayed && strcmp(caution->name, "isocyanate") == 0)
        brief = "isocyanates sprayed: supplied air";
    return arena_textf(arena, "%s (%s)", brief, names);
}

static const char *cup_words(struct arena *arena, const struct plan_caution *caution, enum unit_system units)
{
    return arena_textf(arena,
                       "%s: the largest mix weighs %s; a pot life is that of about %d g in one "
                       "cup, and twice the mass halves it (common practice, from memory)",
                       caution->finishes[0]->name, mass_format(caution->mass_g, units).text, MIX_CUP_G);
}

static const char *air_volume(struct arena *arena, double air_m3, enum unit_system units)
{
    return units == UNITS_US
               ? arena_textf(arena, "%s ft³", number_round(air_m3 / (0.3048 * 0.3048 * 0.3048), 0).text)
               : arena_textf(arena, "%s m³", number_round(air_m3, 0).text);
}

static const char *vapour_words(struct arena *arena, const struct plan_caution *caution,
                                enum unit_system units)
{
    const struct operation *coat = caution->coat;
    const struct vapour *vapour = &caution->vapour;
    return arena_textf(arena,
                       "%s: one coat on %s gives off %s of solvent (counted as %s), which needs %s "
                       "of fresh air to keep it from burning, and more for the lungs (29 CFR "
                       "1910.94(c)(6)(ii))",
                       coat->of.step->finish->name, coat->job->pieces[coat->piece].name,
                       volume_format(vapour->solvent_l, units).text,
                       vapour->counted_as ? vapour->counted_as : "solvent",
                       air_volume(arena, vapour->air_m3, units));
}

static void add_limit(struct buf *text, double voc, double limit, const char *kind)
{
    if (limit > 0)
        buf_addf(text, ", %s the limit of %s for a %s", voc > limit ? "over" : "within",
                 number_round(limit, 0).text, kind);
}

/* Against the limit of the country whose units are read. */
static void add_voc_of(struct buf *text, const struct finish *finish, double thin, enum unit_system units)
{
    struct voc_limit limit = finish_voc_limit(finish);
    double voc = finish_voc_thinned(finish, thin);
    const char *between = text->length ? "; " : "";
    if (voc < 0) {
        buf_addf(text, "%sof %s not known", between, finish->name);
        return;
    }
    buf_addf(text, "%s%s %s g/L%s", between, finish->name, number_round(voc, 0).text,
             thin > 0 ? " as thinned" : "");
    if (units == UNITS_US)
        add_limit(text, voc, limit.us_g_per_l, limit.us_kind);
    else
        add_limit(text, voc, limit.eu_g_per_l, limit.eu_kind);
}

static const char *voc_words(struct arena *arena, const struct plan_caution *caution, enum unit_system units)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < caution->finish_count; i++)
        add_voc_of(&text, caution->finishes[i], caution->thin[i], units);
    return arena_textf(
        arena,
        "VOC: all coats give off %s; %s (limits for paints and varnishes of buildings, in g/L ready "
        "to use: %s; a works that coats furniture has others)",
        mass_format(caution->mass_g, units).text, text.text,
        units == UNITS_US ? "40 CFR 59 subpart D" : "EU 2004/42 annex II, phase II");
}

const char *plan_caution_words(struct arena *arena, const struct plan_caution *caution,
                               enum unit_system units)
{
    switch (caution->kind) {
    case PLAN_CAUTION_FINISH:
        return named_words(arena, caution);
    case PLAN_CAUTION_CUP:
        return cup_words(arena, caution, units);
    case PLAN_CAUTION_VAPOUR:
        return vapour_words(arena, caution, units);
    case PLAN_CAUTION_VOC:
        return voc_words(arena, caution, units);
    case PLAN_CAUTION_DUST:
        break;
    }
    return "sanding: wood dust harms the lungs and fine dust burns: extract it at the tool, wear a dust "
           "respirator, "
           "keep flames away";
}
