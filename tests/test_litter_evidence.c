/* Moisture by weights, lab reports, cleanouts of several years, densities, and figures that are
 * queried: against published figures. */
#include "agronomy_world.h"
#include "litter_world.h"

#include <math.h>
#include <string.h>

#define WEIGHED "houses:\n  - name: A\n    measured: {weighed: 100 ton}\n    lab:\n"
#define BREEDERS                                                                                   \
    "houses:\n  - name: A\n    length: 432 ft\n    width: 40 ft\n    flocks:\n"                    \
    "      - {birds: broiler breeder, hens: 7800, males: 780, placed: 2025-04-21, removed: "       \
    "2026-02-09, lost: 8.5 %}\n"

/* ---- moisture by weights ---- */

/* 212 g dried to 128 g has lost 84 g: 39.62 % of its wet weight; 205 to 125 g: 39.02 %. */
static void weights(void) {
    litter_world t =
        litter_farm(BREEDERS "    measured: {moisture: {wet: 212 205 g, dry: 128 125 g}}\n", NULL);
    ls_line read = ls_line_find(t.sheet, "a.moisture.floor.readings");
    TEST_NEAR(litter_shown(&t, "a.moisture"), (84 / 2.12 + 80 / 2.05) / 2, 1e-12);
    /* two readings d apart: scale d/2 on one degree of freedom */
    TEST_NEAR(ls_line_at(t.sheet, read)->spread.scale, (84 / 212.0 - 80 / 205.0) / 2, 1e-9);
    TEST_HOLDS(ls_line_origin(t.arena, t.sheet, read, t.diag),
               "1 - dry/wet of each sample: 39.6 39");
    litter_end(&t);
}

/* By parts of the floor, in other units, beside plain readings. */
static void weights_by_part(void) {
    litter_world t = litter_farm("houses:\n  - name: A\n    length: 432 ft\n    width: 40 ft\n"
                                 "    floor: {slats: 50 %, scratch: 50 %}\n    flocks:\n"
                                 "      - {birds: broiler breeder, hens: 7800, placed: 2025-04-21, "
                                 "removed: 2026-02-09, lost: 8 %}\n"
                                 "    measured: {moisture: {slats: {wet: 8 oz, dry: 4.8 oz}, "
                                 "scratch: 20 %}}\n",
                                 NULL);
    TEST_NEAR(litter_shown(&t, "a.moisture.slats"), 40, 1e-12);
    TEST_NEAR(litter_shown(&t, "a.moisture"), 30, 1e-12); /* halves of the floor */
    litter_end(&t);
}

/* ---- laboratory reports ---- */

/* AgriFutures Australia, Best practice litter management manual, Table 5: N, P and K (elements) in
 * % of dry weight, moisture of the wet weight. P2O5 and K2O by the standard atomic weights (IUPAC:
 * P 30.974, K 39.098, O 15.999). */
static void dry_basis_by_bedding(void) {
    static const struct {
        const char *bedding;
        double moisture, N, P, K;
    } rows[] = {{"straw", 20, 4.0, 1.1, 2.2},
                {"sawdust", 25, 3.8, 1.2, 1.8},
                {"shavings", 26, 3.9, 1.3, 1.9}};
    const double P2O5 = (2 * 30.974 + 5 * 15.999) / (2 * 30.974),
                 K2O = (2 * 39.098 + 15.999) / (2 * 39.098);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        ls_arena *a = ls_arena_new();
        double solids = 1 - rows[i].moisture / 100;
        litter_world dry = litter_farm(
            ls_arena_printf(a,
                            WEIGHED "      - {date: 2026-01-29, by: %s, basis: dry, moisture: %g "
                                    "%%, N: %g %%, P: %g %%, K: %g %%}\n",
                            rows[i].bedding, rows[i].moisture, rows[i].N, rows[i].P, rows[i].K),
            NULL);
        /* lb/ton as received = dry share x % x 20 (Livestock and Poultry Environmental Learning
         * Community) */
        TEST_NEAR(litter_shown(&dry, "a.per_ton.N"), solids * rows[i].N * 20, 1e-9);
        TEST_NEAR(litter_shown(&dry, "a.per_ton.P2O5"), solids * rows[i].P * 20 * P2O5, 1e-4);
        TEST_NEAR(litter_shown(&dry, "a.per_ton.K2O"), solids * rows[i].K * 20 * K2O, 1e-4);
        litter_world wet = litter_farm(
            ls_arena_printf(a,
                            WEIGHED "      - {date: 2026-01-29, by: %s, moisture: %g %%, N: %.9f "
                                    "lb/ton, P2O5: %.9f lb/ton, K2O: %.9f lb/ton}\n",
                            rows[i].bedding, rows[i].moisture, solids * rows[i].N * 20,
                            solids * rows[i].P * 20 * 2.2914, solids * rows[i].K * 20 * 1.2046),
            NULL);
        static const char *const pounds[] = {"a.pounds.N", "a.pounds.P2O5", "a.pounds.K2O"};
        for (size_t k = 0; k < 3; k++)
            TEST_NEAR(litter_shown(&dry, pounds[k]), litter_shown(&wet, pounds[k]), 1e-9);
        litter_end(&dry);
        litter_end(&wet);
        ls_arena_free(a);
    }
}

/* Livestock and Poultry Environmental Learning Community: 10.5 % solids, 1.4 % P of dry weight: 2.9
 * lb P and, with 2.3, 6.7 lb P2O5 a ton (printed; 2.94 and 6.74 unrounded). */
static void element_to_oxide(void) {
    litter_world t =
        litter_farm(WEIGHED "      - {date: 2026-01-29, by: Lab, basis: dry, moisture: "
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
        litter_world t = litter_farm(
            ls_arena_printf(
                a, WEIGHED "      - {date: 2026-01-29, by: Lab, N: %s, P2O5: %s, K2O: %s}\n",
                units[i], units[i], units[i]),
            NULL);
        TEST_NEAR(litter_shown(&t, "a.per_ton.N"), 38, 1e-12);
        TEST_NEAR(litter_shown(&t, "a.pounds.K2O"), 3800, 1e-12);
        litter_end(&t);
        ls_arena_free(a);
    }
}

#define REPORT(day, figures)                                                                       \
    "      - {date: 2026-01-" day ", by: Lab, moisture: 30 %, " figures "}\n"

/* Reports of 30, 40 and 50 lb/ton: mean 40. Their scatter about it, 0.25, 0, 0.25, with the 10 % of
 * practice as one degree of freedom more: s^2 = (0.01 + 0.125) / 3, scale s / sqrt(3), 3 degrees.
 */
static void several_reports(void) {
    litter_world t = litter_farm(
        WEIGHED REPORT("10", "N: 30 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton")
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
    const ls_spread alike =
        ls_line_at(t.sheet, ls_line_find(t.sheet, "a.lab.P2O5.sampling"))->spread;
    TEST_NEAR(alike.scale, 0.1 / 3, 1e-9);
    litter_end(&t);
}

/* More reports that agree narrow; reports that disagree are wider than one. */
static void reports_and_width(void) {
    static const char one[] = REPORT("10", "N: 40 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton");
    ls_arena *a = ls_arena_new();
    double width[4];
    static const char *const more[] = {
        "", REPORT("11", "N: 40 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton"),
        REPORT("11", "N: 41 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton")
            REPORT("12", "N: 39 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton"),
        REPORT("11", "N: 80 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton")};
    for (size_t i = 0; i < 4; i++) {
        litter_world t = litter_farm(ls_arena_printf(a, "%s%s%s", WEIGHED, one, more[i]), NULL);
        const ls_q *q = &t.estimate->lots[0].per_ton[LS_N];
        width[i] = q->high / q->low;
        CU_ASSERT_EQUAL(litter_says(&t,
                                    "farther apart in N than samples of one litter do, 40 to 80 "
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
    static const char field[] =
        "area: 20 ac, crop: tall fescue hay, yield: 3 ton/ac, nitrogen: 156 "
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

/* A report of the litter that the last cleanout took away does not count beside one of now. */
static void reports_of_old_litter(void) {
    static const char cleanout[] =
        "    last_cleanout: {date: 2025-02-12, weighed: 130 ton, bird_days: 2415313}\n";
    ls_arena *a = ls_arena_new();
    litter_world t = litter_farm(
        ls_arena_printf(a,
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

/* ---- cleanouts ---- */

#define YEAR(date, tons) "{date: " date ", weighed: " tons ", bird_days: 2415313}"

/* One cleanout, alone or as a list of one, is the same evidence under the same name. */
static void one_year_or_list(void) {
    litter_world alone =
        litter_farm(BREEDERS "    last_cleanout: " YEAR("2025-02-12", "130 ton") "\n", NULL);
    litter_world list =
        litter_farm(BREEDERS "    last_cleanout: [" YEAR("2025-02-12", "130 ton") "]\n", NULL);
    TEST_NEAR(litter_shown(&alone, "a.by-last_cleanout.house"), 130, 1e-7);
    TEST_NEAR(litter_shown(&list, "a.by-last_cleanout.house"), 130, 1e-7);
    TEST_NEAR(list.estimate->tons.high, alone.estimate->tons.high, 0);
    litter_end(&alone);
    litter_end(&list);
}

/* The litter of n years, moistures settled: log sd 15 % x sqrt(1/2 + 1/(2n)): 15 % for one, 12.2 %
 * for three; the years' own parts are independent, this flock's stays. 10 and 90 % points
 * lie 1.2816 of it off (normal distribution). */
static void several_years(void) {
    litter_world t = litter_farm(
        BREEDERS
        "    measured: {moisture: 30 %}\n    last_cleanout:\n"
        "      - " YEAR("2025-02-12",
                        "130 ton") "\n"
                                   "      - " YEAR("2024-02-12",
                                                   "120 ton") "\n"
                                                              "      - " YEAR("2023-02-12",
                                                                              "140 ton") "\n",
        NULL);
    TEST_NEAR(litter_shown(&t, "a.by-earlier_cleanouts.house"), cbrt(130.0 * 120 * 140), 1e-7);
    ls_drawn d = ls_drawn_of(ls_line_find(t.sheet, "a.earlier-cleanouts.dry"));
    ls_draw(t.sheet, 1, 10 * LS_BLOCK, &d, 1);
    double log_sd = 0.15 * sqrt(0.5 + 0.5 / 3);
    TEST_NEAR(log(d.high / d.low), 2 * 1.2816 * log_sd, 0.02);
    size_t lines = 0;
    for (size_t i = 0; i < t.estimate->lots[0].methods_n; i++)
        lines += t.estimate->lots[0].methods[i].evidence;
    TEST_SAME(lines, 1);
    CU_ASSERT_FALSE(litter_says(&t, "dry litter a bird-day"));
    litter_end(&t);
}

/* Years that cannot all be right are named, and count for less. */
static void years_that_disagree(void) {
    litter_world agree =
        litter_farm(BREEDERS "    last_cleanout: [" YEAR("2025-02-12", "130 ton") ", " YEAR(
                        "2024-02-12", "135 ton") "]\n",
                    NULL);
    litter_world differ =
        litter_farm(BREEDERS "    last_cleanout: [" YEAR("2025-02-12", "130 ton") ", " YEAR(
                        "2024-02-12", "52 ton") "]\n",
                    NULL);
    CU_ASSERT_TRUE(litter_says(&differ, "the cleanout of 2025-02-12 gave 2.5 times as much dry "
                                        "litter a bird-day as that of 2024-02-12"));
    CU_ASSERT_FALSE(litter_says(&agree, "times as much dry litter"));
    CU_ASSERT_TRUE(litter_shown(&differ, "a.evidence-1.weight") <
                   0.8 * litter_shown(&agree, "a.evidence-1.weight"));
    litter_end(&agree);
    litter_end(&differ);
}

/* Tons at another moisture: x (100 - m1) / (100 - m2): 130 tons at 40 % are 104 at 25 %. */
static void moisture_then(void) {
    litter_world t = litter_farm(BREEDERS "    measured: {moisture: 25 %}\n"
                                          "    last_cleanout: {date: 2025-02-12, weighed: 130 ton, "
                                          "bird_days: 2415313, moisture: 40 %}\n",
                                 NULL);
    TEST_NEAR(litter_shown(&t, "a.by-last_cleanout.house"), 104, 1e-7);
    litter_end(&t);
}

/* ---- densities ---- */

/* Alberta Agriculture, Nutrient Management Planning Guide: a 20-liter pail of 19.48 kg, 974 kg/m3;
 * a pile of 203 m3 holds 198 tonnes (printed, with 975). Here the pile is a bed 20.3 m x 10 m, a
 * meter deep. */
static void pail_and_pile(void) {
    litter_world t = litter_farm(
        "houses:\n  - name: A\n    length: 20.3 m\n    width: 10 m\n    flocks:\n"
        "      - {birds: broiler, count: 2000, placed: 2025-12-01, removed: 2026-01-20}\n"
        "    measured: {depth: 100 cm, density: 974 kg/m3}\n",
        NULL);
    TEST_NEAR(19.48 / 0.020, 974, 1e-12);
    double tonnes = litter_shown(&t, "a.wet.floor") * 0.90718474; /* short ton, exact */
    TEST_NEAR(tonnes, 198, 0.002);
    litter_end(&t);
}

/* The same Learning Community: net pounds in a level 5-gallon pail times 1.5 are lb/ft3; a US
 * gallon is 231 in3, a cubic foot 1,728 (exact): 1.496. */
static void pail_factor(void) {
    ls_arena *a = ls_arena_new();
    const ls_figure *f =
        ls_reference_need(ls_reference_load(a), "practice", "", "pail to density", "value");
    TEST_NEAR(f->value, 1728 / (5 * 231.0), 0.003);
    ls_arena_free(a);
}

/* An inch of litter on 1,000 ft2 weighs density / 24 tons: 83.33 ft3 x density / 2,000. */
static void ton_per_inch(void) {
    litter_world t = litter_farm(
        "houses:\n  - name: A\n    length: 50 ft\n    width: 20 ft\n    flocks:\n"
        "      - {birds: broiler, count: 1000, placed: 2025-12-01, removed: 2026-01-20}\n"
        "    measured: {depth: 1 in, density: 36 lb/ft3}\n",
        NULL);
    TEST_NEAR(litter_shown(&t, "a.wet.floor"), 36 / 24.0, 1e-9);
    litter_end(&t);
}

/* A house without its size: the parts of the floor count by their shares. */
static void weighed_without_size(void) {
    litter_world t = litter_farm("houses:\n  - name: A\n    floor: {slats: 60 %, scratch: 40 %}\n"
                                 "    measured: {weighed: 96 ton, density: {slats: 40 lb/ft3, "
                                 "scratch: 30 lb/ft3}, moisture: {slats: 40 %, scratch: 20 %}}\n"
                                 "    lab: [{date: 2026-01-29, by: L, N: 38 lb/ton, P2O5: 56 "
                                 "lb/ton, K2O: 36 lb/ton}]\n",
                                 NULL);
    TEST_NEAR(litter_shown(&t, "a.moisture"), 32, 1e-9);
    TEST_NEAR(litter_shown(&t, "a.density.in_place"), 36, 1e-9);
    litter_end(&t);
}

/* ---- what is queried ---- */

static void queried(void) {
#define SANE_FLOCK "hens: 7800, males: 780, placed: 2025-04-21, removed: 2026-02-09, lost: 8.5 %, "
#define SANE_FEED "feed: {eaten: 138 g/bird/day, phosphorus: 0.55 %}"
#define SANE_LAB "moisture: 33 %, N: 38 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton"
#define SANE_DEPTH "depth: {slats: 5.5 6 4.5 in, scratch: 3.5 3 4 in}, "
#define SANE_DENSITY "density: {slats: 41 43 lb/ft3, scratch: 31 29 lb/ft3}, "
#define SANE_MOISTURE "moisture: {slats: 38 36 %, scratch: 24 27 %}"
    static const struct {
        const char *id, *flock, *feed, *lab, *measured;
    } rows[] = {
        {NULL, SANE_FLOCK, SANE_FEED, SANE_LAB, SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
        {"n-to-p2o5", SANE_FLOCK, SANE_FEED,
         "moisture: 33 %, N: 64 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton",
         SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
        {"lab-moisture", SANE_FLOCK, SANE_FEED,
         "moisture: 42 %, N: 38 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton",
         SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
        {"moisture", SANE_FLOCK, SANE_FEED, SANE_LAB,
         SANE_DEPTH SANE_DENSITY "moisture: {slats: 70 %, scratch: 68 %}"},
        {"density", SANE_FLOCK, SANE_FEED, SANE_LAB,
         SANE_DEPTH "density: {slats: 58 lb/ft3, scratch: 55 lb/ft3}, " SANE_MOISTURE},
        {"depth-over-slats", SANE_FLOCK, SANE_FEED, SANE_LAB,
         "depth: {slats: 5.5 6 27 in, scratch: 3.5 3 4 in}, " SANE_DENSITY SANE_MOISTURE},
        {"floor-space",
         "hens: 17800, males: 780, placed: 2025-04-21, removed: 2026-02-09, lost: 8.5 %, ",
         SANE_FEED, SANE_LAB, SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
        {"stay", "hens: 7800, males: 780, placed: 2025-10-21, removed: 2026-02-09, lost: 8.5 %, ",
         SANE_FEED, SANE_LAB, SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
        {"manure-over-feed", SANE_FLOCK, "feed: {eaten: 70 g/bird/day, phosphorus: 1.1 %}",
         SANE_LAB, SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
        {"above-excreted",
         "hens: 2800, males: 280, placed: 2025-04-21, removed: 2026-02-09, lost: 8.5 %, ",
         SANE_FEED, SANE_LAB, SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
    };
    enum { ROWS = sizeof rows / sizeof *rows };
    for (size_t i = 0; i < ROWS; i++) {
        ls_arena *a = ls_arena_new();
        litter_world t = litter_farm(
            ls_arena_printf(a,
                            "houses:\n  - name: A\n    length: 432 ft\n    width: 40 ft\n"
                            "    floor: {slats: 64 %%, scratch: 36 %%}\n    slat_height: 26 in\n"
                            "    flocks: [{birds: broiler breeder, %s%s}]\n"
                            "    lab: [{date: 2026-01-29, by: L, %s}]\n    measured: {%s}\n",
                            rows[i].flock, rows[i].feed, rows[i].lab, rows[i].measured),
            NULL);
        for (size_t k = 1; k < ROWS; k++)
            if (i == 0)
                CU_ASSERT_FALSE(litter_cautions(&t, rows[k].id));
        if (i > 0 && !litter_cautions(&t, rows[i].id))
            printf("\nno caution %s\n", rows[i].id);
        CU_ASSERT_TRUE(i == 0 || litter_cautions(&t, rows[i].id));
        for (size_t k = 0; k < t.estimate->cautions.n; k++)
            CU_ASSERT_TRUE(t.estimate->cautions.at[k].source[0] != '\0');
        litter_end(&t);
        ls_arena_free(a);
    }
}

/* A grid tells of the slats too. */
static void grid_over_slats(void) {
    litter_world t = litter_farm("houses:\n  - name: A\n    length: 432 ft\n    width: 40 ft\n"
                                 "    floor: {slats: 64 %, scratch: 36 %}\n    slat_height: 20 in\n"
                                 "    flocks: [{birds: broiler breeder, hens: 7800, placed: "
                                 "2025-04-21, removed: 2026-02-09}]\n"
                                 "    measured: {depth: {grid: grid.csv}}\n",
                                 "across ft,along ft,depth in\n5,50,6\n20,50,30\n35,50,22\n"
                                 "5,150,6\n20,150,4\n35,150,6\n");
    CU_ASSERT_TRUE(litter_cautions(&t, "depth-over-slats"));
    for (size_t k = 0; k < t.estimate->cautions.n; k++)
        if (strcmp(t.estimate->cautions.at[k].id, "depth-over-slats") == 0)
            TEST_HOLDS(t.estimate->cautions.at[k].text, "1 of 4 depths"); /* not the scratch's 30 */
    litter_end(&t);
}

TEST_SUITE(litter_evidence) = {
    {"moisture by weights", weights},
    {"moisture by weights, by part", weights_by_part},
    {"Agrifutures: dry basis by bedding", dry_basis_by_bedding},
    {"LPELC: element to oxide", element_to_oxide},
    {"units of reports", units_of_reports},
    {"several reports", several_reports},
    {"reports and width", reports_and_width},
    {"rates use the mean", rates_use_the_mean},
    {"reports of old litter", reports_of_old_litter},
    {"one cleanout or a list", one_year_or_list},
    {"several years", several_years},
    {"years that disagree", years_that_disagree},
    {"the moisture then", moisture_then},
    {"Alberta: pail and pile", pail_and_pile},
    {"LPELC: pail factor", pail_factor},
    {"tons of an inch", ton_per_inch},
    {"weighed, without its size", weighed_without_size},
    {"figures that are queried", queried},
    {"a grid over the slats", grid_over_slats},
    CU_TEST_INFO_NULL,
};
