/* The phosphorus ledger with this litter, and what of the earlier files stands in no ledger. */
#include "room.h"

/* P2O5 that the crop takes: by the yield that came, if it is known, else by the one expected. */
static ls_line removed(const ls_dossier_field *f) {
    ls_worksheet *w = f->sheet;
    const ls_field *field = f->field;
    const char *unit = field->yield.unit.text;
    if (f->rates->removal_P2O5 == LS_NO_LINE || !LS_GIVEN(field->yield_got)) return f->rates->removal_P2O5;
    ls_line got = ls_leaf_given(w, "yield-got", "actual yield", unit, &field->yield_got),
            expected = ls_leaf_given(w, "yield-expected", "yield expected", unit, &field->yield);
    return LS_PRODUCT(w, "removed", "P2O5 the crop took, by its actual yield", "lb/ac", f->rates->removal_P2O5,
                      ls_quotient(w, "yield-share", "actual yield over the expected one", "%", got, expected));
}

/* With what went on now, on an acre of the whole field as in every other year, whichever of its acres loads covered:
 * the crop takes it off all of them. */
void ls_dossier_make_ledger(ls_dossier_field *f) {
    ls_worksheet *w = ls_part(f->sheet, NULL, "ledger");
    ls_line on = ls_quotient(w, "on", "P2O5 of litter on an acre of the whole field", "lb/ac",
                             f->actual.pounds[LS_FIELD_P2O5], f->rates->spreadable),
            before = LS_NO_LINE, bought = LS_NO_LINE;
    f->ledger_removed = on == LS_NO_LINE ? LS_NO_LINE : removed(f);
    f->ledger_on = on;
    f->ledger_after = LS_NO_LINE;
    if (f->ledger_removed == LS_NO_LINE) return;
    if (f->rates->ledger_n > 0) before = f->rates->ledger[f->rates->ledger_n - 1].balance;
    if (ls_dossier_bought(f)) bought = f->rates->credits[LS_FIELD_P2O5];
    if (before != LS_NO_LINE || bought != LS_NO_LINE)
        on = LS_SUM(w, "with-banked", "P2O5 applied, bought, and left of earlier years", "lb/ac", on, before, bought);
    ls_line none = ls_leaf_exact(w, "none", "nothing", "lb/ac", 0, LS_BY_DEFINITION, NULL);
    ls_line rest = ls_difference(w, "rest", "that less what this crop takes", "lb/ac", on, f->ledger_removed);
    f->ledger_after = LS_GREATEST(w, "after", "P2O5 left after this crop", "lb/ac", rest, none);
}

/* ---- what stands in no ledger ---- */

static void say(ls_dossier *d, const char *words) { *LS_PUSH(d->arena, &d->joins) = words; }

static bool has_ledger(const ls_dossier *d, const ls_field *here) {
    for (size_t i = 0; i < d->fields.n; i++)
        if (d->fields.at[i].field == here) return true;
    return false;
}

/* Litter that a file leaves in a house which no later file names. */
static void rests_of_file(ls_dossier *d, const ls_coded_lots *all, size_t file) {
    const ls_books *e = ls_books_file(d->books, file);
    for (size_t i = 0; i < e->estimate->n; i++) {
        const ls_lot *lot = &e->estimate->lots[i];
        double left = ls_line_value(e->sheet, lot->tons.line) / ls_unit_of("ton").factor;
        bool named = false;
        for (size_t k = 0; k < file; k++)
            named = named || ls_books_lot(&all[k], ls_books_code_now(all + k, file - k, lot->code));
        if (named || !(left >= 0.01)) continue;
        say(d,
            ls_arena_printf(d->arena,
                            "%s: litter of %s was left in the house, and no later file names it. How much: "
                            "littershed estimate %s. The books of the period have it there yet. Was it renamed? Fix: "
                            "formerly names it as it was, or record with %s where it went.",
                            e->name, lot->name, e->name, e->name));
    }
}

static void notes_of_file(ls_dossier *d, size_t file) {
    ls_arena *a = d->arena;
    const ls_books *e = ls_books_file(d->books, file);
    size_t matched = 0, fields = 0, nowhere = 0;
    ls_text *bare = ls_text_new(a);
    LS_EACH (const ls_buyer, buyer, e->farm->buyers)
        LS_EACH (const ls_field, field, buyer->fields) {
            const ls_field *here = ls_books_same_field(d->books, file, buyer, field);
            fields++;
            size_t n = ls_dossier_parts_on(e->farm, field);
            const char *name = ls_dossier_name(d->arena, buyer, field);
            if (field->yard || has_ledger(d, here))
                matched++;
            else if (n == 0)
                ls_text_addf(bare, "%s%s", bare->n > 0 ? ", " : "", name);
            else
                say(d, ls_arena_printf(a, "%s of %s (%zu load%s or part%s in that file): %s", name, e->name, n,
                                       n == 1 ? "" : "s", n == 1 ? "" : "s",
                                       here != NULL ? "in this file too, but it got no litter now. It has "
                                                      "no page and no ledger here."
                                                    : "no field of this file has that buyer and name, now or "
                                                      "formerly. It is in no ledger."));
        }
    if (bare->n > 0)
        say(d, ls_arena_printf(a, "%s: got no litter in that file, and has no ledger here: %s.", e->name, bare->s));
    for (size_t i = 0; i < e->farm->hauled.n; i++) nowhere += e->farm->hauled.at[i].n == 0;
    if (nowhere > 0)
        say(d, ls_arena_printf(a, "%s: %zu load%s went to no field that it names. In no ledger.", e->name, nowhere,
                               nowhere == 1 ? "" : "s"));
    say(d, ls_arena_printf(a,
                           "%s: %zu of its %zu fields joined to a field here, by the names of buyer "
                           "and field, now or formerly.",
                           e->name, matched, fields));
    if (e->log == NULL || e->log->entries.n == 0)
        say(d, ls_arena_printf(a,
                               "%s: its haul log has no entry, or is not there%s%s. No load of "
                               "that file is counted.",
                               e->name, e->log != NULL ? ": " : "", e->log != NULL ? e->log->path : ""));
}

void ls_dossier_join_notes(ls_dossier *d) {
    const ls_coded_lots *all = ls_books_all_lots(d->books);
    for (size_t i = 1; i <= d->books->earlier.n; i++) {
        notes_of_file(d, i);
        rests_of_file(d, all, i);
    }
}
