/* Measure next: the farm estimated again with each measurement, at its usual precision and as the
 * estimate expects it; all drawn together, the best first. */
#include "house.h"

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

static const ls_place somewhere = {-1, 1, 1, 1};

static double usual(const change *c, const char *row) { return ls_reference_practice(c->reference, row)->value; }

/* A line of the house in the estimate as it is; NaN if there is none. */
static double known(const change *c, const char *tail) {
    ls_line line = ls_line_find(c->base, ls_arena_printf(c->arena, "%s.%s", c->house->slug, tail));
    return ls_line_value(c->base, line);
}

/* A plain figure. */
static ls_quantity plain(double value, const char *unit) {
    return (ls_quantity){.form = LS_PLAIN, .value = value, .unit = ls_unit_of(unit), .text = "", .at = somewhere};
}

/* n readings about a value whose mean has the standard error se, behind those there are already. */
static ls_quantity readings(change *c, const ls_quantity *before, double value, double se, size_t n, const char *unit) {
    size_t old = before->form == LS_READINGS ? before->n : before->form ? 1 : 0;
    double *x = LS_NEW(c->arena, double, old + n);
    for (size_t i = 0; i < old; i++) x[i] = before->form == LS_READINGS ? before->readings[i] : before->value;
    double centre = old ? before->value : value;
    for (size_t i = 0; i < n; i++) x[old + i] = centre + (i % 2 ? -1 : 1) * se * sqrt((double)(n - 1));
    ls_quantity q = plain(centre, unit);
    q.form = LS_READINGS, q.readings = x, q.n = old + n;
    return q;
}

/* ---- the kinds of measurement ---- */

static bool add_depth(change *c) {
    if (c->house->manure.is == LS_MANURE_BELT)
        return false; /* what lies in the house is what the belts have not taken yet */
    if (!LS_GIVEN(c->house->length) || !LS_GIVEN(c->house->width) || c->measured.depth.grid)
        return false; /* a grid is more than a dozen spots */
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
        if (ls_house_share(c->house, (ls_zone)z) > 0) *q = readings(c, q, value, usual(c, "usual moisture"), 4, "%");
    }
    return true;
}

/* Density as it lies tells tons only beside a depth survey, the load where no pail was weighed. */
static bool add_density(change *c) {
    bool tells = !c->measured.loose_density.form && c->farm.trucks.n > 0;
    for (int z = LS_SLATS; z < LS_ZONES; z++) {
        ls_quantity *q = &c->measured.density.of[z];
        if (ls_house_share(c->house, (ls_zone)z) == 0) continue;
        tells |= c->measured.depth.of[z].form != 0 || c->measured.depth.grid;
        double value = q->form ? q->value : known(c, ls_arena_printf(c->arena, "density.%s", ls_zone_name(z)));
        if (isnan(value)) value = known(c, "density.published");
        if (isnan(value)) return false;
        *q = readings(c, q, value, value * usual(c, "usual in-place density"), 3, "lb/ft3");
    }
    return tells;
}

/* A pail tells the load of a truck, and the tons of a survey that has no density. */
static bool add_pail(change *c) {
    bool surveyed = c->measured.depth.grid != NULL;
    for (int z = LS_SLATS; z < LS_ZONES; z++) surveyed |= c->measured.depth.of[z].form != 0;
    if (c->farm.trucks.n == 0 && !surveyed) return false;
    ls_quantity *q = &c->measured.loose_density;
    double value = known(c, "loose_density");
    *q = readings(c, q, value, value * usual(c, "usual loose density"), 5, "lb/ft3");
    return true;
}

/* A rod tells the volume only: where no density is known the pail goes with it. */
static bool add_depth_and_pail(change *c) {
    for (int z = LS_SLATS; z < LS_ZONES; z++)
        if (c->measured.density.of[z].form) return false;
    return !c->measured.loose_density.form && add_depth(c) && add_pail(c);
}

/* A laboratory report: its moisture, and the phosphorus balance where feed and eggs are given. */
static bool add_lab(change *c) {
    if (c->house->lab.n > 0) return false;
    c->lab = (ls_lab){.date = {.day = 0, .at = somewhere},
                      .by = {"a laboratory", somewhere},
                      .at = somewhere,
                      .N = plain(known(c, "per_ton.N"), "lb/ton"),
                      .P2O5 = plain(known(c, "per_ton.P2O5") / c->scale, "lb/ton"),
                      .K2O = plain(known(c, "per_ton.K2O"), "lb/ton"),
                      .moisture = plain(known(c, "moisture"), "%")};
    c->house->lab.at = &c->lab;
    c->house->lab.n = 1;
    return true;
}

static bool add_cleanout(change *c) {
    double bird_days = known(c, "bird_days");
    if (c->house->last_cleanout.n > 0 || isnan(bird_days)) return false;
    c->cleanout = (ls_cleanout){.date = {.day = 0, .at = somewhere},
                                .at = somewhere,
                                .weighed = plain(200000 * c->scale, "ton"),
                                .bird_days = plain(bird_days, "bird-day")};
    c->house->last_cleanout.at = &c->cleanout;
    c->house->last_cleanout.n = 1;
    return true;
}

/* Two weighed loads tell what a full body holds. */
static bool add_loads(change *c) {
    if (c->farm.trucks.n == 0 || !LS_GIVEN(c->farm.trucks.at[0].body)) return false;
    double value = known(c, "loose_density");
    c->measured.loose_density = plain(value, "lb/ft3");
    c->measured.loose_density.form = LS_PLUS_MINUS;
    c->measured.loose_density.half = 2 * (value * usual(c, "usual scale") * sqrt(0.5));
    return true;
}

typedef struct {
    const char *what, *effort;
    int minutes; /* of work, as effort has it: for comparison alone */
    /* Put the measurement into the house; false if it would tell nothing here. */
    bool (*add)(change *c);
    const char *line; /* the house's line that should equal its dry tons; NULL: the reading */
} measurement;

static const measurement measurements[] = {
    {"depth survey and pail test",
     "an hour and a half: a rod pushed to the floor at 12 spots of each part of the floor, depths "
     "written down. Then 5 level pails of loose litter on a scale",
     90, add_depth_and_pail, "depth-survey.dry"},
    {"depth survey",
     "an hour: a rod pushed to the floor at 12 spots of each part of the floor, depths written "
     "down",
     60, add_depth, "depth-survey.dry"},
    {"moisture test", "an evening: 4 samples of each part of the floor, dried in a microwave oven, a kitchen scale",
     180, add_moisture, NULL},
    {"density in the house", "an hour: 3 cores of known volume from each part of the floor, a scale", 60, add_density,
     NULL},
    {"pail test of loose litter", "half an hour: 5 level pails of loose litter on a scale", 30, add_pail, NULL},
    {"lab sample", "an hour and two weeks: one sample mixed from 10 to 12 spots, sent to a laboratory", 60, add_lab,
     "phosphorus.dry"},
    {"last cleanout's scale tickets", "a phone call: ask the hauler for the tons, count the bird-days before it", 20,
     add_cleanout, "last-cleanout.dry"},
    {"first two loads over a scale", "on the day: the first two full trucks weighed, empty and full", 60, add_loads,
     NULL},
};

/* ---- estimating again ---- */

/* What the advice is made from. */
typedef struct {
    ls_worksheet *w;
    const ls_reference *reference;
    const ls_estimate *e;
} advice;

static change begin(ls_arena *a, const advice *v, size_t house) {
    const ls_farm *f = v->e->farm;
    change c = {.arena = a, .reference = v->reference, .base = v->w, .farm = *f, .scale = 1};
    c.farm.diag = ls_diag_new(a);
    c.farm.houses.at = LS_NEW(a, ls_house, f->houses.n);
    memcpy(c.farm.houses.at, f->houses.at, f->houses.n * sizeof *f->houses.at);
    c.house = &c.farm.houses.at[house];
    if (c.house->measured) c.measured = *c.house->measured;
    return c;
}

/* How far the reading misses what the estimate expects, as a factor; 1: nothing to match. */
static double miss(const change *c, const measurement *m, const ls_worksheet *w) {
    ls_line line = m->line ? ls_line_find(w, ls_arena_printf(c->arena, "%s.%s", c->house->slug, m->line)) : LS_NO_LINE;
    double expected = known(c, "dry_tons");
    return !line || isnan(expected) ? 1 : expected / ls_line_value(w, line);
}

/* A reading of which bedding is taken off is not in proportion to what it tells, so that it takes
 * some passes until it comes out as expected. */
enum { MOST_PASSES = 8 };

/* The lines of the farm with a measurement made in one house, in a worksheet of their own (*w) in the arena. NULL if it
 * tells nothing. What is read in a house needs no others: they come in when the reading is as expected. */
static const ls_estimate *measured(ls_arena *a, const advice *v, size_t house, const measurement *m, ls_worksheet **w) {
    double scale = 1, missed = m->line != NULL ? 0 : 1;
    for (int pass = 0;; pass++) {
        bool whole = fabs(missed - 1) < 1e-3 || pass == MOST_PASSES;
        change c = begin(a, v, house);
        c.scale = scale;
        c.measured.at = somewhere;
        if (LS_GIVEN(c.measured.weighed) || !m->add(&c)) return NULL;
        c.house->measured = &c.measured;
        if (!whole) c.farm.houses.at = c.house, c.farm.houses.n = 1;
        *w = ls_worksheet_new(a);
        const ls_estimate *again = ls_litter_lines(*w, &c.farm, v->reference, 1, LS_BLOCK);
        if (whole) return again;
        missed = again ? miss(&c, m, *w) : 1;
        if (fabs(missed - 1) >= 1e-3 && pass + 1 < MOST_PASSES) scale *= missed;
    }
}

/* ---- the best first ---- */

/* The whole farm is estimated again for each measurement, so of many houses only the widest are looked at: as many as
 * make about this many houses to be drawn for each kind of measurement, and at least one. */
enum { HOUSES_DRAWN = 12 };

static ls_line all_of(const ls_estimate *e) { return e->trips ? e->trips : e->tons.line; }

/* A line to be drawn in a worksheet of its own. */
typedef struct {
    size_t house;
    const measurement *m;
} trial;

typedef LS_LIST(trial) trial_list;
typedef LS_LIST(ls_draw_job) job_list;

static void try_house(const advice *v, ls_arena *a, size_t house, trial_list *trials, job_list *jobs) {
    for (size_t k = 0; k < sizeof measurements / sizeof *measurements; k++) {
        ls_worksheet *w = NULL;
        const ls_estimate *again = measured(a, v, house, &measurements[k], &w);
        if (!again) continue;
        *LS_PUSH(a, trials) = (trial){house, &measurements[k]};
        *LS_PUSH(a, jobs) = (ls_draw_job){w, ls_drawn_of(all_of(again))};
    }
}

static ls_q as_line(ls_worksheet *w, const char *key, const char *label, bool loads, ls_drawn d) {
    ls_line line = ls_leaf_exact(w, key, label, loads ? "load" : "ton", d.mid, LS_BY_SIMULATION,
                                 "low, likely and high with the measurement as the estimate expects it");
    return (ls_q){line, d.low, d.mid, d.high};
}

/* Narrowest first, then by where and what. */
static int by_gain(const void *a, const void *b) {
    const ls_next *x = a, *y = b;
    double wx = x->then.high - x->then.low, wy = y->then.high - y->then.low;
    if (wx != wy) return wx < wy ? -1 : 1;
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

static size_t looked_at(size_t houses) { return HOUSES_DRAWN / houses > 0 ? HOUSES_DRAWN / houses : 1; }

/* Are fewer than so many others wider? */
static bool is_among_widest(const double *width, size_t n, size_t house, size_t many) {
    size_t wider = 0;
    for (size_t h = 0; h < n && wider < many; h++)
        wider += width[h] > width[house] || (width[h] >= width[house] && h < house);
    return wider < many;
}

/* Does another trial in the same house take less work and narrow more? */
static bool is_outdone(const trial_list *trials, const job_list *jobs, size_t i) {
    const trial *own = &trials->at[i];
    const ls_drawn *d = &jobs->at[i + 1].drawn;
    for (size_t k = 0; k < trials->n; k++) {
        const ls_drawn *other = &jobs->at[k + 1].drawn;
        if (trials->at[k].house == own->house && trials->at[k].m->minutes < own->m->minutes &&
            other->high - other->low <= d->high - d->low)
            return true;
    }
    return false;
}

/* jobs: the farm as it is, then those of the trials. */
static void advise(const advice *v, const trial_list *trials, const job_list *jobs, ls_next_list *list) {
    ls_arena *a = ls_worksheet_arena(v->w);
    bool loads = v->e->trips;
    ls_q now = as_line(v->w, "whole-farm.range-now", "range as it is", loads, jobs->at[0].drawn);
    for (size_t i = 0; i < trials->n; i++) {
        const measurement *m = trials->at[i].m;
        const ls_house *h = &v->e->farm->houses.at[trials->at[i].house];
        const char *key = ls_printf(v->w, "%s.measure-next.%s", h->slug, ls_text_slug(a, m->what));
        ls_q then = as_line(v->w, key, m->what, loads, jobs->at[i + 1].drawn);
        *LS_PUSH(a, list) = (ls_next){m->what, h->name.text, m->effort, loads, is_outdone(trials, jobs, i), now, then};
    }
}

ls_next_list ls_litter_next(ls_worksheet *w, const ls_reference *r, const ls_estimate *e) {
    ls_arena *a = ls_arena_new();
    ls_next_list list = {0};
    trial_list trials = {0};
    job_list jobs = {0};
    advice v = {w, r, e};
    size_t houses = e->farm->houses.n;
    const double *width = widths_of(a, e);
    *LS_PUSH(a, &jobs) = (ls_draw_job){w, ls_drawn_of(all_of(e))};
    for (size_t h = 0; h < houses; h++)
        if (is_among_widest(width, houses, h, looked_at(houses))) try_house(&v, a, h, &trials, &jobs);
    ls_draw_each(jobs.at, jobs.n, e->seed);
    advise(&v, &trials, &jobs, &list);
    if (list.n) qsort(list.at, list.n, sizeof *list.at, by_gain);
    ls_arena_free(a);
    return list;
}
