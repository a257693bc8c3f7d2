/* What spreaders put out, beside what they were set to. */
#include "room.h"

/* Found less set, as a share of it. */
static ls_line off(const ls_dossier *d, const char *lead, ls_line found, ls_line set) {
    ls_worksheet *w = d->sheet;
    ls_line more = ls_difference(w, ls_printf(w, "%s.more", lead), "rate found less rate set",
                                 "ton/ac", found, set);
    return ls_quotient(w, ls_printf(w, "%s.off", lead), "that as a share of the rate set", "%",
                       more, set);
}

static ls_line given(const ls_dossier *d, const char *lead, const char *what, const char *label,
                     const char *unit, const ls_quantity *q) {
    ls_worksheet *w = d->sheet;
    return LS_GIVEN(*q) ? ls_leaf_given(w, ls_printf(w, "%s.%s", lead, what), label, unit, q)
                        : LS_NO_LINE;
}

static ls_line area_of(const ls_dossier *d, const char *lead, const ls_truck *truck,
                       const ls_spreader_run *run) {
    ls_worksheet *w = d->sheet;
    const ls_quantity *swath = LS_GIVEN(run->swath) ? &run->swath : &truck->swath;
    if (LS_GIVEN(run->tarp)) return given(d, lead, "tarp", "area of the tarp", "ft2", &run->tarp);
    return LS_PRODUCT(w, ls_printf(w, "%s.area", lead), "area of the run", "ft2",
                      given(d, lead, "distance", "distance driven", "ft", &run->distance),
                      given(d, lead, "swath", "width of the pass", "ft", swath));
}

static void add_run(ls_dossier *d, size_t truck, size_t run) {
    ls_worksheet *w = d->sheet;
    const ls_truck *t = &d->farm->trucks.at[truck];
    const ls_spreader_run *r = &t->runs.at[run];
    const char *lead = ls_arena_printf(d->arena, "truck-%zu.run-%zu", truck + 1, run + 1);
    bool tarp = LS_GIVEN(r->tarp);
    ls_dossier_run x = {.truck = t, .day = r->date.day};
    x.net = given(d, lead, "net", tarp ? "net weight on the tarp" : "net weight spread",
                  tarp ? "lb" : "ton", &r->net);
    x.area = area_of(d, lead, t, r);
    x.found = ls_quotient(w, ls_printf(w, "%s.found", lead), "rate found", "ton/ac", x.net, x.area);
    x.set = given(d, lead, "set", "rate it was set to", "ton/ac", &r->set);
    x.off = off(d, lead, x.found, x.set);
    *LS_PUSH(d->arena, &d->runs) = x;
}

static bool alike(const ls_dossier *d, const ls_dossier_run *a, const ls_dossier_run *b) {
    const ls_worksheet *w = d->sheet;
    return a->truck == b->truck && a->set != LS_NO_LINE && b->set != LS_NO_LINE &&
           ls_line_value(w, a->set) == ls_line_value(w, b->set);
}

/* The mean of all runs at the setting of run i, told with the first of them. */
static void add_setting(ls_dossier *d, size_t i) {
    ls_worksheet *w = d->sheet;
    const ls_dossier_run *x = &d->runs.at[i];
    ls_books_lines found = {0};
    for (size_t k = 0; k < d->runs.n; k++) {
        if (!alike(d, x, &d->runs.at[k])) continue;
        if (k < i) return;
        *LS_PUSH(d->arena, &found) = d->runs.at[k].found;
    }
    if (found.n == 0) return;
    const char *lead = ls_arena_printf(d->arena, "setting-%zu", d->settings.n + 1);
    ls_line sum = ls_sum(w, ls_printf(w, "%s.sum", lead), "rates found, all runs", "ton/ac",
                         found.at, found.n),
            n = ls_leaf_exact(w, ls_printf(w, "%s.runs", lead), "runs", "", (double)found.n,
                              LS_BY_FARM, "runs at that setting"),
            mean = ls_quotient(w, ls_printf(w, "%s.mean", lead), "mean of the rates found",
                               "ton/ac", sum, n);
    *LS_PUSH(d->arena, &d->settings) =
        (ls_dossier_setting){x->truck, found.n, x->set, mean, off(d, lead, mean, x->set)};
}

/* A load over acres that the log gives. */
static void add_load(ls_dossier *d, const ls_dossier_field *f, const ls_dossier_application *a) {
    const ls_hauled *h = a->load->hauled;
    if (h->drops[a->part].acres <= 0) return;
    const char *lead = ls_arena_printf(d->arena, "%s.load-%zu.part-%zu.run", f->rates->slug,
                                       (size_t)(a->load - d->loads.at) + 1, a->part + 1);
    *LS_PUSH(d->arena, &d->runs) = (ls_dossier_run){.truck = h->truck,
                                                    .of = a,
                                                    .day = h->day,
                                                    .net = a->tons,
                                                    .area = a->acres,
                                                    .found = a->per_acre,
                                                    .set = a->ticket,
                                                    .off = off(d, lead, a->per_acre, a->ticket)};
}

void ls_dossier_make_runs(ls_dossier *d) {
    for (size_t i = 0; i < d->farm->trucks.n; i++)
        for (size_t k = 0; k < d->farm->trucks.at[i].runs.n; k++) add_run(d, i, k);
    for (size_t i = 0, n = d->runs.n; i < n; i++) add_setting(d, i);
    for (size_t i = 0; i < d->fields.n; i++)
        for (size_t k = 0; k < d->fields.at[i].applications.n; k++)
            add_load(d, &d->fields.at[i], &d->fields.at[i].applications.at[k]);
}
