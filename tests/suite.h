/* What every test file uses. A file tests/test_SUBJECT.c ends with
 *
 *     TEST_SUITE(subject) = {{"what is tested", test_function}, CU_TEST_INFO_NULL};
 *
 * and tests/main.c names it in its one table: X(subject). */
#pragma once

#include "littershed/base.h"

#include <CUnit/CUnit.h>

#define TEST_SUITE(subject)                                                                                            \
    extern CU_TestInfo suite_##subject[];                                                                              \
    CU_TestInfo suite_##subject[]

/* got lies within want x (1 +/- tolerance); a want of 0 takes the tolerance as it is. NaN fails.
 * Says got and want. */
#define TEST_NEAR(got, want, tolerance) test_near((got), (want), (tolerance), __FILE__, __LINE__)
/* The same whole number; the same text (NULL only like NULL). Say got and want. */
#define TEST_SAME(got, want) test_same((long long)(got), (long long)(want), __FILE__, __LINE__)
#define TEST_TEXT(got, want) test_text((got), (want), __FILE__, __LINE__)
/* part stands in text. Says the text. */
#define TEST_HOLDS(text, part) test_holds((text), (part), __FILE__, __LINE__)

void test_near(double got, double want, double tolerance, const char *file, unsigned line);
void test_same(long long got, long long want, const char *file, unsigned line);
void test_text(const char *got, const char *want, const char *file, unsigned line);
void test_holds(const char *text, const char *part, const char *file, unsigned line);

/* What ls_diag_print prints, in the arena. */
const char *test_messages(ls_arena *a, const ls_diag *d);

/* How a call ended: its exit status (128 + the signal if one killed it) and what it wrote, in the
 * arena, NUL-terminated. */
typedef struct {
    int status;
    const char *out, *err;
    size_t out_size, err_size;
} test_run;

/* Run call(context) in a copy of this process, where it may exit or crash, with input as its
 * standard input (NULL: none). Its result is the exit status. */
test_run test_call(ls_arena *a, int (*call)(void *context), void *context, const char *input);

/* How many a loop over random cases takes: few, unless the environment names more, as .ci/run does
 * where there is time. */
uint64_t test_count(const char *variable, uint64_t few);

/* A new empty folder for the files of a test, its path in the arena; and its end, with all files in
 * it (no folders). */
const char *test_folder(ls_arena *a);
void test_folder_end(const char *folder);
/* The number of files in a folder, those that begin with a dot counted too. */
size_t test_folder_count(const char *folder);
