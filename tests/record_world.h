/* A demo farm in a folder: its house, its fields, its haul log. */
#pragma once

#include "program.h"

typedef struct {
    ls_arena *a;
    const char *folder, *house, *fields, *log;
} world;

static inline world begin(void) {
    world t = {.a = ls_arena_new()};
    t.folder = test_folder(t.a);
    t.house = test_file(t.a, t.folder, "h.yaml", test_file_text(t.a, DEMO_HOUSE));
    t.fields = test_file(t.a, t.folder, "f.yaml", test_file_text(t.a, DEMO_FIELDS));
    t.log = ls_arena_printf(t.a, "%s/h.haul.csv", t.folder);
    return t;
}

static inline void end(world *t) {
    test_folder_end(t->folder);
    ls_arena_free(t->a);
}
