/* Part lists as they come out of spreadsheets and drawing programs: what their columns are called, which of their rows are
 * no parts. English, German and French words in common use, from memory. */
#include "source/part_list.h"

#include "base/text.h"

#include <string.h>

static const struct column_words words[] = {
    {COLUMN_PART,
     "parts|part "
     "name|name|description|desc|item|component|label|bezeichnung|bauteil|teil|teile|benennung|beschreibung|"
     "d\xC3\xA9signation|designation|libell\xC3\xA9|nom|pi\xC3\xA8"
     "ce|pi\xC3\xA8"
     "ces|\xC3\xA9l\xC3\xA9ment"},
    {COLUMN_PIECE, "room|assembly|unit|cabinet|module|baugruppe|m\xC3\xB6"
                   "bel|schrank|raum|korpus|ensemble|meuble|furniture"},
    {COLUMN_QTY, "quantity|count|no. of|no of|number of|pcs|nos|anzahl|stk|st\xC3\xBC"
                 "ck|st\xC3\xBC"
                 "ckzahl|menge|"
                 "quantit\xC3\xA9|qt\xC3\xA9|qte|nombre|nb|quantities"},
    {COLUMN_WOOD, "material|species|timber|lumber|stuff|holz|holzart|werkstoff|mat\xC3\xA9riau|"
                  "mati\xC3\xA8re|essence|bois"},
    {COLUMN_NOTE, "notes|comment|comments|remark|remarks|bemerkung|bemerkungen|kommentar|anmerkung|"
                  "anmerkungen|hinweis|remarque|"
                  "remarques|commentaire|commentaires|observations"},
    {COLUMN_ALL, "finish|finishing|finishing schedule|schedule|oberfl\xC3\xA4"
                 "che|behandlung|finition|traitement"},
    {COLUMN_LENGTHS + DIM_LENGTH, "l|len|long|l\xC3\xA4nge|laenge|longueur|lg|lng"},
    {COLUMN_LENGTHS + DIM_WIDTH, "w|wide|breite|b|largeur|larg|lrg"},
    {COLUMN_LENGTHS + DIM_THICKNESS, "t|thick|thk|th|depth|d|st\xC3\xA4rke|staerke|dicke|tiefe|"
                                     "\xC3\xA9paisseur|epaisseur|\xC3\xA9p|ep|e|profondeur"},
    {COLUMN_LENGTHS + DIM_HEIGHT, "h|high|h\xC3\xB6he|hoehe|hauteur|haut"},
    {COLUMN_LENGTHS + DIM_DIAMETER, "dia|diam|\xC3\xB8|durchmesser|diam\xC3\xA8tre"},
};

static const char totals[] =
    "|total|totals|sum|subtotal|sub-total|grand total|summe|gesamt|gesamtsumme|zwischensumme|"
    "somme|total g\xC3\xA9n\xC3\xA9ral|sous-total|";

static void move(struct heading *heading, int from, int to)
{
    for (size_t i = 0; i < heading->width; i++)
        for (size_t k = 0; k < heading->cells[i].count; k++)
            if (heading->cells[i].columns[k] == (size_t)from) {
                heading->cells[i].columns[k] = (size_t)to;
                heading->cells[i].renamed = true;
            }
}

static bool has(const struct heading *heading, int column)
{
    return heading_of(heading, (size_t)column) != NULL;
}

/* In French lists L is the longueur and l the largeur. */
static void settle_small_l(struct heading *heading)
{
    for (size_t i = 0; i < heading->width; i++) {
        struct heading_cell *cell = &heading->cells[i];
        bool small = cell->count == 1 && cell->columns[0] == COLUMN_LENGTHS + DIM_LENGTH &&
                     cell->text[0] == 'l' && (cell->text[1] == '\0' || cell->text[1] == ' ');
        if (small && heading_of(heading, COLUMN_LENGTHS + DIM_LENGTH) != cell)
            cell->columns[0] = COLUMN_LENGTHS + DIM_WIDTH;
    }
}

/* A board has a length, a width and a thickness, whatever they are called: of height, width and depth, or length, width and
 * height, the one that is too many is the one that lacks. Lists with a column of shapes mean what they say. */
static void settle(const struct rows_columns *columns, struct heading *heading)
{
    static const int sizes[] = {COLUMN_LENGTHS + DIM_LENGTH, COLUMN_LENGTHS + DIM_WIDTH,
                                COLUMN_LENGTHS + DIM_THICKNESS};
    const int height = COLUMN_LENGTHS + DIM_HEIGHT;
    struct heading_cell *lumber = heading_of(heading, COLUMN_SIZE);
    settle_small_l(heading);
    if (has(heading, COLUMN_SHAPE))
        return;
    struct heading_cell *area = heading_of(heading, COLUMN_AREA), *box = heading_of(heading, (size_t)height);
    if (area)
        area->count = 0; /* reckoned by the spreadsheet */
    if (box && box->count == FACTORS_MOST)
        box->any_order = true;
    if (lumber && !has(heading, sizes[0]) && !has(heading, height)) {
        memcpy(lumber->columns, columns->sizes, sizeof lumber->columns);
        lumber->count = FACTORS_MOST;
        lumber->renamed = true;
    }
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0] && has(heading, height); i++)
        if (!has(heading, sizes[i]) && has(heading, sizes[(i + 1) % 3]) && has(heading, sizes[(i + 2) % 3]))
            move(heading, height, sizes[i]);
    if (has(heading, height) && !has(heading, sizes[0]))
        move(heading, height, sizes[0]);
}

static bool is_total(const char *name)
{
    char key[40];
    size_t length = strlen(name);
    while (length > 0 && (name[length - 1] == ':' || name[length - 1] == ' '))
        length--;
    if (length + 3 > sizeof key)
        return false;
    key[0] = '|';
    for (size_t i = 0; i < length; i++)
        key[i + 1] = text_lower(name[i]);
    memcpy(key + length + 1, "|", 2);
    return strstr(totals, key) != NULL;
}

/* Without a name a row with every size, or with a shape, a wood or a finish, is a part whose name is missing; anything less
 * sums something up. */
static const char *left_out(const char *const *cells, const struct heading *heading)
{
    bool sizes = true, anything = false;
    for (size_t i = 0; i < heading->width; i++)
        for (size_t k = 0; k < heading->cells[i].count; k++) {
            size_t column = heading->cells[i].columns[k];
            bool first = k == 0,
                 own = column != COLUMN_PART && column != COLUMN_PIECE && column != COLUMN_NOTE;
            sizes = sizes && (column < COLUMN_LENGTHS || column > COLUMN_LENGTHS + DIM_THICKNESS || !first ||
                              cells[column]);
            anything = anything || (own && first && cells[column]);
        }
    if (!cells[COLUMN_PART] && !sizes && !cells[COLUMN_SHAPE] && !cells[COLUMN_WOOD] && !cells[COLUMN_ALL])
        return anything ? "a total" : "nothing in it";
    if (cells[COLUMN_PART] && is_total(cells[COLUMN_PART]))
        return "a total";
    return cells[COLUMN_PART] && !anything && has(heading, COLUMN_LENGTHS + DIM_LENGTH) ? "nothing but a name"
                                                                                        : NULL;
}

struct rows_columns part_columns(const char *names[COLUMN_COUNT], enum length_unit bare)
{
    static const char *const own[COLUMN_REGIONS] = {
        "part",  "piece",  "qty",     "shape",   "wood",    "core", "size",
        "sides", "points", "corners", "profile", "open",    "file", "file-units",
        "area",  "region", "grooves", "all",     "covered", "work", "note",
    };
    struct rows_columns columns = {
        .names = names,
        .count = COLUMN_COUNT,
        .what = "a part list",
        .row = "a part",
        .bare_unit = length_unit_name(bare),
        .words = words,
        .word_count = sizeof words / sizeof words[0],
        .sizes = {COLUMN_LENGTHS + DIM_LENGTH, COLUMN_LENGTHS + DIM_WIDTH, COLUMN_LENGTHS + DIM_THICKNESS},
        .settle = settle,
        .left_out = left_out};
    for (int i = 0; i < COLUMN_REGIONS; i++)
        names[i] = own[i];
    for (int i = 0; i < REGION_COUNT; i++)
        names[COLUMN_REGIONS + i] = region_name((enum region)i);
    for (int i = 0; i <= DIM_SIDE; i++)
        names[COLUMN_LENGTHS + i] = dimension_name((enum dimension)i);
    names[COLUMN_CHAMFER] = dimension_name(DIM_CHAMFER);
    names[COLUMN_ROUNDOVER] = dimension_name(DIM_ROUNDOVER);
    for (int i = COLUMN_LENGTHS; i < COLUMN_COUNT; i++)
        columns.lengths |= UINT64_C(1) << i;
    columns.numbers = columns.lengths | UINT64_C(1) << COLUMN_QTY | UINT64_C(1) << COLUMN_CORNERS |
                      UINT64_C(1) << COLUMN_WORK;
    return columns;
}
