#include "worth.h"

#include "report/figure.h"

static const ls_report_column columns[] = {
    {"Buyer", 23, true},    {"worth", 9, false},    {"price", 9, false},
    {"at house", 9, false}, {"distance", 9, false}, {"up to", 9, false},
};
enum { COLUMNS = sizeof columns / sizeof *columns };

static const char *or_dash(const ls_report_page *p, ls_line line, const char *unit) {
    return line == LS_NO_LINE ? "-" : ls_report_line_number(p, line, unit);
}

static bool is_nowhere(const ls_report_page *p, const ls_worth *w) {
    return w->break_even != LS_NO_LINE && !(ls_line_value(p->view->sheet, w->break_even) > 0);
}

static const char *how_far(const ls_report_page *p, const ls_worth *w) {
    return is_nowhere(p, w) ? "nowhere" : or_dash(p, w->break_even, "mi");
}

static void row(ls_report_page *p, const ls_worth *w) {
    const ls_quantity *way = &w->buyer->distance;
    const char *cells[COLUMNS] = {
        w->buyer->name.text,
        or_dash(p, w->value, "$/ton"),
        or_dash(p, w->price, "$/ton"),
        or_dash(p, w->at_house, "$/ton"),
        LS_GIVEN(*way) ? ls_report_number(p, way->value, "mi") : "-",
        how_far(p, w),
    };
    ls_report_row(p, columns, COLUMNS, cells);
}

void ls_report_plan_worth(ls_report_page *p, const ls_plan *plan) {
    if (plan->worth.n == 0)
        return;
    ls_report_heading(p, "WHAT A TON IS WORTH TO THE BUYER, AND HOW FAR IT MAY GO");
    ls_report_heads(p, columns, COLUMNS);
    const char *ton = ls_report_unit(p, "$/ton"), *mile = ls_report_unit(p, "mi");
    ls_report_row(p, columns, COLUMNS, (const char *[COLUMNS]){NULL, ton, ton, ton, mile, mile});
    for (size_t i = 0; i < plan->worth.n; i++)
        row(p, &plan->worth.at[i]);
    ls_report_item(p, 2,
                   "worth: fertilizer that the crops of the buyer's fields will use, at the prices "
                   "of the farm file; littershed rates tells it field by field.");
    ls_report_item(p, 2, "at house: the price less taking out, loading, spreading and hauling.");
    ls_report_item(
        p, 2,
        "up to: the distance at which the price at the house, taking out, loading, spreading and "
        "hauling together cost as much as a ton is worth in the field.");
    bool nowhere = false;
    for (size_t i = 0; i < plan->worth.n; i++)
        nowhere = nowhere || is_nowhere(p, &plan->worth.at[i]);
    if (nowhere)
        ls_report_item(p, 2,
                       "nowhere: the price at the house and the work but for hauling cost more "
                       "than a ton is worth in the field.");
    for (size_t i = 0; i < plan->worth.n; i++)
        if (plan->worth.at[i].lacks != NULL)
            ls_report_item(p, 2, "%s: to know how far, %s.",
                           ls_report_name(p, plan->worth.at[i].buyer->name.text, 40),
                           plan->worth.at[i].lacks);
}

json_t *ls_report_plan_worth_json(const ls_view *v, const ls_plan *plan) {
    json_t *list = json_array();
    for (size_t i = 0; i < plan->worth.n; i++) {
        const ls_worth *w = &plan->worth.at[i];
        json_t *object = json_object();
        ls_report_put(object, "buyer", ls_report_string(w->buyer->name.text));
        ls_report_put(object, "value_per_ton", ls_report_line_figure(v, w->value, "$/ton"));
        ls_report_put(object, "price_per_ton", ls_report_line_figure(v, w->price, "$/ton"));
        ls_report_put(object, "price_at_house", ls_report_line_figure(v, w->at_house, "$/ton"));
        ls_report_put(object, "haul_per_ton_mile",
                      ls_report_line_figure(v, w->ton_mile, "$/ton/mi"));
        ls_report_put(object, "break_even_miles", ls_report_line_figure(v, w->break_even, "mi"));
        ls_report_put(object, "lacks", ls_report_string(w->lacks));
        ls_report_append(list, object);
    }
    return list;
}
