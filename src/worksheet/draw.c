/* Spread by drawing (JCGM 101:2008). Every leaf has a stream of its own in every block, and blocks
 * are added up in their order: so neither other leaves nor threads change a draw or a sum. */
#include "program.h"
#include "summary.h"

#include <math.h>
#include <pthread.h>
#include <string.h>

enum { COLUMN = LS_WORKSHEET_COLUMN, MOST_AT_ONCE = 256, THREADS = 2 };

_Static_assert(LS_BLOCK % LS_WORKSHEET_COLUMN == 0, "a block is a whole number of columns");

/* ---- one drawing ---- */

/* Of a kept line, in one block or over blocks (points: their sum; followed: the points from block to block). */
typedef struct {
    double points[LS_WORKSHEET_POINTS];
    ls_worksheet_moments moments;
    ls_worksheet_moments followed[LS_WORKSHEET_POINTS];
} tally;

/* One drawing of at most MOST_AT_ONCE lines; the lock guards what changes. */
typedef struct {
    const ls_worksheet_program *program;
    uint64_t seed;
    size_t blocks, block; /* how many, and draws in each */
    const ls_draw_job *wanted;
    size_t n;
    pthread_mutex_t lock;
    pthread_cond_t joined;
    size_t next, done; /* block to be taken; blocks joined */
    int digits;        /* stop when all kept lines are sure to so many digits; 0: never */
    bool enough;       /* stopped so */
    tally *tallies;    /* by kept register */
    size_t *above;     /* by what is wanted */
} drawing;

/* What one thread works with. */
typedef struct {
    drawing *drawing;
    ls_stream **streams;
    double *kept;     /* a block of draws for each kept register */
    double **columns; /* by register: its present column */
    ls_worksheet_operand *operands;
    double *scratch;
    tally *tallies;
    size_t *above;
} worker;

static void make_worker(worker *t, ls_arena *a, drawing *d) {
    const ls_worksheet_program *p = d->program;
    t->drawing = d;
    t->streams = LS_NEW(a, ls_stream *, p->streams);
    for (size_t i = 0; i < p->streams; i++) t->streams[i] = ls_stream_new();
    t->kept = LS_NEW(a, double, p->kept * d->block);
    t->columns = LS_NEW(a, double *, p->registers);
    double *others = LS_NEW(a, double, (p->registers - p->kept) * COLUMN);
    for (size_t r = p->kept; r < p->registers; r++) t->columns[r] = others + (r - p->kept) * COLUMN;
    t->operands = LS_NEW(a, ls_worksheet_operand, p->most_inputs);
    t->scratch = LS_NEW(a, double, LS_WORKSHEET_POINTS * d->block);
    t->tallies = LS_NEW(a, tally, p->kept);
    t->above = LS_NEW(a, size_t, d->n);
}

static void end_worker(worker *t) {
    for (size_t i = 0; i < t->drawing->program->streams; i++) ls_stream_free(t->streams[i]);
}

static void run_step(worker *t, const ls_worksheet_step *s) {
    const ls_entry *e = s->entry;
    double *out = t->columns[s->out];
    for (size_t i = 0; i < e->n; i++) {
        int32_t in = s->in[i].in;
        t->operands[i].at = in == LS_WORKSHEET_NO_REGISTER ? NULL : t->columns[in];
        t->operands[i].number = s->in[i].number;
    }
    ls_worksheet_operation_of(e->op)->column(e, t->operands, out);
}

static void draw_block(worker *t, size_t block) {
    const ls_worksheet_program *p = t->drawing->program;
    for (size_t s = 0; s < p->n; s++)
        if (p->steps[s].entry->op == LS_OP_LEAF)
            ls_stream_start(t->streams[p->steps[s].stream], t->drawing->seed, p->steps[s].entry->hash, block);
    for (size_t from = 0; from < t->drawing->block; from += COLUMN) {
        for (size_t r = 0; r < p->kept; r++) t->columns[r] = t->kept + r * t->drawing->block + from;
        for (size_t s = 0; s < p->n; s++)
            if (p->steps[s].entry->op == LS_OP_LEAF)
                ls_spread_fill(p->steps[s].entry->spread, p->steps[s].entry->value, t->streams[p->steps[s].stream],
                               t->columns[p->steps[s].out], COLUMN);
            else
                run_step(t, &p->steps[s]);
    }
}

static size_t count_above(const double *x, size_t n, double limit) {
    size_t above = 0;
    for (size_t i = 0; i < n; i++) above += x[i] > limit;
    return above;
}

static void sum_up_block(worker *t) {
    const drawing *d = t->drawing;
    for (size_t r = 0; r < d->program->kept; r++) {
        const double *x = t->kept + r * d->block;
        t->tallies[r].moments = ls_worksheet_moments_of(x, d->block);
        ls_worksheet_points(x, d->block, t->scratch, t->tallies[r].points);
    }
    for (size_t i = 0; i < d->n; i++) {
        int32_t in = d->program->wanted[i].in;
        if (in != LS_WORKSHEET_NO_REGISTER && !isnan(d->wanted[i].drawn.above))
            t->above[i] = count_above(t->kept + (size_t)in * d->block, d->block, d->wanted[i].drawn.above);
    }
}

/* Twice the standard error of each point, from its scatter over the blocks, is within the
 * tolerance. Half the range between the outer points stands for 1.28 standard uncertainties: a t of
 * few degrees of freedom has none of its own. */
static bool is_sure(const tally *all, int digits) {
    double range = all->followed[LS_WORKSHEET_POINTS - 1].mean - all->followed[0].mean;
    double tolerance = ls_worksheet_tolerance(range / (2 * 1.2815515655446004), digits);
    for (size_t k = 0; k < LS_WORKSHEET_POINTS; k++) {
        double h = (double)all->followed[k].n;
        if (2 * ls_worksheet_moments_sd(all->followed[k]) / sqrt(h) > tolerance) return false;
    }
    return true;
}

/* JCGM 101:2008, 7.9.4: at least two blocks, then until all lines are sure. */
static bool is_enough(const drawing *d) {
    if (d->digits == 0 || d->done + 1 < 2) return false;
    for (size_t r = 0; r < d->program->kept; r++)
        if (!is_sure(&d->tallies[r], d->digits)) return false;
    return true;
}

static void join_block(drawing *d, const worker *t) {
    for (size_t r = 0; r < d->program->kept; r++) {
        tally *all = &d->tallies[r];
        all->moments = ls_worksheet_moments_join(all->moments, t->tallies[r].moments);
        for (size_t p = 0; p < LS_WORKSHEET_POINTS; p++) {
            double point = t->tallies[r].points[p];
            all->points[p] += point;
            all->followed[p] = ls_worksheet_moments_join(all->followed[p], (ls_worksheet_moments){1, point, 0});
        }
    }
    for (size_t i = 0; i < d->n; i++) d->above[i] += t->above[i];
}

/* A block is joined when all before it are: some other thread is at work on these. */
static void *work(void *of) {
    worker *t = of;
    drawing *d = t->drawing;
    pthread_mutex_lock(&d->lock);
    while (d->next < d->blocks) {
        size_t block = d->next++;
        pthread_mutex_unlock(&d->lock);
        draw_block(t, block);
        sum_up_block(t);
        pthread_mutex_lock(&d->lock);
        while (d->done != block) pthread_cond_wait(&d->joined, &d->lock);
        if (block < d->blocks) { /* else an earlier block was enough */
            join_block(d, t);
            if (is_enough(d)) d->enough = true, d->blocks = block + 1;
        }
        d->done++;
        pthread_cond_broadcast(&d->joined);
    }
    pthread_mutex_unlock(&d->lock);
    return NULL;
}

/* This thread works too; if the system gives no others, it works alone. */
static void run(drawing *d, ls_arena *a, size_t threads) {
    if (threads > d->blocks) threads = d->blocks;
    worker *workers = LS_NEW(a, worker, threads);
    pthread_t *others = LS_NEW(a, pthread_t, threads);
    size_t started = 1;
    for (size_t i = 0; i < threads; i++) make_worker(&workers[i], a, d);
    while (started < threads && pthread_create(&others[started], NULL, work, &workers[started]) == 0) started++;
    work(&workers[0]);
    for (size_t i = 1; i < started; i++) pthread_join(others[i], NULL);
    for (size_t i = 0; i < threads; i++) end_worker(&workers[i]);
}

static void tell_number(ls_drawn *out, double v) {
    out->low = out->mid = out->high = out->mean = v;
    out->sd = isnan(v) ? NAN : 0;
    out->share_above = isnan(out->above) || isnan(v) ? NAN : v > out->above ? 1 : 0;
}

static void tell(const drawing *d, ls_drawn *out, size_t i) {
    int32_t in = d->program->wanted[i].in;
    if (in == LS_WORKSHEET_NO_REGISTER) {
        tell_number(out, d->program->wanted[i].number);
        return;
    }
    const tally *all = &d->tallies[in];
    double blocks = (double)d->blocks;
    out->low = all->points[0] / blocks;
    out->mid = all->points[1] / blocks;
    out->high = all->points[2] / blocks;
    out->mean = all->moments.mean;
    out->sd = ls_worksheet_moments_sd(all->moments);
    out->share_above = isnan(out->above) || isnan(out->low) ? NAN : (double)d->above[i] / (blocks * (double)d->block);
}

/* Draw for at most MOST_AT_ONCE jobs; d says how. */
static void draw_jobs(drawing *d, ls_draw_job *jobs, size_t n, size_t threads) {
    ls_arena *a = ls_arena_new();
    ls_worksheet_program program = ls_worksheet_compile(a, jobs, n);
    d->program = &program;
    d->wanted = jobs;
    d->n = n;
    d->tallies = LS_NEW(a, tally, program.kept);
    d->above = LS_NEW(a, size_t, n);
    pthread_mutex_init(&d->lock, NULL);
    pthread_cond_init(&d->joined, NULL);
    if (program.kept > 0) run(d, a, threads);
    pthread_cond_destroy(&d->joined);
    pthread_mutex_destroy(&d->lock);
    d->enough = d->enough || program.kept == 0; /* numbers alone are as sure as can be */
    for (size_t i = 0; i < n; i++) tell(d, &jobs[i].drawn, i);
    ls_arena_free(a);
}

void ls_worksheet_draw_on(const ls_worksheet *w, uint64_t seed, size_t draws, ls_drawn *wanted, size_t n,
                          size_t threads) {
    size_t columns = draws / COLUMN + (draws % COLUMN != 0 || draws == 0);
    size_t block = columns < LS_BLOCK / COLUMN ? columns * COLUMN : LS_BLOCK;
    size_t blocks = (columns * COLUMN + block - 1) / block;
    for (size_t from = 0, some; from < n; from += some) {
        ls_draw_job jobs[MOST_AT_ONCE];
        some = n - from < MOST_AT_ONCE ? n - from : MOST_AT_ONCE;
        for (size_t i = 0; i < some; i++) jobs[i] = (ls_draw_job){w, wanted[from + i]};
        drawing d = {.seed = seed, .blocks = blocks, .block = block};
        draw_jobs(&d, jobs, some, threads);
        for (size_t i = 0; i < some; i++) wanted[from + i] = jobs[i].drawn;
    }
}

void ls_draw(const ls_worksheet *w, uint64_t seed, size_t draws, ls_drawn *wanted, size_t n) {
    ls_worksheet_draw_on(w, seed, draws, wanted, n, THREADS);
}

void ls_draw_each(ls_draw_job *jobs, size_t n, uint64_t seed) {
    for (size_t from = 0; from < n; from += MOST_AT_ONCE) {
        drawing d = {.seed = seed, .blocks = 1, .block = LS_BLOCK};
        draw_jobs(&d, jobs + from, n - from < MOST_AT_ONCE ? n - from : MOST_AT_ONCE, 1);
    }
}

size_t ls_draws_needed(const ls_worksheet *w, uint64_t seed, int digits, size_t most, const ls_line *lines, size_t n,
                       bool *enough) {
    size_t most_blocks = most / LS_BLOCK > 0 ? most / LS_BLOCK : 1, blocks = 1;
    *enough = true;
    for (size_t from = 0, some; from < n; from += some) {
        ls_draw_job jobs[MOST_AT_ONCE];
        some = n - from < MOST_AT_ONCE ? n - from : MOST_AT_ONCE;
        for (size_t i = 0; i < some; i++) jobs[i] = (ls_draw_job){w, ls_drawn_of(lines[from + i])};
        drawing d = {.seed = seed, .blocks = most_blocks, .block = LS_BLOCK, .digits = digits};
        draw_jobs(&d, jobs, some, THREADS);
        size_t took = d.done > 0 ? d.blocks : 1;
        blocks = took > blocks ? took : blocks;
        *enough = *enough && d.enough;
    }
    return blocks * LS_BLOCK;
}

ls_drawn ls_drawn_of(ls_line line) { return (ls_drawn){line, NAN, NAN, NAN, NAN, NAN, NAN, NAN}; }
