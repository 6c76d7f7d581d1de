#include "base/number_scan.h"

#include "base/text.h"

#include <string.h>

struct sign {
    uint32_t point;
    const char *ascii;
};

/* Quotation marks stand here too: telephones put them where a prime was meant. */
static const struct sign signs[] = {
    {0x00A0, " "},    {0x2009, " "},     {0x202F, " "},    {0x00B0, "deg"},  {0x00BA, "deg"},
    {0x00B2, "^2"},   {0x00B3, "^3"},    {0x00B5, "u"},    {0x03BC, "u"},    {0x00D7, "x"},
    {0x2032, "'"},    {0x2033, "\""},    {0x2018, "'"},    {0x2019, "'"},    {0x201C, "\""},
    {0x201D, "\""},   {0x2044, "/"},     {0x2212, "-"},    {0x2010, "-"},    {0x2011, "-"},
    {0x2013, "-"},    {0x00BC, " 1/4"},  {0x00BD, " 1/2"}, {0x00BE, " 3/4"}, {0x2150, " 1/7"},
    {0x2151, " 1/9"}, {0x2152, " 1/10"}, {0x2153, " 1/3"}, {0x2154, " 2/3"}, {0x2155, " 1/5"},
    {0x2156, " 2/5"}, {0x2157, " 3/5"},  {0x2158, " 4/5"}, {0x2159, " 1/6"}, {0x215A, " 5/6"},
    {0x215B, " 1/8"}, {0x215C, " 3/8"},  {0x215D, " 5/8"}, {0x215E, " 7/8"},
};

static const char *ascii_of(uint32_t point)
{
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++)
        if (signs[i].point == point)
            return signs[i].ascii;
    return NULL;
}

bool text_fold(const char *text, struct folded *folded)
{
    char wide[FOLDED_SIZE];
    size_t n = 0;
    for (uint32_t point; (point = text_next(&text)) != 0;) {
        char plain[2] = {(char)point, '\0'};
        const char *ascii = point >= 0x80 ? ascii_of(point) : plain;
        if (!ascii || point == 0x7F || (point < 0x20 && point != '\t'))
            return false;
        size_t length = strlen(ascii);
        if (n + length >= sizeof wide)
            return false;
        memcpy(wide + n, ascii, length);
        n += length;
    }
    wide[n] = '\0';
    size_t length;
    const char *from = text_trim(wide, &length);
    memcpy(folded->text, from, length);
    folded->text[length] = '\0';
    return true;
}
