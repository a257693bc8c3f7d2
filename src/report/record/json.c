#include "report/json.h"

#include <math.h>

static json_t *number_or_null(long n) {
    return n > 0 ? json_integer(n) : json_null();
}

static json_t *one_entry(const ls_view *v, const ls_logged *h) {
    const ls_log_entry *e = h->entry;
    json_t *object = json_object();
    ls_report_put(object, "entry", json_integer(e->number));
    ls_report_put(object, "replaces", number_or_null(e->replaces));
    ls_report_put(object, "replaced_by", number_or_null(e->replaced_by));
    ls_report_put(object, "ticket", ls_report_string(e->ticket.text));
    ls_report_put(object, "lot", ls_report_string(h->lot));
    ls_report_put(object, "from_stack", json_boolean(e->ticket.from_stack));
    ls_report_put(object, "when", json_string(ls_when_text(v->arena, e->when)));
    ls_report_put(object, "tons", ls_report_line_figure(v, h->tons, "ton"));
    ls_report_put(object, "weighed", json_boolean(e->weighed));
    ls_report_put(object, "cleared_pct",
                  isnan(e->cleared) ? json_null() : json_real(e->cleared * 100));
    for (int i = 0; i < LS_LOG_WORDS; i++)
        ls_report_put(object, ls_log_column((ls_log_word)i),
                      ls_report_string(e->words[i][0] == '\0' ? NULL : e->words[i]));
    return object;
}

static json_t *one_sum(const ls_view *v, const ls_log_sum *sum) {
    json_t *object = json_object();
    if (sum->lot != NULL)
        ls_report_put(object, "lot", ls_report_string(sum->lot));
    else
        ls_report_put(object, "day", ls_report_day(v, sum->day));
    ls_report_put(object, "from_stack", json_boolean(sum->from_stack));
    ls_report_put(object, "loads", json_integer((json_int_t)sum->loads));
    ls_report_put(object, "tons", ls_report_line_figure(v, sum->tons, "ton"));
    return object;
}

static json_t *sum_list(const ls_view *v, const ls_log_sum *sums, size_t n) {
    json_t *list = json_array();
    for (size_t i = 0; i < n; i++)
        ls_report_append(list, one_sum(v, &sums[i]));
    return list;
}

static json_t *places(const ls_view *v, const ls_log_sums *s) {
    json_t *list = json_array();
    for (size_t i = 0; i < s->places.n; i++) {
        const ls_place_sum *place = &s->places.at[i];
        bool stack = place->buyer == NULL;
        json_t *object = json_object();
        ls_report_put(object, "to", json_string(stack ? "stack" : "field"));
        ls_report_put(object, "buyer", ls_report_string(stack ? NULL : place->buyer->name.text));
        ls_report_put(object, "field", ls_report_string(stack ? NULL : place->field->name.text));
        ls_report_put(object, "loads", json_integer((json_int_t)place->loads));
        ls_report_put(object, "tons", ls_report_line_figure(v, place->tons, "ton"));
        ls_report_append(list, object);
    }
    return list;
}

/* Tons are 0 where no load went out. */
static json_t *all(const ls_view *v, size_t loads, ls_line tons) {
    json_t *object = json_object();
    ls_report_put(object, "loads", json_integer((json_int_t)loads));
    ls_report_put(object, "tons", loads > 0 ? ls_report_line_figure(v, tons, "ton") : json_real(0));
    return object;
}

const char *ls_report_record_json(const ls_view *v, const ls_log_sums *s) {
    json_t *document = ls_report_document(v, "record"), *entries = json_array();
    ls_report_put(document, "log", ls_report_string(s->log->path));
    for (size_t i = 0; i < s->log->entries.n; i++)
        ls_report_append(entries, one_entry(v, &s->entries[i]));
    ls_report_put(document, "entries", entries);
    ls_report_put(document, "lots", sum_list(v, s->lots.at, s->lots.n));
    ls_report_put(document, "places", places(v, s));
    ls_report_put(document, "days", sum_list(v, s->days.at, s->days.n));
    ls_report_put(document, "out_of_houses", all(v, s->house_loads, s->houses));
    ls_report_put(document, "out_of_stack", all(v, s->stack_loads, s->stack));
    return ls_report_dump(v, document);
}
