#include "check_odd.h"

#include <string.h>

typedef struct {
    ls_report_page *page;
    size_t n; /* told so far */
} teller;

static const ls_figure *bound(const ls_view *v, const char *row, const char *column) {
    return ls_row_figure(ls_table_row(ls_reference_by_id(v->reference, "plausible"), row), column);
}

/* A figure beyond the bounds of a row of the table "plausible". */
static void query(teller *t, const char *of, const char *what, const ls_quantity *q,
                  const char *row) {
    const ls_view *v = t->page->view;
    ls_arena *a = t->page->arena;
    const ls_figure *low = bound(v, row, "low"), *high = bound(v, row, "high");
    if (!LS_GIVEN(*q))
        return;
    const ls_figure *passed = low != NULL && q->value < low->value     ? low
                              : high != NULL && q->value > high->value ? high
                                                                       : NULL;
    if (passed == NULL)
        return;
    if (t->n++ == 0)
        ls_report_heading(t->page, "UNUSUAL: LOOK AGAIN AT NUMBER AND UNIT");
    ls_report_item(t->page, 2, "%s: %s, %s %s (usual is %s %s; common practice)",
                   ls_diag_where(a, v->farm->diag, q->at), of, what, ls_text_plain(a, q->text),
                   passed == low ? "at least" : "at most",
                   ls_arena_printf(a, "%s %s",
                                   ls_number_text(a, passed->value / passed->unit.factor, 3),
                                   passed->unit.text));
}

static const char *row_of_yield(const ls_field *f) {
    if (ls_dimension_same(f->yield.unit.dimension, ls_unit_of("bu/ac").dimension))
        return "yield in bushels";
    if (!ls_dimension_same(f->yield.unit.dimension, ls_unit_of("ton/ac").dimension))
        return NULL;
    return f->crop.text != NULL && strstr(f->crop.text, "hay") != NULL ? "yield of hay"
                                                                       : "yield by weight";
}

static void field(teller *t, const ls_field *f) {
    const char *name = ls_report_name(t->page, f->name.text, 40), *row = row_of_yield(f);
    if (row != NULL)
        query(t, name, "yield", &f->yield, row);
    query(t, name, "nitrogen", &f->nitrogen, "nitrogen for a crop");
}

void ls_report_odd_figures(ls_report_page *p) {
    const ls_farm *farm = p->view->farm;
    teller t = {p, 0};
    for (size_t b = 0; b < farm->buyers.n; b++) {
        const ls_buyer *buyer = &farm->buyers.at[b];
        query(&t, ls_report_name(p, buyer->name.text, 40), "distance", &buyer->distance,
              "miles to a buyer");
        for (size_t i = 0; i < buyer->fields.n; i++)
            field(&t, &buyer->fields.at[i]);
    }
}
