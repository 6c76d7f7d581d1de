/* The columns of a chart: which moments each stands for, and where the chart is cut into blocks. */
#ifndef REPORT_CHART_COLUMNS_H
#define REPORT_CHART_COLUMNS_H

#include "report/shown_days.h"

/* A bar parts two days, or what is worked from what is not. */
struct chart_column {
    bool bar;
    bool first;  /* of its day */
    bool closed; /* no working hours on that day, and no work */
    int64_t from_min, to_min;
    const struct shown_day *day;
};

struct chart_block {
    size_t from, to;          /* columns, a bar at either end */
    int64_t from_min, to_min; /* midnights */
};

struct chart_columns {
    struct chart_column *items;
    size_t count;
    struct chart_block *blocks;
    size_t block_count;
    size_t a_day; /* columns of a worked day */
};

/* Blocks are at most `room` columns wide. */
struct chart_columns chart_columns_make(struct arena *arena, const struct shown_days *days, size_t room);

#endif
