#include "changes.h"
#include "days_json.h"
#include "why.h"
#include "worth.h"

static const char *name_of(const ls_buyer *b) {
    return b == NULL ? NULL : b->name.text;
}

static json_t *drops(const ls_view *v, const ls_load *load) {
    json_t *list = json_array();
    for (size_t i = 0; i < load->n; i++) {
        const ls_drop *drop = &load->drops[i];
        json_t *object = json_object();
        ls_report_put(object, "field", ls_report_string(drop->field->name.text));
        ls_report_put(object, "tons", ls_report_line_figure(v, drop->tons, "ton"));
        ls_report_put(object, "acres", ls_report_line_figure(v, drop->acres, "ac"));
        ls_report_put(object, "ton_per_ac", ls_report_line_figure(v, drop->rate, "ton/ac"));
        ls_report_append(list, object);
    }
    return list;
}

static json_t *standby(const ls_load *load) {
    if (load->standby == NULL)
        return json_null();
    json_t *object = json_object();
    ls_report_put(object, "buyer", ls_report_string(name_of(load->standby_buyer)));
    ls_report_put(object, "field", ls_report_string(load->standby->name.text));
    return object;
}

static json_t *one_load(const ls_view *v, const ls_load *load) {
    json_t *object = json_object();
    ls_report_put(object, "ticket", ls_report_string(load->ticket));
    ls_report_put(object, "lot", ls_report_string(load->lot->name));
    ls_report_put(object, "certainty", json_string(ls_certainty_name(load->certainty)));
    ls_report_put(object, "to", json_string(load->buyer == NULL ? "stack" : "field"));
    ls_report_put(object, "buyer", ls_report_string(name_of(load->buyer)));
    ls_report_put(object, "tons", ls_report_line_figure(v, load->tons, "ton"));
    ls_report_put(object, "day", ls_report_day(v, load->day));
    ls_report_put(object, "truck", json_integer(load->truck));
    ls_report_put(object, "drops", drops(v, load));
    if (!load->from_stack)
        ls_report_put_load_times(object, v, load);
    ls_report_put(object, "standby", standby(load));
    return object;
}

/* Trips out of the stack with litter of this lot, one entry for each field. */
static json_t *out_of_stack(const ls_view *v, const ls_plan *plan, const ls_lot *lot) {
    json_t *list = json_array();
    for (size_t i = 0; i < plan->out_n; i++) {
        const ls_load *load = &plan->out[i];
        for (size_t k = 0; load->lot == lot && k < load->n; k++) {
            json_t *object = json_object();
            ls_report_put(object, "buyer", ls_report_string(name_of(load->drops[k].buyer)));
            ls_report_put(object, "field", ls_report_string(load->drops[k].field->name.text));
            ls_report_put(object, "tons", ls_report_line_figure(v, load->drops[k].tons, "ton"));
            ls_report_put(object, "from", ls_report_day(v, load->from));
            ls_report_put(object, "ticket", ls_report_string(load->ticket));
            ls_report_append(list, object);
        }
    }
    return list;
}

static json_t *by_stage(const ls_view *v, const ls_line tons[LS_STAGES]) {
    static const char *const names[LS_STAGES] = {"low", "mid", "high"};
    json_t *object = json_object();
    for (int i = 0; i < LS_STAGES; i++)
        ls_report_put(object, names[i], ls_report_line_figure(v, tons[i], "ton"));
    return object;
}

static json_t *goals(const ls_view *v, const ls_plan *plan) {
    json_t *list = json_array();
    for (int i = 0; i < LS_GOALS; i++) {
        const ls_goal *goal = &plan->goals[i];
        json_t *object = json_object();
        ls_report_put(object, "goal", ls_report_string(goal->goal));
        const char *unit = ls_line_at(v->sheet, plan->reached[i])->unit.text;
        ls_report_put(object, "value", ls_report_line_figure(v, plan->reached[i], unit));
        ls_report_put(object, "bound", ls_report_line_figure(v, plan->bound[i], unit));
        ls_report_put(object, "gap", ls_report_line_figure(v, plan->gap[i], unit));
        ls_report_put(object, "unit", ls_report_string(goal->unit));
        ls_report_append(list, object);
    }
    return list;
}

static bool comes_out(const ls_plan *plan, const ls_lot *lot) {
    for (size_t i = 0; i < plan->out_n; i++)
        if (plan->out[i].lot == lot)
            return true;
    return false;
}

static json_t *stack(const ls_view *v, const ls_plan_sums *s) {
    const ls_estimate *e = s->estimate;
    const ls_plan *plan = s->plan;
    json_t *list = json_array();
    for (size_t i = 0; i < e->n; i++) {
        ls_line in = s->stacked[i];
        if (in == LS_NO_LINE && !comes_out(plan, &e->lots[i]))
            continue;
        json_t *object = json_object();
        ls_report_put(object, "lot", ls_report_string(e->lots[i].name));
        ls_report_put(object, "in_tons",
                      in == LS_NO_LINE ? json_real(0) : ls_report_line_figure(v, in, "ton"));
        ls_report_put(object, "out", out_of_stack(v, plan, &e->lots[i]));
        ls_report_append(list, object);
    }
    return list;
}

/* What each buyer pays at the middle stage; buyers that get nothing then are left out. */
static json_t *income(const ls_view *v, const ls_plan_sums *s) {
    json_t *list = json_array();
    for (size_t i = 0; i < s->estimate->farm->buyers.n; i++) {
        const ls_buyer *b = &s->estimate->farm->buyers.at[i];
        const ls_trade *t = &s->plan->trade[i];
        if (t->tons == LS_NO_LINE)
            continue;
        json_t *object = json_object();
        ls_report_put(object, "buyer", ls_report_string(b->name.text));
        ls_report_put(object, "tons", ls_report_line_figure(v, t->tons, "ton"));
        ls_report_put(object, "paid", ls_report_line_figure(v, t->income, "$"));
        ls_report_append(list, object);
    }
    return list;
}

static json_t *costs(const ls_view *v, const ls_plan *plan) {
    json_t *object = json_object();
    for (int i = 0; i < LS_COSTS; i++)
        ls_report_put(object, ls_text_slug(v->arena, ls_cost_name(i)),
                      ls_report_line_figure(v, plan->cost[i], "$"));
    return object;
}

static json_t *counts(const size_t n[LS_POSSIBLE + 1]) {
    json_t *object = json_object();
    for (int c = LS_FIRM; c <= LS_POSSIBLE; c++)
        ls_report_put(object, ls_certainty_name((ls_certainty)c), json_integer((json_int_t)n[c]));
    return object;
}

/* In what the firm loads of a buyer differ: "field", "lot", "days". */
static json_t *differs(const ls_report_buyer_change *c) {
    json_t *list = json_array();
    if (c->field)
        ls_report_append(list, json_string("field"));
    if (c->lot)
        ls_report_append(list, json_string("lot"));
    if (c->days)
        ls_report_append(list, json_string("days"));
    return list;
}

static json_t *way(const ls_view *v, const ls_load *load) {
    if (load == NULL)
        return json_null();
    json_t *object = json_object();
    ls_report_put(object, "for", ls_report_string(ls_report_way(v, load)));
    ls_report_put(object, "certainty", json_string(ls_certainty_name(load->certainty)));
    return object;
}

/* Against the plan without the newest loads of the haul log; null where none are gone. */
static json_t *changes(const ls_view *v, const ls_plan *plan) {
    if (plan->last == NULL)
        return json_null();
    ls_report_changes c = ls_report_changes_of(v, plan);
    json_t *object = json_object(), *buyers = json_array(), *tickets = json_array();
    for (size_t i = 0; i < c.buyers.n; i++) {
        json_t *one = json_object();
        ls_report_put(one, "buyer", ls_report_string(c.buyers.at[i].buyer->name.text));
        ls_report_put(one, "call", json_boolean(c.buyers.at[i].call));
        ls_report_put(one, "firm_differ_in", differs(&c.buyers.at[i]));
        ls_report_put(one, "before", counts(c.buyers.at[i].was));
        ls_report_put(one, "now", counts(c.buyers.at[i].now));
        ls_report_append(buyers, one);
    }
    for (size_t i = 0; i < c.tickets.n; i++) {
        const ls_report_change *change = &c.tickets.at[i];
        json_t *one = json_object();
        ls_report_put(one, "ticket",
                      ls_report_string((change->now != NULL ? change->now : change->was)->ticket));
        ls_report_put(one, "before", way(v, change->was));
        ls_report_put(one, "now", way(v, change->now));
        ls_report_append(tickets, one);
    }
    ls_report_put(object, "since", ls_report_day(v, plan->since));
    ls_report_put(object, "buyers", buyers);
    ls_report_put(object, "tickets", tickets);
    return object;
}

const char *ls_report_plan_json(const ls_view *v, const ls_plan_sums *s) {
    const ls_plan *p = s->plan;
    json_t *document = ls_report_document(v, "plan"), *loads = json_array();
    for (size_t i = 0; i < p->loads_n; i++)
        ls_report_append(loads, one_load(v, &p->loads[i]));
    ls_report_put(document, "loads", loads);
    ls_report_put(document, "stack", stack(v, s));
    ls_report_put(document, "placed_tons", by_stage(v, p->straight));
    ls_report_put(document, "stacked_tons", by_stage(v, p->stacked));
    ls_report_put(document, "unplaced_tons", by_stage(v, p->unplaced));
    ls_report_put(document, "net_return", ls_report_line_figure(v, p->net_return, "$"));
    ls_report_put(document, "goals", goals(v, p));
    ls_report_put(document, "gap_pct", ls_report_figure(p->gap_percent, ""));
    ls_report_put(document, "days", ls_report_days_json(v, p));
    ls_report_put(document, "changes", changes(v, p));
    ls_line there = s->still_stacked;
    ls_report_put(document, "in_stack_tons",
                  there == LS_NO_LINE ? json_real(0) : ls_report_line_figure(v, there, "ton"));
    ls_report_put(document, "income", income(v, s));
    ls_report_put(document, "costs", costs(v, p));
    ls_report_words notes = ls_report_why(v, p);
    for (size_t i = 0; i < p->notes.n; i++)
        *LS_PUSH(v->arena, &notes) = p->notes.at[i];
    ls_report_put(document, "notes", ls_report_strings(notes.at, notes.n));
    ls_report_put(document, "worth_to_buyers", ls_report_plan_worth_json(v, p));
    return ls_report_dump(v, document);
}
