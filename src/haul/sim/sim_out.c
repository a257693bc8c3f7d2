/* Who is out when. */
#include "sim.h"

static bool is(const ls_sim_out *o, ls_sim_who who) {
    return o->who.what == LS_SIM_ALL ||
           (o->who.what == who.what && o->who.kind == who.kind && o->who.truck == who.truck);
}

ls_sim_time ls_sim_there(const ls_sim *s, ls_sim_who who, ls_sim_time t) {
    for (size_t k = 0; k < s->outs_n;) {
        const ls_sim_out *o = &s->outs[k++];
        if (is(o, who) && o->from <= t && t < o->to)
            t = o->to, k = 0; /* one seen before may cover this moment */
    }
    return t;
}

ls_sim_time ls_sim_until(const ls_sim *s, ls_sim_who who, ls_sim_time t) {
    ls_sim_time next = INT64_MAX;
    for (size_t k = 0; k < s->outs_n; k++) {
        const ls_sim_out *o = &s->outs[k];
        ls_sim_time from = o->from > t ? o->from : t;
        if (is(o, who) && from < o->to && from < next) next = from;
    }
    return next;
}

ls_sim_time ls_sim_absent(const ls_sim *s, ls_sim_who who, ls_sim_span span) {
    ls_sim_time sum = 0;
    for (ls_sim_time t = span.from; t < span.to;) {
        ls_sim_time from = ls_sim_until(s, who, t), to = ls_sim_there(s, who, from);
        if (from < span.to) sum += (to < span.to ? to : span.to) - from;
        t = to;
    }
    return sum;
}
