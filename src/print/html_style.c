/* SPDX-License-Identifier: MIT */
#include "print/html_style.h"

#include <stddef.h>

/* Colours of at least 4.5 to 1 on white (WCAG 2.1, 1.4.3); t0 and on are the tones of pen.h. */
static const char *const rules[] = {
    ":root{color:#111;background:#fff;font:1rem/1.45 sans-serif}",
    "body{margin:0}",
    "main{max-width:75rem;margin:0 auto;padding:1rem}",
    "h1{font-size:1.5rem;line-height:1.2;margin:0 0 .3rem}",
    "h2{font-size:1.25rem;line-height:1.2;margin:0 0 .3rem}",
    "section{border-top:2px solid #111;margin-top:2rem;padding-top:1rem}",
    "p,ul,figure{margin:.5rem 0}",
    "p,li,td,th,figcaption{overflow-wrap:anywhere}",
    ".basis{color:#444}",
    ".findings{font-size:1.1rem;border-left:.3rem solid #111;padding:0 0 0 .8rem;list-style:none}",
    ".findings li{margin:.3rem 0}",
    ".scroll{overflow-x:auto;max-width:100%}",
    "table{border-collapse:collapse;margin:.8rem 0;font-variant-numeric:tabular-nums}",
    "th,td{padding:.12rem .6rem;text-align:left;vertical-align:top}",
    "thead th{vertical-align:bottom;border-bottom:2px solid #111;overflow-wrap:normal}",
    "th.n,td.n{text-align:right}",
    "td.n{white-space:nowrap}",
    "td.x{white-space:normal}",
    ".n.m1{padding-right:1.6rem}",
    ".n.m2{padding-right:2.8rem}",
    ".n.m3{padding-right:4rem}",
    "td .marks{white-space:nowrap}",
    "td.n .in{position:relative}",
    "td.n .in .marks{position:absolute;left:100%;top:0;padding-left:.3rem;line-height:1}",
    "tbody th{font-weight:normal;min-width:7rem}",
    "tbody th[scope=rowgroup]{font-weight:bold;padding-top:.9rem}",
    ".indent th[scope=row]{padding-left:1.6rem}",
    "tr.subtotal td,tr.subtotal th{border-top:1px solid #111}",
    "tr.total td,tr.total th{font-weight:bold}",
    "small{color:#444;font-weight:normal}",
    ".heard{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}",
    ".note strong{margin-right:.3em}",
    ".caution{border:1px solid #111;padding:.4rem .6rem}",
    "figcaption{font-weight:bold;margin:1rem 0 .3rem}",
    "svg{display:block;width:100%;min-width:32rem;max-width:56rem;height:auto}",
    "svg text{font:13px monospace;fill:currentColor;white-space:pre}",
    "line,.frame,.bar{stroke:currentColor}",
    ".bar{stroke-width:.7}",
    "line{stroke-width:1.2}",
    ".dash{stroke-dasharray:2 3}",
    ".frame{fill:#fff;stroke-width:1.5}",
    ".point{fill:currentColor}",
    ".t1{font-weight:bold}",
    ".t2{color:#555}",
    ".t3{color:#0b5a2a;font-weight:bold}",
    ".t4{color:#123f8a}",
    ".t5{color:#8f1414}",
    ".t6{color:#1c4f9c}",
    ".t7{color:#9a4300}",
    ".t8{color:#1a6336}",
    ".t9{color:#69308f}",
    ".t10{color:#9a1f45}",
    ".t11{color:#0a616b}",
    "nav ul{padding:0;list-style:none}",
    "nav li{display:inline-block;margin-right:1rem}",
    "a{color:#123f8a}",
    "@page{margin:12mm}",
    "@media print{",
    ":root{font-size:9pt;color:#000}",
    "main{padding:0;max-width:none}",
    "nav{display:none}",
    ".scroll{overflow:visible}",
    "th,td{padding:.1rem .4rem}",
    "tbody th{min-width:0}",
    "svg{min-width:0}",
    "tr,figure,.note,.findings{break-inside:avoid}",
    "h1,h2,figcaption,th[scope=rowgroup]{break-after:avoid}",
    "}",
};

void tc_html_style_add(struct tc_text *out)
{
    for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++) {
        tc_text_add(out, rules[i]);
        tc_text_add_char(out, '\n');
    }
}
