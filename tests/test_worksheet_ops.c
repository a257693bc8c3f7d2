/* Operations: value, column, derivative, dimension. */
#include "littershed/worksheet.h"
#include "suite.h"

#include <math.h>

static const ls_origin by_definition = {LS_BY_DEFINITION, {-1, 0, 0, 0}, NULL, NULL};

static ls_line number(ls_worksheet *w, const char *key, const char *unit, double value) {
    return ls_leaf(w, key, key, unit, value, ls_spread_normal(1e-3 * fabs(value)), by_definition);
}

static const double curve_x[] = {0, 10, 30}, curve_y[] = {1, 3, 2};
static const ls_curve curve = {3, curve_x, curve_y};

/* Every operation over the leaves a, b, c (lengths), p, q (shares) and v, w (weights). */
enum { LEAVES = 7 };
typedef struct {
    const char *name;
    double want; /* worked out by hand from the values below */
} expected;

static const char *const leaf_keys[LEAVES] = {"a", "b", "c", "p", "q", "v", "w"};
static const char *const leaf_units[LEAVES] = {"ft", "ft", "ft", "%", "%", "", ""};
static const double leaf_values[LEAVES] = {12, 5, 3, 0.25, 0.5, 0.75, 0.25};

static ls_worksheet *all_operations(ls_arena *arena, const double value[LEAVES]) {
    ls_worksheet *w = ls_worksheet_new(arena);
    for (size_t i = 0; i < LEAVES; i++) number(w, leaf_keys[i], leaf_units[i], value[i]);
    const ls_line a = 1, b = 2, c = 3, p = 4;
    ls_same(w, "same", "", "in", a);
    LS_SUM(w, "sum", "", "ft", a, b, c);
    ls_difference(w, "difference", "", "ft", a, b);
    LS_PRODUCT(w, "product", "", "ft3", a, b, c);
    ls_quotient(w, "quotient", "", "", a, b);
    ls_complement(w, "complement", "", "%", p);
    LS_LEAST(w, "least", "", "ft", a, c, b);
    LS_GREATEST(w, "greatest", "", "ft", c, a, b);
    ls_clip(w, "inside", "", "ft", b, c, a);
    ls_clip(w, "below", "", "ft", c, b, a);
    ls_clip(w, "above", "", "ft", a, c, b);
    ls_step_down(w, "down", "", "ft", a, b);
    ls_step_up(w, "up", "", "ft", a, b);
    ls_geomean(w, "geomean", "", "ft", (ls_line[]){a, c}, (ls_line[]){6, 7}, 2);
    ls_interpolate(w, "interpolate", "", "lb", a, &curve);
    return w;
}

/* 12^0.75 x 3^0.25 = 3 x 4^0.75 = 3 x 2^1.5. On the curve at 12: 3 - 2/20. */
static const expected values[] = {
    {"same", 12},         {"sum", 20},
    {"difference", 7},    {"product", 180},
    {"quotient", 2.4},    {"complement", 0.75},
    {"least", 3},         {"greatest", 12},
    {"inside", 5},        {"below", 5},
    {"above", 5},         {"down", 10},
    {"up", 15},           {"geomean", 3 * 2.8284271247461901},
    {"interpolate", 2.9},
};

enum { OPERATIONS = sizeof values / sizeof *values };

static void test_values(void) {
    ls_arena *arena = ls_arena_new();
    ls_worksheet *w = all_operations(arena, leaf_values);
    TEST_TEXT(ls_worksheet_fault(w), NULL);
    TEST_SAME(ls_worksheet_lines(w), LEAVES + OPERATIONS + 1);
    for (size_t i = 0; i < OPERATIONS; i++)
        TEST_NEAR(ls_line_value(w, ls_line_find(w, values[i].name)), values[i].want, 1e-15);
    TEST_NEAR(ls_line_shown(w, ls_line_find(w, "same")), 144, 1e-15);
    ls_arena_free(arena);
}

static bool is_step(ls_op op) { return op == LS_OP_STEP_DOWN || op == LS_OP_STEP_UP; }

/* Central differences, an error of order h^2, rounding of order 1e-16/h. */
static void check_derivative(const ls_worksheet *w, ls_line line, size_t leaf, double got) {
    ls_arena *arena = ls_arena_new();
    double up[LEAVES], down[LEAVES], h = 1e-5;
    for (size_t i = 0; i < LEAVES; i++) up[i] = down[i] = leaf_values[i];
    up[leaf] += h;
    down[leaf] -= h;
    double difference =
        ls_line_value(all_operations(arena, up), line) - ls_line_value(all_operations(arena, down), line);
    /* A weight moved alone does not fit: there the derivative is that of exp(sum w log x), worked
     * out apart. */
    if (ls_line_at(w, line)->op == LS_OP_GEOMEAN && leaf >= 5)
        TEST_NEAR(got, ls_line_value(w, line) * log(leaf_values[leaf == 5 ? 0 : 2]), 1e-14);
    else if (difference == 0)
        TEST_NEAR(got, 0, 0);
    else
        TEST_NEAR(got, difference / (2 * h), 1e-8);
    ls_arena_free(arena);
}

/* By line; of lines that it is not made of 0. */
static void gradient_of(const ls_worksheet *w, ls_line line, double *out) {
    ls_arena *a = ls_arena_new();
    ls_ancestors of = ls_line_ancestors(a, w, line);
    for (size_t k = 0; k < ls_worksheet_lines(w); k++) out[k] = 0;
    for (size_t k = 0; k < of.n; k++) out[of.at[k].line] = of.at[k].gradient;
    ls_arena_free(a);
}

static void test_derivatives(void) {
    ls_arena *arena = ls_arena_new();
    ls_worksheet *w = all_operations(arena, leaf_values);
    double gradient[LEAVES + OPERATIONS + 1];
    for (ls_line line = LEAVES + 1; line <= LEAVES + OPERATIONS; line++) {
        if (is_step(ls_line_at(w, line)->op)) continue;
        gradient_of(w, line, gradient);
        for (size_t leaf = 0; leaf < LEAVES; leaf++) check_derivative(w, line, leaf, gradient[leaf + 1]);
    }
    ls_arena_free(arena);
}

/* The mean over x in from..from + 30: a whole number of steps of 5 and of 6. */
static double mean_step(bool up, double from, double step) {
    double sum = 0;
    enum { PLACES = 3000, SPAN = 30 };
    ls_arena *arena = ls_arena_new();
    for (size_t i = 0; i < PLACES; i++) {
        ls_worksheet *w = ls_worksheet_new(arena);
        ls_line x = number(w, "x", "ft", from + SPAN * ((double)i + 0.5) / PLACES), s = number(w, "step", "ft", step);
        sum += ls_line_value(w, up ? ls_step_up(w, "y", "", "ft", x, s) : ls_step_down(w, "y", "", "ft", x, s));
    }
    ls_arena_free(arena);
    return sum / PLACES;
}

/* The derivative of a step operation is the slope of its mean. */
static void test_step_slopes(void) {
    ls_arena *arena = ls_arena_new();
    ls_worksheet *w = all_operations(arena, leaf_values);
    double gradient[LEAVES + OPERATIONS + 1];
    for (int up = 0; up < 2; up++) {
        gradient_of(w, ls_line_find(w, up ? "up" : "down"), gradient);
        TEST_NEAR(gradient[1], (mean_step(up, 24, 5) - mean_step(up, 12, 5)) / 12, 1e-3);
        TEST_NEAR(gradient[2], mean_step(up, 12, 6) - mean_step(up, 12, 5), 1e-3);
    }
    ls_arena_free(arena);
}

/* Spreads so small that the middle point must be the value, and the sd that of first order. */
static void test_columns(void) {
    ls_arena *arena = ls_arena_new();
    ls_worksheet *w = all_operations(arena, leaf_values);
    ls_drawn drawn[OPERATIONS];
    double gradient[LEAVES + OPERATIONS + 1];
    for (size_t i = 0; i < OPERATIONS; i++) drawn[i] = ls_drawn_of(ls_line_find(w, values[i].name));
    ls_draw(w, 1, LS_BLOCK, drawn, OPERATIONS);
    for (size_t i = 0; i < OPERATIONS; i++) {
        ls_line line = drawn[i].line;
        double variance = 0;
        gradient_of(w, line, gradient);
        for (size_t k = 0; k < LEAVES; k++) variance += pow(gradient[k + 1] * 1e-3 * leaf_values[k], 2);
        TEST_NEAR(drawn[i].mid, values[i].want, 3e-4);
        if (!is_step(ls_line_at(w, line)->op))
            TEST_NEAR(drawn[i].sd, sqrt(variance), 0.03); /* 4 standard errors of an sd from 10,000 draws */
    }
    ls_arena_free(arena);
}

/* The same graph with one leaf drawn at a time and all others numbers: each must move by its own
 * derivative. */
static void test_columns_with_numbers(void) {
    ls_arena *arena = ls_arena_new();
    for (size_t leaf = 0; leaf < LEAVES; leaf++) {
        ls_worksheet *w = ls_worksheet_new(arena);
        ls_line x[LEAVES];
        for (size_t i = 0; i < LEAVES; i++)
            x[i] = i == leaf ? ls_leaf(w, leaf_keys[i], "", "", leaf_values[i], ls_spread_normal(1e-3), by_definition)
                             : ls_leaf_exact(w, leaf_keys[i], "", "", leaf_values[i], LS_BY_DEFINITION, NULL);
        ls_drawn y[] = {
            ls_drawn_of(ls_sum(w, "sum", "", "", x, LEAVES)),
            ls_drawn_of(ls_product(w, "product", "", "", x, LEAVES)),
            ls_drawn_of(ls_difference(w, "difference", "", "", x[leaf], x[(leaf + 1) % LEAVES])),
            ls_drawn_of(ls_quotient(w, "quotient", "", "", x[leaf], x[(leaf + 1) % LEAVES])),
            ls_drawn_of(ls_quotient(w, "upside down", "", "", x[(leaf + 1) % LEAVES], x[leaf])),
            ls_drawn_of(ls_geomean(w, "geomean", "", "", x, x + 5, 2)),
        };
        enum { N = sizeof y / sizeof *y };
        TEST_TEXT(ls_worksheet_fault(w), NULL);
        ls_draw(w, 5, LS_BLOCK, y, N);
        for (size_t i = 0; i < N; i++) {
            double scale = ls_line_log_scale(w, y[i].line, NULL) * fabs(ls_line_value(w, y[i].line));
            TEST_NEAR(y[i].sd, scale, 0.03);
            TEST_NEAR(y[i].mid, ls_line_value(w, y[i].line), 3e-4);
        }
    }
    ls_arena_free(arena);
}

static double stepped(double x, double step, bool up) {
    ls_arena *arena = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(arena);
    ls_line a = number(w, "x", "", x), b = number(w, "step", "", step);
    double y = ls_line_value(w, up ? ls_step_up(w, "y", "", "", a, b) : ls_step_down(w, "y", "", "", a, b));
    ls_arena_free(arena);
    return y;
}

/* 0.3 / 0.1 is 2.9999999999999996 in binary, 0.6 / 0.2 too; 0.1 + 0.2 is above 0.3. */
static void test_whole_steps(void) {
    TEST_NEAR(stepped(0.3, 0.1, false), 0.3, 1e-15);
    TEST_NEAR(stepped(0.6, 0.2, false), 0.6, 1e-15);
    TEST_NEAR(stepped(0.1 + 0.2, 0.1, true), 0.3, 1e-15);
    TEST_NEAR(stepped(3 - 0.9e-9, 1, false), 3, 0);
    TEST_NEAR(stepped(3 - 1.1e-9, 1, false), 2, 0);
    TEST_NEAR(stepped(3 + 0.9e-9, 1, true), 3, 0);
    TEST_NEAR(stepped(3 + 1.1e-9, 1, true), 4, 0);
    TEST_NEAR(stepped(2.99, 0.25, false), 2.75, 0);
    TEST_NEAR(stepped(0, 0.25, true), 0, 0);
}

static void test_not_a_number(void) {
    ls_arena *arena = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(arena);
    ls_line x = number(w, "x", "", 2), none = number(w, "none", "", 0), unknown = number(w, "unknown", "", NAN);
    CU_ASSERT(isnan(ls_line_value(w, LS_LEAST(w, "l1", "", "", x, unknown))));
    CU_ASSERT(isnan(ls_line_value(w, LS_LEAST(w, "l2", "", "", unknown, x))));
    CU_ASSERT(isnan(ls_line_value(w, LS_GREATEST(w, "g1", "", "", x, unknown, x))));
    CU_ASSERT(isnan(ls_line_value(w, ls_clip(w, "c1", "", "", x, unknown, x))));
    CU_ASSERT(isnan(ls_line_value(w, ls_clip(w, "c2", "", "", unknown, x, x))));
    CU_ASSERT(isnan(ls_line_value(w, ls_clip(w, "c3", "", "", x, x, unknown))));
    CU_ASSERT(isnan(ls_line_value(w, ls_interpolate(w, "i", "", "", unknown, &curve))));
    CU_ASSERT(isinf(ls_line_value(w, ls_quotient(w, "q", "", "", x, none))));
    CU_ASSERT(isnan(ls_line_value(w, ls_quotient(w, "z", "", "", none, none))));
    TEST_TEXT(ls_worksheet_fault(w), NULL);
    ls_arena_free(arena);
}

static void test_beyond_the_table(void) {
    static const double x[] = {-5, 0, 10, 20, 30, 99}, want[] = {1, 1, 3, 2.5, 2, 2};
    ls_arena *arena = ls_arena_new();
    for (size_t i = 0; i < sizeof x / sizeof *x; i++) {
        ls_worksheet *w = ls_worksheet_new(arena);
        TEST_NEAR(ls_line_value(w, ls_interpolate(w, "y", "", "", number(w, "x", "", x[i]), &curve)), want[i], 1e-15);
    }
    ls_arena_free(arena);
}

/* y = x1 x2 / (x1 + x2), shared inputs: dy/dx1 = (x2 / (x1 + x2))^2. At 3 and 6: 4/9 and 1/9. */
static void test_shared_inputs(void) {
    ls_arena *arena = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(arena);
    ls_line x1 = number(w, "x1", "ft", 3), x2 = number(w, "x2", "ft", 6);
    ls_line y = ls_quotient(w, "y", "", "ft", LS_PRODUCT(w, "p", "", "ft2", x1, x2), LS_SUM(w, "s", "", "ft", x1, x2));
    ls_line later = number(w, "later", "ft", 1);
    double gradient[7];
    gradient_of(w, y, gradient);
    TEST_NEAR(gradient[x1], 4.0 / 9, 1e-15);
    TEST_NEAR(gradient[x2], 1.0 / 9, 1e-15);
    TEST_NEAR(gradient[y], 1, 0);
    ls_ancestors of = ls_line_ancestors(arena, w, y);
    CU_ASSERT(ls_line_among(&of, x1) && ls_line_among(&of, x2) && ls_line_among(&of, y));
    CU_ASSERT(of.at[0].line == y && !ls_line_among(&of, later));
    /* u^2 = (4/9 x 0.003)^2 + (1/9 x 0.006)^2, y = 2 */
    TEST_NEAR(ls_line_log_scale(w, y, NULL), hypot(4.0 / 9 * 0.003, 1.0 / 9 * 0.006) / 2, 1e-14);
    ls_ancestors skip = ls_line_ancestors(arena, w, x1);
    TEST_NEAR(ls_line_log_scale(w, y, &skip), 1.0 / 9 * 0.006 / 2, 1e-14);
    ls_arena_free(arena);
}

/* JCGM 100:2008, 5.1.6: for a product of powers the relative variances add, times the squares of
 * the powers. */
static void test_product_of_powers(void) {
    ls_arena *arena = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(arena);
    ls_line a = ls_leaf(w, "a", "", "ft", 40, ls_spread_normal(2), by_definition);
    ls_line b = ls_leaf(w, "b", "", "lb", 7, ls_spread_lognormal(0.3), by_definition);
    ls_line c = ls_leaf(w, "c", "", "ft2", 5, ls_spread_rectangular(4.5, 5.5), by_definition);
    ls_line d = ls_leaf(w, "d", "", "", 2, ls_spread_log_student(0.2, 3), by_definition);
    ls_line area = LS_PRODUCT(w, "area", "", "ft2", a, a);
    ls_line y =
        ls_quotient(w, "y", "", "lb", ls_quotient(w, "n", "", "lb/ft2", LS_PRODUCT(w, "p", "", "lb", b, d), area),
                    ls_quotient(w, "per", "", "ft2/ft2/ft2", d, c));
    double rectangular = 1 / sqrt(12) / 5;
    TEST_TEXT(ls_worksheet_fault(w), NULL);
    TEST_NEAR(ls_line_log_scale(w, y, NULL), sqrt(pow(2 * 0.05, 2) + 0.3 * 0.3 + rectangular * rectangular), 1e-14);
    ls_arena_free(arena);
}

TEST_SUITE(worksheet_ops) = {
    {"every operation has the value worked out by hand", test_values},
    {"derivatives are those of finite differences", test_derivatives},
    {"a step has the slope of its mean", test_step_slopes},
    {"columns move about the value as the derivatives say", test_columns},
    {"columns with numbers among their inputs", test_columns_with_numbers},
    {"whole steps to 1e-9", test_whole_steps},
    {"what is not a number stays so", test_not_a_number},
    {"a table keeps its end values beyond its ends", test_beyond_the_table},
    {"gradient through shared inputs", test_shared_inputs},
    {"relative scales of a product add as squares (JCGM 100, 5.1.6)", test_product_of_powers},
    CU_TEST_INFO_NULL,
};
