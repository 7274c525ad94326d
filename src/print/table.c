/* SPDX-License-Identifier: MIT */
#include "print/table.h"

#include "print/canvas.h"
#include "print/layout.h"
#include "print/pen.h"
#include "print/row.h"

struct table {
    const struct tc_sheet *sheet;
    const struct tc_print_options *options;
    struct tc_layout layout;
    struct tc_row_block block;
    struct tc_canvas strip; /* what is written next */
    struct tc_pen pen;
    enum tc_status status;
};

/* Writes the strip that a function of row.h drew. */
static void put(struct table *table, enum tc_status drawn)
{
    if (table->status == TC_OK)
        table->status = drawn;
    if (table->status == TC_OK)
        tc_canvas_write(&table->strip, &table->pen);
}

static void put_rule(struct table *table, const char *sign, const char *ascii, bool label)
{
    put(table, tc_row_rule(&table->strip, &table->block, table->options->ascii ? ascii : sign, label));
}

/* What holds for all columns alike, said once in a line of its own. */
static void put_shared_subhead(struct table *table)
{
    if (!*table->layout.shared_subhead)
        return;
    tc_pen_write(&table->pen, TC_TONE_SOFT, TC_LAYOUT_SHARED_LEAD);
    tc_pen_paragraph(&table->pen, TC_TONE_SOFT, table->layout.shared_subhead, table->pen.column,
                     table->options->width);
}

/* Whether the group headed by row r has a row that this block shows. */
static bool group_shows(const struct table *table, size_t r)
{
    const struct tc_sheet *sheet = table->sheet;
    if (table->block.first == 0)
        return true;
    for (size_t i = r + 1; i < sheet->row_count && sheet->rows[i].kind != TC_ROW_GROUP; i++)
        if (sheet->rows[i].kind != TC_ROW_SENTENCE)
            return true;
    return false;
}

static void put_block(struct table *table)
{
    const struct tc_sheet *sheet = table->sheet;
    const struct tc_row_block *block = &table->block;
    bool top = true;
    enum tc_row_kind before = TC_ROW_GROUP;
    put(table, tc_row_heads(&table->strip, block, TC_STOREY_HEAD, 0));
    put(table, tc_row_heads(&table->strip, block, TC_STOREY_SUBHEAD, 0));
    put_shared_subhead(table);
    put(table, tc_row_heads(&table->strip, block, TC_STOREY_CODE, 0));
    put_rule(table, "━", "=", true);
    for (size_t r = 0; r < sheet->row_count; r++) {
        enum tc_row_kind kind = sheet->rows[r].kind;
        if (kind == TC_ROW_GROUP ? !group_shows(table, r) : kind == TC_ROW_SENTENCE && block->first > 0)
            continue;
        if (kind == TC_ROW_SUBTOTAL && before != TC_ROW_SUBTOTAL && before != TC_ROW_GROUP)
            put_rule(table, "─", "-", false);
        if (kind == TC_ROW_TOTAL && before != TC_ROW_TOTAL && before != TC_ROW_GROUP)
            put_rule(table, "─", "-", true);
        if (kind == TC_ROW_GROUP && !top)
            tc_pen_line(&table->pen);
        put(table, tc_row_draw(&table->strip, block, r));
        before = kind;
        top = false;
    }
}

enum tc_status tc_table_add(struct tc_text *out, const struct tc_sheet *sheet,
                            const struct tc_print_options *options)
{
    struct table table = {.sheet = sheet, .options = options, .pen = {.out = out, .colour = options->colour}};
    int width = options->width > 0 ? options->width : 0;
    table.status = tc_layout_measure(&table.layout, sheet, width);
    if (table.status != TC_OK)
        return table.status;
    table.block = (struct tc_row_block){.layout = &table.layout, .width = width, .ascii = options->ascii};
    do {
        if (table.block.first > 0)
            tc_pen_line(&table.pen);
        table.block.count = tc_layout_block(&table.layout, table.block.first, width);
        put_block(&table);
        table.block.first += table.block.count;
    } while (table.block.first < sheet->column_count && table.status == TC_OK);
    tc_canvas_free(&table.strip);
    tc_layout_free(&table.layout);
    return out->failed ? TC_NO_MEMORY : table.status;
}
