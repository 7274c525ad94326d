/* SPDX-License-Identifier: MIT */
#include "screen/frame.h"

#include <stddef.h>

#include "screen/paint.h"

/* Sizes from which there are blank lines and margins, and the least of the body. */
enum { ROOMY_HEIGHT = 32, TALL = 22, MARGIN_WIDTH = 90, BODY_LEAST = 5 };

const char *tc_frame_finding(const struct tc_sheet *sheet, size_t i)
{
    for (size_t n = 0; n < sheet->note_count; n++)
        if (sheet->notes[n].kind == TC_NOTE_FINDING && i-- == 0)
            return sheet->notes[n].text;
    return NULL;
}

static int lines_of(const char *text, int width, int most)
{
    int lines = tc_paint_height(text, width);
    return lines < most ? lines : most;
}

/* How many lines the findings take, of so many at most. */
static void measure_findings(struct tc_frame *frame, const struct tc_sheet *sheet, int most)
{
    const char *finding;
    frame->first_height = frame->findings_height = 0;
    for (size_t i = 0; sheet && (finding = tc_frame_finding(sheet, i)) != NULL; i++) {
        int left = most - frame->findings_height;
        frame->cut = frame->cut || tc_paint_height(finding, frame->inside - 2) > left;
        frame->findings_height += lines_of(finding, frame->inside - 2, left);
        if (i == 0)
            frame->first_height = lines_of(finding, frame->inside - 2, frame->roomy || left < 2 ? left : 2);
    }
}

void tc_frame_fold(struct tc_frame *frame, bool folded)
{
    frame->folded = folded;
    frame->finding_height = folded ? frame->first_height : frame->findings_height;
    frame->faults = frame->finding + frame->finding_height;
    frame->heads = frame->faults + frame->faults_height + frame->roomy;
    frame->rule = frame->heads + frame->heads_height;
    frame->body = frame->rule + 1;
    frame->body_height = frame->status - frame->body > 1 ? frame->status - frame->body : 1;
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
    int row = 2; /* the line of names, and the title */
    frame->assumptions = row;
    frame->assumptions_height =
        sheet ? lines_of(sheet->assumptions, frame->inside, height >= TALL ? 2 : 1) : 0;
    frame->finding = row + frame->assumptions_height;
    frame->faults_height = faults;
    frame->heads_height = heads < height / 4 ? heads : height / 4;
    frame->hints = height - 1;
    frame->status = height - 2;
    int room = frame->status - frame->finding - frame->faults_height - frame->roomy - frame->heads_height - 1;
    measure_findings(frame, sheet, room - BODY_LEAST);
    tc_frame_fold(frame, false);
    frame->foldable = frame->findings_height > frame->first_height && frame->body_height < height / 2;
}
