/* calibrate FILE...             all tables; FILE: the demo farm
 * calibrate coverage FARMS PART   the first of them, so many farms; PART 0 or 1 of 2, -1 both
 * calibrate sources | totals | widening FILE...   one of the others
 * Ends with 1 where a bound is missed. */
#include "bench/calibrate/calibrate.h"

#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { FARMS = 300 };

static void begin_coverage(long farms) {
    printf("Within the 10-90 %% range, of %ld farms drawn by chance, in %%: dry tons, tons, lb of "
           "P2O5\n"
           "where there is no report (74 to 88 each); firm loads that exist (86 or more). Beside it\n"
           "the mean high/low of dry tons, and the farms above the middle\n",
           farms);
    printf("  %-34s    dry     wet    P2O5    firm    width  above\n", "");
    fflush(stdout);
}

/* One half of the kinds in a copy of this process, the other here: a machine has two cores. */
static bool coverage(long farms) {
    begin_coverage(farms);
    pid_t child = fork();
    if (child < 0) ls_fail("no second process");
    int missed = calibrate_coverage(farms, child == 0), status = 0;
    if (child == 0) _exit(missed > 0);
    if (waitpid(child, &status, 0) != child) ls_fail("the second process is lost");
    return missed > 0 || status != 0;
}

int main(int argc, char **argv) {
    if (argc == 4 && strcmp(argv[1], "coverage") == 0) {
        begin_coverage(atol(argv[2]));
        return calibrate_coverage(atol(argv[2]), atoi(argv[3])) > 0;
    }
    if (argc == 2 && strcmp(argv[1], "sources") == 0) return calibrate_sources() > 0;
    if (argc == 2 && strcmp(argv[1], "totals") == 0) return calibrate_totals() > 0;
    if (argc > 2 && strcmp(argv[1], "widening") == 0)
        return calibrate_widening((const char *const *)(argv + 2), (size_t)argc - 2) > 0;
    if (argc < 2) return 2;
    bool missed = coverage(FARMS);
    missed |= calibrate_sources() > 0;
    missed |= calibrate_widening((const char *const *)(argv + 1), (size_t)argc - 1) > 0;
    missed |= calibrate_totals() > 0;
    printf("\n%s\n", missed ? "a bound is missed (!)" : "all bounds are kept");
    return missed;
}
