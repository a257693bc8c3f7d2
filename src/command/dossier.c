/* The inspector's answer. */
#include "run.h"

#include <string.h>

/* The day after --printed; LS_DONE or the exit code. */
static int read_printed(ls_run *r, ls_date *printed) {
    const char *day = r->options->word[LS_OPTION_PRINTED];
    *printed = LS_NO_DATE;
    if (day != NULL && !ls_date_parse(day, strlen(day), printed))
        return ls_run_say(r, LS_USAGE, "--printed \"%s\" is no date; for example \"2026-03-01\"",
                          day);
    return LS_DONE;
}

static int dossier(ls_run *r) {
    ls_date printed;
    int code = read_printed(r, &printed);
    if (code != LS_DONE)
        return code;
    if (!ls_run_farm(r, r->operands, r->n) || !ls_run_log(r, LS_NO_DATE) || !ls_run_estimate(r) ||
        (ls_books_has_fields(&r->books) && !ls_run_agronomy(r)))
        return LS_MISTAKE;
    const ls_dossier *d = ls_run_dossier(r, printed);
    if (d == NULL)
        return LS_MISTAKE;
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
    .exec = dossier,
};
