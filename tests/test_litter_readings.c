/* How sure readings and published figures are, litter taken out before, and cleanouts that tell of
 * this one. */
#include "litter_world.h"

#include <math.h>
#include <stdio.h>

#define SIZE "    length: 500 ft\n    width: 50 ft\n"
#define BROILERS                                                                                                       \
    SIZE "    bedding: none\n    flocks: [{birds: broiler, count: 24000, placed: 2025-12-08, "                         \
         "removed: 2026-01-26, lost: 4 %}]\n"
#define LAYERS                                                                                                         \
    SIZE "    bedding: none\n    flocks: [{birds: layer, count: 24000, placed: 2025-01-08, "                           \
         "removed: 2026-01-26, lost: 4 %}]\n"
#define HOUSE(name) "  - name: " name "\n"

static const ls_spread *spread_of(const litter_world *t, const char *key) {
    return &ls_line_at(t->sheet, ls_line_find(t->sheet, key))->spread;
}

/* Four depths, sd 1 in about 4 (25 %), on 3 degrees of freedom, pooled with the usual 28 % on 2;
 * two that scatter more than twice the usual stand alone; one counts as one of usual scatter. */
static void pooled(void) {
    litter_world t = litter_farm("houses:\n" HOUSE("A") BROILERS "    measured: {depth: 3 5 3 5 in}\n" HOUSE("B")
                                     BROILERS "    measured: {depth: 1 7 in}\n" HOUSE("C") BROILERS
                                 "    measured: {depth: 4 in, density: 30 lb/ft3}\n" HOUSE("D") BROILERS
                                 "    measured: {depth: 4 in +/- 1 in}\n",
                                 NULL);
    double s2 = 4 / 3.0 / 16;
    TEST_NEAR(spread_of(&t, "a.depth.floor")->scale, sqrt((2 * 0.28 * 0.28 + 3 * s2) / 5 / 4), 1e-9);
    TEST_NEAR(spread_of(&t, "a.depth.floor")->df, 5, 0);
    TEST_NEAR(spread_of(&t, "b.depth.floor")->scale, sqrt(18.0 / 16 / 2), 1e-9);
    TEST_NEAR(spread_of(&t, "b.depth.floor")->df, 1, 0);
    TEST_NEAR(spread_of(&t, "c.depth.floor")->scale, 0.28, 1e-12);
    TEST_NEAR(spread_of(&t, "c.density.floor")->scale, 0.12, 1e-12);
    TEST_NEAR(spread_of(&t, "c.depth.floor")->df, 2, 0);
    TEST_SAME(spread_of(&t, "d.depth.floor")->kind, LS_NORMAL);
    litter_end(&t);
}

/* Two houses share what is published but for a part of their own. */
static void shared_by_houses(void) {
    litter_world t = litter_farm("houses:\n" HOUSE("A") LAYERS "    manure: pit\n" HOUSE("B") LAYERS
                                 "    manure: pit\n" HOUSE("C") LAYERS "    manure: belt\n",
                                 NULL);
    const ls_figure *pit = ls_reference_need(t.reference, "moisture", "", "manure pit", "moisture");
    TEST_NEAR(litter_shown(&t, "a.moisture"), 100 * pit->value, 1e-9);
    TEST_NEAR(spread_of(&t, "published-layer.moisture-pit")->scale,
              sqrt(pow(ls_spread_scale(pit->spread, pit->value), 2) - 0.05 * 0.05), 1e-9);
    TEST_NEAR(spread_of(&t, "b.moisture.table.own")->scale, 0.05, 1e-12);
    TEST_NEAR(litter_shown(&t, "c.moisture"), 42.5, 1e-9); /* 20 to 65 % */
    CU_ASSERT_FALSE(litter_says(&t, "how the manure is kept"));
    litter_end(&t);
}

/* The question comes before all other notes, once for the farm. */
static void manure_is_asked_first(void) {
    litter_world t =
        litter_farm("houses:\n" HOUSE("A") LAYERS HOUSE("B") LAYERS "    manure: pit\n" HOUSE("C") LAYERS, NULL);
    TEST_HOLDS(t.estimate->notes.at[0], "A, C: the file does not say how the manure is kept");
    litter_end(&t);
}

/* 3 loads of 10 tons, 5 times, of cake, which is as wet as cake; 9 tons of litter as wet as the
 * house; depth x area x density in the house. */
static void cake(void) {
    litter_world t = litter_farm("houses:\n" HOUSE("A") BROILERS
                                 "    measured: {moisture: 28 %, density: 32 lb/ft3}\n    already_out:\n"
                                 "      - {loads: 3, times: 5}\n"
                                 "      - {date: 2026-01-20, weighed: 9 ton, what: litter}\n"
                                 "      - {date: 2026-01-21, depth: 2 in, area: 6000 ft2, moisture: 40 %}\n"
                                 "trucks: [{name: spreader, count: 1, payload: 10 ton}]\n",
                                 NULL);
    double wet = ls_reference_need(t.reference, "moisture", "", "cake", "moisture")->value;
    TEST_NEAR(litter_shown(&t, "a.already-out-1.dry"), 150 * (1 - wet), 1e-9);
    TEST_NEAR(litter_shown(&t, "a.already-out-2.dry"), 9 * 0.72, 1e-9);
    TEST_NEAR(litter_shown(&t, "a.already-out-3.dry"), 1000 * 32 / 2000.0 * 0.6, 1e-9);
    litter_end(&t);
}

/* 130 tons at 30 % and 20 tons of cake at 50 %: 101 tons dry, of which 10 were bedding (20,000 lb,
 * none of it water, nothing lost is looked up); what was fed since over 300 tons. */
static void by_feed(void) {
    litter_world t =
        litter_farm("houses:\n" HOUSE("A") SIZE
                    "    bedding: [{material: pine shavings, weight: 10 ton}]\n"
                    "    flocks: [{birds: broiler, count: 24000, placed: 2025-12-08, removed: 2026-01-26, "
                    "lost: "
                    "4 %, feed: {total: 150 ton}}]\n"
                    "    last_cleanout: {date: 2025-03-01, weighed: 130 ton, moisture: 30 %, feed: 300 ton, "
                    "cake: [{weighed: 20 ton, moisture: 50 %}]}\n",
                    NULL);
    double bedding = litter_shown(&t, "a.bedding") / 2000;
    TEST_NEAR(litter_shown(&t, "a.last-cleanout.dry"), (101 - bedding) * 150 / 300 + bedding, 1e-6);
    CU_ASSERT_TRUE(bedding > 1);
    litter_end(&t);
}

/* Nothing is less than nothing: bedding above what was hauled. */
static void more_bedding_than_hauled(void) {
    litter_world t =
        litter_farm("houses:\n" HOUSE("A") SIZE
                    "    bedding: [{material: pine shavings, weight: 100 ton}]\n"
                    "    flocks: [{birds: broiler, count: 24000, placed: 2025-12-08, removed: 2026-01-26}]\n"
                    "    last_cleanout: {date: 2025-03-01, weighed: 50 ton, bird_days: 1000000}\n",
                    NULL);
    CU_ASSERT_TRUE(litter_shown(&t, "a.last-cleanout.droppings") > 0);
    litter_end(&t);
}

/* High over low of the tons of the farm. */
static double width_of(const char *rest) {
    ls_arena *a = ls_arena_new();
    litter_world t = litter_farm(ls_arena_printf(a, "%s%s", "houses:\n" HOUSE("A") BROILERS, rest), NULL);
    double width = log(t.estimate->tons.high / t.estimate->tons.low);
    litter_end(&t);
    ls_arena_free(a);
    return width;
}

/* What is told of the cleanout's moisture makes the range no wider, nor does a moisture read that
 * is the published one, nor a density. */
static void telling_never_widens(void) {
#define THEN "    last_cleanout: {date: 2025-03-01, weighed: 50 ton, bird_days: 1150000"
#define DEEP "    measured: {depth: 2 3 2 3 2 3 in"
    static const char *const rows[][2] = {
        {THEN "}\n", THEN ", moisture: 30 %}\n"},
        {"    measured: {moisture: 30 30 31 29 %}\n" THEN "}\n",
         "    measured: {moisture: 30 30 31 29 %}\n" THEN ", moisture: 30 %}\n"},
        {"", "    measured: {moisture: 30 %}\n"},
        {"    measured: {moisture: 30 %}\n", "    measured: {moisture: 28 33 30 29 %}\n"},
        {DEEP "}\n", DEEP ", density: 32.4 lb/ft3}\n"},
        {DEEP "}\n", DEEP ", density: 30 35 32.2 lb/ft3}\n"},
        {DEEP "}\n", DEEP ", loose_density: 25 28 28 lb/ft3}\n"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double before = width_of(rows[i][0]), after = width_of(rows[i][1]);
        if (after > before * 1.02) printf("\nrow %zu: %g from %g\n", i, after, before);
        CU_ASSERT_TRUE(after <= before * 1.02);
    }
}

/* A survey without a density tells no more than what 32 and 48 lb/ft3 would both give. */
static void survey_without_density(void) {
    static const char *const densities[] = {"", ", density: {slats: 32 lb/ft3, scratch: 32 lb/ft3}",
                                            ", density: {slats: 48 lb/ft3, scratch: 48 lb/ft3}"};
    ls_q tons[3];
    for (int i = 0; i < 3; i++) {
        ls_arena *a = ls_arena_new();
        litter_world t = litter_farm(
            ls_arena_printf(
                a,
                "houses:\n" HOUSE("A") "    length: 432 ft\n    width: 40 ft\n"
                                       "    floor: {slats: 64 %%, scratch: 36 %%}\n"
                                       "    flocks: [{birds: broiler breeder, hens: 7800, males: 780, placed: "
                                       "2025-04-21, removed: 2026-02-09, lost: 8.5 %%}]\n"
                                       "    measured: {depth: {slats: 5.5 6 4.5 6.5 5 6 in, scratch: 3.5 3 4 3.5 "
                                       "in}%s}\n",
                densities[i]),
            NULL);
        tons[i] = t.estimate->tons;
        litter_end(&t);
        ls_arena_free(a);
    }
    for (int i = 1; i < 3; i++) CU_ASSERT_TRUE(tons[0].low < tons[i].mid && tons[i].mid < tons[0].high);
}

TEST_SUITE(litter_readings) = {
    {"readings are pooled with usual ones", pooled},
    {"houses share what is published", shared_by_houses},
    {"manure is asked first", manure_is_asked_first},
    {"cake and litter taken out", cake},
    {"a cleanout by feed", by_feed},
    {"more bedding than was hauled", more_bedding_than_hauled},
    {"telling never widens", telling_never_widens},
    {"a survey without a density", survey_without_density},
    CU_TEST_INFO_NULL,
};
