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
    ls_record_facts facts;
    ls_log *log;
    ls_record_reader *rows;
    ls_record_shape shape;
    LS_LIST(int) columns; /* of the log, of each cell of a row; -1: none */
    LS_LIST(row) part;    /* rows below the last header row */
    size_t batch_began;   /* in the input, the batch of the last entry */
} reading;

static void read_number(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    if (ls_record_whole_number(cell->text) != e->number)
        LS_RECORD_MISTAKE(&r->facts, cell,
                          "entries are numbered 1, 2, ... and none is ever taken out: restore the "
                          "log from its copy",
                          "entry %ld should stand here", e->number);
}

static void read_replaces(reading *r, const ls_record_cell *cell, ls_log_entry *e) {
    if (cell->text[0] == '\0') return;
    long n = ls_record_whole_number(cell->text);
    if (n == 0 || n >= e->number) {
        LS_RECORD_MISTAKE(&r->facts, cell, "an entry replaces one that stands above it", "there is no such entry");
        return;
    }
    ls_log_entry *old = &r->log->entries.at[n - 1];
    if (old->replaced_by != 0)
        LS_RECORD_MISTAKE(&r->facts, cell, "name the last entry in place of it", "entry %ld is replaced by entry %ld",
                          n, old->replaced_by);
    else
        old->replaced_by = e->number;
    e->replaces = n;
    e->of = old->of;
    e->first = old->first;
}

/* "2 of 9". */
static bool batch_parse(const char *s, long *k, long *n) {
    const char *of = strstr(s, " of ");
    if (of == NULL) return false;
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

/* Kind and batch: later programs added them, an older log has none. */
static void read_kind(reading *r, const ls_record_cell *cells, ls_log_entry *e) {
    const ls_record_cell *batch = &cells[LS_RECORD_BATCH], *kind = &cells[LS_RECORD_KIND];
    bool corrects = e->replaces > 0;
    if (batch->text[0] != '\0' && !batch_parse(batch->text, &e->batch, &e->batch_n))
        LS_RECORD_MISTAKE(&r->facts, batch, "for example 2 of 9", "this is no place in a batch");
    e->kind = corrects ? LS_LOG_CORRECTION : LS_LOG_HAULED;
    if (kind->text[0] != '\0' && (!kind_parse(kind->text, &e->kind) || corrects != (e->kind >= LS_LOG_CORRECTION)))
        LS_RECORD_MISTAKE(&r->facts, kind, "hauled, issued or promised; correction or strike of what replaces another",
                          "this is no kind of entry, or not of this one");
    if (!corrects) e->of = e->kind;
}

/* Tons, after the kind; those of a promise with its loads. */
static void read_tons(reading *r, const ls_record_cell *cells, ls_log_entry *e) {
    const ls_record_cell *loads = &cells[LS_RECORD_LOADS], *tons = &cells[LS_RECORD_TONS];
    bool slip = e->of == LS_LOG_PROMISED;
    e->loads = slip ? ls_record_whole_number(loads->text) : 0;
    if (slip && e->loads == 0) {
        LS_RECORD_MISTAKE(&r->facts, loads, "for example 5", "loads of a promise should be a whole number, 1 or more");
        return;
    }
    double most = slip ? LS_MOST_SLIP_TONS * (double)e->loads : LS_MOST_TONS;
    if (ls_record_amount(&r->facts, tons, LS_RECORD_TONS, most, &e->tons) && e->tons == 0 && e->replaces == 0)
        LS_RECORD_MISTAKE(&r->facts, tons, "only a correction may say 0 tons: it strikes the entry it replaces",
                          "a load of 0 tons");
    if (e->replaces > 0) e->kind = e->tons > 0 ? LS_LOG_CORRECTION : LS_LOG_STRIKE;
}

/* The cells of a row by columns of the log; those it lacks are "". False: noted. */
static bool sort_cells(reading *r, const row *from, ls_record_cell to[LS_RECORD_COLUMNS]) {
    for (size_t i = 0; i < LS_RECORD_COLUMNS; i++) to[i] = (ls_record_cell){"", from->cells[0].at};
    bool fits = from->n >= r->columns.n;
    for (size_t i = 0; i < from->n; i++) {
        int column = i < r->columns.n ? r->columns.at[i] : -1;
        if (column >= 0)
            to[column] = (ls_record_cell){column < LS_RECORD_WORDS || column >= LS_RECORD_ACRES
                                              ? ls_record_trimmed(r->facts.arena, from->cells[i].text)
                                              : from->cells[i].text,
                                          from->cells[i].at};
        else
            fits = fits && ls_record_trimmed(r->facts.arena, from->cells[i].text)[0] == '\0';
    }
    if (!fits)
        ls_diag_add(r->facts.d, LS_ERROR, from->cells[0].at, "every line of a log has the columns of its first",
                    "this line has %zu cells, %zu are needed", from->n, r->columns.n);
    return fits;
}

/* One row below the header. What is wrong is noted; the entry counts all the same, so that numbers
 * below it stay right. */
static void read_row(reading *r, const row *from) {
    ls_record_cell cells[LS_RECORD_COLUMNS];
    ls_log_entry e = ls_log_no_facts(from->cells[0].at);
    e.number = e.first = (long)r->log->entries.n + 1;
    if (sort_cells(r, from, cells)) {
        read_number(r, &cells[LS_RECORD_ENTRY], &e);
        read_replaces(r, &cells[LS_RECORD_REPLACES], &e);
        read_kind(r, cells, &e);
        ls_record_read_facts(&r->facts, cells, &e);
        read_tons(r, cells, &e);
    }
    if (e.batch <= 1) r->batch_began = from->began;
    *LS_PUSH(r->facts.arena, &r->log->entries) = e;
}

/* ---- rows below one header row ---- */

static void read_part(reading *r) {
    for (size_t i = 0; i < r->part.n; i++)
        for (size_t k = 0; k < r->part.at[i].n && k < r->columns.n; k++) {
            const char *s = ls_record_trimmed(r->facts.arena, r->part.at[i].cells[k].text);
            int column = r->columns.at[k];
            if (column == LS_RECORD_WHEN || (column == LS_RECORD_PLANNED && s[0] != '\0'))
                ls_record_learn_when(&r->facts.habits, s);
            else if (column == LS_RECORD_TONS || column == LS_RECORD_ACRES || column == LS_RECORD_PRICE)
                ls_record_learn_number(&r->facts.habits, s);
        }
    for (size_t i = 0; i < r->part.n; i++) read_row(r, &r->part.at[i]);
    r->shape.ours = r->shape.ours && !r->facts.habits.foreign;
    r->part.n = 0;
}

/* The column of that heading; -1: none, COLUMNS: it is blank. */
static int column_of(const reading *r, const char *heading) {
    const char *s = ls_record_trimmed(r->facts.arena, heading);
    for (int i = 0; i < LS_RECORD_COLUMNS; i++)
        if (strcasecmp(s, ls_record_column((size_t)i)) == 0) return i;
    return s[0] == '\0' ? LS_RECORD_COLUMNS : -1;
}

/* A header row: all columns of the first logs, in any order, and perhaps newer ones. */
static bool read_header(reading *r) {
    bool has[LS_RECORD_COLUMNS + 1] = {false}, sound = true;
    const ls_record_reader *rows = r->rows;
    r->columns.n = 0;
    r->facts.habits = (ls_record_habits){0};
    r->shape.ours = rows->cells.n == LS_RECORD_COLUMNS;
    for (size_t i = 0; i < rows->cells.n; i++) {
        int column = column_of(r, rows->cells.at[i].text);
        sound = sound && column >= 0 && (!has[column] || column == LS_RECORD_COLUMNS);
        if (!sound) break;
        has[column] = true;
        r->shape.ours = r->shape.ours && column == (int)i;
        *LS_PUSH(r->facts.arena, &r->columns) = column < LS_RECORD_COLUMNS ? column : -1;
    }
    while (r->columns.n > 0 && r->columns.at[r->columns.n - 1] < 0) r->columns.n--;
    for (int i = 0; i < LS_RECORD_FIRST_ONES; i++) sound = sound && has[i];
    r->shape.separator = rows->separator;
    return sound;
}

/* Is the row in hand a header row? False too of one that is none but should be: noted. */
static bool take_header(reading *r) {
    const ls_record_cell *first = &r->rows->cells.at[0];
    if (column_of(r, first->text) != LS_RECORD_ENTRY && r->shape.headed) return false;
    read_part(r);
    if (!read_header(r))
        ls_diag_add(r->facts.d, LS_ERROR, (ls_place){first->at.file, first->at.line, 1, 1},
                    ls_arena_printf(r->facts.arena, "its first line should be %.*s",
                                    (int)strcspn(ls_record_header(r->facts.arena, ','), "\r"),
                                    ls_record_header(r->facts.arena, ',')),
                    "this is no haul log");
    r->shape.headed = true;
    return true;
}

/* A last line without its end is whole if it ends in a kind; in an older log, which has none, if it
 * has all its cells. */
static bool is_whole(const reading *r) {
    const ls_record_reader *rows = r->rows;
    ls_log_kind kind;
    if (!r->shape.headed || rows->cells.n < r->columns.n || rows->open) return false;
    for (size_t i = 0; i < r->columns.n; i++)
        if (r->columns.at[i] == LS_RECORD_KIND)
            return ls_record_blank(rows) ||
                   kind_parse(ls_record_trimmed(r->facts.arena, rows->cells.at[i].text), &kind);
    return true;
}

/* False: the log is full, which is noted. */
static bool keep_row(reading *r) {
    const ls_record_reader *rows = r->rows;
    if (r->log->entries.n + r->part.n == LS_MOST_ENTRIES) {
        ls_diag_add(r->facts.d, LS_ERROR, rows->cells.at[0].at, "begin a new log: name it under farm: haul_log",
                    "a log holds at most 100,000 entries");
        return false;
    }
    row *one = LS_PUSH(r->facts.arena, &r->part);
    *one = (row){LS_NEW(r->facts.arena, ls_record_cell, rows->cells.n), rows->cells.n, rows->began};
    memcpy(one->cells, rows->cells.at, rows->cells.n * sizeof *one->cells);
    return true;
}

/* The lines of a batch whose writing was cut off do not count. One that the copy has was written:
 * its last lines are lost. */
static void leave_out_torn_batch(reading *r) {
    ls_log *log = r->log;
    const ls_log_entry *last = log->entries.n > 0 ? &log->entries.at[log->entries.n - 1] : NULL;
    if (last == NULL || last->batch == last->batch_n || (size_t)last->batch > log->entries.n) return;
    size_t whole = log->entries.n + (size_t)(last->batch_n - last->batch);
    if (r->facts.beside != NULL && r->facts.beside->entries.n >= whole) return;
    log->torn = (size_t)last->batch;
    for (long k = last->batch; k > 0; k--) {
        long replaces = log->entries.at[--log->entries.n].replaces;
        if (replaces > 0) log->entries.at[replaces - 1].replaced_by = 0;
    }
    r->shape.whole = r->batch_began;
}

ls_record_shape ls_record_read_all(ls_arena *a, ls_diag *d, int32_t file, const ls_log *beside, ls_log *log) {
    ls_record_reader rows = ls_record_reader_of(a, d, file);
    reading r = {.facts = {a, d, beside, {0}}, .log = log, .rows = &rows, .shape = {.separator = ','}};
    size_t errors = ls_diag_count(d, LS_ERROR);
    for (;;) {
        ls_record_status status = ls_record_next(&rows);
        bool unended = status == LS_RECORD_TORN && is_whole(&r);
        r.shape.whole = status == LS_RECORD_TORN && !unended ? rows.began : rows.input->size;
        if (status != LS_RECORD_ROW_READ && !unended) break;
        if (!ls_record_blank(&rows) && !take_header(&r) && !keep_row(&r)) break;
        if (unended || ls_diag_count(d, LS_ERROR) > errors) break;
    }
    read_part(&r);
    leave_out_torn_batch(&r);
    return r.shape;
}
