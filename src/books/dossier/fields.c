/* What went on each field: each load by its own lot and day, and all of them on an average acre. */
#include "room.h"

static const char *const nutrients[LS_FIELD_NUTRIENTS] = {"N", "P2O5", "K2O"};
static const int in_litter[LS_FIELD_NUTRIENTS] = {LS_N, LS_P2O5, LS_K2O};

/* By the spreader of its truck; of one that is not named by the first. */
static const ls_rate *rate_of(const ls_dossier *d, const ls_field_rates *rates,
                              const ls_dossier_load *load) {
    const ls_truck *truck = load->hauled->truck;
    for (size_t i = 0; i < rates->n; i++)
        if (rates->rates[i].lot == load->lot)
            return truck == NULL ? &rates->rates[i]
                                 : ls_field_rate(rates, i, (size_t)(truck - d->farm->trucks.at));
    return NULL;
}

/* ---- each application ---- */

static const char *key_of(const ls_dossier *d, const ls_dossier_field *f,
                          const ls_dossier_application *x, const char *what) {
    return ls_printf(d->books->sheet, "dossier.%s.load-%zu.part-%zu.%s", f->rates->slug,
                     (size_t)(x->load - d->loads.at) + 1, x->part + 1, what);
}

/* "litter an acre, load NORTH-LEFT-01-Q". */
static const char *label_of(const ls_dossier *d, const ls_dossier_application *x,
                            const char *what) {
    return ls_printf(d->books->sheet, "%s, load %s", what, x->load->hauled->ticket);
}

static const ls_hauled_drop *drop_of(const ls_dossier_application *x) {
    return &x->load->hauled->drops[x->part];
}

/* The rate of the ticket as it was handed out; LS_NO_LINE: it was not, or not for this field. */
static ls_line ticket_rate(const ls_dossier *d, const ls_dossier_field *f,
                           const ls_dossier_application *x) {
    if (x->load->issued == NULL) return LS_NO_LINE;
    ls_coded_lots lots = ls_books_lots(d->arena, d->farm);
    ls_issued ticket = ls_issued_of(d->arena, d->farm, &lots, x->load->issued);
    for (size_t k = 0; k < ticket.n; k++)
        if (ticket.drops[k].field == f->field && ticket.drops[k].acres > 0)
            return ls_leaf_exact(d->books->sheet, key_of(d, f, x, "ticket-rate"),
                                 label_of(d, x, "rate of the ticket"), "ton/ac",
                                 ticket.drops[k].tons / ticket.drops[k].acres, LS_BY_LOG,
                                 ls_arena_printf(d->arena, "entry %ld of %s",
                                                 x->load->issued->number, d->log->path));
    return LS_NO_LINE;
}

/* Tons over the rate of the ticket, else over the limit; of what may not go on at all the whole
 * field is taken. */
static ls_line acres_at_rate(const ls_dossier *d, const ls_dossier_field *f,
                             const ls_dossier_application *x) {
    ls_worksheet *w = d->books->sheet;
    if (x->ticket != LS_NO_LINE)
        return ls_quotient(w, key_of(d, f, x, "acres-at-ticket"),
                           label_of(d, x, "acres at the ticket's rate"), "ac", x->tons, x->ticket);
    return ls_line_value(w, x->limit) > 0
               ? ls_quotient(w, key_of(d, f, x, "acres-at-rate"),
                             label_of(d, x, "acres at the rate"), "ac", x->tons, x->limit)
               : f->rates->spreadable;
}

/* What the acres of all its applications come to: as logged, and as the rates need them. */
static void add_acres(ls_dossier *d, ls_dossier_field *f) {
    ls_worksheet *w = d->books->sheet;
    const char *slug = f->rates->slug;
    ls_books_lines logged = {0}, needed = {0};
    for (size_t i = 0; i < f->applications.n; i++) {
        ls_dossier_application *x = &f->applications.at[i];
        double told = drop_of(x)->acres;
        if (told > 0)
            x->acres = *LS_PUSH(d->arena, &logged) =
                ls_leaf_exact(w, key_of(d, f, x, "acres"), label_of(d, x, "acres covered"), "ac",
                              told, LS_BY_LOG, x->load->hauled->entry);
        if (told <= 0 || f->field->overlap.yes)
            *LS_PUSH(d->arena, &needed) = acres_at_rate(d, f, x);
        if (told <= 0)
            x->acres = needed.at[needed.n - 1];
        else if (!f->field->overlap.yes)
            *LS_PUSH(d->arena, &needed) = x->acres;
    }
    f->logged = ls_dossier_sum(d, ls_printf(w, "dossier.%s.acres-logged", slug),
                               "acres its loads covered by the log", "ac", &logged, NULL);
    f->needed =
        ls_dossier_sum(d, ls_printf(w, "dossier.%s.acres-needed", slug),
                       "acres of its loads, as logged or at their rates", "ac", &needed, NULL);
}

/* Loads without acres share what the field has where all together would need more. */
static void share_acres(ls_dossier *d, ls_dossier_field *f) {
    ls_worksheet *w = d->books->sheet;
    if (!ls_dossier_above(d, f->needed, f->rates->spreadable)) return;
    ls_line share = ls_quotient(w, ls_printf(w, "dossier.%s.acres-share", f->rates->slug),
                                "acres to spread over those its loads need", "",
                                f->rates->spreadable, f->needed);
    for (size_t i = 0; i < f->applications.n; i++) {
        ls_dossier_application *x = &f->applications.at[i];
        if (drop_of(x)->acres <= 0)
            x->acres = LS_PRODUCT(w, key_of(d, f, x, "acres"), label_of(d, x, "acres covered"),
                                  "ac", x->acres, share);
    }
}

/* What a ton of its litter holds. */
static ls_line holds(const ls_dossier_application *x, int nutrient) {
    return x->other != NULL ? x->other->per_ton[nutrient] : x->load->lot->per_ton[nutrient].line;
}

/* In a ton of all that a part of a load holds, each by its own report; LS_NO_LINE: one has none. */
static ls_line mean(const ls_dossier *d, const ls_dossier_field *f, const ls_dossier_application *x,
                    int nutrient) {
    const ls_dossier_drop *drop = &x->load->drops[x->part];
    const char *name = ls_nutrient_key(nutrient);
    ls_worksheet *w = d->books->sheet;
    ls_books_lines pounds = {0};
    for (size_t i = 0; i < drop->litters; i++) {
        const ls_dossier_piece *p = &drop->litter[i];
        ls_line per_ton = ls_dossier_per_ton(d, p->file, p->lot, nutrient);
        if (per_ton == LS_NO_LINE || drop->litters == 1) return per_ton;
        *LS_PUSH(d->arena, &pounds) = LS_PRODUCT(
            w, key_of(d, f, x, ls_printf(w, "%s-of-%zu", name, i + 1)),
            label_of(d, x, ls_printf(w, "%s of one litter", name)), "lb", p->tons, per_ton);
    }
    return ls_quotient(w, key_of(d, f, x, ls_printf(w, "%s-in-a-ton", name)),
                       label_of(d, x, ls_printf(w, "%s in a ton", name)), "lb/ton",
                       ls_sum(w, key_of(d, f, x, ls_printf(w, "%s-in-all", name)),
                              label_of(d, x, name), "lb", pounds.at, pounds.n),
                       drop->tons);
}

/* Litter of an earlier file has the rate of its own report; several have that of what they hold
 * together. False: a mistake is noted. */
static bool own_rate(ls_dossier *d, const ls_dossier_field *f, ls_dossier_application *x) {
    const ls_dossier_drop *drop = &x->load->drops[x->part];
    bool other = false;
    ls_text *names = ls_text_new(d->arena);
    for (size_t i = 0; i < drop->litters; i++) {
        const ls_dossier_piece *p = &drop->litter[i], *before = i > 0 ? p - 1 : NULL;
        other = other || p->file > 0;
        if (before == NULL || before->file != p->file || before->lot != p->lot)
            ls_text_addf(names, "%s%s", names->n > 0 ? ", " : "",
                         ls_dossier_lot_name(d, p->file, p->lot));
    }
    x->litter = names->n > 0 ? names->s : x->load->lot->name;
    if (!other) return true;
    ls_analysis *a = LS_NEW(d->arena, ls_analysis, 1);
    a->slug = ls_arena_printf(d->arena, "load-%zu.part-%zu", (size_t)(x->load - d->loads.at) + 1,
                              x->part + 1);
    a->bird = ls_dossier_estimate(d, drop->litter->file)->lots[drop->litter->lot].analysis->bird;
    for (int k = 0; k < LS_NUTRIENTS; k++) a->per_ton[k] = mean(d, f, x, k), a->reported[k] = true;
    x->other = a;
    x->rate = ls_agronomy_rate_of(d->books->agronomy, f->rates, x->rate, a);
    return x->rate != NULL;
}

/* P2O5 on an acre with that of bought fertilizer. */
static ls_line with_bought(ls_dossier *d, const ls_dossier_field *f, const char *key,
                           const char *label, ls_line on) {
    return !ls_dossier_bought(f) || on == LS_NO_LINE
               ? on
               : LS_SUM(d->books->sheet, key, label, "lb/ac", on, f->rates->credits[LS_FIELD_P2O5]);
}

static void on_its_acres(ls_dossier *d, ls_dossier_field *f, ls_dossier_application *x) {
    ls_worksheet *w = d->books->sheet;
    x->per_acre = ls_quotient(w, key_of(d, f, x, "litter-per-acre"),
                              label_of(d, x, "litter on an acre"), "ton/ac", x->tons, x->acres);
    x->available =
        LS_PRODUCT(w, key_of(d, f, x, "available-N-per-acre"),
                   label_of(d, x, "plant-available N on an acre"), "lb/ac", x->per_acre, x->pan);
    x->phosphate =
        LS_PRODUCT(w, key_of(d, f, x, "P2O5-per-acre"), label_of(d, x, "P2O5 on an acre"), "lb/ac",
                   x->per_acre, holds(x, LS_P2O5));
    x->potash = LS_PRODUCT(w, key_of(d, f, x, "K2O-per-acre"), label_of(d, x, "K2O on an acre"),
                           "lb/ac", x->per_acre, holds(x, LS_K2O));
    x->phosphate =
        with_bought(d, f, key_of(d, f, x, "P2O5-with-bought"),
                    label_of(d, x, "P2O5 on an acre, bought fertilizer with it"), x->phosphate);
}

static bool judge(ls_dossier *d, ls_dossier_field *f) {
    ls_worksheet *w = d->books->sheet;
    for (size_t i = 0; i < f->applications.n; i++) {
        ls_dossier_application *x = &f->applications.at[i];
        x->rate = rate_of(d, f->rates, x->load);
        x->tons = x->load->drops[x->part].tons;
        if (!own_rate(d, f, x)) return false;
        x->limit = ls_agronomy_limit_on(w, f->rates, x->rate, x->load->hauled->day);
        x->ticket = ticket_rate(d, f, x);
        x->load->drops[x->part].advised = x->ticket != LS_NO_LINE ? x->ticket : x->limit;
        x->pan = ls_agronomy_pan(d->books->agronomy, f->field, x->rate, x->load->hauled);
    }
    add_acres(d, f);
    share_acres(d, f);
    for (size_t i = 0; i < f->applications.n; i++) on_its_acres(d, f, &f->applications.at[i]);
    return true;
}

/* ---- amounts: of what went on, and of what was planned ---- */

/* One of the two, for a field. */
typedef struct {
    ls_dossier *d;
    ls_dossier_field *f;
    const char *lead; /* "dossier.larkspur_hay.upper_meadow" */
    const char *verb; /* "on", "planned for" */
    ls_line acres;    /* an acre is one of these */
    ls_books_lines tons, covers, pounds[LS_FIELD_NUTRIENTS], available;
} tally;

static ls_line available_of(const ls_dossier *d, const ls_dossier_field *f,
                            const ls_dossier_application *x) {
    return LS_PRODUCT(d->books->sheet, key_of(d, f, x, "available-N"),
                      label_of(d, x, "plant-available N"), "lb", x->tons, x->pan);
}

/* A load out of the stack that holds litter of an earlier file. */
static void add_earlier(tally *t, const ls_dossier_application *x) {
    ls_arena *a = t->d->arena;
    ls_worksheet *w = t->d->books->sheet;
    *LS_PUSH(a, &t->tons) = x->tons;
    *LS_PUSH(a, &t->available) = available_of(t->d, t->f, x);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        *LS_PUSH(a, &t->pounds[k]) =
            LS_PRODUCT(w, key_of(t->d, t->f, x, nutrients[k]), label_of(t->d, x, nutrients[k]),
                       "lb", x->tons, holds(x, in_litter[k]));
}

/* Tons of one lot that went on the field; LS_NO_LINE: none. Of those worked in otherwise than
 * planned the usable nitrogen is counted load by load. */
static ls_line gone_of(tally *t, const ls_lot *lot, bool *as_planned) {
    const ls_dossier *d = t->d;
    ls_worksheet *w = d->books->sheet;
    ls_books_lines parts = {0};
    *as_planned = true;
    for (size_t i = 0; i < t->f->applications.n; i++) {
        const ls_dossier_application *x = &t->f->applications.at[i];
        if (x->load->lot != lot || x->other != NULL) continue;
        *LS_PUSH(d->arena, &parts) = x->tons;
        *as_planned = *as_planned && x->pan == x->rate->pan;
    }
    for (size_t i = 0; !*as_planned && i < t->f->applications.n; i++) {
        const ls_dossier_application *x = &t->f->applications.at[i];
        if (x->load->lot == lot && x->other == NULL)
            *LS_PUSH(d->arena, &t->available) = available_of(d, t->f, x);
    }
    return ls_dossier_sum(d, ls_printf(w, "%s.%s.tons", t->lead, lot->slug),
                          ls_printf(w, "litter of %s on %s", lot->name, t->f->field->name.text),
                          "ton", &parts, NULL);
}

static bool is_for(const ls_drop *drop, const ls_dossier_field *f) {
    return strcmp(drop->field->slug, f->field->slug) == 0 &&
           strcmp(drop->buyer->slug, f->buyer->slug) == 0;
}

/* Is it that litter, this file's or what an earlier one left in the stack? */
static bool is_of(const ls_load *load, const ls_drop *drop, const ls_lot *lot) {
    const char *by = drop->analysis->by, *lots = lot->analysis->by;
    return strcmp(load->lot->code, lot->code) == 0 &&
           (by == NULL || lots == NULL ? by == lots : strcmp(by, lots) == 0);
}

/* The same of the plan before any load, with the acres it covers at the plan's rate. */
static ls_line planned_of(tally *t, const ls_lot *lot) {
    const ls_plan *p = t->d->plan;
    const char *name = t->f->field->name.text;
    ls_worksheet *w = t->d->books->sheet;
    double tons = 0, acres = 0;
    for (size_t i = 0; p != NULL && i < p->loads_n + p->out_n; i++) {
        const ls_load *load = ls_plan_load(p, i);
        for (size_t k = 0; k < load->n; k++)
            if (is_for(&load->drops[k], t->f) && is_of(load, &load->drops[k], lot)) {
                tons += ls_line_value(t->d->plan_sheet, load->drops[k].tons);
                acres += ls_line_value(t->d->plan_sheet, load->drops[k].acres);
            }
    }
    if (tons <= 0) return LS_NO_LINE;
    static const char plan[] = "the plan as before any load";
    *LS_PUSH(t->d->arena, &t->covers) =
        ls_leaf_exact(w, ls_printf(w, "%s.%s.acres", t->lead, lot->slug),
                      ls_printf(w, "acres of %s for %s at the plan's rate", name, lot->name), "ac",
                      acres, LS_BY_SPLIT, plan);
    return ls_leaf_exact(w, ls_printf(w, "%s.%s.tons", t->lead, lot->slug),
                         ls_printf(w, "litter of %s planned for %s", lot->name, name), "ton", tons,
                         LS_BY_SPLIT, plan);
}

static void add_lot(tally *t, const ls_lot *lot, const ls_rate *rate, ls_line tons,
                    bool as_planned) {
    ls_arena *a = t->d->arena;
    ls_worksheet *w = t->d->books->sheet;
    *LS_PUSH(a, &t->tons) = tons;
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        *LS_PUSH(a, &t->pounds[k]) =
            LS_PRODUCT(w, ls_printf(w, "%s.%s.%s", t->lead, lot->slug, nutrients[k]),
                       ls_printf(w, "%s in the litter of %s", nutrients[k], lot->name), "lb", tons,
                       lot->analysis->by == NULL ? lot->per_ton[in_litter[k]].line
                                                 : lot->analysis->per_ton[in_litter[k]]);
    if (as_planned)
        *LS_PUSH(a, &t->available) =
            LS_PRODUCT(w, ls_printf(w, "%s.%s.available", t->lead, lot->slug),
                       ls_printf(w, "plant-available N in the litter of %s", lot->name), "lb", tons,
                       rate->pan);
}

/* The spreadable acres; or, where the log gives acres of a load and all come to fewer, those. */
static ls_line acres_of(const ls_dossier *d, const ls_dossier_field *f) {
    const ls_worksheet *w = d->books->sheet;
    ls_line all = f->rates->spreadable;
    bool fewer = f->logged != LS_NO_LINE && !f->field->overlap.yes &&
                 ls_line_value(w, f->needed) < ls_line_value(w, all);
    return fewer ? f->needed : all;
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

static void add_up(tally *t, ls_dossier_amounts *out) {
    if (t->tons.n == 0) return;
    if (t->covers.n > 0) t->acres = in_all(t, "acres", "acres", "ac", &t->covers);
    out->acres = t->acres;
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

/* A field to which the plan sends nothing has its rate all the same. */
static void plan_by_rate(const ls_dossier_field *f, ls_dossier_amounts *out) {
    if (out->tons != LS_NO_LINE || f->rate == NULL) return;
    out->per_acre = f->rate->rate;
    for (size_t i = 0; i < f->rates->n; i++)
        if (f->rates->rates[i].pan != f->rate->pan) /* litter of other content */
            return;
    out->available = f->rate->available_N;
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) out->on_acre[k] = f->rate->on[k];
}

static void make_amounts(ls_dossier *d, ls_dossier_field *f, bool planned) {
    ls_worksheet *w = d->books->sheet;
    tally t = {.d = d, .f = f, .verb = planned ? "planned for" : "on"};
    t.lead = ls_printf(w, "dossier.%s%s", f->rates->slug, planned ? ".planned" : "");
    t.acres = acres_of(d, f);
    ls_dossier_amounts *out = planned ? &f->planned : &f->actual;
    for (size_t i = 0; i < f->rates->n; i++) {
        const ls_rate *rate = &f->rates->rates[i];
        bool as_planned = true;
        ls_line tons = planned ? planned_of(&t, rate->lot) : gone_of(&t, rate->lot, &as_planned);
        if (tons != LS_NO_LINE) add_lot(&t, rate->lot, rate, tons, as_planned);
    }
    for (size_t i = 0; planned && i < d->farm->stacked.n; i++) {
        const ls_rate *rate = &f->rates->earlier[i];
        ls_line tons = planned_of(&t, rate->lot);
        if (tons != LS_NO_LINE) add_lot(&t, rate->lot, rate, tons, true);
    }
    for (size_t i = 0; !planned && i < f->applications.n; i++)
        if (f->applications.at[i].other != NULL) add_earlier(&t, &f->applications.at[i]);
    add_up(&t, out);
    if (planned) plan_by_rate(f, out);
}

/* The rate, if all lots that went on (all, if none did) have the same; and the least of them. */
static void set_rate(const ls_dossier *d, ls_dossier_field *f) {
    const ls_worksheet *w = d->books->sheet;
    bool spread = f->applications.n > 0, same = true;
    size_t n = spread ? f->applications.n : f->rates->n;
    for (size_t i = 0; i < n; i++) {
        const ls_rate *one = spread ? f->applications.at[i].rate : &f->rates->rates[i];
        double more = i == 0 ? -1 : ls_line_value(w, one->rate) - ls_line_value(w, f->least->rate);
        same = same && (i == 0 || more == 0);
        if (more < 0) f->least = one;
    }
    f->rate = same ? f->least : NULL;
}

/* ---- fields ---- */

static bool one_field(ls_dossier *d, ls_dossier_field f) {
    f.rates = ls_agronomy_field(d->books->agronomy, f.buyer, f.field);
    if (f.rates == NULL || !judge(d, &f)) return false;
    set_rate(d, &f);
    make_amounts(d, &f, false);
    f.phosphate = with_bought(
        d, &f, ls_printf(d->books->sheet, "dossier.%s.P2O5-with-bought", f.rates->slug),
        "P2O5 on an average acre, bought fertilizer with it", f.actual.on_acre[LS_FIELD_P2O5]);
    make_amounts(d, &f, true);
    ls_dossier_make_ledger(d, &f);
    *LS_PUSH(d->arena, &d->fields) = f;
    return true;
}

/* All fields of the files with the parts of loads that went on each. */
static ls_dossier_fields all_fields(ls_dossier *d) {
    const ls_farm *farm = d->farm;
    ls_dossier_fields all = {0};
    size_t *first = LS_NEW(d->arena, size_t, farm->buyers.n); /* of each buyer */
    for (size_t b = 0; b < farm->buyers.n; b++) {
        first[b] = all.n;
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++)
            *LS_PUSH(d->arena, &all) = (ls_dossier_field){
                .buyer = &farm->buyers.at[b], .field = &farm->buyers.at[b].fields.at[f]};
    }
    for (size_t i = 0; i < d->loads.n; i++)
        for (size_t k = 0; k < d->loads.at[i].n; k++) {
            const ls_dossier_drop *drop = &d->loads.at[i].drops[k];
            if (drop->buyer == NULL) continue;
            size_t number = first[drop->buyer - farm->buyers.at] +
                            (size_t)(drop->field - drop->buyer->fields.at);
            *LS_PUSH(d->arena, &all.at[number].applications) =
                (ls_dossier_application){.load = &d->loads.at[i], .part = k};
        }
    return all;
}

bool ls_dossier_make_fields(ls_dossier *d) {
    ls_dossier_fields all = {0};
    if (d->books->agronomy != NULL) all = all_fields(d);
    for (size_t i = 0; i < all.n; i++)
        if (!all.at[i].field->yard &&
            (d->loads.n == 0 || all.at[i].buyer->own.yes || all.at[i].applications.n > 0) &&
            !one_field(d, all.at[i]))
            return false;
    return true;
}
