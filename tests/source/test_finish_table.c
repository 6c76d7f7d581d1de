#include "check.h"
#include "reader.h"

#include "format/file.h"
#include "source/finish_table.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* The text of a shipped finish, to be made the shop's own. */
static const char *shipped_text(struct reader *reader, const char *path)
{
    struct file_text file;
    struct err fault;
    assert_true(file_load(reader->arena, path, &file, &fault));
    return file.text;
}

/* The table that comes with the program is read whole, in the order of the ids. */
static void shipped_table(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct finish_folders folders = {.shipped = "finishes", .currency_digits = 2};
    struct finish_table *table = finish_table_load(&reader->reading, &folders);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_true(HERE, table->count >= 34, "at least 34 finishes");
    for (size_t i = 0; i < table->count; i++) {
        const struct finish *f = table->items[i];
        check_true(HERE, f->shipped && f->source_count > 0, f->id);
        check_true(HERE, i == 0 || strcmp(table->items[i - 1]->id, f->id) < 0, f->id);
        check_true(HERE, finish_table_find(table, f->id) == f, f->id);
    }
    check_true(HERE, !finish_table_find(table, "no-such"), "none");
    reader_free(reader);
}

static void own_finishes_go_ahead(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *own = reader_path(reader, "own", NULL);
    assert_int_equal(mkdir(own, 0700), 0);
    const char *full = shipped_text(reader, "finishes/hardwax-oil-two-part.json");
    reader_path(reader, "own/a.json", reader_swap(reader, full, "\"hardwax-oil-two-part\"", "\"paste-wax\""));
    reader_path(reader, "own/b.json", reader_swap(reader, full, "\"hardwax-oil-two-part\"", "\"paste-wax\""));
    reader_path(reader, "own/c.json", reader_swap(reader, full, "\"300 ml\"", "\"1 foot\""));
    reader_path(reader, "own/.d.json", "not read");
    reader_path(reader, "own/notes.txt", "not read");
    reader_path(reader, "outside.json", full);
    assert_int_equal(symlink("../outside.json", reader_path(reader, "own/e.json", NULL)), 0);
    struct finish_folders folders = {
        .shipped = "finishes", .own = own, .rule = {"job.json", false}, .currency_digits = 2};
    struct finish_table *table = finish_table_load(&reader->reading, &folders);
    check_true(HERE, !finish_table_find(table, "paste-wax")->shipped, "the shop's own");
    check_true(HERE,
               finish_table_failed(table, "hardwax-oil-two-part") && !finish_table_failed(table, "paste-wax"),
               "what could not be read");
    check_int(HERE, (intmax_t)reader->errors.count, 3);
    check_text(HERE, reader->errors.items[0].expected, "an id that no other finish here has");
    check_text(HERE, reader->errors.items[0].found,
               arena_textf(reader->arena, "\"paste-wax\", as in %s/a.json", own));
    check_text(HERE, reader->errors.items[1].file, arena_textf(reader->arena, "%s/c.json", own));
    check_text(HERE, reader->errors.items[1].pointer, "/components/0/packs/0/size");
    check_text(HERE, reader->errors.items[2].file, arena_textf(reader->arena, "%s/e.json", own));
    check_text(HERE, reader->errors.items[2].found, "one that leaves it by a link");
    reader_free(reader);
}

static void missing_folder(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct finish_folders folders = {.shipped = "no-such-folder", .currency_digits = 2};
    struct finish_table *table = finish_table_load(&reader->reading, &folders);
    check_int(HERE, (intmax_t)table->count, 0);
    check_text(HERE, reader_lines(reader, &reader->errors),
               "no-such-folder: expected a readable folder, found no such folder");
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(shipped_table), CHECK_TEST(own_finishes_go_ahead),
                     CHECK_TEST(missing_folder));
}
