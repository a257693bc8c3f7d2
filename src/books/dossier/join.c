/* The phosphorus ledger of a field with what earlier years' files tell of it. */
#include "room.h"

#include <limits.h>

/* What one earlier file tells of the field for the crop of one year. */
typedef struct {
    int year;
    size_t file; /* index of the earlier file */
    const ls_field *field;
    const ls_field_rates *rates;
    ls_books_lines pounds; /* P2O5 of each part of a load */
    ls_line on;            /* lb/ac; LS_NO_LINE: nothing went on */
} put;
typedef LS_LIST(put) put_list;

static void say(ls_dossier *d, const char *words) {
    *LS_PUSH(d->arena, &d->joins) = words;
}

/* ---- which field, which year ---- */

static bool same_name(const ls_name *a, const ls_name *b) {
    return strcmp(a->text, b->text) == 0;
}

/* The field of a farm with the same buyer and name, its number among all in *number (may be NULL);
 * NULL: none. */
static const ls_field *find_field(const ls_farm *farm, const ls_buyer *buyer, const ls_field *field,
                                  size_t *number) {
    size_t n = 0;
    for (size_t b = 0; b < farm->buyers.n; b++)
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++, n++) {
            const ls_field *other = &farm->buyers.at[b].fields.at[f];
            if (!same_name(&farm->buyers.at[b].name, &buyer->name) ||
                !same_name(&other->name, &field->name))
                continue;
            if (number != NULL)
                *number = n;
            return other;
        }
    return NULL;
}

/* The year of the crop that takes up litter spread on a day: as the file says; of a harvest within
 * a year after it; else the year of the day. */
static int crop_year(const ls_field *f, ls_date day) {
    enum { A_YEAR = 366 };
    if (LS_GIVEN(f->for_crop))
        return (int)f->for_crop.n;
    if (LS_GIVEN(f->harvested) && f->harvested.day >= day && f->harvested.day - day <= A_YEAR)
        return ls_date_year(f->harvested.day);
    return ls_date_year(day);
}

/* The year of the crop that a file tells of, without any load; 0: not known. */
static int told_year(const ls_field *f) {
    if (LS_GIVEN(f->for_crop))
        return (int)f->for_crop.n;
    if (LS_GIVEN(f->harvested))
        return ls_date_year(f->harvested.day);
    return f->allowed.from == LS_NO_DATE ? 0 : ls_date_year(f->allowed.from);
}

/* The year of the crop that this file's litter is for. */
static int this_year(const ls_dossier_field *f) {
    ls_date first = LS_NO_DATE;
    for (size_t i = 0; i < f->applications.n; i++) {
        ls_date day = f->applications.at[i].load->hauled->day;
        first = first == LS_NO_DATE || day < first ? day : first;
    }
    int year = first != LS_NO_DATE ? crop_year(f->field, first) : told_year(f->field);
    return year == 0 ? INT_MAX : year;
}

/* ---- what went on ---- */

static put *put_of(ls_dossier *d, put_list *puts, put one) {
    for (size_t i = 0; i < puts->n; i++)
        if (puts->at[i].year == one.year && puts->at[i].file == one.file)
            return &puts->at[i];
    put *p = LS_PUSH(d->arena, puts);
    *p = one;
    return p;
}

/* P2O5 in a ton of a lot, by the earlier file's own report or estimate; LS_NO_LINE: no such lot. */
static ls_line per_ton(ls_dossier *d, size_t file, const char *code) {
    const ls_books *e = d->books->earlier.at[file];
    ls_worksheet *w = d->books->sheet;
    for (size_t i = 0; i < e->estimate->n; i++) {
        const ls_lot *lot = &e->estimate->lots[i];
        if (strcmp(lot->code, code) != 0)
            continue;
        const char *key = ls_printf(w, "dossier.earlier-%zu.%s.P2O5", file + 1, lot->slug);
        ls_line line = ls_line_find(w, key);
        if (line != LS_NO_LINE)
            return line;
        const ls_analysis *a = lot->analysis;
        const char *by = !a->reported[LS_P2O5] || a->report == NULL
                             ? "published litter, no laboratory report"
                             : ls_arena_printf(d->arena, "laboratory report of %s%s%s%s",
                                               ls_date_words(d->arena, a->report->date.day, 0),
                                               a->report->by.text != NULL ? ", " : "",
                                               a->report->by.text != NULL ? a->report->by.text : "",
                                               a->reports > 1 ? ", mean of several" : "");
        return ls_leaf_exact(w, key, ls_printf(w, "P2O5 in a ton of %s, %s", lot->name, e->name),
                             "lb/ton", ls_line_value(e->sheet, lot->per_ton[LS_P2O5].line),
                             LS_BY_FARM, ls_arena_printf(d->arena, "%s: %s", e->name, by));
    }
    return LS_NO_LINE;
}

static void one_load(ls_dossier *d, const ls_dossier_field *f, size_t file, size_t load,
                     const put *of, put_list *puts) {
    ls_worksheet *w = d->books->sheet;
    const ls_hauled *h = &d->books->earlier.at[file]->farm->hauled.at[load];
    for (size_t k = 0; k < h->n; k++) {
        if (h->drops[k].field != of->field)
            continue;
        ls_line content = per_ton(d, file, h->lot);
        if (content == LS_NO_LINE)
            continue;
        const char *lead = ls_arena_printf(d->arena, "dossier.%s.earlier-%zu.load-%zu.%zu",
                                           f->rates->slug, file + 1, load + 1, k + 1);
        ls_line tons = ls_dossier_tons(d, file + 1, load, k);
        put one = *of;
        one.year = crop_year(of->field, h->day);
        *LS_PUSH(d->arena, &put_of(d, puts, one)->pounds) =
            LS_PRODUCT(w, ls_printf(w, "%s.P2O5", lead), ls_printf(w, "P2O5 in load %s", h->ticket),
                       "lb", tons, content);
    }
}

/* Pounds over the acres that could be spread then. */
static void over_acres(ls_dossier *d, const ls_dossier_field *f, put *p) {
    ls_worksheet *w = d->books->sheet;
    const ls_books *e = d->books->earlier.at[p->file];
    if (p->pounds.n == 0)
        return;
    if (!(ls_line_value(e->sheet, p->rates->spreadable) > 0)) {
        say(d, ls_arena_printf(d->arena,
                               "%s of %s: litter was spread on it, but its setbacks leave no "
                               "acres. It is not in the ledger of %d.",
                               ls_dossier_name(d->arena, f->buyer, f->field), e->name, p->year));
        return;
    }
    const char *lead = ls_arena_printf(d->arena, "dossier.%s.earlier-%zu.%d", f->rates->slug,
                                       p->file + 1, p->year);
    ls_line pounds = ls_sum(w, ls_printf(w, "%s.P2O5", lead),
                            ls_printf(w, "P2O5 put on, %d, %s", p->year, e->name), "lb",
                            p->pounds.at, p->pounds.n);
    ls_line acres = ls_leaf_exact(w, ls_printf(w, "%s.acres", lead),
                                  ls_printf(w, "acres to spread, %s", e->name), "ac",
                                  ls_line_value(e->sheet, p->rates->spreadable), LS_BY_FARM,
                                  ls_arena_printf(d->arena, "%s: area less setbacks", e->name));
    p->on = ls_quotient(w, ls_printf(w, "%s.P2O5-per-acre", lead), "that on an acre", "lb/ac",
                        pounds, acres);
}

static put_list puts_of(ls_dossier *d, const ls_dossier_field *f, int now) {
    put_list puts = {0};
    for (size_t i = 0; i < d->books->earlier.n; i++) {
        const ls_books *e = d->books->earlier.at[i];
        put of = {.file = i, .on = LS_NO_LINE};
        size_t number;
        of.field = find_field(e->farm, f->buyer, f->field, &number);
        of.rates = of.field != NULL && number < e->rates.n ? e->rates.at[number] : NULL;
        if (of.rates == NULL)
            continue;
        size_t before = puts.n;
        for (size_t k = 0; k < e->farm->hauled.n; k++)
            if (!ls_dossier_doubled(d, i + 1, &e->farm->hauled.at[k]))
                one_load(d, f, i, k, &of, &puts);
        of.year = told_year(of.field);
        if (puts.n == before && of.year != 0 && of.year < now)
            put_of(d, &puts, of);
    }
    for (size_t i = 0; i < puts.n; i++)
        over_acres(d, f, &puts.at[i]);
    return puts;
}

/* ---- what the crop took ---- */

static bool got(const put *p) {
    const ls_field *f = p->field;
    return LS_GIVEN(f->yield_got) && LS_GIVEN(f->yield) &&
           (!LS_GIVEN(f->harvested) || ls_date_year(f->harvested.day) == p->year);
}

/* " (from memory)" if a figure is that the line of an earlier file rests on. */
static const char *memory(ls_arena *a, const ls_books *e, ls_line line) {
    ls_line_list printed = {.at = &line, .n = 1};
    return ls_lines_from_memory(a, e->sheet, &printed, "") == NULL ? "" : " (from memory)";
}

/* Removal at the yield that was got, else at the expected one. */
static ls_line removed(ls_dossier *d, const ls_dossier_field *f, const put *p, const char **note) {
    ls_worksheet *w = d->books->sheet;
    ls_arena *a = d->arena;
    const ls_books *e = d->books->earlier.at[p->file];
    const char *lead = ls_arena_printf(a, "dossier.%s.ledger-%d", f->rates->slug, p->year);
    if (p->rates->removal_P2O5 == LS_NO_LINE) {
        *note = "what the crop removed is not known: nothing is counted off";
        return LS_NO_LINE;
    }
    const char *from = memory(a, e, p->rates->removal_P2O5);
    ls_line expected = ls_leaf_exact(
        w, ls_printf(w, "%s.removed-expected", lead), "P2O5 removed at the expected yield", "lb/ac",
        ls_line_value(e->sheet, p->rates->removal_P2O5), LS_BY_FARM,
        ls_arena_printf(a, "%s: %s, %s = %s%s", e->name, p->field->crop.text,
                        ls_line_formula(a, e->sheet, p->rates->removal_P2O5),
                        ls_line_numbers(a, e->sheet, p->rates->removal_P2O5), from));
    if (!got(p)) {
        *note = ls_arena_printf(a, "removed at the expected yield, %s, of %s%s",
                                LS_GIVEN(p->field->yield) ? ls_quantity_words(a, &p->field->yield)
                                                          : "the table's",
                                e->name, from);
        return expected;
    }
    *note = ls_arena_printf(a, "removed at the yield got, %s, of %s%s",
                            ls_quantity_words(a, &p->field->yield_got), e->name, from);
    ls_line share = ls_leaf_exact(
        w, ls_printf(w, "%s.yield-share", lead), "yield got over the expected one", "",
        p->field->yield_got.value / p->field->yield.value, LS_BY_FARM,
        ls_arena_printf(a, "%s: %s over %s", e->name, ls_quantity_words(a, &p->field->yield_got),
                        ls_quantity_words(a, &p->field->yield)));
    return LS_PRODUCT(w, ls_printf(w, "%s.removed", lead), "P2O5 removed at the yield got", "lb/ac",
                      expected, share);
}

/* ---- the rows ---- */

static const ls_field_ledger *own_row(const ls_dossier_field *f, int year) {
    for (size_t i = 0; i < f->rates->ledger_n; i++)
        if (f->rates->ledger[i].year == year)
            return &f->rates->ledger[i];
    return NULL;
}

/* The first year after that one of which anything is told; INT_MAX: none. */
static int next_year(const ls_dossier_field *f, const put_list *puts, int after) {
    int year = INT_MAX;
    for (size_t i = 0; i < f->rates->ledger_n; i++)
        if (f->rates->ledger[i].year > after && f->rates->ledger[i].year < year)
            year = f->rates->ledger[i].year;
    for (size_t i = 0; i < puts->n; i++)
        if (puts->at[i].year > after && puts->at[i].year < year)
            year = puts->at[i].year;
    return year;
}

static ls_line zero(ls_dossier *d) {
    ls_worksheet *w = d->books->sheet;
    ls_line line = ls_line_find(w, "dossier.ledger.nothing");
    return line != LS_NO_LINE ? line
                              : ls_leaf_exact(w, "dossier.ledger.nothing", "nothing", "lb/ac", 0,
                                              LS_BY_DEFINITION, NULL);
}

/* A year as the earlier files tell it; more than one file may tell of it. */
static ls_dossier_ledger joined_row(ls_dossier *d, const ls_dossier_field *f, const put_list *puts,
                                    int year) {
    ls_worksheet *w = d->books->sheet;
    ls_arena *a = d->arena;
    ls_dossier_ledger row = {year, NULL, LS_NO_LINE, LS_NO_LINE, LS_NO_LINE, LS_NO_LINE, NULL};
    ls_books_lines on = {0};
    const put *crop = NULL;
    for (size_t i = 0; i < puts->n; i++) {
        const put *p = &puts->at[i];
        if (p->year != year)
            continue;
        const char *file = d->books->earlier.at[p->file]->name;
        row.from = row.from == NULL ? file : ls_arena_printf(a, "%s, %s", row.from, file);
        if (p->on != LS_NO_LINE)
            *LS_PUSH(a, &on) = p->on;
        if (crop == NULL || (got(p) && !got(crop)))
            crop = p;
    }
    row.on = on.n == 0 ? zero(d)
                       : ls_sum(w, ls_printf(w, "dossier.%s.ledger-%d.on", f->rates->slug, year),
                                ls_printf(w, "P2O5 put on, %d", year), "lb/ac", on.at, on.n);
    if (crop == NULL)
        return row;
    if (year >= this_year(f))
        row.note = "for the crop of this litter: what it removes is counted once, with this litter";
    else if (own_row(f, year) == NULL)
        row.removed = removed(d, f, crop, &row.note);
    return row;
}

/* Left before and put on, less removed; never below nothing, as the field's own ledger counts. */
static ls_line left(ls_dossier *d, const ls_dossier_field *f, const ls_dossier_ledger *row,
                    ls_line before) {
    ls_worksheet *w = d->books->sheet;
    const char *lead = ls_arena_printf(d->arena, "dossier.%s.ledger-%d", f->rates->slug, row->year);
    ls_line there = LS_SUM(w, ls_printf(w, "%s.there", lead), "left before, and put on", "lb/ac",
                           before, row->on);
    if (row->removed != LS_NO_LINE)
        there = ls_difference(w, ls_printf(w, "%s.less-removed", lead),
                              "that less what was removed", "lb/ac", there, row->removed);
    return LS_GREATEST(w, ls_printf(w, "%s.left", lead), ls_printf(w, "P2O5 left, %d", row->year),
                       "lb/ac", zero(d), there);
}

void ls_dossier_join(ls_dossier *d, ls_dossier_field *f) {
    put_list puts = puts_of(d, f, this_year(f));
    ls_line before = zero(d);
    for (int year = INT_MIN; (year = next_year(f, &puts, year)) != INT_MAX;) {
        const ls_field_ledger *own = own_row(f, year);
        ls_dossier_ledger row = joined_row(d, f, &puts, year);
        if (own != NULL) {
            if (row.from != NULL) {
                row.other = row.on;
                row.note = ls_arena_printf(
                    d->arena,
                    "this file gives the year itself, and that counts. %s is not counted as well",
                    row.from);
            }
            row.from = "this file";
            row.on = own->on;
            row.removed = own->removed;
        } else
            f->joined = true;
        row.left = left(d, f, &row, before);
        before = row.left;
        *LS_PUSH(d->arena, &f->ledger) = row;
    }
}

/* ---- what stands in no ledger ---- */

static bool has_ledger(const ls_dossier *d, const ls_buyer *b, const ls_field *field) {
    for (size_t i = 0; i < d->fields.n; i++)
        if (same_name(&d->fields.at[i].buyer->name, &b->name) &&
            same_name(&d->fields.at[i].field->name, &field->name))
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
                                       find_field(d->farm, buyer, field, NULL) != NULL
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
