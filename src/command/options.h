/* options: what may stand on the command line beside the command and its operands. Private to this
 * room. */
#ifndef COMMAND_OPTIONS_H
#define COMMAND_OPTIONS_H

#include "littershed/haul.h"

/* Those of an entry of the haul log stand together, and so do those beside an entry. */
typedef enum {
    LS_OPTION_HELP,
    LS_OPTION_VERSION,
    LS_OPTION_FORMAT,
    LS_OPTION_OUTPUT,
    LS_OPTION_UNITS,
    LS_OPTION_SEED,
    LS_OPTION_DRAWS,
    LS_OPTION_DIGITS,
    LS_OPTION_DEPTH,
    LS_OPTION_ALL,
    LS_OPTION_BIRDS,
    LS_OPTION_AIM,
    LS_OPTION_FROM,
    LS_OPTION_LIST,
    LS_OPTION_IMPORT,
    LS_OPTION_TICKET,
    LS_OPTION_TONS,
    LS_OPTION_WHEN,
    LS_OPTION_WEIGHED,
    LS_OPTION_BY_EYE,
    LS_OPTION_FIELD,
    LS_OPTION_ACRES,
    LS_OPTION_TRUCK,
    LS_OPTION_DRIVER,
    LS_OPTION_RECEIVED_BY,
    LS_OPTION_ANALYSIS,
    LS_OPTION_INCORPORATED,
    LS_OPTION_CLEARED,
    LS_OPTION_WEATHER_BEFORE,
    LS_OPTION_WEATHER,
    LS_OPTION_WEATHER_AFTER,
    LS_OPTION_SOIL,
    LS_OPTION_NOTE,
    LS_OPTION_REPLACES,
    LS_OPTION_AGAIN,
    LS_OPTION_SURE,
    LS_OPTION_ISSUE,
    LS_OPTION_PROMISE,
    LS_OPTION_WORTH,
    LS_OPTION_LOT,
    LS_OPTION_DAY,
    LS_OPTION_BUYER,
    LS_OPTION_PART,
    LS_OPTION_FULL,
    LS_OPTION_INSTEAD,
    LS_OPTION_STRICT,
    LS_OPTION_PRINTED,
    LS_OPTIONS
} ls_option;
#define LS_OPTION_BIT(option) (UINT64_C(1) << (option))
#define LS_OPTIONS_FROM_TO(first, last) (LS_OPTION_BIT((last) + 1) - LS_OPTION_BIT(first))
/* Of what is written; of a page of figures. */
#define LS_OPTIONS_OUTPUT LS_OPTIONS_FROM_TO(LS_OPTION_FORMAT, LS_OPTION_OUTPUT)
#define LS_OPTIONS_FIGURES LS_OPTIONS_FROM_TO(LS_OPTION_FORMAT, LS_OPTION_DRAWS)

typedef struct {
    const char *name;     /* without the dashes */
    char letter;          /* short form; 0: none */
    const char *argument; /* what follows, as help names it; NULL: nothing does */
    const char *help;
} ls_option_facts;

/* The facts of an option, LS_OPTION_HELP to before LS_OPTIONS. */
const ls_option_facts *ls_option_at(ls_option option);

enum { LS_MOST_DRAWS = 10000000, LS_MOST_LEVELS = 1000 };

/* The command line as read. Texts are those of argv. */
typedef struct {
    uint64_t given;     /* bits of the options that were given */
    const char *format; /* "text" unless given */
    const char *output; /* NULL: to the standard output */
    bool metric;
    uint64_t seed;
    size_t draws; /* as asked for; with digits: the most */
    int digits;   /* 0: not given */
    size_t depth;
    int birds;                    /* ls_bird; 0: not given */
    ls_aim aim;                   /* LS_AIM_MONEY unless given */
    ls_date from;                 /* LS_NO_DATE: not given */
    const char *word[LS_OPTIONS]; /* what stood behind each; NULL: not given, or nothing does */
    LS_LIST(const char *) operands;
} ls_options;

/* Read argv[1] ... argv[argc - 1]; options may stand anywhere, long names in full, "--" ends them.
 * On a mistake false is returned and *why says in the arena what is wrong. */
bool ls_options_read(ls_arena *a, int argc, char **argv, ls_options *out, const char **why);

/* The formats of a document: "text", "html", "json", "csv", NULL at the end. */
extern const char *const ls_command_documents[];

#endif
