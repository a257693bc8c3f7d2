/* The page of check: what was read, what looks odd, what is missing. */
#include "put.h"

#include <string.h>

/* ---- what was read ---- */

static const char *or_unknown(ls_name n) {
    return n.text == NULL ? "?" : n.text;
}

static const ls_doc_column house_columns[] = {WORDS("house", "house"),    WORDS("sides", "sides"),
                                              WORDS("birds", "flock"),    NUMBER("count", "birds"),
                                              NUMBER("males", "males"),   WORDS("placed", "placed"),
                                              WORDS("removed", "removed")};

static const ls_doc_column field_columns[] = {WORDS("buyer", "buyer"), WORDS("field", "field"),
                                              WORDS("crop", "crop"), WORDS("opens", "opens"),
                                              WORDS("closes", "closes")};

static const char *sides(ls_arena *a, const ls_house *h) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < h->sides.n; i++)
        ls_text_addf(t, "%s%s", i == 0 ? "" : ", ", or_unknown(h->sides.at[i].name));
    return h->sides.n == 0 ? NULL : t->s;
}

static ls_doc_cell count(ls_count n) {
    return LS_GIVEN(n) ? N(n.n) : W(NULL);
}

static void flocks(ls_doc_table t, const ls_house *h) {
    const char *name = or_unknown(h->name), *parts = sides(t.group->document->arena, h);
    for (size_t i = 0; i < h->flocks.n; i++) {
        const ls_flock *f = &h->flocks.at[i];
        LS_DOC_ROW(t, house_columns, W(name), W(parts), W(ls_bird_name(f->birds.is)),
                   count(LS_GIVEN(f->hens) ? f->hens : f->count), count(f->males),
                   DAY(f->placed.day), DAY(f->removed.day));
    }
    if (h->flocks.n == 0)
        LS_DOC_ROW(t, house_columns, W(name), W(parts), W(NULL), W(NULL), W(NULL), W(NULL),
                   W(NULL));
}

/* What else a house has: depths on a grid, reports. */
static void beside(ls_doc_group *g, const ls_house *h) {
    const ls_depth_grid *grid = h->measured == NULL ? NULL : h->measured->depth.grid;
    if (grid != NULL)
        ls_doc_item(g, LS_FIRST,
                    T("{}: depths on a grid of {} x {} readings, {}", W(or_unknown(h->name)),
                      N(grid->across_n), N(grid->along_n), W(or_unknown(grid->file))));
    for (size_t i = 0; i < h->lab.n; i++) {
        bool dated = LS_GIVEN(h->lab.at[i].date);
        ls_doc_item(g, LS_FIRST,
                    T(dated ? "{}: laboratory report of {}" : "{}: laboratory report{}",
                      W(or_unknown(h->name)), dated ? DAY(h->lab.at[i].date.day) : W("")));
    }
}

static void buyer(ls_doc_table t, const ls_buyer *b) {
    for (size_t i = 0; i < b->fields.n; i++) {
        const ls_field *f = &b->fields.at[i];
        bool open = LS_GIVEN(f->open);
        LS_DOC_ROW(t, field_columns, W(or_unknown(b->name)), W(or_unknown(f->name)),
                   W(or_unknown(f->crop)), DAY(open ? f->open.days.from : LS_NO_DATE),
                   DAY(open ? f->open.days.to : LS_NO_DATE));
    }
}

static void what_was_read(ls_doc_group *top, const ls_farm *f) {
    size_t fields = 0;
    for (size_t i = 0; i < f->buyers.n; i++)
        fields += f->buyers.at[i].fields.n;
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, "read", "READ");
    ls_doc_say(g, LS_FIRST,
               T("Houses: {}. Kinds of truck: {}. Buyers: {}. Fields: {}.", N(f->houses.n),
                 N(f->trucks.n), N(f->buyers.n), N(fields)));
    for (size_t i = 0; i < f->own_tables.n; i++)
        ls_doc_item(g, LS_FIRST, T("tables of the farm's own: {}", W(f->own_tables.at[i].text)));
    ls_doc_table houses = LS_DOC_TABLE_IN(g, LS_FIRST, "houses", NULL, house_columns);
    for (size_t i = 0; i < f->houses.n; i++)
        flocks(houses, &f->houses.at[i]);
    for (size_t i = 0; i < f->houses.n; i++)
        beside(g, &f->houses.at[i]);
    ls_doc_table buyers = LS_DOC_TABLE_IN(g, LS_FIRST, "fields", NULL, field_columns);
    for (size_t i = 0; i < f->buyers.n; i++)
        buyer(buyers, &f->buyers.at[i]);
}

/* ---- what is missing ---- */

static bool has_lab(const ls_house *h) {
    bool sides = h->sides.n > 0;
    for (size_t i = 0; i < h->sides.n; i++)
        sides = sides && h->sides.at[i].lab.n > 0;
    return h->lab.n > 0 || sides;
}

static bool has_depth(const ls_measured *m) {
    for (int z = LS_SLATS; m != NULL && z < LS_ZONES; z++)
        if (LS_GIVEN(m->depth.of[z]))
            return true;
    return m != NULL && m->depth.grid != NULL;
}

static const ls_doc_column gap_columns[] = {WORDS("text", NULL), DATA("of")};

typedef struct {
    ls_doc_table table;
    ls_arena *arena;
} gap_list;

/* Something is not in the files; of: the house or field, NULL: of the farm. */
static void gap(const gap_list *l, const char *what, const char *of, const char *words) {
    const char *text = of == NULL ? words : ls_arena_printf(l->arena, "%s %s: %s", what, of, words);
    LS_DOC_ROW(l->table, gap_columns, W(text), W(of));
}

static void house_gaps(const gap_list *l, const ls_house *h) {
    const char *name = or_unknown(h->name);
    if (!has_lab(h))
        gap(l, "house", name,
            "no laboratory report (lab): published nutrient figures are used, and rates are set "
            "lower to be safe");
    if (!has_depth(h->measured) && h->last_cleanout.n == 0 &&
        !(h->measured != NULL && LS_GIVEN(h->measured->weighed)))
        gap(l, "house", name,
            "no depth readings (measured) and no last_cleanout: its tons rest on published "
            "figures");
}

static void rating_gaps(const gap_list *l, const ls_field *f) {
    const char *name = or_unknown(f->name);
    if (f->phosphorus == NULL) {
        gap(l, "field", name,
            "no phosphorus rating: it is taken as high, with no bank; the plan writer gives it");
        return;
    }
    if (f->phosphorus->rated_by.text == NULL || !LS_GIVEN(f->phosphorus->date))
        gap(l, "field", name, "who rated the phosphorus, and when (rated_by, date)");
    if (LS_GIVEN(f->phosphorus->bank) && f->phosphorus->ledger.n == 0)
        gap(l, "field", name,
            "phosphorus is banked, and no ledger says what was applied and taken off in the years "
            "before; the plan writer has it");
}

static void field_gaps(const gap_list *l, const ls_field *f) {
    const char *name = or_unknown(f->name);
    rating_gaps(l, f);
    if (f->setbacks.n == 0)
        gap(l, "field", name, "no setbacks: all of it is taken as spreadable");
    if (!LS_GIVEN(f->most))
        gap(l, "field", name, "the plan's limit (most) is not given");
    if (f->soil == NULL && !(LS_GIVEN(f->phosphate) && LS_GIVEN(f->potash)))
        gap(l, "field", name,
            "no soil test, and no phosphate and potash that a laboratory asks for: what to buy "
            "beside the litter leaves them out");
    if (!LS_GIVEN(f->open))
        gap(l, "field", name, "no dates when it may be spread (open)");
}

/* A soil test that nothing reads. */
static bool has_unread_soil(const ls_farm *f) {
    if (f->tables != NULL && f->tables->soil.text != NULL)
        return false;
    for (size_t b = 0; b < f->buyers.n; b++)
        for (size_t i = 0; i < f->buyers.at[b].fields.n; i++) {
            const ls_field *field = &f->buyers.at[b].fields.at[i];
            if (field->soil != NULL && !(LS_GIVEN(field->phosphate) && LS_GIVEN(field->potash)))
                return true;
        }
    return false;
}

static void farm_gaps(const gap_list *l, const ls_farm *f) {
    const struct {
        bool missing;
        const char *words;
    } all[] = {
        {has_unread_soil(f),
         "no soil table (soil under tables, piedmont for example): soil tests are given, but what "
         "they call for in P2O5 and K2O is not worked out"},
        {f->trucks.n == 0, "no trucks: loads stay unknown, and there is no plan"},
        {f->crew == NULL, "no crew: there is no plan"},
        {f->buyers.n == 0, "no buyers: no rates and no plan"},
        {f->stack == NULL, "no stack: what no open field can take has no place"},
        {f->costs == NULL, "no costs: the plan cannot weigh the money"},
        {f->fertilizer.n == 0, "no fertilizer prices: the worth of the litter stays unknown"},
        {f->facts == NULL || !LS_GIVEN(f->facts->next_flock),
         "no next_flock: the plan cannot tell the days to spare"}};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        if (all[i].missing)
            gap(l, NULL, NULL, all[i].words);
}

static void gaps(ls_doc_group *top, const ls_farm *f) {
    gap_list l = {LS_DOC_TABLE_IN(top, LS_FIRST, "missing", "NOT IN THE FILES", gap_columns),
                  top->document->arena};
    ls_doc_as_items(l.table);
    farm_gaps(&l, f);
    for (size_t i = 0; i < f->houses.n; i++)
        house_gaps(&l, &f->houses.at[i]);
    for (size_t i = 0; i < f->buyers.n; i++)
        for (size_t k = 0; k < f->buyers.at[i].fields.n; k++)
            field_gaps(&l, &f->buyers.at[i].fields.at[k]);
}

const ls_document *ls_report_check(const ls_view *v, const ls_estimate *e,
                                   const char *diagnostics) {
    ls_document *d =
        ls_document_new(v, "check", "The farm files: what was read, and what is missing");
    bool cautions = e != NULL && e->cautions.n > 0;
    d->table = "missing";
    d->more = "what is assumed";
    ls_doc_say(d->top, LS_FIRST,
               W(cautions ? "No mistakes found; look at what stands under TAKE CARE."
                          : "No mistakes found."));
    if (diagnostics[0] != '\0') {
        ls_doc_group *g = ls_doc_object(
            d->top, LS_FIRST, NULL, e != NULL ? "LOOK AT" : "LOOK AT; NO ESTIMATE CAN BE MADE YET");
        ls_doc_picture(g, LS_FIRST, "messages", NULL, NULL, diagnostics);
    }
    ls_report_put_starter_lines(d->top);
    ls_report_put_odd_figures(d->top);
    if (e != NULL)
        ls_report_put_cautions(d->top, &e->cautions);
    gaps(d->top, v->farm);
    if (e != NULL)
        ls_doc_texts(d->top, LS_FULL, "notes", "ASSUMED, AND CONFLICTS", e->notes.at, e->notes.n);
    what_was_read(d->top, v->farm);
    return d;
}
