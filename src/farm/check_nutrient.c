/* Checks of what feeds a field besides the litter, and of soil tests against the soil table. */
#include "reader.h"

#include <string.h>

/* "18-46-0": three shares in percent, together more than 0 and at most 100. */
static bool read_grade(const char *grade, double holds[3]) {
    double sum = 0;
    for (size_t i = 0; i < 3; i++) {
        size_t n = strcspn(grade, "-");
        if (!ls_number_parse(grade, n, &holds[i]) || (grade[n] == '-') != (i < 2)) return false;
        holds[i] /= 100;
        sum += holds[i];
        grade += n + (i < 2);
    }
    return sum > 0 && sum <= 1;
}

void ls_farm_check_fertilized(ls_farm_reader *reader, void *section, bool clean) {
    ls_fertilized *f = section;
    (void)clean;
    if (!LS_GIVEN(f->product) && f->grade.text && !read_grade(f->grade.text, f->holds))
        LS_FARM_WRONG(reader, f->grade.at, "write the percent of N, P2O5 and K2O as on the bag: \"grade: 18-46-0\"",
                      "\"%s\" is not a grade", f->grade.text);
}

void ls_farm_check_twice(ls_farm_reader *reader, const ls_field *field) {
    const ls_credits *c = field->credits;
    if (c && LS_GIVEN(c->irrigation) && field->irrigation)
        LS_FARM_WRONG(reader, c->irrigation.at, "keep one of them",
                      "the nitrogen in irrigation water is given twice: here and under irrigation");
    for (size_t i = 0; c && LS_GIVEN(c->starter) && i < field->fertilizer.n; i++)
        if (ls_text_same(field->fertilizer.at[i].purpose.text, "starter"))
            LS_FARM_WRONG(reader, c->starter.at, "keep one of them",
                          "the starter is given twice: here and under fertilizer");
}

/* ---- the method of a soil test ---- */

/* Is there a recommended rate of the nutrient for the crop in any class? */
static bool has_rates(const ls_reference *r, const char *crop, const char *nutrient) {
    for (size_t i = 0; ls_reference_at(r, i) != NULL; i++) {
        const ls_table *t = ls_reference_at(r, i);
        size_t n = strlen(crop), m = strlen(nutrient);
        for (size_t k = 0; strcmp(t->kind, "recommended") == 0 && k < t->n; k++) {
            const char *row = t->rows[k].name;
            if (strncmp(row, crop, n) == 0 && row[n] == ' ' && strncmp(row + n + 1, nutrient, m) == 0 &&
                row[n + 1 + m] == ' ')
                return true;
        }
    }
    return false;
}

/* Would a need be read off the soil test by the soil table? */
static bool wants_class(const ls_reference *r, const ls_field *f) {
    return f->crop.text &&
           ((!LS_GIVEN(f->phosphate) && !LS_GIVEN(f->soil->P_class) && has_rates(r, f->crop.text, "P2O5")) ||
            (!LS_GIVEN(f->potash) && !LS_GIVEN(f->soil->K_class) && has_rates(r, f->crop.text, "K2O")));
}

static void check_method(ls_farm_reader *reader, const ls_table *soil, const ls_field *f) {
    const char *method = f->soil ? f->soil->method.text : NULL,
               *classed = ls_row_word(ls_table_row(soil, "P"), "method");
    ls_arena *a = reader->arena;
    if (!method || !classed || !wants_class(reader->reference, f) ||
        strcmp(ls_text_slug(a, method), ls_text_slug(a, classed)) == 0)
        return;
    ls_diag_add(reader->diag, LS_WARNING, f->soil->method.at,
                "add what the laboratory recommends, as phosphate: and potash:. Or add the class its "
                "report prints, as P_class: and K_class:. Or name a soil table of that method",
                "the soil classes of %s are for %s, not for %s: no phosphate or potash need is "
                "read from this test",
                soil->name, classed, method);
}

/* ---- the tables the farm names ---- */

static bool has_shares(const ls_table *t) {
    const ls_row *row = ls_table_row(t, "factors");
    return ls_row_figure(row, "P") != NULL && ls_row_figure(row, "K") != NULL;
}

static void check_shares(ls_farm_reader *reader, const ls_name *chosen) {
    const ls_reference *r = reader->reference;
    const ls_table *t = ls_reference_table(r, "nitrogen", chosen->text);
    if (t == NULL || has_shares(t)) return;
    ls_text *others = ls_text_new(reader->arena);
    for (size_t i = 0; ls_reference_at(r, i) != NULL; i++)
        if (strcmp(ls_reference_at(r, i)->kind, "nitrogen") == 0 && has_shares(ls_reference_at(r, i)))
            ls_text_addf(others, "%s%s", others->n > 0 ? ", " : "", ls_reference_at(r, i)->name);
    LS_FARM_WRONG(reader, chosen->at,
                  ls_arena_printf(reader->arena, "these say it: %s; left out, all of both counts", others->s),
                  "the table %s does not say how much phosphate and potash counts", chosen->text);
}

void ls_farm_check_nutrient_tables(ls_farm_reader *reader, const ls_farm *farm) {
    if (farm->tables == NULL) return;
    if (farm->tables->phosphate_and_potash.text) check_shares(reader, &farm->tables->phosphate_and_potash);
    const char *chosen = farm->tables->soil.text;
    const ls_table *soil = chosen ? ls_reference_table(reader->reference, "soil", chosen) : NULL;
    for (size_t i = 0; soil && i < farm->buyers.n; i++)
        for (size_t k = 0; k < farm->buyers.at[i].fields.n; k++)
            check_method(reader, soil, &farm->buyers.at[i].fields.at[k]);
}

/* ---- crops in the tables of removal ---- */

size_t ls_crop_names(ls_arena *a, const char *crop, const char *names[LS_CROP_NAMES]) {
    static const char pasture[] = " pasture", hay[] = " hay";
    size_t n = 0, length = strlen(crop), p = sizeof pasture - 1, h = sizeof hay - 1;
    bool grazed = length > p && strcmp(crop + length - p, pasture) == 0;
    bool cut = length > h && strcmp(crop + length - h, hay) == 0;
    names[n++] = crop;
    if (grazed) names[n++] = ls_arena_printf(a, "%.*s hay", (int)(length - p), crop);
    if ((grazed || cut) && (strstr(crop, "grass") != NULL || strstr(crop, "fescue") != NULL)) names[n++] = "grass hay";
    return n;
}
