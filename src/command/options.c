#include "options.h"

#include "littershed/farm.h"

#include <getopt.h>
#include <string.h>

enum { MOST_DIGITS = 15, DEFAULT_DRAWS = 20000, MOST_UNLESS_TOLD = 1000000, DEFAULT_SEED = 1 };

static const ls_option_facts table[LS_OPTIONS] = {
    [LS_OPTION_HELP] = {"help", 'h', NULL, "show help, of a command if one is named"},
    [LS_OPTION_VERSION] = {"version", 0, NULL, "show the version of the program and of its tables"},
    [LS_OPTION_FORMAT] = {"format", 0, "FORMAT",
                          "how to write it: text (a page to read), json, ..."},
    [LS_OPTION_OUTPUT] =
        {"output", 'o', "FILE",
         "write to FILE, as a whole or not at all; its ending (.html, .json, .csv) is the "
         "format unless --format says otherwise"},
    [LS_OPTION_UNITS] = {"units", 0, "UNITS", "us or metric, of pages to read"},
    [LS_OPTION_SEED] = {"seed", 0, "N", "start of the random draws, 1 or more (1 unless given)"},
    [LS_OPTION_DRAWS] = {"draws", 0, "N",
                         "how many draws, in blocks of 10,000 (20,000 unless given)"},
    [LS_OPTION_DIGITS] = {"digits", 0, "N",
                          "draw until the totals are sure to N digits of their spread, 1 or 2; "
                          "--draws is then the limit (1,000,000 unless given)"},
    [LS_OPTION_ALL] = {"all", 0, NULL, "every figure, with how it is made: the whole worksheet"},
    [LS_OPTION_DEPTH] = {"depth", 0, "N", "how many levels below the figure to explain"},
    [LS_OPTION_BIRDS] = {"birds", 0, "KIND", "kind of bird: \"broiler breeder\", \"layer\", ..."},
    [LS_OPTION_FROM] = {"from", 0, "DATE",
                        "plan what is left from that day on, like \"2026-02-16\"; left out: the "
                        "day after the last load in the log"},
    [LS_OPTION_AIM] = {"aim", 0, "AIM",
                       "what decides between fields once tons and orders are served: money, near "
                       "(fewest truck miles) or phosphorus (where crops need it)"},
    [LS_OPTION_LIST] = {"list", 0, NULL, "show the log instead of adding to it"},
    [LS_OPTION_IMPORT] = {"import", 0, "FILE",
                          "add the loads of a list, a CSV: a scale house's or another log; "
                          "shows it, and writes it with --sure"},
    [LS_OPTION_TICKET] = {"ticket", 0, "NUMBER", "the ticket number of the load"},
    [LS_OPTION_TONS] = {"tons", 0, "X",
                        "what the load weighed: 11.2 (short tons), \"22400 lb\", ..."},
    [LS_OPTION_WHEN] =
        {"when", 0, "WHEN",
         "when it was spread: \"2026-02-16T10:00\" or \"2026-02-16\"; left out: now"},
    [LS_OPTION_WEIGHED] = {"weighed", 0, NULL, "the tons are off a scale, not judged by eye"},
    [LS_OPTION_BY_EYE] = {"by-eye", 0, NULL,
                          "with --replaces: the tons are not off a scale after all"},
    [LS_OPTION_CLEARED] =
        {"cleared", 0, "SHARE",
         "how much of the side is out by now: \"40 %\", or all for its last load"},
    [LS_OPTION_FIELD] = {"field", 0, "FIELD",
                         "where it went: \"Buyer/Field\", stack, or parts, \"A/North 9 tons 3 ac; "
                         "A/South\"; left out: where the ticket sends it"},
    [LS_OPTION_ACRES] = {"acres", 0, "X", "acres it covered: 3, \"1.2 ha\""},
    [LS_OPTION_TRUCK] = {"truck", 0, "TRUCK", "which truck"},
    [LS_OPTION_DRIVER] = {"driver", 0, "NAME", "who drove"},
    [LS_OPTION_RECEIVED_BY] = {"received-by", 0, "NAME", "who signed for it"},
    [LS_OPTION_ANALYSIS] = {"analysis", 0, "WORDS", "which analysis was handed over"},
    [LS_OPTION_INCORPORATED] = {"incorporated", 0, "WORDS",
                                "when it was worked in, or that it was not"},
    [LS_OPTION_WEATHER_BEFORE] = {"weather-before", 0, "WORDS", "weather of the day before"},
    [LS_OPTION_WEATHER] = {"weather", 0, "WORDS", "weather while it was spread"},
    [LS_OPTION_WEATHER_AFTER] = {"weather-after", 0, "WORDS", "weather of the day after"},
    [LS_OPTION_SOIL] = {"soil", 0, "WORDS", "the ground: dry, moist, frozen, ..."},
    [LS_OPTION_NOTE] = {"note", 0, "WORDS", "anything else"},
    [LS_OPTION_REPLACES] =
        {"replaces", 0, "N",
         "correct entry N: what is not given stays as it was; --tons 0 strikes it; with "
         "--import: all"},
    [LS_OPTION_AGAIN] = {"again", 0, NULL, "the ticket was logged before and goes out again"},
    [LS_OPTION_SURE] = {"sure", 0, NULL,
                        "the weight, day, field or ticket that looks wrong is right"},
    [LS_OPTION_ISSUE] = {"issue", 0, NULL,
                         "hand out: what is new or changed goes into the haul log and is printed"},
    [LS_OPTION_PROMISE] = {"promise", 0, NULL, "promise slips, one for each buyer, not tickets"},
    [LS_OPTION_WORTH] = {"worth", 0, NULL, "with --promise: what the litter is worth to the buyer"},
    [LS_OPTION_LOT] = {"lot", 0, "LOT", "only this side: \"North/left\", or its code"},
    [LS_OPTION_DAY] = {"day", 0, "DATE", "only loads hauled that day, like \"2026-02-16\""},
    [LS_OPTION_BUYER] = {"buyer", 0, "BUYER", "only this buyer"},
    [LS_OPTION_PART] = {"part", 0, "TABLE", "with csv: which table; a wrong name lists them"},
    [LS_OPTION_FULL] = {"full", 0, NULL, "with all tables and notes, not the first screen alone"},
    [LS_OPTION_INSTEAD] = {"instead", 0, "CHANGE",
                           "side by side with what would be: CHANGE is a file with the part of a "
                           "farm file that differs; nothing is written"},
    [LS_OPTION_STRICT] = {"strict", 0, NULL,
                          "exit 1 when a required record is missing or a limit was exceeded"},
    [LS_OPTION_PRINTED] = {"printed", 0, "DATE", "a date to print on it, like \"2026-03-01\""},
};

const char *const ls_command_documents[] = {"text", "html", "json", "csv", NULL};

const ls_option_facts *ls_option_at(ls_option option) {
    return &table[option];
}

/* ---- the words behind options ---- */

static bool whole_number(const char *s, uint64_t least, uint64_t most, uint64_t *out) {
    size_t n = strspn(s, "0123456789");
    if (n == 0 || s[n] != '\0' || n > MOST_DIGITS)
        return false;
    uint64_t v = 0;
    for (size_t i = 0; i < n; i++)
        v = v * 10 + (uint64_t)(s[i] - '0');
    *out = v;
    return v >= least && v <= most;
}

static bool read_size(const char *s, size_t least, size_t most, size_t *out) {
    uint64_t v;
    if (!whole_number(s, least, most, &v))
        return false;
    *out = (size_t)v;
    return true;
}

static int bird_of(const char *s) {
    for (int bird = 1; bird < LS_BIRDS; bird++)
        if (strcmp(s, ls_bird_name(bird)) == 0)
            return bird;
    return 0;
}

static bool read_aim(const char *s, ls_aim *out) {
    for (int aim = 0; aim < LS_AIMS; aim++)
        if (strcmp(s, ls_aim_name((ls_aim)aim)) == 0) {
            *out = (ls_aim)aim;
            return true;
        }
    return false;
}

static const char *birds_words(ls_arena *a) {
    ls_text *t = ls_text_new(a);
    for (int bird = 1; bird < LS_BIRDS; bird++)
        ls_text_addf(t, "%s%s",
                     bird == 1              ? ""
                     : bird + 1 == LS_BIRDS ? " or "
                                            : ", ",
                     ls_bird_name(bird));
    return t->s;
}

/* What may stand behind the option, for a message. */
static const char *allowed(ls_arena *a, ls_option option) {
    switch (option) {
    case LS_OPTION_UNITS:
        return "us or metric";
    case LS_OPTION_SEED:
        return "a whole number of 1 or more, at most 15 digits";
    case LS_OPTION_DRAWS:
        return "a whole number, 1 to 10000000";
    case LS_OPTION_DIGITS:
        return "1 or 2";
    case LS_OPTION_DEPTH:
        return "a whole number, 0 to 1000";
    case LS_OPTION_BIRDS:
        return birds_words(a);
    case LS_OPTION_AIM:
        return "money, near or phosphorus";
    case LS_OPTION_FROM:
        return "a date, like \"2026-02-16\"";
    default:
        return "a name";
    }
}

/* Take what follows an option; false if it may not stand there. */
static bool take(ls_options *o, ls_option option, const char *word) {
    uint64_t n;
    switch (option) {
    case LS_OPTION_FORMAT: /* each command says which formats it has */
        o->format = word;
        return true;
    case LS_OPTION_OUTPUT:
        o->output = word;
        return word[0] != '\0';
    case LS_OPTION_UNITS:
        o->metric = strcmp(word, "metric") == 0;
        return o->metric || strcmp(word, "us") == 0;
    case LS_OPTION_SEED:
        if (!whole_number(word, 1, UINT64_MAX, &n))
            return false;
        o->seed = n;
        return true;
    case LS_OPTION_DRAWS:
        return read_size(word, 1, LS_MOST_DRAWS, &o->draws);
    case LS_OPTION_DIGITS:
        o->digits = strcmp(word, "1") == 0 ? 1 : strcmp(word, "2") == 0 ? 2 : 0;
        return o->digits != 0;
    case LS_OPTION_DEPTH:
        return read_size(word, 0, LS_MOST_LEVELS, &o->depth);
    case LS_OPTION_BIRDS:
        o->birds = bird_of(word);
        return o->birds != 0;
    case LS_OPTION_AIM:
        return read_aim(word, &o->aim);
    case LS_OPTION_FROM:
        return ls_date_parse(word, strlen(word), &o->from);
    default:
        return true;
    }
}

/* ---- reading with getopt_long ---- */

enum { OPERAND = 1, FIRST_CODE = 1000 };

static void describe(struct option longs[LS_OPTIONS + 1], char shorts[2 * LS_OPTIONS + 3]) {
    char *s = shorts;
    *s++ = '-'; /* operands come in their place, with code 1 */
    *s++ = ':'; /* a missing word is told apart */
    for (int i = 0; i < LS_OPTIONS; i++) {
        bool word = table[i].argument != NULL;
        longs[i] = (struct option){table[i].name, word ? required_argument : no_argument, NULL,
                                   FIRST_CODE + i};
        if (table[i].letter == 0)
            continue;
        *s++ = table[i].letter;
        if (word)
            *s++ = ':';
    }
    longs[LS_OPTIONS] = (struct option){NULL, 0, NULL, 0};
    *s = '\0';
}

/* The option of what getopt_long returned, LS_OPTIONS if it is none. */
static ls_option option_of(int code) {
    if (code >= FIRST_CODE && code < FIRST_CODE + LS_OPTIONS)
        return (ls_option)(code - FIRST_CODE);
    for (int i = 0; i < LS_OPTIONS; i++)
        if (table[i].letter != 0 && code == table[i].letter)
            return (ls_option)i;
    return LS_OPTIONS;
}

/* getopt_long takes shortened long names, this program does not. */
static bool in_full(const char *element, ls_option option) {
    if (option == LS_OPTIONS)
        return false;
    if (strncmp(element, "--", 2) != 0)
        return true;
    size_t n = strlen(table[option].name);
    return strncmp(element + 2, table[option].name, n) == 0 &&
           (element[2 + n] == '\0' || element[2 + n] == '=');
}

static const char *unknown(ls_arena *a, const char *element) {
    const char *names[LS_OPTIONS];
    for (int i = 0; i < LS_OPTIONS; i++)
        names[i] = table[i].name;
    const char *word = strncmp(element, "--", 2) == 0
                           ? ls_arena_copy_n(a, element + 2, strcspn(element + 2, "="))
                           : "";
    const char *near = ls_text_nearest(word, names, LS_OPTIONS);
    if (near == NULL)
        return ls_arena_printf(a, "unknown option %s", element);
    return ls_arena_printf(a, "unknown option --%s; did you mean --%s?", word, near);
}

static const char *refused(ls_arena *a, int code, ls_option option, const char *element,
                           const char *word) {
    if (code == ':')
        return ls_arena_printf(a, "option %s needs something behind it", element);
    if (code == '?' && in_full(element, option_of(optopt)))
        return ls_arena_printf(a, "option --%s takes nothing behind it",
                               table[option_of(optopt)].name);
    if (!in_full(element, option))
        return unknown(a, element);
    return ls_arena_printf(a, "option --%s: \"%s\" is not %s", table[option].name, word,
                           allowed(a, option));
}

bool ls_options_read(ls_arena *a, int argc, char **argv, ls_options *out, const char **why) {
    struct option longs[LS_OPTIONS + 1];
    char shorts[2 * LS_OPTIONS + 3];
    describe(longs, shorts);
    *out = (ls_options){.format = "text",
                        .seed = DEFAULT_SEED,
                        .draws = DEFAULT_DRAWS,
                        .depth = LS_MOST_LEVELS,
                        .from = LS_NO_DATE};
    opterr = 0;
    optind = 0; /* start anew: the program may run several times in one process */
    for (;;) {
        const char *element = argv[optind == 0 ? 1 : optind];
        int code = getopt_long(argc, argv, shorts, longs, NULL);
        if (code == -1)
            break;
        if (code == OPERAND) {
            *LS_PUSH(a, &out->operands) = optarg;
            continue;
        }
        ls_option option = option_of(code);
        if (!in_full(element, option) || !take(out, option, optarg)) {
            *why = refused(a, code, option, element, optarg);
            return false;
        }
        out->given |= LS_OPTION_BIT(option);
        out->word[option] = optarg;
    }
    if (out->digits != 0 && (out->given & LS_OPTION_BIT(LS_OPTION_DRAWS)) == 0)
        out->draws = MOST_UNLESS_TOLD;
    for (; optind < argc; optind++)
        *LS_PUSH(a, &out->operands) = argv[optind];
    return true;
}
