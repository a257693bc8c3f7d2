#include "entry.h"

#include "littershed/reference.h"

#include <glpk.h>
#include <gsl/gsl_version.h>
#include <jansson.h>
#include <yaml.h>

enum { WIDTH = 80, NAME = 10, OPTION = 24 };

/* The words behind an option's name, wrapped in a column of their own. */
static void beside(ls_text *t, const char *words) {
    ls_text *column = ls_text_new(t->arena);
    ls_text_wrap(column, words, OPTION + 4, WIDTH);
    ls_text_addf(t, "  %s", column->s + OPTION + 4);
}

static void options(ls_text *t, uint64_t bits) {
    ls_text_add(t, "\nOptions (they may stand anywhere):\n");
    for (int i = 0; i < LS_OPTIONS; i++) {
        const ls_option_facts *facts = ls_option_at((ls_option)i);
        if ((bits & LS_OPTION_BIT(i)) == 0) continue;
        ls_text *name = ls_text_new(t->arena);
        ls_text_addf(name, facts->letter != 0 ? "-%c, " : "    ", facts->letter);
        ls_text_addf(name, "--%s%s%s", facts->name, facts->argument == NULL ? "" : " ",
                     facts->argument == NULL ? "" : facts->argument);
        ls_text_add(t, "  ");
        ls_text_left(t, name->s, OPTION);
        beside(t, facts->help);
    }
}

static void commands(ls_text *t) {
    for (size_t i = 0; ls_command_at(i) != NULL; i++) {
        ls_text_add(t, "  ");
        ls_text_left(t, ls_command_at(i)->name, NAME);
        ls_text_addf(t, "  %s\n", ls_command_at(i)->summary);
    }
}

static const char *program_help(ls_arena *a) {
    ls_text *t = ls_text_new(a);
    ls_text_add(t, "Poultry litter before the cleanout: tons, loads, fields, days.\n\n"
                   "  littershed new -o farm.yaml        start a farm file\n"
                   "  littershed check farm.yaml         read it, see mistakes and gaps\n"
                   "  littershed estimate farm.yaml      how many tons and loads\n"
                   "  littershed plan farm.yaml          who gets which load, and when\n\n"
                   "Usage: littershed COMMAND [OPTIONS] [FILE...]\n\nCommands:\n");
    commands(t);
    ls_text_add(t, "\nlittershed COMMAND --help says more of one. FILE may be - (standard input).\n");
    options(t, LS_OPTION_BIT(LS_OPTIONS) - 1);
    ls_text_add(t, "\nExit status: 0 done, 1 a mistake in the input, 2 wrong usage, 3 system failure.\n"
                   "Planning figures: your local code and the licensed plan writer decide.\n"
                   "Manual: man littershed\n");
    return t->s;
}

static void formats(ls_text *t, const ls_command *c) {
    if ((c->options & OPTION(FORMAT)) == 0) return;
    ls_text_addf(t, "\nFormats: %s, unless another is named", ls_command_formats(c)[0]);
    for (const char *const *f = ls_command_formats(c) + 1; *f != NULL; f++) ls_text_addf(t, "; %s", *f);
    ls_text_add(t, ".\n");
}

const char *ls_command_help(ls_arena *a, const ls_command *command) {
    if (command == NULL) return program_help(a);
    ls_text *t = ls_text_new(a);
    ls_text_addf(t, "littershed %s: %s\n\nUsage: littershed %s [OPTIONS]%s%s\n\n", command->name, command->summary,
                 command->name, command->operands[0] == '\0' ? "" : " ", command->operands);
    ls_text_wrap(t, command->help, 0, WIDTH);
    options(t, command->options | OPTION(HELP));
    formats(t, command);
    return t->s;
}

const char *ls_command_version(ls_arena *a) {
    const ls_reference *r = ls_reference_load(a);
    return ls_arena_printf(a,
                           "littershed %s\n"
                           "tables %s of %s\n"
                           "Copyright the littershed authors. License GPL-3.0-or-later.\n"
                           "You may change and pass on this program under that license.\n"
                           "There is no warranty, to the extent the law permits.\n"
                           "libraries: libyaml %s, GSL %s, GLPK %s, jansson %s\n",
                           LITTERSHED_VERSION, ls_reference_version(r), ls_reference_date(r), yaml_get_version_string(),
                           gsl_version, glp_version(), jansson_version_str());
}
