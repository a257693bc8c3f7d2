/* The whole farm: the lines of its houses and lots. */
#include "house.h"

#include <stdlib.h>
#include <string.h>

/* ---- houses ---- */

static int bird_of(const ls_house *house) {
    return house->flocks.n ? house->flocks.at[0].birds.is : 0;
}

/* Litter of two kinds of birds mixes: no published method is of that. */
static bool one_kind(const ls_litter_house *h) {
    for (size_t k = 1; k < h->house->flocks.n; k++) {
        const ls_flock *f = &h->house->flocks.at[k];
        if (f->birds.is == h->bird)
            continue;
        ls_diag_add(h->farm->diag, LS_ERROR, f->birds.at,
                    "give the flocks of one kind here, and what the others left under already_out "
                    "or as a house of its own",
                    "house %s: between two cleanouts a house holds one kind of bird, not %s and %s",
                    h->house->name.text, ls_bird_name(h->bird), ls_bird_name(f->birds.is));
        return false;
    }
    return true;
}

static void begin(ls_litter_house *h) {
    const ls_house *house = h->house;
    h->slug = house->slug;
    h->own_evidence = h->dry = h->wet = h->weighed = LS_NO_LINE;
    if (LS_GIVEN(house->length))
        ls_leaf_given(h->w, LS_KEY(h, "length"), "length of the house", "ft", &house->length);
    if (LS_GIVEN(house->width))
        ls_leaf_given(h->w, LS_KEY(h, "width"), "width of the house", "ft", &house->width);
    if (house->measured && LS_GIVEN(house->measured->weighed))
        h->weighed = ls_leaf_given(h->w, LS_KEY(h, "weighed"), "litter of the house weighed", "ton",
                                   &house->measured->weighed);
}

static bool all_sides_weighed(const ls_house *house) {
    for (size_t k = 0; k < house->sides.n; k++)
        if (!house->sides.at[k].measured || !LS_GIVEN(house->sides.at[k].measured->weighed))
            return false;
    return house->sides.n > 0;
}

static void make_house(ls_litter_house *h) {
    begin(h);
    ls_litter_shares(h);
    ls_litter_hauled(h);
    ls_litter_birds(h);
    ls_litter_feed(h);
    ls_litter_bedding(h);
    ls_litter_balance(h);
    ls_litter_excreted(h);
    ls_litter_survey(h);
    ls_litter_analysis(h);
    ls_litter_moisture(h);
    ls_litter_dry_basis(h);
    ls_litter_already_out(h);
    ls_litter_droppings(h);
    ls_litter_content(h);
    ls_litter_prior(h);
    ls_litter_evidence(h);
    ls_litter_own_evidence(h);
}

/* False if nothing tells its tons: noted where the house stands in the file. */
static bool finish_house(ls_litter_house *h, const ls_litter_house *houses, size_t n) {
    ls_litter_sisters(h, houses, n);
    ls_litter_combine(h);
    ls_litter_settle(h);
    ls_litter_found_again(h);
    ls_litter_loose_density(h);
    if (h->dry == LS_NO_LINE && !all_sides_weighed(h->house)) {
        ls_diag_add(h->farm->diag, LS_ERROR, h->house->at,
                    "give its flocks, a depth survey of every zone, or the tons weighed",
                    "house %s: nothing in the files says how much litter it holds",
                    h->house->name.text);
        return false;
    }
    ls_litter_cautions(h);
    return true;
}

static int by_code(const void *a, const void *b) {
    const ls_lot *const *x = a, *const *y = b;
    return strcmp((*x)->code, (*y)->code);
}

/* Ticket numbers begin with the lot's code: two lots may not share one. */
static bool codes_differ(const ls_estimate *e) {
    ls_arena *a = ls_arena_new();
    const ls_lot **sorted = LS_NEW(a, const ls_lot *, e->n);
    for (size_t i = 0; i < e->n; i++)
        sorted[i] = &e->lots[i];
    qsort(sorted, e->n, sizeof *sorted, by_code);
    bool differ = true;
    for (size_t i = 1; i < e->n; i++) {
        if (by_code(&sorted[i - 1], &sorted[i]) != 0)
            continue;
        ls_diag_add(e->farm->diag, LS_ERROR, sorted[i]->house->at,
                    "give one of the houses a \"code:\"",
                    "tickets of %s and of %s would have the same numbers (%s)", sorted[i - 1]->name,
                    sorted[i]->name, sorted[i]->code);
        differ = false;
    }
    ls_arena_free(a);
    return differ;
}

/* ---- totals ---- */

static ls_line total(ls_worksheet *w, const ls_estimate *e, const char *key, const char *label,
                     const char *unit, ls_line (*of)(const ls_lot *, int), int k) {
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, e->n);
    for (size_t i = 0; i < e->n; i++)
        if ((x[i] = of(&e->lots[i], k)) == LS_NO_LINE)
            return LS_NO_LINE;
    return ls_sum(w, key, label, unit, x, e->n);
}

static ls_line lot_tons(const ls_lot *lot, int k) {
    (void)k;
    return lot->tons.line;
}
static ls_line lot_dry(const ls_lot *lot, int k) {
    (void)k;
    return lot->dry_tons.line;
}
static ls_line lot_pounds(const ls_lot *lot, int k) {
    return lot->pounds[k].line;
}
static ls_line lot_full(const ls_lot *lot, int k) {
    (void)k;
    return lot->full_loads;
}
static ls_line lot_trips(const ls_lot *lot, int k) {
    (void)k;
    return lot->trips;
}

static ls_line gone(ls_worksheet *w, const ls_estimate *e) {
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, e->n);
    size_t n = 0;
    for (size_t i = 0; i < e->n; i++)
        if (e->lots[i].gone != LS_NO_LINE)
            x[n++] = e->lots[i].gone;
    return n > 0 ? ls_sum(w, "whole-farm.gone", "litter of the farm hauled already", "ton", x, n)
                 : LS_NO_LINE;
}

static void totals(ls_worksheet *w, ls_estimate *e) {
    e->tons.line =
        total(w, e, "whole-farm.tons", "litter of the farm as hauled", "ton", lot_tons, 0);
    e->dry_tons.line =
        total(w, e, "whole-farm.dry_tons", "dry litter of the farm", "ton", lot_dry, 0);
    for (int k = 0; k < LS_NUTRIENTS; k++)
        e->pounds[k].line =
            total(w, e, ls_printf(w, "whole-farm.pounds.%s", ls_nutrient_key(k)),
                  ls_printf(w, "%s in all litter", ls_nutrient_name(k)), "lb", lot_pounds, k);
    e->gone = gone(w, e);
    e->full_loads =
        total(w, e, "whole-farm.full_loads", "whole payloads of all lots", "load", lot_full, 0);
    e->trips = total(w, e, "whole-farm.trips", "trips of all lots", "load", lot_trips, 0);
}

static void note(ls_worksheet *w, ls_estimate *e, const char *lead, const char *told) {
    if (told != NULL)
        *LS_PUSH(ls_worksheet_arena(w), &e->notes) = ls_printf(w, "%s: %s", lead, told);
}

void ls_litter_shown(ls_arena *a, const ls_estimate *e, ls_line_list *list) {
    const ls_line of_farm[] = {e->tons.line, e->dry_tons.line, e->trips, e->value.line};
    for (size_t i = 0; i < sizeof of_farm / sizeof *of_farm; i++)
        *LS_PUSH(a, list) = of_farm[i];
    for (int k = 0; k < LS_NUTRIENTS; k++)
        *LS_PUSH(a, list) = e->pounds[k].line;
    for (size_t i = 0; i < e->n; i++) {
        *LS_PUSH(a, list) = e->lots[i].tons.line;
        *LS_PUSH(a, list) = e->lots[i].moisture.line;
        for (int k = 0; k < LS_NUTRIENTS; k++) {
            *LS_PUSH(a, list) = e->lots[i].per_ton[k].line;
            *LS_PUSH(a, list) = e->lots[i].pounds[k].line;
        }
    }
}

/* One note that names the figures from memory that matter, one that names the farm's own rows. */
static void say_where_from(ls_worksheet *w, ls_estimate *e) {
    ls_arena *a = ls_worksheet_arena(w);
    ls_line_list shown = {0};
    ls_litter_shown(a, e, &shown);
    note(w, e, "unverified figures", ls_lines_from_memory(a, w, &shown, ""));
    if (e->farm->own_tables.n > 0)
        note(w, e, "rows of the farm's own tables in use", ls_lines_of_own_rows(a, w, 0, NULL));
}

/* Loads of another lot went out after those of this one: is it empty? */
static void ask_if_empty(ls_worksheet *w, ls_estimate *e, const ls_lot *lot) {
    const ls_farm *f = e->farm;
    const char *last = NULL;
    for (size_t i = 0; i < f->hauled.n; i++)
        last = f->hauled.at[i].from_stack ? last : f->hauled.at[i].lot;
    if (lot->gone != LS_NO_LINE && !lot->empty && !ls_text_same(last, lot->code))
        *LS_PUSH(ls_worksheet_arena(w), &e->notes) =
            ls_printf(w,
                      "%s: the haul log has moved to another side. If this one is empty, record "
                      "that with its last load (--cleared all). It makes all other sides surer",
                      lot->name);
}

ls_estimate *ls_litter_lines(ls_worksheet *w, const ls_farm *f, const ls_reference *r,
                             uint64_t seed, size_t draws) {
    ls_arena *a = ls_worksheet_arena(w);
    ls_estimate *e = LS_NEW(a, ls_estimate, 1);
    *e = (ls_estimate){.farm = f, .seed = seed, .draws = draws};
    if (f->houses.n == 0) {
        ls_diag_add(f->diag, LS_ERROR, LS_NOWHERE,
                    "add a section \"houses:\"; `littershed new` prints a starter file",
                    "no house is given");
        return NULL;
    }
    ls_litter_ask_manure(w, e);
    size_t n = f->houses.n;
    ls_litter_house *houses = LS_NEW(a, ls_litter_house, n);
    for (size_t i = 0; i < n; i++) {
        houses[i] = (ls_litter_house){.w = w,
                                      .farm = f,
                                      .reference = r,
                                      .estimate = e,
                                      .house = &f->houses.at[i],
                                      .bird = bird_of(&f->houses.at[i])};
        if (!one_kind(&houses[i]))
            return NULL;
        make_house(&houses[i]);
        e->n += ls_litter_lots_of(houses[i].house);
    }
    bool known = true;
    for (size_t i = 0; i < n; i++)
        known &= finish_house(&houses[i], houses, n);
    if (!known)
        return NULL;
    e->lots = LS_NEW(a, ls_lot, e->n);
    for (size_t i = 0, at = 0; i < n; at += ls_litter_lots_of(houses[i].house), i++) {
        ls_litter_lots(&houses[i], &e->lots[at]);
        ls_litter_account(&houses[i], &e->lots[at], ls_litter_lots_of(houses[i].house));
    }
    if (!codes_differ(e))
        return NULL;
    for (size_t i = 0; i < e->n; i++)
        ask_if_empty(w, e, &e->lots[i]);
    totals(w, e);
    e->truck_payload = ls_line_find(w, "truck-1.payload");
    e->truck_gross = ls_line_find(w, "truck-1.gross");
    ls_litter_value(w, r, e);
    say_where_from(w, e);
    return e;
}

ls_estimate *ls_litter_estimate(ls_worksheet *w, const ls_farm *f, const ls_reference *r,
                                uint64_t seed, size_t draws) {
    ls_estimate *e = ls_litter_lines(w, f, r, seed, draws);
    if (e)
        ls_litter_points(w, e);
    return e;
}

ls_estimate *ls_litter_estimate_until(ls_worksheet *w, const ls_farm *f, const ls_reference *r,
                                      uint64_t seed, int digits, size_t most) {
    ls_estimate *e = ls_litter_lines(w, f, r, seed, most);
    if (!e)
        return NULL;
    ls_line lines[LS_NUTRIENTS + 4];
    size_t n = 0;
    const ls_line totals_of[] = {e->tons.line, e->dry_tons.line, e->full_loads, e->trips};
    for (size_t i = 0; i < sizeof totals_of / sizeof *totals_of; i++)
        if (totals_of[i] != LS_NO_LINE)
            lines[n++] = totals_of[i];
    for (int k = 0; k < LS_NUTRIENTS; k++)
        if (e->pounds[k].line != LS_NO_LINE)
            lines[n++] = e->pounds[k].line;
    e->digits = digits;
    e->draws = ls_draws_needed(w, seed, digits, most, lines, n, &e->sure);
    ls_litter_points(w, e);
    return e;
}
