/* The audit: what was found, what is wrong and how to fix it. */
#include "chapters.h"

#include <stdlib.h>
#include <string.h>

size_t ls_dossier_count(const ls_dossier *d, ls_finding_state state, ls_dossier_bound bound) {
    size_t n = 0;
    for (size_t i = 0; i < d->findings.n; i++)
        n += ls_dossier_counts(&d->findings.at[i], state, bound);
    return n;
}

bool ls_dossier_counts(const ls_dossier_finding *f, ls_finding_state state,
                       ls_dossier_bound bound) {
    return f->state == state && (bound == LS_BOUND_OR_NOT || f->required == (bound == LS_BOUND));
}

/* A rule's, not the log's own. */
static bool binds(const ls_dossier_finding *f) {
    return f->required && strcmp(f->required_by, "haul log") != 0;
}

bool ls_dossier_any_required(const ls_dossier *d) {
    for (size_t i = 0; i < d->findings.n; i++)
        if (binds(&d->findings.at[i]))
            return true;
    return false;
}

/* What was found, or what is wrong, with its figures. */
static ls_doc_cell what(const ls_dossier *d, const ls_dossier_finding *f) {
    enum { MOST = sizeof f->figures / sizeof *f->figures };
    ls_doc_cell *parts = LS_NEW(d->arena, ls_doc_cell, MOST);
    const char *mark = f->what;
    size_t n = 0;
    for (; mark != NULL && n < MOST && f->figures[n].unit != NULL; n++) {
        if ((mark = strstr(mark, LS_FIGURE)) == NULL)
            break;
        mark += strlen(LS_FIGURE);
        bool tons = strcmp(f->figures[n].unit, "ton") == 0;
        parts[n] =
            tons ? BOOKED(f->figures[n].line, "ton") : F(f->figures[n].line, f->figures[n].unit);
    }
    return n == 0 ? W(f->what) : ls_doc_template(f->what, parts, n);
}

/* Whose rule it is, in short. */
static const char *rule(const ls_dossier *d, const ls_dossier_finding *f) {
    const char *cite = f->cite != NULL ? f->cite : f->source != NULL ? f->source : "";
    if (f->about == LS_ABOUT_LIMIT)
        return cite[0] != '\0' ? cite : "the farm's own figures";
    return ls_arena_printf(d->arena, "%s%s%s%s%s", f->required_by,
                           binds(f) ? " (required here)" : "", cite[0] != '\0' ? ", " : "", cite,
                           f->memory ? "*" : "");
}

/* ---- all findings ---- */

LS_DOC_COLUMNS(finding_columns, WORDS("id", NULL), WORDS("field", NULL), WORDS("entries", NULL),
               WORDS("item", NULL), WORDS("words", NULL), WORDS("of", NULL), WORDS("state", NULL),
               WORDS("required_by", NULL), WORDS("required", NULL), WORDS("cite", NULL),
               WORDS("what", NULL), WORDS("where", NULL), WORDS("mend", NULL));

static ls_doc_cell entries(const ls_dossier *d, const ls_dossier_finding *f) {
    const char **numbers = LS_NEW(d->arena, const char *, f->entries.n);
    for (size_t i = 0; i < f->entries.n; i++)
        numbers[i] = ls_arena_printf(d->arena, "%ld", f->entries.at[i]);
    return ls_doc_names(numbers, f->entries.n);
}

static void findings(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_DATA, "findings", NULL, finding_columns);
    for (size_t i = 0; i < d->findings.n; i++) {
        const ls_dossier_finding *f = &d->findings.at[i];
        if (f->state == LS_NOT_NEEDED)
            continue;
        LS_DOC_ROW(t, finding_columns, W(f->id), W(f->field), entries(d, f), W(f->item),
                   W(f->words), W(f->of), W(ls_finding_state_name(f->state)), W(f->required_by),
                   W(f->required || f->state == LS_EXCEEDED ? "yes" : "no"), W(f->cite), what(d, f),
                   W(f->where), W(f->mend));
    }
}

/* ---- what is wrong: findings alike are told once ---- */

LS_DOC_COLUMNS(wrong_columns, WORDS("record", "record and rule"), WORDS("of", "where"),
               WORDS("fix", "what is wrong, and the fix"));

/* Of loads the way to mend differs by the number of the entry alone. */
static bool of_entry(const ls_dossier_finding *f) {
    static const char again[] = "littershed record";
    return f->about == LS_ABOUT_TRANSFER && f->mend != NULL &&
           strncmp(f->mend, again, sizeof again - 1) == 0;
}

/* Alike are those of one item with the same words and the same fix: 0. */
static int likeness(const ls_dossier_finding *a, const ls_dossier_finding *b) {
    const char *const words[][2] = {{a->item, b->item},
                                    {a->what, b->what},
                                    {of_entry(a) ? "" : a->mend, of_entry(b) ? "" : b->mend}};
    int order = (int)a->state - (int)b->state;
    order = order != 0 ? order : a->required - b->required;
    order = order != 0 ? order : of_entry(a) - of_entry(b);
    for (size_t i = 0; order == 0 && i < sizeof words / sizeof *words; i++)
        order =
            strcmp(words[i][0] == NULL ? "" : words[i][0], words[i][1] == NULL ? "" : words[i][1]);
    return order;
}

static int by_likeness(const void *left, const void *right) {
    const ls_dossier_finding *a = *(const ls_dossier_finding *const *)left,
                             *b = *(const ls_dossier_finding *const *)right;
    int order = likeness(a, b);
    return order != 0 ? order : a < b ? -1 : a > b;
}

/* What it is about and where to write. */
static void name_one(ls_text *t, const ls_dossier_finding *f, bool first) {
    ls_text_addf(t, "%s%s", first ? "" : "; ", f->of);
    if (f->where[0] != '\0')
        ls_text_addf(t, " (%s)", f->where);
}

/* Findings alike, told with the first of them. */
typedef struct {
    const char *of; /* all they are about; NULL: told with one before */
    bool several;
} told;

static void tell_run(const ls_dossier *d, const ls_dossier_finding *const *run, size_t n,
                     told *all) {
    enum { MOST_NAMED = 12 };
    ls_text *t = ls_text_new(d->arena);
    for (size_t k = 0; k < n && k < MOST_NAMED; k++)
        name_one(t, run[k], k == 0);
    if (n > MOST_NAMED)
        ls_text_addf(t, "; and %zu more", n - MOST_NAMED);
    all[run[0] - d->findings.at] = (told){t->s, n > 1};
}

/* By finding. A limit that was passed is told by itself. */
static const told *tell_all(const ls_dossier *d) {
    size_t n = d->findings.n;
    told *all = LS_NEW(d->arena, told, n);
    const ls_dossier_finding **sorted = LS_NEW(d->arena, const ls_dossier_finding *, n);
    for (size_t i = 0; i < n; i++)
        sorted[i] = &d->findings.at[i];
    if (n > 1)
        qsort(sorted, n, sizeof *sorted, by_likeness);
    for (size_t i = 0, next; i < n; i = next) {
        next = i + 1;
        while (next < n && sorted[i]->about != LS_ABOUT_LIMIT &&
               likeness(sorted[i], sorted[next]) == 0)
            next++;
        tell_run(d, sorted + i, next - i, all);
    }
    return all;
}

/* A list of what is in one state. */
typedef struct {
    ls_doc_level level;
    const char *key, *caption, *none;
    ls_finding_state state;
    ls_dossier_bound bound;
} list;

static void wrong(ls_doc_group *g, const ls_dossier *d, const told *all, list l) {
    size_t n = 0;
    ls_doc_table t = LS_DOC_TABLE_IN(g, l.level, l.key, l.caption, wrong_columns);
    for (size_t i = 0; i < d->findings.n; i++) {
        const ls_dossier_finding *f = &d->findings.at[i];
        if (!ls_dossier_counts(f, l.state, l.bound))
            continue;
        n++;
        if (all[i].of != NULL)
            LS_DOC_ROW(t, wrong_columns, T("{} ({})", W(f->words), W(rule(d, f))), W(all[i].of),
                       T("{}. Fix: {}{}.", what(d, f),
                         W(f->mend != NULL ? f->mend : "ask the plan writer"),
                         W(all[i].several && of_entry(f) ? ", and so for each" : "")));
    }
    if (n == 0 && l.none != NULL)
        SAY(g, l.level, l.none);
}

/* ---- every item ---- */

LS_DOC_COLUMNS(item_columns, DATA("item"), WORDS("record", "record"), WORDS("rule", "rule"),
               DATA("present"), DATA("missing"), DATA("not_needed"), HEAD("found"),
               DATA("first_at"));

/* How many findings of an item are in each state, the first of them, and where the first is that
 * was found. */
typedef struct {
    const ls_dossier_finding *of;
    size_t n[LS_FINDING_STATES];
    const char *first;
} tally;
typedef LS_LIST(tally) tallies;

static tally *tally_of(const ls_dossier *d, tallies *all, const ls_dossier_finding *f) {
    for (size_t i = 0; i < all->n; i++)
        if (strcmp(all->at[i].of->item, f->item) == 0)
            return &all->at[i];
    tally *one = LS_PUSH(d->arena, all);
    one->of = f;
    return one;
}

static tallies tally_all(const ls_dossier *d, ls_about about) {
    tallies all = {0};
    for (size_t i = 0; i < d->findings.n; i++) {
        const ls_dossier_finding *f = &d->findings.at[i];
        if (f->about != about)
            continue;
        tally *x = tally_of(d, &all, f);
        x->n[f->state]++;
        if (f->state == LS_PRESENT && x->first == NULL)
            x->first = f->where;
    }
    return all;
}

/* "1 missing, 2 present, first at fields.yaml:12". */
static const char *found_words(const ls_dossier *d, const tally *x) {
    ls_text *t = ls_text_new(d->arena);
    for (ls_finding_state state = LS_MISSING; state < LS_FINDING_STATES; state++)
        if (x->n[state] > 0)
            ls_text_addf(t, "%s%zu %s", t->n == 0 ? "" : ", ", x->n[state],
                         ls_finding_state_name(state));
    if (x->first != NULL)
        ls_text_addf(t, ", first at %s", x->first);
    return t->s;
}

static void items(ls_doc_group *g, const ls_dossier *d, ls_about about, const char *key,
                  const char *caption) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, key, caption, item_columns);
    tallies all = tally_all(d, about);
    for (size_t i = 0; i < all.n; i++) {
        const tally *x = &all.at[i];
        LS_DOC_ROW(t, item_columns, W(x->of->item), W(x->of->words), W(rule(d, x->of)),
                   N(x->n[LS_PRESENT]), N(x->n[LS_MISSING]), N(x->n[LS_NOT_NEEDED]),
                   W(found_words(d, x)), W(x->first));
    }
}

/* ---- the federal size ---- */

LS_DOC_COLUMNS(size_columns, WORDS("birds", "birds"), NUMBER("count", "on the farm"),
               NUMBER("medium_from", "medium from"), NUMBER("large_from", "large from"),
               WORDS("class", "class"));

/* Whose records the plan section says are asked for; NULL: it says nothing. */
static const char *records_asked(const ls_dossier *d) {
    static const char *const whose[] = {[LS_RECORDS_FEDERAL] = "federal",
                                        [LS_RECORDS_STATE] = "state",
                                        [LS_RECORDS_BOTH] = "federal and state"};
    const ls_farm_facts *facts = d->farm->facts;
    return facts != NULL && facts->plan != NULL && facts->plan->records.is != 0
               ? whose[facts->plan->records.is]
               : NULL;
}

/* Of the size alone. */
static const char *size_alone(const ls_dossier *d) {
    return d->sizes.n == 0 ? "No birds are given, so the federal size is not known."
           : d->size_open
               ? "By one reading the farm is at or above the federal figure of a large operation."
           : d->large ? "The farm is at or above the federal figure of a large operation."
                      : "The farm is below the federal figures of a large operation.";
}

static void sizes(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "Federal size class");
    ls_doc_table t =
        LS_DOC_TABLE_IN(g, LS_FULL, "sizes",
                        "Birds on the farm beside the federal sizes (40 CFR 122.23)", size_columns);
    for (size_t i = 0; i < d->sizes.n; i++) {
        const ls_dossier_size *s = &d->sizes.at[i];
        LS_DOC_ROW(t, size_columns, W(s->birds), C(s->count), C(s->medium), C(s->large),
                   W(s->size));
    }
    if (d->two_readings)
        SAY(g, LS_FULL,
            "Whether a hatching-egg hen counts as a laying hen was not found: both readings are "
            "shown.");
    const char *asked = records_asked(d);
    SAY(g, LS_FULL, "{} {} The permit authority decides.", W(size_alone(d)),
        asked != NULL ? T("The farm file (records: under farm: plan) asks for records: {}. They "
                          "are treated as required here.",
                          W(asked))
        : d->large    ? W("Federal records are treated as required here.")
                      : W("Federal records count as good practice here. A permit may ask a smaller "
                             "farm for them too: then write records: federal under farm: plan."));
}

void ls_dossier_put_audit(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, "audit", "Audit");
    const told *all = tell_all(d);
    const char *records = ls_dossier_any_required(d)
                              ? "No record that is required here is missing."
                              : "The file does not say which records you must keep. Write under "
                                "farm: plan: \"records: federal\", state or \"federal and state\", "
                                "as your permit and local code ask.";
    const list lists[] = {
        {LS_FIRST, "limits", "Limits exceeded",
         "No limit of the plan, the ratings or the farm's own files was exceeded.", LS_EXCEEDED,
         LS_BOUND_OR_NOT},
        {LS_FIRST, "required", "Required records that are missing", records, LS_MISSING, LS_BOUND},
        {LS_FIRST, "cautions", "Cautions: published figures, where the files give none", NULL,
         LS_CAUTION, LS_BOUND_OR_NOT},
        {LS_FULL, "crew_notes", "Notes for the crew", NULL, LS_NOTE, LS_BOUND_OR_NOT},
        {LS_FULL, "practice", "Records of good practice that are missing",
         "No record of good practice is missing.", LS_MISSING, LS_NOT_BOUND}};
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
        wrong(g, d, all, lists[i]);
    ls_doc_group *each = ls_doc_object(g, LS_FULL, "items", "Every item");
    SAY(each, LS_FULL,
        "Federal: asked of large operations, and where a permit says so. State: a state's rule, as "
        "an example. *: the rule's wording is unverified. Your permit and local code decide which "
        "rules bind this farm.");
    items(each, d, LS_ABOUT_FARM, "farm", "Of the farm");
    items(each, d, LS_ABOUT_TRANSFER, "transfers", "Of each load handed to others");
    items(each, d, LS_ABOUT_FIELD, "fields", "Of each field");
    findings(top, d);
    sizes(top, d);
}
