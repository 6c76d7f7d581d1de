#include "plan/together.h"

#include "base/err.h"
#include "job/shop_same.h"

#include <stdio.h>
#include <string.h>

enum { FILE_WORDS = 120 }; /* of a path: the end, which tells files apart */

static const char *shop_file(const struct job *job)
{
    return job->shop_file ? job->shop_file : job->file;
}

struct file_words {
    char text[FILE_WORDS + 16];
};

static struct file_words as_in(const char *path)
{
    struct file_words words;
    size_t length = strlen(path);
    snprintf(words.text, sizeof words.text, "as in %s",
             length <= FILE_WORDS ? path : path + length - FILE_WORDS);
    return words;
}

static void tell_shop(const struct job *first, const struct job *job,
                      const struct shop_difference *difference, struct err_list *errors)
{
    char pointer[64], expected[ERR_EXPECTED_SIZE];
    bool single = *difference->here.text;
    snprintf(pointer, sizeof pointer, "%s/%s", job->shop_file ? "" : "/shop", difference->key);
    snprintf(expected, sizeof expected, "%s %s: jobs planned together share one shop",
             single ? difference->here.text : "the same", as_in(shop_file(first)).text);
    err_add(errors, ERR_INPUT, shop_file(job), pointer, expected,
            single ? difference->there.text : "something else");
}

static bool check_shop(const struct job *first, const struct job *job, struct err_list *errors)
{
    struct shop_difference found[SHOP_DIFFERENCES_MOST];
    size_t count = shop_differences(&first->shop, &job->shop, found);
    for (size_t i = 0; i < count; i++)
        tell_shop(first, job, &found[i], errors);
    return count == 0;
}

static bool check_zone(const struct job *first, const struct job *job, struct err_list *errors)
{
    char expected[ERR_EXPECTED_SIZE];
    if (strcmp(first->zone->name, job->zone->name) == 0)
        return true;
    snprintf(expected, sizeof expected, "%s %s: jobs planned together share one shop", first->zone->name,
             as_in(first->file).text);
    err_add(errors, ERR_INPUT, job->file, "/zone", expected, job->zone->name);
    return false;
}

bool together_check(const struct job *const *jobs, size_t count, struct err_list *const *errors)
{
    bool same = true;
    for (size_t j = 1; j < count; j++) {
        same = check_zone(jobs[0], jobs[j], errors[j]) && same;
        same = check_shop(jobs[0], jobs[j], errors[j]) && same;
    }
    return same;
}
