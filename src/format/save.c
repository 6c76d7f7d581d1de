#include "format/save.h"

#include "base/arena.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum { SET_MOST = 64, LOCK_TRIES = 150, LOCK_PAUSE_NS = 20 * 1000 * 1000, LIST_MOST = 4096 };

/* The names of a set that is being renamed, one a line. */
static const char list_name[] = ".coatwright-saving";

struct saved {
    const char *name, *fresh, *old; /* its place; the hidden names of what is to come and of what was */
    const char *text;
    size_t length;
    bool existed, kept, moved; /* what was is there; under `old`, too; what is to come has its place */
};

struct saving {
    struct arena *arena;
    const char *folder;
    int fd;
    bool made;
    struct saved files[SET_MOST];
    size_t count; /* over SET_MOST: more than can be saved together */
};

static bool unwritable(struct err *err, const char *folder, const char *name, int error)
{
    struct text_short fault = path_fault("writing", error);
    const char *found = error == ENOENT || error == ENOTDIR  ? "no such folder"
                        : error == EACCES || error == EPERM  ? "no permission to write there"
                        : error == EROFS                     ? "a file system that cannot be written"
                        : error == EISDIR                    ? "a directory"
                        : error == ELOOP                     ? "a link: name the file that it leads to"
                        : error == ENXIO                     ? "a pipe or a device"
                        : error == ENAMETOOLONG              ? "too long a name"
                        : error == EWOULDBLOCK               ? "another program that is writing there"
                        : error == ENOSPC || error == EDQUOT ? "no space left on the disk"
                        : error == EFBIG                     ? "a larger one than may be written"
                                                             : fault.text;
    err_fill(err, ERR_FILE, name ? "a file that can be written" : "a folder to write into", found);
    if (folder && name)
        snprintf(err->file, sizeof err->file, "%s/%s", folder, name);
    return false;
}

/* Everything is in its place, and may be gone again when the power fails. */
static bool unconfirmed(struct err *err, const char *folder, const char *name)
{
    err_fill(err, ERR_FILE, "a disk that keeps what is written",
             "one that did not confirm it: the file is there, and may be lost if the power fails");
    snprintf(err->file, sizeof err->file, "%s/%s", folder, name);
    return false;
}

static bool is_dropped(int error)
{
    return error == EFBIG || error == EPIPE;
}

/* What a limit on sizes or a closed pipe would kill the program for is an error here like any other: the signal waits while
 * the bytes go out, and is taken away before it is let in again. 0, or the error. */
static int write_all(int fd, const char *text, size_t length)
{
    static const struct timespec at_once = {0, 0};
    sigset_t deadly, before;
    int error = 0;
    sigemptyset(&deadly);
    sigaddset(&deadly, SIGXFSZ);
    sigaddset(&deadly, SIGPIPE);
    if (pthread_sigmask(SIG_BLOCK, &deadly, &before) != 0)
        return EINVAL;
    while (length > 0 && !error) {
        ssize_t done = write(fd, text, length);
        if (done < 0 && errno != EINTR)
            error = errno;
        if (done > 0) {
            text += done;
            length -= (size_t)done;
        }
    }
    if (is_dropped(error))
        (void)sigtimedwait(&deadly, NULL, &at_once);
    (void)pthread_sigmask(SIG_SETMASK, &before, NULL);
    return error;
}

/* A disk may report only on flushing or closing that it is full. */
static int write_and_close(int fd, const char *text, size_t length, bool flush)
{
    int error = write_all(fd, text, length);
    if (!error && flush && fsync(fd) != 0)
        error = errno;
    if (close(fd) != 0 && !error)
        error = errno;
    return error;
}

/* A new file of that name, whatever stood there. 0, or the error. */
static int put_new(const struct saving *saving, const char *name, const char *text, size_t length)
{
    if (unlinkat(saving->fd, name, 0) != 0 && errno != ENOENT)
        return errno;
    int fd = openat(saving->fd, name, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
    return fd < 0 ? errno : write_and_close(fd, text, length, true);
}

/* A folder to the disk. 0, or the error; a system that cannot do that is left alone. */
static int flush_folder(int fd)
{
    while (fsync(fd) != 0)
        if (errno != EINTR)
            return errno == EINVAL || errno == ENOTSUP || errno == ENOSYS ? 0 : errno;
    return 0;
}

/* Renaming lasts only once the folders are on the disk. 0, or the first error. */
static int flush(const struct saving *saving)
{
    int error = 0;
    for (size_t i = 0; i < saving->count && i < SET_MOST; i++) {
        const char *name = saving->files[i].name, *last = path_last(name);
        int fd = last == name ? -1
                              : openat(saving->fd, arena_text_n(saving->arena, name, (size_t)(last - name)),
                                       O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
        if (fd < 0)
            continue;
        int failed = flush_folder(fd);
        error = error ? error : failed;
        (void)close(fd);
    }
    int failed = flush_folder(saving->fd);
    return error ? error : failed;
}

/* Tried twice: what stays all the same is taken away by the next that saves. */
static void forget(const struct saving *saving, const char *name)
{
    if (unlinkat(saving->fd, name, 0) != 0 && errno != ENOENT)
        (void)unlinkat(saving->fd, name, 0);
}

static bool hidden_names(struct arena *arena, struct saved *file)
{
    const char *last = path_last(file->name);
    int folder = (int)(last - file->name);
    file->fresh = arena_textf(arena, "%.*s.%s.new", folder, file->name, last);
    file->old = arena_textf(arena, "%.*s.%s.old", folder, file->name, last);
    return strlen(path_last(file->fresh)) <= NAME_MAX;
}

/* 0 where a name leads to a file of this very folder, or of a folder in it, through no link; or the error. */
static int check_way(const struct saving *saving, const char *name)
{
    for (const char *slash = strchr(name, '/'); slash; slash = strchr(slash + 1, '/')) {
        struct stat about;
        const char *folder = arena_text_n(saving->arena, name, (size_t)(slash - name));
        if (fstatat(saving->fd, folder, &about, AT_SYMLINK_NOFOLLOW) != 0)
            return errno;
        if (!S_ISDIR(about.st_mode))
            return S_ISLNK(about.st_mode) ? ELOOP : ENOTDIR;
    }
    return 0;
}

/* A name that a list may hold, none of its parts hidden or empty. */
static bool plain_name(const struct saving *saving, const char *name)
{
    for (const char *at = name; at; at = strchr(at, '/') ? strchr(at, '/') + 1 : NULL)
        if (*at == '\0' || *at == '.' || *at == '/')
            return false;
    return check_way(saving, name) == 0;
}

/* The list that a killed writer left, all of it. 0, or the error; a link is none of ours. */
static int read_list(const struct saving *saving, char list[LIST_MOST + 1])
{
    int fd = openat(saving->fd, list_name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC), error = 0;
    size_t length = 0;
    list[0] = '\0';
    if (fd < 0)
        return errno == ENOENT || errno == ELOOP ? 0 : errno;
    while (!error && length < LIST_MOST) {
        ssize_t got = read(fd, list + length, LIST_MOST - length);
        if (got == 0)
            break;
        if (got > 0)
            length += (size_t)got;
        else if (errno != EINTR)
            error = errno;
    }
    (void)close(fd);
    list[length] = '\0';
    return error;
}

/* Finishes the renaming of a set whose writer was killed: all of it was on the disk before its list was. 0, or the
 * error of the name *at: then the list stays for the next. */
static int finish_killed(const struct saving *saving, const char **at)
{
    char list[LIST_MOST + 1], *rest = NULL;
    int error = read_list(saving, list);
    *at = list_name;
    if (error || !list[0])
        return error;
    for (char *name = strtok_r(list, "\n", &rest); name; name = strtok_r(NULL, "\n", &rest)) {
        struct saved file = {.name = name};
        if (!plain_name(saving, name) || !hidden_names(saving->arena, &file))
            continue;
        if (renameat(saving->fd, file.fresh, saving->fd, name) != 0 && errno != ENOENT) {
            error = errno;
            *at = arena_text(saving->arena, name);
            return error;
        }
        forget(saving, file.old);
    }
    (void)flush(saving);
    forget(saving, list_name);
    return 0;
}

/* Only one writes into a folder at a time; where the system has no such locks, as on some network disks, none is taken. */
static bool lock(int folder)
{
    static const struct timespec pause = {0, LOCK_PAUSE_NS};
    for (int i = 0; i < LOCK_TRIES; i++) {
        if (flock(folder, LOCK_EX | LOCK_NB) == 0 || (errno != EWOULDBLOCK && errno != EINTR))
            return true;
        (void)nanosleep(&pause, NULL);
    }
    errno = EWOULDBLOCK;
    return false;
}

static void release(void *object)
{
    const struct saving *saving = object;
    if (saving->made)
        (void)rmdir(saving->folder);
    (void)close(saving->fd);
}

struct saving *saving_begin(struct arena *arena, const char *folder, bool make, struct err *err)
{
    struct saving *saving = ARENA_NEW(arena, struct saving);
    saving->arena = arena;
    saving->folder = folder;
    saving->made = make && mkdir(folder, 0777) == 0;
    saving->fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (saving->fd < 0) {
        (void)unwritable(err, folder, NULL, errno);
        if (errno == ENOTDIR)
            err_fill(err, ERR_FILE, "a folder to write into", "a file");
        return NULL;
    }
    arena_own(arena, saving, release);
    if (!lock(saving->fd)) {
        (void)unwritable(err, folder, NULL, errno);
        saving_end(saving);
        return NULL;
    }
    const char *at;
    int error = finish_killed(saving, &at);
    if (error) {
        (void)unwritable(err, folder, at, error);
        saving_end(saving);
        return NULL;
    }
    return saving;
}

void saving_end(struct saving *saving)
{
    arena_disown(saving->arena, saving);
    release(saving);
}

bool saving_load(const struct saving *saving, const char *name, struct file_text *file, struct err *err)
{
    const char *path = arena_textf(saving->arena, "%s/%s", saving->folder, name);
    struct path_rule rule = {path, false};
    struct stat about;
    int error = check_way(saving, name);
    err->code = ERR_NONE;
    if (error)
        return unwritable(err, saving->folder, name, error);
    if (fstatat(saving->fd, name, &about, AT_SYMLINK_NOFOLLOW) != 0) {
        if (errno != ENOENT)
            (void)unwritable(err, saving->folder, name, errno);
        return false;
    }
    if (S_ISLNK(about.st_mode))
        return unwritable(err, saving->folder, name, ELOOP);
    return file_load_named(saving->arena, rule, path, file, err);
}

void saving_add(struct saving *saving, const char *name, const char *text, size_t length)
{
    if (saving->count < SET_MOST)
        saving->files[saving->count] = (struct saved){.name = name, .text = text, .length = length};
    saving->count++;
}

void saving_drop(const struct saving *saving, const char *name)
{
    forget(saving, name);
}

/* 0 where a file may take this name: nothing is there, or a plain file. */
static int check_place(const struct saving *saving, struct saved *file)
{
    struct stat about;
    int error = check_way(saving, file->name);
    if (error)
        return error;
    if (!hidden_names(saving->arena, file))
        return ENAMETOOLONG;
    if (fstatat(saving->fd, file->name, &about, AT_SYMLINK_NOFOLLOW) != 0)
        return errno == ENOENT ? 0 : errno;
    file->existed = true;
    return S_ISLNK(about.st_mode)   ? ELOOP
           : S_ISDIR(about.st_mode) ? EISDIR
           : S_ISREG(about.st_mode) ? 0
                                    : ENXIO;
}

static int write_list(const struct saving *saving)
{
    char list[LIST_MOST];
    size_t used = 0;
    for (size_t i = 0; i < saving->count; i++) {
        int n = snprintf(list + used, sizeof list - used, "%s\n", saving->files[i].name);
        if (n < 0 || (size_t)n >= sizeof list - used)
            return ENAMETOOLONG;
        used += (size_t)n;
    }
    const char *fresh = arena_textf(saving->arena, "%s.new", list_name);
    int error = put_new(saving, fresh, list, used);
    if (!error && renameat(saving->fd, fresh, saving->fd, list_name) != 0)
        error = errno;
    if (error)
        forget(saving, fresh);
    else
        error = flush(saving);
    return error;
}

/* Everything is on the disk under its hidden name. *at is the name at hand. */
static int prepare(struct saving *saving, const char **at)
{
    int error = 0;
    for (size_t i = 0; i < saving->count && !error; i++) {
        *at = saving->files[i].name;
        error = check_place(saving, &saving->files[i]);
    }
    for (size_t i = 0; i < saving->count && !error; i++) {
        const struct saved *file = &saving->files[i];
        *at = file->name;
        error = put_new(saving, file->fresh, file->text, file->length);
    }
    if (error || saving->count <= 1)
        return error;
    *at = list_name;
    return write_list(saving);
}

static int move_in(struct saving *saving, const char **at)
{
    for (size_t i = 0; i < saving->count; i++) {
        struct saved *file = &saving->files[i];
        *at = file->name;
        forget(saving, file->old);
        file->kept = saving->count > 1 && linkat(saving->fd, file->name, saving->fd, file->old, 0) == 0;
        if (renameat(saving->fd, file->fresh, saving->fd, file->name) != 0)
            return errno;
        file->moved = true;
    }
    return 0;
}

/* What was renamed goes back, and nothing of the attempt is left. */
static void undo(struct saving *saving)
{
    for (size_t i = saving->count; i-- > 0;) {
        const struct saved *file = &saving->files[i];
        if (file->moved && file->kept)
            (void)renameat(saving->fd, file->old, saving->fd, file->name);
        else if (file->moved && !file->existed)
            forget(saving, file->name);
        if (file->fresh)
            forget(saving, file->fresh);
    }
}

bool saving_commit(struct saving *saving, struct err *err)
{
    const char *at = NULL;
    if (saving->count > SET_MOST)
        return err_say_found(err, "a few files to be saved together", "more than can be");
    int error = prepare(saving, &at);
    if (!error)
        error = move_in(saving, &at);
    if (error)
        undo(saving);
    bool kept = flush(saving) == 0;
    for (size_t i = 0; i < saving->count; i++)
        if (saving->files[i].kept)
            forget(saving, saving->files[i].old);
    if (saving->count > 1)
        forget(saving, list_name);
    saving->made = saving->made && error;
    if (!error && !kept && at)
        return unconfirmed(err, saving->folder, at);
    return !error || unwritable(err, saving->folder, at, error);
}

/* 0, or the error; *line_end: the bytes that are kept end within a line. */
static int look_at_end(int fd, size_t keep, bool *line_end)
{
    struct stat about;
    char last = '\n';
    if (fstat(fd, &about) != 0)
        return errno;
    if (!S_ISREG(about.st_mode))
        return S_ISDIR(about.st_mode) ? EISDIR : ENXIO;
    if (about.st_size < (off_t)keep || (keep > 0 && pread(fd, &last, 1, (off_t)keep - 1) != 1))
        return EIO;
    *line_end = last != '\n';
    return 0;
}

/* 0, or the error: then the file is what it was. */
static int append_at(const struct saving *saving, int fd, size_t keep, const char *text, size_t length)
{
    bool line_end = false;
    int error = look_at_end(fd, keep, &line_end);
    if (error)
        return error;
    if (ftruncate(fd, (off_t)keep) != 0 || lseek(fd, (off_t)keep, SEEK_SET) < 0)
        return errno;
    error = line_end ? write_all(fd, "\n", 1) : 0;
    if (!error)
        error = write_all(fd, text, length);
    if (!error && fsync(fd) != 0)
        error = errno;
    if (!error)
        error = flush(saving);
    if (error && ftruncate(fd, (off_t)keep) == 0)
        (void)fsync(fd);
    return error;
}

bool saving_append(const struct saving *saving, const char *name, size_t keep, const char *text,
                   size_t length, struct err *err)
{
    static const int how = O_RDWR | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC;
    int fd = openat(saving->fd, name, how | O_CREAT | O_EXCL, 0666);
    bool made = fd >= 0;
    if (!made && errno == EEXIST)
        fd = openat(saving->fd, name, how);
    int error = fd < 0 ? errno : append_at(saving, fd, keep, text, length);
    if (fd >= 0 && close(fd) != 0 && !error)
        error = errno;
    if (made && error)
        forget(saving, name);
    return !error || unwritable(err, saving->folder, name, error);
}

bool save_is_stream(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0 && !S_ISREG(about.st_mode) && !S_ISDIR(about.st_mode);
}

bool save_stream(const char *path, const char *text, size_t length, struct err *err)
{
    int fd = open(path, O_WRONLY | O_NOCTTY | O_CLOEXEC);
    int error = fd < 0 ? errno : write_and_close(fd, text, length, false);
    err->file[0] = '\0';
    return !error || unwritable(err, NULL, path, error);
}
