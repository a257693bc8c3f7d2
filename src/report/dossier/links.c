/* What several sheets say of a field or a load, where links lead, what a sheet lacks. */
#include "chapters.h"

const char *ls_dossier_field_id(const ls_dossier *d, size_t field) {
    return ls_arena_printf(d->arena, "field-%zu", field + 1);
}

const char *ls_dossier_field_title(const ls_dossier *d, size_t field) {
    const ls_dossier_field *f = &d->fields.at[field];
    return ls_arena_printf(d->arena, "%zu %s%s", field + 1, ls_dossier_name(d->arena, f->buyer, f->field),
                           f->buyer->own.yes ? " (own field)" : "");
}

const char *ls_dossier_entry_id(const ls_dossier *d, long entry) {
    for (size_t i = 0; i < d->loads.n; i++)
        if (d->loads.at[i].hauled->log_entry == entry) return ls_arena_printf(d->arena, "entry-%ld", entry);
    return NULL;
}

const ls_farm_facts *ls_dossier_facts(const ls_dossier *d) {
    static const ls_farm_facts none;
    return d->farm->facts != NULL ? d->farm->facts : &none;
}

ls_doc_cell ls_dossier_word(const ls_dossier_load *l, ls_log_word which) {
    bool said = l->entry != NULL && l->entry->words[which][0] != '\0';
    return W(said ? l->entry->words[which] : NULL);
}

/* Where litters differ, of the least. */
ls_doc_cell ls_dossier_limit_from(const ls_dossier *d, const ls_dossier_field *f, bool at) {
    const ls_phosphorus *ph = f->field->phosphorus;
    const char *by = ph == NULL ? NULL : ph->rated_by.text;
    static const char *const names[] = {"nitrogen need", "rating", "the plan", "spreader", "season", "closed"};
    const ls_rate *r = f->least;
    if (r == NULL) return W(NULL);
    bool closed = r->limit == LS_LIMIT_CLOSED, rated = closed || r->limit == LS_LIMIT_PHOSPHORUS;
    bool cap = r->limit == LS_LIMIT_CAP, given = LS_GIVEN(f->field->most);
    const char *place = at && cap && given ? ls_dossier_at(d, f->field->most.at) : rated && !(at && closed) ? by : NULL;
    const char *name = cap && !given ? "published range" : names[r->limit];
    return W(ls_arena_printf(d->arena, "%s%s%s%s%s", at && closed ? r->why : name, place == NULL ? "" : ", ",
                             place == NULL ? "" : place, f->rate == NULL ? "; the least, litter of " : "",
                             f->rate == NULL ? r->lot->name : ""));
}

const char *ls_dossier_sentence(const ls_dossier *d, const char *words) {
    char *s = ls_arena_copy(d->arena, words);
    if (s[0] >= 'a' && s[0] <= 'z') s[0] = (char)(s[0] - 'a' + 'A');
    return s;
}

LS_DOC_COLUMNS(missing_columns, DATA("missing"), DATA("under"), DATA("line"));

ls_doc_table ls_dossier_put_missing(ls_doc_group *sheet) {
    return LS_DOC_TABLE_IN(sheet, LS_DATA, "missing", NULL, missing_columns);
}

void ls_dossier_missing(ls_doc_table t, bool given, const char *what, const char *under, const char *line) {
    if (given) return;
    LS_DOC_ROW(t, missing_columns, W(what), W(under), W(line));
    ITEM(t.group, LS_FULL, "Missing: {}. Write under {}: \"{}\" (your own).", W(what), W(under), W(line));
}

void ls_dossier_put_caution(ls_doc_group *sheet, const char *row) {
    const ls_reference *r = sheet->document->view->reference;
    SAY(sheet, LS_FULL, "{}", W(ls_row_word(ls_table_row(ls_reference_by_id(r, "caution"), row), "text")));
}
