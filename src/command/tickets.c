/* Tickets for drivers, promise slips for buyers. */
#include "issue.h"

/* A farm under a disease order gets no paper that a load could leave with. */
static bool may_leave(ls_run *r) {
    if (!ls_farm_is_quarantined(r->books.farm)) return true;
    ls_diag_add(r->books.diag, LS_ERROR, r->books.farm->facts->quarantine.at,
                "when the order is lifted, write \"quarantine: no\"; a load that a permit allows "
                "goes by the permit",
                "the farm is under quarantine: nothing may leave it, so there are no tickets and "
                "no promises");
    ls_run_mistake(r);
    return false;
}

/* The paper of what is in the log now: if it cannot be printed, a copy can. */
static int print(ls_run *r, const char *text, const ls_handed *handed, size_t n) {
    int code = ls_run_finish(r, text);
    for (size_t i = 0; code != LS_DONE && i < n; i++)
        if (handed[i].mark == LS_MARK_ISSUED)
            return ls_run_say(r, code,
                              "they ARE issued all the same, as the log has them: print them again "
                              "without --issue");
    return code;
}

static int print_promises(ls_run *r, const ls_tickets *t) {
    const char *buyer;
    int code = ls_pick_buyer(r, &buyer);
    if (code != LS_DONE) return code;
    const ls_farm *farm = r->books.farm;
    bool issue = GIVEN(r, ISSUE);
    const ls_buyer **buyers = LS_NEW(r->arena, const ls_buyer *, farm->buyers.n);
    ls_slip_list list = {.figures = t,
                         .buyers = buyers,
                         .gone = buyer != NULL ? buyer
                                 : issue       ? NULL
                                               : "",
                         .worth = GIVEN(r, WORTH)};
    for (size_t i = 0; i < farm->buyers.n; i++)
        if (buyer == NULL || ls_text_same(buyer, farm->buyers.at[i].name.text)) buyers[list.n++] = &farm->buyers.at[i];
    ls_handed *handed = ls_issue_slips_handed(r, &list);
    list.handed = handed;
    if (issue) code = ls_issue_slips(r, &list, buyers, handed, buyer != NULL);
    return code != LS_DONE ? code : print(r, ls_report_promises(ls_run_view(r), &list, ls_run_form(r)), handed, list.n);
}

/* A plan may have no load left and tickets to be taken back all the same. */
static int print_tickets(ls_run *r, const ls_tickets *t) {
    const ls_plan *plan = t->sums->plan;
    bool only_recalls = plan->loads_n + plan->out_n == 0 && t->sums->handed_out->recalled.n > 0;
    ls_picked picked = {0};
    int code = only_recalls ? LS_DONE : ls_pick_loads(r, plan, &picked);
    if (code != LS_DONE) return code;
    ls_handed *handed = ls_issue_tickets_handed(r, &picked);
    if (GIVEN(r, ISSUE)) code = ls_issue_tickets(r, plan, &picked, handed, GIVEN(r, TICKET));
    if (code != LS_DONE) return code;
    const ls_ticket_list list = {t, picked.n, picked.at, handed, true};
    return print(r, ls_report_tickets(ls_run_view(r), &list, ls_run_form(r)), handed, picked.n);
}

/* What can be seen to be wrong before anything is written down. */
static int check_issue(ls_run *r) {
    if (!GIVEN(r, ISSUE)) return LS_DONE;
    if (ls_books_log_path(&r->books) == NULL)
        return MISUSE(r, "--issue writes the haul log, and a farm read from the standard input has "
                         "none: the log is kept beside the farm file; name that file");
    const char *starter = ls_report_starter_words(ls_run_view(r));
    if (starter != NULL)
        return MISTAKE(r,
                       "nothing was issued. %s. Where all that it lists is right for your farm, delete the second "
                       "line of the file",
                       starter);
    return ls_run_may_write(r);
}

static int tickets(ls_run *r) {
    static const ls_option of_loads[] = {LS_OPTION_LOT, LS_OPTION_DAY, LS_OPTION_TICKET};
    bool promise = GIVEN(r, PROMISE);
    for (size_t i = 0; promise && i < sizeof of_loads / sizeof *of_loads; i++)
        if (r->options->word[of_loads[i]] != NULL)
            return MISUSE(r, "--%s is for tickets; --promise takes only --buyer", ls_option_at(of_loads[i])->name);
    if (!promise && GIVEN(r, WORTH)) return MISUSE(r, "--worth is for slips; add --promise");
    if (!ls_run_farm(r, r->operands, r->n)) return LS_MISTAKE;
    int code = check_issue(r);
    if (code != LS_DONE) return code;
    if (!ls_run_log(r, LS_NO_DATE) || !may_leave(r) || !ls_run_estimate(r) || !ls_run_agronomy(r)) return LS_MISTAKE;
    const ls_plan_sums *sums = ls_run_plan(r);
    if (sums == NULL) return LS_MISTAKE;
    const ls_tickets *t = ls_run_tickets(r, sums);
    return promise ? print_promises(r, t) : print_tickets(r, t);
}

static const char *const formats[] = {"text", "html", "json", NULL};

const ls_command ls_command_tickets = {
    .name = "tickets",
    .operands = "FILE...",
    .summary = "a ticket for each load, or a promise slip for each buyer",
    .help = "One ticket for each load of the plan, ready to print: for the driver, the loader and the "
            "receiver. Text has a page a ticket, html two tickets to a letter page. --lot, --day, "
            "--ticket and --buyer choose among the loads; those out of the stack have no day. With "
            "--promise: a page for each buyer with the loads that can be promised today; --worth adds "
            "what they are worth to the buyer, beside the price. Without --issue they are drafts, or "
            "copies of what was issued. With --issue those that are new or changed are written into "
            "the haul log and printed, and a first page lists the tickets to take back: what was "
            "issued binds every later plan. littershed record --replaces N --tons 0 takes one back.",
    .options = LS_OPTIONS_FIGURES | OPTION(FROM) | OPTION(ISSUE) | OPTION(PROMISE) | OPTION(WORTH) | OPTION(LOT) |
               OPTION(DAY) | OPTION(TICKET) | OPTION(BUYER),
    .formats = formats,
    .exec = tickets,
};
