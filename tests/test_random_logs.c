/* Haul logs drawn at random for farms drawn at random: odd weights, other places than planned,
 * loads of two drops, corrections, the same ticket again. After each morning's loads the plan must
 * keep what is promised of every plan, with all that the log says is gone counted here, apart from
 * the code that made it. */
#include "chance.h"
#include "program.h"
#include "random_farm.h"

#include "littershed/command.h"
#include "littershed/farm.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FARMS = 2, MORNINGS = 2, MOST_LOADS = 5 };
enum { FIRST = 13 }; /* the second farm is one whose tickets are not in the order of certainty */

typedef struct {
    ls_arena *a;
    uint64_t seed, state;
    const char *path;
    const ls_farm *farm;
    json_t *plan, *rates, *log;
} world;

#define HOLDS(t, condition)                                                                                            \
    do {                                                                                                               \
        bool holds_ = (condition);                                                                                     \
        if (!holds_) printf("\nfarm of seed %llu: %s\n", (unsigned long long)(t)->seed, #condition);                   \
        CU_ASSERT_TRUE(holds_);                                                                                        \
    } while (0)

/* ---- documents ---- */

static json_t *document(world *t, const char *command) {
    bool log = strcmp(command, "record") == 0;
    test_run run =
        PROGRAM(t->a, command, t->path, "--format", "json", log ? "--list" : "--draws", log ? NULL : "10000");
    HOLDS(t, run.status == LS_DONE);
    HOLDS(t, strstr(run.out, "nan") == NULL && strstr(run.out, "inf") == NULL);
    json_t *d = json_loads(run.out, JSON_REJECT_DUPLICATES, NULL);
    if (d == NULL) printf("\nfarm of seed %llu: %s\n", (unsigned long long)t->seed, run.err);
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    return d;
}

static const char *word(const json_t *object, const char *name) {
    const char *s = json_string_value(json_object_get(object, name));
    return s == NULL ? "" : s;
}

static double number(const json_t *object, const char *name) {
    return json_number_value(json_object_get(object, name));
}

/* ---- every drop of the plan and of the log ---- */

typedef struct {
    const char *ticket, *lot, *buyer, *field; /* field "": the stack */
    double tons;
    bool from_stack, planned;
} drop;
typedef LS_LIST(drop) drops;

static void add_planned(world *t, drops *out) {
    size_t i, k;
    json_t *load, *one;
    json_array_foreach(json_object_get(t->plan, "loads"), i, load) {
        json_t *parts = json_object_get(load, "drops");
        drop d = {word(load, "ticket"), word(load, "lot"), "", "", number(load, "tons"), false, true};
        if (json_array_size(parts) == 0) *LS_PUSH(t->a, out) = d;
        json_array_foreach(parts, k, one) {
            d.buyer = word(load, "buyer"), d.field = word(one, "field");
            d.tons = number(one, "tons");
            *LS_PUSH(t->a, out) = d;
        }
    }
    json_array_foreach(json_object_get(t->plan, "stack"), i, load) {
        json_array_foreach(json_object_get(load, "out"), k, one) {
            *LS_PUSH(t->a, out) = (drop){word(one, "ticket"),
                                         word(load, "lot"),
                                         word(one, "buyer"),
                                         word(one, "field"),
                                         number(one, "tons"),
                                         true,
                                         true};
        }
    }
}

/* "Buyer 1/Field 2" or "Buyer 1/Field 2 (3.5 ton); Buyer 1/Field 3 (2 ton)". */
static void add_places(world *t, drops *out, drop d, const char *where) {
    char *rest = ls_arena_copy(t->a, where);
    while (rest != NULL) {
        char *end = strstr(rest, "; "), *tons = strstr(rest, " (");
        if (tons != NULL && (end == NULL || tons < end)) {
            d.tons = strtod(tons + 2, NULL);
            *tons = '\0';
        }
        if (end != NULL) *end = '\0';
        char *slash = strchr(rest, '/');
        d.buyer = slash == NULL ? "" : ls_arena_copy_n(t->a, rest, (size_t)(slash - rest));
        d.field = slash == NULL ? "" : slash + 1;
        *LS_PUSH(t->a, out) = d;
        rest = end == NULL ? NULL : end + 2;
    }
}

static void add_logged(world *t, drops *out) {
    size_t i;
    json_t *e;
    json_array_foreach(json_object_get(t->log, "entries"), i, e) {
        if (json_is_integer(json_object_get(e, "replaced_by")) || number(e, "tons") <= 0) continue;
        drop d = {word(e, "ticket"),
                  word(e, "lot"),
                  "",
                  "",
                  number(e, "tons"),
                  json_is_true(json_object_get(e, "from_stack")),
                  false};
        const char *where = word(e, "field");
        add_places(t, out, d, where[0] == '\0' ? "/not told" : where);
    }
}

/* ---- what must hold ---- */

/* One ticket, one load: a load's drops stand together, those of the log before those planned. */
static void numbers_hold(const world *t, const drops *all) {
    for (size_t i = 0; i < all->n; i++)
        for (size_t k = 0; k < i; k++) {
            const drop *a = &all->at[i], *b = &all->at[k];
            bool one_load =
                i > 0 && strcmp(all->at[i - 1].ticket, a->ticket) == 0 && all->at[i - 1].planned == a->planned;
            if (a->planned && !one_load) HOLDS(t, strcmp(a->ticket, b->ticket) != 0);
        }
}

/* Of a lot firm loads go first, and of as many tons possible ones last. */
static void order_of_loads_holds(const world *t) {
    static const char sure[] = "flp"; /* firm, likely, possible */
    size_t i;
    const json_t *load, *last = NULL;
    json_array_foreach(json_object_get(t->plan, "loads"), i, load) {
        bool same_lot = last != NULL && strcmp(word(last, "lot"), word(load, "lot")) == 0;
        bool alike = same_lot && fabs(number(last, "tons") - number(load, "tons")) < 0.01;
        HOLDS(t, !same_lot || word(load, "certainty")[0] != 'f' || word(last, "certainty")[0] == 'f');
        HOLDS(t, !alike || strchr(sure, word(last, "certainty")[0]) <= strchr(sure, word(load, "certainty")[0]));
        last = load;
    }
}

/* Tons an acre of the lot on the field; where it may not go at all, the field's highest. */
static double rate_of(const json_t *field, const char *lot) {
    size_t i;
    const json_t *one;
    double rate = 0, highest = 0;
    json_array_foreach(json_object_get(field, "lots"), i, one) {
        highest = fmax(highest, number(one, "ton_per_ac"));
        if (strcmp(word(one, "lot"), lot) == 0) rate = number(one, "ton_per_ac");
    }
    return rate > 0 ? rate : highest;
}

/* No acre twice. Where the log has covered more than the field, nothing is planned. */
static void field_holds(const world *t, const json_t *field, const drops *all) {
    double covered = 0, planned = 0;
    for (size_t i = 0; i < all->n; i++) {
        const drop *d = &all->at[i];
        if (strcmp(d->field, word(field, "field")) != 0) continue;
        double rate = rate_of(field, d->lot);
        *(d->planned ? &planned : &covered) += rate > 0 ? d->tons / rate : INFINITY;
    }
    double room = fmax(0, number(field, "spreadable_ac") - covered);
    HOLDS(t, planned <= room * (1 + 1e-4) + 0.01);
}

/* No buyer more than ordered, what is gone among it. */
static void order_holds(const world *t, const ls_buyer *b, const drops *all) {
    if (!b->order || !b->order->most.form) return;
    bool in_loads = b->order->most.unit.dimension.power[LS_LOAD] == 1;
    double most = b->order->most.value / (in_loads ? 1 : ls_unit_of("ton").factor);
    double had = 0, planned = 0;
    for (size_t i = 0; i < all->n; i++) {
        const drop *d = &all->at[i];
        if (strcmp(d->buyer, b->name.text) != 0) continue;
        bool same = i > 0 && strcmp(all->at[i - 1].ticket, d->ticket) == 0 &&
                    strcmp(all->at[i - 1].buyer, d->buyer) == 0 && all->at[i - 1].planned == d->planned;
        *(d->planned ? &planned : &had) += in_loads ? (same ? 0 : 1) : d->tons;
    }
    HOLDS(t, planned <= fmax(0, most - had) + 0.02);
}

/* Nothing comes out of the stack that did not go in. Where the log took out more than it put in,
 * only what is still to go in may come out. */
static void lot_in_stack_holds(const world *t, const char *lot, const drops *all) {
    double in = 0, out = 0, there = 0;
    for (size_t i = 0; i < all->n; i++) {
        const drop *d = &all->at[i];
        if (strcmp(d->lot, lot) != 0) continue;
        if (d->from_stack)
            *(d->planned ? &out : &there) += d->planned ? d->tons : -d->tons;
        else if (d->field[0] == '\0')
            *(d->planned ? &in : &there) += d->tons;
    }
    HOLDS(t, out <= fmax(0, there) + in + 0.02);
}

static void stack_holds(const world *t, const drops *all) {
    size_t i;
    json_t *lot; /* the lots of one field are those of all */
    json_array_foreach(json_object_get(json_array_get(json_object_get(t->rates, "fields"), 0), "lots"), i, lot) {
        lot_in_stack_holds(t, word(lot, "lot"), all);
    }
}

/* On fields + in the stack + no home = what is left. */
static void books_hold(world *t) {
    static const char *const stages[] = {"low", "mid", "high"};
    static const char *const parts[] = {"placed_tons", "stacked_tons", "unplaced_tons"};
    json_t *e = document(t, "estimate");
    json_t *total = json_object_get(json_object_get(e, "total"), "tons");
    for (size_t s = 0; s < 3; s++) {
        double sum = 0;
        for (size_t k = 0; k < 3; k++) {
            double part = number(json_object_get(t->plan, parts[k]), stages[s]);
            HOLDS(t, part >= 0);
            sum += part;
        }
        HOLDS(t, fabs(sum - number(total, stages[s])) <= 1e-5 * sum + 0.001);
    }
    json_decref(e);
}

static void plan_holds(world *t) {
    drops all = {0};
    size_t i;
    json_t *field;
    t->plan = document(t, "plan");
    t->rates = document(t, "rates");
    t->log = document(t, "record");
    add_logged(t, &all);
    add_planned(t, &all);
    numbers_hold(t, &all);
    order_of_loads_holds(t);
    json_array_foreach(json_object_get(t->rates, "fields"), i, field) field_holds(t, field, &all);
    for (size_t b = 0; b < t->farm->buyers.n; b++) order_holds(t, &t->farm->buyers.at[b], &all);
    stack_holds(t, &all);
    books_hold(t);
    json_decref(t->rates);
    json_decref(t->log);
}

/* ---- loads ---- */

static const char *any_field(world *t) {
    const ls_buyer *b = &t->farm->buyers.at[test_pick(&t->state, (unsigned)t->farm->buyers.n)];
    const ls_field *f = &b->fields.at[test_pick(&t->state, (unsigned)b->fields.n)];
    return ls_arena_printf(t->a, "%s/%s", b->name.text, f->name.text);
}

/* Mostly where the plan sends it. */
static const char *place(world *t, double tons) {
    switch (test_pick(&t->state, 8)) {
    case 0: return "stack";
    case 1: return any_field(t);
    case 2:
        return ls_arena_printf(t->a, "%s (%.2f ton); %s (%.2f ton)", any_field(t), tons / 3, any_field(t),
                               tons * 2 / 3);
    default: return NULL;
    }
}

/* Records a load; its exit code. */
static int record(world *t, const char *ticket, double tons, int day) {
    static const char *const cleared[] = {"40 %", "all"};
    const char *arguments[16] = {"record",
                                 t->path,
                                 "--ticket",
                                 ticket,
                                 "--sure",
                                 "--tons",
                                 ls_arena_printf(t->a, "%.2f", tons),
                                 "--when",
                                 ls_arena_printf(t->a, "2026-02-%02d", day)};
    const char *to = place(t, tons);
    size_t n = 9;
    if (to != NULL) arguments[n++] = "--field", arguments[n++] = to;
    if (test_pick(&t->state, 3)) arguments[n++] = "--weighed";
    unsigned share = test_pick(&t->state, 20);
    if (share < 2) arguments[n++] = "--cleared", arguments[n++] = cleared[share];
    if (test_pick(&t->state, 8) == 0) arguments[n++] = "--again";
    return test_program(t->a, arguments).status;
}

/* A ticket of the plan goes out; the same one may be tried twice. */
static void haul_one(world *t, const drops *planned, int day) {
    static const double shares[] = {1, 1, 1, 0.97, 1.02, 0.5, 0.05, 1.3};
    const drop *d = &planned->at[test_pick(&t->state, (unsigned)planned->n)];
    double tons = fmax(0.02, d->tons * shares[test_pick(&t->state, 8)]);
    int code = record(t, d->ticket, tons, day - (test_pick(&t->state, 5) == 0));
    HOLDS(t, code == LS_DONE || code == LS_MISTAKE); /* the second is refused */
}

/* The first entry was wrong: struck, or weighed anew. */
static void correct(world *t) {
    const char *tons = test_pick(&t->state, 2) ? "0" : "2.5";
    int code = PROGRAM(t->a, "record", t->path, "--replaces", "1", "--tons", tons, "--sure").status;
    HOLDS(t, code == LS_DONE || code == LS_MISTAKE); /* corrected before */
}

static void haul(world *t, int day) {
    drops planned = {0};
    add_planned(t, &planned);
    for (unsigned n = 1 + test_pick(&t->state, MOST_LOADS); planned.n > 0 && n > 0; n--) haul_one(t, &planned, day);
    if (test_pick(&t->state, 4) == 0) correct(t);
}

static void one_farm(uint64_t seed) {
    world t = {.a = ls_arena_new(), .seed = seed, .state = seed};
    const char *folder = test_folder(t.a);
    t.path = test_file(t.a, folder, "farm.yaml", test_random_farm(t.a, seed));
    t.farm = ls_farm_read(t.a, ls_diag_new(t.a), ls_reference_load(t.a), &t.path, 1);
    CU_ASSERT_PTR_NOT_NULL_FATAL(t.farm);
    plan_holds(&t);
    for (int morning = 0; morning < MORNINGS; morning++) {
        haul(&t, 16 + 2 * morning);
        json_decref(t.plan);
        plan_holds(&t);
    }
    json_decref(t.plan);
    int tickets = PROGRAM(t.a, "tickets", t.path, FEW).status;
    HOLDS(&t, tickets == LS_DONE || tickets == LS_MISTAKE); /* nothing may be left to go */
    test_folder_end(folder);
    ls_arena_free(t.a);
}

static void random_logs(void) {
    uint64_t farms = test_count("RANDOM_LOGS", FARMS);
    for (uint64_t seed = FIRST; seed < FIRST + farms; seed++) one_farm(seed);
}

TEST_SUITE(random_logs) = {
    {"every plan after random loads keeps every limit", random_logs},
    CU_TEST_INFO_NULL,
};
