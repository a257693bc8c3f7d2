/* Litter without a home: which single limit keeps most of it out, found by splitting the middle
 * stage again without that limit. */
#include "plan.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_SHOWN = 3, MANY_PAIRS = 400, MOST_TRIES = 16, FEW_TRIES = 8, MOST_HALVINGS = 6 };

/* A limit that might be lifted. */
typedef struct {
    ls_relief_kind kind;
    size_t buyer, field; /* where that matters, else 0 */
    double factor;       /* LS_RELIEF_TRUCK: of the present load */
    const char *name;    /* ties go to the lesser */
    double most;         /* tons it could place at the very best */
    double placed;       /* tons that the split does place */
    const ls_split *answer;
} limit;
typedef LS_LIST(limit) limits;

typedef struct {
    ls_haul_planner *p;
    ls_split_problem q; /* of the middle stage */
    double left;        /* tons without a home now */
    double *on_field, *on_buyer;
    long *loads; /* [buyer] */
    double *free_use;
    int tries, most_tries;
} reliever;

static double sum(const double *v, size_t n) {
    double all = 0;
    for (size_t i = 0; i < n; i++)
        all += v[i];
    return all;
}

static double largest(const double *v, size_t n) {
    double most = 0;
    for (size_t i = 0; i < n; i++)
        most = fmax(most, v[i]);
    return most;
}

static void count(reliever *s) {
    const ls_split *m = s->p->middle;
    for (size_t k = 0; k < m->drops_n; k++) {
        s->on_field[m->drops[k].field] += m->drops[k].tons;
        s->on_buyer[s->p->buyer[m->drops[k].field]] += m->drops[k].tons;
    }
    for (size_t k = 0; k < m->loads_n; k++)
        if (m->loads[k].buyer < s->p->buyers)
            s->loads[m->loads[k].buyer]++;
}

static reliever start(ls_haul_planner *p) {
    reliever s = {.p = p, .q = ls_haul_problem(p)};
    bool many = p->lots * p->fields > MANY_PAIRS;
    s.q.tons = p->tons[1];
    s.q.kept = p->firm.full, s.q.kept_part = p->firm.part, s.q.kept_out = p->firm.out;
    s.q.start = p->middle;
    s.q.tons_only = true;
    s.q.quick = many;
    s.q.progress.say = NULL; /* told of each limit instead */
    s.left = sum(p->middle->unplaced, p->lots);
    s.most_tries = many ? FEW_TRIES : MOST_TRIES;
    s.on_field = LS_NEW(p->arena, double, p->fields);
    s.on_buyer = LS_NEW(p->arena, double, p->buyers);
    s.loads = LS_NEW(p->arena, long, p->buyers);
    s.free_use = LS_NEW(p->arena, double, p->lots * p->fields);
    for (size_t k = 0; k < p->lots * p->fields; k++)
        s.free_use[k] = p->free_rate[k] > 0 ? 1 / p->free_rate[k] : INFINITY;
    count(&s);
    return s;
}

/* ---- which limits there are ---- */

static bool order_full(const reliever *s, size_t b) {
    return s->q.most_loads[b] - s->loads[b] < 1 ||
           s->q.most[b] - s->on_buyer[b] < s->q.smallest_drop;
}

/* Tons that fit on a field at these uses, of lots that may go there (anyone: at any time). */
static double room_on(const reliever *s, const double *use, size_t f, bool anytime) {
    double most = 0;
    for (size_t i = 0; i < s->p->lots; i++) {
        size_t at = ls_haul_pair(s->p, i, f);
        bool may = anytime || s->q.open[at] || (s->q.later != NULL && s->q.later[at]);
        if (may && isfinite(use[at]))
            most = fmax(most, s->p->acres[f] / use[at]);
    }
    return most - s->on_field[f];
}

static void add(const reliever *s, limits *all, limit one) {
    one.most = fmin(one.most, s->left);
    one.name = one.kind == LS_RELIEF_ORDER ? s->p->farm->buyers.at[one.buyer].name.text
               : one.kind <= LS_RELIEF_CAP ? s->q.names[one.field]
                                           : "";
    if (one.most >= s->q.smallest_drop)
        *LS_PUSH(s->p->arena, all) = one;
}

static void field_limits(const reliever *s, limits *all, size_t f) {
    const ls_haul_planner *p = s->p;
    size_t b = p->buyer[f];
    if (order_full(s, b))
        return;
    /* A wider window would fall under a season's cap, whose rate is not reckoned here. */
    if (ls_haul_has_window(p->field[f]) && p->field[f]->window_caps.n == 0)
        add(s, all,
            (limit){.kind = LS_RELIEF_WINDOW,
                    .buyer = b,
                    .field = f,
                    .most = room_on(s, s->q.use, f, true)});
    if (LS_GIVEN(p->field[f]->most))
        add(s, all,
            (limit){.kind = LS_RELIEF_CAP,
                    .buyer = b,
                    .field = f,
                    .most = room_on(s, s->free_use, f, false)});
}

static limits limits_of(const reliever *s) {
    const ls_haul_planner *p = s->p;
    limits all = {0};
    for (size_t b = 0; b < p->buyers; b++) {
        double room = 0;
        for (size_t f = 0; f < p->fields; f++)
            room += p->buyer[f] == b ? fmax(0, room_on(s, s->q.use, f, false)) : 0;
        if (order_full(s, b))
            add(s, &all, (limit){.kind = LS_RELIEF_ORDER, .buyer = b, .most = room});
    }
    for (size_t f = 0; f < p->fields; f++)
        field_limits(s, &all, f);
    if (p->stack_tons > 0)
        add(s, &all, (limit){.kind = LS_RELIEF_STACK, .most = s->left});
    for (int k = 0; k < 2 && p->gone == NULL; k++)
        add(s, &all,
            (limit){.kind = LS_RELIEF_TRUCK, .factor = k == 0 ? 1.25 : 0.75, .most = s->left});
    return all;
}

/* ---- without one of them ---- */

static const double *with(const reliever *s, const double *list, size_t n, size_t k, double value) {
    double *copy = LS_NEW(s->p->arena, double, n);
    memcpy(copy, list, n * sizeof *copy);
    copy[k] = value;
    return copy;
}

static const long *with_loads(const reliever *s, size_t buyer, long most) {
    long *copy = LS_NEW(s->p->arena, long, s->p->buyers);
    memcpy(copy, s->q.most_loads, s->p->buyers * sizeof *copy);
    copy[buyer] = most;
    return copy;
}

static const bool *opened(const reliever *s, size_t f) {
    bool *copy = LS_NEW(s->p->arena, bool, s->p->lots * s->p->fields);
    memcpy(copy, s->q.open, s->p->lots * s->p->fields * sizeof *copy);
    for (size_t i = 0; i < s->p->lots; i++)
        copy[ls_haul_pair(s->p, i, f)] = !ls_haul_is_stacked(s->p, i);
    return copy;
}

static const double *uncapped(const reliever *s, size_t f) {
    size_t pairs = s->p->lots * s->p->fields;
    double *copy = LS_NEW(s->p->arena, double, pairs);
    memcpy(copy, s->q.use, pairs * sizeof *copy);
    for (size_t i = 0; i < s->p->lots; i++)
        copy[ls_haul_pair(s->p, i, f)] = s->free_use[ls_haul_pair(s->p, i, f)];
    return copy;
}

/* Other trucks: what was promised in loads of these holds no more. */
static void other_trucks(const reliever *s, ls_split_problem *q, double factor) {
    double *payload = LS_NEW(s->p->arena, double, s->p->lots);
    for (size_t i = 0; i < s->p->lots; i++)
        payload[i] = floor(s->p->payload[i] * factor * 100 + 1e-6) / 100;
    q->payload = payload;
    q->kept = NULL, q->kept_part = q->kept_out = NULL;
    q->start = NULL;
}

static ls_split_problem without(const reliever *s, const limit *one) {
    ls_split_problem q = s->q;
    switch (one->kind) {
    case LS_RELIEF_ORDER:
        q.most = with(s, q.most, s->p->buyers, one->buyer, INFINITY);
        q.most_loads = with_loads(s, one->buyer, LONG_MAX);
        break;
    case LS_RELIEF_WINDOW:
        q.open = opened(s, one->field);
        break;
    case LS_RELIEF_CAP:
        q.use = uncapped(s, one->field);
        break;
    case LS_RELIEF_STACK:
        q.stack_room = s->p->stack_tons + s->left;
        break;
    case LS_RELIEF_TRUCK:
        other_trucks(s, &q, one->factor);
        break;
    }
    return q;
}

static double placed_by(const reliever *s, const ls_split *answer) {
    return s->left - sum(answer->unplaced, s->p->lots);
}

static int compare(const void *pa, const void *pb) {
    const limit *a = pa, *b = pb;
    if (a->most != b->most)
        return a->most > b->most ? -1 : 1;
    if (a->kind != b->kind)
        return a->kind < b->kind ? -1 : 1;
    return a->factor != b->factor ? (a->factor > b->factor ? -1 : 1) : strcmp(a->name, b->name);
}

/* Best first; equal ones in the order of kinds. */
static int compare_placed(const void *pa, const void *pb) {
    const limit *a = pa, *b = pb;
    if (fabs(a->placed - b->placed) > 0.005)
        return a->placed > b->placed ? -1 : 1;
    return a->kind != b->kind ? (a->kind < b->kind ? -1 : 1) : compare(pa, pb);
}

static void tell(const reliever *s, size_t k, size_t n) {
    const ls_progress *progress = &s->p->progress;
    if (progress->say != NULL)
        progress->say(
            progress->to,
            ls_arena_printf(s->p->arena, "litter without a home, limit %zu of %zu", k, n));
}

/* Split without each limit, the most hopeful first, until the others cannot be among the best. */
static size_t try_all(reliever *s, limits *all) {
    size_t n = 0;
    if (all->n > 0)
        qsort(all->at, all->n, sizeof *all->at, compare);
    for (; n < all->n && n < (size_t)s->most_tries; n++) {
        if (n >= MOST_SHOWN && all->at[MOST_SHOWN - 1].placed >= all->at[n].most)
            break;
        limit one = all->at[n];
        tell(s, n + 1, all->n);
        ls_split_problem *q = LS_NEW(s->p->arena, ls_split_problem, 1);
        *q = without(s, &one);
        one.answer = ls_split_solve(s->p->arena, q);
        one.placed = placed_by(s, one.answer);
        size_t k = n;
        for (; k > 0 && compare_placed(&one, &all->at[k - 1]) < 0; k--)
            all->at[k] = all->at[k - 1];
        all->at[k] = one;
    }
    return n;
}

/* ---- the least that does it ---- */

static double tons_of_buyer(const reliever *s, const ls_split *x, size_t b) {
    double tons = 0;
    for (size_t k = 0; k < x->drops_n; k++)
        tons += s->p->buyer[x->drops[k].field] == b ? x->drops[k].tons : 0;
    return tons;
}

static long loads_of_buyer(const ls_split *x, size_t b) {
    long n = 0;
    for (size_t k = 0; k < x->loads_n; k++)
        n += x->loads[k].buyer == b;
    return n;
}

/* Does a most of so many loads (tons) place as much? */
static bool order_does(const reliever *s, const limit *one, bool in_loads, double most) {
    ls_split_problem *q = LS_NEW(s->p->arena, ls_split_problem, 1);
    *q = s->q;
    if (in_loads)
        q->most_loads = with_loads(s, one->buyer, (long)most);
    else
        q->most = with(s, q->most, s->p->buyers, one->buyer, most);
    return placed_by(s, ls_split_solve(s->p->arena, q)) > one->placed - 0.05;
}

/* By halving what lies between the order and what the answer without it brings the buyer. */
static double least_order(const reliever *s, const limit *one, bool in_loads) {
    size_t b = one->buyer;
    double low = in_loads ? (double)s->q.most_loads[b] : s->q.most[b];
    double high = in_loads ? (double)loads_of_buyer(one->answer, b)
                           : ceil(tons_of_buyer(s, one->answer, b) - 1e-9);
    for (int k = 0; k < MOST_HALVINGS && high - low > 1; k++) {
        double middle = floor((low + high) / 2);
        if (order_does(s, one, in_loads, middle))
            high = middle;
        else
            low = middle;
    }
    return high;
}

static ls_window least_window(const reliever *s, const limit *one) {
    ls_window open = s->p->field[one->field]->open.days;
    for (size_t k = 0; k < one->answer->loads_n; k++) {
        const ls_split_load *l = &one->answer->loads[k];
        ls_haul_range days = s->p->range[l->lot];
        for (size_t d = l->first; d < l->first + l->n; d++) {
            if (l->from_stack || one->answer->drops[d].field != one->field ||
                days.from == LS_NO_DATE)
                continue;
            open.from = days.from < open.from ? days.from : open.from;
            open.to = days.to > open.to ? days.to : open.to;
        }
    }
    return open;
}

/* Acres the field's tons cover if rates may not pass a cap. */
static double covered(const reliever *s, const limit *one, double cap) {
    double acres = 0;
    for (size_t k = 0; k < one->answer->drops_n; k++) {
        const ls_split_drop *d = &one->answer->drops[k];
        if (d->field == one->field)
            acres += d->tons / fmin(cap, s->p->free_rate[ls_haul_pair(s->p, d->lot, d->field)]);
    }
    return acres;
}

/* The lowest top rate, in tenths of a ton per acre, at which the answer's tons still fit. */
static double least_cap(const reliever *s, const limit *one) {
    double ton_ac = ls_unit_of("ton/ac").factor;
    double cap = ceil(s->p->field[one->field]->most.value / ton_ac * 10 - 1e-9) / 10;
    while (cap < 100 && covered(s, one, cap) > s->p->acres[one->field] + 1e-6)
        cap += 0.1;
    return round(cap * 10) / 10;
}

/* ---- told ---- */

static ls_line decided(const reliever *s, size_t number, const char *what, const char *label,
                       const char *unit, double value) {
    return ls_leaf_exact(s->p->w, ls_words(s->p->w, "plan.relief.%zu.%s", number, what), label,
                         unit, value * ls_unit_of(unit).factor, LS_BY_SPLIT,
                         "the split of the middle stage without that limit");
}

static ls_line least_change(const reliever *s, const limit *one, size_t number) {
    const ls_order *order = s->p->farm->buyers.at[one->buyer].order;
    switch (one->kind) {
    case LS_RELIEF_ORDER: {
        bool in_loads = order != NULL && s->q.most_loads[one->buyer] != LONG_MAX;
        double had = s->p->gone == NULL ? 0
                     : in_loads         ? (double)s->p->gone->loads[one->buyer]
                                        : s->p->gone->tons[one->buyer];
        return decided(s, number, "to", "the least order that does it", in_loads ? "load" : "ton",
                       had + least_order(s, one, in_loads));
    }
    case LS_RELIEF_CAP:
        return decided(s, number, "to", "the least top rate that does it", "ton/ac",
                       least_cap(s, one));
    case LS_RELIEF_STACK:
        return decided(s, number, "to", "the least room in the stack that does it", "ton",
                       ceil(sum(one->answer->stacked, s->p->lots) - 1e-9));
    case LS_RELIEF_TRUCK:
        return decided(s, number, "to", "a full load of such a truck, at most", "ton",
                       largest(s->p->payload, s->p->lots) * one->factor);
    case LS_RELIEF_WINDOW:
        break;
    }
    return LS_NO_LINE;
}

static void show(const reliever *s, const limit *one, size_t number) {
    ls_haul_planner *p = s->p;
    bool of_buyer = one->kind <= LS_RELIEF_CAP, of_field = of_buyer && one->kind != LS_RELIEF_ORDER;
    ls_relief *r = LS_PUSH(p->arena, &p->plan->relief);
    *r = (ls_relief){.kind = one->kind,
                     .buyer = of_buyer ? &p->farm->buyers.at[one->buyer] : NULL,
                     .field = of_field ? p->field[one->field] : NULL};
    r->tons = decided(s, number, "tons", "litter that would find a home without that limit", "ton",
                      one->placed);
    r->to = least_change(s, one, number);
    if (one->kind == LS_RELIEF_WINDOW)
        r->open = least_window(s, one);
}

void ls_haul_relieve(ls_haul_planner *p) {
    reliever s = start(p);
    if (s.left < s.q.smallest_drop)
        return;
    limits all = limits_of(&s);
    size_t tried = try_all(&s, &all);
    for (size_t k = 0; k < tried && k < MOST_SHOWN; k++)
        if (all.at[k].placed >= s.q.smallest_drop)
            show(&s, &all.at[k], k + 1);
}
