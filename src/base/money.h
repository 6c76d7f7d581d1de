/* Amounts of money: whole cents (the smallest unit of the currency). */
#ifndef BASE_MONEY_H
#define BASE_MONEY_H

#include "base/err.h"
#include "base/text.h"

#include <stdint.h>

/* Decimals of a currency by its ISO 4217 code: 2 unless the standard says otherwise (JPY 0, KWD 3). */
int money_digits(const char *currency);

/* "14.50" with 2 digits -> 1450. At most `digits` decimals, 0 or more, at most 12 digits before the point. */
bool money_parse(const char *text, int digits, int64_t *cents, struct err *fault);

/* 1450 with 2 digits -> "14.50". Without the currency's name. */
struct text_short money_format(int64_t cents, int digits);

#endif
