/* What would help, in words; the tons of the low, likely and high case; what was assumed. */
#include "parts.h"

enum { LIKELY = 1 };

/* ---- what would help ---- */

/* "Sun, Feb 1 to Sat, Feb 28, by the rule of Alabama; ...": the limits of a season that hold while
 * the field may be spread. */
static ls_doc_cell seasons(const ls_document *d, const ls_field *f) {
    ls_doc_cell all = W("");
    size_t n = 0;
    LS_EACH (const ls_window_cap, cap, f->window_caps) {
        ls_window w = cap->between.days;
        if (f->allowed.from != LS_NO_DATE && (w.from > f->allowed.to || w.to < f->allowed.from)) continue;
        const char *rule = cap->rule.text;
        all = KEPT(d, "{}{}{} to {}{}{}", all, W(n++ > 0 ? "; " : ""), DAY(w.from), DAY(w.to),
                   W(rule == NULL ? "" : ", by the rule of "), W(rule == NULL ? "" : rule));
    }
    return all;
}

/* What differs of the days on which the field is open. */
static ls_doc_cell opened(const ls_document *d, const ls_relief *r) {
    ls_window now = r->field->allowed;
    if (!ls_field_opens(r->field) || r->open.from == now.from) return KEPT(d, "until {}", DAY(r->open.to));
    return r->open.to == now.to ? KEPT(d, "from {}", DAY(r->open.from))
                                : KEPT(d, "{} to {}", DAY(r->open.from), DAY(r->open.to));
}

/* What the stack that is there holds in as many piles: in fewer it holds more. */
static ls_doc_cell stack(const ls_document *d, const ls_relief *r) {
    ls_doc_cell tons = F(r->to, "ton"), now = BARE(F(r->now, "ton"));
    if (r->piles > 1) {
        tons = KEPT(d, "{} in {} piles", tons, N(r->piles));
        now = KEPT(d, "{} in {}", now, N(r->piles));
    }
    return r->now == LS_NO_LINE ? KEPT(d, "a stack for {}", tons)
                                : KEPT(d, "a stack for {} (yours holds {})", tons, now);
}

/* The one change. */
ls_doc_cell ls_report_relief(const ls_document *d, const ls_relief *r) {
    ls_doc_cell buyer = W(r->buyer == NULL ? "" : r->buyer->name.text),
                field = W(r->field == NULL ? "" : r->field->name.text), to = F(r->to, "ton/ac"), tons = F(r->to, "ton");
    switch (r->kind) {
    case LS_RELIEF_ORDER: {
        bool loads = ls_line_at(d->view->sheet, r->to)->unit.dimension.power[LS_LOAD] == 1;
        return KEPT(d, "an order of {} by {}", F(r->to, loads ? "load" : "ton"), buyer);
    }
    case LS_RELIEF_WINDOW: return KEPT(d, "{} open {}", field, opened(d, r));
    case LS_RELIEF_CAP: return KEPT(d, "{} on {} (ask the plan writer)", to, field);
    case LS_RELIEF_SEASON: return KEPT(d, "{} on {}, {} (ask whose rule it is)", to, field, seasons(d, r->field));
    case LS_RELIEF_STACK: return stack(d, r);
    case LS_RELIEF_TRUCK:
        return r->body == LS_NO_LINE ? KEPT(d, "trucks for loads of {}", tons)
                                     : KEPT(d, "trucks with a body of {} (loads of {})", F(r->body, "yd3"), tons);
    }
    return W("");
}

const char *ls_report_relief_kind(const ls_relief *r) {
    static const char *const kinds[] = {[LS_RELIEF_ORDER] = "order", [LS_RELIEF_WINDOW] = "open",
                                        [LS_RELIEF_CAP] = "limit",   [LS_RELIEF_SEASON] = "limit of a season",
                                        [LS_RELIEF_STACK] = "stack", [LS_RELIEF_TRUCK] = "truck"};
    return kinds[r->kind];
}

/* ---- short orders, limits that the file does not give ---- */

LS_DOC_COLUMNS(default_columns, WORDS("what", "limit"), WORDS("buyer", "buyer"), WORDS("field", "field"),
               IN("tons", "keeps out", "ton"));

LS_DOC_COLUMNS(short_columns, DATA("buyer"), DATA_IN("short_tons", "ton"));

static ls_doc_cell stages(const ls_view *v, const ls_line tons[LS_STAGES]) {
    const ls_q q = {tons[LIKELY], ls_line_value(v->sheet, tons[0]), ls_line_value(v->sheet, tons[LIKELY]),
                    ls_line_value(v->sheet, tons[LS_STAGES - 1])};
    return P(q, "ton");
}

void ls_report_put_why(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_view *v = top->document->view;
    const ls_plan *plan = s->plan;
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "TONS, IF LITTER IS LOW, LIKELY OR HIGH");
    FACTS(g, LS_FULL, {"placed_tons", "Straight to fields", stages(v, plan->straight)},
          {"stacked_tons", "Into the stack", stages(v, plan->stacked)},
          {"unplaced_tons", "NO FIELD", stages(v, plan->unplaced)});
    if (plan->tickets_kept)
        ls_doc_say(top, LS_FULL,
                   W("If litter is low, tickets that are out keep their fields. These were chosen "
                     "for all the litter: a little more may have no field."));
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_DATA, "short_orders", NULL, short_columns);
    for (size_t i = 0; i < plan->short_orders.n; i++)
        LS_DOC_ROW(t, short_columns, W(plan->short_orders.at[i].buyer->name.text),
                   L(plan->short_orders.at[i].short_of));
    t = LS_DOC_TABLE_IN(ls_doc_object(top, LS_FULL, NULL, "LIMITS THAT THE FILE DOES NOT GIVE"), LS_FULL, "defaults",
                        NULL, default_columns);
    LS_EACH (const ls_default_limit, l, plan->defaults)
        LS_DOC_ROW(t, default_columns, W(l->what), W(l->buyer->name.text), W(l->field->name.text), L(l->tons));
    ls_doc_texts(top, LS_FULL, "assumed", "ASSUMED, AND CONFLICTS", plan->notes.at, plan->notes.n);
}
