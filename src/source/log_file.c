#include "source/log_file.h"

#include "base/arena.h"
#include "base/measure.h"
#include "source/field.h"

#include <string.h>

/* As many lines as fit one block of an arena, so that the same memory is used over and over; and the shortest entry. */
enum { LINES_AT_ONCE = 16, SHORTEST_ENTRY = 20 };

/* What is read of one line. */
struct line {
    struct log_entry entry;
    const char *step, *again, *skip;
    int64_t undone;
    bool has_air;
};

static void read_number(struct field_in in)
{
    double value;
    int64_t *number = in.record;
    if (!json_number(in.at, &value))
        return;
    if (value < 1 || value > 9e15 || value != (double)(int64_t)value)
        json_refuse(in.at, "a whole number from 1");
    else
        *number = (int64_t)value;
}

static void read_entry_number(struct field_in in)
{
    struct line *line = in.record;
    read_number((struct field_in){in.at, &line->entry.number, in.context});
}

static void read_undone(struct field_in in)
{
    struct line *line = in.record;
    read_number((struct field_in){in.at, &line->undone, in.context});
}

static bool read_moment(struct json_at at, const struct zone *zone, int64_t *minute)
{
    static const char expected[] = "a moment such as \"2027-03-02T15:00+01:00\"";
    struct moment_text moment;
    struct err fault;
    const char *text;
    if (!json_text(at, expected, &text))
        return false;
    if (!moment_parse(text, zone, &moment, &fault) || moment.date_only)
        return json_refuse(at, expected);
    *minute = moment.minute;
    return true;
}

static void read_written(struct field_in in)
{
    struct line *line = in.record;
    (void)read_moment(in.at, in.context, &line->entry.written_min);
}

static void read_began(struct field_in in)
{
    struct line *line = in.record;
    (void)read_moment(in.at, in.context, &line->entry.began_min);
}

static void read_done(struct field_in in)
{
    struct line *line = in.record;
    (void)read_moment(in.at, in.context, &line->entry.done_min);
}

struct air_reading {
    int64_t from_min;
    struct air air;
};

static void read_from(struct field_in in)
{
    struct air_reading *air = in.record;
    (void)read_moment(in.at, in.context, &air->from_min);
}

static void read_air(struct field_in in)
{
    static const struct field items[] = {
        {"from", FIELD_OWN, .needed = true, .read = read_from},
        {"temperature", FIELD_QUANTITY, AT(air_reading, air.temperature_c), .needed = true,
         .quantity = &field_temperature, .limit = LIMIT_TEMPERATURE},
        {"humidity", FIELD_QUANTITY, AT(air_reading, air.humidity), .needed = true, .quantity = &field_share,
         .limit = LIMIT_HUMIDITY},
    };
    static const struct fields fields = FIELDS("air that was measured", items);
    struct line *line = in.record;
    struct air_reading air = {INT64_MIN, {0, 0}};
    line->has_air = fields_read(in.at, &fields, &air, in.context);
    line->entry.began_min = air.from_min;
    line->entry.air = air.air;
}

static const struct field items[] = {
    {"entry", FIELD_OWN, .needed = true, .read = read_entry_number},
    {"written", FIELD_OWN, .read = read_written},
    {"step", FIELD_TEXT, AT(line, step), .expected = "the id of a step"},
    {"began", FIELD_OWN, .read = read_began},
    {"done", FIELD_OWN, .read = read_done},
    {"used", FIELD_QUANTITY, AT(line, entry.used_l), .quantity = &field_volume},
    {"first", FIELD_WHOLE, AT(line, entry.first), .limit = LIMIT_QTY},
    {"parts", FIELD_WHOLE, AT(line, entry.parts), .limit = LIMIT_QTY},
    {"person", FIELD_TEXT, AT(line, entry.person), .expected = "who did it"},
    {"note", FIELD_TEXT, AT(line, entry.note), .expected = "a note"},
    {"as-planned", FIELD_TRUE, AT(line, entry.as_planned)},
    {"batch", FIELD_TEXT, AT(line, entry.batch), .expected = "the id of a batch"},
    {"again", FIELD_TEXT, AT(line, again), .expected = "the id of a step"},
    {"because", FIELD_TEXT, AT(line, entry.because), .expected = "why it must be repeated"},
    {"sand", FIELD_WHOLE, AT(line, entry.grit), .limit = LIMIT_GRIT},
    {"skip", FIELD_TEXT, AT(line, skip), .expected = "the id of a step"},
    {"undo", FIELD_OWN, .read = read_undone},
    {"air", FIELD_OWN, .read = read_air},
};
static const struct fields fields = FIELDS("an entry of the log", items);

/* Which kind it is: exactly one key says so. */
static bool settle_kind(struct json_at at, struct line *line)
{
    const char *const steps[] = {line->step, line->again, line->skip};
    int kinds = line->has_air + (line->undone > 0);
    struct log_entry *entry = &line->entry;
    entry->kind = line->has_air ? LOG_AIR : LOG_UNDO;
    for (int i = 0; i < 3; i++)
        if (steps[i]) {
            entry->kind = (enum log_kind)i;
            entry->step = steps[i];
            kinds++;
        }
    if (kinds != 1)
        return json_refuse_found(at, "an entry with one of step, again, skip, air and undo",
                                 kinds == 0 ? "none of them" : "several of them");
    entry->undone = line->undone;
    if (entry->kind == LOG_DONE && entry->done_min == INT64_MIN)
        return json_refuse(json_member(at, "done"), "the moment at which the step was done");
    if (entry->kind == LOG_DONE && entry->began_min > entry->done_min)
        return json_refuse(json_member(at, "began"), "a beginning that is not after the end");
    return true;
}

/* A reading of one line that keeps its mistakes to itself. */
struct line_reader {
    const struct reading *all;
    const struct file_text *file;
    struct reading reading;
    struct err_list errors;
    const struct zone *zone;
    struct arena *scratch; /* what is taken for a few lines */
    int lines;
};

static void warn_left_out(struct line_reader *reader, size_t at, const struct err *why)
{
    text_warn(reader->all->warnings, reader->file, at, "",
              arena_textf(reader->all->arena, "this entry is left out: %s%sexpected %s, found %s",
                          why->pointer, why->pointer[0] ? ": " : "", why->expected, why->found));
}

static bool read_line(struct line_reader *reader, size_t at, size_t length, bool finished,
                      struct log_entry *entry)
{
    const struct file_text text = {.name = reader->file->name,
                                   .text = arena_text_n(reader->scratch, reader->file->text + at, length),
                                   .length = length};
    struct line line = {
        .entry = {
            .written_min = INT64_MIN, .began_min = INT64_MIN, .done_min = INT64_MIN, .used_l = -1, .at = at}};
    struct json_at root;
    reader->errors.count = reader->errors.dropped = 0;
    bool good = json_parse(&reader->reading, &text, &root) &&
                fields_read(root, &fields, &line, reader->zone) && reader->errors.count == 0 &&
                settle_kind(root, &line);
    if (!good && !finished)
        text_warn(reader->all->warnings, reader->file, at, "",
                  "the last line is not finished and is left out");
    else if (!good && reader->errors.count > 0)
        warn_left_out(reader, at, &reader->errors.items[0]);
    *entry = line.entry;
    return good;
}

/* Texts of an entry outlive the line; most entries say what the one before said. */
static const char *keep(struct arena *arena, const char *text, const char *before)
{
    if (!text || (before && strcmp(text, before) == 0))
        return text ? before : NULL;
    return arena_text(arena, text);
}

static void keep_texts(struct arena *arena, struct log_entry *entry, const struct log_entry *before)
{
    static const struct log_entry none = {0};
    before = before ? before : &none;
    entry->step = keep(arena, entry->step, before->step);
    entry->person = keep(arena, entry->person, before->person);
    entry->note = keep(arena, entry->note, before->note);
    entry->because = keep(arena, entry->because, before->because);
    entry->batch = keep(arena, entry->batch, before->batch);
}

static void renew_scratch(struct line_reader *reader)
{
    struct arena *owner = reader->all->arena;
    if (reader->lines++ % LINES_AT_ONCE != 0)
        return;
    if (reader->scratch)
        arena_free_within(owner, reader->scratch);
    reader->scratch = arena_make_within(owner, 0);
    reader->reading = (struct reading){reader->scratch, texts_make(reader->scratch), &reader->errors,
                                       &reader->errors, NULL};
}

static void check_order(struct line_reader *reader, const struct log *log, const struct log_entry *entry)
{
    if (entry->number <= log->last)
        text_warn(
            reader->all->warnings, reader->file, entry->at, "/entry",
            "the number of this entry is not above those before it: the log was edited or put together");
}

/* How many entries a file can hold at most. */
static size_t count_lines(const struct file_text *file)
{
    size_t count = 0;
    for (size_t at = 0, length; at < file->length; at += length + 1) {
        const char *line = file->text + at, *end = memchr(line, '\n', file->length - at);
        length = end ? (size_t)(end - line) : file->length - at;
        count += length >= SHORTEST_ENTRY;
    }
    return count;
}

struct log log_read(const struct reading *reading, const struct file_text *file, const struct zone *zone)
{
    struct line_reader *reader = ARENA_NEW(reading->arena, struct line_reader);
    struct log log = {.file = file->name};
    struct log_entry *entries = ARENA_ARRAY(reading->arena, count_lines(file) + 1, struct log_entry),
                     *last = NULL;
    reader->all = reading;
    reader->file = file;
    reader->zone = zone;
    for (size_t at = 0, length; at < file->length; at += length + 1) {
        const char *line = file->text + at, *end = memchr(line, '\n', file->length - at);
        length = end ? (size_t)(end - line) : file->length - at;
        struct log_entry entry;
        bool blank = strspn(line, " \t\r") >= length;
        renew_scratch(reader);
        bool good = !blank && read_line(reader, at, length, end != NULL, &entry);
        log.whole = end || good ? at + length + (end != NULL) : log.whole;
        if (!good)
            continue;
        check_order(reader, &log, &entry);
        keep_texts(reading->arena, &entry, last);
        log.partial |= entry.parts > 0;
        last = &entries[log.count++];
        *last = entry;
        log.last = entry.number > log.last ? entry.number : log.last;
    }
    log.entries = entries;
    if (reader->scratch)
        arena_free_within(reading->arena, reader->scratch);
    return log;
}

static void put_moment(struct json_write *to, const char *key, const struct zone *zone, int64_t minute)
{
    if (minute != INT64_MIN)
        json_put_moment(to, key, zone, minute);
}

static void put_text(struct json_write *to, const char *key, const char *text)
{
    if (text)
        json_put_text(to, key, text);
}

static void write_done(struct json_write *to, const struct log_entry *entry, const struct zone *zone)
{
    json_put_text(to, "step", entry->step);
    put_moment(to, "began", zone, entry->began_min);
    put_moment(to, "done", zone, entry->done_min);
    if (entry->used_l >= 0)
        json_put_text(to, "used", volume_write(entry->used_l).text);
    if (entry->parts > 0) {
        if (entry->first > 0)
            json_put_whole(to, "first", entry->first);
        json_put_whole(to, "parts", entry->parts);
    }
    if (entry->as_planned)
        json_put_flag(to, "as-planned", true);
    put_text(to, "person", entry->person);
    put_text(to, "note", entry->note);
    put_text(to, "batch", entry->batch);
}

static void write_again(struct json_write *to, const struct log_entry *entry)
{
    json_put_text(to, "again", entry->step);
    put_text(to, "because", entry->because);
    if (entry->grit > 0)
        json_put_whole(to, "sand", entry->grit);
}

static void write_air(struct json_write *to, const struct log_entry *entry, const struct zone *zone)
{
    json_open_row(to, "air", '{');
    json_put_moment(to, "from", zone, entry->began_min);
    json_put_text(to, "temperature", temperature_write(entry->air.temperature_c).text);
    json_put_text(to, "humidity", share_write(entry->air.humidity).text);
    json_close(to);
}

void log_write(struct buf *out, const struct log_entry *entry, const struct zone *zone)
{
    struct json_write to;
    json_write_init(&to, out);
    json_open_row(&to, NULL, '{');
    json_put_whole(&to, "entry", entry->number);
    put_moment(&to, "written", zone, entry->written_min);
    switch (entry->kind) {
    case LOG_DONE:
        write_done(&to, entry, zone);
        break;
    case LOG_AGAIN:
        write_again(&to, entry);
        break;
    case LOG_SKIP:
        json_put_text(&to, "skip", entry->step);
        break;
    case LOG_AIR:
        write_air(&to, entry, zone);
        break;
    case LOG_UNDO:
    case LOG_KIND_COUNT:
        json_put_whole(&to, "undo", entry->undone);
        break;
    }
    json_close(&to);
}
