#include "run.h"

#include <time.h>
#include <unistd.h>

enum { MOST_COLUMNS = 70 };

struct ls_run_progress {
    ls_arena *arena;
    FILE *to; /* NULL: no terminal */
    double begun;
    size_t columns; /* of the words that stand there */
};

/* Seconds of a clock that nobody sets; what is planned never depends on it. */
static double seconds(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

ls_run_progress *ls_run_progress_new(ls_run *r) {
    ls_run_progress *p = LS_NEW(r->arena, ls_run_progress, 1);
    int descriptor = fileno(r->err);
    *p = (ls_run_progress){.arena = r->arena, .begun = seconds()};
    if (descriptor >= 0 && isatty(descriptor)) p->to = r->err;
    return p;
}

static void write_over(ls_run_progress *p, const char *words) {
    size_t columns = ls_text_columns(words);
    size_t blanks = p->columns > columns ? p->columns - columns : 0;
    fprintf(p->to, "\r%s%*s\r", words, (int)blanks, "");
    fflush(p->to);
    p->columns = columns;
}

static void say(void *to, const char *words) {
    ls_run_progress *p = to;
    if (p->to == NULL || seconds() - p->begun < 1) return;
    ls_arena_mark mark = ls_arena_here(p->arena);
    const char *line = ls_arena_printf(p->arena, "placing loads: %s", words);
    write_over(p, ls_text_fit(p->arena, ls_text_plain(p->arena, line), MOST_COLUMNS));
    ls_arena_rewind(p->arena, mark);
}

ls_progress ls_run_progress_hook(ls_run_progress *p) { return (ls_progress){say, p}; }

void ls_run_progress_end(ls_run_progress *p) {
    if (p->to != NULL && p->columns > 0) write_over(p, "");
}
