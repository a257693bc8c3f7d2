/* The need of a field on the page of rates: crop, soil test, need, credits one by one. */
#include "rates.h"

#include "report/figure.h"

#include <math.h>
#include <string.h>

LS_DOC_COLUMNS(nutrient_columns, HEAD(NULL), IN("N", "N", "lb/ac"), IN("P2O5", "P2O5", "lb/ac"),
               IN("K2O", "K2O", "lb/ac"));

ls_doc_table ls_rates_nutrients(ls_doc_group *g, ls_doc_level level, const char *caption) {
    return LS_DOC_TABLE_IN(g, level, NULL, caption, nutrient_columns);
}

void ls_rates_nutrient_row(ls_doc_table t, ls_doc_level level, const char *key, const char *label,
                           const ls_line lines[LS_FIELD_NUTRIENTS], bool unknown) {
    ls_doc_cell cells[LS_FIELD_NUTRIENTS];
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++) cells[i] = !lines[i] && unknown ? V(NAN, NULL) : L(lines[i]);
    LS_DOC_GRID_ROW(t, nutrient_columns, level, key, W(label), cells[LS_FIELD_N], cells[LS_FIELD_P2O5],
                    cells[LS_FIELD_K2O]);
}

static void soil(ls_doc_group *g, const ls_field_rates *field) {
    const ls_soil *s = field->field->soil;
    if (s == NULL || !field->soil_P || !field->soil_K) return;
    SAY(g, LS_FULL, "Soil test of {}{}: P {}{}; K {}{}.", DAY(s->date.day), OPTIONAL(", {}", W(s->method.text)),
        F(field->soil_P, "lb/ac"), OPTIONAL(", {}", W(field->P_class)), F(field->soil_K, "lb/ac"),
        OPTIONAL(", {}", W(field->K_class)));
    if (ls_dimension_none(s->P.unit.dimension) || ls_dimension_none(s->K.unit.dimension))
        SAY(g, LS_FULL,
            "Tests in ppm count twice as many lb/ac: a furrow slice of 6 2/3 in is taken as "
            "2,000,000 lb/ac (common practice).");
}

/* ---- how a figure came about ---- */

/* Sources of the table figures that a line is made of, at most two levels down, each once. */
static void add_sources(const ls_worksheet *w, ls_text *t, ls_line line, int levels) {
    const ls_entry *e = ls_line_at(w, line);
    const ls_figure *f = e->origin.kind == LS_BY_TABLE ? e->origin.figure : NULL;
    if (f != NULL) {
        const char *id = f->source == NULL ? ls_status_words(f->status) : f->source->id;
        if (strstr(t->s, id) == NULL)
            ls_text_addf(t, "%s%s%s", t->n > 0 ? ", " : "", id,
                         f->source != NULL && f->status == LS_MEMORY ? ", from memory" : "");
    }
    for (size_t i = 0; levels > 0 && i < e->n; i++) add_sources(w, t, e->in[i], levels - 1);
}

const char *ls_rates_source(const ls_worksheet *w, ls_line line) {
    const ls_origin *origin = &ls_line_at(w, line)->origin;
    const ls_figure *f = origin->figure;
    return origin->kind == LS_BY_FARM ? "the farm file"
           : f == NULL                ? "worked out"
           : f->source == NULL        ? ls_status_words(f->status)
                                      : f->source->id;
}

const char *ls_rates_sources(const ls_doc_group *g, ls_line line) {
    ls_text *t = ls_text_new(g->document->arena);
    add_sources(g->document->view->sheet, t, line, 2);
    return t->s;
}

/* " (ipni, from memory)"; "" if it is made of no table figure. */
static const char *sources(const ls_doc_group *g, ls_line line) {
    const char *s = ls_rates_sources(g, line);
    return s[0] == '\0' ? s : ls_arena_printf(g->document->arena, " (%s)", s);
}

/* "5 ton/ac x 12 lb/ton", in the units of the lines; "" of a leaf, and on a metric page. */
static const char *numbers(const ls_doc_group *g, ls_line line) {
    const ls_view *v = g->document->view;
    return v->metric ? "" : ls_line_numbers(g->document->arena, v->sheet, line);
}

/* How a need is reckoned. */
static const char *reckoned(const ls_doc_group *g, ls_line line) {
    const ls_view *v = g->document->view;
    ls_arena *a = g->document->arena;
    const ls_entry *e = ls_line_at(v->sheet, line);
    if (e->op == LS_OP_LEAF) return e->label;
    const ls_entry *at = e->op == LS_OP_INTERPOLATE ? ls_line_at(v->sheet, e->in[0]) : NULL;
    if (at != NULL)
        return ls_arena_printf(a, "%s, here %s", e->label, ls_doc_told(g->document, FINE(V(at->value, at->unit.text))));
    const char *n = numbers(g, line);
    return ls_arena_printf(a, "%s%s%s", ls_line_formula(a, v->sheet, line), n[0] == '\0' ? "" : " = ", n);
}

/* Where a need comes from, and how it is reckoned. */
static void basis(ls_doc_group *g, const char *name, ls_line line) {
    const ls_entry *e = ls_line_at(g->document->view->sheet, line);
    if (e == NULL) return;
    if (e->origin.kind == LS_BY_FARM) {
        ITEM(g, LS_FULL, "{}: as the farm file gives it ({})", W(name),
             W(ls_diag_where(g->document->arena, g->document->view->farm->diag, e->origin.at)));
        return;
    }
    const char *how = reckoned(g, line);
    bool named = strncmp(how, name, strlen(name)) == 0;
    ITEM(g, LS_FULL, "{}{}{}{}", W(named ? "" : name), W(named ? "" : ": "), W(how), W(sources(g, line)));
}

/* What a harvest removes, and how that is reckoned. */
static void removal(ls_doc_group *g, ls_line line) {
    if (!line) return;
    const char *n = numbers(g, line);
    ITEM(g, LS_FULL, "P2O5 a harvest removes: {}{}{}{}", F(line, "lb/ac"), W(n[0] == '\0' ? "" : " = "), W(n),
         W(sources(g, line)));
}

static void unknown_needs(ls_doc_group *g, const ls_field_rates *field) {
    bool phosphate = !field->need[LS_FIELD_P2O5], potash = !field->need[LS_FIELD_K2O], both = phosphate && potash;
    if (phosphate || potash)
        ITEM(g, LS_FULL,
             "{}: the need is unknown, so no fertilizer for it is listed. Write what the soil "
             "laboratory recommends for this field into its file, under {}.",
             W(both     ? "P2O5, K2O"
               : potash ? "K2O"
                        : "P2O5"),
             W(both     ? "phosphate and potash"
               : potash ? "potash"
                        : "phosphate"));
}

/* ---- credits ---- */

LS_DOC_COLUMNS(credit_columns, WORDS("name", "credit"), IN("N", "N", "lb/ac"), IN("P2O5", "P2O5", "lb/ac"),
               IN("K2O", "K2O", "lb/ac"));

static void credits(ls_doc_group *g, const ls_field_rates *field) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "credit_list", NULL, credit_columns);
    LS_EACH_OF (const ls_credit, c, field->credit, field->credit_n)
        LS_DOC_ROW(t, credit_columns, W(c->name), L(c->gives[LS_FIELD_N]), L(c->gives[LS_FIELD_P2O5]),
                   L(c->gives[LS_FIELD_K2O]));
}

/* A figure of water or earlier litter is made of others: how. */
static void credit_basis(ls_doc_group *g, const ls_field_rates *field) {
    bool phosphate = false;
    LS_EACH_OF (const ls_credit, c, field->credit, field->credit_n) {
        phosphate = phosphate || c->gives[LS_FIELD_P2O5];
        for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
            const char *n = numbers(g, c->gives[k]);
            if (n[0] != '\0') ITEM(g, LS_FULL, "{}, {}: {}", W(c->name), W(ls_field_nutrient[k]), W(n));
        }
    }
    if (phosphate && field->phosphate)
        ITEM(g, LS_FULL, "P2O5 of fertilizer comes off what the phosphorus rating allows, too");
}

/* Bushels of grain by their weight in metric; a yield that was given by weight as it was given. */
static ls_doc_cell yield_of(const ls_view *v, const ls_field *f) {
    const ls_figure *bushel =
        ls_row_figure(ls_table_row(ls_reference_by_id(v->reference, "bushel"), f->crop.text), "weight");
    if (f->yield.how != NULL && !v->metric) return W(f->yield.text);
    return bushel == NULL || !v->metric || f->yield.unit.dimension.power[LS_BUSHEL] == 0
               ? GIVEN(f->yield, f->yield.unit.text)
               : V(f->yield.value * bushel->value, "ton/ac");
}

void ls_rates_put_need(ls_doc_group *g, const ls_field_rates *field) {
    const ls_field *f = field->field;
    SAY(g, LS_FULL, "Crop: {}{}{}{}.", W(f->crop.text), OPTIONAL(", {}", W(f->grown.text)),
        OPTIONAL(", {}", W(f->use.is > LS_CUT ? ls_use_name(f->use.is) : NULL)),
        OPTIONAL(", {} expected", yield_of(g->document->view, f)));
    soil(g, field);
    ls_doc_table t = ls_rates_nutrients(g, LS_FULL, NULL);
    ls_rates_nutrient_row(t, LS_FULL, "need", "Crop needs", field->need, true);
    ls_rates_nutrient_row(t, LS_FULL, "credits", field->credit_n == 0 ? "Credits (none given)" : "Credits",
                          field->credits, false);
    ls_rates_nutrient_row(t, LS_FULL, "left", "Need after credits", field->left, true);
    credits(g, field);
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) basis(g, ls_field_nutrient[k], field->need[k]);
    unknown_needs(g, field);
    removal(g, field->removal_P2O5);
    credit_basis(g, field);
}
