#include "figure.h"
#include "tree.h"

#include <string.h>

/* Levels beyond this are drawn like the last one. */
enum { MOST_BARS = 16, MOST_KEY = 72, DIGITS = 4 };

static const char *bars(ls_arena *a, size_t depth, const char *last) {
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < depth && i < MOST_BARS; i++)
        ls_text_add(t, "| ");
    ls_text_add(t, last);
    return t->s;
}

/* "low, middle, high" if one of them shows another number than the stated figure. */
static const char *points_words(const ls_report_page *p, const ls_entry *entry, ls_q q) {
    ls_unit unit = p->view->metric ? ls_unit_metric(entry->unit) : entry->unit;
    const char *stated = ls_number_text(p->arena, entry->value / unit.factor, DIGITS);
    const char *low = ls_number_text(p->arena, q.low / unit.factor, DIGITS);
    const char *mid = ls_number_text(p->arena, q.mid / unit.factor, DIGITS);
    const char *high = ls_number_text(p->arena, q.high / unit.factor, DIGITS);
    if (strcmp(low, stated) == 0 && strcmp(mid, stated) == 0 && strcmp(high, stated) == 0)
        return NULL;
    return ls_arena_printf(p->arena, "10, 50 and 90 %% points: %s, %s, %s", low, mid, high);
}

static void leaf_words(ls_report_page *p, const char *lead, ls_line line) {
    const ls_entry *entry = ls_line_at(p->view->sheet, line);
    const ls_diag *diag = p->view->farm->diag;
    ls_unit shown = p->view->metric ? ls_unit_metric(entry->unit) : entry->unit;
    const char *origin = ls_line_origin(p->arena, p->view->sheet, line, diag);
    ls_report_wrap(p, lead, lead, ls_arena_printf(p->arena, "from: %s", origin));
    if (entry->spread.kind != LS_EXACT)
        ls_report_wrap(
            p, lead, lead,
            ls_arena_printf(p->arena, "spread: %s",
                            ls_spread_words(p->arena, entry->spread, shown.factor, shown.text)));
    const ls_figure *figure = entry->origin.figure;
    if (figure != NULL && entry->spread.kind != LS_EXACT && figure->why != NULL &&
        entry->origin.words == NULL)
        ls_report_wrap(p, lead, lead, ls_arena_printf(p->arena, "as: %s", figure->why));
    if (figure != NULL && figure->note != NULL)
        ls_report_wrap(p, lead, lead, ls_arena_printf(p->arena, "note: %s", figure->note));
}

static void made_of(ls_report_page *p, const char *lead, ls_line line, bool cut) {
    const ls_worksheet *w = p->view->sheet;
    ls_report_wrap(p, lead, lead,
                   ls_arena_printf(p->arena, "= %s", ls_line_formula(p->arena, w, line)));
    ls_report_wrap(p, lead, lead,
                   ls_arena_printf(p->arena, "= %s", ls_line_numbers(p->arena, w, line)));
    if (cut)
        ls_report_wrap(p, lead, lead, "(deeper levels left out)");
}

static void branch(ls_report_page *p, const ls_report_branch *b, ls_q q) {
    const ls_entry *entry = ls_line_at(p->view->sheet, b->line);
    const char *value = ls_report_whole(p, entry->value, entry->unit);
    const char *first = bars(p->arena, b->depth, ""), *lead = bars(p->arena, b->depth, "  ");
    ls_report_wrap(p, first, lead,
                   ls_arena_printf(p->arena, "%s: %s, %s%s", entry->key, entry->label, value,
                                   b->again ? " (above)" : ""));
    if (b->again)
        return;
    const char *points = points_words(p, entry, q);
    if (points != NULL)
        ls_report_wrap(p, lead, lead, points);
    if (entry->op == LS_OP_LEAF)
        leaf_words(p, lead, b->line);
    else
        made_of(p, lead, b->line, b->cut);
}

/* The draws beside the simple method, of the figure asked for. */
static void first_order(ls_report_page *p, ls_line line, ls_q q) {
    const ls_entry *entry = ls_line_at(p->view->sheet, line);
    ls_drawn drawn = ls_drawn_of(line);
    drawn.low = q.low, drawn.high = q.high;
    ls_first_order f = ls_line_first_order(p->view->sheet, line, &drawn);
    if (entry->op == LS_OP_LEAF || !(f.u > 0))
        return;
    ls_report_blank(p);
    ls_report_say(
        p, 0,
        "The simple method (first order: the squares of the parts' spreads added up) gives 10 and "
        "90 %% points of %s and %s. %s",
        ls_report_whole(p, f.low, entry->unit), ls_report_whole(p, f.high, entry->unit),
        f.good ? "It would have been good enough here."
               : "It would not have been good enough here: the draws say otherwise in the first "
                 "two digits of the spread.");
}

const char *ls_report_explain_text(const ls_view *v, ls_line line, size_t depth) {
    ls_report_page *p = ls_report_begin(v, "How a figure came about");
    ls_report_blank(p);
    ls_report_tree tree = ls_report_tree_of(v, line, depth);
    const ls_q *points = ls_report_tree_points(v, tree);
    for (size_t i = 0; i < tree.n; i++)
        branch(p, &tree.branches[i], points[i]);
    first_order(p, line, points[0]);
    return ls_report_end(p);
}

/* What a line is made of, by key. */
static void made_of_keys(ls_report_page *p, ls_line line) {
    const ls_entry *entry = ls_line_at(p->view->sheet, line);
    ls_text *t = ls_text_new(p->arena);
    for (size_t i = 0; i < entry->n; i++)
        ls_text_addf(t, "%s%s", i == 0 ? "of: " : ", ",
                     ls_line_at(p->view->sheet, entry->in[i])->key);
    ls_report_wrap(p, "  ", "  ", t->s);
}

const char *ls_report_worksheet_text(const ls_view *v, size_t first, const bool *skip) {
    ls_report_page page = {v, v->arena, ls_text_new(v->arena)};
    ls_report_tree lines = ls_report_lines_from(v, first, skip);
    const ls_q *points = ls_report_tree_points(v, lines);
    for (size_t i = 0; i < lines.n; i++) {
        branch(&page, &lines.branches[i], points[i]);
        made_of_keys(&page, lines.branches[i].line);
    }
    return page.text->s;
}

const char *ls_report_keys(const ls_view *v, size_t first, const bool *skip) {
    ls_report_page page = {v, v->arena, ls_text_new(v->arena)};
    ls_report_tree lines = ls_report_lines_from(v, first, skip);
    for (size_t i = 0; i < lines.n; i++) {
        const ls_entry *entry = ls_line_at(v->sheet, lines.branches[i].line);
        const char *key = ls_text_plain(v->arena, entry->key);
        const char *rest =
            ls_arena_printf(v->arena, "%s  %s", ls_report_whole(&page, entry->value, entry->unit),
                            ls_text_plain(v->arena, entry->label));
        size_t used = ls_text_columns(key) + 2;
        size_t left = used < MOST_KEY ? LS_REPORT_WIDTH - used : LS_REPORT_WIDTH;
        ls_text_addf(page.text, "%s  %s\n", key, ls_text_fit(v->arena, rest, left));
    }
    return page.text->s;
}
