#include "whole_job.h"

#include "check.h"

#include "base/arena.h"
#include "coatwright_walk.h"
#include "format/json.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { CEILING = 96 << 20, EFFORT = 1, NAME_MOST = 100, LINE_MOST = 1200 };

/* Unlike assert, also where that is switched off, and with what did not hold. */
static void hold(bool holds, const char *what)
{
    if (holds)
        return;
    fprintf(stderr, "does not hold: %s\n", what);
    abort();
}

/* One file of a bundle. */
struct bundled {
    char name[NAME_MOST];
    const char *text;
    size_t length;
};

/* The next file behind `*at`, which moves on; false at the end. */
static bool next_file(const char **at, const char *end, struct bundled *file)
{
    const char *line = *at, *stop;
    if (end - line < 4 || memcmp(line, "@@ ", 3) != 0)
        return false;
    stop = memchr(line, '\n', (size_t)(end - line));
    size_t length = stop ? (size_t)(stop - line) - 3 : 0;
    if (!stop || length == 0 || length >= NAME_MOST || memchr(line, '\0', (size_t)(stop - line)))
        return false;
    memcpy(file->name, line + 3, length);
    file->name[length] = '\0';
    file->text = stop + 1;
    const char *next = file->text;
    while (next < end && !(end - next > 3 && memcmp(next, "@@ ", 3) == 0 && next[-1] == '\n'))
        next++;
    file->length = (size_t)(next - file->text);
    *at = next;
    return true;
}

static bool read_bundle(struct coatwright *session, const char *bundle, size_t size)
{
    const char *at = bundle, *end = bundle + size;
    struct bundled job, file;
    if (!next_file(&at, end, &job))
        return false;
    while (next_file(&at, end, &file))
        hold(coatwright_add_text(session, file.name, file.text, file.length), "a text is taken");
    return coatwright_read_text(session, job.name, job.text, job.length);
}

static void check_errors(struct coatwright *session, bool failed)
{
    char line[LINE_MOST];
    hold(!failed || coatwright_error_count(session) > 0, "what fails has an error");
    for (size_t i = 0; i < coatwright_error_count(session); i++) {
        const struct coatwright_error *error = coatwright_error(session, i);
        hold(coatwright_error_line(error, line, sizeof line) > 0, "an error can be told");
        hold(error->code != COATWRIGHT_USAGE || strcmp(error->found, "nothing read for it") == 0 || failed,
             "the caller made no mistake");
        hold(error->line >= 0 && (error->line > 0) == (error->column > 0), "a place is whole");
    }
    hold(!failed || coatwright_write(session, COATWRIGHT_ERRORS, COATWRIGHT_JSON) != NULL, "errors as JSON");
}

static void check_json(const char *text)
{
    struct arena *arena = arena_make(0);
    struct err_list errors = {0}, warnings = {0};
    struct reading reading = {arena, texts_make(arena), &errors, &warnings, NULL};
    struct file_text file = {.name = "report", .text = text, .length = strlen(text)};
    struct json_at root;
    hold(json_parse(&reading, &file, &root), "JSON is well-formed");
    arena_free(arena);
}

static int64_t check_reports(struct coatwright *session)
{
    int64_t written = 0;
    for (int report = COATWRIGHT_CHECK; report <= COATWRIGHT_COST; report++)
        for (int format = COATWRIGHT_TEXT; format <= COATWRIGHT_SVG; format++) {
            const char *text =
                coatwright_write(session, (enum coatwright_report)report, (enum coatwright_format)format);
            written += text != NULL;
            if (text && format == COATWRIGHT_JSON)
                check_json(text);
        }
    return written;
}

static void check_walk(struct coatwright *session, const struct coatwright_outcome *outcome)
{
    double taken = 0, needed = 0;
    int64_t last = INT64_MIN;
    for (size_t i = 0; i < coatwright_step_count(session); i++) {
        const struct coatwright_step *step = coatwright_step(session, i);
        hold(step->start_min >= last && step->end_min >= step->start_min, "steps are in order");
        last = step->start_min;
        taken += step->volume_l;
    }
    for (size_t i = 0; i < coatwright_need_count(session); i++)
        needed += coatwright_need(session, i)->need_l;
    hold(!outcome->planned || fabs(taken - needed) <= 1e-6 * (1 + needed), "steps take what is needed");
    hold(outcome->planned == (coatwright_step_count(session) > 0) || outcome->planned,
         "no steps without a plan");
    for (size_t i = 0; i < coatwright_card_count(session); i++)
        hold(coatwright_card(session, i)->pour_count > 0, "a mix has components");
    for (size_t i = 0; i < coatwright_pack_count(session); i++)
        hold(coatwright_pack(session, i)->count > 0, "packs are bought");
}

struct whole_job whole_job_try(const char *bundle, size_t size)
{
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    struct coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    struct whole_job done = {false, false, 0};
    options.now = "2027-01-04T08:00Z";
    options.memory_ceiling = CEILING;
    options.finishes = "tests/fuzz/finishes";
    options.effort = EFFORT;
    options.given_only = true;
    struct coatwright *session = coatwright_open(&options);
    hold(session != NULL, "memory for a session");
    done.read = read_bundle(session, bundle, size);
    done.planned = done.read && coatwright_plan(session, &outcome);
    if (size > 0 && !done.planned && coatwright_error_count(session) > 0)
        check_errors(session, true);
    if (done.planned) {
        check_walk(session, &outcome);
        done.reported = check_reports(session);
    }
    coatwright_close(session);
    return done;
}

/* ---- Mutation. */

static size_t pick(uint64_t *seed, size_t below)
{
    return below ? (size_t)(check_random(seed) % below) : 0;
}

/* Puts a word in the place of `length` bytes at `at`. */
static size_t put(char *bundle, size_t size, size_t room, size_t at, size_t length, const char *word)
{
    size_t more = strlen(word);
    if (size - length + more > room)
        return size;
    memmove(bundle + at + more, bundle + at + length, size - at - length);
    memcpy(bundle + at, word, more);
    return size - length + more;
}

/* From a place on, the first run of such bytes; its length, 0: none. */
static size_t find_run(const char *bundle, size_t size, size_t from, int (*kind)(int), size_t *at)
{
    size_t i = from, length = 0;
    while (i < size && !kind((unsigned char)bundle[i]))
        i++;
    while (i + length < size && kind((unsigned char)bundle[i + length]))
        length++;
    *at = i;
    return length;
}

static int is_word(int c)
{
    return isalpha(c) || c == '-' || c >= 0x80;
}

static size_t new_number(char *bundle, size_t size, size_t room, uint64_t *seed)
{
    static const char *const numbers[] = {"0",  "1",    "2",     "7",       "12",
                                          "-1", "0.5",  "3/4",   "1e9",     "1,5",
                                          "40", "90",   "99999", "1000000", "12345678901234567890",
                                          "00", "0.01", "2100",  "1969",    "31",
                                          "24", "60",   "1e-9"};
    size_t at, length = find_run(bundle, size, pick(seed, size), isdigit, &at);
    char digit[2] = {(char)('0' + pick(seed, 10)), '\0'};
    if (length > 0 && pick(seed, 2))
        return put(bundle, size, room, at + pick(seed, length), 1, digit);
    return put(bundle, size, room, at, length, numbers[pick(seed, sizeof numbers / sizeof numbers[0])]);
}

static const char *const words[] = {"oil",
                                    "oak",
                                    "mm",
                                    "in",
                                    "ft",
                                    "m",
                                    "C",
                                    "F",
                                    "min",
                                    "h",
                                    "d",
                                    "g",
                                    "ml",
                                    "l",
                                    "%",
                                    "face",
                                    "all",
                                    "board",
                                    "round",
                                    "box",
                                    "flat",
                                    "hung",
                                    "null",
                                    "true",
                                    "brush",
                                    "cloth",
                                    "hvlp",
                                    "conventional",
                                    "roller",
                                    "wrap",
                                    "cured",
                                    "handle",
                                    "sand",
                                    "coat",
                                    "coats",
                                    "wait",
                                    "flip",
                                    "raise",
                                    "mask",
                                    "rub",
                                    "scuff",
                                    "polish",
                                    "by",
                                    "thin",
                                    "UTC",
                                    "Asia/Tokyo",
                                    "America/New_York",
                                    "\"",
                                    "{}",
                                    "[]",
                                    "\xC3\xA4",
                                    "\xFF",
                                    "\x1b[2J",
                                    "=1+1",
                                    "@@ ",
                                    "",
                                    " ",
                                    "\t",
                                    "\r\n"};

/* Another word of the same bundle, or one that files know. */
static size_t new_word(char *bundle, size_t size, size_t room, uint64_t *seed)
{
    char word[NAME_MOST];
    size_t at, from, length = find_run(bundle, size, pick(seed, size), is_word, &at);
    if (pick(seed, 2))
        return put(bundle, size, room, at, length, words[pick(seed, sizeof words / sizeof words[0])]);
    size_t other = find_run(bundle, size, pick(seed, size), is_word, &from);
    other = other < sizeof word ? other : sizeof word - 1;
    memcpy(word, bundle + from, other);
    word[other] = '\0';
    return put(bundle, size, room, at, length, word);
}

/* Takes a line away, doubles it, or moves it to another place. */
static size_t move_line(char *bundle, size_t size, size_t room, uint64_t *seed)
{
    char line[512];
    size_t at = pick(seed, size), length = 0;
    while (at > 0 && bundle[at - 1] != '\n')
        at--;
    while (at + length < size && length + 1 < sizeof line && (length == 0 || bundle[at + length - 1] != '\n'))
        length++;
    memcpy(line, bundle + at, length);
    line[length] = '\0';
    size_t way = pick(seed, 3);
    if (way != 1 && at > 0)
        size = put(bundle, size, room, at, length, "");
    if (way == 0)
        return size;
    size_t to = way == 1 ? at : pick(seed, size);
    while (to > 0 && bundle[to - 1] != '\n')
        to--;
    return put(bundle, size, room, to, 0, line);
}

/* A value of JSON, or a cell, becomes another kind of value. */
static size_t new_value(char *bundle, size_t size, size_t room, uint64_t *seed)
{
    static const char *const values[] = {"null", "[]",     "{}",    "true",       "\"\"",
                                         "0",    "[1, 2]", "\"a\"", "{\"a\": 1}", ""};
    size_t at = pick(seed, size), length = 0;
    while (at < size && !strchr(":,[", bundle[at]))
        at++;
    at += at < size;
    while (at + length < size && !strchr(",]}\n", bundle[at + length]))
        length++;
    return put(bundle, size, room, at, length, values[pick(seed, sizeof values / sizeof values[0])]);
}

static size_t new_byte(char *bundle, size_t size, size_t room, uint64_t *seed)
{
    static const char bytes[] = "{}[],:\"\n\t ;-./0aZ\\\x7f\x80\xf0";
    char word[2] = {bytes[pick(seed, sizeof bytes - 1)], '\0'};
    size_t at = pick(seed, size);
    return put(bundle, size, room, at, pick(seed, 2) && at < size, word);
}

size_t whole_job_mutate(char *bundle, size_t size, size_t room, uint64_t *seed)
{
    static size_t (*const ways[])(char *, size_t, size_t, uint64_t *) = {
        new_number, new_number, new_number, new_number, new_word, new_word,
        new_word,   move_line,  move_line,  new_value,  new_byte};
    return ways[pick(seed, sizeof ways / sizeof ways[0])](bundle, size, room, seed);
}
