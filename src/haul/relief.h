/* What the files that look for the limit that would help most share. Private to the room. */
#pragma once

#include "plan.h"

/* A limit that might be lifted: of the file, or of the program's own. */
typedef struct {
    ls_relief_kind kind;
    ls_default_kind held; /* of the program's own, whose kind is LS_RELIEF_CAP */
    size_t buyer, field;  /* where that matters, else 0 */
    double factor;        /* LS_RELIEF_TRUCK: of the present load */
    const char *name;     /* ties go to the lesser, then to the first of the list */
    size_t place;
    const double *use; /* cap and season: [lot][field] without it */
    double most;       /* tons it could place at the very best */
    double placed;     /* tons that the split does place; below 0: not tried */
    const ls_split *answer;
} ls_haul_limit;
typedef LS_LIST(ls_haul_limit) ls_haul_limits;

typedef struct {
    ls_haul_planner *p;
    ls_split_problem q; /* of the middle stage */
    double left;        /* tons without a home now */
    double *on_field, *on_buyer;
    long *loads; /* [buyer] */
} ls_haul_reliever;

static inline double ls_haul_sum(const double *v, size_t n) {
    double all = 0;
    for (size_t i = 0; i < n; i++) all += v[i];
    return all;
}

/* relief_least.c: the split again, and the tons that find a home by it and had none. */
void ls_haul_split_again(const ls_haul_reliever *s, ls_split_problem q, ls_haul_limit *one);
/* A copy of a list; the problem with another most of a buyer. */
void *ls_haul_copy(const ls_haul_reliever *s, const void *list, size_t size);
ls_split_problem ls_haul_with_order(const ls_haul_reliever *s, size_t buyer, double tons, long loads);
/* The limit, and the least change of it that does as much, as the number-th relief
 * of the plan; one of the program's own. */
void ls_haul_show_relief(const ls_haul_reliever *s, const ls_haul_limit *one, size_t number);
void ls_haul_show_default(const ls_haul_reliever *s, const ls_haul_limit *one, size_t number);
