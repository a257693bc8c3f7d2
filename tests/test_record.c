/* The haul log: its lines, its mistakes, and that nothing in it is ever lost. */
#include "suite.h"

#include "littershed/record.h"

#include <math.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* ---- a log in a folder of its own ---- */

typedef struct {
    ls_arena *arena;
    ls_diag *diag;
    const char *folder, *path;
} world;

static world begin(void) {
    world t = {.arena = ls_arena_new()};
    t.diag = ls_diag_new(t.arena);
    t.folder = test_folder(t.arena);
    t.path = ls_arena_printf(t.arena, "%s/farm.haul.csv", t.folder);
    return t;
}

static void end(world *t) {
    test_folder_end(t->folder);
    ls_arena_free(t->arena);
}

static void put(world *t, const char *text, size_t n) {
    const char *why;
    CU_ASSERT_TRUE(ls_file_write(t->arena, t->path, text, n, &why));
}

static const char *bytes_of(world *t, const char *path) {
    FILE *f = fopen(path, "rb");
    if (f == NULL) return NULL;
    char *s = LS_NEW(t->arena, char, 100000);
    size_t n = fread(s, 1, 99999, f);
    s[n] = '\0';
    fclose(f);
    return s;
}

static ls_log_entry entry_of(world *t, const char *ticket, double tons) {
    ls_log_entry e = {.tons = tons * 2000, .weighed = true, .cleared = NAN, .acres = NAN};
    const char *either;
    for (int i = 0; i < LS_LOG_WORDS; i++) e.words[i] = "";
    CU_ASSERT_EQUAL(ls_ticket_read(t->arena, ticket, &e.ticket), LS_TICKET_OK);
    CU_ASSERT_TRUE(ls_when_parse(t->arena, "2026-02-16T10:00", &e.when, &either));
    return e;
}

/* The number of the first; 0: they were refused. */
static long append_all(world *t, const ls_log_entry *e, size_t n) {
    ls_log_book *book;
    const char *why = NULL;
    long number = 0;
    if (ls_log_open(t->arena, t->diag, t->path, &book, &why) != LS_LOG_DONE) return 0;
    if (ls_log_append(book, e, n, &number, &why) != LS_LOG_DONE) number = 0;
    ls_log_close(book);
    return number;
}

static long append(world *t, const ls_log_entry *e) { return append_all(t, e, 1); }

#define OLD_COLUMNS                                                                                                    \
    "entry,replaces,ticket,when,tons,weighed,cleared,field,truck,driver,received_by,analysis,"                         \
    "incorporated,weather_before,weather,weather_after,soil,note"
#define OLD_HEADER OLD_COLUMNS "\r\n"
#define HEADER OLD_COLUMNS ",confirmed,acres,certainty,planned,loads,price,batch,kind\r\n"
#define OLD_ROW_1 "1,,NORTH-LEFT-01-Q,2026-02-16T10:00,8.7,yes,,,,,,,,,,,,\r\n"
#define ROW_1 "1,,NORTH-LEFT-01-Q,2026-02-16T10:00,8.7,yes,,,,,,,,,,,,,,,,,,,,hauled\r\n"

/* ---- parts of an entry ---- */

/* The Global Release Identifier's published example, which uses ISO 7064 MOD 37,36:
 * A1-2425G-ABC1234002-M (from memory). */
static void check_character(void) { TEST_SAME(ls_check_character("A1-2425G-ABC1234002"), 'M'); }

static void tickets(void) {
    world t = begin();
    ls_ticket ticket;
    TEST_SAME(ls_ticket_read(t.arena, "north-left-01-q", &ticket), LS_TICKET_OK);
    TEST_TEXT(ticket.text, "NORTH-LEFT-01-Q");
    TEST_TEXT(ticket.code, "NORTH-LEFT");
    TEST_TEXT(ticket.number, "01");
    CU_ASSERT_FALSE(ticket.from_stack);
    TEST_SAME(ls_ticket_read(t.arena, "NORTH-LEFT-S01-7", &ticket), LS_TICKET_OK);
    CU_ASSERT_TRUE(ticket.from_stack);
    static const char *const slips[] = {"NORTH-LEFT-01-R", "NORTH-LEFT-10-Q", "NORTH-LEFT-02-Q"};
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++)
        TEST_SAME(ls_ticket_read(t.arena, slips[i], &ticket), LS_TICKET_SLIP);
    static const char *const none[] = {"",       "NORTH",   "NORTH-LEFT", "01-Q",   "-01-Q",         "N-1-Q",
                                       "N-00-Q", "N-001-Q", "N-01-QQ",    "N 01 Q", "N-01-\xC3\xA4", "=N-01-Q"};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++)
        TEST_SAME(ls_ticket_read(t.arena, none[i], &ticket), LS_TICKET_FORM);
    end(&t);
}

static void times(void) {
    world t = begin();
    ls_when when;
    const char *either;
    static const char *const good[] = {"2026-02-16", "2026-02-16T00:00", "2026-02-16T23:59"};
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
        CU_ASSERT_TRUE(ls_when_parse(t.arena, good[i], &when, &either));
        TEST_TEXT(ls_when_text(t.arena, when), good[i]);
    }
    static const char *const others[] = {"2/16/2026", "2/16/26 12:05 AM", "16.02.2026 0:05", "2026-2-16 00:05:00",
                                         "2026/02/16"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        CU_ASSERT_TRUE(ls_when_parse(t.arena, others[i], &when, &either));
        TEST_SAME(when.day, ls_date_of(2026, 2, 16));
        CU_ASSERT_TRUE(when.minute == -1 || when.minute == 5);
    }
    static const char *const bad[] = {
        "",         "2026-02-30",    "2026-02-16T24:00",    "2026-02-16T10:60",  "2026-02-16T10:00Z",
        "3/4/2026", "13/13/2026",    "2/16/2026 13:00 PM",  "2/16/2026 0:30 AM", "16-02-26",
        "2/16",     "2026-02-16T10", "2026-02-16 10:00:61", "20/02/26"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        CU_ASSERT_FALSE(ls_when_parse(t.arena, bad[i], &when, &either));
    CU_ASSERT_FALSE(ls_when_parse(t.arena, "3/4/2026 9:06", &when, &either));
    TEST_TEXT(either, "2026-03-04T09:06 or 2026-04-03T09:06");
    end(&t);
}

static void shares(void) {
    world t = begin();
    double share;
    CU_ASSERT_TRUE(ls_log_share_parse("all", &share));
    TEST_NEAR(share, 1, 0);
    CU_ASSERT_TRUE(ls_log_share_parse("40 %", &share));
    TEST_NEAR(share, 0.4, 1e-15);
    TEST_TEXT(ls_log_share_text(t.arena, share), "40 %");
    TEST_TEXT(ls_log_share_text(t.arena, NAN), "");
    static const char *const bad[] = {"", "0 %", "101 %", "40", "-4 %", "half", "40 % x"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) CU_ASSERT_FALSE(ls_log_share_parse(bad[i], &share));
    end(&t);
}

/* ---- the file ---- */

static void beside_the_farm_file(void) {
    ls_arena *a = ls_arena_new();
    TEST_TEXT(ls_log_path(a, "x/farm.yaml"), "x/farm.haul.csv");
    TEST_TEXT(ls_log_path(a, "farm.yml"), "farm.haul.csv");
    TEST_TEXT(ls_log_path(a, "farm"), "farm.haul.csv");
    ls_arena_free(a);
}

static void first_entry(void) {
    world t = begin();
    ls_log_entry e = entry_of(&t, "NORTH-LEFT-01-Q", 8.7);
    TEST_SAME(append(&t, &e), 1);
    TEST_TEXT(bytes_of(&t, t.path), HEADER ROW_1);
    TEST_TEXT(bytes_of(&t, ls_log_copy_path(t.arena, t.path)), HEADER ROW_1);
    TEST_SAME(test_folder_count(t.folder), 2);
    const ls_log *log = ls_log_read(t.arena, t.diag, t.path);
    CU_ASSERT_PTR_NOT_NULL_FATAL(log);
    TEST_SAME(log->entries.n, 1);
    TEST_NEAR(log->entries.at[0].tons, 17400, 1e-12);
    CU_ASSERT_TRUE(isnan(log->entries.at[0].cleared));
    end(&t);
}

/* Texts that RFC 4180 quotes, that a spreadsheet would run, and that hold apostrophes already. */
static void texts_come_back(void) {
    static const char *const texts[] = {
        "plain", "a,b",      "say \"yes\"", "two\nlines",           "=1+1",     "+1", "-1",        "@x", "'=1+1",
        "''=1",  "'quoted'", "\ttab",       "\xC3\xA4\xE2\x82\xAC", " blanks ", "\"", "=\"a\",b\n"};
    world t = begin();
    size_t n = sizeof texts / sizeof *texts;
    for (size_t i = 0; i < n; i++) {
        ls_log_entry e = entry_of(&t, "NORTH-LEFT-01-Q", 8.7);
        e.words[LS_LOG_NOTE] = texts[i];
        e.words[LS_LOG_DRIVER] = texts[n - 1 - i];
        TEST_SAME(append(&t, &e), i + 1);
    }
    unlink(ls_log_copy_path(t.arena, t.path));
    const ls_log *log = ls_log_read(t.arena, t.diag, t.path);
    CU_ASSERT_PTR_NOT_NULL_FATAL(log);
    for (size_t i = 0; i < n; i++) {
        TEST_TEXT(log->entries.at[i].words[LS_LOG_NOTE], texts[i]);
        TEST_TEXT(log->entries.at[i].words[LS_LOG_DRIVER], texts[n - 1 - i]);
    }
    const char *bytes = bytes_of(&t, t.path);
    CU_ASSERT_PTR_NULL(strstr(bytes, ",=1"));
    CU_ASSERT_PTR_NULL(strstr(bytes, ",\"="));
    end(&t);
}

static void texts_that_do_not_fit(void) {
    ls_arena *a = ls_arena_new();
    char *long_text = LS_NEW(a, char, 1002);
    memset(long_text, 'x', 1001);
    CU_ASSERT_FALSE(ls_log_fits(a, long_text));
    long_text[1000] = '\0';
    CU_ASSERT_TRUE(ls_log_fits(a, long_text));
    static const char *const bad[] = {"\x1b[31m", "\xE2\x80\xAE", "\xFF", "\a", "\r"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) CU_ASSERT_FALSE(ls_log_fits(a, bad[i]));
    ls_arena_free(a);
}

static void corrections(void) {
    world t = begin();
    ls_log_entry e = entry_of(&t, "NORTH-LEFT-01-Q", 8.7);
    append(&t, &e);
    e.tons = 9 * 2000;
    e.replaces = 1;
    TEST_SAME(append(&t, &e), 2);
    e.tons = 0;
    e.replaces = 2;
    TEST_SAME(append(&t, &e), 3);
    const ls_log *log = ls_log_read(t.arena, t.diag, t.path);
    CU_ASSERT_PTR_NOT_NULL_FATAL(log);
    TEST_SAME(log->entries.at[0].replaced_by, 2);
    TEST_SAME(log->entries.at[1].replaced_by, 3);
    for (size_t i = 0; i < 3; i++) CU_ASSERT_FALSE(ls_log_stands(&log->entries.at[i]));
    end(&t);
}

/* The log is cut off behind n bytes of a row: it does not count, the rest is told, kept beside the
 * log by the next entry, and lost never. */
static void torn_behind(const char *whole, const char *row, size_t n) {
    world t = begin();
    const char *bytes = ls_arena_printf(t.arena, "%s%.*s", whole, (int)n, row);
    put(&t, bytes, strlen(bytes));
    const ls_log *log = ls_log_read(t.arena, t.diag, t.path);
    CU_ASSERT_PTR_NOT_NULL_FATAL(log);
    TEST_SAME(log->entries.n, 1);
    TEST_SAME(log->unfinished, n);
    TEST_SAME(ls_diag_count(t.diag, LS_WARNING), 1);
    ls_log_entry e = entry_of(&t, "NORTH-LEFT-03-M", 8.5);
    TEST_SAME(append(&t, &e), 2);
    const char *torn = bytes_of(&t, ls_arena_printf(t.arena, "%s.torn", t.path));
    CU_ASSERT_PTR_NOT_NULL_FATAL(torn);
    CU_ASSERT_TRUE(strncmp(torn, row, n) == 0 && strcmp(torn + n, "\r\n") == 0);
    log = ls_log_read(t.arena, t.diag, t.path);
    TEST_SAME(log->entries.n, 2);
    TEST_SAME(log->unfinished, 0);
    end(&t);
}

/* With a kind a line is whole, its line end may be missing: an editor took it. */
static void torn_at_every_byte(void) {
    static const char old_row[] = "2,,NORTH-LEFT-02-O,2026-02-16T11:00,8.6,yes,,,,,,,,,,,,\"a\nb\"\r\n",
                      row[] = "2,,NORTH-LEFT-02-O,2026-02-16T11:00,8.6,yes,,,,,,,,,,,,\"a\nb\",,,,"
                              ",,,,hauled\r\n";
    size_t all_cells = (size_t)(strchr(old_row, '"') - old_row);
    for (size_t n = 1; n < sizeof old_row - 3; n++)
        if (n != all_cells) torn_behind(OLD_HEADER OLD_ROW_1, old_row, n);
    for (size_t n = 1; n < sizeof row - 3; n++) torn_behind(HEADER ROW_1, row, n);
    for (size_t n = sizeof row - 3; n < sizeof row; n++) {
        world t = begin();
        const char *bytes = ls_arena_printf(t.arena, "%s%.*s", HEADER ROW_1, (int)n, row);
        put(&t, bytes, strlen(bytes));
        ls_log_entry e = entry_of(&t, "NORTH-LEFT-03-M", 8.5);
        TEST_SAME(append(&t, &e), 3);
        TEST_TEXT(bytes_of(&t, t.path),
                  ls_arena_printf(t.arena, "%s%s%s", HEADER ROW_1, row,
                                  "3,,NORTH-LEFT-03-M,2026-02-16T10:00,8.5,yes,,,,,,,,,,,,,,,,,,,,"
                                  "hauled\r\n"));
        TEST_SAME(ls_diag_count(t.diag, LS_WARNING), 0);
        end(&t);
    }
}

/* Lines written together count together: all of them, or none if the last are missing. */
static void torn_batch(void) {
    world t = begin();
    ls_log_entry all[4] = {entry_of(&t, "NORTH-LEFT-01-Q", 8.7), entry_of(&t, "NORTH-LEFT-01-Q", 8.5),
                           entry_of(&t, "NORTH-LEFT-02-O", 8.6), entry_of(&t, "NORTH-LEFT-03-M", 8.4)};
    all[1].replaces = 1;
    TEST_SAME(append_all(&t, all, 1), 1);
    TEST_SAME(append_all(&t, all + 1, 3), 2);
    const char *whole = bytes_of(&t, t.path);
    size_t n = strlen(whole), first = strlen(HEADER ROW_1);
    TEST_HOLDS(whole, ",3 of 3,hauled\r\n");
    for (size_t cut = first; cut < n; cut += strcspn(whole + cut, "\n") + 1) { /* beside its copy */
        put(&t, whole, cut);
        const ls_log *log = ls_log_read(t.arena, t.diag, t.path);
        CU_ASSERT_PTR_NOT_NULL_FATAL(log);
        TEST_SAME(log->entries.n, 4);
        size_t left = 0;
        for (const char *s = whole + cut; (s = strchr(s, '\n')) != NULL; s++) left++;
        TEST_SAME(log->lost, left);
        TEST_SAME(log->unfinished, 0);
    }
    unlink(ls_log_copy_path(t.arena, t.path));
    for (size_t cut = first + 1; cut < n - 2; cut += 7) {
        put(&t, whole, cut);
        const ls_log *log = ls_log_read(t.arena, t.diag, t.path);
        CU_ASSERT_PTR_NOT_NULL_FATAL(log);
        TEST_SAME(log->entries.n, 1);
        TEST_SAME(log->entries.at[0].replaced_by, 0);
        TEST_SAME(log->unfinished, cut - first);
    }
    TEST_SAME(append_all(&t, all + 2, 1), 2);
    TEST_HOLDS(bytes_of(&t, ls_log_torn_path(t.arena, t.path)), ",1 of 3,correction\r\n");
    end(&t);
}

/* Rows of an older program stay as they are; the first new one gets a header row of its own. */
static void newer_columns(void) {
    world t = begin();
    put(&t, OLD_HEADER OLD_ROW_1, strlen(OLD_HEADER OLD_ROW_1));
    ls_log_entry e = entry_of(&t, "NORTH-LEFT-02-O", 8.6);
    e.acres = 3 * 43560;
    e.kind = LS_LOG_ISSUED;
    e.sure = LS_LOG_LIKELY;
    e.planned = ls_date_of(2026, 2, 18);
    TEST_SAME(append(&t, &e), 2);
    e.kind = LS_LOG_HAULED;
    TEST_SAME(append(&t, &e), 3);
    TEST_TEXT(bytes_of(&t, t.path), OLD_HEADER OLD_ROW_1 HEADER
              "2,,NORTH-LEFT-02-O,2026-02-16T10:00,8.6,yes,,,,,,,,,,,,,,3,likely,2026-02-18,,,,issued\r\n"
              "3,,NORTH-LEFT-02-O,2026-02-16T10:00,8.6,yes,,,,,,,,,,,,,,3,,,,,,hauled\r\n");
    const ls_log *log = ls_log_read(t.arena, t.diag, t.path);
    CU_ASSERT_PTR_NOT_NULL_FATAL(log);
    TEST_NEAR(log->entries.at[2].acres, 3 * 43560, 1e-9);
    CU_ASSERT_TRUE(ls_log_stands(&log->entries.at[0]) && ls_log_stands(&log->entries.at[2]));
    CU_ASSERT_FALSE(ls_log_stands(&log->entries.at[1]));
    end(&t);
}

/* A header cut off: nothing was recorded yet. */
static void torn_header(void) {
    world t = begin();
    put(&t, HEADER, 20);
    ls_log_entry e = entry_of(&t, "NORTH-LEFT-01-Q", 8.7);
    TEST_SAME(append(&t, &e), 1);
    TEST_TEXT(bytes_of(&t, t.path), HEADER ROW_1);
    end(&t);
}

/* A spreadsheet may save it with LF and a byte order mark. */
static void saved_by_another_program(void) {
    world t = begin();
    const char text[] = "\xEF\xBB\xBF"
                        "entry,replaces,ticket,when,tons,weighed,cleared,field,truck,driver,"
                        "received_by,analysis,incorporated,weather_before,weather,weather_after,"
                        "soil,note\n1,,NORTH-LEFT-01-Q,2026-02-16,8.7,no,all,,,,,,,,,,,\n";
    put(&t, text, sizeof text - 1);
    const ls_log *log = ls_log_read(t.arena, t.diag, t.path);
    CU_ASSERT_PTR_NOT_NULL_FATAL(log);
    TEST_SAME(log->entries.n, 1);
    TEST_NEAR(log->entries.at[0].cleared, 1, 0);
    end(&t);
}

static void mistakes_are_told_where_they_stand(void) {
    static const struct {
        const char *row, *told;
    } bad[] = {
        {"2,,NORTH-LEFT-01-Q,2026-02-16,8.7,yes,,,,,,,,,,,,\r\n", "2:1: error: entry 1"},
        {"1,1,NORTH-LEFT-01-Q,2026-02-16,8.7,yes,,,,,,,,,,,,\r\n", "2:3: error: there is no such"},
        {"1,,NORTH-LEFT-01-R,2026-02-16,8.7,yes,,,,,,,,,,,,\r\n", "2:4: error: the check"},
        {"1,,NORTH-LEFT-01-Q,2026-02-31,8.7,yes,,,,,,,,,,,,\r\n", "2:20: error: this is no day"},
        {"1,,NORTH-LEFT-01-Q,2026-02-16,-8,yes,,,,,,,,,,,,\r\n", "2:31: error: tons"},
        {"1,,NORTH-LEFT-01-Q,2026-02-16,1e3,yes,,,,,,,,,,,,\r\n", "2:31: error: tons"},
        {"1,,NORTH-LEFT-01-Q,2026-02-16,0,yes,,,,,,,,,,,,\r\n", "2:31: error: a load of 0"},
        {"1,,NORTH-LEFT-01-Q,2026-02-16,8,maybe,,,,,,,,,,,,\r\n", "2:33: error: weighed"},
        {"1,,NORTH-LEFT-01-Q,2026-02-16,8,yes,half,,,,,,,,,,,\r\n", "2:37: error: cleared"},
        {"1,,NORTH-LEFT-01-Q,2026-02-16,8.7,yes\r\n", "2:1: error: this line has 6 cells"},
        {"1,,NORTH-LEFT-01-Q,2026-02-16,8.7,yes,,,,,,,,,,,,\x1b\r\n", "note: a character"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        world t = begin();
        const char *text = ls_arena_printf(t.arena, "%s%s", OLD_HEADER, bad[i].row);
        put(&t, text, strlen(text));
        CU_ASSERT_PTR_NULL(ls_log_read(t.arena, t.diag, t.path));
        TEST_HOLDS(test_messages(t.arena, t.diag), bad[i].told);
        ls_log_entry e = entry_of(&t, "NORTH-LEFT-01-Q", 8.7);
        TEST_SAME(append(&t, &e), 0); /* nothing is added to what cannot be read */
        TEST_TEXT(bytes_of(&t, t.path), text);
        end(&t);
    }
}

/* Signs that may be a decimal point or stand between thousands: by the other cells, or refused. */
static void signs_in_numbers(void) {
    static const struct {
        const char *first, *second;
        double tons; /* of the second; 0: refused */
    } of[] = {{"8.7", "8.125", 8.125},   {"\"8,7\"", "8.125", 0}, {"\"8,7\"", "\"8,125\"", 8.125},
              {"8.7", "\"8,125\"", 0},   {"8", "\"8,125\"", 0},   {"8", "8.125", 8.125},
              {"8", "\"0,125\"", 0.125}, {"8", "8125", 0}};
    for (size_t i = 0; i < sizeof of / sizeof *of; i++) {
        world t = begin();
        const char *text = ls_arena_printf(t.arena,
                                           "%s1,,NORTH-LEFT-01-Q,2026-02-16,%s,yes,,,,,,,,,,,,\r\n"
                                           "2,,NORTH-LEFT-02-O,2026-02-16,%s,yes,,,,,,,,,,,,\r\n",
                                           OLD_HEADER, of[i].first, of[i].second);
        put(&t, text, strlen(text));
        const ls_log *log = ls_log_read(t.arena, t.diag, t.path);
        CU_ASSERT_EQUAL(log != NULL, of[i].tons > 0);
        if (log != NULL)
            TEST_NEAR(log->entries.at[1].tons, of[i].tons * 2000, 1e-12);
        else
            TEST_HOLDS(test_messages(t.arena, t.diag), ":3:31: error: ");
        end(&t);
    }
}

static void no_log_at_all(void) {
    world t = begin();
    put(&t, "a,b\r\n1,2\r\n", 10);
    CU_ASSERT_PTR_NULL(ls_log_read(t.arena, t.diag, t.path));
    TEST_HOLDS(test_messages(t.arena, t.diag), "this is no haul log");
    end(&t);
}

/* A correction that replaces what was replaced before would leave two entries standing. */
static void nothing_is_replaced_twice(void) {
    world t = begin();
    const char text[] = OLD_HEADER OLD_ROW_1 "2,1,NORTH-LEFT-01-Q,2026-02-16,8.8,yes,,,,,,,,,,,,\r\n"
                                             "3,1,NORTH-LEFT-01-Q,2026-02-16,8.9,yes,,,,,,,,,,,,\r\n";
    put(&t, text, sizeof text - 1);
    CU_ASSERT_PTR_NULL(ls_log_read(t.arena, t.diag, t.path));
    TEST_HOLDS(test_messages(t.arena, t.diag), "4:3: error: entry 1 is replaced by entry 2");
    end(&t);
}

/* A folder instead of a file, and a folder that is not there. */
static void places_that_hold_no_log(void) {
    world t = begin();
    const char *why = NULL;
    ls_log_book *book;
    const char *gone = ls_arena_printf(t.arena, "%s/none/farm.haul.csv", t.folder);
    TEST_SAME(ls_log_open(t.arena, t.diag, gone, &book, &why), LS_LOG_FAILED);
    TEST_TEXT(why, "there is no such folder");
    TEST_SAME(ls_log_open(t.arena, t.diag, t.folder, &book, &why), LS_LOG_FAILED);
    TEST_TEXT(why, "this is a folder, not a file");
    end(&t);
}

/* A log that was opened and got no entry leaves no file behind. */
static void nothing_recorded_leaves_nothing(void) {
    world t = begin();
    const char *why;
    ls_log_book *book;
    TEST_SAME(ls_log_open(t.arena, t.diag, t.path, &book, &why), LS_LOG_DONE);
    ls_log_close(book);
    TEST_SAME(test_folder_count(t.folder), 0);
    end(&t);
}

TEST_SUITE(record) = {
    {"check character of a published number", check_character},
    {"ticket numbers", tickets},
    {"days and times", times},
    {"shares", shares},
    {"the log stands beside the farm file", beside_the_farm_file},
    {"the first entry", first_entry},
    {"texts come back as they were", texts_come_back},
    {"texts that do not fit", texts_that_do_not_fit},
    {"corrections", corrections},
    {"a line torn at every byte", torn_at_every_byte},
    {"a torn header", torn_header},
    {"a torn batch", torn_batch},
    {"newer columns", newer_columns},
    {"a log saved by another program", saved_by_another_program},
    {"mistakes are told where they stand", mistakes_are_told_where_they_stand},
    {"signs in numbers", signs_in_numbers},
    {"no log at all", no_log_at_all},
    {"nothing is replaced twice", nothing_is_replaced_twice},
    {"places that hold no log", places_that_hold_no_log},
    {"nothing recorded leaves nothing", nothing_recorded_leaves_nothing},
    CU_TEST_INFO_NULL,
};
