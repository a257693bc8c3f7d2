#include "suite.h"

#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

/* CUnit prints the text of a condition that failed: here it is the message. It keeps a copy. */
static void settle(bool passed, const char *message, const char *file, unsigned line) {
    CU_assertImplementation(passed ? CU_TRUE : CU_FALSE, line, message, file, "", CU_FALSE);
}

void test_near(double got, double want, double tolerance, const char *file, unsigned line) {
    char message[200];
    double margin = tolerance * (want == 0 ? 1 : fabs(want));
    snprintf(message, sizeof message, "got %.15g, want %.15g within %g", got, want, tolerance);
    settle(fabs(got - want) <= margin, message, file, line);
}

void test_same(long long got, long long want, const char *file, unsigned line) {
    char message[100];
    snprintf(message, sizeof message, "got %lld, want %lld", got, want);
    settle(got == want, message, file, line);
}

void test_text(const char *got, const char *want, const char *file, unsigned line) {
    ls_arena *a = ls_arena_new();
    const char *g = got == NULL ? "(null)" : got, *w = want == NULL ? "(null)" : want;
    settle(ls_text_same(got, want), ls_arena_printf(a, "got:\n%s\nwant:\n%s", g, w), file, line);
    ls_arena_free(a);
}

void test_holds(const char *text, const char *part, const char *file, unsigned line) {
    ls_arena *a = ls_arena_new();
    const char *message = ls_arena_printf(a, "\"%s\" does not stand in:\n%s", part, text);
    settle(strstr(text, part) != NULL, message, file, line);
    ls_arena_free(a);
}

const char *test_messages(ls_arena *a, const ls_diag *d) {
    char *bytes = NULL;
    size_t n = 0;
    FILE *to = open_memstream(&bytes, &n);
    if (to == NULL) ls_fail("no memory stream");
    ls_diag_print(d, to);
    fclose(to);
    const char *copy = ls_arena_copy_n(a, bytes, n);
    free(bytes);
    return copy;
}

static FILE *scratch(void) {
    FILE *f = tmpfile();
    if (f == NULL) ls_fail("no temporary file");
    return f;
}

static const char *everything(ls_arena *a, FILE *f, size_t *size) {
    ls_text *t = ls_text_new(a);
    char part[4096];
    rewind(f);
    for (size_t n; (n = fread(part, 1, sizeof part, f)) > 0;) ls_text_add_n(t, part, n);
    fclose(f);
    *size = t->n;
    return t->s;
}

static _Noreturn void become(int (*call)(void *context), void *context, FILE *in, FILE *out, FILE *err) {
    if (dup2(fileno(in), 0) < 0 || dup2(fileno(out), 1) < 0 || dup2(fileno(err), 2) < 0) _exit(127);
    int status = call(context);
    exit(status);
}

test_run test_call(ls_arena *a, int (*call)(void *context), void *context, const char *input) {
    FILE *in = scratch(), *out = scratch(), *err = scratch();
    if (input != NULL) fputs(input, in);
    rewind(in);
    fflush(NULL);
    pid_t child = fork();
    if (child < 0) ls_fail("no further process");
    if (child == 0) become(call, context, in, out, err);
    int how = 0;
    waitpid(child, &how, 0);
    fclose(in);
    test_run run = {WIFEXITED(how) ? WEXITSTATUS(how) : 128 + WTERMSIG(how), NULL, NULL, 0, 0};
    run.out = everything(a, out, &run.out_size);
    run.err = everything(a, err, &run.err_size);
    return run;
}

uint64_t test_count(const char *variable, uint64_t few) {
    const char *told = getenv(variable);
    uint64_t n = told != NULL ? strtoull(told, NULL, 10) : 0;
    return n > 0 ? n : few;
}

const char *test_folder(ls_arena *a) {
    const char *base = getenv("TMPDIR");
    char *path = ls_arena_printf(a, "%s/littershed-test-XXXXXX", base == NULL ? "/tmp" : base);
    if (mkdtemp(path) == NULL) ls_fail("no folder for the test");
    return path;
}

/* Count the files of a folder, or delete them. */
static size_t each_file(const char *folder, bool delete) {
    size_t n = 0;
    DIR *d = opendir(folder);
    if (d == NULL) return 0;
    ls_arena *a = ls_arena_new();
    for (struct dirent *entry; (entry = readdir(d)) != NULL;) {
        if (ls_text_same(entry->d_name, ".") || ls_text_same(entry->d_name, "..")) continue;
        n++;
        if (delete) unlink(ls_arena_printf(a, "%s/%s", folder, entry->d_name));
    }
    ls_arena_free(a);
    closedir(d);
    return n;
}

size_t test_folder_count(const char *folder) { return each_file(folder, false); }

void test_folder_end(const char *folder) {
    each_file(folder, true);
    rmdir(folder);
}
