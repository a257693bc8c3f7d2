#include "put.h"

#include <string.h>

LS_DOC_COLUMNS(columns, WORDS("where", "where"), WORDS("of", "of"), WORDS("what", "what"),
               WORDS("given", "given"), WORDS("usual", "usual (common practice)"));

static const ls_figure *bound(const ls_view *v, const char *row, const char *column) {
    return ls_row_figure(ls_table_row(ls_reference_by_id(v->reference, "plausible"), row), column);
}

/* A figure beyond the bounds of a row of the table "plausible". */
static void query(ls_doc_table t, const char *of, const char *what, const ls_quantity *q,
                  const char *row) {
    const ls_view *v = t.group->document->view;
    const ls_figure *low = bound(v, row, "low"), *high = bound(v, row, "high");
    if (!LS_GIVEN(*q))
        return;
    const ls_figure *passed = low != NULL && q->value < low->value     ? low
                              : high != NULL && q->value > high->value ? high
                                                                       : NULL;
    if (passed != NULL)
        LS_DOC_ROW(
            t, columns, W(ls_diag_where(v->arena, v->farm->diag, q->at)), W(of), W(what),
            W(q->text),
            T(passed == low ? "at least {}" : "at most {}", V(passed->value, passed->unit.text)));
}

static const char *row_of_yield(const ls_field *f) {
    if (ls_dimension_same(f->yield.unit.dimension, ls_unit_of("bu/ac").dimension))
        return "yield in bushels";
    if (!ls_dimension_same(f->yield.unit.dimension, ls_unit_of("ton/ac").dimension))
        return NULL;
    return f->crop.text != NULL && strstr(f->crop.text, "hay") != NULL ? "yield of hay"
                                                                       : "yield by weight";
}

void ls_report_put_odd_figures(ls_doc_group *top) {
    const ls_farm *farm = top->document->view->farm;
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, "UNUSUAL: LOOK AGAIN AT NUMBER AND UNIT");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "unusual", NULL, columns);
    for (size_t b = 0; b < farm->buyers.n; b++) {
        const ls_buyer *buyer = &farm->buyers.at[b];
        query(t, buyer->name.text, "distance", &buyer->distance, "miles to a buyer");
        for (size_t i = 0; i < buyer->fields.n; i++) {
            const ls_field *f = &buyer->fields.at[i];
            const char *row = row_of_yield(f);
            if (row != NULL)
                query(t, f->name.text, "yield", &f->yield, row);
            query(t, f->name.text, "nitrogen", &f->nitrogen, "nitrogen for a crop");
        }
    }
}

const char *ls_report_named(ls_arena *a, const ls_report_list *list) {
    enum { MOST_NAMED = 3 };
    ls_text *t = ls_text_new(a);
    size_t shown = list->n > MOST_NAMED + 1 ? MOST_NAMED : list->n;
    for (size_t i = 0; i < shown; i++)
        ls_text_addf(t, "%s%s", i > 0 ? ", " : "", list->at[i]);
    if (shown < list->n)
        ls_text_addf(t, " and %zu more", list->n - shown);
    return t->s;
}
