#include "run.h"

static int rates(ls_run *r) {
    if (!ls_run_farm(r, r->operands, r->n) || !ls_run_log(r, LS_NO_DATE) || !ls_run_estimate(r) ||
        !ls_run_agronomy(r))
        return LS_MISTAKE;
    const char *text = ls_run_json(r) ? ls_report_rates_json(&r->view, r->estimate, r->agronomy)
                                      : ls_report_rates_text(&r->view, r->estimate, r->agronomy);
    return text != NULL ? ls_run_finish(r, text) : ls_run_mistake(r);
}

const ls_command ls_command_rates = {
    .name = "rates",
    .operands = "FILE...",
    .summary = "what each field may take, and why",
    .help = "For each field and the litter of each lot: need and credits, each limit in tons an "
            "acre, the one that rules, "
            "and what goes on, is short and is over at that rate, and what fertilizer would finish "
            "the need.",
    .options = LS_OPTION_BIT(LS_OPTION_FORMAT) | LS_OPTION_BIT(LS_OPTION_OUTPUT) |
               LS_OPTION_BIT(LS_OPTION_UNITS) | LS_OPTION_BIT(LS_OPTION_SEED) |
               LS_OPTION_BIT(LS_OPTION_DRAWS),
    .formats = ls_command_pages,
    .least = 1,
    .most = LS_ANY_NUMBER,
    .exec = rates,
};
