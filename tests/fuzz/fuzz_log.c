/* Whatever a log holds, reading it ends without a mistake, only with warnings that have their place; what was read is written as lines
 * that read as the same, and adding behind its last whole line loses none of it. */
#include "base/arena.h"
#include "source/log_file.h"

#include <assert.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const struct zone_change changes[] = {{INT64_MIN, 0}, {30080220, 60}};
static const struct zone london = {"Europe/London", 2, changes};

struct look {
    struct arena *arena;
    struct err_list errors, warnings;
};

static struct log read_log(struct look *look, const char *text, size_t length)
{
    struct reading reading = {look->arena, texts_make(look->arena), &look->errors, &look->warnings, NULL};
    struct file_text file = {.name = "fuzz.log", .text = text, .length = length};
    struct log log = log_read(&reading, &file, &london);
    assert(look->errors.count == 0);
    assert(log.whole <= length);
    return log;
}

static void write_log(struct buf *out, struct arena *arena, const struct log *log)
{
    buf_init(out, arena);
    for (size_t i = 0; i < log->count; i++)
        log_write(out, &log->entries[i], &london);
}

static void check_entries(struct arena *arena, const struct log *log, size_t length)
{
    const bool *holding = log_holding(arena, log);
    for (size_t i = 0; i < log->count; i++) {
        const struct log_entry *entry = &log->entries[i];
        assert(entry->at < length && entry->number >= 1 && entry->number <= log->last);
        assert((entry->kind == LOG_DONE || entry->kind == LOG_AGAIN || entry->kind == LOG_SKIP) ==
               !!entry->step);
        assert(entry->kind != LOG_UNDO || !holding[i]);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *arena = arena_make(0);
    assert(arena);
    struct look first = {.arena = arena}, second = {.arena = arena}, third = {.arena = arena};
    const char *text = arena_text_n(arena, (const char *)data, size);
    struct log log = read_log(&first, text, size);
    struct buf once, twice;
    check_entries(arena, &log, size);
    write_log(&once, arena, &log);
    struct log again = read_log(&second, once.text, once.length);
    assert(again.count == log.count && again.whole == once.length && again.last == log.last);
    write_log(&twice, arena, &again);
    assert(strcmp(once.text, twice.text) == 0);
    assert(read_log(&third, text, log.whole).count == log.count);
    arena_free(arena);
    return 0;
}
