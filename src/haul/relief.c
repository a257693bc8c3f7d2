/* Litter without a field: which single limit keeps most of it out, found by splitting the middle
 * stage again without that limit. */
#include "relief.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_SHOWN = 3, MANY_PAIRS = 400, MOST_TRIES = 16, FEW_TRIES = 8 };

static void count(ls_haul_reliever *s) {
    const ls_split *m = s->p->rest_middle;
    for (size_t k = 0; k < m->drops_n; k++) {
        s->on_field[m->drops[k].field] += m->drops[k].tons;
        s->on_buyer[s->p->buyer[m->drops[k].field]] += m->drops[k].tons;
    }
    for (size_t k = 0; k < m->loads_n; k++)
        if (m->loads[k].buyer < s->p->buyers) s->loads[m->loads[k].buyer]++;
}

static double *uses(const ls_haul_planner *p, const double *rate) {
    double *use = LS_NEW(p->arena, double, p->lots * p->fields);
    for (size_t k = 0; k < p->lots * p->fields; k++) use[k] = rate[k] > 0 ? 1 / rate[k] : INFINITY;
    return use;
}

static ls_haul_reliever start(ls_haul_planner *p) {
    ls_haul_reliever s = {.p = p, .q = ls_haul_rest_problem(p)};
    bool many = p->lots * p->fields > MANY_PAIRS;
    s.q.tons = p->rest[1];
    s.q.stack_room = ls_haul_rest_room(p, 1);
    ls_haul_promise_stacked(p, 1, &p->firm);
    s.q.kept = p->firm.full, s.q.kept_part = p->firm.part, s.q.kept_out = p->firm.out;
    s.q.no_part = ls_haul_bound_parts(p, 1);
    s.q.start = p->rest_middle;
    s.q.tons_only = true;
    s.q.quick = many;
    s.q.progress.say = NULL; /* told of each limit instead */
    s.left = ls_haul_sum(p->rest_middle->unplaced, p->lots);
    s.most_tries = many ? FEW_TRIES : MOST_TRIES;
    s.on_field = LS_NEW(p->arena, double, p->fields);
    s.on_buyer = LS_NEW(p->arena, double, p->buyers);
    s.loads = LS_NEW(p->arena, long, p->buyers);
    s.free_use = uses(p, p->free_rate);
    s.season_use = uses(p, p->season_rate);
    count(&s);
    return s;
}

/* ---- which limits there are ---- */

static void add(const ls_haul_reliever *s, ls_haul_limits *all, ls_haul_limit one) {
    one.most = fmin(one.most, s->left);
    one.name = one.kind == LS_RELIEF_ORDER    ? s->p->farm->buyers.at[one.buyer].name.text
               : one.kind <= LS_RELIEF_SEASON ? s->q.names[one.field]
                                              : "";
    if (one.most >= s->q.smallest_drop) *LS_PUSH(s->p->arena, all) = one;
}

static void field_limits(const ls_haul_reliever *s, ls_haul_limits *all, size_t f) {
    const ls_haul_planner *p = s->p;
    size_t b = p->buyer[f];
    if (ls_haul_order_full(s, b)) return;
    /* A wider window would fall under a season's cap, whose rate is not reckoned here. */
    if (ls_haul_has_window(p->field[f]) && p->field[f]->window_caps.n == 0)
        add(s, all,
            (ls_haul_limit){.kind = LS_RELIEF_WINDOW,
                            .buyer = b,
                            .field = f,
                            .most = ls_haul_room_on(s, s->q.use, f, true)});
    if (LS_GIVEN(p->field[f]->most))
        add(s, all,
            (ls_haul_limit){.kind = LS_RELIEF_CAP,
                            .buyer = b,
                            .field = f,
                            .most = ls_haul_room_on(s, s->free_use, f, false)});
    if (p->field[f]->window_caps.n > 0)
        add(s, all,
            (ls_haul_limit){.kind = LS_RELIEF_SEASON,
                            .buyer = b,
                            .field = f,
                            .most = ls_haul_room_on(s, s->season_use, f, false)});
}

static ls_haul_limits limits_of(const ls_haul_reliever *s) {
    const ls_haul_planner *p = s->p;
    ls_haul_limits all = {0};
    for (size_t b = 0; b < p->buyers; b++) {
        double room = 0;
        for (size_t f = 0; f < p->fields; f++)
            room += p->buyer[f] == b ? fmax(0, ls_haul_room_on(s, s->q.use, f, false)) : 0;
        if (ls_haul_order_full(s, b))
            add(s, &all, (ls_haul_limit){.kind = LS_RELIEF_ORDER, .buyer = b, .most = room});
    }
    for (size_t f = 0; f < p->fields; f++) field_limits(s, &all, f);
    if (p->stack_tons > 0) add(s, &all, (ls_haul_limit){.kind = LS_RELIEF_STACK, .most = s->left});
    for (int k = 0; k < 2 && p->gone == NULL && p->bound.n == 0; k++)
        add(s, &all,
            (ls_haul_limit){
                .kind = LS_RELIEF_TRUCK, .factor = k == 0 ? 1.25 : 0.75, .most = s->left});
    return all;
}

/* ---- without one of them ---- */

static const bool *opened(const ls_haul_reliever *s, size_t f) {
    size_t pairs = s->p->lots * s->p->fields;
    bool *copy = ls_haul_copy(s, s->q.open, pairs * sizeof *copy);
    for (size_t i = 0; i < s->p->lots; i++)
        copy[ls_haul_lot_field(s->p, i, f)] =
            !ls_haul_is_stacked(s->p, i) && ls_haul_spreads_on(s->p, s->p->kind_of[i], f);
    return copy;
}

static const double *uncapped(const ls_haul_reliever *s, const double *use, size_t f) {
    size_t pairs = s->p->lots * s->p->fields;
    double *copy = ls_haul_copy(s, s->q.use, pairs * sizeof *copy);
    for (size_t i = 0; i < s->p->lots; i++)
        copy[ls_haul_lot_field(s->p, i, f)] = use[ls_haul_lot_field(s->p, i, f)];
    return copy;
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
    case LS_RELIEF_ORDER:
        q.most = ls_haul_with_tons(s, one->buyer, INFINITY);
        q.most_loads = ls_haul_with_loads(s, one->buyer, LONG_MAX);
        break;
    case LS_RELIEF_WINDOW: q.open = opened(s, one->field); break;
    case LS_RELIEF_CAP: q.use = uncapped(s, s->free_use, one->field); break;
    case LS_RELIEF_SEASON: q.use = uncapped(s, s->season_use, one->field); break;
    case LS_RELIEF_STACK: q.stack_room += s->left + (double)s->p->e->n * s->p->pile_tons; break;
    case LS_RELIEF_TRUCK: other_trucks(s, &q, one->factor); break;
    }
    return q;
}

static int compare(const void *pa, const void *pb) {
    const ls_haul_limit *a = pa, *b = pb;
    if (a->most != b->most) return a->most > b->most ? -1 : 1;
    if (a->kind != b->kind) return a->kind < b->kind ? -1 : 1;
    return a->factor != b->factor ? (a->factor > b->factor ? -1 : 1) : strcmp(a->name, b->name);
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
        progress->say(progress->to,
                      ls_arena_printf(s->p->arena, "litter with no field, limit %zu of %zu", k, n));
}

/* Split without each limit, the most hopeful first, until the others cannot be among the best. */
static size_t try_all(ls_haul_reliever *s, ls_haul_limits *all) {
    size_t n = 0;
    if (all->n > 0) qsort(all->at, all->n, sizeof *all->at, compare);
    for (; n < all->n && n < (size_t)s->most_tries; n++) {
        if (n >= MOST_SHOWN && all->at[MOST_SHOWN - 1].placed >= all->at[n].most) break;
        ls_haul_limit one = all->at[n];
        tell(s, n + 1, all->n);
        ls_split_problem *q = LS_NEW(s->p->arena, ls_split_problem, 1);
        *q = without(s, &one);
        one.answer = ls_split_solve(s->p->arena, q);
        one.placed = ls_haul_placed_by(s, one.answer);
        size_t k = n;
        for (; k > 0 && compare_placed(&one, &all->at[k - 1]) < 0; k--) all->at[k] = all->at[k - 1];
        all->at[k] = one;
    }
    return n;
}

void ls_haul_relieve(ls_haul_planner *p) {
    ls_haul_reliever s = start(p);
    ls_haul_list_defaults(&s);
    if (s.left < s.q.smallest_drop) return;
    ls_haul_limits all = limits_of(&s);
    size_t tried = try_all(&s, &all);
    for (size_t k = 0; k < tried && k < MOST_SHOWN; k++)
        if (all.at[k].placed >= s.q.smallest_drop) ls_haul_show_relief(&s, &all.at[k], k + 1);
}
