/* Every load, corrections, days. */
#include "chapters.h"

#include "report/handed_out.h"

LS_DOC_COLUMNS(load_columns, WORDS("entry", "entry"), WHOLE("ticket", "ticket"), DATA("lot"), DATA("out_of"),
               WORDS("date", "day"), DATA("to"), HEAD("to"), DATA("ticket_to"), DATA("part"), IN("tons", NULL, "ton"),
               DATA("weighed"), DATA("truck"), DATA("driver"), HEAD("driver; signed; analysis"), DATA("weather_before"),
               DATA("weather"), DATA("weather_after"), DATA("soil"), DATA("incorporated"));

/* Who drove; who signed; the analysis handed over: "-" where the log does not tell. */
static ls_doc_cell people(const ls_dossier *d, const ls_dossier_load *l) {
    static const ls_log_word words[] = {LS_LOG_DRIVER, LS_LOG_RECEIVED_BY, LS_LOG_ANALYSIS};
    ls_text *t = ls_text_new(d->arena);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        const char *said = l->entry == NULL ? "" : l->entry->words[words[i]];
        ls_text_addf(t, "%s%s", i > 0 ? "; " : "", said[0] == '\0' ? "-" : said);
    }
    return W(t->s);
}

/* Where a part of a load went, with a link to the sheet of its field. */
static ls_doc_cell place(const ls_dossier *d, const ls_dossier_drop *drop) {
    for (size_t i = 0; drop != NULL && i < d->fields.n; i++)
        if (d->fields.at[i].field == drop->field)
            return LINK(W(ls_arena_printf(d->arena, "%zu %s", i + 1, drop->field->name.text)),
                        ls_dossier_field_id(d, i));
    return W(ls_dossier_drop_place(d->arena, drop));
}

/* The whole load, or one of its parts. */
static void load(ls_doc_table t, const ls_dossier *d, const ls_dossier_load *l, size_t part) {
    const ls_dossier_drop *drop = l->n > 0 ? &l->drops[part] : NULL;
    ls_doc_cell meant = W(l->astray ? ls_report_way_issued(d->arena, &l->ticket) : NULL);
    LS_DOC_ROW(t, load_columns, N(l->hauled->log_entry), W(l->hauled->ticket), W(l->lot->name),
               W(l->hauled->from_stack ? "stack" : "house"), DAY(l->hauled->day),
               W(ls_dossier_drop_place(d->arena, drop)),
               T("{}{}", place(d, drop), OPTIONAL(" ! not by its ticket: {}", meant)), meant,
               W(l->n > 1 ? ls_arena_printf(d->arena, "%zu of %zu", part + 1, l->n) : NULL),
               BOOKED(drop != NULL ? drop->tons : l->tons, NULL), W(l->hauled->weighed ? "yes" : "no"),
               ls_dossier_word(l, LS_LOG_TRUCK), ls_dossier_word(l, LS_LOG_DRIVER), people(d, l),
               ls_dossier_word(l, LS_LOG_WEATHER_BEFORE), ls_dossier_word(l, LS_LOG_WEATHER),
               ls_dossier_word(l, LS_LOG_WEATHER_AFTER), ls_dossier_word(l, LS_LOG_SOIL),
               ls_dossier_word(l, LS_LOG_INCORPORATED));
    if (part == 0) ls_doc_name_row(t, ls_dossier_entry_id(d, l->hauled->log_entry));
}

/* How many were weighed, in a sentence: not a column. */
static void weighed(ls_doc_group *g, const ls_dossier *d) {
    size_t n = 0;
    for (size_t i = 0; i < d->loads.n; i++) n += d->loads.at[i].hauled->weighed;
    if (d->loads.n == 0)
        SAY(g, LS_FULL, "No load is logged yet.");
    else
        SAY(g, LS_FULL, "Loads: {}, weighed: {}. By the log {} went out of the houses.", N(d->loads.n), N(n),
            BOOKED(d->balance.trucked, "ton"));
}

static void loads(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "loads", NULL, load_columns);
    for (size_t i = 0; i < d->loads.n; i++)
        for (size_t k = 0; k == 0 || k < d->loads.at[i].n; k++) load(t, d, &d->loads.at[i], k);
}

LS_DOC_COLUMNS(correction_columns, WORDS("entry", "entry"), WORDS("corrects", "corrects entry"),
               WORDS("ticket", "ticket"), IN("was_tons", "was", "ton"), IN("tons", "is", "ton"),
               WORDS("changed", "changed"), WORDS("note", "note"));

/* What was taken back is told in a sentence. */
static void corrections(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "corrections", "Corrections", correction_columns);
    ls_text *back = ls_text_new(d->arena);
    LS_EACH (const ls_dossier_correction, c, d->corrections) {
        const char *note = c->now->words[LS_LOG_NOTE];
        bool struck = c->now->kind == LS_LOG_STRIKE;
        if (struck) ls_text_addf(back, "%s%ld by %ld", back->n > 0 ? ", " : "", c->was->number, c->now->number);
        LS_DOC_GRID_ROW(t, correction_columns, struck ? LS_DATA : LS_FIRST, NULL, N(c->now->number), N(c->was->number),
                        W(ls_log_about(c->now)), BOOKED(c->was_tons, NULL), BOOKED(c->tons, NULL),
                        W(struck                  ? "taken back"
                          : c->changed[0] != '\0' ? c->changed
                                                  : NULL),
                        W(note[0] != '\0' ? note : NULL));
    }
    if (back->n > 0) SAY(g, LS_FULL, "Entries taken back, and by which: {}.", W(back->s));
}

LS_DOC_COLUMNS(day_columns, WORDS("day", "day"), NUMBER("loads", "loads"), IN("tons", NULL, "ton"));

static void days(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_DATA, "days", NULL, day_columns);
    for (size_t i = 0; i < d->days.n; i++)
        LS_DOC_ROW(t, day_columns, DAY(d->days.at[i].day), N(d->days.at[i].loads), BOOKED(d->days.at[i].tons, NULL));
}

void ls_report_dossier_loads(ls_doc_group *g, const ls_dossier *d) {
    const ls_crew *crew = d->farm->crew;
    MEMBERS(g, {"hauler", W(crew == NULL ? NULL : crew->hauler.text)},
            {"hauler_permit", W(crew == NULL ? NULL : crew->hauler_permit.text)});
    weighed(g, d);
    loads(g, d);
    corrections(g, d);
    days(g, d);
}
