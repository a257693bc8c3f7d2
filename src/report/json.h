/* json: figures and documents as JSON, always in US units. Private to this room. */
#ifndef REPORT_JSON_H
#define REPORT_JSON_H

#include "littershed/report.h"

#include <jansson.h>

/* A document of this run with the facts every document begins with. */
json_t *ls_report_document(const ls_view *v, const char *command);

/* The document as text in the arena, ended by a newline; the document is given back. */
const char *ls_report_dump(const ls_view *v, json_t *document);
/* The same of one object on one line, without a newline. */
const char *ls_report_dump_line(ls_arena *a, json_t *object);

/* Put or append a value, which the object or array takes over; out of memory ends the program. */
void ls_report_put(json_t *object, const char *key, json_t *value);
void ls_report_append(json_t *array, json_t *value);

/* A value in base units as a number of unit, rounded for a reader; null if it is not known or not
 * finite. */
json_t *ls_report_figure(double value, const char *unit);
json_t *ls_report_line_figure(const ls_view *v, ls_line line, const char *unit);
/* A whole number; null for LS_NO_LINE. */
json_t *ls_report_line_count(const ls_view *v, ls_line line);
/* {low, mid, high}, or null. */
json_t *ls_report_points(ls_q q, const char *unit);
/* Text of a file; null for NULL. */
json_t *ls_report_string(const char *s);
/* The day as 2026-02-16; null for LS_NO_DATE. */
json_t *ls_report_day(const ls_view *v, ls_date day);
/* A list of texts. */
json_t *ls_report_strings(const char *const *s, size_t n);
/* {firm, likely, possible}, or null. */
json_t *ls_report_loads(const ls_view *v, ls_line firm, ls_line likely, ls_line possible);

/* Keys of the lines that it is made of. */
json_t *ls_report_made_of(const ls_view *v, const ls_entry *entry);

#endif
