/* The inspector's answer. */
#include "progress.h"

#include <string.h>

/* Reads the years before; their mistakes and warnings are printed, each with its own files. */
static bool read_earlier(ls_run *r) {
    bool read = ls_books_earlier(&r->books);
    for (size_t i = 0; i < r->books.earlier.n; i++) {
        const ls_diag *d = r->books.earlier.at[i]->diag;
        if (ls_diag_count(d, LS_WARNING) > 0 || ls_diag_count(d, LS_ERROR) > 0)
            ls_diag_print(d, r->err);
    }
    return read;
}

/* The day after --printed; LS_DONE or the exit code. */
static int read_printed(ls_run *r, ls_date *printed) {
    const char *day = r->options->word[LS_OPTION_PRINTED];
    *printed = LS_NO_DATE;
    if (day != NULL && !ls_date_parse(day, strlen(day), printed))
        return ls_run_say(r, LS_USAGE, "--printed \"%s\" is no date; for example 2026-03-01", day);
    return LS_DONE;
}

static int dossier(ls_run *r) {
    ls_date printed;
    int code = read_printed(r, &printed);
    if (code != LS_DONE)
        return code;
    if (!ls_run_farm(r, r->operands, r->n) || !ls_run_log(r, LS_NO_DATE) || !ls_run_estimate(r) ||
        (ls_books_has_fields(&r->books) && !ls_run_agronomy(r)) || !read_earlier(r))
        return LS_MISTAKE;
    ls_run_progress *progress = ls_run_progress_new(r);
    const ls_dossier *d = ls_books_dossier(&r->books, printed, ls_run_progress_hook(progress));
    ls_run_progress_end(progress);
    if (d == NULL || ls_diag_count(r->books.diag, LS_ERROR) > 0 || !ls_books_fit(&r->books))
        return ls_run_mistake(r);
    code = ls_run_document(r, ls_report_dossier(ls_run_view(r), d));
    return code == LS_DONE && ls_run_given(r, LS_OPTION_STRICT) && ls_dossier_falls_short(d)
               ? LS_MISTAKE
               : code;
}

const ls_command ls_command_dossier = {
    .name = "dossier",
    .operands = "FILE...",
    .summary = "where every ton went, and which records are missing",
    .help = "For the inspector of the nutrient management plan: the books of the litter, each "
            "field's nitrogen and phosphorus beside its limits, each transfer, and an audit of the "
            "records with what to write where. html is one document to print or keep; csv is one "
            "table, named with --part.",
    .options = LS_OPTIONS_FIGURES | LS_OPTION_BIT(LS_OPTION_PART) |
               LS_OPTION_BIT(LS_OPTION_STRICT) | LS_OPTION_BIT(LS_OPTION_PRINTED),
    .formats = ls_command_documents,
    .least = 1,
    .most = LS_ANY_NUMBER,
    .exec = dossier,
};
