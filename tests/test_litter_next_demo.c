/* The advice on the demo farm comes true: for each kind of measurement the demo's South house is
 * given it in its file, at the value the estimate expects and at its usual precision, and all loads
 * are estimated again. */
#include "suite.h"

#include "littershed/litter.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct {
    ls_arena *arena;
    const ls_reference *reference;
    ls_worksheet *sheet;
    ls_estimate *estimate;
} world;

static const char demo[] = "fixtures/demo-house.yaml";

/* The demo farm with more lines at the end of its South house, the last before the trucks. */
static const char *demo_with(ls_arena *a, const char *more) {
    ls_diag *d = ls_diag_new(a);
    int32_t file = ls_file_read(a, d, demo);
    CU_ASSERT_TRUE_FATAL(file >= 0);
    const char *text = ls_diag_input_at(d, file)->text, *trucks = strstr(text, "\ntrucks:");
    CU_ASSERT_PTR_NOT_NULL_FATAL(trucks);
    const char *head = ls_arena_copy_n(a, text, (size_t)(trucks - text));
    return ls_arena_printf(a, "%s%s%s", head, more, trucks);
}

static world world_of(const char *more) {
    world t = {.arena = ls_arena_new()};
    const char *folder = test_folder(t.arena), *why, *yaml = demo_with(t.arena, more);
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

/* n readings whose mean is m and whose mean has the standard error se. */
static const char *readings(ls_arena *a, double m, double se, int n) {
    ls_text *t = ls_text_new(a);
    for (int i = 0; i < n; i++) ls_text_addf(t, "%.9f ", m + (i % 2 ? -1 : 1) * se * sqrt(n - 1.0));
    return t->s;
}

static const ls_next *advice(const ls_next_list *list, const char *what) {
    for (size_t i = 0; i < list->n; i++)
        if (strcmp(list->at[i].what, what) == 0 && strcmp(list->at[i].where, "South") == 0) return &list->at[i];
    return NULL;
}

static void comes_true(const char *what, const char *more) {
    world before = world_of(""), after = world_of(more);
    ls_next_list list = ls_litter_next(before.sheet, before.reference, before.estimate);
    const ls_next *said = advice(&list, what);
    CU_ASSERT_PTR_NOT_NULL_FATAL(said);
    ls_drawn d = ls_drawn_of(after.estimate->trips);
    ls_draw(after.sheet, 1, LS_BLOCK, &d, 1);
    TEST_NEAR(d.high - d.low, said->then.high - said->then.low, 0.15);
    ls_arena_free(before.arena);
    ls_arena_free(after.arena);
}

static const char *depth_lines(ls_arena *a, double depth) {
    const char *r = readings(a, depth, 0.08 * depth, 12);
    return ls_arena_printf(a, "    measured: {depth: {slats: %s in, scratch: %s in}}\n", r, r);
}

static void depth_survey(void) {
    world t = world_of("");
    world guess = world_of(depth_lines(t.arena, 5));
    double depth = 5 * shown(&t, "south.dry_tons") / shown(&guess, "south.depth-survey.dry");
    comes_true("depth survey", depth_lines(t.arena, depth));
    ls_arena_free(guess.arena);
    ls_arena_free(t.arena);
}

static void moisture_test(void) {
    world t = world_of("");
    const char *r = readings(t.arena, shown(&t, "south.moisture"), 3, 4);
    comes_true("moisture test",
               ls_arena_printf(t.arena, "    measured: {moisture: {slats: %s %%, scratch: %s %%}}\n", r, r));
    ls_arena_free(t.arena);
}

static void density(void) {
    world t = world_of("");
    double d = shown(&t, "south.density.published");
    const char *r = readings(t.arena, d, 0.07 * d, 3);
    comes_true("density in the house",
               ls_arena_printf(t.arena, "    measured: {density: {slats: %s lb/ft3, scratch: %s lb/ft3}}\n", r, r));
    ls_arena_free(t.arena);
}

static void pail(void) {
    world t = world_of("");
    double d = shown(&t, "south.loose_density");
    comes_true("pail test of loose litter", ls_arena_printf(t.arena, "    measured: {loose_density: %s lb/ft3}\n",
                                                            readings(t.arena, d, 0.05 * d, 5)));
    ls_arena_free(t.arena);
}

static void lab_sample(void) {
    world t = world_of("");
    comes_true("lab sample", ls_arena_printf(t.arena,
                                             "    lab:\n      - {date: 2026-01-29, by: Lab, moisture: %.9f %%, "
                                             "N: %.9f lb/ton, P2O5: %.9f lb/ton, K2O: %.9f lb/ton}\n",
                                             shown(&t, "south.moisture"), shown(&t, "south.per_ton.N"),
                                             shown(&t, "south.per_ton.P2O5"), shown(&t, "south.per_ton.K2O")));
    ls_arena_free(t.arena);
}

static const char *cleanout_lines(const world *t, double tons) {
    return ls_arena_printf(t->arena, "    last_cleanout: {date: 2025-03-01, weighed: %.9f ton, bird_days: %.0f}\n",
                           tons, shown(t, "south.bird_days"));
}

static void last_cleanout(void) {
    world t = world_of("");
    world guess = world_of(cleanout_lines(&t, 100));
    double tons = 100 * shown(&t, "south.dry_tons") / shown(&guess, "south.last-cleanout.dry");
    comes_true("last cleanout's scale tickets", cleanout_lines(&t, tons));
    ls_arena_free(guess.arena);
    ls_arena_free(t.arena);
}

static void two_loads(void) {
    world t = world_of("");
    double d = shown(&t, "south.loose_density");
    comes_true("first two loads over a scale",
               ls_arena_printf(t.arena, "    measured: {loose_density: %.9f lb/ft3 +/- %.9f lb/ft3}\n", d,
                               2 * 0.01 * d / sqrt(2)));
    ls_arena_free(t.arena);
}

TEST_SUITE(litter_next_demo) = {
    {"depth survey", depth_survey},    {"moisture test", moisture_test},
    {"density in the house", density}, {"pail test", pail},
    {"lab sample", lab_sample},        {"last cleanout", last_cleanout},
    {"two loads weighed", two_loads},  CU_TEST_INFO_NULL,
};
