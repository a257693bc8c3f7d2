/* Checks among the keys of buyers and fields. */
#include "reader.h"

#include <string.h>

void ls_farm_check_order(ls_farm_reader *reader, void *section, bool clean) {
    const ls_order *order = section;
    (void)clean;
    if (!order->least.form || !order->most.form) return;
    if (!ls_dimension_same(order->least.unit.dimension, order->most.unit.dimension))
        LS_FARM_WRONG(reader, order->most.at, "write both in loads or both in tons",
                      "least and most of an order need the same unit");
    else if (order->least.value > order->most.value)
        LS_FARM_WRONG(reader, order->least.at, "check both", "the least of this order is above its most");
}

/* ---- a buyer without fields ---- */

/* A place that takes tons, among the fields: an acre of it stands for each ton, at a ton an acre.
 */
static void make_yard(ls_farm_reader *reader, ls_buyer *buyer) {
    static const ls_window any = {LS_NO_DATE, LS_NO_DATE};
    ls_field *yard = LS_PUSH(reader->arena, &buyer->fields);
    *yard = (ls_field){.name = {"yard", buyer->at},
                       .yard = true,
                       .at = buyer->at,
                       .area = buyer->takes,
                       .allowed = any,
                       .clean = true};
    yard->area.unit = ls_unit_of("ac");
    yard->area.value /= ls_unit_of("ton/ac").factor;
    yard->area.readings = NULL;
    yard->area.n = 0;
    yard->area.how = "an acre stands for each ton that is taken there";
}

void ls_farm_check_buyer(ls_farm_reader *reader, void *section, bool clean) {
    ls_buyer *buyer = section;
    (void)clean;
    if (LS_GIVEN(buyer->takes) && buyer->order && LS_GIVEN(buyer->order->most))
        LS_FARM_WRONG(reader, buyer->order->most.at, "keep one of the two",
                      "takes and the most of the order both say how much this buyer takes");
    if (!buyer->takes.form) return;
    if (buyer->order == NULL) buyer->order = LS_NEW(reader->arena, ls_order, 1);
    buyer->order->most = buyer->takes;
    if (buyer->fields.n == 0) make_yard(reader, buyer);
}

/* ---- the dates of a field against each other, and the days on which it may be spread ---- */

static bool counted(ls_count count) { return LS_GIVEN(count) && count.n >= 0; }

/* A date of the crop that lies before the field opens. */
static void check_after_opening(ls_farm_reader *reader, const ls_field *field, ls_day day, const char *what) {
    if (ls_day_known(day) && field->open.days.from != LS_NO_DATE && day.day < field->open.days.from)
        LS_FARM_WRONG(reader, day.at, "check this date and the open days",
                      "%s on %s, before the field opens for spreading", what, ls_date_iso(reader->arena, day.day));
}

static void check_dates(ls_farm_reader *reader, const ls_field *field) {
    if (LS_GIVEN(field->days_before_planting) && !LS_GIVEN(field->planting))
        LS_FARM_WRONG(reader, field->days_before_planting.at, "add the day, for example \"planting: 2026-04-10\"",
                      "days_before_planting needs the day of planting");
    if (ls_day_known(field->planting) && ls_day_known(field->harvest) && field->harvest.day <= field->planting.day)
        LS_FARM_WRONG(reader, field->harvest.at, "check both dates", "this crop is harvested before it is planted");
    if (!LS_GIVEN(field->open)) return;
    check_after_opening(reader, field, field->harvest, "this crop is harvested");
    check_after_opening(reader, field, field->grazing, "animals come on");
}

/* The last day is no later than so many days before another. */
static void end_before(ls_window *w, ls_day day, ls_count days) {
    if (!ls_day_known(day) || !counted(days)) return;
    ls_date last = day.day - (ls_date)days.n;
    if (w->from == LS_NO_DATE)
        *w = (ls_window){ls_date_of(1900, 1, 1), last};
    else if (last < w->to)
        w->to = last;
}

/* The first day is no earlier than so many days before planting; without a window of its own the
 * field is spread by then. */
static void start_before(ls_window *w, ls_day planting, ls_count days) {
    if (!ls_day_known(planting) || !counted(days)) return;
    ls_date first = planting.day - (ls_date)days.n;
    if (w->from == LS_NO_DATE)
        *w = (ls_window){first, planting.day};
    else if (first > w->from)
        w->from = first;
}

static ls_place of_limits(const ls_field *field) {
    return LS_GIVEN(field->days_before_harvest)   ? field->days_before_harvest.at
           : LS_GIVEN(field->days_before_grazing) ? field->days_before_grazing.at
                                                  : field->days_before_planting.at;
}

static void check_days(ls_farm_reader *reader, ls_field *field) {
    check_dates(reader, field);
    field->allowed = LS_GIVEN(field->open) ? field->open.days : (ls_window){LS_NO_DATE, LS_NO_DATE};
    bool right = field->allowed.from <= field->allowed.to;
    start_before(&field->allowed, field->planting, field->days_before_planting);
    end_before(&field->allowed, field->harvest, field->days_before_harvest);
    end_before(&field->allowed, field->grazing, field->days_before_grazing);
    if (right && field->allowed.from > field->allowed.to)
        LS_FARM_WRONG(reader, of_limits(field),
                      "check the open days, the dates of planting, harvest and grazing, and the "
                      "days the plan asks for between",
                      "%s cannot be spread on any day: not before %s, and not after %s",
                      ls_farm_called(reader->arena, "field", field->name),
                      ls_date_iso(reader->arena, field->allowed.from), ls_date_iso(reader->arena, field->allowed.to));
}

/* ---- years, crop, harvest ---- */

static void check_years(ls_farm_reader *reader, const ls_field *field) {
    long year = ls_farm_crop_year(NULL, field);
    if (year == 0) return;
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
            LS_FARM_WRONG(reader, LS_GIVEN(e->for_crop) ? e->for_crop.at : e->year.at,
                          ls_arena_printf(reader->arena,
                                          "the litter now planned is for the crop of %ld; list here only "
                                          "litter for crops before it",
                                          year),
                          "earlier litter cannot be for the crop of %ld", fed);
    }
}

/* Pounds in a unit of harvest by a table of removal; NULL if none says. */
static const ls_figure *per_harvest(const ls_reference *r, const char *crop) {
    const ls_table *table;
    const ls_figure *figure = NULL;
    for (size_t i = 0; !figure && (table = ls_reference_at(r, i)) != NULL; i++)
        if (strcmp(table->kind, "removal") == 0) figure = ls_row_figure(ls_table_row(table, crop), "N");
    return figure;
}

/* The unit in which the crop's tables count a harvest. */
static const char *harvest_unit(const ls_figure *figure) {
    const char *slash = strchr(figure->unit.text, '/');
    return slash ? slash + 1 : "ton";
}

/* A yield by weight of a crop that the tables count in bushels. */
static void count_bushels(ls_farm_reader *reader, const char *crop, ls_quantity *yield) {
    ls_arena *a = reader->arena;
    const ls_figure *weight =
        ls_row_figure(ls_table_row(ls_reference_by_id(reader->reference, "bushel"), crop), "weight");
    if (weight == NULL || !yield->form || !ls_dimension_same(yield->unit.dimension, ls_unit_of("lb/ac").dimension))
        return;
    double *readings = LS_NEW(a, double, yield->n);
    for (size_t i = 0; i < yield->n; i++) readings[i] = yield->readings[i] / weight->value;
    yield->how =
        ls_arena_printf(a, "%s, a bushel at %s lb (common practice)", yield->text, ls_number_text(a, weight->value, 3));
    yield->value /= weight->value;
    yield->readings = readings;
    yield->unit = ls_unit_of("bu/ac");
}

static void check_crop(ls_farm_reader *reader, ls_field *field, bool clean) {
    const char *crop = field->crop.text;
    if (!crop) return;
    const ls_figure *figure = per_harvest(reader->reference, crop);
    if (figure && strcmp(harvest_unit(figure), "bu") == 0) {
        count_bushels(reader, crop, &field->yield);
        count_bushels(reader, crop, &field->yield_got);
    }
    ls_dimension per_area = ls_unit_of("lb/ac").dimension;
    if (figure && field->yield.form &&
        !ls_dimension_same(ls_dimension_times(figure->unit.dimension, field->yield.unit.dimension, 1), per_area))
        LS_FARM_WRONG(
            reader, field->yield.at,
            ls_arena_printf(reader->arena, "write it in %s/ac", ls_unit_many(reader->arena, harvest_unit(figure))),
            "the tables count %s in %s, not in %s", crop, harvest_unit(figure), field->yield.unit.text);
    if (clean && !LS_GIVEN(field->yield) && (!field->phosphorus || field->phosphorus->rating.is == LS_RATING_HIGH))
        LS_FARM_WRONG(reader, field->at,
                      ls_arena_printf(reader->arena, "add it, for example \"yield: %s\"",
                                      figure && strcmp(harvest_unit(figure), "bu") == 0 ? "165 bu/ac" : "3.5 ton/ac"),
                      "%s has no yield: what the crop removes bounds its phosphorus",
                      ls_farm_called(reader->arena, "field", field->name));
}

/* The crop as it came to be, against the crop as expected. */
static void check_harvest(ls_farm_reader *reader, const ls_field *f) {
    if (f->yield_got.form && f->yield.form && !ls_dimension_same(f->yield_got.unit.dimension, f->yield.unit.dimension))
        LS_FARM_WRONG(reader, f->yield_got.at,
                      ls_arena_printf(reader->arena, "write it in %s", ls_unit_many(reader->arena, f->yield.unit.text)),
                      "the yield that was harvested is not counted like the expected one");
    if (ls_day_known(f->planted) && ls_day_known(f->harvested) && f->harvested.day < f->planted.day)
        LS_FARM_WRONG(reader, f->harvested.at, "check both dates", "%s was harvested before it was planted",
                      ls_farm_called(reader->arena, "field", f->name));
}

void ls_farm_check_field(ls_farm_reader *reader, void *section, bool clean) {
    ls_field *field = section;
    ls_farm_check_area(reader, field);
    check_years(reader, field);
    ls_farm_check_twice(reader, field);
    ls_farm_check_ledger(reader, field);
    check_days(reader, field);
    size_t before = ls_diag_count(reader->diag, LS_ERROR);
    check_crop(reader, field, clean);
    field->clean = clean;
    field->yield_told = ls_diag_count(reader->diag, LS_ERROR) > before;
    check_harvest(reader, field);
}

/* Tables of removal that hold the crop. */
static bool serves(ls_arena *a, const ls_table *removal, const char *crop) {
    const char *names[LS_CROP_NAMES];
    size_t n = ls_crop_names(a, crop, names);
    for (size_t i = 0; i < n; i++)
        if (ls_table_row(removal, names[i])) return true;
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
    return field->crop.text && (!field->phosphorus || field->phosphorus->rating.is == LS_RATING_HIGH);
}

void ls_farm_check_removal(ls_farm_reader *reader, const ls_farm *farm) {
    const char *chosen = farm->tables ? farm->tables->removal.text : NULL;
    const ls_table *table = chosen ? ls_reference_table(reader->reference, "removal", chosen) : NULL;
    for (size_t i = 0; i < farm->buyers.n; i++)
        for (size_t k = 0; k < farm->buyers.at[i].fields.n; k++) {
            const ls_field *field = &farm->buyers.at[i].fields.at[k];
            const char *crop = field->crop.text;
            if (!needs_removal(field) || (table && serves(reader->arena, table, crop))) continue;
            const char *others = removal_tables(reader, crop);
            if (!table && *others) continue;
            const char *hint =
                *others ? ls_arena_printf(reader->arena, "name one of these under tables, removal: %s", others)
                        : "name the nearest crop that stands in a table of removal";
            LS_FARM_WRONG(reader, field->crop.at, hint,
                          "%s may take what the crop removes, and %s not say what %s removes",
                          ls_farm_called(reader->arena, "field", field->name),
                          chosen ? ls_arena_printf(reader->arena, "table %s does", chosen) : "the tables do", crop);
        }
}
