#include "bench/clock.h"
#include "bench/farms.h"
#include "bench/without.h"
#include "littershed/command.h"

#include "haul/split/model.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *const goal_words[LS_GOALS] = {"tons", "short", "return", "drops"};

static bench_farm farm_of(char **arguments) {
    return (bench_farm){.seed = strtoull(arguments[0], NULL, 10),
                        .lots = strtoul(arguments[1], NULL, 10),
                        .fields = strtoul(arguments[2], NULL, 10),
                        .buyers = strtoul(arguments[3], NULL, 10),
                        .fill = strtod(arguments[4], NULL),
                        .stack = strcmp(arguments[5], "0") != 0};
}

/* Income and all costs, which the gap of the net return is a share of. */
static double turnover(const ls_split_problem *p, const ls_split *s) {
    double sum = 0;
    for (size_t k = 0; k < s->drops_n; k++) sum += s->drops[k].tons * (fabs(p->value[s->drops[k].field]) + 2 * 17);
    for (size_t k = 0; k < s->loads_n; k++) sum += s->loads[k].buyer < p->buyers ? p->trip_cost[s->loads[k].buyer] : 0;
    return sum;
}

/* The most memory of this process, in KiB: getrusage would count that of whoever started it. */
static long peak(void) {
    char line[200];
    long most = 0;
    FILE *in = fopen("/proc/self/status", "r");
    while (in != NULL && fgets(line, sizeof line, in) != NULL)
        if (strncmp(line, "VmHWM:", 6) == 0) most = strtol(line + 6, NULL, 10);
    if (in != NULL) fclose(in);
    return most;
}

static int time_split(const bench_farm *farm) {
    ls_arena *a = ls_arena_new();
    const split_world *w = bench_farm_new(a, farm);
    double begun = bench_wall(), work = bench_work();
    const ls_split *s = ls_split_solve(a, &w->p);
    printf("seconds %.9g\nwork %.9g\n", bench_wall() - begun, bench_work() - work);
    printf("pivots %ld\nnodes %ld\n", bench_counted().pivots, bench_counted().nodes);
    for (int g = 0; g < LS_GOALS; g++)
        printf("%s %.9g\n%s-gap %.9g\n", goal_words[g], s->goals[g].value, goal_words[g], s->goals[g].gap);
    printf("turnover %.9g\npeak %ld\nloads %zu\n", turnover(&w->p, s), peak(), s->loads_n);
    const char *wrong = split_world_wrong(&w->p, s);
    ls_arena_free(a);
    if (wrong != NULL) fprintf(stderr, "%s\n", wrong);
    return wrong == NULL ? LS_DONE : LS_MISTAKE;
}

/* ---- as JSON ---- */

static json_t *number(double v) { return isfinite(v) && fabs(v) < 1e15 ? json_real(v) : json_null(); }

static json_t *numbers(const double *v, size_t n) {
    json_t *list = json_array();
    for (size_t i = 0; i < n; i++) json_array_append_new(list, number(v[i]));
    return list;
}

static json_t *longs(const long *v, size_t n) {
    json_t *list = json_array();
    for (size_t i = 0; i < n; i++) json_array_append_new(list, v[i] == LONG_MAX ? json_null() : json_integer(v[i]));
    return list;
}

static json_t *flags(const bool *v, size_t n) {
    json_t *list = json_array();
    for (size_t i = 0; i < n; i++) json_array_append_new(list, json_boolean(v != NULL && v[i]));
    return list;
}

static json_t *problem_json(const ls_split_problem *p) {
    size_t pairs = p->lots * p->fields;
    json_t *o = json_object(), *buyer = json_array();
    for (size_t f = 0; f < p->fields; f++) json_array_append_new(buyer, json_integer((json_int_t)p->buyer[f]));
    json_object_set_new(o, "tons", numbers(p->tons, p->lots));
    json_object_set_new(o, "payload", numbers(p->payload, p->lots));
    json_object_set_new(o, "buyer", buyer);
    json_object_set_new(o, "use", numbers(p->use, pairs));
    json_object_set_new(o, "value", numbers(p->value, pairs));
    json_object_set_new(o, "later_value", numbers(p->later_value, pairs));
    json_object_set_new(o, "capacity", numbers(p->capacity, p->fields));
    json_object_set_new(o, "open", flags(p->open, pairs));
    json_object_set_new(o, "later", flags(p->later, pairs));
    json_object_set_new(o, "trip_cost", numbers(p->trip_cost, p->buyers));
    json_object_set_new(o, "stack_value", number(p->stack_value));
    json_object_set_new(o, "stack_room", number(p->stack_room));
    json_object_set_new(o, "pile", numbers(p->pile, p->lots));
    json_object_set_new(o, "least", numbers(p->least, p->buyers));
    json_object_set_new(o, "most", numbers(p->most, p->buyers));
    json_object_set_new(o, "least_loads", longs(p->least_loads, p->buyers));
    json_object_set_new(o, "most_loads", longs(p->most_loads, p->buyers));
    json_object_set_new(o, "smallest_drop", number(p->smallest_drop));
    return o;
}

static json_t *goals_json(const ls_split *s) {
    json_t *o = json_object();
    for (int g = 0; g < LS_GOALS; g++)
        json_object_set_new(o, goal_words[g],
                            json_pack("[f,f,f]", s->goals[g].value, s->goals[g].bound, s->goals[g].gap));
    return o;
}

static json_t *columns_json(glp_prob *lp) {
    json_t *list = json_array();
    for (int j = 1; j <= glp_get_num_cols(lp); j++)
        json_array_append_new(list,
                              json_pack("[b,o,o]", glp_get_col_kind(lp, j) != GLP_CV, number(glp_get_col_lb(lp, j)),
                                        number(fmin(1e300, glp_get_col_ub(lp, j)))));
    return list;
}

static json_t *bound(double v) { return fabs(v) > 1e100 ? json_null() : json_real(v); }

/* [low, high, [column, value, ...]] */
static json_t *rows_json(glp_prob *lp) {
    json_t *list = json_array();
    int n = glp_get_num_cols(lp);
    int *columns = calloc((size_t)n + 1, sizeof *columns);
    double *values = calloc((size_t)n + 1, sizeof *values);
    for (int i = 1; i <= glp_get_num_rows(lp); i++) {
        json_t *terms = json_array();
        int m = glp_get_mat_row(lp, i, columns, values);
        for (int k = 1; k <= m; k++) {
            json_array_append_new(terms, json_integer(columns[k] - 1));
            json_array_append_new(terms, json_real(values[k]));
        }
        json_array_append_new(list,
                              json_pack("[o,o,o]", bound(glp_get_row_lb(lp, i)), bound(glp_get_row_ub(lp, i)), terms));
    }
    free(columns);
    free(values);
    return list;
}

/* The program as it is before anything is held. */
static json_t *program_json(ls_arena *a, const ls_split_problem *p, bool with_drops) {
    const ls_haul_task *t = ls_haul_task_new(a, p);
    ls_haul_model *m = ls_haul_model_new(t, with_drops);
    json_t *o = json_object();
    json_object_set_new(o, "columns", columns_json(m->lp));
    json_object_set_new(o, "rows", rows_json(m->lp));
    json_object_set_new(o, "tons", json_integer(m->tons_row - 1));
    json_object_set_new(o, "short", json_integer(m->short_row - 1));
    json_object_set_new(o, "return", json_integer(m->money_row - 1));
    json_object_set_new(o, "shift", json_real(m->money_shift));
    ls_haul_model_free(m);
    glp_free_env();
    return o;
}

static int tell_problem(ls_arena *a, const ls_split_problem *p, bool small) {
    const ls_split *s = ls_split_solve(a, p);
    const char *wrong = split_world_wrong(p, s);
    if (wrong != NULL) ls_fail("%s", wrong);
    json_t *o = json_object();
    json_object_set_new(o, "problem", problem_json(p));
    json_object_set_new(o, "goals", goals_json(s));
    json_object_set_new(o, "program", program_json(a, p, small));
    json_dumpf(o, stdout, JSON_COMPACT | JSON_REAL_PRECISION(15));
    json_decref(o);
    return LS_DONE;
}

static int problem(char **arguments, int n) {
    ls_arena *a = ls_arena_new();
    dice d = {strtoull(arguments[0], NULL, 10) * 0x9e3779b97f4a7c15U};
    bench_farm farm = {0};
    if (n > 1) farm = farm_of(arguments);
    const split_world *w = n == 1 ? split_world_random(a, &d) : bench_farm_new(a, &farm);
    int code = tell_problem(a, &w->p, n == 1);
    ls_arena_free(a);
    return code;
}

int bench_split(const char *what, char **arguments, int n) {
    if (strcmp(what, "problem") == 0 && (n == 1 || n == 6)) return problem(arguments, n);
    if (n < 6 || n > 7 || !bench_leave_out(n == 7 ? arguments[6] : "")) return LS_USAGE;
    bench_farm farm = farm_of(arguments);
    return time_split(&farm);
}
