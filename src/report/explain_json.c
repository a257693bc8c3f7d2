#include "json.h"
#include "tree.h"

static json_t *points(ls_q q, ls_unit unit) {
    json_t *object = json_object();
    ls_report_put(object, "low", ls_report_figure(q.low, unit.text));
    ls_report_put(object, "mid", ls_report_figure(q.mid, unit.text));
    ls_report_put(object, "high", ls_report_figure(q.high, unit.text));
    return object;
}

static json_t *one_line(const ls_view *v, const ls_report_branch *b, ls_q q) {
    const ls_entry *entry = ls_line_at(v->sheet, b->line);
    bool leaf = entry->op == LS_OP_LEAF;
    ls_arena *a = v->arena;
    json_t *object = json_object();
    ls_report_put(object, "key", ls_report_string(entry->key));
    ls_report_put(object, "label", ls_report_string(entry->label));
    ls_report_put(object, "depth", json_integer((json_int_t)b->depth));
    ls_report_put(object, "value", ls_report_figure(entry->value, entry->unit.text));
    ls_report_put(object, "unit", ls_report_string(entry->unit.text));
    ls_report_put(object, "points", points(q, entry->unit));
    ls_report_put(object, "formula",
                  leaf ? json_null() : ls_report_string(ls_line_formula(a, v->sheet, b->line)));
    ls_report_put(object, "numbers",
                  leaf ? json_null() : ls_report_string(ls_line_numbers(a, v->sheet, b->line)));
    ls_report_put(object, "made_of", ls_report_made_of(v, entry));
    /* the name of a file as typed may hold anything */
    const char *origin = ls_text_plain(a, ls_line_origin(a, v->sheet, b->line, v->farm->diag));
    ls_report_put(object, "origin", leaf ? ls_report_string(origin) : json_null());
    const char *spread = ls_spread_words(a, entry->spread, entry->unit.factor, entry->unit.text);
    ls_report_put(object, "spread", leaf ? ls_report_string(spread) : json_null());
    return object;
}

/* First-order points of the figure asked for, and whether they would have been good enough. */
static json_t *first_order(const ls_view *v, ls_line line, ls_q q) {
    const ls_entry *entry = ls_line_at(v->sheet, line);
    ls_drawn drawn = ls_drawn_of(line);
    drawn.low = q.low, drawn.high = q.high;
    ls_first_order f = ls_line_first_order(v->sheet, line, &drawn);
    if (entry->op == LS_OP_LEAF || !(f.u > 0))
        return json_null();
    json_t *object = json_object();
    ls_report_put(object, "low", ls_report_figure(f.low, entry->unit.text));
    ls_report_put(object, "high", ls_report_figure(f.high, entry->unit.text));
    ls_report_put(object, "good_enough", json_boolean(f.good));
    return object;
}

const char *ls_report_explain_json(const ls_view *v, ls_line line, size_t depth) {
    json_t *document = ls_report_document(v, "explain"), *lines = json_array();
    ls_report_tree tree = ls_report_tree_of(v, line, depth);
    const ls_q *q = ls_report_tree_points(v, tree);
    for (size_t i = 0; i < tree.n; i++)
        if (!tree.branches[i].again)
            ls_report_append(lines, one_line(v, &tree.branches[i], q[i]));
    ls_report_put(document, "key", ls_report_string(ls_line_at(v->sheet, line)->key));
    ls_report_put(document, "first_order", first_order(v, line, q[0]));
    ls_report_put(document, "lines", lines);
    return ls_report_dump(v, document);
}
