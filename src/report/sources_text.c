#include "page.h"

#include "figure.h"

#include <math.h>
#include <string.h>

static void source_words(ls_report_page *p, const ls_source *s) {
    ls_report_item(p, 2, "%s: %s. %s", s->id, s->who, s->title);
    if (s->url != NULL)
        ls_report_say(p, 4, "%s", s->url);
}

static void all_sources(ls_report_page *p) {
    ls_report_heading(p, "SOURCES");
    for (size_t i = 0; ls_reference_source_at(p->view->reference, i) != NULL; i++)
        source_words(p, ls_reference_source_at(p->view->reference, i));
}

static const ls_report_column table_columns[] = {
    {"Table", 28, true}, {"Rows", 4, false}, {"", 42, true}};
enum { TABLE_COLUMNS = sizeof table_columns / sizeof *table_columns };

static void all_tables(ls_report_page *p) {
    ls_report_heading(p, "TABLES (littershed sources TABLE shows one)");
    ls_report_heads(p, table_columns, TABLE_COLUMNS);
    for (size_t i = 0; ls_reference_at(p->view->reference, i) != NULL; i++) {
        const ls_table *t = ls_reference_at(p->view->reference, i);
        const char *cells[TABLE_COLUMNS] = {t->id, ls_arena_printf(p->arena, "%zu", t->n),
                                            t->title};
        ls_report_row(p, table_columns, TABLE_COLUMNS, cells);
    }
}

/* The farm's own rows, each with its place. */
static void own_rows(ls_report_page *p) {
    const ls_reference *r = p->view->reference;
    if (p->view->farm == NULL)
        return;
    ls_report_heading(p, "ROWS OF THE FARM'S OWN TABLES");
    size_t n = 0;
    for (size_t i = 0; ls_reference_at(r, i) != NULL; i++)
        for (size_t k = 0; k < ls_reference_at(r, i)->n; k++) {
            const ls_row *row = &ls_reference_at(r, i)->rows[k];
            if (row->own == NULL)
                continue;
            n++;
            ls_report_item(p, 2, "%s/%s, %s%s", ls_reference_at(r, i)->id, row->name, row->own,
                           row->in_place_of == NULL ? "" : ", in place of the built-in row");
        }
    if (n == 0)
        ls_report_say(p, 2, "None: the farm files name no tables of their own (own_tables).");
}

/* ---- one table ---- */

static const char *known_by(ls_report_page *p, const ls_source *source, ls_status status) {
    if (source == NULL)
        return ls_status_words(status);
    return ls_arena_printf(p->arena, "%s, %s", source->id, ls_status_words(status));
}

static void printed_part(ls_text *t, ls_arena *a, const char *word, double v, double factor) {
    if (!isnan(v))
        ls_text_addf(t, "%s%s %s", t->n > 0 ? ", " : "", word, ls_number_text(a, v / factor, 6));
}

/* What the source printed beside the figure. */
static const char *printed(ls_report_page *p, const ls_figure *f) {
    ls_text *t = ls_text_new(p->arena);
    double factor = f->unit.factor;
    printed_part(t, p->arena, "n", f->printed.n, 1);
    printed_part(t, p->arena, "least", f->printed.least, factor);
    printed_part(t, p->arena, "most", f->printed.most, factor);
    printed_part(t, p->arena, "median", f->printed.median, factor);
    printed_part(t, p->arena, "mean", f->printed.mean, factor);
    printed_part(t, p->arena, "sd", f->printed.sd, factor);
    return t->s;
}

static void figure(ls_report_page *p, const char *column, const ls_figure *f, const ls_row *row) {
    ls_report_item(p, 4, "%s: %s%s%s%s", column,
                   ls_number_text(p->arena, f->value / f->unit.factor, 6),
                   f->unit.text[0] == '\0' ? "" : " ", f->unit.text,
                   row->own != NULL && f->own == NULL ? " (of the built-in row)" : "");
    if (f->source != row->source || f->status != row->status)
        ls_report_say(p, 6, "known by: %s", known_by(p, f->source, f->status));
    if (f->spread.kind != LS_EXACT)
        ls_report_say(p, 6, "spread: %s%s%s",
                      ls_spread_words(p->arena, f->spread, f->unit.factor, f->unit.text),
                      f->why == NULL ? "" : "; ", f->why == NULL ? "" : f->why);
    const char *beside = printed(p, f);
    if (beside[0] != '\0')
        ls_report_say(p, 6, "printed: %s", beside);
    if (f->note != NULL && f->note != row->note)
        ls_report_say(p, 6, "%s", f->note);
}

static void cells(ls_report_page *p, const ls_row *row) {
    for (size_t i = 0; i < row->n; i++) {
        const ls_cell *cell = &row->cells[i];
        if (cell->figure != NULL)
            figure(p, cell->column, cell->figure, row);
        else
            ls_report_item(p, 4, "%s: %s", cell->column, cell->word);
    }
    if (row->note != NULL)
        ls_report_say(p, 4, "%s", row->note);
}

static void one_row(ls_report_page *p, const ls_row *row) {
    const char *known = known_by(p, row->source, row->status);
    ls_report_blank(p);
    if (row->own == NULL)
        ls_report_say(p, 2, "%s (%s)", row->name, known);
    else
        ls_report_say(p, 2, "%s (%s; the farm's own, %s)", row->name, known, row->own);
    cells(p, row);
    const ls_row *old = row->in_place_of;
    if (old == NULL)
        return;
    ls_report_say(
        p, 2,
        "- in place of the built-in row (%s), not used where the farm's own gives the figure:",
        known_by(p, old->source, old->status));
    cells(p, old);
}

static bool names_source(const ls_table *t, const ls_source *s) {
    for (size_t r = 0; r < t->n; r++) {
        if (t->rows[r].source == s)
            return true;
        for (size_t c = 0; c < t->rows[r].n; c++)
            if (t->rows[r].cells[c].figure != NULL && t->rows[r].cells[c].figure->source == s)
                return true;
    }
    return false;
}

/* Is it asked for by its id, by its kind, or by its name as a farm file writes it? */
static bool is_asked(const ls_table *t, const char *name) {
    return ls_text_same(t->id, name) || ls_text_same(t->kind, name) ||
           (t->name[0] != '\0' && ls_text_same(t->name, name));
}

/* The tables asked for and their sources; false if there are none. */
static bool asked_tables(ls_report_page *p, const char *name) {
    const ls_reference *r = p->view->reference;
    bool any = false;
    for (size_t i = 0; ls_reference_at(r, i) != NULL; i++) {
        const ls_table *t = ls_reference_at(r, i);
        if (!is_asked(t, name))
            continue;
        any = true;
        ls_report_heading(p, "%s: %s", t->id, t->title);
        for (size_t k = 0; k < t->n; k++)
            one_row(p, &t->rows[k]);
    }
    return any;
}

static void asked_sources(ls_report_page *p, const char *name) {
    const ls_reference *r = p->view->reference;
    ls_report_heading(p, "SOURCES");
    for (size_t i = 0; ls_reference_source_at(r, i) != NULL; i++) {
        const ls_source *s = ls_reference_source_at(r, i);
        bool used = false;
        for (size_t k = 0; ls_reference_at(r, k) != NULL && !used; k++)
            used = is_asked(ls_reference_at(r, k), name) && names_source(ls_reference_at(r, k), s);
        if (used)
            source_words(p, s);
    }
}

/* A source by the id that pages print, with the tables that take figures from it; "common
 * practice". False: there is none. */
static bool asked_source(ls_report_page *p, const char *name) {
    const ls_reference *r = p->view->reference;
    const ls_source *s = ls_reference_source(r, name);
    const char *practice = ls_status_words(LS_PRACTICE);
    if (s == NULL && !ls_text_same(name, practice))
        return false;
    ls_report_heading(p, "%s", name);
    if (s == NULL)
        ls_report_say(p, 2,
                      "What the trade does and no source states: such a figure is a habit, "
                      "not a measurement.");
    else
        source_words(p, s);
    ls_report_blank(p);
    ls_report_say(p, 2, "Tables with figures of it:");
    for (size_t i = 0; ls_reference_at(r, i) != NULL; i++)
        if (names_source(ls_reference_at(r, i), s))
            ls_report_item(p, 4, "%s: %s", ls_reference_at(r, i)->id, ls_reference_at(r, i)->title);
    return true;
}

const char *ls_report_sources_text(const ls_view *v, const char *table) {
    ls_report_page *p =
        ls_report_begin(v, "Published tables in the program, and where they come from");
    ls_report_say(p, 0, "Tables %s of %s", ls_reference_version(v->reference),
                  ls_reference_date(v->reference));
    if (table == NULL) {
        all_tables(p);
        own_rows(p);
        all_sources(p);
    } else {
        if (asked_tables(p, table))
            asked_sources(p, table);
        else if (!asked_source(p, table))
            return NULL;
    }
    return ls_report_end(p);
}
