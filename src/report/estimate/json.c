#include "report/json.h"

static json_t *pounds(const ls_q q[LS_NUTRIENTS]) {
    json_t *object = json_object();
    ls_report_put(object, ls_nutrient_key(LS_N), ls_report_points(q[LS_N], "lb"));
    ls_report_put(object, ls_nutrient_key(LS_P2O5), ls_report_points(q[LS_P2O5], "lb"));
    ls_report_put(object, ls_nutrient_key(LS_K2O), ls_report_points(q[LS_K2O], "lb"));
    return object;
}

static json_t *per_ton(const ls_q q[LS_NUTRIENTS]) {
    json_t *object = json_object();
    for (int i = 0; i < LS_NUTRIENTS; i++)
        ls_report_put(object, ls_nutrient_key(i), ls_report_points(q[i], "lb/ton"));
    return object;
}

static json_t *methods(const ls_view *v, const ls_lot *lot) {
    json_t *list = json_array();
    for (size_t i = 0; i < lot->methods_n; i++) {
        const ls_method *method = &lot->methods[i];
        json_t *object = json_object();
        ls_report_put(object, "name", ls_report_string(method->name));
        ls_report_put(object, "kind", json_string(method->evidence ? "evidence" : "published"));
        ls_report_put(object, "tons", ls_report_points(method->tons, "ton"));
        ls_report_put(object, "weight", ls_report_line_figure(v, method->weight, ""));
        ls_report_put(object, "from_memory", json_boolean(method->memory));
        ls_report_append(list, object);
    }
    return list;
}

static json_t *one_lot(const ls_view *v, const ls_lot *lot) {
    json_t *object = json_object();
    ls_report_put(object, "lot", ls_report_string(lot->name));
    ls_report_put(object, "house", ls_report_string(lot->house->name.text));
    ls_report_put(object, "side",
                  ls_report_string(lot->side == NULL ? NULL : lot->side->name.text));
    ls_report_put(object, "tons", ls_report_points(lot->tons, "ton"));
    ls_report_put(object, "hauled_tons",
                  lot->gone == LS_NO_LINE ? json_real(0)
                                          : ls_report_line_figure(v, lot->gone, "ton"));
    ls_report_put(object, "made_tons",
                  ls_report_points(lot->gone == LS_NO_LINE ? lot->tons : lot->made, "ton"));
    ls_report_put(object, "dry_tons", ls_report_points(lot->dry_tons, "ton"));
    ls_report_put(object, "moisture_pct", ls_report_points(lot->moisture, "%"));
    ls_report_put(object, "lb_per_ton", per_ton(lot->per_ton));
    ls_report_put(object, "lb", pounds(lot->pounds));
    ls_report_put(object, "payload_tons", ls_report_points(lot->payload, "ton/load"));
    ls_report_put(object, "loads", ls_report_loads(v, lot->firm, lot->likely, lot->possible));
    ls_report_put(object, "prior_weight", ls_report_line_figure(v, lot->prior_weight, ""));
    ls_report_put(object, "methods", methods(v, lot));
    return object;
}

static json_t *total(const ls_view *v, const ls_estimate *e) {
    json_t *object = json_object();
    ls_report_put(object, "tons", ls_report_points(e->tons, "ton"));
    ls_report_put(object, "hauled_tons",
                  e->gone == LS_NO_LINE ? json_real(0) : ls_report_line_figure(v, e->gone, "ton"));
    ls_report_put(object, "lb", pounds(e->pounds));
    ls_report_put(object, "loads", ls_report_loads(v, e->firm, e->likely, e->possible));
    return object;
}

static json_t *worth(const ls_view *v, const ls_estimate *e) {
    json_t *object = json_object();
    ls_report_put(object, "per_ton", ls_report_line_figure(v, e->value_per_ton, "$/ton"));
    ls_report_put(object, "total", ls_report_points(e->value, "$"));
    return object;
}

/* One element of a house, in lb; what is not known, or not there, is null. */
static json_t *fate(const ls_view *v, const ls_fate *f) {
    const struct {
        const char *name;
        ls_line line;
    } parts[] = {{"eaten_lb", f->eaten},       {"eggs_lb", f->eggs},       {"growth_lb", f->growth},
                 {"excreted_lb", f->excreted}, {"bedding_lb", f->bedding}, {"litter_lb", f->litter},
                 {"out_lb", f->out},           {"lost_lb", f->lost}};
    json_t *object = json_object();
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        ls_report_put(object, parts[i].name, ls_report_line_figure(v, parts[i].line, "lb"));
    ls_report_put(object, "lost_pct", ls_report_line_figure(v, f->lost_share, "%"));
    ls_report_put(object, "found_again_pct", ls_report_points(f->found_again, "%"));
    ls_report_put(object, "by_balance", json_boolean(f->by_balance));
    ls_report_put(object, "source", ls_report_string(f->source));
    return object;
}

/* What became of N, P and K, as elements, house by house. */
static json_t *account(const ls_view *v, const ls_estimate *e) {
    json_t *list = json_array();
    for (size_t i = 0; i < e->accounts.n; i++) {
        const ls_account *a = &e->accounts.at[i];
        json_t *object = json_object();
        ls_report_put(object, "house", ls_report_string(a->house->name.text));
        ls_report_put(object, "reported", json_boolean(a->reported));
        for (int k = 0; k < LS_ELEMENTS; k++)
            ls_report_put(object, ls_element_name(k), fate(v, &a->of[k]));
        ls_report_put(object, "dry_matter_found_pct", ls_report_points(a->dry_found, "%"));
        ls_report_append(list, object);
    }
    return list;
}

static json_t *cautions(const ls_estimate *e) {
    json_t *list = json_array();
    for (size_t i = 0; i < e->cautions.n; i++) {
        const ls_caution *caution = &e->cautions.at[i];
        json_t *object = json_object();
        ls_report_put(object, "id", ls_report_string(caution->id));
        ls_report_put(object, "text", ls_report_string(caution->text));
        ls_report_put(object, "source", ls_report_string(caution->source));
        ls_report_append(list, object);
    }
    return list;
}

static json_t *measure_next(ls_next_list next) {
    json_t *list = json_array();
    for (size_t i = 0; i < next.n; i++) {
        const ls_next *one = &next.at[i];
        const char *unit = one->loads ? "load" : "ton";
        json_t *object = json_object();
        ls_report_put(object, "what", ls_report_string(one->what));
        ls_report_put(object, "where", ls_report_string(one->where));
        ls_report_put(object, "quantity", json_string(one->loads ? "loads" : "tons"));
        ls_report_put(object, "now", ls_report_points(one->now, unit));
        ls_report_put(object, "then", ls_report_points(one->then, unit));
        ls_report_put(object, "effort", ls_report_string(one->effort));
        ls_report_append(list, object);
    }
    return list;
}

const char *ls_report_estimate_json(const ls_view *v, const ls_estimate *e, ls_next_list next) {
    json_t *document = ls_report_document(v, "estimate"), *lots = json_array();
    for (size_t i = 0; i < e->n; i++)
        ls_report_append(lots, one_lot(v, &e->lots[i]));
    ls_report_put(document, "lots", lots);
    ls_report_put(document, "total", total(v, e));
    ls_report_put(document, "value", worth(v, e));
    ls_report_put(document, "all_firm_chance", ls_report_line_figure(v, e->all_firm_chance, ""));
    ls_report_put(document, "measure_next", measure_next(next));
    ls_report_put(document, "cautions", cautions(e));
    ls_report_put(document, "notes", ls_report_strings(e->notes.at, e->notes.n));
    ls_report_put(document, "digits", e->digits > 0 ? json_integer(e->digits) : json_null());
    ls_report_put(document, "digits_reached", e->digits > 0 ? json_boolean(e->sure) : json_null());
    ls_report_put(document, "account", account(v, e));
    return ls_report_dump(v, document);
}
