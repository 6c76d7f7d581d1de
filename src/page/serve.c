/* From settings to a page that answers, until a signal ends it. */
#include "page/server.h"

#include "base/err.h"

#include <arpa/inet.h>
#include <errno.h>
#include <jansson.h>
#include <netdb.h>
#include <netinet/in.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>
#include <unistd.h>

enum {
    CONNECTIONS_MOST = 4000,
    FILES_BESIDE = 100,
    TIMEOUT_S = 30,
    ALIVE_S = 15,
    LINE_MOST = 600,
    MEMORY_STATUS = 4 /* of the program when memory ran out */
};

static bool set_port(struct sockaddr_storage *address, int port)
{
    if (address->ss_family == AF_INET)
        ((struct sockaddr_in *)address)->sin_port = htons((uint16_t)port);
    else
        ((struct sockaddr_in6 *)address)->sin6_port = htons((uint16_t)port);
    return true;
}

/* The address of a name; without one this machine's own. */
static bool find_address(const struct page_settings *settings, struct sockaddr_storage *address,
                         struct err *err)
{
    struct addrinfo hints = {.ai_family = AF_UNSPEC, .ai_socktype = SOCK_STREAM, .ai_flags = AI_PASSIVE},
                    *found;
    if (getaddrinfo(settings->listen ? settings->listen : "127.0.0.1", NULL, &hints, &found) != 0)
        return err_say_found(err, "an address of this machine behind --listen", settings->listen);
    memset(address, 0, sizeof *address);
    memcpy(address, found->ai_addr, found->ai_addrlen);
    freeaddrinfo(found);
    return set_port(address, settings->port);
}

/* Whether it means every address of the machine. */
static bool is_any(const struct sockaddr_storage *address)
{
    if (address->ss_family == AF_INET)
        return ((const struct sockaddr_in *)address)->sin_addr.s_addr == htonl(INADDR_ANY);
    return memcmp(&((const struct sockaddr_in6 *)address)->sin6_addr, &in6addr_any, sizeof in6addr_any) == 0;
}

/* As many connections as the system lets a program have open files, within reason. */
static unsigned connections_most(void)
{
    struct rlimit limit;
    if (getrlimit(RLIMIT_NOFILE, &limit) != 0)
        return FILES_BESIDE;
    limit.rlim_cur =
        limit.rlim_max < CONNECTIONS_MOST + FILES_BESIDE ? limit.rlim_max : CONNECTIONS_MOST + FILES_BESIDE;
    (void)setrlimit(RLIMIT_NOFILE, &limit);
    if (getrlimit(RLIMIT_NOFILE, &limit) != 0 || limit.rlim_cur < 2 * FILES_BESIDE)
        return FILES_BESIDE;
    return (unsigned)limit.rlim_cur - FILES_BESIDE;
}

/* Targets are decoded by the router, which cuts them first. */
static size_t leave_encoded(void *with, struct MHD_Connection *connection, char *text)
{
    (void)with;
    (void)connection;
    return strlen(text);
}

static bool say_not_free(struct err *err, int cause)
{
    err_fill(err, ERR_FILE, "an address and a port that are free to listen at",
             cause == EADDRINUSE ? "one that another program has"
             : cause == EACCES   ? "one that only the system's owner may use"
                                 : "one that cannot be used");
    return false;
}

/* A socket that listens there; -1: errno says why not. Ours, because not every version of the library keeps that errno. */
static int listen_at(const struct sockaddr_storage *address)
{
    const int yes = 1;
    bool six = address->ss_family == AF_INET6;
    socklen_t size = six ? sizeof(struct sockaddr_in6) : sizeof(struct sockaddr_in);
    int listener = socket(address->ss_family, SOCK_STREAM | SOCK_CLOEXEC, 0);
    if (listener < 0)
        return -1;
    if (setsockopt(listener, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes) == 0 &&
        (!six || setsockopt(listener, IPPROTO_IPV6, IPV6_V6ONLY, &yes, sizeof yes) == 0) &&
        bind(listener, (const struct sockaddr *)address, size) == 0 && listen(listener, SOMAXCONN) == 0)
        return listener;
    int cause = errno;
    (void)close(listener);
    errno = cause;
    return -1;
}

static bool start_daemon(struct server *server, const struct sockaddr_storage *address, struct err *err)
{
    unsigned flags = MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_AUTO | MHD_ALLOW_SUSPEND_RESUME;
    int listener = listen_at(address);
    if (listener < 0)
        return say_not_free(err, errno);
    if (address->ss_family == AF_INET6)
        flags |= MHD_USE_IPv6;
    server->daemon = MHD_start_daemon(
        flags, 0, NULL, NULL, visit_handle, server, MHD_OPTION_LISTEN_SOCKET, listener,
        MHD_OPTION_URI_LOG_CALLBACK, visit_begin, server, MHD_OPTION_UNESCAPE_CALLBACK, leave_encoded, NULL,
        MHD_OPTION_NOTIFY_COMPLETED, visit_end, server, MHD_OPTION_CONNECTION_LIMIT, connections_most(),
        MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)TIMEOUT_S, MHD_OPTION_END);
    return server->daemon || say_not_free(err, 0);
}

static bool start_workers(struct server *server)
{
    long processors = sysconf(_SC_NPROCESSORS_ONLN);
    size_t wanted = processors < 2 ? 2 : processors > WORKERS_MOST ? WORKERS_MOST : (size_t)processors;
    while (server->worker_count < wanted &&
           pthread_create(&server->workers[server->worker_count], NULL, visit_work, server) == 0)
        server->worker_count++;
    return server->worker_count > 0;
}

/* What still waits is answered, what is being planned ends early, what listens is let go. */
static void end(struct server *server)
{
    if (server->page)
        page_end(server->page);
    (void)pthread_mutex_lock(&server->lock);
    server->ends = true;
    (void)pthread_cond_broadcast(&server->wake);
    (void)pthread_mutex_unlock(&server->lock);
    for (size_t i = 0; i < server->worker_count; i++)
        (void)pthread_join(server->workers[i], NULL);
    events_end(server);
    if (server->daemon)
        MHD_stop_daemon(server->daemon);
}

static void tell_changed(void *server, const char *file)
{
    events_tell(server, file);
}

/* Looks each second what has changed, until a signal comes. */
static void watch(struct server *server, const sigset_t *signals)
{
    static const struct timespec second = {1, 0};
    for (int i = 1; sigtimedwait(signals, NULL, &second) < 0; i++) {
        page_look(server->page, tell_changed, server);
        if (i % ALIVE_S == 0)
            events_tell(server, ": alive\n\n");
    }
}

static bool print_address(const struct server *server, const struct page_settings *settings)
{
    const char *name = settings->listen ? settings->listen : "127.0.0.1";
    bool bare = strchr(name, ':') != NULL && name[0] != '[';
    printf("http://%s%s%s:%d/\n", bare ? "[" : "", name, bare ? "]" : "", page_settings(server->page)->port);
    return fflush(stdout) == 0;
}

static bool begin(struct server *server, struct page_settings *settings, struct err *err)
{
    struct sockaddr_storage address;
    if (!find_address(settings, &address, err))
        return false;
    settings->any = is_any(&address);
    if (!start_daemon(server, &address, err))
        return false;
    settings->port = MHD_get_daemon_info(server->daemon, MHD_DAEMON_INFO_BIND_PORT)->port;
    page_set_port(server->page, settings->port, settings->any);
    return start_workers(server) || err_say_found(err, "threads to answer with", "none");
}

/* The library of JSON reads on without the bytes for which it finds no memory, and then writes behind the end of what it has: after that
 * nothing can be trusted, and so the program ends before. What was being saved is as it was, or is finished by the next run. */
static void *sure_memory(size_t size)
{
    static const char none[] = "coatwright: expected memory enough for an answer, found none left\n";
    void *memory = malloc(size);
    if (memory)
        return memory;
    ssize_t written = write(STDERR_FILENO, none, sizeof none - 1);
    (void)written;
    _exit(MEMORY_STATUS);
}

bool page_serve(struct page_settings settings, struct err *err)
{
    struct server server = {.page = page_make(&settings)};
    sigset_t signals, before;
    json_set_alloc_funcs(sure_memory, free);
    sigemptyset(&signals);
    sigaddset(&signals, SIGINT);
    sigaddset(&signals, SIGTERM);
    (void)pthread_mutex_init(&server.lock, NULL);
    (void)pthread_cond_init(&server.wake, NULL);
    (void)pthread_sigmask(SIG_BLOCK, &signals, &before);
    bool good =
        server.page ? begin(&server, &settings, err) : err_say_found(err, "memory for the page", "none");
    if (good && print_address(&server, &settings))
        watch(&server, &signals);
    end(&server);
    page_free(server.page);
    (void)pthread_sigmask(SIG_SETMASK, &before, NULL);
    return good;
}
