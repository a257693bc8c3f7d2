/* Trucks under one loader: against the finite-source waiting line, the deterministic bound, a
 * simulation tick by tick, and what must hold of any run. */
#include "chance.h"
#include "suite.h"

#include "haul/sim/sim.h"

#include <math.h>

static const ls_sim_time endless = INT64_MAX / 4;

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
    for (int i = 0; i < BATCHES; i++)
        sum += x[i];
    double mean = sum / BATCHES;
    for (int i = 0; i < BATCHES; i++)
        squares += (x[i] - mean) * (x[i] - mean);
    double error = sqrt(squares / (BATCHES - 1) / BATCHES);
    CU_ASSERT(error < 0.01 * want);
    if (!(fabs(mean - want) < 4 * error))
        printf("\nmean %g, standard error %g, formula %g\n", mean, error, want);
    CU_ASSERT(fabs(mean - want) < 4 * error);
}

static void check_line(size_t trucks, double lambda, double mu) {
    ls_arena *a = ls_arena_new();
    size_t n = (BATCHES + 1) * BATCH; /* the first batch is for warming up */
    ls_sim_block block = {.n = n};
    ls_sim s = {trucks, endless, n, 1, drawn(a, n, lambda, mu), &block};
    ls_sim_answer answer = ls_sim_run(a, &s);
    double P0[BATCHES], Lq[BATCHES], Wq[BATCHES], W[BATCHES];
    for (int i = 0; i < BATCHES; i++) {
        size_t first = (size_t)(i + 1) * BATCH;
        double load = 0, wait = 0;
        for (size_t k = first; k < first + BATCH; k++)
            load += (double)s.jobs[k].load, wait += (double)answer.trips[k].waited;
        double time =
            (double)(answer.trips[first + BATCH - 1].leave - answer.trips[first - 1].leave);
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
                jobs[k] = (ls_sim_job){LOAD, trip / 3, trip / 5, trip - trip / 3 - trip / 5};
            ls_sim_block block = {.n = LOADS};
            ls_sim s = {trucks, endless, LOADS, 1, jobs, &block};
            ls_sim_answer answer = ls_sim_run(a, &s);
            ls_sim_time round = (ls_sim_time)trucks * LOAD;
            round = round > LOAD + trip ? round : LOAD + trip;
            for (size_t k = 0; k + trucks < LOADS; k++)
                TEST_SAME(answer.trips[k + trucks].start - answer.trips[k].start, round);
        }
    ls_arena_free(a);
}

/* ---- random runs ---- */

enum { MOST_JOBS = 40, MOST_BLOCKS = 5 };

typedef struct {
    ls_sim s;
    ls_sim_job jobs[MOST_JOBS];
    ls_sim_block blocks[MOST_BLOCKS];
} run;

static ls_sim_time pick(uint64_t *state, unsigned n) {
    return (ls_sim_time)test_pick(state, n);
}

/* Some trips take longer than a day. */
static void make(run *r, uint64_t *state) {
    r->s = (ls_sim){.trucks = 1 + (size_t)pick(state, 5), .day = 20 + pick(state, 60)};
    r->s.blocks_n = 1 + (size_t)pick(state, MOST_BLOCKS);
    for (size_t b = 0; b < r->s.blocks_n; b++) {
        r->blocks[b] = (ls_sim_block){1 + (size_t)pick(state, MOST_JOBS / MOST_BLOCKS),
                                      pick(state, 4) ? 0 : r->s.day * pick(state, 10),
                                      pick(state, 2) ? 0 : pick(state, 50),
                                      pick(state, 2) ? 0 : pick(state, 50)};
        r->s.jobs_n += r->blocks[b].n;
    }
    for (size_t k = 0; k < r->s.jobs_n; k++)
        r->jobs[k] = (ls_sim_job){1 + pick(state, 8), pick(state, 9), pick(state, 9),
                                  pick(state, pick(state, 6) ? 9 : 80)};
    r->s.jobs = r->jobs, r->s.blocks = r->blocks;
}

/* Tick by tick: at each tick the loader, if free, does the next thing if it may. */
typedef struct {
    const ls_sim *s;
    ls_sim_time home[5], loader, move_left;
    size_t job, block, left; /* left: jobs of the block to come */
    int step;                /* 0: before, 1: loads, 2: after */
} clockwork;

/* The first truck at home that has stood there longest since the day began; 5: none. */
static size_t standing(const clockwork *c, ls_sim_time t) {
    ls_sim_time dawn = t - t % c->s->day, best = INT64_MAX;
    size_t truck = 5;
    for (size_t k = 0; k < c->s->trucks; k++) {
        ls_sim_time since = c->home[k] < dawn ? dawn : c->home[k];
        if (c->home[k] <= t && since < best)
            best = since, truck = k;
    }
    return truck;
}

static void enter(clockwork *c, int step) {
    const ls_sim_block *b = &c->s->blocks[c->block];
    c->step = step;
    c->move_left = step == 0 ? b->before : step == 2 ? b->after : 0;
    c->left = b->n;
}

/* What can be done at tick t without time going by. Starts are written down. */
static void tick(clockwork *c, ls_sim_time t, ls_sim_time *start, size_t *with) {
    while (c->block < c->s->blocks_n && c->loader <= t) {
        const ls_sim_block *b = &c->s->blocks[c->block];
        if (c->step == 0 && t < b->ready)
            return;
        if (c->step != 1 && c->move_left > 0) {
            c->loader = t + 1; /* one tick of moving */
            c->move_left--;
        } else if (c->step == 0) {
            enter(c, 1);
        } else if (c->step == 2) {
            if (++c->block < c->s->blocks_n)
                enter(c, 0);
        } else if (c->left == 0) {
            enter(c, 2);
        } else {
            const ls_sim_job *j = &c->s->jobs[c->job];
            ls_sim_time takes = j->load + j->out + j->empty + j->back, now = t % c->s->day;
            size_t truck = standing(c, t);
            if (truck == 5 || (now + takes > c->s->day && now > 0))
                return;
            start[c->job] = t, with[c->job] = truck;
            c->loader = t + j->load, c->home[truck] = t + takes;
            c->job++, c->left--;
        }
    }
}

static void test_tick_by_tick(void) {
    ls_arena *a = ls_arena_new();
    uint64_t state = 7;
    for (int i = 0; i < 2000; i++) {
        run r;
        make(&r, &state);
        ls_sim_time start[MOST_JOBS];
        size_t with[MOST_JOBS];
        clockwork c = {.s = &r.s};
        enter(&c, 0);
        for (ls_sim_time t = 0; c.block < r.s.blocks_n; t++)
            tick(&c, t, start, with);
        ls_sim_answer answer = ls_sim_run(a, &r.s);
        for (size_t k = 0; k < r.s.jobs_n; k++) {
            TEST_SAME(answer.trips[k].start, start[k]);
            TEST_SAME(answer.trips[k].truck, with[k]);
        }
        TEST_SAME(answer.after[r.s.blocks_n - 1].to, c.loader);
    }
    ls_arena_free(a);
}

/* Is nothing of the second answer later than in the first? */
static bool no_later(const ls_sim *s, const ls_sim_answer *before, const ls_sim_answer *after) {
    for (size_t k = 0; k < s->jobs_n; k++)
        if (after->trips[k].start > before->trips[k].start ||
            after->trips[k].leave > before->trips[k].leave)
            return false;
    return after->end <= before->end;
}

/* A faster loader, a shorter trip, less to move, one more truck: nothing comes later, whatever the
 * number of trucks, as loads never overtake each other. */
static void test_faster_is_no_later(void) {
    ls_arena *a = ls_arena_new();
    uint64_t state = 11;
    for (int i = 0; i < 3000; i++) {
        run r;
        make(&r, &state);
        ls_sim_answer before = ls_sim_run(a, &r.s);
        r.s.trucks++;
        ls_sim_answer more = ls_sim_run(a, &r.s);
        CU_ASSERT(no_later(&r.s, &before, &more));
        r.s.trucks--;
        size_t k = (size_t)pick(&state, (unsigned)r.s.jobs_n);
        r.jobs[k].load -= pick(&state, (unsigned)r.jobs[k].load);
        r.jobs[k].back -= pick(&state, 1 + (unsigned)r.jobs[k].back);
        r.blocks[0].before /= 2;
        ls_sim_answer faster = ls_sim_run(a, &r.s);
        CU_ASSERT(no_later(&r.s, &before, &faster));
    }
    ls_arena_free(a);
}

/* Loads in order, never two at the loader, no truck in two places, none begun that ends after the
 * day unless it takes longer than a day. */
static void check_rules(const ls_sim *s, const ls_sim_answer *x) {
    size_t k = 0;
    for (size_t b = 0; b < s->blocks_n; b++) {
        CU_ASSERT(x->before[b].from >= s->blocks[b].ready);
        CU_ASSERT(b == 0 || x->before[b].from >= x->after[b - 1].to);
        ls_sim_time free = x->before[b].to;
        for (size_t end = k + s->blocks[b].n; k < end; k++) {
            const ls_sim_trip *t = &x->trips[k];
            CU_ASSERT(t->start >= free && t->waited >= 0);
            free = t->leave;
            ls_sim_time clock = t->start % s->day, takes = t->back - t->start;
            CU_ASSERT(clock + takes <= s->day || (clock == 0 && takes > s->day));
            for (size_t i = 0; i < k; i++)
                CU_ASSERT(x->trips[i].truck != t->truck || x->trips[i].back <= t->start);
        }
        CU_ASSERT(x->after[b].from == free);
    }
}

static ls_sim_time common(ls_sim_span a, ls_sim_time from, ls_sim_time to) {
    from = a.from > from ? a.from : from;
    to = a.to < to ? a.to : to;
    return to > from ? to - from : 0;
}

/* The time all trucks wait while anything is moved. */
static ls_sim_time held(const ls_sim *s, const ls_sim_answer *x) {
    ls_sim_time sum = 0;
    for (size_t k = 0; k < s->jobs_n; k++)
        for (size_t b = 0; b < s->blocks_n; b++) {
            ls_sim_time to = x->trips[k].start, from = to - x->trips[k].waited;
            sum += common(x->before[b], from, to) + common(x->after[b], from, to);
        }
    return sum;
}

static void test_rules(void) {
    ls_arena *a = ls_arena_new();
    uint64_t state = 3;
    for (int i = 0; i < 2000; i++) {
        run r;
        make(&r, &state);
        ls_sim_answer x = ls_sim_run(a, &r.s);
        check_rules(&r.s, &x);
        size_t days = ls_sim_days(&r.s, &x);
        ls_sim_hours *h = LS_NEW(a, ls_sim_hours, days), all = {0};
        ls_sim_by_day(a, &r.s, &x, h, days);
        for (size_t d = 0; d < days; d++) {
            all.loading += h[d].loading, all.moving += h[d].moving,
                all.waiting += h[d].waiting + h[d].held;
            all.held += h[d].held;
            CU_ASSERT(h[d].waiting >= 0 && h[d].held >= 0);
            CU_ASSERT(h[d].idle >= 0 && h[d].worked <= r.s.day);
            CU_ASSERT(h[d].idle + h[d].loading <= h[d].worked);
        }
        TEST_SAME(all.held, held(&r.s, &x));
        for (size_t k = 0; k < r.s.jobs_n; k++)
            all.loading -= r.jobs[k].load, all.waiting -= x.trips[k].waited;
        for (size_t b = 0; b < r.s.blocks_n; b++)
            all.moving -= r.blocks[b].before + r.blocks[b].after;
        CU_ASSERT(all.loading == 0 && all.moving == 0 && all.waiting == 0);
    }
    ls_arena_free(a);
}

/* By hand: a day of 100, two trucks, loads of 20, trips of 30 out, 10 to empty, 30 back: 90 in all.
 * Load 1 goes from 0 to 90; load 2 is loaded from 20 to 40 and would be back at 110: the next day.
 * There it is loaded from 0 by truck 1; load 3 waits for the third day. */
static void test_by_hand(void) {
    ls_arena *a = ls_arena_new();
    const ls_sim_job jobs[] = {{20, 30, 10, 30}, {20, 30, 10, 30}, {20, 30, 10, 20}};
    const ls_sim_block blocks[] = {{.n = 2, .after = 95}, {.n = 1}};
    ls_sim s = {2, 100, 3, 2, jobs, blocks};
    ls_sim_answer x = ls_sim_run(a, &s);
    TEST_SAME(x.trips[1].start, 100);
    TEST_SAME(x.trips[1].truck, 0);
    TEST_SAME(x.trips[1].back, 190);
    TEST_SAME(x.after[0].from, 120); /* moved until 200 and for 15 of the third day */
    TEST_SAME(x.after[0].to, 215);
    TEST_SAME(x.trips[2].start, 215); /* 215 + 80 = 295 */
    TEST_SAME(x.end, 295);
    TEST_SAME(ls_sim_days(&s, &x), 3);
    ls_sim_hours h[3];
    ls_sim_by_day(a, &s, &x, h, 3);
    TEST_SAME(h[1].moving, 80);
    TEST_SAME(h[2].moving, 15);
    TEST_SAME(h[2].idle, 0);
    TEST_SAME(h[2].waiting, 0);
    TEST_SAME(h[2].held, 15);
    TEST_SAME(h[2].worked, 95);
    ls_arena_free(a);
}

TEST_SUITE(sim) = {{"the waiting line as printed", test_line_printed},
                   {"the waiting line simulated", test_line_simulated},
                   {"constant times reach the bound", test_bound},
                   {"the same tick by tick", test_tick_by_tick},
                   {"faster is never later", test_faster_is_no_later},
                   {"the rules of the yard", test_rules},
                   {"a run by hand", test_by_hand},
                   CU_TEST_INFO_NULL};
