/* One finding of the audit: whose rule it is, and where it stands. */
#include "room.h"

const char *ls_dossier_at(const ls_dossier *d, ls_place at) { return ls_diag_where(d->arena, d->farm->diag, at); }

const char *ls_finding_state_name(ls_finding_state state) {
    static const char *const names[LS_FINDING_STATES] = {"limit exceeded", "caution", "note",
                                                         "missing",        "present", "not needed"};
    return names[state];
}

/* Where every load went is asked of every farm: no row of the rules says so. */
static const char haul_log[] = "haul log";

/* Whose records bind this farm: what its plan says, else the federal ones by its size. */
static bool binds(const ls_dossier *d, const char *required_by) {
    const ls_farm_facts *facts = d->farm->facts;
    int asked = facts != NULL && facts->plan != NULL ? facts->plan->records.is : 0;
    if (strcmp(required_by, haul_log) == 0) return true;
    if (strcmp(required_by, "federal") == 0)
        return asked == LS_RECORDS_FEDERAL || asked == LS_RECORDS_BOTH || (asked == 0 && d->large);
    return strcmp(required_by, "state") == 0 && (asked == LS_RECORDS_STATE || asked == LS_RECORDS_BOTH);
}

/* "basis_of_rate.larkspur_hay.upper_meadow": a part for each part of the name. */
static const char *id_of(ls_arena *a, const char *item, const char *of) {
    ls_text *t = ls_text_new(a);
    ls_text_add(t, ls_text_slug(a, item));
    for (size_t n; of != NULL; of = of[n] == '/' ? of + n + 1 : NULL) {
        n = strcspn(of, "/");
        ls_text_addf(t, ".%s", ls_text_slug(a, ls_arena_copy_n(a, of, n)));
    }
    return t->s;
}

ls_dossier_finding *ls_dossier_add(ls_dossier *d, ls_about about, const char *item, const char *of) {
    const ls_row *row = ls_table_row(ls_reference_by_id(d->books->reference, "rule"), item);
    ls_dossier_finding *f = LS_PUSH(d->arena, &d->findings);
    *f = (ls_dossier_finding){.about = about,
                              .item = item,
                              .of = of,
                              .id = id_of(d->arena, item, of),
                              .where = "",
                              .state = LS_PRESENT,
                              .order = d->findings.n};
    const char *words = ls_row_word(row, "item"), *by = ls_row_word(row, "required_by");
    f->words = words != NULL ? words : item;
    f->required_by = words != NULL && by != NULL ? by : about == LS_ABOUT_LIMIT ? "limit" : haul_log;
    if (words != NULL) {
        f->cite = ls_row_word(row, "cite");
        f->source = row->source == NULL ? NULL : row->source->id;
        f->memory = row->status == LS_MEMORY;
    }
    f->required = binds(d, f->required_by);
    return f;
}

void ls_dossier_tell_apart(ls_dossier *d, ls_dossier_finding *f, const char *by) {
    f->id = ls_arena_printf(d->arena, "%s.%s", f->id, ls_text_slug(d->arena, by));
}

void ls_dossier_about_entry(ls_dossier *d, ls_dossier_finding *f, long number) {
    if (f->entries.n == 0 || f->entries.at[f->entries.n - 1] != number) *LS_PUSH(d->arena, &f->entries) = number;
}

const char *ls_dossier_entries(const ls_dossier *d, const ls_dossier_finding *f) {
    ls_text *t = ls_text_new(d->arena);
    for (size_t i = 0; i < f->entries.n; i++) ls_text_addf(t, "%s%ld", i == 0 ? "entry " : ", ", f->entries.at[i]);
    return t->s;
}

void ls_dossier_given(ls_dossier *d, ls_dossier_finding *f, bool given, ls_place at, ls_place under, const char *what,
                      const char *mend) {
    f->state = given ? LS_PRESENT : LS_MISSING;
    f->what = what;
    f->where = ls_dossier_at(d, given ? at : under);
    f->mend = given ? NULL : mend;
}

void ls_dossier_figures(ls_dossier_finding *f, ls_line one, ls_line other, const char *unit) {
    f->figures[0].line = one, f->figures[1].line = other;
    f->figures[0].unit = f->figures[1].unit = unit;
}

ls_dossier_finding *ls_dossier_passed(ls_dossier *d, ls_finding_state state, const char *item, const char *of,
                                      ls_place rule, const char *what) {
    ls_dossier_finding *f = ls_dossier_add(d, LS_ABOUT_LIMIT, item, of);
    f->state = state;
    f->what = what;
    if (rule.file >= 0 && rule.line > 0)
        f->cite = ls_arena_printf(d->arena, "the farm's own file, %s", ls_dossier_at(d, rule));
    f->mend = "if the log is wrong, correct the entry with --replaces. If not, call the plan writer";
    return f;
}

const char *ls_dossier_words_of(const ls_dossier *d, ls_date day) {
    return ls_date_words(d->arena, day, ls_farm_year(d->farm));
}
