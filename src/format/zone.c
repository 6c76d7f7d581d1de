#include "format/zone.h"

#include "base/arena.h"
#include "base/number.h"
#include "format/file.h"

#include <string.h>

enum {
    HEADER_BYTES = 44,
    COUNTS_AT = 20, /* in the header */
    TYPE_BYTES = 6,
    SECONDS = 60,
    HOUR_SECONDS = 3600,
    DAY_SECONDS = 86400,
    NAME_MOST = 100,                 /* of letters */
    OFFSET_MOST = 26 * HOUR_SECONDS, /* RFC 8536, section 3.2: between -25 and 26 hours */
};

static void push(struct zone_table *table, int64_t from_min, int32_t offset_min)
{
    struct zone *zone = table->zone;
    table->changes =
        arena_grow(table->arena, table->changes, zone->count, &table->capacity, sizeof *table->changes);
    table->changes[zone->count++] = (struct zone_change){from_min, offset_min};
    zone->changes = table->changes;
}

void zone_begin(struct zone_table *table, struct arena *arena, const char *name, int32_t offset_min)
{
    *table = (struct zone_table){.arena = arena, .zone = ARENA_NEW(arena, struct zone)};
    table->zone->name = arena_text(arena, name);
    push(table, INT64_MIN, offset_min);
}

void zone_add(struct zone_table *table, int64_t from_min, int32_t offset_min)
{
    struct zone *zone = table->zone;
    if (zone->count > 1 && table->changes[zone->count - 1].from_min == from_min)
        zone->count--;
    if (table->changes[zone->count - 1].offset_min != offset_min)
        push(table, from_min, offset_min);
}

/* Bytes that were not read yet. */
struct bytes {
    const unsigned char *at;
    size_t left;
};

/* The next so many; NULL: there are fewer. */
static const unsigned char *take(struct bytes *bytes, uint64_t size)
{
    const unsigned char *at = bytes->at;
    if (size > bytes->left)
        return NULL;
    bytes->at += size;
    bytes->left -= (size_t)size;
    return at;
}

/* An unsigned number, the high byte first. */
static uint64_t big_endian(const unsigned char *at, int size)
{
    uint64_t number = 0;
    for (int i = 0; i < size; i++)
        number = number << 8 | at[i];
    return number;
}

static int64_t signed_of(uint64_t bits, int size)
{
    uint64_t sign = (uint64_t)1 << (8 * size - 1);
    return bits & sign ? -(int64_t)(sign - 1 - (bits & (sign - 1))) - 1 : (int64_t)bits;
}

/* A header and its data (section 3.1 and 3.2). */
struct block {
    uint64_t leap_count, time_count, type_count;
    const unsigned char *times; /* when another type begins to hold */
    const unsigned char *kinds; /* its number */
    const unsigned char *types; /* offset in four bytes, summer, abbreviation */
};

static bool read_block(struct bytes *bytes, unsigned time_bytes, struct block *block)
{
    const unsigned char *header = take(bytes, HEADER_BYTES);
    if (!header || memcmp(header, "TZif", 4) != 0 || header[4] < '2')
        return false;
    const unsigned char *counts = header + COUNTS_AT;
    uint64_t flags = big_endian(counts, 4) + big_endian(counts + 4, 4), chars = big_endian(counts + 20, 4);
    block->leap_count = big_endian(counts + 8, 4);
    block->time_count = big_endian(counts + 12, 4);
    block->type_count = big_endian(counts + 16, 4);
    block->times = take(bytes, block->time_count * time_bytes);
    block->kinds = take(bytes, block->time_count);
    block->types = take(bytes, block->type_count * TYPE_BYTES);
    return block->times && block->kinds && block->types &&
           take(bytes, chars + block->leap_count * (time_bytes + 4) + flags);
}

/* Seconds to UTC of a type. */
static bool read_offset(const struct block *block, uint64_t type, int32_t *offset)
{
    if (type >= block->type_count)
        return false;
    *offset = (int32_t)signed_of(big_endian(block->types + type * TYPE_BYTES, 4), 4);
    return *offset > -OFFSET_MOST && *offset < OFFSET_MOST;
}

/* On which day of a year a rule changes the clock, and when on it (section 3.3; POSIX, "TZ"). */
struct turn {
    enum { FROM_1_WITHOUT_LEAP, FROM_0, MONTH_WEEKDAY } form;
    int month, week, day;
    int32_t seconds; /* of the day, on the clock before */
};

/* What holds after the last change of the data. */
struct footer {
    bool summer; /* whether there are any changes */
    int32_t standard, daylight;
    struct turn begin, end;
};

/* `GMT` or `<-03>`. */
static bool skip_abbreviation(const char **at)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
    bool quoted = **at == '<';
    const char *text = *at + quoted;
    size_t length = strspn(text, letters);
    if (quoted)
        length += strspn(text + length, "0123456789+-abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ");
    *at = text + length + quoted;
    return length >= 3 && (!quoted || text[length] == '>');
}

static bool number_between(const char **at, int least, int most, int *number)
{
    return digits_scan(at, 1, 3, number) && *number >= least && *number <= most;
}

/* `5`, `-3:30`, `+167:59:59`. */
static bool read_clock(const char **at, int hours_most, int32_t *seconds)
{
    bool minus = **at == '-';
    int hour, minute = 0, second = 0;
    *at += minus || **at == '+';
    if (!number_between(at, 0, hours_most, &hour))
        return false;
    if (**at == ':' && (++*at, !number_between(at, 0, 59, &minute)))
        return false;
    if (**at == ':' && (++*at, !number_between(at, 0, 59, &second)))
        return false;
    *seconds = (hour * SECONDS + minute) * SECONDS + second;
    *seconds = minus ? -*seconds : *seconds;
    return true;
}

static bool expect(const char **at, char sign)
{
    bool there = **at == sign;
    *at += there;
    return there;
}

/* `,M3.5.0/1`, `,J60`, `,59/2:30`. */
static bool read_turn(const char **at, struct turn *turn)
{
    bool good;
    *turn = (struct turn){.form = FROM_0, .seconds = 2 * HOUR_SECONDS};
    if (!expect(at, ','))
        return false;
    if (expect(at, 'M')) {
        turn->form = MONTH_WEEKDAY;
        good = number_between(at, 1, 12, &turn->month) && expect(at, '.') &&
               number_between(at, 1, 5, &turn->week) && expect(at, '.') &&
               number_between(at, 0, 6, &turn->day);
    } else if (expect(at, 'J')) {
        turn->form = FROM_1_WITHOUT_LEAP;
        good = number_between(at, 1, 365, &turn->day);
    } else {
        good = number_between(at, 0, 365, &turn->day);
    }
    return good && (!expect(at, '/') || read_clock(at, 167, &turn->seconds));
}

/* `GMT0BST,M3.5.0/1,M10.5.0`, `<-03>3`, or nothing. The hours are those west of Greenwich. */
static bool read_footer(const char *text, struct footer *footer)
{
    int32_t west;
    *footer = (struct footer){.summer = false};
    if (!*text)
        return true;
    if (!skip_abbreviation(&text) || !read_clock(&text, 24, &west))
        return false;
    footer->standard = -west;
    footer->daylight = footer->standard + HOUR_SECONDS;
    if (!*text)
        return true;
    footer->summer = true;
    if (!skip_abbreviation(&text))
        return false;
    if (*text != ',') {
        if (!read_clock(&text, 24, &west))
            return false;
        footer->daylight = -west;
    }
    return read_turn(&text, &footer->begin) && read_turn(&text, &footer->end) && !*text;
}

/* The day of a year on which a rule changes the clock, since 1970. */
static int64_t day_of(const struct turn *turn, int year)
{
    int64_t first = date_days((struct date){year, 1, 1});
    if (turn->form != MONTH_WEEKDAY) {
        bool leap_day = turn->form == FROM_1_WITHOUT_LEAP && year_leap(year) && turn->day >= 60;
        return first + turn->day - (turn->form == FROM_1_WITHOUT_LEAP) + leap_day;
    }
    int days = month_days(year, turn->month), sunday_based = (turn->day + 6) % 7;
    first = date_days((struct date){year, turn->month, 1});
    int day = (sunday_based - (int)weekday_of(first) + 7) % 7 + 7 * (turn->week - 1);
    return first + (day < days ? day : day - 7);
}

/* The changes of a file that lie in the years wanted. */
struct window {
    struct zone_table table;
    int64_t from_min, to_min;
    int64_t last; /* second of the last change so far */
    bool begun;   /* the table is */
    const char *name;
    int32_t offset; /* what holds at from_min, as far as is known */
};

/* In whole minutes: a moment at or after the change, an offset without its seconds. A rule of a year that reaches back
 * behind that of the year before is passed over. */
static void add_change(struct window *window, int64_t second, int32_t offset)
{
    if (second < window->last)
        return;
    int64_t minute = number_floor_div(second, SECONDS) + (second % SECONDS != 0);
    window->last = second;
    if (minute <= window->from_min) {
        window->offset = offset;
        return;
    }
    if (!window->begun)
        zone_begin(&window->table, window->table.arena, window->name, window->offset / SECONDS);
    window->begun = true;
    if (minute <= window->to_min)
        zone_add(&window->table, minute, offset / SECONDS);
}

static bool add_data(struct window *window, const struct block *block)
{
    for (uint64_t i = 0; i < block->time_count; i++) {
        int64_t second = signed_of(big_endian(block->times + 8 * i, 8), 8);
        int32_t offset;
        if ((i > 0 && second <= window->last) || !read_offset(block, block->kinds[i], &offset))
            return false;
        add_change(window, second, offset);
    }
    return true;
}

/* The changes of the rule behind those of the data. Where it is summer all year, its end and its next beginning are one
 * moment, and the beginning is added last. */
static void add_rule(struct window *window, const struct footer *footer, struct zone_years years)
{
    int64_t data_last = window->last;
    for (int year = years.first - 1; footer->summer && year <= years.last + 1; year++) {
        int64_t begin = day_of(&footer->begin, year) * DAY_SECONDS + footer->begin.seconds - footer->standard;
        int64_t end = day_of(&footer->end, year) * DAY_SECONDS + footer->end.seconds - footer->daylight;
        bool north = begin < end;
        for (int half = 0; half < 2; half++) {
            bool begins = (half == 0) == north;
            int64_t second = begins ? begin : end;
            if (second > data_last)
                add_change(window, second, begins ? footer->daylight : footer->standard);
        }
    }
}

/* The text between the line ends at the end of the file; NULL: it is not there. */
static const char *footer_text(struct arena *arena, const struct bytes *bytes)
{
    const unsigned char *end =
        bytes->left > 1 && bytes->at[0] == '\n' ? memchr(bytes->at + 1, '\n', bytes->left - 1) : NULL;
    const char *text = (const char *)bytes->at + 1;
    return end ? arena_text_n(arena, text, (size_t)((const char *)end - text)) : NULL;
}

const struct zone *zone_parse(struct arena *arena, const char *name, const char *bytes, size_t length,
                              struct zone_years years)
{
    struct bytes in = {(const unsigned char *)bytes, length};
    struct block old, block;
    struct footer footer;
    struct window window = {.table = {.arena = arena},
                            .from_min = date_days((struct date){years.first, 1, 1}) * DAY_MINUTES,
                            .to_min = date_days((struct date){years.last + 1, 1, 1}) * DAY_MINUTES,
                            .last = INT64_MIN,
                            .name = name};
    if (!read_block(&in, 4, &old) || !read_block(&in, 8, &block) || block.leap_count > 0 ||
        !read_offset(&block, 0, &window.offset))
        return NULL;
    const char *rule = footer_text(arena, &in);
    if (!rule || !read_footer(rule, &footer) || !add_data(&window, &block))
        return NULL;
    add_rule(&window, &footer, years);
    if (!window.begun)
        zone_begin(&window.table, arena, name, window.offset / SECONDS);
    return window.table.zone;
}

static bool is_zone_name(const char *name)
{
    static const char marks[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_+-/";
    size_t length = strspn(name, marks);
    return length > 0 && length <= NAME_MOST && name[0] != '/' && !name[length];
}

/* From where systems keep them. False: there is none, or, by *err, it cannot be read. */
static bool load_from_system(struct arena *arena, const char *name, struct file_text *file, struct err *err)
{
    static const char *const folders[] = {"/usr/share/zoneinfo", "/usr/lib/zoneinfo",
                                          "/usr/share/lib/zoneinfo", "/etc/zoneinfo"};
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) {
        const char *path = arena_textf(arena, "%s/%s", folders[i], name);
        if (file_load(arena, path, file, err))
            return true;
        if (file_may_be(path))
            return false;
    }
    *err = (struct err){.code = ERR_NONE};
    return false;
}

const struct zone *zone_load(struct arena *arena, const char *name, struct zone_years years, struct err *err)
{
    struct zone_table utc;
    struct file_text file;
    *err = (struct err){.code = ERR_NONE};
    if (strcmp(name, "UTC") == 0) {
        zone_begin(&utc, arena, name, 0);
        return utc.zone;
    }
    if (!is_zone_name(name) || !load_from_system(arena, name, &file, err))
        return NULL;
    return zone_parse(arena, name, file.text, file.length, years);
}

/* zone.tab: country, place and name, and often a remark, between tabs. */
const char **zone_names(struct arena *arena, size_t *count)
{
    struct err unused;
    struct file_text file;
    const char **names = NULL, *line = load_from_system(arena, "zone.tab", &file, &unused) ? file.text : "";
    size_t capacity = 0;
    for (*count = 0; *line; line += strcspn(line, "\n"), line += *line == '\n') {
        const char *at = line + strcspn(line, "\t\n");
        at += *at == '\t' ? 1 + strcspn(at + 1, "\t\n") : 0;
        if (line[0] == '#' || *at != '\t')
            continue;
        names = arena_grow(arena, names, *count, &capacity, sizeof *names);
        names[(*count)++] = arena_text_n(arena, at + 1, strcspn(at + 1, "\t\n"));
    }
    return names;
}
