/* The JSON reader against a reference library, cJSON: every value of drawn documents, written by that library, and of the
 * finishes and examples, is the same in both. What is wrongly written the strict reader refuses by itself (test_json_tree). */
#include "check.h"
#include "reader.h"

#include "base/buf.h"
#include "format/file.h"
#include "format/json_tree.h"

#include <cjson/cJSON.h>
#include <stdlib.h>
#include <string.h>

enum { DOCUMENTS = 2000, DEPTH = 5, MEMBERS = 6 };

static const char *const words[] = {
    "", "oak", "19 mm", "3/4\"", "a\\b", "tab\there", "caf\xC3\xA9", "\xF0\x9F\xAA\xB5", "\x7F", "line\nend"};

static double draw_number(uint64_t *seed)
{
    double unit = check_random_unit(seed) - 0.5;
    bool small = check_random_int(seed, 0, 1);
    return unit * (small ? 1e-6 : 1e12);
}

static cJSON *draw(uint64_t *seed, int depth)
{
    switch (check_random_int(seed, 0, depth > 0 ? 6 : 4)) {
    case 0:
        return cJSON_CreateNull();
    case 1:
        return cJSON_CreateBool(check_random_int(seed, 0, 1));
    case 2:
        return cJSON_CreateNumber(draw_number(seed));
    case 3:
        return cJSON_CreateNumber(check_random_int(seed, -1000, 1000));
    case 4:
        return cJSON_CreateString(words[check_random_int(seed, 0, sizeof words / sizeof words[0] - 1)]);
    default:
        break;
    }
    bool object = check_random_int(seed, 0, 1);
    cJSON *made = object ? cJSON_CreateObject() : cJSON_CreateArray();
    int count = check_random_int(seed, 0, MEMBERS);
    for (int i = 0; i < count; i++) {
        char name[] = {'k', (char)('a' + i), '\0'};
        cJSON *item = draw(seed, depth - 1);
        (void)(object ? cJSON_AddItemToObject(made, name, item) : cJSON_AddItemToArray(made, item));
    }
    return made;
}

static enum json_kind kind_of(const cJSON *value)
{
    return cJSON_IsNull(value)     ? JSON_NULL
           : cJSON_IsTrue(value)   ? JSON_TRUE
           : cJSON_IsFalse(value)  ? JSON_FALSE
           : cJSON_IsNumber(value) ? JSON_NUMBER
           : cJSON_IsString(value) ? JSON_TEXT
           : cJSON_IsArray(value)  ? JSON_LIST
                                   : JSON_OBJECT;
}

static void check_same(const struct row *row, const struct json_value *got, const cJSON *want)
{
    check_int(row, got->kind, kind_of(want));
    if (got->kind != kind_of(want))
        return;
    if (got->kind == JSON_NUMBER)
        check_double(row, got->number, want->valuedouble, 0);
    if (got->kind == JSON_TEXT)
        check_text(row, got->text, want->valuestring);
    if (got->kind != JSON_LIST && got->kind != JSON_OBJECT)
        return;
    const struct json_value *item = json_child(got);
    const cJSON *other = want->child;
    for (; item && other; item = item->next, other = other->next) {
        if (got->kind == JSON_OBJECT)
            check_text(row, item->name, other->string);
        check_same(row, item, other);
    }
    check_true(row, !item && !other, "as many members");
}

static void check_document(const struct row *row, struct reader *reader, const char *text)
{
    struct file_text file = reader_file("job.json", text);
    const struct json_value *got = json_scan(reader->arena, &file, &reader->errors);
    cJSON *want = cJSON_Parse(text);
    check_text(row, reader_lines(reader, &reader->errors), "");
    check_true(row, got && want, "read by both");
    if (got && want)
        check_same(row, got, want);
    cJSON_Delete(want);
}

static void drawn_documents_agree(void **state)
{
    (void)state;
    for (uint64_t i = 1; i <= DOCUMENTS; i++) {
        uint64_t seed = i;
        struct reader *reader = reader_make();
        cJSON *drawn = draw(&seed, DEPTH);
        char *text = i % 2 ? cJSON_Print(drawn) : cJSON_PrintUnformatted(drawn);
        check_document(HERE, reader, text);
        cJSON_free(text);
        cJSON_Delete(drawn);
        reader_free(reader);
    }
}

static void shipped_files_agree(void **state)
{
    static const char *const folders[] = {"finishes", "finishes/rules", "examples"};
    (void)state;
    size_t count = 0;
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) {
        struct reader *reader = reader_make();
        struct file_list list;
        struct file_text file;
        struct err err;
        check_true(HERE,
                   file_list(reader->arena, (struct path_rule){".", true}, folders[i], ".json", &list, &err),
                   folders[i]);
        for (size_t k = 0; k < list.count; k++, count++) {
            check_true(HERE, file_load(reader->arena, list.paths[k], &file, &err), list.paths[k]);
            check_document(HERE, reader, file.text);
        }
        reader_free(reader);
    }
    check_true(HERE, count > 40, "files were read");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(drawn_documents_agree), CHECK_TEST(shipped_files_agree));
}
