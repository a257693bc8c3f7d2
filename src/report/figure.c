#include "figure.h"

#include <math.h>
#include <string.h>

enum { DIGITS = 3, WIDEST = 9, NAME = 40 };

/* The digits that a figure of a unit deserves: so many decimals, none from whole on. Of other units
 * three significant digits. */
static const struct {
    const char *unit;
    int places;
    double whole;
} deserved[] = {
    {"ton", 1, 10},     {"tonne", 1, 10},    {"ton/load", 1, 10},  {"tonne/load", 1, 10},  {"ton/h", 1, 10},
    {"tonne/h", 1, 10}, {"lb", 1, 10},       {"kg", 1, 10},        {"lb/ac", 1, 10},       {"kg/ha", 1, 10},
    {"lb/ton", 1, 10},  {"kg/tonne", 1, 10}, {"bu/ac", 1, 10},     {"bu/ha", 1, 10},       {"yd3/h", 1, 10},
    {"m3/h", 1, 10},    {"min", 1, 10},      {"mph", 1, 10},       {"km/h", 1, 10},        {"day", 1, 10},
    {"ac", 1, 100},     {"ha", 1, 100},      {"h", 1, 100},        {"mi", 1, 100},         {"km", 1, 100},
    {"ft", 1, 100},     {"m", 1, 100},       {"in", 1, 100},       {"cm", 1, 100},         {"yd3", 1, 100},
    {"m3", 1, 100},     {"lb/ft3", 1, 100},  {"kg/m3", 1, 100},    {"tonne/ha", 1, 100},   {"ton/ac", 2, 100},
    {"%", 1, 1},        {"$", 0, 0},         {"$/ton", 0, 0},      {"$/tonne", 0, 0},      {"$/h", 0, 0},
    {"$/mi", 2, 100},   {"$/km", 2, 100},    {"$/ton/mi", 2, 100}, {"$/tonne/km", 2, 100}, {"$/lb", 2, 100},
    {"$/kg", 2, 100},   {"bird", 0, 0},      {"load", 0, 0},
};

static ls_unit shown_in(const ls_report_page *p, ls_unit unit) {
    return p->view->metric ? ls_unit_metric(p->arena, unit) : unit;
}

const char *ls_report_unit(const ls_report_page *p, const char *unit) { return shown_in(p, ls_unit_of(unit)).text; }

/* The step of a figure of that size. */
static double step_of_unit(const char *unit, double size) {
    for (size_t i = 0; i < sizeof deserved / sizeof *deserved; i++)
        if (strcmp(deserved[i].unit, unit) == 0) return size >= deserved[i].whole ? 1 : pow(10, -deserved[i].places);
    return size > 0 ? fmin(1, pow(10, floor(log10(size)) + 1 - DIGITS)) : 1;
}

/* Two significant digits of half the range at most, as JCGM 101 has them; 0: there is no range. */
static double step_of_range(double low, double high) {
    double half = (high - low) / 2;
    return half > 0 && isfinite(half) ? pow(10, floor(log10(half / 5))) : 0;
}

const char *ls_report_rounded(const ls_report_page *p, double value, double low, double high, const char *unit) {
    ls_unit shown = shown_in(p, ls_unit_of(unit));
    double v = value / shown.factor, least = low / shown.factor, most = high / shown.factor;
    double step = fmax(step_of_unit(shown.text, fmax(fabs(least), fabs(most))), step_of_range(least, most));
    bool alike = shown.text[0] == '$' || high > low; /* zeros at the end stay */
    const char *text =
        step < 1 && alike ? ls_number_fixed(p->arena, v, (int)lround(-log10(step))) : ls_number_step(p->arena, v, step);
    return ls_text_columns(text) <= WIDEST ? text : ls_arena_printf(p->arena, "%.2e", v);
}

const char *ls_report_number(const ls_report_page *p, double value, const char *unit) {
    return ls_report_rounded(p, value, value, value, unit);
}

const char *ls_report_booked(const ls_report_page *p, double value, const char *unit) {
    value /= ls_unit_of(ls_report_unit(p, unit)).factor;
    return ls_number_fixed(p->arena, fabs(value) < 0.005 ? 0 : value, 2);
}

const char *ls_report_with_unit(ls_arena *a, const char *number, double value, const char *unit) {
    return isfinite(value) ? ls_unit_amount(a, number, unit) : number;
}

const char *ls_report_amount(const ls_report_page *p, double value, const char *unit) {
    enum { VANISHES = -9 };
    ls_unit shown = shown_in(p, ls_unit_of(unit));
    const char *number = ls_report_number(p, value, unit);
    double step = step_of_unit(shown.text, value / shown.factor);
    bool too_little = value / shown.factor > pow(10, VANISHES) && value / shown.factor < step / 2;
    const char *words =
        ls_report_with_unit(p->arena, too_little ? ls_number_step(p->arena, step, step) : number, value, shown.text);
    return too_little ? ls_arena_printf(p->arena, "under %s", words) : words;
}

const char *ls_report_line(const ls_report_page *p, ls_line line, const char *unit) {
    return ls_report_amount(p, ls_line_value(p->view->sheet, line), unit);
}

const char *ls_report_line_number(const ls_report_page *p, ls_line line, const char *unit) {
    return ls_report_number(p, ls_line_value(p->view->sheet, line), unit);
}

const char *ls_report_nutrient(int nutrient) {
    static const char *const names[LS_NUTRIENTS] = {
        [LS_N] = "N (nitrogen)",
        [LS_NH4N] = "NH4-N (ammonium)",
        [LS_P2O5] = "P2O5 (phosphate)",
        [LS_K2O] = "K2O (potash)",
    };
    return names[nutrient];
}

const char *ls_report_analysis(const ls_report_page *p, const ls_analysis *a) {
    if (a->report == NULL) return ls_arena_printf(p->arena, "published figures for %s litter", ls_bird_tables(a->bird));
    const ls_lab *lab = a->report;
    return ls_arena_printf(p->arena, "%s of %s%s%s",
                           a->reports > 1 ? ls_arena_printf(p->arena, "mean of %zu reports, the last", a->reports)
                                          : "report",
                           lab->by.text == NULL ? "the laboratory" : ls_report_name(p, lab->by.text, NAME),
                           LS_GIVEN(lab->date) ? ", " : "",
                           LS_GIVEN(lab->date) ? ls_date_words(p->arena, lab->date.day, p->view->year) : "");
}
