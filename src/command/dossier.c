/* The inspector's answer. */
#include "run.h"

#include <string.h>

/* "2025", or "2025-07-01..2026-06-30". */
static bool parse_period(const char *s, ls_window *out) {
    enum { DATE = sizeof "2025-07-01" - 1 };
    double year;
    if (strlen(s) == 4 && ls_number_parse(s, 4, &year) && year >= 1990 && year <= 2199) {
        *out = (ls_window){ls_date_of((int)year, 1, 1), ls_date_of((int)year, 12, 31)};
        return true;
    }
    return strlen(s) == 2 * DATE + 2 && strncmp(s + DATE, "..", 2) == 0 && ls_date_parse(s, DATE, &out->from) &&
           ls_date_parse(s + DATE + 2, DATE, &out->to) && out->from <= out->to;
}

/* What follows --printed and --period; LS_DONE or the exit code. */
static int read_terms(ls_run *r, ls_dossier_terms *terms) {
    const char *day = r->options->word[LS_OPTION_PRINTED], *period = r->options->word[LS_OPTION_PERIOD];
    const char *without = r->options->word[LS_OPTION_WITHOUT];
    *terms = (ls_dossier_terms){LS_NO_DATE, {LS_NO_DATE, LS_NO_DATE}};
    if (without != NULL && strcmp(without, "worksheet") != 0)
        return MISUSE(r, "--without \"%s\" is no part; it may be \"worksheet\"", without);
    if (day != NULL && !ls_date_parse(day, strlen(day), &terms->printed))
        return MISUSE(r, "--printed \"%s\" is no date; for example \"2026-03-01\"", day);
    if (period != NULL && !parse_period(period, &terms->period))
        return MISUSE(r,
                      "--period \"%s\" is no year and no two days; for example \"2025\" or "
                      "\"2025-07-01..2026-06-30\"",
                      period);
    return LS_DONE;
}

static int dossier(ls_run *r) {
    ls_dossier_terms terms;
    int code = read_terms(r, &terms);
    if (code != LS_DONE) return code;
    if (!ls_run_farm(r, r->operands, r->n) || !ls_run_log(r, LS_NO_DATE) || !ls_run_estimate(r) ||
        (ls_books_has_fields(&r->books) && !ls_run_agronomy(r)))
        return LS_MISTAKE;
    const ls_dossier *d = ls_run_dossier(r, terms);
    if (d == NULL) return LS_MISTAKE;
    ls_view v = *ls_run_view(r);
    v.full = v.full || ls_run_form(r) != LS_TEXT;
    bool worksheet = r->options->word[LS_OPTION_WITHOUT] == NULL;
    code = ls_run_document(r, ls_report_dossier(&v, d, worksheet));
    return code == LS_DONE && GIVEN(r, STRICT) && ls_dossier_falls_short(d) ? LS_MISTAKE : code;
}

const ls_command ls_command_dossier = {
    .name = "dossier",
    .operands = "FILE...",
    .summary = "where every ton went, and which records are missing",
    .help = "For the inspector of the nutrient management plan: the books of the litter, each "
            "field's nitrogen and phosphorus beside its limits, each transfer, and an audit of the "
            "records with what to write where. html is one document to print or keep; csv is one "
            "table, named with --part.",
    .options = LS_OPTIONS_FIGURES | OPTION(PART) | OPTION(FULL) | OPTION(WITHOUT) | OPTION(STRICT) | OPTION(PRINTED) |
               OPTION(PERIOD),
    .exec = dossier,
};
