/* The whole farm: the lines of its houses and lots. */
#include "house.h"

#include <stddef.h>
#include <stdlib.h>
#include <string.h>

/* ---- houses ---- */

/* Litter of two kinds of birds mixes: no published method is of that. */
static bool one_kind(const ls_litter_house *h) {
    for (size_t k = 1; k < h->house->flocks.n; k++) {
        const ls_flock *f = &h->house->flocks.at[k];
        if (f->birds.is == h->bird) continue;
        ls_diag_add(h->farm->diag, LS_ERROR, f->birds.at,
                    "give the flocks of one kind here, and what the others left under already_out "
                    "or as a house of its own",
                    "house %s: between two cleanouts a house holds one kind of bird, not %s and %s",
                    h->house->name.text, ls_bird_name(h->bird), ls_bird_name(f->birds.is));
        return false;
    }
    return true;
}

static ls_litter_house begin(ls_worksheet *w, const ls_house *house, const ls_reference *r, ls_estimate *e) {
    ls_litter_house h = {.all = w,
                         .w = ls_part(w, NULL, "%s", house->slug),
                         .arena = ls_worksheet_arena(w),
                         .farm = e->farm,
                         .reference = r,
                         .estimate = e,
                         .house = house,
                         .slug = house->slug,
                         .bird = house->flocks.n ? house->flocks.at[0].birds.is : 0};
    h.published = ls_part(w, NULL, "published-%s", ls_text_slug(h.arena, ls_bird_name(h.bird)));
    return h;
}

static void measured_at_once(ls_litter_house *h) {
    const ls_house *house = h->house;
    if (LS_GIVEN(house->length)) ls_leaf_given(h->w, "length", "length of the house", "ft", &house->length);
    if (LS_GIVEN(house->width)) ls_leaf_given(h->w, "width", "width of the house", "ft", &house->width);
    if (house->measured && LS_GIVEN(house->measured->weighed))
        h->weighed = ls_leaf_given(h->w, "weighed", "litter of the house weighed", "ton", &house->measured->weighed);
}

static bool all_sides_weighed(const ls_house *house) {
    for (size_t k = 0; k < house->sides.n; k++)
        if (!house->sides.at[k].measured || !LS_GIVEN(house->sides.at[k].measured->weighed)) return false;
    return house->sides.n > 0;
}

static void make_house(ls_litter_house *h) {
    measured_at_once(h);
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
    ls_litter_payload(h);
    if (!h->dry && !all_sides_weighed(h->house)) {
        ls_diag_add(h->farm->diag, LS_ERROR, h->house->at,
                    "give its flocks, a depth survey of every zone, or the tons weighed",
                    "house %s: nothing in the files says how much litter it holds", h->house->name.text);
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
    for (size_t i = 0; i < e->n; i++) sorted[i] = &e->lots[i];
    qsort(sorted, e->n, sizeof *sorted, by_code);
    bool differ = true;
    for (size_t i = 1; i < e->n; i++) {
        if (by_code(&sorted[i - 1], &sorted[i]) != 0) continue;
        ls_diag_add(e->farm->diag, LS_ERROR, sorted[i]->house->at, "give one of the houses a \"code:\"",
                    "tickets of %s and of %s would have the same numbers (%s)", sorted[i - 1]->name, sorted[i]->name,
                    sorted[i]->code);
        differ = false;
    }
    ls_arena_free(a);
    return differ;
}

/* ---- totals ---- */

/* The sum of a member of all lots; LS_NO_LINE if one has none. */
static ls_line total(ls_worksheet *w, const ls_estimate *e, const char *key, const char *label, const char *unit,
                     size_t member) {
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, e->n);
    for (size_t i = 0; i < e->n; i++) {
        x[i] = *(const ls_line *)(const void *)((const char *)&e->lots[i] + member);
        if (!x[i]) return LS_NO_LINE;
    }
    return ls_sum(w, key, label, unit, x, e->n);
}

static void totals(ls_worksheet *all, ls_estimate *e) {
    ls_worksheet *w = ls_part(all, NULL, "whole-farm");
    ls_line *gone = LS_NEW(ls_worksheet_arena(w), ls_line, e->n);
    e->tons.line = total(w, e, "tons", "litter of the farm as hauled", "ton", offsetof(ls_lot, tons.line));
    e->dry_tons.line = total(w, e, "dry_tons", "dry litter of the farm", "ton", offsetof(ls_lot, dry_tons.line));
    for (int k = 0; k < LS_NUTRIENTS; k++)
        e->pounds[k].line = total(ls_part(w, ls_nutrient_name(k), "pounds"), e, ls_nutrient_key(k), "%s in all litter",
                                  "lb", offsetof(ls_lot, pounds) + (size_t)k * sizeof(ls_q) + offsetof(ls_q, line));
    for (size_t i = 0; i < e->n; i++) gone[i] = e->lots[i].gone;
    e->gone = ls_sum(w, "gone", "litter of the farm hauled already", "ton", gone, e->n);
    e->full_loads = total(w, e, "full_loads", "whole payloads of all lots", "load", offsetof(ls_lot, full_loads));
    e->trips = total(w, e, "trips", "trips of all lots", "load", offsetof(ls_lot, trips));
}

static void note(ls_worksheet *w, ls_estimate *e, const char *lead, const char *told) {
    if (told != NULL) *LS_PUSH(ls_worksheet_arena(w), &e->notes) = ls_printf(w, "%s: %s", lead, told);
}

void ls_litter_shown(ls_arena *a, const ls_estimate *e, ls_line_list *list) {
    const ls_line of_farm[] = {e->tons.line, e->dry_tons.line, e->trips, e->value.line};
    for (size_t i = 0; i < sizeof of_farm / sizeof *of_farm; i++) *LS_PUSH(a, list) = of_farm[i];
    for (int k = 0; k < LS_NUTRIENTS; k++) *LS_PUSH(a, list) = e->pounds[k].line;
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
    for (size_t i = 0; i < f->hauled.n; i++) last = f->hauled.at[i].from_stack ? last : f->hauled.at[i].lot;
    if (lot->gone && !lot->empty && !ls_text_same(last, lot->code))
        *LS_PUSH(ls_worksheet_arena(w), &e->notes) =
            ls_printf(w,
                      "%s: the haul log has moved to another side. If this one is empty, record "
                      "that with its last load (--cleared all). It makes all other sides surer",
                      lot->name);
}

ls_estimate *ls_litter_lines(ls_worksheet *w, const ls_farm *f, const ls_reference *r, uint64_t seed, size_t draws) {
    ls_arena *a = ls_worksheet_arena(w);
    ls_estimate *e = LS_NEW(a, ls_estimate, 1);
    *e = (ls_estimate){.farm = f, .seed = seed, .draws = draws};
    if (f->houses.n == 0) {
        ls_diag_add(f->diag, LS_ERROR, LS_NOWHERE, "add a section \"houses:\"; `littershed new` prints a starter file",
                    "no house is given");
        return NULL;
    }
    ls_litter_ask_manure(w, e);
    size_t n = f->houses.n;
    ls_litter_house *houses = LS_NEW(a, ls_litter_house, n);
    for (size_t i = 0; i < n; i++) {
        houses[i] = begin(w, &f->houses.at[i], r, e);
        if (!one_kind(&houses[i])) return NULL;
        make_house(&houses[i]);
        e->n += ls_litter_lots_of(houses[i].house);
    }
    bool known = true;
    for (size_t i = 0; i < n; i++) known &= finish_house(&houses[i], houses, n);
    if (!known) return NULL;
    e->lots = LS_NEW(a, ls_lot, e->n);
    for (size_t i = 0, at = 0; i < n; at += ls_litter_lots_of(houses[i].house), i++) {
        ls_litter_lots(&houses[i], &e->lots[at]);
        ls_litter_account(&houses[i], &e->lots[at], ls_litter_lots_of(houses[i].house));
    }
    if (!codes_differ(e)) return NULL;
    for (size_t i = 0; i < e->n; i++) ask_if_empty(w, e, &e->lots[i]);
    totals(w, e);
    e->truck_payload = LS_NEW(a, ls_line, f->trucks.n);
    e->truck_gross = LS_NEW(a, ls_line, f->trucks.n);
    for (size_t k = 0; k < f->trucks.n; k++) {
        e->truck_payload[k] = ls_line_find(w, ls_printf(w, "truck-%zu.payload", k + 1));
        e->truck_gross[k] = ls_line_find(w, ls_printf(w, "truck-%zu.gross", k + 1));
    }
    ls_litter_value(w, r, e);
    say_where_from(w, e);
    return e;
}

ls_estimate *ls_litter_estimate(ls_worksheet *w, const ls_farm *f, const ls_reference *r, uint64_t seed, size_t draws) {
    ls_estimate *e = ls_litter_lines(w, f, r, seed, draws);
    if (e) ls_litter_points(w, e);
    return e;
}

ls_estimate *ls_litter_estimate_until(ls_worksheet *w, const ls_farm *f, const ls_reference *r, uint64_t seed,
                                      int digits, size_t most) {
    ls_estimate *e = ls_litter_lines(w, f, r, seed, most);
    if (!e) return NULL;
    ls_line lines[LS_NUTRIENTS + 4];
    size_t n = 0;
    const ls_line totals_of[] = {e->tons.line, e->dry_tons.line, e->full_loads, e->trips};
    for (size_t i = 0; i < sizeof totals_of / sizeof *totals_of; i++)
        if (totals_of[i]) lines[n++] = totals_of[i];
    for (int k = 0; k < LS_NUTRIENTS; k++)
        if (e->pounds[k].line) lines[n++] = e->pounds[k].line;
    e->digits = digits;
    e->draws = ls_draws_needed(w, seed, digits, most, lines, n, &e->sure);
    ls_litter_points(w, e);
    return e;
}
