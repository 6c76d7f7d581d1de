/* A finish file to fill in from a label reads back as the finish that it began with; and what an own file changed is
 * told, no more and no less. */
#include "check.h"
#include "reader.h"
#include "sample.h"

#include "base/measure.h"
#include "report/finish_figures.h"
#include "source/finish_table.h"
#include "report/json.h"

#include <string.h>

static const struct finish *through_a_file(struct reader *reader, const struct finish *finish)
{
    struct buf out;
    struct json_write w;
    const char *id;
    buf_init(&out, reader->arena);
    json_write_init(&w, &out);
    write_label(&w, finish);
    const char *path = reader_path(reader, "label.json", out.text);
    const struct finish *back =
        finish_read(&reader->reading, (struct finish_source_file){path, NULL, false, 2}, &id);
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    check_true(HERE, back && strncmp(back->id, "my-", 3) == 0 && strcmp(back->id + 3, finish->id) == 0,
               finish->id);
    return back;
}

/* Figures that people see rounded are held to the last bit but one. */
static void check_same(const struct finish *a, const struct finish *b)
{
    struct arena *arena = arena_make(0);
    struct finish_figures told, again;
    struct finish_difference differences[2 * FINISH_FIGURES_MOST];
    const struct row row = {a->id, __FILE__, __LINE__};
    finish_figures(&told, arena, a, UNITS_METRIC);
    finish_figures(&again, arena, b, UNITS_METRIC);
    check_int(&row, (intmax_t)finish_differences(&told, &again, differences), 0);
    check_double(&row, finish_coverage(b, true), finish_coverage(a, true), 1e-15);
    check_double(&row, finish_coverage(b, false), finish_coverage(a, false), 1e-15);
    check_double(&row, finish_density(b), finish_density(a), 1e-15);
    check_double(&row, b->solids, a->solids, 1e-15);
    check_double(&row, b->voc_g_per_l, a->voc_g_per_l, 1e-12);
    check_double(&row, b->at_humidity, a->at_humidity, 1e-15);
    check_true(&row, memcmp(&a->later, &b->later, sizeof a->later) == 0, "times of later coats");
    check_int(&row, b->wipe_off.most_min, a->wipe_off.most_min);
    check_int(&row, (intmax_t)b->kit_count, (intmax_t)a->kit_count);
    for (size_t k = 0; k < a->kit_count; k++)
        for (size_t i = 0; i < a->component_count; i++)
            check_double(&row, b->kits[k].contents_l[i], a->kits[k].contents_l[i], 1e-15);
    arena_free(arena);
}

struct folder_row {
    struct row row;
    const char *own;
    size_t least;
};

static const struct folder_row folders[] = {
    {ROW("every shipped finish"), NULL, 36},
    {ROW("with prices and kits"), "examples/kitchen-finishes", 2},
};

static void label_reads_back(void **state)
{
    const struct folder_row *r = *state;
    struct reader *reader = reader_make();
    struct finish_folders where = {
        .shipped = r->own ? NULL : "finishes", .own = r->own, .currency_digits = 2};
    struct finish_table *table = finish_table_load(&reader->reading, &where);
    check_true(&r->row, table->count >= r->least, "finishes to try");
    for (size_t i = 0; i < table->count; i++)
        check_same(table->items[i], through_a_file(reader, table->items[i]));
    reader_free(reader);
}

/* Micrometres are worked with, metres written: no figure grows a tail on the way. */
static void films_keep_their_figures(void **state)
{
    (void)state;
    struct finish finish = sample_varnish();
    for (int tenths = 1; tenths < 2000; tenths++) {
        struct arena *arena = arena_make(0);
        struct buf out;
        struct json_write w;
        const char *film = arena_textf(arena, "%d.%d um", tenths / 10, tenths % 10);
        if (tenths % 10 == 0)
            film = arena_textf(arena, "%d um", tenths / 10);
        double film_m;
        check_true(HERE, thickness_parse(film, &film_m, NULL), film);
        finish.wet_film_um = finish.dry_film_most_um = film_m * 1e6; /* as a file is read */
        buf_init(&out, arena);
        json_write_init(&w, &out);
        write_label(&w, &finish);
        check_true(HERE, strstr(out.text, arena_textf(arena, "\"wet-film\": \"%s\"", film)), film);
        check_true(HERE, strstr(out.text, arena_textf(arena, "\"dry-film-most\": \"%s\"", film)), film);
        arena_free(arena);
    }
}

/* Every group has its hint, said of what is there and of what is not. */
static void hints_stand_at_their_figures(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct finish finish =
        sample_varnish(); /* lacks packs, mix, induction, pot life, later times, wiping, polish */
    const struct finish *back = through_a_file(reader, &finish);
    int filled = 0, left_out = 0;
    for (size_t i = 0; i < back->source_count; i++) {
        filled += strncmp(back->sources[i].text, "FILL IN", 7) == 0;
        left_out += strncmp(back->sources[i].text, "LEFT OUT", 8) == 0;
        if (strcmp(back->sources[i].group, "pot-life") == 0)
            check_true(HERE, back->sources[i].text[0] == 'L', "a pot life that is not there");
    }
    check_int(HERE, filled, 12);
    check_int(HERE, left_out, 11);
    reader_free(reader);
}

static void differences_are_told(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct finish a = sample_varnish(), b = sample_varnish();
    struct finish_figures table, own;
    struct finish_difference told[2 * FINISH_FIGURES_MOST];
    b.first_m2_per_l = 10;
    b.has_polish = true;
    b.polish = (struct span_range){10, 240};
    b.solvent = NULL;
    b.at_c = 20;
    finish_figures(&table, arena, &a, UNITS_METRIC);
    finish_figures(&own, arena, &b, UNITS_METRIC);
    check_int(HERE, (intmax_t)finish_differences(&table, &own, told), 4);
    check_text(HERE, told[0].a->value, "first coat 12 m²/L, later coats 16 m²/L, tolerance 20 %");
    check_text(HERE, told[0].b->value, "first coat 10 m²/L, later coats 16 m²/L, tolerance 20 %");
    check_text(HERE, told[1].a->what, "at 23 °C 50 % RH");
    check_text(HERE, told[1].b->what, "at 20 °C 50 % RH");
    check_true(HERE, told[2].b == NULL && strcmp(told[2].a->group, "solvent") == 0, "left out");
    check_true(HERE, told[3].a == NULL, "added");
    check_text(HERE, told[3].b->value, "10 min to 4 h after the coat");
    arena_free(arena);
}

static void lives_as_a_lid_tells_them(void **state)
{
    (void)state;
    check_text(HERE, finish_life(525600).text, "1 y");
    check_text(HERE, finish_life(1051200).text, "2 y");
    check_text(HERE, finish_life(259200).text, "6 mo");
    check_text(HERE, finish_life(14400).text, "10 d");
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(folders, label_reads_back), CHECK_TEST(films_keep_their_figures),
                     CHECK_TEST(hints_stand_at_their_figures), CHECK_TEST(differences_are_told),
                     CHECK_TEST(lives_as_a_lid_tells_them));
}
