/* What the logs of a folder of jobs say of the shop. */
#include "api/session.h"

#include "base/buf.h"
#include "format/json_tree.h"
#include "format/save.h"
#include "plan/learned.h"
#include "source/job_file.h"

#include <string.h>

struct learning {
    struct learned *learned;
    const struct operations **jobs; /* that were read */
    size_t count;
    struct learned_file *files;
    size_t file_count, room;
};

const struct learned *session_learned(const struct coatwright *session)
{
    return session->learning->learned;
}

/* The log's own warnings are told with their places. */
static void pass_on(struct coatwright *session, const struct job *job, const struct err_list *warnings)
{
    for (size_t i = 0; job->log.file && i < warnings->count; i++) {
        const struct err *warning = &warnings->items[i];
        if (strcmp(warning->file, job->log.file) != 0)
            continue;
        struct err *own =
            err_add(&session->warnings, ERR_WARNING, warning->file, warning->pointer, NULL, warning->found);
        if (own)
            *own = *warning;
    }
}

/* Facts are all that the log has: the day after the last of them. */
static void set_now(struct job *job)
{
    job->now_min = job->log.count > 0 ? job->start_min : INT64_MIN;
    for (size_t i = 0; i < job->log.count; i++)
        if (job->log.entries[i].kind == LOG_DONE && job->log.entries[i].done_min > job->now_min)
            job->now_min = job->log.entries[i].done_min;
}

static void leave_out(struct coatwright *session, const char *path, const struct err_list *errors)
{
    size_t count = errors->count + errors->dropped;
    const struct err *first = &errors->items[0];
    (void)err_addf(&session->warnings, ERR_WARNING, path, NULL, NULL,
                   "this job is left out: it has %zu %s (coatwright check tells)", count,
                   count == 1 ? "mistake" : "mistakes");
    if (errors->count > 0)
        (void)err_addf(&session->warnings, ERR_WARNING, first->file, first->pointer, NULL,
                       "expected %s, found %s", first->expected, first->found);
}

static void tell_strays(struct coatwright *session, const struct operations *work)
{
    if (work->stray_count > 0)
        (void)err_addf(&session->warnings, ERR_WARNING, work->job->log.file, NULL, NULL,
                       "%zu %s no step of the job and %s nothing", work->stray_count,
                       work->stray_count == 1 ? "entry names" : "entries name",
                       work->stray_count == 1 ? "teaches" : "teach");
}

/* The work of one job with its facts; NULL: it has mistakes, which is a warning. */
static const struct operations *read_one(struct coatwright *session, const char *path)
{
    struct err_list *errors = ARENA_ARRAY(session->arena, 2, struct err_list);
    struct job_source source = {path,
                                session_finishes(session),
                                session->options.trust_paths,
                                &session->given,
                                texts_make(session->arena),
                                false};
    struct job *job = job_read(session->arena, &source, &errors[0], &errors[1]);
    const struct operations *work = NULL;
    if (job) {
        set_now(job);
        work = timetable_operations(session->arena, job, job->surfaces, &errors[0]);
        pass_on(session, job, &errors[1]);
    }
    if (work)
        tell_strays(session, work);
    else
        leave_out(session, path, &errors[0]);
    return work;
}

static bool read_folder(struct coatwright *session, const char *folder, struct learning *learning)
{
    struct file_list list = {NULL, 0};
    struct path_rule any = {folder, true};
    struct err err;
    size_t jobs = 0;
    if (!file_list(session->arena, any, folder, ".json", &list, &err))
        return session_file_failed(session, folder, &err);
    learning->jobs = ARENA_ARRAY(session->arena, list.count, const struct operations *);
    for (size_t i = 0; i < list.count; i++) {
        if (!session_is_job(session, any, list.paths[i]))
            continue;
        jobs++;
        const struct operations *work = read_one(session, list.paths[i]);
        if (work)
            learning->jobs[learning->count++] = work;
    }
    if (learning->count == 0)
        err_add(&session->errors, ERR_INPUT, folder, NULL, "a folder with a job",
                jobs ? "only jobs with mistakes" : "none");
    return learning->count > 0;
}

static bool learn(struct coatwright *session, void *argument)
{
    const char *folder = arena_text(session->arena, ((const struct text_call *)argument)->text);
    struct learning *learning = ARENA_NEW(session->arena, struct learning);
    if (session->job || session->learning)
        return session_misused(session, "a session without a job", "one that has read some");
    const struct finish_table *table = session_table(session, NULL);
    if (!table || !read_folder(session, folder, learning))
        return false;
    learning->learned =
        learned_make(session->arena, learning->jobs, learning->count, table->items, table->count);
    session->learning = learning;
    return true;
}

bool coatwright_learn(struct coatwright *session, const char *folder)
{
    struct text_call call = {folder, 0, NULL};
    return session_given(session, folder, "a folder of jobs") && session_guard(session, learn, &call);
}

/* Minutes that somebody measured, loss where the batches tell it. */
static struct tool_learned tool_figures(const struct learned_row *row)
{
    struct tool_learned figures = {.has_loss = row->loss_batches > 0, .loss_l = row->loss_l};
    if (row->time.count > 0) {
        figures.minutes_factor = row->time.factor;
        figures.minutes_tolerance = row->time.tolerance;
    }
    return figures;
}

/* What one file of a finish is to say; false: nothing was learned of it. */
static bool figures_of(struct coatwright *session, const struct finish *finish, struct new_figures *figures)
{
    const struct learned *learned = session->learning->learned;
    struct estimate all = learned_coverage(session->arena, learned, finish, &figures->coats);
    bool any = all.count > 0;
    figures->first_m2_per_l = finish_coverage(finish, true) / all.factor;
    figures->later_m2_per_l = finish_coverage(finish, false) / all.factor;
    figures->tolerance = all.tolerance;
    for (size_t i = 0; i < learned->count; i++) {
        const struct learned_row *row = &learned->rows[i];
        if (strcmp(row->finish->id, finish->id) != 0)
            continue;
        figures->tools[row->tool] = tool_figures(row);
        any |= row->time.count > 0;
        if (row->litres.count == 0 || finish->tool_m2_per_l[row->tool] <= 0)
            continue;
        figures->tool_m2_per_l[row->tool] = finish->tool_m2_per_l[row->tool] / row->litres.factor;
        figures->coats += row->coats;
        any = true;
    }
    return any;
}

/* The finish of that id which stands in a folder of own finishes; NULL: none does. */
static const struct finish *own_finish(const struct learning *learning, const char *folder, const char *id)
{
    for (size_t i = 0; i < learning->count; i++) {
        const struct job *job = learning->jobs[i]->job;
        if (!job->own_finishes || strcmp(job->own_finishes, folder) != 0)
            continue;
        for (size_t k = 0; k < job->finish_count; k++)
            if (!job->finishes[k]->shipped && strcmp(job->finishes[k]->id, id) == 0)
                return job->finishes[k];
    }
    return NULL;
}

static bool add_text(struct coatwright *session, struct saving *saving, const struct finish *finish,
                     const struct new_figures *figures, const char *name)
{
    struct buf patch, text;
    struct file_text file;
    struct err err;
    buf_init(&patch, session->arena);
    buf_init(&text, session->arena);
    finish_figures_write(&patch, finish, figures);
    if (!file_load(session->arena, finish->file, &file, &err))
        return session_file_failed(session, finish->file, &err);
    if (!json_merge(session->arena, &file, patch.text, &text))
        return session_misused(session, "the finish as it was read", finish->file);
    saving_add(saving, name, text.text, text.length);
    return true;
}

/* A file that somebody else wrote is left. */
static bool add_file(struct coatwright *session, struct saving *saving, const char *folder,
                     const struct finish *finish)
{
    struct learning *learning = session->learning;
    struct new_figures figures = {0};
    if (!figures_of(session, finish, &figures))
        return true;
    const struct finish *own = own_finish(learning, folder, finish->id);
    const char *path = own ? own->file : arena_textf(session->arena, "%s/%s.json", folder, finish->id);
    struct file_text there;
    struct err err;
    bool stands = saving_load(saving, path_last(path), &there, &err);
    if (!stands && err.code != ERR_NONE)
        return session_file_failed(session, path, &err);
    enum learned_fate fate = !stands               ? LEARNED_WRITTEN
                             : own && own->learned ? LEARNED_REPLACED
                                                   : LEARNED_LEFT;
    learning->files = arena_grow(session->arena, learning->files, learning->file_count, &learning->room,
                                 sizeof *learning->files);
    learning->files[learning->file_count++] = (struct learned_file){path, fate};
    return fate == LEARNED_LEFT || add_text(session, saving, finish, &figures, path_last(path));
}

static bool save_folder(struct coatwright *session, const char *folder)
{
    const struct learned *learned = session->learning->learned;
    struct err err;
    struct saving *saving = saving_begin(session->arena, folder, false, &err);
    bool good = saving || session_file_failed(session, folder, &err);
    for (size_t i = 0; i < learned->count && good; i++)
        if (i == 0 || strcmp(learned->rows[i].finish->id, learned->rows[i - 1].finish->id) != 0)
            good = add_file(session, saving, folder, learned->rows[i].finish);
    if (good)
        good = saving_commit(saving, &err) || session_file_failed(session, folder, &err);
    if (saving)
        saving_end(saving);
    return good;
}

static bool is_first(const struct learning *learning, size_t job)
{
    for (size_t i = 0; i < job; i++)
        if (learning->jobs[i]->job->own_finishes &&
            strcmp(learning->jobs[i]->job->own_finishes, learning->jobs[job]->job->own_finishes) == 0)
            return false;
    return true;
}

static bool save_learned(struct coatwright *session, void *unused)
{
    struct learning *learning = session->learning;
    size_t folders = 0;
    (void)unused;
    if (!learning)
        return session_misused(session, "what coatwright_learn has learned", "nothing");
    learning->file_count = 0;
    for (size_t i = 0; i < learning->count; i++) {
        const char *folder = learning->jobs[i]->job->own_finishes;
        if (!folder || !is_first(learning, i))
            continue;
        folders++;
        if (!save_folder(session, folder))
            return false;
    }
    learning->learned->files = learning->files;
    learning->learned->file_count = learning->file_count;
    if (folders == 0)
        err_add(&session->errors, ERR_USAGE, NULL, NULL,
                "a job that names the folder of the shop's own finishes under finishes", "none");
    return folders > 0;
}

bool coatwright_save_learned(struct coatwright *session)
{
    return session_guard(session, save_learned, NULL);
}
