/* The program of one buyer: which tons go on which of its fields, loads as decided. Private to the room. */
#pragma once

#include "split.h"

#include <glpk.h>

typedef struct {
    const ls_haul_task *t;
    const ls_haul_answer *x; /* as it was */
    size_t buyer;
    bool may_lose; /* fewest tons given up; else fewest drops */
    glp_prob *lp;
    int *tons, *pieces;        /* [lot][field] columns; 0: none */
    int *lost, *cut, *dropped; /* [lot] full loads, tons of the part load, all of it given up */
    long nodes;
    double bound; /* of what is minimized */
} ls_haul_arrangement;

/* May be made and solved only where GLPK is guarded. Free it with ls_haul_arrangement_free. */
ls_haul_arrangement *ls_haul_arrangement_new(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer,
                                             bool may_lose);
void ls_haul_arrangement_free(ls_haul_arrangement *s);
/* True if an arrangement was found. */
bool ls_haul_arrangement_solve(ls_haul_arrangement *s);
/* Write it into x, tons rounded down: sums may lack hundredths. */
void ls_haul_arrangement_read(const ls_haul_arrangement *s, ls_haul_answer *x);
