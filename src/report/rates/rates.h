/* rates: the parts of the page of rates. Private to this room. */
#pragma once

#include "report/put.h"

/* Figures of N, P2O5 and K2O, a row of lb/ac each: an object {N, P2O5, K2O} in JSON. */
ls_doc_table ls_rates_nutrients(ls_doc_group *g, ls_doc_level level, const char *caption);
/* unknown: a figure that is none is one that is not known. */
void ls_rates_nutrient_row(ls_doc_table t, ls_doc_level level, const char *key, const char *label,
                           const ls_line lines[LS_FIELD_NUTRIENTS], bool unknown);
/* "Mon 16 Feb 2026 to Wed 15 Apr 2026". */
const char *ls_rates_days(const ls_view *v, ls_window w);
/* Acres, dates, caps of a season, phosphorus. */
void ls_rates_put_limits(ls_doc_group *g, const ls_field_rates *field);
/* Crop, soil test, need, credits one by one, and how each came about. */
void ls_rates_put_need(ls_doc_group *g, const ls_field_rates *field);
/* The rate of the i-th lot's litter, and what it brings. */
void ls_rates_put_rate(ls_doc_group *list, const ls_field_rates *field, size_t i);
/* Spreadings at this rate until the first metal reaches its lifetime limit; few: it is near. */
double ls_rates_spreadings(const ls_worksheet *w, const ls_rate *rate);
enum { LS_RATES_FEW = 20 };
/* A chance below it is told as such: fewer draws say nothing. */
#define LS_RATES_LEAST_CHANCE 0.001

/* Lots of one analysis have one rate on a field. Is the i-th the first of them? Their names. */
bool ls_rates_leads(const ls_field_rates *field, size_t i);
const char *ls_rates_lots(ls_arena *a, const ls_field_rates *field, size_t i);
/* Where a figure comes from, in a word or two. */
/* "ipni, from memory"; "" of what no published table is in. */
const char *ls_rates_sources(const ls_doc_group *g, ls_line line);
const char *ls_rates_source(const ls_worksheet *w, ls_line line);
/* What the rate is set by: "nitrogen", "the plan's limit". */
const char *ls_rates_set_by(const ls_field_rates *field, ls_limit limit);
