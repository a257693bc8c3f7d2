/* What would help, in words; all that is to be known of a plan as notes. */
#include "parts.h"

enum { LIKELY = 1 };

typedef LS_LIST(const char *) words;

/* ---- what would help ---- */

/* "Sun, Feb 1 to Sat, Feb 28, by the rule of Alabama; ...": the limits of a season that hold while
 * the field may be spread. */
static ls_doc_cell seasons(const ls_document *d, const ls_field *f) {
    ls_doc_cell all = W("");
    size_t n = 0;
    for (size_t i = 0; i < f->window_caps.n; i++) {
        const ls_window_cap *cap = &f->window_caps.at[i];
        ls_window w = cap->between.days;
        if (f->allowed.from != LS_NO_DATE && (w.from > f->allowed.to || w.to < f->allowed.from))
            continue;
        const char *rule = cap->rule.text;
        all = ls_doc_keep(d, T("{}{}{} to {}{}{}", all, W(n++ > 0 ? "; " : ""), DAY(w.from),
                               DAY(w.to), W(rule == NULL ? "" : ", by the rule of "),
                               W(rule == NULL ? "" : rule)));
    }
    return all;
}

static ls_doc_cell larger_truck(const ls_document *d, const ls_relief *r) {
    ls_doc_cell to = F(r->to, "ton");
    return r->body == LS_NO_LINE
               ? ls_doc_keep(d, T("trucks for loads of {}", to))
               : ls_doc_keep(d, T("trucks with a body of {} (loads of {})", F(r->body, "yd3"), to));
}

static ls_doc_cell stack(const ls_document *d, const ls_plan *plan, const ls_relief *r) {
    ls_doc_cell to = F(r->to, "ton");
    return plan->stack_room == LS_NO_LINE
               ? ls_doc_keep(d, T("a stack for {}", to))
               : ls_doc_keep(d, T("a stack for {} (now {})", to, BARE(F(plan->stack_room, "ton"))));
}

/* What differs of the days on which the field is open. */
static ls_doc_cell opened(const ls_document *d, const ls_relief *r) {
    ls_window now = r->field->allowed;
    if (!ls_field_opens(r->field) || r->open.from == now.from)
        return ls_doc_keep(d, T("until {}", DAY(r->open.to)));
    return r->open.to == now.to ? ls_doc_keep(d, T("from {}", DAY(r->open.from)))
                                : ls_doc_keep(d, T("{} to {}", DAY(r->open.from), DAY(r->open.to)));
}

/* The one change. */
ls_doc_cell ls_report_relief(const ls_document *d, const ls_plan *plan, const ls_relief *r) {
    ls_doc_cell buyer = W(r->buyer == NULL ? "" : r->buyer->name.text),
                field = W(r->field == NULL ? "" : r->field->name.text), to = F(r->to, "ton/ac");
    switch (r->kind) {
    case LS_RELIEF_ORDER: {
        bool loads = ls_line_at(d->view->sheet, r->to)->unit.dimension.power[LS_LOAD] == 1;
        return ls_doc_keep(d, T("an order of {} by {}", F(r->to, loads ? "load" : "ton"), buyer));
    }
    case LS_RELIEF_WINDOW:
        return ls_doc_keep(d, T("{} open {}", field, opened(d, r)));
    case LS_RELIEF_CAP:
        return ls_doc_keep(d, T("{} on {} (ask the plan writer)", to, field));
    case LS_RELIEF_SEASON:
        return ls_doc_keep(
            d, T("{} on {}, {} (ask whose rule it is)", to, field, seasons(d, r->field)));
    case LS_RELIEF_STACK:
        return stack(d, plan, r);
    case LS_RELIEF_TRUCK:
        return larger_truck(d, r);
    }
    return W("");
}

static ls_doc_cell relief(const ls_document *d, const ls_plan *plan, const ls_relief *r) {
    return ls_doc_keep(d, T("{} more would find a field with {}.", F(r->tons, "ton"),
                            ls_report_relief(d, plan, r)));
}

static const ls_doc_column relief_columns[] = {DATA("kind"), DATA("buyer"), DATA("field"),
                                               DATA_IN("tons", "ton")};

const char *ls_report_relief_kind(const ls_relief *r) {
    static const char *const kinds[] = {
        [LS_RELIEF_ORDER] = "order", [LS_RELIEF_WINDOW] = "open",
        [LS_RELIEF_CAP] = "limit",   [LS_RELIEF_SEASON] = "limit of a season",
        [LS_RELIEF_STACK] = "stack", [LS_RELIEF_TRUCK] = "truck"};
    return kinds[r->kind];
}

/* ---- short orders, a full stack, limits that the file does not give ---- */

static const ls_doc_column default_columns[] = {WORDS("what", "limit"), WORDS("buyer", "buyer"),
                                                WORDS("field", "field"),
                                                IN("tons", "keeps out", "ton")};

static const ls_doc_column short_columns[] = {DATA("buyer"), DATA_IN("short_tons", "ton")};

static ls_doc_cell short_of(const ls_document *d, const ls_short_order *o) {
    return ls_doc_keep(d, T("{} is {} short of the least it ordered, in the likely case.",
                            W(o->buyer->name.text), F(o->short_of, "ton")));
}

static ls_doc_cell stack_is_full(const ls_document *d, const ls_plan *plan) {
    return ls_doc_keep(d, T("The stack is full in the likely case: it holds {}, and {} have no "
                            "field.",
                            F(plan->stack_room, "ton"), F(plan->unplaced[LIKELY], "ton")));
}

static ls_doc_cell stages(const ls_view *v, const ls_line tons[LS_STAGES]) {
    const ls_q q = {tons[LIKELY], ls_line_value(v->sheet, tons[0]),
                    ls_line_value(v->sheet, tons[LIKELY]),
                    ls_line_value(v->sheet, tons[LS_STAGES - 1])};
    return P(q, "ton");
}

/* ---- notes ---- */

static void add(const ls_document *d, words *to, ls_doc_cell sentence) {
    *LS_PUSH(d->arena, to) = ls_doc_shown(d, &sentence, NULL, false);
}

static void data(ls_doc_group *top, const ls_plan *plan) {
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_DATA, "short_orders", NULL, short_columns);
    for (size_t i = 0; i < plan->short_orders.n; i++)
        LS_DOC_ROW(t, short_columns, W(plan->short_orders.at[i].buyer->name.text),
                   L(plan->short_orders.at[i].short_of));
    t = LS_DOC_TABLE_IN(top, LS_DATA, "relief", NULL, relief_columns);
    for (size_t i = 0; i < plan->relief.n; i++) {
        const ls_relief *r = &plan->relief.at[i];
        LS_DOC_ROW(t, relief_columns, W(ls_report_relief_kind(r)),
                   W(r->buyer == NULL ? NULL : r->buyer->name.text),
                   W(r->field == NULL ? NULL : r->field->name.text), L(r->tons));
    }
    t = LS_DOC_TABLE_IN(ls_doc_object(top, LS_FULL, NULL, "LIMITS THAT THE FILE DOES NOT GIVE"),
                        LS_FULL, "defaults", NULL, default_columns);
    for (size_t i = 0; i < plan->defaults.n; i++) {
        const ls_default_limit *l = &plan->defaults.at[i];
        LS_DOC_ROW(t, default_columns, W(l->what), W(l->buyer->name.text), W(l->field->name.text),
                   L(l->tons));
    }
}

/* All that is above, in US units as everything in JSON, and what was assumed. */
void ls_report_put_why(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_document *d = top->document;
    const ls_plan *plan = s->plan;
    words all = {0};
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "TONS, IF LITTER IS LOW, LIKELY OR HIGH");
    ls_doc_fact(g, LS_FULL, "placed_tons", "Straight to fields", stages(d->view, plan->straight));
    ls_doc_fact(g, LS_FULL, "stacked_tons", "Into the stack", stages(d->view, plan->stacked));
    ls_doc_fact(g, LS_FULL, "unplaced_tons", "NO FIELD", stages(d->view, plan->unplaced));
    data(top, plan);
    for (size_t i = 0; i < plan->unused.n; i++)
        add(d, &all, ls_report_unused(d, &plan->unused.at[i]));
    for (size_t i = 0; i < plan->short_orders.n; i++)
        add(d, &all, short_of(d, &plan->short_orders.at[i]));
    if (s->stack_full)
        add(d, &all, stack_is_full(d, plan));
    for (size_t i = 0; i < plan->relief.n; i++)
        add(d, &all, relief(d, plan, &plan->relief.at[i]));
    for (size_t i = 0; i < plan->notes.n; i++)
        *LS_PUSH(d->arena, &all) = plan->notes.at[i];
    ls_doc_texts(top, LS_DATA, "notes", NULL, all.at, all.n);
    ls_doc_texts(top, LS_FULL, "assumed", "ASSUMED, AND CONFLICTS", plan->notes.at, plan->notes.n);
}
