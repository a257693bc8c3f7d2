/* Field by field: planned and actual beside the limits. */
#include "paper.h"

#include <string.h>

#define W(s) LS_PAPER_WORDS(s)
#define L(line, unit) LS_PAPER_LINE(line, unit)
#define ROW(p, ...) ls_paper_row((p), (const ls_paper_cell[]){__VA_ARGS__})

/* ---- crop, tests and rate ---- */

static const char *day(const ls_paper *p, const ls_day *at) {
    return LS_GIVEN(*at) ? ls_date_iso(p->arena, at->day) : "not given";
}

static const char *or_not(const char *words) {
    return words != NULL ? words : "not given";
}

static const char *with(const ls_paper *p, const char *words, const char *link, const char *more) {
    return more == NULL ? words : ls_arena_printf(p->arena, "%s%s%s", words, link, more);
}

static const char *rating(const ls_paper *p, const ls_phosphorus *ph) {
    if (ph == NULL || !LS_GIVEN(ph->rating))
        return "not given";
    const char *words = with(p, ls_rating_name(ph->rating.is), ", by ", ph->rated_by.text);
    return with(p, words, ", ", LS_GIVEN(ph->date) ? ls_date_iso(p->arena, ph->date.day) : NULL);
}

static void basis(ls_paper *p, const ls_dossier_field *f) {
    static const ls_paper_column columns[] = {{"", true}, {"", true}};
    const ls_field *field = f->field;
    const ls_soil *soil = field->soil;
    ls_paper_table(p, "Crop, tests and rate", columns, 2);
    ROW(p, W("crop"), W(or_not(field->crop.text)));
    ROW(p, W("yield expected; that came"),
        W(ls_arena_printf(p->arena, "%s; %s",
                          LS_GIVEN(field->yield) ? field->yield.text : "not given",
                          LS_GIVEN(field->yield_got) ? field->yield_got.text : "not given")));
    ROW(p, W("planted; harvested"),
        W(ls_arena_printf(p->arena, "%s; %s", day(p, &field->planted), day(p, &field->harvested))));
    ROW(p, W("soil test"),
        W(soil == NULL ? "not given" : with(p, day(p, &soil->date), ", ", soil->method.text)));
    ROW(p, W("nitrogen need"),
        W(LS_GIVEN(field->nitrogen) ? "as the laboratory or plan says" : "by the crop table"));
    ROW(p, W("phosphorus rating"), W(rating(p, field->phosphorus)));
    ROW(p, W("the rate is ruled by"), W(f->rate == NULL ? "-" : ls_limit_name(f->rate->limit)));
}

/* ---- amounts ---- */

static const ls_paper_column figures[] = {
    {"", true}, {"went on", false}, {"planned", false}, {"limit", false}};

static void acres(ls_paper *p, const ls_dossier_field *f) {
    static const ls_paper_column columns[] = {{"", true}, {"acres", false}};
    ls_paper_table(p, "Acres", columns, 2);
    ROW(p, W("of the field"), L(f->rates->area, "ac"));
    ROW(p, W("spreadable, less setbacks"), L(f->rates->spreadable, "ac"));
}

static void on_acre(ls_paper *p, const ls_dossier_field *f, const char *what, int k,
                    ls_paper_cell limit) {
    ROW(p, W(what), L(f->actual.on_acre[k], "lb/ac"), L(f->planned.on_acre[k], "lb/ac"), limit);
}

static void amounts(ls_paper *p, const ls_dossier_field *f) {
    const ls_field_rates *r = f->rates;
    const ls_dossier_amounts *x = &f->actual, *y = &f->planned;
    if (x->tons == LS_NO_LINE)
        ls_paper_say(p, "No litter went on yet.");
    ls_paper_table(p,
                   "On an acre of those that can be spread, alike over all; more than 1 % over a "
                   "limit is told",
                   figures, 4);
    ROW(p, W("litter"), L(x->per_acre, "ton/ac"), L(y->per_acre, "ton/ac"),
        L(f->rate != NULL ? f->rate->rate : LS_NO_LINE, "ton/ac"));
    ROW(p, W("plant-available N; limit: need less credits"), L(x->available, "lb/ac"),
        L(y->available, "lb/ac"), L(r->left[LS_FIELD_N], "lb/ac"));
    on_acre(p, f, "P2O5; limit: what the rating allows", LS_FIELD_P2O5,
            r->phosphate_left == LS_NO_LINE ? W("none set") : L(r->phosphate_left, "lb/ac"));
    on_acre(p, f, "K2O", LS_FIELD_K2O, W("-"));
    on_acre(p, f, "total N", LS_FIELD_N, W("-"));
    if (x->tons == LS_NO_LINE && y->tons == LS_NO_LINE)
        return;
    ls_paper_table(p, "On the whole field", figures, 3);
    ROW(p, W("litter"), L(x->tons, "ton"), L(y->tons, "ton"));
    ROW(p, W("N"), L(x->pounds[LS_FIELD_N], "lb"), L(y->pounds[LS_FIELD_N], "lb"));
    ROW(p, W("P2O5"), L(x->pounds[LS_FIELD_P2O5], "lb"), L(y->pounds[LS_FIELD_P2O5], "lb"));
    ROW(p, W("K2O"), L(x->pounds[LS_FIELD_K2O], "lb"), L(y->pounds[LS_FIELD_K2O], "lb"));
}

/* ---- phosphorus, setbacks, spreading ---- */

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
        ROW(p, W("this litter"), W("this file"), L(f->actual.on_acre[LS_FIELD_P2O5], "lb/ac"),
            L(f->ledger_removed, "lb/ac"), L(f->ledger_after, "lb/ac"));
    if (f->ledger_after != LS_NO_LINE)
        ls_paper_say(p, "What the crop took of this litter's P2O5 is reckoned by the yield %s.",
                     LS_GIVEN(f->field->yield_got) ? "that came" : "expected, none is given yet");
    for (size_t i = 0; i < f->ledger.n; i++)
        if (f->ledger.at[i].note != NULL)
            ls_paper_item(p, "%d: %s", f->ledger.at[i].year, f->ledger.at[i].note);
    if (f->joined)
        ls_paper_item(p, "The rate above does not count what earlier files tell: it goes by "
                         "ledger: and earlier_litter: of this field.");
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
                         ls_dossier_name(d->arena, f->buyer, f->field),
                         f->buyer->own.yes ? " (own field)" : "");
        basis(p, f);
        acres(p, f);
        setbacks(p, f);
        amounts(p, f);
        const char *svg = charts ? ls_dossier_chart_field(p->view, d, f, i) : NULL;
        if (svg != NULL)
            ls_paper_chart(p, "Full bar: what went on. Hatched bar: the limit.", svg);
        spreadings(p, d, f);
        ledger(p, f);
        for (size_t k = 0; k < f->rates->flags.n; k++)
            ls_paper_item(p, "%s", f->rates->flags.at[k]);
    }
}
