#include "source/part_list.h"

#include "format/mesh.h"
#include "surface/mesh.h"

struct measuring {
    struct mesh_total total;
    struct mesh_polygon polygon;
};

static void add_triangle(void *to, const double corners[9])
{
    mesh_add(&((struct measuring *)to)->total, corners);
}

static void add_floats(void *to, const unsigned char *corners, size_t stride, size_t count)
{
    mesh_add_floats(&((struct measuring *)to)->total, corners, stride, count);
}

static void add_corner(void *to, const double corner[3], size_t number)
{
    struct measuring *measuring = to;
    if (number == 0)
        measuring->polygon = (struct mesh_polygon){0};
    mesh_polygon_corner(&measuring->polygon, corner);
}

static void add_polygon(void *to)
{
    struct measuring *measuring = to;
    mesh_add_polygon(&measuring->total, &measuring->polygon);
}

static struct mesh_sink sink_of(struct measuring *measuring)
{
    return (struct mesh_sink){measuring, add_triangle, add_floats, add_corner, add_polygon};
}

static struct mesh_report report_of(const struct mesh_total *total)
{
    return (struct mesh_report){mesh_area(total), total->triangles, total->degenerate, total->nonfinite};
}

bool mesh_measure(struct arena *owner, int file, const char *path, struct mesh_report *report,
                  struct err_list *errors)
{
    struct measuring measuring = {.total.triangles = 0};
    bool good = mesh_read(owner, file, path, sink_of(&measuring), errors);
    *report = report_of(&measuring.total);
    return good;
}
