/* Checks among the keys of what limits a field: setbacks, phosphorus, caps of a season. */
#include "reader.h"

static const double pi = 3.14159265358979323846;

/* ---- setbacks ---- */

/* Area a setback takes by itself, in ft2. */
static double whole_area(const ls_setback *s) {
    double share = s->share.form ? s->share.value : 1;
    return s->edge.value * s->width.value + pi * s->radius.value * s->radius.value * share;
}

static void check_overlap(ls_farm_reader *reader, const ls_setback *setback) {
    double acre = ls_unit_of("ac").factor, whole = whole_area(setback);
    if (setback->overlap.form && setback->overlap.value > whole)
        LS_FARM_WRONG(reader, setback->overlap.at, "write the area that two setbacks share, once",
                      "the overlap is larger than the setback itself, which takes %s ac",
                      ls_number_text(reader->arena, whole / acre, 3));
}

void ls_farm_check_setback(ls_farm_reader *reader, void *section, bool clean) {
    const ls_setback *setback = section;
    bool strip = LS_GIVEN(setback->edge) || LS_GIVEN(setback->width);
    if (LS_GIVEN(setback->radius) && strip)
        LS_FARM_WRONG(reader, setback->radius.at, "keep edge and width for a strip, or radius for a circle",
                      "a setback is a strip or a circle, not both");
    else if (clean && strip && !(LS_GIVEN(setback->edge) && LS_GIVEN(setback->width)))
        LS_FARM_WRONG(reader, setback->at, "for example \"edge: 980 ft\" and \"width: 100 ft\"",
                      "a strip needs edge and width");
    else if (clean && !strip && !LS_GIVEN(setback->radius))
        LS_FARM_WRONG(reader, setback->at, "give edge and width for a strip, or radius for a circle",
                      "this setback has no size");
    else if (LS_GIVEN(setback->share) && strip)
        LS_FARM_WRONG(reader, setback->share.at, "for a strip write the length of the edge that lies along the field",
                      "share goes with radius: how much of the circle lies in the field");
    else if (clean)
        check_overlap(reader, setback);
}

/* Area that setbacks take, in ft2. */
static double setback_area(const ls_field *field) {
    double area = 0;
    for (size_t i = 0; i < field->setbacks.n; i++)
        area += whole_area(&field->setbacks.at[i]) - field->setbacks.at[i].overlap.value;
    return area;
}

void ls_farm_check_area(ls_farm_reader *reader, const ls_field *field) {
    double taken = setback_area(field), acre = ls_unit_of("ac").factor;
    if (field->setbacks.n == 1 && field->setbacks.at[0].overlap.form)
        LS_FARM_WRONG(reader, field->setbacks.at[0].overlap.at, "take it out, or add the setback it overlaps with",
                      "there is one setback only: it cannot overlap with another");
    if (field->area.form && taken >= field->area.value)
        ls_diag_add(reader->diag, LS_WARNING, field->area.at,
                    "nothing can be spread on it as written: check edges, widths and radii",
                    "%s has no area left: %s ac, of which setbacks take %s ac",
                    ls_farm_called(reader->arena, "field", field->name),
                    ls_number_text(reader->arena, field->area.value / acre, 4),
                    ls_number_text(reader->arena, taken / acre, 4));
}

/* ---- phosphorus ---- */

void ls_farm_check_ledger_year(ls_farm_reader *reader, void *section, bool clean) {
    const ls_ledger_year *line = section;
    bool share = line->P2O5.form && ls_dimension_none(line->P2O5.unit.dimension);
    if (clean && LS_GIVEN(line->litter) && !LS_GIVEN(line->P2O5))
        LS_FARM_WRONG(reader, line->litter.at,
                      "add what was applied, \"P2O5: 110 lb/ac\", or what the litter held, \"P2O5: 55 "
                      "lb/ton\"; the plan writer's records or the lab report of that year say it",
                      "this litter brought phosphate, and the ledger does not say how much");
    else if (clean && share && !LS_GIVEN(line->litter))
        LS_FARM_WRONG(reader, line->P2O5.at, "add \"litter: 2 ton/ac\", or write what was applied: \"P2O5: 110 lb/ac\"",
                      "phosphate in a ton of litter needs the tons applied");
}

void ls_farm_check_phosphorus(ls_farm_reader *reader, void *section, bool clean) {
    const ls_phosphorus *phosphorus = section;
    (void)clean;
    if (LS_GIVEN(phosphorus->bank) && phosphorus->rating.is && phosphorus->rating.is != LS_RATING_HIGH)
        LS_FARM_WRONG(reader, phosphorus->bank.at, "take it out, or check the rating",
                      "bank goes with the rating high, not with %s", ls_rating_name(phosphorus->rating.is));
    for (size_t i = 0; i < phosphorus->ledger.n; i++)
        for (size_t k = 0; k < i; k++)
            if (phosphorus->ledger.at[i].year.n >= 0 &&
                phosphorus->ledger.at[k].year.n == phosphorus->ledger.at[i].year.n)
                LS_FARM_WRONG(reader, phosphorus->ledger.at[i].year.at,
                              "write one line a year, with all that was applied and all that was "
                              "taken off added up",
                              "the phosphorus ledger has two lines for %ld", phosphorus->ledger.at[i].year.n);
}

/* A year of the ledger in which phosphate is said to have gone on; NULL: there is none. */
static const ls_ledger_year *put_on(const ls_phosphorus *p, long year) {
    for (size_t i = 0; p && i < p->ledger.n; i++)
        if (p->ledger.at[i].year.n == year && LS_GIVEN(p->ledger.at[i].P2O5)) return &p->ledger.at[i];
    return NULL;
}

void ls_farm_check_ledger(ls_farm_reader *reader, const ls_field *field) {
    long crop = ls_farm_crop_year(NULL, field);
    const ls_phosphorus *p = field->phosphorus;
    for (size_t i = 0; crop != 0 && p && i < p->ledger.n; i++)
        if (p->ledger.at[i].year.n >= crop)
            LS_FARM_WRONG(reader, p->ledger.at[i].year.at,
                          ls_arena_printf(reader->arena,
                                          "the litter now planned is for the crop of %ld; list only years "
                                          "before it",
                                          crop),
                          "the phosphorus ledger cannot hold %ld yet", p->ledger.at[i].year.n);
    for (size_t i = 0; i < field->earlier_litter.n; i++) {
        const ls_earlier *e = &field->earlier_litter.at[i];
        long year = LS_GIVEN(e->for_crop) ? e->for_crop.n : e->year.n;
        if (LS_GIVEN(e->P2O5) && put_on(p, year))
            LS_FARM_WRONG(reader, e->P2O5.at, "keep it in one of them, here or in the ledger",
                          "the phosphate of %ld stands here and in the phosphorus ledger", year);
    }
}
