#include "sums.h"

static const char *buyer_key(const ls_view *v, const ls_buyer *b, ls_certainty c) {
    return ls_words(v->sheet, "plan.buyer.%s.%s", b->slug, ls_certainty_name(c));
}

static const char *stack_key(const ls_view *v, const ls_lot *lot) {
    return ls_words(v->sheet, "plan.stack.%s.in", lot->slug);
}

ls_line ls_report_buyer_tons(const ls_view *v, const ls_buyer *b, ls_certainty c) {
    return ls_line_find(v->sheet, buyer_key(v, b, c));
}

ls_line ls_report_stacked_tons(const ls_view *v, const ls_lot *lot) {
    return ls_line_find(v->sheet, stack_key(v, lot));
}

/* The load at i, counting those from the houses first and then those out of the stack. */
static const ls_load *load_at(const ls_plan *p, size_t i) {
    return i < p->loads_n ? &p->loads[i] : &p->out[i - p->loads_n];
}

static bool is_for(const ls_load *load, const ls_buyer *b, ls_certainty c) {
    return load->buyer == b && load->certainty == c;
}

size_t ls_report_buyer_loads(const ls_plan *p, const ls_buyer *b, ls_certainty c) {
    size_t n = 0;
    for (size_t i = 0; i < p->loads_n + p->out_n; i++)
        n += is_for(load_at(p, i), b, c);
    return n;
}

ls_line ls_report_buyer_middle(const ls_view *v, const ls_buyer *b) {
    return ls_line_find(v->sheet, ls_words(v->sheet, "plan.buyer.%s.tons", b->slug));
}

ls_line ls_report_buyer_income(const ls_view *v, const ls_buyer *b) {
    return ls_line_find(v->sheet, ls_words(v->sheet, "plan.buyer.%s.income", b->slug));
}

static void buyer_lines(const ls_view *v, const ls_plan *p, const ls_buyer *b, ls_line *room) {
    for (ls_certainty c = LS_FIRM; c <= LS_POSSIBLE; c++) {
        size_t n = 0;
        for (size_t i = 0; i < p->loads_n + p->out_n; i++)
            if (is_for(load_at(p, i), b, c))
                room[n++] = load_at(p, i)->tons;
        if (n > 0)
            ls_sum(v->sheet, buyer_key(v, b, c),
                   ls_words(v->sheet, "%s tons for %s", ls_certainty_name(c), b->name.text), "ton",
                   room, n);
    }
}

static void stack_line(const ls_view *v, const ls_plan *p, const ls_lot *lot, ls_line *room) {
    size_t n = 0;
    for (size_t i = 0; i < p->loads_n; i++)
        if (p->loads[i].buyer == NULL && p->loads[i].lot == lot)
            room[n++] = p->loads[i].tons;
    if (n > 0)
        ls_sum(v->sheet, stack_key(v, lot),
               ls_words(v->sheet, "litter of %s taken into the stack", lot->name), "ton", room, n);
}

static const char stacked_before[] = "plan.stack.before", taken_out[] = "plan.stack.taken-out",
                  still_there[] = "plan.stack.still-there";

ls_line ls_report_stacked_before(const ls_view *v) {
    return ls_line_find(v->sheet, stacked_before);
}

ls_line ls_report_still_stacked(const ls_view *v) {
    return ls_line_find(v->sheet, still_there);
}

/* What went into the stack by the haul log, or came out of it; LS_NO_LINE: nothing. */
static ls_line by_way_of_stack(const ls_view *v, const char *key, const char *label, bool out) {
    LS_LIST(ls_line) parts = {0};
    for (size_t i = 0; i < v->farm->hauled.n; i++) {
        const ls_hauled *load = &v->farm->hauled.at[i];
        double tons = load->from_stack ? load->tons : 0;
        for (size_t k = 0; !load->from_stack && k < load->n; k++)
            tons += load->drops[k].field == NULL ? load->drops[k].tons : 0;
        if (load->from_stack != out || !(tons > 0))
            continue;
        ls_line part = ls_leaf_exact(v->sheet, ls_words(v->sheet, "%s.%zu", key, i + 1),
                                     ls_words(v->sheet, "load %s", load->ticket), "ton", tons,
                                     LS_BY_LOG, load->entry);
        *LS_PUSH(v->arena, &parts) = part;
    }
    return parts.n > 0 ? ls_sum(v->sheet, key, label, "ton", parts.at, parts.n) : LS_NO_LINE;
}

static void stacked_before_lines(const ls_view *v) {
    const char *label = "litter that still lies in the stack, by the haul log";
    ls_line in = by_way_of_stack(v, stacked_before, "litter hauled into the stack before", false);
    ls_line out = by_way_of_stack(v, taken_out, "litter hauled out of the stack again", true);
    if (in == LS_NO_LINE)
        return;
    if (out == LS_NO_LINE) {
        ls_same(v->sheet, still_there, label, "ton", in);
        return;
    }
    ls_line rest = ls_difference(v->sheet, "plan.stack.rest", "in less out", "ton", in, out);
    ls_line none = ls_leaf_exact(v->sheet, "plan.stack.none-there", "nothing", "ton", 0,
                                 LS_BY_DEFINITION, NULL);
    LS_GREATEST(v->sheet, still_there, label, "ton", rest, none);
}

static const char *field_key(const ls_view *v, const ls_buyer *b, const ls_field *f,
                             const char *what) {
    return ls_words(v->sheet, "plan.field.%s.%s.%s", b->slug, f->slug, what);
}

ls_line ls_report_field_tons(const ls_view *v, const ls_buyer *b, const ls_field *f) {
    return ls_line_find(v->sheet, field_key(v, b, f, "tons"));
}

ls_line ls_report_field_acres(const ls_view *v, const ls_buyer *b, const ls_field *f) {
    return ls_line_find(v->sheet, field_key(v, b, f, "acres"));
}

/* The drops on one field, a sum of each kind. */
static void field_lines(const ls_view *v, const ls_plan *p, const ls_buyer *b, const ls_field *f,
                        ls_line *tons, ls_line *acres) {
    size_t n = 0;
    for (size_t i = 0; i < p->loads_n + p->out_n; i++) {
        const ls_load *load = load_at(p, i);
        for (size_t k = 0; k < load->n; k++)
            if (load->drops[k].field == f)
                tons[n] = load->drops[k].tons, acres[n++] = load->drops[k].acres;
    }
    if (n == 0)
        return;
    ls_sum(v->sheet, field_key(v, b, f, "tons"), ls_words(v->sheet, "litter for %s", f->name.text),
           "ton", tons, n);
    ls_sum(v->sheet, field_key(v, b, f, "acres"),
           ls_words(v->sheet, "acres of %s covered", f->name.text), "ac", acres, n);
}

bool ls_report_all_placed_in(const ls_view *v, const ls_plan *p, int stage) {
    double drop = ls_reference_need(v->reference, "practice", "", "smallest drop", "value")->value;
    return ls_line_value(v->sheet, p->unplaced[stage]) < drop;
}

bool ls_report_all_placed(const ls_view *v, const ls_plan *p) {
    return ls_report_all_placed_in(v, p, LS_STAGES - 1);
}

void ls_report_plan_lines(const ls_view *v, const ls_estimate *e, const ls_plan *p) {
    ls_line *room = LS_NEW(v->arena, ls_line, p->loads_n + p->out_n);
    for (size_t i = 0; i < e->farm->buyers.n; i++)
        buyer_lines(v, p, &e->farm->buyers.at[i], room);
    for (size_t i = 0; i < e->n; i++)
        stack_line(v, p, &e->lots[i], room);
    stacked_before_lines(v);
    size_t drops = 0;
    for (size_t i = 0; i < p->loads_n + p->out_n; i++)
        drops += load_at(p, i)->n;
    ls_line *tons = LS_NEW(v->arena, ls_line, drops), *acres = LS_NEW(v->arena, ls_line, drops);
    for (size_t i = 0; i < e->farm->buyers.n; i++)
        for (size_t k = 0; k < e->farm->buyers.at[i].fields.n; k++)
            field_lines(v, p, &e->farm->buyers.at[i], &e->farm->buyers.at[i].fields.at[k], tons,
                        acres);
}
