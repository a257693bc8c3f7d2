/* Spread by drawing (JCGM 101:2008). Every leaf has a stream of its own in every block, and blocks
 * are added up in their order: so neither other leaves nor threads change a draw or a sum. */
#include "program.h"
#include "summary.h"

#include <math.h>
#include <pthread.h>
#include <string.h>

enum { COLUMN = LS_WORKSHEET_COLUMN, MOST_AT_ONCE = 256, THREADS = 2 };

_Static_assert(LS_BLOCK % LS_WORKSHEET_COLUMN == 0, "a block is a whole number of columns");

/* ---- leaves that several drawings have in common, drawn once for all of them ---- */

enum { MOST_SHARED = 512 }; /* of 80,000 bytes each */

typedef struct {
    const ls_entry *leaf; /* NULL: a free slot */
    size_t programs;      /* that draw it */
    double *draws;        /* NULL: only one does */
} slot;

typedef struct {
    slot *slots; /* n_slots, a power of 2, at most half full */
    size_t n_slots;
    slot *shared[MOST_SHARED];
    size_t n;
} shared_leaves;

/* That of the leaf, or the free one in which it belongs. */
static slot *slot_of(const shared_leaves *r, const ls_entry *leaf) {
    size_t i = (size_t)leaf->hash & (r->n_slots - 1);
    while (r->slots[i].leaf != NULL && !ls_worksheet_alike(r->slots[i].leaf, leaf))
        i = (i + 1) & (r->n_slots - 1);
    return &r->slots[i];
}

static void count(shared_leaves *r, ls_arena *a, const ls_entry *leaf) {
    slot *s = slot_of(r, leaf);
    s->leaf = leaf;
    s->programs++;
    if (s->programs == 2 && r->n < MOST_SHARED) {
        s->draws = LS_NEW(a, double, LS_BLOCK);
        r->shared[r->n++] = s;
    }
}

/* The leaves that at least two of the n programs draw alike (the same key, value and spread), in
 * the arena; of very many the first ones, so that memory stays small. None is drawn yet. */
static shared_leaves *find_shared(ls_arena *a, const ls_worksheet_program *programs, size_t n) {
    shared_leaves *r = LS_NEW(a, shared_leaves, 1);
    size_t leaves = 0;
    for (size_t i = 0; i < n; i++) leaves += programs[i].streams;
    for (r->n_slots = 1; r->n_slots < 2 * leaves + 1;) r->n_slots *= 2;
    r->slots = LS_NEW(a, slot, r->n_slots);
    for (size_t i = 0; i < n; i++)
        for (size_t s = 0; s < programs[i].n; s++)
            if (programs[i].steps[s].entry->op == LS_OP_LEAF)
                count(r, a, programs[i].steps[s].entry);
    return r;
}

/* Draw the i-th for block 0; threads may each draw another one. */
static void draw_shared(shared_leaves *r, size_t i, ls_stream *stream, uint64_t seed) {
    const slot *s = r->shared[i];
    ls_stream_start(stream, seed, s->leaf->hash, 0);
    for (size_t from = 0; from < LS_BLOCK; from += LS_WORKSHEET_COLUMN)
        ls_spread_fill(s->leaf->spread, s->leaf->value, stream, s->draws + from,
                       LS_WORKSHEET_COLUMN);
}

/* ---- one drawing ---- */

/* Of a kept line, in one block or over blocks (points: their sum; followed: the points from block
 * to block). */
typedef struct {
    double points[LS_WORKSHEET_POINTS];
    ls_worksheet_moments moments;
    ls_worksheet_moments followed[LS_WORKSHEET_POINTS];
} tally;

/* One drawing of at most MOST_AT_ONCE lines; the lock guards what changes. */
typedef struct {
    const ls_worksheet_program *program;
    const shared_leaves *ready; /* leaves drawn already in block 0; NULL: none */
    uint64_t seed;
    size_t blocks, block; /* how many, and draws in each */
    const ls_drawn *wanted;
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
    const double **ready; /* by stream: its draws in block 0; NULL: not drawn yet */
    double *kept;         /* a block of draws for each kept register */
    double **columns;     /* by register: its present column */
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
    t->ready = LS_NEW(a, const double *, p->streams);
    for (size_t s = 0; s < p->n && d->ready != NULL; s++)
        if (p->steps[s].entry->op == LS_OP_LEAF)
            t->ready[p->steps[s].stream] = slot_of(d->ready, p->steps[s].entry)->draws;
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

/* The next column of a leaf, from that draw of the block on. */
static void draw_leaf(worker *t, const ls_worksheet_step *s, size_t block, size_t from,
                      double *out) {
    const double *ready = block == 0 ? t->ready[s->stream] : NULL;
    if (ready != NULL)
        memcpy(out, ready + from, COLUMN * sizeof *out);
    else
        ls_spread_fill(s->entry->spread, s->entry->value, t->streams[s->stream], out, COLUMN);
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
            ls_stream_start(t->streams[p->steps[s].stream], t->drawing->seed,
                            p->steps[s].entry->hash, block);
    for (size_t from = 0; from < t->drawing->block; from += COLUMN) {
        for (size_t r = 0; r < p->kept; r++) t->columns[r] = t->kept + r * t->drawing->block + from;
        for (size_t s = 0; s < p->n; s++)
            if (p->steps[s].entry->op == LS_OP_LEAF)
                draw_leaf(t, &p->steps[s], block, from, t->columns[p->steps[s].out]);
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
        if (in != LS_WORKSHEET_NO_REGISTER && !isnan(d->wanted[i].above))
            t->above[i] =
                count_above(t->kept + (size_t)in * d->block, d->block, d->wanted[i].above);
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
            all->followed[p] =
                ls_worksheet_moments_join(all->followed[p], (ls_worksheet_moments){1, point, 0});
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
    while (started < threads &&
           pthread_create(&others[started], NULL, work, &workers[started]) == 0)
        started++;
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
    out->share_above = isnan(out->above) || isnan(out->low)
                           ? NAN
                           : (double)d->above[i] / (blocks * (double)d->block);
}

/* Draw for at most MOST_AT_ONCE lines; d says how, and its program what. */
static void draw_program(drawing *d, ls_arena *a, size_t threads) {
    d->tallies = LS_NEW(a, tally, d->program->kept);
    d->above = LS_NEW(a, size_t, d->n);
    pthread_mutex_init(&d->lock, NULL);
    pthread_cond_init(&d->joined, NULL);
    if (d->program->kept > 0) run(d, a, threads);
    pthread_cond_destroy(&d->joined);
    pthread_mutex_destroy(&d->lock);
    d->enough = d->enough || d->program->kept == 0; /* numbers alone are as sure as can be */
}

static void draw_with(drawing *d, const ls_worksheet *w, ls_drawn *wanted, size_t threads) {
    ls_arena *a = ls_arena_new();
    ls_worksheet_program program = ls_worksheet_compile(a, w, wanted, d->n);
    d->program = &program;
    d->wanted = wanted;
    draw_program(d, a, threads);
    for (size_t i = 0; i < d->n; i++) tell(d, &wanted[i], i);
    ls_arena_free(a);
}

void ls_worksheet_draw_on(const ls_worksheet *w, uint64_t seed, size_t draws, ls_drawn *wanted,
                          size_t n, size_t threads) {
    size_t columns = draws / COLUMN + (draws % COLUMN != 0 || draws == 0);
    size_t block = columns < LS_BLOCK / COLUMN ? columns * COLUMN : LS_BLOCK;
    size_t blocks = (columns * COLUMN + block - 1) / block;
    for (size_t from = 0; from < n; from += MOST_AT_ONCE) {
        size_t some = n - from < MOST_AT_ONCE ? n - from : MOST_AT_ONCE;
        drawing d = {.seed = seed, .blocks = blocks, .block = block, .n = some};
        draw_with(&d, w, wanted + from, threads);
    }
}

void ls_draw(const ls_worksheet *w, uint64_t seed, size_t draws, ls_drawn *wanted, size_t n) {
    ls_worksheet_draw_on(w, seed, draws, wanted, n, THREADS);
}

/* Jobs that threads take in turn, after the leaves that they share. */
typedef struct {
    ls_draw_job *jobs;
    const ls_worksheet_program *programs;
    shared_leaves *ready;
    size_t n, next, next_leaf;
    uint64_t seed;
    pthread_mutex_t lock;
} queue;

static size_t take(queue *q, size_t *next) {
    pthread_mutex_lock(&q->lock);
    size_t i = (*next)++;
    pthread_mutex_unlock(&q->lock);
    return i;
}

static void *draw_leaves(void *of) {
    queue *q = of;
    ls_stream *stream = ls_stream_new();
    for (size_t i; (i = take(q, &q->next_leaf)) < q->ready->n;)
        draw_shared(q->ready, i, stream, q->seed);
    ls_stream_free(stream);
    return NULL;
}

static void *draw_jobs(void *of) {
    queue *q = of;
    for (size_t i; (i = take(q, &q->next)) < q->n;) {
        ls_arena *a = ls_arena_new();
        drawing d = {.program = &q->programs[i],
                     .ready = q->ready,
                     .seed = q->seed,
                     .blocks = 1,
                     .block = LS_BLOCK,
                     .wanted = &q->jobs[i].drawn,
                     .n = 1};
        draw_program(&d, a, 1);
        tell(&d, &q->jobs[i].drawn, 0);
        ls_arena_free(a);
    }
    return NULL;
}

/* By this thread and another, if the system gives one. */
static void by_two(void *(*part)(void *), queue *q) {
    pthread_t other;
    bool started = q->n > 1 && pthread_create(&other, NULL, part, q) == 0;
    part(q);
    if (started) pthread_join(other, NULL);
}

void ls_draw_each(ls_draw_job *jobs, size_t n, uint64_t seed) {
    ls_arena *a = ls_arena_new();
    ls_worksheet_program *programs = LS_NEW(a, ls_worksheet_program, n);
    for (size_t i = 0; i < n; i++)
        programs[i] = ls_worksheet_compile(a, jobs[i].w, &jobs[i].drawn, 1);
    queue q = {.jobs = jobs,
               .programs = programs,
               .ready = find_shared(a, programs, n),
               .n = n,
               .seed = seed};
    pthread_mutex_init(&q.lock, NULL);
    by_two(draw_leaves, &q);
    by_two(draw_jobs, &q);
    pthread_mutex_destroy(&q.lock);
    ls_arena_free(a);
}

size_t ls_draws_needed(const ls_worksheet *w, uint64_t seed, int digits, size_t most,
                       const ls_line *lines, size_t n, bool *enough) {
    ls_arena *a = ls_arena_new();
    size_t most_blocks = most / LS_BLOCK > 0 ? most / LS_BLOCK : 1, blocks = 1;
    *enough = true;
    for (size_t from = 0; from < n; from += MOST_AT_ONCE) {
        size_t some = n - from < MOST_AT_ONCE ? n - from : MOST_AT_ONCE;
        ls_drawn *wanted = LS_NEW(a, ls_drawn, some);
        for (size_t i = 0; i < some; i++) wanted[i] = ls_drawn_of(lines[from + i]);
        drawing d = {
            .seed = seed, .blocks = most_blocks, .block = LS_BLOCK, .n = some, .digits = digits};
        draw_with(&d, w, wanted, THREADS);
        size_t took = d.done > 0 ? d.blocks : 1;
        blocks = took > blocks ? took : blocks;
        *enough = *enough && d.enough;
    }
    ls_arena_free(a);
    return blocks * LS_BLOCK;
}

ls_drawn ls_drawn_of(ls_line line) { return (ls_drawn){line, NAN, NAN, NAN, NAN, NAN, NAN, NAN}; }
