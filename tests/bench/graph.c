#include "bench/graph.h"

#include "bench/clock.h"
#include "worksheet/program.h"

#include <math.h>

enum { SEED = 1 };

typedef LS_LIST(ls_drawn) wanted_list;

static void want(ls_arena *a, wanted_list *list, ls_line line) {
    for (size_t i = 0; i < list->n; i++)
        if (list->at[i].line == line) return;
    if (line != LS_NO_LINE) *LS_PUSH(a, list) = ls_drawn_of(line);
}

static void want_lot(ls_arena *a, wanted_list *list, const ls_lot *lot) {
    const ls_line single[] = {lot->tons.line,    lot->dry_tons.line, lot->moisture.line,
                              lot->payload.line, lot->full_loads,    lot->trips};
    for (size_t i = 0; i < sizeof single / sizeof *single; i++) want(a, list, single[i]);
    for (int k = 0; k < LS_NUTRIENTS; k++) {
        want(a, list, lot->per_ton[k].line);
        want(a, list, lot->pounds[k].line);
    }
    for (size_t i = 0; i < lot->methods_n; i++) want(a, list, lot->methods[i].tons.line);
}

static wanted_list wanted_of(ls_arena *a, const ls_estimate *e) {
    wanted_list list = {0};
    const ls_line totals[] = {e->tons.line, e->dry_tons.line, e->value.line, e->full_loads, e->trips};
    for (size_t i = 0; i < e->n; i++) want_lot(a, &list, &e->lots[i]);
    for (size_t i = 0; i < sizeof totals / sizeof *totals; i++) want(a, &list, totals[i]);
    for (int k = 0; k < LS_NUTRIENTS; k++) want(a, &list, e->pounds[k].line);
    return list;
}

bench_graph bench_graph_read(const char *const *files, size_t n) {
    ls_arena *a = ls_arena_new();
    ls_diag *diag = ls_diag_new(a);
    ls_worksheet *w = ls_worksheet_new(a);
    const ls_reference *r = ls_reference_load(a);
    const ls_farm *f = ls_farm_read(a, diag, r, files, n);
    const ls_estimate *e = f ? ls_litter_estimate(w, f, r, SEED, LS_BLOCK) : NULL;
    if (e == NULL) {
        ls_diag_print(diag, stderr);
        ls_fail("the bench cannot estimate this farm");
    }
    wanted_list list = wanted_of(a, e);
    ls_draw_job *jobs = LS_NEW(a, ls_draw_job, list.n);
    for (size_t i = 0; i < list.n; i++) jobs[i] = (ls_draw_job){w, list.at[i]};
    return (bench_graph){
        .arena = a, .sheet = w, .n = list.n, .wanted = list.at, .program = ls_worksheet_compile(a, jobs, list.n)};
}

static void tell_time(double wall, double work) { printf("seconds %.9g\ncores %.9g\n", wall, work / wall); }

/* As the drawing does it: a stream for each leaf, begun anew in each block, filled in columns. */
static void draw_leaves(const bench_graph *g, ls_stream *const *streams, size_t block) {
    const ls_worksheet_program *p = &g->program;
    double column[LS_WORKSHEET_COLUMN];
    for (size_t s = 0; s < p->n; s++) {
        const ls_entry *e = p->steps[s].entry;
        if (e->op != LS_OP_LEAF) continue;
        ls_stream *stream = streams[p->steps[s].stream];
        ls_stream_start(stream, SEED, e->hash, block);
        for (size_t from = 0; from < LS_BLOCK; from += LS_WORKSHEET_COLUMN)
            ls_spread_fill(e->spread, e->value, stream, column, LS_WORKSHEET_COLUMN);
    }
}

void bench_time_leaves(const bench_graph *g, size_t draws) {
    ls_stream **streams = LS_NEW(g->arena, ls_stream *, g->program.streams);
    for (size_t i = 0; i < g->program.streams; i++) streams[i] = ls_stream_new();
    double wall = bench_wall(), work = bench_work();
    for (size_t block = 0; block < draws / LS_BLOCK; block++) draw_leaves(g, streams, block);
    tell_time(bench_wall() - wall, bench_work() - work);
    for (size_t i = 0; i < g->program.streams; i++) ls_stream_free(streams[i]);
}

void bench_time_graph(const bench_graph *g, size_t draws, size_t threads) {
    double wall = bench_wall(), work = bench_work();
    ls_worksheet_draw_on(g->sheet, SEED, draws, g->wanted, g->n, threads);
    tell_time(bench_wall() - wall, bench_work() - work);
    for (size_t i = 0; i < g->n; i++)
        if (g->wanted[i].sd > 0)
            printf("points %s %.17g %.17g %.17g\n", ls_line_at(g->sheet, g->wanted[i].line)->key, g->wanted[i].low,
                   g->wanted[i].mid, g->wanted[i].high);
}
