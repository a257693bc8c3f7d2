/* Tons, acres and rates of loads, and what becomes of the litter of each stage, as lines. */
#include "plan.h"

#include <math.h>

/* How good the decision is, for whoever asks where its tons come from. */
static const char *certificate(ls_haul_planner *p) {
    static const char *const names[LS_GOALS] = {"tons on fields", "tons short of orders", "net return", "drops"};
    ls_text *t = ls_text_new(p->arena);
    for (int k = 0; k < LS_GOALS; k++) {
        const ls_goal *g = &p->high->goals[k];
        const char *unit = k == LS_GOAL_RETURN ? " $" : "";
        ls_text_addf(t, "%s%s %s%s, at best %s%s", k > 0 ? "; " : "", names[k], ls_number_text(p->arena, g->value, 6),
                     unit, ls_number_text(p->arena, g->bound, 6), unit);
    }
    ls_text_add(t, ", for the litter of the high case with promised loads kept");
    return t->s;
}

/* ---- loads ---- */

/* The lines of fields that get litter are made once more, and stay. */
static const ls_field_rates **used_fields(ls_haul_planner *p) {
    const ls_field_rates **rates = LS_NEW(p->arena, const ls_field_rates *, p->fields);
    LS_EACH_OF (const ls_split_drop, d, p->high->drops, p->high->drops_n)
        if (rates[d->field] == NULL) rates[d->field] = ls_haul_rates(p, d->field);
    return rates;
}

/* A ticket that was handed out keeps its rate, whatever might go on now. */
static ls_line rate_of(ls_haul_planner *p, const ls_load *load, ls_worksheet *w, const ls_split_drop *d,
                       const ls_rate *now) {
    if (!(d->rate > 0) || d->rate == p->rate[ls_haul_lot_field(p, d->lot, d->field)]) return now->rate;
    return ls_leaf_exact(
        w, "rate", ls_printf(w, "load %s: rate on its ticket", load->ticket), "ton/ac",
        d->rate * ls_unit_of("ton/ac").factor, LS_BY_LOG,
        ls_printf(w, "entry %ld of the haul log, in which it was handed out", load->issued->log_entry));
}

static void drop_lines(ls_haul_planner *p, const ls_load *load, size_t k, const ls_split_drop *d,
                       const ls_field_rates *rates, const char *words) {
    ls_drop *drop = (ls_drop *)&load->drops[k];
    ls_worksheet *w = ls_part(p->w, drop->field->name.text, "plan.load.%s.%zu", load->ticket, k + 1);
    const ls_rate *rate = ls_haul_rate_of(p, rates, d->lot, d->field);
    drop->analysis = rate->lot->analysis;
    drop->rate = rate_of(p, load, w, d, rate);
    drop->takes = drop->rate == rate->rate
                      ? rate->takes
                      : LS_PRODUCT(w, "takes", "what %s takes at that rate", "ton", drop->rate, rates->spreadable);
    drop->value_per_ton = rate->value_per_ton;
    drop->tons = ls_haul_decided(w, "tons", ls_printf(w, "load %s: tons on %%s", load->ticket), "ton", d->tons, words);
    if (drop->field->yard) /* nothing is spread there */
        drop->rate = LS_NO_LINE;
    drop->acres =
        ls_quotient(w, "acres", ls_printf(w, "load %s: acres of %%s", load->ticket), "ac", drop->tons, drop->rate);
}

static void load_lines(ls_haul_planner *p, ls_load *load, const ls_split_load *from, const ls_field_rates **rates,
                       const char *words) {
    ls_worksheet *w = ls_part(p->w, load->ticket, "plan.load.%s", load->ticket);
    static const char key[] = "tons", label[] = "load %s";
    ls_line *tons = LS_NEW(p->arena, ls_line, load->n);
    for (size_t k = 0; k < load->n; k++) {
        const ls_split_drop *d = &p->high->drops[from->first + k];
        drop_lines(p, load, k, d, rates[d->field], words);
        tons[k] = load->drops[k].tons;
    }
    load->tons = load->n == 0 ? ls_haul_decided(w, key, label, "ton", from->tons, words)
                              : ls_sum(w, key, label, "ton", tons, load->n);
}

/* ---- stages ---- */

static const char *const stage_names[] = {"low", "mid", "high"};
static const char *const stage_words[] = {"low case (10% point)", "likely case (50% point)", "high case (90% point)"};

static ls_line zero(ls_haul_planner *p) { return ls_haul_exact(p, "plan.none", "nothing", "ton", 0); }

/* Tons of the loads of a stage to fields, or to the stack. */
static ls_line of_loads(ls_haul_planner *p, int stage, bool to_stack) {
    ls_line *lines = LS_NEW(p->arena, ls_line, p->plan->loads_n);
    size_t n = 0;
    LS_EACH_OF (const ls_load, l, p->loads, p->plan->loads_n)
        if ((l->buyer == NULL) == to_stack && (stage == 2 || ls_load_counted(l))) lines[n++] = l->tons;
    ls_worksheet *w = ls_part(p->w, stage_words[stage], "plan.%s", to_stack ? "stacked" : "placed");
    const char *key = stage_names[stage], *label = to_stack ? "into the stack, %s" : "straight to fields, %s";
    return n == 0 ? ls_same(w, key, label, "ton", zero(p)) : ls_sum(w, key, label, "ton", lines, n);
}

/* The low stage's own answer: it is not among the loads but for the firm ones. */
static ls_line of_low(ls_haul_planner *p, const double *tons, const char *key, const char *label) {
    double sum = 0;
    for (size_t i = 0; i < p->house_lots; i++) sum += tons[i];
    return ls_haul_decided(ls_part(p->w, stage_words[0], "plan"), key, label, "ton", sum, "the split of the low case");
}

static void stage_lines(ls_haul_planner *p, int stage) {
    ls_worksheet *w = ls_part(p->w, stage_words[stage], "plan");
    ls_q q = p->e->tons;
    double tons = stage == 0 ? q.low : stage == 1 ? q.mid : q.high;
    const char *name = stage_names[stage];
    ls_line all = ls_leaf_exact(w, ls_printf(w, "litter.%s", name), "all litter, %s", "ton", tons, LS_BY_SIMULATION,
                                "a point of the total's own draws");
    ls_plan *plan = p->plan;
    plan->straight[stage] =
        stage == 0 ? of_low(p, p->low->straight, "placed.low", "straight to fields, %s") : of_loads(p, stage, false);
    plan->stacked[stage] =
        stage == 0 ? of_low(p, p->low->stacked, "stacked.low", "into the stack, %s") : of_loads(p, stage, true);
    ls_line gone = LS_SUM(w, ls_printf(w, "gone.%s", name), "litter with a field, or in the stack", "ton",
                          plan->straight[stage], plan->stacked[stage]);
    ls_line left = ls_difference(w, ls_printf(w, "left.%s", name), "litter less that", "ton", all, gone);
    plan->unplaced[stage] =
        LS_GREATEST(w, ls_printf(w, "unplaced.%s", name), "litter with no field, %s", "ton", left, zero(p));
    plan->all_placed[stage] = ls_line_value(w, plan->unplaced[stage]) < ls_haul_practice(p, "smallest drop")->value;
}

/* Loads that the litter without a field would fill, lot by lot; a rest below one drop is rounding. */
static long homeless_loads(const ls_haul_planner *p, const ls_split *s) {
    double least = ls_haul_smallest_drop(p);
    long n = 0;
    for (size_t i = 0; i < p->lots; i++)
        if (s->unplaced[i] >= least) n += (long)ceil(s->unplaced[i] / p->payload[i] - 1e-9);
    return n;
}

void ls_haul_lines(ls_haul_planner *p) {
    const char *words = certificate(p);
    const ls_field_rates **rates = used_fields(p);
    LS_EACH_OF (ls_load, load, p->loads, p->loads_n) load_lines(p, load, ls_haul_split_of(p, load), rates, words);
    for (int stage = 0; stage < LS_STAGES; stage++) stage_lines(p, stage);
    p->plan->homeless = homeless_loads(p, p->middle);
    p->plan->high_homeless = homeless_loads(p, p->high);
}
