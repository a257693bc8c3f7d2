#include "run.h"

static const ls_document *made(ls_run *r) {
    if (!ls_run_farm(r, r->operands, r->n) || !ls_run_log(r, LS_NO_DATE) || !ls_run_estimate(r) || !ls_run_agronomy(r))
        return NULL;
    const ls_plan_sums *s = ls_run_plan(r);
    if (s == NULL) return NULL;
    return ls_report_plan(ls_run_view(r), s);
}

const ls_command ls_command_plan = {
    .name = "plan",
    .operands = "FILE...",
    .summary = "which load goes to which field, on which day",
    .help = "Whole truck loads to fields that are open and may take them, the stack, what has no "
            "field, the money, and the days of work until the houses are empty.",
    .options = LS_OPTIONS_FIGURES | OPTION(FROM) | OPTION(AIM) | OPTION(PART) | OPTION(FULL) | OPTION(INSTEAD),
    .make = made,
};
