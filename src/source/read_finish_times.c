#include "source/read_finish_parts.h"

#include "base/measure.h"
#include "source/read_words.h"

enum { GRIT_LEAST = 24, GRIT_MOST = 10000 };

static bool read_range(struct json_at at, struct span_range *range)
{
    struct json_at pair[2];
    return json_pair(at, "two time spans: from, until", pair) && json_span(pair[0], &range->least_min) &&
           json_span(pair[1], &range->most_min);
}

/* What a list of states says itself; the others keep what they were. */
static void read_states(struct json_at object, struct finish_times *times, bool given[STATE_COUNT])
{
    for (int i = 0; i < STATE_COUNT; i++) {
        struct json_at at = json_member(object, finish_state_name((enum finish_state)i));
        struct span_range window;
        given[i] |= at.node != NULL;
        if (i == STATE_RECOAT && at.node && read_range(at, &window)) {
            times->after_min[i] = window.least_min;
            times->recoat_last_min = window.most_min;
        } else if (i != STATE_RECOAT && at.node) {
            json_span(at, &times->after_min[i]);
        }
    }
}

/* Ready to sand when it may be recoated, to wrap when it may be used: where nothing else is said. */
static void fill_states(struct finish_times *times, const bool given[STATE_COUNT])
{
    if (!given[STATE_SAND])
        times->after_min[STATE_SAND] = times->after_min[STATE_RECOAT];
    if (!given[STATE_WRAP])
        times->after_min[STATE_WRAP] = times->after_min[STATE_LIGHT_USE];
}

static void need_states(struct json_at object, const bool given[STATE_COUNT])
{
    int32_t unused;
    for (int i = 0; i < STATE_COUNT; i++)
        if (!given[i] && i == STATE_RECOAT)
            json_refuse(json_member(object, "recoat"), "two time spans: from, until");
        else if (!given[i] && i != STATE_SAND && i != STATE_WRAP)
            json_span(json_member(object, finish_state_name((enum finish_state)i)), &unused);
}

static void read_reference(struct json_at at, struct finish *finish)
{
    struct err fault;
    const char *text;
    if (json_text(at, "the reference air, such as \"23 C 50 %\"", &text) &&
        !climate_parse(text, &finish->at_c, &finish->at_humidity, &fault))
        json_refuse(at, fault.expected);
}

static void read_all_times(struct json_at file, struct finish *finish)
{
    const char *keys[STATE_COUNT + 1];
    bool given[STATE_COUNT] = {false};
    state_names(keys);
    keys[STATE_COUNT] = "at";
    struct json_at times = json_member(file, "times"), later = json_member(file, "later-times");
    if (!json_object(times, "the times", keys, STATE_COUNT + 1))
        return;
    read_states(times, &finish->first, given);
    need_states(times, given);
    read_reference(json_member(times, "at"), finish);
    finish->later = finish->first;
    fill_states(&finish->first, given);
    if (json_is_object(later) && json_size(later) == 0)
        json_refuse(later, "at least one time");
    if (later.node && json_object(later, "the later times", keys, STATE_COUNT))
        read_states(later, &finish->later, given);
    fill_states(&finish->later, given);
}

static void read_between(struct json_at at, struct finish *finish)
{
    static const char *const keys[] = {"sand", "scuff"};
    if (!json_object(at, "the step between coats", keys, 2))
        return;
    finish->between_scuff = json_has(at, "scuff");
    if (json_size(at) != 1) {
        json_refuse(at, "either \"sand\" or \"scuff\", with a grit");
        return;
    }
    struct json_at grit = json_first(at);
    if (json_count(grit, GRIT_MOST, &finish->between_grit) && finish->between_grit < GRIT_LEAST)
        json_refuse(grit, "a grit from 24 to 10000");
}

static void read_limits(struct json_at at, const char *expected,
                        bool (*parse)(const char *, double *, struct err *), double *least, double *most)
{
    struct json_at pair[2];
    if (!json_pair(at, expected, pair))
        return;
    json_quantity(pair[0], parse, least);
    json_quantity(pair[1], parse, most);
}

static void read_air(struct json_at at, struct finish_air *air)
{
    static const char *const keys[] = {"temperature", "humidity"};
    if (!json_object(at, "the air", keys, 2))
        return;
    read_limits(json_member(at, "temperature"), "the lowest and the highest temperature", temperature_parse,
                &air->lowest_c, &air->highest_c);
    read_limits(json_member(at, "humidity"), "the lowest and the highest humidity", share_parse, &air->driest,
                &air->dampest);
}

void finish_read_times(struct json_at file, struct finish *finish)
{
    static const char *const late[] = {"scuff", "refuse"};
    int choice = 0;
    read_all_times(file, finish);
    if (json_has(file, "wipe-off"))
        finish->has_wipe_off = read_range(json_member(file, "wipe-off"), &finish->wipe_off);
    if (json_has(file, "polish"))
        finish->has_polish = read_range(json_member(file, "polish"), &finish->polish);
    json_choice(json_member(file, "late-recoat"), late, 2, &choice);
    finish->refuses_late_recoat = choice == 1;
    if (json_has(file, "between"))
        read_between(json_member(file, "between"), finish);
    read_air(json_member(file, "air"), &finish->air);
}
