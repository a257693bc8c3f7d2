#include "run.h"

#include <stdlib.h>

/* The diagnostics as text. */
static const char *diagnostics(ls_run *r) {
    char *s = NULL;
    size_t n = 0;
    FILE *to = open_memstream(&s, &n);
    if (to == NULL) ls_fail("out of memory");
    ls_diag_print(r->books.diag, to);
    if (fclose(to) != 0) ls_fail("out of memory");
    const char *copy = ls_arena_copy_n(r->arena, s, n);
    free(s);
    return copy;
}

/* A mistake ends here. What only a later command needs is a gap, and stands on the page with the warnings. */
static int check(ls_run *r) {
    if (!ls_run_farm(r, r->operands, r->n) || !ls_run_log(r, LS_NO_DATE)) return LS_MISTAKE;
    r->books.estimate =
        ls_litter_estimate(r->books.sheet, r->books.farm, r->books.reference, r->books.seed, r->books.draws);
    ls_next_list next = {0};
    if (r->books.estimate != NULL) next = ls_run_next(r);
    const char *text = ls_run_written(
        r, ls_report_check(ls_run_view(r), r->books.estimate, ls_books_gaps(&r->books, &next), diagnostics(r)));
    return text == NULL ? LS_USAGE : ls_run_write(r, text);
}

const ls_command ls_command_check = {
    .name = "check",
    .operands = "FILE...",
    .summary = "read the files, see mistakes and gaps",
    .help = "Reads the farm files and shows every mistake with its line. Without mistakes: what was "
            "read, and what is missing that other commands would ask for or replace by a usual figure.",
    .options = LS_OPTIONS_OUTPUT | OPTION(PART) | OPTION(FULL),
    .exec = check,
};
