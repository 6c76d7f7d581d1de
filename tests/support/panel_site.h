/* The work of a panel as a planner of batches sees it, for tests of the timetable's own modules: in
 * minutes since the midnight before Monday 1 March 2027. */
#ifndef TESTS_PANEL_SITE_H
#define TESTS_PANEL_SITE_H

#include "panel.h"
#include "timetable/site.h"

/* Its operations; mistakes in it fail the test. */
const struct operations *panel_operations(struct arena *arena, struct panel *panel);
/* Over four weeks. */
struct site *panel_site(struct arena *arena, struct panel *panel);
/* Work from 08:00 until one minute of the day, and from another to 17:00. */
void panel_set_noon(struct panel *panel, int closes_min, int opens_min);
/* The number of an operation; one that is not there fails the test. */
int panel_item(const struct operations *operations, const char *id);
/* A minute of the site, by day of March. */
int32_t site_at(int day, int hour, int minute);

#endif
