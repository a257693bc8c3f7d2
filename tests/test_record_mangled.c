/* What other programs make of a haul log: random logs, saved again in many ways, are read to the
 * same loads or refused by line, never to others. Forms of days and numbers are those of the common
 * locales of spreadsheet programs (CLDR: en-US, en-GB, de, sv; written down from memory). */
#include "chance.h"
#include "suite.h"

#include "littershed/record.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { LOGS = 300, MOST_ENTRIES = 12, MOST_FORMS = 40 };

/* ---- logs ---- */

typedef struct {
    int replaces, month, day, minute; /* minute -1: no time */
    long tons, acres;                 /* in 0.0001; acres 0: none */
    bool weighed;
    int cleared; /* percent; 0: not told */
    const char *ticket, *field, *note;
    ls_log_kind of; /* what was handed out has more; in older logs all went out */
    ls_log_sure sure;
    int planned;          /* day of the month, the time is none; 0: not told */
    long promised, price; /* loads; price in 0.0001, 0: none */
} load;

typedef struct {
    ls_arena *a;
    const char *path;
    load loads[MOST_ENTRIES];
    int n;
} world;

static load any_load(world *t, uint64_t *s, int k) {
    static const char *const notes[] = {"", "a; b, c", "say \"yes\"", "two\nlines", "TRUE note", "12.5", "x"};
    static const long steps[] = {10000, 1000, 100, 10, 1};
    const char *body = ls_arena_printf(t->a, "NORTH-%02d-", k + 1);
    long step = steps[test_pick(s, 5)];
    return (load){.month = 1 + (int)test_pick(s, 12),
                  .day = 1 + (int)test_pick(s, 28),
                  .minute = test_pick(s, 6) == 0 ? -1 : (int)test_pick(s, 1440),
                  .tons = (10000 + (long)test_pick(s, 140000)) / step * step,
                  .acres = test_pick(s, 3) == 0 ? 100 * (1 + (long)test_pick(s, 900)) : 0,
                  .weighed = test_pick(s, 2),
                  .cleared = test_pick(s, 4) == 0 ? 1 + (int)test_pick(s, 99) : 0,
                  .ticket = ls_arena_printf(t->a, "%s%c", body, ls_check_character(body)),
                  .field = test_pick(s, 3) == 0 ? "A/North (3 ton); A/South (2 ton)" : "A/North",
                  .note = notes[test_pick(s, 7)],
                  .of = (ls_log_kind)(test_pick(s, 5) % LS_LOG_CORRECTION),
                  .sure = (ls_log_sure)(1 + test_pick(s, 3)),
                  .planned = (int)test_pick(s, 29),
                  .promised = 1 + (long)test_pick(s, 9),
                  .price = (long)test_pick(s, 4) * (10000 + 10 * (long)test_pick(s, 9000))};
}

static void draw_log(world *t, uint64_t seed) {
    uint64_t s = seed;
    bool replaced[MOST_ENTRIES] = {false};
    t->n = 1 + (int)test_pick(&s, MOST_ENTRIES);
    for (int k = 0; k < t->n; k++) {
        t->loads[k] = any_load(t, &s, k);
        int old = k > 0 ? (int)test_pick(&s, (unsigned)k) : 0;
        if (k == 0 || replaced[old] || test_pick(&s, 4) != 0) continue;
        replaced[old] = true;
        t->loads[k].replaces = old + 1;
        t->loads[k].of = t->loads[old].of;
        if (test_pick(&s, 3) == 0) t->loads[k].tons = 0;
    }
}

/* ---- ways to save one ---- */

typedef enum { ISO, SPACED, SLASHED_ISO, US, US_SECONDS, US_SHORT, BRITISH, BRITISH_SHORT, GERMAN } days;
typedef enum { PLAIN, COMMA, TWO_PLACES, COMMA_PLACES, NO_POINT } numbers;

typedef struct {
    const char *name;
    char separator;
    days days;
    numbers numbers;
    const char *yes, *no, *percent, *line_end;
    bool mark, quoted, no_last_end, old;
    int blank_rows, blank_columns;
    int dropped; /* this column; 0: none */
    int moved;   /* columns turned by so many */
    bool reads;  /* it must be read, never refused */
} way;

static const way ways[] = {
    {"as it is", ',', ISO, PLAIN, "yes", "no", " %", .line_end = "\r\n", .reads = true},
    {"an older log", ',', ISO, PLAIN, "yes", "no", " %", .line_end = "\r\n", .old = true, .reads = true},
    {"an older log, no last line end", ',', ISO, PLAIN, "yes", "no", " %", .line_end = "\r\n", .old = true,
     .no_last_end = true, .reads = true},
    {"line feeds, a mark", ',', ISO, PLAIN, "yes", "no", " %", .line_end = "\n", .mark = true, .reads = true},
    {"carriage returns", ',', ISO, PLAIN, "yes", "no", " %", .line_end = "\r", .reads = true},
    {"carriage returns, no last one", ';', ISO, PLAIN, "yes", "no", " %", .line_end = "\r", .no_last_end = true,
     .reads = true},
    {"semicolons", ';', ISO, PLAIN, "yes", "no", " %", .line_end = "\r\n", .reads = true},
    {"tabs", '\t', ISO, PLAIN, "yes", "no", " %", .line_end = "\n", .reads = true},
    {"all in quotes", ',', ISO, PLAIN, "yes", "no", " %", .line_end = "\n", .quoted = true, .reads = true},
    {"blank rows", ',', ISO, PLAIN, "yes", "no", " %", .line_end = "\n", .blank_rows = 3, .reads = true},
    {"blank columns", ',', ISO, PLAIN, "TRUE", "FALSE", "%", .line_end = "\n", .blank_columns = 40, .blank_rows = 2,
     .reads = true},
    {"blank rows, no last line end", ',', ISO, PLAIN, "yes", "no", " %", .line_end = "\n", .blank_rows = 2,
     .no_last_end = true, .reads = true},
    {"no last line end", ',', ISO, PLAIN, "yes", "no", " %", .line_end = "\n", .no_last_end = true, .reads = true},
    {"columns moved", ',', ISO, PLAIN, "yes", "no", " %", .line_end = "\n", .moved = 3},
    {"TRUE and FALSE", ',', ISO, PLAIN, "TRUE", "FALSE", ".00%", .line_end = "\n", .reads = true},
    {"seconds", ',', SPACED, PLAIN, "Yes", "No", "%", .line_end = "\n", .reads = true},
    {"slashes, year first", ',', SLASHED_ISO, PLAIN, "yes", "no", "%", .line_end = "\n", .reads = true},
    {"American", ',', US, TWO_PLACES, "TRUE", "FALSE", "%", .line_end = "\r\n"},
    {"American, seconds", ',', US_SECONDS, PLAIN, "yes", "no", ".00%", .line_end = "\r\n"},
    {"American, short", ',', US_SHORT, PLAIN, "yes", "no", "%", .line_end = "\n", .blank_columns = 2},
    {"British", ',', BRITISH, PLAIN, "TRUE", "FALSE", "%", .line_end = "\n"},
    {"British, short", ',', BRITISH_SHORT, PLAIN, "yes", "no", "%", .line_end = "\n"},
    {"German", ';', GERMAN, COMMA, "yes", "no", ",00 %", .line_end = "\r\n"},
    {"German, two places", ';', GERMAN, COMMA_PLACES, "yes", "no", " %", .line_end = "\r\n"},
    {"decimal commas", ',', ISO, COMMA, "yes", "no", " %", .line_end = "\n"},
    {"points taken for thousands", ';', GERMAN, NO_POINT, "yes", "no", " %", .line_end = "\n"},
    {"without the notes", ',', ISO, PLAIN, "yes", "no", " %", .line_end = "\n", .dropped = 17},
};

static const char *day_text(ls_arena *a, days form, const load *l) {
    int h = l->minute / 60, m = l->minute % 60, h12 = h % 12 == 0 ? 12 : h % 12;
    bool time = l->minute >= 0;
    const char *half = h < 12 ? "AM" : "PM";
#define DAY(with, without, ...)                                                                                        \
    (time ? ls_arena_printf(a, with, __VA_ARGS__) : ls_arena_printf(a, without, l->month, l->day))
    switch (form) {
    case ISO: return DAY("2026-%02d-%02dT%02d:%02d", "2026-%02d-%02d", l->month, l->day, h, m);
    case SPACED: return DAY("2026-%02d-%02d %02d:%02d:00", "2026-%02d-%02d", l->month, l->day, h, m);
    case SLASHED_ISO: return DAY("2026/%d/%d %d:%02d", "2026/%d/%d", l->month, l->day, h, m);
    case US: return DAY("%d/%d/2026 %d:%02d", "%d/%d/2026", l->month, l->day, h, m);
    case US_SECONDS: return DAY("%02d/%02d/2026 %02d:%02d:00 %s", "%02d/%02d/2026", l->month, l->day, h12, m, half);
    case US_SHORT: return DAY("%d/%d/26 %d:%02d %s", "%d/%d/26", l->month, l->day, h12, m, half);
    default: break;
    }
#undef DAY
    const char *time_text = time ? ls_arena_printf(a, " %02d:%02d", h, m) : "";
    return form == BRITISH_SHORT ? ls_arena_printf(a, "%02d/%02d/26%s", l->day, l->month, time_text)
           : form == BRITISH     ? ls_arena_printf(a, "%02d/%02d/2026%s", l->day, l->month, time_text)
                                 : ls_arena_printf(a, "%02d.%02d.2026%s", l->day, l->month, time_text);
}

/* Thousandths that a program took for thousands have no point any more. */
static const char *number_text(ls_arena *a, numbers form, long x) {
    char *plain = ls_arena_printf(a, "%ld.%04ld", x / 10000, x % 10000);
    size_t n = strlen(plain);
    while (plain[n - 1] == '0') plain[--n] = '\0';
    if (plain[n - 1] == '.') plain[--n] = '\0';
    char *point = strchr(plain, '.');
    bool thousandths = point != NULL && strlen(point) == 4;
    switch (form) {
    case PLAIN: return plain;
    case TWO_PLACES: /* only where nothing is lost */
        return x % 100 == 0 ? ls_arena_printf(a, "%ld.%02ld", x / 10000, x % 10000 / 100) : plain;
    case COMMA_PLACES:
        if (x % 100 == 0) return ls_arena_printf(a, "%ld,%02ld", x / 10000, x % 10000 / 100);
        break;
    case NO_POINT:
        if (thousandths) {
            memmove(point, point + 1, strlen(point));
            return plain;
        }
        break;
    case COMMA: break;
    }
    if (point != NULL) *point = ',';
    return plain;
}

static const char *columns[] = {
    "entry",   "replaces",      "ticket", "when",        "tons",      "weighed",      "cleared",
    "field",   "truck",         "driver", "received_by", "analysis",  "incorporated", "weather_before",
    "weather", "weather_after", "soil",   "note",        "confirmed", "acres",        "certainty",
    "planned", "loads",         "price",  "batch",       "kind"};
enum { OLD = 18, NEW = 26 };

/* What was handed out, not hauled. */
static bool is_of(const way *w, const load *l, ls_log_kind of) { return !w->old && l->of == of; }

static const char *more_cells(world *t, const way *w, const load *l, int column) {
    static const char *const kinds[] = {"hauled", "issued", "promised"};
    bool issued = is_of(w, l, LS_LOG_ISSUED), promised = is_of(w, l, LS_LOG_PROMISED);
    load planned = *l;
    planned.day = l->planned;
    planned.minute = -1;
    switch (column) {
    case 19: return l->acres > 0 ? number_text(t->a, w->numbers, l->acres) : "";
    case 20: return issued ? ls_log_sure_name(l->sure) : "";
    case 21: return issued && l->planned > 0 ? day_text(t->a, w->days, &planned) : "";
    case 22: return promised ? ls_arena_printf(t->a, "%ld", l->promised) : "";
    case 23: return promised && l->price > 0 ? number_text(t->a, w->numbers, l->price) : "";
    case 25: return l->replaces == 0 ? kinds[l->of] : l->tons > 0 ? "correction" : "strike";
    default: return "";
    }
}

static const char *cell(world *t, const way *w, int k, int column) {
    const load *l = &t->loads[k];
    switch (column) {
    case 0: return ls_arena_printf(t->a, "%d", k + 1);
    case 1: return l->replaces > 0 ? ls_arena_printf(t->a, "%d", l->replaces) : "";
    case 2: return is_of(w, l, LS_LOG_PROMISED) ? "" : l->ticket;
    case 3: return day_text(t->a, w->days, l);
    case 4: return number_text(t->a, w->numbers, l->tons);
    case 5: return l->weighed ? w->yes : w->no;
    case 6: return l->cleared > 0 ? ls_arena_printf(t->a, "%d%s", l->cleared, w->percent) : "";
    case 7: return l->field;
    case 17: return l->note;
    default: return more_cells(t, w, l, column);
    }
}

static void add_cell(ls_text *out, const way *w, const char *s) {
    bool marks = w->quoted || strchr(s, w->separator) != NULL || strpbrk(s, "\"\n,;\t") != NULL;
    ls_text_add(out, marks ? "\"" : "");
    for (; *s != '\0'; s++)
        if (*s == '\n')
            ls_text_add(out, strcmp(w->line_end, "\r") == 0 ? "\r" : "\n");
        else
            ls_text_addf(out, *s == '"' ? "\"%c" : "%c", *s);
    ls_text_add(out, marks ? "\"" : "");
}

/* The log as that program saves it; row -1 is the header. */
static const char *saved(world *t, const way *w) {
    ls_text *out = ls_text_new(t->a);
    int n = w->old ? OLD : NEW;
    ls_text_add(out, w->mark ? "\xEF\xBB\xBF" : "");
    for (int k = -1; k < t->n + w->blank_rows; k++) {
        for (int c = 0; c < n + w->blank_columns; c++) {
            if (c > 0 && c == w->dropped) continue;
            int column = c == 0 || c >= n ? c : (c - 1 + w->moved) % (n - 1) + 1;
            ls_text_addf(out, "%.*s", c > 0, &w->separator);
            if (c < n && k < t->n) add_cell(out, w, k < 0 ? columns[column] : cell(t, w, k, column));
        }
        ls_text_add(out, w->no_last_end && k + 1 == t->n + w->blank_rows ? "" : w->line_end);
    }
    return out->s;
}

/* ---- the same loads, or a line ---- */

static bool same_handed(const way *w, const load *l, const ls_log_entry *e) {
    bool issued = is_of(w, l, LS_LOG_ISSUED), promised = is_of(w, l, LS_LOG_PROMISED);
    ls_date planned = issued && l->planned > 0 ? ls_date_of(2026, l->month, l->planned) : LS_NO_DATE;
    double ton = 2000, price = promised && l->price > 0 ? (double)l->price / 10000 : NAN;
    return e->of == (w->old ? LS_LOG_HAULED : l->of) && strcmp(e->ticket.text, promised ? "" : l->ticket) == 0 &&
           e->sure == (issued ? l->sure : LS_LOG_UNTOLD) && e->planned == planned &&
           e->loads == (promised ? l->promised : 0) &&
           (isnan(price) ? isnan(e->price) : fabs(e->price * ton - price) < 1e-9);
}

static bool same(world *t, const way *w, const ls_log *log) {
    bool holds = log->entries.n == (size_t)t->n && log->unfinished == 0;
    for (int k = 0; holds && k < t->n; k++) {
        const load *l = &t->loads[k];
        const ls_log_entry *e = &log->entries.at[k];
        double acres = w->old ? 0 : (double)l->acres / 10000;
        holds = same_handed(w, l, e) && e->when.day == ls_date_of(2026, l->month, l->day) &&
                e->when.minute == l->minute && fabs(e->tons / 2000 - (double)l->tons / 10000) < 1e-9 &&
                e->weighed == l->weighed && e->replaces == l->replaces && strcmp(e->words[LS_LOG_NOTE], l->note) == 0 &&
                strcmp(e->words[LS_LOG_FIELD], l->field) == 0 &&
                (acres > 0 ? fabs(e->acres / 43560 - acres) < 1e-9 : isnan(e->acres)) &&
                (l->cleared > 0 ? fabs(e->cleared - l->cleared / 100.0) < 1e-9 : isnan(e->cleared));
    }
    if (!holds) printf("\n%s, read to other loads:\n%s\n", w->name, saved(t, w));
    return holds;
}

static void put(const char *path, const char *text) {
    unlink(path); /* a file cut to nothing and written anew is flushed, and that takes its time */
    FILE *f = fopen(path, "wb");
    CU_ASSERT_PTR_NOT_NULL_FATAL(f);
    CU_ASSERT_TRUE(fputs(text, f) >= 0 && fclose(f) == 0);
}

/* Read, and if so to the same loads; else every mistake names its line. */
static bool mangle(world *t, const way *w) {
    ls_diag *d = ls_diag_new(t->a);
    put(t->path, saved(t, w));
    const ls_log *log = ls_log_read(t->a, d, t->path);
    if (log != NULL) {
        CU_ASSERT_TRUE(same(t, w, log));
        return true;
    }
    const char *told = test_messages(t->a, d);
    if (w->reads) printf("\n%s, refused:\n%s\n%s\n", w->name, told, saved(t, w));
    CU_ASSERT_FALSE(w->reads);
    TEST_HOLDS(told, ls_arena_printf(t->a, "%s:", t->path));
    CU_ASSERT_PTR_NOT_NULL(strstr(told, ": error: "));
    CU_ASSERT_PTR_NULL(strstr(told, ls_arena_printf(t->a, "%s: error", t->path)));
    return false;
}

/* With the copy beside it nothing is told but what the file lost or changed, and day and month are
 * never in doubt. */
static void beside_its_copy(world *t, const way *w) {
    const char *copy = ls_log_copy_path(t->a, t->path);
    put(copy, saved(t, &ways[0]));
    mangle(t, w);
    unlink(copy);
}

static void mangled(void) {
    const char *folder = NULL;
    size_t n = sizeof ways / sizeof *ways;
    int read[MOST_FORMS] = {0};
    for (uint64_t seed = 1; seed <= LOGS; seed++) {
        world t = {.a = ls_arena_new()};
        folder = test_folder(t.a);
        t.path = ls_arena_printf(t.a, "%s/farm.haul.csv", folder);
        draw_log(&t, seed);
        for (size_t k = 0; k < n; k++) {
            read[k] += mangle(&t, &ways[k]);
            if (seed % 10 == 0 && !ways[k].old) beside_its_copy(&t, &ways[k]);
        }
        test_folder_end(folder);
        ls_arena_free(t.a);
    }
    for (size_t k = 0; k < n; k++) { /* what can be told is told: not all is refused */
        if (getenv("MANGLED") != NULL) printf("\n%3d of %d read: %s", read[k], LOGS, ways[k].name);
        CU_ASSERT_TRUE(ways[k].dropped == 0 ? read[k] > LOGS / 10 : read[k] == 0);
    }
}

TEST_SUITE(record_mangled) = {{"random logs, saved again", mangled}, CU_TEST_INFO_NULL};
