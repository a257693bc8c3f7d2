/* Needs, soil classes and removal against the sheets of the laboratories that print them. */
#include "agronomy_world.h"

#include <math.h>

static const char rating[] = "phosphorus: {rating: low, rated_by: R. Alder}";

/* The field of a farm whose one field has these keys. */
static const ls_field_rates *field_of(world *t, ls_arena *a, const char *tables, const char *keys) {
    *t = one_field(tables, broiler_litter, ls_arena_printf(a, "area: 10 ac, %s", keys));
    return rates_of(t, 0, 0);
}

/* ---- Clemson code 049, fescue hay ---- */

/* The whole table, P2O5 and K2O by class: 80, 40, 20, 0, 0 lb/ac. The class is the laboratory's
 * own; excessive there is very high elsewhere. */
static void clemson_matrix(void) {
    static const struct {
        const char *class;
        double rate;
    } cells[] = {{"low", 80}, {"medium", 40}, {"sufficient", 20}, {"high", 0}, {"excessive", 0}, {"very high", 0}};
    enum { CELLS = sizeof cells / sizeof *cells };
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < CELLS; i++)
        for (size_t k = 0; k < CELLS; k++) {
            world t;
            const ls_field_rates *f = field_of(&t, a, "",
                                               ls_arena_printf(a,
                                                               "crop: tall fescue hay, yield: 3 ton/ac, nitrogen: 120 "
                                                               "lb/ac, soil: {date: 2025-10-14, "
                                                               "P: 34 lb/ac, K: 160 lb/ac, P_class: %s, K_class: %s}",
                                                               cells[i].class, cells[k].class));
            TEST_NEAR(shown(&t, f->need[LS_FIELD_P2O5]), cells[i].rate, 1e-12);
            TEST_NEAR(shown(&t, f->need[LS_FIELD_K2O]), cells[k].rate, 1e-12);
            CU_ASSERT_FALSE(has_flag(f, "two sources"));
            world_end(&t);
        }
    ls_arena_free(a);
}

/* A class by Georgia's table with the rate of Clemson's is two sources, and said so. */
static void two_sources_are_said(void) {
    ls_arena *a = ls_arena_new();
    world t;
    const ls_field_rates *f = field_of(&t, a, "tables: {soil: piedmont}\n",
                                       "crop: tall fescue hay, yield: 3 ton/ac, nitrogen: 120 "
                                       "lb/ac, soil: {date: 2025-10-14, method: "
                                       "Mehlich-1, P: 20 lb/ac, K: 201 lb/ac}");
    TEST_NEAR(shown(&t, f->need[LS_FIELD_P2O5]), 80, 1e-12);
    TEST_NEAR(shown(&t, f->need[LS_FIELD_K2O]), 0, 1e-12);
    CU_ASSERT_TRUE(has_flag(f, "by piedmont (uga-041)"));
    CU_ASSERT_TRUE(has_flag(f, "by clemson-049: two sources"));
    world_end(&t);
    ls_arena_free(a);
}

/* ---- University of Georgia crop sheets 037 and 041 ---- */

/* The upper bounds of the classes, lb/ac by Mehlich-1: sheet 037 (coastal plain) and 041
 * (piedmont).
 */
static void georgia_classes(void) {
    static const struct {
        const char *table, *element;
        double bound[3];
    } sheets[] = {{"coastal_plain", "P", {30, 60, 100}},
                  {"coastal_plain", "K", {60, 150, 250}},
                  {"piedmont", "P", {20, 40, 75}},
                  {"piedmont", "K", {100, 200, 350}}};
    static const char *const classes[] = {"low", "medium", "high", "very high"};
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    const double lb_ac = ls_unit_of("lb/ac").factor;
    for (size_t i = 0; i < sizeof sheets / sizeof *sheets; i++)
        for (size_t k = 0; k < 3; k++) {
            const ls_table *t = ls_reference_table(r, "soil", sheets[i].table);
            double bound = sheets[i].bound[k];
            TEST_TEXT(ls_soil_class(t, sheets[i].element, bound * lb_ac), classes[k]);
            TEST_TEXT(ls_soil_class(t, sheets[i].element, (bound + 1) * lb_ac), classes[k + 1]);
        }
    ls_arena_free(a);
}

/* Parts per million of a furrow slice of 6 2/3 in, 2,000,000 lb/ac, are half the lb/ac (the usual
 * convention of soil laboratories): 21.5 and 59.5 ppm are the 43 and 119 lb/ac that a University of
 * Georgia report of 2016 calls high and medium on sheet 041. */
static void parts_per_million(void) {
    static const char *const tests[][2] = {
        {"43 lb/ac", "119 lb/ac"}, {"21.5 ppm", "59.5 ppm"}, {"21.5 mg/kg", "59.5 mg/kg"}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof tests / sizeof *tests; i++) {
        world t;
        const ls_field_rates *f =
            field_of(&t, a, "tables: {soil: piedmont}\n",
                     ls_arena_printf(a,
                                     "crop: orchardgrass pasture, yield: 2 ton/ac, %s, soil: {date: "
                                     "2025-10-14, method: Mehlich 1, P: %s, K: %s}",
                                     rating, tests[i][0], tests[i][1]));
        TEST_NEAR(shown(&t, f->soil_P), 43, 1e-12);
        TEST_NEAR(shown(&t, f->soil_K), 119, 1e-12);
        TEST_TEXT(f->P_class, "high");
        TEST_TEXT(f->K_class, "medium");
        world_end(&t);
    }
    ls_arena_free(a);
}

/* The pasture of a hay of the tables goes by that hay: what beef keep of it, 20 %, is removed. */
static void pasture_of_a_hay(void) {
    ls_arena *a = ls_arena_new();
    world t;
    const ls_field_rates *f = field_of(&t, a, "tables: {removal: ipni}\n",
                                       "crop: tall fescue pasture, yield: 2 ton/ac, nitrogen: 60 "
                                       "lb/ac");
    TEST_NEAR(shown(&t, f->removal_P2O5), 2 * 12 * 0.20, 1e-12);
    CU_ASSERT_TRUE(has_flag(f, "a pasture without use: taken as grazed by beef"));
    CU_ASSERT_TRUE(has_flag(f, "the removal of tall fescue hay (us-crops) stands for"));
    world_end(&t);
    ls_arena_free(a);
}

/* Sheet 041: 50 to 100 lb N for orchardgrass pasture; a range means its lower end, and is said. Its
 * removal is that of hay (Alabama Extension: 10 lb P2O5 a ton) times the 20 % that beef keep
 * (University of Kentucky, PSS Views 142). */
static void orchardgrass_pasture(void) {
    ls_arena *a = ls_arena_new();
    world t;
    const ls_field_rates *f = field_of(&t, a, "", "crop: orchardgrass pasture, yield: 2 ton/ac, use: grazed by beef");
    TEST_NEAR(shown(&t, f->need[LS_FIELD_N]), 50, 1e-12);
    CU_ASSERT_TRUE(has_flag(f, "lower end of the published range"));
    TEST_NEAR(shown(&t, f->removal_P2O5), 2 * 10 * 0.20, 1e-12);
    TEST_SAME(f->need[LS_FIELD_P2O5], LS_NO_LINE); /* removal is no need */
    world_end(&t);
    ls_arena_free(a);
}

/* Sheet 037: the rates assume 200 lb of nitrogen, each 100 lb above that adds 10 lb P2O5 and 50 lb
 * K2O; less nitrogen takes nothing off. A figure of which the file does not say that it is such a
 * rate stays as it is, and the rule is told. */
static void more_nitrogen_than_assumed(void) {
    ls_arena *a = ls_arena_new();
    static const struct {
        const char *nitrogen;
        double P2O5, K2O;
        bool told;
    } cases[] = {{"nitrogen: 200 lb/ac", 40, 80, false},
                 {"nitrogen: 300 lb/ac", 40, 80, true},
                 {"nitrogen: 300 lb/ac, recommended_with_nitrogen: 200 lb/ac", 50, 130, false},
                 {"nitrogen: 350 lb/ac, recommended_with_nitrogen: 200 lb/ac", 55, 155, false},
                 {"nitrogen: 150 lb/ac, recommended_with_nitrogen: 200 lb/ac", 40, 80, false},
                 {"recommended_with_nitrogen: 200 lb/ac", 50, 130, false}}; /* 6 ton: 300 lb */
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t;
        const ls_field_rates *f =
            field_of(&t, a, "",
                     ls_arena_printf(a,
                                     "crop: bermudagrass hay, yield: 6 ton/ac, phosphate: 40 lb/ac, potash: "
                                     "80 lb/ac, %s",
                                     cases[i].nitrogen));
        TEST_NEAR(shown(&t, f->need[LS_FIELD_P2O5]), cases[i].P2O5, 1e-12);
        TEST_NEAR(shown(&t, f->need[LS_FIELD_K2O]), cases[i].K2O, 1e-12);
        TEST_SAME(has_flag(f, "Each further 100 adds 10 (uga-037)"), cases[i].told);
        TEST_SAME(has_flag(f, "Each further 100 adds 50 (uga-037)"), cases[i].told);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* Sheet 037 prints 200 lb N for 4 to 5 ton, 400 for 7 to 8: outside them the nearer stands, said.
 */
static void yields_of_the_table(void) {
    static const struct {
        const char *yield;
        double N;
        const char *told;
    } cases[] = {{"3.9 ton/ac", 200, "begins at 4 tons/ac"},
                 {"4 ton/ac", 200, NULL},
                 {"6 ton/ac", 300, NULL},
                 {"10 ton/ac", 400, "ends at 7.5 tons/ac"}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t;
        const ls_field_rates *f =
            field_of(&t, a, "", ls_arena_printf(a, "crop: bermudagrass hay, yield: %s, %s", cases[i].yield, rating));
        TEST_NEAR(shown(&t, f->need[LS_FIELD_N]), cases[i].N, 1e-9);
        TEST_SAME(has_flag(f, "the crop table of bermudagrass hay"), cases[i].told != NULL);
        if (cases[i].told != NULL) CU_ASSERT_TRUE(has_flag(f, cases[i].told));
        world_end(&t);
    }
    ls_arena_free(a);
}

/* ---- removal ---- */

/* P2O5 in a unit of harvest as each source prints it: IPNI and the Field Handbook from memory (the
 * latter 0.28, 0.20 and 0.36 % P of the dry harvest, times 2.2914), Ontario 2025 (the middle of its
 * range), Alabama Extension. The table that is named is the one used. */
static void two_sources_side_by_side(void) {
    static const struct {
        const char *crop, *yield, *table;
        double harvest, per_unit;
    } cases[] = {{"corn grain", "100 bu/ac", "ipni", 100, 0.35},
                 {"corn grain", "100 bu/ac", "awmfh", 100, 56 * 0.0028 * 2.2914},
                 {"corn grain", "100 bu/ac", "omafa-25", 100, (0.37 + 0.44) / 2},
                 {"tall fescue hay", "3 ton/ac, nitrogen: 120 lb/ac", "ipni", 3, 12},
                 {"tall fescue hay", "3 ton/ac, nitrogen: 120 lb/ac", "awmfh", 3, 2000 * 0.0020 * 2.2914},
                 {"tall fescue hay", "3 ton/ac, nitrogen: 120 lb/ac", "aces-removal", 3, 10},
                 {"sorghum grain", "80 bu/ac, nitrogen: 80 lb/ac", "ipni", 80, 0.39},
                 {"sorghum grain", "80 bu/ac, nitrogen: 80 lb/ac", "awmfh", 80, 56 * 0.0036 * 2.2914},
                 {"alfalfa hay", "4 ton/ac", "uky-142", 4, 14}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t;
        const ls_field_rates *f = field_of(&t, a, ls_arena_printf(a, "tables: {removal: %s}\n", cases[i].table),
                                           ls_arena_printf(a, "crop: %s, yield: %s", cases[i].crop, cases[i].yield));
        TEST_NEAR(shown(&t, f->removal_P2O5), cases[i].harvest * cases[i].per_unit, 2e-3);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* ---- nitrogen of legumes ---- */

/* Soybean, peanut and alfalfa take their nitrogen from the air: 0, unless the plan gives a figure.
 * Zinc in litter can harm peanuts. */
static void legumes(void) {
    static const char *const crops[] = {"soybean, yield: 40 bu/ac", "peanut, yield: 2 ton/ac",
                                        "alfalfa hay, yield: 4 ton/ac"};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < 3; i++) {
        world t;
        const ls_field_rates *f = field_of(&t, a, "", ls_arena_printf(a, "crop: %s, %s", crops[i], rating));
        TEST_NEAR(shown(&t, f->need[LS_FIELD_N]), 0, 0);
        TEST_NEAR(shown(&t, f->rates[0].rate), 0, 0);
        TEST_SAME(has_flag(f, "zinc"), i == 1);
        world_end(&t);
        f = field_of(&t, a, "", ls_arena_printf(a, "crop: %s, %s, nitrogen: 40 lb/ac", crops[i], rating));
        TEST_NEAR(shown(&t, f->need[LS_FIELD_N]), 40, 1e-12);
        CU_ASSERT_TRUE(shown(&t, f->rates[0].rate) > 0);
        world_end(&t);
    }
    ls_arena_free(a);
}

TEST_SUITE(agronomy_need) = {{"Clemson's matrix, all cells", clemson_matrix},
                             {"two sources are said", two_sources_are_said},
                             {"Georgia's soil classes", georgia_classes},
                             {"parts per million", parts_per_million},
                             {"orchardgrass pasture", orchardgrass_pasture},
                             {"more nitrogen than assumed", more_nitrogen_than_assumed},
                             {"the pasture of a hay", pasture_of_a_hay},
                             {"yields of the table", yields_of_the_table},
                             {"removal by two sources side by side", two_sources_side_by_side},
                             {"legumes", legumes},
                             CU_TEST_INFO_NULL};
