/* Requests to the page: a request line, heads and a body as they come over the wire, answered over a folder with one job. What holds of every
 * answer: it has a status that the page gives, its JSON is JSON, nothing of a file outside of the folder is in it, and that file stays
 * what it is. */
#include "base/arena.h"
#include "page/page.h"

#include <assert.h>
#include <ftw.h>
#include <jansson.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char secret[] = "{\"format\": \"coatwright-job/1\", \"job\": \"outside-of-the-folder\"}";
static const char job[] =
    "{\"format\": \"coatwright-job/1\", \"job\": \"Shelf\", \"zone\": \"UTC\", \"start\": \"2027-03-01 "
    "08:00\",\n"
    " \"deliver\": \"2027-03-19\", \"schedules\": {\"oiled\": [{\"sand\": 120}, {\"coat\": \"danish-oil\", "
    "\"coats\": 1}]},\n"
    " \"pieces\": [{\"piece\": \"shelf\", \"laid\": \"flat\"}], \"parts\": \"shelf.csv\"}\n";
static const char parts[] = "part,qty,wood,length,width,thickness,all\nshelf,1,ash,850,240,20,oiled\n";

static void put(const char *folder, const char *name, const char *text)
{
    char path[256];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    assert(file && fputs(text, file) >= 0 && fclose(file) == 0);
}

static int drop(const char *path, const struct stat *about, int kind, struct FTW *at)
{
    (void)about;
    (void)kind;
    (void)at;
    return remove(path);
}

/* A line of the request, which it cuts off; the rest begins behind its end. */
static char *cut_line(char **rest)
{
    char *line = *rest, *end = strchr(line, '\n');
    *rest = end ? end + 1 : line + strlen(line);
    if (end)
        *end = '\0';
    line[strcspn(line, "\r")] = '\0';
    return line;
}

static void take_head(struct page_request *request, const char *line)
{
    const struct {
        const char *name, **value;
    } heads[] = {{"Host: ", &request->host},
                 {"Origin: ", &request->origin},
                 {"Content-Type: ", &request->content_type},
                 {"Authorization: ", &request->authorization},
                 {"Cookie: ", &request->cookie},
                 {"If-None-Match: ", &request->known}};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        if (strncmp(line, heads[i].name, strlen(heads[i].name)) == 0)
            *heads[i].value = line + strlen(heads[i].name);
}

/* The text ends with a NUL behind `size` bytes. */
static struct page_request read_request(char *text, size_t size)
{
    char *rest = text, *line = cut_line(&rest), *blank = strchr(line, ' ');
    struct page_request request = {.method = line, .target = blank ? blank + 1 : ""};
    if (blank)
        *blank = '\0';
    while (*rest) {
        line = cut_line(&rest);
        if (!*line)
            break;
        take_head(&request, line);
    }
    request.body = rest;
    request.length = size - (size_t)(rest - text);
    return request;
}

/* The word of the file that lies outside. */
static bool holds_secret(const char *text, size_t length)
{
    static const char word[] = "outside-of-the-folder";
    for (size_t i = 0; i + sizeof word - 1 <= length; i++)
        if (memcmp(text + i, word, sizeof word - 1) == 0)
            return true;
    return false;
}

static void check(const struct page_answer *answer)
{
    static const int known[] = {200, 303, 304, 400, 401, 403, 404, 405, 409, 413, 415, 421, 422, 500, 503};
    size_t i = 0;
    while (i < sizeof known / sizeof known[0] && known[i] != answer->status)
        i++;
    assert(i < sizeof known / sizeof known[0]);
    assert(answer->type && (answer->events || answer->body));
    if (strcmp(answer->type, "application/json") == 0) {
        json_t *json = json_loadb(answer->body, answer->length, 0, NULL);
        assert(json && (answer->status < 400 || json_is_string(json_object_get(json, "error"))));
        json_decref(json);
    }
}

static void ask(const char *folder, char *text, size_t size)
{
    struct page_settings settings = {.folder = folder,
                                     .finishes = "finishes",
                                     .now = "2027-03-02T12:00Z",
                                     .port = 8080,
                                     .token = size % 5 == 0 ? "secret" : NULL};
    bool asked = holds_secret(text, size); /* an answer may repeat what is wrong in its request */
    struct page_request request = read_request(text, size);
    struct page_answer answer;
    struct page *page = page_make(&settings);
    struct arena *arena = arena_make(0);
    assert(page && arena);
    page_answer(page, arena, &request, &answer);
    check(&answer);
    assert(asked || !holds_secret(answer.body, answer.body ? answer.length : 0));
    arena_free(arena);
    page_free(page);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char home[] = "fuzz-page-XXXXXX", folder[64], path[128], there[sizeof secret + 1];
    char *text = calloc(size + 1, 1);
    assert(text && mkdtemp(home));
    memcpy(text, data, size);
    snprintf(folder, sizeof folder, "%s/jobs", home);
    snprintf(path, sizeof path, "%s/secret.json", home);
    assert(mkdir(folder, 0777) == 0);
    put(home, "secret.json", secret);
    put(folder, "shelf.json", job);
    put(folder, "shelf.csv", parts);
    put(folder, "shelf.log", "");
    snprintf(path, sizeof path, "%s/link.json", folder);
    assert(symlink("../secret.json", path) == 0);
    ask(folder, text, size);
    snprintf(path, sizeof path, "%s/secret.json", home);
    FILE *file = fopen(path, "rb");
    assert(file && fread(there, 1, sizeof there, file) == sizeof secret - 1 && fclose(file) == 0);
    assert(memcmp(there, secret, sizeof secret - 1) == 0);
    assert(nftw(home, drop, 16, FTW_DEPTH | FTW_PHYS) == 0);
    free(text);
    return 0;
}
