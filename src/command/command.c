#include "littershed/command.h"

#include "run.h"

#include <fcntl.h>
#include <gsl/gsl_errno.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

static int misuse(ls_run *r, const char *format, const char *what) {
    MISUSE(r, format, what);
    fputs("try: littershed --help\n", r->err);
    return LS_USAGE;
}

static bool is_format(const ls_command *command, const char *format) {
    for (const char *const *f = ls_command_formats(command); *f != NULL; f++)
        if (strcmp(*f, format) == 0) return true;
    return false;
}

/* The first option given that the command does not take, LS_OPTIONS if there is none. */
static ls_option stray(const ls_run *r) {
    uint64_t allowed = r->command->options | OPTION(HELP) | OPTION(VERSION);
    for (int i = 0; i < LS_OPTIONS; i++)
        if ((r->options->given & LS_OPTION_BIT(i)) != 0 && (allowed & LS_OPTION_BIT(i)) == 0) return (ls_option)i;
    return LS_OPTIONS;
}

static int check_use(ls_run *r) {
    const ls_command *c = r->command;
    if (stray(r) != LS_OPTIONS)
        return MISUSE(r, "%s takes no option --%s; try: littershed %s --help", c->name, ls_option_at(stray(r))->name,
                      c->name);
    if (!is_format(c, r->format))
        return MISUSE(r, "%s has no format \"%s\"; try: littershed %s --help", c->name, r->format, c->name);
    bool data = ls_run_in(r, "json") || ls_run_in(r, "csv");
    if (r->options->metric && data)
        return MISUSE(r, "--units metric is for pages to read; %s is always in US units", r->format);
    if (r->n == 0 && c->operands[0] != '\0' && c->operands[0] != '[')
        return MISUSE(r, "%s needs %s; try: littershed %s --help", c->name, c->operands, c->name);
    if (r->n > 0 && c->operands[0] == '\0')
        return MISUSE(r, "%s does not know what to do with \"%s\"", c->name, r->operands[0]);
    return LS_DONE;
}

/* The format that the name of the output says, if the command has it; else its usual one. */
static const char *usual_format(const ls_run *r) {
    const char *said = ls_run_ending(r->options->output);
    return said != NULL && is_format(r->command, said) ? said : ls_command_formats(r->command)[0];
}

static int run_command(ls_run *r) {
    if (GIVEN(r, HELP)) return ls_run_write(r, ls_command_help(r->arena, r->command));
    r->format = GIVEN(r, FORMAT) ? r->options->format : usual_format(r);
    int wrong = check_use(r);
    if (wrong != LS_DONE) return wrong;
    /* draws are made in whole blocks; every page and document tells how many there were */
    size_t draws = (r->options->draws + LS_BLOCK - 1) / LS_BLOCK * LS_BLOCK;
    const ls_reference *published = ls_reference_load(r->arena);
    r->books = (ls_books){.arena = r->arena,
                          .published = published,
                          .reference = published,
                          .seed = r->options->seed,
                          .draws = draws,
                          .digits = r->options->digits};
    if (!ls_gate_passes(r)) return LS_USAGE;
    int code = r->command->make != NULL ? ls_run_made(r, r->command->make) : r->command->exec(r);
    return r->refused ? LS_USAGE : code;
}

/* help [COMMAND] is COMMAND --help. */
static int help(ls_run *r) {
    if (r->n == 0) return ls_run_write(r, ls_command_help(r->arena, NULL));
    r->command = ls_command_named(r->operands[0]);
    return r->command != NULL ? ls_run_write(r, ls_command_help(r->arena, r->command))
                              : misuse(r, "there is no command \"%s\"", r->operands[0]);
}

static int unknown_command(ls_run *r, const char *name) {
    const char *near = ls_command_near(name);
    if (near != NULL) return MISUSE(r, "there is no command \"%s\"; did you mean %s?", name, near);
    return misuse(r, "there is no command \"%s\"", name);
}

static int dispatch(ls_run *r) {
    if (GIVEN(r, VERSION)) return ls_run_write(r, ls_command_version(r->arena));
    if (r->options->operands.n == 0 && GIVEN(r, HELP)) return ls_run_write(r, ls_command_help(r->arena, NULL));
    if (r->options->operands.n == 0) return misuse(r, "%s", "name a command: estimate, rates, plan, ...");
    const char *name = r->options->operands.at[0];
    r->operands = r->options->operands.at + 1;
    r->n = r->options->operands.n - 1;
    if (strcmp(name, "help") == 0) return help(r);
    r->command = ls_command_named(name);
    return r->command != NULL ? run_command(r) : unknown_command(r, name);
}

/* A file that is opened must not become a standard file that was closed: what is said would be
 * written into it. In the place of a closed one stands one that cannot be read, or written to. */
static bool fill_standard_files(void) {
    for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++)
        if (fcntl(fd, F_GETFD) < 0 && open("/dev/null", fd == STDIN_FILENO ? O_WRONLY : O_RDONLY) != fd) return false;
    return true;
}

int ls_command_main(int argc, char **argv, FILE *out, FILE *err) {
    if (!fill_standard_files()) return LS_SYSTEM;
    gsl_set_error_handler_off();
    signal(SIGPIPE, SIG_IGN); /* a closed pipe is a failed write, told in words */
    signal(SIGXFSZ, SIG_IGN); /* so is a file that may grow no more */
    ls_arena *arena = ls_arena_new();
    ls_options options;
    ls_run run = {.options = &options, .arena = arena, .out = out, .err = err};
    const char *why = NULL;
    int code = ls_options_read(arena, argc, argv, &options, &why) ? dispatch(&run) : misuse(&run, "%s", why);
    ls_arena_free(arena);
    return code;
}
