/* SPDX-License-Identifier: MIT */
/* Any text read as a number or an amount, and what was read written and read again. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/number.h"
#include "core/money/money.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* abort() is how the fuzzer learns of a failure. */
static void must(int holds)
{
    if (!holds)
        abort();
}

static void number(const char *text)
{
    const char *end = NULL;
    const char *back_end = NULL;
    double value = 0;
    double back = 0;
    char buffer[TC_NUMBER_SIZE];

    enum tc_status status = tc_number_read(text, &end, &value);
    must(end >= text && end <= text + strlen(text));
    if (status != TC_OK)
        return;
    must(end > text && isfinite(value));
    /* The C library reads the same number, the locale being "C". */
    char *copy = malloc((size_t)(end - text) + 1);
    must(copy != NULL);
    memcpy(copy, text, (size_t)(end - text));
    copy[end - text] = '\0';
    must(strtod(copy, NULL) == value);
    free(copy);
    must(strtod(tc_number_write_exact(buffer, value), NULL) == value);
    for (int decimals = 0; decimals <= 9; decimals++) {
        tc_number_write(buffer, value, decimals, false);
        must(strlen(buffer) < TC_NUMBER_SIZE);
        must(fabs(value) >= 1e5 || tc_number_read(buffer, &back_end, &back) == TC_OK);
    }
    must(strlen(tc_number_write(buffer, value, 9, true)) < TC_NUMBER_SIZE);
    must(strlen(tc_number_write_short(buffer, value)) < TC_NUMBER_SIZE);
}

static void money(const char *text, int exponent)
{
    const char *end = NULL;
    tc_money amount = 0;
    tc_money back = 0;
    char buffer[TC_NUMBER_SIZE];

    if (tc_number_read_fixed(text, &end, exponent, TC_MONEY_MAX, &amount) != TC_OK)
        return;
    must(end > text && amount >= -TC_MONEY_MAX && amount <= TC_MONEY_MAX);
    tc_number_write_fixed(buffer, amount, exponent, false);
    must(tc_number_read_fixed(buffer, &end, exponent, TC_MONEY_MAX, &back) == TC_OK && back == amount &&
         *end == '\0');
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    int count = 0;
    const char *end = NULL;

    must(text != NULL);
    if (size)
        memcpy(text, data, size);
    text[size] = '\0';
    number(text);
    for (int exponent = 0; exponent <= 4; exponent++)
        money(text, exponent);
    if (tc_number_read_count(text, &end, &count) == TC_OK)
        must(count >= 0 && end > text);
    free(text);
    return 0;
}
