#include "litter_world.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *write_beside(ls_arena *a, const char *folder, const char *name, const char *text) {
    const char *path = ls_arena_printf(a, "%s/%s", folder, name), *why;
    CU_ASSERT_TRUE(ls_file_write(a, path, text, strlen(text), &why));
    return path;
}

litter_world litter_farm(const char *yaml, const char *csv) {
    litter_world t = {.arena = ls_arena_new()};
    const char *folder = test_folder(t.arena);
    const char *path = write_beside(t.arena, folder, "farm.yaml", yaml);
    if (csv) write_beside(t.arena, folder, "grid.csv", csv);
    t.reference = ls_reference_load(t.arena);
    t.diag = ls_diag_new(t.arena);
    t.farm = ls_farm_read(t.arena, t.diag, t.reference, &path, 1);
    test_folder_end(folder);
    if (!t.farm) printf("\n%s", test_messages(t.arena, t.diag));
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.farm);
    t.sheet = ls_worksheet_new(t.arena);
    t.estimate = ls_litter_estimate(t.sheet, t.farm, t.reference, 1, LS_BLOCK);
    TEST_TEXT(ls_worksheet_fault(t.sheet), NULL);
    if (!t.estimate) printf("\n%s", test_messages(t.arena, t.diag));
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.estimate);
    return t;
}

void litter_end(litter_world *t) { ls_arena_free(t->arena); }

bool litter_has(const litter_world *t, const char *key) { return ls_line_find(t->sheet, key) != LS_NO_LINE; }

double litter_shown(const litter_world *t, const char *key) {
    if (!litter_has(t, key)) printf("\nno line %s\n", key);
    return ls_line_shown(t->sheet, ls_line_find(t->sheet, key));
}

bool litter_says(const litter_world *t, const char *part) {
    for (size_t i = 0; i < t->estimate->notes.n; i++)
        if (strstr(t->estimate->notes.at[i], part)) return true;
    for (size_t i = 0; i < t->estimate->cautions.n; i++)
        if (strstr(t->estimate->cautions.at[i].text, part)) return true;
    return false;
}

bool litter_cautions(const litter_world *t, const char *id) {
    for (size_t i = 0; i < t->estimate->cautions.n; i++)
        if (strcmp(t->estimate->cautions.at[i].id, id) == 0) return true;
    return false;
}

double litter_width(const litter_world *t) {
    const ls_q *q = &t->estimate->lots[0].dry_tons;
    CU_ASSERT_TRUE(0 < q->low && q->low <= q->mid && q->mid <= q->high && q->high < INFINITY);
    return q->high / q->low;
}
