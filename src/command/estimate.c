#include "run.h"

static const ls_document *made(ls_run *r) {
    if (!ls_run_farm(r, r->operands, r->n) || !ls_run_log(r, LS_NO_DATE) || !ls_run_estimate(r)) return NULL;
    ls_next_list next = ls_run_next(r);
    return ls_report_estimate(ls_run_view(r), r->books.estimate, next);
}

const ls_command ls_command_estimate = {
    .name = "estimate",
    .operands = "FILE...",
    .summary = "how much litter, what is in it, how many loads",
    .help = "Tons, moisture and nutrients of the litter of each lot (a house, or one side of it), "
            "the loads that can be promised, the worth of it, and how all that is known.",
    .options = LS_OPTIONS_FIGURES | OPTION(DIGITS) | OPTION(PART) | OPTION(FULL) | OPTION(INSTEAD),
    .make = made,
};
