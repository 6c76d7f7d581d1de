/* A folder of jobs through the public header alone: what is in it, saving several texts, their versions. */
#include "check.h"
#include "coatwright.h"
#include "coatwright_folder.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char folder[64];

static void put(const char *name, const char *text)
{
    char path[128];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0 && fclose(file) == 0);
}

static int make_folder(void **state)
{
    (void)state;
    char path[128];
    snprintf(folder, sizeof folder, "%s", "test-folder-XXXXXX");
    if (!mkdtemp(folder))
        return -1;
    snprintf(path, sizeof path, "%s/finishes", folder);
    if (mkdir(path, 0777) != 0)
        return -1;
    put("shelf.json", "{\"format\": \"coatwright-job/1\", \"job\": \"x\", \"parts\": \"shelf.csv\", "
                      "\"shop\": \"shop.json\"}");
    put("shelf.csv", "part,qty\n");
    put("shop.json", "{}");
    put("finishes/own.json", "{}");
    put(".hidden.json", "{\"format\": \"coatwright-job/1\"}");
    return 0;
}

static int drop_folder(void **state)
{
    (void)state;
    char command[128];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    return system(command);
}

static struct coatwright *session(void)
{
    struct coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    options.finishes = "finishes";
    struct coatwright *opened = coatwright_open(&options);
    assert_non_null(opened);
    return opened;
}

static void what_is_there(void **state)
{
    (void)state;
    struct coatwright *s = session();
    char names[200] = "";
    check_true(HERE, coatwright_list_folder(s, folder), "the folder is listed");
    for (size_t i = 0; i < coatwright_folder_count(s); i++) {
        const struct coatwright_folder_file *file = coatwright_folder_file(s, i);
        snprintf(names + strlen(names), sizeof names - strlen(names), "%s%s ", file->name,
                 file->job ? "*" : "");
    }
    check_text(HERE, names, "finishes/own.json shelf.csv shelf.json* shop.json ");
    check_true(HERE, !coatwright_folder_file(s, coatwright_folder_count(s)), "NULL behind the last");
    check_true(HERE,
               coatwright_is_job(s, folder, "shelf.json") && !coatwright_is_job(s, folder, "shop.json") &&
                   !coatwright_is_job(s, folder, ".hidden.json"),
               "one job");
    check_true(HERE, !coatwright_list_folder(s, "no-such-folder"), "no such folder");
    coatwright_close(s);
}

static void names(void **state)
{
    (void)state;
    static const char *const none[] = {"",     ".",  "..", "../a", "a/../b", "/a",
                                       "a//b", "a/", ".a", "a/.b", "a\nb",   "a\xFF"};
    struct coatwright *s = session();
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
        check_true(HERE, !coatwright_folder_path(s, folder, none[i]), none[i]);
    check_true(HERE, coatwright_folder_path(s, folder, "finishes/own.json") != NULL, "a name");
    coatwright_close(s);
}

/* What a job with mistakes was read from, with what each file is to it. */
static void sources(void **state)
{
    (void)state;
    struct coatwright *s = session();
    char told[200] = "";
    check_true(HERE, !coatwright_read(s, coatwright_folder_path(s, folder, "shelf.json")), "it has mistakes");
    for (size_t i = 0; i < coatwright_source_count(s); i++) {
        const struct coatwright_source *source = coatwright_source(s, i);
        snprintf(told + strlen(told), sizeof told - strlen(told), "%s %s; ", source->name, source->kind);
    }
    check_true(HERE, strstr(told, "shelf.json job; ") == told, told);
    check_true(HERE, strstr(told, "shop.json shop; ") != NULL, told);
    coatwright_close(s);
}

static struct coatwright_text text_of(const char *name, const char *text, const char *version)
{
    struct coatwright_text made = COATWRIGHT_TEXT_INIT;
    made.name = name;
    made.text = text;
    made.length = strlen(text);
    made.version = version;
    return made;
}

static void saving(void **state)
{
    (void)state;
    struct coatwright *s = session();
    char before[COATWRIGHT_TEXT_VERSION_SIZE], own[COATWRIGHT_TEXT_VERSION_SIZE];
    size_t conflict, length;
    coatwright_text_version("part,qty\n", strlen("part,qty\n"), before);
    coatwright_text_version("{}", 2, own);
    struct coatwright_text texts[] = {text_of("shelf.csv", "part,qty\na,1\n", before),
                                      text_of("finishes/own.json", "{ }", own),
                                      text_of("new.csv", "n\n", NULL)};
    check_true(HERE, coatwright_save_texts(s, folder, texts, 3, &conflict) && conflict == 0, "three texts");
    check_text(HERE, coatwright_folder_text(s, folder, "finishes/own.json", &length), "{ }");
    check_true(HERE, length == 3, "its length");
    struct coatwright_text stale[] = {text_of("new.csv", "m\n", NULL), text_of("shelf.csv", "lost", before)};
    check_true(HERE, !coatwright_save_texts(s, folder, stale, 2, &conflict) && conflict == 1,
               "one is there already");
    check_true(HERE, !coatwright_save_texts(s, folder, stale + 1, 1, &conflict) && conflict == 1,
               "one has changed");
    struct coatwright_text again[] = {text_of("shelf.csv", "part,qty\na,1\n", before)};
    check_true(HERE, coatwright_save_texts(s, folder, again, 1, &conflict), "what stands there already");
    check_text(HERE, coatwright_folder_text(s, folder, "shelf.csv", NULL), "part,qty\na,1\n");
    check_true(HERE, coatwright_list_versions(s, folder, "shelf.csv") && coatwright_version_count(s) == 1,
               "one version");
    check_text(HERE, coatwright_version_kept(s, 0)->version, before);
    check_text(HERE, coatwright_version_text(s, before, NULL), "part,qty\n");
    check_true(HERE, !coatwright_version_text(s, own, NULL), "not that of another file");
    coatwright_close(s);
}

static void misuse(void **state)
{
    (void)state;
    struct coatwright *s = session();
    size_t conflict;
    check_true(HERE, !coatwright_list_folder(s, NULL) && !coatwright_list_folder(NULL, folder), "NULL");
    check_true(HERE, !coatwright_save_texts(s, folder, NULL, 1, &conflict) && !coatwright_secret(s, NULL),
               "NULL");
    check_true(HERE,
               !coatwright_version_kept(s, 0) && !coatwright_source(s, 0) && !coatwright_folder_file(NULL, 0),
               "nothing");
    check_true(HERE,
               !coatwright_folder_text(s, folder, "../test", NULL) &&
                   !coatwright_keep_versions(NULL, folder, NULL, 0),
               "no name");
    check_true(HERE, !coatwright_sheet_text(s, "list.ods", NULL, 0) && !coatwright_sheet_text(s, NULL, "", 0),
               "NULL");
    check_true(HERE,
               !coatwright_sheet_text(s, "list.csv", "a,b\n", 4) &&
                   !coatwright_sheet_text(s, "list.ods", "", 0),
               "no spreadsheet");
    coatwright_close(s);
}

static void a_secret(void **state)
{
    (void)state;
    struct coatwright *s = session();
    char path[128];
    put("token", "0123\nmore\n");
    snprintf(path, sizeof path, "%s/token", folder);
    assert_int_equal(chmod(path, 0600), 0);
    check_text(HERE, coatwright_secret(s, path), "0123");
    assert_int_equal(chmod(path, 0640), 0);
    check_true(HERE, !coatwright_secret(s, path), "one that others may read");
    coatwright_close(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(what_is_there), cmocka_unit_test(names),
                                       cmocka_unit_test(sources),       cmocka_unit_test(saving),
                                       cmocka_unit_test(misuse),        cmocka_unit_test(a_secret)};
    return cmocka_run_group_tests(tests, make_folder, drop_folder);
}
