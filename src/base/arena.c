#include "base/arena.h"

#include <assert.h>
#include <stdalign.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#ifdef __has_feature
#define IS_WATCHED __has_feature(address_sanitizer) /* as clang says it */
#else
#define IS_WATCHED (__SANITIZE_ADDRESS__ + 0)
#endif
#if IS_WATCHED
#include <sanitizer/asan_interface.h>
/* Under the address sanitizer nothing of a block may be touched but what was handed out of it, and between any two
 * objects lies a gap: a step past the end of one is found where it would only have met the next. */
enum { GAP = 16 };
#else
#define ASAN_POISON_MEMORY_REGION(at, size) ((void)(at), (void)(size))
#define ASAN_UNPOISON_MEMORY_REGION(at, size) ((void)(at), (void)(size))
enum { GAP = 0 };
#endif

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
    struct arena *owner, *inner,
        *older; /* NULL: on its own; the newest one within it; the next of its owner's */
    struct block *newest;
    struct loan *loans;
    size_t ceiling, used; /* what those within it use is counted too */
    jmp_buf *escape;
};

struct arena *arena_make(size_t ceiling)
{
    struct arena *arena = calloc(1, sizeof *arena);
    if (arena)
        arena->ceiling = ceiling;
    return arena;
}

static void release_loans(struct arena *arena, const struct loan *kept)
{
    for (; arena->loans != kept; arena->loans = arena->loans->older)
        if (arena->loans->object)
            arena->loans->release(arena->loans->object);
}

void arena_free(struct arena *arena)
{
    if (!arena)
        return;
    while (arena->inner)
        arena_free_within(arena, arena->inner);
    release_loans(arena, NULL);
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

/* What may still be taken under its own ceiling and under those of all that it lies in. */
static size_t bytes_left(const struct arena *arena)
{
    size_t left = SIZE_MAX;
    for (; arena; arena = arena->owner)
        if (arena->ceiling && arena->ceiling - arena->used < left)
            left = arena->ceiling - arena->used;
    return left;
}

static void charge(struct arena *arena, size_t bytes)
{
    for (; arena; arena = arena->owner)
        arena->used += bytes;
}

static struct block *block_make(struct arena *arena, size_t need)
{
    size_t size = need > BLOCK_SIZE ? need : BLOCK_SIZE, left = bytes_left(arena);
    if (left < sizeof(struct block) || left - sizeof(struct block) < need)
        return NULL;
    if (size > left - sizeof(struct block))
        size = left - sizeof(struct block);
    struct block *block = malloc(sizeof *block + size);
    if (!block)
        return NULL;
    block->older = arena->newest;
    block->size = size;
    block->used = 0;
    arena->newest = block;
    ASAN_POISON_MEMORY_REGION(block->bytes, size);
    charge(arena, sizeof *block + size);
    return block;
}

/* Room for so many bytes, with whatever is in them. */
static void *place(struct arena *arena, size_t count, size_t size)
{
    const size_t unit = alignof(max_align_t);
    /* A product of two halves of a word always fits: no division for these. */
    if ((count | size) > UINT32_MAX / 2 && size && count > (SIZE_MAX / 2) / size)
        return NULL;
    size_t need = (count * size + GAP + unit - 1) / unit * unit;
    struct block *block = arena->newest;
    if (!block || block->size - block->used < need)
        block = block_make(arena, need);
    if (!block)
        return NULL;
    void *at = block->bytes + block->used;
    block->used += need;
    ASAN_UNPOISON_MEMORY_REGION(at, count * size);
    return at;
}

static void *take(struct arena *arena, size_t count, size_t size)
{
    void *at = place(arena, count, size);
    return at ? memset(at, 0, count * size) : NULL;
}

_Noreturn void arena_run_out(const struct arena *arena)
{
    while (!arena->escape && arena->owner)
        arena = arena->owner;
    assert(arena->escape && "memory ended where no guard was set");
    longjmp(*arena->escape, 1);
}

void *arena_alloc(struct arena *arena, size_t count, size_t size)
{
    void *at = take(arena, count, size);
    if (!at)
        arena_run_out(arena);
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
    char *copy = place(arena, length + 1, 1);
    if (!copy)
        arena_run_out(arena);
    memcpy(copy, text, length);
    copy[length] = '\0';
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
        arena_run_out(arena);
    return text;
}

void arena_own(struct arena *arena, void *object, void (*release)(void *))
{
    struct loan *loan = take(arena, 1, sizeof *loan);
    if (!loan) {
        release(object);
        arena_run_out(arena);
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

struct arena *arena_make_within(struct arena *owner, size_t ceiling)
{
    struct arena *inner = bytes_left(owner) < sizeof *inner ? NULL : arena_make(ceiling);
    if (!inner)
        arena_run_out(owner);
    charge(owner, sizeof *inner);
    inner->owner = owner;
    inner->older = owner->inner;
    owner->inner = inner;
    return inner;
}

void arena_free_within(struct arena *owner, struct arena *inner)
{
    struct arena **place = &owner->inner;
    while (*place && *place != inner)
        place = &(*place)->older;
    assert(*place && "no arena within this one");
    *place = inner->older;
    size_t used = sizeof *inner + inner->used;
    for (struct arena *arena = owner; arena; arena = arena->owner)
        arena->used -= used;
    inner->owner = NULL;
    arena_free(inner);
}

bool arena_try(struct arena *arena, void (*work)(void *call), void *call)
{
    jmp_buf escape, *const outer = arena->escape;
    const struct arena *const inner = arena->inner;
    const struct loan *const loans = arena->loans;
    if (setjmp(escape)) {
        arena->escape = outer;
        while (arena->inner != inner)
            arena_free_within(arena, arena->inner);
        release_loans(arena, loans);
        return false;
    }
    arena->escape = &escape;
    work(call);
    arena->escape = outer;
    return true;
}
