/* What the files tell, this one and those of earlier years, as lines: each load, field and flock is
 * one line, whichever sums it joins. */
#include "room.h"

const ls_farm *ls_dossier_farm(const ls_dossier *d, size_t file) {
    return ls_books_file(d->books, file)->farm;
}

size_t ls_dossier_parts_on(const ls_farm *farm, const ls_field *field) {
    size_t n = 0;
    for (size_t i = 0; i < farm->hauled.n; i++)
        for (size_t k = 0; k < farm->hauled.at[i].n; k++)
            n += farm->hauled.at[i].drops[k].field == field;
    return n;
}

ls_window ls_dossier_span(const ls_farm *farm) {
    ls_window days = {LS_NO_DATE, LS_NO_DATE};
    for (size_t i = 0; i < farm->hauled.n; i++) {
        ls_date day = farm->hauled.at[i].day;
        if (i == 0 || day < days.from) days.from = day;
        if (i == 0 || day > days.to) days.to = day;
    }
    return days;
}

const char *ls_dossier_file(const ls_dossier *d, size_t file) {
    return file == 0 ? "this file" : d->books->earlier.at[file - 1]->name;
}

const char *ls_dossier_lot(const ls_dossier *d, size_t file, size_t lot) {
    return ls_dossier_estimate(d, file)->lots[lot].name;
}

const ls_estimate *ls_dossier_estimate(const ls_dossier *d, size_t file) {
    return ls_books_file(d->books, file)->estimate;
}

const char *ls_dossier_lot_name(const ls_dossier *d, size_t file, size_t lot) {
    const char *name = ls_dossier_estimate(d, file)->lots[lot].name;
    return file == 0 ? name : ls_arena_printf(d->arena, "%s of %s", name, ls_dossier_file(d, file));
}

/* The line "dossier.WHAT" of this file, "dossier.file-1.WHAT" of the first before it. */
static ls_line once(const ls_dossier *d, size_t file, const char *what, const char *label,
                    const char *unit, double value, ls_origin origin) {
    ls_worksheet *w = d->books->sheet;
    const char *key = file == 0 ? ls_printf(w, "dossier.%s", what)
                                : ls_printf(w, "dossier.file-%zu.%s", file, what);
    ls_line line = ls_line_find(w, key);
    return line != LS_NO_LINE ? line
                              : ls_leaf(w, key, label, unit, value, ls_spread_exact(), origin);
}

/* A place in this file; of an earlier one its name. */
static ls_origin origin_of(const ls_dossier *d, size_t file, ls_place at, const char *words) {
    if (file == 0) return (ls_origin){LS_BY_FARM, at, NULL, words};
    return (ls_origin){LS_BY_FARM, LS_NOWHERE, NULL,
                       ls_arena_printf(d->arena, "%s: %s", ls_dossier_file(d, file), words)};
}

ls_line ls_dossier_tons(const ls_dossier *d, size_t file, size_t load, size_t part) {
    ls_arena *a = d->arena;
    const ls_hauled *h = &ls_dossier_farm(d, file)->hauled.at[load];
    ls_origin log = {LS_BY_LOG, LS_NOWHERE, NULL, h->entry};
    if (part == LS_DOSSIER_WHOLE || h->n == 1)
        return once(d, file, ls_arena_printf(a, "load-%zu.tons", load + 1),
                    ls_arena_printf(a, "load %s, %s", h->ticket,
                                    h->weighed ? "over a scale" : "judged by eye"),
                    "ton", h->tons, log);
    return once(
        d, file, ls_arena_printf(a, "load-%zu.part-%zu.tons", load + 1, part + 1),
        ls_arena_printf(a, "part of load %s%s", h->ticket,
                        h->drops[part].guessed ? ", all parts alike: the log gives none" : ""),
        "ton", h->drops[part].tons, log);
}

ls_line ls_dossier_area(const ls_dossier *d, size_t file, const ls_buyer *b, const ls_field *f) {
    if (f->yard) return LS_NO_LINE;
    return once(d, file, ls_arena_printf(d->arena, "%s.%s.area", b->slug, f->slug),
                ls_arena_printf(d->arena, "area of %s", f->name.text), "ac", f->area.value,
                origin_of(d, file, f->area.at, file == 0 ? NULL : "area"));
}

ls_line ls_dossier_housed(const ls_dossier *d, size_t file, const ls_house *h, int bird) {
    const ls_flock *f = ls_books_largest(h, bird);
    if (f == NULL) return LS_NO_LINE;
    return once(d, file, ls_arena_printf(d->arena, "%s.birds-%d", h->slug, bird),
                ls_arena_printf(d->arena, "%s of %s", ls_bird_name(bird), h->name.text), "bird",
                (double)ls_books_birds(f),
                origin_of(d, file, f->at, "birds placed; of breeders hens and males"));
}

ls_line ls_dossier_placed(const ls_dossier *d, size_t file, const ls_house *h, const ls_flock *f) {
    return once(d, file,
                ls_arena_printf(d->arena, "%s.flock-%zu", h->slug, (size_t)(f - h->flocks.at) + 1),
                ls_arena_printf(d->arena, "birds of %s, placed %s", h->name.text,
                                ls_date_words(d->arena, f->placed.day, 0)),
                "bird", (double)ls_books_birds(f) * (double)ls_flock_times(f),
                origin_of(d, file, f->at, "birds placed"));
}

ls_line ls_dossier_lost(const ls_dossier *d, const ls_house *h, const ls_flock *f) {
    ls_worksheet *w = d->books->sheet;
    const char *key =
        ls_printf(w, "dossier.%s.flock-%zu.lost", h->slug, (size_t)(f - h->flocks.at) + 1);
    const char *share_key = ls_printf(w, "%s-share", key);
    ls_line share = LS_NO_LINE;
    if (!LS_GIVEN(f->placed)) return LS_NO_LINE;
    if (f->counts.n > 0) {
        const ls_bird_count *last = &f->counts.at[f->counts.n - 1];
        double placed = (double)(LS_GIVEN(f->hens) ? f->hens.n : f->count.n);
        share = ls_leaf(w, share_key, "share of the birds missing at the last count", "%",
                        1 - (double)last->birds.n / placed, ls_spread_exact(),
                        (ls_origin){LS_BY_FARM, last->at, NULL, NULL});
    } else if (LS_GIVEN(f->lost))
        share = ls_leaf_given(w, share_key, "share of the birds lost", "%", &f->lost);
    return LS_PRODUCT(w, key, ls_printf(w, "birds of %s lost", h->name.text), "bird",
                      ls_dossier_placed(d, 0, h, f), share);
}

void ls_dossier_add_load(const ls_dossier *d, size_t file, size_t load, ls_dossier_gone *gone) {
    const ls_hauled *h = &ls_dossier_farm(d, file)->hauled.at[load];
    if (!h->from_stack)
        *LS_PUSH(d->arena, &gone->out) = ls_dossier_tons(d, file, load, LS_DOSSIER_WHOLE);
    for (size_t k = 0; k < h->n; k++)
        if (h->drops[k].buyer != NULL)
            *LS_PUSH(d->arena, h->drops[k].buyer->own.yes ? &gone->own : &gone->moved) =
                ls_dossier_tons(d, file, load, k);
}

ls_line ls_dossier_sum(const ls_dossier *d, const char *key, const char *label, const char *unit,
                       const ls_books_lines *x, const char *nothing) {
    ls_worksheet *w = d->books->sheet;
    if (x->n > 0) return ls_sum(w, key, label, unit, x->at, x->n);
    return nothing == NULL ? LS_NO_LINE
                           : ls_leaf_exact(w, key, label, unit, 0, LS_BY_DEFINITION, nothing);
}

/* By what the earlier file knows its litter. */
static const char *analysis_words(const ls_dossier *d, const ls_lot *lot, int nutrient) {
    const ls_analysis *a = lot->analysis;
    if (!a->reported[nutrient] || a->report == NULL)
        return "published litter, no laboratory report";
    return ls_arena_printf(d->arena, "laboratory report of %s%s%s%s",
                           ls_date_words(d->arena, a->report->date.day, 0),
                           a->report->by.text != NULL ? ", " : "",
                           a->report->by.text != NULL ? a->report->by.text : "",
                           a->reports > 1 ? ", mean of several" : "");
}

ls_line ls_dossier_per_ton(const ls_dossier *d, size_t file, size_t index, int nutrient) {
    const ls_lot *lot = &ls_dossier_estimate(d, file)->lots[index];
    const char *name = ls_nutrient_key(nutrient);
    if (file == 0 || lot->per_ton[nutrient].line == LS_NO_LINE) return lot->per_ton[nutrient].line;
    double value =
        ls_line_value(d->books->earlier.at[file - 1]->sheet, lot->per_ton[nutrient].line);
    return once(d, file, ls_arena_printf(d->arena, "%s.%s", lot->slug, name),
                ls_arena_printf(d->arena, "%s in a ton of %s", name, lot->name), "lb/ton", value,
                origin_of(d, file, LS_NOWHERE, analysis_words(d, lot, nutrient)));
}

ls_line ls_dossier_made(const ls_dossier *d, size_t file, size_t index) {
    const ls_lot *lot = &ls_dossier_estimate(d, file)->lots[index];
    ls_line made = lot->made.line != LS_NO_LINE ? lot->made.line : lot->tons.line;
    if (file == 0) return made;
    return once(d, file, ls_arena_printf(d->arena, "%s.made", lot->slug),
                ls_arena_printf(d->arena, "litter made, %s", lot->name), "ton",
                ls_line_value(d->books->earlier.at[file - 1]->sheet, made),
                origin_of(d, file, LS_NOWHERE, "its estimate with its haul log"));
}
