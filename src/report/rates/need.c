/* The need of a field on the rates page: crop, soil test, need, credits one by one; and what to buy
 * after the litter. */
#include "rates.h"

static const ls_report_column nutrient_columns[] = {
    {"", 40, true}, {"N", 9, false}, {"P2O5", 9, false}, {"K2O", 9, false}};
enum { NUTRIENT_COLUMNS = sizeof nutrient_columns / sizeof *nutrient_columns, NAME = 40 };

static const char *const names[LS_FIELD_NUTRIENTS] = {"N", "P2O5", "K2O"};

void ls_report_nutrients(ls_report_page *p, const char *label,
                         const ls_line lines[LS_FIELD_NUTRIENTS], const char *none) {
    const char *cells[NUTRIENT_COLUMNS] = {label};
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++)
        cells[i + 1] = lines[i] == LS_NO_LINE ? none : ls_report_line_number(p, lines[i], "lb/ac");
    ls_report_row(p, nutrient_columns, NUTRIENT_COLUMNS, cells);
}

void ls_report_nutrient_heads(ls_report_page *p, const char *what) {
    const char *cells[NUTRIENT_COLUMNS] = {
        ls_arena_printf(p->arena, "%s%s", what, ls_report_unit(p, "lb/ac"))};
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++)
        cells[i + 1] = names[i];
    ls_report_row(p, nutrient_columns, NUTRIENT_COLUMNS, cells);
}

/* ---- crop and soil ---- */

static void crop(ls_report_page *p, const ls_field_rates *field) {
    const ls_field *f = field->field;
    ls_text *t = ls_text_new(p->arena);
    ls_text_addf(t, "Crop: %s", ls_report_name(p, f->crop.text, NAME));
    if (f->use.is > LS_CUT)
        ls_text_addf(t, ", %s", ls_use_name(f->use.is));
    if (LS_GIVEN(f->yield)) {
        ls_unit unit = p->view->metric ? ls_unit_metric(f->yield.unit) : f->yield.unit;
        ls_text_addf(t, ", %s %s expected",
                     ls_number_text(p->arena, f->yield.value / unit.factor, 3), unit.text);
    }
    ls_report_say(p, 2, "%s.", t->s);
}

static void tested(const ls_report_page *p, ls_text *t, const char *element, ls_line line,
                   const char *class) {
    ls_text_addf(t, " %s %s%s%s", element, ls_report_line(p, line, "lb/ac"),
                 class == NULL ? "" : ", ", class == NULL ? "" : class);
}

static void soil(ls_report_page *p, const ls_field_rates *field) {
    const ls_soil *s = field->field->soil;
    if (s == NULL || field->soil_P == LS_NO_LINE || field->soil_K == LS_NO_LINE)
        return;
    ls_text *t = ls_text_new(p->arena);
    ls_text_addf(t, "Soil test of %s%s%s:", ls_date_iso(p->arena, s->date.day),
                 s->method.text == NULL ? "" : ", ",
                 s->method.text == NULL ? "" : ls_report_name(p, s->method.text, NAME));
    tested(p, t, "P", field->soil_P, field->P_class);
    ls_text_add(t, ";");
    tested(p, t, "K", field->soil_K, field->K_class);
    ls_report_say(p, 2, "%s.", t->s);
    if (ls_dimension_none(s->P.unit.dimension) || ls_dimension_none(s->K.unit.dimension))
        ls_report_say(p, 4,
                      "Tests in ppm count twice as many lb/ac: a furrow slice of 6 2/3 in is "
                      "taken as 2,000,000 lb/ac (common practice).");
}

/* ---- need ---- */

/* Sources of the table figures that a line is made of, at most two levels down, each once. */
static void add_sources(const ls_report_page *p, ls_text *t, ls_line line, int levels) {
    const ls_entry *e = ls_line_at(p->view->sheet, line);
    const ls_figure *f = e->origin.kind == LS_BY_TABLE ? e->origin.figure : NULL;
    if (f != NULL) {
        const char *id = f->source == NULL ? ls_status_words(f->status) : f->source->id;
        if (strstr(t->s, id) == NULL)
            ls_text_addf(t, "%s%s%s", t->n > 0 ? ", " : "", id,
                         f->source != NULL && f->status == LS_MEMORY ? ", from memory" : "");
    }
    for (size_t i = 0; levels > 0 && i < e->n; i++)
        add_sources(p, t, e->in[i], levels - 1);
}

/* Where a need comes from, and how it is reckoned. */
static void basis(ls_report_page *p, const char *name, ls_line line) {
    const ls_worksheet *w = p->view->sheet;
    const ls_entry *e = ls_line_at(w, line);
    if (e == NULL)
        return;
    if (e->origin.kind == LS_BY_FARM) {
        ls_report_item(p, 4, "%s: as the farm file gives it (%s)", name,
                       ls_diag_where(p->arena, p->view->farm->diag, e->origin.at));
        return;
    }
    ls_text *sources = ls_text_new(p->arena);
    add_sources(p, sources, line, 2);
    const char *formula = ls_line_formula(p->arena, w, line);
    ls_text *t = ls_text_new(p->arena);
    if (e->op == LS_OP_LEAF || e->op == LS_OP_INTERPOLATE)
        ls_text_add(t, e->label);
    if (formula[0] != '\0' && e->op != LS_OP_INTERPOLATE)
        ls_text_add(t, formula);
    if (e->op == LS_OP_INTERPOLATE)
        ls_text_addf(t, ", here %s",
                     ls_report_whole(p, ls_line_value(w, e->in[0]), ls_line_at(w, e->in[0])->unit));
    else if (formula[0] != '\0' && !p->view->metric)
        ls_text_addf(t, " = %s", ls_line_numbers(p->arena, w, line));
    if (sources->n > 0)
        ls_text_addf(t, " (%s)", sources->s);
    ls_report_item(p, 4, strncmp(t->s, name, strlen(name)) == 0 ? "%.0s%s" : "%s: %s", name, t->s);
}

/* A figure of water or earlier litter is made of others: how. */
static void credit_basis(ls_report_page *p, const ls_credit *credit) {
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++) {
        const char *numbers = ls_line_numbers(p->arena, p->view->sheet, credit->gives[k]);
        if (numbers[0] != '\0' && !p->view->metric)
            ls_report_item(p, 4, "%s, %s: %s", credit->name, names[k], numbers);
    }
}

static void credits(ls_report_page *p, const ls_field_rates *field) {
    if (field->credit_n == 0)
        ls_report_nutrients(p, "less credits (none given)", field->credits, "-");
    for (size_t i = 0; i < field->credit_n; i++)
        ls_report_nutrients(
            p, ls_arena_printf(p->arena, "less %s", ls_report_name(p, field->credit[i].name, 36)),
            field->credit[i].gives, "");
}

/* What a harvest removes, and how that is reckoned. */
static void removal(ls_report_page *p, const ls_field_rates *field) {
    ls_line line = field->removal_P2O5;
    if (line == LS_NO_LINE)
        return;
    ls_text *sources = ls_text_new(p->arena);
    add_sources(p, sources, line, 2);
    ls_report_item(p, 4, "P2O5 a harvest removes: %s%s%s (%s)", ls_report_line(p, line, "lb/ac"),
                   p->view->metric ? "" : " = ",
                   p->view->metric ? "" : ls_line_numbers(p->arena, p->view->sheet, line),
                   sources->s);
}

static void unknown_needs(ls_report_page *p, const ls_field_rates *field) {
    bool phosphate = field->need[LS_FIELD_P2O5] == LS_NO_LINE,
         potash = field->need[LS_FIELD_K2O] == LS_NO_LINE;
    if (phosphate || potash)
        ls_report_item(p, 4,
                       "%s%s%s: the need is unknown, so none is reckoned to buy; add what the soil "
                       "laboratory recommends, as %s%s%s",
                       phosphate ? "P2O5" : "", phosphate && potash ? ", " : "",
                       potash ? "K2O" : "", phosphate ? "phosphate: 40 lb/ac" : "",
                       phosphate && potash ? " and " : "", potash ? "potash: 80 lb/ac" : "");
}

void ls_report_need(ls_report_page *p, const ls_field_rates *field) {
    crop(p, field);
    soil(p, field);
    ls_report_nutrient_heads(p, "");
    ls_report_nutrients(p, "The crop needs", field->need, "unknown");
    credits(p, field);
    ls_report_nutrients(p, "Left to give", field->left, "unknown");
    for (int k = 0; k < LS_FIELD_NUTRIENTS; k++)
        basis(p, names[k], field->need[k]);
    unknown_needs(p, field);
    removal(p, field);
    bool phosphate = false;
    for (size_t i = 0; i < field->credit_n; i++) {
        credit_basis(p, &field->credit[i]);
        phosphate = phosphate || field->credit[i].gives[LS_FIELD_P2O5] != LS_NO_LINE;
    }
    if (phosphate && field->phosphate != LS_NO_LINE)
        ls_report_item(p, 4,
                       "P2O5 of fertilizer comes off what the phosphorus rating lets go on, "
                       "too");
}

/* ---- what to buy ---- */

static const ls_report_column buy_columns[] = {{"", 40, true}, {"", 9, false}, {"", 20, false}};
enum { BUY_COLUMNS = sizeof buy_columns / sizeof *buy_columns };

bool ls_report_is_bought(const ls_report_page *p, const ls_bought *b) {
    const double least = 0.05; /* lb/ac: less is what rounding leaves */
    return ls_line_value(p->view->sheet, b->per_acre) >= least * ls_unit_of("lb/ac").factor;
}

/* Where the rating bounds phosphorus, bought phosphate is bound by it too. */
static void rated_phosphorus(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate) {
    ls_line lacks = rate->short_of[LS_FIELD_P2O5];
    if (field->phosphate != LS_NO_LINE && lacks != LS_NO_LINE &&
        ls_line_value(p->view->sheet, lacks) > 0)
        ls_report_say(p, 4,
                      "The phosphorus rating binds bought phosphate too: ask who rated the "
                      "field before buying any.");
}

void ls_report_buy(ls_report_page *p, const ls_field_rates *field, const ls_rate *rate) {
    const ls_bought *unpriced = NULL;
    size_t n = 0;
    for (size_t i = 0; i < rate->bought_n; i++) {
        const ls_bought *b = &rate->bought[i];
        if (!ls_report_is_bought(p, b))
            continue;
        if (n++ == 0)
            ls_report_row(
                p, buy_columns, BUY_COLUMNS,
                (const char *[]){"To buy, to finish the need", ls_report_unit(p, "lb/ac"),
                                 ls_arena_printf(p->arena, "%s on %s", ls_report_unit(p, "lb"),
                                                 ls_report_line(p, field->spreadable, "ac"))});
        ls_report_row(
            p, buy_columns, BUY_COLUMNS,
            (const char *[]){ls_arena_printf(p->arena, "  %s", ls_report_name(p, b->product, 36)),
                             ls_report_line_number(p, b->per_acre, "lb/ac"),
                             ls_report_line_number(p, b->on_field, "lb")});
        unpriced = b->priced ? unpriced : b;
    }
    if (n == 0)
        ls_report_say(p, 2, "To buy: nothing; nothing that is known is short.");
    if (unpriced != NULL && p->view->farm->fertilizer.n > 0)
        ls_report_say(p, 4, "%s is not among the farm's prices.",
                      ls_report_name(p, unpriced->product, NAME));
    rated_phosphorus(p, field, rate);
}
