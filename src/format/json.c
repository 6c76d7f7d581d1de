#include "format/json.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/err.h"
#include "format/json_scan.h"
#include "format/json_text.h"
#include "format/locate.h"

#include <cjson/cJSON.h>
#include <setjmp.h>
#include <string.h>

static void release(void *tree)
{
    cJSON_Delete(tree);
}

/* The scanner has accepted the text, so only memory can fail here. */
static struct cJSON *grow_tree(const struct file_text *file)
{
    size_t begin = file->length >= 3 && memcmp(file->text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
    return cJSON_ParseWithLengthOpts(file->text + begin, file->length - begin, NULL, 0);
}

bool json_parse(const struct reading *reading, const struct file_text *file, struct json_at *root)
{
    if (!json_scan(reading->arena, file, reading->errors))
        return false;
    struct json_doc *doc = ARENA_NEW(reading->arena, struct json_doc);
    doc->reading = reading;
    doc->file = *file;
    doc->root = grow_tree(file);
    if (!doc->root) {
        err_add(reading->errors, ERR_MEMORY, file->name, "", "enough memory", "too little");
        return false;
    }
    arena_own(reading->arena, doc->root, release);
    texts_add(reading->texts, file, TEXT_JSON);
    *root = (struct json_at){doc, doc->root, NULL, NULL};
    return true;
}

bool json_is_object(struct json_at at)
{
    return cJSON_IsObject(at.node);
}

bool json_is_list(struct json_at at)
{
    return cJSON_IsArray(at.node);
}

bool json_is_text(struct json_at at)
{
    return cJSON_IsString(at.node);
}

bool json_is_true(struct json_at at)
{
    return cJSON_IsTrue(at.node);
}

struct json_at json_member(struct json_at object, const char *key)
{
    const struct cJSON *node =
        cJSON_IsObject(object.node) ? cJSON_GetObjectItemCaseSensitive(object.node, key) : NULL;
    return (struct json_at){object.doc, node, object.node, key};
}

bool json_load(const struct reading *reading, const char *path, struct json_at *root)
{
    struct file_text text;
    struct err fault;
    if (file_load(reading->arena, path, &text, &fault))
        return json_parse(reading, &text, root);
    err_add(reading->errors, ERR_FILE, path, "", fault.expected, fault.found);
    return false;
}

bool json_has(struct json_at object, const char *key)
{
    return json_member(object, key).node != NULL;
}

struct json_at json_first(struct json_at container)
{
    const struct cJSON *child = container.node ? container.node->child : NULL;
    return (struct json_at){container.doc, child, container.node, NULL};
}

struct json_at json_next(struct json_at item)
{
    item.node = item.node->next;
    return item;
}

const char *json_name(struct json_at member)
{
    return member.node->string;
}

size_t json_size(struct json_at container)
{
    size_t size = 0;
    for (struct json_at item = json_first(container); item.node; item = json_next(item))
        size++;
    return size;
}

/* The tree keeps no parents: the way to a node is found by looking for it, on mistakes only. Its depth is bounded by
 * the scanner's. */
static bool find_way(const struct cJSON *from, const struct cJSON *wanted, struct buf *way)
{
    size_t index = 0;
    if (from == wanted)
        return true;
    for (const struct cJSON *child = from->child; child; child = child->next, index++) {
        size_t length = way->length;
        if (cJSON_IsObject(from))
            json_pointer_add(way, child->string);
        else
            json_pointer_add_index(way, index);
        if (find_way(child, wanted, way))
            return true;
        way->length = length;
        way->text[length] = '\0';
    }
    return false;
}

const char *json_pointer(struct json_at at)
{
    struct buf way;
    buf_init(&way, at.doc->reading->arena);
    const struct cJSON *there = at.node ? at.node : at.parent;
    find_way(at.doc->root, there ? there : at.doc->root, &way);
    if (!at.node && at.key)
        json_pointer_add(&way, at.key);
    return way.text;
}
