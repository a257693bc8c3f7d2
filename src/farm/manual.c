/* The manual page littershed-farm(5), in mdoc. */
#include "reader.h"

#include <string.h>

enum { WIDTH = 78 };

typedef struct {
    ls_arena *arena;
    ls_text *out;
} page;

/* A line of text: nothing in it is a macro or an escape. */
static void write_text(page *p, const char *s) {
    ls_text *wrapped = ls_text_new(p->arena);
    ls_text_wrap(wrapped, s, 0, WIDTH);
    for (const char *line = wrapped->s; *line; line += strcspn(line, "\n") + 1) {
        size_t n = strcspn(line, "\n");
        if (line[0] == '.' || line[0] == '\'')
            ls_text_add(p->out, "\\&");
        for (size_t i = 0; i < n; i++)
            ls_text_add_n(p->out, line[i] == '\\' ? "\\e" : line + i, line[i] == '\\' ? 2 : 1);
        ls_text_add(p->out, "\n");
    }
}

/* A literal of several words as the arguments of a macro. */
static void write_literal(page *p, const char *s) {
    ls_text_add(p->out, ".Ql \"");
    for (; *s; s++) {
        if (*s == '"')
            ls_text_add(p->out, "\\(dq");
        else
            ls_text_addf(p->out, "%c", *s);
    }
    ls_text_add(p->out, "\"\n");
}

static const char *limits_in_words(ls_arena *a, const ls_farm_key *key, const char *unit) {
    const char *least = ls_farm_bound(a, key, key->least), *most = ls_farm_bound(a, key, key->most);
    bool above = (key->flags & LS_FARM_ABOVE) && key->least == 0;
    return above ? ls_arena_printf(a, "more than 0 and at most %s%s", most, unit)
                 : ls_arena_printf(a, "from %s to %s%s", least, most, unit);
}

static const char *quantity_in_words(ls_arena *a, const ls_farm_key *key) {
    bool readings = key->flags & LS_FARM_READINGS, spread = key->flags & LS_FARM_SPREAD;
    const char *forms = readings && spread ? ", +/-, range or readings"
                        : readings         ? ", one or several"
                        : spread           ? ", +/- or range"
                                           : "";
    if (key->per)
        return ls_arena_printf(a, "a number %s%s; %s", key->per, forms,
                               limits_in_words(a, key, ""));
    const char *limits =
        limits_in_words(a, key, ls_arena_printf(a, " %s", ls_farm_part(a, key->units, 0)));
    return ls_arena_printf(a, "in %s or a like unit%s; %s", ls_farm_parts(a, key->units), forms,
                           limits);
}

/* What may stand behind the key. */
static const char *kind_in_words(ls_arena *a, const ls_farm_key *key) {
    switch (key->kind) {
    case LS_FARM_TEXT:
        return "a text";
    case LS_FARM_WORD:
        return ls_arena_printf(a, "one of: %s",
                               ls_farm_joined(a, key->words, ls_farm_count(key->words)));
    case LS_FARM_ROW:
        return ls_arena_printf(a, "a row of a table of the kind %s", ls_farm_parts(a, key->tables));
    case LS_FARM_TABLE:
        return ls_arena_printf(a, "the name of a table of the kind %s",
                               ls_farm_parts(a, key->tables));
    case LS_FARM_DATE:
        return "a date";
    case LS_FARM_WINDOW:
        return "first and last day, with two dots between";
    case LS_FARM_QUANTITY:
        return quantity_in_words(a, key);
    case LS_FARM_ZONED:
        return ls_arena_printf(a, "%s; a floor with parts has one for each%s",
                               quantity_in_words(a, key),
                               key->section ? "; or keys of its own, below" : "");
    case LS_FARM_BARE:
    case LS_FARM_COUNT:
        return ls_arena_printf(a, "a whole number without a unit, %s", limits_in_words(a, key, ""));
    case LS_FARM_YESNO:
        return "yes or no";
    case LS_FARM_DELAY:
        return "at once, within N days, or never";
    case LS_FARM_WEEKDAYS:
        return "a list of weekdays";
    case LS_FARM_DATES:
        return "a list of dates";
    case LS_FARM_CLOCK:
        return "hours and minutes, from 00:00 to 23:59";
    case LS_FARM_SECTION:
        return "keys of its own, below";
    case LS_FARM_SECTIONS:
        if (key->flags & LS_FARM_ONE_OR_MANY)
            return "keys of its own, below; or a list, each with these keys";
        if (key->none)
            return ls_arena_printf(a, "a list, each with keys of its own, below; or %s", key->none);
        return key->section->only ? "a list, each with keys of its own, below; or a list of names"
                                  : "a list, each with keys of its own, below";
    case LS_FARM_FILES:
        return "the name of a file, from the folder of the farm file; or a list of them";
    case LS_FARM_PRICES:
        return ls_arena_printf(a, "rows of the table %s: a price in %s for each",
                               ls_farm_parts(a, key->tables), ls_farm_parts(a, key->units));
    }
    return "";
}

static void write_key(page *p, const ls_farm_key *key) {
    ls_text_addf(p->out, ".It Ic %s\n", key->name);
    write_text(p,
               ls_arena_printf(p->arena, "%c%s.",
                               key->help[0] >= 'a' && key->help[0] <= 'z' ? key->help[0] - 'a' + 'A'
                                                                          : key->help[0],
                               key->help + 1));
    if (key->flags & LS_FARM_REQUIRED)
        write_text(p, "Required.");
    write_text(p, ls_arena_printf(p->arena, "Written: %s.", kind_in_words(p->arena, key)));
    ls_text_add(p->out, "Example:\n");
    write_literal(p, ls_farm_example(p->arena, key));
}

static void write_section(page *p, const ls_farm_section *section, const char *path) {
    ls_text_addf(p->out, ".Ss %s\n.Bl -tag -width Ds\n", path);
    for (size_t i = 0; i < section->n; i++)
        write_key(p, &section->keys[i]);
    ls_text_add(p->out, ".El\n");
    for (size_t i = 0; i < section->n; i++)
        if (section->keys[i].section)
            write_section(p, section->keys[i].section,
                          section == &ls_farm_top
                              ? section->keys[i].name
                              : ls_arena_printf(p->arena, "%s: %s", path, section->keys[i].name));
}

/* Not a cross-reference: lint would ask for an installed page. */
#define LITTERSHED ".Sy littershed Ns (1)\n"

static const char introduction[] =
    ".Dd November 25, 2026\n"
    ".Dt LITTERSHED-FARM 5\n"
    ".Os\n"
    ".Sh NAME\n"
    ".Nm littershed-farm\n"
    ".Nd farm files of littershed\n"
    ".Sh DESCRIPTION\n"
    "A farm file says what\n" LITTERSHED
    "must know of a poultry farm: its houses, the trucks and the crew of a cleanout,\n"
    "and the buyers of the litter with their fields.\n"
    "It is plain YAML in UTF-8.\n"
    "A farm may stand in several files, named together on the command line;\n"
    "each section at the top level stands in one of them only.\n"
    "The whole of every file is checked, whatever the command.\n"
    ".Ss Values\n"
    ".Bl -tag -width Ds\n"
    ".It quantity\n"
    "A number, a blank, a unit:\n"
    ".Ql 432 ft ,\n"
    ".Ql 138 g/bird/day .\n"
    "Numbers are plain digits, with a decimal point if need be; no sign, no comma.\n"
    "A ton is 2,000 lb, a tonne 1,000 kg, and\n"
    ".Ql in\n"
    "after a number is inches.\n"
    "Where a key allows it, more may be said of how sure the figure is:\n"
    ".Ql 31 % +/- 4 %\n"
    "gives how far it may be off, believed at about 95 %, in the unit of the figure\n"
    "or in % of it;\n"
    ".Ql 4..7 in\n"
    "is a range in which any value is as likely as another;\n"
    ".Ql 14 15 12.5 16 in\n"
    "are readings.\n"
    ".It count\n"
    "A whole number without a unit.\n"
    ".It date\n"
    "Year, month, day:\n"
    ".Ql 2026-02-16 .\n"
    ".It text\n"
    "Put quotes round a text that holds a comma between braces, that holds\n"
    "a # after a blank, or that begins with a sign.\n"
    ".El\n"
    ".Pp\n"
    "Anchors, aliases, tags, merge keys, empty values, a key given twice and a\n"
    "second document in one file are not accepted.\n"
    "A file may hold 16 MiB, a text 1,000 characters, and a farm 200,000 pairs of\n"
    "a lot (a side, or a house without sides) and a field.\n"
    ".Sh KEYS\n";

static const char own_tables[] =
    ".Sh OWN TABLES\n"
    "A file that\n"
    ".Ic own_tables\n"
    "names is plain YAML as well, with two keys:\n"
    ".Ic sources ,\n"
    "a list of\n"
    ".Ic id , who , title\n"
    "and, if there is one,\n"
    ".Ic url ;\n"
    "and\n"
    ".Ic tables ,\n"
    "a list of tables with these keys:\n"
    ".Bl -tag -width Ds\n"
    ".It Ic kind , name\n"
    "Which table it is, as\n"
    ".Ql littershed sources\n"
    "shows: of removal-ipni the kind is removal and the name ipni.\n"
    "A kind with one table (bedding, fertilizer, need, practice, ...) has no name.\n"
    "Kinds whose tables may have names of your own: removal, nitrogen, ammonium,\n"
    "carryover, soil, recommended; name them under\n"
    ".Ic tables\n"
    "in the farm file.\n"
    ".It Ic title\n"
    "What it holds; only of a new table.\n"
    ".It Ic source , status\n"
    "Where the rows come from, an id under\n"
    ".Ic sources\n"
    "or a built-in one; and how well they are known:\n"
    ".Cm read\n"
    "(it stands in the source),\n"
    ".Cm read2\n"
    "(in a second-hand copy),\n"
    ".Cm derived ,\n"
    ".Cm memory\n"
    "or\n"
    ".Cm practice .\n"
    "A row, and a figure at length, may say its own instead, and add a\n"
    ".Ic note .\n"
    "Every row needs a source.\n"
    ".It Ic rows\n"
    "Each row with its columns.\n"
    "A row that a built-in table has stands in for that one; a column that it does\n"
    "not give stays as built in.\n"
    "A new row comes before the built-in ones.\n"
    ".El\n"
    ".Pp\n"
    "A figure is written\n"
    ".Ql 0.67 lb/bu ,\n"
    "a range\n"
    ".Ql 2.9..9 lb/ft3 ,\n"
    "and at length\n"
    ".Ql {value: 50, unit: lb/ft3, low: 40, high: 60} ,\n"
    "where n, least, most, median, mean, sd, scale, log_sd, df, why and spread\n"
    "(exact, normal, truncated, lognormal, triangular, rectangular, student,\n"
    "log-student) may stand too.\n"
    "For example:\n"
    ".Bd -literal -offset indent\n"
    "sources:\n"
    "  - id: county-lab\n"
    "    who: County Soil Laboratory\n"
    "    title: Harvest samples of 2025\n"
    "tables:\n"
    "  - kind: removal\n"
    "    name: ipni\n"
    "    source: county-lab\n"
    "    status: read\n"
    "    rows:\n"
    "      tall fescue hay: {P2O5: 15 lb/ton, K2O: 48 lb/ton}\n"
    "  - kind: removal\n"
    "    name: mine\n"
    "    title: What our own crops remove\n"
    "    source: county-lab\n"
    "    status: read\n"
    "    rows:\n"
    "      sorghum silage: {N: 8 lb/ton, P2O5: 3.5 lb/ton, K2O: 9 lb/ton}\n"
    ".Ed\n"
    ".Pp\n"
    "Cautions cannot be changed.\n"
    "All own tables of a farm together may hold 2,000 sources, tables and rows.\n"
    "The command\n"
    ".Ql littershed sources FILE... TABLE\n"
    "shows the rows as they are used, with their places and what they stand in for;\n"
    "estimate, rates and plan name those they use.\n";

static const char ending[] =
    ".Sh SEE ALSO\n" LITTERSHED ".Sh CAVEATS\n"
    "Limits, distances and ratings are the farm's own, out of its plan and the local\n"
    "code; the program applies them and decides no law.\n";

const char *ls_farm_manual(ls_arena *a) {
    page p = {a, ls_text_new(a)};
    ls_text_add(p.out, introduction);
    write_section(&p, &ls_farm_top, "The top level");
    ls_text_add(p.out, own_tables);
    ls_text_add(p.out, ending);
    return p.out->s;
}
