/* Every load, corrections, days. */
#include "chapters.h"

ls_doc_cell ls_dossier_word(const ls_dossier_load *l, ls_log_word which) {
    bool said = l->entry != NULL && l->entry->words[which][0] != '\0';
    return W(said ? l->entry->words[which] : NULL);
}

/* ---- all loads ---- */

LS_DOC_COLUMNS(load_columns, WORDS("entry", "entry"), WORDS("ticket", "ticket"), DATA("lot"),
               DATA("out_of"), WORDS("date", "date"), WORDS("to", "to"), DATA("part"),
               IN("tons", NULL, "ton"), WORDS("weighed", "weighed"), WORDS("truck", "truck"),
               WORDS("driver", "driver"), DATA("weather_before"), DATA("weather"),
               DATA("weather_after"), DATA("soil"), DATA("incorporated"));

/* The whole load, or one of its parts. */
static void load(ls_doc_table t, const ls_dossier *d, const ls_dossier_load *l, size_t part) {
    const ls_dossier_drop *drop = l->n > 0 ? &l->drops[part] : NULL;
    LS_DOC_ROW(t, load_columns, N(l->hauled->log_entry), W(l->hauled->ticket), W(l->lot->name),
               W(l->hauled->from_stack ? "stack" : "house"), DAY(l->hauled->day),
               W(ls_dossier_drop_place(d->arena, drop)),
               W(l->n > 1 ? ls_arena_printf(d->arena, "%zu of %zu", part + 1, l->n) : NULL),
               BOOKED(drop != NULL ? drop->tons : l->tons, NULL),
               W(l->hauled->weighed ? "yes" : "no"), ls_dossier_word(l, LS_LOG_TRUCK),
               ls_dossier_word(l, LS_LOG_DRIVER), ls_dossier_word(l, LS_LOG_WEATHER_BEFORE),
               ls_dossier_word(l, LS_LOG_WEATHER), ls_dossier_word(l, LS_LOG_WEATHER_AFTER),
               ls_dossier_word(l, LS_LOG_SOIL), ls_dossier_word(l, LS_LOG_INCORPORATED));
}

static void loads(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(
        g, LS_FULL, "loads", "Every load that counts, each part of a load by itself", load_columns);
    for (size_t i = 0; i < d->loads.n; i++)
        for (size_t k = 0; k == 0 || k < d->loads.at[i].n; k++)
            load(t, d, &d->loads.at[i], k);
}

LS_DOC_COLUMNS(correction_columns, WORDS("entry", "entry"), WORDS("corrects", "corrects entry"),
               WORDS("ticket", "ticket"), IN("was_tons", "was", "ton"), IN("tons", "is", "ton"),
               WORDS("changed", "changed"), WORDS("note", "note"));

static void corrections(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "corrections", "Corrections", correction_columns);
    for (size_t i = 0; i < d->corrections.n; i++) {
        const ls_dossier_correction *c = &d->corrections.at[i];
        const char *note = c->now->words[LS_LOG_NOTE];
        LS_DOC_ROW(t, correction_columns, N(c->now->number), N(c->was->number),
                   W(ls_log_about(c->now)), BOOKED(c->was_tons, NULL), BOOKED(c->tons, NULL),
                   W(c->now->kind == LS_LOG_STRIKE ? "taken back"
                     : c->changed[0] != '\0'       ? c->changed
                                                   : NULL),
                   W(note[0] != '\0' ? note : NULL));
    }
}

LS_DOC_COLUMNS(day_columns, WORDS("day", "day"), NUMBER("loads", "loads"), IN("tons", NULL, "ton"));

static void days(ls_doc_group *g, const ls_dossier *d) {
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "days", "Loads by day", day_columns);
    for (size_t i = 0; i < d->days.n; i++)
        LS_DOC_ROW(t, day_columns, DAY(d->days.at[i].day), N(d->days.at[i].loads),
                   BOOKED(d->days.at[i].tons, NULL));
    ls_doc_picture(g, LS_FULL, NULL,
                   "A row for each week with loads. Hatched: days off and hold days.",
                   ls_dossier_chart_calendar(g->document, d), NULL);
}

void ls_dossier_put_loads(ls_doc_group *top, const ls_dossier *d) {
    const ls_crew *crew = d->farm->crew;
    ls_doc_group *g = ls_doc_object(top, LS_FULL, NULL, "Loads");
    FACTS(g, LS_FULL, {"hauler", "hauler", W(crew == NULL ? NULL : crew->hauler.text)},
          {"hauler_permit", "hauler's permit", W(crew == NULL ? NULL : crew->hauler_permit.text)});
    if (d->loads.n == 0)
        SAY(g, LS_FULL, "No load is logged yet.");
    loads(g, d);
    corrections(g, d);
    days(g, d);
}
