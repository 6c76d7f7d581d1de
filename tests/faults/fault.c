/* A library to be loaded ahead of others (LD_PRELOAD): the FAULT_AT-th call of a kind, FAULT_CALL, fails as the system would
 * let it fail; with FAULT_KILL the program is killed there instead. Where it did, the file FAULT_MARK is made: its first line names the library that called, its second the file
 * that was meant, where there is one. Kinds:
 *
 *   malloc calloc realloc strdup mmap          no memory
 *   open read stat readdir mkdir unlink flock fsync rename close truncate seek
 *   write                                      no space left
 *   full                                       half of what is written fits, and nothing from then on
 *   short, short-read                          one byte is written, or read, at a time
 *   intr                                       a signal came: EINTR, of any of the calls that may say so
 *   random thread                              getrandom, pthread_create
 *
 * and those of fault_net.c. */
#include "fault.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <pthread.h>
#include <signal.h>
#include <sys/file.h>
#include <sys/mman.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <time.h>
#include <unistd.h>

/* Calls of each kind so far. FAULT_COUNTS names a file that tells them in the end, "KIND NUMBER" a line. */
enum { KINDS_MOST = 64 };

static struct {
    const char *kind;
    int calls;
} counts[KINDS_MOST];

static struct aim at_path(const char *path)
{
    return (struct aim){path, -1};
}

static struct aim at_fd(int fd)
{
    return (struct aim){NULL, fd};
}

/* Nothing that is called to mark may be what is wrapped. */
static void put_line(long fd, const char *text, size_t length)
{
    syscall(SYS_write, fd, text, length);
    syscall(SYS_write, fd, "\n", 1);
}

static void put_mark(const char *mark, const void *caller, struct aim aim)
{
    char place[32], path[4096];
    long length = 0, fd = syscall(SYS_openat, AT_FDCWD, mark, O_WRONLY | O_CREAT, 0600);
    Dl_info from;
    if (fd < 0)
        return;
    const char *library = dladdr(caller, &from) && from.dli_fname ? from.dli_fname : "";
    put_line(fd, library, strlen(library));
    if (aim.fd >= 0) {
        snprintf(place, sizeof place, "/proc/self/fd/%d", aim.fd);
        length = syscall(SYS_readlinkat, AT_FDCWD, place, path, sizeof path);
    }
    put_line(fd, aim.path ? aim.path : path, aim.path ? strlen(aim.path) : length > 0 ? (size_t)length : 0);
    syscall(SYS_close, fd);
}

static int wanted_number(void)
{
    const char *at = getenv("FAULT_AT");
    int number = 0;
    for (; at && *at >= '0' && *at <= '9'; at++)
        number = number * 10 + (*at - '0');
    return number;
}

static int count_call(const char *kind)
{
    int i = 0;
    while (i < KINDS_MOST - 1 && counts[i].kind && strcmp(counts[i].kind, kind) != 0)
        i++;
    if (!counts[i].kind)
        counts[i].kind = kind;
    return __atomic_add_fetch(&counts[i].calls, 1, __ATOMIC_RELAXED);
}

__attribute__((destructor)) static void tell_counts(void)
{
    const char *path = getenv("FAULT_COUNTS");
    long fd = path ? syscall(SYS_openat, AT_FDCWD, path, O_WRONLY | O_CREAT, 0600) : -1;
    for (int i = 0; i < KINDS_MOST && counts[i].kind && fd >= 0; i++) {
        char line[64];
        int length = snprintf(line, sizeof line, "%s %d", counts[i].kind, counts[i].calls);
        put_line(fd, line, (size_t)length);
    }
}

/* Whether this is the call that is to fail. */
bool fault_is_failing(const char *kind, const void *caller, struct aim aim)
{
    const char *wanted = getenv("FAULT_CALL"), *mark = getenv("FAULT_MARK");
    if (getenv("FAULT_COUNTS"))
        (void)count_call(kind);
    if (!wanted || !mark || strcmp(wanted, kind) != 0 || count_call(kind) != wanted_number())
        return false;
    put_mark(mark, caller, aim);
    if (getenv("FAULT_KILL"))
        syscall(SYS_kill, getpid(), SIGKILL);
    return true;
}

/* Whether this call or one before it was to fail: a disk stays full. */
static bool has_failed(const char *kind, const void *caller, struct aim aim)
{
    static bool failed;
    failed = failed || fault_is_failing(kind, caller, aim);
    return failed;
}

#define fails_from_now(kind, aim) has_failed(kind, __builtin_return_address(0), aim)

/* dlsym allocates before calloc is known: from here, and it is never given back. */
static char early[8192];
static size_t early_used;

void *malloc(size_t size)
{
    static __typeof__(&malloc) real;
    if (!real)
        real = NEXT(malloc);
    if (fails("malloc", nowhere))
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
    if (fails("calloc", nowhere))
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
    if (fails("realloc", nowhere))
        return errno = ENOMEM, NULL;
    return real(at, size);
}

char *strdup(const char *text)
{
    if (fails("strdup", nowhere))
        return errno = ENOMEM, NULL;
    /* Not the C library's, whose malloc would be counted once more, as a call of its own. */
    char *copy = NEXT(malloc)(strlen(text) + 1);
    return copy ? memcpy(copy, text, strlen(text) + 1) : NULL;
}

void *mmap(void *at, size_t length, int protection, int flags, int fd, off_t offset)
{
    return fails("mmap", at_fd(fd)) ? (errno = ENOMEM, MAP_FAILED)
                                    : NEXT(mmap)(at, length, protection, flags, fd, offset);
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
        if (fails("open", at_path(path)))                                                                    \
            return errno = EMFILE, -1;                                                                       \
        if (fails("intr", at_path(path)))                                                                    \
            return errno = EINTR, -1;                                                                        \
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
        if (fails("open", at_path(path)))                                                                    \
            return errno = EMFILE, -1;                                                                       \
        if (fails("intr", at_path(path)))                                                                    \
            return errno = EINTR, -1;                                                                        \
        return NEXT(name)(folder, path, flags, mode);                                                        \
    }
OPENS_AT(openat)
OPENS_AT(openat64)

#define OPENS_STREAM(name)                                                                                   \
    FILE *name(const char *path, const char *mode)                                                           \
    {                                                                                                        \
        return fails("open", at_path(path)) ? (errno = EMFILE, NULL) : NEXT(name)(path, mode);               \
    }
OPENS_STREAM(fopen)
OPENS_STREAM(fopen64)

FILE *fdopen(int fd, const char *mode)
{
    return fails("open", at_fd(fd)) ? (errno = ENOMEM, NULL) : NEXT(fdopen)(fd, mode);
}

DIR *opendir(const char *path)
{
    return fails("open", at_path(path)) ? (errno = EMFILE, NULL) : NEXT(opendir)(path);
}

DIR *fdopendir(int fd)
{
    return fails("open", at_fd(fd)) ? (errno = ENOMEM, NULL) : NEXT(fdopendir)(fd);
}

/* Whether it is no file but a number that wakes another thread, which no system refuses. */
static bool is_wake(int fd)
{
    char place[32], path[32];
    snprintf(place, sizeof place, "/proc/self/fd/%d", fd);
    return syscall(SYS_readlinkat, AT_FDCWD, place, path, sizeof path) > 9 &&
           memcmp(path, "anon_inode", 10) == 0;
}

ssize_t read(int fd, void *to, size_t size)
{
    if (is_wake(fd))
        return NEXT(read)(fd, to, size);
    if (fails("read", at_fd(fd)))
        return errno = EIO, -1;
    if (fails("intr", at_fd(fd)))
        return errno = EINTR, -1;
    return NEXT(read)(fd, to, size > 1 && fails("short-read", at_fd(fd)) ? 1 : size);
}

ssize_t pread(int fd, void *to, size_t size, off_t at)
{
    if (fails("read", at_fd(fd)))
        return errno = EIO, -1;
    return fails("intr", at_fd(fd)) ? (errno = EINTR, -1) : NEXT(pread)(fd, to, size, at);
}

/* The stream reads from what cannot be read, so that it knows of the error. */
static void break_stream(FILE *stream)
{
    int fd = (int)syscall(SYS_openat, AT_FDCWD, "/dev/null", O_WRONLY);
    syscall(SYS_dup3, fd, fileno(stream), 0);
    syscall(SYS_close, fd);
}

size_t fread(void *to, size_t size, size_t count, FILE *stream)
{
    if (fails("read", at_fd(fileno(stream))))
        break_stream(stream);
    return NEXT(fread)(to, size, count, stream);
}

#define READS_FOLDER(name, entry)                                                                            \
    struct entry *name(DIR *folder)                                                                          \
    {                                                                                                        \
        return fails("readdir", at_fd(dirfd(folder))) ? (errno = EIO, NULL) : NEXT(name)(folder);            \
    }
READS_FOLDER(readdir, dirent)
READS_FOLDER(readdir64, dirent64)

ssize_t write(int fd, const void *from, size_t size)
{
    if (is_wake(fd))
        return NEXT(write)(fd, from, size);
    if (fails("write", at_fd(fd)))
        return errno = ENOSPC, -1;
    if (fails("intr", at_fd(fd)))
        return errno = EINTR, -1;
    if (fails_from_now("full", at_fd(fd))) {
        static bool halved;
        if (halved || size < 2)
            return errno = ENOSPC, -1;
        halved = true;
        size /= 2;
    }
    return NEXT(write)(fd, from, size > 1 && fails("short", at_fd(fd)) ? 1 : size);
}

int fsync(int fd)
{
    if (fails("intr", at_fd(fd)))
        return errno = EINTR, -1;
    return fails("fsync", at_fd(fd)) ? (errno = EIO, -1) : NEXT(fsync)(fd);
}

int ftruncate(int fd, off_t length)
{
    return fails("truncate", at_fd(fd)) ? (errno = EIO, -1) : NEXT(ftruncate)(fd, length);
}

off_t lseek(int fd, off_t offset, int from)
{
    return fails("seek", at_fd(fd)) ? (errno = EIO, -1) : NEXT(lseek)(fd, offset, from);
}

int flock(int fd, int how)
{
    if (fails("intr", at_fd(fd)))
        return errno = EINTR, -1;
    return fails("flock", at_fd(fd)) ? (errno = ENOLCK, -1) : NEXT(flock)(fd, how);
}

int rename(const char *from, const char *to)
{
    return fails("rename", at_path(to)) ? (errno = EIO, -1) : NEXT(rename)(from, to);
}

int renameat(int from_folder, const char *from, int to_folder, const char *to)
{
    return fails("rename", at_path(to)) ? (errno = EIO, -1)
                                        : NEXT(renameat)(from_folder, from, to_folder, to);
}

int linkat(int from_folder, const char *from, int to_folder, const char *to, int flags)
{
    return fails("rename", at_path(to)) ? (errno = EIO, -1)
                                        : NEXT(linkat)(from_folder, from, to_folder, to, flags);
}

int unlinkat(int folder, const char *path, int flags)
{
    return fails("unlink", at_path(path)) ? (errno = EIO, -1) : NEXT(unlinkat)(folder, path, flags);
}

/* The file is closed all the same, as with a disk that is full, or a signal that came. */
int close(int fd)
{
    bool failing = fails("close", at_fd(fd)), interrupted = fails("intr", at_fd(fd));
    int done = NEXT(close)(fd);
    return failing ? (errno = EIO, -1) : interrupted ? (errno = EINTR, -1) : done;
}

int fclose(FILE *stream)
{
    bool failing = fails("close", at_fd(fileno(stream)));
    int done = NEXT(fclose)(stream);
    return failing ? (errno = EIO, EOF) : done;
}

int fstat(int fd, struct stat *about)
{
    return fails("stat", at_fd(fd)) ? (errno = EIO, -1) : NEXT(fstat)(fd, about);
}

int stat(const char *restrict path, struct stat *restrict about)
{
    return fails("stat", at_path(path)) ? (errno = EIO, -1) : NEXT(stat)(path, about);
}

int lstat(const char *restrict path, struct stat *restrict about)
{
    return fails("stat", at_path(path)) ? (errno = EIO, -1) : NEXT(lstat)(path, about);
}

int fstatat(int folder, const char *restrict path, struct stat *restrict about, int flags)
{
    return fails("stat", at_path(path)) ? (errno = EIO, -1) : NEXT(fstatat)(folder, path, about, flags);
}

int access(const char *path, int how)
{
    return fails("stat", at_path(path)) ? (errno = EIO, -1) : NEXT(access)(path, how);
}

ssize_t readlinkat(int folder, const char *restrict path, char *restrict to, size_t size)
{
    return fails("stat", at_path(path)) ? (errno = EIO, -1) : NEXT(readlinkat)(folder, path, to, size);
}

int mkdir(const char *path, mode_t mode)
{
    return fails("mkdir", at_path(path)) ? (errno = ENOSPC, -1) : NEXT(mkdir)(path, mode);
}

int nanosleep(const struct timespec *wanted, struct timespec *left)
{
    return fails("intr", nowhere) ? (errno = EINTR, -1) : NEXT(nanosleep)(wanted, left);
}

/* Always the same, so that two runs can be compared. */
ssize_t getrandom(void *to, size_t size, unsigned flags)
{
    (void)flags;
    if (fails("random", nowhere))
        return errno = ENOSYS, -1;
    memset(to, 0x5A, size);
    return (ssize_t)size;
}

int pthread_create(pthread_t *thread, const pthread_attr_t *how, void *(*work)(void *), void *with)
{
    return fails("thread", nowhere) ? EAGAIN : NEXT(pthread_create)(thread, how, work, with);
}
