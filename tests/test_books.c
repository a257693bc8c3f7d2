/* The library without the program: from files and haul log to plan, tickets and dossier, the same
 * pages to the byte. */
#include "dossier_world.h"

#include "littershed/books.h"
#include "littershed/report.h"

#include <string.h>

enum { DRAWS = LS_BLOCK };

typedef struct {
    ls_books books;
    ls_view view;
} caller;

/* As far as the rates, with the loads that the log tells. */
static caller opened(const dossier_world *w) {
    const ls_reference *tables = ls_reference_load(w->a);
    caller c = {.books = {.arena = w->a, .published = tables, .seed = 1, .draws = DRAWS}};
    const char *files[] = {w->house, w->fields};
    CU_ASSERT_TRUE_FATAL(ls_books_read(&c.books, files, 2) && ls_books_log(&c.books, LS_NO_DATE) &&
                         ls_books_earlier(&c.books) && ls_books_estimate(&c.books) && ls_books_agronomy(&c.books));
    return c;
}

static const ls_view *view(caller *c) {
    c->view = (ls_view){.arena = c->books.arena,
                        .sheet = c->books.sheet,
                        .reference = c->books.reference,
                        .farm = c->books.farm,
                        .full = true,
                        .year = ls_farm_year(c->books.farm),
                        .seed = 1,
                        .draws = DRAWS};
    return &c->view;
}

static const char *told(const dossier_world *w, const char *command, const char *format) {
    bool short_page = strcmp(command, "rates") == 0 || strcmp(command, "dossier") == 0;
    const char *full = short_page ? "--full" : NULL; /* others have it anyway */
    return PROGRAM(w->a, command, w->house, w->fields, FEW, "--format", format, full).out;
}

static dossier_world world(ls_arena *a) {
    return dossier_write(a, dossier_house(a), dossier_fields(a), dossier_log(a));
}

static void dossier_by_hand(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = world(a);
    caller c = opened(&w);
    const ls_dossier *d =
        ls_books_dossier(&c.books, (ls_dossier_terms){LS_NO_DATE, {LS_NO_DATE, LS_NO_DATE}}, (ls_progress){0});
    CU_ASSERT_PTR_NOT_NULL_FATAL(d);
    CU_ASSERT_TRUE(ls_books_fit(&c.books));
    TEST_SAME(d->loads.n, 6);
    const ls_document *page = ls_report_dossier(view(&c), d, true);
    TEST_TEXT(ls_document_json(page), told(&w, "dossier", "json"));
    TEST_TEXT(ls_document_text(page), told(&w, "dossier", "text"));
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* Loads there by the estimate, firm up to possible, are those placed, those without a field and
 * what the whole farm has apart from its lots: whole numbers, of the plan's own loads. */
static void loads_reconciled(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = world(a);
    caller c = opened(&w);
    const ls_plan *plan = ls_books_plan(&c.books, &(ls_plan_terms){.from = LS_NO_DATE});
    CU_ASSERT_PTR_NOT_NULL_FATAL(plan);
    const ls_plan_sums *sums = ls_books_plan_sums(&c.books, plan);
    const ls_line there[] = {sums->estimate->firm, sums->estimate->likely, sums->estimate->possible};
    const ls_worksheet *s = c.books.sheet;
    double straight = 0, stacked = 0;
    for (ls_certainty k = LS_FIRM; k <= LS_POSSIBLE; k++) {
        const ls_load_count *n = &sums->counts[k];
        for (size_t i = 0; i < plan->loads_n; i++)
            if (plan->loads[i].certainty == k) ++*(plan->loads[i].buyer != NULL ? &straight : &stacked);
        TEST_SAME(n->there, there[k]);
        TEST_NEAR(ls_line_shown(s, n->straight), straight, 1e-12);
        TEST_NEAR(ls_line_shown(s, n->stacked), stacked, 1e-12);
        TEST_NEAR(ls_line_shown(s, n->straight) + ls_line_shown(s, n->stacked) + ls_line_shown(s, n->without) +
                      ls_line_shown(s, n->apart),
                  ls_line_shown(s, n->there), 1e-12);
    }
    TEST_NEAR(ls_line_shown(s, sums->counts[LS_LIKELY].without), (double)plan->homeless, 1e-12);
    double firm = 0; /* lot by lot: each has its firm loads placed, or without a field */
    for (size_t i = 0; i < sums->estimate->n; i++) firm += ls_line_shown(s, sums->estimate->lots[i].firm);
    TEST_NEAR(ls_line_shown(s, sums->counts[LS_FIRM].apart), ls_line_shown(s, sums->estimate->firm) - firm, 1e-12);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* Figures of plan and tickets travel as members: every one is a line, and the pages tell them. */
static void plan_by_hand(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = world(a);
    caller c = opened(&w);
    const ls_plan *plan = ls_books_plan(&c.books, &(ls_plan_terms){.from = LS_NO_DATE});
    CU_ASSERT_PTR_NOT_NULL_FATAL(plan);
    const ls_plan_sums *sums = ls_books_plan_sums(&c.books, plan);
    const ls_tickets *tickets = ls_books_tickets(&c.books, sums);
    TEST_TEXT(ls_document_json(ls_report_plan(view(&c), sums)), told(&w, "plan", "json"));
    const ls_load **loads = LS_NEW(a, const ls_load *, plan->loads_n + plan->out_n);
    for (size_t i = 0; i < plan->loads_n + plan->out_n; i++) loads[i] = ls_plan_load(plan, i);
    ls_handed *drafts = LS_NEW(a, ls_handed, plan->loads_n + plan->out_n);
    ls_ticket_list list = {tickets, plan->loads_n + plan->out_n, loads, drafts, false};
    TEST_TEXT(ls_report_tickets(view(&c), &list, LS_JSON), told(&w, "tickets", "json"));
    for (size_t i = 0; i < list.n; i++) {
        const ls_load_sheet *sheet = ls_ticket_sheet(tickets, loads[i]);
        for (size_t k = 0; k < loads[i]->n; k++)
            TEST_HOLDS(ls_line_at(c.books.sheet, sheet->drops[k].run)->key, loads[i]->ticket);
    }
    test_folder_end(w.folder);
    ls_arena_free(a);
}

static void log_by_hand(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = world(a);
    caller c = opened(&w);
    const ls_log_sums *s = ls_books_log_sums(&c.books);
    TEST_NEAR(ls_line_shown(c.books.sheet, s->houses), 8.62 + 8.71 + 8.55 + 8.49 + 7.93 + 8.58, 1e-12);
    test_run list = PROGRAM(a, "record", w.house, w.fields, "--list");
    TEST_TEXT(ls_document_text(ls_report_record(view(&c), s, NULL)), list.out);
    test_folder_end(w.folder);
    ls_arena_free(a);
}

/* Rates field by field: the worksheet is as long after as before, and the page is the program's,
 * in each form that is written away field by field. */
static bool show(void *to, const ls_field_rates *field) {
    ls_report_rates_field(to, field);
    return true;
}

static void rates_by_hand(void) {
    ls_arena *a = ls_arena_new();
    dossier_world w = world(a);
    caller c = opened(&w);
    static const struct {
        ls_form form;
        const char *(*write)(const ls_document *d);
        const char *name;
    } forms[] = {
        {LS_TEXT, ls_document_text, "text"}, {LS_HTML, ls_document_html, "html"}, {LS_JSON, ls_document_json, "json"}};
    size_t before = ls_worksheet_lines(c.books.sheet);
    for (size_t i = 0; i < sizeof forms / sizeof *forms; i++) {
        ls_rates_page *page = ls_report_rates_begin(view(&c), c.books.agronomy, forms[i].form);
        CU_ASSERT_TRUE(ls_books_each_field(&c.books, show, page));
        TEST_SAME(ls_worksheet_lines(c.books.sheet), before);
        TEST_TEXT(forms[i].write(ls_report_rates_end(page)), told(&w, "rates", forms[i].name));
    }
    test_folder_end(w.folder);
    ls_arena_free(a);
}

TEST_SUITE(books) = {{"dossier from files and log", dossier_by_hand},
                     {"loads there and loads placed", loads_reconciled},
                     {"plan and tickets", plan_by_hand},
                     {"the haul log", log_by_hand},
                     {"rates, field by field", rates_by_hand},
                     CU_TEST_INFO_NULL};
