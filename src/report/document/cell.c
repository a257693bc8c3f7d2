/* Cells of documents: made, and told in words. */
#include "document.h"

#include "report/figure.h"

#include <math.h>
#include <string.h>

ls_doc_cell ls_doc_words(const char *s) {
    return (ls_doc_cell){.kind = s == NULL ? LS_DOC_EMPTY : LS_DOC_WORDS, .line = LS_NO_LINE, .words = s};
}

ls_doc_cell ls_doc_template(const char *s, ls_doc_cell *parts, size_t n) {
    ls_doc_cell cell = W(s);
    cell.parts = n == 0 ? NULL : parts, cell.n = n;
    return cell;
}

ls_doc_cell ls_doc_of_line(ls_doc_kind kind, ls_line line, const char *unit) {
    return (ls_doc_cell){.kind = line == LS_NO_LINE ? LS_DOC_EMPTY : kind, .line = line, .unit = unit};
}

ls_doc_cell ls_doc_points(ls_q q, const char *unit) {
    ls_doc_cell cell = ls_doc_of_line(LS_DOC_POINTS, q.line, unit);
    cell.low = q.low, cell.value = q.mid, cell.high = q.high;
    return cell;
}

ls_doc_cell ls_doc_value(double value, const char *unit) {
    return (ls_doc_cell){.kind = LS_DOC_FIGURE, .line = LS_NO_LINE, .unit = unit, .value = value};
}

ls_doc_cell ls_doc_given(const ls_quantity *q, const char *unit) { return LS_GIVEN(*q) ? V(q->value, unit) : W(NULL); }

ls_doc_cell ls_doc_given_day(const ls_day *at) { return DAY(LS_GIVEN(*at) ? at->day : LS_NO_DATE); }

ls_doc_cell ls_doc_optional(ls_doc_cell words) { return words.parts[0].kind == LS_DOC_EMPTY ? W("") : words; }

ls_doc_cell ls_doc_point(const ls_q *q, double at, const char *unit) {
    ls_doc_cell cell = V(at, unit);
    cell.low = q->low, cell.high = q->high;
    return cell;
}

ls_doc_cell ls_doc_count(long n) {
    return (ls_doc_cell){.kind = LS_DOC_COUNT, .line = LS_NO_LINE, .whole = n, .value = (double)n, .unit = ""};
}

ls_doc_cell ls_doc_day(ls_date day) {
    return (ls_doc_cell){.kind = day == LS_NO_DATE ? LS_DOC_EMPTY : LS_DOC_DAY, .line = LS_NO_LINE, .day = day};
}

ls_doc_cell ls_doc_moment(ls_moment when) {
    enum { MINUTES = 24 * 60 };
    long minute = (when.second + 30) / 60;
    return (ls_doc_cell){.kind = LS_DOC_MOMENT,
                         .line = LS_NO_LINE,
                         .day = minute < MINUTES ? when.day : when.day + 1,
                         .whole = minute % MINUTES * 60};
}

ls_doc_cell ls_doc_flag(bool yes) { return (ls_doc_cell){.kind = LS_DOC_FLAG, .line = LS_NO_LINE, .value = yes}; }

ls_doc_cell ls_doc_names(const char *const *names, size_t n) {
    return (ls_doc_cell){.kind = LS_DOC_NAMES, .line = LS_NO_LINE, .names = names, .n = n};
}

ls_doc_cell ls_doc_nested(const ls_doc_group *g) {
    return (ls_doc_cell){.kind = g == NULL ? LS_DOC_EMPTY : LS_DOC_GROUP, .line = LS_NO_LINE, .group = g};
}

ls_doc_cell ls_doc_bare(ls_doc_cell cell) {
    cell.bare = true;
    return cell;
}

ls_doc_cell ls_doc_fine(ls_doc_cell cell) {
    cell.fine = true;
    return cell;
}

ls_doc_cell ls_doc_link(ls_doc_cell cell, const char *id) {
    cell.link = id;
    return cell;
}

/* ---- in words ---- */

static const char *figure(const ls_report_page *p, const ls_doc_cell *cell, double value, bool alone) {
    const char *unit = ls_report_unit(p, cell->unit);
    bool ranges = cell->high > cell->low;
    if (alone && !cell->fine && !ranges) return ls_report_amount(p, value, cell->unit);
    const char *number =
        cell->fine ? ls_number_text(p->arena, value / ls_unit_of(unit).factor, 6)
                   : ls_report_rounded(p, value, ranges ? cell->low : value, ranges ? cell->high : value, cell->unit);
    return alone ? ls_report_with_unit(p->arena, number, value, unit) : number;
}

/* To 0.01, so that the books can be added up on the page. */
static const char *booked(const ls_report_page *p, const ls_doc_cell *cell, bool alone) {
    const char *number = ls_report_booked(p, cell->value, cell->unit);
    return alone ? ls_report_with_unit(p->arena, number, cell->value, ls_report_unit(p, cell->unit)) : number;
}

/* Words with what the parts say in place of each {}. */
static const char *filled(const ls_document *d, const ls_doc_cell *cell, bool metric) {
    ls_text *t = ls_text_new(d->arena);
    const char *rest = cell->words, *mark;
    for (size_t i = 0; i < cell->n; i++) {
        if ((mark = strstr(rest, "{}")) == NULL) ls_fail("no place for a figure in: %s", cell->words);
        ls_text_add_n(t, rest, (size_t)(mark - rest));
        ls_text_add(t, ls_doc_shown(d, &cell->parts[i], NULL, metric));
        rest = mark + strlen("{}");
    }
    ls_text_add(t, rest);
    return t->s;
}

static const char *names(ls_arena *a, const ls_doc_cell *cell) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < cell->n; i++) ls_text_addf(t, "%s%s", i > 0 ? ", " : "", cell->names[i]);
    return t->s;
}

static const char *moment(const ls_document *d, const ls_doc_cell *cell) {
    const char *clock = ls_clock_words(d->arena, cell->whole);
    return cell->bare ? clock
                      : ls_arena_printf(d->arena, "%s, %s", ls_date_words(d->arena, cell->day, d->view->year), clock);
}

const char *ls_doc_shown(const ls_document *d, const ls_doc_cell *cell, const ls_doc_column *column, bool metric) {
    ls_view view = *d->view;
    view.metric = metric;
    const ls_report_page page = {&view, d->arena, NULL};
    bool alone = !cell->bare && (column == NULL || column->unit == NULL);
    switch (cell->kind) {
    case LS_DOC_WORDS: return cell->parts == NULL ? cell->words : filled(d, cell, metric);
    case LS_DOC_FIGURE: return figure(&page, cell, cell->value, alone);
    case LS_DOC_BOOKED: return booked(&page, cell, alone);
    case LS_DOC_COUNT: return ls_number_text(d->arena, cell->value, 9);
    case LS_DOC_POINTS:
        return ls_arena_printf(d->arena, "%s (%s-%s)", figure(&page, cell, cell->value, alone),
                               figure(&page, cell, cell->low, false), figure(&page, cell, cell->high, false));
    case LS_DOC_DAY: return ls_date_words(d->arena, cell->day, d->view->year);
    case LS_DOC_MOMENT: return moment(d, cell);
    case LS_DOC_FLAG: return cell->value != 0 ? "yes" : "no";
    case LS_DOC_NAMES: return names(d->arena, cell);
    case LS_DOC_EMPTY:
    case LS_DOC_GROUP: break;
    }
    return "-";
}
