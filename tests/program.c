#include "program.h"

#include "littershed/command.h"
#include "littershed/farm.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static FILE *memory(char **bytes, size_t *n) {
    FILE *f = open_memstream(bytes, n);
    if (f == NULL) ls_fail("no memory stream");
    return f;
}

static const char *taken(ls_arena *a, char *bytes, size_t n) {
    const char *copy = ls_arena_copy_n(a, bytes, n);
    free(bytes);
    return copy;
}

test_run test_program(ls_arena *a, const char *const *arguments) {
    enum { MOST = 64 };
    char *argv[MOST + 2] = {ls_arena_copy(a, "littershed")};
    int argc = 1;
    for (; arguments[argc - 1] != NULL && argc < MOST; argc++) argv[argc] = ls_arena_copy(a, arguments[argc - 1]);
    char *out_bytes = NULL, *err_bytes = NULL;
    test_run run = {0};
    FILE *out = memory(&out_bytes, &run.out_size), *err = memory(&err_bytes, &run.err_size);
    run.status = ls_command_main(argc, argv, out, err);
    fclose(out);
    fclose(err);
    run.out = taken(a, out_bytes, run.out_size);
    run.err = taken(a, err_bytes, run.err_size);
    return run;
}

const char *test_file(ls_arena *a, const char *folder, const char *name, const char *text) {
    const char *path = ls_arena_printf(a, "%s/%s", folder, name);
    FILE *f = fopen(path, "w");
    if (f == NULL || fputs(text, f) == EOF || fclose(f) != 0) ls_fail("cannot write %s", path);
    return path;
}

const char *test_file_text(ls_arena *a, const char *path) {
    FILE *f = fopen(path, "r");
    if (f == NULL) return NULL;
    ls_text *t = ls_text_new(a);
    char part[4096];
    for (size_t n; (n = fread(part, 1, sizeof part, f)) > 0;) ls_text_add_n(t, part, n);
    fclose(f);
    return t->s;
}

const char *test_replace(ls_arena *a, const char *text, const char *old, const char *new) {
    ls_text *t = ls_text_new(a);
    for (const char *at; (at = strstr(text, old)) != NULL; text = at + strlen(old)) {
        ls_text_add_n(t, text, (size_t)(at - text));
        ls_text_add(t, new);
    }
    ls_text_add(t, text);
    return t->s;
}

const char *test_without_trucks(ls_arena *a, const char *folder) {
    const char *text = test_file_text(a, DEMO_HOUSE);
    const char *trucks = strstr(text, "\ntrucks:"), *crew = strstr(text, "\ncrew:");
    if (trucks == NULL || crew == NULL || crew < trucks) ls_fail("the demo has no trucks before its crew");
    const char *cut = ls_arena_printf(a, "%.*s%s", (int)(trucks - text), text, crew);
    return test_file(a, folder, "no-trucks.yaml", cut);
}

const char *test_joined(ls_arena *a, const char *page) {
    ls_text *t = ls_text_new(a);
    for (const char *at = page; *at != '\0'; at++) {
        bool blank = *at == ' ' || *at == '\n';
        if (!blank)
            ls_text_addf(t, "%c", *at);
        else if (t->n > 0 && t->s[t->n - 1] != ' ')
            ls_text_add(t, " ");
    }
    return t->s;
}

void test_fits(const char *page) {
    ls_arena *a = ls_arena_new();
    while (*page != '\0') {
        size_t n = strcspn(page, "\n");
        const char *line = ls_arena_copy_n(a, page, n);
        if (ls_text_columns(line) > 80 || (n > 0 && line[n - 1] == ' '))
            TEST_TEXT(line, "a line of at most 80 columns");
        for (size_t i = 0; i < n; i++)
            if ((unsigned char)line[i] < 0x20 || line[i] == 0x7F) TEST_TEXT(line, "a line without control characters");
        page += n + (page[n] == '\n');
    }
    ls_arena_free(a);
}

const char *test_starter(ls_arena *a, int bird) {
    return ls_farm_starter(a, (ls_starter){.bird = bird, .example = true});
}
