/* A commented starter file: what must be given stands as an example, what may be given is commented
 * out. */
#include "schema.h"

#include <string.h>

enum { HELP_COLUMN = 44, WIDTH = 100 };

typedef struct {
    ls_arena *arena;
    ls_text *out;
    int bird;
} writer;

static void write_section(writer *w, const ls_farm_section *section, size_t indent, bool listed);

/* A flock as it may be, in the starter's house and until its day of removal. */
static const char *of_flock(const writer *w, const ls_farm_key *key) {
    const ls_bird_row *row = ls_bird_row_of(w->bird);
    return strcmp(key->name, "placed") == 0  ? row->placed
           : strcmp(key->name, "count") == 0 ? row->count
                                             : NULL;
}

static const char *example_of(const writer *w, const ls_farm_key *key, bool flock) {
    if (key->words == ls_farm_birds)
        return ls_bird_name(w->bird);
    const char *own = flock ? of_flock(w, key) : NULL;
    if (own != NULL)
        return own;
    return key->plain && !ls_bird_is_breeder(w->bird) ? key->plain : key->example;
}

static bool is_live(const ls_farm_key *key) {
    return (key->flags & (LS_FARM_REQUIRED | LS_FARM_STARTED)) != 0;
}

/* Is it written as a block of its own, not on one line? */
static bool is_block(const ls_farm_key *key) {
    bool section = key->kind == LS_FARM_SECTION || key->kind == LS_FARM_SECTIONS;
    return section && is_live(key) && !key->section->only;
}

/* What leads a line: blanks, and "- " before the first key of a list item. */
static const char *lead(const writer *w, size_t indent, bool first) {
    return ls_arena_printf(w->arena, "%*s%s", (int)(first ? indent - 2 : indent), "",
                           first ? "- " : "");
}

static void write_help_above(writer *w, size_t indent, const char *help) {
    ls_text *wrapped = ls_text_new(w->arena);
    ls_text_wrap(wrapped, help, 0, WIDTH - 2 - indent);
    for (const char *s = wrapped->s; *s; s += strcspn(s, "\n") + 1)
        ls_text_addf(w->out, "%*s# %.*s\n", (int)indent, "", (int)strcspn(s, "\n"), s);
}

static void write_line(writer *w, const char *line, size_t indent, const char *help) {
    bool beside = strlen(line) < HELP_COLUMN && HELP_COLUMN + 2 + strlen(help) <= WIDTH;
    if (!beside)
        write_help_above(w, indent, help);
    if (beside)
        ls_text_addf(w->out, "%-*s# %s\n", HELP_COLUMN, line, help);
    else
        ls_text_addf(w->out, "%s\n", line);
}

static void write_key(writer *w, const ls_farm_key *key, size_t indent, bool first, bool flock) {
    const char *before = lead(w, indent, first), *out = is_live(key) ? "" : "#";
    if (!is_block(key)) {
        write_line(w,
                   ls_arena_printf(w->arena, "%s%s%s: %s", before, out, key->name,
                                   example_of(w, key, flock)),
                   indent, key->help);
        return;
    }
    write_line(w, ls_arena_printf(w->arena, "%s%s:", before, key->name), indent, key->help);
    bool listed = key->kind == LS_FARM_SECTIONS;
    write_section(w, key->section, indent + (listed ? 4 : 2), listed);
}

static void write_section(writer *w, const ls_farm_section *section, size_t indent, bool listed) {
    for (size_t i = 0; i < section->n; i++)
        if (ls_farm_key_for(&section->keys[i], w->bird))
            write_key(w, &section->keys[i], indent, listed && i == 0, section == &ls_farm_flock);
}

const char *ls_farm_starter(ls_arena *a, int bird) {
    writer w = {a, ls_text_new(a), bird == LS_NO_BIRD ? LS_NO_BIRD + 1 : bird};
    ls_text_addf(w.out, "# A farm file for littershed, to start from: %s.\n", ls_bird_name(w.bird));
    ls_text_add(w.out, "# Put your own figures in place of these. A line that begins with # is "
                       "left out; take the # away to use it.\n"
                       "# Quantities: a number, a blank, a unit (432 ft). Several readings: 5.5 6 "
                       "4.5 in. How far it may be off:\n"
                       "# 31 % +/- 4 %. A range: 4..7 in. Dates: 2026-02-16. Texts with a comma "
                       "between braces need quotes.\n"
                       "# littershed check FILE says what is wrong or missing; littershed-farm(5) "
                       "describes every key.\n");
    for (size_t i = 0; i < ls_farm_top.n; i++) {
        ls_text_add(w.out, "\n");
        write_key(&w, &ls_farm_top.keys[i], 0, false, false);
    }
    return w.out->s;
}
