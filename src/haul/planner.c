/* What is said while a plan is made, and figures it starts from. */
#include "planner.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

size_t ls_haul_lot_coded(const ls_haul_planner *p, const char *code) {
    size_t i = 0;
    while (i < p->e->n && strcmp(p->e->lots[i].code, code) != 0) i++;
    return i;
}

double ls_haul_top_rate(const ls_haul_planner *p, size_t field) {
    double most = 0;
    for (size_t i = 0; i < p->lots; i++) most = fmax(most, p->rate[ls_haul_lot_field(p, i, field)]);
    return most;
}

double ls_haul_largest(const ls_haul_planner *p) {
    double most = 0;
    for (size_t i = 0; i < p->lots; i++) most = fmax(most, p->payload[i]);
    return most;
}

void ls_haul_widen(ls_haul_range *range, ls_haul_range days) {
    if (range->from == LS_NO_DATE) *range = days;
    if (days.from == LS_NO_DATE) return;
    range->from = days.from < range->from ? days.from : range->from;
    range->to = days.to > range->to ? days.to : range->to;
}

ls_haul_range ls_haul_range_of(const ls_haul_planner *p, const ls_haul_range *ranges, size_t of) {
    ls_haul_range all = ranges[ls_haul_house_lot(p, of, 0)];
    for (size_t k = 1; k < p->kinds; k++) ls_haul_widen(&all, ranges[ls_haul_house_lot(p, of, k)]);
    return all;
}

bool ls_haul_spreads_on(const ls_haul_planner *p, size_t kind, size_t field) {
    return ls_truck_spreads_on(&p->farm->trucks.at[kind], &p->farm->buyers.at[p->buyer[field]], p->field[field]);
}

size_t ls_haul_kind_for(const ls_haul_planner *p, size_t lot, size_t field) {
    size_t kind = p->kind_of[lot];
    return ls_haul_spreads_on(p, kind, field) ? kind : p->stack_kind;
}

size_t ls_haul_turn(const ls_haul_planner *p, const size_t *had, const size_t *all) {
    size_t best = p->kinds;
    for (size_t k = 0; k < p->kinds; k++)
        if (had[k] < all[k] && (best == p->kinds || (2 * had[k] + 1) * all[best] < (2 * had[best] + 1) * all[k]))
            best = k;
    return best;
}

const ls_figure *ls_haul_practice(const ls_haul_planner *p, const char *row) {
    return ls_reference_need(p->reference, "practice", "", row, "value");
}

ls_worksheet *ls_haul_of_buyer(const ls_haul_planner *p, const ls_buyer *b) {
    return ls_part(p->w, b->name.text, "plan.buyer.%s", b->slug);
}

const ls_field_rates *ls_haul_rates(const ls_haul_planner *p, size_t field) {
    return ls_agronomy_field(p->agronomy, &p->farm->buyers.at[p->buyer[field]], p->field[field]);
}

void ls_haul_note(ls_haul_planner *p, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *text = ls_arena_vprintf(p->arena, format, arguments);
    va_end(arguments);
    for (size_t i = 0; i < p->plan->notes.n; i++)
        if (strcmp(p->plan->notes.at[i], text) == 0) return;
    *LS_PUSH(p->arena, &p->plan->notes) = text;
}

ls_line ls_haul_given_or(ls_haul_planner *p, ls_worksheet *w, const char *key, const char *label, const char *unit,
                         const ls_quantity *q, const char *row, const char *what) {
    if (q != NULL && LS_GIVEN(*q) && q->value > 0) return ls_leaf_given(w, key, label, unit, q);
    const ls_figure *f = ls_haul_practice(p, row);
    if (what != NULL)
        ls_haul_note(p, "%s is not given: %s %s is used, %s%s%s.", what,
                     ls_number_text(p->arena, f->value / f->unit.factor, 3), f->unit.text, ls_status_words(f->status),
                     f->own == NULL ? "" : ", from the farm's own tables, ", f->own == NULL ? "" : f->own);
    return ls_leaf_figure(w, key, label, unit, f);
}

double ls_haul_seconds(const ls_haul_planner *p, ls_line line) {
    static const double day = 24 * 60 * 60, most = 1e12;
    return fmin(ls_line_value(p->w, line) * day, most);
}

ls_sim_time ls_haul_whole(double s) { return (ls_sim_time)floor(s + 0.5); }

ls_line ls_haul_exact(ls_haul_planner *p, const char *key, const char *label, const char *unit, double value) {
    return ls_leaf_exact(p->w, key, label, unit, value, LS_BY_DEFINITION, NULL);
}

const char ls_haul_likely_split[] = "the split of the likely case";

ls_line ls_haul_decided(ls_worksheet *w, const char *key, const char *label, const char *unit, double value,
                        const char *words) {
    return ls_leaf_exact(w, key, label, unit, value * ls_unit_of(unit).factor, LS_BY_SPLIT, words);
}

ls_line ls_haul_timed(ls_worksheet *w, const char *key, const char *label, ls_sim_time time) {
    return ls_leaf_exact(w, key, label, "h", (double)time * ls_unit_of("s").factor, LS_BY_DAYS, NULL);
}

const char *ls_haul_ticket(ls_arena *a, const char *code, long number, bool from_stack) {
    const char *s = ls_arena_printf(a, "%s-%s%02ld", code, from_stack ? "S" : "", number);
    return ls_arena_printf(a, "%s-%c", s, ls_check_character(s));
}
