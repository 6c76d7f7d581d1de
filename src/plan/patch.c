#include "plan/patch.h"

#include "base/measure.h"
#include "base/number.h"

#include <stdio.h>
#include <string.h>

void patch_string(struct buf *out, const char *text)
{
    buf_add_char(out, '"');
    for (; *text; text++) {
        if (*text == '"' || *text == '\\')
            buf_add_char(out, '\\');
        if ((unsigned char)*text < ' ')
            buf_addf(out, "\\u%04x", (unsigned)*text);
        else
            buf_add_char(out, *text);
    }
    buf_add_char(out, '"');
}

/* In the scale in which it is a short number. */
static struct text_short temperature_text(double c)
{
    struct text_short celsius = temperature_write(c), fahrenheit;
    double back;
    snprintf(fahrenheit.text, sizeof fahrenheit.text, "%.20s F", number_round(c * 9 / 5 + 32, 1).text);
    bool same = temperature_parse(fahrenheit.text, &back, NULL) && back == c;
    return same && strlen(fahrenheit.text) < strlen(celsius.text) ? fahrenheit : celsius;
}

static void add_day(struct buf *out, const struct air_day *day, bool dated, bool first)
{
    for (size_t i = 0; i < day->spell_count; i++) {
        const struct air_spell *spell = &day->spells[i];
        buf_add(out, first && i == 0 ? "{" : ", {");
        if (dated)
            buf_addf(out, "\"on\": \"%s\", ", date_format(date_of(day->day)).text);
        buf_addf(out, "\"from\": \"%s\", \"temperature\": \"%s\", \"humidity\": \"%s\"}",
                 time_format(spell->from_min).text, temperature_text(spell->air.temperature_c).text,
                 share_write(spell->air.humidity).text);
    }
}

void patch_air(struct buf *out, const struct air_year *air)
{
    buf_add_char(out, '[');
    add_day(out, &air->daily, false, true);
    for (size_t i = 0; i < air->dated_count; i++)
        add_day(out, &air->dated[i], true, false);
    buf_add_char(out, ']');
}

void patch_hours(struct buf *out, const struct shop *shop, unsigned days)
{
    static const char *const names[] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};
    const char *before = "{";
    for (int day = 0; day < 7; day++) {
        if (!(days & 1u << day))
            continue;
        buf_addf(out, "%s\"%s\": [", before, names[day]);
        before = ", ";
        for (size_t i = 0; i < shop->hours[day].count; i++) {
            const struct stretch *stretch = &shop->hours[day].stretches[i];
            buf_addf(out, "%s\"%s-%s\"", i ? ", " : "", time_format(stretch->from_min).text,
                     time_format(stretch->to_min).text);
        }
        buf_add_char(out, ']');
    }
    buf_add_char(out, '}');
}
