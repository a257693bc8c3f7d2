/* How a line came about, for a reader. */
#include "ops.h"

enum { DIGITS = 6 };

static const char *amount(ls_arena *a, const ls_entry *e) {
    return ls_unit_amount(a, ls_number_text(a, e->value / e->unit.factor, DIGITS), e->unit.text);
}

static const char *over_inputs(ls_arena *a, const ls_worksheet *w, ls_line line, bool in_numbers) {
    const ls_entry *e = ls_line_at(w, line);
    if (e == NULL || e->op == LS_OP_LEAF) return "";
    const char **x = LS_NEW(a, const char *, e->n + 1);
    for (size_t i = 0; i < e->n; i++) {
        const ls_entry *in = ls_worksheet_input(w, e, i);
        x[i] = in_numbers ? amount(a, in) : in->label;
    }
    x[e->n] = in_numbers && ls_text_same(ls_worksheet_input(w, e, 0)->unit.text, "%") ? "100%" : "1";
    ls_text *t = ls_text_new(a);
    ls_worksheet_words(t, e, x);
    return t->s;
}

const char *ls_line_formula(ls_arena *a, const ls_worksheet *w, ls_line line) { return over_inputs(a, w, line, false); }

const char *ls_line_numbers(ls_arena *a, const ls_worksheet *w, ls_line line) { return over_inputs(a, w, line, true); }

static void add_source(ls_text *t, const ls_figure *f) {
    if (f->source != NULL) ls_text_addf(t, "%s, %s, %s", f->source->id, f->source->who, f->source->title);
    if (f->source == NULL)
        ls_text_add(t, ls_status_words(f->status));
    else if (f->status != LS_READ)
        ls_text_addf(t, " (%s)", ls_status_words(f->status));
    if (f->own != NULL) ls_text_addf(t, "; from the farm's own tables, %s", f->own);
}

static void add_place(ls_text *t, ls_place at, const ls_diag *d) {
    const char *where = d == NULL ? "" : ls_diag_where(t->arena, d, at);
    ls_text_add(t, where[0] == '\0' ? "farm file" : where);
}

static const char *kind_words(ls_origin_kind kind) {
    switch (kind) {
    case LS_BY_LOG: return "haul log";
    case LS_BY_OPTION: return "command line";
    case LS_BY_SPLIT: return "decided by the split of loads to fields";
    case LS_BY_SIMULATION: return "point of the drawn values";
    case LS_BY_DAYS: return "simulation of the days, load by load";
    case LS_BY_FIRST_PASS: return "fixed in a first pass, before drawing";
    case LS_BY_DEFINITION: return "exact by definition";
    case LS_BY_OPERATION:
    case LS_BY_FARM:
    case LS_BY_TABLE: break;
    }
    return "computed";
}

const char *ls_line_origin(ls_arena *a, const ls_worksheet *w, ls_line line, const ls_diag *d) {
    const ls_entry *e = ls_line_at(w, line);
    if (e == NULL) return "";
    ls_text *t = ls_text_new(a);
    if (e->origin.kind == LS_BY_FARM)
        add_place(t, e->origin.at, d);
    else if (e->origin.kind == LS_BY_TABLE && e->origin.figure != NULL)
        add_source(t, e->origin.figure);
    else
        ls_text_add(t, kind_words(e->origin.kind));
    if (e->origin.words != NULL) ls_text_addf(t, ": %s", e->origin.words);
    return t->s;
}
