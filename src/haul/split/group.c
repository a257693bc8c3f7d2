/* A few buyers planned anew, exactly, with the litter that they have and what is left of the lots:
 * where an answer is too large for the whole program, its parts are not. */
#include "search.h"

#include <math.h>
#include <stdlib.h>

/* Pairs of a lot and a field: of a group, and of all groups of an answer. */
enum { GROUP_PAIRS = 160, ONE_GROUP = 1200, ALL_GROUPS = 8000 };

typedef const ls_split *solver(ls_arena *a, const ls_split_problem *p);

/* The program of some buyers; what comes to them out of the stack stays. */
typedef struct {
    const ls_haul_task *t;
    const ls_haul_answer *x; /* as it was */
    const size_t *buyers;
    size_t n, fields;
    size_t *field; /* [its field] in the task */
    bool *in;      /* [buyer of the task] */
    ls_split_problem *p;
    solver *solve;
} group;

static double tons(int64_t hundredths) { return (double)hundredths / 100; }

static void lots_of(group *g, double *has, double *payload, bool *no_part) {
    const ls_haul_task *t = g->t;
    for (size_t i = 0; i < t->lots; i++) {
        int64_t left = t->tons[i] - ls_haul_gone(t, g->x, i);
        no_part[i] = t->given->no_part != NULL && t->given->no_part[i];
        for (size_t to = 0; to <= t->buyers; to++)
            if (to < t->buyers && g->in[to])
                left += ls_haul_sent(t, g->x, i, to);
            else
                no_part[i] = no_part[i] || g->x->part[ls_haul_task_to(t, i, to)] > 0;
        has[i] = tons(left);
        payload[i] = tons(t->payload[i]);
    }
    g->p->tons = has, g->p->payload = payload, g->p->no_part = no_part;
}

static void fields_of(group *g, double *use, double *value, bool *open, double *capacity, size_t *buyer,
                      const char **names) {
    const ls_haul_task *t = g->t;
    for (size_t b = 0, k = 0; b < g->n; b++)
        for (size_t f = t->first[g->buyers[b]]; f < t->first[g->buyers[b] + 1]; f++, k++) {
            int64_t left = t->capacity[f];
            for (size_t i = 0; i < t->lots; i++) {
                size_t from = ls_haul_task_field(t, i, f), to = i * g->fields + k;
                use[to] = t->use[from], value[to] = t->value[from], open[to] = t->open[from];
                if (g->x->out[from] > 0) left -= ls_haul_cover(t->use[from], g->x->out[from]);
            }
            capacity[k] = (double)(left > 0 ? left : 0) / 1e6;
            buyer[k] = b;
            g->field[k] = f;
            names[k] = t->given->names == NULL ? NULL : t->given->names[t->given_field[f]];
        }
    g->p->use = use, g->p->value = value, g->p->open = open;
    g->p->capacity = capacity, g->p->buyer = buyer;
    if (t->given->names != NULL) g->p->names = names;
}

/* Orders less what comes out of the stack. */
static void orders_of(group *g, double *least, double *most, long *least_loads, long *most_loads, double *trip_cost) {
    const ls_haul_task *t = g->t;
    for (size_t k = 0; k < g->n; k++) {
        size_t b = g->buyers[k];
        int64_t out = 0;
        long trips = 0;
        for (size_t i = 0; i < t->lots; i++)
            for (size_t f = t->first[b]; f < t->first[b + 1]; f++) {
                out += g->x->out[ls_haul_task_field(t, i, f)];
                trips += ls_haul_out_trips(t, g->x, i, f);
            }
        trip_cost[k] = t->trip_cost[b];
        least[k] = fmax(0, tons(t->least[b] - out));
        most[k] = t->most[b] == LS_HAUL_PLENTY ? INFINITY : tons(t->most[b] - out);
        least_loads[k] = t->least_loads[b] > trips ? t->least_loads[b] - trips : 0;
        most_loads[k] = t->most_loads[b] == LONG_MAX ? LONG_MAX : t->most_loads[b] - trips;
    }
    g->p->least = least, g->p->most = most;
    g->p->trip_cost = trip_cost;
    g->p->least_loads = least_loads, g->p->most_loads = most_loads;
}

static void kept_of(group *g, long *kept, double *kept_part) {
    const ls_haul_task *t = g->t;
    for (size_t i = 0; i < t->lots; i++)
        for (size_t k = 0; k < g->n; k++) {
            size_t from = ls_haul_task_to(t, i, g->buyers[k]), to = i * (g->n + 1) + k;
            kept[to] = t->kept[from], kept_part[to] = tons(t->kept_part[from]);
        }
    g->p->kept = kept, g->p->kept_part = kept_part;
}

static const ls_split *solve(group *g) {
    const ls_haul_task *t = g->t;
    ls_arena *a = t->arena;
    size_t n = g->n, pairs = t->lots * g->fields;
    ls_split_problem p = {.lots = t->lots, .fields = g->fields, .buyers = n, .smallest_drop = tons(t->drop)};
    g->p = &p;
    lots_of(g, LS_NEW(a, double, t->lots), LS_NEW(a, double, t->lots), LS_NEW(a, bool, t->lots));
    fields_of(g, LS_NEW(a, double, pairs), LS_NEW(a, double, pairs), LS_NEW(a, bool, pairs),
              LS_NEW(a, double, g->fields), LS_NEW(a, size_t, g->fields), LS_NEW(a, const char *, g->fields));
    orders_of(g, LS_NEW(a, double, n), LS_NEW(a, double, n), LS_NEW(a, long, n), LS_NEW(a, long, n),
              LS_NEW(a, double, n));
    kept_of(g, LS_NEW(a, long, t->lots *(n + 1)), LS_NEW(a, double, t->lots *(n + 1)));
    return g->solve(a, &p);
}

static void put(const group *g, const ls_split *s, ls_haul_answer *x) {
    const ls_haul_task *t = g->t;
    for (size_t i = 0; i < t->lots; i++) {
        for (size_t k = 0; k < g->n; k++)
            x->full[ls_haul_task_to(t, i, g->buyers[k])] = x->part[ls_haul_task_to(t, i, g->buyers[k])] = 0;
        for (size_t k = 0; k < g->fields; k++) x->straight[ls_haul_task_field(t, i, g->field[k])] = 0;
    }
    for (size_t k = 0; k < s->loads_n; k++) {
        const ls_split_load *l = &s->loads[k];
        size_t at = ls_haul_task_to(t, l->lot, g->buyers[l->buyer]);
        int64_t size = ls_haul_down(l->tons, 100);
        if (size == t->payload[l->lot])
            x->full[at]++;
        else if (size != t->kept_part[at])
            x->part[at] = size;
        for (size_t d = l->first; d < l->first + l->n; d++)
            x->straight[ls_haul_task_field(t, l->lot, g->field[s->drops[d].field])] +=
                ls_haul_down(s->drops[d].tons, 100);
    }
}

static void improve(ls_haul_search *search, solver *again, const size_t *buyers, size_t n, size_t fields) {
    const ls_haul_task *t = search->t;
    ls_arena_mark mark = ls_arena_here(t->arena);
    group g = {.t = t, .x = search->best, .buyers = buyers, .n = n, .fields = fields, .solve = again};
    g.field = LS_NEW(t->arena, size_t, fields);
    g.in = LS_NEW(t->arena, bool, t->buyers);
    for (size_t k = 0; k < n; k++) g.in[buyers[k]] = true;
    const ls_split *s = fields > 0 ? solve(&g) : NULL;
    if (s != NULL) {
        ls_haul_answer_copy(t, search->trial, search->best);
        put(&g, s, search->trial);
        ls_haul_evaluate(t, search->trial);
        if (ls_haul_count_drops(t, search->trial) && ls_haul_better(search->trial, search->best) &&
            ls_haul_check(t, search->trial) == NULL)
            ls_haul_answer_copy(t, search->best, search->trial);
    }
    ls_arena_rewind(t->arena, mark);
}

/* ---- which buyers ---- */

typedef struct {
    size_t buyer;
    double rank;
} ranked;

static int by_rank(const void *pa, const void *pb) {
    const ranked *a = pa, *b = pb;
    if (a->rank != b->rank) return a->rank > b->rank ? -1 : 1;
    return (a->buyer > b->buyer) - (a->buyer < b->buyer);
}

/* Tons that the buyer's fields and order could take more. */
static double free_tons(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer) {
    int64_t sum = 0;
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++) {
        int64_t most = 0;
        for (size_t i = 0; i < t->lots; i++) {
            int64_t spare = t->open[ls_haul_task_field(t, i, f)] ? ls_haul_spare(t, x, i, f) : 0;
            most = spare > most ? spare : most;
        }
        sum += most;
    }
    return ls_haul_order_allows(t, x, buyer, 1, t->drop) ? tons(sum) : 0;
}

/* Where fields are scarce those first that have the most left free; where litter is, those that
 * have some, and then those that lose the least by it. */
static void rank(const ls_haul_search *s, bool all_placed, ranked *order) {
    for (size_t b = 0; b < s->t->buyers; b++) {
        bool has = ls_haul_trips(s->t, s->best, b) > 0;
        order[b] = (ranked){b, !all_placed ? free_tons(s->t, s->best, b) : has ? INFINITY : s->nearness[b]};
    }
    qsort(order, s->t->buyers, sizeof *order, by_rank);
}

void ls_haul_groups(ls_haul_search *search, solver *again) {
    const ls_haul_task *t = search->t;
    ls_arena_mark mark = ls_arena_here(t->arena);
    ranked *order = LS_NEW(t->arena, ranked, t->buyers);
    size_t *buyers = LS_NEW(t->arena, size_t, t->buyers), pairs = 0;
    int64_t all = 0;
    for (size_t i = 0; i < t->lots; i++) all += t->tons[i];
    bool all_placed = search->found && search->best->placed == all;
    rank(search, all_placed, order);
    size_t most = all_placed ? ONE_GROUP : GROUP_PAIRS;
    for (size_t b = 0; b < t->buyers && pairs < ALL_GROUPS && search->found;) {
        size_t n = 0, fields = 0;
        do {
            fields += t->first[order[b].buyer + 1] - t->first[order[b].buyer];
            buyers[n++] = order[b++].buyer;
        } while (b < t->buyers && t->lots * fields < most);
        improve(search, again, buyers, n, fields);
        pairs += t->lots * fields;
        most = GROUP_PAIRS;
        if (all_placed && order[b < t->buyers ? b : b - 1].rank < INFINITY) break;
    }
    ls_arena_rewind(t->arena, mark);
}
