/* What only tickets need, of each load and drop. */
#include "books.h"

#include <math.h>

/* ---- what all tickets share ---- */

/* Litter on a tarp: tons an acre = net lb x 21.78 / ft2, 43,560 ft2 an acre over 2,000 lb a ton
 * (UMass Extension prints 21.8). */
static ls_line tarp(ls_books *books, ls_tickets *t) {
    static const char words[] = "a tarp of any size does: net weight over its own area";
    ls_worksheet *w = books->sheet;
    t->tarp_side = ls_leaf_exact(w, "ticket.tarp-side", "side of the square tarp", "ft", 12 * ls_unit_of("ft").factor,
                                 LS_BY_DEFINITION, words);
    ls_line area = LS_PRODUCT(w, "ticket.tarp-area", "area of the tarp", "ft2", t->tarp_side, t->tarp_side);
    t->tarp_factor = ls_leaf_exact(w, "ticket.tarp-factor", "1 lb on each square foot", "ton/ac",
                                   ls_unit_of("lb/ft2").factor, LS_BY_DEFINITION, "43,560 ft2 over 2,000 lb");
    t->tarp_metric = ls_leaf_exact(w, "ticket.tarp-metric", "1 kg on each square meter", "tonne/ha",
                                   ls_unit_of("kg/m2").factor, LS_BY_DEFINITION, "10,000 m2 over 1,000 kg");
    return area;
}

/* What is told of a kind of truck leads with its number where there are several. */
static const char *of_kind(const ls_books *books, size_t kind, const char *key) {
    return books->farm->trucks.n == 1 ? key : ls_printf(books->sheet, "%s.truck-%zu", key, kind + 1);
}

static const ls_line *swaths(ls_books *books) {
    ls_worksheet *w = books->sheet;
    static const char label[] = "width the truck spreads";
    ls_line *swath = LS_NEW(books->arena, ls_line, books->farm->trucks.n);
    for (size_t k = 0; k < books->farm->trucks.n; k++) {
        const ls_truck *truck = &books->farm->trucks.at[k];
        const char *key = of_kind(books, k, "ticket.the-swath");
        swath[k] = LS_GIVEN(truck->swath)
                       ? ls_leaf_given(w, key, label, "ft", &truck->swath)
                       : ls_leaf_figure(w, key, label, "ft",
                                        ls_reference_need(books->reference, "practice", "", "swath", "value"));
    }
    return swath;
}

/* ---- the loader's buckets ---- */

/* Of each lot the tons in a bucket, and one bucket. */
typedef struct {
    ls_line *each, one;
} buckets;

static buckets buckets_of_lots(ls_books *books, ls_tickets *t) {
    ls_worksheet *w = books->sheet;
    const ls_estimate *e = books->estimate;
    const ls_loader *loader = books->farm->crew == NULL ? NULL : books->farm->crew->loader;
    buckets out = {NULL, LS_NO_LINE};
    t->the_bucket = LS_NO_LINE;
    if (loader == NULL) return out;
    t->the_bucket = ls_leaf_given(w, "ticket.the-bucket", "heaped bucket of the loader", "yd3", &loader->bucket);
    ls_line fill = ls_leaf_given(w, "ticket.bucket-fill", "how full the bucket comes", "%", &loader->fill);
    out.one = ls_leaf_exact(w, "ticket.one-bucket", "one bucket", "", 1, LS_BY_DEFINITION, NULL);
    out.each = LS_NEW(books->arena, ls_line, e->n);
    for (size_t i = 0; i < e->n; i++) {
        const ls_lot *lot = &e->lots[i];
        out.each[i] = i > 0 && lot->house == e->lots[i - 1].house
                          ? out.each[i - 1]
                          : LS_PRODUCT(w, ls_printf(w, "ticket.bucket-of.%s", lot->house->slug),
                                       ls_printf(w, "litter of %s in a bucket", lot->house->name.text), "ton",
                                       t->the_bucket, fill, lot->loose_density);
    }
    return out;
}

static void load_buckets(ls_books *books, const ls_load *load, const buckets *of, ls_load_sheet *out) {
    ls_worksheet *w = books->sheet;
    out->bucket = out->buckets = LS_NO_LINE;
    if (of->each == NULL) return;
    out->bucket = of->each[load->lot - books->estimate->lots];
    ls_line filled = ls_quotient(w, ls_printf(w, "ticket.%s.bucketfuls", load->ticket), "bucketfuls in the load", "",
                                 load->tons, out->bucket);
    out->buckets =
        ls_step_up(w, ls_printf(w, "ticket.%s.buckets", load->ticket), "buckets to load", "", filled, of->one);
}

/* ---- what the scale may say ---- */

/* A hundredth of a ton is what the split rounds to. */
static bool is_full(const ls_worksheet *w, const ls_load *load) {
    return (load->issued != NULL && load->issued->full) ||
           ls_line_shown(w, load->tons) > ls_line_shown(w, load->lot->kinds[load->kind].payload.line) - 0.011;
}

/* To a tenth of a ton outward, the most not above what the truck may carry; of a part load as much
 * more or less as of a full one. */
static void load_scale(ls_books *books, const ls_load *load, ls_load_sheet *out) {
    static const char *const names[] = {"low", "high"};
    ls_worksheet *w = books->sheet;
    const ls_lot *lot = load->lot;
    const double step = ls_unit_of("ton").factor / 10, close = 1e-9;
    const ls_lot_kind *kind = &lot->kinds[load->kind];
    double limit = ls_truck_payload(&books->farm->trucks.at[load->kind]),
           part = out->full ? 1 : ls_line_value(w, load->tons) / ls_line_value(w, kind->payload.line);
    double points[] = {floor(part * kind->next_load.low / step + close) * step,
                       fmin(ceil(part * kind->next_load.high / step - close) * step, limit)};
    const char *whose = out->full ? lot->house->slug : load->ticket;
    if (load->n == 0 || !(points[0] < points[1])) return;
    for (int i = 0; i < 2; i++)
        out->scale[i] =
            ls_leaf_exact(w, of_kind(books, load->kind, ls_printf(w, "ticket.scale-%s.%s", names[i], whose)),
                          ls_printf(w,
                                    out->full ? "what the scale may say of a full load, %s"
                                              : "what the scale may say of a part load, %s",
                                    names[i]),
                          "ton", points[i], LS_BY_SIMULATION,
                          ls_printf(w, "%s of %s.next-load%s, to a tenth of a ton outward", names[i],
                                    of_kind(books, load->kind, lot->house->slug),
                                    out->full ? "" : " by the part that the load is of a full one"));
}

/* As much more or less as the load: the rate stays. */
static ls_line cover(ls_worksheet *w, const char *lead, const char *name, const ls_load *load, const ls_drop *drop,
                     ls_line scale) {
    ls_line times = ls_quotient(w, ls_printf(w, "ticket.%s.times-%s", load->ticket, name),
                                "scale over the planned load", "", scale, load->tons);
    return LS_PRODUCT(w, ls_printf(w, "%s.cover-%s", lead, name), "acres to cover by the scale", "ac", drop->acres,
                      times);
}

/* ---- what a drop needs ---- */

static ls_line length_of(ls_books *books, const ls_drop *drop) {
    ls_worksheet *w = books->sheet;
    const ls_field *f = drop->field;
    const char *key = ls_printf(w, "ticket.pass-on.%s.%s", drop->buyer->slug, f->slug);
    ls_line known = ls_line_find(w, key);
    return known != LS_NO_LINE || !LS_GIVEN(f->length)
               ? known
               : ls_leaf_given(w, key, ls_printf(w, "length of a pass on %s", f->name.text), "ft", &f->length);
}

/* Way = area / swath: tons an acre = load tons x 43,560 / (distance ft x swath ft) (UMass
 * Extension, manure spreader calibration), solved for the distance. */
static ls_drop_sheet drop_sheet(ls_books *books, const ls_load *load, ls_date day, const ls_load_sheet *sheet, size_t k,
                                const ls_tickets *t, ls_line tarp_area) {
    static const int nutrients[LS_FIELD_NUTRIENTS] = {LS_N, LS_P2O5, LS_K2O};
    const ls_drop *drop = &load->drops[k];
    ls_worksheet *w = books->sheet;
    const char *lead = ls_printf(w, "ticket.%s.%zu", load->ticket, k + 1);
    ls_drop_sheet out = {.passes = LS_NO_LINE};
    out.run =
        ls_quotient(w, ls_printf(w, "%s.run", lead), "way the truck spreads", "ft", drop->acres, t->swath[load->kind]);
    out.cover[0] = cover(w, lead, "low", load, drop, sheet->scale[0]);
    out.cover[1] = cover(w, lead, "high", load, drop, sheet->scale[1]);
    out.length = length_of(books, drop);
    if (out.length != LS_NO_LINE)
        out.passes = ls_quotient(w, ls_printf(w, "%s.passes", lead), "the same in passes of the field's length", "",
                                 out.run, out.length);
    out.earliest =
        ls_agronomy_earliest_lines(w, ls_printf(w, "ticket.waits-on.%s.%s", drop->buyer->slug, drop->field->slug),
                                   books->reference, drop->field, day);
    if (!ls_agronomy_for_stock(drop->field)) out.earliest.cattle = (ls_interval){.day = LS_NO_DATE, .line = LS_NO_LINE};
    out.tarp =
        LS_PRODUCT(w, ls_printf(w, "%s.tarp", lead), "net weight on the tarp at the rate", "lb", drop->rate, tarp_area);
    for (size_t i = 0; i < LS_FIELD_NUTRIENTS; i++) {
        ls_line per_ton = drop->analysis->per_ton[nutrients[i]];
        out.on_acre[i] = per_ton == LS_NO_LINE
                             ? LS_NO_LINE
                             : LS_PRODUCT(w, ls_printf(w, "%s.%s", lead, ls_nutrient_key(nutrients[i])),
                                          ls_printf(w, "%s on an acre", ls_nutrient_name(nutrients[i])), "lb/ac",
                                          drop->rate, per_ton);
    }
    return out;
}

const ls_tickets *ls_books_tickets(ls_books *books, const ls_plan_sums *sums) {
    const ls_plan *p = sums->plan;
    size_t n = p->loads_n + p->out_n;
    ls_tickets *t = LS_NEW(books->arena, ls_tickets, 1);
    ls_load_sheet *loads = LS_NEW(books->arena, ls_load_sheet, n);
    *t = (ls_tickets){.sums = sums, .loads = loads};
    t->swath = swaths(books);
    ls_line area = tarp(books, t);
    buckets of = buckets_of_lots(books, t);
    for (size_t i = 0; i < n; i++) {
        const ls_load *now = ls_plan_load(p, i), *load = ls_books_paper(books, now);
        ls_drop_sheet *drops = LS_NEW(books->arena, ls_drop_sheet, load->n);
        loads[i] = (ls_load_sheet){.load = load, .full = is_full(books->sheet, load), .drops = drops};
        load_buckets(books, load, &of, &loads[i]);
        load_scale(books, load, &loads[i]);
        for (size_t k = 0; k < load->n; k++) drops[k] = drop_sheet(books, load, now->day, &loads[i], k, t, area);
        loads[i].take_care = ls_books_load_cautions(books, load);
    }
    t->buyers = ls_books_promises(books, sums);
    return t;
}
