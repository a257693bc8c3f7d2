#include "options.h"

#include "littershed/farm.h"

#include <getopt.h>
#include <string.h>

enum { MOST_DIGITS = 15, DEFAULT_DRAWS = 20000, MOST_UNLESS_TOLD = 1000000, DEFAULT_SEED = 1 };

#define FACTS(option, ...) [LS_OPTION_##option] = {__VA_ARGS__},
static const ls_option_facts table[LS_OPTIONS] = {LS_EACH_OPTION(FACTS)};

const ls_option_facts *ls_option_at(ls_option option) { return &table[option]; }

/* ---- the words behind options ---- */

static bool whole_number(const char *s, uint64_t least, uint64_t most, uint64_t *out) {
    size_t n = strspn(s, "0123456789");
    if (n == 0 || s[n] != '\0' || n > MOST_DIGITS) return false;
    uint64_t v = 0;
    for (size_t i = 0; i < n; i++) v = v * 10 + (uint64_t)(s[i] - '0');
    *out = v;
    return v >= least && v <= most;
}

static bool read_size(const char *s, size_t least, size_t most, size_t *out) {
    uint64_t v;
    if (!whole_number(s, least, most, &v)) return false;
    *out = (size_t)v;
    return true;
}

static int bird_of(const char *s) {
    for (int bird = 1; bird < LS_BIRDS; bird++)
        if (strcmp(s, ls_bird_name(bird)) == 0) return bird;
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

/* A day, or a minute of one. */
static bool read_from(const char *s, ls_options *o) {
    size_t n = strcspn(s, "T");
    o->from_minute = 0;
    return ls_date_parse(s, n, &o->from) && (s[n] == '\0' || ls_clock_parse(s + n + 1, &o->from_minute));
}

static const char *birds_words(ls_arena *a) {
    ls_text *t = ls_text_new(a);
    for (int bird = 1; bird < LS_BIRDS; bird++)
        ls_text_addf(t, "%s%s", bird == 1 ? "" : bird + 1 == LS_BIRDS ? " or " : ", ", ls_bird_name(bird));
    return t->s;
}

/* Take what follows an option; what may stand there instead, NULL if it may. */
static const char *take(ls_arena *a, ls_options *o, ls_option option, const char *word) {
    switch (option) {
    case LS_OPTION_FORMAT: /* each command says which formats it has */ o->format = word; return NULL;
    case LS_OPTION_OUTPUT: o->output = word; return word[0] != '\0' ? NULL : "a name";
    case LS_OPTION_UNITS:
        o->metric = strcmp(word, "metric") == 0;
        return o->metric || strcmp(word, "us") == 0 ? NULL : "us or metric";
    case LS_OPTION_SEED:
        return whole_number(word, 1, UINT64_MAX, &o->seed) ? NULL : "a whole number of 1 or more, at most 15 digits";
    case LS_OPTION_DRAWS: return read_size(word, 1, LS_MOST_DRAWS, &o->draws) ? NULL : "a whole number, 1 to 10000000";
    case LS_OPTION_DIGITS:
        o->digits = strcmp(word, "1") == 0 ? 1 : strcmp(word, "2") == 0 ? 2 : 0;
        return o->digits != 0 ? NULL : "1 or 2";
    case LS_OPTION_DEPTH: return read_size(word, 0, LS_MOST_LEVELS, &o->depth) ? NULL : "a whole number, 0 to 1000";
    case LS_OPTION_BIRDS: o->birds = bird_of(word); return o->birds != 0 ? NULL : birds_words(a);
    case LS_OPTION_AIM: return read_aim(word, &o->aim) ? NULL : "money, near or phosphorus";
    case LS_OPTION_FROM: return read_from(word, o) ? NULL : "a date, like \"2026-02-16\", or \"2026-02-16T13:00\"";
    default: return NULL;
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
        longs[i] = (struct option){table[i].name, word ? required_argument : no_argument, NULL, FIRST_CODE + i};
        if (table[i].letter == 0) continue;
        *s++ = table[i].letter;
        if (word) *s++ = ':';
    }
    longs[LS_OPTIONS] = (struct option){NULL, 0, NULL, 0};
    *s = '\0';
}

/* The option of what getopt_long returned, LS_OPTIONS if it is none. */
static ls_option option_of(int code) {
    if (code >= FIRST_CODE && code < FIRST_CODE + LS_OPTIONS) return (ls_option)(code - FIRST_CODE);
    for (int i = 0; i < LS_OPTIONS; i++)
        if (table[i].letter != 0 && code == table[i].letter) return (ls_option)i;
    return LS_OPTIONS;
}

/* getopt_long takes shortened long names, this program does not. */
static bool in_full(const char *element, ls_option option) {
    if (option == LS_OPTIONS) return false;
    if (strncmp(element, "--", 2) != 0) return true;
    size_t n = strlen(table[option].name);
    return strncmp(element + 2, table[option].name, n) == 0 && (element[2 + n] == '\0' || element[2 + n] == '=');
}

static const char *unknown(ls_arena *a, const char *element) {
    const char *names[LS_OPTIONS];
    for (int i = 0; i < LS_OPTIONS; i++) names[i] = table[i].name;
    const char *word = strncmp(element, "--", 2) == 0 ? ls_arena_copy_n(a, element + 2, strcspn(element + 2, "=")) : "";
    const char *near = ls_text_nearest(word, names, LS_OPTIONS);
    if (near == NULL) return ls_arena_printf(a, "unknown option %s", element);
    return ls_arena_printf(a, "unknown option --%s; did you mean --%s?", word, near);
}

static const char *refused(ls_arena *a, int code, const char *element) {
    if (code == ':') return ls_arena_printf(a, "option %s needs something behind it", element);
    if (code == '?' && in_full(element, option_of(optopt)))
        return ls_arena_printf(a, "option --%s takes nothing behind it", table[option_of(optopt)].name);
    return unknown(a, element);
}

bool ls_options_read(ls_arena *a, int argc, char **argv, ls_options *out, const char **why) {
    struct option longs[LS_OPTIONS + 1];
    char shorts[2 * LS_OPTIONS + 3];
    describe(longs, shorts);
    *out = (ls_options){
        .format = "text", .seed = DEFAULT_SEED, .draws = DEFAULT_DRAWS, .depth = LS_MOST_LEVELS, .from = LS_NO_DATE};
    opterr = 0;
    optind = 0; /* start anew: the program may run several times in one process */
    for (;;) {
        const char *element = argv[optind == 0 ? 1 : optind];
        int code = getopt_long(argc, argv, shorts, longs, NULL);
        if (code == -1) break;
        if (code == OPERAND) {
            *LS_PUSH(a, &out->operands) = optarg;
            continue;
        }
        ls_option option = option_of(code);
        bool known = in_full(element, option);
        const char *rather = known ? take(a, out, option, optarg) : NULL;
        *why = !known ? refused(a, code, element)
               : rather != NULL
                   ? ls_arena_printf(a, "option --%s: \"%s\" is not %s", table[option].name, optarg, rather)
                   : NULL;
        if (*why != NULL) return false;
        out->given |= LS_OPTION_BIT(option);
        out->word[option] = optarg;
    }
    if (out->digits != 0 && (out->given & OPTION(DRAWS)) == 0) out->draws = MOST_UNLESS_TOLD;
    for (; optind < argc; optind++) *LS_PUSH(a, &out->operands) = argv[optind];
    return true;
}
