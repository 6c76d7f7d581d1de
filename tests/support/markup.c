#include "markup.h"

#include "check.h"

#include "base/text.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct reading {
    const char *at;
    char open[MARKUP_DEPTH][32];
    size_t depth;
    bool seen_root;
};

static bool take(struct reading *r, const char *word)
{
    size_t length = strlen(word);
    bool there = strncmp(r->at, word, length) == 0;
    r->at += there ? length : 0;
    return there;
}

static bool take_name(struct reading *r, char name[32])
{
    size_t length = 0;
    while ((isalnum((unsigned char)r->at[length]) || r->at[length] == '-') && length < 31)
        length++;
    memcpy(name, r->at, length);
    name[length] = '\0';
    r->at += length;
    return length > 0 && isalpha((unsigned char)name[0]);
}

static void take_blanks(struct reading *r)
{
    while (*r->at == ' ' || *r->at == '\n')
        r->at++;
}

/* One character of text or of a value. */
static bool take_char(struct reading *r)
{
    static const char *const entities[] = {"&amp;", "&lt;", "&gt;", "&quot;", "&apos;"};
    if (*r->at == '&') {
        for (size_t i = 0; i < 5; i++)
            if (take(r, entities[i]))
                return true;
        return false;
    }
    uint32_t c = text_next(&r->at);
    return c != '<' && (c >= 0x20 || c == '\n' || c == '\t' || c == '\r') && c != 0xFFFE && c != 0xFFFF;
}

static bool take_attribute(struct reading *r, struct markup_element *element)
{
    struct markup_attribute *attribute = &element->attributes[element->attribute_count];
    if (element->attribute_count == MARKUP_ATTRIBUTES || !take_name(r, attribute->name) || !take(r, "=\""))
        return false;
    if (markup_value(element, attribute->name))
        return false;
    const char *from = r->at;
    while (*r->at && *r->at != '"')
        if (!take_char(r))
            return false;
    snprintf(attribute->value, sizeof attribute->value, "%.*s", (int)(r->at - from), from);
    element->attribute_count++;
    return take(r, "\"");
}

static bool take_start(struct reading *r, struct markup_element *element, bool *empty)
{
    element->attribute_count = 0;
    if (!take(r, "<") || !take_name(r, element->name))
        return false;
    for (;;) {
        const char *before = r->at;
        take_blanks(r);
        *empty = take(r, "/>");
        if (*empty || take(r, ">"))
            return true;
        if (r->at == before || !take_attribute(r, element))
            return false;
    }
}

static bool take_end(struct reading *r)
{
    char name[32];
    return take_name(r, name) && take(r, ">") && r->depth > 0 && strcmp(r->open[--r->depth], name) == 0;
}

static bool take_next(struct reading *r, struct markup_element *element, bool *started)
{
    bool empty;
    *started = false;
    if (take(r, "</"))
        return take_end(r);
    if (*r->at != '<')
        return r->depth > 0 && take_char(r);
    if ((r->depth == 0 && r->seen_root) || r->depth == MARKUP_DEPTH || !take_start(r, element, &empty))
        return false;
    r->seen_root = *started = true;
    if (!empty)
        memcpy(r->open[r->depth++], element->name, sizeof element->name);
    return true;
}

const char *markup_read(const char *text, void (*each)(void *context, const struct markup_element *element),
                        void *context)
{
    struct reading r = {.at = text};
    struct markup_element element;
    while (*r.at) {
        const char *before = r.at;
        bool started;
        if (!take_next(&r, &element, &started))
            return before;
        if (started && each)
            each(context, &element);
        if (r.depth == 0)
            take_blanks(&r);
    }
    return r.seen_root && r.depth == 0 ? NULL : r.at;
}

const char *markup_value(const struct markup_element *element, const char *name)
{
    for (size_t i = 0; i < element->attribute_count; i++)
        if (strcmp(element->attributes[i].name, name) == 0)
            return element->attributes[i].value;
    return NULL;
}

double markup_number(const struct markup_element *element, const char *name)
{
    const char *value = markup_value(element, name);
    char *end = NULL;
    check_true(HERE, value != NULL, name);
    double number = strtod(value, &end);
    check_true(HERE, end != value && *end == '\0', value);
    return number;
}
