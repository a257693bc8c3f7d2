/* The phosphorus ledger: what went on in earlier years, what the crops took, what of it is left;
 * whether anything may go on before that is taken up; how long what goes on now lasts. */
#include "room.h"

#include <math.h>
#include <stdlib.h>

/* ---- the lines of the file, by year ---- */

/* What is said of one year: a ledger line, litter listed as earlier litter, what earlier files and
 * their logs tell, or several of them, in this order. */
typedef struct {
    int year;
    const ls_ledger_year *line;
    const ls_earlier *litter;
    const ls_past *past;
} entry;

static int by_year(const void *left, const void *right) {
    const entry *a = left, *b = right;
    if (a->year != b->year) return a->year < b->year ? -1 : 1;
    if (a->line != NULL || b->line != NULL) return a->line != NULL ? -1 : 1;
    if (a->litter != NULL && b->litter != NULL) return a->litter < b->litter ? -1 : 1;
    return a->litter != NULL ? -1 : 1;
}

/* Ledger lines, earlier litter of known phosphate and the past, oldest first; *n of them. */
static entry *entries(const ls_agronomy_plot *p, size_t *n) {
    const ls_field *f = p->field;
    size_t ledger = f->phosphorus == NULL ? 0 : f->phosphorus->ledger.n;
    const ls_farm *farm = p->g->farm;
    entry *of = LS_NEW(p->g->arena, entry, ledger + f->earlier_litter.n + farm->past.n);
    *n = 0;
    for (size_t i = 0; i < ledger; i++)
        of[(*n)++] = (entry){(int)f->phosphorus->ledger.at[i].year.n, &f->phosphorus->ledger.at[i], NULL, NULL};
    LS_EACH (const ls_earlier, e, f->earlier_litter)
        if (LS_GIVEN(e->P2O5)) of[(*n)++] = (entry){(int)ls_agronomy_crop_of(e), NULL, e, NULL};
    LS_EACH (const ls_past, past, farm->past)
        if (past->field == f) of[(*n)++] = (entry){past->year, NULL, NULL, past};
    if (*n > 1) qsort(of, *n, sizeof *of, by_year);
    return of;
}

/* ---- what went on ---- */

/* Phosphate that earlier files and their logs tell of. */
static ls_line logged_on(const ls_past *past, ls_worksheet *year) {
    static const char label[] = "P2O5 applied by earlier files and logs, %s";
    ls_line litter = ls_leaf_exact(year, "logged.litter", "P2O5 of litter, %s", "lb/ac", past->P2O5, LS_BY_FARM,
                                   ls_printf(year, "%s with the log, parts of loads: %zu", past->from, past->loads));
    if (!(past->bought > 0)) return ls_same(year, "logged", label, "lb/ac", litter);
    ls_line bought = ls_leaf_exact(year, "logged.bought", "P2O5 of bought fertilizer, %s", "lb/ac", past->bought,
                                   LS_BY_FARM, past->from);
    return LS_SUM(year, "logged", label, "lb/ac", litter, bought);
}

/* Phosphate of one entry of the file, by the acre or by the ton; number leads the keys of earlier
 * litter, which may stand twice for a year. */
static ls_line entry_on(const entry *e, ls_worksheet *year, const char *of, size_t number) {
    static const char label[] = "P2O5 applied, %s";
    ls_worksheet *w = e->line ? ls_part(year, of, "ledger") : ls_part(year, of, "earlier-%zu", number + 1);
    const ls_quantity *tons = e->line ? &e->line->litter : &e->litter->rate,
                      *phosphate = e->line ? &e->line->P2O5 : &e->litter->P2O5;
    if (!LS_GIVEN(*phosphate)) return LS_NO_LINE;
    if (!ls_dimension_none(phosphate->unit.dimension)) return ls_leaf_given(w, "on", label, "lb/ac", phosphate);
    ls_line rate = ls_leaf_given(w, "litter", "litter applied, %s", "ton/ac", tons);
    ls_line per_ton = ls_leaf_given(w, "P2O5", "P2O5 in that litter, %s", "lb/ton", phosphate);
    return LS_PRODUCT(w, "on", label, "lb/ac", rate, per_ton);
}

/* ---- the balance ---- */

/* What the file itself says went on, and what the earlier ones and their logs say; the greater
 * counts. Nothing said at all is nothing. */
static void put_on(const ls_agronomy_plot *p, const entry *of, size_t n, ls_worksheet *w, const char *year,
                   ls_field_ledger *out) {
    static const char label[] = "P2O5 applied in all, %s";
    const ls_past *past = of[n - 1].past; /* one of a year, behind what the file says */
    size_t told_n = past == NULL ? n : n - 1;
    ls_line *told = LS_NEW(p->g->arena, ls_line, n);
    for (size_t i = 0; i < told_n; i++) told[i] = entry_on(&of[i], w, year, i);
    if (told_n > 0) out->told = ls_sum(w, "on", label, "lb/ac", told, told_n);
    if (!out->told && told_n > 0)
        out->told = ls_leaf_exact(w, "on", label, "lb/ac", 0, LS_BY_DEFINITION, "the ledger says of none");
    if (past != NULL) out->logged = logged_on(past, w), out->from = past->from;
    out->on = !out->logged ? out->told
              : !out->told
                  ? out->logged
                  : LS_GREATEST(w, "careful", "P2O5 applied, the greater of both, %s", "lb/ac", out->told, out->logged);
}

/* What the crop took: as the file says, else as the earlier ones do; of both the lesser. */
static ls_line taken(const entry *of, size_t n, ls_worksheet *w, ls_field_ledger *out) {
    static const char label[] = "P2O5 the crop took, %s";
    ls_line told = LS_NO_LINE, logged = LS_NO_LINE;
    const ls_past *past = of[n - 1].past;
    if (of->line != NULL) told = ls_leaf_given(w, "removed", label, "lb/ac", &of->line->removed);
    if (past != NULL) out->took = past->took;
    if (past != NULL && !isnan(past->removed))
        logged = ls_leaf_exact(w, "logged.removed", label, "lb/ac", past->removed, LS_BY_FARM, past->took);
    if (told && logged)
        return LS_LEAST(w, "careful_removed", "P2O5 the crop took, the lesser of both, %s", "lb/ac", told, logged);
    return told     ? told
           : logged ? logged
                    : ls_leaf_exact(w, "removed", label, "lb/ac", 0, LS_BY_DEFINITION, "the ledger does not say");
}

/* One year of n entries: what was left before, and what went on, less what the crop took; never below nothing: a crop
 * that takes more than went on lives on the soil, and that is no leave to put more on later. */
static ls_field_ledger one_year(const ls_agronomy_plot *p, const entry *of, size_t n, ls_line before) {
    const char *year = ls_printf(p->w, "%d", of->year);
    ls_worksheet *w = ls_part(p->w, year, "ledger-%s", year);
    ls_field_ledger out = {.year = of->year};
    put_on(p, of, n, w, year, &out);
    out.removed = taken(of, n, w, &out);
    ls_line there = LS_SUM(w, "there", "left before, and what was applied, %s", "lb/ac", before, out.on);
    ls_line left =
        ls_difference(w, "less_removed", "the same less what the crop took, %s", "lb/ac", there, out.removed);
    out.balance = LS_GREATEST(w, "balance", "P2O5 not yet taken up, end of the year, %s", "lb/ac", p->g->none, left);
    return out;
}

static void flag_gap(ls_agronomy_plot *p, int from, int to) {
    const char *until = to > from ? ls_printf(p->w, " to %d", to) : "";
    if (from <= to)
        ls_agronomy_flag(p,
                         "the phosphorus ledger has nothing for %d%s: no removal is counted for %s "
                         "(the plan writer would add %s{year: %d, removed: ...})",
                         from, until, to > from ? "them" : "it", to > from ? "a line for each, " : "", from);
}

/* Years in which litter is known to have gone on, and what the crop took is not; years left out. */
static void flag_gaps(ls_agronomy_plot *p, const entry *of, size_t n) {
    for (size_t i = 0; i < n; i++) {
        bool first = i == 0 || of[i - 1].year != of[i].year;
        if (first && of[i].line == NULL && of[i].past == NULL)
            ls_agronomy_flag(p,
                             "the phosphorus ledger does not say what the crop of %d took: nothing "
                             "is counted (the plan writer would add {year: %d, removed: ...})",
                             of[i].year, of[i].year);
        if (i > 0) flag_gap(p, of[i - 1].year + 1, of[i].year - 1);
    }
    int crop = ls_farm_crop_year(p->g->farm->crew, p->field);
    if (n > 0 && crop != 0) flag_gap(p, of[n - 1].year + 1, crop - 1);
}

static void make_years(ls_agronomy_plot *p, const entry *of, size_t n) {
    ls_field_rates *out = p->out;
    out->ledger = LS_NEW(p->g->arena, ls_field_ledger, n);
    ls_line before = p->g->none;
    for (size_t i = 0, next; i < n; i = next) {
        for (next = i + 1; next < n && of[next].year == of[i].year;) next++;
        ls_field_ledger year = one_year(p, &of[i], next - i, before);
        out->ledger[out->ledger_n++] = year;
        before = year.balance;
    }
    out->banked = ls_same(p->w, "phosphorus.banked", "P2O5 of earlier years not yet taken up", "lb/ac", before);
}

bool ls_agronomy_waits(const ls_agronomy_plot *p) {
    const ls_field_rates *f = p->out;
    return f->banked && f->phosphate &&
           ls_line_value(p->g->w, f->phosphate_left) < ls_line_value(p->g->w, f->phosphate);
}

static void flag_banked(ls_agronomy_plot *p, bool ledger) {
    const ls_table *rules = ls_reference_table(p->g->reference, "rule", "");
    const ls_row *row = ls_table_row(rules, "phosphorus ledger");
    const char *cite = ls_row_word(row, "cite");
    bool waits = ls_agronomy_waits(p), bank = p->field->phosphorus != NULL && LS_GIVEN(p->field->phosphorus->bank);
    if (bank && !ledger)
        ls_agronomy_flag(p, "phosphorus is banked, and no ledger says what was applied before. It is "
                            "taken as used up. The plan writer would add ledger: under phosphorus");
    const char *rule = cite == NULL ? "" : ls_printf(p->g->w, " (%s, %s)", cite, ls_status_words(row->status));
    if (waits)
        ls_agronomy_flag(p,
                         "%s lb/ac of phosphate from earlier years are not taken up yet. No litter "
                         "until they are%s",
                         ls_agronomy_number(p->g, p->out->banked), rule);
    else if (bank)
        ls_agronomy_flag(p, "phosphorus is banked: no more litter after this until those years are over%s", rule);
}

/* Nothing more goes on until the years that earlier phosphate was put on for are over: all that the
 * rating allows, times 1 if nothing is left of it, else times 0 (40 CFR 412.4(b)(3), NRCS CPS 590,
 * both from memory). Without a removal the rating allows nothing anyway. */
static void wait_for_crops(ls_agronomy_plot *p) {
    ls_line removal = p->out->removal_P2O5;
    if (!(ls_line_value(p->w, removal) > 0)) return;
    ls_line crops = ls_quotient(p->w, "phosphorus.crops_to_come", "crops that take what is left of earlier years", "",
                                p->out->banked, removal);
    ls_line years = ls_step_up(p->w, "phosphorus.years_to_come", "crop years it still lasts", "", crops, p->g->one);
    ls_line waits =
        LS_LEAST(p->w, "phosphorus.waits", "1 if crops must take it up first, else 0", "", p->g->one, years);
    ls_line over = ls_complement(p->w, "phosphorus.years_over", "0 if crops must take it up first, else 1", "", waits);
    p->phosphate = LS_PRODUCT(p->w, "phosphorus.left", "P2O5 allowed this year", "lb/ac", p->phosphate, over);
}

void ls_agronomy_ledger(ls_agronomy_plot *p) {
    size_t n;
    const entry *of = entries(p, &n);
    p->out->phosphate = p->out->phosphate_left = p->phosphate;
    if (n == 0) {
        flag_banked(p, false);
        return;
    }
    make_years(p, of, n);
    flag_gaps(p, of, n);
    if (!p->phosphate) {
        ls_agronomy_flag(p, "the phosphorus ledger sets no limit here: by the rating, nitrogen does");
        return;
    }
    wait_for_crops(p);
    p->out->phosphate_left = p->phosphate;
    flag_banked(p, true);
}

/* ---- how long it lasts ---- */

/* What goes on and what is left of earlier years, over what a crop takes, up to whole years. */
void ls_agronomy_covered(const ls_agronomy_plot *p, ls_worksheet *w, ls_rate *rate) {
    ls_line removal = p->out->removal_P2O5, on = rate->on[LS_FIELD_P2O5], there = on;
    if (!p->phosphate || !on || rate->limit == LS_LIMIT_CLOSED || !(ls_line_value(w, removal) > 0)) return;
    ls_line others[2] = {p->out->banked};
    if (ls_agronomy_gives(p, LS_FIELD_P2O5)) others[1] = p->out->credits[LS_FIELD_P2O5];
    if (others[0] || others[1])
        there = LS_SUM(w, "phosphorus.there", "P2O5 supplied, and what is left of earlier years", "lb/ac", on,
                       others[0], others[1]);
    ls_line years = ls_quotient(w, "phosphorus.crops", "crops that take that", "", there, removal);
    rate->covered =
        ls_step_up(w, "phosphorus.covered", "crop years it lasts, this one the first", "", years, p->g->one);
    enum { AN_AGE = 1000 }; /* a year that far off says nothing */
    int crop = ls_farm_crop_year(p->g->farm->crew, p->field);
    if (crop != 0 && ls_line_value(w, rate->covered) < AN_AGE)
        rate->again = crop + (int)ls_line_value(w, rate->covered);
}
