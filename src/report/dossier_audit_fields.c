/* The audit of each field. */
#include "dossier.h"

#include <string.h>

typedef struct {
    ls_dossier *d;
    const ls_dossier_field *f;
    const char *of;
} plot;

/* Records of a field that is not the farm's own are its owner's to keep: good practice here. */
static ls_dossier_finding *ask(const plot *p, const char *item) {
    ls_dossier_finding *f = ls_dossier_add(p->d, LS_ABOUT_FIELD, item, p->of);
    f->required = f->required && p->f->buyer->own.yes;
    return f;
}

static bool on_field(const ls_dossier_load *load, const ls_field *field) {
    for (size_t k = 0; k < load->n; k++)
        if (load->drops[k].field == field)
            return true;
    return false;
}

/* ---- from the log: one thing of every load on the field ---- */

static bool holds(const ls_dossier_load *load, const ls_log_word *words, size_t n) {
    for (size_t i = 0; i < n; i++)
        if (load->entry == NULL || load->entry->words[words[i]][0] == '\0')
            return false;
    return true;
}

static void in_log(const plot *p, const char *item, const ls_log_word *words, size_t n,
                   const char *options) {
    ls_dossier *d = p->d;
    ls_arena *a = d->view->arena;
    ls_dossier_finding *f = ask(p, item);
    ls_text *there = ls_text_new(a), *lacking = ls_text_new(a);
    const char *said = NULL;
    for (size_t i = 0; i < d->loads.n; i++) {
        const ls_dossier_load *load = &d->loads.at[i];
        if (!on_field(load, p->f->field))
            continue;
        bool all = holds(load, words, n);
        ls_text *t = all ? there : lacking;
        ls_text_addf(t, "%s%ld", t->n == 0 ? "entry " : ", ", load->hauled->log_entry);
        if (all && said == NULL && n > 0)
            said = load->entry->words[words[n - 1]];
    }
    f->found = p->f->loads == 0 ? LS_NO_MATTER : lacking->n > 0 ? LS_MISSING : LS_FOUND;
    f->where = f->found == LS_MISSING ? lacking->s : there->s;
    f->what = f->found == LS_NO_MATTER ? "nothing went on it"
              : f->found == LS_MISSING
                  ? ls_arena_printf(a, "the log does not tell it for %s", lacking->s)
              : said != NULL ? said
                             : "every load has it";
    if (f->found == LS_MISSING)
        f->mend = ls_arena_printf(a, "littershed record FILE... --replaces N %s", options);
}

static void from_log(const plot *p) {
    static const ls_log_word weather[] = {LS_LOG_WEATHER_BEFORE, LS_LOG_WEATHER,
                                          LS_LOG_WEATHER_AFTER};
    static const ls_log_word soil[] = {LS_LOG_SOIL}, worked_in[] = {LS_LOG_INCORPORATED};
    in_log(p, "application date", NULL, 0, "--when DATE");
    in_log(p, "weather", weather, 3,
           "--weather-before \"...\" --weather \"...\" --weather-after "
           "\"...\"");
    in_log(p, "soil condition", soil, 1, "--soil \"...\"");
    if (LS_GIVEN(p->f->field->incorporated) && p->f->field->incorporated.days == LS_NEVER &&
        p->f->loads > 0)
        ls_dossier_given(p->d, ask(p, "method"), true, p->f->field->incorporated.at,
                         "spread on top, not worked in", NULL);
    else
        in_log(p, "method", worked_in, 1, "--incorporated \"...\"");
    in_log(p, "applied nutrients", NULL, 0, "--field \"Buyer/Field\"");
}

/* ---- from the files ---- */

static void ask_file(const plot *p, const char *item, bool given, ls_place at, const char *what,
                     const char *lacking, const char *mend) {
    ls_dossier_given(p->d, ask(p, item), given, at, given ? what : lacking, mend);
}

/* A laboratory has analyzed all litter on the field (and tells how). */
static bool labs_have(const plot *p, bool method) {
    for (size_t i = 0; i < p->d->terms.estimate->n; i++) {
        const ls_lot *lot = &p->d->terms.estimate->lots[i];
        bool counts = p->d->loads.n == 0; /* nothing has gone: any of it may come here */
        for (size_t k = 0; k < p->d->loads.n; k++)
            counts = counts ||
                     (p->d->loads.at[k].lot == lot && on_field(&p->d->loads.at[k], p->f->field));
        const ls_lab *lab = lot->analysis->report;
        if (counts && (lab == NULL || (method && lab->method.text == NULL)))
            return false;
    }
    return true;
}

static void tests(const plot *p) {
    const ls_soil *soil = p->f->field->soil;
    bool soil_method = soil != NULL && soil->method.text != NULL;
    ask_file(p, "test methods", soil_method && labs_have(p, true),
             soil_method ? soil->method.at : LS_NOWHERE, "methods of soil and litter tests given",
             !soil_method ? "no method of the soil test is given"
                          : "no method of the litter test is given",
             !soil_method ? "write method: under soil" : "write method: in the lab report");
    ask_file(p, "test results", soil != NULL && labs_have(p, false),
             soil != NULL ? soil->date.at : LS_NOWHERE, "soil test and lab report with their dates",
             soil == NULL ? "no soil test is given" : "litter for it has no lab report",
             soil == NULL ? "write soil: {date: ..., method: ..., P: ..., K: ...}"
                          : "write lab: under the house, with the report's date and figures");
}

static void rate_and_ledger(const plot *p) {
    const ls_phosphorus *ph = p->f->field->phosphorus;
    bool rated = ph != NULL && LS_GIVEN(ph->rating) && ph->rated_by.text != NULL;
    ask_file(p, "basis of rate", rated, rated ? ph->rating.at : LS_NOWHERE,
             "nitrogen need, and phosphorus by its rating",
             "no phosphorus rating with who rated it",
             "write phosphorus: {rating: ..., rated_by: ..., date: ...}");
    ask_file(p, "planned nutrients", true, p->f->field->at, "worked out here, all sources counted",
             "", "");
    bool bank = ph != NULL && LS_GIVEN(ph->bank);
    bool told = (ph != NULL && ph->ledger.n > 0) || p->f->field->earlier_litter.n > 0;
    ask_file(p, "phosphorus ledger", told || !bank, told && ph != NULL ? ph->at : p->f->field->at,
             bank || told ? "phosphate of the years before" : "no bank of several years is used",
             "several years' phosphorus at once, but nothing of the years before",
             "write under phosphorus: ledger: [{year: ..., P2O5: ..., removed: ...}]");
    if (!bank && !told)
        p->d->findings.at[p->d->findings.n - 1].found = LS_NO_MATTER;
}

static bool perennial(const ls_field *f) {
    return f->crop.text != NULL &&
           (strstr(f->crop.text, "hay") != NULL || strstr(f->crop.text, "pasture") != NULL);
}

static void crop(const plot *p) {
    const ls_field *f = p->f->field;
    ask_file(p, "crop and yield", LS_GIVEN(f->yield), f->yield.at,
             ls_arena_printf(p->d->view->arena, "%s, %s", f->crop.text,
                             LS_GIVEN(f->yield) ? f->yield.text : ""),
             "no expected yield is given", "write yield:");
    bool all =
        LS_GIVEN(f->harvested) && LS_GIVEN(f->yield_got) && (perennial(f) || LS_GIVEN(f->planted));
    ask_file(p, "planting and harvest", all, f->harvested.at, "given",
             "planting, harvest or the yield that came is not given",
             perennial(f) ? "once it is harvested write harvested: and yield_got:"
                          : "write planted:, and once it is harvested harvested: and yield_got:");
}

static void setbacks(const plot *p) {
    const ls_field *f = p->f->field;
    bool all = true;
    for (size_t i = 0; i < f->setbacks.n; i++)
        all = all && f->setbacks.at[i].rule.text != NULL;
    ask_file(p, "setbacks kept", all, f->setbacks.n > 0 ? f->setbacks.at[0].at : f->at,
             f->setbacks.n > 0 ? "each with its distance and rule" : "no feature is named",
             "a setback does not tell by whose rule and which option",
             "write rule: in each setback, for example rule: \"plan, 100 ft, no buffer\"");
    if (f->setbacks.n == 0)
        p->d->findings.at[p->d->findings.n - 1].found = LS_NO_MATTER;
}

void ls_dossier_audit_fields(ls_dossier *d) {
    for (size_t i = 0; i < d->fields.n; i++) {
        const ls_dossier_field *f = &d->fields.at[i];
        plot p = {d, f, ls_dossier_name(d->view, f->buyer, f->field)};
        ask_file(&p, "spreadable acres", true, f->field->area.at, "area less its setbacks", "", "");
        crop(&p);
        from_log(&p);
        tests(&p);
        rate_and_ledger(&p);
        setbacks(&p);
    }
}
