/* Why fields get nothing, and orders not their least. */
#include "plan.h"

#include <limits.h>
#include <math.h>

/* What the largest plan leaves and why. */
typedef struct {
    ls_haul_planner *p;
    ls_split_problem q;
    double *tons; /* [buyer] of the high stage */
    long *loads;  /* [buyer] */
    bool homeless, stack_full;
} look;

static look look_at(ls_haul_planner *p) {
    look s = {.p = p, .q = ls_haul_money_problem(p)};
    s.tons = LS_NEW(p->arena, double, p->buyers);
    s.loads = LS_NEW(p->arena, long, p->buyers);
    ls_haul_count(p, p->high, s.tons, s.loads);
    double left = 0, payload = INFINITY;
    for (size_t i = 0; i < p->lots; i++) {
        left += p->high->unplaced[i];
        payload = fmin(payload, p->payload[i]);
    }
    s.homeless = left >= payload; /* less is a rest that whole loads leave */
    s.stack_full = p->stack_tons > 0 && p->stack_tons - ls_haul_stack_used(p, p->high) < payload;
    return s;
}

/* ---- fields ---- */

const char *ls_haul_no_rate(ls_haul_planner *p, size_t f) {
    size_t k = 0;
    while (k < p->kinds && !ls_haul_spreads_on(p, k, f)) k++;
    if (k == p->kinds) return "no truck may spread there";
    if (ls_haul_top_rate(p, f) > 0) return NULL;
    size_t before = ls_worksheet_lines(p->w);
    const ls_field_rates *r = ls_haul_rates(p, f);
    const char *why = r != NULL && r->n > 0 ? r->rates[0].why : NULL;
    why = why != NULL ? ls_arena_copy(p->arena, why) : "no litter may go there";
    ls_worksheet_cut(p->w, before);
    return why;
}

/* No load fits on it: by what it has had already, or ever. */
static const char *no_room(const look *s, size_t f) {
    LS_EACH (const ls_hauled, load, s->p->farm->hauled)
        for (size_t d = 0; d < load->n; d++)
            if (load->drops[d].field == s->p->field[f]) return "it has had all it may take";
    return "it takes less than the smallest drop of the trucks";
}

static bool any(const look *s, const bool *of, size_t f) {
    for (size_t i = 0; i < s->p->lots && of != NULL; i++)
        if (of[ls_haul_lot_field(s->p, i, f)] && s->p->rate[ls_haul_lot_field(s->p, i, f)] > 0) return true;
    return false;
}

static const char *day(const ls_haul_planner *p, ls_date d) {
    return ls_date_words(p->arena, d, ls_farm_year(p->farm));
}

static const char *not_open(const look *s, size_t f) {
    ls_haul_planner *p = s->p;
    if (any(s, s->q.open, f)) return NULL;
    bool later = any(s, s->q.later, f);
    if (later && !s->stack_full) return NULL;
    const ls_field *field = p->field[f];
    bool begins = ls_field_opens(field);
    return ls_arena_printf(p->arena, "open %s%s%s, not while you haul%s", begins ? day(p, field->allowed.from) : "",
                           begins ? " to " : "until ", day(p, field->allowed.to),
                           later                ? "; the stack is full"
                           : p->stack_tons == 0 ? "; no stack"
                                                : "");
}

/* By the loads that are gone alone? */
static bool had_all(const look *s, size_t b) {
    const ls_haul_past *gone = s->p->gone;
    const ls_quantity *most = &s->p->farm->buyers.at[b].order->most;
    if (gone == NULL) return false;
    return most->unit.dimension.power[LS_LOAD] == 1
               ? (double)gone->loads[b] + 1 > most->value
               : most->value / ls_unit_of("ton").factor - gone->tons[b] < s->q.smallest_drop;
}

/* Does the best paid full load bring less than it costs? */
static bool costs_more(const look *s, size_t f) {
    for (size_t i = 0; i < s->p->lots; i++) {
        size_t at = ls_haul_lot_field(s->p, i, f);
        double each = s->q.trip_cost[s->p->buyer[f]] / s->p->payload[i];
        if (s->q.open[at] ? s->q.value[at] > each : s->q.later_value[at] > each) return false;
    }
    return true;
}

static const char *why(const look *s, size_t f) {
    static const char *const better[LS_AIMS] = {
        "not needed: the litter goes where it brings more",
        "not needed: the litter goes where it takes fewer truck miles",
        "not needed: the litter goes where crops need its phosphorus more, or as much"};
    const ls_haul_planner *p = s->p;
    size_t b = p->buyer[f];
    const char *words = ls_haul_no_rate(s->p, f);
    if (words != NULL) return words;
    if (p->high->loads_n == 0 && !s->homeless) return "nothing is left to haul";
    if (ls_haul_top_rate(p, f) * p->acres[f] < s->q.smallest_drop) return no_room(s, f);
    words = not_open(s, f);
    if (words != NULL) return words;
    if (ls_haul_order_full(&s->q, b, s->tons[b], s->loads[b]))
        return had_all(s, b) ? "the buyer's order is filled with the loads it has had"
                             : "the buyer's order is filled on other fields";
    if (s->homeless) return "no whole load of what is left fits there";
    return p->aim == LS_AIM_MONEY && costs_more(s, f) ? "costs more than it brings, and the litter has other fields"
                                                      : better[p->aim];
}

/* ---- orders ---- */

static void short_orders(look *s) {
    ls_haul_planner *p = s->p;
    double *tons = LS_NEW(p->arena, double, p->buyers), largest = ls_haul_largest(p);
    long *loads = LS_NEW(p->arena, long, p->buyers);
    ls_haul_count(p, p->middle, tons, loads);
    for (size_t b = 0; b < p->buyers; b++) {
        const ls_buyer *buyer = &p->farm->buyers.at[b];
        long missing = s->q.least_loads[b] - loads[b];
        double lacks = fmax(s->q.least[b] - tons[b], missing > 0 ? (double)missing * largest : 0);
        if (lacks < 0.005) continue;
        ls_short_order *one = LS_PUSH(p->arena, &p->plan->short_orders);
        one->buyer = buyer;
        one->short_of =
            ls_haul_decided(ls_haul_of_buyer(p, buyer), "short", "tons %s is short of its least, likely case", "ton",
                            lacks, "the split of the likely case; a load that is missing counts as a full one");
    }
}

void ls_haul_tell_unused(ls_haul_planner *p) {
    look s = look_at(p);
    bool *used = LS_NEW(p->arena, bool, p->fields);
    LS_EACH_OF (const ls_split_drop, d, p->high->drops, p->high->drops_n) used[d->field] = true;
    for (size_t f = 0; f < p->fields; f++)
        if (!used[f])
            *LS_PUSH(p->arena, &p->plan->unused) =
                (ls_unused_field){&p->farm->buyers.at[p->buyer[f]], p->field[f], why(&s, f)};
    short_orders(&s);
}
