#include "format/mesh.h"

#include "base/arena.h"
#include "base/err.h"
#include "format/mesh_source.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef bool mesh_reader(struct mesh_source *source);

static bool unreadable(struct mesh_source *source, const char *found)
{
    err_add(source->errors, ERR_FILE, source->path, NULL, "a readable file", found);
    return false;
}

static mesh_reader *reader_of(const char *path)
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

/* The window and the corners live in an arena of their own, given back at once: a large mesh takes nothing from the
 * job that names it. */
static bool read_guarded(struct mesh_source *source, mesh_reader *reader)
{
    jmp_buf escape;
    if (setjmp(escape)) {
        err_add(source->errors, ERR_MEMORY, source->path, NULL, NULL, "the mesh does not fit into memory");
        return false;
    }
    arena_guard(source->arena, &escape);
    source->window = arena_alloc(source->arena, MESH_WINDOW, 1);
    return reader(source);
}

bool mesh_read_open(int file, const char *path, struct mesh_sink sink, struct err_list *errors)
{
    struct mesh_source source = {.file = file, .path = path, .errors = errors, .sink = sink};
    mesh_reader *reader = reader_of(path);
    source.arena = arena_make(0);
    bool good = false;
    if (!source.arena)
        err_add(errors, ERR_MEMORY, path, NULL, NULL, "the mesh does not fit into memory");
    else if (!reader)
        err_add(errors, ERR_INPUT, path, NULL, "a mesh whose name ends in .stl or .obj", NULL);
    else
        good = about_source(&source) && read_guarded(&source, reader);
    arena_free(source.arena);
    return good;
}

bool mesh_read(const char *path, struct mesh_sink sink, struct err_list *errors)
{
    int file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (file < 0) {
        err_add(errors, ERR_FILE, path, NULL, "a readable file",
                errno == EACCES ? "no permission to read it" : "no such file");
        return false;
    }
    bool good = mesh_read_open(file, path, sink, errors);
    close(file);
    return good;
}
