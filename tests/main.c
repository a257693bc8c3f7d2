/* Runs all test suites, or those named on the command line: several on all processors, each in a
 * process of its own, which a crash ends alone. Exit 0: all passed. */
#include "farm_keys.h"
#include "suite.h"

#include <CUnit/Basic.h>
#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

/* Every suite, one a line: X(subject) runs the suite_subject of tests/test_SUBJECT.c. Those that
 * take over two seconds stand first, the longest on top: no process is left with one at the end. */
#define SUITES(X)                                                                                                      \
    X(report_explain)                                                                                                  \
    X(report)                                                                                                          \
    X(command)                                                                                                         \
    X(dossier_audit)                                                                                                   \
    X(instead)                                                                                                         \
    X(random_farms)                                                                                                    \
    X(kinds)                                                                                                           \
    X(bound)                                                                                                           \
    X(bound_words)                                                                                                     \
    X(litter_hauled)                                                                                                   \
    X(payload)                                                                                                         \
    X(tickets_page)                                                                                                    \
    X(dossier_audit_loads)                                                                                             \
    X(dossier)                                                                                                         \
    X(dossier_books)                                                                                                   \
    X(split_rules)                                                                                                     \
    X(split_priced)                                                                                                    \
    X(story)                                                                                                           \
    X(document)                                                                                                        \
    X(names)                                                                                                           \
    X(dossier_litters)                                                                                                 \
    X(dossier_sheets)                                                                                                  \
    X(dossier_years)                                                                                                   \
    X(books)                                                                                                           \
    X(haul_gaps)                                                                                                       \
    X(record_more)                                                                                                     \
    X(record_slips)                                                                                                    \
    X(from_memory)                                                                                                     \
    X(random_logs)                                                                                                     \
    X(first_screen)                                                                                                    \
    X(litter_properties)                                                                                               \
    X(days_cases)                                                                                                      \
    X(flock_random)                                                                                                    \
    X(report_rates)                                                                                                    \
    X(report_json)                                                                                                     \
    X(base)                                                                                                            \
    X(base_diag)                                                                                                       \
    X(base_file)                                                                                                       \
    X(base_spread)                                                                                                     \
    X(base_random)                                                                                                     \
    X(base_unit)                                                                                                       \
    X(base_yaml)                                                                                                       \
    X(reference)                                                                                                       \
    X(cells)                                                                                                           \
    X(cautions)                                                                                                        \
    X(farm)                                                                                                            \
    X(farm_quantity)                                                                                                   \
    X(farm_bad)                                                                                                        \
    X(flock_world)                                                                                                     \
    X(flock)                                                                                                           \
    X(litter)                                                                                                          \
    X(litter_grid)                                                                                                     \
    X(litter_evidence)                                                                                                 \
    X(litter_lab)                                                                                                      \
    X(growers)                                                                                                         \
    X(litter_next)                                                                                                     \
    X(litter_conservation)                                                                                             \
    X(litter_readings)                                                                                                 \
    X(litter_next_demo)                                                                                                \
    X(record)                                                                                                          \
    X(promised)                                                                                                        \
    X(issue)                                                                                                           \
    X(gate)                                                                                                            \
    X(record_copy)                                                                                                     \
    X(record_mangled)                                                                                                  \
    X(worksheet_ops)                                                                                                   \
    X(worksheet_draw)                                                                                                  \
    X(worksheet)                                                                                                       \
    X(agronomy)                                                                                                        \
    X(agronomy_need)                                                                                                   \
    X(crops)                                                                                                           \
    X(crop_names)                                                                                                      \
    X(agronomy_credit)                                                                                                 \
    X(agronomy_ledger)                                                                                                 \
    X(agronomy_limits)                                                                                                 \
    X(agronomy_random)                                                                                                 \
    X(agronomy_rate)                                                                                                   \
    X(agronomy_dates)                                                                                                  \
    X(waits)                                                                                                           \
    X(split)                                                                                                           \
    X(sim)                                                                                                             \
    X(plan)                                                                                                            \
    X(own_tables)                                                                                                      \
    X(worth)                                                                                                           \
    X(days)                                                                                                            \
    X(days_hours)                                                                                                      \
    X(days_rules)                                                                                                      \
    X(tickets)                                                                                                         \
    X(tickets_words)                                                                                                   \
    X(plan_why)                                                                                                        \
    X(report_days)                                                                                                     \
    X(report_limits)                                                                                                   \
    X(dossier_pencil)                                                                                                  \
    X(dossier_judge)                                                                                                   \
    X(check)

#define DECLARE(subject) extern CU_TestInfo suite_##subject[];
SUITES(DECLARE)

#define LIST(subject) {#subject, suite_##subject},
static const struct {
    const char *name;
    CU_TestInfo *tests;
} suites[] = {SUITES(LIST)};

enum { SUITES_N = sizeof suites / sizeof *suites };

static size_t suite_of(const char *name) {
    size_t i = 0;
    while (i < SUITES_N && strcmp(suites[i].name, name) != 0) i++;
    return i;
}

/* CUnit calls a run with failures a success: the counts decide, and they go with the registry. */
static bool passes(size_t suite) {
    CU_SuiteInfo added[] = {{.pName = suites[suite].name, .pTests = suites[suite].tests}, CU_SUITE_INFO_NULL};
    bool ready = CU_initialize_registry() == CUE_SUCCESS && CU_register_suites(added) == CUE_SUCCESS;
    if (ready) {
        CU_basic_set_mode(CU_BRM_NORMAL);
        CU_basic_run_tests();
    }
    bool passed = ready && CU_get_number_of_failures() == 0 && CU_get_number_of_suites_failed() == 0 &&
                  CU_get_error() == CUE_SUCCESS;
    CU_cleanup_registry();
    return passed;
}

/* ---- several ---- */

typedef struct {
    pid_t process;
    size_t suite;
    FILE *said;
} running;

enum { MOST_RUNNING = 64 };
typedef struct {
    running at[MOST_RUNNING];
    size_t n;
} runs;

static bool begin(runs *r, size_t suite) {
    running *one = &r->at[r->n];
    *one = (running){.suite = suite, .said = tmpfile()};
    if (one->said == NULL) return false;
    fflush(stdout);
    one->process = fork();
    if (one->process == 0) {
        dup2(fileno(one->said), STDOUT_FILENO);
        dup2(fileno(one->said), STDERR_FILENO);
        exit(passes(suite) ? 0 : 1);
    }
    r->n += one->process > 0;
    return one->process > 0;
}

/* Processor seconds of the processes waited for so far. */
static double seconds(void) {
    struct rusage u = {0};
    getrusage(RUSAGE_CHILDREN, &u);
    return (double)(u.ru_utime.tv_sec + u.ru_stime.tv_sec) + 1e-6 * (double)(u.ru_utime.tv_usec + u.ru_stime.tv_usec);
}

/* What a suite wrote comes out in one piece when it is done; of one that passed, only how many
 * tests it was and the time they took. */
static bool tell(const running *one, int status, double took) {
    char line[4096];
    bool passed = WIFEXITED(status) && WEXITSTATUS(status) == 0;
    printf("%s  %s, %.1f s\n", passed ? "passed" : "FAILED", suites[one->suite].name, took);
    rewind(one->said);
    while (fgets(line, sizeof line, one->said) != NULL)
        if (!passed || strncmp(line + strspn(line, " "), "tests ", 6) == 0) fputs(line, stdout);
    if (WIFSIGNALED(status)) printf("ended by signal %d\n", WTERMSIG(status));
    fclose(one->said);
    return passed;
}

static bool wait_for_one(runs *r) {
    int status = 0;
    double before = seconds();
    pid_t ended = wait(&status);
    size_t i = 0;
    while (i < r->n && r->at[i].process != ended) i++;
    if (i == r->n) return false;
    bool passed = tell(&r->at[i], status, seconds() - before);
    r->at[i] = r->at[--r->n];
    return passed;
}

static bool all_pass(const size_t *numbers, size_t n) {
    long processors = sysconf(_SC_NPROCESSORS_ONLN);
    size_t most = processors < 1 ? 1 : processors > MOST_RUNNING ? MOST_RUNNING : (size_t)processors;
    runs r = {.n = 0};
    bool passed = true;
    for (size_t next = 0; next < n; next++) {
        passed = begin(&r, numbers[next]) && passed;
        while (r.n >= most || (r.n > 0 && next + 1 == n)) passed = wait_for_one(&r) && passed;
    }
    return passed;
}

int main(int argc, char **argv) {
    if (argc == 2 && strcmp(argv[1], "print-keys") == 0) {
        ls_arena *a = ls_arena_new();
        fputs(test_farm_keys(a), stdout);
        ls_arena_free(a);
        return 0;
    }
    gsl_set_error_handler_off();
    size_t numbers[SUITES_N], n = 0;
    for (size_t i = 0; argc == 1 && i < SUITES_N; i++) numbers[n++] = i;
    for (int i = 1; i < argc && n < SUITES_N; i++, n++) {
        numbers[n] = suite_of(argv[i]);
        if (numbers[n] == SUITES_N) {
            fprintf(stderr, "run-tests: no suite \"%s\"\n", argv[i]);
            return 2;
        }
    }
    return (n == 1 ? passes(numbers[0]) : all_pass(numbers, n)) ? 0 : 1;
}
