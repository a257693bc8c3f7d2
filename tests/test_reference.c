/* The published tables, against the figures of their sources, and the reader of table files. */
#include "suite.h"

#include "littershed/farm.h"
#include "littershed/reference.h"
#include "reference/tables.h"

#include <math.h>
#include <string.h>

/* What a source prints, in the unit it prints; memory: recalled, not read in the source. */
static const struct {
    const char *kind, *name, *row, *column;
    double value;
    const char *unit, *source;
    ls_status status;
} printed[] = {
    /* NC State table 66, broiler breeder house whole litter */
    {"droppings", "broiler breeder", "ncsu-66", "litter", 0.087, "lb/bird/day", "ncsu-66", LS_READ},
    {"composition", "broiler breeder", "ncsu-66", "N", 37, "lb/ton", "ncsu-66", LS_READ},
    {"composition", "broiler breeder", "ncsu-66", "P2O5", 58, "lb/ton", "ncsu-66", LS_READ},
    {"composition", "broiler breeder", "ncsu-66", "K2O", 35, "lb/ton", "ncsu-66", LS_READ},
    {"composition", "broiler breeder", "ncsu-66", "NH4N_share", 21, "%", "ncsu-66", LS_READ},
    {"composition", "broiler breeder", "ncsu-66", "Ca", 83, "lb/ton", "ncsu-66", LS_READ},
    {"density", "", "broiler breeder", "density", 50, "lb/ft3", "ncsu-66", LS_READ},
    {"moisture", "", "broiler breeder", "moisture", 31, "%", "ncsu-66", LS_DERIVED},
    /* NC State table 81, duck house whole litter */
    {"droppings", "duck", "ncsu-81", "litter", 0.17, "lb/bird/day", "ncsu-81", LS_READ},
    {"droppings", "duck", "ncsu-81", "moisture", 63, "%", "ncsu-81", LS_DERIVED},
    {"composition", "duck", "ncsu-81", "P2O5", 21, "lb/ton", "ncsu-81", LS_READ},
    /* Coufal and others 2006: 228.2 g dry litter and cake per kg live weight */
    {"droppings", "broiler", "coufal", "litter", 228.2, "g/kg", "coufal", LS_READ},
    /* Patterson and others 1998: 0.71 and 1.23 dry tons per 1,000 broilers of 4.43 and 5.90 lb that
     * ate 8.42 and 12.47 lb */
    {"droppings", "broiler", "patterson-98", "litter", 0.00097, "ton/bird", "patterson-98", LS_DERIVED},
    {"droppings", "broiler", "patterson-98", "own_feed", 10.445, "lb/bird", "patterson-98", LS_DERIVED},
    {"droppings", "broiler", "aces-839", "litter", 0.6, "lb/lb", "aces-839", LS_READ},
    {"droppings", "broiler", "uga-b1245", "litter", 2.5, "lb/bird", "uga-b1245", LS_READ},
    {"droppings", "layer pullet", "uga-b1245", "litter", 8, "lb/bird", "uga-b1245", LS_READ},
    /* Iowa State, high-rise layer house: 6.2 dry tons per 1,000 hens and year */
    {"droppings", "layer", "iowa-hr", "litter", 0.0062, "ton/bird/year", "iowa-hr", LS_READ},
    /* weight and feed by age */
    {"growth", "broiler", "56 days male", "feed", 7.40, "kg/bird", "poultryhub-broiler", LS_READ},
    {"growth", "turkey tom", "140 days", "weight", 20.91, "kg/bird", "ncsu-tom-21", LS_READ},
    {"growth", "duck", "42 days", "weight", 6.19, "lb/bird", "pekin-weights", LS_READ2},
    {"moisture", "", "manure pit", "moisture", 46.9, "%", "iowa-hr", LS_READ},
    {"moisture", "", "manure scraped", "moisture", 29.8, "%", "iowa-hr", LS_READ},
    {"composition", "layer", "iowa-hr", "P2O5", 82, "lb/ton", "iowa-hr", LS_READ},
    {"composition", "broiler", "uga-b1330", "N", 63, "lb/ton", "uga-b1330", LS_READ},
    {"composition", "broiler", "uga-b1330 stacked", "P2O5", 57, "lb/ton", "uga-b1330", LS_READ},
    {"composition", "turkey hen", "ksu-types", "K2O", 55, "lb/ton", "ksu-types", LS_READ},
    {"excreted", "broiler breeder", "spe-2021", "N", 0.69, "kg/bird/year", "spe-2021", LS_READ},
    {"excreted", "duck", "d384-2", "N", 0.14, "lb/bird", "d384-2", LS_MEMORY}, /* from memory */
    {"bird", "", "broiler breeder", "egg_weight", 63, "g/egg", "ifas-vm099", LS_READ},
    {"bird", "", "broiler breeder", "eggs", 165, "egg/bird", "attia-95", LS_READ},
    {"bird", "", "layer", "feed", 104.5, "g/bird/day", "ohio-804", LS_DERIVED}, /* 20 to 26 lb a 100 hens and day */
    {"bedding", "", "rice hulls", "density", 5.5, "lb/ft3", "ahn-16", LS_READ},
    {"removal", "ipni", "corn grain", "N", 0.67, "lb/bu", "ipni", LS_MEMORY},       /* from memory */
    {"removal", "ipni", "tall fescue hay", "K2O", 54, "lb/ton", "ipni", LS_MEMORY}, /* from memory */
    {"removal", "omafa-25", "wheat grain", "N", 1.2, "lb/bu", "omafa-25", LS_READ},
    {"removal", "uky-142", "alfalfa hay", "P2O5", 14, "lb/ton", "uky-142", LS_READ},
    {"grazing", "", "beef", "N", 25, "%", "uky-142", LS_READ},
    {"need", "", "corn grain", "per_bu", 1.2, "lb/bu", "uga-corn", LS_READ},
    {"need", "", "bermudagrass hay", "most", 400, "lb/ac", "uga-037", LS_READ},
    {"nitrogen", "psu-pan", "factors", "organic", 60, "%", "psu-pan", LS_READ},
    {"nitrogen", "ksu-value", "factors", "organic", 25, "%", "ksu-value", LS_READ},
    {"ammonium", "alberta", "within 3 days", "warm dry", 35, "%", "alberta", LS_READ},
    {"ammonium", "alberta", "never", "cool wet", 60, "%", "alberta", LS_READ},
    {"carryover", "cornell-n", "year 2", "organic", 12, "%", "cornell-n", LS_READ},
    {"soil", "piedmont", "P", "high", 75, "lb/ac", "uga-041", LS_READ},
    {"soil", "coastal_plain", "K", "medium", 150, "lb/ac", "uga-037", LS_READ},
    {"recommended", "clemson-049", "tall fescue hay P2O5 low", "rate", 80, "lb/ac", "clemson-049", LS_READ},
    {"fertilizer", "", "DAP", "P2O5", 920, "lb/ton", "uga-c933", LS_READ},
    {"practice", "", "cap", "value", 3, "ton/ac", "aces-889", LS_READ},
    {"practice", "", "stack end clearance", "value", 12, "ft", "al-eng-25", LS_READ},
    {"rule", "", "cattle off pasture", "value", 21, "day", "botulism-nsw", LS_READ},
};

static void test_printed_figures(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    for (size_t i = 0; i < sizeof printed / sizeof *printed; i++) {
        const ls_figure *f = ls_row_figure(
            ls_table_row(ls_reference_table(r, printed[i].kind, printed[i].name), printed[i].row), printed[i].column);
        CU_ASSERT_PTR_NOT_NULL_FATAL(f);
        ls_unit unit;
        TEST_SAME(ls_unit_parse(a, printed[i].unit, strlen(printed[i].unit), &unit), LS_UNIT_OK);
        TEST_NEAR(f->value, printed[i].value * unit.factor, 1e-12);
        CU_ASSERT(ls_dimension_same(f->unit.dimension, unit.dimension));
        TEST_TEXT(f->source->id, printed[i].source);
        TEST_SAME(f->status, printed[i].status);
        CU_ASSERT_PTR_EQUAL(f,
                            ls_reference_need(r, printed[i].kind, printed[i].name, printed[i].row, printed[i].column));
    }
    ls_arena_free(a);
}

static void check_figure(ls_arena *a, const ls_table *t, const ls_row *row, const ls_cell *cell) {
    const ls_figure *f = cell->figure;
    TEST_TEXT(f->id, ls_arena_printf(a, "%s/%s/%s", t->id, row->name, cell->column));
    CU_ASSERT(f->source != NULL || f->status == LS_PRACTICE);
    CU_ASSERT(f->why != NULL && f->why[0] != '\0');
    CU_ASSERT(isfinite(f->value) && f->value >= 0);
    CU_ASSERT(f->status != LS_DERIVED || f->note != NULL); /* the arithmetic */
    if (f->spread.kind == LS_RECTANGULAR || f->spread.kind == LS_TRUNCATED)
        CU_ASSERT(f->spread.low < f->value && f->value < f->spread.high);
}

static bool is_among(const char *word, const char *const *words, size_t n) {
    for (size_t i = 0; i < n; i++)
        if (strcmp(word, words[i]) == 0) return true;
    return false;
}

static void check_row(ls_arena *a, const ls_table *t, const ls_row *row) {
    static const char *const pers[] = {"bird-day",  "hen-day",        "bird",           "live-weight",
                                       "bird-year", "bird-by-weight", "live-weight-day"};
    static const char *const states[] = {"dry", "wet"};
    CU_ASSERT(row->source != NULL || row->status == LS_PRACTICE);
    CU_ASSERT(row->n > 0);
    const char *per = ls_row_word(row, "per"), *state = ls_row_word(row, "state");
    CU_ASSERT(per == NULL || is_among(per, pers, sizeof pers / sizeof *pers));
    CU_ASSERT(strcmp(t->kind, "droppings") != 0 || is_among(state, states, sizeof states / sizeof *states));
    for (size_t i = 0; i < row->n; i++) {
        CU_ASSERT((row->cells[i].figure == NULL) != (row->cells[i].word == NULL));
        if (row->cells[i].figure != NULL) check_figure(a, t, row, &row->cells[i]);
    }
}

static void test_every_row(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    const ls_table *t;
    for (size_t i = 0; (t = ls_reference_at(r, i)) != NULL; i++) {
        CU_ASSERT(t->n > 0);
        CU_ASSERT_PTR_EQUAL(ls_reference_by_id(r, t->id), t); /* so ids are unique */
        CU_ASSERT_PTR_EQUAL(ls_reference_table(r, t->kind, t->name), t);
        CU_ASSERT_PTR_NULL(strchr(t->id, ' '));
        for (size_t k = 0; k < t->n; k++) {
            CU_ASSERT_PTR_EQUAL(ls_table_row(t, t->rows[k].name), &t->rows[k]);
            check_row(a, t, &t->rows[k]);
        }
    }
    const ls_source *s;
    for (size_t i = 0; (s = ls_reference_source_at(r, i)) != NULL; i++)
        CU_ASSERT_PTR_EQUAL(ls_reference_source(r, s->id), s);
    ls_arena_free(a);
}

static bool is_default(const ls_row *row) {
    const char *word = ls_row_word(row, "default");
    return word != NULL && strcmp(word, "yes") == 0;
}

/* The default rows of a table that hold a figure in a column, by how well it is known. */
static size_t defaults_with(const ls_table *t, const char *column, bool memory) {
    size_t n = 0;
    for (size_t i = 0; i < t->n; i++) {
        const ls_figure *f = ls_row_figure(&t->rows[i], column);
        n += is_default(&t->rows[i]) && f != NULL && (f->status == LS_MEMORY) == memory;
    }
    return n;
}

/* A figure from memory is used only where no figure that was read serves; and what is not pooled
 * has one default. */
static void test_defaults(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    static const char *const kinds[] = {"droppings", "composition", "excreted", "kept"};
    static const char *const columns[] = {"litter", "N", "P", "K", "P2O5", "K2O", "NH4N_share", "dry_matter"};
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++)
        for (int b = 1; b < LS_BIRDS; b++) {
            const ls_table *t = ls_reference_table(r, kinds[k], ls_bird_name(b));
            CU_ASSERT_PTR_NOT_NULL_FATAL(t);
            size_t figures = 0;
            for (size_t c = 0; c < sizeof columns / sizeof *columns; c++) {
                size_t memory = defaults_with(t, columns[c], true), read = defaults_with(t, columns[c], false);
                CU_ASSERT(memory == 0 || read == 0);
                CU_ASSERT(k == 0 || memory + read <= 1);
                figures += memory + read;
            }
            CU_ASSERT(figures > 0 || k == 0); /* none found of turkeys */
        }
    ls_arena_free(a);
}

static double figure(const ls_reference *r, const char *kind, const char *name, const char *row, const char *column) {
    return ls_reference_need(r, kind, name, row, column)->value;
}

/* Birds that grow have a curve: a hatch weight, two weights or more after it, each above the one
 * before, and feed; grown birds eat so much a day. All have what the balance asks for. */
static void check_growth(const ls_table *t) {
    size_t weights = 0, feeds = 0;
    double day = -1, weight = 0;
    for (size_t i = 0; i < t->n; i++) {
        const ls_figure *days = ls_row_figure(&t->rows[i], "days"), *now = ls_row_figure(&t->rows[i], "weight");
        if (!is_default(&t->rows[i])) continue;
        CU_ASSERT(days->value > day && now->value > weight);
        day = days->value, weight = now->value;
        weights++;
        feeds += ls_row_figure(&t->rows[i], "feed") != NULL;
    }
    TEST_NEAR(ls_row_figure(ls_table_row(t, "hatch"), "days")->value, 0, 0);
    CU_ASSERT(weights >= 3 && feeds >= 1);
}

static void test_birds_are_whole(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    static const char *const tables[] = {"droppings", "composition", "excreted", "kept"};
    static const char *const queried[] = {"floor space", "stay"};
    size_t grow = 0;
    for (int b = 1; b < LS_BIRDS; b++) {
        const ls_table *growth = ls_reference_table(r, "growth", ls_bird_name(b));
        grow += growth != NULL;
        if (growth != NULL)
            check_growth(growth);
        else
            CU_ASSERT(figure(r, "bird", "", ls_bird_name(b), "feed") > 0);
        CU_ASSERT(figure(r, "bird", "", ls_bird_name(b), "lost") > 0);
        CU_ASSERT(figure(r, "bird", "", ls_bird_name(b), "excreted_share") > 0.2);
        CU_ASSERT(figure(r, "bird", "", ls_bird_name(b), "bedding") >= 0);
        CU_ASSERT(figure(r, "moisture", "", ls_bird_name(b), "moisture") > 0);
        CU_ASSERT(figure(r, "density", "", ls_bird_name(b), "density") > 0);
        for (size_t k = 0; k < sizeof tables / sizeof *tables; k++)
            CU_ASSERT_PTR_NOT_NULL(ls_reference_table(r, tables[k], ls_bird_tables(b)));
        for (size_t k = 0; k < sizeof queried / sizeof *queried; k++)
            CU_ASSERT(figure(r, "plausible", "", ls_arena_printf(a, "%s %s", queried[k], ls_bird_name(b)), "high") > 0);
    }
    CU_ASSERT(grow >= 6);
    ls_arena_free(a);
}

/* NRCS manure table, read: birds per animal unit of 1,000 lb, tons of manure per unit and year, lb
 * N, P, K per ton as excreted. By live weight and day, but for hens, whose weight changes little.
 */
static void test_excretion_derived(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    static const char *const elements[] = {"N", "P", "K"};
    static const struct {
        const char *bird;
        double pounds, tons, per_ton[3];
    } rows[] = {
        {"broiler", 1000, 14.97, {26.83, 7.80, 10.49}},     {"layer", 250, 11.45, {26.93, 9.98, 10.44}},
        {"layer pullet", 250, 11.45, {26.93, 9.98, 10.44}}, {"breeder pullet", 250, 11.45, {26.93, 9.98, 10.44}},
        {"turkey tom", 1000, 8.18, {30.36, 11.83, 11.61}},  {"turkey hen", 1000, 8.18, {30.36, 11.83, 11.61}}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double manure = rows[i].tons * 2000 / rows[i].pounds / 365;
        for (size_t k = 0; k < 3; k++)
            TEST_NEAR(figure(r, "excreted", rows[i].bird, "nrcs-au", elements[k]), manure / 2000 * rows[i].per_ton[k],
                      3e-4);
    }
    /* the same, worked out by hand beforehand */
    TEST_NEAR(figure(r, "excreted", "layer", "nrcs-au", "N"), 0.00338, 1e-3);
    ls_arena_free(a);
}

static void test_breeder_derived(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    /* UGA bulletin 1245: 14,000 hens make 150 tons a year at 50 % dry matter; 43 weeks in the
     * house, 4 empty. */
    double house = figure(r, "droppings", "broiler breeder", "uga-b1245", "litter");
    TEST_NEAR(house * 43 / 47 * 365 * 14000 / 2000 / 0.50, 150, 1e-3);
    /* Handboek 1988: 40 kg feed in 42 weeks, 0.20 dry manure, 30 % lost: 5.6 kg dry per hen. */
    double eaten = figure(r, "bird", "", "broiler breeder", "feed") * 294 * 0.45359237;
    TEST_NEAR(eaten, 40, 1e-3);
    TEST_NEAR(eaten * figure(r, "droppings", "broiler breeder", "handboek", "feed_share") * 0.70, 5.6, 1e-3);
    /* NC State table 66 prints 0.13 lb litter and 0.0024 lb N, 0.0037 lb P2O5, 0.0022 lb K2O per
     * bird and day. */
    double wet = figure(r, "droppings", "broiler breeder", "ncsu-66", "litter") /
                 (1 - figure(r, "moisture", "", "broiler breeder", "moisture"));
    TEST_NEAR(wet, 0.13, 0.04);
    TEST_NEAR(wet * figure(r, "composition", "broiler breeder", "ncsu-66", "N"), 0.0024, 0.04);
    TEST_NEAR(wet * figure(r, "composition", "broiler breeder", "ncsu-66", "P2O5"), 0.0037, 0.04);
    TEST_NEAR(wet * figure(r, "composition", "broiler breeder", "ncsu-66", "K2O"), 0.0022, 0.04);
    ls_arena_free(a);
}

static void test_others_derived(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    /* Coufal: 25,000 broilers of 6.0 lb make 22,995 lb dry litter and 11,220 lb dry cake. */
    TEST_NEAR(25000 * 6.0 * figure(r, "droppings", "broiler", "coufal", "litter"), 22995 + 11220, 1e-3);
    /* Iowa: 100,000 hens make 1,050 wet tons a year. */
    double dry = figure(r, "droppings", "layer", "iowa-hr", "litter") * 365 * 100000 / 2000;
    TEST_NEAR(dry / (1 - figure(r, "composition", "layer", "iowa-hr", "moisture")), 1050, 1e-3);
    /* Handbook chapter 6 (from memory): 56 lb corn of 1.61 % N, 0.28 % P, 0.40 % K. */
    double to_p2o5 = figure(r, "practice", "", "P to P2O5", "value"),
           to_k2o = figure(r, "practice", "", "K to K2O", "value");
    TEST_NEAR(figure(r, "removal", "awmfh", "corn grain", "N"), 56 * 0.0161, 1e-3);
    TEST_NEAR(figure(r, "removal", "awmfh", "corn grain", "P2O5"), 56 * 0.0028 * to_p2o5, 1e-3);
    TEST_NEAR(figure(r, "removal", "awmfh", "corn grain", "K2O"), 56 * 0.0040 * to_k2o, 1e-3);
    /* IUPAC atomic weights. */
    TEST_NEAR(to_p2o5, (2 * 30.974 + 5 * 15.999) / (2 * 30.974), 1e-4);
    TEST_NEAR(to_k2o, (2 * 39.098 + 15.999) / (2 * 39.098), 1e-4);
    /* UGA circular 933: urea 46 % N. */
    TEST_NEAR(figure(r, "fertilizer", "", "urea", "N"), 0.46, 1e-12);
    ls_arena_free(a);
}

static void test_spreads(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    /* NC State table 66: N 98 samples, 8.0 to 87, mean 37, sd 15 lb/ton. */
    const ls_figure *n = ls_reference_need(r, "composition", "broiler breeder", "ncsu-66", "N");
    TEST_SAME(n->spread.kind, LS_TRUNCATED);
    TEST_NEAR(n->spread.scale, 15.0 / 2000, 1e-12);
    TEST_NEAR(n->spread.low, 8.0 / 2000, 1e-12);
    TEST_NEAR(n->spread.high, 87.0 / 2000, 1e-12);
    TEST_NEAR(n->printed.n, 98, 0);
    TEST_NEAR(n->printed.median, 37.0 / 2000, 1e-12);
    /* its litter mass: 3 samples, mean 0.13, sd 0.0096; solids 98 samples, mean 69, sd 13 */
    const ls_figure *litter = ls_reference_need(r, "droppings", "broiler breeder", "ncsu-66", "litter");
    TEST_SAME(litter->spread.kind, LS_LOG_STUDENT);
    TEST_NEAR(litter->spread.df, 2, 0);
    TEST_NEAR(litter->spread.scale, hypot(0.0096 / 0.13 / sqrt(3), 13.0 / 69 / sqrt(98)), 1e-3);
    const ls_figure *house = ls_reference_need(r, "droppings", "broiler breeder", "uga-b1245", "litter");
    TEST_SAME(house->spread.kind, LS_NORMAL);
    TEST_NEAR(house->spread.scale, 0.20 * house->value, 1e-12);
    const ls_figure *corn = ls_reference_need(r, "removal", "omafa-25", "corn grain", "N"); /* 0.65 to 1.0 lb/bu */
    TEST_SAME(corn->spread.kind, LS_RECTANGULAR);
    TEST_NEAR(corn->spread.low, 0.65, 1e-12);
    TEST_NEAR(corn->printed.most, 1.0, 1e-12);
    CU_ASSERT(isnan(corn->printed.mean));
    TEST_SAME(ls_reference_need(r, "removal", "us-crops", "corn grain", "N")->spread.kind, LS_EXACT);
    /* a name it had before is still understood, and no other */
    const ls_table *removal = ls_reference_by_id(r, "removal-us-crops");
    CU_ASSERT(removal != NULL && removal == ls_reference_table(r, "removal", "ipni") &&
              removal == ls_reference_by_id(r, "removal-ipni"));
    CU_ASSERT_PTR_NULL(ls_reference_by_id(r, "removal-"));
    ls_arena_free(a);
}

static int need_nothing(void *context) {
    ls_reference_need(context, "removal", "ipni", "corn grain", "Zn");
    return 0;
}

static void test_finding(void) {
    ls_arena *a = ls_arena_new();
    const ls_reference *r = ls_reference_load(a);
    TEST_TEXT(ls_reference_version(r), "2026.7");
    TEST_TEXT(ls_reference_date(r), "2026-12-01");
    CU_ASSERT_PTR_NULL(ls_reference_table(r, "removal", "nobody"));
    CU_ASSERT_PTR_NULL(ls_reference_by_id(r, "removal"));
    CU_ASSERT_PTR_NULL(ls_table_row(NULL, "corn grain"));
    CU_ASSERT_PTR_NULL(ls_row_figure(NULL, "N"));
    CU_ASSERT_PTR_NULL(ls_row_word(NULL, "per"));
    CU_ASSERT_PTR_NULL(ls_reference_source(r, "nobody"));
    CU_ASSERT_PTR_NULL(ls_reference_at(r, 100000));
    const ls_row *row = ls_table_row(ls_reference_by_id(r, "droppings-broiler-breeder"), "ncsu-66");
    TEST_TEXT(ls_row_word(row, "per"), "bird-day");
    CU_ASSERT_PTR_NULL(ls_row_word(row, "litter"));
    CU_ASSERT_PTR_NULL(ls_row_figure(row, "per"));
    TEST_TEXT(ls_status_words(LS_MEMORY), "from memory");
    TEST_TEXT(ls_status_words(LS_PRACTICE), "common practice");
    test_run run = test_call(a, need_nothing, (void *)(uintptr_t)r, NULL);
    TEST_SAME(run.status, 3);
    TEST_HOLDS(run.err, "removal/ipni/corn grain/Zn");
    ls_arena_free(a);
}

/* Reads text as a table file into an empty set; its messages. */
static const char *read_text(ls_arena *a, const char *text, ls_reference **set) {
    ls_diag *d = ls_diag_new(a);
    int32_t file = ls_diag_input(d, (ls_input){"own.yaml", text, strlen(text)});
    *set = LS_NEW(a, ls_reference, 1);
    ls_reference_read(a, d, *set, NULL, &file, 1);
    return test_messages(a, d);
}

#define HEAD "sources: [{id: s, who: w, title: t}]\ntables:\n- kind: removal\n  name: x\n  title: t\n"

static void test_reading(void) {
    ls_arena *a = ls_arena_new();
    ls_reference *set;
    const char *messages = read_text(a,
                                     HEAD "  source: s\n  status: read\n  spread: lognormal\n  log_sd: 0.3\n  rows:\n"
                                          "    corn: {N: 0.5 lb/bu, P2O5: 0.2..0.4 lb/bu,\n"
                                          "           K2O: {n: 4, mean: 0.3, sd: 0.1, unit: lb/bu, spread: student}}\n"
                                          "    oats: {source: none, status: practice, note: guess, N: 1 lb/bu}\n",
                                     &set);
    TEST_TEXT(messages, "");
    const ls_row *corn = ls_table_row(ls_reference_by_id(set, "removal-x"), "corn");
    const ls_figure *n = ls_row_figure(corn, "N"), *p = ls_row_figure(corn, "P2O5"), *k = ls_row_figure(corn, "K2O");
    TEST_SAME(n->spread.kind, LS_LOGNORMAL);
    TEST_NEAR(n->spread.scale, 0.3, 1e-12);
    TEST_NEAR(p->value, 0.3, 1e-12);
    TEST_SAME(k->spread.kind, LS_STUDENT);
    TEST_NEAR(k->spread.scale, 0.05, 1e-12); /* 0.1 / sqrt 4 */
    TEST_NEAR(k->spread.df, 3, 0);
    const ls_row *oats = ls_table_row(ls_reference_by_id(set, "removal-x"), "oats");
    CU_ASSERT_PTR_NULL(oats->source);
    TEST_TEXT(ls_row_figure(oats, "N")->note, "guess");
    ls_arena_free(a);
}

/* The text, as rows of one table, is refused with a message that holds the part. */
static void refused(const char *rows, const char *part) {
    ls_arena *a = ls_arena_new();
    ls_reference *set;
    TEST_HOLDS(
        read_text(a, ls_arena_printf(a, HEAD "  source: s\n  status: read\n  rows:\n    corn: %s\n", rows), &set),
        part);
    ls_arena_free(a);
}

static void test_mistakes(void) {
    refused("{N: 0.67 lb/ac}", "own.yaml:9:15: error: a figure in this column is in lb/bu or the like, not in lb/ac");
    refused("{N: 0.67}", "not in a bare number");
    refused("{N: 0.67 lb/bushl}", "there is no unit lb/bushl");
    refused("{N: 0.6x lb/bu}", "this is no figure");
    refused("{N: 1...2 lb/bu}", "this is no figure");
    refused("{N: much}", "this column holds figures");
    refused("{N: \"0.67 lb/bu\"}", "this column holds figures");
    refused("{N: [1, 2]}", "this column holds figures");
    refused("{P2O6: 1 lb/bu}", "did you mean P2O5?");
    refused("{N: 1 lb/bu, source: z}", "there is no source z");
    refused("{N: 1 lb/bu, status: red}", "there is no status red");
    refused("{N: 1 lb/bu, source: none}", "the source is missing");
    refused("{N: {value: 1 lb, unit: lb/bu}}", "value must be a bare number");
    refused("{N: {vlaue: 1, unit: lb/bu}}", "a figure has nothing called vlaue");
    refused("{N: {value: 1, unit: lb/bu, spread: wide}}", "there is no such spread");
    refused("{N: {value: 1, unit: lb/bu, spread: normal}}", "this spread needs a scale above zero");
    refused("{N: {value: 1, unit: lb/bu, spread: truncated, sd: 1}}", "this spread needs two bounds");
    refused("{N: {mean: 1, scale: 1, unit: lb/bu, spread: student}}", "this spread needs n above 1, or df");
    refused("{N: {mean: 1, least: 2, most: 3, unit: lb/bu}}", "out of order");
    refused("{N: {mean: 2.2, least: 2, most: 3, unit: lb/bu}}", "say which spread it has");
    refused("{N: 3..2 lb/bu}", "out of order");
    refused("{N: {n: 1.5, mean: 1, unit: lb/bu}}", "n is not a whole number");
    refused("{N: {unit: lb/bu}}", "there is no figure");
    refused("5", "the row corn must be a list of columns");
}

static void test_mistakes_of_tables(void) {
    static const struct {
        const char *text, *part;
    } cases[] = {
        {"tables: 5\n", "tables must be a list"},
        {"tabels: []\n", "did you mean tables?"},
        {"5\n", "a file of tables must be a list of keys"},
        {"sources: [{id: s, who: w}]\n", "a source has no title"},
        {"sources: [{id: s, who: w, title: t}, {id: s, who: w, title: t}]\n", "a second time"},
        {"tables: [{kind: removals, title: t}]\n", "did you mean removal?"},
        {"tables: [{kind: removal, title: t, rows: {corn: {N: 1 lb/bu}}}]\n", "the status is missing"},
        {"tables: [{kind: removal, title: t}]\n", "the table removal has no rows"},
        {"tables: [{kind: removal, title: t, status: practice, spread: normal, rows: {corn: {N: 1 "
         "lb/bu}}}]\n",
         "the spread of the table's single figures is not given"},
        {"tables: [{kind: droppings, title: t, status: practice, rows: {x: {per: hour}}}]\n", "per cannot be hour"},
        {"tables: [{kind: droppings, title: t, status: practice, rows: {x: {per: 5}}}]\n", "per must be a word"},
        {"tables:\n- {kind: soil, title: t, status: practice, rows: {P: {low: 5 lb/ac}}}\n"
         "- {kind: soil, title: t, status: practice, rows: {P: {low: 6 lb/ac}}}\n",
         "the table soil stands here a second time"},
    };
    ls_arena *a = ls_arena_new();
    ls_reference *set;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        TEST_HOLDS(read_text(a, cases[i].text, &set), cases[i].part);
    ls_arena_free(a);
}

TEST_SUITE(reference) = {{"figures as their sources print them", test_printed_figures},
                         {"every row has source, status and reasons", test_every_row},
                         {"memory serves only where nothing was read", test_defaults},
                         {"every bird has its rows", test_birds_are_whole},
                         {"excretion derived from the federal table", test_excretion_derived},
                         {"breeder litter against its sources", test_breeder_derived},
                         {"other derived figures", test_others_derived},
                         {"spreads", test_spreads},
                         {"finding tables, rows and figures", test_finding},
                         {"a table file read", test_reading},
                         {"mistakes in rows", test_mistakes},
                         {"mistakes in tables", test_mistakes_of_tables},
                         CU_TEST_INFO_NULL};
