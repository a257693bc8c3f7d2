/* figure: lines of the worksheet as text in the units of the page. Private to this room. */
#pragma once

#include "page.h"

/* unit: the US unit a figure is shown in; a metric page shows its fellow. Values in base units. */

/* The unit's name on this page: "ton/ac", "tonne/ha". */
const char *ls_report_unit(const ls_report_page *p, const char *unit);

/* The number alone, with the digits that its unit deserves and no more than it is sure of where it lies between low and
 * high: all three are rounded to one step, a power of ten that is at most a fifth of half the range. At most nine
 * columns wide (a wider one is written with an exponent); "unknown" if it is not known. */
const char *ls_report_rounded(const ls_report_page *p, double value, double low, double high, const char *unit);
/* The same of a figure without a range. */
const char *ls_report_number(const ls_report_page *p, double value, const char *unit);
/* The number to hundredths, so that books can be added up. */
const char *ls_report_booked(const ls_report_page *p, double value, const char *unit);
/* A number with its unit in words; one that is not known stands alone. */
const char *ls_report_with_unit(ls_arena *a, const char *number, double value, const char *unit);
/* Number and unit: "12 tons", "$41 a ton", "90%"; too little for its digits: "under 0.1 tons". */
const char *ls_report_amount(const ls_report_page *p, double value, const char *unit);
/* The same of a line's value. */
const char *ls_report_line(const ls_report_page *p, ls_line line, const char *unit);
const char *ls_report_line_number(const ls_report_page *p, ls_line line, const char *unit);
/* "P2O5 (phosphate)" and so on; nutrient is LS_N ... */
const char *ls_report_nutrient(int nutrient);
/* "report of State Laboratory, 2026-01-29" or "published figures for broiler breeder litter". */
const char *ls_report_analysis(const ls_report_page *p, const ls_analysis *a);
