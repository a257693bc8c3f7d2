#include "why.h"

#include "report/figure.h"

enum { NAME = 40 };

const char *ls_report_why_unused(const ls_plan *plan, const ls_field *f) {
    for (size_t i = 0; i < plan->unused.n; i++)
        if (plan->unused.at[i].field == f)
            return plan->unused.at[i].why;
    return NULL;
}

/* ---- what is short or full ---- */

/* Litter waits outside while what is left of the stack takes no load more. */
static bool stack_is_full(const ls_view *v, const ls_plan *plan) {
    if (plan->stack_left == LS_NO_LINE || plan->all_placed[1])
        return false;
    double left = ls_line_value(v->sheet, plan->stack_left);
    for (size_t i = 0; i < plan->loads_n; i++)
        if (left >= ls_line_value(v->sheet, plan->loads[i].lot->payload.line))
            return false;
    return true;
}

ls_report_words ls_report_shortages(const ls_report_page *p, const ls_plan *plan) {
    ls_report_words words = {0};
    for (size_t i = 0; i < plan->short_orders.n; i++)
        *LS_PUSH(p->arena, &words) =
            ls_arena_printf(p->arena, "%s is %s short of the least it ordered, in the middle case.",
                            ls_report_name(p, plan->short_orders.at[i].buyer->name.text, NAME),
                            ls_report_line(p, plan->short_orders.at[i].short_of, "ton"));
    if (stack_is_full(p->view, plan))
        *LS_PUSH(p->arena, &words) = ls_arena_printf(
            p->arena,
            "The stack is full in the middle case: it holds %s and takes no load more, while %s "
            "have no home.",
            ls_report_line(p, plan->stack_room, "ton"),
            ls_report_line(p, plan->unplaced[1], "ton"));
    return words;
}

/* ---- what would help ---- */

static const char *window_words(const ls_report_page *p, const ls_window *w) {
    return ls_arena_printf(p->arena, "%s to %s", ls_date_words(p->arena, w->from),
                           ls_date_words(p->arena, w->to));
}

/* "2026-02-01 to 2026-02-28, by the rule of Alabama; ...": the caps of the field that hold while it
 * may be spread. */
static const char *seasons(const ls_report_page *p, const ls_field *f) {
    ls_text *t = ls_text_new(p->arena);
    for (size_t i = 0; i < f->window_caps.n; i++) {
        const ls_window_cap *cap = &f->window_caps.at[i];
        ls_window w = cap->between.days;
        if (f->allowed.from != LS_NO_DATE && (w.from > f->allowed.to || w.to < f->allowed.from))
            continue;
        ls_text_addf(t, "%s%s%s%s", t->n > 0 ? "; " : "", window_words(p, &w),
                     cap->rule.text == NULL ? "" : ", by the rule of ",
                     cap->rule.text == NULL ? "" : ls_report_name(p, cap->rule.text, NAME));
    }
    return t->s;
}

static const char *larger_body(const ls_report_page *p, const ls_relief *r) {
    if (r->body == LS_NO_LINE)
        return "";
    return ls_arena_printf(p->arena,
                           ", in a body of %s: a body of today's is full before the weight limit "
                           "is met, so that more weight alone carries no more",
                           ls_report_line(p, r->body, "yd3"));
}

static const char *change(const ls_report_page *p, const ls_relief *r) {
    const char *buyer = r->buyer == NULL ? "" : ls_report_name(p, r->buyer->name.text, NAME);
    const char *field = r->field == NULL ? "" : ls_report_name(p, r->field->name.text, NAME);
    switch (r->kind) {
    case LS_RELIEF_ORDER: {
        bool loads = ls_line_at(p->view->sheet, r->to)->unit.dimension.power[LS_LOAD] == 1;
        return ls_arena_printf(p->arena, "%s ordered at most %s%s", buyer,
                               loads ? ls_report_line_number(p, r->to, "load")
                                     : ls_report_line(p, r->to, "ton"),
                               loads ? " loads" : "");
    }
    case LS_RELIEF_WINDOW:
        return ls_arena_printf(
            p->arena, "%s of %s were open %s", field, buyer,
            ls_field_opens(r->field)
                ? window_words(p, &r->open)
                : ls_arena_printf(p->arena, "until %s", ls_date_words(p->arena, r->open.to)));
    case LS_RELIEF_CAP:
        return ls_arena_printf(p->arena, "the plan let %s on %s of %s, where its writer agrees",
                               ls_report_line(p, r->to, "ton/ac"), field, buyer);
    case LS_RELIEF_SEASON:
        return ls_arena_printf(p->arena,
                               "the cap of the season let %s on %s of %s (%s), where those whose "
                               "rule it is agree",
                               ls_report_line(p, r->to, "ton/ac"), field, buyer,
                               seasons(p, r->field));
    case LS_RELIEF_STACK:
        return ls_arena_printf(p->arena, "the stack held %s", ls_report_line(p, r->to, "ton"));
    case LS_RELIEF_TRUCK:
        return ls_arena_printf(p->arena, "trucks carried loads of %s at most%s",
                               ls_report_line(p, r->to, "ton"), larger_body(p, r));
    }
    return "";
}

ls_report_words ls_report_relief(const ls_report_page *p, const ls_plan *plan) {
    ls_report_words words = {0};
    for (size_t i = 0; i < plan->relief.n; i++)
        *LS_PUSH(p->arena, &words) = ls_arena_printf(
            p->arena, "%s more would find a home if %s.",
            ls_report_line(p, plan->relief.at[i].tons, "ton"), change(p, &plan->relief.at[i]));
    return words;
}

const char *ls_report_no_home(const ls_report_page *p, const ls_plan *plan) {
    if (plan->all_placed[LS_STAGES - 1])
        return NULL;
    if (plan->all_placed[1] || plan->homeless == 0)
        return ls_arena_printf(p->arena,
                               "NO HOME for %s if there is much litter; in the middle case all of "
                               "it has one.",
                               ls_report_line(p, plan->unplaced[LS_STAGES - 1], "ton"));
    const ls_relief *best = plan->relief.n > 0 ? &plan->relief.at[0] : NULL;
    const char *help = best == NULL
                           ? "No single limit lifted would help: find another field or buyer."
                           : ls_arena_printf(p->arena, "%s of it would find one if %s.",
                                             ls_report_line(p, best->tons, "ton"), change(p, best));
    return ls_arena_printf(p->arena, "NO HOME for %s, %ld load%s, in the middle case. %s",
                           ls_report_line(p, plan->unplaced[1], "ton"), plan->homeless,
                           plan->homeless == 1 ? "" : "s", help);
}

/* ---- for a document ---- */

static void add(const ls_view *v, ls_report_words *to, ls_report_words from) {
    for (size_t i = 0; i < from.n; i++)
        *LS_PUSH(v->arena, to) = from.at[i];
}

ls_report_words ls_report_why(const ls_view *v, const ls_plan *plan) {
    ls_report_words words = {0};
    ls_view us = *v;
    us.metric = false;
    const ls_report_page p = {&us, v->arena, NULL};
    for (size_t i = 0; i < plan->unused.n; i++) {
        const ls_unused_field *one = &plan->unused.at[i];
        *LS_PUSH(v->arena, &words) =
            ls_arena_printf(v->arena, "%s of %s gets nothing: %s.", one->field->name.text,
                            one->buyer->name.text, one->why);
    }
    add(v, &words, ls_report_shortages(&p, plan));
    add(v, &words, ls_report_relief(&p, plan));
    return words;
}
