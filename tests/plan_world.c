#include "plan_world.h"

#include <string.h>

static plan_world world(const char *const *paths, size_t n, const ls_plan_terms *terms) {
    plan_world t = {.arena = ls_arena_new()};
    t.reference = ls_reference_load(t.arena);
    t.diag = ls_diag_new(t.arena);
    t.farm = ls_farm_read(t.arena, t.diag, t.reference, paths, n);
    if (t.farm == NULL) {
        printf("\n%s", test_messages(t.arena, t.diag));
        return t;
    }
    t.sheet = ls_worksheet_new(t.arena);
    t.estimate = ls_litter_estimate(t.sheet, t.farm, t.reference, 1, LS_BLOCK);
    ls_agronomy *g = ls_agronomy_new(t.sheet, t.reference, t.estimate);
    t.plan = ls_haul_plan(t.sheet, t.reference, t.estimate, g, terms);
    TEST_TEXT(ls_worksheet_fault(t.sheet), NULL);
    return t;
}

plan_world plan_world_of(const char *const *paths, size_t n) {
    return world(paths, n, &(ls_plan_terms){.from = LS_NO_DATE});
}

plan_world plan_world_text(const char *yaml) { return plan_world_on(yaml, &(ls_plan_terms){.from = LS_NO_DATE}); }

plan_world plan_world_on(const char *yaml, const ls_plan_terms *terms) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *why;
    const char *path = ls_arena_printf(a, "%s/farm.yaml", folder);
    CU_ASSERT_TRUE(ls_file_write(a, path, yaml, strlen(yaml), &why));
    plan_world t = world(&path, 1, terms);
    test_folder_end(folder);
    ls_arena_free(a);
    return t;
}

plan_world plan_world_small(plan_small s) {
    ls_arena *a = ls_arena_new();
    plan_world t = plan_world_text(ls_arena_printf(
        a,
        "houses:\n  - {name: One, length: 440 ft, width: 40 ft,\n"
        "     measured: {weighed: %s, loose_density: 40 lb/ft3},\n"
        "     lab: [{date: 2026-01-10, basis: as received, moisture: 30 %%, N: 20 lb/ton, NH4N: 5 "
        "lb/ton, P2O5: 20 lb/ton, K2O: 20 lb/ton}]}\n"
        "trucks: [{name: T, %s}]\n"
        "crew: {arrives: 2026-02-16%s}\n"
        "buyers:\n  - {name: A, price: 20 $/ton%s, fields: [{name: F, area: 200 ac, " PLAN_FIELD "}]}\n%s",
        s.tons, s.truck, s.crew, s.buyer, s.more));
    ls_arena_free(a);
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.plan);
    return t;
}

void plan_world_end(plan_world *t) { ls_arena_free(t->arena); }

double plan_tons(const plan_world *t, ls_line line) {
    return line == LS_NO_LINE ? 0 : ls_line_value(t->sheet, line) / 2000;
}
