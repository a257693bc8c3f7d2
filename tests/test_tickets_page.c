/* Tickets and slips as pages: 80 columns by 66 lines with form feeds, and documents in HTML. */
#include "program.h"

#include "littershed/command.h"

#include <stdlib.h>
#include <string.h>

enum { LINES = 60 }; /* of a letter page at six lines to the inch, half an inch free above and below */

static size_t count(const char *text, const char *part) {
    size_t n = 0;
    for (; (text = strstr(text, part)) != NULL; text += strlen(part)) n++;
    return n;
}

/* Every page within 80 columns and 60 lines; one alone begins with the address, one of several with
 * its head. The number of pages. */
static size_t pages_fit(ls_arena *a, const char *text, const char *head) {
    size_t pages = 0;
    for (const char *s = text;; pages++) {
        size_t n = strcspn(s, "\f");
        const char *page = ls_arena_copy_n(a, s, n);
        test_fits(page);
        if (count(page, "\n") > LINES || n == 0 || page[n - 1] != '\n' ||
            (strncmp(page, head, strlen(head)) != 0 && strncmp(page, "TO ", 3) != 0))
            TEST_TEXT(page, "a page of at most 60 whole lines that begins with its head");
        if (s[n] == '\0') return pages + 1;
        s += n + 1;
    }
}

/* ---- farms ---- */

typedef struct {
    const char *house, *fields;
} farm_files;

/* 300 of the same character in quotes. */
static const char *many(ls_arena *a, const char *character) {
    ls_text *t = ls_text_new(a);
    ls_text_add(t, "\"");
    for (int i = 0; i < 300; i++) ls_text_add(t, character);
    ls_text_add(t, "\"");
    return t->s;
}

/* The demo with a name in every place that tickets show. */
static farm_files named(ls_arena *a, const char *folder, const char *name) {
    static const char *const in_house[] = {
        "name: North",  "by: State Soil and Manure Laboratory", "name: Cedar Fork Flocks",
        "permit: none", "hauler: Quarry Lane Cleanout",         "name: spreader truck"};
    static const char *const in_fields[] = {"name: Larkspur Hay", "name: Upper Meadow", "from: stream",
                                            "address: 212 Ferry Road, Millrace"};
    const char *house = test_file_text(a, DEMO_HOUSE), *fields = test_file_text(a, DEMO_FIELDS);
    for (size_t i = 0; i < sizeof in_house / sizeof *in_house; i++)
        house = test_replace(a, house, in_house[i],
                             ls_arena_printf(a, "%.*s: %s", (int)strcspn(in_house[i], ":"), in_house[i], name));
    for (size_t i = 0; i < sizeof in_fields / sizeof *in_fields; i++)
        fields = test_replace(a, fields, in_fields[i],
                              ls_arena_printf(a, "%.*s: %s", (int)strcspn(in_fields[i], ":"), in_fields[i], name));
    fields = test_replace(a, fields, "area: 26 ac", ls_arena_printf(a, "area: 26 ac\n        directions: %s", name));
    return (farm_files){test_file(a, folder, "h.yaml", house), test_file(a, folder, "f.yaml", fields)};
}

static const char *const mean = "\"\\e[31m\\u202E\\x07 \xF0\x9F\x90\x94 \xC3\xBC <script>' & \\\" =1+1\"";

/* The demo whose Wheat Strip is small and whose Mill Forty is open at once: a load has two drops.
 */
static farm_files two_drops(ls_arena *a, const char *folder) {
    const char *fields = test_file_text(a, DEMO_FIELDS);
    fields = test_replace(a, fields, "area: 22 ac", "area: 3.1 ac");
    fields = test_replace(a, fields, "distance: 11 mi", "distance: 0.5 mi");
    fields = test_replace(a, fields, "2026-03-01..2026-04-20", "2026-02-16..2026-04-20");
    fields =
        test_replace(a, fields, "area: 38 ac", "area: 38 ac\n        length: 1200 ft\n        directions: second gate");
    return (farm_files){DEMO_HOUSE, test_file(a, folder, "f.yaml", fields)};
}

/* ---- text ---- */

static void both_fit(ls_arena *a, farm_files f, const char *units) {
    test_run run = PROGRAM(a, "tickets", f.house, f.fields, FEW, "--units", units);
    TEST_SAME(run.status, LS_DONE);
    pages_fit(a, run.out, "TICKET");
    run = PROGRAM(a, "tickets", f.house, f.fields, FEW, "--promise", "--units", units);
    TEST_SAME(run.status, LS_DONE);
    pages_fit(a, run.out, "PROMISE SLIP");
}

static void pages_of_farms(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    both_fit(a, (farm_files){DEMO}, "us");
    both_fit(a, (farm_files){DEMO}, "metric");
    both_fit(a, named(a, folder, many(a, "n")), "us");
    both_fit(a, named(a, folder, many(a, "\xF0\x9F\x90\x94")), "metric");
    both_fit(a, named(a, folder, mean), "us");
    both_fit(a, two_drops(a, folder), "us");
    test_folder_end(folder);
    ls_arena_free(a);
}

/* A page a ticket, a form feed between, none at the end. */
static void form_feeds(void) {
    ls_arena *a = ls_arena_new();
    test_run run = PROGRAM(a, "tickets", FEW, DEMO);
    size_t loads = count(PROGRAM(a, "plan", FEW, DEMO, "--format", "json").out, "\"ticket\": ");
    CU_ASSERT(loads > 20);
    TEST_SAME(pages_fit(a, run.out, "TICKET  "), loads);
    TEST_SAME(count(run.out, "\f"), loads - 1);
    CU_ASSERT(run.out[run.out_size - 1] == '\n');
    ls_arena_free(a);
}

static void ticket_of_several_pages(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    farm_files f = named(a, folder, many(a, "n"));
    test_run run = PROGRAM(a, "tickets", FEW, f.house, f.fields, "--day", "2026-02-16");
    size_t pages = pages_fit(a, run.out, "TICKET");
    TEST_SAME(count(run.out, "\f"), pages - 1);
    CU_ASSERT(count(run.out, "Page 2 of 2\n") > 0);
    TEST_SAME(count(run.out, "Page 1 of 2\n"), count(run.out, "Page 2 of 2\n"));
    TEST_SAME(count(run.out, "\nSigned  "), pages - count(run.out, "Page 2 of 2\n"));
    test_folder_end(folder);
    ls_arena_free(a);
}

/* ---- HTML ---- */

static bool is_void(const char *name, size_t n) {
    return (n == 4 && strncmp(name, "meta", n) == 0) || (n == 2 && strncmp(name, "br", n) == 0);
}

/* Every tag that opens is closed in its place; no bare < or >. */
static void tags_balance(ls_arena *a, const char *html) {
    LS_LIST(const char *) open = {0};
    const char *s = strstr(html, "<html");
    while (s != NULL && (s = strchr(s, '<')) != NULL) {
        bool closes = s[1] == '/';
        const char *name = s + 1 + closes;
        size_t n = strspn(name, "abcdefghijklmnopqrstuvwxyz123456789");
        const char *end = strchr(name, '>');
        CU_ASSERT_FATAL(n > 0 && end != NULL);
        if (closes) {
            CU_ASSERT_FATAL(open.n > 0);
            TEST_TEXT(ls_arena_copy_n(a, name, n), open.at[--open.n]);
        } else if (!is_void(name, n))
            *LS_PUSH(a, &open) = ls_arena_copy_n(a, name, n);
        s = end;
    }
    TEST_SAME(open.n, 0);
}

/* Complete in itself: nothing is run, nothing is fetched. */
static void check_document(ls_arena *a, const char *html) {
    static const char *const none[] = {"<script", "http",  "src=",       "href=",  "url(",
                                       "@import", "<link", "javascript", "\u202E", "\x1b"};
    tags_balance(a, html);
    TEST_SAME(strncmp(html, "<!DOCTYPE html>\n", 16), 0);
    TEST_HOLDS(html, "<html lang=\"en\">");
    TEST_HOLDS(html, "<meta charset=\"utf-8\">");
    TEST_HOLDS(html, "<title>Litter");
    TEST_SAME(count(html, "<h1>"), 1);
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) CU_ASSERT_PTR_NULL(strstr(html, none[i]));
}

static void documents(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    farm_files farms[] = {{DEMO}, named(a, folder, mean), two_drops(a, test_folder(a))};
    for (size_t i = 0; i < sizeof farms / sizeof *farms; i++) {
        test_run run = PROGRAM(a, "tickets", farms[i].house, farms[i].fields, FEW, "--format", "html");
        TEST_SAME(run.status, LS_DONE);
        check_document(a, run.out);
        TEST_SAME(count(run.out, "<section class=\"ticket\""), count(run.out, "<h2 id=\"t"));
        run = PROGRAM(a, "tickets", FEW, farms[i].house, farms[i].fields, "--format", "html", "--promise");
        TEST_SAME(run.status, LS_DONE);
        check_document(a, run.out);
        TEST_SAME(count(run.out, "<section class=\"slip\""), 3);
    }
    test_folder_end(folder);
    test_folder_end(ls_arena_copy_n(a, farms[2].fields, strlen(farms[2].fields) - strlen("/f.yaml")));
    ls_arena_free(a);
}

/* A letter page of 11 in with margins of .25 in holds two tickets that take at least 5.23 in and
 * are never broken. What is read first is larger than the ticket's number, and nothing is below 9
 * pt. */
static void two_to_a_page(void) {
    ls_arena *a = ls_arena_new();
    test_run run = PROGRAM(a, "tickets", FEW, DEMO, "--format", "html");
    TEST_HOLDS(run.out, "@page{size:letter portrait;margin:.25in .4in}");
    TEST_HOLDS(run.out, ".ticket{min-height:5.23in;");
    TEST_HOLDS(run.out, "break-inside:avoid");
    TEST_HOLDS(run.out, ".lead{font-size:14pt");
    TEST_HOLDS(run.out, "h2{display:flex;flex-wrap:wrap;justify-content:space-between;gap:0 1em;font-size:11pt");
    for (const char *s = run.out; (s = strstr(s, "font-size:")) != NULL; s++)
        CU_ASSERT(strtod(s + strlen("font-size:"), NULL) >= 9);
    CU_ASSERT(count(run.out, "<section class=\"ticket\"") > 20);
    ls_arena_free(a);
}

/* Names stand in the document as text. */
static void names_in_html(void) {
    ls_arena *a = ls_arena_new();
    const char *folder = test_folder(a);
    farm_files f = named(a, folder, mean);
    test_run run = PROGRAM(a, "tickets", FEW, f.house, f.fields, "--format", "html");
    TEST_HOLDS(run.out, "\\x1B[31m\\u{202E}\\x07 \xF0\x9F\x90\x94 \xC3\xBC &lt;script&gt;&#39; &amp; "
                        "&quot; =1+1");
    test_folder_end(folder);
    ls_arena_free(a);
}

TEST_SUITE(tickets_page) = {{"pages fit", pages_of_farms},
                            {"form feeds", form_feeds},
                            {"a ticket of several pages", ticket_of_several_pages},
                            {"documents", documents},
                            {"two to a page", two_to_a_page},
                            {"names in HTML", names_in_html},
                            CU_TEST_INFO_NULL};
