/* Runs all test suites, or those named on the command line. Exit 0: all passed. */
#include "farm_keys.h"
#include "suite.h"

#include <CUnit/Basic.h>
#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <string.h>

/* Every suite, one a line: X(subject) runs the suite_subject of tests/test_SUBJECT.c. */
#define SUITES(X)                                                                                  \
    X(base)                                                                                        \
    X(base_diag)                                                                                   \
    X(base_file)                                                                                   \
    X(base_spread)                                                                                 \
    X(base_random)                                                                                 \
    X(base_unit)                                                                                   \
    X(base_yaml)                                                                                   \
    X(reference)                                                                                   \
    X(cells)                                                                                       \
    X(cautions)                                                                                    \
    X(farm)                                                                                        \
    X(farm_quantity)                                                                               \
    X(farm_bad)                                                                                    \
    X(flock_world)                                                                                 \
    X(flock_random)                                                                                \
    X(flock)                                                                                       \
    X(litter)                                                                                      \
    X(litter_grid)                                                                                 \
    X(litter_evidence)                                                                             \
    X(litter_lab)                                                                                  \
    X(litter_hauled)                                                                               \
    X(litter_next)                                                                                 \
    X(litter_properties)                                                                           \
    X(litter_conservation)                                                                         \
    X(litter_readings)                                                                             \
    X(litter_next_demo)                                                                            \
    X(random_farms)                                                                                \
    X(record)                                                                                      \
    X(gate)                                                                                        \
    X(record_copy)                                                                                 \
    X(record_mangled)                                                                              \
    X(record_more)                                                                                 \
    X(record_slips)                                                                                \
    X(worksheet_ops)                                                                               \
    X(worksheet_draw)                                                                              \
    X(worksheet)                                                                                   \
    X(agronomy)                                                                                    \
    X(agronomy_need)                                                                               \
    X(agronomy_credit)                                                                             \
    X(agronomy_ledger)                                                                             \
    X(agronomy_limits)                                                                             \
    X(agronomy_random)                                                                             \
    X(agronomy_rate)                                                                               \
    X(agronomy_dates)                                                                              \
    X(waits)                                                                                       \
    X(names)                                                                                       \
    X(split)                                                                                       \
    X(split_rules)                                                                                 \
    X(sim)                                                                                         \
    X(plan)                                                                                        \
    X(instead)                                                                                     \
    X(own_tables)                                                                                  \
    X(worth)                                                                                       \
    X(from_memory)                                                                                 \
    X(days)                                                                                        \
    X(days_rules)                                                                                  \
    X(days_cases)                                                                                  \
    X(tickets)                                                                                     \
    X(tickets_words)                                                                               \
    X(tickets_page)                                                                                \
    X(plan_why)                                                                                    \
    X(document)                                                                                    \
    X(report)                                                                                      \
    X(report_days)                                                                                 \
    X(first_screen)                                                                                \
    X(report_rates)                                                                                \
    X(report_json)                                                                                 \
    X(report_limits)                                                                               \
    X(report_explain)                                                                              \
    X(random_logs)                                                                                 \
    X(haul_gaps)                                                                                   \
    X(story)                                                                                       \
    X(books)                                                                                       \
    X(dossier)                                                                                     \
    X(dossier_audit)                                                                               \
    X(dossier_audit_loads)                                                                         \
    X(dossier_books)                                                                               \
    X(dossier_pencil)                                                                              \
    X(dossier_years)                                                                               \
    X(check)                                                                                       \
    X(command)

#define DECLARE(subject) extern CU_TestInfo suite_##subject[];
SUITES(DECLARE)

#define LIST(subject) {#subject, suite_##subject},
static const struct {
    const char *name;
    CU_TestInfo *tests;
} suites[] = {SUITES(LIST)};

/* Named, or one of a half: every second suite, so that two runs share the work. */
static bool is_wanted(size_t suite, int argc, char **argv) {
    static const char *const halves[] = {"half-1", "half-2"};
    for (int i = 1; i < argc; i++)
        if (strcmp(argv[i], suites[suite].name) == 0 || strcmp(argv[i], halves[suite % 2]) == 0)
            return true;
    return argc == 1;
}

/* The number of suites added; -1 if CUnit failed. */
static int add_suites(int argc, char **argv) {
    int n = 0;
    for (size_t i = 0; i < sizeof suites / sizeof *suites; i++) {
        if (!is_wanted(i, argc, argv))
            continue;
        CU_SuiteInfo added[] = {{.pName = suites[i].name, .pTests = suites[i].tests},
                                CU_SUITE_INFO_NULL};
        if (CU_register_suites(added) != CUE_SUCCESS)
            return -1;
        n++;
    }
    return n;
}

int main(int argc, char **argv) {
    if (argc == 2 && strcmp(argv[1], "print-keys") == 0) {
        ls_arena *a = ls_arena_new();
        fputs(test_farm_keys(a), stdout);
        ls_arena_free(a);
        return 0;
    }
    gsl_set_error_handler_off();
    if (CU_initialize_registry() != CUE_SUCCESS)
        return 3;
    int n = add_suites(argc, argv);
    if (n < 1 || (argc > 1 && n < argc - 1)) {
        fputs(n < 0 ? "run-tests: CUnit failed\n" : "run-tests: no such suite\n", stderr);
        CU_cleanup_registry();
        return 2;
    }
    CU_basic_set_mode(CU_BRM_NORMAL);
    CU_basic_run_tests();
    /* CUnit calls a run with failures a success: the counts decide, and they go with the registry.
     */
    bool failed = CU_get_number_of_failures() > 0 || CU_get_number_of_suites_failed() > 0 ||
                  CU_get_error() != CUE_SUCCESS;
    CU_cleanup_registry();
    return failed ? 1 : 0;
}
