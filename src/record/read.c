/* The rows of a log as entries. */
#include "row.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

/* One row of cells; where it begins in the input. */
typedef struct {
    ls_record_cell *cells;
    size_t n, began;
} row;

typedef struct {
    ls_arena *arena;
    ls_diag *d;
    const ls_log *beside;
    ls_log *log;
    ls_record_reader *rows;
    ls_record_shape shape;
    LS_LIST(int) columns; /* of the log, of each cell of a row; -1: none */
    LS_LIST(row) part;    /* rows below the last header row */
    ls_record_habits habits;
    size_t batch_began; /* in the input, the batch of the last entry */
} reading;

#define MISTAKE(r, cell, hint, ...) ls_diag_add((r)->d, LS_ERROR, marked(cell), (hint), __VA_ARGS__)

/* The place of a cell with as much of it as stands on its first line. */
static ls_place marked(const ls_record_cell *cell) {
    ls_place at = cell->at;
    size_t n = strcspn(cell->text, "\n");
    at.length = n > 0 && n <= LS_MOST_CELL ? (uint32_t)n : 1;
    return at;
}

/* A whole number from 1 to LS_MOST_ENTRIES, perhaps with a comma between thousands or a zero
 * behind a point; 0: it is none. */
static long entry_number(const char *s) {
    static const ls_record_habits plain = {.point = true};
    double v;
    bool number = ls_record_number(&plain, s, &v) == LS_RECORD_READS;
    return number && v == floor(v) && v <= LS_MOST_ENTRIES ? (long)v : 0;
}

static void read_number(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    if (entry_number(cell->text) != e->number)
        MISTAKE(r, cell,
                "entries are numbered 1, 2, ... and none is ever taken out: restore the log from "
                "its copy",
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
    e->of = old->of;
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

/* The day that the copy has for this entry, among those a cell may mean. */
static bool by_copy(const reading *r, const ls_when *may, ls_log_entry *e) {
    if (r->beside == NULL || (size_t)e->number > r->beside->entries.n)
        return false;
    ls_date day = r->beside->entries.at[e->number - 1].when.day;
    for (; may->day != LS_NO_DATE && may->day != day; may++)
        continue;
    e->when = *may;
    return may->day != LS_NO_DATE;
}

static void read_when(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    ls_when may[4];
    switch (ls_record_when(&r->habits, cell->text, may)) {
    case LS_RECORD_READS:
        e->when = may[0];
        return;
    case LS_RECORD_TWO_WAYS:
        if (!by_copy(r, may, e))
            MISTAKE(r, cell,
                    ls_arena_printf(r->arena, "write the year first: %s, or %s",
                                    ls_when_text(r->arena, may[0]), ls_when_text(r->arena, may[1])),
                    "this day may mean two days, and no other line says which comes first, month "
                    "or day");
        return;
    case LS_RECORD_NOT:
        MISTAKE(r, cell, "for example 2026-02-16T10:00 or 2026-02-16",
                "this is no day, or no day and time");
    }
}

/* A number of the unit, at most so many; false: it is noted. */
static bool read_amount(reading *r, const ls_record_cell *cell, const char *unit, double *out) {
    double v = 0;
    ls_record_meaning meaning = ls_record_number(&r->habits, cell->text, &v);
    if (meaning == LS_RECORD_READS && v <= LS_MOST_TONS) {
        *out = v * ls_unit_of(unit).factor;
        return true;
    }
    if (meaning == LS_RECORD_TWO_WAYS)
        MISTAKE(r, cell, "write it with a point and without commas: 11.2",
                "this number may mean two amounts: its sign may stand between thousands, or be a "
                "decimal point");
    else
        MISTAKE(r, cell, "for example 11.2", "%s should be a number, at most %d",
                strcmp(unit, "ac") == 0 ? "acres" : "tons", LS_MOST_TONS);
    return false;
}

static void read_tons(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    if (read_amount(r, cell, "ton", &e->tons) && e->tons == 0 && e->replaces == 0)
        MISTAKE(r, cell, "only a correction may say 0 tons: it strikes the entry it replaces",
                "a load of 0 tons");
}

/* "40 %", "40.00%", "40,0 %", "all". */
static void read_cleared(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    size_t n = strcspn(cell->text, " %");
    const char *number = ls_arena_copy_n(r->arena, cell->text, n), *text = cell->text;
    double percent;
    if (ls_record_number(&r->habits, number, &percent) == LS_RECORD_READS)
        text = ls_arena_printf(r->arena, "%.6f%s", percent, cell->text + n);
    if (cell->text[0] != '\0' && !ls_log_share_parse(text, &e->cleared))
        MISTAKE(r, cell, "for example 40 % or all; empty if it is not known",
                "cleared should be a share of the lot");
}

/* "2 of 9". */
static bool batch_parse(const char *s, long *k, long *n) {
    const char *of = strstr(s, " of ");
    if (of == NULL)
        return false;
    *k = strtol(s, NULL, 10);
    *n = strtol(of + 4, NULL, 10);
    return *k >= 1 && *k <= *n && *n <= LS_MOST_ENTRIES && s[strspn(s, "0123456789 of")] == '\0';
}

static bool kind_parse(const char *s, ls_log_kind *out) {
    for (int k = 0; k < LS_LOG_KINDS; k++)
        if (strcasecmp(s, ls_log_kind_name((ls_log_kind)k)) == 0) {
            *out = (ls_log_kind)k;
            return true;
        }
    return false;
}

/* What later programs added; an older log has none of it. */
static void read_more(reading *r, const ls_record_cell *cells, ls_log_entry *e) {
    const ls_record_cell *acres = &cells[LS_RECORD_ACRES], *batch = &cells[LS_RECORD_BATCH],
                         *kind = &cells[LS_RECORD_KIND];
    bool corrects = e->replaces > 0;
    if (acres->text[0] != '\0')
        read_amount(r, acres, "ac", &e->acres);
    if (batch->text[0] != '\0' && !batch_parse(batch->text, &e->batch, &e->batch_n))
        MISTAKE(r, batch, "for example 2 of 9", "this is no place in a batch");
    e->kind = !corrects ? LS_LOG_HAULED : e->tons > 0 ? LS_LOG_CORRECTION : LS_LOG_STRIKE;
    ls_log_kind told = e->kind;
    if (kind->text[0] != '\0' &&
        (!kind_parse(kind->text, &told) || corrects != (told >= LS_LOG_CORRECTION)))
        MISTAKE(r, kind,
                "hauled, issued or promised; correction or strike of what replaces another",
                "this is no kind of entry, or not of this one");
    if (!corrects)
        e->kind = e->of = told;
}

static void read_facts(reading *r, const ls_record_cell *cells, ls_log_entry *e) {
    read_number(r, &cells[LS_RECORD_ENTRY], e);
    read_replaces(r, &cells[LS_RECORD_REPLACES], e);
    read_ticket(r, &cells[LS_RECORD_TICKET], e);
    read_when(r, &cells[LS_RECORD_WHEN], e);
    read_tons(r, &cells[LS_RECORD_TONS], e);
    if (!ls_record_yes_no(cells[LS_RECORD_WEIGHED].text, &e->weighed))
        MISTAKE(r, &cells[LS_RECORD_WEIGHED], NULL, "weighed should be yes or no");
    read_cleared(r, &cells[LS_RECORD_CLEARED], e);
    read_more(r, cells, e);
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

/* The cells of a row by columns of the log; those it lacks are "". False: noted. */
static bool sort_cells(reading *r, const row *from, ls_record_cell to[LS_RECORD_COLUMNS]) {
    for (size_t i = 0; i < LS_RECORD_COLUMNS; i++)
        to[i] = (ls_record_cell){"", from->cells[0].at};
    bool fits = from->n >= r->columns.n;
    for (size_t i = 0; i < from->n; i++) {
        int column = i < r->columns.n ? r->columns.at[i] : -1;
        if (column >= 0)
            to[column] = (ls_record_cell){column < LS_RECORD_WORDS || column >= LS_RECORD_ACRES
                                              ? ls_record_trimmed(r->arena, from->cells[i].text)
                                              : from->cells[i].text,
                                          from->cells[i].at};
        else
            fits = fits && ls_record_trimmed(r->arena, from->cells[i].text)[0] == '\0';
    }
    if (!fits)
        ls_diag_add(r->d, LS_ERROR, from->cells[0].at,
                    "every line of a log has the columns of its first",
                    "this line has %zu cells, %zu are needed", from->n, r->columns.n);
    return fits;
}

/* One row below the header. What is wrong is noted; the entry counts all the same, so that numbers
 * below it stay right. */
static void read_row(reading *r, const row *from) {
    ls_record_cell cells[LS_RECORD_COLUMNS];
    ls_log_entry e = {.number = (long)r->log->entries.n + 1,
                      .cleared = NAN,
                      .acres = NAN,
                      .at = from->cells[0].at};
    for (int i = 0; i < LS_LOG_WORDS; i++)
        e.words[i] = "";
    if (sort_cells(r, from, cells) && fit(r, cells)) {
        read_facts(r, cells, &e);
        for (int i = 0; i < LS_LOG_WORDS; i++)
            e.words[i] = ls_record_unguarded(r->arena, cells[LS_RECORD_WORDS + i].text);
    }
    if (e.batch <= 1)
        r->batch_began = from->began;
    *LS_PUSH(r->arena, &r->log->entries) = e;
}

/* ---- rows below one header row ---- */

static void read_part(reading *r) {
    for (size_t i = 0; i < r->part.n; i++)
        for (size_t k = 0; k < r->part.at[i].n && k < r->columns.n; k++) {
            const char *s = ls_record_trimmed(r->arena, r->part.at[i].cells[k].text);
            int column = r->columns.at[k];
            if (column == LS_RECORD_WHEN)
                ls_record_learn_when(&r->habits, s);
            else if (column == LS_RECORD_TONS || column == LS_RECORD_ACRES)
                ls_record_learn_number(&r->habits, s);
        }
    for (size_t i = 0; i < r->part.n; i++)
        read_row(r, &r->part.at[i]);
    r->shape.ours = r->shape.ours && !r->habits.foreign;
    r->part.n = 0;
}

/* The column of that heading; -1: none, COLUMNS: it is blank. */
static int column_of(const reading *r, const char *heading) {
    const char *s = ls_record_trimmed(r->arena, heading);
    for (int i = 0; i < LS_RECORD_COLUMNS; i++)
        if (strcasecmp(s, ls_record_column((size_t)i)) == 0)
            return i;
    return s[0] == '\0' ? LS_RECORD_COLUMNS : -1;
}

/* A header row: all columns of the first logs, in any order, and perhaps newer ones. */
static bool read_header(reading *r) {
    bool has[LS_RECORD_COLUMNS + 1] = {false}, sound = true;
    const ls_record_reader *rows = r->rows;
    r->columns.n = 0;
    r->habits = (ls_record_habits){0};
    r->shape.ours = rows->cells.n == LS_RECORD_COLUMNS;
    for (size_t i = 0; i < rows->cells.n; i++) {
        int column = column_of(r, rows->cells.at[i].text);
        sound = sound && column >= 0 && (!has[column] || column == LS_RECORD_COLUMNS);
        if (!sound)
            break;
        has[column] = true;
        r->shape.ours = r->shape.ours && column == (int)i;
        *LS_PUSH(r->arena, &r->columns) = column < LS_RECORD_COLUMNS ? column : -1;
    }
    while (r->columns.n > 0 && r->columns.at[r->columns.n - 1] < 0)
        r->columns.n--;
    for (int i = 0; i < LS_RECORD_FIRST_ONES; i++)
        sound = sound && has[i];
    r->shape.separator = rows->separator;
    return sound;
}

/* Is the row in hand a header row? False too of one that is none but should be: noted. */
static bool take_header(reading *r) {
    const ls_record_cell *first = &r->rows->cells.at[0];
    if (column_of(r, first->text) != LS_RECORD_ENTRY && r->shape.headed)
        return false;
    read_part(r);
    if (!read_header(r))
        ls_diag_add(r->d, LS_ERROR, (ls_place){first->at.file, first->at.line, 1, 1},
                    ls_arena_printf(r->arena, "its first line should be %.*s",
                                    (int)strcspn(ls_record_header(r->arena, ','), "\r"),
                                    ls_record_header(r->arena, ',')),
                    "this is no haul log");
    r->shape.headed = true;
    return true;
}

static bool blank(const reading *r) {
    for (size_t i = 0; i < r->rows->cells.n; i++)
        if (ls_record_trimmed(r->arena, r->rows->cells.at[i].text)[0] != '\0')
            return false;
    return true;
}

/* A last line without its end is whole if it ends in a kind, or if the copy has its entry. */
static bool is_whole(const reading *r) {
    const ls_record_reader *rows = r->rows;
    ls_log_kind kind;
    size_t entry = r->log->entries.n + r->part.n + 1;
    if (!r->shape.headed || rows->cells.n < r->columns.n || rows->cells.n == 0)
        return false;
    for (size_t i = 0; i < r->columns.n; i++)
        if (r->columns.at[i] == LS_RECORD_KIND)
            return kind_parse(ls_record_trimmed(r->arena, rows->cells.at[i].text), &kind);
    return r->beside != NULL && entry <= r->beside->entries.n;
}

/* False: the log is full, which is noted. */
static bool keep_row(reading *r) {
    const ls_record_reader *rows = r->rows;
    if (r->log->entries.n + r->part.n == LS_MOST_ENTRIES) {
        ls_diag_add(r->d, LS_ERROR, rows->cells.at[0].at, NULL,
                    "a log holds at most 100,000 entries");
        return false;
    }
    row *one = LS_PUSH(r->arena, &r->part);
    *one = (row){LS_NEW(r->arena, ls_record_cell, rows->cells.n), rows->cells.n, rows->began};
    memcpy(one->cells, rows->cells.at, rows->cells.n * sizeof *one->cells);
    return true;
}

/* The lines of a batch whose writing was cut off do not count. */
static void leave_out_torn_batch(reading *r) {
    ls_log *log = r->log;
    const ls_log_entry *last = log->entries.n > 0 ? &log->entries.at[log->entries.n - 1] : NULL;
    if (last == NULL || last->batch == last->batch_n || (size_t)last->batch > log->entries.n)
        return;
    for (long k = last->batch; k > 0; k--) {
        long replaces = log->entries.at[--log->entries.n].replaces;
        if (replaces > 0)
            log->entries.at[replaces - 1].replaced_by = 0;
    }
    r->shape.whole = r->batch_began;
    r->shape.unended = false;
}

ls_record_shape ls_record_read_all(ls_arena *a, ls_diag *d, int32_t file, const ls_log *beside,
                                   ls_log *log) {
    ls_record_reader rows = ls_record_reader_of(a, d, file);
    reading r = {.arena = a,
                 .d = d,
                 .beside = beside,
                 .log = log,
                 .rows = &rows,
                 .shape = {.separator = ','}};
    size_t errors = ls_diag_count(d, LS_ERROR);
    for (;;) {
        ls_record_status status = ls_record_next(&rows);
        r.shape.unended = status == LS_RECORD_TORN && is_whole(&r);
        r.shape.whole =
            status == LS_RECORD_TORN && !r.shape.unended ? rows.began : rows.input->size;
        if (status != LS_RECORD_ROW_READ && !r.shape.unended)
            break;
        if (!blank(&r) && !take_header(&r) && !keep_row(&r))
            break;
        if (r.shape.unended || ls_diag_count(d, LS_ERROR) > errors)
            break;
    }
    read_part(&r);
    leave_out_torn_batch(&r);
    return r.shape;
}
