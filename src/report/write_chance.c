#include "report/write_chance.h"

static void write_spread(struct json_write *w, const char *key, struct chance_spread spread)
{
    json_open_row(w, key, '{');
    json_put_number(w, "low", spread.low);
    json_put_number(w, "high", spread.high);
    json_put_text(w, "likeliest", spread.even ? NULL : "as planned");
    json_close(w);
}

static void write_risk(struct json_write *w, const struct chance *chance)
{
    if (!chance->driver) {
        json_put_null(w, "risk");
        return;
    }
    json_open_row(w, "risk", '{');
    json_put_text(w, "id", chance->driver->operation->id);
    json_put_text(w, "state", finish_state_name(chance->driver_state));
    json_put_text(w, "of", chance->driver_late ? "late" : "later than planned");
    json_put_number(w, "share", chance->driver_share);
    json_put_whole(w, "adds_min", chance->driver_adds_min);
    json_close(w);
}

void write_chance(struct json_write *w, const char *key, const struct timetable *timetable,
                  const struct chance *chance)
{
    const struct chance_options *options = &chance->options;
    json_open(w, key, '{');
    json_put_whole(w, "draws", options->draws);
    json_put_whole(w, "seed", (int64_t)options->seed);
    json_put_whole(w, "on_time", chance->on_time);
    json_put_number(w, "share", (double)chance->on_time / options->draws);
    json_put_moment(w, "ready_50", timetable->job->zone, chance->half_min);
    json_put_moment(w, "ready_90", timetable->job->zone, chance->nine_tenths_min);
    json_put_whole(w, "scuffed", chance->scuffed);
    json_put_whole(w, "spoiled", chance->spoiled);
    write_risk(w, chance);
    write_spread(w, "drying", options->drying);
    write_spread(w, "hands_on", options->hands);
    json_put_number(w, "shared", options->shared);
    json_put_text(w, "source", "common practice, from memory");
    json_close(w);
}
