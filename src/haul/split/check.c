/* Every limit once more, in whole units, from the answer alone. */
#include "split.h"

static const char *check_lot(const ls_haul_task *t, const ls_haul_answer *x, size_t lot) {
    int parts = 0;
    for (size_t to = 0; to <= t->buyers; to++) {
        size_t at = ls_haul_task_to(t, lot, to);
        if (x->full[at] < t->kept[at] || x->part[at] < 0 || x->part[at] >= t->payload[lot] + (t->payload[lot] == 0))
            return "loads that were promised, or a part load beyond a truck";
        parts += x->part[at] > 0;
    }
    if (parts > (t->given->no_part != NULL && t->given->no_part[lot] ? 0 : 1)) return "a second part load of a lot";
    if (ls_haul_gone(t, x, lot) > t->tons[lot]) return "more tons than the lot holds";
    int64_t in = ls_haul_sent(t, x, lot, t->buyers), out = ls_haul_out_of_lot(t, x, lot);
    if (out > in) return "more out of the stack than went in";
    size_t stack = ls_haul_task_to(t, lot, t->buyers);
    if (in - out >= t->payload[lot] && x->full[stack] > t->kept[stack])
        return "a load in the stack that no field waits for";
    return NULL;
}

static const char *check_pair(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t field) {
    size_t at = ls_haul_task_field(t, lot, field);
    int64_t in = x->straight[at], out = x->out[at];
    if (in < 0 || out < 0) return "less than nothing on a field";
    if ((in > 0 && !t->open[at]) || (out > 0 && !t->later[at])) return "a field that is closed";
    if ((in > 0 && in < t->drop) || (out > 0 && out < t->drop)) return "less than the smallest drop";
    return NULL;
}

static const char *check_loads(const ls_haul_task *t, const ls_haul_answer *x, size_t lot, size_t buyer) {
    int64_t on = 0;
    for (size_t f = t->first[buyer]; f < t->first[buyer + 1]; f++) on += x->straight[ls_haul_task_field(t, lot, f)];
    if (on != ls_haul_sent(t, x, lot, buyer)) return "loads and fields that do not agree";
    for (int out = 0; out < 2; out++)
        if (!ls_haul_pieces_of(t, x, lot, buyer, out == 1, NULL)) return "loads that cannot be formed";
    return NULL;
}

static const char *check_buyer(const ls_haul_task *t, const ls_haul_answer *x, size_t buyer) {
    if (t->most[buyer] != LS_HAUL_PLENTY && ls_haul_on_buyer(t, x, buyer) > t->most[buyer])
        return "more tons than ordered";
    if (t->most_loads[buyer] != LONG_MAX && ls_haul_trips(t, x, buyer) > t->most_loads[buyer])
        return "more loads than ordered";
    return NULL;
}

static const char *check_field(const ls_haul_task *t, const ls_haul_answer *x, size_t field) {
    if (ls_haul_covered(t, x, field) > t->capacity[field]) return "acres covered twice";
    for (size_t i = 0; i < t->lots; i++) {
        const char *wrong = check_pair(t, x, i, field);
        if (wrong != NULL) return wrong;
    }
    return NULL;
}

const char *ls_haul_check(const ls_haul_task *t, const ls_haul_answer *x) {
    const char *wrong = NULL;
    for (size_t i = 0; i < t->lots && wrong == NULL; i++) {
        wrong = check_lot(t, x, i);
        for (size_t b = 0; b < t->buyers && wrong == NULL; b++) wrong = check_loads(t, x, i, b);
    }
    for (size_t f = 0; f < t->fields && wrong == NULL; f++) wrong = check_field(t, x, f);
    for (size_t b = 0; b < t->buyers && wrong == NULL; b++) wrong = check_buyer(t, x, b);
    if (wrong == NULL && !ls_haul_keeps_out(t, x)) wrong = "less out of the stack than was promised";
    if (wrong == NULL && ls_haul_room_left(t, x) < 0) wrong = "more in the stack than it has room for";
    return wrong;
}
