/* What each finish can do, cell by cell: food, child, flammable, frost, rags, dust that heats itself, and what is to be breathed
 * through when it is brushed (or wiped, poured) and when it is sprayed. Common practice, from memory, but for the sources
 * that stand in the finish files and in caution.c. */
#include "check.h"
#include "reader.h"

#include "finish/caution.h"
#include "source/finish_table.h"

#include <string.h>

/* never, ask, made; yes or no; "-" where the finish is not laid that way. */
struct hazard_row {
    struct row row;
    const char *id, *food, *child, *flammable, *frost, *rags, *dust, *brushed, *sprayed;
};

#define H(id, ...)                                                                                           \
    {                                                                                                        \
        ROW(id), id, __VA_ARGS__                                                                             \
    }

static const struct hazard_row hazards[] = {
    H("acrylic-lacquer", "ask", "ask", "yes", "no", "no", "no", "-", "cartridge and filter"),
    H("acrylic-paint", "never", "ask", "no", "yes", "no", "no", "none", "cartridge and filter"),
    H("acrylic-primer", "never", "ask", "no", "yes", "no", "no", "none", "cartridge and filter"),
    H("alkyd-paint", "never", "ask", "yes", "no", "yes", "yes", "cartridge", "cartridge and filter"),
    H("alkyd-primer", "never", "ask", "yes", "no", "yes", "yes", "cartridge", "cartridge and filter"),
    H("board-conditioner", "made", "ask", "no", "no", "no", "no", "none", "-"),
    H("boiled-linseed-oil", "never", "ask", "no", "no", "yes", "yes", "none", "-"),
    H("brushing-varnish", "ask", "ask", "yes", "no", "yes", "yes", "cartridge", "cartridge and filter"),
    H("casting-epoxy", "ask", "ask", "no", "no", "no", "no", "none", "-"),
    H("danish-oil", "ask", "ask", "yes", "no", "yes", "yes", "cartridge", "-"),
    H("dye-stain", "never", "ask", "no", "yes", "no", "no", "none", "cartridge and filter"),
    H("exterior-oil", "never", "never", "yes", "no", "yes", "yes", "cartridge", "-"),
    H("flood-coat-epoxy", "ask", "ask", "no", "no", "no", "no", "none", "-"),
    H("gel-varnish", "ask", "ask", "yes", "no", "yes", "yes", "cartridge", "-"),
    H("glaze", "never", "ask", "yes", "no", "yes", "yes", "cartridge", "-"),
    H("grain-filler", "never", "ask", "yes", "no", "yes", "yes", "cartridge", "-"),
    H("hardwax-oil-two-part", "ask", "ask", "no", "no", "yes", "yes", "none", "-"),
    H("hardwax-oil", "ask", "ask", "yes", "no", "yes", "yes", "cartridge", "-"),
    H("knotting", "never", "ask", "yes", "no", "no", "no", "cartridge", "-"),
    H("matt-furniture-paint", "never", "ask", "no", "yes", "no", "no", "none", "-"),
    H("milk-paint", "never", "ask", "no", "yes", "no", "no", "none", "-"),
    H("mineral-oil", "made", "ask", "no", "no", "no", "no", "none", "-"),
    H("moisture-cured-urethane", "ask", "ask", "yes", "no", "no", "no", "none", "supplied air"),
    H("nitrocellulose-lacquer", "ask", "ask", "yes", "no", "no", "no", "-", "cartridge and filter"),
    H("paste-wax", "never", "ask", "yes", "no", "no", "no", "cartridge", "-"),
    H("pigment-stain", "never", "ask", "yes", "no", "yes", "yes", "cartridge", "-"),
    H("post-catalysed-varnish", "ask", "ask", "yes", "no", "no", "no", "-", "cartridge and filter"),
    H("pre-catalysed-lacquer", "ask", "ask", "yes", "no", "no", "no", "-", "cartridge and filter"),
    H("sanding-sealer", "never", "ask", "yes", "no", "no", "no", "cartridge", "cartridge and filter"),
    H("shellac-dewaxed", "ask", "ask", "yes", "no", "no", "no", "cartridge", "cartridge and filter"),
    H("shellac-primer", "never", "ask", "yes", "no", "no", "no", "cartridge", "cartridge and filter"),
    H("shellac-waxed", "ask", "ask", "yes", "no", "no", "no", "cartridge", "-"),
    H("soap-finish", "ask", "ask", "no", "yes", "no", "no", "none", "-"),
    H("spar-varnish", "never", "ask", "yes", "no", "yes", "yes", "cartridge", "-"),
    H("spirit-dye", "never", "ask", "yes", "no", "no", "no", "cartridge", "cartridge and filter"),
    H("tung-oil", "ask", "ask", "no", "no", "yes", "yes", "none", "-"),
    H("two-part-urethane-paint", "ask", "ask", "yes", "no", "no", "no", "-", "supplied air"),
    H("two-part-urethane-primer", "never", "ask", "yes", "no", "no", "no", "-", "supplied air"),
    H("two-part-urethane", "ask", "ask", "yes", "no", "no", "no", "-", "supplied air"),
    H("vinyl-sealer", "never", "ask", "yes", "no", "no", "no", "-", "cartridge and filter"),
    H("washcoat", "never", "ask", "yes", "no", "no", "no", "cartridge", "cartridge and filter"),
    H("waterborne-grain-filler", "never", "ask", "no", "yes", "no", "no", "none", "-"),
    H("waterborne-lacquer-pigmented", "ask", "ask", "no", "yes", "no", "no", "-", "cartridge and filter"),
    H("waterborne-lacquer", "ask", "ask", "no", "yes", "no", "no", "-", "cartridge and filter"),
    H("waterborne-polyurethane-two-part", "ask", "ask", "no", "yes", "no", "no", "none", "supplied air"),
    H("waterborne-polyurethane", "ask", "ask", "no", "yes", "no", "no", "none", "cartridge and filter"),
    H("white-wood-lye", "never", "never", "no", "yes", "no", "no", "none", "-"),
    H("wiping-varnish", "ask", "ask", "yes", "no", "yes", "yes", "cartridge", "-"),
    H("wood-bleach", "never", "never", "no", "yes", "no", "no", "none", "-"),
};

static const char *yes_no(bool yes)
{
    return yes ? "yes" : "no";
}

static const char *breathing(const struct finish *finish, bool sprayed)
{
    static const char *const names[BREATHING_COUNT] = {"none", "cartridge", "cartridge and filter",
                                                       "supplied air"};
    bool laid = false;
    for (int i = 0; i < TOOL_COUNT; i++)
        laid = laid || (finish->by[i] && tool_sprays((enum tool)i) == sprayed);
    return laid ? names[finish_breathing(finish, sprayed)] : "-";
}

static void hazard_is(void **state)
{
    const struct hazard_row *r = *state;
    struct reader *reader = reader_make();
    struct finish_folders folders = {.shipped = "finishes"};
    struct finish_table *table = finish_table_load(&reader->reading, &folders);
    const struct finish *f = finish_table_find(table, r->id);
    check_true(&r->row, f != NULL, "in the table");
    check_text(&r->row, contact_names[f->food], r->food);
    check_text(&r->row, contact_names[f->child], r->child);
    check_text(&r->row, yes_no(finish_warns_of(f, "flammable")), r->flammable);
    check_text(&r->row, yes_no(finish_warns_of(f, "frost")), r->frost);
    check_text(&r->row, yes_no(finish_warns_of(f, "oily-rags")), r->rags);
    check_text(&r->row, yes_no(finish_heats_its_dust(f)), r->dust);
    check_text(&r->row, breathing(f, false), r->brushed);
    check_text(&r->row, breathing(f, true), r->sprayed);
    reader_free(reader);
}

/* No finish without its row. */
static void every_finish_has_its_row(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct finish_folders folders = {.shipped = "finishes"};
    struct finish_table *table = finish_table_load(&reader->reading, &folders);
    check_int(HERE, (intmax_t)table->count, sizeof hazards / sizeof hazards[0]);
    for (size_t i = 0; i < table->count; i++) {
        bool there = false;
        for (size_t k = 0; k < sizeof hazards / sizeof hazards[0]; k++)
            there = there || strcmp(hazards[k].id, table->items[i]->id) == 0;
        check_text(HERE, there ? "" : table->items[i]->id, "");
    }
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(hazards, hazard_is), CHECK_TEST(every_finish_has_its_row));
}
