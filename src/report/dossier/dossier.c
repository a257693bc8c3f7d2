/* The order of the dossier: two pages in front, the contents, a sheet for each field, the others.
 */
#include "chapters.h"

#include "report/put.h"

/* The sheets behind the fields, in their order; links lead to them by their ids. */
static const struct {
    const char *id, *title;
    ls_dossier_sheet *put;
} sheets[] = {{"annual", "Annual summary, and size of the farm", ls_report_dossier_annual},
              {"loads", "Loads", ls_report_dossier_loads},
              {"transfers", "Litter handed to others", ls_report_dossier_transfers},
              {"calibration", "Spreader calibration", ls_report_dossier_calibration},
              {"stack", "Stacking site", ls_report_dossier_stack},
              {"litter", "Litter: made, found, analyzed", ls_report_dossier_litter},
              {"mortality", "Dead birds", ls_report_dossier_mortality},
              {"attached", "Papers that go with this", ls_report_dossier_papers},
              {"records", "Records looked for", ls_report_dossier_records}};

/* Only what has something to show gets a number. */
static void others(ls_doc_group *top, const ls_dossier *d, ls_doc_group *contents) {
    size_t number = d->fields.n + 1;
    for (size_t i = 0; i < sizeof sheets / sizeof *sheets; i++) {
        const char *title = ls_arena_printf(d->arena, "%zu %s", number, sheets[i].title);
        ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, title);
        ls_doc_name_block(top, sheets[i].id);
        sheets[i].put(g, d);
        if (!ls_doc_shows(&top->blocks.at[top->blocks.n - 1], LS_FULL)) continue;
        ls_doc_item(contents, LS_FIRST, LINK(W(title), sheets[i].id));
        number++;
    }
}

const ls_document *ls_report_dossier(const ls_view *v, const ls_dossier *d, bool worksheet) {
    ls_document *doc = ls_document_new(v, "dossier", "Dossier: where every ton of litter went");
    doc->table = "loads";
    doc->more = "loads, transfers, stack, papers, records, worksheet";
    if (d->months.to != LS_NO_DATE)
        doc->days = ls_arena_printf(v->arena, "%s to %s", ls_date_words(v->arena, d->months.from, 0),
                                    ls_date_words(v->arena, d->months.to, 0));
    ls_dossier_put_front(doc->top, d);
    ls_report_put_log(doc->top);
    ls_dossier_put_audit(doc->top, d);
    ls_doc_group *contents = ls_doc_object(doc->top, LS_FIRST, "contents", "Contents");
    ls_doc_name_block(doc->top, "contents");
    for (size_t i = 0; i < d->fields.n; i++)
        ls_doc_item(contents, LS_FIRST, LINK(W(ls_dossier_field_title(d, i)), ls_dossier_field_id(d, i)));
    ls_dossier_put_fields(doc->top, d);
    others(doc->top, d, contents);
    ls_doc_worksheet(doc, !worksheet);
    return doc;
}
