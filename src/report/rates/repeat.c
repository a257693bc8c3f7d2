/* Rates on the page of rates that repeat an earlier one of the field. */
#include "rates.h"

#include <math.h>

static bool same(const ls_worksheet *w, ls_line a, ls_line b, double within) {
    if (a == LS_NO_LINE || b == LS_NO_LINE)
        return a == b;
    double x = ls_line_value(w, a), y = ls_line_value(w, b);
    return fabs(x - y) <= within * fabs(x);
}

/* All that the page says of one rate holds for another, figures being within a share of each other.
 */
static bool says_the_same(const ls_worksheet *w, const ls_rate *a, const ls_rate *b,
                          double within) {
    bool alike = a->limit == b->limit && ls_text_same(a->why, b->why) &&
                 same(w, a->rate, b->rate, within) && same(w, a->pan, b->pan, within) &&
                 same(w, a->nitrogen, b->nitrogen, within) &&
                 same(w, a->phosphorus, b->phosphorus, within) && same(w, a->cap, b->cap, 0) &&
                 same(w, a->window, b->window, within);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        alike = alike && same(w, a->on[k], b->on[k], within) &&
                same(w, a->counts[k], b->counts[k], within);
    return alike;
}

const ls_rate *ls_rates_repeated(const ls_worksheet *w, const ls_field_rates *field, size_t i) {
    const double scatter = 0.02;
    const ls_rate *rate = &field->rates[i];
    for (size_t k = 0; k < i; k++) {
        const ls_rate *earlier = &field->rates[k];
        if (rate->limit == LS_LIMIT_CLOSED) /* closed to all litter, and the page says no more */
            return earlier;
        bool drawn = rate->chance_over != LS_NO_LINE && earlier->chance_over != LS_NO_LINE;
        if ((drawn || rate->chance_over == earlier->chance_over) &&
            says_the_same(w, earlier, rate, drawn ? scatter : 0))
            return earlier;
    }
    return NULL;
}
