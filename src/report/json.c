#include "json.h"

#include "quarantine.h"

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

/* null: the farm is under none. */
static json_t *quarantine(const ls_view *v) {
    const ls_report_quarantine *q = ls_report_quarantine_of(v);
    if (q == NULL)
        return json_null();
    json_t *object = json_object();
    ls_report_put(object, "heading", json_string(q->heading));
    ls_report_put(object, "order", json_string(q->order));
    ls_report_put(object, "caution", json_string(q->caution));
    ls_report_put(object, "source", json_string(q->who));
    return object;
}

json_t *ls_report_document(const ls_view *v, const char *command) {
    json_t *document = checked(json_object()), *tables = checked(json_object());
    const ls_farm_facts *facts = v->farm == NULL ? NULL : v->farm->facts;
    ls_report_put(document, "program", json_string("littershed"));
    ls_report_put(document, "version", json_string(LITTERSHED_VERSION));
    ls_report_put(tables, "version", json_string(ls_reference_version(v->reference)));
    ls_report_put(tables, "date", json_string(ls_reference_date(v->reference)));
    ls_report_put(document, "tables", tables);
    ls_report_put(document, "command", json_string(command));
    ls_report_put(document, "farm", ls_report_string(facts == NULL ? NULL : facts->name.text));
    ls_report_put(document, "quarantine", quarantine(v));
    ls_report_put(document, "units", json_string("US"));
    ls_report_put(document, "seed", json_integer((json_int_t)v->seed));
    ls_report_put(document, "draws", json_integer((json_int_t)v->draws));
    return document;
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

const char *ls_report_dump(const ls_view *v, json_t *document) {
    return dumped(v->arena, document, FLAGS | JSON_INDENT(2), "\n");
}

const char *ls_report_dump_line(ls_arena *a, json_t *object) {
    return dumped(a, object, FLAGS, "");
}

json_t *ls_report_figure(double value, const char *unit) {
    double shown = value / ls_unit_of(unit).factor;
    return isfinite(shown) ? json_real(ls_number_round(shown)) : json_null();
}

json_t *ls_report_line_figure(const ls_view *v, ls_line line, const char *unit) {
    return ls_report_figure(ls_line_value(v->sheet, line), unit);
}

json_t *ls_report_line_count(const ls_view *v, ls_line line) {
    double value = ls_line_value(v->sheet, line);
    return isfinite(value) ? json_integer((json_int_t)llround(value)) : json_null();
}

json_t *ls_report_points(ls_q q, const char *unit) {
    if (q.line == LS_NO_LINE)
        return json_null();
    json_t *points = checked(json_object());
    ls_report_put(points, "low", ls_report_figure(q.low, unit));
    ls_report_put(points, "mid", ls_report_figure(q.mid, unit));
    ls_report_put(points, "high", ls_report_figure(q.high, unit));
    return points;
}

json_t *ls_report_string(const char *s) {
    return s == NULL ? json_null() : json_string(s);
}

json_t *ls_report_day(const ls_view *v, ls_date day) {
    return day == LS_NO_DATE ? json_null() : json_string(ls_date_iso(v->arena, day));
}

json_t *ls_report_strings(const char *const *s, size_t n) {
    json_t *list = checked(json_array());
    for (size_t i = 0; i < n; i++)
        ls_report_append(list, ls_report_string(s[i]));
    return list;
}

json_t *ls_report_loads(const ls_view *v, ls_line firm, ls_line likely, ls_line possible) {
    if (firm == LS_NO_LINE)
        return json_null();
    json_t *loads = checked(json_object());
    ls_report_put(loads, "firm", ls_report_line_count(v, firm));
    ls_report_put(loads, "likely", ls_report_line_count(v, likely));
    ls_report_put(loads, "possible", ls_report_line_count(v, possible));
    return loads;
}

json_t *ls_report_made_of(const ls_view *v, const ls_entry *entry) {
    json_t *list = json_array();
    for (size_t i = 0; i < entry->n; i++)
        ls_report_append(list, ls_report_string(ls_line_at(v->sheet, entry->in[i])->key));
    return list;
}
