/* What the bench needs from within the program; bench.py drives it.
 *   tool numpy FILE...                 the graph of the estimate as a module for numpy
 *   tool leaves DRAWS FILE...          seconds to draw its leaves
 *   tool graph DRAWS THREADS FILE...   seconds to draw all of it, and the points
 *   tool parse FILE...                 seconds of one bare parse of the files by libyaml
 *   tool estimate FILE...              the whole command; seconds spent drawing, on standard error
 *   tool run PROGRAM ARGUMENT...       seconds and peak memory of a process, output thrown away
 *   tool split ..., tool problem ...   see farms.h */
#include "bench/clock.h"
#include "bench/farms.h"
#include "bench/graph.h"
#include "littershed/command.h"

#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <yaml.h>

/* ---- a bare parse ---- */

static void parse_file(const char *path) {
    FILE *in = fopen(path, "rb");
    yaml_parser_t parser;
    if (in == NULL || !yaml_parser_initialize(&parser)) ls_fail("cannot parse %s", path);
    yaml_parser_set_input_file(&parser, in);
    for (bool more = true; more;) {
        yaml_event_t event;
        if (!yaml_parser_parse(&parser, &event)) ls_fail("cannot parse %s", path);
        more = event.type != YAML_STREAM_END_EVENT;
        yaml_event_delete(&event);
    }
    yaml_parser_delete(&parser);
    fclose(in);
}

static int smaller_first(const void *a, const void *b) {
    const double *x = a, *y = b;
    return (*x > *y) - (*x < *y);
}

static void time_parse(char **files, int n) {
    enum { TIMES = 201 };
    double took[TIMES];
    for (int t = 0; t < TIMES; t++) {
        double begun = bench_wall();
        for (int i = 0; i < n; i++) parse_file(files[i]);
        took[t] = bench_wall() - begun;
    }
    qsort(took, TIMES, sizeof *took, smaller_first);
    printf("seconds %.9g\n", took[TIMES / 2]);
}

/* ---- the whole command: the linker puts __wrap_ls_draw in the place of ls_draw, and so on ---- */

static double drawing; /* seconds so far */

void __real_ls_draw(const ls_worksheet *w, uint64_t seed, size_t draws, ls_drawn *wanted, size_t n);
void __wrap_ls_draw(const ls_worksheet *w, uint64_t seed, size_t draws, ls_drawn *wanted, size_t n);

void __wrap_ls_draw(const ls_worksheet *w, uint64_t seed, size_t draws, ls_drawn *wanted, size_t n) {
    double begun = bench_wall();
    __real_ls_draw(w, seed, draws, wanted, n);
    drawing += bench_wall() - begun;
}

void __real_ls_draw_each(ls_draw_job *jobs, size_t n, uint64_t seed);
void __wrap_ls_draw_each(ls_draw_job *jobs, size_t n, uint64_t seed);

void __wrap_ls_draw_each(ls_draw_job *jobs, size_t n, uint64_t seed) {
    double begun = bench_wall();
    __real_ls_draw_each(jobs, n, seed);
    drawing += bench_wall() - begun;
}

/* argv as the program gets it: its name, estimate, the files. */
static int estimate(int argc, char **argv) {
    int code = ls_command_main(argc, argv, stdout, stderr);
    fprintf(stderr, "drawing %.9g\n", drawing);
    return code;
}

/* ---- a process ---- */

static void become(char **argv) {
    if (freopen("/dev/null", "w", stdout) != NULL) execv(argv[0], argv);
    _exit(127);
}

static int time_process(char **argv) {
    double begun = bench_wall();
    int status = 0;
    pid_t child = fork();
    if (child == 0) become(argv);
    if (child < 0 || waitpid(child, &status, 0) != child) ls_fail("cannot run %s", argv[0]);
    double took = bench_wall() - begun;
    struct rusage used;
    getrusage(RUSAGE_CHILDREN, &used);
    printf("seconds %.9g\npeak %ld\n", took, used.ru_maxrss);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 1;
}

/* ---- the graph ---- */

static size_t whole(const char *text) { return (size_t)strtoul(text, NULL, 10); }

static int with_graph(const char *what, char **argv, int n) {
    int before = strcmp(what, "graph") == 0 ? 2 : strcmp(what, "leaves") == 0 ? 1 : 0;
    if (n <= before) return LS_USAGE;
    bench_graph g = bench_graph_read((const char *const *)(argv + before), (size_t)(n - before));
    if (before == 2)
        bench_time_graph(&g, whole(argv[0]), whole(argv[1]));
    else if (before == 1)
        bench_time_leaves(&g, whole(argv[0]));
    else
        bench_graph_as_numpy(&g);
    ls_arena_free(g.arena);
    return LS_DONE;
}

int main(int argc, char **argv) {
    const char *what = argc > 2 ? argv[1] : "";
    if (strcmp(what, "numpy") == 0 || strcmp(what, "leaves") == 0 || strcmp(what, "graph") == 0)
        return with_graph(what, argv + 2, argc - 2);
    if (strcmp(what, "estimate") == 0) return estimate(argc, argv);
    if (strcmp(what, "run") == 0) return time_process(argv + 2);
    if (strcmp(what, "split") == 0 || strcmp(what, "problem") == 0) return bench_split(what, argv + 2, argc - 2);
    if (strcmp(what, "parse") != 0) return LS_USAGE;
    time_parse(argv + 2, argc - 2);
    return LS_DONE;
}
