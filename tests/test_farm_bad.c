/* Wrong farm files: tests/bad/NAME.yaml prints exactly tests/bad/NAME.expected. And files too large
 * to keep. */
#include "suite.h"

#include "littershed/farm.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef LS_LIST(const char *) name_list;

static bool ends_with(const char *s, const char *tail) {
    size_t n = strlen(s), m = strlen(tail);
    return n >= m && strcmp(s + n - m, tail) == 0;
}

static int by_name(const void *a, const void *b) { return strcmp(*(const char *const *)a, *(const char *const *)b); }

static name_list bad_files(ls_arena *a) {
    name_list names = {0};
    DIR *d = opendir("tests/bad");
    for (struct dirent *entry; d && (entry = readdir(d)) != NULL;)
        if (ends_with(entry->d_name, ".yaml"))
            *LS_PUSH(a, &names) = ls_arena_copy_n(a, entry->d_name, strlen(entry->d_name) - strlen(".yaml"));
    if (d) closedir(d);
    if (names.n > 1) qsort(names.at, names.n, sizeof *names.at, by_name);
    return names;
}

/* The whole of a file; NULL if there is none. */
static const char *contents(ls_arena *a, const char *path) {
    ls_diag *d = ls_diag_new(a);
    int32_t file = ls_file_read(a, d, path);
    return file < 0 ? NULL : ls_diag_input_at(d, file)->text;
}

/* What reading a farm file prints; *errors is how many errors there are. */
static const char *messages_of(ls_arena *a, const char *path, size_t *errors) {
    ls_diag *d = ls_diag_new(a);
    const ls_farm *farm = ls_farm_read(a, d, ls_reference_load(a), &path, 1);
    *errors = ls_diag_count(d, LS_ERROR);
    CU_ASSERT_EQUAL(farm == NULL, *errors > 0);
    return test_messages(a, d);
}

static void test_bad_files(void) {
    enum { AT_LEAST = 150 };
    ls_arena *all = ls_arena_new();
    name_list names = bad_files(all);
    CU_ASSERT(names.n >= AT_LEAST);
    for (size_t i = 0; i < names.n; i++) {
        ls_arena *a = ls_arena_new();
        size_t errors;
        const char *path = ls_arena_printf(a, "tests/bad/%s.yaml", names.at[i]);
        const char *expected = contents(a, ls_arena_printf(a, "tests/bad/%s.expected", names.at[i]));
        CU_ASSERT_PTR_NOT_NULL(expected);
        TEST_TEXT(messages_of(a, path, &errors), expected);
        /* Every one has an error or, where that says so, a warning. */
        CU_ASSERT(errors > 0 || (expected && strstr(expected, ": warning: ")));
        ls_arena_free(a);
    }
    ls_arena_free(all);
}

/* Every .expected belongs to a .yaml. */
static void test_no_strays(void) {
    DIR *d = opendir("tests/bad");
    CU_ASSERT_PTR_NOT_NULL(d);
    for (struct dirent *entry; d && (entry = readdir(d)) != NULL;) {
        ls_arena *a = ls_arena_new();
        const char *name = entry->d_name;
        if (ends_with(name, ".expected")) {
            int stem = (int)(strlen(name) - strlen(".expected"));
            CU_ASSERT_PTR_NOT_NULL(contents(a, ls_arena_printf(a, "tests/bad/%.*s.yaml", stem, name)));
        }
        ls_arena_free(a);
    }
    if (d) closedir(d);
}

/* A farm file of a text, made n times over between a beginning and an end; what it prints. */
typedef struct {
    const char *beginning, *middle, *end;
    size_t n;
} pattern;

static const char *made_file(ls_arena *a, const char *folder, pattern p) {
    const char *path = ls_arena_printf(a, "%s/made.yaml", folder);
    FILE *f = fopen(path, "wb");
    CU_ASSERT_PTR_NOT_NULL(f);
    if (!f) return path;
    fputs(p.beginning, f);
    for (size_t i = 0; i < p.n; i++) fputs(p.middle, f);
    fputs(p.end, f);
    CU_ASSERT_EQUAL(fclose(f), 0);
    return path;
}

static void test_large_files(void) {
    enum { MEGABYTE = 1024 * 1024 };
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    size_t errors;
    TEST_HOLDS(messages_of(a, made_file(a, folder, (pattern){"houses: ", "[", "\n", 10 * MEGABYTE}), &errors),
               "more than 32 levels");
    TEST_SAME(errors, 1);
    TEST_HOLDS(messages_of(a, made_file(a, folder, (pattern){"houses: ", "{a: ", "\n", MEGABYTE}), &errors),
               "more than 32 levels");
    TEST_HOLDS(messages_of(a, made_file(a, folder, (pattern){"", "# a comment line\n", "", MEGABYTE}), &errors),
               "16 MiB");
    TEST_SAME(errors, 1);
    TEST_HOLDS(messages_of(a, made_file(a, folder, (pattern){"houses:\n", "  - nonsense\n", "", 100000}), &errors),
               "houses needs keys of its own");
    TEST_SAME(errors, 100000);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* Many flocks, sides and fields: reading takes no longer than it must, and pairs of lots and fields
 * have a limit. */
static void test_many(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    size_t errors;
    static const char house[] = "houses:\n  - name: A\n    length: 400 ft\n    width: 40 ft\n";
    pattern flocks = {ls_arena_printf(a, "%s    flocks:\n", house),
                      "      - {birds: broiler, count: 9, placed: 2025-12-08, removed: 2026-01-26}\n", "", 20000};
    TEST_HOLDS(messages_of(a, made_file(a, folder, flocks), &errors), "while another is still in the house");
    TEST_SAME(errors, 19999);
    pattern sides = {ls_arena_printf(a, "%s    sides:\n", house), "      - left\n",
                     "    flocks: [{birds: broiler, count: 9, placed: 2025-12-08, removed: 2026-01-26}]\n", 20000};
    TEST_HOLDS(messages_of(a, made_file(a, folder, sides), &errors), "a second side \"left\"");
    TEST_SAME(errors, 19999);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* 1,001 lots times 200 fields. */
static void test_pairs(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    size_t errors;
    ls_text *t = ls_text_new(a);
    ls_text_add(t, "houses:\n  - name: A\n    length: 400 ft\n    width: 40 ft\n    sides:\n");
    for (int i = 0; i < 1001; i++) ls_text_addf(t, "      - side %d\n", i);
    ls_text_add(t, "    flocks: [{birds: broiler, count: 9, placed: 2025-12-08, removed: 2026-01-26}]\n"
                   "buyers:\n  - name: B\n    distance: 1 mi\n    price: 1 $/ton\n    fields:\n");
    for (int i = 0; i < 200; i++)
        ls_text_addf(t,
                     "      - {name: f%d, area: 9 ac, crop: corn grain, yield: 99 bu/ac, open: "
                     "2026-03-01..2026-04-01}\n",
                     i);
    TEST_HOLDS(messages_of(a, made_file(a, folder, (pattern){t->s, "", "", 0}), &errors),
               "too large: 1,001 lots (sides or houses) times 200 fields, and the program takes at "
               "most 200,000 pairs");
    TEST_SAME(errors, 1);
    test_folder_end(folder);
    ls_arena_free(a);
}

static void test_many_errors(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    size_t errors, shown = 0;
    const char *path = made_file(a, folder, (pattern){"houses:\n", "  - {name: A, length: 4, width: 4}\n", "", 75});
    const char *messages = messages_of(a, path, &errors);
    for (const char *s = strstr(messages, ": error: "); s; s = strstr(s + 1, ": error: ")) shown++;
    CU_ASSERT(errors >= 150);
    TEST_SAME(shown, 2); /* the length and the width, each with the other lines */
    TEST_HOLDS(messages, "    the same: line 3, line 4, ");
    TEST_HOLDS(messages, ls_arena_printf(a, "%zu", errors - LS_MOST_ERRORS));
    test_folder_end(folder);
    ls_arena_free(a);
}

static void test_unreadable(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *path = ls_arena_printf(a, "%s/none.yaml", folder);
    size_t errors;
    TEST_HOLDS(messages_of(a, path, &errors), "none.yaml: error: ");
    TEST_SAME(errors, 1);
    TEST_HOLDS(messages_of(a, folder, &errors), ": error: ");
    TEST_SAME(errors, 1);
    const char *made = made_file(a, folder, (pattern){"houses:\n", "", "", 0});
    if (geteuid() != 0) {
        chmod(made, 0);
        TEST_HOLDS(messages_of(a, made, &errors), ": error: ");
    } else {
        TEST_HOLDS(messages_of(a, ls_arena_printf(a, "%s/below", made), &errors), "below: error: ");
    }
    TEST_SAME(errors, 1);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* One file is fine and one is not there: that is the one mistake. */
static void test_one_of_two(void) {
    static const char *const paths[] = {"fixtures/demo-fields.yaml", "fixtures/none.yaml"};
    ls_arena *a = ls_arena_new();
    ls_diag *d = ls_diag_new(a);
    CU_ASSERT_PTR_NULL(ls_farm_read(a, d, ls_reference_load(a), paths, 2));
    TEST_SAME(ls_diag_count(d, LS_ERROR), 1);
    TEST_HOLDS(test_messages(a, d), "fixtures/none.yaml: error: ");
    ls_arena_free(a);
}

TEST_SUITE(farm_bad) = {{"each prints what it should", test_bad_files},
                        {"no message without its file", test_no_strays},
                        {"large files", test_large_files},
                        {"many flocks and sides", test_many},
                        {"too many lots and fields", test_pairs},
                        {"more than a hundred errors", test_many_errors},
                        {"files that cannot be read", test_unreadable},
                        {"one file of two", test_one_of_two},
                        CU_TEST_INFO_NULL};
