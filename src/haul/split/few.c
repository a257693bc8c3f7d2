/* Few drops, buyer by buyer: the tons of each lot for each buyer stay, only the fields change. */
#include "arrange.h"
#include "search.h"

#include <math.h>

/* Drops of the loads straight from the house, and the least there can be: one a load. Those out of
 * the stack are one a load as it is. */
static long drops_now(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer, long *least) {
    long drops = 0;
    *least = 0;
    for (size_t i = 0; i < t->lots; i++) {
        ls_haul_pieces pieces;
        ls_haul_pieces_of(t, x, i, buyer, false, &pieces);
        drops += (long)pieces.n;
        *least += (long)ls_haul_sizes_of(t, x, i, buyer, false).n;
    }
    return drops;
}

/* The arrangement into trial, repaired to whole units; false if that is not possible. */
static bool take(const ls_haul_arrangement *s, const ls_haul_answer *now, ls_haul_answer *trial) {
    const ls_haul_task *t = s->t;
    ls_haul_answer_copy(t, trial, now);
    ls_haul_arrangement_read(s, trial);
    for (size_t i = 0; i < t->lots; i++) {
        ls_haul_side has = ls_haul_straight_side(t, trial, i, s->buyer);
        int64_t lacking = ls_haul_sent(t, now, i, s->buyer) - ls_haul_side_tons(has);
        if (lacking < 0) ls_haul_side_cut(has, -lacking);
        if (lacking > 0 && ls_haul_side_fill(has, lacking) > 0) return false;
    }
    ls_haul_evaluate(t, trial);
    return ls_haul_count_drops(t, trial) && ls_haul_check(t, trial) == NULL;
}

static double few_of_buyer(ls_haul_search *search, size_t buyer) {
    const ls_haul_task *t = search->t;
    long least, drops = drops_now(t, search->best, buyer, &least);
    if (drops == least || search->m == NULL) return (double)least;
    ls_haul_arrangement *s = ls_haul_arrangement_new(t, search->best, buyer, false);
    s->bound = (double)least;
    if (ls_haul_arrangement_solve(s) && take(s, search->best, search->trial) &&
        ls_haul_better(search->trial, search->best))
        ls_haul_answer_copy(t, search->best, search->trial);
    double bound = ceil(s->bound - 1e-6);
    ls_haul_arrangement_free(s);
    return bound;
}

double ls_haul_few_drops(ls_haul_search *search) {
    const ls_haul_task *t = search->t;
    double bound = 0;
    for (size_t b = 0; b < t->buyers; b++) {
        ls_arena_mark mark = ls_arena_here(t->arena);
        bound += few_of_buyer(search, b);
        ls_arena_rewind(t->arena, mark);
        for (size_t i = 0; i < t->lots; i++)
            for (size_t f = t->first[b]; f < t->first[b + 1]; f++)
                bound += (double)ls_haul_out_trips(t, search->best, i, f);
    }
    return bound;
}
