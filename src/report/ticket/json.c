/* Tickets for other programs. */
#include "report/json.h"
#include "ticket.h"

/* A quantity of the farm file that was given; else null. */
static json_t *given(const ls_quantity *q, const char *unit) {
    return LS_GIVEN(*q) ? ls_report_figure(q->value, unit) : json_null();
}

static json_t *setbacks(const ls_field *f) {
    json_t *list = json_array();
    for (size_t i = 0; i < f->setbacks.n; i++) {
        const ls_setback *s = &f->setbacks.at[i];
        json_t *one = json_object();
        ls_report_put(one, "from", ls_report_string(s->from.text));
        ls_report_put(one, "edge_ft", given(&s->edge, "ft"));
        ls_report_put(one, "width_ft", given(&s->width, "ft"));
        ls_report_put(one, "radius_ft", given(&s->radius, "ft"));
        ls_report_put(one, "rule", ls_report_string(s->rule.text));
        ls_report_append(list, one);
    }
    return list;
}

static json_t *waits(const ls_view *v, const ls_earliest *e) {
    ls_report_wait_list list = ls_report_waits(v, e);
    json_t *all = json_array();
    for (size_t i = 0; i < list.n; i++) {
        const ls_interval *wait = &list.at[i].wait;
        json_t *one = json_object();
        ls_report_put(one, "what", ls_report_string(list.at[i].what));
        ls_report_put(one, "days", ls_report_line_count(v, wait->line));
        ls_report_put(one, "until", ls_report_day(v, wait->day));
        ls_report_put(one, "given", json_boolean(wait->given));
        ls_report_put(one, "source", ls_report_string(wait->cite));
        ls_report_append(all, one);
    }
    return all;
}

static json_t *drop(ls_report_page *p, const ls_tickets *of, const ls_load *load, size_t k) {
    const ls_view *v = p->view;
    const ls_drop_sheet *sheet = &ls_ticket_sheet(of, load)->drops[k];
    const ls_drop *d = &load->drops[k];
    json_t *one = json_object(), *acre = json_object();
    ls_report_put(one, "field", ls_report_string(d->field->name.text));
    ls_report_put(one, "directions", ls_report_string(d->field->directions.text));
    ls_report_put(one, "tons", ls_report_line_figure(v, d->tons, "ton"));
    ls_report_put(one, "acres", ls_report_line_figure(v, d->acres, "ac"));
    ls_report_put(one, "ton_per_ac", ls_report_line_figure(v, d->rate, "ton/ac"));
    ls_report_put(one, "run_ft", ls_report_line_figure(v, sheet->run, "ft"));
    ls_report_put(one, "passes", ls_report_line_figure(v, sheet->passes, ""));
    ls_report_put(one, "tarp_net_lb", ls_report_line_figure(v, sheet->tarp, "lb"));
    static const char *const names[] = {"N", "P2O5", "K2O"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        ls_report_put(acre, names[i], ls_report_line_figure(v, sheet->on_acre[i], "lb/ac"));
    ls_report_put(one, "lb_per_ac", acre);
    ls_report_put(one, "setbacks", setbacks(d->field));
    ls_report_put(one, "waits", waits(v, &sheet->earliest));
    return one;
}

static json_t *analysis(const ls_view *v, const ls_analysis *a) {
    static const int nutrients[] = {LS_N, LS_P2O5, LS_K2O};
    json_t *object = json_object(), *ton = json_object();
    ls_report_put(object, "lab", ls_report_string(a->report == NULL ? NULL : a->report->by.text));
    ls_report_put(object, "date",
                  ls_report_day(v, a->report == NULL || !LS_GIVEN(a->report->date)
                                       ? LS_NO_DATE
                                       : a->report->date.day));
    ls_report_put(object, "published", json_boolean(a->report == NULL));
    for (size_t i = 0; i < sizeof nutrients / sizeof *nutrients; i++)
        ls_report_put(ton, ls_nutrient_key(nutrients[i]),
                      ls_report_line_figure(v, a->per_ton[nutrients[i]], "lb/ton"));
    ls_report_put(object, "lb_per_ton", ton);
    return object;
}

static json_t *reminders(const ls_report_ticket *t) {
    json_t *list = json_array();
    for (size_t i = 0; i < t->sheet->take_care.n; i++) {
        const ls_caution *caution = &t->sheet->take_care.at[i];
        json_t *one = json_object();
        ls_report_put(one, "id", ls_report_string(caution->id));
        ls_report_put(one, "text", ls_report_string(caution->text));
        ls_report_put(one, "source", ls_report_string(caution->source));
        ls_report_append(list, one);
    }
    return list;
}

static json_t *ticket(ls_report_page *p, const ls_tickets *of, const ls_report_ticket *t) {
    const ls_view *v = p->view;
    const ls_load *load = t->load;
    const ls_crew *crew = v->farm->crew;
    json_t *one = json_object(), *list = json_array();
    ls_report_put(one, "ticket", ls_report_string(load->ticket));
    ls_report_put(one, "certainty", json_string(ls_certainty_name(load->certainty)));
    ls_report_put(one, "day", ls_report_day(v, load->day));
    ls_report_put(one, "from", ls_report_day(v, load->from));
    ls_report_put(one, "when", ls_report_string(t->when));
    ls_report_put(one, "lot", ls_report_string(load->lot->name));
    ls_report_put(one, "to", json_string(load->buyer == NULL ? "stack" : "field"));
    ls_report_put(one, "from_stack", json_boolean(load->from_stack));
    ls_report_put(one, "buyer",
                  ls_report_string(load->buyer == NULL ? NULL : load->buyer->name.text));
    ls_report_put(one, "address",
                  ls_report_string(load->buyer == NULL ? NULL : load->buyer->address.text));
    ls_report_put(one, "hauler", ls_report_string(crew == NULL ? NULL : crew->hauler.text));
    ls_report_put(one, "truck", load->from_stack ? json_null() : json_integer(load->truck));
    ls_report_put(one, "tons", ls_report_line_figure(v, load->tons, "ton"));
    ls_report_put(one, "buckets", ls_report_line_count(v, t->sheet->buckets));
    ls_report_put(one, "analysis", analysis(v, load->lot->analysis));
    for (size_t k = 0; k < load->n; k++)
        ls_report_append(list, drop(p, of, load, k));
    ls_report_put(one, "drops", list);
    ls_report_put(one, "cautions", reminders(t));
    return one;
}

const char *ls_report_tickets_json(const ls_view *v, const ls_ticket_list *list) {
    json_t *document = ls_report_document(v, "tickets"), *all = json_array();
    ls_report_page p = {v, v->arena, ls_text_new(v->arena)};
    ls_report_put(document, "swath_ft", ls_report_line_figure(v, list->figures->swath, "ft"));
    ls_report_put(document, "tarp_side_ft",
                  ls_report_line_figure(v, list->figures->tarp_side, "ft"));
    for (size_t i = 0; i < list->n; i++) {
        ls_report_ticket t = ls_report_ticket_of(&p, list, list->loads[i]);
        ls_report_append(all, ticket(&p, list->figures, &t));
    }
    ls_report_put(document, "tickets", all);
    return ls_report_dump(v, document);
}
