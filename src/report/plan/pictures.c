/* Pictures of the plan, for HTML: fields, money, the stack. */
#include "parts.h"

#include "report/chart.h"

#include <math.h>
#include <stdlib.h>

enum { LIKELY = 1 };

static double value(const ls_document *d, ls_line line) { return ls_line_value(d->view->sheet, line); }

/* ---- fields ---- */

typedef struct {
    const ls_buyer *buyer;
    const ls_field *field;
    const ls_field_sum *sum;
    size_t at; /* as in the file */
} place;
typedef LS_LIST(place) places;

/* Nearest first; where no distance is given last; else as in the file. */
static int by_distance(const void *a, const void *b) {
    const place *x = a, *y = b;
    double from = LS_GIVEN(x->buyer->distance) ? x->buyer->distance.value : HUGE_VAL,
           to = LS_GIVEN(y->buyer->distance) ? y->buyer->distance.value : HUGE_VAL;
    return from < to ? -1 : from > to ? 1 : x->at < y->at ? -1 : x->at > y->at;
}

static ls_chart_row field_row(const ls_document *d, const place *f) {
    return (ls_chart_row){
        .label = ls_doc_told(d, T("{}{}", OPTIONAL("{} ", GIVEN(f->buyer->distance, "mi")), W(f->field->name.text))),
        .shown = ls_doc_told(d, T("{} of {}{}", BARE(F(f->sum->likely, "ton")), F(f->sum->takes, "ton"),
                                  f->field->yard ? W("") : T(", {}", F(f->sum->likely_acres, "ac")))),
        .value = value(d, f->sum->likely),
        .limit = value(d, f->sum->takes)};
}

/* Fields that get litter in the middle case; the first few with what has no field. */
static void fields_picture(ls_doc_group *top, const ls_plan_sums *s, const places *list, size_t at, size_t to,
                           double most) {
    const ls_document *d = top->document;
    ls_chart_rows rows = {0};
    for (size_t i = at; i < to; i++) *LS_PUSH(d->arena, &rows) = field_row(d, &list->at[i]);
    if (at == 0 && ls_report_lacks_fields(s->plan))
        *LS_PUSH(d->arena, &rows) = (ls_chart_row){.label = "NO FIELD",
                                                   .shown = ls_doc_told(d, F(s->plan->unplaced[LIKELY], "ton")),
                                                   .value = value(d, s->plan->unplaced[LIKELY]),
                                                   .hatched = true};
    const ls_chart_frame frame = {.id = ls_arena_printf(d->arena, "fields%zu-picture", at + 1),
                                  .title = "Tons and acres of each field, nearest first",
                                  .description =
                                      "Miles from the farm and name; tons likely of the tons at the limit, and "
                                      "acres. Full bar: tons likely. Mark: the limit, on all acres that may be "
                                      "spread. Hatched bar: tons with no field.",
                                  .unit = "ton",
                                  .most = most};
    ls_doc_picture(
        top, at == 0 ? LS_FIRST : LS_FULL, NULL,
        to == list->n && at == 0
            ? "Nearest field first. Thick mark: the limit."
            : ls_doc_told(d, T("Fields up to {} of {}, nearest first. Thick mark: the limit.", N(to), N(list->n))),
        ls_chart(d->view, &frame, &rows), NULL);
}

void ls_report_put_fields_picture(ls_doc_group *top, const ls_plan_sums *s) {
    enum { OF_A_PICTURE = 12 };
    places list = {0};
    double most = 0;
    for (size_t i = 0; i < s->estimate->farm->buyers.n; i++) {
        const ls_buyer *b = &s->estimate->farm->buyers.at[i];
        for (size_t k = 0; k < b->fields.n; k++) {
            const ls_field_sum *sum = &s->buyers[i].fields[k];
            if (sum->likely == LS_NO_LINE) continue;
            most = fmax(most, value(top->document, sum->takes));
            *LS_PUSH(top->document->arena, &list) = (place){b, &b->fields.at[k], sum, list.n};
        }
    }
    if (list.n > 0) qsort(list.at, list.n, sizeof *list.at, by_distance);
    for (size_t at = 0, to; at == 0 || at < list.n; at = to) {
        to = at + OF_A_PICTURE < list.n ? at + OF_A_PICTURE : list.n;
        fields_picture(top, s, &list, at, to, most);
        if (to == list.n) return;
    }
}

/* ---- money ---- */

/* A bar down from where the one before it ended. */
static double step(const ls_document *d, ls_chart_rows *rows, const char *label, double from, double dollars) {
    *LS_PUSH(d->arena, rows) = (ls_chart_row){.label = label,
                                              .shown = ls_doc_told(d, V(fabs(dollars), "$")),
                                              .low = from,
                                              .value = from + dollars,
                                              .high = from,
                                              .hatched = dollars < 0};
    return from + dollars;
}

void ls_report_put_money_picture(ls_doc_group *top, const ls_plan *plan) {
    const ls_document *d = top->document;
    ls_chart_rows rows = {0};
    double left = value(d, plan->net_return);
    if (!isfinite(value(d, plan->income)) || !isfinite(left)) return;
    double at = step(d, &rows, "in", 0, value(d, plan->income));
    for (int i = 0; i < LS_COSTS; i++)
        if (plan->cost[i] != LS_NO_LINE) at = step(d, &rows, ls_cost_name(i), at, -value(d, plan->cost[i]));
    step(d, &rows, left < 0 ? "short" : "left", 0, left);
    const ls_chart_frame frame = {
        .id = "money-picture",
        .title = "Money: in, each cost, left",
        .description = "The first bar is what comes in. Each hatched bar is a cost, taken off where the bar "
                       "before it ends. The last bar is what is left; hatched: short.",
        .unit = "$",
        .labels = 66};
    ls_doc_picture(top, LS_FIRST, NULL, "Money in, each cost (hatched), and what is left.",
                   ls_chart(d->view, &frame, &rows), NULL);
}

LS_DOC_COLUMNS(columns, DATA("day"), DATA("out"), DATA_IN("tons", "ton"));

void ls_report_put_stack_picture(ls_doc_group *top, const ls_plan_sums *s) {
    enum { FIRST = 5 }; /* of many the first ones and the last */
    const ls_document *d = top->document;
    ls_doc_table t = LS_DOC_TABLE_IN(top, LS_DATA, "stack_by_day", NULL, columns);
    ls_chart_rows rows = {0};
    double room = value(d, s->plan->stack_room);
    size_t in = 0;
    while (in < s->stack_days.n && !s->stack_days.at[in].out) in++;
    for (size_t i = 0; i < s->stack_days.n; i++) {
        const ls_stack_day *day = &s->stack_days.at[i];
        LS_DOC_DATA_ROW(t, columns, DAY(day->day), FLAG(day->out), L(day->tons));
        size_t at = day->out ? i - in : i, n = day->out ? s->stack_days.n - in : in;
        if (!d->view->full && at >= FIRST && at + 1 < n) continue;
        *LS_PUSH(d->arena, &rows) =
            (ls_chart_row){.label = ls_doc_told(d, T("{}{}", W(day->out ? "not before " : ""), DAY(day->day))),
                           .shown = ls_doc_told(d, F(day->tons, "ton")),
                           .value = value(d, day->tons),
                           .hatched = day->out};
    }
    const ls_chart_frame frame = {.id = "stack-picture",
                                  .title = "Tons in the stack, day by day",
                                  .description =
                                      "Full bars: after the hauling of that day. Hatched: once fields that open "
                                      "on that day have theirs, not before it. Dashed line: room of the stack.",
                                  .unit = "ton",
                                  .rule = isfinite(room) ? room : 0,
                                  .rule_words = ls_doc_told(d, T("dashed: room for {}", F(s->plan->stack_room, "ton"))),
                                  .labels = 160};
    ls_doc_picture(top, LS_FIRST, NULL, "Tons in the stack. Hatched: once a field opens and has its loads.",
                   ls_chart(d->view, &frame, &rows), NULL);
}
