/* SPDX-License-Identifier: MIT */
/* Codes and decimals of currencies, and amounts of them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "core/money/currency.h"
#include "core/goods/goods.h"

#define LENGTH(array) (sizeof(array) / sizeof(array)[0])

/*
 * ISO 4217, list one: code and minor unit of every currency in the order of
 * its countries, without the funds (BOV, CLF, COU, CHE, CHW, MXV, USN, UYI,
 * UYW) and the codes that begin a list of their own (metals, tests, units of
 * account). Source: the public data package currency-codes
 * (data/codes-all.csv), a copy of the maintenance agency's lists, spring 2025.
 */
static const char list_one[] =
    "AFN2 EUR2 ALL2 DZD2 USD2 AOA2 XCD2 ARS2 AMD2 AWG2 AUD2 AZN2 BSD2 BHD3 BDT2 BBD2 BYN2 BZD2 XOF0 BMD2 "
    "INR2 BTN2 BOB2 BAM2 BWP2 NOK2 BRL2 BND2 BGN2 BIF0 CVE2 KHR2 XAF0 CAD2 KYD2 CLP0 CNY2 COP2 KMF0 CDF2 "
    "NZD2 CRC2 CUP2 XCG2 CZK2 DKK2 DJF0 DOP2 EGP2 SVC2 ERN2 SZL2 ETB2 FKP2 FJD2 XPF0 GMD2 GEL2 GHS2 GIP2 "
    "GTQ2 GBP2 GNF0 GYD2 HTG2 HNL2 HKD2 HUF2 ISK0 IDR2 IRR2 IQD3 ILS2 JMD2 JPY0 JOD3 KZT2 KES2 KPW2 KRW0 "
    "KWD3 KGS2 LAK2 LBP2 LSL2 ZAR2 LRD2 LYD3 CHF2 MOP2 MKD2 MGA2 MWK2 MYR2 MVR2 MRU2 MUR2 MXN2 MDL2 MNT2 "
    "MAD2 MZN2 MMK2 NAD2 NPR2 NIO2 NGN2 OMR3 PKR2 PAB2 PGK2 PYG0 PEN2 PHP2 PLN2 QAR2 RON2 RUB2 RWF0 SHP2 "
    "WST2 STN2 SAR2 RSD2 SCR2 SLE2 SGD2 SBD2 SOS2 SSP2 LKR2 SDG2 SRD2 SEK2 SYP2 TWD2 TJS2 TZS2 THB2 TOP2 "
    "TTD2 TND3 TRY2 TMT2 UGX0 UAH2 AED2 UYU2 UZS2 VUV0 VES2 VED2 VND0 YER2 ZMW2 ZWG2 ";

static void codes_and_decimals_are_those_of_iso_4217(void **state)
{
    (void)state;
    size_t count = 0;
    while (tc_currency_code(count))
        count++;
    assert_int_equal(count, strlen(list_one) / 5);
    for (const char *p = list_one; *p; p += 5) {
        const char code[4] = {p[0], p[1], p[2], '\0'};
        struct tc_currency currency;
        if (!tc_currency_find(code, &currency))
            fail_msg("%s is missing", code);
        assert_string_equal(currency.code, code);
        assert_int_equal(currency.exponent, p[3] - '0');
    }
}

/* For hints of the nearest name: ascending, none twice, each one to be found. */
static void the_list_is_in_order(void **state)
{
    (void)state;
    for (size_t i = 1; tc_currency_code(i); i++)
        assert_true(strcmp(tc_currency_code(i - 1), tc_currency_code(i)) < 0);
}

static void either_case_and_nothing_else_is_a_code(void **state)
{
    (void)state;
    static const char *const none[] = {"",    "U",   "US",  "USDX", "US ", " USD",
                                       "U$D", "XAU", "XXX", "HRK",  "ZZZ"};
    struct tc_currency currency = {.code = "?"};
    assert_true(tc_currency_find("jPy", &currency));
    assert_string_equal(currency.code, "JPY");
    for (size_t i = 0; i < LENGTH(none); i++)
        assert_false(tc_currency_find(none[i], &currency));
    assert_string_equal(currency.code, "JPY");
}

static void amounts_have_the_decimals_of_their_currency(void **state)
{
    (void)state;
    static const struct {
        const char *code;
        double major, scale;
        tc_money money;
        enum tc_status status;
    } rows[] = {
        {"USD", 45.10, 100, 4510, TC_OK},        {"USD", 0.005, 100, 1, TC_OK},
        {"USD", 1.005, 100, 101, TC_OK}, /* a half in decimals, a hair less in binary */
        {"USD", -0.005, 100, -1, TC_OK},         {"JPY", 1499.5, 1, 1500, TC_OK},
        {"JPY", 1499.4, 1, 1499, TC_OK},         {"KWD", 1.2345, 1000, 1235, TC_OK},
        {"USD", 9e13, 100, TC_MONEY_MAX, TC_OK}, {"USD", 9.1e13, 100, 0, TC_OVERFLOW},
    };
    for (size_t i = 0; i < LENGTH(rows); i++) {
        struct tc_currency currency;
        enum tc_status status = TC_OK;
        assert_true(tc_currency_find(rows[i].code, &currency));
        assert_true(tc_currency_scale(currency) == rows[i].scale);
        assert_int_equal(tc_currency_money(currency, rows[i].major, &status), rows[i].money);
        assert_int_equal(status, rows[i].status);
    }
}

static void a_price_is_found_by_its_currency(void **state)
{
    (void)state;
    struct tc_price_list list = {.count = 2};
    struct tc_currency usd, jpy, eur;
    assert_true(tc_currency_find("USD", &usd));
    assert_true(tc_currency_find("JPY", &jpy));
    assert_true(tc_currency_find("EUR", &eur));
    list.price[0] = (struct tc_price){usd, 45};
    list.price[1] = (struct tc_price){jpy, 6800};
    assert_ptr_equal(tc_price_in(&list, jpy), &list.price[1]);
    assert_ptr_equal(tc_price_in(&list, usd), &list.price[0]);
    assert_null(tc_price_in(&list, eur));
    list.count = 0;
    assert_null(tc_price_in(&list, usd));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(codes_and_decimals_are_those_of_iso_4217),
        cmocka_unit_test(the_list_is_in_order),
        cmocka_unit_test(either_case_and_nothing_else_is_a_code),
        cmocka_unit_test(amounts_have_the_decimals_of_their_currency),
        cmocka_unit_test(a_price_is_found_by_its_currency),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
