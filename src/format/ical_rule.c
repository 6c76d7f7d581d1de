#include "format/ical_rule.h"

#include "base/number.h"

#include <stdlib.h>
#include <string.h>

enum { INTERVAL_MOST = 1000000 };

static bool name_is(const char *text, size_t length, const char *name)
{
    return text_same_n(text, length, name);
}

/* One number of a list, with its sign. */
static bool take_number(const char **at, long most, long *number)
{
    char *end;
    bool sign = **at == '-' || **at == '+';
    if ((*at)[sign] < '0' || (*at)[sign] > '9')
        return false;
    *number = strtol(*at, &end, 10);
    *at = end;
    return *number >= -most && *number <= most;
}

/* Whether a list goes on, or the part of the rule ends here. */
static bool list_goes_on(const char **at, bool *more)
{
    *more = **at == ',';
    *at += *more;
    return *more || **at == '\0' || **at == ';';
}

static bool read_list(const char **at, long least, long most, struct ical_by *by)
{
    bool more = true;
    for (by->count = 0; more;) {
        long number;
        if (!take_number(at, most, &number) || (number > -least && number < least) ||
            by->count == ICAL_BY_MOST)
            return false;
        by->items[by->count++] = (short)number;
        if (!list_goes_on(at, &more))
            return false;
    }
    return true;
}

static bool read_bits(const char **at, long least, long most, uint64_t *bits)
{
    struct ical_by by;
    if (!read_list(at, 0, most, &by))
        return false;
    for (int i = 0; i < by.count; i++) {
        if (by.items[i] < least)
            return false;
        *bits |= (uint64_t)1 << by.items[i];
    }
    return true;
}

static bool take_weekday(const char **at, enum weekday *weekday)
{
    static const char names[] = "MOTUWETHFRSASU";
    for (int i = 0; i < 7; i++)
        if (name_is(*at, strlen(*at) < 2 ? 0 : 2, (const char[]){names[2 * i], names[2 * i + 1], '\0'})) {
            *weekday = (enum weekday)i;
            *at += 2;
            return true;
        }
    return false;
}

static bool read_weekdays(const char **at, struct ical_by *by)
{
    bool more = true;
    for (by->count = 0; more;) {
        long ordinal = 0;
        enum weekday weekday;
        bool numbered = **at == '-' || **at == '+' || (**at >= '0' && **at <= '9');
        if ((numbered && (!take_number(at, 53, &ordinal) || ordinal == 0)) || !take_weekday(at, &weekday) ||
            by->count == ICAL_BY_MOST)
            return false;
        by->items[by->count++] = (short)(8 * ordinal + (int)weekday);
        if (!list_goes_on(at, &more))
            return false;
    }
    return true;
}

static bool read_frequency(const char **at, enum ical_frequency *frequency)
{
    static const char *const names[] = {
        [ICAL_YEARLY] = "YEARLY",    [ICAL_MONTHLY] = "MONTHLY", [ICAL_WEEKLY] = "WEEKLY",
        [ICAL_DAILY] = "DAILY",      [ICAL_HOURLY] = "HOURLY",   [ICAL_MINUTELY] = "MINUTELY",
        [ICAL_SECONDLY] = "SECONDLY"};
    size_t length = strcspn(*at, ";");
    for (int i = ICAL_YEARLY; i <= ICAL_SECONDLY; i++)
        if (name_is(*at, length, names[i])) {
            *frequency = (enum ical_frequency)i;
            *at += length;
            return true;
        }
    return false;
}

static bool read_until(const char **at, struct ical_rule *rule)
{
    char text[24];
    const char *next;
    size_t length = strcspn(*at, ";");
    if (length >= sizeof text)
        return false;
    memcpy(text, *at, length);
    text[length] = '\0';
    *at += length;
    rule->ends = true;
    return ical_time_read(text, &rule->until, &next) && *next == '\0';
}

static bool read_positive(const char **at, int64_t most, int64_t *value)
{
    long number;
    if (!take_number(at, INTERVAL_MOST * 1000L, &number) || number < 1)
        return false;
    *value = number < most ? number : most;
    return true;
}

/* Seconds play no part in plans by the minute; several of them would count for several occurrences. */
static bool read_second(const char **at)
{
    struct ical_by by;
    return read_list(at, 0, 60, &by) && by.count == 1;
}

/* The value of one part; *at moves to its end. */
static bool read_part(const char *name, size_t length, const char **at, struct ical_rule *rule)
{
    uint64_t bits = 0;
    bool good = true;
    if (name_is(name, length, "FREQ"))
        return read_frequency(at, &rule->frequency);
    if (name_is(name, length, "UNTIL"))
        return read_until(at, rule);
    if (name_is(name, length, "COUNT"))
        return read_positive(at, INT64_MAX, &rule->count);
    if (name_is(name, length, "INTERVAL"))
        return read_positive(at, INTERVAL_MOST, &rule->interval);
    if (name_is(name, length, "WKST"))
        return take_weekday(at, &rule->week_start);
    if (name_is(name, length, "BYDAY"))
        return read_weekdays(at, &rule->week_days);
    if (name_is(name, length, "BYMONTHDAY"))
        return read_list(at, 1, 31, &rule->month_days);
    if (name_is(name, length, "BYYEARDAY"))
        return read_list(at, 1, 366, &rule->year_days);
    if (name_is(name, length, "BYWEEKNO"))
        return read_list(at, 1, 53, &rule->weeks);
    if (name_is(name, length, "BYSETPOS"))
        return read_list(at, 1, 366, &rule->positions);
    if (name_is(name, length, "BYMINUTE"))
        return read_bits(at, 0, 59, &rule->minutes);
    if (name_is(name, length, "BYSECOND"))
        return read_second(at);
    if (name_is(name, length, "BYMONTH")) {
        good = read_bits(at, 1, 12, &bits);
        rule->months = (unsigned)bits;
    } else if (name_is(name, length, "BYHOUR")) {
        good = read_bits(at, 0, 23, &bits);
        rule->hours = (unsigned)bits;
    } else {
        good = false;
    }
    return good;
}

bool ical_rule_read(const char *text, struct ical_rule *rule, const char **expected)
{
    bool frequency = false;
    memset(rule, 0, sizeof *rule);
    rule->interval = 1;
    *expected = "a value that RRULE can have";
    while (*text) {
        size_t length = strcspn(text, "=;");
        const char *at = text + length + 1;
        if (text[length] != '=')
            return false;
        if (name_is(text, length, "RSCALE") || name_is(text, length, "SKIP")) {
            *expected = "a rule by minute, hour, day, week, month or year of the usual calendar";
            return false;
        }
        if (!read_part(text, length, &at, rule) || (*at && *at != ';'))
            return false;
        frequency |= name_is(text, length, "FREQ");
        text = at + (*at == ';');
    }
    return frequency;
}

/* A rule on its way, with what it leaves open taken from its first start. */
struct walk {
    struct ical_rule rule;
    struct ical_time begin;
    int64_t from_day, to_day;
    struct ical_taker taker;
    int64_t steps; /* left */
    int64_t given; /* starts so far, told or not */
    bool over;     /* no more are wanted */
};

static int64_t week_start(const struct ical_rule *rule, int64_t day)
{
    return day - (weekday_of(day) - rule->week_start + 7) % 7;
}

/* Week 1 is the one with 4 January: the first with four days in the year. */
static int64_t first_week(const struct ical_rule *rule, int year)
{
    return week_start(rule, date_days((struct date){year, 1, 4}));
}

static bool has(const struct ical_by *by, int64_t number, int64_t backwards)
{
    for (int i = 0; i < by->count; i++)
        if (by->items[i] == number || by->items[i] == backwards)
            return true;
    return false;
}

static bool week_matches(const struct ical_rule *rule, int64_t day)
{
    int64_t start = week_start(rule, day);
    int year = date_of(start + 3).year;
    int64_t first = first_week(rule, year), next = first_week(rule, year + 1);
    int64_t number = (start - first) / 7 + 1;
    return has(&rule->weeks, number, number - (next - first) / 7 - 1);
}

/* The how-manieth weekday of its kind in the month, or in the year, from either end. */
static bool weekday_matches(const struct ical_rule *rule, int64_t day, struct date date)
{
    int weekday = (int)weekday_of(day);
    bool by_year = rule->frequency == ICAL_YEARLY && !rule->months;
    int64_t first = date_days((struct date){date.year, by_year ? 1 : date.month, 1});
    int64_t length = by_year ? 365 + year_leap(date.year) : month_days(date.year, date.month);
    int64_t place = (day - first) / 7 + 1, back = -((first + length - 1 - day) / 7 + 1);
    bool ordinals = rule->frequency <= ICAL_MONTHLY && rule->weeks.count == 0;
    for (int i = 0; i < rule->week_days.count; i++) {
        int wanted = rule->week_days.items[i], of = ((wanted % 8) + 8) % 8;
        int64_t ordinal = number_floor_div(wanted, 8);
        if (of == weekday && (ordinal == 0 || !ordinals || ordinal == place || ordinal == back))
            return true;
    }
    return false;
}

static bool day_matches(const struct ical_rule *rule, int64_t day)
{
    struct date date = date_of(day);
    if (rule->months && !(rule->months >> date.month & 1))
        return false;
    if (rule->month_days.count &&
        !has(&rule->month_days, date.day, date.day - month_days(date.year, date.month) - 1))
        return false;
    if (rule->year_days.count) {
        int64_t number = day - date_days((struct date){date.year, 1, 1}) + 1;
        if (!has(&rule->year_days, number, number - (365 + year_leap(date.year)) - 1))
            return false;
    }
    return (!rule->weeks.count || week_matches(rule, day)) &&
           (!rule->week_days.count || weekday_matches(rule, day, date));
}

/* Days, and minutes of a day, in which a rule may begin something. */
struct period {
    int64_t first_day, last_day;
    int first_minute, last_minute;
};

static bool spend(struct walk *walk)
{
    return --walk->steps > 0;
}

static void give(struct walk *walk, int64_t day, int minute)
{
    struct ical_time start = walk->begin;
    if (day < walk->begin.day || (day == walk->begin.day && minute < walk->begin.minute))
        return;
    walk->given++;
    start.day = day;
    start.minute = minute;
    walk->over = (day >= walk->from_day && !walk->taker.take(walk->taker.to, start)) || day > walk->to_day ||
                 walk->given == walk->rule.count;
}

/* Every start of a period, or only how many there are; with BYSETPOS those at its positions among `of`. */
static int64_t expand(struct walk *walk, struct period period, int64_t of, bool giving)
{
    const struct ical_rule *rule = &walk->rule;
    int64_t number = 0;
    for (int64_t day = period.first_day; day <= period.last_day && !walk->over; day++) {
        if (!spend(walk) || !day_matches(rule, day))
            continue;
        for (int minute = period.first_minute; minute <= period.last_minute && !walk->over; minute++) {
            if (!(rule->hours >> minute / 60 & 1)) {
                minute += 59 - minute % 60;
                continue;
            }
            if (!(rule->minutes >> minute % 60 & 1))
                continue;
            number++;
            if (spend(walk) && giving && (of < 0 || has(&rule->positions, number, number - of - 1)))
                give(walk, day, minute);
        }
    }
    return number;
}

static void expand_period(struct walk *walk, struct period period)
{
    int64_t of = walk->rule.positions.count ? expand(walk, period, -1, false) : -1;
    (void)expand(walk, period, of, true);
}

/* What a rule does not say its first start does. */
static void complete(struct ical_rule *rule, struct ical_time begin)
{
    struct date date = date_of(begin.day);
    bool days = rule->month_days.count || rule->year_days.count || rule->week_days.count;
    if (rule->frequency <= ICAL_MONTHLY && !days && !rule->weeks.count) {
        rule->month_days = (struct ical_by){.count = 1, .items = {(short)date.day}};
        if (rule->frequency == ICAL_YEARLY && !rule->months)
            rule->months = 1u << date.month;
    } else if ((rule->frequency == ICAL_WEEKLY || rule->weeks.count) && !days) {
        rule->week_days = (struct ical_by){.count = 1, .items = {(short)weekday_of(begin.day)}};
    }
    bool by_hour = rule->frequency == ICAL_HOURLY, by_minute = rule->frequency == ICAL_MINUTELY;
    if (!rule->hours)
        rule->hours = by_hour || by_minute ? ~0u : 1u << begin.minute / 60;
    if (!rule->minutes)
        rule->minutes = by_minute ? ~(uint64_t)0 : (uint64_t)1 << begin.minute % 60;
}

/* How many periods at the beginning may be passed over: all starts in them lie before the days that are asked for. Where
 * starts are counted, only rules that have one in each period can be. */
static int64_t passed_over(const struct walk *walk, const struct ical_rule *bare, int64_t periods)
{
    const struct ical_rule *rule = &walk->rule;
    bool plain = !bare->months && !bare->hours && !bare->minutes && !bare->weeks.count &&
                 !bare->year_days.count && !bare->month_days.count && !bare->week_days.count &&
                 !bare->positions.count;
    int64_t whole = number_floor_div(periods - 2, rule->interval);
    if (whole <= 0 || (rule->count && (!plain || rule->frequency <= ICAL_MONTHLY)))
        return 0;
    return rule->count && whole >= rule->count ? rule->count - 1 : whole;
}

static struct period month_of(struct walk *walk, int64_t number)
{
    struct date first = date_of(walk->begin.day);
    int64_t months = (int64_t)first.year * 12 + first.month - 1 + number;
    int year = (int)(months / 12), month = (int)(months % 12) + 1;
    int64_t day = date_days((struct date){year, month, 1});
    return (struct period){day, day + month_days(year, month) - 1, 0, DAY_MINUTES - 1};
}

/* The period that begins `number` years, months, ... after the first. */
static struct period period_of(struct walk *walk, int64_t number)
{
    int64_t minute, day = walk->begin.day;
    int year;
    switch (walk->rule.frequency) {
    case ICAL_YEARLY:
        year = date_of(day).year + (int)number;
        return (struct period){date_days((struct date){year, 1, 1}), date_days((struct date){year, 12, 31}),
                               0, DAY_MINUTES - 1};
    case ICAL_MONTHLY:
        return month_of(walk, number);
    case ICAL_WEEKLY:
        day = week_start(&walk->rule, day) + 7 * number;
        return (struct period){day, day + 6, 0, DAY_MINUTES - 1};
    case ICAL_DAILY:
        return (struct period){day + number, day + number, 0, DAY_MINUTES - 1};
    case ICAL_HOURLY:
        minute = day * DAY_MINUTES + walk->begin.minute / 60 * 60 + 60 * number;
        day = number_floor_div(minute, DAY_MINUTES);
        minute -= day * DAY_MINUTES;
        return (struct period){day, day, (int)minute, (int)minute + 59};
    default:
        minute = day * DAY_MINUTES + walk->begin.minute + number;
        day = number_floor_div(minute, DAY_MINUTES);
        minute -= day * DAY_MINUTES;
        return (struct period){day, day, (int)minute, (int)minute};
    }
}

/* Periods between the first one and the days that are asked for, rather too few than too many. */
static int64_t periods_before(const struct walk *walk)
{
    int64_t days = walk->from_day - walk->begin.day;
    switch (walk->rule.frequency) {
    case ICAL_YEARLY:
        return days / 366;
    case ICAL_MONTHLY:
        return days / 31;
    case ICAL_WEEKLY:
        return days / 7;
    case ICAL_DAILY:
        return days;
    case ICAL_HOURLY:
        return days * 24 - walk->begin.minute / 60;
    default:
        return days * DAY_MINUTES - walk->begin.minute;
    }
}

static bool walk_on(struct walk *walk, int64_t skipped)
{
    for (int64_t k = skipped; !walk->over; k++) {
        struct period period = period_of(walk, k * walk->rule.interval);
        if (period.first_day > walk->to_day)
            return true;
        if (!spend(walk))
            return false;
        expand_period(walk, period);
    }
    return walk->steps > 0;
}

bool ical_rule_walk(const struct ical_rule *rule, struct ical_time begin, int64_t from_day, int64_t to_day,
                    struct ical_taker taker, int64_t *steps)
{
    struct walk walk = {*rule, begin, from_day, to_day, taker, *steps, 0, false};
    complete(&walk.rule, begin);
    int64_t skipped = passed_over(&walk, rule, periods_before(&walk));
    walk.given = rule->count ? skipped : 0;
    bool good = walk_on(&walk, skipped);
    *steps = walk.steps;
    return good;
}
