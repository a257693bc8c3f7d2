/* What a ton is worth on a field, on the page of rates. */
#include "rates.h"

static const char *const names[LS_FIELD_NUTRIENTS] = {"N", "P2O5", "K2O"};

/* "N $15.1/ton, P2O5 not counted". */
static const char *parts(const ls_report_page *p, const ls_rate *rate) {
    ls_text *t = ls_text_new(p->arena);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        ls_text_addf(t, "%s%s %s", k > 0 ? ", " : "", names[k],
                     rate->worth[k] == LS_NO_LINE ? "not counted"
                                                  : ls_report_line(p, rate->worth[k], "$/ton"));
    return t->s;
}

/* The page has said by what the nutrients are counted, for a lot before this one. */
static bool is_said(const ls_field_rates *field, size_t i) {
    for (size_t k = 0; k < i; k++) {
        bool same = true;
        for (int n = 0; n < LS_FIELD_NUTRIENTS; n++)
            same = same && ls_text_same(field->rates[k].worth_why[n], field->rates[i].worth_why[n]);
        if (same)
            return true;
    }
    return false;
}

/* By what each nutrient is counted; those by the same together. */
static void reasons(ls_report_page *p, const ls_rate *rate) {
    bool told[LS_FIELD_NUTRIENTS] = {false};
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
        ls_text *t = ls_text_new(p->arena);
        for (int n = k; n < LS_FIELD_NUTRIENTS; n++)
            if (!told[n] && ls_text_same(rate->worth_why[n], rate->worth_why[k])) {
                ls_text_addf(t, "%s%s", t->n > 0 ? ", " : "", names[n]);
                told[n] = true;
            }
        if (t->n > 0)
            ls_report_item(p, 4, "%s: %s", t->s, rate->worth_why[k]);
    }
}

void ls_report_worth(ls_report_page *p, const ls_field_rates *field, size_t i) {
    const ls_rate *rate = &field->rates[i];
    if (rate->value_per_ton == LS_NO_LINE)
        ls_report_say(p, 2, "Worth of a ton on this field: not known.");
    else
        ls_report_say(p, 2,
                      "Worth of a ton on this field, as fertilizer the crop will use: %s (%s).",
                      ls_report_line(p, rate->value_per_ton, "$/ton"), parts(p, rate));
    if (!is_said(field, i))
        reasons(p, rate);
    if (rate->price_per_lb != LS_NO_LINE)
        ls_report_say(p, 2, "If plant-available nitrogen bears the whole price paid: %s.",
                      ls_report_line(p, rate->price_per_lb, "$/lb"));
}
