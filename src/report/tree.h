/* tree: what a line is made of, in the order in which it is told. Private to this room. */
#ifndef REPORT_TREE_H
#define REPORT_TREE_H

#include "littershed/report.h"

/* One place in the tree: a line, how deep it stands, and whether it stood before (then what it is
 * made of is not told again). cut: it is made of more than the depth asked for lets through. */
typedef struct {
    ls_line line;
    size_t depth;
    bool again, cut;
} ls_report_branch;

typedef struct {
    size_t n;
    const ls_report_branch *branches; /* the line itself first, at depth 0 */
} ls_report_tree;

/* The tree below a line, at most depth levels below it. */
ls_report_tree ls_report_tree_of(const ls_view *v, ls_line line, size_t depth);

/* All lines from first on as they stand in the worksheet, each at depth 0; skip[i]: line i is left
 * out; NULL: none is. */
ls_report_tree ls_report_lines_from(const ls_view *v, size_t first, const bool *skip);

/* The 10, 50 and 90 % points of the tree's lines: points[i] belongs to branch i. Exact lines have
 * three equal ones. */
const ls_q *ls_report_tree_points(const ls_view *v, ls_report_tree tree);

#endif
