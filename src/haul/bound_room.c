/* Does a ticket that was handed out fit what its fields, its buyer's order and the stack have left?
 * And what it takes of them. */
#include "plan.h"

#include <limits.h>
#include <string.h>

/* ---- what is left ---- */

static void whole_room(ls_haul_planner *p) {
    ls_split_problem q = ls_haul_problem(p);
    ls_haul_room *r = &p->room;
    memcpy(r->acres, p->acres, p->fields * sizeof *r->acres);
    memcpy(r->least, q.least, p->buyers * sizeof *r->least);
    memcpy(r->most, q.most, p->buyers * sizeof *r->most);
    memcpy(r->least_loads, q.least_loads, p->buyers * sizeof *r->least_loads);
    memcpy(r->most_loads, q.most_loads, p->buyers * sizeof *r->most_loads);
    r->stack = fmax(0, p->stack_tons - ls_haul_lies_there(p));
    for (size_t i = 0; i < p->stacked_lots; i++) r->piled[p->lot_of[i]] = ls_haul_is_stacked(p, i);
}

/* ---- does it fit? ---- */

static const char *number(const ls_haul_planner *p, double v) { return ls_number_text(p->arena, v, 3); }

/* What holds the rate of a lot on a field: "nitrogen limit". And, in brackets, why it may
 * have moved. */
static const char *limit_of(ls_haul_planner *p, size_t lot, size_t field, const char **moved) {
    static const char *const names[] = {"nitrogen limit",      "phosphorus limit", "top rate",
                                        "spreader's top rate", "season's limit",   "limit"};
    size_t before = ls_worksheet_lines(p->w);
    const ls_field_rates *r = ls_haul_rates(p, field);
    ls_limit limit = r == NULL ? LS_LIMIT_CLOSED : ls_haul_rate_of(p, r, lot, field)->limit;
    bool by_content = limit == LS_LIMIT_NITROGEN || limit == LS_LIMIT_PHOSPHORUS;
    *moved = by_content && ls_haul_lot(p, lot)->analysis->report == NULL
                 ? " (no lab report: its content is an estimate that moves with the loads hauled)"
                 : "";
    ls_worksheet_cut(p->w, before);
    return names[limit];
}

/* The rate of the ticket against what its truck may spread now; NULL: it may stay. */
static const char *over_rate(ls_haul_planner *p, const ls_haul_bound *b, const ls_split_drop *d) {
    const char *name = p->field[d->field]->name.text;
    size_t lot = ls_haul_house_lot(p, p->lot_of[d->lot], b->kind);
    double top = p->top_rate[ls_haul_lot_field(p, lot, d->field)];
    const ls_rate_range *truck = p->farm->trucks.at[b->kind].rate;
    if (!ls_haul_spreads_on(p, b->kind, d->field))
        return ls_arena_printf(p->arena, "%s spreads no more on %s", p->farm->trucks.at[b->kind].name.text, name);
    double least = truck != NULL && LS_GIVEN(truck->least) ? truck->least.value / ls_unit_of("ton/ac").factor : 0;
    if (!(top > 0)) {
        const char *why = ls_haul_no_rate(p, d->field);
        return ls_arena_printf(p->arena, "no litter may go on %s now%s%s", name, why == NULL ? "" : ": ",
                               why == NULL ? "" : why);
    }
    if (p->field[d->field]->yard) return NULL;
    const char *moved, *limit;
    if (d->rate > top * (1 + 1e-4)) {
        limit = limit_of(p, lot, d->field, &moved);
        return ls_arena_printf(p->arena, "%s tons/ac is the %s on %s now, the ticket says %s%s", number(p, top), limit,
                               name, number(p, d->rate), moved);
    }
    if (d->rate < least * (1 - 1e-4))
        return ls_arena_printf(p->arena,
                               "the truck spreads no less than %s tons/ac now, the "
                               "ticket says %s",
                               number(p, least), number(p, d->rate));
    return NULL;
}

static bool is_past(const ls_haul_planner *p, const ls_haul_bound *b, const ls_field *f) {
    ls_date first = b->from_stack ? ls_haul_first_day(p) : ls_haul_empty(p, b->lot);
    return ls_haul_has_window(f) && f->allowed.to < first;
}

/* What the slopes take if no litter of the lot is in the stack yet. */
static double new_pile(const ls_haul_planner *p, size_t lot) {
    return p->room.piled[p->lot_of[lot]] > 0 ? 0 : p->pile_tons;
}

/* Tons that the stack or the buyer's order has room for. */
static double room_for(const ls_haul_planner *p, const ls_haul_bound *b) {
    if (b->to == p->buyers) return p->room.stack - new_pile(p, b->lot);
    return p->room.most_loads[b->to] < 1 ? 0 : p->room.most[b->to];
}

/* Is it full, or has it no room but for a part of the load? */
static const char *no_room_on(const ls_haul_planner *p, const char *where, double room) {
    return ls_arena_printf(p->arena, "%s %s", where,
                           room < ls_haul_smallest_drop(p) ? "is full" : "has no room for all of it");
}

static const char *no_room(const ls_haul_planner *p, const ls_haul_bound *b) {
    if (b->to == p->buyers && !(p->stack_tons > 0)) return "no stack can take it";
    const char *where =
        b->to == p->buyers ? "the stack" : ls_arena_printf(p->arena, "%s's order", p->farm->buyers.at[b->to].name.text);
    return no_room_on(p, where, room_for(p, b));
}

static const char *no_litter(const ls_haul_planner *p, const ls_haul_bound *b) {
    const ls_lot *lot = ls_haul_lot(p, b->lot);
    return b->from_stack
               ? "no litter for it is in the stack"
               : ls_arena_printf(p->arena, lot->empty ? "%s is empty" : "%s holds less: no load is left for it",
                                 lot->name);
}

/* What a drop holds beyond the acres that its field has left is taken off it. Why the field cannot
 * take it, with no fewer tons in all than that; NULL: it can. */
static const char *fit_drop(ls_haul_planner *p, ls_haul_bound *b, size_t drop, double least) {
    ls_split_drop *d = &b->drops[drop];
    const ls_field *f = p->field[d->field];
    const char *why = is_past(p, b, f) ? ls_arena_printf(p->arena, "%s is closed", f->name.text) : over_rate(p, b, d);
    double most = (p->room.acres[d->field] + 1e-6) * d->rate;
    if (why != NULL || d->tons <= most) return why;
    most = ls_haul_hundredths(most);
    b->tons = round((b->tons - d->tons + most) * 100) / 100;
    d->tons = most;
    bool fits = b->tons > least - 1e-9 && most > ls_haul_bound_least_drop(p, b, drop) - 1e-9;
    return fits ? NULL : no_room_on(p, f->name.text, most);
}

const char *ls_haul_bound_fit(ls_haul_planner *p, ls_haul_bound *b, double tons, double least) {
    if (!ls_haul_bound_share(p, b, tons)) return no_litter(p, b);
    double room = room_for(p, b) + 1e-6;
    if (room < b->tons && (room < least || !ls_haul_bound_share(p, b, room))) return no_room(p, b);
    const char *why = NULL;
    for (size_t k = 0; k < b->n && why == NULL; k++) why = fit_drop(p, b, k, least);
    return why;
}

void ls_haul_bound_take(ls_haul_planner *p, const ls_haul_bound *b, int sign) {
    ls_haul_room *room = &p->room;
    for (size_t k = 0; k < b->n; k++) room->acres[b->drops[k].field] -= sign * b->drops[k].tons / b->drops[k].rate;
    if (b->to == p->buyers) {
        room->piled[p->lot_of[b->lot]] += sign < 0 ? -1 : 0;
        room->stack -= sign * (b->tons + new_pile(p, b->lot));
        room->piled[p->lot_of[b->lot]] += sign > 0 ? 1 : 0;
        return;
    }
    room->most[b->to] -= sign * b->tons;
    room->most_loads[b->to] -= room->most_loads[b->to] != LONG_MAX ? sign : 0;
}

void ls_haul_bound_widen(ls_haul_planner *p, ls_haul_bound *b, double wish) {
    double tons = b->tons, *drops = LS_NEW(p->arena, double, b->n);
    for (size_t k = 0; k < b->n; k++) drops[k] = b->drops[k].tons;
    ls_haul_bound_take(p, b, -1);
    if (ls_haul_bound_fit(p, b, wish, tons) != NULL) {
        b->tons = tons;
        for (size_t k = 0; k < b->n; k++) b->drops[k].tons = drops[k];
    }
    ls_haul_bound_take(p, b, 1);
}

void ls_haul_bound_room(ls_haul_planner *p, int stage) {
    ls_haul_room *room = &p->room;
    whole_room(p);
    for (size_t k = 0; k < p->bound.n; k++) {
        const ls_haul_bound *b = &p->bound.at[k];
        if (b->why != NULL || (int)b->certainty > stage) continue;
        ls_haul_bound_take(p, b, 1);
        if (b->to < p->buyers) {
            room->least[b->to] = fmax(0, room->least[b->to] - b->tons);
            room->least_loads[b->to] -= room->least_loads[b->to] > 0;
        }
    }
}

/* ---- once the rest is split ---- */

/* What an answer of the rest takes beside bound loads, and a little: it counts in whole hundredths. */
static void take_answer(ls_haul_planner *p, const ls_split *s) {
    enum { LITTLE = 100 };
    p->room.stack -= 1.0 / LITTLE;
    for (size_t b = 0; b < p->buyers; b++) p->room.most[b] -= 1.0 / LITTLE;
    for (size_t f = 0; f < p->fields; f++) p->room.acres[f] -= 1.0 / LITTLE / LITTLE;
    for (size_t k = 0; k < s->drops_n; k++)
        p->room.acres[s->drops[k].field] -= s->drops[k].tons / ls_haul_drop_rate(p, &s->drops[k]);
    for (size_t k = 0; k < s->loads_n; k++) {
        ls_haul_bound load = {.lot = s->loads[k].lot, .to = s->loads[k].buyer, .tons = s->loads[k].tons};
        if (load.to < p->buyers || !ls_haul_is_stacked(p, load.lot)) ls_haul_bound_take(p, &load, 1);
    }
}

void ls_haul_bound_grow(ls_haul_planner *p, const ls_split *rest, int stage) {
    ls_haul_bound_room(p, LS_STAGES - 1);
    take_answer(p, rest);
    for (size_t k = 0; k < p->bound.n; k++) {
        ls_haul_bound *b = &p->bound.at[k];
        double tons = b->tons, left = b->why == NULL ? rest->unplaced[b->lot] : 0;
        if (b->to == p->buyers || !ls_haul_is_bound_part(p, b, stage) || !(left > 0.005)) continue;
        ls_haul_bound_widen(p, b, fmin(p->payload[b->lot], tons + left));
        rest->unplaced[b->lot] -= b->tons - tons;
        for (int later = stage; later < LS_STAGES; later++) p->rest[later][b->lot] -= b->tons - tons;
    }
    ls_haul_bound_room(p, LS_STAGES - 1);
}
