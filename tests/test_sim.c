/* Trucks under one loader: against the finite-source waiting line, the deterministic bound, a
 * simulation tick by tick, and what must hold of any run. */
#include "chance.h"
#include "suite.h"

#include "haul/sim/sim.h"

#include <math.h>

static const ls_sim_time endless = INT64_MAX / 4;

/* Trucks of one kind. */
static ls_sim plain(const size_t *trucks, ls_sim_time day, size_t n, const ls_sim_job *jobs, size_t blocks_n,
                    const ls_sim_block *blocks) {
    return (ls_sim){
        .kinds_n = 1, .trucks = trucks, .day = day, .jobs_n = n, .blocks_n = blocks_n, .jobs = jobs, .blocks = blocks};
}

/* ---- the finite-source waiting line ---- */

/* One loader, N trucks, exponential times (An Introduction to Management Science, ch. 11, pp.
 * 477-478): P0 = 1 / sum N!/(N-n)! (lambda/mu)^n, Lq = N - (lambda + mu)/lambda (1 - P0), L = Lq +
 * 1 - P0, Wq = Lq / ((N - L) lambda), W = Wq + 1/mu. */
typedef struct {
    double P0, Lq, L, Wq, W;
} line;

static line line_of(int n, double lambda, double mu) {
    double term = 1, sum = 1;
    for (int k = 1; k <= n; k++) {
        term *= (n - k + 1) * lambda / mu;
        sum += term;
    }
    line q = {.P0 = 1 / sum};
    q.Lq = n - (lambda + mu) / lambda * (1 - q.P0);
    q.L = q.Lq + 1 - q.P0;
    q.Wq = q.Lq / ((n - q.L) * lambda);
    q.W = q.Wq + 1 / mu;
    return q;
}

/* The same source prints these figures for 6 machines, 0.05 an hour, 0.50 an hour (Kolkmeyer). */
static void test_line_printed(void) {
    line q = line_of(6, 0.05, 0.50);
    CU_ASSERT_DOUBLE_EQUAL(q.P0, 0.4845, 0.00005);
    CU_ASSERT_DOUBLE_EQUAL(q.Lq, 0.3297, 0.0002);
    CU_ASSERT_DOUBLE_EQUAL(q.L, 0.8451, 0.0002);
    CU_ASSERT_DOUBLE_EQUAL(q.Wq, 1.279, 0.0005);
    CU_ASSERT_DOUBLE_EQUAL(q.W, 3.279, 0.0005);
}

enum { BATCHES = 60, BATCH = 5000, TICKS = 1000000 }; /* ticks in an hour */

/* Exponential times of the means given, drawn here: the core takes times, not chances. */
static ls_sim_job *drawn(ls_arena *a, size_t n, double lambda, double mu) {
    ls_sim_job *jobs = LS_NEW(a, ls_sim_job, n);
    double *u = LS_NEW(a, double, 2 * n);
    ls_stream *s = ls_stream_new();
    ls_stream_start(s, 1, ls_text_hash("trucks"), 0);
    ls_stream_uniform(s, u, 2 * n);
    ls_stream_free(s);
    for (size_t k = 0; k < n; k++) {
        jobs[k].load = llround(-log(u[2 * k]) / mu * TICKS);
        jobs[k].out = llround(-log(u[2 * k + 1]) / lambda * TICKS);
    }
    return jobs;
}

/* The mean over batches lies within four standard errors of the formula, and those are small. */
static void near_mean(const double *x, double want) {
    double sum = 0, squares = 0;
    for (int i = 0; i < BATCHES; i++) sum += x[i];
    double mean = sum / BATCHES;
    for (int i = 0; i < BATCHES; i++) squares += (x[i] - mean) * (x[i] - mean);
    double error = sqrt(squares / (BATCHES - 1) / BATCHES);
    CU_ASSERT(error < 0.01 * want);
    if (!(fabs(mean - want) < 4 * error)) printf("\nmean %g, standard error %g, formula %g\n", mean, error, want);
    CU_ASSERT(fabs(mean - want) < 4 * error);
}

static void check_line(size_t trucks, double lambda, double mu) {
    ls_arena *a = ls_arena_new();
    size_t n = (BATCHES + 1) * BATCH; /* the first batch is for warming up */
    ls_sim_block block = {.n = n};
    ls_sim s = plain(&trucks, endless, n, drawn(a, n, lambda, mu), 1, &block);
    ls_sim_answer answer = ls_sim_run(a, &s);
    double P0[BATCHES], Lq[BATCHES], Wq[BATCHES], W[BATCHES];
    for (int i = 0; i < BATCHES; i++) {
        size_t first = (size_t)(i + 1) * BATCH;
        double load = 0, wait = 0;
        for (size_t k = first; k < first + BATCH; k++)
            load += (double)s.jobs[k].load, wait += (double)answer.trips[k].waited;
        double time = (double)(answer.trips[first + BATCH - 1].leave - answer.trips[first - 1].leave);
        P0[i] = 1 - load / time, Lq[i] = wait / time;
        Wq[i] = wait / BATCH / TICKS, W[i] = (wait + load) / BATCH / TICKS;
    }
    line q = line_of((int)trucks, lambda, mu);
    near_mean(P0, q.P0);
    near_mean(Lq, q.Lq);
    near_mean(Wq, q.Wq);
    near_mean(W, q.W);
    ls_arena_free(a);
}

static void test_line_simulated(void) {
    check_line(6, 0.05, 0.50);
    check_line(2, 1.2, 2.5);
    check_line(4, 0.9, 2.0);
}

/* Never more than min(mu, N / (1/lambda + 1/mu)) loads an hour, and with constant times just that:
 * N loads take max(N x load, load + trip), whatever the beginning. */
static void test_bound(void) {
    ls_arena *a = ls_arena_new();
    enum { LOADS = 60, LOAD = 20 };
    for (size_t trucks = 1; trucks <= 8; trucks++)
        for (ls_sim_time trip = 0; trip <= 200; trip += 7) {
            ls_sim_job jobs[LOADS];
            for (int k = 0; k < LOADS; k++)
                jobs[k] = (ls_sim_job){LOAD, trip / 3, trip / 5, trip - trip / 3 - trip / 5, 0};
            ls_sim_block block = {.n = LOADS};
            ls_sim s = plain(&trucks, endless, LOADS, jobs, 1, &block);
            ls_sim_answer answer = ls_sim_run(a, &s);
            ls_sim_time round = (ls_sim_time)trucks * LOAD;
            round = round > LOAD + trip ? round : LOAD + trip;
            for (size_t k = 0; k + trucks < LOADS; k++)
                TEST_SAME(answer.trips[k + trucks].start - answer.trips[k].start, round);
        }
    ls_arena_free(a);
}

/* ---- random runs ---- */

enum { MOST_JOBS = 40, MOST_BLOCKS = 5, MOST_KINDS = 3, MOST_TRUCKS = 4, MOST_OUTS = 5 };

typedef struct {
    ls_sim s;
    size_t trucks[MOST_KINDS];
    ls_sim_job jobs[MOST_JOBS];
    ls_sim_block blocks[MOST_BLOCKS];
    ls_sim_out outs[MOST_OUTS];
} run;

static ls_sim_time pick(uint64_t *state, unsigned n) { return (ls_sim_time)test_pick(state, n); }

static void make_outs(run *r, uint64_t *state, bool single) {
    for (size_t k = 0; k < r->s.outs_n; k++) {
        ls_sim_out *o = &r->outs[k];
        o->who = (ls_sim_who){(ls_sim_what)pick(state, single ? 4 : 3), 0, 0};
        if (o->who.what == LS_SIM_TRUCK) {
            o->who.kind = (size_t)pick(state, (unsigned)r->s.kinds_n);
            o->who.truck = (size_t)pick(state, (unsigned)r->trucks[o->who.kind]);
        }
        o->from = pick(state, 3 * (unsigned)r->s.day);
        o->to = o->from + pick(state, 60);
    }
}

/* Some trips take longer than a day. single: single trucks may be out. */
static void make(run *r, uint64_t *state, bool single) {
    r->s = plain(r->trucks, 20 + pick(state, 60), 0, r->jobs, 1 + (size_t)pick(state, MOST_BLOCKS), r->blocks);
    r->s.kinds_n = 1 + (size_t)pick(state, MOST_KINDS);
    r->s.while_loading = pick(state, 2);
    r->s.outs_n = pick(state, 2) ? 0 : (size_t)pick(state, MOST_OUTS + 1);
    r->s.outs = r->outs;
    for (size_t k = 0; k < r->s.kinds_n; k++) r->trucks[k] = 1 + (size_t)pick(state, MOST_TRUCKS - 1);
    for (size_t b = 0; b < r->s.blocks_n; b++) {
        r->blocks[b] = (ls_sim_block){
            1 + (size_t)pick(state, MOST_JOBS / MOST_BLOCKS), pick(state, 4) ? 0 : r->s.day * pick(state, 10),
            pick(state, 2) ? 0 : pick(state, 50), pick(state, 2) ? 0 : pick(state, 50), (size_t)pick(state, 3)};
        r->s.jobs_n += r->blocks[b].n;
    }
    for (size_t k = 0; k < r->s.jobs_n; k++)
        r->jobs[k] = (ls_sim_job){1 + pick(state, 8), pick(state, 9), pick(state, 9),
                                  pick(state, pick(state, 6) ? 9 : 80), (size_t)pick(state, (unsigned)r->s.kinds_n)};
    make_outs(r, state, single);
}

/* ---- tick by tick ---- */

/* At each tick loader and hands, if free, do the next thing if they may. */
typedef struct {
    const ls_sim *s;
    ls_sim_time home[MOST_KINDS][MOST_TRUCKS], loader;
    size_t job, block, left;                      /* left: jobs of the block to come */
    ls_sim_time loaded[MOST_BLOCKS];              /* INT64_MAX: not yet */
    ls_sim_time done[2][MOST_BLOCKS];             /* [0] before, [1] after */
    ls_sim_time work[2][MOST_BLOCKS];             /* left to do */
    ls_sim_time due[MOST_BLOCKS];                 /* nothing is in the way of a move; -1: not yet */
    size_t list[2 * MOST_BLOCKS], list_n, listed; /* 2 x block + after, in the order of hands */
} clockwork;

static bool is_out(const ls_sim *s, ls_sim_who who, ls_sim_time t) {
    for (size_t k = 0; k < s->outs_n; k++) {
        const ls_sim_out *o = &s->outs[k];
        bool mine = o->who.what == LS_SIM_ALL ||
                    (o->who.what == who.what &&
                     (who.what != LS_SIM_TRUCK || (o->who.kind == who.kind && o->who.truck == who.truck)));
        if (mine && o->from <= t && t < o->to) return true;
    }
    return false;
}

static bool may_begin(const clockwork *c, const ls_sim_job *j, ls_sim_who truck, ls_sim_time t) {
    ls_sim_time takes = j->load + j->out + j->empty + j->back, now = t % c->s->day;
    if (c->home[truck.kind][truck.truck] > t || (now + takes > c->s->day && now > 0)) return false;
    for (ls_sim_time u = t; u < t + takes; u++)
        if (is_out(c->s, truck, u) || (u < t + j->load && is_out(c->s, (ls_sim_who){.what = LS_SIM_LOADER}, u)))
            return false;
    return true;
}

/* The truck that may and has stood there longest; MOST_TRUCKS: none. */
static size_t standing(const clockwork *c, const ls_sim_job *j, ls_sim_time t) {
    ls_sim_time dawn = t - t % c->s->day, best = -1;
    size_t truck = MOST_TRUCKS;
    for (size_t k = 0; k < c->s->trucks[j->kind]; k++) {
        ls_sim_who who = {LS_SIM_TRUCK, j->kind, k};
        if (!may_begin(c, j, who, t)) continue;
        ls_sim_time since = t;
        while (since > dawn && since > c->home[j->kind][k] && !is_out(c->s, who, since - 1)) since--;
        if (t - since > best) best = t - since, truck = k;
    }
    return truck;
}

/* Is a truck for the block's first load there today or tomorrow, or was since its move was due? */
static bool truck_is_near(const clockwork *c, size_t block, ls_sim_time t) {
    size_t job = 0;
    for (size_t b = 0; b < block; b++) job += c->s->blocks[b].n;
    ls_sim_time end = t - t % c->s->day + 2 * c->s->day;
    for (size_t k = 0; k < c->s->trucks[c->s->jobs[job].kind]; k++)
        for (ls_sim_time u = c->due[block]; u < end; u++)
            if (!is_out(c->s, (ls_sim_who){LS_SIM_TRUCK, c->s->jobs[job].kind, k}, u)) return true;
    return false;
}

/* May a move be begun? */
static bool clear(clockwork *c, size_t block, bool after, ls_sim_time t) {
    if (after) return c->loaded[block] <= t;
    for (size_t k = 0; k < block; k++)
        if (c->done[1][k] > t && (c->s->blocks[k].house == c->s->blocks[block].house || !c->s->while_loading))
            return false;
    if (c->s->blocks[block].ready > t) return false;
    c->due[block] = c->due[block] < 0 ? t : c->due[block];
    return c->s->blocks[block].before == 0 || truck_is_near(c, block, t);
}

static void put(clockwork *c, size_t block, bool after) {
    size_t move = 2 * block + after;
    for (size_t k = 0; k < c->list_n; k++)
        if (c->list[k] == move) return;
    c->list[c->list_n++] = move;
}

static clockwork wound(const ls_sim *s) {
    clockwork c = {.s = s, .left = s->blocks[0].n};
    for (size_t b = 0; b < s->blocks_n; b++) {
        size_t first = s->while_loading ? b > 0 ? b - 1 : 0 : b;
        for (size_t k = 0; k < b; k++) first = s->blocks[k].house == s->blocks[b].house && k >= first ? k + 1 : first;
        for (size_t k = 0; k < first; k++) put(&c, k, true);
        put(&c, b, false);
        c.due[b] = -1;
        c.loaded[b] = c.done[0][b] = c.done[1][b] = INT64_MAX;
        c.work[0][b] = s->blocks[b].before, c.work[1][b] = s->blocks[b].after;
    }
    for (size_t b = 0; b < s->blocks_n; b++) put(&c, b, true);
    return c;
}

/* Moves that need no time, or whose time is over. */
static void moved(clockwork *c, ls_sim_time t) {
    for (size_t k = 0; k < c->list_n; k++) {
        size_t b = c->list[k] / 2, after = c->list[k] % 2;
        if (c->done[after][b] > t && c->work[after][b] == 0 && clear(c, b, after, t)) c->done[after][b] = t;
    }
}

/* What can be done at tick t without time going by. Starts are written down. */
static void load(clockwork *c, ls_sim_time t, ls_sim_time *start, size_t *with) {
    for (moved(c, t); c->block < c->s->blocks_n && c->loader <= t; moved(c, t)) {
        if (c->left == 0) {
            c->loaded[c->block] = t;
            if (++c->block < c->s->blocks_n) c->left = c->s->blocks[c->block].n;
            continue;
        }
        const ls_sim_job *j = &c->s->jobs[c->job];
        size_t truck = standing(c, j, t);
        if (c->done[0][c->block] > t || truck == MOST_TRUCKS) return;
        start[c->job] = t, with[c->job] = truck;
        c->loader = t + j->load;
        c->home[j->kind][truck] = t + j->load + j->out + j->empty + j->back;
        c->job++, c->left--;
    }
}

/* One tick of moving. */
static void move(clockwork *c, ls_sim_time t) {
    while (c->listed < c->list_n && c->work[c->list[c->listed] % 2][c->list[c->listed] / 2] == 0) c->listed++;
    if (c->listed == c->list_n || is_out(c->s, (ls_sim_who){.what = LS_SIM_HANDS}, t)) return;
    size_t b = c->list[c->listed] / 2, after = c->list[c->listed] % 2;
    if (clear(c, b, after, t) && --c->work[after][b] == 0) c->done[after][b] = t + 1;
}

static bool is_done(const clockwork *c) {
    for (size_t b = 0; b < c->s->blocks_n; b++)
        if (c->done[1][b] == INT64_MAX) return false;
    return true;
}

static void test_tick_by_tick(void) {
    ls_arena *a = ls_arena_new();
    uint64_t state = 7;
    for (int i = 0; i < 3000; i++) {
        run r;
        make(&r, &state, true);
        ls_sim_time start[MOST_JOBS];
        size_t with[MOST_JOBS];
        clockwork c = wound(&r.s);
        for (ls_sim_time t = 0; !is_done(&c); t++) {
            load(&c, t, start, with);
            move(&c, t);
        }
        ls_sim_answer x = ls_sim_run(a, &r.s);
        for (size_t k = 0; k < r.s.jobs_n; k++) {
            TEST_SAME(x.trips[k].start, start[k]);
            TEST_SAME(x.trips[k].truck, with[k]);
        }
        for (size_t b = 0; b < r.s.blocks_n; b++) {
            TEST_SAME(x.before[b].to, c.done[0][b]);
            TEST_SAME(x.after[b].to, c.done[1][b]);
        }
    }
    ls_arena_free(a);
}

/* Is nothing of the second answer later than in the first? */
static bool no_later(const ls_sim *s, const ls_sim_answer *before, const ls_sim_answer *after) {
    for (size_t k = 0; k < s->jobs_n; k++)
        if (after->trips[k].start > before->trips[k].start || after->trips[k].leave > before->trips[k].leave)
            return false;
    for (size_t b = 0; b < s->blocks_n; b++)
        if (after->before[b].to > before->before[b].to || after->after[b].to > before->after[b].to) return false;
    return after->end <= before->end;
}

/* One more truck of any kind: nothing comes later, as loads never overtake each other. Of each kind
 * the first truck may be out. */
static void test_one_more_is_no_later(void) {
    ls_arena *a = ls_arena_new();
    uint64_t state = 5;
    for (int i = 0; i < 5000; i++) {
        run r;
        make(&r, &state, true);
        for (size_t k = 0; k < r.s.outs_n; k++) r.outs[k].who.truck = 0;
        ls_sim_answer before = ls_sim_run(a, &r.s);
        r.trucks[pick(&state, (unsigned)r.s.kinds_n)]++;
        ls_sim_answer more = ls_sim_run(a, &r.s);
        CU_ASSERT(no_later(&r.s, &before, &more));
    }
    ls_arena_free(a);
}

/* Where two are out it need not hold. Three trucks, the first out from 41, the second from 32, so
 * that the last load, 47 long, fits on neither. Without a fourth it goes with the third, back at
 * 23. With it the fourth takes the load of 9 to 29 and the second that of 13 to 23, so the loader
 * is free for the sixth at 15, a moment before the first is back, and puts it on the third, until
 * 31: the last waits for the fourth, until 29. */
static void test_two_out(void) {
    ls_arena *a = ls_arena_new();
    const ls_sim_job jobs[] = {{2, 0, 0, 14, 0}, {2, 0, 0, 4, 0},  {5, 0, 0, 0, 0}, {4, 0, 0, 16, 0},
                               {2, 0, 0, 8, 0},  {4, 0, 0, 12, 0}, {3, 0, 0, 44, 0}};
    const ls_sim_block block = {.n = 7};
    const ls_sim_out outs[] = {{{LS_SIM_TRUCK, 0, 0}, 41, 106}, {{LS_SIM_TRUCK, 0, 1}, 32, 87}};
    const ls_sim_time three[] = {0, 2, 4, 9, 13, 16, 23}, four[] = {0, 2, 4, 9, 13, 15, 29};
    size_t trucks = 3;
    ls_sim s = plain(&trucks, 1000, 7, jobs, 1, &block);
    s.outs = outs, s.outs_n = 2;
    ls_sim_answer x = ls_sim_run(a, &s);
    trucks++;
    ls_sim_answer y = ls_sim_run(a, &s);
    for (size_t k = 0; k < 7; k++) {
        TEST_SAME(x.trips[k].start, three[k]);
        TEST_SAME(y.trips[k].start, four[k]);
    }
    ls_arena_free(a);
}

/* A faster loader, a shorter trip, less to move, fewer hours out: nothing comes later, as long as
 * no single truck is out. */
static void test_faster_is_no_later(void) {
    ls_arena *a = ls_arena_new();
    uint64_t state = 11;
    for (int i = 0; i < 5000; i++) {
        run r;
        make(&r, &state, false);
        ls_sim_answer before = ls_sim_run(a, &r.s);
        size_t k = (size_t)pick(&state, (unsigned)r.s.jobs_n);
        r.jobs[k].load -= pick(&state, (unsigned)r.jobs[k].load);
        r.jobs[k].back -= pick(&state, 1 + (unsigned)r.jobs[k].back);
        r.blocks[0].before /= 2;
        if (r.s.outs_n > 0) r.outs[0].to -= (r.outs[0].to - r.outs[0].from) / 2;
        ls_sim_answer faster = ls_sim_run(a, &r.s);
        CU_ASSERT(no_later(&r.s, &before, &faster));
    }
    ls_arena_free(a);
}

/* ---- the rules ---- */

/* None begun that ends after the day unless it takes longer than a day, nor while anything it needs
 * is out. */
static void check_trip(const ls_sim *s, const ls_sim_job *j, const ls_sim_trip *t) {
    ls_sim_time clock = t->start % s->day, takes = t->back - t->start;
    TEST_SAME(takes, j->load + j->out + j->empty + j->back);
    CU_ASSERT(clock + takes <= s->day || (clock == 0 && takes > s->day));
    CU_ASSERT(t->waited >= 0);
    TEST_SAME(
        ls_sim_absent(s, (ls_sim_who){LS_SIM_TRUCK, j->kind, t->truck}, (ls_sim_span){t->start - t->waited, t->back}),
        0);
    TEST_SAME(ls_sim_absent(s, (ls_sim_who){.what = LS_SIM_LOADER}, (ls_sim_span){t->start, t->leave}), 0);
}

/* Loads in order, never two at the loader, no truck in two places; a house in turn. */
static void check_rules(const ls_sim *s, const ls_sim_answer *x) {
    ls_sim_time free = 0;
    for (size_t b = 0, k = 0; b < s->blocks_n; b++) {
        CU_ASSERT(x->before[b].from >= s->blocks[b].ready);
        for (size_t o = 0; o < b; o++)
            CU_ASSERT(x->before[b].from >= x->after[o].to ||
                      (s->while_loading && s->blocks[o].house != s->blocks[b].house));
        free = free > x->before[b].to ? free : x->before[b].to;
        for (size_t end = k + s->blocks[b].n; k < end; k++) {
            const ls_sim_trip *t = &x->trips[k];
            check_trip(s, &s->jobs[k], t);
            CU_ASSERT(t->start >= free);
            free = t->leave;
            for (size_t i = 0; i < k; i++)
                CU_ASSERT(s->jobs[i].kind != s->jobs[k].kind || x->trips[i].truck != t->truck ||
                          x->trips[i].back <= t->start);
        }
        CU_ASSERT(x->after[b].from >= free);
    }
}

static void test_rules(void) {
    ls_arena *a = ls_arena_new();
    uint64_t state = 3;
    for (int i = 0; i < 3000; i++) {
        run r;
        make(&r, &state, true);
        ls_sim_answer x = ls_sim_run(a, &r.s);
        check_rules(&r.s, &x);
        size_t days = ls_sim_days(&r.s, &x);
        ls_sim_hours *h = LS_NEW(a, ls_sim_hours, days), all = {0};
        ls_sim_by_day(a, &r.s, &x, h, days);
        for (size_t d = 0; d < days; d++) {
            all.loading += h[d].loading, all.moving += h[d].moving,
                all.waiting += h[d].waiting + h[d].held + h[d].stopped;
            CU_ASSERT(h[d].waiting >= 0 && h[d].held >= 0 && h[d].stopped >= 0);
            CU_ASSERT(h[d].idle >= 0 && h[d].out >= 0 && h[d].worked <= r.s.day);
            CU_ASSERT(h[d].idle + h[d].loading <= h[d].worked);
            CU_ASSERT(h[d].idle + h[d].out + h[d].loading <= r.s.day);
            CU_ASSERT(r.s.while_loading || h[d].moving + h[d].loading <= h[d].worked);
        }
        for (size_t k = 0; k < r.s.jobs_n; k++) all.loading -= r.jobs[k].load, all.waiting -= x.trips[k].waited;
        for (size_t b = 0; b < r.s.blocks_n; b++) all.moving -= r.blocks[b].before + r.blocks[b].after;
        CU_ASSERT(all.loading == 0 && all.moving == 0 && all.waiting == 0);
    }
    ls_arena_free(a);
}

/* ---- by hand: days of 100 ---- */

typedef struct {
    ls_sim_time loading, moving, out, idle, waiting, stopped, held, worked;
} by_hand;

static void check_day(const ls_sim_hours *h, by_hand want) {
    TEST_SAME(h->loading, want.loading);
    TEST_SAME(h->moving, want.moving);
    TEST_SAME(h->out, want.out);
    TEST_SAME(h->idle, want.idle);
    TEST_SAME(h->waiting, want.waiting);
    TEST_SAME(h->stopped, want.stopped);
    TEST_SAME(h->held, want.held);
    TEST_SAME(h->worked, want.worked);
}

static void check_run(ls_arena *a, const ls_sim *s, const ls_sim_time *start, const size_t *truck, ls_sim_time end,
                      const by_hand *days) {
    ls_sim_answer x = ls_sim_run(a, s);
    for (size_t k = 0; k < s->jobs_n; k++) {
        TEST_SAME(x.trips[k].start, start[k]);
        TEST_SAME(x.trips[k].truck, truck[k]);
    }
    TEST_SAME(x.end, end);
    size_t n = ls_sim_days(s, &x);
    ls_sim_hours *h = LS_NEW(a, ls_sim_hours, n);
    ls_sim_by_day(a, s, &x, h, n);
    for (size_t d = 0; d < n; d++) check_day(&h[d], days[d]);
}

/* Two trucks, loads of 20, trips of 30 out, 10 to empty, 30 back: 90 in all. Load 1 goes from 0 to
 * 90; load 2 is loaded from 20 to 40 and would be back at 110: the next day. There it is loaded
 * from 0 by truck 1 and back at 190; moves from 120 to 200 and for 15 of the third day; load 3 is
 * there from 215 to 295, its truck held for 15. */
static void test_moves_by_hand(void) {
    ls_arena *a = ls_arena_new();
    const ls_sim_job jobs[] = {{20, 30, 10, 30, 0}, {20, 30, 10, 30, 0}, {20, 30, 10, 20, 0}};
    const ls_sim_block blocks[] = {{.n = 2, .after = 95}, {.n = 1}};
    const size_t trucks = 2;
    ls_sim s = plain(&trucks, 100, 3, jobs, 2, blocks);
    check_run(a, &s, (ls_sim_time[]){0, 100, 215}, (size_t[]){0, 0, 0}, 295,
              (by_hand[]){{.loading = 20, .worked = 90},
                          {.loading = 20, .moving = 80, .worked = 100},
                          {.loading = 20, .moving = 15, .held = 15, .worked = 95}});
    ls_arena_free(a);
}

/* A small truck (10 to load, 40 in all) and a big one (20, 50), by turns. Small 0 to 40; big 10 to
 * 60, waits 10; the loader is free from 30 and waits for the small one: 40 to 80; the big one, back
 * at 60, would be back at 110: 100 to 150; the small one behind it stands from 100, 120 to 160. */
static const ls_sim_job turns[] = {
    {10, 10, 10, 10, 0}, {20, 10, 10, 10, 1}, {10, 10, 10, 10, 0}, {20, 10, 10, 10, 1}, {10, 10, 10, 10, 0}};

static void test_kinds_by_hand(void) {
    ls_arena *a = ls_arena_new();
    const size_t one_each[] = {1, 1};
    const ls_sim_block block = {.n = 5};
    ls_sim s = plain(one_each, 100, 5, turns, 1, &block);
    s.kinds_n = 2;
    check_run(a, &s, (ls_sim_time[]){0, 10, 40, 100, 120}, (size_t[]){0, 0, 0, 0, 0}, 160,
              (by_hand[]){{.loading = 40, .idle = 10, .waiting = 10, .worked = 80},
                          {.loading = 30, .waiting = 20, .worked = 60}});
    ls_arena_free(a);
}

/* The same, and the loader is out from 35 to 60. It waits for the small truck from 30 to 35; that
 * one is back at 40, stands until 60 and is back at 100. The next day as before. */
static void test_loader_out_by_hand(void) {
    ls_arena *a = ls_arena_new();
    const size_t one_each[] = {1, 1};
    const ls_sim_block block = {.n = 5};
    const ls_sim_out out = {{.what = LS_SIM_LOADER}, 35, 60};
    ls_sim s = plain(one_each, 100, 5, turns, 1, &block);
    s.kinds_n = 2, s.outs = &out, s.outs_n = 1;
    check_run(a, &s, (ls_sim_time[]){0, 10, 60, 100, 120}, (size_t[]){0, 0, 0, 0, 0}, 160,
              (by_hand[]){{.loading = 40, .out = 25, .idle = 5, .waiting = 10, .stopped = 20, .worked = 100},
                          {.loading = 30, .waiting = 20, .worked = 60}});
    ls_arena_free(a);
}

/* Two small trucks, the second out until 50, and a big one. Small 1 from 0 to 40, big 10 to 60,
 * small 1 again 40 to 80 (the loader waits from 30); the big one is back at 60 and out from 70 to
 * 120: 50 do not fit. It goes the next day from 120 to 170; the loader is there from 100 and waits.
 * Behind it the last load: both small ones have stood since 100, small 1 goes, 140 to 180, waited
 * 40. */
static void test_truck_out_by_hand(void) {
    ls_arena *a = ls_arena_new();
    const size_t trucks[] = {2, 1};
    const ls_sim_block block = {.n = 5};
    const ls_sim_out outs[] = {{{LS_SIM_TRUCK, 0, 1}, 0, 50}, {{LS_SIM_TRUCK, 1, 0}, 70, 120}};
    ls_sim s = plain(trucks, 100, 5, turns, 1, &block);
    s.kinds_n = 2, s.outs = outs, s.outs_n = 2;
    check_run(a, &s, (ls_sim_time[]){0, 10, 40, 120, 140}, (size_t[]){0, 0, 0, 0, 0}, 180,
              (by_hand[]){{.loading = 40, .idle = 10, .waiting = 10, .worked = 80},
                          {.loading = 30, .idle = 20, .waiting = 40, .worked = 80}});
    /* out until 30: it takes the third load, loaded from 30 to 40 */
    const ls_sim_out sooner[] = {{{LS_SIM_TRUCK, 0, 1}, 0, 30}};
    s.outs = sooner, s.outs_n = 1;
    TEST_SAME(ls_sim_run(a, &s).trips[2].start, 30);
    TEST_SAME(ls_sim_run(a, &s).trips[2].truck, 1);
    ls_arena_free(a);
}

/* Two houses, moves of 10, one truck, loads of 10 and 10 to come back. While loading, hands out
 * from 15 to 25: slats of the first off until 10, its loads 10 to 30 and 30 to 50; the second's off
 * from 10 to 15 and 25 to 30; the first's back from 40 to 50; the second's load 50 to 70, back 60
 * to 70. Else, hands out from 45 to 55: back from 40 to 60 with a pause, off until 70 (the truck,
 * home at 50, is held for 20), loaded until 80, back until 90. */
static void test_while_loading_by_hand(void) {
    ls_arena *a = ls_arena_new();
    const ls_sim_job jobs[] = {{.load = 10, .back = 10}, {.load = 10, .back = 10}, {.load = 10, .back = 10}};
    const ls_sim_block blocks[] = {{2, 0, 10, 10, 0}, {1, 0, 10, 10, 1}};
    const size_t one = 1;
    ls_sim_out out = {{.what = LS_SIM_HANDS}, 15, 25};
    ls_sim s = plain(&one, 100, 3, jobs, 2, blocks);
    s.while_loading = true, s.outs = &out, s.outs_n = 1;
    check_run(a, &s, (ls_sim_time[]){10, 30, 50}, (size_t[]){0, 0, 0}, 70,
              (by_hand[]){{.loading = 30, .moving = 40, .idle = 20, .held = 10, .worked = 70}});
    s.while_loading = false, out.from = 45, out.to = 55;
    check_run(a, &s, (ls_sim_time[]){10, 30, 70}, (size_t[]){0, 0, 0}, 90,
              (by_hand[]){{.loading = 30, .moving = 40, .idle = 10, .held = 30, .worked = 90}});
    ls_arena_free(a);
}

/* The only truck is out until 340: slats of 30 come off from 200, a day before the one on which it
 * is there, not from 0. */
static void test_truck_long_out_by_hand(void) {
    ls_arena *a = ls_arena_new();
    const ls_sim_job job = {.load = 10, .back = 10};
    const ls_sim_block block = {1, 0, 30, 0, 0};
    const size_t one = 1;
    const ls_sim_out out = {{LS_SIM_TRUCK, 0, 0}, 0, 340};
    ls_sim s = plain(&one, 100, 1, &job, 1, &block);
    s.outs = &out, s.outs_n = 1;
    ls_sim_answer x = ls_sim_run(a, &s);
    TEST_SAME(x.before[0].from, 200);
    TEST_SAME(x.before[0].to, 230);
    TEST_SAME(x.trips[0].start, 340);
    ls_arena_free(a);
}

/* A load of 10, 10 to come back; slats are due back at 10, the hands out until 30: back from 30 to
 * 40, the second load then. The truck, home at 20, stands for slats all of 20 to 40; the loader
 * waits for no truck. */
static void test_hands_out_by_hand(void) {
    ls_arena *a = ls_arena_new();
    const ls_sim_job jobs[] = {{.load = 10, .back = 10}, {.load = 10, .back = 10}};
    const ls_sim_block blocks[] = {{1, 0, 0, 10, 0}, {1, 0, 0, 0, 0}};
    const size_t one = 1;
    const ls_sim_out out = {{.what = LS_SIM_HANDS}, 5, 30};
    ls_sim s = plain(&one, 100, 2, jobs, 2, blocks);
    s.outs = &out, s.outs_n = 1;
    check_run(a, &s, (ls_sim_time[]){0, 40}, (size_t[]){0, 0}, 60,
              (by_hand[]){{.loading = 20, .moving = 10, .held = 20, .worked = 60}});
    ls_arena_free(a);
}

/* All out until 40 and from 140 to 200: the first load goes from 40 to 80, the second, 50 long,
 * from 100 or not at all that day: 50 to 100 on the first; the third at 100. Nothing counts while
 * all are out. */
static void test_half_days_by_hand(void) {
    ls_arena *a = ls_arena_new();
    const size_t one_each[] = {1, 1};
    const ls_sim_block block = {.n = 4};
    const ls_sim_out outs[] = {{{.what = LS_SIM_ALL}, 0, 40}, {{.what = LS_SIM_ALL}, 140, 200}};
    ls_sim s = plain(one_each, 100, 4, turns, 1, &block);
    s.kinds_n = 2, s.outs = outs, s.outs_n = 2;
    check_run(a, &s, (ls_sim_time[]){40, 50, 100, 200}, (size_t[]){0, 0, 0, 0}, 250,
              (by_hand[]){{.loading = 30, .waiting = 10, .worked = 60},
                          {.loading = 10, .worked = 40},
                          {.loading = 20, .worked = 50}});
    ls_arena_free(a);
}

TEST_SUITE(sim) = {{"the waiting line as printed", test_line_printed},
                   {"the waiting line simulated", test_line_simulated},
                   {"constant times reach the bound", test_bound},
                   {"the same tick by tick", test_tick_by_tick},
                   {"one truck more is never later", test_one_more_is_no_later},
                   {"two trucks out", test_two_out},
                   {"faster is never later", test_faster_is_no_later},
                   {"the rules of the yard", test_rules},
                   {"moves by hand", test_moves_by_hand},
                   {"two kinds by hand", test_kinds_by_hand},
                   {"a loader out by hand", test_loader_out_by_hand},
                   {"a truck out by hand", test_truck_out_by_hand},
                   {"moves while loading by hand", test_while_loading_by_hand},
                   {"a truck long out by hand", test_truck_long_out_by_hand},
                   {"hands out by hand", test_hands_out_by_hand},
                   {"half days by hand", test_half_days_by_hand},
                   CU_TEST_INFO_NULL};
