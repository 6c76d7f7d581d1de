/* Plans that are kept between requests: as long as no file of the folder changes and the minute lasts, a job is planned once,
 * whoever asks for what of it. */
#include "page/exchange.h"

#include "coatwright_folder.h"
#include "base/buf.h"
#include "base/sha256.h"

#include <inttypes.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

/* PLANS: kept at most. USES: texts that are not the same each time fill the session; after so many it is planned anew. */
enum { PLANS = 12, USES = 60, KEY_DIGITS = 64 };

struct planned {
    struct plan_kept plan;
    char key[KEY_DIGITS + 1];
    bool busy;
    int uses;
    uint64_t age;
};

struct plans {
    pthread_mutex_t lock;
    pthread_cond_t free;
    struct planned items[PLANS];
    uint64_t clock;
};

struct plans *plans_make(void)
{
    struct plans *plans = calloc(1, sizeof *plans);
    if (plans) {
        (void)pthread_mutex_init(&plans->lock, NULL);
        (void)pthread_cond_init(&plans->free, NULL);
    }
    return plans;
}

static void empty(struct planned *item)
{
    coatwright_close(item->plan.session);
    *item = (struct planned){.busy = item->busy};
}

void plans_free(struct plans *plans)
{
    for (size_t i = 0; plans && i < PLANS; i++)
        empty(&plans->items[i]);
    free(plans);
}

/* What the folder looks like; "" where it cannot be listed. One request looks once, however many jobs it plans. */
static const char *look_of(struct exchange *x)
{
    if (x->look)
        return x->look;
    struct coatwright *session = exchange_session(x, 0, false);
    struct buf look;
    buf_init(&look, x->arena);
    if (coatwright_list_folder(session, x->settings->folder))
        for (size_t i = 0; i < coatwright_folder_count(session); i++) {
            const struct coatwright_folder_file *file = coatwright_folder_file(session, i);
            buf_addf(&look, "%s %" PRIx64 "\n", file->name, file->changed);
        }
    x->look = look.text;
    return x->look;
}

static const char *asked(const struct exchange *x, const char *name)
{
    const char *value = exchange_query(x, name);
    return value ? value : "";
}

static void set_key(struct exchange *x, const char *file, const struct coatwright_options *options,
                    char key[KEY_DIGITS + 1])
{
    const char *text = arena_textf(x->arena, "%s\n%" PRId64 " %d %d\n%s\n%s\n%s\n%s", file, options->effort,
                                   (int)options->advice, (int)options->page, options->now, asked(x, "day"),
                                   asked(x, "person"), look_of(x));
    struct sha256 hash = sha256_of(text, strlen(text));
    sha256_hex(&hash, KEY_DIGITS, key);
}

/* The plan of that key, or room for it: an empty one, or the one that nobody has asked for longest. NULL: all are at work. */
static struct planned *find(struct plans *plans, const char *key)
{
    struct planned *oldest = NULL;
    for (size_t i = 0; i < PLANS; i++) {
        struct planned *item = &plans->items[i];
        if (strcmp(item->key, key) == 0)
            return item;
        if (!item->busy && (!oldest || item->age < oldest->age))
            oldest = item;
    }
    return oldest;
}

/* Waits until nobody else has it. */
static struct planned *take(struct plans *plans, const char *key)
{
    struct planned *item;
    (void)pthread_mutex_lock(&plans->lock);
    while (!(item = find(plans, key)) || item->busy)
        (void)pthread_cond_wait(&plans->free, &plans->lock);
    item->busy = true;
    if (strcmp(item->key, key) != 0 || item->uses > USES)
        empty(item);
    item->age = ++plans->clock;
    memcpy(item->key, key, sizeof item->key);
    (void)pthread_mutex_unlock(&plans->lock);
    return item;
}

void plan_give_back(struct exchange *x)
{
    struct plans *plans = page_plans(x->page);
    struct planned *item = x->planned;
    if (!item)
        return;
    (void)pthread_mutex_lock(&plans->lock);
    /* What was ended early, or never came to an end, is not worth keeping; the next to ask may find what failed mended. */
    if (!item->plan.done || item->plan.outcome.ended || session_met(item->plan.session, COATWRIGHT_FILE) ||
        session_met(item->plan.session, COATWRIGHT_MEMORY))
        empty(item);
    item->busy = false;
    x->planned = NULL;
    (void)pthread_cond_broadcast(&plans->free);
    (void)pthread_mutex_unlock(&plans->lock);
}

/* Paper, day and person as the query has them. */
static struct coatwright_options options_of(struct exchange *x, int64_t effort, bool advice)
{
    struct coatwright_options options = exchange_options(x, effort, advice);
    const char *letter = exchange_query(x, "letter");
    if (letter)
        options.page = strcmp(letter, "0") == 0 ? COATWRIGHT_A4 : COATWRIGHT_LETTER;
    return options;
}

static bool choose_day(struct exchange *x, struct coatwright *session)
{
    struct coatwright_day_want want = COATWRIGHT_DAY_WANT_INIT;
    want.day = *asked(x, "day") ? asked(x, "day") : NULL;
    want.person = *asked(x, "person") ? asked(x, "person") : NULL;
    return (!want.day && !want.person) || coatwright_day(session, &want);
}

static void make_plan(struct exchange *x, const char *path, struct plan_kept *plan)
{
    struct coatwright *session = plan->session;
    plan->outcome = (struct coatwright_outcome)COATWRIGHT_OUTCOME_INIT;
    plan->read = path && coatwright_read(session, path);
    plan->planned = plan->read && choose_day(x, session) && coatwright_plan(session, &plan->outcome);
    plan->done = true;
}

const struct plan_kept *plan_take(struct exchange *x, const char *file, int64_t effort, bool advice)
{
    char key[KEY_DIGITS + 1];
    const char *path = exchange_path(x, file);
    struct coatwright_options options = options_of(x, effort, advice);
    plan_give_back(x);
    set_key(x, file, &options, key);
    struct planned *item = x->planned = take(page_plans(x->page), key);
    item->uses++;
    if (item->plan.session)
        return &item->plan;
    item->plan.session = coatwright_open(&options);
    if (!item->plan.session)
        arena_run_out(x->arena);
    make_plan(x, path, &item->plan);
    return &item->plan;
}

const char *plan_text(struct exchange *x, enum coatwright_report report, enum coatwright_format format)
{
    struct planned *item = x->planned;
    const char **kept = &item->plan.texts[report][format];
    if (!*kept)
        *kept = coatwright_write(item->plan.session, report, format);
    return *kept ? arena_text(x->arena, *kept) : NULL;
}
