/* Promise slips for other programs. */
#include "report/json.h"
#include "promise.h"

static json_t *row(const ls_view *v, const ls_promised *is) {
    json_t *one = json_object();
    ls_report_put(one, "field", ls_report_string(is->field->name.text));
    ls_report_put(one, "certainty", json_string(ls_certainty_name(is->certainty)));
    ls_report_put(one, "from_stack", json_boolean(is->from_stack));
    ls_report_put(one, "loads", json_integer((json_int_t)is->loads));
    ls_report_put(one, "tons", ls_report_line_figure(v, is->tons, "ton"));
    ls_report_put(one, "acres", ls_report_line_figure(v, is->acres, "ac"));
    ls_report_put(one, "ton_per_ac", ls_report_line_figure(v, is->rate, "ton/ac"));
    ls_report_put(one, "first_day", ls_report_day(v, is->first));
    ls_report_put(one, "last_day", ls_report_day(v, is->from_stack ? LS_NO_DATE : is->last));
    return one;
}

static json_t *promise(const ls_view *v, const ls_buyer *b, const ls_buyer_sum *s,
                       const ls_buyer_sheet *sheet) {
    json_t *one = json_object(), *rows = json_array();
    ls_report_put(one, "buyer", ls_report_string(b->name.text));
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++) {
        json_t *sum = json_object();
        ls_report_put(sum, "loads", json_integer((json_int_t)s->loads[c]));
        ls_report_put(sum, "tons",
                      s->loads[c] == 0 ? json_real(0)
                                       : ls_report_line_figure(v, s->tons[c], "ton"));
        ls_report_put(one, ls_certainty_name(c), sum);
    }
    for (size_t i = 0; i < sheet->rows.n; i++)
        ls_report_append(rows, row(v, &sheet->rows.at[i]));
    ls_report_put(one, "rows", rows);
    ls_report_put(one, "price_per_ton", ls_report_line_figure(v, sheet->price, "$/ton"));
    ls_report_put(one, "firm_price", ls_report_line_figure(v, sheet->firm_price, "$"));
    ls_report_put(one, "firm_worth", ls_report_line_figure(v, sheet->firm_worth, "$"));
    ls_report_put(one, "firm_worth_less_price", ls_report_line_figure(v, sheet->firm_gain, "$"));
    return one;
}

const char *ls_report_promises_json(const ls_view *v, const ls_tickets *t, const char *buyer) {
    const ls_estimate *e = t->sums->estimate;
    json_t *document = ls_report_document(v, "tickets"), *all = json_array();
    ls_report_put(document, "all_firm_chance", ls_report_line_figure(v, e->all_firm_chance, ""));
    for (size_t i = 0; i < e->farm->buyers.n; i++)
        if (buyer == NULL || ls_text_same(buyer, e->farm->buyers.at[i].name.text))
            ls_report_append(
                all, promise(v, &e->farm->buyers.at[i], &t->sums->buyers[i], &t->buyers[i]));
    ls_report_put(document, "promises", all);
    return ls_report_dump(v, document);
}
