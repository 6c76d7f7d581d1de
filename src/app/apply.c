#include "app/run.h"

#include "base/measure.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool misused(struct run *run, const char *expected, const char *found)
{
    struct coatwright_error error = {
        .code = COATWRIGHT_USAGE, .file = "coatwright", .found = found, .expected = expected};
    coatwright_error_add(run->session, &error);
    return false;
}

/* 0: none is written there. */
static size_t number_of(const char *text)
{
    size_t digits = strspn(text, "0123456789");
    return digits > 0 && digits < 7 && text[digits] == '\0' ? strtoul(text, NULL, 10) : 0;
}

/* What it was worth, in time. */
static void tell(int64_t before_min, const struct coatwright_outcome *outcome)
{
    if (before_min == INT64_MAX || !outcome->planned)
        return;
    int64_t sooner = before_min - outcome->ready_min;
    printf("Made: ready %s %s than before\n\n", span_format(sooner < 0 ? -sooner : sooner).text,
           sooner < 0 ? "later" : "sooner");
}

static bool make(struct run *run, size_t number, const char *folder, struct applied *applied)
{
    struct options options = run->options;
    const char *line = coatwright_advice(run->session, number);
    if (!line)
        return false;
    if (!options.json)
        printf("%s\n", line);
    fflush(stdout);
    const char *path = coatwright_apply(run->session, number, folder);
    if (!path)
        return false;
    if (strlen(path) >= sizeof applied->path)
        return misused(run, "a path that is not so long", path);
    memcpy(applied->path, path, strlen(path) + 1);
    options.operands[0] = applied->path;
    coatwright_close(run->session);
    run_open(run, &options);
    return run->session != NULL;
}

bool apply_asked(struct run *run, struct applied *applied, struct coatwright_outcome *outcome)
{
    const char *line = option_value(&run->options, "apply"), *folder = option_value(&run->options, "out");
    bool in_place = option_value(&run->options, "in-place") != NULL, json = run->options.json;
    int64_t before_min = outcome->ready_min;
    if (!line)
        return !in_place || misused(run, "--in-place with --apply", "without");
    if (!in_place && !folder)
        return misused(run, "--apply with --out DIR or with --in-place", "neither");
    if (!make(run, number_of(line), in_place ? NULL : folder, applied) || !run_plan(run, outcome))
        return false;
    if (!json)
        tell(before_min, outcome);
    return true;
}
