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
    {"oily-rags",
     "rags wet with it heat up and can catch fire by themselves: dry them spread flat outdoors, or keep them "
     "under water "
     "in a closed metal can that is emptied daily",
     "29 CFR 1910.106(h)(8)(iii): closed metal can, emptied daily; the rest common practice"},
    {"vapour",
     "its vapour is harmful: air the room while it is laid and while it dries, and wear a mask for organic "
     "vapour",
     "29 CFR 1910.94(c)(6)(ii) for the air; the rest common practice"},
    {"flammable", "it burns: no flame, no spark, no heater and no smoking near it, and tins closed", memory},
    {"isocyanate",
     "its hardener holds isocyanates: who becomes sensitive stays so, and neither smell nor irritation warns "
     "in time; "
     "gloves, no skin contact, and never sprayed without supplied air",
     "OSHA interpretation, 13 June 1996: sensitisation is permanent, poor warning properties; the rest "
     "common practice"},
    {"formaldehyde",
     "it gives off formaldehyde while it cures: air the room for days, and keep people out of it", memory},
    {"acid", "its catalyst is an acid: gloves and goggles, no steel vessel, and rinse splashes at once",
     memory},
    {"lye", "it is caustic: gloves and goggles, water at hand, and no aluminium", memory},
    {"skin",
     "it irritates the skin or makes it sensitive: nitrile gloves, and wash with soap, never with solvent",
     memory},
    {"dust", "its sanding dust is harmful: extract it at the tool and wear a mask", memory},
    {"spray-mist",
     "sprayed, it fills the air with mist: spray in a booth with at least 100 ft/min (0.5 m/s) at its open "
     "face, and wear "
     "a mask for mist and vapour",
     "29 CFR 1910.107(b)(5): 100 ft/min; the rest common practice"},
    {"exotherm",
     "a large mix in one cup heats itself, may smoke and crack: mix small amounts, pour them into a shallow "
     "tray, and set "
     "a hot cup outdoors on stone",
     memory},
    {"food-cure", "it may touch food only when it is fully cured",
     "21 CFR 175.300(b)(3): films formed by listed drying oils and resins; the rest common practice"},
    {"nut-oil", "it is pressed from nuts: tell customers with allergies", memory},
    {"frost", "frost spoils it: store and ship it warm", memory},
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

static const char *cup_words(struct arena *arena, const struct plan_caution *caution)
{
    return arena_textf(arena,
                       "%s: the largest mix weighs %s; a pot life is that of about %d g in one "
                       "cup, and twice the mass halves it (common practice, from memory)",
                       caution->finishes[0]->name, mass_format(caution->mass_g, UNITS_METRIC).text,
                       MIX_CUP_G);
}

static const char *vapour_words(struct arena *arena, const struct plan_caution *caution)
{
    const struct operation *coat = caution->coat;
    const struct vapour *vapour = &caution->vapour;
    return arena_textf(arena,
                       "%s: one coat on %s frees %s of solvent (counted as %s), which takes %s m3 "
                       "of fresh air to keep safe "
                       "from fire, and more for the lungs (29 CFR 1910.94(c)(6)(ii))",
                       coat->of.step->finish->name, coat->job->pieces[coat->piece].name,
                       volume_format(vapour->solvent_l, UNITS_METRIC).text,
                       vapour->counted_as ? vapour->counted_as : "solvent",
                       number_round(vapour->air_m3, 0).text);
}

static void add_limit(struct buf *text, double voc, const char *whose, double limit, const char *kind)
{
    if (limit > 0)
        buf_addf(text, ", %s %s %s as %s", voc > limit ? "over" : "within", whose,
                 number_round(limit, 0).text, kind);
}

static void add_voc_of(struct buf *text, const struct finish *finish, double thin)
{
    struct voc_limit limit = finish_voc_limit(finish);
    double voc = finish_voc_thinned(finish, thin);
    const char *between = text->length ? "; " : "";
    if (voc < 0) {
        buf_addf(text, "%sof %s not known", between, finish->name);
        return;
    }
    buf_addf(text, "%s%s %s g/l%s", between, finish->name, number_round(voc, 0).text,
             thin > 0 ? " as thinned" : "");
    add_limit(text, voc, "the EU's", limit.eu_g_per_l, limit.eu_kind);
    add_limit(text, voc, "the US", limit.us_g_per_l, limit.us_kind);
}

static const char *voc_words(struct arena *arena, const struct plan_caution *caution)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < caution->finish_count; i++)
        add_voc_of(&text, caution->finishes[i], caution->thin[i]);
    return arena_textf(arena,
                       "VOC: all coats give off %s; %s (limits for paints and varnishes of buildings: EU "
                       "2004/42 annex II, phase II, and 40 CFR 59 subpart D, in g/l ready to use; a works "
                       "that coats furniture has others)",
                       mass_format(caution->mass_g, UNITS_METRIC).text, text.text);
}

const char *plan_caution_words(struct arena *arena, const struct plan_caution *caution)
{
    switch (caution->kind) {
    case PLAN_CAUTION_FINISH:
        return named_words(arena, caution);
    case PLAN_CAUTION_CUP:
        return cup_words(arena, caution);
    case PLAN_CAUTION_VAPOUR:
        return vapour_words(arena, caution);
    case PLAN_CAUTION_VOC:
        return voc_words(arena, caution);
    case PLAN_CAUTION_DUST:
        break;
    }
    return "sanding: wood dust harms the lungs and fine dust burns: extract it at the tool, wear a "
           "mask, keep flames away";
}
