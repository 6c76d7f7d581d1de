#include "source/shop_file.h"

#include "base/err.h"
#include "base/measure.h"
#include "source/shop_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const rooms[] = {"shared", "separate"};

/* By tool and work; a span alone holds for all of the first. */
#define BY_WORK(member, what, quantities, limits, works, all)                                                \
    FIELD_EACH, AT(shop, member), .expected = (what), .quantity = (quantities), .limit = (limits),           \
                                  .name = work_name, .word_count = (works), .at_once = (all)

static const struct field clean_up = {
    "clean-up", BY_WORK(clean_up_min, "the clean-up", &field_minutes, LIMIT_SET_UP, WORK_COUNT, TOOL_COUNT)};

/* What is said for a tool holds for finishes of several components as well. */
static void read_clean_up(struct field_in in)
{
    struct shop *to = in.record;
    read_each(in.at, &clean_up, to->clean_up_min);
    for (int i = 0; i < TOOL_COUNT; i++)
        if (!json_is_object(in.at) || json_has(in.at, work_name(i)))
            to->two_part_clean_up_min[i] = to->clean_up_min[i];
}

static bool same_clean_up_of(const struct shop *a, const struct shop *b, int i)
{
    return fabs(a->clean_up_min[i] - b->clean_up_min[i]) < 1e-9 &&
           (i >= TOOL_COUNT || fabs(a->two_part_clean_up_min[i] - b->two_part_clean_up_min[i]) < 1e-9);
}

static bool same_clean_up(const void *a, const void *b)
{
    for (int i = 0; i < WORK_COUNT; i++)
        if (!same_clean_up_of(a, b, i))
            return false;
    return true;
}

/* Whether one span says both, that of one component and that of several. */
static bool one_clean_up(const struct shop *shop, int i)
{
    return i >= TOOL_COUNT || fabs(shop->clean_up_min[i] - shop->two_part_clean_up_min[i]) < 1e-9;
}

static void write_clean_up(struct field_out out)
{
    const struct shop *shop = out.record;
    json_open_row(out.to, out.key, '{');
    for (int i = 0; i < WORK_COUNT; i++)
        if (one_clean_up(shop, i) && (!out.base || !same_clean_up_of(shop, out.base, i)))
            json_put_text(out.to, work_name(i), span_write(shop->clean_up_min[i]).text);
    json_close(out.to);
}

/* Read as minutes that may be fractions, kept as whole ones. */
struct rest_draft {
    double minutes[TOOL_COUNT];
};

static const struct field rest = {"rest",
                                  FIELD_EACH,
                                  AT(rest_draft, minutes),
                                  .expected = "the rest",
                                  .quantity = &field_minutes,
                                  .limit = LIMIT_SET_UP,
                                  .name = work_name,
                                  .word_count = TOOL_COUNT,
                                  .at_once = TOOL_COUNT};

static void read_rest(struct field_in in)
{
    struct shop *to = in.record;
    struct rest_draft draft;
    for (int i = 0; i < TOOL_COUNT; i++)
        draft.minutes[i] = to->rest_min[i];
    read_each(in.at, &rest, draft.minutes);
    for (int i = 0; i < TOOL_COUNT; i++)
        to->rest_min[i] = (int32_t)draft.minutes[i];
}

static void write_rest(struct field_out out)
{
    const struct shop *shop = out.record, *base = out.base;
    json_open_row(out.to, out.key, '{');
    for (int i = 0; i < TOOL_COUNT; i++)
        if (!base || shop->rest_min[i] != base->rest_min[i])
            json_put_text(out.to, work_name(i), span_write(shop->rest_min[i]).text);
    json_close(out.to);
}

static bool same_rest(const void *a, const void *b)
{
    const struct shop *left = a, *right = b;
    return memcmp(left->rest_min, right->rest_min, sizeof left->rest_min) == 0;
}

static void read_wage(struct field_in in)
{
    read_price(in.at, "a price as text, such as \"45.00\"", *(const int *)in.context,
               &((struct shop *)in.record)->rate_cents_per_hour);
}

/* Calendars and prices are read by the job, once its days and its finishes are known. */
static void leave(struct field_in in)
{
    (void)in;
}

/* In the order of the reference. */
static const struct field items[] = {
    {"hours", FIELD_OWN, .read = shop_read_hours, .write = shop_write_hours, .same = shop_same_hours},
    {"closed", FIELD_OWN, .read = shop_read_closed, .write = shop_write_closed, .same = shop_same_closed},
    {"people", FIELD_WHOLE, AT(shop, people), .limit = LIMIT_PEOPLE, .read = shop_read_people,
     .write = shop_write_people, .same = shop_same_people},
    {"busy", FIELD_OWN, .read = leave, .same = shop_same_busy},
    {"air", FIELD_OWN, .read = shop_read_air, .write = shop_write_air, .same = shop_same_air},
    {"rack", FIELD_QUANTITY, AT(shop, rack_m2), .quantity = &field_area, .limit = LIMIT_RACK},
    {"spray-places", FIELD_WHOLE, AT(shop, spray_places), .limit = LIMIT_SPRAY_PLACES},
    {"dust-room", FIELD_EITHER, AT(shop, dust_separate), WORDS(rooms)},
    {"settle", FIELD_SPAN, AT(shop, settle_min), .limit = LIMIT_SETTLE},
    {"set-up", BY_WORK(set_up_min, "the set-up", &field_minutes, LIMIT_SET_UP, WORK_COUNT, WORK_COUNT)},
    {"clean-up", FIELD_OWN, .read = read_clean_up, .write = write_clean_up, .same = same_clean_up},
    {"handling", BY_WORK(handling_min, "the handling", &field_minutes, LIMIT_SET_UP, WORK_COUNT, WORK_COUNT)},
    {"rest", FIELD_OWN, .read = read_rest, .write = write_rest, .same = same_rest},
    {"rates", BY_WORK(rate_m2_per_h, "the rates", &field_rate, LIMIT_RATE, WORK_COUNT, 0)},
    /* From here on each job may keep its own. */
    {"scale", FIELD_QUANTITY, AT(shop, scale_g), .quantity = &field_mass, .limit = LIMIT_SCALE},
    {"losses", BY_WORK(loss_l, "the losses", &field_volume, LIMIT_LOSS, TOOL_COUNT, 0)},
    {"transfer", BY_WORK(transfer, "the transfer", &field_share, LIMIT_TRANSFER, TOOL_COUNT, 0)},
    {"rate-per-hour", FIELD_OWN, .read = read_wage},
    {"prices", FIELD_OWN, .read = leave},
    {"country", FIELD_WORD, AT(shop, country), WORDS(country_names)},
};
static const struct fields fields = FIELDS("a shop", items);

enum { SHARED_FIELDS = 14 };
_Static_assert(SHARED_FIELDS < sizeof items / sizeof items[0], "the first fields of the table");

void shop_read(struct json_at at, int currency_digits, struct shop *shop)
{
    shop_default(shop);
    fields_read(at, &fields, shop, &currency_digits);
}

void shop_write(struct json_write *to, const struct shop *shop, const struct shop *base)
{
    fields_write(to, &fields, shop, base);
}

bool shop_same(const struct shop *a, const struct shop *b)
{
    for (size_t i = 0; i < fields.count; i++)
        if (!field_same(&items[i], a, b))
            return false;
    return true;
}

enum { FILE_WORDS = 120 }; /* of a path: the end, which tells files apart */

struct file_words {
    char text[FILE_WORDS + 16];
};

static struct file_words as_in(const char *path)
{
    struct file_words words;
    size_t length = strlen(path);
    snprintf(words.text, sizeof words.text, "as in %s",
             length <= FILE_WORDS ? path : path + length - FILE_WORDS);
    return words;
}

static const char *file_of(const struct job *job)
{
    return job->shop_file ? job->shop_file : job->file;
}

static bool refuse(const struct job *first, const struct job *job, const struct field *field,
                   struct err_list *errors)
{
    char pointer[64], expected[ERR_EXPECTED_SIZE];
    struct text_short here = field_words(field, &first->shop), there = field_words(field, &job->shop);
    if (strcmp(here.text, there.text) == 0) /* as many people, but others */
        *here.text = '\0';
    snprintf(pointer, sizeof pointer, "%s/%s", job->shop_file ? "" : "/shop", field->key);
    snprintf(expected, sizeof expected, "%s %s: jobs planned together share one shop",
             *here.text ? here.text : "the same", as_in(file_of(first)).text);
    err_add(errors, ERR_INPUT, file_of(job), pointer, expected, *here.text ? there.text : "something else");
    return false;
}

static bool zones_agree(const struct job *first, const struct job *job, struct err_list *errors)
{
    char expected[ERR_EXPECTED_SIZE];
    if (strcmp(first->zone->name, job->zone->name) == 0)
        return true;
    snprintf(expected, sizeof expected, "%s %s: jobs planned together share one shop", first->zone->name,
             as_in(first->file).text);
    err_add(errors, ERR_INPUT, job->file, "/zone", expected, job->zone->name);
    return false;
}

bool shops_agree(const struct job *const *jobs, size_t count, struct err_list *const *errors)
{
    bool same = true;
    for (size_t j = 1; j < count; j++) {
        same = zones_agree(jobs[0], jobs[j], errors[j]) && same;
        for (size_t i = 0; i < SHARED_FIELDS; i++)
            same = (field_same(&items[i], &jobs[0]->shop, &jobs[j]->shop) ||
                    refuse(jobs[0], jobs[j], &items[i], errors[j])) &&
                   same;
    }
    return same;
}
