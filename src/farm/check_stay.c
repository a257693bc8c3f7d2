/* The dates of a house against each other: its flocks, its cleanouts, its bedding and what was taken out. */
#include "reader.h"

#include <stdlib.h>

long ls_flock_times(const ls_flock *f) { return LS_GIVEN(f->flocks) && f->flocks.n > 1 ? f->flocks.n : 1; }

/* The latest day on which the first of flocks alike can have been placed. */
static ls_date first_placed(const ls_flock *f) {
    return f->removed.day - (ls_date)(ls_flock_times(f) * (f->removed.day - f->placed.day));
}

static int by_placing(const void *left, const void *right) {
    const ls_flock *a = *(const ls_flock *const *)left, *b = *(const ls_flock *const *)right;
    if (a->placed.day != b->placed.day) return a->placed.day < b->placed.day ? -1 : 1;
    return a < b ? -1 : a > b;
}

/* Flocks with both dates known, by the day they were placed. */
static size_t sorted_flocks(ls_arena *a, const ls_house *house, const ls_flock ***out) {
    const ls_flock **flocks = LS_NEW(a, const ls_flock *, house->flocks.n);
    size_t n = 0;
    for (size_t i = 0; i < house->flocks.n; i++)
        if (ls_day_known(house->flocks.at[i].placed) && ls_day_known(house->flocks.at[i].removed))
            flocks[n++] = &house->flocks.at[i];
    if (n > 1) qsort(flocks, n, sizeof *flocks, by_placing);
    *out = flocks;
    return n;
}

static void check_overlaps(ls_farm_reader *reader, const ls_flock **flocks, size_t n) {
    for (size_t i = 1, longest = 0; i < n; i++) {
        bool alone = flocks[i]->placed.day < flocks[longest]->removed.day;
        if (alone || first_placed(flocks[i]) < flocks[longest]->removed.day)
            LS_FARM_WRONG(reader, alone ? flocks[i]->placed.at : flocks[i]->flocks.at,
                          ls_arena_printf(reader->arena, "the flock at %s is removed %s",
                                          ls_diag_where(reader->arena, reader->diag, flocks[longest]->at),
                                          ls_date_iso(reader->arena, flocks[longest]->removed.day)),
                          alone ? "this flock is placed while another is still in the house"
                                : "these flocks do not fit in after the one before them");
        if (flocks[i]->removed.day > flocks[longest]->removed.day) longest = i;
    }
}

/* The day of the latest cleanout before this one. */
static ls_date last_emptied(const ls_house *house) {
    ls_date emptied = LS_NO_DATE;
    for (size_t i = 0; i < house->last_cleanout.n; i++)
        if (ls_day_known(house->last_cleanout.at[i].date) &&
            (emptied == LS_NO_DATE || house->last_cleanout.at[i].date.day > emptied))
            emptied = house->last_cleanout.at[i].date.day;
    return emptied;
}

ls_date ls_house_since(const ls_house *h, const ls_flock *f) {
    ls_date emptied = last_emptied(h);
    if (!ls_day_known(f->placed)) return LS_NO_DATE;
    return emptied != LS_NO_DATE && emptied > f->placed.day ? emptied : f->placed.day;
}

/* Nothing in the house may be older than its last cleanout. */
static void check_since(ls_farm_reader *reader, const ls_house *house) {
    ls_date emptied = last_emptied(house);
    if (emptied == LS_NO_DATE) return;
    const char *hint = ls_arena_printf(reader->arena, "list only what came in after the last cleanout, %s",
                                       ls_date_iso(reader->arena, emptied));
    for (size_t i = 0; i < house->bedding.n; i++)
        if (ls_day_known(house->bedding.at[i].date) && house->bedding.at[i].date.day < emptied)
            LS_FARM_WRONG(reader, house->bedding.at[i].date.at, hint,
                          "this bedding was spread before the last cleanout");
    for (size_t i = 0; i < house->already_out.n; i++)
        if (ls_day_known(house->already_out.at[i].date) && house->already_out.at[i].date.day < emptied)
            LS_FARM_WRONG(reader, house->already_out.at[i].date.at, hint,
                          "this litter was taken out before the last cleanout");
}

/* Flocks against the last cleanout: those that left before it are no longer told. Layers may stay through it. */
static void check_flocks_since(ls_farm_reader *reader, const ls_house *house) {
    ls_arena *a = reader->arena;
    ls_date emptied = last_emptied(house);
    for (size_t i = 0; emptied != LS_NO_DATE && i < house->flocks.n; i++) {
        const ls_flock *f = &house->flocks.at[i];
        bool layers = ls_bird_is(f->birds.is, LS_MANURE_APART);
        const char *on = ls_date_iso(a, emptied);
        if (!ls_day_known(f->placed) || !ls_day_known(f->removed) || f->placed.day > f->removed.day) continue;
        if (f->removed.day <= emptied)
            LS_FARM_WRONG(reader, f->removed.at,
                          ls_arena_printf(a, "list only flocks that were there after the last cleanout, %s", on),
                          "this flock was removed before the last cleanout");
        else if (ls_flock_times(f) > 1 && first_placed(f) < emptied)
            LS_FARM_WRONG(reader, f->flocks.at,
                          ls_arena_printf(a, "the last cleanout was %s: count the flocks since then", on),
                          "%ld flocks of %d days are more than fit in since the last cleanout", ls_flock_times(f),
                          (int)(f->removed.day - f->placed.day));
        else if (f->placed.day < emptied && !layers)
            ls_diag_add(reader->diag, LS_WARNING, f->placed.at,
                        ls_arena_printf(a, "the last cleanout was %s: check both dates", on),
                        "this flock stayed through the last cleanout: what counts is what came "
                        "since then");
    }
}

/* Only layers and layer pullets are kept in ways that differ so. */
static void check_manure(ls_farm_reader *reader, const ls_house *house) {
    int bird = house->flocks.n ? house->flocks.at[0].birds.is : 0;
    if (house->manure.is && house->manure.is != LS_MANURE_LITTER && bird && !ls_bird_is(bird, LS_MANURE_APART))
        LS_FARM_WRONG(reader, house->manure.at, "take it out, or write \"manure: litter\"",
                      "manure: %s is for layers and layer pullets, not for a %s", ls_manure_name(house->manure.is),
                      ls_bird_name(bird));
}

static void check_cleanouts(ls_farm_reader *reader, const ls_house *house) {
    for (size_t i = 1; i < house->last_cleanout.n; i++)
        for (size_t k = 0; k < i; k++) {
            const ls_day *day = &house->last_cleanout.at[i].date, *other = &house->last_cleanout.at[k].date;
            if (ls_day_known(*day) && ls_day_known(*other) && day->day == other->day)
                LS_FARM_WRONG(reader, day->at, "give each cleanout once, all its loads together",
                              "two cleanouts on the same day, %s", ls_date_iso(reader->arena, day->day));
        }
}

static void check_bedding_dates(ls_farm_reader *reader, const ls_house *house, const ls_flock **flocks, size_t n) {
    ls_date last = LS_NO_DATE;
    for (size_t i = 0; i < n; i++) last = flocks[i]->removed.day > last ? flocks[i]->removed.day : last;
    for (size_t i = 0; n > 0 && i < house->bedding.n; i++)
        if (ls_day_known(house->bedding.at[i].date) && house->bedding.at[i].date.day >= last)
            LS_FARM_WRONG(reader, house->bedding.at[i].date.at,
                          ls_arena_printf(reader->arena, "the last birds leave %s: check both dates",
                                          ls_date_iso(reader->arena, last)),
                          "this bedding is spread after the birds have left");
}

void ls_farm_check_stay(ls_farm_reader *reader, const ls_house *house) {
    const ls_flock **flocks;
    size_t n = sorted_flocks(reader->arena, house, &flocks);
    check_overlaps(reader, flocks, n);
    check_cleanouts(reader, house);
    check_since(reader, house);
    check_flocks_since(reader, house);
    check_bedding_dates(reader, house, flocks, n);
    check_manure(reader, house);
}
