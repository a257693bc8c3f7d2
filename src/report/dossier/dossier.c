/* The page of the dossier: its summary, and the chapters behind it in their order. */
#include "chapters.h"

#include "report/put.h"

/* ---- where the tons are ---- */

static const ls_doc_column balance_columns[] = {DATA("way"), HEAD(NULL), IN("tons", NULL, "ton")};

static void balance(ls_doc_group *g, const ls_dossier *d) {
    const ls_dossier_balance *b = &d->balance;
    const struct {
        const char *way, *words;
        ls_line line;
    } rows[] = {
        {"made", b->cleared && b->scaled ? "litter made, by the scales" : "litter made", b->made},
        {"opening", "+ in the stack from earlier files", b->opening},
        {"unlogged", "+ out of the stack, never logged in", b->unlogged},
        {"own", "= on the farm's own fields", b->own},
        {"moved", "+ moved to others", b->moved},
        {"stacked", "+ in the stack", b->stacked},
        {"left", "+ still in the houses", b->left},
        {"difference", "difference", b->difference},
        {"estimate low", "estimate before any load, low", b->before[0]},
        {"estimate middle", "estimate before any load, likely", b->before[1]},
        {"estimate high", "estimate before any load, high", b->before[2]}};
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "balance", "Where the tons are", balance_columns);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        bool told = (rows[i].line != b->opening && rows[i].line != b->unlogged) ||
                    ls_line_value(g->document->view->sheet, rows[i].line) != 0;
        LS_DOC_GRID_ROW(t, balance_columns, told ? LS_FIRST : LS_DATA, NULL, W(rows[i].way),
                        W(rows[i].words), BOOKED(rows[i].line, NULL));
    }
    MEMBERS(g, {"off_tons", BOOKED(b->off, "ton")}, {"trucked_tons", BOOKED(b->trucked, "ton")});
    if (d->loads.n > 0)
        SAY(g, LS_FULL, "By the log {} went out of the houses.", BOOKED(b->trucked, "ton"));
    if (b->cleared)
        SAY(g, LS_FULL, "The likely estimate less what was made: {}.", BOOKED(b->off, "ton"));
    SAY(g, LS_FIRST,
        !b->cleared
            ? "Litter still in the houses is the estimate less the loads that are gone: nobody "
              "weighed it. The difference is what the log sends to no place in the files."
        : b->scaled
            ? "All houses are empty and every load was weighed: litter made is a weighed figure."
            : "All houses are empty, but not every load was weighed.");
}

/* ---- the farm ---- */

static void farm(ls_doc_group *g, const ls_dossier *d) {
    const ls_farm_facts *facts = d->farm->facts;
    const ls_plan_paper *plan = facts == NULL ? NULL : facts->plan;
    FACTS(g, LS_FULL, {"permit", "permit", W(facts == NULL ? NULL : facts->permit.text)},
          {"plan_on_farm", "nutrient management plan on the farm",
           plan == NULL ? W(NULL) : FLAG(plan->on_site.yes)},
          {"plan_by", "plan made by", W(plan == NULL ? NULL : plan->by.text)},
          {"plan_date", "date of the plan", plan == NULL ? W(NULL) : GIVEN_DAY(plan->date)},
          {"haul_log", "haul log",
           d->log == NULL || d->log->entries.n == 0
               ? W("no load is logged yet")
               : T("{}; entries: {}; loads counted: {}", W(d->log->path), N(d->log->entries.n),
                   N(d->loads.n))});
    ls_doc_fact(g, d->printed == LS_NO_DATE ? LS_DATA : LS_FULL, "printed", "printed",
                DAY(d->printed));
}

/* ---- the answer ---- */

/* "2 limits" */
static ls_doc_cell counted(ls_arena *a, size_t n, const char *one) {
    return W(ls_arena_printf(a, "%zu %s%s", n, one, n == 1 ? "" : "s"));
}

static void verdict(ls_doc_group *g, const ls_dossier *d) {
    ls_arena *a = d->arena;
    size_t required = ls_dossier_count(d, LS_MISSING, LS_BOUND);
    SAY(g, LS_FIRST,
        "Audit: {} exceeded, {}, {} for the crew. {}. Of good practice {} missing. {} present.",
        counted(a, ls_dossier_count(d, LS_EXCEEDED, LS_BOUND_OR_NOT), "limit"),
        counted(a, ls_dossier_count(d, LS_CAUTION, LS_BOUND_OR_NOT), "caution"),
        counted(a, ls_dossier_count(d, LS_NOTE, LS_BOUND_OR_NOT), "note"),
        ls_dossier_any_required(d) || required > 0
            ? T("{} missing", counted(a, required, "required record"))
            : W("The file does not say which records you must keep"),
        counted(a, ls_dossier_count(d, LS_MISSING, LS_NOT_BOUND), "record"),
        N(ls_dossier_count(d, LS_PRESENT, LS_BOUND_OR_NOT)));
}

const ls_document *ls_report_dossier(const ls_view *v, const ls_dossier *d) {
    ls_document *doc = ls_document_new(v, "dossier", "Dossier: where every ton of litter went");
    doc->table = "loads";
    ls_doc_group *summary = ls_doc_object(doc->top, LS_FIRST, NULL, "Summary");
    verdict(summary, d);
    balance(summary, d);
    farm(summary, d);
    ls_doc_picture(summary, LS_FULL, NULL, "Where the tons went.", ls_dossier_chart_ways(doc, d),
                   NULL);
    ls_report_put_log(doc->top);
    ls_dossier_put_audit(doc->top, d);
    ls_dossier_put_litter(doc->top, d);
    ls_dossier_put_fields(doc->top, d);
    ls_dossier_put_loads(doc->top, d);
    ls_dossier_put_years(doc->top, d);
    ls_doc_worksheet(doc);
    return doc;
}
