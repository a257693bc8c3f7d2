#include "run.h"

static bool show(void *to, const ls_field_rates *field) {
    if (field != NULL) ls_report_rates_field(to, field);
    return true;
}

static const ls_document *made(ls_run *r) {
    if (!ls_run_farm(r, r->operands, r->n) || !ls_run_log(r, LS_NO_DATE) || !ls_run_estimate(r) || !ls_run_agronomy(r))
        return NULL;
    ls_rates_page *page =
        ls_report_rates_begin(ls_run_view(r), r->books.agronomy, GIVEN(r, INSTEAD) ? LS_CSV : ls_run_form(r));
    if (!ls_books_each_field(&r->books, show, page)) return ls_run_mistake(r), NULL;
    return ls_report_rates_end(page);
}

const ls_command ls_command_rates = {
    .name = "rates",
    .operands = "FILE...",
    .summary = "what each field may take, and why",
    .help = "For each field and the litter of each lot: need and credits, each limit in tons an "
            "acre, the lowest, which sets the rate, what is supplied, still short and over need at "
            "that rate, and what fertilizer to buy.",
    .options = LS_OPTIONS_FIGURES | OPTION(PART) | OPTION(FULL) | OPTION(INSTEAD),
    .make = made,
};
