/* Whole loads to fields: against published optima, full enumeration, and small cases by hand. */
#include "split_world.h"
#include "suite.h"

#include <math.h>

static void test_kept_limits(const ls_split_problem *p, const ls_split *s) {
    const char *wrong = split_world_wrong(p, s);
    TEST_TEXT(wrong, NULL);
}

/* ---- published ---- */

enum { JOBS = 15, AGENTS = 5 };

/* Beasley's OR-Library, generalized assignment, problem set gap1 (c515-1 to c515-5): the greatest
 * total value with every job given to one agent within its capacity. */
static const struct {
    int optimum, value[AGENTS][JOBS], use[AGENTS][JOBS], capacity[AGENTS];
} gap1[] = {
    {336,
     {{17, 21, 22, 18, 24, 15, 20, 18, 19, 18, 16, 22, 24, 24, 16},
      {23, 16, 21, 16, 17, 16, 19, 25, 18, 21, 17, 15, 25, 17, 24},
      {16, 20, 16, 25, 24, 16, 17, 19, 19, 18, 20, 16, 17, 21, 24},
      {19, 19, 22, 22, 20, 16, 19, 17, 21, 19, 25, 23, 25, 25, 25},
      {18, 19, 15, 15, 21, 25, 16, 16, 23, 15, 22, 17, 19, 22, 24}},
     {{8, 15, 14, 23, 8, 16, 8, 25, 9, 17, 25, 15, 10, 8, 24},
      {15, 7, 23, 22, 11, 11, 12, 10, 17, 16, 7, 16, 10, 18, 22},
      {21, 20, 6, 22, 24, 10, 24, 9, 21, 14, 11, 14, 11, 19, 16},
      {20, 11, 8, 14, 9, 5, 6, 19, 19, 7, 6, 6, 13, 9, 18},
      {8, 13, 13, 13, 10, 20, 25, 16, 16, 17, 10, 10, 5, 12, 23}},
     {36, 34, 38, 27, 33}},
    {327,
     {{19, 23, 24, 20, 20, 25, 16, 21, 24, 15, 17, 17, 20, 20, 20},
      {25, 24, 16, 21, 19, 17, 17, 19, 23, 21, 21, 23, 20, 15, 16},
      {16, 21, 25, 22, 24, 24, 16, 17, 15, 18, 15, 17, 18, 24, 18},
      {25, 24, 18, 19, 15, 18, 20, 22, 23, 18, 16, 19, 17, 15, 22},
      {25, 19, 21, 22, 20, 15, 20, 19, 18, 18, 17, 23, 17, 25, 25}},
     {{16, 12, 8, 20, 18, 10, 12, 8, 14, 23, 19, 14, 15, 15, 24},
      {16, 18, 19, 22, 13, 20, 9, 7, 25, 10, 20, 13, 11, 15, 16},
      {6, 20, 20, 5, 14, 12, 6, 15, 22, 18, 13, 23, 23, 18, 25},
      {18, 23, 25, 17, 25, 13, 23, 23, 13, 20, 20, 23, 17, 19, 24},
      {12, 17, 15, 25, 22, 5, 24, 19, 12, 25, 23, 21, 23, 19, 18}},
     {36, 37, 38, 48, 44}},
    {339,
     {{22, 21, 16, 17, 21, 15, 17, 22, 22, 25, 18, 20, 24, 15, 22},
      {23, 24, 19, 15, 16, 21, 15, 25, 16, 21, 20, 19, 16, 23, 20},
      {21, 20, 21, 25, 21, 20, 21, 19, 17, 16, 25, 19, 15, 15, 15},
      {17, 21, 25, 25, 23, 22, 20, 19, 20, 25, 15, 20, 21, 25, 23},
      {15, 25, 23, 19, 17, 17, 25, 24, 24, 17, 24, 19, 18, 19, 16}},
     {{23, 10, 15, 13, 17, 10, 13, 6, 9, 21, 20, 7, 9, 25, 8},
      {17, 13, 8, 23, 11, 18, 7, 22, 13, 5, 24, 24, 15, 10, 22},
      {22, 17, 22, 23, 20, 11, 17, 25, 23, 9, 22, 20, 15, 9, 25},
      {5, 19, 25, 16, 15, 10, 18, 9, 11, 20, 7, 21, 15, 8, 25},
      {22, 9, 10, 23, 19, 21, 17, 15, 15, 17, 25, 19, 10, 9, 21}},
     {32, 37, 44, 35, 40}},
    {341,
     {{15, 25, 20, 18, 19, 21, 18, 22, 24, 15, 25, 17, 17, 15, 22},
      {20, 18, 25, 25, 16, 24, 22, 24, 17, 18, 23, 25, 21, 25, 24},
      {25, 19, 18, 18, 23, 18, 15, 22, 23, 16, 25, 22, 22, 15, 16},
      {19, 19, 23, 17, 19, 19, 22, 19, 23, 22, 24, 22, 25, 19, 16},
      {25, 24, 17, 19, 25, 19, 23, 19, 25, 15, 19, 21, 18, 19, 22}},
     {{20, 20, 18, 9, 18, 5, 16, 18, 13, 24, 21, 23, 15, 19, 9},
      {5, 12, 18, 8, 22, 19, 19, 11, 7, 19, 20, 17, 21, 25, 5},
      {18, 8, 8, 9, 20, 20, 23, 13, 15, 12, 6, 12, 25, 25, 23},
      {17, 19, 24, 9, 16, 22, 10, 17, 12, 17, 15, 21, 16, 18, 6},
      {14, 6, 20, 6, 21, 5, 11, 23, 20, 21, 20, 18, 13, 13, 21}},
     {39, 36, 37, 38, 37}},
    {326,
     {{25, 25, 18, 24, 20, 19, 25, 24, 23, 15, 18, 18, 25, 15, 22},
      {25, 18, 17, 22, 21, 23, 20, 23, 16, 19, 15, 18, 16, 23, 16},
      {18, 16, 19, 15, 15, 18, 15, 20, 19, 24, 22, 20, 25, 16, 21},
      {18, 21, 16, 18, 17, 24, 18, 23, 22, 16, 17, 22, 22, 18, 16},
      {17, 18, 15, 21, 23, 21, 24, 23, 20, 22, 19, 15, 22, 22, 25}},
     {{16, 20, 9, 22, 17, 19, 20, 22, 20, 13, 6, 20, 23, 19, 7},
      {12, 22, 18, 18, 6, 13, 17, 17, 17, 14, 20, 12, 17, 14, 22},
      {5, 19, 19, 14, 24, 16, 7, 8, 9, 22, 13, 23, 24, 15, 20},
      {20, 8, 6, 9, 5, 17, 23, 18, 14, 12, 14, 17, 15, 23, 21},
      {6, 6, 24, 24, 8, 7, 5, 25, 21, 18, 12, 20, 20, 7, 12}},
     {40, 38, 38, 35, 34}},
};

/* A job is a lot of one load of 1 ton, an agent a field of its own buyer. */
static void test_gap1(void) {
    for (size_t n = 0; n < sizeof gap1 / sizeof *gap1; n++) {
        ls_arena *a = ls_arena_new();
        split_world *w = split_world_new(a, JOBS, AGENTS, AGENTS);
        w->p.whole_loads = true;
        for (size_t j = 0; j < JOBS; j++) {
            w->tons[j] = w->payload[j] = 1;
            for (size_t f = 0; f < AGENTS; f++) {
                w->use[j * AGENTS + f] = gap1[n].use[f][j];
                w->value[j * AGENTS + f] = gap1[n].value[f][j];
            }
        }
        for (size_t f = 0; f < AGENTS; f++) w->capacity[f] = gap1[n].capacity[f];
        const ls_split *s = ls_split_solve(a, &w->p);
        test_kept_limits(&w->p, s);
        TEST_NEAR(s->goals[LS_GOAL_TONS].value, JOBS, 1e-9);
        TEST_NEAR(s->goals[LS_GOAL_RETURN].value, gap1[n].optimum, 1e-9);
        TEST_NEAR(s->goals[LS_GOAL_RETURN].gap, 0, 1e-9);
        ls_arena_free(a);
    }
}

/* Dantzig's transportation problem as modelling languages teach it (from memory; the optimum
 * recomputed by hand: 0.09 x (50 x 2.5 + 300 x 1.7 + 275 x 2.5 + 275 x 1.4) = 153.675): here loads
 * of 1 ton, and distances cost. */
static void test_transport(void) {
    static const double supply[] = {350, 600}, demand[] = {325, 300, 275};
    static const double distance[2][3] = {{2.5, 1.7, 1.8}, {2.5, 1.8, 1.4}};
    ls_arena *a = ls_arena_new();
    split_world *w = split_world_new(a, 2, 3, 3);
    for (size_t i = 0; i < 2; i++) {
        w->tons[i] = supply[i];
        w->payload[i] = 1;
        for (size_t f = 0; f < 3; f++) {
            w->value[i * 3 + f] = -0.09 * distance[i][f];
            w->capacity[f] = demand[f];
        }
    }
    const ls_split *s = ls_split_solve(a, &w->p);
    test_kept_limits(&w->p, s);
    TEST_NEAR(s->goals[LS_GOAL_TONS].value, 900, 1e-9);
    TEST_NEAR(s->goals[LS_GOAL_RETURN].value, -153.675, 1e-6);
    TEST_NEAR(s->goals[LS_GOAL_RETURN].gap, 0, 1e-9);
    ls_arena_free(a);
}

/* ---- enumerated ---- */

/* Small whole numbers, one ton of a field per ton: then whole tons are enough to find the best. */
enum { LOTS = 2, FIELDS = 3, PAYLOAD = 3 };

typedef struct {
    int tons[LOTS], capacity[FIELDS], most_loads[2], least[2];
    double value[FIELDS], trip[2];
    int placed, short_of; /* the best found */
    double money;
} small;

static small small_problem(dice *d) {
    small s = {.placed = -1};
    for (int i = 0; i < LOTS; i++) s.tons[i] = 1 + (int)throw_dice(d, 11);
    for (int f = 0; f < FIELDS; f++) {
        s.capacity[f] = 1 + (int)throw_dice(d, 6);
        s.value[f] = (double)throw_dice(d, 9);
    }
    for (int b = 0; b < 2; b++) {
        s.trip[b] = (double)throw_dice(d, 7);
        s.most_loads[b] = throw_dice(d, 3) == 0 ? 1 + (int)throw_dice(d, 3) : 99;
        s.least[b] = (int)throw_dice(d, 6);
    }
    return s;
}

/* Field 0 is buyer 0's, fields 1 and 2 are buyer 1's. */
static void weigh(small *s, int on[LOTS][FIELDS]) {
    int loads[2] = {0, 0}, got[2] = {0, 0}, placed = 0, short_of = 0;
    double money = 0;
    for (int i = 0; i < LOTS; i++) {
        int to[2] = {on[i][0], on[i][1] + on[i][2]};
        if (to[0] + to[1] > s->tons[i] || (to[0] % PAYLOAD != 0 && to[1] % PAYLOAD != 0)) return;
        for (int b = 0; b < 2; b++) {
            loads[b] += (to[b] + PAYLOAD - 1) / PAYLOAD;
            got[b] += to[b];
        }
        for (int f = 0; f < FIELDS; f++) money += s->value[f] * on[i][f];
    }
    for (int b = 0; b < 2; b++) {
        if (loads[b] > s->most_loads[b]) return;
        placed += got[b];
        short_of += got[b] < s->least[b] ? s->least[b] - got[b] : 0;
        money -= s->trip[b] * loads[b];
    }
    bool better = placed != s->placed       ? placed > s->placed
                  : short_of != s->short_of ? short_of < s->short_of
                                            : money > s->money;
    if (better) s->placed = placed, s->short_of = short_of, s->money = money;
}

static void enumerate(small *s) {
    int on[LOTS][FIELDS] = {{0}};
    for (;;) {
        bool fits = true;
        for (int f = 0; f < FIELDS; f++) fits = fits && on[0][f] + on[1][f] <= s->capacity[f];
        if (fits) weigh(s, on);
        int k = 0;
        while (k < LOTS * FIELDS && ++on[k / FIELDS][k % FIELDS] > s->capacity[k % FIELDS]) {
            on[k / FIELDS][k % FIELDS] = 0;
            k++;
        }
        if (k == LOTS * FIELDS) return;
    }
}

static split_world *world_of(ls_arena *a, const small *s) {
    split_world *w = split_world_new(a, LOTS, FIELDS, 2);
    static const size_t buyer[] = {0, 1, 1};
    for (size_t f = 0; f < FIELDS; f++) {
        w->buyer[f] = buyer[f];
        w->capacity[f] = s->capacity[f];
        for (size_t i = 0; i < LOTS; i++) {
            w->value[i * FIELDS + f] = s->value[f];
            w->tons[i] = s->tons[i];
            w->payload[i] = PAYLOAD;
        }
    }
    for (size_t b = 0; b < 2; b++) {
        w->trip_cost[b] = s->trip[b];
        w->least[b] = s->least[b];
        w->most_loads[b] = s->most_loads[b];
    }
    return w;
}

/* Everything tried: the goals are met as well as can be, and the program knows it. */
static void test_enumerated(void) {
    dice d = {20260216};
    for (int n = 0; n < 60; n++) {
        ls_arena *a = ls_arena_new();
        small best = small_problem(&d);
        enumerate(&best);
        split_world *w = world_of(a, &best);
        const ls_split *s = ls_split_solve(a, &w->p);
        test_kept_limits(&w->p, s);
        TEST_NEAR(s->goals[LS_GOAL_TONS].value, best.placed, 1e-9);
        TEST_NEAR(s->goals[LS_GOAL_SHORT].value, best.short_of, 1e-9);
        TEST_NEAR(s->goals[LS_GOAL_RETURN].value, best.money, 1e-9);
        for (int g = 0; g < LS_GOAL_DROPS; g++) TEST_NEAR(s->goals[g].gap, 0, 1e-9);
        ls_arena_free(a);
    }
}

/* ---- by hand ---- */

/* Payload 11 ton, 33 ton on fields of 21.5 and 11.5 ton: filled one after the other a piece of half
 * a ton would come about; drops are 1 ton at least. */
static void test_sliver(void) {
    ls_arena *a = ls_arena_new();
    split_world *w = split_world_new(a, 1, 2, 1);
    w->tons[0] = 33;
    w->payload[0] = 11;
    w->capacity[0] = 21.5;
    w->capacity[1] = 11.5;
    const ls_split *s = ls_split_solve(a, &w->p);
    test_kept_limits(&w->p, s);
    TEST_NEAR(s->straight[0], 33, 1e-9);
    TEST_SAME(s->loads_n, 3);
    ls_arena_free(a);
}

/* A third of an acre per ton: 20 acres take 60 tons, not 59.99. */
static void test_round_figures(void) {
    ls_arena *a = ls_arena_new();
    split_world *w = split_world_new(a, 1, 1, 1);
    w->tons[0] = 70;
    w->payload[0] = 12;
    w->use[0] = 1 / 3.0;
    w->capacity[0] = 20;
    const ls_split *s = ls_split_solve(a, &w->p);
    test_kept_limits(&w->p, s);
    TEST_NEAR(s->straight[0], 60, 1e-9);
    ls_arena_free(a);
}

/* What no open field can take waits in the stack for the field that opens later, in whole loads as
 * far as it waits. */
static void test_stack(void) {
    ls_arena *a = ls_arena_new();
    split_world *w = split_world_new(a, 1, 2, 2);
    w->tons[0] = 60;
    w->payload[0] = 10;
    w->capacity[0] = 20;
    w->capacity[1] = 25;
    w->open[1] = false;
    w->later[1] = true;
    w->p.later = w->later;
    w->p.stack_room = 100;
    const ls_split *s = ls_split_solve(a, &w->p);
    test_kept_limits(&w->p, s);
    TEST_NEAR(s->straight[0], 20, 1e-9);
    TEST_NEAR(s->goals[LS_GOAL_TONS].value, 45, 1e-9);
    CU_ASSERT(s->stacked[0] >= 25 && s->stacked[0] < 35);
    w->p.stack_room = 12; /* one whole load and two tons fit */
    s = ls_split_solve(a, &w->p);
    test_kept_limits(&w->p, s);
    TEST_NEAR(s->goals[LS_GOAL_TONS].value, 32, 1e-9);
    ls_arena_free(a);
}

/* Two lots of 20 tons that only the stack may take, in loads of 10; slopes take 6 tons a pile. Of
 * 30 tons of room two piles leave 18, one leaves 24: all of one lot goes in, none of the other. Of
 * 40 two leave 28, one 34. A pile that stands already takes none: 30 - 6. */
static void test_piles_apart(void) {
    ls_arena *a = ls_arena_new();
    split_world *w = split_world_new(a, 2, 1, 1);
    w->capacity[0] = 100;
    for (size_t i = 0; i < 2; i++) {
        w->tons[i] = 20;
        w->payload[i] = 10;
        w->pile[i] = 6;
        w->open[i] = false;
        w->later[i] = true;
    }
    w->p.later = w->later;
    static const double room[] = {30, 40, 30}, fits[] = {20, 28, 24};
    for (int k = 0; k < 3; k++) {
        w->p.stack_room = room[k];
        w->pile[1] = k < 2 ? 6 : 0;
        const ls_split *s = ls_split_solve(a, &w->p);
        test_kept_limits(&w->p, s);
        TEST_NEAR(s->stacked[0] + s->stacked[1], fits[k], 1e-9);
        TEST_NEAR(s->goals[LS_GOAL_TONS].gap, 0, 1e-9);
    }
    ls_arena_free(a);
}

/* No money at all: still nothing goes by way of the stack that could go straight. */
static void test_straight_first(void) {
    ls_arena *a = ls_arena_new();
    split_world *w = split_world_new(a, 1, 2, 2);
    w->tons[0] = 30;
    w->payload[0] = 10;
    w->capacity[0] = w->capacity[1] = 30;
    w->later[0] = w->later[1] = true;
    w->open[0] = false;
    w->p.later = w->later;
    w->p.stack_room = 100;
    const ls_split *s = ls_split_solve(a, &w->p);
    test_kept_limits(&w->p, s);
    TEST_NEAR(s->straight[0], 30, 1e-9);
    ls_arena_free(a);
}

/* Promised loads stay where they are although another buyer pays more. */
static void test_kept(void) {
    ls_arena *a = ls_arena_new();
    split_world *w = split_world_new(a, 1, 2, 2);
    static const long kept[] = {2, 0, 0};
    static const double kept_part[] = {0, 4, 0};
    w->tons[0] = 55;
    w->payload[0] = 11;
    w->capacity[0] = w->capacity[1] = 100;
    w->value[0] = 5;
    w->value[1] = 9;
    const ls_split *s = ls_split_solve(a, &w->p);
    TEST_NEAR(s->goals[LS_GOAL_RETURN].value, 55 * 9, 1e-9);
    w->p.kept = kept;
    w->p.kept_part = kept_part;
    s = ls_split_solve(a, &w->p);
    TEST_NEAR(s->goals[LS_GOAL_RETURN].value, 22 * 5 + 33 * 9, 1e-9);
    TEST_NEAR(s->straight[0], 55, 1e-9);
    long to_first = 0, part = 0;
    for (size_t k = 0; k < s->loads_n; k++) {
        to_first += s->loads[k].buyer == 0 && fabs(s->loads[k].tons - 11) < 1e-9;
        part += s->loads[k].buyer == 1 && fabs(s->loads[k].tons - 4) < 1e-9;
    }
    TEST_SAME(to_first, 2);
    TEST_SAME(part, 1);
    ls_arena_free(a);
}

/* Asked the same again: the same answer. Other tons in the same place, or another start: not the same problem. */
static void test_again(void) {
    ls_arena *a = ls_arena_new();
    split_world *w = split_world_new(a, 1, 1, 1);
    ls_split_memory known = {0};
    w->tons[0] = 22, w->payload[0] = 11, w->value[0] = 5, w->capacity[0] = 100;
    const ls_split *s = ls_split_again(a, &known, &w->p);
    TEST_NEAR(s->straight[0], 22, 1e-9);
    TEST_SAME(ls_split_again(a, &known, &w->p) == s, 1);
    w->tons[0] = 33;
    TEST_NEAR(ls_split_again(a, &known, &w->p)->straight[0], 33, 1e-9);
    w->tons[0] = 22;
    w->p.start = s;
    TEST_SAME(ls_split_again(a, &known, &w->p) != s, 1);
    ls_arena_free(a);
}

TEST_SUITE(split) = {{"published: generalized assignment", test_gap1},
                     {"published: transportation", test_transport},
                     {"enumerated problems", test_enumerated},
                     {"no piece below the smallest drop", test_sliver},
                     {"round figures stay round", test_round_figures},
                     {"what waits goes to the stack", test_stack},
                     {"lots apart in the stack", test_piles_apart},
                     {"straight before the stack", test_straight_first},
                     {"promised loads stay", test_kept},
                     {"asked again", test_again},
                     CU_TEST_INFO_NULL};
