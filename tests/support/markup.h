/* A small strict reader of XML for tests of drawings: tags that nest, attributes once each and quoted, the five entities,
 * characters that XML 1.0 allows. It knows no DTD, comment or processing instruction: our drawings have none. */
#ifndef TESTS_MARKUP_H
#define TESTS_MARKUP_H

#include <stdbool.h>
#include <stddef.h>

enum { MARKUP_ATTRIBUTES = 16, MARKUP_DEPTH = 32 };

struct markup_attribute {
    char name[32];
    char value[512]; /* cut where longer */
};

struct markup_element {
    char name[32];
    struct markup_attribute attributes[MARKUP_ATTRIBUTES];
    size_t attribute_count;
};

/* Calls `each` for every element with its start tag. NULL: well-formed; else where it is not. */
const char *markup_read(const char *text, void (*each)(void *context, const struct markup_element *element),
                        void *context);

/* NULL: no such attribute. */
const char *markup_value(const struct markup_element *element, const char *name);
/* A number that is all of the attribute; fails the test otherwise. */
double markup_number(const struct markup_element *element, const char *name);

#endif
