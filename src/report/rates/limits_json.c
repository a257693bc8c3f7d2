#include "limits_json.h"

static json_t *window(const ls_view *v, ls_window w) {
    if (w.from == LS_NO_DATE)
        return json_null();
    json_t *object = json_object();
    ls_report_put(object, "from", ls_report_day(v, w.from));
    ls_report_put(object, "to", ls_report_day(v, w.to));
    return object;
}

/* The days on which the field may be spread; from is null if only the last is known. */
static json_t *spread_on(const ls_view *v, const ls_field *f) {
    json_t *object = window(v, f->allowed);
    if (f->allowed.from != LS_NO_DATE && !ls_field_opens(f))
        json_object_set_new(object, "from", json_null());
    return object;
}

static json_t *setbacks(const ls_view *v, const ls_field_rates *field) {
    json_t *list = json_array();
    for (size_t i = 0; i < field->setbacks_n; i++) {
        const ls_setback *s = field->setbacks[i].setback;
        json_t *object = json_object();
        double distance = LS_GIVEN(s->radius) ? s->radius.value : s->width.value;
        ls_report_put(object, "from", ls_report_string(s->from.text));
        ls_report_put(object, "rule", ls_report_string(s->rule.text));
        ls_report_put(object, "acres", ls_report_line_figure(v, field->setbacks[i].acres, "ac"));
        ls_report_put(object, "distance_ft", ls_report_figure(distance, "ft"));
        ls_report_append(list, object);
    }
    return list;
}

static json_t *ledger(const ls_view *v, const ls_field_rates *field) {
    json_t *list = json_array();
    for (size_t i = 0; i < field->ledger_n; i++) {
        const ls_field_ledger *l = &field->ledger[i];
        json_t *object = json_object();
        ls_report_put(object, "year", json_integer(l->year));
        ls_report_put(object, "on", ls_report_line_figure(v, l->on, "lb/ac"));
        ls_report_put(object, "removed", ls_report_line_figure(v, l->removed, "lb/ac"));
        ls_report_put(object, "balance", ls_report_line_figure(v, l->balance, "lb/ac"));
        ls_report_append(list, object);
    }
    return list;
}

static json_t *phosphorus(const ls_view *v, const ls_field_rates *field) {
    const ls_phosphorus *rated = field->field->phosphorus;
    json_t *object = json_object();
    int rating = rated == NULL ? 0 : rated->rating.is;
    bool dated = rated != NULL && LS_GIVEN(rated->date);
    ls_report_put(object, "rating", ls_report_string(rating == 0 ? NULL : ls_rating_name(rating)));
    ls_report_put(object, "rated_by",
                  ls_report_string(rated == NULL ? NULL : rated->rated_by.text));
    ls_report_put(object, "date", ls_report_day(v, dated ? rated->date.day : LS_NO_DATE));
    ls_report_put(object, "allowed_lb_ac", ls_report_line_figure(v, field->phosphate, "lb/ac"));
    ls_report_put(object, "banked_lb_ac", ls_report_line_figure(v, field->banked, "lb/ac"));
    ls_report_put(object, "left_lb_ac", ls_report_line_figure(v, field->phosphate_left, "lb/ac"));
    return object;
}

static json_t *caps(const ls_view *v, const ls_field_rates *field) {
    json_t *list = json_array();
    for (size_t i = 0; i < field->caps_n; i++) {
        const ls_field_cap *c = &field->caps[i];
        const char *unit = LS_GIVEN(c->cap->most) ? "ton/ac" : "lb/ac";
        json_t *object = json_object();
        ls_report_put(object, "between", window(v, c->cap->between.days));
        ls_report_put(object, "counts",
                      json_string(LS_GIVEN(c->cap->most)             ? "litter"
                                  : LS_GIVEN(c->cap->total_nitrogen) ? "total nitrogen"
                                                                     : "available nitrogen"));
        ls_report_put(object, "most", ls_report_line_figure(v, c->figure, unit));
        ls_report_put(object, "unit", json_string(unit));
        ls_report_put(object, "rule", ls_report_string(c->cap->rule.text));
        ls_report_put(object, "applies", json_boolean(c->applies));
        ls_report_append(list, object);
    }
    return list;
}

static json_t *interval(const ls_view *v, const ls_interval *i) {
    if (i->line == LS_NO_LINE)
        return json_null();
    json_t *object = json_object();
    ls_report_put(object, "date", ls_report_day(v, i->day));
    ls_report_put(object, "days", ls_report_line_figure(v, i->line, "days"));
    ls_report_put(object, "given", json_boolean(i->given));
    ls_report_put(object, "source", ls_report_string(i->source));
    ls_report_put(object, "in_case", json_boolean(i->in_case));
    return object;
}

static json_t *earliest(const ls_view *v, const ls_field_rates *field) {
    json_t *object = json_object();
    ls_report_put(object, "spread", ls_report_day(v, field->last_day));
    ls_report_put(object, "grazing", interval(v, &field->earliest.grazing));
    ls_report_put(object, "harvest", interval(v, &field->earliest.harvest));
    ls_report_put(object, "cattle", interval(v, &field->earliest.cattle));
    ls_report_put(object, "organic_on_soil", interval(v, &field->earliest.organic_on_soil));
    ls_report_put(object, "organic_off_soil", interval(v, &field->earliest.organic_off_soil));
    return object;
}

void ls_report_put_limits_of_field(const ls_view *v, json_t *object, const ls_field_rates *field) {
    json_t *outside = json_array();
    for (size_t i = 0; i < field->outside.n; i++)
        ls_report_append(outside, window(v, field->outside.at[i]));
    ls_report_put(object, "setbacks", setbacks(v, field));
    ls_report_put(object, "ledger", ledger(v, field));
    ls_report_put(object, "earliest", earliest(v, field));
    ls_report_put(object, "phosphorus", phosphorus(v, field));
    ls_report_put(object, "spread_on", spread_on(v, field->field));
    ls_report_put(object, "window_caps", caps(v, field));
    ls_report_put(object, "outside_window_caps", outside);
}

void ls_report_put_limits_of_rate(const ls_view *v, json_t *object, const ls_rate *rate) {
    json_t *metals = json_object();
    for (ls_metal m = LS_COPPER; m < LS_METALS; m++)
        ls_report_put(metals, ls_metal_key(m),
                      ls_report_line_figure(v, rate->metals[m].on, "lb/ac"));
    ls_report_put(object, "outside_window_ton_per_ac",
                  ls_report_line_figure(v, rate->outside, "ton/ac"));
    ls_report_put(object, "phosphorus_crop_years", ls_report_line_figure(v, rate->covered, ""));
    ls_report_put(object, "phosphorus_again",
                  rate->again == 0 ? json_null() : json_integer(rate->again));
    ls_report_put(object, "metals_lb_ac", metals);
}
