/* Woods by their English trade names. Grain classes (the size of the pores) and traits: common practice, from memory;
 * oily, blotchy and tannin-rich species as the trade lists them. */
#include "job/part.h"

#include "base/text.h"

#include <stdio.h>
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

/* What a word says in the name of a wood, in small letters: a name of ours, or nothing of importance (NULL). English,
 * German and French words of the trade, from memory. */
static const struct {
    const char *words, *means;
} others[] = {
    {"rift|riftsawn|quarter|quartersawn|sawn|quartered|plain|plainsawn|flat|flatsawn|cut|solid|kd|american|"
     "european|english|"
     "french|steamed|prime|select|fas|clear|grade|a|b|c|bb|fsc|mr|moisture|resistant|hydrofuge|massiv|massif|"
     "massive|holz|"
     "bois|board|panel|platte|panneau|furniture|cabinet|cross|core|on|auf|sur|de|of|roh|brut|mm|void|free|"
     "marine|exterior",
     NULL},
    {"ply|baltic|multiplex|sperrholz|contreplaqu\xC3\xA9|contreplaque|cp|plywood", "plywood"},
    {"veneered|veneer|furniert|furnier|plaqu\xC3\xA9|plaque", "veneer"},
    {"rough|s\xC3\xA4gerau", "rough"},
    {"fibreboard|fiberboard|m\xC3\xA9"
     "dium",
     "mdf"},
    {"particleboard|particle|spanplatte|span|agglom\xC3\xA9r\xC3\xA9|agglo", "chipboard"},
    {"hdf|hartfaser", "hardboard"},
    {"eiche|ch\xC3\xAAne|chene", "oak"},
    {"wei\xC3\x9F"
     "eiche|weisseiche",
     "white oak"},
    {"roteiche", "red oak"},
    {"buche|rotbuche|h\xC3\xAAtre|hetre", "beech"},
    {"esche|fr\xC3\xAAne|frene", "ash"},
    {"ahorn|\xC3\xA9rable|erable|bergahorn", "maple"},
    {"kirsche|kirschbaum|merisier|cerisier", "cherry"},
    {"nussbaum|nu\xC3\x9F"
     "baum|noyer|nuss",
     "walnut"},
    {"birke|bouleau", "birch"},
    {"fichte|\xC3\xA9pic\xC3\xA9"
     "a|\xC3\xA9picea|epicea",
     "spruce"},
    {"kiefer|pin|f\xC3\xB6hre", "pine"},
    {"tanne|sapin", "fir"},
    {"douglasie|douglas", "douglas fir"},
    {"l\xC3\xA4rche|m\xC3\xA9l\xC3\xA8ze|meleze", "larch"},
    {"erle|aulne", "alder"},
    {"linde|tilleul", "lime"},
    {"pappel|peuplier|tulipwood", "poplar"},
    {"ulme|r\xC3\xBCster|orme", "elm"},
    {"mahagoni|acajou", "mahogany"},
    {"birnbaum|poirier", "pear"},
    {"kastanie|ch\xC3\xA2taignier", "chestnut"},
    {"robinie|akazie|robinier", "robinia"},
    {"teck", "teak"},
};

const char *wood_other_names(const char *name)
{
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (others[i].means && strcmp(others[i].means, name) == 0)
            return others[i].words;
    return NULL;
}

enum { NAME_SIZE = 96, TOKENS_MOST = 8 };

/* The words of a name that say something, as ours. */
struct named_wood {
    const char *tokens[TOKENS_MOST];
    size_t count;
    bool plywood, veneer, rough;
    const char *board; /* mdf and its like; NULL: none */
    char text[NAME_SIZE];
};

static bool listed(const char *words, const char *word)
{
    size_t length = strlen(word);
    for (const char *at = words; *at;) {
        size_t end = strcspn(at, "|");
        if (end == length && strncmp(at, word, length) == 0)
            return true;
        at += end + (at[end] == '|');
    }
    return false;
}

/* What a word means; the word itself where nothing is known of it. */
static const char *meaning(const char *word)
{
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (listed(others[i].words, word))
            return others[i].means;
    return word;
}

/* "douglas fir" ends with "fir". */
static bool ends_with(const char *text, const char *end)
{
    size_t length = strlen(text), tail = strlen(end);
    return length >= tail && strcmp(text + length - tail, end) == 0;
}

static void take_word(struct named_wood *named, const char *word)
{
    const char *means = meaning(word);
    if (!means || strspn(means, "0123456789") == strlen(means))
        return;
    if (strcmp(means, "plywood") == 0)
        named->plywood = true;
    else if (strcmp(means, "veneer") == 0)
        named->veneer = true;
    else if (strcmp(means, "rough") == 0)
        named->rough = true;
    else if (strcmp(means, "mdf") == 0 || strcmp(means, "chipboard") == 0 || strcmp(means, "hardboard") == 0)
        named->board = means;
    else if (named->count < TOKENS_MOST &&
             !(named->count && ends_with(named->tokens[named->count - 1], means)))
        named->tokens[named->count++] = means;
}

static bool cut_name(struct named_wood *named, const char *name)
{
    *named = (struct named_wood){.count = 0};
    if (strlen(name) >= sizeof named->text)
        return false;
    for (size_t i = 0; name[i]; i++)
        named->text[i] = strchr(" ,-/()\t.", name[i]) ? '\0' : text_lower(name[i]);
    for (size_t i = 0; i < strlen(name); i++) {
        unsigned char *c = (unsigned char *)&named->text[i];
        if (*c == 0xC3 && c[1] >= 0x80 && c[1] <= 0x9E)
            c[1] = (unsigned char)(c[1] + 0x20);
    }
    for (size_t i = 0; i < strlen(name); i += strlen(named->text + i) + 1)
        if (named->text[i])
            take_word(named, named->text + i);
    return true;
}

const struct wood *wood_understand(const char *name)
{
    struct named_wood named;
    char species[NAME_SIZE * 2] = "", whole[NAME_SIZE * 3];
    if (!cut_name(&named, name))
        return NULL;
    for (size_t i = 0; i < named.count; i++) {
        strncat(species, i ? " " : "", sizeof species - strlen(species) - 1);
        strncat(species, named.tokens[i], sizeof species - strlen(species) - 1);
    }
    const struct wood *wood = wood_find(species);
    if (!wood && named.count > 0)
        return NULL;
    if (named.plywood) {
        snprintf(whole, sizeof whole, "%s plywood", species);
        return wood_find(whole) ? wood_find(whole) : wood_find("plywood");
    }
    if (wood && (named.veneer || named.rough || named.board)) {
        snprintf(whole, sizeof whole, named.rough ? "rough %s" : "%s veneer", species);
        return wood_find(whole);
    }
    return named.board ? wood_find(named.board) : wood;
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
