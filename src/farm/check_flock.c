/* Checks among the keys of a flock. */
#include "reader.h"

/* hens and males are for breeders, count for all others. */
static void check_numbers(ls_farm_reader *reader, ls_flock *flock, bool clean) {
    ls_arena *a = reader->arena;
    bool breeder = ls_bird_is_breeder(flock->birds.is);
    if (!breeder && ls_bird_is(flock->birds.is, LS_LAYS) && !LS_GIVEN(flock->count)) {
        flock->count = flock->hens;
        flock->hens = (ls_count){0};
    }
    if (breeder && LS_GIVEN(flock->count))
        LS_FARM_WRONG(reader, flock->count.at,
                      ls_arena_printf(a, "write \"hens: %ld\", and \"males:\" if there are any",
                                      flock->count.n < 0 ? 7800 : flock->count.n),
                      "broiler breeders are given as hens and males, not as count");
    if (!breeder && LS_GIVEN(flock->hens))
        LS_FARM_WRONG(reader, flock->hens.at,
                      ls_arena_printf(a, "write \"count: %ld\"", flock->hens.n < 0 ? 24000 : flock->hens.n),
                      "hens is for broiler breeders; a flock of other birds has one count");
    if (!breeder && LS_GIVEN(flock->males))
        LS_FARM_WRONG(reader, flock->males.at, "put all birds under count", "males is for broiler breeders");
    if (!clean) return;
    if (breeder && !LS_GIVEN(flock->hens) && !LS_GIVEN(flock->count))
        ls_farm_missing(reader, flock->at, "this flock of broiler breeders", ls_farm_key_of(reader->section, "hens"),
                        NULL);
    if (!breeder && !LS_GIVEN(flock->count) && !LS_GIVEN(flock->hens))
        ls_farm_missing(reader, flock->at, "this flock", ls_farm_key_of(reader->section, "count"), NULL);
}

/* Keys that make no sense for a kind of bird. */
static void check_kind(ls_farm_reader *reader, ls_flock *flock, bool clean) {
    int bird = flock->birds.is;
    if (bird == 0) return;
    check_numbers(reader, flock, clean);
    if (LS_GIVEN(flock->eggs) && !ls_farm_key_for(ls_farm_key_of(reader->section, "eggs"), bird))
        LS_FARM_WRONG(reader, flock->eggs.at, "take it out", "eggs is for laying birds, not for a %s",
                      ls_bird_name(bird));
}

/* Dated counts: within the stay, in order, never rising. */
static void check_counts(ls_farm_reader *reader, const ls_flock *flock) {
    ls_date last_day = ls_day_known(flock->placed) ? flock->placed.day : LS_NO_DATE;
    long alive = LS_GIVEN(flock->hens) ? flock->hens.n : flock->count.n;
    for (size_t i = 0; i < flock->counts.n; i++) {
        const ls_bird_count *count = &flock->counts.at[i];
        if (!ls_day_known(count->date) || count->birds.n < 0 || alive < 0) return;
        if (last_day != LS_NO_DATE && count->date.day <= last_day)
            LS_FARM_WRONG(reader, count->date.at, "write them in order, from the first after placing",
                          "this count is not after the one before it");
        else if (ls_day_known(flock->removed) && count->date.day > flock->removed.day)
            LS_FARM_WRONG(reader, count->date.at, "check both dates", "this count is after the birds were removed");
        else if (count->birds.n > alive)
            LS_FARM_WRONG(reader, count->birds.at, "check both numbers", "this count is above the one before it, %ld",
                          alive);
        last_day = count->date.day;
        alive = count->birds.n;
    }
}

static ls_day begins(const ls_flock *flock, size_t i) {
    const ls_feed *feed = &flock->feed.at[i];
    return LS_GIVEN(feed->from) ? feed->from : flock->placed;
}

/* All of a feed, told in tons, as each bird ate it in a day: no more and no less than eaten may be.
 */
static void check_total(ls_farm_reader *reader, const ls_flock *flock, size_t i) {
    const ls_quantity *total = &flock->feed.at[i].total;
    const ls_farm_key *feed = ls_farm_key_of(reader->section, "feed"), *eaten = ls_farm_key_of(feed->section, "eaten");
    ls_day from = begins(flock, i), to = i + 1 < flock->feed.n ? begins(flock, i + 1) : flock->removed;
    double birds = (double)(LS_GIVEN(flock->hens) ? flock->hens.n + flock->males.n : flock->count.n);
    if (!total->form || !ls_day_known(from) || !ls_day_known(to) || to.day <= from.day || !(birds > 0)) return;
    ls_unit unit = ls_farm_unit(reader->arena, eaten);
    double each = total->value / birds / (double)(to.day - from.day) / unit.factor;
    if (each < eaten->least || each > eaten->most)
        LS_FARM_WRONG(reader, total->at, "check the tons, the number of birds and the dates",
                      "that is %s %s, and birds eat between %s and %s", ls_number_text(reader->arena, each, 3),
                      unit.text, ls_number_text(reader->arena, eaten->least, 6),
                      ls_number_text(reader->arena, eaten->most, 6));
}

/* Feeds follow each other from the day of placing on, each with its first day. */
static void check_feed(ls_farm_reader *reader, const ls_flock *flock, size_t i) {
    ls_day from = begins(flock, i), before = i > 0 ? begins(flock, i - 1) : flock->placed;
    if (i > 0 && !LS_GIVEN(flock->feed.at[i].from)) {
        LS_FARM_WRONG(reader, flock->feed.at[i].at, "add it, for example \"from: 2025-09-01\"",
                      "this feed follows another and has no from");
        return;
    }
    if (!ls_day_known(from) || !ls_day_known(before)) return;
    if (i == 0 && from.day != before.day)
        LS_FARM_WRONG(reader, from.at,
                      ls_arena_printf(reader->arena, "write \"from: %s\", or leave it out",
                                      ls_date_iso(reader->arena, before.day)),
                      "the first feed is eaten from the day the birds are placed");
    else if (i > 0 && from.day <= before.day)
        LS_FARM_WRONG(reader, from.at, "write the feeds in the order they were fed",
                      "this feed does not begin after the one before it");
    else if (ls_day_known(flock->removed) && from.day >= flock->removed.day)
        LS_FARM_WRONG(reader, from.at, "check both dates", "this feed begins after the birds have left");
}

/* How old the birds came in; without a day of placing they came as day-olds. */
static void check_age(ls_farm_reader *reader, ls_flock *flock, bool clean) {
    bool dated = LS_GIVEN(flock->placed), aged = flock->age.form != 0;
    ls_date age = (ls_date)flock->age.value;
    if (clean && !dated && ls_bird_is(flock->birds.is, LS_LAYS))
        ls_farm_missing(reader, flock->at, "this flock", ls_farm_key_of(reader->section, "placed"),
                        "laying birds come grown");
    if (!aged || !ls_day_known(flock->removed)) return;
    if (!dated)
        flock->placed = (ls_day){flock->removed.day - age, flock->age.at};
    else if (ls_day_known(flock->placed))
        flock->came = age - (flock->removed.day - flock->placed.day);
    if (flock->came >= 0) return;
    flock->came = 0;
    LS_FARM_WRONG(reader, flock->age.at, "check the age and both dates",
                  "at that age they were not hatched when they were placed");
}

void ls_farm_check_flock(ls_farm_reader *reader, void *section, bool clean) {
    ls_flock *flock = section;
    check_age(reader, flock, clean);
    if (ls_day_known(flock->placed) && ls_day_known(flock->removed) && flock->removed.day <= flock->placed.day)
        LS_FARM_WRONG(reader, flock->removed.at,
                      ls_arena_printf(reader->arena, "they are placed %s: check both dates",
                                      ls_date_iso(reader->arena, flock->placed.day)),
                      "the birds are removed before they have been in the house for a day");
    check_kind(reader, flock, clean);
    check_counts(reader, flock);
    for (size_t i = 0; i < flock->feed.n; i++) {
        check_feed(reader, flock, i);
        if (clean) check_total(reader, flock, i);
    }
}
