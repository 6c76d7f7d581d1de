#include "base/arena.h"

#include <assert.h>
#include <stdalign.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { BLOCK_SIZE = 64 * 1024 };

struct block {
    struct block *older;
    size_t size, used;
    alignas(max_align_t) unsigned char bytes[];
};

struct loan {
    struct loan *older;
    void *object;
    void (*release)(void *);
};

struct arena {
    struct block *newest;
    struct loan *loans;
    size_t ceiling, used;
    jmp_buf *escape;
};

struct arena *arena_make(size_t ceiling)
{
    struct arena *arena = calloc(1, sizeof *arena);
    if (arena)
        arena->ceiling = ceiling;
    return arena;
}

void arena_free(struct arena *arena)
{
    if (!arena)
        return;
    for (struct loan *loan = arena->loans; loan; loan = loan->older)
        if (loan->object)
            loan->release(loan->object);
    for (struct block *block = arena->newest, *older; block; block = older) {
        older = block->older;
        free(block);
    }
    free(arena);
}

void arena_guard(struct arena *arena, jmp_buf *escape)
{
    arena->escape = escape;
}

size_t arena_used(const struct arena *arena)
{
    return arena->used;
}

static struct block *block_make(struct arena *arena, size_t need)
{
    size_t size = need > BLOCK_SIZE ? need : BLOCK_SIZE;
    if (arena->ceiling) {
        size_t left = arena->ceiling - arena->used;
        if (left < sizeof(struct block) || left - sizeof(struct block) < need)
            return NULL;
        if (size > left - sizeof(struct block))
            size = left - sizeof(struct block);
    }
    struct block *block = malloc(sizeof *block + size);
    if (!block)
        return NULL;
    block->older = arena->newest;
    block->size = size;
    block->used = 0;
    arena->newest = block;
    arena->used += sizeof *block + size;
    return block;
}

static void *take(struct arena *arena, size_t count, size_t size)
{
    const size_t unit = alignof(max_align_t);
    if (size && count > (SIZE_MAX / 2) / size)
        return NULL;
    size_t need = (count * size + unit - 1) / unit * unit;
    struct block *block = arena->newest;
    if (!block || block->size - block->used < need)
        block = block_make(arena, need);
    if (!block)
        return NULL;
    void *at = block->bytes + block->used;
    block->used += need;
    return memset(at, 0, need);
}

static _Noreturn void run_out(struct arena *arena)
{
    assert(arena->escape && "memory ended where no guard was set");
    longjmp(*arena->escape, 1);
}

void *arena_alloc(struct arena *arena, size_t count, size_t size)
{
    void *at = take(arena, count, size);
    if (!at)
        run_out(arena);
    return at;
}

void *arena_grow(struct arena *arena, void *items, size_t count, size_t *capacity, size_t size)
{
    if (count < *capacity)
        return items;
    size_t wanted = *capacity ? *capacity * 2 : 8;
    void *longer = arena_alloc(arena, wanted, size);
    if (count)
        memcpy(longer, items, count * size);
    *capacity = wanted;
    return longer;
}

char *arena_text_n(struct arena *arena, const char *text, size_t length)
{
    char *copy = arena_alloc(arena, length + 1, 1);
    memcpy(copy, text, length);
    return copy;
}

char *arena_text(struct arena *arena, const char *text)
{
    return arena_text_n(arena, text, strlen(text));
}

char *arena_textf(struct arena *arena, const char *format, ...)
{
    va_list arguments, again;
    va_start(arguments, format);
    va_copy(again, arguments);
    int length = vsnprintf(NULL, 0, format, arguments);
    va_end(arguments);
    assert(length >= 0);
    char *text = take(arena, (size_t)length + 1, 1);
    if (text)
        vsnprintf(text, (size_t)length + 1, format, again);
    va_end(again);
    if (!text)
        run_out(arena);
    return text;
}

void arena_own(struct arena *arena, void *object, void (*release)(void *))
{
    struct loan *loan = take(arena, 1, sizeof *loan);
    if (!loan) {
        release(object);
        run_out(arena);
    }
    loan->object = object;
    loan->release = release;
    loan->older = arena->loans;
    arena->loans = loan;
}

void arena_disown(struct arena *arena, void *object)
{
    for (struct loan *loan = arena->loans; loan; loan = loan->older)
        if (loan->object == object) {
            loan->object = NULL;
            return;
        }
    assert(!"disowned what was never owned");
}

static void release_inner(void *inner)
{
    arena_free(inner);
}

struct arena *arena_make_within(struct arena *owner, size_t ceiling)
{
    struct arena *inner = arena_make(ceiling);
    if (!inner)
        run_out(owner);
    inner->escape = owner->escape;
    arena_own(owner, inner, release_inner);
    return inner;
}

void arena_free_within(struct arena *owner, struct arena *inner)
{
    arena_disown(owner, inner);
    arena_free(inner);
}
