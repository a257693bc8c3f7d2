/* The farm in numbers, its windows and its money as a problem for the split. */
#include "plan.h"

#include <limits.h>
#include <math.h>

/* ---- windows ---- */

bool ls_haul_has_window(const ls_field *f) { return f->allowed.from != LS_NO_DATE; }

/* Does the field's window hold all days of the lot? */
static bool is_open(const ls_haul_planner *p, size_t lot, size_t field) {
    const ls_field *f = p->field[field];
    ls_haul_range range = p->range[lot];
    if (ls_haul_is_stacked(p, lot) || !ls_haul_spreads_on(p, p->kind_of[lot], field)) return false;
    return !ls_haul_has_window(f) || range.from == LS_NO_DATE ||
           (f->allowed.from <= range.from && range.to <= f->allowed.to);
}

/* Litter comes out of the stack after the lot's last load, once the field is open, while it may be kept. */
ls_date ls_haul_later(const ls_haul_planner *p, size_t lot, const ls_field *f) {
    if (ls_haul_is_stacked(p, lot) && lot < p->stacked_lots) return ls_haul_later_from(p, ls_haul_first_day(p), f);
    ls_haul_range range = ls_haul_range_of(p, p->range, p->lot_of[lot]);
    return range.from == LS_NO_DATE ? LS_NO_DATE : ls_haul_later_from(p, range.to + 1, f);
}

ls_date ls_haul_later_from(const ls_haul_planner *p, ls_date day, const ls_field *f) {
    const ls_stack *stack = p->farm->stack;
    if (stack == NULL) return LS_NO_DATE;
    if (ls_haul_has_window(f) && f->allowed.from > day) day = f->allowed.from;
    bool kept = !LS_GIVEN(stack->kept_until) || day <= stack->kept_until.day;
    return kept && (!ls_haul_has_window(f) || day <= f->allowed.to) ? day : LS_NO_DATE;
}

/* ---- money ---- */

static double per_ton(const ls_quantity *q) { return LS_GIVEN(*q) ? q->value * ls_unit_of("ton").factor : 0; }

typedef struct {
    double take_out, haul, spread, reload, stacking; /* $/ton; haul $/mi; take_out: and load */
} costs;

static costs costs_of(const ls_farm *farm) {
    const ls_costs *c = farm->costs;
    if (c == NULL) return (costs){0};
    double mile = ls_unit_of("mi").factor;
    return (costs){per_ton(&c->take_out) + per_ton(&c->load), LS_GIVEN(c->haul) ? c->haul.value * mile : 0,
                   per_ton(&c->spread), per_ton(&c->reload), per_ton(&c->stacking)};
}

static double miles_to(const ls_buyer *b) {
    return LS_GIVEN(b->distance) ? b->distance.value / ls_unit_of("mi").factor : 0;
}

/* ---- the problem ---- */

typedef struct {
    ls_split_problem p;
    double *use, *value, *later_value, *trip_cost, *least, *most;
    long *least_loads, *most_loads;
    bool *open, *later;
    const char **names;
} problem;

/* What is left of an order's figure in its own kind, loads or tons; of the other it says nothing. */
static void rest_of(const ls_quantity *ordered, double had, long had_loads, double *tons, long *loads,
                    double (*whole)(double)) {
    if (!LS_GIVEN(*ordered)) return;
    if (ordered->unit.dimension.power[LS_LOAD] == 1)
        *loads = (long)fmax(0, whole(ordered->value) - (double)had_loads);
    else
        *tons = fmax(0, ordered->value / ls_unit_of("ton").factor - had);
}

static void order(const ls_haul_planner *p, problem *q, size_t b) {
    const ls_order *o = p->farm->buyers.at[b].order;
    double had = p->gone != NULL ? p->gone->tons[b] : 0;
    long loads = p->gone != NULL ? p->gone->loads[b] : 0;
    q->most[b] = INFINITY;
    q->most_loads[b] = LONG_MAX;
    if (o == NULL) return;
    rest_of(&o->least, had, loads, &q->least[b], &q->least_loads[b], ceil);
    rest_of(&o->most, had, loads, &q->most[b], &q->most_loads[b], floor);
}

/* What a ton and a trip bring by the aim: money; only miles, each trip its own, out and back; or only pounds of P2O5
 * that the crop needs. Litter that bound loads take into the stack is in its house still: from there it goes straight
 * where the rest of it may, whether its tickets are out yet or not. */
static void pair(const ls_haul_planner *p, problem *q, ls_aim aim, costs c, size_t lot, size_t f) {
    size_t at = ls_haul_lot_field(p, lot, f);
    double price = per_ton(&p->farm->buyers.at[p->buyer[f]].price);
    double spread = p->field[f]->yard ? 0 : c.spread, other = aim == LS_AIM_NEAR ? 0 : p->met[at];
    q->use[at] = p->rate[at] > 0 ? 1 / p->rate[at] : INFINITY;
    q->value[at] = aim == LS_AIM_MONEY ? price - c.take_out - spread : other;
    q->later_value[at] = aim == LS_AIM_MONEY ? price - c.reload - spread : other;
    q->open[at] = is_open(p, lot, f);
    bool straight = q->open[at] || (lot >= p->stacked_lots && is_open(p, ls_haul_home(p, lot), f));
    q->later[at] = !straight && ls_haul_later(p, lot, p->field[f]) != LS_NO_DATE;
}

/* The greatest of the kinds that haul: no truck leaves less than it may. */
double ls_haul_smallest_drop(const ls_haul_planner *p) {
    double drop = 0;
    for (size_t k = 0; k < p->kinds; k++) {
        const ls_quantity *given = &p->farm->trucks.at[k].smallest_drop;
        double one = LS_GIVEN(*given) ? given->value : ls_haul_practice(p, "smallest drop")->value;
        drop = p->most_of == NULL || p->most_of[k] > 0 ? fmax(drop, one) : drop;
    }
    return drop / ls_unit_of("ton").factor;
}

static problem problem_new(const ls_haul_planner *p) {
    size_t pairs = p->lots * p->fields;
    problem q = {.p = {.lots = p->lots,
                       .fields = p->fields,
                       .buyers = p->buyers,
                       .payload = p->payload,
                       .payload_out = p->payload_out,
                       .buyer = p->buyer,
                       .capacity = p->acres,
                       .stack_room = p->stack_tons,
                       .smallest_drop = ls_haul_smallest_drop(p),
                       .progress = p->progress,
                       .quick = p->quick}};
    q.p.use = q.use = LS_NEW(p->arena, double, pairs);
    q.p.value = q.value = LS_NEW(p->arena, double, pairs);
    q.p.later_value = q.later_value = LS_NEW(p->arena, double, pairs);
    q.p.open = q.open = LS_NEW(p->arena, bool, pairs);
    q.later = LS_NEW(p->arena, bool, pairs);
    q.p.later = p->stack_tons > 0 ? q.later : NULL;
    q.p.names = q.names = LS_NEW(p->arena, const char *, p->fields);
    q.p.trip_cost = q.trip_cost = LS_NEW(p->arena, double, p->buyers);
    q.p.least = q.least = LS_NEW(p->arena, double, p->buyers);
    q.p.most = q.most = LS_NEW(p->arena, double, p->buyers);
    q.p.least_loads = q.least_loads = LS_NEW(p->arena, long, p->buyers);
    q.p.most_loads = q.most_loads = LS_NEW(p->arena, long, p->buyers);
    return q;
}

static ls_split_problem problem_for(const ls_haul_planner *p, ls_aim aim) {
    problem q = problem_new(p);
    costs c = costs_of(p->farm);
    for (size_t f = 0; f < p->fields; f++) {
        q.names[f] =
            ls_arena_printf(p->arena, "%s\n%s", p->farm->buyers.at[p->buyer[f]].name.text, p->field[f]->name.text);
        for (size_t i = 0; i < p->lots; i++) pair(p, &q, aim, c, i, f);
    }
    for (size_t b = 0; b < p->buyers; b++) {
        order(p, &q, b);
        double miles = 2 * miles_to(&p->farm->buyers.at[b]);
        q.trip_cost[b] = aim == LS_AIM_MONEY ? miles * c.haul : aim == LS_AIM_NEAR ? miles : 0;
    }
    q.p.stack_value = aim == LS_AIM_MONEY ? -c.take_out - c.stacking : 0;
    return q.p;
}

ls_split_problem ls_haul_problem(const ls_haul_planner *p) { return problem_for(p, p->aim); }

ls_split_problem ls_haul_money_problem(const ls_haul_planner *p) { return problem_for(p, LS_AIM_MONEY); }

/* ---- what buyers get ---- */

void ls_haul_count(const ls_haul_planner *p, const ls_split *s, double *tons, long *loads) {
    LS_EACH_OF (const ls_split_load, l, s->loads, s->loads_n)
        if (l->buyer < p->buyers) tons[l->buyer] += l->tons, loads[l->buyer]++;
}

bool ls_haul_order_full(const ls_split_problem *q, size_t b, double tons, long loads) {
    return q->most_loads[b] - loads < 1 || q->most[b] - tons < q->smallest_drop;
}

/* ---- what bound loads leave ---- */

/* Litter of lots in the stack is in no bound load of the rest, and lies there again. */
double ls_haul_rest_room(const ls_haul_planner *p, int stage) {
    double room = p->room.stack;
    for (size_t i = p->house_lots; i < p->lots; i++) room += p->rest[stage][i];
    return room;
}

/* A pile that stands takes no more room for its slopes. */
ls_split_problem ls_haul_rest_problem(const ls_haul_planner *p) {
    ls_split_problem q = ls_haul_problem(p);
    double *pile = LS_NEW(p->arena, double, p->lots);
    for (size_t i = 0; i < p->house_lots; i++) pile[i] = p->room.piled[p->lot_of[i]] > 0 ? 0 : p->pile_tons;
    q.pile = pile;
    q.pile_of = p->lot_of;
    q.capacity = p->room.acres;
    q.least = p->room.least, q.most = p->room.most;
    q.least_loads = p->room.least_loads, q.most_loads = p->room.most_loads;
    return q;
}
