#include "source/read_finish_parts.h"

#include "base/coverage.h"
#include "base/measure.h"

static const double um_per_m = 1e6;
static const double m2_um_per_l = 1000; /* 1 l at 1 um covers 1000 m2 */
static const double g_per_kg = 1000;

static void read_coverage(struct json_at at, const struct finish *finish, double *m2_per_l)
{
    struct err fault;
    struct coverage coverage;
    const char *text = NULL;
    if (!json_text(at, "a coverage such as \"12 m2/l\"", &text))
        return;
    if (!coverage_parse(text, &coverage, &fault)) {
        json_refuse(at, fault.expected);
        return;
    }
    double density = finish->component_count ? finish_density(finish) : 0;
    if (!coverage_by_mass(coverage) || density > 0)
        *m2_per_l = coverage_m2_per_l(coverage, density);
}

static void read_wet_film(struct json_at at, struct finish *finish)
{
    double film_m;
    if (!json_quantity(at, thickness_parse, &film_m))
        return;
    if (film_m <= 0) {
        json_refuse(at, "a thickness above 0");
        return;
    }
    finish->wet_film_um = film_m * um_per_m;
    finish->first_m2_per_l = finish->later_m2_per_l = m2_um_per_l / finish->wet_film_um;
}

static void read_how_far(struct json_at at, struct finish *finish)
{
    static const char *const rolled[] = {"first", "later", "tolerance"}, *const poured[] = {"wet-film",
                                                                                            "tolerance"};
    bool film = json_has(at, "wet-film");
    if (!json_object(at, film ? "a coverage by wet film" : "the coverage", film ? poured : rolled,
                     film ? 2 : 3))
        return;
    if (film) {
        read_wet_film(json_member(at, "wet-film"), finish);
    } else {
        read_coverage(json_member(at, "first"), finish, &finish->first_m2_per_l);
        read_coverage(json_member(at, "later"), finish, &finish->later_m2_per_l);
    }
    json_quantity(json_member(at, "tolerance"), share_parse, &finish->tolerance);
}

void finish_read_amounts(struct json_at file, struct finish *finish)
{
    double voc_kg_per_l;
    read_how_far(json_member(file, "coverage"), finish);
    if (json_has(file, "solids"))
        json_quantity(json_member(file, "solids"), share_parse, &finish->solids);
    finish->voc_g_per_l = -1;
    if (json_has(file, "voc") && json_quantity(json_member(file, "voc"), density_parse, &voc_kg_per_l))
        finish->voc_g_per_l = voc_kg_per_l * g_per_kg;
}
