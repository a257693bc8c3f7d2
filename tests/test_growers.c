/* Ten farms as growers write them (tests/growers): the first check finds five mistakes at most,
 * all at once; each mended as the message says, the second finds none. What comes out stands beside
 * pencil figures. */
#include "litter_world.h"
#include "program.h"

#include <math.h>
#include <string.h>

enum { MOST_MISTAKES = 5, MOST_LINES = 90, MENDS = 2 };

typedef struct {
    const char *wrong, *right;
} mend;

/* The mistakes of a first writing, and what they are mended to. */
static const struct {
    const char *name;
    mend mends[MENDS];
} farms[] = {
    {"broilers", {{NULL, NULL}}},
    {"slats", {{NULL, NULL}}},
    {"layers", {{"crop: corn\n", "crop: corn\n        nitrogen: 140 lb/ac\n"}}},
    {"pullets", {{"birds: pullets", "birds: breeder pullet"}}},
    {"turkeys", {{NULL, NULL}}},
    {"ducks", {{"same day", "at once"}}},
    {"hobby", {{NULL, NULL}}},
    {"two-places", {{"{Home: 1 mi, Miller: 7 mi}", "4 mi"}}},
    {"own-words",
     {{"bedding: pine shavings", "bedding: {material: pine shavings, depth: 3 in}"},
      {"flocks: 5\n    age", "flocks: 4\n    age"}}},
    {"two-barns",
     {{"    depth: 3 inches\n", "    measured: {depth: 3 in}\n"}, {"    speed: 20 mph", "    road: 20 mph"}}},
};
enum { FARMS = sizeof farms / sizeof *farms };

static const char *written(ls_arena *a, const char *name) {
    const char *text = test_file_text(a, ls_arena_printf(a, "tests/growers/%s.yaml", name));
    CU_ASSERT_PTR_NOT_NULL_FATAL(text);
    return text;
}

static const char *mended(ls_arena *a, const char *name) {
    const char *text = written(a, name);
    for (size_t i = 0; i < FARMS; i++)
        for (size_t k = 0; strcmp(farms[i].name, name) == 0 && k < MENDS; k++)
            if (farms[i].mends[k].wrong != NULL)
                text = test_replace(a, text, farms[i].mends[k].wrong, farms[i].mends[k].right);
    return text;
}

static size_t mistakes(ls_arena *a, const char *folder, const char *text) {
    ls_diag *d = ls_diag_new(a);
    const char *path = test_file(a, folder, "farm.yaml", text);
    ls_farm_read(a, d, ls_reference_load(a), &path, 1);
    return ls_diag_count(d, LS_ERROR);
}

static void test_two_checks(void) {
    for (size_t i = 0; i < FARMS; i++) {
        ls_arena *a = ls_arena_new();
        const char *folder = test_folder(a), *text = written(a, farms[i].name);
        size_t lines = 0, wrong = 0;
        for (const char *s = text; (s = strchr(s, '\n')) != NULL; s++) lines++;
        for (size_t k = 0; k < MENDS; k++) wrong += farms[i].mends[k].wrong != NULL;
        CU_ASSERT(lines < MOST_LINES);
        CU_ASSERT(wrong <= MOST_MISTAKES);
        TEST_SAME(mistakes(a, folder, text), wrong);
        TEST_SAME(mistakes(a, folder, mended(a, farms[i].name)), 0);
        test_folder_end(folder);
        ls_arena_free(a);
    }
}

/* Bird-days: birds x days x (1 - lost / 2) x flocks. A pound is 453.59237 g, a ton 2,000 lb. */
static const struct {
    const char *farm, *key;
    double figure;
} pencil[] = {
    {"broilers", "house_1.bird_days", 24000.0 * 49 * 0.98 * 6},
    {"broilers", "house_1.feed", 142.0 * 6},
    {"broilers", "house_1.length", 500},
    {"broilers", "house_1.width", 43.5},
    {"broilers", "house_1.already-out-1.wet", 3 * 4}, /* of the dump trailer, not the first truck */
    {"broilers", "house_1.already-out-1.times", 5},
    {"broilers", "house_1.last-cleanout.bird_days", 24000.0 * 49 * 0.98 * 6},
    {"broilers", "house_2.bird_days", 24000.0 * 49 * 0.98 * 6}, /* like House 1 */
    {"broilers", "house_2.last-cleanout.loads", 16},
    {"broilers", "house_3.bird_days", 19000.0 * 49 * 0.98 * 6},
    {"broilers", "house_4.feed", 112.0 * 6}, /* like House 3 */
    {"broilers", "house_4.length", 400},
    /* May 12, 2025 to March 2, 2026: 294 days; June 10, 2024 to April 20, 2025: 314 */
    {"slats", "east.bird_days", 6600.0 * 294 * 0.955},
    {"slats", "east.last-cleanout.bird_days", 6600.0 * 314 * 0.955},
    {"slats", "east.last-cleanout.weighed", 110 * 2204.6226218487757 / 2000},
    {"slats", "west.bird_days", (5800.0 + 560) * 294 * 0.955},
    /* September 16, 2024 to March 30, 2026: 560 days; February 20, 2023 to September 1, 2024: 559
     */
    {"layers", "layer_house.bird_days", 90000.0 * 560 * 0.96},
    {"layers", "layer_house.feed", 90000.0 * 560 * 0.96 * 22.5 / 100 / 2000},
    {"layers", "layer_house.last-cleanout.bird_days", 90000.0 * 559 * 0.96},
    {"pullets", "pullet_barn.bird_days", 11800.0 * 140 * 0.975},
    {"pullets", "pullet_barn.last-cleanout.bird_days", 11500.0 * 140 * 0.975},
    {"turkeys", "brooder.bird_days", 14000.0 * 35 * 0.98 * 5},
    /* September 29, 2025 to January 26, 2026: 119 of the 154 days of their lives */
    {"turkeys", "grow_1.bird_days", 6700.0 * 119 * 0.96 * 3},
    {"turkeys", "grow_2.bird_days", 6500.0 * 119 * 0.96 * 3},
    {"ducks", "duck_1.bird_days", 9500.0 * 38 * 0.985},
    {"ducks", "duck_2.bird_days", 9000.0 * 38 * 0.985},
    {"hobby", "coop.bird_days", 1200.0 * 56 * 0.975 * 3}, /* 5 % lost is common practice */
    {"two-places", "home_2.last-cleanout.bird_days", 20500.0 * 42 * 0.98 * 5},
    {"two-places", "miller_1.bird_days", 31000.0 * 42 * 0.98 * 5},
    {"own-words", "1.bird_days", 25200.0 * 56 * (1 - 0.045 / 2) * 4},
    {"own-words", "1.feed", 210.0 * 4},
    {"own-words", "1.already-out-1.wet", 2 * 12},
    {"own-words", "1.already-out-1.times", 5},
    {"own-words", "1.last-cleanout.loads", 19},
    {"own-words", "3.bird_days", 24800.0 * 56 * (1 - 0.045 / 2) * 4}, /* like 1 */
    {"own-words", "5.length", 400},
    /* May 6 to September 2, 2025: 119 days; September 3, 2025 to August 30, 2026: 361 */
    {"two-barns", "pullet_barn.bird_days", 14000.0 * 119 * 0.99},
    {"two-barns", "pullet_barn.width", 42.5},
    {"two-barns", "layer_barn.bird_days", 11500.0 * 361 * 0.975},
    {"two-barns", "layer_barn.feed", 11500.0 * 361 * 0.975 * 24 / 100 / 2000},
    {"two-places", "miller_3.bird_days", 31000.0 * 42 * 0.98 * 5},
};

static void test_pencil(void) {
    for (size_t i = 0; i < FARMS; i++) {
        ls_arena *a = ls_arena_new();
        litter_world t = litter_farm(mended(a, farms[i].name), NULL);
        for (size_t k = 0; k < sizeof pencil / sizeof *pencil; k++)
            if (strcmp(pencil[k].farm, farms[i].name) == 0)
                TEST_NEAR(litter_shown(&t, pencil[k].key), pencil[k].figure, 1e-9);
        CU_ASSERT(t.estimate->tons.low > 0 && isfinite(t.estimate->tons.high));
        litter_end(&t);
        ls_arena_free(a);
    }
}

/* What a bird eats in its life it eats in the brooder house and then in the next one. No bird is
 * lost, so that the birds of both are the same. */
static void test_moved_birds(void) {
    litter_world t =
        litter_farm("houses:\n"
                    "  - name: Whole\n    length: 500 ft\n    width: 50 ft\n"
                    "    flocks: {birds: turkey tom, count: 5000, age: 154 days, removed: 2026-01-26, lost: 0 "
                    "%}\n"
                    "  - {name: Brooder, like: Whole, flocks: {like: Whole, age: 5 weeks}}\n"
                    "  - {name: Grow, like: Whole, flocks: {like: Whole, placed: 2025-09-29}}\n",
                    NULL);
    TEST_SAME(t.farm->houses.at[0].flocks.at[0].came, 0);
    TEST_SAME(t.farm->houses.at[2].flocks.at[0].came, 35);
    TEST_NEAR(litter_shown(&t, "brooder.feed") + litter_shown(&t, "grow.feed"), litter_shown(&t, "whole.feed"), 1e-9);
    TEST_NEAR(litter_shown(&t, "grow.flock-1.weight"), litter_shown(&t, "whole.flock-1.weight"), 1e-9);
    litter_end(&t);
}

/* Ninety thousand hens leave more than the yard (1,200 tons) and the fields take (150 ac and 80 ac
 * at the published top of 3 tons/ac: 690). The yard is paid $4 a ton to take it, the fields pay
 * $12; only what goes on fields is spread, at $8. */
static void test_yard(void) {
    static const struct {
        const char *key, *value;
    } figures[] = {{"plan.buyer.greenleaf_compost.tons", "1,200 tons"},
                   {"plan.buyer.greenleaf_compost.income", "-$4,800"},
                   {"plan.buyer.stoltz_brothers.tons", "690 tons"},
                   {"plan.income", "$3,480"},
                   {"plan.spread", "690 tons"},
                   {"plan.cost.spread", "$5,520"}};
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *path = test_file(a, folder, "farm.yaml", mended(a, "layers"));
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) {
        test_run r = PROGRAM(a, "explain", path, figures[i].key, FEW);
        TEST_SAME(r.status, 0);
        TEST_HOLDS(test_joined(a, r.out), ls_arena_printf(a, ", %s ", figures[i].value));
    }
    TEST_HOLDS(PROGRAM(a, "tickets", path, "--day", "2026-04-01", FEW).out, "at the yard. Do not spread.");
    CU_ASSERT_PTR_NULL(strstr(PROGRAM(a, "rates", path, FEW).out, "yard"));
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Loads to the yard are booked as moved to others, with their tons and no acres. */
static void test_moved(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *path = test_file(a, folder, "farm.yaml", mended(a, "layers"));
    TEST_SAME(PROGRAM(a, "tickets", path, "--day", "2026-04-01", "--issue", FEW).status, 0);
    const char *log = test_file_text(a, ls_arena_printf(a, "%s/farm.haul.csv", folder));
    TEST_HOLDS(log, ",Greenleaf Compost/yard (22 ton),");
    TEST_SAME(PROGRAM(a, "record", path, "--ticket", "LAYER-HOUSE-02-M", "--tons", "21.5", "--when", "2026-04-01T10:00")
                  .status,
              0);
    test_run r = PROGRAM(a, "dossier", path, "--full", FEW);
    TEST_HOLDS(test_joined(a, r.out), "+ moved to others 21.50 ");
    r = PROGRAM(a, "dossier", path, "--full", FEW);
    TEST_HOLDS(test_joined(a, r.out), "acres in the plan, 230 ac"); /* 150 and 80: not the yard's */
    TEST_HOLDS(test_joined(a, PROGRAM(a, "plan", path, FEW).out), "yard ################ 1,179");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* 40 acres of poor hay that nobody rated: what one crop removes, 0.4 x 10 lb of P2O5 an acre, is a
 * twentieth of a ton of litter, which no spreader keeps even. No ticket, but why and what to do;
 * once the field is rated its crop's nitrogen rules. */
static void test_low_rate(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a),
               *text = test_replace(a, mended(a, "hobby"), "area: 12 ac, crop: fescue hay, yield: 2.5",
                                    "area: 40 ac, crop: fescue hay, yield: 0.4"),
               *path = test_file(a, folder, "farm.yaml", text);
    test_run r = PROGRAM(a, "plan", path, FEW);
    TEST_HOLDS(test_joined(a, r.out), "is below 0.25 tons/ac, the lowest that most spreaders keep "
                                      "even. It holds only as the field is not rated: ask the plan "
                                      "writer for a rating");
    TEST_HOLDS(PROGRAM(a, "rates", path, FEW).out, "phosphorus, not rated");
    r = PROGRAM(a, "tickets", path, FEW);
    CU_ASSERT(r.status != 0 && r.out_size == 0);
    path = test_file(a, folder, "rated.yaml",
                     test_replace(a, text, "nitrogen: 100 lb/ac", "nitrogen: 100 lb/ac, phosphorus: {rating: low}"));
    TEST_HOLDS(PROGRAM(a, "tickets", path, FEW).out, "SPREAD");
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(growers) = {{"five mistakes at most, then none", test_two_checks},
                       {"figures beside the pencil", test_pencil},
                       {"birds that come from another house", test_moved_birds},
                       {"a yard takes tons", test_yard},
                       {"what went to a yard is moved", test_moved},
                       {"a rate too low to spread", test_low_rate},
                       CU_TEST_INFO_NULL};
