/* json: values for jansson, checked. Private to this room. */
#ifndef REPORT_JSON_H
#define REPORT_JSON_H

#include "littershed/base.h"

#include <jansson.h>

/* The document as text in the arena, ended by a newline; the document is given back. */
const char *ls_report_dump(ls_arena *a, json_t *document);
/* The same of one object on one line, without a newline. */
const char *ls_report_dump_line(ls_arena *a, json_t *object);

/* Put or append a value, which the object or array takes over; out of memory ends the program. */
void ls_report_put(json_t *object, const char *key, json_t *value);
void ls_report_append(json_t *array, json_t *value);

/* A value in base units as a number of unit, rounded for a reader; null if it is not known or not
 * finite. */
json_t *ls_report_figure(double value, const char *unit);
/* Text of a file; null for NULL. A list of texts. */
json_t *ls_report_string(const char *s);
json_t *ls_report_strings(const char *const *s, size_t n);

#endif
