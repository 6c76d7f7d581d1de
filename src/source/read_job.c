#include "source/read_job.h"

#include "base/arena.h"
#include "base/money.h"
#include "format/ical_zone.h"
#include "source/job_patch.h"
#include "source/named.h"
#include "format/folder.h"
#include "source/read_job_parts.h"
#include "source/read_fit.h"
#include "source/shop_file.h"
#include "source/read_sundries.h"
#include "source/read_words.h"
#include "surface/takeoff.h"

#include <stdlib.h>
#include <string.h>

static const char *const keys[] = {
    "format",  "job",  "customer", "units",    "zone",      "currency", "start", "deliver", "deliver-at",
    "reserve", "shop", "stock",    "finishes", "schedules", "pieces",   "tasks", "parts",
};

/* Years around those of the job for which its zone's changes are looked up: a plan may end long after the delivery. */
enum { YEARS_BEFORE = 2, YEARS_AFTER = 8, YEAR_USUAL = 2027, YEAR_LEAST = 1972, YEAR_MOST = 2400 };

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

static void read_zone(struct job_draft *draft)
{
    static const char expected[] = "a time zone such as \"Europe/London\"";
    struct arena *arena = draft->reading->arena;
    struct json_at at = json_member(draft->root, "zone");
    const char *name = "UTC";
    bool good = json_text(at, expected, &name);
    draft->job->zone = zone_load(arena, name, years_of(draft));
    if (draft->job->zone)
        return;
    size_t count;
    const char **names = zone_names(arena, &count);
    if (good)
        json_refuse_name(at, expected, names, count);
    draft->job->zone = ARENA_NEW(arena, struct zone);
}

static void read_currency(struct json_at at, struct job *job)
{
    const char *text;
    job->currency = "";
    job->currency_digits = money_digits("");
    if (!at.node || !json_text(at, "a currency such as \"GBP\"", &text))
        return;
    if (strlen(text) != 3 || strspn(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != 3) {
        json_refuse(at, "a currency of three capital letters, such as \"GBP\"");
        return;
    }
    job->currency = text;
    job->currency_digits = money_digits(text);
}

static void read_units(struct job_draft *draft)
{
    static const char *const units[] = {"mm", "cm", "m", "in", "ft"};
    struct err fault;
    int choice = 0;
    if (json_has(draft->root, "units"))
        json_choice(json_member(draft->root, "units"), units, sizeof units / sizeof units[0], &choice);
    length_unit_parse(units[choice], &draft->units, &fault);
    draft->job->inches = draft->units == LENGTH_IN || draft->units == LENGTH_FT;
}

void job_read_head(struct job_draft *draft)
{
    static const char *const formats[] = {"coatwright-job/1"};
    struct job *job = draft->job;
    int unused;
    json_choice(json_member(draft->root, "format"), formats, 1, &unused);
    json_text(json_member(draft->root, "job"), "the job's name", &job->name);
    if (json_has(draft->root, "customer"))
        json_text(json_member(draft->root, "customer"), "the customer's name", &job->customer);
    read_units(draft);
    read_zone(draft);
    read_currency(json_member(draft->root, "currency"), job);
    job->deliver_at = STATE_WRAP;
    if (json_has(draft->root, "deliver-at"))
        read_state(json_member(draft->root, "deliver-at"), &job->deliver_at);
    if (json_has(draft->root, "reserve"))
        json_quantity(json_member(draft->root, "reserve"), share_parse, &job->reserve);
}

void job_read_shop(struct job_draft *draft)
{
    struct json_at at = json_member(draft->root, "shop");
    struct file_text file;
    draft->busy_rule = draft->rule;
    if (!at.node) {
        shop_default(&draft->job->shop);
        return;
    }
    if (json_is_text(at)) {
        shop_default(&draft->job->shop);
        if (!named_load(at, draft->rule, &file))
            return;
        draft->busy_rule.from = draft->job->shop_file = file.name;
        if (!json_parse(draft->reading, &file, &at))
            return;
    }
    shop_read(at, draft->job->currency_digits, &draft->job->shop);
    draft->busy = json_member(at, "busy");
}

/* The shop's own folder, when it can be listed; NULL otherwise. */
static const char *own_folder(struct job_draft *draft)
{
    struct json_at at = json_member(draft->root, "finishes");
    struct folder_names names;
    struct err fault;
    const char *path;
    if (!at.node || !named_path(at, draft->rule, &path))
        return NULL;
    if (folder_list(draft->reading->arena, path, ".json", &names, &fault))
        return path;
    json_refuse_file(at, &fault);
    return NULL;
}

void job_read_finishes(struct job_draft *draft)
{
    struct finish_folders folders = {.shipped = draft->shipped,
                                     .own = own_folder(draft),
                                     .rule = draft->rule,
                                     .currency_digits = draft->job->currency_digits};
    draft->finishes = finish_table_load(draft->reading, &folders);
    draft->job->finishes = draft->finishes->items;
    draft->job->finish_count = draft->finishes->count;
    draft->job->fit = fit_rules_load(draft->reading, &folders, draft->finishes);
    draft->job->sundries = sundry_rules_load(draft->reading, &folders);
}

static void read_groups(struct job_draft *draft)
{
    job_read_head(draft);
    job_read_shop(draft);
    job_read_dates(draft);
    job_read_busy(draft);
    job_read_finishes(draft);
    job_read_schedules(draft);
    bool measurable = job_read_parts(draft);
    job_read_pieces(draft);
    job_read_stock(draft);
    if (measurable && surfaces_make(draft->reading->arena, draft->job, draft->reading->errors))
        takeoff_doubts(draft->job, draft->reading->warnings);
}

static void init_draft(struct job_draft *draft, const struct job_source *source)
{
    struct arena *arena = draft->reading->arena;
    draft->shipped = source->finishes;
    draft->job = ARENA_NEW(arena, struct job);
    draft->job->writer = &job_writer;
    draft->job->file = source->path;
    draft->job->name = "";
    draft->job->reserve = 0.1;
    draft->rule = (struct path_rule){source->path, source->trust_paths};
    names_init(&draft->schedules, arena);
    names_init(&draft->pieces, arena);
    names_init(&draft->tasks, arena);
}

struct job *job_read(struct arena *arena, const struct job_source *source, struct err_list *errors,
                     struct err_list *warnings)
{
    struct texts *texts = source->texts ? source->texts : texts_make(arena);
    struct reading reading = {arena, texts, errors, warnings};
    struct job_draft draft = {.reading = &reading};
    size_t before = reading_mistakes(&reading);
    init_draft(&draft, source);
    if (json_load(&reading, source->path, &draft.root) &&
        json_object(draft.root, "a job", keys, sizeof keys / sizeof keys[0]))
        read_groups(&draft);
    if (reading_mistakes(&reading) == before)
        job_check(arena, draft.job, errors, warnings);
    texts_locate(texts, errors);
    texts_locate(texts, warnings);
    texts_order(errors);
    texts_order(warnings);
    return reading_mistakes(&reading) == before ? draft.job : NULL;
}
