/* OBJ: corners `v x y z`, polygons `f 1 2 3`, `f 1/2/3 ...` or, counted back from the last corner, `f -3 -2 -1`. Other
 * statements (normals, groups, materials, lines) bound no area and are passed over; free-form surfaces are refused. */
#include "format/mesh.h"

#include "base/arena.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

enum { CHUNK = 8192 }; /* corners kept together: growing copies none */

struct chunk {
    double (*at)[3];
};

struct corners {
    struct chunk *chunks;
    size_t chunk_count, chunk_capacity;
    uint64_t count;
};

static bool read_corner(struct mesh_source *source, struct corners *corners)
{
    size_t place = corners->count % CHUNK;
    if (place == 0) {
        corners->chunks = arena_grow(source->arena, corners->chunks, corners->chunk_count,
                                     &corners->chunk_capacity, sizeof *corners->chunks);
        corners->chunks[corners->chunk_count++].at = arena_alloc(source->arena, CHUNK, sizeof(double[3]));
    }
    double *at = corners->chunks[corners->chunk_count - 1].at[place];
    for (int i = 0; i < 3; i++) {
        struct mesh_word word;
        if (!mesh_word(source, &word))
            return false;
        if (!mesh_number(word, &at[i]))
            return mesh_refuse_word(source, "a number", word);
    }
    corners->count++;
    return true;
}

/* `7`, `-1`, and the same with texture and normal behind a slash: which corner; false: none of these. */
static bool index_of(struct mesh_word word, uint64_t count, uint64_t *index)
{
    bool back = word.length > 0 && word.text[0] == '-';
    size_t at = back;
    uint64_t number = 0;
    for (; at < word.length && word.text[at] >= '0' && word.text[at] <= '9'; at++)
        if (number <= count)
            number = number * 10 + (uint64_t)(word.text[at] - '0');
    if (number == 0 || number > count || (at < word.length && word.text[at] != '/'))
        return false;
    *index = back ? count - number : number - 1;
    return true;
}

static bool refuse_index(struct mesh_source *source, uint64_t count, struct mesh_word word)
{
    char expected[80] = "a corner that stands above";
    if (count > 0)
        snprintf(expected, sizeof expected, "a corner that stands above: 1 to %" PRIu64 ", or -1 back",
                 count);
    return mesh_refuse_word(source, expected, word);
}

static bool read_face(struct mesh_source *source, const struct corners *corners)
{
    size_t count = 0;
    for (;;) {
        struct mesh_word word;
        uint64_t index;
        if (!mesh_word(source, &word))
            return false;
        if (word.length == 0)
            break;
        if (!index_of(word, corners->count, &index))
            return refuse_index(source, corners->count, word);
        source->sink.corner(source->sink.to, corners->chunks[index / CHUNK].at[index % CHUNK], count++);
    }
    if (count < 3)
        return mesh_refuse_text(source, "a face of at least three corners", "%zu", count);
    source->sink.polygon(source->sink.to);
    return true;
}

/* Statements that bound no area. */
static bool passed_over(struct mesh_word word)
{
    static const char *const others[] = {
        "vt",   "vn",         "vp",        "g",        "s",        "o",    "mg",     "usemtl", "mtllib",
        "l",    "p",          "bevel",     "c_interp", "d_interp", "lod",  "usemap", "maplib", "call",
        "csh",  "shadow_obj", "trace_obj", "deg",      "bmat",     "step", "cstype", "curv",   "curv2",
        "parm", "trim",       "hole",      "scrv",     "sp",       "end",  "con",    "ctech",  "stech"};
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (mesh_word_is(word, others[i]))
            return true;
    return word.length == 0;
}

static bool read_statement(struct mesh_source *source, struct corners *corners)
{
    struct mesh_word word;
    if (!mesh_word(source, &word))
        return false;
    if (mesh_word_is(word, "v"))
        return read_corner(source, corners);
    if (mesh_word_is(word, "f") || mesh_word_is(word, "fo"))
        return read_face(source, corners);
    if (mesh_word_is(word, "surf"))
        return mesh_refuse_text(source, "polygons", "a free-form surface (surf)");
    return passed_over(word) || mesh_refuse_word(source, "a statement of an OBJ file, such as v or f", word);
}

bool mesh_read_obj(struct mesh_source *source)
{
    struct corners corners = {.chunks = ARENA_ARRAY(source->arena, 0, struct chunk)};
    source->obj = true;
    mesh_fill(source);
    mesh_begin_text(source);
    do {
        if (!read_statement(source, &corners))
            return false;
    } while (mesh_next_line(source));
    return !source->failed;
}
