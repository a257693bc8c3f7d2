#include "tree.h"

typedef struct {
    const ls_view *view;
    size_t depth;
    bool *told;
    LS_LIST(ls_report_branch) branches;
} walk;

/* As deep as the worksheet is; the depth asked for bounds it. */
static void go(walk *w, ls_line line, size_t depth) {
    const ls_entry *entry = ls_line_at(w->view->sheet, line);
    bool again = w->told[line], cut = !again && entry->n > 0 && depth == w->depth;
    *LS_PUSH(w->view->arena, &w->branches) = (ls_report_branch){line, depth, again, cut};
    w->told[line] = !cut;
    if (again || cut)
        return;
    for (size_t i = 0; i < entry->n; i++)
        go(w, entry->in[i], depth + 1);
}

ls_report_tree ls_report_tree_of(const ls_view *v, ls_line line, size_t depth) {
    walk w = {.view = v, .depth = depth};
    w.told = LS_NEW(v->arena, bool, (size_t)line + 1);
    go(&w, line, 0);
    return (ls_report_tree){w.branches.n, w.branches.at};
}

ls_report_tree ls_report_lines_from(const ls_view *v, size_t first, const bool *skip) {
    LS_LIST(ls_report_branch) lines = {NULL, 0, 0};
    for (size_t i = first; i < ls_worksheet_lines(v->sheet); i++)
        if (skip == NULL || !skip[i])
            *LS_PUSH(v->arena, &lines) = (ls_report_branch){(ls_line)i, 0, false, false};
    return (ls_report_tree){lines.n, lines.at};
}

/* Memory of drawing is a block of draws for each line that is asked for. */
enum { BATCH = 128 };

static void draw_batch(const ls_view *v, ls_drawn *wanted, size_t n, ls_q *of_line) {
    ls_draw(v->sheet, v->seed, v->draws, wanted, n);
    for (size_t i = 0; i < n; i++)
        of_line[wanted[i].line] =
            (ls_q){wanted[i].line, wanted[i].low, wanted[i].mid, wanted[i].high};
}

const ls_q *ls_report_tree_points(const ls_view *v, ls_report_tree tree) {
    ls_line top = 0;
    for (size_t i = 0; i < tree.n; i++)
        top = tree.branches[i].line > top ? tree.branches[i].line : top;
    bool *in_tree = LS_NEW(v->arena, bool, (size_t)top + 1);
    ls_q *of_line = LS_NEW(v->arena, ls_q, (size_t)top + 1),
         *points = LS_NEW(v->arena, ls_q, tree.n);
    for (size_t i = 0; i < tree.n; i++)
        in_tree[tree.branches[i].line] = true;
    ls_drawn wanted[BATCH];
    size_t n = 0;
    for (ls_line line = 0; line <= top; line++) {
        if (in_tree[line])
            wanted[n++] = ls_drawn_of(line);
        if (n == BATCH || (line == top && n > 0)) {
            draw_batch(v, wanted, n, of_line);
            n = 0;
        }
    }
    for (size_t i = 0; i < tree.n; i++)
        points[i] = of_line[tree.branches[i].line];
    return points;
}
