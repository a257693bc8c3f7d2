/* Tickets for drivers, promise slips for buyers. */
#include "pick.h"

#include <string.h>

/* A farm under a disease order gets no paper that a load could leave with. */
static bool may_leave(ls_run *r) {
    if (!ls_farm_is_quarantined(r->books.farm))
        return true;
    ls_diag_add(
        r->books.diag, LS_ERROR, r->books.farm->facts->quarantine.at,
        "when the order is lifted, write \"quarantine: no\"; a load that a permit allows "
        "goes by the permit",
        "the farm is under quarantine: nothing may leave it, so there are no tickets and no "
        "promises");
    ls_run_mistake(r);
    return false;
}

static int print_promises(ls_run *r, const ls_tickets *t) {
    const char *buyer;
    int code = ls_pick_buyer(r, &buyer);
    if (code != LS_DONE)
        return code;
    return ls_run_finish(r, ls_report_promises(ls_run_view(r), t, buyer,
                                               ls_run_given(r, LS_OPTION_WORTH), ls_run_form(r)));
}

static int print_tickets(ls_run *r, const ls_tickets *t) {
    ls_picked picked;
    int code = ls_pick_loads(r, t->sums->plan, &picked);
    if (code != LS_DONE)
        return code;
    const ls_ticket_list list = {t, picked.n, picked.at};
    return ls_run_finish(r, ls_report_tickets(ls_run_view(r), &list, ls_run_form(r)));
}

static int tickets(ls_run *r) {
    static const ls_option of_loads[] = {LS_OPTION_LOT, LS_OPTION_DAY, LS_OPTION_TICKET};
    bool promise = ls_run_given(r, LS_OPTION_PROMISE);
    for (size_t i = 0; promise && i < sizeof of_loads / sizeof *of_loads; i++)
        if (r->options->word[of_loads[i]] != NULL)
            return ls_run_say(r, LS_USAGE, "--%s is for tickets; --promise takes only --buyer",
                              ls_option_at(of_loads[i])->name);
    if (!promise && ls_run_given(r, LS_OPTION_WORTH))
        return ls_run_say(r, LS_USAGE, "--worth is for slips; add --promise");
    if (!ls_run_farm(r, r->operands, r->n) || !ls_run_log(r, LS_NO_DATE))
        return LS_MISTAKE;
    if (!may_leave(r) || !ls_run_estimate(r) || !ls_run_agronomy(r))
        return LS_MISTAKE;
    const ls_plan_sums *sums = ls_run_plan(r);
    if (sums == NULL)
        return LS_MISTAKE;
    const ls_tickets *t = ls_run_tickets(r, sums);
    return promise ? print_promises(r, t) : print_tickets(r, t);
}

static const char *const formats[] = {"text", "html", "json", NULL};

const ls_command ls_command_tickets = {
    .name = "tickets",
    .operands = "FILE...",
    .summary = "a ticket for each load, or a promise slip for each buyer",
    .help = "One ticket for each load of the plan, ready to print: for the driver, the loader and "
            "the receiver. Text has a page a ticket, html two tickets to a letter page. --lot, "
            "--day, --ticket and --buyer choose among the loads; those out of the stack have no "
            "day. With --promise: a page for each buyer with the loads that can be promised today; "
            "--worth "
            "adds what they are worth to the buyer, beside the price.",
    .options = LS_OPTIONS_FIGURES | LS_OPTION_BIT(LS_OPTION_FROM) |
               LS_OPTION_BIT(LS_OPTION_PROMISE) | LS_OPTION_BIT(LS_OPTION_WORTH) |
               LS_OPTION_BIT(LS_OPTION_LOT) | LS_OPTION_BIT(LS_OPTION_DAY) |
               LS_OPTION_BIT(LS_OPTION_TICKET) | LS_OPTION_BIT(LS_OPTION_BUYER),
    .formats = formats,
    .exec = tickets,
};
