/* What litter without a lab report may hold: the points of its draws that the limits go by, and the
 * chance that a figure is passed. */
#include "room.h"

#include <gsl/gsl_interp.h>
#include <math.h>

/* Beyond the 90 % point the grid goes on this many times as far as that lies from the middle: more
 * than 6 standard deviations of a normal from its middle. */
#define REACH 4.0

/* The content as drawn first, for its points. */
typedef struct {
    ls_agronomy_content *content;
    const char *key; /* that leads the keys of its points */
} drawn;

/* Does any field count all nitrogen of the litter? */
static bool counts_total(const ls_agronomy *g) {
    LS_EACH (const ls_buyer, b, g->farm->buyers)
        LS_EACH (const ls_field, f, b->fields)
            if (ls_agronomy_counts_total(f)) return true;
    return false;
}

static void count_total(ls_agronomy *g) {
    LS_EACH_OF (ls_agronomy_litter, l, g->litters, g->litters_n) {
        const ls_lab *lab = l->analysis->report;
        l->nitrogen =
            (ls_agronomy_content){.stated = l->analysis->per_ton[LS_N], .reported = lab != NULL && LS_GIVEN(lab->N)};
    }
}

static size_t unreported(ls_agronomy *g, drawn *out) {
    size_t n = 0;
    LS_EACH_OF (ls_agronomy_litter, l, g->litters, g->litters_n) {
        for (size_t k = 0; k < g->spreadings_n; k++)
            if (!l->pan[k].reported)
                out[n++] = (drawn){&l->pan[k], ls_printf(g->w, "%s.pan.%s", l->analysis->slug, g->spreadings[k].slug)};
        if (!l->phosphate.reported && g->spreadings_n > 0)
            out[n++] = (drawn){&l->phosphate, ls_printf(g->w, "%s.pan.P2O5", l->analysis->slug)};
        if (!l->nitrogen.reported && counts_total(g))
            out[n++] = (drawn){&l->nitrogen, ls_printf(g->w, "%s.pan.N", l->analysis->slug)};
    }
    return n;
}

/* Values from the middle to the 90 % point, evenly, and on from there with growing steps. */
static void lay_grid(ls_agronomy_odds *odds, double middle, double ninety) {
    for (size_t i = 0; i <= LS_AGRONOMY_BODY; i++)
        odds->at[i] = middle + (ninety - middle) * (double)i / LS_AGRONOMY_BODY;
    for (size_t i = 1; i <= LS_AGRONOMY_TAIL; i++) {
        double step = (double)i / LS_AGRONOMY_TAIL;
        odds->at[LS_AGRONOMY_BODY + i] = ninety + (ninety - middle) * REACH * step * step;
    }
}

static void keep_points(ls_agronomy *g, const drawn *d, const ls_drawn *points) {
    const ls_entry *stated = ls_line_at(g->w, d->content->stated);
    ls_worksheet *w = ls_part(g->w, stated->label, "%s", d->key);
    const char *how = ls_printf(w, "of %s, %zu draws, seed %llu", stated->key, g->estimate->draws,
                                (unsigned long long)g->estimate->seed);
    const char *unit = stated->unit.text;
    d->content->ninety = ls_leaf_exact(w, "ninety", "%s, rich litter", unit, points->high, LS_BY_SIMULATION,
                                       ls_printf(w, "high (9 times in 10 it is less) %s", how));
    d->content->middle = ls_leaf_exact(w, "middle", "%s, typical litter", unit, points->mid, LS_BY_SIMULATION,
                                       ls_printf(w, "likely (half the time it is less) %s", how));
    d->content->odds = LS_NEW(g->arena, ls_agronomy_odds, 1);
    lay_grid(d->content->odds, points->mid, points->high);
}

/* The 90 % point is passed by 10 % by definition (a mean over blocks of order statistics may miss
 * that in the fourth digit). */
static void keep_odds(ls_agronomy_odds *odds, const ls_drawn *shares) {
    for (size_t i = 0; i < LS_AGRONOMY_GRID; i++) {
        double most = i > LS_AGRONOMY_BODY ? 0.1 : 0.5, least = i < LS_AGRONOMY_BODY ? 0.1 : 0;
        odds->above[i] = fmin(fmax(shares[i].share_above, least), most);
    }
    odds->above[LS_AGRONOMY_BODY] = 0.1;
}

void ls_agronomy_draw(ls_agronomy *g) {
    ls_arena *scratch = ls_arena_new();
    count_total(g);
    drawn *of = LS_NEW(scratch, drawn, g->litters_n * (g->spreadings_n + 2));
    size_t n = unreported(g, of);
    ls_drawn *points = LS_NEW(scratch, ls_drawn, n);
    for (size_t i = 0; i < n; i++) points[i] = ls_drawn_of(of[i].content->stated);
    ls_draw(g->w, g->estimate->seed, g->estimate->draws, points, n);
    ls_drawn *shares = LS_NEW(scratch, ls_drawn, n * LS_AGRONOMY_GRID);
    for (size_t i = 0; i < n; i++) {
        keep_points(g, &of[i], &points[i]);
        for (size_t k = 0; k < LS_AGRONOMY_GRID; k++) {
            shares[i * LS_AGRONOMY_GRID + k] = ls_drawn_of(of[i].content->stated);
            shares[i * LS_AGRONOMY_GRID + k].above = of[i].content->odds->at[k];
        }
    }
    ls_draw(g->w, g->estimate->seed, g->estimate->draws, shares, n * LS_AGRONOMY_GRID);
    for (size_t i = 0; i < n; i++) keep_odds(of[i].content->odds, &shares[i * LS_AGRONOMY_GRID]);
    ls_arena_free(scratch);
}

double ls_agronomy_chance(const ls_agronomy_odds *odds, double at) {
    const size_t last = LS_AGRONOMY_GRID - 1;
    if (at <= odds->at[0]) return odds->above[0];
    if (at >= odds->at[last]) return odds->above[last];
    size_t i = gsl_interp_bsearch(odds->at, at, 0, last);
    double part = (at - odds->at[i]) / (odds->at[i + 1] - odds->at[i]);
    return odds->above[i] + part * (odds->above[i + 1] - odds->above[i]);
}
