/* What went on each field: tons, pounds, and pounds an acre beside their limits. */
#include "room.h"

static const char *const nutrients[LS_FIELD_NUTRIENTS] = {"N", "P2O5", "K2O"};
static const int in_litter[LS_FIELD_NUTRIENTS] = {LS_N, LS_P2O5, LS_K2O};

/* ---- amounts: of what went on, and of what was planned ---- */

/* One of the two, for a field. */
typedef struct {
    ls_dossier *d;
    ls_dossier_field *f;
    const char *lead; /* "dossier.larkspur_hay.upper_meadow" */
    const char *verb; /* "on", "planned for" */
    ls_line acres;    /* an acre is one of these */
    ls_books_lines tons, pounds[LS_FIELD_NUTRIENTS], available;
} tally;

/* Tons of one lot that went on the field; LS_NO_LINE: none. */
static ls_line gone_of(tally *t, const ls_lot *lot) {
    const ls_dossier *d = t->d;
    ls_worksheet *w = d->books->sheet;
    ls_books_lines parts = {0};
    for (size_t i = 0; i < d->loads.n; i++)
        for (size_t k = 0; k < d->loads.at[i].n; k++)
            if (d->loads.at[i].lot == lot && d->loads.at[i].drops[k].field == t->f->field) {
                *LS_PUSH(d->arena, &parts) = d->loads.at[i].drops[k].tons;
                t->f->loads++;
            }
    return parts.n == 0
               ? LS_NO_LINE
               : ls_sum(w, ls_printf(w, "%s.%s.tons", t->lead, lot->slug),
                        ls_printf(w, "litter of %s on %s", lot->name, t->f->field->name.text),
                        "ton", parts.at, parts.n);
}

static bool is_for(const ls_drop *drop, const ls_dossier_field *f) {
    return strcmp(drop->field->slug, f->field->slug) == 0 &&
           strcmp(drop->buyer->slug, f->buyer->slug) == 0;
}

/* The same of the plan before any load. */
static ls_line planned_of(tally *t, const ls_lot *lot) {
    const ls_plan *p = t->d->plan;
    ls_worksheet *w = t->d->books->sheet;
    double tons = 0;
    for (size_t i = 0; p != NULL && i < p->loads_n + p->out_n; i++) {
        const ls_load *load = ls_plan_load(p, i);
        for (size_t k = 0; k < load->n; k++)
            if (strcmp(load->lot->code, lot->code) == 0 && is_for(&load->drops[k], t->f))
                tons += ls_line_value(t->d->plan_sheet, load->drops[k].tons);
    }
    return tons <= 0 ? LS_NO_LINE
                     : ls_leaf_exact(w, ls_printf(w, "%s.%s.tons", t->lead, lot->slug),
                                     ls_printf(w, "litter of %s planned for %s", lot->name,
                                               t->f->field->name.text),
                                     "ton", tons, LS_BY_SPLIT, "the plan as before any load");
}

static const ls_rate *rate_of(const ls_field_rates *rates, const ls_lot *lot) {
    for (size_t i = 0; i < rates->n; i++)
        if (rates->rates[i].lot == lot)
            return &rates->rates[i];
    return NULL;
}

/* The rate of the field is the least one of the lots that count. */
static void rule_by(const ls_dossier *d, ls_dossier_field *f, const ls_rate *rate) {
    const ls_worksheet *w = d->books->sheet;
    if (f->rate == NULL || ls_line_value(w, rate->rate) < ls_line_value(w, f->rate->rate))
        f->rate = rate;
}

static void add_lot(tally *t, const ls_lot *lot, const ls_rate *rate, ls_line tons) {
    ls_arena *a = t->d->arena;
    ls_worksheet *w = t->d->books->sheet;
    *LS_PUSH(a, &t->tons) = tons;
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        *LS_PUSH(a, &t->pounds[k]) =
            LS_PRODUCT(w, ls_printf(w, "%s.%s.%s", t->lead, lot->slug, nutrients[k]),
                       ls_printf(w, "%s in the litter of %s", nutrients[k], lot->name), "lb", tons,
                       lot->per_ton[in_litter[k]].line);
    *LS_PUSH(a, &t->available) = LS_PRODUCT(
        w, ls_printf(w, "%s.%s.available", t->lead, lot->slug),
        ls_printf(w, "plant-available N in the litter of %s", lot->name), "lb", tons, rate->pan);
}

/* The acres that a part of a load covered: as logged, else its tons over the rate of its lot;
 * LS_NO_LINE: no rate tells. */
static ls_line covered(const tally *t, const ls_dossier_load *load, size_t k) {
    ls_worksheet *w = t->d->books->sheet;
    const ls_hauled_drop *drop = &load->hauled->drops[k];
    const ls_rate *rate = rate_of(t->f->rates, load->lot);
    const char *key = ls_printf(w, "%s.load-%ld.part-%zu.acres", t->lead,
                                (long)(load - t->d->loads.at) + 1, k + 1),
               *label = ls_printf(w, "acres that load %s covered", load->hauled->ticket);
    if (drop->acres > 0)
        return ls_leaf_exact(w, key, label, "ac", drop->acres, LS_BY_LOG, load->hauled->entry);
    if (rate == NULL || ls_line_value(w, rate->rate) <= 0)
        return LS_NO_LINE;
    return ls_quotient(w, key, label, "ac", load->drops[k].tons, rate->rate);
}

/* The spreadable acres; or, where the log gives acres of a load and all come to fewer, those that
 * its loads covered. */
static ls_line acres_of(const tally *t) {
    const ls_dossier *d = t->d;
    ls_worksheet *w = d->books->sheet;
    ls_line all = t->f->rates->spreadable;
    ls_books_lines parts = {0};
    bool logged = false;
    for (size_t i = 0; i < d->loads.n; i++)
        for (size_t k = 0; k < d->loads.at[i].n; k++) {
            if (d->loads.at[i].drops[k].field != t->f->field)
                continue;
            ls_line one = covered(t, &d->loads.at[i], k);
            if (one == LS_NO_LINE)
                return all;
            logged = logged || d->loads.at[i].hauled->drops[k].acres > 0;
            *LS_PUSH(d->arena, &parts) = one;
        }
    if (!logged)
        return all;
    ls_line sum = ls_sum(w, ls_printf(w, "%s.acres", t->lead), "acres its loads covered", "ac",
                         parts.at, parts.n);
    return ls_line_value(w, sum) < ls_line_value(w, all) ? sum : all;
}

/* Over the acres it went on. */
static ls_line on_an_acre(const tally *t, const char *what, ls_line x, const char *unit) {
    ls_worksheet *w = t->d->books->sheet;
    return ls_quotient(w, ls_printf(w, "%s.%s-per-acre", t->lead, what),
                       ls_printf(w, "%s %s on an average acre", what, t->verb), unit, x, t->acres);
}

static ls_line in_all(const tally *t, const char *key, const char *what, const char *unit,
                      const ls_books_lines *x) {
    ls_worksheet *w = t->d->books->sheet;
    return ls_sum(w, ls_printf(w, "%s.%s", t->lead, key),
                  ls_printf(w, "%s %s the field", what, t->verb), unit, x->at, x->n);
}

static void add_up(const tally *t, ls_dossier_amounts *out) {
    if (t->tons.n == 0)
        return;
    out->tons = in_all(t, "tons", "litter", "ton", &t->tons);
    out->per_acre = on_an_acre(t, "litter", out->tons, "ton/ac");
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
        out->pounds[k] = in_all(t, nutrients[k], nutrients[k], "lb", &t->pounds[k]);
        out->on_acre[k] = on_an_acre(t, nutrients[k], out->pounds[k], "lb/ac");
    }
    out->available =
        on_an_acre(t, "available-N",
                   in_all(t, "available", "plant-available N", "lb", &t->available), "lb/ac");
}

static void make_amounts(ls_dossier *d, ls_dossier_field *f, bool planned) {
    ls_worksheet *w = d->books->sheet;
    tally t = {.d = d, .f = f, .verb = planned ? "planned for" : "on"};
    t.lead = ls_printf(w, "dossier.%s%s", f->rates->slug, planned ? ".planned" : "");
    t.acres = planned ? f->rates->spreadable : acres_of(&t);
    ls_dossier_amounts *out = planned ? &f->planned : &f->actual;
    out->tons = out->per_acre = out->available = LS_NO_LINE;
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        out->pounds[k] = out->on_acre[k] = LS_NO_LINE;
    for (size_t i = 0; i < d->estimate->n; i++) {
        const ls_lot *lot = &d->estimate->lots[i];
        const ls_rate *rate = rate_of(f->rates, lot);
        ls_line tons = planned ? planned_of(&t, lot) : gone_of(&t, lot);
        if (rate == NULL || tons == LS_NO_LINE)
            continue;
        add_lot(&t, lot, rate, tons);
        if (!planned)
            rule_by(d, f, rate);
    }
    add_up(&t, out);
}

/* Above the limit by more than scales and tarps leave open. */
static bool above(ls_books *books, ls_line x, ls_line limit) {
    double a = ls_line_value(books->sheet, x), b = ls_line_value(books->sheet, limit);
    double open =
        ls_reference_need(books->reference, "practice", "", "over a limit unflagged", "value")
            ->value;
    return x != LS_NO_LINE && limit != LS_NO_LINE && a > b * (1 + open);
}

/* ---- the phosphorus ledger ---- */

/* P2O5 that the crop takes: by the yield that came, if it is known, else by the one expected. */
static ls_line removed(ls_dossier *d, const ls_dossier_field *f) {
    ls_worksheet *w = d->books->sheet;
    const ls_field *field = f->field;
    const char *slug = f->rates->slug, *unit = field->yield.unit.text;
    if (f->rates->removal_P2O5 == LS_NO_LINE || !LS_GIVEN(field->yield_got))
        return f->rates->removal_P2O5;
    ls_line share = ls_quotient(w, ls_printf(w, "dossier.%s.yield-share", slug),
                                "actual yield over the expected one", "%",
                                ls_leaf_given(w, ls_printf(w, "dossier.%s.yield-got", slug),
                                              "actual yield", unit, &field->yield_got),
                                ls_leaf_given(w, ls_printf(w, "dossier.%s.yield-expected", slug),
                                              "yield expected", unit, &field->yield));
    return LS_PRODUCT(w, ls_printf(w, "dossier.%s.removed", slug),
                      "P2O5 the crop took, by its actual yield", "lb/ac", f->rates->removal_P2O5,
                      share);
}

/* With what went on now. */
static void ledger(ls_dossier *d, ls_dossier_field *f) {
    ls_worksheet *w = d->books->sheet;
    const char *slug = f->rates->slug;
    ls_line on = f->actual.on_acre[LS_FIELD_P2O5];
    f->ledger_removed = on == LS_NO_LINE ? LS_NO_LINE : removed(d, f);
    f->ledger_after = LS_NO_LINE;
    if (f->ledger_removed == LS_NO_LINE)
        return;
    if (f->ledger.n > 0)
        on = LS_SUM(w, ls_printf(w, "dossier.%s.ledger.with-banked", slug),
                    "P2O5 applied, and left of earlier years", "lb/ac", on,
                    f->ledger.at[f->ledger.n - 1].left);
    ls_line none = ls_leaf_exact(w, ls_printf(w, "dossier.%s.ledger.none", slug), "nothing",
                                 "lb/ac", 0, LS_BY_DEFINITION, NULL);
    ls_line rest = ls_difference(w, ls_printf(w, "dossier.%s.ledger.rest", slug),
                                 "that less what this crop takes", "lb/ac", on, f->ledger_removed);
    f->ledger_after = LS_GREATEST(w, ls_printf(w, "dossier.%s.ledger.after", slug),
                                  "P2O5 left after this crop", "lb/ac", rest, none);
}

/* ---- fields ---- */

static bool took(const ls_dossier *d, const ls_field *field) {
    for (size_t i = 0; i < d->loads.n; i++)
        if (ls_dossier_on(&d->loads.at[i], field))
            return true;
    return false;
}

static bool one_field(ls_dossier *d, const ls_buyer *b, const ls_field *field) {
    ls_books *books = d->books;
    ls_dossier_field f = {.buyer = b, .field = field};
    f.rates = ls_agronomy_field(d->books->agronomy, b, field);
    if (f.rates == NULL)
        return false;
    make_amounts(d, &f, false);
    for (size_t i = 0; f.actual.tons == LS_NO_LINE && i < f.rates->n; i++)
        rule_by(d, &f, &f.rates->rates[i]);
    make_amounts(d, &f, true);
    ls_dossier_join(d, &f);
    ledger(d, &f);
    f.over_rate = f.rate != NULL && above(books, f.actual.per_acre, f.rate->rate);
    f.over_nitrogen = above(books, f.actual.available, f.rates->left[LS_FIELD_N]);
    f.over_phosphate = above(books, f.actual.on_acre[LS_FIELD_P2O5], f.rates->phosphate_left);
    *LS_PUSH(d->arena, &d->fields) = f;
    return true;
}

bool ls_dossier_make_fields(ls_dossier *d) {
    const ls_farm *farm = d->farm;
    for (size_t b = 0; d->books->agronomy != NULL && b < farm->buyers.n; b++)
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++) {
            const ls_field *field = &farm->buyers.at[b].fields.at[f];
            if ((d->loads.n == 0 || farm->buyers.at[b].own.yes || took(d, field)) &&
                !one_field(d, &farm->buyers.at[b], field))
                return false;
        }
    return true;
}
