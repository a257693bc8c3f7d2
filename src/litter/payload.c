/* What a full truck holds: by its body, the pail and its weight limit; once full loads went over a
 * scale, by them too, those of like litter in other houses among them. */
#include "house.h"

#include <math.h>
#include <stdlib.h>

/* Of the heaviest weighed load: less is a part load. Of a full body as it was thought of before: no litter is so much
 * lighter, so less is a part load too, be it the only one yet. Of the truck's limit: at it the body may not be full. */
static const double full_from = 0.75, likely_from = 0.5, at_limit_from = 0.97;

/* ---- like litter ---- */

static long flocks_of(const ls_house *house) {
    long n = 0;
    for (size_t i = 0; i < house->flocks.n; i++) n += ls_flock_times(&house->flocks.at[i]);
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
    bool like = !(LS_GIVEN(a->alike) && !a->alike.yes) && !(LS_GIVEN(b->alike) && !b->alike.yes) && a->flocks.n > 0 &&
                b->flocks.n > 0 && flocks_of(a) == flocks_of(b) &&
                a->flocks.at[0].birds.is == b->flocks.at[0].birds.is && a->bedding.n == b->bedding.n &&
                labs(last_stay(a) - last_stay(b)) <= NEAR;
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

static void add_house(const ls_litter_house *h, const ls_truck *truck, const ls_house *house, size_t litter,
                      full_loads *out) {
    double limit = ls_truck_payload(truck) * at_limit_from;
    const ls_truck *untold = h->farm->trucks.n == 1 ? truck : NULL;
    for (size_t k = 0; k < ls_litter_lots_of(house); k++) {
        const char *code = ls_lot_code(h->arena, house, ls_litter_side(house, k));
        LS_EACH (const ls_hauled, load, h->farm->hauled) {
            if (!load->weighed || load->tons <= 0 || !ls_litter_load_is_of(load, code) ||
                (load->truck != NULL ? load->truck : untold) != truck)
                continue;
            out->heaviest = fmax(out->heaviest, load->tons);
            out->at[out->n++] = (ls_full_load){log(load->tons), litter, load->day, load->tons >= limit};
        }
    }
}

/* Of the truck, of this house and those of like litter. */
static full_loads weighed_loads(const ls_litter_house *h, const ls_truck *truck) {
    const ls_farm *f = h->farm;
    full_loads out = {.at = LS_NEW(h->arena, ls_full_load, f->hauled.n)};
    if (f->hauled.n == 0) return out;
    for (size_t i = 0; i < f->houses.n; i++)
        if (&f->houses.at[i] == h->house)
            add_house(h, truck, h->house, 0, &out);
        else if (is_like(h->house, &f->houses.at[i]))
            add_house(h, truck, &f->houses.at[i], i + 1, &out);
    return out;
}

/* Part loads left out. */
static void keep_full(full_loads *loads, double likely) {
    double least = fmax(likely_from * likely, full_from * loads->heaviest);
    size_t n = 0;
    for (size_t i = 0; i < loads->n; i++) {
        if (exp(loads->at[i].log_tons) < least) continue;
        loads->at_limit += loads->at[i].at_limit;
        loads->of_others += loads->at[i].litter != 0;
        loads->at[n++] = loads->at[i];
    }
    loads->n = n;
}

/* ---- with the body and the pail ---- */

static ls_full_load_spreads spreads_of(const ls_litter_house *h) {
    return (ls_full_load_spreads){
        ls_litter_practice(h, "load to load")->value, ls_litter_practice(h, "load to load df")->value,
        ls_litter_practice(h, "day to day loads")->value, ls_litter_practice(h, "within farm density")->value};
}

/* No weight is without bounds. */
static double log_scale(const ls_litter_house *h, ls_line line) {
    return fmax(ls_line_log_scale(h->w, line, NULL), 0.001);
}

/* Figures of one thing, before any load and by those of each kind of truck: normal in logs. */
static ls_line pooled(const ls_litter_house *h, ls_worksheet *w, const char *key, const char *label, const char *unit,
                      ls_line before, const ls_line *told, size_t n) {
    ls_litter_opinions o = {0};
    ls_litter_opine(&o, "before any load", before, log_scale(h, before));
    for (size_t k = 0; k < n; k++)
        if (told[k]) ls_litter_opine(&o, "by the loads weighed", told[k], log_scale(h, told[k]));
    ls_litter_give_weights(&o, w, ls_printf(w, "%s.weight", key), 0, "weight of what was known %s");
    return ls_geomean(w, key, label, unit, o.x, o.weight, o.n);
}

/* A body comes heaped or short, and litter packs in it more than in a pail or less: the same loader
 * fills all kinds of trucks. */
static ls_line body_fill(const ls_litter_house *h) {
    return ls_litter_factor(h, h->all, "truck-1.body-fill", "what a full body holds over its volume x density",
                            "full body");
}

/* What a full body holds before any load; without a body what the truck may carry. */
static ls_line by_body(const ls_litter_house *h, const ls_litter_kind *kind, const char *key, ls_line density) {
    static const char label[] = "a full body of loose litter";
    return LS_GIVEN(kind->truck->body)
               ? LS_PRODUCT(kind->w, key, label, "ton", ls_litter_body(h, kind->truck), density, body_fill(h))
               : LS_PRODUCT(kind->w, key, label, "ton", ls_litter_weight_limit(h, kind->truck), body_fill(h));
}

/* Loads at the limit hold at least that, and else what the others lead to expect. */
static ls_full_loads fitted(const ls_litter_house *h, const full_loads *loads, ls_line before) {
    ls_full_load *x = LS_NEW(h->arena, ls_full_load, loads->n);
    double expected = log(ls_line_value(h->w, before));
    size_t n = 0;
    for (size_t i = 0; i < loads->n; i++)
        if (!loads->at[i].at_limit) x[n++] = loads->at[i];
    if (n > 0) {
        ls_full_loads below = ls_full_loads_of(x, n, spreads_of(h));
        double own = pow(below.sd, -2), prior = pow(log_scale(h, before), -2);
        expected = (own * below.mean + prior * expected) / (own + prior);
    }
    for (size_t i = 0; i < loads->n; i++) {
        x[i] = loads->at[i];
        if (x[i].at_limit) x[i].log_tons = fmax(x[i].log_tons, expected);
    }
    return ls_full_loads_of(x, loads->n, spreads_of(h));
}

/* The mean of the full loads, as far as they tell that of the litter. */
static ls_line mean_of(const ls_litter_house *h, const ls_litter_kind *kind, const full_loads *loads,
                       const ls_full_loads *fit) {
    ls_worksheet *w = ls_part(kind->w, NULL, "full-loads");
    ls_line mean =
        ls_leaf_exact(w, "mean", "log mean of the full loads weighed", "ton", exp(fit->mean), LS_BY_LOG,
                      ls_printf(w,
                                "%zu over a scale on %zu day%s; of them %zu at the weight limit, which hold at "
                                "least that, and %zu of like litter in other houses; part loads left out",
                                loads->n, fit->days, fit->days == 1 ? "" : "s", loads->at_limit, loads->of_others));
    ls_line known = ls_leaf_by(w, "known", "how well they tell the mean", "", ls_litter_practice(h, "day to day loads"),
                               1, ls_spread_lognormal(fit->sd),
                               "a factor of 1: this over the days, load to load over the loads, house to house "
                               "for those of other houses");
    return LS_PRODUCT(w, "told", "a full load by the loads weighed", "ton", mean, known);
}

/* The loads' density is that of the litter as far as a full body holds its volume: *told. */
static void learn(ls_litter_house *h, ls_litter_kind *kind, const full_loads *loads, ls_line density, ls_line *told) {
    ls_line before = by_body(h, kind, "payload.volume-before", density);
    kind->fit = fitted(h, loads, before);
    ls_line mean = mean_of(h, kind, loads, &kind->fit);
    kind->full_body = pooled(h, kind->w, "payload.volume", "a full load, weight limit aside", "ton", before, &mean, 1);
    if (!LS_GIVEN(kind->truck->body) || loads->at_limit == loads->n) return;
    ls_line filled = LS_PRODUCT(ls_litter_truck_part(h, kind->truck), "body-filled", "volume of a full body", "yd3",
                                ls_litter_body(h, kind->truck), body_fill(h));
    *told = ls_quotient(kind->w, "full-loads.density", "density by the loads weighed", "lb/ft3", mean, filled);
}

/* The next load is one of another day: about the mean as days and loads are. */
static void payload_lines(ls_litter_house *h, ls_litter_kind *kind) {
    ls_worksheet *w = kind->w, *next = ls_part(w, NULL, "next-load");
    ls_line weight = ls_litter_weight_limit(h, kind->truck), body = kind->full_body;
    h->one_load = ls_leaf_exact(h->w, "one_load", "one load", "load", 1, LS_BY_DEFINITION, NULL);
    ls_line most = body ? LS_LEAST(w, "payload.most", "payload, by weight or volume", "ton", weight, body) : weight;
    kind->payload = ls_quotient(w, "payload", "payload of a trip", "ton/load", most, h->one_load);
    ls_line day = ls_litter_factor(h, next, "day", "a day's loads over the mean", "day to day loads");
    ls_line one = ls_leaf_by(next, "load", "a load over those of its day", "", ls_litter_practice(h, "load to load"), 1,
                             ls_spread_log_student(kind->fit.load, kind->fit.df),
                             "a factor of 1; the scatter of the loads weighed is in it");
    ls_line holds =
        LS_PRODUCT(next, "body", "the next full load, weight limit aside", "ton", body ? body : weight, day, one);
    kind->next_load = LS_LEAST(next, "", "the next full load, by weight or volume", "ton", weight, holds);
}

/* ---- several kinds of truck ---- */

/* By count and weight limit: the rounds are known once there are fields. */
static ls_line share_of(const ls_litter_house *h, const ls_litter_kind *kind) {
    const ls_farm *f = h->farm;
    ls_line *carry = LS_NEW(h->arena, ls_line, f->trucks.n), all;
    for (size_t k = 0; k < f->trucks.n; k++) {
        const ls_truck *truck = &f->trucks.at[k];
        ls_worksheet *w = ls_litter_truck_part(h, truck);
        /* One that never leaves the road needs a stack to haul to. */
        if (truck->only.is != LS_ONLY_ROAD || (f->stack != NULL && f->stack->roofed.yes))
            carry[k] =
                LS_PRODUCT(w, "carry", "what all of the kind carry in a round", "ton",
                           ls_leaf_count(w, "count", "trucks", "", &truck->count), ls_litter_weight_limit(h, truck));
    }
    all = ls_sum(h->all, "trucks-all.carry", "what all trucks carry in a round", "ton", carry, f->trucks.n);
    ls_line own = carry[kind->truck - f->trucks.at];
    return own && all ? ls_quotient(ls_litter_truck_part(h, kind->truck), "share",
                                    ls_printf(h->w, "share of the litter that %s hauls", kind->truck->name.text), "%",
                                    own, all)
                      : LS_NO_LINE;
}

/* The mean payload: a ton over the loads of it, each kind's by its share. */
static ls_line mean_payload(ls_litter_house *h) {
    size_t n = h->farm->trucks.n;
    ls_line *loads = LS_NEW(h->arena, ls_line, n);
    if (n == 1) return h->kinds[0].payload;
    for (size_t k = 0; k < n; k++) {
        h->kinds[k].share = share_of(h, &h->kinds[k]);
        loads[k] = ls_quotient(h->kinds[k].w, "loads-of-a-ton", "its loads of a ton of all litter", "load/ton",
                               h->kinds[k].share, h->kinds[k].payload);
    }
    return ls_quotient(h->w, "payload", "payload of a trip, on the mean of the trucks", "ton/load",
                       ls_leaf_exact(h->w, "one-mean", "one", "", 1, LS_BY_DEFINITION, NULL),
                       ls_sum(h->w, "loads-of-a-ton", "loads of a ton", "load/ton", loads, n));
}

/* ---- all of it ---- */

/* The full loads of each kind, as is thought before any of them; do any tell the density? */
static bool find_loads(ls_litter_house *h, full_loads *loads) {
    bool any = false;
    for (size_t k = 0; k < h->farm->trucks.n; k++) {
        const ls_truck *truck = &h->farm->trucks.at[k];
        h->kinds[k].truck = truck;
        h->kinds[k].w = h->farm->trucks.n == 1 ? h->w : ls_part(h->w, NULL, "truck-%zu", k + 1);
        loads[k] = weighed_loads(h, truck);
        any = any || (LS_GIVEN(truck->body) && loads[k].n > 0);
    }
    return any;
}

void ls_litter_payload(ls_litter_house *h) {
    static const char label[] = "density of the loose litter in the truck";
    size_t n = h->farm->trucks.n;
    if (n == 0) {
        h->loose_density = ls_litter_loose_before(h, "loose_density", label);
        return;
    }
    h->kinds = LS_NEW(h->arena, ls_litter_kind, n);
    full_loads *loads = LS_NEW(h->arena, full_loads, n);
    ls_line *told = LS_NEW(h->arena, ls_line, n);
    bool may_tell = find_loads(h, loads), tells = false;
    ls_line density =
        ls_litter_loose_before(h, may_tell ? "loose_density-before" : "loose_density",
                               may_tell ? "density of the loose litter, before any load was weighed" : label);
    ls_full_load_spreads usual = spreads_of(h);
    for (size_t k = 0; k < n; k++) {
        ls_litter_kind *kind = &h->kinds[k];
        bool body = LS_GIVEN(kind->truck->body);
        keep_full(&loads[k],
                  body ? kind->truck->body.value * ls_line_value(h->w, density) : ls_truck_payload(kind->truck));
        kind->fit = (ls_full_loads){.load = usual.load, .df = usual.df};
        if (loads[k].n > (body ? 0 : loads[k].at_limit)) learn(h, kind, &loads[k], density, &told[k]);
        tells = tells || told[k];
    }
    h->loose_density = !may_tell ? density
                       : tells   ? pooled(h, h->w, "loose_density", label, "lb/ft3", density, told, n)
                                 : ls_same(h->w, "loose_density", label, "lb/ft3", density);
    for (size_t k = 0; k < n; k++) {
        if (!h->kinds[k].full_body && LS_GIVEN(h->kinds[k].truck->body))
            h->kinds[k].full_body = by_body(h, &h->kinds[k], "payload.volume", tells ? h->loose_density : density);
        payload_lines(h, &h->kinds[k]);
    }
    h->payload = mean_payload(h);
}
