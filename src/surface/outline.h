/* The outline of a flat face, and what is left of the face when its edges are chamfered or rounded over.
 *
 * Worked edges are seen from above: the points of the face nearer to its outline than the depth are the strip. Over
 * a convex outline the strip is a hip roof, and what is left is the inset polygon. Shrinking a convex outline by d
 * leaves  area - perimeter d + bend d^2,  bend = sum of tan(turn / 2) over its corners, until a side is used up;
 * then it goes on with the sides that are left. A 45 degree chamfer is sqrt 2 times its view from above; a quarter
 * round is the integral of the perimeter at each depth along its arc. (Elementary geometry.)
 *
 * Re-entrant corners count as circular sectors, -|turn| / 2 each: exact for the points nearer than d as long as no
 * part of the outline meets another. That is the stated approximation for outlines that are not convex.
 */
#ifndef SURFACE_OUTLINE_H
#define SURFACE_OUTLINE_H

#include <stdbool.h>
#include <stddef.h>

struct outline {
    double area_m2, perimeter_m, bend;
    double end_m; /* the depth at which the next side is used up; count 0: the whole face */
    bool convex;
    /* The sides in order, and the turn in radians at the start of each; used up by outline_work. Count 0: an outline
     * whose face ends all at once, or one that is not convex. */
    size_t count;
    double *side_m, *turn;
};

enum edge_work { EDGE_CHAMFER, EDGE_ROUNDOVER };

struct strip {
    double depth_m;  /* less than asked where the face was used up before */
    double face_m2;  /* what is left of the face */
    double strip_m2; /* the sloped or rounded strip itself */
};

struct outline outline_rectangle(double length_m, double width_m);
struct outline outline_triangle(double area_m2, double perimeter_m);
struct outline outline_regular(int corners, double side_m);
/* A hole of 0 is none; the rim of a hole is worked too. */
struct outline outline_circle(double diameter_m, double hole_m);
/* `side_m` and `turn` hold `count` values and stay the caller's; the turns, none negative, add up to a full one. */
struct outline outline_convex(double area_m2, size_t count, double *side_m, double *turn);
/* Of an outline with re-entrant corners, which have negative turns. */
struct outline outline_other(double area_m2, size_t count, const double *side_m, const double *turn);

struct strip outline_work(struct outline *outline, enum edge_work work, double depth_m);

#endif
