/* Phosphate that the harvest takes off the field, and what of it the rating lets go on. */
#include "room.h"

#include <string.h>

/* The row of a removal table that serves a crop. */
typedef struct {
    const ls_table *table;
    const ls_row *row; /* NULL: none serves */
} found;

static bool is_pasture(const ls_field *f) { return f->crop.text != NULL && ls_text_ends(f->crop.text, " pasture"); }

/* Of the tables of one kind of status (memory or not), or of the one table, the first row under the likest name. */
static found search(const ls_agronomy *g, const ls_table *only, bool memory, const char *const *names, size_t n) {
    const ls_table *t;
    for (size_t k = 0; k < n; k++)
        for (size_t i = 0; (t = ls_reference_at(g->reference, i)) != NULL; i++) {
            if (strcmp(t->kind, "removal") != 0 || (only != NULL && t != only)) continue;
            const ls_row *row = ls_table_row(t, names[k]);
            if (ls_row_figure(row, "P2O5") != NULL && (row->status == LS_MEMORY) == memory) return (found){t, row};
        }
    return (found){NULL, NULL};
}

/* A table that the farm names is used as named; else figures from memory serve only where no other does. */
static found find(ls_agronomy *g, const char *crop) {
    const char *names[LS_CROP_NAMES];
    size_t n = ls_crop_names(g->arena, crop, names);
    found read = search(g, g->removal, false, names, n);
    return read.row != NULL ? read : search(g, g->removal, true, names, n);
}

/* The removal tables that hold the crop: "us-crops, awmfh"; "" if none does. */
static const char *tables_with(ls_agronomy *g, const char *crop) {
    const char *names[LS_CROP_NAMES];
    size_t n = ls_crop_names(g->arena, crop, names);
    ls_text *t = ls_text_new(g->arena);
    const ls_table *of;
    for (size_t i = 0; (of = ls_reference_at(g->reference, i)) != NULL; i++)
        if (search(g, of, false, names, n).row != NULL || search(g, of, true, names, n).row != NULL)
            ls_text_addf(t, "%s%s", t->n > 0 ? ", " : "", of->name);
    return t->s;
}

static bool removal_missing(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    const ls_field *f = p->field;
    const char *crop = f->crop.text == NULL ? "the crop" : f->crop.text, *others = tables_with(g, crop);
    const char *hint = others[0] != '\0'
                           ? ls_arena_printf(g->arena, "these have it: %s; name one as removal: under tables", others)
                           : "add a row for it in a table of your own (own_tables), or give the field's "
                             "phosphorus rating if it is low or medium";
    const char *lacks = g->removal == NULL
                            ? "no removal table has"
                            : ls_arena_printf(g->arena, "the removal table %s does not have", g->removal->name);
    LS_AGRONOMY_WRONG(g, f->crop.at, hint, "%s %s, and the phosphorus limit needs it", lacks, crop);
    return false;
}

/* The animals that graze the field; NULL: none do. */
static const char *grazed_by(const ls_field *f) {
    return f->use.is == LS_GRAZED_DAIRY ? "dairy" : f->use.is == LS_GRAZED_BEEF || is_pasture(f) ? "beef" : NULL;
}

ls_line ls_agronomy_removed(const ls_agronomy_plot *p, int nutrient) {
    const char *name = ls_field_nutrient[nutrient], *animals = grazed_by(p->field);
    const ls_figure *per_unit = ls_row_figure(p->removal, name);
    ls_worksheet *w = ls_part(p->w, NULL, "removal");
    ls_line unit = ls_leaf_figure(w, ls_printf(w, "%s_per_unit", name),
                                  ls_printf(w, "%s in %s", name, p->removal->name), per_unit->unit.text, per_unit);
    ls_line share = animals == NULL ? p->g->one
                                    : ls_leaf_figure(w, nutrient == LS_FIELD_P2O5 ? "grazed" : "grazed_K2O",
                                                     ls_printf(w, "share of %s that grazing animals keep", name), "%",
                                                     ls_reference_need(p->g->reference, "grazing", "", animals, name));
    const ls_line of[] = {ls_agronomy_yield(p), unit, share};
    return ls_product(
        w, name, ls_printf(w, "%s %s in a year", name, animals == NULL ? "the crop removes" : "that grazing removes"),
        "lb/ac", of, animals == NULL ? 2 : 3);
}

/* A year's removal by a row, and what is to be known of that. */
static void year_of_removal(ls_agronomy_plot *p, found of) {
    int use = p->field->use.is;
    if (is_pasture(p->field) && use != LS_GRAZED_BEEF && use != LS_GRAZED_DAIRY)
        ls_agronomy_flag(p, "a pasture without use: taken as grazed by beef");
    p->removal = of.row;
    p->out->removal_P2O5 = ls_agronomy_removed(p, LS_FIELD_P2O5);
    if (p->g->removal == NULL) ls_agronomy_flag(p, "no removal table named: %s is used", of.table->name);
    if (of.row->status == LS_MEMORY)
        ls_agronomy_flag(p, "what %s removes (%s) is from memory", of.row->name, of.table->name);
    if (strcmp(of.row->name, p->field->crop.text) != 0)
        ls_agronomy_flag(p, "the removal of %s (%s) stands for %s", of.row->name, of.table->name, p->field->crop.text);
}

static bool wrong_yield(ls_agronomy_plot *p, found of) {
    LS_AGRONOMY_WRONG(p->g, p->field->yield.at, "give the yield in the unit that is usual for the crop",
                      "the removal of %s is printed as %s: the yield does not fit that", of.row->name,
                      ls_row_figure(of.row, "P2O5")->unit.text);
    return false;
}

/* P2O5 that the rating allows: removal x banked years if high; none if very high. */
static void allow(ls_agronomy_plot *p, int rating) {
    const ls_phosphorus *rated = p->field->phosphorus;
    ls_worksheet *w = ls_part(p->w, NULL, "phosphorus");
    if (rating == LS_RATING_VERY_HIGH)
        p->phosphate = ls_leaf(w, "allowed", "P2O5 the rating allows", "lb/ac", 0, ls_spread_exact(),
                               (ls_origin){LS_BY_FARM, rated->rating.at, NULL, "rated very high: no litter"});
    else if (rating == LS_RATING_HIGH && LS_GIVEN(rated->bank)) {
        ls_line bank = ls_leaf_given(w, "bank", "years allowed at once", "years", &rated->bank);
        ls_line years = ls_quotient(w, "years", "number of those years", "", bank, p->g->one_year);
        p->phosphate = LS_PRODUCT(w, "allowed", "P2O5 the rating allows, banked", "lb/ac", p->out->removal_P2O5, years);
    } else
        p->phosphate = ls_same(w, "allowed", "P2O5 the rating allows", "lb/ac", p->out->removal_P2O5);
}

static bool removal_of_crop(ls_agronomy_plot *p, bool governs) {
    const ls_field *f = p->field;
    found of = f->crop.text == NULL ? (found){NULL, NULL} : find(p->g, f->crop.text);
    bool fits = of.row != NULL && ls_agronomy_fits(ls_row_figure(of.row, "P2O5"), &f->yield);
    if (governs && of.row == NULL) return removal_missing(p);
    if (governs && !fits) return wrong_yield(p, of);
    if (fits) year_of_removal(p, of);
    return true;
}

bool ls_agronomy_removal(ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    int rating = f->phosphorus == NULL ? 0 : f->phosphorus->rating.is;
    bool governs = rating == 0 || rating == LS_RATING_HIGH;
    if (f->use.is == LS_COVER)
        p->out->removal_P2O5 =
            ls_leaf(p->w, "removal.P2O5", "P2O5 the crop removes in a year", "lb/ac", 0, ls_spread_exact(),
                    (ls_origin){LS_BY_FARM, f->use.at, NULL, "not harvested: nothing leaves"});
    else if (!removal_of_crop(p, governs))
        return false;
    if (rating == 0) ls_agronomy_flag(p, "no phosphorus rating: treated as high, with one year's removal");
    if (governs || rating == LS_RATING_VERY_HIGH) allow(p, rating);
    return true;
}
