/* entry: one command as the table, its help and the dispatcher know it. Private to this room. */
#pragma once

#include "options.h"

typedef struct ls_run ls_run;

typedef struct {
    const char *name;
    const char *operands;       /* as help names them: "": none, "FILE...": one at least, "[FILE...]" */
    const char *summary;        /* one line */
    const char *help;           /* a paragraph */
    uint64_t options;           /* bits; help and version are always allowed */
    const char *const *formats; /* words for --format, NULL at the end; the first is the usual one;
                                   NULL: those of a document */
    int (*exec)(ls_run *run);   /* the exit code; or, of a page that can be asked what would be
                                   instead: */
    const struct ls_document *(*make)(ls_run *run); /* NULL: the mistakes are printed */
} ls_command;

/* Commands by index in the order of help, NULL past the end; by name, NULL if there is none. */
const ls_command *ls_command_at(size_t index);
const ls_command *ls_command_named(const char *name);
/* The nearest name, for "did you mean"; NULL if none is near. */
const char *ls_command_near(const char *name);
/* Its formats, NULL at the end. */
const char *const *ls_command_formats(const ls_command *command);

/* The help page of the program (command NULL) or of one command; what --version prints. */
const char *ls_command_help(ls_arena *a, const ls_command *command);
const char *ls_command_version(ls_arena *a);

extern const ls_command ls_command_new, ls_command_check, ls_command_estimate, ls_command_rates, ls_command_plan,
    ls_command_tickets, ls_command_record, ls_command_dossier, ls_command_explain, ls_command_sources,
    ls_command_schema;
