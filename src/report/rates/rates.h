/* rates: the parts of the page of rates. Private to this room. */
#ifndef REPORT_RATES_H
#define REPORT_RATES_H

#include "report/figure.h"

#include <string.h>

/* A page of rates in the making: text, or JSON. */
struct ls_rates_page {
    const ls_view *view;
    const ls_agronomy *agronomy;
    ls_report_page *page; /* NULL: JSON */
    ls_text *text;
    const char *between; /* what stands before the next field */
};
ls_report_page *ls_report_rates_text_begin(const ls_view *v, const ls_agronomy *g);
void ls_report_rates_text_field(ls_report_page *p, const ls_field_rates *field);

/* A row of N, P2O5 and K2O in lb/ac; none stands where there is no figure. The heads of such rows,
 * led by what and the unit. */
void ls_report_nutrients(ls_report_page *p, const char *label,
                         const ls_line lines[LS_FIELD_NUTRIENTS], const char *none);
void ls_report_nutrient_heads(ls_report_page *p, const char *what);

/* Crop, soil test, need, credits one by one, and how each came about. */
void ls_report_need(ls_report_page *p, const ls_field_rates *field);

/* What to buy after the litter of a rate; whether so much of a product is worth naming. */
void ls_report_buy(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate);
bool ls_report_is_bought(const ls_report_page *p, const ls_bought *b);

/* What a ton of the i-th rate's litter is worth; by what that is counted, unless an earlier rate of
 * the field says the same. */
void ls_report_worth(ls_report_page *p, const ls_field_rates *field, size_t i);

/* An earlier rate of the field that the i-th repeats: by figures that are the same, or, where no
 * laboratory reported either, by draws that differ by no more than their scatter. NULL: none. And
 * what is said then. */
const ls_rate *ls_report_repeated(const ls_report_page *p, const ls_field_rates *field, size_t i);
void ls_report_as_for(ls_report_page *p, const ls_rate *rate, const ls_rate *earlier);

#endif
