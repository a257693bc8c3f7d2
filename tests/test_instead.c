/* What if: a part of a farm file laid over the files tells the same as files changed by hand. */
#include "program.h"

#include "littershed/command.h"

#include <jansson.h>
#include <stdlib.h>
#include <string.h>

/* A change, and the words that a hand puts in place of others in the demo's files. */
typedef struct {
    const char *change, *was, *now;
} edit;

static const edit edits[] = {
    {"third-truck", "count: 2\n", "count: 3\n"},
    {"four-tons", "bank: 3 years}\n", "bank: 3 years}\n        most: 4 ton/ac\n"},
    {"one-more-buyer", NULL, NULL}, /* put behind the last */
    {"no-bedding", "bedding:\n      - {material: rice hulls, depth: 3 in, zone: scratch, date: 2025-04-28}\n",
     "bedding: none\n"},
    {"south-measured", "lost: 7 %}\n", "lost: 7 %}\n    measured: {depth: {slats: 10 in, scratch: 10 in}}\n"},
};

static const char *by_hand(ls_arena *a, const char *folder, const char *file, const edit *e, const char *change) {
    const char *text = test_file_text(a, file), *name = strrchr(file, '/') + 1;
    if (e->was != NULL)
        text = test_replace(a, text, e->was, e->now);
    else if (strcmp(file, DEMO_FIELDS) == 0)
        text = ls_arena_printf(a, "%s%s", text, strstr(change, "  - name"));
    return test_file(a, folder, name, text);
}

static json_t *document(ls_arena *a, const char *const *arguments) {
    test_run run = test_program(a, arguments);
    TEST_TEXT(run.status == LS_DONE ? "" : run.err, "");
    json_t *tree = json_loads(run.out, 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(tree);
    return tree;
}

/* The document without the places of its figures: they are in other files. */
static const char *dumped(ls_arena *a, const json_t *tree) {
    char *text = json_dumps(tree, JSON_INDENT(1) | JSON_SORT_KEYS);
    ls_text *t = ls_text_new(a);
    const char *rest = text;
    for (const char *at; (at = strstr(rest, ".yaml:")) != NULL; rest = strchr(at, ')')) {
        while (at > rest && at[-1] != '(') at--;
        ls_text_add_n(t, rest, (size_t)(at - rest));
    }
    ls_text_add(t, rest);
    free(text);
    return t->s;
}

static void compare(ls_arena *a, const char *command, const char *change, const char *house, const char *fields) {
    json_t *both =
        document(a, (const char *const[]){command, DEMO, "--instead", change, "--format", "json", FEW, NULL});
    json_t *hand = document(a, (const char *const[]){command, house, fields, "--format", "json", FEW, NULL});
    TEST_TEXT(dumped(a, json_object_get(both, "instead")), dumped(a, hand));
    json_decref(both);
    json_decref(hand);
}

/* The first column is the document without a change. */
static void now_is_as_ever(void) {
    ls_arena *a = ls_arena_new();
    json_t *both = document(a, (const char *const[]){"plan", DEMO, "--instead", "tests/instead/one-more-buyer.yaml",
                                                     "--format", "json", FEW, NULL});
    json_t *alone = document(a, (const char *const[]){"plan", DEMO, "--format", "json", FEW, NULL});
    TEST_TEXT(dumped(a, json_object_get(both, "now")), dumped(a, alone));
    /* and what is shown of it is its own, not the other worksheet's */
    json_t *shown = json_object_get(both, "in_short"), *row;
    size_t i;
    json_array_foreach(shown, i, row) {
        if (strcmp(json_string_value(json_object_get(row, "what")), "Money") == 0)
            TEST_TEXT(json_string_value(json_object_get(row, "now")),
                      json_string_value(json_object_get(json_object_get(alone, "in_short"), "money")));
    }
    json_decref(both);
    json_decref(alone);
    ls_arena_free(a);
}

static void same_as_by_hand(void) {
    for (size_t i = 0; i < sizeof edits / sizeof *edits; i++) {
        ls_arena *a = ls_arena_new();
        const char *folder = test_folder(a);
        const char *change = ls_arena_printf(a, "tests/instead/%s.yaml", edits[i].change);
        const char *words = test_file_text(a, change);
        const char *house = by_hand(a, folder, DEMO_HOUSE, &edits[i], words);
        const char *fields = by_hand(a, folder, DEMO_FIELDS, &edits[i], words);
        CU_ASSERT(strcmp(test_file_text(a, house), test_file_text(a, DEMO_HOUSE)) != 0 ||
                  strcmp(test_file_text(a, fields), test_file_text(a, DEMO_FIELDS)) != 0);
        compare(a, "plan", change, house, fields);
        if (i % 2 == 1) {
            compare(a, "estimate", change, house, fields);
            compare(a, "rates", change, house, fields);
        }
        test_folder_end(folder);
        ls_arena_free(a);
    }
}

/* ---- what a change may say ---- */

static test_run laid(ls_arena *a, const char *change) {
    const char *folder = test_folder(a);
    const char *path = test_file(a, folder, "change.yaml", change);
    test_run run = PROGRAM(a, "estimate", DEMO, FEW, "--instead", path);
    TEST_SAME(test_folder_count(folder), 1);
    test_folder_end(folder);
    return run;
}

static void dropped(void) {
    ls_arena *a = ls_arena_new();
    test_run run = laid(a, "houses: [{name: South, remove: yes}]\n");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(test_joined(a, run.out), "house South in the files removed");
    run = laid(a, "houses: [{name: North, remove: [lab, measured]}]\nremove: stack\n");
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "house North, lab");
    TEST_HOLDS(run.out, "house North, measured");
    TEST_HOLDS(run.out, "\n  stack ");
    run = laid(a, "buyers:\n"
                  "  - {name: Larkspur Hay, remove: yes}\n"
                  "  - {name: Osgood Row Crops, remove: yes}\n"
                  "  - {name: Whitcomb Pasture, remove: yes}\n"); /* no list is left */
    TEST_SAME(run.status, LS_DONE);
    ls_arena_free(a);
}

/* Farm files are read twice, and neither a log nor the change is written over. */
static void files(void) {
    static const char change[] = "trucks: [{name: spreader truck, count: 3}]\n";
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *path = test_file(a, folder, "change.yaml", change);
    test_run run = PROGRAM(a, "plan", FEW, "-", DEMO_FIELDS, "--instead", path);
    TEST_SAME(run.status, LS_USAGE);
    TEST_HOLDS(run.err, "reads the farm files twice");
    run = PROGRAM(a, "plan", DEMO, "--instead", path, FEW, "-o", path);
    TEST_SAME(run.status, LS_USAGE);
    TEST_TEXT(test_file_text(a, path), change);
    TEST_SAME(test_folder_count(folder), 1);
    test_folder_end(folder);
    ls_arena_free(a);
}

static void mistakes(void) {
    static const struct {
        const char *change, *message;
    } bad[] = {
        {"houses: [{name: Sout, remove: yes}]\n", "nothing to remove: there is no house \"Sout\""},
        {"houses: [{name: South, remove: [labs]}]\n", "there is no \"labs\" in house South"},
        {"houses: [{length: 400 ft}]\n", "which house is to change is not named"},
        {"houses: [{name: South, lenght: 390 ft}]\n", "did you mean \"length\"?"},
        {"houses: [{name: South, length: 390 fet}]\n", "change.yaml:1:"},
        {"buyers: [{name: Osgod Row Crops, price: 30 $/ton}]\n", "hint: did you mean \"Osgood Row Crops\"?"},
        {"houses:\n  - {name: South, length: 300 ft}\n  - {name: South, length: 310 ft}\n",
         "this house is changed twice"},
        {"houses: [{name: South, remove: yes, length: 300 ft}]\n", "removed and changed at once"},
        {"farm: {earlier: [2025.yaml]}\n", "names a file; a change cannot"},
        {"remove: yes\n", "there is no \"yes\" in the farm files"},
        {"own_tables: mine.yaml\n", "names a file; a change cannot"},
        {"houses: [{name: South, remove: {lab: yes}}]\n", "remove names what it drops"},
        {"- South\n", "this is not a farm file"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        ls_arena *a = ls_arena_new();
        test_run run = laid(a, bad[i].change);
        TEST_SAME(run.status, LS_MISTAKE);
        TEST_TEXT(run.out, "");
        TEST_HOLDS(run.err, bad[i].message);
        ls_arena_free(a);
    }
}

/* The ending of the output's name is its format; --format rules over it. */
static void endings(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    const char *path = ls_arena_printf(a, "%s/plan.html", folder);
    TEST_SAME(PROGRAM(a, "plan", DEMO, FEW, "-o", path).status, LS_DONE);
    TEST_HOLDS(test_file_text(a, path), "<!DOCTYPE html>");
    TEST_SAME(PROGRAM(a, "plan", DEMO, FEW, "-o", path, "--format", "json").status, LS_DONE);
    TEST_HOLDS(test_file_text(a, path), "\"command\": \"plan\"");
    path = ls_arena_printf(a, "%s/tickets.CSV", folder);
    TEST_SAME(PROGRAM(a, "tickets", DEMO, FEW, "-o", path).status, LS_USAGE);
    TEST_SAME(test_folder_count(folder), 1);
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(instead) = {{"now is as ever", now_is_as_ever},
                       {"the same as by hand", same_as_by_hand},
                       {"what a change drops", dropped},
                       {"mistakes in a change", mistakes},
                       {"files of a what-if", files},
                       {"-o picks the format by its ending", endings},
                       CU_TEST_INFO_NULL};
