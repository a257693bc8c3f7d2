/* rates_limits_json: what limits a field and a rate, as data. Private to this room. */
#ifndef REPORT_RATES_LIMITS_JSON_H
#define REPORT_RATES_LIMITS_JSON_H

#include "report/json.h"

/* A field with the rates of all lots. */
json_t *ls_report_rates_json(const ls_view *v, const ls_field_rates *field);

/* Add to a field's object: setbacks, spread, window_caps, ledger, phosphorus, earliest. */
void ls_report_put_limits_of_field(const ls_view *v, json_t *object, const ls_field_rates *field);
/* Add to a rate's object: the rate outside the caps of a season, how long its phosphorus lasts, and
 * metals. */
void ls_report_put_limits_of_rate(const ls_view *v, json_t *object, const ls_rate *rate);

#endif
