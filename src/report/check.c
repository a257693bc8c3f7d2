/* The page of check: what was read, what looks odd, what is missing. */
#include "put.h"
#include "warning.h"

#include <string.h>

/* ---- figures beyond usual bounds ---- */

LS_DOC_COLUMNS(odd_columns, WORDS("where", "where"), WORDS("of", "of"), WORDS("what", "what"), WORDS("given", "given"),
               WORDS("usual", "usual (common practice)"));

static const ls_figure *bound(const ls_view *v, const char *row, const char *column) {
    return ls_row_figure(ls_table_row(ls_reference_by_id(v->reference, "plausible"), row), column);
}

/* A figure beyond the bounds of a row of the table "plausible". */
static void query(ls_doc_table t, const char *of, const char *what, const ls_quantity *q, const char *row) {
    const ls_view *v = t.group->document->view;
    const ls_figure *low = bound(v, row, "low"), *high = bound(v, row, "high");
    if (!LS_GIVEN(*q)) return;
    const ls_figure *passed = low != NULL && q->value < low->value     ? low
                              : high != NULL && q->value > high->value ? high
                                                                       : NULL;
    if (passed != NULL)
        LS_DOC_ROW(t, odd_columns, W(ls_diag_where(v->arena, v->farm->diag, q->at)), W(of), W(what), W(q->text),
                   T(passed == low ? "at least {}" : "at most {}", V(passed->value, passed->unit.text)));
}

static const char *row_of_yield(const ls_field *f) {
    if (ls_dimension_same(f->yield.unit.dimension, ls_unit_of("bu/ac").dimension)) return "yield in bushels";
    if (!ls_dimension_same(f->yield.unit.dimension, ls_unit_of("ton/ac").dimension)) return NULL;
    return f->crop.text != NULL && strstr(f->crop.text, "hay") != NULL ? "yield of hay" : "yield by weight";
}

/* Each with its place and its usual bound; nothing if there are none. */
static void odd_figures(ls_doc_group *top) {
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, "UNUSUAL: LOOK AGAIN AT NUMBER AND UNIT");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "unusual", NULL, odd_columns);
    LS_EACH (const ls_buyer, buyer, top->document->view->farm->buyers) {
        query(t, buyer->name.text, "distance", &buyer->distance, "miles to a buyer");
        LS_EACH (const ls_field, f, buyer->fields) {
            const char *row = row_of_yield(f);
            if (row != NULL) query(t, f->name.text, "yield", &f->yield, row);
            query(t, f->name.text, "nitrogen", &f->nitrogen, "nitrogen for a crop");
        }
    }
}

/* ---- what was read ---- */

static const char *or_unknown(ls_name n) { return n.text == NULL ? "?" : n.text; }

LS_DOC_COLUMNS(house_columns, WORDS("house", "house"), WORDS("sides", "sides"), WORDS("birds", "flock"),
               NUMBER("count", "birds"), NUMBER("males", "males"), WORDS("placed", "placed"),
               WORDS("removed", "removed"));

LS_DOC_COLUMNS(field_columns, WORDS("buyer", "buyer"), WORDS("field", "field"), WORDS("crop", "crop"),
               WORDS("opens", "opens"), WORDS("closes", "closes"));

static const char *sides(ls_arena *a, const ls_house *h) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < h->sides.n; i++)
        ls_text_addf(t, "%s%s", i == 0 ? "" : ", ", or_unknown(h->sides.at[i].name));
    return h->sides.n == 0 ? NULL : t->s;
}

static ls_doc_cell count(ls_count n) { return LS_GIVEN(n) ? N(n.n) : W(NULL); }

static void flocks(ls_doc_table t, const ls_house *h) {
    const char *name = or_unknown(h->name), *parts = sides(t.group->document->arena, h);
    LS_EACH (const ls_flock, f, h->flocks)
        LS_DOC_ROW(t, house_columns, W(name), W(parts), W(ls_bird_name(f->birds.is)),
                   count(LS_GIVEN(f->hens) ? f->hens : f->count), count(f->males), DAY(f->placed.day),
                   DAY(f->removed.day));
    if (h->flocks.n == 0) LS_DOC_ROW(t, house_columns, W(name), W(parts), W(NULL), W(NULL), W(NULL), W(NULL), W(NULL));
}

/* What else a house has: depths on a grid, reports. */
static void beside(ls_doc_group *g, const ls_house *h) {
    const ls_depth_grid *grid = h->measured == NULL ? NULL : h->measured->depth.grid;
    if (grid != NULL)
        ITEM(g, LS_FULL, "{}: depths on a grid of {} x {} readings, {}", W(or_unknown(h->name)), N(grid->across_n),
             N(grid->along_n), W(or_unknown(grid->file)));
    LS_EACH (const ls_lab, lab, h->lab)
        ITEM(g, LS_FULL, "{}: laboratory report{}", W(or_unknown(h->name)), OPTIONAL(" of {}", GIVEN_DAY(lab->date)));
}

static void buyer(ls_doc_table t, const ls_buyer *b) {
    LS_EACH (const ls_field, f, b->fields) {
        bool open = LS_GIVEN(f->open);
        LS_DOC_ROW(t, field_columns, W(or_unknown(b->name)), W(or_unknown(f->name)), W(or_unknown(f->crop)),
                   DAY(open ? f->open.days.from : LS_NO_DATE), DAY(open ? f->open.days.to : LS_NO_DATE));
    }
}

static void what_was_read(ls_doc_group *top, const ls_farm *f) {
    ls_doc_group *g = ls_doc_object(top, LS_FULL, "read", "READ");
    for (size_t i = 0; i < f->own_tables.n; i++)
        ITEM(g, LS_FULL, "tables of the farm's own: {}", W(f->own_tables.at[i].text));
    ls_doc_table houses = LS_DOC_TABLE_IN(g, LS_FULL, "houses", NULL, house_columns);
    for (size_t i = 0; i < f->houses.n; i++) flocks(houses, &f->houses.at[i]);
    for (size_t i = 0; i < f->houses.n; i++) beside(g, &f->houses.at[i]);
    ls_doc_table buyers = LS_DOC_TABLE_IN(g, LS_FULL, "fields", NULL, field_columns);
    for (size_t i = 0; i < f->buyers.n; i++) buyer(buyers, &f->buyers.at[i]);
}

/* ---- what is missing ---- */

LS_DOC_COLUMNS(gap_columns, WORDS("gap", "gap"), WORDS("where", "where"), DATA("of"), WORDS("worth", "worth"));

/* The kind of the first birds of the farm. */
static int first_birds(const ls_farm *f) {
    for (size_t i = 0; i < f->houses.n; i++)
        if (f->houses.at[i].flocks.n > 0) return f->houses.at[i].flocks.at[0].birds.is;
    return LS_NO_BIRD + 1;
}

/* What of a list only the full page has. */
static void and_more(ls_doc_group *g, size_t n, size_t most) {
    if (n > most && !g->document->view->full) ITEM(g, LS_FIRST, "and {} more: --full", N(n - most));
}

static void gaps(ls_doc_group *top, ls_gap_list list) {
    enum { MOST = 3 };
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, "FILL THESE GAPS, THE WORST FIRST");
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FIRST, "gaps", NULL, gap_columns);
    for (size_t i = 0; i < list.n; i++) {
        const ls_gap *gap = &list.at[i];
        ls_report_list where = {gap->where.at, gap->where.n, gap->where.cap};
        LS_DOC_GRID_ROW(t, gap_columns, i < MOST ? LS_FIRST : LS_FULL, NULL, W(gap->words),
                        W(where.n == 0 ? "farm" : ls_report_named(top->document->arena, &where)),
                        ls_doc_names(where.at, where.n),
                        gap->worth ? T("up to {}", F(gap->worth, gap->unit)) : W(NULL));
    }
    and_more(g, list.n, MOST);
    const ls_view *v = top->document->view;
    const ls_starter farm = {.bird = first_birds(v->farm), .metric = v->farm->metric || v->metric};
    g = ls_doc_object(top, LS_FIRST, "lines", "LINES TO WRITE (YOUR FIGURES)");
    for (size_t i = 0; i < list.n; i++) {
        const ls_gap *gap = &list.at[i];
        bool section = strchr(gap->path, '.') == NULL; /* of the file, whatever it is of use for */
        ITEM(g, i < MOST ? LS_FIRST : LS_FULL, "{}: write \"{}\"",
             W(gap->where.n == 0 || section ? "at the left edge" : gap->where.at[0]),
             W(ls_farm_line_for(top->document->arena, gap->path, farm)));
    }
}

/* What the reader warns of: on the first screen what, in full where and what to do. How many. */
static size_t warnings(ls_doc_group *top, const char *diagnostics) {
    static const char mark[] = ": warning: ";
    enum { MOST = 3 };
    ls_arena *a = top->document->arena;
    size_t n = 0;
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, NULL, "LOOK AT");
    for (const char *s = diagnostics; (s = strstr(s, mark)) != NULL; s++)
        if (n++ < MOST)
            ITEM(g, top->document->view->full ? LS_DATA : LS_FIRST,
                 ls_arena_copy_n(a, s + strlen(mark), strcspn(s, "\n") - strlen(mark)));
    and_more(g, n, MOST);
    ls_doc_picture(g, n > 0 ? LS_FULL : LS_FIRST, "messages", NULL, NULL, diagnostics[0] == '\0' ? NULL : diagnostics);
    return n;
}

/* The first words: what the files are good for. */
static void verdict(ls_doc_group *g, const ls_estimate *e, size_t warned, size_t missing) {
    const ls_farm *f = g->document->view->farm;
    size_t fields = 0;
    LS_EACH (const ls_buyer, b, f->buyers) fields += b->fields.n - ls_buyer_is_yard(b);
    const char *lacks = f->buyers.n == 0   ? "buyers and their fields"
                        : f->trucks.n == 0 ? "trucks"
                        : f->crew == NULL  ? "a crew"
                                           : NULL;
    ls_doc_say(g, LS_FIRST,
               e == NULL ? T("No mistakes found, but no estimate can be made yet. Gaps: {}.", N(missing))
               : lacks != NULL
                   ? T("No mistakes found. Good for an estimate: {} likely. A plan needs {}.",
                       POINT(&e->tons, e->tons.mid, "ton"), W(lacks))
                   : T("No mistakes found. Good for a plan: {} likely.", POINT(&e->tons, e->tons.mid, "ton")));
    if (e != NULL)
        SAY(g, LS_FIRST, "Warnings: {}. Assumed: {}. Gaps: {}.", N(warned + e->cautions.n), N(e->notes.n), N(missing));
    SAY(g, LS_FIRST, "Houses: {}. Trucks: {}. Buyers: {}. Fields: {}.", N(f->houses.n), N(f->trucks.n), N(f->buyers.n),
        N(fields));
}

const ls_document *ls_report_check(const ls_view *v, const ls_estimate *e, ls_gap_list missing,
                                   const char *diagnostics) {
    enum { CAUTIONS = 2 }; /* on the first screen */
    ls_document *d = ls_document_new(v, "check", "The farm files: what was read, and what is missing");
    d->table = "gaps";
    d->more = "all gaps and warnings, what is assumed, what was read";
    ls_doc_group *first = ls_doc_object(d->top, LS_FIRST, NULL, NULL);
    gaps(d->top, missing);
    size_t warned = warnings(d->top, diagnostics);
    ls_report_starter files = ls_report_starter_of(v);
    ls_doc_group *begun = ls_doc_object(d->top, LS_FIRST, "starter", "STILL THE STARTER'S");
    for (size_t i = 0; i < files.n; i++)
        ITEM(begun, LS_FIRST, "{}: {} of {} figures and names (lines {})", W(files.at[i].file), N(files.at[i].same),
             N(files.at[i].all), W(files.at[i].lines));
    odd_figures(d->top);
    if (e != NULL) {
        ls_report_put_cautions(d->top, &e->cautions, CAUTIONS);
        and_more(d->top, e->cautions.n, CAUTIONS);
        ls_doc_texts(d->top, LS_FULL, "notes", "ASSUMED, AND CONFLICTS", e->notes.at, e->notes.n);
    }
    verdict(first, e, warned, missing.n);
    if (e != NULL) ls_report_put_sides(d->top, LS_FULL, e);
    what_was_read(d->top, v->farm);
    return d;
}
