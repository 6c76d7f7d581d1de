/* Woods by their English trade names. Grain classes (the size of the pores) and traits: common practice, from memory;
 * oily, blotchy and tannin-rich species as the trade lists them. */
#include "job/part.h"

#include "base/text.h"

#include <string.h>

/* X(name, grain, traits): solid woods, from which the veneer and the rough-sawn board are derived. */
#define WOODS(X)                                                                                             \
    X("alder", GRAIN_CLOSED, WOOD_BLOTCHY)                                                                   \
    X("apple", GRAIN_CLOSED, 0)                                                                              \
    X("ash", GRAIN_OPEN, WOOD_LIGHT)                                                                         \
    X("aspen", GRAIN_CLOSED, WOOD_BLOTCHY)                                                                   \
    X("balsa", GRAIN_OPEN, 0)                                                                                \
    X("bamboo", GRAIN_CLOSED, 0)                                                                             \
    X("basswood", GRAIN_CLOSED, WOOD_BLOTCHY)                                                                \
    X("beech", GRAIN_CLOSED, WOOD_BLOTCHY)                                                                   \
    X("birch", GRAIN_CLOSED, WOOD_BLOTCHY)                                                                   \
    X("boxwood", GRAIN_CLOSED, 0)                                                                            \
    X("bubinga", GRAIN_HALF_OPEN, WOOD_LIGHT)                                                                \
    X("butternut", GRAIN_HALF_OPEN, 0)                                                                       \
    X("cedar", GRAIN_SOFTWOOD, WOOD_TANNIN | WOOD_RESINOUS)                                                  \
    X("cherry", GRAIN_CLOSED, WOOD_BLOTCHY | WOOD_LIGHT)                                                     \
    X("chestnut", GRAIN_OPEN, WOOD_TANNIN)                                                                   \
    X("cocobolo", GRAIN_HALF_OPEN, WOOD_OILY | WOOD_LIGHT)                                                   \
    X("cypress", GRAIN_SOFTWOOD, WOOD_RESINOUS)                                                              \
    X("douglas fir", GRAIN_SOFTWOOD, WOOD_RESINOUS | WOOD_BLOTCHY | WOOD_LIGHT)                              \
    X("ebony", GRAIN_CLOSED, WOOD_OILY)                                                                      \
    X("elm", GRAIN_OPEN, 0)                                                                                  \
    X("fir", GRAIN_SOFTWOOD, WOOD_BLOTCHY)                                                                   \
    X("hard maple", GRAIN_CLOSED, WOOD_BLOTCHY | WOOD_LIGHT)                                                 \
    X("hickory", GRAIN_OPEN, 0)                                                                              \
    X("holly", GRAIN_CLOSED, WOOD_LIGHT)                                                                     \
    X("hornbeam", GRAIN_CLOSED, 0)                                                                           \
    X("iroko", GRAIN_OPEN, WOOD_OILY | WOOD_LIGHT)                                                           \
    X("larch", GRAIN_SOFTWOOD, WOOD_RESINOUS | WOOD_TANNIN)                                                  \
    X("lime", GRAIN_CLOSED, WOOD_BLOTCHY)                                                                    \
    X("mahogany", GRAIN_HALF_OPEN, WOOD_LIGHT)                                                               \
    X("maple", GRAIN_CLOSED, WOOD_BLOTCHY | WOOD_LIGHT)                                                      \
    X("meranti", GRAIN_OPEN, 0)                                                                              \
    X("oak", GRAIN_OPEN, WOOD_TANNIN)                                                                        \
    X("okoume", GRAIN_HALF_OPEN, 0)                                                                          \
    X("olive", GRAIN_CLOSED, WOOD_OILY)                                                                      \
    X("padauk", GRAIN_OPEN, WOOD_OILY | WOOD_LIGHT)                                                          \
    X("pear", GRAIN_CLOSED, 0)                                                                               \
    X("pine", GRAIN_SOFTWOOD, WOOD_BLOTCHY | WOOD_RESINOUS | WOOD_LIGHT)                                     \
    X("poplar", GRAIN_CLOSED, WOOD_BLOTCHY | WOOD_LIGHT)                                                     \
    X("purpleheart", GRAIN_HALF_OPEN, WOOD_LIGHT)                                                            \
    X("red oak", GRAIN_OPEN, WOOD_TANNIN)                                                                    \
    X("redwood", GRAIN_SOFTWOOD, WOOD_TANNIN)                                                                \
    X("robinia", GRAIN_OPEN, WOOD_TANNIN | WOOD_LIGHT)                                                       \
    X("rosewood", GRAIN_HALF_OPEN, WOOD_OILY)                                                                \
    X("rubberwood", GRAIN_HALF_OPEN, 0)                                                                      \
    X("sapele", GRAIN_HALF_OPEN, WOOD_LIGHT)                                                                 \
    X("soft maple", GRAIN_CLOSED, WOOD_BLOTCHY | WOOD_LIGHT)                                                 \
    X("spruce", GRAIN_SOFTWOOD, WOOD_RESINOUS | WOOD_BLOTCHY)                                                \
    X("sycamore", GRAIN_CLOSED, WOOD_LIGHT)                                                                  \
    X("teak", GRAIN_HALF_OPEN, WOOD_OILY | WOOD_LIGHT)                                                       \
    X("walnut", GRAIN_HALF_OPEN, WOOD_TANNIN | WOOD_LIGHT)                                                   \
    X("wenge", GRAIN_OPEN, WOOD_OILY)                                                                        \
    X("white oak", GRAIN_OPEN, WOOD_TANNIN)                                                                  \
    X("willow", GRAIN_CLOSED, 0)                                                                             \
    X("yew", GRAIN_SOFTWOOD, WOOD_LIGHT)                                                                     \
    X("zebrano", GRAIN_OPEN, 0)

#define SOLID(name, grain, traits) {name, grain, traits},
#define VENEER(name, grain, traits) {name " veneer", grain, (traits) | WOOD_VENEER},
#define ROUGH(name, grain, traits) {"rough " name, grain, (traits) | WOOD_ROUGH},

static const struct wood table[] = {WOODS(SOLID){"plywood", GRAIN_PLYWOOD, 0},
                                    {"birch plywood", GRAIN_PLYWOOD, WOOD_BLOTCHY},
                                    {"maple plywood", GRAIN_PLYWOOD, WOOD_BLOTCHY | WOOD_LIGHT},
                                    {"oak plywood", GRAIN_PLYWOOD, WOOD_TANNIN},
                                    {"pine plywood", GRAIN_PLYWOOD, WOOD_BLOTCHY | WOOD_RESINOUS},
                                    {"walnut plywood", GRAIN_PLYWOOD, WOOD_TANNIN | WOOD_LIGHT},
                                    {"blockboard", GRAIN_PLYWOOD, 0},
                                    {"mdf", GRAIN_MDF, 0},
                                    {"hardboard", GRAIN_MDF, 0},
                                    {"chipboard", GRAIN_MDF, 0},
                                    WOODS(VENEER) WOODS(ROUGH)};

const struct wood *wood_find(const char *name)
{
    size_t length;
    const char *word = text_trim(name, &length);
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++)
        if (text_same_n(word, length, table[i].name))
            return &table[i];
    return NULL;
}

const struct wood *wood_table(size_t *count)
{
    *count = sizeof table / sizeof table[0];
    return table;
}

/* Grains in their order, then traits in the order of their bits. */
static const char *const words_known[] = {
    "closed", "half-open", "open",     "softwood", "plywood", "mdf",   "oily",
    "tannin", "blotchy",   "resinous", "light",    "veneer",  "rough",
};

enum { WORDS_KNOWN = sizeof words_known / sizeof words_known[0] };

const char *const *wood_word_table(size_t *count)
{
    *count = WORDS_KNOWN;
    return words_known;
}

size_t wood_words(const struct wood *wood, const char *words[WOOD_WORDS_MOST])
{
    size_t count = 0;
    words[count++] = words_known[wood ? wood->grain : GRAIN_CLOSED];
    for (int i = GRAIN_COUNT; wood && i < WORDS_KNOWN; i++)
        if (wood->traits & 1u << (i - GRAIN_COUNT))
            words[count++] = words_known[i];
    return count;
}
