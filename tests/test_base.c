/* Arena, text, escaping, names, numbers and dates. */
#include "suite.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static int ask_for_too_much(void *context) {
    ls_arena_alloc(context, SIZE_MAX / 2, 3);
    return 0;
}

static void test_arena(void) {
    ls_arena *a = ls_arena_new();
    ls_arena_mark empty = ls_arena_here(a);
    for (size_t n = 0; n < 300; n++) {
        char *p = LS_NEW(a, char, n);
        CU_ASSERT((uintptr_t)p % _Alignof(max_align_t) == 0);
        for (size_t i = 0; i < n; i++) CU_ASSERT_FATAL(p[i] == 0);
        memset(p, 0x55, n);
    }
    TEST_TEXT(ls_arena_copy_n(a, "litter", 3), "lit");
    TEST_TEXT(ls_arena_printf(a, "%d %s", 7, "loads"), "7 loads");
    ls_arena_mark mark = ls_arena_here(a);
    char *first = LS_NEW(a, char, 10);
    memset(first, 0x55, 10);
    LS_NEW(a, char, 3000000);
    ls_arena_rewind(a, mark);
    char *again = LS_NEW(a, char, 10);
    TEST_SAME(again[9], 0);
    ls_arena_rewind(a, empty);
    CU_ASSERT_PTR_NOT_NULL(LS_NEW(a, char, 5000));
    test_run run = test_call(a, ask_for_too_much, a, NULL);
    TEST_SAME(run.status, 3);
    TEST_TEXT(run.err, "littershed: out of memory\n");
    ls_arena_free(a);
    ls_arena_free(NULL);
}

static void test_list(void) {
    ls_arena *a = ls_arena_new();
    LS_LIST(int) list = {0};
    for (int i = 0; i < 1000; i++) {
        int *new = LS_PUSH(a, &list);
        TEST_SAME(*new, 0);
        *new = i;
    }
    TEST_SAME(list.n, 1000);
    for (int i = 0; i < 1000; i++) CU_ASSERT_FATAL(list.at[i] == i);
    ls_arena_free(a);
}

static void test_building(void) {
    ls_arena *a = ls_arena_new();
    ls_text *t = ls_text_new(a);
    for (int i = 0; i < 100; i++) ls_text_addf(t, "%03d,", i);
    TEST_SAME(t->n, 400);
    TEST_TEXT(t->s + 392, "098,099,");
    t = ls_text_new(a);
    ls_text_left(t, "héns", 6);
    ls_text_right(t, "7", 3);
    ls_text_left(t, "longer", 2);
    TEST_TEXT(t->s, "héns    7longer");
    TEST_SAME(ls_text_columns("héns\xFF"), 5);
    /* East Asian width (Unicode Standard Annex 11): a chicken and a kanji are wide */
    TEST_SAME(ls_text_columns("\U0001F414\u9D8F."), 5);
    TEST_SAME(ls_text_characters("\U0001F414\u9D8F."), 3);
    TEST_SAME(ls_text_bytes("\U0001F414\u9D8F.", 3), 4);
    TEST_TEXT(ls_text_fit(a, "scratch", 7), "scratch");
    TEST_TEXT(ls_text_fit(a, "scrätch!", 7), "scrätc…");
    TEST_TEXT(ls_text_fit(a, "scratch", 1), "…");
    TEST_TEXT(ls_text_fit(a, "scratch", 0), "");
    t = ls_text_new(a);
    ls_text_wrap(t, "  ventilate before\ngoing in: an-extremely-long-word ends", 2, 20);
    TEST_TEXT(t->s, "  ventilate before\n  going in:\n  an-extremely-long-word\n  ends\n");
    ls_text_wrap(t, " ", 2, 20);
    TEST_SAME(t->n, strlen(t->s));
    ls_arena_free(a);
}

static void test_plain(void) {
    ls_arena *a = ls_arena_new();
    TEST_TEXT(ls_text_plain(a, "12 °F, “hay”, 鶏"), "12 °F, “hay”, 鶏");
    TEST_TEXT(ls_text_plain(a, "\x1B[31mred\x7F\n"), "\\x1B[31mred\\x7F\\x0A");
    TEST_TEXT(ls_text_plain(a, "a\u202Eb\u200Bc\uFEFFd\u00ADe"), "a\\u{202E}b\\u{200B}c\\u{FEFF}d\\u{00AD}e");
    TEST_TEXT(ls_text_plain(a, "\xC2\x9B"), "\\u{009B}"); /* the one-character escape of terminals */
    /* RFC 3629: too long forms, surrogates, beyond U+10FFFF, cut off. */
    TEST_TEXT(ls_text_plain(a, "\xC0\xAF"), "\\xC0\\xAF");
    TEST_TEXT(ls_text_plain(a, "\xE0\x80\xAF"), "\\xE0\\x80\\xAF");
    TEST_TEXT(ls_text_plain(a, "\xED\xA0\x80"), "\\xED\\xA0\\x80");
    TEST_TEXT(ls_text_plain(a, "\xF4\x90\x80\x80"), "\\xF4\\x90\\x80\\x80");
    TEST_TEXT(ls_text_plain(a, "x\xF0\x9F\x90"), "x\\xF0\\x9F\\x90");
    TEST_TEXT(ls_text_plain(a, "\U000E0041\U0001F414"), "\\u{E0041}\U0001F414");
    ls_arena_free(a);
}

static void test_html_and_csv(void) {
    ls_arena *a = ls_arena_new();
    TEST_TEXT(ls_text_html(a, "<b a='\"'>R&D\x01</b>\n"), "&lt;b a=&#39;&quot;&#39;&gt;R&amp;D\\x01&lt;/b&gt;\n");
    /* RFC 4180 section 2, rules 5 to 7. */
    TEST_TEXT(ls_text_csv(a, "plain text"), "plain text");
    TEST_TEXT(ls_text_csv(a, "a,b"), "\"a,b\"");
    TEST_TEXT(ls_text_csv(a, "say \"hay\""), "\"say \"\"hay\"\"\"");
    TEST_TEXT(ls_text_csv(a, "two\nlines"), "\"two\nlines\"");
    TEST_TEXT(ls_text_csv(a, " end "), "\" end \"");
    TEST_TEXT(ls_text_csv(a, ""), "");
    TEST_TEXT(ls_text_csv(a, "=1+1"), "'=1+1");
    TEST_TEXT(ls_text_csv(a, "+1"), "'+1");
    TEST_TEXT(ls_text_csv(a, "-1"), "'-1");
    TEST_TEXT(ls_text_csv(a, "@SUM(A1)"), "'@SUM(A1)");
    TEST_TEXT(ls_text_csv(a, "\t=1"), "\"'\t=1\"");
    TEST_TEXT(ls_text_csv(a, "\r=1"), "'\\x0D=1");
    TEST_TEXT(ls_text_csv(a, "\uFF1D1"), "'\uFF1D1");
    TEST_TEXT(ls_text_csv(a, "a=1"), "a=1");
    ls_arena_free(a);
}

static void test_names(void) {
    static const char *const names[] = {"moisture", "depth", "density", "loose_density", "lab"};
    ls_arena *a = ls_arena_new();
    TEST_TEXT(ls_text_slug(a, "Upper Meadow"), "upper_meadow");
    TEST_TEXT(ls_text_slug(a, "--Lot #4 (North)--"), "lot_4_north");
    TEST_TEXT(ls_text_slug(a, "Müller’s"), "müller’s");
    TEST_TEXT(ls_text_slug(a, "##"), "_");
    TEST_TEXT(ls_text_nearest("moistrue", names, 5), "moisture");
    TEST_TEXT(ls_text_nearest("Depht", names, 5), "depth");
    TEST_TEXT(ls_text_nearest("LAB", names, 5), "lab");
    TEST_TEXT(ls_text_nearest("la", names, 5), "lab");
    CU_ASSERT_TRUE(ls_text_among("corn|Field Corn", "field corn"));
    CU_ASSERT_TRUE(ls_text_among("corn|field corn", "Corn"));
    CU_ASSERT_FALSE(ls_text_among("corn|field corn", "field"));
    CU_ASSERT_FALSE(ls_text_among("corn|field corn", "corn|field corn"));
    CU_ASSERT_FALSE(ls_text_among(NULL, "corn"));
    TEST_TEXT(ls_text_nearest("lbs", names, 5), NULL);
    TEST_TEXT(ls_text_nearest("weather", names, 5), NULL);
    TEST_TEXT(ls_text_nearest("", names, 5), NULL);
    /* Published check values of FNV-1a, 64 bits (Fowler, Noll, Vo; from memory). */
    CU_ASSERT(ls_text_hash("") == UINT64_C(0xcbf29ce484222325));
    CU_ASSERT(ls_text_hash("a") == UINT64_C(0xaf63dc4c8601ec8c));
    CU_ASSERT(ls_text_hash("foobar") == UINT64_C(0x85944171f73967e8));
    CU_ASSERT(ls_text_same(NULL, NULL));
    CU_ASSERT(!ls_text_same(NULL, ""));
    ls_arena_free(a);
}

static void reads(const char *s, double want) {
    double v = -1;
    CU_ASSERT(ls_number_parse(s, strlen(s), &v));
    TEST_NEAR(v, want, 0);
}

static void test_numbers_in(void) {
    static const char *const refused[] = {
        "",    "-1", "+1", "1e3",   "0x10", "1_000", "1,000", ".5", "5.",   "nan",
        "inf", " 1", "1 ", "1.2.3", "1..2", "one",   "1e0",   "١",  "1.5x", "1000000000000000.5"};
    reads("0", 0);
    reads("08", 8);
    reads("2.10", 2.10);
    reads("0.1", 0.1); /* the nearest double, as the compiler reads it */
    reads("123456789.123456789", 123456789.123456789);
    reads("0.000000000000000000000000000001", 1e-30);
    reads("1000000000000000", 1e15);
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        double v = 42;
        if (ls_number_parse(refused[i], strlen(refused[i]), &v)) TEST_TEXT(refused[i], "refused");
        TEST_NEAR(v, 42, 0);
    }
    double v = 0;
    CU_ASSERT(ls_number_parse("12345", 2, &v));
    TEST_NEAR(v, 12, 0);
    char many[1200];
    memset(many, '9', sizeof many);
    CU_ASSERT(!ls_number_parse(many, sizeof many, &v));
    CU_ASSERT(!ls_number_parse(many, 17, &v));
    memset(many, '0', sizeof many);
    CU_ASSERT(ls_number_parse(many, 1000, &v));
}

static void test_numbers_out(void) {
    ls_arena *a = ls_arena_new();
    TEST_TEXT(ls_number_text(a, 1234.5678, 3), "1,235");
    TEST_TEXT(ls_number_text(a, 1234.5678, 6), "1,234.57");
    TEST_TEXT(ls_number_text(a, 99.96, 3), "100");
    TEST_TEXT(ls_number_text(a, 9.996, 3), "10");
    TEST_TEXT(ls_number_text(a, 0.0000123456, 6), "0.0000123456");
    TEST_TEXT(ls_number_text(a, 0.0000123456, 3), "0.0000123");
    TEST_TEXT(ls_number_text(a, 123456789, 3), "123,456,789");
    TEST_TEXT(ls_number_text(a, 1e15, 6), "1,000,000,000,000,000");
    TEST_TEXT(ls_number_text(a, -1234.5, 6), "-1,234.5");
    TEST_TEXT(ls_number_text(a, -0.0, 3), "0");
    TEST_TEXT(ls_number_text(a, -1e-17, 6), "0");
    TEST_TEXT(ls_number_text(a, 100, 6), "100");
    TEST_TEXT(ls_number_text(a, 0.5, 3), "0.5");
    TEST_TEXT(ls_number_text(a, NAN, 3), "unknown");
    TEST_TEXT(ls_number_text(a, -INFINITY, 3), "unknown");
    TEST_TEXT(ls_number_step(a, 12079, 100), "12,100");
    TEST_TEXT(ls_number_step(a, -0.04, 0.1), "0");
    TEST_TEXT(ls_number_step(a, 9.96, 0.1), "10");
    TEST_TEXT(ls_number_step(a, 1.755, 0.01), "1.75");
    TEST_TEXT(ls_number_step(a, NAN, 1), "unknown");
    TEST_TEXT(ls_number_fixed(a, 1234567.891, 2), "1,234,567.89");
    TEST_TEXT(ls_number_fixed(a, 12, 2), "12.00");
    TEST_TEXT(ls_number_fixed(a, 999.999, 1), "1,000.0");
    TEST_TEXT(ls_number_fixed(a, -0.004, 2), "0.00");
    TEST_TEXT(ls_number_fixed(a, -0.006, 2), "-0.01");
    TEST_TEXT(ls_number_fixed(a, NAN, 2), "unknown");
    TEST_NEAR(ls_number_round(1234.56789), 1234.57, 0);
    TEST_NEAR(ls_number_round(123456789.4), 123456789, 0);
    TEST_NEAR(ls_number_round(-0.00001234567), -0.0000123457, 0);
    CU_ASSERT(!signbit(ls_number_round(-1e-20)));
    CU_ASSERT(isnan(ls_number_round(NAN)));
    TEST_NEAR(ls_number_round(1.5e308), 1.5e308, 0);
    ls_arena_free(a);
}

static void test_dates(void) {
    static const char *const refused[] = {"2025-02-29", "2025-02-30", "2026-04-31", "2026-13-01",  "2026-00-10",
                                          "2026-01-00", "1899-12-31", "2200-01-01", "2100-02-29",  "2026-1-01",
                                          "26-01-2026", "2026/01/01", "2026-01-1x", "2026-02-16 ", ""};
    ls_arena *a = ls_arena_new();
    ls_date d = 7;
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        CU_ASSERT(!ls_date_parse(refused[i], strlen(refused[i]), &d));
        TEST_SAME(d, 7);
    }
    CU_ASSERT(ls_date_parse("2024-02-29", 10, &d));
    CU_ASSERT(ls_date_parse("2000-02-29", 10, &d)); /* 2000 has a leap day, 1900 and 2100 have none */
    TEST_SAME(d, 951782400 / 86400);                /* POSIX time of that day */
    TEST_SAME(ls_date_of(1970, 1, 1), 0);
    TEST_SAME(ls_date_of(1900, 1, 1), -25567);
    TEST_SAME(ls_date_of(2025, 2, 30), LS_NO_DATE);
    TEST_SAME(ls_date_of(2026, 2, 9) - ls_date_of(2025, 4, 21), 294);
    TEST_TEXT(ls_date_words(a, ls_date_of(2026, 2, 16), 2026), "Mon, Feb 16");
    TEST_TEXT(ls_date_words(a, ls_date_of(2027, 3, 1), 2026), "Mon, Mar 1, 2027");
    TEST_TEXT(ls_clock_words(a, 0), "12:00 am");
    TEST_TEXT(ls_clock_words(a, 12 * 3600 + 59), "12:00 pm");
    TEST_TEXT(ls_clock_words(a, 14 * 3600 + 28 * 60), "2:28 pm");
    TEST_TEXT(ls_date_words(a, ls_date_of(1969, 7, 20), 0), "Sun, Jul 20, 1969"); /* the first landing on the moon */
    TEST_TEXT(ls_weekdays[6], "saturday");
    TEST_TEXT(ls_weekdays[7], NULL);
    TEST_TEXT(ls_date_iso(a, LS_NO_DATE), "no date");
    for (d = ls_date_of(1900, 1, 1); d <= ls_date_of(2199, 12, 31); d++) {
        ls_arena_mark mark = ls_arena_here(a);
        const char *iso = ls_date_iso(a, d);
        ls_date back = 0;
        CU_ASSERT_FATAL(ls_date_parse(iso, 10, &back) && back == d && ls_date_year(d) == atoi(iso));
        ls_arena_rewind(a, mark);
    }
    TEST_SAME(d, ls_date_of(2199, 12, 31) + 1);
    ls_arena_free(a);
}

TEST_SUITE(base) = {
    {"arena", test_arena},
    {"growing list", test_list},
    {"building text", test_building},
    {"safe for a terminal", test_plain},
    {"safe for HTML and CSV", test_html_and_csv},
    {"names", test_names},
    {"numbers in", test_numbers_in},
    {"numbers out", test_numbers_out},
    {"dates", test_dates},
    CU_TEST_INFO_NULL,
};
