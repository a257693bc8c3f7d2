/* Figures from memory: used only where nothing that was read serves, and told wherever they are
 * used. */
#include "program.h"

#include "littershed/command.h"
#include "littershed/farm.h"
#include "littershed/litter.h"

#include <math.h>
#include <string.h>

/* A figure's table, row and column, by looking through all. */
typedef struct {
    const ls_table *table;
    const char *row, *column;
} cell;

static cell cell_of(const ls_reference *r, const ls_figure *f) {
    for (size_t i = 0; ls_reference_at(r, i) != NULL; i++) {
        const ls_table *t = ls_reference_at(r, i);
        for (size_t k = 0; k < t->n; k++)
            for (size_t c = 0; c < t->rows[k].n; c++)
                if (t->rows[k].cells[c].figure == f) return (cell){t, t->rows[k].name, t->rows[k].cells[c].column};
    }
    return (cell){NULL, NULL, NULL};
}

/* In tables whose rows are rival figures of one thing. */
static bool rivals(const ls_table *t) {
    static const char *const kinds[] = {"droppings", "composition", "excreted", "kept"};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (strcmp(t->kind, kinds[i]) == 0) return true;
    return false;
}

static bool has_read(const ls_table *t, const char *column) {
    for (size_t k = 0; k < t->n; k++) {
        const ls_figure *f = ls_row_figure(&t->rows[k], column);
        if (f != NULL && f->status != LS_MEMORY) return true;
    }
    return false;
}

/* One of the labels that a note lists. */
static bool is_told(ls_arena *a, const ls_estimate *e, const char *label) {
    static const char lead[] = "unverified figures: ";
    const char *item = ls_arena_printf(a, "; %s;", label);
    for (size_t i = 0; i < e->notes.n; i++) {
        const char *note = e->notes.at[i], *open = strstr(note, " (");
        if (strncmp(note, lead, strlen(lead)) == 0 && open != NULL)
            return strstr(ls_arena_printf(a, "; %.*s;", (int)strlen(open + 2) - 1, open + 2), item) != NULL;
    }
    return false;
}

static const ls_estimate *estimate_of(ls_arena *a, const char *path, ls_worksheet **w) {
    ls_diag *d = ls_diag_new(a);
    const ls_reference *r = ls_reference_load(a);
    const ls_farm *farm = ls_farm_read(a, d, r, &path, 1);
    TEST_TEXT(test_messages(a, d), "");
    CU_ASSERT_PTR_NOT_NULL_FATAL(farm);
    *w = ls_worksheet_new(a);
    return ls_litter_estimate(*w, farm, farm->reference, 1, LS_BLOCK);
}

/* By how much one standard uncertainty of the figure moves the farm's printed figure that it moves
 * most: the farm is reckoned anew with a row of its own, in which the figure is a hundredth of that
 * higher, and the change taken times a hundred. */
static double moves(ls_arena *a, const char *folder, const char *farm, cell c, const ls_figure *f) {
    const double part = 0.01;
    double scale = ls_spread_scale(f->spread, f->value);
    double step = part * (scale > 0 ? scale : 0.35 * f->value);
    const char *name = c.table->name[0] == '\0' ? "" : ls_arena_printf(a, "    name: %s\n", c.table->name);
    test_file(a, folder, "memory.yaml",
              ls_arena_printf(a,
                              "tables:\n  - kind: %s\n%s    rows:\n      %s: {source: %s, status: memory, "
                              "%s: {value: %.17g, unit: \"%s\", spread: exact}}\n",
                              c.table->kind, name, c.row, f->source->id, c.column, (f->value + step) / f->unit.factor,
                              f->unit.text));
    const char *plain = test_file(a, folder, "plain.yaml", farm),
               *moved = test_file(a, folder, "moved.yaml", ls_arena_printf(a, "own_tables: memory.yaml\n%s", farm));
    ls_worksheet *w[2];
    ls_line_list shown[2] = {{0}, {0}};
    ls_litter_shown(a, estimate_of(a, plain, &w[0]), &shown[0]);
    ls_litter_shown(a, estimate_of(a, moved, &w[1]), &shown[1]);
    double most = 0;
    for (size_t i = 0; i < shown[0].n; i++) {
        double before = ls_line_value(w[0], shown[0].at[i]), after = ls_line_value(w[1], shown[1].at[i]);
        if (isfinite(before) && before != 0) most = fmax(most, fabs(after / before - 1) / part);
    }
    return most;
}

/* What is known of the use of tables by one farm file. */
typedef struct {
    size_t figures, memory, told;
} use;

/* A label of figures from memory, and the most that one of them moves. */
typedef struct {
    const char *label;
    double by;
} said;
typedef LS_LIST(said) said_list;

static void add(ls_arena *a, said_list *list, const char *label, double by) {
    for (size_t i = 0; i < list->n; i++)
        if (strcmp(list->at[i].label, label) == 0) {
            list->at[i].by = fmax(list->at[i].by, by);
            return;
        }
    *LS_PUSH(a, list) = (said){label, by};
}

/* The notes name what matters and nothing else. Weights of published figures are fixed in a first
 * pass and do not move by first order, but do when the farm is reckoned anew: hence the room
 * between. */
static void check_told(ls_arena *a, const ls_estimate *e, const said_list *list, use *seen) {
    for (size_t i = 0; i < list->n; i++) {
        bool told = is_told(a, e, list->at[i].label);
        double by = list->at[i].by;
        seen->memory++;
        seen->told += told;
        if (told ? by < 0.005 : by > 0.02)
            TEST_TEXT(ls_arena_printf(a, "%s moves a figure by %.3g %% and is%s told", list->at[i].label, 100 * by,
                                      told ? "" : " not"),
                      "told if it moves one by 1 % or more");
    }
}

/* Every figure of a table that the estimate of a farm rests on: if it is from memory nothing that
 * was read serves, and the notes name it if it matters. */
static use walk(ls_arena *a, const char *folder, const char *farm) {
    use seen = {0, 0, 0};
    said_list list = {0};
    LS_LIST(const ls_figure *) tried = {0};
    const ls_reference *r = ls_reference_load(a);
    ls_worksheet *w;
    const ls_estimate *e = estimate_of(a, test_file(a, folder, "farm.yaml", farm), &w);
    for (size_t i = 1; i < ls_worksheet_lines(w); i++) {
        const ls_entry *line = ls_line_at(w, (ls_line)i);
        const ls_figure *f = line->origin.figure;
        if (line->origin.kind != LS_BY_TABLE || f == NULL) continue;
        cell c = cell_of(r, f);
        CU_ASSERT_PTR_NOT_NULL_FATAL(c.table);
        seen.figures++;
        bool again = f->status != LS_MEMORY;
        for (size_t k = 0; k < tried.n && !again; k++) again = tried.at[k] == f;
        if (again) continue;
        *LS_PUSH(a, &tried) = f;
        CU_ASSERT_FALSE(rivals(c.table) && has_read(c.table, c.column));
        TEST_HOLDS(ls_line_origin(a, w, (ls_line)i, NULL), "(from memory)");
        add(a, &list, line->label, moves(a, folder, farm, c, f));
    }
    check_told(a, e, &list, &seen);
    return seen;
}

/* The starter farm of every kind of bird, with bedding and no laboratory, so that tables serve; and
 * its pages. */
static void test_all_birds(void) {
    use all = {0, 0, 0};
    for (int bird = 1; bird < LS_BIRDS; bird++) {
        ls_arena *a = ls_arena_new();
        const char *folder = test_folder(a);
        CU_ASSERT(walk(a, folder, test_starter(a, bird)).figures > 0);
        const char *birds = bird == LS_BROILER_BREEDER ? "hens: 7000, males: 700" : "count: 7000";
        const char *bare =
            ls_arena_printf(a,
                            "houses:\n  - name: A\n    length: 400 ft\n    width: 40 ft\n    bedding: [{material: "
                            "rice hulls, depth: 3 in}]\n    flocks: [{birds: %s, %s, placed: 2025-04-21, removed: "
                            "2026-02-09}]\n",
                            ls_bird_name(bird), birds);
        use without = walk(a, folder, bare);
        CU_ASSERT(without.figures > 0);
        all.memory += without.memory, all.told += without.told;
        if (without.told > 0) {
            const char *path = test_file(a, folder, "bare.yaml", bare);
            TEST_HOLDS(PROGRAM(a, "estimate", FEW, path, "--full").out, "unverified figures: ");
            TEST_HOLDS(PROGRAM(a, "estimate", FEW, path, "--format", "json").out, "unverified figures: ");
        }
        test_folder_end(folder);
        ls_arena_free(a);
    }
    CU_ASSERT(all.told > 0 && all.told < all.memory); /* the walk sees some of both */
}

/* Removal by a table from memory, a swath that is not given: said on the pages of rates and plan.
 */
static void test_pages(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *house = test_replace(a, test_file_text(a, DEMO_HOUSE), "    swath: 32 ft\n", "");
    const char *path = test_file(a, folder, "house.yaml", house);
    TEST_HOLDS(PROGRAM(a, "rates", FEW, DEMO, "--full").out, "what tall fescue hay removes (us-crops) is from memory");
    TEST_HOLDS(PROGRAM(a, "rates", FEW, DEMO, "--format", "json").out, "(us-crops) is from memory");
    const char *plan = PROGRAM(a, "plan", FEW, path, DEMO_FIELDS, "--full").out;
    TEST_HOLDS(plan, "32.5 ft is used, from memory");
    TEST_HOLDS(plan, "Unverified figures: ");
    TEST_HOLDS(plan, "in corn grain");
    TEST_HOLDS(PROGRAM(a, "plan", FEW, DEMO, "--format", "json").out, "Unverified figures: ");
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(from_memory) = {{"birds of all kinds", test_all_birds}, {"rates and plan", test_pages}, CU_TEST_INFO_NULL};
