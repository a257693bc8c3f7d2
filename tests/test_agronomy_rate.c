/* Rates: without a lab report, by the spreader, and what must hold whatever the figures are. */
#include "agronomy_world.h"

#include <math.h>
#include <string.h>

/* ---- without a lab report ---- */

/* The share of draws in which a line lies above a value, by the drawing itself. */
static double share_above(const world *t, const char *key, double above) {
    ls_drawn d = ls_drawn_of(ls_line_find(t->sheet, key));
    CU_ASSERT_NOT_EQUAL_FATAL(d.line, LS_NO_LINE);
    d.above = above;
    ls_draw(t->sheet, 1, LS_BLOCK, &d, 1);
    return d.share_above;
}

/* By the 90 % point the nitrogen limit is passed in 10 % of draws; by the middle in 50 %; at most:
 * in what the draws say. */
static void chance_without_a_report(void) {
    const char *field = "area: 10 ac, crop: corn grain, yield: 100 bu/ac, phosphorus: {rating: "
                        "low}, nitrogen: 60 lb/ac, most: %s, without_lab: %s";
    static const struct {
        const char *most, *without;
        double chance, within;
    } cases[] = {{"20 ton/ac", "90 %", 0.10, 1e-6}, {"20 ton/ac", "expected", 0.50, 1e-6}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = one_field("", NULL, ls_arena_printf(a, field, cases[i].most, cases[i].without));
        const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
        TEST_TEXT(ls_limit_name(r->limit), "nitrogen");
        TEST_NEAR(ls_line_value(t.sheet, r->chance_over), cases[i].chance, cases[i].within);
        CU_ASSERT_EQUAL(ls_line_at(t.sheet, r->pan)->origin.kind, LS_BY_SIMULATION);
        double left = 60 * ls_unit_of("lb/ac").factor;
        TEST_NEAR(share_above(&t, "house.pan.never.average", left / ls_line_value(t.sheet, r->rate)), cases[i].chance,
                  0.02);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* Below the limit the chance is what counting the draws gives, within 0.002. */
static void chance_between(void) {
    static const char *const most[] = {"1.5", "1.6", "1.7", "1.8", "1.9"};
    const char *field = "area: 10 ac, crop: corn grain, yield: 100 bu/ac, phosphorus: {rating: "
                        "low}, nitrogen: 60 lb/ac, most: %s ton/ac";
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof most / sizeof *most; i++) {
        world t = one_field("", NULL, ls_arena_printf(a, field, most[i]));
        const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
        double left = 60 * ls_unit_of("lb/ac").factor, got = ls_line_value(t.sheet, r->chance_over);
        double counted = share_above(&t, "house.pan.never.average", left / ls_line_value(t.sheet, r->rate));
        CU_ASSERT_TRUE(counted > 0 && counted < 0.1001);
        CU_ASSERT_TRUE(fabs(got - counted) < 0.002 && got <= 0.1);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* By phosphorus too: at most 10 %, whatever the spreader's step. */
static void chance_by_phosphorus(void) {
    world t = one_field("trucks:\n  - {name: T, count: 1, payload: 11 ton, body: 20 yd3, swath: 30 "
                        "ft, spreading: 6 mph, road: 30 mph, rate: {least: "
                        "0.1 ton/ac, most: 6 ton/ac, step: 0.1 ton/ac}}\n",
                        NULL, "area: 10 ac, crop: bermudagrass hay, yield: 6 ton/ac");
    const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
    TEST_TEXT(ls_limit_name(r->limit), "phosphorus");
    double chance = ls_line_value(t.sheet, r->chance_over);
    CU_ASSERT_TRUE(chance > 0 && chance <= 0.10);
    CU_ASSERT_TRUE(ls_line_value(t.sheet, r->rate) > 0);
    world_end(&t);
}

/* ---- the spreader ---- */

static world with_truck(const char *range, const char *field) {
    ls_arena *a = ls_arena_new();
    world t = one_field(ls_arena_printf(a,
                                        "trucks:\n  - {name: T, count: 1, payload: 11 ton, body: "
                                        "20 yd3, swath: 30 ft, spreading: 6 mph, road: "
                                        "30 mph, rate: %s}\n",
                                        range),
                        "N: 50 lb/ton, NH4N: 10 lb/ton, P2O5: 50 lb/ton, K2O: 40 lb/ton", field);
    ls_arena_free(a);
    return t;
}

/* Each kind of truck has rates of its own range; the page shows the first that spreads, and says so
 * where another differs. 200 lb/ac over 26 lb/ton = 7.69 ton/ac, a plan's top rate of 5.3. */
static void other_trucks(void) {
    static const char trailer[] = "trucks:\n  - {name: Trailer, count: 1, payload: 20 ton, only: road}\n"
                                  "  - {name: Long one, count: 1, payload: 11 ton, rate: "
                                  "{least: 1 ton/ac, most: 6 ton/ac, step: 1 ton/ac}}\n";
    static const struct {
        const char *truck;
        double rate; /* of it */
    } cases[] = {
        {"", 5},
        {"  - {name: T, count: 1, payload: 8 ton}\n", 5.3},
        {"  - {name: T, count: 1, payload: 8 ton, rate: {least: 1 ton/ac, most: 2 ton/ac}}\n", 2},
        {"  - {name: T, count: 1, payload: 8 ton, rate: {least: 1 ton/ac, most: 6 ton/ac, step: 1 "
         "ton/ac}}\n",
         5},
        {"  - {name: T, count: 1, payload: 8 ton, rate: {least: 5.5 ton/ac, most: 6 ton/ac}}\n", 0},
    };
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = one_field(ls_arena_printf(a, "%s%s", trailer, cases[i].truck),
                            "N: 50 lb/ton, NH4N: 10 lb/ton, P2O5: 50 lb/ton, K2O: 40 lb/ton",
                            "area: 10 ac, crop: corn grain, yield: 100 bu/ac, nitrogen: 200 lb/ac, "
                            "phosphorus: {rating: low}, most: 5.3 ton/ac");
        const ls_field_rates *r = rates_of(&t, 0, 0);
        const char *const *notes;
        size_t n = ls_agronomy_notes(t.agronomy, &notes), told = 0;
        for (size_t k = 0; k < n; k++) told += strstr(notes[k], "These rates are for Long one.") != NULL;
        TEST_SAME(told, cases[i].rate != 5);
        TEST_NEAR(shown(&t, r->rates[0].rate), 5, 1e-9);
        TEST_NEAR(shown(&t, ls_field_rate(r, 0, 1)->rate), 5, 1e-9);
        if (i > 0) TEST_NEAR(shown(&t, ls_field_rate(r, 0, 2)->rate), cases[i].rate, 1e-9);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* PAN 0.6 x 40 + 0.2 x 10 = 26 lb/ton. The limit keeps its name when the spreader rounds it or
 * cannot go so low. */
static void spreader(void) {
    static const struct {
        const char *range, *nitrogen, *limit, *why;
        double rate;
    } cases[] = {
        {"{least: 1 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}", "49.4 lb/ac", "nitrogen", NULL, 1.75},
        {"{least: 1 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}", "26 lb/ac", "nitrogen", NULL, 1},
        {"{least: 1 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}", "25 lb/ac", "nitrogen",
         "the nitrogen limit, 0.962 tons/ac, is below the lowest rate of the spreader", 0},
        {"{least: 1 ton/ac, most: 6 ton/ac}", "32.5 lb/ac", "nitrogen", NULL, 1.25},
        {"{least: 1 ton/ac, most: 1.5 ton/ac, step: 0.5 ton/ac}", "200 lb/ac", "spreader", NULL, 1.5},
        {"{least: 0.25 ton/ac, most: 6 ton/ac, step: 0.5 ton/ac}", "10 lb/ac", "nitrogen",
         "the nitrogen limit, 0.385 tons/ac, is below one step of the spreader", 0},
        {"{least: 1 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}", "0 lb/ac", "nitrogen", "needs no nitrogen", 0},
        {"{least: 1 ton/ac, most: 3 ton/ac}", "300 lb/ac", "cap", NULL, 3},
        {"{least: 1 ton/ac, most: 6 ton/ac}",
         "200 lb/ac, window_caps: [{between: 2026-02-01..2026-03-01, most: 0.8 ton/ac, rule: "
         "Alabama}, {between: 2026-05-01..2026-06-01, most: 0.9 ton/ac}]",
         "window",
         "the limit of the season from Sun, Feb 1, 2026 to Sun, Mar 1, 2026, by the rule of "
         "Alabama, 0.8 tons/ac, "
         "is below the lowest rate of the spreader",
         0},
    };
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = with_truck(cases[i].range, ls_arena_printf(a,
                                                             "area: 10 ac, crop: corn grain, yield: 100 bu/ac, "
                                                             "phosphorus: {rating: low}, nitrogen: %s",
                                                             cases[i].nitrogen));
        const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
        TEST_NEAR(shown(&t, r->rate), cases[i].rate, 1e-9);
        TEST_TEXT(ls_limit_name(r->limit), cases[i].limit);
        if (cases[i].why == NULL)
            TEST_TEXT(r->why, NULL);
        else
            TEST_HOLDS(r->why == NULL ? "" : r->why, cases[i].why);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* ---- what must hold whatever the figures are ---- */

static double rate_for(const char *field) {
    world t = with_truck("{least: 0.5 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}", field);
    double rate = shown(&t, rates_of(&t, 0, 0)->rates[0].rate);
    world_end(&t);
    return rate;
}

static void more_need_never_lowers_a_rate(void) {
    ls_arena *a = ls_arena_new();
    double last = 0;
    for (int need = 0; need <= 200; need += 10) {
        double rate = rate_for(ls_arena_printf(a,
                                               "area: 10 ac, crop: corn grain, yield: 100 bu/ac, "
                                               "phosphorus: {rating: low}, nitrogen: %d lb/ac",
                                               need));
        CU_ASSERT_TRUE(rate >= last);
        last = rate;
    }
    TEST_NEAR(last, 3, 1e-9);
    ls_arena_free(a);
}

static void wider_setback_never_gives_acres(void) {
    ls_arena *a = ls_arena_new();
    double last = 10;
    for (int width = 50; width <= 600; width += 50) {
        world t = with_truck(
            "{least: 0.25 ton/ac, most: 6 ton/ac, step: 0.25 ton/ac}",
            ls_arena_printf(a,
                            "area: 10 ac, crop: corn grain, yield: 100 bu/ac, setbacks: [{from: stream, edge: "
                            "1000 ft, width: %d ft}]",
                            width));
        const ls_field_rates *f = rates_of(&t, 0, 0);
        double acres = shown(&t, f->spreadable);
        CU_ASSERT_TRUE(acres <= last && acres >= 0);
        bool closed = 1000.0 * width >= 10 * 43560.0;
        TEST_SAME(f->rates[0].limit == LS_LIMIT_CLOSED, closed);
        TEST_SAME(shown(&t, f->rates[0].rate) > 0, !closed);
        last = acres;
        world_end(&t);
    }
    TEST_NEAR(last, 0, 0);
    ls_arena_free(a);
}

static void no_rating_is_high_without_a_bank(void) {
    const char *field = "area: 10 ac, crop: corn grain, yield: 150 bu/ac";
    ls_arena *a = ls_arena_new();
    double unrated = rate_for(field), high = rate_for(ls_arena_printf(a, "%s, phosphorus: {rating: high}", field));
    TEST_NEAR(unrated, high, 0);
    CU_ASSERT_TRUE(unrated > 0);
    world t = one_field("", broiler_litter, field);
    CU_ASSERT_TRUE(has_flag(rates_of(&t, 0, 0), "no phosphorus rating"));
    world_end(&t);
    ls_arena_free(a);
}

/* ---- flags ---- */

static void flags_of_age_and_cap(void) {
    const char *field = "area: 10 ac, crop: corn grain, yield: 100 bu/ac, most: %s, soil: {date: "
                        "%s, method: Mehlich-1, P: 30 lb/ac, K: 100 lb/ac}";
    ls_arena *a = ls_arena_new();
    world t = one_field("", broiler_litter, ls_arena_printf(a, field, "4 ton/ac", "2023-02-27"));
    const ls_field_rates *f = rates_of(&t, 0, 0);
    CU_ASSERT_TRUE(has_flag(f, "the soil test of Mon, Feb 27, 2023 is more than 3 years old"));
    CU_ASSERT_TRUE(has_flag(f, "limit (most), 4 tons/ac, is used. It is above 3 tons/ac"));
    CU_ASSERT_FALSE(has_flag(f, "lab report"));
    TEST_NEAR(shown(&t, f->rates[0].cap), 4, 1e-12);
    world_end(&t);
    t = one_field("", broiler_litter, ls_arena_printf(a, field, "3 ton/ac", "2023-03-01"));
    f = rates_of(&t, 0, 0);
    CU_ASSERT_FALSE(has_flag(f, "soil test of"));
    CU_ASSERT_FALSE(has_flag(f, "is above"));
    world_end(&t);
    ls_arena_free(a);
}

TEST_SUITE(agronomy_rate) = {{"chance without a lab report", chance_without_a_report},
                             {"chance below the limit", chance_between},
                             {"chance by phosphorus", chance_by_phosphorus},
                             {"the spreader", spreader},
                             {"other trucks", other_trucks},
                             {"more need never lowers a rate", more_need_never_lowers_a_rate},
                             {"a wider setback never gives acres", wider_setback_never_gives_acres},
                             {"no rating is high without a bank", no_rating_is_high_without_a_bank},
                             {"flags of age and cap", flags_of_age_and_cap},
                             CU_TEST_INFO_NULL};
