/* SPDX-License-Identifier: MIT */
/*
 * svg.h - a picture drawn on a canvas, as SVG 1.1 within an HTML page.
 *
 * The texts are those of the canvas's cells, as text, each as wide as its cells
 * whatever the font; bars, lines, points and frames are the shapes it kept, in
 * the same places, each with a title that says what it shows. Colours come from
 * the page's style by class ("t0" and on, the tones of pen.h); the fills of
 * series differ in black and white as their signs do.
 */
#ifndef TC_PRINT_SVG_H
#define TC_PRINT_SVG_H

#include "core/base/text.h"
#include "print/canvas.h"

/*
 * Adds the picture without its first `skip` rows. `name` is what it is called, for
 * those who cannot see it; `number` sets it apart from the other pictures of the
 * page. The canvas must have been drawn with `vector` set.
 */
void tc_svg_add(struct tc_text *out, const struct tc_canvas *canvas, int skip, const char *name, int number);

#endif
