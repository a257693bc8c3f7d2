/* The audit of each field. */
#include "room.h"

typedef struct {
    ls_dossier *d;
    const ls_dossier_field *f;
    const char *of;
} plot;

/* Records of a field that is not the farm's own are its owner's to keep: good practice here. */
static ls_dossier_finding *ask(const plot *p, const char *item) {
    ls_dossier_finding *f = ls_dossier_add(p->d, LS_ABOUT_FIELD, item, p->of);
    f->required = f->required && p->f->buyer->own.yes;
    f->field = p->of;
    return f;
}

/* ---- from the log: one thing of every load on the field ---- */

static bool holds(const ls_dossier_load *load, const ls_log_word *words, size_t n) {
    for (size_t i = 0; i < n; i++)
        if (load->entry == NULL || load->entry->words[words[i]][0] == '\0') return false;
    return true;
}

static void in_log(const plot *p, const char *item, const ls_log_word *words, size_t n, const char *options) {
    ls_dossier *d = p->d;
    ls_arena *a = d->arena;
    ls_dossier_finding *f = ask(p, item);
    const char *said = NULL;
    bool lacking = false;
    for (size_t i = 0; i < p->f->applications.n; i++)
        lacking = lacking || !holds(p->f->applications.at[i].load, words, n);
    for (size_t i = 0; i < p->f->applications.n; i++) {
        const ls_dossier_load *load = p->f->applications.at[i].load;
        if (holds(load, words, n) == lacking) continue;
        ls_dossier_about_entry(d, f, load->hauled->log_entry);
        if (!lacking && said == NULL && n > 0) said = load->entry->words[words[n - 1]];
    }
    f->state = p->f->applications.n == 0 ? LS_NOT_NEEDED : lacking ? LS_MISSING : LS_PRESENT;
    f->where = ls_dossier_entries(d, f);
    f->what = f->state == LS_NOT_NEEDED ? "no litter applied"
              : f->state == LS_MISSING  ? ls_arena_printf(a, "%s does not say", f->where)
              : said != NULL            ? said
                                        : "every load has it";
    if (f->state == LS_MISSING)
        f->mend = ls_arena_printf(a, "littershed record FILE... --replaces %ld %s%s", f->entries.at[0], options,
                                  f->entries.n > 1 ? ", and so for each" : "");
}

static void from_log(const plot *p) {
    static const ls_log_word weather[] = {LS_LOG_WEATHER_BEFORE, LS_LOG_WEATHER, LS_LOG_WEATHER_AFTER};
    static const ls_log_word soil[] = {LS_LOG_SOIL}, worked_in[] = {LS_LOG_INCORPORATED};
    in_log(p, "application date", NULL, 0, "--when 2026-02-16");
    in_log(p, "weather", weather, 3, "--weather-before dry --weather clear --weather-after rain");
    in_log(p, "soil condition", soil, 1, "--soil moist");
    if (LS_GIVEN(p->f->field->incorporated) && p->f->field->incorporated.days == LS_NEVER && p->f->applications.n > 0)
        ls_dossier_given(p->d, ask(p, "method"), true, p->f->field->incorporated.at, LS_NOWHERE,
                         "spread on top, not worked in", NULL);
    else
        in_log(p, "method", worked_in, 1, "--incorporated \"within 2 days\"");
    in_log(p, "applied nutrients", NULL, 0, "--field \"Buyer/Field\"");
}

/* ---- from the files ---- */

static ls_dossier_finding *ask_at(const plot *p, const char *item, bool given, ls_place at, ls_place under,
                                  const char *what, const char *mend) {
    ls_dossier_finding *f = ask(p, item);
    ls_dossier_given(p->d, f, given, at, under, what, mend);
    return f;
}

static void ask_file(const plot *p, const char *item, bool given, ls_place at, const char *what, const char *lacking,
                     const char *mend) {
    ask_at(p, item, given, at, p->f->field->at, given ? what : lacking, mend);
}

/* A lot of a file; lot NULL: none. */
typedef struct {
    const ls_lot *lot;
    const char *name, *where; /* where: its report is, or should be */
} litter;

static bool has_litter(const plot *p, size_t file, size_t lot) {
    LS_EACH (const ls_dossier_application, x, p->f->applications) {
        const ls_dossier_drop *drop = &x->load->drops[x->part];
        for (size_t k = 0; k < drop->litters; k++)
            if (drop->litter[k].file == file && drop->litter[k].lot == lot) return true;
    }
    return p->d->loads.n == 0 && file == 0;
}

/* The first litter on the field (while nothing has gone: of the farm) that no laboratory has
 * analyzed, or not told how. */
static litter unanalyzed(const plot *p, bool method) {
    for (size_t file = 0; file <= p->d->books->earlier.n; file++)
        for (size_t i = 0; i < ls_dossier_estimate(p->d, file)->n; i++) {
            const ls_lot *lot = &ls_dossier_estimate(p->d, file)->lots[i];
            const ls_lab *lab = lot->analysis->report;
            if (has_litter(p, file, i) && (lab == NULL || (method && lab->method.text == NULL)))
                return (litter){lot, ls_dossier_lot_name(p->d, file, i),
                                file > 0 ? ls_dossier_file(p->d, file)
                                         : ls_dossier_at(p->d, lab != NULL ? lab->at : lot->house->at)};
        }
    return (litter){NULL, NULL, NULL};
}

static void tests(const plot *p) {
    static const char soil_test[] =
        "write under the field: \"soil: {date: 2025-10-14, method: Mehlich-1, P: 34 lb/ac, K: 160 "
        "lb/ac}\" (your report's figures)";
    static const char lab_report[] =
        "write under the house: \"lab: [{date: 2026-01-29, by: NAME OF THE LABORATORY, method: "
        "combustion, N: 38 lb/ton, P2O5: 56 lb/ton, ...}]\" (your report's figures)";
    const ls_soil *soil = p->f->field->soil;
    const litter no_method = unanalyzed(p, true), no_report = unanalyzed(p, false);
    ls_arena *a = p->d->arena;
    bool told = soil != NULL && soil->method.text != NULL;
    ls_place at = soil != NULL ? soil->at : p->f->field->at;
    ls_dossier_finding *f = ask_at(
        p, "test methods", told && no_method.lot == NULL, told ? soil->method.at : LS_NOWHERE, at,
        !told                   ? "no method of the soil test is given"
        : no_method.lot == NULL ? "methods of soil and litter tests given"
                                : ls_arena_printf(a, "no method of the litter test is given for %s", no_method.name),
        soil == NULL ? soil_test
        : !told      ? "write under soil: \"method: Mehlich-1\" (as on the report)"
        : no_method.lot != NULL && no_method.lot->analysis->report == NULL
            ? lab_report
            : "write in the lab report: \"method: combustion\" (as on the report)");
    f->where = told && no_method.lot != NULL ? no_method.where : f->where;
    f = ask_at(p, "test results", soil != NULL && no_report.lot == NULL, soil != NULL ? soil->date.at : LS_NOWHERE,
               p->f->field->at,
               soil == NULL            ? "no soil test is given"
               : no_report.lot == NULL ? "soil test and lab report with their dates"
                                       : ls_arena_printf(a, "%s has no lab report", no_report.name),
               soil == NULL ? soil_test : lab_report);
    f->where = soil != NULL && no_report.lot != NULL ? no_report.where : f->where;
}

/* By the plan as before any load; a field to which it sends none has none to be planned. */
static void planned(const plot *p) {
    const ls_dossier_amounts *x = &p->f->planned;
    bool plan = p->d->plan != NULL, some = x->tons != LS_NO_LINE;
    ls_dossier_finding *f = ask(p, "planned nutrients");
    ls_dossier_given(p->d, f, plan, p->f->field->at, p->f->field->at,
                     !plan  ? "no plan can be made: trucks or crew are not given"
                     : some ? "plant-available N " LS_FIGURE ", P2O5 " LS_FIGURE ", other sources taken off"
                            : "the plan sends no litter here",
                     "write trucks: and crew: in the farm file; littershed plan FILE... says what it needs");
    f->figures[0].line = x->available, f->figures[1].line = x->on_acre[LS_FIELD_P2O5];
    f->figures[0].unit = f->figures[1].unit = "lb/ac";
}

static void rate_and_ledger(const plot *p) {
    const ls_phosphorus *ph = p->f->field->phosphorus;
    bool rated = ph != NULL && LS_GIVEN(ph->rating) && ph->rated_by.text != NULL;
    ask_file(p, "basis of rate", rated, rated ? ph->rating.at : LS_NOWHERE,
             "nitrogen need, and phosphorus by its rating", "no phosphorus rating with who rated it",
             "write under the field: \"phosphorus: {rating: medium, rated_by: county plan writer, "
             "date: 2025-10-02}\" (as it was rated)");
    planned(p);
    bool bank = ph != NULL && LS_GIVEN(ph->bank);
    bool told = (ph != NULL && ph->ledger.n > 0) || p->f->field->earlier_litter.n > 0;
    bool given = told || p->f->rates->ledger_n > 0;
    ask_file(p, "phosphorus ledger", given || !bank, told && ph != NULL ? ph->at : p->f->field->at,
             bank || told ? "phosphate of the years before" : "no bank of several years is used",
             "several years' phosphorus at once, but nothing of the years before",
             ls_arena_printf(p->d->arena,
                             "write under phosphorus: \"ledger: [{year: %d, P2O5: 60 lb/ac, removed: 55 lb/ac}]\" "
                             "(your figures)",
                             ls_farm_year(p->d->farm) - 1));
    if (!bank && !told) p->d->findings.at[p->d->findings.n - 1].state = LS_NOT_NEEDED;
}

/* Do the two differ by more than scales and tarps leave open? */
static bool differ(const ls_dossier *d, ls_line a, ls_line b) {
    return ls_dossier_above(d, a, b) || ls_dossier_above(d, b, a);
}

static ls_dossier_finding *differs(const plot *p, const char *item, int year, const char *from, const char *mend) {
    ls_dossier_finding *f = ask(p, item);
    ls_dossier_tell_apart(p->d, f, ls_arena_printf(p->d->arena, "%d", year));
    ls_dossier_given(p->d, f, false, LS_NOWHERE, p->f->field->at,
                     ls_arena_printf(p->d->arena,
                                     "%d: this file says " LS_FIGURE ", %s with the log " LS_FIGURE
                                     ". The greater counts",
                                     year, from),
                     mend);
    f->required = true;
    return f;
}

static const char *amount(const plot *p, double value, const char *unit) {
    ls_arena *a = p->d->arena;
    return ls_arena_printf(a, "%s %s", ls_number_text(a, value / ls_unit_of(unit).factor, 4), unit);
}

/* What the file says of years before, beside the earlier files and their logs. */
static void years_before(const plot *p) {
    const ls_field_rates *r = p->f->rates;
    ls_dossier *d = p->d;
    const ls_worksheet *w = d->sheet;
    for (size_t i = 0; i < r->ledger_n; i++) {
        const ls_field_ledger *y = &r->ledger[i];
        if (!differ(d, y->told, y->logged)) continue;
        ls_dossier_figures(differs(p, "ledger differs from the logs", y->year, y->from,
                                   ls_arena_printf(d->arena,
                                                   "write under phosphorus, ledger: \"{year: %d, P2O5: %s, "
                                                   "removed: %s}\", or put the log right",
                                                   y->year, amount(p, ls_line_value(w, y->logged), "lb/ac"),
                                                   amount(p, ls_line_value(w, y->removed), "lb/ac"))),
                           y->told, y->logged, "lb/ac");
    }
    LS_EACH (const ls_field_carryover, y, r->carried) {
        if (!differ(d, y->told, y->logged)) continue;
        ls_dossier_figures(differs(p, "earlier litter differs from the logs", y->year, y->past->from,
                                   ls_arena_printf(d->arena,
                                                   "write under earlier_litter: \"{year: %d, rate: %s, "
                                                   "organic_nitrogen: %s}\", or put the log right",
                                                   y->year, amount(p, y->past->tons, "ton/ac"),
                                                   amount(p, y->past->organic / y->past->tons, "lb/ton"))),
                           y->told, y->logged, "lb/ac");
    }
}

static bool perennial(const ls_field *f) {
    return f->crop.text != NULL && (strstr(f->crop.text, "hay") != NULL || strstr(f->crop.text, "pasture") != NULL);
}

static void crop(const plot *p) {
    const ls_field *f = p->f->field;
    bool cover = f->use.is == LS_COVER; /* its harvest is not asked for */
    ask_file(p, "crop and yield", cover || LS_GIVEN(f->yield), cover ? f->use.at : f->yield.at,
             ls_arena_printf(p->d->arena, "%s, %s", f->crop.text,
                             cover ? "not harvested" : ls_quantity_words(p->d->arena, &f->yield)),
             "no expected yield is given", "write under the field: \"yield: 3.5 ton/ac\" (its own)");
    bool got = cover || (LS_GIVEN(f->harvested) && LS_GIVEN(f->yield_got)),
         all = got && (perennial(f) || LS_GIVEN(f->planted));
    ask_file(p, "planting and harvest", all, cover ? f->planted.at : f->harvested.at,
             cover ? "planted; not harvested" : "given",
             cover ? "its planting is missing" : "planting, harvest or actual yield is missing",
             cover          ? "write \"planted: 2025-09-20\" (your day)"
             : perennial(f) ? "after harvest write \"harvested: 2026-05-28\" and \"yield_got: 3.1 "
                              "ton/ac\" (your figures)"
                            : "write \"planted: 2025-11-02\", and after harvest \"harvested: "
                              "2026-06-20\" and \"yield_got: 61 bu/ac\" (your figures)");
}

static void setbacks(const plot *p) {
    const ls_field *f = p->f->field;
    ls_place first = f->setbacks.n > 0 ? f->setbacks.at[0].at : f->at, bare = LS_NOWHERE;
    size_t n = 0; /* that do not tell */
    for (size_t i = 0; i < f->setbacks.n; i++)
        if (f->setbacks.at[i].rule.text == NULL && n++ == 0) bare = f->setbacks.at[i].at;
    bool told = f->setbacks.n > 0 || f->no_setbacks.yes;
    ask_at(p, "setbacks kept", told && n == 0, f->no_setbacks.yes ? f->no_setbacks.at : first, told ? bare : f->at,
           n > 0               ? "a setback has no rule (whose, which option)"
           : !told             ? "nobody has said that there is no stream, well or dwelling"
           : f->setbacks.n > 0 ? "each with its distance and rule"
                               : "the file says that none is needed",
           told ? "write rule: in each setback, for example rule: \"plan, 100 ft, no buffer\""
                : "write under the field setbacks: none, if there is none; else each, for example "
                  "\"setbacks: [{from: stream, edge: 980 ft, width: 100 ft, rule: plan}]\"");
}

void ls_dossier_audit_fields(ls_dossier *d) {
    LS_EACH (const ls_dossier_field, f, d->fields) {
        plot p = {d, f, ls_dossier_name(d->arena, f->buyer, f->field)};
        ask_file(&p, "spreadable acres", true, f->field->area.at, "area less its setbacks", "", "");
        crop(&p);
        from_log(&p);
        tests(&p);
        rate_and_ledger(&p);
        years_before(&p);
        setbacks(&p);
    }
}
