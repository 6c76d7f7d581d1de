/* Every example of RFC 5545, section 3.8.5.3, expands as it is printed there. The moments are those of the wall. */
#include "check.h"

#include "base/arena.h"
#include "base/buf.h"
#include "format/ical_rule.h"

#include <string.h>

struct rule_row {
    struct row row;
    const char *begin, *rule, *want; /* days, month by month, up to as many as are printed */
};

#define SEP2 "19970902T090000"
#define ALL_DAYS "BYDAY=SU,MO,TU,WE,TH,FR,SA"
#define TO_31 "1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24 25 26 27 28 29 30 31"
#define JANUARIES "1998 Jan " TO_31 " 1999 Jan " TO_31 " 2000 Jan " TO_31

static const struct rule_row rules[] = {
    {ROW("daily for 10"), SEP2, "FREQ=DAILY;COUNT=10", "1997 Sep 2 3 4 5 6 7 8 9 10 11"},
    {ROW("daily until 24 December"), SEP2, "FREQ=DAILY;UNTIL=19971224T000000Z",
     "1997 Sep 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24 25 26 27 28 29 30 Oct " TO_31
     " Nov 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24 25 26 27 28 29 30"
     " Dec 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23"},
    {ROW("every other day"), SEP2, "FREQ=DAILY;INTERVAL=2",
     "1997 Sep 2 4 6 8 10 12 14 16 18 20 22 24 26 28 30 Oct 2 4 6 8 10 12 14 16 18 20 22 24 26 28 30 Nov 1 3 "
     "5 7 9 11 13 15 17 19 21 23 25 27 29 Dec 1 3"},
    {ROW("every 10 days"), SEP2, "FREQ=DAILY;INTERVAL=10;COUNT=5", "1997 Sep 2 12 22 Oct 2 12"},
    {ROW("every day in January, by the year"), "19980101T090000",
     "FREQ=YEARLY;UNTIL=20000131T140000Z;BYMONTH=1;" ALL_DAYS, JANUARIES},
    {ROW("every day in January, by the day"), "19980101T090000",
     "FREQ=DAILY;UNTIL=20000131T140000Z;BYMONTH=1", JANUARIES},
    {ROW("weekly for 10"), SEP2, "FREQ=WEEKLY;COUNT=10", "1997 Sep 2 9 16 23 30 Oct 7 14 21 28 Nov 4"},
    {ROW("weekly until 24 December"), SEP2, "FREQ=WEEKLY;UNTIL=19971224T000000Z",
     "1997 Sep 2 9 16 23 30 Oct 7 14 21 28 Nov 4 11 18 25 Dec 2 9 16 23"},
    {ROW("every other week"), SEP2, "FREQ=WEEKLY;INTERVAL=2;WKST=SU",
     "1997 Sep 2 16 30 Oct 14 28 Nov 11 25 Dec 9 23 1998 Jan 6 20 Feb 3 17"},
    {ROW("Tuesday and Thursday for five weeks"), SEP2,
     "FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH", "1997 Sep 2 4 9 11 16 18 23 25 30 Oct 2"},
    {ROW("the same by count"), SEP2, "FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH",
     "1997 Sep 2 4 9 11 16 18 23 25 30 Oct 2"},
    {ROW("every other week on three days"), "19970901T090000",
     "FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR",
     "1997 Sep 1 3 5 15 17 19 29 Oct 1 3 13 15 17 27 29 31 Nov 10 12 14 24 26 28 Dec 8 10 12 22"},
    {ROW("every other week on two, for 8"), SEP2, "FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH",
     "1997 Sep 2 4 16 18 30 Oct 2 14 16"},
    {ROW("the first Friday for 10"), "19970905T090000", "FREQ=MONTHLY;COUNT=10;BYDAY=1FR",
     "1997 Sep 5 Oct 3 Nov 7 Dec 5 1998 Jan 2 Feb 6 Mar 6 Apr 3 May 1 Jun 5"},
    {ROW("the first Friday until 24 December"), "19970905T090000",
     "FREQ=MONTHLY;UNTIL=19971224T000000Z;BYDAY=1FR", "1997 Sep 5 Oct 3 Nov 7 Dec 5"},
    {ROW("first and last Sunday of every other month"), "19970907T090000",
     "FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU",
     "1997 Sep 7 28 Nov 2 30 1998 Jan 4 25 Mar 1 29 May 3 31"},
    {ROW("the last Monday but one"), "19970922T090000", "FREQ=MONTHLY;COUNT=6;BYDAY=-2MO",
     "1997 Sep 22 Oct 20 Nov 17 Dec 22 1998 Jan 19 Feb 16"},
    {ROW("the last day but two"), "19970928T090000", "FREQ=MONTHLY;BYMONTHDAY=-3",
     "1997 Sep 28 Oct 29 Nov 28 Dec 29 1998 Jan 29 Feb 26"},
    {ROW("the 2nd and the 15th"), SEP2, "FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15",
     "1997 Sep 2 15 Oct 2 15 Nov 2 15 Dec 2 15 1998 Jan 2 15"},
    {ROW("the first and the last day"), "19970930T090000", "FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1",
     "1997 Sep 30 Oct 1 31 Nov 1 30 Dec 1 31 1998 Jan 1 31 Feb 1"},
    {ROW("every 18 months"), "19970910T090000",
     "FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15",
     "1997 Sep 10 11 12 13 14 15 1999 Mar 10 11 12 13"},
    {ROW("every Tuesday of every other month"), SEP2, "FREQ=MONTHLY;INTERVAL=2;BYDAY=TU",
     "1997 Sep 2 9 16 23 30 Nov 4 11 18 25 1998 Jan 6 13 20 27 Mar 3 10 17 24 31"},
    {ROW("June and July"), "19970610T090000", "FREQ=YEARLY;COUNT=10;BYMONTH=6,7",
     "1997 Jun 10 Jul 10 1998 Jun 10 Jul 10 1999 Jun 10 Jul 10 2000 Jun 10 Jul 10 2001 Jun 10 Jul 10"},
    {ROW("every other year in three months"), "19970310T090000",
     "FREQ=YEARLY;INTERVAL=2;COUNT=10;BYMONTH=1,2,3",
     "1997 Mar 10 1999 Jan 10 Feb 10 Mar 10 2001 Jan 10 Feb 10 Mar 10 2003 Jan 10 Feb 10 Mar 10"},
    {ROW("three days of every third year"), "19970101T090000",
     "FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200",
     "1997 Jan 1 Apr 10 Jul 19 2000 Jan 1 Apr 9 Jul 18 2003 Jan 1 Apr 10 Jul 19 2006 Jan 1"},
    {ROW("the 20th Monday of the year"), "19970519T090000", "FREQ=YEARLY;BYDAY=20MO",
     "1997 May 19 1998 May 18 1999 May 17"},
    {ROW("Monday of week 20"), "19970512T090000", "FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO",
     "1997 May 12 1998 May 11 1999 May 17"},
    {ROW("week 20, on the weekday of the start"), "19970512T090000", "FREQ=YEARLY;BYWEEKNO=20",
     "1997 May 12 1998 May 11 1999 May 17"},
    {ROW("the first Friday, with its sign"), "19970905T090000", "FREQ=MONTHLY;COUNT=3;BYDAY=+1FR",
     "1997 Sep 5 Oct 3 Nov 7"},
    {ROW("the second day of the month, with its sign"), SEP2, "FREQ=MONTHLY;COUNT=3;BYMONTHDAY=+2",
     "1997 Sep 2 Oct 2 Nov 2"},
    {ROW("Thursdays in March"), "19970313T090000", "FREQ=YEARLY;BYMONTH=3;BYDAY=TH",
     "1997 Mar 13 20 27 1998 Mar 5 12 19 26 1999 Mar 4 11 18 25"},
    {ROW("Thursdays of the summer"), "19970605T090000", "FREQ=YEARLY;BYDAY=TH;BYMONTH=6,7,8",
     "1997 Jun 5 12 19 26 Jul 3 10 17 24 31 Aug 7 14 21 28 1998 Jun 4 11 18 25 Jul 2 9 16 23 30 Aug 6 13 20 "
     "27 "
     "1999 Jun 3 10 17 24 Jul 1 8 15 22 29 Aug 5 12 19 26"},
    {ROW("every Friday the 13th"), SEP2, "FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13",
     "1998 Feb 13 Mar 13 Nov 13 1999 Aug 13 2000 Oct 13"},
    {ROW("the Saturday after the first Sunday"), "19970913T090000",
     "FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13",
     "1997 Sep 13 Oct 11 Nov 8 Dec 13 1998 Jan 10 Feb 7 Mar 7 Apr 11 May 9 Jun 13"},
    {ROW("the Tuesday after a Monday in November"), "19961105T090000",
     "FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8",
     "1996 Nov 5 2000 Nov 7 2004 Nov 2"},
    {ROW("the third of three weekdays"), "19970904T090000", "FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3",
     "1997 Sep 4 Oct 7 Nov 6"},
    {ROW("the last working day but one"), "19970929T090000", "FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2",
     "1997 Sep 29 Oct 30 Nov 27 Dec 30 1998 Jan 29 Feb 26 Mar 30"},
    {ROW("a week that begins on Monday"), "19970805T090000",
     "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO", "1997 Aug 5 10 19 24"},
    {ROW("a week that begins on Sunday"), "19970805T090000",
     "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", "1997 Aug 5 17 19 31"},
    {ROW("a date that does not exist"), "20070115T090000", "FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5",
     "2007 Jan 15 30 Feb 15 Mar 15 30"},
    /* 3.3.10: the last weekday of the month */
    {ROW("the last work day"), "19970930T090000", "FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-1;COUNT=3",
     "1997 Sep 30 Oct 31 Nov 28"},
};

/* All on 2 September 1997. UNTIL is read as the wall's, as the printed list has it. */
static const struct rule_row times[] = {
    {ROW("every 3 hours from 9 to 5"), SEP2, "FREQ=HOURLY;INTERVAL=3;UNTIL=19970902T170000",
     "09:00 12:00 15:00"},
    {ROW("every 15 minutes for 6"), SEP2, "FREQ=MINUTELY;INTERVAL=15;COUNT=6",
     "09:00 09:15 09:30 09:45 10:00 10:15"},
    {ROW("every hour and a half for 4"), SEP2, "FREQ=MINUTELY;INTERVAL=90;COUNT=4",
     "09:00 10:30 12:00 13:30"},
    {ROW("every 20 minutes, by the day"), SEP2, "FREQ=DAILY;BYHOUR=9,10,11,12,13,14,15,16;BYMINUTE=0,20,40",
     "09:00 09:20 09:40 10:00 10:20 10:40 11:00 11:20 11:40 12:00 12:20 12:40 13:00 13:20 13:40 14:00 14:20 "
     "14:40 "
     "15:00 15:20 15:40 16:00 16:20 16:40"},
    {ROW("every 20 minutes, by the minute"), SEP2, "FREQ=MINUTELY;INTERVAL=20;BYHOUR=9,10,11,12,13,14,15,16",
     "09:00 09:20 09:40 10:00 10:20 10:40 11:00 11:20 11:40 12:00 12:20 12:40 13:00 13:20 13:40 14:00 14:20 "
     "14:40 "
     "15:00 15:20 15:40 16:00 16:20 16:40"},
};

struct printing {
    struct buf out;
    const struct ical_rule *rule;
    const char *want;
    struct date last;
    bool times;
};

static bool print(void *to, struct ical_time start)
{
    struct printing *p = to;
    struct date date = date_of(start.day);
    const struct ical_time *until = &p->rule->until;
    if (p->rule->ends &&
        (start.day > until->day || (start.day == until->day && start.minute > until->minute)))
        return false;
    if (p->times && start.day != date_days((struct date){1997, 9, 2}))
        return false;
    if (!p->times && date.year != p->last.year)
        buf_addf(&p->out, "%s%d", p->out.length ? " " : "", date.year);
    if (!p->times && (date.year != p->last.year || date.month != p->last.month))
        buf_addf(&p->out, " %s", month_name(date.month));
    if (p->times)
        buf_addf(&p->out, "%s%s", p->out.length ? " " : "", time_format(start.minute).text);
    else
        buf_addf(&p->out, " %d", date.day);
    p->last = date;
    return p->rule->ends || p->rule->count || p->out.length < strlen(p->want);
}

static const char *expanded(struct arena *arena, const struct rule_row *r, bool by_time, int64_t from_day)
{
    struct ical_rule rule;
    struct ical_time begin;
    const char *expected, *next;
    int64_t steps = 1000000;
    struct printing p = {.rule = &rule, .want = r->want, .times = by_time};
    buf_init(&p.out, arena);
    if (!ical_rule_read(r->rule, &rule, &expected) || !ical_time_read(r->begin, &begin, &next))
        return "not read";
    (void)ical_rule_walk(&rule, begin, from_day, begin.day + 4000, (struct ical_taker){&p, print}, &steps);
    return p.out.text;
}

static void rule_is(void **state)
{
    const struct rule_row *r = *state;
    struct arena *arena = arena_make(0);
    check_text(&r->row, expanded(arena, r, false, 0), r->want);
    arena_free(arena);
}

static void times_are(void **state)
{
    const struct rule_row *r = *state;
    struct arena *arena = arena_make(0);
    check_text(&r->row, expanded(arena, r, true, 0), r->want);
    arena_free(arena);
}

struct starts {
    int64_t at[4000];
    size_t count;
    int64_t from_day;
};

static bool collect(void *to, struct ical_time start)
{
    struct starts *starts = to;
    if (start.day >= starts->from_day && starts->count < sizeof starts->at / sizeof starts->at[0])
        starts->at[starts->count++] = start.day * DAY_MINUTES + start.minute;
    return true;
}

/* Looking at a later window leaves out the way to it, not what is in it. */
static void a_window_shows_the_same(void **state)
{
    (void)state;
    static struct starts whole, window;
    const struct rule_row *tables[] = {rules, times};
    size_t sizes[] = {sizeof rules / sizeof rules[0], sizeof times / sizeof times[0]};
    for (size_t t = 0; t < 2; t++)
        for (size_t i = 0; i < sizes[t]; i++) {
            const struct rule_row *r = &tables[t][i];
            struct ical_rule rule;
            struct ical_time begin;
            const char *expected, *next;
            int64_t steps = 100000000;
            assert_true(ical_rule_read(r->rule, &rule, &expected) && ical_time_read(r->begin, &begin, &next));
            for (int64_t after = 0; after < 900; after += 37) {
                int64_t from = begin.day + after, to = from + 60;
                whole.count = window.count = 0;
                whole.from_day = window.from_day = from;
                assert_true(ical_rule_walk(&rule, begin, begin.day, to, (struct ical_taker){&whole, collect},
                                           &steps));
                assert_true(
                    ical_rule_walk(&rule, begin, from, to, (struct ical_taker){&window, collect}, &steps));
                check_true(&r->row,
                           whole.count == window.count &&
                               memcmp(whole.at, window.at, whole.count * sizeof whole.at[0]) == 0,
                           "the same starts");
            }
        }
}

struct wrong_row {
    struct row row;
    const char *rule;
};

#define DAYS_50                                                                                              \
    "1,2,3,4,5,6,7,8,9,10,11,12,13,14,15,16,17,18,19,20,21,22,23,24,25,26,27,28,29,30,31,32,33,34,35,36,37," \
    "38,39,40,41,42,43,44,45,46,47,48,49,50"
#define DAYS_200 DAYS_50 "," DAYS_50 "," DAYS_50 "," DAYS_50
#define MANY_DAYS "FREQ=YEARLY;BYYEARDAY=" DAYS_200 "," DAYS_200 "," DAYS_50

static const struct wrong_row wrongs[] = {
    {ROW("nothing"), ""},
    {ROW("words"), "every day"},
    {ROW("no frequency"), "COUNT=3"},
    {ROW("another frequency"), "FREQ=SOMETIMES"},
    {ROW("interval 0"), "FREQ=DAILY;INTERVAL=0"},
    {ROW("count 0"), "FREQ=DAILY;COUNT=0"},
    {ROW("month 13"), "FREQ=DAILY;BYMONTH=13"},
    {ROW("month -1"), "FREQ=DAILY;BYMONTH=-1"},
    {ROW("day 0"), "FREQ=MONTHLY;BYMONTHDAY=0"},
    {ROW("day 32"), "FREQ=MONTHLY;BYMONTHDAY=32"},
    {ROW("week 54"), "FREQ=YEARLY;BYWEEKNO=54"},
    {ROW("hour 24"), "FREQ=DAILY;BYHOUR=24"},
    {ROW("no weekday"), "FREQ=WEEKLY;BYDAY=XX"},
    {ROW("ordinal 0"), "FREQ=MONTHLY;BYDAY=0MO"},
    {ROW("an empty list"), "FREQ=WEEKLY;BYDAY="},
    {ROW("a list cut off"), "FREQ=WEEKLY;BYDAY=MO,"},
    {ROW("until no date"), "FREQ=DAILY;UNTIL=tomorrow"},
    {ROW("until 30 February"), "FREQ=DAILY;UNTIL=20270230"},
    {ROW("an unknown part"), "FREQ=DAILY;BYEASTER=1"},
    {ROW("another calendar"), "RSCALE=CHINESE;FREQ=DAILY"},
    {ROW("several seconds"), "FREQ=DAILY;BYSECOND=0,30"},
    {ROW("no second"), "FREQ=DAILY;BYSECOND=x"},
    {ROW("a sign alone"), "FREQ=MONTHLY;BYMONTHDAY=-"},
    {ROW("a word behind a number"), "FREQ=MONTHLY;BYMONTHDAY=1st"},
    {ROW("a word behind a weekday"), "FREQ=WEEKLY;BYDAY=MONDAY"},
    {ROW("ordinal 54"), "FREQ=YEARLY;BYDAY=54MO"},
    {ROW("an ordinal alone"), "FREQ=YEARLY;BYDAY=-1"},
    {ROW("position 0"), "FREQ=MONTHLY;BYDAY=MO;BYSETPOS=0"},
    {ROW("minute 60"), "FREQ=DAILY;BYMINUTE=60"},
    {ROW("minute -1"), "FREQ=DAILY;BYMINUTE=-1"},
    {ROW("count in words"), "FREQ=DAILY;COUNT=three"},
    {ROW("a week that begins on no day"), "FREQ=WEEKLY;WKST=M"},
    {ROW("until a moment and more"), "FREQ=DAILY;UNTIL=20270302T090000Z/20270303T090000Z"},
    {ROW("until two moments"), "FREQ=DAILY;UNTIL=20270302,20270303"},
    {ROW("months to be skipped"), "FREQ=MONTHLY;SKIP=OMIT"},
    {ROW("a part without a value"), "FREQ=DAILY;COUNT"},
    {ROW("more days than a year has"), MANY_DAYS},
};

static void is_refused(void **state)
{
    const struct wrong_row *r = *state;
    struct ical_rule rule;
    const char *expected;
    check_true(&r->row, !ical_rule_read(r->rule, &rule, &expected), "refused");
}

/* A rule that never comes true, and one that counts through the centuries, end with their steps. */
static void steps_are_bounded(void **state)
{
    (void)state;
    static const char *const endless[] = {"FREQ=MINUTELY;BYMONTH=2;BYMONTHDAY=30",
                                          "FREQ=MINUTELY;COUNT=999999999;BYHOUR=5",
                                          "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30;COUNT=5"};
    for (size_t i = 0; i < sizeof endless / sizeof endless[0]; i++) {
        static struct starts starts;
        struct ical_rule rule;
        struct ical_time begin = {.day = date_days((struct date){1900, 1, 1})};
        const char *expected;
        int64_t steps = 100000;
        starts.count = 0;
        assert_true(ical_rule_read(endless[i], &rule, &expected));
        int64_t last = date_days((struct date){2030, 1, 1});
        bool whole =
            ical_rule_walk(&rule, begin, last - 40, last, (struct ical_taker){&starts, collect}, &steps);
        check_true(HERE, whole ? steps > 0 : steps <= 0, endless[i]);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(rules, rule_is), CHECK_ROWS(times, times_are),
                     CHECK_TEST(a_window_shows_the_same), CHECK_ROWS(wrongs, is_refused),
                     CHECK_TEST(steps_are_bounded));
}
