/* The bound by prices is never below what an answer is worth, and large problems keep all limits.
 */
#include "split_world.h"
#include "suite.h"

#include "haul/split/search.h"

#include <math.h>

static ls_haul_search begin(ls_arena *a, const ls_split_problem *p, ls_haul_aim aim) {
    ls_haul_task *t = ls_haul_task_new(a, p);
    ls_haul_search s = {.t = t, .wish = ls_haul_wish_new(t), .aim = aim, .bound = INFINITY};
    s.best = ls_haul_answer_new(t);
    s.trial = ls_haul_answer_new(t);
    s.nearness = LS_NEW(a, double, t->buyers);
    s.found = ls_haul_start(t, s.best);
    return s;
}

/* The answers of the whole program with GLPK, tons and money, are answers: none may pass the bound
 * (held: its own tons and its own tons short), nor may the bound say nothing. Answers that GLPK
 * proves are the optimum. */
static void test_bound(void) {
    enum { PROBLEMS = 200 };
    dice d = {925};
    double tons = 0, tons_bound = 0;
    int proven = 0;
    for (int k = 0; k < PROBLEMS; k++) {
        ls_arena *a = ls_arena_new();
        split_world *w = split_world_random(a, &d);
        const ls_split *s = ls_split_solve(a, &w->p);
        w->p.start = s;
        const ls_haul_aim aims[] = {LS_HAUL_TONS, LS_HAUL_MONEY};
        const ls_goal *goals[] = {&s->goals[LS_GOAL_TONS], &s->goals[LS_GOAL_RETURN]};
        for (int g = 0; g < 2; g++) {
            ls_haul_search search = begin(a, &w->p, aims[g]);
            CU_ASSERT_FATAL(search.found);
            ls_haul_price(&search);
            CU_ASSERT(search.bound > goals[g]->value - 0.01);
            CU_ASSERT(isfinite(search.bound));
            if (goals[g]->gap == 0) proven++;
            if (g == 0) tons += goals[g]->value, tons_bound += search.bound;
        }
        ls_arena_free(a);
    }
    CU_ASSERT(proven > PROBLEMS);
    CU_ASSERT(tons_bound < 1.1 * tons);
}

static double between(dice *d, double low, double high) {
    return low + (high - low) * (double)throw_dice(d, 10001) / 10000;
}

/* Eight lots, more litter than the fields take if it is full. */
static split_world *large(ls_arena *a, dice *d, bool full) {
    enum { LOTS = 8, FIELDS = 260, BUYERS = 52 };
    split_world *w = split_world_new(a, LOTS, FIELDS, BUYERS);
    double strength[LOTS]; /* pounds of nitrogen a ton */
    for (size_t i = 0; i < LOTS; i++) {
        strength[i] = between(d, 20, 60);
        w->payload[i] = floor(100 * between(d, 8, 11)) / 100;
        w->tons[i] = floor(100 * between(d, 900, 1100)) / 100 * (full ? 2.2 : 0.9);
    }
    for (size_t f = 0; f < FIELDS; f++) {
        double need = between(d, 60, 250);
        w->capacity[f] = floor(10 * between(d, 5, 25)) / 10;
        for (size_t i = 0; i < LOTS; i++) {
            w->use[i * FIELDS + f] = 1 / fmin(3, floor(4 * need / strength[i]) / 4);
            w->value[i * FIELDS + f] = (double)(w->buyer[f] % 7) - 2;
            w->open[i * FIELDS + f] = throw_dice(d, 8) > 0;
            w->later_value[i * FIELDS + f] = (double)(w->buyer[f] % 7) - 1;
            w->later[i * FIELDS + f] = !w->open[i * FIELDS + f];
        }
    }
    for (size_t b = 0; b < BUYERS; b++) {
        w->trip_cost[b] = between(d, 5, 90);
        if (b % 6 == 0) w->least_loads[b] = 3;
        if (b % 6 == 1) w->most_loads[b] = 8;
        if (b % 6 == 2) w->most[b] = 75;
        if (b % 6 == 3) w->least[b] = 40;
    }
    w->p.stack_value = -9;
    w->p.stack_room = 150;
    w->p.later = w->later;
    return w;
}

/* Too large for the whole program: all limits hold, few tons are left open, and the same problem
 * has the same answer. */
static void test_large(void) {
    dice d = {7};
    for (int k = 0; k < 2; k++) {
        ls_arena *a = ls_arena_new();
        split_world *w = large(a, &d, k % 2 == 0);
        if (k == 0) w->p.later = NULL;
        CU_ASSERT(ls_haul_task_new(a, &w->p)->priced);
        const ls_split *s = ls_split_solve(a, &w->p), *again = ls_split_solve(a, &w->p);
        TEST_TEXT(split_world_wrong(&w->p, s), NULL);
        const ls_goal *tons = &s->goals[LS_GOAL_TONS];
        CU_ASSERT(tons->gap >= 0 && tons->gap < 0.02 * tons->value);
        TEST_NEAR(s->goals[LS_GOAL_SHORT].value, 0, 1e-9);
        TEST_NEAR(again->goals[LS_GOAL_RETURN].value, s->goals[LS_GOAL_RETURN].value, 0);
        TEST_SAME(again->drops_n, s->drops_n);
        ls_arena_free(a);
    }
}

TEST_SUITE(split_priced) = {{"bounds by prices", test_bound}, {"large problems", test_large}, CU_TEST_INFO_NULL};
