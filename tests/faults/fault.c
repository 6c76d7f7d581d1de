/* A library to be loaded ahead of others (LD_PRELOAD): the FAULT_AT-th call of a kind, FAULT_CALL, fails as the system would
 * let it fail. Where it did, the file FAULT_MARK is made and names the library that called. Kinds: malloc calloc realloc strdup open read write short fsync rename
 * close readdir stat mkdir; "short" lets write take one byte. */
#define _GNU_SOURCE
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

static int calls;

/* Whether this is the call that is to fail. Nothing in here may call what is wrapped. */
static bool is_failing(const char *kind, const void *caller)
{
    const char *wanted = getenv("FAULT_CALL"), *at = getenv("FAULT_AT"), *mark = getenv("FAULT_MARK");
    if (!wanted || !at || strcmp(wanted, kind) != 0)
        return false;
    int number = 0;
    for (; *at >= '0' && *at <= '9'; at++)
        number = number * 10 + (*at - '0');
    if (__atomic_add_fetch(&calls, 1, __ATOMIC_RELAXED) != number)
        return false;
    long fd = mark ? syscall(SYS_openat, AT_FDCWD, mark, O_WRONLY | O_CREAT, 0600) : -1;
    Dl_info from;
    if (fd >= 0 && dladdr(caller, &from) && from.dli_fname)
        syscall(SYS_write, fd, from.dli_fname, strlen(from.dli_fname));
    if (fd >= 0)
        syscall(SYS_close, fd);
    return true;
}

#define fails(kind) is_failing(kind, __builtin_return_address(0))

static void *next(const char *name)
{
    return dlsym(RTLD_NEXT, name);
}

#define NEXT(name) ((__typeof__(&name))next(#name))

/* dlsym allocates before calloc is known: from here, and it is never given back. */
static char early[8192];
static size_t early_used;

void *malloc(size_t size)
{
    static __typeof__(&malloc) real;
    if (!real)
        real = NEXT(malloc);
    if (fails("malloc"))
        return errno = ENOMEM, NULL;
    return real(size);
}

void *calloc(size_t count, size_t size)
{
    static __typeof__(&calloc) real;
    static bool asking;
    if (!real && asking) {
        void *at = early + early_used;
        early_used += (count * size + 15) / 16 * 16;
        return early_used <= sizeof early ? at : NULL;
    }
    if (!real) {
        asking = true;
        real = NEXT(calloc);
    }
    if (fails("calloc"))
        return errno = ENOMEM, NULL;
    return real(count, size);
}

void free(void *at)
{
    static __typeof__(&free) real;
    if ((char *)at >= early && (char *)at < early + sizeof early)
        return;
    if (!real)
        real = NEXT(free);
    real(at);
}

void *realloc(void *at, size_t size)
{
    static __typeof__(&realloc) real;
    if (!real)
        real = NEXT(realloc);
    if (fails("realloc"))
        return errno = ENOMEM, NULL;
    return real(at, size);
}

char *strdup(const char *text)
{
    if (fails("strdup"))
        return errno = ENOMEM, NULL;
    /* Not the C library's, whose malloc would be counted once more, as a call of its own. */
    char *copy = NEXT(malloc)(strlen(text) + 1);
    return copy ? memcpy(copy, text, strlen(text) + 1) : NULL;
}

static mode_t mode_of(int flags, va_list arguments)
{
    return flags & O_CREAT ? va_arg(arguments, mode_t) : 0;
}

#define OPENS(name)                                                                                          \
    int name(const char *path, int flags, ...)                                                               \
    {                                                                                                        \
        va_list arguments;                                                                                   \
        va_start(arguments, flags);                                                                          \
        mode_t mode = mode_of(flags, arguments);                                                             \
        va_end(arguments);                                                                                   \
        if (fails("open"))                                                                                   \
            return errno = EMFILE, -1;                                                                       \
        return NEXT(name)(path, flags, mode);                                                                \
    }
OPENS(open)
OPENS(open64)

#define OPENS_AT(name)                                                                                       \
    int name(int folder, const char *path, int flags, ...)                                                   \
    {                                                                                                        \
        va_list arguments;                                                                                   \
        va_start(arguments, flags);                                                                          \
        mode_t mode = mode_of(flags, arguments);                                                             \
        va_end(arguments);                                                                                   \
        if (fails("open"))                                                                                   \
            return errno = EMFILE, -1;                                                                       \
        return NEXT(name)(folder, path, flags, mode);                                                        \
    }
OPENS_AT(openat)
OPENS_AT(openat64)

FILE *fopen(const char *path, const char *mode)
{
    return fails("open") ? (errno = EMFILE, NULL) : NEXT(fopen)(path, mode);
}

FILE *fdopen(int fd, const char *mode)
{
    return fails("open") ? (errno = ENOMEM, NULL) : NEXT(fdopen)(fd, mode);
}

DIR *opendir(const char *path)
{
    return fails("open") ? (errno = EMFILE, NULL) : NEXT(opendir)(path);
}

DIR *fdopendir(int fd)
{
    return fails("open") ? (errno = ENOMEM, NULL) : NEXT(fdopendir)(fd);
}

ssize_t read(int fd, void *to, size_t size)
{
    return fails("read") ? (errno = EIO, -1) : NEXT(read)(fd, to, size);
}

/* The stream reads from what cannot be read, so that it knows of the error. */
size_t fread(void *to, size_t size, size_t count, FILE *stream)
{
    if (fails("read")) {
        int fd = (int)syscall(SYS_openat, AT_FDCWD, "/dev/null", O_WRONLY);
        syscall(SYS_dup3, fd, fileno(stream), 0);
        syscall(SYS_close, fd);
    }
    return NEXT(fread)(to, size, count, stream);
}

struct dirent *readdir(DIR *folder)
{
    return fails("readdir") ? (errno = EIO, NULL) : NEXT(readdir)(folder);
}

ssize_t write(int fd, const void *from, size_t size)
{
    if (fails("write"))
        return errno = ENOSPC, -1;
    return NEXT(write)(fd, from, fails("short") && size > 1 ? 1 : size);
}

int fsync(int fd)
{
    return fails("fsync") ? (errno = EIO, -1) : NEXT(fsync)(fd);
}

int rename(const char *from, const char *to)
{
    return fails("rename") ? (errno = EIO, -1) : NEXT(rename)(from, to);
}

int renameat(int from_folder, const char *from, int to_folder, const char *to)
{
    return fails("rename") ? (errno = EIO, -1) : NEXT(renameat)(from_folder, from, to_folder, to);
}

int linkat(int from_folder, const char *from, int to_folder, const char *to, int flags)
{
    return fails("rename") ? (errno = EIO, -1) : NEXT(linkat)(from_folder, from, to_folder, to, flags);
}

/* The file is closed all the same, as with a disk that is full. */
int close(int fd)
{
    bool failing = fails("close");
    int done = NEXT(close)(fd);
    return failing ? (errno = EIO, -1) : done;
}

int fclose(FILE *stream)
{
    bool failing = fails("close");
    int done = NEXT(fclose)(stream);
    return failing ? (errno = EIO, EOF) : done;
}

int fstat(int fd, struct stat *about)
{
    return fails("stat") ? (errno = EIO, -1) : NEXT(fstat)(fd, about);
}

int stat(const char *restrict path, struct stat *restrict about)
{
    return fails("stat") ? (errno = EIO, -1) : NEXT(stat)(path, about);
}

int mkdir(const char *path, mode_t mode)
{
    return fails("mkdir") ? (errno = ENOSPC, -1) : NEXT(mkdir)(path, mode);
}
