/* Reading and writing whole files. */
#include "suite.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

static const char *in_folder(ls_arena *a, const char *folder, const char *name) {
    return ls_arena_printf(a, "%s/%s", folder, name);
}

static bool written(ls_arena *a, const char *path, const char *text) {
    const char *why = NULL;
    bool done = ls_file_write(a, path, text, strlen(text), &why);
    CU_ASSERT(done || why != NULL);
    return done;
}

static const char *content(ls_arena *a, const char *path) {
    ls_diag *d = ls_diag_new(a);
    int32_t file = ls_file_read(a, d, path);
    return file < 0 ? NULL : ls_diag_input_at(d, file)->text;
}

static unsigned mode_of(const char *path) {
    struct stat about = {0};
    stat(path, &about);
    return about.st_mode & 07777;
}

static void test_write(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *path = in_folder(a, folder, "out"), *link = in_folder(a, folder, "link");
    mode_t mask = umask(027);
    CU_ASSERT(written(a, path, "first"));
    umask(mask);
    TEST_SAME(mode_of(path), 0640);
    chmod(path, 0604);
    CU_ASSERT(written(a, path, "second, longer"));
    TEST_TEXT(content(a, path), "second, longer");
    TEST_SAME(mode_of(path), 0604);
    TEST_SAME(symlink("out", link), 0);
    CU_ASSERT(written(a, link, "third"));
    TEST_TEXT(content(a, path), "third"); /* the link is kept, the file behind it replaced */
    TEST_SAME(test_folder_count(folder), 2);
    CU_ASSERT(written(a, path, ""));
    TEST_TEXT(content(a, path), "");
    CU_ASSERT(written(a, "/dev/null", "gone")); /* a device is not replaced */
    struct stat about = {0};
    stat("/dev/null", &about);
    CU_ASSERT(S_ISCHR(about.st_mode));
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A link to a file that is not there yet makes that file, through as many links as there are; one
 * into a folder that is not there, or round in a circle, is left alone. */
static void test_dangling(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *why = NULL;
    const char *link = in_folder(a, folder, "link"), *next = in_folder(a, folder, "next");
    const char *lost = in_folder(a, folder, "lost"), *round = in_folder(a, folder, "round");
    TEST_SAME(symlink("next", link) + symlink("new", next) + symlink("none/new", lost) + symlink("round", round), 0);
    TEST_TEXT(ls_file_target(a, link), ls_file_target(a, in_folder(a, folder, "new")));
    CU_ASSERT(written(a, link, "made"));
    TEST_TEXT(content(a, in_folder(a, folder, "new")), "made");
    struct stat about = {0};
    TEST_SAME(lstat(link, &about), 0);
    CU_ASSERT(S_ISLNK(about.st_mode));
    CU_ASSERT(!ls_file_write(a, lost, "x", 1, &why));
    TEST_TEXT(ls_file_unwritable(a, lost), "there is no such folder");
    CU_ASSERT(!ls_file_write(a, round, "x", 1, &why));
    CU_ASSERT_PTR_NOT_NULL(ls_file_unwritable(a, round));
    TEST_SAME(test_folder_count(folder), 5);
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A pipe is not waited for, and nothing but a plain file is read. */
static void test_plain(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *pipe = in_folder(a, folder, "pipe");
    TEST_SAME(mkfifo(pipe, 0600), 0);
    const char *const names[] = {pipe, "/dev/zero", "-"};
    ls_diag *d = ls_diag_new(a);
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) TEST_SAME(ls_file_read_plain(a, d, names[i]), -1);
    const char *text = test_messages(a, d);
    TEST_HOLDS(text, "pipe: error: this is not a plain file\n");
    TEST_HOLDS(text, "/dev/zero: error: this is not a plain file\n");
    TEST_HOLDS(text, "-: error: there is no such file or folder\n");
    test_folder_end(folder);
    ls_arena_free(a);
}

static int write_too_much(void *context) {
    ls_arena *a = ls_arena_new();
    struct rlimit limit = {1000, 1000};
    signal(SIGXFSZ, SIG_IGN);
    setrlimit(RLIMIT_FSIZE, &limit);
    const char *why = "";
    char *bytes = LS_NEW(a, char, 100000);
    bool done = ls_file_write(a, context, bytes, 100000, &why);
    ls_arena_free(a);
    return done ? 0 : 9;
}

static void test_failed_write(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *why = NULL;
    CU_ASSERT(!ls_file_write(a, in_folder(a, folder, "none/out"), "x", 1, &why));
    TEST_TEXT(why, "there is no such file or folder");
    CU_ASSERT(!ls_file_write(a, folder, "x", 1, &why));
    TEST_TEXT(why, "this is a folder, not a file");
    TEST_SAME(test_folder_count(folder), 0);
    char *path = ls_arena_copy(a, in_folder(a, folder, "out"));
    CU_ASSERT(written(a, path, "old"));
    TEST_SAME(test_call(a, write_too_much, path, NULL).status, 9);
    TEST_TEXT(content(a, path), "old");
    TEST_SAME(test_folder_count(folder), 1);
    test_folder_end(folder);
    ls_arena_free(a);
}

static void test_read(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *path = in_folder(a, folder, "in");
    const char *why = NULL;
    CU_ASSERT(ls_file_write(a, path, "a\0b", 3, &why));
    ls_diag *d = ls_diag_new(a);
    int32_t file = ls_file_read(a, d, path);
    TEST_SAME(file, 0);
    TEST_SAME(ls_diag_input_at(d, file)->size, 3);
    TEST_TEXT(ls_diag_input_at(d, file)->name, path);
    CU_ASSERT(memcmp(ls_diag_input_at(d, file)->text, "a\0b", 4) == 0);
    TEST_SAME(ls_file_read(a, d, "no/such.yaml"), -1);
    TEST_SAME(ls_file_read(a, d, "/"), -1);
    TEST_TEXT(test_messages(a, d), "no/such.yaml: error: there is no such file or folder\n"
                                   "/: error: this is a folder, not a file\n");
    test_folder_end(folder);
    ls_arena_free(a);
}

static void test_limit(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a), *path = in_folder(a, folder, "large");
    CU_ASSERT(written(a, path, ""));
    TEST_SAME(truncate(path, LS_MOST_BYTES), 0);
    ls_diag *d = ls_diag_new(a);
    int32_t file = ls_file_read(a, d, path);
    TEST_SAME(file, 0);
    TEST_SAME(ls_diag_input_at(d, file)->size, LS_MOST_BYTES);
    TEST_SAME(truncate(path, LS_MOST_BYTES + 1), 0);
    TEST_SAME(ls_file_read(a, d, path), -1);
    TEST_SAME(ls_file_read(a, d, "/dev/zero"), -1); /* has no end, and no size to look at */
    const char *text = test_messages(a, d);
    TEST_HOLDS(text, "large: error: this file is larger than 16 MiB, the most that is read\n");
    TEST_HOLDS(text, "/dev/zero: error: this file is larger than 16 MiB, the most that is read\n");
    test_folder_end(folder);
    ls_arena_free(a);
}

static int read_standard_input(void *context) {
    (void)context;
    ls_arena *a = ls_arena_new();
    ls_diag *d = ls_diag_new(a);
    const ls_input *input = ls_diag_input_at(d, ls_file_read(a, d, "-"));
    printf("%s: %zu bytes, %s", input->name, input->size, input->text);
    ls_arena_free(a);
    return 0;
}

static int read_pipe(void *context) {
    int ends[2];
    if (pipe(ends) != 0 || write(ends[1], "from a pipe", 11) != 11 || dup2(ends[0], 0) < 0) return 1;
    close(ends[1]);
    return read_standard_input(context);
}

static void test_standard_input(void) {
    ls_arena *a = ls_arena_new();
    TEST_TEXT(test_call(a, read_standard_input, NULL, "farm").out, "standard input: 4 bytes, farm");
    TEST_TEXT(test_call(a, read_pipe, NULL, NULL).out, "standard input: 11 bytes, from a pipe");
    ls_arena_free(a);
}

TEST_SUITE(base_file) = {
    {"write", test_write},
    {"failed write", test_failed_write},
    {"read", test_read},
    {"dangling links", test_dangling},
    {"plain files alone", test_plain},
    {"size limit", test_limit},
    {"standard input", test_standard_input},
    CU_TEST_INFO_NULL,
};
