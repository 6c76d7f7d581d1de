/* Price lists: what they say goes over the prices of the finish files, adds packs of other sizes, and prices sundries. */
#include "check.h"
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

static const struct price_row rows[] = {
    {ROW("a pack that there is"), NAMES "danish-oil,,500 ml,14.50\n", "danish-oil",
     "oil 0.5 l 1450, 1 l, 5 l"},
    {ROW("one size more"), NAMES "danish-oil,,2.5 l,49.00\n", "danish-oil",
     "oil 0.5 l, 1 l, 5 l, 2.5 l 4900"},
    {ROW("of a component"), NAMES "hardwax-oil-two-part,oil,1 l,61\n", "hardwax-oil-two-part",
     "oil 0.3 l, 1 l 6100, 3 l; hardener 0.1 l, 0.25 l, 1 l"},
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
    job_text_begin();
    return CHECK_ALL(CHECK_ROWS(rows, price_is_read), CHECK_TEST(sundries_have_prices),
                     CHECK_TEST(the_job_goes_over_the_shop));
}
