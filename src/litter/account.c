/* What became of what the birds were fed: eggs, growth, litter, what was taken out before, and the
 * rest: nitrogen that went to the air, phosphorus and potassium that were not recovered. */
#include "house.h"

/* Dry tons of the lot, whether hauled already or not. */
static ls_line dry_of(ls_litter_house *h, const ls_lot *lot) {
    if (lot->made.line == LS_NO_LINE)
        return lot->dry_tons.line;
    const char *key = ls_printf(h->w, "%s.account.dry-of-lot", lot->slug);
    ls_line known = ls_line_find(h->w, key);
    return known != LS_NO_LINE ? known
                               : LS_PRODUCT(h->w, key, "dry litter of the lot, hauled or not",
                                            "ton", lot->made.line, ls_litter_solids(h));
}

/* Of all lots, as the nutrient the laboratory reports, then as the element. */
static ls_line in_litter(ls_litter_house *h, const ls_lot *lots, size_t n, int e) {
    ls_worksheet *w = h->w;
    const char *name = ls_element_name(e), *oxide = ls_litter_element_oxide(e);
    int nutrient = ls_litter_element_nutrient(e);
    const char *called = ls_nutrient_name(nutrient);
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, n);
    for (size_t i = 0; i < n; i++) {
        if (lots[i].analysis->per_dry[nutrient] == LS_NO_LINE)
            return LS_NO_LINE;
        x[i] = LS_PRODUCT(w, ls_printf(w, "%s.account.%s.of_lot", lots[i].slug, called),
                          ls_printf(w, "%s in the lot, hauled or not", called), "lb",
                          dry_of(h, &lots[i]), lots[i].analysis->per_dry[nutrient]);
    }
    const char *key = LS_KEY(h, "account.%s.litter", name);
    const char *label = ls_printf(w, "%s in the litter", name);
    if (!oxide)
        return ls_sum(w, key, label, "lb", x, n);
    ls_line sum = ls_sum(w, LS_KEY(h, "account.%s.litter.%s", name, called),
                         ls_printf(w, "%s in the litter", called), "lb", x, n);
    ls_line per =
        ls_litter_shared(h, LS_KEY(h, "account.%s.oxide", name),
                         ls_printf(w, "%s per %s", called, name), "", ls_litter_practice(h, oxide));
    return ls_quotient(w, key, label, "lb", sum, per);
}

/* What was taken out before holds as much in its dry matter as what is there. */
static ls_line out_over_left(ls_litter_house *h, const ls_lot *lots, size_t n) {
    if (h->out == LS_NO_LINE)
        return LS_NO_LINE;
    ls_worksheet *w = h->w;
    ls_line *x = LS_NEW(ls_worksheet_arena(w), ls_line, n);
    for (size_t i = 0; i < n; i++)
        x[i] = dry_of(h, &lots[i]);
    ls_line dry = ls_sum(w, LS_KEY(h, "account.dry"), "dry litter, hauled or not", "ton", x, n);
    return ls_quotient(w, LS_KEY(h, "account.out_over_left"),
                       "taken out before, over what was left", "", h->out, dry);
}

/* Eaten and brought with the bedding against all that it became: the two agree. */
static void prove(ls_litter_house *h, int e, const ls_fate *f) {
    ls_worksheet *w = h->w;
    const char *name = ls_element_name(e);
    ls_line in[2] = {f->eaten, f->bedding};
    ls_sum(w, LS_KEY(h, "account.%s.brought_in", name), ls_printf(w, "%s eaten and bedded", name),
           "lb", in, f->bedding != LS_NO_LINE ? 2 : 1);
    ls_line to[5] = {f->growth, f->litter, f->lost};
    size_t n = 3;
    if (f->eggs != LS_NO_LINE)
        to[n++] = f->eggs;
    if (f->out != LS_NO_LINE)
        to[n++] = f->out;
    ls_sum(w, LS_KEY(h, "account.%s.accounted", name),
           ls_printf(w, "%s in eggs, growth and litter, taken out and lost", name), "lb", to, n);
}

static ls_fate fate(ls_litter_house *h, const ls_lot *lots, size_t n, int e, ls_line ratio) {
    ls_worksheet *w = h->w;
    const char *name = ls_element_name(e);
    ls_fate f = {.by_balance = h->by_balance[e],
                 .eaten = LS_NO_LINE,
                 .eggs = LS_NO_LINE,
                 .growth = LS_NO_LINE,
                 .excreted = LS_NO_LINE,
                 .bedding = LS_NO_LINE,
                 .out = LS_NO_LINE,
                 .litter = LS_NO_LINE,
                 .lost = LS_NO_LINE,
                 .lost_share = LS_NO_LINE};
    if (h->excreted[e] == LS_NO_LINE || (f.litter = in_litter(h, lots, n, e)) == LS_NO_LINE)
        return f;
    f.excreted = h->excreted[e];
    f.source = ls_litter_excreted_source(h, e);
    f.bedding = h->in_bedding[e];
    if (f.by_balance)
        f.eaten = h->eaten[e], f.eggs = h->in_eggs[e], f.growth = h->in_growth[e];
    ls_line came = f.excreted, stays = f.litter;
    if (f.bedding != LS_NO_LINE)
        came = LS_SUM(w, LS_KEY(h, "account.%s.came", name),
                      ls_printf(w, "%s excreted and in the bedding", name), "lb", f.excreted,
                      f.bedding);
    if (ratio != LS_NO_LINE) {
        f.out = LS_PRODUCT(w, LS_KEY(h, "account.%s.out", name),
                           ls_printf(w, "%s in the litter taken out before", name), "lb", f.litter,
                           ratio);
        stays = LS_SUM(w, LS_KEY(h, "account.%s.stays", name),
                       ls_printf(w, "%s in the litter, there or taken out", name), "lb", f.litter,
                       f.out);
    }
    f.lost = ls_difference(
        w, LS_KEY(h, "account.%s.lost", name),
        ls_printf(w, e == LS_ELEMENT_N ? "%s lost to the air" : "%s not recovered in the litter",
                  name),
        "lb", came, stays);
    f.lost_share =
        ls_quotient(w, LS_KEY(h, "account.%s.lost_share", name),
                    ls_printf(w, "that over the %s excreted", name), "%", f.lost, f.excreted);
    if (f.by_balance)
        prove(h, e, &f);
    return f;
}

/* Nitrogen by the laboratory's report outside of what such houses are known to keep. More than was
 * excreted has its own caution. */
static void query_kept(ls_litter_house *h, const ls_account *a) {
    const ls_fate *n = &a->of[LS_ELEMENT_N];
    const char *row = ls_printf(h->w, "nitrogen kept %s", ls_bird_name(h->bird));
    const ls_figure *low = ls_litter_bound(h, "plausible", row, "low");
    const ls_figure *high = ls_litter_bound(h, "plausible", row, "high");
    if (!a->reported || n->lost_share == LS_NO_LINE || !low || !high)
        return;
    ls_worksheet *w = h->w;
    ls_line kept =
        ls_complement(w, LS_KEY(h, "account.N.kept_share"),
                      "share of the excreted N that the litter kept", "%", n->lost_share);
    double v = ls_line_value(w, kept);
    if ((v >= low->value && v <= high->value) || v > 1)
        return;
    ls_arena *arena = ls_worksheet_arena(w);
    ls_litter_caution(
        h, "nitrogen-kept", ls_litter_source(low),
        "the litter holds %s%% of the nitrogen excreted, not the usual %s to %s%%. Check the tons, "
        "%s",
        ls_number_text(arena, 100 * v, 2), ls_number_text(arena, 100 * low->value, 2),
        ls_number_text(arena, 100 * high->value, 2),
        v < low->value ? "the sample (dried, or kept warm?), wet litter, the protein of the feed"
                       : "the sample, the bird count, the protein of the feed");
}

void ls_litter_account(ls_litter_house *h, const ls_lot *lots, size_t n) {
    if (h->bird == 0 || h->bird_days == LS_NO_LINE)
        return;
    ls_account a = {.house = h->house, .reported = true, .dry_found = {.line = h->dry_found}};
    ls_line ratio = out_over_left(h, lots, n);
    for (int e = 0; e < LS_ELEMENTS; e++) {
        a.of[e] = fate(h, lots, n, e, ratio);
        a.of[e].found_again.line = h->found_again[e];
        a.of[e].kept_share = h->kept_share[e];
        a.own |= a.of[e].by_balance;
    }
    for (size_t i = 0; i < n; i++) {
        a.own |= lots[i].analysis->report != NULL;
        a.reported &= lots[i].analysis->report != NULL;
    }
    query_kept(h, &a);
    *LS_PUSH(ls_worksheet_arena(h->w), &h->estimate->accounts) = a;
}
