/* What the two mesh targets share: bytes are measured as a file, and what holds of every answer is checked. */
#ifndef FUZZ_MESH_BYTES_H
#define FUZZ_MESH_BYTES_H

#include "base/arena.h"
#include "base/err.h"
#include "source/part_list.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* `times` copies of the bytes, two line ends after each copy but the last. */
static inline bool measure_copies(const uint8_t *data, size_t size, int times, const char *name,
                                  struct mesh_report *report)
{
    struct err_list errors = {0};
    FILE *file = tmpfile();
    assert(file);
    for (int i = 0; i < times; i++) {
        if (i > 0)
            fputs("\n\n", file);
        fwrite(data, 1, size, file);
    }
    fflush(file);
    lseek(fileno(file), 0, SEEK_SET);
    struct arena *arena = arena_make(0);
    bool good = mesh_measure(arena, fileno(file), name, report, &errors);
    arena_free(arena);
    fclose(file);
    /* One mistake is told, or none; what was counted adds up. */
    assert(errors.count == (good ? 0 : 1));
    assert(good || errors.items[0].expected[0]);
    assert(report->degenerate + report->nonfinite <= report->triangles);
    assert(isfinite(report->area) && report->area >= 0);
    assert(report->triangles > report->degenerate + report->nonfinite || report->area == 0);
    return good;
}

/* A text twice over has twice the area, to the last bit. */
static inline void check_twice(const uint8_t *data, size_t size, const char *name,
                               const struct mesh_report *once)
{
    struct mesh_report twice;
    if (size >= 3 && memcmp(data, "\xEF\xBB\xBF", 3) == 0)
        return;
    assert(measure_copies(data, size, 2, name, &twice));
    assert(twice.area == 2 * once->area);
    assert(twice.triangles == 2 * once->triangles);
    assert(twice.degenerate == 2 * once->degenerate && twice.nonfinite == 2 * once->nonfinite);
}

#endif
