#include "check.h"
#include "reader.h"

#include "source/finish_table.h"

#include <string.h>

/* Every key that a finish can have; the figures are invented. */
static const char full[] =
    "{\"format\": \"coatwright-finish/1\", \"finish\": \"two-part-oil\", \"name\": \"Two-part oil\",\n"
    " \"family\": \"hardwax-oil\", \"dries-by\": \"reaction\",\n"
    " \"components\": [{\"component\": \"oil\", \"parts\": 3, \"density\": \"0.9 kg/l\", \"shelf-life\": \"2 "
    "y\",\n"
    "   \"opened-life\": \"6 mo\", \"packs\": [{\"size\": \"1 l\", \"price\": \"24.00\"}, {\"size\": \"450 "
    "g\"}]},\n"
    "  {\"component\": \"hardener\", \"parts\": 1, \"density\": \"1.1 kg/l\"}],\n"
    " \"kits\": [{\"contents\": {\"oil\": \"750 ml\", \"hardener\": \"275 g\"}, \"price\": \"40.50\"}],\n"
    " \"mix-by\": \"mass\", \"ratio-tolerance\": \"5 %\", \"induction\": \"10 min\", \"pot-life\": \"4 h\",\n"
    " \"coverage\": {\"first\": \"40 m2/l\", \"later\": \"25 g/m2\", \"tolerance\": \"20 %\"}, \"solids\": "
    "\"98 "
    "%\",\n"
    " \"by\": [\"pad\", \"cloth\"], \"coats\": {\"usual\": 1, \"most\": 2, \"a-day\": 1}, \"flip\": "
    "\"now\",\n"
    " \"times\": {\"dust-free\": \"4 h\", \"handle\": \"8 h\", \"recoat\": [\"12 h\", \"3 d\"],\n"
    "  \"light-use\": \"36 h\", \"cured\": \"7 d\", \"at\": \"20 C 55 %\"},\n"
    " \"later-times\": {\"recoat\": [\"24 h\", \"4 d\"]},\n"
    " \"wipe-off\": [\"5 min\", \"15 min\"], \"polish\": [\"10 min\", \"4 h\"],\n"
    " \"late-recoat\": \"refuse\", \"between\": {\"scuff\": 320},\n"
    " \"air\": {\"temperature\": [\"10 C\", \"86 F\"], \"humidity\": [\"5 %\", \"80 %\"]},\n"
    " \"resists\": {\"water\": 3, \"alcohol\": 2, \"heat\": 1, \"wear\": 2, \"outdoors\": 0},\n"
    " \"cautions\": [\"oily-rags\", \"isocyanate\"], \"solvent\": \"none\", \"voc\": \"12 g/l\",\n"
    " \"sources\": {\"coverage\": \"invented\", \"times\": \"invented\"}}\n";

static const struct finish *read_text(struct reader *reader, const char *text, const char **id)
{
    struct finish_source_file from = {reader_path(reader, "oil.json", text), NULL, false, 2};
    return finish_read(&reader->reading, from, id);
}

static void check_mix(const struct finish *f)
{
    check_int(HERE, (intmax_t)f->component_count, 2);
    check_text(HERE, f->components[0].name, "oil");
    check_double(HERE, f->components[0].parts, 3, 0);
    check_int(HERE, f->components[0].shelf_life_min, 2 * 365 * 1440);
    check_int(HERE, f->components[0].opened_life_min, 6 * 30 * 1440);
    check_int(HERE, f->components[1].shelf_life_min, SPAN_NEVER);
    check_int(HERE, (intmax_t)f->components[0].pack_count, 2);
    check_int(HERE, f->components[0].packs[0].price_cents, 2400);
    check_text(HERE, f->components[0].packs[0].label, "1 l");
    check_double(HERE, f->components[0].packs[1].size_l, 0.5, 1e-12); /* 450 g at 0.9 kg/l */
    check_int(HERE, f->components[0].packs[1].price_cents, -1);
    check_int(HERE, (intmax_t)f->kit_count, 1);
    check_double(HERE, f->kits[0].contents_l[0], 0.75, 1e-12);
    check_double(HERE, f->kits[0].contents_l[1], 0.25, 1e-12); /* 275 g at 1.1 kg/l */
    check_int(HERE, f->kits[0].price_cents, 4050);
    check_text(HERE, f->kits[0].label, "oil 750 ml + hardener 275 g");
    check_true(HERE, f->mix_by_mass, "by mass");
    check_double(HERE, f->ratio_tolerance, 0.05, 1e-15);
    check_int(HERE, f->induction_min, 10);
    check_int(HERE, f->pot_life_min, 240);
}

static void check_times(const struct finish *f)
{
    static const int32_t hours[STATE_COUNT] = {4, 8, 12, 12, 36, 36, 168};
    for (int i = 0; i < STATE_COUNT; i++)
        check_int(HERE, f->first.after_min[i], hours[i] * 60);
    check_int(HERE, f->first.recoat_last_min, 3 * 1440);
    check_int(HERE, f->later.after_min[STATE_RECOAT], 1440);
    check_int(HERE, f->later.after_min[STATE_SAND], 1440); /* as its own recoat */
    check_int(HERE, f->later.after_min[STATE_HANDLE], 480);
    check_int(HERE, f->later.recoat_last_min, 4 * 1440);
    check_double(HERE, f->at_c, 20, 0);
    check_double(HERE, f->at_humidity, 0.55, 1e-15);
    check_int(HERE, f->wipe_off.least_min, 5);
    check_int(HERE, f->wipe_off.most_min, 15);
    check_int(HERE, f->polish.most_min, 240);
    check_true(HERE, f->has_wipe_off && f->has_polish && f->refuses_late_recoat, "windows");
    check_int(HERE, f->between_grit, 320);
    check_true(HERE, f->between_scuff, "a scuff");
}

static void reads_every_key(void **state)
{
    (void)state;
    const char *id;
    struct reader *reader = reader_make();
    const struct finish *f = read_text(reader, full, &id);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_text(HERE, f->id, "two-part-oil");
    check_text(HERE, f->name, "Two-part oil");
    check_text(HERE, f->family, "hardwax-oil");
    check_int(HERE, f->dries_by, DRIES_BY_REACTION);
    check_mix(f);
    check_times(f);
    check_double(HERE, f->first_m2_per_l, 40, 1e-12);
    /* 3 parts of 0.9 kg/l and 1 of 1.1 by mass: 4/(3/0.9 + 1/1.1) kg/l; 25 g/m2 of it */
    check_double(HERE, f->later_m2_per_l, 4 / (3 / 0.9 + 1 / 1.1) * 1000 / 25, 1e-9);
    check_double(HERE, f->tolerance, 0.2, 1e-15);
    check_double(HERE, f->solids, 0.98, 1e-15);
    check_true(HERE, f->by[TOOL_PAD] && f->by[TOOL_CLOTH] && !f->by[TOOL_BRUSH], "tools");
    check_int(HERE, f->usual_tool, TOOL_PAD);
    check_int(HERE, f->coats_usual * 100 + f->coats_most * 10 + f->coats_a_day, 121);
    check_true(HERE, f->flip_now && !f->colours && !f->shipped, "flags");
    check_double(HERE, f->air.highest_c, 30, 1e-9);
    check_double(HERE, f->air.driest, 0.05, 1e-15);
    check_int(HERE, f->resists[RESISTS_WATER] * 10 + f->resists[RESISTS_HEAT], 31);
    check_int(HERE, (intmax_t)f->caution_count, 2);
    check_text(HERE, f->cautions[1], "isocyanate");
    check_text(HERE, f->solvent, "none");
    check_double(HERE, f->voc_g_per_l, 12, 1e-9);
    check_text(HERE, f->sources[1].group, "times");
    reader_free(reader);
}

/* A change of the finish above, what stands at the place then told, and what is told. */
struct mistake_row {
    struct row row;
    const char *find, *put, *at, *want;
};

static const struct mistake_row mistakes[] = {
    {ROW("wrong format"), "finish/1", "finish/2", "\"coatwright-finish/2\"",
     "/format: expected \"coatwright-finish/1\", found \"coatwright-finish/2\" (did you mean "
     "\"coatwright-finish/1\"?)"},
    {ROW("unknown key"), "\"flip\"", "\"flp\"", "\"flp\"",
     "/flp: expected a key of a finish, found \"flp\" (did you mean \"flip\"?)"},
    {ROW("an id with blanks"), "two-part-oil", "Two part", "\"Two part\"",
     "/finish: expected an id of small letters, digits and hyphens, found \"Two part\""},
    {ROW("no name"), " \"name\": \"Two-part oil\",", "", "{\"format\"",
     "/name: expected the finish's name, found nothing"},
    {ROW("unknown family"), "hardwax-oil", "hardwax", "\"hardwax\"",
     "/family: expected one of \"oil\", \"hardwax-oil\", \"oil-varnish\", \"shellac\", \"lacquer\", "
     "\"catalysed\", \"waterborne\", \"epoxy\", \"wax\", \"mineral-oil\", \"soap\", \"lye\", \"paint\", "
     "\"primer\", \"stain\", \"filler\", \"bleach\", found \"hardwax\""},
    {ROW("unknown drying"), "\"reaction\"", "\"reacting\"", "\"reacting\"",
     "/dries-by: expected one of \"oxidation\", \"solvent\", \"water\", \"reaction\", \"moisture\", "
     "\"none\", found \"reacting\" (did you mean \"reaction\"?)"},
    {ROW("no unit"), "\"0.9 kg/l\"", "0.9", "0.9",
     "/components/0/density: expected a density such as \"0.9 kg/l\" or \"7.5 lb/gal\", found 0.9"},
    {ROW("a ratio of zero"), "\"parts\": 1", "\"parts\": 0", "0, \"density\": \"1.1",
     "/components/1/parts: expected a number of parts above 0, found 0"},
    {ROW("a density of 90 kg/l"), "1.1 kg/l", "90 kg/l", "\"90 kg/l\"",
     "/components/1/density: expected a density that a liquid or a paste can have, 0.4 kg/l to 3 kg/l, found "
     "90 kg/L"},
    {ROW("a pack without size"), "{\"size\": \"450 g\"}", "{}", "{}",
     "/components/0/packs/1/size: expected a volume such as \"500 ml\", or a mass, found nothing"},
    {ROW("an empty pack"), "\"450 g\"", "\"0 g\"", "\"0 g\"",
     "/components/0/packs/1/size: expected a size above 0, found 0 g"},
    {ROW("no pack in the list"), "[{\"size\": \"1 l\", \"price\": \"24.00\"}, {\"size\": \"450 g\"}]", "[]",
     "[]", "/components/0/packs: expected a list of packs, found an empty list"},
    {ROW("less than no part"), "\"parts\": 1", "\"parts\": -1", "-1, \"density\": \"1.1",
     "/components/1/parts: expected a number that is not negative, found -1"},
    {ROW("a ratio as text"), "\"parts\": 3", "\"parts\": \"3\"", "\"3\"",
     "/components/0/parts: expected a number without quotes, such as 3 or 0.5, found \"3\""},
    {ROW("a density of nothing"), "1.1 kg/l", "0 kg/l", "\"0 kg/l\"",
     "/components/1/density: expected a density that a liquid or a paste can have, 0.4 kg/l to 3 kg/l, found "
     "0 kg/L"},
    {ROW("the pot dies before it may be used"), "\"4 h\",\n \"cov", "\"5 min\",\n \"cov", "\"10 min\", \"pot",
     "/induction: expected an induction shorter than the pot life, found 10 min"},
    {ROW("an opened life of nothing"), "\"6 mo\"", "\"0 d\"", "\"0 d\"",
     "/components/0/opened-life: expected a time span above 0, found 0 min"},
    {ROW("an empty kit"), "{\"oil\": \"750 ml\", \"hardener\": \"275 g\"}", "{}", "{\"contents\"",
     "/kits/0: expected contents above 0, found an empty kit"},
    {ROW("a price without quotes"), "\"24.00\"", "24.00", "24.00",
     "/components/0/packs/0/price: expected a price as text, such as \"14.50\", found 24.00"},
    {ROW("a price of three digits"), "24.00", "24.005", "\"24.005\"",
     "/components/0/packs/0/price: expected a price with at most 2 decimals, found \"24.005\""},
    {ROW("a kit of something else"), "{\"oil\": \"750", "{\"oi\": \"750", "\"oi\"",
     "/kits/0/contents/oi: expected a component of this finish, found \"oi\" (did you mean \"oil\"?)"},
    {ROW("several components, no mix-by"), "\"mix-by\": \"mass\", ", "", "{\"format\"",
     "/mix-by: expected one of \"volume\", \"mass\", found nothing"},
    {ROW("a pot life of zero"), "\"4 h\",\n \"cov", "\"0 min\",\n \"cov", "\"0 min\"",
     "/pot-life: expected a time span above 0, found 0 min"},
    {ROW("a decimal comma"), "98 %", "98,5 %", "\"98,5 %\"",
     "/solids: expected a decimal point: write \"98.5\", found \"98,5 %\""},
    {ROW("tool twice"), "\"cloth\"]", "\"pad\"]", "\"pad\"],",
     "/by/1: expected each tool once, found \"pad\""},
    {ROW("no tool"), "[\"pad\", \"cloth\"]", "[]", "[]",
     "/by: expected a list of tools such as [\"brush\"], found an empty list"},
    {ROW("no whole number"), "\"most\": 2", "\"most\": 2.5", "2.5",
     "/coats/most: expected a whole number from 1 to 20, found 2.5"},
    {ROW("a state missing"), "\"handle\": \"8 h\",", "", "{\"dust-free\"",
     "/times/handle: expected a time span such as \"45 min\" or \"1 h 30 min\", found nothing"},
    {ROW("a window of one"), "[\"12 h\", \"3 d\"]", "\"12 h\"", "\"12 h\"",
     "/times/recoat: expected two time spans: from, until, found \"12 h\""},
    {ROW("reference in the later times"), "{\"recoat\": [\"24 h\"",
     "{\"at\": \"20 C\", \"recoat\": [\"24 h\"", "\"at\": \"20 C\"",
     "/later-times/at: expected one of \"dust-free\", \"handle\", \"recoat\", \"sand\", \"wrap\", "
     "\"light-use\", \"cured\", found \"at\""},
    {ROW("both between"), "{\"scuff\": 320}", "{\"scuff\": 320, \"sand\": 320}", "{\"scuff\"",
     "/between: expected either \"sand\" or \"scuff\", with a grit, found an object"},
    {ROW("resists too much"), "\"wear\": 2", "\"wear\": 4", "4, \"outdoors\"",
     "/resists/wear: expected a whole number from 0 to 3, found 4"},
    {ROW("a caution misspelt"), "isocyanate\"", "isocyanat\"", "\"isocyanat\"",
     "/cautions/1: expected one of \"oily-rags\", \"vapour\", \"flammable\", \"isocyanate\", "
     "\"formaldehyde\", \"acid\", \"lye\", \"oxidiser\", \"skin\", \"dust\", \"spray-mist\", \"exotherm\", "
     "\"seed-oil\", \"frost\", found \"isocyanat\" (did you mean \"isocyanate\"?)"},
    {ROW("one temperature"), "[\"10 C\", \"86 F\"]", "\"10 C\"", "\"10 C\"",
     "/air/temperature: expected the lowest and the highest temperature, found \"10 C\""},
    {ROW("one humidity"), "[\"5 %\", \"80 %\"]", "\"80 %\"", "\"80 %\"}",
     "/air/humidity: expected the lowest and the highest humidity, found \"80 %\""},
    {ROW("recoat ends before it begins"), "[\"12 h\", \"3 d\"]", "[\"12 h\", \"3 h\"]", "[\"12 h\", \"3 h\"]",
     "/times/recoat: expected a window that ends after it begins, found 12 h to 3 h"},
};

static void mistake_is_told(void **state)
{
    const struct mistake_row *r = *state;
    struct reader *reader = reader_make();
    const char *id, *text = reader_swap(reader, full, r->find, r->put);
    const struct finish *finish = read_text(reader, text, &id);
    check_true(&r->row, !finish, "no finish");
    reader_check_only(reader, &r->row, text, r->at, r->want);
    reader_free(reader);
}

/* A wet film in place of a coverage; sand and wrap as given; a family of colour. */
static void reads_other_forms(void **state)
{
    (void)state;
    const char *id;
    struct reader *reader = reader_make();
    const char *text = reader_swap(reader, full, "\"first\": \"40 m2/l\", \"later\": \"25 g/m2\"",
                                   "\"wet-film\": \"4 mil\"");
    text = reader_swap(reader, text, "\"hardwax-oil\"", "\"paint\"");
    text = reader_swap(reader, text, "\"light-use\"", "\"sand\": \"14 h\", \"wrap\": \"5 d\", \"light-use\"");
    text = reader_swap(reader, text, " \"flip\": \"now\",", "");
    const struct finish *f = read_text(reader, text, &id);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_double(HERE, f->wet_film_um, 101.6, 1e-9); /* 1 mil = 25.4 um, NIST Handbook 44 */
    check_double(HERE, f->first_m2_per_l, 1000 / 101.6, 1e-9);
    check_int(HERE, f->first.after_min[STATE_SAND], 14 * 60);
    check_int(HERE, f->later.after_min[STATE_SAND], 14 * 60);
    check_int(HERE, f->later.after_min[STATE_WRAP], 5 * 1440);
    check_true(HERE, f->colours && !f->flip_now, "colour; flipped at handle");
    check_true(HERE, !f->learned, "figures of its maker");
    reader_free(reader);
}

static void figures_learned_from_logs(void **state)
{
    (void)state;
    const char *id;
    struct reader *reader = reader_make();
    const struct finish *f =
        read_text(reader,
                  reader_swap(reader, full, "\"coverage\": \"invented\"",
                              "\"coverage\": \"learned from 12 coats of this shop; the table: its label\""),
                  &id);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_true(HERE, f->learned, "learned");
    reader_free(reader);
}

/* A coverage by mass says nothing where no component is read that has a density. */
static void a_coverage_by_mass_of_nothing(void **state)
{
    (void)state;
    const char *id;
    struct reader *reader = reader_make();
    check_true(HERE, !read_text(reader, reader_swap(reader, full, "\"components\"", "\"component\" "), &id),
               "no finish");
    check_true(HERE, strstr(reader_lines(reader, &reader->errors), "g/m2") == NULL,
               "not told of the coverage");
    reader_free(reader);
}

struct limit_row {
    struct row row;
    const char *find, *put;
};

/* The most and the least that a finish may say. */
static const struct limit_row at_limits[] = {
    {ROW("the widest coverage"), "\"40 m2/l\"", "\"1000 m2/l\""},
    {ROW("the lightest component"), "1.1 kg/l", "0.4 kg/l"},
    {ROW("the heaviest component"), "1.1 kg/l", "3 kg/l"},
    {ROW("as many coats as any"), "\"most\": 2", "\"most\": 20"},
};

static void limit_is_read(void **state)
{
    const struct limit_row *r = *state;
    struct reader *reader = reader_make();
    const char *id;
    check_true(&r->row, read_text(reader, reader_swap(reader, full, r->find, r->put), &id) != NULL,
               reader_lines(reader, &reader->errors));
    reader_free(reader);
}

static void missing_file(void **state)
{
    (void)state;
    const char *id;
    struct reader *reader = reader_make();
    struct finish_source_file from = {"nowhere/lost-oil.json", NULL, false, 2};
    check_true(HERE, !finish_read(&reader->reading, from, &id), "none");
    check_text(HERE, id, "lost-oil");
    check_int(HERE, reader->errors.items[0].code, ERR_FILE);
    check_text(HERE, reader_lines(reader, &reader->errors),
               "nowhere/lost-oil.json: expected a readable file, found no such file");
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(reads_every_key), CHECK_ROWS(mistakes, mistake_is_told),
                     CHECK_TEST(reads_other_forms), CHECK_ROWS(at_limits, limit_is_read),
                     CHECK_TEST(figures_learned_from_logs), CHECK_TEST(a_coverage_by_mass_of_nothing),
                     CHECK_TEST(missing_file));
}
