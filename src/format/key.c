#include "format/key.h"

#include "base/arena.h"
#include "base/text.h"
#include "format/save.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>
#include <sys/random.h>

enum { DIGITS = 16 };

static const char file_name[] = ".coatwright-key";

/* Sixteen hexadecimal digits, and no more but a line end. */
static bool is_number(const struct file_text *file)
{
    size_t digits = strspn(file->text, "0123456789abcdef");
    return digits == DIGITS && strspn(file->text + digits, "\r\n") == file->length - digits;
}

/* A new number, kept; NULL: it cannot be. Two at once agree on the first that is there. */
static const char *draw(struct arena *arena, const char *folder, struct file_text *file, struct err *err)
{
    uint64_t number;
    struct saving *saving = saving_begin(arena, folder, false, err);
    bool there = saving && saving_load(saving, file_name, file, err), kept = there;
    if (saving && !there && err->code == ERR_NONE) {
        if (getrandom(&number, sizeof number, 0) == sizeof number) {
            file->text = arena_textf(arena, "%016" PRIx64 "\n", number);
            file->length = DIGITS + 1;
            saving_add(saving, file_name, file->text, file->length);
            kept = saving_commit(saving, err);
        } else {
            err_fill(err, ERR_FILE, "a random number of the system", "none");
        }
    }
    if (saving)
        saving_end(saving);
    return kept ? file->text : NULL;
}

/* Without a number where nobody may keep one; NULL where something went wrong. */
static const char *keyless(const char *folder, const char *at, struct err *err)
{
    if (file_read_only(folder))
        return "";
    if (!err->file[0])
        snprintf(err->file, sizeof err->file, "%s", at);
    return NULL;
}

const char *key_of(struct arena *arena, const char *path, struct err *err)
{
    const char *folder = path_folder(arena, path);
    const char *at = strcmp(folder, ".") == 0 ? file_name : arena_textf(arena, "%s/%s", folder, file_name);
    struct path_rule rule = {at, false};
    struct file_text file;
    if (strcmp(path, "-") == 0)
        return "";
    if (file_missing(at)) {
        if (!draw(arena, folder, &file, err))
            return keyless(folder, at, err);
    } else if (!file_load_named(arena, rule, at, &file, err)) {
        snprintf(err->file, sizeof err->file, "%s", at);
        return NULL;
    }
    if (!is_number(&file)) {
        err_fill(err, ERR_FILE, arena_textf(arena, "the 16 digits that were kept in %s", at),
                 "something else");
        return NULL;
    }
    uint64_t both = text_hash(text_hash(TEXT_HASH, file.text), path_last(path));
    return arena_textf(arena, "%012" PRIx64, both & 0xFFFFFFFFFFFFu);
}
