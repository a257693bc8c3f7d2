/* Figures of the dossier done again from its appendix as with a pencil: read the formula in words,
 * put in the figures of the lines it names, down to the lines that say where they come from. Units
 * by definition: a ton is 2,000 lb, an acre 43,560 ft2, a foot 12 in. */
#include "dossier_world.h"

#include <math.h>
#include <string.h>

typedef struct {
    ls_arena *a;
    json_t *lines;
    size_t steps; /* lines worked out */
} pencil;

static json_t *line_of(const pencil *p, const char *key) {
    size_t i;
    json_t *line;
    json_array_foreach(p->lines, i, line) {
        if (strcmp(json_string_value(json_object_get(line, "key")), key) == 0) return line;
    }
    CU_FAIL_FATAL("a line that the appendix does not have");
    return NULL;
}

static const char *text(json_t *line, const char *key) { return json_string_value(json_object_get(line, key)); }

static double value(json_t *line) { return json_number_value(json_object_get(line, "value")); }

/* ---- units ---- */

static double unit_part(const char *s, size_t n) {
    static const struct {
        const char *name;
        double factor;
    } units[] = {{"ton", 2000}, {"lb", 1},  {"ac", 43560}, {"ft2", 1}, {"ft", 1}, {"in", 1.0 / 12}, {"%", 0.01},
                 {"bird", 1},   {"day", 1}, {"load", 1},   {"ft3", 1}, {"bu", 1}, {"bird-day", 1},  {"", 1}};
    for (size_t i = 0; i < sizeof units / sizeof *units; i++)
        if (strlen(units[i].name) == n && strncmp(units[i].name, s, n) == 0) return units[i].factor;
    CU_FAIL_FATAL("a unit that this test does not know");
    return NAN;
}

static double unit(const char *s) {
    size_t n = strcspn(s, "/");
    return s[n] == '\0' ? unit_part(s, n) : unit_part(s, n) / unit_part(s + n + 1, strlen(s + n + 1));
}

/* ---- formulas ---- */

/* What stands between the labels of the first two lines a line is made of: " + ", " x ", ... */
static const char *between(const pencil *p, json_t *line) {
    json_t *of = json_object_get(line, "made_of");
    const char *formula = text(line, "formula");
    const char *first = text(line_of(p, json_string_value(json_array_get(of, 0))), "label");
    if (json_array_size(of) < 2 || strncmp(formula, first, strlen(first)) != 0) return "";
    const char *second = text(line_of(p, json_string_value(json_array_get(of, 1))), "label");
    const char *rest = formula + strlen(first), *end = strstr(rest, second);
    CU_ASSERT_PTR_NOT_NULL_FATAL(end);
    return ls_arena_copy_n(p->a, rest, (size_t)(end - rest));
}

static double apply(const char *op, double x, double y) {
    if (strcmp(op, " + ") == 0) return x + y;
    if (strcmp(op, " - ") == 0) return x - y;
    if (strcmp(op, " x ") == 0) return x * y;
    if (strcmp(op, " / ") == 0) return x / y;
    CU_FAIL_FATAL("an operation that this test does not know");
    return NAN;
}

/* In lb, ft2, ...; leaves and what words do not tell are taken as they stand. */
static double work_out(pencil *p, const char *key) {
    json_t *line = line_of(p, key), *of = json_object_get(line, "made_of");
    const char *formula = text(line, "formula");
    size_t n = json_array_size(of);
    if (n == 0) return value(line) * unit(text(line, "unit"));
    p->steps++;
    double x = work_out(p, json_string_value(json_array_get(of, 0)));
    bool greatest = strncmp(formula, "the greatest of", 15) == 0,
         complement = strncmp(formula, "1 - ", 4) == 0 && n == 1;
    if (complement) return 1 - x;
    const char *op = greatest || n == 1 ? "" : between(p, line);
    for (size_t i = 1; i < n; i++) {
        double y = work_out(p, json_string_value(json_array_get(of, i)));
        x = greatest ? fmax(x, y) : apply(op, x, y);
    }
    return x;
}

static void figures(void) {
    static const struct {
        const char *key;
        size_t steps; /* at least: the figure is not taken as it stands */
    } asked[] = {
        {"dossier.moved", 1},
        {"dossier.stacked", 2},
        {"dossier.larkspur_hay.upper_meadow.P2O5-per-acre", 4},
        {"dossier.osgood_row_crops.wheat_strip.available-N-per-acre", 4},
        {"dossier.larkspur_hay.upper_meadow.ledger.after", 6},
        {"dossier.osgood_row_crops.wheat_strip.removed", 3},
        {"north.bird_days", 3},
    };
    ls_arena *a = ls_arena_new();
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a), dossier_log(a));
    json_t *d = dossier_document(&w);
    pencil p = {a, json_object_get(d, "worksheet"), 0};
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
        json_t *line = line_of(&p, asked[i].key);
        p.steps = 0;
        double told = value(line) * unit(text(line, "unit"));
        TEST_NEAR(work_out(&p, asked[i].key) / told, 1, 1e-5); /* figures are told to 6 digits */
        CU_ASSERT(p.steps >= asked[i].steps);
    }
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* Every line that another one is made of stands in the appendix, before it. */
static void complete(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = dossier_write(a, dossier_house(a), dossier_fields(a), dossier_log(a));
    json_t *d = dossier_document(&w);
    pencil p = {a, json_object_get(d, "worksheet"), 0};
    size_t i, k;
    json_t *line, *key;
    json_array_foreach(p.lines, i, line) {
        json_array_foreach(json_object_get(line, "made_of"), k, key) line_of(&p, json_string_value(key));
        bool leaf = json_array_size(json_object_get(line, "made_of")) == 0;
        CU_ASSERT_EQUAL(leaf, text(line, "formula")[0] == '\0');
        CU_ASSERT(text(line, "from")[0] != '\0');
    }
    CU_ASSERT(i > 300);
    json_decref(d);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

TEST_SUITE(dossier_pencil) = {{"figures", figures}, {"complete", complete}, CU_TEST_INFO_NULL};
