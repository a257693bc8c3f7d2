#include "json.h"

#include <math.h>
#include <stdlib.h>

/* 15 digits print 0.1 as 0.1; names as ASCII, so that no invisible character reaches a terminal. */
#define FLAGS (JSON_REAL_PRECISION(15) | JSON_ENSURE_ASCII)

static json_t *checked(json_t *value) {
    if (value == NULL)
        ls_fail("out of memory");
    return value;
}

void ls_report_put(json_t *object, const char *key, json_t *value) {
    if (json_object_set_new(object, key, checked(value)) != 0)
        ls_fail("out of memory");
}

void ls_report_append(json_t *array, json_t *value) {
    if (json_array_append_new(array, checked(value)) != 0)
        ls_fail("out of memory");
}

static const char *dumped(ls_arena *a, json_t *value, size_t flags, const char *end) {
    char *s = json_dumps(value, flags);
    if (s == NULL)
        ls_fail("out of memory");
    const char *copy = ls_arena_printf(a, "%s%s", s, end);
    free(s);
    json_decref(value);
    return copy;
}

const char *ls_report_dump(ls_arena *a, json_t *document) {
    return dumped(a, document, FLAGS | JSON_INDENT(2), "\n");
}

const char *ls_report_dump_line(ls_arena *a, json_t *object) {
    return dumped(a, object, FLAGS, "");
}

json_t *ls_report_figure(double value, const char *unit) {
    double shown = value / ls_unit_of(unit).factor;
    return isfinite(shown) ? json_real(ls_number_round(shown)) : json_null();
}

json_t *ls_report_string(const char *s) {
    return s == NULL ? json_null() : json_string(s);
}

json_t *ls_report_strings(const char *const *s, size_t n) {
    json_t *list = checked(json_array());
    for (size_t i = 0; i < n; i++)
        ls_report_append(list, ls_report_string(s[i]));
    return list;
}
