#include "program.h"

#include "littershed/command.h"
#include "littershed/reference.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* All pages of these files, in both systems of units. */
static void pages_fit(ls_arena *a, const char *house, const char *fields) {
    static const char *const commands[] = {"estimate", "rates", "plan"};
    static const char *const units[] = {"us", "metric"};
    for (size_t i = 0; i < 3; i++)
        for (size_t u = 0; u < 2; u++) {
            test_run run = PROGRAM(a, commands[i], FEW, house, fields, "--units", units[u]);
            TEST_SAME(run.status, LS_DONE);
            TEST_TEXT(run.err, "");
            TEST_HOLDS(run.out, "Planning figures: ");
            test_fits(run.out);
        }
    test_run checked = PROGRAM(a, "check", house, fields);
    TEST_SAME(checked.status, LS_DONE);
    test_fits(checked.out);
}

static void demo_pages_fit(void) {
    ls_arena *a = ls_arena_new();
    pages_fit(a, DEMO_HOUSE, DEMO_FIELDS);
    test_fits(PROGRAM(a, "sources").out);
    ls_arena *tables = ls_arena_new();
    const ls_reference *r = ls_reference_load(tables);
    for (size_t i = 0; ls_reference_at(r, i) != NULL; i++) {
        test_run one = PROGRAM(a, "sources", ls_reference_at(r, i)->id);
        TEST_SAME(one.status, LS_DONE);
        test_fits(one.out);
        TEST_SAME(PROGRAM(a, "sources", ls_reference_at(r, i)->id, "--format", "json").status, LS_DONE);
    }
    ls_arena_free(tables);
    test_fits(PROGRAM(a, "--help").out);
    test_fits(PROGRAM(a, "--version").out);
    test_fits(PROGRAM(a, "explain", "--help").out);
    ls_arena_free(a);
}

/* A name as a YAML text: 300 letters without a blank, or a mean one. */
static const char *long_name(ls_arena *a, char c) {
    ls_text *t = ls_text_new(a);
    for (int i = 0; i < 300; i++) ls_text_addf(t, "%c", c);
    return t->s;
}

static const char *const mean = "\"\\e[31m\\u202E\\x07 \xF0\x9F\x90\x94 \xC3\xBC <b>=1+1\"";

/* The demo with such names for one house, its sides' litter, a buyer and a field. */
static void pages_with(ls_arena *a, const char *house_name, const char *buyer, const char *field) {
    const char *folder = test_folder(a);
    const char *houses = test_file_text(a, DEMO_HOUSE), *fields = test_file_text(a, DEMO_FIELDS);
    houses = test_replace(a, houses, "name: North", ls_arena_printf(a, "name: %s", house_name));
    houses = test_replace(a, houses, "by: State Soil and Manure Laboratory", ls_arena_printf(a, "by: %s", house_name));
    houses = test_replace(a, houses, "name: Cedar Fork Flocks", ls_arena_printf(a, "name: %s", house_name));
    fields = test_replace(a, fields, "name: Larkspur Hay", ls_arena_printf(a, "name: %s", buyer));
    fields = test_replace(a, fields, "name: Upper Meadow", ls_arena_printf(a, "name: %s", field));
    fields = test_replace(a, fields, "from: stream", ls_arena_printf(a, "from: %s", field));
    pages_fit(a, test_file(a, folder, "h.yaml", houses), test_file(a, folder, "f.yaml", fields));
    test_folder_end(folder);
}

static void mean_names_fit(void) {
    ls_arena *a = ls_arena_new();
    pages_with(a, long_name(a, 'h'), long_name(a, 'b'), long_name(a, 'f'));
    pages_with(a, mean, mean, mean);
    ls_arena_free(a);
}

/* Invisible characters of names come out as such in no page and no document. */
static void nothing_invisible(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *houses =
        test_replace(a, test_file_text(a, DEMO_HOUSE), "name: North", ls_arena_printf(a, "name: %s", mean));
    const char *path = test_file(a, folder, "h.yaml", houses);
    test_run page = PROGRAM(a, "estimate", FEW, path), json = PROGRAM(a, "estimate", FEW, path, "--format", "json");
    TEST_SAME(page.status, LS_DONE);
    TEST_SAME(json.status, LS_DONE);
    CU_ASSERT_PTR_NULL(strstr(page.out, "\u202E"));
    CU_ASSERT_PTR_NULL(strstr(json.out, "\u202E"));
    CU_ASSERT_PTR_NULL(strchr(json.out, '\x1b'));
    TEST_HOLDS(json.out, "\\u202E");
    TEST_HOLDS(page.out, "\\u{202E}");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* ---- words that a grower must find ---- */

static void what_pages_say(void) {
    ls_arena *a = ls_arena_new();
    test_run alone = PROGRAM(a, "estimate", FEW, DEMO_HOUSE, "--full");
    TEST_SAME(alone.status, LS_DONE);
    TEST_HOLDS(alone.out, "depth survey");
    TEST_HOLDS(alone.out, "Found here: ");
    TEST_HOLDS(alone.out, "Published averages: ");
    test_run rates = PROGRAM(a, "rates", FEW, DEMO, "--full");
    TEST_HOLDS(rates.out, "Litter of North/left, North/right, by the report of State Soil");
    TEST_HOLDS(rates.out, "(lowest: sets the rate)");
    TEST_HOLDS(rates.out, "very high");
    test_run plan = PROGRAM(a, "plan", FEW, DEMO, "--full");
    /* those that do not concern this farm's work: no alum, no disease order, no pit */
    static const char *const others[] = {"alum", "avian_influenza", "gas_in_pit"};
    const ls_table *cautions = ls_reference_by_id(ls_reference_load(a), "caution");
    for (size_t i = 0, k = 0; i < cautions->n; i++) {
        for (k = 0; k < 3 && strcmp(cautions->rows[i].name, others[k]) != 0; k++) continue;
        if (k == 3)
            TEST_HOLDS(plan.out, /* as far as it surely stands on one line */
                       ls_arena_copy_n(a, ls_row_word(&cautions->rows[i], "text"), 30));
    }
    ls_arena_free(a);
}

/* Without a truck the pages say what is missing. */
static void without_a_truck(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *path = test_without_trucks(a, folder);
    test_run page = PROGRAM(a, "estimate", FEW, path);
    TEST_SAME(page.status, LS_DONE);
    TEST_HOLDS(page.out, "names no truck");
    TEST_HOLDS(PROGRAM(a, "check", path).out, "no trucks");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A farm of one lot has one table of it, not the same again as the total of all houses. */
static void one_lot_is_told_once(void) {
    static const char farm[] =
        "houses:\n  - name: A\n    length: 500 ft\n    width: 40 ft\n    flocks: [{birds: broiler, "
        "count: 22000, placed: 2025-04-21, removed: 2025-06-09, lost: 5 %}]\n";
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *why;
    const char *path = ls_arena_printf(a, "%s/farm.yaml", folder);
    CU_ASSERT_TRUE(ls_file_write(a, path, farm, strlen(farm), &why));
    test_run page = PROGRAM(a, "estimate", FEW, path, "--full");
    TEST_SAME(page.status, LS_DONE);
    const char *first = strstr(page.out, "Litter as hauled");
    CU_ASSERT_PTR_NOT_NULL_FATAL(first);
    CU_ASSERT_PTR_NULL(strstr(first + 1, "Litter as hauled"));
    TEST_HOLDS(PROGRAM(a, "estimate", FEW, DEMO_HOUSE, "--full").out, "ALL HOUSES TOGETHER");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A farm under a disease control order: every page and document says so before any figure (tickets
 * and slips are refused: tests/test_tickets_words.c); of other farms none speaks of it. */
static void quarantine_is_told(void) {
    static const struct {
        const char *command, *format, *told, *figures; /* figures: what follows behind it */
    } pages[] = {{"check", "text", "\nQUARANTINE: NOTHING MAY LEAVE THE FARM\n", "\nFILL THESE GAPS"},
                 {"estimate", "text", "\nQUARANTINE: NOTHING MAY LEAVE THE FARM\n", " tons likely ("},
                 {"rates", "text", "\nQUARANTINE: NOTHING MAY LEAVE THE FARM\n", " fields take litter"},
                 {"plan", "text", "\nQUARANTINE: NOTHING MAY LEAVE THE FARM\n", "NO FIELD"},
                 {"dossier", "text", "\nQUARANTINE: NOTHING MAY LEAVE THE FARM\n", "\nVerdict\n"},
                 {"dossier", "html", ">QUARANTINE: NOTHING MAY LEAVE THE FARM<", ">Verdict</caption>"},
                 {"estimate", "json", "\"heading\": \"QUARANTINE: NOTHING MAY", "\"lots\""},
                 {"rates", "json", "\"heading\": \"QUARANTINE: NOTHING MAY", "\"fields\""},
                 {"plan", "json", "\"heading\": \"QUARANTINE: NOTHING MAY", "\"loads\""},
                 {"dossier", "json", "\"heading\": \"QUARANTINE: NOTHING MAY", "\"findings\""}};
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *farm = test_replace(a, test_file_text(a, DEMO_HOUSE), "\nfarm:\n", "\nfarm:\n  quarantine: yes\n");
    const char *path = test_file(a, folder, "farm.yaml", farm);
    for (size_t i = 0; i < sizeof pages / sizeof *pages; i++) {
        bool draws = strcmp(pages[i].command, "check") != 0; /* it takes no --draws */
        test_run page = PROGRAM(a, pages[i].command, path, DEMO_FIELDS, "--format", pages[i].format,
                                draws ? "--draws" : NULL, "10000");
        TEST_SAME(page.status, LS_DONE);
        const char *told = strstr(page.out, pages[i].told);
        TEST_HOLDS(page.out, pages[i].told);
        TEST_HOLDS(told == NULL ? "" : told, "moves without a permit");
        TEST_HOLDS(told == NULL ? "" : told, "lifted or a permit allows it");
        TEST_HOLDS(told == NULL ? "" : told, pages[i].figures);
        test_run other =
            PROGRAM(a, pages[i].command, DEMO, "--format", pages[i].format, draws ? "--draws" : NULL, "10000");
        CU_ASSERT_PTR_NULL(strstr(other.out, "QUARANTINE"));
    }
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(report) = {{"pages fit 80 columns", demo_pages_fit},
                      {"pages fit with mean names", mean_names_fit},
                      {"nothing invisible comes out", nothing_invisible},
                      {"what pages say", what_pages_say},
                      {"without a truck", without_a_truck},
                      {"one lot is told once", one_lot_is_told_once},
                      {"quarantine is told", quarantine_is_told},
                      CU_TEST_INFO_NULL};
