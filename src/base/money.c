#include "base/money.h"

#include <assert.h>
#include <inttypes.h>
#include <stdio.h>
#include <string.h>

int money_digits(const char *currency)
{
    /* ISO 4217:2015, the minor units that are not 2 (from memory). */
    static const char none[] = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF ";
    static const char three[] = "BHD IQD JOD KWD LYD OMR TND ";
    char word[5];
    if (strlen(currency) != 3 || strchr(currency, ' '))
        return 2;
    snprintf(word, sizeof word, "%s ", currency);
    return strstr(none, word) ? 0 : strstr(three, word) ? 3 : 2;
}

static int64_t power_of_ten(int digits)
{
    int64_t power = 1;
    for (int i = 0; i < digits; i++)
        power *= 10;
    return power;
}

static bool money_fault(int digits, struct err *fault)
{
    return err_say(fault, "a price such as \"%s\"",
                   money_format(1450 * power_of_ten(digits) / 100, digits).text);
}

bool money_parse(const char *text, int digits, int64_t *cents, struct err *fault)
{
    enum { WHOLE_MOST = 12 };
    size_t length;
    const char *at = text_trim(text, &length);
    size_t whole = strspn(at, "0123456789");
    size_t decimals = whole < length && at[whole] == '.' ? strspn(at + whole + 1, "0123456789") : 0;
    size_t read = whole + (decimals ? decimals + 1 : 0);
    assert(digits >= 0 && digits <= 3);
    if (whole < length && at[whole] == ',' && strspn(at + whole + 1, "0123456789") == length - whole - 1)
        return err_say(fault, "a decimal point: write \"%.*s.%.*s\"", (int)(whole < 24 ? whole : 24), at, 3,
                       at + whole + 1);
    if (whole == 0 || whole > WHOLE_MOST || read != length)
        return money_fault(digits, fault);
    if (decimals > (size_t)digits)
        return err_say(fault, "a price with at most %d decimals", digits);
    int64_t total = 0;
    for (size_t i = 0; i < whole; i++)
        total = total * 10 + (at[i] - '0');
    for (size_t i = 0; i < (size_t)digits; i++)
        total = total * 10 + (i < decimals ? at[whole + 1 + i] - '0' : 0);
    *cents = total;
    return true;
}

struct text_short money_format(int64_t cents, int digits)
{
    struct text_short out;
    int64_t unit = power_of_ten(digits);
    uint64_t size = cents < 0 ? 0 - (uint64_t)cents : (uint64_t)cents;
    const char *sign = cents < 0 ? "-" : "";
    if (digits == 0)
        snprintf(out.text, sizeof out.text, "%s%" PRIu64, sign, size);
    else
        snprintf(out.text, sizeof out.text, "%s%" PRIu64 ".%0*" PRIu64, sign, size / (uint64_t)unit, digits,
                 size % (uint64_t)unit);
    return out;
}
