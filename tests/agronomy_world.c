#include "agronomy_world.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char broiler_litter[] = "N: 63 lb/ton, P2O5: 55 lb/ton, K2O: 47 lb/ton";

void world_end(world *t) { ls_arena_free(t->arena); }

static world world_of(const char *const *paths, size_t n) {
    world t = {.arena = ls_arena_new()};
    t.reference = ls_reference_load(t.arena);
    t.diag = ls_diag_new(t.arena);
    t.farm = ls_farm_read(t.arena, t.diag, t.reference, paths, n);
    if (t.farm == NULL) printf("\n%s", test_messages(t.arena, t.diag));
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.farm);
    t.sheet = ls_worksheet_new(t.arena);
    t.estimate = ls_litter_estimate(t.sheet, t.farm, t.reference, 1, LS_BLOCK);
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.estimate);
    t.agronomy = ls_agronomy_new(t.sheet, t.reference, t.estimate);
    TEST_TEXT(ls_worksheet_fault(t.sheet), NULL);
    return t;
}

world world_of_text(const char *yaml) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *path = ls_arena_printf(a, "%s/farm.yaml", folder), *why;
    CU_ASSERT_TRUE(ls_file_write(a, path, yaml, strlen(yaml), &why));
    world t = world_of(&path, 1);
    test_folder_end(folder);
    ls_arena_free(a);
    return t;
}

world one_field(const char *more, const char *lab, const char *field) {
    ls_arena *a = ls_arena_new();
    ls_text *y = ls_text_new(a);
    ls_text_add(y, more);
    ls_text_add(y, "houses:\n  - name: House\n    length: 400 ft\n    width: 40 ft\n    measured: "
                   "{weighed: 100 ton}\n    flocks:\n"
                   "      - {birds: broiler breeder, hens: 7000, males: 700, placed: 2025-04-21, "
                   "removed: 2026-02-09}\n");
    if (lab != NULL) ls_text_addf(y, "    lab:\n      - {date: 2026-01-29, by: Laboratory, %s}\n", lab);
    ls_text_addf(y,
                 "buyers:\n  - name: Buyer\n    distance: 5 mi\n    price: 30 $/ton\n    fields:\n "
                 "     - {name: Field, open: "
                 "2026-03-01..2026-04-30, %s}\n",
                 field);
    world t = world_of_text(y->s);
    ls_arena_free(a);
    return t;
}

const ls_field_rates *rates_of(world *t, size_t buyer, size_t k) {
    if (t->agronomy == NULL) printf("\n%s", test_messages(t->arena, t->diag));
    CU_ASSERT_PTR_NOT_NULL_FATAL(t->agronomy);
    const ls_buyer *b = &t->farm->buyers.at[buyer];
    const ls_field_rates *out = ls_agronomy_field(t->agronomy, b, &b->fields.at[k]);
    TEST_TEXT(ls_worksheet_fault(t->sheet), NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(out);
    return out;
}

double shown(const world *t, ls_line line) { return line == LS_NO_LINE ? NAN : ls_line_shown(t->sheet, line); }

bool has_flag(const ls_field_rates *f, const char *part) {
    for (size_t i = 0; i < f->flags.n; i++)
        if (strstr(f->flags.at[i], part) != NULL) return true;
    return false;
}

world demo(void) {
    const char *paths[] = {"fixtures/demo-house.yaml", "fixtures/demo-fields.yaml"};
    return world_of(paths, 2);
}
