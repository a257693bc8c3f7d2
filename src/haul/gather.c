/* The farm in the numbers the split asks for. */
#include "plan.h"

#include <math.h>

enum { MOST_LOADS = 10000 };

static bool complete(ls_haul_planner *p) {
    const ls_farm *f = p->farm;
    size_t before = ls_diag_count(f->diag, LS_ERROR);
    if (f->trucks.n == 0)
        ls_diag_add(f->diag, LS_ERROR, LS_NOWHERE,
                    "add, for example, \"trucks: [{name: spreader truck, count: 2, payload: 11 ton}]\"",
                    "a plan needs the trucks");
    if (f->crew == NULL || !LS_GIVEN(f->crew->arrives))
        ls_diag_add(f->diag, LS_ERROR, LS_NOWHERE, "add, for example, \"crew: {arrives: 2026-02-16, hours: 9 h/day}\"",
                    "a plan needs the day the crew comes");
    else if ((f->crew->days_off & 0x7fu) == 0x7fu)
        ls_diag_add(f->diag, LS_ERROR, f->crew->arrives.at, "leave a weekday out of days_off",
                    "the crew has every day off");
    if (p->fields == 0)
        ls_diag_add(f->diag, LS_ERROR, LS_NOWHERE, "add a section buyers with their fields",
                    "a plan needs buyers with fields");
    return ls_diag_count(f->diag, LS_ERROR) == before;
}

/* ---- loads ---- */

static void payloads(ls_haul_planner *p) {
    for (size_t i = 0; i < p->lots; i++) { /* whole hundredths: what the split works with */
        ls_line payload = ls_haul_lot(p, i)->kinds[p->kind_of[i]].payload.line;
        p->payload[i] = floor(ls_line_shown(p->w, payload) * 100 + 1e-6) / 100;
    }
    for (size_t i = 0; i < p->lots; i++) {
        const ls_truck *truck = &p->farm->trucks.at[p->kind_of[i]];
        double other = p->payload[ls_haul_house_lot(p, p->lot_of[i], p->stack_kind)];
        p->payload_out[i] = truck->only.is == LS_ONLY_ROAD ? other
                            : truck->fields.n > 0          ? fmin(other, p->payload[i])
                                                           : p->payload[i];
    }
}

static bool few_enough(ls_haul_planner *p) {
    double loads = 0;
    for (size_t i = 0; i < p->lots; i++) { /* as if the smallest trucks hauled all of it */
        double tons = ls_haul_is_stacked(p, i) ? p->tons[LS_STAGES - 1][i]
                                               : p->in_lot[LS_STAGES - 1][p->lot_of[i]] / (double)p->kinds;
        loads += p->payload[i] > 0 ? tons / p->payload[i] : INFINITY;
    }
    if (loads <= MOST_LOADS) return true;
    ls_diag_add(p->farm->diag, LS_ERROR, p->farm->trucks.at[0].at, "look at the houses' litter and the trucks' payload",
                "more than %d loads cannot be planned at once", MOST_LOADS);
    return false;
}

/* ---- fields ---- */

/* Down to the steps of the truck's spreader; 0 below its least. */
static double spreadable(const ls_truck *of, double rate) {
    const ls_rate_range *truck = of->rate;
    double ton_ac = ls_unit_of("ton/ac").factor;
    if (truck == NULL) return rate;
    double steps = LS_GIVEN(truck->step) ? truck->step.value / ton_ac : 0;
    if (steps > 0) rate = floor(rate / steps + 1e-9) * steps;
    return LS_GIVEN(truck->least) && rate < truck->least.value / ton_ac - 1e-9 ? 0 : rate;
}

/* The least of a rate's limits but for one (closed: of all); INFINITY: there is none. */
static double least_limit(const ls_haul_planner *p, const ls_rate *rate, ls_limit lifted) {
    const ls_line limits[] = {rate->nitrogen, rate->phosphorus, rate->spreader,
                              lifted == LS_LIMIT_CAP ? LS_NO_LINE : rate->cap,
                              lifted == LS_LIMIT_WINDOW ? LS_NO_LINE : rate->window};
    double least = INFINITY;
    for (size_t k = 0; k < sizeof limits / sizeof *limits; k++)
        if (limits[k] != LS_NO_LINE) least = fmin(least, ls_line_shown(p->w, limits[k]));
    return least;
}

/* Without the plan's own top rate or the cap of the season, where that one binds; never above the
 * published top of the range unless the plan's own goes higher. */
static double rate_without(const ls_haul_planner *p, const ls_truck *truck, const ls_rate *rate, ls_limit lifted) {
    double now = ls_line_shown(p->w, rate->rate), least = least_limit(p, rate, lifted);
    if (rate->limit != lifted) return now;
    if (lifted == LS_LIMIT_CAP) least = fmin(least, ls_haul_practice(p, "cap")->value / ls_unit_of("ton/ac").factor);
    return fmax(now, spreadable(truck, least));
}

/* The least limit, whatever the steps of the spreader; 0: none may go on. */
static double rate_before_steps(const ls_haul_planner *p, const ls_rate *rate) {
    double now = ls_line_shown(p->w, rate->rate), least = least_limit(p, rate, LS_LIMIT_CLOSED);
    return now > 0 && isfinite(least) ? fmax(now, least) : now;
}

/* Pounds of P2O5 in a ton that the crop needs, when a full rate goes on. */
static double met(const ls_haul_planner *p, const ls_field_rates *r, const ls_rate *rate) {
    ls_line need = r->need[LS_FIELD_P2O5], on = rate->on[LS_FIELD_P2O5];
    double tons = ls_line_shown(p->w, rate->rate);
    if (need == LS_NO_LINE || on == LS_NO_LINE || !(tons > 0)) return 0;
    ls_line credits = r->credits[LS_FIELD_P2O5];
    double left = ls_line_shown(p->w, need) - (credits != LS_NO_LINE ? ls_line_shown(p->w, credits) : 0);
    return fmax(0, fmin(ls_line_shown(p->w, on), left)) / tons;
}

/* Limits of the program's own that hold this rate, as bits. */
static unsigned held_by(const ls_field *f, const ls_rate *rate) {
    bool rated = f->phosphorus != NULL && f->phosphorus->rating.is != 0,
         by_litter = rate->limit == LS_LIMIT_NITROGEN || rate->limit == LS_LIMIT_PHOSPHORUS,
         reported = rate->chance_over == LS_NO_LINE;
    return (unsigned)(rate->limit == LS_LIMIT_PHOSPHORUS && !rated) << LS_DEFAULT_PHOSPHORUS |
           (unsigned)(rate->limit == LS_LIMIT_CAP && !LS_GIVEN(f->most)) << LS_DEFAULT_RATE |
           (unsigned)(by_litter && !reported && f->without_lab.is == 0) << LS_DEFAULT_RICH;
}

/* The rates of one field for every lot; its lines are given back. */
static bool field_rates(ls_haul_planner *p, size_t field) {
    size_t before = ls_worksheet_lines(p->w);
    const ls_field_rates *r = ls_haul_rates(p, field);
    if (r == NULL) return false;
    p->acres[field] = ls_line_shown(p->w, r->spreadable);
    for (size_t i = 0; i < p->lots; i++) {
        size_t kind = ls_haul_kind_for(p, i, field);
        size_t at = ls_haul_lot_field(p, i, field);
        const ls_truck *truck = &p->farm->trucks.at[kind];
        const ls_rate *rate = ls_haul_rate_of(p, r, i, field);
        if (!ls_haul_spreads_on(p, kind, field)) continue;
        p->rate[at] = ls_line_shown(p->w, rate->rate);
        p->top_rate[at] = rate_before_steps(p, rate);
        p->free_rate[at] = rate_without(p, truck, rate, LS_LIMIT_CAP);
        p->season_rate[at] = rate_without(p, truck, rate, LS_LIMIT_WINDOW);
        p->met[at] = met(p, r, rate);
        p->defaults[field] |= held_by(p->field[field], rate);
    }
    ls_worksheet_cut(p->w, before);
    return true;
}

static void number_fields(ls_haul_planner *p) {
    p->buyers = p->farm->buyers.n;
    LS_EACH (const ls_buyer, b, p->farm->buyers) p->fields += b->fields.n;
    p->field = LS_NEW(p->arena, const ls_field *, p->fields);
    p->buyer = LS_NEW(p->arena, size_t, p->fields);
    size_t n = 0;
    LS_EACH (const ls_buyer, b, p->farm->buyers)
        LS_EACH (const ls_field, f, b->fields) {
            p->field[n] = f;
            p->buyer[n++] = (size_t)(b - p->farm->buyers.at);
        }
}

static void make_room(ls_haul_planner *p) {
    p->acres = LS_NEW(p->arena, double, p->fields);
    p->defaults = LS_NEW(p->arena, unsigned, p->fields);
    p->plan->trade = p->trade = LS_NEW(p->arena, ls_trade, p->buyers);
    double **of_pairs[] = {&p->rate, &p->top_rate, &p->free_rate, &p->season_rate, &p->met};
    for (size_t k = 0; k < sizeof of_pairs / sizeof *of_pairs; k++)
        *of_pairs[k] = LS_NEW(p->arena, double, p->lots * p->fields);
    p->payload = LS_NEW(p->arena, double, p->lots);
    p->payload_out = LS_NEW(p->arena, double, p->lots);
    p->sure = LS_NEW(p->arena, long, p->house_lots);
    p->range = LS_NEW(p->arena, ls_haul_range, p->lots);
    p->hauled = LS_NEW(p->arena, ls_haul_range, p->lots);
    p->held = LS_NEW(p->arena, double, p->house_lots);
    p->joined = LS_NEW(p->arena, double, p->e->n);
    p->owed = LS_NEW(p->arena, long, p->buyers);
    p->owed_tons = LS_NEW(p->arena, double, p->buyers);
    p->rest_sure = LS_NEW(p->arena, long, p->lots);
    for (int stage = 0; stage < LS_STAGES; stage++) {
        p->tons[stage] = LS_NEW(p->arena, double, p->lots);
        p->rest[stage] = LS_NEW(p->arena, double, p->lots);
        p->in_lot[stage] = LS_NEW(p->arena, double, p->e->n);
    }
    p->room = (ls_haul_room){.acres = LS_NEW(p->arena, double, p->fields),
                             .least = LS_NEW(p->arena, double, p->buyers),
                             .most = LS_NEW(p->arena, double, p->buyers),
                             .least_loads = LS_NEW(p->arena, long, p->buyers),
                             .most_loads = LS_NEW(p->arena, long, p->buyers),
                             .piled = LS_NEW(p->arena, long, p->e->n)};
}

bool ls_haul_gather(ls_haul_planner *p) {
    number_fields(p);
    if (!complete(p)) return false;
    p->kinds = p->farm->trucks.n;
    ls_haul_choose_stack_kind(p);
    ls_haul_number_lots(p);
    make_room(p);
    payloads(p);
    ls_haul_litter(p);
    if (!few_enough(p)) return false;
    bool known = true;
    for (size_t f = 0; f < p->fields; f++) known = field_rates(p, f) && known;
    if (!known) return false;
    ls_haul_take_acres(p);
    ls_haul_find_bound(p);
    ls_haul_stack_room(p);
    ls_haul_times(p);
    ls_haul_calendar(p);
    ls_haul_share_kinds(p);
    ls_haul_litter(p);
    return true;
}
