#include "program.h"

#include <math.h>

/* What is known of each line while compiling. */
typedef struct {
    bool needed, drawn; /* drawn: needed and not alike in all draws */
    bool wanted, placed;
    int32_t in;      /* its register */
    size_t last_use; /* step */
} line_state;

typedef struct {
    ls_arena *arena;
    const ls_worksheet *w;
    ls_line lines; /* up to the last one wanted */
    line_state *state;
    ls_worksheet_step *steps;
    ls_line *made; /* by step: its line */
    int32_t *free; /* registers to be used again */
    size_t n_free;
    ls_worksheet_program program;
} compiler;

static void mark(compiler *c, const ls_drawn *wanted, size_t n) {
    for (size_t i = 0; i < n; i++)
        if (ls_line_at(c->w, wanted[i].line) != NULL)
            c->state[wanted[i].line].wanted = c->state[wanted[i].line].needed = true;
    for (ls_line k = c->lines - 1; k > 0; k--) {
        const ls_entry *e = ls_worksheet_entry(c->w, k);
        for (size_t i = 0; c->state[k].needed && i < e->n; i++) c->state[e->in[i]].needed = true;
    }
    for (ls_line k = 1; k < c->lines; k++) {
        const ls_entry *e = ls_worksheet_entry(c->w, k);
        bool drawn = e->op == LS_OP_LEAF && e->spread.kind != LS_EXACT;
        for (size_t i = 0; i < e->n; i++) drawn = drawn || c->state[e->in[i]].drawn;
        c->state[k].drawn = drawn && c->state[k].needed;
    }
}

static void place(compiler *c, ls_line k) {
    if (!c->state[k].drawn || c->state[k].placed) return;
    const ls_entry *e = ls_worksheet_entry(c->w, k);
    c->state[k].placed = true;
    c->made[c->program.n] = k;
    c->steps[c->program.n++] = (ls_worksheet_step){.entry = e};
    if (e->n > c->program.most_inputs) c->program.most_inputs = e->n;
}

/* The order of the steps: that of the lines, but leaves as late as can be. */
static void put_in_order(compiler *c) {
    for (ls_line k = 1; k < c->lines; k++) {
        const ls_entry *e = ls_worksheet_entry(c->w, k);
        bool later = e->op == LS_OP_LEAF && !c->state[k].wanted;
        if (!c->state[k].drawn || later) continue;
        for (size_t i = 0; i < e->n; i++) place(c, e->in[i]);
        place(c, k);
    }
    for (size_t s = 0; s < c->program.n; s++)
        for (size_t i = 0; i < c->steps[s].entry->n; i++)
            c->state[c->steps[s].entry->in[i]].last_use = s;
}

static void keep_wanted(compiler *c) {
    for (ls_line k = 1; k < c->lines; k++)
        if (c->state[k].wanted && c->state[k].drawn) c->state[k].in = (int32_t)c->program.kept++;
    c->program.registers = c->program.kept;
}

static ls_worksheet_value found(const compiler *c, ls_line k) {
    if (c->state[k].drawn) return (ls_worksheet_value){c->state[k].in, 0};
    return (ls_worksheet_value){LS_WORKSHEET_NO_REGISTER, ls_line_value(c->w, k)};
}

/* The registers of inputs used here for the last time; an input may stand there twice. */
static void give_back(compiler *c, size_t s, const ls_entry *e) {
    for (size_t i = 0; i < e->n; i++) {
        line_state *in = &c->state[e->in[i]];
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
        for (size_t i = 0; i < e->n; i++) in[i] = found(c, e->in[i]);
        step->in = in;
        if (e->op == LS_OP_LEAF) step->stream = c->program.streams++;
        if (!state->wanted)
            state->in = c->n_free > 0 ? c->free[--c->n_free] : (int32_t)c->program.registers++;
        step->out = state->in;
        give_back(c, s, e);
    }
}

ls_worksheet_program ls_worksheet_compile(ls_arena *a, const ls_worksheet *w,
                                          const ls_drawn *wanted, size_t n) {
    compiler c = {.arena = a, .w = w};
    for (size_t i = 0; i < n; i++)
        if (ls_line_at(w, wanted[i].line) != NULL && wanted[i].line >= c.lines)
            c.lines = wanted[i].line + 1;
    c.state = LS_NEW(a, line_state, (size_t)c.lines);
    c.steps = LS_NEW(a, ls_worksheet_step, (size_t)c.lines);
    c.made = LS_NEW(a, ls_line, (size_t)c.lines);
    c.free = LS_NEW(a, int32_t, (size_t)c.lines);
    mark(&c, wanted, n);
    put_in_order(&c);
    keep_wanted(&c);
    give_registers(&c);
    ls_worksheet_value *values = LS_NEW(a, ls_worksheet_value, n);
    for (size_t i = 0; i < n; i++)
        values[i] = ls_line_at(w, wanted[i].line) == NULL
                        ? (ls_worksheet_value){LS_WORKSHEET_NO_REGISTER, NAN}
                        : found(&c, wanted[i].line);
    c.program.steps = c.steps;
    c.program.wanted = values;
    return c.program;
}
