/* The given problem in whole units, in the order of names. */
#include "split.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_SEARCHED = 2000, MOST_QUICK = 400 }; /* pairs of a lot and a field */

int64_t ls_haul_down(double v, double scale) {
    double whole = floor(v * scale + 1e-6);
    if (!(whole > 0)) return 0;
    return whole < 1e18 ? (int64_t)whole : LS_HAUL_PLENTY;
}

int64_t ls_haul_cover(double use, int64_t tons) {
    double covered = ceil(use * (double)tons * 1e4 - 1e-3);
    if (!(covered > 0)) return 0;
    return covered < 1e18 ? (int64_t)covered : LS_HAUL_PLENTY;
}

int64_t ls_haul_fit(double use, int64_t capacity) {
    if (capacity <= 0) return use > 0 ? 0 : LS_HAUL_PLENTY;
    if (!(use > 0)) return LS_HAUL_PLENTY;
    int64_t tons = ls_haul_down((double)capacity / use, 1e-4);
    while (tons > 0 && ls_haul_cover(use, tons) > capacity) tons--;
    return tons;
}

/* ---- order ---- */

typedef struct {
    const char *buyer_name, *name;
    size_t buyer, field;
} place;

static int compare_names(const char *a, const char *b) {
    if (a == NULL || b == NULL) return (a != NULL) - (b != NULL);
    return strcmp(a, b);
}

static int compare_numbers(size_t a, size_t b) { return (a > b) - (a < b); }

static int compare_places(const void *pa, const void *pb) {
    const place *a = pa, *b = pb;
    int by = compare_names(a->buyer_name, b->buyer_name);
    if (by == 0) by = compare_numbers(a->buyer, b->buyer);
    if (by == 0) by = compare_names(a->name, b->name);
    return by != 0 ? by : compare_numbers(a->field, b->field);
}

/* A buyer goes by the least name of its fields. */
static const char *buyer_name(const ls_split_problem *p, size_t buyer) {
    const char *least = NULL;
    for (size_t f = 0; p->names != NULL && f < p->fields; f++)
        if (p->buyer[f] == buyer && (least == NULL || strcmp(p->names[f], least) < 0)) least = p->names[f];
    return least;
}

static void order(ls_haul_task *t) {
    const ls_split_problem *p = t->given;
    const char **names = LS_NEW(t->arena, const char *, p->buyers);
    for (size_t b = 0; b < p->buyers; b++) names[b] = buyer_name(p, b);
    place *at = LS_NEW(t->arena, place, p->fields);
    for (size_t f = 0; f < p->fields; f++)
        at[f] = (place){names[p->buyer[f]], p->names == NULL ? NULL : p->names[f], p->buyer[f], f};
    qsort(at, p->fields, sizeof *at, compare_places);
    bool *seen = LS_NEW(t->arena, bool, p->buyers);
    size_t n = 0;
    for (size_t f = 0; f < p->fields; f++) {
        if (!seen[at[f].buyer]) {
            seen[at[f].buyer] = true;
            t->first[n] = f;
            t->given_buyer[n++] = at[f].buyer;
        }
        t->given_field[f] = at[f].field;
        t->buyer[f] = n - 1;
    }
    for (size_t b = 0; b < p->buyers; b++) /* buyers without a field come last */
        if (!seen[b]) {
            t->first[n] = p->fields;
            t->given_buyer[n++] = b;
        }
    t->first[n] = p->fields;
}

/* ---- figures ---- */

static size_t pile_of(const ls_split_problem *p, size_t lot) {
    size_t i = 0;
    while (i < lot && (p->pile_of == NULL || p->pile_of[i] != p->pile_of[lot])) i++;
    return i;
}

static void lots_of(ls_haul_task *t) {
    const ls_split_problem *p = t->given;
    for (size_t i = 0; i < t->lots; i++) {
        t->tons[i] = ls_haul_down(p->tons[i], 100);
        t->payload[i] = p->whole_loads ? t->tons[i] : ls_haul_down(p->payload[i], 100);
        t->payload_out[i] = p->payload_out == NULL ? t->payload[i] : ls_haul_down(p->payload_out[i], 100);
        t->pile_of[i] = pile_of(p, i);
        t->pile[i] = p->pile == NULL ? 0 : (int64_t)ceil(p->pile[i] * 100 - 1e-6);
    }
    int64_t drop = ls_haul_down(p->smallest_drop, 100);
    t->drop = p->whole_loads || drop < 1 ? 1 : drop;
    t->room = p->later == NULL || p->whole_loads ? 0 : ls_haul_down(p->stack_room, 100);
    t->stack = t->room > 0;
}

static void buyers_of(ls_haul_task *t) {
    const ls_split_problem *p = t->given;
    for (size_t b = 0; b < t->buyers; b++) {
        size_t g = t->given_buyer[b];
        t->trip_cost[b] = p->trip_cost == NULL ? 0 : p->trip_cost[g];
        t->least[b] = p->least == NULL ? 0 : ls_haul_down(p->least[g], 100);
        t->most[b] = p->most == NULL ? LS_HAUL_PLENTY : ls_haul_down(p->most[g], 100);
        t->least_loads[b] = p->least_loads == NULL ? 0 : p->least_loads[g];
        t->most_loads[b] = p->most_loads == NULL ? LONG_MAX : p->most_loads[g];
    }
}

static void kept_of(ls_haul_task *t) {
    const ls_split_problem *p = t->given;
    for (size_t i = 0; i < t->lots; i++)
        for (size_t b = 0; b <= t->buyers; b++) {
            size_t from = i * (t->buyers + 1) + (b < t->buyers ? t->given_buyer[b] : t->buyers);
            size_t to = ls_haul_task_to(t, i, b);
            t->kept[to] = p->kept == NULL ? 0 : p->kept[from];
            t->kept_part[to] = p->kept_part == NULL ? 0 : ls_haul_down(p->kept_part[from], 100);
            if (p->kept_out != NULL && b < t->buyers)
                t->kept_out[i * t->buyers + b] = ls_haul_down(p->kept_out[i * t->buyers + t->given_buyer[b]], 100);
        }
}

static void pair_of(ls_haul_task *t, size_t lot, size_t field) {
    const ls_split_problem *p = t->given;
    size_t from = lot * t->fields + t->given_field[field], to = ls_haul_task_field(t, lot, field);
    t->use[to] = p->use[from];
    t->value[to] = p->value == NULL ? 0 : p->value[from];
    t->later_value[to] = p->later_value == NULL ? 0 : p->later_value[from];
    bool may = isfinite(p->use[from]) && t->payload[lot] >= t->drop;
    int64_t alone = may ? ls_haul_fit(t->use[to], t->capacity[field]) : 0;
    if (alone > t->tons[lot]) alone = t->tons[lot];
    may = may && alone >= (p->whole_loads ? t->tons[lot] : t->drop) && alone > 0;
    t->alone[to] = may ? alone : 0;
    t->open[to] = may && p->open[from];
    t->later[to] = may && t->stack && p->later[from];
}

/* Which lots use a field alike, and whether all do that may go there. */
static void rates_of(ls_haul_task *t, size_t field) {
    size_t some = t->lots;
    t->even[field] = true;
    for (size_t i = 0; i < t->lots; i++) {
        size_t at = ls_haul_task_field(t, i, field);
        size_t j = 0;
        while (j < i && t->use[ls_haul_task_field(t, j, field)] != t->use[at]) j++;
        t->alike[at] = j;
        if (!t->open[at] && !t->later[at]) continue;
        if (some < t->lots && t->use[ls_haul_task_field(t, some, field)] != t->use[at]) t->even[field] = false;
        if (some == t->lots) some = i;
    }
    t->even_tons[field] =
        some == t->lots ? 0 : ls_haul_fit(t->use[ls_haul_task_field(t, some, field)], t->capacity[field]);
}

static void at_most_of(ls_haul_task *t, size_t lot) {
    for (size_t b = 0; b < t->buyers; b++) {
        int64_t sum = 0;
        for (size_t f = t->first[b]; f < t->first[b + 1]; f++)
            if (t->open[ls_haul_task_field(t, lot, f)]) sum += t->alone[ls_haul_task_field(t, lot, f)];
        if (sum > t->tons[lot]) sum = t->tons[lot];
        t->at_most[lot * t->buyers + b] = sum < t->most[b] ? sum : t->most[b];
    }
}

static ls_haul_task *task_alloc(ls_arena *a, const ls_split_problem *p) {
    size_t lf = p->lots * p->fields, to = p->lots * (p->buyers + 1);
    ls_haul_task *t = LS_NEW(a, ls_haul_task, 1);
    *t = (ls_haul_task){.arena = a, .given = p, .lots = p->lots, .fields = p->fields, .buyers = p->buyers};
    t->given_field = LS_NEW(a, size_t, p->fields);
    t->given_buyer = LS_NEW(a, size_t, p->buyers);
    t->first = LS_NEW(a, size_t, p->buyers + 1);
    t->buyer = LS_NEW(a, size_t, p->fields);
    t->tons = LS_NEW(a, int64_t, p->lots);
    t->payload = LS_NEW(a, int64_t, p->lots);
    t->payload_out = LS_NEW(a, int64_t, p->lots);
    t->pile_of = LS_NEW(a, size_t, p->lots);
    t->pile = LS_NEW(a, int64_t, p->lots);
    t->use = LS_NEW(a, double, lf);
    t->alike = LS_NEW(a, size_t, lf);
    t->open = LS_NEW(a, bool, lf);
    t->later = LS_NEW(a, bool, lf);
    t->alone = LS_NEW(a, int64_t, lf);
    t->value = LS_NEW(a, double, lf);
    t->later_value = LS_NEW(a, double, lf);
    t->trip_cost = LS_NEW(a, double, p->buyers);
    t->capacity = LS_NEW(a, int64_t, p->fields);
    t->even = LS_NEW(a, bool, p->fields);
    t->even_tons = LS_NEW(a, int64_t, p->fields);
    t->least = LS_NEW(a, int64_t, p->buyers);
    t->most = LS_NEW(a, int64_t, p->buyers);
    t->least_loads = LS_NEW(a, long, p->buyers);
    t->most_loads = LS_NEW(a, long, p->buyers);
    t->at_most = LS_NEW(a, int64_t, p->lots * p->buyers);
    t->kept = LS_NEW(a, long, to);
    t->kept_part = LS_NEW(a, int64_t, to);
    t->kept_out = LS_NEW(a, int64_t, p->lots * p->buyers);
    return t;
}

ls_haul_task *ls_haul_task_new(ls_arena *a, const ls_split_problem *p) {
    ls_haul_task *t = task_alloc(a, p);
    order(t);
    lots_of(t);
    buyers_of(t);
    kept_of(t);
    for (size_t f = 0; f < t->fields; f++) {
        t->capacity[f] = ls_haul_down(p->capacity[t->given_field[f]], 1e6);
        for (size_t i = 0; i < t->lots; i++) pair_of(t, i, f);
        rates_of(t, f);
    }
    for (size_t i = 0; i < t->lots; i++) at_most_of(t, i);
    t->priced = !p->whole_loads && t->lots * t->fields > (size_t)(p->quick ? MOST_QUICK : MOST_SEARCHED);
    return t;
}
