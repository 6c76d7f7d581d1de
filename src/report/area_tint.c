#include "report/area_tint.h"

#include "base/arena.h"

static const struct svg_pattern tints[TINT_COUNT] = {
    {"tint-a", SVG_HATCH_RISING, "#f5e4b4", "#7d5f10", 9, 1.2},
    {"tint-b", SVG_HATCH_FALLING, "#cfe2ec", "#1d5270", 9, 1.2},
    {"tint-c", SVG_HATCH_DOTS, "#f1d2c4", "#8f3717", 8, 1.5},
    {"tint-d", SVG_HATCH_RISING, "#dde4cf", "#3c4b26", 4, 1},
    {"tint-e", SVG_HATCH_FALLING, "#e5d6e8", "#572c66", 4, 1},
    {"tint-f", SVG_HATCH_DOTS, "#dadada", "#262626", 4, 0.9},
};

const struct svg_pattern *tint_of(size_t schedule)
{
    return &tints[schedule % TINT_COUNT];
}

const char *tint_look(struct arena *arena, int schedule)
{
    if (schedule < 0)
        return "fill=\"#ffffff\" stroke=\"#8a8f8c\" stroke-width=\"0.8\" stroke-dasharray=\"3 2\"";
    const struct svg_pattern *tint = tint_of((size_t)schedule);
    return arena_textf(arena, "fill=\"url(#%s)\" stroke=\"%s\" stroke-width=\"1\"", tint->id, tint->ink);
}
