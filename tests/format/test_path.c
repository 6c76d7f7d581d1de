/* The ways that names of files lead, and which of them leave the folder of the file that names them. */
#include "check.h"
#include "reader.h"

#include "base/buf.h"
#include "format/path.h"

#include <limits.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct name_row {
    struct row row;
    const char *from;
    bool trusted;
    const char *named, *want; /* the path, or what was found instead of one */
};

static const struct name_row names[] = {
    {ROW("beside it"), "jobs/desk.json", false, "parts.csv", "jobs/parts.csv"},
    {ROW("beside it, in the working folder"), "desk.json", false, "parts.csv", "parts.csv"},
    {ROW("beside it, at the root"), "/desk.json", false, "parts.csv", "/parts.csv"},
    {ROW("from standard input"), "-", false, "lists/parts.csv", "lists/parts.csv"},
    {ROW("there and back"), "jobs/desk.json", false, "a/../b/./parts.csv", "jobs/a/../b/./parts.csv"},
    {ROW("a name of dots"), "jobs/desk.json", false, ".../parts.csv", "jobs/.../parts.csv"},
    {ROW("slashes at the end of a folder"), "jobs//desk.json", false, "parts.csv", "jobs/parts.csv"},
    {ROW("no name"), "jobs/desk.json", false, "", "an empty one"},
    {ROW("upwards"), "jobs/desk.json", false, "../parts.csv", "one that leaves it by \"..\""},
    {ROW("upwards behind a point"), "jobs/desk.json", false, "./a//../../parts.csv",
     "one that leaves it by \"..\""},
    {ROW("absolute"), "jobs/desk.json", false, "/etc/hostname", "an absolute one"},
    {ROW("upwards, trusted"), "jobs/desk.json", true, "../parts.csv", "jobs/../parts.csv"},
    {ROW("absolute, trusted"), "jobs/desk.json", true, "/lists/parts.csv", "/lists/parts.csv"},
};

static void name_leads(void **state)
{
    const struct name_row *r = *state;
    struct reader *reader = reader_make();
    const char *path = NULL;
    struct err err;
    bool good = path_resolve(reader->arena, (struct path_rule){r->from, r->trusted}, r->named, &path, &err);
    check_text(&r->row, good ? path : err.found, r->want);
    reader_free(reader);
}

struct way_row {
    struct row row;
    const char *way, *want; /* what is read there, or what was found */
};

/* In the test's folder: shop/job.json, shop/in/list, secret beside the shop, and links in the shop. */
static const struct way_row ways[] = {
    {ROW("a file"), "in/list", "list"},
    {ROW("more slashes than are needed"), "in///list", "list"},
    {ROW("points on the way"), "./in/./list", "list"},
    {ROW("there and back"), "in/../in/list", "list"},
    {ROW("no such file"), "in/lost", "no such file"},
    {ROW("through a file"), "in/list/more", "no such file"},
    {ROW("a link to a file"), "to-list", "list"},
    {ROW("a link to a folder"), "to-in/list", "list"},
    {ROW("a link to a link"), "to-to-in/list", "list"},
    {ROW("a link up and down again inside"), "in/up-and-down", "list"},
    {ROW("a link to what is not there"), "to-nothing", "no such file"},
    {ROW("a link out of the folder"), "to-secret", "one that leaves it by a link"},
    {ROW("a link to an absolute path"), "to-root/hostname", "one that leaves it by a link"},
    {ROW("a link to itself"), "loop", "a link that leads to itself"},
    {ROW("two links to one another"), "there/list", "a link that leads to itself"},
};

/* Where a path leads, read by its first line. */
static const char *read_there(struct reader *reader, bool trusted, const char *way, bool folder)
{
    struct err err;
    const char *job = reader_path(reader, "shop/job.json", NULL), *path = reader_path(reader, "shop", NULL);
    char text[16] = "";
    int fd = path_open(reader->arena, (struct path_rule){job, trusted},
                       arena_textf(reader->arena, "%s/%s", path, way), folder, &err);
    if (fd < 0)
        return arena_text(reader->arena, err.found);
    struct stat about;
    assert_int_equal(fstat(fd, &about), 0);
    if (S_ISREG(about.st_mode))
        assert_true(read(fd, text, sizeof text - 1) >= 0);
    close(fd);
    return S_ISDIR(about.st_mode) ? "a folder" : arena_text(reader->arena, text);
}

static void way_leads(void **state)
{
    const struct way_row *r = *state;
    struct reader *reader = reader_make();
    check_text(&r->row, read_there(reader, false, r->way, false), r->want);
    reader_free(reader);
}

static void folders_and_trust(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    check_text(HERE, read_there(reader, false, "in", true), "a folder");
    check_text(HERE, read_there(reader, false, "in/.", true), "a folder");
    check_text(HERE, read_there(reader, false, "lost", true), "no such folder");
    check_text(HERE, read_there(reader, false, "in/list/more", true), "a file");
    check_text(HERE, read_there(reader, true, "to-secret", false), "secret");
    check_text(HERE, read_there(reader, true, "loop", false), "a link that leads to itself");
    reader_free(reader);
}

/* As long as no system takes, and deeper than anybody sorts a job's files: refused, and nothing stays open. */
static void long_ways(void **state)
{
    (void)state;
    enum { LONG = 3 * PATH_MAX, DEEP = 45 };
    struct reader *reader = reader_make();
    char name[LONG + 1] = "";
    int before = dup(0);
    close(before);
    memset(name, 'x', 300);
    check_true(HERE, strstr(read_there(reader, false, name, false), "File name too long") != NULL,
               "a long name");
    memset(name, 'x', LONG);
    for (size_t i = 99; i < LONG; i += 100)
        name[i] = '/';
    check_true(HERE, strstr(read_there(reader, false, name, false), "File name too long") != NULL,
               "a long way");
    struct buf way;
    buf_init(&way, reader->arena);
    for (int i = 0; i < DEEP; i++) {
        buf_addf(&way, "%s%d", i ? "/" : "", i);
        assert_int_equal(
            mkdir(reader_path(reader, arena_textf(reader->arena, "shop/%s", way.text), NULL), 0700), 0);
    }
    check_true(HERE, strstr(read_there(reader, false, way.text, true), "File name too long") != NULL,
               "a deep way");
    check_text(HERE, read_there(reader, true, way.text, true), "a folder");
    int after = dup(0);
    close(after);
    check_int(HERE, after, before);
    reader_free(reader);
}

static void link_to(struct reader *reader, const char *target, const char *name)
{
    assert_int_equal(symlink(target, reader_path(reader, name, NULL)), 0);
}

static void make_the_shop(void)
{
    struct reader *reader = reader_make();
    assert_int_equal(mkdir(reader_path(reader, "shop", NULL), 0700), 0);
    assert_int_equal(mkdir(reader_path(reader, "shop/in", NULL), 0700), 0);
    (void)reader_path(reader, "secret", "secret");
    (void)reader_path(reader, "shop/in/list", "list");
    link_to(reader, "in/list", "shop/to-list");
    link_to(reader, "in", "shop/to-in");
    link_to(reader, "to-in", "shop/to-to-in");
    link_to(reader, "../in/list", "shop/in/up-and-down");
    link_to(reader, "in/lost", "shop/to-nothing");
    link_to(reader, "../secret", "shop/to-secret");
    link_to(reader, "/etc", "shop/to-root");
    link_to(reader, "loop", "shop/loop");
    link_to(reader, "back", "shop/there");
    link_to(reader, "there", "shop/back");
    reader_free(reader);
}

int main(void)
{
    make_the_shop();
    return CHECK_ALL(CHECK_ROWS(names, name_leads), CHECK_ROWS(ways, way_leads),
                     CHECK_TEST(folders_and_trust), CHECK_TEST(long_ways));
}
