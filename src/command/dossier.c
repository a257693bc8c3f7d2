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

static const char *told(ls_run *r, const ls_dossier *d) {
    const ls_view *v = ls_run_view(r);
    if (ls_run_in(r, "csv"))
        return ls_report_dossier_csv(v, d, r->options->word[LS_OPTION_PART]);
    if (ls_run_in(r, "html"))
        return ls_report_dossier_html(v, d);
    return ls_run_json(r) ? ls_report_dossier_json(v, d) : ls_report_dossier_text(v, d);
}

/* What stands behind the options; LS_DONE or the exit code. */
static int check_options(ls_run *r, ls_date *printed) {
    const char *part = r->options->word[LS_OPTION_PART];
    const char *day = r->options->word[LS_OPTION_PRINTED];
    bool csv = ls_run_in(r, "csv"), known = false;
    ls_text *names = ls_text_new(r->arena);
    for (size_t i = 0; ls_report_dossier_part(i) != NULL; i++) {
        known = known || (part != NULL && strcmp(part, ls_report_dossier_part(i)) == 0);
        ls_text_addf(names, "%s%s", i == 0 ? "" : ", ", ls_report_dossier_part(i));
    }
    if (csv && !known)
        return ls_run_say(r, LS_USAGE, "--format csv needs --part with one of: %s", names->s);
    if (!csv && part != NULL)
        return ls_run_say(r, LS_USAGE, "--part is for --format csv");
    if (day != NULL && !ls_date_parse(day, strlen(day), printed))
        return ls_run_say(r, LS_USAGE, "--printed \"%s\" is no date; for example 2026-03-01", day);
    return LS_DONE;
}

static int dossier(ls_run *r) {
    ls_date printed = LS_NO_DATE;
    int code = check_options(r, &printed);
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
    code = ls_run_finish(r, told(r, d));
    bool strict = ls_run_given(r, LS_OPTION_STRICT);
    return code == LS_DONE && strict && ls_dossier_falls_short(d) ? LS_MISTAKE : code;
}

static const char *const formats[] = {"text", "html", "json", "csv", NULL};

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
    .formats = formats,
    .least = 1,
    .most = LS_ANY_NUMBER,
    .exec = dossier,
};
