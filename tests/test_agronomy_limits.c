/* Caps of a season, setbacks, metals, litter of every kind of bird without a lab report. */
#include "agronomy_world.h"

#include <math.h>
#include <string.h>

/* One weighed house of some kind of bird, with or without a lab report, and one field. */
static world farm(const char *birds, const char *lab, const char *open, const char *field) {
    ls_arena *a = ls_arena_new();
    world t = world_of_text(ls_arena_printf(
        a,
        "tables: {nitrogen: georgia, removal: ipni}\n"
        "houses:\n  - {name: House, length: 400 ft, width: 40 ft, measured: {weighed: 100 ton}, "
        "flocks: [{%s, placed: 2025-04-21, removed: 2025-06-09}]%s%s%s}\n"
        "buyers:\n  - name: Buyer\n    fields:\n      - {name: Field, area: 10 ac, crop: "
        "bermudagrass hay, yield: 4.5 ton/ac, %s%s%s%s}\n",
        birds, lab == NULL ? "" : ", lab: [{date: 2026-01-29, ", lab == NULL ? "" : lab, lab == NULL ? "" : "}]",
        open == NULL ? "" : "open: ", open == NULL ? "" : open, open == NULL ? "" : ", ", field));
    ls_arena_free(a);
    return t;
}

static const char breeders[] = "birds: broiler breeder, hens: 7000, males: 700";

/* ---- caps of a season ---- */

/* Alabama certified animal waste vendor training, module 6: at most 30 lb N on cool-season forage
 * in the north of the state from 15 November to 15 February; whether total or available nitrogen is
 * meant stands in the farm file. Litter of 63 lb N a ton, half of it available. */
#define NORTH_ALABAMA(figure) "window_caps: [{between: 2025-11-15..2026-02-15, " figure ", rule: Alabama}]"

static void north_alabama(void) {
    static const struct {
        const char *cap, *open;
        double window, rate;
        const char *limit;
        size_t outside;
    } cases[] = {
        {NORTH_ALABAMA("available_nitrogen: 30 lb/ac"), "2026-02-01..2026-04-30", 30 / 31.5, 30 / 31.5, "window", 1},
        {NORTH_ALABAMA("total_nitrogen: 30 lb/ac"), "2026-02-01..2026-04-30", 30 / 63.0, 30 / 63.0, "window", 1},
        {NORTH_ALABAMA("most: 0.5 ton/ac"), "2026-02-01..2026-04-30", 0.5, 0.5, "window", 1},
        {NORTH_ALABAMA("most: 5 ton/ac"), "2026-02-01..2026-04-30", 5, 2, "cap", 1},
        {NORTH_ALABAMA("total_nitrogen: 30 lb/ac"), "2026-02-15..2026-02-15", 30 / 63.0, 30 / 63.0, "window", 0},
        {NORTH_ALABAMA("total_nitrogen: 30 lb/ac"), "2026-02-16..2026-04-30", NAN, 2, "cap", 0},
        {NORTH_ALABAMA("total_nitrogen: 30 lb/ac"), NULL, 30 / 63.0, 30 / 63.0, "window", 0},
        {NORTH_ALABAMA("total_nitrogen: 0 lb/ac"), "2026-02-01..2026-04-30", 0, 0, "window", 1},
    };
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = farm(breeders, broiler_litter, cases[i].open,
                       ls_arena_printf(a, "phosphorus: {rating: low}, most: 2 ton/ac, %s", cases[i].cap));
        const ls_field_rates *f = rates_of(&t, 0, 0);
        const ls_rate *r = &f->rates[0];
        TEST_SAME(f->caps[0].applies, !isnan(cases[i].window));
        TEST_SAME(r->window == LS_NO_LINE, isnan(cases[i].window));
        if (!isnan(cases[i].window)) TEST_NEAR(shown(&t, r->window), cases[i].window, 1e-9);
        TEST_NEAR(shown(&t, r->rate), cases[i].rate, 1e-9);
        TEST_TEXT(ls_limit_name(r->limit), cases[i].limit);
        TEST_SAME(f->outside.n, cases[i].outside);
        if (cases[i].outside > 0) {
            TEST_NEAR(shown(&t, r->outside), 2, 1e-9);
            TEST_TEXT(ls_date_iso(a, f->outside.at[0].from), "2026-02-16");
            TEST_TEXT(ls_date_iso(a, f->outside.at[0].to), "2026-04-30");
        } else
            TEST_SAME(r->outside, LS_NO_LINE);
        if (cases[i].rate <= 0) TEST_HOLDS(r->why == NULL ? "" : r->why, "limit of the season");
        world_end(&t);
    }
    ls_arena_free(a);
}

/* Several caps, given in any order and overlapping: the least counts, and the days outside are
 * those that none of them holds on. */
static void several_caps(void) {
    world t = farm(breeders, broiler_litter, "2026-02-01..2026-04-30",
                   "phosphorus: {rating: low}, window_caps: [{between: 2026-03-10..2026-03-20, "
                   "most: 1 ton/ac}, {between: 2026-01-01..2026-02-15, most: 0.8 ton/ac}, {between: "
                   "2026-02-10..2026-02-20, most: 0.9 ton/ac}, {between: 2026-06-01..2026-06-30, "
                   "most: 0.1 ton/ac}]");
    const ls_field_rates *f = rates_of(&t, 0, 0);
    TEST_NEAR(shown(&t, f->rates[0].window), 0.8, 1e-12);
    TEST_SAME(f->caps[3].applies, false);
    TEST_SAME(f->outside.n, 2);
    ls_arena *a = ls_arena_new();
    static const char *const days[] = {"2026-02-21", "2026-03-09", "2026-03-21", "2026-04-30"};
    for (size_t i = 0; i < 2 && i < f->outside.n; i++) {
        TEST_TEXT(ls_date_iso(a, f->outside.at[i].from), days[2 * i]);
        TEST_TEXT(ls_date_iso(a, f->outside.at[i].to), days[2 * i + 1]);
    }
    ls_arena_free(a);
    world_end(&t);
}

/* A cap applies if it holds on one day of the window, its first or its last. */
static void one_day_in_common(void) {
    static const struct {
        const char *open;
        bool applies;
    } cases[] = {{"2026-01-01..2026-01-31", false},
                 {"2026-01-01..2026-02-01", true},
                 {"2026-02-28..2026-04-30", true},
                 {"2026-03-01..2026-04-30", false}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = farm(breeders, broiler_litter, cases[i].open,
                       "phosphorus: {rating: low}, window_caps: [{between: 2026-02-01..2026-02-28, "
                       "most: 1 ton/ac}]");
        TEST_SAME(rates_of(&t, 0, 0)->caps[0].applies, cases[i].applies);
        world_end(&t);
    }
}

/* Without a lab report the 90 % point counts: the cap is passed in 10 % of draws at most. */
static void cap_without_a_report(void) {
    static const char *const caps[] = {"total_nitrogen: 30 lb/ac", "available_nitrogen: 15 lb/ac"};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof caps / sizeof *caps; i++) {
        world t = farm(breeders, NULL, "2026-02-01..2026-04-30",
                       ls_arena_printf(a,
                                       "phosphorus: {rating: low}, window_caps: [{between: "
                                       "2025-11-15..2026-02-15, %s}]",
                                       caps[i]));
        const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
        TEST_TEXT(ls_limit_name(r->limit), "window");
        TEST_NEAR(ls_line_value(t.sheet, r->chance_over), 0.1, 1e-6);
        ls_drawn d = ls_drawn_of(i == 0 ? t.estimate->lots[0].analysis->per_ton[LS_N]
                                        : ls_line_find(t.sheet, "house.pan.never.average"));
        CU_ASSERT_NOT_EQUAL_FATAL(d.line, LS_NO_LINE);
        d.above = (i == 0 ? 30 : 15) * ls_unit_of("lb/ac").factor / ls_line_value(t.sheet, r->rate);
        ls_draw(t.sheet, 1, LS_BLOCK, &d, 1);
        TEST_NEAR(d.share_above, 0.1, 0.02);
        world_end(&t);
    }
    ls_arena_free(a);
}

static double rate_for(const char *field) {
    world t = farm(breeders, broiler_litter, "2026-02-01..2026-04-30", field);
    double rate = shown(&t, rates_of(&t, 0, 0)->rates[0].rate);
    world_end(&t);
    return rate;
}

/* Whatever cap is raised, the rate does not fall; rated very high it stays nothing. */
static void raising_a_cap_never_lowers_a_rate(void) {
    static const char *const caps[] = {"", "most: 3 ton/ac, window_caps: [{between: 2026-01-01..2026-02-10, "};
    ls_arena *a = ls_arena_new();
    for (size_t k = 0; k < sizeof caps / sizeof *caps; k++) {
        double last = 0;
        for (int i = 1; i <= 40; i += 3) {
            const char *field = ls_arena_printf(a, "%smost: %.1f ton/ac%s", caps[k], i / 10.0, k == 0 ? "" : "}]");
            double rate = rate_for(ls_arena_printf(a, "phosphorus: {rating: medium}, %s", field));
            CU_ASSERT_TRUE(rate >= last);
            last = rate;
            TEST_NEAR(rate_for(ls_arena_printf(a, "phosphorus: {rating: very high}, %s", field)), 0, 0);
        }
        CU_ASSERT_TRUE(last > 2);
    }
    ls_arena_free(a);
}

/* ---- setbacks ---- */

/* By hand: 980 ft x 100 ft; half of a circle of 150 ft less 0.3 ac counted once; 43,560 ft2 an
 * acre.
 */
static void setbacks(void) {
    world t = farm(breeders, broiler_litter, "2026-02-01..2026-04-30",
                   "setbacks: [{from: stream, edge: 980 ft, width: 100 ft, rule: county}, {from: "
                   "well, radius: 150 ft, share: 50 %, overlap: 0.3 ac}, {from: sinkhole, radius: "
                   "50 ft}]");
    const ls_field_rates *f = rates_of(&t, 0, 0);
    const double pi = acos(-1), want[] = {98000 / 43560.0, pi * 22500 / 2 / 43560 - 0.3, pi * 2500 / 43560};
    TEST_SAME(f->setbacks_n, 3);
    double sum = 0;
    for (size_t i = 0; i < 3; i++) {
        TEST_NEAR(shown(&t, f->setbacks[i].acres), want[i], 1e-12);
        sum += want[i];
    }
    TEST_TEXT(f->setbacks[0].setback->rule.text, "county");
    TEST_TEXT(f->setbacks[2].setback->from.text, "sinkhole");
    TEST_NEAR(shown(&t, f->spreadable), 10 - sum, 1e-12);
    world_end(&t);
}

/* Wider, more of it in the field, less counted twice, one more of them: never more tons. */
static void stricter_never_gives_tons(void) {
    static const char *const stricter[] = {
        "[]",
        "[{from: well, radius: 100 ft, share: 25 %}]",
        "[{from: well, radius: 100 ft, share: 50 %}]",
        "[{from: well, radius: 100 ft}]",
        "[{from: well, radius: 200 ft}]",
        "[{from: well, radius: 200 ft}, {from: pond, edge: 500 ft, width: 35 ft, overlap: 0.2 ac}]",
        "[{from: well, radius: 200 ft}, {from: pond, edge: 500 ft, width: 35 ft}]",
        "[{from: well, radius: 200 ft}, {from: pond, edge: 500 ft, width: 100 ft}]",
        "[{from: well, radius: 2000 ft}, {from: pond, edge: 500 ft, width: 100 ft}]"};
    enum { CASES = sizeof stricter / sizeof *stricter };
    ls_arena *a = ls_arena_new();
    double last = INFINITY;
    for (size_t i = 0; i < CASES; i++) {
        world t = farm(breeders, broiler_litter, "2026-02-01..2026-04-30",
                       ls_arena_printf(a, "phosphorus: {rating: low}%s%s",
                                       i == 0 ? "" : ", setbacks: ", i == 0 ? "" : stricter[i]));
        const ls_field_rates *f = rates_of(&t, 0, 0);
        double tons = shown(&t, f->spreadable) * shown(&t, f->rates[0].rate);
        CU_ASSERT_TRUE(i == 0 || tons < last);
        CU_ASSERT_TRUE(shown(&t, f->spreadable) >= 0);
        last = tons;
        world_end(&t);
    }
    TEST_NEAR(last, 0, 0);
    ls_arena_free(a);
}

/* ---- metals ---- */

/* University of Georgia, Bulletin 1330: 2 ton/ac of litter with 319 ppm copper and 265 ppm zinc are
 * 1.276 and 1.060 lb/ac. South Carolina Regulation 61-43: 1,339 and 2,499 lb/ac in all. */
static void metals(void) {
    world t = farm(breeders, "N: 63 lb/ton, P2O5: 55 lb/ton, K2O: 47 lb/ton, Cu: 319 ppm, Zn: 265 ppm",
                   "2026-02-01..2026-04-30", "phosphorus: {rating: low}, most: 2 ton/ac");
    const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
    TEST_NEAR(shown(&t, r->rate), 2, 1e-12);
    TEST_NEAR(shown(&t, r->metals[LS_COPPER].on), 1.276, 1e-9);
    TEST_NEAR(shown(&t, r->metals[LS_ZINC].on), 1.060, 1e-9);
    TEST_NEAR(shown(&t, r->metals[LS_COPPER].times), 1339 / 1.276, 1e-9);
    TEST_NEAR(shown(&t, r->metals[LS_ZINC].most), 2499, 1e-9);
    CU_ASSERT_TRUE(r->metals[LS_COPPER].reported);
    world_end(&t);
    t = farm(breeders, "basis: dry, moisture: 40 %, N: 63 lb/ton, P2O5: 55 lb/ton, K2O: 47 lb/ton, Cu: 500 ppm",
             "2026-02-01..2026-04-30", "phosphorus: {rating: low}, most: 2 ton/ac");
    r = &rates_of(&t, 0, 0)->rates[0];
    TEST_NEAR(shown(&t, r->metals[LS_COPPER].on), 2 * 0.6 * 1.0, 1e-9);
    CU_ASSERT_FALSE(r->metals[LS_ZINC].reported);
    TEST_NEAR(shown(&t, r->metals[LS_ZINC].on), 4000 * (265 + 286) / 2e6, 1e-9);
    world_end(&t);
}

/* ---- every kind of bird ---- */

static const char *const birds[] = {breeders,
                                    "birds: breeder pullet, count: 9000",
                                    "birds: broiler, count: 24000",
                                    "birds: layer, count: 20000",
                                    "birds: layer pullet, count: 20000",
                                    "birds: turkey tom, count: 8000",
                                    "birds: turkey hen, count: 9000",
                                    "birds: duck, count: 6000"};

/* Without a lab report the 90 % point of what binds is used, and at most 10 % of draws pass the
 * limit; with one its figures count as they stand, and there is no chance to tell. */
static void every_bird(void) {
    static const char *const ratings[] = {"low", "high"}, *const limits[] = {"nitrogen", "phosphorus"};
    ls_arena *a = ls_arena_new();
    for (size_t b = 0; b < sizeof birds / sizeof *birds; b++)
        for (size_t k = 0; k < 2; k++) {
            const char *field =
                ls_arena_printf(a, "phosphorus: {rating: %s}, most: 50 ton/ac, nitrogen: 120 lb/ac", ratings[k]);
            world t = farm(birds[b], NULL, "2026-02-01..2026-04-30", field);
            const ls_field_rates *f = rates_of(&t, 0, 0);
            const ls_rate *r = &f->rates[0];
            TEST_TEXT(ls_limit_name(r->limit), limits[k]);
            double chance = ls_line_value(t.sheet, r->chance_over);
            CU_ASSERT_TRUE(chance > 0.09 && chance <= 0.1 * (1 + 1e-9));
            const ls_line content = k == 0 ? ls_line_find(t.sheet, "house.pan.never.average")
                                           : t.estimate->lots[0].analysis->per_ton[LS_P2O5];
            ls_drawn d = ls_drawn_of(content);
            d.above = (k == 0 ? 120 : 54) * ls_unit_of("lb/ac").factor / ls_line_value(t.sheet, r->rate);
            ls_draw(t.sheet, 1, LS_BLOCK, &d, 1);
            CU_ASSERT_TRUE(d.share_above < 0.1 + 0.01);
            world_end(&t);
            t = farm(birds[b], broiler_litter, "2026-02-01..2026-04-30", field);
            r = &rates_of(&t, 0, 0)->rates[0];
            TEST_SAME(r->chance_over, LS_NO_LINE);
            TEST_NEAR(shown(&t, r->rate), k == 0 ? 120 / 31.5 : 54 / 55.0, 1e-12);
            world_end(&t);
        }
    ls_arena_free(a);
}

/* Alabama certified animal waste vendor training, module 5: up to 110 % of the recommended
 * nitrogen.
 */
static void tolerance(void) {
    static const struct {
        const char *place, *most;
        bool said;
    } cases[] = {{"near Millrace, Alabama", "20 ton/ac", true},
                 {"near Millrace, Alabama", "1 ton/ac", false},
                 {"Georgia", "20 ton/ac", false}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = one_field(ls_arena_printf(a, "farm: {name: Farm, place: \"%s\"}\n", cases[i].place), broiler_litter,
                            ls_arena_printf(a,
                                            "area: 10 ac, crop: corn grain, yield: 100 bu/ac, "
                                            "phosphorus: {rating: low}, nitrogen: 100 lb/ac, most: %s",
                                            cases[i].most));
        TEST_SAME(has_flag(rates_of(&t, 0, 0), "up to 110% of the recommended nitrogen (aces-m5)"), cases[i].said);
        world_end(&t);
    }
    ls_arena_free(a);
}

TEST_SUITE(agronomy_limits) = {{"a cap from November to February", north_alabama},
                               {"several caps", several_caps},
                               {"one day in common", one_day_in_common},
                               {"a cap without a report", cap_without_a_report},
                               {"raising a cap never lowers a rate", raising_a_cap_never_lowers_a_rate},
                               {"setbacks", setbacks},
                               {"stricter setbacks never give tons", stricter_never_gives_tons},
                               {"metals", metals},
                               {"every kind of bird", every_bird},
                               {"tolerance", tolerance},
                               CU_TEST_INFO_NULL};
