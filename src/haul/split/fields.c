/* Tons of one lot on the fields of one buyer. */
#include "split.h"

ls_haul_side ls_haul_straight_side(const ls_haul_task *t, ls_haul_answer *x, size_t lot, size_t buyer) {
    size_t row = ls_haul_task_field(t, lot, 0);
    return (ls_haul_side){t, x, lot, buyer, x->straight + row, t->open + row};
}

ls_haul_side ls_haul_out_side(const ls_haul_task *t, ls_haul_answer *x, size_t lot, size_t buyer) {
    size_t row = ls_haul_task_field(t, lot, 0);
    return (ls_haul_side){t, x, lot, buyer, x->out + row, t->later + row};
}

static size_t first(ls_haul_side s) { return s.t->first[s.buyer]; }

static size_t end(ls_haul_side s) { return s.t->first[s.buyer + 1]; }

int64_t ls_haul_side_tons(ls_haul_side s) {
    int64_t sum = 0;
    for (size_t f = first(s); f < end(s); f++) sum += s.on[f];
    return sum;
}

static int64_t spare(ls_haul_side s, size_t field) { return s.may[field] ? ls_haul_spare(s.t, s.x, s.lot, field) : 0; }

int64_t ls_haul_side_spare(ls_haul_side s) {
    int64_t sum = 0;
    for (size_t f = first(s); f < end(s); f++) {
        int64_t more = spare(s, f);
        if (s.on[f] + more < s.t->drop) continue;
        sum += more < s.t->tons[s.lot] ? more : s.t->tons[s.lot];
    }
    return sum;
}

/* What of need goes on a field: no piece and no rest below the smallest drop, if it can be helped. */
static int64_t share(ls_haul_side s, size_t field, int64_t need) {
    int64_t take = spare(s, field), least = s.on[field] > 0 ? 0 : s.t->drop;
    if (take >= need) return need >= least ? need : 0;
    if (s.t->given->whole_loads) return 0;
    int64_t rest = need - take;
    if (rest < s.t->drop) take -= s.t->drop - rest;
    return take >= least && take > 0 ? take : 0;
}

int64_t ls_haul_side_fill(ls_haul_side s, int64_t need) {
    for (int pass = 0; pass < 2; pass++)
        for (size_t f = first(s); f < end(s) && need > 0; f++) {
            if ((pass == 0) != (s.on[f] > 0)) continue;
            int64_t take = share(s, f, need);
            s.on[f] += take;
            need -= take;
        }
    return need;
}

void ls_haul_side_cut(ls_haul_side s, int64_t excess) {
    while (excess > 0) {
        size_t least = end(s), most = end(s);
        for (size_t f = first(s); f < end(s); f++) {
            if (s.on[f] == 0) continue;
            if (least == end(s) || s.on[f] < s.on[least]) least = f;
            if (most == end(s) || s.on[f] > s.on[most]) most = f;
        }
        if (least == end(s)) return;
        size_t from = s.on[least] <= excess ? least : most;
        int64_t take = s.on[from] < excess ? s.on[from] : excess;
        s.on[from] -= take;
        excess -= take;
    }
}

/* ---- slivers ---- */

static bool sliver(ls_haul_side s, size_t field) { return s.on[field] > 0 && s.on[field] < s.t->drop; }

/* All of it to another field in use. */
static bool give(ls_haul_side s, size_t field) {
    int64_t tons = s.on[field];
    for (size_t g = first(s); g < end(s); g++)
        if (g != field && s.on[g] + tons >= s.t->drop && s.on[g] > 0) {
            s.on[field] = 0;
            if (spare(s, g) >= tons) {
                s.on[g] += tons;
                return true;
            }
            s.on[field] = tons;
        }
    return false;
}

/* A whole drop by taking from a field that can spare it. */
static bool take(ls_haul_side s, size_t field) {
    int64_t lack = s.t->drop - s.on[field];
    for (size_t g = first(s); g < end(s); g++) {
        int64_t rest = s.on[g] - lack;
        if (g == field || (rest != 0 && rest < s.t->drop)) continue;
        s.on[g] -= lack;
        if (spare(s, field) >= lack) {
            s.on[field] += lack;
            return true;
        }
        s.on[g] += lack;
    }
    return false;
}

static bool fits(const ls_haul_task *t, const ls_haul_answer *x, size_t field) {
    return ls_haul_covered(t, x, field) <= t->capacity[field];
}

static bool still_whole(const ls_haul_task *t, int64_t tons) { return tons == 0 || tons >= t->drop; }

/* Move tons of this lot from field a to b, and as many of another lot back. */
static bool exchange(ls_haul_side s, size_t a, size_t b, int64_t tons) {
    if (tons <= 0 || !s.may[b] || s.on[a] < tons || !still_whole(s.t, s.on[a] - tons) ||
        !still_whole(s.t, s.on[b] + tons))
        return false;
    for (size_t j = 0; j < s.t->lots; j++) {
        int64_t *other = s.x->straight + ls_haul_task_field(s.t, j, 0);
        if (j == s.lot || other[b] < tons || !s.t->open[ls_haul_task_field(s.t, j, a)] ||
            !still_whole(s.t, other[b] - tons) || !still_whole(s.t, other[a] + tons))
            continue;
        s.on[a] -= tons, s.on[b] += tons, other[b] -= tons, other[a] += tons;
        if (fits(s.t, s.x, a) && fits(s.t, s.x, b)) return true;
        s.on[a] += tons, s.on[b] -= tons, other[b] += tons, other[a] -= tons;
    }
    return false;
}

static bool exchange_any(ls_haul_side s, size_t field) {
    for (size_t g = first(s); g < end(s); g++)
        if (g != field && s.may[g] &&
            (exchange(s, field, g, s.on[field]) || exchange(s, g, field, s.t->drop - s.on[field])))
            return true;
    return false;
}

bool ls_haul_side_mend(ls_haul_side s) {
    for (size_t f = first(s); f < end(s); f++)
        if (sliver(s, f) && !give(s, f) && !take(s, f) && !exchange_any(s, f)) return false;
    return true;
}
