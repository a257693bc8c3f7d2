/* A strict reader of CSV (RFC 4180), with commas, semicolons or tabs between. */
#include "row.h"

#include <string.h>
#include <strings.h>

static char here(const ls_record_reader *r) { return r->at < r->input->size ? r->input->text[r->at] : '\0'; }

static bool at_end(const ls_record_reader *r) { return r->at >= r->input->size; }

/* Bytes of the line end that begins here, LF, CRLF or CR alone; 0: none does. */
static size_t line_end(const ls_record_reader *r) {
    if (here(r) == '\r') return r->at + 1 < r->input->size && r->input->text[r->at + 1] == '\n' ? 2 : 1;
    return here(r) == '\n';
}

/* One byte further; columns count characters. */
static void step(ls_record_reader *r) {
    bool ends = line_end(r) == 1;
    unsigned char c = (unsigned char)r->input->text[r->at++];
    if (ends) {
        r->line++;
        r->column = 1;
    } else if ((c & 0xC0) != 0x80) {
        r->column++;
    }
}

static ls_place place(const ls_record_reader *r) { return (ls_place){r->file, r->line, r->column, 1}; }

static ls_record_status wrong(ls_record_reader *r, ls_place at, const char *hint, const char *message) {
    ls_diag_add(r->d, LS_ERROR, at, hint, "%s", message);
    return LS_RECORD_WRONG;
}

/* The rest of a cell behind its opening quotation mark, the closing one included. A line end within
 * the cell is one newline. */
static ls_record_status quoted(ls_record_reader *r, ls_place opened, ls_text *t) {
    bool returned = false;
    for (step(r); !at_end(r); step(r)) {
        if (here(r) == '"') {
            step(r);
            if (here(r) != '"' || at_end(r)) return LS_RECORD_ROW_READ;
        }
        returned = returned || here(r) == '\r';
        if (line_end(r) == 2) step(r);
        ls_text_add_n(t, line_end(r) > 0 ? "\n" : &r->input->text[r->at], 1);
    }
    /* record ends lines with CRLF and writes no CR within a cell: no cut-off line looks so */
    if (returned)
        return wrong(r, opened, "put a quotation mark at the end of the cell too",
                     "a quotation mark opens here and nothing closes it");
    return LS_RECORD_TORN;
}

static ls_record_status plain(ls_record_reader *r, ls_text *t) {
    for (; !at_end(r) && here(r) != r->separator && line_end(r) == 0; step(r)) {
        if (here(r) == '"')
            return wrong(r, place(r), "a cell with a quotation mark stands between quotation marks, the mark doubled",
                         "a quotation mark within a cell");
        ls_text_add_n(t, &r->input->text[r->at], 1);
    }
    return at_end(r) ? LS_RECORD_TORN : LS_RECORD_ROW_READ;
}

/* NUL would hide what follows it. */
static ls_record_status checked(ls_record_reader *r, ls_place at, const ls_text *t) {
    for (size_t i = 0; i < t->n; i++)
        if (t->s[i] == '\0')
            return wrong(r, at, "this file is damaged: restore it from a copy", "a cell holds a NUL character");
    return LS_RECORD_ROW_READ;
}

static ls_record_status cell(ls_record_reader *r, ls_record_cell *out) {
    ls_text *t = r->cell;
    t->n = 0;
    t->s[0] = '\0';
    ls_place opened = place(r);
    bool marked = here(r) == '"';
    ls_record_status status = marked ? quoted(r, opened, t) : plain(r, t);
    r->open = marked && status == LS_RECORD_TORN;
    *out = (ls_record_cell){r->open || t->n == 0 ? "" : ls_arena_copy_n(r->arena, t->s, t->n), opened};
    if (status == LS_RECORD_ROW_READ && at_end(r)) status = LS_RECORD_TORN;
    if (status != LS_RECORD_ROW_READ) return status;
    if (marked && here(r) != r->separator && line_end(r) == 0)
        return wrong(r, place(r), "after the closing quotation mark comes a comma or the next line",
                     "text behind a quotation mark");
    return checked(r, opened, t);
}

/* The sign that stands most often in a line of headings parts the cells from there on: the first
 * line of a file, and any that begins with "entry", as no entry is called. */
static void look_for_separator(ls_record_reader *r) {
    static const char signs[] = ",;\t", first[] = "entry";
    const char *s = r->input->text + r->at;
    size_t most = 0, end = strcspn(s, "\r\n");
    if (!r->titles && r->line > 1 && strncasecmp(s + (*s == '"'), first, strlen(first)) != 0) return;
    for (const char *sign = signs; *sign != '\0'; sign++) {
        size_t n = 0;
        for (size_t i = 0; i < end; i++) n += s[i] == *sign;
        if (n > most) r->separator = *sign;
        most = n > most ? n : most;
    }
}

ls_record_reader ls_record_reader_of(ls_arena *a, ls_diag *d, int32_t file) {
    static const char mark[] = "\xEF\xBB\xBF";
    const ls_input *input = ls_diag_input_at(d, file);
    ls_record_reader r = {a, d, input, file, 0, 1, 1, ',', false, false, ls_text_new(a), 0, {0}};
    if (input->size >= 3 && memcmp(input->text, mark, 3) == 0) r.at = 3;
    return r;
}

ls_record_status ls_record_next(ls_record_reader *r) {
    r->cells.n = 0;
    r->began = r->at;
    if (at_end(r)) return LS_RECORD_END;
    look_for_separator(r);
    for (;;) {
        ls_record_cell one;
        ls_record_status status = cell(r, &one);
        if (status == LS_RECORD_ROW_READ || (status == LS_RECORD_TORN && at_end(r)))
            *LS_PUSH(r->arena, &r->cells) = one;
        if (status != LS_RECORD_ROW_READ) return status;
        size_t end = line_end(r);
        for (size_t i = 0; i < (end > 0 ? end : 1); i++) step(r); /* the separator, or the line end */
        if (end > 0) return LS_RECORD_ROW_READ;
    }
}

bool ls_record_blank(const ls_record_reader *r) {
    for (size_t i = 0; i < r->cells.n; i++)
        if (ls_record_trimmed(r->arena, r->cells.at[i].text)[0] != '\0') return false;
    return true;
}
