/* The rows of a log as entries. */
#include "row.h"

#include <math.h>
#include <string.h>

typedef struct {
    ls_arena *arena;
    ls_diag *d;
    ls_log *log;
} reading;

#define MISTAKE(r, cell, hint, ...) ls_diag_add((r)->d, LS_ERROR, marked(cell), (hint), __VA_ARGS__)

/* The place of a cell with as much of it as stands on its first line. */
static ls_place marked(const ls_record_cell *cell) {
    ls_place at = cell->at;
    size_t n = strcspn(cell->text, "\n");
    at.length = n > 0 && n <= LS_MOST_CELL ? (uint32_t)n : 1;
    return at;
}

/* A whole number from 1 to LS_MOST_ENTRIES; 0: it is none. */
static long entry_number(const char *s) {
    long n = 0;
    if (s[strspn(s, "0123456789")] != '\0' || strlen(s) > 6 || s[0] == '0')
        return 0;
    for (; *s != '\0'; s++)
        n = n * 10 + (*s - '0');
    return n <= LS_MOST_ENTRIES ? n : 0;
}

static void read_number(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    if (entry_number(cell->text) != e->number)
        MISTAKE(r, cell,
                "entries are numbered 1, 2, ... and none is ever taken out: restore the log from "
                "a copy",
                "entry %ld should stand here", e->number);
}

static void read_replaces(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    if (cell->text[0] == '\0')
        return;
    long n = entry_number(cell->text);
    if (n == 0 || n >= e->number) {
        MISTAKE(r, cell, "an entry replaces one that stands above it", "there is no such entry");
        return;
    }
    ls_log_entry *old = &r->log->entries.at[n - 1];
    if (old->replaced_by != 0)
        MISTAKE(r, cell, "name the last entry in place of it", "entry %ld is replaced by entry %ld",
                n, old->replaced_by);
    else
        old->replaced_by = e->number;
    e->replaces = n;
}

static void read_ticket(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    switch (ls_ticket_read(r->arena, cell->text, &e->ticket)) {
    case LS_TICKET_FORM:
        MISTAKE(r, cell, "a ticket number ends in a running number and a check character",
                "this is no ticket number");
        break;
    case LS_TICKET_SLIP:
        MISTAKE(r, cell, "compare it with the ticket",
                "the check character of the ticket number does not fit");
        break;
    case LS_TICKET_OK:
        break;
    }
}

static void read_tons(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    double tons;
    if (!ls_number_parse(cell->text, strlen(cell->text), &tons) || tons > LS_MOST_TONS)
        MISTAKE(r, cell, "for example 11.2", "tons should be a number, at most %d", LS_MOST_TONS);
    else if (tons == 0 && e->replaces == 0)
        MISTAKE(r, cell, "only a correction may say 0 tons: it strikes the entry it replaces",
                "a load of 0 tons");
    else
        e->tons = tons * ls_unit_of("ton").factor;
}

static void read_facts(reading *r, const ls_record_cell *cells, ls_log_entry *e) {
    read_number(r, &cells[LS_RECORD_ENTRY], e);
    read_replaces(r, &cells[LS_RECORD_REPLACES], e);
    read_ticket(r, &cells[LS_RECORD_TICKET], e);
    if (!ls_when_parse(cells[LS_RECORD_WHEN].text, &e->when))
        MISTAKE(r, &cells[LS_RECORD_WHEN], "for example \"2026-02-16T10:00\" or \"2026-02-16\"",
                "this is no day, or no day and time");
    read_tons(r, &cells[LS_RECORD_TONS], e);
    const ls_record_cell *weighed = &cells[LS_RECORD_WEIGHED];
    e->weighed = strcmp(weighed->text, "yes") == 0;
    if (!e->weighed && strcmp(weighed->text, "no") != 0)
        MISTAKE(r, weighed, NULL, "weighed should be yes or no");
    const ls_record_cell *cleared = &cells[LS_RECORD_CLEARED];
    if (cleared->text[0] != '\0' && !ls_log_share_parse(cleared->text, &e->cleared))
        MISTAKE(r, cleared, "for example \"40 %\" or all; empty if it is not known",
                "cleared should be a share of the lot");
}

/* Every cell is text that may be shown. */
static bool fit(reading *r, const ls_record_cell *cells) {
    bool all = true;
    for (size_t i = 0; i < LS_RECORD_COLUMNS; i++) {
        if (ls_log_fits(r->arena, cells[i].text))
            continue;
        all = false;
        MISTAKE(r, &cells[i], "save the file as UTF-8, without control or invisible characters",
                "%s: a character that cannot be shown, or more than 1,000 characters",
                ls_record_column(i));
    }
    return all;
}

/* One row below the header. What is wrong is noted; the entry counts all the same, so that numbers
 * below it stay right. */
static void read_row(reading *r, const ls_record_cell *cells, size_t n) {
    ls_log_entry e = {.number = (long)r->log->entries.n + 1, .cleared = NAN, .at = cells[0].at};
    for (int i = 0; i < LS_LOG_WORDS; i++)
        e.words[i] = "";
    if (n != LS_RECORD_COLUMNS)
        ls_diag_add(r->d, LS_ERROR, cells[0].at, "every line of a log has the columns of its first",
                    "this line has %zu cells, %d are needed", n, LS_RECORD_COLUMNS);
    else if (fit(r, cells)) {
        read_facts(r, cells, &e);
        for (int i = 0; i < LS_LOG_WORDS; i++)
            e.words[i] = ls_record_unguarded(r->arena, cells[LS_RECORD_WORDS + i].text);
    }
    *LS_PUSH(r->arena, &r->log->entries) = e;
}

static bool is_header(const ls_record_cell *cells, size_t n) {
    if (n != LS_RECORD_COLUMNS)
        return false;
    for (size_t i = 0; i < n; i++)
        if (strcmp(cells[i].text, ls_record_column(i)) != 0)
            return false;
    return true;
}

/* The header row; false: the rest is not to be read. */
static bool read_header(reading *r, ls_record_reader *rows, bool *headed) {
    ls_record_cell cells[LS_RECORD_COLUMNS];
    size_t n;
    *headed = ls_record_next(rows, cells, &n) == LS_RECORD_ROW_READ;
    if (*headed && !is_header(cells, n)) {
        ls_diag_add(r->d, LS_ERROR, (ls_place){rows->file, 1, 1, 1},
                    ls_arena_printf(r->arena, "its first line should be %.*s",
                                    (int)strcspn(ls_record_header(r->arena), "\r"),
                                    ls_record_header(r->arena)),
                    "this is no haul log");
        return false;
    }
    return *headed;
}

size_t ls_record_read_all(ls_arena *a, ls_diag *d, int32_t file, ls_log *log, bool *headed) {
    static const char mark[] = "\xEF\xBB\xBF";
    const ls_input *input = ls_diag_input_at(d, file);
    reading r = {a, d, log};
    ls_record_reader rows = {a, d, input, file, 0, 1, 1, ls_text_new(a)};
    if (input->size >= 3 && memcmp(input->text, mark, 3) == 0)
        rows.at = 3;
    if (!read_header(&r, &rows, headed))
        return rows.at;
    ls_record_cell cells[LS_RECORD_COLUMNS];
    for (size_t n; ls_record_next(&rows, cells, &n) == LS_RECORD_ROW_READ;) {
        if (log->entries.n == LS_MOST_ENTRIES) {
            ls_diag_add(d, LS_ERROR, cells[0].at, NULL, "a log holds at most 100,000 entries");
            break;
        }
        read_row(&r, cells, n);
    }
    return rows.at;
}
