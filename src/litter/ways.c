/* The ways in which the dry tons of a house are known, and how far to trust each. */
#include "house.h"

#include <math.h>

/* A leaf that is from memory and moves the line by 1 % or more stands behind it. */
static bool is_recalled(const ls_worksheet *w, ls_line line) {
    const double share = 0.01;
    ls_arena *a = ls_arena_new();
    double *gradient = LS_NEW(a, double, ls_worksheet_lines(w));
    bool recalled = false;
    ls_line_gradient(w, line, gradient);
    for (ls_line k = 1; k <= line && !recalled; k++) {
        const ls_entry *e = ls_line_at(w, k);
        const ls_figure *f = e->origin.figure;
        recalled = f && f->status == LS_MEMORY &&
                   fabs(gradient[k] * ls_spread_scale(e->spread, e->value)) >=
                       share * fabs(ls_line_value(w, line));
    }
    ls_arena_free(a);
    return recalled;
}

ls_litter_way *ls_litter_add_way(ls_litter_house *h, const char *name, bool evidence,
                                 ls_line made) {
    if (!made || h->ways_n == LS_MOST_METHODS)
        return NULL;
    if (!(ls_line_value(h->w, made) > 0)) {
        ls_litter_note(
            h, "%s is left out: it gives no litter at all. Check the figures it is made of", name);
        return NULL;
    }
    ls_litter_way *way = &h->ways[h->ways_n++];
    *way = (ls_litter_way){
        .name = name, .evidence = evidence, .memory = is_recalled(h->w, made), .dry = made};
    return way;
}

void ls_litter_add_published(ls_litter_house *h, const char *name, ls_line figure, ls_line made,
                             ls_line weight) {
    ls_litter_way *way = ls_litter_add_way(h, name, false, made);
    if (way)
        way->weight = weight, way->memory = is_recalled(h->w, figure);
}

/* Leaves that are part of two ways or more. */
static bool *shared_leaves(const ls_litter_house *h, size_t first, size_t n, ls_arena *a) {
    size_t lines = ls_worksheet_lines(h->w);
    bool *of = LS_NEW(a, bool, lines), *once = LS_NEW(a, bool, lines);
    bool *shared = LS_NEW(a, bool, lines);
    for (size_t i = first; i < n; i++) {
        ls_line_ancestors(h->w, h->ways[i].dry, of);
        for (size_t k = 0; k < lines; k++)
            shared[k] |= of[k] && once[k], once[k] |= of[k];
    }
    return shared;
}

void ls_litter_weigh(const ls_litter_house *h, size_t first, size_t n, double *y, double *s) {
    const double least = 0.001; /* keeps the weight of a figure without any spread finite */
    ls_arena *a = ls_arena_new();
    const bool *shared = shared_leaves(h, first, n, a);
    for (size_t i = first; i < n; i++) {
        y[i - first] = log(ls_line_value(h->w, h->ways[i].dry));
        s[i - first] = fmax(ls_line_log_scale(h->w, h->ways[i].dry, shared), least);
    }
    ls_arena_free(a);
}

void ls_litter_opine(ls_litter_opinions *o, const char *name, ls_line x, double scale) {
    o->name[o->n] = name, o->scale[o->n] = scale;
    o->x[o->n++] = x;
}

double ls_litter_precision(const ls_litter_opinions *o) {
    double sum = 0;
    for (size_t i = 0; i < o->n; i++)
        sum += 1 / (o->scale[i] * o->scale[i]);
    return sum;
}

void ls_litter_give_weights(ls_litter_opinions *o, ls_worksheet *w, const char *key, size_t first,
                            const char *label) {
    double sum = ls_litter_precision(o);
    for (size_t i = 0; i < o->n; i++)
        o->weight[i] = ls_leaf_exact(ls_part(w, o->name[i], "%s-%zu", key, i + first), "", label,
                                     "%", 1 / (o->scale[i] * o->scale[i]) / sum, LS_BY_FIRST_PASS,
                                     "inverse of its squared spread");
}
