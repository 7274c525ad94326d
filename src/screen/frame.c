/* SPDX-License-Identifier: MIT */
#include "screen/frame.h"

#include <stddef.h>

#include "print/width.h"

/* From these sizes on the screen is less sparing. */
enum { ROOMY_HEIGHT = 32, TALL = 22, MARGIN_WIDTH = 90 };

const char *tc_frame_finding(const struct tc_sheet *sheet)
{
    for (size_t i = 0; i < sheet->note_count; i++)
        if (sheet->notes[i].kind == TC_NOTE_FINDING)
            return sheet->notes[i].text;
    return NULL;
}

static int lines_of(const char *text, int width, int most)
{
    struct tc_wrap wrap = {text, width > 0 ? width : 1};
    const char *line;
    size_t length;
    int lines = 0;
    while (lines < most && tc_wrap_next(&wrap, &line, &length))
        lines++;
    return lines;
}

void tc_frame_make(struct tc_frame *frame, int width, int height, const struct tc_sheet *sheet, bool faults,
                   int heads)
{
    *frame = (struct tc_frame){.width = width, .height = height};
    frame->too_small = width < TC_FRAME_LEAST_WIDTH || height < TC_FRAME_LEAST_HEIGHT;
    frame->roomy = height >= ROOMY_HEIGHT;
    frame->storey = height >= TALL ? 3 : 1;
    frame->margin = width >= MARGIN_WIDTH ? 2 : 0;
    frame->inside = width - 2 * frame->margin;
    const char *finding = sheet ? tc_frame_finding(sheet) : NULL;
    int row = 2; /* the line of names, and the title */
    frame->assumptions = row;
    frame->assumptions_height =
        sheet ? lines_of(sheet->assumptions, frame->inside, height >= TALL ? 2 : 1) : 0;
    row += frame->assumptions_height;
    frame->finding = row;
    frame->finding_height = finding ? lines_of(finding, frame->inside - 2, frame->roomy ? 4 : 2) : 0;
    row += frame->finding_height;
    frame->faults = row;
    frame->faults_height = faults;
    row += frame->faults_height;
    if (frame->roomy)
        row++;
    frame->heads = row;
    frame->heads_height = heads < height / 4 ? heads : height / 4;
    row += frame->heads_height;
    frame->rule = row++;
    frame->body = row;
    frame->hints = height - 1;
    frame->status = height - 2;
    frame->body_height = frame->status - row > 1 ? frame->status - row : 1;
}
