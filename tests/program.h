/* Running the whole program within the test. */
#pragma once

#include "suite.h"

#define DEMO_HOUSE "fixtures/demo-house.yaml"
#define DEMO_FIELDS "fixtures/demo-fields.yaml"
#define DEMO DEMO_HOUSE, DEMO_FIELDS
/* One block of draws: enough where the digits of ranges do not matter. */
#define FEW "--draws", "10000"

/* littershed with these arguments: its exit code, what it wrote to out and to err. */
#define PROGRAM(a, ...) test_program((a), (const char *const[]){__VA_ARGS__, NULL})
test_run test_program(ls_arena *a, const char *const *arguments);

/* A file in the folder with this text; its path. And the whole of a file as text, NULL if it is not
 * there. */
const char *test_file(ls_arena *a, const char *folder, const char *name, const char *text);
const char *test_file_text(ls_arena *a, const char *path);
/* A starter file with an example in each place to fill in, all its parts in use. */
const char *test_starter(ls_arena *a, int bird);

/* text with each old replaced by new. */
const char *test_replace(ls_arena *a, const char *text, const char *old, const char *new);

/* The demo's houses without its trucks, as a file in the folder. */
const char *test_without_trucks(ls_arena *a, const char *folder);

/* Words of the page that stand in one piece when its lines are joined; blanks are single. */
const char *test_joined(ls_arena *a, const char *page);

/* No line of the page is wider than 80 columns, none ends in a blank, and no control character is
 * in it. */
void test_fits(const char *page);
