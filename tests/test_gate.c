/* Whatever -o says, no file that is read, kept or named for a farm is written over; and what a farm
 * file names is a plain file. */
#include "program.h"

#include "littershed/command.h"

#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct {
    ls_arena *a;
    const char *folder, *house, *fields;
} world;

static const char *in(const world *w, const char *name) { return ls_arena_printf(w->a, "%s/%s", w->folder, name); }

/* The demo with a table of its own, a haul log, and two earlier years of which one names files. */
static world begin(void) {
    world w = {.a = ls_arena_new()};
    w.folder = test_folder(w.a);
    const char *house = test_replace(w.a, test_file_text(w.a, DEMO_HOUSE), "farm:\n",
                                     "own_tables: own.yaml\nfarm:\n  earlier: [2024.yml, {file: "
                                     "2025.yaml, fields: 2025f.yaml}]\n");
    w.house = test_file(w.a, w.folder, "h.yaml", house);
    w.fields = test_file(w.a, w.folder, "f.yaml", test_file_text(w.a, DEMO_FIELDS));
    test_file(w.a, w.folder, "own.yaml",
              "sources:\n  - {id: us, who: We, title: Ours}\ntables:\n  - kind: moisture\n    "
              "source: us\n    status: read\n    rows:\n      broiler: {moisture: 25 %}\n");
    test_file(w.a, w.folder, "2025.yaml",
              "farm: {name: F, haul_log: old.csv}\nown_tables: [old-own.yaml]\nhouses:\n  - {name: "
              "A, measured: {depth: {grid: old-grid.csv}}}\n");
    test_file(w.a, w.folder, "2025f.yaml", "own_tables: old-own-2.yaml\n");
    test_file(w.a, w.folder, "2024.yml", "no: [farm");
    return w;
}

static void end(world *w) {
    test_folder_end(w->folder);
    ls_arena_free(w->a);
}

static const char *const guarded[] = {
    "h.yaml",       "f.yaml",       "h.haul.csv",     "h.haul.csv.torn",
    "own.yaml",     "2024.yml",     "2024.haul.csv",  "2024.haul.csv.torn",
    "2025.yaml",    "2025f.yaml",   "2025.haul.csv",  "old.csv",
    "old.csv.torn", "old-own.yaml", "old-own-2.yaml", "old-grid.csv",
};
enum { GUARDED = sizeof guarded / sizeof *guarded };

/* The command does not write to that output, and what was there stays; told holds why. */
static void refuses(const world *w, const char *command, const char *output, const char *told) {
    size_t files = test_folder_count(w->folder);
    const char *before = test_file_text(w->a, output);
    test_run run = PROGRAM(w->a, command, w->house, w->fields, "-o", output);
    TEST_SAME(run.status, LS_USAGE);
    TEST_TEXT(run.out, "");
    TEST_HOLDS(run.err, told);
    const char *after = test_file_text(w->a, output);
    CU_ASSERT((before == NULL) == (after == NULL));
    if (before != NULL && after != NULL) TEST_TEXT(after, before);
    TEST_SAME(test_folder_count(w->folder), files);
}

static const char kept[] = "is one of the files that are read or kept for this farm";

/* Another farm's log, under its usual name or any other: no output goes over records. */
static void another_farms_log(void) {
    world w = begin();
    const char *log = test_file(w.a, w.folder, "another.haul.csv", "anything\n");
    refuses(&w, "estimate", log, kept);
    TEST_SAME(PROGRAM(w.a, "sources", "-o", log).status, LS_USAGE);
    TEST_SAME(PROGRAM(w.a, "record", w.house, w.fields, "--ticket", "NORTH-LEFT-01-Q", "--tons", "8.4", "--field",
                      "stack", "--when", "2026-02-16")
                  .status,
              LS_DONE);
    const char *copy = test_file(w.a, w.folder, "copy.csv", test_file_text(w.a, in(&w, "h.haul.csv")));
    TEST_SAME(PROGRAM(w.a, "schema", "-o", copy).status, LS_USAGE);
    end(&w);
}

/* By the name alone, for files that are not there yet too; then by links of both kinds to those
 * that are. */
static void all_files(void) {
    static const char *const commands[] = {"check",   "estimate", "rates",   "plan",
                                           "tickets", "dossier",  "explain", "sources"};
    world w = begin();
    for (size_t i = 0; i < GUARDED; i++)
        for (size_t k = 0; k < sizeof commands / sizeof *commands; k++)
            refuses(&w, commands[k], in(&w, guarded[i]), kept);
    TEST_SAME(PROGRAM(w.a, "record", w.house, w.fields, "--ticket", "NORTH-LEFT-01-Q", "--tons", "8.4", "--field",
                      "stack", "--when", "2026-02-16")
                  .status,
              LS_DONE);
    for (size_t i = 0; i < GUARDED; i++) {
        const char *soft = in(&w, "soft"), *hard = in(&w, "hard"), *file = in(&w, guarded[i]);
        TEST_SAME(symlink(guarded[i], soft), 0);
        refuses(&w, "estimate", soft, kept);
        TEST_SAME(unlink(soft), 0);
        if (access(file, F_OK) != 0) test_file(w.a, w.folder, guarded[i], "there now");
        TEST_SAME(link(file, hard), 0);
        refuses(&w, "estimate", hard, kept);
        TEST_SAME(unlink(hard), 0);
    }
    refuses(&w, "plan", ls_arena_printf(w.a, "%s/../%s/own.yaml", w.folder, strrchr(w.folder, '/') + 1), kept);
    end(&w);
}

/* A name that leads nowhere is told before anything is read, a kept one before anything is worked
 * out: without fields there are no rates. */
static void at_once(void) {
    world w = begin();
    refuses(&w, "plan", in(&w, "none/page"), "there is no such folder");
    refuses(&w, "plan", in(&w, "page/"), "cannot write");
    refuses(&w, "plan", w.folder, "this is a folder, not a file");
    test_run run = PROGRAM(w.a, "plan", FEW, "no-such.yaml", "-o", in(&w, "none/page"));
    TEST_SAME(run.status, LS_USAGE);
    TEST_SAME(PROGRAM(w.a, "rates", FEW, w.house, "-o", in(&w, "page")).status, LS_MISTAKE);
    TEST_SAME(PROGRAM(w.a, "rates", FEW, w.house, "-o", w.house).status, LS_USAGE);
    end(&w);
}

/* What is no business of the farm's is written, through a link that dangles too. */
static void other_files(void) {
    world w = begin();
    const char *page = in(&w, "page"), *link = in(&w, "link");
    TEST_SAME(symlink("page", link), 0);
    TEST_SAME(PROGRAM(w.a, "estimate", FEW, w.house, "-o", link).status, LS_DONE);
    struct stat about = {0};
    TEST_SAME(lstat(link, &about), 0);
    CU_ASSERT(S_ISLNK(about.st_mode));
    TEST_TEXT(test_file_text(w.a, page), PROGRAM(w.a, "estimate", FEW, w.house).out);
    TEST_SAME(PROGRAM(w.a, "estimate", FEW, w.house, "-o", "/dev/null").status, LS_DONE);
    end(&w);
}

/* ---- standard files ---- */

typedef struct {
    const world *w;
    const char *in, *out; /* files to stand there; "": closed; NULL: as they are */
    const char *arguments[12];
} call;

static int stand_in(const char *path, int fd, int flags) {
    int file = path == NULL ? fd : path[0] == '\0' ? -1 : open(path, flags);
    if (path != NULL && file < 0) return close(fd);
    return file == fd ? 0 : dup2(file, fd);
}

static int run_call(void *context) {
    const call *c = context;
    char *argv[14] = {(char *)"littershed"};
    int argc = 1;
    for (; c->arguments[argc - 1] != NULL; argc++) argv[argc] = ls_arena_copy(c->w->a, c->arguments[argc - 1]);
    stand_in(c->in, STDIN_FILENO, O_RDONLY);
    stand_in(c->out, STDOUT_FILENO, O_WRONLY | O_APPEND);
    return ls_command_main(argc, argv, stdout, stderr);
}

static void standard_files(void) {
    world w = begin();
    const char *before = test_file_text(w.a, w.house);
    const char *plain = test_file(w.a, w.folder, "plain.yaml", test_file_text(w.a, DEMO_HOUSE));
    call over_itself = {&w, plain, NULL, {"check", "-", "-o", plain}};
    test_run run = test_call(w.a, run_call, &over_itself, NULL);
    TEST_SAME(run.status, LS_USAGE);
    TEST_HOLDS(run.err, "(standard input)");
    TEST_TEXT(test_file_text(w.a, plain), test_file_text(w.a, DEMO_HOUSE));
    call onto = {&w, NULL, w.house, {"check", w.house, w.fields}};
    run = test_call(w.a, run_call, &onto, NULL);
    TEST_SAME(run.status, LS_USAGE);
    TEST_HOLDS(run.err, "the output goes into ");
    TEST_TEXT(test_file_text(w.a, w.house), before);
    end(&w);
}

/* An entry whose answer cannot be shown is in the log, and that is said. With the standard output
 * closed the log must not be opened in its place. */
static void logged_all_the_same(void) {
    static const char *const outs[] = {"/dev/full", ""};
    static const char *const tickets[] = {"NORTH-LEFT-01-Q", "NORTH-LEFT-02-O"};
    world w = begin();
    for (size_t i = 0; i < 2; i++) {
        call c = {&w,
                  NULL,
                  outs[i],
                  {"record", w.house, w.fields, "--ticket", tickets[i], "--tons", "8.4", "--field", "stack", "--when",
                   "2026-02-16"}};
        test_run run = test_call(w.a, run_call, &c, NULL);
        TEST_SAME(run.status, LS_SYSTEM);
        TEST_HOLDS(run.err, ls_arena_printf(w.a, "entry %zu IS in %s/h.haul.csv all the same", i + 1, w.folder));
        TEST_HOLDS(run.err, tickets[i]);
    }
    test_run list = PROGRAM(w.a, "record", w.house, w.fields, "--list", "--format", "csv");
    TEST_SAME(list.status, LS_DONE);
    TEST_HOLDS(list.out, tickets[0]);
    TEST_HOLDS(list.out, tickets[1]);
    end(&w);
}

/* A farm read from the standard input keeps no log beside it. */
static void piped(void) {
    world w = begin();
    call c = {&w, NULL, NULL, {"record", "-", "--list"}};
    test_run run = test_call(w.a, run_call, &c, test_file_text(w.a, DEMO_HOUSE));
    TEST_SAME(run.status, LS_USAGE);
    TEST_HOLDS(run.err, "a farm read from the standard input has no haul log");
    end(&w);
}

/* An operand may be a pipe: its writer is waited for. */
static int check_pipe(void *context) {
    const world *w = context;
    const char *pipe = in(w, "pipe"), *text = test_file_text(w->a, DEMO_HOUSE);
    pid_t child = fork();
    if (child == 0) {
        int fd = open(pipe, O_WRONLY);
        _exit(fd < 0 || write(fd, text, strlen(text)) != (ssize_t)strlen(text));
    }
    char *argv[] = {(char *)"littershed", (char *)"check", ls_arena_copy(w->a, pipe), NULL};
    return ls_command_main(3, argv, stdout, stderr);
}

static void operand_pipe(void) {
    world w = begin();
    TEST_SAME(mkfifo(in(&w, "pipe"), 0600), 0);
    test_run run = test_call(w.a, check_pipe, &w, NULL);
    TEST_SAME(run.status, LS_DONE);
    TEST_HOLDS(run.out, "\n  North");
    end(&w);
}

/* ---- files that are named ---- */

/* Each place that names a file, with a pipe, a device and a folder in it: told where it is named,
 * and not waited for. */
static void named_files(void) {
    static const char *const names[] = {"pipe", "/dev/zero", "."};
    static const char *const places[] = {"own_tables: %s\n",
                                         "own_tables: [own.yaml, %s]\n",
                                         "farm: {name: F, haul_log: %s}\n",
                                         "farm: {name: F, earlier: [%s]}\n",
                                         "farm: {name: F, earlier: [{file: 2025.yaml, fields: %s}]}\n",
                                         "houses: [{name: A, measured: {depth: {grid: %s}}}]\n"};
    static const char *const commands[] = {"check", "plan", "dossier"};
    world w = begin();
    TEST_SAME(mkfifo(in(&w, "pipe"), 0600), 0);
    for (size_t i = 0; i < sizeof places / sizeof *places; i++)
        for (size_t k = 0; k < 3; k++) {
            const char *at = strchr(places[i], '%');
            size_t n = (size_t)(at - places[i]);
            const char *farm = test_file(w.a, w.folder, "farm.yaml",
                                         ls_arena_printf(w.a, "%.*s%s%s", (int)n, places[i], names[k], at + 2));
            test_run run = PROGRAM(w.a, commands[k], farm);
            TEST_SAME(run.status, LS_MISTAKE);
            TEST_HOLDS(run.err, ls_arena_printf(w.a, "farm.yaml:1:%zu: error: \"", n + 1));
            TEST_HOLDS(run.err, "is not a plain file\n");
        }
    end(&w);
}

TEST_SUITE(gate) = {{"all files of a farm", all_files},
                    {"another farm's log", another_farms_log},
                    {"refused at once", at_once},
                    {"other files", other_files},
                    {"standard files", standard_files},
                    {"logged all the same", logged_all_the_same},
                    {"piped farm", piped},
                    {"a pipe as an operand", operand_pipe},
                    {"named files", named_files},
                    CU_TEST_INFO_NULL};
