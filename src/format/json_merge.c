/* Merge patches on texts. */
#include "format/json_tree.h"

#include "base/arena.h"
#include "base/buf.h"
#include "base/err.h"

#include <string.h>

/* A text and its values. */
struct source {
    const char *text;
    const struct json_value *root;
};

/* What is put together; `patch` stands in for what the target lacks. */
struct merging {
    struct source target, patch;
    struct buf *out;
};

static size_t end_of_string(const char *text, size_t at)
{
    for (at++; text[at] != '"'; at++)
        at += text[at] == '\\';
    return at + 1;
}

/* Behind a value: the text is known to be well-formed. */
static size_t end_of(const char *text, size_t at)
{
    int depth = 0;
    if (text[at] == '"')
        return end_of_string(text, at);
    if (text[at] != '{' && text[at] != '[')
        return at + strcspn(text + at, " \t\r\n,]}");
    do {
        depth += text[at] == '{' || text[at] == '[';
        depth -= text[at] == '}' || text[at] == ']';
        at = text[at] == '"' ? end_of_string(text, at) : at + 1;
    } while (depth > 0);
    return at;
}

static void add(struct buf *out, const char *text, size_t from, size_t to)
{
    buf_add_n(out, text + from, to - from);
}

static const struct json_value *member_of(const struct json_value *object, const char *name)
{
    const struct json_value *member = json_child(object);
    while (member && strcmp(member->name, name) != 0)
        member = member->next;
    return member;
}

static void merge_object(const struct merging *m, const struct json_value *object,
                         const struct json_value *patch);

/* A value of the patch by itself: what an object of it says is null is left out. */
static void put_patch(const struct merging *m, const struct json_value *patch)
{
    static const char empty[] = "{}";
    static const struct json_value nothing = {.kind = JSON_OBJECT};
    if (patch->kind != JSON_OBJECT) {
        add(m->out, m->patch.text, patch->at, end_of(m->patch.text, patch->at));
        return;
    }
    struct merging own = *m;
    own.target = (struct source){empty, &nothing};
    merge_object(&own, &nothing, patch);
}

static void put_value(const struct merging *m, const struct json_value *value, const struct json_value *patch)
{
    if (patch && patch->kind == JSON_OBJECT && value->kind == JSON_OBJECT)
        merge_object(m, value, patch);
    else if (patch)
        put_patch(m, patch);
    else
        add(m->out, m->target.text, value->at, end_of(m->target.text, value->at));
}

/* A new member behind others begins its line as the last of them does. */
static void put_lead(const struct merging *m, const struct json_value *last)
{
    const char *text = m->target.text;
    size_t from = last ? last->name_at : 0;
    while (last && strchr(" \t\r\n", text[from - 1]))
        from--;
    buf_add_char(m->out, ',');
    if (last && from < last->name_at)
        add(m->out, text, from, last->name_at);
    else
        buf_add_char(m->out, ' ');
}

static void add_new(const struct merging *m, const struct json_value *object, const struct json_value *patch,
                    size_t kept)
{
    const struct json_value *last = json_child(object);
    while (last && last->next)
        last = last->next;
    for (const struct json_value *change = json_child(patch); change; change = change->next) {
        if (change->kind == JSON_NULL || member_of(object, change->name))
            continue;
        if (kept++ > 0)
            put_lead(m, last);
        add(m->out, m->patch.text, change->name_at, change->at);
        put_patch(m, change);
    }
}

static void merge_object(const struct merging *m, const struct json_value *object,
                         const struct json_value *patch)
{
    const char *text = m->target.text;
    size_t done = object->at + 1, kept = 0;
    buf_add_char(m->out, '{');
    for (const struct json_value *member = json_child(object); member; member = member->next) {
        const struct json_value *change = member_of(patch, member->name);
        size_t end = end_of(text, member->at);
        if (!(change && change->kind == JSON_NULL)) {
            size_t from = done;
            if (kept == 0 && text[from] == ',')
                from++;
            add(m->out, text, from, member->at);
            put_value(m, member, change);
            kept++;
        }
        done = end;
        while (member->next && text[done] != ',')
            done++;
    }
    add_new(m, object, patch, kept);
    add(m->out, text, done, end_of(text, object->at));
}

bool json_merge(struct arena *arena, const struct file_text *file, const char *patch, struct buf *out)
{
    struct err_list *errors = ARENA_NEW(arena, struct err_list);
    struct file_text with = {.name = "", .text = patch, .length = strlen(patch)};
    struct merging m = {.out = out};
    m.target = (struct source){file->text, json_scan(arena, file, errors)};
    m.patch = (struct source){patch, json_scan(arena, &with, errors)};
    if (!m.target.root || !m.patch.root)
        return false;
    add(out, file->text, 0, m.target.root->at);
    put_value(&m, m.target.root, m.patch.root);
    size_t end = end_of(file->text, m.target.root->at);
    add(out, file->text, end, file->length);
    return true;
}
