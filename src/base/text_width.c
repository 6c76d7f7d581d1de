/* Terminal cells. The ranges are those of Unicode 15 (EastAsianWidth.txt W and F; general categories Mn, Me, Cf)
 * drawn together to blocks: good enough to line up a table, from memory. */
#include "base/text.h"

struct range {
    uint32_t first, last;
};

static const struct range marks[] = {
    {0x0000, 0x001F}, {0x007F, 0x009F}, {0x00AD, 0x00AD},   {0x0300, 0x036F}, {0x0483, 0x0489},
    {0x0591, 0x05BD}, {0x0610, 0x061A}, {0x064B, 0x065F},   {0x0900, 0x0902}, {0x093C, 0x093C},
    {0x0E31, 0x0E31}, {0x0E34, 0x0E3A}, {0x0E47, 0x0E4E},   {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF},
    {0x200B, 0x200F}, {0x202A, 0x202E}, {0x2060, 0x2064},   {0x20D0, 0x20F0}, {0xFE00, 0xFE0F},
    {0xFE20, 0xFE2F}, {0xFEFF, 0xFEFF}, {0xE0100, 0xE01EF},
};

static const struct range wides[] = {
    {0x1100, 0x115F},   {0x231A, 0x231B},   {0x2329, 0x232A}, {0x2E80, 0x303E},   {0x3041, 0x33FF},
    {0x3400, 0x4DBF},   {0x4E00, 0x9FFF},   {0xA000, 0xA4CF}, {0xAC00, 0xD7A3},   {0xF900, 0xFAFF},
    {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},   {0xFFE0, 0xFFE6}, {0x1F300, 0x1F64F}, {0x1F680, 0x1F6FF},
    {0x1F900, 0x1F9FF}, {0x20000, 0x3FFFD},
};

static bool within(const struct range *ranges, size_t count, uint32_t point)
{
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (point > ranges[middle].last)
            low = middle + 1;
        else
            high = middle;
    }
    return low < count && point >= ranges[low].first;
}

size_t text_width(const char *text)
{
    size_t width = 0;
    for (uint32_t point; (point = text_next(&text)) != 0;) {
        if (point < 0x7F && point >= 0x20)
            width += 1;
        else if (within(wides, sizeof wides / sizeof wides[0], point))
            width += 2;
        else if (!within(marks, sizeof marks / sizeof marks[0], point))
            width += 1;
    }
    return width;
}
