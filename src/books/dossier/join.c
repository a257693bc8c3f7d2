/* What of the earlier files stands in no ledger of this dossier. */
#include "room.h"

static void say(ls_dossier *d, const char *words) {
    *LS_PUSH(d->arena, &d->joins) = words;
}

static bool has_ledger(const ls_dossier *d, const ls_buyer *b, const ls_field *field) {
    for (size_t i = 0; i < d->fields.n; i++)
        if (strcmp(d->fields.at[i].buyer->name.text, b->name.text) == 0 &&
            strcmp(d->fields.at[i].field->name.text, field->name.text) == 0)
            return true;
    return false;
}

static void notes_of_file(ls_dossier *d, const ls_books *e) {
    ls_arena *a = d->arena;
    size_t matched = 0, fields = 0, nowhere = 0;
    ls_text *bare = ls_text_new(a);
    for (size_t b = 0; b < e->farm->buyers.n; b++)
        for (size_t f = 0; f < e->farm->buyers.at[b].fields.n; f++, fields++) {
            const ls_buyer *buyer = &e->farm->buyers.at[b];
            const ls_field *field = &buyer->fields.at[f];
            size_t n = ls_dossier_parts_on(e->farm, field);
            const char *name = ls_dossier_name(d->arena, buyer, field);
            if (has_ledger(d, buyer, field))
                matched++;
            else if (n == 0)
                ls_text_addf(bare, "%s%s", bare->n > 0 ? ", " : "", name);
            else
                say(d, ls_arena_printf(a, "%s of %s (%zu load%s or part%s in that file): %s", name,
                                       e->name, n, n == 1 ? "" : "s", n == 1 ? "" : "s",
                                       ls_books_same_field(d->farm, buyer, field) != NULL
                                           ? "in this file too, but it got no litter now. It has "
                                             "no page and no ledger here."
                                           : "no field of this file has that buyer and name. It is "
                                             "in no ledger."));
        }
    if (bare->n > 0)
        say(d, ls_arena_printf(a, "%s: got no litter in that file, and has no ledger here: %s.",
                               e->name, bare->s));
    for (size_t i = 0; i < e->farm->hauled.n; i++)
        nowhere += e->farm->hauled.at[i].n == 0;
    if (nowhere > 0)
        say(d, ls_arena_printf(a, "%s: %zu load%s went to no field that it names. In no ledger.",
                               e->name, nowhere, nowhere == 1 ? "" : "s"));
    say(d, ls_arena_printf(a,
                           "%s: %zu of its %zu fields joined to a field here, by the same buyer "
                           "and the same field name.",
                           e->name, matched, fields));
    if (e->log == NULL || e->log->entries.n == 0)
        say(d, ls_arena_printf(a,
                               "%s: its haul log has no entry, or is not there%s%s. No load of "
                               "that file is counted.",
                               e->name, e->log != NULL ? ": " : "",
                               e->log != NULL ? e->log->path : ""));
}

void ls_dossier_join_notes(ls_dossier *d) {
    for (size_t i = 0; i < d->books->earlier.n; i++)
        notes_of_file(d, d->books->earlier.at[i]);
}
