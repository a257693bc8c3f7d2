#include "gate.h"

#include <errno.h>
#include <string.h>

bool ls_run_json(const ls_run *r) {
    return strcmp(r->format, "json") == 0;
}

int ls_run_mistake(ls_run *r) {
    ls_diag_print(r->diag, r->err);
    return LS_MISTAKE;
}

static bool stopped(ls_run *r) {
    ls_run_mistake(r);
    return false;
}

/* A worksheet that does not fit together is a fault of the program or its tables, never of a farm
 * file: unless the farm has tables of its own. */
static bool check_sheet(ls_run *r) {
    const char *fault = ls_worksheet_fault(r->view.sheet);
    if (fault == NULL)
        return true;
    if (r->view.farm->own_tables.n == 0)
        ls_fail("the worksheet does not fit together: %s", fault);
    ls_diag_add(r->diag, LS_ERROR, r->view.farm->own_tables.at[0].at,
                "compare the rows of your own with those of littershed sources TABLE: the words "
                "(per, state, form) and units must suit each other",
                "with these tables the figures do not fit together: %s", fault);
    return stopped(r);
}

bool ls_run_farm(ls_run *r, const char *const *files, size_t n) {
    r->diag = ls_diag_new(r->arena);
    r->view.sheet = ls_worksheet_new(r->arena);
    r->view.farm =
        (r->earlier ? ls_farm_read_named : ls_farm_read)(r->arena, r->diag, r->published, files, n);
    if (r->view.farm == NULL)
        return stopped(r);
    r->view.reference = r->view.farm->reference;
    if (r->earlier)
        return true;
    ls_gate_keep(r, files, n);
    return ls_gate_passes(r);
}

bool ls_run_estimate(ls_run *r) {
    const ls_view *v = &r->view;
    r->estimate = r->options->digits == 0
                      ? ls_litter_estimate(v->sheet, v->farm, v->reference, v->seed, v->draws)
                      : ls_litter_estimate_until(v->sheet, v->farm, v->reference, v->seed,
                                                 r->options->digits, v->draws);
    if (r->estimate == NULL)
        return stopped(r);
    r->view.draws = r->estimate->draws;
    return check_sheet(r);
}

ls_next_list ls_run_next(ls_run *r) {
    ls_next_list next = ls_litter_next(r->view.sheet, r->view.reference, r->estimate);
    check_sheet(r);
    return next;
}

bool ls_run_has_fields(const ls_run *r) {
    for (size_t i = 0; i < r->view.farm->buyers.n; i++)
        if (r->view.farm->buyers.at[i].fields.n > 0)
            return true;
    return false;
}

bool ls_run_can_plan(const ls_run *r) {
    return ls_run_has_fields(r) && r->view.farm->trucks.n > 0 && r->view.farm->crew != NULL;
}

bool ls_run_agronomy(ls_run *r) {
    if (!ls_run_has_fields(r)) {
        ls_diag_add(
            r->diag, LS_ERROR, LS_NOWHERE,
            "name the files that hold buyers and their fields as well, or add a section buyers",
            "no fields: the files name no buyer with a field");
        return stopped(r);
    }
    r->agronomy = ls_agronomy_new(r->view.sheet, r->view.reference, r->estimate);
    if (r->agronomy == NULL || ls_diag_count(r->diag, LS_ERROR) > 0)
        return stopped(r);
    return check_sheet(r);
}

const ls_plan *ls_run_plan(ls_run *r) {
    const ls_plan *plan = ls_run_plan_again(r);
    if (plan == NULL) {
        stopped(r);
        return NULL;
    }
    ls_report_plan_lines(&r->view, r->estimate, plan);
    return check_sheet(r) ? plan : NULL;
}

void ls_run_ticket_lines(ls_run *r, const ls_plan *plan) {
    ls_report_ticket_lines(&r->view, r->estimate, plan);
    check_sheet(r);
}

/* ---- output ---- */

/* What was let pass may be another file by now. */
static int write_file(ls_run *r, const char *path, const char *text) {
    const char *why;
    if (!ls_gate_passes(r))
        return LS_USAGE;
    if (!ls_file_write(r->arena, path, text, strlen(text), &why))
        return ls_run_say(r, LS_SYSTEM, "cannot write %s: %s", path, why);
    return LS_DONE;
}

int ls_run_write(ls_run *r, const char *text) {
    const char *path = r->options->output;
    if (path != NULL && strcmp(path, "-") != 0)
        return write_file(r, path, text);
    errno = 0;
    if (fputs(text, r->out) == EOF || fflush(r->out) != 0 || ferror(r->out))
        return ls_run_say(r, LS_SYSTEM, "cannot write the output: %s", strerror(errno));
    return LS_DONE;
}

int ls_run_finish(ls_run *r, const char *text) {
    if (r->diag != NULL && ls_diag_count(r->diag, LS_WARNING) > 0)
        ls_diag_print(r->diag, r->err);
    return ls_run_write(r, text);
}
