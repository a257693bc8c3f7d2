/* Days on which a field may be spread, the earliest dates after, and the ages of tests. */
#include "agronomy_world.h"
#include "plan_world.h"
#include "program.h"

#include <math.h>
#include <string.h>

static ls_date day(const char *iso) {
    ls_date d = LS_NO_DATE;
    CU_ASSERT_TRUE(ls_date_parse(iso, strlen(iso), &d));
    return d;
}

static const char field_of[] =
    "area: 10 ac, crop: %s, yield: 3 ton/ac, nitrogen: 60 lb/ac, phosphorus: {rating: low}%s";

/* New South Wales: cattle stay off for 21 days. 7 CFR 205.203(c)(1): 120 and 90 days from raw
 * manure to the harvest of organic food. The farm file's own days go before them. After spreading
 * on 2026-04-15. */
static void earliest_dates(void) {
    static const struct {
        const char *crop, *more, *grazing, *harvest;
        bool given;
    } cases[] = {
        {"tall fescue hay", "", NULL, NULL, false},
        {"tall fescue hay", ", use: grazed by beef", "2026-05-06", NULL, false},
        {"tall fescue hay", ", grazing: 2026-05-10", "2026-05-06", NULL, false},
        {"tall fescue hay", ", use: grazed by dairy, days_before_grazing: 30", "2026-05-15", NULL, true},
        {"tall fescue hay", ", days_before_grazing: 0", "2026-04-15", NULL, true},
        {"corn grain", ", grown_for: organic food in the soil", NULL, "2026-08-13", false},
        {"corn grain", ", grown_for: organic food off the soil", NULL, "2026-07-14", false},
        {"corn grain", ", grown_for: feed", NULL, NULL, false},
        {"corn grain", ", grown_for: organic food in the soil, days_before_harvest: 60", NULL, "2026-06-14", true},
    };
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *yield = strcmp(cases[i].crop, "corn grain") == 0 ? "bu" : "ton";
        world t = one_field("", broiler_litter,
                            ls_arena_printf(a,
                                            "area: 10 ac, crop: %s, yield: 3 %s/ac, nitrogen: 60 "
                                            "lb/ac, phosphorus: {rating: low}%s",
                                            cases[i].crop, yield, cases[i].more));
        const ls_field *f = &t.farm->buyers.at[0].fields.at[0];
        ls_earliest e = ls_agronomy_earliest(t.reference, f, day("2026-04-15"));
        TEST_TEXT(e.grazing.day == LS_NO_DATE ? NULL : ls_date_iso(a, e.grazing.day), cases[i].grazing);
        TEST_TEXT(e.harvest.day == LS_NO_DATE ? NULL : ls_date_iso(a, e.harvest.day), cases[i].harvest);
        TEST_SAME(e.grazing.given || e.harvest.given, cases[i].given);
        TEST_TEXT(e.grazing.source, cases[i].grazing && !cases[i].given ? "botulism-nsw" : NULL);
        TEST_TEXT(e.harvest.source, cases[i].harvest && !cases[i].given ? "cfr-205" : NULL);
        /* The page counts from the last day of the window, 2026-04-30. */
        const ls_field_rates *r = rates_of(&t, 0, 0);
        TEST_TEXT(ls_date_iso(a, r->last_day), "2026-04-30");
        if (cases[i].grazing != NULL) {
            TEST_SAME(r->earliest.grazing.day, e.grazing.day + 15);
            TEST_NEAR(shown(&t, r->earliest.grazing.line), (double)e.grazing.days, 1e-12);
        }
        /* Without a day there are days only. */
        e = ls_agronomy_earliest(t.reference, f, LS_NO_DATE);
        TEST_SAME(e.grazing.day, LS_NO_DATE);
        TEST_SAME(e.grazing.days > 0, cases[i].grazing != NULL && r->earliest.grazing.days > 0);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* Animals may eat hay and forage, small grain forage too; not grain, tobacco or tomatoes. */
static void crops_for_stock(void) {
    static const struct {
        const char *crop;
        bool stock;
    } cases[] = {{"tall fescue hay", true}, {"small grain forage", true}, {"wheat pasture", true},
                 {"wheat grain", false},    {"burley tobacco", false},    {"tomato", false}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const ls_field f = {.crop = {.text = cases[i].crop}};
        TEST_SAME(ls_agronomy_for_stock(&f), cases[i].stock);
    }
}

/* Dates of the file that come sooner than a published caution would have them. */
static void dates_too_early(void) {
    ls_arena *a = ls_arena_new();
    world t = one_field("", broiler_litter,
                        ls_arena_printf(a, field_of, "tall fescue hay", ", grazing: 2026-05-10, harvest: 2026-06-30"));
    const ls_field_rates *f = rates_of(&t, 0, 0);
    CU_ASSERT_TRUE(has_flag(f, "animals come on Sun, May 10"));
    CU_ASSERT_TRUE(has_flag(f, "Thu, May 21 at the earliest (botulism-nsw)"));
    CU_ASSERT_TRUE(!has_flag(f, "organic food")); /* nobody eats hay */
    world_end(&t);
    t = one_field("", broiler_litter,
                  "area: 10 ac, crop: corn grain, yield: 100 bu/ac, nitrogen: 100 lb/ac, phosphorus: "
                  "{rating: low}, harvest: 2026-06-30");
    CU_ASSERT_TRUE(has_flag(rates_of(&t, 0, 0), "organic food: 120 days"));
    world_end(&t);
    t = one_field(
        "", broiler_litter,
        ls_arena_printf(a, field_of, "tall fescue hay", ", grazing: 2026-05-21, harvest: 2026-06-30, grown_for: feed"));
    f = rates_of(&t, 0, 0);
    CU_ASSERT_FALSE(has_flag(f, "animals come on"));
    CU_ASSERT_FALSE(has_flag(f, "organic"));
    world_end(&t);
    ls_arena_free(a);
}

/* South Carolina: at most 30 days before planting. Only days of the farm file narrow the window
 * 2026-03-01..2026-04-30. */
static void days_that_are_left(void) {
    static const struct {
        const char *more, *from, *to;
    } cases[] = {
        {"", "2026-03-01", "2026-04-30"},
        {", planting: 2026-04-20, days_before_planting: 30", "2026-03-21", "2026-04-30"},
        {", planting: 2026-04-20", "2026-03-01", "2026-04-30"},
        {", harvest: 2026-07-14, days_before_harvest: 90", "2026-03-01", "2026-04-15"},
        {", harvest: 2026-07-14", "2026-03-01", "2026-04-30"},
        {", grazing: 2026-05-01, days_before_grazing: 21", "2026-03-01", "2026-04-10"},
        {", grazing: 2026-05-01, use: grazed by beef", "2026-03-01", "2026-04-30"},
        {", planting: 2026-04-20, days_before_planting: 30, harvest: 2026-07-14, "
         "days_before_harvest: 90",
         "2026-03-21", "2026-04-15"},
    };
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = one_field("", broiler_litter, ls_arena_printf(a, field_of, "tall fescue hay", cases[i].more));
        ls_window w = t.farm->buyers.at[0].fields.at[0].allowed;
        TEST_TEXT(ls_date_iso(a, w.from), cases[i].from);
        TEST_TEXT(ls_date_iso(a, w.to), cases[i].to);
        world_end(&t);
    }
    ls_arena_free(a);
}

/* The plan keeps to them: the crew comes on 2026-02-16, and a field that may be spread from
 * 2026-03-21 only takes nothing from the house. */
static void the_plan_keeps_them(void) {
    static const char *const fields[] = {"", ", planting: 2026-04-20, days_before_planting: 30",
                                         ", harvest: 2026-06-01, days_before_harvest: 120"};
    static const double placed[] = {60, 0, 0};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
        ls_text *y = ls_text_new(a);
        ls_text_add(y, PLAN_HOUSE "trucks: [{name: T, count: 1, payload: 11 ton, body: 30 yd3, swath: 30 ft, "
                                  "spreading: 6 mph, road: 30 mph}]\n"
                                  "crew: {arrives: 2026-02-16, hours: 9 h/day, loader: {bucket: 2.2 yd3, fill: "
                                  "95 %, load_and_dump: 30 s, travel: 5 mph}}\n"
                                  "buyers: [{name: B, distance: 5 mi, price: 30 $/ton, fields: [{name: F, area: "
                                  "30 ac, open: 2026-01-15..2026-06-30, " PLAN_FIELD);
        ls_text_addf(y, "%s}]}]\n", fields[i]);
        plan_world t = plan_world_text(y->s);
        CU_ASSERT_PTR_NOT_NULL_FATAL(t.plan);
        TEST_NEAR(plan_tons(&t, t.plan->straight[LS_STAGES - 1]), placed[i], 1e-6);
        plan_world_end(&t);
    }
    ls_arena_free(a);
}

/* ---- ages ---- */

static const char test_of[] = "area: 10 ac, crop: corn grain, yield: 100 bu/ac, phosphorus: {rating: "
                              "low}, soil: {date: %s, method: Mehlich-1, P: 30 lb/ac, K: 100 lb/ac}";

/* Rules ask for soil tests of 3 to 5 years and yearly analyses (Mississippi, South Carolina); North
 * Carolina for analyses of 60 days before spreading. The field opens on 2026-03-01, the report is
 * of 2026-01-29. */
static void ages(void) {
    static const struct {
        const char *more, *soil;
        bool old_soil, old_litter;
    } cases[] = {
        {"", "2023-03-01", false, false},
        {"", "2023-02-28", true, false},
        {"ages: {soil: 5 years}\n", "2021-03-01", false, false},
        {"ages: {soil: 5 years}\n", "2021-02-28", true, false},
        {"ages: {litter: 31 days}\n", "2023-03-01", false, false},
        {"ages: {litter: 30 days}\n", "2023-03-01", false, true},
        {"crew: {arrives: 2026-03-02}\n", "2023-03-01", true, false},
        {"crew: {arrives: 2026-02-16}\n", "2023-03-01", false, false},
        {"ages: {litter: 60 days}\ncrew: {arrives: 2026-03-31}\n", "2023-04-01", false, true},
    };
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = one_field(cases[i].more, broiler_litter, ls_arena_printf(a, test_of, cases[i].soil));
        const ls_field_rates *f = rates_of(&t, 0, 0);
        TEST_SAME(has_flag(f, "the soil test of"), cases[i].old_soil);
        TEST_SAME(has_flag(f, "the lab report of"), cases[i].old_litter);
        world_end(&t);
    }
    world t = one_field("ages: {litter: 30 days}\n", broiler_litter, ls_arena_printf(a, test_of, "2020-01-01"));
    const ls_field_rates *f = rates_of(&t, 0, 0);
    CU_ASSERT_TRUE(has_flag(f, "more than 3 years old when the field opens (rules ask for 3 to 5 years)"));
    CU_ASSERT_TRUE(has_flag(f, "more than 30 days old when the field opens"));
    world_end(&t);
    ls_arena_free(a);
}

TEST_SUITE(agronomy_dates) = {{"earliest dates", earliest_dates},
                              {"dates too early", dates_too_early},
                              {"days that are left", days_that_are_left},
                              {"the plan keeps them", the_plan_keeps_them},
                              {"ages", ages},
                              {"crops for stock", crops_for_stock},
                              CU_TEST_INFO_NULL};
