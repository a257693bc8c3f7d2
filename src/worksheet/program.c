#include "program.h"

#include "build.h"

#include <math.h>
#include <string.h>

/* What is known of each line of the worksheets while compiling. */
typedef struct {
    const ls_entry *entry; /* NULL: none */
    size_t first;          /* where the lines of its worksheet begin */
    size_t same;           /* the first line that is the same in every draw */
    bool needed, drawn;    /* drawn: needed and not alike in all draws */
    bool wanted, placed;
    int32_t in;      /* its register */
    size_t last_use; /* step */
} line_state;

typedef struct {
    ls_arena *arena;
    size_t lines; /* of each worksheet up to the last one wanted */
    line_state *state;
    size_t *slots, slots_n; /* drawn lines by what they are made of: open addressing */
    ls_worksheet_step *steps;
    size_t *made;  /* by step: its line */
    int32_t *free; /* registers to be used again */
    size_t n_free;
    ls_worksheet_program program;
} compiler;

static size_t input(const compiler *c, size_t k, size_t i) {
    const line_state *s = &c->state[k];
    return c->state[s->first + (size_t)s->entry->in[i]].same;
}

/* ---- what is needed ---- */

/* One past the last of the jobs on the same worksheet; lines gets one past the last line wanted. */
static size_t end_of(const ls_draw_job *jobs, size_t n, size_t from, size_t *lines) {
    size_t to = from;
    for (*lines = 1; to < n && jobs[to].w == jobs[from].w; to++)
        if (ls_line_at(jobs[to].w, jobs[to].drawn.line) != NULL && (size_t)jobs[to].drawn.line >= *lines)
            *lines = (size_t)jobs[to].drawn.line + 1;
    return to;
}

/* The lines of one worksheet, from first on. */
static void mark(compiler *c, const ls_draw_job *jobs, size_t n, size_t first, size_t end) {
    for (size_t k = first + 1; k < end; k++)
        c->state[k] =
            (line_state){.entry = ls_worksheet_entry(jobs->w, (ls_line)(k - first)), .first = first, .same = k};
    for (size_t i = 0; i < n; i++)
        if (ls_line_at(jobs[i].w, jobs[i].drawn.line) != NULL)
            c->state[first + (size_t)jobs[i].drawn.line].needed = true;
    for (size_t k = end - 1; k > first; k--)
        for (size_t i = 0; c->state[k].needed && i < c->state[k].entry->n; i++) c->state[input(c, k, i)].needed = true;
    for (size_t k = first + 1; k < end; k++) {
        const ls_entry *e = c->state[k].entry;
        bool drawn = e->op == LS_OP_LEAF && e->spread.kind != LS_EXACT;
        for (size_t i = 0; i < e->n; i++) drawn = drawn || c->state[input(c, k, i)].drawn;
        c->state[k].drawn = drawn && c->state[k].needed;
    }
}

/* ---- what is the same: leaves drawn alike, and operations on the same ---- */

static bool is_same_curve(const ls_curve *a, const ls_curve *b) {
    if (a == NULL || b == NULL) return a == b;
    return a->n == b->n && memcmp(a->x, b->x, a->n * sizeof *a->x) == 0 && memcmp(a->y, b->y, a->n * sizeof *a->y) == 0;
}

static bool is_same(const compiler *c, size_t k, size_t other) {
    const ls_entry *a = c->state[k].entry, *b = c->state[other].entry;
    if (a->op != b->op || a->n != b->n || !is_same_curve(a->curve, b->curve)) return false;
    if (a->op == LS_OP_LEAF) return ls_worksheet_alike(a, b);
    for (size_t i = 0; i < a->n; i++) {
        size_t x = input(c, k, i), y = input(c, other, i);
        const line_state *sx = &c->state[x], *sy = &c->state[y];
        bool numbers = !sx->drawn && !sy->drawn && memcmp(&sx->entry->value, &sy->entry->value, sizeof(double)) == 0;
        if (x != y && !numbers) return false;
    }
    return true;
}

static uint64_t hash_of(const compiler *c, size_t k) {
    const ls_entry *e = c->state[k].entry;
    uint64_t hash = e->op == LS_OP_LEAF ? e->hash : (uint64_t)e->op;
    for (size_t i = 0; i < e->n; i++) {
        size_t in = input(c, k, i);
        uint64_t part = in;
        if (!c->state[in].drawn) memcpy(&part, &c->state[in].entry->value, sizeof part);
        hash = (hash ^ part) * UINT64_C(0x9e3779b97f4a7c15);
        hash ^= hash >> 32;
    }
    return hash;
}

static void find_same(compiler *c) {
    for (size_t k = 1; k < c->lines; k++) {
        if (!c->state[k].drawn) continue;
        size_t slot = (size_t)hash_of(c, k) & (c->slots_n - 1);
        while (c->slots[slot] != 0 && !is_same(c, k, c->slots[slot])) slot = (slot + 1) & (c->slots_n - 1);
        if (c->slots[slot] == 0) c->slots[slot] = k;
        c->state[k].same = c->slots[slot];
    }
}

/* ---- steps ---- */

static void place(compiler *c, size_t k) {
    if (!c->state[k].drawn || c->state[k].placed) return;
    const ls_entry *e = c->state[k].entry;
    c->state[k].placed = true;
    c->made[c->program.n] = k;
    c->steps[c->program.n++] = (ls_worksheet_step){.entry = e};
    if (e->n > c->program.most_inputs) c->program.most_inputs = e->n;
}

/* The order of the steps: that of the lines, but leaves as late as can be. */
static void put_in_order(compiler *c) {
    for (size_t k = 1; k < c->lines; k++) {
        const ls_entry *e = c->state[k].entry;
        if (!c->state[k].drawn || c->state[k].same != k) continue;
        if (e->op == LS_OP_LEAF && !c->state[k].wanted) continue;
        for (size_t i = 0; i < e->n; i++) place(c, input(c, k, i));
        place(c, k);
    }
    for (size_t s = 0; s < c->program.n; s++)
        for (size_t i = 0; i < c->steps[s].entry->n; i++) c->state[input(c, c->made[s], i)].last_use = s;
}

static void keep_wanted(compiler *c) {
    for (size_t k = 1; k < c->lines; k++)
        if (c->state[k].wanted && c->state[k].drawn) c->state[k].in = (int32_t)c->program.kept++;
    c->program.registers = c->program.kept;
}

static ls_worksheet_value found(const compiler *c, size_t k) {
    if (c->state[k].drawn) return (ls_worksheet_value){c->state[k].in, 0};
    return (ls_worksheet_value){LS_WORKSHEET_NO_REGISTER, c->state[k].entry->value};
}

/* The registers of inputs used here for the last time; an input may stand there twice. */
static void give_back(compiler *c, size_t s) {
    for (size_t i = 0; i < c->steps[s].entry->n; i++) {
        line_state *in = &c->state[input(c, c->made[s], i)];
        if (in->drawn && !in->wanted && in->last_use == s && in->in != LS_WORKSHEET_NO_REGISTER) {
            c->free[c->n_free++] = in->in;
            in->in = LS_WORKSHEET_NO_REGISTER;
        }
    }
}

static void give_registers(compiler *c) {
    for (size_t s = 0; s < c->program.n; s++) {
        ls_worksheet_step *step = &c->steps[s];
        const ls_entry *e = step->entry;
        line_state *state = &c->state[c->made[s]];
        ls_worksheet_value *in = LS_NEW(c->arena, ls_worksheet_value, e->n);
        for (size_t i = 0; i < e->n; i++) in[i] = found(c, input(c, c->made[s], i));
        step->in = in;
        if (e->op == LS_OP_LEAF) step->stream = c->program.streams++;
        if (!state->wanted) state->in = c->n_free > 0 ? c->free[--c->n_free] : (int32_t)c->program.registers++;
        step->out = state->in;
        give_back(c, s);
    }
}

/* Room for the lines of all jobs; first gets where those of each job's worksheet begin. */
static void find_lines(compiler *c, const ls_draw_job *jobs, size_t n, size_t *first) {
    size_t lines;
    for (size_t from = 0, to; from < n; from = to, c->lines += lines) {
        to = end_of(jobs, n, from, &lines);
        for (size_t i = from; i < to; i++) first[i] = c->lines;
    }
    c->state = LS_NEW(c->arena, line_state, c->lines);
    for (size_t from = 0, to; from < n; from = to) {
        to = end_of(jobs, n, from, &lines);
        mark(c, jobs + from, to - from, first[from], first[from] + lines);
    }
    size_t drawn = 0;
    for (size_t k = 0; k < c->lines; k++) drawn += c->state[k].drawn;
    for (c->slots_n = 2; c->slots_n < 2 * drawn;) c->slots_n *= 2;
    c->slots = LS_NEW(c->arena, size_t, c->slots_n);
    c->steps = LS_NEW(c->arena, ls_worksheet_step, drawn);
    c->made = LS_NEW(c->arena, size_t, drawn);
    c->free = LS_NEW(c->arena, int32_t, drawn);
}

ls_worksheet_program ls_worksheet_compile(ls_arena *a, const ls_draw_job *jobs, size_t n) {
    compiler c = {.arena = a};
    size_t *line = LS_NEW(a, size_t, n); /* 0: there is none */
    find_lines(&c, jobs, n, line);
    find_same(&c);
    for (size_t i = 0; i < n; i++) {
        bool is = ls_line_at(jobs[i].w, jobs[i].drawn.line) != NULL;
        line[i] = is ? c.state[line[i] + (size_t)jobs[i].drawn.line].same : 0;
        c.state[line[i]].wanted = true;
    }
    put_in_order(&c);
    keep_wanted(&c);
    give_registers(&c);
    ls_worksheet_value *values = LS_NEW(a, ls_worksheet_value, n);
    for (size_t i = 0; i < n; i++)
        values[i] = line[i] == 0 ? (ls_worksheet_value){LS_WORKSHEET_NO_REGISTER, NAN} : found(&c, line[i]);
    c.program.steps = c.steps;
    c.program.wanted = values;
    return c.program;
}
