/* What a terminal can show. */
#include "run.h"

#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

enum { NARROWEST = 60, WIDEST = 80 };

static bool is_set(const char *name) {
    const char *s = getenv(name);
    return s != NULL && s[0] != '\0';
}

/* Lines are read best at no more than 80 columns, and tables need 60. */
static size_t columns_of(int terminal) {
    struct winsize size;
    bool told = ioctl(terminal, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
    long n = told ? size.ws_col : is_set("COLUMNS") ? strtol(getenv("COLUMNS"), NULL, 10) : WIDEST;
    return n < NARROWEST ? NARROWEST : n > WIDEST ? WIDEST : (size_t)n;
}

void ls_run_terminal(const ls_run *r, ls_view *v) {
    const char *path = r->options->output, *kind = getenv("TERM");
    int out = fileno(r->out);
    if ((path != NULL && strcmp(path, "-") != 0) || out < 0 || !isatty(out))
        return;
    v->columns = columns_of(out);
    v->bold = is_set("TERM") && strcmp(kind, "dumb") != 0 && !is_set("NO_COLOR");
}
