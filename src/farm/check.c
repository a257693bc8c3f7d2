/* Checks over the whole farm, among its sections. */
#include "reader.h"

#include <string.h>

enum { MOST_PAIRS = 200000 };

/* Houses emptied by lots: its sides, or the whole. */
static size_t lots(const ls_farm *farm) {
    size_t n = 0;
    for (size_t i = 0; i < farm->houses.n; i++) n += farm->houses.at[i].sides.n > 0 ? farm->houses.at[i].sides.n : 1;
    return n;
}

static void check_size(ls_farm_reader *reader, const ls_farm *farm) {
    size_t fields = 0;
    for (size_t i = 0; i < farm->buyers.n; i++) fields += farm->buyers.at[i].fields.n;
    if (fields == 0 || lots(farm) <= MOST_PAIRS / fields) return;
    ls_arena *a = reader->arena;
    LS_FARM_WRONG(reader, farm->houses.at[0].at, "plan the farm in parts",
                  "too large: %s lots (sides or houses) times %s fields, and the program takes at most "
                  "200,000 pairs",
                  ls_number_text(a, (double)lots(farm), 6), ls_number_text(a, (double)fields, 6));
}

/* A flock that leaves after the next one comes, or after the crew does. */
static void check_flock_dates(ls_farm_reader *reader, const ls_farm *farm, const ls_flock *flock) {
    ls_arena *a = reader->arena;
    if (!ls_day_known(flock->removed)) return;
    if (farm->facts && ls_day_known(farm->facts->next_flock) && farm->facts->next_flock.day < flock->removed.day)
        LS_FARM_WRONG(
            reader, flock->removed.at,
            ls_arena_printf(a, "next_flock is %s: check both dates", ls_date_iso(a, farm->facts->next_flock.day)),
            "these birds leave after the next flock has come");
    if (farm->crew && ls_day_known(farm->crew->arrives) && farm->crew->arrives.day < flock->removed.day)
        ls_diag_add(
            reader->diag, LS_WARNING, flock->removed.at,
            ls_arena_printf(a, "arrives under crew is %s: check both dates", ls_date_iso(a, farm->crew->arrives.day)),
            "these birds leave after the crew has come");
}

static void check_dates(ls_farm_reader *reader, const ls_farm *farm) {
    ls_arena *a = reader->arena;
    for (size_t i = 0; i < farm->houses.n; i++)
        for (size_t k = 0; k < farm->houses.at[i].flocks.n; k++)
            check_flock_dates(reader, farm, &farm->houses.at[i].flocks.at[k]);
    if (!farm->crew || !ls_day_known(farm->crew->arrives)) return;
    const char *arrives = ls_date_iso(a, farm->crew->arrives.day);
    if (farm->facts && ls_day_known(farm->facts->next_flock) && farm->facts->next_flock.day < farm->crew->arrives.day)
        LS_FARM_WRONG(reader, farm->facts->next_flock.at,
                      ls_arena_printf(a, "arrives under crew is %s: check both dates", arrives),
                      "the next flock comes before the crew");
    if (farm->stack && ls_day_known(farm->stack->kept_until) && farm->stack->kept_until.day <= farm->crew->arrives.day)
        LS_FARM_WRONG(reader, farm->stack->kept_until.at,
                      ls_arena_printf(a, "arrives under crew is %s: check both dates", arrives),
                      "the stack must be empty before the crew comes");
}

const ls_truck *ls_truck_named(const ls_farm *farm, ls_name name) {
    for (size_t i = 0; i < farm->trucks.n; i++)
        if (!LS_GIVEN(name) || ls_text_same(farm->trucks.at[i].name.text, name.text)) return &farm->trucks.at[i];
    return NULL;
}

/* Loads that went over no scale are full loads of a truck. */
static void check_loads(ls_farm_reader *reader, const ls_farm *farm, ls_count loads, ls_name truck) {
    ls_farm_names names = {0};
    for (size_t i = 0; i < farm->trucks.n; i++)
        if (farm->trucks.at[i].name.text) *LS_PUSH(reader->arena, &names) = farm->trucks.at[i].name.text;
    if (LS_GIVEN(loads) && farm->trucks.n == 0)
        LS_FARM_WRONG(reader, loads.at, "add a section \"trucks:\", or give the tons, for example \"weighed: 30 ton\"",
                      "loads need the payload of a truck");
    else if (LS_GIVEN(truck) && ls_truck_named(farm, truck) == NULL)
        LS_FARM_WRONG(reader, truck.at, ls_farm_suggest(reader->arena, truck.text, names.at, names.n, "the trucks are"),
                      "there is no truck \"%s\"", truck.text);
}

static void check_taken(ls_farm_reader *reader, const ls_farm *farm, const ls_already_out *at, size_t n) {
    for (size_t i = 0; i < n; i++) check_loads(reader, farm, at[i].loads, at[i].truck);
}

static void check_all_loads(ls_farm_reader *reader, const ls_farm *farm) {
    for (size_t i = 0; i < farm->houses.n; i++) {
        const ls_house *h = &farm->houses.at[i];
        check_taken(reader, farm, h->already_out.at, h->already_out.n);
        for (size_t k = 0; k < h->last_cleanout.n; k++) {
            const ls_cleanout *c = &h->last_cleanout.at[k];
            check_loads(reader, farm, c->loads, c->truck);
            check_taken(reader, farm, c->cake.at, c->cake.n);
        }
    }
}

void ls_farm_check_all(ls_farm_reader *reader, ls_farm *farm, bool clean) {
    ls_farm_check_names(reader, farm);
    for (size_t i = 0; i < farm->houses.n; i++) ls_farm_check_stay(reader, &farm->houses.at[i]);
    ls_farm_check_truck_fields(reader, farm);
    ls_farm_find_outs(reader, farm);
    ls_farm_check_turns(reader, farm);
    check_all_loads(reader, farm);
    check_dates(reader, farm);
    check_size(reader, farm);
    ls_farm_check_needs(reader, farm);
    if (clean) ls_farm_check_removal(reader, farm);
    if (clean) ls_farm_check_nutrient_tables(reader, farm);
}
