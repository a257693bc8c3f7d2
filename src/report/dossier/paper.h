/* dossier_paper: the chapters of the dossier. Private to this room. */
#ifndef REPORT_DOSSIER_PAPER_H
#define REPORT_DOSSIER_PAPER_H

#include "report/paper.h"

/* All chapters in order; charts: with pictures. */
ls_paper *ls_dossier_paper(const ls_view *v, const ls_dossier *d, bool charts);

void ls_dossier_summary(ls_paper *p, const ls_dossier *d);
void ls_dossier_audit_pages(ls_paper *p, const ls_dossier *d);
void ls_dossier_litter_pages(ls_paper *p, const ls_dossier *d, bool charts);
void ls_dossier_field_pages(ls_paper *p, const ls_dossier *d, bool charts);
void ls_dossier_load_pages(ls_paper *p, const ls_dossier *d, bool charts);

/* Pictures in SVG; NULL: there is nothing to show. */
const char *ls_dossier_chart_ways(const ls_view *v, const ls_dossier *d);
const char *ls_dossier_chart_ways_of_knowing(const ls_view *v, const ls_dossier *d);
const char *ls_dossier_chart_calendar(const ls_view *v, const ls_dossier *d);
const char *ls_dossier_chart_field(const ls_view *v, const ls_dossier *d, const ls_dossier_field *f,
                                   size_t index);

/* What was found, or what is wrong, with its figures in the units of the page. */
const char *ls_dossier_what(const ls_view *v, const ls_dossier_finding *f);
/* "missing", "present", "does not apply"; the short form of whose requirement it is. */
const char *ls_dossier_found_words(const ls_dossier_finding *f);
const char *ls_dossier_whose(const ls_dossier *d, const ls_dossier_finding *f);

#endif
