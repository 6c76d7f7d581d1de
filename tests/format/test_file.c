#include "check.h"
#include "reader.h"

#include "format/path.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
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

static const char *save(struct reader *reader, const char *path, const char *text)
{
    struct err fault;
    if (file_save(path, text, strlen(text), &fault))
        return load(reader, path);
    return arena_textf(reader->arena, "expected %s, found %s", fault.expected, fault.found);
}

static void saves_whole(void **state)
{
    (void)state;
    struct stat about;
    struct reader *reader = reader_make();
    const char *path = reader_path(reader, "plan.json", NULL), *link = reader_path(reader, "link", NULL);
    check_text(HERE, save(reader, path, "one"), "one");
    check_text(HERE, save(reader, path, "longer"), "longer");
    assert_int_equal(chmod(path, 0640), 0);
    check_text(HERE, save(reader, path, "x"), "x");
    assert_int_equal(stat(path, &about), 0);
    check_int(HERE, about.st_mode & 0777, 0640);
    assert_int_equal(symlink("plan.json", link), 0);
    check_text(HERE, save(reader, link, "through the link"), "through the link");
    check_text(HERE, load(reader, path), "through the link");
    assert_int_equal(lstat(link, &about), 0);
    check_true(HERE, S_ISLNK(about.st_mode), "the link stays a link");
    check_text(HERE, save(reader, "/dev/null", "x"), "");
    check_text(HERE, save(reader, reader_path(reader, "no/where", NULL), "x"),
               "expected a file that can be written, found no such folder");
    check_text(HERE, save(reader, reader_path(reader, ".", NULL), "x"),
               "expected a file that can be written, found a directory");
    check_text(HERE, save(reader, "/dev/full", "x"),
               "expected a file that can be written, found no space left on the disk");
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

static void links_do_not_lead_out(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct err fault;
    const char *path, *inner = reader_path(reader, "inner", NULL);
    assert_int_equal(mkdir(inner, 0700), 0);
    struct path_rule rule = {reader_path(reader, "inner/desk.json", "{}"), false};
    reader_path(reader, "outside.csv", "x");
    reader_path(reader, "inner-too.csv", "x");
    reader_path(reader, "inner/inside.csv", "x");
    assert_int_equal(symlink("../outside.csv", reader_path(reader, "inner/out", NULL)), 0);
    assert_int_equal(symlink("../inner-too.csv", reader_path(reader, "inner/alike", NULL)), 0);
    assert_int_equal(symlink("inside.csv", reader_path(reader, "inner/in", NULL)), 0);
    check_true(HERE, path_resolve(reader->arena, rule, "in", &path, &fault), "a link inside");
    check_true(HERE, path_resolve(reader->arena, rule, ".", &path, &fault), "the folder itself");
    check_true(HERE, path_resolve(reader->arena, rule, "missing", &path, &fault), "loading tells of it");
    check_true(HERE, !path_resolve(reader->arena, rule, "alike", &path, &fault), "a name that begins alike");
    check_true(HERE, !path_resolve(reader->arena, rule, "out", &path, &fault), "a link out");
    check_text(HERE, fault.found, "one that leaves it by a link");
    rule.trusted = true;
    check_true(HERE, path_resolve(reader->arena, rule, "out", &path, &fault), "trusted");
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(loads_what_is_there), CHECK_TEST(loads_a_pipe), CHECK_TEST(refuses_the_huge),
                     CHECK_TEST(closes_on_escape), CHECK_TEST(saves_whole), CHECK_ROWS(paths, path_is),
                     CHECK_TEST(links_do_not_lead_out));
}
