#include "plan_rules.h"

#include <math.h>
#include <string.h>

double plan_rules_value(const plan_rules *t, ls_line line) { return ls_line_value(t->w, line); }

static double value(const plan_rules *t, ls_line line) { return plan_rules_value(t, line); }

static const double ACRE = 43560;

static double acres_gone(const plan_rules *t, const ls_field *field) {
    double acres = 0;
    for (size_t i = 0; i < t->farm->hauled.n; i++)
        for (size_t k = 0; k < t->farm->hauled.at[i].n; k++)
            if (t->farm->hauled.at[i].drops[k].field == field) acres += t->farm->hauled.at[i].drops[k].acres;
    return acres;
}

/* No field more than its limits, no acre twice. */
static void field_holds(const plan_rules *t, const plan_bounds *b) {
    double acres = 0;
    for (size_t i = 0; i < t->plan->loads_n + t->plan->out_n; i++) {
        const ls_load *load = i < t->plan->loads_n ? &t->plan->loads[i] : &t->plan->out[i - t->plan->loads_n];
        const double *most = b->most[(size_t)(load->lot - t->estimate->lots) * t->farm->trucks.n + load->kind];
        for (size_t k = 0; k < load->n; k++) {
            const ls_drop *d = &load->drops[k];
            if (d->field != b->field) continue;
            acres += value(t, d->acres);
            for (size_t j = 0; j < PLAN_LIMITS; j++)
                PLAN_HOLDS(t, value(t, d->tons) / value(t, d->acres) <= most[j] * (1 + 2e-4));
            PLAN_HOLDS(t, !b->field->phosphorus || b->field->phosphorus->rating.is != LS_RATING_VERY_HIGH);
        }
    }
    PLAN_HOLDS(t, acres <= fmax(0, b->acres - acres_gone(t, b->field)) * (1 + 1e-6) + ACRE / 1000);
}

/* Pieces add up, none is too small, none outside its window, no load beyond the truck. */
static void load_holds(const plan_rules *t, const ls_load *load) {
    double sum = 0, tons = value(t, load->tons);
    const ls_truck *truck = &t->farm->trucks.at[load->kind];
    PLAN_HOLDS(t, load->from_stack || (1 <= load->number && load->number <= truck->count.n));
    for (size_t k = 0; k < load->n; k++) {
        const ls_drop *d = &load->drops[k];
        sum += value(t, d->tons);
        PLAN_HOLDS(t, ls_truck_spreads_on(truck, load->buyer, d->field));
        PLAN_HOLDS(t, truck->rate == NULL || load->issued != NULL ||
                          value(t, d->tons) / value(t, d->acres) >= truck->rate->least.value * (1 - 2e-4));
        PLAN_HOLDS(t, d->field >= load->buyer->fields.at && d->field < load->buyer->fields.at + load->buyer->fields.n);
        PLAN_HOLDS(t, value(t, d->tons) >= 2000 * (1 - 1e-9) || load->n == 1);
        ls_window open = d->field->open.days;
        if (!LS_GIVEN(d->field->open)) continue;
        if (load->from_stack)
            PLAN_HOLDS(t, open.from <= load->from && load->from <= open.to &&
                              load->from <= t->farm->stack->kept_until.day);
        else
            PLAN_HOLDS(t, open.from <= load->day && load->day <= open.to);
    }
    PLAN_HOLDS(t, load->buyer == NULL || fabs(sum - tons) < 1e-3);
    PLAN_HOLDS(t, tons > 0 && tons <= value(t, load->lot->kinds[load->kind].payload.line) + 1e-3);
}

static double had(const plan_rules *t, const ls_buyer *b, bool loads) {
    double sum = 0;
    for (size_t i = 0; i < t->farm->hauled.n; i++) {
        const ls_hauled *h = &t->farm->hauled.at[i];
        if (h->n > 0 && h->drops[0].buyer == b) sum += loads ? 1 : h->tons;
    }
    return sum;
}

static double loads_of(const ls_plan *p, const ls_buyer *b) {
    double n = 0;
    for (size_t i = 0; i < p->loads_n; i++) n += p->loads[i].buyer == b;
    for (size_t i = 0; i < p->out_n; i++) n += p->out[i].buyer == b;
    return n;
}

static double tons_of(const plan_rules *t, const ls_buyer *b) {
    double sum = 0;
    for (size_t i = 0; i < t->plan->loads_n; i++)
        sum += t->plan->loads[i].buyer == b ? value(t, t->plan->loads[i].tons) : 0;
    for (size_t i = 0; i < t->plan->out_n; i++) sum += t->plan->out[i].buyer == b ? value(t, t->plan->out[i].tons) : 0;
    return sum;
}

static void order_holds(const plan_rules *t, const ls_buyer *b) {
    if (!b->order || !b->order->most.form) return;
    bool loads = b->order->most.unit.dimension.power[LS_LOAD] == 1;
    PLAN_HOLDS(t, (loads ? loads_of(t->plan, b) : tons_of(t, b)) <=
                      fmax(0, b->order->most.value - had(t, b, loads)) + 1e-3);
}

/* Fields + stack + no home = the tons of the stage; and the loads say the same. */
static void stages_hold(const plan_rules *t) {
    const double total[] = {t->estimate->tons.low, t->estimate->tons.mid, t->estimate->tons.high};
    double straight[LS_STAGES] = {0}, stacked[LS_STAGES] = {0};
    for (size_t i = 0; i < t->plan->loads_n; i++) {
        const ls_load *load = &t->plan->loads[i];
        for (int s = load->certainty == LS_POSSIBLE ? 2 : 1; s < LS_STAGES; s++)
            *(load->buyer ? &straight[s] : &stacked[s]) += value(t, load->tons);
    }
    for (int s = 0; s < LS_STAGES; s++) {
        double on = value(t, t->plan->straight[s]), in = value(t, t->plan->stacked[s]),
               left = value(t, t->plan->unplaced[s]);
        PLAN_HOLDS(t, on >= 0 && in >= 0 && left >= -1e-6);
        PLAN_HOLDS(t, fabs(on + in + left - total[s]) < 1e-3);
        PLAN_HOLDS(t, s == 0 || (fabs(on - straight[s]) < 1e-3 && fabs(in - stacked[s]) < 1e-3));
    }
}

/* A lot's firm loads are full ones, and no more than are there: of several kinds each takes its
 * part of as many as are sure if that kind hauls all. */
static void firm_holds(const plan_rules *t) {
    for (size_t i = 0; i < t->estimate->n; i++) {
        const ls_lot *lot = &t->estimate->lots[i];
        double taken = 0;
        for (size_t k = 0; k < t->plan->loads_n; k++) {
            const ls_load *load = &t->plan->loads[k];
            if (load->lot != lot || load->certainty != LS_FIRM) continue;
            taken += 1 / value(t, lot->kinds[load->kind].firm);
            PLAN_HOLDS(t, fabs(value(t, load->tons) - value(t, lot->kinds[load->kind].payload.line)) < 20);
        }
        PLAN_HOLDS(t, taken < 1 + 1e-9);
    }
    for (size_t k = 0; k < t->plan->out_n; k++) { /* nine tenths of what some truck takes of it */
        const ls_load *load = &t->plan->out[k];
        double least = INFINITY;
        for (size_t i = 0; i < t->farm->trucks.n; i++) least = fmin(least, value(t, load->lot->kinds[i].payload.line));
        PLAN_HOLDS(t, load->certainty != LS_FIRM || (load->issued && load->issued->full) ||
                          value(t, load->tons) > 0.9 * least - 20);
    }
}

/* Pounds of a lot that the log tells are in the stack. */
static double logged(const plan_rules *t, const ls_lot *lot) {
    double there = 0;
    for (size_t i = 0; i < t->farm->hauled.n; i++) {
        const ls_hauled *h = &t->farm->hauled.at[i];
        if (strcmp(h->lot, lot->code) == 0 && (h->from_stack || (h->n > 0 && h->drops[0].buyer == NULL)))
            there += h->from_stack ? -h->tons : h->tons;
    }
    return there;
}

/* Pounds by the formula of the shed (6 ft clear at the sides, 12 ft at the end, sides and ends
 * of 1.5 to 1, 7 ft high at most) for so many lots apart, of the lightest litter. */
static double holds(const plan_rules *t, long piles) {
    const ls_stack *s = t->farm->stack;
    double ft = ls_unit_of("ft").factor, light = INFINITY;
    if (s == NULL || !s->roofed.yes) return 0;
    for (size_t i = 0; i < t->estimate->n; i++) light = fmin(light, value(t, t->estimate->lots[i].loose_density));
    double height = fmin(7, s->height.value / ft);
    double section = height * (s->width.value / ft - 12) - 1.5 * height * height;
    double run = s->length.value / ft - 12 - (double)(2 * piles - 1) * 0.75 * height;
    return fmax(0, section) * fmax(0, run) * light * ft * ft * ft;
}

/* What is in the stack, of loads as sure as that, is no more than its piles hold, unless the log
 * alone is; and the plan tells that. */
static void piles_hold(const plan_rules *t, ls_certainty most) {
    double in = 0, by_log = 0;
    long piles = 0, log_piles = 0;
    for (size_t l = 0; l < t->estimate->n; l++) {
        const ls_lot *lot = &t->estimate->lots[l];
        double log = fmax(0, logged(t, lot)), there = log;
        for (size_t i = 0; i < t->plan->loads_n; i++) {
            const ls_load *load = &t->plan->loads[i];
            there += load->buyer == NULL && load->lot == lot && load->certainty <= most ? value(t, load->tons) : 0;
        }
        in += there, by_log += log;
        piles += there >= 20, log_piles += log >= 20;
    }
    if (by_log > holds(t, log_piles > 0 ? log_piles : 1) - 1)
        PLAN_HOLDS(t, in <= by_log + 1);
    else
        PLAN_HOLDS(t, in <= holds(t, piles > 0 ? piles : 1) + 1);
    if (most == LS_LIKELY && t->plan->stack_room != LS_NO_LINE) {
        PLAN_HOLDS(t, t->plan->piles.n == (size_t)piles);
        PLAN_HOLDS(t, fabs(value(t, t->plan->stack_room) - holds(t, piles > 0 ? piles : 1)) < 1);
        PLAN_HOLDS(t, fabs(value(t, t->plan->stack_room) - value(t, t->plan->stack_left) - in) < 40);
    }
}

/* Fewest tons on the way: no more than went in comes out of the stack, and it holds what it can. */
static void stack_holds(const plan_rules *t) {
    piles_hold(t, LS_LIKELY);
    piles_hold(t, LS_POSSIBLE);
    for (size_t l = 0; l < t->estimate->n; l++) {
        const ls_lot *lot = &t->estimate->lots[l];
        double there = 0;
        for (size_t i = 0; i < t->plan->loads_n; i++)
            there +=
                t->plan->loads[i].buyer == NULL && t->plan->loads[i].lot == lot ? value(t, t->plan->loads[i].tons) : 0;
        for (size_t i = 0; i < t->plan->out_n; i++)
            there -= t->plan->out[i].lot == lot ? value(t, t->plan->out[i].tons) : 0;
        PLAN_HOLDS(t, there + logged(t, lot) >= -20);
    }
}

static bool is_part(const plan_rules *t, const ls_load *l) {
    double full = value(t, l->lot->kinds[l->kind].payload.line); /* in whole hundredths of a ton */
    return value(t, l->tons) < floor(full / 20 + 1e-6) * 20 - 10;
}

/* Of a lot: full loads first, firm, likely, possible, then part loads; out of the stack by days. */
static void service_holds(const plan_rules *t, const ls_load *loads, size_t n) {
    for (size_t i = 1; i < n; i++) {
        const ls_load *a = &loads[i - 1], *b = &loads[i];
        if (a->lot != b->lot || a->from < b->from) continue;
        PLAN_HOLDS(t, a->from == b->from && is_part(t, a) <= is_part(t, b));
        PLAN_HOLDS(t, is_part(t, a) < is_part(t, b) || a->certainty <= b->certainty);
    }
}

/* What would help differs from the file. */
static void relief_holds(const plan_rules *t) {
    for (size_t i = 0; i < t->plan->relief.n; i++) {
        const ls_relief *r = &t->plan->relief.at[i];
        PLAN_HOLDS(t, r->kind != LS_RELIEF_WINDOW || r->open.from != r->field->allowed.from ||
                          r->open.to != r->field->allowed.to);
        PLAN_HOLDS(t, r->kind != LS_RELIEF_CAP || value(t, r->to) > r->field->most.value + 1e-9);
    }
}

void plan_rules_hold(const plan_rules *t) {
    relief_holds(t);
    service_holds(t, t->plan->loads, t->plan->loads_n);
    service_holds(t, t->plan->out, t->plan->out_n);
    for (size_t i = 0; i < t->plan->loads_n; i++) load_holds(t, &t->plan->loads[i]);
    for (size_t i = 0; i < t->plan->out_n; i++) load_holds(t, &t->plan->out[i]);
    for (size_t i = 0; i < t->farm->buyers.n; i++) order_holds(t, &t->farm->buyers.at[i]);
    for (size_t i = 0; i < t->bounds.n; i++) field_holds(t, &t->bounds.at[i]);
    stages_hold(t);
    firm_holds(t);
    stack_holds(t);
    PLAN_HOLDS(t, t->plan->goals[LS_GOAL_TONS].value * 2000 > value(t, t->plan->straight[1]) - 20);
    for (int g = 0; g < LS_GOALS; g++) PLAN_HOLDS(t, t->plan->goals[g].gap >= 0);
}

/* ---- made ---- */

static plan_bounds bounds_of(plan_rules *t, const ls_buyer *b, const ls_field *f) {
    size_t before = ls_worksheet_lines(t->w);
    const ls_field_rates *r = ls_agronomy_field(t->agronomy, b, f);
    plan_bounds out = {f, value(t, r->spreadable),
                       ls_arena_alloc(t->arena, sizeof(double[PLAN_LIMITS]), t->estimate->n * t->farm->trucks.n)};
    for (size_t i = 0; i < t->estimate->n * t->farm->trucks.n; i++) {
        const ls_rate *rate = ls_field_rate(r, i / t->farm->trucks.n, i % t->farm->trucks.n);
        const ls_line lines[PLAN_LIMITS] = {rate->nitrogen, rate->phosphorus, rate->cap, rate->spreader, rate->window};
        for (size_t k = 0; k < PLAN_LIMITS; k++)
            out.most[i][k] = lines[k] == LS_NO_LINE ? INFINITY : value(t, lines[k]);
    }
    ls_worksheet_cut(t->w, before);
    return out;
}

plan_rules plan_rules_read(ls_arena *a, const ls_reference *r, const char *path, const char *change, const char *seed) {
    plan_rules t = {.arena = a, .diag = ls_diag_new(a), .seed = seed};
    const ls_farm *farm =
        change == NULL ? ls_farm_read(a, t.diag, r, &path, 1) : ls_farm_read_instead(a, t.diag, r, &path, 1, change);
    if (farm == NULL) {
        printf("\n%s: %s", seed, test_messages(a, t.diag));
        return t;
    }
    t.farm = LS_NEW(a, ls_farm, 1);
    *t.farm = *farm;
    return t;
}

/* Few: what a plan keeps to is checked here, not how good its estimate is. */
enum { DRAWS = 500 };

void plan_rules_plan(plan_rules *t, const ls_reference *r) {
    t->w = ls_worksheet_new(t->arena);
    t->estimate = ls_litter_estimate(t->w, t->farm, r, 1, DRAWS);
    t->agronomy = t->estimate ? ls_agronomy_new(t->w, r, t->estimate) : NULL;
    for (size_t i = 0; t->agronomy && i < t->farm->buyers.n; i++)
        for (size_t k = 0; k < t->farm->buyers.at[i].fields.n; k++)
            *LS_PUSH(t->arena, &t->bounds) = bounds_of(t, &t->farm->buyers.at[i], &t->farm->buyers.at[i].fields.at[k]);
    const ls_plan_terms usual = {.from = LS_NO_DATE};
    t->plan = t->agronomy ? ls_haul_plan(t->w, r, t->estimate, t->agronomy, &usual) : NULL;
    TEST_TEXT(ls_worksheet_fault(t->w), NULL);
}
