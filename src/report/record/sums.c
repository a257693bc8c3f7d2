#include "sums.h"

#include <stdlib.h>
#include <string.h>

/* ---- lots by code ---- */

typedef struct {
    const char *code, *name;
} coded;
typedef LS_LIST(coded) coded_list;

static coded_list lots_of(const ls_view *v) {
    coded_list list = {0};
    for (size_t i = 0; i < v->farm->houses.n; i++) {
        const ls_house *house = &v->farm->houses.at[i];
        if (house->sides.n == 0)
            *LS_PUSH(v->arena, &list) =
                (coded){ls_lot_code(v->arena, house, NULL), house->name.text};
        for (size_t k = 0; k < house->sides.n; k++) {
            const ls_side *side = &house->sides.at[k];
            *LS_PUSH(v->arena, &list) =
                (coded){ls_lot_code(v->arena, house, side),
                        ls_arena_printf(v->arena, "%s/%s", house->name.text, side->name.text)};
        }
    }
    return list;
}

/* The index of the code; n if it is not on the list. */
static size_t index_of(const coded_list *lots, const char *code) {
    size_t i = 0;
    while (i < lots->n && strcmp(lots->at[i].code, code) != 0)
        i++;
    return i;
}

static void find_entries(const ls_view *v, const ls_log *log, ls_report_haul_sums *s) {
    coded_list lots = lots_of(v);
    size_t n = log->entries.n;
    ls_report_hauled *all = LS_NEW(v->arena, ls_report_hauled, n);
    ls_report_hauled *standing = LS_NEW(v->arena, ls_report_hauled, n);
    for (size_t i = 0; i < n; i++) {
        const ls_log_entry *e = &log->entries.at[i];
        size_t k = index_of(&lots, e->ticket.code);
        ls_line tons = ls_leaf_exact(
            v->sheet, ls_words(v->sheet, "haul-log.entry-%ld.tons", e->number),
            e->weighed ? "load weighed over a scale" : "load judged by eye", "ton", e->tons,
            LS_BY_LOG, ls_words(v->sheet, "entry %ld of %s", e->number, log->path));
        all[i] = (ls_report_hauled){e, k < lots.n ? lots.at[k].name : e->ticket.code, k, tons};
        if (ls_log_stands(e))
            standing[s->n++] = all[i];
    }
    s->entries = all;
    s->hauled = standing;
}

/* ---- sums ---- */

static int in_log_order(const ls_log_entry *a, const ls_log_entry *b) {
    if (a->ticket.from_stack != b->ticket.from_stack)
        return a->ticket.from_stack ? 1 : -1;
    return a->number < b->number ? -1 : a->number > b->number;
}

static int by_lot(const void *left, const void *right) {
    const ls_report_hauled *a = left, *b = right;
    if (a->order != b->order)
        return a->order < b->order ? -1 : 1;
    int order = strcmp(a->lot, b->lot);
    return order != 0 ? order : in_log_order(a->entry, b->entry);
}

static int by_day(const void *left, const void *right) {
    const ls_report_hauled *a = left, *b = right;
    if (a->entry->when.day != b->entry->when.day)
        return a->entry->when.day < b->entry->when.day ? -1 : 1;
    return in_log_order(a->entry, b->entry);
}

static int by_origin(const void *left, const void *right) {
    const ls_report_hauled *a = left, *b = right;
    return in_log_order(a->entry, b->entry);
}

typedef int (*order_of)(const void *left, const void *right);

static const ls_report_hauled *sorted(const ls_view *v, const ls_report_haul_sums *s,
                                      order_of order) {
    ls_report_hauled *copy = LS_NEW(v->arena, ls_report_hauled, s->n);
    if (s->n > 0) {
        memcpy(copy, s->hauled, s->n * sizeof *copy);
        qsort(copy, s->n, sizeof *copy, order);
    }
    return copy;
}

static bool together(const ls_report_hauled *a, const ls_report_hauled *b, order_of order) {
    if (a->entry->ticket.from_stack != b->entry->ticket.from_stack)
        return false;
    if (order == by_lot)
        return a->order == b->order && strcmp(a->lot, b->lot) == 0;
    return order != by_day || a->entry->when.day == b->entry->when.day;
}

/* The length of the run of loads that belong together at the head of n. */
static size_t run_of(const ls_report_hauled *h, size_t n, order_of order) {
    size_t run = 1;
    while (run < n && together(h, h + run, order))
        run++;
    return run;
}

static ls_line total(const ls_view *v, const char *key, const char *label,
                     const ls_report_hauled *h, size_t n) {
    ls_line *parts = LS_NEW(v->arena, ls_line, n);
    for (size_t i = 0; i < n; i++)
        parts[i] = h[i].tons;
    return ls_sum(v->sheet, key, label, "ton", parts, n);
}

static const char *key_of(const ls_view *v, const ls_report_hauled *h, order_of order) {
    const char *end = h->entry->ticket.from_stack ? ".from-stack.tons" : ".tons";
    if (order == by_day)
        return ls_words(v->sheet, "haul-log.day-%s%s", ls_date_iso(v->arena, h->entry->when.day),
                        end);
    return ls_words(v->sheet, "haul-log.lot-%s%s", h->entry->ticket.code, end);
}

static void sum_runs(const ls_view *v, ls_report_haul_sums *s, order_of order) {
    const ls_report_hauled *h = sorted(v, s, order);
    bool lots = order == by_lot;
    for (size_t i = 0, n; i < s->n; i += n) {
        n = run_of(h + i, s->n - i, order);
        const ls_report_hauled *first = h + i;
        ls_line tons = total(v, key_of(v, first, order),
                             lots ? "hauled of the lot" : "hauled on the day", first, n);
        ls_report_haul_sum sum = {lots ? first->lot : NULL,
                                  lots ? LS_NO_DATE : first->entry->when.day,
                                  first->entry->ticket.from_stack, n, tons};
        if (lots)
            *LS_PUSH(v->arena, &s->lots) = sum;
        else
            *LS_PUSH(v->arena, &s->days) = sum;
    }
}

static void sum_all(const ls_view *v, ls_report_haul_sums *s) {
    const ls_report_hauled *h = sorted(v, s, by_origin);
    s->houses = s->stack = LS_NO_LINE;
    while (s->house_loads < s->n && !h[s->house_loads].entry->ticket.from_stack)
        s->house_loads++;
    s->stack_loads = s->n - s->house_loads;
    if (s->house_loads > 0)
        s->houses = total(v, "haul-log.houses.tons", "hauled out of the houses", h, s->house_loads);
    if (s->stack_loads > 0)
        s->stack = total(v, "haul-log.from-stack.tons", "hauled out of the stack",
                         h + s->house_loads, s->stack_loads);
}

const ls_report_haul_sums *ls_report_haul(const ls_view *v, const ls_log *log) {
    ls_report_haul_sums *s = LS_NEW(v->arena, ls_report_haul_sums, 1);
    find_entries(v, log, s);
    sum_runs(v, s, by_lot);
    sum_runs(v, s, by_day);
    sum_all(v, s);
    return s;
}
