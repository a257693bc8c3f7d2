/* run: what the commands share in one run of the program. Private to this room. */
#ifndef COMMAND_RUN_H
#define COMMAND_RUN_H

#include "entry.h"

#include "littershed/command.h"
#include "littershed/report.h"

typedef struct ls_gate ls_gate;

struct ls_run {
    const ls_command *command;
    const ls_options *options;
    const char *format;          /* one of the command's */
    const char *const *operands; /* without the command's name */
    size_t n;
    ls_arena *arena;
    FILE *out, *err;
    const ls_reference *published; /* the tables without any of a farm's own: each farm's are laid
                                      over these, never over those of another year */
    ls_view view;                  /* filled as far as the run has come */
    ls_diag *diag;
    const ls_log *log; /* of the farm; NULL: none is read */
    ls_estimate *estimate;
    ls_agronomy *agronomy;
    bool earlier;  /* the farm of an earlier year, whose files another farm file names */
    ls_gate *gate; /* the files that no output may go to */
    bool refused;  /* the output may not go there, which is said: the exit code is LS_USAGE */
};

/* Each step takes the run one room further; false: the mistakes are printed on err and the exit
 * code is LS_MISTAKE. With the farm all files are known: an output that may not go where it is sent
 * ends the run here. */
bool ls_run_farm(ls_run *r, const char *const *files, size_t n);
/* The farm with what its haul log tells: loads of days before that one alone; LS_NO_DATE: all. */
bool ls_run_log(ls_run *r, ls_date before);
bool ls_run_estimate(ls_run *r);
bool ls_run_agronomy(ls_run *r);
/* again.c: the plan, from what the log says is gone if any is: tickets keep the way of the plan
 * without the log where they can, and plan->last is the one without the newest day. NULL: a
 * mistake, noted. */
const ls_plan *ls_run_plan_again(ls_run *r);
/* Tickets as they are printed later on that day, with its loads in the log: planned on from the
 * plan of its morning. Loads alone, without lines. NULL: a mistake, noted. */
const ls_plan *ls_run_plan_later(ls_run *r, const ls_plan *morning, ls_date day);
/* The same as ls_run_plan_again, with its mistakes printed. */
const ls_plan *ls_run_plan(ls_run *r);

/* The lines that only tickets need, after the plan. */
void ls_run_ticket_lines(ls_run *r, const ls_plan *plan);

/* What to measure next, after the estimate; its lines are made once. */
ls_next_list ls_run_next(ls_run *r);

/* Has the farm any field; does it name all that a plan needs? */
bool ls_run_has_fields(const ls_run *r);
bool ls_run_can_plan(const ls_run *r);

/* Print the diagnostics on err and return LS_MISTAKE. */
int ls_run_mistake(ls_run *r);

/* The last step of a command: print warnings on err, and text to the output, as a whole. Returns
 * the exit code. */
int ls_run_finish(ls_run *r, const char *text);

/* Text to the output alone. */
int ls_run_write(ls_run *r, const char *text);

/* "littershed: MESSAGE" on err, made safe; returns code. */
int ls_run_say(ls_run *r, int code, const char *format, ...) __attribute__((format(printf, 3, 4)));

bool ls_run_json(const ls_run *r);

#endif
