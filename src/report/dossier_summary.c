/* The first page: the farm, the books, what is missing. And the audit. */
#include "dossier_paper.h"

#include <string.h>

#define W(s) LS_PAPER_WORDS(s)
#define L(line, unit) LS_PAPER_LINE(line, unit)
#define ROW(p, ...) ls_paper_row((p), (const ls_paper_cell[]){__VA_ARGS__})

const char *ls_dossier_found_words(const ls_dossier_finding *f) {
    return f->about == LS_ABOUT_LIMIT ? (f->required ? "limit passed" : "caution")
           : f->found == LS_FOUND     ? "present"
           : f->found == LS_MISSING   ? "missing"
                                      : "does not apply";
}

const char *ls_dossier_whose(const ls_dossier *d, const ls_dossier_finding *f) {
    ls_arena *a = d->view->arena;
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
    const ls_farm_facts *facts = d->view->farm->facts;
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
        W(d->terms.log == NULL || d->terms.log->entries.n == 0
              ? "no load is logged yet"
              : ls_arena_printf(a, "%s, %zu entries, %zu loads that stand", d->terms.log->path,
                                d->terms.log->entries.n, d->loads.n)));
    if (d->terms.printed != LS_NO_DATE)
        ROW(p, W("printed"), W(ls_date_iso(a, d->terms.printed)));
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

static void verdict(ls_paper *p, const ls_dossier *d) {
    size_t passed = count(d, LS_MISSING, true, 1), required = count(d, LS_MISSING, false, 1),
           other = count(d, LS_MISSING, false, 0), there = count(d, LS_FOUND, false, -1);
    ls_paper_say(p,
                 "Audit: %zu limit%s passed, %zu required record%s missing, %zu record%s of good "
                 "practice missing, %zu present. Planning figures: your local code and the "
                 "licensed plan writer decide.",
                 passed, passed == 1 ? "" : "s", required, required == 1 ? "" : "s", other,
                 other == 1 ? "" : "s", there);
}

void ls_dossier_summary(ls_paper *p, const ls_dossier *d) {
    ls_paper_heading(p, 2, "summary", "Summary");
    farm_facts(p, d);
    books(p, d);
    if (d->balance.cleared)
        ls_paper_say(p, "All lots are cleared%s.",
                     d->balance.scaled ? ", every load over a scale: made is the truth"
                                       : ", but not every load went over a scale");
    verdict(p, d);
}

/* ---- the audit ---- */

static const ls_paper_column size_columns[] = {{"birds", true},
                                               {"on the farm", false},
                                               {"medium from", false},
                                               {"large from", false},
                                               {"class", true}};

static void sizes(ls_paper *p, const ls_dossier *d) {
    ls_paper_heading(p, 3, "size", "Federal size class");
    ls_paper_table(p, "Birds on the farm beside the federal sizes (40 CFR 122.23)", size_columns,
                   5);
    for (size_t i = 0; i < d->sizes.n; i++) {
        const ls_dossier_size *s = &d->sizes.at[i];
        ROW(p, W(s->birds), L(s->count, "bird"), L(s->medium, "bird"), L(s->large, "bird"),
            W(s->size));
    }
    for (size_t i = 0; i < d->sizes.n; i++)
        if (strstr(d->sizes.at[i].birds, "laying hens") != NULL) {
            ls_paper_say(p, "Whether a hatching-egg hen counts as a laying hen was not found: both "
                            "readings are shown. The permit authority decides.");
            break;
        }
    static const char *const whose[] = {[LS_RECORDS_FEDERAL] = "federal",
                                        [LS_RECORDS_STATE] = "state",
                                        [LS_RECORDS_BOTH] = "federal and state"};
    const ls_farm_facts *facts = d->view->farm->facts;
    bool asks = facts != NULL && facts->plan != NULL && facts->plan->records.is != 0;
    const char *size = !d->large      ? "The farm is not large by its birds"
                       : d->size_open ? "By one reading the farm is large"
                                      : "The farm is large";
    if (asks)
        ls_paper_say(p,
                     "%s. The plan section of the farm file says whose records are asked for: "
                     "%s. Those are treated as required here.",
                     size, whose[facts->plan->records.is]);
    else
        ls_paper_say(p, "%s: federal records are %s.", size,
                     d->large ? "treated as required here"
                              : "shown as good practice, unless the plan section of the farm file "
                                "says otherwise");
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

static bool alike(const ls_dossier_finding *a, const ls_dossier_finding *b) {
    return strcmp(a->item, b->item) == 0 && a->found == b->found && a->required == b->required &&
           a->about == b->about && a->about != LS_ABOUT_LIMIT &&
           ((of_entry(a) && of_entry(b)) || ls_text_same(a->mend, b->mend)) &&
           ls_text_same(a->what, b->what);
}

/* What it is about and where to write. */
static void name_one(ls_text *t, const ls_dossier_finding *f, bool first) {
    ls_text_addf(t, "%s%s", first ? "" : "; ", f->of);
    if (f->about != LS_ABOUT_LIMIT && f->where[0] != '\0')
        ls_text_addf(t, " (%s)", f->where);
}

/* All that the i-th finding and those like it are about; NULL: it was told with one before. */
static const char *all_of(const ls_dossier *d, size_t i, bool *several) {
    enum { MOST_NAMED = 12 };
    ls_text *t = ls_text_new(d->view->arena);
    size_t n = 0;
    for (size_t k = 0; k < d->findings.n; k++) {
        if (k != i && !alike(&d->findings.at[k], &d->findings.at[i]))
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
        const char *of = all_of(d, i, &several);
        if (of == NULL)
            continue;
        const char *where =
            limits && f->where[0] != '\0' ? ls_arena_printf(p->arena, " (%s)", f->where) : "";
        ROW(p, W(ls_arena_printf(p->arena, "%s (%s)", f->words, ls_dossier_whose(d, f))), W(of),
            W(ls_arena_printf(p->arena, "%s%s. To mend it: %s%s.", f->what, where,
                              f->mend != NULL ? f->mend : "ask the plan writer",
                              several && of_entry(f) ? ", and so for each" : "")));
    }
    if (n == 0)
        ls_paper_say(p, "%s", none);
}

static const ls_paper_column tally_columns[] = {
    {"item", true},     {"whose", true},           {"present", false},
    {"missing", false}, {"does not apply", false}, {"first found", true}};

static void tally(ls_paper *p, const ls_dossier *d) {
    ls_arena *a = p->arena;
    ls_paper_table(p, "Every item, and how often it is there", tally_columns, 6);
    for (size_t i = 0; i < d->findings.n; i++) {
        const ls_dossier_finding *f = &d->findings.at[i];
        size_t n[3] = {0};
        const char *where = "";
        bool before = false;
        for (size_t k = 0; k < d->findings.n; k++) {
            if (strcmp(d->findings.at[k].item, f->item) != 0)
                continue;
            before = before || k < i;
            n[d->findings.at[k].found]++;
            if (where[0] == '\0' && d->findings.at[k].found == LS_FOUND)
                where = d->findings.at[k].where;
        }
        if (before || f->about == LS_ABOUT_LIMIT)
            continue;
        ROW(p, W(f->words), W(ls_dossier_whose(d, f)), W(ls_arena_printf(a, "%zu", n[LS_FOUND])),
            W(ls_arena_printf(a, "%zu", n[LS_MISSING])),
            W(ls_arena_printf(a, "%zu", n[LS_NO_MATTER])), W(where));
    }
}

void ls_dossier_audit_pages(ls_paper *p, const ls_dossier *d) {
    ls_paper_heading(p, 2, "audit", "Audit");
    ls_paper_say(p,
                 "M: federal, asked of large operations. S: a state's rule, as an example. G: good "
                 "practice. *: the rule's wording is from memory. Whose rules bind this farm "
                 "its permit and local code decide.");
    list(p, d, "Limits passed, and cautions", "No limit of the farm's own files was passed.", true,
         -1);
    list(p, d, "Required records that are missing", "No required record is missing.", false, 1);
    list(p, d, "Records of good practice that are missing",
         "No record of good practice is missing.", false, 0);
    sizes(p, d);
    ls_paper_heading(p, 3, "items", "Every item");
    tally(p, d);
}
