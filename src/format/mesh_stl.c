/* STL, text and binary. A text begins with "solid", but so do the headers of many binary files: what decides is
 * whether the length is the one that the count of triangles asks for, then whether the beginning is a text. */
#include "format/mesh.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

enum {
    HEADER_SIZE = 84, /* 80 bytes of anything, then the count */
    FACET_SIZE = 50,  /* a normal, three corners, two bytes of anything */
    CORNERS_AT = 12,
};

static uint32_t little_32(const unsigned char *bytes)
{
    return bytes[0] | (uint32_t)bytes[1] << 8 | (uint32_t)bytes[2] << 16 | (uint32_t)bytes[3] << 24;
}

/* The corners in the order of bytes of this machine; on most nothing is to do. */
static void to_machine(unsigned char *facets, size_t count)
{
    const uint32_t one = 1;
    unsigned char first;
    memcpy(&first, &one, 1);
    if (first == 1)
        return;
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < 9; k++) {
            unsigned char *at = facets + i * FACET_SIZE + CORNERS_AT + 4 * k;
            uint32_t value = little_32(at);
            memcpy(at, &value, sizeof value);
        }
}

static bool refuse_size(struct mesh_source *source, uint32_t count, uint64_t end)
{
    char expected[160];
    snprintf(expected, sizeof expected,
             "%" PRIu32 " triangles of 50 bytes after a header of 84, as the header says: %" PRIu64 " bytes",
             count, HEADER_SIZE + (uint64_t)FACET_SIZE * count);
    return mesh_refuse(source, expected, "the end at byte %" PRIu64, end);
}

static bool read_binary(struct mesh_source *source)
{
    uint32_t count = little_32(source->window + HEADER_SIZE - 4);
    if (source->size != HEADER_SIZE + (uint64_t)FACET_SIZE * count)
        return refuse_size(source, count, source->size);
    source->at = HEADER_SIZE;
    for (uint64_t left = count; left > 0;) {
        uint64_t here = (source->end - source->at) / FACET_SIZE;
        if (here > left)
            here = left;
        unsigned char *facets = source->window + source->at;
        to_machine(facets, (size_t)here);
        source->sink.floats(source->sink.to, facets + CORNERS_AT, FACET_SIZE, (size_t)here);
        source->at += (size_t)here * FACET_SIZE;
        left -= here;
        /* Only a file that shrinks while it is read ends here. */
        if (left > 0 && !mesh_fill(source))
            return refuse_size(source, count, source->passed + source->end);
    }
    return true;
}

/* The next word, of whatever line; at the end of the file its length is 0. */
static bool any_word(struct mesh_source *source, struct mesh_word *word)
{
    do {
        if (!mesh_word(source, word))
            return false;
    } while (word->length == 0 && mesh_next_line(source));
    return true;
}

static bool expect(struct mesh_source *source, const char *keyword)
{
    struct mesh_word word;
    if (!any_word(source, &word))
        return false;
    return mesh_word_is(word, keyword) || mesh_refuse_word(source, keyword, word);
}

static bool three_numbers(struct mesh_source *source, double *numbers)
{
    for (int i = 0; i < 3; i++) {
        struct mesh_word word;
        if (!any_word(source, &word))
            return false;
        if (!mesh_number(word, &numbers[i]))
            return mesh_refuse_word(source, "a number", word);
    }
    return true;
}

/* After the word `facet`. */
static bool read_facet(struct mesh_source *source)
{
    double normal[3], corners[9];
    if (!expect(source, "normal") || !three_numbers(source, normal) || !expect(source, "outer") ||
        !expect(source, "loop"))
        return false;
    for (int i = 0; i < 3; i++)
        if (!expect(source, "vertex") || !three_numbers(source, corners + 3 * i))
            return false;
    if (!expect(source, "endloop") || !expect(source, "endfacet"))
        return false;
    source->sink.triangle(source->sink.to, corners);
    return true;
}

/* After the word `solid`, up to its `endsolid`; names run to the end of the line. */
static bool read_solid(struct mesh_source *source)
{
    struct mesh_word word;
    mesh_next_line(source);
    while (any_word(source, &word)) {
        if (mesh_word_is(word, "endsolid")) {
            mesh_next_line(source);
            return true;
        }
        if (!mesh_word_is(word, "facet"))
            return mesh_refuse_word(source, "facet or endsolid", word);
        if (!read_facet(source))
            return false;
    }
    return false;
}

static bool read_text(struct mesh_source *source)
{
    struct mesh_word word;
    mesh_begin_text(source);
    while (any_word(source, &word)) {
        if (word.length == 0)
            return !source->failed;
        if (!mesh_word_is(word, "solid"))
            return mesh_refuse_word(source, "solid", word);
        if (!read_solid(source))
            return false;
    }
    return false;
}

static bool looks_like_text(const struct mesh_source *source)
{
    size_t seen = source->end < 512 ? source->end : 512, at = 0;
    if (seen >= 3 && memcmp(source->window, "\xEF\xBB\xBF", 3) == 0)
        at = 3;
    while (at < seen && strchr(" \t\r\n", source->window[at]) && source->window[at])
        at++;
    return seen - at >= 5 &&
           mesh_word_is((struct mesh_word){(const char *)source->window + at, 5}, "solid") &&
           !memchr(source->window, 0, seen);
}

bool mesh_read_stl(struct mesh_source *source)
{
    mesh_fill(source);
    bool headed = source->end >= HEADER_SIZE;
    uint64_t asked =
        headed ? HEADER_SIZE + (uint64_t)FACET_SIZE * little_32(source->window + HEADER_SIZE - 4) : 0;
    if (asked != source->size && looks_like_text(source))
        return read_text(source);
    if (!headed)
        return mesh_refuse(source, "an STL file: the word solid, or a header of 84 bytes",
                           "the end at byte %zu", source->end);
    return read_binary(source);
}
