/* What became of what the birds were fed: eggs, growth, litter, what was taken out before, and the
 * rest: nitrogen that went to the air, phosphorus and potassium that were not recovered. */
#include "house.h"

/* Dry tons of the lot, whether hauled already or not. */
static ls_line dry_of(ls_litter_house *h, const ls_lot *lot) {
    return lot->made.line
               ? LS_PRODUCT(h->all, ls_printf(h->all, "%s.account.dry-of-lot", lot->slug),
                            "dry litter of the lot, hauled or not", "ton", lot->made.line, ls_litter_solids(h))
               : lot->dry_tons.line;
}

/* Of all lots, as the nutrient the laboratory reports, then as the element. */
static ls_line in_litter(ls_litter_house *h, ls_worksheet *w, const ls_lot *lots, size_t n, int e) {
    int nutrient = ls_litter_element_nutrient(e);
    const char *called = ls_nutrient_name(nutrient), *name = ls_element_name(e);
    const ls_figure *oxide = ls_litter_oxide(h, e);
    ls_line *x = LS_NEW(h->arena, ls_line, n);
    for (size_t i = 0; i < n; i++) {
        if (!lots[i].analysis->per_dry[nutrient]) return LS_NO_LINE;
        x[i] =
            LS_PRODUCT(ls_part(h->all, called, "%s.account.%s", lots[i].slug, called), "of_lot",
                       "%s in the lot, hauled or not", "lb", dry_of(h, &lots[i]), lots[i].analysis->per_dry[nutrient]);
    }
    if (!oxide) return ls_sum(w, "litter", "%s in the litter", "lb", x, n);
    ls_line sum = ls_sum(w, ls_printf(w, "litter.%s", called), ls_printf(w, "%s in the litter", called), "lb", x, n);
    ls_line per = ls_leaf_figure(w, "oxide", ls_printf(w, "%s per %s", called, name), "", oxide);
    return ls_quotient(w, "litter", "%s in the litter", "lb", sum, per);
}

/* What was taken out before holds as much in its dry matter as what is there. */
static ls_line out_over_left(ls_litter_house *h, const ls_lot *lots, size_t n) {
    ls_worksheet *w = ls_part(h->w, NULL, "account");
    ls_line *x = LS_NEW(h->arena, ls_line, n);
    if (!h->out) return LS_NO_LINE;
    for (size_t i = 0; i < n; i++) x[i] = dry_of(h, &lots[i]);
    ls_line dry = ls_sum(w, "dry", "dry litter, hauled or not", "ton", x, n);
    return ls_quotient(w, "out_over_left", "taken out before, over what was left", "", h->out, dry);
}

static ls_fate fate(ls_litter_house *h, const ls_lot *lots, size_t n, int e, ls_line ratio) {
    ls_worksheet *w = ls_part(h->w, ls_element_name(e), "account.%s", ls_element_name(e));
    ls_fate f = {.by_balance = h->by_balance[e], .found_again.line = h->found_again[e], .kept_share = h->kept_share[e]};
    if (!h->excreted[e] || !(f.litter = in_litter(h, w, lots, n, e))) return f;
    f.excreted = h->excreted[e];
    f.source = ls_litter_excreted_source(h, e);
    f.bedding = h->in_bedding[e];
    if (f.by_balance) f.eaten = h->eaten[e], f.eggs = h->in_eggs[e], f.growth = h->in_growth[e];
    ls_line came = f.excreted, stays = f.litter;
    if (f.bedding) came = LS_SUM(w, "came", "%s excreted and in the bedding", "lb", f.excreted, f.bedding);
    if (ratio) {
        f.out = LS_PRODUCT(w, "out", "%s in the litter taken out before", "lb", f.litter, ratio);
        stays = LS_SUM(w, "stays", "%s in the litter, there or taken out", "lb", f.litter, f.out);
    }
    f.lost = ls_difference(w, "lost", e == LS_ELEMENT_N ? "%s lost to the air" : "%s not recovered in the litter", "lb",
                           came, stays);
    f.lost_share = ls_quotient(w, "lost_share", "that over the %s excreted", "%", f.lost, f.excreted);
    if (!f.by_balance) return f;
    /* Eaten and brought with the bedding against all that it became: the two agree. */
    LS_SUM(w, "brought_in", "%s eaten and bedded", "lb", f.eaten, f.bedding);
    LS_SUM(w, "accounted", "%s in eggs, growth and litter, taken out and lost", "lb", f.growth, f.litter, f.lost,
           f.eggs, f.out);
    return f;
}

/* Nitrogen by the laboratory's report outside of what such houses are known to keep. More than was
 * excreted has its own caution. */
static void query_kept(ls_litter_house *h, const ls_account *a) {
    const ls_fate *n = &a->of[LS_ELEMENT_N];
    const char *row = ls_printf(h->w, "nitrogen kept %s", ls_bird_name(h->bird));
    const ls_figure *low = ls_litter_bound(h, "plausible", row, "low");
    const ls_figure *high = ls_litter_bound(h, "plausible", row, "high");
    if (!a->reported || !n->lost_share || !low || !high) return;
    ls_line kept =
        ls_complement(h->w, "account.N.kept_share", "share of the excreted N that the litter kept", "%", n->lost_share);
    double v = ls_line_value(h->w, kept);
    if ((v >= low->value && v <= high->value) || v > 1) return;
    ls_litter_caution(h, "nitrogen-kept", ls_litter_source(low),
                      "the litter holds %s%% of the nitrogen excreted, not the usual %s to %s%%. Check the tons, "
                      "%s",
                      ls_number_text(h->arena, 100 * v, 2), ls_number_text(h->arena, 100 * low->value, 2),
                      ls_number_text(h->arena, 100 * high->value, 2),
                      v < low->value ? "the sample (dried, or kept warm?), wet litter, the protein of the feed"
                                     : "the sample, the bird count, the protein of the feed");
}

void ls_litter_account(ls_litter_house *h, const ls_lot *lots, size_t n) {
    if (h->bird == 0 || !h->bird_days) return;
    ls_account a = {.house = h->house, .reported = true, .dry_found.line = h->dry_found};
    ls_line ratio = out_over_left(h, lots, n);
    for (int e = 0; e < LS_ELEMENTS; e++) {
        a.of[e] = fate(h, lots, n, e, ratio);
        a.own |= a.of[e].by_balance;
    }
    for (size_t i = 0; i < n; i++) {
        a.own |= lots[i].analysis->report != NULL;
        a.reported &= lots[i].analysis->report != NULL;
    }
    query_kept(h, &a);
    *LS_PUSH(h->arena, &h->estimate->accounts) = a;
}
