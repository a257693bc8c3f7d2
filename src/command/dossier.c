/* The inspector's answer. */
#include "hauled.h"
#include "progress.h"

#include <string.h>

/* The farm as before any load, in a worksheet of its own, with its estimate and plan. */
static void before(ls_run *r, ls_dossier_terms *t) {
    const ls_view *v = &r->view;
    ls_farm *farm = LS_NEW(r->arena, ls_farm, 1);
    *farm = *v->farm;
    memset(&farm->hauled, 0, sizeof farm->hauled);
    ls_worksheet *w = ls_worksheet_new(r->arena);
    ls_estimate *e = ls_litter_estimate(w, farm, v->reference, v->seed, v->draws);
    if (e == NULL)
        return;
    if (v->farm->hauled.n > 0)
        t->before = e, t->before_sheet = w;
    if (!ls_run_can_plan(r))
        return;
    ls_agronomy *g = ls_agronomy_new(w, v->reference, e);
    ls_run_progress *progress = ls_run_progress_new(r);
    ls_plan_terms terms = {.from = LS_NO_DATE, .progress = ls_run_progress_hook(progress)};
    t->plan = g == NULL ? NULL : ls_haul_plan(w, v->reference, e, g, &terms);
    t->plan_sheet = w;
    ls_run_progress_end(progress);
}

/* ---- earlier years ---- */

static const char *beside(const ls_run *r, const ls_name *name) {
    return ls_farm_beside(r->arena, ls_diag_input_at(r->diag, name->at.file)->name, name->text);
}

/* What each field of an earlier file was planned to take; false: a mistake is printed. */
static bool earlier_rates(ls_run *other, ls_dossier_earlier *e) {
    const ls_farm *farm = other->view.farm;
    LS_LIST(const ls_field_rates *) rates = {0};
    if (!ls_run_has_fields(other))
        return true;
    if (!ls_run_agronomy(other))
        return false;
    for (size_t b = 0; b < farm->buyers.n; b++)
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++) {
            const ls_buyer *buyer = &farm->buyers.at[b];
            const ls_field_rates *one =
                ls_agronomy_field(other->agronomy, buyer, &buyer->fields.at[f]);
            if (one == NULL) {
                ls_run_mistake(other);
                return false;
            }
            *LS_PUSH(other->arena, &rates) = one;
        }
    e->rates = rates.at;
    e->rates_n = rates.n;
    return true;
}

/* False: its mistakes are printed. Only stated figures are asked of it: one block of draws. */
static bool earlier(ls_run *r, const ls_earlier_files *files, ls_dossier_earlier *e) {
    ls_run other = *r;
    const char *paths[2] = {beside(r, &files->file)};
    size_t n = 1;
    if (files->fields.text != NULL)
        paths[n++] = beside(r, &files->fields);
    other.earlier = true;
    other.log = NULL;
    other.estimate = NULL;
    other.agronomy = NULL;
    if (!ls_run_farm(&other, paths, n) || !ls_run_log(&other, LS_NO_DATE))
        return false;
    const ls_view *v = &other.view;
    other.estimate = ls_litter_estimate(v->sheet, v->farm, v->reference, v->seed, LS_BLOCK);
    if (other.estimate == NULL) {
        ls_run_mistake(&other);
        return false;
    }
    *e = (ls_dossier_earlier){.file = files->file.text,
                              .farm = v->farm,
                              .log = other.log == NULL ? NULL : other.log->path,
                              .log_empty = other.log == NULL || other.log->entries.n == 0,
                              .sheet = v->sheet,
                              .estimate = other.estimate};
    if (!earlier_rates(&other, e))
        return false;
    if (ls_diag_count(other.diag, LS_WARNING) > 0)
        ls_diag_print(other.diag, r->err);
    return true;
}

static bool read_earlier(ls_run *r, ls_dossier_terms *t) {
    const ls_farm_facts *facts = r->view.farm->facts;
    size_t n = facts == NULL ? 0 : facts->earlier.n;
    ls_dossier_earlier *all = LS_NEW(r->arena, ls_dossier_earlier, n);
    for (size_t i = 0; i < n; i++)
        if (!earlier(r, &facts->earlier.at[i], &all[i]))
            return false;
    t->earlier = all;
    t->earlier_n = n;
    return true;
}

/* ---- the command ---- */

static const char *told(ls_run *r, const ls_dossier *d) {
    const ls_view *v = &r->view;
    if (strcmp(r->format, "csv") == 0)
        return ls_report_dossier_csv(v, d, r->options->word[LS_OPTION_PART]);
    if (strcmp(r->format, "html") == 0)
        return ls_report_dossier_html(v, d);
    return ls_run_json(r) ? ls_report_dossier_json(v, d) : ls_report_dossier_text(v, d);
}

/* What stands behind the options; LS_DONE or the exit code. */
static int check_options(ls_run *r, ls_date *printed) {
    const char *part = r->options->word[LS_OPTION_PART];
    const char *day = r->options->word[LS_OPTION_PRINTED];
    bool csv = strcmp(r->format, "csv") == 0, known = false;
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
    ls_dossier_terms terms = {.printed = LS_NO_DATE};
    int code = check_options(r, &terms.printed);
    if (code != LS_DONE)
        return code;
    if (!ls_run_farm(r, r->operands, r->n) || !ls_run_log(r, LS_NO_DATE) || !ls_run_estimate(r) ||
        (ls_run_has_fields(r) && !ls_run_agronomy(r)) || !read_earlier(r, &terms))
        return LS_MISTAKE;
    terms.estimate = r->estimate;
    terms.agronomy = r->agronomy;
    terms.log = r->log;
    before(r, &terms);
    const ls_dossier *d = ls_report_dossier(&r->view, &terms);
    if (d == NULL || ls_diag_count(r->diag, LS_ERROR) > 0)
        return ls_run_mistake(r);
    code = ls_run_finish(r, told(r, d));
    const char *fault = ls_worksheet_fault(r->view.sheet);
    if (fault != NULL)
        ls_fail("the worksheet does not fit together: %s", fault);
    bool strict = (r->options->given & LS_OPTION_BIT(LS_OPTION_STRICT)) != 0;
    return code == LS_DONE && strict && ls_report_dossier_falls_short(d) ? LS_MISTAKE : code;
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
    .options = LS_OPTION_BIT(LS_OPTION_FORMAT) | LS_OPTION_BIT(LS_OPTION_OUTPUT) |
               LS_OPTION_BIT(LS_OPTION_UNITS) | LS_OPTION_BIT(LS_OPTION_SEED) |
               LS_OPTION_BIT(LS_OPTION_DRAWS) | LS_OPTION_BIT(LS_OPTION_PART) |
               LS_OPTION_BIT(LS_OPTION_STRICT) | LS_OPTION_BIT(LS_OPTION_PRINTED),
    .formats = formats,
    .least = 1,
    .most = LS_ANY_NUMBER,
    .exec = dossier,
};
