#include "app/run.h"

static int area(struct run *run)
{
    const char *svg = option_value(&run->options, "svg"), *part = option_value(&run->options, "explain");
    if (part && run->options.json)
        return run_misused(run, "either --explain or --json", "both");
    if (!coatwright_read(run->session, run->options.operands[0]) || !coatwright_take_off(run->session))
        return run_failed(run);
    if (svg && !coatwright_save(run->session, COATWRIGHT_AREA, COATWRIGHT_SVG, svg))
        return run_failed(run);
    if (part)
        return run_print(run, coatwright_explain(run->session, part));
    return run_report(run, COATWRIGHT_AREA, EXIT_DONE);
}

const struct command command_area = {
    .name = "area",
    .operands = "JOB",
    .does = "the surfaces, by piece and by finishing schedule",
    .least = 1,
    .most = 1,
    .options = {OPTION_EXPLAIN,
                OPTION_SVG,
                {"page", "a4|letter", "of the drawing; Letter where the units are US", NULL}},
    .run = area,
};
