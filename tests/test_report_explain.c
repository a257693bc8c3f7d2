#include "program.h"

#include "littershed/books.h"
#include "littershed/command.h"
#include "littershed/report.h"

#include <stdlib.h>
#include <string.h>

/* The farm, as far as the last room. */
typedef struct {
    ls_view view;
    ls_agronomy *agronomy;
} worked_out;

static worked_out work_out(ls_arena *a) {
    static const char *const files[] = {DEMO};
    ls_books b = {.arena = a, .published = ls_reference_load(a), .seed = 1, .draws = LS_BLOCK};
    CU_ASSERT_TRUE_FATAL(ls_books_read(&b, files, 2) && ls_books_estimate(&b) && ls_books_agronomy(&b));
    return (worked_out){{.arena = a,
                         .sheet = b.sheet,
                         .reference = b.reference,
                         .farm = b.farm,
                         .full = true,
                         .seed = 1,
                         .draws = LS_BLOCK},
                        b.agronomy};
}

/* Each line's tree begins with the line, fits the page, and ends at leaves that say where they come
 * from. */
static void explain_line(const ls_view *v, ls_line line) {
    ls_view own = *v;
    own.arena = ls_arena_new();
    const char *page = ls_document_text(ls_report_explain(&own, line, LS_BLOCK));
    const ls_entry *entry = ls_line_at(v->sheet, line);
    TEST_HOLDS(page, ls_arena_printf(own.arena, "\n%s:", ls_text_fit(own.arena, entry->key, 70)));
    TEST_HOLDS(page, "from: ");
    if (strstr(page, "from: \n") != NULL || strstr(page, "from:\n") != NULL)
        TEST_TEXT(page, "a tree whose leaves say where they come from");
    test_fits(page);
    ls_arena_free(own.arena);
}

static void every_line_explained(void) {
    ls_arena *a = ls_arena_new();
    worked_out o = work_out(a);
    const ls_buyer *buyer = &o.view.farm->buyers.at[1];
    CU_ASSERT_PTR_NOT_NULL(ls_agronomy_field(o.agronomy, buyer, &buyer->fields.at[0]));
    size_t lines = ls_worksheet_lines(o.view.sheet), apart = test_count("LINES_APART", 12);
    CU_ASSERT_TRUE(lines > 300);
    for (size_t i = 1; i < lines; i += apart) /* each costs a drawing of its own */
        explain_line(&o.view, (ls_line)i);
    ls_arena_free(a);
}

/* Keys that the list shows can be explained: some of each room. */
static void listed_keys_explained(void) {
    ls_arena *a = ls_arena_new();
    test_run list = PROGRAM(a, "explain", DEMO, FEW);
    TEST_SAME(list.status, LS_DONE);
    size_t n = 0, plan = 0, apart = test_count("KEYS_APART", 160);
    for (const char *line = list.out; *line != '\0'; n++) {
        const char *key = ls_arena_copy_n(a, line, strcspn(line, " "));
        bool of_plan = strncmp(key, "plan.", 5) == 0;
        plan += of_plan;
        if (of_plan ? plan % (5 * apart / 2) == 1 : n % apart == 0) {
            test_run one = PROGRAM(a, "explain", DEMO, key, FEW);
            TEST_SAME(one.status, LS_DONE);
            TEST_HOLDS(one.out, ls_arena_printf(a, "\n%s:", key));
        }
        line += strcspn(line, "\n");
        line += *line == '\n';
    }
    CU_ASSERT_TRUE(plan > 0);
    ls_arena_free(a);
}

static bool is_listed(const char *list, ls_arena *a, const char *key) {
    const char *start = ls_arena_printf(a, "%s  ", key), *inside = ls_arena_printf(a, "\n%s", start);
    return strncmp(list, start, strlen(start)) == 0 || strstr(list, inside) != NULL;
}

/* A key is listed once, and what the pages show is among them. */
static void keys_are_listed_once(void) {
    ls_arena *a = ls_arena_new();
    test_run list = PROGRAM(a, "explain", DEMO, FEW);
    for (const char *line = list.out; *line != '\0';) {
        const char *key = ls_arena_copy_n(a, line, strcspn(line, " "));
        line += strcspn(line, "\n");
        if (is_listed(line, a, key)) TEST_TEXT(key, "a key that is listed once");
        line += *line == '\n';
    }
    static const char *const shown[] = {"north.left.tons", "north.left.firm", "larkspur_hay.upper_meadow.spreadable",
                                        "larkspur_hay.upper_meadow.north.rate", "osgood_row_crops.mill_forty.need.N"};
    for (size_t i = 0; i < sizeof shown / sizeof *shown; i++)
        TEST_TEXT(is_listed(list.out, a, shown[i]) ? shown[i] : "not listed", shown[i]);
    ls_arena_free(a);
}

/* --all tells every listed figure once, below what it is made of, down to where it comes from. */
static void whole_worksheet(void) {
    ls_arena *a = ls_arena_new();
    test_run keys = PROGRAM(a, "explain", DEMO, FEW);
    test_run all = PROGRAM(a, "explain", DEMO, "--all", FEW);
    TEST_SAME(all.status, LS_DONE);
    test_fits(all.out);
    const char *after = all.out;
    for (const char *line = keys.out; *line != '\0' && after != NULL;) {
        const char *key = ls_arena_copy_n(a, line, strcspn(line, " "));
        const char *head = ls_arena_printf(a, "\n%s:", key);
        after = line == keys.out ? all.out : strstr(after, head);
        TEST_TEXT(after == NULL ? "not there" : key, key);
        line += strcspn(line, "\n");
        line += *line == '\n';
    }
    TEST_HOLDS(all.out, "from: " DEMO_HOUSE ":");
    TEST_HOLDS(all.out, "\n  of: ");
    ls_arena_free(a);
}

static void depth(void) {
    ls_arena *a = ls_arena_new();
    test_run none = PROGRAM(a, "explain", FEW, DEMO, "north.left.tons", "--depth", "0");
    test_run one = PROGRAM(a, "explain", FEW, DEMO, "north.left.tons", "--depth", "1");
    test_run all = PROGRAM(a, "explain", FEW, DEMO, "north.left.tons");
    CU_ASSERT_PTR_NULL(strstr(none.out, "\n| "));
    TEST_HOLDS(one.out, "\n| ");
    CU_ASSERT_PTR_NULL(strstr(one.out, "\n| | "));
    TEST_HOLDS(all.out, "\n| | | ");
    TEST_HOLDS(all.out, "(above)");
    TEST_HOLDS(all.out, "from: " DEMO_HOUSE ":");
    TEST_HOLDS(all.out, "ncsu-66");
    ls_arena_free(a);
}

/* Metric figures are the US ones converted: 1 ton is 0.90718474 tonne, by definition of the pound.
 */
static void metric_units(void) {
    ls_arena *a = ls_arena_new();
    test_run us = PROGRAM(a, "explain", FEW, DEMO, "north.dry_tons", "--depth", "0");
    test_run metric = PROGRAM(a, "explain", FEW, DEMO, "north.dry_tons", "--depth", "0", "--units", "metric");
    double tons = atof(strstr(us.out, "house, ") + strlen("house, "));
    double tonnes = atof(strstr(metric.out, "house, ") + strlen("house, "));
    TEST_NEAR(tonnes, tons * 0.90718474, 1e-5);
    TEST_HOLDS(metric.out, " tonnes\n");
    ls_arena_free(a);
}

TEST_SUITE(report_explain) = {{"every line is explained", every_line_explained},
                              {"listed keys are explained", listed_keys_explained},
                              {"keys are listed once", keys_are_listed_once},
                              {"the whole worksheet", whole_worksheet},
                              {"depth", depth},
                              {"metric units", metric_units},
                              CU_TEST_INFO_NULL};
