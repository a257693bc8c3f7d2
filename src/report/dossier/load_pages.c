/* Every load, and for each buyer what left the farm for him. */
#include "paper.h"

#define W(s) LS_PAPER_WORDS(s)
#define L(line, unit) LS_PAPER_LINE(line, unit)
#define ROW(p, ...) ls_paper_row((p), (const ls_paper_cell[]){__VA_ARGS__})

static const char *word(const ls_dossier_load *l, ls_log_word which) {
    return l->entry != NULL && l->entry->words[which][0] != '\0' ? l->entry->words[which] : "-";
}

static const char *number(const ls_paper *p, const ls_dossier_load *l) {
    return ls_arena_printf(p->arena, "%ld", l->hauled->log_entry);
}

/* ---- transfers ---- */

static const ls_paper_column transfer_columns[] = {
    {"entry", true}, {"date", true},   {"ticket", true},        {"field", true},
    {"tons", false}, {"signed", true}, {"analysis given", true}};

/* What a load brought the buyer, a row for each part of it. */
static void transfer(ls_paper *p, const ls_dossier_load *l, const ls_buyer *b) {
    for (size_t k = 0; k < l->n; k++)
        if (l->drops[k].buyer == b)
            ROW(p, W(number(p, l)), W(ls_date_iso(p->arena, l->hauled->day)), W(l->hauled->ticket),
                W(l->drops[k].field->name.text), L(l->drops[k].tons, "ton"),
                W(word(l, LS_LOG_RECEIVED_BY)), W(word(l, LS_LOG_ANALYSIS)));
}

static bool took(const ls_dossier *d, const ls_buyer *b) {
    for (size_t i = 0; i < d->loads.n; i++)
        for (size_t k = 0; k < d->loads.at[i].n; k++)
            if (d->loads.at[i].drops[k].buyer == b)
                return true;
    return false;
}

static void transfers(ls_paper *p, const ls_dossier *d) {
    const ls_farm *farm = d->farm;
    for (size_t b = 0; b < farm->buyers.n; b++) {
        const ls_buyer *buyer = &farm->buyers.at[b];
        if (ls_dossier_is_own(buyer) || !took(d, buyer))
            continue;
        ls_paper_heading(p, 3, ls_arena_printf(p->arena, "buyer%zu", b + 1), "To %s",
                         buyer->name.text);
        ls_paper_say(p, "Address: %s. Nearest stream: %s.",
                     buyer->address.text != NULL ? buyer->address.text : "not given",
                     buyer->stream.text != NULL ? buyer->stream.text : "not given");
        ls_paper_table(p, ls_arena_printf(p->arena, "Litter handed to %s", buyer->name.text),
                       transfer_columns, 7);
        for (size_t i = 0; i < d->loads.n; i++)
            transfer(p, &d->loads.at[i], buyer);
    }
}

/* ---- all loads ---- */

static const ls_paper_column load_columns[] = {{"entry", true}, {"date", true},  {"ticket", true},
                                               {"to", true},    {"tons", false}, {"by", true},
                                               {"truck", true}, {"driver", true}};

static void corrections(ls_paper *p, const ls_dossier *d) {
    for (size_t i = 0; d->log != NULL && i < d->log->entries.n; i++) {
        const ls_log_entry *e = &d->log->entries.at[i];
        if (e->replaces > 0)
            ls_paper_item(p, "entry %ld corrects entry %ld (%s)%s%s", e->number, e->replaces,
                          e->ticket.text, e->words[LS_LOG_NOTE][0] != '\0' ? ": " : "",
                          e->words[LS_LOG_NOTE]);
    }
}

static void days(ls_paper *p, const ls_dossier *d, bool charts) {
    static const ls_paper_column columns[] = {{"day", true}, {"loads", false}, {"tons", false}};
    ls_paper_table(p, "Loads by day", columns, 3);
    for (size_t i = 0; i < d->days.n; i++) {
        const ls_dossier_day *x = &d->days.at[i];
        ROW(p, W(ls_date_words(p->arena, x->day)), W(ls_arena_printf(p->arena, "%zu", x->loads)),
            L(x->tons, "ton"));
    }
    const char *svg = charts ? ls_dossier_chart_calendar(p->view, d) : NULL;
    if (svg != NULL)
        ls_paper_chart(p, "A row for each week with loads. Hatched: days off and hold days.", svg);
}

void ls_dossier_load_pages(ls_paper *p, const ls_dossier *d, bool charts) {
    const ls_farm *farm = d->farm;
    const ls_crew *crew = farm->crew;
    ls_paper_heading(p, 2, "loads", "Loads and transfers");
    if (farm->facts != NULL && farm->facts->name.text != NULL)
        ls_paper_say(p, "From %s, permit: %s.", farm->facts->name.text,
                     farm->facts->permit.text != NULL ? farm->facts->permit.text : "not given");
    if (crew != NULL && crew->hauler.text != NULL)
        ls_paper_say(p, "Hauled by %s, permit: %s.", crew->hauler.text,
                     crew->hauler_permit.text != NULL ? crew->hauler_permit.text : "not given");
    if (d->loads.n == 0)
        ls_paper_say(p, "No load is logged yet.");
    transfers(p, d);
    if (d->loads.n > 0)
        ls_paper_heading(p, 3, "all-loads", "Every load");
    ls_paper_table(p, "Every load that stands", load_columns, 8);
    for (size_t i = 0; i < d->loads.n; i++) {
        const ls_dossier_load *l = &d->loads.at[i];
        ROW(p, W(number(p, l)), W(ls_date_iso(p->arena, l->hauled->day)), W(l->hauled->ticket),
            W(ls_dossier_place(d->arena, l)), L(l->tons, "ton"),
            W(l->hauled->weighed ? "scale" : "eye"), W(word(l, LS_LOG_TRUCK)),
            W(word(l, LS_LOG_DRIVER)));
    }
    corrections(p, d);
    days(p, d, charts);
}
