/* Figures from memory: used only where nothing that was read serves, and told wherever they are
 * used. */
#include "program.h"

#include "littershed/command.h"
#include "littershed/farm.h"
#include "littershed/litter.h"

#include <string.h>

/* The table and the row of a figure, by looking through all. */
static const ls_table *table_of(const ls_reference *r, const ls_figure *f, const char **column) {
    for (size_t i = 0; ls_reference_at(r, i) != NULL; i++) {
        const ls_table *t = ls_reference_at(r, i);
        for (size_t k = 0; k < t->n; k++)
            for (size_t c = 0; c < t->rows[k].n; c++)
                if (t->rows[k].cells[c].figure == f) {
                    *column = t->rows[k].cells[c].column;
                    return t;
                }
    }
    return NULL;
}

/* In tables whose rows are rival figures of one thing. */
static bool rivals(const ls_table *t) {
    static const char *const kinds[] = {"made", "composition", "excreted", "kept"};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (strcmp(t->kind, kinds[i]) == 0)
            return true;
    return false;
}

static bool has_read(const ls_table *t, const char *column) {
    for (size_t k = 0; k < t->n; k++) {
        const ls_figure *f = ls_row_figure(&t->rows[k], column);
        if (f != NULL && f->status != LS_MEMORY)
            return true;
    }
    return false;
}

static bool is_told(const ls_estimate *e, const char *label) {
    for (size_t i = 0; i < e->notes.n; i++)
        if (strncmp(e->notes.at[i], "from memory", strlen("from memory")) == 0 &&
            strstr(e->notes.at[i], label) != NULL)
            return true;
    return false;
}

/* What is known of the use of tables by one farm file. */
typedef struct {
    size_t figures, memory;
} use;

/* Every figure of a table that the estimate of a farm rests on: it is shown by sources; if it is
 * from memory nothing that was read serves, and the notes name it. */
static use walk(ls_arena *a, const char *path) {
    use seen = {0, 0};
    const ls_reference *r = ls_reference_load(a);
    ls_diag *d = ls_diag_new(a);
    const ls_farm *farm = ls_farm_read(a, d, r, &path, 1);
    TEST_TEXT(test_messages(a, d), "");
    CU_ASSERT_PTR_NOT_NULL_FATAL(farm);
    ls_worksheet *w = ls_worksheet_new(a);
    const ls_estimate *e = ls_litter_estimate(w, farm, r, 1, LS_BLOCK);
    for (size_t i = 0; i < ls_worksheet_lines(w); i++) {
        const ls_entry *line = ls_line_at(w, (ls_line)i);
        if (line->origin.kind != LS_BY_TABLE || line->origin.figure == NULL)
            continue;
        const char *column = NULL;
        const ls_figure *f = line->origin.figure;
        const ls_table *t = table_of(r, f, &column);
        CU_ASSERT_PTR_NOT_NULL_FATAL(t);
        seen.figures++;
        if (f->status != LS_MEMORY)
            continue;
        seen.memory++;
        CU_ASSERT_FALSE(rivals(t) && has_read(t, column));
        CU_ASSERT_TRUE(is_told(e, line->label));
        TEST_HOLDS(ls_line_origin(a, w, (ls_line)i, d), "(from memory)");
    }
    return seen;
}

/* The starter farm of every kind of bird, with bedding and no laboratory, so that tables serve; and
 * its pages. */
static void test_all_birds(void) {
    size_t memory = 0;
    for (int bird = 1; bird < LS_BIRDS; bird++) {
        ls_arena *a = ls_arena_new();
        const char *folder = test_folder(a), *path;
        path = test_file(a, folder, "farm.yaml", ls_farm_starter(a, bird));
        use with = walk(a, path);
        CU_ASSERT(with.figures > 0);
        const char *birds = bird == LS_BROILER_BREEDER ? "hens: 7000, males: 700" : "count: 7000";
        const char *bare = ls_arena_printf(
            a,
            "houses:\n  - name: A\n    length: 400 ft\n    width: 40 ft\n    bedding: [{material: "
            "rice hulls, depth: 3 in}]\n    flocks: [{birds: %s, %s, placed: 2025-04-21, removed: "
            "2026-02-09}]\n",
            ls_bird_name(bird), birds);
        path = test_file(a, folder, "bare.yaml", bare);
        use without = walk(a, path);
        CU_ASSERT(without.figures > 0);
        memory += without.memory;
        if (without.memory > 0) {
            TEST_HOLDS(PROGRAM(a, "estimate", path).out, "from memory");
            TEST_HOLDS(PROGRAM(a, "estimate", path, "--format", "json").out, "from memory");
        }
        test_folder_end(folder);
        ls_arena_free(a);
    }
    CU_ASSERT(memory > 0); /* the walk sees some */
}

/* Removal by a table from memory, a swath that is not given: said on the pages of rates and plan.
 */
static void test_pages(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *house = test_replace(a, test_file_text(a, DEMO_HOUSE), "    swath: 32 ft\n", "");
    const char *path = test_file(a, folder, "house.yaml", house);
    TEST_HOLDS(PROGRAM(a, "rates", DEMO).out, "what tall fescue hay removes (ipni) is from memory");
    TEST_HOLDS(PROGRAM(a, "rates", DEMO, "--format", "json").out, "(ipni) is from memory");
    const char *plan = PROGRAM(a, "plan", path, DEMO_FIELDS).out;
    TEST_HOLDS(plan, "32.5 ft is taken, from memory");
    TEST_HOLDS(plan, "From memory, as no figure read in a source serves: ");
    TEST_HOLDS(plan, "P2O5 in");
    TEST_HOLDS(PROGRAM(a, "plan", DEMO, "--format", "json").out,
               "From memory, as no figure read in a source serves: ");
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(from_memory) = {
    {"birds of all kinds", test_all_birds}, {"rates and plan", test_pages}, CU_TEST_INFO_NULL};
