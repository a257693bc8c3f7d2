/* The sheet of the stacking site: what it is like, how far from what, and how long each pile lay.
 */
#include "chapters.h"

LS_DOC_COLUMNS(distance_columns, WORDS("from", "from"), IN("distance_ft", "distance", "ft"),
               IN("least_ft", "at least", "ft"), WORDS("rule", "whose limit"), WORDS("too_near", "too near"));
LS_DOC_COLUMNS(pile_columns, DATA("lot"), DATA("file"), HEAD("litter of"), IN("in_tons", "in", "ton"),
               IN("out_tons", "out", "ton"), IN("still_tons", "there yet", "ton"), IN("days", "longest", "day"),
               WORDS("from", "from"), WORDS("to", "to"));
LS_DOC_COLUMNS(day_columns, DATA("lot"), HEAD("litter of"), WORDS("day", "day"), IN("in_tons", "in", "ton"),
               IN("out_tons", "out", "ton"), IN("lying_tons", "left", "ton"));

static void site(ls_doc_group *g, const ls_stack *s) {
    MEMBERS(g, {"roofed", FLAG(s->roofed.yes)}, {"cover", W(s->cover.text)}, {"base", W(s->base.text)},
            {"length_ft", GIVEN(s->length, "ft")}, {"width_ft", GIVEN(s->width, "ft")},
            {"height_ft", GIVEN(s->height, "ft")}, {"most_days", GIVEN(s->most_days, "day")},
            {"kept_until", GIVEN_DAY(s->kept_until)});
    SAY(g, LS_FULL,
        "{}; cover: {}; base: {}. {} by {}, {} high. It may be kept until {}{}. "
        "The local code decides.",
        W(s->roofed.yes ? "Under a roof" : "Not under a roof"), W(s->cover.text), W(s->base.text),
        GIVEN(s->length, "ft"), GIVEN(s->width, "ft"), GIVEN(s->height, "ft"), GIVEN_DAY(s->kept_until),
        OPTIONAL(", a load at most {}", GIVEN(s->most_days, "day")));
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "distances", "Distances", distance_columns);
    LS_EACH (const ls_stack_distance, x, s->distances) {
        LS_DOC_ROW(t, distance_columns, W(x->from.text), GIVEN(x->distance, NULL), GIVEN(x->least, NULL),
                   W(x->rule.text),
                   W(!LS_GIVEN(x->least)    ? NULL
                     : ls_stack_too_near(x) ? "yes"
                                            : "no"));
    }
    if (!s->roofed.yes)
        SAY(g, LS_FULL,
            "Published examples for litter piled outside: Virginia 14 days (va-630), North "
            "Carolina 15 days (nc-02t).");
}

static ls_doc_cell litter(ls_doc_group *g, const ls_dossier *d, const ls_dossier_pile *p) {
    const char *lot = ls_dossier_lot(d, p->file, p->lot);
    return p->file == 0 ? W(lot) : KEPT(g->document, "{} ({})", W(lot), W(ls_dossier_file(d, p->file)));
}

static void piles(ls_doc_group *g, const ls_dossier *d) {
    const ls_dossier_stack *s = &d->stack;
    const ls_dossier_balance *b = &d->balance;
    MEMBERS(g, {"opening_tons", BOOKED(b->opening, "ton")}, {"in_tons", BOOKED(b->stack_in, "ton")},
            {"out_tons", BOOKED(b->stack_out, "ton")}, {"still_tons", BOOKED(b->stacked, "ton")},
            {"longest_days", F(s->days, "day")});
    SAY(g, LS_FULL, "There from earlier files: {}; in: {}{}; out: {}; still in it: {}.", BOOKED(b->opening, "ton"),
        BOOKED(b->stack_in, "ton"),
        OPTIONAL("; never logged in: {}",
                 BOOKED(ls_line_value(d->sheet, b->unlogged) > 0 ? b->unlogged : LS_NO_LINE, "ton")),
        BOOKED(b->stack_out, "ton"), BOOKED(b->stacked, "ton"));
    if (s->days != LS_NO_LINE)
        SAY(g, LS_FULL, "Longest in it: {} to {}{}.", DAY(s->first), DAY(s->last),
            W(s->empty ? "" : ", some is there yet"));
    ls_doc_table t = LS_DOC_TABLE_IN(g, LS_FULL, "piles", "Piles, first in, first out", pile_columns);
    LS_EACH (const ls_dossier_pile, p, s->piles) {
        LS_DOC_ROW(t, pile_columns, W(ls_dossier_lot(d, p->file, p->lot)), W(ls_dossier_file(d, p->file)),
                   litter(g, d, p), BOOKED(p->in, NULL), BOOKED(p->out, NULL), BOOKED(p->lying, NULL), L(p->days),
                   DAY(p->first), DAY(p->last));
    }
    t = LS_DOC_TABLE_IN(g, LS_FULL, "days", "Days on which litter went in or out", day_columns);
    LS_EACH (const ls_dossier_stack_day, x, s->on) {
        const ls_dossier_pile *p = &s->piles.at[x->pile];
        LS_DOC_ROW(t, day_columns, W(ls_dossier_lot(d, p->file, p->lot)), litter(g, d, p), DAY(x->day),
                   BOOKED(x->in, NULL), BOOKED(x->out, NULL), BOOKED(x->lying, NULL));
    }
    if (s->on.n > 1)
        SAY(g, LS_FULL, "All these days: in {}; out {}; left {}.", BOOKED(s->in, "ton"), BOOKED(s->out, "ton"),
            BOOKED(s->lying, "ton"));
}

void ls_report_dossier_stack(ls_doc_group *top, const ls_dossier *d) {
    const ls_stack *s = d->farm->stack;
    if (s == NULL && d->stack.piles.n == 0) return;
    ls_doc_group *g = ls_doc_object(top, LS_FULL, "stack", NULL);
    if (s != NULL) site(g, s);
    piles(g, d);
    ls_doc_table t = ls_dossier_put_missing(g);
    ls_dossier_missing(t, s != NULL, "the site", "the top of the farm file",
                       "stack: {roofed: yes, length: 80 ft, width: 40 ft, height: 6 ft, "
                       "kept_until: 2026-09-30}");
    if (s == NULL) return;
    ls_dossier_missing(t, s->roofed.yes || s->cover.text != NULL, "the cover", "stack",
                       "cover: tarp, weighted at the edges");
    ls_dossier_missing(t, s->base.text != NULL, "the base", "stack", "base: concrete");
    ls_dossier_missing(t, s->distances.n > 0, "distances from water, wells and dwellings", "stack",
                       "distances: [{from: well, distance: 240 ft, least: 100 ft, rule: nutrient "
                       "management plan}]");
    ls_dossier_missing(t, LS_GIVEN(s->most_days), "how long litter may lie there", "stack", "most_days: 14 days");
}
