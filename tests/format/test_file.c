#include "check.h"
#include "reader.h"

#include "format/file.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

/* What is told about a file that cannot be had, or its text. */
static const char *load(struct reader *reader, const char *path)
{
    struct file_text file;
    struct err fault;
    if (file_load(reader->arena, path, &file, &fault))
        return file.text;
    return arena_textf(reader->arena, "expected %s, found %s", fault.expected, fault.found);
}

static void loads_what_is_there(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    check_text(HERE, load(reader, reader_path(reader, "some", "a\nb")), "a\nb");
    check_text(HERE, load(reader, reader_path(reader, "none", "")), "");
    check_text(HERE, load(reader, "/dev/null"), "");
    check_text(HERE, load(reader, reader_path(reader, "lost", NULL)),
               "expected a readable file, found no such file");
    check_text(HERE, load(reader, reader_path(reader, "some/below", NULL)),
               "expected a readable file, found no such file");
    check_text(HERE, load(reader, reader_path(reader, ".", NULL)),
               "expected a readable file, found a directory");
    reader_free(reader);
}

/* Longer than a pipe's buffer, so that it comes in pieces. */
static void loads_a_pipe(void **state)
{
    (void)state;
    enum { LENGTH = 300000 };
    struct reader *reader = reader_make();
    char *text = arena_alloc(reader->arena, LENGTH + 1, 1);
    memset(text, 'x', LENGTH);
    const char *path = reader_path(reader, "pipe", NULL);
    assert_int_equal(mkfifo(path, 0600), 0);
    pid_t writer = fork();
    if (writer == 0) {
        FILE *out = fopen(path, "wb");
        _exit(!out || fwrite(text, 1, LENGTH, out) != LENGTH || fclose(out) != 0);
    }
    check_text(HERE, load(reader, path), text);
    reader_free(reader);
}

static void refuses_the_huge(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *path = reader_path(reader, "huge", "");
    assert_int_equal(truncate(path, (off_t)FILE_MOST + 1), 0);
    check_text(HERE, load(reader, path), "expected a file of at most 64 MiB, found a larger one");
    check_text(HERE, load(reader, "/dev/zero"), "expected a file of at most 64 MiB, found a larger one");
    unlink(path);
    reader_free(reader);
}

/* Memory that ends in the middle of reading leaves no file open: the descriptor after it is the one before it. */
static void closes_on_escape(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *path = reader_path(reader, "some", "text");
    int before = dup(0);
    close(before);
    struct arena *small = arena_make(600);
    jmp_buf escape;
    struct file_text file;
    struct err fault;
    assert_non_null(small);
    if (setjmp(escape) == 0) {
        arena_guard(small, &escape);
        for (;;)
            assert_true(file_load(small, path, &file, &fault));
    }
    arena_free(small);
    int after = dup(0);
    close(after);
    check_int(HERE, after, before);
    reader_free(reader);
}

struct path_row {
    struct row row;
    const char *from, *named;
    bool trusted;
    const char *want;
};

#define OUTSIDE "expected a path inside the folder of this file (or --trust-paths), found "
static const struct path_row paths[] = {
    {ROW("beside"), "jobs/desk.json", "parts.csv", false, "jobs/parts.csv"},
    {ROW("from here"), "desk.json", "parts.csv", false, "parts.csv"},
    {ROW("from the root"), "/desk.json", "parts.csv", false, "/parts.csv"},
    {ROW("standard input"), "-", "a/parts.csv", false, "a/parts.csv"},
    {ROW("down and up again"), "jobs/desk.json", "a/../parts.csv", false, "jobs/a/../parts.csv"},
    {ROW("up"), "jobs/desk.json", "../parts.csv", false, OUTSIDE "one that leaves it by \"..\""},
    {ROW("down and too far up"), "jobs/desk.json", "a/../../parts.csv", false,
     OUTSIDE "one that leaves it by \"..\""},
    {ROW("dots in a name"), "jobs/desk.json", "..parts", false, "jobs/..parts"},
    {ROW("absolute"), "jobs/desk.json", "/etc/hosts", false, OUTSIDE "an absolute one"},
    {ROW("trusted: up"), "jobs/desk.json", "../parts.csv", true, "jobs/../parts.csv"},
    {ROW("trusted: absolute"), "jobs/desk.json", "/etc/hosts", true, "/etc/hosts"},
    {ROW("empty"), "jobs/desk.json", "", true, "expected the name of a file, found an empty one"},
};

static void path_is(void **state)
{
    const struct path_row *r = *state;
    struct reader *reader = reader_make();
    struct err fault;
    const char *path;
    struct path_rule rule = {r->from, r->trusted};
    if (!path_resolve(reader->arena, rule, r->named, &path, &fault))
        path = arena_textf(reader->arena, "expected %s, found %s", fault.expected, fault.found);
    check_text(&r->row, path, r->want);
    reader_free(reader);
}

/* What a job names: its text, or why not. */
static const char *load_named(struct reader *reader, struct path_rule rule, const char *named)
{
    struct file_text file;
    struct err err;
    const char *path;
    if (path_resolve(reader->arena, rule, named, &path, &err) &&
        file_load_named(reader->arena, rule, path, &file, &err))
        return file.text;
    return arena_text(reader->arena, err.found);
}

static void links_do_not_lead_out(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    assert_int_equal(mkdir(reader_path(reader, "inner", NULL), 0700), 0);
    assert_int_equal(mkdir(reader_path(reader, "inner/deep", NULL), 0700), 0);
    struct path_rule rule = {reader_path(reader, "inner/desk.json", "{}"), false};
    reader_path(reader, "outside.csv", "outside");
    reader_path(reader, "inner-too.csv", "alike");
    reader_path(reader, "inner/inside.csv", "inside");
    assert_int_equal(symlink("../outside.csv", reader_path(reader, "inner/out", NULL)), 0);
    assert_int_equal(symlink("/etc/hosts", reader_path(reader, "inner/root", NULL)), 0);
    assert_int_equal(symlink("..", reader_path(reader, "inner/up", NULL)), 0);
    assert_int_equal(symlink("../inner-too.csv", reader_path(reader, "inner/alike", NULL)), 0);
    assert_int_equal(symlink("inside.csv", reader_path(reader, "inner/in", NULL)), 0);
    assert_int_equal(symlink("../in", reader_path(reader, "inner/deep/twice", NULL)), 0);
    assert_int_equal(symlink("round", reader_path(reader, "inner/round", NULL)), 0);
    check_text(HERE, load_named(reader, rule, "inside.csv"), "inside");
    check_text(HERE, load_named(reader, rule, "deep/../inside.csv"), "inside");
    check_text(HERE, load_named(reader, rule, "in"), "inside");
    check_text(HERE, load_named(reader, rule, "deep/twice"), "inside");
    check_text(HERE, load_named(reader, rule, "missing"), "no such file");
    check_text(HERE, load_named(reader, rule, "inside.csv/below"), "no such file");
    check_text(HERE, load_named(reader, rule, "deep"), "a directory");
    check_text(HERE, load_named(reader, rule, "out"), "one that leaves it by a link");
    check_text(HERE, load_named(reader, rule, "root"), "one that leaves it by a link");
    check_text(HERE, load_named(reader, rule, "up/outside.csv"), "one that leaves it by a link");
    check_text(HERE, load_named(reader, rule, "alike"), "one that leaves it by a link");
    check_text(HERE, load_named(reader, rule, "round"), "a link that leads to itself");
    rule.trusted = true;
    check_text(HERE, load_named(reader, rule, "out"), "outside");
    reader_free(reader);
}

/* A pipe that a job names would be waited for without end; so would standard input. */
static void only_files_are_named(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    assert_int_equal(mkdir(reader_path(reader, "pipes", NULL), 0700), 0);
    for (int trusted = 0; trusted <= 1; trusted++) {
        struct path_rule rule = {reader_path(reader, "pipes/desk.json", "{}"), trusted};
        if (!trusted)
            assert_int_equal(mkfifo(reader_path(reader, "pipes/fifo", NULL), 0600), 0);
        check_text(HERE, load_named(reader, rule, "fifo"), "a pipe or a device");
        check_text(HERE, load_named(reader, rule, "-"), trusted ? "beside" : "no such file");
        reader_path(reader, "pipes/-", "beside");
    }
    reader_free(reader);
}

/* While another process swaps a file for a link out of the folder, no reading ever follows it. */
static void no_swapped_link_is_followed(void **state)
{
    (void)state;
    enum { ROUNDS = 3000 };
    struct reader *reader = reader_make();
    assert_int_equal(mkdir(reader_path(reader, "race", NULL), 0700), 0);
    const char *file = reader_path(reader, "race/file", "inside"),
               *link = reader_path(reader, "race/link", NULL),
               *spare = reader_path(reader, "race/spare", NULL);
    struct path_rule rule = {reader_path(reader, "race/desk.json", "{}"), false};
    reader_path(reader, "secret", "secret");
    pid_t other = fork();
    if (other == 0)
        for (;;) {
            (void)(rename(file, spare) + symlink("../secret", link) + rename(link, file) +
                   rename(spare, file));
        }
    int followed = 0;
    for (int i = 0; i < ROUNDS; i++)
        followed += strcmp(load_named(reader, rule, "file"), "secret") == 0;
    kill(other, SIGKILL);
    waitpid(other, NULL, 0);
    check_int(HERE, followed, 0);
    reader_free(reader);
}

static void folders_are_listed(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct file_list list;
    struct err err;
    const char *folder = reader_path(reader, "list", NULL);
    struct path_rule rule = {reader_path(reader, "desk.json", "{}"), false};
    assert_int_equal(mkdir(folder, 0700), 0);
    reader_path(reader, "list/b.json", "");
    reader_path(reader, "list/a.JSON", "");
    reader_path(reader, "list/.c.json", "");
    reader_path(reader, "list/d.txt", "");
    assert_true(file_list(reader->arena, rule, folder, ".json", &list, &err));
    check_int(HERE, (intmax_t)list.count, 2);
    check_text(HERE, path_last(list.paths[0]), "a.JSON");
    check_true(HERE, !file_list(reader->arena, rule, reader_path(reader, "gone", NULL), ".json", &list, &err),
               "gone");
    check_text(HERE, err.found, "no such folder");
    check_true(HERE, !file_list(reader->arena, rule, rule.from, ".json", &list, &err), "a file");
    check_text(HERE, err.found, "a file");
    reader_free(reader);
}

/* "Not there" is one thing, "cannot be looked at" another. */
static void missing_is_missing(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    check_true(HERE, file_missing(reader_path(reader, "nowhere", NULL)), "not there");
    check_true(HERE, !file_missing(reader_path(reader, "here", "x")), "there");
    check_true(HERE, !file_missing(reader_path(reader, "here/below", NULL)), "below a file");
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(loads_what_is_there), CHECK_TEST(loads_a_pipe), CHECK_TEST(refuses_the_huge),
                     CHECK_TEST(closes_on_escape), CHECK_ROWS(paths, path_is),
                     CHECK_TEST(links_do_not_lead_out), CHECK_TEST(only_files_are_named),
                     CHECK_TEST(no_swapped_link_is_followed), CHECK_TEST(folders_are_listed),
                     CHECK_TEST(missing_is_missing));
}
