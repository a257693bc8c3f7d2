/* The copy beside the haul log: what record wrote counts, whatever became of the file. */
#include "suite.h"

#include "littershed/record.h"

#include <math.h>
#include <string.h>
#include <unistd.h>

typedef struct {
    ls_arena *a;
    ls_diag *diag;
    const char *folder, *path, *copy;
} world;

/* A log of three entries: 8.7 ton, 8.6 ton, 8.4 ton in place of the first. */
static world begin(void) {
    static const char *const tickets[] = {"NORTH-LEFT-01-Q", "NORTH-LEFT-02-O", "NORTH-LEFT-01-Q"};
    static const double tons[] = {8.7, 8.6, 8.4};
    world t = {.a = ls_arena_new()};
    t.folder = test_folder(t.a);
    t.path = ls_arena_printf(t.a, "%s/farm.haul.csv", t.folder);
    t.copy = ls_log_copy_path(t.a, t.path);
    t.diag = ls_diag_new(t.a);
    for (int i = 0; i < 3; i++) {
        ls_log_book *book;
        const char *why;
        long number;
        ls_log_entry e = {.tons = tons[i] * 2000,
                          .cleared = NAN,
                          .acres = NAN,
                          .when = {ls_date_of(2026, 2, 16), 600},
                          .replaces = i == 2 ? 1 : 0};
        for (int k = 0; k < LS_LOG_WORDS; k++) e.words[k] = k == LS_LOG_TRUCK ? "07" : "";
        ls_ticket_read(t.a, tickets[i], &e.ticket);
        CU_ASSERT_EQUAL_FATAL(ls_log_open(t.a, t.diag, t.path, &book, &why), LS_LOG_DONE);
        CU_ASSERT_EQUAL(ls_log_append(book, &e, 1, &number, &why), LS_LOG_DONE);
        CU_ASSERT_PTR_NULL(ls_log_copy_fault(book));
        ls_log_close(book);
    }
    return t;
}

static void end(world *t) {
    test_folder_end(t->folder);
    ls_arena_free(t->a);
}

static const char *text_of(world *t, const char *path) {
    ls_diag *d = ls_diag_new(t->a);
    int32_t file = ls_file_read(t->a, d, path);
    return file < 0 ? NULL : ls_diag_input_at(d, file)->text;
}

static void put(world *t, const char *path, const char *text) {
    const char *why;
    CU_ASSERT_TRUE(ls_file_write(t->a, path, text, strlen(text), &why));
}

/* text with the first old replaced by new. */
static const char *with(world *t, const char *text, const char *old, const char *new) {
    const char *at = strstr(text, old);
    CU_ASSERT_PTR_NOT_NULL_FATAL(at);
    return ls_arena_printf(t->a, "%.*s%s%s", (int)(at - text), text, new, at + strlen(old));
}

/* Reads; the messages in told. All three entries count as they were recorded. */
static const ls_log *read_it(world *t, const char **told) {
    t->diag = ls_diag_new(t->a);
    const ls_log *log = ls_log_read(t->a, t->diag, t->path);
    CU_ASSERT_PTR_NOT_NULL_FATAL(log);
    TEST_SAME(log->entries.n, 3);
    TEST_NEAR(log->entries.at[1].tons, 17200, 1e-12);
    TEST_NEAR(log->entries.at[2].tons, 16800, 1e-12);
    TEST_SAME(log->entries.at[0].replaced_by, 3);
    TEST_TEXT(log->entries.at[1].words[LS_LOG_TRUCK], "07");
    *told = test_messages(t->a, t->diag);
    return log;
}

/* The status of opening it to write, with nothing written. */
static ls_log_status open_it(world *t) {
    ls_log_book *book;
    const char *why = NULL;
    t->diag = ls_diag_new(t->a);
    ls_log_status status = ls_log_open(t->a, t->diag, t->path, &book, &why);
    if (status == LS_LOG_DONE) ls_log_close(book);
    return status;
}

/* Appends an entry; its number. */
static long append(world *t, long replaces, double tons, const char **fault) {
    ls_log_book *book;
    const char *why;
    long number = 0;
    t->diag = ls_diag_new(t->a);
    CU_ASSERT_EQUAL_FATAL(ls_log_open(t->a, t->diag, t->path, &book, &why), LS_LOG_DONE);
    ls_log_entry e = ls_log_of(book)->entries.at[1];
    e.replaces = replaces;
    e.tons = tons * 2000;
    CU_ASSERT_EQUAL(ls_log_append(book, &e, 1, &number, &why), LS_LOG_DONE);
    *fault = ls_log_copy_fault(book);
    ls_log_close(book);
    return number;
}

static void nothing_to_tell(void) {
    world t = begin();
    const char *told;
    TEST_TEXT(text_of(&t, t.copy), text_of(&t, t.path));
    TEST_SAME(read_it(&t, &told)->changed.n, 0);
    TEST_TEXT(told, "");
    end(&t);
}

/* A weight edited in place is told until an entry replaces it; a zero that a spreadsheet dropped is
 * none. */
static void edited(void) {
    world t = begin();
    const char *told, *fault;
    const char *log = text_of(&t, t.path);
    put(&t, t.path, with(&t, log, ",8.6,no,,,07,", ",18.6,no,,,7,"));
    const ls_log *now = read_it(&t, &told);
    TEST_SAME(now->changed.n, 1);
    TEST_HOLDS(told, ":3:1: warning: entry 2 differs in the log and its copy; tons: log \"18.6\", "
                     "copy \"8.6\"");
    TEST_HOLDS(told, "--replaces 2");
    TEST_SAME(append(&t, 2, 18.6, &fault), 4);
    t.diag = ls_diag_new(t.a);
    now = ls_log_read(t.a, t.diag, t.path);
    CU_ASSERT_PTR_NOT_NULL_FATAL(now);
    TEST_TEXT(test_messages(t.a, t.diag), "");
    TEST_SAME(now->changed.n, 0);
    TEST_NEAR(now->entries.at[3].tons, 37200, 1e-12);
    put(&t, t.path, with(&t, text_of(&t, t.path), ",8.7,no,", ",9.7,no,"));
    t.diag = ls_diag_new(t.a);
    CU_ASSERT_PTR_NOT_NULL(ls_log_read(t.a, t.diag, t.path)); /* entry 1 is replaced */
    TEST_TEXT(test_messages(t.a, t.diag), "");
    end(&t);
}

/* All that differs of an entry is told, whichever of the two files was edited. */
static void every_cell(void) {
    static const char old[] = "T10:00,8.6,no,,,07,,,,,,,,,,,,,,,,,hauled",
                      new[] = "T10:05,8.6,yes,,,07,,,,,,,,,,,,firm,2026-02-16,,,1 of 1,issued";
    world t = begin();
    const char *log = text_of(&t, t.path), *told;
    put(&t, t.path, with(&t, log, old, new));
    TEST_SAME(read_it(&t, &told)->changed.n, 6);
    TEST_HOLDS(told, "copy; when: log \"2026-02-16T10:05\", copy \"2026-02-16T10:00\"; weighed: log "
                     "\"yes\", copy \"no\"; certainty: log \"firm\", copy \"\"; planned: log "
                     "\"2026-02-16\", copy \"\"; batch: log \"1 of 1\", copy \"\"; kind: log \"issued\", "
                     "copy \"hauled\"");
    put(&t, t.path, log);
    put(&t, t.copy, with(&t, log, old, new));
    TEST_SAME(read_it(&t, &told)->changed.n, 6);
    TEST_HOLDS(told, "kind: log \"hauled\", copy \"issued\"");
    end(&t);
}

/* A spreadsheet writes a day without time as the hour 0. */
static void a_day_without_time(void) {
    world t = begin();
    const char *log = text_of(&t, t.path), *told;
    put(&t, t.copy, with(&t, log, "O,2026-02-16T10:00", "O,2026-02-16"));
    put(&t, t.path, with(&t, log, "O,2026-02-16T10:00", "O,2026-02-16 00:00:00"));
    read_it(&t, &told);
    TEST_TEXT(told, "");
    end(&t);
}

/* Lost as a whole, or from an entry on: all of it counts, and nothing is added until it is back. */
static void lost(void) {
    world t = begin();
    const char *told, *whole = text_of(&t, t.path);
    const char *third = strstr(whole, "\r\n3,") + 2, *second = strstr(whole, "\r\n2,") + 2;
    const char *cut[] = {NULL, "", ls_arena_copy_n(t.a, whole, (size_t)(second - whole)),
                         ls_arena_copy_n(t.a, whole, (size_t)(third - whole))};
    for (size_t i = 0; i < sizeof cut / sizeof *cut; i++) {
        if (cut[i] == NULL)
            unlink(t.path);
        else
            put(&t, t.path, cut[i]);
        TEST_SAME(read_it(&t, &told)->lost, i < 2 ? 3 : i == 2 ? 2 : 1);
        TEST_HOLDS(told, ls_arena_printf(t.a,
                                         "the log lost %d of the entries recorded, up to entry "
                                         "3 (NORTH-LEFT-01-Q, 8.4 tons)",
                                         i < 2    ? 3
                                         : i == 2 ? 2
                                                  : 1));
        TEST_HOLDS(told, ls_arena_printf(t.a, "copy %s over it", t.copy));
        TEST_SAME(open_it(&t), LS_LOG_MISTAKE);
        TEST_TEXT(access(t.path, F_OK) == 0 ? text_of(&t, t.path) : NULL, cut[i]);
    }
    put(&t, t.path, text_of(&t, t.copy));
    read_it(&t, &told);
    TEST_TEXT(told, "");
    TEST_SAME(open_it(&t), LS_LOG_DONE);
    end(&t);
}

/* Cut off anywhere behind what the log wrote (a crash between log and copy): no word of it, and the
 * next entry mends the copy. */
static void behind(void) {
    world t = begin();
    const char *told, *fault, *log = text_of(&t, t.path), *copy = text_of(&t, t.copy);
    for (size_t n = 0; n <= strlen(copy); n += 3) {
        put(&t, t.path, log);
        put(&t, t.copy, ls_arena_copy_n(t.a, copy, n));
        read_it(&t, &told);
        TEST_TEXT(told, "");
        TEST_SAME(append(&t, 0, 8.5, &fault), 4);
        CU_ASSERT_PTR_NULL(fault);
        TEST_TEXT(text_of(&t, t.copy), text_of(&t, t.path));
    }
    put(&t, t.path, log);
    unlink(t.copy); /* an older program kept none */
    read_it(&t, &told);
    TEST_TEXT(told, "");
    TEST_SAME(append(&t, 0, 8.5, &fault), 4);
    TEST_TEXT(text_of(&t, t.copy), text_of(&t, t.path));
    end(&t);
}

/* Saved with CR alone for line ends: the next entry stands behind all others. */
static void carriage_returns(void) {
    world t = begin();
    const char *fault, *told, *log = text_of(&t, t.path);
    for (int whole = 0; whole < 2; whole++) {
        ls_text *mac = ls_text_new(t.a);
        for (const char *s = log; *s != '\0' && (whole || s[2] != '\0'); s++) ls_text_add_n(mac, s, *s != '\n');
        put(&t, t.path, mac->s);
        put(&t, t.copy, log);
        read_it(&t, &told);
        TEST_TEXT(told, "");
        TEST_SAME(append(&t, 0, 8.5, &fault), 4);
        TEST_SAME(access(ls_log_torn_path(t.a, t.path), F_OK), -1);
        TEST_HOLDS(text_of(&t, t.path), "correction\r\n4,,NORTH-LEFT-02-O,");
    }
    end(&t);
}

/* A copy that is none any more is told and left alone; entries are recorded all the same. */
static void spoiled(void) {
    world t = begin();
    const char *told, *fault;
    put(&t, t.copy, "my,notes\r\n1,2\r\n");
    read_it(&t, &told);
    TEST_HOLDS(told, "the copy of the haul log cannot be read: it is no haul log any more");
    TEST_SAME(append(&t, 0, 8.5, &fault), 4);
    CU_ASSERT_PTR_NOT_NULL(fault);
    TEST_TEXT(text_of(&t, t.copy), "my,notes\r\n1,2\r\n");
    end(&t);
}

/* A log that cannot be read is refused, with the way back. */
static void unreadable(void) {
    world t = begin();
    put(&t, t.path, with(&t, text_of(&t, t.path), ",8.6,", ",08.06.2026,"));
    t.diag = ls_diag_new(t.a);
    CU_ASSERT_PTR_NULL(ls_log_read(t.a, t.diag, t.path));
    const char *told = test_messages(t.a, t.diag);
    TEST_HOLDS(told, ":3:37: error: tons should be a number");
    TEST_HOLDS(told, "its 3 entries stand in ");
    TEST_SAME(open_it(&t), LS_LOG_MISTAKE);
    end(&t);
}

TEST_SUITE(record_copy) = {{"nothing to tell", nothing_to_tell},
                           {"edited in place", edited},
                           {"every cell", every_cell},
                           {"a day without time", a_day_without_time},
                           {"lost or shortened", lost},
                           {"behind the log", behind},
                           {"carriage returns", carriage_returns},
                           {"spoiled", spoiled},
                           {"a log that cannot be read", unreadable},
                           CU_TEST_INFO_NULL};
