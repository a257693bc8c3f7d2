/* Depth surveys on a grid: volumes against geometry done by hand. */
#include "litter_world.h"

#include <math.h>
#include <string.h>

#define HOUSE(size, more)                                                                                              \
    "houses:\n  - name: A\n    " size "\n" more                                                                        \
    "    flocks: [{birds: broiler breeder, hens: 2000, placed: 2025-04-21, removed: 2026-02-09, "                      \
    "lost: 8 %}]\n    measured: {depth: {grid: grid.csv}, density: "
#define PLAIN HOUSE("length: 200 ft\n    width: 40 ft", "") "40 lb/ft3}\n"
#define SLATTED                                                                                                        \
    HOUSE("length: 200 ft\n    width: 40 ft", "    floor: {slats: 64 %, scratch: 36 %}\n")                             \
    "{slats: 40 lb/ft3, scratch: 30 lb/ft3}}\n"

/* Six inches everywhere: 200 ft x 40 ft x 0.5 ft. */
static void flat(void) {
    litter_world t = litter_farm(PLAIN, "across ft,along ft,depth in\n"
                                        "5,20,6\n35,20,6\n5,100,6\n35,100,6\n5,180,6\n35,180,6\n");
    TEST_NEAR(litter_shown(&t, "a.depth.floor"), 6, 1e-12);
    TEST_NEAR(litter_shown(&t, "a.volume.floor"), 4000, 1e-12);
    TEST_NEAR(litter_shown(&t, "a.wet.floor"), 80, 1e-12);
    litter_end(&t);
}

/* Depth rises from 0 in the middle to 20 in at both walls: d = |x - 20|. Over the slats, from 7.2
 * to 20 ft off the middle, its mean is (7.2 + 20) / 2 = 14.6; over the scratch 7.2 / 2 = 3.6. A
 * finer grid of the same depths gives the same. */
static void parts(void) {
    litter_world coarse = litter_farm(SLATTED, "across ft,along ft,depth in\n"
                                               "0,0,21\n20,0,1\n40,0,21\n0,200,21\n20,200,1\n40,200,21\n");
    TEST_NEAR(litter_shown(&coarse, "a.depth.slats"), 14.6, 1e-12);
    TEST_NEAR(litter_shown(&coarse, "a.depth.scratch"), 4.6, 1e-12);
    /* 64 % of 8,000 ft2 x 14.6 in x 40 lb/ft3 */
    TEST_NEAR(litter_shown(&coarse, "a.wet.slats"), 0.64 * 8000 * 14.6 / 12 * 40 / 2000, 1e-12);
    ls_arena *a = ls_arena_new();
    ls_text *csv = ls_text_new(a);
    ls_text_add(csv, "across ft,along ft,depth in\n");
    for (int y = 10; y < 200; y += 30)
        for (int x = 0; x <= 40; x += 5) ls_text_addf(csv, "%d,%d,%d\n", x, y, x > 20 ? x - 19 : 21 - x);
    litter_world fine = litter_farm(SLATTED, csv->s);
    TEST_NEAR(litter_shown(&fine, "a.depth.slats"), 14.6, 1e-12);
    TEST_NEAR(litter_shown(&fine, "a.depth.scratch"), 4.6, 1e-12);
    ls_arena_free(a);
    litter_end(&coarse);
    litter_end(&fine);
}

/* 4 in at 5 ft, 8 in at 30 ft of 40: 5 ft of 4, 25 ft of 6 in the mean, 10 ft of 8: 250 / 40. */
static void edges_hold(void) {
    litter_world t = litter_farm(PLAIN, "across ft,along ft,depth in\n5,50,4\n30,50,8\n5,150,4\n30,150,8\n");
    TEST_NEAR(litter_shown(&t, "a.depth.floor"), 6.25, 1e-12);
    litter_end(&t);
}

/* Between four different corners the surface is bilinear: its mean is theirs. */
static void corners(void) {
    litter_world t = litter_farm(PLAIN, "across ft,along ft,depth in\n0,0,2\n40,0,5\n0,200,7\n40,200,12\n");
    TEST_NEAR(litter_shown(&t, "a.depth.floor"), (2 + 5 + 7 + 12) / 4.0, 1e-12);
    litter_end(&t);
}

/* Depths 4, 8, 4, 8 in: standard deviation 2.3094 about 6, or 38.49 %, on 3 degrees of freedom,
 * pooled with the usual 28 % on 2, over the root of 4. The line says where it comes from. */
static void spread(void) {
    litter_world t = litter_farm(PLAIN, "across ft,along ft,depth in\n5,50,4\n35,50,8\n5,150,4\n35,150,8\n");
    ls_line depth = ls_line_find(t.sheet, "a.depth.floor");
    const ls_spread s = ls_line_at(t.sheet, depth)->spread;
    TEST_SAME(s.kind, LS_LOG_STUDENT);
    TEST_NEAR(s.scale, sqrt((2 * 0.28 * 0.28 + 3 * 0.3849 * 0.3849) / 5) / 2, 1e-4);
    TEST_NEAR(s.df, 5, 0);
    TEST_HOLDS(ls_line_origin(t.arena, t.sheet, depth, t.diag), "grid.csv:2: mean over");
    TEST_HOLDS(ls_line_origin(t.arena, t.sheet, depth, t.diag), "2 x 2 readings, 4 of them");
    litter_end(&t);
}

/* The same survey in other units, columns in another order, as a spreadsheet may save it: with a
 * byte order mark, quotes, blanks and CRLF. 6 in = 15.24 cm, 35 ft = 10.668 m (exact). */
static void written_otherwise(void) {
    litter_world t = litter_farm(PLAIN, "\xEF\xBB\xBF\"depth cm\",\"across m\",\"along m\"\r\n"
                                        "10.16, 1.524, 15.24\r\n20.32, 9.144, 15.24\r\n\r\n10.16,1.524,45.72\r\n"
                                        "\"20.32\",9.144,45.72\r\n,,\r\n");
    TEST_NEAR(litter_shown(&t, "a.depth.floor"), 6.25, 1e-9);
    TEST_SAME(t.farm->houses.at[0].measured->depth.grid->along_n, 2);
    litter_end(&t);
}

/* A grid counts as a survey: its own evidence, no note that a depth is missing. */
static void is_evidence(void) {
    litter_world t = litter_farm(SLATTED, "across ft,along ft,depth in\n5,50,6\n20,50,4\n35,50,6\n5,150,6\n20,150,4\n"
                                          "35,150,6\n");
    bool found = false;
    for (size_t i = 0; i < t.estimate->lots[0].methods_n; i++)
        found |= strcmp(t.estimate->lots[0].methods[i].name, "depth survey") == 0;
    CU_ASSERT_TRUE(found);
    litter_end(&t);
}

/* Where the strips lie: slats 30 %, floor 20 %, scratch 50 % of the width. */
static void strips(void) {
    ls_floor floor = {.slats.value = 0.3, .floor.value = 0.2, .scratch.value = 0.5};
    ls_house house = {.floor = &floor};
    ls_strip s[2];
    TEST_SAME(ls_house_strips(&house, LS_SLATS, s), 2);
    TEST_NEAR(s[0].to, 0.15, 1e-12);
    TEST_NEAR(s[1].from, 0.85, 1e-12);
    TEST_SAME(ls_house_strips(&house, LS_FLOOR, s), 2);
    TEST_NEAR(s[0].from, 0.15, 1e-12);
    TEST_NEAR(s[0].to, 0.25, 1e-12);
    TEST_SAME(ls_house_strips(&house, LS_SCRATCH, s), 1);
    TEST_NEAR(s[0].from, 0.25, 1e-12);
    TEST_NEAR(s[0].to, 0.75, 1e-12);
}

/* 10,000 readings are read, one more is not. */
static void size_limit(void) {
    for (int extra = 0; extra < 2; extra++) {
        ls_arena *a = ls_arena_new();
        const char *folder = test_folder(a), *why;
        ls_text *csv = ls_text_new(a);
        ls_text_add(csv, "across ft,along ft,depth in\n");
        for (int k = 0; k < 10000 + extra; k++) ls_text_addf(csv, "%d.%d,%d,5\n", k % 100 / 3, k % 3, k / 100);
        const char *path = ls_arena_printf(a, "%s/farm.yaml", folder);
        CU_ASSERT_TRUE(ls_file_write(a, path, PLAIN, strlen(PLAIN), &why));
        CU_ASSERT_TRUE(ls_file_write(a, ls_arena_printf(a, "%s/grid.csv", folder), csv->s, csv->n, &why));
        ls_diag *d = ls_diag_new(a);
        ls_farm_read(a, d, ls_reference_load(a), &path, 1);
        CU_ASSERT_EQUAL(strstr(test_messages(a, d), "at most 10,000 readings") != NULL, extra == 1);
        test_folder_end(folder);
        ls_arena_free(a);
    }
}

TEST_SUITE(litter_grid) = {
    {"a flat bed", flat},
    {"parts of the floor", parts},
    {"edges hold to the walls", edges_hold},
    {"four corners", corners},
    {"spread of the mean", spread},
    {"written otherwise", written_otherwise},
    {"a grid is evidence", is_evidence},
    {"strips of the floor", strips},
    {"size of a grid", size_limit},
    CU_TEST_INFO_NULL,
};
