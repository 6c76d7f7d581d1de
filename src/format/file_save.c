#include "format/file.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { NAMES_TRIED = 100 };

static bool unwritable(struct err *fault, int error)
{
    const char *found = error == ENOENT || error == ENOTDIR  ? "no such folder"
                        : error == EACCES || error == EPERM  ? "no permission to write there"
                        : error == EROFS                     ? "a file system that cannot be written"
                        : error == EISDIR                    ? "a directory"
                        : error == ENAMETOOLONG              ? "too long a name"
                        : error == ENOSPC || error == EDQUOT ? "no space left on the disk"
                                                             : "an error while writing";
    return err_say_found(fault, "a file that can be written", found);
}

static bool write_all(int fd, const char *text, size_t length)
{
    while (length > 0) {
        ssize_t done = write(fd, text, length);
        if (done < 0 && errno == EINTR)
            continue;
        if (done < 0)
            return false;
        text += done;
        length -= (size_t)done;
    }
    return true;
}

/* 0, or the error. A disk may report only on flushing or closing that it is full. */
static int write_and_close(int fd, const char *text, size_t length, bool flush)
{
    int error = 0;
    if (!write_all(fd, text, length) || (flush && fsync(fd) != 0))
        error = errno;
    if (close(fd) != 0 && !error)
        error = errno;
    return error;
}

/* A new file beside `path`; its name is left in `name`. */
static int open_beside(const char *path, char *name, size_t size)
{
    for (int i = 0; i < NAMES_TRIED; i++) {
        int length = snprintf(name, size, "%s.%ld-%d.new", path, (long)getpid(), i);
        if (length < 0 || (size_t)length >= size) {
            errno = ENAMETOOLONG;
            return -1;
        }
        int fd = open(name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (fd >= 0 || errno != EEXIST)
            return fd;
    }
    return -1;
}

/* The renaming itself lasts only once its folder is on the disk; a system that cannot do that is left alone. */
static void flush_folder(const char *path)
{
    char folder[PATH_MAX];
    const char *slash = strrchr(path, '/');
    int length = slash ? (int)(slash - path) + 1 : 1;
    snprintf(folder, sizeof folder, "%.*s", length, slash ? path : ".");
    int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0)
        return;
    (void)fsync(fd);
    (void)close(fd);
}

static int replace(const char *path, const struct stat *old, const char *text, size_t length)
{
    char name[PATH_MAX];
    int fd = open_beside(path, name, sizeof name);
    if (fd < 0)
        return errno;
    int error = old && fchmod(fd, old->st_mode & 07777) != 0 ? errno : 0;
    int written = write_and_close(fd, text, length, true);
    error = error ? error : written;
    if (!error && rename(name, path) != 0)
        error = errno;
    if (error)
        (void)unlink(name);
    else
        flush_folder(path);
    return error;
}

static int overwrite(const char *path, const char *text, size_t length)
{
    int fd = open(path, O_WRONLY | O_CLOEXEC);
    return fd < 0 ? errno : write_and_close(fd, text, length, false);
}

bool file_save(const char *path, const char *text, size_t length, struct err *fault)
{
    struct stat old;
    if (stat(path, &old) != 0) {
        int error = errno == ENOENT ? replace(path, NULL, text, length) : errno;
        return !error || unwritable(fault, error);
    }
    if (S_ISDIR(old.st_mode))
        return unwritable(fault, EISDIR);
    if (!S_ISREG(old.st_mode)) {
        int error = overwrite(path, text, length);
        return !error || unwritable(fault, error);
    }
    char *real = realpath(path, NULL);
    int error = real ? replace(real, &old, text, length) : errno;
    free(real);
    return !error || unwritable(fault, error);
}
