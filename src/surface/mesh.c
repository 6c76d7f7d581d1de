#include "surface/mesh.h"

#include <float.h>
#include <math.h>
#include <string.h>

struct vector {
    double x, y, z;
};

static inline struct vector cross(struct vector u, struct vector v)
{
    return (struct vector){u.y * v.z - u.z * v.y, u.z * v.x - u.x * v.z, u.x * v.y - u.y * v.x};
}

static inline double dot(struct vector u, struct vector v)
{
    return u.x * v.x + u.y * v.y + u.z * v.z;
}

/* Twice the area between two sides, or 0 where there is none and the triangle was counted as such. */
static inline double twice_area(struct mesh_total *total, struct vector u, struct vector v)
{
    struct vector normal = cross(u, v);
    double square = dot(normal, normal);
    if (square > 0 && square <= DBL_MAX)
        return sqrt(square);
    if (square == 0)
        total->degenerate++;
    else
        total->nonfinite++;
    return 0;
}

void mesh_add(struct mesh_total *total, const double c[9])
{
    struct vector u = {c[3] - c[0], c[4] - c[1], c[5] - c[2]}, v = {c[6] - c[0], c[7] - c[1], c[8] - c[2]};
    total->triangles++;
    sum_add(&total->area, twice_area(total, u, v) / 2);
}

/* Four lanes, so that no addition waits for the one before. */
static double add_block(struct mesh_total *total, const unsigned char *corners, size_t stride, size_t count)
{
    double lane[4] = {0};
    for (size_t i = 0; i < count; i++) {
        float c[9];
        memcpy(c, corners + i * stride, sizeof c);
        double x = c[0], y = c[1], z = c[2];
        struct vector u = {c[3] - x, c[4] - y, c[5] - z}, v = {c[6] - x, c[7] - y, c[8] - z};
        lane[i % 4] += twice_area(total, u, v);
    }
    return ((lane[0] + lane[1]) + (lane[2] + lane[3])) / 2;
}

void mesh_add_floats(struct mesh_total *total, const unsigned char *corners, size_t stride, size_t count)
{
    for (size_t from = 0; from < count; from += MESH_BLOCK) {
        size_t block = count - from < MESH_BLOCK ? count - from : MESH_BLOCK;
        sum_add(&total->area, add_block(total, corners + from * stride, stride, block));
    }
    total->triangles += count;
}

static struct vector to(const double from[3], const double at[3])
{
    return (struct vector){at[0] - from[0], at[1] - from[1], at[2] - from[2]};
}

/* One triangle of the fan. */
static void fan_triangle(struct mesh_polygon *p, const double corner[3])
{
    struct vector normal = cross(to(p->first, p->last), to(p->first, corner));
    double twice = sqrt(dot(normal, normal));
    if (p->fan == 0 && twice > 0) {
        p->normal[0] = normal.x / twice;
        p->normal[1] = normal.y / twice;
        p->normal[2] = normal.z / twice;
    }
    double seen = dot(normal, (struct vector){p->normal[0], p->normal[1], p->normal[2]});
    p->fan += twice;
    p->along += fabs(seen);
    p->folds = p->folds || seen < 0;
    p->sum[0] += normal.x;
    p->sum[1] += normal.y;
    p->sum[2] += normal.z;
}

void mesh_polygon_corner(struct mesh_polygon *p, const double corner[3])
{
    if (p->corners == 0)
        memcpy(p->first, corner, sizeof p->first);
    else if (p->corners >= 2)
        fan_triangle(p, corner);
    memcpy(p->last, corner, sizeof p->last);
    p->corners++;
}

void mesh_add_polygon(struct mesh_total *total, const struct mesh_polygon *p)
{
    if (p->corners < 3)
        return;
    struct vector sum = {p->sum[0], p->sum[1], p->sum[2]};
    bool flat = p->along >= p->fan * (1 - 1e-6);
    double twice = p->folds && flat ? sqrt(dot(sum, sum)) : p->fan;
    total->triangles += p->corners - 2;
    if (twice > 0 && twice <= DBL_MAX)
        sum_add(&total->area, twice / 2);
    else if (twice == 0)
        total->degenerate += p->corners - 2;
    else
        total->nonfinite += p->corners - 2;
}

double mesh_area(const struct mesh_total *total)
{
    return sum_value(&total->area);
}
