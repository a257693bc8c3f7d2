/* Why a plan is as it is: what has no field, what gets nothing, what is full or short, what would
 * help. */
#include "parts.h"

enum { LIKELY = 1, HIGH = LS_STAGES - 1 };

typedef LS_LIST(const char *) words;

/* A table of sentences told as items; their data stands in the other columns. */
static ls_doc_table sentences(ls_doc_group *g, ls_doc_level level, const char *key,
                              const char *heading, const ls_doc_column *columns, size_t n) {
    ls_doc_table t = ls_doc_table_in(g, level, key, heading, columns, n);
    ls_doc_as_items(t);
    return t;
}
#define SENTENCES(g, level, key, heading, columns)                                                 \
    sentences((g), (level), (key), (heading), (columns), sizeof(columns) / sizeof *(columns))

/* ---- what would help ---- */

static ls_doc_cell window(const ls_document *d, ls_window w) {
    return ls_doc_keep(d, T("{} to {}", DAY(w.from), DAY(w.to)));
}

/* "Sun 1 Feb 2026 to Sat 28 Feb 2026, by the rule of Alabama; ...": the limits of a season that
 * hold while the field may be spread. */
static ls_doc_cell seasons(const ls_document *d, const ls_field *f) {
    ls_doc_cell all = W("");
    size_t n = 0;
    for (size_t i = 0; i < f->window_caps.n; i++) {
        const ls_window_cap *cap = &f->window_caps.at[i];
        ls_window w = cap->between.days;
        if (f->allowed.from != LS_NO_DATE && (w.from > f->allowed.to || w.to < f->allowed.from))
            continue;
        const char *rule = cap->rule.text;
        all = ls_doc_keep(d, T("{}{}{}{}{}", all, W(n++ > 0 ? "; " : ""), window(d, w),
                               W(rule == NULL ? "" : ", by the rule of "),
                               W(rule == NULL ? "" : rule)));
    }
    return all;
}

static ls_doc_cell larger_truck(const ls_document *d, const ls_relief *r) {
    ls_doc_cell to = F(r->to, "ton");
    return r->body == LS_NO_LINE
               ? ls_doc_keep(d, T("trucks carried loads of {} at most", to))
               : ls_doc_keep(
                     d, T("trucks carried loads of {} at most, in a body of {}: today's body is "
                          "full before the weight limit is met, so more weight alone carries no "
                          "more",
                          to, F(r->body, "yd3")));
}

static ls_doc_cell change(const ls_document *d, const ls_relief *r) {
    ls_doc_cell buyer = W(r->buyer == NULL ? "" : r->buyer->name.text),
                field = W(r->field == NULL ? "" : r->field->name.text), to = F(r->to, "ton/ac");
    switch (r->kind) {
    case LS_RELIEF_ORDER: {
        bool loads = ls_line_at(d->view->sheet, r->to)->unit.dimension.power[LS_LOAD] == 1;
        return ls_doc_keep(d, T("{} ordered at most {}", buyer, F(r->to, loads ? "load" : "ton")));
    }
    case LS_RELIEF_WINDOW:
        return ls_field_opens(r->field)
                   ? ls_doc_keep(d, T("{} of {} were open {}", field, buyer, window(d, r->open)))
                   : ls_doc_keep(d,
                                 T("{} of {} were open until {}", field, buyer, DAY(r->open.to)));
    case LS_RELIEF_CAP:
        return ls_doc_keep(
            d, T("the plan let {} on {} of {}, where its writer agrees", to, field, buyer));
    case LS_RELIEF_SEASON:
        return ls_doc_keep(d, T("the limit of the season let {} on {} of {} ({}), where those "
                                "whose rule it is agree",
                                to, field, buyer, seasons(d, r->field)));
    case LS_RELIEF_STACK:
        return ls_doc_keep(d, T("the stack held {}", F(r->to, "ton")));
    case LS_RELIEF_TRUCK:
        return larger_truck(d, r);
    }
    return W("");
}

static ls_doc_cell relief(const ls_document *d, const ls_relief *r) {
    return ls_doc_keep(d, T("{} more would find a field if {}.", F(r->tons, "ton"), change(d, r)));
}

static const ls_doc_column relief_columns[] = {HEAD("what would help"), DATA("kind"), DATA("buyer"),
                                               DATA("field"), DATA_IN("tons", "ton")};

void ls_report_put_relief(ls_doc_group *top, const ls_plan *plan) {
    static const char *const kinds[] = {
        [LS_RELIEF_ORDER] = "order", [LS_RELIEF_WINDOW] = "open",
        [LS_RELIEF_CAP] = "limit",   [LS_RELIEF_SEASON] = "limit of a season",
        [LS_RELIEF_STACK] = "stack", [LS_RELIEF_TRUCK] = "truck"};
    ls_doc_table t = SENTENCES(
        top, LS_FULL, "relief",
        "WHAT WOULD HELP MOST: ONE LIMIT LIFTED, ALL ELSE AS IT IS, LIKELY CASE", relief_columns);
    for (size_t i = 0; i < plan->relief.n; i++) {
        const ls_relief *r = &plan->relief.at[i];
        LS_DOC_ROW(t, relief_columns, relief(top->document, r), W(kinds[r->kind]),
                   W(r->buyer == NULL ? NULL : r->buyer->name.text),
                   W(r->field == NULL ? NULL : r->field->name.text), L(r->tons));
    }
}

static const ls_doc_column default_columns[] = {DATA("what"), DATA("buyer"), DATA("field"),
                                                DATA_IN("tons", "ton")};

void ls_report_put_defaults(ls_doc_group *top, const ls_plan *plan) {
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_DATA, "defaults", NULL, default_columns);
    for (size_t i = 0; i < plan->defaults.n; i++) {
        const ls_default_limit *l = &plan->defaults.at[i];
        LS_DOC_ROW(t, default_columns, W(l->what), W(l->buyer->name.text), W(l->field->name.text),
                   L(l->tons));
    }
}

/* ---- what has no field ---- */

static ls_doc_cell no_field(const ls_document *d, const ls_plan *plan) {
    if (plan->all_placed[LIKELY] || plan->homeless == 0)
        return ls_doc_keep(d, T("NO FIELD for {} if there is a lot of litter; in the likely case "
                                "all of it has one.",
                                F(plan->unplaced[HIGH], "ton")));
    ls_doc_cell help = W("No single limit lifted would help: find another field or buyer.");
    if (plan->relief.n > 0)
        help = ls_doc_keep(d, T("{} of it would find one if {}.", F(plan->relief.at[0].tons, "ton"),
                                change(d, plan->relief.at)));
    return ls_doc_keep(d, T("NO FIELD for {}, {} load{}, in the likely case. {}",
                            F(plan->unplaced[LIKELY], "ton"), N(plan->homeless),
                            W(plan->homeless == 1 ? "" : "s"), help));
}

static ls_doc_cell stages(const ls_view *v, const ls_line tons[LS_STAGES]) {
    const ls_q q = {tons[LIKELY], ls_line_value(v->sheet, tons[0]),
                    ls_line_value(v->sheet, tons[LIKELY]), ls_line_value(v->sheet, tons[HIGH])};
    return P(q, "ton");
}

static const ls_doc_column short_columns[] = {HEAD("short orders"), DATA("buyer"),
                                              DATA_IN("short_tons", "ton")};

static ls_doc_cell short_of(const ls_document *d, const ls_short_order *o) {
    return ls_doc_keep(d, T("{} is {} short of the least it ordered, in the likely case.",
                            W(o->buyer->name.text), F(o->short_of, "ton")));
}

static ls_doc_cell stack_is_full(const ls_document *d, const ls_plan *plan) {
    return ls_doc_keep(d, T("The stack is full in the likely case: it holds {} and takes no load "
                            "more, while {} have no field.",
                            F(plan->stack_room, "ton"), F(plan->unplaced[LIKELY], "ton")));
}

void ls_report_put_answer(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_document *d = top->document;
    const ls_plan *plan = s->plan;
    bool all = plan->all_placed[HIGH];
    ls_doc_say(top, LS_FIRST,
               all ? W("All litter has a field, or room in the stack; a rest below one drop is "
                       "rounding.")
                   : no_field(d, plan));
    ls_doc_fact(top, LS_FIRST, "placed_tons", "Straight to fields",
                stages(d->view, plan->straight));
    ls_doc_fact(top, LS_FIRST, "stacked_tons", "Into the stack", stages(d->view, plan->stacked));
    ls_doc_fact(top, LS_FIRST, "unplaced_tons", "NO FIELD: nowhere may take it",
                stages(d->view, plan->unplaced));
    ls_doc_table t = SENTENCES(top, LS_FIRST, "short_orders", NULL, short_columns);
    for (size_t i = 0; i < plan->short_orders.n; i++) {
        const ls_short_order *o = &plan->short_orders.at[i];
        LS_DOC_ROW(t, short_columns, short_of(d, o), W(o->buyer->name.text), L(o->short_of));
    }
    if (s->stack_full)
        ls_doc_item(top, LS_FIRST, stack_is_full(d, plan));
    if (!all)
        ls_doc_item(top, LS_FIRST,
                    W("Litter without a field: find another field or buyer, other days when a "
                      "field is open, or more room in a stack before the crew comes."));
}

/* ---- fields that get nothing ---- */

static const ls_doc_column unused_columns[] = {HEAD("gets nothing"), DATA("buyer"), DATA("field"),
                                               DATA("why")};

static ls_doc_cell unused(const ls_document *d, const ls_unused_field *f) {
    return ls_doc_keep(d, T("{} of {} gets nothing: {}.", W(f->field->name.text),
                            W(f->buyer->name.text), W(f->why)));
}

void ls_report_put_unused(ls_doc_group *g, const ls_plan *plan) {
    ls_doc_table t = SENTENCES(g, LS_FIRST, "unused", NULL, unused_columns);
    for (size_t i = 0; i < plan->unused.n; i++) {
        const ls_unused_field *f = &plan->unused.at[i];
        LS_DOC_ROW(t, unused_columns, unused(g->document, f), W(f->buyer->name.text),
                   W(f->field->name.text), W(f->why));
    }
}

/* ---- notes ---- */

static void add(const ls_document *d, words *to, ls_doc_cell sentence) {
    *LS_PUSH(d->arena, to) = ls_doc_shown(d, &sentence, NULL, false);
}

/* All that is above, in US units as everything in JSON, and what was assumed. */
void ls_report_put_plan_notes(ls_doc_group *top, const ls_plan_sums *s) {
    const ls_document *d = top->document;
    const ls_plan *plan = s->plan;
    words all = {0};
    for (size_t i = 0; i < plan->unused.n; i++)
        add(d, &all, unused(d, &plan->unused.at[i]));
    for (size_t i = 0; i < plan->short_orders.n; i++)
        add(d, &all, short_of(d, &plan->short_orders.at[i]));
    if (s->stack_full)
        add(d, &all, stack_is_full(d, plan));
    for (size_t i = 0; i < plan->relief.n; i++)
        add(d, &all, relief(d, &plan->relief.at[i]));
    for (size_t i = 0; i < plan->notes.n; i++)
        *LS_PUSH(d->arena, &all) = plan->notes.at[i];
    ls_doc_texts(top, LS_DATA, "notes", NULL, all.at, all.n);
    ls_doc_texts(top, LS_FULL, "assumed", "ASSUMED, AND CONFLICTS", plan->notes.at, plan->notes.n);
}
