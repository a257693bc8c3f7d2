/* Measure next: the farm estimated again with one more measurement, at its usual precision and as
 * the estimate expects it. */
#include "litter/house.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A farm with one house changed. */
typedef struct {
    ls_arena *arena;
    const ls_reference *reference;
    const ls_worksheet *base; /* of the estimate as it is */
    ls_farm farm;
    ls_house *house;
    ls_measured measured;
    ls_lab lab;
    ls_cleanout cleanout;
    double scale; /* of the reading, so that it comes out as expected */
} change;

typedef struct {
    const char *what, *effort;
    /* Put the measurement into the house; false if it would tell nothing here. */
    bool (*add)(change *c);
    const char *line; /* the house's line that should equal its dry tons; NULL: the reading itself
                         is expected */
} measurement;

static const ls_place somewhere = {-1, 1, 1, 1};

static double usual(const change *c, const char *row) {
    return ls_reference_need(c->reference, "practice", "", row, "value")->value;
}

/* A line of the house in the estimate as it is; NaN if there is none. */
static double known(const change *c, const char *tail) {
    ls_line line = ls_line_find(c->base, ls_arena_printf(c->arena, "%s.%s", c->house->slug, tail));
    return line == LS_NO_LINE ? NAN : ls_line_value(c->base, line);
}

/* A figure with a standard deviation. */
static ls_quantity about(double value, double sd, const char *unit) {
    return (ls_quantity){.form = LS_PLUS_MINUS,
                         .value = value,
                         .half = 2 * sd,
                         .unit = ls_unit_of(unit),
                         .text = "",
                         .at = somewhere};
}

/* n readings about a value whose mean has the standard error se, behind those there are already. */
static ls_quantity readings(change *c, const ls_quantity *before, double value, double se, size_t n,
                            const char *unit) {
    size_t old = before->form == LS_READINGS ? before->n : before->form ? 1 : 0;
    double *x = LS_NEW(c->arena, double, old + n);
    for (size_t i = 0; i < old; i++)
        x[i] = before->form == LS_READINGS ? before->readings[i] : before->value;
    double centre = old ? before->value : value;
    for (size_t i = 0; i < n; i++)
        x[old + i] = centre + (i % 2 ? -1 : 1) * se * sqrt((double)(n - 1));
    return (ls_quantity){.form = LS_READINGS,
                         .value = centre,
                         .readings = x,
                         .n = old + n,
                         .unit = ls_unit_of(unit),
                         .text = "",
                         .at = somewhere};
}

/* ---- the kinds of measurement ---- */

static bool add_depth(change *c) {
    if (!LS_GIVEN(c->house->length) || !LS_GIVEN(c->house->width))
        return false;
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        ls_quantity *q = &c->measured.depth.of[z];
        double depth = (q->form ? q->value : 0.5) * (q->form ? 1 : c->scale);
        if (ls_house_share(c->house, (ls_zone)z) > 0)
            *q = readings(c, q, depth, depth * usual(c, "usual depth survey"), 12, "in");
    }
    return true;
}

static bool add_moisture(change *c) {
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        ls_quantity *q = &c->measured.moisture.of[z];
        double value = q->form ? q->value : known(c, "moisture");
        if (ls_house_share(c->house, (ls_zone)z) > 0)
            *q = readings(c, q, value, usual(c, "usual moisture"), 4, "%");
    }
    return true;
}

/* Density as it lies tells tons only beside a depth survey, and the load where no pail was weighed.
 */
static bool add_density(change *c) {
    bool tells = !c->measured.loose_density.form && c->farm.trucks.n > 0;
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        ls_quantity *q = &c->measured.density.of[z];
        if (ls_house_share(c->house, (ls_zone)z) == 0)
            continue;
        tells |= c->measured.depth.of[z].form != 0;
        double value =
            q->form ? q->value : known(c, ls_arena_printf(c->arena, "density.%s", ls_zone_name(z)));
        if (isnan(value))
            value = known(c, "density.published");
        if (isnan(value))
            return false;
        *q = readings(c, q, value, value * usual(c, "usual in-place density"), 3, "lb/ft3");
    }
    return tells;
}

static bool add_pail(change *c) {
    if (c->farm.trucks.n == 0)
        return false;
    ls_quantity *q = &c->measured.loose_density;
    double value = known(c, "loose_density");
    *q = readings(c, q, value, value * usual(c, "usual loose density"), 5, "lb/ft3");
    return true;
}

/* A laboratory report: its moisture, and the phosphorus balance where feed and eggs are given. */
static bool add_lab(change *c) {
    if (c->house->lab.n > 0)
        return false;
    double N = known(c, "per_ton.N"), P2O5 = known(c, "per_ton.P2O5"),
           K2O = known(c, "per_ton.K2O");
    ls_quantity none = {
        .unit = ls_unit_of("lb/ton"), .form = LS_PLAIN, .text = "", .at = somewhere};
    c->lab = (ls_lab){
        .date = {.day = 0, .at = somewhere}, .by = {"a laboratory", somewhere}, .at = somewhere};
    c->lab.N = c->lab.P2O5 = c->lab.K2O = c->lab.moisture = none;
    c->lab.N.value = N, c->lab.P2O5.value = P2O5 / c->scale, c->lab.K2O.value = K2O;
    c->lab.moisture.value = known(c, "moisture");
    c->lab.moisture.unit = ls_unit_of("%");
    c->house->lab.at = &c->lab;
    c->house->lab.n = 1;
    return true;
}

static bool add_cleanout(change *c) {
    double bird_days = known(c, "bird_days");
    if (c->house->last_cleanout || isnan(bird_days))
        return false;
    c->cleanout = (ls_cleanout){.date = {.day = 0, .at = somewhere}, .at = somewhere};
    c->cleanout.weighed = (ls_quantity){.form = LS_PLAIN,
                                        .value = 200000 * c->scale,
                                        .unit = ls_unit_of("ton"),
                                        .text = "",
                                        .at = somewhere};
    c->cleanout.bird_days = (ls_quantity){.form = LS_PLAIN,
                                          .value = bird_days,
                                          .unit = ls_unit_of("bird-day"),
                                          .text = "",
                                          .at = somewhere};
    c->house->last_cleanout = &c->cleanout;
    return true;
}

/* Two weighed loads tell what a full body holds. */
static bool add_loads(change *c) {
    if (c->farm.trucks.n == 0 || !LS_GIVEN(c->farm.trucks.at[0].body))
        return false;
    double value = known(c, "loose_density");
    c->measured.loose_density = about(value, value * usual(c, "usual scale") * sqrt(0.5), "lb/ft3");
    return true;
}

static const measurement measurements[] = {
    {"depth survey",
     "an hour: a rod pushed to the floor at 12 spots of each part of the floor, depths written "
     "down",
     add_depth, "depth-survey.dry"},
    {"moisture test",
     "an evening: 4 samples of each part of the floor, dried in a microwave oven, a kitchen scale",
     add_moisture, NULL},
    {"density as it lies", "an hour: 3 cores of known volume from each part of the floor, a scale",
     add_density, NULL},
    {"pail test of loose litter", "half an hour: 5 level pails of loose litter on a scale",
     add_pail, NULL},
    {"lab sample",
     "an hour and two weeks: one sample mixed from 10 to 12 spots, sent to a laboratory", add_lab,
     "phosphorus.dry"},
    {"last cleanout's scale tickets",
     "a telephone call: ask the hauler for the tons, count the bird-days before it", add_cleanout,
     "last-cleanout.dry"},
    {"first two loads over a scale",
     "on the day: the first two full trucks weighed, empty and full", add_loads, NULL},
};

/* ---- estimating again ---- */

static change begin(ls_arena *a, const ls_reference *r, const ls_worksheet *base, const ls_farm *f,
                    size_t house) {
    change c = {.arena = a, .reference = r, .base = base, .farm = *f, .scale = 1};
    c.farm.diag = ls_diag_new(a);
    c.farm.houses.at = LS_NEW(a, ls_house, f->houses.n);
    memcpy(c.farm.houses.at, f->houses.at, f->houses.n * sizeof *f->houses.at);
    c.house = &c.farm.houses.at[house];
    if (c.house->measured)
        c.measured = *c.house->measured;
    return c;
}

/* The trips (or tons) of the changed farm; false if the measurement tells nothing. */
static bool estimate_again(change *c, const measurement *m, ls_worksheet *w, ls_estimate **e) {
    c->measured.at = somewhere;
    if (!m->add(c))
        return false;
    c->house->measured = &c->measured;
    *e = ls_litter_lines(w, &c->farm, c->reference, 1, LS_BLOCK);
    return *e != NULL;
}

/* How far the reading misses what the estimate expects, as a factor; 1 if nothing is to be matched.
 */
static double miss(const change *c, const measurement *m, const ls_worksheet *w) {
    ls_line line =
        m->line ? ls_line_find(w, ls_arena_printf(c->arena, "%s.%s", c->house->slug, m->line))
                : LS_NO_LINE;
    double expected = known(c, "dry_tons");
    return line == LS_NO_LINE || isnan(expected) ? 1 : expected / ls_line_value(w, line);
}

static ls_line all_of(const ls_estimate *e) {
    return e->trips != LS_NO_LINE ? e->trips : e->tons.line;
}

static ls_drawn draw_range(const ls_worksheet *w, const ls_estimate *e, uint64_t seed) {
    ls_drawn d = ls_drawn_of(all_of(e));
    ls_draw(w, seed, LS_BLOCK, &d, 1);
    return d;
}

/* The range after a measurement; false if it tells nothing. */
static bool range_then(const ls_reference *r, const ls_worksheet *base, const ls_estimate *e,
                       size_t house, const measurement *m, ls_drawn *then) {
    ls_arena *a = ls_arena_new();
    double scale = 1;
    bool told = false;
    for (int pass = 0; pass < 2; pass++) {
        change c = begin(a, r, base, e->farm, house);
        ls_worksheet *w = ls_worksheet_new(a);
        ls_estimate *again = NULL;
        c.scale = scale;
        told = estimate_again(&c, m, w, &again);
        if (!told)
            break;
        scale = miss(&c, m, w);
        if (pass == 1 || fabs(scale - 1) < 1e-9) {
            *then = draw_range(w, again, e->seed);
            break;
        }
    }
    ls_arena_free(a);
    return told;
}

static ls_q as_line(ls_worksheet *w, const char *key, const char *label, bool loads, ls_drawn d) {
    ls_line line =
        ls_leaf_exact(w, key, label, loads ? "load" : "ton", d.mid, LS_BY_SIMULATION,
                      "10, 50 and 90 % points with the measurement as the estimate expects it");
    return (ls_q){line, d.low, d.mid, d.high};
}

/* Narrowest first, then by where and what. */
static int by_gain(const void *a, const void *b) {
    const ls_next *x = a, *y = b;
    double wx = x->then.high - x->then.low, wy = y->then.high - y->then.low;
    if (wx != wy)
        return wx < wy ? -1 : 1;
    int where = strcmp(x->where, y->where);
    return where ? where : strcmp(x->what, y->what);
}

ls_next_list ls_litter_next(ls_worksheet *w, const ls_reference *r, const ls_estimate *e) {
    ls_arena *a = ls_worksheet_arena(w);
    ls_next_list list = {0};
    bool loads = e->trips != LS_NO_LINE;
    ls_q now =
        as_line(w, "whole-farm.range-now", "range as it is", loads, draw_range(w, e, e->seed));
    for (size_t h = 0; h < e->farm->houses.n; h++)
        for (size_t m = 0; m < sizeof measurements / sizeof *measurements; m++) {
            ls_drawn then;
            const ls_house *house = &e->farm->houses.at[h];
            if (!range_then(r, w, e, h, &measurements[m], &then))
                continue;
            const char *key = ls_words(w, "%s.measure-next.%s", house->slug,
                                       ls_text_slug(a, measurements[m].what));
            *LS_PUSH(a, &list) = (ls_next){measurements[m].what,
                                           house->name.text,
                                           measurements[m].effort,
                                           loads,
                                           now,
                                           as_line(w, key, measurements[m].what, loads, then)};
        }
    if (list.n)
        qsort(list.at, list.n, sizeof *list.at, by_gain);
    return list;
}
