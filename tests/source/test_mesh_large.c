/* A large mesh takes a small window, not its size in memory. */
#include "check.h"
#include "mesh_make.h"

#include "base/arena.h"
#include "base/err.h"
#include "source/part_list.h"

#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

enum { BLOCK = 10000, BLOCKS = 600, TRIANGLES = BLOCK * BLOCKS, FACET = 50 };

/* The most memory that was ever held, in KiB. */
static long held_kib(void)
{
    struct rusage usage;
    assert_int_equal(getrusage(RUSAGE_SELF, &usage), 0);
    return usage.ru_maxrss;
}

/* 300 MB: right triangles of 3 and 4, one block over and over. */
static const char *make_stl(struct arena *arena)
{
    static unsigned char block[BLOCK * FACET];
    const char *path = make_path(arena, "large.stl");
    const float corners[9] = {0, 0, 0, 3, 0, 0, 0, 4, 0};
    const uint32_t count = TRIANGLES;
    unsigned char header[84] = {0};
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    for (int i = 0; i < 4; i++)
        header[80 + i] = (unsigned char)(count >> 8 * i);
    for (size_t i = 0; i < BLOCK; i++)
        memcpy(block + i * FACET + 12, corners, sizeof corners);
    fwrite(header, 1, sizeof header, file);
    for (int i = 0; i < BLOCKS; i++)
        assert_int_equal(fwrite(block, FACET, BLOCK, file), BLOCK);
    fclose(file);
    return path;
}

static void stl_of_300_mb(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct mesh_report report;
    const char *path = make_stl(arena);
    long before = held_kib();
    assert_true(make_measured(arena, path, &report, &errors));
    check_true(HERE, held_kib() - before <= 16 * 1024, "16 MiB suffice");
    check_int(HERE, (intmax_t)report.triangles, TRIANGLES);
    check_double(HERE, report.area, 6.0 * TRIANGLES, 0);
    unlink(path);
    arena_free(arena);
}

/* Corners are kept, and take no more than their text. */
static void obj_of_20_mb(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct err_list errors = {0};
    struct mesh_report report;
    const char *path = make_path(arena, "large.obj");
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    for (int i = 0; i < 200000; i++)
        fprintf(file, "v %.9f 0.000000000 0.000000000\nv %.9f 3.000000000 0.000000000\nf -1 -2 1\n", i * 0.25,
                i * 0.25);
    long size = ftell(file);
    fclose(file);
    long before = held_kib();
    assert_true(make_measured(arena, path, &report, &errors));
    check_true(HERE, held_kib() - before <= size / 1024 + 16 * 1024, "the file and 16 MiB suffice");
    check_int(HERE, (intmax_t)report.triangles, 200000);
    check_int(HERE, (intmax_t)report.degenerate, 1);
    /* Triangles of height 3 over 0, 1/4, 2/4 ... */
    check_double(HERE, report.area, 1.5 * 0.25 * 199999.0 * 200000.0 / 2, 1e-12);
    unlink(path);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(stl_of_300_mb), CHECK_TEST(obj_of_20_mb));
}
