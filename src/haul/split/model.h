/* The split as a mixed-integer program in GLPK. Private to the room. */
#pragma once

#include "split.h"

#include <glpk.h>

/* Columns by what they stand for; 0: there is no such column. Tons and loads. */
typedef struct {
    const ls_haul_task *t;
    glp_prob *lp;
    int *full, *some, *part;            /* [lot][to] full loads; is there a part load; its tons */
    int *straight, *out;                /* [lot][field] tons; in whole-load problems: does the load go there */
    int *used, *out_used;               /* [lot][field] does any go there? only with drops */
    int *out_trips;                     /* [lot][field] */
    int *short_of;                      /* [buyer] */
    int *trips;                         /* [buyer] full and part loads */
    int *piled;                         /* [lot] does any lie in the stack? */
    int *field_row;                     /* [field] */
    int tons_row, short_row, money_row; /* goals, free until ls_haul_model_hold */
    double money_shift;                 /* what kept part loads cost whatever else is decided */
    LS_LIST(int) rows, columns;         /* of the matrix, each from index 1 as GLPK wants it */
    LS_LIST(double) values;
} ls_haul_model;

/* Where a goal's solve looks to. */
typedef enum { LS_HAUL_TONS, LS_HAUL_SHORT, LS_HAUL_MONEY, LS_HAUL_STACKED } ls_haul_aim;

/* A model with all rows and no objective, free with ls_haul_model_free. It knows of the smallest
 * drop, or does not: answers are mended then. Its arrays live in the task's arena. */
ls_haul_model *ls_haul_model_new(const ls_haul_task *t, bool with_drops);
void ls_haul_model_free(ls_haul_model *m);
/* Maximize tons, money; minimize tons short, tons in the stack. */
void ls_haul_model_aim(ls_haul_model *m, ls_haul_aim aim);
/* Hold a goal at a value: no fewer tons or money, no more tons short than that. */
void ls_haul_model_hold(ls_haul_model *m, ls_haul_aim aim, double value);

/* Column values (of the model's problem or a copy of it) to wishes, and an answer to column values. */
typedef double (*ls_haul_reader)(glp_prob *lp, int column);
ls_haul_wish *ls_haul_wish_new(const ls_haul_task *t);
void ls_haul_model_read(const ls_haul_model *m, glp_prob *lp, ls_haul_reader reader, ls_haul_wish *wish);
void ls_haul_model_write(const ls_haul_model *m, const ls_haul_answer *x, double *values);

/* model_rows.c */
void ls_haul_model_rows(ls_haul_model *m);
