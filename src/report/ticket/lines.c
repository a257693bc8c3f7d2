#include "lines.h"

#include "report/promise/promise.h"

#include <string.h>

static ls_line practice(const ls_view *v, const char *key, const char *label, const char *unit,
                        const char *row) {
    return ls_leaf_figure(v->sheet, key, label, unit,
                          ls_reference_need(v->reference, "practice", "", row, "value"));
}

/* ---- what all tickets share ---- */

/* Litter on a tarp: tons an acre = net lb x 21.78 / ft2, 43,560 ft2 an acre over 2,000 lb a ton
 * (UMass Extension prints 21.8). */
static void tarp(const ls_view *v) {
    static const char words[] = "a tarp of any size does: net weight over its own area";
    ls_worksheet *w = v->sheet;
    ls_line side = ls_leaf_exact(w, LS_TICKET_TARP_SIDE, "side of the square tarp", "ft",
                                 12 * ls_unit_of("ft").factor, LS_BY_DEFINITION, words);
    LS_PRODUCT(w, "ticket.tarp-area", "area of the tarp", "ft2", side, side);
    ls_leaf_exact(w, LS_TICKET_TARP_FACTOR, "1 lb on each square foot", "ton/ac",
                  ls_unit_of("lb/ft2").factor, LS_BY_DEFINITION, "43,560 ft2 over 2,000 lb");
    ls_leaf_exact(w, LS_TICKET_TARP_METRIC, "1 kg on each square meter", "tonne/ha",
                  ls_unit_of("kg/m2").factor, LS_BY_DEFINITION, "10,000 m2 over 1,000 kg");
}

static void shared(const ls_view *v) {
    const ls_truck *truck = &v->farm->trucks.at[0];
    if (LS_GIVEN(truck->swath))
        ls_leaf_given(v->sheet, LS_TICKET_SWATH, "width the truck spreads", "ft", &truck->swath);
    else
        practice(v, LS_TICKET_SWATH, "width the truck spreads", "ft", "swath");
    tarp(v);
}

ls_line ls_report_shared_line(const ls_view *v, const char *key) {
    return ls_line_find(v->sheet, key);
}

/* The plan has made the line if the haul has a price. */
static const char *distance_key(const ls_view *v, const ls_buyer *b, bool of_plan) {
    return ls_words(v->sheet, of_plan ? "plan.buyer.%s.distance" : "ticket.way-to.%s", b->slug);
}

ls_line ls_report_distance_line(const ls_view *v, const ls_buyer *b) {
    ls_line known = ls_line_find(v->sheet, distance_key(v, b, true));
    return known != LS_NO_LINE ? known : ls_line_find(v->sheet, distance_key(v, b, false));
}

static void distances(const ls_view *v) {
    for (size_t i = 0; i < v->farm->buyers.n; i++) {
        const ls_buyer *b = &v->farm->buyers.at[i];
        if (LS_GIVEN(b->distance) && ls_report_distance_line(v, b) == LS_NO_LINE)
            ls_leaf_given(v->sheet, distance_key(v, b, false),
                          ls_words(v->sheet, "distance to %s", b->name.text), "mi", &b->distance);
    }
}

/* ---- the loader's buckets ---- */

static const char *bucket_key(const ls_view *v, const ls_lot *lot) {
    return ls_words(v->sheet, "ticket.bucket-of.%s", lot->house->slug);
}

static void buckets_of_houses(const ls_view *v, const ls_estimate *e) {
    ls_worksheet *w = v->sheet;
    const ls_loader *loader = v->farm->crew == NULL ? NULL : v->farm->crew->loader;
    if (loader == NULL)
        return;
    ls_line bucket = ls_leaf_given(w, "ticket.the-bucket", "heaped bucket of the loader", "yd3",
                                   &loader->bucket);
    ls_line fill =
        ls_leaf_given(w, "ticket.bucket-fill", "how full the bucket comes", "%", &loader->fill);
    ls_leaf_exact(w, "ticket.one-bucket", "one bucket", "", 1, LS_BY_DEFINITION, NULL);
    for (size_t i = 0; i < e->n; i++) {
        const ls_lot *lot = &e->lots[i];
        ls_line density = ls_line_find(w, ls_words(w, "%s.loose_density", lot->house->slug));
        if (density != LS_NO_LINE && ls_line_find(w, bucket_key(v, lot)) == LS_NO_LINE)
            LS_PRODUCT(w, bucket_key(v, lot),
                       ls_words(w, "litter of %s in a bucket", lot->house->name.text), "ton",
                       bucket, fill, density);
    }
}

static const char *load_key(const ls_view *v, const ls_load *load, const char *what) {
    return ls_words(v->sheet, "ticket.%s.%s", load->ticket, what);
}

static void buckets(const ls_view *v, const ls_load *load) {
    ls_worksheet *w = v->sheet;
    ls_line each = ls_line_find(w, bucket_key(v, load->lot));
    if (each == LS_NO_LINE)
        return;
    ls_line filled = ls_quotient(w, load_key(v, load, "bucketfuls"), "bucketfuls in the load", "",
                                 load->tons, each);
    ls_step_up(w, load_key(v, load, "buckets"), "buckets to load", "", filled,
               ls_line_find(w, "ticket.one-bucket"));
}

ls_line ls_report_load_line(const ls_view *v, const ls_load *load, const char *what) {
    return ls_line_find(v->sheet, strcmp(what, "bucket") == 0 ? bucket_key(v, load->lot)
                                                              : load_key(v, load, what));
}

/* ---- what a drop needs ---- */

static const char *drop_key(const ls_view *v, const ls_load *load, size_t k, const char *what) {
    return ls_words(v->sheet, "ticket.%s.%zu.%s", load->ticket, k + 1, what);
}

static const char *length_key(const ls_view *v, const ls_drop *drop) {
    return ls_words(v->sheet, "ticket.pass-on.%s.%s", drop->buyer->slug, drop->field->slug);
}

ls_line ls_report_length_line(const ls_view *v, const ls_drop *drop) {
    return ls_line_find(v->sheet, length_key(v, drop));
}

ls_earliest ls_report_earliest_after(const ls_view *v, const ls_load *load, size_t k) {
    const ls_drop *drop = &load->drops[k];
    return ls_agronomy_earliest_lines(
        v->sheet, ls_words(v->sheet, "ticket.waits-on.%s.%s", drop->buyer->slug, drop->field->slug),
        v->reference, drop->field, load->day);
}

static ls_line length_of(const ls_view *v, const ls_drop *drop) {
    const ls_field *f = drop->field;
    ls_line known = ls_report_length_line(v, drop);
    if (known != LS_NO_LINE || !LS_GIVEN(f->length))
        return known;
    return ls_leaf_given(v->sheet, length_key(v, drop),
                         ls_words(v->sheet, "length of a pass on %s", f->name.text), "ft",
                         &f->length);
}

/* Way = area / swath: tons an acre = load tons x 43,560 / (distance ft x swath ft) (UMass
 * Extension, manure spreader calibration), solved for the distance. */
static void way(const ls_view *v, const ls_load *load, size_t k) {
    const ls_drop *drop = &load->drops[k];
    ls_worksheet *w = v->sheet;
    ls_line run = ls_quotient(w, drop_key(v, load, k, "run"), "way the truck spreads", "ft",
                              drop->acres, ls_report_shared_line(v, LS_TICKET_SWATH));
    ls_line length = length_of(v, drop);
    if (length != LS_NO_LINE)
        ls_quotient(w, drop_key(v, load, k, "passes"), "the same in passes of the field's length",
                    "", run, length);
}

static void drop_lines(const ls_view *v, const ls_load *load, size_t k) {
    const ls_drop *drop = &load->drops[k];
    ls_worksheet *w = v->sheet;
    way(v, load, k);
    ls_report_earliest_after(v, load, k);
    LS_PRODUCT(w, drop_key(v, load, k, "tarp"), "net weight on the tarp at the rate", "lb",
               drop->rate, ls_line_find(w, "ticket.tarp-area"));
    static const int nutrients[] = {LS_N, LS_P2O5, LS_K2O};
    for (size_t i = 0; i < sizeof nutrients / sizeof *nutrients; i++) {
        ls_line per_ton = load->lot->analysis->per_ton[nutrients[i]];
        if (per_ton != LS_NO_LINE)
            LS_PRODUCT(w, drop_key(v, load, k, ls_nutrient_key(nutrients[i])),
                       ls_words(w, "%s on an acre", ls_nutrient_name(nutrients[i])), "lb/ac",
                       drop->rate, per_ton);
    }
}

ls_line ls_report_drop_line(const ls_view *v, const ls_load *load, size_t k, const char *what) {
    return ls_line_find(v->sheet, drop_key(v, load, k, what));
}

void ls_report_ticket_lines(const ls_view *v, const ls_estimate *e, const ls_plan *p) {
    shared(v);
    distances(v);
    buckets_of_houses(v, e);
    for (size_t i = 0; i < p->loads_n + p->out_n; i++) {
        const ls_load *load = i < p->loads_n ? &p->loads[i] : &p->out[i - p->loads_n];
        buckets(v, load);
        for (size_t k = 0; k < load->n; k++)
            drop_lines(v, load, k);
    }
    ls_report_promise_lines(v, e, p);
}
