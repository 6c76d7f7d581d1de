/* A row of the part list: one kind of part, its shape in metres, and what each of its regions gets. */
#ifndef JOB_PART_H
#define JOB_PART_H

#include <stdbool.h>
#include <stddef.h>

enum region {
    REGION_FACE,
    REGION_BACK,
    REGION_EDGES,
    REGION_ENDS,
    REGION_INSIDE,
    REGION_OUTSIDE,
    REGION_COUNT
};

enum shape {
    SHAPE_BOARD,
    SHAPE_TRIANGLE,
    SHAPE_POLYGON,
    SHAPE_DISC,
    SHAPE_ROUND,
    SHAPE_TAPER,
    SHAPE_CONE,
    SHAPE_TURNING,
    SHAPE_MOULDING,
    SHAPE_FRAME,
    SHAPE_BOX,
    SHAPE_MESH,
    SHAPE_AREA,
    SHAPE_COUNT
};

/* Lengths of a part as its columns name them; 0 where not given. */
enum dimension {
    DIM_LENGTH,
    DIM_WIDTH,
    DIM_THICKNESS,
    DIM_HEIGHT,
    DIM_DIAMETER,
    DIM_DIAMETER2,
    DIM_HOLE,
    DIM_WIDTH2,
    DIM_MEMBER,
    DIM_GIRTH,
    DIM_BASE,
    DIM_SIDE,
    DIM_A, /* the three sides of a triangle: column `sides` */
    DIM_B,
    DIM_C,
    DIM_CHAMFER,
    DIM_ROUNDOVER,
    DIM_COUNT
};

/* The open sides of a box, as bits. */
enum box_side { BOX_FRONT = 1, BOX_BACK = 2, BOX_LEFT = 4, BOX_RIGHT = 8, BOX_TOP = 16, BOX_BOTTOM = 32 };

enum wood_grain {
    GRAIN_CLOSED,
    GRAIN_HALF_OPEN,
    GRAIN_OPEN,
    GRAIN_SOFTWOOD,
    GRAIN_PLYWOOD,
    GRAIN_MDF,
    GRAIN_COUNT
};

/* What a wood does under a finish, as bits. */
enum wood_trait {
    WOOD_OILY = 1,
    WOOD_TANNIN = 2,
    WOOD_BLOTCHY = 4,
    WOOD_RESINOUS = 8,
    WOOD_LIGHT = 16, /* changes in light */
    WOOD_VENEER = 32,
    WOOD_ROUGH = 64 /* rough-sawn */
};

enum { WOOD_USUAL_KG_PER_M3 = 700 };

struct wood {
    const char *name;
    enum wood_grain grain;
    unsigned traits;
    double density_kg_per_m3; /* at 12 % moisture; of a veneer, whose core is not given, the usual */
};

/* Area that another part or glue hides: count x width x length of a region, on each part. */
struct covered {
    enum region region;
    double count, width_m, length_m;
};

struct groove {
    int count;
    double length_m, girth_m;
};

/* A point of an outline (x, y), or of a profile (x along the axis, y the diameter there). */
struct point {
    double x, y;
};

enum {
    SCHEDULE_NONE = -1, /* nothing was written for the region */
    SCHEDULE_BARE = -2, /* `-`: left bare on purpose */
};

struct part {
    const char *name;
    size_t row;   /* in the part list, from 0: the first token of its pointer */
    size_t piece; /* index into the job's pieces */
    int qty;
    enum shape shape;
    double size_m[DIM_COUNT];
    int corners; /* of a regular polygon */
    const struct point *points;
    size_t point_count;
    unsigned open; /* box_side bits */
    double area_m2;
    enum region area_region;
    const char *mesh_file;
    double mesh_area_m2; /* measured by the reader: the take-off touches no files */
    const struct groove *grooves;
    size_t groove_count;
    const struct covered *covered;
    size_t covered_count;
    const struct wood *wood, *core; /* core NULL: solid; wood NULL: not given */
    int schedule[REGION_COUNT]; /* index into the job's schedules, or SCHEDULE_...; `all` is spread already */
    double work;                /* factor on hands-on time */
    const char *note;           /* NULL: none */
};

const char *region_name(enum region region);
/* The words of all regions, by enum. */
extern const char *const region_names[REGION_COUNT];
bool region_find(const char *word, enum region *region);
/* Edges and ends: where a veneered part shows its core. */
bool region_is_rim(enum region region);
/* What the region is of: under a veneer the rim shows the core. NULL: no wood is given. */
const struct wood *part_wood_at(const struct part *part, enum region region);
const char *shape_name(enum shape shape);
bool shape_find(const char *word, enum shape *shape);
const char *dimension_name(enum dimension dimension);

/* A board over 0.1 m2 that gets a finish on face and back: it is laid flat rather than stood up. */
bool part_has_large_faces(const struct part *part);

/* Which regions a shape has, as bits 1 << region; of an area all, it has the one that it names. */
unsigned shape_regions(enum shape shape);

/* A species, or a sheet good (plywood, mdf), by its English trade name; NULL: unknown. "oak veneer" is the veneer,
 * "rough oak" the rough-sawn board. The table is in wood.c. */
const struct wood *wood_find(const char *name);
/* The same by a name as people write it: "birch ply", "rift white oak", "MR MDF", "oak veneered MDF", "Eiche". NULL: a word
 * of it is not understood. */
const struct wood *wood_understand(const char *name);
/* All of them, for did-you-mean and for the list that the program prints. */
const struct wood *wood_table(size_t *count);

/* Its names in other languages and in short, with | between; NULL: none. */
const char *wood_other_names(const char *name);

/* Words for grains and traits, as the rules of finish/fit.h use them: "closed" ... "mdf", "oily" ... "rough". */
const char *const *wood_word_table(size_t *count);

enum { WOOD_WORDS_MOST = 8 };
/* The words of one wood (NULL: not given, so a closed grain) and how many. */
size_t wood_words(const struct wood *wood, const char *words[WOOD_WORDS_MOST]);

#endif
