/* The days of loads: open days, hold days, waits until planting, harvest and grazing; what the crew
 * has of its own; loads that the files cannot place. */
#include "room.h"

/* By one load, of a field (NULL: of none). */
static ls_dossier_finding *by_load(ls_dossier *d, ls_finding_state state, const char *item, const ls_dossier_load *load,
                                   const char *field, ls_place rule, const char *what) {
    ls_dossier_finding *f = ls_dossier_passed(d, state, item, field != NULL ? field : load->hauled->ticket, rule, what);
    f->field = field;
    ls_dossier_about_entry(d, f, load->hauled->log_entry);
    f->where = ls_dossier_entries(d, f);
    ls_dossier_tell_apart(d, f, f->where);
    f->mend = ls_arena_printf(d->arena,
                              "if the log has the wrong day: littershed record FILE... --replaces "
                              "%ld --when YEAR-MONTH-DAY. If not, call the plan writer",
                              load->hauled->log_entry);
    return f;
}

static void open_days(ls_dossier *d, const ls_dossier_load *load) {
    for (size_t k = 0; k < load->n; k++) {
        const ls_field *f = load->drops[k].field;
        ls_date day = load->hauled->day;
        bool told = false; /* of another part */
        for (size_t i = 0; i < k; i++) told = told || load->drops[i].field == f;
        if (f != NULL && !told && !ls_field_allows(f, day))
            by_load(d, LS_EXCEEDED, "spread outside the open days", load,
                    ls_dossier_name(d->arena, load->drops[k].buyer, f), f->open.at,
                    ls_arena_printf(d->arena, "load %s was spread on %s; the field may be spread %s to %s",
                                    load->hauled->ticket, ls_dossier_words_of(d, day),
                                    ls_dossier_words_of(d, f->allowed.from), ls_dossier_words_of(d, f->allowed.to)));
    }
}

/* ---- the crew's own days ---- */

/* Minutes of the day from its start to its end; false: the file does not give both. */
static bool hours_of(const ls_crew *crew, long *from, long *to) {
    enum { A_DAY = 24 * 60 };
    *from = crew->starts.minute;
    *to = *from + (long)(crew->hours.value * A_DAY + 0.5);
    return LS_GIVEN(crew->starts) && LS_GIVEN(crew->hours);
}

static void crew_days(ls_dossier *d, const ls_dossier_load *load) {
    const ls_crew *crew = d->farm->crew;
    ls_arena *a = d->arena;
    ls_date day = load->hauled->day;
    int minute = load->entry == NULL ? -1 : load->entry->when.minute;
    long from, to;
    LS_EACH (const ls_hold, hold, crew->hold_days) {
        if (ls_hold_at(hold, day, minute))
            by_load(d, LS_EXCEEDED, "hauled on a hold day", load, NULL, hold->at,
                    ls_hold_words(a, hold, ls_dossier_words_of(d, day)));
    }
    if ((crew->days_off >> ls_date_weekday(day) & 1U) != 0)
        by_load(d, LS_NOTE, "hauled on a day off", load, NULL, crew->at,
                ls_arena_printf(a, "%s is a day off", ls_dossier_words_of(d, day)));
    if (minute >= 0 && hours_of(crew, &from, &to) && (minute < from || minute > to))
        by_load(d, LS_NOTE, "hauled outside the crew's hours", load, NULL, crew->hours.at,
                ls_arena_printf(a,
                                "the log says %02d:%02d; the crew works from %02ld:%02ld to "
                                "%02ld:%02ld",
                                minute / 60, minute % 60, from / 60, from % 60, to / 60, to % 60));
}

/* ---- loads without a place or a side ---- */

static void lost_load(ls_dossier *d, const char *item, const char *of, long entry, const char *what, const char *mend) {
    ls_dossier_finding *f = ls_dossier_add(d, LS_ABOUT_TRANSFER, item, of);
    ls_dossier_about_entry(d, f, entry);
    ls_dossier_given(d, f, false, LS_NOWHERE, LS_NOWHERE, what, mend);
    f->where = ls_dossier_entries(d, f);
    ls_dossier_tell_apart(d, f, f->where);
}

static void unknown_sides(ls_dossier *d) {
    ls_coded_lots lots = ls_books_lots(d->arena, d->farm);
    for (size_t i = 0; d->log != NULL && i < d->log->entries.n; i++) {
        const ls_log_entry *e = &d->log->entries.at[i];
        if (ls_log_stands(e) && ls_books_lot(&lots, e->ticket.code) == NULL)
            lost_load(d, "load of an unknown side", e->ticket.text, e->number,
                      ls_arena_printf(d->arena,
                                      "the files have no side or house %s. The load is "
                                      "counted nowhere",
                                      e->ticket.code),
                      "name the file of that house too, or write formerly: OLD NAME under the "
                      "house; a load of another farm belongs into its own log");
    }
}

/* ---- waits ---- */

typedef LS_LIST(const ls_dossier_application *) applications;

/* What went on the field in the days of a wait before that day. */
static applications within(const ls_dossier *d, const ls_dossier_field *f, ls_date day, long days) {
    applications some = {0};
    for (size_t i = 0; i < f->applications.n; i++) {
        ls_date spread = f->applications.at[i].load->hauled->day;
        if (spread <= day && day - spread < days) *LS_PUSH(d->arena, &some) = &f->applications.at[i];
    }
    return some;
}

static ls_dossier_finding *of_field(ls_dossier *d, const ls_dossier_field *f, ls_finding_state state, const char *item,
                                    const applications *some, const char *what) {
    const char *name = ls_dossier_name(d->arena, f->buyer, f->field);
    ls_dossier_finding *x = ls_dossier_passed(d, state, item, name, f->field->at, what);
    x->field = name;
    for (size_t i = 0; i < some->n; i++) ls_dossier_about_entry(d, x, some->at[i]->load->hauled->log_entry);
    x->where = ls_dossier_entries(d, x);
    return x;
}

/* Against the plan's limit, then against the cautions; told once a field. */
static void too_soon(ls_dossier *d, const ls_dossier_field *f, const char *item, const char *what, const ls_day *day,
                     const ls_interval *const waits[]) {
    for (size_t i = 0; LS_GIVEN(*day) && waits[i] != NULL; i++) {
        const ls_interval *wait = waits[i];
        applications some = within(d, f, day->day, wait->in_case ? 0 : wait->days);
        if (some.n == 0) continue;
        ls_date newest = some.at[0]->load->hauled->day;
        for (size_t k = 1; k < some.n; k++)
            if (some.at[k]->load->hauled->day > newest) newest = some.at[k]->load->hauled->day;
        ls_dossier_finding *x =
            of_field(d, f, wait->given ? LS_EXCEEDED : LS_CAUTION, item, &some,
                     ls_arena_printf(d->arena, "spread on %s, %s on %s; not before %s (%ld days)",
                                     ls_dossier_words_of(d, newest), what, ls_dossier_words_of(d, day->day),
                                     ls_dossier_words_of(d, newest + (ls_date)wait->days), wait->days));
        if (!wait->given) x->cite = wait->source;
        return;
    }
}

/* Spread more days before the day it was planted than the plan has. */
static void planted_late(ls_dossier *d, const ls_dossier_field *f) {
    const ls_field *field = f->field;
    applications early = {0};
    if (!LS_GIVEN(field->planted) || !LS_GIVEN(field->days_before_planting)) return;
    for (size_t i = 0; i < f->applications.n; i++)
        if (field->planted.day - f->applications.at[i].load->hauled->day > field->days_before_planting.n)
            *LS_PUSH(d->arena, &early) = &f->applications.at[i];
    if (early.n > 0)
        of_field(d, f, LS_EXCEEDED, "spread too long before planting", &early,
                 ls_arena_printf(d->arena, "spread on %s, planted on %s; at most %ld days before",
                                 ls_dossier_words_of(d, early.at[0]->load->hauled->day),
                                 ls_dossier_words_of(d, field->planted.day), field->days_before_planting.n));
}

static void each_field(ls_dossier *d) {
    LS_EACH (const ls_dossier_field, f, d->fields) {
        const ls_field *field = f->field;
        ls_earliest e = ls_agronomy_earliest(d->books->reference, field, LS_NO_DATE);
        too_soon(d, f, "harvested too soon", "harvested", &field->harvested,
                 (const ls_interval *[]){&e.harvest, &e.organic_on_soil, &e.organic_off_soil, NULL});
        too_soon(d, f, "grazed too soon", "grazed", &field->grazing,
                 (const ls_interval *[]){&e.grazing, &e.cattle, NULL});
        planted_late(d, f);
    }
}

void ls_dossier_audit_days(ls_dossier *d) {
    each_field(d);
    LS_EACH (const ls_dossier_load, load, d->loads) {
        open_days(d, load);
        if (d->farm->crew != NULL) crew_days(d, load);
        if (load->n == 0 && d->farm->buyers.n > 0)
            lost_load(d, "load of unknown place", load->hauled->ticket, load->hauled->log_entry,
                      "the log names no field of these files",
                      ls_arena_printf(d->arena,
                                      "littershed record FILE... --replaces %ld --field "
                                      "\"Buyer/Field\"",
                                      load->hauled->log_entry));
    }
    unknown_sides(d);
}
