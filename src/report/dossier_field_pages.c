/* Field by field: planned and actual beside the limits. */
#include "dossier_paper.h"

#include <string.h>

#define W(s) LS_PAPER_WORDS(s)
#define L(line, unit) LS_PAPER_LINE(line, unit)
#define ROW(p, ...) ls_paper_row((p), (const ls_paper_cell[]){__VA_ARGS__})

static const ls_paper_column figures[] = {{"", true}, {"figure", false}, {"limit or plan", false}};

static void amounts(ls_paper *p, const ls_dossier_field *f) {
    const ls_field_rates *r = f->rates;
    ls_paper_table(p, "What went on, beside its limits", figures, 3);
    ROW(p, W("acres to spread, of all"), L(r->spreadable, "ac"), L(r->area, "ac"));
    ROW(p, W("litter: actual, planned"), L(f->tons, "ton"), L(f->planned, "ton"));
    ROW(p, W("litter on an acre: actual, rate"), L(f->per_acre, "ton/ac"),
        L(f->rate != NULL ? f->rate->rate : LS_NO_LINE, "ton/ac"));
    ROW(p, W("plant-available N: actual, need less credits"), L(f->available, "lb/ac"),
        L(r->left[LS_FIELD_N], "lb/ac"));
    ROW(p, W("total N: actual, at the rate"), L(f->on_acre[LS_FIELD_N], "lb/ac"),
        L(f->rate != NULL ? f->rate->on[LS_FIELD_N] : LS_NO_LINE, "lb/ac"));
    ROW(p, W("P2O5: actual, what the rating allows"), L(f->on_acre[LS_FIELD_P2O5], "lb/ac"),
        r->phosphate_left == LS_NO_LINE ? W("the rating sets none")
                                        : L(r->phosphate_left, "lb/ac"));
    ROW(p, W("K2O: actual, at the rate"), L(f->on_acre[LS_FIELD_K2O], "lb/ac"),
        L(f->rate != NULL ? f->rate->on[LS_FIELD_K2O] : LS_NO_LINE, "lb/ac"));
    ROW(p, W("on the whole field: N"), L(f->pounds[LS_FIELD_N], "lb"), W(""));
    ROW(p, W("on the whole field: P2O5"), L(f->pounds[LS_FIELD_P2O5], "lb"), W(""));
    ROW(p, W("on the whole field: K2O"), L(f->pounds[LS_FIELD_K2O], "lb"), W(""));
}

static const ls_paper_column ledger_columns[] = {{"year", true},
                                                 {"figures of", true},
                                                 {"P2O5 put on", false},
                                                 {"removed", false},
                                                 {"left", false}};

static void ledger(ls_paper *p, const ls_dossier_field *f) {
    if (f->ledger.n == 0 && f->ledger_after == LS_NO_LINE)
        return;
    ls_paper_table(p, "Phosphorus ledger, lb/ac of P2O5", ledger_columns, 5);
    for (size_t i = 0; i < f->ledger.n; i++) {
        const ls_dossier_ledger *y = &f->ledger.at[i];
        ROW(p, W(ls_arena_printf(p->arena, "%d", y->year)), W(y->from), L(y->on, "lb/ac"),
            L(y->removed, "lb/ac"), L(y->left, "lb/ac"));
        if (y->other != LS_NO_LINE)
            ROW(p, W(""), W("not counted: the earlier files"), L(y->other, "lb/ac"), W(""), W(""));
    }
    if (f->ledger_after != LS_NO_LINE)
        ROW(p, W("this litter"), W("this file"), L(f->on_acre[LS_FIELD_P2O5], "lb/ac"),
            L(f->ledger_removed, "lb/ac"), L(f->ledger_after, "lb/ac"));
    for (size_t i = 0; i < f->ledger.n; i++)
        if (f->ledger.at[i].note != NULL)
            ls_paper_item(p, "%d: %s", f->ledger.at[i].year, f->ledger.at[i].note);
    if (f->joined)
        ls_paper_item(p, "The rate above does not count what earlier files tell: it goes by "
                         "ledger: and earlier_litter: of this field.");
}

static const char *basis(const ls_paper *p, const ls_dossier_field *f) {
    const ls_field *field = f->field;
    const ls_phosphorus *ph = field->phosphorus;
    return ls_arena_printf(
        p->arena,
        "%s%s%s. Nitrogen need %s; phosphorus rating %s%s%s; the rate is ruled by %s. "
        "Soil test %s%s%s.",
        field->crop.text, LS_GIVEN(field->yield) ? ", expected yield " : "",
        LS_GIVEN(field->yield) ? field->yield.text : "",
        LS_GIVEN(field->nitrogen) ? "of the laboratory or plan" : "by the crop table",
        ph != NULL && LS_GIVEN(ph->rating) ? ls_rating_name(ph->rating.is) : "not given",
        ph != NULL && ph->rated_by.text != NULL ? ", by " : "",
        ph != NULL && ph->rated_by.text != NULL ? ph->rated_by.text : "",
        f->rate == NULL ? "nothing" : ls_limit_name(f->rate->limit),
        field->soil != NULL ? ls_date_iso(p->arena, field->soil->date.day) : "not given",
        field->soil != NULL && field->soil->method.text != NULL ? ", " : "",
        field->soil != NULL && field->soil->method.text != NULL ? field->soil->method.text : "");
}

static void setbacks(ls_paper *p, const ls_dossier_field *f) {
    static const ls_paper_column columns[] = {
        {"setback from", true}, {"rule", true}, {"takes", false}};
    if (f->rates->setbacks_n == 0)
        return;
    ls_paper_table(p, "Setbacks", columns, 3);
    for (size_t i = 0; i < f->rates->setbacks_n; i++) {
        const ls_field_setback *s = &f->rates->setbacks[i];
        ROW(p, W(s->setback->from.text),
            W(s->setback->rule.text != NULL ? s->setback->rule.text : "not given"),
            L(s->acres, "ac"));
    }
}

static const ls_paper_column day_columns[] = {{"entry", true}, {"date", true},
                                              {"tons", false}, {"weather before, at, after", true},
                                              {"soil", true},  {"worked in", true}};

static const char *said(const ls_log_entry *e, ls_log_word which) {
    return e != NULL && e->words[which][0] != '\0' ? e->words[which] : "-";
}

static void spreadings(ls_paper *p, const ls_dossier *d, const ls_dossier_field *f) {
    ls_paper_table(p, "Spread", day_columns, 6);
    for (size_t i = 0; i < d->loads.n; i++) {
        const ls_dossier_load *l = &d->loads.at[i];
        for (size_t k = 0; k < l->n; k++) {
            if (l->drops[k].field != f->field)
                continue;
            const char *weather = ls_arena_printf(
                p->arena, "%s; %s; %s", said(l->entry, LS_LOG_WEATHER_BEFORE),
                said(l->entry, LS_LOG_WEATHER), said(l->entry, LS_LOG_WEATHER_AFTER));
            ROW(p, W(ls_arena_printf(p->arena, "%ld", l->hauled->log_entry)),
                W(ls_date_iso(p->arena, l->hauled->day)), L(l->drops[k].tons, "ton"), W(weather),
                W(said(l->entry, LS_LOG_SOIL)), W(said(l->entry, LS_LOG_INCORPORATED)));
        }
    }
}

void ls_dossier_field_pages(ls_paper *p, const ls_dossier *d, bool charts) {
    ls_paper_heading(p, 2, "fields", "Fields");
    if (d->fields.n == 0)
        ls_paper_say(p, "No field got litter, or none is named.");
    for (size_t i = 0; i < d->joins.n; i++)
        ls_paper_item(p, "%s", d->joins.at[i]);
    for (size_t i = 0; i < d->fields.n; i++) {
        const ls_dossier_field *f = &d->fields.at[i];
        ls_paper_heading(p, 3, ls_arena_printf(p->arena, "field%zu", i + 1), "%s%s",
                         ls_dossier_name(d->view, f->buyer, f->field),
                         f->buyer->own.yes ? " (own field)" : "");
        ls_paper_say(p, "%s", basis(p, f));
        amounts(p, f);
        const char *svg = charts ? ls_dossier_chart_field(d, f, i) : NULL;
        if (svg != NULL)
            ls_paper_chart(p, "Full bar: what went on. Hatched bar: the limit.", svg);
        setbacks(p, f);
        spreadings(p, d, f);
        ledger(p, f);
        for (size_t k = 0; k < f->rates->flags.n; k++)
            ls_paper_item(p, "%s", f->rates->flags.at[k]);
    }
}
