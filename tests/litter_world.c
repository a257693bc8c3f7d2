#include "litter_world.h"

#include <math.h>
#include <string.h>

litter_world litter_world_of(const char *yaml) {
    litter_world t = {.arena = ls_arena_new()};
    const char *folder = test_folder(t.arena), *why;
    const char *path = ls_arena_printf(t.arena, "%s/farm.yaml", folder);
    CU_ASSERT_TRUE(ls_file_write(t.arena, path, yaml, strlen(yaml), &why));
    const ls_reference *r = ls_reference_load(t.arena);
    ls_diag *d = ls_diag_new(t.arena);
    t.farm = ls_farm_read(t.arena, d, r, &path, 1);
    t.sheet = ls_worksheet_new(t.arena);
    if (t.farm)
        t.estimate = ls_litter_estimate(t.sheet, t.farm, r, 1, LS_BLOCK);
    TEST_TEXT(ls_worksheet_fault(t.sheet), NULL);
    CU_ASSERT_PTR_NOT_NULL(t.estimate);
    if (!t.estimate)
        printf("\n%s%s", test_messages(t.arena, d), yaml);
    test_folder_end(folder);
    return t;
}

void litter_world_end(litter_world *t) {
    ls_arena_free(t->arena);
}

bool litter_has(const litter_world *t, const char *key) {
    return ls_line_find(t->sheet, key) != LS_NO_LINE;
}

double litter_shown(const litter_world *t, const char *key) {
    ls_line line = ls_line_find(t->sheet, key);
    if (line == LS_NO_LINE)
        printf("\nno line %s\n", key);
    return line == LS_NO_LINE ? NAN : ls_line_shown(t->sheet, line);
}
