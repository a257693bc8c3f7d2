/* Building a worksheet: keys, faults, leaves, cutting, words. */
#include "littershed/worksheet.h"
#include "suite.h"

#include <malloc.h>
#include <math.h>
#include <string.h>

static ls_line exact(ls_worksheet *w, const char *key, const char *label, const char *unit, double value) {
    return ls_leaf_exact(w, key, label, unit, value, LS_BY_DEFINITION, NULL);
}

static void test_keys(void) {
    enum { N = 5000 };
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    for (int i = 0; i < N; i++) TEST_SAME(exact(w, ls_printf(w, "field.%d", i), "", "", i), i + 1);
    for (int i = 0; i < N; i++) TEST_SAME(ls_line_find(w, ls_arena_printf(a, "field.%d", i)), i + 1);
    TEST_SAME(ls_line_find(w, "field.5000"), LS_NO_LINE);
    TEST_TEXT(ls_worksheet_fault(w), NULL);
    CU_ASSERT(isnan(ls_line_value(w, LS_NO_LINE)) && isnan(ls_line_shown(w, N + 1)));
    CU_ASSERT(ls_line_at(w, N + 1) == NULL && ls_line_at(w, LS_NO_LINE) == NULL);
    ls_arena_free(a);
}

static void test_key_twice(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line first = exact(w, "tons", "", "ton", 2000), second = exact(w, "tons", "", "ton", 4000);
    TEST_TEXT(ls_worksheet_fault(w), "tons: the key is used twice");
    TEST_SAME(ls_line_find(w, "tons"), first);
    CU_ASSERT(isnan(ls_line_value(w, second)));
    ls_worksheet_cut(w, (size_t)first + 1);
    TEST_SAME(ls_line_find(w, "tons"), first);
    ls_arena_free(a);
}

/* The same made again is the same line; with another label, value, origin or input it is another.
 */
static void test_made_again(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line x = exact(w, "x", "", "ft", 2), y = exact(w, "y", "", "ft", 3);
    ls_line both = LS_SUM(w, "both", "both", "ft", x, y);
    TEST_SAME(exact(w, ls_printf(w, "%c", 'x'), "", "ft", 2), x);
    TEST_SAME(LS_SUM(w, "both", "both", "ft", x, y), both);
    TEST_SAME(ls_worksheet_lines(w), both + 1);
    TEST_TEXT(ls_worksheet_fault(w), NULL);
    ls_line others[] = {
        LS_SUM(w, "both", "other", "ft", x, y),
        LS_SUM(w, "both", "both", "in", x, y),
        LS_SUM(w, "both", "both", "ft", y, x),
        LS_LEAST(w, "both", "both", "ft", x, y),
        ls_leaf_exact(w, "x", "", "ft", 2, LS_BY_OPTION, NULL),
        ls_leaf(w, "x", "", "ft", 2, ls_spread_normal(1), (ls_origin){LS_BY_DEFINITION, LS_NOWHERE, NULL, NULL})};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        CU_ASSERT(others[i] > both && isnan(ls_line_value(w, others[i])));
    TEST_TEXT(ls_worksheet_fault(w), "both: the key is used twice");
    ls_arena_free(a);
}

/* What is made of something unknown is unknown; sums and extremes are of what is known. */
static void test_unknown(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line x = exact(w, "x", "", "", 2), y = exact(w, "y", "", "", 3);
    TEST_SAME(ls_difference(w, "d", "", "", x, LS_NO_LINE), LS_NO_LINE);
    TEST_SAME(LS_PRODUCT(w, "p", "", "", LS_NO_LINE, x), LS_NO_LINE);
    TEST_SAME(ls_same(w, "s", "", "", LS_NO_LINE), LS_NO_LINE);
    TEST_SAME(LS_SUM(w, "n", "", "", LS_NO_LINE, LS_NO_LINE), LS_NO_LINE);
    TEST_SAME(ls_sum(w, "n", "", "", NULL, 0), LS_NO_LINE);
    TEST_SAME(ls_worksheet_lines(w), y + 1);
    TEST_NEAR(ls_line_value(w, LS_SUM(w, "sum", "", "", x, LS_NO_LINE, y)), 5, 0);
    TEST_NEAR(ls_line_value(w, LS_LEAST(w, "least", "", "", LS_NO_LINE, y, x)), 2, 0);
    TEST_NEAR(ls_line_value(w, LS_GREATEST(w, "most", "", "", x, y, LS_NO_LINE)), 3, 0);
    TEST_TEXT(ls_worksheet_fault(w), NULL);
    ls_arena_free(a);
}

/* A part leads the keys and says what labels are of; it shares the lines, and a part of it goes on
 * where it is. */
static void test_parts(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a), *house = ls_part(w, NULL, "house-%d", 1);
    ls_worksheet *of_N = ls_part(house, "nitrogen 100%s", "N");
    ls_line length = exact(house, "length", "length, 5%s", "ft", 2);
    ls_line held = exact(of_N, "held", "%s in the litter", "lb", 3);
    TEST_TEXT(ls_line_at(w, length)->key, "house-1.length");
    TEST_TEXT(ls_line_at(w, length)->label, "length, 5%s");
    TEST_TEXT(ls_line_at(w, held)->key, "house-1.N.held");
    TEST_TEXT(ls_line_at(w, held)->label, "nitrogen 100%s in the litter");
    TEST_SAME(ls_line_find(of_N, "held"), held);
    TEST_SAME(ls_line_find(w, "house-1.N.held"), held);
    TEST_SAME(ls_line_find(w, "held"), LS_NO_LINE);
    TEST_TEXT(ls_line_at(w, exact(of_N, "", "%s", "lb", 4))->key, "house-1.N");
    TEST_TEXT(ls_line_at(w, exact(of_N, "long", "plain", "lb", 4))->label, "plain");
    ls_worksheet_cut(house, (size_t)held);
    TEST_SAME(ls_worksheet_lines(w), held);
    ls_arena_free(a);
}

/* Each makes one faulty line over ft (1), lb (2), a number (3), two weights (4, 5) that do not sum
 * to 1. */
typedef ls_line faulty_line(ls_worksheet *w);

static ls_line ft_and_lb(ls_worksheet *w) { return LS_SUM(w, "y", "", "ft", 1, 2); }
static ls_line wrong_unit(ls_worksheet *w) { return LS_PRODUCT(w, "y", "", "ton", 1, 2); }
static ls_line least_of_two_kinds(ls_worksheet *w) { return LS_LEAST(w, "y", "", "lb", 2, 1); }
static ls_line clipped_by_lb(ls_worksheet *w) { return ls_clip(w, "y", "", "ft", 1, 1, 2); }
static ls_line step_of_lb(ls_worksheet *w) { return ls_step_up(w, "y", "", "ft", 1, 2); }
static ls_line one_minus_feet(ls_worksheet *w) { return ls_complement(w, "y", "", "ft", 1); }
static ls_line renamed(ls_worksheet *w) { return ls_same(w, "y", "", "", 1); }
static ls_line weight_in_feet(ls_worksheet *w) {
    return ls_geomean(w, "y", "", "lb", (ls_line[]){2}, (ls_line[]){1}, 1);
}
static ls_line odd_weights(ls_worksheet *w) {
    return ls_geomean(w, "y", "", "lb", (ls_line[]){2, 2}, (ls_line[]){4, 5}, 2);
}
static ls_line no_input(ls_worksheet *w) { return ls_quotient(w, "y", "", "ft", 1, -1); }
static ls_line later_input(ls_worksheet *w) { return ls_quotient(w, "y", "", "ft", 1, 6); }
static ls_line nothing(ls_worksheet *w) { return ls_product(w, "y", "", "ft", NULL, 0); }
static ls_line no_figure(ls_worksheet *w) { return ls_leaf_figure(w, "y", "", "ft", NULL); }
static ls_line falling_table(ls_worksheet *w) {
    static const double x[] = {1, 3, 2};
    static const ls_curve curve = {3, x, x};
    return ls_interpolate(w, "y", "", "ft", 3, &curve);
}

/* A fault is told whole, however long. */
static void test_long_fault(void) {
    enum { N = 400 };
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line x[N];
    ls_text *want = ls_text_new(a);
    ls_text_add(want, "y: lb");
    x[0] = exact(w, "lb", "", "lb", 2);
    for (int i = 1; i < N; i++) {
        x[i] = x[0];
        ls_text_add(want, " + lb");
    }
    ls_text_add(want, " does not give ft");
    ls_sum(w, "y", "", "ft", x, N);
    TEST_TEXT(ls_worksheet_fault(w), want->s);
    ls_arena_free(a);
}

static void test_faults(void) {
    static const struct {
        faulty_line *make;
        const char *fault;
    } cases[] = {
        {ft_and_lb, "y: ft + lb does not give ft"},
        {wrong_unit, "y: ft x lb does not give ton"},
        {least_of_two_kinds, "y: the least of lb and ft does not give lb"},
        {clipped_by_lb, "y: ft, kept within ft to lb does not give ft"},
        {step_of_lb, "y: ft, up to whole steps of lb does not give ft"},
        {one_minus_feet, "y: 1 - ft does not give ft"},
        {renamed, "y: ft does not give a bare number"},
        {weight_in_feet, "y: weighted geometric mean of lb (weight: ft) does not give lb"},
        {odd_weights, "y: its weights sum to 1.1, not to 1"},
        {no_input, "y: its input 2 of 2 does not exist"},
        {later_input, "y: its input 2 of 2 does not exist"},
        {nothing, "y: made of nothing"},
        {no_figure, "y: the table has no such figure"},
        {falling_table, "y: the table it is read from does not rise"},
    };
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ls_worksheet *w = ls_worksheet_new(a);
        exact(w, "ft", "", "ft", 1), exact(w, "lb", "", "lb", 2), exact(w, "number", "", "", 3);
        exact(w, "w1", "", "", 0.5), exact(w, "w2", "", "%", 0.6);
        TEST_TEXT(ls_worksheet_fault(w), NULL);
        ls_line line = cases[i].make(w);
        TEST_TEXT(ls_worksheet_fault(w), cases[i].fault);
        CU_ASSERT(isnan(ls_line_value(w, line)));
        ls_drawn drawn = ls_drawn_of(line);
        ls_line_ancestors(a, w, line);
        ls_draw(w, 1, 1, &drawn, 1);
        CU_ASSERT(isnan(drawn.mid) && isnan(drawn.sd));
    }
    ls_arena_free(a);
}

/* ---- leaves of the farm file ---- */

static ls_quantity quantity(ls_quantity_form form, const char *unit, double value) {
    return (ls_quantity){.form = form, .value = value, .unit = ls_unit_of(unit), .at = {0, 23, 5, 1}};
}

static const ls_entry *given(ls_worksheet *w, const char *key, ls_quantity q) {
    return ls_line_at(w, ls_leaf_given(w, key, "", "ft", &q));
}

static void test_given(void) {
    static const double readings[] = {14, 15, 12.5, 16};
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_quantity q = quantity(LS_PLUS_MINUS, "ft", 31);
    TEST_SAME(given(w, "plain", quantity(LS_PLAIN, "in", 2))->spread.kind, LS_EXACT);
    q.half = 4; /* half of the half-width is the standard deviation */
    TEST_NEAR(given(w, "half", q)->spread.scale, 2, 0);
    /* never 0, for one such quantity may be divided by another */
    TEST_NEAR(given(w, "half again", q)->spread.low, 31e-9, 1e-15);
    q = quantity(LS_RANGE, "ft", 5.5);
    q.low = 4, q.high = 7;
    TEST_SAME(given(w, "range", q)->spread.kind, LS_RECTANGULAR);
    TEST_NEAR(given(w, "range again", q)->spread.high, 7, 0);
    q = quantity(LS_READINGS, "ft", 14.375);
    q.n = 4, q.readings = readings;
    const ls_entry *e = given(w, "readings", q);
    TEST_SAME(e->spread.kind, LS_STUDENT);
    /* squares about the mean: 0.140625 + 0.390625 + 3.515625 + 2.640625 = 6.6875; sd = sqrt(6.6875
     * / 3); over sqrt(4) */
    TEST_NEAR(e->spread.scale, sqrt(6.6875 / 3) / 2, 1e-15);
    TEST_NEAR(e->spread.df, 3, 0);
    q.n = 1;
    TEST_SAME(given(w, "one reading", q)->spread.kind, LS_EXACT);
    TEST_TEXT(ls_worksheet_fault(w), NULL);
    ls_leaf_given(w, "lb", "", "ton", &q);
    TEST_TEXT(ls_worksheet_fault(w), "lb: given in ft, but shown in ton");
    ls_arena_free(a);
}

static void test_not_given(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_quantity none = {0};
    ls_count birds = {7800, {0, 3, 1, 1}};
    TEST_NEAR(ls_line_value(w, ls_leaf_count(w, "hens", "", "birds", &birds)), 7800, 0);
    CU_ASSERT(isnan(ls_line_value(w, ls_leaf_given(w, "depth", "", "in", &none))));
    TEST_TEXT(ls_worksheet_fault(w), "depth: the farm file does not give it");
    ls_arena_free(a);
}

/* A depth of 0.1 ft, sd 1 ft: nearly half the draws would be below 0. */
static void test_always_above_zero(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_quantity q = quantity(LS_PLUS_MINUS, "ft", 0.1);
    q.half = 2;
    ls_drawn drawn = ls_drawn_of(ls_leaf_given(w, "depth", "", "ft", &q));
    drawn.above = 0;
    ls_draw(w, 1, LS_BLOCK, &drawn, 1);
    TEST_NEAR(drawn.share_above, 1, 0);
    TEST_NEAR(drawn.low, 1e-10, 1e-15);
    ls_arena_free(a);
}

/* ---- cutting ---- */

static void build_fields(ls_worksheet *w, int n) {
    for (int i = 0; i < n; i++) {
        ls_line rate = exact(w, ls_printf(w, "field.%d.rate", i), ls_printf(w, "rate of field %d", i), "ton/ac", 0.1);
        ls_line area = exact(w, ls_printf(w, "field.%d.area", i), "area", "ac", 43560.0 * i);
        LS_PRODUCT(w, ls_printf(w, "field.%d.tons", i), "tons", "ton", rate, area);
    }
}

static void test_cut(void) {
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    build_fields(w, 3);
    char *mine = ls_arena_copy(a, "kept by the caller");
    for (int i = 0; i < 4; i++) {
        const ls_entry *kept = ls_line_at(w, 9);
        ls_worksheet_cut(w, 10);
        ls_line last = exact(w, ls_printf(w, "house.%d", i), "", "", i);
        for (int k = 0; k < 1000; k++) exact(w, ls_printf(w, "house.%d.%d", i, k), "", "", k);
        TEST_SAME(last, 10);
        CU_ASSERT(kept == ls_line_at(w, 9));
        TEST_TEXT(kept->key, "field.2.tons");
        TEST_SAME(ls_line_find(w, "field.2.tons"), 9);
        TEST_SAME(ls_line_find(w, ls_arena_printf(a, "house.%d", i)), 10);
        TEST_SAME(ls_line_find(w, ls_arena_printf(a, "house.%d.999", i - 1)), LS_NO_LINE);
    }
    ls_worksheet_cut(w, 0);
    TEST_SAME(ls_line_find(w, "field.2.tons"), LS_NO_LINE);
    build_fields(w, 3);
    TEST_SAME(ls_line_find(w, "field.2.tons"), 9);
    TEST_TEXT(ls_worksheet_fault(w), NULL);
    TEST_TEXT(mine, "kept by the caller");
    ls_arena_free(a);
}

/* 200,000 lines built, read and cut again and again take no more memory than once. */
static void test_cut_gives_memory_back(void) {
    enum { FIELDS = 200000 / 3, ROUNDS = 4 };
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    exact(w, "house", "", "", 1);
    size_t first = 0;
    for (int round = 0; round < ROUNDS; round++) {
        build_fields(w, FIELDS);
        TEST_NEAR(ls_line_value(w, ls_line_find(w, "field.1000.tons")), 43560 * 1000 * 0.1, 1e-15);
        ls_worksheet_cut(w, 1);
        struct mallinfo2 now = mallinfo2();
        if (round == 0) first = now.uordblks + now.hblkhd;
        TEST_SAME(now.uordblks + now.hblkhd, first);
    }
    TEST_TEXT(ls_worksheet_fault(w), NULL);
    ls_arena_free(a);
}

/* ---- words ---- */

static void check_words(ls_worksheet *w, ls_arena *a, ls_line line, const char *formula, const char *numbers) {
    TEST_TEXT(ls_line_formula(a, w, line), formula);
    TEST_TEXT(ls_line_numbers(a, w, line), numbers);
}

static void test_words(void) {
    static const double x[] = {0, 1};
    static const ls_curve curve = {2, x, x};
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_line area = exact(w, "area", "slats area", "ft2", 11059.2),
            depth = exact(w, "depth", "slats depth", "in", 5.583333333 / 12);
    ls_line water = exact(w, "water", "moisture", "%", 0.33), heavy = exact(w, "w1", "weight of the survey", "", 0.6);
    ls_line light = exact(w, "w2", "weight of the scale", "%", 0.4),
            more = exact(w, "more", "scratch area", "ft2", 6220.8);
    check_words(w, a, area, "", "");
    check_words(w, a, LS_PRODUCT(w, "v", "", "ft3", area, depth), "slats area x slats depth",
                "11,059.2 ft2 x 5.58333 in");
    check_words(w, a, ls_complement(w, "dry", "", "%", water), "1 - moisture", "100% - 33%");
    check_words(w, a, LS_SUM(w, "sum", "", "ft2", area, more, area), "slats area + scratch area + slats area",
                "11,059.2 ft2 + 6,220.8 ft2 + 11,059.2 ft2");
    check_words(w, a, ls_difference(w, "d", "", "ft2", area, more), "slats area - scratch area",
                "11,059.2 ft2 - 6,220.8 ft2");
    check_words(w, a, ls_quotient(w, "q", "", "", more, area), "scratch area / slats area",
                "6,220.8 ft2 / 11,059.2 ft2");
    check_words(w, a, LS_LEAST(w, "l", "", "ft2", area, more, area),
                "the least of slats area, scratch area and slats area",
                "the least of 11,059.2 ft2, 6,220.8 ft2 and 11,059.2 ft2");
    check_words(w, a, ls_step_down(w, "s", "", "ft2", area, more), "slats area, down to whole steps of scratch area",
                "11,059.2 ft2, down to whole steps of 6,220.8 ft2");
    check_words(w, a, ls_geomean(w, "g", "", "ft2", (ls_line[]){area, more}, (ls_line[]){heavy, light}, 2),
                "weighted geometric mean of slats area (weight: weight of the survey) and scratch area "
                "(weight: weight of the scale)",
                "weighted geometric mean of 11,059.2 ft2 (weight: 0.6) and 6,220.8 ft2 (weight: 40%)");
    check_words(w, a, ls_interpolate(w, "t", "", "lb", heavy, &curve),
                "straight line in a table at weight of the survey", "straight line in a table at 0.6");
    TEST_TEXT(ls_worksheet_fault(w), NULL);
    ls_arena_free(a);
}

static const char *figure_origin(ls_arena *a, ls_worksheet *w, const char *key, ls_status status,
                                 const ls_source *source) {
    ls_figure *f = LS_NEW(a, ls_figure, 1);
    *f = (ls_figure){
        .value = 1, .unit = ls_unit_of("lb"), .spread = ls_spread_exact(), .status = status, .source = source};
    return ls_line_origin(a, w, ls_leaf_figure(w, key, "", "lb", f), NULL);
}

static void test_origins(void) {
    static const ls_source source = {"x-66", "Some Service", "Table 66", NULL};
    ls_arena *a = ls_arena_new();
    ls_worksheet *w = ls_worksheet_new(a);
    ls_diag *d = ls_diag_new(a);
    ls_diag_input(d, (ls_input){"house.yaml", "", 0});
    ls_quantity q = quantity(LS_PLAIN, "in", 2);
    ls_line line = ls_leaf_given(w, "depth", "", "in", &q);
    TEST_TEXT(ls_line_origin(a, w, line, d), "house.yaml:23");
    TEST_TEXT(figure_origin(a, w, "read", LS_READ, &source), "x-66, Some Service, Table 66");
    TEST_TEXT(figure_origin(a, w, "copy", LS_READ2, &source), "x-66, Some Service, Table 66 (second-hand copy)");
    TEST_TEXT(figure_origin(a, w, "derived", LS_DERIVED, &source), "x-66, Some Service, Table 66 (derived)");
    TEST_TEXT(figure_origin(a, w, "memory", LS_MEMORY, &source), "x-66, Some Service, Table 66 (from memory)");
    TEST_TEXT(figure_origin(a, w, "practice", LS_PRACTICE, NULL), "common practice");
    line = ls_leaf_exact(w, "weight", "", "", 1, LS_BY_FIRST_PASS, "inverse squared scale");
    TEST_TEXT(ls_line_origin(a, w, line, d), "fixed in a first pass, before drawing: inverse squared scale");
    line = ls_leaf_exact(w, "pi", "", "", 3, LS_BY_DEFINITION, NULL);
    TEST_TEXT(ls_line_origin(a, w, line, d), "exact by definition");
    line = ls_leaf_exact(w, "drop", "", "ton", 2000, LS_BY_SPLIT, "gap 0");
    TEST_TEXT(ls_line_origin(a, w, line, d), "decided by the split of loads to fields: gap 0");
    line = ls_leaf_exact(w, "point", "", "ton", 2000, LS_BY_SIMULATION, NULL);
    TEST_TEXT(ls_line_origin(a, w, line, d), "point of the drawn values");
    TEST_TEXT(ls_line_origin(a, w, ls_same(w, "same", "", "ton", line), d), "computed");
    ls_arena_free(a);
}

TEST_SUITE(worksheet) = {
    {"lines are found by their keys", test_keys},
    {"a key used twice", test_key_twice},
    {"a line made again", test_made_again},
    {"unknown lines", test_unknown},
    {"parts of a worksheet", test_parts},
    {"faults name the key and the units", test_faults},
    {"a fault is told whole, however long", test_long_fault},
    {"quantities of the farm file become spreads", test_given},
    {"counts, and what was not given", test_not_given},
    {"what is measured is never 0 or below", test_always_above_zero},
    {"cut and built again", test_cut},
    {"200,000 lines cut give their memory back", test_cut_gives_memory_back},
    {"operations in words and numbers", test_words},
    {"where leaves come from", test_origins},
    CU_TEST_INFO_NULL,
};
