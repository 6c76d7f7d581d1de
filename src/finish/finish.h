/* What a finish is: one entry of the finish table, in base units (l, kg/l, m2/l, whole minutes, whole cents).
 * Filled by the reader, checked by finish_check, never changed afterwards. All storage is the reader's arena. */
#ifndef FINISH_FINISH_H
#define FINISH_FINISH_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct err_list;

enum {
    SPAN_NEVER = INT32_MAX, /* a window that does not end, a pot that does not die */
    FINISH_PARTS_MOST = 8,
};

/* States after a coat (ISO 9117 and ASTM D1640 name the stages), in the order of the files. */
enum finish_state {
    STATE_DUST_FREE,
    STATE_HANDLE,
    STATE_RECOAT,
    STATE_SAND,
    STATE_WRAP, /* under a blanket, stacked */
    STATE_LIGHT_USE,
    STATE_CURED,
    STATE_COUNT
};

enum finish_drying {
    DRIES_BY_OXIDATION,
    DRIES_BY_SOLVENT,
    DRIES_BY_WATER,
    DRIES_BY_REACTION,
    DRIES_BY_MOISTURE,
    DRIES_BY_NOTHING,
    DRYING_COUNT
};

enum tool {
    TOOL_CLOTH,
    TOOL_BRUSH,
    TOOL_FOAM_BRUSH,
    TOOL_PAD,
    TOOL_SQUEEGEE,
    TOOL_ROLLER,
    TOOL_RUBBER, /* the polisher's pad of shellac */
    TOOL_HVLP,
    TOOL_CONVENTIONAL,
    TOOL_AIRLESS,
    TOOL_DIP,
    TOOL_POUR,
    TOOL_COUNT
};

enum resistance {
    RESISTS_WATER,
    RESISTS_ALCOHOL,
    RESISTS_HEAT,
    RESISTS_WEAR,
    RESISTS_OUTDOORS,
    RESISTANCE_COUNT
};

/* What is known of it on what is eaten from, or mouthed by a child: never; only fully cured, and if its maker says so;
 * made for it. */
enum contact { CONTACT_NEVER, CONTACT_ASK, CONTACT_MADE, CONTACT_COUNT };

/* A price of -1 is not given. A pack sold by mass has its volume by the component's density. */
struct pack {
    double size_l;
    int64_t price_cents;
    const char *label; /* as written: "500 ml" */
};

struct component {
    const char *name;
    double parts;
    double density_kg_per_l;
    int32_t shelf_life_min, opened_life_min; /* SPAN_NEVER: not given */
    const struct pack *packs;
    size_t pack_count;
};

/* Components sold together: litres of each, in the order of the components. */
struct kit {
    const double *contents_l;
    int64_t price_cents;
    const char *label;
};

/* Minutes at reference air, by state; recoat_last_min is the end of the recoat window. */
struct finish_times {
    int32_t after_min[STATE_COUNT];
    int32_t recoat_last_min;
};

struct span_range {
    int32_t least_min, most_min;
};

struct finish_air {
    double lowest_c, highest_c;
    double driest, dampest; /* humidity as a share */
};

/* What stands under `sources`, as written. */
struct finish_source {
    const char *group, *text;
};

/* What the logs of the shop say of one tool with this finish. */
struct tool_learned {
    bool has_loss;
    double loss_l;            /* stays in the tool */
    double minutes_factor;    /* the hand's minutes over those that are planned; 0: not given */
    double minutes_tolerance; /* plus or minus, as a share, two standard deviations of its logarithm */
};

struct finish {
    const char *id, *name, *family;
    const char *short_name; /* for tables; the name where the file gives none */
    const char *file;       /* where it was read from */
    bool learned;           /* its coverage was learned from the shop's logs, as its sources say */
    bool shipped;           /* from the shipped table; otherwise the shop's own */
    enum finish_drying dries_by;

    const struct component *components;
    size_t component_count;
    const struct kit *kits;
    size_t kit_count;
    bool mix_by_mass;
    double ratio_tolerance; /* share; 0 where there is one component */
    int32_t induction_min;
    int32_t pot_life_min; /* SPAN_NEVER: none given */
    double pot_mass_g;    /* up to this mass in one cup; 0: not given, mass does not matter */

    double first_m2_per_l, later_m2_per_l; /* of the finish as mixed, unthinned, reaching the wood */
    double wet_film_um;                    /* 0 where coverage was given */
    double tolerance;
    double solids;                    /* share by volume; 0: not given */
    double tool_m2_per_l[TOOL_COUNT]; /* where a tool lays another coat than the others; 0: it does not */
    bool tool_no_between[TOOL_COUNT]; /* laid with it nothing is sanded between coats */
    struct tool_learned tool_learned[TOOL_COUNT];
    double thin_most;        /* litres of thinner to a litre that its label allows; -1: not given */
    double dry_film_most_um; /* of all its coats together; 0: not given */

    bool by[TOOL_COUNT];
    enum tool usual_tool;                     /* the first of `by` */
    int coats_usual, coats_most, coats_a_day; /* a_day 0: no limit */
    bool flip_now;                            /* on points while wet; else at `handle` */

    struct finish_times first, later; /* `later` from the second coat on */
    struct finish_times late; /* ... and these after coat `late_after` and those that follow it; 0: never */
    int late_after;
    double at_c, at_humidity; /* reference air of the times and the pot life */
    bool has_wipe_off, has_polish;
    struct span_range wipe_off, polish;
    int wipe_off_from;        /* the coat of this finish from which on it is wiped off: 1, 2 */
    bool refuses_late_recoat; /* else a scuff opens a closed window */
    int between_grit;         /* 0: none */
    bool between_scuff;       /* the between step is a scuff, not a sanding */

    struct finish_air air;
    int resists[RESISTANCE_COUNT]; /* 0..3 */
    const char *const *cautions;
    size_t caution_count;
    const char *solvent; /* NULL: not given */
    double voc_g_per_l;  /* -1: not given */
    enum contact food, child;
    bool colours; /* stain, dye, paint or tinted: one lot, at least 25 % in reserve */

    const struct finish_source *sources;
    size_t source_count;
};

/* Words of the files, by enum. */
extern const char *const finish_state_names[STATE_COUNT], *const finish_drying_names[DRYING_COUNT],
                                                              *const tool_names[TOOL_COUNT],
                                                                  *const resistance_names[RESISTANCE_COUNT],
                                                                      *const contact_names[CONTACT_COUNT];

/* "dust-free" ... ; NULL for a number out of range. The find functions give false for an unknown word. */
const char *finish_state_name(enum finish_state state);
bool finish_state_find(const char *word, enum finish_state *state);
const char *finish_drying_name(enum finish_drying drying);
const char *tool_name(enum tool tool);
bool tool_find(const char *word, enum tool *tool);
bool tool_sprays(enum tool tool);
const char *resistance_name(enum resistance resistance);

/* Whether two are of one file: jobs that are planned together each read it for themselves. One without a file
 * is the same as itself alone. */
bool finish_same(const struct finish *a, const struct finish *b);

/* Times that hold after coat `number` (1, 2, ...) of this finish on its surface. The long ones of a film that has been
 * built up are not those of sessions with the rubber, which carry little each. */
const struct finish_times *finish_times_of(const struct finish *finish, int number, enum tool by);

/* kg/l of the finish as mixed, from the components by their ratio. */
double finish_density(const struct finish *finish);

/* Share of the mixture's volume that is component i; they add up to 1. */
double finish_volume_share(const struct finish *finish, size_t i);

/* m2/l on bare wood (`first`) or on a film; from the wet film where that is given: 1 l at 1 um covers 1000 m2. */
double finish_coverage(const struct finish *finish, bool first);
/* The same laid with a tool, which may have a coverage of its own. */
double finish_coverage_by(const struct finish *finish, bool first, enum tool by);

/* Whether something is said of a tool that is not said of the others. */
bool finish_has_own_tool(const struct finish *finish, enum tool by);

/* An oil that soaks in: its family's name ends in "oil" ("oil", "hardwax-oil"; not "oil-varnish"). */
bool finish_is_oil(const struct finish *finish);

/* The record's own sanity (finish_check.c): recoat minimum before maximum, cured after handle, ratio above 0, a
 * density that a liquid can have, a source for every figure group where `shipped`. Each break is added with its
 * pointer in finish->file. */
void finish_check(const struct finish *finish, struct err_list *errors);

#endif
