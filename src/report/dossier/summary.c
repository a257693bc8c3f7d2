/* The first page: the farm, the books, what is missing. And the audit. */
#include "paper.h"

#include <string.h>

#define W(s) LS_PAPER_WORDS(s)
#define L(line, unit) LS_PAPER_LINE(line, unit)
#define ROW(p, ...) ls_paper_row((p), (const ls_paper_cell[]){__VA_ARGS__})

const char *ls_dossier_what(const ls_view *v, const ls_dossier_finding *f) {
    const ls_report_page p = {v, v->arena, NULL};
    ls_text *t = ls_text_new(v->arena);
    const char *rest = f->what, *mark;
    for (size_t k = 0; rest != NULL && (mark = strstr(rest, LS_FIGURE)) != NULL; k++) {
        ls_text_add_n(t, rest, (size_t)(mark - rest));
        ls_text_add(t, ls_report_line(&p, f->figures[k].line, f->figures[k].unit));
        rest = mark + strlen(LS_FIGURE);
    }
    return t->n == 0 ? rest : ls_arena_printf(v->arena, "%s%s", t->s, rest);
}

const char *ls_dossier_found_words(const ls_dossier_finding *f) {
    return f->about == LS_ABOUT_LIMIT ? (f->required ? "limit exceeded" : "caution")
           : f->found == LS_FOUND     ? "present"
           : f->found == LS_MISSING   ? "missing"
                                      : "does not apply";
}

const char *ls_dossier_whose(const ls_dossier *d, const ls_dossier_finding *f) {
    ls_arena *a = d->arena;
    const char *cite = f->cite != NULL ? f->cite : f->source != NULL ? f->source : "";
    if (f->about == LS_ABOUT_LIMIT)
        return cite[0] != '\0' ? cite : "the farm's own figures";
    const char *whose = strcmp(f->required_by, "federal") == 0 ? "M"
                        : strcmp(f->required_by, "state") == 0 ? "S"
                                                               : "G";
    return ls_arena_printf(a, "%s%s, %s%s", whose, f->required ? " (required here)" : "", cite,
                           f->memory ? "*" : "");
}

/* Findings in one state; about LS_ABOUT_LIMIT only, or all but it. */
static size_t count(const ls_dossier *d, ls_found found, bool limits, int required) {
    size_t n = 0;
    for (size_t i = 0; i < d->findings.n; i++) {
        const ls_dossier_finding *f = &d->findings.at[i];
        n += f->found == found && (f->about == LS_ABOUT_LIMIT) == limits &&
             (required < 0 || f->required == (required == 1));
    }
    return n;
}

static const ls_paper_column two[] = {{"", true}, {"", true}};
static const ls_paper_column figures[] = {{"", true}, {"figure", false}};

static void farm_facts(ls_paper *p, const ls_dossier *d) {
    const ls_farm_facts *facts = d->farm->facts;
    ls_arena *a = p->arena;
    ls_paper_table(p, "The farm", two, 2);
    if (facts != NULL) {
        ROW(p, W("farm"), W(facts->name.text != NULL ? facts->name.text : "not given"));
        ROW(p, W("place"), W(facts->place.text != NULL ? facts->place.text : "not given"));
        ROW(p, W("permit"), W(facts->permit.text != NULL ? facts->permit.text : "not given"));
        if (facts->plan != NULL)
            ROW(p, W("nutrient management plan"),
                W(ls_arena_printf(
                    a, "%s%s%s%s",
                    facts->plan->on_site.yes ? "on the farm"
                                             : "not "
                                               "on the farm",
                    facts->plan->by.text != NULL ? ", by " : "",
                    facts->plan->by.text != NULL ? facts->plan->by.text : "",
                    LS_GIVEN(facts->plan->date)
                        ? ls_arena_printf(a, ", %s", ls_date_iso(a, facts->plan->date.day))
                        : "")));
        if (facts->prepared_by.text != NULL)
            ROW(p, W("prepared by"), W(facts->prepared_by.text));
    }
    ROW(p, W("haul log"),
        W(d->log == NULL || d->log->entries.n == 0
              ? "no load is logged yet"
              : ls_arena_printf(a, "%s; entries: %zu; loads that stand: %zu", d->log->path,
                                d->log->entries.n, d->loads.n)));
    if (d->printed != LS_NO_DATE)
        ROW(p, W("printed"), W(ls_date_iso(a, d->printed)));
}

static void books(ls_paper *p, const ls_dossier *d) {
    const ls_dossier_balance *b = &d->balance;
    ls_paper_table(p, "Where the tons are", figures, 2);
    ROW(p, W("litter made"), L(b->made, "ton"));
    ROW(p, W("= on the farm's own fields"), L(b->own, "ton"));
    ROW(p, W("+ moved to others"), L(b->moved, "ton"));
    ROW(p, W("+ in the stack"), L(b->stacked, "ton"));
    ROW(p, W("+ still in the houses"), L(b->left, "ton"));
    ROW(p, W("difference"), L(b->difference, "ton"));
}

/* Is any record known to bind this farm? */
static bool any_required(const ls_dossier *d) {
    for (size_t i = 0; i < d->findings.n; i++)
        if (d->findings.at[i].required && d->findings.at[i].about != LS_ABOUT_LIMIT)
            return true;
    return false;
}

static const char *plural(size_t n) {
    return n == 1 ? "" : "s";
}

static void verdict(ls_paper *p, const ls_dossier *d) {
    size_t passed = count(d, LS_MISSING, true, 1), required = count(d, LS_MISSING, false, 1),
           other = count(d, LS_MISSING, false, 0), there = count(d, LS_FOUND, false, -1);
    const char *of_required =
        any_required(d)
            ? ls_arena_printf(p->arena, "%zu required record%s missing", required, plural(required))
            : "which records bind this farm is not told";
    ls_paper_say(p,
                 "Audit: %zu limit%s exceeded; %s; %zu record%s of good practice missing; %zu "
                 "present.",
                 passed, plural(passed), of_required, other, plural(other), there);
    ls_paper_say(p, "Planning figures: your local code and the licensed plan writer decide.");
}

void ls_dossier_summary(ls_paper *p, const ls_dossier *d) {
    ls_paper_heading(p, 2, "summary", "Summary");
    farm_facts(p, d);
    books(p, d);
    if (d->balance.cleared)
        ls_paper_say(p, "All lots are cleared%s.",
                     d->balance.scaled ? ", every load over a scale: made is the truth"
                                       : ", but not every load went over a scale");
    else
        ls_paper_say(p, "What is still in the houses is not weighed: it is the estimate less the "
                        "loads that are gone. The difference is what the log sends to no place "
                        "that the files know.");
    verdict(p, d);
}

/* ---- the audit ---- */

static const ls_paper_column size_columns[] = {{"birds", true},
                                               {"on the farm", false},
                                               {"medium from", false},
                                               {"large from", false},
                                               {"class", true}};

/* What the plan section says of whose records are asked for; NULL: nothing. */
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
           : d->size_open  ? "By one reading the farm is at or above the federal figure of a large "
                             "operation."
           : d->large      ? "The farm is at or above the federal figure of a large operation."
                           : "The farm is below the federal figures of a large operation.";
}

static const char *size_words(const ls_dossier *d) {
    const char *asked = records_asked(d);
    if (asked != NULL)
        return ls_arena_printf(d->arena,
                               "%s The plan section of the farm file says whose records are asked "
                               "for: %s. Those are treated as required here.",
                               size_alone(d), asked);
    return ls_arena_printf(d->arena, "%s Federal records are %s", size_alone(d),
                           d->large ? "treated as required here."
                                    : "shown as good practice, unless records: under farm: plan "
                                      "says otherwise. A permit may ask for them of a smaller farm "
                                      "too.");
}

static void sizes(ls_paper *p, const ls_dossier *d) {
    ls_paper_heading(p, 3, "size", "Federal size class");
    ls_paper_table(p, "Birds on the farm beside the federal sizes (40 CFR 122.23)", size_columns,
                   5);
    for (size_t i = 0; i < d->sizes.n; i++) {
        const ls_dossier_size *s = &d->sizes.at[i];
        ROW(p, W(s->birds), L(s->count, "bird"), L(s->medium, "bird"), L(s->large, "bird"),
            W(s->size));
    }
    if (d->two_readings)
        ls_paper_say(p, "Whether a hatching-egg hen counts as a laying hen was not found: both "
                        "readings are shown.");
    ls_paper_say(p, "%s The permit authority decides.", size_words(d));
}

static const ls_paper_column missing_columns[] = {{"item, and whose", true},
                                                  {"of (where to write it)", true},
                                                  {"what is wrong, and how to mend it", true}};

/* Of loads the way to mend differs by the number of the entry alone. */
static bool of_entry(const ls_dossier_finding *f) {
    static const char again[] = "littershed record";
    return f->about == LS_ABOUT_TRANSFER && f->mend != NULL &&
           strncmp(f->mend, again, sizeof again - 1) == 0;
}

static bool alike(const ls_view *v, const ls_dossier_finding *a, const ls_dossier_finding *b) {
    return strcmp(a->item, b->item) == 0 && a->found == b->found && a->required == b->required &&
           a->about == b->about && a->about != LS_ABOUT_LIMIT &&
           ((of_entry(a) && of_entry(b)) || ls_text_same(a->mend, b->mend)) &&
           ls_text_same(ls_dossier_what(v, a), ls_dossier_what(v, b));
}

/* What it is about and where to write. */
static void name_one(ls_text *t, const ls_dossier_finding *f, bool first) {
    ls_text_addf(t, "%s%s", first ? "" : "; ", f->of);
    if (f->about != LS_ABOUT_LIMIT && f->where[0] != '\0')
        ls_text_addf(t, " (%s)", f->where);
}

/* All that the i-th finding and those like it are about; NULL: it was told with one before. */
static const char *all_of(const ls_view *v, const ls_dossier *d, size_t i, bool *several) {
    enum { MOST_NAMED = 12 };
    ls_text *t = ls_text_new(d->arena);
    size_t n = 0;
    for (size_t k = 0; k < d->findings.n; k++) {
        if (k != i && !alike(v, &d->findings.at[k], &d->findings.at[i]))
            continue;
        if (k < i)
            return NULL;
        if (n++ < MOST_NAMED)
            name_one(t, &d->findings.at[k], n == 1);
    }
    if (n > MOST_NAMED)
        ls_text_addf(t, "; and %zu more", n - MOST_NAMED);
    *several = n > 1;
    return t->s;
}

static void list(ls_paper *p, const ls_dossier *d, const char *caption, const char *none,
                 bool limits, int required) {
    size_t n = 0;
    ls_paper_table(p, caption, missing_columns, 3);
    for (size_t i = 0; i < d->findings.n; i++) {
        const ls_dossier_finding *f = &d->findings.at[i];
        if (f->found != LS_MISSING || (f->about == LS_ABOUT_LIMIT) != limits ||
            (required >= 0 && f->required != (required == 1)))
            continue;
        n++;
        bool several;
        const char *of = all_of(p->view, d, i, &several);
        if (of == NULL)
            continue;
        const char *where =
            limits && f->where[0] != '\0' ? ls_arena_printf(p->arena, " (%s)", f->where) : "";
        ROW(p, W(ls_arena_printf(p->arena, "%s (%s)", f->words, ls_dossier_whose(d, f))), W(of),
            W(ls_arena_printf(p->arena, "%s%s. To mend it: %s%s.", ls_dossier_what(p->view, f),
                              where, f->mend != NULL ? f->mend : "ask the plan writer",
                              several && of_entry(f) ? ", and so for each" : "")));
    }
    if (n == 0)
        ls_paper_say(p, "%s", none);
}

static const ls_paper_column tally_columns[] = {
    {"item", true}, {"whose", true}, {"found", true}, {"first at", true}};

/* "2 present, 1 missing" of the findings of that item. */
static const char *found_words(const ls_dossier *d, const char *item) {
    static const ls_found states[] = {LS_MISSING, LS_FOUND, LS_NO_MATTER};
    static const char *const words[] = {"missing", "present", "does not apply"};
    ls_text *t = ls_text_new(d->arena);
    for (size_t s = 0; s < 3; s++) {
        size_t n = 0;
        for (size_t k = 0; k < d->findings.n; k++)
            n += strcmp(d->findings.at[k].item, item) == 0 && d->findings.at[k].found == states[s];
        if (n > 0)
            ls_text_addf(t, "%s%zu %s", t->n == 0 ? "" : ", ", n, words[s]);
    }
    return t->s;
}

static const char *first_at(const ls_dossier *d, const char *item) {
    for (size_t k = 0; k < d->findings.n; k++)
        if (strcmp(d->findings.at[k].item, item) == 0 && d->findings.at[k].found == LS_FOUND)
            return d->findings.at[k].where;
    return "-";
}

static bool is_first(const ls_dossier *d, size_t i) {
    for (size_t k = 0; k < i; k++)
        if (strcmp(d->findings.at[k].item, d->findings.at[i].item) == 0)
            return false;
    return true;
}

static void tally(ls_paper *p, const ls_dossier *d, ls_about about, const char *caption) {
    ls_paper_table(p, caption, tally_columns, 4);
    for (size_t i = 0; i < d->findings.n; i++) {
        const ls_dossier_finding *f = &d->findings.at[i];
        if (f->about == about && is_first(d, i))
            ROW(p, W(f->words), W(ls_dossier_whose(d, f)), W(found_words(d, f->item)),
                W(first_at(d, f->item)));
    }
}

void ls_dossier_audit_pages(ls_paper *p, const ls_dossier *d) {
    ls_paper_heading(p, 2, "audit", "Audit");
    ls_paper_say(p,
                 "M: federal, asked of large operations and where a permit says so. S: a state's "
                 "rule, as an example. G: good practice. *: the rule's wording is from memory. "
                 "Whose rules bind this farm its permit and local code decide.");
    list(p, d, "Limits exceeded, and cautions", "No limit of the farm's own files was exceeded.",
         true, -1);
    list(p, d, "Required records that are missing",
         any_required(d) ? "No record that is required here is missing."
                         : "Which records bind this farm is not told: write records: federal, "
                           "state or \"federal and state\" under "
                           "farm: plan, as its permit and local code ask.",
         false, 1);
    list(p, d, "Records of good practice that are missing",
         "No record of good practice is missing.", false, 0);
    sizes(p, d);
    ls_paper_heading(p, 3, "items", "Every item");
    tally(p, d, LS_ABOUT_FARM, "Of the farm");
    tally(p, d, LS_ABOUT_TRANSFER, "Of each load handed to others");
    tally(p, d, LS_ABOUT_FIELD, "Of each field");
}
