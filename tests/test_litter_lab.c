/* Laboratory reports: forms, units and bases, several of one litter: against published figures. */
#include "agronomy_world.h"
#include "litter_world.h"

#include <math.h>
#include <string.h>

#define WEIGHED "houses:\n  - name: A\n    measured: {weighed: 100 ton}\n    lab:\n"
#define BREEDERS                                                                                                       \
    "houses:\n  - name: A\n    length: 432 ft\n    width: 40 ft\n    flocks:\n"                                        \
    "      - {birds: broiler breeder, hens: 7800, males: 780, placed: 2025-04-21, removed: "                           \
    "2026-02-09, lost: 8.5 %}\n"

/* AgriFutures Australia, Best practice litter management manual, Table 5: N, P and K (elements) in
 * % of dry weight, moisture of the wet weight. P2O5 and K2O by the standard atomic weights (IUPAC:
 * P 30.974, K 39.098, O 15.999). */
static void dry_basis_by_bedding(void) {
    static const struct {
        const char *bedding;
        double moisture, N, P, K;
    } rows[] = {{"straw", 20, 4.0, 1.1, 2.2}, {"sawdust", 25, 3.8, 1.2, 1.8}, {"shavings", 26, 3.9, 1.3, 1.9}};
    const double P2O5 = (2 * 30.974 + 5 * 15.999) / (2 * 30.974), K2O = (2 * 39.098 + 15.999) / (2 * 39.098);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        ls_arena *a = ls_arena_new();
        double solids = 1 - rows[i].moisture / 100;
        litter_world dry =
            litter_farm(ls_arena_printf(a,
                                        WEIGHED "      - {date: 2026-01-29, by: %s, basis: dry, moisture: %g "
                                                "%%, N: %g %%, P: %g %%, K: %g %%}\n",
                                        rows[i].bedding, rows[i].moisture, rows[i].N, rows[i].P, rows[i].K),
                        NULL);
        /* lb/ton as received = dry share x % x 20 (Livestock and Poultry Environmental Learning
         * Community) */
        TEST_NEAR(litter_shown(&dry, "a.per_ton.N"), solids * rows[i].N * 20, 1e-9);
        TEST_NEAR(litter_shown(&dry, "a.per_ton.P2O5"), solids * rows[i].P * 20 * P2O5, 1e-4);
        TEST_NEAR(litter_shown(&dry, "a.per_ton.K2O"), solids * rows[i].K * 20 * K2O, 1e-4);
        litter_world wet =
            litter_farm(ls_arena_printf(a,
                                        WEIGHED "      - {date: 2026-01-29, by: %s, moisture: %g %%, N: %.9f "
                                                "lb/ton, P2O5: %.9f lb/ton, K2O: %.9f lb/ton}\n",
                                        rows[i].bedding, rows[i].moisture, solids * rows[i].N * 20,
                                        solids * rows[i].P * 20 * 2.2914, solids * rows[i].K * 20 * 1.2046),
                        NULL);
        static const char *const pounds[] = {"a.pounds.N", "a.pounds.P2O5", "a.pounds.K2O"};
        for (size_t k = 0; k < 3; k++) TEST_NEAR(litter_shown(&dry, pounds[k]), litter_shown(&wet, pounds[k]), 1e-9);
        litter_end(&dry);
        litter_end(&wet);
        ls_arena_free(a);
    }
}

/* Livestock and Poultry Environmental Learning Community: 10.5 % solids, 1.4 % P of dry weight: 2.9
 * lb P and, with 2.3, 6.7 lb P2O5 a ton (printed; 2.94 and 6.74 unrounded). */
static void element_to_oxide(void) {
    litter_world t = litter_farm(WEIGHED "      - {date: 2026-01-29, by: Lab, basis: dry, moisture: "
                                         "89.5 %, N: 3 %, P: 1.4 %, K: 1 %}\n",
                                 NULL);
    TEST_NEAR(litter_shown(&t, "a.per_ton.P2O5"), 6.74, 0.01);
    TEST_NEAR(litter_shown(&t, "a.lab.P.reported") * 0.105, 2.94, 1e-9);
    litter_end(&t);
}

/* A share is a share: 1.9 % = 38 lb/ton (20 lb a point) = 19,000 ppm (0.002 lb each) = 19 kg/tonne.
 * A single report stands as it is. */
static void units_of_reports(void) {
    static const char *const units[] = {"1.9 %", "38 lb/ton", "19000 ppm", "19 kg/tonne"};
    for (size_t i = 0; i < 4; i++) {
        ls_arena *a = ls_arena_new();
        litter_world t =
            litter_farm(ls_arena_printf(a, WEIGHED "      - {date: 2026-01-29, by: Lab, N: %s, P2O5: %s, K2O: %s}\n",
                                        units[i], units[i], units[i]),
                        NULL);
        TEST_NEAR(litter_shown(&t, "a.per_ton.N"), 38, 1e-12);
        TEST_NEAR(litter_shown(&t, "a.pounds.K2O"), 3800, 1e-12);
        litter_end(&t);
        ls_arena_free(a);
    }
}

#define REPORT(day, figures) "      - {date: 2026-01-" day ", by: Lab, moisture: 30 %, " figures "}\n"

/* Reports of 30, 40 and 50 lb/ton: mean 40. Their scatter about it, 0.25, 0, 0.25, with the 10 % of
 * practice as one degree of freedom more: s^2 = (0.01 + 0.125) / 3, scale s / sqrt(3), 3 degrees.
 */
static void several_reports(void) {
    litter_world t = litter_farm(WEIGHED REPORT("10", "N: 30 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton")
                                     REPORT("11", "N: 40 lb/ton, NH4N: 8 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton")
                                         REPORT("12", "N: 50 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton"),
                                 NULL);
    TEST_NEAR(litter_shown(&t, "a.per_ton.N"), 40, 1e-12);
    TEST_NEAR(litter_shown(&t, "a.per_ton.NH4N"), 8, 1e-12); /* only one gives it */
    TEST_SAME(t.estimate->lots[0].analysis->reports, 3);
    const ls_spread s = ls_line_at(t.sheet, ls_line_find(t.sheet, "a.lab.N.sampling"))->spread;
    TEST_SAME(s.kind, LS_STUDENT);
    TEST_NEAR(s.scale, sqrt((0.01 + 0.125) / 3 / 3), 1e-9);
    TEST_NEAR(s.df, 3, 0);
    /* that all three print the same makes nothing exact: 0.1 / 3 on 3 degrees of freedom */
    const ls_spread alike = ls_line_at(t.sheet, ls_line_find(t.sheet, "a.lab.P2O5.sampling"))->spread;
    TEST_NEAR(alike.scale, 0.1 / 3, 1e-9);
    litter_end(&t);
}

/* More reports that agree narrow; reports that disagree are wider than one. */
static void reports_and_width(void) {
    static const char one[] = REPORT("10", "N: 40 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton");
    ls_arena *a = ls_arena_new();
    double width[4];
    static const char *const more[] = {"", REPORT("11", "N: 40 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton"),
                                       REPORT("11", "N: 41 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton")
                                           REPORT("12", "N: 39 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton"),
                                       REPORT("11", "N: 80 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton")};
    for (size_t i = 0; i < 4; i++) {
        litter_world t = litter_farm(ls_arena_printf(a, "%s%s%s", WEIGHED, one, more[i]), NULL);
        const ls_q *q = &t.estimate->lots[0].per_ton[LS_N];
        width[i] = q->high / q->low;
        CU_ASSERT_EQUAL(litter_says(&t, "differ more in N than samples of one litter do, 40 to 80 "
                                        "lb/ton"),
                        i == 3);
        litter_end(&t);
    }
    CU_ASSERT_TRUE(width[1] < width[0]);
    CU_ASSERT_TRUE(width[2] < width[1]);
    CU_ASSERT_TRUE(width[3] > width[0]);
    ls_arena_free(a);
}

/* Penn State Extension: 9 lb NH4-N and 49 lb organic N a ton give 31.2 lb left on the surface and
 * 37.5 incorporated at once (derived). Two reports of 56 and 60 lb N, 8 and 10 lb NH4-N have these
 * means. */
static void rates_use_the_mean(void) {
    static const char field[] = "area: 20 ac, crop: tall fescue hay, yield: 3 ton/ac, nitrogen: 156 "
                                "lb/ac, most: 10 ton/ac, phosphorus: {rating: low, rated_by: P}, "
                                "incorporated: never";
    world t = one_field("tables: {nitrogen: psu-pan}\n",
                        "N: 56 lb/ton, NH4N: 8 lb/ton, P2O5: 50 lb/ton, K2O: 40 lb/ton}\n"
                        "      - {date: 2026-01-30, by: Laboratory, N: 60 lb/ton, NH4N: 10 lb/ton, "
                        "P2O5: 60 lb/ton, K2O: 40 lb/ton",
                        field);
    const ls_field_rates *f = rates_of(&t, 0, 0);
    TEST_NEAR(shown(&t, f->rates[0].pan), 31.2, 0.005);
    TEST_NEAR(shown(&t, f->rates[0].rate), 156 / 31.2, 0.005);
    world_end(&t);
}

/* Of several reports the metals are the latest's, as received: 400 ppm of dry weight at 30 %
 * moisture are 280. */
static void metals_of_the_latest(void) {
    world t = one_field("",
                        "basis: dry, moisture: 20 %, N: 3 %, P2O5: 3 %, K2O: 2 %, Cu: 900 ppm}\n"
                        "      - {date: 2026-02-01, by: Laboratory, basis: dry, moisture: 30 %, N: 3 "
                        "%, P2O5: 3 %, K2O: 2 %, Cu: 400 ppm",
                        "area: 20 ac, crop: tall fescue hay, yield: 3 ton/ac, nitrogen: 150 lb/ac");
    TEST_NEAR(shown(&t, ls_line_find(t.sheet, "house.lab.Cu.received")), 280, 1e-9);
    TEST_NEAR(shown(&t, ls_line_find(t.sheet, "house.per_ton.N")), (0.8 + 0.7) / 2 * 60, 1e-9);
    world_end(&t);
}

/* One side with a report: the other's nutrients are the published ones, and said to be; the
 * moisture and the phosphorus balance of the house take the report's. */
static void report_of_one_side(void) {
    litter_world t =
        litter_farm("houses:\n  - name: A\n    length: 432 ft\n    width: 40 ft\n    sides:\n"
                    "      - {name: l, lab: [{date: 2026-01-29, by: X, moisture: 45 %, N: 30 lb/ton, P2O5: 40 "
                    "lb/ton, K2O: 30 lb/ton}, {date: 2026-01-30, by: X, moisture: 35 %, N: 34 lb/ton, P2O5: 44 "
                    "lb/ton, K2O: 30 lb/ton}]}\n      - {name: r}\n"
                    "    flocks: [{birds: broiler breeder, hens: 7800, placed: 2025-04-21, removed: "
                    "2026-02-09, "
                    "lost: 8 %}]\n",
                    NULL);
    const ls_lot *left = &t.estimate->lots[0], *right = &t.estimate->lots[1];
    TEST_NEAR(ls_line_shown(t.sheet, left->per_ton[LS_N].line), 32, 1e-12);
    TEST_SAME(left->analysis->reports, 2);
    CU_ASSERT_PTR_NULL(right->analysis->report);
    CU_ASSERT_FALSE(right->analysis->reported[LS_N]);
    TEST_NEAR(litter_shown(&t, "a.moisture"), 40, 1e-9);
    CU_ASSERT_TRUE(litter_says(&t, "only some sides have a laboratory report"));
    CU_ASSERT_FALSE(litter_says(&t, "no laboratory report"));
    litter_end(&t);
}

/* A report of the litter that the last cleanout took away does not count beside one of now. */
static void reports_of_old_litter(void) {
    static const char cleanout[] = "    last_cleanout: {date: 2025-02-12, weighed: 130 ton, bird_days: 2415313}\n";
    ls_arena *a = ls_arena_new();
    litter_world t =
        litter_farm(ls_arena_printf(a,
                                    "%s%s    lab:\n      - {date: 2025-01-20, by: Lab, N: 60 lb/ton, P2O5: 40 "
                                    "lb/ton, K2O: 36 lb/ton}\n      - {date: 2026-01-20, by: Lab, N: 38 "
                                    "lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton}\n",
                                    BREEDERS, cleanout),
                    NULL);
    TEST_NEAR(litter_shown(&t, "a.per_ton.N"), 38, 1e-12);
    CU_ASSERT_TRUE(litter_says(&t, "from before the last cleanout are left out"));
    litter_end(&t);
    ls_arena_free(a);
}

TEST_SUITE(litter_lab) = {
    {"Agrifutures: dry basis by bedding", dry_basis_by_bedding},
    {"LPELC: element to oxide", element_to_oxide},
    {"units of reports", units_of_reports},
    {"several reports", several_reports},
    {"reports and width", reports_and_width},
    {"rates use the mean", rates_use_the_mean},
    {"metals of the latest report", metals_of_the_latest},
    {"a report of one side", report_of_one_side},
    {"reports of old litter", reports_of_old_litter},
    CU_TEST_INFO_NULL,
};
