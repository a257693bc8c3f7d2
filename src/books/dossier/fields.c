/* What went on each field: each load by its own lot and day, and all of them on an average acre. */
#include "room.h"

/* By the spreader of its truck; of one that is not named by the first. */
static const ls_rate *rate_of(const ls_dossier *d, const ls_field_rates *rates, const ls_dossier_load *load) {
    const ls_truck *truck = load->hauled->truck;
    for (size_t i = 0; i < rates->n; i++)
        if (rates->rates[i].lot == load->lot)
            return truck == NULL ? &rates->rates[i] : ls_field_rate(rates, i, (size_t)(truck - d->farm->trucks.at));
    return NULL;
}

/* ---- each application ---- */

static const ls_hauled_drop *drop_of(const ls_dossier_application *x) { return &x->load->hauled->drops[x->part]; }

/* The rate of the ticket as it was handed out; LS_NO_LINE: it was not, or not for this field. */
static ls_line ticket_rate(const ls_dossier *d, const ls_dossier_application *x) {
    return drop_of(x)->rate > 0
               ? ls_leaf_exact(x->sheet, "ticket-rate", "rate of the ticket, %s", "ton/ac", drop_of(x)->rate, LS_BY_LOG,
                               ls_printf(x->sheet, "entry %ld of %s", x->load->hauled->issue, d->log->path))
               : LS_NO_LINE;
}

/* Tons over the rate of the ticket, else over the limit; of what may not go on at all the whole field is taken. */
static ls_line acres_at_rate(const ls_dossier_field *f, const ls_dossier_application *x) {
    ls_worksheet *w = x->sheet;
    return x->ticket != LS_NO_LINE
               ? ls_quotient(w, "acres-at-ticket", "acres at the ticket's rate, %s", "ac", x->tons, x->ticket)
           : ls_line_value(w, x->limit) > 0
               ? ls_quotient(w, "acres-at-rate", "acres at the rate, %s", "ac", x->tons, x->limit)
               : f->rates->spreadable;
}

/* What the acres of all its applications come to: as logged, and as the rates need them. */
static void add_acres(ls_dossier *d, ls_dossier_field *f) {
    ls_books_lines logged = {0}, needed = {0};
    bool overlap = f->field->overlap.yes;
    LS_EACH (ls_dossier_application, x, f->applications) {
        double told = drop_of(x)->acres;
        if (told > 0)
            *LS_PUSH(d->arena, &logged) =
                ls_leaf_exact(x->sheet, "acres", "acres covered, %s", "ac", told, LS_BY_LOG, x->load->hauled->entry);
        ls_line at_rate = told <= 0 || overlap ? acres_at_rate(f, x) : LS_NO_LINE;
        x->acres = told > 0 ? logged.at[logged.n - 1] : at_rate;
        *LS_PUSH(d->arena, &needed) = overlap ? at_rate : x->acres;
    }
    f->logged = ls_sum(f->sheet, "acres-logged", "acres its loads covered by the log", "ac", logged.at, logged.n);
    f->needed =
        ls_sum(f->sheet, "acres-needed", "acres of its loads, as logged or at their rates", "ac", needed.at, needed.n);
}

/* Crowded loads without acres share what those with acres leave; if nothing, or with overlap, all lie on all of it. */
static void share_acres(ls_dossier *d, ls_dossier_field *f) {
    ls_line all = f->rates->spreadable, needed = f->needed;
    if (!ls_dossier_above(d, needed, all)) return;
    if (!f->field->overlap.yes && ls_line_value(f->sheet, f->logged) < ls_line_value(f->sheet, all)) {
        all = ls_difference(f->sheet, "acres-left", "acres to spread less those logged", "ac", all, f->logged);
        needed = ls_difference(f->sheet, "acres-open", "acres that loads without acres need", "ac", needed, f->logged);
    }
    ls_line share = ls_quotient(f->sheet, "acres-share", "acres left over those its loads need", "", all, needed);
    LS_EACH (ls_dossier_application, x, f->applications)
        if (drop_of(x)->acres <= 0)
            x->acres = LS_PRODUCT(x->sheet, "acres", "acres covered, %s", "ac", x->acres, share);
}

/* What a ton of litter holds, by the report of the file that made it. */
static ls_line holds(const ls_lot *lot, int nutrient) {
    return lot->analysis->by != NULL ? lot->analysis->per_ton[nutrient] : lot->per_ton[nutrient].line;
}

/* In a ton of all that a part of a load holds, each by its own report; LS_NO_LINE: one has none. */
static ls_line mean(const ls_dossier *d, const ls_dossier_application *x, int nutrient) {
    const ls_dossier_drop *drop = &x->load->drops[x->part];
    const char *name = ls_nutrient_key(nutrient);
    ls_worksheet *w = x->sheet;
    ls_books_lines pounds = {0};
    LS_EACH_OF (const ls_dossier_piece, p, drop->litter, drop->litters) {
        ls_line per_ton = ls_dossier_per_ton(d, p->file, p->lot, nutrient);
        if (per_ton == LS_NO_LINE || drop->litters == 1) return per_ton;
        *LS_PUSH(d->arena, &pounds) = LS_PRODUCT(w, ls_printf(w, "%s-of-%zu", name, (size_t)(p - drop->litter) + 1),
                                                 ls_printf(w, "%s of one litter, %%s", name), "lb", p->tons, per_ton);
    }
    ls_line all = ls_sum(w, ls_printf(w, "%s-in-all", name), ls_printf(w, "%s, %%s", name), "lb", pounds.at, pounds.n);
    return ls_quotient(w, ls_printf(w, "%s-in-a-ton", name), ls_printf(w, "%s in a ton, %%s", name), "lb/ton", all,
                       drop->tons);
}

/* Litter of an earlier file has the rate of its own report; several have that of what they hold
 * together. False: a mistake is noted. */
static bool own_rate(ls_dossier *d, const ls_dossier_field *f, ls_dossier_application *x) {
    const ls_dossier_drop *drop = &x->load->drops[x->part];
    bool other = false;
    ls_text *names = ls_text_new(d->arena);
    LS_EACH_OF (const ls_dossier_piece, p, drop->litter, drop->litters) {
        other = other || p->file > 0;
        if (p == drop->litter || p[-1].file != p->file || p[-1].lot != p->lot)
            ls_text_addf(names, "%s%s", names->n > 0 ? ", " : "", ls_dossier_lot_name(d, p->file, p->lot));
    }
    x->litter = names->n > 0 ? names->s : x->load->lot->name;
    if (!other) return true;
    ls_analysis *a = LS_NEW(d->arena, ls_analysis, 1);
    a->slug =
        ls_arena_printf(d->arena, "load-%zu.part-%zu", (size_t)(x->load->hauled - d->farm->hauled.at) + 1, x->part + 1);
    a->by = x->litter;
    a->bird = ls_dossier_estimate(d, drop->litter->file)->lots[drop->litter->lot].analysis->bird;
    for (int k = 0; k < LS_NUTRIENTS; k++) a->per_ton[k] = mean(d, x, k), a->reported[k] = true;
    x->rate = ls_agronomy_rate_of(d->books->agronomy, f->rates, x->rate, a);
    return x->rate != NULL;
}

/* P2O5 on an acre with that of bought fertilizer. */
static ls_line with_bought(const ls_dossier_field *f, ls_worksheet *w, const char *label, ls_line on) {
    return !ls_dossier_bought(f) || on == LS_NO_LINE
               ? on
               : LS_SUM(w, "P2O5-with-bought", label, "lb/ac", on, f->rates->credits[LS_FIELD_P2O5]);
}

static void on_its_acres(const ls_dossier_field *f, ls_dossier_application *x) {
    ls_worksheet *w = x->sheet;
    x->per_acre = ls_quotient(w, "litter-per-acre", "litter on an acre, %s", "ton/ac", x->tons, x->acres);
    x->available =
        LS_PRODUCT(w, "available-N-per-acre", "plant-available N on an acre, %s", "lb/ac", x->per_acre, x->pan);
    x->phosphate =
        LS_PRODUCT(w, "P2O5-per-acre", "P2O5 on an acre, %s", "lb/ac", x->per_acre, holds(x->rate->lot, LS_P2O5));
    x->potash = LS_PRODUCT(w, "K2O-per-acre", "K2O on an acre, %s", "lb/ac", x->per_acre, holds(x->rate->lot, LS_K2O));
    x->with_bought = with_bought(f, w, "P2O5 on an acre, bought fertilizer with it, %s", x->phosphate);
}

static bool judge(ls_dossier *d, ls_dossier_field *f) {
    LS_EACH (ls_dossier_application, x, f->applications) {
        x->sheet = ls_part(f->sheet, ls_arena_printf(d->arena, "load %s", x->load->hauled->ticket), "load-%zu.part-%zu",
                           (size_t)(x->load->hauled - d->farm->hauled.at) + 1, x->part + 1);
        x->rate = rate_of(d, f->rates, x->load);
        x->tons = x->load->drops[x->part].tons;
        if (!own_rate(d, f, x)) return false;
        x->limit = ls_agronomy_limit_on(d->sheet, f->rates, x->rate, x->load->hauled->day);
        x->ticket = ticket_rate(d, x);
        x->load->drops[x->part].advised = x->ticket != LS_NO_LINE ? x->ticket : x->limit;
        x->pan = ls_agronomy_pan(d->books->agronomy, f->field, x->rate, x->load->hauled);
    }
    add_acres(d, f);
    share_acres(d, f);
    LS_EACH (ls_dossier_application, x, f->applications) on_its_acres(f, x);
    return true;
}

/* ---- amounts: of what went on, and of what was planned ---- */

/* One of the two, for a field. */
typedef struct {
    ls_dossier *d;
    ls_dossier_field *f;
    ls_worksheet *w; /* labels: "on", "planned for" the field */
    ls_line acres;   /* an acre is one of these */
    ls_books_lines tons, covers, pounds[LS_FIELD_NUTRIENTS], available;
} tally;

/* Tons of one litter with what they hold; LS_NO_LINE: none. */
static void add(tally *t, ls_worksheet *w, const ls_lot *lot, ls_line tons, ls_line pan) {
    ls_arena *a = t->d->arena;
    if (tons == LS_NO_LINE) return;
    *LS_PUSH(a, &t->tons) = tons;
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        *LS_PUSH(a, &t->pounds[k]) =
            LS_PRODUCT(w, ls_field_nutrient[k], ls_printf(w, "%s in the litter of %%s", ls_field_nutrient[k]), "lb",
                       tons, holds(lot, ls_in_litter[k]));
    *LS_PUSH(a, &t->available) = LS_PRODUCT(w, "available", "plant-available N in the litter of %s", "lb", tons, pan);
}

/* Of one litter, worked in alike? */
static bool alike(const ls_dossier_application *a, const ls_dossier_application *b) {
    return a->rate->lot == b->rate->lot && a->pan == b->pan;
}

/* The loads on the field, those alike together. */
static void add_gone(tally *t) {
    const ls_dossier_application *all = t->f->applications.at;
    for (size_t i = 0; i < t->f->applications.n; i++) {
        const ls_dossier_application *x = &all[i];
        const ls_lot *lot = x->rate->lot;
        ls_books_lines parts = {0};
        size_t first = 0, of_lot = 0;
        while (all[of_lot].rate->lot != lot) of_lot++;
        while (!alike(&all[first], x)) first++;
        for (size_t k = first; first == i && k < t->f->applications.n; k++)
            if (alike(&all[k], x)) *LS_PUSH(t->d->arena, &parts) = all[k].tons;
        if (first < i) continue;
        ls_worksheet *w =
            ls_part(t->w, x->litter, "%s%s", lot->slug, of_lot == i ? "" : ls_printf(t->w, ".kind-%zu", i + 1));
        add(t, w, lot,
            ls_sum(w, "tons", ls_printf(w, "litter of %%s on %s", t->f->field->name.text), "ton", parts.at, parts.n),
            x->pan);
    }
}

static bool is_for(const ls_drop *drop, const ls_dossier_field *f) {
    return strcmp(drop->field->slug, f->field->slug) == 0 && strcmp(drop->buyer->slug, f->buyer->slug) == 0;
}

/* Is it that litter, this file's or what an earlier one left in the stack? */
static bool is_of(const ls_load *load, const ls_drop *drop, const ls_lot *lot) {
    const char *by = drop->analysis->by, *lots = lot->analysis->by;
    return strcmp(load->lot->code, lot->code) == 0 && (by == NULL || lots == NULL ? by == lots : strcmp(by, lots) == 0);
}

/* Litter of one lot in the plan before any load, with the acres it covers at the plan's rate. */
static void add_planned(tally *t, const ls_rate *rate) {
    const ls_plan *p = t->d->plan;
    const ls_lot *lot = rate->lot;
    const char *name = t->f->field->name.text;
    double tons = 0, acres = 0;
    for (size_t i = 0; p != NULL && i < p->loads_n + p->out_n; i++)
        LS_EACH_OF (const ls_drop, drop, ls_plan_load(p, i)->drops, ls_plan_load(p, i)->n)
            if (is_for(drop, t->f) && is_of(ls_plan_load(p, i), drop, lot)) {
                tons += ls_line_value(t->d->plan_sheet, drop->tons);
                acres += ls_line_value(t->d->plan_sheet, drop->acres);
            }
    if (tons <= 0) return;
    static const char plan[] = "the plan as before any load";
    ls_worksheet *w = ls_part(t->w, lot->name, "%s", lot->slug);
    *LS_PUSH(t->d->arena, &t->covers) = ls_leaf_exact(
        w, "acres", ls_printf(w, "acres of %s for %%s at the plan's rate", name), "ac", acres, LS_BY_SPLIT, plan);
    add(t, w, lot,
        ls_leaf_exact(w, "tons", ls_printf(w, "litter of %%s planned for %s", name), "ton", tons, LS_BY_SPLIT, plan),
        rate->pan);
}

/* The spreadable acres; or, where the log gives acres of a load and all come to fewer, those. */
static ls_line acres_of(const ls_dossier_field *f) {
    ls_line all = f->rates->spreadable;
    bool fewer = f->logged != LS_NO_LINE && !f->field->overlap.yes &&
                 ls_line_value(f->sheet, f->needed) < ls_line_value(f->sheet, all);
    return fewer ? f->needed : all;
}

static ls_line in_all(const tally *t, const char *key, const char *what, const char *unit, const ls_books_lines *x) {
    return ls_sum(t->w, key, ls_printf(t->w, "%s %%s the field", what), unit, x->at, x->n);
}

/* Over the acres it went on. */
static ls_line on_an_acre(const tally *t, const char *what, ls_line x, const char *unit) {
    return ls_quotient(t->w, ls_printf(t->w, "%s-per-acre", what), ls_printf(t->w, "%s %%s an average acre", what),
                       unit, x, t->acres);
}

static void add_up(tally *t, ls_dossier_amounts *out) {
    if (t->tons.n == 0) return;
    if (t->covers.n > 0) t->acres = in_all(t, "acres", "acres", "ac", &t->covers);
    out->acres = t->acres;
    out->tons = in_all(t, "tons", "litter", "ton", &t->tons);
    out->per_acre = on_an_acre(t, "litter", out->tons, "ton/ac");
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
        const char *name = ls_field_nutrient[k];
        out->pounds[k] = in_all(t, name, name, "lb", &t->pounds[k]);
        out->on_acre[k] = on_an_acre(t, name, out->pounds[k], "lb/ac");
    }
    out->available =
        on_an_acre(t, "available-N", in_all(t, "available", "plant-available N", "lb", &t->available), "lb/ac");
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

static void make_amounts(ls_dossier *d, ls_dossier_field *f) {
    tally on = {.d = d, .f = f, .w = ls_part(f->sheet, "on", "%s", ""), .acres = acres_of(f)}, planned = on;
    add_gone(&on);
    add_up(&on, &f->actual);
    planned.w = ls_part(f->sheet, "planned for", "planned");
    LS_EACH_OF (const ls_rate, rate, f->rates->rates, f->rates->n) add_planned(&planned, rate);
    for (size_t i = 0; i < d->farm->stacked.n; i++) add_planned(&planned, &f->rates->earlier[i]);
    add_up(&planned, &f->planned);
    plan_by_rate(f, &f->planned);
}

/* The rate, if all lots that went on (all, if none did) have the same; and the least of them. */
static void set_rate(const ls_dossier *d, ls_dossier_field *f) {
    const ls_worksheet *w = d->sheet;
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
    if (f.rates == NULL) return false;
    f.sheet = ls_part(d->sheet, NULL, "%s", f.rates->slug);
    if (!judge(d, &f)) return false;
    set_rate(d, &f);
    make_amounts(d, &f);
    f.phosphate =
        with_bought(&f, f.sheet, "P2O5 on an average acre, bought fertilizer with it", f.actual.on_acre[LS_FIELD_P2O5]);
    ls_dossier_make_ledger(&f);
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
            *LS_PUSH(d->arena, &all) =
                (ls_dossier_field){.buyer = &farm->buyers.at[b], .field = &farm->buyers.at[b].fields.at[f]};
    }
    for (size_t i = 0; i < d->loads.n; i++)
        for (size_t k = 0; k < d->loads.at[i].n; k++) {
            const ls_dossier_drop *drop = &d->loads.at[i].drops[k];
            if (drop->buyer == NULL) continue;
            size_t number = first[drop->buyer - farm->buyers.at] + (size_t)(drop->field - drop->buyer->fields.at);
            *LS_PUSH(d->arena, &all.at[number].applications) =
                (ls_dossier_application){.load = &d->loads.at[i], .part = k};
        }
    return all;
}

bool ls_dossier_make_fields(ls_dossier *d) {
    ls_dossier_fields all = {0};
    if (d->books->agronomy != NULL) all = all_fields(d);
    for (size_t i = 0; i < all.n; i++)
        if (!all.at[i].field->yard && (d->loads.n == 0 || all.at[i].buyer->own.yes || all.at[i].applications.n > 0) &&
            !one_field(d, all.at[i]))
            return false;
    return true;
}
