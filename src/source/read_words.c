#include "source/read_words.h"

#include "base/measure.h"

void state_names(const char *names[STATE_COUNT])
{
    for (int i = 0; i < STATE_COUNT; i++)
        names[i] = finish_state_name((enum finish_state)i);
}

bool read_state(struct json_at at, enum finish_state *state)
{
    const char *names[STATE_COUNT];
    int choice;
    state_names(names);
    if (!json_choice(at, names, STATE_COUNT, &choice))
        return false;
    *state = (enum finish_state)choice;
    return true;
}

bool read_tool(struct json_at at, enum tool *tool)
{
    const char *names[TOOL_COUNT];
    int choice;
    for (int i = 0; i < TOOL_COUNT; i++)
        names[i] = tool_name((enum tool)i);
    if (!json_choice(at, names, TOOL_COUNT, &choice))
        return false;
    *tool = (enum tool)choice;
    return true;
}

static bool parse_area(const char *text, double *area_m2, struct err *fault)
{
    return area_parse(text, LENGTH_NONE, area_m2, fault);
}

bool read_area(struct json_at at, double *area_m2)
{
    return json_quantity(at, parse_area, area_m2);
}
