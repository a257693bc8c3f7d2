/* The transfer sheets: what each receiver got, with its analysis, the rate advised and signatures.
 */
#include "chapters.h"

#include "report/figure.h"

#include <string.h>

LS_DOC_COLUMNS(load_columns, WORDS("entry", "entry"), WORDS("date", "day"), WHOLE("ticket", "ticket"),
               WORDS("field", "field"), IN("tons", NULL, "ton"), DATA("weighed"),
               IN("advised_ton_per_ac", "rate", "ton/ac"), WORDS("received_by", "signed"), DATA("analysis"));
LS_DOC_COLUMNS(analysis_columns, DATA("lot"), DATA("file"), HEAD("litter of"), IN("N_lb_per_ton", "N", "lb/ton"),
               IN("P2O5_lb_per_ton", "P2O5", "lb/ton"), IN("K2O_lb_per_ton", "K2O", "lb/ton"),
               IN("moisture_pct", "moisture", "%"), DATA("laboratory"), DATA("date"), HEAD("by"));
LS_DOC_COLUMNS(record_columns, DATA("record"), DATA("rule"), DATA("present"), DATA("missing"), DATA("fix"));

static void loads(ls_doc_group *g, const ls_dossier_transfer *x) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "loads", "Loads, and the rate advised", load_columns);
    for (size_t i = 0; i < x->loads.n; i++) {
        const ls_dossier_load *l = x->loads.at[i].load;
        const ls_dossier_drop *drop = x->loads.at[i].drop;
        LS_DOC_ROW(t, load_columns, N(l->hauled->log_entry), DAY(l->hauled->day), W(l->hauled->ticket),
                   W(drop->field->name.text), BOOKED(drop->tons, NULL), W(l->hauled->weighed ? "yes" : "no"),
                   L(drop->advised), ls_dossier_word(l, LS_LOG_RECEIVED_BY), ls_dossier_word(l, LS_LOG_ANALYSIS));
    }
}

/* Of the report; without one that of this file's estimate. */
static ls_doc_cell moisture(const ls_dossier *d, const ls_dossier_analysis *x) {
    if (x->by->report != NULL) return GIVEN(x->by->report->moisture, "%");
    return x->file == 0 ? L(d->estimate->lots[x->lot].moisture.line) : W(NULL);
}

static void analyses(ls_doc_group *g, const ls_dossier *d, const ls_dossier_transfer *of) {
    const ls_report_page page = {g->document->view, d->arena, NULL};
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "analyses", "Analysis, as received", analysis_columns);
    LS_EACH (const ls_dossier_analysis, x, of->analyses) {
        const ls_lab *lab = x->by->report;
        const char *lot = ls_dossier_lot(d, x->file, x->lot), *file = ls_dossier_file(d, x->file);
        LS_DOC_ROW(t, analysis_columns, W(lot), W(file), x->file == 0 ? W(lot) : T("{} ({})", W(lot), W(file)),
                   L(x->per_ton[0]), L(x->per_ton[1]), L(x->per_ton[2]), moisture(d, x),
                   W(lab == NULL ? NULL : lab->by.text), lab == NULL ? W(NULL) : GIVEN_DAY(lab->date),
                   W(ls_report_analysis(&page, x->by)));
    }
}

/* ---- what the records ask ---- */

/* By number of its entry: did this receiver get of the load? */
static const bool *loads_of(const ls_dossier *d, const ls_dossier_transfer *x) {
    long last = 0;
    for (size_t i = 0; i < d->loads.n; i++)
        if (d->loads.at[i].hauled->log_entry > last) last = d->loads.at[i].hauled->log_entry;
    bool *his = LS_NEW(d->arena, bool, (size_t)last + 1);
    for (size_t i = 0; i < x->loads.n; i++) his[x->loads.at[i].load->hauled->log_entry] = true;
    return his;
}

static void records(ls_doc_group *g, const ls_dossier *d, const ls_dossier_transfer *x) {
    const ls_dossier_tallies all = ls_dossier_tally_all(d, LS_ABOUT_TRANSFER, x->buyer, loads_of(d, x));
    ls_text *lacks = ls_text_new(d->arena);
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "records", NULL, record_columns);
    LS_EACH (const ls_dossier_tally, one, all) {
        const char *missing = ls_dossier_entry_ranges(d, &one->missing);
        LS_DOC_ROW(t, record_columns, W(one->of->words), W(ls_dossier_rule(d, one->of)), N(one->n[LS_PRESENT]),
                   W(missing), W(missing == NULL ? NULL : one->missing.at[0]->mend));
        if (missing != NULL)
            ls_text_addf(lacks, one->n[LS_PRESENT] > 0 ? "%s%s (entry %s)" : "%s%s", lacks->n > 0 ? ". Also " : "",
                         one->of->words, missing);
    }
    if (lacks->n > 0) SAY(g, LS_FULL, "Missing: {}. How to fix each stands with the findings in front.", W(lacks->s));
}

/* ---- the sheet ---- */

static void sheet(ls_doc_group *list, const ls_dossier *d, const ls_dossier_transfer *x) {
    static const ls_crew no_crew;
    const ls_farm_facts *facts = ls_dossier_facts(d);
    const ls_crew *crew = d->farm->crew != NULL ? d->farm->crew : &no_crew;
    const ls_buyer *b = x->buyer;
    ls_doc_group *g = ls_doc_object(list, LS_FULL, NULL, ls_arena_printf(d->arena, "Transfer to %s", b->name.text));
    ls_doc_name_block(list, ls_arena_printf(d->arena, "transfer-%td", x - d->transfers.at + 1));
    MEMBERS(g, {"receiver", W(b->name.text)}, {"address", W(b->address.text)}, {"phone", W(b->phone.text)},
            {"stream", W(b->stream.text)}, {"farm", W(facts->name.text)}, {"place", W(facts->place.text)},
            {"permit", W(facts->permit.text)}, {"hauler", W(crew->hauler.text)},
            {"hauler_permit", W(crew->hauler_permit.text)}, {"tons", BOOKED(x->tons, "ton")});
    SAY(g, LS_FULL, "{} to {}; nearest stream: {}. From {}, permit: {}. Hauler: {}, permit: {}.",
        BOOKED(x->tons, "ton"), W(b->address.text), W(b->stream.text), W(facts->name.text), W(facts->permit.text),
        W(crew->hauler.text), W(crew->hauler_permit.text));
    loads(g, x);
    analyses(g, d, x);
    records(g, d, x);
    SAY(g, LS_FULL, "Signed: farm ____________ hauler ____________ receiver ____________ date ________");
}

void ls_report_dossier_transfers(ls_doc_group *top, const ls_dossier *d) {
    ls_doc_group *list = ls_doc_list(top, LS_FULL, "transfers", NULL);
    for (size_t i = 0; i < d->transfers.n; i++) sheet(list, d, &d->transfers.at[i]);
}
