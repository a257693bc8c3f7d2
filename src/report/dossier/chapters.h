/* chapters: what the dossier is made of. Private to this room. */
#pragma once

#include "report/document/document.h"

/* The two pages in front: what the farm is, the answer, the fields, the tons; the findings. */
void ls_dossier_put_front(ls_doc_group *top, const ls_dossier *d);
void ls_dossier_put_verdict(ls_doc_group *g, const ls_dossier *d);
/* The books of the period: in front, if its days were asked for, else on the annual sheet. */
void ls_dossier_put_period(ls_doc_group *g, ls_doc_level level, const ls_dossier *d);
void ls_dossier_put_audit(ls_doc_group *top, const ls_dossier *d);
/* A sheet for each field, numbered from 1 on in their order. */
void ls_dossier_put_fields(ls_doc_group *top, const ls_dossier *d);

/* What fills a sheet behind those of the fields; nothing: there is no such sheet. */
typedef void ls_dossier_sheet(ls_doc_group *g, const ls_dossier *d);
ls_dossier_sheet ls_report_dossier_annual, ls_report_dossier_loads, ls_report_dossier_transfers,
    ls_report_dossier_calibration, ls_report_dossier_stack, ls_report_dossier_litter, ls_report_dossier_mortality,
    ls_report_dossier_papers, ls_report_dossier_records;

/* The id of a field's sheet, "field-3", and of a load's row, "entry-45", for links. */
const char *ls_dossier_field_id(const ls_dossier *d, size_t field);
const char *ls_dossier_entry_id(const ls_dossier *d, long entry);
/* "3 Larkspur Hay/Upper Meadow" */
const char *ls_dossier_field_title(const ls_dossier *d, size_t field);
/* What sets the field's rate, and whose limit that is: "rating, county plan writer"; at: with the
 * place in the file, "the plan, fields.yaml:16". */
ls_doc_cell ls_dossier_limit_from(const ls_dossier *d, const ls_dossier_field *f, bool at);
/* The same words with a capital, as a sentence begins. */
const char *ls_dossier_sentence(const ls_dossier *d, const char *words);

/* Whose rule a finding goes by, in short. */
const char *ls_dossier_rule(const ls_dossier *d, const ls_dossier_finding *f);
/* Findings of one item: the first of them, how many are in each state, where the first that is present was found, those
 * that are missing. Of all loads, or of those by their entries, of what this receiver is asked for. */
typedef LS_LIST(const ls_dossier_finding *) ls_dossier_found;
typedef struct {
    const ls_dossier_finding *of;
    size_t n[LS_FINDING_STATES];
    const char *first;
    ls_dossier_found missing;
} ls_dossier_tally;
typedef LS_LIST(ls_dossier_tally) ls_dossier_tallies;
ls_dossier_tallies ls_dossier_tally_all(const ls_dossier *d, ls_about about, const ls_buyer *receiver,
                                        const bool *entries);
/* "45-50, 52" of entries, which are sorted; of findings NULL: they are about no entry. */
const char *ls_dossier_ranges(const ls_dossier *d, long *entries, size_t n);
const char *ls_dossier_entry_ranges(const ls_dossier *d, const ls_dossier_found *r);

/* A row of what a sheet lacks: under says where to write the line. given: it lacks nothing. */
ls_doc_table ls_dossier_put_missing(ls_doc_group *sheet);
void ls_dossier_missing(ls_doc_table t, bool given, const char *what, const char *under, const char *line);

/* A caution of the published tables. */
void ls_dossier_put_caution(ls_doc_group *sheet, const char *row);

/* What the file says of the farm; without that section nothing. */
const ls_farm_facts *ls_dossier_facts(const ls_dossier *d);

/* A word of the haul log; empty if it is not given. */
ls_doc_cell ls_dossier_word(const ls_dossier_load *l, ls_log_word which);

/* Pictures in SVG; NULL: there is nothing to show. */
const char *ls_dossier_chart_ways(const ls_document *doc, const ls_dossier *d);
const char *ls_dossier_chart_field(const ls_document *doc, const ls_dossier_field *f, size_t index);
