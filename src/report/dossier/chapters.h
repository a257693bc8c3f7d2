/* chapters: what the dossier is made of. Private to this room. */
#ifndef REPORT_DOSSIER_CHAPTERS_H
#define REPORT_DOSSIER_CHAPTERS_H

#include "report/document/document.h"

/* Each puts its chapters at the end of the document. */
void ls_dossier_put_audit(ls_doc_group *top, const ls_dossier *d);
void ls_dossier_put_litter(ls_doc_group *top, const ls_dossier *d);
void ls_dossier_put_fields(ls_doc_group *top, const ls_dossier *d);
void ls_dossier_put_loads(ls_doc_group *top, const ls_dossier *d);
void ls_dossier_put_years(ls_doc_group *top, const ls_dossier *d);

/* Whose rule a finding goes by, in short. */
const char *ls_dossier_rule(const ls_dossier *d, const ls_dossier_finding *f);

/* The sheets behind them: what each receiver got; what spreaders put out; the site of the stack and
 * its piles; dead birds; papers that go with the records. */
void ls_report_dossier_transfers(ls_doc_group *top, const ls_dossier *d);
void ls_report_dossier_calibration(ls_doc_group *top, const ls_dossier *d);
void ls_report_dossier_stack(ls_doc_group *top, const ls_dossier *d);
void ls_report_dossier_mortality(ls_doc_group *top, const ls_dossier *d);
void ls_report_dossier_papers(ls_doc_group *top, const ls_dossier *d);

/* A row of what a sheet lacks: under says where to write the line. given: it lacks nothing. */
ls_doc_table ls_dossier_put_missing(ls_doc_group *sheet);
void ls_dossier_missing(ls_doc_table t, bool given, const char *what, const char *under,
                        const char *line);

/* A caution of the published tables. */
void ls_dossier_put_caution(ls_doc_group *sheet, const char *row);

/* A word of the haul log; empty if it is not given. */
ls_doc_cell ls_dossier_word(const ls_dossier_load *l, ls_log_word which);

/* Pictures in SVG; NULL: there is nothing to show. */
const char *ls_dossier_chart_ways(const ls_document *doc, const ls_dossier *d);
const char *ls_dossier_chart_methods(const ls_document *doc, const ls_dossier *d);
const char *ls_dossier_chart_calendar(const ls_document *doc, const ls_dossier *d);
const char *ls_dossier_chart_field(const ls_document *doc, const ls_dossier_field *f, size_t index);

/* What an inspector counts of the findings in one state; of missing records those that are required
 * of this farm, or not. */
typedef enum { LS_BOUND, LS_NOT_BOUND, LS_BOUND_OR_NOT } ls_dossier_bound;
bool ls_dossier_counts(const ls_dossier_finding *f, ls_finding_state state, ls_dossier_bound bound);
size_t ls_dossier_count(const ls_dossier *d, ls_finding_state state, ls_dossier_bound bound);
/* Is any record known to bind this farm? */
bool ls_dossier_any_required(const ls_dossier *d);

#endif
