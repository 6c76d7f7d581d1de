/* What has changed in the folder, by this page or by another program, and which jobs that concerns. */
#include "page/exchange.h"

#include "coatwright_folder.h"
#include <stdlib.h>
#include <string.h>

struct seen_job {
    const char *file;
    const char **sources; /* names of the files that it was read from */
    size_t count;
};

/* The folder as it was at one moment. */
struct seen {
    struct arena *arena;
    struct coatwright_folder_file *files;
    struct seen_job *jobs;
    size_t file_count, job_count;
};

struct watched {
    struct seen last;
    bool begun;
};

struct watched *watched_make(void)
{
    return calloc(1, sizeof(struct watched));
}

void watched_free(struct watched *watched)
{
    if (watched)
        arena_free(watched->last.arena);
    free(watched);
}

static struct coatwright *open_session(const struct page *page)
{
    const struct page_settings *settings = page_settings(page);
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    options.finishes = settings->finishes;
    return coatwright_open(&options);
}

static const struct coatwright_folder_file *find(const struct seen *seen, const char *name)
{
    for (size_t i = 0; i < seen->file_count; i++)
        if (strcmp(seen->files[i].name, name) == 0)
            return &seen->files[i];
    return NULL;
}

static void list(const struct page *page, struct seen *seen)
{
    struct coatwright *session = open_session(page);
    if (session && coatwright_list_folder(session, page_settings(page)->folder)) {
        size_t count = coatwright_folder_count(session);
        seen->files = ARENA_ARRAY(seen->arena, count, struct coatwright_folder_file);
        for (size_t i = 0; i < count; i++) {
            seen->files[i] = *coatwright_folder_file(session, i);
            seen->files[i].name = arena_text(seen->arena, seen->files[i].name);
        }
        seen->file_count = count;
    }
    coatwright_close(session);
}

/* The files that each job is read from. */
static void read_jobs(const struct page *page, struct seen *seen)
{
    seen->jobs = ARENA_ARRAY(seen->arena, seen->file_count, struct seen_job);
    for (size_t i = 0; i < seen->file_count; i++) {
        struct coatwright *session = seen->files[i].job ? open_session(page) : NULL;
        if (!session)
            continue;
        struct seen_job *job = &seen->jobs[seen->job_count++];
        const char *path = coatwright_folder_path(session, page_settings(page)->folder, seen->files[i].name);
        job->file = seen->files[i].name;
        if (path)
            (void)coatwright_read(session, path);
        job->sources = ARENA_ARRAY(seen->arena, coatwright_source_count(session), const char *);
        for (size_t k = 0; k < coatwright_source_count(session); k++)
            if (coatwright_source(session, k)->name)
                job->sources[job->count++] = arena_text(seen->arena, coatwright_source(session, k)->name);
        coatwright_close(session);
    }
}

static bool differs(const struct seen *before, const struct seen *now, const char *name)
{
    const struct coatwright_folder_file *a = find(before, name), *b = find(now, name);
    return !a || !b || a->changed != b->changed;
}

static bool any_differs(const struct seen *before, const struct seen *now)
{
    if (before->file_count != now->file_count)
        return true;
    for (size_t i = 0; i < now->file_count; i++)
        if (differs(before, now, now->files[i].name))
            return true;
    return false;
}

static bool job_differs(const struct seen *before, const struct seen *now, const struct seen_job *job)
{
    if (differs(before, now, job->file))
        return true;
    for (size_t i = 0; i < job->count; i++)
        if (differs(before, now, job->sources[i]))
            return true;
    return false;
}

static const struct seen_job *find_job(const struct seen *seen, const char *file)
{
    for (size_t i = 0; i < seen->job_count; i++)
        if (strcmp(seen->jobs[i].file, file) == 0)
            return &seen->jobs[i];
    return NULL;
}

static void tell_job(struct arena *arena, const char *file, void (*tell)(void *with, const char *event),
                     void *with)
{
    json_t *data = json_pack("{s:s}", "file", file);
    const char *text = json_written(arena, data);
    if (text)
        tell(with, arena_textf(arena, "event: changed\ndata: %s\n\n", text));
    json_decref(data);
}

struct look {
    struct page *page;
    struct seen now;
    void (*tell)(void *with, const char *event);
    void *with;
    bool changed;
};

static void look(void *call)
{
    struct look *l = call;
    struct watched *watched = page_watched(l->page);
    const struct seen *before = &watched->last;
    list(l->page, &l->now);
    l->changed = !watched->begun || any_differs(before, &l->now);
    if (!l->changed)
        return;
    read_jobs(l->page, &l->now);
    for (size_t i = 0; watched->begun && i < l->now.job_count; i++) {
        const struct seen_job *job = &l->now.jobs[i], *old = find_job(before, job->file);
        if (job_differs(before, &l->now, job) || (old && job_differs(before, &l->now, old)))
            tell_job(l->now.arena, job->file, l->tell, l->with);
    }
    for (size_t i = 0; watched->begun && i < before->job_count; i++)
        if (!find_job(&l->now, before->jobs[i].file))
            tell_job(l->now.arena, before->jobs[i].file, l->tell, l->with);
}

void page_look(struct page *page, void (*tell)(void *with, const char *event), void *with)
{
    struct look l = {.page = page, .now = {.arena = arena_make(0)}, .tell = tell, .with = with};
    struct watched *watched = page_watched(page);
    if (!l.now.arena)
        return;
    if (arena_try(l.now.arena, look, &l) && l.changed) {
        arena_free(watched->last.arena);
        watched->last = l.now;
        watched->begun = true;
    } else
        arena_free(l.now.arena);
}
