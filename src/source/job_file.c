#include "source/job_file.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/moment.h"
#include "base/money.h"
#include "base/text.h"
#include "format/ical_busy.h"
#include "format/zone.h"
#include "source/job_draft.h"
#include "source/finish_table.h"
#include "source/shop_file.h"
#include "surface/takeoff.h"

#include <string.h>

static const char *const formats[] = {"coatwright-job/1"};

/* Years around those of the job for which its zone's changes are looked up: a plan may end long after the delivery. */
enum { YEARS_BEFORE = 2, YEARS_AFTER = 8, YEAR_USUAL = 2027, YEAR_LEAST = 1972, YEAR_MOST = 2400 };

static const double usual_reserve = 0.1;

bool named_path(struct json_at at, struct path_rule rule, const char **path)
{
    struct arena *arena = at.doc->reading->arena;
    struct err fault;
    const char *named;
    if (!json_text(at, "the name of a file", &named))
        return false;
    if (path_resolve(arena, rule, named, path, &fault))
        return true;
    return json_refuse_found(at, fault.expected, arena_textf(arena, "%s (%s)", json_found(at), fault.found));
}

bool named_load(struct json_at at, struct path_rule rule, struct file_text *file)
{
    struct err fault;
    const char *path;
    if (!named_path(at, rule, &path))
        return false;
    return reading_load(at.doc->reading, &rule, path, file, &fault) || json_refuse_file(at, &fault);
}

/* The draft that a field's reader is to fill. */
static struct job_draft *draft_of(struct field_in in)
{
    return (struct job_draft *)in.context;
}

static void read_format(struct field_in in)
{
    int unused;
    json_choice(in.at, formats, 1, &unused);
}

static int year_of(struct json_at at)
{
    const char *text;
    struct text_short number;
    int year = 0, digits = 0;
    if (!json_cell(at, &text, &number))
        return YEAR_USUAL;
    for (; digits < 4 && text[digits] >= '0' && text[digits] <= '9'; digits++)
        year = year * 10 + (text[digits] - '0');
    return digits == 4 && year >= YEAR_LEAST && year <= YEAR_MOST ? year : YEAR_USUAL;
}

static struct zone_years years_of(const struct job_draft *draft)
{
    int a = year_of(json_member(draft->root, "start")), b = year_of(json_member(draft->root, "deliver"));
    return (struct zone_years){(a < b ? a : b) - YEARS_BEFORE, (a < b ? b : a) + YEARS_AFTER};
}

/* `Chicago` is America/Chicago: a zone whose last part is the word, in any case; NULL: none. */
static const char *zone_of_city(const char *const *names, size_t count, const char *word)
{
    for (size_t i = 0; i < count; i++)
        if (text_same(path_last(names[i]), word))
            return names[i];
    return NULL;
}

static const char a_zone[] = "a time zone such as \"Europe/London\"";

static void refuse_zone(struct json_at at, const char *name)
{
    struct arena *arena = at.doc->reading->arena;
    size_t count;
    const char **names = zone_names(arena, &count), *city = zone_of_city(names, count, name);
    if (city)
        json_refuse_found(at, a_zone, arena_textf(arena, "%s (did you mean \"%s\"?)", json_found(at), city));
    else
        json_refuse_name(at, a_zone, names, count);
}

static void read_zone(struct field_in in)
{
    struct job_draft *draft = draft_of(in);
    struct arena *arena = draft->reading->arena;
    const char *name = "UTC";
    struct err fault;
    (void)json_text(in.at, a_zone, &name);
    draft->job->zone = zone_load(arena, name, years_of(draft), &fault);
    if (draft->job->zone)
        return;
    draft->job->zone = ARENA_NEW(arena, struct zone);
    if (fault.code == ERR_FILE)
        (void)json_refuse_file(in.at, &fault);
    else
        refuse_zone(in.at, name);
}

static void read_currency(struct field_in in)
{
    struct job *job = in.record;
    const char *text;
    if (!json_text(in.at, "a currency such as \"GBP\"", &text))
        return;
    if (strlen(text) != 3 || strspn(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != 3) {
        json_refuse(in.at, "a currency of three capital letters, such as \"GBP\"");
        return;
    }
    job->currency = text;
    job->currency_digits = money_digits(text);
}

static void read_units(struct field_in in)
{
    const char *units[LENGTH_FT];
    struct job_draft *draft = draft_of(in);
    int choice = 0;
    for (int unit = LENGTH_MM; unit <= LENGTH_FT; unit++)
        units[unit - LENGTH_MM] = length_unit_name((enum length_unit)unit);
    json_choice(in.at, units, LENGTH_FT, &choice);
    draft->units = (enum length_unit)(LENGTH_MM + choice);
    draft->job->inches = draft->units == LENGTH_IN || draft->units == LENGTH_FT;
}

/* The shop, or the defaults; in a file of its own, or in the job. */
static void read_shop(struct field_in in)
{
    struct job_draft *draft = draft_of(in);
    struct json_at at = in.at;
    struct file_text file;
    draft->busy_rule = draft->rule;
    shop_default(&draft->job->shop);
    if (!at.node)
        return;
    if (json_is_text(at)) {
        if (!named_load(at, draft->rule, &file))
            return;
        draft->busy_rule.from = draft->job->shop_file = file.name;
        if (!json_parse(draft->reading, &file, &at))
            return;
    }
    shop_read(at, draft->job->currency_digits, &draft->job->shop);
    draft->busy = json_member(at, "busy");
    draft->people = json_member(at, "people");
    draft->shop_prices = json_member(at, "prices");
}

static void write_shop(struct field_out out)
{
    const struct job *job = out.record, *base = out.base;
    json_open_row(out.to, out.key, '{');
    shop_write(out.to, &job->shop, &base->shop);
    json_close(out.to);
}

/* In a file of its own it is no part of the job's. */
static bool same_shop(const void *a, const void *b)
{
    const struct job *left = a, *right = b;
    return left->shop_file || shop_same(&left->shop, &right->shop);
}

/* Whole days are working days. */
static void read_to_spare(struct field_in in)
{
    struct job *job = in.record;
    int32_t minutes;
    if (!read_span(in.at, LIMIT_WAIT, &minutes))
        return;
    job->to_spare_days = minutes / DAY_MINUTES;
    job->to_spare_min = minutes % DAY_MINUTES;
}

static int32_t to_spare(const struct job *job)
{
    return job->to_spare_days * DAY_MINUTES + job->to_spare_min;
}

static bool same_to_spare(const void *a, const void *b)
{
    return to_spare(a) == to_spare(b);
}

static void write_to_spare(struct field_out out)
{
    json_put_text(out.to, out.key, span_write(to_spare(out.record)).text);
}

static bool read_written(const struct job_draft *draft, struct json_at at, struct moment_text *moment)
{
    struct err fault;
    const char *text;
    if (!json_text(at, "a moment such as \"2027-03-01 08:00\"", &text))
        return false;
    if (!moment_parse(text, draft->job->zone, moment, &fault))
        return json_refuse(at, fault.expected);
    /* No zone is known for longer, and whoever looks up each year until then would not come back. */
    int year = moment->date_only ? moment->date.year : zone_wall(draft->job->zone, moment->minute).year;
    return (year >= YEAR_LEAST && year <= YEAR_MOST) || json_refuse(at, "a year from 1972 to 2400");
}

/* A day alone is completed with its hours. */
static bool complete(const struct job_draft *draft, struct json_at at, const struct moment_text *moment,
                     bool closing, int64_t *minute)
{
    const struct job *job = draft->job;
    if (!moment->date_only)
        *minute = moment->minute;
    else if (!shop_nearest_hours(&job->shop, job->zone, date_days(moment->date), closing, minute))
        /* Where hours could not be read, it is they that must be mended. */
        return reading_mistakes(draft->reading) == 0 &&
               json_refuse(at, "a day near one on which the shop is open");
    return true;
}

bool job_read_moment(const struct job_draft *draft, struct json_at at, int64_t *minute)
{
    struct moment_text moment;
    return read_written(draft, at, &moment) && complete(draft, at, &moment, false, minute);
}

static void read_start(struct field_in in)
{
    job_read_moment(in.context, in.at, &((struct job *)in.record)->start_min);
}

static void read_deliver(struct field_in in)
{
    struct job *job = in.record;
    struct moment_text moment;
    if (!read_written(in.context, in.at, &moment) ||
        !complete(in.context, in.at, &moment, true, &job->deliver_min))
        return;
    job->deliver_is_day = moment.date_only;
    job->deliver_day = moment.date_only ? date_days(moment.date) : 0;
}

static void write_deliver(struct field_out out)
{
    const struct job *job = out.record;
    json_put_text(out.to, out.key,
                  job->deliver_is_day ? date_format(date_of(job->deliver_day)).text
                                      : moment_format(job->zone, job->deliver_min, MOMENT_PLAIN).text);
}

static void write_start(struct field_out out)
{
    const struct job *job = out.record;
    json_put_text(out.to, out.key, moment_format(job->zone, job->start_min, MOMENT_PLAIN).text);
}

static bool same_start(const void *a, const void *b)
{
    return ((const struct job *)a)->start_min == ((const struct job *)b)->start_min;
}

static bool same_deliver(const void *a, const void *b)
{
    const struct job *left = a, *right = b;
    return left->deliver_min == right->deliver_min && left->deliver_is_day == right->deliver_is_day;
}

/* The shop's own folder, when it can be listed; NULL otherwise. */
static const char *own_folder(const struct job_draft *draft, struct json_at at)
{
    struct file_list names;
    struct err fault;
    const char *path;
    if (!at.node || !named_path(at, draft->rule, &path))
        return NULL;
    if (reading_list(draft->reading, draft->rule, path, ".json", &names, &fault))
        return path;
    json_refuse_file(at, &fault);
    return NULL;
}

static void read_finishes(struct field_in in)
{
    struct job_draft *draft = draft_of(in);
    struct finish_folders folders = {.shipped = draft->shipped,
                                     .own = own_folder(draft, in.at),
                                     .rule = draft->rule,
                                     .currency_digits = draft->job->currency_digits};
    draft->job->own_finishes = folders.own;
    draft->finishes = finish_table_load(draft->reading, &folders);
    draft->job->finishes = draft->finishes->items;
    draft->job->finish_count = draft->finishes->count;
    draft->job->fit = fit_rules_load(draft->reading, &folders, draft->finishes);
    draft->job->sundries = sundry_rules_load(draft->reading, &folders);
}

int job_schedule_at(const struct job_draft *draft, struct json_at at)
{
    static const char expected[] = "a schedule of this job";
    const char *name;
    size_t index;
    if (!json_text(at, expected, &name))
        return SCHEDULE_NONE;
    if (names_find(&draft->schedules, name, &index))
        return (int)index;
    if (draft->schedules_known)
        json_refuse_name(at, expected, draft->schedules.items, draft->schedules.count);
    return SCHEDULE_NONE;
}

static void read_all_schedule(struct field_in in)
{
    draft_of(in)->all = job_schedule_at(in.context, in.at);
}

static void read_inside(struct field_in in)
{
    draft_of(in)->inside = job_schedule_at(in.context, in.at);
}

/* What pieces say for all of their parts is needed before the parts are read. */
static void read_alls(struct job_draft *draft)
{
    struct json_at list = json_member(draft->root, "pieces");
    int *all_of = ARENA_ARRAY(draft->reading->arena, json_size(list), int);
    draft->all_of = all_of;
    for (struct json_at item = json_first(list); item.node; item = json_next(item)) {
        struct json_at name = json_member(item, "piece"), all = json_member(item, "all");
        const char *piece;
        bool added;
        if (!all.node || !json_is_text(name) || !json_text(name, "a piece of the part list", &piece))
            continue;
        size_t i = names_add(&draft->alls, piece, &added);
        all_of[i] = job_schedule_at(draft, all);
    }
}

static void read_parts(struct field_in in)
{
    read_alls(draft_of(in));
    job_read_parts(in);
}

/* In the order in which they need each other: the head, the shop, the days in its hours, the finishes, the schedules, the
 * parts, the tasks and pieces that they name, the stock. */
static const struct field items[] = {
    {"format", FIELD_OWN, .needed = true, .read = read_format},
    {"job", FIELD_TEXT, AT(job, name), .needed = true, .expected = "the job's name"},
    {"customer", FIELD_TEXT, AT(job, customer), .expected = "the customer's name"},
    {"units", FIELD_OWN, .read = read_units},
    {"strict", FIELD_TRUE, AT(job, strict)},
    {"zone", FIELD_OWN, .needed = true, .read = read_zone},
    {"currency", FIELD_TEXT, AT(job, currency), .read = read_currency},
    {"deliver-at", FIELD_WORD, AT(job, deliver_at), WORDS(finish_state_names)},
    {"reserve", FIELD_QUANTITY, AT(job, reserve), .quantity = &field_share, .limit = LIMIT_RESERVE},
    {"to-spare", FIELD_OWN, .read = read_to_spare, .write = write_to_spare, .same = same_to_spare},
    {"shop", FIELD_OWN, .needed = true, .read = read_shop, .write = write_shop, .same = same_shop},
    {"start", FIELD_OWN, .needed = true, .read = read_start, .write = write_start, .same = same_start},
    {"deliver", FIELD_OWN, .needed = true, .read = read_deliver, .write = write_deliver,
     .same = same_deliver},
    {"finishes", FIELD_OWN, .needed = true, .read = read_finishes},
    {"prices", FIELD_OWN, .needed = true, .read = job_read_prices},
    {"schedules", FIELD_OWN, .needed = true, .read = job_read_schedules, .write = job_write_schedules,
     .same = job_same_schedules},
    {"all", FIELD_OWN, .read = read_all_schedule},
    {"inside", FIELD_OWN, .read = read_inside},
    {"parts", FIELD_OWN, .needed = true, .read = read_parts},
    {"tasks", FIELD_OWN, .read = job_read_task_names},
    {"pieces", FIELD_OWN, .needed = true, .read = job_read_pieces, .write = job_write_pieces,
     .same = job_same_pieces},
    {"stock", FIELD_OWN, .read = job_read_stock},
    {"log", FIELD_OWN, .needed = true, .read = job_read_log},
};
static const struct fields fields = FIELDS("a job", items);

/* On one line, without its end; NULL where it says nothing. */
static const char *one_line(struct buf *buf)
{
    if (buf->length > 0 && buf->text[buf->length - 1] == '\n')
        buf->text[--buf->length] = '\0';
    return strcmp(buf->text, "{}") == 0 ? NULL : buf->text;
}

static const char *change_of(struct arena *arena, const struct job *from, const struct job *to, bool of_shop)
{
    struct buf buf;
    struct json_write w;
    buf_init(&buf, arena);
    json_write_init(&w, &buf);
    json_open_row(&w, NULL, '{');
    if (of_shop)
        shop_write(&w, &to->shop, &from->shop);
    else
        fields_write(&w, &fields, to, from);
    json_close(&w);
    return one_line(&buf);
}

/* Names of pieces and parts are not looked at: something else is tried on the same parts. */
static const char *job_change(struct arena *arena, const struct job *from, const struct job *to)
{
    return change_of(arena, from, to, false);
}

static const char *shop_change(struct arena *arena, const struct job *from, const struct job *to)
{
    return change_of(arena, from, to, true);
}

const struct job_writer job_writer = {job_change, shop_change};

static void init_draft(struct job_draft *draft, const struct job_source *source)
{
    struct arena *arena = draft->reading->arena;
    draft->shipped = source->finishes;
    draft->rule = (struct path_rule){source->path, source->trust_paths};
    draft->fetching = source->fetching;
    draft->units = LENGTH_MM;
    draft->all = draft->inside = SCHEDULE_NONE;
    names_init(&draft->alls, arena);
    draft->job = ARENA_NEW(arena, struct job);
    *draft->job = (struct job){.file = source->path,
                               .name = "",
                               .currency = "",
                               .currency_digits = money_digits(""),
                               .deliver_at = STATE_WRAP,
                               .to_spare_days = 1,
                               .reserve = usual_reserve,
                               .now_min = INT64_MIN,
                               .writer = &job_writer};
    names_init(&draft->schedules, arena);
    names_init(&draft->pieces, arena);
    names_init(&draft->tasks, arena);
}

static void read_all(struct job_draft *draft)
{
    struct job *job = draft->job;
    if (!fields_read(draft->root, &fields, job, draft))
        return;
    job_read_calendars(draft);
    if (draft->measurable)
        job->surfaces = surfaces_make(draft->reading->arena, job, draft->reading->errors);
    if (!job->surfaces)
        return;
    job_check_size(job, draft->reading->errors);
    takeoff_doubts(job, draft->reading->warnings);
}

struct job *job_read(struct arena *arena, const struct job_source *source, struct err_list *errors,
                     struct err_list *warnings)
{
    struct texts *texts = source->texts ? source->texts : texts_make(arena);
    struct reading reading = {arena, texts, errors, warnings, source->given};
    struct job_draft draft = {.reading = &reading};
    size_t before = reading_mistakes(&reading);
    init_draft(&draft, source);
    if (json_load(&reading, NULL, source->path, &draft.root))
        read_all(&draft);
    if (reading_mistakes(&reading) == before)
        job_check(arena, draft.job, errors, warnings);
    texts_locate(texts, errors);
    texts_locate(texts, warnings);
    texts_order(errors);
    texts_order(warnings);
    return reading_mistakes(&reading) == before ? draft.job : NULL;
}
