#include "run.h"

#include <string.h>
#include <unistd.h>

/* Ways that such birds are kept, with commas between? */
static bool known(ls_run *r, const char *housing, int bird) {
    ls_text *names = ls_text_new(r->arena);
    size_t n = housing == NULL ? 0 : strcspn(housing, ",");
    for (const char *const *name = ls_farm_housings(r->arena, bird); *name != NULL; name++) {
        if (housing == NULL || (strncmp(housing, *name, n) == 0 && (*name)[n] == '\0'))
            return housing == NULL || housing[n] == '\0' || known(r, housing + n + 1, bird);
        ls_text_addf(names, "%s%s", names->n == 0 ? "" : ", ", *name);
    }
    MISUSE(r, "option --housing: for birds of the kind %s it is one of: %s", ls_bird_name(bird), names->s);
    return false;
}

/* A farm file filled in by hand is never overwritten; asking goes on in it. */
static int new_farm(ls_run *r) {
    const ls_options *o = r->options;
    ls_starter is = {
        .bird = o->birds == 0 ? LS_NO_BIRD + 1 : o->birds, .housing = o->word[LS_OPTION_HOUSING], .metric = o->metric};
    if (!known(r, is.housing, is.bird)) return LS_USAGE;
    bool file = o->output != NULL && strcmp(o->output, "-") != 0;
    bool there = file && access(o->output, F_OK) == 0, ask = GIVEN(r, ASK);
    if (ask && !file) return MISUSE(r, "--ask saves each answer: name a file after -o");
    if (ask && !isatty(STDIN_FILENO))
        return MISUSE(r, "--ask needs a terminal to ask on; fill in %s by hand", o->output);
    if (there && !ask) return MISUSE(r, "%s is there already; name a file that is not, after -o", o->output);
    if (ask && !there && o->birds == 0 && !ls_run_ask_kind(r, &is)) return LS_DONE;
    if (there) fprintf(r->out, "%s is there already: what it lacks is asked for.\n", o->output);
    int code = there ? LS_DONE : ls_run_write(r, ls_farm_starter(r->arena, is));
    return ask && code == LS_DONE ? ls_run_ask(r, o->output) : code;
}

static const char *const formats[] = {"yaml", NULL};

const ls_command ls_command_new = {
    .name = "new",
    .operands = "",
    .summary = "a commented farm file to start from",
    .help = "Prints a farm file to fill in, with a word on every line of it. Write it to a file "
            "with -o farm.yaml; --housing brooder,grower gives a house of each. With --ask it asks "
            "for the birds, for what a first estimate needs, "
            "one by one, and for houses alike; given again, for what is left.",
    .options = OPTION(BIRDS) | OPTION(HOUSING) | OPTION(UNITS) | OPTION(ASK) | OPTION(OUTPUT),
    .formats = formats,
    .exec = new_farm,
};
