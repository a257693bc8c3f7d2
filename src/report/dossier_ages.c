/* How old tests, plan and calibrations were when litter went out by them. */
#include "dossier.h"

/* How old one may be: what the farm file says, else what is usual. */
typedef struct {
    const char *item; /* of the audit: "old soil test" */
    const char *what; /* "soil test" */
    const ls_quantity *own;
    const char *usual; /* row of the table of practice */
} kind;

/* The newest of the loads that count: on a field, of a lot; NULL: any. LS_NO_DATE: none. */
static ls_date newest(const ls_dossier *d, const ls_field *field, const ls_lot *lot) {
    ls_date day = LS_NO_DATE;
    for (size_t i = 0; i < d->loads.n; i++) {
        const ls_dossier_load *load = &d->loads.at[i];
        bool counts = (lot == NULL || load->lot == lot) && field == NULL;
        for (size_t k = 0; k < load->n; k++)
            counts = counts || load->drops[k].field == field;
        if (counts && (day == LS_NO_DATE || load->hauled->day > day))
            day = load->hauled->day;
    }
    return day != LS_NO_DATE ? day : d->terms.printed;
}

static ls_line limit_of(const ls_dossier *d, const kind *k) {
    const ls_view *v = d->view;
    const char *key = ls_words(v->sheet, "dossier.age.%s.most", ls_text_slug(v->arena, k->what));
    const char *label = ls_words(v->sheet, "how old may be: %s", k->what);
    ls_line line = ls_line_find(v->sheet, key);
    if (line != LS_NO_LINE)
        return line;
    return k->own != NULL && LS_GIVEN(*k->own)
               ? ls_leaf_given(v->sheet, key, label, "day", k->own)
               : ls_leaf_figure(v->sheet, key, label, "day",
                                ls_reference_need(v->reference, "practice", "", k->usual, "value"));
}

static void add(ls_dossier *d, const kind *k, const char *of, const ls_day *date, ls_date on) {
    const ls_view *v = d->view;
    const double a_day = ls_unit_of("day").factor;
    if (!LS_GIVEN(*date) || on == LS_NO_DATE)
        return;
    ls_dossier_age x = {
        k->item,    k->what,        of,
        date->at,   date->day,      on,
        LS_NO_LINE, limit_of(d, k), k->own != NULL && LS_GIVEN(*k->own) ? &k->own->at : NULL,
        false};
    double days = (double)(on - date->day);
    x.age = ls_leaf_exact(v->sheet, ls_words(v->sheet, "dossier.age-%zu", d->ages.n + 1),
                          ls_words(v->sheet, "age of the %s of %s", k->what, of), "day",
                          days * a_day, LS_BY_LOG,
                          ls_words(v->sheet, "%s to %s", ls_date_iso(v->arena, date->day),
                                   ls_date_iso(v->arena, on)));
    x.old = days * a_day > ls_line_value(v->sheet, x.limit) + 1.01 * a_day; /* leap days */
    *LS_PUSH(v->arena, &d->ages) = x;
}

static void of_equipment(ls_dossier *d, ls_date last) {
    static const kind calibration = {"old calibration", "calibration", NULL, "calibration age"},
                      inspection = {"old inspection", "inspection", NULL, "calibration age"};
    for (size_t i = 0; i < d->view->farm->trucks.n; i++) {
        const ls_truck *t = &d->view->farm->trucks.at[i];
        add(d, &calibration, t->name.text, &t->calibrated, last);
        add(d, &inspection, t->name.text, &t->inspected, last);
    }
}

void ls_dossier_make_ages(ls_dossier *d) {
    static const kind plan = {"old plan", "nutrient management plan", NULL, "plan age"};
    const ls_farm *farm = d->view->farm;
    const ls_ages *ages = farm->ages;
    kind soil = {"old soil test", "soil test", ages == NULL ? NULL : &ages->soil, "soil test age"},
         litter = {"old litter analysis", "litter analysis", ages == NULL ? NULL : &ages->litter,
                   "analysis age"};
    ls_date last = newest(d, NULL, NULL);
    if (farm->facts != NULL && farm->facts->plan != NULL)
        add(d, &plan, "the farm", &farm->facts->plan->date, last);
    for (size_t i = 0; i < d->terms.estimate->n; i++) {
        const ls_lot *lot = &d->terms.estimate->lots[i];
        if (lot->analysis->report != NULL)
            add(d, &litter, lot->name, &lot->analysis->report->date, newest(d, NULL, lot));
    }
    for (size_t i = 0; i < d->fields.n; i++) {
        const ls_dossier_field *f = &d->fields.at[i];
        if (f->field->soil != NULL)
            add(d, &soil, ls_dossier_name(d->view, f->buyer, f->field), &f->field->soil->date,
                newest(d, f->field, NULL));
    }
    of_equipment(d, last);
}
