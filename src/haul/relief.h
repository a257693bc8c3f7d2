/* What the files that look for the limit that would help most share. Private to the room. */
#pragma once

#include "plan.h"

/* A limit that might be lifted. */
typedef struct {
    ls_relief_kind kind;
    size_t buyer, field; /* where that matters, else 0 */
    double factor;       /* LS_RELIEF_TRUCK: of the present load */
    const char *name;    /* ties go to the lesser */
    double most;         /* tons it could place at the very best */
    double placed;       /* tons that the split does place */
    const ls_split *answer;
} ls_haul_limit;
typedef LS_LIST(ls_haul_limit) ls_haul_limits;

typedef struct {
    ls_haul_planner *p;
    ls_split_problem q; /* of the middle stage */
    double left;        /* tons without a home now */
    double *on_field, *on_buyer;
    long *loads; /* [buyer] */
    double *free_use,
        *season_use; /* [lot][field] as use, without the top rate, or the caps of a season
                      */
    int most_tries;
} ls_haul_reliever;

static inline double ls_haul_sum(const double *v, size_t n) {
    double all = 0;
    for (size_t i = 0; i < n; i++) all += v[i];
    return all;
}

/* defaults.c: fields held back by limits of the program's own, and what each of those costs. */
void ls_haul_list_defaults(const ls_haul_reliever *s);

/* relief_least.c. Does the buyer get the most it ordered? Tons that fit on a field at these uses,
 * of lots that may go there (anytime: that could, were it open). */
bool ls_haul_order_full(const ls_haul_reliever *s, size_t b);
double ls_haul_room_on(const ls_haul_reliever *s, const double *use, size_t f, bool anytime);
/* A copy of a list; of the most tons and loads of the buyers with another of one.
 */
void *ls_haul_copy(const ls_haul_reliever *s, const void *list, size_t size);
const double *ls_haul_with_tons(const ls_haul_reliever *s, size_t buyer, double most);
const long *ls_haul_with_loads(const ls_haul_reliever *s, size_t buyer, long most);
/* Tons that find a home by an answer and had none. */
double ls_haul_placed_by(const ls_haul_reliever *s, const ls_split *answer);
/* The limit, and the least change of it that does as much, as the number-th relief
 * of the plan. */
void ls_haul_show_relief(const ls_haul_reliever *s, const ls_haul_limit *one, size_t number);
