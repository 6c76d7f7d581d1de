/* Text that grows in an arena. Always terminated; `text` moves as it grows, so keep the buf, not the pointer. */
#ifndef BASE_BUF_H
#define BASE_BUF_H

#include <stddef.h>

struct arena;

struct buf {
    struct arena *arena;
    char *text; /* "" from the start */
    size_t length, capacity;
};

void buf_init(struct buf *buf, struct arena *arena);
void buf_add(struct buf *buf, const char *text);
void buf_add_n(struct buf *buf, const char *bytes, size_t length);
void buf_add_char(struct buf *buf, char c);
void buf_add_repeat(struct buf *buf, char c, size_t times);
void buf_addf(struct buf *buf, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
