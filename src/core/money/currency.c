/* SPDX-License-Identifier: MIT */
#include "core/money/currency.h"

#include <stdlib.h>
#include <string.h>

/*
 * The active currencies of ISO 4217, list one, as of spring 2025; codes of funds, metals and tests left out.
 * Decimals as in its column "minor unit": 2 unless the code stands in one of the lists below. All are in the
 * order of the alphabet, by which they are searched.
 */
static const char *const codes[] = {
    "AED", "AFN", "ALL", "AMD", "AOA", "ARS", "AUD", "AWG", "AZN", "BAM", "BBD", "BDT", "BGN", "BHD", "BIF",
    "BMD", "BND", "BOB", "BRL", "BSD", "BTN", "BWP", "BYN", "BZD", "CAD", "CDF", "CHF", "CLP", "CNY", "COP",
    "CRC", "CUP", "CVE", "CZK", "DJF", "DKK", "DOP", "DZD", "EGP", "ERN", "ETB", "EUR", "FJD", "FKP", "GBP",
    "GEL", "GHS", "GIP", "GMD", "GNF", "GTQ", "GYD", "HKD", "HNL", "HTG", "HUF", "IDR", "ILS", "INR", "IQD",
    "IRR", "ISK", "JMD", "JOD", "JPY", "KES", "KGS", "KHR", "KMF", "KPW", "KRW", "KWD", "KYD", "KZT", "LAK",
    "LBP", "LKR", "LRD", "LSL", "LYD", "MAD", "MDL", "MGA", "MKD", "MMK", "MNT", "MOP", "MRU", "MUR", "MVR",
    "MWK", "MXN", "MYR", "MZN", "NAD", "NGN", "NIO", "NOK", "NPR", "NZD", "OMR", "PAB", "PEN", "PGK", "PHP",
    "PKR", "PLN", "PYG", "QAR", "RON", "RSD", "RUB", "RWF", "SAR", "SBD", "SCR", "SDG", "SEK", "SGD", "SHP",
    "SLE", "SOS", "SRD", "SSP", "STN", "SVC", "SYP", "SZL", "THB", "TJS", "TMT", "TND", "TOP", "TRY", "TTD",
    "TWD", "TZS", "UAH", "UGX", "USD", "UYU", "UZS", "VED", "VES", "VND", "VUV", "WST", "XAF", "XCD", "XCG",
    "XOF", "XPF", "YER", "ZAR", "ZMW", "ZWG",
};
static const char *const without_decimals[] = {"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW",
                                               "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"};
static const char *const with_three[] = {"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"};

enum { CODE_COUNT = sizeof codes / sizeof codes[0] };

static int compare(const void *code, const void *item)
{
    return strcmp(code, *(const char *const *)item);
}

static bool listed(const char *code, const char *const *list, size_t count)
{
    return bsearch(code, list, count, sizeof *list, compare) != NULL;
}

bool tc_currency_find(const char *code, struct tc_currency *currency)
{
    char upper[4] = "";
    size_t n = 0;
    for (; code[n] != '\0'; n++) {
        if (n == 3)
            return false;
        char c = code[n];
        upper[n] = c >= 'a' && c <= 'z' ? (char)(c - 'a' + 'A') : c;
    }
    if (n != 3 || !listed(upper, codes, CODE_COUNT))
        return false;
    memcpy(currency->code, upper, sizeof upper);
    currency->exponent = 2;
    if (listed(upper, without_decimals, sizeof without_decimals / sizeof without_decimals[0]))
        currency->exponent = 0;
    if (listed(upper, with_three, sizeof with_three / sizeof with_three[0]))
        currency->exponent = 3;
    return true;
}

const char *tc_currency_code(size_t i)
{
    return i < CODE_COUNT ? codes[i] : NULL;
}

double tc_currency_scale(struct tc_currency currency)
{
    double scale = 1;
    for (int i = 0; i < currency.exponent; i++)
        scale *= 10;
    return scale;
}

tc_money tc_currency_money(struct tc_currency currency, double major, enum tc_status *status)
{
    return tc_money_round(major * tc_currency_scale(currency), status);
}
