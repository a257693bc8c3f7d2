/* What the files tell, this one and those of earlier years, as lines: each load, field and flock is
 * one line, whichever sums it joins. */
#include "room.h"

const ls_farm *ls_dossier_farm(const ls_dossier *d, size_t file) { return ls_books_file(d->books, file)->farm; }

size_t ls_dossier_parts_on(const ls_farm *farm, const ls_field *field) {
    size_t n = 0;
    for (size_t i = 0; i < farm->hauled.n; i++)
        for (size_t k = 0; k < farm->hauled.at[i].n; k++) n += farm->hauled.at[i].drops[k].field == field;
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

/* Lines "WHAT" of this file, "file-1.WHAT" of the first before it. */
static ls_worksheet *part_of(const ls_dossier *d, size_t file) {
    return file == 0 ? d->sheet : ls_part(d->sheet, NULL, "file-%zu", file);
}

/* By a place in this file; of an earlier one by its name. */
static ls_line told(const ls_dossier *d, size_t file, const char *key, const char *label, const char *unit,
                    double value, ls_place at, const char *words) {
    ls_origin by = {LS_BY_FARM, at, NULL, words};
    if (file > 0)
        by = (ls_origin){LS_BY_FARM, LS_NOWHERE, NULL, ls_printf(d->sheet, "%s: %s", ls_dossier_file(d, file), words)};
    return ls_leaf(part_of(d, file), key, label, unit, value, ls_spread_exact(), by);
}

ls_line ls_dossier_tons(const ls_dossier *d, size_t file, size_t load, size_t part) {
    const ls_hauled *h = &ls_dossier_farm(d, file)->hauled.at[load];
    ls_worksheet *w = ls_part(part_of(d, file), h->ticket, "load-%zu", load + 1);
    if (part == LS_DOSSIER_WHOLE || h->n == 1)
        return ls_leaf_exact(w, "tons", h->weighed ? "load %s, over a scale" : "load %s, judged by eye", "ton", h->tons,
                             LS_BY_LOG, h->entry);
    return ls_leaf_exact(w, ls_printf(w, "part-%zu.tons", part + 1),
                         h->drops[part].guessed ? "part of load %s, all parts alike: the log gives none"
                                                : "part of load %s",
                         "ton", h->drops[part].tons, LS_BY_LOG, h->entry);
}

ls_line ls_dossier_area(const ls_dossier *d, size_t file, const ls_buyer *b, const ls_field *f) {
    if (f->yard) return LS_NO_LINE;
    return told(d, file, ls_printf(d->sheet, "%s.%s.area", b->slug, f->slug),
                ls_printf(d->sheet, "area of %s", f->name.text), "ac", f->area.value, f->area.at,
                file == 0 ? NULL : "area");
}

ls_line ls_dossier_housed(const ls_dossier *d, size_t file, const ls_house *h, int bird) {
    const ls_flock *f = ls_books_largest(h, bird);
    if (f == NULL) return LS_NO_LINE;
    return told(d, file, ls_printf(d->sheet, "%s.birds-%d", h->slug, bird),
                ls_printf(d->sheet, "%s of %s", ls_bird_name(bird), h->name.text), "bird", (double)ls_books_birds(f),
                f->at, "birds placed; of breeders hens and males");
}

ls_line ls_dossier_placed(const ls_dossier *d, size_t file, const ls_house *h, const ls_flock *f, long n) {
    const char *of = n == ls_flock_times(f) ? "" : ls_printf(d->sheet, ".%ld", n);
    if (n == 0) return LS_NO_LINE;
    return told(
        d, file, ls_printf(d->sheet, "%s.flock-%zu%s", h->slug, (size_t)(f - h->flocks.at) + 1, of),
        ls_printf(d->sheet, "birds of %s, placed %s%s", h->name.text, ls_date_words(d->arena, f->placed.day, 0),
                  ls_flock_times(f) == 1 ? "" : ls_printf(d->sheet, ": %ld of %ld flocks alike", n, ls_flock_times(f))),
        "bird", (double)ls_books_birds(f) * (double)n, f->at, "birds placed");
}

ls_line ls_dossier_lost(const ls_dossier *d, const ls_house *h, const ls_flock *f) {
    ls_worksheet *w = ls_part(d->sheet, h->name.text, "%s.flock-%zu", h->slug, (size_t)(f - h->flocks.at) + 1);
    ls_line share = LS_NO_LINE;
    if (!LS_GIVEN(f->placed)) return LS_NO_LINE;
    if (f->counts.n > 0) {
        const ls_bird_count *last = &f->counts.at[f->counts.n - 1];
        double placed = (double)(LS_GIVEN(f->hens) ? f->hens.n : f->count.n);
        share = ls_leaf(w, "lost-share", "share of the birds missing at the last count", "%",
                        1 - (double)last->birds.n / placed, ls_spread_exact(),
                        (ls_origin){LS_BY_FARM, last->at, NULL, NULL});
    } else if (LS_GIVEN(f->lost))
        share = ls_leaf_given(w, "lost-share", "share of the birds lost", "%", &f->lost);
    return LS_PRODUCT(w, "lost", "birds of %s lost", "bird", ls_dossier_placed(d, 0, h, f, ls_flock_times(f)), share);
}

void ls_dossier_add_load(const ls_dossier *d, size_t file, size_t load, ls_dossier_gone *gone) {
    const ls_hauled *h = &ls_dossier_farm(d, file)->hauled.at[load];
    if (!h->from_stack) *LS_PUSH(d->arena, &gone->out) = ls_dossier_tons(d, file, load, LS_DOSSIER_WHOLE);
    for (size_t k = 0; k < h->n; k++)
        if (h->drops[k].buyer != NULL)
            *LS_PUSH(d->arena, h->drops[k].buyer->own.yes ? &gone->own : &gone->moved) =
                ls_dossier_tons(d, file, load, k);
}

ls_line ls_dossier_sum(const ls_dossier *d, const char *key, const char *label, const char *unit,
                       const ls_books_lines *x, const char *nothing) {
    return x->n > 0 || nothing == NULL ? ls_sum(d->sheet, key, label, unit, x->at, x->n)
                                       : ls_leaf_exact(d->sheet, key, label, unit, 0, LS_BY_DEFINITION, nothing);
}

/* By what the earlier file knows its litter. */
static const char *analysis_words(const ls_dossier *d, const ls_lot *lot, int nutrient) {
    const ls_analysis *a = lot->analysis;
    if (!a->reported[nutrient] || a->report == NULL) return "published litter, no laboratory report";
    return ls_arena_printf(d->arena, "laboratory report of %s%s%s%s", ls_date_words(d->arena, a->report->date.day, 0),
                           a->report->by.text != NULL ? ", " : "", a->report->by.text != NULL ? a->report->by.text : "",
                           a->reports > 1 ? ", mean of several" : "");
}

ls_line ls_dossier_per_ton(const ls_dossier *d, size_t file, size_t index, int nutrient) {
    const ls_lot *lot = &ls_dossier_estimate(d, file)->lots[index];
    const char *name = ls_nutrient_key(nutrient);
    if (file == 0 || lot->per_ton[nutrient].line == LS_NO_LINE) return lot->per_ton[nutrient].line;
    double value = ls_line_value(d->books->earlier.at[file - 1]->sheet, lot->per_ton[nutrient].line);
    return told(d, file, ls_printf(d->sheet, "%s.%s", lot->slug, name),
                ls_printf(d->sheet, "%s in a ton of %s", name, lot->name), "lb/ton", value, LS_NOWHERE,
                analysis_words(d, lot, nutrient));
}

ls_line ls_dossier_made(const ls_dossier *d, size_t file, size_t index) {
    const ls_lot *lot = &ls_dossier_estimate(d, file)->lots[index];
    ls_line made = lot->made.line != LS_NO_LINE ? lot->made.line : lot->tons.line;
    if (file == 0) return made;
    return told(d, file, ls_printf(d->sheet, "%s.made", lot->slug), ls_printf(d->sheet, "litter made, %s", lot->name),
                "ton", ls_line_value(d->books->earlier.at[file - 1]->sheet, made), LS_NOWHERE,
                "its estimate with its haul log");
}
