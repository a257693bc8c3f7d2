/* Tickets and slips of the haul log, and what they became. */
#include "handed_out.h"

static const ls_doc_column issued_columns[] = {
    NUMBER("entry", "entry"), WORDS("ticket", "ticket"), WORDS("to", "to"),
    IN("tons", "", "ton"),    WORDS("became", "now"),    DATA("certainty"),
    DATA("planned"),          DATA("handed_out"),        DATA("other_entry")};

static const ls_doc_column promised_columns[] = {
    NUMBER("entry", "entry"), WORDS("buyer", "buyer"),  NUMBER("loads", "loads"),
    IN("tons", "", "ton"),    IN("price", "", "$/ton"), WORDS("handed_out", "handed out"),
    WORDS("became", "now"),   DATA("other_entry")};

static bool is_any(const ls_log *log, ls_log_kind of) {
    for (size_t i = 0; i < log->entries.n; i++)
        if (log->entries.at[i].of == of)
            return true;
    return false;
}

/* The entry that tells what became of it; 0: none does, it stands. */
static long other_entry(const ls_logged *is) {
    return is->entry->replaced_by > 0 ? is->entry->replaced_by
           : is->hauled_as > 0        ? is->hauled_as
                                      : is->again_as;
}

/* Of a paper that is out: without a plan only a name that the files lack can call it back. */
static const char *out(ls_arena *a, const ls_farm *farm, const ls_coded_lots *lots,
                       const ls_log_entry *e) {
    if (e->of == LS_LOG_ISSUED) {
        ls_issued is = ls_issued_of(a, farm, lots, e);
        return ls_books_no_longer(&is) != NULL ? "TAKE BACK, no longer in the file" : "stands";
    }
    for (size_t i = 0; i < farm->promised.n; i++)
        if (farm->promised.at[i].log_entry == e->number && farm->promised.at[i].buyer == NULL)
            return "stands, buyer no longer in the file";
    return "stands";
}

static ls_doc_cell became(ls_arena *a, const ls_farm *farm, const ls_coded_lots *lots,
                          const ls_log_sums *s, const ls_logged *is) {
    long n = other_entry(is);
    const ls_log_entry *other = n > 0 ? s->entries[n - 1].entry : NULL;
    return W(other == NULL          ? out(a, farm, lots, is->entry)
             : ls_log_stands(other) ? ls_arena_printf(a, "hauled as %ld", n)
             : n == is->again_as    ? ls_arena_printf(a, "again as %ld, TAKE BACK", n)
             : other->tons > 0      ? ls_arena_printf(a, "again as %ld", n)
                                    : ls_arena_printf(a, "back by %ld", n));
}

/* "Larkspur Hay/Upper Meadow; Larkspur Hay/Barn Field", "stack". */
static ls_doc_cell way(ls_arena *a, const ls_farm *farm, const ls_coded_lots *lots,
                       const ls_log_entry *e) {
    ls_issued is = ls_issued_of(a, farm, lots, e);
    ls_text *t = ls_text_new(a);
    for (size_t i = 0; i < is.n; i++)
        ls_text_addf(t, "%s%s", i > 0 ? "; " : "", is.drops[i].name);
    return W(is.to_stack ? "stack" : t->s);
}

/* Strikes tell nothing but what became of another. */
static void put(ls_doc_table t, const ls_log_sums *s, ls_log_kind of) {
    ls_arena *a = t.group->document->arena;
    const ls_farm *farm = t.group->document->view->farm;
    ls_coded_lots lots = ls_books_lots(a, farm);
    for (size_t i = 0; i < s->log->entries.n; i++) {
        const ls_logged *is = &s->entries[i];
        const ls_log_entry *e = is->entry;
        long other = other_entry(is);
        ls_doc_cell now = became(a, farm, &lots, s, is), entry = other > 0 ? N(other) : W(NULL);
        if (e->of != of || e->tons <= 0)
            continue;
        if (of == LS_LOG_ISSUED)
            LS_DOC_ROW(t, issued_columns, N(e->number), W(e->ticket.text), way(a, farm, &lots, e),
                       BOOKED(is->tons, "ton"), now, W(ls_log_sure_name(e->sure)), DAY(e->planned),
                       DAY(e->when.day), entry);
        else
            LS_DOC_ROW(t, promised_columns, N(e->number), W(e->words[LS_LOG_FIELD]), N(e->loads),
                       BOOKED(is->tons, "ton"), V(e->price, "$/ton"), DAY(e->when.day), now, entry);
    }
}

void ls_report_put_handed(ls_doc_group *top, const ls_log_sums *s) {
    bool issued = is_any(s->log, LS_LOG_ISSUED), promised = is_any(s->log, LS_LOG_PROMISED);
    ls_doc_group *g = ls_doc_object(top, issued ? LS_FIRST : LS_DATA, NULL,
                                    "TICKETS HANDED OUT (numbers: entries)");
    put(LS_DOC_TABLE_IN(g, issued ? LS_FIRST : LS_DATA, "issued", NULL, issued_columns), s,
        LS_LOG_ISSUED);
    g = ls_doc_object(top, promised ? LS_FIRST : LS_DATA, NULL,
                      "LOADS PROMISED (numbers: entries)");
    put(LS_DOC_TABLE_IN(g, promised ? LS_FIRST : LS_DATA, "promised", NULL, promised_columns), s,
        LS_LOG_PROMISED);
}
