/* The graph as a program for numpy, as one would write it: a column of n draws for each line. */
#include "bench/graph.h"

#include <math.h>

static const char *number(ls_arena *a, double v) {
    return isinf(v) ? v > 0 ? "np.inf" : "-np.inf" : ls_arena_printf(a, "%.17g", v);
}

/* ---- leaves ---- */

static const char *unbounded(ls_arena *a, ls_spread s, double m) {
    const char *about = number(a, m), *scale = number(a, s.scale), *df = number(a, s.df);
    switch (s.kind) {
    case LS_EXACT: break;
    case LS_NORMAL: return ls_arena_printf(a, "g.normal(%s, %s, n)", about, scale);
    case LS_TRUNCATED:
        return ls_arena_printf(a, "truncated(g, %s, %s, %s, %s, n)", about, scale, number(a, s.low), number(a, s.high));
    case LS_LOGNORMAL: return ls_arena_printf(a, "%s * np.exp(%s * g.standard_normal(n))", about, scale);
    case LS_TRIANGULAR:
        return ls_arena_printf(a, "g.triangular(%s, %s, %s, n)", number(a, s.low), about, number(a, s.high));
    case LS_RECTANGULAR: return ls_arena_printf(a, "g.uniform(%s, %s, n)", number(a, s.low), number(a, s.high));
    case LS_STUDENT: return ls_arena_printf(a, "%s + %s * g.standard_t(%s, n)", about, scale, df);
    case LS_LOG_STUDENT: return ls_arena_printf(a, "%s * np.exp(%s * g.standard_t(%s, n))", about, scale, df);
    }
    ls_fail("a leaf that draws nothing");
}

static const char *leaf(ls_arena *a, const ls_entry *e) {
    ls_spread s = e->spread;
    const char *drawn = unbounded(a, s, e->value);
    if (s.kind == LS_TRUNCATED || s.kind == LS_TRIANGULAR || s.kind == LS_RECTANGULAR ||
        (isinf(s.low) && isinf(s.high)))
        return drawn;
    if (isinf(s.high)) return ls_arena_printf(a, "np.maximum(%s, %s)", drawn, number(a, s.low));
    return ls_arena_printf(a, "np.clip(%s, %s, %s)", drawn, number(a, s.low), number(a, s.high));
}

/* ---- operations ---- */

/* x1 + x2 + ... */
static const char *joined(ls_arena *a, const char *sign, const char *const *x, size_t n) {
    const char *all = x[0];
    for (size_t i = 1; i < n; i++) all = ls_arena_printf(a, "%s %s %s", all, sign, x[i]);
    return all;
}

/* f(f(x1, x2), x3) ... */
static const char *folded(ls_arena *a, const char *f, const char *const *x, size_t n) {
    const char *all = x[0];
    for (size_t i = 1; i < n; i++) all = ls_arena_printf(a, "%s(%s, %s)", f, all, x[i]);
    return all;
}

static const char *geomean(ls_arena *a, const ls_worksheet_step *s, const char *const *x) {
    const char *all = "0";
    for (size_t i = 0; i < s->entry->n; i += 2) {
        bool nothing = s->in[i + 1].in == LS_WORKSHEET_NO_REGISTER && s->in[i + 1].number == 0;
        if (!nothing) all = ls_arena_printf(a, "%s + %s * np.log(np.maximum(%s, 0))", all, x[i + 1], x[i]);
    }
    return ls_arena_printf(a, "np.exp(%s)", all);
}

static const char *list(ls_arena *a, const double *x, size_t n) {
    const char *all = number(a, x[0]);
    for (size_t i = 1; i < n; i++) all = ls_arena_printf(a, "%s, %s", all, number(a, x[i]));
    return ls_arena_printf(a, "[%s]", all);
}

static const char *operation(ls_arena *a, const ls_worksheet_step *s, const char *const *x) {
    const ls_entry *e = s->entry;
    switch (e->op) {
    case LS_OP_SAME: return ls_arena_printf(a, "%s.copy()", x[0]);
    case LS_OP_SUM: return joined(a, "+", x, e->n);
    case LS_OP_DIFFERENCE: return joined(a, "-", x, 2);
    case LS_OP_PRODUCT: return joined(a, "*", x, e->n);
    case LS_OP_QUOTIENT: return joined(a, "/", x, 2);
    case LS_OP_COMPLEMENT: return ls_arena_printf(a, "1 - %s", x[0]);
    case LS_OP_LEAST: return folded(a, "np.minimum", x, e->n);
    case LS_OP_GREATEST: return folded(a, "np.maximum", x, e->n);
    case LS_OP_CLIP: return ls_arena_printf(a, "np.minimum(np.maximum(%s, %s), %s)", x[0], x[1], x[2]);
    case LS_OP_STEP_DOWN: return ls_arena_printf(a, "np.floor(%s / %s + 1e-9) * %s", x[0], x[1], x[1]);
    case LS_OP_STEP_UP: return ls_arena_printf(a, "np.ceil(%s / %s - 1e-9) * %s", x[0], x[1], x[1]);
    case LS_OP_GEOMEAN: return geomean(a, s, x);
    case LS_OP_INTERPOLATE:
        return ls_arena_printf(a, "np.interp(%s, %s, %s)", x[0], list(a, e->curve->x, e->curve->n),
                               list(a, e->curve->y, e->curve->n));
    case LS_OP_LEAF:
    case LS_OPS: break;
    }
    ls_fail("an operation the bench does not know");
}

static const char *formula(ls_arena *a, const ls_worksheet_step *s) {
    if (s->entry->op == LS_OP_LEAF) return leaf(a, s->entry);
    const char **x = LS_NEW(a, const char *, s->entry->n);
    for (size_t i = 0; i < s->entry->n; i++)
        x[i] = s->in[i].in == LS_WORKSHEET_NO_REGISTER ? number(a, s->in[i].number)
                                                       : ls_arena_printf(a, "r%d", s->in[i].in);
    return operation(a, s, x);
}

void bench_graph_as_numpy(const bench_graph *g) {
    const ls_worksheet_program *p = &g->program;
    puts("import numpy as np\nfrom numpy_side import truncated\n\n\ndef leaves(g, n):");
    for (size_t s = 0; s < p->n; s++)
        if (p->steps[s].entry->op == LS_OP_LEAF)
            printf("    %s  # %s\n", leaf(g->arena, p->steps[s].entry), p->steps[s].entry->key);
    puts("\n\ndef block(g, n):");
    for (size_t s = 0; s < p->n; s++)
        printf("    r%d = %s  # %s\n", p->steps[s].out, formula(g->arena, &p->steps[s]), p->steps[s].entry->key);
    puts("    return {");
    for (size_t i = 0; i < g->n; i++)
        if (p->wanted[i].in != LS_WORKSHEET_NO_REGISTER)
            printf("        \"%s\": r%d,\n", ls_line_at(g->sheet, g->wanted[i].line)->key, p->wanted[i].in);
    puts("    }");
}
