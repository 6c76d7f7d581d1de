/* The stock list spoilt in one place: each mistake and each doubt is reported once, at its cell. */
#include "check.h"
#include "job_text.h"

#include "source/job_file.h"

#include <string.h>
#include <sys/stat.h>

struct stock_row {
    struct row row;
    const char *text; /* of the only row; the job goes from 1 Mar 2027 to 19 Mar */
    const char *want; /* an error or a warning; "" none */
};

/* Shellac keeps 6 months opened, 180 days: from 2 Sep 2026 to 1 Mar 2027. */
static const struct stock_row stocks[] = {
    {ROW("a good can"), "shellac-dewaxed,,200 ml,2027-01-10,2027-06-30", ""},
    {ROW("by mass"), "hardwax-oil-two-part,hardener,112 g,,", ""},
    {ROW("on its last day"), "shellac-dewaxed,,200 ml,,2027-03-01", ""},
    {ROW("opened for as long as it keeps"), "shellac-dewaxed,,200 ml,2026-09-02,", ""},
    {ROW("opened today"), "shellac-dewaxed,,200 ml,2027-03-01,", ""},
    {ROW("opened while the work goes on"), "shellac-dewaxed,,200 ml,2027-03-05,", ""},
    {ROW("opened on the day of the delivery"), "shellac-dewaxed,,200 ml,2027-03-19,", ""},
    {ROW("past its date"), "shellac-dewaxed,,200 ml,,2027-02-28",
     "stock.csv:2:26: row 1, best-before: warning: past its date before the job begins: it is not counted"},
    {ROW("open too long"), "shellac-dewaxed,,200 ml,2026-09-01,",
     "stock.csv:2:25: row 1, opened: warning: open too long before the job begins: it is not counted"},
    {ROW("opened in the future"), "shellac-dewaxed,,200 ml,2027-03-20,",
     "stock.csv:2:25: row 1, opened: expected a day on which the can was opened, not after the delivery, "
     "found "
     "\"2027-03-20\""},
    {ROW("open too long and past its date"), "shellac-dewaxed,,200 ml,2026-09-01,2027-01-31",
     "stock.csv:2:25: row 1, opened: warning: open too long before the job begins: it is not counted\n"
     "stock.csv:2:36: row 1, best-before: warning: past its date before the job begins: it is not counted"},
    {ROW("a date in another order"), "shellac-dewaxed,,200 ml,,30.6.2027",
     "stock.csv:2:26: row 1, best-before: expected a date such as \"2027-03-05\": write \"2027-06-30\", "
     "found \"30.6.2027\""},
    {ROW("two mistakes in a row"), "shellac-dewaxed,,200 mm,,2027",
     "stock.csv:2:18: row 1, amount: expected an amount such as \"500 ml\" or \"1 kg\", found \"200 mm\"\n"
     "stock.csv:2:26: row 1, best-before: expected a date such as \"2027-03-05\", found \"2027\""},
    {ROW("no such day"), "shellac-dewaxed,,200 ml,,2027-02-30",
     "stock.csv:2:26: row 1, best-before: expected a day that exists: Feb 2027 has 28 days, found "
     "\"2027-02-30\""},
    {ROW("no unit"), "shellac-dewaxed,,200,,",
     "stock.csv:2:18: row 1, amount: expected an amount with a unit, such as \"500 ml\" or \"1 kg\", found "
     "\"200\""},
    {ROW("less than nothing"), "shellac-dewaxed,,-200 ml,,",
     "stock.csv:2:18: row 1, amount: expected an amount that is not negative, found \"-200 ml\""},
    {ROW("no amount"), "shellac-dewaxed,,,,",
     "stock.csv:2:18: row 1, amount: expected an amount such as \"500 ml\" or \"1 kg\", found nothing"},
    {ROW("no finish"), ",,200 ml,,",
     "stock.csv:2:1: row 1, finish: expected a finish of the table, found nothing"},
    {ROW("a finish misspelt"), "shellac-dewaxd,,200 ml,,",
     "stock.csv:2:1: row 1, finish: expected a finish of the table, found \"shellac-dewaxd\" (did you mean "
     "\"shellac-dewaxed\"?)"},
    {ROW("which component?"), "hardwax-oil-two-part,,200 ml,,",
     "stock.csv:2:22: row 1, component: expected a component of this finish, found nothing"},
    {ROW("a component misspelt"), "hardwax-oil-two-part,hardner,200 ml,,",
     "stock.csv:2:22: row 1, component: expected a component of this finish, found \"hardner\" (did you mean "
     "\"hardener\"?)"},
};

static const char *told_of_stock(struct reader *reader, const struct err_list *list)
{
    const char *told = "";
    for (size_t i = 0; i < list->count; i++) {
        char line[ERR_LINE_SIZE];
        err_format(&list->items[i], line, sizeof line);
        if (strcmp(list->items[i].file, "stock.csv") == 0)
            told = arena_textf(reader->arena, "%s%s%s", told, *told ? "\n" : "", line);
    }
    return told;
}

/* `text`: the whole list. */
static void list_is_judged(struct reader *reader, const struct stock_row *r, const char *text)
{
    reader_path(reader, "stock.csv", text);
    const char *job =
        reader_swap(reader, job_text_job, "\"parts.csv\"", "\"parts.csv\", \"stock\": \"stock.csv\"");
    const struct job *read = job_text_read_as(reader, job);
    check_int(&r->row, read == NULL, reader->errors.count > 0);
    check_text(&r->row, told_of_stock(reader, reader->errors.count ? &reader->errors : &reader->warnings),
               r->want);
}

static void stock_is_judged(void **state)
{
    const struct stock_row *r = *state;
    struct reader *reader = reader_make();
    list_is_judged(reader, r,
                   arena_textf(reader->arena, "finish,component,amount,opened,best-before\n%s\n", r->text));
    reader_free(reader);
}

/* Lists that are wrong as a whole. */
static const struct stock_row lists[] = {
    {ROW("unknown column"), "finish,component,amount,opend\nshellac-dewaxed,,1 l,\n",
     "stock.csv:1:25: expected a column of a stock list, found \"opend\" (did you mean \"opened\"?)"},
    {ROW("a ragged row"), "finish,component,amount\nshellac-dewaxed,1 l\n",
     "stock.csv:2:1: row 1: expected 3 cells, as in the heading, found 2"},
    {ROW("an empty file"), "", "stock.csv:1:1: expected a row of column names, found an empty file"},
    {ROW("no can on the shelf"), "finish,component,amount\n", ""},
};

static void whole_list_is_judged(void **state)
{
    const struct stock_row *r = *state;
    struct reader *reader = reader_make();
    list_is_judged(reader, r, r->text);
    reader_free(reader);
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_ROWS(stocks, stock_is_judged), CHECK_ROWS(lists, whole_list_is_judged));
}
