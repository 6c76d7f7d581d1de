#include "source/part_list.h"

#include "base/arena.h"
#include "base/number.h"
#include "format/sheet.h"
#include "format/words.h"

#include <string.h>

static struct arena *arena_of(const struct part_reading *in)
{
    return in->draft->reading->arena;
}

static const char *kept(const struct part_reading *in, int column)
{
    return part_cell(in, column) ? arena_text(arena_of(in), part_cell(in, column)) : NULL;
}

/* The part's name and its piece; the part's own where none is given. */
static void read_names(struct part_reading *in)
{
    bool added;
    const char *name = kept(in, COLUMN_PART), *piece = part_cell(in, COLUMN_PIECE);
    if (!name)
        rows_refuse(&in->rows, COLUMN_PART, "the part's name");
    in->part->name = name ? name : "";
    in->part->piece = in->draft->pieces.count;
    if (!piece && !name)
        return;
    /* Only a new name is worth a copy. */
    if (!names_find(&in->draft->pieces, piece ? piece : name, &in->part->piece))
        in->part->piece = names_add(&in->draft->pieces, piece ? kept(in, COLUMN_PIECE) : name, &added);
}

static void read_count(struct part_reading *in)
{
    struct err fault;
    int64_t qty = 1;
    if (part_cell(in, COLUMN_QTY) &&
        !count_parse(part_cell(in, COLUMN_QTY), (int64_t)limits[LIMIT_QTY].most, &qty, &fault))
        rows_refuse(&in->rows, COLUMN_QTY, fault.expected);
    in->part->qty = (int)qty;
    in->part->work = 1;
    if (!part_cell(in, COLUMN_WORK))
        return;
    if (!number_parse(part_cell(in, COLUMN_WORK), &in->part->work, &fault))
        rows_refuse(&in->rows, COLUMN_WORK, fault.expected);
    else if (in->part->work <= 0)
        rows_refuse(&in->rows, COLUMN_WORK, "a factor above 0");
    else if (in->part->work > limits[LIMIT_WORK].most)
        rows_refuse(&in->rows, COLUMN_WORK, limits[LIMIT_WORK].expected);
}

static bool read_shape(struct part_reading *in)
{
    const char *names[SHAPE_COUNT];
    for (int i = 0; i < SHAPE_COUNT; i++)
        names[i] = shape_name((enum shape)i);
    in->part->shape = SHAPE_BOARD;
    if (!part_cell(in, COLUMN_SHAPE))
        return true;
    if (!shape_find(part_cell(in, COLUMN_SHAPE), &in->part->shape))
        return rows_refuse_name(&in->rows, COLUMN_SHAPE, words_one_of(arena_of(in), names, SHAPE_COUNT),
                                names, SHAPE_COUNT);
    return true;
}

/* A species that the table lacks is no mistake: its grain is taken as closed, and that is said. */
static const struct wood *unknown_wood(struct part_reading *in, size_t column)
{
    size_t count;
    const struct wood *known = wood_table(&count);
    struct wood *wood = ARENA_NEW(arena_of(in), struct wood);
    wood->name = kept(in, (int)column);
    wood->grain = GRAIN_CLOSED;
    if (list_full(in->draft->reading->warnings))
        return wood;
    const char **names = ARENA_ARRAY(arena_of(in), count, const char *);
    for (size_t i = 0; i < count; i++)
        names[i] = known[i].name;
    rows_warn(&in->rows, column,
              arena_textf(arena_of(in), "the wood %s is not known: a closed grain is assumed",
                          words_found(arena_of(in), wood->name, names, count)));
    return wood;
}

static const struct wood *read_wood(struct part_reading *in, size_t column)
{
    const char *name = rows_cell(&in->rows, column);
    const struct wood *wood = name ? wood_find(name) : NULL;
    if (wood || !name)
        return wood;
    wood = wood_understand(name);
    if (!wood)
        return unknown_wood(in, column);
    rows_note_value(&in->rows, column, wood->name);
    return wood;
}

static int read_schedule(struct part_reading *in, size_t column)
{
    const char *name = rows_cell(&in->rows, column);
    size_t index;
    if (!name)
        return SCHEDULE_NONE;
    if (strcmp(name, "-") == 0)
        return SCHEDULE_BARE;
    if (names_find(&in->draft->schedules, name, &index))
        return (int)index;
    if (in->draft->schedules_known)
        rows_refuse_name(&in->rows, column, "a schedule of this job", in->draft->schedules.items,
                         in->draft->schedules.count);
    return SCHEDULE_NONE;
}

static unsigned regions_of(const struct part *part)
{
    return part->shape == SHAPE_AREA ? 1u << part->area_region : shape_regions(part->shape);
}

/* What is said for all regions of the row: by itself, or by its piece. */
static int read_all_regions(struct part_reading *in)
{
    const struct names *pieces = &in->draft->pieces;
    int all = read_schedule(in, COLUMN_ALL);
    size_t i;
    if (all == SCHEDULE_NONE && in->part->piece < pieces->count &&
        names_find(&in->draft->alls, pieces->items[in->part->piece], &i))
        all = in->draft->all_of[i];
    return all;
}

/* What a row leaves open the job says: for the insides of boxes, and for everything. */
static int usual_schedule(const struct part_reading *in, enum region region)
{
    return region == REGION_INSIDE && in->draft->inside != SCHEDULE_NONE ? in->draft->inside : in->draft->all;
}

static void read_regions(struct part_reading *in)
{
    int all = read_all_regions(in);
    unsigned regions = regions_of(in->part);
    for (int r = 0; r < REGION_COUNT; r++) {
        size_t column = (size_t)COLUMN_REGIONS + (size_t)r;
        int schedule = read_schedule(in, column);
        bool there = (regions >> r) & 1;
        if (!there && schedule >= 0)
            rows_refuse(&in->rows, column,
                        arena_textf(arena_of(in), "nothing: the shape %s has no %s",
                                    shape_name(in->part->shape), region_name((enum region)r)));
        if (there && schedule == SCHEDULE_NONE)
            schedule = all != SCHEDULE_NONE ? all : usual_schedule(in, (enum region)r);
        in->part->schedule[r] = schedule;
    }
}

static void read_part(struct part_reading *in)
{
    in->part->row = in->rows.row;
    for (int r = 0; r < REGION_COUNT; r++)
        in->part->schedule[r] = SCHEDULE_NONE;
    read_names(in);
    read_count(in);
    in->part->wood = read_wood(in, COLUMN_WOOD);
    in->part->core = read_wood(in, COLUMN_CORE);
    in->part->note = kept(in, COLUMN_NOTE);
    if (!read_shape(in))
        return;
    part_read_sizes(in);
    read_regions(in);
}

static void read_all(struct part_reading *in)
{
    size_t capacity = 0;
    struct job *job = in->draft->job;
    struct part *parts = NULL;
    if (!rows_has(&in->rows, COLUMN_PART)) {
        rows_refuse_list(&in->rows, "a column named \"part\"", "none");
        return;
    }
    while (rows_next(&in->rows)) {
        parts = arena_grow(arena_of(in), parts, job->part_count, &capacity, sizeof *parts);
        in->part = &parts[job->part_count++];
        memset(in->part, 0, sizeof *in->part);
        read_part(in);
    }
    job->parts = parts;
    in->draft->parts_known = job->part_count > 0 && !in->rows.incomplete;
}

/* A file, or one sheet of a spreadsheet ("list.xlsx#Doors") as text. */
static bool load_list(struct part_reading *in, struct json_at at, struct file_text *file)
{
    const struct reading *reading = in->draft->reading;
    const char *named, *name, *path;
    struct err err;
    if (!json_text(at, "the name of a file", &named))
        return false;
    named = sheet_path(reading->arena, named, &name);
    if (!sheet_is(named))
        return named_load(at, in->draft->rule, file);
    if (path_resolve(reading->arena, in->draft->rule, named, &path, &err) &&
        reading_load(reading, &in->draft->rule, path, file, &err))
        return sheet_read(reading->arena, file, name, file, &err) ||
               json_refuse_found(at, err.expected, err.found);
    return json_refuse_file(at, &err);
}

/* The list itself, or the file that it stands in: CSV, or JSON by its name. */
static bool open_rows(struct part_reading *in, struct json_at at, struct rows_columns *columns)
{
    struct file_text file = {.name = ""};
    if (!json_is_text(at))
        return rows_open_json(&in->rows, at, columns);
    if (!load_list(in, at, &file))
        return false;
    in->draft->job->parts_file = file.name;
    columns->cells = sheet_is(file.name);
    if (!path_ends(file.name, ".json"))
        return rows_open_csv(&in->rows, in->draft->reading, &file, columns, in->draft->job->strict);
    return json_parse(in->draft->reading, &file, &at) && rows_open_json(&in->rows, at, columns);
}

void job_read_parts(struct field_in in)
{
    struct job_draft *draft = (struct job_draft *)in.context;
    const char **names = ARENA_ARRAY(draft->reading->arena, COLUMN_COUNT, const char *);
    struct rows_columns columns = part_columns(names, draft->units);
    struct part_reading list = {.draft = draft};
    size_t before = reading_mistakes(draft->reading);
    if (!open_rows(&list, in.at, &columns))
        return;
    read_all(&list);
    if (draft->job->part_count == 0 && reading_mistakes(draft->reading) == before)
        rows_refuse_list(&list.rows, "at least one part", "none");
    draft->measurable = reading_mistakes(draft->reading) == before;
}
