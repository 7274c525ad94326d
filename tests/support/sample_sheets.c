/* SPDX-License-Identifier: MIT */
#include "support/sample_sheets.h"

#include <math.h>

static const struct tc_currency usd = {"USD", 2}, eur = {"EUR", 2}, jpy = {"JPY", 0}, kwd = {"KWD", 3};

static const char assumptions[] =
    "Setup planted-shelf in Lowmere (invented), sale lowmere-spring, 10 years at "
    "3 % a year. Water at 25 °C in a "
    "room of 19 to 24 °C; 0.17 USD/kWh.";

/* A row of three amounts in cents. */
static void money3(struct tc_sheet *sheet, enum tc_row_kind kind, const char *label, tc_money a, tc_money b,
                   tc_money c)
{
    tc_sheet_row(sheet, kind, label, "");
    tc_sheet_money(sheet, 0, a, usd);
    tc_sheet_money(sheet, 1, b, usd);
    tc_sheet_money(sheet, 2, c, usd);
}

static void number3(struct tc_sheet *sheet, const char *label, const char *unit, int decimals, double a,
                    double b, double c)
{
    tc_sheet_row(sheet, TC_ROW_LINE, label, unit);
    tc_sheet_number(sheet, 0, a, decimals);
    tc_sheet_number(sheet, 1, b, decimals);
    tc_sheet_number(sheet, 2, c, decimals);
}

static void text3(struct tc_sheet *sheet, const char *label, const char *a, const char *b, const char *c)
{
    tc_sheet_row(sheet, TC_ROW_LINE, label, "");
    tc_sheet_text(sheet, 0, a);
    tc_sheet_text(sheet, 1, b);
    tc_sheet_text(sheet, 2, c);
}

static void three_tanks(struct tc_sheet *sheet, const char *name, const char *title)
{
    tc_sheet_start(sheet, name, 3);
    tc_sheet_head(sheet, title, assumptions, "");
    tc_sheet_column(sheet, 0, "29-high", "sale lowmere-spring");
    tc_sheet_column(sheet, 1, "36-breeder", "price typed");
    tc_sheet_column(sheet, 2, "48-shallow", "special order");
}

void sample_bill(struct tc_sheet *sheet)
{
    three_tanks(sheet, "bill", "What each costs to buy and to own over 10 years");
    tc_sheet_row(sheet, TC_ROW_GROUP, "To buy", "");
    money3(sheet, TC_ROW_LINE, "tank", 4350, 6500, 13900);
    tc_sheet_edit(sheet, 1, "candidate 2/price");
    tc_sheet_mark(sheet, 1, TC_MARK_TYPED);
    money3(sheet, TC_ROW_LINE, "stand", 9900, 12900, 15900);
    tc_sheet_mark(sheet, 2, TC_MARK_PINNED);
    money3(sheet, TC_ROW_LINE, "lid", 2800, 3600, 0);
    tc_sheet_missing(sheet, 2, "none fits");
    money3(sheet, TC_ROW_LINE, "filter", 3200, 3200, 6400);
    money3(sheet, TC_ROW_LINE, "sales tax", 1418, 1834, 2534);
    money3(sheet, TC_ROW_SUBTOTAL, "to buy", 21668, 28034, 38734);
    tc_sheet_mark(sheet, 2, TC_MARK_INCOMPLETE);
    tc_sheet_mark_lowest(sheet);
    tc_sheet_row(sheet, TC_ROW_GROUP, "Each year", "");
    money3(sheet, TC_ROW_LINE, "electricity: heater", 6120, 6480, 9755);
    money3(sheet, TC_ROW_LINE, "electricity: warming new water", 480, 520, 700);
    money3(sheet, TC_ROW_LINE, "water: changes", 380, 410, 535);
    money3(sheet, TC_ROW_SUBTOTAL, "each year", 6980, 7410, 10990);
    tc_sheet_mark(sheet, 2, TC_MARK_INCOMPLETE);
    tc_sheet_mark_lowest(sheet);
    tc_sheet_row(sheet, TC_ROW_GROUP, "In today's money", "");
    money3(sheet, TC_ROW_TOTAL, "present value", 81209, 91243, 132481);
    tc_sheet_mark(sheet, 2, TC_MARK_INCOMPLETE);
    tc_sheet_mark_lowest(sheet);
    money3(sheet, TC_ROW_TOTAL, "for each day", 26, 29, 43);
    tc_sheet_mark(sheet, 2, TC_MARK_INCOMPLETE);
    tc_sheet_mark_lowest(sheet);
    text3(sheet, "what the setup's animals ask", "not met", "met", "met");
    tc_sheet_mark(sheet, 0, TC_MARK_SHORT);
    number3(sheet, "load on its footprint", "psf", 0, 182, 131, 118);
    tc_sheet_mark(sheet, 0, TC_MARK_OVER);
    tc_sheet_note(
        sheet, TC_NOTE_FINDING,
        "29-high costs least to own over 10 years: 812.09 USD in today's money, 100.34 USD less than "
        "36-breeder.");
    tc_sheet_note(
        sheet, TC_NOTE_FAULT,
        "48-shallow: no lid on offer fits, so its sums are incomplete. It needs a lid of 48.5 × 12.8 "
        "in, in one to three pieces.");
    tc_sheet_note(sheet, TC_NOTE_REMARK, "29-high: the sale gives 2 to a customer.");
    tc_sheet_note(sheet, TC_NOTE_CAUTION,
                  "Water and electricity: plug tanks into outlets with a ground-fault or residual-current "
                  "device, leave a drip loop in every cord. Local codes and a licensed electrician have the "
                  "last word.");
}

void sample_fit(struct tc_sheet *sheet)
{
    three_tanks(sheet, "fit", "What each tank's shape gives, and what it forces you to buy");
    tc_sheet_row(sheet, TC_ROW_GROUP, "Shape", "");
    text3(sheet, "outside, length × width × height", "30.0 × 12.5 × 18.8 in", "36.0 × 18.5 × 12.9 in",
          "48.5 × 12.8 × 12.9 in");
    number3(sheet, "footprint", "in²", 0, 375, 666, 618);
    number3(sheet, "inside: length to swim", "in", 1, 29.5, 35.5, 48.0);
    tc_sheet_mark_highest(sheet);
    number3(sheet, "reach, rim to substrate", "in", 1, 17.1, 11.2, 11.2);
    tc_sheet_mark_lowest(sheet);
    tc_sheet_row(sheet, TC_ROW_GROUP, "What fills it", "");
    text3(sheet, "lid", "glass-30x12", "glass-36x18", "2 × glass-24x12");
    text3(sheet, "filter", "sponge-m", "sponge-m", "2 × sponge-s");
    tc_sheet_row(sheet, TC_ROW_LINE, "heater", "");
    tc_sheet_text(sheet, 0, "heater-100");
    tc_sheet_text(sheet, 1, "heater-100");
    tc_sheet_mark(sheet, 1, TC_MARK_PINNED | TC_MARK_SHORT);
    tc_sheet_missing(sheet, 2, "");
    tc_sheet_row(sheet, TC_ROW_GROUP, "What the setup's animals ask", "");
    tc_sheet_sentence(sheet, "29-high", "length 29.5 of 35.0 in; bottom 354 of 550 in²");
    tc_sheet_mark(sheet, 0, TC_MARK_SHORT);
    tc_sheet_sentence(sheet, "36-breeder", "met");
    tc_sheet_row(sheet, TC_ROW_GROUP, "Why: 48-shallow", "");
    tc_sheet_sentence(sheet, "lid", "2 × glass-24x12: fits: 48.0 in for 48.5 in; the cheapest of 3 that fit");
    tc_sheet_sentence(sheet, "  refused",
                      "glass-30x12 (too short: 30.0 in for 48.5 in); glass-36x18 (too wide: 18.0 in for 12.8 "
                      "in); glass-48x13-hinged (no price here)");
    tc_sheet_note(sheet, TC_NOTE_CAUTION,
                  "Stand: level, rated for the filled weight, secured against tipping.");
}

void sample_list(struct tc_sheet *sheet)
{
    tc_sheet_start(sheet, "list", 4);
    tc_sheet_head(sheet, "What to carry to the till", "", "29-high");
    tc_sheet_column(sheet, 0, "count", "");
    tc_sheet_column(sheet, 1, "each", "");
    tc_sheet_column(sheet, 2, "sum", "");
    tc_sheet_column(sheet, 3, "look for", "");
    if (!sheet->failed)
        sheet->columns[3].words = true;
    static const struct {
        const char *label, *words;
        int count;
        tc_money each;
    } items[] = {{"tank 29-high", "the half-price shelf by the door", 2, 4350},
                 {"lid glass-30x12", "hinged, with a plastic strip", 2, 2800},
                 {"filter sponge-m", "", 12, 320}};
    tc_money sum = 0;
    for (size_t i = 0; i < sizeof items / sizeof *items; i++) {
        tc_sheet_row(sheet, TC_ROW_LINE, items[i].label, "");
        tc_sheet_number(sheet, 0, items[i].count, 0);
        tc_sheet_money(sheet, 1, items[i].each, usd);
        tc_sheet_money(sheet, 2, items[i].each * items[i].count, usd);
        tc_sheet_text(sheet, 3, items[i].words);
        sum += items[i].each * items[i].count;
    }
    tc_sheet_row(sheet, TC_ROW_TOTAL, "to buy", "");
    tc_sheet_money(sheet, 2, sum, usd);
}

void sample_places(struct tc_sheet *sheet)
{
    static const char *const heads[] = {"29-high", "36-breeder", "29-high",   "36-breeder",
                                        "29-high", "36-breeder", "48-shallow"};
    static const char *const places[] = {"Lowmere",      "Lowmere",      "Hochfels", "Hochfels",
                                         "Minamoto Bay", "Minamoto Bay", "Sabkha"};
    const struct tc_currency currencies[] = {usd, usd, eur, eur, jpy, jpy, kwd};
    static const tc_money prices[] = {21668, 28034, 19950, 26990, 31200, 29800, 84125};
    static const tc_money dollars[] = {21668, 28034, 21546, 29149, 20592, 19668, 273406};
    tc_sheet_start(sheet, "places", 7);
    tc_sheet_head(sheet, "What each costs in four places", "All places are invented.", "");
    for (size_t i = 0; i < 7; i++)
        tc_sheet_column(sheet, i, heads[i], places[i]);
    tc_sheet_row(sheet, TC_ROW_LINE, "to buy", "");
    for (size_t i = 0; i < 7; i++)
        tc_sheet_money(sheet, i, prices[i], currencies[i]);
    tc_sheet_row(sheet, TC_ROW_LINE, "delivery", "");
    for (size_t i = 0; i < 7; i++)
        tc_sheet_money(sheet, i, prices[i] / 20, currencies[i]);
    tc_sheet_row(sheet, TC_ROW_TOTAL, "in one money", "");
    for (size_t i = 0; i < 7; i++)
        tc_sheet_money(sheet, i, dollars[i], usd);
    tc_sheet_mark_lowest(sheet);
    tc_sheet_row(sheet, TC_ROW_LINE, "import fee", "");
    tc_sheet_money(sheet, 2, 1200, eur);
    tc_sheet_money(sheet, 4, 1500, usd);
    tc_sheet_row(sheet, TC_ROW_LINE, "heater", "kWh");
    for (size_t i = 0; i < 7; i++)
        tc_sheet_number(sheet, i, 300 + 11.5 * (double)i, 1);
    tc_sheet_sentence(sheet, "answer", "The winner changes in Minamoto Bay: the tank itself decides.");
}

void sample_energy(struct tc_sheet *sheet)
{
    static const char *const months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                         "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    static const double heater[] = {61.2, 52.3, 48.1, 36.6, 24.2, 12.9, 4.1, 5.8, 17.5, 33.3, 47.7, 58.4};
    tc_sheet_start(sheet, "energy", 1);
    tc_sheet_head(sheet, "Where the electricity goes", "", "");
    tc_sheet_column(sheet, 0, "29-high", "");
    tc_sheet_row(sheet, TC_ROW_LINE, "all year", "kWh");
    tc_sheet_number(sheet, 0, 606.0, 1);
    struct tc_chart *chart = tc_sheet_chart(sheet, TC_CHART_BARS, 3, 12);
    if (!chart)
        return;
    chart->title = "Electricity by month, 29-high";
    chart->y_title = "kWh";
    chart->decimals = 1;
    chart->series[0].name = "heater";
    chart->series[1].name = "light";
    chart->series[2].name = "filter";
    for (int i = 0; i < 12; i++) {
        chart->x_labels[i] = months[i];
        chart->series[0].values[i] = heater[i];
        chart->series[1].values[i] = 14.1;
        chart->series[2].values[i] = 2.9;
    }
}

void sample_years(struct tc_sheet *sheet)
{
    three_tanks(sheet, "years", "Where the money goes, year by year");
    for (size_t c = 0; c < sheet->column_count; c++)
        tc_sheet_column(sheet, c, sheet->columns[c].head, "sale lowmere-spring");
    money3(sheet, TC_ROW_LINE, "at the start", 21668, 28034, 38734);
    money3(sheet, TC_ROW_LINE, "after 10 years", 97468, 92134, 149934);
    struct tc_chart *chart = tc_sheet_chart(sheet, TC_CHART_LINES, 3, 11);
    if (!chart)
        return;
    static const double start[] = {216.68, 280.34, 387.34}, year[] = {69.80, 57.10, 104.90};
    chart->title = "Paid since the purchase";
    chart->y_title = "USD";
    chart->x_title = "years";
    for (size_t s = 0; s < 3; s++) {
        chart->series[s].name = sheet->columns[s].head;
        for (size_t i = 0; i < 11; i++) /* a heater is replaced in year 5 */
            chart->series[s].values[i] = start[s] + year[s] * (double)i + (i >= 5 ? 45 : 0);
    }
    tc_sheet_note(sheet, TC_NOTE_FINDING, "29-high and 36-breeder cross in year 6.");
}

void sample_shortlist(struct tc_sheet *sheet)
{
    static const char *const names[] = {"20-high", "20-long", "29-high", "36-breeder", "60-cube"};
    static const double cost[] = {825.49, 826.99, 1018.2, 1499.34, 1210},
                        water[] = {17.9, 16.1, 25.5, 33, 24};
    tc_sheet_start(sheet, "shortlist", 2);
    tc_sheet_head(sheet, "Which tanks suit", "", "");
    tc_sheet_column(sheet, 0, "to own", "");
    tc_sheet_column(sheet, 1, "water", "gal");
    struct tc_chart *chart = tc_sheet_chart(sheet, TC_CHART_POINTS, 2, 5);
    for (size_t i = 0; i < 5 && chart; i++) {
        bool beaten = i == 1 || i == 4;
        tc_sheet_row(sheet, TC_ROW_LINE, names[i], "");
        tc_sheet_number(sheet, 0, cost[i], 2);
        tc_sheet_number(sheet, 1, water[i], 1);
        chart->x[i] = cost[i];
        chart->x_labels[i] = names[i];
        chart->series[beaten].values[i] = water[i];
        chart->series[!beaten].values[i] = NAN;
    }
    if (!chart)
        return;
    chart->title = "Water for money";
    chart->x_title = "USD to own";
    chart->y_title = "gal";
    chart->decimals = 1;
    chart->series[0].name = "beaten by none";
    chart->series[1].name = "others";
}

void sample_doubts(struct tc_sheet *sheet)
{
    static const char *const labels[] = {"electricity price", "hours of light", "room temperature in winter",
                                         "price of 36-breeder", "life of a heater"};
    static const double low[] = {-31, 12, 44.5, 9, 21}, high[] = {88, 37, 3, 41, NAN};
    tc_sheet_start(sheet, "doubts", 1);
    tc_sheet_head(sheet, "How sure the answer is", "", "");
    tc_sheet_column(sheet, 0, "29-high", "");
    tc_sheet_row(sheet, TC_ROW_LINE, "chance of costing least", "%");
    tc_sheet_number(sheet, 0, 83.1, 1);
    struct tc_chart *chart = tc_sheet_chart(sheet, TC_CHART_SPANS, 2, 5);
    if (!chart)
        return;
    chart->title = "What each guess alone does to the difference";
    chart->y_title = "USD";
    chart->below = "36-breeder costs less";
    chart->above = "29-high costs less";
    chart->middle = 25;
    chart->series[0].name = "low end of the guess";
    chart->series[1].name = "high end";
    for (size_t i = 0; i < 5; i++) {
        chart->x_labels[i] = labels[i];
        chart->series[0].values[i] = low[i];
        chart->series[1].values[i] = high[i];
    }
}

void sample_wall(struct tc_sheet *sheet)
{
    const double inch = 0.0254;
    tc_sheet_start(sheet, "wall", 1);
    tc_sheet_head(sheet, "Which tanks the wall holds", "A wall of 144 × 78 in; three tiers.", "");
    tc_sheet_column(sheet, 0, "best mix", "");
    tc_sheet_row(sheet, TC_ROW_LINE, "tanks", "");
    tc_sheet_number(sheet, 0, 10, 0);
    tc_sheet_drawing(sheet, "The wall from the front, to scale", 144 * inch, 78 * inch, "in", inch);
    static const double tiers[] = {6, 32, 58}; /* in, the top of each board */
    for (int post = 0; post < 4; post++)
        tc_sheet_box(sheet, (struct tc_box){post * 47.3 * inch, 0, 2 * inch, 74 * inch, ' ', NULL});
    for (int t = 0; t < 3; t++) {
        tc_sheet_box(sheet, (struct tc_box){0, (tiers[t] - 2) * inch, 144 * inch, 2 * inch, ' ', NULL});
        for (int i = 0; i < 2; i++)
            tc_sheet_box(sheet, (struct tc_box){(4 + 47.3 * i) * inch, tiers[t] * inch, 36 * inch,
                                                12.9 * inch, 'A', "36-breeder"});
        if (t > 0)
            for (int i = 0; i < 2; i++)
                tc_sheet_box(sheet, (struct tc_box){(97 + 21.5 * i) * inch, tiers[t] * inch, 20 * inch,
                                                    12 * inch, 'B', "20-cube × 2 deep"});
    }
    tc_sheet_note(sheet, TC_NOTE_CAUTION, "A wall of full tanks is heavy: ask a structural engineer.");
}

void sample_odd(struct tc_sheet *sheet)
{
    tc_sheet_start(sheet, "odd", 3);
    tc_sheet_head(sheet, "=1+1, \"quoted\" | <b>bold</b> & *stars*", "- 1. @home #tags ~ [link](x) `code`",
                  "a|b");
    tc_sheet_column(sheet, 0, "=SUM(A1)", "µ – “x”");
    tc_sheet_column(sheet, 1, "same", "");
    tc_sheet_column(sheet, 2, "same", "");
    tc_sheet_row(sheet, TC_ROW_LINE, "+1-555", "m²");
    tc_sheet_number(sheet, 0, -0.125, 2);
    tc_sheet_number(sheet, 1, NAN, 1);
    tc_sheet_number(sheet, 2, 1e18, 0);
    tc_sheet_row(sheet, TC_ROW_LINE, "  水槽, Größe “é” ½", "°C");
    tc_sheet_text(sheet, 0, "@cmd|' /C calc'!A0");
    tc_sheet_text(sheet, 1, "-2\\3, \"so\"");
    tc_sheet_number(sheet, 2, 0.1, 1);
    tc_sheet_row(sheet, TC_ROW_LINE,
                 "a label that is so long that no terminal of a usual width has room for it", "");
    tc_sheet_money(sheet, 0, -5, usd);
    tc_sheet_money(sheet, 1, TC_MONEY_MAX, usd);
    tc_sheet_money(sheet, 2, -1234567, usd);
    tc_sheet_sentence(sheet, "=cmd", "-1 | +2");
    tc_sheet_note(sheet, TC_NOTE_FINDING, "1) not a list; \\* and _this_ is no markup.");
    tc_sheet_note(sheet, TC_NOTE_REMARK, "tabs\tand\nlines are gone");
}

const struct sample samples[] = {
    {"bill", sample_bill},           {"fit", sample_fit},       {"list", sample_list},
    {"places", sample_places},       {"energy", sample_energy}, {"years", sample_years},
    {"doubts", sample_doubts},       {"wall", sample_wall},     {"odd", sample_odd},
    {"shortlist", sample_shortlist},
};
const size_t sample_count = sizeof samples / sizeof *samples;
