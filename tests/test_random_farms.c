/* Many small farms drawn at random, each taken from its text to its plan; what must hold of every
 * plan is checked from the plan's own loads, apart from the code that made it. */
#include "random_farm.h"
#include "suite.h"

#include "littershed/agronomy.h"
#include "littershed/haul.h"
#include "littershed/litter.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FARMS = 30 };

/* ---- what must hold ---- */

typedef struct {
    ls_worksheet *w;
    const ls_farm *farm;
    const ls_estimate *estimate;
    ls_agronomy *agronomy;
    const ls_plan *plan;
    uint64_t seed;
} world;

#define HOLDS(t, condition)                                                                        \
    do {                                                                                           \
        bool holds_ = (condition);                                                                 \
        if (!holds_)                                                                               \
            printf("\nfarm of seed %llu: %s\n", (unsigned long long)(t)->seed, #condition);        \
        CU_ASSERT_TRUE(holds_);                                                                    \
    } while (0)

static double value(const world *t, ls_line line) {
    return ls_line_value(t->w, line);
}

/* The limits of every field as the plan finds them, read before it is made: [lot][limit], and its
 * acres. */
enum { LIMITS = 4 };
typedef struct {
    const ls_field *field;
    double acres;
    double (*most)[LIMITS];
} bounds;

static bounds bounds_of(world *t, ls_arena *a, const ls_buyer *b, const ls_field *f) {
    size_t before = ls_worksheet_lines(t->w);
    const ls_field_rates *r = ls_agronomy_field(t->agronomy, b, f);
    bounds out = {f, value(t, r->spreadable),
                  ls_arena_alloc(a, sizeof(double[LIMITS]), t->estimate->n)};
    for (size_t i = 0; i < t->estimate->n; i++) {
        const ls_line lines[LIMITS] = {r->rates[i].nitrogen, r->rates[i].phosphorus,
                                       r->rates[i].cap, r->rates[i].spreader};
        for (size_t k = 0; k < LIMITS; k++)
            out.most[i][k] = lines[k] == LS_NO_LINE ? INFINITY : value(t, lines[k]);
    }
    ls_worksheet_cut(t->w, before);
    return out;
}

/* No field more than its limits, no acre twice. */
static void field_holds(const world *t, const bounds *b) {
    double acres = 0;
    for (size_t i = 0; i < t->plan->loads_n + t->plan->out_n; i++) {
        const ls_load *load =
            i < t->plan->loads_n ? &t->plan->loads[i] : &t->plan->out[i - t->plan->loads_n];
        const double *most = b->most[load->lot - t->estimate->lots];
        for (size_t k = 0; k < load->n; k++) {
            const ls_drop *d = &load->drops[k];
            if (d->field != b->field)
                continue;
            acres += value(t, d->acres);
            for (size_t j = 0; j < LIMITS; j++)
                HOLDS(t, value(t, d->tons) / value(t, d->acres) <= most[j] * (1 + 1e-6));
            HOLDS(t,
                  !b->field->phosphorus || b->field->phosphorus->rating.is != LS_RATING_VERY_HIGH);
        }
    }
    HOLDS(t, acres <= b->acres * (1 + 1e-6));
}

/* Pieces add up, none is too small, none outside its window, no load beyond the truck. */
static void load_holds(const world *t, const ls_load *load) {
    double sum = 0, tons = value(t, load->tons);
    for (size_t k = 0; k < load->n; k++) {
        const ls_drop *d = &load->drops[k];
        sum += value(t, d->tons);
        HOLDS(t, d->field >= load->buyer->fields.at &&
                     d->field < load->buyer->fields.at + load->buyer->fields.n);
        HOLDS(t, value(t, d->tons) >= 2000 * (1 - 1e-9) || load->n == 1);
        ls_window open = d->field->open.days;
        if (load->from_stack)
            HOLDS(t, open.from <= load->from && load->from <= open.to &&
                         load->from <= t->farm->stack->kept_until.day);
        else
            HOLDS(t, open.from <= load->day && load->day <= open.to);
    }
    HOLDS(t, load->buyer == NULL || fabs(sum - tons) < 1e-3);
    HOLDS(t, tons > 0 && tons <= value(t, load->lot->payload.line) + 1e-3);
}

static double loads_of(const ls_plan *p, const ls_buyer *b) {
    double n = 0;
    for (size_t i = 0; i < p->loads_n; i++)
        n += p->loads[i].buyer == b;
    for (size_t i = 0; i < p->out_n; i++)
        n += p->out[i].buyer == b;
    return n;
}

static double tons_of(const world *t, const ls_buyer *b) {
    double sum = 0;
    for (size_t i = 0; i < t->plan->loads_n; i++)
        sum += t->plan->loads[i].buyer == b ? value(t, t->plan->loads[i].tons) : 0;
    for (size_t i = 0; i < t->plan->out_n; i++)
        sum += t->plan->out[i].buyer == b ? value(t, t->plan->out[i].tons) : 0;
    return sum;
}

static void order_holds(const world *t, const ls_buyer *b) {
    if (!b->order || !b->order->most.form)
        return;
    bool loads = b->order->most.unit.dimension.power[LS_LOAD] == 1;
    HOLDS(t, (loads ? loads_of(t->plan, b) : tons_of(t, b)) <= b->order->most.value + 1e-3);
}

/* Fields + stack + no home = the tons of the stage; and the loads say the same. */
static void stages_hold(const world *t) {
    const double total[] = {t->estimate->tons.low, t->estimate->tons.mid, t->estimate->tons.high};
    double straight[LS_STAGES] = {0}, stacked[LS_STAGES] = {0};
    for (size_t i = 0; i < t->plan->loads_n; i++) {
        const ls_load *load = &t->plan->loads[i];
        for (int s = load->certainty == LS_POSSIBLE ? 2 : 1; s < LS_STAGES; s++)
            *(load->buyer ? &straight[s] : &stacked[s]) += value(t, load->tons);
    }
    for (int s = 0; s < LS_STAGES; s++) {
        double on = value(t, t->plan->straight[s]), in = value(t, t->plan->stacked[s]),
               left = value(t, t->plan->unplaced[s]);
        HOLDS(t, on >= 0 && in >= 0 && left >= -1e-6);
        HOLDS(t, fabs(on + in + left - total[s]) < 1e-3);
        HOLDS(t, s == 0 || (fabs(on - straight[s]) < 1e-3 && fabs(in - stacked[s]) < 1e-3));
    }
}

/* A lot's firm loads are full ones, and no more than are there. */
static void firm_holds(const world *t) {
    for (size_t i = 0; i < t->estimate->n; i++) {
        const ls_lot *lot = &t->estimate->lots[i];
        double firm = 0;
        for (size_t k = 0; k < t->plan->loads_n; k++) {
            const ls_load *load = &t->plan->loads[k];
            if (load->lot != lot || load->certainty != LS_FIRM)
                continue;
            firm++;
            HOLDS(t, fabs(value(t, load->tons) - value(t, lot->payload.line)) < 20);
        }
        HOLDS(t, firm <= value(t, lot->firm));
    }
}

typedef LS_LIST(bounds) bounds_list;

static void plan_holds(const world *t, const bounds_list *fields) {
    for (size_t i = 0; i < t->plan->loads_n; i++)
        load_holds(t, &t->plan->loads[i]);
    for (size_t i = 0; i < t->plan->out_n; i++)
        load_holds(t, &t->plan->out[i]);
    for (size_t i = 0; i < t->farm->buyers.n; i++)
        order_holds(t, &t->farm->buyers.at[i]);
    for (size_t i = 0; i < fields->n; i++)
        field_holds(t, &fields->at[i]);
    stages_hold(t);
    firm_holds(t);
    for (int g = 0; g < LS_GOALS; g++)
        HOLDS(t, t->plan->goals[g].gap >= 0);
}

static void one_farm(const char *folder, uint64_t seed) {
    ls_arena *a = ls_arena_new();
    const char *path = ls_arena_printf(a, "%s/farm.yaml", folder), *why;
    const char *text = test_random_farm(a, seed);
    CU_ASSERT_TRUE_FATAL(ls_file_write(a, path, text, strlen(text), &why));
    const ls_reference *r = ls_reference_load(a);
    ls_diag *d = ls_diag_new(a);
    world t = {.seed = seed, .farm = ls_farm_read(a, d, r, &path, 1)};
    bounds_list fields = {0};
    if (t.farm) {
        t.w = ls_worksheet_new(a);
        t.estimate = ls_litter_estimate(t.w, t.farm, r, 1, LS_BLOCK);
        t.agronomy = t.estimate ? ls_agronomy_new(t.w, r, t.estimate) : NULL;
        for (size_t i = 0; t.agronomy && i < t.farm->buyers.n; i++)
            for (size_t k = 0; k < t.farm->buyers.at[i].fields.n; k++)
                *LS_PUSH(a, &fields) =
                    bounds_of(&t, a, &t.farm->buyers.at[i], &t.farm->buyers.at[i].fields.at[k]);
        const ls_plan_terms usual = {.from = LS_NO_DATE};
        t.plan = t.agronomy ? ls_haul_plan(t.w, r, t.estimate, t.agronomy, &usual) : NULL;
        TEST_TEXT(ls_worksheet_fault(t.w), NULL);
    }
    HOLDS(&t, t.plan != NULL);
    if (t.plan)
        plan_holds(&t, &fields);
    else
        printf("%s%s", test_messages(a, d), text);
    ls_arena_free(a);
}

static void random_farms(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    uint64_t farms = test_count("RANDOM_FARMS", FARMS);
    for (uint64_t seed = 1; seed <= farms; seed++)
        one_farm(folder, seed);
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(random_farms) = {
    {"every plan keeps every limit", random_farms},
    CU_TEST_INFO_NULL,
};
