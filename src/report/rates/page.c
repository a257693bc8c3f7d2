/* The page of rates, told field by field. */
#include "limits_json.h"
#include "rates.h"

/* The document is written round its fields, so that those of a large farm are never all in memory
 * as a tree. */
static const char end[] = "]\n}\n";

ls_rates_page *ls_report_rates_begin(const ls_view *v, const ls_agronomy *g, bool json) {
    ls_rates_page *page = LS_NEW(v->arena, ls_rates_page, 1);
    *page = (ls_rates_page){.view = v, .agronomy = g, .between = "\n"};
    if (!json) {
        page->page = ls_report_rates_text_begin(v, g);
        return page;
    }
    json_t *document = ls_report_document(v, "rates");
    ls_report_put(document, "fields", json_array());
    const char *frame = ls_report_dump(v, document);
    page->text = ls_text_new(v->arena);
    ls_text_add_n(page->text, frame, strlen(frame) - strlen(end));
    return page;
}

void ls_report_rates_field(ls_rates_page *page, const ls_field_rates *field) {
    if (page->page != NULL) {
        ls_report_rates_text_field(page->page, field);
        return;
    }
    ls_arena *scratch = ls_arena_new();
    ls_text_addf(page->text, "%s    %s", page->between,
                 ls_report_dump_line(scratch, ls_report_rates_json(page->view, field)));
    ls_arena_free(scratch);
    page->between = ",\n";
}

const char *ls_report_rates_end(ls_rates_page *page) {
    if (page->page != NULL)
        return ls_report_end(page->page);
    const char *const *notes;
    size_t noted = ls_agronomy_notes(page->agronomy, &notes);
    ls_text_addf(page->text, "\n  ],\n  \"notes\": %s\n}\n",
                 ls_report_dump_line(page->view->arena, ls_report_strings(notes, noted)));
    return page->text->s;
}
