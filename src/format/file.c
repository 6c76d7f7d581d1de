#include "format/file.h"

#include "base/arena.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

enum { FIRST_READ = 64 * 1024 };

static bool unreadable(struct err *fault, int error)
{
    const char *found = error == ENOENT || error == ENOTDIR ? "no such file"
                        : error == EACCES                   ? "no permission to read it"
                        : error == EISDIR                   ? "a directory"
                        : error == ELOOP                    ? "a link that leads to itself"
                                                            : "an error while reading";
    return err_say_found(fault, "a readable file", found);
}

static bool too_large(struct err *fault)
{
    char expected[80];
    snprintf(expected, sizeof expected, "a file of at most %d MiB", FILE_MOST >> 20);
    return err_say_found(fault, expected, "a larger one");
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

static bool read_all(struct arena *arena, FILE *stream, size_t room, struct file_text *file,
                     struct err *fault)
{
    char *text = arena_alloc(arena, room + 1, 1);
    size_t used = 0, got;
    while ((got = fread(text + used, 1, room - used, stream)) > 0) {
        used += got;
        if (used > FILE_MOST)
            return too_large(fault);
        if (used == room)
            text = grow(arena, text, used, &room);
    }
    if (ferror(stream))
        return unreadable(fault, errno);
    text[used] = '\0';
    file->text = text;
    file->length = used;
    return true;
}

static bool read_stream(struct arena *arena, FILE *stream, struct file_text *file, struct err *fault)
{
    struct stat about;
    if (fstat(fileno(stream), &about) != 0)
        return unreadable(fault, errno);
    if (S_ISDIR(about.st_mode))
        return unreadable(fault, EISDIR);
    if (!S_ISREG(about.st_mode))
        return read_all(arena, stream, FIRST_READ, file, fault);
    if (about.st_size > FILE_MOST)
        return too_large(fault);
    return read_all(arena, stream, (size_t)about.st_size + 1, file, fault);
}

static void close_stream(void *stream)
{
    (void)fclose(stream);
}

bool file_load(struct arena *arena, const char *path, struct file_text *file, struct err *fault)
{
    file->name = path;
    if (strcmp(path, "-") == 0)
        return read_stream(arena, stdin, file, fault);
    FILE *stream = fopen(path, "rb");
    if (!stream)
        return unreadable(fault, errno);
    arena_own(arena, stream, close_stream);
    bool done = read_stream(arena, stream, file, fault);
    arena_disown(arena, stream);
    close_stream(stream);
    return done;
}
