/* Schedules that break a shipped rule of what fits, and their neighbours that do not: for test_fit.c. */
#ifndef TESTS_FIT_ROWS_H
#define TESTS_FIT_ROWS_H

#include "check.h"

#include "job/job.h"

/* A coat: an id or family, from which a finish of that kind is made up. */
struct kind {
    const char *id, *family;
    enum finish_drying by;
};

static const struct kind oil = {"danish-oil", "oil", DRIES_BY_OXIDATION};
static const struct kind hardwax = {"hardwax-oil-two-part", "hardwax-oil", DRIES_BY_REACTION};
static const struct kind varnish = {"wiping-varnish", "oil-varnish", DRIES_BY_OXIDATION};
static const struct kind water = {"waterborne-polyurethane", "waterborne", DRIES_BY_WATER};
static const struct kind lacquer = {"nitrocellulose-lacquer", "lacquer", DRIES_BY_SOLVENT};
static const struct kind catalysed = {"post-catalysed-varnish", "catalysed", DRIES_BY_REACTION};
static const struct kind shellac = {"shellac-dewaxed", "shellac", DRIES_BY_SOLVENT};
static const struct kind waxed = {"shellac-waxed", "shellac", DRIES_BY_SOLVENT};
static const struct kind wax = {"paste-wax", "wax", DRIES_BY_SOLVENT};
static const struct kind mineral = {"mineral-oil", "mineral-oil", DRIES_BY_NOTHING};
static const struct kind stain = {"pigment-stain", "stain", DRIES_BY_OXIDATION};
static const struct kind filler = {"grain-filler", "filler", DRIES_BY_OXIDATION};
static const struct kind epoxy = {"casting-epoxy", "epoxy", DRIES_BY_REACTION};
static const struct kind soap = {"soap-finish", "soap", DRIES_BY_WATER};
static const struct kind lye = {"white-wood-lye", "lye", DRIES_BY_WATER};
static const struct kind primer = {"alkyd-primer", "primer", DRIES_BY_OXIDATION};
static const struct kind paint = {"alkyd-paint", "paint", DRIES_BY_OXIDATION};

enum { BETWEEN_MOST = 2 };

/* under (NULL: wood), steps between, over; on a wood, in a region, for a use. */
struct fit_row {
    struct row row;
    const struct kind *under, *over;
    struct step between[BETWEEN_MOST];
    int steps;
    const char *wood;
    enum region region;
    unsigned uses;
    const char *rule; /* the one that speaks; NULL: none */
};

#define SAND(grit_)                                                                                          \
    {                                                                                                        \
        .kind = STEP_SAND, .grit = (grit_)                                                                   \
    }
#define UNTIL(state)                                                                                         \
    {                                                                                                        \
        .kind = STEP_WAIT, .wait_min = -1, .wait_state = (state)                                             \
    }
#define FOR(minutes)                                                                                         \
    {                                                                                                        \
        .kind = STEP_WAIT, .wait_min = (minutes)                                                             \
    }
#define RUB(text)                                                                                            \
    {                                                                                                        \
        .kind = STEP_RUB, .words = (text)                                                                    \
    }
#define RAISE                                                                                                \
    {                                                                                                        \
        .kind = STEP_RAISE                                                                                   \
    }

static const struct fit_row rows[] = {
    {ROW("varnish over wax"), &wax, &varnish, {{0}}, 0, "ash", REGION_FACE, 0, "film-over-wax"},
    {ROW("wax over wax"), &wax, &wax, {{0}}, 0, "ash", REGION_FACE, 0, NULL},
    {ROW("lacquer over mineral oil"),
     &mineral,
     &lacquer,
     {{0}},
     0,
     "ash",
     REGION_FACE,
     0,
     "film-over-mineral-oil"},
    {ROW("water-borne over waxed shellac"),
     &waxed,
     &water,
     {{0}},
     0,
     "ash",
     REGION_FACE,
     0,
     "waterborne-over-waxed-shellac"},
    {ROW("water-borne over dewaxed shellac"), &shellac, &water, {{0}}, 0, "ash", REGION_FACE, 0, NULL},
    {ROW("water-borne over fresh oil"),
     &oil,
     &water,
     {{0}},
     0,
     "ash",
     REGION_FACE,
     0,
     "waterborne-over-fresh-oil"},
    {ROW("water-borne over oil, waited for handle"),
     &oil,
     &water,
     {UNTIL(STATE_HANDLE)},
     1,
     "ash",
     REGION_FACE,
     0,
     "waterborne-over-fresh-oil"},
    {ROW("water-borne over cured oil"), &oil, &water, {UNTIL(STATE_CURED)}, 1, "ash", REGION_FACE, 0, NULL},
    {ROW("water-borne over oil, three weeks later"),
     &oil,
     &water,
     {FOR(30240)},
     1,
     "ash",
     REGION_FACE,
     0,
     NULL},
    {ROW("lacquer over oil"), &oil, &lacquer, {{0}}, 0, "ash", REGION_FACE, 0, "lacquer-over-oil"},
    {ROW("lacquer over varnish, cured or not"),
     &varnish,
     &lacquer,
     {UNTIL(STATE_CURED)},
     1,
     "ash",
     REGION_FACE,
     0,
     "lacquer-over-varnish"},
    {ROW("catalysed over lacquer"),
     &lacquer,
     &catalysed,
     {{0}},
     0,
     "ash",
     REGION_FACE,
     0,
     "catalysed-over-lacquer"},
    {ROW("oil over varnish"), &varnish, &hardwax, {{0}}, 0, "ash", REGION_FACE, 0, "oil-over-film"},
    {ROW("soap over oil"), &oil, &soap, {UNTIL(STATE_CURED)}, 1, "ash", REGION_FACE, 0, "soap-over-finish"},
    {ROW("lacquer over stain at once"), &stain, &lacquer, {{0}}, 0, "ash", REGION_FACE, 0, "fresh-stain"},
    {ROW("lacquer over dry stain"),
     &stain,
     &lacquer,
     {UNTIL(STATE_LIGHT_USE)},
     1,
     "ash",
     REGION_FACE,
     0,
     NULL},
    {ROW("varnish over wet filler"), &filler, &varnish, {{0}}, 0, "ash", REGION_FACE, 0, "fresh-filler"},
    {ROW("varnish over sanded filler"), &filler, &varnish, {SAND(240)}, 1, "ash", REGION_FACE, 0, NULL},
    {ROW("varnish over bare epoxy"), &epoxy, &varnish, {{0}}, 0, "ash", REGION_FACE, 0, "epoxy-blush"},
    {ROW("varnish over sanded epoxy"), &epoxy, &varnish, {SAND(180)}, 1, "ash", REGION_FACE, 0, NULL},
    {ROW("wax over fresh varnish"), &varnish, &wax, {{0}}, 0, "ash", REGION_FACE, 0, "wax-before-cure"},
    {ROW("wax over varnish, a week later"),
     &varnish,
     &wax,
     {FOR(10080)},
     1,
     "ash",
     REGION_FACE,
     0,
     "wax-before-cure"},
    {ROW("wax over cured varnish"), &varnish, &wax, {UNTIL(STATE_CURED)}, 1, "ash", REGION_FACE, 0, NULL},
    {ROW("steel wool under water-borne"),
     &shellac,
     &water,
     {RUB("0000 steel wool")},
     1,
     "ash",
     REGION_FACE,
     0,
     "steel-wool-under-water"},
    {ROW("nylon under water-borne"), &shellac, &water, {RUB("grey nylon")}, 1, "ash", REGION_FACE, 0, NULL},
    {ROW("steel wool on oak"),
     NULL,
     &varnish,
     {RUB("Steel wool")},
     1,
     "oak",
     REGION_FACE,
     0,
     "steel-wool-on-tannin"},
    {ROW("steel wool on ash"), NULL, &varnish, {RUB("steel wool")}, 1, "ash", REGION_FACE, 0, NULL},
    {ROW("grain not raised"), NULL, &water, {SAND(180)}, 1, "ash", REGION_FACE, 0, "grain-not-raised"},
    {ROW("no grain to raise"), NULL, &water, {SAND(180)}, 1, "mdf", REGION_FACE, 0, NULL},
    {ROW("grain raised and knocked back"), NULL, &water, {RAISE, SAND(240)}, 2, "ash", REGION_FACE, 0, NULL},
    {ROW("water-borne on oak"), NULL, &water, {RAISE, SAND(240)}, 2, "oak", REGION_FACE, 0, "tannin-bleeds"},
    {ROW("lye on chestnut"), NULL, &lye, {{0}}, 0, "chestnut", REGION_FACE, 0, "lye-on-tannin"},
    {ROW("oil on teak"), NULL, &oil, {{0}}, 0, "teak", REGION_FACE, 0, "oily-wood"},
    {ROW("oil on sealed teak"), &shellac, &varnish, {{0}}, 0, "teak", REGION_FACE, 0, NULL},
    {ROW("two-part oil on teak reacts"), NULL, &hardwax, {{0}}, 0, "teak", REGION_FACE, 0, NULL},
    {ROW("stain on birch"), NULL, &stain, {{0}}, 0, "birch", REGION_FACE, 0, "blotchy-wood"},
    {ROW("stain on a wash coat"), &shellac, &stain, {{0}}, 0, "birch", REGION_FACE, 0, NULL},
    {ROW("primer on pine"), NULL, &primer, {{0}}, 0, "pine", REGION_FACE, 0, "resin-bleeds"},
    {ROW("oil inside a box"), NULL, &oil, {{0}}, 0, "ash", REGION_INSIDE, 0, "oil-inside"},
    {ROW("shellac inside a box"), NULL, &shellac, {{0}}, 0, "ash", REGION_INSIDE, 0, NULL},
    {ROW("hardwax oil after grit 240"),
     NULL,
     &hardwax,
     {SAND(240)},
     1,
     "ash",
     REGION_FACE,
     0,
     "grit-too-fine-hardwax"},
    {ROW("hardwax oil after grit 180"),
     NULL,
     &hardwax,
     {SAND(240), SAND(180)},
     2,
     "ash",
     REGION_FACE,
     0,
     NULL},
    {ROW("oil after grit 400"), NULL, &oil, {SAND(400)}, 1, "ash", REGION_FACE, 0, "grit-too-fine-oil"},
    {ROW("shellac on a wet top"), NULL, &shellac, {{0}}, 0, "ash", REGION_FACE, USE_WATER, "use-water"},
    {ROW("shellac for drinks"), NULL, &shellac, {{0}}, 0, "ash", REGION_FACE, USE_ALCOHOL, "use-alcohol"},
    {ROW("shellac under hot dishes"), NULL, &shellac, {{0}}, 0, "ash", REGION_FACE, USE_HEAT, "use-heat"},
    {ROW("shellac on stairs"), NULL, &shellac, {{0}}, 0, "ash", REGION_FACE, USE_WEAR, "use-wear"},
    {ROW("varnish outdoors"), NULL, &varnish, {{0}}, 0, "ash", REGION_FACE, USE_OUTDOORS, "use-outdoors"},
    {ROW("varnish on a wet top"), NULL, &varnish, {{0}}, 0, "ash", REGION_FACE, USE_WATER, NULL},
    {ROW("wax on varnish on a wet top"),
     &varnish,
     &wax,
     {UNTIL(STATE_CURED)},
     1,
     "ash",
     REGION_FACE,
     USE_WATER,
     NULL},
    {ROW("wax alone on a wet top"), NULL, &wax, {{0}}, 0, "ash", REGION_FACE, USE_WATER, "use-water"},
    {ROW("varnish for food, wrapped before it is cured"),
     NULL,
     &varnish,
     {{0}},
     0,
     "ash",
     REGION_FACE,
     USE_FOOD,
     "use-food-cure"},
    {ROW("paint for food"), NULL, &paint, {{0}}, 0, "ash", REGION_FACE, USE_FOOD, "use-food-film"},
    {ROW("mineral oil for food"), NULL, &mineral, {{0}}, 0, "ash", REGION_FACE, USE_FOOD, NULL},
    {ROW("nut oil for a child"), NULL, &oil, {{0}}, 0, "ash", REGION_FACE, USE_CHILD, "use-nut-oil"},
};

#endif
