/* A folder of files is there as a whole, or nothing has changed. */
#include "check.h"
#include "reader.h"

#include "format/save.h"

#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const struct copy_file files[] = {{"job.json", "{}", 2},
                                         {"finishes/oil.json", "oil", 3},
                                         {"finishes/more/wax.json", "wax", 3},
                                         {"notes/empty", "", 0}};

static bool copy(struct reader *reader, const char *name, struct err *err)
{
    return copy_make(reader->arena, reader_path(reader, name, NULL), files, sizeof files / sizeof files[0],
                     err);
}

static void check_file(struct reader *reader, const char *name, const char *want)
{
    struct file_text file;
    struct err err;
    check_true(HERE, file_load(reader->arena, reader_path(reader, name, NULL), &file, &err), name);
    check_text(HERE, file.text, want);
}

/* How many names stand in a folder, hidden ones too. */
static int names_in(struct reader *reader, const char *name)
{
    DIR *folder = opendir(reader_path(reader, name, NULL));
    assert_non_null(folder);
    int count = -2;
    while (readdir(folder))
        count++;
    closedir(folder);
    return count;
}

static void makes_a_folder(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct err err;
    assert_int_equal(mkdir(reader_path(reader, "new", NULL), 0700), 0);
    check_true(HERE, copy(reader, "new/shop", &err), "a new folder");
    check_file(reader, "new/shop/job.json", "{}");
    check_file(reader, "new/shop/finishes/oil.json", "oil");
    check_file(reader, "new/shop/finishes/more/wax.json", "wax");
    check_file(reader, "new/shop/notes/empty", "");
    assert_int_equal(mkdir(reader_path(reader, "new/empty", NULL), 0700), 0);
    check_true(HERE, copy(reader, "new/empty//", &err), "an empty one, with slashes behind its name");
    check_file(reader, "new/empty/job.json", "{}");
    check_int(HERE, names_in(reader, "new"), 2);
    reader_free(reader);
}

/* What an earlier copy that was killed has left is taken away. */
static void begins_anew(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct err err;
    assert_int_equal(mkdir(reader_path(reader, "left", NULL), 0700), 0);
    assert_int_equal(mkdir(reader_path(reader, "left/.shop.new", NULL), 0700), 0);
    (void)reader_path(reader, "left/.shop.new/half", "x");
    check_true(HERE, copy(reader, "left/shop", &err), "a new folder");
    check_int(HERE, names_in(reader, "left"), 1);
    check_int(HERE, names_in(reader, "left/shop"), 3);
    reader_free(reader);
}

static void check_refused(struct reader *reader, const struct row *row, const char *name, const char *found)
{
    struct err err;
    check_true(row, !copy(reader, name, &err), name);
    check_text(row, err.expected, "a folder that is new or empty, in one that can be written");
    check_text(row, err.found, found);
    check_text(row, err.file, reader_path(reader, name, NULL));
}

static void refuses_what_is_taken(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    assert_int_equal(mkdir(reader_path(reader, "taken", NULL), 0700), 0);
    assert_int_equal(mkdir(reader_path(reader, "taken/shop", NULL), 0700), 0);
    (void)reader_path(reader, "taken/shop/mine", "mine");
    (void)reader_path(reader, "taken/file", "mine");
    check_refused(reader, HERE, "taken/shop", "one that holds something");
    check_refused(reader, HERE, "taken/file", "a file");
    check_refused(reader, HERE, "taken/lost/shop", "no such folder");
    check_refused(reader, HERE, "taken/file/shop", "a file");
    check_file(reader, "taken/shop/mine", "mine");
    check_file(reader, "taken/file", "mine");
    check_int(HERE, names_in(reader, "taken"), 2);
    check_int(HERE, names_in(reader, "taken/shop"), 1);
    reader_free(reader);
}

/* A file whose name leads through another file cannot be: the folder is not made, and the mistake names the file. */
static void all_or_nothing(void **state)
{
    (void)state;
    static const struct copy_file wrong[] = {{"job.json", "{}", 2}, {"job.json/oil.json", "oil", 3}};
    struct reader *reader = reader_make();
    struct err err;
    assert_int_equal(mkdir(reader_path(reader, "none", NULL), 0700), 0);
    check_true(HERE, !copy_make(reader->arena, reader_path(reader, "none/shop", NULL), wrong, 2, &err),
               "refused");
    check_text(HERE, err.file, reader_path(reader, "none/shop/job.json/oil.json", NULL));
    check_int(HERE, names_in(reader, "none"), 0);
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(makes_a_folder), CHECK_TEST(begins_anew), CHECK_TEST(refuses_what_is_taken),
                     CHECK_TEST(all_or_nothing));
}
