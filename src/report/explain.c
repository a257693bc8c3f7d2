/* How a figure came about, and the figures there are. */
#include "document/writers.h"
#include "page.h"

#include <string.h>

/* ---- what a line is made of, in the order in which it is told ---- */

/* One place in the tree: a line, how deep it stands, and whether it stood before (then what it is
 * made of is not told again). cut: it is made of more than the depth asked for lets through. */
typedef struct {
    ls_line line;
    size_t depth;
    bool again, cut;
} branch;
typedef LS_LIST(branch) tree;

typedef struct {
    const ls_view *view;
    size_t depth;
    bool *told;
    tree branches;
} walk;

/* As deep as the worksheet is; the depth asked for bounds it. */
static void go(walk *w, ls_line line, size_t depth) {
    const ls_entry *entry = ls_line_at(w->view->sheet, line);
    bool again = w->told[line], cut = !again && entry->n > 0 && depth == w->depth;
    *LS_PUSH(w->view->arena, &w->branches) = (branch){line, depth, again, cut};
    w->told[line] = !cut;
    if (again || cut) return;
    for (size_t i = 0; i < entry->n; i++) go(w, entry->in[i], depth + 1);
}

/* The tree below a line, at most depth levels below it, the line itself first. */
static tree tree_of(const ls_view *v, ls_line line, size_t depth) {
    walk w = {.view = v, .depth = depth};
    w.told = LS_NEW(v->arena, bool, (size_t)line + 1);
    go(&w, line, 0);
    return w.branches;
}

/* All lines from first on as they stand in the worksheet, each at depth 0; skip[i]: line i is left
 * out; NULL: none is. */
static tree lines_from(const ls_view *v, size_t first, const bool *skip) {
    tree lines = {0};
    for (size_t i = first; i < ls_worksheet_lines(v->sheet); i++)
        if (skip == NULL || !skip[i]) *LS_PUSH(v->arena, &lines) = (branch){(ls_line)i, 0, false, false};
    return lines;
}

/* Memory of drawing is a block of draws for each line that is asked for. */
enum { BATCH = 128 };

static void draw_batch(const ls_view *v, ls_drawn *wanted, size_t n, ls_q *of_line) {
    ls_draw(v->sheet, v->seed, v->draws, wanted, n);
    for (size_t i = 0; i < n; i++)
        of_line[wanted[i].line] = (ls_q){wanted[i].line, wanted[i].low, wanted[i].mid, wanted[i].high};
}

/* The 10, 50 and 90 % points of the tree's lines: points[i] belongs to branch i. */
static const ls_q *points_of(const ls_view *v, const tree *t) {
    ls_line top = 0;
    for (size_t i = 0; i < t->n; i++) top = t->at[i].line > top ? t->at[i].line : top;
    bool *in_tree = LS_NEW(v->arena, bool, (size_t)top + 1);
    ls_q *of_line = LS_NEW(v->arena, ls_q, (size_t)top + 1), *points = LS_NEW(v->arena, ls_q, t->n);
    for (size_t i = 0; i < t->n; i++) in_tree[t->at[i].line] = true;
    ls_drawn wanted[BATCH];
    size_t n = 0;
    for (ls_line line = 0; line <= top; line++) {
        if (in_tree[line]) wanted[n++] = ls_drawn_of(line);
        if (n == BATCH || (line == top && n > 0)) {
            draw_batch(v, wanted, n, of_line);
            n = 0;
        }
    }
    for (size_t i = 0; i < t->n; i++) points[i] = of_line[t->at[i].line];
    return points;
}

enum { DIGITS = 4 };

LS_DOC_COLUMNS(columns, WORDS("key", NULL), WORDS("label", NULL), WORDS("depth", NULL), WORDS("value", NULL),
               WORDS("unit", NULL), WORDS("points", NULL), WORDS("formula", NULL), WORDS("numbers", NULL),
               WORDS("made_of", NULL), WORDS("origin", NULL), WORDS("spread", NULL), WORDS("as", NULL),
               WORDS("note", NULL));
enum { COLUMNS = sizeof columns / sizeof *columns };

/* ---- what else is said of a line ---- */

static const char *in_digits(const ls_view *v, double value, ls_unit unit) {
    ls_unit shown = v->metric ? ls_unit_metric(v->arena, unit) : unit;
    return ls_number_text(v->arena, value / shown.factor, DIGITS);
}

/* "low, likely, high" if one of them shows another number than the stated figure; else NULL. */
static const char *points_words(const ls_view *v, const ls_entry *e, ls_q q) {
    const char *stated = in_digits(v, e->value, e->unit), *low = in_digits(v, q.low, e->unit);
    const char *mid = in_digits(v, q.mid, e->unit), *high = in_digits(v, q.high, e->unit);
    if (strcmp(low, stated) == 0 && strcmp(mid, stated) == 0 && strcmp(high, stated) == 0) return NULL;
    return ls_arena_printf(v->arena, "low, likely, high: %s, %s, %s", low, mid, high);
}

static void say(const ls_view *v, ls_doc_entry *entry, const char *before, const char *s) {
    if (s != NULL) *LS_PUSH(v->arena, &entry->lines) = ls_arena_printf(v->arena, "%s%s", before, s);
}

static const char *spread_of(const ls_view *v, const ls_entry *e, bool metric) {
    ls_unit unit = metric ? ls_unit_metric(v->arena, e->unit) : e->unit;
    return ls_spread_words(v->arena, e->spread, unit.factor, unit.text);
}

/* Why the table's figure spreads so, where the line does not say; and what is noted of it. */
static const char *why_of(const ls_entry *e) {
    const ls_figure *f = e->origin.figure;
    return f == NULL || e->spread.kind == LS_EXACT || e->origin.words != NULL ? NULL : f->why;
}

static const char *note_of(const ls_entry *e) { return e->origin.figure == NULL ? NULL : e->origin.figure->note; }

static void say_all(const ls_view *v, ls_doc_entry *entry, const branch *b, ls_q q) {
    const ls_entry *e = ls_line_at(v->sheet, b->line);
    say(v, entry, "", points_words(v, e, q));
    if (e->op == LS_OP_LEAF) {
        say(v, entry, "spread: ", e->spread.kind == LS_EXACT ? NULL : spread_of(v, e, v->metric));
        say(v, entry, "as: ", why_of(e));
        say(v, entry, "note: ", note_of(e));
    }
    if (b->cut) say(v, entry, "", "(deeper levels left out)");
}

/* ---- lines ---- */

static void put_line(ls_doc_table t, const ls_view *v, const branch *b, ls_q q) {
    const ls_entry *e = ls_line_at(v->sheet, b->line);
    ls_arena *a = v->arena;
    bool leaf = e->op == LS_OP_LEAF;
    ls_doc_entry entry = ls_doc_entry_of(v, b->line);
    entry.depth = b->depth;
    entry.again = b->again;
    if (b->again)
        entry.lines.n = 0;
    else
        say_all(v, &entry, b, q);
    const ls_doc_cell cells[COLUMNS] = {
        W(e->key), W(e->label), N(b->depth), V(e->value, e->unit.text), W(e->unit.text), P(q, e->unit.text),
        W(leaf ? NULL : ls_line_formula(a, v->sheet, b->line)), W(leaf ? NULL : ls_line_numbers(a, v->sheet, b->line)),
        ls_doc_made_of(v, e),
        /* the name of a file as typed may hold anything */
        W(leaf ? ls_text_plain(a, ls_line_origin(a, v->sheet, b->line, v->farm->diag)) : NULL),
        W(leaf ? spread_of(v, e, false) : NULL), W(leaf ? why_of(e) : NULL), W(leaf ? note_of(e) : NULL)};
    ls_doc_entry_in(t, columns, cells, &entry);
}

/* The draws beside the simple method, of the figure asked for. */
static void first_order(ls_doc_group *top, const ls_view *v, ls_line line, ls_q q) {
    const ls_entry *e = ls_line_at(v->sheet, line);
    ls_drawn drawn = ls_drawn_of(line);
    drawn.low = q.low, drawn.high = q.high;
    ls_first_order f = ls_line_first_order(v->sheet, line, &drawn);
    if (e->op == LS_OP_LEAF || !(f.u > 0)) {
        ls_doc_data(top, "first_order", W(NULL));
        return;
    }
    ls_doc_group *g = ls_doc_object(top, LS_FIRST, "first_order", NULL);
    const ls_doc_cell low = FINE(V(f.low, e->unit.text)), high = FINE(V(f.high, e->unit.text));
    MEMBERS(g, {"low", low}, {"high", high}, {"good_enough", FLAG(f.good)});
    SAY(g, LS_FIRST,
        "The simple method (first order: the squares of the parts' spreads added up) gives {} as "
        "low and {} as high. {}",
        low, high,
        W(f.good ? "It would have been good enough here."
                 : "It would not have been good enough here: the draws differ in the first two "
                   "digits of the spread."));
}

const ls_document *ls_report_explain(const ls_view *v, ls_line line, size_t depth) {
    ls_document *d = ls_document_new(v, "explain", "How a figure came about");
    d->table = "lines";
    tree all = tree_of(v, line, depth);
    const ls_q *points = points_of(v, &all);
    ls_doc_data(d->top, "key", W(ls_line_at(v->sheet, line)->key));
    ls_doc_table t = ls_doc_sheet_in(d->top, LS_FIRST, "lines", NULL, columns, COLUMNS);
    for (size_t i = 0; i < all.n; i++) put_line(t, v, &all.at[i], points[i]);
    first_order(d->top, v, line, points[0]);
    return d;
}

/* ---- lists, as text a part at a time: the lines of fields do not stay ---- */

/* An entry told as in a tree, and what it is made of by key. */
static ls_doc_entry listed(const ls_view *v, const branch *b, ls_q q) {
    const ls_entry *e = ls_line_at(v->sheet, b->line);
    ls_doc_entry entry = ls_doc_entry_of(v, b->line);
    ls_text *of = ls_text_new(v->arena);
    say_all(v, &entry, b, q);
    for (size_t k = 0; k < e->n; k++)
        ls_text_addf(of, "%s%s", k == 0 ? "of: " : ", ", ls_line_at(v->sheet, e->in[k])->key);
    if (e->n > 0) say(v, &entry, "", of->s);
    return entry;
}

const char *ls_report_worksheet_text(const ls_view *v, size_t first, const bool *skip) {
    const ls_document d = {.view = v, .arena = v->arena};
    ls_report_page page = {v, v->arena, ls_text_new(v->arena)};
    tree lines = lines_from(v, first, skip);
    const ls_q *points = points_of(v, &lines);
    for (size_t i = 0; i < lines.n; i++) {
        const ls_doc_entry entry = listed(v, &lines.at[i], points[i]);
        ls_doc_entry_text(&d, &page, &entry);
    }
    return page.text->s;
}

const char *ls_report_keys(const ls_view *v, size_t first, const bool *skip) {
    enum { MARGIN = 8 };
    const ls_document d = {.view = v, .arena = v->arena};
    ls_text *t = ls_text_new(v->arena);
    tree lines = lines_from(v, first, skip);
    for (size_t i = 0; i < lines.n; i++) {
        const ls_entry *e = ls_line_at(v->sheet, lines.at[i].line);
        const ls_doc_cell value = FINE(V(e->value, e->unit.text));
        const char *key = ls_text_plain(v->arena, e->key);
        const char *rest = ls_arena_printf(v->arena, "%s  %s", ls_doc_shown(&d, &value, NULL, v->metric),
                                           ls_text_plain(v->arena, e->label));
        size_t used = ls_text_columns(key) + 2;
        size_t width = ls_report_width(v), left = used + MARGIN < width ? width - used : width;
        ls_text_addf(t, "%s  %s\n", key, ls_text_fit(v->arena, rest, left));
    }
    return t->s;
}
