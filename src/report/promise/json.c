/* Promise slips for other programs. */
#include "report/json.h"
#include "report/plan/sums.h"
#include "promise.h"

static json_t *row(const ls_view *v, const ls_report_promised *is) {
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

static json_t *promise(const ls_view *v, const ls_plan *plan, const ls_buyer *b) {
    json_t *one = json_object(), *rows = json_array();
    ls_report_put(one, "buyer", ls_report_string(b->name.text));
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++) {
        json_t *sum = json_object();
        size_t loads = ls_report_buyer_loads(plan, b, c);
        ls_report_put(sum, "loads", json_integer((json_int_t)loads));
        ls_report_put(sum, "tons",
                      loads == 0 ? json_real(0)
                                 : ls_report_line_figure(v, ls_report_buyer_tons(v, b, c), "ton"));
        ls_report_put(one, ls_certainty_name(c), sum);
    }
    ls_report_promised_list list = ls_report_promised_of(v, plan, b);
    for (size_t i = 0; i < list.n; i++)
        ls_report_append(rows, row(v, &list.at[i]));
    ls_report_put(one, "rows", rows);
    ls_report_put(one, "price_per_ton", ls_report_line_figure(v, ls_report_price(v, b), "$/ton"));
    ls_report_put(one, "firm_price", ls_report_line_figure(v, ls_report_firm_price(v, b), "$"));
    ls_report_put(one, "firm_worth", ls_report_line_figure(v, ls_report_firm_worth(v, b), "$"));
    ls_report_put(one, "firm_worth_less_price",
                  ls_report_line_figure(v, ls_report_firm_gain(v, b), "$"));
    return one;
}

const char *ls_report_promises_json(const ls_view *v, const ls_estimate *e, const ls_plan *plan,
                                    const char *buyer) {
    json_t *document = ls_report_document(v, "tickets"), *all = json_array();
    ls_report_put(document, "all_firm_chance", ls_report_line_figure(v, e->all_firm_chance, ""));
    for (size_t i = 0; i < e->farm->buyers.n; i++)
        if (buyer == NULL || ls_text_same(buyer, e->farm->buyers.at[i].name.text))
            ls_report_append(all, promise(v, plan, &e->farm->buyers.at[i]));
    ls_report_put(document, "promises", all);
    return ls_report_dump(v, document);
}
