/* run: what the commands share in one run of the program. Private to this room. */
#pragma once

#include "entry.h"

#include "littershed/books.h"
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
    ls_books books;    /* filled as far as the run has come */
    const char *files; /* that the farm was read from, for a command to be typed; NULL: not known */
    ls_gate *gate;     /* the files that no output may go to */
    bool refused;      /* the output may not go there, which is said: the exit code is LS_USAGE */
};

/* What pages are told of, as far as the run has come. */
const ls_view *ls_run_view(const ls_run *r);

/* The width of the terminal that text goes to, and whether it can be bold there. */
void ls_run_terminal(const ls_run *r, ls_view *v);

/* Each step takes the run one room further (ls_books_read and so on); false: the mistakes are
 * printed on err and the exit code is LS_MISTAKE. With the farm all files are known: an output that
 * may not go where it is sent ends the run here. */
bool ls_run_farm(ls_run *r, const char *const *files, size_t n);
bool ls_run_log(ls_run *r, ls_date before);
bool ls_run_estimate(ls_run *r);
bool ls_run_agronomy(ls_run *r);
/* The plan on the run's terms, its progress told on a terminal; the mistakes are not printed. */
const ls_plan *ls_run_morning_plan(ls_run *r);
/* The same with its mistakes printed, and what it adds up to. */
const ls_plan_sums *ls_run_plan(ls_run *r);
/* The lines that only tickets need, after the plan. */
const ls_tickets *ls_run_tickets(ls_run *r, const ls_plan_sums *sums);
/* The dossier, after the estimate and the rates; the years before it are read, and what is wrong
 * with them is printed. NULL: the mistakes are printed. */
const ls_dossier *ls_run_dossier(ls_run *r, ls_dossier_terms terms);
/* What to measure next, after the estimate; its lines are made once. */
ls_next_list ls_run_next(ls_run *r);

/* What stands on the command line: farm files (names that end in .yaml or .yml; all that can be
 * read, if any may be one), and perhaps one word; second: a word too many. */
typedef struct {
    LS_LIST(const char *) files;
    const char *word, *second;
} ls_run_operands;
ls_run_operands ls_run_sort(const ls_run *r, bool any_file);

/* Print the diagnostics on err and return LS_MISTAKE. */
int ls_run_mistake(ls_run *r);

/* The last step of a command: print warnings on err, and text to the output, as a whole. Returns the exit code. */
int ls_run_finish(ls_run *r, const char *text);

/* A document in the format that was asked for; NULL: it has no such part, which is said, and the
 * exit code is LS_USAGE. */
const char *ls_run_written(ls_run *r, const ls_document *d);
/* The last step of a command that makes a document. */
int ls_run_document(ls_run *r, const ls_document *d);

/* The same of a command that can be asked what would be instead: it is made twice then, and told side by side. */
int ls_run_made(ls_run *r, const ls_document *(*make)(ls_run *));

/* The format that the ending of a file's name says; NULL: none. */
const char *ls_run_ending(const char *path);

/* Would the output be written where it is sent, as far as can be told? LS_DONE, or it is said why
 * not and the exit code returned. */
int ls_run_may_write(ls_run *r);

/* Text to the output alone. */
int ls_run_write(ls_run *r, const char *text);

/* "littershed: MESSAGE" on err, made safe; returns code. */
int ls_run_say(ls_run *r, int code, const char *format, ...) __attribute__((format(printf, 3, 4)));

#define MISUSE(r, ...) ls_run_say((r), LS_USAGE, __VA_ARGS__)
#define MISTAKE(r, ...) ls_run_say((r), LS_MISTAKE, __VA_ARGS__)
#define TELL(r, ...) ls_run_say((r), LS_DONE, __VA_ARGS__)

/* Was the option given? */
bool ls_run_given(const ls_run *r, ls_option option);
#define GIVEN(r, option) ls_run_given((r), LS_OPTION_##option)
/* Is that the format? */
bool ls_run_in(const ls_run *r, const char *format);
ls_form ls_run_form(const ls_run *r);

/* progress.c: words of a long plan go to err from a second after the start on, one line that is
 * written over and erased at the end, and only if err is a terminal. */
typedef struct ls_run_progress ls_run_progress;
ls_run_progress *ls_run_progress_new(ls_run *r);
ls_progress ls_run_progress_hook(ls_run_progress *p);
void ls_run_progress_end(ls_run_progress *p);

/* gate.c: no output goes over a file that is read or named in the run. Keep what belongs to the
 * farm that was read from these files: they, all that they name, their haul logs (there or not)
 * with what was cut off of them, and the same of earlier years' files. */
void ls_gate_keep(ls_run *r, const char *const *files, size_t n);

/* May the output go where it is sent: -o to no folder, into a folder that is there and may be
 * written, and neither -o nor the standard output to a file that is kept, by its name or by the
 * file itself? If not, that is said and the run refused. */
bool ls_gate_passes(ls_run *r);

/* ask.c: ask what birds there are and how they are kept; false: the terminal ended. */
bool ls_run_ask_kind(ls_run *r, ls_starter *is);

/* Ask for each line of the file that is to be filled in (LS_STARTER_FILL). The file alone remembers: it is read before
 * and written as a whole after each answer, so that another run goes on where one was left. When nothing is left it
 * asks for the names of houses like the first, and prints the estimate. Returns the exit code. */
int ls_run_ask(ls_run *r, const char *path);
