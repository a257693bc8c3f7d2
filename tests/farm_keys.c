/* The sections KEYS and NITROGEN OF CROPS of the manual page littershed-farm(5), in mdoc; what
 * stands before and behind it is written in the page itself. */
#include "farm_keys.h"

#include "farm/reader.h"

#include <string.h>

enum { WIDTH = 78 };

typedef struct {
    ls_arena *arena;
    ls_text *out;
} page;

/* All parts: "lb/ton or %". */
static const char *parts_of(ls_arena *a, const char *parts) {
    ls_text *text = ls_text_new(a);
    for (const char *part = parts; part != NULL && *part != '\0';) {
        size_t n = strcspn(part, "|");
        ls_text_addf(text, "%s%.*s", text->n > 0 ? " or " : "", (int)n, part);
        part += n + (part[n] == '|');
    }
    return text->s;
}

/* Lines of text: nothing in them is a macro or an escape. */
static void write_sentence(page *p, const char *s) {
    ls_text *wrapped = ls_text_new(p->arena);
    ls_text_wrap(wrapped, s, 0, WIDTH);
    for (const char *line = wrapped->s; *line; line += strcspn(line, "\n") + 1) {
        size_t n = strcspn(line, "\n");
        if (line[0] == '.' || line[0] == '\'') ls_text_add(p->out, "\\&");
        for (size_t i = 0; i < n; i++)
            ls_text_add_n(p->out, line[i] == '\\' ? "\\e" : line + i, line[i] == '\\' ? 2 : 1);
        ls_text_add(p->out, "\n");
    }
}

/* In mdoc a sentence begins a line. */
static void write_text(page *p, const char *s) {
    for (const char *end; (end = strstr(s, ". ")) != NULL; s = end + 2)
        write_sentence(p, ls_arena_copy_n(p->arena, s, (size_t)(end + 1 - s)));
    write_sentence(p, s);
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
    most = ls_unit_amount(a, most, unit);
    return above ? ls_arena_printf(a, "more than 0 and at most %s", most)
                 : ls_arena_printf(a, "from %s to %s", least, most);
}

static const char *quantity_in_words(ls_arena *a, const ls_farm_key *key) {
    bool readings = key->flags & LS_FARM_READINGS, spread = key->flags & LS_FARM_SPREAD;
    const char *forms = readings && spread ? ", +/-, range or readings"
                        : readings         ? ", one or several"
                        : spread           ? ", +/- or range"
                                           : "";
    if (key->per) return ls_arena_printf(a, "a number %s%s; %s", key->per, forms, limits_in_words(a, key, ""));
    return ls_arena_printf(a, "in %s or a like unit%s; %s", ls_farm_units(a, key), forms,
                           limits_in_words(a, key, ls_farm_part(a, key->units, 0)));
}

/* What may stand behind the key. */
static const char *kind_in_words(ls_arena *a, const ls_farm_key *key) {
    switch (key->kind) {
    case LS_FARM_TEXT: return "a text";
    case LS_FARM_WORD:
        return ls_arena_printf(a, "one of: %s", ls_farm_joined(a, key->words, ls_farm_count(key->words)));
    case LS_FARM_ROW: return ls_arena_printf(a, "a row of a table of the kind %s", parts_of(a, key->tables));
    case LS_FARM_TABLE: return ls_arena_printf(a, "the name of a table of the kind %s", parts_of(a, key->tables));
    case LS_FARM_DATE: return "a date";
    case LS_FARM_WINDOW: return "first and last day, with two dots between";
    case LS_FARM_QUANTITY: return quantity_in_words(a, key);
    case LS_FARM_ZONED:
        return ls_arena_printf(a, "%s; a floor with parts has one for each%s", quantity_in_words(a, key),
                               key->section ? "; or keys of its own, below" : "");
    case LS_FARM_BARE:
    case LS_FARM_COUNT: return ls_arena_printf(a, "a whole number without a unit, %s", limits_in_words(a, key, ""));
    case LS_FARM_YESNO: return "yes or no";
    case LS_FARM_DELAY: return "at once, within N days, or never";
    case LS_FARM_WEEKDAYS: return "a list of weekdays";
    case LS_FARM_HOLDS: return "a list of dates, with until or from and hours and minutes for half a day";
    case LS_FARM_INSTANT: return "a date, T, hours and minutes";
    case LS_FARM_CLOCK: return "hours and minutes, from \"00:00\" to \"23:59\"";
    case LS_FARM_SECTION: return "keys of its own, below";
    case LS_FARM_SECTIONS:
        if (key->flags & LS_FARM_ONE_OR_MANY)
            return ls_arena_printf(a, "keys of its own, below; or a list, each with these keys%s%s",
                                   key->none ? "; or " : "", key->none ? key->none : "");
        if (key->none) return ls_arena_printf(a, "a list, each with keys of its own, below; or %s", key->none);
        return key->section->only ? "a list, each with keys of its own, below; or a list of names"
                                  : "a list, each with keys of its own, below";
    case LS_FARM_FILES: return "the name of a file, from the folder of the farm file; or a list of them";
    case LS_FARM_PRICES:
        return ls_arena_printf(a, "rows of the table %s: a price in %s for each", parts_of(a, key->tables),
                               ls_farm_units(a, key));
    }
    return "";
}

static void write_key(page *p, const ls_farm_key *key) {
    ls_text_addf(p->out, ".It Ic %s\n", key->name);
    write_text(p, ls_arena_printf(p->arena, "%c%s.",
                                  key->help[0] >= 'a' && key->help[0] <= 'z' ? key->help[0] - 'a' + 'A' : key->help[0],
                                  key->help + 1));
    if (key->flags & LS_FARM_REQUIRED)
        write_text(p, key->unless ? ls_arena_printf(p->arena, "Required, or else %s.", key->unless) : "Required.");
    write_text(p, ls_arena_printf(p->arena, "Written: %s.", kind_in_words(p->arena, key)));
    ls_text_add(p->out, "Example:\n");
    write_literal(p, ls_farm_example(p->arena, key));
}

static void write_section(page *p, const ls_farm_section *section, const char *path) {
    ls_text_addf(p->out, ".Ss %s\n.Bl -tag -width Ds\n", path);
    for (size_t i = 0; i < section->n; i++) write_key(p, &section->keys[i]);
    ls_text_add(p->out, ".El\n");
    for (size_t i = 0; i < section->n; i++)
        if (section->keys[i].section)
            write_section(p, section->keys[i].section,
                          section == &ls_farm_top ? section->keys[i].name
                                                  : ls_arena_printf(p->arena, "%s: %s", path, section->keys[i].name));
}

/* ---- crops ---- */

static const char *amount(ls_arena *a, const ls_row *row) {
    const ls_figure *of = ls_row_figure(row, "per_bu"), *most = ls_row_figure(row, of ? "most_per_bu" : "most");
    of = of ? of : ls_row_figure(row, "least");
    ls_text *t = ls_text_new(a);
    ls_text_addf(t, "%s", ls_number_text(a, of->value / of->unit.factor, 4));
    if (most) ls_text_addf(t, " to %s", ls_number_text(a, most->value / of->unit.factor, 4));
    ls_text_addf(t, " %s (%s", of->unit.text, row->source->id);
    if (row->status != LS_READ) ls_text_addf(t, ", %s", ls_status_words(row->status));
    ls_text_add(t, ")");
    return t->s;
}

static void write_crop(page *p, const ls_table *needs, const ls_row *crop) {
    ls_text_addf(p->out, ".It %s\n", crop->name);
    for (size_t i = 0; i < needs->n; i++) {
        const ls_row *row = &needs->rows[i];
        const char *crops = ls_row_word(row, "crop"), *grown = ls_row_word(row, "grown");
        if (ls_text_among(crops ? crops : row->name, crop->name))
            write_text(p, ls_arena_printf(p->arena, "%s%s%s: %s.",
                                          strcmp(ls_row_word(row, "state"), "any") == 0 ? "Any other state"
                                                                                        : ls_row_word(row, "state"),
                                          grown ? ", " : "", grown ? parts_of(p->arena, grown) : "",
                                          amount(p->arena, row)));
    }
    write_text(p, ls_arena_printf(p->arena, "Also called: %s.", parts_of(p->arena, ls_row_word(crop, "also"))));
}

static void write_crops(page *p) {
    const ls_reference *r = ls_reference_load(p->arena);
    const ls_table *crops = ls_reference_table(r, "crop", "");
    ls_text_add(p->out, ".Sh NITROGEN OF CROPS\n");
    write_text(p, "Nitrogen that crops need in a year where a field gives no nitrogen, by state and "
                  "by how the crop is grown (grown), with its source. Of a range the lower end "
                  "is taken. A crop that has no figure here, or none for its state, needs the "
                  "nitrogen that the laboratory or the plan asks for. Without a state the row of the "
                  "crop's own name in the table need is taken, if there is one. A name that "
                  "several crops are called by is asked about.");
    ls_text_add(p->out, ".Bl -tag -width Ds\n");
    for (size_t i = 0; i < crops->n; i++) write_crop(p, ls_reference_table(r, "need", ""), &crops->rows[i]);
    ls_text_add(p->out, ".El\n");
}

const char *test_farm_keys(ls_arena *a) {
    page p = {a, ls_text_new(a)};
    ls_text_add(p.out, ".Sh KEYS\n");
    write_section(&p, &ls_farm_top, "The top level");
    write_crops(&p);
    return p.out->s;
}
