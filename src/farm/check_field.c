/* Checks among the keys of buyers and fields. */
#include "reader.h"

#include <string.h>

void ls_farm_check_order(ls_farm_reader *reader, void *section, bool clean) {
    const ls_order *order = section;
    (void)clean;
    if (!order->least.form || !order->most.form)
        return;
    if (!ls_dimension_same(order->least.unit.dimension, order->most.unit.dimension))
        LS_FARM_WRONG(reader, order->most.at, "write both in loads or both in tons",
                      "least and most of an order need the same unit");
    else if (order->least.value > order->most.value)
        LS_FARM_WRONG(reader, order->least.at, "check both",
                      "the least of this order is above its most");
}

static void check_years(ls_farm_reader *reader, const ls_field *field) {
    long year = ls_farm_crop_year(field);
    if (year == 0)
        return;
    bool open = LS_GIVEN(field->open) && field->open.days.from != LS_NO_DATE;
    if (open && year < ls_date_year(field->open.days.from))
        LS_FARM_WRONG(reader, field->for_crop.at, "check the year and the open days",
                      "this crop is over before the field opens");
    for (size_t i = 0; i < field->earlier_litter.n; i++) {
        const ls_earlier *e = &field->earlier_litter.at[i];
        long fed = LS_GIVEN(e->for_crop) ? e->for_crop.n : e->year.n;
        if (LS_GIVEN(e->for_crop) && e->for_crop.n >= 0 && e->for_crop.n < e->year.n)
            LS_FARM_WRONG(reader, e->for_crop.at, "check both years",
                          "this litter was spread after the crop it was for");
        else if (fed >= year)
            LS_FARM_WRONG(
                reader, LS_GIVEN(e->for_crop) ? e->for_crop.at : e->year.at,
                ls_arena_printf(reader->arena,
                                "the litter now planned is for the crop of %ld; list here only "
                                "litter for crops before it",
                                year),
                "earlier litter cannot be for the crop of %ld", fed);
    }
}

/* A row for the crop in some table of the kind, NULL if there is none. */
static const ls_row *row_in_any(const ls_reference *r, const char *kind, const char *crop) {
    const ls_table *table;
    for (size_t i = 0; (table = ls_reference_at(r, i)) != NULL; i++)
        if (strcmp(table->kind, kind) == 0 && ls_table_row(table, crop))
            return ls_table_row(table, crop);
    return NULL;
}

/* Pounds in a unit of harvest by a table; NULL if none says. */
static const ls_figure *per_harvest(const ls_reference *r, const char *crop) {
    const ls_figure *need = ls_row_figure(row_in_any(r, "need", crop), "per_bu");
    return need ? need : ls_row_figure(row_in_any(r, "removal", crop), "N");
}

/* What the yield is asked for, NULL if it is not: a need by the crop table, or what the crop
 * removes. */
static const char *wants_yield(const ls_reference *r, const ls_field *field) {
    if (!field->phosphorus || field->phosphorus->rating.is == LS_RATING_HIGH)
        return "what the crop removes bounds its phosphorus";
    if (!LS_GIVEN(field->nitrogen) && row_in_any(r, "need", field->crop.text))
        return "the crop table gives nitrogen by yield";
    return NULL;
}

/* The unit in which the crop's tables count a harvest. */
static const char *harvest_unit(const ls_figure *figure) {
    const char *slash = strchr(figure->unit.text, '/');
    return slash ? slash + 1 : "ton";
}

static void check_crop(ls_farm_reader *reader, const ls_field *field, bool clean) {
    const char *crop = field->crop.text;
    if (!crop)
        return;
    const ls_figure *figure = per_harvest(reader->reference, crop);
    ls_dimension per_area = ls_unit_of("lb/ac").dimension;
    if (figure && field->yield.form &&
        !ls_dimension_same(
            ls_dimension_times(figure->unit.dimension, field->yield.unit.dimension, 1), per_area))
        LS_FARM_WRONG(reader, field->yield.at,
                      ls_arena_printf(reader->arena, "write it in %s/ac",
                                      ls_unit_many(reader->arena, harvest_unit(figure))),
                      "the tables count %s in %s, not in %s", crop, harvest_unit(figure),
                      field->yield.unit.text);
    if (clean && !LS_GIVEN(field->yield) && wants_yield(reader->reference, field))
        LS_FARM_WRONG(reader, field->at,
                      ls_arena_printf(reader->arena, "add it, for example \"yield: %s\"",
                                      figure && strcmp(harvest_unit(figure), "bu") == 0
                                          ? "165 bu/ac"
                                          : "3.5 ton/ac"),
                      "%s has no yield: %s", ls_farm_called(reader->arena, field),
                      wants_yield(reader->reference, field));
    if (clean && !LS_GIVEN(field->nitrogen) && !row_in_any(reader->reference, "need", crop))
        LS_FARM_WRONG(
            reader, field->crop.at,
            "add what the soil laboratory or the plan asks for, for example \"nitrogen: 120 "
            "lb/ac\"",
            "%s has no nitrogen, and no table says what %s needs",
            ls_farm_called(reader->arena, field), crop);
}

/* The crop as it came to be, against the crop as expected. */
static void check_harvest(ls_farm_reader *reader, const ls_field *f) {
    if (f->yield_got.form && f->yield.form &&
        !ls_dimension_same(f->yield_got.unit.dimension, f->yield.unit.dimension))
        LS_FARM_WRONG(reader, f->yield_got.at,
                      ls_arena_printf(reader->arena, "write it in %s",
                                      ls_unit_many(reader->arena, f->yield.unit.text)),
                      "the yield that was harvested is not counted like the expected one");
    if (ls_day_known(f->planted) && ls_day_known(f->harvested) && f->harvested.day < f->planted.day)
        LS_FARM_WRONG(reader, f->harvested.at, "check both dates",
                      "%s was harvested before it was planted", ls_farm_called(reader->arena, f));
}

void ls_farm_check_field(ls_farm_reader *reader, void *section, bool clean) {
    ls_field *field = section;
    ls_farm_check_area(reader, field);
    check_years(reader, field);
    ls_farm_check_twice(reader, field);
    ls_farm_check_ledger(reader, field);
    ls_farm_check_days(reader, field);
    check_crop(reader, field, clean);
    check_harvest(reader, field);
}

/* Tables of removal that hold the crop. */
static bool serves(ls_arena *a, const ls_table *removal, const char *crop) {
    const char *names[LS_CROP_NAMES];
    size_t n = ls_crop_names(a, crop, names);
    for (size_t i = 0; i < n; i++)
        if (ls_table_row(removal, names[i]))
            return true;
    return false;
}

static const char *removal_tables(ls_farm_reader *reader, const char *crop) {
    ls_text *text = ls_text_new(reader->arena);
    const ls_table *table;
    for (size_t i = 0; (table = ls_reference_at(reader->reference, i)) != NULL; i++)
        if (strcmp(table->kind, "removal") == 0 && serves(reader->arena, table, crop))
            ls_text_addf(text, "%s%s", text->n > 0 ? ", " : "", table->name);
    return text->s;
}

/* A rating of high, and none, limit by what the crop removes. */
static bool needs_removal(const ls_field *field) {
    return field->crop.text &&
           (!field->phosphorus || field->phosphorus->rating.is == LS_RATING_HIGH);
}

void ls_farm_check_removal(ls_farm_reader *reader, const ls_farm *farm) {
    const char *chosen = farm->tables ? farm->tables->removal.text : NULL;
    const ls_table *table =
        chosen ? ls_reference_table(reader->reference, "removal", chosen) : NULL;
    for (size_t i = 0; i < farm->buyers.n; i++)
        for (size_t k = 0; k < farm->buyers.at[i].fields.n; k++) {
            const ls_field *field = &farm->buyers.at[i].fields.at[k];
            const char *crop = field->crop.text;
            if (!needs_removal(field) || (table && serves(reader->arena, table, crop)))
                continue;
            const char *others = removal_tables(reader, crop);
            if (!table && *others)
                continue;
            const char *hint =
                *others ? ls_arena_printf(reader->arena,
                                          "name one of these under tables, removal: %s", others)
                        : "name the nearest crop that stands in a table of removal";
            LS_FARM_WRONG(reader, field->crop.at, hint,
                          "%s may take what the crop removes, and %s not say what %s removes",
                          ls_farm_called(reader->arena, field),
                          chosen ? ls_arena_printf(reader->arena, "table %s does", chosen)
                                 : "the tables do",
                          crop);
        }
}
