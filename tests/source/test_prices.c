/* Price lists: what they say goes over the prices of the finish files, adds packs of other sizes, and prices sundries. */
#include "check.h"
#include "full_job.h"
#include "job_text.h"
#include "reader.h"

#include "base/buf.h"
#include "base/number.h"

#include <string.h>

static const struct job *read_prices(struct reader *reader, const char *list)
{
    const char *text = reader_swap(reader, job_text_job, "\"reserve\"",
                                   "\"currency\": \"GBP\", \"prices\": \"prices.csv\", \"reserve\"");
    (void)reader_path(reader, "prices.csv", list);
    return job_text_read_as(reader, text);
}

struct price_row {
    struct row row;
    const char *list, *finish, *want; /* the packs of the finish, then its kits; or the mistakes */
};

#define NAMES "finish,component,size,price\n"

#define DIGITS_20 "12345678901234567890"
#define DIGITS_80 DIGITS_20 DIGITS_20 DIGITS_20 DIGITS_20

static const struct price_row rows[] = {
    {ROW("a pack that there is"), NAMES "danish-oil,,500 ml,14.50\n", "danish-oil",
     "oil 0.5 l 1450, 1 l, 5 l"},
    {ROW("one size more"), NAMES "danish-oil,,2.5 l,49.00\n", "danish-oil",
     "oil 0.5 l, 1 l, 5 l, 2.5 l 4900"},
    {ROW("of a component"), NAMES "hardwax-oil-two-part,oil,1 l,61\n", "hardwax-oil-two-part",
     "oil 0.3 l, 1 l 6100, 3 l; hardener 0.1 l, 0.25 l, 1 l"},
    {ROW("of the second component"), NAMES "hardwax-oil-two-part,hardener,250 ml,19\n",
     "hardwax-oil-two-part", "oil 0.3 l, 1 l, 3 l; hardener 0.1 l, 0.25 l 1900, 1 l"},
    {ROW("by mass"), NAMES "danish-oil,,420 g,12.00\n", "danish-oil", "oil 0.5 l 1200, 1 l, 5 l"},
    {ROW("a price as a number of a spreadsheet"), "finish;component;size;price\ndanish-oil;;1 l;22.00\n",
     "danish-oil", "oil 0.5 l, 1 l 2200, 5 l"},
    {ROW("no such finish"), NAMES "danish-oyl,,1 l,5\n", NULL,
     "prices.csv:2:1: row 1, finish: expected a finish of the table, or a sundry of its rules, found "
     "\"danish-oyl\" "
     "(did you mean \"danish-oil\"?)"},
    {ROW("no price"), NAMES "danish-oil,,1 l,\n", NULL,
     "prices.csv:2:17: row 1, price: expected a price such as \"14.50\", found nothing"},
    {ROW("a component it has not"), NAMES "danish-oil,hardener,1 l,5\n", NULL,
     "prices.csv:2:12: row 1, component: expected a component of this finish, found \"hardener\""},
    {ROW("no size"), NAMES "danish-oil,,,5\n", NULL,
     "prices.csv:2:13: row 1, size: expected an amount such as \"500 ml\" or \"1 kg\", found nothing"},
    {ROW("a sundry by weight"), NAMES "brush,,1 kg,5\n", NULL,
     "prices.csv:2:8: row 1, size: expected so many of it, such as \"10 pcs\", or nothing for one, found \"1 "
     "kg\""},
    {ROW("a sundry by another unit"), NAMES "brush,,2 boxes,5\n", NULL,
     "prices.csv:2:8: row 1, size: expected so many of it, such as \"10 pcs\", or nothing for one, found \"2 "
     "boxes\""},
    {ROW("none of a sundry"), NAMES "brush,,0 pcs,5\n", NULL,
     "prices.csv:2:8: row 1, size: expected so many of it, such as \"10 pcs\", or nothing for one, found \"0 "
     "pcs\""},
    {ROW("thinner by weight"), NAMES "thinner,,1 kg,5\n", NULL,
     "prices.csv:2:10: row 1, size: expected so many of it, such as \"10 ml\", or nothing for one, found \"1 "
     "kg\""},
    {ROW("more digits than a number has"), NAMES "brush,," DIGITS_80 " pcs,5\n", NULL,
     "prices.csv:2:8: row 1, size: expected so many of it, such as \"10 pcs\", or nothing for one, found "
     "\"" DIGITS_80 "...\""},
    {ROW("nobody's price"), NAMES ",,1 l,5\n", NULL,
     "prices.csv:2:1: row 1, finish: expected a finish of the table, or a sundry of its rules, found "
     "nothing"},
    {ROW("a price that is none"), NAMES "danish-oil,,1 l,cheap\n", NULL,
     "prices.csv:2:17: row 1, price: expected a price such as \"14.50\", found \"cheap\""},
    {ROW("nothing of it"), NAMES "danish-oil,,0 l,5\n", NULL,
     "prices.csv:2:13: row 1, size: expected a size above 0, found \"0 l\""},
};

static void describe(struct buf *buf, const struct finish *finish)
{
    for (size_t i = 0; i < finish->component_count; i++) {
        const struct component *component = &finish->components[i];
        buf_addf(buf, "%s%s", i ? "; " : "", component->name);
        for (size_t k = 0; k < component->pack_count; k++) {
            buf_addf(buf, "%s %s l", k ? "," : "", number_round(component->packs[k].size_l, 3).text);
            if (component->packs[k].price_cents >= 0)
                buf_addf(buf, " %d", (int)component->packs[k].price_cents);
        }
    }
}

static const struct finish *finish_of(const struct job *job, const char *id)
{
    for (size_t i = 0; i < job->finish_count; i++)
        if (strcmp(job->finishes[i]->id, id) == 0)
            return job->finishes[i];
    return NULL;
}

static void price_is_read(void **state)
{
    const struct price_row *r = *state;
    struct reader *reader = reader_make();
    struct buf text;
    const struct job *job = read_prices(reader, r->list);
    buf_init(&text, reader->arena);
    if (job && r->finish)
        describe(&text, finish_of(job, r->finish));
    check_text(&r->row, job ? text.text : reader_lines(reader, &reader->errors), r->want);
    reader_free(reader);
}

#define ONE_KIT                                                                                              \
    "[{\"contents\": {\"oil\": \"750 ml\", \"hardener\": \"275 g\"}, \"price\": \"40.50\", \"label\": "      \
    "\"the kit\"}]"
/* 275 g of hardener at 1.1 kg/l are 0.25 l, so that the kit holds a litre; the other one two. */
#define TWO_KITS                                                                                             \
    "[{\"contents\": {\"oil\": \"750 ml\", \"hardener\": \"275 g\"}}, {\"contents\": {\"oil\": \"1.5 l\", "  \
    "\"hardener\": \"500 ml\"}}]"

#define TWO_SETS                                                                                             \
    "[{\"contents\": {\"oil\": \"750 ml\", \"hardener\": \"275 g\"}, \"label\": \"small\"}, {\"contents\": " \
    "{\"oil\": \"1.5 l\", \"hardener\": \"500 ml\"}, \"label\": \"large\"}]"

struct kit_row {
    struct row row;
    const char *kits, *list, *want; /* prices of the kits in cents, -1: none; or the mistakes */
};

static const struct kit_row kits[] = {
    {ROW("the only one"), ONE_KIT, NAMES "own-oil,,,39.00\n", "3900"},
    {ROW("the only one, by its size"), ONE_KIT, NAMES "own-oil,,1000 ml,39.00\n", "3900"},
    {ROW("one of two, by its size"), TWO_KITS, NAMES "own-oil,,2 l,70.00\n", "-1 7000"},
    {ROW("both"), TWO_KITS, NAMES "own-oil,,2 l,70.00\nown-oil,,1 l,39.00\n", "3900 7000"},
    {ROW("both, which have names of their own"), TWO_SETS, NAMES "own-oil,,2 l,70.00\nown-oil,,1 l,39.00\n",
     "3900 7000"},
    {ROW("a component beside them"), TWO_KITS, NAMES "own-oil,hardener,100 ml,9.00\n", "-1 -1"},
    {ROW("either of two"), TWO_KITS, NAMES "own-oil,,,39.00\n",
     "prices.csv:2:10: row 1, size: expected the litres of a kit of this finish, or a component beside it, "
     "found nothing"},
    {ROW("a size that none has"), TWO_KITS, NAMES "own-oil,,3 l,39.00\n",
     "prices.csv:2:10: row 1, size: expected the litres of a kit of this finish, or a component beside it, "
     "found \"3 l\""},
    {ROW("by mass"), ONE_KIT, NAMES "own-oil,,1 kg,39.00\n",
     "prices.csv:2:10: row 1, size: expected the litres of a kit of this finish, or a component beside it, "
     "found \"1 kg\""},
    {ROW("as many grams as it has litres"), ONE_KIT, NAMES "own-oil,,1 g,39.00\n",
     "prices.csv:2:10: row 1, size: expected the litres of a kit of this finish, or a component beside it, "
     "found \"1 g\""},
    {ROW("a size that is none"), ONE_KIT, NAMES "own-oil,,large,39.00\n",
     "prices.csv:2:10: row 1, size: expected the litres of a kit of this finish, or a component beside it, "
     "found \"large\""},
    {ROW("no kit at all"), "[]", NAMES "own-oil,,1 l,39.00\n",
     "prices.csv:2:9: row 1, component: expected a component of this finish: it has several, and no kit, "
     "found nothing"},
};

static void kit_is_priced(void **state)
{
    const struct kit_row *r = *state;
    struct reader *reader = reader_make();
    struct buf text;
    buf_init(&text, reader->arena);
    (void)reader_path(reader, "prices.csv", r->list);
    const struct job *job =
        full_job_read(reader,
                      reader_swap(reader, full_job_text(reader), ", \"prices\": \"prices.csv\", \"country\"",
                                  ", \"country\""),
                      reader_swap(reader, full_job_finish(reader), ONE_KIT, r->kits));
    const struct finish *finish = job ? finish_of(job, "own-oil") : NULL;
    for (size_t i = 0; finish && i < finish->kit_count; i++)
        buf_addf(&text, "%s%d", i ? " " : "", (int)finish->kits[i].price_cents);
    check_text(&r->row, finish ? text.text : reader_lines(reader, &reader->errors), r->want);
    reader_free(reader);
}

static double each(const struct job *job, const char *name)
{
    for (size_t i = 0; i < job->sundries.count; i++)
        if (strcmp(job->sundries.items[i].name, name) == 0)
            return job->sundries.items[i].cents_each;
    return -1;
}

/* Fifty discs for 25.00 are 50 cents each; a litre of thinner for 8.00 is 0.8 cents a millilitre. */
static void sundries_have_prices(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const struct job *job =
        read_prices(reader, NAMES "abrasive disc 150 mm,,50 pcs,25.00\nthinner,,1 l,8.00\n"
                                  "brush,,,6.40\nlint-free cloth,,10,4.00\n");
    check_true(HERE, job != NULL, reader_lines(reader, &reader->errors));
    check_double(HERE, each(job, "abrasive disc 150 mm"), 50, 1e-12);
    check_double(HERE, each(job, "thinner"), 0.8, 1e-12);
    check_double(HERE, each(job, "brush"), 640, 1e-12);
    check_double(HERE, each(job, "lint-free cloth"), 40, 1e-12);
    check_double(HERE, each(job, "mixing cup"), 0, 0);
    reader_free(reader);
}

/* The shop's list holds for every job, the job's own goes over it. */
static void the_job_goes_over_the_shop(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    (void)reader_path(reader, "shop-prices.csv", NAMES "danish-oil,,500 ml,14.50\ndanish-oil,,1 l,22.00\n");
    (void)reader_path(reader, "prices.csv", NAMES "danish-oil,,500 ml,13.00\n");
    const char *text = reader_swap(reader, job_text_job, "\"reserve\"",
                                   "\"currency\": \"GBP\", \"prices\": \"prices.csv\", \"reserve\"");
    text = reader_swap(reader, text, "\"people\": 1", "\"prices\": \"shop-prices.csv\"");
    const struct job *job = job_text_read_as(reader, text);
    struct buf packs;
    check_true(HERE, job != NULL, reader_lines(reader, &reader->errors));
    buf_init(&packs, reader->arena);
    describe(&packs, finish_of(job, "danish-oil"));
    check_text(HERE, packs.text, "oil 0.5 l 1300, 1 l 2200, 5 l");
    check_true(HERE, job->schedules[0].steps[1].finish == finish_of(job, "hardwax-oil"),
               "steps hold the priced ones");
    reader_free(reader);
}

int main(void)
{
    full_job_begin();
    return CHECK_ALL(CHECK_ROWS(rows, price_is_read), CHECK_ROWS(kits, kit_is_priced),
                     CHECK_TEST(sundries_have_prices), CHECK_TEST(the_job_goes_over_the_shop));
}
