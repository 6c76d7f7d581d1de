/* From a part list to a job: the list is read as it is, its job, shop and prices are written as texts, read as if they were
 * files, and saved when the caller says so. */
#include "api/session.h"

#include "base/day.h"
#include "base/text.h"
#include "format/path.h"
#include "format/save.h"
#include "format/words.h"
#include "source/job_file.h"
#include "surface/takeoff.h"

#include <string.h>

enum { NAMES_MOST = 200 };

static const char prices_end[] = "-prices.csv";

struct new_call {
    const struct coatwright_new_want *want;
    struct coatwright_new_job *made;
};

/* Names between commas, in the session's memory; how many. */
static size_t cut_names(struct coatwright *session, const char *text, const char *names[NAMES_MOST])
{
    size_t count = 0;
    while (text && *text && count < NAMES_MOST) {
        size_t length = strcspn(text, ",");
        names[count] = text_trimmed(session->arena, arena_text_n(session->arena, text, length));
        count += *names[count] != '\0';
        text += length + (text[length] == ',');
    }
    return count;
}

/* The path where a list can be read there; NULL: it cannot, which is reported. */
static const char *readable(struct coatwright *session, const char *path)
{
    struct file_text file;
    struct err err;
    if (given_find(&session->given, path) || file_load(session->arena, path, &file, &err))
        return path;
    (void)session_file_failed(session, path, &err);
    return NULL;
}

/* The one list of a folder, price lists apart; the path itself where it is none. NULL: there are none or several, which is
 * reported. */
static const char *list_of(struct coatwright *session, const char *path)
{
    static const char *const endings[] = {".csv", ".tsv", ".txt", ".xlsx", ".ods"};
    struct path_rule rule = {path, true};
    struct buf found;
    const char *only = NULL;
    size_t count = 0;
    buf_init(&found, session->arena);
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++) {
        struct file_list list = {NULL, 0};
        struct err err;
        if (!file_list(session->arena, rule, path, endings[i], &list, &err))
            return readable(session, path);
        for (size_t k = 0; k < list.count; k++) {
            if (path_ends(list.paths[k], prices_end))
                continue;
            buf_addf(&found, "%s%s", count++ ? ", " : "", path_last(list.paths[k]));
            only = list.paths[k];
        }
    }
    if (count == 1)
        return only;
    (void)session_misused(session,
                          "a folder with one part list (.csv, .tsv, .txt, .xlsx or .ods), or the list itself",
                          count ? found.text : "none");
    return NULL;
}

/* A list of a common piece, given under its name or the one that is wanted; NULL: there is none such, which is reported. */
static const char *list_of_kind(struct coatwright *session, const struct coatwright_new_want *want)
{
    struct buf text;
    const char *sizes = want->sizes ? want->sizes : "",
               *path = want->list ? arena_text(session->arena, want->list)
                                  : arena_textf(session->arena, "%s.csv", want->kind);
    buf_init(&text, session->arena);
    const char *expected = new_parts_write(&text, want->kind, sizes, want->wood ? want->wood : "oak");
    if (expected) {
        (void)session_misused(session, expected, strncmp(expected, "one of", 6) == 0 ? want->kind : sizes);
        return NULL;
    }
    given_add(&session->given, session->arena, path, text.text, text.length);
    return path;
}

/* "parts/bench.csv" with "-shop.json": "parts/bench-shop.json". */
static const char *beside(struct coatwright *session, const char *list, const char *ending)
{
    const char *last = path_last(list), *dot = strrchr(last, '.');
    size_t length = dot && dot > last ? (size_t)(dot - list) : strlen(list);
    return arena_textf(session->arena, "%.*s%s", (int)length, list, ending);
}

static const struct finish *finish_asked(struct coatwright *session, const struct finish_table *table,
                                         const char *id)
{
    return table && id && *id ? session_finish(session, table, id) : NULL;
}

/* `08:00-12:00 13:00-17:00`, from Monday to Friday. */
static bool read_hours(struct coatwright *session, const char *text, struct shop *shop)
{
    enum { STRETCHES_MOST = 8, WORKING_DAYS = 5 };
    struct stretch *stretches = ARENA_ARRAY(session->arena, STRETCHES_MOST, struct stretch);
    size_t count = 0;
    for (const char *at = text; *at; at += strspn(at, " ,")) {
        size_t length = strcspn(at, " ,");
        struct err fault;
        const char *word = arena_text_n(session->arena, at, length);
        struct stretch *stretch = &stretches[count];
        if (count == STRETCHES_MOST ||
            !time_range_parse(word, &stretch->from_min, &stretch->to_min, &fault) ||
            (count > 0 && stretch->from_min < stretch[-1].to_min))
            return session_misused(session, "working hours such as \"08:00-12:00 13:00-17:00\"", text);
        count++;
        at += length;
    }
    for (int day = 0; day < WORKING_DAYS && count > 0; day++)
        shop->hours[day] = (struct shop_day){stretches, count};
    return true;
}

static bool make_shop(struct coatwright *session, const struct coatwright_new_want *want, struct shop *shop)
{
    shop_default(shop);
    shop->people = want->people > 0 ? want->people : 1;
    return !want->hours || read_hours(session, want->hours, shop);
}

/* What of the texts the job names; and their places. */
struct drafting {
    struct new_job new;
    struct shop shop;
    const char *job_file, *shop_file, *prices_file;
    const char *flat[NAMES_MOST], *inner[NAMES_MOST];
};

static void give(struct coatwright *session, const char *name, const struct buf *text)
{
    given_add(&session->given, session->arena, name, text->text, text->length);
}

static void give_texts(struct coatwright *session, const struct drafting *drafting)
{
    struct buf job, shop, prices;
    buf_init(&job, session->arena);
    buf_init(&shop, session->arena);
    buf_init(&prices, session->arena);
    new_job_write(&job, session->arena, &drafting->new);
    new_shop_write(&shop, &drafting->shop);
    new_prices_write(&prices, &drafting->new);
    give(session, drafting->job_file, &job);
    give(session, drafting->shop_file, &shop);
    give(session, drafting->prices_file, &prices);
}

static const struct job *read_texts(struct coatwright *session, const struct drafting *drafting,
                                    struct texts *texts, struct err_list *errors, struct err_list *warnings)
{
    struct job_source source = {drafting->job_file,
                                session_finishes(session),
                                session->options.trust_paths,
                                &session->given,
                                texts,
                                false};
    give_texts(session, drafting);
    return job_read(session->arena, &source, errors, warnings);
}

/* Words in the names of what is seen only when something is opened. English, German and French, from memory. */
static bool is_inner(const char *name)
{
    static const char *const words[] = {
        "shelf",           "shelves", "drawer",    "tray",  "divider", "inside",   "interior",
        "schub",           "einlege", "fachboden", "innen", "tiroir",  "tablette", "\xC3\xA9tag\xC3\xA8re",
        "int\xC3\xA9rieur"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        for (const char *at = name; *at; at++)
            if (text_same_n(at, strlen(at) < strlen(words[i]) ? strlen(at) : strlen(words[i]), words[i]))
                return true;
    return false;
}

static bool has_large_faces(const struct job *job, size_t piece)
{
    for (size_t i = 0; i < job->part_count; i++)
        if (job->parts[i].piece == piece && part_has_large_faces(&job->parts[i]))
            return true;
    return false;
}

/* What the list itself says of positions and insides, where nobody has said it. */
static void suppose(const struct job *job, const struct coatwright_new_want *want, struct drafting *drafting)
{
    struct new_job *new = &drafting->new;
    for (size_t i = 0; i < job->piece_count; i++) {
        const char *name = job->pieces[i].name;
        if (!want->flat && new->flat_count < NAMES_MOST && has_large_faces(job, i))
            drafting->flat[new->flat_count++] = name;
        if (!want->inner && new->inside &&new->inner_count < NAMES_MOST && is_inner(name))
            drafting->inner[new->inner_count++] = name;
    }
}

static const char *joined(struct coatwright *session, const char *const *names, size_t count)
{
    struct buf text;
    buf_init(&text, session->arena);
    for (size_t i = 0; i < count; i++)
        buf_addf(&text, "%s%s", i ? ", " : "", names[i]);
    return text.text;
}

static bool draft_from(struct coatwright *session, const struct coatwright_new_want *want, const char *list,
                       struct drafting *drafting)
{
    struct finish_table *table = session_table(session, NULL);
    struct new_job *new = &drafting->new;
    drafting->job_file = beside(session, list, ".json");
    drafting->shop_file = beside(session, list, "-shop.json");
    drafting->prices_file = beside(session, list, prices_end);
    *new = (struct new_job){.name = want->name ? want->name : path_last(beside(session, list, "")),
                            .list = path_last(list),
                            .units = want->units ? want->units : "mm",
                            .zone = want->zone ? want->zone : "UTC",
                            .currency = want->currency,
                            .start = want->start,
                            .deliver = want->deliver,
                            .shop_file = path_last(drafting->shop_file),
                            .prices_file = path_last(drafting->prices_file),
                            .flat = drafting->flat,
                            .inner = drafting->inner};
    new->outside = finish_asked(session, table, want->outside);
    new->inside = finish_asked(session, table, want->inside);
    if (!table || session->errors.count > 0)
        return false;
    new->flat_count = cut_names(session, want->flat, drafting->flat);
    new->inner_count = cut_names(session, want->inner, drafting->inner);
    return make_shop(session, want, &drafting->shop);
}

/* Reads the list once to see what it says itself, then the job that follows from it. */
static bool make_new(struct coatwright *session, void *argument)
{
    struct new_call *call = argument;
    struct drafting *drafting = ARENA_NEW(session->arena, struct drafting);
    struct err_list *unheard = ARENA_ARRAY(session->arena, 2, struct err_list);
    const char *list;
    if (session->job || session->reading.texts)
        return session_misused(session, "one job in a session", "a second one");
    list = call->want->kind ? list_of_kind(session, call->want)
                            : list_of(session, arena_text(session->arena, call->want->list));
    if (!list || !draft_from(session, call->want, list, drafting))
        return false;
    session->reading.texts = texts_make(session->arena);
    const struct job *first = read_texts(session, drafting, session->reading.texts, &unheard[0], &unheard[1]);
    if (!first) {
        session->errors = unheard[0];
        session->warnings = unheard[1];
        return false;
    }
    const char *meant = units_meant(first);
    suppose(first, call->want, drafting);
    if (meant && !call->want->units)
        drafting->new.units = meant;
    session->reading.texts = texts_make(session->arena);
    session->job =
        read_texts(session, drafting, session->reading.texts, &session->errors, &session->warnings);
    call->made->job_file = drafting->job_file;
    call->made->shop_file = drafting->shop_file;
    call->made->prices_file = drafting->prices_file;
    call->made->parts_file = call->want->kind ? list : NULL;
    call->made->flat = joined(session, drafting->flat, drafting->new.flat_count);
    call->made->inner = joined(session, drafting->inner, drafting->new.inner_count);
    call->made->units_meant = meant;
    if (!session->job)
        return false;
    session->surfaces = session->job->surfaces;
    return session_set_now(session, session->job);
}

/* What is to be written; a list that was handed over as a text as well. */
static void keep_files(struct coatwright *session, const char *list, const struct coatwright_new_job *made)
{
    const struct file_text *given = list ? given_find(&session->given, list) : NULL;
    session->new_files[0] = made->job_file;
    session->new_files[1] = made->shop_file;
    session->new_files[2] = made->prices_file;
    session->new_files[3] = given ? given->name : made->parts_file;
}

bool coatwright_new(struct coatwright *session, const struct coatwright_new_want *want,
                    struct coatwright_new_job *made)
{
    struct coatwright_new_want full = COATWRIGHT_NEW_WANT_INIT;
    struct coatwright_new_job told = COATWRIGHT_NEW_JOB_INIT;
    struct new_call call = {&full, &told};
    if (!session_given(session, want, "what is wanted"))
        return false;
    memcpy(&full, want, want->size < sizeof full ? want->size : sizeof full);
    if (!session_given(session, full.list ? full.list : full.kind, "a part list, or the kind of piece") ||
        !session_given(session, full.start, "a start") ||
        !session_given(session, full.deliver, "a delivery") ||
        !session_given(session, full.outside, "a finish"))
        return false;
    bool good = session_guard(session, make_new, &call);
    told.size = made ? made->size : 0;
    if (made)
        memcpy(made, &told, made->size < sizeof told ? made->size : sizeof told);
    if (good)
        keep_files(session, full.list, &told);
    return good;
}

/* Nothing is written over: neither the work of an hour nor a list of prices. A list that was handed over may be there as it
 * is. */
static bool is_free(struct coatwright *session, const struct saving *saving, const char *path,
                    const struct file_text *list)
{
    struct file_text file;
    struct err err;
    bool there = saving_load(saving, path_last(path), &file, &err);
    if (there && list && file.length == list->length && memcmp(file.text, list->text, list->length) == 0)
        return true;
    if (there)
        err_add(&session->errors, ERR_USAGE, path, NULL,
                "no such file yet: a new job takes the place of none", "one that is there");
    else if (err.code != ERR_NONE)
        return session_file_failed(session, path, &err);
    return !there;
}

static bool save_new(struct coatwright *session, void *unused)
{
    struct err err;
    (void)unused;
    if (!session->new_files[0])
        return session_misused(session, "a job of coatwright_new", "none");
    const char *folder = path_folder(session->arena, session->new_files[0]);
    struct saving *saving = saving_begin(session->arena, folder, false, &err);
    bool good = saving || session_file_failed(session, folder, &err);
    for (size_t i = 0; i < NEW_FILES && session->new_files[i] && good; i++) {
        const struct file_text *text = given_find(&session->given, session->new_files[i]);
        good = is_free(session, saving, session->new_files[i], i == NEW_FILES - 1 ? text : NULL);
        saving_add(saving, path_last(session->new_files[i]), text->text, text->length);
    }
    if (good)
        good = saving_commit(saving, &err) || session_file_failed(session, folder, &err);
    if (saving)
        saving_end(saving);
    return good;
}

bool coatwright_save_new(struct coatwright *session)
{
    return session_guard(session, save_new, NULL);
}
