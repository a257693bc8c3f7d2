/* What must hold of any answer of the split: limits, and how answers to kindred problems compare.
 */
#include "split_world.h"
#include "suite.h"

#include "haul/split/guard.h"

#include <glpk.h>
#include <limits.h>
#include <math.h>
#include <string.h>

static void test_kept_limits(const ls_split_problem *p, const ls_split *s) {
    const char *wrong = split_world_wrong(p, s);
    TEST_TEXT(wrong, NULL);
}

/* Problems of each law that compares two answers. */
static uint64_t pairs(void) { return test_count("RANDOM_SPLIT_PAIRS", 8); }

static void test_random(void) {
    uint64_t problems = test_count("RANDOM_SPLITS", 60);
    dice d = {1};
    for (uint64_t n = 0; n < problems; n++) {
        ls_arena *a = ls_arena_new();
        split_world *w = split_world_random(a, &d);
        test_kept_limits(&w->p, ls_split_solve(a, &w->p));
        ls_arena_free(a);
    }
}

/* ---- the same farm told differently ---- */

/* The fields (and so the buyers) of w in the opposite order. */
static split_world *turned(ls_arena *a, const split_world *w) {
    size_t lots = w->p.lots, fields = w->p.fields, buyers = w->p.buyers;
    split_world *v = split_world_new(a, lots, fields, buyers);
    for (size_t f = 0; f < fields; f++) {
        size_t g = fields - 1 - f;
        v->buyer[g] = buyers - 1 - w->buyer[f];
        v->capacity[g] = w->capacity[f];
        v->names[g] = w->names[f];
        for (size_t i = 0; i < lots; i++) {
            size_t to = i * fields + g, from = i * fields + f;
            v->use[to] = w->use[from];
            v->value[to] = w->value[from];
            v->later_value[to] = w->later_value[from];
            v->open[to] = w->open[from];
            v->later[to] = w->later[from];
        }
    }
    for (size_t b = 0; b < buyers; b++) {
        size_t c = buyers - 1 - b;
        v->trip_cost[c] = w->trip_cost[b];
        v->least[c] = w->least[b];
        v->most[c] = w->most[b];
        v->least_loads[c] = w->least_loads[b];
        v->most_loads[c] = w->most_loads[b];
    }
    memcpy(v->tons, w->tons, lots * sizeof *v->tons);
    memcpy(v->payload, w->payload, lots * sizeof *v->payload);
    v->p.later = w->p.later == NULL ? NULL : v->later;
    v->p.stack_room = w->p.stack_room;
    memcpy(v->pile, w->pile, lots * sizeof *v->pile);
    return v;
}

static double on_pair(const ls_split *s, size_t lot, size_t field) {
    double sum = 0;
    for (size_t k = 0; k < s->drops_n; k++)
        if (s->drops[k].lot == lot && s->drops[k].field == field) sum += s->drops[k].tons;
    return sum;
}

static void test_order_of_the_file(void) {
    dice d = {7};
    for (uint64_t n = 0; n < pairs(); n++) {
        ls_arena *a = ls_arena_new();
        split_world *w = split_world_random(a, &d), *v = turned(a, w);
        const ls_split *s = ls_split_solve(a, &w->p), *r = ls_split_solve(a, &v->p);
        for (int g = 0; g < LS_GOALS; g++) {
            CU_ASSERT(s->goals[g].value == r->goals[g].value);
            CU_ASSERT(s->goals[g].bound == r->goals[g].bound);
        }
        TEST_SAME(s->loads_n, r->loads_n);
        for (size_t i = 0; i < w->p.lots; i++)
            for (size_t f = 0; f < w->p.fields; f++)
                TEST_NEAR(on_pair(s, i, f), on_pair(r, i, w->p.fields - 1 - f), 1e-9);
        ls_arena_free(a);
    }
}

/* More room never places less than the other answer is proven to need: no value passes the other's
 * bound. */
static void test_more_room(void) {
    dice d = {11};
    for (uint64_t n = 0; n < pairs(); n++) {
        ls_arena *a = ls_arena_new();
        split_world *w = split_world_random(a, &d);
        double before = ls_split_solve(a, &w->p)->goals[LS_GOAL_TONS].value;
        w->capacity[throw_dice(&d, w->p.fields)] += 5;
        ls_goal after = ls_split_solve(a, &w->p)->goals[LS_GOAL_TONS];
        CU_ASSERT(after.bound >= before - 1e-9);
        if (after.gap == 0) CU_ASSERT(after.value >= before - 1e-9);
        ls_arena_free(a);
    }
}

/* A limit raised, whichever: the tons goal is never the worse for it. */
static void raise(split_world *w, dice *d) {
    size_t f = throw_dice(d, w->p.fields), b = throw_dice(d, w->p.buyers);
    switch (throw_dice(d, 4)) {
    case 0:
        for (size_t i = 0; i < w->p.lots; i++) w->open[i * w->p.fields + f] = true;
        break;
    case 1: w->most[b] = INFINITY; break;
    case 2: w->most_loads[b] = LONG_MAX; break;
    default: w->p.stack_room += w->p.later != NULL ? 20 : 0;
    }
}

static void test_raised_limits(void) {
    dice d = {19};
    for (uint64_t n = 0; n < pairs(); n++) {
        ls_arena *a = ls_arena_new();
        split_world *w = split_world_random(a, &d);
        w->p.tons_only = true;
        const ls_split *less = ls_split_solve(a, &w->p);
        ls_goal before = less->goals[LS_GOAL_TONS];
        raise(w, &d);
        ls_goal after = ls_split_solve(a, &w->p)->goals[LS_GOAL_TONS];
        CU_ASSERT(after.bound >= before.value - 1e-9);
        if (after.gap == 0) CU_ASSERT(after.value >= before.value - 1e-9);
        w->p.start = less; /* and from the answer before, in any case */
        after = ls_split_solve(a, &w->p)->goals[LS_GOAL_TONS];
        CU_ASSERT(after.value >= before.value - 1e-9);
        ls_arena_free(a);
    }
}

/* A field that is closed to all gets nothing, and the same problem gives the same answer. */
static void test_closed_and_again(void) {
    dice d = {23};
    for (uint64_t n = 0; n < pairs(); n++) {
        ls_arena *a = ls_arena_new();
        split_world *w = split_world_random(a, &d);
        size_t f = throw_dice(&d, w->p.fields);
        for (size_t i = 0; i < w->p.lots; i++) w->open[i * w->p.fields + f] = w->later[i * w->p.fields + f] = false;
        const ls_split *s = ls_split_solve(a, &w->p), *again = ls_split_solve(a, &w->p);
        for (size_t k = 0; k < s->drops_n; k++) CU_ASSERT(s->drops[k].field != f);
        TEST_SAME(s->loads_n, again->loads_n);
        TEST_SAME(s->drops_n, again->drops_n);
        CU_ASSERT(memcmp(s->loads, again->loads, s->loads_n * sizeof *s->loads) == 0 &&
                  memcmp(s->drops, again->drops, s->drops_n * sizeof *s->drops) == 0);
        ls_arena_free(a);
    }
}

/* An order for three loads at least, one of 11 ton straight and a little from the stack: trips out
 * of the stack count as loads only if each carries a drop. The first buyer's field takes one load;
 * its other field opens later and takes 2 ton: two trips at most. */
static void test_no_empty_trips(void) {
    ls_arena *a = ls_arena_new();
    split_world *w = split_world_new(a, 1, 2, 1);
    w->tons[0] = 30;
    w->payload[0] = 11;
    w->capacity[0] = 11;
    w->capacity[1] = 2;
    w->open[1] = false;
    w->later[1] = true;
    w->p.later = w->later;
    w->p.stack_room = 50;
    w->least_loads[0] = 5;
    const ls_split *s = ls_split_solve(a, &w->p);
    test_kept_limits(&w->p, s);
    CU_ASSERT(s->goals[LS_GOAL_SHORT].bound >= 2 * 11 - 1e-9); /* 3 loads of 5 at the very best */
    ls_arena_free(a);
}

static void test_scaled_money(void) {
    dice d = {13};
    for (uint64_t n = 0; n < pairs(); n++) {
        ls_arena *a = ls_arena_new();
        split_world *w = split_world_random(a, &d);
        ls_goal one = ls_split_solve(a, &w->p)->goals[LS_GOAL_RETURN];
        for (size_t k = 0; k < w->p.lots * w->p.fields; k++) {
            w->value[k] *= 2;
            w->later_value[k] *= 2;
        }
        for (size_t b = 0; b < w->p.buyers; b++) w->trip_cost[b] *= 2;
        ls_goal two = ls_split_solve(a, &w->p)->goals[LS_GOAL_RETURN];
        CU_ASSERT(two.bound >= 2 * one.value - 0.02);
        CU_ASSERT(2 * one.bound >= two.value - 0.02);
        if (one.gap == 0 && two.gap == 0) CU_ASSERT(fabs(two.value - 2 * one.value) < 0.03);
        ls_arena_free(a);
    }
}

/* ---- when the solver gives up ---- */

static void ask_for_row_99(void *data) {
    glp_prob *lp = glp_create_prob();
    glp_add_rows(lp, 1);
    *(int *)data = 1;
    glp_set_row_bnds(lp, 99, GLP_FR, 0, 0); /* there is none: GLPK would end the program */
    *(int *)data = 2;
}

static void ask_for_row_1(void *data) {
    glp_prob *lp = glp_create_prob();
    glp_add_rows(lp, 1);
    glp_set_row_bnds(lp, 1, GLP_FR, 0, 0);
    glp_delete_prob(lp);
    *(int *)data = 3;
}

static int guarded(void *context) {
    (void)context;
    int reached = 0;
    bool ended = ls_haul_guarded(ask_for_row_99, &reached);
    if (ended || reached != 1) return 7;
    return ls_haul_guarded(ask_for_row_1, &reached) && reached == 3 ? 0 : 8;
}

/* Nothing is printed, the program goes on, and the solver can be used again. */
static void test_guard(void) {
    ls_arena *a = ls_arena_new();
    test_run run = test_call(a, guarded, NULL, NULL);
    TEST_SAME(run.status, 0);
    TEST_TEXT(run.out, "");
    TEST_TEXT(run.err, "");
    ls_arena_free(a);
}

/* More litter, begun from the answer for less: never fewer tons on fields than that. */
static void test_start(void) {
    dice d = {17};
    for (uint64_t n = 0; n < pairs(); n++) {
        ls_arena *a = ls_arena_new();
        split_world *w = split_world_random(a, &d);
        const ls_split *less = ls_split_solve(a, &w->p);
        for (size_t i = 0; i < w->p.lots; i++) w->tons[i] += 7.5;
        w->p.start = less;
        const ls_split *more = ls_split_solve(a, &w->p);
        test_kept_limits(&w->p, more);
        CU_ASSERT(more->goals[LS_GOAL_TONS].value >= less->goals[LS_GOAL_TONS].value - 1e-9);
        ls_arena_free(a);
    }
}

TEST_SUITE(split_rules) = {{"every limit of random problems", test_random},
                           {"the order of the file does not matter", test_order_of_the_file},
                           {"more room", test_more_room},
                           {"raised limits", test_raised_limits},
                           {"a closed field, and the same again", test_closed_and_again},
                           {"no empty trips for an order", test_no_empty_trips},
                           {"money in another unit", test_scaled_money},
                           {"a solver that gives up", test_guard},
                           {"an answer to begin with", test_start},
                           CU_TEST_INFO_NULL};
