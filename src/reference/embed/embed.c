/* embed FILE...: reads the table files, as a farm's own are read, and writes them as C data to
 * standard output, so that the program need not read them each time it runs. Run when the program
 * is built; a mistake in the tables stops the build. */
#include "reference/tables.h"

#include <math.h>
#include <stdio.h>

/* The rows of all tables one after another, and so their cells and figures. */
typedef struct {
    ls_arena *arena;
    const ls_reference *set;
    size_t figures, cells, rows;
} writer;

/* ---- values ---- */

static void write_text(const char *s) {
    if (s == NULL) {
        fputs("NULL", stdout);
        return;
    }
    putchar('"');
    for (; *s != '\0'; s++) {
        unsigned char c = (unsigned char)*s;
        bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == ' ';
        if (plain)
            putchar(c);
        else
            printf("\\%03o", c);
    }
    putchar('"');
}

static void write_number(double v) {
    if (isnan(v))
        fputs("NAN", stdout);
    else if (isinf(v))
        fputs(v > 0 ? "INFINITY" : "-INFINITY", stdout);
    else
        printf("%a", v);
}

static void write_numbers(const double *v, size_t n) {
    putchar('{');
    for (size_t i = 0; i < n; i++) {
        write_number(v[i]);
        putchar(',');
    }
    putchar('}');
}

static void write_source(const writer *w, const ls_source *s) {
    for (size_t i = 0; i < w->set->sources.n; i++)
        if (w->set->sources.at[i] == s) {
            printf("&sources[%zu]", i);
            return;
        }
    fputs("NULL", stdout);
}

static void write_unit(ls_unit u) {
    putchar('{');
    write_text(u.text);
    fputs(",{{", stdout);
    for (int i = 0; i < LS_DIMENSIONS; i++)
        printf("%d,", u.dimension.power[i]);
    fputs("}},", stdout);
    write_number(u.factor);
    putchar('}');
}

static void write_spread(ls_spread s) {
    printf("{%d,", (int)s.kind);
    const double numbers[] = {s.scale, s.df, s.low, s.high};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        write_number(numbers[i]);
        putchar(',');
    }
    putchar('}');
}

static void write_figure(const writer *w, const ls_figure *f) {
    const ls_printed *p = &f->printed;
    putchar('{');
    write_text(f->id);
    putchar(',');
    write_number(f->value);
    putchar(',');
    write_unit(f->unit);
    putchar(',');
    write_spread(f->spread);
    putchar(',');
    write_text(f->why);
    putchar(',');
    write_numbers((const double[]){p->n, p->least, p->most, p->median, p->mean, p->sd}, 6);
    putchar(',');
    write_source(w, f->source);
    printf(",%d,", (int)f->status);
    write_text(f->note);
    fputs(",NULL},\n", stdout);
}

/* ---- arrays ---- */

static void write_sources(const writer *w) {
    fputs("static const ls_source sources[] = {\n", stdout);
    for (size_t i = 0; i < w->set->sources.n; i++) {
        const ls_source *s = w->set->sources.at[i];
        const char *const texts[] = {s->id, s->who, s->title, s->url};
        putchar('{');
        for (size_t k = 0; k < sizeof texts / sizeof *texts; k++) {
            write_text(texts[k]);
            putchar(',');
        }
        fputs("},\n", stdout);
    }
    fputs("};\n", stdout);
}

static void write_cell(writer *w, const ls_cell *c) {
    putchar('{');
    write_text(c->column);
    if (c->figure != NULL)
        printf(",&figures[%zu],NULL},\n", w->figures++);
    else {
        fputs(",NULL,", stdout);
        write_text(c->word);
        fputs("},\n", stdout);
    }
}

static void write_row(writer *w, const ls_row *r) {
    putchar('{');
    write_text(r->name);
    printf(",%zu,&cells[%zu],", r->n, w->cells);
    write_source(w, r->source);
    printf(",%d,", (int)r->status);
    write_text(r->note);
    fputs(",NULL,NULL},\n", stdout);
    w->cells += r->n;
}

static void write_table(writer *w, const ls_table *t) {
    const char *const texts[] = {t->id, t->kind, t->name, t->once, t->title};
    putchar('{');
    for (size_t k = 0; k < sizeof texts / sizeof *texts; k++) {
        write_text(texts[k]);
        putchar(',');
    }
    printf("%zu,&rows[%zu]},\n", t->n, w->rows);
    w->rows += t->n;
}

/* One array of the C source: what each table has of it. */
typedef enum { FIGURES, CELLS, ROWS, TABLES } part;

static void write_row_part(writer *w, part what, const ls_row *r) {
    if (what == ROWS)
        write_row(w, r);
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
        if (what == TABLES)
            write_table(w, t);
        for (size_t k = 0; what != TABLES && k < t->n; k++)
            write_row_part(w, what, &t->rows[k]);
    }
    fputs("};\n", stdout);
}

/* The lists of the set point at its sources and tables. */
static void write_list(const char *type, const char *name, const char *of, size_t n) {
    printf("static const %s *const %s[] = {", type, name);
    for (size_t i = 0; i < n; i++)
        printf("&%s[%zu],", of, i);
    fputs("};\n", stdout);
}

static void write_set(const writer *w) {
    size_t sources = w->set->sources.n, tables = w->set->tables.n;
    write_list("ls_source", "source_list", "sources", sources);
    write_list("ls_table", "table_list", "tables", tables);
    fputs("const ls_reference ls_reference_built_in = {", stdout);
    write_text(w->set->version);
    putchar(',');
    write_text(w->set->date);
    printf(",\n{(const ls_source **)(uintptr_t)source_list,%zu,%zu},\n", sources, sources);
    printf("{(const ls_table **)(uintptr_t)table_list,%zu,%zu},\n{", tables, tables);
    for (int k = 0; k <= LS_LOG_STUDENT; k++) {
        write_text(w->set->why[k]);
        putchar(',');
    }
    fputs("}};\n", stdout);
}

static void write_all(ls_arena *a, const ls_reference *set) {
    writer w = {.arena = a, .set = set};
    fputs("/* Made from the table files by embed.c. */\n#include "
          "\"reference/embedded.h\"\n\n#include "
          "<math.h>\n#include <stdint.h>\n",
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
    for (int i = 1; i < argc; i++)
        files[i - 1] = ls_file_read(a, d, argv[i]);
    if (ls_diag_count(d, LS_ERROR) == 0)
        ls_reference_read(a, d, set, files, (size_t)argc - 1);
    size_t errors = ls_diag_count(d, LS_ERROR);
    ls_diag_print(d, stderr);
    if (errors == 0 && (set->version == NULL || set->date == NULL))
        ls_fail("the built-in tables have no version or no date");
    if (errors == 0)
        write_all(a, set);
    ls_arena_free(a);
    return errors > 0 || fflush(stdout) != 0 || ferror(stdout) ? 1 : 0;
}
