/* What may happen when after spreading, on 200 fields drawn at random: the ticket as text and as
 * JSON, the rates and the dossier beside what the farm file and the tables say, reckoned here.
 * Sources of the table's days: New South Wales, cattle off littered pasture, 21 days; 7 CFR
 * 205.203(c)(1), organic food, 120 days if the part eaten touches soil, 90 if not. */
#include "program.h"

#include "chance.h"

#include "littershed/command.h"

#include <jansson.h>
#include <string.h>

enum { FARMS = 10, FIELDS = 20, CATTLE = 21, ON_SOIL = 120, OFF_SOIL = 90 };

/* days: -1: the file gives none; grown_for: 0 not told, 1 feed, 2 organic off, 3 in the soil. */
typedef struct {
    bool hay, grazed;
    int grown_for;
    long before_grazing, before_harvest, grazed_after, harvested_after;
} drawn;

static long maybe(uint64_t *state, unsigned most) { return test_pick(state, 2) ? -1 : (long)test_pick(state, most); }

static drawn draw(uint64_t *state) {
    drawn f = {.hay = test_pick(state, 2)};
    f.grazed = f.hay && test_pick(state, 2);
    f.grown_for = f.hay ? 0 : (int)test_pick(state, 4);
    f.before_grazing = maybe(state, 60);
    f.before_harvest = maybe(state, 160);
    f.grazed_after = 1 + test_pick(state, 60);
    f.harvested_after = 1 + test_pick(state, 160);
    return f;
}

/* ---- the farm ---- */

static const char head[] =
    "farm: {name: Test Flocks, next_flock: 2026-05-01}\n"
    "houses:\n  - {name: One, code: N, length: 440 ft, width: 40 ft, measured: {weighed: 400 "
    "ton},\n"
    "     lab: [{date: 2026-01-10, by: Lab, moisture: 30 %, N: 20 lb/ton, NH4N: 5 lb/ton, P2O5: 22 "
    "lb/ton, K2O: 24 lb/ton}]}\n"
    "trucks: [{name: spreader, count: 2, payload: 8 ton, swath: 33 ft}]\n"
    "crew: {arrives: 2026-02-16, loader: {bucket: 2 yd3, fill: 95 %, load_and_dump: 30 s, travel: "
    "5 mph}}\n"
    "buyers:\n  - name: Ann\n    distance: 3 mi\n    price: 20 $/ton\n    fields:\n";

/* With dates: as they came to be after the load of the 16th; without: as planned. */
static const char *farm(ls_arena *a, const drawn *fields, bool dates) {
    static const char *const grown[] = {"", ", grown_for: feed", ", grown_for: organic food off the soil",
                                        ", grown_for: organic food in the soil"};
    const ls_date spread = ls_date_of(2026, 2, 16);
    ls_text *t = ls_text_new(a);
    ls_text_add(t, head);
    for (int i = 0; i < FIELDS; i++) {
        const drawn *f = &fields[i];
        ls_text_addf(t,
                     "      - {name: F%d, area: 4 ac, crop: %s, yield: %s, nitrogen: 200 lb/ac, "
                     "phosphorus: {rating: low}, most: 2 ton/ac%s%s",
                     i, f->hay ? "tall fescue hay" : "corn grain", f->hay ? "3 ton/ac" : "150 bu/ac",
                     f->grazed ? ", use: grazed by beef" : "", grown[f->grown_for]);
        if (f->before_grazing >= 0) ls_text_addf(t, ", days_before_grazing: %ld", f->before_grazing);
        if (f->before_harvest >= 0) ls_text_addf(t, ", days_before_harvest: %ld", f->before_harvest);
        if (dates)
            ls_text_addf(t, ", grazing: %s, harvested: %s", ls_date_iso(a, spread + (ls_date)f->grazed_after),
                         ls_date_iso(a, spread + (ls_date)f->harvested_after));
        ls_text_add(t, "}\n");
    }
    return t->s;
}

static const char *log_of(ls_arena *a) {
    ls_text *t = ls_text_new(a);
    ls_text_add(t, "entry,replaces,ticket,when,tons,weighed,cleared,field,truck,driver,received_by,"
                   "analysis,incorporated,weather_before,weather,weather_after,soil,note\r\n");
    for (int i = 0; i < FIELDS; i++) {
        const char *number = ls_arena_printf(a, "N-%02d", i + 1);
        ls_text_addf(t, "%d,,%s-%c,2026-02-16T09:10,8,yes,,Ann/F%d,,,,,,,,,,\r\n", i + 1, number,
                     ls_check_character(number), i);
    }
    return t->s;
}

/* ---- what must be said ---- */

typedef struct {
    const char *what;
    long days;
    bool given;
} wait;

enum { MOST_WAITS = 5 };

/* The file's own days; and a caution that concerns the field, or may, where they are not as long.
 * No cattle come to corn unless the file has animals there.
 */
static size_t waits_of(const drawn *f, wait *out) {
    size_t n = 0;
    if (f->before_grazing > 0) out[n++] = (wait){"animals", f->before_grazing, true};
    if (CATTLE > f->before_grazing && (f->hay || f->grazed || f->before_grazing >= 0))
        out[n++] = (wait){"cattle", CATTLE, false};
    if (f->before_harvest > 0) out[n++] = (wait){"harvest", f->before_harvest, true};
    bool may_be_organic = !f->hay && f->grown_for == 0;
    if ((may_be_organic || f->grown_for == 2) && OFF_SOIL > f->before_harvest)
        out[n++] = (wait){"harvest of organic food", OFF_SOIL, false};
    if ((may_be_organic || f->grown_for == 3) && ON_SOIL > f->before_harvest)
        out[n++] = (wait){"harvest of organic food whose edible part touches soil", ON_SOIL, false};
    return n;
}

/* What governs: the file's days, else those of a caution that concerns the field; -1: none. */
static long grazing_days(const drawn *f) {
    return f->before_grazing >= 0 ? f->before_grazing : f->grazed ? CATTLE : -1;
}

static long harvest_days(const drawn *f) {
    return f->before_harvest >= 0 ? f->before_harvest : f->grown_for == 2 ? OFF_SOIL : f->grown_for == 3 ? ON_SOIL : -1;
}

/* ---- what is said ---- */

static const char *text(const json_t *object, const char *key) {
    const char *s = json_string_value(json_object_get(object, key));
    return s == NULL ? "" : s;
}

static json_t *document(ls_arena *a, const char *command, const char *path) {
    test_run run = PROGRAM(a, command, path, "--format", "json", FEW);
    TEST_SAME(run.status, LS_DONE);
    json_t *d = json_loads(run.out, 0, NULL);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    return d;
}

static const drawn *named(const drawn *fields, const char *name) { return &fields[strtol(name + 1, NULL, 10)]; }

static void drop_says(ls_arena *a, const json_t *drop, const char *day, const drawn *f) {
    wait want[MOST_WAITS];
    size_t n = waits_of(f, want);
    const json_t *waits = json_object_get(drop, "waits");
    ls_date spread = LS_NO_DATE;
    CU_ASSERT_TRUE(ls_date_parse(day, strlen(day), &spread));
    TEST_SAME(json_array_size(waits), n);
    for (size_t i = 0; i < n && i < json_array_size(waits); i++) {
        const json_t *one = json_array_get(waits, i);
        TEST_TEXT(text(one, "what"), want[i].what);
        TEST_SAME(json_integer_value(json_object_get(one, "days")), want[i].days);
        TEST_SAME(json_is_true(json_object_get(one, "given")), want[i].given);
        TEST_TEXT(text(one, "until"), ls_date_iso(a, spread + (ls_date)want[i].days));
    }
}

/* The paper of one ticket, its lines joined. */
static void page_says(ls_arena *a, const char *path, const char *ticket, const char *day, const drawn *f) {
    wait want[MOST_WAITS];
    size_t n = waits_of(f, want);
    ls_date spread = LS_NO_DATE;
    CU_ASSERT_TRUE(ls_date_parse(day, strlen(day), &spread));
    const char *page = PROGRAM(a, "tickets", path, "--ticket", ticket, FEW).out;
    page = test_replace(a, page, "\n              ", " ");
    for (size_t i = 0; i < n; i++) {
        bool second = i > 0 && want[i].days == ON_SOIL && !want[i].given && strstr(want[i - 1].what, "organic") != NULL;
        TEST_HOLDS(page,
                   ls_arena_printf(a, "%s%ld days%s (if on %s: %s)%s", want[i].given ? "for " : "", want[i].days,
                                   second ? "" : " after spreading", ls_date_words(a, spread, ls_date_year(spread)),
                                   ls_date_words(a, spread + (ls_date)want[i].days, ls_date_year(spread)),
                                   want[i].given ? ": the farm file's limit" : ""));
    }
}

static size_t tickets_say(ls_arena *a, const char *path, const drawn *fields) {
    json_t *d = document(a, "tickets", path), *ticket, *drop;
    size_t i, k, seen = 0;
    json_array_foreach(json_object_get(d, "tickets"), i, ticket) {
        json_array_foreach(json_object_get(ticket, "drops"), k, drop) {
            const drawn *f = named(fields, text(drop, "field"));
            drop_says(a, drop, text(ticket, "day"), f);
            if (i < 3) page_says(a, path, text(ticket, "ticket"), text(ticket, "day"), f);
            seen++;
        }
    }
    json_decref(d);
    return seen;
}

static void rate_says(const json_t *earliest, const char *what, long days, bool given) {
    const json_t *one = json_object_get(earliest, what);
    TEST_SAME(json_is_null(one), days < 0);
    if (days < 0) return;
    TEST_SAME(json_number_value(json_object_get(one, "days")), days);
    TEST_SAME(json_is_true(json_object_get(one, "given")), given);
}

static void rates_say(ls_arena *a, const char *path, const drawn *fields) {
    json_t *d = document(a, "rates", path), *field;
    size_t i;
    json_array_foreach(json_object_get(d, "fields"), i, field) {
        const drawn *f = named(fields, text(field, "field"));
        const json_t *earliest = json_object_get(field, "earliest");
        rate_says(earliest, "grazing", grazing_days(f), f->before_grazing >= 0);
        rate_says(earliest, "harvest", harvest_days(f), f->before_harvest >= 0);
        rate_says(earliest, "cattle", CATTLE, false);
    }
    json_decref(d);
}

/* The finding of that item on the field: 'l' the plan's limit, 'c' a caution, '-' none. */
static char finding(const json_t *d, const char *item, const char *field) {
    size_t i;
    const json_t *one;
    json_array_foreach(json_object_get(d, "findings"), i, one) {
        if (strcmp(text(one, "item"), item) == 0 && strstr(text(one, "of"), field) != NULL &&
            strcmp(strstr(text(one, "of"), field), field) == 0)
            return strcmp(text(one, "required"), "yes") == 0 ? 'l' : 'c';
    }
    return '-';
}

static char expected(long limit, long caution, long after) { return after < limit ? 'l' : after < caution ? 'c' : '-'; }

/* A day of grazing makes a field a grazed one. */
static void dossier_says(ls_arena *a, const char *path, const drawn *fields) {
    json_t *d = document(a, "dossier", path);
    for (int i = 0; i < FIELDS; i++) {
        const drawn *f = &fields[i];
        const char *name = ls_arena_printf(a, "F%d", i);
        TEST_SAME(finding(d, "grazed too soon", name), expected(f->before_grazing, CATTLE, f->grazed_after));
        TEST_SAME(finding(d, "harvested too soon", name), expected(f->before_harvest,
                                                                   f->grown_for == 2   ? OFF_SOIL
                                                                   : f->grown_for == 3 ? ON_SOIL
                                                                                       : 0,
                                                                   f->harvested_after));
    }
    json_decref(d);
}

static void all_agree(void) {
    uint64_t state = 4;
    size_t seen = 0;
    for (int i = 0; i < FARMS; i++) {
        ls_arena *a = ls_arena_new();
        const char *folder = test_folder(a);
        drawn fields[FIELDS];
        for (int k = 0; k < FIELDS; k++) fields[k] = draw(&state);
        const char *plan = test_file(a, folder, "plan.yaml", farm(a, fields, false));
        seen += tickets_say(a, plan, fields);
        rates_say(a, plan, fields);
        const char *done = test_file(a, folder, "done.yaml", farm(a, fields, true));
        test_file(a, folder, "done.haul.csv", log_of(a));
        dossier_says(a, done, fields);
        test_folder_end(folder);
        ls_arena_free(a);
    }
    TEST_SAME(seen, FARMS * FIELDS);
}

TEST_SUITE(waits) = {
    {"tickets, rates and dossier agree with file and table", all_agree},
    CU_TEST_INFO_NULL,
};
