/* SPDX-License-Identifier: MIT */
/* Money of one currency told in another: cross rates, rounding, which quote counts. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "core/money/exchange.h"
#include "support/near.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))

/* A currency by its code, also one that is no more. */
static struct tc_currency money(const char *code, int exponent)
{
    struct tc_currency currency = {"", exponent};
    memcpy(currency.code, code, sizeof currency.code);
    return currency;
}

static struct tc_quote quote(const char *from, double rate, const char *to, int year, int month)
{
    return (struct tc_quote){money(from, 2), money(to, 2), rate, {year, month, 1}};
}

static struct tc_conversion convert(const struct tc_quote *quotes, int count, const char *from,
                                    const char *to)
{
    struct tc_conversion conversion;
    assert_int_equal(tc_conversion_find(&conversion, quotes, count, money(from, 2), money(to, 2)), TC_OK);
    assert_string_equal(conversion.from.code, from);
    assert_string_equal(conversion.to.code, to);
    return conversion;
}

/*
 * What one euro was in the currencies it took the place of: Council
 * Regulation (EC) 2866/98, from memory. Banco de Espana published the cross rates against
 * the peseta that follow from them, to four decimals ("Tipos de conversion",
 * www.bankofspain.org/tipos/tipeur2e.htm).
 */
static void fixed_cross_rates(void **state)
{
    (void)state;
    static const struct {
        const char *code;
        double per_euro;       /* the Regulation's */
        double units, pesetas; /* the bank's: so many pesetas for so many units */
    } rows[] = {
        {"BEF", 40.3399, 100, 412.4601}, {"DEM", 1.95583, 1, 85.0718},   {"FRF", 6.55957, 1, 25.3654},
        {"IEP", 0.787564, 1, 211.2666},  {"ITL", 1936.27, 100, 8.5931},  {"NLG", 2.20371, 1, 75.5027},
        {"ATS", 13.7603, 1, 12.0917},    {"PTE", 200.482, 100, 82.9930}, {"FIM", 5.94573, 1, 27.9841},
    };
    struct tc_quote quotes[COUNT(rows) + 1];
    for (int i = 0; i < COUNT(rows); i++)
        quotes[i] = quote("EUR", rows[i].per_euro, rows[i].code, 1999, 1);
    quotes[COUNT(rows)] = quote("EUR", 166.386, "ESP", 1999, 1);
    for (int i = 0; i < COUNT(rows); i++) {
        struct tc_conversion c = convert(quotes, COUNT(rows) + 1, rows[i].code, "ESP");
        assert_int_equal(c.steps, 2);
        assert_near(c.rate * rows[i].units, rows[i].pesetas, 0.00005);
        c = convert(quotes, COUNT(rows) + 1, "ESP", rows[i].code);
        assert_near(c.rate * rows[i].pesetas, rows[i].units, 1e-4 * rows[i].units);
    }
}

/*
 * Pesetas in euros, to the cent: the three examples of the Spanish tax agency
 * (Manual practico de Sociedades 2020, chapter 1, conversion of amounts in
 * pesetas). The third lies within a hundred-thousandth of a cent of a half.
 */
static void rounds_as_tax_offices_do(void **state)
{
    (void)state;
    const struct tc_quote quotes[] = {
        {money("EUR", 2), money("ESP", 0), 166.386, {1999, 1, 1}},
    };
    struct tc_conversion c;
    assert_int_equal(tc_conversion_find(&c, quotes, 1, money("ESP", 0), money("EUR", 2)), TC_OK);
    enum tc_status status = TC_OK;
    assert_int_equal(tc_conversion_money(&c, 1270000, &status), 763285);
    assert_int_equal(tc_conversion_money(&c, 65732, &status), 39506);
    assert_int_equal(tc_conversion_money(&c, 506766, &status), 304573);
    assert_int_equal(tc_conversion_money(&c, -65732, &status), -39506);
    assert_int_equal(status, TC_OK);
}

/* Yen and euro through the dollar, 10 September 2012: 78.56 yen and 0.7802 euro a dollar make 0.0099
 * euro a yen (dummies.com, "How to calculate cross rates"). */
static void joins_through_a_shared_currency(void **state)
{
    (void)state;
    const struct tc_quote quotes[] = {quote("USD", 78.56, "JPY", 2012, 9),
                                      quote("USD", 0.7802, "EUR", 2012, 8)};
    struct tc_conversion c = convert(quotes, 2, "JPY", "EUR");
    assert_near(c.rate, 0.0099, 0.00005);
    assert_int_equal(c.steps, 2);
    /* No fresher than the oldest of the two. */
    assert_int_equal(c.date.month, 8);
    c = convert(quotes, 2, "EUR", "JPY");
    assert_near(c.rate, 78.56 / 0.7802, 1e-9);
    assert_int_equal(c.date.month, 8);
}

static void minor_units_differ(void **state)
{
    (void)state;
    /* 0, 2 and 3 decimals; by hand: 12 345 yen x 0.0066 = 81.477 dollars; / 3.25 = 25.0698 dinars. */
    const struct tc_currency yen = money("JPY", 0), dollar = money("USD", 2), dinar = money("KWD", 3);
    const struct tc_quote quotes[] = {{yen, dollar, 0.0066, {2026, 1, 15}},
                                      {dinar, dollar, 3.25, {2026, 1, 14}}};
    struct tc_conversion c;
    enum tc_status status = TC_OK;
    assert_int_equal(tc_conversion_find(&c, quotes, 2, yen, dollar), TC_OK);
    assert_int_equal(tc_conversion_money(&c, 12345, &status), 8148);
    assert_int_equal(tc_conversion_find(&c, quotes, 2, yen, dinar), TC_OK);
    assert_int_equal(tc_conversion_money(&c, 12345, &status), 25070);
    assert_int_equal(tc_conversion_find(&c, quotes, 2, dinar, yen), TC_OK);
    assert_int_equal(tc_conversion_money(&c, 25070, &status), 12345);
    assert_int_equal(status, TC_OK);
}

static void same_currency_needs_no_quote(void **state)
{
    (void)state;
    struct tc_conversion c = convert(NULL, 0, "USD", "USD");
    enum tc_status status = TC_OK;
    assert_int_equal(c.steps, 0);
    assert_near(c.rate, 1, 0);
    assert_int_equal(tc_conversion_money(&c, 123456789, &status), 123456789);
    assert_int_equal(status, TC_OK);
}

static void latest_quote_of_a_pair_counts(void **state)
{
    (void)state;
    const struct tc_quote quotes[] = {
        quote("EUR", 1.08, "USD", 2026, 1),
        quote("USD", 0.90, "EUR", 2026, 3), /* the same pair the other way round, and later */
        quote("EUR", 1.12, "USD", 2026, 2), quote("USD", 0.95, "EUR", 2026, 3), /* as late, but second */
    };
    struct tc_conversion c = convert(quotes, COUNT(quotes), "EUR", "USD");
    assert_near(c.rate, 1 / 0.90, 1e-12);
    assert_int_equal(c.date.month, 3);
    assert_int_equal(c.steps, 1);
}

static void fewest_steps_then_freshest(void **state)
{
    (void)state;
    struct tc_quote quotes[] = {
        quote("EUR", 8, "SEK", 2026, 1),
        quote("SEK", 2, "JPY", 2026, 1), /* EUR to JPY through SEK: old */
        quote("EUR", 4, "USD", 2026, 2),
        quote("USD", 5, "JPY", 2026, 3), /* through USD: as short, and fresher */
        quote("EUR", 99, "JPY", 2020, 1),
    };
    /* One step, however old, before two. */
    assert_near(convert(quotes, 5, "EUR", "JPY").rate, 99, 0);
    struct tc_conversion c = convert(quotes, 4, "EUR", "JPY");
    assert_near(c.rate, 20, 1e-12);
    assert_int_equal(c.date.month, 2);
    /* Three steps: KWD - SEK - EUR - USD, without the yen in between. */
    quotes[1] = quote("KWD", 40, "SEK", 2025, 7);
    quotes[3].rate = NAN;
    c = convert(quotes, 4, "KWD", "USD");
    assert_int_equal(c.steps, 3);
    assert_near(c.rate, 40. / 8 * 4, 1e-12);
    assert_int_equal(c.date.year, 2025);
}

static void missing_and_unsound_quotes(void **state)
{
    (void)state;
    struct tc_conversion c;
    const struct tc_quote quotes[] = {quote("EUR", 0, "USD", 2026, 1), /* a region that gives none */
                                      quote("EUR", -1, "USD", 2026, 2), quote("EUR", NAN, "USD", 2026, 2),
                                      quote("EUR", INFINITY, "USD", 2026, 2),
                                      quote("SEK", 5, "JPY", 2026, 2)};
    assert_int_equal(tc_conversion_find(&c, quotes, 5, money("EUR", 2), money("USD", 2)), TC_NO_RESULT);
    assert_int_equal(tc_conversion_find(&c, quotes, 5, money("EUR", 2), money("JPY", 0)), TC_NO_RESULT);
    assert_int_equal(tc_conversion_find(&c, NULL, 0, money("EUR", 2), money("JPY", 0)), TC_NO_RESULT);
}

static void overflow_is_told(void **state)
{
    (void)state;
    const struct tc_quote quotes[] = {quote("KWD", 1e9, "VND", 2026, 1)};
    struct tc_conversion c = convert(quotes, 1, "KWD", "VND");
    enum tc_status status = TC_OK;
    tc_conversion_money(&c, TC_MONEY_MAX, &status);
    assert_int_equal(status, TC_OVERFLOW);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fixed_cross_rates),
        cmocka_unit_test(rounds_as_tax_offices_do),
        cmocka_unit_test(joins_through_a_shared_currency),
        cmocka_unit_test(minor_units_differ),
        cmocka_unit_test(same_currency_needs_no_quote),
        cmocka_unit_test(latest_quote_of_a_pair_counts),
        cmocka_unit_test(fewest_steps_then_freshest),
        cmocka_unit_test(missing_and_unsound_quotes),
        cmocka_unit_test(overflow_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
