/* The tables of the dossier as JSON and as CSV. */
#include "paper.h"
#include "tables.h"
#include "report/json.h"

#include <math.h>

/* Tons to a tenth of a pound; the rest as everywhere. */
static double exported(const ls_view *v, ls_line line, const char *unit) {
    double x = ls_line_value(v->sheet, line) / ls_unit_of(unit).factor;
    return isfinite(x) ? round(x * 1e5) / 1e5 : x;
}

static json_t *cell_of(const ls_view *v, const ls_dossier_cell *c, const char *unit) {
    if (c->is_count)
        return json_integer((json_int_t)c->count);
    if (c->empty)
        return json_null();
    if (c->words != NULL)
        return json_string(c->words);
    double x = exported(v, c->line, unit);
    return isfinite(x) ? json_real(x) : json_null();
}

static json_t *table_of(const ls_view *v, const ls_dossier_table *t) {
    json_t *rows = json_array();
    for (size_t r = 0; r < t->rows.n; r++) {
        json_t *row = json_object();
        for (size_t k = 0; k < t->n; k++)
            ls_report_put(row, t->columns[k].key,
                          cell_of(v, &t->rows.at[r][k], t->columns[k].unit));
        ls_report_append(rows, row);
    }
    return rows;
}

static json_t *sizes_of(const ls_view *v, const ls_dossier *d) {
    json_t *sizes = json_array();
    for (size_t i = 0; i < d->sizes.n; i++) {
        json_t *size = json_object();
        ls_report_put(size, "birds", json_string(d->sizes.at[i].birds));
        ls_report_put(size, "count", ls_report_line_count(v, d->sizes.at[i].count));
        ls_report_put(size, "medium_from", ls_report_line_count(v, d->sizes.at[i].medium));
        ls_report_put(size, "large_from", ls_report_line_count(v, d->sizes.at[i].large));
        ls_report_put(size, "class", json_string(d->sizes.at[i].size));
        ls_report_append(sizes, size);
    }
    return sizes;
}

/* Every line that the page shows, and what it is made of. */
static json_t *worksheet_of(const ls_view *v, const ls_dossier *d) {
    const bool *used = ls_paper_used(ls_dossier_paper(v, d, false));
    json_t *lines = json_array();
    for (size_t i = 0; i < ls_worksheet_lines(v->sheet); i++) {
        if (!used[i])
            continue;
        const ls_entry *e = ls_line_at(v->sheet, (ls_line)i);
        json_t *line = json_object();
        ls_report_put(line, "key", ls_report_string(e->key));
        ls_report_put(line, "label", ls_report_string(e->label));
        ls_report_put(line, "value", ls_report_figure(e->value, e->unit.text));
        ls_report_put(line, "unit", ls_report_string(e->unit.text));
        ls_report_put(line, "formula",
                      ls_report_string(ls_line_formula(v->arena, v->sheet, (ls_line)i)));
        ls_report_put(line, "numbers",
                      ls_report_string(ls_line_numbers(v->arena, v->sheet, (ls_line)i)));
        ls_report_put(line, "made_of", ls_report_made_of(v, e));
        ls_report_put(
            line, "from",
            ls_report_string(ls_line_origin(v->arena, v->sheet, (ls_line)i, v->farm->diag)));
        ls_report_append(lines, line);
    }
    return lines;
}

const char *ls_report_dossier_json(const ls_view *v, const ls_dossier *d) {
    json_t *document = ls_report_document(v, "dossier");
    ls_report_put(document, "printed", ls_report_day(v, d->printed));
    ls_report_put(document, "sizes", sizes_of(v, d));
    for (size_t i = 0; ls_report_dossier_part(i) != NULL; i++)
        ls_report_put(document, ls_report_dossier_part(i),
                      table_of(v, ls_dossier_table_of(v, d, ls_report_dossier_part(i))));
    ls_report_put(document, "worksheet", worksheet_of(v, d));
    return ls_report_dump(v, document);
}

static void cell_to(const ls_view *v, ls_text *t, const ls_dossier_cell *c, const char *unit) {
    if (c->is_count)
        ls_text_addf(t, "%ld", c->count);
    else if (!c->empty && c->words != NULL)
        ls_text_add(t, ls_text_csv(v->arena, c->words));
    else if (!c->empty && isfinite(exported(v, c->line, unit)))
        ls_text_addf(t, "%.10g", exported(v, c->line, unit));
}

const char *ls_report_dossier_csv(const ls_view *v, const ls_dossier *d, const char *part) {
    const ls_dossier_table *table = ls_dossier_table_of(v, d, part);
    if (table == NULL)
        return NULL;
    ls_text *t = ls_text_new(v->arena);
    for (size_t k = 0; k < table->n; k++)
        ls_text_addf(t, "%s%s", k == 0 ? "" : ",", table->columns[k].key);
    ls_text_add(t, "\r\n");
    for (size_t r = 0; r < table->rows.n; r++) {
        for (size_t k = 0; k < table->n; k++) {
            ls_text_add(t, k == 0 ? "" : ",");
            cell_to(v, t, &table->rows.at[r][k], table->columns[k].unit);
        }
        ls_text_add(t, "\r\n");
    }
    return t->s;
}
