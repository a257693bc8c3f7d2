/* What a full truck holds: by its body, the pail and its weight limit; once full loads went over a
 * scale, by them too, those of like litter in other houses among them. */
#include "full_loads.h"
#include "house.h"

#include <math.h>
#include <stdlib.h>

/* Of the heaviest weighed load: less is a part load. Of a full body as it was thought of before: no
 * litter is so much lighter, so less is a part load too, be it the only one yet. Of the truck's
 * limit: at it the body may not be full. */
static const double full_from = 0.75, likely_from = 0.5, at_limit_from = 0.97;

/* ---- like litter ---- */

static long flocks_of(const ls_house *house) {
    long n = 0;
    for (size_t i = 0; i < house->flocks.n; i++)
        n += ls_flock_times(&house->flocks.at[i]);
    return n;
}

/* Days from the first bird of the last flock to its removal; 0: not told. */
static long last_stay(const ls_house *house) {
    const ls_flock *last = &house->flocks.at[house->flocks.n - 1];
    ls_date since = ls_house_since(house, last);
    return since == LS_NO_DATE || !LS_GIVEN(last->removed) ? 0 : last->removed.day - since;
}

/* The same birds on the same bedding for as long, to three weeks. */
static bool is_like(const ls_house *a, const ls_house *b) {
    enum { NEAR = 21 };
    bool like = !(LS_GIVEN(a->alike) && !a->alike.yes) && !(LS_GIVEN(b->alike) && !b->alike.yes) &&
                a->flocks.n > 0 && b->flocks.n > 0 && flocks_of(a) == flocks_of(b) &&
                a->flocks.at[0].birds.is == b->flocks.at[0].birds.is &&
                a->bedding.n == b->bedding.n && labs(last_stay(a) - last_stay(b)) <= NEAR;
    for (size_t i = 0; like && i < a->bedding.n; i++)
        like = ls_text_same(a->bedding.at[i].material.text, b->bedding.at[i].material.text);
    return like;
}

/* ---- the loads over a scale ---- */

typedef struct {
    ls_full_load *at;
    size_t n, at_limit, of_others;
    double heaviest; /* weighed, full or not; base units */
} full_loads;

static void add_house(const ls_litter_house *h, const ls_house *house, size_t litter,
                      full_loads *out) {
    const ls_truck *truck = &h->farm->trucks.at[0];
    double limit = ls_truck_payload(truck) * at_limit_from;
    for (size_t k = 0; k < ls_litter_lots_of(house); k++) {
        const char *code = ls_lot_code(h->arena, house, ls_litter_side(house, k));
        for (size_t i = 0; i < h->farm->hauled.n; i++) {
            const ls_hauled *load = &h->farm->hauled.at[i];
            if (!load->weighed || load->tons <= 0 || !ls_litter_load_is_of(load, code) ||
                (load->truck != NULL && load->truck != truck))
                continue;
            out->heaviest = fmax(out->heaviest, load->tons);
            out->at[out->n++] =
                (ls_full_load){log(load->tons), litter, load->day, load->tons >= limit};
        }
    }
}

/* Of the truck, of this house and those of like litter. */
static full_loads weighed_loads(const ls_litter_house *h) {
    const ls_farm *f = h->farm;
    full_loads out = {.at = LS_NEW(h->arena, ls_full_load, f->hauled.n)};
    if (f->hauled.n == 0)
        return out;
    for (size_t i = 0; i < f->houses.n; i++)
        if (&f->houses.at[i] == h->house)
            add_house(h, h->house, 0, &out);
        else if (is_like(h->house, &f->houses.at[i]))
            add_house(h, &f->houses.at[i], i + 1, &out);
    return out;
}

/* Part loads left out. */
static void keep_full(full_loads *loads, double likely) {
    double least = fmax(likely_from * likely, full_from * loads->heaviest);
    size_t n = 0;
    for (size_t i = 0; i < loads->n; i++) {
        if (exp(loads->at[i].log_tons) < least)
            continue;
        loads->at_limit += loads->at[i].at_limit;
        loads->of_others += loads->at[i].litter != 0;
        loads->at[n++] = loads->at[i];
    }
    loads->n = n;
}

/* ---- with the body and the pail ---- */

static ls_full_load_spreads spreads_of(const ls_litter_house *h) {
    return (ls_full_load_spreads){ls_litter_practice(h, "load to load")->value,
                                  ls_litter_practice(h, "load to load df")->value,
                                  ls_litter_practice(h, "day to day loads")->value,
                                  ls_litter_practice(h, "within farm density")->value};
}

/* No weight is without bounds. */
static double log_scale(const ls_litter_house *h, ls_line line) {
    return fmax(ls_line_log_scale(h->w, line, NULL), 0.001);
}

/* Two figures of one thing: the posterior of normal figures in logs. */
static ls_line pooled(const ls_litter_house *h, const char *key, const char *label,
                      const char *unit, ls_line before, ls_line told) {
    ls_litter_opinions o = {0};
    ls_litter_opine(&o, "before any load", before, log_scale(h, before));
    ls_litter_opine(&o, "by the loads weighed", told, log_scale(h, told));
    ls_litter_give_weights(&o, h->w, ls_printf(h->w, "%s.weight", key), 0,
                           "weight of what was known %s");
    return ls_geomean(h->w, key, label, unit, o.x, o.weight, o.n);
}

/* A body comes heaped or short, and litter packs in it more than in a pail or less. */
static ls_line body_fill(const ls_litter_house *h) {
    return ls_litter_factor(h, h->all, "truck-1.body-fill",
                            "what a full body holds over its volume x density", "full body");
}

/* What a full body holds before any load; without a body what the truck may carry, as is thought.
 */
static ls_line by_body(const ls_litter_house *h, const char *key, ls_line density) {
    const ls_truck *truck = &h->farm->trucks.at[0];
    static const char label[] = "a full body of loose litter";
    return LS_GIVEN(truck->body) ? LS_PRODUCT(h->w, key, label, "ton",
                                              ls_litter_body(h->all, truck), density, body_fill(h))
                                 : LS_PRODUCT(h->w, key, label, "ton",
                                              ls_litter_weight_limit(h->all, truck), body_fill(h));
}

/* Loads at the limit hold at least that, and else what the others lead to expect. */
static ls_full_loads fitted(const ls_litter_house *h, const full_loads *loads, ls_line before) {
    ls_full_load *x = LS_NEW(h->arena, ls_full_load, loads->n);
    double expected = log(ls_line_value(h->w, before));
    size_t n = 0;
    for (size_t i = 0; i < loads->n; i++)
        if (!loads->at[i].at_limit)
            x[n++] = loads->at[i];
    if (n > 0) {
        ls_full_loads below = ls_full_loads_of(x, n, spreads_of(h));
        double own = pow(below.sd, -2), prior = pow(log_scale(h, before), -2);
        expected = (own * below.mean + prior * expected) / (own + prior);
    }
    for (size_t i = 0; i < loads->n; i++) {
        x[i] = loads->at[i];
        if (x[i].at_limit)
            x[i].log_tons = fmax(x[i].log_tons, expected);
    }
    return ls_full_loads_of(x, loads->n, spreads_of(h));
}

/* The mean of the full loads, as far as they tell that of the litter. */
static ls_line mean_of(const ls_litter_house *h, const full_loads *loads,
                       const ls_full_loads *fit) {
    ls_worksheet *w = ls_part(h->w, NULL, "full-loads");
    ls_line mean = ls_leaf_exact(
        w, "mean", "log mean of the full loads weighed", "ton", exp(fit->mean), LS_BY_LOG,
        ls_printf(w,
                  "%zu over a scale on %zu day%s; of them %zu at the weight limit, which hold at "
                  "least that, and %zu of like litter in other houses; part loads left out",
                  loads->n, fit->days, fit->days == 1 ? "" : "s", loads->at_limit,
                  loads->of_others));
    ls_line known = ls_leaf_by(
        w, "known", "how well they tell the mean", "", ls_litter_practice(h, "day to day loads"), 1,
        ls_spread_lognormal(fit->sd),
        "a factor of 1: this over the days, load to load over the loads, house to house for those "
        "of other houses");
    return LS_PRODUCT(w, "told", "a full load by the loads weighed", "ton", mean, known);
}

/* The loads' density is that of the litter as far as a full body holds its volume. */
static ls_full_loads learn(ls_litter_house *h, const full_loads *loads, ls_line density) {
    ls_worksheet *w = h->w;
    const ls_truck *truck = &h->farm->trucks.at[0];
    ls_line before = by_body(h, "payload.volume-before", density);
    ls_full_loads fit = fitted(h, loads, before);
    ls_line told = mean_of(h, loads, &fit);
    h->full_body =
        pooled(h, "payload.volume", "a full load, weight limit aside", "ton", before, told);
    if (!LS_GIVEN(truck->body) || loads->at_limit == loads->n)
        return fit;
    ls_line filled = LS_PRODUCT(h->all, "truck-1.body-filled", "volume of a full body", "yd3",
                                ls_litter_body(h->all, truck), body_fill(h));
    h->loose_density =
        pooled(h, "loose_density", "density of the loose litter in the truck", "lb/ft3", density,
               ls_quotient(w, "full-loads.density", "density by the loads weighed", "lb/ft3", told,
                           filled));
    return fit;
}

/* The next load is one of another day: about the mean as days and loads are. */
static void payload_lines(ls_litter_house *h, ls_spread load) {
    ls_worksheet *w = h->w, *next = ls_part(w, NULL, "next-load");
    ls_line weight = ls_litter_weight_limit(h->all, &h->farm->trucks.at[0]), body = h->full_body;
    h->one_load = ls_leaf_exact(w, "one_load", "one load", "load", 1, LS_BY_DEFINITION, NULL);
    ls_line most =
        body ? LS_LEAST(w, "payload.most", "payload, by weight or volume", "ton", weight, body)
             : weight;
    h->payload = ls_quotient(w, "payload", "payload of a trip", "ton/load", most, h->one_load);
    ls_line day =
        ls_litter_factor(h, next, "day", "a day's loads over the mean", "day to day loads");
    ls_line one = ls_leaf_by(next, "load", "a load over those of its day", "",
                             ls_litter_practice(h, "load to load"), 1, load,
                             "a factor of 1; the scatter of the loads weighed is in it");
    ls_line holds = LS_PRODUCT(next, "body", "the next full load, weight limit aside", "ton",
                               body ? body : weight, day, one);
    h->next_load =
        LS_LEAST(next, "", "the next full load, by weight or volume", "ton", weight, holds);
}

void ls_litter_payload(ls_litter_house *h) {
    static const char label[] = "density of the loose litter in the truck";
    if (h->farm->trucks.n == 0) {
        h->loose_density = ls_litter_loose_before(h, "loose_density", label);
        return;
    }
    const ls_truck *truck = &h->farm->trucks.at[0];
    full_loads loads = weighed_loads(h);
    bool body = LS_GIVEN(truck->body), may_tell = body && loads.n > 0;
    ls_line density = ls_litter_loose_before(
        h, may_tell ? "loose_density-before" : "loose_density",
        may_tell ? "density of the loose litter, before any load was weighed" : label);
    keep_full(&loads,
              body ? truck->body.value * ls_line_value(h->w, density) : ls_truck_payload(truck));
    ls_full_load_spreads usual = spreads_of(h);
    ls_full_loads told = {.load = usual.load, .df = usual.df};
    if (loads.n > (body ? 0 : loads.at_limit))
        told = learn(h, &loads, density);
    else if (body)
        h->full_body = by_body(h, "payload.volume", density);
    if (!h->loose_density) /* no load tells it */
        h->loose_density =
            may_tell ? ls_same(h->w, "loose_density", label, "lb/ft3", density) : density;
    payload_lines(h, ls_spread_log_student(told.load, told.df));
}
