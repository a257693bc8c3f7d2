/* embed FILE...: reads the table files, as a farm's own are read, and writes them as C data to
 * standard output, so that the program need not read them each time it runs. Run when the program
 * is built; a mistake in the tables stops the build. */
#include "reference/tables.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

/* The rows of all tables one after another, and so their cells and figures. */
typedef struct {
    ls_arena *arena;
    const ls_reference *set;
    size_t figures, cells, rows;
} writer;

/* ---- values ---- */

static void put_text(const char *s) {
    if (s == NULL) {
        fputs("NULL", stdout);
        return;
    }
    putchar('"');
    for (; *s != '\0'; s++) {
        bool plain = (*s >= 'a' && *s <= 'z') || (*s >= 'A' && *s <= 'Z') || *s == ' ';
        printf(plain ? "%c" : "\\%03o", (unsigned char)*s);
    }
    putchar('"');
}

static void put_number(double v) {
    if (isnan(v))
        fputs("NAN", stdout);
    else if (isinf(v))
        fputs(v > 0 ? "INFINITY" : "-INFINITY", stdout);
    else
        printf("%a", v);
}

static void put_source(const writer *w, const ls_source *s) {
    for (size_t i = 0; i < w->set->sources.n; i++)
        if (w->set->sources.at[i] == s) {
            printf("&sources[%zu]", i);
            return;
        }
    fputs("NULL", stdout);
}

/* By the format: t a text or NULL, n a number, s a source, i an int, z a size; else as it is. */
static void put(const writer *w, const char *format, ...) {
    va_list of;
    va_start(of, format);
    for (; *format != '\0'; format++) {
        char c = *format == '%' ? *++format : '\0';
        if (c == 't')
            put_text(va_arg(of, const char *));
        else if (c == 'n')
            put_number(va_arg(of, double));
        else if (c == 's')
            put_source(w, va_arg(of, const ls_source *));
        else if (c == 'i')
            printf("%d", va_arg(of, int));
        else if (c == 'z')
            printf("%zu", va_arg(of, size_t));
        else
            putchar(*format);
    }
    va_end(of);
}

static void write_figure(const writer *w, const ls_figure *f) {
    const ls_printed *p = &f->printed;
    const ls_spread *s = &f->spread;
    put(w, "{%t,%n,{%t,{{", f->id, f->value, f->unit.text);
    for (int i = 0; i < LS_DIMENSIONS; i++) put(w, "%i,", f->unit.dimension.power[i]);
    put(w, "}},%n},{%i,%n,%n,%n,%n},%t,{%n,%n,%n,%n,%n,%n},%s,%i,%t,NULL},\n", f->unit.factor, (int)s->kind, s->scale,
        s->df, s->low, s->high, f->why, p->n, p->least, p->most, p->median, p->mean, p->sd, f->source, (int)f->status,
        f->note);
}

/* ---- arrays ---- */

static void write_sources(const writer *w) {
    put(w, "static const ls_source sources[] = {\n");
    for (size_t i = 0; i < w->set->sources.n; i++) {
        const ls_source *s = w->set->sources.at[i];
        put(w, "{%t,%t,%t,%t},\n", s->id, s->who, s->title, s->url);
    }
    put(w, "};\n");
}

static void write_cell(writer *w, const ls_cell *c) {
    if (c->figure != NULL)
        put(w, "{%t,&figures[%z],NULL},\n", c->column, w->figures++);
    else
        put(w, "{%t,NULL,%t},\n", c->column, c->word);
}

static void write_row(writer *w, const ls_row *r) {
    put(w, "{%t,%z,&cells[%z],%s,%i,%t,NULL,NULL},\n", r->name, r->n, w->cells, r->source, (int)r->status, r->note);
    w->cells += r->n;
}

static void write_table(writer *w, const ls_table *t) {
    put(w, "{%t,%t,%t,%t,%t,%z,&rows[%z]},\n", t->id, t->kind, t->name, t->once, t->title, t->n, w->rows);
    w->rows += t->n;
}

/* One array of the C source: what each table has of it. */
typedef enum { FIGURES, CELLS, ROWS, TABLES } part;

static void write_row_part(writer *w, part what, const ls_row *r) {
    if (what == ROWS) write_row(w, r);
    for (size_t c = 0; what != ROWS && c < r->n; c++) {
        if (what == CELLS)
            write_cell(w, &r->cells[c]);
        else if (r->cells[c].figure != NULL)
            write_figure(w, r->cells[c].figure);
    }
}

static void write_part(writer *w, part what, const char *type, const char *name) {
    printf("static const %s %s[] = {\n", type, name);
    for (size_t i = 0; i < w->set->tables.n; i++) {
        const ls_table *t = w->set->tables.at[i];
        if (what == TABLES) write_table(w, t);
        for (size_t k = 0; what != TABLES && k < t->n; k++) write_row_part(w, what, &t->rows[k]);
    }
    fputs("};\n", stdout);
}

/* The lists of the set point at its sources and tables. */
static void write_list(const char *type, const char *name, const char *of, size_t n) {
    printf("static const %s *const %s[] = {", type, name);
    for (size_t i = 0; i < n; i++) printf("&%s[%zu],", of, i);
    printf("};\n");
}

static void write_set(const writer *w) {
    size_t sources = w->set->sources.n, tables = w->set->tables.n;
    write_list("ls_source", "source_list", "sources", sources);
    write_list("ls_table", "table_list", "tables", tables);
    put(w,
        "static const ls_reference built_in = {%t,%t,\n"
        "{(const ls_source **)(uintptr_t)source_list,%z,%z},\n"
        "{(const ls_table **)(uintptr_t)table_list,%z,%z},\n{",
        w->set->version, w->set->date, sources, sources, tables, tables);
    for (int k = 0; k <= LS_LOG_STUDENT; k++) put(w, "%t,", w->set->why[k]);
    put(w, "}};\nconst ls_reference *ls_reference_load(ls_arena *a) {\n(void)a;\nreturn "
           "&built_in;\n}\n");
}

static void write_all(ls_arena *a, const ls_reference *set) {
    writer w = {.arena = a, .set = set};
    fputs("/* Made from the table files by embed.c. */\n#include "
          "\"reference/tables.h\"\n\n#include <math.h>\n#include <stdint.h>\n",
          stdout);
    write_sources(&w);
    write_part(&w, FIGURES, "ls_figure", "figures");
    write_part(&w, CELLS, "ls_cell", "cells");
    write_part(&w, ROWS, "ls_row", "rows");
    write_part(&w, TABLES, "ls_table", "tables");
    write_set(&w);
}

int main(int argc, char **argv) {
    ls_arena *a = ls_arena_new();
    ls_diag *d = ls_diag_new(a);
    ls_reference *set = LS_NEW(a, ls_reference, 1);
    int32_t *files = LS_NEW(a, int32_t, (size_t)argc);
    for (int i = 1; i < argc; i++) files[i - 1] = ls_file_read(a, d, argv[i]);
    if (ls_diag_count(d, LS_ERROR) == 0) ls_reference_read(a, d, set, NULL, files, (size_t)argc - 1);
    size_t errors = ls_diag_count(d, LS_ERROR);
    ls_diag_print(d, stderr);
    if (errors == 0 && (set->version == NULL || set->date == NULL))
        ls_fail("the built-in tables have no version or no date");
    if (errors == 0) write_all(a, set);
    ls_arena_free(a);
    return errors > 0 || fflush(stdout) != 0 || ferror(stdout) ? 1 : 0;
}
