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

/* The lines of the changed farm; false if the measurement tells nothing. */
static bool estimate_again(change *c, const measurement *m, ls_worksheet *w, ls_estimate **e) {
    c->measured.at = somewhere;
    if (LS_GIVEN(c->measured.weighed) || !m->add(c))
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

/* What the advice is made from. */
typedef struct {
    ls_worksheet *w;
    const ls_reference *reference;
    const ls_estimate *e;
    bool alone; /* many houses: each is estimated again alone */
} advice;

/* Farms of more houses than FEW are not estimated again as a whole; then the WIDEST houses are
 * looked at. */
enum { FEW = 4, WIDEST = 6 };

static ls_line all_of(const ls_estimate *e) {
    return e->trips != LS_NO_LINE ? e->trips : e->tons.line;
}

static ls_drawn draw_range(const ls_worksheet *w, const ls_estimate *e, uint64_t seed) {
    ls_drawn d = ls_drawn_of(all_of(e));
    ls_draw(w, seed, LS_BLOCK, &d, 1);
    return d;
}

/* The house alone stands for its farm: what it shares with others is left out. */
static void leave_alone(change *c) {
    c->farm.houses.at = c->house;
    c->farm.houses.n = 1;
}

/* The range after a measurement; false if it tells nothing. */
static bool range_then(const advice *v, size_t house, const measurement *m, ls_drawn *then) {
    ls_arena *a = ls_arena_new();
    double scale = 1;
    bool told = false;
    for (int pass = 0; pass < 2; pass++) {
        change c = begin(a, v->reference, v->w, v->e->farm, house);
        ls_worksheet *w = ls_worksheet_new(a);
        ls_estimate *again = NULL;
        c.scale = scale;
        if (v->alone)
            leave_alone(&c);
        told = estimate_again(&c, m, w, &again);
        if (!told)
            break;
        scale = miss(&c, m, w);
        if (pass == 1 || fabs(scale - 1) < 1e-9) {
            *then = draw_range(w, again, v->e->seed);
            break;
        }
    }
    ls_arena_free(a);
    return told;
}

/* The range of the house alone as it is. */
static ls_drawn range_alone(const advice *v, size_t house) {
    ls_arena *a = ls_arena_new();
    change c = begin(a, v->reference, v->w, v->e->farm, house);
    leave_alone(&c);
    ls_worksheet *w = ls_worksheet_new(a);
    const ls_estimate *again = ls_litter_lines(w, &c.farm, v->reference, 1, LS_BLOCK);
    ls_drawn d = again ? draw_range(w, again, v->e->seed) : ls_drawn_of(LS_NO_LINE);
    ls_arena_free(a);
    return d;
}

/* One side of the range of all houses, when the range of one of them narrows: squares add, as if
 * houses were independent. */
static double narrowed(double all, double one, double then) {
    double square = all * all - one * one + then * then;
    return square > 0 ? sqrt(square) : 0;
}

static ls_drawn of_all(ls_q now, ls_drawn one, ls_drawn then) {
    ls_drawn d = then;
    d.mid = now.mid + then.mid - one.mid;
    d.low = d.mid - narrowed(now.mid - now.low, one.mid - one.low, then.mid - then.low);
    d.high = d.mid + narrowed(now.high - now.mid, one.high - one.mid, then.high - then.mid);
    return d;
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

/* How wide the tons of each house are. */
static double *widths_of(ls_arena *a, const ls_estimate *e) {
    double *width = LS_NEW(a, double, e->farm->houses.n);
    for (size_t i = 0; i < e->n; i++)
        width[e->lots[i].house - e->farm->houses.at] += e->lots[i].tons.high - e->lots[i].tons.low;
    return width;
}

/* Few houses: all. Many: fewer than WIDEST others are wider. */
static bool is_looked_at(const advice *v, const double *width, size_t house) {
    size_t wider = 0;
    for (size_t h = 0; v->alone && h < v->e->farm->houses.n && wider < WIDEST; h++)
        wider += width[h] > width[house] || (width[h] >= width[house] && h < house);
    return wider < WIDEST;
}

static void advise(const advice *v, size_t house, ls_q now, ls_next_list *list) {
    ls_arena *a = ls_worksheet_arena(v->w);
    const ls_house *h = &v->e->farm->houses.at[house];
    bool loads = v->e->trips != LS_NO_LINE;
    ls_drawn one = v->alone ? range_alone(v, house) : ls_drawn_of(LS_NO_LINE);
    for (size_t m = 0; m < sizeof measurements / sizeof *measurements; m++) {
        ls_drawn then;
        if (!range_then(v, house, &measurements[m], &then))
            continue;
        const char *key =
            ls_words(v->w, "%s.measure-next.%s", h->slug, ls_text_slug(a, measurements[m].what));
        ls_drawn all = v->alone ? of_all(now, one, then) : then;
        *LS_PUSH(a, list) = (ls_next){measurements[m].what,
                                      h->name.text,
                                      measurements[m].effort,
                                      loads,
                                      now,
                                      as_line(v->w, key, measurements[m].what, loads, all)};
    }
}

ls_next_list ls_litter_next(ls_worksheet *w, const ls_reference *r, const ls_estimate *e) {
    ls_next_list list = {0};
    advice v = {w, r, e, e->farm->houses.n > FEW};
    ls_q now = as_line(w, "whole-farm.range-now", "range as it is", e->trips != LS_NO_LINE,
                       draw_range(w, e, e->seed));
    const double *width = widths_of(ls_worksheet_arena(w), e);
    for (size_t h = 0; h < e->farm->houses.n; h++)
        if (is_looked_at(&v, width, h))
            advise(&v, h, now, &list);
    if (list.n)
        qsort(list.at, list.n, sizeof *list.at, by_gain);
    return list;
}
