/* Credits one by one, what of the litter counts, and what is left to buy. */
#include "agronomy_world.h"

#include <math.h>
#include <string.h>

static const char plain[] = "area: 10 ac, crop: corn grain, yield: 100 bu/ac, nitrogen: 200 lb/ac, "
                            "phosphorus: {rating: low, rated_by: R. Alder}, most: 20 ton/ac";

static world field_with(const char *more, const char *lab, const char *keys) {
    ls_arena *a = ls_arena_new();
    world t = one_field(more, lab, ls_arena_printf(a, "%s, %s", plain, keys));
    ls_arena_free(a);
    return t;
}

/* ---- credits ---- */

/* An inch of water on an acre weighs 226,600 lb: 12 ppm of nitrate nitrogen in 8 in are 21.75
 * lb/ac. By volume, without that figure: 12 g/m3 x 0.2032 m = 2.4384 g/m2 = 21.755 lb/ac. Nitrate
 * itself is 14.007 / 62.004 nitrogen. */
static void irrigation_water(void) {
    static const struct {
        const char *water;
        double nitrogen, within;
    } cases[] = {{"{nitrate: 12 ppm, water: 8 in}", 12 * 8 * 0.2266, 1e-9},
                 {"{nitrate: 12 mg/L, water: 8 in}", 2.4384e4 / 453.59237 * 4046.8564224 / 1e4, 1e-9},
                 {"{nitrate: 12 ppm, water: 8 in}", 21.755, 3e-4},
                 {"{NO3: 53.12 mg/L, water: 8 in}", 21.755, 3e-4},
                 {"{NO3: 53.12 ppm, water: 8 in}", 53.12 * 14.007 / 62.004 * 8 * 0.2266, 2e-4}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = field_with("", broiler_litter, ls_arena_printf(a, "irrigation: %s", cases[i].water));
        const ls_field_rates *f = rates_of(&t, 0, 0);
        TEST_NEAR(shown(&t, f->credits[LS_FIELD_N]), cases[i].nitrogen, cases[i].within);
        TEST_SAME(f->credit_n, 1);
        TEST_TEXT(f->credit[0].name, "N in irrigation water");
        world_end(&t);
    }
    ls_arena_free(a);
}

/* A grade is percent of N, P2O5 and K2O (18-46-0 of 100 lb: 18, 46, 0); a product stands in the
 * table with the same (University of Georgia, Circular 933: DAP 360 and 920 lb/ton). */
static void fertilizer(void) {
    static const char *const same[] = {"{product: DAP, rate: 100 lb/ac, for: starter}",
                                       "{grade: 18-46-0, rate: 100 lb/ac, for: starter}"};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < 2; i++) {
        world t = field_with("", broiler_litter,
                             ls_arena_printf(a,
                                             "phosphate: 60 lb/ac, potash: 80 lb/ac, fertilizer: "
                                             "[%s, {grade: 5-10-12.5, rate: 40 lb/ac}]",
                                             same[i]));
        const ls_field_rates *f = rates_of(&t, 0, 0);
        TEST_NEAR(shown(&t, f->credits[LS_FIELD_N]), 18 + 2, 1e-12);
        TEST_NEAR(shown(&t, f->credits[LS_FIELD_P2O5]), 46 + 4, 1e-12);
        TEST_NEAR(shown(&t, f->credits[LS_FIELD_K2O]), 5, 1e-12);
        TEST_NEAR(shown(&t, f->left[LS_FIELD_N]), 180, 1e-12);
        TEST_NEAR(shown(&t, f->left[LS_FIELD_P2O5]), 10, 1e-12);
        TEST_NEAR(shown(&t, f->left[LS_FIELD_K2O]), 75, 1e-12);
        TEST_SAME(f->credit_n, 2);
        TEST_TEXT(f->credit[0].name, i == 0 ? "DAP, starter" : "18-46-0, starter");
        TEST_SAME(f->credit[0].gives[LS_FIELD_K2O], LS_NO_LINE);
        TEST_TEXT(f->credit[1].name, "5-10-12.5");
        world_end(&t);
    }
    ls_arena_free(a);
}

/* Phosphate of fertilizer is taken off what the rating allows: 100 bu of corn remove 35 lb (IPNI,
 * from memory); 20 of TSP bring 9.2. More of it than that leaves none for litter. */
static void fertilizer_under_a_high_rating(void) {
    static const struct {
        int pounds;
        double allowed;
    } cases[] = {{20, 35 - 9.2}, {70, 35 - 32.2}, {100, 0}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = one_field("tables: {removal: ipni}\n", broiler_litter,
                            ls_arena_printf(a,
                                            "area: 10 ac, crop: corn grain, yield: 100 bu/ac, "
                                            "phosphorus: {rating: high}, fertilizer: [{product: "
                                            "TSP, rate: %d lb/ac}]",
                                            cases[i].pounds));
        const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
        TEST_NEAR(shown(&t, r->phosphorus), cases[i].allowed / 55, 1e-9);
        bool kept = cases[i].allowed / 55 >= 0.25; /* no spreader keeps even at less */
        TEST_SAME(r->why != NULL, !kept);
        TEST_SAME(shown(&t, r->rate) > 0, kept);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* Of three years' removal, 105 lb, the crop having taken up last year's 35, 46 lb of DAP leave 59
 * for litter. Together that lasts (59 + 46) / 35 = 3 crops: again in 2029. */
static void fertilizer_beside_a_ledger(void) {
    world t = one_field("tables: {removal: ipni}\n", broiler_litter,
                        "area: 10 ac, crop: corn grain, yield: 100 bu/ac, nitrogen: 300 lb/ac, "
                        "for_crop: 2026, phosphorus: {rating: high, bank: 3 years, ledger: [{year: "
                        "2025, P2O5: 35 lb/ac, removed: 35 lb/ac}]}, fertilizer: [{product: DAP, "
                        "rate: 100 lb/ac}]");
    const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
    TEST_NEAR(shown(&t, r->phosphorus), 59.0 / 55, 1e-9);
    TEST_TEXT(ls_limit_name(r->limit), "phosphorus");
    TEST_SAME(r->again, 2029);
    world_end(&t);
}

/* Organic N of litter of the years before, 30 lb/ac spread: Cornell releases 12 and 5 % in years 2
 * and 3, Oklahoma State 15 and 6 %; nothing after that. */
static void earlier_litter_by_year(void) {
    static const struct {
        const char *table;
        int year;
        double share;
    } cases[] = {{"cornell-n", 2025, 0.12}, {"cornell-n", 2024, 0.05}, {"cornell-n", 2023, 0},
                 {"osu-pan", 2025, 0.15},   {"osu-pan", 2024, 0.06},   {"osu-pan", 2023, 0}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = field_with(ls_arena_printf(a, "tables: {carryover: %s}\n", cases[i].table), broiler_litter,
                             ls_arena_printf(a,
                                             "for_crop: 2026, earlier_litter: [{year: %d, rate: 2 "
                                             "ton/ac, organic_nitrogen: 15 lb/ton}]",
                                             cases[i].year));
        const ls_field_rates *f = rates_of(&t, 0, 0);
        TEST_NEAR(shown(&t, f->credits[LS_FIELD_N]), 30 * cases[i].share, 1e-12);
        TEST_SAME(f->credit_n, cases[i].share > 0);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* Whatever comes from elsewhere never raises a rate, and more need never lowers one. */
static void more_credit_never_raises_a_rate(void) {
    ls_arena *a = ls_arena_new();
    for (int need = 0; need <= 240; need += 60) {
        double last = INFINITY;
        for (int pounds = 10; pounds <= 900; pounds += 89) {
            world t = one_field("", broiler_litter,
                                ls_arena_printf(a,
                                                "area: 10 ac, crop: corn grain, yield: 100 bu/ac, most: 20 ton/ac, "
                                                "nitrogen: %d lb/ac, phosphorus: {rating: %s}, fertilizer: "
                                                "[{grade: 10-10-10, rate: %d lb/ac}]",
                                                need, need % 120 == 0 ? "low" : "high", pounds));
            double rate = shown(&t, rates_of(&t, 0, 0)->rates[0].rate);
            CU_ASSERT_TRUE(rate <= last && rate >= 0);
            last = rate;
            world_end(&t);
        }
        TEST_SAME(last > 0, need == 120 || need == 240); /* 90 lb of N and P2O5 from elsewhere */
    }
    ls_arena_free(a);
}

/* ---- what counts ---- */

/* Measured in Georgia on litter left on the surface, share of all N lost as ammonia: 0.9 to 10.5 %
 * in 28 days (Cassity-Duffey 2014), 3.3 to 24 % in 7 to 8 days (Sharpe 2004). The factors must fall
 * within that for litter with 9 to 21 % of its N as ammonium: broiler litter of Penn State's
 * example, breeder litter of NC State's Table 66. */
static void ammonia_loss_within_what_was_measured(void) {
    static const char *const labs[] = {"N: 58 lb/ton, NH4N: 9 lb/ton, P2O5: 55 lb/ton, K2O: 47 lb/ton",
                                       "N: 37 lb/ton, NH4N: 7.77 lb/ton, P2O5: 58 lb/ton, K2O: 35 lb/ton"};
    static const struct {
        const char *tables, *weather;
    } ways[] = {{"", "average"},
                {"tables: {ammonium: alberta}\n", "average"},
                {"tables: {ammonium: alberta}\n", "cool wet"},
                {"tables: {ammonium: alberta}\n", "cool dry"},
                {"tables: {ammonium: alberta}\n", "warm wet"},
                {"tables: {ammonium: alberta}\n", "warm dry"},
                {"tables: {ammonium: mid_atlantic}\n", "average"}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++)
        for (size_t k = 0; k < 2; k++) {
            world t = field_with(ways[i].tables, labs[k],
                                 ls_arena_printf(a, "incorporated: never, weather: %s", ways[i].weather));
            const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
            const ls_entry *pan = ls_line_at(t.sheet, r->pan);
            double nitrogen = k == 0 ? 58 : 37, ammonium = k == 0 ? 9 : 7.77;
            double lost = (ammonium - shown(&t, pan->in[1])) / nitrogen;
            CU_ASSERT_TRUE(lost >= 0.009 && lost <= 0.24);
            world_end(&t);
        }
    ls_arena_free(a);
}

/* Oklahoma State counts 90 % of phosphorus and potassium in the first year, Kansas State 50 and 100
 * %; without a table all of it. The limit by phosphorus goes by the whole. */
static void phosphate_and_potash_that_count(void) {
    static const struct {
        const char *tables;
        double P, K;
    } cases[] = {{"", 1, 1},
                 {"tables: {phosphate_and_potash: osu-pan}\n", 0.9, 0.9},
                 {"tables: {phosphate_and_potash: ksu-value}\n", 0.5, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = one_field(cases[i].tables, broiler_litter,
                            "area: 10 ac, crop: corn grain, yield: 100 bu/ac, most: 2 ton/ac, "
                            "phosphate: 200 lb/ac, potash: 200 lb/ac, phosphorus: {rating: high, "
                            "bank: 20 years}");
        const ls_field_rates *f = rates_of(&t, 0, 0);
        const ls_rate *r = &f->rates[0];
        TEST_NEAR(shown(&t, r->rate), 2, 1e-12);
        TEST_NEAR(shown(&t, r->on[LS_FIELD_P2O5]), 110, 1e-12);
        TEST_NEAR(shown(&t, r->counts[LS_FIELD_P2O5]), 110 * cases[i].P, 1e-12);
        TEST_NEAR(shown(&t, r->counts[LS_FIELD_K2O]), 94 * cases[i].K, 1e-12);
        TEST_NEAR(shown(&t, r->short_of[LS_FIELD_P2O5]), 200 - 110 * cases[i].P, 1e-12);
        TEST_NEAR(shown(&t, r->phosphorus), 20 * shown(&t, f->removal_P2O5) / 55, 1e-12);
        const char *const *notes;
        bool full = false;
        for (size_t n = ls_agronomy_notes(t.agronomy, &notes); n > 0; n--)
            full = full || strstr(notes[n - 1], "count in full") != NULL;
        TEST_SAME(full, i == 0);
        world_end(&t);
    }
}

/* ---- what to buy ---- */

/* Pounds of a product to buy; 0 if it is not among them. */
static double bought(const world *t, const ls_rate *r, const char *product) {
    for (size_t i = 0; i < r->bought_n; i++)
        if (strcmp(r->bought[i].product, product) == 0) return shown(t, r->bought[i].per_acre);
    return 0;
}

static const char closed[] = "phosphate: 60 lb/ac, potash: 120 lb/ac";

/* No litter (rated very high), so the whole need is bought. By the grades 46-0-0, 18-46-0, 0-46-0,
 * 0-0-60: 60 / 0.46 = 130.43 lb DAP, which brings 23.48 lb N; (100 - 23.48) / 0.46 = 166.35 lb
 * urea; 120 / 0.60 = 200 lb muriate of potash. Where nitrogen is short of less than that, DAP stops
 * there: 10 / 0.18 = 55.56 lb, and (60 - 25.56) / 0.46 = 74.88 lb TSP. */
static void the_usual_products(void) {
    static const struct {
        int nitrogen;
        double DAP, TSP, urea;
    } cases[] = {{100, 130.4348, 0, 166.3516}, {10, 55.5556, 74.8792, 0}, {0, 0, 130.4348, 0}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = one_field("", broiler_litter,
                            ls_arena_printf(a,
                                            "area: 10 ac, setbacks: [{from: stream, edge: 435.6 "
                                            "ft, width: 100 ft}], crop: corn grain, yield: 100 "
                                            "bu/ac, phosphorus: {rating: very high, rated_by: R. "
                                            "Alder}, nitrogen: %d lb/ac, %s",
                                            cases[i].nitrogen, closed));
        const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
        TEST_NEAR(shown(&t, r->rate), 0, 0);
        TEST_NEAR(bought(&t, r, "DAP"), cases[i].DAP, 1e-5);
        TEST_NEAR(bought(&t, r, "TSP"), cases[i].TSP, 1e-5);
        TEST_NEAR(bought(&t, r, "urea"), cases[i].urea, 1e-5);
        TEST_NEAR(bought(&t, r, "muriate of potash"), 200, 1e-9);
        TEST_NEAR(shown(&t, r->bought[r->bought_n - 1].on_field), 200 * 9, 1e-9);
        CU_ASSERT_FALSE(r->bought[0].priced);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* Of priced products the one whose nutrient costs least. Circular 933: urea at $600 is $0.65 a lb
 * of N. UAN 32 at $350: $0.547. DAP at $800 less 360 lb N at $0.652 is $0.614 a lb of P2O5, TSP at
 * $500 is $0.543. A part with no price falls back on the usual product. */
static void the_farms_own_products(void) {
    static const struct {
        const char *prices, *phosphate, *nitrogen;
    } cases[] = {{"{urea: 600 $/ton, UAN 32: 350 $/ton}", "DAP", "UAN 32"},
                 {"{urea: 600 $/ton, UAN 32: 450 $/ton}", "DAP", "urea"},
                 {"{urea: 600 $/ton, DAP: 800 $/ton, TSP: 500 $/ton}", "TSP", "urea"},
                 {"{urea: 600 $/ton, DAP: 700 $/ton, TSP: 500 $/ton}", "DAP", "urea"},
                 {"{TSP: 500 $/ton}", "TSP", "urea"},
                 {"{MAP: 700 $/ton, DAP: 900 $/ton}", "MAP", "urea"}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = one_field(ls_arena_printf(a, "fertilizer: %s\n", cases[i].prices), broiler_litter,
                            ls_arena_printf(a,
                                            "area: 10 ac, crop: corn grain, yield: 100 bu/ac, "
                                            "phosphorus: {rating: very high}, nitrogen: 100 lb/ac, "
                                            "%s",
                                            closed));
        const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
        CU_ASSERT_TRUE(bought(&t, r, cases[i].phosphate) > 50);
        CU_ASSERT_TRUE(bought(&t, r, cases[i].nitrogen) > 50);
        TEST_NEAR(bought(&t, r, "muriate of potash"), 200, 1e-9);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* Whatever is short, what is bought brings exactly that, and nothing that was not short. */
static void what_is_bought_is_what_is_short(void) {
    static const char *const prices[] = {"", "fertilizer: {MAP: 700 $/ton, ammonium sulfate: 300 $/ton}\n",
                                         "fertilizer: {TSP: 600 $/ton, UAN 32: 350 $/ton}\n"};
    static const double holds[][4] = {/* N, P2O5, K2O of each product, by its grade */
                                      {0.46, 0, 0},    {0.21, 0, 0}, {0.32, 0, 0}, {0.18, 0.46, 0},
                                      {0.11, 0.52, 0}, {0, 0.46, 0}, {0, 0, 0.60}};
    static const char *const products[] = {"urea", "ammonium sulfate", "UAN 32", "DAP", "MAP",
                                           "TSP",  "muriate of potash"};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof prices / sizeof *prices; i++)
        for (int n = 0; n <= 200; n += 50)
            for (int p = 0; p <= 240; p += 80) {
                world t = one_field(prices[i], broiler_litter,
                                    ls_arena_printf(a,
                                                    "area: 10 ac, crop: corn grain, yield: 100 "
                                                    "bu/ac, phosphorus: {rating: low}, nitrogen: "
                                                    "%d lb/ac, phosphate: %d lb/ac, potash: %d "
                                                    "lb/ac",
                                                    n, p, 200 - p / 2));
                const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
                for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
                    double brought = 0;
                    for (size_t m = 0; m < sizeof products / sizeof *products; m++)
                        brought += bought(&t, r, products[m]) * holds[m][k];
                    CU_ASSERT_TRUE(fabs(brought - shown(&t, r->short_of[k])) < 1e-9);
                }
                world_end(&t);
            }
    ls_arena_free(a);
}

TEST_SUITE(agronomy_credit) = {{"irrigation water", irrigation_water},
                               {"fertilizer by product and grade", fertilizer},
                               {"fertilizer under a high rating", fertilizer_under_a_high_rating},
                               {"fertilizer beside a ledger", fertilizer_beside_a_ledger},
                               {"earlier litter by year", earlier_litter_by_year},
                               {"more credit never raises a rate", more_credit_never_raises_a_rate},
                               {"ammonia loss within what was measured", ammonia_loss_within_what_was_measured},
                               {"phosphate and potash that count", phosphate_and_potash_that_count},
                               {"the usual products", the_usual_products},
                               {"the farm's own products", the_farms_own_products},
                               {"what is bought is what is short", what_is_bought_is_what_is_short},
                               CU_TEST_INFO_NULL};
