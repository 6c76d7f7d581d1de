/* What happened is added to the job's log: done, again, skip, undo, air. */
#include "app/run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WHAT_MOST = 512 };

/* The operands behind the job from one on, a blank between them; NULL: there are none. */
static const char *joined(const struct options *options, size_t from, char what[WHAT_MOST])
{
    size_t used = 0;
    what[0] = '\0';
    for (size_t i = from; i < options->operand_count && used < WHAT_MOST; i++)
        used += (size_t)snprintf(what + used, WHAT_MOST - used, "%s%s", i == from ? "" : " ",
                                 options->operands[i]);
    return options->operand_count > from ? what : NULL;
}

static int record(struct run *run, struct coatwright_record *want)
{
    size_t entries;
    if (!coatwright_read(run->session, run->options.operands[0]) ||
        !coatwright_add_record(run->session, want, &entries))
        return run_failed(run);
    if (run->options.json)
        printf("{\"recorded\": %zu}\n", entries);
    else
        printf("Recorded: %zu %s\n", entries, entries == 1 ? "entry" : "entries");
    return EXIT_DONE;
}

/* A whole number from 1 behind an option; 0: it is not given, or is none, which *good then says. */
static int whole(const struct run *run, const char *name, bool *good)
{
    const char *text = option_value(&run->options, name);
    char *end;
    long value = text ? strtol(text, &end, 10) : 0;
    if (text && (value < 1 || value > 1000000 || *end))
        *good = false;
    return (int)value;
}

static int done(struct run *run)
{
    char what[WHAT_MOST];
    bool good = true;
    struct coatwright_record want = COATWRIGHT_RECORD_INIT;
    want.what = joined(&run->options, 1, what);
    want.at = option_value(&run->options, "at");
    want.began = option_value(&run->options, "began");
    want.used = option_value(&run->options, "used");
    want.parts = whole(run, "parts", &good);
    want.person = option_value(&run->options, "person");
    want.note = option_value(&run->options, "note");
    return good ? record(run, &want)
                : run_misused(run, "a number of parts after --parts", option_value(&run->options, "parts"));
}

const struct command command_done = {
    .name = "done",
    .operands = "JOB WHAT",
    .does = "record that a step or batch was done",
    .least = 2,
    .most = OPERANDS_MOST,
    .more = "WHAT: the id of a step or batch, today, or until 14:30.",
    .options = {{"at", "MOMENT", "when it ended: 14:30, \"yesterday 14:30\"; now", NULL},
                {"began", "MOMENT", "when it began", NULL},
                {"used", "VOLUME", "how much it took: 240 ml", NULL},
                {"parts", "NUMBER", "so many of its parts; the others stay to be done", NULL},
                {"person", "NAME", "who did it", NULL},
                {"note", "TEXT", "anything else", NULL},
                OPTION_EFFORT},
    .run = done,
};

static int again(struct run *run)
{
    char what[WHAT_MOST];
    bool good = true;
    struct coatwright_record want = COATWRIGHT_RECORD_INIT;
    want.kind = COATWRIGHT_AGAIN;
    want.what = joined(&run->options, 1, what);
    want.because = option_value(&run->options, "because");
    want.sand = whole(run, "sand", &good);
    return good ? record(run, &want)
                : run_misused(run, "a grit after --sand", option_value(&run->options, "sand"));
}

const struct command command_again = {
    .name = "again",
    .operands = "JOB STEP",
    .does = "repeat a coat that ran or was sanded through",
    .least = 2,
    .most = 2,
    .more = "The coat is applied once more when it is dry to sand.",
    .options = {{"because", "TEXT", "what went wrong", NULL},
                {"sand", "GRIT", "sand it first", NULL},
                OPTION_EFFORT},
    .run = again,
};

static int skip(struct run *run)
{
    char what[WHAT_MOST];
    struct coatwright_record want = COATWRIGHT_RECORD_INIT;
    want.kind = COATWRIGHT_SKIP;
    want.what = joined(&run->options, 1, what);
    return record(run, &want);
}

const struct command command_skip = {
    .name = "skip",
    .operands = "JOB STEP",
    .does = "leave a step out",
    .least = 2,
    .most = 2,
    .options = {OPTION_EFFORT},
    .run = skip,
};

static int undo(struct run *run)
{
    char what[WHAT_MOST];
    struct coatwright_record want = COATWRIGHT_RECORD_INIT;
    want.kind = COATWRIGHT_UNDO;
    want.what = joined(&run->options, 1, what);
    return record(run, &want);
}

const struct command command_undo = {
    .name = "undo",
    .operands = "JOB [ENTRY]",
    .does = "take an entry of the log back, the last one",
    .least = 1,
    .most = 2,
    .run = undo,
};

static int air(struct run *run)
{
    char what[WHAT_MOST];
    struct coatwright_record want = COATWRIGHT_RECORD_INIT;
    want.kind = COATWRIGHT_AIR_MEASURED;
    want.at = run->options.operands[1];
    want.what = joined(&run->options, 2, what);
    return record(run, &want);
}

const struct command command_air = {
    .name = "air",
    .operands = "JOB MOMENT TEMPERATURE HUMIDITY",
    .does = "record the air that was measured: 14:00 12 C 80 %",
    .least = 3,
    .most = OPERANDS_MOST,
    .more = "It holds until the next record, or the next change of the shop's own air.",
    .run = air,
};
