/* Checks among the keys of trucks and crew. */
#include "reader.h"

void ls_farm_check_rate(ls_farm_reader *reader, void *section, bool clean) {
    const ls_rate_range *rate = section;
    (void)clean;
    if (rate->least.form && rate->most.form && rate->least.value > rate->most.value)
        LS_FARM_WRONG(reader, rate->least.at, "check both", "the least rate is above the most");
    else if (rate->step.form && rate->most.form && rate->step.value > rate->most.value)
        LS_FARM_WRONG(reader, rate->step.at, "check both", "the step is larger than the highest rate");
}

/* ---- trucks ---- */

static void check_weights(ls_farm_reader *reader, const ls_truck *t) {
    bool tare = LS_GIVEN(t->tare), gross = LS_GIVEN(t->gross);
    if (!LS_GIVEN(t->payload) && tare != gross)
        LS_FARM_WRONG(reader, tare ? t->tare.at : t->gross.at,
                      "tare is the truck's weight empty, gross the most it may weigh loaded",
                      "a truck without payload needs %s beside %s", tare ? "gross" : "tare", tare ? "tare" : "gross");
    else if (!LS_GIVEN(t->payload) && !gross)
        ls_farm_missing(reader, t->at, "this truck", ls_farm_key_of(reader->section, "payload"), NULL);
    else if (t->gross.form && t->tare.form && t->gross.value < t->tare.value + 1000)
        LS_FARM_WRONG(reader, t->gross.at, "check both", "gross less tare leaves less than 1,000 lb for the load");
}

static void check_axles(ls_farm_reader *reader, const ls_truck *t) {
    if (t->axles.n == 1)
        LS_FARM_WRONG(reader, t->axles.at[0].at, "name them all from front to back", "a truck has more than one axle");
    for (size_t i = 0; i < t->axles.n; i++) {
        const ls_axle *axle = &t->axles.at[i];
        if (i == 0 && LS_GIVEN(axle->spacing))
            LS_FARM_WRONG(reader, axle->spacing.at, "spacing is the distance from the axle before it",
                          "the first axle has no spacing");
        if (i > 0 && !LS_GIVEN(axle->spacing))
            LS_FARM_WRONG(reader, axle->at, "for example \"spacing: 15 ft\"",
                          "an axle after the first needs spacing, the distance from the one before");
    }
}

/* A run over a distance needs a width; the newest run is the calibration. */
static void check_runs(ls_farm_reader *reader, ls_truck *t) {
    for (size_t i = 0; i < t->runs.n; i++) {
        const ls_spreader_run *run = &t->runs.at[i];
        if (LS_GIVEN(run->distance) && !LS_GIVEN(run->tarp) && !LS_GIVEN(run->swath) && !LS_GIVEN(t->swath))
            LS_FARM_WRONG(reader, run->distance.at, "for example \"swath: 32 ft\"",
                          "a run over a distance needs the width of the pass");
        if (ls_day_known(run->date) && (!ls_day_known(t->calibrated) || run->date.day > t->calibrated.day))
            t->calibrated = run->date;
    }
}

void ls_farm_check_truck(ls_farm_reader *reader, void *section, bool clean) {
    ls_truck *t = section;
    if (t->fields.n > 0 && t->only.is == LS_ONLY_ROAD)
        LS_FARM_WRONG(reader, t->only.at, "leave out one of both",
                      "a truck that stays on the road spreads on no field");
    (void)clean;
    if (!LS_GIVEN(t->count)) t->count = (ls_count){1, t->at};
    check_weights(reader, t);
    check_axles(reader, t);
    check_runs(reader, t);
}

/* All fields of the farm, for "did you mean"; is one of that name? */
static bool has_field(ls_farm_reader *reader, const ls_farm *farm, const char *name, ls_farm_names *names) {
    bool has = false;
    for (size_t b = 0; b < farm->buyers.n; b++)
        for (size_t f = 0; f < farm->buyers.at[b].fields.n; f++) {
            const ls_field *field = &farm->buyers.at[b].fields.at[f];
            if (field->name.text == NULL) continue;
            *LS_PUSH(reader->arena, names) = field->name.text;
            has = has || ls_field_is_named(name, &farm->buyers.at[b], field);
        }
    return has;
}

/* A file of houses alone has nowhere to spread, and yards ask for no spreader. */
static void warn_all_on_road(ls_farm_reader *reader, const ls_farm *farm) {
    size_t with_fields = 0;
    for (size_t i = 0; i < farm->buyers.n; i++) with_fields += !ls_buyer_is_yard(&farm->buyers.at[i]);
    for (size_t i = 0; i < farm->trucks.n; i++)
        if (farm->trucks.at[i].only.is != LS_ONLY_ROAD) return;
    if (with_fields > 0 && farm->trucks.n > 0)
        ls_diag_add(reader->diag, LS_WARNING, farm->trucks.at[0].only.at,
                    "leave \"only: road\" out of one that spreads",
                    "every truck stays on the road: none spreads litter on a field");
}

/* A file of houses alone names no fields. */
void ls_farm_check_truck_fields(ls_farm_reader *reader, const ls_farm *farm) {
    for (size_t i = 0; farm->buyers.n > 0 && i < farm->trucks.n; i++)
        for (size_t k = 0; k < farm->trucks.at[i].fields.n; k++) {
            const ls_name *name = &farm->trucks.at[i].fields.at[k].name;
            ls_farm_names names = {0};
            if (name->text != NULL && !has_field(reader, farm, name->text, &names))
                LS_FARM_WRONG(reader, name->at,
                              ls_farm_suggest(reader->arena, name->text, names.at, names.n, "write one of these"),
                              "no field is called \"%s\"", name->text);
        }
    warn_all_on_road(reader, farm);
}

/* ---- crew ---- */

void ls_farm_check_out(ls_farm_reader *reader, void *section, bool clean) {
    const ls_out *out = section;
    if (clean &&
        (out->until.day < out->from.day || (out->until.day == out->from.day && out->until.minute <= out->from.minute)))
        LS_FARM_WRONG(reader, out->until.at, "for example \"from: 2026-02-16T11:00, until: 2026-02-16T15:30\"",
                      "until is not after from: nothing would be out");
}

/* All that may be out: the loader, the slat hands, each truck. */
static ls_farm_names may_be_out(ls_farm_reader *reader, const ls_farm *farm) {
    ls_farm_names names = {0};
    *LS_PUSH(reader->arena, &names) = "loader";
    *LS_PUSH(reader->arena, &names) = "slat hands";
    for (size_t i = 0; i < farm->trucks.n; i++)
        for (long k = 1; k <= farm->trucks.at[i].count.n; k++)
            *LS_PUSH(reader->arena, &names) = ls_farm_truck_called(reader->arena, &farm->trucks.at[i], k);
    return names;
}

static void find_out(ls_farm_reader *reader, const ls_farm *farm, ls_out *out) {
    ls_farm_names names = may_be_out(reader, farm);
    size_t k = 0;
    while (k < names.n && !ls_text_same(out->what.text, names.at[k])) k++;
    if (k == names.n) {
        const char *one = ls_arena_printf(reader->arena, "%s 1", out->what.text);
        if (ls_farm_holds(&names, one))
            LS_FARM_WRONG(reader, out->what.at, ls_arena_printf(reader->arena, "for example \"what: %s\"", one),
                          "there is more than one \"%s\": name which", out->what.text);
        else
            LS_FARM_WRONG(reader, out->what.at,
                          ls_farm_suggest(reader->arena, out->what.text, names.at, names.n, "write one of these"),
                          "nothing here is called \"%s\"", out->what.text);
        return;
    }
    for (size_t other = k + 1; other < names.n; other++)
        if (ls_text_same(out->what.text, names.at[other]))
            LS_FARM_WRONG(reader, out->what.at, "give one of them another name", "\"%s\" is the name of two here",
                          out->what.text);
    out->is = k == 0 ? LS_OUT_LOADER : k == 1 ? LS_OUT_HANDS : LS_OUT_TRUCK;
    out->number = (long)k - 1;
    for (; out->is == LS_OUT_TRUCK && out->number > farm->trucks.at[out->truck].count.n; out->truck++)
        out->number -= farm->trucks.at[out->truck].count.n;
    const ls_day *arrives = &farm->crew->arrives;
    if (LS_GIVEN(*arrives) && LS_GIVEN(out->until) && out->until.day < arrives->day)
        ls_diag_add(reader->diag, LS_WARNING, out->until.at, "look at the month and the year",
                    "%s: out before the crew comes alone, which changes nothing", out->what.text);
}

void ls_farm_find_outs(ls_farm_reader *reader, ls_farm *farm) {
    for (size_t i = 0; farm->crew != NULL && i < farm->crew->out.n; i++)
        if (farm->crew->out.at[i].what.text != NULL) find_out(reader, farm, &farm->crew->out.at[i]);
}

static ls_farm_names sides_of(ls_farm_reader *reader, const ls_farm *farm) {
    ls_farm_names names = {0};
    for (size_t i = 0; i < farm->houses.n; i++)
        for (size_t k = 0; k == 0 || k < farm->houses.at[i].sides.n; k++) {
            const ls_house *h = &farm->houses.at[i];
            const char *side = k < h->sides.n ? h->sides.at[k].name.text : NULL;
            if (h->name.text != NULL)
                *LS_PUSH(reader->arena, &names) =
                    side == NULL ? h->name.text : ls_arena_printf(reader->arena, "%s/%s", h->name.text, side);
        }
    return names;
}

/* Each side once; a file of buyers alone names no houses. */
void ls_farm_check_turns(ls_farm_reader *reader, const ls_farm *farm) {
    ls_farm_names names = sides_of(reader, farm);
    size_t n = farm->crew == NULL || names.n == 0 ? 0 : farm->crew->order.n;
    long *named = LS_NEW(reader->arena, long, names.n);
    for (size_t i = 0; i < n; i++) {
        const ls_name *name = &farm->crew->order.at[i].name;
        size_t k = 0;
        while (name->text != NULL && k < names.n && !ls_text_same(name->text, names.at[k])) k++;
        if (name->text != NULL && k == names.n)
            LS_FARM_WRONG(reader, name->at,
                          ls_farm_suggest(reader->arena, name->text, names.at, names.n, "write one of these"),
                          "no side is called \"%s\"", name->text);
        if (name->text == NULL || k == names.n) return;
        named[k]++;
    }
    for (size_t k = 0; n > 0 && k < names.n; k++)
        if (named[k] != 1)
            LS_FARM_WRONG(reader, farm->crew->order.at[0].name.at,
                          "name every side once, for example \"order: [North/left, North/right]\"",
                          "order names \"%s\" %s", names.at[k], named[k] == 0 ? "nowhere" : "more than once");
}

void ls_farm_check_crew(ls_farm_reader *reader, void *section, bool clean) {
    enum { ALL_DAYS = 0x7f, MINUTES = 24 * 60 };
    const ls_crew *crew = section;
    (void)clean;
    if (crew->days_off == ALL_DAYS)
        LS_FARM_WRONG(reader, crew->at, "leave a weekday to work on", "days_off names every day of the week");
    if (LS_GIVEN(crew->starts) && crew->hours.form &&
        (double)crew->starts.minute + crew->hours.value * MINUTES > MINUTES + 1e-6)
        LS_FARM_WRONG(reader, crew->starts.at, "begin earlier or work fewer hours",
                      "the working day runs past midnight");
}
