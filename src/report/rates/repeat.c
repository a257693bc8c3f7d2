/* Rates on the page of rates that repeat an earlier one of the field. */
#include "rates.h"

#include <math.h>

static bool same(const ls_report_page *p, ls_line a, ls_line b, double within) {
    const ls_worksheet *w = p->view->sheet;
    if (a == LS_NO_LINE || b == LS_NO_LINE)
        return a == b;
    double x = ls_line_value(w, a), y = ls_line_value(w, b);
    return fabs(x - y) <= within * fabs(x);
}

/* All that the page says of one rate holds for another, figures being within a share of each other.
 */
static bool says_the_same(const ls_report_page *p, const ls_rate *a, const ls_rate *b,
                          double within) {
    bool alike = a->limit == b->limit && ls_text_same(a->why, b->why) &&
                 same(p, a->rate, b->rate, within) && same(p, a->pan, b->pan, within) &&
                 same(p, a->nitrogen, b->nitrogen, within) &&
                 same(p, a->phosphorus, b->phosphorus, within) && same(p, a->cap, b->cap, 0) &&
                 same(p, a->window, b->window, within);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        alike = alike && same(p, a->on[k], b->on[k], within) &&
                same(p, a->counts[k], b->counts[k], within);
    return alike;
}

const ls_rate *ls_report_repeated(const ls_report_page *p, const ls_field_rates *field, size_t i) {
    const double scatter = 0.02;
    const ls_rate *rate = &field->rates[i];
    for (size_t k = 0; k < i; k++) {
        const ls_rate *earlier = &field->rates[k];
        if (rate->limit == LS_LIMIT_CLOSED) /* closed to all litter, and the page says no more */
            return earlier;
        bool drawn = rate->chance_over != LS_NO_LINE && earlier->chance_over != LS_NO_LINE;
        if ((drawn || rate->chance_over == earlier->chance_over) &&
            says_the_same(p, earlier, rate, drawn ? scatter : 0))
            return earlier;
    }
    return NULL;
}

void ls_report_as_for(ls_report_page *p, const ls_rate *rate, const ls_rate *earlier) {
    ls_text *t = ls_text_new(p->arena);
    if (rate->nitrogen != LS_NO_LINE)
        ls_text_addf(t, "nitrogen %s", ls_report_line(p, rate->nitrogen, "ton/ac"));
    if (rate->phosphorus != LS_NO_LINE)
        ls_text_addf(t, "%sphosphorus %s", t->n > 0 ? ", " : "",
                     ls_report_line(p, rate->phosphorus, "ton/ac"));
    bool drawn = rate->chance_over != LS_NO_LINE && rate->limit != LS_LIMIT_CLOSED;
    if (drawn)
        ls_text_addf(t, "%schance of going over %s", t->n > 0 ? ", " : "",
                     ls_report_line(p, rate->chance_over, "%"));
    ls_report_say(p, 4, "as for %s%s%s.", ls_report_name(p, earlier->lot->name, 40),
                  drawn ? ", but for the scatter of the draws; here " : "", drawn ? t->s : "");
    ls_report_say(p, 2, "RATE: %s", ls_report_line(p, rate->rate, "ton/ac"));
}
