/* How far a finish goes, and what one tool does otherwise than the others. */
#include "source/finish_parts.h"

#include "base/coverage.h"

void finish_read_coverage(struct json_at at, const struct finish *finish, double *m2_per_l)
{
    struct err fault;
    struct coverage coverage;
    const char *text = NULL;
    if (!json_text(at, "a coverage such as \"12 m2/l\"", &text))
        return;
    if (!coverage_parse(text, &coverage, &fault)) {
        json_refuse(at, fault.expected);
        return;
    }
    double density = finish->component_count ? finish_density(finish) : 0;
    if (!coverage_by_mass(coverage) || density > 0)
        *m2_per_l = coverage_m2_per_l(coverage, density);
    if (*m2_per_l > limits[LIMIT_COVERAGE].most)
        json_refuse(at, limits[LIMIT_COVERAGE].expected);
}

/* What one tool does otherwise. */
struct tool_draft {
    struct finish *finish;
    int tool;
    bool no_between;
    struct tool_learned learned;
};

static void read_tool_coverage(struct field_in in)
{
    struct tool_draft *draft = in.record;
    finish_read_coverage(in.at, draft->finish, &draft->finish->tool_m2_per_l[draft->tool]);
}

static const struct field minutes_items[] = {
    {"times", FIELD_NUMBER, AT(tool_learned, minutes_factor), .needed = true, .limit = LIMIT_TIMES},
    {"tolerance", FIELD_QUANTITY, AT(tool_learned, minutes_tolerance), .needed = true,
     .quantity = &field_share, .limit = LIMIT_TIMES_TOLERANCE},
};
static const struct fields minutes = FIELDS("the minutes of a tool", minutes_items);

static void read_tool_minutes(struct field_in in)
{
    fields_read(in.at, &minutes, &((struct tool_draft *)in.record)->learned, NULL);
}

static void read_tool_loss(struct field_in in)
{
    struct tool_learned *learned = &((struct tool_draft *)in.record)->learned;
    learned->has_loss = read_quantity(in.at, &field_volume, LIMIT_LOSS, &learned->loss_l);
}

static const struct field tool_items[] = {
    {"coverage", FIELD_OWN, .read = read_tool_coverage},
    {"no-between", FIELD_TRUE, AT(tool_draft, no_between)},
    {"minutes", FIELD_OWN, .read = read_tool_minutes},
    {"loss", FIELD_OWN, .read = read_tool_loss},
};
static const struct fields tool_fields = FIELDS("the figures of a tool", tool_items);

void finish_read_by_tool(struct field_in in)
{
    if (!json_object(in.at, "tools with figures of their own", tool_names, TOOL_COUNT))
        return;
    for (int i = 0; i < TOOL_COUNT; i++) {
        struct tool_draft draft = {.finish = in.record, .tool = i};
        if (json_has(in.at, tool_names[i]))
            fields_read(json_member(in.at, tool_names[i]), &tool_fields, &draft, NULL);
        draft.finish->tool_no_between[i] = draft.no_between;
        draft.finish->tool_learned[i] = draft.learned;
    }
}
