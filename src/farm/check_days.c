/* The dates of a field against each other, and the days on which it may be spread. */
#include "reader.h"

static bool counted(ls_count count) {
    return LS_GIVEN(count) && count.n >= 0;
}

/* A date of the crop that lies before the field opens. */
static void check_after_opening(ls_farm_reader *reader, const ls_field *field, ls_day day,
                                const char *what) {
    if (ls_day_known(day) && field->open.days.from != LS_NO_DATE && day.day < field->open.days.from)
        LS_FARM_WRONG(reader, day.at, "check this date and the open days",
                      "%s on %s, before the field opens for spreading", what,
                      ls_date_iso(reader->arena, day.day));
}

static void check_dates(ls_farm_reader *reader, const ls_field *field) {
    if (LS_GIVEN(field->days_before_planting) && !LS_GIVEN(field->planting))
        LS_FARM_WRONG(reader, field->days_before_planting.at,
                      "add the day, for example \"planting: 2026-04-10\"",
                      "days_before_planting needs the day of planting");
    if (ls_day_known(field->planting) && ls_day_known(field->harvest) &&
        field->harvest.day <= field->planting.day)
        LS_FARM_WRONG(reader, field->harvest.at, "check both dates",
                      "this crop is harvested before it is planted");
    if (!LS_GIVEN(field->open))
        return;
    check_after_opening(reader, field, field->harvest, "this crop is harvested");
    check_after_opening(reader, field, field->grazing, "animals come on");
}

/* The last day is no later than so many days before another. */
static void end_before(ls_window *w, ls_day day, ls_count days) {
    if (!ls_day_known(day) || !counted(days))
        return;
    ls_date last = day.day - (ls_date)days.n;
    if (w->from == LS_NO_DATE)
        *w = (ls_window){ls_date_of(1900, 1, 1), last};
    else if (last < w->to)
        w->to = last;
}

/* The first day is no earlier than so many days before planting; without a window of its own the
 * field is spread by then. */
static void start_before(ls_window *w, ls_day planting, ls_count days) {
    if (!ls_day_known(planting) || !counted(days))
        return;
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

void ls_farm_check_days(ls_farm_reader *reader, ls_field *field) {
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
                      ls_farm_called(reader->arena, field),
                      ls_date_iso(reader->arena, field->allowed.from),
                      ls_date_iso(reader->arena, field->allowed.to));
}
