/* options: what may stand on the command line beside the command and its operands. Private to this room. */
#pragma once

#include "littershed/haul.h"

/* Those of an entry of the haul log stand together, and so do those beside an entry. A row: its name in the program;
 * without the dashes; short form, 0: none; what follows, as help names it, NULL: nothing does; its help. */
#define LS_EACH_OPTION(X)                                                                                              \
    X(HELP, "help", 'h', NULL, "show help, of a command if one is named")                                              \
    X(VERSION, "version", 0, NULL, "show the version of the program and of its tables")                                \
    X(FORMAT, "format", 0, "FORMAT", "how to write it: text (a page to read), json, ...")                              \
    X(OUTPUT, "output", 'o', "FILE",                                                                                   \
      "write to FILE, as a whole or not at all; its ending (.html, .json, .csv) is the "                               \
      "format unless --format says otherwise")                                                                         \
    X(UNITS, "units", 0, "UNITS", "us or metric, of pages to read")                                                    \
    X(SEED, "seed", 0, "N", "start of the random draws, 1 or more (1 unless given)")                                   \
    X(DRAWS, "draws", 0, "N", "how many draws, in blocks of 10,000 (20,000 unless given)")                             \
    X(DIGITS, "digits", 0, "N",                                                                                        \
      "draw until the totals are sure to N digits of their spread, 1 or 2; "                                           \
      "--draws is then the limit (1,000,000 unless given)")                                                            \
    X(DEPTH, "depth", 0, "N", "how many levels below the figure to explain")                                           \
    X(ALL, "all", 0, NULL, "every figure, with how it is made: the whole worksheet")                                   \
    X(BIRDS, "birds", 0, "KIND", "kind of bird: \"broiler breeder\", \"layer\", ...")                                  \
    X(HOUSING, "housing", 0, "WORD", "how the birds are kept: \"slats\", \"belt\", \"built-up\", ...")                 \
    X(ASK, "ask", 0, NULL, "ask for each line to fill in, and save each answer in the file of -o")                     \
    X(AIM, "aim", 0, "AIM",                                                                                            \
      "what decides between fields once tons and orders are served: money, near "                                      \
      "(fewest truck miles) or phosphorus (where crops need it)")                                                      \
    X(FROM, "from", 0, "WHEN",                                                                                         \
      "plan what is left from that day or hour on, like \"2026-02-16\" or "                                            \
      "\"2026-02-16T13:00\"; left out: the day after the last load in the log")                                        \
    X(LIST, "list", 0, NULL, "show the log instead of adding to it")                                                   \
    X(IMPORT, "import", 0, "FILE",                                                                                     \
      "add the loads of a list, a CSV: a scale house's or another log; "                                               \
      "shows it, and writes it with --sure")                                                                           \
    X(TICKET, "ticket", 0, "NUMBER", "the ticket number of the load")                                                  \
    X(TONS, "tons", 0, "X", "what the load weighed: 11.2 (short tons), \"22400 lb\", ...")                             \
    X(WHEN, "when", 0, "WHEN", "when it was spread: \"2026-02-16T10:00\" or \"2026-02-16\"; left out: now")            \
    X(WEIGHED, "weighed", 0, NULL, "the tons are off a scale, not judged by eye")                                      \
    X(BY_EYE, "by-eye", 0, NULL, "with --replaces: the tons are not off a scale after all")                            \
    X(FIELD, "field", 0, "FIELD",                                                                                      \
      "where it went: \"Buyer/Field\", stack, or parts, \"A/North 9 tons 3 ac; "                                       \
      "A/South\"; left out: where the ticket sends it")                                                                \
    X(ACRES, "acres", 0, "X", "acres it covered: 3, \"1.2 ha\"")                                                       \
    X(TRUCK, "truck", 0, "TRUCK", "which truck")                                                                       \
    X(DRIVER, "driver", 0, "NAME", "who drove")                                                                        \
    X(RECEIVED_BY, "received-by", 0, "NAME", "who signed for it")                                                      \
    X(ANALYSIS, "analysis", 0, "WORDS", "which analysis was handed over")                                              \
    X(INCORPORATED, "incorporated", 0, "WORDS", "when it was worked in, or that it was not")                           \
    X(CLEARED, "cleared", 0, "SHARE", "how much of the side is out by now: \"40 %\", or all for its last load")        \
    X(WEATHER_BEFORE, "weather-before", 0, "WORDS", "weather of the day before")                                       \
    X(WEATHER, "weather", 0, "WORDS", "weather while it was spread")                                                   \
    X(WEATHER_AFTER, "weather-after", 0, "WORDS", "weather of the day after")                                          \
    X(SOIL, "soil", 0, "WORDS", "the ground: dry, moist, frozen, ...")                                                 \
    X(NOTE, "note", 0, "WORDS", "anything else")                                                                       \
    X(REPLACES, "replaces", 0, "N",                                                                                    \
      "correct entry N: what is not given stays as it was; --tons 0 strikes it; with "                                 \
      "--import: all")                                                                                                 \
    X(AGAIN, "again", 0, NULL, "the ticket was logged before and goes out again")                                      \
    X(SURE, "sure", 0, NULL, "the weight, day, field or ticket that looks wrong is right")                             \
    X(ISSUE, "issue", 0, NULL, "hand out: what is new or changed goes into the haul log and is printed")               \
    X(PROMISE, "promise", 0, NULL, "promise slips, one for each buyer, not tickets")                                   \
    X(WORTH, "worth", 0, NULL, "with --promise: what the litter is worth to the buyer")                                \
    X(LOT, "lot", 0, "LOT", "only this side: \"North/left\", or its code")                                             \
    X(DAY, "day", 0, "DATE", "only loads hauled that day, like \"2026-02-16\"")                                        \
    X(BUYER, "buyer", 0, "BUYER", "only this buyer")                                                                   \
    X(PART, "part", 0, "TABLE", "with csv: which table; a wrong name lists them")                                      \
    X(FULL, "full", 0, NULL, "with all tables and notes, not the first screen alone")                                  \
    X(INSTEAD, "instead", 0, "CHANGE",                                                                                 \
      "side by side with what would be: CHANGE is a file with the part of a "                                          \
      "farm file that differs; nothing is written")                                                                    \
    X(STRICT, "strict", 0, NULL, "exit 1 when a required record is missing or a limit was exceeded")                   \
    X(WITHOUT, "without", 0, "PART", "leave out the \"worksheet\"; figures keep its numbers")                          \
    X(PRINTED, "printed", 0, "DATE", "a date to print on it, like \"2026-03-01\"")                                     \
    X(PERIOD, "period", 0, "DAYS",                                                                                     \
      "books of a year, \"2025\", or of days, \"2025-07-01..2026-06-30\"; left out: the "                              \
      "twelve months to the newest load")

#define LS_OPTION_NAME_(option, ...) LS_OPTION_##option,
typedef enum { LS_EACH_OPTION(LS_OPTION_NAME_) LS_OPTIONS } ls_option;
#define LS_OPTION_BIT(option) (UINT64_C(1) << (option))
#define OPTION(name) LS_OPTION_BIT(LS_OPTION_##name)
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
    long from_minute;             /* of that day */
    const char *word[LS_OPTIONS]; /* what stood behind each; NULL: not given, or nothing does */
    LS_LIST(const char *) operands;
} ls_options;

/* Read argv[1] ... argv[argc - 1]; options may stand anywhere, long names in full, "--" ends them.
 * On a mistake false is returned and *why says in the arena what is wrong. */
bool ls_options_read(ls_arena *a, int argc, char **argv, ls_options *out, const char **why);
