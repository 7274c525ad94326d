/* SPDX-License-Identifier: MIT */
#include "screen/price_page.h"

#include <string.h>

#include "print/print.h"
#include "screen/pager.h"
#include "sheet/stock_list.h"

static void write_page(struct tc_pager *pager, const struct tc_state *state, int width)
{
    const struct tc_list *list = tc_state_list_seen(state);
    const struct tc_stock_ask ask = {
        .kind = list->about.head, .units = state->now.plan.units, .installed = state->options->installed};
    const struct tc_print_options options = {.width = width, .ascii = state->options->ascii};
    struct tc_text text = TC_TEXT_EMPTY;
    struct tc_sheet sheet = {0};
    enum tc_status status = tc_make_stock_list(state->options->stock, &ask, &sheet);
    if (status == TC_OK)
        status = tc_print(&text, &sheet, TC_PRINT_TEXT, &options);
    const char *line = status == TC_OK ? tc_text_string(&text) : tc_status_text(status);
    while (*line) {
        size_t length = strcspn(line, "\n");
        tc_pager_line(pager, "", line, length);
        line += length + (line[length] == '\n');
    }
    tc_text_free(&text);
    tc_sheet_free(&sheet);
}

void tc_price_page_open(struct tc_state *state)
{
    tc_pager_open(state, write_page, "What the shops ask", true);
}
