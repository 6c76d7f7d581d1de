/* Binary STL: triangles per second, beside reading the same bytes alone and beside numpy-stl (package python3-stl) on the
 * same file. The aim is within twice the time of reading. */
#include "mesh_make.h"

#include "base/arena.h"
#include "base/err.h"
#include "check.h"
#include "source/part_list.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { TRIANGLES = 6000000, FACET = 50, RUNS = 9, WINDOW = 256 * 1024 };

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void make_stl(const char *path)
{
    FILE *file = fopen(path, "wb");
    unsigned char facet[84] = {0};
    uint64_t seed = 1;
    if (!file)
        exit(1);
    for (int i = 0; i < 4; i++)
        facet[80 + i] = (unsigned char)((uint32_t)TRIANGLES >> 8 * i);
    fwrite(facet, 1, sizeof facet, file);
    for (int i = 0; i < TRIANGLES; i++) {
        float corners[9];
        for (int k = 0; k < 9; k++)
            corners[k] = (float)(1000 * check_random_unit(&seed));
        memcpy(facet + 12, corners, sizeof corners);
        fwrite(facet, 1, FACET, file);
    }
    fclose(file);
}

static double read_alone(const char *path, void *window)
{
    double began = seconds();
    int file = open(path, O_RDONLY);
    while (read(file, window, WINDOW) > 0)
        ;
    close(file);
    return seconds() - began;
}

static double measure(struct arena *arena, const char *path)
{
    struct err_list errors = {0};
    struct mesh_report report;
    double began = seconds();
    if (!make_measured(arena, path, &report, &errors) || report.triangles != TRIANGLES)
        exit(1);
    return seconds() - began;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double by_tool(struct arena *arena, const char *path)
{
    double area, took = 0;
    FILE *answer =
        popen(arena_textf(arena, "/usr/bin/python3 tests/source/mesh_outside.py stl %s", path), "r");
    if (!answer)
        return 0;
    if (fscanf(answer, "%lf %lf", &area, &took) != 2)
        took = 0;
    pclose(answer);
    return took;
}

int main(void)
{
    struct arena *arena = arena_make(0);
    const char *path = make_path(arena, "bench.stl");
    void *window = arena_alloc(arena, WINDOW, 1);
    double alone[RUNS], ours[RUNS];
    make_stl(path);
    for (int i = 0; i < RUNS; i++) {
        alone[i] = read_alone(path, window);
        ours[i] = measure(arena, path);
    }
    qsort(alone, RUNS, sizeof *alone, by_size);
    qsort(ours, RUNS, sizeof *ours, by_size);
    double mine = ours[RUNS / 2], reading = alone[RUNS / 2], tool = by_tool(arena, path);
    printf("binary STL, %d triangles, medians of %d runs\n", TRIANGLES, RUNS);
    printf("measuring: %.1f ms, %.0f million triangles a second\n", mine * 1e3, TRIANGLES / mine / 1e6);
    printf("reading alone: %.1f ms, so measuring takes %.2f times as long\n", reading * 1e3, mine / reading);
    if (tool > 0)
        printf("numpy-stl: %.1f ms, %.1f times as long as measuring\n", tool * 1e3, tool / mine);
    else
        printf("numpy-stl: not installed\n");
    unlink(path);
    arena_free(arena);
    return 0;
}
