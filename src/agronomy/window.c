/* Caps that hold on some days of the year only, and the days of the field outside them. */
#include "room.h"

#include <stdlib.h>

/* A field without a window may be spread on any day. */
static bool applies(const ls_field *f, const ls_window_cap *cap) {
    if (cap->between.days.from == LS_NO_DATE) return false;
    return f->allowed.from == LS_NO_DATE ||
           (cap->between.days.from <= f->allowed.to && f->allowed.from <= cap->between.days.to);
}

bool ls_agronomy_counts_total(const ls_field *f) {
    LS_EACH (const ls_window_cap, cap, f->window_caps)
        if (LS_GIVEN(cap->total_nitrogen) && applies(f, cap)) return true;
    return false;
}

static ls_line figure(ls_agronomy_plot *p, const ls_window_cap *cap, size_t number) {
    ls_arena *a = p->g->arena;
    const char *days = ls_printf(p->w, "%s to %s", ls_date_words(a, cap->between.days.from, 0),
                                 ls_date_words(a, cap->between.days.to, 0));
    ls_worksheet *w = ls_part(p->w, days, "window-cap-%zu", number);
    if (LS_GIVEN(cap->most)) return ls_leaf_given(w, "", "most litter, %s", "ton/ac", &cap->most);
    return LS_GIVEN(cap->total_nitrogen)
               ? ls_leaf_given(w, "", "most total N, %s", "lb/ac", &cap->total_nitrogen)
               : ls_leaf_given(w, "", "most plant-available N, %s", "lb/ac", &cap->available_nitrogen);
}

/* ---- the days outside ---- */

static int by_first_day(const void *left, const void *right) {
    const ls_window *a = left, *b = right;
    return a->from != b->from ? (a->from < b->from ? -1 : 1) : (a->to > b->to) - (a->to < b->to);
}

/* Days of the field's window that none of the n caps, sorted by their first day, holds on. */
static void find_outside(ls_agronomy_plot *p, const ls_window *caps, size_t n) {
    ls_date from = p->field->allowed.from, to = p->field->allowed.to;
    for (size_t i = 0; i < n && from <= to; i++) {
        if (caps[i].from > from) *LS_PUSH(p->g->arena, &p->out->outside) = (ls_window){from, caps[i].from - 1};
        if (caps[i].to + 1 > from) from = caps[i].to + 1;
    }
    if (from <= to) *LS_PUSH(p->g->arena, &p->out->outside) = (ls_window){from, to};
}

void ls_agronomy_windows(ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    size_t n = f->window_caps.n, held = 0;
    ls_window *days = LS_NEW(p->g->arena, ls_window, n);
    p->out->caps_n = n;
    p->out->caps = LS_NEW(p->g->arena, ls_field_cap, n);
    for (size_t i = 0; i < n; i++) {
        const ls_window_cap *cap = &f->window_caps.at[i];
        p->out->caps[i] = (ls_field_cap){cap, applies(f, cap), figure(p, cap, i + 1)};
        if (p->out->caps[i].applies) days[held++] = cap->between.days;
    }
    if (held == 0 || f->allowed.from == LS_NO_DATE) return;
    qsort(days, held, sizeof *days, by_first_day);
    find_outside(p, days, held);
}
