/* Heron's formula in the form that stays exact for needles: W. Kahan, "Miscalculating area and angles of a
 * needle-like triangle" (2014). */
#ifndef SURFACE_TRIANGLE_H
#define SURFACE_TRIANGLE_H

/* In the square of the sides' unit; 0 for sides that do not close, or only by a rounding error. */
double triangle_area(double a, double b, double c);

#endif
