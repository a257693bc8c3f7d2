#include "pick.h"

#include <string.h>

typedef struct {
    const char *lot, *buyer; /* names; NULL: any */
    ls_date day;             /* LS_NO_DATE: any */
    const char *ticket;
} wish;

/* ---- what the options name ---- */

/* No such lot or buyer: said, with the nearest name or an example. */
static int unknown(ls_run *r, const char *what, const char *word, const char *const *names, size_t n) {
    const char *near = ls_text_nearest(word, names, n);
    if (near != NULL) return MISTAKE(r, "there is no %s \"%s\"; did you mean %s?", what, word, near);
    return MISTAKE(r, "there is no %s \"%s\"; for example %s", what, word, names[0]);
}

static int pick_lot(ls_run *r, wish *w) {
    const char *word = r->options->word[LS_OPTION_LOT];
    const ls_estimate *e = r->books.estimate;
    const char **names = LS_NEW(r->arena, const char *, e->n);
    for (size_t i = 0; word != NULL && i < e->n; i++) {
        names[i] = e->lots[i].name;
        if (strcmp(word, e->lots[i].name) == 0 || strcmp(word, e->lots[i].code) == 0) w->lot = e->lots[i].name;
    }
    return word == NULL || w->lot != NULL ? LS_DONE : unknown(r, "lot", word, names, e->n);
}

int ls_pick_buyer(ls_run *r, const char **out) {
    const char *word = r->options->word[LS_OPTION_BUYER];
    const ls_farm *f = r->books.farm;
    LS_LIST(const char *) names = {0}; /* those of the files, and of slips whose buyers they lack */
    *out = NULL;
    for (size_t i = 0; i < f->buyers.n; i++) *LS_PUSH(r->arena, &names) = f->buyers.at[i].name.text;
    for (size_t i = 0; i < f->promised.n; i++)
        if (f->promised.at[i].buyer == NULL) *LS_PUSH(r->arena, &names) = f->promised.at[i].name;
    for (size_t i = 0; word != NULL && i < names.n; i++)
        if (strcmp(word, names.at[i]) == 0) *out = names.at[i];
    return word == NULL || *out != NULL ? LS_DONE : unknown(r, "buyer", word, names.at, names.n);
}

static int pick_day(ls_run *r, wish *w) {
    const char *word = r->options->word[LS_OPTION_DAY];
    if (word == NULL || ls_date_parse(word, strlen(word), &w->day)) return LS_DONE;
    return MISUSE(r, "--day \"%s\" is no date; for example --day 2026-02-16", word);
}

static int pick_ticket(ls_run *r, wish *w) {
    const char *word = r->options->word[LS_OPTION_TICKET];
    ls_ticket ticket;
    if (word == NULL) return LS_DONE;
    switch (ls_ticket_read(r->arena, word, &ticket)) {
    case LS_TICKET_FORM: return MISUSE(r, "--ticket \"%s\" is no ticket number; they look like NORTH-LEFT-03-M", word);
    case LS_TICKET_SLIP:
        return MISTAKE(r, "ticket %s is mistyped: its last character does not fit the rest; look at it again",
                       ticket.text);
    case LS_TICKET_OK: w->ticket = ticket.text;
    }
    return LS_DONE;
}

/* ---- the loads ---- */

static bool fits(const wish *w, const ls_load *load) {
    return (w->lot == NULL || strcmp(w->lot, load->lot->name) == 0) && (w->day == LS_NO_DATE || w->day == load->day) &&
           (w->ticket == NULL || strcmp(w->ticket, load->ticket) == 0) &&
           (w->buyer == NULL || (load->buyer != NULL && strcmp(w->buyer, load->buyer->name.text) == 0));
}

static int none(ls_run *r, const wish *w, const ls_plan *p) {
    if (p->loads_n + p->out_n == 0)
        return MISTAKE(r, "the plan has no loads, so there are no tickets; littershed plan FILE... says why");
    if (w->ticket != NULL)
        return MISTAKE(r, "the plan has no load %s that fits; littershed plan FILE... lists the loads", w->ticket);
    return MISTAKE(r,
                   "no load of the plan fits; littershed plan FILE... lists the loads and days (%s to %s; "
                   "loads out of the stack have no day)",
                   ls_date_iso(r->arena, p->start),
                   ls_date_iso(r->arena, p->high_finish != LS_NO_DATE ? p->high_finish : p->finish));
}

int ls_pick_loads(ls_run *r, const ls_plan *p, ls_picked *out) {
    wish w = {.day = LS_NO_DATE};
    int code;
    if ((code = pick_lot(r, &w)) != LS_DONE || (code = ls_pick_buyer(r, &w.buyer)) != LS_DONE ||
        (code = pick_day(r, &w)) != LS_DONE || (code = pick_ticket(r, &w)) != LS_DONE)
        return code;
    *out = (ls_picked){0};
    for (size_t i = 0; i < p->loads_n + p->out_n; i++) {
        const ls_load *load = ls_plan_load(p, i);
        if (fits(&w, load)) *LS_PUSH(r->arena, out) = load;
    }
    return out->n > 0 ? LS_DONE : none(r, &w, p);
}
