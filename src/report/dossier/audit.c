/* The audit: what was found, what is wrong and how to fix it. */
#include "chapters.h"

#include "report/put.h"

#include <stdlib.h>
#include <string.h>

/* What an inspector counts of the findings in one state; of missing records those that are required
 * of this farm, or not. */
typedef enum { LS_BOUND, LS_NOT_BOUND, LS_BOUND_OR_NOT } bound;

static bool counts_as(const ls_dossier_finding *f, ls_finding_state state, bound of) {
    return f->state == state && (of == LS_BOUND_OR_NOT || f->required == (of == LS_BOUND));
}

/* A rule's, not the log's own. */
static bool binds(const ls_dossier_finding *f) { return f->required && strcmp(f->required_by, "haul log") != 0; }

static bool any_required(const ls_dossier *d) {
    for (size_t i = 0; i < d->findings.n; i++)
        if (binds(&d->findings.at[i])) return true;
    return false;
}

/* What was found, or what is wrong, in its words with its figures. */
static ls_doc_cell what(const ls_dossier *d, const ls_dossier_finding *f, const char *words) {
    enum { MOST = sizeof f->figures / sizeof *f->figures };
    ls_doc_cell *parts = LS_NEW(d->arena, ls_doc_cell, 2 * MOST + 1);
    ls_text *form = ls_text_new(d->arena);
    size_t n = 0;
    for (size_t i = 0; i < MOST && f->figures[i].unit != NULL; i++) {
        const char *mark = strstr(words, LS_FIGURE), *unit = f->figures[i].unit;
        if (mark == NULL) break;
        if (mark > words) parts[n++] = W(ls_arena_copy_n(d->arena, words, (size_t)(mark - words)));
        parts[n++] = strcmp(unit, "ton") == 0 ? BOOKED(f->figures[i].line, unit) : F(f->figures[i].line, unit);
        words = mark + strlen(LS_FIGURE);
    }
    if (n == 0) return W(words);
    if (words[0] != '\0') parts[n++] = W(words);
    for (size_t i = 0; i < n; i++) ls_text_add(form, "{}");
    return ls_doc_template(form->s, parts, n);
}

const char *ls_dossier_rule(const ls_dossier *d, const ls_dossier_finding *f) {
    const char *cite = f->cite != NULL ? f->cite : f->source != NULL ? f->source : "";
    if (f->about == LS_ABOUT_LIMIT) return cite[0] != '\0' ? cite : "the farm's own figures";
    return ls_arena_printf(d->arena, "%s%s%s%s%s", f->required_by, binds(f) ? " (required here)" : "",
                           cite[0] != '\0' ? ", " : "", cite, f->memory ? "*" : "");
}

/* ---- all findings ---- */

LS_DOC_COLUMNS(finding_columns, WORDS("id", NULL), WORDS("field", NULL), WORDS("entries", NULL), WORDS("item", NULL),
               WORDS("words", NULL), WORDS("of", NULL), WORDS("state", NULL), WORDS("required_by", NULL),
               WORDS("required", NULL), WORDS("cite", NULL), WORDS("what", NULL), WORDS("where", NULL),
               WORDS("mend", NULL));

static ls_doc_cell entries(const ls_dossier *d, const ls_dossier_finding *f) {
    const char **numbers = LS_NEW(d->arena, const char *, f->entries.n);
    for (size_t i = 0; i < f->entries.n; i++) numbers[i] = ls_arena_printf(d->arena, "%ld", f->entries.at[i]);
    return ls_doc_names(numbers, f->entries.n);
}

static void findings(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_DATA, "findings", NULL, finding_columns);
    LS_EACH (const ls_dossier_finding, f, d->findings) {
        if (f->state == LS_NOT_NEEDED) continue;
        LS_DOC_ROW(t, finding_columns, W(f->id), W(f->field), entries(d, f), W(f->item), W(f->words), W(f->of),
                   W(ls_finding_state_name(f->state)), W(f->required_by),
                   W(f->required || f->state == LS_EXCEEDED ? "yes" : "no"), W(f->cite), what(d, f, f->what),
                   W(f->where), W(f->mend));
    }
}

/* Is it about loads alone that went outside of the period? */
static bool is_outside(const ls_dossier *d, const ls_dossier_finding *f) {
    size_t n = 0;
    LS_EACH (const ls_dossier_load, l, d->loads)
        for (size_t i = 0; i < f->entries.n && !ls_dossier_covers(d, l->hauled->day); i++)
            n += f->entries.at[i] == l->hauled->log_entry;
    return n > 0 && n == f->entries.n;
}

/* ---- what is wrong: records of one kind that are missing are told once ---- */

/* What is missing must be said in the same words: of a field the litter may be named that has no report. */
static bool is_told_with(const ls_dossier *d, const ls_dossier_finding *a, const ls_dossier_finding *b) {
    return a->state == LS_MISSING && b->state == LS_MISSING && a->required == b->required && a->about == b->about &&
           strcmp(a->item, b->item) == 0 && is_outside(d, a) == is_outside(d, b) &&
           (a->about == LS_ABOUT_FARM || strcmp(a->what, b->what) == 0);
}

/* Records missing of the same kind, or one finding of another class: all that are told with the
 * i-th; none: it was told with one before. */
static ls_dossier_found run_of(const ls_dossier *d, size_t i) {
    ls_dossier_found r = {0};
    for (size_t k = 0; k < d->findings.n; k++) {
        const ls_dossier_finding *f = &d->findings.at[k];
        if (k != i && !is_told_with(d, &d->findings.at[i], f)) continue;
        if (k < i) return (ls_dossier_found){0};
        *LS_PUSH(d->arena, &r) = f;
    }
    return r;
}

static int by_number(const void *left, const void *right) {
    const long *a = left, *b = right;
    return (*a > *b) - (*a < *b);
}

const char *ls_dossier_ranges(const ls_dossier *d, long *entries, size_t n) {
    ls_text *t = ls_text_new(d->arena);
    if (n > 1) qsort(entries, n, sizeof *entries, by_number);
    for (size_t i = 0, next; i < n; i = next) {
        for (next = i + 1; next < n && entries[next] <= entries[next - 1] + 1;) next++;
        ls_text_addf(t, next > i + 1 ? "%s%ld-%ld" : "%s%ld", i > 0 ? ", " : "", entries[i], entries[next - 1]);
    }
    return t->s;
}

const char *ls_dossier_entry_ranges(const ls_dossier *d, const ls_dossier_found *r) {
    long *entries = LS_NEW(d->arena, long, r->n);
    size_t n = 0;
    for (size_t i = 0; i < r->n; i++)
        if (r->at[i]->entries.n > 0) entries[n++] = r->at[i]->entries.at[0];
    return n > 0 ? ls_dossier_ranges(d, entries, n) : NULL;
}

static size_t field_of(const ls_dossier *d, const ls_dossier_finding *f) {
    size_t i = 0;
    while (f->field != NULL && i < d->fields.n &&
           strcmp(f->field, ls_dossier_name(d->arena, d->fields.at[i].buyer, d->fields.at[i].field)) != 0)
        i++;
    return f->field == NULL ? d->fields.n : i;
}

/* The numbers of their sheets, each a link. */
static ls_doc_cell sheets_of(const ls_dossier *d, const ls_dossier_found *r) {
    ls_doc_cell *parts = LS_NEW(d->arena, ls_doc_cell, r->n);
    ls_text *t = ls_text_new(d->arena);
    size_t n = 0;
    for (size_t i = 0; i < r->n; i++) {
        size_t k = field_of(d, r->at[i]);
        if (k == d->fields.n) continue;
        ls_text_add(t, n == 0 ? "sheets {}" : ", {}");
        parts[n++] = LINK(W(ls_arena_printf(d->arena, "%zu", k + 1)), ls_dossier_field_id(d, k));
    }
    return n == 0 ? W(r->at[0]->of) : ls_doc_template(t->s, parts, n);
}

/* What it is about, with a link to where it stands. */
static ls_doc_cell where(ls_doc_group *g, const ls_dossier *d, const ls_dossier_found *r) {
    const ls_dossier_finding *f = r->at[0];
    size_t field = field_of(d, f);
    const char *at = f->where[0] == '\0' ? NULL : f->where;
    if (r->n > 1 && f->about == LS_ABOUT_TRANSFER)
        return KEPT(g->document, "{}{}", LINK(W(ls_arena_printf(d->arena, "%zu loads", r->n)), "loads"),
                    OPTIONAL(" (entries {})", W(ls_dossier_entry_ranges(d, r))));
    if (r->n > 1 && f->about == LS_ABOUT_FIELD && r->n == d->fields.n)
        return LINK(W(ls_arena_printf(d->arena, "all %zu fields", r->n)), "field-1");
    if (r->n > 1 && f->about == LS_ABOUT_FIELD) return sheets_of(d, r);
    if (r->n > 1) return KEPT(g->document, "{} and {} more", W(f->of), N(r->n - 1));
    const char *entry = f->entries.n == 1 ? ls_dossier_entry_id(d, f->entries.at[0]) : NULL;
    return KEPT(g->document, "{}{}", LINK(W(f->of), field < d->fields.n ? ls_dossier_field_id(d, field) : entry),
                OPTIONAL(" ({})", LINK(W(at), entry)));
}

/* What is mended in one place is mended for all loads, what is a receiver's for each of them. */
static ls_doc_cell again(const ls_dossier *d, const ls_dossier_found *r) {
    LS_LIST(const ls_buyer *) named = {0};
    ls_text *others = ls_text_new(d->arena);
    bool same = true;
    for (size_t i = 0; i < r->n; i++) {
        const ls_buyer *b = r->at[i]->receiver;
        bool told = b == NULL;
        same = same && ls_text_same(r->at[i]->mend, r->at[0]->mend);
        for (size_t k = 0; k < named.n && !told; k++) told = named.at[k] == b;
        if (told) continue;
        if (named.n > 0) ls_text_addf(others, "%s%s", named.n > 1 ? ", " : "; so for ", b->name.text);
        *LS_PUSH(d->arena, &named) = b;
    }
    return W(r->n == 1                                      ? ""
             : r->at[0]->about == LS_ABOUT_FIELD            ? "; so for each field"
             : others->n > 0                                ? others->s
             : same && r->at[0]->about == LS_ABOUT_TRANSFER ? ""
                                                            : "; so for each");
}

/* A list of what is in one state. */
typedef struct {
    const char *heading, *none;
    ls_finding_state state;
    bound bound;
} list;

static void wrong(ls_doc_group *top, const ls_dossier *d, list l) {
    ls_doc_group *g = NULL;
    for (size_t i = 0; i < d->findings.n; i++) {
        const ls_dossier_finding *f = &d->findings.at[i];
        if (!counts_as(f, l.state, l.bound)) continue;
        if (g == NULL) g = ls_doc_object(top, LS_FIRST, NULL, l.heading);
        ls_dossier_found r = run_of(d, i);
        if (r.n > 0)
            ITEM(g, LS_FIRST, "{} ({}), {}{}. {}. Fix: {}{}.", W(f->words), W(ls_dossier_rule(d, f)), where(g, d, &r),
                 W(is_outside(d, f) ? ", outside of the period" : ""), what(d, f, ls_dossier_sentence(d, f->what)),
                 W(f->mend != NULL ? f->mend : "ask the plan writer"), again(d, &r));
    }
    if (g == NULL && l.none != NULL) SAY(top, LS_FIRST, l.none);
}

/* ---- every item ---- */

LS_DOC_COLUMNS(item_columns, DATA("item"), DATA("record"), DATA("rule"), DATA("present"), DATA("missing"),
               DATA("not_needed"), DATA("first_at"));

static ls_dossier_tally *tally_of(const ls_dossier *d, ls_dossier_tallies *all, const ls_dossier_finding *f) {
    LS_EACH (ls_dossier_tally, one, *all)
        if (strcmp(one->of->item, f->item) == 0) return one;
    ls_dossier_tally *one = LS_PUSH(d->arena, all);
    one->of = f;
    return one;
}

ls_dossier_tallies ls_dossier_tally_all(const ls_dossier *d, ls_about about, const ls_buyer *receiver,
                                        const bool *entries) {
    ls_dossier_tallies all = {0};
    LS_EACH (const ls_dossier_finding, f, d->findings) {
        bool others = f->receiver != NULL && f->receiver != receiver;
        if (f->about != about || (entries != NULL && (others || !entries[f->entries.at[0]]))) continue;
        ls_dossier_tally *x = tally_of(d, &all, f);
        x->n[f->state]++;
        if (f->state == LS_PRESENT && x->first == NULL) x->first = f->where;
        if (f->state == LS_MISSING) *LS_PUSH(d->arena, &x->missing) = f;
    }
    return all;
}

/* Those that lack nowhere join the list, with how often they are there. */
static void items(ls_doc_group *g, const ls_dossier *d, ls_about about, const char *key, ls_report_list *whole) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, key, NULL, item_columns);
    ls_dossier_tallies all = ls_dossier_tally_all(d, about, NULL, NULL);
    LS_EACH (const ls_dossier_tally, x, all) {
        if (x->n[LS_PRESENT] > 0 && x->n[LS_MISSING] == 0)
            *LS_PUSH(d->arena, whole) = ls_arena_printf(d->arena, "%s: %zu", x->of->words, x->n[LS_PRESENT]);
        LS_DOC_ROW(t, item_columns, W(x->of->item), W(x->of->words), W(ls_dossier_rule(d, x->of)), N(x->n[LS_PRESENT]),
                   N(x->n[LS_MISSING]), N(x->n[LS_NOT_NEEDED]), W(x->first));
    }
}

static const char *records_unknown(const ls_dossier *d) {
    return any_required(d) ? "No record that is required here is missing."
                           : "The file does not say which records you must keep. Write under farm: plan: "
                             "\"records: federal\", state or \"federal and state\", as your permit and local "
                             "code ask.";
}

void ls_dossier_put_audit(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, "audit", "Findings, and how to fix each");
    const list lists[] = {{"Limits exceeded", "No limit of the plan, the ratings or the farm's own files was exceeded.",
                           LS_EXCEEDED, LS_BOUND_OR_NOT},
                          {"Required records that are missing", records_unknown(d), LS_MISSING, LS_BOUND},
                          {"Cautions: published figures, where the files give none", NULL, LS_CAUTION, LS_BOUND_OR_NOT},
                          {"Notes for the crew", NULL, LS_NOTE, LS_BOUND_OR_NOT},
                          {"Records of good practice that are missing", "No record of good practice is missing.",
                           LS_MISSING, LS_NOT_BOUND}};
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) wrong(g, d, lists[i]);
    SAY(g, LS_FIRST,
        "*: the rule's wording is unverified. Federal: asked of large operations, and where a "
        "permit "
        "says so. State: a state's rule, as an example. Your permit and local code decide which "
        "rules bind this farm.");
}

void ls_report_dossier_records(ls_doc_group *top, const ls_dossier *d) {
    static const char *const keys[] = {
        [LS_ABOUT_FARM] = "farm", [LS_ABOUT_TRANSFER] = "transfers", [LS_ABOUT_FIELD] = "fields"};
    ls_report_list whole = {0};
    ls_doc_group *each = ls_doc_object(ls_doc_object(top, LS_FULL, "audit", NULL), LS_FULL, "items", NULL);
    for (ls_about about = LS_ABOUT_FARM; about <= LS_ABOUT_FIELD; about++) items(each, d, about, keys[about], &whole);
    ls_doc_texts(top, LS_FULL, "present", "Present wherever asked", whole.at, whole.n);
    findings(top, d);
}

LS_DOC_COLUMNS(verdict_columns, DATA("class"), HEAD(NULL), NUMBER("findings", NULL), DATA("outside_period"));

void ls_dossier_put_verdict(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "verdict", "Verdict", verdict_columns);
    const struct {
        const char *words;
        ls_finding_state state;
        bound bound;
    } rows[] = {{"limits exceeded", LS_EXCEEDED, LS_BOUND_OR_NOT},
                {any_required(d) ? "required records missing" : "required records missing (the file names none)",
                 LS_MISSING, LS_BOUND},
                {"cautions", LS_CAUTION, LS_BOUND_OR_NOT},
                {"notes for the crew", LS_NOTE, LS_BOUND_OR_NOT},
                {"records of good practice missing", LS_MISSING, LS_NOT_BOUND},
                {"records present", LS_PRESENT, LS_BOUND_OR_NOT}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        size_t n = 0, outside = 0;
        LS_EACH (const ls_dossier_finding, f, d->findings)
            if (counts_as(f, rows[i].state, rows[i].bound)) n++, outside += is_outside(d, f);
        LS_DOC_ROW(t, verdict_columns, W(rows[i].words),
                   outside == 0 ? W(rows[i].words) : T("{} (outside of the period: {})", W(rows[i].words), N(outside)),
                   N(n), N(outside));
    }
}
