/* Files are replaced whole, together, and never through a link. */
#include "check.h"
#include "reader.h"

#include "format/save.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

static const char *folder_of(struct reader *reader, const char *name)
{
    const char *folder = reader_path(reader, name, NULL);
    if (mkdir(folder, 0700) != 0)
        assert_int_equal(errno, EEXIST);
    return folder;
}

static const char *text_of(struct reader *reader, const char *folder, const char *name)
{
    struct file_text file;
    struct err err;
    if (file_load(reader->arena, arena_textf(reader->arena, "%s/%s", folder, name), &file, &err))
        return file.text;
    return arena_text(reader->arena, err.found);
}

/* Saves the same text under each name; "" or what was told. */
static const char *save(struct reader *reader, const char *folder, const char *const *names, size_t count,
                        const char *text)
{
    struct err err;
    struct saving *saving = saving_begin(reader->arena, folder, true, &err);
    if (!saving)
        return arena_text(reader->arena, err.found);
    for (size_t i = 0; i < count; i++)
        saving_add(saving, names[i], text, strlen(text));
    bool good = saving_commit(saving, &err);
    saving_end(saving);
    return good ? "" : arena_textf(reader->arena, "%s: %s", path_last(err.file), err.found);
}

static const char *save_one(struct reader *reader, const char *folder, const char *name, const char *text)
{
    return save(reader, folder, &name, 1, text);
}

/* Everything in a folder, hidden files too, as one text. */
static const char *names_in(struct reader *reader, const char *folder)
{
    char line[512] = "";
    FILE *list = popen(arena_textf(reader->arena, "ls -A '%s' | tr '\\n' ' '", folder), "r");
    assert_non_null(list);
    if (!fgets(line, sizeof line, list))
        line[0] = '\0';
    pclose(list);
    return arena_text(reader->arena, line);
}

static const char *const set[] = {"plan.json", "timetable.ics", "shopping.csv"};

static void saves_whole(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *folder = folder_of(reader, "whole");
    check_text(HERE, save_one(reader, folder, "plan.json", "one"), "");
    check_text(HERE, save_one(reader, folder, "plan.json", "longer"), "");
    check_text(HERE, text_of(reader, folder, "plan.json"), "longer");
    check_text(HERE, save(reader, folder, set, 3, "set"), "");
    check_text(HERE, text_of(reader, folder, "timetable.ics"), "set");
    check_text(HERE, names_in(reader, folder), "plan.json shopping.csv timetable.ics ");
    check_text(HERE, save_one(reader, reader_path(reader, "no/where", NULL), "x", "x"), "no such folder");
    check_text(HERE, save_one(reader, reader_path(reader, "whole/plan.json", NULL), "x", "x"), "a file");
    check_text(HERE, save_one(reader, folder_of(reader, "dir"), "../dir", "x"), "dir: a directory");
    reader_free(reader);
}

/* Modes come from the umask alone: what an old file had, a set-uid bit for one, is not handed on. */
static void modes_are_those_of_the_umask(void **state)
{
    (void)state;
    struct stat about;
    struct reader *reader = reader_make();
    const char *folder = folder_of(reader, "modes"), *path = reader_path(reader, "modes/plan.json", "old");
    mode_t before = umask(027);
    assert_int_equal(chmod(path, 04755), 0);
    check_text(HERE, save_one(reader, folder, "plan.json", "new"), "");
    umask(before);
    assert_int_equal(stat(path, &about), 0);
    check_int(HERE, about.st_mode & 07777, 0640);
    reader_free(reader);
}

static void no_link_is_written_through(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *folder = folder_of(reader, "links"), *aim = reader_path(reader, "aim", "untouched");
    assert_int_equal(symlink(aim, reader_path(reader, "links/timetable.ics", NULL)), 0);
    assert_int_equal(symlink(aim, reader_path(reader, "links/.plan.json.new", NULL)), 0);
    reader_path(reader, "links/plan.json", "old");
    check_text(HERE, save(reader, folder, set, 3, "new"),
               "timetable.ics: a link: name the file that it leads to");
    check_text(HERE, text_of(reader, folder, "plan.json"), "old");
    check_text(HERE, text_of(reader, folder, "../aim"), "untouched");
    check_text(HERE, save_one(reader, folder, "plan.json", "new"), "");
    check_text(HERE, text_of(reader, folder, "../aim"), "untouched");
    check_text(HERE, names_in(reader, folder), "plan.json timetable.ics ");
    reader_free(reader);
}

/* What cannot take its name leaves the others as they were. */
static void all_or_none(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *folder = folder_of(reader, "none");
    reader_path(reader, "none/plan.json", "old");
    folder_of(reader, "none/shopping.csv");
    check_text(HERE, save(reader, folder, set, 3, "new"), "shopping.csv: a directory");
    check_text(HERE, text_of(reader, folder, "plan.json"), "old");
    check_text(HERE, names_in(reader, folder), "plan.json shopping.csv ");
    reader_free(reader);
}

/* A writer that was killed after it had listed its set: the next one finishes it, whatever it saves itself. */
static void the_killed_is_finished(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *folder = folder_of(reader, "killed");
    reader_path(reader, "killed/plan.json", "new");
    reader_path(reader, "killed/.plan.json.old", "old");
    reader_path(reader, "killed/timetable.ics", "old");
    reader_path(reader, "killed/.timetable.ics.new", "new");
    reader_path(reader, "killed/.coatwright-saving", "plan.json\ntimetable.ics\n../aim\n.hidden\n");
    check_text(HERE, save_one(reader, folder, "other", "x"), "");
    check_text(HERE, text_of(reader, folder, "timetable.ics"), "new");
    check_text(HERE, text_of(reader, folder, "plan.json"), "new");
    check_text(HERE, names_in(reader, folder), "other plan.json timetable.ics ");
    reader_free(reader);
}

/* Killed at random moments: afterwards, once the next writer has begun, every set is of one hand. */
static void kills_leave_one_set(void **state)
{
    (void)state;
    enum { KILLS = 200 };
    struct reader *reader = reader_make();
    const char *folder = folder_of(reader, "kills");
    uint64_t seed = 14;
    for (int i = 0; i < KILLS; i++) {
        const char *mark = arena_textf(reader->arena, "%d", i);
        pid_t child = fork();
        if (child == 0)
            for (int k = 0;; k++)
                (void)save(reader, folder, set, 3, arena_textf(reader->arena, "%s-%d", mark, k));
        nanosleep(&(struct timespec){0, (long)(4e6 * check_random_unit(&seed))}, NULL);
        kill(child, SIGKILL);
        waitpid(child, NULL, 0);
        check_text(HERE, save_one(reader, folder, "next", "x"), "");
        const char *plan = text_of(reader, folder, "plan.json");
        check_text(HERE, text_of(reader, folder, "timetable.ics"), plan);
        check_text(HERE, text_of(reader, folder, "shopping.csv"), plan);
    }
    check_text(HERE, save(reader, folder, set, 3, "last"), "");
    check_text(HERE, names_in(reader, folder), "next plan.json shopping.csv timetable.ics ");
    reader_free(reader);
}

/* Two at once: each set is whole, and a lock that is never given up is told in the end. */
static void two_writers_wait(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *folder = folder_of(reader, "two");
    pid_t child = fork();
    for (int i = 0; i < 25; i++) {
        check_text(HERE, save(reader, folder, set, 3, child ? "parent" : "child"), "");
        nanosleep(&(struct timespec){0, 10000000}, NULL);
    }
    if (child == 0)
        _exit(0);
    int status;
    waitpid(child, &status, 0);
    check_int(HERE, status, 0);
    const char *plan = text_of(reader, folder, "plan.json");
    check_text(HERE, text_of(reader, folder, "timetable.ics"), plan);
    check_text(HERE, text_of(reader, folder, "shopping.csv"), plan);
    int held = open(folder, O_RDONLY);
    assert_int_equal(flock(held, LOCK_EX), 0);
    check_text(HERE, save_one(reader, folder, "plan.json", "x"), "another program that is writing there");
    close(held);
    reader_free(reader);
}

/* A limit on the size of files is an error, not an end. */
static void a_limit_is_told(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *folder = folder_of(reader, "limit");
    struct rlimit before, small = {100, RLIM_INFINITY};
    char *text = arena_alloc(reader->arena, 5000, 1);
    memset(text, 'x', 4999);
    reader_path(reader, "limit/plan.json", "old");
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    small.rlim_max = before.rlim_max;
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    const char *told = save(reader, folder, set, 3, text);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    check_text(HERE, told, "plan.json: a larger one than may be written");
    check_text(HERE, text_of(reader, folder, "plan.json"), "old");
    check_text(HERE, names_in(reader, folder), "plan.json ");
    reader_free(reader);
}

static void what_stands_there_is_loaded(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct file_text file;
    struct err err;
    const char *folder = folder_of(reader, "load");
    reader_path(reader, "load/plan.json", "old");
    assert_int_equal(mkfifo(reader_path(reader, "load/pipe", NULL), 0600), 0);
    assert_int_equal(symlink("plan.json", reader_path(reader, "load/link", NULL)), 0);
    struct saving *saving = saving_begin(reader->arena, folder, false, &err);
    assert_non_null(saving);
    check_true(HERE, saving_load(saving, "plan.json", &file, &err), "there");
    check_text(HERE, file.text, "old");
    check_true(HERE, !saving_load(saving, "none", &file, &err) && err.code == ERR_NONE, "not there");
    check_true(HERE, !saving_load(saving, "pipe", &file, &err) && err.code == ERR_FILE, "a pipe");
    saving_end(saving);
    reader_free(reader);
}

/* Appends to `log` of a folder, keeping its first bytes; "" or what was told. */
static const char *append(struct reader *reader, const char *folder, size_t keep, const char *text)
{
    struct err err;
    struct saving *saving = saving_begin(reader->arena, folder, false, &err);
    assert_non_null(saving);
    bool good = saving_append(saving, "log", keep, text, strlen(text), &err);
    saving_end(saving);
    return good ? "" : arena_text(reader->arena, err.found);
}

static void appends_behind_what_is_whole(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *folder = folder_of(reader, "append");
    check_text(HERE, append(reader, folder, 0, "one\n"), "");
    check_text(HERE, append(reader, folder, 4, "two"), "");
    check_text(HERE, append(reader, folder, 7, "three\n"), "");
    check_text(HERE, text_of(reader, folder, "log"), "one\ntwo\nthree\n");
    check_text(HERE, append(reader, folder, 8, "four\n"), "");
    check_text(HERE, text_of(reader, folder, "log"), "one\ntwo\nfour\n");
    check_text(HERE, append(reader, folder, 100, "five\n"), "an error while writing (Input/output error)");
    check_text(HERE, text_of(reader, folder, "log"), "one\ntwo\nfour\n");
    check_text(HERE, names_in(reader, folder), "log ");
    reader_free(reader);
}

static void appends_to_plain_files_alone(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *folder = folder_of(reader, "append-odd");
    const char *log = reader_path(reader, "append-odd/log", NULL);
    assert_int_equal(symlink("/dev/null", log), 0);
    check_text(HERE, append(reader, folder, 0, "one\n"), "a link: name the file that it leads to");
    assert_int_equal(unlink(log), 0);
    assert_int_equal(mkfifo(log, 0600), 0);
    check_text(HERE, append(reader, folder, 0, "one\n"), "a pipe or a device");
    assert_int_equal(unlink(log), 0);
    reader_free(reader);
}

/* A limit on the size of files stands for a full disk: the whole lines stay, and nothing of the new one. */
static void a_full_disk_leaves_it(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *folder = folder_of(reader, "append-full");
    struct rlimit before, little;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    little = before;
    little.rlim_cur = 6;
    check_text(HERE, append(reader, folder, 0, "one\n"), "");
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &little), 0);
    const char *told = append(reader, folder, 4, "two and three\n");
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    check_text(HERE, told, "a larger one than may be written");
    check_text(HERE, text_of(reader, folder, "log"), "one\n");
    reader_free(reader);
}

static void streams_are_written(void **state)
{
    (void)state;
    struct err err;
    check_true(HERE, save_is_stream("/dev/null") && !save_is_stream("/") && !save_is_stream("/nowhere"),
               "which");
    check_true(HERE, save_stream("/dev/null", "x", 1, &err), "written");
    check_true(HERE, !save_stream("/dev/full", "x", 1, &err), "full");
    check_text(HERE, err.found, "no space left on the disk");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(saves_whole), CHECK_TEST(modes_are_those_of_the_umask),
                     CHECK_TEST(no_link_is_written_through), CHECK_TEST(all_or_none),
                     CHECK_TEST(the_killed_is_finished), CHECK_TEST(kills_leave_one_set),
                     CHECK_TEST(two_writers_wait), CHECK_TEST(a_limit_is_told),
                     CHECK_TEST(what_stands_there_is_loaded), CHECK_TEST(appends_behind_what_is_whole),
                     CHECK_TEST(appends_to_plain_files_alone), CHECK_TEST(a_full_disk_leaves_it),
                     CHECK_TEST(streams_are_written));
}
