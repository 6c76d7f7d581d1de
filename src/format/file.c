#include "format/file.h"

#include "base/arena.h"
#include "base/text.h"

#include <dirent.h>
#include <errno.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { FIRST_READ = 64 * 1024 };

static bool too_large(struct err *err)
{
    char expected[80];
    snprintf(expected, sizeof expected, "a file of at most %d MiB", FILE_MOST >> 20);
    return err_say_found(err, expected, "a larger one");
}

static struct file_id id_of(const struct stat *about)
{
    return (struct file_id){(uint64_t)about->st_dev, (uint64_t)about->st_ino};
}

int file_open_named(struct arena *arena, struct path_rule rule, const char *path, struct file_id *id,
                    struct err *err)
{
    struct stat about;
    int fd = path_open(arena, rule, path, false, err);
    if (fd < 0)
        return -1;
    int error = fstat(fd, &about) != 0    ? errno
                : S_ISDIR(about.st_mode)  ? EISDIR
                : !S_ISREG(about.st_mode) ? ENXIO
                                          : 0;
    if (!error) {
        *id = id_of(&about);
        return fd;
    }
    (void)path_unreadable(err, false, error);
    (void)close(fd);
    return -1;
}

/* Room for `used` bytes, one more to see the end, and the NUL. */
static char *grow(struct arena *arena, const char *text, size_t used, size_t *room)
{
    *room = *room * 2;
    char *longer = arena_alloc(arena, *room + 1, 1);
    if (used)
        memcpy(longer, text, used);
    return longer;
}

static bool read_all(struct arena *arena, FILE *stream, size_t room, struct file_text *file, struct err *err)
{
    char *text = arena_alloc(arena, room + 1, 1);
    size_t used = 0, got;
    while ((got = fread(text + used, 1, room - used, stream)) > 0) {
        used += got;
        if (used > FILE_MOST)
            return too_large(err);
        if (used == room)
            text = grow(arena, text, used, &room);
    }
    if (ferror(stream))
        return path_unreadable(err, false, errno);
    text[used] = '\0';
    file->text = text;
    file->length = used;
    return true;
}

static bool read_stream(struct arena *arena, FILE *stream, struct file_text *file, struct err *err)
{
    struct stat about;
    if (fstat(fileno(stream), &about) != 0)
        return path_unreadable(err, false, errno);
    file->id = id_of(&about);
    if (S_ISDIR(about.st_mode))
        return path_unreadable(err, false, EISDIR);
    if (!S_ISREG(about.st_mode))
        return read_all(arena, stream, FIRST_READ, file, err);
    if (about.st_size > FILE_MOST)
        return too_large(err);
    return read_all(arena, stream, (size_t)about.st_size + 1, file, err);
}

static void close_stream(void *stream)
{
    (void)fclose(stream);
}

static bool load_and_close(struct arena *arena, FILE *stream, struct file_text *file, struct err *err)
{
    arena_own(arena, stream, close_stream);
    bool done = read_stream(arena, stream, file, err);
    arena_disown(arena, stream);
    close_stream(stream);
    return done;
}

bool file_load(struct arena *arena, const char *path, struct file_text *file, struct err *err)
{
    file->name = path;
    if (strcmp(path, "-") == 0)
        return read_stream(arena, stdin, file, err);
    FILE *stream = fopen(path, "rb");
    return stream ? load_and_close(arena, stream, file, err) : path_unreadable(err, false, errno);
}

bool file_load_secret(struct arena *arena, const char *path, struct file_text *file, struct err *err)
{
    struct stat about;
    FILE *stream = fopen(path, "rb");
    file->name = path;
    if (!stream)
        return path_unreadable(err, false, errno);
    if (fstat(fileno(stream), &about) == 0 && S_ISREG(about.st_mode) && about.st_uid == geteuid() &&
        (about.st_mode & (S_IRWXG | S_IRWXO)) == 0)
        return load_and_close(arena, stream, file, err);
    (void)fclose(stream);
    return err_say_found(err, "a file that only its owner may read (chmod 600)", "one that others may read");
}

bool file_load_named(struct arena *arena, struct path_rule rule, const char *path, struct file_text *file,
                     struct err *err)
{
    int fd = file_open_named(arena, rule, path, &file->id, err);
    FILE *stream = fd < 0 ? NULL : fdopen(fd, "rb");
    file->name = path;
    if (stream)
        return load_and_close(arena, stream, file, err);
    if (fd >= 0) {
        (void)path_unreadable(err, false, errno);
        (void)close(fd);
    }
    return false;
}

bool file_identify(const char *path, struct file_id *id)
{
    struct stat about;
    if (stat(path, &about) != 0)
        return false;
    *id = id_of(&about);
    return true;
}

bool file_read_only(const char *path)
{
    struct stat about;
    return access(path, W_OK) != 0 ||
           (stat(path, &about) == 0 && (about.st_mode & (S_IWUSR | S_IWGRP | S_IWOTH)) == 0);
}

bool file_missing(const char *path)
{
    struct stat about;
    return lstat(path, &about) != 0 && errno == ENOENT;
}

bool file_may_be(const char *path)
{
    struct stat about;
    if (stat(path, &about) == 0)
        return S_ISREG(about.st_mode);
    return errno != ENOENT && errno != ENOTDIR;
}

/* Two writes within one tick of the clock differ in their length or, where the file is replaced, in its number. */
bool file_look(const char *path, struct file_state *state)
{
    struct stat about;
    *state = (struct file_state){0};
    if (stat(path, &about) != 0)
        return errno != ENOENT && errno != ENOTDIR && errno != ELOOP;
    uint64_t told[] = {(uint64_t)about.st_mtim.tv_sec, (uint64_t)about.st_mtim.tv_nsec,
                       (uint64_t)about.st_size, (uint64_t)about.st_ino};
    char text[4 * 20 + 4] = "";
    snprintf(text, sizeof text, "%" PRIx64 " %" PRIx64 " %" PRIx64 " %" PRIx64, told[0], told[1], told[2],
             told[3]);
    *state = (struct file_state){.folder = S_ISDIR(about.st_mode),
                                 .changed = text_hash(TEXT_HASH, text),
                                 .modified_s = (int64_t)about.st_mtim.tv_sec,
                                 .length = (uint64_t)about.st_size};
    return true;
}

static void close_folder(void *folder)
{
    (void)closedir(folder);
}

/* 0, or the error. */
static int list_names(struct arena *arena, DIR *open, const char *folder, const char *ending,
                      struct file_list *list)
{
    size_t capacity = 0;
    for (;;) {
        errno = 0;
        const struct dirent *entry = readdir(open);
        if (!entry)
            break;
        if (entry->d_name[0] == '.' || !path_ends(entry->d_name, ending))
            continue;
        list->paths = arena_grow(arena, list->paths, list->count, &capacity, sizeof *list->paths);
        list->paths[list->count++] = arena_textf(arena, "%s/%s", folder, entry->d_name);
    }
    int error = errno;
    if (list->count > 1)
        qsort(list->paths, list->count, sizeof *list->paths, text_order);
    return error;
}

bool file_list(struct arena *arena, struct path_rule rule, const char *folder, const char *ending,
               struct file_list *list, struct err *err)
{
    *list = (struct file_list){NULL, 0};
    int fd = path_open(arena, rule, folder, true, err);
    DIR *open = fd < 0 ? NULL : fdopendir(fd);
    if (!open) {
        if (fd < 0)
            return false;
        (void)path_unreadable(err, true, errno);
        (void)close(fd);
        return false;
    }
    arena_own(arena, open, close_folder);
    int error = list_names(arena, open, folder, ending, list);
    arena_disown(arena, open);
    close_folder(open);
    return error == 0 || path_unreadable(err, true, error);
}
