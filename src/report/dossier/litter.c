/* The litter: made, found, analyzed, stored; how old tests and papers are. */
#include "chapters.h"

#include "report/figure.h"

LS_DOC_COLUMNS(flock_columns, WORDS("house", "house"), WORDS("bird", "birds"), NUMBER("count", "number placed"),
               NUMBER("flocks", "flocks alike"), WORDS("placed", "placed"), WORDS("removed", "removed"),
               IN("made_tons", "litter made", "ton"));

static void flocks(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "flocks", "Houses and flocks", flock_columns);
    for (size_t i = 0; i < d->flocks.n; i++) {
        const ls_flock *f = d->flocks.at[i].flock;
        LS_DOC_ROW(t, flock_columns, W(d->flocks.at[i].house->name.text), W(ls_bird_name(f->birds.is)),
                   N(f->hens.n + f->males.n + f->count.n), N(ls_flock_times(f)), GIVEN_DAY(f->placed),
                   GIVEN_DAY(f->removed), L(d->flocks.at[i].made));
    }
}

LS_DOC_COLUMNS(lot_columns, WORDS("lot", "side"), IN("made_tons", "made", "ton"), IN("gone_tons", "gone", "ton"),
               IN("left_tons", "left", "ton"), IN("N_lb_per_ton", "N", "lb/ton"),
               IN("P2O5_lb_per_ton", "P2O5", "lb/ton"), IN("K2O_lb_per_ton", "K2O", "lb/ton"), DATA("laboratory"),
               DATA("report_date"), DATA("cleared"));

static void lots(ls_doc_group *g, const ls_estimate *e) {
    const ls_view *v = g->document->view;
    const ls_report_page page = {v, v->arena, NULL};
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "lots", "Litter of each side, and what is in it", lot_columns);
    for (size_t i = 0; i < e->n; i++) {
        const ls_lot *l = &e->lots[i];
        const ls_lab *lab = l->analysis->report;
        LS_DOC_ROW(t, lot_columns, W(l->name), BOOKED(l->made.line != LS_NO_LINE ? l->made.line : l->tons.line, NULL),
                   BOOKED(l->gone, NULL), BOOKED(l->tons.line, NULL), L(l->per_ton[LS_N].line),
                   L(l->per_ton[LS_P2O5].line), L(l->per_ton[LS_K2O].line), W(lab == NULL ? NULL : lab->by.text),
                   lab == NULL ? W(NULL) : GIVEN_DAY(lab->date), W(l->empty ? "yes" : "no"));
    }
    for (size_t i = 0; i < e->n; i++) {
        const ls_analysis *x = e->lots[i].analysis;
        bool method = x->report != NULL && x->report->method.text != NULL;
        ITEM(g, LS_FULL, "{}: {}{}{}", W(e->lots[i].name), W(ls_report_analysis(&page, x)), W(method ? ", by " : ""),
             W(method ? x->report->method.text : ""));
    }
}

LS_DOC_COLUMNS(method_columns, WORDS("lot", "side"), WORDS("method", "method"), IN("low", "low", "ton"),
               IN("likely", "likely", "ton"), IN("high", "high", "ton"));

static void methods(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "methods", NULL, method_columns);
    LS_EACH (const ls_dossier_method, x, d->methods) {
        LS_DOC_ROW(t, method_columns, W(x->lot), W(x->method), L(x->low), L(x->mid), L(x->high));
    }
}

LS_DOC_COLUMNS(age_columns, DATA("what"), DATA("of"), HEAD("tests and papers"), WORDS("date", "date"),
               WORDS("on", "used on"), IN("age_days", "age", "day"), IN("at_most_days", "limit", "day"),
               DATA("limit_from"), WORDS("too_old", "too old"));

static void ages(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "ages", NULL, age_columns);
    LS_EACH (const ls_dossier_age, x, d->ages) {
        LS_DOC_ROW(t, age_columns, W(x->what), W(x->of), T("{}, {}", W(x->what), W(x->of)), DAY(x->date), DAY(x->on),
                   L(x->age), L(x->limit), W(x->own != NULL ? ls_dossier_at(d, *x->own) : "usual"),
                   W(x->old ? "yes" : "no"));
    }
}

void ls_report_dossier_litter(ls_doc_group *g, const ls_dossier *d) {
    flocks(g, d);
    lots(g, d->estimate);
    methods(g, d);
    ages(g, d);
}
