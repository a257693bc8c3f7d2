/* A commented starter file for a kind of bird and the way it is kept: what a first estimate needs
 * stands there to be filled in, all else is commented out, with an example. */
#include "schema.h"

#include "littershed/base/calendar.h"
#include "littershed/base/text.h"

#include <string.h>

enum { HELP_COLUMN = 44, WIDTH = 100 };

/* ---- housings ---- */

/* What a housing says of a key; NULL: that it is left out. */
typedef struct {
    const char *section, *key, *value;
} said;
enum { SAID = 3 };

/* To be filled in, or kept for later as its other keys are. */
static const char fill[] = "fill", later[] = "later";

/* Birds are kept so that have any of the traits; 0: those that have none of the rows before. */
typedef struct {
    const char *name;
    unsigned traits;
    said says[SAID];
} housing;

#define LAYER_HOUSE(word)                                                                                              \
    {                                                                                                                  \
        word, LS_MANURE_APART, {                                                                                       \
            {"house", "manure", word}, { "house", "bedding", "none" }                                                  \
        }                                                                                                              \
    }

static const housing housings[] = {
    {"slats", LS_BY_SEX, {{"house", "sides", "[left, right]"}, {"bedding", "zone", "scratch"}}},
    {"litter", LS_BY_SEX, {{"house", "sides", NULL}, {"house", "floor", NULL}, {"bedding", "zone", NULL}}},
    LAYER_HOUSE("belt"),
    LAYER_HOUSE("pit"),
    LAYER_HOUSE("scraped"),
    {"litter", LS_MANURE_APART, {{"house", "manure", "litter"}}},
    {"brooder", LS_MOVED, {{"flock", "flocks", fill}}},
    {"grower", LS_MOVED, {{"flock", "age", fill}, {"flock", "flocks", fill}, {"house", "bedding", later}}},
    {"built-up", 0, {{"flock", "flocks", fill}}},
    {"new-litter", 0, {{"flock", "flocks", later}}},
};
enum { HOUSINGS = sizeof housings / sizeof *housings };

static bool keeps(const housing *h, int bird) {
    static const unsigned apart = LS_BY_SEX | LS_MANURE_APART | LS_MOVED;
    return h->traits == 0 ? !ls_bird_is(bird, apart) : ls_bird_is(bird, h->traits);
}

const char *const *ls_farm_housings(ls_arena *a, int bird) {
    const char **names = LS_NEW(a, const char *, HOUSINGS + 1);
    for (size_t i = 0, n = 0; i < HOUSINGS; i++)
        if (keeps(&housings[i], bird)) names[n++] = housings[i].name;
    return names;
}

static const housing *housing_of(int bird, const char *name) {
    for (size_t i = 0; i < HOUSINGS; i++)
        if (keeps(&housings[i], bird) && (name == NULL || strcmp(housings[i].name, name) == 0)) return &housings[i];
    return NULL;
}

/* ---- examples ---- */

typedef struct {
    ls_arena *arena;
    ls_text *out;
    ls_starter is;
    const housing *housing;
    size_t house; /* which of its houses is written */
} writer;

/* Does the housing ask how old the birds are that leave it, as they come from another house? */
static bool come_grown(const writer *w) {
    const said *s = w->housing->says;
    return s->key != NULL && strcmp(s->key, "age") == 0;
}

/* A flock as it may be, in the starter's house and until its day of removal; one that comes grown
 * is BROODED days old then. */
static const char *of_flock(const writer *w, const ls_farm_key *key) {
    enum { BROODED = 35 };
    const ls_bird_row *row = ls_bird_row_of(w->is.bird);
    const char *last = ls_farm_key_of(&ls_farm_flock, "removed")->example;
    ls_date placed, removed;
    if (strcmp(key->name, "count") == 0) return row->count;
    bool is_day = strcmp(key->name, "placed") == 0;
    if (!is_day && strcmp(key->name, "age") != 0) return NULL;
    if (!come_grown(w) || !ls_date_parse(row->placed, strlen(row->placed), &placed) ||
        !ls_date_parse(last, strlen(last), &removed))
        return is_day ? row->placed : NULL;
    return is_day ? ls_date_iso(w->arena, placed + BROODED)
                  : ls_arena_printf(w->arena, "%d days", (int)(removed - placed));
}

static const char *example_of(const writer *w, const ls_farm_key *key, bool flock) {
    if (key->words == ls_farm_birds) return ls_bird_name(w->is.bird);
    if (w->house > 0 && key == ls_farm_house.keys) return "South";
    const char *own = flock ? of_flock(w, key) : NULL;
    const char *shown = own != NULL ? own : key->plain && !ls_bird_is_breeder(w->is.bird) ? key->plain : key->example;
    return w->is.metric ? ls_farm_in_metric(w->arena, shown) : shown;
}

/* ---- lines ---- */

/* What stands behind a key: fill, later, or what the housing says; NULL: it is left out, as are
 * those of a first thing that has no other before it. */
static const char *value_of(const writer *w, const ls_farm_section *section, const ls_farm_key *key) {
    for (const said *s = w->housing->says; s < w->housing->says + SAID && s->section != NULL; s++)
        if (strcmp(s->section, section->name) == 0 && strcmp(s->key, key->name) == 0) return s->value;
    bool of_others = strcmp(key->name, "like") == 0 || strcmp(key->name, "formerly") == 0;
    return of_others || !ls_farm_key_for(key, w->is.bird)             ? NULL
           : key->words == ls_farm_birds                              ? ls_bird_name(w->is.bird)
           : (key->flags & (LS_FARM_REQUIRED | LS_FARM_STARTED)) != 0 ? fill
                                                                      : later;
}

/* Is it written as a block of its own, not on one line? */
static bool is_block(const ls_farm_key *key, const char *value) {
    bool section = key->kind == LS_FARM_SECTION || key->kind == LS_FARM_SECTIONS;
    return section && value == fill && key->section->only == NULL;
}

/* What it is stands beside the line if that is short, else above it. */
static void write_line(writer *w, const char *line, size_t indent, const char *help, bool above) {
    above |= strlen(line) >= HELP_COLUMN || HELP_COLUMN + 2 + strlen(help) > WIDTH;
    if (!above) {
        ls_text_addf(w->out, "%-*s# %s\n", HELP_COLUMN, line, help);
        return;
    }
    ls_text *wrapped = ls_text_new(w->arena);
    ls_text_wrap(wrapped, help, 0, WIDTH - 3 - indent);
    for (const char *s = wrapped->s; *s; s += strcspn(s, "\n") + 1)
        ls_text_addf(w->out, "%*s## %.*s\n", (int)indent, "", (int)strcspn(s, "\n"), s);
    ls_text_addf(w->out, "%s\n", line);
}

static void write_section(writer *w, const ls_farm_section *section, size_t indent, bool listed);

/* One more of a list, like its first. */
static void write_further(writer *w, const ls_farm_section *section, size_t indent) {
    const ls_farm_key *name = ls_farm_key_of(section, "name");
    if (name == NULL || ls_farm_key_of(section, "like") == NULL) return;
    const char *line =
        ls_arena_printf(w->arena, "%*s#- {name: %s 2, like: %s}", (int)indent, "", name->example, name->example);
    write_line(w, line, indent,
               ls_arena_printf(w->arena, "a further %s; write what differs from the first too", section->name), true);
}

/* A house for each way that birds are kept. */
static void write_houses(writer *w, size_t indent) {
    for (const char *name = w->is.housing; name != NULL && *name != '\0'; w->house++) {
        size_t n = strcspn(name, ",");
        w->housing = housing_of(w->is.bird, ls_arena_copy_n(w->arena, name, n));
        write_section(w, &ls_farm_house, indent, true);
        name += n + strspn(name + n, ", ");
    }
    w->house = 0;
}

/* lead: blanks, and "- " before the first key of a list item. */
static void write_key(writer *w, const ls_farm_section *section, const ls_farm_key *key, const char *lead,
                      const char *value) {
    size_t indent = strlen(lead);
    const char *example = example_of(w, key, section == &ls_farm_flock);
    const char *line = ls_arena_printf(w->arena, "%s%s%s:", lead, value == later ? "#" : "", key->name);
    if (is_block(key, value)) {
        bool listed = key->kind == LS_FARM_SECTIONS;
        write_line(w, line, indent, key->help, false);
        if (key->section == &ls_farm_house)
            write_houses(w, indent + 4);
        else
            write_section(w, key->section, indent + (listed ? 4 : 2), listed);
        if (listed) write_further(w, key->section, indent + 2);
    } else if (value == fill && !w->is.example) {
        const char *asked = ls_arena_printf(w->arena, "%-*s# " LS_STARTER_FILL "%s", HELP_COLUMN, line, example);
        write_line(w, asked, indent, key->help, true);
    } else {
        value = value == fill || value == later ? example : value;
        write_line(w, ls_arena_printf(w->arena, "%s %s", line, value), indent, key->help, false);
    }
}

/* What is in use, then what may be. */
static void write_section(writer *w, const ls_farm_section *section, size_t indent, bool listed) {
    for (int pass = 0; pass < 2; pass++)
        for (size_t i = 0; i < section->n; i++) {
            const char *value = value_of(w, section, &section->keys[i]);
            bool first = listed && i == 0;
            const char *lead =
                ls_arena_printf(w->arena, "%*s%s", (int)(first ? indent - 2 : indent), "", first ? "- " : "");
            if (value != NULL && (value == later) == (pass == 1)) write_key(w, section, &section->keys[i], lead, value);
        }
}

/* A part that a first estimate can do without: written as if in use, each line then commented out.
 */
static void write_later(const writer *w, const ls_farm_key *key) {
    writer part = *w;
    part.out = ls_text_new(w->arena);
    part.is.example = true;
    write_key(&part, &ls_farm_top, key, "", fill);
    for (const char *s = part.out->s; *s != '\0'; s += strcspn(s, "\n") + 1)
        ls_text_addf(w->out, "%s%.*s\n", w->is.example ? "" : "#", (int)strcspn(s, "\n"), s);
}

const char *ls_farm_starter(ls_arena *a, ls_starter is) {
    is.bird = is.bird == LS_NO_BIRD ? LS_NO_BIRD + 1 : is.bird;
    if (is.housing == NULL) is.housing = ls_farm_housings(a, is.bird)[0];
    const char *first = ls_arena_copy_n(a, is.housing, strcspn(is.housing, ","));
    writer w = {a, ls_text_new(a), is, housing_of(is.bird, first), 0};
    ls_text_addf(w.out,
                 "# yaml-language-server: $schema=littershed.schema.json\n"
                 "# A farm file for littershed, to start from: %s, %s, %s units.\n",
                 ls_bird_name(is.bird), is.housing, is.metric ? "metric" : "US");
    ls_text_add(w.out,
                "## 1. Write behind the lines that say FILL IN, before the #: that gives a first "
                "estimate.\n"
                "## 2. What begins with # is left out; take the # away to use it, but leave remarks, with ##. What is\n"
                "##    worth most comes first. Parts with # at the left edge (trucks, crew, buyers ...) are for\n"
                "##    loads, fields and the plan: take that # away on each of their lines, and put your own\n"
                "##    figures in place of the examples.\n"
                "## Quantities: a number, a blank, a unit. Several readings: 5.5 6 4.5 in. How far it "
                "may be off: 31 % +/- 4 %.\n"
                "## A range: 4..7 in. Dates: 2026-02-16. Texts with a comma between braces need "
                "quotes.\n"
                "## littershed check FILE says what is wrong or missing; littershed-farm(5) describes "
                "every key;\n"
                "## littershed schema -o littershed.schema.json lets an editor help with them.\n");
    for (size_t i = 0; i < ls_farm_top.n; i++) {
        const ls_farm_key *key = &ls_farm_top.keys[i];
        ls_text_add(w.out, "\n");
        if ((key->flags & LS_FARM_LATER) != 0)
            write_later(&w, key);
        else
            write_key(&w, &ls_farm_top, key, "", value_of(&w, &ls_farm_top, key));
    }
    return w.out->s;
}

const char *ls_farm_line_for(ls_arena *a, const char *path, ls_starter is) {
    writer w = {a, NULL, is, housing_of(is.bird, is.housing), 0};
    const ls_farm_section *section = &ls_farm_top;
    const ls_farm_key *key = NULL;
    for (size_t n; *path != '\0'; path += n + (path[n] == '.')) {
        n = strcspn(path, ".");
        section = key == NULL ? section : key->section;
        key = ls_farm_key_of(section, ls_arena_copy_n(a, path, n));
    }
    return ls_arena_printf(a, "%s: %s", key->name, example_of(&w, key, false));
}
