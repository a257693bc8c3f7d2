/* What a ton is worth on a field, and how far it may go. */
#include "agronomy_world.h"
#include "plan_world.h"

#include <math.h>
#include <string.h>

static double line_of(const world *t, const char *key) { return shown(t, ls_line_find(t->sheet, key)); }

/* University of Georgia, Circular 933: urea at $600 a ton makes $0.65 a pound of N, muriate of
 * potash at $960 a ton $0.80 a pound of K2O. */
static void test_prices(void) {
    world t = one_field("fertilizer: {urea: 600 $/ton, muriate of potash: 960 $/ton}\n", broiler_litter,
                        "area: 20 ac, crop: corn grain, yield: 150 bu/ac");
    TEST_NEAR(line_of(&t, "whole-farm.price.N"), 0.65, 0.005);
    TEST_NEAR(line_of(&t, "whole-farm.price.K2O"), 0.80, 1e-9);
    world_end(&t);
}

/* USDA NRCS Alabama: litter that costs $25 a ton applied makes $0.45 a pound of nitrogen if it is
 * worked in, $0.53 if it is left on top. */
static void test_price_of_nitrogen(void) {
    static const struct {
        const char *incorporated;
        double dollars;
    } cases[] = {{"at once", 0.45}, {"never", 0.53}};
    for (size_t i = 0; i < 2; i++) {
        ls_arena *a = ls_arena_new();
        /* the buyer of one_field pays 30 $/ton: the same litter at 25 is 25/30 of that a pound */
        world t = one_field("tables: {nitrogen: nrcs-al-n}\n", broiler_litter,
                            ls_arena_printf(a,
                                            "area: 20 ac, crop: corn grain, yield: 150 bu/ac, "
                                            "phosphorus: {rating: low}, incorporated: %s",
                                            cases[i].incorporated));
        const ls_field_rates *f = rates_of(&t, 0, 0);
        TEST_NEAR(round(shown(&t, f->rates[0].price_per_lb) * 25 / 30 * 100) / 100, cases[i].dollars, 1e-9);
        CU_ASSERT_EQUAL(f->rates[0].value_per_ton, LS_NO_LINE); /* no fertilizer prices */
        TEST_HOLDS(f->rates[0].worth_why[LS_FIELD_N], "add a fertilizer that holds it");
        world_end(&t);
        ls_arena_free(a);
    }
}

#define PRICES "fertilizer: {urea: 598 $/ton, TSP: 460 $/ton, muriate of potash: 600 $/ton}\n"
/* 598/920 = 0.65, 460/920 = 0.50, 600/1200 = 0.50 $/lb. Litter 63-55-47, half of whose N counts
 * (tables: georgia), at 2 ton/ac: 63 lb N, 110 P2O5, 94 K2O on an acre. */
#define PLAIN "tables: {nitrogen: georgia}\n" PRICES
#define AT_TWO "area: 20 ac, most: 2 ton/ac, phosphorus: {rating: low}, "

/* The use of each nutrient is what goes on or what the field asks for, whichever is less. */
static void test_up_to_the_need(void) {
    world t = one_field(PLAIN, broiler_litter,
                        AT_TWO "crop: corn grain, yield: 150 bu/ac, nitrogen: 50 lb/ac, phosphate: "
                               "40 lb/ac, potash: 0 lb/ac");
    /* the nitrogen need of 50 lb/ac sets the rate: 50 / 31.5 ton/ac */
    const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
    double rate = 50 / 31.5;
    TEST_NEAR(shown(&t, r->rate), rate, 1e-9);
    TEST_NEAR(shown(&t, r->worth[LS_FIELD_N]), 31.5 * 0.65, 1e-9);
    TEST_NEAR(shown(&t, r->worth[LS_FIELD_P2O5]), 40 / rate * 0.5, 1e-9);
    TEST_NEAR(shown(&t, r->worth[LS_FIELD_K2O]), 0, 1e-12);
    TEST_NEAR(shown(&t, r->value_per_ton), 31.5 * 0.65 + 40 / rate * 0.5, 1e-9);
    TEST_HOLDS(r->worth_why[LS_FIELD_K2O], "asks for none");
    world_end(&t);
}

/* By the soil test's class where no need is given. Piedmont (University of Georgia, 041): P 20 low,
 * 40 medium, 75 high; K 100, 200, 350. Alfalfa removes 14 lb P2O5 and 55 K2O a ton (University of
 * Kentucky, AGR-142). High: nothing. */
static void test_by_soil_class(void) {
    static const char more[] = "tables: {nitrogen: georgia, soil: piedmont, removal: uky-142}\n" PRICES;
    static const char field[] = AT_TWO "crop: alfalfa hay, yield: 1 ton/ac, nitrogen: 100 lb/ac, "
                                       "soil: {date: 2025-10-14, method: Mehlich-1, P: %d lb/ac, "
                                       "K: %d lb/ac}";
    static const struct {
        int p, k;
        double phosphate, potash; /* lb an acre */
    } cases[] = {{15, 150, 14, 55}, {40, 90, 14, 55}, {60, 300, 0, 0}, {90, 400, 0, 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ls_arena *a = ls_arena_new();
        world t = one_field(more, broiler_litter, ls_arena_printf(a, field, cases[i].p, cases[i].k));
        const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
        TEST_NEAR(shown(&t, r->rate), 2, 1e-9);
        TEST_NEAR(shown(&t, r->worth[LS_FIELD_P2O5]), cases[i].phosphate / 2 * 0.5, 1e-9);
        TEST_NEAR(shown(&t, r->worth[LS_FIELD_K2O]), cases[i].potash / 2 * 0.5, 1e-9);
        world_end(&t);
        ls_arena_free(a);
    }
}

/* Grazing animals keep 15 % of the potash of a hay crop, beef (University of Kentucky, AGR-142). */
static void test_grazed(void) {
    world t = one_field("tables: {nitrogen: georgia, soil: piedmont, removal: uky-142}\n" PRICES, broiler_litter,
                        AT_TWO "crop: alfalfa hay, use: grazed by beef, yield: 1 ton/ac, nitrogen: "
                               "100 lb/ac, soil: {date: 2025-10-14, method: Mehlich-1, P: 90 lb/ac, K: 90 lb/ac}");
    const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
    TEST_NEAR(shown(&t, r->worth[LS_FIELD_K2O]), 55 * 0.15 / 2 * 0.5, 1e-9);
    TEST_NEAR(shown(&t, r->worth[LS_FIELD_P2O5]), 0, 1e-12);
    TEST_HOLDS(r->worth_why[LS_FIELD_P2O5], "very high");
    world_end(&t);
}

/* Without a need and a soil test nothing is counted, and it is said what to add. */
static void test_unknown(void) {
    world t = one_field(PLAIN, broiler_litter, AT_TWO "crop: corn grain, yield: 150 bu/ac, nitrogen: 200 lb/ac");
    const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
    CU_ASSERT_EQUAL(r->worth[LS_FIELD_P2O5], LS_NO_LINE);
    TEST_HOLDS(r->worth_why[LS_FIELD_P2O5], "give the field's phosphate need");
    TEST_NEAR(shown(&t, r->value_per_ton), 31.5 * 0.65, 1e-9);
    world_end(&t);
}

/* No litter, no worth. */
static void test_closed(void) {
    world t = one_field(PLAIN, broiler_litter,
                        "area: 20 ac, crop: corn grain, yield: 150 bu/ac, phosphorus: {rating: very "
                        "high}");
    const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
    CU_ASSERT_EQUAL(r->value_per_ton, LS_NO_LINE);
    world_end(&t);
}

#define TRUCKS                                                                                                         \
    "trucks: [{name: T, count: 4, payload: 25 ton}]\ncrew: {arrives: 2026-02-16, hours: 20 "                           \
    "h/day}\n"
#define BUYER(price)                                                                                                   \
    "buyers: [{name: B, distance: 100 mi, " price                                                                      \
    "fields: [{name: F, area: 200 ac, crop: alfalfa hay, yield: 5 ton/ac, nitrogen: 300 lb/ac, "                       \
    "phosphorus: {rating: low}, most: 2 ton/ac, phosphate: 200 lb/ac, potash: 200 lb/ac, "                             \
    "open: 2026-02-16..2026-06-30}]}]\n"

static double money(const plan_world *t, ls_line line) {
    return line == LS_NO_LINE ? NAN : ls_line_shown(t->sheet, line);
}

/* Mississippi, 2013: $10 to take out, $10 to load, $8 to spread and $0.17 a ton and mile make $45 a
 * ton at 100 miles. A truck of 25 tons at 2.125 $/mi driven, out and back: 2.125 x 2 / 25 = 0.17.
 * House of 100 tons: four full trips. */
static void test_break_even(void) {
    static const char costs[] = "costs: {take_out: 10 $/ton, load: 10 $/ton, haul: 2.125 $/mi, spread: 8 $/ton}\n";
    ls_arena *a = ls_arena_new();
    const char *house = "houses:\n  - {name: One, length: 440 ft, width: 40 ft, measured: {weighed: 100 ton, "
                        "loose_density: 40 lb/ft3}, lab: [{date: 2026-01-10, basis: as received, moisture: 30 %, "
                        "N: "
                        "60 lb/ton, NH4N: 10 lb/ton, P2O5: 50 lb/ton, K2O: 40 lb/ton}]}\n";
    double far[2];
    for (size_t i = 0; i < 2; i++) {
        plan_world t =
            plan_world_text(ls_arena_printf(a, "%s" TRUCKS "%s" PRICES "%s", house, costs,
                                            i == 0 ? BUYER("price: 45 $/ton, ") : BUYER("price: 50 $/ton, ")));
        CU_ASSERT_PTR_NOT_NULL_FATAL(t.plan);
        TEST_SAME(t.plan->worth.n, 1);
        const ls_worth *w = &t.plan->worth.at[0];
        TEST_NEAR(money(&t, w->ton_mile), 0.17, 1e-9);
        TEST_NEAR(money(&t, w->at_house), i == 0 ? 0 : 5, 1e-6); /* 45 is the cost of a ton there */
        far[i] = money(&t, w->break_even);
        /* (value - price at the house - load - spread) / haul per ton-mile */
        TEST_NEAR(far[i], (money(&t, w->value) - money(&t, w->at_house) - 28) / 0.17, 1e-6);
        /* value: psu-pan, left on top: (50 x 0.6 + 10 x 0.2) x 0.65 + 50 x 0.5 + 40 x 0.5 */
        TEST_NEAR(money(&t, w->value), 32 * 0.65 + 25 + 20, 1e-9);
        CU_ASSERT_PTR_NULL(w->lacks);
        plan_world_end(&t);
    }
    TEST_NEAR(far[0] - far[1], 5 / 0.17, 1e-6);
    ls_arena_free(a);
}

/* What to add where something is missing. */
static void test_break_even_lacks(void) {
    ls_arena *a = ls_arena_new();
    static const struct {
        const char *more, *part;
    } cases[] = {{"", "add prices under fertilizer"}, {PRICES, "add haul under costs"}};
    for (size_t i = 0; i < 2; i++) {
        plan_world t =
            plan_world_text(ls_arena_printf(a, "%s" TRUCKS "%s" BUYER("price: 45 $/ton, "), PLAN_HOUSE, cases[i].more));
        CU_ASSERT_PTR_NOT_NULL_FATAL(t.plan);
        CU_ASSERT_EQUAL(t.plan->worth.at[0].break_even, LS_NO_LINE);
        TEST_HOLDS(t.plan->worth.at[0].lacks, cases[i].part);
        plan_world_end(&t);
    }
    ls_arena_free(a);
}

TEST_SUITE(worth) = {{"prices of nutrients", test_prices},
                     {"price of a pound of nitrogen", test_price_of_nitrogen},
                     {"up to the need", test_up_to_the_need},
                     {"by the class of the soil test", test_by_soil_class},
                     {"grazed land", test_grazed},
                     {"nothing to count by", test_unknown},
                     {"a closed field", test_closed},
                     {"how far litter may go", test_break_even},
                     {"what is missing", test_break_even_lacks},
                     CU_TEST_INFO_NULL};
