#include "source/read_parts.h"

#include "base/arena.h"
#include "source/mesh_measure.h"
#include "format/words.h"

#include <inttypes.h>

static const char *resolve(struct part_reading *in)
{
    struct arena *arena = in->draft->reading->arena;
    const struct job *job = in->draft->job;
    struct path_rule rule = {job->parts_file ? job->parts_file : in->draft->rule.from,
                             in->draft->rule.trusted};
    struct err fault;
    const char *path, *named = part_cell(in, COLUMN_FILE);
    if (path_resolve(arena, rule, named, &path, &fault))
        return path;
    rows_refuse_found(&in->rows, COLUMN_FILE, fault.expected,
                      arena_textf(arena, "%s (%s)", words_quote(arena, named), fault.found));
    return NULL;
}

static void warn_left_out(struct part_reading *in, const struct mesh_report *report)
{
    uint64_t left_out = report->degenerate + report->nonfinite;
    if (left_out > 0)
        rows_warn(&in->rows, COLUMN_FILE,
                  arena_textf(in->draft->reading->arena,
                              "%" PRIu64 " of %" PRIu64 " triangles count for nothing: %" PRIu64
                              " without area, %" PRIu64 " without numbers",
                              left_out, report->triangles, report->degenerate, report->nonfinite));
}

static void measure(struct part_reading *in, double unit_m)
{
    struct mesh_report report;
    const char *path = resolve(in);
    if (!path || !mesh_measure(in->draft->reading->arena, path, &report, in->draft->reading->errors))
        return;
    in->part->mesh_file = path;
    in->part->mesh_area_m2 = report.area * unit_m * unit_m;
    warn_left_out(in, &report);
}

static bool read_units(struct part_reading *in, double *unit_m)
{
    struct err fault;
    enum length_unit unit = LENGTH_NONE;
    const char *text = part_cell(in, COLUMN_FILE_UNITS);
    if (!length_unit_parse(text ? text : "", &unit, &fault))
        return rows_refuse(&in->rows, COLUMN_FILE_UNITS, fault.expected);
    return length_bare(1, unit, unit_m, &fault);
}

void part_read_mesh(struct part_reading *in)
{
    static const char only[] = "nothing: only a mesh has one";
    double unit_m = 0;
    if (in->part->shape == SHAPE_MESH) {
        if (!part_cell(in, COLUMN_FILE))
            rows_refuse(&in->rows, COLUMN_FILE, "the name of a mesh file, STL or OBJ");
        if (read_units(in, &unit_m) && part_cell(in, COLUMN_FILE))
            measure(in, unit_m);
        return;
    }
    if (part_cell(in, COLUMN_FILE))
        rows_refuse(&in->rows, COLUMN_FILE, only);
    if (part_cell(in, COLUMN_FILE_UNITS))
        rows_refuse(&in->rows, COLUMN_FILE_UNITS, only);
}
