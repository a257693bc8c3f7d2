/* How old tests, plan and calibrations were when litter went out by them. */
#include "room.h"

/* How old one may be: what the farm file says, else what is usual. */
typedef struct {
    const char *item; /* of the audit: "old soil test" */
    const char *what; /* "soil test" */
    const ls_quantity *own;
    const char *usual; /* row of the table of practice */
} kind;

/* First and newest day of the loads that count; without loads the day printed as the newest; LS_NO_DATE: not known. */
typedef struct {
    ls_date first, newest;
} span;

static void widen(span *s, ls_date day) {
    s->first = s->first == LS_NO_DATE || day < s->first ? day : s->first;
    s->newest = s->newest == LS_NO_DATE || day > s->newest ? day : s->newest;
}

static span span_of_all(const ls_dossier *d) {
    span s = {LS_NO_DATE, LS_NO_DATE};
    for (size_t i = 0; i < d->loads.n; i++) widen(&s, d->loads.at[i].hauled->day);
    return s.first != LS_NO_DATE ? s : (span){LS_NO_DATE, d->printed};
}

/* Of what this file's loads hold of a lot of a file. */
static span span_of(const ls_dossier *d, size_t file, size_t lot) {
    span s = {LS_NO_DATE, LS_NO_DATE};
    LS_EACH (const ls_dossier_piece, x, d->pieces) {
        if (x->log == 0 && x->file == file && x->lot == lot) widen(&s, x->day);
    }
    return s.first != LS_NO_DATE || file > 0 ? s : (span){LS_NO_DATE, d->printed};
}

static span span_on(const ls_dossier *d, const ls_dossier_field *f) {
    span s = {LS_NO_DATE, LS_NO_DATE};
    for (size_t i = 0; i < f->applications.n; i++) widen(&s, f->applications.at[i].load->hauled->day);
    return s.first != LS_NO_DATE ? s : (span){LS_NO_DATE, d->printed};
}

static ls_line limit_of(const ls_dossier *d, const kind *k) {
    ls_worksheet *w = d->sheet;
    const char *key = ls_printf(w, "age.%s.most", ls_text_slug(d->arena, k->what));
    const char *label = ls_printf(w, "how old may be: %s", k->what);
    return k->own != NULL && LS_GIVEN(*k->own)
               ? ls_leaf_given(w, key, label, "day", k->own)
               : ls_leaf_figure(w, key, label, "day",
                                ls_reference_need(d->books->reference, "practice", "", k->usual, "value"));
}

/* where NULL: in this file. */
static void add(ls_dossier *d, const kind *k, const char *of, const ls_day *date, span loads, const char *where) {
    ls_worksheet *w = d->sheet;
    if (!LS_GIVEN(*date) || loads.newest == LS_NO_DATE) return;
    ls_dossier_age x = {.item = k->item, .what = k->what, .of = of};
    x.where = where != NULL ? where : ls_dossier_at(d, date->at);
    double days = (double)(loads.newest - date->day);
    x.date = date->day;
    x.on = loads.newest;
    x.limit = limit_of(d, k);
    x.own = k->own != NULL && LS_GIVEN(*k->own) ? &k->own->at : NULL;
    x.age =
        ls_leaf_exact(w, ls_printf(w, "age-%zu", d->ages.n + 1), ls_printf(w, "age of the %s of %s", k->what, of),
                      "day", days * ls_unit_of("day").factor, LS_BY_LOG,
                      ls_printf(w, "%s to %s", ls_date_words(d->arena, x.date, 0), ls_date_words(d->arena, x.on, 0)));
    x.old = x.on > ls_agronomy_good_until(x.date, ls_line_value(d->sheet, x.limit));
    x.late = loads.first != LS_NO_DATE && date->day > loads.first;
    *LS_PUSH(d->arena, &d->ages) = x;
}

static void of_equipment(ls_dossier *d, span loads) {
    static const kind calibration = {"old calibration", "calibration", NULL, "calibration age"},
                      inspection = {"old inspection", "inspection", NULL, "calibration age"};
    LS_EACH (const ls_truck, t, d->farm->trucks) {
        add(d, &calibration, t->name.text, &t->calibrated, loads, NULL);
        add(d, &inspection, t->name.text, &t->inspected, loads, NULL);
    }
}

void ls_dossier_make_ages(ls_dossier *d) {
    static const kind plan = {"old plan", "nutrient management plan", NULL, "plan age"};
    const ls_farm *farm = d->farm;
    const ls_ages *ages = farm->ages;
    kind soil = {"old soil test", "soil test", ages == NULL ? NULL : &ages->soil, "soil test age"},
         litter = {"old litter analysis", "litter analysis", ages == NULL ? NULL : &ages->litter, "analysis age"};
    span loads = span_of_all(d);
    if (farm->facts != NULL && farm->facts->plan != NULL)
        add(d, &plan, "the farm", &farm->facts->plan->date, loads, NULL);
    for (size_t file = 0; file <= d->books->earlier.n; file++)
        for (size_t i = 0; i < ls_dossier_estimate(d, file)->n; i++) {
            const ls_lab *report = ls_dossier_estimate(d, file)->lots[i].analysis->report;
            if (report != NULL)
                add(d, &litter, ls_dossier_lot_name(d, file, i), &report->date, span_of(d, file, i),
                    file == 0 ? NULL : ls_dossier_file(d, file));
        }
    LS_EACH (const ls_dossier_field, f, d->fields) {
        if (f->field->soil != NULL)
            add(d, &soil, ls_dossier_name(d->arena, f->buyer, f->field), &f->field->soil->date, span_on(d, f), NULL);
    }
    of_equipment(d, loads);
}
