/* Moisture by weights, cleanouts of several years, densities, and figures that are queried: against
 * published figures. */
#include "litter_world.h"

#include <math.h>
#include <string.h>

#define BREEDERS                                                                                                       \
    "houses:\n  - name: A\n    length: 432 ft\n    width: 40 ft\n    flocks:\n"                                        \
    "      - {birds: broiler breeder, hens: 7800, males: 780, placed: 2025-04-21, removed: "                           \
    "2026-02-09, lost: 8.5 %}\n"

/* ---- moisture by weights ---- */

/* 212 g dried to 128 g has lost 84 g: 39.62 % of its wet weight; 205 to 125 g: 39.02 %. */
static void weights(void) {
    litter_world t = litter_farm(BREEDERS "    measured: {moisture: {wet: 212 205 g, dry: 128 125 g}}\n", NULL);
    ls_line read = ls_line_find(t.sheet, "a.moisture.floor.given");
    TEST_NEAR(litter_shown(&t, "a.moisture"), (84 / 2.12 + 80 / 2.05) / 2, 1e-12);
    /* two readings d apart: variance d^2 / 2 on one degree of freedom, pooled with the usual 6
     * points on two; and the published breeder litter, 31 %, sd as tabled, weighed in */
    const ls_figure *f = ls_reference_need(t.reference, "moisture", "", "broiler breeder", "moisture");
    double d = 84 / 212.0 - 80 / 205.0, told = (2 * 0.06 * 0.06 + d * d / 2) / 3 / 2;
    double other = pow(ls_spread_scale(f->spread, f->value), 2), weight = other / (told + other);
    double off = (1 - weight) * (litter_shown(&t, "a.moisture") / 100 - 0.31);
    TEST_NEAR(ls_line_at(t.sheet, read)->spread.scale, sqrt(weight * told + off * off), 1e-9);
    TEST_NEAR(ls_line_at(t.sheet, read)->spread.df, 3 / (weight * weight), 1e-9);
    TEST_HOLDS(ls_line_origin(t.arena, t.sheet, read, t.diag), "1 - dry/wet of each sample: 39.6 39");
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

/* ---- cleanouts ---- */

#define YEAR(date, tons) "{date: " date ", weighed: " tons ", bird_days: 2415313, moisture: 30 % +/- 0.01 %}"

/* One cleanout, alone or as a list of one, is the same evidence under the same name. */
static void one_year_or_list(void) {
    litter_world alone = litter_farm(
        BREEDERS
        "    bedding: none\n    measured: {moisture: 30 %}\n    last_cleanout: " YEAR("2025-02-12", "130 ton") "\n",
        NULL);
    litter_world list = litter_farm(
        BREEDERS
        "    bedding: none\n    measured: {moisture: 30 %}\n    last_cleanout: [" YEAR("2025-02-12", "130 ton") "]\n",
        NULL);
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
        BREEDERS "    bedding: none\n    measured: {moisture: 30 %}\n    last_cleanout:\n"
                 "      - " YEAR("2025-02-12", "130 ton") "\n"
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
    for (size_t i = 0; i < t.estimate->lots[0].methods_n; i++) lines += t.estimate->lots[0].methods[i].evidence;
    TEST_SAME(lines, 1);
    CU_ASSERT_FALSE(litter_says(&t, "dry litter for what was fed"));
    litter_end(&t);
}

/* Years that cannot all be right are named, and count for less. */
static void years_that_disagree(void) {
    litter_world agree =
        litter_farm(BREEDERS "    bedding: none\n    measured: {moisture: 30 %}\n    last_cleanout: [" YEAR(
                        "2025-02-12", "130 ton") ", " YEAR("2024-02-12", "135 ton") "]\n",
                    NULL);
    litter_world differ =
        litter_farm(BREEDERS "    bedding: none\n    measured: {moisture: 30 %}\n    last_cleanout: [" YEAR(
                        "2025-02-12", "130 ton") ", " YEAR("2024-02-12", "52 ton") "]\n",
                    NULL);
    CU_ASSERT_TRUE(litter_says(&differ, "the cleanout of Wed, Feb 12, 2025 gave 2.5 times as much dry "
                                        "litter for the feed as that of Mon, Feb 12, 2024"));
    CU_ASSERT_FALSE(litter_says(&agree, "times as much dry litter"));
    CU_ASSERT_TRUE(litter_shown(&differ, "a.evidence-1.weight") < 0.8 * litter_shown(&agree, "a.evidence-1.weight"));
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
    litter_world t = litter_farm("houses:\n  - name: A\n    length: 20.3 m\n    width: 10 m\n    flocks:\n"
                                 "      - {birds: broiler, count: 2000, placed: 2025-12-01, removed: 2026-01-20}\n"
                                 "    measured: {depth: 100 cm, density: 974 kg/m3}\n",
                                 NULL);
    TEST_NEAR(19.48 / 0.020, 974, 1e-12);
    double tonnes = litter_shown(&t, "a.wet.floor") * 0.90718474; /* short ton, exact */
    TEST_NEAR(tonnes, 198, 0.002);
    litter_end(&t);
}

/* An inch of litter on 1,000 ft2 weighs density / 24 tons: 83.33 ft3 x density / 2,000. */
static void ton_per_inch(void) {
    litter_world t = litter_farm("houses:\n  - name: A\n    length: 50 ft\n    width: 20 ft\n    flocks:\n"
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
        {"n-to-p2o5", SANE_FLOCK, SANE_FEED, "moisture: 33 %, N: 64 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton",
         SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
        {"lab-moisture", SANE_FLOCK, SANE_FEED, "moisture: 42 %, N: 38 lb/ton, P2O5: 56 lb/ton, K2O: 36 lb/ton",
         SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
        {"moisture", SANE_FLOCK, SANE_FEED, SANE_LAB, SANE_DEPTH SANE_DENSITY "moisture: {slats: 70 %, scratch: 68 %}"},
        {"density", SANE_FLOCK, SANE_FEED, SANE_LAB,
         SANE_DEPTH "density: {slats: 58 lb/ft3, scratch: 55 lb/ft3}, " SANE_MOISTURE},
        {"depth-over-slats", SANE_FLOCK, SANE_FEED, SANE_LAB,
         "depth: {slats: 5.5 6 27 in, scratch: 3.5 3 4 in}, " SANE_DENSITY SANE_MOISTURE},
        {"floor-space", "hens: 17800, males: 780, placed: 2025-04-21, removed: 2026-02-09, lost: 8.5 %, ", SANE_FEED,
         SANE_LAB, SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
        {"stay", "hens: 7800, males: 780, placed: 2025-10-21, removed: 2026-02-09, lost: 8.5 %, ", SANE_FEED, SANE_LAB,
         SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
        {"manure-over-feed", SANE_FLOCK, "feed: {eaten: 70 g/bird/day, phosphorus: 1.1 %}", SANE_LAB,
         SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
        {"above-excreted", "hens: 2800, males: 280, placed: 2025-04-21, removed: 2026-02-09, lost: 8.5 %, ", SANE_FEED,
         SANE_LAB, SANE_DEPTH SANE_DENSITY SANE_MOISTURE},
    };
    enum { ROWS = sizeof rows / sizeof *rows };
    for (size_t i = 0; i < ROWS; i++) {
        ls_arena *a = ls_arena_new();
        litter_world t =
            litter_farm(ls_arena_printf(a,
                                        "houses:\n  - name: A\n    length: 432 ft\n    width: 40 ft\n"
                                        "    floor: {slats: 64 %%, scratch: 36 %%}\n    slat_height: 26 in\n"
                                        "    flocks: [{birds: broiler breeder, %s%s}]\n"
                                        "    lab: [{date: 2026-01-29, by: L, %s}]\n    measured: {%s}\n",
                                        rows[i].flock, rows[i].feed, rows[i].lab, rows[i].measured),
                        NULL);
        for (size_t k = 1; k < ROWS; k++)
            if (i == 0) CU_ASSERT_FALSE(litter_cautions(&t, rows[k].id));
        if (i > 0 && !litter_cautions(&t, rows[i].id)) printf("\nno caution %s\n", rows[i].id);
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
    {"one cleanout or a list", one_year_or_list},
    {"several years", several_years},
    {"years that disagree", years_that_disagree},
    {"the moisture then", moisture_then},
    {"Alberta: pail and pile", pail_and_pile},
    {"tons of an inch", ton_per_inch},
    {"weighed, without its size", weighed_without_size},
    {"figures that are queried", queried},
    {"a grid over the slats", grid_over_slats},
    CU_TEST_INFO_NULL,
};
