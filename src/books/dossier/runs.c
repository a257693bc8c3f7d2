/* What spreaders put out, beside what they were set to. */
#include "room.h"

/* Found less set, as a share of it. */
static ls_line off(ls_worksheet *w, ls_line found, ls_line set) {
    return ls_quotient(w, "off", "that as a share of the rate set", "%",
                       ls_difference(w, "more", "rate found less rate set", "ton/ac", found, set), set);
}

static ls_line given(ls_worksheet *w, const char *key, const char *label, const char *unit, const ls_quantity *q) {
    return LS_GIVEN(*q) ? ls_leaf_given(w, key, label, unit, q) : LS_NO_LINE;
}

static ls_line area_of(ls_worksheet *w, const ls_truck *truck, const ls_spreader_run *run) {
    const ls_quantity *swath = LS_GIVEN(run->swath) ? &run->swath : &truck->swath;
    if (LS_GIVEN(run->tarp)) return given(w, "tarp", "area of the tarp", "ft2", &run->tarp);
    return LS_PRODUCT(w, "area", "area of the run", "ft2",
                      given(w, "distance", "distance driven", "ft", &run->distance),
                      given(w, "swath", "width of the pass", "ft", swath));
}

static void add_run(ls_dossier *d, size_t truck, size_t run) {
    const ls_truck *t = &d->farm->trucks.at[truck];
    const ls_spreader_run *r = &t->runs.at[run];
    ls_worksheet *w = ls_part(d->sheet, NULL, "truck-%zu.run-%zu", truck + 1, run + 1);
    bool tarp = LS_GIVEN(r->tarp);
    ls_dossier_run x = {.truck = t, .day = r->date.day};
    x.net = given(w, "net", tarp ? "net weight on the tarp" : "net weight spread", tarp ? "lb" : "ton", &r->net);
    x.area = area_of(w, t, r);
    x.found = ls_quotient(w, "found", "rate found", "ton/ac", x.net, x.area);
    x.set = given(w, "set", "rate it was set to", "ton/ac", &r->set);
    x.off = off(w, x.found, x.set);
    *LS_PUSH(d->arena, &d->runs) = x;
}

static bool alike(const ls_dossier *d, const ls_dossier_run *a, const ls_dossier_run *b) {
    const ls_worksheet *w = d->sheet;
    return a->truck == b->truck && a->set != LS_NO_LINE && b->set != LS_NO_LINE &&
           ls_line_value(w, a->set) == ls_line_value(w, b->set);
}

/* The mean of all runs at the setting of run i, told with the first of them. */
static void add_setting(ls_dossier *d, size_t i) {
    const ls_dossier_run *x = &d->runs.at[i];
    ls_books_lines found = {0};
    for (size_t k = 0; k < d->runs.n; k++) {
        if (!alike(d, x, &d->runs.at[k])) continue;
        if (k < i) return;
        *LS_PUSH(d->arena, &found) = d->runs.at[k].found;
    }
    if (found.n == 0) return;
    ls_worksheet *w = ls_part(d->sheet, NULL, "setting-%zu", d->settings.n + 1);
    ls_line sum = ls_sum(w, "sum", "rates found, all runs", "ton/ac", found.at, found.n),
            n = ls_leaf_exact(w, "runs", "runs", "", (double)found.n, LS_BY_FARM, "runs at that setting"),
            mean = ls_quotient(w, "mean", "mean of the rates found", "ton/ac", sum, n);
    *LS_PUSH(d->arena, &d->settings) = (ls_dossier_setting){x->truck, found.n, x->set, mean, off(w, mean, x->set)};
}

/* A load over acres that the log gives. */
static void add_load(ls_dossier *d, const ls_dossier_application *a) {
    const ls_hauled *h = a->load->hauled;
    if (h->drops[a->part].acres <= 0) return;
    ls_line more = off(ls_part(a->sheet, NULL, "run"), a->per_acre, a->ticket);
    *LS_PUSH(d->arena, &d->runs) =
        (ls_dossier_run){h->truck, a, h->day, a->tons, a->acres, a->per_acre, a->ticket, more};
}

void ls_dossier_make_runs(ls_dossier *d) {
    for (size_t i = 0; i < d->farm->trucks.n; i++)
        for (size_t k = 0; k < d->farm->trucks.at[i].runs.n; k++) add_run(d, i, k);
    for (size_t i = 0, n = d->runs.n; i < n; i++) add_setting(d, i);
    LS_EACH (const ls_dossier_field, f, d->fields)
        LS_EACH (const ls_dossier_application, a, f->applications) add_load(d, a);
}
