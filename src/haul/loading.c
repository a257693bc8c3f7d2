/* How long a truck takes to load, and what the loader moves in an hour. */
#include "plan.h"

#include <math.h>

/* One bucket: filled, dumped, and driven half the house's length out and back. */
static ls_line cycle_line(ls_haul_planner *p, ls_worksheet *w, const ls_lot *lot) {
    const ls_house *h = lot->house;
    const ls_loader *loader = p->farm->crew->loader;
    ls_line handling =
        ls_leaf_given(p->w, "loader-1.load_and_dump", "filling and emptying the bucket", "s", &loader->load_and_dump);
    static const char key[] = "cycle", label[] = "time for one bucket";
    if (!LS_GIVEN(h->length)) return ls_same(w, key, label, "s", handling);
    ls_line length = lot->house_length;
    if (length == LS_NO_LINE) length = ls_leaf_given(w, "length", "length of the house", "ft", &h->length);
    ls_line speed = ls_leaf_given(p->w, "loader-1.travel", "speed of the loader in the house", "mph", &loader->travel);
    ls_line drive = ls_quotient(w, "drive", "half the house out and back", "s", length, speed);
    return LS_SUM(w, key, label, "s", handling, drive);
}

/* Heaped bucket x fill factor x 60 / cycle minutes x job efficiency (Komatsu handbook, loader
 * productivity), in volume and in tons; and the same without pauses, as the days reckon. */
static void production(ls_haul_planner *p, ls_worksheet *w, ls_line heaped, ls_line fill, ls_loading *out) {
    out->steady = ls_quotient(w, "steady", "what the loader moves without pauses", "ton/h", out->bucket, out->cycle);
    ls_line efficiency = p->plan->job_efficiency = ls_leaf_figure(
        p->w, "loader-1.job-efficiency", "share of an hour a loader works", "%", ls_haul_practice(p, "job efficiency"));
    out->production =
        LS_PRODUCT(w, "production", "what the loader moves with usual pauses", "ton/h", out->steady, efficiency);
    ls_line as_it_comes = LS_PRODUCT(w, "bucket_volume", "volume of a bucket as it comes", "yd3", heaped, fill);
    ls_line volume =
        ls_quotient(w, "steady_volume", "volume the loader moves without pauses", "yd3/h", as_it_comes, out->cycle);
    out->volume = LS_PRODUCT(w, "volume", "volume the loader moves with usual pauses", "yd3/h", volume, efficiency);
}

/* Litter in a bucket, buckets for a full truck, and how long they take. */
static ls_loading loading_lines(ls_haul_planner *p, const ls_lot *lot) {
    ls_worksheet *w = ls_part(p->w, NULL, "days-loading.%s", lot->house->slug);
    ls_loading out;
    const ls_loader *loader = p->farm->crew->loader;
    ls_line heaped = ls_leaf_given(p->w, "loader-1.bucket", "heaped bucket", "yd3", &loader->bucket);
    ls_line fill = ls_leaf_given(p->w, "loader-1.fill", "how full the bucket comes", "%", &loader->fill);
    out.bucket = LS_PRODUCT(w, "bucket", "litter in a bucket", "ton", heaped, fill, lot->loose_density);
    ls_line load = LS_PRODUCT(w, "load", "litter of a full load", "ton", lot->payload.line,
                              ls_haul_exact(p, "loader-1.one-load", "one load", "load", 1));
    ls_line count = ls_haul_exact(p, "loader-1.one-bucket", "one bucket", "", 1);
    ls_line ratio = ls_quotient(w, "ratio", "load over bucket", "", load, out.bucket);
    out.buckets = ls_step_up(w, "buckets", "buckets for a full load", "", ratio, count);
    out.cycle = cycle_line(p, w, lot);
    out.time = LS_PRODUCT(w, "time", "time to load a truck", "min", out.buckets, out.cycle);
    production(p, w, heaped, fill, &out);
    return out;
}

void ls_haul_loading(ls_haul_planner *p, size_t lot) {
    const ls_estimate *e = p->e;
    size_t k = p->lot_of[lot], first = k;
    if (p->farm->crew->loader == NULL) {
        ls_line time = ls_haul_given_or(p, p->w, "days-loading.time", "time to load a truck", "min", NULL,
                                        "loading time", "How long a truck takes to load");
        p->clock.cycle[lot] = ls_haul_seconds(p, time);
        return;
    }
    while (first > 0 && e->lots[first - 1].house == e->lots[k].house) first--;
    if (lot == ls_haul_house_lot(p, k, 0))
        p->loading_of[k] = k > first ? p->loading_of[first] : loading_lines(p, &e->lots[k]);
    p->clock.bucket[lot] = ls_line_shown(p->w, p->loading_of[k].bucket);
    p->clock.cycle[lot] = ls_haul_seconds(p, p->loading_of[k].cycle);
}

/* Whole buckets, one at least. */
ls_sim_time ls_haul_load_time(const ls_haul_planner *p, size_t lot, double tons) {
    double bucket = p->clock.bucket[lot];
    double buckets = bucket > 0 ? fmax(1, ceil(tons / bucket - 1e-9)) : 1;
    return ls_haul_whole(buckets * p->clock.cycle[lot]);
}
