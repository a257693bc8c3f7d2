/* Tickets for other programs. */
#include "report/put.h"
#include "ticket.h"
#include "report/handed_out.h"

LS_DOC_COLUMNS(setback_columns, WORDS("from", NULL), WORDS("edge_ft", NULL), WORDS("width_ft", NULL),
               WORDS("radius_ft", NULL), WORDS("rule", NULL));

static void setbacks(ls_doc_group *g, const ls_field *f) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "setbacks", NULL, setback_columns);
    LS_EACH (const ls_setback, s, f->setbacks)
        LS_DOC_ROW(t, setback_columns, W(s->from.text), GIVEN(s->edge, "ft"), GIVEN(s->width, "ft"),
                   GIVEN(s->radius, "ft"), W(s->rule.text));
}

LS_DOC_COLUMNS(wait_columns, WORDS("what", NULL), WORDS("days", NULL), WORDS("until", NULL), WORDS("given", NULL),
               WORDS("source", NULL));

static void waits(ls_doc_group *g, const ls_earliest *e) {
    ls_report_wait_list list = ls_report_waits(g->document->view, e);
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "waits", NULL, wait_columns);
    for (size_t i = 0; i < list.n; i++) {
        const ls_interval *wait = &list.at[i].wait;
        LS_DOC_ROW(t, wait_columns, W(list.at[i].what), C(wait->line), DAY(wait->day), FLAG(wait->given),
                   W(wait->cite));
    }
}

static void drop(ls_doc_group *g, const ls_drop *d, const ls_drop_sheet *sheet) {
    MEMBERS(g, {"field", W(d->field->name.text)}, {"directions", W(d->field->directions.text)},
            {"tons", F(d->tons, "ton")}, {"acres", F(d->acres, "ac")}, {"ton_per_ac", F(d->rate, "ton/ac")},
            {"run_ft", F(sheet->run, "ft")}, {"passes", F(sheet->passes, "")},
            {"cover_low_ac", F(sheet->cover[0], "ac")}, {"cover_high_ac", F(sheet->cover[1], "ac")},
            {"tarp_net_lb", F(sheet->tarp, "lb")});
    ls_doc_group *acre = ls_doc_object(g, LS_DATA, "lb_per_ac", NULL);
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++) ls_doc_data(acre, ls_field_nutrient[i], F(sheet->on_acre[i], "lb/ac"));
    setbacks(g, d->field);
    waits(g, &sheet->earliest);
}

static void analysis(ls_doc_group *g, const ls_analysis *a) {
    const ls_lab *lab = a->report;
    bool dated = lab != NULL && LS_GIVEN(lab->date);
    MEMBERS(g, {"lab", W(lab == NULL ? NULL : lab->by.text)}, {"date", DAY(dated ? lab->date.day : LS_NO_DATE)},
            {"published", FLAG(lab == NULL)});
    ls_doc_group *ton = ls_doc_object(g, LS_DATA, "lb_per_ton", NULL);
    for (int i = 0; i < LS_FIELD_NUTRIENTS; i++)
        ls_doc_data(ton, ls_nutrient_key(ls_in_litter[i]), F(a->per_ton[ls_in_litter[i]], "lb/ton"));
}

/* What it says otherwise now than when it was handed out; null where nothing is. */
static void today(ls_doc_group *g, const ls_ticket_moved *moved) {
    const ls_load *load = moved == NULL ? NULL : moved->load;
    ls_doc_group *now = ls_doc_object(g, LS_DATA, "today", NULL);
    MEMBERS(now, {"certainty", W(load == NULL ? NULL : ls_certainty_name(load->certainty))},
            {"day", DAY(load == NULL ? LS_NO_DATE : load->day)}, {"from", DAY(load == NULL ? LS_NO_DATE : load->from)},
            {"tons", F(load == NULL ? LS_NO_LINE : load->tons, "ton")});
}

static void ticket(ls_doc_group *g, const ls_report_page *p, const ls_ticket_list *list, size_t i) {
    const ls_tickets *of = list->figures;
    const ls_load_sheet *sheet = ls_ticket_sheet(of, list->loads[i]);
    const ls_load *load = sheet->load;
    const ls_issued *was = ls_report_in_place_of(list, i);
    const ls_buyer *b = load->buyer;
    const ls_crew *crew = g->document->view->farm->crew;
    MEMBERS(g, {"ticket", W(load->ticket)}, {"paper", W(ls_handed_text(g->document->view, &list->handed[i]))},
            {"in_place_of", DAY(was == NULL ? LS_NO_DATE : was->handed_out)});
    today(g, ls_report_moved(list, i));
    MEMBERS(g, {"certainty", W(ls_certainty_name(load->certainty))}, {"day", DAY(load->day)}, {"from", DAY(load->from)},
            {"when", W(ls_report_when(p, of->sums->plan, load))}, {"lot", W(load->lot->name)},
            {"to", W(b == NULL ? "stack" : "field")}, {"from_stack", FLAG(load->from_stack)},
            {"buyer", W(b == NULL ? NULL : b->name.text)}, {"address", W(b == NULL ? NULL : b->address.text)},
            {"hauler", W(crew == NULL ? NULL : crew->hauler.text)},
            {"truck", load->from_stack || load->issued != NULL ? W(NULL) : N(load->number)});
    if (p->view->farm->trucks.n > 1) {
        MEMBERS(g, {"kind", W(p->view->farm->trucks.at[load->kind].name.text)},
                {"swath_ft", F(of->swath[load->kind], "ft")});
    }
    MEMBERS(g, {"tons", F(load->tons, "ton")}, {"buckets", C(sheet->buckets)},
            {"scale_low_tons", F(sheet->scale[0], "ton")}, {"scale_high_tons", F(sheet->scale[1], "ton")});
    analysis(ls_doc_object(g, LS_DATA, "analysis", NULL), ls_load_analysis(load));
    ls_doc_group *drops = ls_doc_list(g, LS_DATA, "drops", NULL);
    for (size_t k = 0; k < load->n; k++)
        drop(ls_doc_object(drops, LS_DATA, NULL, NULL), &load->drops[k], &sheet->drops[k]);
    ls_report_put_cautions(g, &sheet->take_care, 0);
}

const char *ls_report_tickets_json(const ls_view *v, const ls_ticket_list *list) {
    ls_document *d = ls_document_new(v, "tickets", "Litter tickets");
    ls_report_page p = {v, v->arena, ls_text_new(v->arena)};
    if (v->farm->trucks.n == 1) ls_doc_data(d->top, "swath_ft", F(list->figures->swath[0], "ft"));
    ls_doc_data(d->top, "tarp_side_ft", F(list->figures->tarp_side, "ft"));
    ls_report_put_recalled(d->top, LS_DATA, list->figures->sums->handed_out);
    ls_report_put_log(d->top);
    ls_doc_group *all = ls_doc_list(d->top, LS_DATA, "tickets", NULL);
    for (size_t i = 0; i < list->n; i++) ticket(ls_doc_object(all, LS_DATA, NULL, NULL), &p, list, i);
    return ls_document_json(d);
}
