/* Tables of a farm's own, from the farm file to the page: rows that stand in for built-in ones, new
 * rows and tables, what is told of them. The laboratory and its figures are invented. */
#include "program.h"

#include "littershed/command.h"

#include <string.h>

#define LAB "sources:\n  - {id: county-lab, who: County Laboratory, title: Samples of 2025}\n"
#define OF(kind, name) "  - kind: " kind "\n" name "    source: county-lab\n    status: read\n"

#define BROILERS                                                                                                       \
    "houses:\n  - name: A\n    length: 400 ft\n    width: 40 ft\n    flocks: [{birds: broiler, "                       \
    "count: 24000, placed: 2025-12-08, removed: 2026-01-26}]\n"

/* The farm text with its own tables beside it; its path. */
static const char *farm_with(ls_arena *a, const char *folder, const char *tables, const char *farm) {
    test_file(a, folder, "my-tables.yaml", tables);
    return test_file(a, folder, "farm.yaml", ls_arena_printf(a, "own_tables: my-tables.yaml\n%s", farm));
}

static const char *text_of(test_run run, int status) {
    TEST_SAME(run.status, status);
    return status == LS_DONE ? run.out : run.err;
}

/* A row that stands in changes the figure, its source and its place; what it does not give stays.
 * The path counts from the farm file's folder, not from where the program runs. */
static void test_override(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *path = farm_with(
        a, folder, LAB "tables:\n" OF("moisture", "") "    rows:\n      broiler: {moisture: 25 %}\n", BROILERS);
    const char *json = text_of(PROGRAM(a, "estimate", FEW, path, "--format", "json"), LS_DONE);
    TEST_HOLDS(text_of(PROGRAM(a, "explain", FEW, path, "a.moisture.table"), LS_DONE), "moisture, published, 25%");
    TEST_HOLDS(json, "rows of the farm's own tables in use: moisture/broiler (");
    TEST_HOLDS(json, "my-tables.yaml:8)");
    const char *all = text_of(PROGRAM(a, "explain", FEW, path, "--all"), LS_DONE);
    TEST_HOLDS(all, "county-lab, County Laboratory, Samples of 2025; from the");
    const char *shown = text_of(PROGRAM(a, "sources", path, "moisture"), LS_DONE);
    TEST_HOLDS(shown, "broiler (county-lab, read; the farm's own,");
    TEST_HOLDS(shown, "In place of the built-in row (tasistro, read)");
    TEST_HOLDS(test_joined(a, shown), "low 17% exact tasistro, read of the built-in row");
    TEST_HOLDS(text_of(PROGRAM(a, "sources", "moisture", path, "--format", "json"), LS_DONE), "\"in_place_of\": {\n");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Without a row in use the page is the same to the byte, and the built-in tables are untouched. */
static void test_nothing_else_changes(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *plain = test_file(a, folder, "plain.yaml", BROILERS);
    const char *own =
        farm_with(a, folder,
                  LAB "tables:\n" OF("removal", "    name: ours\n    title: Ours\n") "    rows:\n"
                                                                                     "      kale: {P2O5: 4 "
                                                                                     "lb/ton}\n",
                  BROILERS);
    TEST_TEXT(text_of(PROGRAM(a, "estimate", FEW, own, "--full"), LS_DONE),
              text_of(PROGRAM(a, "estimate", FEW, plain, "--full"), LS_DONE));
    TEST_HOLDS(text_of(PROGRAM(a, "sources", own), LS_DONE), "removal-ours/kale, ");
    TEST_SAME(PROGRAM(a, "sources", "removal-ours").status, LS_MISTAKE);
    test_folder_end(folder);
    ls_arena_free(a);
}

#define FIELD                                                                                                          \
    "buyers:\n  - {name: B, distance: 3 mi, price: 9 $/ton, fields: [{name: F, area: 9 ac, crop: "                     \
    "kale, yield: 5 ton/ac, nitrogen: 100 lb/ac, open: 2026-03-01..2026-04-30}]}\n"

/* A crop that only the farm's own table has: removal 5 ton/ac x 4 lb/ton = 20 lb/ac, by that table
 * named or not. */
static void test_new_crop(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    static const char tables[] =
        LAB "tables:\n" OF("removal", "    name: ours\n    title: Ours\n") "    rows:\n"
                                                                           "      kale: {P2O5: 4 "
                                                                           "lb/ton}\n";
    const char *path = farm_with(a, folder, tables, BROILERS FIELD);
    const char *named =
        test_file(a, folder, "named.yaml", "own_tables: [my-tables.yaml]\ntables: {removal: ours}\n" BROILERS FIELD);
    const char *const paths[] = {path, named};
    for (size_t i = 0; i < 2; i++) {
        const char *told = text_of(PROGRAM(a, "explain", FEW, paths[i], "b.f.removal.P2O5"), LS_DONE);
        TEST_HOLDS(told, "P2O5 the crop removes in a year, 20 lb/ac");
        TEST_HOLDS(text_of(PROGRAM(a, "rates", FEW, paths[i], "--full"), LS_DONE),
                   "rows of the farm's own tables in use: removal-ours/kale");
    }
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A figure behind a caution of the rates page is named as well: copper of the litter. */
static void test_metals(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    static const char tables[] = LAB "tables:\n" OF("metals", "") "    rows:\n      Cu: {content: 200 ppm}\n" OF(
        "removal", "    name: ours\n    title: Ours\n") "    rows:\n      kale: {P2O5: 4 "
                                                        "lb/ton}\n";
    const char *path = farm_with(a, folder, tables, BROILERS FIELD);
    TEST_HOLDS(text_of(PROGRAM(a, "rates", FEW, path, "--format", "json"), LS_DONE),
               "rows of the farm's own tables in use: metals/Cu (");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A bedding and a fertilizer of the farm's own; a composition row of its own goes before the
 * built-in default. */
static void test_new_rows(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *path = farm_with(
        a, folder,
        LAB "tables:\n" OF("bedding", "") "    rows:\n      hemp: {density: 6 lb/ft3, moisture: 12 "
                                          "%, N: 1 %, P: 0.1 %, K: 0.5 %, lost: 10 %}\n" OF(
                                              "fertilizer", "") "    rows:\n      calcium nitrate: {N: 310 "
                                                                "lb/ton}\n" OF("composition",
                                                                               "    name: broiler\n") "    "
                                                                                                      "rows:\n   "
                                                                                                      "   ours: "
                                                                                                      "{default: "
                                                                                                      "yes, N: "
                                                                                                      "50 "
                                                                                                      "lb/ton, "
                                                                                                      "P2O5: 40 "
                                                                                                      "lb/ton, "
                                                                                                      "K2O: 30 "
                                                                                                      "lb/ton, "
                                                                                                      "NH4N_"
                                                                                                      "share: "
                                                                                                      "20 %}\n",
        BROILERS "    bedding: [{material: hemp, depth: 3 in}]\nfertilizer: {calcium nitrate: 310 "
                 "$/ton}\n");
    const char *notes = text_of(PROGRAM(a, "estimate", FEW, path, "--full"), LS_DONE);
    TEST_HOLDS(notes, "composition-broiler/ours");
    TEST_HOLDS(notes, "bedding/hemp");
    TEST_HOLDS(text_of(PROGRAM(a, "explain", FEW, path, "whole-farm.price.N"), LS_DONE),
               "price of N, the cheapest given, $1 a lb");
    TEST_HOLDS(text_of(PROGRAM(a, "explain", FEW, path, "fertilizer-calcium_nitrate.N"), LS_DONE), "my-tables.yaml");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Words that do not suit the figures are the farm's mistake, not the program's failure. */
static void test_unsuited(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *path = farm_with(a, folder,
                                 LAB "tables:\n" OF("droppings", "    name: broiler\n") "    rows:\n    "
                                                                                        "  coufal: "
                                                                                        "{per: bird}\n",
                                 BROILERS);
    TEST_HOLDS(text_of(PROGRAM(a, "estimate", FEW, path, "--full"), LS_MISTAKE),
               "farm.yaml:1:13: error: with these tables the figures do not fit together: ");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A word that built-in rows may leave out, a row of one's own may too; bedding in a published
 * figure may be none. */
static void test_left_out(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *path =
        farm_with(a, folder,
                  LAB "tables:\n" OF("kept", "    name: broiler\n") "    rows:\n      ours: {default: yes, N: 61 "
                                                                    "%}\n" OF("droppings",
                                                                              "    name: broiler\n") "    rows:\n      "
                                                                                                     "ours: {default: "
                                                                                                     "yes, per: bird, "
                                                                                                     "state: dry, "
                                                                                                     "litter: 2 "
                                                                                                     "lb/bird, "
                                                                                                     "own_bedding: 0 "
                                                                                                     "lb/bird, "
                                                                                                     "own_days: 45 "
                                                                                                     "day}\n",
                  BROILERS);
    TEST_HOLDS(text_of(PROGRAM(a, "estimate", FEW, path, "--full"), LS_DONE), "droppings-broiler/ours");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Many rows, sources and tables; each is one message and takes no long time. */
static void test_limits(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    ls_text *rows = ls_text_new(a), *tables = ls_text_new(a), *sources = ls_text_new(a);
    ls_text_add(rows, LAB "tables:\n" OF("fertilizer", "") "    rows:\n");
    ls_text_add(tables, LAB "tables:\n");
    ls_text_add(sources, "sources:\n");
    for (int i = 0; i < 60000; i++) {
        ls_text_addf(rows, "      f%d: {N: 3 lb/ton}\n", i);
        ls_text_addf(tables,
                     "  - {kind: removal, name: t%d, title: t, source: county-lab, status: read, "
                     "rows: {x: {P2O5: 1 lb/ton}}}\n",
                     i);
        ls_text_addf(sources, "  - {id: s%d, who: w, title: t}\n", i);
    }
    const char *const texts[] = {rows->s, tables->s, sources->s};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        TEST_HOLDS(text_of(PROGRAM(a, "check", farm_with(a, folder, texts[i], BROILERS)), LS_MISTAKE),
                   "more than 2,000 sources, tables and rows in tables of your own");
    test_folder_end(folder);
    ls_arena_free(a);
}

static void test_sources_usage(void) {
    ls_arena *a = ls_arena_new();
    TEST_HOLDS(text_of(PROGRAM(a, "sources", DEMO_HOUSE), LS_DONE),
               "None: the farm files name no tables of their own (own_tables).");
    TEST_HOLDS(PROGRAM(a, "sources", DEMO_HOUSE, "remval-us-crops").err, "did you mean removal-us-crops?");
    TEST_SAME(PROGRAM(a, "sources", DEMO_HOUSE, "removal", "soil").status, LS_USAGE);
    TEST_SAME(PROGRAM(a, "sources", "none.yaml").status, LS_MISTAKE);
    ls_arena_free(a);
}

TEST_SUITE(own_tables) = {{"a row in place of a built-in one", test_override},
                          {"nothing else changes", test_nothing_else_changes},
                          {"a crop of the farm's own", test_new_crop},
                          {"a figure behind a caution", test_metals},
                          {"rows that come first", test_new_rows},
                          {"words that do not suit", test_unsuited},
                          {"words and bedding left out", test_left_out},
                          {"too many", test_limits},
                          {"sources with farm files", test_sources_usage},
                          CU_TEST_INFO_NULL};
