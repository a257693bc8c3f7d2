/* What loads that are gone tell of the litter that is left: against closed forms. */
#include "suite.h"

#include "littershed/litter.h"

#include <math.h>
#include <string.h>

static const char farm_file[] = "houses:\n"
                                "  - name: North\n"
                                "    length: 432 ft\n"
                                "    width: 40 ft\n"
                                "    sides: [left, right]\n"
                                "    floor: {slats: 64 %, scratch: 36 %}\n"
                                "    flocks:\n"
                                "      - {birds: broiler breeder, hens: 7800, males: 780, placed: 2025-04-21, removed: "
                                "2026-02-09, lost: 8.5 %}\n"
                                "    measured:\n"
                                "      loose_density: 33 lb/ft3 +/- 6.6 lb/ft3\n"
                                "trucks:\n"
                                "  - {name: truck, count: 1, payload: 20 ton, body: 20 yd3}\n";

enum { MOST = 40, DRAWS = 5 * LS_BLOCK };

typedef struct {
    ls_arena *arena;
    const ls_reference *reference;
    ls_farm farm;
    ls_hauled loads[MOST];
    ls_worksheet *sheet;
    ls_estimate *estimate;
} world;

static void begin(world *t) {
    *t = (world){.arena = ls_arena_new()};
    t->reference = ls_reference_load(t->arena);
    const char *folder = test_folder(t->arena), *why;
    const char *path = ls_arena_printf(t->arena, "%s/farm.yaml", folder);
    CU_ASSERT_TRUE(ls_file_write(t->arena, path, farm_file, strlen(farm_file), &why));
    const ls_farm *read = ls_farm_read(t->arena, ls_diag_new(t->arena), t->reference, &path, 1);
    CU_ASSERT_PTR_NOT_NULL_FATAL(read);
    test_folder_end(folder);
    t->farm = *read;
    t->farm.hauled.at = t->loads;
}

static void end(world *t) { ls_arena_free(t->arena); }

static void haul(world *t, const char *lot, double tons, bool weighed, double cleared) {
    CU_ASSERT_FATAL(t->farm.hauled.n < MOST);
    t->loads[t->farm.hauled.n++] = (ls_hauled){.lot = lot,
                                               .ticket = "T",
                                               .tons = tons * 2000,
                                               .weighed = weighed,
                                               .cleared = cleared,
                                               .entry = "entry of a test"};
}

static void estimate(world *t) {
    t->sheet = ls_worksheet_new(t->arena);
    t->estimate = ls_litter_estimate(t->sheet, &t->farm, t->reference, 1, DRAWS);
    TEST_TEXT(ls_worksheet_fault(t->sheet), NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(t->estimate);
}

static ls_drawn drawn(const world *t, const char *key) {
    ls_drawn d = ls_drawn_of(ls_line_find(t->sheet, key));
    CU_ASSERT_NOT_EQUAL_FATAL(d.line, LS_NO_LINE);
    ls_draw(t->sheet, 1, DRAWS, &d, 1);
    return d;
}

/* A body that holds what pail and volume tell to s0, and k full loads of one day that each tell it
 * to s, the day to 2 %: the posterior of two normal figures (Gelman and others, Bayesian Data
 * Analysis, 2.5: precisions add, means are weighted by them), s^2 the 5 % of common practice, for 4
 * degrees of freedom, and the scatter of the loads (2.6). s0: the pail's 10 %, which is normal,
 * hence 2 % of tolerance on the width, and the 15 % from pail to body. Of the density the loads
 * tell what the body leaves open. */
static void full_loads_are_conjugate(void) {
    static const int counts[] = {1, 2, 4, 9, 16};
    const double body = 20 * 27, pail = 0.1, fill = 0.15, day = 0.02, unit = body / 2000;
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++) {
        world t;
        begin(&t);
        int k = counts[i];
        double sum = 0, sum2 = 0;
        for (int n = 0; n < k; n++) {
            double tons = 9.6 + 0.2 * (n % 3); /* 35.6 to 37 lb/ft3 */
            sum += log(tons), sum2 += log(tons) * log(tons);
            haul(&t, "NORTH-LEFT", tons, true, NAN);
        }
        estimate(&t);
        double s2 = (4 * 0.05 * 0.05 + sum2 - sum * sum / k) / (4 + k - 1);
        double told = 1 / (day * day + s2 / k), before = 1 / (pail * pail + fill * fill);
        ls_drawn d = drawn(&t, "north.payload.volume");
        TEST_NEAR(ls_line_shown(t.sheet, d.line), exp((log(33 * unit) * before + sum / k * told) / (before + told)),
                  1e-6);
        TEST_NEAR(log(d.high / d.low), 2 * 1.2815516 * sqrt(1 / (before + told)), 0.02);
        told = 1 / (1 / told + fill * fill), before = 1 / (pail * pail);
        d = drawn(&t, "north.loose_density");
        TEST_NEAR(ls_line_value(t.sheet, d.line) / ls_unit_of("lb/ft3").factor,
                  exp((log(33) * before + (sum / k - log(unit)) * told) / (before + told)), 1e-6);
        TEST_NEAR(log(d.high / d.low), 2 * 1.2815516 * sqrt(1 / (before + told)), 0.02);
        end(&t);
    }
}

/* Part loads, loads by eye and those of another truck tell nothing; loads at the truck's weight
 * limit nothing of the density. */
static void part_loads_tell_nothing(void) {
    world t;
    begin(&t);
    haul(&t, "NORTH-LEFT", 10, true, NAN);
    haul(&t, "NORTH-LEFT", 4, true, NAN);   /* a rest */
    haul(&t, "NORTH-LEFT", 12, false, NAN); /* by eye */
    haul(&t, "NORTH-LEFT", 13, true, NAN);
    ls_truck other = t.farm.trucks.at[0];
    t.loads[3].truck = &other;
    estimate(&t);
    TEST_NEAR(ls_line_shown(t.sheet, ls_line_find(t.sheet, "north.full-loads.mean")), 10, 1e-12);
    end(&t);
    begin(&t);
    haul(&t, "NORTH-LEFT", 19.9, true, NAN); /* of 20 */
    estimate(&t);
    double unit = ls_unit_of("lb/ft3").factor;
    TEST_NEAR(ls_line_value(t.sheet, ls_line_find(t.sheet, "north.loose_density")) / unit, 33, 1e-9);
    end(&t);
}

/* 4 ton in 20 yd3 are 14.8 lb/ft3, below half of the pail's 33: a part load, though no other load
 * is weighed. Taken for a full one it would have twice as many loads planned as there are. */
static void lone_part_load_tells_no_density(void) {
    world t;
    begin(&t);
    haul(&t, "NORTH-LEFT", 4, true, NAN);
    estimate(&t);
    double unit = ls_unit_of("lb/ft3").factor;
    TEST_NEAR(ls_line_value(t.sheet, ls_line_find(t.sheet, "north.loose_density")) / unit, 33, 1e-9);
    TEST_SAME(ls_line_find(t.sheet, "north.full-loads.mean"), LS_NO_LINE);
    haul(&t, "NORTH-LEFT", 4.6, true, NAN); /* 17 lb/ft3: light, yet it may be */
    estimate(&t);
    TEST_NEAR(ls_line_shown(t.sheet, ls_line_find(t.sheet, "north.full-loads.mean")), 4.6, 1e-12);
    end(&t);
}

/* What is gone is no longer there, and the range of trips never widens from load to load. */
static void every_load_counts_down(void) {
    world t;
    begin(&t);
    estimate(&t);
    double before = ls_line_shown(t.sheet, t.estimate->lots[0].tons.line), width = INFINITY;
    double other = ls_line_shown(t.sheet, t.estimate->lots[1].tons.line);
    for (int k = 1; k <= 6; k++) {
        haul(&t, "NORTH-LEFT", 9.7, true, NAN);
        estimate(&t);
        const ls_lot *lot = &t.estimate->lots[0];
        TEST_NEAR(ls_line_shown(t.sheet, lot->gone), 9.7 * k, 1e-12);
        TEST_NEAR(ls_line_shown(t.sheet, lot->tons.line), fmax(before - 9.7 * k, 0), 1e-9);
        TEST_NEAR(ls_line_shown(t.sheet, t.estimate->lots[1].tons.line), other, 1e-9);
        CU_ASSERT_TRUE(lot->tons.high - lot->tons.low <= width + 1e-6);
        width = lot->tons.high - lot->tons.low;
        CU_ASSERT_TRUE(ls_line_value(t.sheet, lot->firm) <= ls_line_value(t.sheet, lot->likely));
    }
    end(&t);
}

/* A cleared side settles its own tons and tells of the other: its tons over its half (5 points) of
 * the house, with the published figures beside it. By the same closed form, in wet tons. */
static void a_cleared_side_tells_of_the_other(void) {
    world t;
    begin(&t);
    estimate(&t);
    double wide = t.estimate->lots[1].tons.high / t.estimate->lots[1].tons.low;
    for (int k = 0; k < 8; k++) haul(&t, "NORTH-LEFT", 10, true, k == 7 ? 1 : NAN);
    estimate(&t);
    const ls_lot *left = &t.estimate->lots[0], *right = &t.estimate->lots[1];
    TEST_NEAR(ls_line_shown(t.sheet, left->tons.line), 0, 0);
    TEST_NEAR(left->tons.high, 0, 0);
    TEST_NEAR(ls_line_shown(t.sheet, left->made.line), 80, 1e-12);
    TEST_SAME(ls_line_value(t.sheet, left->possible), 0);
    CU_ASSERT_TRUE(log(right->tons.high / right->tons.low) < 0.75 * log(wide));
    double prior = ls_line_shown(t.sheet, ls_line_find(t.sheet, "north.made.dry"));
    double evidence = ls_line_shown(t.sheet, ls_line_find(t.sheet, "north.loads-hauled.dry"));
    double solids = ls_line_shown(t.sheet, ls_line_find(t.sheet, "north.agreed.solids")) / 100;
    TEST_NEAR(evidence, 80 / 0.5 * solids, 1e-9);
    double weight = ls_line_shown(t.sheet, ls_line_find(t.sheet, "north.agreed.weight-0")) / 100;
    double both = exp(weight * log(prior / solids) + (1 - weight) * log(evidence / solids));
    TEST_NEAR(ls_line_shown(t.sheet, right->tons.line), both - 80, 1e-9);
    end(&t);
}

/* A share judged by eye (5 points) tells the more the larger it is; any share tells something. */
static void a_share_cleared_tells(void) {
    static const double shares[] = {0.25, 0.5};
    double ratio[2];
    world nothing;
    begin(&nothing);
    haul(&nothing, "NORTH-LEFT", 10, true, NAN);
    estimate(&nothing);
    double wide = nothing.estimate->lots[1].tons.high / nothing.estimate->lots[1].tons.low;
    end(&nothing);
    for (int i = 0; i < 2; i++) {
        world t;
        begin(&t);
        int loads = (int)(8 * shares[i]);
        for (int k = 0; k < loads; k++) haul(&t, "NORTH-LEFT", 10, true, k + 1 == loads ? shares[i] : NAN);
        estimate(&t);
        ratio[i] = t.estimate->lots[1].tons.high / t.estimate->lots[1].tons.low;
        ls_line there = ls_line_find(t.sheet, "north.loads-hauled.house");
        TEST_NEAR(ls_line_shown(t.sheet, there), 160, 1e-9);
        end(&t);
    }
    CU_ASSERT_TRUE(ratio[0] > ratio[1]);
    CU_ASSERT_TRUE(wide > ratio[0]);
}

/* Loads by eye are all off alike: their spread does not average out. */
static void by_eye_is_less_sure(void) {
    world t;
    begin(&t);
    for (int k = 0; k < 8; k++) haul(&t, "NORTH-LEFT", 10, false, NAN);
    estimate(&t);
    ls_drawn d = drawn(&t, "north.left.gone");
    TEST_NEAR(log(d.high / d.low), 2 * 1.2815516 * 0.1, 0.02);
    end(&t);
}

TEST_SUITE(litter_hauled) = {
    {"k full loads: the posterior of two normal figures", full_loads_are_conjugate},
    {"part loads tell nothing", part_loads_tell_nothing},
    {"a lone part load tells no density", lone_part_load_tells_no_density},
    {"what is gone is no longer there", every_load_counts_down},
    {"a cleared side tells of the other", a_cleared_side_tells_of_the_other},
    {"a share cleared tells something", a_share_cleared_tells},
    {"loads by eye are less sure", by_eye_is_less_sure},
    CU_TEST_INFO_NULL,
};
