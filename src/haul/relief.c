/* Litter without a field: which single limit keeps most of it out, and what each limit of the
 * program's own does, found by splitting the middle stage again without that limit. */
#include "relief.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_SHOWN = 3, MANY_PAIRS = 400, MOST_TRIES = 16, FEW_TRIES = 8 };

static ls_haul_reliever start(ls_haul_planner *p) {
    ls_haul_reliever s = {.p = p, .q = ls_haul_rest_problem(p)};
    s.q.tons = p->rest[1];
    s.q.stack_room = ls_haul_rest_room(p, 1);
    ls_haul_promise_stacked(p, 1, &p->firm);
    s.q.kept = p->firm.full, s.q.kept_part = p->firm.part, s.q.kept_out = p->firm.out;
    s.q.no_part = ls_haul_bound_parts(p, 1);
    s.q.start = p->rest_middle;
    s.q.tons_only = true;
    s.q.quick = p->lots * p->fields > MANY_PAIRS;
    s.q.progress.say = NULL; /* told of each limit instead */
    s.left = ls_haul_sum(p->rest_middle->unplaced, p->lots);
    s.on_field = LS_NEW(p->arena, double, p->fields);
    s.on_buyer = LS_NEW(p->arena, double, p->buyers);
    s.loads = LS_NEW(p->arena, long, p->buyers);
    ls_haul_count(p, p->rest_middle, s.on_buyer, s.loads);
    LS_EACH_OF (const ls_split_drop, d, p->rest_middle->drops, p->rest_middle->drops_n) s.on_field[d->field] += d->tons;
    return s;
}

/* ---- the problem without a limit ---- */

static const bool *opened(const ls_haul_reliever *s, size_t f) {
    const ls_haul_planner *p = s->p;
    bool *open = ls_haul_copy(s, s->q.open, p->lots * p->fields * sizeof *open);
    for (size_t i = 0; i < p->lots; i++)
        open[ls_haul_lot_field(p, i, f)] = !ls_haul_is_stacked(p, i) && ls_haul_spreads_on(p, p->kind_of[i], f);
    return open;
}

/* At other rates on a field, ton/ac. */
static const double *at_rates(const ls_haul_reliever *s, const double *rate, size_t f) {
    double *use = ls_haul_copy(s, s->q.use, s->p->lots * s->p->fields * sizeof *use);
    for (size_t at = f; at < s->p->lots * s->p->fields; at += s->p->fields)
        use[at] = rate[at] > 0 ? 1 / rate[at] : INFINITY;
    return use;
}

/* The field as the file might have it: rated low, with a limit that no other reaches, or set for usual litter. */
static ls_field as_it_might_be(const ls_haul_planner *p, ls_default_kind kind, const ls_field *f) {
    ls_field as = *f;
    ls_phosphorus *rated = LS_NEW(p->arena, ls_phosphorus, 1);
    double *high = LS_NEW(p->arena, double, 1);
    switch (kind) {
    case LS_DEFAULT_PHOSPHORUS:
        if (f->phosphorus != NULL) *rated = *f->phosphorus;
        rated->rating.is = LS_RATING_LOW;
        as.phosphorus = rated;
        break;
    case LS_DEFAULT_RATE:
        *high = 1000 * ls_unit_of("ton/ac").factor;
        as.most = (ls_quantity){.form = LS_PLAIN,
                                .value = *high,
                                .readings = high,
                                .n = 1,
                                .unit = ls_unit_of("ton/ac"),
                                .text = "1000 ton/ac",
                                .at = f->area.at};
        break;
    case LS_DEFAULT_RICH: as.without_lab.is = LS_EXPECTED; break;
    }
    as.slug = ls_arena_printf(p->arena, "%s.without-default", f->slug); /* keys of its own */
    return as;
}

static const double *without_default(const ls_haul_reliever *s, ls_default_kind kind, size_t f) {
    ls_haul_planner *p = s->p;
    ls_field as = as_it_might_be(p, kind, p->field[f]);
    size_t before = ls_worksheet_lines(p->w);
    const ls_field_rates *r = ls_agronomy_field(p->agronomy, &p->farm->buyers.at[p->buyer[f]], &as);
    double *rate = LS_NEW(p->arena, double, p->lots * p->fields);
    for (size_t i = 0; r != NULL && i < p->lots; i++)
        rate[ls_haul_lot_field(p, i, f)] =
            ls_line_shown(p->w, ls_field_rate(r, p->lot_of[i], ls_haul_kind_for(p, i, f))->rate);
    ls_worksheet_cut(p->w, before);
    return r == NULL ? s->q.use : at_rates(s, rate, f);
}

/* Other trucks: what was promised in loads of these holds no more. */
static void other_trucks(const ls_haul_reliever *s, ls_split_problem *q, double factor) {
    size_t n = s->p->lots;
    double *payload = LS_NEW(s->p->arena, double, n), *out = LS_NEW(s->p->arena, double, n);
    for (size_t i = 0; i < n; i++) {
        payload[i] = floor(s->p->payload[i] * factor * 100 + 1e-6) / 100;
        out[i] = floor(s->p->payload_out[i] * factor * 100 + 1e-6) / 100;
    }
    q->payload = payload;
    q->payload_out = out;
    q->kept = NULL, q->kept_part = q->kept_out = NULL;
    q->start = NULL;
}

static ls_split_problem without(const ls_haul_reliever *s, const ls_haul_limit *one) {
    ls_split_problem q = s->q;
    switch (one->kind) {
    case LS_RELIEF_ORDER: return ls_haul_with_order(s, one->buyer, INFINITY, LONG_MAX);
    case LS_RELIEF_WINDOW: q.open = opened(s, one->field); break;
    case LS_RELIEF_CAP:
    case LS_RELIEF_SEASON: q.use = one->use; break;
    case LS_RELIEF_STACK: q.stack_room += s->left + (double)s->p->e->n * s->p->pile_tons; break;
    case LS_RELIEF_TRUCK: other_trucks(s, &q, one->factor); break;
    }
    return q;
}

/* ---- which limits there are ---- */

static bool order_full(const ls_haul_reliever *s, size_t b) {
    return ls_haul_order_full(&s->q, b, s->on_buyer[b], s->loads[b]);
}

/* Tons that fit on a field at these uses, of lots that may go there (anytime: that could, were it open). */
static double room_on(const ls_haul_reliever *s, const double *use, size_t f, bool anytime) {
    double most = 0;
    for (size_t i = 0; i < s->p->lots; i++) {
        size_t at = ls_haul_lot_field(s->p, i, f);
        bool may = anytime || s->q.open[at] || (s->q.later != NULL && s->q.later[at]);
        if (may && isfinite(use[at])) most = fmax(most, s->q.capacity[f] / use[at]);
    }
    return most - s->on_field[f];
}

static void add(const ls_haul_reliever *s, ls_haul_limits *all, ls_haul_limit one) {
    one.most = fmin(one.most, s->left);
    one.place = all->n;
    one.name = one.kind == LS_RELIEF_ORDER    ? s->p->farm->buyers.at[one.buyer].name.text
               : one.kind <= LS_RELIEF_SEASON ? s->q.names[one.field]
                                              : "";
    if (one.most >= s->q.smallest_drop) *LS_PUSH(s->p->arena, all) = one;
}

static void field_limits(const ls_haul_reliever *s, ls_haul_limits *all, size_t f) {
    const ls_haul_planner *p = s->p;
    ls_haul_limit one = {.buyer = p->buyer[f], .field = f};
    if (order_full(s, one.buyer)) return;
    /* A wider window would fall under a season's cap, whose rate is not reckoned here. */
    one.kind = LS_RELIEF_WINDOW;
    one.most = room_on(s, s->q.use, f, true);
    if (ls_haul_has_window(p->field[f]) && p->field[f]->window_caps.n == 0) add(s, all, one);
    for (int season = 0; season < 2; season++) {
        if (season ? p->field[f]->window_caps.n == 0 : !LS_GIVEN(p->field[f]->most)) continue;
        one.kind = season ? LS_RELIEF_SEASON : LS_RELIEF_CAP;
        one.use = at_rates(s, season ? p->season_rate : p->free_rate, f);
        one.most = room_on(s, one.use, f, false);
        add(s, all, one);
    }
}

static ls_haul_limits limits_of(const ls_haul_reliever *s) {
    const ls_haul_planner *p = s->p;
    ls_haul_limits all = {0};
    for (size_t b = 0; b < p->buyers; b++) {
        double room = 0;
        for (size_t f = 0; f < p->fields; f++) room += p->buyer[f] == b ? fmax(0, room_on(s, s->q.use, f, false)) : 0;
        if (order_full(s, b)) add(s, &all, (ls_haul_limit){.kind = LS_RELIEF_ORDER, .buyer = b, .most = room});
    }
    for (size_t f = 0; f < p->fields; f++) field_limits(s, &all, f);
    ls_haul_limit other = {.kind = LS_RELIEF_STACK, .most = s->left};
    if (p->stack_tons > 0) add(s, &all, other);
    other.kind = LS_RELIEF_TRUCK;
    for (int k = 0; k < 2 && p->gone == NULL && p->bound.n == 0; k++) {
        other.factor = k == 0 ? 1.25 : 0.75;
        add(s, &all, other);
    }
    return all;
}

static ls_haul_limits defaults_of(const ls_haul_reliever *s) {
    const ls_haul_planner *p = s->p;
    bool any = s->left >= s->q.smallest_drop;
    ls_haul_limits all = {0};
    for (size_t f = 0; f < p->fields; f++)
        for (int kind = 0; kind <= LS_DEFAULT_RICH; kind++) {
            if (!(p->defaults[f] >> kind & 1u)) continue;
            ls_haul_limit one = {
                .kind = LS_RELIEF_CAP, .held = (ls_default_kind)kind, .field = f, .name = "", .place = all.n};
            if (any && !order_full(s, p->buyer[f])) {
                one.use = without_default(s, one.held, f);
                one.most = fmin(s->left, room_on(s, one.use, f, false));
            }
            *LS_PUSH(p->arena, &all) = one;
        }
    return all;
}

/* ---- tried one by one ---- */

static int compare(const void *pa, const void *pb) {
    const ls_haul_limit *a = pa, *b = pb;
    if (a->most != b->most) return a->most > b->most ? -1 : 1;
    if (a->kind != b->kind) return a->kind < b->kind ? -1 : 1;
    if (a->factor != b->factor) return a->factor > b->factor ? -1 : 1;
    int by_name = strcmp(a->name, b->name);
    return by_name != 0 ? by_name : a->place < b->place ? -1 : 1;
}

/* Best first; equal ones in the order of kinds. */
static int compare_placed(const void *pa, const void *pb) {
    const ls_haul_limit *a = pa, *b = pb;
    if (fabs(a->placed - b->placed) > 0.005) return a->placed > b->placed ? -1 : 1;
    return a->kind != b->kind ? (a->kind < b->kind ? -1 : 1) : compare(pa, pb);
}

static void tell(const ls_haul_reliever *s, size_t k, size_t n) {
    const ls_progress *progress = &s->p->progress;
    if (progress->say != NULL)
        progress->say(progress->to, ls_arena_printf(s->p->arena, "litter with no field, limit %zu of %zu", k, n));
}

/* Split without each limit, the most hopeful first, so many at most (of the file's: until the
 * others cannot be among the best). Best first then. */
static void try_all(const ls_haul_reliever *s, ls_haul_limits *all, size_t tries, bool of_file) {
    if (all->n > 0) qsort(all->at, all->n, sizeof *all->at, compare);
    for (size_t n = 0; n < all->n; n++) {
        ls_haul_limit one = all->at[n];
        if (of_file && n >= MOST_SHOWN && all->at[MOST_SHOWN - 1].placed >= one.most) tries = 0;
        one.placed = one.most < s->q.smallest_drop ? 0 : -1;
        if (one.placed < 0 && n < tries) {
            if (of_file) tell(s, n + 1, all->n);
            ls_haul_split_again(s, without(s, &one), &one);
        }
        size_t k = n;
        for (; k > 0 && compare_placed(&one, &all->at[k - 1]) < 0; k--) all->at[k] = all->at[k - 1];
        all->at[k] = one;
    }
}

void ls_haul_relieve(ls_haul_planner *p) {
    ls_haul_reliever s = start(p);
    size_t tries = s.q.quick ? FEW_TRIES : MOST_TRIES;
    ls_haul_limits defaults = defaults_of(&s), all = {0};
    try_all(&s, &defaults, tries / 4, false);
    for (size_t k = 0; k < defaults.n; k++) ls_haul_show_default(&s, &defaults.at[k], k + 1);
    if (s.left >= s.q.smallest_drop) all = limits_of(&s);
    try_all(&s, &all, tries, true);
    for (size_t k = 0; k < all.n && k < MOST_SHOWN; k++)
        if (all.at[k].placed >= s.q.smallest_drop) ls_haul_show_relief(&s, &all.at[k], k + 1);
}
