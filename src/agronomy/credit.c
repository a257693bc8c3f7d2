/* Nitrogen that comes from elsewhere: legume, starter, irrigation water, litter spread for earlier
 * crops. */
#include "agronomy/room.h"

/* The year of the crop that the litter is for. */
static long crop_year(ls_agronomy_plot *p) {
    const ls_field *f = p->field;
    if (LS_GIVEN(f->for_crop))
        return f->for_crop.n;
    ls_date opening = ls_agronomy_opening(p);
    if (opening != LS_NO_DATE) {
        int year = ls_date_year(opening);
        ls_agronomy_flag(p,
                         "no for_crop given: this litter is taken as for the crop of %d, the year "
                         "it can be spread",
                         year);
        return year;
    }
    long latest = 0;
    for (size_t i = 0; i < f->earlier_litter.n; i++) {
        const ls_earlier *e = &f->earlier_litter.at[i];
        long year = LS_GIVEN(e->for_crop) ? e->for_crop.n : e->year.n;
        latest = year > latest ? year : latest;
    }
    ls_agronomy_flag(p,
                     "no for_crop and no opening day given: this litter is taken as for the crop "
                     "of %ld, the year after the last "
                     "crop that had litter",
                     latest + 1);
    return latest + 1;
}

/* What litter spread earlier still gives: rate x its organic N x the share released in the year;
 * LS_NO_LINE: nothing by the table. */
static ls_line earlier_credit(ls_agronomy_plot *p, const ls_earlier *e, size_t number, long year) {
    ls_agronomy *g = p->g;
    ls_worksheet *w = g->w;
    const char *slug = p->out->slug;
    long n = year - (LS_GIVEN(e->for_crop) ? e->for_crop.n : e->year.n) + 1;
    if (n < 1 || (size_t)n > g->released.n || g->released.at[n - 1] == LS_NO_LINE)
        return LS_NO_LINE;
    ls_line rate = ls_leaf_given(w, ls_words(w, "%s.credit.earlier_%zu.spread", slug, number),
                                 "earlier litter, rate", "ton/ac", &e->rate);
    ls_line organic = ls_leaf_given(w, ls_words(w, "%s.credit.earlier_%zu.organic_N", slug, number),
                                    "earlier litter, organic N", "lb/ton", &e->organic_nitrogen);
    return LS_PRODUCT(w, ls_words(w, "%s.credit.earlier_%zu.N", slug, number),
                      ls_words(w, "N from earlier litter, year %ld after spreading", n), "lb/ac",
                      rate, organic, g->released.at[n - 1]);
}

static size_t add_earlier(ls_agronomy_plot *p, ls_line *credits) {
    const ls_field *f = p->field;
    if (f->earlier_litter.n == 0)
        return 0;
    long year = crop_year(p);
    size_t n = 0;
    for (size_t i = 0; i < f->earlier_litter.n; i++) {
        ls_line credit = earlier_credit(p, &f->earlier_litter.at[i], i + 1, year);
        if (credit != LS_NO_LINE)
            credits[n++] = credit;
    }
    return n;
}

static size_t add_given(ls_agronomy_plot *p, ls_line *credits) {
    const ls_credits *c = p->field->credits;
    if (c == NULL)
        return 0;
    ls_worksheet *w = p->g->w;
    size_t n = 0;
    if (LS_GIVEN(c->legume))
        credits[n++] = ls_leaf_given(w, LS_AGRONOMY_KEY(p, "credit.legume"),
                                     "N from the legume before", "lb/ac", &c->legume);
    if (LS_GIVEN(c->starter))
        credits[n++] = ls_leaf_given(w, LS_AGRONOMY_KEY(p, "credit.starter"),
                                     "N in starter fertilizer", "lb/ac", &c->starter);
    if (LS_GIVEN(c->irrigation))
        credits[n++] = ls_leaf_given(w, LS_AGRONOMY_KEY(p, "credit.irrigation"),
                                     "N in irrigation water", "lb/ac", &c->irrigation);
    return n;
}

void ls_agronomy_credits(ls_agronomy_plot *p) {
    ls_agronomy *g = p->g;
    enum { GIVEN = 3 };
    ls_line *credits = LS_NEW(g->arena, ls_line, GIVEN + p->field->earlier_litter.n);
    size_t n = add_given(p, credits);
    n += add_earlier(p, credits + n);
    const char *key = LS_AGRONOMY_KEY(p, "credits.N"), *label = "N from elsewhere";
    ls_line *out = p->out->credits;
    out[LS_FIELD_N] = n > 0 ? ls_sum(g->w, key, label, "lb/ac", credits, n)
                            : ls_leaf_exact(g->w, key, label, "lb/ac", 0, LS_BY_DEFINITION,
                                            "the farm file gives none");
    out[LS_FIELD_P2O5] = out[LS_FIELD_K2O] = LS_NO_LINE;
    ls_line less =
        ls_difference(g->w, LS_AGRONOMY_KEY(p, "need_less_credits"), "N need less credits", "lb/ac",
                      p->out->need[LS_FIELD_N], out[LS_FIELD_N]);
    p->left[LS_FIELD_N] =
        LS_GREATEST(g->w, LS_AGRONOMY_KEY(p, "left.N"), "N left to give", "lb/ac", g->none, less);
    p->left[LS_FIELD_P2O5] = p->out->need[LS_FIELD_P2O5];
    p->left[LS_FIELD_K2O] = p->out->need[LS_FIELD_K2O];
}
