/* Quantities as growers may write them, and as they may not. */
#include "suite.h"

#include "littershed/farm.h"

#include <string.h>

/* A quantity at a key of a small farm. */
typedef struct {
    const char *key, *text;
    ls_quantity_form form;
    double value, half, low, high; /* in the unit of the key below */
    size_t n;
} right;

/* moisture in %, depth in in, weighed in ton; other units by the definitions of pound, inch and
 * tonne. */
static const right rights[] = {
    {"moisture", "31 %", LS_PLAIN, 31, 0, 0, 0, 1},
    {"moisture", "\"31 %\"", LS_PLAIN, 31, 0, 0, 0, 1},
    {"moisture", "310000 ppm", LS_PLAIN, 31, 0, 0, 0, 1},
    {"moisture", "31 % +/- 4 %", LS_PLUS_MINUS, 31, 4, 0, 0, 1}, /* points */
    {"moisture", "31 % +/- 0 %", LS_PLUS_MINUS, 31, 0, 0, 0, 1},
    {"moisture", "24 27 30 %", LS_READINGS, 27, 0, 0, 0, 3},
    {"moisture", "20..30 %", LS_RANGE, 25, 0, 20, 30, 0},
    {"depth", "4 in", LS_PLAIN, 4, 0, 0, 0, 1},
    {"depth", "  4   in", LS_PLAIN, 4, 0, 0, 0, 1},
    {"depth", "0.25 ft", LS_PLAIN, 3, 0, 0, 0, 1},
    {"depth", "10.16 cm", LS_PLAIN, 4, 0, 0, 0, 1},
    {"depth", "4..7 in", LS_RANGE, 5.5, 0, 4, 7, 0},
    {"depth", "4..4 in", LS_RANGE, 4, 0, 4, 4, 0},
    {"depth", "0.0..7 in", LS_RANGE, 3.5, 0, 0, 7, 0},
    {"depth", "14 15 12.5 16 in", LS_READINGS, 14.375, 0, 0, 0, 4},
    {"depth", "0 1 2 in", LS_READINGS, 1, 0, 0, 0, 3},        /* a bare spot is a reading */
    {"depth", "4 in +/- 25 %", LS_PLUS_MINUS, 4, 1, 0, 0, 1}, /* relative */
    {"depth", "4 in +/- 2.54 cm", LS_PLUS_MINUS, 4, 1, 0, 0, 1},
    {"weighed", "96 ton", LS_PLAIN, 96, 0, 0, 0, 1},
    {"weighed", "192000 lb", LS_PLAIN, 96, 0, 0, 0, 1},
    {"weighed", "192,000 lb", LS_PLAIN, 96, 0, 0, 0, 1},
    {"depth", "4in", LS_PLAIN, 4, 0, 0, 0, 1},
    {"depth", "4 IN", LS_PLAIN, 4, 0, 0, 0, 1},
    {"depth", ".5 in", LS_PLAIN, 0.5, 0, 0, 0, 1},
    {"depth", "[4 in, 3 in]", LS_READINGS, 3.5, 0, 0, 0, 2},
    {"depth", "3 to 4 inches", LS_RANGE, 3.5, 0, 3, 4, 0},
    {"depth", "1 ft 3 in", LS_PLAIN, 15, 0, 0, 0, 1},
    {"depth", "1 ft 3.5 in +/- 1 in", LS_PLUS_MINUS, 15.5, 1, 0, 0, 1},
    {"weighed", "100 tonne", LS_PLAIN, 110.2311310924388, 0, 0, 0, 1}, /* 1 tonne = 2,204.6226... lb */
};

/* Quantities that are refused, and words of the message. */
typedef struct {
    const char *key, *text, *message;
} wrong;

static const wrong wrongs[] = {
    {"depth", "4", "depth needs a unit"},
    {"depth", "4 5 6", "depth needs a unit"},
    {"depth", "in 4", "depth must begin with a number"},
    {"depth", "\"\\u00bd in\"", "depth must begin with a number"},
    {"depth", "4 lb", "depth cannot be in lb"},
    {"depth", "4 in/day", "depth cannot be in in/day"},
    {"depth", "4.", "not a number"},
    {"depth", "4.5.6 in", "write it in plain digits, such as 12000 or 0.5"},
    {"depth", "4_5 in", "plain digits"},
    {"depth", "1e400 in", "plain digits"},
    {"depth", "99999999999999999999 in", "not a number"},
    {"depth", "4,5 in", "write \"4.5 in\""},
    {"depth", "12,04 in", "write \"12.04 in\""},
    {"depth", "1204,000 in", "not a number"},
    {"depth", "1 ft 12 in", "\"ft 12 in\" is not a unit"},
    {"depth", "4 in 1 ft", "\"in 1 ft\" is not a unit"},
    {"depth", "1,204 in", "at most 120 in, not 1,204 in"},
    {"depth", "-4 in", "depth must not be below zero"},
    {"depth", "0 in", "depth must be more than 0"},
    {"depth", "0 0 in", "depth must be more than 0"},
    {"depth", "121 in", "depth must be more than 0 and at most 120 in, not 121 in"},
    {"depth", "4..130 in", "not 130 in"},
    {"depth", "4..5..6 in", "not a number"},
    {"depth", "4.. in", "not a number"},
    {"depth", "4..5 6..7 in", "not a number"},
    {"depth", "4 in +/-", "the +/- of depth must begin with a number"},
    {"depth", "4 in +/- 1", "the +/- of depth needs a unit"},
    {"depth", "4 in +/- 1 in +/- 1 in", "more than one number"},
    {"depth", "4 in +/- 1..2 in", "more than one number"},
    {"depth", "+/- 1 in", "depth must begin with a number"},
    {"depth", "4 in +- 1 in", "is not a unit"},
    {"depth", "4 5 in +/- 1 in", "+/- cannot follow several readings"},
    {"moisture", "33 lb/ton", "moisture cannot be in lb/ton"},
    {"moisture", "0.33", "moisture needs a unit"},
    {"moisture", "96 %", "between 1 and 95%"},
    {"moisture", "0 %", "between 1 and 95%"},
    {"weighed", "96 t", "may be a ton or a tonne"},
    {"weighed", "96 98 ton", "weighed takes one number, not several"},
    {"weighed", "[96 ton]", "weighed takes one value, not a list"},
    {"weighed", "{slats: 96 ton}", "weighed takes one value, not keys of its own"},
};

typedef struct {
    ls_arena *arena;
    ls_diag *diag;
    const ls_farm *farm;
} reading;

static reading read_with(const char *folder, const char *key, const char *text) {
    reading r = {.arena = ls_arena_new()};
    const char *path = ls_arena_printf(r.arena, "%s/farm.yaml", folder), *why;
    const char *file = ls_arena_printf(r.arena,
                                       "houses:\n  - name: A\n    length: 400 ft\n    width: 40 ft\n    flocks: "
                                       "[{birds: broiler, count: 1, placed: 2025-12-08, removed: 2026-01-26}]\n"
                                       "    measured:\n      %s: %s\n",
                                       key, text);
    CU_ASSERT_TRUE(ls_file_write(r.arena, path, file, strlen(file), &why));
    r.diag = ls_diag_new(r.arena);
    r.farm = ls_farm_read(r.arena, r.diag, ls_reference_load(r.arena), &path, 1);
    return r;
}

static const ls_quantity *quantity_of(const ls_measured *m, const char *key) {
    if (strcmp(key, "weighed") == 0) return &m->weighed;
    return strcmp(key, "depth") == 0 ? &m->depth.of[LS_FLOOR] : &m->moisture.of[LS_FLOOR];
}

static void test_right(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    for (size_t i = 0; i < sizeof rights / sizeof *rights; i++) {
        const right *want = &rights[i];
        reading r = read_with(folder, want->key, want->text);
        TEST_TEXT(test_messages(r.arena, r.diag), "");
        const char *unit = strcmp(want->key, "weighed") == 0 ? "ton" : strcmp(want->key, "depth") == 0 ? "in" : "%";
        double factor = ls_unit_of(unit).factor;
        if (r.farm) {
            const ls_quantity *q = quantity_of(r.farm->houses.at[0].measured, want->key);
            TEST_SAME(q->form, want->form);
            TEST_NEAR(q->value / factor, want->value, 1e-12);
            TEST_NEAR(q->half / factor, want->half, 1e-12);
            TEST_NEAR(q->low / factor, want->low, 1e-12);
            TEST_NEAR(q->high / factor, want->high, 1e-12);
            TEST_SAME(q->n, want->n);
            CU_ASSERT_EQUAL(q->readings != NULL, q->n > 0);
        }
        ls_arena_free(r.arena);
    }
    test_folder_end(folder);
    ls_arena_free(a);
}

static void test_wrong(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    for (size_t i = 0; i < sizeof wrongs / sizeof *wrongs; i++) {
        reading r = read_with(folder, wrongs[i].key, wrongs[i].text);
        CU_ASSERT_PTR_NULL(r.farm);
        TEST_HOLDS(test_messages(r.arena, r.diag), wrongs[i].message);
        TEST_SAME(ls_diag_count(r.diag, LS_ERROR), 1);
        ls_arena_free(r.arena);
    }
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(farm_quantity) = {
    {"quantities that are taken", test_right}, {"quantities that are refused", test_wrong}, CU_TEST_INFO_NULL};
