/* The calls of the library of faults (fault.c) that go to a net, or wait for it. Kinds:
 *
 *   socket connect bind listen accept send recv poll; short-send, short-recv: one byte
 *   epoll eventfd option                       epoll_create1, epoll_ctl that adds; setsockopt */
#include "fault.h"

#include <poll.h>
#include <sys/epoll.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <sys/uio.h>

int socket(int domain, int type, int protocol)
{
    return fails("socket", nowhere) ? (errno = EMFILE, -1) : NEXT(socket)(domain, type, protocol);
}

int connect(int fd, const struct sockaddr *address, socklen_t length)
{
    if (fails("intr", nowhere))
        return errno = EINTR, -1;
    return fails("connect", nowhere) ? (errno = ECONNREFUSED, -1) : NEXT(connect)(fd, address, length);
}

int bind(int fd, const struct sockaddr *address, socklen_t length)
{
    return fails("bind", nowhere) ? (errno = EADDRINUSE, -1) : NEXT(bind)(fd, address, length);
}

int listen(int fd, int waiting)
{
    return fails("listen", nowhere) ? (errno = EADDRINUSE, -1) : NEXT(listen)(fd, waiting);
}

int accept(int fd, struct sockaddr *restrict address, socklen_t *restrict length)
{
    return fails("accept", nowhere) ? (errno = EMFILE, -1) : NEXT(accept)(fd, address, length);
}

int accept4(int fd, struct sockaddr *restrict address, socklen_t *restrict length, int flags)
{
    return fails("accept", nowhere) ? (errno = EMFILE, -1) : NEXT(accept4)(fd, address, length, flags);
}

ssize_t send(int fd, const void *from, size_t size, int flags)
{
    if (fails("send", nowhere))
        return errno = ECONNRESET, -1;
    if (fails("intr", nowhere))
        return errno = EINTR, -1;
    return NEXT(send)(fd, from, size > 1 && fails("short-send", nowhere) ? 1 : size, flags);
}

ssize_t recv(int fd, void *to, size_t size, int flags)
{
    if (fails("recv", nowhere))
        return errno = ECONNRESET, -1;
    if (fails("intr", nowhere))
        return errno = EINTR, -1;
    return NEXT(recv)(fd, to, size > 1 && fails("short-recv", nowhere) ? 1 : size, flags);
}

int poll(struct pollfd *of, nfds_t count, int wait_ms)
{
    if (fails("intr", nowhere))
        return errno = EINTR, -1;
    return fails("poll", nowhere) ? (errno = ENOMEM, -1) : NEXT(poll)(of, count, wait_ms);
}

/* Of what is sent in pieces, the first piece, or its first byte. */
static ssize_t send_first(int fd, const struct iovec *pieces, int flags)
{
    return NEXT(send)(fd, pieces[0].iov_base, pieces[0].iov_len > 1 ? 1 : pieces[0].iov_len, flags);
}

ssize_t sendmsg(int fd, const struct msghdr *message, int flags)
{
    if (fails("send", nowhere))
        return errno = ECONNRESET, -1;
    if (fails("intr", nowhere))
        return errno = EINTR, -1;
    if (message->msg_iovlen > 0 && fails("short-send", nowhere))
        return send_first(fd, message->msg_iov, flags);
    return NEXT(sendmsg)(fd, message, flags);
}

int setsockopt(int fd, int level, int option, const void *value, socklen_t length)
{
    return fails("option", nowhere) ? (errno = ENOBUFS, -1)
                                    : NEXT(setsockopt)(fd, level, option, value, length);
}

int epoll_create1(int flags)
{
    return fails("epoll", nowhere) ? (errno = EMFILE, -1) : NEXT(epoll_create1)(flags);
}

int epoll_ctl(int epoll, int what, int fd, struct epoll_event *event)
{
    return what == EPOLL_CTL_ADD && fails("epoll", nowhere) ? (errno = ENOSPC, -1)
                                                            : NEXT(epoll_ctl)(epoll, what, fd, event);
}

int epoll_wait(int epoll, struct epoll_event *events, int most, int wait_ms)
{
    return fails("intr", nowhere) ? (errno = EINTR, -1) : NEXT(epoll_wait)(epoll, events, most, wait_ms);
}

int eventfd(unsigned count, int flags)
{
    return fails("eventfd", nowhere) ? (errno = EMFILE, -1) : NEXT(eventfd)(count, flags);
}
