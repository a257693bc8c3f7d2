/* rates_limits: what limits a field and a rate, on the page of rates. Private to this room. */
#ifndef REPORT_RATES_LIMITS_H
#define REPORT_RATES_LIMITS_H

#include "report/figure.h"

/* Setbacks with their acres; the days on which the field may be spread and the earliest dates
 * after; the caps of a season. */
void ls_report_setbacks(ls_report_page *p, const ls_field_rates *field);
void ls_report_dates(ls_report_page *p, const ls_field_rates *field);
void ls_report_caps(ls_report_page *p, const ls_field_rates *field);
/* Who rated the phosphorus and what that allows; the ledger. */
void ls_report_phosphorus(ls_report_page *p, const ls_field_rates *field);

/* Of one rate: what may go on outside the caps of a season; how many harvests' phosphorus goes on
 * and when it may again; potash
 * and metals, which no limit counts. */
void ls_report_outside(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate);
void ls_report_again(ls_report_page *p, const ls_rate *rate);
void ls_report_uncounted(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate);
/* The most copper and zinc in all, once for all fields. */
void ls_report_metals_most(ls_report_page *p, const ls_agronomy *g);

#endif
