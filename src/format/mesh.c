#include "format/mesh.h"

#include "base/arena.h"
#include "base/exact.h"
#include "base/err.h"
#include "base/text.h"

#include <errno.h>
#include <inttypes.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool unreadable(struct mesh_source *source, const char *found)
{
    err_add(source->errors, ERR_FILE, source->path, NULL, "a readable file", found);
    return false;
}

static size_t read_some(struct mesh_source *source, unsigned char *to, size_t room)
{
    ssize_t got;
    do
        got = read(source->file, to, room);
    while (got < 0 && errno == EINTR);
    if (got >= 0)
        return (size_t)got;
    source->failed = true;
    unreadable(source, "an error while reading");
    return 0;
}

bool mesh_fill(struct mesh_source *source)
{
    size_t rest = source->end - source->at, before = rest;
    memmove(source->window, source->window + source->at, rest);
    source->passed += source->at;
    source->at = 0;
    while (rest < MESH_WINDOW && !source->ended) {
        size_t got = read_some(source, source->window + rest, MESH_WINDOW - rest);
        source->ended = got == 0;
        rest += got;
    }
    source->end = rest;
    return rest > before;
}

void mesh_begin_text(struct mesh_source *source)
{
    if (source->end >= 3 && memcmp(source->window, "\xEF\xBB\xBF", 3) == 0)
        source->at = 3;
    source->line = 1;
    source->line_start = mesh_offset(source);
}

uint64_t mesh_offset(const struct mesh_source *source)
{
    return source->passed + source->at;
}

static struct err *refuse(struct mesh_source *source, const char *expected, const char *format,
                          va_list arguments)
{
    char found[ERR_FOUND_SIZE];
    vsnprintf(found, sizeof found, format, arguments);
    return source->failed ? NULL : err_add(source->errors, ERR_INPUT, source->path, NULL, expected, found);
}

bool mesh_refuse(struct mesh_source *source, const char *expected, const char *found_format, ...)
{
    va_list arguments;
    va_start(arguments, found_format);
    refuse(source, expected, found_format, arguments);
    va_end(arguments);
    return false;
}

bool mesh_refuse_text(struct mesh_source *source, const char *expected, const char *found_format, ...)
{
    va_list arguments;
    va_start(arguments, found_format);
    struct err *err = refuse(source, expected, found_format, arguments);
    va_end(arguments);
    if (err) {
        err->line = source->line;
        err->column = (int)(source->word_start - source->line_start) + 1;
    }
    return false;
}

bool mesh_refuse_word(struct mesh_source *source, const char *expected, struct mesh_word found)
{
    char plain[41];
    size_t length = found.length < 40 ? found.length : 40;
    for (size_t i = 0; i < length; i++)
        plain[i] = found.text[i] > ' ' && found.text[i] <= '~' ? found.text[i] : '?';
    plain[length] = '\0';
    if (length > 0)
        return mesh_refuse_text(source, expected, "\"%s\"%s", plain, length < found.length ? "..." : "");
    if (source->ended && source->at == source->end)
        return mesh_refuse_text(source, expected, "the end of the file at byte %" PRIu64,
                                mesh_offset(source));
    return mesh_refuse_text(source, expected, "the end of the line");
}

static bool is_blank(int c)
{
    return c == ' ' || c == '\t' || c == '\r' || c == '\v' || c == '\f';
}

/* At least a word and what follows it are in the window, or all that is left. */
static void look_ahead(struct mesh_source *source)
{
    if (source->end - source->at < MESH_WORD_MOST + 2 && !source->ended)
        mesh_fill(source);
}

static void begin_line(struct mesh_source *source)
{
    source->line++;
    source->line_start = mesh_offset(source);
}

/* A backslash, and the line end after it: passes both. */
static bool joins_lines(struct mesh_source *source)
{
    const unsigned char *w = source->window + source->at;
    size_t left = source->end - source->at;
    size_t end = left > 1 && w[1] == '\n' ? 2 : left > 2 && w[1] == '\r' && w[2] == '\n' ? 3 : 0;
    if (!source->obj || w[0] != '\\' || end == 0)
        return false;
    source->at += end;
    begin_line(source);
    return true;
}

static void skip_blanks(struct mesh_source *source)
{
    for (;;) {
        look_ahead(source);
        if (source->at == source->end)
            return;
        if (is_blank(source->window[source->at]))
            source->at++;
        else if (!joins_lines(source))
            return;
    }
}

bool mesh_word(struct mesh_source *source, struct mesh_word *word)
{
    skip_blanks(source);
    const unsigned char *from = source->window + source->at;
    size_t left = source->end - source->at, length = 0;
    if (source->obj && left > 0 && from[0] == '#')
        left = 0;
    while (length < left && !is_blank(from[length]) && from[length] != '\n')
        length++;
    if (source->obj && length > 1 && length < left && from[length - 1] == '\\')
        length--;
    source->word_start = mesh_offset(source);
    if (length > MESH_WORD_MOST)
        return mesh_refuse_text(source, "a word of at most 255 bytes", "a longer one");
    *word = (struct mesh_word){(const char *)from, length};
    source->at += length;
    return true;
}

bool mesh_next_line(struct mesh_source *source)
{
    for (;;) {
        const unsigned char *from = source->window + source->at;
        const unsigned char *end = memchr(from, '\n', source->end - source->at);
        source->at = end ? (size_t)(end + 1 - source->window) : source->end;
        if (end)
            break;
        if (!mesh_fill(source)) {
            source->word_start = mesh_offset(source);
            return false;
        }
    }
    begin_line(source);
    return true;
}

bool mesh_word_is(struct mesh_word word, const char *keyword)
{
    size_t i = 0;
    while (i < word.length && keyword[i] && text_lower(word.text[i]) == keyword[i])
        i++;
    return i == word.length && keyword[i] == '\0';
}

static bool (*reader_of(const char *path))(struct mesh_source *)
{
    size_t length = strlen(path);
    struct mesh_word ending = {path + (length < 4 ? 0 : length - 4), length < 4 ? length : 4};
    return mesh_word_is(ending, ".stl") ? mesh_read_stl : mesh_word_is(ending, ".obj") ? mesh_read_obj : NULL;
}

static bool about_source(struct mesh_source *source)
{
    struct stat about;
    if (fstat(source->file, &about) != 0)
        return unreadable(source, "an error while reading");
    if (!S_ISREG(about.st_mode))
        return unreadable(source, S_ISDIR(about.st_mode) ? "a directory" : "a pipe or a device");
    source->size = (uint64_t)about.st_size;
    return true;
}

struct mesh_call {
    struct mesh_source *source;
    struct arena *owner;
    bool (*reader)(struct mesh_source *source);
    bool good;
};

/* The window and the corners live in an arena of their own, given back at once: a large mesh takes nothing from the
 * job that names it. */
static void read_within(void *call)
{
    struct mesh_call *mesh = call;
    mesh->source->arena = arena_make_within(mesh->owner, 0);
    mesh->source->window = arena_alloc(mesh->source->arena, MESH_WINDOW, 1);
    mesh->good = mesh->reader(mesh->source);
    arena_free_within(mesh->owner, mesh->source->arena);
}

bool mesh_read(struct arena *owner, int file, const char *path, struct mesh_sink sink,
               struct err_list *errors)
{
    struct mesh_source source = {.file = file, .path = path, .errors = errors, .sink = sink};
    struct mesh_call call = {&source, owner, reader_of(path), false};
    if (!call.reader)
        err_add(errors, ERR_INPUT, path, NULL, "a mesh whose name ends in .stl or .obj", NULL);
    else if (about_source(&source) && !arena_try(owner, read_within, &call))
        err_add(errors, ERR_MEMORY, path, NULL, "memory enough for the mesh", "none left");
    return call.good;
}

/* What programs write for what is no number; some put digits behind "1.#IND". */
static bool named(struct mesh_word word, double *value)
{
    static const char *const names[] = {"nan", "nan(ind)", "inf", "infinity"};
    bool none = word.length > 3 && memcmp(word.text, "1.#", 3) == 0;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        none = none || mesh_word_is(word, names[i]);
    if (none)
        *value = NAN;
    return none;
}

bool mesh_number(struct mesh_word word, double *value)
{
    bool minus = word.length > 0 && word.text[0] == '-';
    if (word.length > 0 && (word.text[0] == '-' || word.text[0] == '+')) {
        word.text++;
        word.length--;
    }
    double read = 0;
    if (word.length == 0 || decimal_read(word.text, word.length, &read) != word.length)
        return named(word, value);
    *value = minus ? -read : read;
    return true;
}
