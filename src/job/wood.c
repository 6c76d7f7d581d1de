/* Woods by their English trade names. Grain classes (the size of the pores) and traits: common practice, from memory;
 * oily, blotchy and tannin-rich species as the trade lists them. Densities: USDA Wood Handbook (FPL-GTR-190), table 5-3, and
 * common practice, from memory. */
#include "job/part.h"

#include "base/text.h"

#include <stdio.h>
#include <string.h>

/* X(name, grain, traits, kg/m3): solid woods, from which the veneer and the rough-sawn board are derived. */
#define WOODS(X)                                                                                             \
    X("alder", GRAIN_CLOSED, WOOD_BLOTCHY, 450)                                                              \
    X("apple", GRAIN_CLOSED, 0, 830)                                                                         \
    X("ash", GRAIN_OPEN, WOOD_LIGHT, 680)                                                                    \
    X("aspen", GRAIN_CLOSED, WOOD_BLOTCHY, 420)                                                              \
    X("balsa", GRAIN_OPEN, 0, 150)                                                                           \
    X("bamboo", GRAIN_CLOSED, 0, 700)                                                                        \
    X("basswood", GRAIN_CLOSED, WOOD_BLOTCHY, 420)                                                           \
    X("beech", GRAIN_CLOSED, WOOD_BLOTCHY, 710)                                                              \
    X("birch", GRAIN_CLOSED, WOOD_BLOTCHY, 680)                                                              \
    X("boxwood", GRAIN_CLOSED, 0, 970)                                                                       \
    X("bubinga", GRAIN_HALF_OPEN, WOOD_LIGHT, 890)                                                           \
    X("butternut", GRAIN_HALF_OPEN, 0, 430)                                                                  \
    X("cedar", GRAIN_SOFTWOOD, WOOD_TANNIN | WOOD_RESINOUS, 380)                                             \
    X("cherry", GRAIN_CLOSED, WOOD_BLOTCHY | WOOD_LIGHT, 560)                                                \
    X("chestnut", GRAIN_OPEN, WOOD_TANNIN, 550)                                                              \
    X("cocobolo", GRAIN_HALF_OPEN, WOOD_OILY | WOOD_LIGHT, 1100)                                             \
    X("cypress", GRAIN_SOFTWOOD, WOOD_RESINOUS, 510)                                                         \
    X("douglas fir", GRAIN_SOFTWOOD, WOOD_RESINOUS | WOOD_BLOTCHY | WOOD_LIGHT, 510)                         \
    X("ebony", GRAIN_CLOSED, WOOD_OILY, 1050)                                                                \
    X("elm", GRAIN_OPEN, 0, 600)                                                                             \
    X("fir", GRAIN_SOFTWOOD, WOOD_BLOTCHY, 420)                                                              \
    X("hard maple", GRAIN_CLOSED, WOOD_BLOTCHY | WOOD_LIGHT, 700)                                            \
    X("hickory", GRAIN_OPEN, 0, 810)                                                                         \
    X("holly", GRAIN_CLOSED, WOOD_LIGHT, 640)                                                                \
    X("hornbeam", GRAIN_CLOSED, 0, 740)                                                                      \
    X("iroko", GRAIN_OPEN, WOOD_OILY | WOOD_LIGHT, 660)                                                      \
    X("larch", GRAIN_SOFTWOOD, WOOD_RESINOUS | WOOD_TANNIN, 580)                                             \
    X("lime", GRAIN_CLOSED, WOOD_BLOTCHY, 540)                                                               \
    X("mahogany", GRAIN_HALF_OPEN, WOOD_LIGHT, 590)                                                          \
    X("maple", GRAIN_CLOSED, WOOD_BLOTCHY | WOOD_LIGHT, 650)                                                 \
    X("meranti", GRAIN_OPEN, 0, 550)                                                                         \
    X("oak", GRAIN_OPEN, WOOD_TANNIN, 720)                                                                   \
    X("okoume", GRAIN_HALF_OPEN, 0, 430)                                                                     \
    X("olive", GRAIN_CLOSED, WOOD_OILY, 990)                                                                 \
    X("padauk", GRAIN_OPEN, WOOD_OILY | WOOD_LIGHT, 750)                                                     \
    X("pear", GRAIN_CLOSED, 0, 690)                                                                          \
    X("pine", GRAIN_SOFTWOOD, WOOD_BLOTCHY | WOOD_RESINOUS | WOOD_LIGHT, 500)                                \
    X("poplar", GRAIN_CLOSED, WOOD_BLOTCHY | WOOD_LIGHT, 450)                                                \
    X("purpleheart", GRAIN_HALF_OPEN, WOOD_LIGHT, 900)                                                       \
    X("red oak", GRAIN_OPEN, WOOD_TANNIN, 700)                                                               \
    X("redwood", GRAIN_SOFTWOOD, WOOD_TANNIN, 420)                                                           \
    X("robinia", GRAIN_OPEN, WOOD_TANNIN | WOOD_LIGHT, 770)                                                  \
    X("rosewood", GRAIN_HALF_OPEN, WOOD_OILY, 850)                                                           \
    X("rubberwood", GRAIN_HALF_OPEN, 0, 600)                                                                 \
    X("sapele", GRAIN_HALF_OPEN, WOOD_LIGHT, 670)                                                            \
    X("soft maple", GRAIN_CLOSED, WOOD_BLOTCHY | WOOD_LIGHT, 600)                                            \
    X("spruce", GRAIN_SOFTWOOD, WOOD_RESINOUS | WOOD_BLOTCHY, 450)                                           \
    X("sycamore", GRAIN_CLOSED, WOOD_LIGHT, 610)                                                             \
    X("teak", GRAIN_HALF_OPEN, WOOD_OILY | WOOD_LIGHT, 650)                                                  \
    X("walnut", GRAIN_HALF_OPEN, WOOD_TANNIN | WOOD_LIGHT, 640)                                              \
    X("wenge", GRAIN_OPEN, WOOD_OILY, 870)                                                                   \
    X("white oak", GRAIN_OPEN, WOOD_TANNIN, 760)                                                             \
    X("willow", GRAIN_CLOSED, 0, 430)                                                                        \
    X("yew", GRAIN_SOFTWOOD, WOOD_LIGHT, 670)                                                                \
    X("zebrano", GRAIN_OPEN, 0, 800)

#define SOLID(name, grain, traits, density) {name, grain, traits, density},
#define VENEER(name, grain, traits, density)                                                                 \
    {name " veneer", grain, (traits) | WOOD_VENEER, WOOD_USUAL_KG_PER_M3},
#define ROUGH(name, grain, traits, density) {"rough " name, grain, (traits) | WOOD_ROUGH, density},

static const struct wood table[] = {WOODS(SOLID){"plywood", GRAIN_PLYWOOD, 0, 600},
                                    {"birch plywood", GRAIN_PLYWOOD, WOOD_BLOTCHY, 680},
                                    {"maple plywood", GRAIN_PLYWOOD, WOOD_BLOTCHY | WOOD_LIGHT, 640},
                                    {"oak plywood", GRAIN_PLYWOOD, WOOD_TANNIN, 640},
                                    {"pine plywood", GRAIN_PLYWOOD, WOOD_BLOTCHY | WOOD_RESINOUS, 560},
                                    {"walnut plywood", GRAIN_PLYWOOD, WOOD_TANNIN | WOOD_LIGHT, 600},
                                    {"blockboard", GRAIN_PLYWOOD, 0, 520},
                                    {"mdf", GRAIN_MDF, 0, 750},
                                    {"hardboard", GRAIN_MDF, 0, 900},
                                    {"chipboard", GRAIN_MDF, 0, 650},
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

/* What a word means; the word itself where nothing is known of it. */
static const char *meaning(const char *word)
{
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (text_listed(others[i].words, word))
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
