#include "run.h"

#include <string.h>
#include <unistd.h>

/* A farm file filled in by hand is never overwritten. */
static int new_farm(ls_run *r) {
    const char *path = r->options->output;
    if (path != NULL && strcmp(path, "-") != 0 && access(path, F_OK) == 0)
        return MISUSE(r, "%s is there already; name a file that is not, after -o", path);
    return ls_run_write(r, ls_farm_starter(r->arena, r->options->birds));
}

static const char *const formats[] = {"yaml", NULL};

const ls_command ls_command_new = {
    .name = "new",
    .operands = "",
    .summary = "a commented farm file to start from",
    .help = "Prints a farm file to fill in, with a word on every line of it. Write it to a file "
            "with -o farm.yaml.",
    .options = OPTION(BIRDS) | OPTION(OUTPUT),
    .formats = formats,
    .exec = new_farm,
};
