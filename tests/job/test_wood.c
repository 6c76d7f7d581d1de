/* Regions, shapes and woods by name. */
#include "check.h"

#include "job/part.h"

#include <string.h>

static void names_round_trip(void **state)
{
    (void)state;
    for (int i = 0; i < REGION_COUNT; i++) {
        enum region found = REGION_COUNT;
        check_true(HERE, region_find(region_name((enum region)i), &found), "region found");
        check_int(HERE, found, i);
    }
    for (int i = 0; i < SHAPE_COUNT; i++) {
        enum shape found = SHAPE_COUNT;
        check_true(HERE, shape_find(shape_name((enum shape)i), &found), "shape found");
        check_int(HERE, found, i);
    }
    for (int i = 0; i < DIM_COUNT; i++)
        check_true(HERE, dimension_name((enum dimension)i) != NULL, "every dimension has a column");
    check_text(HERE, dimension_name(DIM_B), "sides");
}

struct region_row {
    struct row row;
    enum shape shape;
    unsigned want;
};

#define BIT(region) (1u << REGION_##region)

static const struct region_row regions[] = {
    {ROW("board"), SHAPE_BOARD, BIT(FACE) | BIT(BACK) | BIT(EDGES) | BIT(ENDS)},
    {ROW("triangle"), SHAPE_TRIANGLE, BIT(FACE) | BIT(BACK) | BIT(EDGES)},
    {ROW("disc"), SHAPE_DISC, BIT(FACE) | BIT(BACK) | BIT(EDGES)},
    {ROW("round"), SHAPE_ROUND, BIT(FACE) | BIT(ENDS)},
    {ROW("moulding"), SHAPE_MOULDING, BIT(FACE)},
    {ROW("frame"), SHAPE_FRAME, BIT(FACE) | BIT(BACK) | BIT(EDGES)},
    {ROW("box"), SHAPE_BOX, BIT(OUTSIDE) | BIT(INSIDE) | BIT(EDGES)},
    {ROW("mesh"), SHAPE_MESH, BIT(FACE)},
};

static void regions_are(void **state)
{
    const struct region_row *r = *state;
    check_int(&r->row, shape_regions(r->shape), r->want);
}

struct wood_row {
    struct row row;
    const char *name;
    enum wood_grain grain;
    unsigned with, without;
};

/* oily are teak, rosewood, iroko; blotchy pine, cherry, birch, maple; tannin oak, chestnut (common practice,
 * from memory). */
static const struct wood_row woods[] = {
    {ROW("teak"), "teak", GRAIN_HALF_OPEN, WOOD_OILY, WOOD_VENEER | WOOD_ROUGH},
    {ROW("rosewood"), "rosewood", GRAIN_HALF_OPEN, WOOD_OILY, WOOD_TANNIN},
    {ROW("iroko"), "Iroko", GRAIN_OPEN, WOOD_OILY, WOOD_TANNIN},
    {ROW("pine"), "pine", GRAIN_SOFTWOOD, WOOD_BLOTCHY | WOOD_RESINOUS, WOOD_OILY},
    {ROW("cherry"), " cherry ", GRAIN_CLOSED, WOOD_BLOTCHY | WOOD_LIGHT, WOOD_OILY},
    {ROW("birch"), "birch", GRAIN_CLOSED, WOOD_BLOTCHY, WOOD_TANNIN},
    {ROW("maple"), "maple", GRAIN_CLOSED, WOOD_BLOTCHY, WOOD_TANNIN},
    {ROW("oak"), "oak", GRAIN_OPEN, WOOD_TANNIN, WOOD_BLOTCHY},
    {ROW("chestnut"), "chestnut", GRAIN_OPEN, WOOD_TANNIN, WOOD_OILY},
    {ROW("oak veneer"), "oak veneer", GRAIN_OPEN, WOOD_TANNIN | WOOD_VENEER, WOOD_ROUGH},
    {ROW("rough oak"), "rough oak", GRAIN_OPEN, WOOD_TANNIN | WOOD_ROUGH, WOOD_VENEER},
    {ROW("plywood"), "birch plywood", GRAIN_PLYWOOD, 0, WOOD_VENEER},
    {ROW("mdf"), "MDF", GRAIN_MDF, 0, WOOD_VENEER},
};

static void wood_is(void **state)
{
    const struct wood_row *r = *state;
    const struct wood *wood = wood_find(r->name);
    check_true(&r->row, wood != NULL, "known");
    check_int(&r->row, wood->grain, r->grain);
    check_int(&r->row, wood->traits & r->with, r->with);
    check_int(&r->row, wood->traits & r->without, 0);
}

static void table_is_sound(void **state)
{
    (void)state;
    size_t count, solid = 0;
    const struct wood *table = wood_table(&count);
    for (size_t i = 0; i < count; i++) {
        solid += table[i].grain < GRAIN_PLYWOOD && !(table[i].traits & (WOOD_VENEER | WOOD_ROUGH));
        check_true(HERE, wood_find(table[i].name) == &table[i], "every wood is found by its own name");
    }
    check_true(HERE, solid >= 25, "at least 25 species");
    check_double(HERE, wood_find("chipboard")->density_kg_per_m3, 650, 0);
    check_true(HERE, wood_find("unobtainium") == NULL, "an unknown wood is unknown");
    check_true(HERE, wood_find("") == NULL, "no wood has no name");
}

struct other_name {
    struct row row;
    const char *name, *want; /* NULL: not understood */
};

#define BLANKS_20 "                    "
#define BLANKS_80 BLANKS_20 BLANKS_20 BLANKS_20 BLANKS_20

/* As cut lists and suppliers write them; English, German and French. */
static const struct other_name other_names[] = {
    {ROW("ply"), "birch ply", "birch plywood"},
    {ROW("baltic birch"), "Baltic Birch", "birch plywood"},
    {ROW("baltic birch ply"), "Baltic birch ply, B/BB", "birch plywood"},
    {ROW("how it was sawn"), "rift white oak", "white oak"},
    {ROW("sawn and dried"), "Quarter-sawn White Oak (KD)", "white oak"},
    {ROW("for damp rooms"), "MR MDF", "mdf"},
    {ROW("of that thickness"), "18 mm MR MDF", "mdf"},
    {ROW("a veneer on a board"), "oak veneered MDF", "oak veneer"},
    {ROW("a veneer first"), "walnut veneer on chipboard", "walnut veneer"},
    {ROW("a species without its plywood"), "poplar ply", "plywood"},
    {ROW("a trade name in two words"), "Douglas fir", "douglas fir"},
    {ROW("the same once"), "Douglas", "douglas fir"},
    {ROW("American walnut"), "American Walnut", "walnut"},
    {ROW("German"), "Eiche massiv", "oak"},
    {ROW("German, as plywood"), "Birke Multiplex", "birch plywood"},
    {ROW("German, with a veneer"), "Eiche furniert", "oak veneer"},
    {ROW("German board"), "Spanplatte", "chipboard"},
    {ROW("German capitals"), "L\xC3\x84RCHE", "larch"},
    {ROW("French"), "ch\xC3\xAAne massif", "oak"},
    {ROW("French, as plywood"), "contreplaqu\xC3\xA9 bouleau", "birch plywood"},
    {ROW("rough"), "rough sawn oak", "rough oak"},
    {ROW("nothing but how"), "solid board", NULL},
    {ROW("no wood"), "granite", NULL},
    {ROW("a wood and something else"), "oak and steel", NULL},
    {ROW("nothing"), "", NULL},
    {ROW("95 characters"), "white oak " BLANKS_80 "     ", "white oak"},
    {ROW("longer than the name of a wood"), "white oak " BLANKS_80 "      ", NULL},
};

static void is_understood(void **state)
{
    const struct other_name *r = *state;
    const struct wood *wood = wood_understand(r->name);
    check_text(&r->row, wood ? wood->name : "none", r->want ? r->want : "none");
}

/* Each of the other names of a wood, which a page lists, is read as that wood. */
static void others_are_understood(void **state)
{
    (void)state;
    size_t count, known = 0;
    const struct wood *table = wood_table(&count);
    for (size_t i = 0; i < count; i++) {
        const char *names = wood_other_names(table[i].name);
        for (; names; known++) {
            size_t size = strcspn(names, "|");
            char name[32] = {0};
            check_true(HERE, size > 0 && size < sizeof name, "a name of usual length");
            memcpy(name, names, size);
            const struct wood *wood = wood_understand(name);
            check_text(HERE, wood ? wood->name : name, table[i].name);
            names = names[size] ? names + size + 1 : NULL;
        }
    }
    check_true(HERE, known >= 50, "at least 50 of them");
    check_text(HERE, wood_other_names("oak"), "eiche|ch\xC3\xAAne|chene");
    check_true(HERE, wood_other_names("teak and oak") == NULL, "what is no wood has no other name");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(others_are_understood), CHECK_ROWS(other_names, is_understood),
                     CHECK_TEST(names_round_trip), CHECK_ROWS(regions, regions_are),
                     CHECK_ROWS(woods, wood_is), CHECK_TEST(table_is_sound));
}
