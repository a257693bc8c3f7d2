#include "figure.h"

#include <math.h>
#include <stdio.h>

enum { DIGITS = 3, WIDEST = 9, NAME = 40 };

static ls_unit shown_in(const ls_report_page *p, ls_unit unit) {
    return p->view->metric ? ls_unit_metric(unit) : unit;
}

const char *ls_report_unit(const ls_report_page *p, const char *unit) {
    return shown_in(p, ls_unit_of(unit)).text;
}

const char *ls_report_number(const ls_report_page *p, double value, const char *unit) {
    double v = value / shown_in(p, ls_unit_of(unit)).factor;
    const char *text = ls_number_text(p->arena, v, DIGITS);
    return ls_text_columns(text) <= WIDEST ? text : ls_arena_printf(p->arena, "%.2e", v);
}

const char *ls_report_with_unit(ls_arena *a, const char *number, double value, const char *unit) {
    return isfinite(value) ? ls_unit_amount(a, number, unit) : number;
}

const char *ls_report_amount(const ls_report_page *p, double value, const char *unit) {
    return ls_report_with_unit(p->arena, ls_report_number(p, value, unit), value,
                               ls_report_unit(p, unit));
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
    if (a->report == NULL)
        return ls_arena_printf(p->arena, "published figures for %s litter",
                               ls_bird_tables(a->bird));
    const ls_lab *lab = a->report;
    return ls_arena_printf(
        p->arena, "%s of %s%s%s",
        a->reports > 1 ? ls_arena_printf(p->arena, "mean of %zu reports, the last", a->reports)
                       : "report",
        lab->by.text == NULL ? "the laboratory" : ls_report_name(p, lab->by.text, NAME),
        LS_GIVEN(lab->date) ? ", " : "",
        LS_GIVEN(lab->date) ? ls_date_words(p->arena, lab->date.day, p->view->year) : "");
}
