/* What went on each field: tons, pounds, and pounds an acre beside their limits. */
#include "dossier.h"

#include <math.h>
#include <string.h>

static const char *const nutrients[LS_FIELD_NUTRIENTS] = {"N", "P2O5", "K2O"};
static const int in_litter[LS_FIELD_NUTRIENTS] = {LS_N, LS_P2O5, LS_K2O};

typedef LS_LIST(ls_line) line_list;

/* Tons of one lot on the field; LS_NO_LINE: none. */
static ls_line of_lot(ls_dossier *d, ls_dossier_field *f, const ls_lot *lot) {
    const ls_view *v = d->view;
    ls_worksheet *w = v->sheet;
    line_list parts = {0};
    for (size_t i = 0; i < d->loads.n; i++)
        for (size_t k = 0; k < d->loads.at[i].n; k++)
            if (d->loads.at[i].lot == lot && d->loads.at[i].drops[k].field == f->field) {
                *LS_PUSH(v->arena, &parts) = d->loads.at[i].drops[k].tons;
                f->loads++;
            }
    return parts.n == 0 ? LS_NO_LINE
                        : ls_sum(w, ls_words(w, "dossier.%s.%s.tons", f->rates->slug, lot->slug),
                                 ls_words(w, "litter of %s on %s", lot->name, f->field->name.text),
                                 "ton", parts.at, parts.n);
}

static const ls_rate *rate_of(const ls_field_rates *rates, const ls_lot *lot) {
    for (size_t i = 0; i < rates->n; i++)
        if (rates->rates[i].lot == lot)
            return &rates->rates[i];
    return NULL;
}

/* Sums over the lots that went on the field. */
typedef struct {
    line_list tons, pounds[LS_FIELD_NUTRIENTS], available;
} parts;

static void add_lot(ls_dossier *d, ls_dossier_field *f, const ls_lot *lot, parts *p) {
    ls_arena *a = d->view->arena;
    ls_worksheet *w = d->view->sheet;
    const char *slug = f->rates->slug;
    const ls_rate *rate = rate_of(f->rates, lot);
    ls_line tons = of_lot(d, f, lot);
    if (tons == LS_NO_LINE || rate == NULL)
        return;
    if (f->rate == NULL || ls_line_value(w, rate->rate) < ls_line_value(w, f->rate->rate))
        f->rate = rate;
    *LS_PUSH(a, &p->tons) = tons;
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        *LS_PUSH(a, &p->pounds[k]) =
            LS_PRODUCT(w, ls_words(w, "dossier.%s.%s.%s", slug, lot->slug, nutrients[k]),
                       ls_words(w, "%s in the litter of %s", nutrients[k], lot->name), "lb", tons,
                       lot->per_ton[in_litter[k]].line);
    *LS_PUSH(a, &p->available) = LS_PRODUCT(
        w, ls_words(w, "dossier.%s.%s.available", slug, lot->slug),
        ls_words(w, "plant-available N in the litter of %s", lot->name), "lb", tons, rate->pan);
}

/* pounds over the spreadable acres */
static ls_line on_an_acre(ls_dossier *d, const ls_dossier_field *f, const char *what, ls_line x,
                          const char *unit) {
    ls_worksheet *w = d->view->sheet;
    return ls_quotient(w, ls_words(w, "dossier.%s.%s-per-acre", f->rates->slug, what),
                       ls_words(w, "%s on an acre", what), unit, x, f->rates->spreadable);
}

static void applied(ls_dossier *d, ls_dossier_field *f) {
    ls_worksheet *w = d->view->sheet;
    const char *slug = f->rates->slug;
    parts p = {0};
    for (size_t i = 0; i < d->terms.estimate->n; i++)
        add_lot(d, f, &d->terms.estimate->lots[i], &p);
    if (p.tons.n == 0)
        return;
    f->tons = ls_sum(w, ls_words(w, "dossier.%s.tons", slug), "litter on the field", "ton",
                     p.tons.at, p.tons.n);
    f->per_acre = on_an_acre(d, f, "litter", f->tons, "ton/ac");
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
        f->pounds[k] = ls_sum(w, ls_words(w, "dossier.%s.%s", slug, nutrients[k]),
                              ls_words(w, "%s on the field", nutrients[k]), "lb", p.pounds[k].at,
                              p.pounds[k].n);
        f->on_acre[k] = on_an_acre(d, f, nutrients[k], f->pounds[k], "lb/ac");
    }
    ls_line available =
        ls_sum(w, ls_words(w, "dossier.%s.available", slug), "plant-available N on the field", "lb",
               p.available.at, p.available.n);
    f->available = on_an_acre(d, f, "available-N", available, "lb/ac");
}

/* Above the limit by more than rounding. */
static bool above(const ls_view *v, ls_line x, ls_line limit) {
    double a = ls_line_value(v->sheet, x), b = ls_line_value(v->sheet, limit);
    return x != LS_NO_LINE && limit != LS_NO_LINE && a > b * (1 + 1e-9);
}

/* The ledger with what went on now. */
static void ledger(ls_dossier *d, ls_dossier_field *f) {
    ls_worksheet *w = d->view->sheet;
    const char *slug = f->rates->slug;
    f->ledger_removed = f->rates->removal_P2O5;
    if (f->on_acre[LS_FIELD_P2O5] == LS_NO_LINE || f->ledger_removed == LS_NO_LINE)
        return;
    ls_line on = f->on_acre[LS_FIELD_P2O5];
    if (f->ledger.n > 0)
        on = LS_SUM(w, ls_words(w, "dossier.%s.ledger.with-banked", slug),
                    "P2O5 put on and left of earlier years", "lb/ac", on,
                    f->ledger.at[f->ledger.n - 1].left);
    ls_line none = ls_leaf_exact(w, ls_words(w, "dossier.%s.ledger.none", slug), "nothing", "lb/ac",
                                 0, LS_BY_DEFINITION, NULL);
    ls_line rest = ls_difference(w, ls_words(w, "dossier.%s.ledger.rest", slug),
                                 "that less what this crop takes", "lb/ac", on, f->ledger_removed);
    f->ledger_after = LS_GREATEST(w, ls_words(w, "dossier.%s.ledger.after", slug),
                                  "P2O5 left after this crop", "lb/ac", rest, none);
}

/* Tons that the plan before any load sends to the field. */
static ls_line planned(const ls_dossier *d, const ls_dossier_field *f) {
    const ls_plan *p = d->terms.plan;
    double tons = 0;
    if (p == NULL)
        return LS_NO_LINE;
    for (size_t i = 0; i < p->loads_n + p->out_n; i++) {
        const ls_load *load = i < p->loads_n ? &p->loads[i] : &p->out[i - p->loads_n];
        for (size_t k = 0; k < load->n; k++)
            if (strcmp(load->drops[k].field->slug, f->field->slug) == 0 &&
                strcmp(load->drops[k].buyer->slug, f->buyer->slug) == 0)
                tons += ls_line_value(d->terms.plan_sheet, load->drops[k].tons);
    }
    return ls_leaf_exact(d->view->sheet,
                         ls_words(d->view->sheet, "dossier.%s.planned", f->rates->slug),
                         "tons the plan sends to the field", "ton", tons, LS_BY_SPLIT,
                         "the plan as before any load");
}

static bool took(const ls_dossier *d, const ls_field *field) {
    for (size_t i = 0; i < d->loads.n; i++)
        for (size_t k = 0; k < d->loads.at[i].n; k++)
            if (d->loads.at[i].drops[k].field == field)
                return true;
    return false;
}

static bool one_field(ls_dossier *d, const ls_buyer *b, const ls_field *field) {
    const ls_view *v = d->view;
    ls_dossier_field f = {.buyer = b, .field = field};
    f.rates = ls_agronomy_field(d->terms.agronomy, b, field);
    if (f.rates == NULL)
        return false;
    f.planned = f.tons = f.per_acre = f.available = f.ledger_removed = f.ledger_after = LS_NO_LINE;
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        f.pounds[k] = f.on_acre[k] = LS_NO_LINE;
    applied(d, &f);
    ls_dossier_join(d, &f);
    ledger(d, &f);
    f.planned = planned(d, &f);
    for (size_t i = 0; f.rate == NULL && i < f.rates->n; i++)
        f.rate = &f.rates->rates[0];
    f.over_rate = f.rate != NULL && above(v, f.per_acre, f.rate->rate);
    f.over_nitrogen = above(v, f.available, f.rates->left[LS_FIELD_N]);
    f.over_phosphate = above(v, f.on_acre[LS_FIELD_P2O5], f.rates->phosphate_left);
    *LS_PUSH(v->arena, &d->fields) = f;
    return true;
}

bool ls_dossier_make_fields(ls_dossier *d) {
    const ls_farm *farm = d->view->farm;
    for (size_t b = 0; d->terms.agronomy != NULL && b < farm->buyers.n; b++)
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++) {
            const ls_field *field = &farm->buyers.at[b].fields.at[f];
            if ((d->loads.n == 0 || farm->buyers.at[b].own.yes || took(d, field)) &&
                !one_field(d, &farm->buyers.at[b], field))
                return false;
        }
    return true;
}
