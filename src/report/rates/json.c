#include "limits_json.h"

static const char *const names[LS_FIELD_NUTRIENTS] = {"N", "P2O5", "K2O"};

/* {N, P2O5, K2O} in lb/ac. */
static json_t *nutrients(const ls_view *v, const ls_line lines[LS_FIELD_NUTRIENTS]) {
    json_t *object = json_object();
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++)
        ls_report_put(object, names[i], ls_report_line_figure(v, lines[i], "lb/ac"));
    return object;
}

/* What is short after litter at the rate, and products that finish it; what rounding leaves of a
 * product that is not needed is left out. */
static json_t *supplement(const ls_view *v, const ls_rate *rate) {
    const double least = 1e-6; /* lb/ac */
    json_t *object = nutrients(v, rate->short_of), *products = json_array();
    for (size_t i = 0; i < rate->bought_n; i++) {
        const ls_bought *b = &rate->bought[i];
        if (!(ls_line_value(v->sheet, b->per_acre) > least * ls_unit_of("lb/ac").factor))
            continue;
        json_t *product = json_object();
        ls_report_put(product, "product", ls_report_string(b->product));
        ls_report_put(product, "lb_ac", ls_report_line_figure(v, b->per_acre, "lb/ac"));
        ls_report_put(product, "lb_field", ls_report_line_figure(v, b->on_field, "lb"));
        ls_report_append(products, product);
    }
    ls_report_put(object, "products", products);
    return object;
}

/* The credits one by one, by name. */
static json_t *credit_list(const ls_view *v, const ls_field_rates *field) {
    json_t *list = json_array();
    for (size_t i = 0; i < field->credit_n; i++) {
        json_t *object = nutrients(v, field->credit[i].gives);
        ls_report_put(object, "name", ls_report_string(field->credit[i].name));
        ls_report_append(list, object);
    }
    return list;
}

static json_t *limits(const ls_view *v, const ls_rate *rate) {
    json_t *object = json_object();
    ls_report_put(object, "nitrogen", ls_report_line_figure(v, rate->nitrogen, "ton/ac"));
    ls_report_put(object, "phosphorus", ls_report_line_figure(v, rate->phosphorus, "ton/ac"));
    ls_report_put(object, "cap", ls_report_line_figure(v, rate->cap, "ton/ac"));
    ls_report_put(object, "spreader", ls_report_line_figure(v, rate->spreader, "ton/ac"));
    ls_report_put(object, "window", ls_report_line_figure(v, rate->window, "ton/ac"));
    return object;
}

/* By nutrient: its worth in $/ton, null if not counted, and by what it was counted. */
static json_t *worth(const ls_view *v, const ls_rate *rate) {
    json_t *object = json_object();
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++) {
        json_t *one = json_object();
        ls_report_put(one, "per_ton", ls_report_line_figure(v, rate->worth[i], "$/ton"));
        ls_report_put(one, "why", ls_report_string(rate->worth_why[i]));
        ls_report_put(object, names[i], one);
    }
    return object;
}

static json_t *one_rate(const ls_view *v, const ls_rate *rate) {
    json_t *object = json_object();
    ls_report_put(object, "lot", ls_report_string(rate->lot->name));
    ls_report_put(object, "ton_per_ac", ls_report_line_figure(v, rate->rate, "ton/ac"));
    ls_report_put(object, "limit", json_string(ls_limit_name(rate->limit)));
    ls_report_put(object, "limits", limits(v, rate));
    ls_report_put(object, "pan_lb_per_ton", ls_report_line_figure(v, rate->pan, "lb/ton"));
    ls_report_put(object, "N_lb_ac", ls_report_line_figure(v, rate->on[LS_FIELD_N], "lb/ac"));
    ls_report_put(object, "P2O5_lb_ac", ls_report_line_figure(v, rate->on[LS_FIELD_P2O5], "lb/ac"));
    ls_report_put(object, "K2O_lb_ac", ls_report_line_figure(v, rate->on[LS_FIELD_K2O], "lb/ac"));
    ls_report_put(object, "chance_over", ls_report_line_figure(v, rate->chance_over, ""));
    ls_report_put(object, "available_N_lb_ac",
                  ls_report_line_figure(v, rate->available_N, "lb/ac"));
    ls_report_put(object, "counts_lb_ac", nutrients(v, rate->counts));
    ls_report_put(object, "short_lb_ac", nutrients(v, rate->short_of));
    ls_report_put(object, "over_lb_ac", nutrients(v, rate->over));
    ls_report_put(object, "years_of_P2O5_removal",
                  ls_report_line_figure(v, rate->years_of_removal, ""));
    ls_report_put(object, "why", ls_report_string(rate->why));
    ls_report_put(object, "value_per_ton", ls_report_line_figure(v, rate->value_per_ton, "$/ton"));
    ls_report_put(object, "value_of", worth(v, rate));
    ls_report_put(object, "price_per_lb_N", ls_report_line_figure(v, rate->price_per_lb, "$/lb"));
    ls_report_put(object, "supplement", supplement(v, rate));
    ls_report_put_limits_of_rate(v, object, rate);
    return object;
}

json_t *ls_report_rates_json(const ls_view *v, const ls_field_rates *field) {
    json_t *object = json_object(), *lots = json_array();
    ls_report_put(object, "buyer", ls_report_string(field->buyer->name.text));
    ls_report_put(object, "field", ls_report_string(field->field->name.text));
    ls_report_put(object, "area_ac", ls_report_line_figure(v, field->area, "ac"));
    ls_report_put(object, "spreadable_ac", ls_report_line_figure(v, field->spreadable, "ac"));
    ls_report_put(object, "need", nutrients(v, field->need));
    ls_report_put(object, "credits", nutrients(v, field->credits));
    for (size_t i = 0; i < field->n; i++)
        ls_report_append(lots, one_rate(v, &field->rates[i]));
    ls_report_put(object, "lots", lots);
    ls_report_put(object, "flags", ls_report_strings(field->flags.at, field->flags.n));
    ls_report_put(object, "credit_list", credit_list(v, field));
    ls_report_put(object, "left", nutrients(v, field->left));
    ls_report_put_limits_of_field(v, object, field);
    return object;
}
