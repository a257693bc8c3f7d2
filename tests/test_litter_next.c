/* The advice of what to measure next comes true: the measurement written into the farm file, at the
 * value the estimate expects and at its usual precision, narrows the range as foretold. */
#include "suite.h"

#include "littershed/litter.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define HOUSE                                                                                                          \
    "trucks:\n  - {name: truck, count: 1, payload: 11 ton, body: 20 yd3}\n"                                            \
    "houses:\n  - name: One\n    length: 400 ft\n    width: 40 ft\n    flocks:\n"                                      \
    "      - birds: broiler breeder\n        hens: 7200\n        males: 720\n        placed: "                         \
    "2025-05-05\n"                                                                                                     \
    "        removed: 2026-02-11\n        lost: 7 %\n"                                                                 \
    "        feed: {eaten: 138 g/bird/day, phosphorus: 0.55 %}\n        eggs: 158 per hen\n"

typedef struct {
    ls_arena *arena;
    const ls_reference *reference;
    ls_worksheet *sheet;
    ls_estimate *estimate;
} world;

static world estimate_of(const char *yaml) {
    world t = {.arena = ls_arena_new()};
    const char *folder = test_folder(t.arena), *why;
    const char *path = ls_arena_printf(t.arena, "%s/farm.yaml", folder);
    CU_ASSERT_TRUE(ls_file_write(t.arena, path, yaml, strlen(yaml), &why));
    t.reference = ls_reference_load(t.arena);
    ls_diag *d = ls_diag_new(t.arena);
    const ls_farm *f = ls_farm_read(t.arena, d, t.reference, &path, 1);
    if (!f) printf("\n%s", test_messages(t.arena, d));
    CU_ASSERT_PTR_NOT_NULL_FATAL(f);
    t.sheet = ls_worksheet_new(t.arena);
    t.estimate = ls_litter_estimate(t.sheet, f, t.reference, 1, LS_BLOCK);
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.estimate);
    test_folder_end(folder);
    return t;
}

static double shown(const world *t, const char *key) { return ls_line_shown(t->sheet, ls_line_find(t->sheet, key)); }

/* Width of the range of all loads, by the program's own draws. */
static double width(const world *t) {
    ls_drawn d = ls_drawn_of(t->estimate->trips);
    ls_draw(t->sheet, 1, LS_BLOCK, &d, 1);
    return d.high - d.low;
}

static const ls_next *advice(const ls_next_list *list, const char *what) {
    for (size_t i = 0; i < list->n; i++)
        if (strcmp(list->at[i].what, what) == 0) return &list->at[i];
    return NULL;
}

/* n readings in text whose mean is m and whose mean has the standard error se. */
static const char *readings(ls_arena *a, double m, double se, int n) {
    ls_text *t = ls_text_new(a);
    for (int i = 0; i < n; i++) ls_text_addf(t, "%.9f ", m + (i % 2 ? -1 : 1) * se * sqrt(n - 1.0));
    return t->s;
}

/* The house with more lines. */
static const char *house_with(ls_arena *a, const char *format, ...) __attribute__((format(printf, 2, 3)));
static const char *house_with(ls_arena *a, const char *format, ...) {
    char more[1000];
    va_list args;
    va_start(args, format);
    vsnprintf(more, sizeof more, format, args);
    va_end(args);
    return ls_arena_printf(a, "%s%s", HOUSE, more);
}

/* A value in the farm file, scaled until the line of dry tons it makes is what the estimate
 * expects. */
static double scaled(const char *before, double guess, const char *after, const char *line, double expected) {
    ls_arena *a = ls_arena_new();
    world t = estimate_of(house_with(a, "%s%.9f%s", before, guess, after));
    double fit = guess * expected / shown(&t, line);
    ls_arena_free(t.arena);
    ls_arena_free(a);
    return fit;
}

static void comes_true(const char *what, const char *yaml) {
    world before = estimate_of(HOUSE), after = estimate_of(yaml);
    ls_next_list list = ls_litter_next(before.sheet, before.reference, before.estimate);
    const ls_next *said = advice(&list, what);
    CU_ASSERT_PTR_NOT_NULL_FATAL(said);
    TEST_NEAR(said->now.high - said->now.low, width(&before), 1e-12);
    /* whole loads: within one of them, or 15 % */
    double came = width(&after), foretold = said->then.high - said->then.low;
    CU_ASSERT_TRUE(fabs(came - foretold) <= fmax(1, 0.15 * foretold));
    ls_arena_free(before.arena);
    ls_arena_free(after.arena);
}

static void depth_survey(void) {
    world t = estimate_of(HOUSE);
    double depth = scaled("    measured: {depth: ", 5, " in}\n", "one.depth-survey.dry", shown(&t, "one.dry_tons"));
    comes_true("depth survey",
               house_with(t.arena, "    measured: {depth: %s in}\n", readings(t.arena, depth, 0.08 * depth, 12)));
    ls_arena_free(t.arena);
}

static void moisture_test(void) {
    world t = estimate_of(HOUSE);
    comes_true("moisture test", house_with(t.arena, "    measured: {moisture: %s %%}\n",
                                           readings(t.arena, shown(&t, "one.moisture"), 3, 4)));
    ls_arena_free(t.arena);
}

static void density(void) {
    world t = estimate_of(HOUSE);
    double d = shown(&t, "one.density.published");
    comes_true("density in the house",
               house_with(t.arena, "    measured: {density: %s lb/ft3}\n", readings(t.arena, d, 0.07 * d, 3)));
    ls_arena_free(t.arena);
}

static void pail(void) {
    world t = estimate_of(HOUSE);
    double d = shown(&t, "one.loose_density");
    comes_true("pail test of loose litter",
               house_with(t.arena, "    measured: {loose_density: %s lb/ft3}\n", readings(t.arena, d, 0.05 * d, 5)));
    ls_arena_free(t.arena);
}

#define LAB                                                                                                            \
    "    lab:\n      - {date: 2026-01-29, by: Lab, moisture: %.9f %%, N: 37 lb/ton, P2O5: %.9f "                       \
    "lb/ton, K2O: 35 lb/ton}\n"

static void lab_sample(void) {
    world t = estimate_of(HOUSE);
    double moisture = shown(&t, "one.moisture");
    world with = estimate_of(house_with(t.arena, LAB, moisture, 58.0));
    double phosphate = 58 * shown(&with, "one.phosphorus.dry") / shown(&t, "one.dry_tons");
    comes_true("lab sample", house_with(t.arena, LAB, moisture, phosphate));
    ls_arena_free(with.arena);
    ls_arena_free(t.arena);
}

static void last_cleanout(void) {
    world t = estimate_of(HOUSE);
    static const char before[] = "    last_cleanout: {date: 2025-04-01, weighed: ";
    const char *after = ls_arena_printf(t.arena, " ton, bird_days: %.0f}\n", shown(&t, "one.bird_days"));
    double tons = scaled(before, 100, after, "one.last-cleanout.dry", shown(&t, "one.dry_tons"));
    comes_true("last cleanout's scale tickets", house_with(t.arena, "%s%.9f%s", before, tons, after));
    ls_arena_free(t.arena);
}

static void two_loads(void) {
    world t = estimate_of(HOUSE);
    double d = shown(&t, "one.loose_density");
    comes_true(
        "first two loads over a scale",
        house_with(t.arena, "    measured: {loose_density: %.9f lb/ft3 +/- %.9f lb/ft3}\n", d, 2 * 0.01 * d / sqrt(2)));
    ls_arena_free(t.arena);
}

/* The survey of a house of which nothing is known comes first, and no advice widens the range by
 * more than rounding. */
static void best_first(void) {
    world t = estimate_of(HOUSE);
    ls_next_list list = ls_litter_next(t.sheet, t.reference, t.estimate);
    CU_ASSERT_TRUE_FATAL(list.n >= 6);
    double now = list.at[0].now.high - list.at[0].now.low;
    CU_ASSERT_TRUE(list.at[0].then.high - list.at[0].then.low < 0.5 * now);
    for (size_t i = 1; i < list.n; i++)
        CU_ASSERT_TRUE(list.at[i - 1].then.high - list.at[i - 1].then.low <=
                       list.at[i].then.high - list.at[i].then.low);
    ls_arena_free(t.arena);
}

#define LAYERS(name, manure)                                                                                           \
    "  - {name: " name ", length: 400 ft, width: 50 ft, manure: " manure                                               \
    ", bedding: none, flocks: [{birds: layer, count: 60000, placed: 2024-11-01, removed: "                             \
    "2026-04-20, lost: 9 %}]}\n"

/* More work that narrows the range no more than less work does in that house is outdone: in a house
 * of layers the pail adds nothing to the survey, in one of breeders it does. */
static void outdone(void) {
    static const char layers[] =
        "trucks:\n  - {name: truck, count: 3, payload: 24 ton, body: 45 yd3}\nhouses:\n" LAYERS("One", "pit")
            LAYERS("Two", "belt");
    const char *const farms[] = {HOUSE, layers};
    for (size_t i = 0; i < 2; i++) {
        world t = estimate_of(farms[i]);
        ls_next_list list = ls_litter_next(t.sheet, t.reference, t.estimate);
        const ls_next *less = advice(&list, "depth survey"), *more = advice(&list, "depth survey and pail test");
        CU_ASSERT_TRUE_FATAL(less != NULL && more != NULL);
        CU_ASSERT_EQUAL(more->then.high - more->then.low < less->then.high - less->then.low, i == 0);
        CU_ASSERT_EQUAL(more->outdone, i == 1);
        CU_ASSERT_FALSE(list.at[0].outdone);
        ls_arena_free(t.arena);
    }
}

TEST_SUITE(litter_next) = {
    {"depth survey", depth_survey},
    {"moisture test", moisture_test},
    {"density in the house", density},
    {"pail test", pail},
    {"lab sample", lab_sample},
    {"last cleanout", last_cleanout},
    {"two loads weighed", two_loads},
    {"best first", best_first},
    {"outdone", outdone},
    CU_TEST_INFO_NULL,
};
