/* Phosphate of earlier years: what is left of it, what that leaves for this year, and how long it
 * lasts. */
#include "agronomy_world.h"

#include <math.h>
#include <string.h>

/* Bermudagrass hay, 4.5 ton of 12 lb P2O5 (removal from memory): 54 lb/ac a year. Litter of 55 lb
 * P2O5 a ton, half of 63 lb N available (University of Georgia, Bulletin 1330). */
static world hay(const char *phosphorus, const char *more) {
    ls_arena *a = ls_arena_new();
    world t = one_field("tables: {nitrogen: georgia, removal: ipni}\n", broiler_litter,
                        ls_arena_printf(a,
                                        "area: 10 ac, crop: bermudagrass hay, yield: 4.5 ton/ac, "
                                        "most: 20 ton/ac, phosphorus: %s%s",
                                        phosphorus, more));
    ls_arena_free(a);
    return t;
}

static double rate_of(const char *phosphorus) {
    world t = hay(phosphorus, "");
    double rate = shown(&t, rates_of(&t, 0, 0)->rates[0].rate);
    world_end(&t);
    return rate;
}

/* By hand: 2024 120 - 54 = 66; 2025 66 - 54 = 12. Nothing more goes on until the years that the 120
 * were for are over (40 CFR 412.4(b)(3), from memory): the 12 are one crop's, that of 2026, so that
 * litter may go on again in 2027. */
static void what_is_left(void) {
    world t = hay("{rating: high, bank: 3 years, ledger: [{year: 2025, removed: 54 lb/ac}, {year: "
                  "2024, litter: 2 ton/ac, P2O5: 120 lb/ac, removed: 54 lb/ac}]}",
                  "");
    const ls_field_rates *f = rates_of(&t, 0, 0);
    TEST_SAME(f->ledger_n, 2);
    TEST_SAME(f->ledger[0].year, 2024);
    TEST_NEAR(shown(&t, f->ledger[0].on), 120, 1e-12);
    TEST_NEAR(shown(&t, f->ledger[0].removed), 54, 1e-12);
    TEST_NEAR(shown(&t, f->ledger[0].balance), 66, 1e-12);
    TEST_NEAR(shown(&t, f->ledger[1].on), 0, 0);
    TEST_NEAR(shown(&t, f->ledger[1].balance), 12, 1e-12);
    TEST_NEAR(shown(&t, f->banked), 12, 1e-12);
    TEST_NEAR(shown(&t, f->phosphate), 162, 1e-12);
    TEST_NEAR(shown(&t, f->phosphate_left), 0, 0);
    const ls_rate *r = &f->rates[0];
    TEST_TEXT(ls_limit_name(r->limit), "phosphorus");
    TEST_NEAR(shown(&t, r->rate), 0, 0);
    TEST_HOLDS(r->why == NULL ? "" : r->why, "not yet taken up");
    TEST_NEAR(shown(&t, r->covered), 1, 1e-12);
    TEST_SAME(r->again, 2027);
    CU_ASSERT_TRUE(has_flag(f, "12 lb/ac of phosphate from earlier years"));
    CU_ASSERT_TRUE(has_flag(f, "No litter until they are (40 CFR 412.4(b)(3), from memory"));
    CU_ASSERT_FALSE(has_flag(f, "phosphorus is banked: no more litter after this"));
    world_end(&t);
}

/* Once the crops have taken all of it, the whole bank is open again: 162 - 3 x 54 = 0, and three
 * years' removal go on, 162 / 55 = 2.945 ton/ac. */
static void years_are_over(void) {
    world t = hay("{rating: high, bank: 3 years, ledger: [{year: 2023, P2O5: 162 lb/ac, removed: "
                  "54 lb/ac}, {year: 2024, removed: 54 lb/ac}, {year: 2025, removed: 54 lb/ac}]}",
                  "");
    const ls_field_rates *f = rates_of(&t, 0, 0);
    TEST_NEAR(shown(&t, f->banked), 0, 1e-12);
    TEST_NEAR(shown(&t, f->phosphate_left), 162, 1e-12);
    TEST_NEAR(shown(&t, f->rates[0].rate), 162.0 / 55, 1e-9);
    CU_ASSERT_FALSE(has_flag(f, "not taken up yet"));
    CU_ASSERT_TRUE(has_flag(f, "phosphorus is banked: no more litter after this"));
    world_end(&t);
}

/* A crop that takes more than went on lives on the soil: that is never saved up. */
static void nothing_is_saved_up(void) {
    world t = hay("{rating: high, bank: 3 years, ledger: [{year: 2023, removed: 54 lb/ac}, {year: "
                  "2024, P2O5: 30 lb/ac, removed: 54 lb/ac}, {year: 2025, P2O5: 64 lb/ac, removed: "
                  "54 lb/ac}]}",
                  "");
    const ls_field_rates *f = rates_of(&t, 0, 0);
    TEST_NEAR(shown(&t, f->ledger[0].balance), 0, 0);
    TEST_NEAR(shown(&t, f->ledger[1].balance), 0, 0);
    TEST_NEAR(shown(&t, f->ledger[2].balance), 10, 1e-12);
    TEST_NEAR(shown(&t, f->rates[0].rate), 0, 0);
    world_end(&t);
}

/* By the ton: 2 ton of 55 lb are 110 lb/ac. Litter listed for its nitrogen counts in the year of
 * its crop, and what that crop took is not known: 110 + 55 - 0. */
static void by_the_ton(void) {
    world t = hay("{rating: high, bank: 5 years, ledger: [{year: 2024, litter: 2 ton/ac, P2O5: 55 "
                  "lb/ton, removed: 0 lb/ac}]}",
                  ", earlier_litter: [{year: 2024, for_crop: 2025, rate: 1 ton/ac, "
                  "organic_nitrogen: 29 lb/ton, P2O5: 55 lb/ton}]");
    const ls_field_rates *f = rates_of(&t, 0, 0);
    TEST_SAME(f->ledger_n, 2);
    TEST_NEAR(shown(&t, f->ledger[0].on), 110, 1e-12);
    TEST_SAME(f->ledger[1].year, 2025);
    TEST_NEAR(shown(&t, f->ledger[1].on), 55, 1e-12);
    TEST_NEAR(shown(&t, f->banked), 165, 1e-12);
    TEST_NEAR(shown(&t, f->rates[0].phosphorus), 0, 0);
    CU_ASSERT_TRUE(has_flag(f, "what the crop of 2025 took"));
    world_end(&t);
}

/* Earlier litter and a ledger line of the same year that says what was removed go together. */
static void litter_and_its_removal(void) {
    world t = hay("{rating: high, bank: 5 years, ledger: [{year: 2025, removed: 54 lb/ac}]}",
                  ", earlier_litter: [{year: 2025, rate: 1 ton/ac, organic_nitrogen: 29 lb/ton, "
                  "P2O5: 55 lb/ton}, {year: 2025, rate: 2 ton/ac, organic_nitrogen: 29 lb/ton, "
                  "P2O5: 50 lb/ton}]");
    const ls_field_rates *f = rates_of(&t, 0, 0);
    TEST_SAME(f->ledger_n, 1);
    TEST_NEAR(shown(&t, f->ledger[0].on), 155, 1e-12);
    TEST_NEAR(shown(&t, f->banked), 101, 1e-12);
    CU_ASSERT_FALSE(has_flag(f, "what the crop of"));
    world_end(&t);
}

/* More than the bank is there already: nothing goes on, and it is said why and until when: 400 - 54
 * = 346 are seven crops of 54. */
static void full_bank(void) {
    world t = hay("{rating: high, bank: 3 years, ledger: [{year: 2025, P2O5: 400 lb/ac, removed: 54 "
                  "lb/ac}]}",
                  "");
    const ls_field_rates *f = rates_of(&t, 0, 0);
    const ls_rate *r = &f->rates[0];
    TEST_NEAR(shown(&t, f->phosphate_left), 0, 0);
    TEST_NEAR(shown(&t, r->rate), 0, 0);
    TEST_HOLDS(r->why == NULL ? "" : r->why, "not yet taken up");
    TEST_NEAR(shown(&t, r->covered), 7, 1e-12);
    TEST_SAME(r->again, 2033);
    world_end(&t);
}

/* Without a bank what lies ahead closes the field too, and without a rating. Where nitrogen governs
 * the ledger is shown and limits nothing. */
static void by_rating(void) {
    static const struct {
        const char *rating;
        double limit;
    } cases[] = {{"high", 0}, {"low", NAN}, {"medium", NAN}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = hay(ls_arena_printf(a,
                                      "{rating: %s, ledger: [{year: 2025, P2O5: 84 lb/ac, removed: "
                                      "54 lb/ac}]}",
                                      cases[i].rating),
                      "");
        const ls_field_rates *f = rates_of(&t, 0, 0);
        TEST_NEAR(shown(&t, f->banked), 30, 1e-12);
        if (isnan(cases[i].limit)) {
            TEST_SAME(f->rates[0].phosphorus, LS_NO_LINE);
            TEST_SAME(f->rates[0].again, 0);
            CU_ASSERT_TRUE(has_flag(f, "sets no limit here"));
        } else
            TEST_NEAR(shown(&t, f->rates[0].phosphorus), cases[i].limit, 1e-9);
        world_end(&t);
    }
    world t = one_field("tables: {nitrogen: georgia, removal: ipni}\n", broiler_litter,
                        "area: 10 ac, crop: bermudagrass hay, yield: 4.5 ton/ac, earlier_litter: "
                        "[{year: 2025, rate: 0.5 ton/ac, organic_nitrogen: 29 lb/ton, P2O5: 60 "
                        "lb/ton}]");
    TEST_NEAR(shown(&t, rates_of(&t, 0, 0)->rates[0].phosphorus), 0, 0);
    world_end(&t);
    ls_arena_free(a);
}

/* A year's removal lasts a year; three banked last three; the nitrogen rate of a field rated medium
 * is not held to any. */
static void how_long_it_lasts(void) {
    static const struct {
        const char *phosphorus;
        int again;
    } cases[] = {{"{rating: high}", 2027},
                 {"{rating: high, bank: 3 years}", 2029},
                 {"{rating: medium}", 0},
                 {"{rating: very high}", 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = hay(cases[i].phosphorus, "");
        const ls_field_rates *f = rates_of(&t, 0, 0);
        TEST_SAME(f->rates[0].again, cases[i].again);
        TEST_SAME(f->ledger_n, 0);
        TEST_SAME(has_flag(f, "no ledger says what was applied before"), i == 1);
        world_end(&t);
    }
}

/* Years that the ledger leaves out count no removal, and that is said. */
static void years_left_out(void) {
    world t = hay("{rating: high, bank: 3 years, ledger: [{year: 2021, P2O5: 100 lb/ac, removed: 54 "
                  "lb/ac}, {year: 2023, P2O5: 10 lb/ac, removed: 5 lb/ac}]}",
                  "");
    const ls_field_rates *f = rates_of(&t, 0, 0);
    TEST_NEAR(shown(&t, f->banked), 51, 1e-12);
    CU_ASSERT_TRUE(has_flag(f, "nothing for 2022: no removal is counted"));
    CU_ASSERT_TRUE(has_flag(f, "nothing for 2024 to 2025: no removal is counted"));
    world_end(&t);
}

/* The more went on, and the more years in which it did, the less may go on. */
static void more_put_on_never_raises_it(void) {
    ls_arena *a = ls_arena_new();
    double last = rate_of("{rating: high, bank: 3 years}");
    for (int on = 0; on <= 300; on += 20) {
        double rate = rate_of(ls_arena_printf(a,
                                              "{rating: high, bank: 3 years, ledger: [{year: 2025, "
                                              "P2O5: %d lb/ac, removed: 54 lb/ac}]}",
                                              on));
        CU_ASSERT_TRUE(rate <= last && rate >= 0);
        last = rate;
    }
    TEST_NEAR(last, 0, 0);
    ls_text *lines = ls_text_new(a);
    last = rate_of("{rating: high, bank: 3 years}");
    for (int year = 2025; year >= 2010; year--) {
        ls_text_addf(lines, "%s{year: %d, P2O5: %d lb/ac, removed: 54 lb/ac}", year == 2025 ? "" : ", ", year,
                     30 + (year * 7) % 40);
        double rate = rate_of(ls_arena_printf(a, "{rating: high, bank: 3 years, ledger: [%s]}", lines->s));
        CU_ASSERT_TRUE(rate <= last + 1e-12);
        last = rate;
    }
    ls_arena_free(a);
}

/* 25 Pa. Code 83.293: the lesser of the nitrogen and the phosphorus rate; nitrogen rate = (need -
 * residual - other nitrogen) / available nitrogen in a ton: (200 - 20 - 25) / 31.5 = 4.921 ton/ac;
 * phosphorus: 54 lb x years / 55 lb. */
static void the_lesser_rate(void) {
    static const struct {
        int years;
        const char *limit;
        double rate;
    } cases[] = {{1, "phosphorus", 54.0 / 55}, {5, "phosphorus", 270.0 / 55}, {6, "nitrogen", 155 / 31.5}};
    ls_arena *a = ls_arena_new();
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        world t = hay(ls_arena_printf(a, "{rating: high, bank: %d years}", cases[i].years),
                      ", nitrogen: 200 lb/ac, credits: {legume: 20 lb/ac, starter: 25 lb/ac}");
        const ls_rate *r = &rates_of(&t, 0, 0)->rates[0];
        TEST_NEAR(shown(&t, r->nitrogen), 155 / 31.5, 1e-9);
        TEST_TEXT(ls_limit_name(r->limit), cases[i].limit);
        TEST_NEAR(shown(&t, r->rate), cases[i].rate, 1e-9);
        world_end(&t);
    }
    ls_arena_free(a);
}

TEST_SUITE(agronomy_ledger) = {{"what is left", what_is_left},
                               {"the years are over", years_are_over},
                               {"nothing is saved up", nothing_is_saved_up},
                               {"phosphate by the ton", by_the_ton},
                               {"earlier litter and its removal", litter_and_its_removal},
                               {"a full bank", full_bank},
                               {"by rating", by_rating},
                               {"how long it lasts", how_long_it_lasts},
                               {"years left out", years_left_out},
                               {"more put on never raises it", more_put_on_never_raises_it},
                               {"the lesser rate", the_lesser_rate},
                               CU_TEST_INFO_NULL};
