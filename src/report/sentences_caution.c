/* What a finish can do to the hand, the lungs and the shop. */
#include "report/sentences.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/measure.h"
#include "base/number.h"
#include "finish/caution.h"
#include "plan/caution.h"

#include <math.h>
#include <string.h>

static const char memory[] = "common practice, from memory";

/* No text names a respirator: which one belongs to an exposure is said once, by breathing_words. */
static const struct caution table[CAUTION_COUNT] = {
    {"oily-rags", "wet rags can catch fire within hours",
     "rags wet with it heat up by themselves and can burn within hours: spread them out to dry outdoors at "
     "once, or put "
     "them at once under water in a closed metal can that is emptied daily",
     "29 CFR 1910.106(h)(8)(iii): closed metal can, emptied daily; smoke after 4.5 h and fire before 6 h in "
     "a county fire "
     "service's demonstration, 2016, as reported"},
    {"vapour", "harmful vapour", "its vapour is harmful: air the room while it is applied and while it dries",
     "29 CFR 1910.94(c)(6)(ii) for the air; the rest common practice"},
    {"flammable", "flammable",
     "it burns, and so does its vapour: no flame, spark, heater or smoking near it, and keep the cans closed",
     "GHS category 3 (from memory): flammable is what flashes at 60 °C or below"},
    {"isocyanate", "isocyanates: gloves, fresh air, training",
     "it contains isocyanates: a person who becomes sensitive to them stays so, and neither smell nor "
     "irritation warns in "
     "time; wear gloves, keep it off the skin, let fresh air through the room, and for professional use be "
     "trained before "
     "(Regulation (EU) 2020/1149)",
     "OSHA interpretation, 13 June 1996: sensitisation is permanent, poor warning properties; Regulation "
     "(EU) 2020/1149: "
     "training from 0.1 % on"},
    {"formaldehyde", "formaldehyde",
     "it gives off formaldehyde while it cures: air the room for days, and keep people out of it", memory},
    {"acid", "acid catalyst",
     "its catalyst is an acid: wear gloves and goggles, use no steel vessel, and rinse splashes at once",
     memory},
    {"lye", "caustic", "it is caustic: wear gloves and goggles, have water ready, and use no aluminium",
     memory},
    {"oxidiser", "its peroxide feeds fire",
     "its peroxide feeds fire and foams with the lye: never keep the two mixed or in a closed vessel, keep "
     "it off rags and "
     "sawdust, rinse the wood and neutralise it before a finish",
     memory},
    {"skin", "irritates the skin",
     "it irritates the skin or makes it sensitive: wear nitrile gloves, and wash with soap, never with "
     "solvent",
     memory},
    {"dust", "harmful dust", "its dust is harmful, as powder or when it is sanded: extract it at the tool",
     memory},
    {"spray-mist", "spray mist",
     "spraying fills the air with mist: spray in a booth with at least 100 ft/min (0.5 m/s) at its open face",
     "29 CFR 1910.107(b)(5): 100 ft/min"},
    {"exotherm", "large mixes get hot",
     "a large mix in one cup heats itself and may smoke and crack: mix small amounts, spread them at once in "
     "a shallow "
     "tray, and put a hot cup outdoors on stone",
     memory},
    {"seed-oil", "oil of seeds sold as nuts",
     "it is pressed from seeds that are sold as nuts: warn customers with allergies",
     "ASTM D12-88, Raw tung oil, 1988: pressed from the seeds of the tung tree; the rest common practice"},
    {"frost", "spoiled by frost",
     "frost spoils it in the can, and its film while it dries: keep and ship it warm", memory},
};

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

const char *breathing_words(enum breathing breathing)
{
    static const char *const words[BREATHING_COUNT] = {
        [BREATHING_VAPOUR] =
            "a respirator with organic-vapour cartridge, unless the air is changed fast enough",
        [BREATHING_VAPOUR_AND_MIST] =
            "a respirator with organic-vapour cartridge and particle filter before it",
        [BREATHING_SUPPLIED] = "supplied air: nothing that filters the air of the room is enough",
    };
    return words[breathing];
}

static const char *names_of(struct arena *arena, const struct finish *const *finishes, size_t count)
{
    const char *names = finishes[0]->name;
    for (size_t i = 1; i < count; i++)
        names = arena_textf(arena, "%s, %s", names, finishes[i]->name);
    return names;
}

/* The speed of air in a booth, which the table gives in both units, in those of the screen. */
static const char *in_units(struct arena *arena, const char *text, enum unit_system units)
{
    static const char both[] = "100 ft/min (0.5 m/s)";
    const char *at = strstr(text, both);
    return at ? arena_textf(arena, "%.*s%s%s", (int)(at - text), text,
                            units == UNITS_US ? "100 ft/min" : "0.5 m/s", at + sizeof both - 1)
              : text;
}

static const char *air_volume(struct arena *arena, double air_m3, enum unit_system units)
{
    static const double m3_per_ft3 = 0.3048 * 0.3048 * 0.3048;
    double volume = fmax(ceil(units == UNITS_US ? air_m3 / m3_per_ft3 : air_m3), 1);
    return arena_textf(arena, units == UNITS_US ? "%s ft³" : "%s m³", number_round(volume, 0).text);
}

const char *plan_caution_brief(struct arena *arena, const struct plan_caution *caution)
{
    static const char *const breathed[BREATHING_COUNT] = {
        [BREATHING_VAPOUR] = "respirator with organic-vapour cartridge",
        [BREATHING_VAPOUR_AND_MIST] = "respirator with organic-vapour cartridge and particle filter",
        [BREATHING_SUPPLIED] = "supplied air, and nothing less",
    };
    switch (caution->kind) {
    case PLAN_CAUTION_FINISH:
        return caution_find(caution->name)->brief;
    case PLAN_CAUTION_BREATHING:
        return breathed[caution->breathing];
    case PLAN_CAUTION_DUST:
        return "wood dust (extract it)";
    case PLAN_CAUTION_SELF_HEATING:
        return arena_textf(arena, "sanding dust%s heats itself", caution->sprayed ? " and overspray" : "");
    case PLAN_CAUTION_ONE_BOOTH:
        return "lacquer and oil finish in one booth take fire";
    case PLAN_CAUTION_STRIPPING:
        return "stripping: fire, burns, lead";
    default:
        return NULL;
    }
}

const char *batch_care(struct arena *arena, const struct plan_caution *cautions, size_t count)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < count; i++) {
        const char *brief = plan_caution_brief(arena, &cautions[i]);
        if (brief)
            buf_addf(&text, "%s%s", text.length ? "; " : "take care: ", brief);
    }
    return text.length ? text.text : NULL;
}

static const char *breathing_of(struct arena *arena, const struct plan_caution *caution)
{
    return arena_textf(
        arena, "%s, to breathe%s: %s", names_of(arena, caution->finishes, caution->finish_count),
        caution->breathing == BREATHING_VAPOUR ? "" : ", sprayed", breathing_words(caution->breathing));
}

/* Whether no coat before this one is on its piece. */
static bool first_on_piece(const struct plan_caution *caution, size_t coat)
{
    const struct operation *own = caution->coats[coat];
    for (size_t i = 0; i < coat; i++)
        if (caution->coats[i]->job == own->job && caution->coats[i]->piece == own->piece)
            return false;
    return true;
}

/* "a, b, c, d and 4 more": the pieces that the coats are on. */
static const char *coated_pieces(struct arena *arena, const struct plan_caution *caution)
{
    enum { NAMED = 4 };
    struct buf text;
    size_t count = 0;
    buf_init(&text, arena);
    for (size_t i = 0; i < caution->coat_count; i++) {
        const struct operation *coat = caution->coats[i];
        if (!first_on_piece(caution, i) || ++count > NAMED)
            continue;
        buf_addf(&text, "%s%s", text.length ? ", " : "", coat->job->pieces[coat->piece].name);
    }
    if (count > NAMED)
        buf_addf(&text, " and %zu more", count - NAMED);
    return text.text;
}

/* "95.9 ml of solvent (counted as Stoddard solvent), 80 ml (ethyl alcohol)" */
static const char *given_off(struct arena *arena, const struct plan_caution *caution, enum unit_system units)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < caution->vapour_count; i++)
        buf_addf(&text, i == 0 ? "%s of solvent (counted as %s)" : ", %s (%s)",
                 volume_format(caution->vapours[i].solvent_l, units).text, caution->vapours[i].counted_as);
    return text.text;
}

/* "limit of 350 mg/m3"; of several solvents "limits of 350 and 1900 mg/m3 together". */
static const char *exposure_limits(struct arena *arena, const struct plan_caution *caution)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < caution->vapour_count; i++)
        buf_addf(&text, "%s%s",
                 i == 0                           ? ""
                 : i + 1 == caution->vapour_count ? " and "
                                                  : ", ",
                 number_round(caution->vapours[i].limit_mg_per_m3, 0).text);
    return arena_textf(
        arena, caution->vapour_count == 1 ? "limit of %s mg/m³" : "limits of %s mg/m³ together", text.text);
}

static const char *vapour_words(struct arena *arena, const struct plan_caution *caution,
                                enum unit_system units)
{
    double lungs_m3 = 0, fire_m3 = 0;
    for (size_t i = 0; i < caution->vapour_count; i++) {
        lungs_m3 += caution->vapours[i].lungs_air_m3;
        fire_m3 += caution->vapours[i].fire_air_m3;
    }
    bool one = caution->coat_count == 1;
    return arena_textf(arena,
                       "%s: %s on %s %s %s: %s of fresh air keep it under the recommended exposure %s "
                       "(NIOSH), %s keep it from burning (29 CFR 1910.94(c)(6)(ii))",
                       names_of(arena, caution->finishes, caution->finish_count), one ? "one coat" : "coats",
                       coated_pieces(arena, caution), one ? "gives off" : "wet at the same time give off",
                       given_off(arena, caution, units), air_volume(arena, lungs_m3, units),
                       exposure_limits(arena, caution), air_volume(arena, fire_m3, units));
}

static void add_voc_of(struct buf *text, const struct finish *finish, double thin, enum country country)
{
    struct voc_limit limit = finish_voc_limit(finish, country);
    double voc = finish_voc_thinned(finish, thin), counted = finish_voc_regulated(finish, thin, country);
    const char *between = text->length ? "; " : "";
    if (voc < 0) {
        buf_addf(text, "%sof %s not known", between, finish->name);
        return;
    }
    buf_addf(text, "%s%s %s g/L%s", between, finish->name, number_round(voc, 0).text,
             thin > 0 ? " as thinned" : "");
    if (counted != voc)
        buf_addf(text, ", %s less water", number_round(counted, 0).text);
    if (limit.g_per_l > 0)
        buf_addf(text, ", %s the %s limit of %s for a %s", counted > limit.g_per_l ? "over" : "within",
                 country_names[country], number_round(limit.g_per_l, 0).text, limit.kind);
}

static const char *rule_of(enum country country)
{
    switch (country) {
    case COUNTRY_EU:
        return " (limits for paints and varnishes of buildings, in g/L ready to use: EU 2004/42 annex II, "
               "phase II; a "
               "works that coats furniture has others)";
    case COUNTRY_UK:
        return " (limits for paints and varnishes of buildings, in g/L ready to use: SI 2012/1715; a works "
               "that coats "
               "furniture has others)";
    case COUNTRY_US:
        return " (limits for architectural coatings, in g/L ready to use, less water and exempt solvents: 40 "
               "CFR 59 "
               "subpart D; states and districts may have lower ones, and a works that coats furniture has "
               "others)";
    default:
        return "";
    }
}

static const char *voc_words(struct arena *arena, const struct plan_caution *caution, enum unit_system units)
{
    struct buf text;
    buf_init(&text, arena);
    for (size_t i = 0; i < caution->finish_count; i++)
        add_voc_of(&text, caution->finishes[i], caution->thin[i], caution->country);
    return arena_textf(arena, "VOC: all coats give off %s; %s%s", mass_format(caution->mass_g, units).text,
                       text.text, rule_of(caution->country));
}

static const char *dust_words(struct arena *arena, const struct plan_caution *caution)
{
    return arena_textf(
        arena,
        "sanding: wood dust harms the lungs (limits 3 mg/m³ for hardwood, 5 for softwood: HSE) and fine "
        "dust burns: extract it at the tool, %skeep flames away",
        caution->supplied_air ? "" : "wear a dust respirator of class P2 or N95, ");
}

static const char *self_heating_words(struct arena *arena, const struct plan_caution *caution)
{
    return arena_textf(
        arena,
        "%s: its sanding dust%s heats up by itself like its rags: empty the bag and the filter outdoors "
        "at once, into a closed metal can",
        names_of(arena, caution->finishes, caution->finish_count),
        caution->sprayed ? " and its overspray" : "");
}

static const char *one_booth_words(struct arena *arena, const struct plan_caution *caution)
{
    return arena_textf(
        arena,
        "%s beside %s: their residues catch fire together, so never leave both in the same booth or "
        "filter: clean the booth and change the filters between them (Pennsylvania Code, title 34, "
        "35.92(d), 2016)",
        names_of(arena, caution->lacquers, caution->lacquer_count),
        names_of(arena, caution->finishes, caution->finish_count));
}

static const char stripping[] = "stripping: a solvent stripper burns and its vapour is harmful: work "
                                "outdoors or with fresh air through the room, and "
                                "use none with methylene chloride; a caustic one burns skin and eyes, "
                                "darkens wood with tannin and must be neutralised "
                                "before a finish: wear gloves and goggles; paint from before 1980 may "
                                "contain lead: test it first, and where it does "
                                "neither sand it dry nor heat it, keep children out and collect all of it "
                                "(USDA Wood Handbook FPL-GTR-190, ch. 16, "
                                "2010: paint strippers, lead-based paint; the rest common practice)";

const char *plan_caution_words(struct arena *arena, const struct plan_caution *caution,
                               enum unit_system units)
{
    switch (caution->kind) {
    case PLAN_CAUTION_FINISH:
        return arena_textf(arena, "%s: %s", names_of(arena, caution->finishes, caution->finish_count),
                           in_units(arena, caution_find(caution->name)->text, units));
    case PLAN_CAUTION_BREATHING:
        return breathing_of(arena, caution);
    case PLAN_CAUTION_VAPOUR:
        return vapour_words(arena, caution, units);
    case PLAN_CAUTION_VOC:
        return voc_words(arena, caution, units);
    case PLAN_CAUTION_DUST:
        return dust_words(arena, caution);
    case PLAN_CAUTION_SELF_HEATING:
        return self_heating_words(arena, caution);
    case PLAN_CAUTION_ONE_BOOTH:
        return one_booth_words(arena, caution);
    case PLAN_CAUTION_STRIPPING:
        break;
    }
    return stripping;
}
