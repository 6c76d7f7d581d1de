/* Cells of a part list. Inside part_*.c. */
#ifndef SOURCE_PART_LIST_H
#define SOURCE_PART_LIST_H

#include "source/job_draft.h"
#include "source/rows.h"

enum part_column {
    COLUMN_PART,
    COLUMN_PIECE,
    COLUMN_QTY,
    COLUMN_SHAPE,
    COLUMN_WOOD,
    COLUMN_CORE,
    COLUMN_SIZE,
    COLUMN_SIDES,
    COLUMN_POINTS,
    COLUMN_CORNERS,
    COLUMN_PROFILE,
    COLUMN_OPEN,
    COLUMN_FILE,
    COLUMN_FILE_UNITS,
    COLUMN_AREA,
    COLUMN_REGION,
    COLUMN_GROOVES,
    COLUMN_ALL,
    COLUMN_COVERED,
    COLUMN_WORK,
    COLUMN_NOTE,
    COLUMN_REGIONS,                                 /* face, back, ... by region */
    COLUMN_LENGTHS = COLUMN_REGIONS + REGION_COUNT, /* length, width, ... by dimension up to DIM_SIDE */
    COLUMN_CHAMFER = COLUMN_LENGTHS + DIM_SIDE + 1,
    COLUMN_ROUNDOVER,
    COLUMN_COUNT
};
_Static_assert(COLUMN_COUNT <= 64, "columns are bits of rows_columns.numbers");

/* A part list while it is read, and the row at hand. */
struct part_reading {
    struct job_draft *draft;
    struct rows rows;
    struct part *part;
    bool units_doubted; /* a length was too long for the job's units, and that was reported */
};

/* The row's cell; "" where it is empty. */
static inline const char *part_cell(const struct part_reading *in, int column)
{
    return rows_cell(&in->rows, (size_t)column);
}

/* The dimensions and lists of the row's shape: lengths, size, sides, points, corners, profile, open, area, grooves,
 * covered, file. */
void part_read_sizes(struct part_reading *in);

/* Each of `count` lengths from a text of as many, blanks between them: "3 1/2 4", "300 mm 200 mm". */
bool lengths_split(const char *text, enum length_unit bare, size_t count, double *lengths);

/* The columns, filled in, with the other names that they have elsewhere; lengths are in `bare` where no unit is said. */
struct rows_columns part_columns(const char *names[COLUMN_COUNT], enum length_unit bare);

/* The area of a mesh in a file (mesh_measure.c). */
struct mesh_report {
    double area; /* in file units squared, of the triangles that have one */
    uint64_t triangles;
    uint64_t degenerate; /* of them without area */
    uint64_t nonfinite;  /* of them with a corner that is no number or beyond reach */
};

/* As mesh_read does; what was read before a mistake is in the report. */
bool mesh_measure(struct arena *owner, int file, const char *path, struct mesh_report *report,
                  struct err_list *errors);

#endif
