#include "report/write_traits.h"

void write_tools(struct json_write *w, const struct finish *finish)
{
    json_open_row(w, "by", '[');
    json_put_text(w, NULL, tool_name(finish->usual_tool));
    for (int i = 0; i < TOOL_COUNT; i++)
        if (finish->by[i] && i != (int)finish->usual_tool)
            json_put_text(w, NULL, tool_name((enum tool)i));
    json_close(w);
}

void write_traits(struct json_write *w, const struct finish *finish)
{
    json_open_row(w, "resists", '{');
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        json_put_whole(w, resistance_name((enum resistance)i), finish->resists[i]);
    json_close(w);
    json_open_row(w, "cautions", '[');
    for (size_t i = 0; i < finish->caution_count; i++)
        json_put_text(w, NULL, finish->cautions[i]);
    json_close(w);
}
